"""Where every cell of a sheet stands in its bytes.

One idea: a cell that is to be changed is cut out of the bytes and put in anew; a cell that is missing is put in where
its row has room for it. So whatever is not changed keeps its very bytes.
"""

from __future__ import annotations

from typing import Any, Dict, List, NamedTuple, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.headless import markup
from brinecalc.hosts.headless.cells import next_column, next_row, tag_end


class Place(NamedTuple):
    """A cell in the bytes of its sheet, with its style and type as the file has them."""

    start: int
    end: int
    style: str
    kind: str
    formula: bool


class Row(NamedTuple):
    """A row in the bytes; `close` is where its closing tag begins, -1 for a tag that closes itself."""

    start: int
    open_end: int
    close: int


class SheetMap:
    """All cells and rows of one sheet."""

    def __init__(self, data: bytes, part: str) -> None:
        self.data = data
        self.part = part
        self.prefix = ""
        self.cells: Dict[Tuple[int, int], Place] = {}
        self.rows: Dict[int, Row] = {}
        self.open = (0, 0)  # the opening tag of the cells
        self.close = 0  # where their closing tag begins; the end of the opening tag if it closes itself

    def columns(self, row: int) -> List[int]:
        """The columns of a row that have a cell, in order."""
        return self._by_row.get(row, [])

    def index(self) -> None:
        """Sorts the cells by row once all are known."""
        self._by_row: Dict[int, List[int]] = {}
        for row, col in self.cells:
            self._by_row.setdefault(row, []).append(col)


def read(data: bytes, part: str) -> SheetMap:
    """Goes through a sheet once; FileTrouble when it is damaged."""
    reader = markup.parser(part)
    scanner = _Scanner(SheetMap(data, part), reader)
    reader.StartElementHandler = scanner.start
    reader.EndElementHandler = scanner.end
    markup.run(reader, data, part)
    if scanner.sheet.open == (0, 0):
        raise FileTrouble(f"{part} is damaged: it holds no cells")
    scanner.sheet.index()
    return scanner.sheet


class _Scanner:
    """Follows the parser. Depth counts from the root: the cells' frame 2, rows 3, cells 4, formulas 5."""

    def __init__(self, sheet: SheetMap, reader: Any) -> None:
        self.sheet = sheet
        self.reader = reader
        self.depth = 0
        self.inside = False
        self.row = 0
        self.digits = ""
        self.col = 0
        self.starts = [0, 0, 0, 0]
        self.attributes: Dict[str, str] = {}
        self.formula = False

    def start(self, name: str, attributes: Dict[str, str]) -> None:
        self.depth += 1
        if self.depth == 1:
            prefix = name.rpartition(":")[0]
            self.sheet.prefix = prefix + ":" if prefix else ""
        elif self.depth == 2 and markup.local(name) == "sheetData":
            self.inside = True
            self.starts[2] = self.reader.CurrentByteIndex
        elif self.inside and self.depth == 3:
            self.starts[3] = self.reader.CurrentByteIndex
            self.row, self.col = next_row(attributes, self.row, self.sheet.part), 0
            self.digits = str(self.row)
        elif self.inside and self.depth == 4:
            self._start_cell(attributes)
        elif self.inside and self.depth == 5 and markup.local(name) == "f":
            self.formula = True

    def _start_cell(self, attributes: Dict[str, str]) -> None:
        self.starts[0] = self.reader.CurrentByteIndex
        self.col = next_column(attributes, self.row, self.digits, self.col, self.sheet.part)
        self.attributes = attributes
        self.formula = False

    def end(self, name: str) -> None:
        depth = self.depth
        self.depth -= 1
        if not self.inside:
            return
        data = self.sheet.data
        if depth == 4:
            start = self.starts[0]
            _, _, end = self._span(start)
            attributes = self.attributes
            place = Place(start, end, attributes.get("s", ""), attributes.get("t", ""), self.formula)
            self.sheet.cells[self.row, self.col] = place
        elif depth == 3:
            start = self.starts[3]
            open_end, close, _ = self._span(start)
            self.sheet.rows[self.row] = Row(start, open_end, close if data[open_end - 2 : open_end] != b"/>" else -1)
        elif depth == 2:
            self.inside = False
            open_end, close, _ = self._span(self.starts[2])
            self.sheet.open, self.sheet.close = (self.starts[2], open_end), close

    def _span(self, start: int) -> Tuple[int, int, int]:
        """End of the opening tag, begin of the closing tag and its end; all the same for a tag that closes itself."""
        data = self.sheet.data
        open_end = tag_end(data, start)
        if data[open_end - 2 : open_end] == b"/>":
            return open_end, open_end, open_end
        close = self.reader.CurrentByteIndex
        return open_end, close, data.index(b">", close) + 1
