"""The first sheet: what the workbook does, what to fill in, the settings, and the cautions."""

from __future__ import annotations

from openpyxl.styles import Alignment
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc import version
from brinecalc.workbook import settings, styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.settings import SHEET

__all__ = ["SHEET", "write"]

STEPS = (
    ("Start", "Choose units and rules below, once, before anything is typed."),
    ("Plan", "One row per batch. Fill the pale cells; the word under Says tells whether the row holds."),
    ("Results", "All weights, times, meter readings and costs of every batch, ready to print."),
    ("Prices", "What each thing costs and what is on hand; a missing price is shown, never counted as nothing."),
    ("Order", "What to buy for the whole plan, in packs."),
    ("Card", "One page for the cook: choose a batch, print."),
    ("Log", "Readings as they come in, and when the batch will be done."),
)

CAUTIONS = (
    "The workbook computes; it does not permit. Local food law, your own approved process and a licensed person come first.",
    "Curing salt: weigh it, have a second person check it, never by spoon, never with cola or an acid brine.",
    "Perishable food stays at or below 4 °C / 40 °F from the moment it goes in until it is cooked.",
    "Times are estimates between slow and fast; the salt meter and a cooked sample decide.",
    "Alkalis and acids: food grade, gloves and glasses, never together; added slowly, with room to foam.",
    "A brine is used once. The salt and pH shown are no evidence that a food is safe at room temperature.",
)


def write(book: Book, sheet: Worksheet) -> None:
    """Words, settings, derived factors."""
    for column, width in (("A", 3), ("B", 36), ("C", 16), ("D", 92)):
        sheet.column_dimensions[column].width = width
    styles.put(sheet, "B1", "Brine production workbook", "title")
    styles.put(
        sheet,
        "B2",
        "From what you want on the plate to what to weigh, when to start, what it costs and what to check.",
        "lead",
    )
    row = _section(sheet, 4, "The sheets")
    for name, words in STEPS:
        if name in book.workbook.sheetnames:
            styles.put(sheet, f"B{row}", name, "strong")
            sheet[f"B{row}"].hyperlink = f"#{name}!A1"
            styles.put(sheet, f"C{row}", words, "body")
            row += 1
    row = _section(sheet, row + 1, "Settings")
    row = settings.write(book, sheet, settings.to_set(book.options.units), row)
    row = _section(sheet, row + 1, "Cautions")
    for words in CAUTIONS:
        styles.put(sheet, f"B{row}", words, "body")
        sheet[f"B{row}"].alignment = Alignment(wrap_text=False, vertical="center")
        row += 1
    styles.put(sheet, f"B{row + 1}", f"brinecalc {version.VERSION}, tables of {version.TABLE_DATE}", "quiet")
    row = _section(sheet, row + 3, "What follows from the settings (nothing to fill in)")
    settings.write(book, sheet, settings.derived(), row)
    sheet.print_area = f"A1:D{row - 2}"
    sheet.page_setup.orientation = "portrait"


def _section(sheet: Worksheet, row: int, words: str) -> int:
    for column in "BCD":
        styles.put(sheet, f"{column}{row}", words if column == "B" else None, "section")
    return row + 1
