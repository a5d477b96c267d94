"""Worksheet functions of strength, called with cells: values, bad input, ranges, reasons."""

from __future__ import annotations

import pytest
from each import each
from hypothesis import given
from hypothesis import strategies as st

from brinecalc import registry
from brinecalc.registry import call, why
from tests.published import rows

FAMILY = """
    SALT STRENGTH CONVERT DENSITY FREEZING SATURATION METER FILL TOP_UP DILUTE CONCENTRATE
""".split()


def test_the_family_is_complete_and_in_order():
    names = [n for n in registry.names() if registry.spec(n).family == "Strength"]
    assert names == [f"BRINE_{n}" for n in FAMILY]


@each(
    ("name", "cells", "value"),
    [
        ("SALT", (1000, 0.05), 50),  # definition: s·W
        ("SALT", (1000, "5%"), 50),
        ("SALT", ("1 kg", "5 %", "water"), 50),
        ("SALT", (1000, 0.05, "solution"), 52.6315789473684),  # definition: s·W/(1 − s)
        ("SALT", (1000, 0.05, "", 0.98), 51.0204081632653),  # definition: s·W/p
        ("SALT", (1, 0.05), 0.05),  # kilograms in, kilograms out
        ("SALT", ("1 gal", 0.05), 188.931),  # 3785.411784 mL at 0.998207 g/mL
        ("STRENGTH", (50, 1000), 0.05),
        ("STRENGTH", (50, 950, "solution"), 0.05),
        ("STRENGTH", (50, 950, "solution", 0.9), 0.045),
        ("CONVERT", (40, "salometer", "solution"), 0.10558),  # definition: 100 degrees is 26.395 %
        ("CONVERT", ("5%", "water", "solution"), 0.05 / 1.05),
        ("CONVERT", (0, "salometer", "sg"), 1.0),
        ("DENSITY", (0.05, 20, "solution"), 1.034),  # CRC, 5 % at 20 °C
        ("DENSITY", (0.1, "50 °F", "solution"), 1.07419),  # Kaufmann, 10 % at 10 °C
        ("DENSITY", (0,), 0.99823),  # Kaufmann, water at 20 °C
        ("FREEZING", (0.10, "solution"), -6.56),  # CRC
        ("FREEZING", (0,), 0.0),
        ("SATURATION", (), 0.35925),  # Kaufmann, 26.43 % at 20 °C
        ("SATURATION", (0, "solution"), 0.2634),  # Kaufmann
        ("TOP_UP", (20000, "4.2%", "5%"), 160),
        ("DILUTE", (20000, "6%", "5%"), 4000),
        ("FILL", ("10 L", "4 kg", 0), (10000 - 4000 / 1.05) * 0.998207),
        ("CONCENTRATE", ("20 kg", "5%", "20%", "solution"), 5000),  # definition: 1 kg of salt in both
        ("CONCENTRATE", ("21 kg", "5%", "20%"), 6000),  # definition: 1 kg of salt in 20 kg of water, in 5 kg of it
        ("CONCENTRATE", (1, 0.1, 0.1), 1),  # definition: nothing to thin
    ],
)
def test_values_are_those_worked_out_by_hand(name, cells, value):
    assert call(name, *cells) == pytest.approx(value, rel=1e-4, abs=1e-9)
    assert why(name, *cells) == "ok"


@each(
    ("cells", "share", "within"),
    [
        ((1.0340 / 0.99904, "hydrometer", 20), 0.05, 0.0001),  # CRC density of 5 % at 20 °C
        ((1.3505, "refractive index"), 0.10, 0.0003),  # CRC index of 10 %; a last digit is 0.06 % salt
        (("5%", "salt meter"), 0.05, 1e-12),  # by definition per cent of the solution
        ((226.0, "conductivity"), 0.2643, 1e-9),  # conductivity standard: saturated at 20 °C
        ((177.9, "conductivity", 10), 0.2643, 1e-9),  # the same standard at 10 °C
        ((39.78, "SALOMETER", "38 °F"), 0.10, 0.0001),  # reads 1.9 degrees high in 10 % at 38 °F
        ((37.89, "salometer 38F", "38 °F"), 0.10, 0.0001),  # by definition 100 degrees is 26.395 %
        (("10 %", "brix"), 0.0845, 0.0005),  # CRC: 10 % sucrose has the index of 8.4 to 8.5 % salt
        ((1.0178 / 0.99904, "hydrometer", 20), 0.0275, 0.0001),  # CRC: density of 2.5 and 3 % salt
    ],
)
def test_meter_gives_published_strengths(cells, share, within):
    reading, instrument, temperature, *_ = (*cells, "")
    assert call("METER", reading, instrument, temperature, "solution") == pytest.approx(share, abs=within)
    on_water = call("METER", reading, instrument, temperature)
    assert on_water / (1 + on_water) == pytest.approx(share, abs=within)


@each("row", rows("nacl_salometer"))
def test_convert_gives_the_salometer_table(row):
    """Salometer table computed from the Kaufmann/CRC densities with other code."""
    assert call("CONVERT", row["degrees"], "salometer", "sg") == pytest.approx(row["sg"], abs=0.00006)
    assert call("CONVERT", row["degrees"], "salometer", "baume") == pytest.approx(row["baume"], abs=0.006)


@each(
    ("name", "cells", "error", "words"),
    [
        ("SALT", ("2 gal", 5), "#NUM!", ["strength", "35.92 %", "5", "write 5%"]),
        ("SALT", ("2 gal", 0.4), "#NUM!", ["strength", "35.92 %", "0.4"]),
        ("SALT", (1000, 0.3, "solution"), "#NUM!", ["strength", "26.43 %", "0.3"]),
        ("SALT", (1000, "26.4%", "solution", "98%"), "#NUM!", ["strength", "at most 26.2", "98 % purity"]),
        ("SALT", (1000, "26%", "solution", "50%"), "#NUM!", ["strength", "at most 20.9048 %", "50 % purity"]),
        ("SALT", ("1,000 g", 0.05), "#VALUE!", ["water", "1,000 g", "1000 g"]),
        ("SALT", (1000, "1000 g"), "#VALUE!", ["strength", "1000 g", "5%"]),
        ("SALT", (None, 0.05), "#NUM!", ["water", "above 0"]),
        ("SALT", (1000, None), "#NUM!", ["strength", "above 0", "blank"]),
        ("SALT", (1000, -0.05), "#NUM!", ["strength", "above 0"]),
        ("SALT", (1000, 0.05, "brine"), "#N/A", ["basis", "water", "solution"]),
        ("SALT", (1000, 0.05, "water", 98), "#NUM!", ["purity", "98%"]),
        ("SALT", (1000, 0.05, "water", 0), "#NUM!", ["purity", "above 0"]),
        ("SALT", (1000,), "#VALUE!", ["strength", "missing"]),
        ("SALT", (1000, True), "#VALUE!", ["strength", "TRUE"]),
        ("SALT", ("#N/A", 0.05), "#N/A", ["water", "#N/A"]),
        ("STRENGTH", (400, 1000), "#NUM!", ["salt", "359.2", "400"]),
        ("STRENGTH", (0, 1000), "#NUM!", ["salt", "above 0"]),
        ("STRENGTH", (50, "a lot"), "#VALUE!", ["water", "a lot"]),
        ("CONVERT", (5, "water", "sg"), "#NUM!", ["value", "35.92 %", "write 5%"]),
        ("CONVERT", (120, "salometer", "water"), "#NUM!", ["value", "100.13", "120"]),
        ("CONVERT", (1.3, "sg", "water"), "#NUM!", ["value", "1.2044", "1.3"]),
        ("CONVERT", (-1, "baume", "water"), "#NUM!", ["value", "24.6", "-1"]),
        ("CONVERT", ("40 g", "salometer", "water"), "#VALUE!", ["value", "40 g", "without a unit"]),
        ("CONVERT", (40, "twaddell", "water"), "#N/A", ["from_scale", "salometer"]),
        ("CONVERT", (40, "salometer", ""), "#VALUE!", ["to_scale", "missing"]),
        ("DENSITY", (0.05, 41), "#NUM!", ["temperature", "40 °C", "41"]),
        ("DENSITY", (0.05, "a warm day"), "#VALUE!", ["temperature"]),
        ("DENSITY", (0.3592, 0), "#NUM!", ["strength", "35.75 %", "0 °C"]),
        ("DENSITY", (5,), "#NUM!", ["strength", "write 5%"]),
        ("FREEZING", (0.31,), "#NUM!", ["strength", "30.37 %", "-21.1 °C"]),
        ("FREEZING", (-0.01,), "#NUM!", ["strength", "at least 0"]),
        ("SATURATION", (101,), "#NUM!", ["temperature", "100 °C"]),
        ("SATURATION", (-1,), "#NUM!", ["temperature", "0 °C"]),
        ("METER", (None, "salometer"), "#NUM!", ["reading", "above 0", "blank"]),
        ("METER", (5, "salt meter"), "#NUM!", ["reading", "26.43 %", "write 5%"]),
        ("METER", (120, "salometer"), "#NUM!", ["reading", "100.13", "120"]),
        ("METER", (0.9, "hydrometer"), "#NUM!", ["reading", "1.2044", "0.9"]),
        ("METER", (300, "conductivity"), "#NUM!", ["reading", "226", "300"]),
        ("METER", (70, "conductivity", 36), "#NUM!", ["temperature", "35 °C", "36"]),
        ("METER", (20, "salometer", 4, "", 0.5), "#NUM!", ["sugar", "25 %", "0.5"]),
        ("METER", (1.01, "hydrometer", 20, "", "5%"), "#NUM!", ["reading", "1.01", "5 % sugar"]),
        ("METER", (20, "thermometer"), "#N/A", ["instrument", "salometer"]),
        ("METER", ("20 g", "salometer"), "#VALUE!", ["reading", "20 g"]),
        ("FILL", ("1 qt", "4 kg"), "#NUM!", ["product_weight", "894 g", "4 kg"]),
        ("FILL", ("1 kg", 100), "#VALUE!", ["vessel", "1 kg"]),
        ("FILL", (1000, 0), "#NUM!", ["product_weight", "above 0"]),
        ("FILL", (1000, 100, 1), "#NUM!", ["headroom", "100 %"]),
        ("TOP_UP", (1000, 0.06, 0.05), "#NUM!", ["reading", "0.06", "200 g / 7.05 oz of water", "BRINE_DILUTE"]),
        ("TOP_UP", (1000, None, 0.05), "#NUM!", ["reading", "above 0"]),
        ("TOP_UP", (1000, 0.04, 5), "#NUM!", ["strength", "write 5%"]),
        ("TOP_UP", (1000, 4, 0.05), "#NUM!", ["reading", "write 4%"]),
        ("DILUTE", (1000, 0.04, 0.05), "#NUM!", ["reading", "0.04", "10 g / 0.353 oz of salt", "BRINE_TOP_UP"]),
        ("DILUTE", ("big tub", 0.06, 0.05), "#VALUE!", ["water", "big tub"]),
        ("CONCENTRATE", (1000, 0.05, 0.04), "#NUM!", ["concentrate", "0.04", "5 %", "stronger concentrate"]),
        ("CONCENTRATE", (1000, 0.05, 20), "#NUM!", ["concentrate", "write 20%"]),
        ("CONCENTRATE", (1000, 0.05, 0.3, "solution"), "#NUM!", ["concentrate", "26.43 %", "no more salt dissolves"]),
        ("CONCENTRATE", (1000, 0.05, None), "#NUM!", ["concentrate", "above 0"]),
        ("CONCENTRATE", ("2 L", 0.05, 0.2), "#VALUE!", ["brine", "2 L"]),
    ],
)
def test_bad_input_is_an_error_and_its_reason_says_what_to_type(name, cells, error, words):
    assert call(name, *cells) == error
    reason = why(name, *cells)
    assert reason.startswith(f"BRINE_{name}: ")
    for word in words:
        assert word in reason, reason


@each(
    ("name", "cells", "index"),
    [
        ("SALT", (1000, 0.05), 0),
        ("STRENGTH", (50, 1000), 0),
        ("CONVERT", (40, "salometer", "water"), 0),
        ("DENSITY", (0.05, 20), 1),
        ("FREEZING", (0.05,), 0),
        ("SATURATION", (20,), 0),
        ("METER", (20, "salometer"), 0),
        ("FILL", (10000, 4000), 1),
        ("TOP_UP", (1000, 0.04, 0.05), 1),
        ("DILUTE", (1000, 0.06, 0.05), 1),
        ("CONCENTRATE", (1000, 0.05, 0.2), 1),
    ],
)
def test_a_column_is_answered_cell_by_cell_and_one_bad_cell_gives_one_error(name, cells, index):
    column = [[cells[index]], ["nonsense"], [cells[index]]]
    answer = call(name, *cells[:index], column, *cells[index + 1 :])
    single = call(name, *cells)
    assert answer == [[single], ["#VALUE!"], [single]]


@given(st.floats(0.001, 1e6), st.floats(0.001, 0.35))
def test_salt_and_strength_undo_each_other_through_cells(water, strength):
    assert call("STRENGTH", call("SALT", water, strength), water) == pytest.approx(strength, rel=1e-12)


@given(st.floats(0.001, 0.3), st.sampled_from(["g", "kg", "oz", "lb"]))
def test_units_change_nothing_but_the_text(strength, unit):
    grams = call("UNIT", 3, unit, "g")
    assert call("SALT", f"3 {unit}", strength) == pytest.approx(call("SALT", grams, strength), rel=1e-12)


def test_fahrenheit_and_celsius_agree():
    assert call("DENSITY", 0.05, "41 °F") == pytest.approx(call("DENSITY", 0.05, 5), rel=1e-12)


def test_an_instrument_read_at_its_own_temperature_needs_none():
    assert call("METER", 20, "salometer") == pytest.approx(call("METER", 20, "salometer", "60 °F"), rel=1e-12)
    assert call("METER", 20, "salometer 38F") == pytest.approx(call("METER", 20, "salometer 38F", "38 °F"), rel=1e-12)
    assert call("METER", 20, "salometer") == pytest.approx(call("CONVERT", 20, "salometer", "water"), rel=1e-12)


def test_a_saturated_brine_can_be_weighed_out():
    for basis in ("water", "solution"):
        salt = call("SALT", 1000, call("SATURATION", 20, basis), basis)
        assert call("STRENGTH", salt, 1000, basis) == pytest.approx(call("SATURATION", 20, basis), rel=1e-12)


@each(
    ("said", "meant"),
    [("°Bé", "baume"), ("Bé", "baume"), ("be", "baume"), ("degrees Baumé", "baume"), ("salinometer", "salometer"),
     ("specific gravity", "sg")],
)  # fmt: skip
def test_a_scale_may_be_called_what_the_trade_calls_it(said, meant):
    value = 1.05 if meant == "sg" else 10
    assert call("CONVERT", value, said, "water") == call("CONVERT", value, meant, "water")


@pytest.mark.parametrize(
    ("said", "meant"), [("sg", "hydrometer"), ("specific gravity", "hydrometer"), ("nD", "refractive index")]
)
def test_an_instrument_may_be_called_by_its_scale(said, meant):
    value = 1.05 if meant == "hydrometer" else 1.35
    assert call("METER", value, said) == call("METER", value, meant)


def test_a_refractometer_has_two_scales():
    assert why("METER", 5, "refractometer").endswith('what does its scale say, "brix" or "refractive index"?')


def test_what_was_typed_in_per_cent_is_not_told_to_be_typed_in_per_cent():
    assert "write 2%" in why("STRENGTH_FOR", "chicken breast", 25, 2, 4)
    assert "write 2%" not in why("STRENGTH_FOR", "chicken breast", 25, "200 %", 4)


def test_what_was_typed_with_its_unit_is_shown_how_to_be_typed_with_one():
    assert why("SALT", "-4 kg", 0.05).endswith('got "-4 kg"; write it as 2 L, 1 gal or 5 kg.')
    assert why("SALT", -4, 0.05).endswith("got -4 g; for example 1000.")
