"""Small workbooks that every command can do its work on: a plan of three batches and a list of a few prices."""

from __future__ import annotations

import datetime

import openpyxl
from openpyxl.workbook.defined_name import DefinedName
from xlsx import saved

RANGES = {
    "price_names": "Prices!$A$1:$A$2",
    "price_prices": "Prices!$B$1:$B$2",
    "plan_products": "Plan!$A$1:$A$3",
    "plan_labels": "Plan!$B$1:$B$3",
    "plan_costs": "Plan!$E$1:$E$3",
}

PRICES = "name,price\nsalt,2.5\n"
"""A list with a new price for salt."""


def fill(book: openpyxl.Workbook) -> openpyxl.Workbook:
    """Lays plan, prices and their names into a workbook of openpyxl."""
    plan = book.active
    plan.title = "Plan"
    for row, product in enumerate(("chicken breast", "pork chops", "salmon fillet"), 1):
        cells = (product, f"batch {row}", row * 1000, f"=BRINE_SALT(C{row},5%)", f"=D{row}*Prices!$B$1/1000")
        for column, cell in enumerate(cells, 1):
            plan.cell(row, column, cell)
    prices = book.create_sheet("Prices")
    prices.append(["salt", 1.25])
    prices.append(["honey", 9])
    for name, place in RANGES.items():
        book.defined_names[name] = DefinedName(name, attr_text=place)
    return book


LARDER = {
    "price_names": "Prices!$A$1:$A$4",
    "price_packs": "Prices!$C$1:$C$4",
    "price_prices": "Prices!$B$1:$B$4",
    "price_dates": "Prices!$D$1:$D$4",
    "order_total": "Plan!$E$4",
}
"""Names of a price list as large workbooks have it, and of the total of the order."""


def larder() -> bytes:
    """The small workbook with a price list that has packs and days."""
    book = fill(openpyxl.Workbook())
    book["Plan"]["E4"] = "=SUM(E1:E3)"
    lines = [("salt", 6.9, "10 kg"), ("honey", 36.5, "5 kg"), ("bay leaf", 14.0, "500 g"), ("water", 2.4, "1000 kg")]
    for row, line in enumerate(lines, 1):
        for column, cell in enumerate((*line, datetime.date(2027, 1, 15)), 1):
            book["Prices"].cell(row, column, cell)
    for name, place in LARDER.items():
        book.defined_names[name] = DefinedName(name, attr_text=place)
    return saved(book)


def kitchen() -> bytes:
    """The workbook as bytes; its formulas have no values yet."""
    return saved(fill(openpyxl.Workbook()))
