"""The worksheet functions of acids and bases: values, the inverse, refusals and their reasons."""

from __future__ import annotations

import json
import re

import pytest
from each import each

from brinecalc import registry
from tests.published import rows

call, why = registry.call, registry.why

NAMED = {
    "H3Citrate": "citric acid", "Na3Citrate": "sodium citrate anhydrous", "HAcetate": "acetic acid",
    "NaAcetate": "sodium acetate", "H3PO4": "phosphoric acid", "NaH2PO4": "monosodium phosphate",
    "Na2HPO4": "disodium phosphate", "NaHCO3": "baking soda", "Na2CO3": "washing soda", "NaOH": "lye",
    "Ca(OH)2": "slaked lime",
}  # fmt: skip
SIT_ROWS = [row for row in rows("ph_grid") if row["sit"] != ""]


@each("row", SIT_ROWS)
def test_ph_matches_the_sit_grid_through_the_worksheet(row: dict) -> None:
    """reference/ph_grid.csv, SIT column; its grams per kg of solution become parts of the water here."""
    additives = json.loads(row["additives"])
    water = 1000.0 - row["salt"] - sum(additives.values())
    names = [[NAMED[name]] for name in additives] or [[None]]
    masses = [[grams] for grams in additives.values()] or [[None]]
    found = call("BRINE_PH", water, names, masses, row["salt"] / water, 0 if row["water"] == "pure" else 200)
    assert found == pytest.approx(row["sit"], abs=0.10 if row["sit"] < 7.0 else 0.25)


def test_fresh_soda_brine_as_kitchens_know_it() -> None:
    """domain figures: 5 g/kg of baking soda 8.07 in water, 7.63 in 5 % brine (computed, SIT)."""
    assert call("BRINE_PH", 1000, "baking soda", 5) == pytest.approx(8.07, abs=0.02)
    assert call("BRINE_PH", 1000, "baking soda", 5, "5%") == pytest.approx(7.63, abs=0.02)


def test_plain_water_is_seven() -> None:
    """Half of 13.997, the ion product of water at 25 °C (CRC Handbook, from memory)."""
    assert call("BRINE_PH", 1000, "", "") == "#VALUE!"
    assert call("BRINE_PH", 1000, [[None]], [[None]]) == pytest.approx(7.0, abs=0.005)


def test_masses_and_water_in_any_unit_and_any_batch_size() -> None:
    """Definition: pH depends on proportions only."""
    here = call("BRINE_PH", 1000, [["vinegar"], ["sugar"]], [[50], [20]], "5%", 100)
    assert call("BRINE_PH", "2 kg", [["vinegar"], ["sugar"]], [["100 g"], [40]], 0.05, 100) == pytest.approx(
        here, abs=1e-10
    )
    assert call("BRINE_PH", 1, [["vinegar", "sugar"]], [[0.05, 0.02]], 0.05, 100) == pytest.approx(here, abs=1e-10)


def test_blank_rows_are_left_out_and_a_forgotten_mass_is_seen() -> None:
    rows_given = [["citric acid"], [None], [""]]
    assert call("BRINE_PH", 1000, rows_given, [[5], [None], [0]]) == call("BRINE_PH", 1000, "citric acid", 5)
    for blank in (None, 0):
        assert call("BRINE_PH", 1000, [["vinegar"], ["salt"]], [[blank], [50]]) == "#NUM!"
    assert 'masses must be above 0 g for "vinegar"' in why("BRINE_PH", 1000, "vinegar", 0)
    assert call("BRINE_PH", 1000, [[None]], [[5]]) == "#VALUE!"
    assert "ingredients is missing" in why("BRINE_PH", 1000, [[None]], [[5]])


def test_salt_as_ingredient_or_as_strength_is_the_same() -> None:
    """Definition: 50 g in 1000 g of water is a strength of 5 %."""
    listed = call("BRINE_PH", 1000, [["salt"], ["citric acid"]], [[50], [5]])
    assert listed == pytest.approx(call("BRINE_PH", 1000, "citric acid", 5, 0.05), abs=1e-9)


def test_herbs_and_sugar_are_neutral() -> None:
    """Common practice, no source."""
    alone = call("BRINE_PH", 1000, "vinegar", 30, 0.05)
    assert call("BRINE_PH", 1000, [["vinegar"], ["thyme"], ["sugar"]], [[30], [5], [30]], 0.05) == pytest.approx(
        alone, abs=0.01
    )


@each("ingredient", ["citric acid", "vinegar", "cider vinegar", "lemon juice", "lime juice", "white wine"])
@each("target", [4.75, 4.2, 3.7])
@each("alkalinity", [0, 200])
def test_dose_fed_back_gives_the_target(ingredient: str, target: float, alkalinity: float) -> None:
    """The inverse: BRINE_PH of BRINE_PH_DOSE is the target to 1e-9."""
    mass = call("BRINE_PH_DOSE", target, 1000, ingredient, 0.05, alkalinity, 4)
    assert isinstance(mass, float)
    assert call("BRINE_PH", 1000, ingredient, mass, 0.05, alkalinity, 4) == pytest.approx(target, abs=1e-9)
    assert call("BRINE_PH_DOSE", target, 3000, ingredient, 0.05, alkalinity, 4) == pytest.approx(3 * mass, rel=1e-12)


@each(
    ("ingredient", "target"),
    [("baking soda", 7.5), ("washing soda", 8.8), ("sodium citrate", 7.9), ("STPP", 8.5), ("DSP", 8.3), ("TSP", 9)],
)
def test_upward_dose_fed_back_gives_the_target(ingredient: str, target: float) -> None:
    mass = call("BRINE_PH_DOSE", target, 1000, ingredient, 0.05)
    assert mass > 0.0
    assert call("BRINE_PH", 1000, ingredient, mass, 0.05) == pytest.approx(target, abs=1e-9)


def test_more_alkaline_water_takes_more_acid_and_colder_water_answers_too() -> None:
    soft, hard = (call("BRINE_PH_DOSE", 4.5, 1000, "vinegar", 0.05, alkalinity) for alkalinity in (20, 250))
    assert hard > 5 * soft


def test_baking_soda_tops_out_and_the_reason_says_what_people_use() -> None:
    """domain figures: near 7.6 in 5 % brine, 8.3 without salt."""
    for strength, end in (("5%", 7.6), (0, 8.3)):
        assert call("BRINE_PH_DOSE", 8.5, 1000, "baking soda", strength) == "#NUM!"
        said = why("BRINE_PH_DOSE", 8.5, 1000, "baking soda", strength)
        top = re.search(r"tops out near pH (\d\.\d+)", said)
        assert top is not None
        assert float(top[1]) == pytest.approx(end, abs=0.06)
        for part in ("BRINE_PH_DOSE: target_ph", "got 8.5", "washing soda", "gloves", "aluminium", "licensed process"):
            assert part in said


def test_an_unreachable_acid_target_names_what_gets_there() -> None:
    assert call("BRINE_PH_DOSE", 3, 1000, "orange juice", 0.05, 200) == "#NUM!"
    said = why("BRINE_PH_DOSE", 3, 1000, "orange juice", 0.05, 200)
    mass = re.search(r"citric acid gets there, ([\d.]+) g", said)
    assert "no lower than" in said
    assert mass is not None
    assert call("BRINE_PH", 1000, "citric acid", float(mass[1]), 0.05, 200) == pytest.approx(3.0, abs=0.01)


def test_the_wrong_way_is_said_to_be_so() -> None:
    said = why("BRINE_PH_DOSE", 4, 1000, "baking soda", 0.05)
    assert "starts at pH" in said
    assert "the other way" in said


@each("name", ["lye", "caustic soda", "potassium hydroxide", "slaked lime", "pickling lime"])
def test_strong_alkali_is_refused_as_a_dose_with_the_rule(name: str) -> None:
    assert call("BRINE_PH_DOSE", 8, 1000, name) == "#NUM!"
    said = why("BRINE_PH_DOSE", 8, 1000, name)
    for part in ("not worked out as a dose", "9 CFR 424.21(c)", "licensed process", "local rules", "baking soda"):
        assert part in said


@each("name", ["hydrochloric acid", "sulphuric acid", "nitric acid", "phosphoric acid", "phosphoric acid 85 %"])
def test_mineral_acid_is_refused_as_a_dose(name: str) -> None:
    assert call("BRINE_PH_DOSE", 4, 1000, name) == "#NUM!"
    said = why("BRINE_PH_DOSE", 4, 1000, name)
    for part in ("not worked out as a dose", "licensed process", "citric acid"):
        assert part in said


def test_lye_is_still_told_its_ph() -> None:
    """domain figures: 1 g/kg of lye is pH 12.3, 5 g/kg 12.97 (computed, SIT)."""
    assert call("BRINE_PH", 1000, "lye", 1) == pytest.approx(12.33, abs=0.02)
    assert call("BRINE_PH", 995, "lye", 5) == pytest.approx(12.99, abs=0.02)


@each("cure", ["curing salt no. 1", "pink salt", "nitrite salt 0.6 %", "sodium nitrite", "saltpetre"])
@each("acid", ["cola", "ascorbic acid", "vinegar", "lemon juice", "white wine", "buttermilk"])
def test_nitrite_with_acid_gets_no_number(cure: str, acid: str) -> None:
    grams = 900 if acid in ("cola", "buttermilk", "white wine") else 20
    assert call("BRINE_PH", 1000, [[cure], [acid]], [[5], [grams]], 0.05) == "#NUM!"
    said = why("BRINE_PH", 1000, [[cure], [acid]], [[5], [grams]], 0.05)
    assert "poisonous gas" in said
    assert "erythorbate, never the acid" in said


def test_cure_alone_is_told_its_ph() -> None:
    assert 6.5 < call("BRINE_PH", 1000, [["curing salt no. 1"], ["sodium erythorbate"]], [[10], [0.5]], 0.05, 50) < 8.0


BAD = [
    # arguments, error, words of the reason
    ((0, "vinegar", 5), "#NUM!", "water must be above 0"),
    (("a lot", "vinegar", 5), "#VALUE!", "water"),
    ((1000, "unobtainium", 5), "#N/A", "not a known ingredient"),
    ((1000, "lemon joice", 5), "#N/A", "lemon juice"),
    ((1000, 7, 5), "#VALUE!", "ingredients must be names"),
    ((1000, "vinegar", "5 cm"), "#VALUE!", "masses"),
    ((1000, "vinegar", -5), "#NUM!", "masses must be above 0 g"),
    ((1000, [["vinegar"], ["salt"]], [[5]]), "#VALUE!", "as many cells"),
    ((1000, "vinegar", 5, 0.3), "#NUM!", "strength must be at least 0 % and at most 17.5 %"),
    ((1000, "vinegar", 5, 5), "#NUM!", "5%"),
    ((1000, "vinegar", 5, 0.05, -1), "#NUM!", "alkalinity"),
    ((1000, "vinegar", 5, 0.05, 100, 60), "#NUM!", "temperature must be at least 0 °C and at most 40 °C"),
    ((1000, "GDL", 5), "#NUM!", "only over hours"),
    ((1000, "cream of tartar", 50), "#NUM!", "dissolves"),
    ((1000, "sodium citrate", 600), "#NUM!", "4.5 mol"),
    ((1000, "vinegar 0 %", 5), "#NUM!", "strength"),
    ((1000, [["vinegar"], ["#N/A"]], [[5], [5]]), "#N/A", "#N/A"),
    ((1000, "vinegar", "#DIV/0!"), "#DIV/0!", "#DIV/0!"),
]


@each(("cells", "error", "words"), BAD)
def test_bad_input_is_refused_with_a_reason(cells: tuple, error: str, words: str) -> None:
    assert call("BRINE_PH", *cells) == error
    said = why("BRINE_PH", *cells)
    assert words in said
    assert said.startswith("BRINE_PH: ")


BAD_DOSE = [
    ((2.9, 1000, "citric acid"), "#NUM!", "target_ph must be at least 3 and at most 9"),
    ((9.5, 1000, "washing soda"), "#NUM!", "target_ph"),
    (("sour", 1000, "citric acid"), "#VALUE!", "target_ph"),
    ((4, 1000, ""), "#VALUE!", "ingredient is missing"),
    ((4, 1000, "salt"), "#NUM!", "not used to set the pH"),
    ((4, 1000, "soy sauce"), "#NUM!", "not used to set the pH"),
    ((4, 1000, "alum"), "#NUM!", "measure it"),
    ((4, 1000, "thyme"), "#NUM!", "not used to set the pH"),
    ((4, 1000, "sitric acid"), "#N/A", "citric acid"),
    ((4, 0, "citric acid"), "#NUM!", "water must be above 0"),
]


@each(("cells", "error", "words"), BAD_DOSE)
def test_bad_dose_is_refused_with_a_reason(cells: tuple, error: str, words: str) -> None:
    assert call("BRINE_PH_DOSE", *cells) == error
    said = why("BRINE_PH_DOSE", *cells)
    assert words in said
    assert said.startswith("BRINE_PH_DOSE: ")


def test_scalar_arguments_may_be_ranges() -> None:
    """One brine at two strengths and two temperatures: a table of four answers."""
    found = call("BRINE_PH", 1000, "citric acid", 5, [[0], [0.05]], 0, [[4, 25]])
    assert [len(row) for row in found] == [2, 2]
    assert found[1][1] == call("BRINE_PH", 1000, "citric acid", 5, 0.05)
    assert call("BRINE_PH_DOSE", [[4.5], [1]], 1000, "citric acid")[1] == ["#NUM!"]


def test_help_says_what_the_number_is_not() -> None:
    for name in ("BRINE_PH", "BRINE_PH_DOSE"):
        notes = registry.spec(name).notes
        for part in ("closed", "before product goes in", "no evidence for an acidified food", "21 CFR 114"):
            assert part in notes
    assert "0.25 in alkaline" in registry.spec("BRINE_PH").notes
    assert "drifts up" in registry.spec("BRINE_PH").notes


def test_a_strong_alkali_is_told_of():
    """pH 11: a judgement, as in limits.csv."""
    said = why("BRINE_PH", 1000, [["lye"]], [[10]])
    for part in ("ok, but pH 13.", "pH 11", "judgement", "burns skin", "never in aluminium", "raw meat"):
        assert part in said
    assert why("BRINE_PH", 1000, [["baking soda"]], [[10]]) == "ok"


def test_a_dose_for_water_without_alkalinity_is_told():
    """What it takes in tap water is the dose at 50 mg/L: the remark and the function agree."""
    said = why("BRINE_PH_DOSE", 4.6, 1000, "vinegar")
    tap = call("BRINE_PH_DOSE", 4.6, 1000, "vinegar", 0, 50)
    assert said.startswith("ok, but this is for water without alkalinity")
    assert f"with 50 mg/L as CaCO3, little for tap water, it takes {tap:.3g} g" in said
    assert "water report" in said
    assert why("BRINE_PH_DOSE", 4.6, 1000, "vinegar", 0, 100) == "ok"
