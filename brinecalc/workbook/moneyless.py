"""A copy without money: no price that was typed, nothing worked out from one.

One idea: the prices are taken out first and everything is computed anew without them, so nothing in the file can know
them any more. Cells that would then only say that a price is missing are emptied.
"""

from __future__ import annotations

import re
from typing import List, Set, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.headless.trial import Cell
from brinecalc.workbook import marks
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.looks import Looks

LEFT_OUT = "Prices are left out of this copy."

_STORES = ("pivotCache", "externalLinks", "embeddings")
"""Parts in which other programs may keep a copy of what stood in cells."""

_VALUE = re.compile(rb'<(?:\w+:)?c\b[^>]*\bt="s"[^>]*>(?:(?!</(?:\w+:)?c>).)*?<(?:\w+:)?v>(\d+)<', re.DOTALL)
_ITEM = re.compile(rb"<((?:\w+:)?)si\b[^>]*?(?:/>|>.*?</(?:\w+:)?si>)", re.DOTALL)
_CACHE = re.compile(rb"<((?:\w+:)?(?:num|str|multiLvlStr)Cache)\b[^>]*>.*?</\1>", re.DOTALL)


def places(edit: Edit) -> Set[Cell]:
    """Every cell that holds money or tells of it."""
    found: Set[Cell] = set()
    for name in ("price_prices", *(name for name in edit.book.names() if name.startswith(marks.MONEY))):
        place = edit.place(name)
        if place is not None:
            found.update((place.sheet, *cell) for cell in place.cells())
    return found


def without_money(content: bytes, name: str) -> "Tuple[bytes, Set[Cell]]":
    """The workbook without prices, not computed yet, and the cells that were emptied."""
    edit = Edit(content, name)
    _refuse_stores(edit)
    prices = edit.place("price_prices")
    if prices is None:
        raise FileTrouble(
            f"{name} has no price list (no range is named price_prices), so what is money in it is not known"
        )
    looks = Looks(edit)
    typed = {(prices.sheet, *cell) for cell in prices.cells()}
    emptied: Set[Cell] = set()
    for sheet, row, col in sorted(places(edit)):
        place = edit.map(sheet).cells.get((row, col))
        if place is None:
            continue
        found = edit.look(sheet, row, col)
        words = isinstance(found.value, str) and found.formula is None and not looks.unlocked(place.style)
        heading = words and (sheet, row, col) not in typed
        if (found.formula is not None or found.value is not None) and not heading:
            edit.put(sheet, row, col, None)
            emptied.add((sheet, row, col))
    for cell in _headlines(edit):
        edit.put(*cell, LEFT_OUT)
    done = Edit(edit.done(), name)
    _forget_texts(done)
    _forget_charts(done)
    _forget_picture(done)
    return done.done(), emptied


def _headlines(edit: Edit) -> List[Cell]:
    """The lines that would count what has no price."""
    found = []
    for name in ("price_state", "order_state"):
        place = edit.place(name)
        if place is not None:
            found.append((place.sheet, place.area.top, place.area.left))
    return found


def _refuse_stores(edit: Edit) -> None:
    for part in edit.part_names():
        word = next((word for word in _STORES if word.casefold() in part.casefold()), None)
        if word is not None:
            raise FileTrouble(
                f"{edit.package.name} holds {part}, in which prices may be kept too; take out pivot tables, links to "
                "other files and embedded files first"
            )


def _forget_texts(edit: Edit) -> None:
    """Blanks the shared texts that no cell uses any more: they may be prices typed as text."""
    part = edit.book.shared_texts
    if part is None or not edit.has(part):
        return
    used = {int(number) for sheet in edit.sheets.values() for number in _VALUE.findall(edit.part(sheet))}
    count = -1

    def blank(match: "re.Match[bytes]") -> bytes:
        nonlocal count
        count += 1
        prefix = match[1]
        return match[0] if count in used else b"<%ssi><%st/></%ssi>" % (prefix, prefix, prefix)

    edit.set_part(part, _ITEM.sub(blank, edit.part(part)))


def _forget_charts(edit: Edit) -> None:
    """Takes out what charts remember of the cells that they show."""
    for part in edit.part_names():
        if "/charts/" in part and part.endswith(".xml"):
            edit.set_part(part, _CACHE.sub(b"", edit.part(part)))


def _forget_picture(edit: Edit) -> None:
    """Takes out the small picture of the first sheet that some programs save."""
    part = next((part for part in edit.part_names() if part.startswith("docProps/thumbnail")), None)
    if part is not None:
        edit.drop_part(part)
        edit.set_part("_rels/.rels", re.sub(rb"<[^<>]*thumbnail[^<>]*/>", b"", edit.part("_rels/.rels")))
