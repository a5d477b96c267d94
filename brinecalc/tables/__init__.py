"""Data tables with their sources, and the reader that checks them."""
