"""What every condition of a finding is made of: how it registers and what it gives back.

One idea: a condition is a function of a row, known by the id of its finding; the words it gives fill the sentence.
"""

from __future__ import annotations

from typing import Callable, Dict, Sequence

from brinecalc.science import solution
from brinecalc.trade.row import Row

Words = Dict[str, str]
Hits = Sequence[Words]
Condition = Callable[[Row], Hits]

NOTHING: Hits = ()

TRIMMED = 0.05
"""Share of bone, skin or rind up to which a product counts as boneless, as brisket and tenderloin are sold: judgement;
weighing what a kitchen trims off them would settle it."""

known: Dict[str, Condition] = {}
"""The conditions of the modules loaded so far, by the id of their finding."""


def condition(name: str) -> Callable[[Condition], Condition]:
    """Registers a function as the condition of the finding of that id."""

    def register(function: Condition) -> Condition:
        if name in known:
            raise ValueError(f"the finding {name!r} has two conditions")
        known[name] = function
        return function

    return register


def bath_temperature(row: Row) -> float:
    """°C of the brine; a room's where none is given, and 0 is given."""
    celsius = row.number("bath temperature")
    return solution.ROOM if celsius is None else celsius
