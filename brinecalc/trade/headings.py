"""The heading row of a production sheet: which column is which, and in what unit its bare numbers are.

One idea: a heading row is read once and remembered, however many rows of values follow. Case, order, plural, what
stands in brackets and missing columns do not matter; a unit in brackets holds for the bare numbers below it; a
number at the end ("level 2") pairs columns. A heading that is none of ours is kept with the nearest of ours, so that
a value under it is never passed over in silence; a sheet's own notes and dates are told apart and left alone.
"""

from __future__ import annotations

import difflib
import re
from functools import cache, lru_cache
from typing import Any, Dict, FrozenSet, List, NamedTuple, Optional, Tuple

from brinecalc import units
from brinecalc.names import fold
from brinecalc.tables import load
from brinecalc.units import Unit

_BRACKETS = re.compile(r"[(\[]([^)\]]*)[)\]]")
_NUMBERED = re.compile(r"^(.*?\D)[ _#-]*(\d+)$")
_ALIKE = 0.75  # likeness from which an unknown heading is taken for a slip
_WATCHED = frozenset(
    ("liquid", "acid", "acid mass", "ph", "bath temperature", "soak hours", "reused", "packaging", "vessel material")
)
"""Columns, besides those of the cure, whose loss would hide a danger; other unknown headings are the user's own."""
_TELLING = ("cure", "nitrit")
_NEAR = 0.6  # likeness from which a known heading is worth naming
ASIDE = "aside"
"""The kind of the columns that are the sheet's own business and are not read."""
_AMOUNTS = frozenset(
    ("mass", "weight", "amount", "quantity", "dose", "level", "percentage", "added", "used", "to", "weigh")
)
"""Words that say how much of what the heading names, besides the names of units."""
_LONGEST = 80


class Heading(NamedTuple):
    """One column that the findings know."""

    heading: str
    aliases: Tuple[str, ...]
    kind: str
    cure: bool
    meaning: str


class Column(NamedTuple):
    """One column of a sheet that was recognised."""

    at: int
    name: str
    kind: str
    cure: bool
    unit: Optional[Unit]
    key: str = ""
    """How it is headed, folded; units and brackets are no part of it."""
    number: str = ""
    """The number at its end."""


class Strange(NamedTuple):
    """A heading that was not recognised."""

    at: int
    shown: str
    name: str
    """What it names, without units and words of amount."""
    unit: Optional[Unit]
    """The unit of mass it gives, if any."""
    like: str
    """The known heading nearest to it, or ""."""
    alarming: bool
    """Whether that is one whose loss would hide a danger."""


class Plan(NamedTuple):
    """A heading row, read."""

    width: int
    columns: Tuple[Column, ...]
    pairs: Tuple[Tuple[int, int], ...]
    """Index of each ingredient column and of its level column, -1 where there is none."""
    present: FrozenSet[str]
    strange: Tuple[Strange, ...]


def accepted() -> List[Heading]:
    """The headings that are read, in the order of the table."""
    return [Heading(**row) for row in load.rows("headings") if row["kind"] != ASIDE]


@cache
def known() -> Dict[str, Heading]:
    """Every heading under all its spellings, folded."""
    found: Dict[str, Heading] = {}
    for row in load.rows("headings"):
        made = Heading(**row)
        for spelling in (made.heading, *made.aliases):
            key = fold(spelling)
            if found.setdefault(key, made) is not made:
                raise ValueError(f"headings {found[key].heading!r} and {made.heading!r} share {spelling!r}")
    return found


@lru_cache(maxsize=256)
def read(cells: Tuple[Any, ...]) -> Plan:
    """A heading row as a plan for reading the rows below it."""
    columns: List[Column] = []
    strange: List[Strange] = []
    numbers: Dict[int, str] = {}
    for index, cell in enumerate(cells):
        if not isinstance(cell, str) or not cell.strip():
            continue
        recognised = _recognise(cell)
        if recognised is None:
            strange.append(_strange(index, cell))
            continue
        heading, number = recognised
        if heading.kind == ASIDE:
            continue
        numbers[index] = number
        unit = _unit_in(cell, heading.kind)
        key = fold(_BRACKETS.sub(" ", cell[:_LONGEST]).split(",")[0])
        columns.append(Column(index, heading.heading, heading.kind, heading.cure, unit, key, number))
    return Plan(
        len(cells),
        tuple(columns),
        _pairs(columns, numbers),
        frozenset(column.name for column in columns),
        tuple(strange),
    )


def _recognise(cell: str) -> Optional[Tuple[Heading, str]]:
    """The heading a cell stands for, and the number at its end if it has one."""
    plain = _BRACKETS.sub(" ", cell[:_LONGEST])
    for text in (plain, plain.split(",")[0]):
        found = known().get(fold(text))
        if found:
            return found, ""
        numbered = _NUMBERED.match(text.strip())
        if numbered and fold(numbered[1]) in known():
            return known()[fold(numbered[1])], numbered[2]
    return None


def _strange(index: int, cell: str) -> Strange:
    """An unknown heading, with what it names and the known one it looks like."""
    plain = _BRACKETS.sub(" ", cell[:_LONGEST])
    unit = _unit_in(cell, "mass")
    like, alarming = _looks_like(fold(plain))
    return Strange(index, cell.strip()[:_LONGEST], _without_amounts(plain.split(",")[0]), unit, like, alarming)


def _without_amounts(text: str) -> str:
    """What a heading names: "vinegar weight" and "vinegar" both name vinegar."""
    words = text.split()
    while len(words) > 1 and (words[-1].casefold() in _AMOUNTS or units.find(words[-1])):
        words.pop()
    return " ".join(words)


def _looks_like(key: str) -> Tuple[str, bool]:
    """The known heading that an unknown one looks like, if any, and whether its loss would hide a danger."""
    watched = [spelling for spelling, found in known().items() if found.cure or found.heading in _WATCHED]
    near = difflib.get_close_matches(key, watched, n=1, cutoff=_ALIKE)
    if near:
        return known()[near[0]].heading, True
    if any(word in key for word in _TELLING):
        return "cure", True
    others = [spelling for spelling, found in known().items() if found.kind != ASIDE]
    near = difflib.get_close_matches(key, others, n=1, cutoff=_NEAR)
    return (known()[near[0]].heading if near else ""), False


def _unit_in(cell: str, kind: str) -> Optional[Unit]:
    """The unit in brackets, or after a comma, where it is one of the kind that the column holds."""
    inside = _BRACKETS.search(cell)
    text = inside[1] if inside else cell.partition(",")[2]
    found = units.find(text.strip()) if text.strip() else None
    fits = {"water": ("mass", "volume")}.get(kind, (kind,))
    return found if found is not None and kind != "share" and found.dimension in fits else None


def _pairs(columns: List[Column], numbers: Dict[int, str]) -> Tuple[Tuple[int, int], ...]:
    """Each ingredient column with its level: by the number at the end, else the next free level, else any left."""
    wanted = [c.at for c in columns if c.name == "ingredient"]
    levels = [c.at for c in columns if c.name == "level"]
    made: Dict[int, int] = {}

    def take(ingredient: int, free: List[int]) -> None:
        if ingredient not in made and free:
            made[ingredient] = free[0]
            levels.remove(free[0])

    for i in wanted:
        take(i, [x for x in levels if numbers[x] and numbers[x] == numbers[i]])
    for i in wanted:
        take(i, [x for x in levels if x == i + 1])
    for i in wanted:
        take(i, [x for x in levels if x > i])
    for i in wanted:
        take(i, levels)
    return tuple((i, made.get(i, -1)) for i in wanted)
