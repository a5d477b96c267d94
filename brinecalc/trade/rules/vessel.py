"""When the vessel is wrong: metal that the brine eats or that poisons it, stuff not made for food, or too small.

One idea: what it is made of must not go into the brine, and all that goes in must have room.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR

from brinecalc.quantity import both
from brinecalc.science import mixing, solution
from brinecalc.trade import ingoing, limits, vessels
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, bath_temperature, condition


@condition("vessel-toxic")
def _toxic(row: Row) -> Hits:
    return _told(vessels.named_of(row, vessels.TOXIC))


@condition("vessel-reactive")
def _reactive(row: Row) -> Hits:
    return _told(vessels.named_of(row, vessels.REACTIVE) or vessels.chipped_enamel(row))


@condition("vessel-not-food-grade")
def _not_for_food(row: Row) -> Hits:
    return _told(vessels.named_of(row, vessels.NOT_FOR_FOOD))


@condition("vessel-glaze")
def _glaze(row: Row) -> Hits:
    ph = row.least("ph")
    sour = any(thing.what.is_acid for thing in row.things) or (ph is not None and ph < limits.value("texture ph low"))
    if not sour and row.group != "vegetable":  # which sours by itself
        return NOTHING
    return _told(vessels.glazed(row))


@condition("vessel-unknown")
def _unknown(row: Row) -> Hits:
    text = row.text("vessel material")
    return _told(f'"{text[:40]}"') if text and not vessels.is_known(text) else NOTHING


@condition("vessel-full")
def _full(row: Row) -> Hits:
    holds, water, weight = row.number("vessel"), row.number("water"), row.weight
    if not holds or not water:
        return NOTHING
    needed = _brine_volume(row, water) + (weight or 0.0) / mixing.PRODUCT_DENSITY
    if needed <= holds:
        return NOTHING
    return ({"found": both(needed, "volume", ROUND_CEILING), "limit": both(holds, "volume", ROUND_FLOOR)},)


def _told(material: str) -> Hits:
    return ({"material": material},) if material else NOTHING


def _brine_volume(row: Row, water: float) -> float:
    strength = min(row.number("strength") or 0.0, solution.strongest())
    others = sum(thing.grams for thing in row.things if thing.grams and thing.heading not in ingoing.COUNTED)
    celsius = min(max(bath_temperature(row), solution.COLDEST), solution.WARMEST)
    share = min(solution.from_water_basis(strength), solution.saturation(celsius))
    return (water * (1.0 + strength) + others) / solution.density(share, celsius)
