"""How sour the brine of a row is: the same pH as the reckoning of the ingredients gives, salt and all."""

from __future__ import annotations

import pytest

from brinecalc.trade import acids, brine_acidity, row

SOUR = {"water": 1000.0, "acid": "citric acid", "acid mass": 5.0}


def acidity(cells: dict[str, object]) -> brine_acidity.Acidity:
    return brine_acidity.of(row.read(list(cells), list(cells.values())))


@pytest.mark.parametrize("strength", [0.0, 0.05, 0.15])
def test_the_salt_of_the_brine_counts(strength: float) -> None:
    """Salt makes an acid brine read sourer: 5 g of citric acid per litre."""
    reckoned = acids.ph(1000.0, [(acids.find("citric acid"), 5.0)], strength)
    assert acidity({**SOUR, "strength": strength}).ph == pytest.approx(reckoned, abs=1e-9)


def test_a_brine_too_strong_for_the_reckoning_is_of_unknown_ph() -> None:
    made = acidity({**SOUR, "strength": 0.3})
    assert made.ph is None
    assert made.unknown is not None
    assert made.unknown.text == "citric acid"
