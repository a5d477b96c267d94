"""When curing salt has too little time to get in, or so much that more gets in than was reckoned.

One idea: from outside it comes in slowly and goes on coming in, so a method that reckons a part holds for a time only.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.trade import ingoing, jurisdiction, limits, methods, salted_before
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, Words, condition
from brinecalc.trade.wording import hours, length, parts, times

_OUTSIDE = frozenset(("dry", "pick-up", "equilibrium"))
_HALF_INCH = 12.7
_LONG_SOAK = 24.0
"""Hours from which meat and pickle are taken for one system, as the second way of the handbook for immersion does:
judgement; nitrite measured in meat and pickle day by day would settle it."""


@condition("cure-soaks-on")
def _soaks_on(row: Row) -> Hits:
    words = _past_what_soaks_in(row)
    soak = row.number("soak hours")
    if words is None or not _is_long(row, soak):
        return NOTHING
    return ({"while": f"In {hours(soak)}" if soak else "By the method equilibrium", **words},)


@condition("cure-taken-out")
def _taken_out(row: Row) -> Hits:
    words = _past_what_soaks_in(row)
    soak = row.number("soak hours")
    if words is None or _is_long(row, soak):
        return NOTHING
    return ({"when": f"after {hours(soak)}" if soak else f"on time, within {_LONG_SOAK:.0f} h", **words},)


@condition("cure-too-thick")
def _too_thick(row: Row) -> Hits:
    thickness = row.number("thickness")
    if not row.has_cure or not thickness or ingoing.method_of(row) not in _OUTSIDE:
        return NOTHING
    way = "Make sure that the pump reached all of it" if salted_before.told_by(row) else "Pump it"
    return ({"thickness": length(thickness), "way": way},) if thickness > limits.value("cure thickness") else NOTHING


@condition("cure-too-short")
def _too_short(row: Row) -> Hits:
    thickness, soak = row.number("thickness"), row.least("soak hours") if row.number("soak hours") else None
    if not row.has_cure or not thickness or soak is None or ingoing.method_of(row) not in _OUTSIDE:
        return NOTHING
    least = limits.value("cure hours per half inch") * (max(thickness / _HALF_INCH, 1.0) + 2.0)
    if thickness < _HALF_INCH:  # a strip: the custom is of hams, and time goes with the square of the thickness
        least = max(least * (thickness / _HALF_INCH) ** 2, limits.value("pumped cure rest"))
    if soak >= least:
        return NOTHING
    way = "Give it longer in the cold, or pump it"
    if salted_before.told_by(row):
        way = "Give it longer in the cold, unless curing salt was pumped all through it"
    elif _past_what_soaks_in(row) is not None:  # longer, more gets in than may
        way = "Pump it, or give it longer in a pickle so weak that cure method equilibrium passes it"
    told, limit = times(soak, least)
    return ({"hours": told, "thickness": length(thickness), "limit": limit, "way": way},)


@condition("cure-rest-short")
def _rest_short(row: Row) -> Hits:
    rest, least = row.least("rest hours"), limits.value("pumped cure rest")
    if not row.has_cure or rest is None or rest >= least or ingoing.method_of(row) != "pumped":
        return NOTHING
    told, limit = times(rest, least)
    return ({"hours": told, "limit": limit},)


def _is_long(row: Row, soak: Optional[float]) -> bool:
    """Whether meat and pickle are one system: after a day, and where the method is to let them even out."""
    if not soak:
        return "equilibrium" in methods.ways(row.text("method"))
    return soak >= _LONG_SOAK


def _past_what_soaks_in(row: Row) -> Optional[Words]:
    """What is wrong with the whole that meat and pickle hold where only a part was reckoned; None where nothing is.

    That part is what the weight gained brings in by pick-up, or by the pump before the meat lies in its pickle.
    """
    reckoned = ingoing.method_of(row)
    if not (reckoned == "pick-up" or (reckoned == "pumped" and row.number("soak hours"))):
        return None
    for what, ppm, most in ingoing.left_to_even_out(row):
        if most.passed_by(ppm):
            return {"what": what, "ppm": parts(ppm), "rules": jurisdiction.of(row), "limit": most.shown}
    return None
