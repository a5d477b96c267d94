"""Calls of worksheet functions, given as cells, written as formulas that Calc works out.

One idea: a call is a name and cells as every host knows them (a number, a text, None for a blank cell, ``""`` for
"not given", an error by its text, rows for a range), so the same list of calls can be put to the library itself and
to Calc, and the answers compared.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

SCRATCH = "Cells"
BLANK = f"${SCRATCH}.$A$1"
"""A cell that stays empty."""

ERRORS = {
    "#NULL!": "=(A1:A2 C1:C2)",
    "#DIV/0!": "=1/0",
    "#VALUE!": '=VALUE("x")',
    "#REF!": '=INDIRECT("no such place")',
    "#NUM!": "=SQRT(-1)",
    "#N/A": "=NA()",
    "#NAME?": "=nosuchname",
}
"""A formula for each error that a cell may hold."""

Call = tuple[str, Sequence[Any]]


class Writer:
    """Writes calls as formulas and gathers the cells that their ranges and errors need."""

    def __init__(self) -> None:
        self.rows: list[list[Any]] = [[None]]

    def formula(self, call: Call) -> str:
        """The call as a formula, without the equals sign."""
        name, cells = call
        return f"{name}({';'.join(self._argument(cell) for cell in cells)})"

    def _argument(self, cell: Any) -> str:
        if cell is None:
            return BLANK
        if isinstance(cell, (list, tuple)):
            return self._range(cell)
        if isinstance(cell, str) and cell in ERRORS:
            return self._range([[cell]]).partition(":")[0]
        return literal(cell)

    def _range(self, cells: Sequence[Any]) -> str:
        rows = [list(row) if isinstance(row, (list, tuple)) else [row] for row in cells]
        if not any(isinstance(row, (list, tuple)) for row in cells):
            rows = [list(cells)]
        first = len(self.rows) + 1
        self.rows += [[_entered(cell) for cell in row] for row in rows]
        return f"${SCRATCH}.$A${first}:${column_name(len(rows[0]))}${len(self.rows)}"

    def scratch(self) -> list[list[Any]]:
        """The rows of the scratch sheet, all of one length."""
        width = max(map(len, self.rows))
        return [row + [None] * (width - len(row)) for row in self.rows]


def literal(cell: Any) -> str:
    """A number, text or truth value as it stands in a formula."""
    if isinstance(cell, bool):
        return "TRUE()" if cell else "FALSE()"
    if isinstance(cell, str):
        doubled = cell.replace('"', '""')
        return f'"{doubled}"'
    return repr(float(cell))


def column_name(count: int) -> str:
    """The letters of the count-th column, from 1."""
    letters = ""
    while count:
        count, rest = divmod(count - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def _entered(cell: Any) -> Any:
    """A cell as it is entered; a text goes in as a formula, so that none is taken for a number or a date."""
    if cell is None or cell == "":
        return None
    if isinstance(cell, str):
        return ERRORS.get(cell, f"={literal(cell)}")
    return f"={literal(cell)}" if isinstance(cell, bool) else float(cell)
