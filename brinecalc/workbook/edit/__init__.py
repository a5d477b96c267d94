"""Changing single cells and parts of a finished workbook, and nothing else in it."""
