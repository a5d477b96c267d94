"""Conversion in a cell. Values: the legal definitions of the units (see tests/tables/test_units.py)."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry


@each(
    ("arguments", "value"),
    [
        ((2, "gal", "L"), 7.570823568),
        ((1, "lb", "g"), 453.59237),
        ((1, "imp gal", "L"), 4.54609),
        ((1, "cup", "tbsp"), 16),
        ((1, "tbsp", "tsp"), 3),
        ((212, "F", "C"), 100),
        ((-40, "°C", "°F"), -40),
        ((0, "°C", "K"), 273.15),
        ((1.5, "in", "mm"), 38.1),
        ((90, "min", "h"), 1.5),
        ((5, "%", "ppm"), 50000),
        ((2, "dozen", "each"), 24),
        (("3 lb 4 oz", "", "oz"), 52),
        (("3 lb 4 oz", "lb", "oz"), 52),
        (("38 °F", "", "°C"), 10 / 3),
        (("2,5", "kg", "g"), 2500),
        (("1 1/2 in",), 38.1),
        (("2 kg", "", ""), 2000),
        ((None, "lb", "g"), 0),
        ((5, "kg", "kg"), 5),
    ],
)
def test_a_unit_is_turned_into_another(arguments, value):
    assert registry.call("BRINE_UNIT", *arguments) == pytest.approx(value, rel=1e-12)
    assert registry.why("BRINE_UNIT", *arguments) == "ok"


@each(
    ("arguments", "error", "parts"),
    [
        ((2, "gal", "kg"), "#VALUE!", ("to_unit", '"kg"', "BRINE_WEIGHT")),
        ((2, "mm", "kg"), "#VALUE!", ("to_unit", "a length", "one kind")),
        ((2, "", "kg"), "#VALUE!", ("from_unit is missing",)),
        (("2 lb", "kg", "g"), "#VALUE!", ("from_unit must be empty", '""')),
        ((2, "furlong", "m"), "#VALUE!", ("from_unit must be a unit", '"furlong"')),
        ((2, "lb", "t"), "#VALUE!", ("to_unit must be a unit", "tonne")),
        (("1,000 g", "", "kg"), "#VALUE!", ("value", '"1,000 g"', '"1000 g"')),
        (("9" * 1_000_000, "kg", "g"), "#VALUE!", ("value", "too long")),
        ((2, "g" * 1_000_000, "g"), "#VALUE!", ("from_unit must be a unit",)),
        ((True, "kg", "g"), "#VALUE!", ("value", "TRUE")),
        ((1e308, "kg", "g"), "#NUM!", ("finite",)),
        (("", "kg", "g"), "#VALUE!", ("value is missing",)),
        (("#NAME?", "kg", "g"), "#NAME?", ("#NAME?",)),
    ],
)
def test_unit_says_what_is_wrong(arguments, error, parts):
    assert registry.call("BRINE_UNIT", *arguments) == error
    reason = registry.why("BRINE_UNIT", *arguments)
    assert all(part in reason for part in parts), reason


def test_unit_goes_over_a_range():
    assert registry.call("BRINE_UNIT", [[1, 2], ["3 lb", "x"]], "lb", "lb") == [[1.0, 2.0], [3.0, "#VALUE!"]]


@pytest.mark.parametrize(
    ("cells", "known"),
    [
        ((5, "mm", "zoll"), "mm, cm, m, in, ft."),
        ((5, "h", "fortnight"), "h, min, s, day, week."),
        (("4 °C", "", "zoll"), "°C, °F, K."),
    ],
)
def test_an_unknown_unit_is_answered_with_those_of_the_same_kind(cells, known):
    assert registry.why("UNIT", *cells).endswith(f"the units known are {known}")
    assert "°C, °F, K" in registry.why("UNIT", 5, "zzz")
