"""Why a formula ended in an error, in a sentence.

One idea: an error comes from a cell that the formula reads, or from one of our functions, or from the formula
itself, and is looked for in that order. A formula with our functions is computed once more while they write down what
they refuse.
"""

from __future__ import annotations

from typing import Callable, Iterable, List, Optional, Tuple

from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless.engine import Engine
from brinecalc.hosts.headless.gates import ERROR_TEXTS, Value
from brinecalc.hosts.headless.library import Library

MOST_EXPLAINED = 1_000
_MOST_LOOKED_AT = 10_000

_PLAIN = {
    "#DIV/0!": "it divides by zero or by a blank cell",
    "#VALUE!": "it meets text or a range where it needs a number",
    "#N/A": "what it looks for is not there",
    "#REF!": "it refers to cells that are not there",
    "#NUM!": "it has no result that is a number of ordinary size",
    "#NAME?": "it uses a name that is not known",
    "#NULL!": "its ranges have no cell in common",
}


def error_text(value: Value) -> Optional[str]:
    """The error that a value is, as text; None for any other value."""
    if isinstance(value, dict):
        return ERROR_TEXTS.get(value.get("kind", ""), "#VALUE!")
    return None


def inherited(
    error: str, reads: Iterable[Tuple[str, places.Area]], look: Callable[[str, int, int], Value]
) -> Optional[Tuple[str, str]]:
    """Sheet and name of the first cell with that error among those read."""
    seen = 0
    for sheet, area in reads:
        if area.cells > _MOST_LOOKED_AT:
            continue
        for row in range(area.top, area.bottom + 1):
            for col in range(area.left, area.right + 1):
                seen += 1
                if seen > _MOST_LOOKED_AT:
                    return None
                if error_text(look(sheet, row, col)) == error:
                    return sheet, places.name(row, col)
    return None


def watched(engine: Engine, library: Library, compute: Callable[[], Value]) -> Callable[[str], Optional[str]]:
    """Computes while our functions write down what they refuse; what is given back tells why for an error.

    The first function that gave the error is the innermost: those round it only passed it on.
    """
    refusals: List[Tuple[str, Tuple[Value, ...], str]] = []
    engine.notes.refusals = refusals
    try:
        compute()
    finally:
        engine.notes.refusals = None

    def told(error: str) -> Optional[str]:
        return next((library.why(name, *cells) for name, cells, given in refusals if given == error), None)

    return told


def plain(error: str) -> str:
    """What an error means where nothing more is known."""
    return _PLAIN.get(error, "it ends in an error")
