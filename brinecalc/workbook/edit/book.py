"""A workbook whose cells and parts are changed one by one.

One idea: changes are noted first and cut into the bytes together, when all are known. Parts that nothing was noted
for are carried over packed as they are.
"""

from __future__ import annotations

from typing import Dict, Iterator, List, NamedTuple, Optional, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.formulas import places
from brinecalc.hosts.formulas.lexer import tokens
from brinecalc.hosts.headless import read_book
from brinecalc.hosts.headless.cells import tag_end
from brinecalc.hosts.headless.inject import Patch, patched
from brinecalc.hosts.headless.package import Package
from brinecalc.workbook.edit import cells, sheet_map, tags
from brinecalc.workbook.edit.cells import Found, Value
from brinecalc.workbook.edit.sheet_map import SheetMap

Key = Tuple[int, int]
_NOTHING = Found(None, None)


class Range(NamedTuple):
    """A rectangle of cells on a named sheet."""

    sheet: str
    area: places.Area

    def cells(self) -> Iterator[Key]:
        """Row and column of every cell, row by row."""
        for row in range(self.area.top, self.area.bottom + 1):
            for col in range(self.area.left, self.area.right + 1):
                yield row, col


class Edit:
    """A workbook open for changes; `done` gives the changed file."""

    def __init__(self, content: bytes, name: str) -> None:
        self.package = Package(content, name)
        self.book = read_book.read(self.package)
        self.sheets = {sheet.name: sheet.part for sheet in self.book.sheets}
        self._parts: Dict[str, Optional[bytes]] = {}
        self._maps: Dict[str, SheetMap] = {}
        self._noted: Dict[str, Dict[Key, bytes]] = {}
        self._shared: Optional[List[str]] = None

    # ---- parts

    def has(self, part: str) -> bool:
        """Whether the workbook has that part, as it stands now."""
        return self._parts[part] is not None if part in self._parts else self.package.has(part)

    def part(self, part: str) -> bytes:
        """A part as it stands now."""
        self._settle(part)
        changed = self._parts.get(part)
        return changed if changed is not None else self.package.read(part)

    def set_part(self, part: str, data: bytes) -> None:
        """Changes a part, or adds one."""
        self._settle(part)
        self._parts[part] = data
        self._forget(part)

    def drop_part(self, part: str) -> None:
        """Takes a part out; whatever refers to it is the caller's to mend."""
        self._parts[part] = None

    def part_names(self) -> List[str]:
        """All parts as they stand now."""
        known = [part for part in self.package.parts if self.has(part)]
        return known + [part for part, data in self._parts.items() if data is not None and part not in known]

    # ---- cells

    def map(self, sheet: str) -> SheetMap:
        """Where the cells of a sheet stand."""
        known = self._maps.get(sheet)
        if known is None:
            part = self.sheets[sheet]
            changed = self._parts.get(part)
            known = self._maps[sheet] = sheet_map.read(
                changed if changed is not None else self.package.read(part), part
            )
        return known

    def look(self, sheet: str, row: int, col: int) -> Found:
        """Formula and value of a cell as the file has them; changes that are only noted are not seen."""
        found = self.map(sheet)
        place = found.cells.get((row, col))
        if place is None:
            return _NOTHING
        return cells.read(found.data[place.start : place.end], place.kind, self.shared())

    def shared(self) -> List[str]:
        """The texts that all sheets share."""
        if self._shared is None:
            part = self.book.shared_texts
            self._shared = cells.shared_texts(self.part(part), part) if part and self.has(part) else []
        return self._shared

    def put(
        self, sheet: str, row: int, col: int, value: Value, formula: Optional[str] = None, style: Optional[str] = None
    ) -> None:
        """Notes a value, a formula or both for a cell; its style stays unless another is given."""
        found = self.map(sheet)
        place = found.cells.get((row, col))
        look = style if style is not None else place.style if place else ""
        data = cells.written(found.prefix, row, col, look, value, formula)
        self._noted.setdefault(sheet, {})[row, col] = data

    def restyle(self, sheet: str, row: int, col: int, style: str) -> None:
        """Notes another style for a cell that is there; its content stays to the byte."""
        found = self.map(sheet)
        place = found.cells[row, col]
        noted = self._noted.setdefault(sheet, {})
        data = noted.get((row, col)) or found.data[place.start : place.end]
        end = tag_end(data, 0)
        noted[row, col] = tags.with_attribute(data[:end], "s", style) + data[end:]

    def place(self, name: str) -> Optional[Range]:
        """The range that a name of the whole workbook stands for; None for anything but one range."""
        text = self.book.name(name, "")
        if text is None:
            return None
        cut = list(tokens(text.removeprefix("=")))
        if len(cut) != 2 or cut[0].kind != "prefix" or cut[1].kind != "area":
            return None
        sheet = self.book.sheet(cut[0].text[:-1].strip("'").replace("''", "'"))
        return Range(sheet, places.area(cut[1].text)) if sheet in self.sheets else None

    # ---- the end

    def done(self) -> bytes:
        """The changed workbook."""
        for sheet in list(self._noted):
            self._settle(self.sheets[sheet])
        changed = {part: data for part, data in self._parts.items() if data != self._original(part)}
        return self.package.rewritten(changed) if changed else self.package.content

    def _original(self, part: str) -> Optional[bytes]:
        return self.package.read(part) if self.package.has(part) else None

    def _settle(self, part: str) -> None:
        """Cuts the noted cells of a sheet into its bytes."""
        sheet = next((name for name, place in self.sheets.items() if place == part), None)
        noted = self._noted.pop(sheet, None) if sheet is not None else None
        if not noted or sheet is None:
            return
        self._parts[part] = patched(self.map(sheet).data, _patches(self.map(sheet), noted))
        self._forget(part)

    def _forget(self, part: str) -> None:
        for sheet, place in self.sheets.items():
            if place == part:
                self._maps.pop(sheet, None)
        if part == self.book.shared_texts:
            self._shared = None


def _patches(found: SheetMap, noted: Dict[Key, bytes]) -> List[Patch]:
    """Where to cut: cells that are there are replaced, others put in before their neighbours."""
    patches: List[Patch] = []
    added: Dict[int, Dict[int, bytes]] = {}
    for (row, col), data in noted.items():
        place = found.cells.get((row, col))
        if place is not None:
            patches.append(Patch(place.start, place.end, data))
        else:
            added.setdefault(row, {})[col] = data
    new_rows = {row: cols for row, cols in added.items() if row not in found.rows}
    for row, cols in added.items():
        if row in found.rows:
            patches += _into_row(found, row, cols)
    return patches + _new_rows(found, new_rows)


def _into_row(found: SheetMap, row: int, added: Dict[int, bytes]) -> List[Patch]:
    span = found.rows[row]
    if span.close < 0:
        tag = found.data[span.start : span.open_end][:-2].rstrip()
        content = b"".join(data for _, data in sorted(added.items()))
        return [Patch(span.start, span.open_end, tag + b">" + content + f"</{found.prefix}row>".encode())]
    inserts: Dict[int, List[Tuple[int, bytes]]] = {}
    there = found.columns(row)
    for col, data in added.items():
        after = next((c for c in there if c > col), None)
        at = found.cells[row, after].start if after is not None else span.close
        inserts.setdefault(at, []).append((col, data))
    return [Patch(at, at, b"".join(data for _, data in sorted(group))) for at, group in inserts.items()]


def _new_rows(found: SheetMap, new_rows: Dict[int, Dict[int, bytes]]) -> List[Patch]:
    if not new_rows:
        return []
    inserts: Dict[int, List[bytes]] = {}
    there = sorted(found.rows)
    for row, cols in sorted(new_rows.items()):
        after = next((r for r in there if r > row), None)
        at = found.rows[after].start if after is not None else found.close
        content = b"".join(data for _, data in sorted(cols.items()))
        data = f'<{found.prefix}row r="{row}">'.encode() + content + f"</{found.prefix}row>".encode()
        inserts.setdefault(at, []).append(data)
    start, end = found.open
    if found.data[start:end].endswith(b"/>"):
        if len(inserts) > 1:
            raise FileTrouble(f"{found.part} is damaged: its cells are out of order")
        tag = found.data[start:end][:-2].rstrip() + b">"
        content = b"".join(b"".join(group) for group in inserts.values())
        return [Patch(start, end, tag + content + f"</{found.prefix}sheetData>".encode())]
    return [Patch(at, at, b"".join(group)) for at, group in inserts.items()]
