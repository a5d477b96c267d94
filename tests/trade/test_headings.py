"""Headings: case, order, brackets, units, numbers, missing columns, and those that are not known."""

from __future__ import annotations

import random

import pytest
from each import each

from brinecalc.errors import Unreadable
from brinecalc.trade import headings
from brinecalc.trade.findings import all_of, worst
from tests.trade.cases import BACON, CURED, found, said


@each("heading", "Bath Temperature;BATH TEMPERATURE; bath  temperature ;Brine temp;bath temperature (°C)".split(";"))
def test_case_and_brackets_do_not_matter(heading: str) -> None:
    assert "brine-warm" in [f.rule.id for f in all_of([heading], [9.0])]


def test_a_unit_in_the_heading_holds_for_bare_numbers() -> None:
    assert "brine-warm" not in [f.rule.id for f in all_of(["bath temperature (°F)"], [40.0])]
    assert "brine-warm" in [f.rule.id for f in all_of(["bath temperature (°F)"], [45.0])]
    assert "brine-warm-start" in [f.rule.id for f in all_of(["bath temperature (°F)"], ["40 °C"])]


def test_order_does_not_matter() -> None:
    row = {**BACON, "liquid": "cola", "water": 900.0, "ingredient 1": "rosemary", "level 1": 0.01}
    items = list(row.items())
    expected = sorted(found(row))
    for seed in range(20):
        random.Random(seed).shuffle(items)
        assert sorted(found(dict(items))) == expected


def test_many_pairs_of_ingredient_and_level() -> None:
    headings = ["ingredient", "level", "ingredient", "level", "ingredient", "level"]
    values = ["bay leaf", 0.001, "rosemary", 0.02, "black peppercorns", 0.01]
    hits = [f for f in all_of(headings, values) if f.rule.id == "ceiling-taste"]
    assert [("osemary" in f.sentence) for f in hits] == [True]
    grouped = all_of(["ingredient", "ingredient", "level", "level"], ["bay leaf", "rosemary", 0.001, 0.02])
    assert [f.rule.id for f in grouped].count("ceiling-taste") == 1


def test_numbers_pair_columns_before_order_does() -> None:
    headings = ["level 2", "ingredient 1", "ingredient 2", "level 1"]
    hits = [f.rule.id for f in all_of(headings, [0.02, "rosemary", "black peppercorns", 0.004])]
    assert "ceiling-taste" not in hits


def test_foreign_columns_are_left_alone() -> None:
    assert worst(["price", "supplier", None, 7, "notes"], [3.5, "anyone", "x", 1, "cola"]) == "ok"


def test_rows_of_unequal_length_are_refused() -> None:
    with pytest.raises(Unreadable, match="as many cells"):
        worst(["product", "weight"], ["pork chop"])


@each(
    "heading",
    "aciid;alkalli;liquidd;acid masss;pph;bath temperatur;soak hourss;reusedd;packagin;vessel matrial".split(";"),
)
def test_a_slip_in_a_heading_that_safety_hangs_on_is_no_own_column_of_the_user(heading: str) -> None:
    assert "heading-unknown" in found({heading: 5.0})


@each("word", "mass weight amount quantity dose level percentage share added used grams oz".split())
def test_a_word_for_an_amount_is_no_part_of_the_name(word: str) -> None:
    assert headings._without_amounts(f"apple vinegar {word}") == "apple vinegar"


def test_words_for_an_amount_fall_away_from_the_end_one_by_one():
    assert headings._without_amounts("vinegar used in g") == "vinegar"


def test_a_heading_of_two_words_is_read_without_its_unit():
    assert headings._without_amounts("vinegar g") == "vinegar"
    assert headings._without_amounts("white sugar g kg") == "white sugar"


class TestUnknownHeadings:
    """A value under a heading that is not known is never passed over in silence."""

    @pytest.mark.parametrize("heading", ["saltpetre", "Saltpeter", "niter", "nitre", "salt peter", "nitrate", "KNO3"])
    def test_a_column_headed_with_nitrate_stops_bacon(self, heading: str) -> None:
        row = {"product": "pork belly", "edible weight": 5000.0, heading: "5 g", "method": "dry"}
        assert said(row).startswith("STOP cure: ")
        assert "nitrate-bacon" in found(row)

    def test_a_column_headed_with_pure_nitrite_stops_the_batch(self) -> None:
        assert "pure-nitrite" in found({"product": "pork shoulder", "sodium nitrite (g)": 1.0})

    def test_a_column_headed_with_an_acid_meets_the_curing_salt(self) -> None:
        assert "nitrite-acid" in found({**CURED, "water": 5000.0, "vinegar": 300.0})
        assert "nitrite-ph" in found({**CURED, "water": 5000.0, "citric acid (g)": 30.0})
        assert said({**CURED, "product": "pork shoulder", "edible weight": 9e3, "vinegar": 0}) == "ok"

    @pytest.mark.parametrize("heading", ["lye", "lye (g)", "caustic soda amount", "drain cleaner mix"])
    def test_a_column_headed_with_an_alkali_stops_raw_meat(self, heading: str) -> None:
        assert said({"product": "chicken breast", heading: 3.0}).startswith("STOP acid: ")

    def test_the_nearest_heading_is_named(self) -> None:
        assert said({"pieces in": 8.0}) == (
            'NOTE row: The column "pieces in" was not read, so nothing in it was checked. '
            'Head it "pieces" if that is meant, or "note" if it is your own; '
            "brinecalc functions CHECK lists the headings."
        )
        assert said({"soaking hrs": 8.0}).endswith("If it is meant as soak hours, head it so.")
        assert 'Head it "note"' in said({"zzz": 1.0})

    def test_the_sheets_own_notes_are_left_alone(self) -> None:
        assert said({"batch": 3, "Notes": "for Friday", "cost": 12.5, "cook": "A."}) == "ok"
        assert said({"product": "pork chop", "For": "Friday dinner"}) == "ok"

    def test_duration_is_the_time_in_the_brine(self) -> None:
        assert "brine-warm-long" in found({"product": "pork chop", "temperature": 9.0, "duration": 8.0})
