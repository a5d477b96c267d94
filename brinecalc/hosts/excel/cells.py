"""What Excel hands over for an argument, as the registry reads it.

One idea: a literal ``""``, a blank cell, and a place left empty between commas mean three things here, and xlwings'
usual conversion makes one of the first two. So arguments are taken as they come and cleaned here. A place left empty
is not converted by xlwings at all; that is how it is told from a blank cell, which arrives wrapped.
"""

from __future__ import annotations

import datetime
import decimal
import sys
from typing import Any, NamedTuple

from xlwings import conversion

from brinecalc.hosts import days
from brinecalc.hosts.excel.vba import ERRORS

_ERROR_NUMBERS = {number - 2146828288: text for text, number in ERRORS.items()}
_EMPTY_PLACE = None if sys.platform == "emscripten" else ""  # the browser's Python is handed blank cells in that way


class Given(NamedTuple):
    """An argument that stands in the formula, be it a blank cell."""

    value: Any


class AsGiven(conversion.Converter):
    """xlwings' converter for our arguments: hands them over as Excel has them."""

    base = conversion.RawValueAccessor  # type: ignore[assignment]  # declared as None, made to be set

    @staticmethod
    def read_value(value: Any, options: Any) -> Given:
        """Wraps what was read."""
        return Given(value)


def plain(argument: Any) -> Any:
    """An argument as the registry takes it: one cell, or rows of cells."""
    if argument is None:
        return _EMPTY_PLACE
    if not isinstance(argument, Given):
        return argument  # an optional argument's own default
    value = argument.value
    if not isinstance(value, (list, tuple)):
        return cell(value)
    rows = value if value and isinstance(value[0], (list, tuple)) else [value]
    if len(rows) == len(rows[0]) == 1:
        return cell(rows[0][0])
    return [[cell(item) for item in row] for row in rows]


def cell(value: Any) -> Any:
    """One cell: money as a float, a date as its day number, an error as its text."""
    if type(value) is float or type(value) is str or value is None:
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        return _ERROR_NUMBERS.get(value, value)
    if isinstance(value, decimal.Decimal):
        return float(value)
    if isinstance(value, datetime.datetime):
        return days.number(value)
    if isinstance(value, dict):  # an error or a formatted number in the browser
        return value.get("basicValue", "#VALUE!")
    return None if type(value).__name__ == "JsNull" else value  # a blank cell of a range in the browser
