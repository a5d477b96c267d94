"""What one call of each worksheet function costs: the bare kernel, the registry, the headless engine.

One idea: each function is called with its own first example, and the same cells are handed to a function that does
nothing in the same place. What is simple enough for spreadsheet arithmetic stands beside that too.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from typing import Any

from brinecalc import registry
from brinecalc.describe import worked_examples
from brinecalc.hosts.formulas.places import letters
from brinecalc.hosts.headless.engine import Engine
from brinecalc.hosts.headless.library import RegistryLibrary
from tests.benchmarks.figures import Figure
from tests.benchmarks.timing import microseconds, microseconds_each

SECTION = "a call"
GATE = 2.0  # microseconds that the registry may add to a scalar call
BEYOND = 5.0  # microseconds that a host may add to its own nothing and the kernel

NATIVE = {
    "BRINE_SALT": "{0}*{1}",
    "BRINE_STRENGTH": "{0}/{1}",
    "BRINE_EQUILIBRIUM_SALT": "{2}*({0}+{1})",
    "BRINE_EQUILIBRIUM_RESULT": "{2}/({0}+{1})",
    "BRINE_IN_PRODUCT": "{0}*{1}/(1+{1})",
    "BRINE_YIELD": "{1}/{0}",
    "BRINE_GAIN": "{1}/{0}-1",
    "BRINE_WATER_PHASE_SALT": "{0}/({0}+{1})",
    "BRINE_ABSORBED": "{1}*({2}-{3})/{0}",
    "BRINE_ADDED_SOLUTION": "{1}/{0}-1",
    "BRINE_RESCALE_HOURS": "{0}*({2}/{1})^2",
}
"""The arithmetic that stands for a simple function, by places of its arguments."""


class WithNothing(RegistryLibrary):
    """The registry, and a function that does nothing."""

    def function(self, name: str) -> Any:
        return (lambda *cells: 1.0) if name == "BRINE_NOTHING" else super().function(name)

    def unknown(self, name: str) -> str | None:
        return None if name == "BRINE_NOTHING" else super().unknown(name)

    def by_cell(self, name: str, index: int) -> bool:
        return name != "BRINE_NOTHING" and super().by_cell(name, index)

    def gives_table(self, name: str) -> bool:
        return name != "BRINE_NOTHING" and super().gives_table(name)


def examples() -> Iterator[tuple[str, tuple[Any, ...]]]:
    """Every function with the cells of its first example, numbers as a spreadsheet hands them over."""
    for name in registry.names():
        for example in worked_examples(registry.spec(name))[:1]:
            yield name, tuple(float(cell) if type(cell) is int else cell for cell in example.cells)


def is_scalar(cells: tuple[Any, ...]) -> bool:
    """Whether no cell is a range."""
    return not any(isinstance(cell, (list, tuple)) for cell in cells)


def kernel_and_gate(name: str, cells: tuple[Any, ...]) -> tuple[float, float]:
    """Microseconds of the Python function itself, its cells read already, and of the whole call."""
    entry, call = registry.entry(name), registry.function(name)
    values = entry.read(cells)
    alone, gate = microseconds_each(lambda: entry.function(*values), lambda: call(*cells), rounds=9)
    return alone, gate


def figures(quick: bool) -> Iterator[Figure]:
    """Three figures for each function."""
    idle = microseconds(lambda: _idle(1.0, 1.0))
    for name, cells in examples():
        alone, gate = kernel_and_gate(name, cells)
        short = name.removeprefix("BRINE_")
        plain = is_scalar(cells) and isinstance(registry.call(name, *cells), (float, str))
        yield Figure(SECTION, f"{short}: kernel", alone, "µs", idle)
        remembered = ", remembered" if registry.entry(name).memo is not None else ""
        goal = alone + GATE if plain else None
        yield Figure(SECTION, f"{short}: registry{remembered}", gate, "µs", idle, goal=goal)
        yield engine(name, cells, alone, quick)


def _idle(*cells: object) -> float:
    return 1.0


def engine(name: str, cells: tuple[Any, ...], alone: float, quick: bool) -> Figure:
    """The headless engine: the call, a function that does nothing with the same cells, arithmetic."""
    count = max(50, min(1_000 if quick else 5_000, int(100_000 / (alone + 3.0))))
    places, values = placed(cells)
    call = f"({','.join(places)})"
    formulas = [name + call, "BRINE_NOTHING" + call]
    if name in NATIVE:
        formulas.append(NATIVE[name].format(*places))
    ours, nothing, *native = in_engine(formulas, values, count, [name, "BRINE_NOTHING"])
    goal = 2.0 * nothing if name == "BRINE_SALT" else nothing + alone + BEYOND
    what = f"{name.removeprefix('BRINE_')}: headless engine"
    return Figure(SECTION, what, ours, "µs", nothing, native[0] if native else None, goal)


def placed(cells: tuple[Any, ...]) -> tuple[list[str], list[Any]]:
    """The arguments of a formula, ``#`` for its row, and the values that stand in the row: tables are written out."""
    places: list[str] = []
    values: list[Any] = []
    for cell in cells:
        if isinstance(cell, (list, tuple)):
            places.append(constant(cell))
        elif cell == "":
            places.append('""')
        else:
            values.append(cell)
            places.append(f"{letters(len(values))}#")
    return places, values


def constant(table: Any) -> str:
    """A table as an array constant."""
    rows = table if any(isinstance(row, (list, tuple)) for row in table) else [[cell] for cell in table]
    return "{" + ";".join(",".join(_literal(cell) for cell in row) for row in rows) + "}"


def _literal(cell: Any) -> str:
    if isinstance(cell, str) or cell is None:
        return '"' + (cell or "").replace('"', '""') + '"'
    return repr(cell)


def in_engine(formulas: list[str], values: list[Any], count: int, names: list[str]) -> list[float]:
    """Microseconds of one call of each formula, loading and writing left out; the best of several, taken in turn."""
    best = [float("inf")] * len(formulas)
    for _ in range(5):
        for at, formula in enumerate(formulas):
            best[at] = min(best[at], _computed(formula, values, count, names) / count * 1e6)
    return best


def _computed(formula: str, values: list[Any], count: int, names: list[str]) -> float:
    """Seconds to compute a column of one formula, a good answer in every row."""
    made = Engine(WithNothing())
    made.workbook.add_sheet("Plan")
    made.use(names)
    if values:
        made.workbook.set_values_batch("Plan", 1, 1, [values] * count)
    column = len(values) + 2
    rows = [["=" + formula.replace("#", str(row))] for row in range(1, count + 1)]
    made.workbook.set_formulas_batch("Plan", 1, column, rows)
    start = time.process_time()
    made.compute()
    spent = time.process_time() - start
    answer = made.value("Plan", count, column)
    if answer is None or isinstance(answer, dict):
        raise AssertionError(f"{formula} gave {answer}")
    return spent
