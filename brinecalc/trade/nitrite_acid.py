"""How sour a brine is for curing salt: the one reckoning that a row's rules and the pH of a brine both go by.

One idea: what counts is the sourest that nitrite may meet. That is the brine as mixed, the same before the curing
salt (whose own nitrite takes up a little acid), and the acids alone, all and each, before what softens them is in. The
water holds only the alkalinity that is given, so none where nobody gives it; what the meat takes up is not counted on
either.
"""

from __future__ import annotations

import math
from typing import Sequence

from brinecalc.science import solution
from brinecalc.trade import acids, limits, named
from brinecalc.trade.acids import Part


def least() -> float:
    """pH below which curing salt never goes in."""
    return limits.value("nitrite ph")


def close() -> float:
    """pH from which nothing is told any more of what sours a brine with curing salt a little."""
    return limits.value("nitrite ph close")


def sourest(
    water: float,
    parts: Sequence[Part],
    strength: float = 0.0,
    alkalinity: float = 0.0,
    temperature: float = 25.0,
    is_all_salt: bool = False,
) -> float:
    """The lowest pH that curing salt in this brine may meet; raises where the chemistry cannot be reckoned.

    Before its nitrite is in, its salt counts: beside the strength, unless that is of all salt.
    """
    brought = 0.0 if is_all_salt else _salt_of_cures(parts) / water
    before = [(part, grams) for part, grams in parts if part.role != "nitrite"]
    acid = [(part, grams) for part, grams in before if named.find(part.name).is_acid]
    each = [[one] for one in acid] if len(acid) > 1 else []  # of two that are sour one may soften the other
    ways = [(list(parts), strength)]
    ways += [(way, strength + brought) for way in (before, acid, *each) if way and len(way) < len(parts)]
    return min(acids.ph(water, way, salt, alkalinity, temperature) for way, salt in ways)


def shown(ph: float) -> str:
    """A pH as sentences show it, to a tenth; one below the least never as if it were that."""
    text = f"{ph:.1f}"
    return f"{math.floor(ph * 1000.0) / 1000.0:.3f}" if ph < least() <= float(text) else text


def _salt_of_cures(parts: Sequence[Part]) -> float:
    """Grams of salt that the curing salts hold, by their chloride."""
    moles = sum(grams * part.each.chloride for part, grams in parts if part.role == "nitrite")
    return moles * solution.molar_mass()


def may_sour(name: str) -> bool:
    """Whether an ingredient may bring a brine below that pH: an acid that is sold dry, or may be below it itself.

    Acid phosphates and honey may, milk and stock may not.
    """
    row = acids.row_of(name)
    return row is not None and row["role"] == "acid" and (row["ph_low"] is None or row["ph_low"] < least())


__all__ = ["close", "least", "may_sour", "shown", "sourest"]
