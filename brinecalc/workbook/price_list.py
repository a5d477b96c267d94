"""A list of new prices out of a CSV file, as purchasing programs and suppliers send them.

One idea: a price list is someone else's text and goes into many workbooks, so it is read whole and strictly before any
workbook is opened. What could act as a formula, be read in two ways or stands twice with two prices is refused with
its row and the way to write it.
"""

from __future__ import annotations

import csv
import datetime
import io
import re
from typing import Dict, List, NamedTuple, Optional, Tuple

from brinecalc import quantity
from brinecalc.errors import BrineError
from brinecalc.files import FileTrouble
from brinecalc.names import fold, singular
from brinecalc.trade import costing, ingredients, products

MOST_ROWS = 100_000
FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")
"""What a cell may not begin with: a spreadsheet program would take the rest for a formula."""

_HEADINGS: Dict[str, Tuple[str, ...]] = {
    "name": ("name", "ingredient", "product", "item", "what", "article", "description"),
    "price": ("price", "pack price", "price of the pack", "price of a pack", "unit price", "new price"),
    "pack": ("pack", "pack size", "size", "packing"),
    "date": ("date", "price date", "price of", "valid from", "as of"),
}
_SIGNS = "€$£¥"
_DAY_ZERO = datetime.date(1899, 12, 30)


class Price(NamedTuple):
    """One new price; `pack` and `date` (days as a spreadsheet counts them) where the list gives them."""

    name: str
    price: float
    pack: Optional[str]
    date: Optional[float]


class PriceList(NamedTuple):
    """All new prices by the key of their name, and the headings of columns that were not used."""

    prices: Dict[str, Price]
    unused: Tuple[str, ...]


def key(name: str) -> str:
    """The same for every name of one thing: aliases, capitals, spaces and plurals do not matter."""
    for known in (products.NAMES(), ingredients.NAMES()):
        if name in known:
            return fold(known.find(name).name)
    return fold(name) or name.strip()


def day(text: str, where: str) -> float:
    """A date written year first, as days; other orders are read differently in different countries."""
    try:
        return float((datetime.date.fromisoformat(text.strip()) - _DAY_ZERO).days)
    except ValueError:
        raise FileTrouble(f"{where}: “{text[:40]}” is not a date written as 2026-11-30") from None


def read(content: bytes, name: str) -> PriceList:
    """The prices of a CSV file; FileTrouble says what is wrong in which row."""
    text = _decoded(content, name)
    rows = _rows(text, name)
    if not rows:
        raise FileTrouble(f"{name} is empty; its first row must hold headings such as name, pack, price")
    _refuse_formulas(rows, name)
    columns, unused = _columns(rows[0], name)
    prices: Dict[str, Price] = {}
    for number, row in enumerate(rows[1:], 2):
        if not any(cell.strip() for cell in row):
            continue
        made = _price(row, columns, f"{name}, row {number}")
        known = prices.setdefault(key(made.name), made)
        if (known.price, known.pack) != (made.price, made.pack):
            raise FileTrouble(
                f"{name}, row {number}: {made.name} stands further up with another price; keep one of them"
            )
    if not prices:
        raise FileTrouble(f"{name} holds no prices below its headings")
    return PriceList(prices, unused)


def _decoded(content: bytes, name: str) -> str:
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return content.decode("utf-16", errors="strict")
    if b"\0" in content:
        raise FileTrouble(f"{name} is not a text file; save the list as CSV")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def _rows(text: str, name: str) -> List[List[str]]:
    head = text.lstrip().partition("\n")[0]
    mark = max((";", ",", "\t"), key=head.count)
    try:
        rows = [
            row
            for _, row in zip(
                range(MOST_ROWS + 2), csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
            )
        ]
    except csv.Error as error:
        raise FileTrouble(f"{name} cannot be read as CSV: {error}") from error
    if len(rows) > MOST_ROWS + 1:
        raise FileTrouble(f"{name} has more than {MOST_ROWS:,} rows")
    while rows and not any(cell.strip() for cell in rows[0]):
        rows.pop(0)
    return rows


def _refuse_formulas(rows: List[List[str]], name: str) -> None:
    for number, row in enumerate(rows, 1):
        for cell in row:
            if cell.lstrip(" \u00a0").startswith(FORMULA_SIGNS) and cell.strip():
                raise FileTrouble(
                    f"{name}, row {number}: “{cell.strip()[:40]}” begins with {cell.strip()[:1] or 'a tab'}, which a "
                    "spreadsheet program takes for a formula; write plain words and numbers, or leave the cell empty"
                )


def _columns(head: List[str], name: str) -> Tuple[Dict[str, int], Tuple[str, ...]]:
    """Which column holds what."""
    meanings = {_plain(word): what for what, words in _HEADINGS.items() for word in words}
    columns: Dict[str, int] = {}
    unused = []
    for index, heading in enumerate(head):
        what = meanings.get(_plain(heading))
        if what is None or what in columns:
            unused += [heading.strip()] if heading.strip() else []
        else:
            columns[what] = index
    for what in ("name", "price"):
        if what not in columns:
            raise FileTrouble(
                f"{name} has no column headed {what}; its first row reads {', '.join(h.strip() for h in head)[:80]}"
            )
    return columns, tuple(unused)


def _plain(heading: str) -> str:
    return " ".join(singular(word) for word in re.findall(r"[a-z]+", heading.casefold()))


def _price(row: List[str], columns: Dict[str, int], where: str) -> Price:
    def cell(what: str) -> str:
        index = columns.get(what, len(row))
        return row[index].strip() if index < len(row) else ""

    name, price, pack, date = (cell(what) for what in ("name", "price", "pack", "date"))
    if not name:
        raise FileTrouble(f"{where}: the price {price[:20]} has no name")
    if len(name) > 120:
        raise FileTrouble(f"{where}: the name is longer than 120 characters")
    return Price(name, _number(price, where), _pack(pack, where), day(date, where) if date else None)


def _number(text: str, where: str) -> float:
    if not text:
        raise FileTrouble(f"{where}: the price is missing; take the row out, or write 0 if it costs nothing")
    try:
        found = quantity.read(text.strip(_SIGNS + " \u00a0"), "number")
    except BrineError as error:
        raise FileTrouble(f"{where}: the price “{text[:40]}” {error.rule}; write it as 11.90") from error
    if not 0 <= found <= 1e9:
        raise FileTrouble(f"{where}: the price {found:g} must be from 0 to 1,000,000,000")
    return found


def _pack(text: str, where: str) -> Optional[str]:
    """The pack as the list writes it, once it has been seen to be one with a unit."""
    if not text:
        return None
    try:
        found = costing.positive(costing.amount(text, "pack"), "pack")
    except BrineError as error:
        raise FileTrouble(
            f"{where}: the pack “{text[:40]}” {error.rule}; {error.advice or 'write it as 25 kg'}"
        ) from error
    if found.bare:
        raise FileTrouble(f"{where}: the pack “{text[:40]}” needs its unit, such as 25 kg or 24 x 330 mL")
    return text
