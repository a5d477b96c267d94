"""The ingoing nitrite of a production row: what the row says of method, kind, pickle and cure, put to the kernel.

One idea: everything that brings nitrite counts together, wherever in the row it is named, and whatever is missing
for the reckoning is named rather than assumed. The pickle is what the row weighs into the water, unless it is given.
"""

from __future__ import annotations

import difflib
from functools import cache
from typing import Callable, List, NamedTuple, Optional, Tuple

from brinecalc.errors import BrineError
from brinecalc.names import Names
from brinecalc.trade import cure_names, cured_fish, curing, jurisdiction, limits
from brinecalc.trade.limits import Limit
from brinecalc.trade.row import Row, Thing

_METHODS = (
    ("dry", ("dry cure", "dry cured", "dry curing", "dry equilibrium", "dry rub", "rubbed", "equilibrium dry", "dry eq",
             "eq dry")),
    ("comminuted", ("ground", "minced", "mince", "chopped", "sausage", "ground meat", "mixed in", "mixed into mince")),
    ("pumped", ("pump", "pumping", "inject", "injecting", "injected", "injection", "massage", "massaged", "tumble",
                "tumbled", "stitch", "stitch pumped", "artery pumped")),
    ("pick-up", ("pickup", "immersion by pick-up", "immersion pick-up", "by pick-up")),
    ("equilibrium", ("equilibrium immersion", "immersion equilibrium", "immersion by meat and pickle together")),
)  # fmt: skip
COUNTED = ("liquid", "salt name")
"""Headings of what the water and the salt of the row count already."""
BELLIES = frozenset(("pork belly", "skinless pork belly"))
_LONGEST_KIND = 80
_LIKE_BACON = 0.7  # likeness from which a word is bacon misspelt


class Ingoing(NamedTuple):
    """The ingoing nitrite of a row and the ceiling on it, as far as they can be reckoned; nitrate beside it."""

    ppm: Optional[float]
    nitrate: Optional[float]
    method: Optional[str]
    kind: str
    rules: str
    most: Optional[Limit]
    missing: str
    """What is not given and keeps the nitrite from being reckoned, in words."""


@cache
def _methods() -> Names[str]:
    return Names("curing method", [(name, aliases, name) for name, aliases in _METHODS])


def method_of(row: Row) -> Optional[str]:
    """The curing method as the kernel calls it, None where none is given or known.

    Where the sheet has no column for it, the brining method serves if it says the same.
    """
    return named_method(row.text("cure method" if "cure method" in row.plan.present else "method"))


def named_method(text: str) -> Optional[str]:
    """The curing method that a text names, None where it names none."""
    return _methods().find(text) if text and text in _methods() else None


def kind_of(row: Row) -> str:
    """Bacon where the row says so, or says nothing and the product is a belly."""
    kind = row.text("kind").strip()
    if kind:
        return "bacon" if says_bacon(kind) else "general"
    return "bacon" if row.product is not None and row.product.name in BELLIES else "general"


def says_bacon(kind: str) -> bool:
    """Whether a kind is bacon, misspelt or not: its limits are the lower ones."""
    plain = kind[:_LONGEST_KIND].casefold()
    return "bacon" in plain or bool(difflib.get_close_matches("bacon", plain.split(), n=1, cutoff=_LIKE_BACON))


def of(row: Row) -> Ingoing:
    """The ingoing nitrite and nitrate of a row, reckoned once."""
    found: Optional[Ingoing] = row.memo.get("ingoing")
    if found is None:
        found = row.memo["ingoing"] = _work_out(row) if row.cures else _NO_CURE
    return found


def _work_out(row: Row) -> Ingoing:
    method, kind, rules = method_of(row), kind_of(row), jurisdiction.of(row)
    if method is None:
        return Ingoing(None, None, None, kind, rules, None, "")
    try:
        most: Optional[Limit] = curing.limit(method, kind, rules)
    except BrineError:
        most = curing.limit(method, "general", rules)
    missing = _missing(row, method)
    ppm = nitrate = None
    if not missing:
        ppm, nitrate = _ppm(row, method, strength_of), _ppm(row, method, _nitrate_of)
    given = row.number("nitrite")
    if given:
        ppm, missing = max(given, ppm or 0.0), ""
    return Ingoing(ppm, nitrate, method, kind, rules, most, missing)


def left_to_even_out(row: Row) -> List[Tuple[str, float, Limit]]:
    """The nitrite and the nitrate that meat and pickle hold together, each with its ceiling, as far as known."""
    fish, rules = cured_fish.listed(row), jurisdiction.of(row)
    whole = all(thing.grams is not None and strength_of(row, thing) is not None for thing in row.cures)
    if not (row.cures and whole and row.weight and pickle_of(row) is not None):
        return []
    nitrite = fish.most if fish else curing.limit("equilibrium", kind_of(row), rules)
    nitrate = fish.nitrate if fish and fish.nitrate else curing.nitrate_limit("equilibrium", rules)
    if rules == "EU" and cured_fish.may_carry_nitrate_in_the_eu(row):
        nitrate = limits.find("nitrate herring", rules)
    return [
        ("nitrite", _ppm(row, "equilibrium", strength_of), nitrite),
        ("nitrate", _ppm(row, "equilibrium", _nitrate_of), nitrate),
    ]


def is_nitrate_alone(row: Row) -> bool:
    """Whether what it is cured with is nitrate, and nothing in the row brings nitrite."""
    return bool(row.cures) and not row.cure_is_wrong and all("cure" not in thing.what.hazards for thing in row.cures)


def strength_of(row: Row, thing: Thing) -> Optional[float]:
    """Nitrite in a curing salt: as the row gives it, else by its grade; None where it is not known.

    Of a strength in its name and another beside it the larger counts; 0 is a blank cell as some hosts hand it over.
    """
    given, cure = row.number("cure strength"), thing.what.cure
    if not given or thing.heading not in ("cure", "cure name", "nitrite", "salt name"):
        return cure.nitrite if cure else None
    written = cure is not None and cure.status in (cure_names.WRITTEN, cure_names.DILUTED)
    return max(given, cure.nitrite) if cure and written else given


def _missing(row: Row, method: str) -> str:
    """The first thing that keeps the nitrite from being reckoned.

    What a known share of the meat's weight takes up of a known pickle needs no weight.
    """
    for thing in row.cures:
        if thing.grams is None:
            return f"how much {thing.what.name} is used"
        if strength_of(row, thing) is None:
            return f"how much nitrite {thing.what.name} holds"
    by_gain = method in ("pumped", "pick-up")
    if not row.weight and not (by_gain and pickle_of(row)):
        return "the weight of the product"
    if by_gain and not row.number("gain"):
        return "the gain" if row.number("gain") is None else "a gain above 0"
    if method == "equilibrium" and pickle_of(row) is None:
        return "the pickle or the water"
    return ""


def _nitrate_of(row: Row, thing: Thing) -> Optional[float]:
    return thing.what.cure.nitrate if thing.what.cure else None


def _ppm(row: Row, method: str, part_of: Callable[[Row, Thing], Optional[float]]) -> float:
    """Parts per million of what all curing salts of the row bring."""
    weight, gain, pickle = row.weight or 0.0, row.number("gain"), pickle_of(row)
    total = 0.0
    for thing in row.cures:
        part = part_of(row, thing)
        if part:
            total += curing.nitrite(weight, thing.grams or 0.0, method, gain, pickle, part)
    return total


def pickle_of(row: Row) -> Optional[float]:
    """The whole pickle: as given, else the water with all that is weighed into it."""
    given = row.number("pickle")
    if given:
        return given
    water = row.number("water")
    if not water:
        return None
    salt = row.number("salt")
    parts: List[float] = [water, salt if salt is not None else water * (row.number("strength") or 0.0)]
    parts.extend(thing.grams for thing in row.things if thing.grams and thing.heading not in COUNTED)
    return sum(parts)


_NO_CURE = Ingoing(None, None, None, "general", "US", None, "")
