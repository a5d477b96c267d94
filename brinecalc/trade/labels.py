"""Sodium of a serving and added solution, as a label gives them.

One idea: a label counts sodium from every source, not only from salt, and rounds it as its rule says; added solution
is reckoned on the raw weight.
"""

from __future__ import annotations

import math
from typing import Any, List, Sequence, Tuple

from brinecalc import quantity
from brinecalc.errors import Impossible, OutOfRange, Unreadable
from brinecalc.trade import ingredients, limits

_MILLIGRAMS = 1000.0


def sodium(serving: float, salt_share: float, sources: Sequence[Tuple[float, float]] = ()) -> float:
    """Milligrams of sodium in a serving: from salt, and from sources as (share of the product, sodium in it)."""
    others = sum(share * sodium_in for share, sodium_in in sources)
    return serving * (salt_share * limits.value("sodium in salt") + others * _MILLIGRAMS)


def rounded(milligrams: float) -> float:
    """Sodium as a US label rounds it: below 5 mg to 0, up to 140 mg to the nearest 5, above to the nearest 10."""
    if milligrams < limits.value("sodium round to nothing"):
        return 0.0
    step = 5.0 if milligrams <= limits.value("sodium round to five") else 10.0
    return step * math.floor(milligrams / step + 0.5)


def added_solution(green: float, finished: float) -> float:
    """Added solution as a share of the raw weight."""
    if finished < green:
        raise Impossible(
            "must be at least the green weight",
            argument="finished",
            got=quantity.show(finished, "mass"),
            advice="the product lost weight, so it holds no added solution; use BRINE_YIELD for the loss",
            nearest=green,
        )
    return finished / green - 1.0


def sources(names: Sequence[Any], shares: Sequence[Any]) -> List[Tuple[float, float]]:
    """Names and shares of the product as (share, sodium in it); pairs that are blank on both sides are skipped."""
    from brinecalc.trade import cells  # reading a sheet's cells is a room of its own, and most labels need none

    if len(names) != len(shares):
        got = f"{len(shares)} for {len(names)} ingredients"
        raise Unreadable("must have as many cells as ingredients", argument="shares", got=got)
    made: List[Tuple[float, float]] = []
    for number, (name, cell) in enumerate(zip(names, shares), 1):
        if quantity.is_nothing(name) and quantity.is_nothing(cell):
            continue
        if not isinstance(name, str) or not name.strip():
            raise Unreadable(f"must have a name in row {number}", argument="ingredients", got=cells.shown(name))
        found = ingredients.find(name.strip(), "ingredients")
        made.append((_share(cell, number), found.sodium))
    return made


def _share(cell: Any, number: int) -> float:
    """One share; a blank beside a name counts as 0, as a blank number does everywhere."""
    from brinecalc.trade import cells

    if cell is None:
        return 0.0
    value = quantity.read_in_row(cell.strip() if isinstance(cell, str) else cell, "share", "shares", number)
    if not 0.0 <= value < 1.0:
        raise OutOfRange(
            "must be from 0 % to below 100 %",
            argument="shares",
            got=f"{cells.shown(cell)} in row {number}",
            advice=cells.share_advice(cell),
        )
    return value
