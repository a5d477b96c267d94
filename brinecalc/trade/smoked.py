"""What is smoked, and the salt that smoked fish needs in its pack.

One idea: smoke is told in any of the cells about the product; of fish it asks for salt in the water inside, of which
only an analysis says anything.
"""

from __future__ import annotations

from brinecalc.trade import cured_fish, flesh, ingoing, jurisdiction, limits, named, packs, remarks
from brinecalc.trade.limits import Limit
from brinecalc.trade.row import Row

WORDS = ("smoked", "smoke", "smoking", "smokehouse", "lox", "kippered", "kipper")
_TEXTS = ("product", "method", "treatment", "packaging")


def is_smoked(row: Row) -> bool:
    """Whether it is said to be smoked, misspelt or not, and not only that it is not."""
    said = [row.text(heading) for heading in _TEXTS]
    told = any(named.says(text, WORDS) and not named.is_denied(text, WORDS) for text in said)
    return told or remarks.says(row, remarks.SMOKE)


def is_smoked_fish(row: Row) -> bool:
    """Whether it is fish, and smoked: of what no table knows any text may name the fish, and misspell it."""
    if not is_smoked(row):
        return False
    if row.product is not None:
        return flesh.is_fish(row)
    texts = _TEXTS[1:] if flesh.is_meat(row) else _TEXTS
    return any(named.says(row.text(heading), flesh.ALL_FISH) for heading in texts)


def is_salted_for_its_pack(row: Row) -> bool:
    """Whether an analysis shows the water-phase salt that smoked fish needs in its pack."""
    found = row.number("water phase salt")
    return found is not None and is_smoked_fish(row) and not least_salt(row).passed_by(found)


def least_salt(row: Row) -> Limit:
    """The least water-phase salt: with 100 to 200 ppm of nitrite in a fish that may carry it a little less will do."""
    if packs.is_airless(row) and _has_its_nitrite(row):
        return limits.find("water phase salt smoked fish nitrite", "US")
    if row.text("packaging") and not packs.is_airless(row):
        return limits.find("water phase salt smoked fish air", "US")
    return limits.find("water phase salt smoked fish", "US")


def _has_its_nitrite(row: Row) -> bool:
    """Whether the nitrite reckoned is such that less salt will do; chub needs its salt besides."""
    if not row.cures or jurisdiction.of(row) != "US":
        return False
    fish, ppm = cured_fish.listed(row), ingoing.of(row).ppm
    if fish is None or ppm is None or fish.fish == "chub":
        return False
    low, high = limits.find("nitrite chub low", "US"), limits.find("nitrite chub high", "US")
    return not (low.passed_by(ppm) or high.passed_by(ppm) or fish.most.passed_by(ppm))
