"""Doses: common practice as ranges, law and safety as refusals."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.errors import Impossible, OutOfRange, Refused, UnknownName
from brinecalc.tables import load
from brinecalc.trade import doses, ingredients, limits

AROMATIC = ("herb", "spice", "aromatic")
STRONG = ("clove", "cinnamon", "bay leaf", "juniper", "sage", "star anise", "chilli", "nutmeg", "mace", "saffron")


def test_sweeteners_are_1_to_5_per_cent_of_the_water():
    """Common practice, no source."""
    for made in ingredients.of_role("sweetener"):
        assert doses.usual_range(made.name, "immersion") == (0.01, 0.05)


def test_herbs_and_spices_are_half_to_5_per_cent_in_general():
    """Common practice, no source; single strong ones are far lower (judgement)."""
    assert doses.usual_range("herbs and spices", "immersion") == (0.005, 0.05)
    assert doses.usual_range("spices", "vegetable") == (0.005, 0.05)
    for row in load.rows("doses"):
        if ingredients.find(row["ingredient"]).role in AROMATIC:
            assert (row["high"] or 0.0) <= 0.05


@pytest.mark.parametrize("name", ["rosemary", "dried rosemary", "rosemary sprigs"])
def test_rosemary_is_at_most_half_a_per_cent(name):
    """Common practice, no source."""
    low, high = doses.usual_range(name, "immersion")
    assert 0 < low < high <= 0.005


@each("name", STRONG)
def test_strong_spices_stay_low(name):
    """Common practice, no source: strong ones far below the general range."""
    assert doses.usual_range(name, "immersion")[1] <= 0.01


@pytest.mark.parametrize("name", ["STPP", "SHMP", "TSPP", "phosphate blend"])
def test_phosphates_in_a_bath_are_0_02_to_0_3_per_cent(name):
    """Common practice, no source."""
    assert doses.usual_range(name, "immersion") == (0.0002, 0.003)


def test_calcium_chloride_is_at_most_0_03_per_cent_for_meat():
    """Common practice, no source."""
    assert doses.usual_range("calcium chloride", "immersion")[1] == 0.0003


@each("made", ingredients.of_role("phosphate"))
def test_phosphates_stop_at_the_legal_ceiling(made):
    """9 CFR 424.21(c), 2015: 0.5 % of the finished product; 5 % of the pickle at 10 % pump."""
    assert doses.dose(1000, 0.005, made.name, "immersion") == 5.0
    assert doses.dose(1000, 0.05, made.name, "injection") == 50.0
    for level, use in ((0.0051, "immersion"), (0.051, "injection")):
        with pytest.raises(Refused) as caught:
            doses.dose(1000, level, made.name, use)
        assert "legal ceiling" in caught.value.sentence()
        assert caught.value.argument == "level"


@each(
    ("name", "use", "most"),
    [
        ("sodium erythorbate", "immersion", 0.00546875),
        ("sodium ascorbate", "immersion", 0.00546875),
        ("erythorbic acid", "immersion", 0.0046875),
        ("calcium chloride", "immersion", 0.0025),
        ("calcium chloride", "vegetable", 0.004),
        ("fumaric acid", "immersion", 0.00065),
        ("sodium diacetate", "immersion", 0.0025),
        ("sodium lactate", "immersion", 0.048),
    ],
)
def test_legal_ceilings_are_kept_to_the_per_cent(name, use, most):
    """9 CFR 424.21(c): ten times 7/8 and 3/4 oz in 100 lb, 0.065 %, 0.25 %, 4.8 %; 21 CFR 184.1193: 0.25 and 0.4 %."""
    assert doses.dose(1000, most, name, use) == pytest.approx(1000 * most)
    with pytest.raises(Refused):
        doses.dose(1000, most * 1.01, name, use)


@pytest.mark.parametrize(
    ("name", "limit", "ounces"),
    [("sodium erythorbate", "erythorbate", 87.5), ("sodium ascorbate", "erythorbate", 87.5),
     ("erythorbic acid", "erythorbic acid", 75.0), ("ascorbic acid", "erythorbic acid", 75.0)],
)  # fmt: skip
def test_the_ceiling_of_a_pickle_follows_from_the_limit_on_the_meat_and_a_pump_of_a_tenth(name, limit, ounces):
    """9 CFR 424.21(c): 7/8 and 3/4 oz per 100 lb, 87.5 and 75 oz per 100 gal of pickle, at 10 lb to the gallon."""
    ceiling = doses.find(name, "immersion").ceiling
    assert ceiling * 0.1 * 1e6 == pytest.approx(limits.value(limit, "US"))
    assert ceiling == pytest.approx(ounces / 16 / 1000)


@pytest.mark.parametrize(
    ("name", "ppm"),
    [("sodium erythorbate", 550.0 * 216.12 / 198.11), ("sodium ascorbate", 550.0), ("erythorbic acid", 468.75)],
)  # fmt: skip
def test_a_lawful_pickle_may_be_dosed_down_to_a_pump_of_8_per_cent(name: str, ppm: float) -> None:
    """9 CFR 424.22(b)(1), 424.21(c): on the meat, so of the water at a pump of 8 % of a pickle that is 60 % water."""
    level = ppm / 1e6 / 0.08 / 0.6
    assert doses.dose(1000.0, level * 0.999, name, "injection") == pytest.approx(999.0 * level)
    with pytest.raises(Refused, match="limit is on the meat"):
        doses.dose(1000.0, level * 1.1, name, "injection")


@pytest.mark.parametrize("level", [0.005469, 0.00546876, 0.006])
def test_a_level_and_the_ceiling_it_passes_never_look_alike(level: float) -> None:
    with pytest.raises(Refused) as caught:
        doses.dose(1000.0, level, "sodium erythorbate", "immersion")
    assert caught.value.got not in (None, "0.546875 %")
    assert "at most 0.546875 %" in caught.value.rule
    assert doses.dose(1000.0, 0.00546875, "sodium erythorbate", "immersion") == 5.46875


def test_above_the_usual_range_is_not_refused():
    figures = doses.find("fresh rosemary", "immersion")
    assert doses.dose(1000, 0.02, "rosemary", "immersion") == 20.0
    assert doses.above_usual(0.02, figures)
    assert not doses.above_usual(0.005, figures)


def test_salt_stops_where_it_no_longer_dissolves():
    """Kaufmann: 35.92 g in 100 g of water at 20 °C."""
    assert doses.dose(1000, 0.359, "salt", "immersion") == pytest.approx(359)
    with pytest.raises(Impossible) as caught:
        doses.dose(1000, 0.36, "salt", "immersion")
    assert "dissolves" in caught.value.sentence()


@pytest.mark.parametrize(
    ("role", "points_to"), [("cure", "BRINE_CURE"), ("alkali", "baking soda"), ("mineral acid", "citric acid")]
)
def test_the_dangerous_are_never_dosed(role, points_to):
    for made in ingredients.of_role(role):
        with pytest.raises(Refused) as caught:
            doses.dose(1000, 1e-6, made.name, "immersion")
        assert points_to in caught.value.sentence()
        with pytest.raises(Refused):
            doses.usual_range(made.name, "immersion")


def test_a_use_that_is_not_customary_is_said_to_be_so():
    with pytest.raises(Impossible) as caught:
        doses.dose(1000, 0.001, "STPP", "vegetable")
    assert "immersion and injection" in caught.value.sentence()


def test_an_unknown_ingredient_is_unknown():
    with pytest.raises(UnknownName):
        doses.dose(1000, 0.001, "stardust", "immersion")


def test_every_row_gives_a_dose_up_to_its_stop_and_none_above():
    rows = [(row["ingredient"], use) for row in load.rows("doses") for use in row["uses"] if use != doses.DRY]
    assert len(rows) > 350
    for name, use in rows:
        figures = doses.find(name, use)
        level = figures.stop if figures.stop is not None else figures.high
        assert doses.dose(100, level, name, use) == pytest.approx(100 * level), (name, use)
        if figures.stop is not None:
            with pytest.raises((Refused, Impossible)):
                doses.dose(100, min(0.999, 1.001 * figures.stop), name, use)


def test_of_a_liquid_more_than_of_the_water_may_be_taken_and_of_nothing_else():
    """Mass balance: two parts of vinegar to one of water is a level of 200 %."""
    assert doses.dose(1000.0, 2.0, "cider vinegar", "vegetable") == 2000.0
    with pytest.raises(OutOfRange) as caught:
        doses.dose(1000.0, 2.0, "fresh dill", "vegetable")
    assert caught.value.sentence() == (
        "level must be below 100 % for fresh dill, which is no liquid, got 200 %; write 2% or 0.02 for 2 per cent."
    )


def test_who_dips_in_phosphate_is_told_how_to_weigh_it():
    """9 CFR 424.21(c): 0.5 % of the finished product, 5 % of a pickle."""
    with pytest.raises(Refused, match="BRINE_IN_PRODUCT"):
        doses.dose(1000.0, 0.04, "STPP", "immersion")
    assert doses.dose(1000.0, 0.04, "STPP", "injection") == 40.0
    with pytest.raises(Refused):
        doses.dose(1000.0, 0.051, "STPP", "injection")


def test_who_asks_for_a_use_without_custom_is_told_which_there_are():
    with pytest.raises(Impossible) as caught:
        doses.dose(1000.0, 0.001, "STPP", "vegetable")
    assert caught.value.sentence() == (
        'ingredient has no customary use in pickles, got "sodium tripolyphosphate"; '
        "it is used for immersion and injection."
    )


@pytest.mark.parametrize("name", ["buttermilk", "whole milk", "beer", "white wine", "orange juice", "chicken stock"])
def test_what_is_poured_may_stand_in_the_place_of_all_the_water(name):
    assert doses.dose(1000.0, 1.0, name, "immersion") == 1000.0


def test_a_dose_over_the_legal_ceiling_is_told_the_most_in_per_cent():
    """9 CFR 424.21: half a per cent of phosphate."""
    with pytest.raises(Refused, match=r"use at most 0\.5 %"):
        doses.dose(1000.0, 0.01, "STPP", "immersion")


def test_a_ceiling_is_a_share_of_the_water_where_the_table_does_not_say_otherwise():
    assert (doses.find("sodium acetate", "immersion").of_what, doses.find("sodium acetate", "immersion").share_of) == (
        None,
        "water",
    )
    assert doses.find("sodium tripolyphosphate", "immersion").share_of == "product"
    assert doses.find("sodium tripolyphosphate", "injection").share_of == "pickle"


@pytest.mark.parametrize(("use", "whose"), [("immersion", "of the finished product"), ("injection", "of the pickle")])
def test_who_is_over_a_legal_ceiling_is_told_what_it_is_a_share_of(use: str, whose: str):
    """9 CFR 424.21(c): half a per cent of the product, or 5 % of a pickle that adds a tenth."""
    with pytest.raises(Refused, match=rf"the legal ceiling \({whose}\)"):
        doses.dose(1000.0, 0.06, "sodium tripolyphosphate", use)


def test_the_ceiling_of_nutmeg_rests_on_reported_poisonings() -> None:
    """Forensic Sci. Int. 118:87 (2001), abstract, and a summary of toxicology reports: 5 to 30 g act on the mind."""
    rows = [row for row in load.rows("doses") if row["ingredient"] in ("nutmeg", "mace") and row["ceiling"]]
    assert {row["source"] for row in rows} == {"nutmeg-poisoning"}
    assert max(row["ceiling"] for row in rows) * 1000.0 <= 5.0
