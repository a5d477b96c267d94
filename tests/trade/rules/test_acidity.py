"""Which sour thing a finding speaks of."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.trade.findings import all_of
from tests.trade.cases import found


@pytest.mark.parametrize(
    ("liquids", "name"),
    [
        (["stock", "cola"], "Cola"),
        (["red" + " " * 50 + "wine"], "Red wine"),
        (["red wine" + "!" * 50], "Red wine"),
        (["water", "cider vinegar"], "Cider vinegar"),
    ],
)
def test_the_sour_one_of_several_liquids_is_named_by_its_name(liquids: list[str], name: str) -> None:
    hits = all_of(["product", *["liquid"] * len(liquids)], ["pork shoulder", *liquids])
    assert [
        hit.sentence.partition(" is sour")[0].rpartition("liquid: ")[2] for hit in hits if hit.rule.id == "sour-liquid"
    ] == [name]


@each("water", ["water", "ice", "tap water", "ice water", "fresh water"])
@each("heading", ["liquid", "ingredient 1"])
def test_soda_may_meet_water_but_no_other_drink(heading: str, water: str) -> None:
    row = {"product": "cucumber", "ingredient 2": "baking soda", "level 2": 0.01}
    assert "must-not-meet" not in found({**row, heading: water})
    assert {"must-not-meet", "acid-soda"} & set(found({**row, heading: "ginger ale"}))
