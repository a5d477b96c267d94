"""Adapters that carry the functions into each spreadsheet program."""
