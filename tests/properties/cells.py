"""Cells of every kind a host can hand over, likely and hostile, for the property tests and the long run by hand."""

from __future__ import annotations

import datetime
import random
from typing import Any

from brinecalc import registry
from brinecalc.errors import CELL_ERRORS

HOSTILE_TEXTS = (
    "9**9**9 kg", "9" * 5000, "__import__('os')", "1e400 g", "1e-400 g", "\x00", "1\u202e2 kg", "\u200f5 g", "1_000 kg",
    "0x10 kg", "nan kg", "inf", "-inf g", "1,000 g", "1 000 g", "1.000,5 g", "=1+1", "@SUM(1)", "5%%", "%", "--5", "5 5 5",
    "1/0 cup", "½½ cup", "3 lb 4", "4 kg 3 lb", "1 c", "2 T", "1 t", "٣ kg", "５ g", "true", "NULL", "None", " ", "\t",
    "kg", "5 kgg", "a" * 40000, "🧂", "150 x 60 x 40 mm", "1 x 2", "x x x", "1x1x1x1 mm", "large", "LARGE ", "error",
    "5 kg/m", "1:30", "12:00", "1e5%", "1 imp gal", "- 5 °C", "38F", "−4 °C", "'", '"', "\\", "../..", "%s", "{0}",
)  # fmt: skip
NUMBERS = (
    0, 1, -1, 5, 1000, 0.05, 0.5, 1.5, 25.0, 4.0, 1e-9, 1e-300, 5e-324, 1e300, 1.7e308, -1e300, 10**400, -(10**30), 2**63,
    float("nan"), float("inf"), float("-inf"), 0.264, 0.3592, 0.36, 100, 99.9999999, 273.15, -21.1, 3, 2.9999999999,
)  # fmt: skip
OTHERS = (
    None,
    "",
    True,
    False,
    b"5",
    object(),
    {"kind": "Num"},
    datetime.datetime(2027, 1, 1),
    1 + 2j,
    (),
    [],
    [[]],
    ((),),
)
LIKELY = {
    "mass": (1.0, 1000.0, 2500, "2.5 kg", "3 lb 4 oz"),
    "water": (1000.0, 20000.0, "2 L", "1 gal"),
    "length": (5.0, 25.0, 38.1, "1 1/2 in"),
    "size": (5.0, 25.0, 60.0, "1 in", "150 x 60 x 40 mm"),
    "hours": (0.25, 4.0, 24.0, 200.0, "90 min", "2 d"),
    "temperature": (0.5, 4.0, 4.9, 20.0, "38 °F", -1.0),
    "volume": (5.0, 30000.0, "1 tbsp", "2 qt"),
    "share": (0.001, 0.01, 0.05, 0.1, 0.25, "5%", "1.5 %", 0.9),
    "ppm": (50.0, 120.0, 156.25, "150 ppm"),
    "number": (0.5, 1.0, 2.0, 5.0, 12.0, 4.6),
    "money": (1.0, 12.5),
    "amount": (1.0, 0.05, "5 kg", "5%", 60.0),
}
NAMES = (
    "chicken breast", "Pork Chops", "salmon fillet", "cucumber", "whole turkey", "tofu", "sugar", "honey", "cola", "vinegar",
    "lemon juice", "baking soda", "STPP", "curing salt no. 1", "rosemary", "calcium chloride", "lye", "buttermilk", "salt",
    "table salt", "unicorn", "nitrite pumped", "BRINE_SALT", "SALT", "SOAK_HOURS", "CHECK", "kg", "lb", "each",
)  # fmt: skip


def scalar(pick: random.Random, argument: Any) -> Any:
    """One cell for an argument: mostly likely, sometimes hostile."""
    dice = pick.random()
    if dice < 0.62:
        if argument.choices and (argument.kind == "choice" or pick.random() < 0.3):
            return pick.choice(argument.choices)
        if argument.kind in LIKELY:
            value = pick.choice(LIKELY[argument.kind])
            return value * pick.uniform(0.2, 3.0) if isinstance(value, float) and pick.random() < 0.6 else value
        return pick.choice(NAMES)
    if dice < 0.72:
        return pick.choice(NUMBERS)
    if dice < 0.80:
        return pick.choice(HOSTILE_TEXTS)
    if dice < 0.86:
        return pick.choice(OTHERS)
    if dice < 0.90:
        return pick.choice(sorted(CELL_ERRORS))
    if dice < 0.95:
        return pick.choice(NAMES)
    return pick.choice((None, ""))


def cell(pick: random.Random, argument: Any) -> Any:
    """One argument: a cell, or now and then a range of any shape (always for arguments that are tables)."""
    tabular = argument.kind in ("column", "table", "cells", "cell")
    if not tabular and pick.random() < 0.96:
        return scalar(pick, argument)
    if tabular and pick.random() < 0.1:
        return scalar(pick, argument)
    height, width = pick.randint(1, 4), pick.choice((1, 1, 2, 3))
    rows = [[scalar(pick, argument) for _ in range(width)] for _ in range(height)]
    if pick.random() < 0.05:
        rows[-1] = rows[-1][:-1]
    return rows


def arguments(pick: random.Random, name: str) -> tuple[Any, ...]:
    """A call's arguments: usually all required ones and some optional ones, sometimes too few or too many."""
    spec = registry.spec(name)
    fewest = sum(argument.required for argument in spec.arguments)
    most = len(spec.arguments)
    count = pick.choice((fewest, most, pick.randint(0, most), pick.randint(fewest, most)))
    made = [cell(pick, argument) for argument in spec.arguments[:count]]
    if spec.variadic:
        made += [cell(pick, spec.arguments[-1]) for _ in range(pick.randint(0, 5))]
    elif pick.random() < 0.02:
        made += [1.0] * pick.randint(1, 3)
    return tuple(made)


def is_a_cell(value: Any) -> bool:
    """Whether a host can show it: a finite float, a text, or rows of them of equal length."""
    if isinstance(value, list):
        return (
            bool(value)
            and all(isinstance(row, list) and len(row) == len(value[0]) for row in value)
            and all(is_a_cell(x) and not isinstance(x, list) for row in value for x in row)
        )
    return isinstance(value, str) or (type(value) is float and value - value == 0.0)
