"""Functions that stand in for the engine's own where those differ from what spreadsheet programs do.

One idea: the engine computes in memory, so a formula there may call a function of ours where its text in the file
keeps the ordinary one.
"""

from __future__ import annotations

from typing import Any, Callable, Dict

from brinecalc.hosts.headless import stand_in_numbers as numbers
from brinecalc.hosts.headless import stand_in_texts as texts
from brinecalc.hosts.headless.values import equal

PREFIX = "BRINE__"
"""Before the names under which the stand-ins are known to the engine; no worksheet function begins so."""

FUNCTIONS: Dict[str, Callable[..., Any]] = {
    "EQ": equal,
    "NE": lambda a, b: not equal(a, b),
    "ADD": numbers.add,
    "JOIN": texts.join,
    "CEILING": numbers.ceiling,
    "CEILING_MATH": numbers.ceiling_math,
    "CLEAN": texts.clean,
    "CONCAT": texts.concat,
    "EXACT": texts.exact,
    "FIND": texts.find,
    "FLOOR": numbers.floor,
    "FLOOR_MATH": numbers.floor_math,
    "HYPERLINK": texts.hyperlink,
    "LEFT": texts.left,
    "LEN": texts.length,
    "LOWER": texts.lower,
    "MID": texts.mid,
    "PROPER": texts.proper,
    "REPLACE": texts.replace,
    "REPT": texts.repeat,
    "RIGHT": texts.right,
    "SEARCH": texts.search,
    "SERIAL": numbers.serial,
    "SUBSTITUTE": texts.substitute,
    "TEXTJOIN": texts.textjoin,
    "TRIM": texts.trim,
    "UPPER": texts.upper,
}
"""Every stand-in by the name that follows the prefix."""
