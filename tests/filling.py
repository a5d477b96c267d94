"""A person at a workbook: finds cells by the words on the sheet, types where one may, reads what comes out."""

from __future__ import annotations

import datetime
import functools
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Dict, Tuple

from openpyxl.utils.cell import coordinate_to_tuple, get_column_letter
from openpyxl.utils.datetime import from_excel, to_excel
from trials import Kept, kept
from xlsx import looked_through, stored

from brinecalc.hosts.headless import reasons
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook.edit.book import Edit

HEADINGS = 6
FIRST = 8
MOST_COLUMNS = 60
TOTALS = 4
"""The row of the totals on Results, above its headings."""
SETTINGS = {"typed": "Figures are typed in", "shown": "Results are shown in", "rules": "Limits by the rules of"}


Values = Dict[Tuple[str, str], Any]
"""Sheet and address → what stands in the cell."""


class Person:
    """Someone who opens a workbook, fills it in and looks at what comes out. Locked cells cannot be typed into."""

    def __init__(self, content: bytes) -> None:
        self.content = content
        self.cells = looked_through(content, values=False)
        self.typed: Values = {}

    def type(self, sheet: str, address: str, value: Any) -> None:
        assert (sheet, address) in self.cells.unlocked, f"{sheet}!{address} is locked"
        self.typed[sheet, address] = value

    def set(self, label: str, value: Any) -> None:
        """Sets one of the settings on the first sheet, by the words beside it."""
        row = next(at[1:] for (sheet, at), words in self.cells.values.items() if sheet == "Start" and words == label)
        self.type("Start", f"C{row}", value)

    def named(self, name: str) -> tuple[str, str]:
        """Sheet and address of a named cell."""
        return named(self.content, name)

    def fill(self, sheet: str, row: int, values: dict[str, Any]) -> None:
        """Fills a row of a table by its headings; "Level 2" is the second column headed Level."""
        letters = self.headings(sheet)
        for heading, value in values.items():
            self.type(sheet, f"{letters[heading]}{row}", value)

    def headings(self, sheet: str) -> dict[str, str]:
        """Heading → column letter, as the table of the sheet has them."""
        return headings(self.cells.values, sheet)

    def saved(self) -> bytes:
        """The workbook with what was typed, and with the values that it had before."""
        edit = Edit(self.content, "Plan.xlsx")
        for (sheet, address), value in self.typed.items():
            edit.put(sheet, *coordinate_to_tuple(address), _number(value))
        return edit.done()

    def computed(self) -> "Answers":
        """What the workbook shows once this is typed."""
        with self.asked() as trial:
            return self.told(trial)

    def told(self, trial: Trial) -> "Answers":
        """What the workbook shows that was asked so."""
        return Answers(_shown(trial, self.content) | self.typed, self.content)

    @contextmanager
    def asked(self) -> Iterator[Kept]:
        """The workbook computed once this is typed, to be asked what would be if; put back afterwards."""
        trial = kept(self.content)
        cells = {(sheet, *coordinate_to_tuple(at)): _number(value) for (sheet, at), value in self.typed.items()}
        with trial.supposing(cells):
            assert not trial.distrusted()
            yield trial


class Answers:
    """What the filled workbook says."""

    def __init__(self, values: Values, content: bytes) -> None:
        self.values = {cell: value for cell, value in values.items() if value not in (None, "")}
        self.content = content

    @classmethod
    def read(cls, content: bytes) -> "Answers":
        """The values in a file."""
        return cls(stored(content), content)

    def at(self, sheet: str, address: str) -> Any:
        return self.values.get((sheet, address))

    def row(self, sheet: str, row: int) -> dict[str, Any]:
        """A row of a table by its headings."""
        return {heading: self.at(sheet, f"{letter}{row}") for heading, letter in self.headings(sheet).items()}

    def headings(self, sheet: str) -> dict[str, str]:
        return headings(self.values, sheet)

    def named(self, name: str) -> Any:
        """The value of a named cell."""
        return self.at(*named(self.content, name))


@functools.cache
def named(content: bytes, name: str) -> tuple[str, str]:
    """Sheet and address of a named cell."""
    found = Edit(content, "Plan.xlsx").place(name)
    assert found is not None
    assert found.area.single
    return found.sheet, f"{get_column_letter(found.area.left)}{found.area.top}"


def headings(values: Values, sheet: str) -> dict[str, str]:
    """Heading → column letter; a heading that comes again gets a number."""
    found: dict[str, str] = {}
    for column in range(1, MOST_COLUMNS + 1):
        letter = get_column_letter(column)
        text = values.get((sheet, f"{letter}{HEADINGS}"))
        if text:
            times = sum(word == text or word.rpartition(" ")[0] == text for word in found)
            found[f"{text} {times + 1}" if times else text] = letter
    return found


def _number(value: Any) -> Any:
    """A value as a workbook keeps it: moments are numbers of days."""
    return to_excel(value) if isinstance(value, (datetime.date, datetime.datetime)) else value


@functools.lru_cache(maxsize=4)
def _with_formulas(content: bytes) -> list[tuple[tuple[str, int, int], tuple[str, str], bool]]:
    """Every cell that a formula fills, its address, and whether it shows a moment."""
    moments, found = looked_through(content, values=False).moments, []
    for formula in kept(content).formulas():
        sheet = formula.cell[0]
        for row in range(formula.fills.top, formula.fills.bottom + 1):
            for column in range(formula.fills.left, formula.fills.right + 1):
                at = (sheet, f"{get_column_letter(column)}{row}")
                found.append(((sheet, row, column), at, at in moments))
    return found


def _shown(trial: Trial, content: bytes) -> Values:
    """What stands in every cell, formulas with what came out, moments where the cell shows one."""
    values = dict(looked_through(content, values=False).values)
    for cell, at, moment in _with_formulas(content):
        value = trial.value(*cell)
        if moment and isinstance(value, float):
            value = from_excel(value)
        values[at] = reasons.error_text(value) if value.__class__ is dict else value
    return values
