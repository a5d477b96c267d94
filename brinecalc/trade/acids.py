"""From what a cook weighs out to what the pH depends on.

One idea: every ingredient is so many grams of pure substances plus water, and every substance so many moles of an
acid's anion, protons, sodium, calcium and chloride; a brine is the sum. Names are looked up among the acids and
bases first and then among all ingredients, where a herb or a sugar counts as neutral; nothing is guessed to be so.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Dict, NamedTuple, Optional, Sequence, Tuple

from brinecalc.errors import Impossible, OutOfRange
from brinecalc.names import Names
from brinecalc.quantity import DENSITY_OF_WATER
from brinecalc.science import acidity, solution
from brinecalc.science.acidity import blend
from brinecalc.science.equilibria import Mixture
from brinecalc.tables import load
from brinecalc.trade import curing, ingredients, limits

ALKALINITY_GRAMS = 50.043  # mg of CaCO3 per milliequivalent
TAP_ALKALINITY = 50.0
"""Alkalinity, mg/L as CaCO3, that tap water mostly has at the least: judgement; the water report would settle it."""
NEUTRAL = frozenset(("sweetener", "herb", "spice", "aromatic", "seasoning", "stock", "drink", "salt"))
"""Roles of the ingredient table that count as neutral when nothing is known of their acids."""
LIQUID = 10.0  # from this many parts to one of water on, nothing is left to dissolve
_STRENGTH = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:%|per ?cent\b)")
_LOOSE_WORDS = re.compile(r"\b(?:acidity|strength|solution|grain)\b", re.IGNORECASE)


class Ingredient(NamedTuple):
    """An ingredient with what a gram of it brings."""

    name: str
    role: str
    dose: str
    """Whether a dose of it is worked out: yes, no, refused."""
    water: float
    """g per g."""
    most: float
    """Most that is reckoned with, g per g of water in the brine."""
    each: Mixture
    """mol per gram."""
    liquid: bool
    note: str


class Substance(NamedTuple):
    """A pure substance: its molar mass, and what a mole brings."""

    grams: float
    mole: Mixture


@lru_cache(maxsize=1)
def substances() -> Dict[str, Substance]:
    """Every pure substance by name."""
    made = {}
    for row in load.rows("acid_substances"):
        acids = ((row["acid"], row["count"]),) if row["acid"] else ()
        mole = Mixture(acids, row["protons"], row["sodium"], row["calcium"], row["chloride"])
        made[row["substance"]] = Substance(row["molar_mass"], mole)
    return made


@lru_cache(maxsize=1)
def _contents() -> Dict[str, Dict[str, float]]:
    found: Dict[str, Dict[str, float]] = {}
    for row in load.rows("acid_content"):
        found.setdefault(row["ingredient"], {})[row["substance"]] = row["share"]
    return found


def _made(row: load.Row, content: Dict[str, float], water: float) -> Ingredient:
    known = substances()
    each = blend([(share / known[name].grams, known[name].mole) for name, share in content.items()])
    liquid = row["most"] >= LIQUID
    return Ingredient(row["ingredient"], row["role"], row["dose"], water, row["most"], each, liquid, row["note"] or "")


@lru_cache(maxsize=1)
def _acids() -> Names[load.Row]:
    rows = load.rows("acid_ingredients")
    return Names("ingredient", [(row["ingredient"], row["aliases"], row) for row in rows])


def find(name: str, argument: str = "ingredient") -> Ingredient:
    """The ingredient of that name; a strength may be written with it, as in "vinegar 7 %"."""
    name = name.strip()
    if len(name) > _LONGEST:
        raise _acids().unknown(name, argument)
    return _acid(name, argument) or _cure(name) or _from_table(name, argument)


_LONGEST = 200  # characters; a longer text is no ingredient, and searching it for a strength would take long


@lru_cache(maxsize=2048)
def _acid(name: str, argument: str) -> Optional[Ingredient]:
    """The ingredient of that name if it has to do with pH."""
    row = row_of(name)
    if row is not None:
        return _made(row, _contents().get(row["ingredient"], {}), row["water"])
    written = _STRENGTH.search(name)
    if written and name not in ingredients.names():
        row = row_of(_LOOSE_WORDS.sub(" ", name[: written.start()] + " " + name[written.end() :]))
        if row is not None:
            return _of_strength(row, float(written.group(1).replace(",", ".")) / 100.0, name, argument)
    return None


def row_of(name: str) -> Optional[load.Row]:
    """The row of a name, whether this table or the ingredient table knows the name."""
    listed = ingredients.known(name)
    return _row_under((name, listed.name, *listed.aliases) if listed else (name,))


@lru_cache(maxsize=2048)
def _row_under(spellings: Tuple[str, ...]) -> Optional[load.Row]:
    """The row of the first of these spellings that this table knows."""
    return next((_acids().find(spelling) for spelling in spellings if spelling in _acids()), None)


def highest_ph(name: str) -> Optional[float]:
    """The highest pH that was read of an ingredient as it is sold; None where none was."""
    row = row_of(name)
    return None if row is None else row["ph_high"]


def _of_strength(row: load.Row, share: float, name: str, argument: str) -> Ingredient:
    """An ingredient whose chief substance has the strength written with its name."""
    scaled = row["scaled"]
    if not scaled:
        raise OutOfRange(
            "cannot carry a strength in its name", argument=argument, got=f'"{name}"', advice="write the name alone"
        )
    if not 0.0 < share <= 1.0:
        raise OutOfRange("must have a strength above 0 % and at most 100 %", argument=argument, got=f'"{name}"')
    content = dict(_contents()[row["ingredient"]])
    water = min(1.0, max(0.0, row["water"] + content[scaled] - share))
    content[scaled] = share
    return _made(row, content, water)


@lru_cache(maxsize=256)
def _cure(name: str) -> Optional[Ingredient]:
    """A premixed curing salt: salt with its share of nitrite and nitrate."""
    listed = ingredients.known(name)
    for spelling in (name, listed.name, *listed.aliases) if listed else (name,):
        if spelling in curing.cures():
            grade = curing.cures().find(spelling)
            content = {"sodium chloride": grade.salt, "sodium nitrite": grade.nitrite, "sodium nitrate": grade.nitrate}
            return _made(_plain(grade.cure, "nitrite", solution.strongest()), content, 0.0)
    return None


def _plain(name: str, role: str, most: float) -> load.Row:
    """The row of an ingredient that has no dose."""
    return {"ingredient": name, "role": role, "dose": "no", "most": most, "note": None}


def _from_table(name: str, argument: str) -> Ingredient:
    """An ingredient that only the general table knows: neutral but for its salt, and never guessed to be so."""
    listed = ingredients.find(name, argument)
    if listed.role not in NEUTRAL:
        raise unknown_chemistry(listed.name, "its acids and bases are not in the table: measure it", argument)
    content = {"sodium chloride": min(1.0, listed.sodium / (limits.value("sodium in salt") / 1000.0))}
    return _made(_plain(listed.name, "neutral", LIQUID), content, listed.water)


def unknown_chemistry(name: str, note: str, argument: str) -> Impossible:
    """The error for an ingredient whose acids and bases cannot be reckoned."""
    return Impossible("cannot be given a pH", argument=argument, got=f'"{name}"', advice=note)


Part = Tuple[Ingredient, float]
"""An ingredient and its mass in grams."""


def water_alone(strength: float, alkalinity: float) -> Mixture:
    """A kg of the brine's water with its salt (share of the water) and hardness (mg/L as CaCO3)."""
    salt = strength * 1000.0 / solution.molar_mass()
    hard = alkalinity / ALKALINITY_GRAMS / DENSITY_OF_WATER / 1000.0
    acids = (("carbonate", hard),) if hard else ()
    return Mixture(acids, hard, salt, 0.5 * hard, salt)


def brine(water: float, parts: Sequence[Part], strength: float = 0.0, alkalinity: float = 0.0) -> Mixture:
    """What is in each kg of water of a brine; the water that ingredients bring joins in. `water` in g."""
    kilograms = water / 1000.0
    amounts = [(kilograms, water_alone(strength, alkalinity))] + [(grams, part.each) for part, grams in parts]
    for part, grams in parts:
        if part.role == "cannot" and grams > 0.0:
            raise unknown_chemistry(part.name, part.note, "ingredients")
        kilograms += grams * part.water / 1000.0
    total = blend(amounts)
    return blend([(1.0 / kilograms, total)])


def ph(
    water: float, parts: Sequence[Part], strength: float = 0.0, alkalinity: float = 0.0, temperature: float = 25.0
) -> float:
    """pH of the closed brine before product goes in, whatever is in it; see `checked` for what is safe to ask."""
    return acidity.ph(brine(water, parts, strength, alkalinity), temperature)


def dissolves(part: Ingredient, grams: float, water: float) -> Optional[float]:
    """None when that much dissolves, otherwise the most that does, in grams."""
    most = part.most * water
    return None if part.liquid or grams <= most * (1.0 + 1e-9) else most


def dose(
    target: float, water: float, part: Ingredient, strength: float, alkalinity: float, temperature: float
) -> acidity.Reach:
    """Smallest mass in grams that brings the brine to `target`, and where it ends when it cannot."""
    base = water_alone(strength, alkalinity)
    reach = acidity.dose(target, base, part.each, part.water / 1000.0, part.most * 1000.0, temperature)
    return reach._replace(mass=reach.mass * water / 1000.0)


__all__ = [
    "Ingredient", "Part", "brine", "dissolves", "dose", "find", "highest_ph", "ph", "row_of", "unknown_chemistry",
    "water_alone",
]  # fmt: skip
