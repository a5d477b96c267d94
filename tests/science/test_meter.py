"""Instruments: published readings forward, round trips back, temperature and sugar against tables."""

from __future__ import annotations

import pytest
from each import each
from hypothesis import given
from hypothesis import strategies as st
from iapws._iapws import _Refractive

from brinecalc.errors import Impossible, OutOfRange
from brinecalc.science import meter, scales, solution, sweetened
from tests.published import rows
from tests.readings import expected_reading

SALT, SUGAR = rows("crc_nacl"), rows("crc_sucrose")
SATURATED = rows("nacl_conductivity", percent="saturated")
OTHER_STRENGTHS = [row for row in rows("nacl_conductivity") if row["percent"] != "saturated"]
instruments = st.sampled_from(list(meter.INSTRUMENTS))
strengths = st.floats(0.0001, 0.355)
celsius = st.floats(0.0, 35.0)
sugars = st.one_of(st.just(0.0), st.floats(0.0, sweetened.MOST_SUGAR))


def percent(row):
    return f"{row['percent']} %"


@each("row", SALT)
def test_refractive_index_of_salt_matches_crc(row):
    """CRC Handbook, 102nd ed., 589 nm, 20 °C; four decimals."""
    assert sweetened.refractive_index(row["percent"] / 100, 0.0, 20.0) == pytest.approx(row["index"], abs=0.00006)


@each("row", SALT)
def test_strength_by_refractive_index_matches_crc(row):
    """The same rows read backwards; a last digit of the index is 0.06 % salt."""
    share = meter.strength(row["index"], "refractive index", 20.0, "solution")
    assert share == pytest.approx(row["percent"] / 100, abs=0.0004)


@each("row", SUGAR)
def test_sugar_alone_matches_crc(row):
    """CRC Handbook, 102nd ed.: sucrose in water at 20 °C, density and refractive index."""
    sugar = row["percent"] / 100
    assert 1 / sweetened.volume(0.0, sugar, 20.0) == pytest.approx(row["density"], abs=0.00008)
    assert sweetened.refractive_index(0.0, sugar, 20.0) == pytest.approx(row["index"], abs=0.00008)
    assert sweetened.brix(row["index"]) == pytest.approx(row["percent"], abs=0.06)


@each("row", rows("sucrose_density"))
def test_sugar_alone_matches_the_physico_chemical_handbook_at_two_temperatures(row):
    """Poradnik fizykochemiczny, 1974, as held by a university laboratory."""
    sugar = row["percent"] / 100
    assert 1 / sweetened.volume(0.0, sugar, 15.0) == pytest.approx(row["at_15"], abs=0.0001)
    assert 1 / sweetened.volume(0.0, sugar, 20.0) == pytest.approx(row["at_20"], abs=0.0001)


@each("row", [r for r in SALT if r["percent"] <= 20 and r["percent"] in {s["percent"] for s in SUGAR}])
def test_salt_and_sugar_together_take_the_room_that_each_takes_in_water(row):
    """Additive apparent volumes: 100 g of each CRC solution of one percentage share one lot of water."""
    sweet = next(s for s in SUGAR if s["percent"] == row["percent"])
    water, each = 100 - row["percent"], row["percent"]
    total = water + 2 * each
    volume = 100 / row["density"] + 100 / sweet["density"] - water / 0.99823
    assert sweetened.volume(each / total, each / total, 20.0) == pytest.approx(volume / total, rel=0.0001)


@pytest.mark.parametrize("temperature", [1, 6, 12, 18, 24, 32, 39])
def test_refractive_index_of_water_matches_iapws(temperature):
    """IAPWS release R9-97 through the iapws package, against air (1.000272)."""
    index = _Refractive(1000 * solution.density(0.0, temperature), 273.15 + temperature, 0.5893) / 1.000272
    assert sweetened.refractive_index(0.0, 0.0, temperature) == pytest.approx(index, abs=0.00002)


@pytest.mark.parametrize("row", SATURATED, ids=lambda r: f"{r['celsius']:g} °C")
def test_conductivity_of_saturated_brine_matches_the_standard(row):
    """Conductivity standard, saturated sodium chloride: a laboratory instrument's manual."""
    value = sweetened.conductivity(solution.saturation(20.0), 0.0, row["celsius"])
    assert value == pytest.approx(row["conductivity"], rel=1e-9)


@each("row", OTHER_STRENGTHS)
def test_conductivity_matches_handbook_values(row):
    """CRC at 20 °C and Kohlrausch at 18 °C, from memory; 3.5 % at 15 °C as a sea-ice library has it, read."""
    value = sweetened.conductivity(row["percent"] / 100, 0.0, row["celsius"])
    assert value == pytest.approx(row["conductivity"], rel=0.011)


def test_conductivity_of_a_ten_per_cent_brine_rises_2_14_per_cent_per_degree():
    """Temperature coefficient of 10 % sodium chloride: a laboratory instrument's manual."""
    at_18, at_19 = (sweetened.conductivity(0.1, 0.0, t) for t in (18.0, 19.0))
    assert at_19 / at_18 - 1 == pytest.approx(0.0214, abs=0.0003)


def test_a_60_degree_salometer_reads_1_9_degrees_high_in_a_ten_per_cent_brine_at_38_fahrenheit():
    """From the Kaufmann/CRC densities with other code."""
    shown = expected_reading(0.10, "salometer", meter.THIRTY_EIGHT_F, 0.0, "solution")
    assert shown - 100 * 0.10 / 0.26395 == pytest.approx(1.9, abs=0.05)


def test_a_salometer_made_for_38_degrees_is_right_in_a_brine_at_38_fahrenheit():
    """Its definition: degrees are per cent of 26.395 % salt, at its own temperature."""
    shown = expected_reading(0.10, "salometer 38F", meter.THIRTY_EIGHT_F, 0.0, "solution")
    assert shown == pytest.approx(100 * 0.10 / 0.26395, rel=1e-12)


@pytest.mark.parametrize(
    ("instrument", "reading", "salt"), [("hydrometer", 1.0178 / 0.99904, 2.8), ("refractive index", 1.3403, 4.2)]
)
def test_five_per_cent_sugar_alone_looks_like_salt(instrument, reading, salt):
    """CRC: 5 % sucrose has density 1.0178 and index 1.3403, those of about 2.8 and 4.2 % salt."""
    assert 100 * meter.strength(reading, instrument, 20.0, "solution") == pytest.approx(salt, abs=0.06)
    with_sugar = meter.strength(reading + 0.0002, instrument, 20.0, "solution", 0.05)
    assert with_sugar == pytest.approx(0.0, abs=0.0015)


@pytest.mark.parametrize("instrument", ["salometer", "hydrometer", "baume"])
def test_floats_agree_with_the_scales_at_their_own_temperature(instrument):
    """At 60 °F nothing is corrected."""
    scale = {"hydrometer": "sg"}.get(instrument, instrument)
    for strength in (0.02, 0.05, 0.2):
        assert expected_reading(strength, instrument) == pytest.approx(
            scales.convert(strength, "water", scale), rel=1e-12
        )


@given(strengths, instruments, celsius, sugars)
def test_a_reading_means_the_strength_that_shows_it(strength, instrument, temperature, sugar):
    shown = expected_reading(strength, instrument, temperature, sugar)
    assert meter.strength(shown, instrument, temperature, "water", sugar) == pytest.approx(strength, abs=1e-12)


@given(strengths, strengths, instruments, celsius, sugars)
def test_every_instrument_shows_more_in_a_stronger_brine(one, other, instrument, temperature, sugar):
    weak, strong = sorted((one, other))
    if strong - weak > 1e-7:
        shown = [expected_reading(s, instrument, temperature, sugar) for s in (weak, strong)]
        assert shown[0] < shown[1]


@given(strengths, st.sampled_from(["salometer", "hydrometer", "baume", "refractive index", "brix"]), celsius)
def test_sugar_makes_floats_and_refractometers_read_high_and_probes_low(strength, instrument, temperature):
    plain, sweet = (expected_reading(strength, instrument, temperature, z) for z in (0.0, 0.05))
    assert plain < sweet
    plain, sweet = (expected_reading(strength, "conductivity", temperature, z) for z in (0.0, 0.05))
    assert plain > sweet


def test_the_basis_only_restates_the_strength():
    reading = expected_reading(0.05, "hydrometer", 4.0, 0.04)
    share = meter.strength(reading, "hydrometer", 4.0, "solution", 0.04)
    assert share / (1 - share - 0.04) == pytest.approx(0.05, rel=1e-12)


@each("instrument", list(meter.INSTRUMENTS))
def test_readings_no_brine_gives_are_refused_with_the_range(instrument):
    low, high = (expected_reading(s, instrument, 20.0) for s in (0.0, solution.strongest()))
    span = high - low
    for reading, nearest in ((low - 0.01 * span, low), (high + 0.01 * span, high)):
        with pytest.raises(OutOfRange) as caught:
            meter.strength(reading, instrument, 20.0)
        assert caught.value.argument == "reading"
        assert caught.value.nearest == pytest.approx(nearest)


def test_a_reading_below_that_of_the_sugar_alone_is_impossible():
    with pytest.raises(Impossible, match="5 % sugar"):
        meter.strength(1.01, "hydrometer", 20.0, "water", 0.05)


@pytest.mark.parametrize(
    ("change", "argument"),
    [({"temperature": 41.0}, "temperature"), ({"temperature": -1.0}, "temperature"), ({"sugar": 0.26}, "sugar")],
)
def test_conditions_outside_the_tables_are_refused(change, argument):
    with pytest.raises(OutOfRange) as caught:
        meter.strength(1.05, "hydrometer", **change)
    assert caught.value.argument == argument


def test_conductivity_stops_where_its_table_stops():
    with pytest.raises(OutOfRange, match="35 °C"):
        meter.strength(70.0, "conductivity", 36.0)


def test_the_index_of_salt_and_sugar_is_mixed_from_those_of_each():
    """Lorentz and Lorenz's refractions of CRC solutions add up: 9.8 % salt, 20 % sucrose, water taken off once."""

    def refraction(index, density):
        return (index * index - 1) / (index * index + 2) / density

    brine, sweet, water = refraction(1.35015, 1.0692), refraction(1.3639, 1.0810), refraction(1.3330, 0.9982)
    total = 0.816 * brine + 0.92 * sweet - 0.736 * water
    volume = 0.816 / 1.0692 + 0.92 / 1.0810 - 0.736 / 0.9982
    bending = total / volume
    index = ((1 + 2 * bending) / (1 - bending)) ** 0.5
    assert sweetened.refractive_index(0.08, 0.184, 20.0) == pytest.approx(index, abs=0.0003)


@pytest.mark.parametrize(("reading", "instrument"), [(1.0, "salt meter"), (9999.0, "refractive index")])
def test_a_scale_without_a_unit_is_told_without_one(reading, instrument):
    with pytest.raises(OutOfRange) as caught:
        meter.strength(reading, instrument)
    assert f" for the {instrument} at 20 °C" in caught.value.rule
    assert "share" not in caught.value.rule
    assert "  " not in caught.value.sentence()
    assert caught.value.got in ("100 %", "9999")


def test_a_meter_that_reads_all_salt_is_asked_for_per_cent():
    with pytest.raises(OutOfRange, match=r"write 1% or 0\.01 for 1 per cent"):
        meter.strength(1.0, "salt meter")
