"""Ice held back: the heat kernel against worked loads, and the heat balance of each answer."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from iapws import IAPWS95
from iapws._iapws import _Ice

from brinecalc.errors import Impossible, OutOfRange
from brinecalc.science import chilling, solution
from tests.published import rows


@pytest.mark.parametrize("row", rows("ice_examples"), ids=lambda r: f"{r['from_celsius']:g} to {r['to_celsius']:g} °C")
def test_ice_takes_up_the_heat_of_the_worked_loads(row):
    """Worked ice loads, ice on top of the brine: m·cp·ΔT over the heat that ice takes up."""
    given = row["brine_kg"] * row["heat"] * (row["from_celsius"] - row["to_celsius"])
    taken = chilling.heat_taken(row["to_celsius"], row["ice_celsius"])
    assert given / taken == pytest.approx(row["ice_kg"], abs=5e-5)


def test_the_heats_of_ice_and_water_match_iapws() -> None:
    """IAPWS-06 for ice and IAPWS-95 for water at 0.101325 MPa, through the iapws package; means from -10 to 5 °C."""
    ice, cold = _Ice(273.15, 0.101325), _Ice(263.15, 0.101325)
    water = IAPWS95(T=273.15, P=0.101325)
    assert pytest.approx(water.h - ice["h"], abs=0.005) == chilling.HEAT_OF_MELTING
    assert pytest.approx((ice["h"] - cold["h"]) / 10.0, rel=0.02) == chilling.HEAT_OF_ICE
    assert pytest.approx((IAPWS95(T=278.15, P=0.101325).h - water.h) / 5.0, rel=0.005) == chilling.HEAT_OF_MELT


def test_ice_held_back_from_plain_water_matches_arithmetic():
    """(M − m)·cp·(T1 − T2) = m·(333.42 + 4.2·T2), cp of water 4.1848: by hand, 10 kg from 60 to 4 °C."""
    assert chilling.ice_held_back(10, 60, 4) == pytest.approx(
        10 * 4.1848 * 56 / (4.1848 * 56 + 333.42 + 16.8), rel=1e-12
    )


def test_ice_held_back_is_near_the_worked_load_at_constant_specific_heat():
    """10 kg from 60 to 4 °C, ice at −5 °C, constant cp 3.9: 3.77 kg; the stronger warm brine has a lower cp."""
    ice = chilling.ice_held_back(10, 60, 4, 0.05, -5)
    assert 3.6 < ice < 3.77


@given(
    st.floats(1.0, 1e6),
    st.floats(0.0, 100.0),
    st.floats(-3.0, 90.0),
    st.floats(0.0, 0.3),
    st.floats(-30.0, 0.0),
)
def test_the_heat_that_the_ice_takes_is_the_heat_that_the_brine_gives(brine, start, end, strength, ice_celsius):
    try:
        ice = chilling.ice_held_back(brine, start, end, strength, ice_celsius)
    except OutOfRange:
        assume(False)
    warm = brine - ice
    salt = brine * strength / (1 + strength)
    given_up = warm * solution.specific_heat(min(salt / warm, 0.2643)) * (start - end) if warm else 0.0
    taken = ice * (2.1 * -ice_celsius + 333.42 + 4.2 * end)
    assert taken == pytest.approx(given_up, rel=1e-9, abs=1e-9 * brine)


@given(st.floats(5.0, 60.0), st.floats(0.0, 0.12), st.floats(0.001, 1000.0))
def test_ice_is_proportional_to_the_brine(start, strength, times):
    one, many = (chilling.ice_held_back(k, start, 4.0, strength) for k in (1.0, times))
    assert many == pytest.approx(times * one, rel=1e-12)


@given(st.floats(5.0, 60.0), st.floats(5.0, 60.0))
def test_a_warmer_brine_needs_more_ice_and_colder_ice_less(one, other):
    cold, warm = sorted((one, other))
    assert chilling.ice_held_back(10, cold, 4, 0.05) <= chilling.ice_held_back(10, warm, 4, 0.05)
    assert chilling.ice_held_back(10, warm, 4, 0.05, -18) < chilling.ice_held_back(10, warm, 4, 0.05)


def test_nothing_is_needed_when_the_brine_is_cold_already():
    assert chilling.ice_held_back(10, 4, 4, 0.05) == 0.0


def test_water_that_cannot_supply_the_ice_is_named_with_the_nearest_temperature():
    """A 25 % brine needs 7.0 kg of its 8 kg of water per 10 kg to dissolve its salt."""
    with pytest.raises(Impossible) as caught:
        chilling.ice_held_back(10, 95, 2, 0.25)
    nearest = caught.value.nearest
    assert caught.value.argument == "to_temperature"
    ice = chilling.ice_held_back(10, 95, nearest + 1e-9, 0.25)
    salt = 10 * 0.25 / 1.25
    assert salt / (10 - ice) == pytest.approx(solution.saturation(20.0), rel=1e-6)
    with pytest.raises(Impossible):
        chilling.ice_held_back(10, 95, nearest - 1e-6, 0.25)


def test_a_temperature_below_freezing_is_refused_with_the_freezing_point():
    """5 % of the water is 4.76 % of the solution: it freezes at about −2.9 °C (CRC)."""
    with pytest.raises(OutOfRange) as caught:
        chilling.ice_held_back(10, 20, -5, 0.05)
    assert caught.value.nearest == pytest.approx(solution.freezing_point(0.05 / 1.05))
    assert "-2.89 °C" in str(caught.value)
    assert chilling.ice_held_back(10, 20, -2.89, 0.05) > 0


def test_a_brine_past_the_eutectic_is_not_cooled_below_zero():
    with pytest.raises(OutOfRange, match="drops salt"):
        chilling.ice_held_back(10, 5, -1, 0.34)


def test_ice_does_not_warm():
    with pytest.raises(OutOfRange, match="only cools"):
        chilling.ice_held_back(10, 4, 10, 0.05)
