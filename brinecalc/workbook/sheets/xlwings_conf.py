"""The hidden sheet that classic xlwings reads its settings from, so that importing the functions is one click.

One idea: only what is true on every machine stands here: which module holds the functions, and that Python files lying
beside the workbook are not to be run. Where Python is installed is each machine's own affair.
"""

from __future__ import annotations

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import styles
from brinecalc.workbook.book import Book

SHEET = "xlwings.conf"

SETTINGS = (
    ("UDF MODULES", "brinecalc.hosts.excel"),
    ("ADD_WORKBOOK_TO_PYTHONPATH", "false"),
)
"""Name and value; xlwings reads them downwards from A1 to the first empty cell, as texts."""


def write(book: Book, sheet: Worksheet) -> None:
    """Writes the settings and hides the sheet."""
    for row, (name, value) in enumerate(SETTINGS, 1):
        styles.put(sheet, f"A{row}", name, "quiet", "text")
        styles.put(sheet, f"B{row}", value, "quiet", "text")
    sheet.column_dimensions["A"].width = 36
    sheet.column_dimensions["B"].width = 30
    sheet.sheet_state = "hidden"
