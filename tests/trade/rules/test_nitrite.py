"""Nitrite meets no acid.

Undissociated nitrous acid, pKa 3.225 (Thermoddem 1.10, read): the rule is common practice, never acid with nitrite.
"""

from __future__ import annotations

import random

import pytest
from each import each

from brinecalc import registry
from brinecalc.errors import Impossible, OutOfRange, Refused
from brinecalc.tables import load
from brinecalc.trade import acid_rules, acids
from brinecalc.trade.findings import all_of
from tests.trade.cases import CURED, found, of, said


@each("heading", ["acid", "liquid", "ingredient", "sweetener"])
@each(
    "name",
    "citric acid;red wine;orange juice;cider vinegar;buttermilk;lemon juice;blood orange juice;cola".split(";"),
)
def test_named_without_a_mass_it_stops(heading: str, name: str) -> None:
    assert said({**CURED, heading: name}).startswith("STOP cure")


@each("name", "capers;olives;green olives;apple;green peppercorns;tomato paste;gherkins;sliced pears;mango".split(";"))
def test_what_is_jarred_sour_or_sour_by_itself_stops(name: str) -> None:
    assert "nitrite-acid" in found({**CURED, "water": 5000.0, "ingredient": name, "level": 0.05})


@each("name", "olive oil;apple wood chips;lemon balm;prickly pear;carrot;onion".split(";"))
def test_what_only_sounds_sour_does_not_stop(name: str) -> None:
    assert "nitrite-acid" not in found({**CURED, "water": 5000.0, "ingredient": name, "level": 0.01})


@each("name", ["olive oil and olives", "apple wood, lemon"])
def test_what_sounds_sour_hides_nothing_that_is(name: str) -> None:
    assert "nitrite-acid" in found({**CURED, "water": 5000.0, "ingredient": name, "level": 0.01})


@each("heading", ["method", "treatment"])
@each(
    ("words", "wanted"),
    [
        ("dry, soaked in vinegar", "nitrite-acid"),
        ("dry, cidre", "nitrite-acid"),
        ("dry, soak in lemon", "nitrite-acid-told"),
        ("dry, tomato", "nitrite-acid-told"),
        ("dry, whey", "nitrite-acid-told"),
        ("dry, glazed with marmalade after cooking", "nitrite-acid-told"),
    ],
)
def test_words_alone_that_speak_of_something_sour_are_told(heading: str, words: str, wanted: str) -> None:
    told = set(found({**CURED, heading: words})) & {"nitrite-acid", "nitrite-acid-told"}
    assert told == {wanted}


@each("words", ["dry, no lemon", "dry, smoked over apple", "dry, cover pickle", "dry, tomato-free", "dry, cold-smoked"])
def test_words_that_name_nothing_sour_are_not_told(words: str) -> None:
    assert not set(found({**CURED, "method": words})) & {"nitrite-acid", "nitrite-acid-told"}
    assert "nitrite-acid-told" not in found({**CURED, "method": "dry, soak in lemon", "ph": 6.1})


@each("name", ["capers", "olives", "apple", "green peppercorns", "sumac"])
def test_the_ph_of_something_sour_of_unknown_acid(name: str) -> None:
    cured = registry.why("BRINE_PH", 1000, [["curing salt no. 1", name]], [[10, 50]])
    assert "cannot hold curing salt" in cured
    assert name in cured
    told = registry.why("BRINE_PH", 1000, [[name]], [[50]])
    assert told.startswith("ok, but sour, by how much is not known")
    assert f": {name}; the brine is sourer than this: measure its pH." in told
    assert registry.why("BRINE_PH", 1000, [["carrot", "vinegar"]], [[50, 20]]) == "ok"


@each("name", ["citric acid", "red wine", "vinegar", "buttermilk", "vinegar 7 %"])
def test_with_a_mass_and_water_the_ph_is_reckoned(name: str) -> None:
    row = {**CURED, "water": 5000.0, "strength": 0.05, "acid": name, "acid mass": 100.0}
    assert "nitrite-ph" in found(row)


@each("cure", ["error", "#NUM!", "#N/A", "Err:502", "a pinch", "1 tsp", "pink salt", 5.0])
def test_a_cure_cell_of_any_kind_counts(cure: object) -> None:
    assert "nitrite-cola" in found({"cure": cure, "liquid": "cola"})
    assert "nitrite-acid" in found({"cure": cure, "acid": "wine"})


@each("column", ["cure name", "ingredient", "cure method", "cure strength", "nitrite"])
def test_an_error_in_any_cure_column_stops(column: str) -> None:
    row = {**CURED, column: "error"}
    assert ("cure-error" in found(row)) == (column != "ingredient")


@each("name", "curing salt no. 1;pink salt;sodium nitrite;potassium nitrate;cultured celery powder;cure 2".split(";"))
def test_a_cure_under_ingredient_counts(name: str) -> None:
    assert "nitrite-cola" in found({"ingredient": name, "level": 0.003, "liquid": "cola"})


def test_a_ph_written_down_does_not_outweigh_the_acid_weighed_in() -> None:
    row = {**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": 50.0, "ph": 6.5}
    assert "nitrite-ph" in found(row)


def test_an_error_in_the_acid_mass_leaves_the_ph_unknown() -> None:
    assert "nitrite-acid" in found({**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": "error"})


def test_of_two_ph_columns_the_lower_counts() -> None:
    assert "nitrite-ph" in [f.rule.id for f in all_of(["cure", "ph", "ph"], [5.0, 6.0, 4.0])]


def test_no_cure_no_stop() -> None:
    assert not said({"product": "pork shoulder", "liquid": "cola", "cure": 0}).startswith("STOP")
    assert not said({"product": "pork shoulder", "liquid": "cola", "cure": "none"}).startswith("STOP")


@each("cell", ["pH 4.5", "4,5", "~4.5", "< 4.5", 4.5])
def test_ph_as_people_write_it(cell: object) -> None:
    assert "nitrite-ph" in found({**CURED, "ph": cell})


@each(
    ("ph", "rules"),
    [(4.9, {"nitrite-ph"}), (5.0, {"nitrite-acid-close"}), (5.9, {"nitrite-acid-close"}), (6.0, set()), (7.3, set())],
)
def test_a_soured_brine_near_the_limit_is_watched_and_below_it_stopped(ph: float, rules: set[str]) -> None:
    """A milligram of citric acid in 5 kg of water is a millionth of a mole per kg, little to the alkalinity."""
    row = {**CURED, "water": 5000.0, "alkalinity": 50.0, "acid": "citric acid", "acid mass": 0.001, "ph": ph}
    assert {"nitrite-ph", "nitrite-acid-close"} & set(found(row)) == rules


PICKLE = {
    "product": "pork loin", "edible weight": 5000.0, "water": 5000.0, "salt": 250.0, "cure": 10.0,
    "cure method": "equilibrium",
}  # fmt: skip
WITH_ACID = {
    "nitrite-ph",
    "nitrite-acid",
    "nitrite-cola",
    "nitrite-ascorbic",
    "nitrite-acid-apart",
    "nitrite-soft-water",
}


def refused(name: str, level: float, alkalinity: float = 0.0, other: str | None = None) -> bool:
    """Whether the pH of that mix is refused for the nitrite in it, not because it is not known or too much."""
    mixed = [(name, 5000.0 * level), ("curing salt no. 1", 10.0)] + ([(other, 25.0)] if other else [])
    try:
        acid_rules.checked_ph(5000.0, [(acids.find(one), grams) for one, grams in mixed], 0.05, alkalinity, 25.0)
    except Refused:
        return True
    except (Impossible, OutOfRange):
        pass
    return False


@each("name", [row["ingredient"] for row in load.rows("acid_ingredients")])
def test_where_a_row_passes_the_ph_of_the_same_mix_is_not_refused_for_nitrite(name: str) -> None:
    """One reckoning for both; with soda beside it, and in hard water, too, and by each way of curing."""
    for level in (0.0002, 0.003, 0.02):
        for alkalinity, other in ((0.0, None), (100.0, None), (0.0, "baking soda")):
            row = {**PICKLE, "ingredient 1": name, "level 1": level, "alkalinity": alkalinity}
            row |= {"ingredient 2": other, "level 2": 0.005} if other else {}
            if refused(name, level, alkalinity, other):
                assert WITH_ACID & set(found(row)), (level, alkalinity, other)
                assert WITH_ACID & set(found({**row, "cure method": "comminuted"})), (level, alkalinity, other)


@each(
    ("name", "level", "rule", "instead"),
    [
        ("sodium acid pyrophosphate", 0.003, "STOP cure: Curing salt must not go into", "alkaline phosphate"),
        ("monosodium phosphate", 0.003, "STOP cure: Curing salt must not go into", "alkaline phosphate"),
        ("honey", 0.2, "STOP cure: Curing salt must not go into", "alkalinity"),
        ("honey", 0.02, "CAUTION cure: Curing salt and honey share", "alkalinity"),
        ("soda water", 0.1, "CAUTION cure: Curing salt and soda water share", "alkalinity"),
        ("brewed coffee", 0.3, "CAUTION cure: Curing salt and brewed coffee share", "alkalinity"),
    ],
)
def test_all_that_sours_a_brine_counts_beside_curing_salt(name: str, level: float, rule: str, instead: str) -> None:
    """Their own pH: the phosphates about 4.2 at 1 %, honey 3.4 to 4.5, soda water and coffee below 5."""
    row = {**PICKLE, "ingredient": name, "level": level}
    assert said(row).startswith(rule)
    assert instead in said(row)
    assert "nitrite-acid" in found({**row, "level": None})
    assert not WITH_ACID & set(found({**row, "cure": 0}))


@each("name", ["stock", "milk", "fish sauce", "dashi", "sodium tripolyphosphate", "brown sugar"])
def test_what_is_never_below_ph_5_itself_goes_with_curing_salt(name: str) -> None:
    assert {"nitrite-ph", "nitrite-acid"}.isdisjoint(found({**PICKLE, "ingredient": name, "level": 0.02}))
    assert {"nitrite-ph", "nitrite-acid"}.isdisjoint(found({**PICKLE, "ingredient": name}))


def test_hard_water_holds_up_the_little_acid_of_honey_and_not_that_of_a_phosphate() -> None:
    """2 % of honey with 30 meq of free acid in the kg is 0.6 meq; 50 mg/L of alkalinity are 1 meq/L."""
    honey = {**PICKLE, "ingredient": "honey", "level": 0.02}
    assert "nitrite-soft-water" in found(honey)
    assert WITH_ACID.isdisjoint(found({**honey, "alkalinity": 100.0}))
    assert "nitrite-soft-water" in found({**honey, "alkalinity": "soft"})
    assert "nitrite-ph" in found({**honey, "alkalinity": 0.0})
    assert "nitrite-ph" in found({**honey, "ph": 4.9})
    assert "nitrite-ph" in found({**honey, "acid": "citric acid", "acid mass": 1.0})
    assert "nitrite-ph" in found({**honey, "alkalinity": 100.0, "ingredient": "sodium acid pyrophosphate"})


@pytest.mark.parametrize(
    "way", [{"alkalinity": 150.0}, {"alkalinity": 300.0}, {"ingredient 2": "STPP", "level 2": 0.02}]
)
def test_honey_that_leaves_a_brine_near_neutral_is_not_told_of(way: dict[str, object]) -> None:
    """2 % of honey in hard water, or beside an alkaline phosphate, is at pH 7 or more, where nitrite stays."""
    assert "nitrite-acid-close" not in found({**PICKLE, "ingredient 1": "honey", "level 1": 0.02, **way})
    assert "nitrite-acid-close" in found({**PICKLE, "ingredient 1": "honey", "level 1": 0.02, "alkalinity": 25.0})


@each(("cure", "grams", "salt"), [("cure 1", 16.0, 235.0), ("nitrite salt 0.6 %", 250.0, 1.5)])
@each("honey", [60.0, 75.0, 90.0, 110.0, 130.0, 160.0])
def test_a_row_and_the_ph_of_the_same_mix_tell_one_figure(cure: str, grams: float, salt: float, honey: float) -> None:
    """250 g of salt in 5 kg of water, with that of the curing salt: the strength of a plan is of all salt."""
    names, masses = ("salt", "honey", cure), (salt, honey, grams)
    refused = registry.why("PH", 5000.0, names, masses)
    row: dict[str, object] = {**PICKLE, "cure": grams, "cure name": cure, "water": 5000.0, "strength": 0.05}
    (hit,) = of("nitrite-soft-water", {**row, "ingredient": "honey", "level": honey / 5000.0})
    told = hit.sentence.partition("brine of ")[2].partition(" in soft")[0]
    assert f"got {told};" in refused


def test_a_ph_just_below_the_least_is_not_shown_as_the_least() -> None:
    """Coffee in a tenth of salt comes to pH 4.98."""
    row = {**PICKLE, "strength": 0.1, "alkalinity": 0.0, "ingredient": "brewed coffee", "level": 0.02}
    (hit,) = of("nitrite-ph", row)
    assert "a brine of pH 4.9" in hit.sentence
    parts = ("brewed coffee", "cure 1"), (100.0, 10.0)
    assert "got pH 4.9" in registry.why("PH", 5000.0, *parts, 0.1)


def test_honey_in_a_dry_cure_is_no_brine_and_an_acid_phosphate_in_mince_is_kept_apart() -> None:
    """9 CFR 424.21(c) lists sodium acid pyrophosphate for cured cooked sausage, on the weight of the meat."""
    assert WITH_ACID.isdisjoint(found({**CURED, "sweetener": "honey", "sweetener level": 0.02}))
    assert "nitrite-acid-apart" in found({**CURED, "water": 500.0, "sweetener": "honey", "sweetener level": 0.02})
    sausage = {**CURED, "cure method": "comminuted", "ingredient": "SAPP", "level": 0.005}
    assert WITH_ACID & set(found(sausage)) == {"nitrite-acid-apart"}


def test_a_soft_water_brine_too_strong_for_the_reckoning_is_judged_as_the_strongest_one_that_is_not() -> None:
    honey = {**PICKLE, "salt": 1100.0, "ingredient": "honey", "level": 0.02}
    assert "nitrite-ph" in found({**honey, "alkalinity": 0.0})
    assert {"nitrite-ph", "nitrite-acid"}.isdisjoint(found({**honey, "alkalinity": 100.0}))


def test_the_ph_of_a_brine_that_was_sour_before_its_soda_is_refused_with_curing_salt() -> None:
    """5 g of citric acid makes pH 2.4 in a kg; soda takes it above 5, and the gas is gone by then."""
    mix = [("citric acid", 5.0), ("baking soda", 10.0)]
    parts = [(acids.find(name), grams) for name, grams in mix]
    assert acid_rules.checked_ph(1000.0, parts, 0.05, 0.0, 25.0) > 5.0
    with pytest.raises(Refused, match="cannot hold curing salt"):
        acid_rules.checked_ph(1000.0, [*parts, (acids.find("cure 1"), 2.0)], 0.05, 0.0, 25.0)


def test_an_acid_is_judged_without_another_that_softens_it() -> None:
    """0.1 g of acetic acid in a litre is pH 3.9; whey, which is hardly sour, would take it up if it were in first."""
    row = {**PICKLE, "acid": "acetic acid", "acid mass": 0.5, "ingredient": "whey", "level": 0.9}
    assert "nitrite-ph" in found({**row, "ingredient": None, "level": None})
    assert "nitrite-ph" in found(row)


def test_alum_is_sour_and_by_how_much_is_not_known() -> None:
    """Aluminium takes up hydroxide from water: a 1 % solution of alum has pH 3.3 or so, from memory."""
    assert "nitrite-acid" in found({**PICKLE, "ingredient": "alum", "level": 0.001})
    assert "nitrite-acid" not in found({**PICKLE, "ingredient": "calcium chloride", "level": 0.001})


def test_of_mixes_drawn_at_random_the_two_refuse_the_same() -> None:
    """Up to three of what the table of acids names, at 0.01 to 30 % of the water: each refuses what the other does."""
    chance, names = random.Random(20_261_126), [row["ingredient"] for row in load.rows("acid_ingredients")]
    refusals = 0
    for _ in range(60):
        mix = [(name, 10.0 ** chance.uniform(-4.0, -0.5)) for name in chance.sample(names, chance.choice((1, 2, 3)))]
        alkalinity = chance.choice((0.0, 50.0, 200.0))
        parts = [(acids.find(name), 5000.0 * level) for name, level in [*mix, ("curing salt no. 1", 0.002)]]
        try:
            acid_rules.checked_ph(5000.0, parts, 0.05, alkalinity, 25.0)
            is_refused = False
        except Refused:
            is_refused = True
        except OutOfRange:
            continue  # more than dissolves, or no chemistry
        row: dict[str, object] = {**PICKLE, "alkalinity": alkalinity}
        for number, (name, level) in enumerate(mix, 1):
            row |= {f"ingredient {number}": name, f"level {number}": level}
        assert bool(WITH_ACID & set(found(row))) is is_refused, (mix, alkalinity)
        refusals += is_refused
    assert refusals > 10


def test_a_method_that_names_something_sour_brings_it_to_the_curing_salt() -> None:
    row = {**CURED, "cure method": "equilibrium", "water": 10000.0}
    for method in ("brine with dark beer", "soaked in cider", "equilibrium in red wine, never boiled"):
        (hit,) = of("nitrite-acid", {**row, "method": method})
        assert hit.sentence.startswith(f"Curing salt must not meet {method.split(',')[0].split()[-1]}: how sour")
        assert "nitrite-acid" not in found({**row, "method": method, "ph": 5.6})
    for method in ("pickled", "cover pickle", "brine, no beer", "never wine or beer", "equilibrium"):
        assert "nitrite-acid" not in found({**row, "method": method}), method
