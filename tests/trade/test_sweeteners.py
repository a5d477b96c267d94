"""Sweeteners against one another, by the figures read for them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brinecalc.errors import UnknownName
from brinecalc.trade import ingredients, sweeteners

ALL = [made.name for made in ingredients.of_role("sweetener")]


def test_every_sweetener_has_a_sweetness():
    for name in ALL:
        assert sweeteners.find(name).ingredient == name


@pytest.mark.parametrize(
    ("name", "solids"),
    [("white sugar", 0.9998), ("honey", 0.829), ("maple syrup", 0.6761), ("molasses", 0.7813), ("corn syrup", 0.7719)],
)
def test_solids_are_what_is_not_water(name, solids):
    """USDA SR27: water 0.02, 17.10, 32.39, 21.87 and 22.81 %."""
    assert sweeteners.solids(name) == pytest.approx(solids, abs=1e-9)


def test_dextrose_monohydrate_is_a_tenth_water():
    """Atomic masses: 18.015 / 198.17."""
    assert sweeteners.solids("dextrose") == pytest.approx(1 - 18.015 / 198.171, abs=1e-4)


@given(st.sampled_from(ALL), st.sampled_from(ALL), st.floats(0.1, 1e5), st.sampled_from(["sweetness", "solids"]))
def test_a_swap_and_back_is_where_it_began(one, other, mass, match):
    there = sweeteners.swap(mass, one, other, match)
    assert sweeteners.swap(there, other, one, match) == pytest.approx(mass, rel=1e-12)


@given(st.sampled_from(ALL), st.floats(1, 1e5), st.floats(0, 0.5))
def test_a_swap_agrees_with_the_dose_as_sweet_as_sugar(name, water, level):
    sugar = sweeteners.mass(water, level)
    swapped = sweeteners.swap(sugar, "sugar", name)
    assert sweeteners.mass(water, level, name, "sweetness") == pytest.approx(swapped, rel=1e-12)


def test_by_weight_every_sweetener_weighs_the_same():
    assert {sweeteners.mass(1000, 0.03, name) for name in ALL} == {30.0}


@pytest.mark.parametrize("name", ["salt", "lemon juice", "stardust"])
def test_what_is_no_sweetener_is_unknown(name):
    with pytest.raises(UnknownName) as caught:
        sweeteners.find(name, "to_sweetener")
    assert caught.value.argument == "to_sweetener"
