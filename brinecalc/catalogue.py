"""The catalogue of worksheet functions: each puts itself in with ``worksheet_function`` and is found here by name.

One idea: what is on the shelf is found, and nothing here knows which functions there are. Functions that speak of
other functions look them up here; hosts ask the registry, which fills the catalogue first.
"""

from __future__ import annotations

from typing import Callable, Dict, List, Optional

from brinecalc.describe import FunctionSpec
from brinecalc.errors import BrineError
from brinecalc.gate import Cell, Entry, Function, Remark, SoFar
from brinecalc.names import Names

_entries: Dict[str, Entry] = {}


def worksheet_function(
    family: str, memo: bool = False, so_far: Optional[SoFar] = None, remark: Optional[Remark] = None
) -> Callable[[Function], Function]:
    """Registers a function under its worksheet name; `memo` keeps answers of costly pure functions.

    `so_far` is asked about a call that failed, argument by argument, so that the first thing wrong is told first, and
    `remark` about one that did not, by whoever wants to know whether all is well.
    """

    def register(function: Function) -> Function:
        entry = Entry(function, family, memo, so_far, remark)
        if entry.name in _entries and _entries[entry.name].function.__module__ != function.__module__:
            raise ValueError(f"{entry.name} is described twice")
        _entries[entry.name] = entry
        return function

    return register


def names() -> List[str]:
    """The names of all worksheet functions, in the order of the families."""
    return list(_entries)


def entry(name: str) -> Entry:
    """The entry of a function; the name may come in any case and without its BRINE_."""
    full = name.strip().upper().replace(".", "_")
    full = full if full.startswith("BRINE_") else "BRINE_" + full
    found = _entries.get(full)
    if found is None:
        known = Names("function", [(n, (n[len("BRINE_") :],), n) for n in _entries])
        raise known.unknown(name.strip(), "function_name")
    return found


def spec(name: str) -> FunctionSpec:
    """The record of a function."""
    return entry(name).spec


def function(name: str) -> Function:
    """The call that hosts use: cells in, a cell or rows of cells out, never an exception."""
    return entry(name).call


def call(name: str, *cells: Cell) -> Cell:
    """Calls a function by name with cell-like arguments; an unknown name is ``#N/A``."""
    try:
        found = entry(name)
    except BrineError as error:
        return error.cell
    return found.call(*cells)


def why(name: str, *cells: Cell) -> Cell:
    """Why a call fails, in one sentence that says what to type instead; ``ok`` when all is well."""
    try:
        found = entry(name)
    except BrineError as error:
        return error.sentence()
    return found.why(cells)
