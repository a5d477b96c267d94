"""When food or its brine is kept for longer than the cold alone keeps it.

One idea: seven days is for food that only the cold keeps; what is salted through keeps for weeks, and its brine with
it, and what waits after the brine goes on ageing all the same.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.trade import cured_fish, limits, methods, packs
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import hours, product_of, times

_AHEAD = 24.0
"""Hours by which a brine may be older than its batch: judgement; when kitchens mix and fill would settle it."""
_SALTED_WHOLE = frozenset(("pork", "beef", "lamb", "fish"))
"""What is salted dry for weeks in the cold by custom; poultry is not."""


@condition("brine-old")
def _old(row: Row) -> Hits:
    age = row.number("brine age")
    most = limits.find("date mark")
    if age is None or not most.passed_by(age) or not row.is_perishable:
        return NOTHING
    if is_for_keeping(row) and (not cured_fish.is_flesh(row) or age <= (row.least("soak hours") or 0.0) + _AHEAD):
        return NOTHING
    told, limit = times(age, most.value)
    return ({"age": told, "limit": limit},)


@condition("soak-far-too-long")
def _soak_far_too_long(row: Row) -> Hits:
    if not (cured_fish.is_fish(row) or (cured_fish.is_meat(row) and cured_fish.is_poultry(row))):
        return NOTHING
    soak, rest = row.number("soak hours"), row.number("rest hours") or 0.0
    total = soak or 0.0
    if "dry equilibrium" not in methods.ways(row.text("method")):  # what was salted dry may hang afterwards
        total += rest
    most = limits.find("poultry in brine")
    if not most.passed_by(total) or is_for_keeping(row):
        return NOTHING
    if row.has_cure and packs.is_at_most(row, limits.value("brine temperature")):
        return NOTHING
    told, limit = times(total, most.value)
    return ({"hours": told, "product": product_of(row), "usual": hours(limits.value("date mark")), "limit": limit},)


@condition("soak-long")
def _soak_long(row: Row) -> Hits:
    soak, rest = row.number("soak hours"), row.number("rest hours") or 0.0
    total = (soak or 0.0) + rest
    most = limits.find("date mark")
    if row.has_cure or not cured_fish.is_flesh(row) or not most.passed_by(total) or is_for_keeping(row):
        return NOTHING
    if _soak_far_too_long(row):
        return NOTHING  # which is told as a STOP
    where = " of soak and rest" if soak and rest else " of rest" if rest else ""
    told, limit = times(total, most.value)
    return ({"hours": told + where, "limit": limit},)


def is_for_keeping(row: Row) -> bool:
    """Whether so much salt goes in that it is salted goods, as far as the row says how much; dry, by custom, if not."""
    found = _salt_of_water(row)
    if "dry equilibrium" in methods.ways(row.text("method")):
        if found is not None:
            return found >= limits.value("botulinum cold salt")
        by_custom = row.group in _SALTED_WHOLE or (not row.group and cured_fish.is_flesh(row))
        return by_custom and packs.is_at_most(row, limits.value("brine temperature"))
    return found is not None and not limits.find("keeping salt").passed_by(found)


def _salt_of_water(row: Row) -> Optional[float]:
    """Salt of the water inside, as analysed or as it comes to in the end; None where the row does not say."""
    analysed = row.number("water phase salt")
    if analysed is not None:
        return analysed
    weight, water, share = row.weight, row.number("water") or 0.0, row.product.water if row.product else 1.0
    if "dry equilibrium" in methods.ways(row.text("method")):
        salt, target = row.number("salt"), row.number("target")
        if salt is not None and weight and not water:
            return salt / weight / share
        return None if target is None else target / share
    strength = row.number("strength")
    if strength is not None and water and weight:
        return strength * water / (water + weight * share)
    return strength
