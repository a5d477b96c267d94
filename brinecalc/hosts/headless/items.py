"""A formula of a workbook on its way from the file through the engine and back.

One idea: the engine is shown a sheet of its own: the cells of the file with each trusted formula rewritten, each
distrusted one turned into the value that the file had, and nothing else.
"""

from __future__ import annotations

from typing import Any, List, Tuple

from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless import inject, markup
from brinecalc.hosts.headless.cells import FormulaCell, SheetCells
from brinecalc.hosts.headless.shapes import Verdict

Value = Any


class Item:
    """A formula on its way through."""

    __slots__ = ("cell", "fills", "reason", "sheet", "value", "verdict")

    def __init__(self, sheet: str, cell: FormulaCell, verdict: Verdict) -> None:
        self.sheet = sheet
        self.cell = cell
        self.verdict = verdict
        self.reason = verdict.reason
        self.value: Value = None
        self.fills = places.Area(cell.row, cell.col, cell.row, cell.col)
        if cell.kind == "array" and cell.ref:
            self.fills = places.area(cell.ref)

    @property
    def formula(self) -> str:
        """The formula as the engine shall read it."""
        return self.verdict.formula_in(self.cell.row)

    def reads(self) -> Tuple[Tuple[str, places.Area], ...]:
        """Sheet and range of everything that the formula reads."""
        return self.verdict.reads_in(self.cell.row)


def wrapped(number: int, item: Item) -> str:
    """An array formula goes through a function that fits its result to its cells."""
    if item.cell.kind != "array":
        return item.formula
    height, width = item.fills.bottom - item.fills.top + 1, item.fills.right - item.fills.left + 1
    return f"BRINE__TABLE({number},{height},{width},{item.formula})"


def for_engine(sheet: SheetCells, items: List[Tuple[int, Item]]) -> bytes:
    """The sheet as the engine shall see it: its cells alone, formulas rewritten, distrusted ones as plain values."""
    data, prefix = sheet.data, sheet.prefix
    patches = []
    shadows: List[places.Area] = []
    for number, item in items:
        cell = item.cell
        if item.reason is not None:
            patches.append(inject.Patch(cell.f_start, cell.f_end, b""))
            continue
        name = places.name(cell.row, cell.col)
        formula = markup.escape(wrapped(number, item))
        patches.append(
            inject.Patch(
                cell.start, cell.end, f'<{prefix}c r="{name}"><{prefix}f>{formula}</{prefix}f></{prefix}c>'.encode()
            )
        )
        if not item.fills.single:
            shadows.append(item.fills)
    if shadows:
        patches += _shadow_patches(sheet, shadows, items)
    start, end = sheet.body
    root = data[sheet.root[0] : sheet.root[1]]
    moved = [inject.Patch(p.start - start, p.end - start, p.data) for p in patches]
    return root + inject.patched(data[start:end], moved) + f"</{prefix}worksheet>".encode()


def _shadow_patches(sheet: SheetCells, shadows: List[places.Area], items: List[Tuple[int, Item]]) -> List[inject.Patch]:
    """Takes out the old values beside an array formula, which would stand in the way of the new ones."""
    formulas = {(item.cell.row, item.cell.col) for _, item in items}
    patches = []
    for span in sheet.rows:
        across = [area for area in shadows if area.top <= span.number <= area.bottom]
        for col, start, end in span.cells:
            if (span.number, col) not in formulas and any(area.left <= col <= area.right for area in across):
                patches.append(inject.Patch(start, end, b""))
    return patches
