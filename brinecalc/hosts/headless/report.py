"""What came of computing a workbook, for people and for programs.

One idea: every formula is counted once, as computed, as an error or as kept, so the account always adds up.
"""

from __future__ import annotations

from typing import Any, Dict, List, NamedTuple, Optional


class Problem(NamedTuple):
    """A formula that ended in an error, or that was not computed and kept the value of the file (`error` is None)."""

    sheet: str
    cell: str
    formula: str
    error: Optional[str]
    reason: str


class SheetReport(NamedTuple):
    """How many formulas a sheet has, and how they ended."""

    name: str
    formulas: int
    errors: int
    kept: int


class Report(NamedTuple):
    """The whole account. `notes` are remarks about the file itself."""

    sheets: List[SheetReport]
    problems: List[Problem]
    notes: List[str]

    @property
    def formulas(self) -> int:
        """Formulas in all."""
        return sum(sheet.formulas for sheet in self.sheets)

    @property
    def errors(self) -> int:
        """Formulas that ended in an error."""
        return sum(sheet.errors for sheet in self.sheets)

    @property
    def kept(self) -> int:
        """Formulas that were not computed."""
        return sum(sheet.kept for sheet in self.sheets)

    @property
    def clean(self) -> bool:
        """Whether every formula was computed and none ended in an error."""
        return not self.problems

    def as_dict(self) -> Dict[str, Any]:
        """The account as plain data."""
        return {
            "formulas": self.formulas,
            "errors": self.errors,
            "not computed": self.kept,
            "sheets": [sheet._asdict() for sheet in self.sheets],
            "problems": [problem._asdict() for problem in self.problems],
            "notes": self.notes,
        }
