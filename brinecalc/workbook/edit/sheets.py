"""Sheets and names put into a finished workbook.

One idea: a sheet is a part, an entry in the list of kinds, a relation and a line in the workbook's own part; each of
the four is put at the end of its list and nothing that stood there moves.
"""

from __future__ import annotations

import math
import posixpath
import re
from html import unescape
from typing import Iterable, List, Sequence, Tuple, Union

from brinecalc.files import FileTrouble
from brinecalc.hosts.headless.markup import MAIN, RELATIONS, escape
from brinecalc.workbook.edit import cells, tags
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.cells import Value

PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
_SHEET = re.compile(rb"<(?:\w+:)?sheet\b[^>]*>")
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"


class Formula(str):
    """A formula in place of a value."""

    __slots__ = ()


Cell = Union[Value, Formula]
Line = Sequence[Tuple[Cell, str]]
"""The cells of a row from column A on: value and style."""


def page(lines: Iterable[Tuple[int, Line]], widths: Sequence[float], frozen: int = 0, wrapped: str = "-") -> bytes:
    """The XML of a plain sheet: rows by number, column widths, how many rows stay in view, the style that wraps."""
    columns = "".join(
        f'<col min="{i}" max="{i}" width="{width:g}" customWidth="1"/>' for i, width in enumerate(widths, 1)
    )
    pane = (
        f'<pane ySplit="{frozen}" topLeftCell="A{frozen + 1}" activePane="bottomLeft" state="frozen"/>'
        if frozen
        else ""
    )
    rows: List[bytes] = []
    for number, line in lines:
        cut = [(col, value, style) for col, (value, style) in enumerate(line, 1) if value is not None or style]
        made = b"".join(_cell(number, *cell) for cell in cut)
        height = ' ht="26" customHeight="1"' if number == 1 else _height(line, widths, wrapped)
        rows.append(f'<row r="{number}"{height}>'.encode() + made + b"</row>")
    return (
        (
            f'<worksheet xmlns="{MAIN}"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><sheetViews>'
            f'<sheetView showGridLines="0" workbookViewId="0">{pane}</sheetView></sheetViews>'
            f"<cols>{columns}</cols><sheetData>"
        ).encode()
        + b"".join(rows)
        + (
            b'</sheetData><sheetProtection sheet="1" formatColumns="0" formatRows="0"/><pageMargins left="0.5" right="0.5" top="0.5" bottom="0.6" header="0.3" footer="0.3"/>'
            b'<pageSetup orientation="landscape" fitToHeight="0"/></worksheet>'
        )
    )


def _height(line: Line, widths: Sequence[float], wrapped: str) -> str:
    """The height of a row with wrapped words, which no program works out by itself on opening; up to eight lines."""
    longest = [len(str(value)) / width for (value, style), width in zip(line, widths) if style == wrapped and value]
    deep = min(8, math.ceil(max(longest, default=0)))
    return f' ht="{12.75 * deep:g}" customHeight="1"' if deep > 1 else ""


def _cell(row: int, col: int, value: Cell, style: str) -> bytes:
    if isinstance(value, Formula):
        return cells.written("", row, col, style, None, str(value))
    return cells.written("", row, col, style, value)


def put_sheet(edit: Edit, name: str, data: bytes, hidden: bool = False) -> str:
    """Adds a sheet behind all others, or puts other content into the one of that name; answers its part."""
    known = edit.book.sheet(name)
    if known is not None:
        part = edit.sheets[known]
        edit.set_part(part, data)
        return part
    part = _free(edit, posixpath.join(posixpath.dirname(edit.book.part), "worksheets", "sheet{}.xml"))
    edit.set_part(part, data)
    add_kind(edit, part, _TYPE)
    relation = relate(edit, edit.book.part, f"{RELATIONS}/worksheet", part)
    workbook = edit.part(edit.book.part)
    used = [int(number) for number in re.findall(rb'\bsheetId="(\d+)"', workbook)]
    found = tags.element(workbook, "sheets")
    if found is None:
        raise FileTrouble(f"{edit.package.name} is damaged: its list of sheets is missing")
    state = ' state="hidden"' if hidden else ""
    shown = escape(name).replace('"', "&quot;")
    line = f'sheet name="{shown}" sheetId="{max(used, default=0) + 1}"{state} xmlns:rel="{RELATIONS}" rel:id="{relation}"/>'
    edit.set_part(edit.book.part, tags.append(workbook, "sheets", b"<" + found[4] + line.encode()) or workbook)
    edit.book.add_sheet(name, part)
    edit.sheets[name] = part
    return part


def own(edit: Edit, name: str, title: str) -> str:
    """The name for a sheet of ours: the one given, unless somebody else's sheet has it."""
    for number in range(1, 1000):
        tried = name if number == 1 else f"{name} {number}"
        known = edit.book.sheet(tried)
        if known is None or edit.look(known, 1, 1).value == title:
            return tried
    raise FileTrouble(f"{edit.package.name} has too many sheets called {name}")


def print_only(edit: Edit, sheet: str, area: str) -> None:
    """Sets what is printed of a sheet, such as $A$1:$D$4."""
    tagged = _SHEET.findall(edit.part(edit.book.part))
    number = [unescape(tags.attribute(tag, "name") or "") for tag in tagged].index(sheet)
    quoted = "'" + sheet.replace("'", "''") + "'"
    add_name(edit, "_xlnm.Print_Area", f"{quoted}!{area}", (sheet, number))


def add_name(edit: Edit, name: str, text: str, only: Tuple[str, int] = ("", 0)) -> None:
    """Gives a name to what a formula text stands for, in the whole book or for `only` one sheet, by its name and place.

    A name that is there already gets the new meaning.
    """
    workbook = edit.part(edit.book.part)
    local = f' localSheetId="{only[1]}"'.encode() if only[0] else b""
    pattern = rb"(<(?:\w+:)?definedName\b(?=[^>]*" + local + rb')[^>]*\bname="' + name.encode() + rb'"[^>]*>)[^<]*'
    new = escape(text).encode()
    if edit.book.name(name, only[0]) is not None:
        edit.set_part(edit.book.part, re.sub(pattern, lambda match: match[1] + new, workbook, count=1))
    elif tags.element(workbook, "definedNames") is not None:
        prefix = (tags.element(workbook, "definedNames") or (0, 0, 0, 0, b""))[4]
        line = b'<%sdefinedName name="%s"%s>%s</%sdefinedName>' % (prefix, name.encode(), local, new, prefix)
        edit.set_part(edit.book.part, tags.append(workbook, "definedNames", line) or workbook)
    else:
        after = next(
            (
                found
                for word in ("externalReferences", "functionGroups", "sheets")
                if (found := tags.element(workbook, word))
            ),
            None,
        )
        if after is None:
            raise FileTrouble(f"{edit.package.name} is damaged: its list of sheets is missing")
        prefix = after[4]
        line = b"<%sdefinedNames><%sdefinedName name=\"%s\"%s>%s</%sdefinedName></%sdefinedNames>" % (
            prefix, prefix, name.encode(), local, new, prefix, prefix)  # fmt: skip
        edit.set_part(edit.book.part, workbook[: after[3]] + line + workbook[after[3] :])
    edit.book.add_name(name, text, only[0])


def add_kind(edit: Edit, part: str, kind: str) -> None:
    """Enters a part into the list of kinds."""
    listed = edit.part("[Content_Types].xml")
    found = tags.element(listed, "Types")
    prefix = found[4] if found else b""
    line = b"<" + prefix + f'Override PartName="/{part}" ContentType="{kind}"/>'.encode()
    edit.set_part("[Content_Types].xml", tags.append(listed, "Types", line) or listed)


def add_ending(edit: Edit, ending: str, kind: str) -> None:
    """Enters an ending of file names into the list of kinds, unless it is there."""
    listed = edit.part("[Content_Types].xml")
    if re.search(rb'\bExtension="' + ending.encode() + rb'"', listed, re.IGNORECASE):
        return
    found = tags.element(listed, "Types")
    if found is None:
        raise FileTrouble(f"{edit.package.name} is damaged: its list of kinds is missing")
    line = b"<" + found[4] + f'Default Extension="{ending}" ContentType="{kind}"/>'.encode()
    edit.set_part("[Content_Types].xml", listed[: found[1]] + line + listed[found[1] :])


def relate(edit: Edit, source: str, kind: str, target: str) -> str:
    """Enters a relation from one part to another; answers its id."""
    folder, base = posixpath.split(source)
    place = posixpath.join(folder, "_rels", base + ".rels")
    data = edit.part(place) if edit.has(place) else f'<Relationships xmlns="{PACKAGE}"></Relationships>'.encode()
    used = set(re.findall(rb'\bId="([^"]*)"', data))
    number = next(n for n in range(1, len(used) + 2) if f"brine{n}".encode() not in used)
    found = tags.element(data, "Relationships")
    prefix = found[4] if found else b""
    line = b"<" + prefix + f'Relationship Id="brine{number}" Type="{kind}" Target="/{target}"/>'.encode()
    edit.set_part(place, tags.append(data, "Relationships", line) or data)
    return f"brine{number}"


def _free(edit: Edit, pattern: str) -> str:
    """The first part of that pattern that is not there."""
    return next(part for n in range(1, 10_000) if not edit.has(part := pattern.format(n)))
