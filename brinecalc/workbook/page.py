"""Cells joined into the boxes of a page that is printed and written on.

One idea: a printed card is read at arm's length and copied in black and white, so a box is drawn with a line one can
see, figures are large, and what a box is for stands in small print at its top.
"""

from __future__ import annotations

import functools
from typing import Any, NamedTuple, Optional, Tuple

from openpyxl.styles import Alignment, Border, Protection, Side
from openpyxl.utils.cell import range_boundaries
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import styles


class Look(NamedTuple):
    """How a box looks: type, place of the words in it, ground, line and the sides that have it."""

    size: float = 9
    bold: bool = False
    colour: str = styles.INK
    align: str = "left"
    vertical: str = "center"
    wrap: bool = False
    paint: Optional[str] = None
    line: Optional[str] = None
    sides: str = "left right top bottom"
    indent: int = 0
    shrink: bool = False


PLAIN = Look()
SMALL = Look(size=8, colour=styles.QUIET)
HEAD = Look(size=11, bold=True, colour=styles.DEEP, vertical="bottom")
LABEL = Look(size=8, line="thin", paint=styles.PALE, align="center", wrap=True)
WORDS = Look(size=9, wrap=True, line="thin", indent=1)
BOX = Look(size=8, colour=styles.QUIET, vertical="top", line="thin", wrap=True)
FIGURE = Look(size=17, bold=True, align="center", line="thin")

_GROUNDS = {"input": styles.INPUT}


def span(sheet: Worksheet, cells: str, value: object = None, look: Look = PLAIN, form: str = "plain") -> None:
    """Joins cells into one box and writes into it."""
    left, top, right, bottom = range_boundaries(cells)
    if (left, top) != (right, bottom):
        sheet.merge_cells(cells)
    corner = sheet.cell(top, left)
    corner.value = value
    corner.number_format = styles.FORMATS.get(form, form)
    for row in range(top, bottom + 1):
        for column in range(left, right + 1):
            here = {"left": column == left, "right": column == right, "top": row == top, "bottom": row == bottom}
            edges = tuple(edge for edge, is_there in here.items() if is_there and edge in look.sides)
            cell = sheet.cell(row, column)
            styles.once(cell, (look, edges), functools.partial(_paint, cell, look, edges))


def _paint(cell: Any, look: Look, edges: Tuple[str, ...]) -> None:
    """Gives a cell of a box its looks, with a line at these edges."""
    typed = look.paint == "input"
    cell.font = styles.font(look.size, look.bold, look.colour)
    cell.alignment = Alignment(
        look.align, look.vertical, wrap_text=look.wrap, indent=look.indent, shrink_to_fit=look.shrink
    )
    cell.protection = Protection(locked=not typed)
    if look.paint:
        cell.fill = styles.fill(_GROUNDS.get(look.paint, look.paint))
    if look.line or typed:
        side = Side(style=look.line or "medium", color=styles.FRAME if typed else styles.QUIET)
        cell.border = Border(**dict.fromkeys(edges, side))


def margins(sheet: Worksheet, orientation: str) -> None:
    """One page, with narrow margins that every printer can print."""
    sheet.page_setup.orientation = orientation
    sheet.page_setup.fitToHeight = 1
    sheet.page_margins.left = sheet.page_margins.right = 0.4
    sheet.page_margins.top = 0.4
    sheet.page_margins.bottom = 0.55
    sheet.page_margins.header = 0.2
    sheet.page_margins.footer = 0.25
    sheet.print_options.horizontalCentered = True
