"""When acids, alkalis, calcium and phosphate meet what they must not meet, or turn the product's texture.

One idea: most of these pairs are harmless in the pot and only spoil each other; lye and mineral acids are not, and
stop a batch of raw meat or fish outright.
"""

from __future__ import annotations

from typing import List

from brinecalc.trade import brine_acidity, flesh, limits, named, vessels
from brinecalc.trade.row import Row, Thing
from brinecalc.trade.rules.condition import NOTHING, Hits, Words, condition
from brinecalc.trade.wording import product_of, share

_CARBONATES = (
    "baking soda", "washing soda", "washing soda crystals", "potassium carbonate", "potassium bicarbonate",
    "ammonium bicarbonate", "baking powder",
)  # fmt: skip
_BURNING = frozenset(("acetic acid", "lactic acid", "vinegar essence"))
"""Acids that are sold strong enough to burn; mineral acids have a rule of their own."""
_OTHERWISE_SAID = frozenset(("cure", "alkali", "calcium", "phosphate"))
_TOO_WEAK = ("soy sauce", "tamari")
"""Sour enough to matter to nitrite, and not to foam with soda: common practice, no source."""
_LIMES = ("slaked lime", "quicklime")
_BAKED = ("pretzel", "dough", "bread", "roll", "bun")
_LYE_FOODS = ("olive", "pretzel", "hominy", "pozole", "posole", "nixtamal", "maize", "corn")
"""Words of food that is made with lye by long custom: common practice, no source."""
_WATER = "water"
"""A drink by its role, which all that is mixed meets."""


@condition("mineral-acid")
def _mineral(row: Row) -> Hits:
    return [{"name": thing.what.name.capitalize()} for thing in row.of_role("mineral acid")]


@condition("alkali-raw")
def _alkali_raw(row: Row) -> Hits:
    if not flesh.is_flesh(row):
        return NOTHING
    return [{"name": thing.what.name.capitalize(), "product": product_of(row)} for thing in _alkalis(row)]


@condition("alkali-food")
def _alkali_food(row: Row) -> Hits:
    if flesh.is_flesh(row):
        return NOTHING
    most, product = limits.find("lye bath"), product_of(row, "the product")
    hits: List[Words] = []
    for thing in _alkalis(row):
        why = f"olives, pretzel dough and hominy are made with it, and {product} is none of them"
        if _may_take(row, thing):
            if thing.what.name in _LIMES or thing.ratio is None or not most.passed_by(thing.ratio):
                continue
            why = f"for {product} {most.shown} of the water is the most, and this is {share(thing.ratio)}"
        hits.append({"name": thing.what.name.capitalize(), "why": why})
    return hits


@condition("alkali-gear")
def _alkali_gear(row: Row) -> Hits:
    if flesh.is_flesh(row):
        return NOTHING
    after = (
        f"Rinse in fresh water, changed several times over {limits.find('alkali rinse').shown}, and check with paper"
    )
    if named.says(row.text("product"), _BAKED):
        after = "Bake it well through before anybody eats of it"
    return [{"name": thing.what.name.capitalize(), "after": after} for thing in _alkalis(row) if _may_take(row, thing)]


def _may_take(row: Row, thing: Thing) -> bool:
    """Whether an alkali is in use for such a food: lye for a few, lime for vegetables and more."""
    return named.says(row.text("product"), _LYE_FOODS) or (thing.what.name in _LIMES and bool(row.group))


@condition("not-food")
def _not_food(row: Row) -> Hits:
    return [{"name": thing.what.name.capitalize()} for thing in row.things if "poison" in thing.what.hazards]


@condition("acid-gear")
def _acid_gear(row: Row) -> Hits:
    return [{"name": thing.what.name.capitalize()} for thing in row.things if thing.what.name in _BURNING]


@condition("alkali-aluminium")
def _alkali_aluminium(row: Row) -> Hits:
    if not vessels.is_aluminium(row):
        return NOTHING
    found = _alkalis(row)
    if found:
        return ({"name": found[0].what.name.capitalize()},)
    ph = row.number("ph")
    strong = ph is not None and ph > limits.value("strong alkali ph")
    return ({"name": f"A bath of pH {ph:.1f}"},) if strong else NOTHING


@condition("alkali-ph")
def _alkali_ph(row: Row) -> Hits:
    ph = row.number("ph")
    return ({"ph": f"{ph:.1f}"},) if ph is not None and ph > limits.value("strong alkali ph") else NOTHING


@condition("acid-soda")
def _acid_soda(row: Row) -> Hits:
    bases = _carbonates(row)
    if not bases:
        return NOTHING
    for thing in row.things:
        if thing.what.is_acid and thing.what.name not in _TOO_WEAK:
            return ({"acid": thing.what.name.capitalize(), "base": bases[0].what.name},)
    return NOTHING


@condition("calcium-phosphate")
def _calcium_phosphate(row: Row) -> Hits:
    calcium, phosphate = row.of_role("calcium"), row.of_role("phosphate")
    if not calcium or not phosphate:
        return NOTHING
    return ({"calcium": calcium[0].what.name.capitalize(), "phosphate": phosphate[0].what.name},)


@condition("calcium-carbonate")
def _calcium_carbonate(row: Row) -> Hits:
    calcium = row.of_role("calcium")
    bases = _carbonates(row) if calcium else []
    return ({"calcium": calcium[0].what.name.capitalize(), "base": bases[0].what.name},) if bases else NOTHING


@condition("must-not-meet")
def _must_not_meet(row: Row) -> Hits:
    hits: List[Words] = []
    mixed = [thing.what for thing in row.things if thing.what.role not in _OTHERWISE_SAID]
    known = [what for what in mixed if what.ingredient and what.name != _WATER]
    if len(known) < 2:
        return NOTHING
    for i, one in enumerate(known):
        for other in known[i + 1 :]:
            if one.ingredient is None or other.ingredient is None or not one.ingredient.must_not_meet(other.ingredient):
                continue
            if not _said_as_foam(one.name, other.name, one.is_acid or other.is_acid):
                hits.append({"name": one.name.capitalize(), "other": other.name})
    return hits


@condition("texture-acid")
def _texture_acid(row: Row) -> Hits:
    ph = brine_acidity.of(row).ph
    if ph is None or not flesh.is_flesh(row) or ph >= limits.value("texture ph low"):
        return NOTHING
    return ({"ph": f"{ph:.1f}"},)


@condition("sour-liquid")
def _sour_liquid(row: Row) -> Hits:
    name, ph = brine_acidity.sour_liquid(row)
    if ph is None or not flesh.is_flesh(row) or ph >= limits.value("texture ph low"):
        return NOTHING
    return ({"name": name.capitalize(), "ph": f"{ph:.1f}"},)


@condition("texture-alkali")
def _texture_alkali(row: Row) -> Hits:
    ph = row.number("ph")
    if ph is None or not flesh.is_flesh(row) or ph <= limits.value("texture ph high"):
        return NOTHING
    return ({"ph": f"{ph:.1f}"},)


def _alkalis(row: Row) -> List[Thing]:
    return [thing for thing in row.things if "alkali" in thing.what.hazards]


def _carbonates(row: Row) -> List[Thing]:
    return [thing for thing in row.things if thing.what.name in _CARBONATES]


def _said_as_foam(one: str, other: str, with_acid: bool) -> bool:
    """Whether the pair is an acid and a carbonate, for which a rule of its own speaks."""
    return with_acid and (one in _CARBONATES or other in _CARBONATES)
