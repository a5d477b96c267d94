"""Every range that a function's help states is the range it keeps to; what else bounds an argument, its text says."""

from __future__ import annotations

import ast
import doctest

import pint
from each import each

from brinecalc import registry
from brinecalc.describe import NUMBERS, Argument

BOUND_ELSEWHERE = (
    "dissolve", "at most 35.92 % of the water", "at most 30.37 % of the water", "fits", "whole number", "the limit",
    "ceiling", "0.4 % to 10 %", "above 0", "freez", "green", "with the moisture", "with the salt", "stronger",
)  # fmt: skip
"""Words of which an argument's text has to speak where something besides its range bounds it."""

SOLVED_FOR = ("target", "target_ph")
"""Arguments for which an answer is looked for, which need not exist."""

GRID = (1e-9, 1e-3, 0.05, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0, 100.0, 1000.0, -1.0, -2.0, -5.0, -20.0, -30.0, 40.0, 300.0)


def example_of(name: str) -> list[object]:
    """The cells of the first example in a function's help."""
    function = registry.entry(name).function
    for example in doctest.DocTestParser().get_examples(function.__doc__ or ""):
        for node in ast.walk(ast.parse(example.source)):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == function.__name__:
                cells = [ast.literal_eval(argument) for argument in node.args]
                cells = ["" if cell is None else [list(cell)] if isinstance(cell, tuple) else cell for cell in cells]
                return cells + [""] * (len(registry.spec(name).arguments) - len(cells))
    raise AssertionError(f"{name} has no example")


def values_in(argument: Argument) -> list[float]:
    """Values that the stated range allows, its ends among them."""
    low = -1e6 if argument.low is None else argument.low
    high = 1e6 if argument.high is None else argument.high
    ends = [low + (high - low) * part for part in (0.0, 1e-6, 1e-3, 0.1, 0.25, 0.5, 0.75, 0.9, 0.999, 1.0)]
    return [
        value
        for value in sorted({*ends, *GRID})
        if low <= value <= high
        and not (argument.open_low and value == low)
        and not (argument.open_high and value == high)
    ]


def numbers() -> list[tuple[str, int, Argument]]:
    found = []
    for name in registry.names():
        spec = registry.spec(name)
        found += [(name, i, a) for i, a in enumerate(spec.arguments) if a.kind in NUMBERS and not spec.variadic]
    return found


@each("name, place, argument", numbers())
def test_the_stated_range_is_the_one_kept(name: str, place: int, argument: Argument) -> None:
    cells = example_of(name)
    told = any(word in argument.meaning for word in BOUND_ELSEWHERE)
    for value in values_in(argument):
        reason = registry.why(name, *cells[:place], value, *cells[place + 1 :])
        if reason.startswith((f"{name}: {argument.name} must be ", f"{name}: {argument.name} cannot be ")):
            assert told or argument.name in SOLVED_FOR, f"{value:g}: {reason}"
    for end, outside in ((argument.low, -1.0), (argument.high, 1.0)):
        if end is not None:
            reason = registry.why(name, *cells[:place], end + outside * max(1.0, abs(end)), *cells[place + 1 :])
            assert reason.startswith(f"{name}: {argument.name} {argument.rule}")


UNITS = pint.get_application_registry().get()


def temperatures() -> list[tuple[str, int, Argument]]:
    return [one for one in numbers() if one[2].kind == "temperature"]


@each("name, place, argument", temperatures())
def test_a_limit_of_temperature_can_be_given_in_fahrenheit(name: str, place: int, argument: Argument) -> None:
    """As text, as a cell that reckons it over, and as a pint quantity: -2 °C is 28.4 °F, whose last digits are lost."""
    assert (argument.open_low, argument.open_high) == (False, False)
    cells = example_of(name)
    for limit in (argument.low, argument.high):
        if limit is not None:
            fahrenheit = limit * 1.8 + 32.0
            pint_ = UNITS.Quantity(fahrenheit, "degF").to("degC").magnitude
            for typed in (f"{fahrenheit:.6g} °F", (fahrenheit - 32.0) * 5.0 / 9.0, (fahrenheit - 32.0) / 1.8, pint_):
                reason = registry.why(name, *cells[:place], typed, *cells[place + 1 :])
                assert argument.rule not in reason, reason
