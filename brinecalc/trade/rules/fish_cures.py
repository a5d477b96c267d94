"""When curing salt is in fish: which may carry nitrite or nitrate, by whose rules, and how much.

One idea: the limits on meat hold for no fish, so each jurisdiction's short list decides, and a fish that is not on it
carries none.
"""

from __future__ import annotations

from typing import List, Optional

from brinecalc.trade import cured_fish, flesh, ingoing, jurisdiction, limits
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, Words, condition
from brinecalc.trade.wording import against, parts, product_of


@condition("cure-fish-eu")
def _fish_by_eu_rules(row: Row) -> Hits:
    if not row.has_cure or jurisdiction.of(row) != "EU" or not flesh.is_fish(row):
        return NOTHING
    alone = ingoing.is_nitrate_alone(row)
    if alone and cured_fish.may_carry_nitrate_in_the_eu(row):
        return NOTHING
    what, but = ("nitrate", " but pickled herring and sprat") if alone else ("nitrite", "")
    return ({"product": product_of(row), "what": what, "but": but},)


@condition("nitrate-fish-eu")
def _nitrate_by_eu_rules(row: Row) -> Hits:
    if not _is_herring_with_nitrate(row) or _nitrate_over_by_eu_rules(row):
        return NOTHING
    return ({"product": product_of(row), "limit": limits.find("nitrate herring", "EU").bounded},)


@condition("nitrate-fish-limit-eu")
def _nitrate_over_by_eu_rules(row: Row) -> Hits:
    if not _is_herring_with_nitrate(row):
        return NOTHING
    most, nitrate = limits.find("nitrate herring", "EU"), ingoing.of(row).nitrate
    if nitrate is None or not most.passed_by(nitrate):
        return NOTHING
    ppm, limit = against(nitrate, most)
    return ({"ppm": ppm, "product": product_of(row), "limit": limit},)


@condition("cure-fish")
def _fish(row: Row) -> Hits:
    fish = _listed(row) if row.has_cure else None
    if fish is None:
        return NOTHING
    least = f"{fish.least.shown} to " if fish.least else "at most "
    return ({"product": product_of(row), "limit": f"{least}{fish.most.shown}"},)


@condition("cure-fish-not-listed")
def _fish_not_listed(row: Row) -> Hits:
    if not row.has_cure or not flesh.is_fish(row) or jurisdiction.of(row) == "EU":
        return NOTHING  # by EU rules no fish may carry it, and so it is said
    return NOTHING if _listed(row) is not None else ({"product": product_of(row)},)


@condition("cure-fish-limit")
def _fish_limit(row: Row) -> Hits:
    fish, found = _listed(row) if row.cures else None, ingoing.of(row)
    if fish is None:
        return NOTHING
    hits: List[Words] = []
    for what, ppm, bound in (("nitrite", found.ppm, fish.most), ("nitrite", found.ppm, fish.least)):
        if ppm is not None and bound is not None and bound.passed_by(ppm):
            hits.append({"what": what, "ppm": parts(ppm), "fish": fish.fish, "limit": bound.bounded})
    if found.nitrate and (fish.nitrate is None or fish.nitrate.passed_by(found.nitrate)):
        most = fish.nitrate.bounded if fish.nitrate else "none"
        hits.append({"what": "nitrate", "ppm": parts(found.nitrate), "fish": fish.fish, "limit": most})
    return hits


def _listed(row: Row) -> Optional[cured_fish.Listed]:
    """The fish of the US list that the product is; None where it is none of them, or held to other rules."""
    return cured_fish.listed(row) if jurisdiction.of(row) == "US" else None


def _is_herring_with_nitrate(row: Row) -> bool:
    """Whether it is the one fish that may carry nitrate by EU rules, with nitrate and no nitrite in the row."""
    return (
        jurisdiction.of(row) == "EU" and ingoing.is_nitrate_alone(row) and cured_fish.may_carry_nitrate_in_the_eu(row)
    )
