"""Spreadsheet formulas as text: cut into tokens, read into a tree, moved to another cell."""
