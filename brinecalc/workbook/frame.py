"""Sheets described as fields: what each column or cell holds, written once, laid out by one routine.

One idea: a formula names other fields, not cells. ``{weight}`` in a template becomes the cell of that field in the
same row, with its sheet in front where it stands elsewhere, ``{weight:bare}`` the same without its sheet, to end a
range, and ``{weight:all}`` the whole column. So a column can be moved or added without touching a formula, and a reader
sees what is multiplied by what.
"""

from __future__ import annotations

import functools
import re
import textwrap
from typing import Dict, List, NamedTuple, Optional, Tuple

from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.hosts.formulas import places
from brinecalc.workbook import styles

_LONGEST_TITLE = 32
"""Characters that the title of a help message may have."""

_FIELD = re.compile(r"\{(\w+)(:all|:bare)?\}")


class Field(NamedTuple):
    """One column of a grid: an input to fill in, or a formula."""

    key: str
    heading: str
    form: str = "plain"
    formula: Optional[str] = None
    unit: str = ""
    width: float = 10
    group: str = ""
    choices: Optional[str] = None
    limits: Optional[Tuple[float, float]] = None
    help: str = ""
    why: str = ""
    free: bool = False  # the list is a help, other words may be typed too

    @property
    def is_input(self) -> bool:
        """Whether a person fills it in."""
        return self.formula is None

    @property
    def style(self) -> str:
        """The style of its cells: words stand a little apart from the figures to their left."""
        words = bool(self.choices) or self.form == "text"
        return ("input_words" if words else "input") if self.is_input else ("words" if words else "cell")


class Grid:
    """A table of fields on a sheet: headings in three rows (group, heading, unit), then the rows."""

    def __init__(self, sheet: str, fields: List[Field], first_row: int, rows: int, first_column: int = 1) -> None:
        self.sheet = sheet
        self.fields = fields
        self.first_row = first_row
        self.last_row = first_row + rows - 1
        self.columns = {field.key: get_column_letter(first_column + i) for i, field in enumerate(fields)}
        self.last_column = get_column_letter(first_column + len(fields) - 1)
        self.first_column = get_column_letter(first_column)

    def address(self, key: str, row: int) -> str:
        """The cell of a field in a row."""
        return f"{self.columns[key]}{row}"


class Layout:
    """All grids of a workbook, so that a formula on one sheet can name a field of another."""

    def __init__(self) -> None:
        self.grids: Dict[str, Grid] = {}

    def add(self, grid: Grid) -> Grid:
        """Registers a grid; a field's key may stand only once."""
        for field in grid.fields:
            if field.key in self.grids:
                raise ValueError(f"the field {field.key} stands on two sheets")
            self.grids[field.key] = grid
        return grid

    def whole(self, key: str, here: str = "") -> str:
        """The whole column of a field, absolute."""
        grid = self.grids[key]
        column = grid.columns[key]
        prefix = "" if grid.sheet == here else f"{places.quoted(grid.sheet)}!"
        return f"{prefix}${column}${grid.first_row}:${column}${grid.last_row}"

    def fill(self, template: str, row: int, here: str) -> str:
        """A template with every {field} replaced by its cell in that row (rows of grids run in step)."""

        def cell(match: re.Match[str]) -> str:
            key, form = match[1], match[2]
            grid = self.grids[key]
            if form == ":all":
                return self.whole(key, here)
            prefix = "" if grid.sheet == here or form == ":bare" else f"{places.quoted(grid.sheet)}!"
            return f"{prefix}${grid.columns[key]}{row}"

        return _FIELD.sub(cell, template)


MOVED = (
    "Cells of this row were moved by cut and paste, or dragged, so it no longer reads its own. Undo that, or go back to the "
    "file as last saved. To move a row, copy its cells, then clear the old ones."
)
"""Why a row fails whose inputs were cut away, or pasted over by cells that were."""


def in_place(inputs: List[Field], sheet: str, heading: int) -> str:
    """A formula for whether a row still reads its own inputs, which must be the first columns of their sheet's grid.

    A formula follows the cells it names where they are cut and pasted, and two rows would reckon with the same ones.
    Headings are locked, so they tell the columns. A cell that was pasted over is an error here, as everywhere.
    """
    tests = []
    for number, field in enumerate(inputs, 1):
        if field.is_input:
            head = f"{places.quoted(sheet)}!${get_column_letter(number)}${heading}"
            tests.append(f"ROW({{{field.key}}})=ROW(),COLUMN({{{field.key}}})=COLUMN({head})")
    return f"AND({','.join(tests)})"


def minute(moment: str) -> str:
    """A moment to the whole minute and a hair more, so that four o'clock does not read one minute to four.

    Whatever is rounded in a formula gets a hair first: about a half that is one but for its last digit spreadsheet
    programs disagree, and 26.25 less 12 less 2 is such a half.
    """
    return f"(ROUND(({moment})*1440+0.0001,0)+0.01)/1440"


def hours_in_words(hours: str) -> str:
    """A formula for hours in words; days where there are many."""
    return f'IF({hours}>72,ROUND({hours}/24+1E-9,1)&" days",ROUND({hours}+1E-9,1)&" h")'


def hours_range(low: str, high: str) -> str:
    """A formula for two hours in words, their unit once where both have the same."""
    both = f"OR({low}>72,{high}<=72)"
    days = f"IF({low}>72,ROUND({low}/24+1E-9,1),ROUND({low}+1E-9,1))"
    return f'IF({both},{days},{hours_in_words(low)})&" to "&{hours_in_words(high)}'


def unbroken(words: str) -> str:
    """A formula for words in which a line never ends between a figure and its degrees."""
    return f'SUBSTITUTE({words}," °","\u00a0°")'


@functools.lru_cache(maxsize=64)
def lay_out(sheet: Worksheet, grid: Grid, layout: Layout, rows: Optional[range] = None) -> None:
    """Writes a grid: its headings, its formulas, its inputs with lists, limits and help."""
    top = grid.first_row - 3
    group = ""
    for field in grid.fields:
        column = grid.columns[field.key]
        sheet.column_dimensions[column].width = field.width
        styles.put(sheet, f"{column}{top}", field.group if field.group != group else None, "group")
        group = field.group
        styles.put(sheet, f"{column}{top + 1}", field.heading, "heading")
        styles.put(sheet, f"{column}{top + 2}", field.unit or None, "unit")
        for row in rows or range(grid.first_row, grid.last_row + 1):
            cell = sheet[f"{column}{row}"]
            if field.formula is not None:
                cell.value = layout.fill(field.formula, row, grid.sheet)
            styles.dress(cell, field.style, field.form)
        if field.is_input:
            validate(sheet, field, f"{column}{grid.first_row}:{column}{grid.last_row}")
    sheet.row_dimensions[top + 1].height = 42


def validate(sheet: Worksheet, field: Field, cells: str) -> None:
    """A list or limits with words to help, for the cells of an input."""
    if field.choices:
        rule = DataValidation(type="list", formula1=field.choices, allow_blank=True)
        rule.error = "Choose one of the list; a name that is not in it cannot be looked up."
    elif field.limits and field.form == "moment":
        rule = _dates(*field.limits)
    elif field.limits:
        low, high = field.limits
        rule = DataValidation(
            type="decimal", operator="between", formula1=f"{low:.12g}", formula2=f"{high:.12g}", allow_blank=True
        )
        share = "%" in styles.FORMATS.get(field.form, field.form)
        between = f"{100 * low:.12g}% and {100 * high:.12g}%" if share else f"{low:.12g} and {high:.12g}"
        rule.error = f"Type {'a share' if share else 'a number'} between {between}."
    elif field.help:
        rule = DataValidation(allow_blank=True)
    else:
        return
    title = textwrap.shorten(field.heading, _LONGEST_TITLE, placeholder=" …")
    rule.errorTitle = rule.promptTitle = title
    rule.prompt = field.help[:255] or None
    rule.showInputMessage = bool(field.help)
    rule.showErrorMessage = bool(field.choices or field.limits) and not field.free
    rule.add(cells)
    sheet.add_data_validation(rule)


def validate_degree(sheet: Worksheet, field: Field, cell: str) -> None:
    """A temperature: a number in the unit of what is typed, or one with its own unit."""
    letter = f"RIGHT(TRIM({cell}),1)"
    formula = f'OR(AND(ISNUMBER({cell}),{cell}>=-40,{cell}<=212),AND(ISTEXT({cell}),OR({letter}="C",{letter}="F")))'
    rule = DataValidation(type="custom", formula1=formula, allow_blank=True)
    rule.error = "Type a plain number, in °C or °F as the figures are typed in, or a number with its unit, such as 4 °C or 40 °F."
    rule.errorTitle = rule.promptTitle = textwrap.shorten(field.heading, _LONGEST_TITLE, placeholder=" …")
    rule.prompt = field.help[:255] or None
    rule.showInputMessage = rule.showErrorMessage = True
    rule.add(cell)
    sheet.add_data_validation(rule)


def _dates(low: float, high: float) -> DataValidation:
    """Only dates between two, with or without a time of day: neither words nor a time alone."""
    rule = DataValidation(type="date", operator="between", formula1=f"{low:g}", formula2=f"{high:g}", allow_blank=True)
    rule.error = "Type a date and a time of day, for example 2026-12-04 17:30. A time alone does not say which day."
    return rule
