"""Finds the formulas of a sheet and where each cell stands in the bytes.

One idea: the XML parser says at which byte every element begins, so a cell can be changed later by cutting the bytes
there, and nothing else of the sheet is ever written anew.
"""

from __future__ import annotations

import re
from typing import Any, Dict, List, Optional, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless import markup

MOST_FORMULAS = 1_000_000
MOST_ARRAY_CELLS = 200_000
_USUAL = 512
_LETTERS = ("", *(places.letters(col) for col in range(1, _USUAL)))
"""Letters of the columns that sheets have mostly: most cells follow the one before, and need no reading."""

_TAG = re.compile(rb"<(?:[^>\"']|\"[^\"]*\"|'[^']*')*>")


class FormulaCell:
    """A formula and the places of its cell: where it begins, where its tag ends, its formula, its value."""

    __slots__ = ("col", "end", "f_end", "f_start", "kind", "open_end", "ref", "row", "shared", "start", "text", "v")

    def __init__(self, row: int, col: int, start: int) -> None:
        self.row = row
        self.col = col
        self.start = start
        self.open_end = 0
        self.f_start = 0
        self.f_end = 0
        self.v: Optional[Tuple[int, int]] = None
        self.end = 0
        self.kind = ""
        self.ref = ""
        self.shared = ""
        self.text = ""


class RowSpan:
    """A row through which an array formula runs, with every cell in it: column, begin, end."""

    __slots__ = ("cells", "close", "number", "open_end", "start")

    def __init__(self, number: int, start: int, open_end: int) -> None:
        self.number = number
        self.start = start
        self.open_end = open_end
        self.close = -1  # where its closing tag begins; -1 for a tag that closes itself
        self.cells: List[Tuple[int, int, int]] = []


class SheetCells:
    """A sheet cut up: its bytes, the part of them that holds the cells, its formulas."""

    def __init__(self, data: bytes, part: str) -> None:
        self.data = data
        self.part = part
        self.prefix = ""
        self.root = (0, 0)
        self.body = (0, 0)
        self.close = 0  # where the closing tag of the cells begins
        self.formulas: List[FormulaCell] = []
        self.rows: List[RowSpan] = []
        self.hides_rows = False
        self.bottom = 0
        self.right = 0


def scan(data: bytes, part: str) -> SheetCells:
    """Reads a sheet; FileTrouble when it is damaged."""
    reader = markup.parser(part)
    scanner = _Scanner(SheetCells(data, part), reader)
    reader.StartElementHandler = scanner.start
    reader.EndElementHandler = scanner.end
    markup.run(reader, data, part)
    if scanner.sheet.body == (0, 0):
        raise FileTrouble(f"{part} is damaged: it holds no cells")
    _resolve_shared(scanner.sheet)
    return scanner.sheet


class _Scanner:
    """Follows the parser through a sheet. Depth counts from the root: rows 3, cells 4, formula and value 5."""

    def __init__(self, sheet: SheetCells, reader: Any) -> None:
        self.sheet = sheet
        self.reader = reader
        self.depth = 0
        self.row = 0
        self.digits = ""
        self.row_start = 0
        self.col = 0
        self.cell_start = 0
        self.cell: Optional[FormulaCell] = None
        self.value: Optional[Tuple[int, int]] = None
        self.inside = False
        self.span: Optional[RowSpan] = None
        self.arrays: List[places.Area] = []
        self.names = ("sheetData", "row", "c", "f", "v", "is")
        self.text: List[str] = []
        self.opened = -1  # where the element began that nothing has happened in yet

    def start(self, name: str, attributes: Dict[str, str]) -> None:
        self.opened = self.reader.CurrentByteIndex
        self.depth += 1
        depth = self.depth
        data, row, c, f, v, inline = self.names
        if depth == 4 and self.inside and name == c:
            self.start_cell(attributes)
        elif depth == 5 and self.inside and name in (f, v, inline):
            self.start_content(name, attributes)
        elif depth == 3 and self.inside and name == row:
            self.start_row(attributes)
        elif depth == 2 and name == data:
            self.inside = True
            start = self.reader.CurrentByteIndex
            self.sheet.body = (start, start)
        elif depth == 1:
            self.root(name, attributes)

    def end(self, name: str) -> None:
        depth = self.depth
        self.depth -= 1
        if self.inside:
            self.end_inside(depth, name)
        self.opened = -1

    def end_inside(self, depth: int, name: str) -> None:
        if depth == 5:
            self.end_content(name)
        elif depth == 4 and name == self.names[2]:
            self.end_cell()
        elif depth == 3 and self.span is not None:
            self.span.close = -1 if self.closes_itself() else self.reader.CurrentByteIndex
            self.span = None
        elif depth == 2:
            self.inside = False
            self.sheet.close = self.reader.CurrentByteIndex
            self.sheet.body = (self.sheet.body[0], self.after())

    def root(self, name: str, attributes: Dict[str, str]) -> None:
        prefix, _, local = name.rpartition(":")
        space = attributes.get(f"xmlns:{prefix}" if prefix else "xmlns", "")
        if local != "worksheet" or space not in markup.SPREADSHEET:
            raise FileTrouble(f"{self.sheet.part} is not a worksheet")
        start = self.reader.CurrentByteIndex
        self.sheet.root = (start, tag_end(self.sheet.data, start))
        if prefix:
            self.sheet.prefix = prefix + ":"
            self.names = tuple(f"{prefix}:{word}" for word in self.names)  # type: ignore[assignment]

    def start_row(self, attributes: Dict[str, str]) -> None:
        self.row = row = next_row(attributes, self.row, self.sheet.part)
        self.digits = str(row)
        self.col = 0
        if attributes.get("hidden") in ("1", "true"):
            self.sheet.hides_rows = True
        self.row_start = self.reader.CurrentByteIndex
        self.sheet.bottom = row
        if self.arrays:  # the first row after an array formula is noted too: rows may have to be put in before it
            self.note_row()
            self.arrays = [area for area in self.arrays if area.bottom >= row]

    def note_row(self) -> RowSpan:
        self.span = RowSpan(self.row, self.row_start, tag_end(self.sheet.data, self.row_start))
        self.sheet.rows.append(self.span)
        return self.span

    def start_cell(self, attributes: Dict[str, str]) -> None:
        self.col = col = next_column(attributes, self.row, self.digits, self.col, self.sheet.part)
        if col > self.sheet.right:
            self.sheet.right = col
        self.cell_start = self.reader.CurrentByteIndex
        self.cell = None
        self.value = None

    def start_content(self, name: str, attributes: Dict[str, str]) -> None:
        index = self.reader.CurrentByteIndex
        if name != self.names[3]:
            self.value = (self.value[0] if self.value else index, index)
            return
        cell = self.cell = FormulaCell(self.row, self.col, self.cell_start)
        cell.f_start = index
        cell.kind = attributes.get("t", "")
        cell.ref = attributes.get("ref", "")
        cell.shared = attributes.get("si", "")
        self.text = []
        self.reader.CharacterDataHandler = self.text.append

    def end_content(self, name: str) -> None:
        if name == self.names[3] and self.cell is not None:
            self.reader.CharacterDataHandler = None
            self.cell.text = "".join(self.text)
            self.cell.f_end = self.after()
        elif self.value and name in self.names[4:]:
            self.value = (self.value[0], self.after())

    def end_cell(self) -> None:
        end = self.after()
        if self.span is not None:
            self.span.cells.append((self.col, self.cell_start, end))
        cell = self.cell
        if cell is None:
            return
        cell.end = end
        cell.v = self.value
        cell.open_end = tag_end(self.sheet.data, cell.start)
        self.sheet.formulas.append(cell)
        if len(self.sheet.formulas) > MOST_FORMULAS:
            raise FileTrouble(f"{self.sheet.part} has more than {MOST_FORMULAS:,} formulas")
        if cell.kind == "array":
            self.note_array(cell, end)

    def note_array(self, cell: FormulaCell, end: int) -> None:
        try:
            area = places.area(cell.ref)
        except ValueError:
            area = None
        if area is None or (area.top, area.left) != (cell.row, cell.col) or area.cells > MOST_ARRAY_CELLS:
            raise FileTrouble(f"{self.sheet.part} is damaged: an array formula has the range “{cell.ref[:20]}”")
        if area.single:
            return
        self.arrays.append(area)
        if self.span is None:
            self.note_row().cells.append((cell.col, cell.start, end))

    def closes_itself(self) -> bool:
        """Whether the element that ends here is one tag; the parser then stands behind it."""
        index = self.reader.CurrentByteIndex
        data = self.sheet.data
        return self.opened >= 0 and data[index - 2 : index] == b"/>" and tag_end(data, self.opened) == index

    def after(self) -> int:
        """The byte after the element that ends here."""
        index: int = self.reader.CurrentByteIndex
        return index if self.closes_itself() else self.sheet.data.index(b">", index) + 1


def next_row(attributes: Dict[str, str], before: int, part: str) -> int:
    """The number of a row as its tag gives it, or else the one after the row before."""
    written = attributes.get("r")
    row = before + 1
    if written:
        row = int(written) if written.isdecimal() and len(written) < 9 else 0
    if row <= before or row > places.LAST_ROW:
        raise FileTrouble(f"{part} is damaged: row {written or row} is out of order")
    return row


def next_column(attributes: Dict[str, str], row: int, digits: str, before: int, part: str) -> int:
    """The column of a cell as its tag gives it, or else the one after the cell before; `digits` is the row's number."""
    written = attributes.get("r")
    col = before + 1
    if col < _USUAL and written == _LETTERS[col] + digits:
        return col
    try:
        there, col = places.cell(written) if written else (row, before + 1)
    except ValueError:
        there, col = 0, 0
    if there != row or col <= before:
        raise FileTrouble(f"{part} is damaged: cell {written} is out of order")
    return col


def tag_end(data: bytes, start: int) -> int:
    """The byte after an opening tag; a > inside quotation marks does not end it."""
    match = _TAG.match(data, start)
    if match is None:
        raise FileTrouble("the workbook is damaged: a tag does not end")
    return match.end()


def _resolve_shared(sheet: SheetCells) -> None:
    """Writes out formulas that refer to another cell's text; the cell that holds the text stands first."""
    moulds: Dict[str, places.Mould] = {}
    for cell in sheet.formulas:
        if cell.kind != "shared":
            continue
        if cell.text:
            moulds[cell.shared] = places.Mould(cell.text, cell.row, cell.col)
        elif cell.shared in moulds:
            cell.text = moulds[cell.shared].at(cell.row, cell.col)
        else:
            raise FileTrouble(
                f"{sheet.part} is damaged: {places.name(cell.row, cell.col)} shares a formula that is missing"
            )
