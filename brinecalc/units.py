"""The units that cells may name, looked up in one closed table.

One idea: a unit is a row of tables/units.csv and nothing else is a unit. Words are read without regard to case
and full stops; a single letter only as the table has it, because T, t and c mean different things in different
kitchens. What is not in the table is answered with the unit that it looks like, or else with those that are.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Dict, List, NamedTuple, Optional, Tuple

from brinecalc.errors import Unreadable
from brinecalc.names import singular
from brinecalc.tables import load

LONGEST = 60
"""No quantity or unit is longer than this many characters; a cell may hold 32,767."""

_REFUSED = {
    "T": "write tbsp for tablespoons or tonne for 1000 kg",
    "t": "write tsp for teaspoons or tonne for 1000 kg",
    "c": "write cup for cups or °C for degrees",
    "G": "write g for grams or gal for gallons",
    "k": "write kg",
    "M": "write m for metres or min for minutes",
    "D": "write day",
    "#": "write lb for pounds",
    "°": "write °C or °F",
    "deg": "write °C or °F",
    "degree": "write °C or °F",
    "degrees": "write °C or °F",
    "gr": "write g for grams",
    "grs": "write g for grams",
    "gm": "write g for grams",
    "gms": "write g for grams",
    "mcg": "write it in mg",
    "ton": "write tonne for 1000 kg, or the weight in lb",
    "tons": "write tonne for 1000 kg, or the weight in lb",
    "tb": "write tbsp",
    "ts": "write tsp",
    "imp cup": "write it in mL or imp fl oz",
    "imperial cup": "write it in mL or imp fl oz",
    "metric tbsp": "write 15 mL or 20 mL, as yours is",
    "metric tsp": "write 5 mL",
    "spoon": "write tsp or tbsp",
    "spoons": "write tsp or tbsp",
    **dict.fromkeys(("stone", "stones", "pfund"), "write it in kg or lb"),
    **dict.fromkeys(("grain", "grains", "dram", "drams", "onza", "onzas", "onze", "onzes"), "write it in g or oz"),
    **dict.fromkeys(("livre", "livres"), "write it in kg, lb or L"),
    **dict.fromkeys(("jour", "jours"), "write day, or h for hours"),
}
"""Spellings that mean several things, or another thing than the unit that they look like."""
VESSELS = frozenset(
    ("bag", "bottle", "box", "bucket", "can", "carton", "case", "drum", "jar", "pack", "pail", "sack", "tin", "tub")
)
"""Words for what goods come in; no units, but written after them ("25 kg bag")."""
_LIKE = 0.7  # likeness from which a unit is worth naming; below it "hl" is like L, "km" like m
_TURNED = 0.9  # likeness of a spelling with the same letters in another order
PLAIN = 0.85
"""Likeness from which a unit is worth naming though it is of another kind."""
_AS_LIKE = 0.1  # by how much less one may be like what was typed than the likest, to be named too


class Unit(NamedTuple):
    """A unit: base value = (value - offset) * factor, with the factor as a fraction so that 35 % is 0.35."""

    name: str
    dimension: str
    factor: float
    offset: float
    top: float
    bottom: float

    def to_base(self, value: float) -> float:
        """A value in this unit, in the base unit of its dimension.

        What an offset takes from the last digits is rounded away, so that 28.4 °F is -2 °C and no colder.
        """
        above = round(value - self.offset, 12) if self.offset else value
        return above * self.top / self.bottom

    def from_base(self, value: float) -> float:
        """A value in the base unit, in this unit."""
        return value * self.bottom / self.top + self.offset


_spelled: Dict[str, Unit] = {}


def unit(name: str, dimension: str = "") -> Unit:
    """The unit of that name or spelling; Unreadable with what to write otherwise, of the dimension wanted."""
    found = find(name)
    if found is None:
        raise Unreadable("must be a unit", got=quoted(name), advice=advice(name, dimension))
    return found


def find(name: str) -> Optional[Unit]:
    """The unit of that name or spelling, or None."""
    if not _spelled:
        _read_table()
    found = _spelled.get(name)
    return _spelled.get(fold(name)) if found is None and len(name) <= LONGEST else found


def fold(name: str) -> str:
    """A spelling as the table keeps it: single spaces, no full stops, lower case unless it is a single letter."""
    plain = " ".join(name.replace(".", " ").split())
    return plain if len(plain) == 1 else plain.lower()


def advice(name: str, dimension: str = "", text: str = "") -> str:
    """What to write instead of a spelling that is no unit, or of the whole text that it stands in.

    Names the units of the dimension wanted that look like it, or else lists all of them.
    """
    unclear_so, near, names = unclear(name), nearest(name, dimension or "any"), known(dimension)
    if unclear_so or not names:
        return unclear_so or "write it as a plain number"
    if not near:
        return "the units known are " + ", ".join(names)
    there = re.compile(f"(?<![A-Za-z]){re.escape(name)}(?![A-Za-z])")
    return "did you mean " + " or ".join(f'"{there.sub(one, text or name, count=1)}"' for one in near) + "?"


def unclear(name: str) -> str:
    """What to write instead of a spelling that people use and that is no unit; empty for any other."""
    key = fold(name[:LONGEST])
    if key in _REFUSED:
        return f'"{key}" is not clear, so {_REFUSED[key]}'
    alone = find(key.lstrip("0123456789.,/ ")) if key[:1].isdigit() else None
    if alone is not None:
        return f'write the unit alone, "{alone.name}"'
    words = key.split(" ")
    if is_vessel(words[-1]):
        return f'leave out "{words[-1]}"' if words[1:] else "say how much one holds, such as 25 kg or 12 x 500 mL"
    return ""


def nearest(name: str, dimension: str = "", least: float = _LIKE) -> List[str]:
    """The names of the units of a dimension that look like a misspelt one, the likest first; see `known`."""
    from difflib import SequenceMatcher  # only a miss needs it

    key, among = fold(name[:LONGEST]), frozenset(known(dimension))
    likeness: Dict[str, float] = {}
    turned, match = sorted(key), SequenceMatcher(b=key)
    for spelling, found in _spelled.items():
        if found.name in among and len(spelling) > 1:
            match.set_seq1(spelling)
            if match.real_quick_ratio() >= least and match.quick_ratio() >= least:
                like = _TURNED if sorted(spelling) == turned else match.ratio()
                likeness[found.name] = max(like, likeness.get(found.name, 0.0))
    least = max(least, max(likeness.values(), default=0.0) - _AS_LIKE)
    return sorted((one for one, like in likeness.items() if like >= least), key=lambda one: -likeness[one])


def is_vessel(word: str) -> bool:
    """Whether a word is what goods come in, one or many of them."""
    return singular(word.lower()) in VESSELS


@cache
def known(dimension: str = "") -> Tuple[str, ...]:
    """The names of the units of a dimension; without one, of masses and volumes; for "any", of every kind."""
    if not _spelled:
        _read_table()
    wanted = {"": ("mass", "volume"), "water": ("mass", "volume")}.get(dimension, (dimension,))
    found = dict.fromkeys(u.name for u in _spelled.values() if dimension == "any" or u.dimension in wanted)
    return tuple(name for name in found if name != "1")


def _read_table() -> None:
    for row in load.rows("units"):
        top, _, bottom = row["exact"].partition("/")
        made = Unit(row["name"], row["dimension"], row["factor"], row["offset"], float(top), float(bottom or "1"))
        for spelling in (row["name"], *row["aliases"]):
            _spelled[spelling] = made
            _spelled[fold(spelling)] = made


def quoted(name: str) -> str:
    """A text as a reason quotes it: short, and with nothing hidden in it."""
    short = name if len(name) <= 40 else name[:39] + "…"
    return '"' + "".join(c if c.isprintable() else "·" for c in short) + '"'
