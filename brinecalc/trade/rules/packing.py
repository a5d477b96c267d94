"""When food is kept without air or without cold, where botulism grows and nothing smells of it.

One idea: cold, frost, acid and the competing germs of raw meat each hold it back, and each has to be there in the food
as packed; the pH of a fresh brine or a soaking time says nothing of that.
"""

from __future__ import annotations

import math
from typing import Optional

from brinecalc.trade import brine_acidity, eaten, flesh, groups, limits, packs, plants, smoked
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import degrees, product_of

_FROZEN_ONLY = -math.inf
"""Only frost will do."""


@condition("packed-without-air")
def _no_air(row: Row) -> Hits:
    most = _warmest(row)
    if most is None or packs.is_frozen(row) or packs.is_at_most(row, most):
        return NOTHING
    keep = "frozen until it is used" if most == _FROZEN_ONLY else f"at {degrees(most)} or below, or frozen"
    return ({"limit": degrees(limits.value("botulinum cold temperature")), "keep": keep},)


@condition("frozen-without-air")
def _frozen(row: Row) -> Hits:
    fits = _warmest(row) == _FROZEN_ONLY and packs.is_frozen(row)
    return ({"product": product_of(row)},) if fits else NOTHING


@condition("sealed-low-acid")
def _sealed(row: Row) -> Hits:
    """Only a pH that somebody gives releases it: what the fresh brine comes to says nothing of the food in it."""
    given = row.number("ph")
    if not _is_kept_without_cold(row) or _is_acidified(given):
        return NOTHING
    reckoned = brine_acidity.of(row).ph
    known = "no pH known" if reckoned is None else f"no pH but the fresh brine's {reckoned:.1f}"
    way = "cold, ferment it under an airlock," if row.group == "vegetable" else "cold and open to air,"
    return ({"product": product_of(row), "ph": known if given is None else f"pH {given:.1f}", "way": way},)


@condition("sealed-cold")
def _sealed_cold(row: Row) -> Hits:
    if row.group in groups.FLESH or not (packs.is_sealed(row) or packs.is_in_oil(row)) or not packs.is_cold(row):
        return NOTHING
    return NOTHING if _no_air(row) else ({"product": product_of(row)},)


@condition("acid-no-evidence")
def _no_evidence(row: Row) -> Hits:
    if not _is_kept_without_cold(row) or not _is_acidified(row.number("ph")):
        return NOTHING
    return ({"product": product_of(row)},)


def _warmest(row: Row) -> Optional[float]:
    """°C up to which food like this may be kept as it is packed; None where no rule here speaks of it."""
    if not (packs.is_bagged(row) or packs.is_in_oil(row) or packs.is_jar(row)):
        return None
    cold = limits.value("botulinum cold temperature")
    if flesh.is_fish(row):
        return cold if smoked.is_salted_for_its_pack(row) else _FROZEN_ONLY
    if flesh.is_meat(row):
        is_raw = not (eaten.is_cooked(row) or smoked.is_smoked(row) or packs.is_jar(row) or packs.is_in_oil(row))
        return limits.value("brine temperature") if is_raw else cold
    if not row.text("product") or packs.is_for_shelf(row) or _is_sour(row):
        return None
    if row.group == "vegetable":
        return _warmest_of_plants(row, cold)
    if row.is_perishable and (packs.is_bagged(row) or packs.is_cold(row)):
        return cold
    return None


def _warmest_of_plants(row: Row, cold: float) -> Optional[float]:
    """The same of vegetables and fruit: under oil all of them, in a bag those that are known for it."""
    if packs.is_in_oil(row):
        return cold if packs.is_cold(row) else None
    if packs.is_bagged(row) and plants.is_warned_of(row.text("product")):
        return limits.value("brine temperature")
    return None


def _is_kept_without_cold(row: Row) -> bool:
    """Vegetables and the like shut in or under oil and not said to be cold, or anything kept without cold.

    But for fruit that is sour by itself, unless a pH is given that is not.
    """
    if row.is_plant and plants.is_acid(row.text("product")) and row.number("ph") is None:
        return False
    if packs.is_for_shelf(row):
        return True
    return row.group not in groups.FLESH and (packs.is_sealed(row) or packs.is_in_oil(row)) and not packs.is_cold(row)


def _is_acidified(ph: Optional[float]) -> bool:
    return ph is not None and not limits.find("acidified food ph").passed_by(ph)


def _is_sour(row: Row) -> bool:
    """Whether it is a sour pickle: by the pH given, or else by what its brine comes to, which will do in the cold."""
    given = row.number("ph")
    return _is_acidified(brine_acidity.of(row).ph if given is None else given)
