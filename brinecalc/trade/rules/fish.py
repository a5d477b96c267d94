"""When an average, a soaking time or the brine's pH is taken for proof of safety, and where no cold protects.

One idea: botulism is prevented at the place with the least salt or acid, in the product as packed. Averages and
brines say nothing about that; an analysis of the product does.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.trade import brine_acidity, cured_fish, ingoing, limits, named
from brinecalc.trade.limits import Limit
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import FLESH, NOTHING, WATERY, Hits, condition, degrees, product_of, share

_SMOKED = ("smoked", "smoke", "smoking", "smokehouse", "lox", "kippered", "kipper")
_NO_AIR = ("vacuum", "vacuumed", "vac", "vac pac", "sous vide", "reduced oxygen", "rop", "map", "no air", "airless")
_SEALED = ("sealed", "jar", "jarred", "can", "canned", "canning", "bottle", "bottled", "hermetic", "crock sealed")
_WARM = ("ambient", "shelf", "room temperature", "pantry", "unrefrigerated", "unchilled", "canned", "canning")
_TEXTS = ("product", "method", "treatment", "packaging")


@condition("fish-salt-low")
def _low(row: Row) -> Hits:
    found = row.number("water phase salt")
    if found is None or not _is_smoked_fish(row) or not _is(row, _NO_AIR + _SEALED):
        return NOTHING
    least = _least(row)
    return ({"limit": least.shown, "found": share(found)},) if least.passed_by(found) else NOTHING


@condition("fish-salt-air")
def _air(row: Row) -> Hits:
    found = row.number("water phase salt")
    least = limits.find("water phase salt smoked fish air", "US")
    if found is None or not _is_smoked_fish(row) or _is(row, _NO_AIR + _SEALED) or not least.passed_by(found):
        return NOTHING
    return ({"limit": least.shown, "found": share(found)},)


@condition("fish-salt-unknown")
def _unknown(row: Row) -> Hits:
    if row.number("water phase salt") is not None or not _is_smoked_fish(row):
        return NOTHING
    return ({"limit": _least(row).shown},)


@condition("packed-without-air")
def _no_air(row: Row) -> Hits:
    if row.group not in FLESH or not _is(row, _NO_AIR):
        return NOTHING
    return ({"limit": degrees(limits.value("botulinum cold temperature"))},)


@condition("sealed-low-acid")
def _sealed(row: Row) -> Hits:
    """Only a pH that somebody gives releases it: what the fresh brine comes to says nothing of the food in it."""
    given = row.number("ph")
    if not _is_kept_without_cold(row) or _is_acidified(given):
        return NOTHING
    reckoned = brine_acidity.of(row).ph
    known = "no pH known" if reckoned is None else f"no pH but the fresh brine's {reckoned:.1f}"
    return ({"product": product_of(row), "ph": known if given is None else f"pH {given:.1f}"},)


@condition("acid-no-evidence")
def _no_evidence(row: Row) -> Hits:
    if not _is_kept_without_cold(row) or not _is_acidified(row.number("ph")):
        return NOTHING
    return ({"product": product_of(row)},)


def _is_acidified(ph: Optional[float]) -> bool:
    return ph is not None and not limits.find("acidified food ph").passed_by(ph)


def _is(row: Row, words: "tuple[str, ...]") -> bool:
    """Whether the packaging says one of these words."""
    text = row.text("packaging")
    if not text:
        return False
    return named.says(text, words) and " unsealed " not in named.words_in(text)


def _is_smoked_fish(row: Row) -> bool:
    said = [row.text(heading) for heading in _TEXTS if row.text(heading)]
    if not any(named.says(text, _SMOKED) for text in said):
        return False
    return row.group in WATERY or any(named.says(text, _FISH) for text in said)


def _is_kept_without_cold(row: Row) -> bool:
    """Vegetables and the like sealed, or anything kept without cold."""
    return _is(row, _WARM) or (row.group not in FLESH and _is(row, _SEALED))


def _least(row: Row) -> Limit:
    """The least water-phase salt: with 100 to 200 ppm of nitrite in a fish that may carry it a little less will do."""
    if _is(row, _NO_AIR + _SEALED) and _has_its_nitrite(row):
        return limits.find("water phase salt smoked fish nitrite", "US")
    if row.text("packaging") and not _is(row, _NO_AIR + _SEALED):
        return limits.find("water phase salt smoked fish air", "US")
    return limits.find("water phase salt smoked fish", "US")


def _has_its_nitrite(row: Row) -> bool:
    """Whether the nitrite reckoned is such that less salt will do; chub needs its salt besides."""
    fish, ppm = cured_fish.listed(row) if row.cures else None, ingoing.of(row).ppm
    if fish is None or ppm is None or fish.fish == "chub":
        return False
    low, high = limits.find("nitrite chub low", "US"), limits.find("nitrite chub high", "US")
    return not (low.passed_by(ppm) or high.passed_by(ppm) or fish.most.passed_by(ppm))


_FISH = (
    "fish", "salmon", "trout", "mackerel", "herring", "eel", "tuna", "sablefish", "shad", "chub", "sturgeon", "haddock",
    "cod", "whitefish", "mullet", "bluefish", "char", "lox", "kipper",
)  # fmt: skip
