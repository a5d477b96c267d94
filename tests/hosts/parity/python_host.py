"""The registry itself, as the others are measured against."""

from __future__ import annotations

from typing import Any

from parity.calls import Call, Cells, Error, Gap, Table

from brinecalc import registry


def cell(argument: Any) -> Any:
    """An argument as the registry takes it."""
    if isinstance(argument, Gap):
        return ""
    if isinstance(argument, Cells) and argument.single:
        return argument.rows[0][0]
    if isinstance(argument, (Cells, Table)):
        return [list(row) for row in argument.rows]
    return argument.text if isinstance(argument, Error) else argument


def answers(calls: list[Call]) -> list[Any]:
    """What the registry answers."""
    return [registry.call(call.name, *map(cell, call.arguments)) for call in calls]


def reasons(calls: list[Call]) -> list[Any]:
    """The reasons that BRINE_WHY gives."""
    why = registry.function("BRINE_WHY")
    return [why(call.name, *map(cell, call.arguments)) for call in calls]
