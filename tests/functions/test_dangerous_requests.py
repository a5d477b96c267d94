"""No dangerous request is answered with a plain number, in whatever words or order it comes."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry
from brinecalc.trade import findings, ingredients, soak_chart


@pytest.mark.parametrize("sour", ["lemon slices", "sumac", "tomato paste"])
def test_ph_gives_no_figure_for_nitrite_with_something_sour_of_unknown_acid(sour):
    names = [[sour], ["curing salt"]]
    assert registry.call("PH", 1000, names, [[50], [10]], 0.05) == "#NUM!"
    assert "curing salt" in registry.why("PH", 1000, names, [[50], [10]], 0.05)
    assert isinstance(registry.call("PH", 1000, [["fresh thyme"], ["curing salt"]], [[5], [10]], 0.05), float)


@pytest.mark.parametrize(
    ("headings", "values"),
    [
        (["cure", "curing salt", "weight", "cure method"], [10, 4000, 10000, "dry"]),
        (["cure", "cure strength", "cure strength", "weight", "cure method"], [600, 0.006, 0.1, 10000, "dry"]),
        (["product", "hours", "temperature", "hours"], ["chicken breast", 1, 12, 10]),
    ],
)
@pytest.mark.parametrize("turned", [False, True])
def test_of_two_columns_with_one_meaning_the_worse_counts_in_either_order(headings, values, turned):
    pairs = list(zip(headings, values))[:: -1 if turned else 1]
    assert registry.call("CHECK", [[h for h, _ in pairs]], [[v for _, v in pairs]]).startswith("STOP")


@pytest.mark.parametrize(
    "cells",
    [
        (10000, 200, "equilibrium", "", 1),  # 32 g of cure in one gram of pickle
        (10000, 200, "pumped", 0.04, "", 0.004),  # 500 g of cure in the 400 g that are pumped
        (10000, 200, "pumped", 0.1, 200),  # less pickle than the meat takes up
        (10000, 0.00015, "dry"),  # a share where parts per million were meant
    ],
)
def test_a_dose_of_cure_that_cannot_be_is_refused(cells):
    assert registry.call("CURE", *cells) == "#NUM!"


def test_nobody_is_sent_to_measure_curing_salt_with_a_spoon():
    assert "never of curing salt" in registry.why("NITRITE", "10 kg", "1 tsp", "dry")
    assert registry.call("WEIGHT", "1 tsp", "curing salt") == "#NUM!"


def test_milligrams_per_kilogram_are_parts_per_million():
    assert registry.call("CURE", 10000, "200 mg/kg", "dry") == registry.call("CURE", 10000, 200, "dry") == 32.0


def test_the_soak_chart_gives_no_hours_for_warm_perishables():
    rows = soak_chart.rows(["whole turkey", "peeled shrimp"], 20.0)  # shrimp would be done and rested within 4 h
    assert rows
    for row in rows:
        assert (row.soak, row.soak_fast, row.soak_slow, row.rest) == (None, None, None, None)
        assert "above 5 °C" in row.note


SPELLINGS = sorted(
    {
        spelling
        for made in ingredients.shipped()
        if made.role in ("alkali", "mineral acid", "cure")
        for spelling in (made.name, *made.aliases)
    }
)


def slips(name: str) -> list[str]:
    """The name with a letter left out, doubled, or swapped with the next."""
    made = [name[:i] + name[i + 1 :] for i in range(len(name))]
    made += [name[:i] + name[i] + name[i:] for i in range(len(name))]
    return made + [name[:i] + name[i + 1] + name[i] + name[i + 2 :] for i in range(len(name) - 1)]


def test_no_slip_of_the_keyboard_is_answered_with_something_that_hurts():
    dangerous = {made.name for made in ingredients.shipped() if made.role in ("alkali", "mineral acid", "cure")}
    asked = [slip for name in SPELLINGS for slip in slips(name)[::7]] + ["lime", "lim", "lie", "drain", "caustic"]
    for text in asked:
        assert dangerous.isdisjoint(ingredients.names().nearest(text)), text
    assert ingredients.names().nearest("sitric acid")[0] == "citric acid"
    assert "lime juice" in ingredients.names().nearest("lime")


@each("name", ["curing slat", "nitrit", "caustic sodda", "lye", "muriatic acid", "sodium nitirte"])
@each("function", ["DOSE", "WEIGHT", "VOLUME", "USUAL_RANGE"])
def test_what_hurts_is_not_measured_out_however_it_is_spelt(function, name):
    cells = {"DOSE": (1000, 0.01, name), "USUAL_RANGE": (name,)}.get(function, (10, name))
    assert registry.call(function, *cells) == "#NUM!"
    assert registry.why(function, *cells).count("burns skin") + ("BRINE_CURE" in registry.why(function, *cells)) or (
        "scale" in registry.why(function, *cells)
    )


@pytest.mark.parametrize(
    ("name", "rule"),
    [("cureing salt", "nitrite-no-method"), ("pikling lime", "alkali-raw"), ("vinnegar", "")],
)
def test_a_misspelt_danger_in_a_row_is_still_one(name, rule):
    row = {"product": "pork chop", "ingredient": name, "level": 0.01}
    if rule:
        assert rule in [found.rule.id for found in findings.all_of(list(row), list(row.values()))]
    else:
        row.update({"cure": 10, "cure method": "dry", "weight": 5000})
        assert findings.worst(list(row), list(row.values())).startswith("STOP cure: Curing salt must not meet vinnegar")


@each(
    ("name", "level", "says"),
    [  # harmful doses from memory
        ("nutmeg", 0.01, "5 g can poison"),
        ("mace", 0.01, "nutmeg"),
        ("saffron", 0.005, "5 g can poison"),
        ("liquorice", 0.02, "blood pressure"),
        ("epazote", 0.05, "pregnant"),
        ("potassium chloride", 0.1, "kidney"),
        ("glacial acetic acid", 0.2, "burns"),
        ("lactic acid 88 %", 0.2, "burns"),
        ("vinegar essence", 0.5, "burns"),
    ],
)
def test_a_harmful_dose_is_no_plain_number(name, level, says):
    assert registry.call("DOSE", 1000, level, name) == "#NUM!"
    assert says in registry.why("DOSE", 1000, level, name)
    row = {"product": "pork chop", "ingredient": name, "level": level}
    assert findings.worst(list(row), list(row.values())).startswith("STOP ingredient: ")


@each("name", ["bleach", "sodium hypochlorite", "borax", "road salt", "formaldehyde", "methanol"])
def test_what_is_no_food_is_refused_and_stops_a_batch(name):
    assert registry.call("DOSE", 1000, 0.01, name) == registry.call("WEIGHT", 10, name) == "#NUM!"
    assert "is no food" in registry.why("DOSE", 1000, 0.01, name)
    for row in ({"ingredient": name, "level": 0.01}, {name: 5}):
        assert findings.worst(list(row), list(row.values())).startswith("STOP ingredient: ")


@pytest.mark.parametrize("name", ["sodium sulfite", "potassium metabisulphite", "E 223", "sulphur dioxide"])
def test_a_sulphite_is_not_dosed_and_stops_a_batch_of_meat(name):
    assert registry.call("DOSE", 1000, 0.001, name) == "#NUM!"
    assert "allergen" in registry.why("DOSE", 1000, 0.001, name)
    said = registry.call("CHECK", [["product", name]], [["chicken breast", "2 g"]])
    assert said.startswith("STOP ingredient: ")
    assert "Leave it out" in said


@pytest.mark.parametrize("words", ["room temperature", "Ambient", "warm", "boiling"])
def test_a_warm_bath_in_words_is_a_warm_bath(words):
    row = {"product": "pork shoulder", "bath temperature": words, "soak hours": 8}
    assert findings.worst(list(row), list(row.values())).startswith("STOP bath temperature: ")


@pytest.mark.parametrize("call", [("DOSE", 1000, 0.01), ("WEIGHT", "1 tsp"), ("VOLUME", 5), ("USUAL_RANGE",)])
def test_a_powder_that_may_bring_nitrite_or_acid_is_asked_about(call):
    """Cultured, cherry powder brings nitrite; of acerola it brings ascorbic acid, which must not meet nitrite."""
    function, *cells = call
    assert registry.call(function, *cells, "cherry powder") == "#NUM!"
    assert "write cultured celery powder, acerola powder or" in registry.why(function, *cells, "cherry powder")
    assert registry.call("CHECK", [["ingredient"]], [["tart cherry powder"]]).startswith("STOP ingredient")


def test_acerola_must_not_meet_curing_salt():
    row = [["ingredient", "cure", "cure method"]], [["acerola powder", 10, "dry"]]
    assert registry.call("CHECK", *row).startswith("STOP cure: Curing salt must not meet acerola powder")


def test_a_limit_asked_for_without_rules_is_never_that_of_the_laxer_ones():
    """By US rules no meat takes sulphite, and no herring nitrate (21 CFR 182.3766 and 172.170)."""
    for name in ("sulphite", "sulphite sausage", "nitrate herring"):
        assert registry.call("LIMIT", name) == 0.0
        assert registry.call("LIMIT", name, "EU") > 400.0
