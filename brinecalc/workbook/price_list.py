"""A list of new prices out of a CSV file, as purchasing programs and suppliers send them.

One idea: a price list is someone else's text and goes into many workbooks, so it is read whole and strictly before any
workbook is opened. What could act as a formula, be read in two ways or stands twice with two prices is refused with
its row and the way to write it; all such rows are told at once. Columns that are not used are not read.
"""

from __future__ import annotations

import csv
import io
import re
from typing import Callable, Dict, List, NamedTuple, Optional, Tuple, TypeVar

from brinecalc import files
from brinecalc.files import FileTrouble
from brinecalc.names import fold, singular
from brinecalc.trade import ingredients, products
from brinecalc.workbook import price_cells
from brinecalc.workbook.price_cells import Misread

MOST_ROWS = 100_000
MOST_FAULTS = 40
"""Faults of a list that are spelled out; the rest are counted."""

_HEADINGS: Dict[str, Tuple[str, ...]] = {
    "name": ("name", "ingredient", "product", "item", "what", "article", "description"),
    "price": ("price", "pack price", "price of the pack", "price of a pack", "new price"),
    "pack": ("pack", "pack size", "size", "packing"),
    "date": ("date", "price date", "price of", "valid from", "as of"),
    "currency": ("currency", "money"),
}
_UNITS = ("unit", "unit of measure", "uom", "price unit", "price per", "per", "pricing unit", "sale unit", "sold by")
"""Headings of columns that let a price be that of a kilogram or a pound, which is not the price of a pack."""
_T = TypeVar("_T")


class Price(NamedTuple):
    """One new price; `pack`, `date` (days as a spreadsheet counts them) and `money` (sign or code) where the list gives them."""

    name: str
    price: float
    pack: Optional[str]
    date: Optional[float]
    money: Optional[str] = None


class PriceList(NamedTuple):
    """All new prices by the key of their name, the headings of columns that were not used, and the currency if told."""

    prices: Dict[str, Price]
    unused: Tuple[str, ...]
    money: Optional[str] = None


_BOUGHT_APART = frozenset(("ice",))
"""Names that the table of ingredients has for another one, and that are bought at a price of their own."""


def key(name: str) -> str:
    """The same for every name of one thing: aliases, capitals, spaces and plurals do not matter."""
    if fold(name) in _BOUGHT_APART:
        return fold(name)
    for known in (products.names(), ingredients.names()):
        if name in known:
            return fold(known.find(name).name)
    return fold(name) or name.strip()


_FINISHED = frozenset(map(fold, (
    "bacon", "streaky bacon", "corned beef", "salt beef", "corned beef brisket", "corned beef flat", "corned beef round",
    "coppa", "capocollo", "ham", "bone-in ham", "boneless ham", "whole ham", "gammon", "kipper", "bloater", "sauerkraut",
    "kraut", "gherkin", "pickled egg", "pink salt",
)))  # fmt: skip
"""Names that a kitchen has for what it makes of a product, and that a list may have for what is bought ready made; pink
salt may be a table salt. Common practice, no source."""


def may_be_other(name: str) -> bool:
    """Whether a list may mean something else by this name than a plan does."""
    return fold(name) in _FINISHED


def called(name: str, listed: str) -> Optional[str]:
    """The name that a list has for what is listed otherwise; None where the two read the same."""
    return None if fold(name) == fold(listed) else name


def day(text: str, where: str) -> Optional[float]:
    """A date written year first, as days."""
    try:
        return price_cells.day(text.strip())
    except Misread as fault:
        raise FileTrouble(f"{where}: {fault}") from fault


def read(content: bytes, name: str) -> PriceList:
    """The prices of a CSV file; FileTrouble says all that is wrong, each with its row."""
    text = files.text(content, name)
    rows = _rows(text, name)
    if not rows:
        raise FileTrouble(f"{name} is empty; its first row must hold headings such as name, pack, price")
    _refuse_units(rows, name)
    columns, unused = _columns(rows[0][1], name)
    reader = _Reader(columns, len(rows[0][1]), [row for _, row in rows[1:]], _mark(text))
    for number, row in rows[1:]:
        if any(cell.strip() for cell in row):
            reader.take(number, row)
    _refuse(name, reader.faults)
    if not reader.prices:
        raise FileTrouble(f"{name} holds no prices below its headings")
    return PriceList(reader.prices, unused, reader.money)


def _refuse_units(rows: List[Tuple[int, List[str]]], name: str) -> None:
    """Refuses a list with a column that may say what its prices are for, if it says anything: 4.12 per lb is no pack's price."""
    units = {_plain(word) for word in _UNITS}
    for index, heading in enumerate(rows[0][1]):
        filled = [row[index].strip() for _, row in rows[1:] if index < len(row) and row[index].strip()]
        if _plain(heading) in units and filled:
            raise FileTrouble(
                f"{name} has a column headed {heading.strip()} ({filled[0][:20]}), so its prices may be those of one unit; "
                "price means a whole pack. Give the pack under the heading pack, such as 1 lb or 10 kg, and take that column out"
            )


def _refuse(name: str, faults: List[str]) -> None:
    """One fault in a sentence, several as a list."""
    if len(faults) == 1:
        raise FileTrouble(f"{name}, {faults[0]}")
    if faults:
        more = [f"… and {len(faults) - MOST_FAULTS} more"] if len(faults) > MOST_FAULTS else []
        lines = "".join(f"\n  {fault}" for fault in faults[:MOST_FAULTS] + more)
        raise FileTrouble(f"{name} has {len(faults)} faults, so nothing was read from it:{lines}")


_POINT = re.compile(r"\.\d{1,2}(?!\d)")


class _Reader:
    """Takes rows one by one and notes every fault."""

    def __init__(self, columns: Dict[str, int], width: int, rows: List[List[str]], mark: str) -> None:
        self.columns = columns
        self.width = width
        self.prices: Dict[str, Price] = {}
        self.rows: Dict[str, int] = {}
        self.faults: List[str] = []
        self.money: Optional[str] = None
        prices = [self.cell(row, "price") for row in rows]
        points = any(_POINT.search(price) for price in prices)  # 11.90 says that a point is no thousands mark
        commas = any(map(price_cells.writes_commas, prices)) or (mark == ";" and not points)
        self.decimal = "," if commas else "." if points else ""

    def cell(self, row: List[str], what: str) -> str:
        index = self.columns.get(what, len(row))
        return row[index].strip(" \u00a0") if index < len(row) else ""

    def take(self, number: int, row: List[str]) -> None:
        """Reads a row; what is wrong in it is noted."""
        before = len(self.faults)
        if any(cell.strip() for cell in row[self.width :]):
            self.fault(number, 'it has more cells than there are headings; write 12.50, or put "12,50" in quotes')
        name = self.part(number, price_cells.name, self.cell(row, "name"))
        text = self.cell(row, "price")
        price = self.part(number, lambda cell: price_cells.price(cell, self.decimal), text)
        pack = self.part(number, price_cells.pack, self.cell(row, "pack"))
        date = self.part(number, price_cells.day, self.cell(row, "date"))
        if name == "":
            self.fault(number, f"the price {text[:20]} has no name")
        money = self.part(number, price_cells.currency, self.cell(row, "currency"))
        self.same_money(number, price_cells.money(text))
        self.same_money(number, money)
        if len(self.faults) == before and name and price is not None:
            self.keep(number, Price(name, price, pack, date, self.money))

    def part(self, number: int, read: Callable[[str], _T], text: str) -> Optional[_T]:
        try:
            return read(text)
        except Misread as fault:
            self.fault(number, str(fault))
            return None

    def fault(self, number: int, words: str) -> None:
        self.faults.append(f"row {number}: {words}")

    def same_money(self, number: int, money: Optional[str]) -> None:
        """Notes a price in another currency than those before it."""
        if money is None:
            return
        if self.money is not None and price_cells.other_money(self.money, money):
            self.fault(number, f"this price is in {money}, others are in {self.money}; keep one currency to a list")
        self.money = money if self.money is None or len(money) > len(self.money) else self.money

    def keep(self, number: int, made: Price) -> None:
        known = self.prices.setdefault(key(made.name), made)
        first = self.rows.setdefault(key(made.name), number)
        if (known.price, known.pack) != (made.price, made.pack):
            other = called(known.name, made.name)
            stands = (
                f"stands in row {first} with" if other is None else f"is the same thing as {other} in row {first}, with"
            )
            self.fault(number, f"{made.name} {stands} another price or pack; keep one of them")


def _rows(text: str, name: str) -> List[Tuple[int, List[str]]]:
    """The rows with their numbers, from the headings on."""
    lines = csv.reader(io.StringIO(text, newline=""), delimiter=_mark(text), strict=True)
    try:
        rows = [row for _, row in zip(range(MOST_ROWS + 2), lines)]
    except csv.Error as error:
        raise FileTrouble(f"{name} cannot be read as CSV: {error}") from error
    if len(rows) > MOST_ROWS + 1:
        raise FileTrouble(f"{name} has more than {MOST_ROWS:,} rows")
    numbered = list(enumerate(rows, 1))
    while numbered and not any(cell.strip() for cell in numbered[0][1]):
        numbered.pop(0)
    return numbered


def _mark(text: str) -> str:
    """What parts the cells: of the marks in the first row the commonest."""
    head = text.lstrip().partition("\n")[0]
    return max((";", ",", "\t", "|"), key=head.count)


def _columns(head: List[str], name: str) -> Tuple[Dict[str, int], Tuple[str, ...]]:
    """Which column holds what. Which of two prices counts is not guessed; an article may have a description too."""
    meanings = {_plain(word): what for what, words in _HEADINGS.items() for word in words}
    columns: Dict[str, int] = {}
    unused = []
    for index, heading in enumerate(head):
        what = meanings.get(_plain(heading))
        if what is None:
            unused += [heading.strip()] if heading.strip() else []
        elif what not in columns:
            columns[what] = index
        elif what == "price" or _plain(head[columns[what]]) == _plain(heading):
            raise FileTrouble(
                f"{name} has 2 columns that may be the {what}, headed {head[columns[what]].strip()} and "
                f"{heading.strip()}; keep the one that counts, and take the other out or give it another heading"
            )
        else:
            unused.append(heading.strip())
    for what in ("name", "price"):
        if what not in columns:
            read = ", ".join(heading.strip() for heading in head)[:80]
            means = " (what one whole pack costs; a price for each kg or lb is none)" if what == "price" else ""
            raise FileTrouble(f"{name} has no column headed {what}{means}; its first row reads {read}")
    return columns, tuple(unused)


def _plain(heading: str) -> str:
    return " ".join(singular(word) for word in re.findall(r"[a-z]+", heading.casefold()))
