"""When each finding applies: one short function per rule, by the id that the table of findings uses.

One idea: the table says what is wrong and what to do, the function of the same id says when. A function looks at a
row and gives back the words to fill into its sentence, once for each thing it finds, or nothing.
"""

from __future__ import annotations

import importlib
from typing import Callable, Dict, Sequence

from brinecalc import quantity
from brinecalc.trade.row import Row

MODULES = ("nitrite", "cures", "acidity", "cold", "salt", "fish", "doses", "vessel", "label", "reading")

Words = Dict[str, str]
Hits = Sequence[Words]
Condition = Callable[[Row], Hits]

NOTHING: Hits = ()
FLESH = frozenset(("poultry", "pork", "beef", "lamb", "fish", "shellfish"))
MEAT = frozenset(("poultry", "pork", "beef", "lamb"))
WATERY = frozenset(("fish", "shellfish"))

_conditions: Dict[str, Condition] = {}


def condition(name: str) -> Callable[[Condition], Condition]:
    """Registers a function as the condition of the finding of that id."""

    def register(function: Condition) -> Condition:
        if name in _conditions:
            raise ValueError(f"the finding {name!r} has two conditions")
        _conditions[name] = function
        return function

    return register


def conditions() -> Dict[str, Condition]:
    """All conditions by the id of their finding."""
    for module in MODULES:
        importlib.import_module(f"brinecalc.trade.rules.{module}")
    return _conditions


def grams(value: float) -> str:
    """A mass as a sentence shows it."""
    return quantity.show(float(f"{value:.3g}"), "mass")


def share(value: float) -> str:
    """A share as a sentence shows it."""
    return quantity.show(float(f"{value:.3g}"), "share")


def degrees(value: float) -> str:
    """A temperature as a sentence shows it, in both scales."""
    return f"{value:.1f} °C / {value * 1.8 + 32:.0f} °F"


def hours(value: float) -> str:
    """A time as a sentence shows it: hours, or days from three days up."""
    return f"{value / 24:.3g} days" if value >= 72 else f"{value:.3g} h"


def product_of(row: Row, otherwise: str = "product") -> str:
    """The product as the row names it."""
    return row.text("product")[:40] or otherwise
