"""What the project is made with: each module writes files that nobody edits by hand, and says so in them."""
