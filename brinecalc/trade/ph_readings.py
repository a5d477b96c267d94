"""What a text says of a pH: one reading, several, or only that it lies above or below a figure.

One idea: a rule asks for the highest pH or for the lowest, so a text is read as both ends of what it leaves open. Where
it has no upper end there is no figure to go by, and what to write instead is said.
"""

from __future__ import annotations

import re
from typing import NamedTuple, Optional

from brinecalc.errors import Unreadable
from brinecalc.trade.hazards import READ

OPEN = 0.0
"""The low end of what is only known to lie below a figure."""

_PLACES = 9  # what floating point leaves behind them is dropped
_FIGURE = r"(-?\d+(?:[.,]\d+)?)"
_OVER = (
    r"[>≥⩾]=?|(?:not|no|never) (?:below|under|less than|lower than)|above|over|more than|greater than|higher than"
    r"|at least|from|min(?:imum)?\b\.?"
)
_UNDER = (
    r"[<≤⩽]=?|(?:not|no|never) (?:above|over|more than|higher than)|below|under|less than|lower than|at most|up to"
    r"|max(?:imum)?\b\.?"
)
_ROUGHLY = r"[~≈=]|about|approx(?:imately)?\b\.?|around|roughly|circa|ca?\."
_SIGN = rf"(?:(?P<over>{_OVER})|(?P<under>{_UNDER})|{_ROUGHLY})?"
_BEFORE = rf"(?:ph\b|ph(?= ?[\d<>≤≥⩽⩾~≈=:]))? ?:? ?(?:is )?{_SIGN} ?(?:ph)? ?"
_FIRST = re.compile(_BEFORE + _FIGURE, re.IGNORECASE)
_NEXT = re.compile(
    r" ?(?:[-–—/;&…]|\.\.+|\b(?:to|or|and|then|till|until)\b|(?:[,(]|(?<=\d) )(?= ?[<>]? ?\d+[.,]\d)) ?"
    + _BEFORE
    + _FIGURE
    + r"(?![\d.,]* ?(?:[°º%]|deg|[cf]\b|h\b|hours?\b|min|d\b|days?\b|weeks?\b))",
    re.IGNORECASE,
)
"""A second reading; what has a unit of its own is the temperature or the time of the first."""
_GIVE_OR_TAKE = re.compile(r" ?(?:±|\+/-|\+-) ?" + _FIGURE)
_AND_UP = re.compile(r" ?(?:\+|(?:or|and) (?:more|above|higher|over|up)\b|min(?:imum)?\b|at least\b)", re.IGNORECASE)
_AND_DOWN = re.compile(r" ?(?:(?:or|and) (?:less|below|lower|under)\b|max(?:imum)?\b|at most\b)", re.IGNORECASE)


class Reading(NamedTuple):
    """Both ends of a pH; without a high end only the low one is known."""

    low: float
    high: Optional[float]


def read(text: str) -> Reading:
    """What a text says of a pH; raises where it speaks of none."""
    said = " ".join(text[:READ].split())
    found = _FIRST.match(said)
    if found is None:
        raise Unreadable("must be a pH such as 5.8")
    figures, over, under, at = [], False, False, 0
    while found is not None:
        figures.append(_number(found[found.lastindex or 0]))
        over, under, at = over or bool(found["over"]), under or bool(found["under"]), found.end()
        found = _NEXT.match(said, at)
    rest = said[at:]
    more = _GIVE_OR_TAKE.match(rest)
    spread = _number(more[1]) if more else 0.0
    over = over or (more is None and _AND_UP.match(rest) is not None)
    low = OPEN if under or _AND_DOWN.match(rest) else min(figures) - spread
    return Reading(round(low, _PLACES), None if over else round(max(figures) + spread, _PLACES))


def highest(text: str) -> float:
    """The highest pH that a text leaves open; raises where there is none."""
    reading = read(text)
    if reading.high is None:
        above = f"how far above {reading.low:g} it lies is not known"
        raise Unreadable("must be a pH such as 5.8", advice=f"{above}, so write the figure that the meter shows")
    return reading.high


def shown(low: float, high: Optional[float]) -> str:
    """The low end of a reading as sentences show it, where the reading is open on one side."""
    return f"{low:.1f} or more" if high is None else f"{high:.1f} or less"


def _number(figure: str) -> float:
    return float(figure.replace(",", "."))
