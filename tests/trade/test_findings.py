"""Every finding has a row that triggers it and a neighbour that does not; reading a row never fails."""

from __future__ import annotations

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brinecalc.errors import Unreadable
from brinecalc.tables import load
from brinecalc.trade import findings, rules
from brinecalc.trade.findings import IDS, all_of, table, worst

CURED = {"weight": 10000.0, "cure": 20.0, "cure method": "dry"}
BACON = {"product": "pork belly", "weight": 10000.0, "cure": 19.2, "cure method": "pumped", "gain": 0.1}
SMOKED = {"product": "salmon fillet", "method": "cold-smoked"}

# id: (row that triggers it, neighbour that does not), each neighbour one step away
CASES: dict[str, tuple[dict[str, object], dict[str, object]]] = {
    "nitrite-cola": ({**CURED, "liquid": "cola"}, {"liquid": "cola"}),
    "nitrite-ascorbic": (
        {**CURED, "water": 5000.0, "ingredient": "ascorbic acid", "level": 0.001},
        {**CURED, "water": 5000.0, "ingredient": "sodium ascorbate", "level": 0.001},
    ),
    "nitrite-ph": ({**CURED, "ph": 4.9}, {**CURED, "ph": 5.0}),
    "nitrite-acid": ({**CURED, "acid": "red wine vinegar"}, {**CURED, "acid": "baking soda"}),
    "nitrite-unknown-liquid": (
        {**CURED, "liquid": "grandma's broth"},
        {**CURED, "liquid": "grandma's broth", "ph": 6.1},
    ),
    "cure-error": ({**CURED, "cure": "error"}, CURED),
    "pure-nitrite": ({**CURED, "cure name": "sodium nitrite"}, {**CURED, "cure name": "curing salt no. 1"}),
    "nitrite-no-method": ({"weight": 10000.0, "cure": 20.0}, CURED),
    "nitrite-over-limit": ({**CURED, "cure": 100.1}, {**CURED, "cure": 100.0}),  # 625 ppm: 1 oz per 100 lb
    "nitrate-over-limit": (
        {**CURED, "cure name": "saltpetre", "cure": 21.9},
        {**CURED, "cure name": "saltpetre", "cure": 21.8},
    ),  # 2187.5 ppm: 3 1/2 oz per 100 lb
    "nitrate-bacon": ({**BACON, "cure name": "curing salt no. 2"}, {**BACON, "cure name": "curing salt no. 1"}),
    "cure-no-rule": ({**CURED, "product": "cucumber"}, {**CURED, "product": "pork shoulder"}),
    "not-food": ({"ingredient": "bleach", "level": 0.01}, {"ingredient": "bay leaf", "level": 0.001}),
    "cure-infant": ({**CURED, "packaging": "for a baby"}, {"packaging": "for a baby"}),
    "rules-unknown": ({**CURED, "rules": "UK"}, {**CURED, "rules": "us"}),
    "acid-gear": ({"acid": "glacial acetic acid"}, {"acid": "vinegar"}),
    "mineral-acid": ({"acid": "hydrochloric acid"}, {"acid": "citric acid"}),
    "alkali-raw": ({"product": "chicken breast", "acid": "lye"}, {"product": "cucumber", "acid": "lye"}),
    "alkali-aluminium": (
        {"product": "cucumber", "acid": "lye", "vessel material": "aluminium"},
        {"product": "cucumber", "acid": "lye", "vessel material": "stainless steel"},
    ),
    "vessel-toxic": ({"vessel material": "copper pot"}, {"vessel material": "glass"}),
    "brine-warm-start": (
        {"product": "cod fillet", "bath temperature": 15.6},
        {"product": "cod fillet", "bath temperature": 15.5},
    ),
    "brine-warm-long": (
        {"product": "pork chop", "bath temperature": 6.0, "soak hours": 4.1},
        {"product": "pork chop", "bath temperature": 6.0, "soak hours": 4.0},
    ),
    "brine-reused": ({"product": "pork chop", "reused": "yes"}, {"product": "pork chop", "reused": "no"}),
    "fish-salt-low": (
        {**SMOKED, "packaging": "vacuum", "water phase salt": 0.034},
        {**SMOKED, "packaging": "vacuum", "water phase salt": 0.035},
    ),
    "sealed-low-acid": (
        {"product": "cucumber", "packaging": "sealed jar", "ph": 4.7},
        {"product": "cucumber", "packaging": "sealed jar", "ph": 4.6},
    ),
    "phosphate-product": (
        {"ingredient": "sodium tripolyphosphate", "level": 0.05, "gain": 0.15, "method": "injected"},
        {"ingredient": "sodium tripolyphosphate", "level": 0.05, "gain": 0.10, "method": "injected"},
    ),
    "over-ceiling": (
        {"ingredient": "sodium tripolyphosphate", "level": 0.0051},
        {"ingredient": "sodium tripolyphosphate", "level": 0.005},
    ),
    "cell-error": ({"strength": "error"}, {"strength": 0.05}),
    "cell-unreadable": ({"weight": "1,000 g"}, {"weight": "1000 g"}),
    "product-unknown": ({"product": "unicorn loin"}, {"product": "pork loin"}),
    "ingredient-unknown": ({"ingredient": "fairy dust", "level": 0.01}, {"ingredient": "bay leaf", "level": 0.001}),
    "heading-unknown": ({"curing sallt": 5.0}, {"price": 5.0}),
    "heading-passed-over": ({"soaked for": 8.0}, {"soaked for": ""}),
    "heading-names-ingredient": ({"citric acid": 5.0}, {"citric acid": "5 g"}),
    "strength-mismatch": (
        {"strength": 0.05, "salt": 58.0, "water": 1000.0},
        {"strength": 0.05, "salt": 57.8, "water": 1000.0},
    ),
    "nitrite-acid-close": (
        {**CURED, "water": 5000.0, "acid": "milk", "acid mass": 5.0, "ingredient": "vinegar", "level": 0.0000001},
        {**CURED, "water": 5000.0},
    ),
    "cure-not-reckoned": ({"cure": 20.0, "cure method": "dry"}, CURED),
    "cure-fish": ({**CURED, "product": "salmon fillet"}, {**CURED, "product": "pork shoulder"}),
    "bacon-kind": ({**BACON, "product": "pork loin", "kind": "bacon"}, {**BACON, "kind": "bacon"}),
    "nitrate-cure": ({**CURED, "cure name": "cure #2"}, {**CURED, "cure name": "cure #1"}),
    "bacon-set-level": ({**BACON, "cure": 17.6}, {**BACON, "cure": 16.0}),  # 110 and 100 ppm
    "bacon-accelerator": (
        BACON,
        {**BACON, "water": 900.0, "ingredient": "sodium erythorbate", "level": 0.006},
    ),
    "bacon-low-level": ({**BACON, "cure": 12.8}, {**BACON, "cure": 13.6}),  # 80 and 85 ppm
    "cure-bone-weight": (
        {**CURED, "product": "bone-in pork chop"},
        {**CURED, "product": "bone-in pork chop", "edible weight": 7500.0},
    ),
    "nitrite-weak": ({**CURED, "cure": 6.3}, {**CURED, "cure": 6.4}),  # 40 ppm
    "cure-too-thick": ({**CURED, "thickness": 101.0}, {**CURED, "thickness": 100.0}),
    "cure-too-short": (
        {**CURED, "thickness": 25.4, "soak hours": 95.0},
        {**CURED, "thickness": 25.4, "soak hours": 96.0},
    ),  # a day for each half inch and two days more
    "cure-rest-short": (
        {**CURED, "cure method": "pumped", "gain": 0.1, "rest hours": 11.0},
        {**CURED, "cure method": "pumped", "gain": 0.1, "rest hours": 12.0},
    ),
    "sour-liquid": ({"product": "pork shoulder", "liquid": "cola"}, {"product": "pork shoulder", "liquid": "stock"}),
    "acid-soda": ({"acid": "vinegar", "ingredient": "baking soda"}, {"acid": "vinegar", "ingredient": "bay leaf"}),
    "calcium-phosphate": (
        {"ingredient 1": "calcium chloride", "ingredient 2": "sodium hexametaphosphate"},
        {"ingredient 1": "calcium chloride", "ingredient 2": "bay leaf"},
    ),
    "calcium-carbonate": (
        {"ingredient 1": "calcium chloride", "ingredient 2": "baking soda"},
        {"ingredient 1": "calcium chloride", "ingredient 2": "bay leaf"},
    ),
    "must-not-meet": (
        {"ingredient 1": "sodium erythorbate", "ingredient 2": "citric acid"},
        {"ingredient 1": "sodium erythorbate", "ingredient 2": "bay leaf"},
    ),
    "alkali-gear": ({"product": "cucumber", "acid": "slaked lime"}, {"product": "cucumber", "acid": "baking soda"}),
    "alkali-ph": ({"ph": 11.1}, {"ph": 11.0}),
    "texture-acid": ({"product": "pork chop", "ph": 4.7}, {"product": "pork chop", "ph": 4.8}),
    "texture-alkali": ({"product": "pork chop", "ph": 8.6}, {"product": "pork chop", "ph": 8.5}),
    "acid-no-evidence": (
        {"product": "carrot", "packaging": "ambient", "ph": 4.6},
        {"product": "carrot", "packaging": "fridge tub", "ph": 4.6},
    ),
    "fish-salt-unknown": ({**SMOKED, "target": 0.03}, {**SMOKED, "water phase salt": 0.035}),
    "fish-salt-air": (
        {**SMOKED, "packaging": "paper", "water phase salt": 0.024},
        {**SMOKED, "packaging": "paper", "water phase salt": 0.025},
    ),
    "packed-without-air": (
        {"product": "pork chop", "packaging": "vacuum"},
        {"product": "pork chop", "packaging": "tray"},
    ),
    "brine-warm": (
        {"product": "pork chop", "bath temperature": 5.1},
        {"product": "pork chop", "bath temperature": 5.0},
    ),
    "fish-long-hold": (
        {"product": "trout fillet", "bath temperature": 4.0, "soak hours": 5.0},
        {"product": "trout fillet", "bath temperature": "38 °F", "soak hours": 5.0},
    ),
    "brine-frozen": ({"strength": 0.05, "bath temperature": -3.1}, {"strength": 0.05, "bath temperature": -2.5}),
    "over-saturation": ({"strength": 0.37}, {"strength": 0.359}),
    "brine-old": ({"brine age": 169.0}, {"brine age": 168.0}),
    "soak-long": ({"product": "ham leg", "soak hours": "8 d"}, {"product": "ham leg", "soak hours": "7 d"}),
    "over-cap": ({"product": "peeled shrimp", "soak hours": 12.0}, {"product": "peeled shrimp", "soak hours": 0.5}),
    "already-treated": ({"product": "treated shrimp"}, {"product": "peeled shrimp"}),
    "target-below-native": (
        {"product": "pork chop", "native salt": 0.004, "target": 0.004},
        {"product": "pork chop", "native salt": 0.004, "target": 0.0041},
    ),
    "bone-in-weight": (
        {"product": "bone-in pork chop", "method": "equilibrium", "weight": 2000.0},
        {"product": "bone-in pork chop", "method": "equilibrium", "edible weight": 2000.0},
    ),
    "quantity-mismatch": ({"weight": "2.5 kg", "water": 2.5}, {"weight": "2.5 kg", "water": 2500.0}),
    "thickness-odd": ({"thickness": 1.5}, {"thickness": "1.5 in"}),
    "thickness-thin": (
        {"product": "chicken breast", "thickness": 6.0},
        {"product": "chicken breast", "thickness": 6.0, "pieces": 10.0, "weight": 900.0},
    ),
    "piece-shape": (
        {"product": "pork chop", "weight": 5400.0, "pieces": 24.0, "thickness": 5.0},
        {"product": "pork chop", "weight": 5400.0, "pieces": 24.0, "thickness": 10.0},
    ),
    "batch-heavy": ({"weight": "1200 kg"}, {"weight": "1 t"}),
    "vessel-reactive": ({"vessel material": "aluminum"}, {"vessel material": "food-grade plastic"}),
    "vessel-not-food-grade": ({"vessel": "bin bag"}, {"vessel": "brining bag"}),
    "vessel-full": (
        {"vessel": "10 L", "water": "8 L", "weight": "3 kg", "strength": 0.05},
        {"vessel": "12 L", "water": "8 L", "weight": "3 kg", "strength": 0.05},
    ),
    "cure-small-dose": ({**CURED, "weight": 2000.0, "cure": 4.9}, {**CURED, "weight": 2000.0, "cure": 5.0}),
    "ceiling-taste": ({"ingredient": "rosemary", "level": 0.006}, {"ingredient": "rosemary", "level": 0.005}),
    "sweetener-high": (
        {"product": "pork chop", "sweetener": "honey", "sweetener level": 0.051},
        {"product": "pork chop", "sweetener": "honey", "sweetener level": 0.05},
    ),
    "calcium-high": (
        {"product": "pork chop", "ingredient": "calcium chloride", "level": 0.00031},
        {"product": "pork chop", "ingredient": "calcium chloride", "level": 0.0003},
    ),
    "calcium-gain": (
        {"product": "lean beef", "ingredient": "calcium chloride", "level": 0.0003, "gain": 0.031},
        {"product": "lean beef", "ingredient": "calcium chloride", "level": 0.0003, "gain": 0.03},
    ),
    "sodium-day": ({"portion": 300.0, "target": 0.02}, {"portion": 300.0, "target": 0.019}),
    "cook-through": ({"product": "lean beef", "treatment": "needled"}, {"product": "lean beef", "treatment": "none"}),
    "parasites": (
        {"product": "salmon fillet", "method": "dry equilibrium"},
        {"product": "salmon fillet", "method": "gradient"},
    ),
    "cola-not-pork": ({"product": "chicken wing", "liquid": "cola"}, {"product": "pork shoulder", "liquid": "cola"}),
    "strong-brine": ({"product": "cod fillet", "strength": 0.18}, {"product": "cod fillet", "strength": 0.17}),
    "no-temperature": (
        {"product": "pork chop", "soak hours": 5.0, "bath temperature": None},
        {"product": "pork chop", "soak hours": 4.0, "bath temperature": None},
    ),
    "above-usual": ({"ingredient": "bay leaf", "level": 0.0015}, {"ingredient": "bay leaf", "level": 0.001}),
    "no-amount": ({"ingredient": "bay leaf", "level": None}, {"ingredient": "bay leaf", "level": 0.001}),
    "small-dose": (
        {"water": 1000.0, "ingredient": "bay leaf", "level": 0.0009},
        {"water": 1000.0, "ingredient": "bay leaf", "level": 0.001},
    ),
    "gain-high": ({"gain": 0.26}, {"gain": 0.25}),
    "added-solution": (
        {"product": "pork loin", "method": "injected", "gain": 0.1, "packaging": "tray"},
        {"product": "pork loin", "method": "injected", "gain": 0.1},
    ),
    "sodium-portion": ({"portion": 200.0, "target": 0.01}, {"portion": 150.0, "target": 0.01}),
    "allergens": ({"liquid": "buttermilk"}, {"liquid": "cola"}),
    "potassium": ({"ingredient": "potassium chloride", "level": 0.01}, {"ingredient": "table salt", "level": 0.01}),
}


def found(row: dict[str, object]) -> list[str]:
    return [finding.rule.id for finding in all_of(list(row), list(row.values()))]


def said(row: dict[str, object]) -> str:
    return worst(list(row), list(row.values()))


def test_every_rule_has_its_case_and_its_condition() -> None:
    assert {rule.id for rule in table()} == set(CASES) == set(rules.conditions())
    assert len(CASES) >= 40


@pytest.mark.parametrize("rule", CASES)
def test_a_row_that_triggers_the_rule(rule: str) -> None:
    assert rule in found(CASES[rule][0])


@pytest.mark.parametrize("rule", CASES)
def test_a_neighbour_that_does_not(rule: str) -> None:
    assert rule not in found(CASES[rule][1])


@pytest.mark.parametrize("rule", CASES)
def test_the_sentence_is_whole_and_the_source_known(rule: str) -> None:
    row = CASES[rule][0]
    hits = [finding for finding in all_of(list(row), list(row.values())) if finding.rule.id == rule]
    keys = {source["key"] for source in load.rows("sources")}
    for hit in hits:
        assert hit.severity in findings.SEVERITIES
        assert hit.sentence.endswith(".")
        assert hit.sentence.count(".") >= 2, "says what is wrong and what to do"
        assert "{" not in hit.sentence
        assert len(hit.text) < 255
        assert hit.rule.source in keys
        assert len(hit.source) > 10
        if hit.rule.jurisdiction != "any":
            assert "recheck, rules change" in hit.source


EXAMPLE = re.compile(r'"[^"]*"|\b(?:shows|like) [\d.]+ g')
"""What was typed, how it may be typed, and what a scale shows, which is read off in grams everywhere."""
METRIC_ALONE = re.compile(r"\d (?:°C|mm|cm|kg|g|mL|L)\b(?! / )")


@pytest.mark.parametrize("rule", CASES)
def test_every_measure_stands_in_metric_and_us_units(rule: str) -> None:
    for one in all_of(*zip(*CASES[rule][0].items())):
        assert not METRIC_ALONE.search(EXAMPLE.sub("", one.sentence)), one.sentence


@pytest.mark.parametrize("needed", ["8 L", "8.037 L", "11.1 qt", "27.77 L"])
def test_a_vessel_as_large_as_the_finding_says_is_large_enough(needed: str) -> None:
    """What is said to be taken up is rounded up: typed as the vessel, in either unit, nothing is found."""
    row = {"vessel": "5 L", "water": needed, "weight": "3 kg", "strength": 0.05}
    told = re.search(r"take about (\S+ \S+) / (\S+ \S+);", said(row))
    assert told is not None
    for vessel in told.groups():
        assert "vessel-full" not in found({**row, "vessel": vessel})


def test_the_worst_finding_comes_first() -> None:
    row = {**CURED, "product": "pork chop", "liquid": "cola", "thickness": 1.0, "portion": 200.0, "target": 0.01}
    ranks = [findings.SEVERITIES.index(f.severity) for f in all_of(list(row), list(row.values()))]
    assert ranks == sorted(ranks)
    assert set(ranks) == {0, 1, 2}
    assert said(row).startswith("STOP cure: ")


def test_a_quiet_row_is_ok() -> None:
    row = {
        "product": "chicken breast", "weight": "10 kg", "pieces": 40, "thickness": "38 mm", "method": "gradient",
        "water": "10 L", "strength": "6%", "target": 0.01, "sweetener": "white sugar", "sweetener level": "2%",
        "ingredient": "black peppercorns", "level": 0.005, "bath temperature": "39 °F", "soak hours": 8,
        "rest hours": 2, "vessel": "30 L", "vessel material": "stainless steel", "reused": "no", "portion": 150,
    }  # fmt: skip
    assert said(row) == "ok"
    assert said({}) == "ok"


class TestNitriteAndAcid:
    """Undissociated nitrous acid, pKa 3.25 from memory: the rule is common practice, never acid with nitrite."""

    @pytest.mark.parametrize("heading", ["acid", "liquid", "ingredient", "sweetener"])
    @pytest.mark.parametrize(
        "name",
        "citric acid;red wine;orange juice;cider vinegar;buttermilk;lemon juice;blood orange juice;cola".split(";"),
    )
    def test_named_without_a_mass_it_stops(self, heading: str, name: str) -> None:
        assert said({**CURED, heading: name}).startswith("STOP cure")

    @pytest.mark.parametrize("name", ["citric acid", "red wine", "vinegar", "buttermilk", "vinegar 7 %"])
    def test_with_a_mass_and_water_the_ph_is_reckoned(self, name: str) -> None:
        row = {**CURED, "water": 5000.0, "strength": 0.05, "acid": name, "acid mass": 100.0}
        assert "nitrite-ph" in found(row)

    @pytest.mark.parametrize("cure", ["error", "#NUM!", "#N/A", "Err:502", "a pinch", "1 tsp", "pink salt", 5.0])
    def test_a_cure_cell_of_any_kind_counts(self, cure: object) -> None:
        assert "nitrite-cola" in found({"cure": cure, "liquid": "cola"})
        assert "nitrite-acid" in found({"cure": cure, "acid": "wine"})

    @pytest.mark.parametrize("column", ["cure name", "ingredient", "cure method", "cure strength", "nitrite"])
    def test_an_error_in_any_cure_column_stops(self, column: str) -> None:
        row = {**CURED, column: "error"}
        assert ("cure-error" in found(row)) == (column != "ingredient")

    @pytest.mark.parametrize(
        "name", "curing salt no. 1;pink salt;sodium nitrite;potassium nitrate;cultured celery powder;cure 2".split(";")
    )
    def test_a_cure_under_ingredient_counts(self, name: str) -> None:
        assert "nitrite-cola" in found({"ingredient": name, "level": 0.003, "liquid": "cola"})

    def test_a_ph_written_down_does_not_outweigh_the_acid_weighed_in(self) -> None:
        row = {**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": 50.0, "ph": 6.5}
        assert "nitrite-ph" in found(row)

    def test_an_error_in_the_acid_mass_leaves_the_ph_unknown(self) -> None:
        assert "nitrite-acid" in found({**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": "error"})

    def test_of_two_ph_columns_the_lower_counts(self) -> None:
        assert "nitrite-ph" in [f.rule.id for f in all_of(["cure", "ph", "ph"], [5.0, 6.0, 4.0])]

    def test_no_cure_no_stop(self) -> None:
        assert not said({"product": "pork shoulder", "liquid": "cola", "cure": 0}).startswith("STOP")
        assert not said({"product": "pork shoulder", "liquid": "cola", "cure": "none"}).startswith("STOP")


class TestIngoingNitrite:
    """The row's nitrite against trade.curing, whose own tests rest on the published formulas."""

    def test_pickle_is_what_the_row_weighs_in(self) -> None:
        """ppm = cure·k·gain/pickle: 10 kg, 10 %, 9000 g water + 900 g salt + 100 g cure is 10 000 g of pickle."""
        row = {
            "product": "ham leg", "weight": 10000.0, "water": 9000.0, "strength": 0.1, "cure": 100.0, "gain": 0.32,
            "cure method": "pumped",
        }  # fmt: skip
        assert "nitrite-over-limit" not in found(row)  # 200 ppm exactly
        assert "nitrite-over-limit" in found({**row, "gain": 0.3201})

    def test_a_pickle_given_counts_instead(self) -> None:
        row = {
            "weight": 10000.0,
            "water": 9000.0,
            "cure": 100.0,
            "gain": 0.1,
            "cure method": "pumped",
            "pickle": 3125.0,
        }
        assert "nitrite-over-limit" not in found(row)
        assert "nitrite-over-limit" in found({**row, "pickle": 3124.0})

    def test_all_cures_of_a_row_count_together(self) -> None:
        row = {**CURED, "cure": 60.0, "water": 10000.0, "ingredient": "curing salt no. 1", "level": 0.0041}
        assert "nitrite-over-limit" in found(row)
        assert "nitrite-over-limit" not in found({**row, "level": 0.0039})

    def test_grade_and_strength_are_heeded(self) -> None:
        assert "nitrite-over-limit" not in found({**CURED, "cure": 1000.0, "cure name": "nitrite salt 0.6 %"})
        assert "nitrite-over-limit" in found({**CURED, "cure": 1050.0, "cure name": "nitrite salt 0.6 %"})
        assert "nitrite-over-limit" in found({**CURED, "cure": 110.0, "cure strength": "5.88%"})

    def test_eu_rules_are_stricter(self) -> None:
        assert "nitrite-over-limit" in found({**CURED, "rules": "EU"})
        assert "nitrite-over-limit" not in found({**CURED, "rules": "EU", "cure": 19.1})

    def test_ppm_given_alone_is_checked(self) -> None:
        row = {"nitrite": 201.0, "cure method": "pumped", "liquid": "water"}
        assert "nitrite-over-limit" in found(row)
        assert "nitrite-over-limit" not in found({**row, "nitrite": 200.0})

    def test_a_method_by_another_name(self) -> None:
        assert "nitrite-no-method" not in found({**CURED, "cure method": "Injected", "gain": 0.1})
        assert "nitrite-no-method" in found({**CURED, "cure method": "immersion"})


class TestHeadings:
    """Case, order, brackets, units, numbers and missing columns."""

    @pytest.mark.parametrize(
        "heading", "Bath Temperature;BATH TEMPERATURE; bath  temperature ;Brine temp;bath temperature (°C)".split(";")
    )
    def test_case_and_brackets_do_not_matter(self, heading: str) -> None:
        assert "brine-warm" in [f.rule.id for f in all_of([heading], [9.0])]

    def test_a_unit_in_the_heading_holds_for_bare_numbers(self) -> None:
        assert "brine-warm" not in [f.rule.id for f in all_of(["bath temperature (°F)"], [40.0])]
        assert "brine-warm" in [f.rule.id for f in all_of(["bath temperature (°F)"], [45.0])]
        assert "brine-warm-start" in [f.rule.id for f in all_of(["bath temperature (°F)"], ["40 °C"])]

    def test_order_does_not_matter(self) -> None:
        row = {**BACON, "liquid": "cola", "water": 900.0, "ingredient 1": "rosemary", "level 1": 0.01}
        items = list(row.items())
        expected = sorted(found(row))
        for seed in range(20):
            random.Random(seed).shuffle(items)
            assert sorted(found(dict(items))) == expected

    def test_many_pairs_of_ingredient_and_level(self) -> None:
        headings = ["ingredient", "level", "ingredient", "level", "ingredient", "level"]
        values = ["bay leaf", 0.001, "rosemary", 0.02, "black peppercorns", 0.01]
        hits = [f for f in all_of(headings, values) if f.rule.id == "ceiling-taste"]
        assert [("osemary" in f.sentence) for f in hits] == [True]
        grouped = all_of(["ingredient", "ingredient", "level", "level"], ["bay leaf", "rosemary", 0.001, 0.02])
        assert [f.rule.id for f in grouped].count("ceiling-taste") == 1

    def test_numbers_pair_columns_before_order_does(self) -> None:
        headings = ["level 2", "ingredient 1", "ingredient 2", "level 1"]
        hits = [f.rule.id for f in all_of(headings, [0.02, "rosemary", "black peppercorns", 0.004])]
        assert "ceiling-taste" not in hits

    def test_foreign_columns_are_left_alone(self) -> None:
        assert worst(["price", "supplier", None, 7, "notes"], [3.5, "anyone", "x", 1, "cola"]) == "ok"

    def test_rows_of_unequal_length_are_refused(self) -> None:
        with pytest.raises(Unreadable, match="as many cells"):
            worst(["product", "weight"], ["pork chop"])


class TestCells:
    """A cell is a number, a name, a blank, an error or unreadable, and nothing of it raises."""

    @pytest.mark.parametrize("blank", [None, "", " ", "none", "-", "n/a"])
    def test_a_blank_is_not_given(self, blank: object) -> None:
        assert said({"product": "pork chop", "liquid": blank, "ph": blank, "cure": blank, "strength": blank}) == "ok"

    def test_zero_under_a_name_is_a_blank(self) -> None:
        assert said({"product": 0, "liquid": 0.0, "sweetener": 0, "cure method": 0}) == "ok"

    @pytest.mark.parametrize("text", ["error", "Error", "#NUM!", "#VALUE!", "#N/A", "#DIV/0!", "#WERT!"])
    def test_an_error_is_caution_and_in_the_cure_stop(self, text: str) -> None:
        assert said({"strength": text}).startswith("CAUTION strength")
        assert said({"cure": text}).startswith("STOP cure")

    @pytest.mark.parametrize(
        ("heading", "cell"),
        [
            ("weight", "1,000 g"), ("weight", -5.0), ("weight", "9**9**9 kg"), ("weight", True), ("weight", "5 °C"),
            ("weight", float("nan")), ("weight", 10**400), ("strength", 5), ("strength", "500%"), ("ph", 15.0),
            ("ph", "sour"), ("bath temperature", "cosy"), ("soak hours", "overnight"), ("reused", "perhaps"),
            ("thickness", "1 x 2 x"), ("water", object()), ("level", "lots"), ("ph", -0.1), ("gain", -0.1), ("kind", 5),
        ],
    )  # fmt: skip
    def test_what_cannot_be_read_is_a_caution(self, heading: str, cell: object) -> None:
        row = {"ingredient": "bay leaf", heading: cell}
        hits = [f for f in all_of(list(row), list(row.values())) if f.rule.id == "cell-unreadable"]
        assert [f.subject for f in hits] == [heading]

    def test_per_cent_forgotten_is_explained(self) -> None:
        assert "write 5%" in said({"strength": 5})

    def test_text_quantities(self) -> None:
        row = {"product": "pork chop", "weight": "5 lb 8 oz", "bath temperature": "50F", "soak hours": "5 h"}
        assert "brine-warm-long" in found(row)
        assert "thickness-odd" not in found({"thickness": "150 x 60 x 40 mm"})

    @pytest.mark.parametrize("level", [0.0001, 0.01, 0.9])
    def test_vinegar_in_the_brine_never_releases_sealed_food(self, level: float) -> None:
        """21 CFR 114.3: the equilibrium pH of the food counts, not that of the fresh brine."""
        row = {"product": "cucumber", "water": 1000.0, "strength": 0.05, "ingredient": "vinegar", "level": level}
        assert "sealed-low-acid" in found({**row, "packaging": "sealed jar"})
        assert "sealed-low-acid" in found({**row, "packaging": "sealed jar", "ph": 4.7})
        assert "sealed-low-acid" not in found({**row, "packaging": "sealed jar", "ph": 4.6})

    @pytest.mark.parametrize("heading", ["note", "batch", "customer", "use", "product", "packaging", "for"])
    def test_curing_salt_for_infants_is_seen_under_any_heading(self, heading: str) -> None:
        assert "cure-infant" in found({**CURED, heading: "ham for toddlers"})
        assert "cure-infant" not in found({**CURED, heading: "ham with baby carrots"})

    def test_baby_back_ribs_are_nobodys_age(self) -> None:
        assert "cure-infant" not in found({**CURED, "product": "baby back ribs"})

    def test_centimetres_typed_where_millimetres_are_meant(self) -> None:
        assert "thickness-odd" in found({"product": "chicken breast", "thickness": 2.5})
        assert "thickness-odd" not in found({"product": "chicken breast", "thickness": 6})
        assert "thickness-odd" not in found({"product": "cucumber", "thickness": 2.5})

    @pytest.mark.parametrize(
        ("product", "piece", "thickness"),
        [  # edible grams and millimetres of pieces as kitchens buy them
            ("chicken breast", 220, 25), ("chicken breast", 150, 10), ("whole turkey", 6000, 75), ("quail", 160, 18),
            ("pork chop", 200, 20), ("pork tenderloin", 500, 60), ("boneless pork loin", 4000, 110),
            ("ham leg", 9000, 120), ("beef brisket", 6000, 70), ("salmon fillet", 1400, 30), ("herring fillet", 70, 8),
            ("flatfish fillet", 120, 10), ("peeled shrimp", 20, 16), ("pork belly", 5000, 40),
            ("chicken wing", 90, 25), ("lean beef", 1500, 90),
        ],
    )  # fmt: skip
    def test_pieces_as_they_are_bought_are_believed_and_a_slip_of_ten_is_not(self, product, piece, thickness):
        row = {"product": product, "edible weight": 10 * piece, "pieces": 10}
        assert not {"piece-shape", "thickness-odd"} & set(found({**row, "thickness": thickness}))
        for slip in (thickness / 10, thickness * 10):
            assert {"piece-shape", "thickness-odd"} & set(found({**row, "thickness": slip})), slip

    @pytest.mark.parametrize("cell", ["pH 4.5", "4,5", "~4.5", "< 4.5", 4.5])
    def test_ph_as_people_write_it(self, cell: object) -> None:
        assert "nitrite-ph" in found({**CURED, "ph": cell})


ANY_CELL = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=40),
    st.sampled_from(
        ["cola", "wine", "curing salt no. 1", "error", "#NUM!", "5%", "1,000 g", "2.5 kg", "pork belly", "dry"]
    ),
)
ANY_HEADING = st.one_of(ANY_CELL, st.sampled_from([row["heading"] for row in load.rows("headings")]))


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
            'Head it "pieces" if that is meant.'
        )
        assert said({"soaking hrs": 8.0}).endswith("If it is meant as soak hours, head it so.")
        assert 'Head it "note"' in said({"zzz": 1.0})

    def test_the_sheets_own_notes_are_left_alone(self) -> None:
        assert said({"batch": 3, "Notes": "for Friday", "cost": 12.5, "cook": "A."}) == "ok"

    def test_duration_is_the_time_in_the_brine(self) -> None:
        assert "brine-warm-long" in found({"product": "pork chop", "temperature": 9.0, "duration": 8.0})


class TestOneRowAgainstItself:
    """What a row says twice has to agree."""

    @pytest.mark.parametrize("salt", [50.0, 52.6, 40.0])
    def test_either_basis_and_the_salt_of_the_cure_agree(self, salt: float) -> None:
        row = {"strength": 0.05, "salt": salt, "water": 1000.0, "cure": 10.0 if salt < 50 else ""}
        assert "strength-mismatch" not in found(row)

    def test_salt_and_water_make_a_strength_where_none_is_given(self) -> None:
        assert "over-saturation" in found({"salt": 400.0, "water": 1000.0})
        assert "over-saturation" not in found({"salt": 350.0, "water": 1000.0})  # 35.92 % of the water: kaufmann-1960

    @pytest.mark.parametrize("method", ["dry", "pumped", "injected", "equilibrium"])
    def test_the_brining_method_serves_as_curing_method_where_there_is_no_column_for_it(self, method: str) -> None:
        row = {"edible weight": 5000.0, "cure": 10.0, "method": method, "gain": 0.1, "pickle": 5000.0}
        assert not [rule for rule in found(row) if rule in ("nitrite-no-method", "cure-not-reckoned")]
        assert "nitrite-no-method" in found({**row, "cure method": ""})
        assert "nitrite-no-method" in found({**row, "method": "gradient"})


@given(st.lists(st.tuples(ANY_HEADING, ANY_CELL), max_size=12))
@settings(max_examples=200, deadline=None)
def test_any_row_at_all_is_read(row: list[tuple[object, object]]) -> None:
    """Law: reading never fails, and the worst of all findings is the worst finding."""
    headings, values = [heading for heading, _ in row], [cell for _, cell in row]
    hits = all_of(headings, values)
    assert worst(headings, values) == (hits[0].text if hits else "ok")


def test_no_sentence_permits_anything() -> None:
    """The tool computes; it does not permit."""
    for rule in table():
        assert not re.search(r"\b(safe|approved|permitted|guaranteed)\b", f"{rule.sentence} {rule.todo}")
        assert IDS().find(rule.id) is rule


def test_a_dip_in_phosphate_is_judged_by_what_stays_in_the_product():
    """4 % of the water, of which 5 % stays, is 0.18 % of the product, below the 0.5 % of 9 CFR 424.21(c)."""
    dip = {"product": "peeled shrimp", "ingredient": "sodium tripolyphosphate", "level": 0.04, "gain": 0.05}
    assert "above-usual" in found(dip)
    assert not set(found(dip)) & {"over-ceiling", "phosphate-product"}
    assert "phosphate-product" in found({**dip, "gain": 0.16})
    assert "over-ceiling" in found({key: value for key, value in dip.items() if key != "gain"})
