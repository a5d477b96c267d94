"""The first sheet: what the workbook does, what to fill in, the settings, and the cautions.

One idea: who opens the book for the first time needs this sheet and no manual.
"""

from __future__ import annotations

from openpyxl.styles import Alignment
from openpyxl.worksheet.hyperlink import Hyperlink
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc import version
from brinecalc.hosts.formulas import places
from brinecalc.workbook import settings, styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.settings import SHEET

__all__ = ["SHEET", "write"]

STEPS = (
    ("Plan", "Chef", "One row per batch. Fill the pale cells; the word under Says tells whether the row holds."),
    ("Results", "Chef", "All weights, times, meter readings and costs of every batch, ready to print."),
    (
        "Findings",
        "Chef",
        "Everything the safety rules and the plan have to say of each batch; read it before you start.",
    ),
    ("Card", "Cook", "One page for one batch: choose its number, print, write the readings on it."),
    ("Log", "Cook", "Meter readings as they come in, and when the batch will be done."),
    ("Recipe", "Consultant", "One brine worked out on its own, or taken from a batch of the plan."),
    ("Charts", "Consultant", "Salt against depth and time, and what a batch costs."),
    (
        "Prices",
        "Purchasing",
        "What each thing costs and what is on hand; a missing price is shown, never counted as nothing.",
    ),
    ("Order", "Purchasing", "What to buy for the whole plan, in packs."),
    ("Soak chart", "Reference", "Hours to soak and rest for every product, by thickness and strength."),
    ("Limits", "Reference", "Every limit the workbook holds you to, with its rule and source."),
    ("Functions", "Reference", "All functions with their arguments and an example each."),
    ("Scales", "Reference", "The same brine on every scale, from the salometer to pounds per gallon."),
)
"""Sheet, who it is for, and what it does; only sheets that are there are listed."""

CAUTIONS = (
    "The workbook computes; it does not permit. Local food law, your own approved process and a licensed person come first.",
    "Curing salt: weigh it, have a second person check it, never by spoon, never with cola or an acid brine.",
    "Perishable food stays at or below 5 °C / 41 °F from the moment it goes in until it is cooked.",
    "Times are estimates between slow and fast; the salt meter and a cooked sample decide.",
    "Alkalis and acids: food grade, gloves and glasses, never together; added slowly, with room to foam.",
    "A brine is used once. The salt and pH shown are no evidence that a food is safe at room temperature.",
)

CAN = (
    "A copy as values. Here you can read, print, choose a batch on Card, Log, Recipe and Charts, and set the kitchen, "
    "the name and the units shown."
)
CANNOT = "Plan, prices, readings and brines of your own are locked: for them open the live workbook where brinecalc is installed."
"""What a copy as values can do, and what it cannot."""


PLAN_AS_SENT = "One row per batch, as sent; the word under Says tells whether the row holds."


def write(book: Book, sheet: Worksheet) -> None:
    """Words, settings, derived factors."""
    for column, width in (("A", 3), ("B", 40), ("C", 26), ("D", 100)):
        sheet.column_dimensions[column].width = width
    styles.put(sheet, "B1", "Brine production workbook", "title")
    lead = "From what you want on the plate to what to weigh, when to start, what it costs and what to check."
    styles.put(sheet, "B2", book.says(lead, CAN), "lead")
    styles.put(sheet, "B3", book.says("", CANNOT), "strong")
    row = _section(sheet, 4, "The sheets")
    for name, who, words in STEPS:
        if name in book.workbook.sheetnames:
            sheet[f"B{row}"].hyperlink = Hyperlink(ref=f"B{row}", location=f"{places.quoted(name)}!A1", display=name)
            styles.put(sheet, f"B{row}", name, "link")
            styles.put(sheet, f"C{row}", who, "quiet")
            styles.put(sheet, f"D{row}", book.says(words, PLAN_AS_SENT) if name == "Plan" else words, "body")
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
    sheet.print_area = f"A1:D{row - 3}"
    sheet.page_setup.fitToHeight = 1


def _section(sheet: Worksheet, row: int, words: str) -> int:
    for column in "BCD":
        styles.put(sheet, f"{column}{row}", words if column == "B" else None, "section")
    return row + 1
