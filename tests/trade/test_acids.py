"""What ingredients bring to the pH of a brine, and that every name a cook would type leads somewhere sensible."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.errors import BrineError, Impossible, OutOfRange, Refused, UnknownName
from brinecalc.science import scales
from brinecalc.science.equilibria import Mixture
from brinecalc.science.species import charges
from brinecalc.tables import load
from brinecalc.trade import acid_rules, acids, limits, own
from tests.published import rows
from tests.refusals import Refusal, check

ROWS = load.rows("acid_ingredients")
CHEMISTRY = {
    "acid", "base", "alkali", "mineral acid", "phosphate", "preservative", "antioxidant", "juice", "vinegar", "wine",
    "dairy", "sauce", "cure", "calcium", "salt substitute",
}  # fmt: skip
FINER = {"vinegar essence"}
"""Names that the ingredient table files under a neighbour, and that differ in strength."""


@each("row", [row for row in ROWS if row["ph_low"]])
def test_a_liquid_alone_has_its_usual_ph(row: load.Row) -> None:
    """Usual pH of foods (FDA list and common practice, from memory); the saltiest stand in twice their water."""
    part = acids.find(row["ingredient"])
    try:
        found = acids.ph(1e-6, [(part, 1000.0)])
    except OutOfRange:
        found = acids.ph(2000.0, [(part, 1000.0)])
    assert row["ph_low"] <= found <= row["ph_high"]


def test_content_lists_known_ingredients_and_substances_and_is_not_over_full() -> None:
    named = {row["ingredient"] for row in ROWS}
    content: dict[str, float] = {}
    for row in load.rows("acid_content"):
        assert row["ingredient"] in named
        assert row["substance"] in acids.substances()
        content[row["ingredient"]] = content.get(row["ingredient"], 0.0) + row["share"]
    for row in ROWS:
        assert content.get(row["ingredient"], 0.0) + row["water"] <= 1.0 + 1e-9, row["ingredient"]
        assert row["role"] in ("cannot", "neutral") or row["ingredient"] in content, row["ingredient"]
        assert not row["scaled"] or row["scaled"] in acids.substances()
        assert row["note"] or row["role"] != "cannot", row["ingredient"]
    assert (len(ROWS), len(load.rows("acid_content")), len(acids.substances())) == (129, 277, 61)


def test_a_hardness_is_weighed_as_calcium_carbonate() -> None:
    """100 mg/L of it is 1.9983 meq/L (molar mass 100.087, IUPAC atomic masses), in a litre that weighs 0.9982 kg."""
    water = acids.water_alone(0.0, 100.0)
    assert dict(water.acids)["carbonate"] == pytest.approx(100.0 / (100.087 / 2) / 1000.0 / 0.998207, rel=2e-5)
    assert water.calcium == pytest.approx(0.5 * dict(water.acids)["carbonate"])


def test_acid_tables_hold_together() -> None:
    """Every pair, coefficient and substance refers to an acid that has its constants, weakest proton last."""
    known = charges()
    for table in ("sit_reactions", "sit_coefficients", "acid_substances"):
        assert {row["acid"] for row in load.rows(table) if row["acid"]} <= set(known)
    for acid in known:
        steps = [row for row in load.rows("acids") if row["acid"] == acid]
        assert [row["step"] for row in steps] == list(range(1, len(steps) + 1))
        assert [row["pka"] for row in steps] == sorted(row["pka"] for row in steps)


def test_every_listed_ingredient_has_a_ph_or_a_reason() -> None:
    """The ingredient table: herbs and sugars are neutral, acids and bases are known, the rest says measure it."""
    without = []
    for row in load.rows("ingredients"):
        for name in (row["name"], *row["aliases"]):
            try:
                found = acids.find(name)
            except Impossible:
                without.append(name)
                continue
            assert found.role in ("neutral", "cannot") or row["role"] in CHEMISTRY or found.each.acids, name
    assert without == []


def test_both_tables_mean_the_same_by_a_name() -> None:
    for row in load.rows("ingredients"):
        met = {acids.find(name).name for name in (row["name"], *row["aliases"]) if name not in FINER}
        assert len(met) == 1, (row["name"], met)


def test_sodium_of_pure_substances_agrees_with_atomic_masses() -> None:
    """reference/additives_sodium_p2o5.csv; sodium is counted by the mole."""
    alike = {
        "sodium bicarbonate NaHCO3": "baking soda", "sodium carbonate Na2CO3": "washing soda",
        "sodium tripolyphosphate Na5P3O10": "STPP", "tetrasodium pyrophosphate Na4P2O7": "TSPP",
        "sodium acid pyrophosphate Na2H2P2O7": "SAPP", "disodium phosphate Na2HPO4": "DSP",
        "monosodium phosphate NaH2PO4": "MSP", "trisodium phosphate Na3PO4": "TSP",
        "trisodium citrate dihydrate": "sodium citrate", "sodium acetate anhydrous": "sodium acetate",
        "sodium diacetate": "sodium diacetate", "monosodium glutamate monohydrate": "MSG",
        "sodium lactate 60 % syrup": "sodium lactate", "sodium erythorbate monohydrate": "sodium erythorbate",
    }  # fmt: skip
    seen = 0
    for row in rows("additives_sodium_p2o5"):
        if row["substance"] in alike:
            part = acids.find(alike[row["substance"]])
            assert part.each.sodium * 22.98977 * 100.0 == pytest.approx(row["sodium_mass_pct"], rel=2e-3), part.name
            seen += 1
    assert seen == len(alike)


@each(
    ("typed", "name"),
    [
        ("Vinegar", "white vinegar"), ("apple cider vinegar", "cider vinegar"), ("fresh lemon juice", "lemon juice"),
        ("bicarb", "baking soda"), ("Sodium Bicarbonate", "baking soda"), ("STPP", "sodium tripolyphosphate"),
        ("trisodium citrate", "sodium citrate"), ("yoghurt", "yogurt"), ("lactic acid 88%", "lactic acid"),
        ("pickling lime", "slaked lime"), ("caustic soda", "lye"), ("muriatic acid", "hydrochloric acid"),
        ("cola", "cola"), ("GDL", "glucono delta-lactone"), ("wine", "red wine"), ("sour salt", "citric acid"),
    ],
)  # fmt: skip
def test_names_a_cook_would_type(typed: str, name: str) -> None:
    assert acids.find(typed).name == name


def test_a_strength_written_with_the_name_counts() -> None:
    """Definition: 5 g at 10 % hold as much as 10 g at 5 %, and less water."""
    for typed in ("vinegar 10 %", "10% vinegar", "vinegar, 10 % acidity", "vinegar 10 per cent"):
        strong = acids.find(typed)
        assert strong.each.protons == pytest.approx(2.0 * acids.find("vinegar").each.protons, rel=1e-12)
        assert strong.water == pytest.approx(acids.find("vinegar").water - 0.05, abs=1e-12)
    assert acids.find("lactic acid 80 %").each.protons == pytest.approx(0.80 / 90.078, rel=1e-12)
    with pytest.raises(OutOfRange, match="above 0 % and at most 100 %"):
        acids.find("vinegar 150 %")
    with pytest.raises(OutOfRange, match="cannot carry a strength"):
        acids.find("baking soda 50 %")


def test_unknown_names_are_answered_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match="lemon juice"):
        acids.find("lemon joice")


def test_what_cannot_be_reckoned_says_why() -> None:
    for name in ("GDL", "alum", "baking powder", "chalk", "quicklime", "liquid smoke", "celery powder"):
        part = acids.find(name)
        with pytest.raises(BrineError) as caught:
            acids.ph(1000.0, [(part, 1.0)])
        assert part.note in str(caught.value)


def test_water_of_juice_joins_the_water() -> None:
    """Definition: 1000 g of water and 1000 g of vinegar at 94.8 % water are one brine of 1948 g of water."""
    vinegar = acids.find("vinegar")
    mix = acids.brine(1000.0, [(vinegar, 1000.0)], 0.05)
    assert mix.acids == (("acetate", pytest.approx(50.0 / 60.052 / 1.948, rel=1e-12)),)
    assert mix.chloride == pytest.approx(50.0 / 58.443 / 1.948, rel=1e-12)


def test_a_mole_of_salt_weighs_the_same_in_every_scale_and_brine() -> None:
    """Molality is moles per kg of water, in the scale as in the brine whose pH is reckoned (definition)."""
    moles = scales.convert(0.05, "water", "molal")
    assert acids.brine(1000.0, [], 0.05).chloride == pytest.approx(moles, rel=1e-12)
    assert acids.brine(1000.0, [(acids.find("curing salt"), 50.0)]).sodium < moles


def test_salt_as_an_ingredient_is_strength() -> None:
    for name in ("salt", "sea salt", "pickling salt"):
        found = acids.brine(1000.0, [(acids.find(name), 50.0)])
        assert found.chloride == pytest.approx(acids.brine(1000.0, [], 0.05).chloride, rel=1e-4)


def test_alkalinity_is_calcium_bicarbonate() -> None:
    """200 mg/L as CaCO3 is 4 meq/L (definition: 50.04 mg per meq)."""
    hard = acids.brine(1000.0, [], 0.0, 200.0)
    assert dict(hard.acids)["carbonate"] == pytest.approx(4.0e-3, rel=2e-3)
    assert hard.calcium == pytest.approx(2.0e-3, rel=2e-3)
    assert isinstance(hard, Mixture)


def test_own_ingredients_are_neutral_only_when_their_role_is() -> None:
    """An ingredient added by the user is never guessed to be neutral, and its sodium counts as salt."""
    own.extend("name,role,water,sugars,sodium\nHouse rub,spice,0,0,0.039337\nHouse sour,acid,0.5,0,0\n")
    try:
        rub = acids.find("house rub")
        assert rub.role == "neutral"
        assert rub.each.sodium == pytest.approx(0.1 / 58.443, rel=1e-4)
        with pytest.raises(Impossible, match="measure it"):
            acids.find("house sour")
    finally:
        own.forget()


def test_none_of_what_cannot_be_reckoned_does_no_harm() -> None:
    salted = acids.brine(1000.0, [(acids.find("salt"), 10.0)])
    assert acids.brine(1000.0, [(acids.find("salt"), 10.0), (acids.find("baking powder"), 0.0)]) == salted


def test_a_strength_may_be_written_with_a_comma() -> None:
    """7.5 % acetic acid, 60.05 g/mol, is 1.249 mmol per gram."""
    assert dict(acids.find("vinegar 7,5 %").each.acids)["acetate"] == pytest.approx(0.075 / 60.05, rel=1e-3)


def test_an_acid_may_be_all_acid() -> None:
    assert acids.find("lactic acid 100 %").each.protons == pytest.approx(1.0 / 90.078, rel=1e-12)


def brine_ph(*parts, water=1000.0):
    return acid_rules.checked_ph(water, [(acids.find(name), grams) for name, grams in parts], 0.05, 0.0, 25.0)


def test_the_table_of_limits_says_how_sour_a_brine_with_curing_salt_may_be(monkeypatch):
    """A row that is made stricter holds at once for what is refused, as it does for what is found."""
    cured = (("curing salt no. 1", 2.5), ("disodium phosphate", 1.0))
    found = brine_ph(*cured)
    monkeypatch.setattr(limits, "value", lambda name: {"nitrite ph": found - 0.1}[name])
    assert brine_ph(*cured) == found
    monkeypatch.setattr(limits, "value", lambda name: {"nitrite ph": found + 0.1}[name])
    with pytest.raises(Refused, match="poisonous gas"):
        brine_ph(*cured)
    assert brine_ph(cured[1]) > 0.0  # without the curing salt nothing is refused


def ph_dose(target, name):
    return acid_rules.checked_dose(target, 1000.0, name, 0.05, 0.0, 25.0)


REFUSALS = {
    "more than dissolves": Refusal(
        lambda: brine_ph(("cream of tartar", 400.0)), OutOfRange, "masses", "400 g",
        ("at most what dissolves", "cream of tartar in this much water", "use less, or more water"),
    ),
    "nitrite and a sour brine": Refusal(
        lambda: brine_ph(("curing salt no. 1", 2.5), ("citric acid", 5.0)), Refused, "ingredients", "pH 2.3",
        ("curing salt in an acid brine", "poisonous gas", "sodium ascorbate or erythorbate, never the acid"),
    ),
    "nitrite and cola": Refusal(
        lambda: brine_ph(("curing salt no. 1", 2.5), ("cola", 5.0)), Refused, "ingredients", "cola",
        ("curing salt in an acid brine",),
    ),
    "nitrite and vitamin C": Refusal(
        lambda: brine_ph(("curing salt no. 1", 2.5), ("ascorbic acid", 0.001)), Refused, "ingredients",
        "ascorbic acid", ("curing salt in an acid brine",),
    ),
    "nitrite and what is sour by an amount not known": Refusal(
        lambda: brine_ph(("curing salt no. 1", 2.5), ("sumac", 5.0)), Refused, "ingredients", "sumac",
        ("curing salt in an acid brine",),
    ),
    "sourer than any of the three acids makes it": Refusal(
        lambda: ph_dose(1.0, "citric acid"), Impossible, "target_ph", None,
        ("no lower than about pH 1.08", "white vinegar and lemon juice do not get there either"), 1.08,
    ),
    "too much for the theory": Refusal(
        lambda: brine_ph(("salt", 290.0)), OutOfRange, "masses", None,
        ("at most 4.5 mol of ions per kg of water", "use less, or more water"),
    ),
    "a dose of lye": Refusal(
        lambda: ph_dose(8.0, "lye"), Refused, "ingredient", '"lye"',
        ("not worked out as a dose", "burns skin and eyes", "9 CFR 424.21(c)", "raise the pH with baking soda"),
    ),
    "a dose of mineral acid": Refusal(
        lambda: ph_dose(4.0, "hydrochloric acid"), Refused, "ingredient", '"hydrochloric acid"',
        ("not worked out as a dose", "mineral acid burns", "lower the pH with citric acid, vinegar or lemon juice"),
    ),
    "a dose of salt": Refusal(
        lambda: ph_dose(8.0, "curing salt no. 1"), Impossible, "ingredient", '"curing salt no. 1"',
        ("not used to set the pH", "citric acid", "baking soda or sodium citrate to raise it"),
    ),
    "what nobody has measured": Refusal(
        lambda: brine_ph(("alum", 1.0)), Impossible, "ingredients", '"alum"',
        ("cannot be given a pH", "not in the constants used here", "measure it"),
    ),
    "a dose of what nobody has measured": Refusal(
        lambda: ph_dose(5.0, "GDL"), Impossible, "ingredient", '"glucono delta-lactone"',
        ("cannot be given a pH", "only over hours", "measure it"),
    ),
    "a strength of a thing that has none": Refusal(
        lambda: acids.find("baking soda 7%"), OutOfRange, "ingredient", '"baking soda 7%"',
        ("cannot carry a strength in its name", "write the name alone"),
    ),
    "more than all": Refusal(
        lambda: acids.find("vinegar 101 %"), OutOfRange, "ingredient", '"vinegar 101 %"',
        ("above 0 % and at most 100 %",),
    ),
    "a text without end": Refusal(
        lambda: acids.find("x" * 201), UnknownName, "ingredient", '"' + "x" * 39 + '…"', ("not a known ingredient",)
    ),
    "a dose of what nobody knows": Refusal(
        lambda: acid_rules.checked_dose(5.0, 1000.0, "zzz", 0.05, 0.0, 20.0), UnknownName, "ingredient", '"zzz"',
        ("none of the", "is like it"),
    ),
}  # fmt: skip


@each("name", REFUSALS)
def test_a_refusal_says_all_a_cook_needs(name):
    """Its figures are the limits of the rules named, or follow by hand from the numbers in the call."""
    check(REFUSALS[name])


@pytest.mark.parametrize(
    ("name", "strength", "alkalinity", "target"),
    [
        ("sodium lactate", 0.15, 0.0, 9.0),
        ("mirin", 0.15, 0.0, 3.5),
        ("buttermilk", 0.05, 150.0, 3.5),
        ("monosodium phosphate", 0.05, 0.0, 3.5),
        ("sodium acid pyrophosphate", 0.25, 150.0, 3.5),
        ("washing soda", 0.05, 0.0, 12.0),
        ("baking soda", 0.0, 0.0, 8.9),
    ],
)
def test_no_other_dose_comes_nearer_to_a_target(name: str, strength: float, alkalinity: float, target: float) -> None:
    """Against a walk in small steps up to what dissolves, or to the strongest brine whose pH is reckoned at all."""
    part = acids.find(name)
    reach = acids.dose(target, 1000.0, part, strength, alkalinity, 25.0)
    nearest, grams = abs(acids.ph(1000.0, [], strength, alkalinity) - target), 0.0001
    side = acids.ph(1000.0, [], strength, alkalinity) > target
    while grams < 1000.0 * part.most:
        grams = min(grams * 1.01, 1000.0 * part.most)
        try:
            reached = acids.ph(1000.0, [(part, grams)], strength, alkalinity)
        except OutOfRange:
            break
        nearest = 0.0 if (reached > target) != side else min(nearest, abs(reached - target))
        if not nearest:
            break
    assert abs(reach.ph - target) <= nearest + 1e-9
    assert reach.reached is (nearest == 0.0)
    if reach.reached:
        assert reach.mass == pytest.approx(grams, rel=0.01)
