"""What people have filled in: the cells that may be typed into, their values, and what they are called.

One idea: a cell that is unlocked and holds no formula is an input, in any workbook that protects its sheets; where
none is unlocked, every cell without a formula counts.
"""

from __future__ import annotations

from typing import Dict, Iterable, List, NamedTuple, Optional, Set

from brinecalc.hosts import days
from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless.trial import Cell
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.cells import Fault, Found, Value
from brinecalc.workbook.edit.looks import Looks

_LONGEST = 200


class Difference(NamedTuple):
    """An input that reads otherwise than before, in words."""

    where: str
    what: str
    before: str
    after: str


class Inputs:
    """The inputs of one workbook. `own` are sheets that are the copy's business and nobody's input."""

    def __init__(self, edit: Edit, own: Set[str]) -> None:
        self.edit = edit
        self.looks = Looks(edit)
        unlocked: List[Cell] = []
        typed: List[Cell] = []
        known: Dict[str, bool] = {}
        for sheet in edit.sheets:
            if sheet in own:
                continue
            for (row, col), place in edit.map(sheet).cells.items():
                if place.formula:
                    continue
                if place.style not in known:
                    known[place.style] = self.looks.unlocked(place.style)
                (unlocked if known[place.style] else typed).append((sheet, row, col))
        self.cells = unlocked or typed

    def values(self, cells: Iterable[Cell]) -> Dict[Cell, str]:
        """Those of the cells that are filled in and hold no formula, as they are shown."""
        found = {}
        for cell in cells:
            content = self.edit.look(*cell) if cell[0] in self.edit.sheets else Found(None, None)
            if content.formula is None and content.value is not None and content.value != "":
                found[cell] = self.shown(cell, content.value)
        return found

    def shown(self, cell: Cell, value: Value) -> str:
        """A value as a person reads it."""
        if isinstance(value, Fault):
            return value.text
        if isinstance(value, bool):
            return "TRUE" if value else "FALSE"
        if isinstance(value, str):
            return value if len(value) <= _LONGEST else value[: _LONGEST - 1] + "…"
        number = float(value or 0.0)
        place = self.edit.map(cell[0]).cells.get(cell[1:])
        kind = self.looks.kind(place.style if place else "")
        if kind == "share":
            return f"{100 * number:.10g} %"
        if kind == "date" and 0 <= number < 2_900_000:
            moment = days.moment(number, self.edit.book.from_1904)
            return moment.strftime("%Y-%m-%d %H:%M").removesuffix(" 00:00")
        return f"{number:.12g}"

    def name(self, cell: Cell) -> str:
        """What an input is called, from the words beside and above it."""
        sheet, row, col = cell
        left = self._words(sheet, row, col - 1) if col > 1 else None
        if left is not None:
            return left
        heading = self._heading(sheet, row, col)
        if col == 1:
            return heading or ""
        first = self.edit.look(sheet, row, 1).value
        line = f"{first:g}" if isinstance(first, float) else str(first) if isinstance(first, str) else ""
        return ": ".join(part for part in (line, heading) if part)

    def _heading(self, sheet: str, row: int, col: int) -> Optional[str]:
        """The words above a column of inputs, with the unit that may stand between."""
        top = row
        while (
            top > 1 and (place := self.edit.map(sheet).cells.get((top - 1, col))) and self.looks.unlocked(place.style)
        ):
            top -= 1
        found: List[str] = []
        for above in range(top - 1, max(top - 4, 0), -1):
            value = self.edit.look(sheet, above, col).value
            if isinstance(value, str) and value:
                found.append(value)
                if len(found) == 2 or above < top - 1:
                    break
        return f"{found[1]}, {found[0]}" if len(found) == 2 else found[0] if found else None

    def _words(self, sheet: str, row: int, col: int) -> Optional[str]:
        """The fixed words in a cell."""
        place = self.edit.map(sheet).cells.get((row, col))
        if place is None or place.formula or self.looks.unlocked(place.style):
            return None
        value = self.edit.look(sheet, row, col).value
        return value if isinstance(value, str) and value else None


def differences(before: Inputs, after: Inputs, leave_out: Set[Cell]) -> List[Difference]:
    """Every input that reads otherwise, sheet by sheet from the top; what is an input in either counts in both."""
    both = {*before.cells, *after.cells}
    old, new = before.values(both), after.values(both)
    order = {sheet: number for number, sheet in enumerate(after.edit.sheets)}
    cells = [cell for cell in {**old, **new} if old.get(cell) != new.get(cell) and cell not in leave_out]
    cells.sort(key=lambda cell: (order.get(cell[0], len(order)), *cell[1:]))
    made = []
    for cell in cells:
        sheet, row, col = cell
        names = after if sheet in after.edit.sheets else before
        where = f"{sheet}!{places.name(row, col)}"
        made.append(Difference(where, names.name(cell), old.get(cell, ""), new.get(cell, "")))
    return made
