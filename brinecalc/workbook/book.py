"""A workbook under construction: what every sheet's writer is handed.

One idea: grids are registered before anything is written, so that a formula on one sheet can name a field of any
other, and names of cells are given in one place.
"""

from __future__ import annotations

import re
from typing import Callable, Dict, NamedTuple, Optional

from openpyxl.workbook import Workbook
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame
from brinecalc.workbook.frame import Grid, Layout

MOST_BATCHES = 60
"""Rows of the largest plan; a smaller one is computed and printed sooner."""


AS_VALUES = "copy_as_values"
"""The named cell that is 1 in a copy with values in place of our formulas: what asks to be filled in says so there."""
WITHOUT_PRICES = "copy_without_prices"
"""The named cell that is 1 in a copy without prices."""
LEFT_OUT = "Prices are left out of this copy."


NOT_INSTALLED = "brinecalc is not installed here: nothing that you change is worked out."
"""What stands at the head of a sheet that is worked out anew by a program without our functions."""

_MISSING = "ISERROR(BRINE_ABOUT())"


def where_installed(formula: str, otherwise: str = NOT_INSTALLED) -> str:
    """A formula for `formula`, without its sign, where our functions are there, and for other words where they are not.

    The test stands in each such cell by itself: it is made anew whenever something that the cell reads is changed.
    """
    return f'IF({_MISSING},"{otherwise}",{formula})'


def taken_for_installed(formula: str) -> Optional[str]:
    """What such a formula comes to where nothing of ours has to be installed; None for any other formula."""
    found = re.fullmatch(
        r'IF\(ISERROR\([\w.]*ABOUT\(\)\),"[^"]*",(.*)\)', formula.lstrip("="), re.DOTALL | re.IGNORECASE
    )
    return found[1] if found else None


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
        self.workbook.defined_names[name] = DefinedName(name, attr_text=f"{frame.quoted(sheet)}!{address}")

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
