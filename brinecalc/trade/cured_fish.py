"""Which fish may carry nitrite, and how much of it: the few that the rules name, when they are smoked.

One idea: the limits on meat hold for no fish. A fish that is on the list has its own row of ``limits.csv``, and one
that is not may carry none.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple, Optional, Tuple

from brinecalc.trade import called, flesh, limits
from brinecalc.trade.limits import Limit
from brinecalc.trade.row import Row

_LISTED = (
    ("tuna", "nitrite tuna", "", ""),
    ("chub", "nitrite chub high", "nitrite chub low", ""),
    ("sablefish", "nitrite fish", "", "nitrate fish"),
    ("shad", "nitrite fish", "", "nitrate fish"),
    ("salmon", "nitrite fish", "", "nitrate fish"),
)
"""Fish, and the names of its limits: most and least nitrite, most nitrate."""


class Listed(NamedTuple):
    """A fish that may carry nitrite when it is smoked."""

    fish: str
    most: Limit
    least: Optional[Limit]
    nitrate: Optional[Limit]


@cache
def _listed() -> Tuple[Listed, ...]:
    def limit(name: str) -> Optional[Limit]:
        return limits.find(name, "US") if name else None

    return tuple(
        Listed(fish, limits.find(most, "US"), limit(least), limit(nitrate)) for fish, most, least, nitrate in _LISTED
    )


def listed(row: Row) -> Optional[Listed]:
    """The fish of the list that the product is; None where it is none of them."""
    return next((found for found in _listed() if _is(row, found.fish)), None) if flesh.is_fish(row) else None


def may_carry_nitrate_in_the_eu(row: Row) -> bool:
    """Whether it is herring or sprat, which by EU rules may carry nitrate when they are pickled."""
    return flesh.is_fish(row) and _is(row, "herring")


def _is(row: Row, fish: str) -> bool:
    """Whether the product is called so, by the row or by the table."""
    said = called.heard(row.text("product")) + (called.heard(row.product.name) if row.product else "")
    return flesh.says(said, flesh.FISHES[fish])
