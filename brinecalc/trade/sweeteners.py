"""Sweeteners against one another: by weight, by how sweet they are, by the solids they bring.

One idea: everything is measured against white sugar, weight for weight and as bought. Relative sweetness is a
figure on which sources disagree by a fifth, so the table keeps their spread beside the value used.
"""

from __future__ import annotations

from typing import Dict, Iterable, NamedTuple, Optional

from brinecalc.errors import UnknownName
from brinecalc.names import Names
from brinecalc.tables import load
from brinecalc.trade import ingredients
from brinecalc.trade.ingredients import Ingredient

REFERENCE = "white sugar"


class Sweetness(NamedTuple):
    """How sweet a sweetener is against the same weight of white sugar."""

    ingredient: str
    low: float
    typical: float
    high: float
    basis: str
    source: str
    note: Optional[str]


_shipped: Optional[Dict[str, Sweetness]] = None
_own: Dict[str, Sweetness] = {}


def find(name: str, argument: str = "sweetener") -> Sweetness:
    """The sweetness of a sweetener; anything else is an unknown sweetener."""
    try:
        figures = _of(ingredients.find(name))
    except UnknownName:
        raise _unknown(name, argument) from None
    if figures is None:
        raise _unknown(name, argument)
    return figures


def mass(water: float, level: float, name: str = REFERENCE, match: str = "weight") -> float:
    """Grams of a sweetener: that level of the water, or as sweet as that level of white sugar would be."""
    figures = find(name)
    return water * level if match == "weight" else water * level / figures.typical


def swap(given: float, old: str, new: str, match: str = "sweetness") -> float:
    """Grams of the new sweetener that are as sweet, or bring the same solids, as the old."""
    before, after = find(old, "from_sweetener"), find(new, "to_sweetener")
    if match == "sweetness":
        return given * before.typical / after.typical
    return given * solids(before.ingredient) / solids(after.ingredient)


def solids(name: str) -> float:
    """What is not water in a sweetener."""
    return 1.0 - ingredients.find(name).water


def install(read: Iterable[Sweetness]) -> None:
    """Takes in the user's own figures, already checked."""
    _own.update({row.ingredient: row for row in read})


def forget() -> None:
    """Drops the user's own figures."""
    _own.clear()


def _of(found: Ingredient) -> Optional[Sweetness]:
    global _shipped
    if _shipped is None:
        _shipped = {row["ingredient"]: Sweetness(**row) for row in load.rows("sweetness")}
    return _own.get(found.name) or _shipped.get(found.name)


def _unknown(name: str, argument: str) -> UnknownName:
    sweet = [made for made in ingredients.of_role("sweetener") if _of(made)]
    unknown = Names("sweetener", [(made.name, made.aliases, made) for made in sweet]).unknown(name, argument)
    if ingredients.known(name):
        unknown.rule = "is not a sweetener in this table"
    return unknown
