"""How the workbook looks: one palette, one set of cell styles, the same on every sheet.

One idea: a colour never says anything alone. Cells to fill in are pale and framed, headings are dark on light
grey, findings carry their word; printed in black and white, everything still reads.
"""

from __future__ import annotations

import copy
from typing import Any, Callable, Dict, Tuple
from weakref import WeakKeyDictionary

from openpyxl.styles import Alignment, Border, Font, PatternFill, Protection, Side
from openpyxl.styles.cell_style import StyleArray
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

FONT = "Arial"
INK = "1F2A30"
QUIET = "5B6770"
DEEP = "14505C"
PALE = "E6EEF0"
INPUT = "FFF7DC"
FRAME = "CDBF86"
LINE = "C9D1D6"
STOP = "F3C6BE"
CAUTION = "FBE3B4"
NOTE = "D9E6F2"
WHITE = "FFFFFF"

FORMATS: Dict[str, str] = {
    "text": "@",
    "plain": "General",
    "count": "0",
    "mass": "#,##0.00",
    "small": "[<10]0.00;#,##0.0",
    "small_or_none": '[=0]"—";[<10]0.00;#,##0.0',
    "cure_or_none": '[=0]"—";#,##0.0',
    "mass_or_none": '#,##0.00;-#,##0.00;"—"',
    "length": "0.0",
    "volume": "#,##0.0",
    "temperature": "0.0",
    "hours": "0.0",
    "share": "0.0%",
    "fine_share": "0.00%",
    "ppm": "0",
    "money": "#,##0.00;-#,##0.00",  # looks like mass, but can be told from it
    "fine_money": "#,##0.0000",
    "moment": "ddd d mmm hh:mm",
    "typed moment": '[<1]"no date "hh:mm;ddd d mmm hh:mm',
    "date": "yyyy-mm-dd",
    "ph": "0.0",
}
"""Number formats by what a cell holds; none of them depends on a currency or a language."""

_thin = Side(style="thin", color=LINE)
_frame = Side(style="thin", color=FRAME)
_heavy = Side(style="medium", color=DEEP)


def font(size: float = 10, bold: bool = False, colour: str = INK, italic: bool = False) -> Font:
    """A font of the house."""
    return Font(name=FONT, size=size, bold=bold, italic=italic, color=colour)


def fill(colour: str) -> PatternFill:
    """A plain background."""
    return PatternFill("solid", start_color=colour, end_color=colour)


def base(workbook: Workbook) -> None:
    """The font of every cell that has no style of its own."""
    normal = workbook._named_styles["Normal"]
    normal.font = font()


def put(sheet: Worksheet, address: str, value: object, style: str = "body", form: str = "plain") -> None:
    """Writes a value with one of the house's cell styles."""
    cell = sheet[address]
    cell.value = value
    dress(cell, style, form)


def dress(cell: Any, style: str, form: str = "plain") -> None:
    """Gives a cell one of the house's styles and a number format; what the style says nothing of stays."""
    once(cell, (style, form), lambda: _paint(cell, style, form))


_DRESSED: "WeakKeyDictionary[Workbook, Dict[Tuple[object, ...], StyleArray]]" = WeakKeyDictionary()
"""Workbook → what is painted and looks before → looks after."""


def once(cell: Any, what: Tuple[object, ...], paint: Callable[[], None]) -> None:
    """Paints a cell; others get what came of it, as openpyxl finds each part of a look anew for every cell."""
    known = _DRESSED.setdefault(cell.parent.parent, {})
    key = (*what, *(cell._style or ()))
    if key not in known:
        paint()
        known[key] = copy.copy(cell._style)
    cell._style = copy.copy(known[key])


def _paint(cell: Any, style: str, form: str) -> None:
    paint = _STYLES[style]
    cell.font = paint[0]
    if paint[1] is not None:
        cell.fill = paint[1]
    cell.alignment = paint[2]
    if paint[3] is not None:
        cell.border = paint[3]
    cell.protection = Protection(locked=not style.startswith("input"))
    cell.number_format = FORMATS.get(form, form)


_LEFT = Alignment(horizontal="left", vertical="center")
_WRAP = Alignment(horizontal="left", vertical="top", wrap_text=True)
_MIDDLE = Alignment(horizontal="center", vertical="center", wrap_text=True)
_ANY = Alignment(vertical="center")
_WORDS = Alignment(horizontal="left", vertical="center", indent=1)  # apart from figures, which end at the right edge

_STYLES = {
    "title": (font(18, True, DEEP), None, _LEFT, None),
    "lead": (font(10, colour=QUIET), None, _LEFT, None),
    "section": (font(12, True, DEEP), None, _LEFT, Border(bottom=_heavy)),
    "group": (font(9, True, WHITE), fill(DEEP), _LEFT, None),
    "heading": (font(9, True), fill(PALE), _MIDDLE, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
    "unit": (font(8, colour=QUIET), fill(PALE), _MIDDLE, Border(bottom=_heavy, left=_thin, right=_thin)),
    "body": (font(), None, _ANY, None),
    "link": (Font(name=FONT, size=11, bold=True, underline="single", color=DEEP), None, _ANY, None),
    "strong": (font(11, True), None, _ANY, None),
    "quiet": (font(9, colour=QUIET), None, _LEFT, None),
    "aside": (font(9, colour=QUIET), None, Alignment(horizontal="left", vertical="center", indent=1), None),
    "figure": (font(11, True), None, _ANY, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
    "quiet_cell": (font(9, colour=QUIET), None, _LEFT, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
    "cell": (font(), None, _ANY, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
    "words": (font(), None, _WORDS, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
    "wrap": (font(9), None, _WRAP, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
    "input": (font(), fill(INPUT), _ANY, Border(top=_frame, bottom=_frame, left=_frame, right=_frame)),
    "input_words": (font(), fill(INPUT), _WORDS, Border(top=_frame, bottom=_frame, left=_frame, right=_frame)),
    "input_wide": (font(), fill(INPUT), _WRAP, Border(top=_frame, bottom=_frame, left=_frame, right=_frame)),
    "total": (font(11, True), None, _ANY, Border(top=_heavy, bottom=_heavy)),
    "big": (font(20, True), None, _LEFT, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
    "box": (font(), None, _LEFT, Border(top=_thin, bottom=_thin, left=_thin, right=_thin)),
}
