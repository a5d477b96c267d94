"""From diffusion to food: temperature, free water, the water-phase balance."""

from __future__ import annotations

import math

import pytest
from each import each
from hypothesis import given
from hypothesis import strategies as st

from brinecalc.errors import OutOfRange
from brinecalc.science import soaking
from brinecalc.tables import load


def viscosity(celsius):
    """mPa·s at 0.1 MPa, IAPWS supplementary release on liquid water; coefficients from memory."""
    t = (celsius + 273.15) / 300.0
    return (280.68 * t**-1.9 + 511.45 * t**-7.7 + 61.131 * t**-19.6 + 0.45903 * t**-40.0) / 1000.0


@each("celsius", [-5.0, 0.0, 2.0, 4.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0])
def test_free_water_by_nernst_hartley_and_viscosity(celsius):
    """Nernst-Hartley at 25 °C (1.334 and 2.032e-9 m2/s), carried by T over viscosity; table to three digits."""
    at_25 = 2.0 * 1.334e-9 * 2.032e-9 / (1.334e-9 + 2.032e-9)
    expected = at_25 * (celsius + 273.15) / 298.15 * viscosity(25.0) / viscosity(celsius)
    assert soaking.free_water(celsius) == pytest.approx(expected, rel=1e-3)


def test_free_water_ends_with_its_table():
    for celsius in (-5.1, 40.1):
        with pytest.raises(OutOfRange, match="-5 to 40"):
            soaking.free_water(celsius)


def test_temperature_factor_lies_between_the_sources():
    """1.35 to 1.5 per 10 °C: free water 1.41 near 5 °C, white cheese 27 kJ/mol (Floury and others 2010)."""
    assert 1.35 < soaking.temperature_factor(10.0, 0.0) < 1.5
    assert soaking.temperature_factor(4.0) == 1.0
    cheese = 4.0 / 2.1  # measured from 4 to 20 °C
    assert soaking.temperature_factor(20.0) == pytest.approx(cheese, rel=0.1)


@given(st.floats(1e-11, 8.5e-10), st.floats(-2.0, 40.0), st.sampled_from([1.0, 1.3]))
def test_no_product_is_faster_than_free_water(at_reference, celsius, speed):
    found = soaking.diffusivity(at_reference, celsius, speed)
    assert 0.0 < found <= soaking.free_water(celsius)
    slower = at_reference * speed * soaking.temperature_factor(celsius)
    assert found == min(slower, soaking.free_water(celsius))


@given(st.floats(-2.0, 39.0), st.floats(0.01, 1.0))
def test_free_water_rises_with_temperature(celsius, more):
    assert soaking.free_water(celsius + more) > soaking.free_water(celsius)


@given(st.floats(0.3, 0.97), st.floats(0.0, 0.03), st.floats(0.0, 0.3), st.floats(0.05, 50.0), st.floats(0.0, 1.0))
def test_salt_of_product_and_bath_together_never_changes(water, native, strength, bath, fraction):
    """Law: per gram of product, what it holds and what the bath holds add up to what they held at the start."""
    own = native / water
    end = soaking.final(own, strength, bath / water)
    held = soaking.average(water, own, end, fraction)
    left = soaking.left_in_bath(strength, water, own, end, fraction, bath)
    assert held + bath * left == pytest.approx(native + bath * strength, rel=1e-12, abs=1e-15)
    if fraction == 1.0:
        assert left == pytest.approx(end, rel=1e-9, abs=1e-12)


def test_alpha_is_water_over_water():
    """1 kg of brine at 6 % (0.94 kg of water) and 1 kg of chicken breast (0.739): 1.27, not 1."""
    a = 0.94 / 0.739
    assert a == pytest.approx(1.27, abs=0.005)
    end = soaking.final(0.0, 0.06 / 0.94, a)
    assert end == pytest.approx(0.06 / (0.94 + 0.739), rel=1e-12)


def test_strength_for_is_the_balance_solved_for_the_strength():
    water, own, bath, fraction = 0.739, 0.00114 / 0.739, 1.3, 0.4
    end = soaking.final(own, 0.055, bath / water)
    target = soaking.average(water, own, end, fraction)
    assert soaking.fraction_of_way(water, own, end, target) == pytest.approx(fraction, rel=1e-12)
    assert soaking.strength_for(water, own, target, fraction, bath / water) == pytest.approx(0.055, rel=1e-12)
    large = soaking.final(own, 0.055, math.inf)
    assert large == 0.055
    target = soaking.average(water, own, large, fraction)
    assert soaking.strength_for(water, own, target, fraction, math.inf) == pytest.approx(0.055, rel=1e-12)


def test_tables_of_the_family_are_whole():
    assert len(load.rows("free_water")) == 12
    assert [row["name"] for row in load.rows("treatments")] == ["none", "thawed", "needled", "tumbled", "injected"]
    assert {row["name"]: row["basis"] for row in load.rows("treatments")} == {
        "none": "definition",
        "thawed": "published",
        "needled": "judgement",
        "tumbled": "common practice",
        "injected": "judgement",
    }
