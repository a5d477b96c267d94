"""A workbook that stays in the engine, to be asked what would be if some cells held something else.

One idea: after a change only what depends on it is computed anew, which takes milliseconds where the whole workbook
takes a second.
"""

from __future__ import annotations

from typing import Iterator, Mapping, NamedTuple, Optional, Set, Tuple

from brinecalc.hosts.formulas.places import Area
from brinecalc.hosts.headless.engine import Value
from brinecalc.hosts.headless.library import REGISTRY, Library
from brinecalc.hosts.headless.whole_book import Outcome, Progress, _Calculation

Cell = Tuple[str, int, int]
"""Sheet, row, column."""


class Formula(NamedTuple):
    """A formula of the workbook: its cell, the cells it fills, its text, and the ranges it reads by sheet."""

    cell: Cell
    fills: Area
    text: str
    reads: Tuple[Tuple[str, Area], ...]


class Trial:
    """A computed workbook; `outcome` is the file with its values, whatever is supposed later."""

    def __init__(
        self, content: bytes, name: str, library: Optional[Library] = None, progress: Optional[Progress] = None
    ) -> None:
        self._calculation = _Calculation(content, name, library or REGISTRY, progress or (lambda step: None))
        self.outcome: Outcome = self._calculation.run()

    def suppose(self, cells: Mapping[Cell, Value]) -> None:
        """Puts other values into cells that hold no formula; `value` and `distrusted` then tell of that."""
        self._calculation.suppose(cells)

    def value(self, sheet: str, row: int, col: int) -> Value:
        """The value of a cell: a float, a text, True or False, None for a blank cell, a dict for an error."""
        return self._calculation.look(sheet, row, col)

    def formulas(self) -> Iterator[Formula]:
        """Every formula, sheet by sheet."""
        for item in self._calculation.items:
            reads = item.reads() if item.verdict.formula else ()
            yield Formula((item.sheet, item.cell.row, item.cell.col), item.fills, item.cell.text, reads)

    def distrusted(self) -> Set[Cell]:
        """The formulas whose values are not to be trusted."""
        return self._calculation.distrusted()
