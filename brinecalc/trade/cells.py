"""One cell of a production row as a number in the base unit of its column, or the reason why it is none.

One idea: the column says what kind of thing its cells hold and in what unit bare numbers are; whatever does not fit
raises a BrineError, which the row turns into a finding instead of an error.
"""

from __future__ import annotations

import re
from typing import Any, Callable, Dict, List

from brinecalc import misread, quantity, units
from brinecalc.errors import OutOfRange, Unreadable
from brinecalc.trade import ph_readings
from brinecalc.trade.headings import Column

BLANKS = frozenset(("", "-", "–", "—", "none", "no", "nil", "n/a", "na", "nothing", "without", "0"))
"""Texts that say a thing is not there."""

_YES = frozenset(("yes", "y", "true", "x", "1", "reused", "again", "used", "second use", "twice"))
_NO = frozenset(("false", "n", "new", "fresh", "first use", "never"))
_AGAIN = re.compile(r"\b(?:re-?us\w+|used|again|second|2nd|third|3rd|once|twice|left ?over|yesterday\w*|topped)\b")
_NOT_AGAIN = re.compile(
    r"(?:not|never|no)(?: been| yet)? (?:re-?us\w+|used|topped(?: up)?)(?: again| before| yet)?[.!]?"
)
"""The whole of a text that says so: in "used, not boiled" the "not" is about something else."""
_EITHER = re.compile(r"\b(?:not|never|no|first)\b")
_RANGE = re.compile(
    r"(-?\d+(?:[.,]\d+)?)\s*([^\d\s–—-]*)\s*(-|–|—|\bto\b|\bor\b|\.\.+|…|/)\s*(-?\d+(?:[.,]\d+)?)\s*([^\d]*)",
    re.IGNORECASE,
)
"""Two figures, the unit after the last holding for both."""
_PARTS_OF_HOURS = frozenset(("1/2", "1/3", "1/4", "3/4"))
"""What is a part of an hour or a day, and not two figures."""
_ABOUT = re.compile(
    r"^(?:<=?|≤|~|≈|below|under|max(?:imum)?\b\.?|up to|at most|no more than|about|approx(?:imately)?\b\.?|around"
    r"|ca?\.)\s*|\s*\b(?:or (?:below|less|colder|lower|so)|max(?:imum)?\.?)$",
    re.IGNORECASE,
)
"""Words round a figure that is a bound from above, or a rough one."""
_FROM = re.compile(
    r"^(?:>|≥|(?:above|over|more than|at least|from|min(?:imum)?|no less than|not (?:below|less than))\b)"
    r"|(?:\+|\b(?:or|and) (?:more|above|longer|warmer|higher|over|up))$",
    re.IGNORECASE,
)
"""Words round a figure that leaves open how warm it was, or how long."""
_BOTH_ENDS = {"time": "4 to 8 h", "temperature": "2 to 4 °C"}
_ROUGH = re.compile(r"~|≈|about|approx|around|ca?\.|.*or so$", re.IGNORECASE)
_OPEN = {"time": 0.0, "temperature": -273.15}
"""Hours and °C from which a bound from above leaves a cell open."""
_ERROR = re.compile(r"(?:#?(?:error|err)!?|err:\d+|#[^\s\d][^\s]*[!?]|#n/a)$", re.IGNORECASE)
_PARTS = re.compile(r"(?:ppm|mg/kg|mg/l)(?: as caco3)?$", re.IGNORECASE)
"""What a level of nitrite or the alkalinity of water may be written with."""
_TIMES = re.compile(r"(?<=[\d\s])[x×*](?=[\s\d])", re.IGNORECASE)
_LEADING_NUMBER = re.compile(f"^[{quantity.NUMBER_MARKS}]+")
_WARM = {
    **dict.fromkeys(("room temperature", "room", "room temp", "ambient", "ambient temperature", "kitchen"), 20.0),
    **dict.fromkeys(("warm", "lukewarm", "tepid"), 30.0), **dict.fromkeys(("hot", "very hot"), 50.0), "boiling": 100.0,
    **dict.fromkeys(("counter", "on the counter", "countertop", "worktop", "bench"), 20.0),
    **dict.fromkeys(("cellar", "larder", "pantry", "outside", "garage"), 12.0),
}  # fmt: skip
"""°C; words for a temperature that nobody took: judgement. A thermometer would settle each."""
_LONG = {"overnight": 8.0, "all day": 8.0, "half a day": 12.0, "a day": 24.0, "a week": 7 * 24.0}
"""Hours; the least that words for a time can mean: judgement. A clock would settle each."""
_MOST_GAIN = 2.0
"""Share of its weight above which no product gains: judgement, past all that is injected. Pump logs would settle it."""

LEVELS = frozenset(("level", "sweetener level", "acid level"))
"""Columns of an ingredient's share of the water, which may be all of it and more where the ingredient is poured."""
MOST_POURED = 10.0
"""Share of the water, as in BRINE_DOSE."""

_COUNTS = frozenset(("pieces",))
_COUNTED = ("must be a whole number", "write it in figures, such as 40")
"""What is counted, and how it is written."""

Reader = Callable[[Any, Column], float]


def is_error(text: str) -> bool:
    """Whether a text stands for an error: what IFERROR put there, or an error value that came as text."""
    return _ERROR.match(text) is not None


def is_blank(cell: Any) -> bool:
    """Whether a cell says that there is nothing."""
    return cell is None or (isinstance(cell, str) and cell.strip().casefold() in BLANKS)


def read(cell: Any, column: Column) -> float:
    """The number a cell holds, in the base unit of its column's kind and within what such a column can hold.

    What floating point leaves behind the ninth decimal is dropped: 24 h worked out elsewhere are not more than 24 h.
    """
    value = round(_READERS[column.kind](cell, column), 9)
    check(value, column.kind, column.name, cell)
    return value


def check(value: float, kind: str, name: str, cell: Any) -> None:
    """Refuses what no such column can hold."""
    if kind == "share":
        if name in LEVELS:
            if not 0.0 <= value <= MOST_POURED:
                raise OutOfRange(f"must be a share from 0 % to {100.0 * MOST_POURED:g} %", advice=share_advice(cell))
        elif not 0.0 <= value < (_MOST_GAIN if name == "gain" else 1.0):
            raise OutOfRange("must be a share from 0 % to below 100 %", advice=share_advice(cell))
    elif kind == "ph":
        if not 0.0 <= value <= 14.0:
            raise OutOfRange("must be a pH from 0 to 14")
    elif value < 0.0 and kind != "temperature":
        raise OutOfRange("must not be below 0")


def shown(cell: Any) -> str:
    """A cell as a finding quotes it."""
    if isinstance(cell, str):
        return cell if len(cell) <= 40 else cell[:39] + "…"
    if isinstance(cell, bool) or not isinstance(cell, (int, float)):
        return type(cell).__name__ if not isinstance(cell, bool) else str(cell).upper()
    try:
        return f"{float(cell):.12g}"
    except OverflowError:
        return "a number too large"


def share_advice(cell: Any) -> str:
    """How to write a share that was meant as per cent."""
    if isinstance(cell, (int, float)) and 1 <= cell <= 100:
        return f"write {cell:.12g}% for {cell:.12g} per cent"
    return "write it like 5%"


def _quantity(dimension: str) -> Reader:
    """A reader of quantities; a unit in the heading holds for bare numbers."""

    def one(cell: Any, column: Column) -> float:
        unit = column.unit
        if unit is None or (isinstance(cell, str) and quantity.split(cell)[1]):
            return quantity.read(cell, dimension)
        number = quantity.split(cell)[0] if isinstance(cell, str) else quantity.read(cell, dimension)
        base = unit.to_base(number)
        return base * quantity.DENSITY_OF_WATER if dimension == "water" and unit.dimension == "volume" else base

    return one


_one_length = _quantity("length")


def _length(cell: Any, column: Column) -> float:
    """A thickness; of the edges of a block the shortest counts."""
    return min(edges(cell, column)) if isinstance(cell, str) else _one_length(cell, column)


def edges(cell: str, column: Column) -> List[float]:
    """The edges of a block, a unit after the last holding for all; of anything else the one length."""
    if not _TIMES.search(cell):
        return [_one_length(cell, column)]
    parts = [edge.strip() for edge in _TIMES.split(cell)]
    unit = _LEADING_NUMBER.sub("", parts[-1])
    if unit and units.find(unit) is None:
        raise misread.no_unit(unit, cell, "length")
    whole = [edge if _LEADING_NUMBER.sub("", edge) else f"{edge} {unit}".strip() for edge in parts]
    return [_one_length(edge, column) for edge in whole]


def _ph(cell: Any, column: Column) -> float:
    """A pH, the highest that is left open: the lowest is kept as the least."""
    return ph_readings.highest(cell) if isinstance(cell, str) else quantity.read(cell, "number")


def _flag(cell: Any, column: Column) -> float:
    """Yes is 1, no is 0."""
    if isinstance(cell, (bool, int, float)):
        return float(cell > 0)
    word = cell.casefold() if isinstance(cell, str) else ""
    if word in _YES or word.startswith("yes"):
        return 1.0
    if word in _NO:
        return 0.0
    if _NOT_AGAIN.fullmatch(word.strip()):
        return 0.0
    if _AGAIN.search(word) and not _EITHER.search(word):
        return 1.0
    raise Unreadable("must be yes or no")


def _number(cell: Any, column: Column) -> float:
    if not isinstance(cell, str):
        return quantity.read(cell, "number")
    plain, counted = _PARTS.sub("", cell), column.name in _COUNTS
    dimension = "count" if counted else "number"
    rule, such = _COUNTED if counted else ("must be a plain number", misread.example(dimension))
    try:
        value, found = quantity.split(plain, dimension)
    except Unreadable as error:
        if error.advice == misread.example(dimension):
            raise Unreadable(rule, advice=such) from None
        raise
    if found not in ("", "count") or (counted and value != round(value)):
        raise Unreadable(rule, advice=such if counted else None)
    return value


_one_temperature = _quantity("temperature")


def _temperature(cell: Any, column: Column) -> float:
    """A temperature; a word that says warm counts as the least it can mean, so that it is not passed over."""
    return _worst(cell, column, _one_temperature, _WARM)


_one_time = _quantity("time")


def _time(cell: Any, column: Column) -> float:
    """A time; a word counts as the least it can mean."""
    return _worst(cell, column, _one_time, _LONG)


def _worst(cell: Any, column: Column, one: Reader, words: Dict[str, float]) -> float:
    """A figure, or the larger of two, or what a word stands for: the warmer, the longer."""
    if not isinstance(cell, str):
        return one(cell, column)
    if _FROM.search(cell.strip()):
        rule = f"must be {misread.wanted(column.kind)}"
        raise Unreadable(rule, advice=f"only one end is given, so write both, such as {_BOTH_ENDS[column.kind]}")
    text = _ABOUT.sub("", cell.strip()).rstrip("°º ")
    if text.casefold() in words:
        return words[text.casefold()]
    ends = _ends(text, column, one)
    return max(ends) if ends else one(text if text != cell.strip() else cell, column)


def _ends(text: str, column: Column, one: Reader) -> List[float]:
    """Both figures of a range; none of any other text."""
    found = _RANGE.fullmatch(text)
    if found is None:
        return []
    first, its_unit, between, last, unit = found.groups()
    if between == "/" and not its_unit and column.kind == "time":
        if f"{first}/{last}" in _PARTS_OF_HOURS:
            return []
        raise Unreadable("must be a time", advice=f"two figures, or a part? Write {first} to {last}, or decimals")
    return [one(f"{first} {its_unit or unit}".strip(), column), one(f"{last} {unit}".strip(), column)]


def least(cell: Any, column: Column, value: float) -> float:
    """The least that a cell which was read as that value leaves open: the colder, the shorter, the sourer of two."""
    if column.kind == "ph" and isinstance(cell, str):
        return ph_readings.read(cell).low
    if column.kind not in _OPEN or not isinstance(cell, str):
        return value
    bare = _ABOUT.sub("", cell.strip())
    ends = _ends(bare.rstrip("°º "), column, _one_time if column.kind == "time" else _one_temperature)
    if ends:
        return round(min(ends), 9)
    return value if bare == cell.strip() or _ROUGH.match(cell.strip()) else _OPEN[column.kind]


_READERS: Dict[str, Reader] = {
    "mass": _quantity("mass"),
    "water": _quantity("water"),
    "length": _length,
    "time": _time,
    "temperature": _temperature,
    "volume": _quantity("volume"),
    "share": _quantity("share"),
    "number": _number,
    "ph": _ph,
    "flag": _flag,
}
