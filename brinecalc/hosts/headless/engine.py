"""formualizer with our functions: loads cells and formulas, computes them, hands out values.

One idea: the engine is given a package made for it alone, with cells and rewritten formulas and nothing else, and
every function goes in through a gate (see ``gates``).
"""

from __future__ import annotations

from typing import Iterable, List, Mapping, Optional, Set, Tuple

import formualizer

from brinecalc.hosts import spelling
from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless import gates, stand_ins
from brinecalc.hosts.headless.gates import Value as Value
from brinecalc.hosts.headless.library import Library

_SECONDS = 600


class Engine:
    """One workbook in the engine."""

    def __init__(self, library: Library, package: Optional[bytes] = None, *, from_1904: bool = False) -> None:
        config = formualizer.EvaluationConfig()
        config.enable_parallel = False  # callbacks take turns anyway; several threads make them seven times slower
        config.max_eval_time_ms = _SECONDS * 1000
        if from_1904:
            config.date_system = "1904"
        settings = formualizer.WorkbookConfig(eval_config=config)
        made = formualizer.Workbook
        self.workbook = made(config=settings) if package is None else made.from_bytes(package, config=settings)
        self.workbook.set_temporal_egress("serial")
        self.library = library
        self.notes = gates.Notes()
        self._registered: Set[str] = set()
        for name, helper in gates.helpers(self.notes).items():
            self.workbook.register_function(stand_ins.PREFIX + name, helper)

    def use(self, names: Iterable[str]) -> None:
        """Makes worksheet functions known to the engine, under every spelling that a file may hold."""
        for name in names:
            if name in self._registered:
                continue
            self._registered.add(name)
            gate = gates.gate(name, self.library.function(name), self.notes)
            for way in spelling.SPELLINGS:
                self.workbook.register_function(spelling.written(name, way), gate)

    def set_formula(self, sheet: str, row: int, col: int, formula: str) -> None:
        """Puts a formula into a cell."""
        self.workbook.set_formula(sheet, row, col, "=" + formula)

    def set_values(self, sheet: str, cells: Mapping[Tuple[int, int], Value]) -> None:
        """Puts values into cells, by row and column; what depends on them is computed at the next `compute`.

        They go in by rectangles: what depends on a cell is looked for at every call, which takes half a millisecond.
        """
        blank = formualizer.LiteralValue.empty()
        for area in places.rectangles(cells):
            columns = range(area.left, area.right + 1)
            rows = [[cells[row, col] for col in columns] for row in range(area.top, area.bottom + 1)]
            put = [[blank if value is None else value for value in row] for row in rows]
            self.workbook.set_values_batch(sheet, area.top, area.left, put)

    def compute(self) -> None:
        """Computes every formula."""
        self.workbook.evaluate_all()

    def value(self, sheet: str, row: int, col: int) -> Value:
        """The value of a cell as last computed."""
        return self.workbook.get_value(sheet, row, col)

    def computed(self, sheet: str, row: int, col: int) -> Value:
        """The value of one cell, computed if need be; rows of values for a formula that gives several."""
        return self.workbook.evaluate_cell(sheet, row, col)

    def capture(self, sheet: str, row: int, formula: str, into: List[Value]) -> None:
        """Computes a formula that stands in no cell; whatever it gives is put into the list."""
        self.workbook.add_sheet(sheet)

        def answer(value: Value) -> Value:
            into.append(value)
            return 0.0

        self.workbook.register_function(stand_ins.PREFIX + "ANSWER", answer)
        self.set_formula(sheet, row, 1, f"{stand_ins.PREFIX}ANSWER({formula})")
        self.workbook.evaluate_cell(sheet, row, 1)

    def values(self, sheet: str, bottom: int, right: int) -> List[List[Value]]:
        """All values of a sheet down to a row and column, counted from 0."""
        if not bottom or not right:
            return []
        return self.workbook.sheet(sheet).get_values(formualizer.RangeAddress(sheet, 1, 1, bottom, right))
