"""When a vegetable is left to sour by itself: with too little salt, too warm, untimed, or unread.

One idea: salt and a mild warmth let the souring germs win; what lies in brine for days unchilled, or salted to the end
for nobody knows how long, is taken for a ferment unless it has the acid of a pickle. The pH of the fresh brine is none
of the vegetable's, which takes up a spoonful.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.trade import brine_acidity, limits, methods
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import degrees, product_of, share


@condition("ferment-salt-low")
def _salt_low(row: Row) -> Hits:
    found, least = _salt_in_all(row), limits.find("ferment salt")
    if not _ferments(row) or found is None or not least.passed_by(found):
        return NOTHING
    return ({"product": product_of(row), "found": share(found), "limit": least.shown},)


@condition("ferment-warm")
def _warm(row: Row) -> Hits:
    celsius, most = row.number("bath temperature"), limits.find("ferment temperature")
    if not _ferments(row) or celsius is None or not most.passed_by(celsius):
        return NOTHING
    return ({"product": product_of(row), "temperature": degrees(celsius), "limit": degrees(most.value)},)


@condition("ferment-time")
def _untimed(row: Row) -> Hits:
    if row.number("soak hours") is not None or not _ferments(row) or _is_read_as_sour(row):
        return NOTHING
    return ({"product": product_of(row).capitalize()},)


@condition("ferment-ph")
def _unread(row: Row) -> Hits:
    if not _ferments(row) or _is_read_as_sour(row):
        return NOTHING
    return ({"product": product_of(row).capitalize(), "limit": limits.find("acidified food ph").shown},)


def _is_read_as_sour(row: Row) -> bool:
    ph = row.number("ph")
    return ph is not None and not limits.find("acidified food ph").passed_by(ph)


def _ferments(row: Row) -> bool:
    """Whether it is a vegetable that lies for days in nothing sour, and is not known to be cold, nor hot.

    Where no time is given, what is salted to the end and known to be warm may be meant to lie for days.
    """
    soak, celsius = row.number("soak hours"), row.number("bath temperature")
    if row.group != "vegetable" or (soak is not None and soak < limits.value("ferment hours")):
        return False
    if soak is None and (celsius is None or not methods.goes_even(row.text("method"))):
        return False
    if celsius is not None and celsius <= limits.value("botulinum temperature"):
        return False
    if (row.least("bath temperature") or 0.0) >= limits.value("hot holding"):
        return False
    return not _is_pickled(row)


def _is_pickled(row: Row) -> bool:
    """Whether acid was added, and its pH was read to be low or there is more of it than the vegetable takes up."""
    if brine_acidity.of(row).sour is None:
        return False
    read = row.number("ph")
    ph = brine_acidity.with_vegetable(row) if read is None else read
    return ph is not None and not limits.find("acidified food ph").passed_by(ph)


def _salt_in_all(row: Row) -> Optional[float]:
    """Salt as a share of vegetable and water together, or the most that it can be where one weight is not known."""
    salt, strength, water = row.number("salt"), row.number("strength"), row.number("water") or 0.0
    if salt is None and strength is not None and water:
        salt = strength * water
    if salt is not None and row.weight:
        return salt / (row.weight + water)
    if strength is not None:
        return strength
    return row.number("target") if methods.goes_even(row.text("method")) else None
