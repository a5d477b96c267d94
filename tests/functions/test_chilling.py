"""BRINE_ICE called with cells: values, bad input, ranges, reasons."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.registry import call, why


def test_ice_for_plain_water_is_a_plain_heat_balance():
    """(M − m)·4.1848·56 = m·(333.42 + 4.2·4): by hand; 4.1848 kJ/(kg K) is water at 20 °C by Laliberté's formula."""
    heat = 4.1848 * 56
    assert call("ICE", "10 kg", 60, 4, 0) == pytest.approx(10000 * heat / (heat + 333.42 + 16.8), rel=1e-9)


def test_ice_is_near_the_worked_load_at_constant_specific_heat():
    """3.77 kg held back from a finished 10 kg at 3.9 kJ/(kg K), ice at −5 °C: worked by hand."""
    assert call("ICE", 10000, 60, 4, 0.05, -5) == pytest.approx(3770, rel=0.02)


def test_left_out_arguments_have_their_defaults():
    assert call("ICE", 10000, 60, 4) == call("ICE", 10000, 60, 4, "5%", 0)
    assert call("ICE", 10000, 60, 4, "", "") == call("ICE", 10000, 60, 4, 0.05)


def test_units_change_nothing_but_the_text():
    assert call("ICE", "10 kg", "140 °F", "39.2 °F", 0.05, "23 °F") == pytest.approx(
        call("ICE", 10000, 60, 4, 0.05, -5), rel=1e-9
    )
    assert call("ICE", 10, 60, 4) == pytest.approx(call("ICE", 10000, 60, 4) / 1000, rel=1e-12)


@each(
    ("cells", "error", "words"),
    [
        ((None, 60, 4), "#NUM!", ["brine", "above 0"]),
        ((1000, 4, 60), "#NUM!", ["to_temperature", "at most", "4 °C"]),
        ((1000, 60, -5), "#NUM!", ["to_temperature", "-2.89 °C", "freezes"]),
        ((1000, 60, -1, 0), "#NUM!", ["to_temperature", "0 °C", "freezes"]),
        ((1000, 95, 2, 0.25), "#NUM!", ["to_temperature", "43.98 °C", "dissolve the salt"]),
        ((1000, 60, 4, 5), "#NUM!", ["strength", "write 5%"]),
        ((1000, 60, 4, 0.4), "#NUM!", ["strength", "35.92 %"]),
        ((1000, 60, 4, 0.05, 5), "#NUM!", ["ice_temperature", "0 °C"]),
        ((1000, 120, 4), "#NUM!", ["from_temperature", "100 °C"]),
        (("a bucket", 60, 4), "#VALUE!", ["brine", "a bucket"]),
        ((1000, "hot", 4), "#VALUE!", ["from_temperature", "hot"]),
        ((1000, 60), "#VALUE!", ["to_temperature", "missing"]),
        ((1000, "#VALUE!", 4), "#VALUE!", ["from_temperature"]),
    ],
)
def test_bad_input_is_an_error_and_its_reason_says_what_to_type(cells, error, words):
    assert call("ICE", *cells) == error
    reason = why("ICE", *cells)
    assert reason.startswith("BRINE_ICE: ")
    for word in words:
        assert word in reason, reason


def test_a_column_of_temperatures_is_answered_cell_by_cell():
    answer = call("ICE", 1000, [[60], [20], [0]], 4)
    assert answer == [[call("ICE", 1000, 60, 4)], [call("ICE", 1000, 20, 4)], ["#NUM!"]]


@each(
    ("cells", "told"),
    [
        ((10000, 59, 39), ["39 °C / 102.2 °F", "15.56 °C / 60 °F", '"39 °F"', "smoked fish"]),
        ((10000, 60, "60.5 °F"), ["15.83 °C"]),
        ((10000, 60, "60 °F"), []),
        ((10000, 60, 4), []),
    ],
)
def test_a_brine_that_stays_too_warm_for_raw_food_is_told(cells: tuple[object, ...], told: list[str]) -> None:
    """60 °F is where the rules for smoked fish have a brine start, as in limits.csv."""
    assert isinstance(call("ICE", *cells), float)
    said = why("ICE", *cells)
    assert said.startswith("ok, but ") if told else said == "ok"
    assert all(part in said for part in told), said
