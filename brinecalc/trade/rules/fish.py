"""When smoked fish is too weak in salt for its pack, by an analysis of it and by nothing else.

One idea: botulism is prevented at the place with the least salt, in the fish as packed. An average or a soaking time
says nothing about that; an analysis does.
"""

from __future__ import annotations

from brinecalc.trade import limits, packs, smoked
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import share


@condition("fish-salt-low")
def _low(row: Row) -> Hits:
    return NOTHING if packs.is_frozen(row) else _too_weak(row)


@condition("fish-salt-frozen")
def _low_but_frozen(row: Row) -> Hits:
    return _too_weak(row) if packs.is_frozen(row) else NOTHING


@condition("fish-salt-air")
def _air(row: Row) -> Hits:
    found = row.number("water phase salt")
    least = limits.find("water phase salt smoked fish air", "US")
    if found is None or not smoked.is_smoked_fish(row) or packs.is_airless(row) or not least.passed_by(found):
        return NOTHING
    return ({"limit": least.shown, "found": share(found)},)


@condition("fish-salt-unknown")
def _unknown(row: Row) -> Hits:
    if row.number("water phase salt") is not None or not smoked.is_smoked_fish(row):
        return NOTHING
    return ({"limit": smoked.least_salt(row).shown},)


def _too_weak(row: Row) -> Hits:
    found = row.number("water phase salt")
    if found is None or not smoked.is_smoked_fish(row) or not packs.is_airless(row):
        return NOTHING
    least = smoked.least_salt(row)
    return ({"limit": least.shown, "found": share(found)},) if least.passed_by(found) else NOTHING
