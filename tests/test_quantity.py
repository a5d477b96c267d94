"""Reading numbers and texts as quantities, and writing them back. Sizes of units: pint, or the definition named."""

from __future__ import annotations

import math

import pint
import pytest
from each import each
from hypothesis import given
from hypothesis import strategies as st

from brinecalc import quantity, units
from brinecalc.errors import BrineError, OutOfRange, Unreadable
from brinecalc.functions.units import unit
from brinecalc.tables import load

REGISTRY = pint.get_application_registry().get()
BASES = {
    "mass": "gram",
    "length": "millimeter",
    "time": "hour",
    "temperature": "degree_Celsius",
    "volume": "milliliter",
    "share": "dimensionless",
    "count": "count",
}
UNITS = {row["name"]: row for row in load.rows("units")}
DIMENSIONS = ("mass", "water", "length", "time", "temperature", "volume", "share", "count")


def by_pint(value: float, name: str) -> float:
    """A value of one of our units in the base unit, worked out by pint alone."""
    row = UNITS[name]
    number, _, unit = row["pint"].rpartition(" * ")
    return REGISTRY.Quantity(value * float(number or 1), unit).to(BASES[row["dimension"]]).magnitude


@each(
    ("text", "dimension", "value", "unit"),
    [
        ("2.5 kg", "mass", 2.5, "kg"),
        ("2,5 kg", "mass", 2.5, "kg"),
        ("0,125 kg", "mass", 0.125, "kg"),
        ("1234,567 g", "mass", 1234.567, "g"),
        ("12oz", "mass", 12, "oz"),
        ("5 lbs.", "mass", 5, "lb"),
        ("5 Pounds", "mass", 5, "lb"),
        ("1e3 g", "mass", 1000, "g"),
        ("2,5E-05 kg", "mass", 2.5e-5, "kg"),
        ("1 1/2 in", "length", 1.5, "in"),
        ("1-1/2 in", "length", 1.5, "in"),
        ("1½ in", "length", 1.5, "in"),
        ("1 ½\u201d", "length", 1.5, "in"),
        ("3⁄4 in", "length", 0.75, "in"),
        ("⅜ inch", "length", 0.375, "in"),
        (".5 in", "length", 0.5, "in"),
        ("1/2 cup", "volume", 0.5, "cup"),
        ("8 fl. oz.", "volume", 8, "fl oz"),
        ("2 Tbsp", "volume", 2, "tbsp"),
        ("3 tsp", "volume", 3, "tsp"),
        ("2 imp gal", "volume", 2, "imp gal"),
        ("1 metric cup", "volume", 1, "metric cup"),
        ("3 dL", "volume", 3, "dL"),
        ("1 qt", "volume", 1, "qt"),
        ("38 °F", "temperature", 38, "°F"),
        ("38F", "temperature", 38, "°F"),
        ("38 degF", "temperature", 38, "°F"),
        ("4°C", "temperature", 4, "°C"),
        ("4 C", "temperature", 4, "°C"),
        ("4 ºC", "temperature", 4, "°C"),
        ("-5 °C", "temperature", -5, "°C"),
        ("\u22125 °C", "temperature", -5, "°C"),
        ("277.15 K", "temperature", 277.15, "K"),
        ("90 min", "time", 90, "min"),
        ("2 days", "time", 2, "day"),
        ("36 hr", "time", 36, "h"),
        ("1 week", "time", 1, "week"),
        ("5%", "share", 5, "%"),
        ("5,5 %", "share", 5.5, "%"),
        ("20 g/kg", "share", 20, "g/kg"),
        ("2 dozen", "count", 2, "dozen"),
        ("2\u00a0kg", "mass", 2, "kg"),
        ("2\u202fkg", "mass", 2, "kg"),
        ("  2   kg ", "mass", 2, "kg"),
    ],
)
def test_text_with_one_unit_is_what_pint_makes_of_it(text, dimension, value, unit):
    assert quantity.read(text, dimension) == pytest.approx(by_pint(value, unit), rel=1e-12)
    assert quantity.split(text) == (quantity.read(text, dimension), dimension)


@each(
    ("text", "dimension", "parts"),
    [
        ("3 lb 4 oz", "mass", ((3, "lb"), (4, "oz"))),
        ("3 lb, 4 oz", "mass", ((3, "lb"), (4, "oz"))),
        ("3 pounds and 4 ounces", "mass", ((3, "lb"), (4, "oz"))),
        ("3 lbs. 4 1/2 oz.", "mass", ((3, "lb"), (4.5, "oz"))),
        ("2 ft 3 in", "length", ((2, "ft"), (3, "in"))),
        ("2'3\"", "length", ((2, "ft"), (3, "in"))),
        ("1 h 30 min", "time", ((1, "h"), (30, "min"))),
        ("2 days 4 hours 5 min", "time", ((2, "day"), (4, "h"), (5, "min"))),
        ("1 gal 2 qt", "volume", ((1, "gal"), (2, "qt"))),
    ],
)
def test_text_with_several_units_is_their_sum_in_pint(text, dimension, parts):
    assert quantity.read(text, dimension) == pytest.approx(sum(by_pint(*part) for part in parts), rel=1e-12)


def test_a_minus_holds_for_all_parts():
    assert quantity.read("-2 ft 3 in", "length") == -quantity.read("2 ft 3 in", "length")


@each(
    ("name", "base"),
    # exact definitions: NIST Handbook 44 (2023), Appendix C, General Tables of Units of Measurement, from memory;
    # the imperial gallon: United Kingdom Units of Measurement Regulations 1995, from memory
    [
        ("lb", 453.59237),
        ("oz", 28.349523125),
        ("in", 25.4),
        ("ft", 304.8),
        ("gal", 3785.411784),
        ("cup", 236.5882365),
        ("fl oz", 29.5735295625),
        ("tbsp", 14.78676478125),
        ("tsp", 4.92892159375),
        ("imp gal", 4546.09),
    ],
)
def test_units_have_their_legal_size(name, base):
    assert units.unit(name).to_base(1.0) == base


def test_a_percentage_in_text_is_the_very_float_a_percent_cell_holds():
    assert [percent for percent in range(1, 100) if quantity.read(f"{percent}%", "share") != percent / 100] == []


@pytest.mark.parametrize("text", ["2 L", "2000 mL", "20 dL", "2 litres"])
def test_water_by_volume_weighs_0_998207_g_per_ml(text):
    # density of water at 20 °C, Kaufmann 1960 / CRC: 0.99823; the contract of the functions fixes 0.998207
    assert quantity.read(text, "water") == pytest.approx(2000 * 0.998207, rel=1e-15)
    assert quantity.read(text, "volume") == 2000


def test_water_by_mass_is_that_mass():
    assert quantity.read("2 kg", "water") == 2000.0


@each("dimension", DIMENSIONS)
@each("cell", [5, 5.0, "5", " 5 ", "5.0", "5,0", "5e0", "1/2"])
def test_a_number_alone_is_in_the_base_unit(cell, dimension):
    assert quantity.read(cell, dimension) == (0.5 if cell == "1/2" else 5.0)


@each("cell", [True, False, None, [1.0], (), {}, b"5 g", object(), 5j])
def test_what_is_no_number_and_no_text_is_unreadable(cell):
    with pytest.raises(Unreadable):
        quantity.read(cell, "mass")


@pytest.mark.parametrize("cell", [math.nan, math.inf, -math.inf, 10**400])
def test_numbers_must_be_finite(cell):
    with pytest.raises(OutOfRange):
        quantity.read(cell, "mass")


@pytest.mark.parametrize("cell", ["5 kg", "5%", "5 each", "$5"])
def test_a_plain_number_takes_no_unit(cell):
    assert quantity.read("12,50", "number") == 12.5
    with pytest.raises(Unreadable):
        quantity.read(cell, "number")


@each(
    ("value", "dimension", "shown"),
    [
        (12.5, "mass", "12.5 g"),
        (0.05, "share", "5 %"),
        (0.0125, "share", "1.25 %"),
        (4.0, "temperature", "4 °C"),
        (12345678.0, "mass", "12345700 g"),
        (0.5, "time", "0.5 h"),
        (25.4, "length", "25.4 mm"),
        (1996.414, "water", "1996.41 g"),
        (7.0, "count", "7"),
        (1e-07, "mass", "1e-07 g"),
    ],
)
def test_reasons_show_six_digits_and_the_unit(value, dimension, shown):
    assert quantity.show(value, dimension) == shown


@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(DIMENSIONS))
def test_what_is_shown_can_be_read_again_to_six_digits(value, dimension):
    if dimension != "share" or abs(value) < 1e306:
        assert quantity.read(quantity.show(value, dimension), dimension) == pytest.approx(value, rel=5.1e-6, abs=1e-300)


@given(st.floats(min_value=-1e12, max_value=1e12), st.sampled_from(sorted(UNITS.keys() - {"1"})))
def test_every_unit_reads_as_pint_reads_it(value, name):
    text = f"{value!r} {name}"
    expected = by_pint(float(repr(value)), name)
    least = 1e-9 if "°" in name or name == "K" else 1e-300
    assert quantity.split(text)[0] == pytest.approx(expected, rel=1e-12, abs=least)
    assert quantity.split(text)[1] == UNITS[name]["dimension"]


@given(st.floats(min_value=1e-6, max_value=1e9), st.sampled_from(sorted(UNITS)), st.sampled_from(sorted(UNITS)))
def test_converting_there_and_back_changes_nothing(value, one, other):
    if UNITS[one]["dimension"] == UNITS[other]["dimension"]:
        back = unit(unit(value, one, other), other, one)
        assert back == pytest.approx(value, rel=1e-12, abs=1e-12 if UNITS[one]["dimension"] != "temperature" else 1e-6)
    else:
        with pytest.raises(Unreadable, match="same kind"):
            unit(value, one, other)


@given(st.fractions(min_value=0, max_value=99, max_denominator=64))
def test_mixed_fractions_are_their_value(number):
    whole, rest = divmod(number.numerator, number.denominator)
    text = f"{whole} {rest}/{number.denominator} in" if rest else f"{whole} in"
    assert quantity.read(text, "length") == pytest.approx(float(number) * 25.4, rel=1e-12)


LETTERS = st.text(alphabet="0123456789.,/ -+eE½⅓gkmlbozcuptsin°CF%'\"T#x\u00a0\t", max_size=70)


@given(st.floats(-60, 150))
def test_a_lower_limit_as_it_is_written_is_itself_allowed(limit):
    """Law: either scale, typed back, is not below the limit, and less than a hundredth above it."""
    for written, hundredth in zip(quantity.degrees_up(limit).split(" / "), (0.01, 0.01 / 1.8), strict=True):
        assert -1e-12 <= quantity.read(written, "temperature") - limit < hundredth + 1e-12


def test_a_lower_limit_ends_in_no_noughts():
    assert quantity.degrees_up(-0.001) == "0 °C / 32 °F"
    assert quantity.degrees_up(-2.8968) == "-2.89 °C / 26.79 °F"


def answer(text: str, dimension: str) -> "float | BrineError":
    """The value, or our own error; any other exception fails the test."""
    try:
        return quantity.read(text, dimension)
    except BrineError as error:
        return error


@given(st.text(max_size=80) | LETTERS, st.sampled_from(DIMENSIONS))
def test_no_text_whatever_gives_anything_but_a_finite_number_or_our_own_error(text, dimension):
    given_back = answer(text, dimension)
    if isinstance(given_back, BrineError):
        assert given_back.cell in ("#VALUE!", "#NUM!")
        assert given_back.sentence().endswith((".", "?", "!"))
    else:
        assert math.isfinite(given_back)


@given(LETTERS, st.sampled_from(DIMENSIONS))
def test_reading_twice_gives_the_same(text, dimension):
    assert str(answer(text, dimension)) == str(answer(text, dimension))


def test_the_memory_of_texts_is_bounded():
    for number in range(5000):
        quantity.read(f"{number} g", "mass")
    assert len(quantity._read) <= quantity._MEMORY
