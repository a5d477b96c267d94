"""Doses against the usual range and the ceilings of each use."""

from __future__ import annotations

import pytest

from tests.trade.cases import found, of


def test_a_dip_in_phosphate_is_judged_by_what_stays_in_the_product():
    """4 % of the water, of which 5 % stays, is 0.18 % of the product, below the 0.5 % of 9 CFR 424.21(c)."""
    dip = {"product": "peeled shrimp", "ingredient": "sodium tripolyphosphate", "level": 0.04, "gain": 0.05}
    assert "above-usual" in found(dip)
    assert not set(found(dip)) & {"over-ceiling", "phosphate-product"}
    assert "phosphate-product" in found({**dip, "gain": 0.16})
    assert "over-ceiling" in found({key: value for key, value in dip.items() if key != "gain"})


def test_a_vegetable_takes_the_vinegar_of_a_pickle_and_meat_does_not():
    """The usual range by use in the table of doses: 20 to 95 % of the water for vegetables, up to 20 % for a soak."""
    pickle = {"ingredient": "cider vinegar", "level": 0.5, "water": 1000.0}
    assert "above-usual" not in found({**pickle, "product": "cucumber"})
    assert "above-usual" in found({**pickle, "product": "pork chop"})


def test_each_of_several_ingredients_is_held_against_its_own_ceiling():
    """Citric acid and tartaric acid taste of too much above 2 % of the water (a judgement), in any place."""
    named = [("bay leaf", 0.001), ("sodium tripolyphosphate", 0.001), ("citric acid", 0.021), ("tartaric acid", 0.03)]
    row: "dict[str, object]" = {}
    for number, (name, level) in enumerate(named, 1):
        row.update({f"ingredient {number}": name, f"level {number}": level})
    hits = of("ceiling-taste", row)
    assert [hit.sentence.partition(" ")[0] for hit in hits] == ["Citric", "Tartaric"]
    assert "2 % of the water" in hits[0].sentence


@pytest.mark.parametrize(
    "name", ["potassium chloride", "potassium citrate", "potassium bicarbonate", "potassium lactate"]
)
def test_potassium_in_any_form_is_told_of(name: str):
    assert "potassium" in found({"ingredient": name, "level": 0.01})
    assert "potassium" not in found({"ingredient": "sodium citrate", "level": 0.01})
