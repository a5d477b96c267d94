"""How sour the brine of a production row is: the pH given, the pH that its acids come to, and the lower of the two.

One idea: where an acid is named, the safe answer counts. A pH that was written down does not outweigh what the acids
weighed in come to, and an acid without an amount, or one whose chemistry is not known, leaves the pH unknown. Beside
the brine as mixed stands the sourest it can be on the way there, with the acids in and what softens them not yet.
"""

from __future__ import annotations

from functools import lru_cache
from typing import List, NamedTuple, Optional, Tuple

from brinecalc.errors import BrineError
from brinecalc.trade import acids
from brinecalc.trade.row import Row, Thing

_WATER = 1000.0
_MOST_SALT = 0.35

Amounts = Tuple[Tuple[str, float, bool], ...]
"""Names with grams per gram of water, and whether the pH cannot be told without them."""


class Acidity(NamedTuple):
    """What is known of a brine's pH."""

    ph: Optional[float]
    """The lower of the pH given and the pH reckoned; None where neither is known."""
    sourest: Optional[float]
    """The same, with the acids alone if that is lower."""
    unknown: Optional[Thing]
    """A sour thing whose part in the pH is not known."""
    sour: Optional[Thing]
    """The first sour thing named."""


def of(row: Row) -> Acidity:
    """How sour the brine of a row is, reckoned once."""
    found: Optional[Acidity] = row.memo.get("acidity")
    if found is None:
        found = row.memo["acidity"] = _work_out(row)
    return found


def sour_liquid(row: Row) -> Tuple[str, Optional[float]]:
    """The sour liquid that the whole brine is made of, empty where there is none, and the highest pH known of it."""
    for thing in row.things:
        if thing.heading == "liquid" and thing.what.is_acid:
            return thing.what.name, acids.highest_ph(thing.text)
    return "", None


def _work_out(row: Row) -> Acidity:
    sour = [thing for thing in row.things if thing.what.is_acid]
    if not sour:
        given = row.number("ph")
        return Acidity(given, given, None, None)
    unknown = next((thing for thing in sour if not thing.ratio), None)
    given = row.number("ph")
    mixed = alone = None
    if unknown is None:
        strength = min(row.number("strength") or 0.0, _MOST_SALT)
        amounts = _amounts(row)
        mixed = _reckon(amounts, strength)
        alone = _reckon(tuple(amount for amount in amounts if amount[2]), strength)
        unknown = sour[0] if mixed is None or alone is None else None
    ph = _lowest(given, mixed)
    return Acidity(ph, _lowest(ph, alone), unknown, sour[0])


def _lowest(*values: Optional[float]) -> Optional[float]:
    known = [value for value in values if value is not None]
    return min(known) if known else None


def _amounts(row: Row) -> Amounts:
    dosed = [thing for thing in row.things if thing.ratio and not thing.what.is_cure]
    return tuple((thing.text, thing.ratio or 0.0, thing.what.is_acid) for thing in dosed)


@lru_cache(maxsize=4096)
def _reckon(amounts: Amounts, strength: float) -> Optional[float]:
    """The pH of the brine in pure water, None where an acid's chemistry is not known."""
    parts: List[acids.Part] = []
    for name, ratio, needed in amounts:
        try:
            part = acids.find(name)
        except BrineError:
            if needed:
                return None
            continue
        if needed and part.role == "neutral":
            return None
        if part.role not in ("neutral", "cannot"):
            parts.append((part, ratio * _WATER))
        elif needed:
            return None
    try:
        return acids.ph(_WATER, parts, strength)
    except (BrineError, ArithmeticError):
        return None
