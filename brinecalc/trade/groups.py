"""The kinds of product: which rules hold for a group, and what the soak chart shows of it.

One idea: whatever is true of a whole group of products stands in its one row of groups.csv.
"""

from __future__ import annotations

from typing import FrozenSet

from brinecalc.errors import UnknownName
from brinecalc.tables import load


def of_kind(kind: str) -> FrozenSet[str]:
    """The groups that the rules of one kind hold for: meat, fish or other."""
    return frozenset(row["group"] for row in load.rows("groups") if row["kind"] == kind)


def row(group: str) -> load.Row:
    """The row of a group."""
    for found in load.rows("groups"):
        if found["group"] == group:
            return found
    raise UnknownName(f"the group {group!r} has no row in groups.csv")


MEAT = of_kind("meat")
FISH = of_kind("fish")
FLESH = MEAT | FISH
OTHER = of_kind("other")
"""The groups by kind, for whoever asks them of every row."""
