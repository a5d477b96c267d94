"""Density, freezing point, solubility and specific heat of brine against published tables and other libraries."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from types import ModuleType

import pytest
from each import each
from hypothesis import given
from hypothesis import strategies as st

from brinecalc.errors import OutOfRange
from brinecalc.science import solution
from tests.published import rows

shares = st.floats(0.0, 0.2634)
degrees = st.floats(0.0, 40.0)


@pytest.fixture(scope="module")
def coolprop():
    """Asks CoolProp for a property. Its core is loaded alone: the package round it lists every fluid first."""
    package = ModuleType("CoolProp")
    package.__path__ = find_spec("CoolProp").submodule_search_locations
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(sys.modules, "CoolProp", package)
        from CoolProp.CoolProp import PropsSI

        return PropsSI


@pytest.mark.parametrize(("table", "within"), [("nacl_density", 5e-6), ("nacl_density_laliberte", 0.001)])
def test_density_matches_the_kaufmann_table_and_the_laliberte_model(table, within):
    """The issuing table itself, every row, to its last digit; Laliberté's model, 0 to 25 °C, within 0.001 g/mL."""
    made = rows(table)
    assert len(made) > 80
    found = [solution.density(row["percent"] / 100, row["celsius"]) for row in made]
    assert found == pytest.approx([row["density"] for row in made], abs=within)


@pytest.mark.parametrize("percent", [0.5, 1.7, 3, 5, 7.5, 10, 13, 17, 20, 23])
def test_density_between_the_rows_matches_coolprop(percent, coolprop):
    """CoolProp INCOMP::MNA, an independent fit, up to its limit of 23 %."""
    warmth = [0.5, 4, 7, 10, 15.556, 20, 28, 33, 39.5]
    mixed = f"INCOMP::MNA[{percent / 100}]"
    other = [coolprop("D", "T", 273.15 + celsius, "P", 101325, mixed) / 1000 for celsius in warmth]
    assert [solution.density(percent / 100, celsius) for celsius in warmth] == pytest.approx(other, abs=0.001)


@each("row", rows("crc_nacl"))
def test_density_at_20_degrees_matches_crc(row):
    """CRC Handbook, 102nd ed.; four decimals."""
    assert solution.density(row["percent"] / 100, 20) == pytest.approx(row["density"], abs=0.00015)


@pytest.mark.parametrize("row", [r for r in rows("nacl_solubility") if r["density"] != "" and r["celsius"] <= 40])
def test_density_of_saturated_brine_is_near_the_published_one(row):
    """Kaufmann's saturated densities lie up to 0.0012 below his table carried on from 20 to 26 %."""
    value = solution.density(solution.saturation(row["celsius"]), row["celsius"])
    assert row["density"] < value < row["density"] + 0.0012


@given(shares, shares, degrees)
def test_density_rises_with_strength(one, other, celsius):
    low, high = sorted((one, other))
    if high - low > 1e-9:
        assert solution.density(low, celsius) < solution.density(high, celsius)


@given(st.floats(0.05, 0.2634), degrees, degrees)
def test_density_of_a_strong_brine_falls_with_temperature(share, one, other):
    """From 5 % up there is no maximum above 0 °C; below, water's own at 4 °C remains."""
    cold, warm = sorted((one, other))
    assert solution.density(share, cold) >= solution.density(share, warm)


@pytest.mark.parametrize(
    ("share", "celsius", "argument"),
    [(0.05, -0.1, "temperature"), (0.05, 40.1, "temperature"), (-0.01, 20, "strength"), (0.2636, 0, "strength")],
)
def test_density_is_not_extrapolated(share, celsius, argument):
    with pytest.raises(OutOfRange) as caught:
        solution.density(share, celsius)
    assert caught.value.argument == argument


def test_density_reaches_saturation_and_no_further():
    for celsius in (0.0, 3.3, 20.0, 40.0):
        limit = solution.saturation(celsius)
        solution.density(limit, celsius)
        with pytest.raises(OutOfRange) as caught:
            solution.density(limit + 1e-6, celsius)
        assert caught.value.nearest == pytest.approx(limit)


@each("row", [r for r in rows("crc_nacl") if r["depression"] != ""])
def test_freezing_point_matches_crc(row):
    """CRC Handbook, 102nd ed.; two decimals."""
    assert solution.freezing_point(row["percent"] / 100) == pytest.approx(-row["depression"], abs=0.015)


@each("row", rows("lange_freezing"))
def test_freezing_point_is_within_a_tenth_of_lange(row):
    """Lange's Handbook, 15th ed., Table 5.13, the eutectic included."""
    assert solution.freezing_point(row["percent"] / 100) == pytest.approx(row["celsius"], abs=0.1)


@pytest.mark.parametrize("percent", [2, 5, 10, 15, 20])
def test_freezing_point_is_near_coolprop(percent, coolprop):
    """CoolProp's own freezing curve of INCOMP::MNA."""
    other = coolprop("T_freeze", "T", 300, "P", 101325, f"INCOMP::MNA[{percent / 100}]") - 273.15
    assert solution.freezing_point(percent / 100) == pytest.approx(other, abs=0.1)


@given(st.floats(0.0, 0.233), st.floats(0.0, 0.233))
def test_freezing_point_falls_with_strength(one, other):
    low, high = sorted((one, other))
    if high - low > 1e-9:
        assert solution.freezing_point(low) > solution.freezing_point(high)


def test_freezing_points_end_at_the_eutectic():
    """23.3 %, -21.1 °C: Lange's Handbook."""
    assert solution.freezing_point(0.233) == pytest.approx(-21.1)
    with pytest.raises(OutOfRange) as caught:
        solution.freezing_point(0.2331)
    assert caught.value.nearest == pytest.approx(0.233)
    assert "-21.1 °C" in str(caught.value)


@each("row", rows("nacl_solubility"))
def test_saturation_matches_the_published_solubility(row):
    """Kaufmann / CRC; at 60 °F the definition of the salometer."""
    value = solution.saturation(row["celsius"])
    assert value == pytest.approx(row["percent"] / 100, abs=1e-6)
    assert 100 * solution.to_water_basis(value) == pytest.approx(row["per_100_water"], abs=0.006)


def test_saturation_at_20_degrees_is_35_92_per_cent_of_the_water():
    """Kaufmann / CRC: 35.92 g per 100 g of water."""
    assert solution.to_water_basis(solution.saturation()) == pytest.approx(0.3592, abs=6e-5)


@given(st.floats(0.0, 100.0), st.floats(0.0, 100.0))
def test_saturation_never_falls_with_temperature(one, other):
    cold, warm = sorted((one, other))
    assert solution.saturation(cold) <= solution.saturation(warm)


@pytest.mark.parametrize("celsius", [-0.01, 100.01])
def test_saturation_is_not_extrapolated(celsius):
    with pytest.raises(OutOfRange):
        solution.saturation(celsius)


@each("row", rows("nacl_specific_heat"))
def test_specific_heat_is_within_one_per_cent_of_coolprop_and_laliberte(row):
    """One figure per strength serves every temperature: CoolProp MNA and Laliberté, 4 to 25 °C, differ by less."""
    value = solution.specific_heat(row["percent"] / 100)
    assert value == pytest.approx(row["coolprop"], rel=0.01)
    assert value == pytest.approx(row["laliberte"], rel=0.007)


@pytest.mark.parametrize("percent", [1, 4, 9, 14, 19, 23])
@pytest.mark.parametrize("celsius", [2, 12, 30, 39])
def test_specific_heat_between_the_rows_is_within_one_per_cent_of_coolprop(percent, celsius, coolprop):
    """CoolProp INCOMP::MNA."""
    other = coolprop("C", "T", 273.15 + celsius, "P", 101325, f"INCOMP::MNA[{percent / 100}]") / 1000
    assert solution.specific_heat(percent / 100) == pytest.approx(other, rel=0.0105)


@given(st.floats(0.0, 0.2643), st.floats(0.0, 0.2643))
def test_specific_heat_falls_with_strength(one, other):
    low, high = sorted((one, other))
    if high - low > 1e-9:
        assert solution.specific_heat(low) > solution.specific_heat(high)


@given(st.floats(0.0, 0.26))
def test_bases_undo_each_other(share):
    assert solution.from_water_basis(solution.to_water_basis(share)) == pytest.approx(share, rel=1e-14)


def test_a_limit_shown_in_per_cent_is_never_above_the_limit():
    assert solution.percent(0.35929) == "35.92 %"
    assert solution.percent(0.05) == "5 %"
    assert solution.percent(0.29) == "29 %"
