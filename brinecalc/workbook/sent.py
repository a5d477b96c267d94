"""The hidden sheet of a copy: what stood in the inputs when it was sent, and values worked out for every batch.

One idea: a copy can tell by itself whether a figure was changed, because it carries what was sent and compares.
"""

from __future__ import annotations

from typing import Dict, Iterable, List, Tuple

from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless.trial import Cell
from brinecalc.workbook.edit import sheets
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.cells import Value
from brinecalc.workbook.edit.sheets import Formula

SHEET = "Sent"
CHANGES = "copy_changes"
"""The named cell with the number of inputs that were changed since."""

_FIRST = 4  # row in which the values for a blank choice stand; those for no batch of the plan follow, then batch 1
_TITLE = "Inputs changed since this copy was sent"


class Sent:
    """The sheet while it is filled: choices and tables from the top, what was sent below."""

    def __init__(self, edit: Edit) -> None:
        self.edit = edit
        self.sheet = sheets.own(edit, SHEET, _TITLE)
        self.prefix = f"{places.quoted(self.sheet)}!"
        self.cells: Dict[Tuple[int, int], "Value | Formula"] = {}
        self.choices: Dict[Cell, str] = {}
        self.right = 2  # last column in use
        self.bottom = _FIRST

    def look_up(self, choice: Cell, values: List[Value]) -> str:
        """Puts the values for a blank choice, for no batch and for every batch into a column; answers the formula that finds one of them."""
        index = self._index(choice, len(values))
        self.right += 1
        for row, value in enumerate(values, _FIRST):
            if value != "":
                self.cells[row, self.right] = value
        letter = places.letters(self.right)
        column = f"{self.prefix}${letter}${_FIRST}:${letter}${_FIRST + len(values) - 1}"
        found = f"INDEX({column},{index})"
        return f'IF({found}="","",{found})'

    def _index(self, choice: Cell, rows: int) -> str:
        """The cell that says which row of the tables goes with a choice."""
        if choice not in self.choices:
            self.right += 1
            sheet, row, col = choice
            cell = f"{places.quoted(sheet)}!${places.letters(col)}${row}"
            self.cells[2, self.right] = Formula(
                f'IF({cell}="",1,2+IF(ISNUMBER({cell}),IF(AND({cell}>=1,{cell}<={rows - 2}),INT({cell}),0),0))'
            )
            self.choices[choice] = f"{self.prefix}${places.letters(self.right)}$2"
            self.bottom = max(self.bottom, _FIRST + rows)
        return self.choices[choice]

    def watch(self, inputs: Iterable[Cell]) -> str:
        """Keeps what stands in the inputs now; answers the name of the cell that counts those changed since."""
        by_sheet: Dict[str, List[Tuple[int, int]]] = {}
        for sheet, row, col in inputs:
            by_sheet.setdefault(sheet, []).append((row, col))
        row = max(self.bottom, 70) + 2
        first = row
        for sheet, cells in by_sheet.items():
            for area in places.rectangles(cells):
                self._keep(sheet, area, row)
                row += area.bottom - area.top + 1
        self.cells[1, 1] = _TITLE
        self.cells[1, 2] = Formula(f"SUM($B${first}:$B${row - 1})")
        sheets.add_name(self.edit, CHANGES, f"{self.prefix}$B$1")
        return CHANGES

    def _keep(self, sheet: str, area: places.Area, row: int) -> None:
        """Copies one rectangle of inputs, and counts beside it what reads otherwise now."""
        down = row - area.top
        height, width = area.bottom - area.top + 1, area.right - area.left + 1
        for r in range(area.top, area.bottom + 1):
            for c in range(area.left, area.right + 1):
                value = self.edit.look(sheet, r, c).value
                if value is not None:
                    self.cells[r + down, 3 + c - area.left] = value
        there = f"{places.quoted(sheet)}!${places.letters(area.left)}${area.top}:${places.letters(area.right)}${area.bottom}"
        here = f"$C${row}:${places.letters(2 + width)}${row + height - 1}"
        self.cells[row, 1] = there.replace("$", "")
        self.cells[row, 2] = Formula(f"SUMPRODUCT(--({there}<>{here}))")

    def write(self) -> None:
        """Adds the sheet, hidden."""
        if not self.cells:
            return
        rows: Dict[int, Dict[int, "Value | Formula"]] = {}
        for (row, col), value in self.cells.items():
            rows.setdefault(row, {})[col] = value
        lines = [
            (row, [(cells.get(col), "") for col in range(1, max(cells) + 1)]) for row, cells in sorted(rows.items())
        ]
        sheets.put_sheet(self.edit, self.sheet, sheets.page(lines, (40, 12)), hidden=True)
