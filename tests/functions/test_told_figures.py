"""What a refusal tells a person to type is accepted when it is typed. Values: the refusals themselves, typed back."""

from __future__ import annotations

import random
import re
from functools import cache
from typing import Any

import pytest
from each import each

import brinecalc
from brinecalc import registry, units
from brinecalc.describe import DIMENSIONS, NUMBERS, Argument
from brinecalc.errors import BrineError
from tests.functions.test_ranges import example_of

UNITS = "|".join(sorted(map(re.escape, units.known("any")), key=len, reverse=True))
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
    """Calls like the function's first example, up to three of their numbers elsewhere, any of their choices.

    In every second call they are typed in other units.
    """
    chance, spec = random.Random(name), registry.spec(name)
    numbers = [(i, a) for i, a in enumerate(spec.arguments) if a.kind in NUMBERS]
    choices = [(i, a) for i, a in enumerate(spec.arguments) if a.kind == "choice"]
    example, made = example_of(name), [list(cells) for cells in ALSO.get(name, [])]
    for turn in range(150):
        cells = list(example)
        for i, argument in chance.sample(numbers, min(len(numbers), chance.choice((1, 2, 3)))):
            low, high = (1e-3, 100.0) if argument.kind == "share" else (0.1, 1000.0)
            cells[i] = chance.choice((low * (high / low) ** chance.random(), -high * chance.random(), 0.0))
        for i, argument in choices:
            cells[i] = chance.choice((*argument.choices, ""))
        made.append(
            [typed(cell, a, chance) for cell, a in zip(cells, spec.arguments, strict=True)] if turn % 2 else cells
        )
    return made


def typed(cell: Any, argument: Argument, chance: random.Random) -> Any:
    """A number as a person may type it, in some unit of its kind."""
    kind = DIMENSIONS.get(argument.kind, "")
    if not kind or not isinstance(cell, (int, float)):
        return cell
    unit = units.unit(chance.choice(units.known("volume" if kind == "water" else kind)))
    return f"{unit.from_base(cell):.6g} {unit.name}"


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


@each("name", with_numbers())
def test_a_figure_told_in_a_refusal_passes_when_it_is_typed(name: str) -> None:
    """Law: typed back with its unit, it is not refused again by the same rule, nor by the range of its argument."""
    for sentence, figure, place, cells in told(name):
        again, argument = str(registry.why(name, *cells)), registry.spec(name).arguments[place]
        assert rule_of(again) != rule_of(sentence), f"{sentence} Typed {figure}: {again}"
        assert f"{argument.name} {argument.rule}" not in again, f"{sentence} Typed {figure}: {again}"


def test_a_limit_is_told_in_the_unit_typed() -> None:
    """Values: the definitions of the units."""
    for cells, words in (
        (("DENSITY", 0.05, "200 °F"), "must be at least 32 °F / 0 °C and at most 104 °F / 40 °C"),
        (("RESCALE_HOURS", 12, "90 in", 40), "must be above 0 in and at most 78.74 in / 2000 mm"),
        (("RESCALE_HOURS", 12, "300 cm", 40), "must be above 0 cm and at most 200 cm,"),
        (("RESCALE_HOURS", "5000 day", 40, 40), "must be above 0 day and at most 4166 day / 100000 h"),
        (("STRENGTH", "1 lb", 1000), "must be at most 0.792 lb / 359.249 g for 2.205 lb / 1000 g of water"),
        (("STRENGTH", "1 kg", 1000), "must be at most 0.359249 kg for 1 kg of water"),
        (("STRENGTH", 400, "1 kg"), "must be at most 359.249 g for 1000 g of water"),
        (("STRENGTH", 50, "-1 gal"), "must be above 0 gal,"),
        (("FILL", "5 gal", "60 lb"), "must be below 39.4 lb / 17.8 kg for a vessel of 5 gal / 18.9 L"),
        (("SOAK_HOURS", "chicken breast", "6 x 4 x 90 in", "1%", "6%"), "at most 78.74 in / 2000 mm"),
        (
            ("SOAK_HOURS", "chicken breast", "2 in", "1%", "6%", 8),
            "above 41 °F / 5 °C for 4 h at most; brine at 41 °F / 5 °C",
        ),
    ):
        assert words in registry.why(*cells)
    with pytest.raises(BrineError, match='at most 104 °F / 40 °C, got "200 °F"'):
        brinecalc.density(0.05, "200 °F")


def test_most_functions_tell_figures() -> None:
    telling = [name for name in with_numbers() if told(name)]
    assert len(telling) > 0.7 * len(with_numbers())
