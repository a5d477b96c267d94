"""Mass balances against their own definition, salt in equals salt out, and one another."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from brinecalc.errors import Impossible, OutOfRange, Unreadable
from brinecalc.science import balance, solution

masses = st.floats(1.0, 1e6)
targets = st.floats(1e-3, 0.2)
natives = st.floats(0.0, 0.02)
waters = st.floats(0.3, 0.95)
BASES = ("weight", "total", "water phase")


@pytest.mark.parametrize(
    ("basis", "salt"),
    [
        ("weight", 0.015 * 3000 - 2.28),  # t(P + W) - nP
        ("total", (0.015 * 3000 - 2.28) / 0.985),  # [t(P + W) - nP] / (1 - t)
        ("water phase", 0.015 / 0.985 * (1000 + 0.739 * 2000) - 2.28),  # t/(1 - t) (W + wP) - nP
    ],
)
def test_equilibrium_salt_by_its_definition(basis, salt):
    """Definitions of the three bases, worked by hand for chicken breast 2000 g, water 1000 g, 1.5 %."""
    assert balance.equilibrium_salt(2000, 1000, 0.015, 0.00114, basis, 0.739) == pytest.approx(salt, rel=1e-12)


def test_the_kitchens_sum_counts_solids_as_water():
    """Chicken breast 2000 g, water 1000 g, salt 45 g: 1.57 % by weight; the meat itself ends at 1.41 %."""
    by_weight = balance.equilibrium_result(2000, 1000, 45, 0.00114, "weight", None)
    phase = balance.equilibrium_result(2000, 1000, 45, 0.00114, "water phase", 0.739)
    assert by_weight == pytest.approx(0.01576, abs=5e-6)
    assert 0.739 * phase / (1 - phase) == pytest.approx(0.0141, abs=5e-5)


MOST = solution.strongest()


@pytest.mark.parametrize(("basis", "most"), [("weight", 0.3592), ("total", 0.2643), ("water phase", 0.2643)])
def test_no_target_lies_beyond_what_dissolves(basis, most):
    """Kaufmann 1960: at 20 °C a saturated brine is 26.43 % salt, 35.92 g to 100 g of water."""
    wet = 0.74 if basis == "water phase" else None
    assert balance.equilibrium_salt(2000, 1000, most - 1e-4, 0.0, basis, wet) > 0.0
    with pytest.raises(Impossible) as caught:
        balance.equilibrium_salt(2000, 1000, most + 1e-4, 0.0, basis, wet)
    assert caught.value.nearest == pytest.approx(most, abs=1e-4)


def test_no_salt_beyond_what_dissolves_is_said_to_even_out():
    """The same limit on 3000 g that count as water: 1077.6 g."""
    assert balance.equilibrium_result(2000, 1000, 1077, 0.0, "weight", None) == pytest.approx(0.359)
    with pytest.raises(Impossible, match=r"at most 1077\.7\d g"):
        balance.equilibrium_result(2000, 1000, 1079, 0.0, "weight", None)


def test_a_negative_salt_is_told_where_it_ends_without_any():
    with pytest.raises(OutOfRange, match=r"end at 0\.6667 %"):
        balance.equilibrium_result(2000, 1000, -20, 0.01, "weight", None)


@given(masses, st.floats(0.0, 1e6), targets, natives, st.sampled_from(BASES), waters)
def test_the_salt_worked_out_ends_at_the_target(product, water, target, native, basis, wet):
    alone = balance.equilibrium_result(product, water, 0.0, native, basis, wet)
    if target < alone * (1 - 1e-9):
        with pytest.raises(Impossible) as caught:
            balance.equilibrium_salt(product, water, target, native, basis, wet)
        assert caught.value.nearest == pytest.approx(alone, rel=1e-12)
        return
    held = {
        "weight": target * (product + water),
        "total": target / (1 - target) * (product + water - native * product),
        "water phase": target / (1 - target) * (water + wet * product),
    }[basis]
    if held > MOST * (water + wet * product):
        with pytest.raises(Impossible) as caught:
            balance.equilibrium_salt(product, water, target, native, basis, wet)
        assert caught.value.nearest < target
        return
    salt = balance.equilibrium_salt(product, water, target, native, basis, wet)
    assert balance.equilibrium_result(product, water, salt, native, basis, wet) == pytest.approx(target, rel=1e-9)


@given(masses, masses, st.floats(0, 1e5), natives, waters)
def test_the_three_bases_share_one_amount_of_salt(product, water, salt, native, wet):
    """Salt is neither made nor lost: each share times its whole gives the same grams."""
    held = salt + native * product
    assume(held <= MOST * (water + wet * product))
    wholes = (product + water, product + water + salt, held + water + wet * product)
    for basis, whole in zip(BASES, wholes):
        ends_at = balance.equilibrium_result(product, water, salt, native, basis, wet)
        assert ends_at * whole == pytest.approx(held, rel=1e-9)


@given(st.floats(1e-3, 0.05), st.floats(0.02, 0.5), natives)
def test_injection_reaches_the_target(target, gain, native):
    needed = (target * (1 + gain) - native) / gain
    assume(0.0 <= needed <= 0.2643)
    strength = balance.injection_strength(target, gain, native, "solution")
    finished = (native + strength * gain) / (1 + gain)
    assert finished == pytest.approx(target, rel=1e-9)
    assert balance.in_product(strength, gain) == pytest.approx(target - native / (1 + gain), rel=1e-6, abs=1e-12)
    of_water = balance.injection_strength(target, gain, native, "water")
    assert of_water == pytest.approx(strength / (1 - strength), rel=1e-12)


def test_no_solution_is_stronger_than_saturated():
    """Kaufmann's table: 26.43 % of the solution at 20 °C."""
    with pytest.raises(Impossible) as caught:
        balance.injection_strength(0.05, 0.05, 0.0, "solution")
    highest = caught.value.nearest
    assert balance.injection_strength(highest * (1 - 1e-9), 0.05, 0.0, "solution") == pytest.approx(0.2643, abs=1e-6)


@given(masses, masses, st.floats(0.01, 0.3), st.floats(0.0, 1.0), st.floats(-0.05, 0.3))
def test_uptake_from_the_bath_closes_the_balance(product, water, start, part, gain):
    """The bath loses what the product gains, water and salt; a product can hold no more than the brine it lies in."""
    share = part * start * (1.0 + max(gain, 0.0))
    left = water - (gain - share) * product
    reading = (water * start - share * product) / left if left > 0.05 * water else -1.0
    assume(0.0 <= reading < 0.35)
    found = balance.absorbed(product, water, start, reading, gain)
    assert found == pytest.approx(share, rel=1e-9, abs=1e-14 * water / product)


def test_no_product_takes_up_more_salt_than_the_brine_it_lies_in_has_for_it():
    """100 g of product in 10 kg of 30 %: a fall to 10 % would be 2 kg of salt."""
    with pytest.raises(Impossible, match=r"2000 % of its weight in salt, and this brine brings at most 30 %"):
        balance.absorbed(100.0, 10000.0, 0.3, 0.1, None)
    assert balance.absorbed(100.0, 100.0, 0.3, 0.0, None) == pytest.approx(0.3)
    with pytest.raises(Impossible, match=r"30\.3 % of its weight"):
        balance.absorbed(100.0, 101.0, 0.3, 0.0, None)
    assert balance.absorbed(100.0, 115.0, 0.3, 0.0, 0.15) == pytest.approx(0.345)


def test_without_a_gain_only_salt_moves():
    assert balance.absorbed(1000, 2000, 0.06, 0.055, None) == pytest.approx(0.01, rel=1e-12)


def test_water_phase_salt_examples():
    """tests/reference/wps_examples.csv: 100 x salt / (salt + moisture), formula of the Ontario guideline (read)."""
    path = Path(__file__).parents[1] / "reference" / "wps_examples.csv"
    with open(path, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) >= 5
    for row in rows:
        found = balance.water_phase_salt(float(row["salt_pct"]) / 100, float(row["moisture_pct"]) / 100)
        assert 100 * found == pytest.approx(float(row["WPS_pct"]), abs=6e-5)


def test_the_water_phase_needs_the_products_water():
    with pytest.raises(Unreadable) as caught:
        balance.equilibrium_salt(2000, 1000, 0.015, 0.0, "water phase", None)
    assert caught.value.argument == "product_water"


@given(masses, masses, natives)
def test_the_advice_for_an_unreachable_target_can_be_typed(product, water, native):
    """The lowest target the reason offers, as printed, is accepted."""
    assume(native > 1e-5)
    alone = native * product / (product + water)
    with pytest.raises(Impossible) as caught:
        balance.equilibrium_salt(product, water, alone * 0.5, native, "weight", None)
    printed = float(caught.value.advice.split("target of ")[1].split(" %")[0]) / 100
    assert balance.equilibrium_salt(product, water, printed * (1 + 1e-12), native, "weight", None) >= 0


def test_edible_weight_is_what_the_waste_leaves():
    """USDA SR27 05006: 32 % of a whole chicken is waste."""
    assert balance.edible(1600, 0.32) == pytest.approx(1088)


def test_the_advice_on_too_low_a_target_counts_the_products_own_moisture():
    """By hand: 10 g of salt to 1000 g of water and 600 g in the product is 10 / 1610."""
    with pytest.raises(Impossible) as caught:
        balance.equilibrium_salt(1000, 1000, 0.001, 0.01, "water phase", 0.6)
    assert caught.value.nearest == pytest.approx(10 / 1610, rel=1e-12)


def test_native_salt_counts_towards_what_dissolves():
    """By hand: 400 g of water in the product and 100 g beside it hold 0.3592 × 500 = 179.6 g; 50 g are in it."""
    assert balance.equilibrium_salt(500, 100, 0.2985, 0.1, "weight", 0.8) == pytest.approx(0.2985 * 600 - 50)
    with pytest.raises(Impossible, match="no more salt dissolves"):
        balance.equilibrium_salt(500, 100, 0.3, 0.1, "weight", 0.8)


@given(st.floats(0.1, 1e6), st.floats(0.0, 1e6), natives, st.sampled_from(BASES), waters)
def test_the_target_it_ends_at_without_salt_takes_none(product, water, native, basis, wet):
    alone = balance.equilibrium_result(product, water, 0.0, native, basis, wet)
    salt = balance.equilibrium_salt(product, water, alone, native, basis, wet)
    assert salt == pytest.approx(0.0, abs=1e-9 * (product + water))


def test_the_highest_target_told_can_be_typed_back():
    """By hand: 179.6248 g of 600 g are 29.937 %, and of those 29.93 % still dissolve."""
    with pytest.raises(Impossible, match=r"use a target of 29\.93 % or less"):
        balance.equilibrium_salt(500, 100, 0.33, 0.1, "weight", 0.8)
    assert balance.equilibrium_salt(500, 100, 0.2993, 0.1, "weight", 0.8) == pytest.approx(129.58)


def test_a_negative_salt_is_told_where_it_ends_in_the_products_own_moisture():
    """By hand: 10 g of salt to 1600 g of water, 0.6211 %."""
    with pytest.raises(OutOfRange, match=r"end at 0\.6211 %"):
        balance.equilibrium_result(1000, 1000, -20, 0.01, "water phase", 0.6)
