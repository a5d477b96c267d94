"""Doses against the usual range and the ceilings of each use."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.trade import doses
from tests.trade.cases import CURED, found, of


def test_a_dip_in_phosphate_is_judged_by_what_stays_in_the_product():
    """4 % of the water, of which 5 % stays, is 0.18 % of the product, below the 0.5 % of 9 CFR 424.21(c)."""
    dip = {"product": "peeled shrimp", "ingredient": "sodium tripolyphosphate", "level": 0.04, "gain": 0.05}
    assert "above-usual" in found(dip)
    assert not set(found(dip)) & {"over-ceiling", "over-in-product"}
    assert "over-in-product" in found({**dip, "gain": 0.16})
    assert "over-ceiling" in found({key: value for key, value in dip.items() if key != "gain"})


def test_calcium_in_a_brine_of_cheese_is_held_to_the_ceiling_of_cheese() -> None:
    """0.2 % of the cheese, 21 CFR 184.1193, of which at most 58 % is water in fresh white cheese (its row)."""
    brine = {"ingredient": "calcium chloride", "water": 5000, "strength": 0.1}
    for cheese in ("feta", "mozzarella", "fresh white cheese", "gouda"):
        assert "over-ceiling" not in found({**brine, "product": cheese, "level": 0.003})
        assert "over-ceiling" in found({**brine, "product": cheese, "level": 0.0035})
        assert 0.0034 * 0.58 < 0.002 < 0.0035 * 0.58
    assert "over-ceiling" in found({**brine, "product": "chicken breast", "level": 0.003})


def test_who_soaks_in_phosphate_is_told_to_give_the_weight_gained() -> None:
    """Half a per cent of the product, 9 CFR 424.21(c): how much of a bath stays in it only the gain tells."""
    soak = {"product": "peeled shrimp", "ingredient": "sodium tripolyphosphate", "level": 0.03}
    (hit,) = of("over-ceiling", soak)
    assert "Lower the level, or give the weight gained" in hit.sentence
    assert "over-ceiling" not in found({**soak, "gain": 0.05})
    (hit,) = of("over-ceiling", {"ingredient": "fumaric acid", "level": 0.002, "product": "pork chop"})
    assert hit.sentence.endswith("Lower the level.")


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


HAM = {"product": "lean ham leg", "method": "injected", "weight": 5000.0, "salt": 500.0, "water": 5000.0}


@each(
    ("name", "level", "gain", "told"),
    [
        ("sodium diacetate", 0.02, 0.25, "0.357 % of the product; the limit by US rules is 0.25 %"),
        ("sodium diacetate", 0.0139, 0.25, None),
        ("sodium lactate", 0.2, 0.6, "5.77 % of the product; the limit by US rules is 4.8 %"),
        ("potassium lactate", 0.16, 0.6, None),
        ("sodium erythorbate", 0.006, 0.25, "1356 ppm of the product as it went in; the limit by US rules is 547 ppm"),
        ("sodium ascorbate", 0.0024, 0.25, None),
        ("erythorbic acid", 0.0021, 0.25, "476.4 ppm of the product as it went in; the limit by US rules is 469 ppm"),
        ("ascorbic acid", 0.0020, 0.25, None),
        ("sodium tripolyphosphate", 0.03, 0.25, "0.531 % of the product; the limit by US rules is 0.5 %"),
    ],
)
def test_each_limit_on_the_product_is_held_where_the_gain_is_known(name, level, gain, told):
    """9 CFR 424.21(c). By hand: level/(1 + 0.1 + level), times the gain, and for the product over 1 + the gain."""
    row = {**HAM, "ingredient": name, "level": level, "gain": gain}
    assert [hit.sentence.partition(" comes to ")[2].partition(". ")[0] for hit in of("over-in-product", row)] == (
        [told] if told else []
    )
    assert "over-in-product" not in found({**row, "gain": None})


def test_malt_syrup_has_its_limit_in_cured_meat():
    """9 CFR 424.21(c): 2.5 %; 20 % of the water is 15.3 % of this pickle, and 3.07 % of the meat with it."""
    row = {**HAM, "ingredient": "malt syrup", "level": 0.2, "gain": 0.25}
    assert "over-in-product" not in found(row)
    (hit,) = of("over-in-product", {**row, "cure": 20.0, "cure method": "pumped"})
    assert "3.07 % of the product; the limit by US rules is 2.5 %" in hit.sentence
    assert "over-in-product" not in found({**row, "cure": 20.0, "cure method": "pumped", "level": 0.15})


def test_what_counts_towards_one_limit_counts_together():
    two = {"ingredient 1": "sodium erythorbate", "level 1": 0.0013, "ingredient 2": "sodium ascorbate"}
    assert "over-in-product" not in found({**HAM, **two, "level 2": 0.001, "gain": 0.25})
    assert "over-in-product" in found({**HAM, **two, "level 2": 0.0013, "gain": 0.25})


@pytest.mark.parametrize(
    ("name", "most"),
    [("sodium tripolyphosphate", 52.7), ("sodium erythorbate", 5.47), ("fumaric acid", 6.5), ("GDL", 50.0)],
)
def test_what_is_weighed_into_mince_is_all_in_it(name: str, most: float):
    """9 CFR 424.21(c), 10 kg of meat and 500 g of ice: 0.5 % of 10 550 g; 7/8 oz in 100 lb; 0.065 %; 0.5 %."""
    sausage = {"weight": 10000.0, "water": 500.0, "cure method": "comminuted", "ingredient": name}
    assert "over-in-product" in found({**sausage, "level": f"{most * 1.01:.4f} g"})
    assert "over-in-product" not in found({**sausage, "level": f"{most * 0.99:.4f} g"})
    if name in ("fumaric acid", "GDL"):
        assert "over-in-product" not in found({**sausage, "level": f"{most * 1.01:.4f} g", "cure method": "dry"})


def test_the_limits_of_meat_by_us_rules_hold_for_nothing_else():
    row = {**HAM, "ingredient": "sodium diacetate", "level": 0.02, "gain": 0.25}
    assert "over-in-product" not in found({**row, "rules": "EU"})
    assert "over-in-product" not in found({**row, "product": "cucumber"})
    assert "over-in-product" in found({**row, "product": "unicorn loin"})


@each(
    ("level", "gain", "told"),
    [
        (0.0100, 0.05, set()), (0.0100, None, {"over-ceiling"}), (0.0130, 0.05, {"over-in-product"}),
        (0.0054, 0.20, {"over-in-product"}), (0.0058, 0.10, set()),
    ],
)  # fmt: skip
def test_the_ceiling_of_a_pickle_is_that_for_the_gain_where_it_is_known(level, gain, told):
    """9 CFR 424.21(c): 547 ppm; 1 % of the water is 0.9 % of this pickle, of which a gain of 5 % brings 450 ppm."""
    row = {**HAM, "ingredient": "sodium ascorbate", "level": level, "gain": gain}
    assert {"over-ceiling", "over-in-product"} & set(found(row)) == told
    if gain:
        assert "over-ceiling" in found({**row, "method": "gradient", "level": 0.01})


@pytest.mark.parametrize(
    ("name", "level", "told"),
    [
        ("sodium erythorbate", 0.0045, "561.8 ppm as erythorbic acid of the product as it went in"),
        ("sodium erythorbate", 0.0039, None), ("erythorbic acid", 0.0040, "562 ppm"),
        ("sodium ascorbate", 0.0045, None),
    ],
)  # fmt: skip
def test_erythorbate_has_its_eu_limit_as_the_acid(name: str, level: float, told: "str | None") -> None:
    """500 mg/kg, read. 0.45 % of the water, 6.37 % salt: 0.4213 % of pickle, 632 ppm at 15 %, 562 as acid."""
    row = {**HAM, "ingredient": name, "level": level, "gain": 0.15, "salt": None, "strength": 0.0637, "rules": "EU"}
    hits = of("over-in-product", row)
    assert [told in hit.sentence and "by EU rules is 500 ppm" in hit.sentence for hit in hits] == (
        [True] if told else []
    )
    assert "over-ceiling" not in found(row)
    if name == "sodium erythorbate":
        (hit,) = of("over-ceiling", {**row, "level": 0.0061, "gain": None})
        assert "is at 0.507 % as erythorbic acid of the pickle; its legal ceiling is 0.5 % of a pickle" in hit.sentence


BELLY = {"product": "skinless pork belly", "weight": 10000.0, "cure method": "pumped", "cure": 19.2, "strength": 0.2}


@each("pump", [0.08, 0.10, 0.12, 0.13, 0.15, 0.20])
@each(("name", "ppm"), [("sodium erythorbate", 600.0), ("sodium ascorbate", 550.0)])
def test_pumped_bacon_has_a_level_that_passes_at_every_usual_pump(pump: float, name: str, ppm: float) -> None:
    """9 CFR 424.22(b)(1): 550 ppm on the meat. Of a pickle of water and a fifth of it salt, with all that is in it."""
    pickle = 10000.0 * pump
    water = (pickle - 19.2 - ppm / 100.0) / 1.2
    level = ppm / 100.0 / water
    row = {**BELLY, "gain": pump, "water": water, "ingredient": name, "level": level}
    about = {hit for hit in found(row) if hit in ABOUT_ACCELERATORS}
    assert about == set()
    assert doses.dose(water, level, name, "injection") == pytest.approx(ppm / 100.0)
    assert "over-in-product" in found({**row, "level": level * 1.1})
    (low,) = of("bacon-accelerator", {**row, "level": level * 0.8})
    told = float(low.sentence.partition("Take about ")[2].partition(" % of the water")[0]) / 100.0
    assert not ABOUT_ACCELERATORS & set(found({**row, "level": told}))


ABOUT_ACCELERATORS = {"over-ceiling", "over-in-product", "above-usual", "bacon-accelerator", "bacon-set-level"}


def test_a_ham_at_a_pump_of_8_per_cent_is_held_to_the_meat_and_not_to_a_pump_of_a_tenth() -> None:
    """0.65 % of 640 g of water in 800 g of pickle is 4.16 g in 10 kg: 416 ppm, below 547."""
    row = {
        "product": "boneless ham muscle", "method": "injected", "weight": 10000.0, "pickle": 800.0, "water": 640.0,
        "ingredient": "sodium erythorbate", "level": 0.0065,
    }  # fmt: skip
    assert not ABOUT_ACCELERATORS & set(found({**row, "gain": 0.08}))
    assert not ABOUT_ACCELERATORS & set(found(row))  # 0.52 % of the pickle, and a pump of a tenth may have 0.547
    (hit,) = of("over-ceiling", {**row, "level": 0.0075})
    assert "is at 0.6 % of the pickle; its legal ceiling is 0.547 % of a pickle pumped at 10 %" in hit.sentence
    assert "or give the weight gained" in hit.sentence


def test_an_amount_in_the_product_and_its_limit_never_look_alike() -> None:
    """5.4689 g in 10 kg is 546.89 ppm; 7/8 oz per 100 lb is 546.875."""
    row = {"product": "pork shoulder", "weight": 10000.0, "cure method": "comminuted", "ingredient": "sodium ascorbate"}
    (hit,) = of("over-in-product", {**row, "level": "5.4689 g"})
    assert "comes to 546.89 ppm of the product as it went in; the limit by US rules is 546.88 ppm" in hit.sentence


def test_the_accelerator_that_pumped_bacon_has_to_carry_is_not_over_a_ceiling():
    """9 CFR 424.22(b)(1): 550 ppm at a gain of a tenth is 0.55 % of the pickle, 0.62 % of the water in it."""
    row = {
        "product": "skinless pork belly", "weight": 10000.0, "cure": 19.2, "cure method": "pumped", "gain": 0.1,
        "water": 880.0, "salt": 95.0, "ingredient": "sodium ascorbate", "level": "5.5 g",
    }  # fmt: skip
    assert not {"over-ceiling", "over-in-product", "bacon-accelerator", "nitrite-over-limit"} & set(found(row))


RUBBED = {"product": "boneless pork loin", "weight": 1000.0, "method": "dry"}


@each(
    ("name", "grams", "told"),
    [
        ("nutmeg", 20.0, "over-ceiling"), ("nutmeg", 5.0, None), ("nutmeg", 5.1, "over-ceiling"),
        ("liquorice root", 50.0, "over-ceiling"), ("potassium chloride", 40.0, "over-ceiling"),
        ("potassium chloride", 20.0, None), ("potassium chloride", 20.1, "over-ceiling"),
        ("low-sodium salt", 25.0, None), ("washing soda", 11.0, "over-ceiling"),
        ("sodium tripolyphosphate", 20.0, "over-in-product"), ("sodium tripolyphosphate", 5.1, "over-in-product"),
        ("sodium tripolyphosphate", 5.0, None), ("sodium erythorbate", 20.0, "over-in-product"),
        ("sodium erythorbate", 0.54, None), ("sodium erythorbate", 0.55, "over-in-product"),
        ("calcium chloride", 2.6, "over-ceiling"), ("baking soda", 60.0, "ceiling-taste"), ("baking soda", 15.0, None),
        ("baking soda", 15.1, "ceiling-taste"), ("black peppercorns", 50.0, None), ("kombu", 100.0, None),
    ],
)  # fmt: skip
def test_what_is_rubbed_on_is_judged_on_the_product(name: str, grams: float, told: str | None) -> None:
    """9 CFR 424.21(c): 0.5 % of phosphate, 7/8 oz of erythorbate in 100 lb; the others are the table's, a judgement."""
    kinds = ("over-ceiling", "over-in-product", "ceiling-taste")
    ways: list[dict[str, object]] = [{}, {"method": "", "cure method": "dry"}, {"method": "", "water": 100.0}]
    for way in ways:
        row = {**RUBBED, **way, "ingredient": name, "level": f"{grams} g"}
        if name == "sodium tripolyphosphate":
            row["level"] = f"{grams * (1.1 if 'water' in way else 1.0)} g"  # the water is in what is sold, too
        hits = [hit for kind in kinds for hit in of(kind, row)]
        assert [hit.rule.id for hit in hits] == ([told] if told else []), row
        assert all("of the product" in hit.sentence for hit in hits)


def test_a_share_in_a_dry_rub_is_of_the_product() -> None:
    (hit,) = of("over-ceiling", {"product": "pork loin", "method": "dry", "ingredient": "nutmeg", "level": 0.02})
    assert "Nutmeg is at 2 % of the product; its safety ceiling is 0.5 % of the product" in hit.sentence


def test_a_brine_with_more_water_is_judged_on_its_water() -> None:
    """At most a fifth of water makes a marinade (a judgement); a pickle that is pumped in is none."""
    bath = {"product": "pork loin", "weight": 1000.0, "ingredient": "nutmeg", "level": "4 g"}
    assert "over-ceiling" not in found({**bath, "water": 200.0})
    assert "over-ceiling" in found({**bath, "water": 201.0})
    assert "over-ceiling" in found({**bath, "water": 100.0, "method": "injected"})
    assert "over-ceiling" in found({**bath, "water": 500.0, "method": "dry"})
    acid = {"product": "pork loin", "weight": 1000.0, "ingredient": "lactic acid", "level": "10 g", "water": 100.0}
    assert "over-ceiling" in found(acid)  # 10 % of it burns


def test_a_marinade_with_soda_and_soy_is_ordinary_practice() -> None:
    row = {
        "product": "lean beef", "weight": 1000.0, "water": 100.0, "ingredient 1": "baking soda", "level 1": "8 g",
        "ingredient 2": "soy sauce", "level 2": "30 g", "sweetener": "white sugar", "sweetener level": "10 g",
    }  # fmt: skip
    assert not {"ceiling-taste", "acid-soda", "must-not-meet", "above-usual", "sweetener-high"} & set(found(row))
    assert "acid-soda" in found({**row, "ingredient 2": "vinegar"})
    assert "ceiling-taste" in found({**row, "level 1": "16 g"})
    assert "above-usual" in found({**row, "level 1": "11 g"})
    assert "sweetener-high" in found({**row, "sweetener level": "51 g"})


@each(
    ("row", "told"),
    [
        ({"ingredient": "dipotassium phosphate", "level": 0.003}, "potassium"),  # 1.35 g of potassium to the kilogram
        ({"ingredient": "dipotassium phosphate", "level": 0.002}, None),
        ({**CURED, "weight": 9000.0, "cure": 2.0, "cure name": "saltpetre"}, None),  # 0.09 g to the kilogram
        ({"ingredient": "potassium chloride", "level": 0.035}, "potassium-high"),
        ({"ingredient": "potassium chloride", "level": "35 g", "water": 1000.0, "weight": 1000.0}, "potassium-high"),
        ({"ingredient": "potassium chloride", "level": "20 g", "water": 1000.0, "weight": 1000.0}, "potassium"),
        ({"ingredient": "potassium chloride", "level": "3 g", "water": 1000.0, "weight": 1000.0}, None),
        ({"ingredient": "potassium chloride", "level": "8 g", "method": "dry", "weight": 1000.0}, "potassium"),
        ({"ingredient": "potassium chloride", "level": "16 g", "method": "dry", "weight": 1000.0}, "potassium-high"),
        ({"ingredient": "potassium lactate", "level": 0.04, "gain": 0.1, "method": "injected"}, None),  # 0.07 %
        ({"ingredient": "potassium chloride"}, "potassium"),
        ({"ingredient 1": "KCl", "level 1": 0.0012, "ingredient 2": "MKP", "level 2": 0.0015}, "potassium"),
        ({"ingredient": "sodium citrate", "level": 0.03}, None),
    ],
)  # fmt: skip
def test_potassium_is_told_of_by_the_gram(row: "dict[str, object]", told: str | None) -> None:
    """Meat holds 3 to 4 g to the kilogram (memory); 1 g more is told, 8 g more is warned of: judgements."""
    assert [rule for rule in found(row) if rule in ("potassium", "potassium-high")] == ([told] if told else [])


def test_lactate_of_either_metal_is_held_to_its_limit_on_the_product() -> None:
    """4.8 % of the product, 9 CFR 424.21(c): 1 kg in 6.5 kg of brine at a gain of 60 % is 5.8 %, half of it 3 %."""
    ham = {"product": "boneless ham muscle", "method": "injected", "gain": 0.6, "water": 5000.0, "salt": 500.0}
    for name in ("sodium lactate", "potassium lactate"):
        assert "over-in-product" in found({**ham, "ingredient": name, "level": 0.2})
        assert "over-in-product" not in found({**ham, "ingredient": name, "level": 0.1})


def test_one_figure_of_sugar_is_told_once() -> None:
    row = {"product": "pork chop", "sweetener": "brown sugar", "sweetener level": 0.1}
    assert found(row) == ["sweetener-high"]
    assert found({**row, "product": "carrot", "sweetener level": 0.11}) == ["above-usual"]
    assert "above-usual" in found({**row, "product": "unicorn"})
