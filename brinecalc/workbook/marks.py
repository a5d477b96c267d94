"""Names by which the command line finds its way in a workbook: what is planned, what is money.

One idea: the places are written into the file as names, not remembered here. A row put in by hand or an older
workbook does not matter, since the names move with the cells.
"""

from __future__ import annotations

from typing import Dict

from brinecalc.hosts.formulas import places
from brinecalc.hosts.formulas.places import Area
from brinecalc.workbook import styles
from brinecalc.workbook.agreed import CELLS, HIDDEN, MONEY
from brinecalc.workbook.book import Book

FIELDS: Dict[str, str] = {
    "plan_products": "product",
    "plan_labels": "label",
    "plan_costs": "w_cost",
    "plan_reasons": "w_why",
    "plan_says": "w_says",
    "plan_messages": "w_message",
    "plan_put_in": "w_put_in",
    "plan_ready": "w_ready",
    "price_packs": "price_pack",
    "price_prices": "price_price",
    "price_dates": "price_date",
}
"""Name → the field whose whole column it stands for."""

_ABOUT_MONEY = ("price_says", "price_why", "price_cost", "price_used", "price_date", "price_supplier")
"""Fields that hold no amount in the form of money, but tell of prices, or of whom they were asked."""

_KEPT = ("price_paid",)
"""Fields in the form of money that others need although no price is known: without a price they say so."""

_HIDDEN_FIELDS = (
    ("r_cost", "r_cost_portion"), ("price_says", "price_says"), ("price_price", "price_price"),
    ("price_date", "price_shown_cost"), ("price_paid", "price_why"),
)  # fmt: skip
"""First and last field of the columns that hold nothing but money, or tell of it."""

_FORMS = (styles.FORMATS["money"], styles.FORMATS["fine_money"])


def write(book: Book) -> None:
    """Gives the names, once all sheets are written."""
    layout = book.layout
    for name, key in FIELDS.items():
        book.name(name, layout.grids[key].sheet, layout.whole(key, layout.grids[key].sheet))
    for name, (sheet_name, cell) in CELLS.items():
        book.name(name, sheet_name, cell)
    kept = {(layout.grids[key].sheet, layout.grids[key].columns[key]) for key in _KEPT}
    number = 0
    for sheet in book.workbook.worksheets:
        written = sheet._cells.values()  # iter_rows would make every blank cell between them
        money = [c for c in written if c.number_format in _FORMS]
        cells = {(c.row, c.column) for c in money if (sheet.title, c.column_letter) not in kept}
        for area in places.rectangles(cells):
            number += 1
            book.name(f"{MONEY}{number}", sheet.title, _absolute(area))
    for number, (first, last) in enumerate(_HIDDEN_FIELDS, 1):
        grid = layout.grids[first]
        whole = f"${grid.columns[first]}${grid.first_row}:${grid.columns[last]}${grid.last_row}"
        book.name(f"{HIDDEN}{number}", grid.sheet, whole)
    for key in _ABOUT_MONEY:
        book.name(MONEY + key, layout.grids[key].sheet, layout.whole(key, layout.grids[key].sheet))


def _absolute(area: Area) -> str:
    first = f"${places.letters(area.left)}${area.top}"
    last = f"${places.letters(area.right)}${area.bottom}"
    return first if area.single else f"{first}:{last}"
