"""Writes computed values into the bytes of a sheet.

One idea: a value is a type in the cell's tag and a value element behind the formula. Those two are cut out and put in
anew, cell by cell from the top, and every byte between them is carried over as it is.
"""

from __future__ import annotations

from typing import Any, Dict, Iterable, List, NamedTuple, Optional, Set, Tuple

from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless import markup
from brinecalc.hosts.headless.cells import FormulaCell, SheetCells, tag_end
from brinecalc.hosts.headless.gates import ERROR_TEXTS

NEWEST = 191_029
"""The calculation version of current Excel; a lower one in a file makes it compute everything on opening."""


class Written(NamedTuple):
    """A value as it stands in a file: the type of the cell, if it needs one, and the text."""

    type: str
    text: str

    def element(self, prefix: str) -> bytes:
        """The value element."""
        keep = ' xml:space="preserve"' if self.text != self.text.strip() else ""
        return f"<{prefix}v{keep}>{markup.escape(self.text)}</{prefix}v>".encode()


def written(value: Any) -> Written:
    """How a value is written; numbers with 12 significant digits."""
    if value.__class__ is float:
        if value - value == 0.0:
            return Written("", f"{value + 0.0:.12g}")
        return Written("e", "#NUM!")
    if value is None:
        return Written("", "0")
    if isinstance(value, bool):
        return Written("b", str(int(value)))
    if isinstance(value, int):
        return Written("", f"{float(value):.12g}")
    if isinstance(value, dict):
        return Written("e", ERROR_TEXTS.get(value.get("kind", ""), "#VALUE!"))
    return Written("str", markup.coded(str(value)))


class Patch(NamedTuple):
    """Bytes to put in place of those from `start` to `end`."""

    start: int
    end: int
    data: bytes


def patched(data: bytes, patches: Iterable[Patch]) -> bytes:
    """The bytes with all patches applied; patches must not overlap."""
    out: List[bytes] = []
    at = 0
    for patch in sorted(patches):
        out.append(data[at : patch.start])
        out.append(patch.data)
        at = patch.end
    out.append(data[at:])
    return b"".join(out)


def value_patch(sheet: SheetCells, cell: FormulaCell, value: Written) -> Patch:
    """Gives a formula cell its value."""
    data = sheet.data
    tag = retyped(data[cell.start : cell.open_end], value.type)
    element = value.element(sheet.prefix)
    begin, end = cell.v or (cell.f_end, cell.f_end)
    return Patch(cell.start, end, tag + data[cell.open_end : begin] + element)


def retyped(tag: bytes, kind: str) -> bytes:
    """A cell's opening tag with that type, all other attributes as they are."""
    for match in markup.ATTRIBUTE.finditer(tag):
        if match[1] == b"t":
            if match[2][1:-1].decode() == kind:
                return tag
            head = tag[: match.start()]
            return head + (f' t="{kind}"'.encode() if kind else b"") + tag[match.end() :]
    if not kind:
        return tag
    close = len(tag) - (2 if tag.endswith(b"/>") else 1)
    return tag[:close] + f' t="{kind}"'.encode() + tag[close:]


def array_patches(
    sheet: SheetCells, arrays: Iterable[Tuple[places.Area, List[List[Any]]]], taken: Set[Tuple[int, int]]
) -> List[Patch]:
    """Values of array formulas in the cells beside their own; cells and rows that are missing are put in.

    All arrays of a sheet go together: two of them may need the same row, and what is put in must stand in order.
    """
    wanted: Dict[int, Dict[int, Written]] = {}
    for area, grid in arrays:
        for r, values in enumerate(grid, area.top):
            for c, value in enumerate(values, area.left):
                if (r, c) not in taken:
                    wanted.setdefault(r, {})[c] = written(value)
    rows = {span.number: span for span in sheet.rows}
    following = sorted(rows)
    patches = []
    new_rows: Dict[int, bytes] = {}
    for number in sorted(wanted):
        span = rows.get(number)
        if span is not None:
            patches += _row_patches(sheet, span, wanted[number])
            continue
        at = next((rows[k].start for k in following if k > number), sheet.close)
        cells = b"".join(_new_cell(sheet, number, col, value) for col, value in sorted(wanted[number].items()))
        row = f'<{sheet.prefix}row r="{number}">'.encode() + cells + f"</{sheet.prefix}row>".encode()
        new_rows[at] = new_rows.get(at, b"") + row
    return patches + [Patch(at, at, data) for at, data in new_rows.items()]


def _row_patches(sheet: SheetCells, span: Any, wanted: Dict[int, Written]) -> List[Patch]:
    data = sheet.data
    patches = []
    rest = dict(wanted)
    inserts: Dict[int, bytes] = {}
    for col, start, end in span.cells:
        for missing in sorted(c for c in rest if c < col):
            inserts[start] = inserts.get(start, b"") + _new_cell(sheet, span.number, missing, rest.pop(missing))
        if col in rest:
            value = rest.pop(col)
            tag = retyped(data[start : tag_end(data, start)], value.type)
            tag = tag[:-2].rstrip() + b">" if tag.endswith(b"/>") else tag
            content = value.element(sheet.prefix) + f"</{sheet.prefix}c>".encode()
            patches.append(Patch(start, end, inserts.pop(start, b"") + tag + content))
    patches += [Patch(at, at, cells) for at, cells in inserts.items()]
    tail = b"".join(_new_cell(sheet, span.number, col, value) for col, value in sorted(rest.items()))
    if not tail:
        return patches
    if span.close >= 0:
        patches.append(Patch(span.close, span.close, tail))
    else:
        tag = data[span.start : span.open_end]
        patches.append(
            Patch(span.start, span.open_end, tag[:-2].rstrip() + b">" + tail + f"</{sheet.prefix}row>".encode())
        )
    return patches


def _new_cell(sheet: SheetCells, row: int, col: int, value: Written) -> bytes:
    tag = f'<{sheet.prefix}c r="{places.name(row, col)}">'.encode()
    return retyped(tag, value.type) + value.element(sheet.prefix) + f"</{sheet.prefix}c>".encode()


def settled(workbook: bytes, part: str) -> bytes:
    """The workbook's own part without the order to compute everything on opening."""
    place = _calculation_tag(workbook, part)
    if place is None:
        return workbook
    start, end = place
    tag = workbook[start:end]
    for word in (b"fullCalcOnLoad", b"forceFullCalc"):
        tag = _without(tag, word)
    for match in markup.ATTRIBUTE.finditer(tag):
        number = match[2][1:-1]
        if match[1] == b"calcId" and number.isdigit() and int(number) < NEWEST:
            tag = tag[: match.start(2)] + b'"%d"' % NEWEST + tag[match.end(2) :]
            break
    return workbook[:start] + tag + workbook[end:]


def _without(tag: bytes, attribute: bytes) -> bytes:
    for match in markup.ATTRIBUTE.finditer(tag):
        if match[1] == attribute:
            return tag[: match.start()] + tag[match.end() :]
    return tag


def _calculation_tag(workbook: bytes, part: str) -> Optional[Tuple[int, int]]:
    found: List[int] = []
    reader = markup.parser(part)

    def start(name: str, attributes: Dict[str, str]) -> None:
        if markup.local(name) == "calcPr":
            found.append(reader.CurrentByteIndex)

    reader.StartElementHandler = start
    markup.run(reader, workbook, part)
    return (found[0], tag_end(workbook, found[0])) if found else None
