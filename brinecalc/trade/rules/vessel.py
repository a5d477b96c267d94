"""When the vessel is wrong: metal that the brine eats or that poisons it, stuff not made for food, or too small.

One idea: people write what a vessel is made of in many ways, so words are looked for in the material and in what the
vessel is called.
"""

from __future__ import annotations

import re
from decimal import ROUND_CEILING, ROUND_FLOOR

from brinecalc.quantity import both
from brinecalc.science import mixing, solution
from brinecalc.trade import ingoing, limits, named
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, bath_temperature, condition

_ALUMINIUM = ("aluminium", "aluminum", "alu")
_TOXIC = ("copper", "brass", "bronze", "zinc", "galvanised", "galvanized", "lead", "pewter", "cadmium")
_REACTIVE = (*_ALUMINIUM, "iron", "carbon steel", "mild steel", "black steel", "tin", "tinned")
_NOT_FOR_FOOD = (
    "bin bag", "bin liner", "trash bag", "garbage bag", "garbage can", "trash can", "dustbin", "rubbish bin",
    "paint bucket", "builder bucket", "painted", "non food grade", "not food grade", "unlined wood", "treated wood",
    "concrete", "oil drum", "chemical drum", "fertiliser bag", "fertilizer bag", "feed sack", "compost bag",
)  # fmt: skip
_KNOWN = (
    "stainless", "ss", "s s", "steel", "inox", "glass", "jar", "carboy", "plastic", "food bucket", "polypropylene",
    "polyethylene", "polycarbonate", "polythene", "polyester", "nylon", "acrylic", "melamine", "silicone", "pp", "pe",
    "pc", "pet", "hdpe", "ldpe", "food grade", "food safe", "ceramic", "china", "porcelain", "stoneware", "crock",
    "crockery", "pottery", "clay", "enamel", "enamelled", "enameled", "wood", "wooden", "oak", "beech", "pine",
    "cedar", "titanium", "fibreglass", "fiberglass", "bag", "pouch", "vacuum", "gastronorm", "gn", "hotel pan", "304",
    "316", "18 10", "edelstahl", "acier inoxydable", "acero inoxidable", "acciaio inossidabile", "kunststoff",
    "plastique", "plástico", "plastico", "plastica", "rvs", "glas", "verre", "vidrio", "vidro", "vetro", "holz",
    "bois", "madera", "legno", "steingut", "steinzeug", "keramik",
)  # fmt: skip
"""What vessels are made of that brine leaves alone, or that has rules of its own: common practice, no source."""
_GLAZED = (
    " glazed ", " glaze ", " terracotta ", " terra cotta ", " earthenware ", " majolica ", " faience ", " clay pot ",
    " redware ", " slipware ",
)  # fmt: skip
_UNGLAZED = (" unglazed ", " not glazed ")
_NO_COPPER = "chopper"
"""A machine with a bowl, and no copper misspelt."""
_HARMLESS = (" stainless ", " lead free ")
_CLAIMS = ("stainless", "lead free")
"""What is harmless, as long as it is not said to be none of it."""
_LID = re.compile(
    r"\bstainless(?:[ -]steel)? (?:lid|cover|handle|ladle|spoon|rack|hook|skewer|weight)s?\b", re.IGNORECASE
)
"""Of stainless steel, and no vessel: what goes with it may be of anything."""
_APART = re.compile(r"[;\n]|\band\b", re.IGNORECASE)
"""Between two vessels of one cell, each of which is harmless for itself."""
_ENAMEL = (" enamel ", " enamelled ", " enameled ")


@condition("vessel-toxic")
def _toxic(row: Row) -> Hits:
    return _named(row, _TOXIC)


@condition("vessel-reactive")
def _reactive(row: Row) -> Hits:
    return _named(row, _REACTIVE) or _chipped(row)


@condition("vessel-not-food-grade")
def _not_for_food(row: Row) -> Hits:
    return _named(row, _NOT_FOR_FOOD)


@condition("vessel-glaze")
def _glaze(row: Row) -> Hits:
    ph = row.least("ph")
    sour = any(thing.what.is_acid for thing in row.things) or (ph is not None and ph < limits.value("texture ph low"))
    if not sour and row.group != "vegetable":  # which sours by itself
        return NOTHING
    for heading in ("vessel material", "vessel"):
        words = named.undenied(row.text(heading), _CLAIMS)
        if _says_glazed(row.text(heading)) and not any(word in words for word in (*_HARMLESS, *_UNGLAZED)):
            return ({"material": row.text(heading)[:40]},)
    return NOTHING


@condition("vessel-unknown")
def _unknown(row: Row) -> Hits:
    text = row.text("vessel material")
    if not text or named.says(text, (*_KNOWN, *_TOXIC, *_REACTIVE, *_NOT_FOR_FOOD)) or _says_glazed(text):
        return NOTHING
    return ({"material": f'"{text[:40]}"'},)


@condition("vessel-full")
def _full(row: Row) -> Hits:
    holds, water, weight = row.number("vessel"), row.number("water"), row.weight
    if not holds or not water:
        return NOTHING
    needed = _brine_volume(row, water) + (weight or 0.0) / mixing.PRODUCT_DENSITY
    if needed <= holds:
        return NOTHING
    return ({"found": both(needed, "volume", ROUND_CEILING), "limit": both(holds, "volume", ROUND_FLOOR)},)


def _says_glazed(text: str) -> bool:
    words = named.words_in(text)
    return any(word in words for word in _GLAZED)


def is_aluminium(row: Row) -> bool:
    """Whether the vessel is of aluminium, by its material or its name."""
    return bool(_named(row, _ALUMINIUM))


def _named(row: Row, words: "tuple[str, ...]") -> Hits:
    """The material in which one of the words stands."""
    for heading in ("vessel material", "vessel"):
        text = row.text(heading)
        if text and any(_is_of(part, words) for part in _APART.split(_LID.sub(" ", text))):
            return ({"material": text[:40]},)
    return NOTHING


def _is_of(text: str, words: "tuple[str, ...]") -> bool:
    """Whether one vessel is of such a material, and not said to be stainless or without it."""
    inside = named.undenied(text, _CLAIMS)
    if any(word in inside for word in _HARMLESS) or named.is_denied(text, words):
        return False
    return named.says(text.casefold().replace(_NO_COPPER, " "), words)


def _chipped(row: Row) -> Hits:
    """Enamel that is said to be chipped, in whatever order."""
    for heading in ("vessel material", "vessel"):
        words = named.undenied(row.text(heading), ("chipped",))
        if " chipped " in words and any(word in words for word in _ENAMEL):
            return ({"material": row.text(heading)[:40]},)
    return NOTHING


def _brine_volume(row: Row, water: float) -> float:
    strength = min(row.number("strength") or 0.0, solution.strongest())
    others = sum(thing.grams for thing in row.things if thing.grams and thing.heading not in ingoing.COUNTED)
    celsius = min(max(bath_temperature(row), solution.COLDEST), solution.WARMEST)
    share = min(solution.from_water_basis(strength), solution.saturation(celsius))
    return (water * (1.0 + strength) + others) / solution.density(share, celsius)
