"""Which cells of a workbook lead to which: what a formula rests on, and what follows from an input.

One idea: formulas read ranges, so the question is asked range by range and each range is looked through once.
"""

from __future__ import annotations

from typing import Dict, Iterable, List, Set, Tuple

from brinecalc.hosts.formulas.places import Area
from brinecalc.hosts.headless import taint
from brinecalc.hosts.headless.trial import Cell, Formula


class Paths:
    """The formulas of a workbook with what they read."""

    def __init__(self, formulas: Iterable[Formula]) -> None:
        self.formulas: List[Formula] = list(formulas)
        self.at: Dict[Cell, int] = {formula.cell: i for i, formula in enumerate(self.formulas)}
        self._columns: Dict[str, Dict[int, List[int]]] = {}
        for sheet, row, col in self.at:
            self._columns.setdefault(sheet, {}).setdefault(col, []).append(row)
        self._areas: Dict[Tuple[str, Area], List[int]] = {}

    def following(self, sources: Iterable[Cell]) -> List[Set[Cell]]:
        """For each of those cells the formulas whose values may change when it does."""
        readers = [taint.Reader(formula.cell[0], formula.fills, formula.reads) for formula in self.formulas]
        readers += [taint.Reader(sheet, Area(row, col, row, col), ()) for sheet, row, col in sources]
        links, many = taint.Links(readers), len(self.formulas)
        return [
            {self.formulas[i].cell for i in links.spread({source}) if i < many} for source in range(many, len(readers))
        ]

    def beneath(self, cells: Iterable[Cell]) -> Dict[str, Set[Area]]:
        """All ranges, by sheet, that those formulas rest on, through however many others."""
        seen = {self.at[cell] for cell in cells if cell in self.at}
        fresh = list(seen)
        ranges: Dict[str, Set[Area]] = {}
        while fresh:
            for sheet, area in self.formulas[fresh.pop()].reads:
                if area in ranges.setdefault(sheet, set()):
                    continue
                ranges[sheet].add(area)
                new = [i for i in self._inside(sheet, area) if i not in seen]
                seen.update(new)
                fresh += new
        return ranges

    def _inside(self, sheet: str, area: Area) -> List[int]:
        found = []
        for col, rows in self._columns.get(sheet, {}).items():
            if area.left <= col <= area.right:
                found += [self.at[sheet, row, col] for row in rows if area.top <= row <= area.bottom]
        return found
