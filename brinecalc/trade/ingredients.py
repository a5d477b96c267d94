"""What goes into the water: the ingredient table as records, found by any name a cook would type.

One idea: an ingredient is a row of ``tables/ingredients.csv``, or of a sheet of the user's own that went through the
same checks; nothing else in the library knows an ingredient by heart. Shares are of the ingredient as bought.
"""

from __future__ import annotations

from typing import Dict, Iterable, List, NamedTuple, Optional, Tuple

from brinecalc.names import Names
from brinecalc.tables import load
from brinecalc.trade.not_guessed import instead_of_a_guess

_OWN = "write its plain name, or take it up among your own ingredients"
"""What to do with an ingredient that is in no row."""


class Ingredient(NamedTuple):
    """One ingredient: what it is made of, how to add it, and what it must not meet in the tank."""

    name: str
    aliases: Tuple[str, ...]
    role: str
    water: float
    sugars: float
    sodium: float
    p2o5: float
    density: Optional[float]
    allergens: Tuple[str, ...]
    add: str
    avoid: Tuple[str, ...]
    basis: str
    source: str
    source_place: Optional[str]
    note: Optional[str]

    def must_not_meet(self, other: "Ingredient") -> bool:
        """Whether the two may not be in one tank, whichever of them says so."""
        return any(a.name in b.avoid or a.role in b.avoid for a, b in ((self, other), (other, self)))


LIQUIDS = ("juice", "wine", "drink", "dairy", "stock")
"""Roles of what may stand in the place of all the water."""

HARMFUL = frozenset(("cure", "alkali", "mineral acid"))
"""Roles of what can hurt: found when it is typed, never suggested, and never given another role."""

_known: Optional[Names[Ingredient]] = None
_own: Dict[str, Ingredient] = {}


def names() -> Names[Ingredient]:
    """Every ingredient under its name and aliases, the user's own included."""
    global _known
    if _known is None:
        _known = named(_own.values())
    return _known


def find(name: str, argument: str = "ingredient") -> Ingredient:
    """The ingredient of that name; UnknownName with the nearest names otherwise."""
    return names().find(name, argument)


def known(name: str) -> Optional[Ingredient]:
    """The ingredient of that name, or None."""
    return names().find(name) if name in names() else None


def of_role(role: str) -> List[Ingredient]:
    """All ingredients that do the same thing, in the order of the table."""
    return [made for made in map(find, names().names) if made.role == role]


def shipped() -> List[Ingredient]:
    """The ingredients of the library's own table."""
    return [Ingredient(**row) for row in load.rows("ingredients")]


def named(own: Iterable[Ingredient]) -> Names[Ingredient]:
    """The table with the user's own ingredients in place of, or after, those it ships with."""
    replaced = {made.name: made for made in own}
    entries = [replaced.pop(made.name, made) for made in shipped()]
    entries.extend(replaced.values())
    quiet = [made.name for made in entries if made.role in HARMFUL]
    return Names("ingredient", [(made.name, made.aliases, made) for made in entries], quiet, instead_of_a_guess, _OWN)


def install(read: Iterable[Ingredient]) -> None:
    """Takes in the user's own ingredients, already checked."""
    global _known
    _own.update({made.name: made for made in read})
    _known = None


def forget() -> None:
    """Drops the user's own ingredients."""
    global _known
    _own.clear()
    _known = None
