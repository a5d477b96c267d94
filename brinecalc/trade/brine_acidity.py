"""How sour the brine of a production row is: the pH given, the pH that its acids come to, and the lower of the two.

One idea: where an acid is named, the safe answer counts. A pH that was written down does not outweigh what the acids
weighed in come to, and an acid without an amount, or one whose chemistry is not known, leaves the pH unknown. For
curing salt everything counts that may sour a brine, honey and acid phosphates too, and the sourest that it may be.
"""

from __future__ import annotations

from functools import lru_cache
from typing import List, NamedTuple, Optional, Tuple

from brinecalc.errors import BrineError
from brinecalc.trade import acids, ingoing, nitrite_acid, ph_readings
from brinecalc.trade.row import Row, Thing

_WATER = 1000.0
_MOST_SALT = 0.35
_MOST_RECKONED = 0.175
"""Salt of the water up to which the pH is reckoned; what is only a little sour is reckoned so in a stronger brine."""
_MOST_ALKALINITY = 1000.0
_NO_BRINE = ("dry", "comminuted")
"""Curing methods by which nothing need be mixed in water, so that what is only a little sour, or is an acid phosphate
that the rules list for minced meat, is not reckoned as a brine: judgement; the pH of what is mixed would settle it."""
_VEGETABLE = 0.0042
"""Baking soda, grams per gram, that takes as much acid as a vegetable does on its way to pH 4.6, 50 mmol/kg: judgement,
above what cucumber and cabbage are taken to need; titrating the vegetable with vinegar would settle it."""
_PACKED = 2.0
"""Vegetable by weight of the water it lies in, at the least, as it is packed in a jar: judgement; both weighed would
settle it."""

Amounts = Tuple[Tuple[str, float, bool], ...]
"""Names with grams per gram of water, and whether the pH cannot be told without them."""


class Acidity(NamedTuple):
    """What is known of a brine's pH."""

    ph: Optional[float]
    """The lower of the pH given and the pH reckoned; None where neither is known."""
    sourest: Optional[float]
    """The lowest that curing salt may meet in it."""
    from_tap: Optional[float]
    """The same in tap water, where no alkalinity is given and only foods that are a little sour sour it."""
    unknown: Optional[Thing]
    """A sour thing whose part in the pH is not known."""
    sour: Optional[Thing]
    """The first sour thing named."""


def of(row: Row) -> Acidity:
    """How sour the brine of a row is by the acids named in it, reckoned once."""
    found: Optional[Acidity] = row.memo.get("acidity")
    if found is None:
        found = row.memo["acidity"] = _work_out(row, [thing for thing in row.things if thing.what.is_acid], _given(row))
    return found


def with_cure(row: Row) -> Acidity:
    """How sour the brine of a row is for curing salt, reckoned once: by everything in it that may sour it."""
    found: Optional[Acidity] = row.memo.get("acidity with cure")
    if found is None:
        sour = [thing for thing in row.things if _sours(row, thing)]
        found = row.memo["acidity with cure"] = _work_out(row, sour, row.least("ph"))
    return found


def with_vegetable(row: Row) -> Optional[float]:
    """The pH that the brine of a row comes to with the vegetable in it; None where an acid's part is not known."""
    things = [t._replace(ratio=1.0) if t.heading == "liquid" and not t.ratio else t for t in row.things]
    sour = [thing for thing in things if thing.what.is_acid]
    if not sour or not all(thing.ratio for thing in sour):
        return None
    water, alkalinity = row.number("water"), row.number("alkalinity") or 0.0
    packed = max(_PACKED, row.weight / water if row.weight and water else 0.0)
    food = ("baking soda", _VEGETABLE * packed, False)
    strength = min(row.number("strength") or 0.0, _MOST_SALT)
    found = _reckon((*_amounts(things, sour), food), strength, min(alkalinity, _MOST_ALKALINITY), False)
    return None if found is None else found[0]


def is_apart(row: Row, thing: Thing) -> bool:
    """Whether a thing that would sour a brine goes in where curing salt is not mixed in water, but might be."""
    if not nitrite_acid.may_sour(thing.text) or _sours(row, thing):
        return False
    return thing.what.role == "phosphate" or bool(row.number("water"))


def _sours(row: Row, thing: Thing) -> bool:
    """Whether a thing may make a brine too sour for curing salt."""
    if thing.what.is_acid:
        return True
    return ingoing.method_of(row) not in _NO_BRINE and nitrite_acid.may_sour(thing.text)


def sour_liquid(row: Row) -> Tuple[str, Optional[float]]:
    """The sour liquid that the whole brine is made of, empty where there is none, and the highest pH known of it."""
    for thing in row.things:
        if thing.heading == "liquid" and thing.what.is_acid:
            return thing.what.name, acids.highest_ph(thing.text)
    return "", None


def _given(row: Row) -> Optional[float]:
    """The lower end of a pH that is given with both its ends; of one that is open below the upper."""
    low, high = row.least("ph"), row.number("ph")
    return high if high is None or low == ph_readings.OPEN else low


def _work_out(row: Row, sour: List[Thing], given: Optional[float]) -> Acidity:
    if not sour:
        return Acidity(given, given, None, None, None)
    unknown = next((thing for thing in sour if not thing.ratio), None)
    mixed = sourest = from_tap = None
    if unknown is None:
        acid = any(thing.what.is_acid for thing in sour)
        amounts, strength = (
            _amounts(row.things, sour),
            min(row.number("strength") or 0.0, _MOST_SALT if acid else _MOST_RECKONED),
        )
        alkalinity = row.number("alkalinity")
        is_all = bool(row.number("strength")) and "strength" in row.plan.present  # else it is what the salt makes
        found = _reckon(amounts, strength, min(alkalinity or 0.0, _MOST_ALKALINITY), is_all)
        if found is None:
            unknown = sour[0]
        else:
            mixed, sourest = found
        if alkalinity is None and not any(thing.what.is_acid or thing.what.role == "phosphate" for thing in sour):
            tap = _reckon(amounts, strength, acids.TAP_ALKALINITY, is_all)
            from_tap = None if tap is None else _lowest(given, *tap)
    ph = _lowest(given, mixed)
    return Acidity(ph, _lowest(ph, sourest), from_tap, unknown, sour[0])


def _lowest(*values: Optional[float]) -> Optional[float]:
    known = [value for value in values if value is not None]
    return min(known) if known else None


def _amounts(things: List[Thing], sour: List[Thing]) -> Amounts:
    return tuple((thing.text, thing.ratio, thing in sour) for thing in things if thing.ratio)


@lru_cache(maxsize=4096)
def _reckon(amounts: Amounts, strength: float, alkalinity: float, is_all_salt: bool) -> Optional[Tuple[float, float]]:
    """The pH of the brine without its curing salt, and the sourest with it; None where an acid is not known."""
    parts: List[acids.Part] = []
    for name, ratio, needed in amounts:
        try:
            part = acids.find(name)
        except BrineError:
            if needed:
                return None
            continue
        if part.role != "cannot" and not (needed and part.role == "neutral"):
            parts.append((part, ratio * _WATER))
        elif needed:
            return None
    found = _ph_of(parts, strength, alkalinity, is_all_salt)
    salty = [each for each in parts if each[0].role != "neutral"]
    return found or _ph_of(salty, strength, alkalinity, is_all_salt)


def _ph_of(
    parts: List[acids.Part], strength: float, alkalinity: float, is_all_salt: bool
) -> Optional[Tuple[float, float]]:
    """The same of parts whose chemistry is known; None where they are too much for the theory."""
    without = [(part, grams) for part, grams in parts if part.role != "nitrite"]
    try:
        ph = acids.ph(_WATER, without, strength, alkalinity)
        return ph, nitrite_acid.sourest(_WATER, parts, strength, alkalinity, is_all_salt=is_all_salt)
    except (BrineError, ArithmeticError):
        return None
