"""A small workbook that every command can do its work on: a plan of three batches and a list of two prices."""

from __future__ import annotations

import io

import openpyxl
from openpyxl.workbook.defined_name import DefinedName

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


def kitchen() -> bytes:
    """The workbook as bytes; its formulas have no values yet."""
    out = io.BytesIO()
    fill(openpyxl.Workbook()).save(out)
    return out.getvalue()
