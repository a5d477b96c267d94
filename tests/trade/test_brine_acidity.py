"""How sour the brine of a row is: the same pH as the reckoning of the ingredients gives, salt and all."""

from __future__ import annotations

import pytest

from brinecalc.trade import acids, brine_acidity, row_reading

SOUR = {"water": 1000.0, "acid": "citric acid", "acid mass": 5.0}


def acidity(cells: dict[str, object]) -> brine_acidity.Acidity:
    return brine_acidity.of(row_reading.read(list(cells), list(cells.values())))


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


def test_what_is_neutral_counts_by_its_salt_and_water() -> None:
    """Nigari makes a sour brine read sourer, as the salt of the strength does; too much of it is left out."""
    nigari = {"ingredient": "magnesium chloride", "level": 0.09}
    parts = [(acids.find("citric acid"), 5.0), (acids.find("magnesium chloride"), 90.0)]
    assert acidity({**SOUR, **nigari}).ph == pytest.approx(acids.ph(1000.0, parts), abs=1e-9)
    assert acidity({**SOUR, **nigari, "level": 0.95}).ph == pytest.approx(acidity(SOUR).ph, abs=1e-9)
