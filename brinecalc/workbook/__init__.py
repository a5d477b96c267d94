"""The production workbooks: built by code, filled with values, shared."""
