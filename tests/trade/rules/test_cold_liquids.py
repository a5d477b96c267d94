"""Milk, stock and the like spoil by themselves, whatever lies in them: cold holding, Food Code 3-501.16, read."""

from __future__ import annotations

from each import each

from tests.trade.cases import found, of

WARM = {"product": "cucumber", "bath temperature": 22.0}


@each("liquid", ["milk", "chicken stock", "broth", "heavy cream", "yoghurt", "buttermilk", "juice of meat", "gravy",
                 "goat milk", "sweet whey", "dashi", "Brühe"])  # fmt: skip
def test_what_spoils_by_itself_is_kept_cold(liquid: str) -> None:
    assert "liquid-warm" in found({**WARM, "liquid": liquid})
    assert "liquid-warm" not in found({**WARM, "liquid": liquid, "bath temperature": 4.0})
    assert "liquid-warm" not in found({**WARM, "liquid": liquid, "bath temperature": 85.0})


@each("liquid", ["water", "apple juice", "beer", "cola", "cream soda", "vinegar", "white wine"])
def test_other_liquids_are_no_milk(liquid: str) -> None:
    assert "liquid-warm" not in found({**WARM, "liquid": liquid})


def test_what_has_soured_and_was_read_is_safe() -> None:
    assert "liquid-warm" not in found({**WARM, "liquid": "buttermilk", "ph": 4.6})
    assert "liquid-warm" in found({**WARM, "liquid": "buttermilk", "ph": 4.7})


def test_a_spoonful_of_whey_starts_a_ferment_and_a_fifth_of_milk_is_milk() -> None:
    row = {**WARM, "water": 1000.0, "ingredient": "whey"}
    assert "liquid-warm" not in found({**row, "level": "20%"})
    assert "liquid-warm" in found({**row, "level": "21%"})


def test_cheese_lies_in_its_whey_if_that_is_salt_enough() -> None:
    row = {"product": "feta", "liquid": "sweet whey", "bath temperature": 14.0}
    assert "liquid-warm" not in found({**row, "strength": 0.1})
    assert "liquid-warm" in found({**row, "strength": 0.09})


def test_meat_in_warm_milk_is_told_once_of_the_meat() -> None:
    assert "liquid-warm" not in found({**WARM, "product": "pork chop", "liquid": "milk"})
    assert "brine-warm" in found({**WARM, "product": "pork chop", "liquid": "milk"})


def test_it_says_what_to_do() -> None:
    (hit,) = of("liquid-warm", {**WARM, "liquid": "milk"})
    assert hit.text.startswith("CAUTION liquid: Milk spoils by itself, and is at 22.0 °C / 72 °F; it belongs at 5 °C")
    assert "write what it has reached, pH 4.6 or below" in hit.text
