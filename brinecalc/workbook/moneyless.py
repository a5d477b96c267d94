"""A copy without money: no price that was typed, nothing worked out from one.

One idea: the prices are taken out first and everything is computed anew without them, so nothing in the file can know
them any more. Cells that would then only say that a price is missing are emptied, columns that held nothing but money
are hidden, charts of money go, and where something is missed the page says that it was left out.
"""

from __future__ import annotations

import re
from typing import List, Set, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.formulas.places import Area, area
from brinecalc.hosts.headless.trial import Cell
from brinecalc.workbook import agreed
from brinecalc.workbook.agreed import LEFT_OUT, WITHOUT_PRICES
from brinecalc.workbook.edit import columns, drawings
from brinecalc.workbook.edit.book import Edit, Range
from brinecalc.workbook.edit.looks import Looks

SHORT = "left out"

_STORES = ("pivotCache", "externalLinks", "embeddings")
"""Parts in which other programs may keep a copy of what stood in cells."""

_VALUE = re.compile(rb'<(?:\w+:)?c\b[^>]*\bt="s"[^>]*>(?:(?!</(?:\w+:)?c>).)*?<(?:\w+:)?v>(\d+)<', re.DOTALL)
_ITEM = re.compile(rb"<((?:\w+:)?)si\b[^>]*?(?:/>|>.*?</(?:\w+:)?si>)", re.DOTALL)
_CACHE = re.compile(rb"<((?:\w+:)?(?:num|str|multiLvlStr)Cache)\b[^>]*>.*?</\1>", re.DOTALL)


def places(edit: Edit) -> Set[Cell]:
    """Every cell that holds money or tells of it."""
    found: Set[Cell] = set()
    for name in ("price_prices", *(name for name in edit.book.names() if name.startswith(agreed.MONEY))):
        place = edit.place(name)
        if place is not None:
            found.update((place.sheet, *cell) for cell in place.cells())
    return found


def changed(edit: Edit) -> Set[Cell]:
    """Every cell that a copy without money may show otherwise, which is no change that anybody made."""
    return places(edit).union((place.sheet, *cell) for place in _named(edit, agreed.SHELL) for cell in place.cells())


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
    _tell_pages(edit)
    _empty_parts(edit)
    _say_left_out(edit)
    _hide_columns(edit)
    done = Edit(edit.done(), name)
    _forget_texts(done)
    _forget_charts(done)
    _forget_picture(done)
    return done.done(), emptied


def _tell_pages(edit: Edit) -> None:
    """Sets the cell by which a page knows that prices are left out, where the workbook has it."""
    told = edit.place(WITHOUT_PRICES)
    if told is not None:
        edit.put(told.sheet, told.area.top, told.area.left, 1.0)


def _headlines(edit: Edit) -> List[Cell]:
    """The lines that would count what has no price, but one that knows by itself what to say without any."""
    found, knows = [], edit.place(WITHOUT_PRICES) is not None
    for name in agreed.CELLS:
        place = edit.place(name)
        if place is not None and not (knows and name == "order_state"):
            found.append((place.sheet, place.area.top, place.area.left))
    return found


def _named(edit: Edit, beginning: str) -> List[Range]:
    """What the names stand for that begin so."""
    found = (edit.place(name) for name in sorted(edit.book.names()) if name.startswith(beginning))
    return [place for place in found if place is not None]


def _empty_parts(edit: Edit) -> None:
    """Takes headings, words and charts off the parts of pages that are about money alone."""
    for place in _named(edit, agreed.SHELL):
        deep = place.area.bottom > place.area.top  # a part of a page; a few cells in a line go without a word
        first = (place.area.top, place.area.left)
        for cell in place.cells():
            if deep and cell == first:
                edit.put(place.sheet, *cell, LEFT_OUT)
            elif cell in edit.map(place.sheet).cells:
                edit.put(place.sheet, *cell, None, style="")
        drawings.drop_charts(edit, place.sheet, place.area)


def _say_left_out(edit: Edit) -> None:
    """Puts words where money stood on a page among other things."""
    gone = _named(edit, agreed.SHELL) + [_columns(place) for place in _named(edit, agreed.HIDDEN)]
    for place in _named(edit, agreed.MONEY):
        row, col = place.area.top, place.area.left
        if not any(place.sheet == other.sheet and _within(other.area, row, col) for other in gone):
            page = edit.book.name("_xlnm.Print_Area", place.sheet)
            if page is not None and _within(area(page.rpartition("!")[2]), row, col):
                edit.put(place.sheet, row, col, SHORT)


def _hide_columns(edit: Edit) -> None:
    """Hides the columns that held nothing but money; where a column is named for it, that one takes their room."""
    for place in _named(edit, agreed.HIDDEN):
        part = edit.sheets[place.sheet]
        data = edit.part(part)
        wanted = range(place.area.left, place.area.right + 1)
        taken = sum(columns.width(data, column) for column in wanted)
        data = columns.hidden(data, set(wanted))
        for taker in _named(edit, agreed.ROOM):
            if taker.sheet == place.sheet:
                data = columns.widened(data, taker.area.left, taken)
        edit.set_part(part, data)


def _columns(place: Range) -> Range:
    return place._replace(area=place.area._replace(top=1, bottom=1_048_576))


def _within(place: Area, row: int, col: int) -> bool:
    return place.top <= row <= place.bottom and place.left <= col <= place.right


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
