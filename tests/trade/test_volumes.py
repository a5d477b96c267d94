"""Spoons and cups: by grade for salt, never for curing salt."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.errors import Refused, UnknownName
from brinecalc.trade import ingredients, volumes

TEASPOON = 4.92892159375


@each(
    ("name", "volume", "grams"),
    [
        ("table salt", 3 * TEASPOON, 18.0), ("white sugar", TEASPOON, 4.2), ("brown sugar", 48 * TEASPOON, 220.0),
        ("honey", 48 * TEASPOON, 339.0), ("baking soda", TEASPOON, 4.0), ("soy sauce", 3 * TEASPOON, 16.0),
        ("black pepper", 3 * TEASPOON, 6.9), ("cloves", TEASPOON, 2.1), ("lemon juice", 48 * TEASPOON, 244.0),
    ],
)  # fmt: skip
def test_weights_match_the_usda_measures(name, volume, grams):
    """USDA SR27, weight of the record's own measure."""
    assert volumes.weight(volume, name) == pytest.approx(grams, rel=3e-3)


def test_a_teaspoon_of_salt_is_2_8_to_6_3_grams_by_grade():
    """Home weighings, a weak source; brands taken off."""
    spoons = [volumes.weight(TEASPOON, made.name) for made in ingredients.of_role("salt") if made.density]
    assert min(spoons) == pytest.approx(2.77, abs=0.01)
    assert max(spoons) == pytest.approx(6.33, abs=0.01)


@pytest.mark.parametrize("name", ["salt", "kosher salt", "sea salt", "rock salt"])
def test_salt_without_a_grade_is_not_converted(name):
    with pytest.raises(UnknownName) as caught:
        volumes.weight(5, name)
    for grade in ("table salt", "compact kosher salt", "pyramid flake salt"):
        assert f'"{grade}"' in caught.value.sentence()


def test_curing_salt_is_never_measured_by_volume():
    for made in ingredients.of_role("cure"):
        with pytest.raises(Refused):
            volumes.weight(5, made.name)
        with pytest.raises(Refused):
            volumes.volume(5, made.name)


def test_what_has_no_density_says_so():
    with pytest.raises(UnknownName) as caught:
        volumes.volume(5, "star anise")
    assert "weigh it" in caught.value.sentence()
