"""How much potassium a row brings into the product, at most.

One idea: some guests with kidney or heart disease count grams of potassium, so its salts are told of by how much of it
may come into the product: all of it where all stays there, by the gain where that is known, and else what a brine and
the product share once they are even.
"""

from __future__ import annotations

from functools import cache
from typing import Dict, List, NamedTuple, Optional

from brinecalc.tables import load
from brinecalc.trade import in_product
from brinecalc.trade.row import Row, Thing


class Brought(NamedTuple):
    """The salts of potassium in a row, and how much of it they bring into the product at most."""

    names: List[str]
    share: Optional[float]
    """Grams per gram of the product; None where some amount is not known."""


@cache
def _shares() -> Dict[str, float]:
    return {row["ingredient"]: row["potassium"] for row in load.rows("potassium")}


def of(row: Row) -> Brought:
    """The potassium that a row brings."""
    held = [thing for thing in row.things if _part(thing)]
    parts = [_at_most(row, thing) for thing in held]
    known = [part * _part(thing) for part, thing in zip(parts, held) if part is not None]
    whole = sum(known) if len(known) == len(held) else None
    return Brought(list(dict.fromkeys(thing.what.name for thing in held)), whole)


def _part(thing: Thing) -> float:
    """Potassium in a thing; the user's own salt substitute is taken for potassium chloride."""
    other = _shares()["potassium chloride"] if thing.what.role == "salt substitute" else 0.0
    return _shares().get(thing.what.name, other)


def _at_most(row: Row, thing: Thing) -> Optional[float]:
    """Grams of a thing per gram of the product, at most."""
    taken = in_product.taken_up(row, thing)
    if taken is not None:
        return taken
    water = row.number("water")
    if thing.grams and row.weight and water:
        return thing.grams / (water + row.weight)
    return thing.ratio
