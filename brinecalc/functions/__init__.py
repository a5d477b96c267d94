"""The worksheet functions, one module per family."""
