"""Functions about the functions: why a call fails, where a number comes from, which version answers.

One idea: nobody who sees an error in a cell should have to guess; the reason is a worksheet function away.
"""

from __future__ import annotations

from typing import Any

from brinecalc import catalogue, version
from brinecalc.catalogue import worksheet_function
from brinecalc.errors import CELL_ERRORS, CellError, Unreadable

FAMILY = "Label, limits, sources"


@worksheet_function(family=FAMILY)
def why(function_name: str, *arguments: Any) -> Any:
    """Why a function gives an error, in one sentence; ok, or ok with a remark, where it gives none.

    Parameters
    ----------
    function_name : text
        Function to ask about, with or without BRINE_ [-]. Example: "SOAK_HOURS".
    *arguments : cells
        The same arguments as in the cell that fails [-].

    Returns
    -------
    text
        The reason with the value given, what is allowed and what to type instead [-].

    Notes: What is worth a second look is ok, and told all the same: a dose above the usual range, a level of nitrite
    above a limit, raw meat in a warm brine. An error that comes in with a cell goes out
    unchanged here too, as in every function.
    Sources: definition
    Examples
    --------
    >>> why("SALT", 1000, 0.05)
    'ok'
    >>> why("GAIN", 0, 5)
    'BRINE_GAIN: before must be above 0 g, got 0 g (a blank cell counts as 0); for example 1000.'
    """
    found = catalogue.entry(function_name)
    for cell in arguments:
        if isinstance(cell, str) and cell in CELL_ERRORS:
            raise CellError(cell)
    if len(arguments) > 40:
        raise Unreadable("must be at most 40 cells", argument="arguments", got=f"{len(arguments)}")
    return catalogue.why(found.name, *arguments)


@worksheet_function(family=FAMILY)
def about() -> str:
    """The version of the library and the date of its tables.

    Returns
    -------
    text
        Version and table date [-].

    Sources: definition
    Examples
    --------
    >>> about()
    'brinecalc 0.1.0, tables of 2026-11-26'
    """
    return f"brinecalc {version.VERSION}, tables of {version.TABLE_DATE}"
