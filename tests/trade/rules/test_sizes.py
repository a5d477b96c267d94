"""Sizes and weights that a slip of the pen makes."""

from __future__ import annotations

import pytest
from each import each

from tests.trade.cases import found


def test_centimetres_typed_where_millimetres_are_meant() -> None:
    assert "thickness-odd" in found({"product": "chicken breast", "thickness": 2.5})
    assert "thickness-odd" not in found({"product": "chicken breast", "thickness": 6})
    assert "thickness-odd" not in found({"product": "cucumber", "thickness": 2.5})


@each(
    ("product", "piece", "thickness"),
    [  # edible grams and millimetres of pieces as kitchens buy them
        ("chicken breast", 220, 25), ("chicken breast", 150, 10), ("whole turkey", 6000, 75), ("quail", 160, 18),
        ("pork chop", 200, 20), ("pork tenderloin", 500, 60), ("boneless pork loin", 4000, 110),
        ("ham leg", 9000, 120), ("beef brisket", 6000, 70), ("salmon fillet", 1400, 30), ("herring fillet", 70, 8),
        ("flatfish fillet", 120, 10), ("peeled shrimp", 20, 16), ("pork belly", 5000, 40),
        ("chicken wing", 90, 25), ("lean beef", 1500, 90),
    ],
)  # fmt: skip
def test_pieces_as_they_are_bought_are_believed_and_a_slip_of_ten_is_not(product, piece, thickness):
    row = {"product": product, "edible weight": 10 * piece, "pieces": 10}
    assert not {"piece-shape", "piece-weight", "thickness-odd"} & set(found({**row, "thickness": thickness}))
    for slip in (thickness / 10, thickness * 10):
        assert {"piece-shape", "thickness-odd"} & set(found({**row, "thickness": slip})), slip


@pytest.mark.parametrize("liquid", ["water", "pickle"])
def test_a_weight_in_kilograms_beside_a_liquid_in_bare_grams_is_asked_about(liquid: str):
    """10 kg of product in what reads as 10 g of liquid: someone meant 10 kg there too."""
    assert "quantity-mismatch" in found({"weight": "10 kg", liquid: 10})
    assert "quantity-mismatch" not in found({"weight": "10 kg", liquid: "10 kg"})


@each(
    ("product", "weight", "pieces", "told"),
    [
        ("whole turkey", 14.0, 1, True), ("whole turkey", 70000.0, 1, True), ("whole turkey", 14000.0, 1, False),
        ("whole turkey", 70000.0, 10, False), ("whole turkey", 99.0, "", True), ("whole turkey", 101.0, "", False),
        ("whole turkey", 70000.0, "", False),
        ("whole turkey", 999.0, 1, True), ("whole turkey", 1000.0, 1, False),  # as the table has it
        ("whole turkey", 30000.0, 1, False), ("whole turkey", 30001.0, 1, True),
        ("chicken wing", 9000.0, 100, False), ("chicken wing", 9000.0, 10, True), ("chicken wing", 90.0, 100, True),
        ("hard-boiled egg", 550.0, 10, False), ("hard-boiled egg", 55000.0, 10, True),
        ("cabbage", 5.0, 1, False), ("dragon", 5.0, 1, False), ("pork belly", 5.0, 1, False),
    ],
)  # fmt: skip
def test_a_piece_that_is_no_such_product_is_asked_about(product, weight, pieces, told):
    assert ("piece-weight" in found({"product": product, "weight": weight, "pieces": pieces})) is told


def test_a_bird_by_its_edible_weight_is_weighed_with_its_bones():
    """1 kg of turkey as bought is 710 g without its 29 % of bone."""
    row = {"product": "whole turkey", "pieces": 1}
    assert "piece-weight" not in found({**row, "edible weight": 711.0})
    assert "piece-weight" in found({**row, "edible weight": 709.0})
