"""What a workbook says about itself: its sheets, its names, how it counts days.

One idea: judging a formula needs no more of its workbook than this, and a formula without a workbook needs a book
with one empty sheet, so nothing that reads files is imported here.
"""

from __future__ import annotations

from typing import Dict, List, NamedTuple, Optional, Tuple


class Sheet(NamedTuple):
    """A worksheet and the part that holds it."""

    name: str
    part: str


class Outline:
    """Sheets, names and settings of a workbook."""

    def __init__(self) -> None:
        self.part = ""
        self.sheets: List[Sheet] = []
        self.shared_texts: Optional[str] = None
        self.from_1904 = False
        self.hides_rows = False
        self.signed = False
        self._sheets: Dict[str, str] = {}
        self._names: Dict[Tuple[str, str], str] = {}

    def sheet(self, name: str) -> Optional[str]:
        """The sheet of that name as the workbook spells it."""
        return self._sheets.get(name.casefold())

    def name(self, name: str, sheet: str) -> Optional[str]:
        """What a defined name stands for, seen from a sheet."""
        key = name.casefold()
        return self._names.get((sheet.casefold(), key)) or self._names.get(("", key))

    def layout(self) -> Tuple[object, ...]:
        """All that judging a formula reads of the workbook: two with equal layouts judge alike."""
        return self.hides_rows, tuple(self._sheets.items()), tuple(self._names.items())

    def names(self) -> List[str]:
        """The names of the whole workbook, in small letters."""
        return [name for sheet, name in self._names if not sheet]

    @property
    def name_count(self) -> int:
        """How many names there are, those of single sheets included."""
        return len(self._names)

    def add_sheet(self, name: str, part: str) -> None:
        """Adds a worksheet; no two have one name."""
        self.sheets.append(Sheet(name, part))
        self._sheets[name.casefold()] = name

    def add_name(self, name: str, text: str, sheet: str = "") -> None:
        """Adds a defined name, for the whole workbook or for one sheet."""
        self._names[sheet.casefold(), name.casefold()] = text
