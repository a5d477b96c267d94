"""What a refusal tells a person to type is accepted when it is typed. Values: the refusals themselves, typed back."""

from __future__ import annotations

import random
import re
from functools import cache
from typing import Any

import pytest

from brinecalc import registry
from brinecalc.describe import NUMBERS
from tests.functions.test_ranges import example_of

UNITS = "%|g|kg|lb|oz|°C|°F|mm|in|h|mL|L|qt|gal|ppm"
FIGURE = rf"(-?\d[\d.]*(?:e[-+]?\d+)?(?:%| (?:{UNITS}))?)(?![\d.]*\d)"
TOLD = [
    re.compile(pattern)
    for pattern in (
        rf"(?:(\w+) of )?at (?:most|least) {FIGURE}",
        rf"at (?:most|least) \S+ \S+() / {FIGURE}",
        rf"(?:(\w+) of )?{FIGURE} or (?:more|less)",
        rf"write() {FIGURE}",
    )
]
"""Where a sentence tells a figure, and before it the word for another argument, where it means another."""
THE_LAWS_OWN = " exactly) for "
"""A ceiling as the law rounds it, told with its exact value; what to write comes after it, and is tried."""
GIVEN = re.compile(r', got (".*?"|[^;]*)(?=;|\.$)')

ALSO: dict[str, list[list[Any]]] = {
    "BRINE_INJECTION_STRENGTH": [[0.26, 2.0, "", ""]],  # the gain that it would take is beyond any
    "BRINE_EQUILIBRIUM_RESULT": [[2000, 1000, 45, 0.17541801332113388, "", 1e-9], [10, 11, 9, "", "", ""]],
    "BRINE_SALT": [[1000, 0.264, "solution", 0.98], [1000, 0.05, "solution", 1e-9]],
    "BRINE_UPTAKE": [["cucumber", 38, 3, 0.05, -2.5, "", "", "", "", ""]],
}
"""Calls that were once told what could not be typed."""


def calls_of(name: str) -> list[list[Any]]:
    """Calls like the function's first example, up to three of their numbers elsewhere, any of their choices."""
    chance, spec = random.Random(name), registry.spec(name)
    numbers = [(i, a) for i, a in enumerate(spec.arguments) if a.kind in NUMBERS]
    choices = [(i, a) for i, a in enumerate(spec.arguments) if a.kind == "choice"]
    example, made = example_of(name), [list(cells) for cells in ALSO.get(name, [])]
    for _ in range(150):
        cells = list(example)
        for i, argument in chance.sample(numbers, min(len(numbers), chance.choice((1, 2, 3)))):
            low, high = (1e-3, 100.0) if argument.kind == "share" else (0.1, 1000.0)
            cells[i] = chance.choice((low * (high / low) ** chance.random(), -high * chance.random(), 0.0))
        for i, argument in choices:
            cells[i] = chance.choice((*argument.choices, ""))
        made.append(cells)
    return made


@cache
def told(name: str) -> list[tuple[str, str, int, list[Any]]]:
    """Refusals of a function: the sentence, a figure it tells, its argument, and the call with it typed in."""
    names, found = [argument.name for argument in registry.spec(name).arguments], []
    for cells in calls_of(name):
        sentence = str(registry.why(name, *cells))
        blamed = re.match(rf"{name}: (\w+) (?:must|cannot) ", sentence)
        if blamed is None or blamed[1] not in names:
            continue
        said = GIVEN.sub("", sentence)
        said = said.partition(THE_LAWS_OWN)[2] if THE_LAWS_OWN in said else said
        for word, figure in (hit.groups() for pattern in TOLD for hit in pattern.finditer(said)):
            place = names.index(word if word in names else blamed[1])
            found.append((sentence, figure, place, [*cells[:place], figure, *cells[place + 1 :]]))
    return found


def rule_of(sentence: str) -> str:
    """What a sentence says must be, but for its figures and for what was given."""
    return re.sub(r"-?\d[\d.e+-]*", "#", GIVEN.sub("", sentence).partition(";")[0])


def with_numbers() -> list[str]:
    """The functions that take a number, of which a refusal may say what it should be."""
    specs = {name: registry.spec(name) for name in registry.names()}
    return [n for n, s in specs.items() if not s.variadic and any(a.kind in NUMBERS for a in s.arguments)]


@pytest.mark.parametrize("name", with_numbers())
def test_a_figure_told_in_a_refusal_passes_when_it_is_typed(name: str) -> None:
    """Law: typed back with its unit, it is not refused again by the same rule, nor by the range of its argument."""
    for sentence, figure, place, cells in told(name):
        again, argument = str(registry.why(name, *cells)), registry.spec(name).arguments[place]
        assert rule_of(again) != rule_of(sentence), f"{sentence} Typed {figure}: {again}"
        assert f"{argument.name} {argument.rule}" not in again, f"{sentence} Typed {figure}: {again}"


def test_most_functions_tell_figures() -> None:
    telling = [name for name in with_numbers() if told(name)]
    assert len(telling) > 0.7 * len(with_numbers())
