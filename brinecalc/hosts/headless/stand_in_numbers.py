"""Sums, roundings and times as spreadsheet programs compute them.

One idea: where the engine differs from the programs in the last digits, these stand in for its own functions.
"""

from __future__ import annotations

import math
from typing import Callable

from brinecalc.hosts.headless.values import Fault, Value, alike, error, number


def add(*values: Value) -> float:
    """A sum from left to right; a term that cancels what was there leaves 0."""
    total = number(values[0])
    for value in values[1:]:
        term = number(value)
        total = 0.0 if total * term < 0 and alike(total, -term) else total + term
    if total - total != 0.0:
        raise Fault(error("Num"))
    return total


def _whole(quotient: float, to: Callable[[float], int]) -> int:
    near = round(quotient)
    return near if alike(quotient, near) else to(quotient)


def ceiling(value: Value, step: Value) -> float:
    """CEILING: up to a multiple of the step, by the step's sign."""
    x, by = number(value), number(step)
    if x > 0 > by:
        raise Fault(error("Num"))
    return 0.0 if by == 0 else _whole(x / by, math.ceil) * by


def floor(value: Value, step: Value) -> float:
    """FLOOR: down to a multiple of the step, by the step's sign."""
    x, by = number(value), number(step)
    if x > 0 > by:
        raise Fault(error("Num"))
    if by == 0 and x != 0:
        raise Fault(error("Div"))
    return 0.0 if by == 0 else _whole(x / by, math.floor) * by


def ceiling_math(value: Value, step: Value = 1.0, mode: Value = 0.0) -> float:
    """CEILING.MATH: up; a mode takes negative numbers away from 0."""
    x, by = number(value), abs(number(step))
    if by == 0:
        return 0.0
    return _whole(x / by, math.floor if x < 0 and number(mode) else math.ceil) * by


def floor_math(value: Value, step: Value = 1.0, mode: Value = 0.0) -> float:
    """FLOOR.MATH: down; a mode takes negative numbers towards 0."""
    x, by = number(value), abs(number(step))
    if by == 0:
        return 0.0
    return _whole(x / by, math.ceil if x < 0 and number(mode) else math.floor) * by


def serial(value: Value) -> float:
    """A date; there is none before the first day of the calendar or after the year 9999."""
    day = number(value)
    if not 0 <= day <= 2_958_465:
        raise Fault(error("Num"))
    return day
