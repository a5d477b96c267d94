"""Small workbooks that every command can do its work on: a plan of three batches and a list of a few prices."""

from __future__ import annotations

import datetime
import functools
import io
import re

import openpyxl
from openpyxl.workbook.defined_name import DefinedName
from xlsx import saved

RANGES = {
    "price_names": "Prices!A1:A2",
    "price_prices": "Prices!B1:B2",
    "plan_products": "Plan!A1:A3",
    "plan_labels": "Plan!B1:B3",
    "plan_costs": "Plan!E1:E3",
}

PRICES = "name,price\nsalt,2.5\n"
"""A list with a new price for salt."""


def fill(book: openpyxl.Workbook) -> openpyxl.Workbook:
    """Lays plan, prices and their names into a workbook of openpyxl."""
    plan = book.active
    plan.title = "Plan"
    for row, product in enumerate(("chicken breast", "pork chops", "salmon fillet"), 1):
        cells = (product, f"batch {row}", row * 1000, f"=BRINE_SALT(C{row},5%)", f"=D{row}*Prices!B1/1000")
        for column, cell in enumerate(cells, 1):
            plan.cell(row, column, cell)
    prices = book.create_sheet("Prices")
    prices.append(["salt", 1.25])
    prices.append(["honey", 9])
    named(book, RANGES)
    return book


LARDER = {
    "price_names": "Prices!A1:A4",
    "price_packs": "Prices!C1:C4",
    "price_prices": "Prices!B1:B4",
    "price_dates": "Prices!D1:D4",
    "order_total": "Plan!E4",
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
    named(book, LARDER)
    return saved(book)


def with_a_stop() -> bytes:
    """The larder with a second batch that must not be started."""
    book = openpyxl.load_workbook(io.BytesIO(larder()))
    for row, word in enumerate(("ok", "STOP", "NOTE"), 1):
        book["Plan"].cell(row, 6, word)
    named(book, {"plan_says": "Plan!F1:F3"})
    return saved(book)


def with_card(products: str = "A1:A3") -> bytes:
    """The small workbook with a cell in which a batch is chosen; its products stand in those cells of the plan."""
    book = fill(openpyxl.Workbook())
    named(book, {"card_batch": "Plan!G1", "plan_products": f"Plan!{products}"})
    return saved(book)


def named(book: openpyxl.Workbook, places: dict[str, str]) -> None:
    """Gives names to places such as Plan!A1:A3."""
    for name, place in places.items():
        book.defined_names[name] = DefinedName(name, attr_text=re.sub(r"([A-Z]+)(\d+)", r"$\1$\2", place))


@functools.cache
def kitchen() -> bytes:
    """The workbook as bytes; its formulas have no values yet."""
    return saved(fill(openpyxl.Workbook()))
