"""The version of the library and the date of its tables: the one place that states them."""

VERSION = "0.1.0"
TABLE_DATE = "2026-11-26"
