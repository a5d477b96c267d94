"""When temperature and time are wrong for raw, perishable food.

One idea: what grows in a warm brine grows in the product too, and 4 h above 5 °C is all that a perishable product may
have in its life. A product that is not known is taken to be perishable.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.trade import (
    called,
    cheeses,
    eaten,
    flesh,
    groups,
    ingoing,
    jurisdiction,
    limits,
    methods,
    named,
    salted_goods,
)
from brinecalc.trade.row import Row, Thing
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import degrees, hours, product_of, share, times

_SALTY = 0.02
"""Salt share up to which meat is not salty outside: judgement; well seasoned is 1 to 1.5 %, ham 2 to 3 %. Tasting the
outside of pieces from weak brines would settle it."""

_MINCED = ("minced", "mince", "ground", "sausage", "burger", "patty")
_MADE_OF_MINCE = (
    " hamburger ", " meatball ", " meatloaf ", " meat loaf ", " kofta ", " kefta ", " köfte ", " cevapcici ",
    " frikadelle ", " frikadellen ", " keema ", " forcemeat ", " rissole ", " polpette ", " albondiga ", " albóndiga ",
    " hackfleisch ", " bratwurst ", " merguez ", " boerewors ", " tartare ",
)  # fmt: skip
"""What is made of minced meat; common practice, no source."""

_SPOILS = ("dairy", "stock")
_SPOILING = (
    " milk ", " buttermilk ", " cream ", " whey ", " yoghurt ", " yogurt ", " kefir ", " stock ", " broth ",
    " bouillon ", " consomme ", " consommé ", " gravy ", " meat juice ", " juice of meat ", " pan juice ", " meat jus ",
    " dripping ", " dashi ", " brühe ", " fond ", " milch ", " sahne ", " lait ", " crème ", " latte ", " brodo ",
)  # fmt: skip
"""Liquids that no table knows and that spoil; common practice, no source."""
_NO_SPOILING = (" cream soda ", " cream of tartar ", " milk of ", " milk thistle ", " cream sherry ")
_MUCH = 0.2
"""Share of the water from which what spoils makes the brine spoil, more than a spoonful of whey to start a ferment:
judgement; counts of germs in such brines would settle it."""


@condition("brine-warm-start")
def _warm_start(row: Row) -> Hits:
    celsius = _warmth(row)
    if celsius is None or not _may_be_flesh(row):
        return NOTHING
    if celsius <= limits.value("brine start temperature") or _is_hot(row):
        return NOTHING
    return ({"temperature": degrees(celsius), "product": product_of(row)},)


@condition("brine-warm-long")
def _warm_long(row: Row) -> Hits:
    celsius, soak = _warmth(row), row.number("soak hours")
    most = limits.find("warm hours")
    if celsius is None or soak is None or not row.is_perishable or _is_hot(row):
        return NOTHING
    if not limits.find("brine temperature").passed_by(celsius) or not most.passed_by(soak):
        return NOTHING
    told, limit = times(soak, most.value)
    return ({"product": product_of(row, "The product"), "hours": told, "limit": limit},)


@condition("brine-warm")
def _warm(row: Row) -> Hits:
    celsius = _warmth(row)
    if celsius is None or not row.is_perishable or not limits.find("brine temperature").passed_by(celsius):
        return NOTHING
    return NOTHING if _is_hot(row) else ({"temperature": degrees(celsius), "product": product_of(row)},)


@condition("liquid-warm")
def _liquid(row: Row) -> Hits:
    celsius, ph = _warmth(row), row.number("ph")
    if celsius is None or row.is_perishable or not limits.find("brine temperature").passed_by(celsius) or _is_hot(row):
        return NOTHING
    sour = limits.find("acidified food ph")
    if ph is not None and not sour.passed_by(ph):
        return NOTHING
    if row.group == "cheese" and (row.number("strength") or 0.0) >= limits.value("keeping salt"):
        return NOTHING  # whey, as salt as that, is what cheese is brined in
    words = {"temperature": degrees(celsius), "limit": sour.shown}
    return [
        {**words, "name": thing.what.name.capitalize(), "subject": thing.heading}
        for thing in row.things
        if _spoils(thing)
    ][:1]


@condition("cheese-warm")
def _cheese(row: Row) -> Hits:
    celsius, soak, ph = _warmth(row), row.number("soak hours"), row.number("ph")
    if row.group != "cheese" or celsius is None or soak is None or _is_hot(row):
        return NOTHING
    if row.product is not None and row.is_perishable:
        return NOTHING  # which is told for itself
    if not limits.find("brine temperature").passed_by(celsius) or not limits.find("warm hours").passed_by(soak):
        return NOTHING
    if ph is not None and not limits.find("acidified food ph").passed_by(ph):
        return NOTHING
    strength, least = row.number("strength"), limits.find("keeping salt")
    words = {"product": product_of(row), "temperature": degrees(celsius), "hours": hours(soak)}
    if strength is not None and strength < least.value:
        why = f" in a brine of {share(strength)}: out of the cold only acid or much salt keeps fresh cheese"
        cold = degrees(limits.value("brine temperature"))
        return ({**words, "why": why, "most": cold, "or": f", or take {least.shown} of salt and know its pH"},)
    if not cheeses.is_too_warm(celsius):
        return NOTHING
    most = degrees(limits.value("cheese brine temperature"))
    return (
        {**words, "why": f", however salt the brine: cheese is brined at {most} at the most", "most": most, "or": ""},
    )


@condition("brine-hot-raw")
def _hot_raw(row: Row) -> Hits:
    celsius = row.number("bath temperature")
    if celsius is None or not _is_hot(row) or not _may_be_flesh(row) or eaten.is_cooked_in_its_bath(row):
        return NOTHING
    return ({"temperature": degrees(celsius), "product": product_of(row)},)


@condition("brine-hot")
def _hot(row: Row) -> Hits:
    celsius = row.number("bath temperature")
    if celsius is None or not _is_hot(row) or not row.is_perishable or _hot_raw(row):
        return NOTHING
    return ({
        "temperature": degrees(celsius), "product": product_of(row), "limit": degrees(limits.value("hot holding")),
        "first": hours(limits.value("cool first")), "second": hours(limits.value("cool second")),
    },)  # fmt: skip


@condition("fish-long-hold")
def _fish_long(row: Row) -> Hits:
    celsius, most = row.number("bath temperature"), limits.find("fish brine long hold")
    held = (row.number("soak hours") or 0.0) + (row.number("rest hours") or 0.0)  # the salt goes on in while it rests
    if celsius is None or not flesh.is_fish(row):
        return NOTHING
    if held <= limits.value("warm hours") or not limits.warmer(celsius, most.value):
        return NOTHING
    limit = jurisdiction.by_us_rules(row, degrees(most.value))
    return ({"temperature": degrees(celsius), "limit": limit},)


@condition("no-temperature")
def _no_temperature(row: Row) -> Hits:
    soak = row.number("soak hours")
    if soak is None or soak <= limits.value("warm hours") or not row.is_perishable:
        return NOTHING
    blank = "bath temperature" in row.plan.present and row.number("bath temperature") is None
    return ({"hours": hours(soak)},) if blank and not _is_wrong(row, "bath temperature") else NOTHING


@condition("brine-reused")
def _reused(row: Row) -> Hits:
    return ({},) if row.number("reused") and row.is_perishable else NOTHING


@condition("over-cap")
def _over_cap(row: Row) -> Hits:
    soak = row.number("soak hours")
    cap = row.product.cap_hours if row.product else None
    if methods.goes_even(row.text("method")):  # the salt is that of the target, and a rub is no brine
        return NOTHING
    if soak is None or cap is None or row.has_cure or soak <= cap or not _can_oversalt(row):
        return NOTHING
    if _is_salted_down(row, soak):
        return NOTHING
    told, limit = times(soak, cap)
    return ({"hours": told, "limit": limit, "product": product_of(row)},)


@condition("cold-eu")
def _cold_eu(row: Row) -> Hits:
    celsius = row.number("bath temperature")
    if celsius is None or jurisdiction.of(row) != "EU":
        return NOTHING
    poultry = flesh.is_poultry(row)
    minced = ingoing.method_of(row) == "comminuted" or _is_called_minced(row.text("product"))
    if not poultry and not (minced and flesh.is_meat(row)):
        return NOTHING
    most = limits.value("cold hold minced" if minced else "cold hold poultry", "EU")
    if not limits.warmer(celsius, most) or limits.find("brine temperature").passed_by(celsius):
        return NOTHING
    return ({"temperature": degrees(celsius), "product": product_of(row), "limit": degrees(most)},)


def _may_be_flesh(row: Row) -> bool:
    """Whether it is meat or fish, or nobody knows what it is."""
    return row.group in groups.FLESH or not row.group


def _spoils(thing: Thing) -> bool:
    """Whether it is milk, stock or the like, and as much of it as makes the brine."""
    if thing.heading != "liquid" and (thing.ratio or 0.0) <= _MUCH:
        return False
    if thing.what.is_known:
        return thing.what.role in _SPOILS
    said = named.words_in(thing.text)
    return any(word in said for word in _SPOILING) and not any(word in said for word in _NO_SPOILING)


def _is_called_minced(text: str) -> bool:
    said = called.heard(text)
    return named.says(said, _MINCED) or any(word in said for word in _MADE_OF_MINCE)


def _is_salted_down(row: Row, soak: float) -> bool:
    """Whether it lies in so strong a brine, for so many days, that salted goods are meant and no slip of the hours."""
    strength = row.number("strength") or 0.0
    strong = limits.find("strong brine").passed_by(strength) and limits.find("date mark").passed_by(soak)
    return strong and salted_goods.is_for_keeping(row)


def _is_hot(row: Row) -> bool:
    """Whether the bath is as hot as food is held hot, in which nothing grows, at the colder end of a range too."""
    celsius = row.least("bath temperature")
    return celsius is not None and celsius >= limits.value("hot holding")


def _warmth(row: Row) -> Optional[float]:
    """°C of a bath: the warmer end of a range; of one that is hot in part the colder, where that is warm."""
    celsius, low = row.number("bath temperature"), row.least("bath temperature")
    if celsius is None or low is None or celsius < limits.value("hot holding"):
        return celsius
    return low if limits.find("brine temperature").passed_by(low) else celsius


def _can_oversalt(row: Row) -> bool:
    """Whether the outside, which comes to the brine's own strength, gets salty: not in a weak brine, however long."""
    strength = row.number("strength")
    return strength is None or row.product is None or strength * row.product.water > _SALTY


def _is_wrong(row: Row, heading: str) -> bool:
    """Whether that column holds an error or something unreadable, which is said elsewhere."""
    return any(c.name == heading for c in row.errors) or any(u.column.name == heading for u in row.unread)
