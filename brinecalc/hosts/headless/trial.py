"""A workbook that stays in the engine, to be asked what would be if some cells held something else.

One idea: after a change only what depends on it is computed anew, which takes milliseconds where the whole workbook
takes a second.
"""

from __future__ import annotations

from typing import Collection, Dict, Iterator, Mapping, Optional, Set, Tuple

from brinecalc.hosts.formulas.places import Area
from brinecalc.hosts.headless.engine import Value
from brinecalc.hosts.headless.items import Item
from brinecalc.hosts.headless.library import REGISTRY, Library
from brinecalc.hosts.headless.whole_book import Outcome, Progress, _Calculation

Cell = Tuple[str, int, int]
"""Sheet, row, column."""


class Formula:
    """A formula of the workbook: its cell, the cells it fills, and its text."""

    __slots__ = ("_item", "cell", "fills", "text")

    def __init__(self, item: Item) -> None:
        self.cell: Cell = (item.sheet, item.cell.row, item.cell.col)
        self.fills = item.fills
        self.text = item.cell.text
        self._item = item

    @property
    def reads(self) -> Tuple[Tuple[str, Area], ...]:
        """The ranges it reads, by sheet; worked out when asked for, which few do."""
        return self._item.reads() if self._item.verdict.formula else ()


class Trial:
    """A computed workbook, and its bytes as they were given in `content`."""

    def __init__(
        self, content: bytes, name: str, library: Optional[Library] = None, progress: Optional[Progress] = None
    ) -> None:
        self.content = content
        self._calculation = _Calculation(content, name, library or REGISTRY, progress or (lambda step: None))
        self._calculation.run()
        self._outcome: Optional[Outcome] = None
        self._as_given = True

    @property
    def outcome(self) -> Outcome:
        """The file with its values, made when it is first asked for; that must be before anything is supposed."""
        if self._outcome is None:
            self._outcome = self.voided(())
        return self._outcome

    def voided(self, sheets: Collection[str]) -> Outcome:
        """The same, but on these sheets a formula that is not computed shows #N/A in place of the value it had."""
        if not self._as_given:
            raise RuntimeError("ask for the outcome before anything is supposed")
        return self._calculation.written(sheets)

    def suppose(self, cells: Mapping[Cell, Value]) -> None:
        """Puts other values into cells that hold no formula; `value` and `distrusted` then tell of that."""
        self._as_given = False
        self._calculation.suppose(cells)

    def value(self, sheet: str, row: int, col: int) -> Value:
        """The value of a cell: a float, a text, True or False, None for a blank cell, a dict for an error."""
        return self._calculation.look(sheet, row, col)

    def formulas(self) -> Iterator[Formula]:
        """Every formula, sheet by sheet."""
        return map(Formula, self._calculation.items)

    def distrusted(self) -> Set[Cell]:
        """The formulas whose values are not to be trusted."""
        return self._calculation.distrusted()

    def doubts(self) -> Dict[Cell, str]:
        """Why those are not to be trusted that the doubt began with; all others depend on one of them."""
        return dict(self._calculation.doubts)
