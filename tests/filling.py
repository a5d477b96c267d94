"""A person at a workbook: finds cells by the words on the sheet, types where one may, reads what comes out."""

from __future__ import annotations

import io
from typing import Any

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet
from xlsx import saved

from brinecalc.hosts.headless import calculate
from brinecalc.hosts.headless.trial import Trial

HEADINGS = 6
FIRST = 8
TOTALS = 4
"""The row of the totals on Results, above its headings."""
SETTINGS = {"typed": "Figures are typed in", "shown": "Results are shown in", "rules": "Limits by the rules of"}


class Person:
    """Someone who opens a workbook, fills it in and looks at what comes out. Locked cells cannot be typed into."""

    def __init__(self, content: bytes) -> None:
        self.book = openpyxl.load_workbook(io.BytesIO(content))

    def type(self, sheet: str, address: str, value: Any) -> None:
        cell = self.book[sheet][address]
        assert not cell.protection.locked, f"{sheet}!{address} is locked"
        cell.value = value

    def set(self, label: str, value: Any) -> None:
        """Sets one of the settings on the first sheet, by the words beside it."""
        sheet = self.book["Start"]
        row = next(cell.row for cell in sheet["B"] if cell.value == label)
        self.type("Start", f"C{row}", value)

    def named(self, name: str) -> tuple[str, str]:
        """Sheet and address of a named cell."""
        sheet, address = self.book.defined_names[name].attr_text.split("!")
        return sheet.strip("'"), address.replace("$", "")

    def fill(self, sheet: str, row: int, values: dict[str, Any]) -> None:
        """Fills a row of a table by its headings; "Level 2" is the second column headed Level."""
        for heading, value in values.items():
            self.type(sheet, f"{column(self.book[sheet], heading)}{row}", value)

    def computed(self) -> "Answers":
        return Answers(calculate(saved(self.book), "filled.xlsx"))

    def asked(self) -> Trial:
        """The workbook computed, and kept to be asked what would be if."""
        return Trial(saved(self.book), "filled.xlsx")


class Answers:
    """What the filled workbook says."""

    def __init__(self, outcome: Any) -> None:
        self.outcome = outcome
        self.book = openpyxl.load_workbook(io.BytesIO(outcome.content), data_only=True)

    def row(self, sheet: str, row: int) -> dict[str, Any]:
        """A row of a table by its headings."""
        found = self.book[sheet]
        return {heading: found[f"{letter}{row}"].value for heading, letter in headings(found).items()}

    def named(self, name: str) -> Any:
        """The value of a named cell."""
        sheet, address = self.book.defined_names[name].attr_text.split("!")
        return self.book[sheet.strip("'")][address].value

    def all(self) -> dict[tuple[str, str], Any]:
        """Every value of every cell."""
        return {
            (sheet.title, cell.coordinate): cell.value
            for sheet in self.book
            for row in sheet.iter_rows()
            for cell in row
            if cell.value is not None
        }


def headings(sheet: Worksheet) -> dict[str, str]:
    """Heading → column letter; a heading that comes again gets a number."""
    found: dict[str, str] = {}
    for cell in sheet[HEADINGS]:
        if cell.value:
            times = sum(word == cell.value or word.rpartition(" ")[0] == cell.value for word in found)
            found[f"{cell.value} {times + 1}" if times else cell.value] = cell.column_letter
    return found


def column(sheet: Worksheet, heading: str) -> str:
    return headings(sheet)[heading]
