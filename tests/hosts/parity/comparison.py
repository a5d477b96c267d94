"""Compares a host's answers with the registry's: numbers to 1e-12 relative, errors by kind, texts letter by letter."""

from __future__ import annotations

from itertools import chain
from typing import Any, NamedTuple

WITHIN = 1e-12


class Mismatch(NamedTuple):
    """An answer that differs without being listed."""

    call: Any
    what: str
    wanted: Any
    found: Any


class Outcome:
    """What came of running the calls through one host."""

    def __init__(self, host: str) -> None:
        self.host = host
        self.calls = 0
        self.cells = 0
        self.largest = 0.0
        self.mismatches: list[Mismatch] = []
        self.listed: dict[str, int] = {}

    def compare(self, call: Any, what: str, wanted: Any, found: Any, differences: list[str]) -> None:
        """Compares one answer, tables cell by cell; `differences` are the listed ones that shaped what is wanted."""
        self._count(what, differences)
        rows, others = table(wanted), table(found)
        alike = [len(row) for row in rows] == [len(row) for row in others]
        for one, other in zip(chain(*rows), chain(*others), strict=False):
            alike = self._alike(one, other) and alike
        if not alike:
            self.mismatches.append(Mismatch(call, what, wanted, found))

    def compare_errors(self, call: Any, what: str, found: Any, difference: str, allowed: set[str] | None) -> None:
        """An answer that is nothing but errors, of those kinds or any."""
        self._count(what, [difference])
        for cell in chain(*table(found)):
            is_error = isinstance(cell, str) and (cell in allowed if allowed else cell.startswith(("#", "Err:")))
            if not is_error:
                self.mismatches.append(Mismatch(call, what, allowed or "errors", found))
                return

    def _count(self, what: str, differences: list[str]) -> None:
        self.calls += what == "value"
        for difference in differences:
            self.listed[difference] = self.listed.get(difference, 0) + 1

    def _alike(self, wanted: Any, found: Any) -> bool:
        self.cells += 1
        if isinstance(wanted, float) and isinstance(found, (int, float)) and not isinstance(found, bool):
            off = deviation(wanted, float(found))
            if off <= WITHIN:
                self.largest = max(self.largest, off)
            return off <= WITHIN
        return type(wanted) is type(found) and wanted == found

    def __str__(self) -> str:
        listed = sum(self.listed.values())
        return (
            f"{self.host}: {self.calls} calls and their reasons, {self.cells} cells, largest deviation "
            f"{self.largest:.1e}, {len(self.mismatches)} mismatches, {listed} listed differences"
        )


def deviation(wanted: float, found: float) -> float:
    """Relative deviation; absolute where nothing is wanted."""
    return abs(found - wanted) / (abs(wanted) or 1.0)


def table(answer: Any) -> list[list[Any]]:
    """An answer as rows of cells."""
    if not isinstance(answer, (list, tuple)):
        return [[answer]]
    return [list(row) if isinstance(row, (list, tuple)) else [row] for row in answer]
