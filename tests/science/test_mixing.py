"""Weights that make, mend and fit a brine: definitions, and that each undoes or confirms the other."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brinecalc import quantity
from brinecalc.errors import Impossible, OutOfRange
from brinecalc.science import mixing, solution

waters = st.floats(1.0, 1e6)
strengths = st.floats(0.001, 0.26)
purities = st.one_of(st.floats(0.9, 1.0), st.floats(0.3, 1.0))
bases = st.sampled_from(["water", "solution"])


def test_salt_follows_its_definition():
    """s·W/p on the water basis, s·W/(p − s) on the solution basis: arithmetic of the definitions."""
    assert mixing.salt_mass(1000, 0.05) == pytest.approx(50.0)
    assert mixing.salt_mass(1000, 0.05, "solution") == pytest.approx(52.6315789, abs=5e-8)
    assert mixing.salt_mass(1000, 0.05, "water", 0.98) == pytest.approx(50 / 0.98)
    assert mixing.salt_mass(1000, 0.05, "solution", 0.98) == pytest.approx(50 / 0.93)


@given(waters, strengths, bases, purities)
def test_strength_undoes_salt_and_salt_that_cannot_dissolve_is_refused(water, wanted, basis, purity):
    """What dissolves is 35.92 % of the water; on the solution basis what is not salt counts in the solution."""
    pure = wanted if basis == "water" else purity * wanted / (purity - wanted)  # per water, by the definition
    if pure > solution.strongest():
        with pytest.raises(Impossible, match="no more of it dissolves") as caught:
            mixing.salt_mass(water, wanted, basis, purity)
        most = mixing.salt_mass(water, caught.value.nearest, basis, purity)
        assert purity * most == pytest.approx(solution.strongest() * water, rel=1e-11)
        assert mixing.strength(most * (1.0 - 1e-9), water, basis, purity) < wanted
        return
    salt = mixing.salt_mass(water, wanted, basis, purity)
    assert mixing.strength(salt, water, basis, purity) == pytest.approx(wanted, rel=1e-12)


@given(waters, strengths, st.floats(0.001, 1000.0))
def test_salt_is_proportional_to_water(water, wanted, times):
    assert mixing.salt_mass(water * times, wanted) == pytest.approx(times * mixing.salt_mass(water, wanted), rel=1e-12)


@given(waters, strengths, strengths)
def test_a_topped_up_bath_has_the_strength_wanted(water, one, other):
    weak, wanted = sorted((one, other))
    salt = mixing.top_up(water, weak, wanted)
    assert (weak * water + salt) / water == pytest.approx(wanted, rel=1e-12)
    assert mixing.strength(weak * water + salt, water) == pytest.approx(wanted, rel=1e-12)


@given(waters, strengths, strengths)
def test_a_diluted_bath_has_the_strength_wanted(water, one, other):
    wanted, strong = sorted((one, other))
    more = mixing.dilute(water, strong, wanted)
    assert mixing.strength(strong * water, water + more) == pytest.approx(wanted, rel=1e-12)


def test_a_bath_that_needs_the_other_remedy_is_told_how_much_of_it():
    """5 % wanted in 1000 g of water: 60 g of salt make 1200 g of water right; 40 g lack 10 g."""
    with pytest.raises(Impossible, match=r"200 g / 7.05 oz of water \(BRINE_DILUTE\)"):
        mixing.top_up(1000, 0.06, 0.05)
    with pytest.raises(Impossible, match=r"10 g / 0.353 oz of salt \(BRINE_TOP_UP\)"):
        mixing.dilute(1000, 0.04, 0.05)


def test_a_bath_already_right_needs_nothing():
    assert mixing.top_up(1000, 0.05, 0.05) == 0.0
    assert mixing.dilute(1000, 0.05, 0.05) == 0.0


@pytest.mark.parametrize("basis", ["water", "solution"])
def test_a_brine_cannot_hold_more_salt_than_dissolves_at_20_degrees(basis):
    limit = solution.strongest(basis)
    assert mixing.salt_mass(1000, limit, basis) == pytest.approx(359.25, abs=0.01)
    with pytest.raises(OutOfRange) as caught:
        mixing.salt_mass(1000, limit + 1e-6, basis)
    assert caught.value.argument == "strength"
    assert caught.value.nearest == pytest.approx(limit)


def test_more_salt_than_dissolves_has_no_strength_and_the_most_is_named():
    with pytest.raises(Impossible) as caught:
        mixing.strength(400, 1000, "water", 0.98)
    assert caught.value.nearest == pytest.approx(1000 * solution.strongest() / 0.98)
    assert mixing.strength(caught.value.nearest, 1000, "water", 0.98) == pytest.approx(solution.strongest())


def test_five_where_five_per_cent_was_meant_is_caught():
    with pytest.raises(OutOfRange, match=r"write 5% or 0\.05"):
        mixing.salt_mass(7557, 5.0)


@pytest.mark.parametrize("purity", [0.1, 0.2, 0.21])
def test_salt_as_poor_as_the_brine_is_refused(purity):
    with pytest.raises(Impossible, match="purity") as caught:
        mixing.salt_mass(1000, 0.2, "solution", purity)
    assert caught.value.argument == "strength"


@given(st.floats(100.0, 1e6), st.floats(0.01, 0.8), st.floats(0.0, 0.5))
def test_product_water_and_headroom_fill_the_vessel(vessel, part, headroom):
    product = part * vessel * (1 - headroom) * mixing.PRODUCT_DENSITY
    water = mixing.fill(vessel, product, headroom)
    volume = water / 0.998207 + product / mixing.PRODUCT_DENSITY + headroom * vessel
    assert volume == pytest.approx(vessel, rel=1e-12)


def test_a_vessel_too_small_names_the_most_that_fits():
    with pytest.raises(Impossible) as caught:
        mixing.fill(1000, 1000)
    assert caught.value.nearest == pytest.approx(900 * mixing.PRODUCT_DENSITY)


@given(st.floats(0.3, 500.0), st.floats(0.0, 0.5))
def test_the_most_that_a_vessel_is_said_to_hold_does_fit_in_either_unit(litres, headroom):
    """Mass balance: what stands after "below" is never rounded up; a hair less of it leaves room for water."""
    with pytest.raises(Impossible) as caught:
        mixing.fill(litres * 1000.0, litres * 1100.0, headroom)
    said = re.search(r"below (\S+ \S+) / (\S+ \S+) for", caught.value.rule)
    for most in said.groups():
        assert mixing.fill(litres * 1000.0, quantity.read(most, "mass") * (1.0 - 1e-9), headroom) > 0.0
