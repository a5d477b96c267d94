"""Columns of a sheet hidden, in the bytes of its part.

One idea: the list of columns is cut where the hidden ones begin and end; every other column keeps its width and style.
"""

from __future__ import annotations

import re
from typing import List, Set, Tuple

from brinecalc.workbook.edit import tags

_COLUMN = re.compile(rb"<(?:\w+:)?col\b[^>]*/>")


def hidden(data: bytes, columns: Set[int]) -> bytes:
    """The sheet with these columns (counted from 1) hidden."""
    found = tags.element(data, "cols")
    listed = _COLUMN.findall(data[found[1] : found[2]]) if found is not None else []
    spans: List[Tuple[int, bytes]] = []
    left = set(columns)
    for tag in listed:
        first, last = (int(tags.attribute(tag, word) or 0) for word in ("min", "max"))
        spans += _cut(tag, first, last, columns)
        left -= set(range(first, last + 1))
    prefix = (tags.element(data, "sheetData") or (0, 0, 0, 0, b""))[4]
    spans += [(at, _span(b"<" + prefix + b'col width="9"/>', at, at, True)) for at in left]
    inside = b"".join(tag for _, tag in sorted(spans))
    if found is not None and found[2] > found[1]:
        return data[: found[1]] + inside + data[found[2] :]
    start = (tags.element(data, "sheetData") or (len(data),))[0]
    return data[:start] + b"<" + prefix + b"cols>" + inside + b"</" + prefix + b"cols>" + data[start:]


def widened(data: bytes, column: int, by: float) -> bytes:
    """The sheet with one column wider; its span has to be its own."""
    found = tags.element(data, "cols")
    for tag in _COLUMN.findall(data[found[1] : found[2]]) if found is not None else []:
        if tags.attribute(tag, "min") == tags.attribute(tag, "max") == str(column):
            wider = float(tags.attribute(tag, "width") or 9) + by
            return data.replace(tag, tags.with_attribute(tag, "width", f"{wider:g}"), 1)
    return data


def width(data: bytes, column: int) -> float:
    """How wide a column is."""
    found = tags.element(data, "cols")
    for tag in _COLUMN.findall(data[found[1] : found[2]]) if found is not None else []:
        if int(tags.attribute(tag, "min") or 0) <= column <= int(tags.attribute(tag, "max") or 0):
            return float(tags.attribute(tag, "width") or 9)
    return 9.0


def _cut(tag: bytes, first: int, last: int, columns: Set[int]) -> List[Tuple[int, bytes]]:
    """A span of columns as spans that are wholly hidden or wholly not."""
    inside = sorted(column for column in columns if first <= column <= last)
    spans: List[Tuple[int, bytes]] = []
    at = first
    for column in inside:
        if column > at:
            spans.append((at, _span(tag, at, column - 1, False)))
        spans.append((column, _span(tag, column, column, True)))
        at = column + 1
    if at <= last:
        spans.append((at, _span(tag, at, last, False) if inside else tag))
    return spans


def _span(tag: bytes, first: int, last: int, hide: bool) -> bytes:
    tag = tags.with_attribute(tags.with_attribute(tag, "min", str(first)), "max", str(last))
    return tags.with_attribute(tag, "hidden", "1") if hide else tag
