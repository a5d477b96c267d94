"""When a sulphite is in the row: on meat, where it has no place, in the few preparations that may carry it, elsewhere.

One idea: a sulphite makes old meat look fresh and harms asthmatic guests, so meat stops unless the rules name it; what
they name has its ceiling, counted as sulphur dioxide.
"""

from __future__ import annotations

from typing import List, Optional

from brinecalc.trade import flesh, in_product, jurisdiction, limits, named
from brinecalc.trade.row import Row, Thing
from brinecalc.trade.rules.condition import NOTHING, Hits, Words, condition
from brinecalc.trade.wording import against, parts, product_of

_MAY = (" breakfast sausage ", " burger ", " hamburger ", " salsicha ", " longaniza ", " butifarra ")
"""Preparations of raw meat that may carry it by EU rules, read in annex II, category 08.2."""
_BURGER = (" burger ", " hamburger ")
_IN_METABISULPHITE = 0.674
"""Sulphur dioxide in sodium metabisulphite, the richest of the salts, by atomic masses: 2 × 64.06 of 190.11."""
_GAS = (" dioxide ", " so2 ", " e220 ", " e 220 ")


@condition("sulphite-meat")
def _meat(row: Row) -> Hits:
    return _told(row) if flesh.is_meat(row) and jurisdiction.of(row) != "EU" else NOTHING


@condition("sulphite-meat-eu")
def _meat_by_eu_rules(row: Row) -> Hits:
    if not flesh.is_meat(row) or jurisdiction.of(row) != "EU" or _may_carry(row):
        return NOTHING
    return _told(row)


@condition("sulphite-over-limit")
def _over(row: Row) -> Hits:
    found, most = _dioxide(row), limits.find("sulphite sausage", "EU")
    if not _may_carry(row) or found is None or not most.passed_by(found):
        return NOTHING
    ppm, limit = against(found, most)
    return ({"ppm": ppm, "limit": limit, "product": product_of(row)},)


@condition("sulphite-sausage")
def _sausage(row: Row) -> Hits:
    things = _sulphites(row)
    if not things or not _may_carry(row) or _over(row):
        return NOTHING
    found = _dioxide(row)
    is_burger = any(word in named.words_in(row.text("product")) for word in _BURGER)
    words = {
        "name": things[0].what.name, "product": product_of(row), "limit": limits.find("sulphite sausage", "EU").shown,
        "only": ", with 4 % of vegetable or cereal in it" if is_burger else "",
        "found": "how much is here is not known" if found is None else f"here it is {parts(found)} ppm",
    }  # fmt: skip
    return ({**words, "subject": things[0].heading},)


@condition("sulphite-limit")
def _elsewhere(row: Row) -> Hits:
    return NOTHING if flesh.is_meat(row) or _may_carry(row) else _told(row)


def _may_carry(row: Row) -> bool:
    """Whether it is a preparation that may carry sulphite by the rules of the row."""
    words = named.words_in(row.text("product"))
    is_named = row.product is None and any(word in words for word in _MAY)
    return jurisdiction.of(row) == "EU" and is_named and flesh.is_made_of_meat(row)


def _dioxide(row: Row) -> Optional[float]:
    """Sulphur dioxide that all sulphites of the row bring, ppm of the meat; None where an amount is not known."""
    things = _sulphites(row)
    shares = [_of_meat(row, thing) for thing in things]
    known = [share for share in shares if share is not None]
    if not things or len(known) < len(shares):
        return None
    return 1e6 * sum(share * _part(thing) for share, thing in zip(known, things))


def _of_meat(row: Row, thing: Thing) -> Optional[float]:
    if thing.grams and row.weight:
        return thing.grams / row.weight
    return in_product.stays(row, thing) if row.number("water") else thing.ratio


def _part(thing: Thing) -> float:
    return 1.0 if any(word in named.words_in(thing.text) for word in _GAS) else _IN_METABISULPHITE


def _sulphites(row: Row) -> List[Thing]:
    words = named.phrases_of("sulphite")
    return [t for t in row.things if "sulphite" in t.what.hazards and not named.is_denied(t.text, words)]


def _told(row: Row) -> List[Words]:
    return [
        {"name": thing.what.name.capitalize(), "product": product_of(row), "subject": thing.heading}
        for thing in _sulphites(row)
    ]
