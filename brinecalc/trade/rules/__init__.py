"""When each finding applies: one short function per rule, by the id that the table of findings uses.

One idea: the table says what is wrong and what to do, the function of the same id says when. A function looks at a
row and gives back the words to fill into its sentence, once for each thing it finds, or nothing.
"""

from __future__ import annotations

import importlib
from typing import Dict

from brinecalc.trade.rules import condition

MODULES = (
    "nitrite",
    "cures",
    "cure_times",
    "bacon",
    "bone",
    "pumped_before",
    "fish_cures",
    "acidity",
    "sulphites",
    "cold",
    "keeping",
    "salt",
    "outcome",
    "sizes",
    "fish",
    "packing",
    "parasites",
    "ferments",
    "doses",
    "vessel",
    "label",
    "reading",
)


def conditions() -> Dict[str, condition.Condition]:
    """All conditions by the id of their finding."""
    for module in MODULES:
        importlib.import_module(f"{__name__}.{module}")
    return condition.known
