"""Strength, salt and water of one row: what it says twice has to agree."""

from __future__ import annotations

import pytest

from tests.trade.cases import found


@pytest.mark.parametrize("salt", [50.0, 52.6, 40.0])
def test_either_basis_and_the_salt_of_the_cure_agree(salt: float) -> None:
    row = {"strength": 0.05, "salt": salt, "water": 1000.0, "cure": 10.0 if salt < 50 else ""}
    assert "strength-mismatch" not in found(row)


def test_salt_and_water_make_a_strength_where_none_is_given() -> None:
    assert "over-saturation" in found({"salt": 400.0, "water": 1000.0})
    assert "over-saturation" not in found({"salt": 350.0, "water": 1000.0})  # 35.92 % of the water: kaufmann-1960


@pytest.mark.parametrize(("strength", "salt"), [(0.99, 990.0), (0.5, 500.0)])
def test_a_strength_near_all_salt_is_no_mismatch_but_past_what_dissolves(strength: float, salt: float):
    row = {"strength": strength, "salt": salt, "water": 1000.0}
    assert "strength-mismatch" not in found(row)
    assert "over-saturation" in found(row)


@pytest.mark.parametrize("way", [{"method": "injected"}, {"cure method": "pumped"}, {"treatment": "massaged"}])
def test_nobody_is_told_that_what_is_pumped_in_draws_water_out(way: dict[str, object]) -> None:
    """Its strength follows from the target and the gain: 1.8 % in what gains a tenth is 20 % of the brine."""
    row = {"product": "ham leg", "strength": 0.25, "gain": 0.1}
    assert "strong-brine" in found(row)
    assert "strong-brine" not in found({**row, **way})


def test_salt_beside_a_strength_of_a_whole_is_read_without_harm():
    assert found({"strength": 1.0, "salt": 100.0, "water": 100.0}) == ["cell-unreadable"]


@pytest.mark.parametrize("celsius", [0.0, "0 °C", "32 °F"])
def test_freezing_point_of_water_is_a_temperature_and_not_a_blank(celsius: object) -> None:
    """At 0 °C water takes up 0.2634/0.7366 = 35.76 % of its weight, at 20 °C 35.92 (Kaufmann)."""
    assert "over-saturation" in found({"strength": 0.358, "bath temperature": celsius})
    assert "over-saturation" not in found({"strength": 0.357, "bath temperature": celsius})
    assert "over-saturation" not in found({"strength": 0.358, "bath temperature": None})
