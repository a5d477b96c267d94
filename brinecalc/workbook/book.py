"""A workbook under construction: what every sheet's writer is handed.

One idea: grids are registered before anything is written, so that a formula on one sheet can name a field of any
other, and names of cells are given in one place.
"""

from __future__ import annotations

from typing import Callable, Dict, NamedTuple, Optional

from openpyxl.workbook import Workbook
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.hosts.formulas import places
from brinecalc.workbook.agreed import AS_VALUES
from brinecalc.workbook.frame import Grid, Layout

MOST_BATCHES = 60
"""Rows of the largest plan; a smaller one is computed and printed sooner."""


class Options(NamedTuple):
    """What kind of workbook to build."""

    units: str = "metric"
    paper: str = "A4"
    filled: bool = False
    batches: int = MOST_BATCHES


class Book:
    """The workbook, the places of all fields, and the options it is built with."""

    def __init__(self, workbook: Workbook, options: Options) -> None:
        self.workbook = workbook
        self.options = options
        self.layout = Layout()
        self.grids: Dict[str, Grid] = {}

    def add(self, grid: Grid) -> None:
        """Registers a sheet's grid, so that its fields can be named."""
        self.grids[grid.sheet] = self.layout.add(grid)

    def name(self, name: str, sheet: str, address: str) -> None:
        """Gives a cell or range a name for the whole workbook; `address` is absolute, without the sheet."""
        self.workbook.defined_names[name] = DefinedName(name, attr_text=f"{places.quoted(sheet)}!{address}")

    def says(self, words: str, as_values: str) -> str:
        """A formula for a line that asks for something to be filled in, and what a copy as values has instead."""
        quoted = [text.replace('"', '""') for text in (as_values, words)]
        return f'=IF({AS_VALUES}<>0,"{quoted[0]}","{quoted[1]}")'

    def set(self, name: str, value: object) -> None:
        """Writes a value into a named cell."""
        sheet, address = self.workbook.defined_names[name].attr_text.split("!")
        self.workbook[sheet.strip("'")][address.replace("$", "")].value = value


class Part(NamedTuple):
    """One sheet: its name, what writes it, and its grid if it has one."""

    sheet: str
    write: Callable[[Book, Worksheet], None]
    grid: Optional[Callable[[int], Grid]] = None
