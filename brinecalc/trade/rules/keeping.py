"""When food or its brine is kept for longer than the cold alone keeps it.

One idea: seven days is for food that only the cold keeps; what is salted through keeps for weeks, and its brine with
it, and what waits after the brine goes on ageing all the same.
"""

from __future__ import annotations

from brinecalc.trade import flesh, ingoing, limits, methods, named, packs, salted_goods
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import hours, product_of, times

_AHEAD = 24.0
"""Hours by which a brine may be older than its batch: judgement; when kitchens mix and fill would settle it."""


_BRINED = ("feta", "cheese")
"""What is kept in its own brine for months: common practice, no source."""


@condition("brine-old")
def _old(row: Row) -> Hits:
    age = row.number("brine age")
    most = limits.find("date mark")
    if age is None or not most.passed_by(age) or not row.is_perishable:
        return NOTHING
    if salted_goods.is_for_keeping(row) and (
        not flesh.is_flesh(row) or age <= (row.least("soak hours") or 0.0) + _AHEAD
    ):
        return NOTHING
    told, limit = times(age, most.value)
    return ({"age": told, "limit": limit},)


@condition("soak-far-too-long")
def _soak_far_too_long(row: Row) -> Hits:
    if not (flesh.is_fish(row) or (flesh.is_meat(row) and flesh.is_poultry(row))):
        return NOTHING
    soak, rest = row.number("soak hours") or 0.0, row.number("rest hours") or 0.0
    if "dry equilibrium" in methods.ways(row.text("method")):  # what was salted dry may hang afterwards
        rest = 0.0
    total = soak + rest
    most = limits.find("poultry in brine")
    if not most.passed_by(total) or salted_goods.is_for_keeping(row):
        return NOTHING
    if _is_cured(row) and packs.is_at_most(row, limits.value("brine temperature")):
        return NOTHING
    told, limit = times(total, most.value)
    way = "Shorten the soak: cut the pieces thinner, or take a stronger brine for hours"
    words = {"product": product_of(row), "usual": hours(limits.value("date mark")), "limit": limit}
    return ({**words, "hours": told + _where(soak, rest), "way": "Shorten the rest" if rest > soak else way},)


def _where(soak: float, rest: float) -> str:
    """What the hours are of, where a rest is among them."""
    return " of soak and rest" if soak and rest else " of rest" if rest else ""


@condition("soak-long")
def _soak_long(row: Row) -> Hits:
    soak, rest = row.number("soak hours") or 0.0, row.number("rest hours") or 0.0
    total = soak + rest
    most = limits.find("date mark")
    if _is_cured(row) or not _spoils(row) or not most.passed_by(total) or salted_goods.is_for_keeping(row):
        return NOTHING
    if _soak_far_too_long(row):
        return NOTHING  # which is told as a STOP
    told, limit = times(total, most.value)
    return ({"hours": told + _where(soak, rest), "limit": limit},)


def _is_cured(row: Row) -> bool:
    """Whether curing salt keeps it; too little of it does not, and of fish it keeps none for weeks."""
    ppm = ingoing.of(row).ppm
    too_little = ppm is not None and ppm < limits.value("nitrite least effective")
    return row.has_cure and not too_little and not flesh.is_fish(row)


def _spoils(row: Row) -> bool:
    """Whether only the cold keeps it: flesh, eggs, tofu and fresh cheese, but not in a sour brine.

    A product that nobody here knows is taken to be of that kind.
    """
    if flesh.is_flesh(row):
        return True
    text = row.text("product")
    named_here = row.product is not None or (bool(text) and not named.says(text, _BRINED))
    return named_here and row.is_perishable and not row.has("acid")
