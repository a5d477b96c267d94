"""Which sour thing a finding speaks of."""

from __future__ import annotations

import pytest

from brinecalc.trade.findings import all_of


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
