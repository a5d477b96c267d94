"""Spoons and cups to grams and back, by what is in them.

One idea: a volume means a weight only when the thing and its grade are named. Salt goes from 2.8 to 6.3 g to the
teaspoon, so "salt" alone is never converted, and curing salt is never measured by volume at all.
"""

from __future__ import annotations

from brinecalc.errors import UnknownName
from brinecalc.trade import ingredients
from brinecalc.trade.dangers import POISON, UNCLEAR, No, refuse

_BURNS = No(
    "is never measured by spoon or cup: it burns skin and eyes",
    "leave it to a licensed process; for a kitchen use baking soda, or citric acid and vinegar",
)
_NEVER = {
    "cure": No(
        "is never measured by volume: a level spoon can be twice the weight of another",
        "weigh it on a scale that shows 0.1 g",
    ),
    "alkali": _BURNS,
    "mineral acid": _BURNS,
    "unclear": UNCLEAR,
    "poison": POISON,
}


def density(name: str) -> float:
    """g/mL of an ingredient; refused where a volume would be a guess or a danger."""
    refuse(name, _NEVER)
    found = ingredients.find(name)
    if found.density is not None:
        return found.density
    if found.role == "salt":
        grades = [made.name for made in ingredients.of_role("salt") if made.density]
        raise UnknownName(
            "does not say which grade of salt, and grades differ more than twofold by volume",
            argument="ingredient",
            got=f'"{found.name}"',
            advice="name the grade (" + ", ".join(f'"{grade}"' for grade in grades) + ") or weigh it",
        )
    raise UnknownName(
        "has no weight by volume in this table",
        argument="ingredient",
        got=f'"{found.name}"',
        advice="weigh it; in a file of your own ingredients it can have a density (see README.md)",
    )


def weight(volume: float, name: str) -> float:
    """Grams of that many millilitres, level and not packed down unless the name says so."""
    return volume * density(name)


def volume(mass: float, name: str) -> float:
    """Millilitres of that many grams."""
    return mass / density(name)
