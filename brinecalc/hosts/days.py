"""Days as spreadsheet programs count them.

One idea: a moment in a cell is a number of days since a day zero, and a workbook says which of two it is. Cells carry
no time zone.
"""

from __future__ import annotations

import datetime

_ZERO = datetime.datetime(1899, 12, 30)
_ZERO_1904 = datetime.datetime(1904, 1, 1)


def number(when: datetime.date, from_1904: bool = False) -> float:
    """A day or a moment as the number in a cell."""
    if isinstance(when, datetime.datetime):
        moment_of = when.replace(tzinfo=None)
    else:
        moment_of = datetime.datetime(when.year, when.month, when.day)
    return (moment_of - _zero(from_1904)) / datetime.timedelta(days=1)


def moment(count: float, from_1904: bool = False) -> datetime.datetime:
    """The moment that a cell's number says, to the second; OverflowError where the calendar has none.

    Hardly any minute is a number of days exactly: cut short instead of rounded, 14:37 would be told as 14:36.
    """
    return _zero(from_1904) + datetime.timedelta(seconds=round(count * 86400))


def _zero(from_1904: bool) -> datetime.datetime:
    return _ZERO_1904 if from_1904 else _ZERO
