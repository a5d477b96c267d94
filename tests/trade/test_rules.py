"""What a finding tells of its row: the row's own figures in the sentence, and where exactly each rule begins and ends.

Figures are those of the row, or follow from them by hand as the comment beside says; limits are the rules' own
(tests/trade/test_limits.py checks those against their sources).
"""

from __future__ import annotations

import pytest

from brinecalc.trade import headings, ingoing, limits
from brinecalc.trade.findings import Finding, all_of
from brinecalc.trade.row import read
from brinecalc.trade.rules import condition
from tests.trade.test_findings import BACON, CASES, CURED, SMOKED, found

SAYS = {
    "nitrite-ascorbic": "must not meet ascorbic acid in the tank",
    "nitrite-ph": "a brine of pH 4.9:",
    "nitrite-acid": "must not meet red wine vinegar: how sour",
    "nitrite-unknown-liquid": "how sour grandma's broth is",
    "cure-error": "column cure holds an error: a dose",
    "pure-nitrite": "sodium nitrite is no premixed",
    "nitrite-no-method": "cannot be checked. Write",
    "nitrite-over-limit": "is 625.6 ppm for dry curing; the limit by US rules is 625 ppm",  # 100.1 g × 6.25 % of 10 kg
    "nitrate-over-limit": "is 2190 ppm for dry curing; the limit by US rules is 2188 ppm",  # 21.9 g of 10 kg
    "nitrate-bacon": "curing salt no. 2 carries nitrate",
    "cure-no-rule": "curing salt into cucumber",
    "mineral-acid": "Hydrochloric acid burns",
    "alkali-raw": "Lye is not for raw chicken breast",
    "alkali-aluminium": "Lye eats aluminium",
    "vessel-toxic": "metal out of copper pot",
    "brine-warm-start": "at 15.6 °C / 60 °F; never put raw cod fillet",
    "brine-warm-long": "pork chop would be above 5 °C / 41 °F for 4.1 h; the most is 4 h",
    "fish-salt-low": "needs 3.5 % water-phase salt or more; this has 3.4 %",
    "sealed-low-acid": "cucumber with pH 4.7 can grow",
    "phosphate-product": "Sodium tripolyphosphate comes to 0.621 % of the product; the limit by US rules is 0.5 %",
    # 0.05/1.05 of the brine, 0.15/1.15 of which is in the product
    "over-ceiling": "Sodium tripolyphosphate is at 0.51 % of the water; its legal ceiling is 0.5 % of the product",
    "cell-error": "column strength holds an error",
    "cell-unreadable": 'Weight cannot be read: "1,000 g" must be a mass',
    "product-unknown": '"unicorn loin" is not in the product table (nearest: ',
    "ingredient-unknown": '"fairy dust" is in no table, so it was not checked.',
    "heading-unknown": 'column "curing sallt" was not read. If it is meant as cure,',
    "nitrite-acid-close": "Curing salt and vinegar share a brine of pH ",
    "cure-not-reckoned": "was not checked: the weight of the product is not given",
    "cure-fish": "and salmon fillet may not be one",
    "bacon-kind": "though pork loin is no pork belly",
    "nitrate-cure": "curing salt no. 2 carries nitrate",
    "bacon-set-level": "exactly 120 ppm (or 100 ppm, or a set level of 40 to 80 ppm with starter culture and sugar); "
    "this is 110 ppm",  # 17.6 g × 6.25 % of 10 kg
    "bacon-accelerator": "has to carry 550 ppm of sodium erythorbate",
    "bacon-low-level": "At 80 ppm pumped bacon needs a lactic starter and 0.7 % of sugar",
    "cure-bone-weight": "About 25 % of bone-in pork chop is bone",
    "nitrite-weak": "only 39.4 ppm for dry curing; below 40 ppm",  # 6.3 g × 6.25 % of 10 kg
    "cure-too-thick": "At 101 mm / 3.98 in a cure",
    "cure-rest-short": "11 h of rest after pumping is less than the customary 12 h",
    "sour-liquid": "Cola is sour, pH 2.8 or below",
    "cure-too-short": "3.96 days in the cure is less than the shortest custom for 25.4 mm / 1 in, 4 days",  # 95 h
    "acid-soda": "Vinegar and baking soda foam up",
    "calcium-phosphate": "Calcium chloride and sodium hexametaphosphate fall out",
    "calcium-carbonate": "Calcium chloride and baking soda fall out",
    "must-not-meet": "Sodium erythorbate and citric acid do not belong",
    "alkali-gear": "Slaked lime burns skin and eyes",
    "alkali-ph": "At pH 11.1 the bath",
    "texture-acid": "At pH 4.7 the surface",
    "texture-alkali": "At pH 8.6 the surface",
    "acid-no-evidence": "no evidence that carrot itself",
    "fish-salt-unknown": "the loin needs 3.5 % water-phase salt",
    "fish-salt-air": "in air needs 2.5 % water-phase salt; this has 2.4 %",
    "packed-without-air": "from 3.3 °C / 38 °F up",
    "brine-warm": "at 5.1 °C / 41 °F; pork chop belongs",
    "fish-long-hold": "held at 3.3 °C / 38 °F or below; this is at 4.0 °C / 39 °F",
    "brine-frozen": "A brine of 5 % freezes at -2.9 °C / 27 °F; this one is at -3.1 °C / 26 °F",  # CRC: 4.76 %, -2.9 °C
    "over-saturation": "37 % of the water does not dissolve; the most is 35.9 %",
    "brine-old": "The brine is 7.04 days old; the most is 7 days",  # 169 h
    "soak-long": "8 days is longer than 7 days",
    "over-cap": "12 h is longer than the 1 h customary for peeled shrimp",
    "already-treated": "treated shrimp holds 1.44 % salt",
    "target-below-native": "The target of 0.4 % is no more than the 0.4 % that is in pork chop",
    "bone-in-weight": "About 25 % of bone-in pork chop",
    "quantity-mismatch": "Weight 2.5 kg / 5.51 lb and water 2.5 g / 0.0882 oz are 1000-fold apart",
    "thickness-odd": "A thickness of 1.5 mm / 0.0591 in",
    "thickness-thin": "6 mm / 0.236 in is thin for chicken breast",
    # 225 g of 1.05 g/mL, 5 mm thick: the root of 214 / 0.5 cm2
    "piece-shape": "A piece of 225 g / 7.94 oz that is 5 mm / 0.197 in thick would be 207 mm / 8.15 in across",
    "batch-heavy": "One batch of 1200 kg / 2650 lb is more than 1000 kg / 2200 lb",
    "vessel-reactive": "attack aluminum: it pits",
    "vessel-not-food-grade": "bin bag is not made to touch food",
    "vessel-full": "take about 11 L / 2.91 gal; the vessel holds 10 L / 2.64 gal",  # 8.39 kg: 1.03 3 kg: 1.05 g/mL
    "cure-small-dose": "4.9 g / 0.173 oz of curing salt",
    "ceiling-taste": "Fresh rosemary at 0.6 % is above 0.5 % of the water",
    "sweetener-high": "Honey at 5.1 % of the water is above 5 %",
    "calcium-high": "Calcium chloride at 0.031 % of the water is above 0.03 %",
    "calcium-gain": "a gain of 3 %; this is 3.1 %",
    "sodium-day": "about 2360 mg sodium from salt, more than a whole day's 2300 mg",  # 6 g of salt at 393.37 mg/g
    "cook-through": "Cook lean beef through: 68.3 °C / 155 °F at",
    "cola-not-pork": "not for chicken wing",
    "strong-brine": "Above 17.6 % of the water",
    "no-temperature": "given for 5 h in the brine",
    "above-usual": "Bay leaf at 0.15 % is above the usual 0.02 % to 0.1 % of the water",
    "no-amount": "given for bay leaf, so it was neither weighed out nor checked",
    "small-dose": "0.9 g / 0.0317 oz of bay leaf is less",
    "gain-high": "A gain of 26 % is more than the usual 25 %",
    "added-solution": "Raw pork loin with 10 % added solution",
    "sodium-portion": "about 790 mg sodium from salt, 34 % of the daily value",  # 2 g of salt, 787 of 2300 mg
    "allergens": "May bring milk (buttermilk).",
    "potassium": "Potassium chloride adds potassium",
    "not-food": "Bleach is no food",
    "heading-passed-over": 'column "soaked for" was not read',
    "acid-gear": "Acetic acid is strong enough",
    "strength-mismatch": "58 g / 2.05 oz of salt in 1 kg / 2.2 lb of water makes 5.8 %, not 5 %",
    "rules-unknown": 'The rules "UK" are not known here',
    "heading-names-ingredient": 'column "citric acid" gives no unit',
}

SUBJECTS = {
    "cell-error": "strength",
    "cell-unreadable": "weight",
    "product-unknown": "product",
    "no-amount": "ingredient",
}


def of(rule: str, row: dict[str, object]) -> list[Finding]:
    return [finding for finding in all_of(list(row), list(row.values())) if finding.rule.id == rule]


@pytest.mark.parametrize("rule", SAYS)
def test_the_sentence_holds_the_figures_of_the_row(rule):
    hits = of(rule, CASES[rule][0])
    assert len(hits) == 1
    assert SAYS[rule] in hits[0].sentence
    assert hits[0].subject == SUBJECTS.get(rule, hits[0].rule.subject)


def test_every_rule_that_fills_in_words_says_them_here():
    rows = {rule: of(rule, row)[0].rule for rule, (row, _) in CASES.items()}
    filled = {rule for rule, read in rows.items() if "{" in read.sentence + read.todo}
    assert filled == set(SAYS)


# (rule, row, what must stand in its sentence)
ALSO = [
    ("cure-error", {**CURED, "cure": "a pinch 5"}, 'The column cure holds "a pinch 5"'),
    ("pure-nitrite", {**CURED, "cure strength": 0.2}, "A cure with 20 % nitrite"),
    ("pure-nitrite", {**CURED, "cure strength": 0.003}, "A cure with 0.3 % nitrite"),
    ("nitrite-no-method", {**CURED, "cure method": "by the moon"}, 'checked ("by the moon" is none of them).'),
    ("nitrite-no-method", {**CURED, "cure method": "x" * 31}, f'("{"x" * 30}" is none'),
    ("nitrite-over-limit", {**BACON, "cure": 19.3}, "120.6 ppm for bacon, pumping; the limit by US rules is 120 ppm"),
    (
        "nitrate-over-limit",
        {**CURED, "cure method": "pick-up", "gain": 0.1, "pickle": 1000.0, "cure name": "saltpetre", "cure": 7.1},
        "is 710 ppm for immersion by pick-up; the limit by US rules is 700 ppm",  # 9 CFR 424.21: pickle as pumped
    ),
    ("alkali-aluminium", {"ph": 11.1, "vessel": "aluminium tub"}, "A bath of pH 11.1 eats aluminium"),
    ("sealed-low-acid", {"product": "cucumber", "packaging": "sealed jar"}, "cucumber with no pH known can"),
    ("fish-salt-low", {**SMOKED, **CURED, "product": "salmon fillet", "packaging": "vacuum", "water phase salt": 0.029},
     "needs 3 % water-phase salt"),
    ("fish-salt-unknown", {**SMOKED, **CURED, "product": "salmon fillet", "packaging": "vacuum"}, "needs 3 % water"),
    ("fish-salt-unknown", {**SMOKED, "packaging": "paper"}, "needs 2.5 % water"),
    ("fish-salt-unknown", {"product": "smoked reindeer", "method": "smoked salmon way"}, "needs 3.5 % water"),
    ("brine-warm-long", {"bath temperature": 6.0, "soak hours": 4.1}, "The product would be"),
    ("brine-old", {"brine age": 240.0}, "is 10 days old"),
    ("no-temperature", {"soak hours": 72.0, "bath temperature": None}, "for 3 days in"),
    ("no-temperature", {"soak hours": 71.0, "bath temperature": None}, "for 71 h in"),
    ("cook-through", {"product": "chicken breast", "treatment": "tumbled"}, "; poultry 73.9 °C / 165 °F"),
    ("cook-through", {"product": "pork loin", "cure method": "pumped"}, "Cook pork loin through"),
    ("cook-through", {"product": "pork loin", "method": "injected"}, "Cook pork loin through"),
    (
        "phosphate-product",
        {"ingredient 1": "STPP", "level 1": 0.04, "ingredient 2": "sodium hexametaphosphate", "level 2": 0.04,
         "strength": 0.12, "gain": 0.2},
        "Sodium tripolyphosphate and sodium hexametaphosphate comes to 1.11 %",  # 0.08/1.2 × 0.2/1.2
    ),
    (
        "phosphate-product",
        {"ingredient": "STPP", "level": 0.06, "gain": 0.2, "rules": "EU"},
        # 0.06/1.06 × 0.2/1.2, of which P2O5 is 0.5788 by molar masses (1.5 × 141.94 of 367.86)
        "comes to 0.546 % as P2O5 of the product; the limit by EU rules is 0.5 %",
    ),
    ("product-unknown", {"product": "q" * 41}, f'"{"q" * 40}" is not in the product table, so'),
    ("ingredient-unknown", {"ingredient": "q" * 41, "level": 0.001}, f'"{"q" * 40}" is in no table, so'),
    ("allergens", {"liquid": "buttermilk", "ingredient 1": "soy sauce", "level 1": 0.01, "ingredient 2": "milk",
                   "level 2": 0.01}, "milk (buttermilk, milk)"),
    ("potassium", {"ingredient": "low-sodium salt", "level": 0.01}, "Low-sodium salt adds potassium"),
    ("must-not-meet", {"ingredient 1": "sodium erythorbate", "ingredient 2": "baking soda", "acid": "citric acid"},
     "Citric acid and sodium erythorbate"),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "row", "words"), ALSO)
def test_other_rows_and_what_is_said_of_them(rule, row, words):
    assert any(words in hit.sentence for hit in of(rule, row)), [hit.sentence for hit in of(rule, row)]


# (rule, row that is just not caught)
QUIET = [
    ("nitrite-cola", {**CURED, "liquid": "water"}),
    ("rules-unknown", {**CURED, "rules": "EU"}),
    ("rules-unknown", {**CURED, "rules": "USA"}),
    ("nitrite-over-limit", BACON),  # 120 ppm, which is the level itself
    ("rules-unknown", {**CURED, "rules": "U.S.A."}),
    ("pure-nitrite", {**CURED, "cure strength": 0.1}),
    ("pure-nitrite", {**CURED, "cure strength": 0.004}),
    ("nitrite-acid-close", {**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": 5.0}),
    ("nitrate-bacon", {**BACON, "cure name": "curing salt no. 2", "rules": "EU"}),
    ("nitrate-cure", {**BACON, "cure name": "curing salt no. 2"}),
    ("nitrate-over-limit", {**CURED, "cure name": "saltpetre", "cure": 25.0, "rules": "EU"}),
    ("bacon-set-level", {**BACON, "cure": 20.8}),  # 130 ppm is over the limit, and said so
    ("bacon-set-level", {**BACON, "cure": 17.6, "rules": "EU"}),
    ("bacon-accelerator", {**BACON, "rules": "EU"}),
    ("bacon-accelerator", {**BACON, "product": "pork loin"}),
    ("bacon-low-level", {**BACON, "cure": 6.3}),
    ("bacon-kind", {**BACON, "product": "pork loin", "kind": "ham"}),
    ("cure-too-thick", {**CURED, "cure method": "pumped", "gain": 0.1, "thickness": 101.0}),
    ("cure-too-short", {**CURED, "cure method": "comminuted", "thickness": 25.4, "soak hours": 95.0}),
    ("cure-rest-short", {**CURED, "cure method": "dry", "rest hours": 1.0}),
    ("cure-rest-short", {"product": "pork loin", "method": "pumped", "rest hours": 1.0}),
    ("sour-liquid", {"product": "cucumber", "liquid": "cola"}),
    ("sour-liquid", {"product": "chicken breast", "liquid": "buttermilk"}),
    ("cure-bone-weight", {**CURED, "product": "pork shoulder cubes"}),
    ("cure-fish", {"product": "salmon fillet"}),
    ("fish-salt-low", {**SMOKED, "packaging": "unsealed box", "water phase salt": 0.026}),
    ("fish-salt-low", {"product": "pork belly", "method": "smoked", "packaging": "vacuum", "water phase salt": 0.01}),
    ("fish-salt-unknown", {"product": "salmon fillet", "method": "cured"}),
    ("fish-salt-air", {**SMOKED, "packaging": "vacuum", "water phase salt": 0.01}),
    ("packed-without-air", {"product": "cucumber", "packaging": "vacuum"}),
    ("sealed-low-acid", {"product": "pork chop", "packaging": "sealed jar"}),
    ("acid-no-evidence", {"product": "carrot", "packaging": "ambient"}),
    ("added-solution", {"product": "pork loin", "method": "injected", "gain": 0.1, "packaging": "tub"}),
    ("added-solution", {"product": "cucumber", "method": "injected", "gain": 0.1, "packaging": "tray"}),
    ("added-solution", {"product": "pork loin", "method": "gradient", "gain": 0.1, "packaging": "tray"}),
    ("cola-not-pork", {"liquid": "cola"}),
    ("parasites", {"product": "pork chop", "method": "dry equilibrium"}),
    ("cook-through", {"product": "salmon fillet", "treatment": "needled"}),
    ("over-cap", {"product": "peeled shrimp", "soak hours": 12.0, "strength": 0.0}),
    ("over-cap", {"product": "peeled shrimp", "soak hours": 12.0, "method": "equilibrium"}),
    ("over-cap", {**CURED, "product": "peeled shrimp", "soak hours": 12.0}),
    ("over-cap", {"product": "peeled shrimp", "soak hours": 1.0}),
    ("soak-long", {**CURED, "product": "ham leg", "soak hours": "8 d"}),
    ("soak-long", {"product": "cucumber", "soak hours": "8 d"}),
    ("already-treated", {"product": "treated shrimp", "strength": 0.0}),
    ("already-treated", {"product": "pork chop", "native salt": 0.05}),  # salted goods
    ("target-below-native", {"product": "pork chop", "native salt": 0.004, "target": 0.004, "strength": 0.0}),
    ("strong-brine", {"product": "cucumber", "strength": 0.18}),
    ("bone-in-weight", {"product": "bone-in pork chop", "method": "equilibrium", "weight": 1.0, "edible weight": 2.0}),
    ("bone-in-weight", {"product": "lean beef", "method": "equilibrium", "weight": 2000.0}),
    ("bone-in-weight", {"product": "cucumber", "method": "equilibrium", "weight": 2000.0}),
    ("bone-in-weight", {"product": "bone-in pork chop", "method": "gradient", "weight": 2000.0}),
    ("brine-reused", {"product": "pork chop", "reused": "0"}),
    ("brine-warm-start", {"product": "cucumber", "bath temperature": 30.0}),
    ("fish-long-hold", {"product": "pork chop", "bath temperature": 4.0, "soak hours": 5.0}),
    ("fish-long-hold", {"product": "trout fillet", "bath temperature": 4.0, "soak hours": 4.0}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0, "bath temperature": "error"}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0, "bath temperature": "lukewarm"}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0, "bath temperature": 4.0}),
    ("brine-frozen", {"bath temperature": -21.0}),
    ("brine-frozen", {"strength": 0.0, "bath temperature": 0.1}),
    ("sweetener-high", {"product": "cucumber", "sweetener": "honey", "sweetener level": 0.2}),
    ("calcium-high", {"product": "cucumber", "ingredient": "calcium chloride", "level": 0.00031}),
    ("calcium-gain", {"product": "lean beef", "ingredient": "bay leaf", "level": 0.0003, "gain": 0.031}),
    ("phosphate-product", {"ingredient": "STPP", "level": 0.05, "method": "injected"}),
    ("over-ceiling", {"ingredient": "STPP", "level": 0.0051, "gain": 0.05}),  # the product decides, and it is under
    ("above-usual", {"ingredient": "rosemary", "level": 0.006}),  # above its ceiling, and said so
    ("above-usual", {"product": "cucumber", "ingredient": "white sugar", "level": 0.08}),
    ("above-usual", {"ingredient": "fine table salt", "level": 0.15, "cure method": "pumped"}),
    ("thickness-thin", {"product": "pork chop", "thickness": 10.0}),  # half of the thinnest that the chart shows
    ("piece-shape", {"product": "pork chop", "weight": 38000.0, "pieces": 100, "thickness": 10.0}),
    ("nitrite-weak", {"weight": 10000.0, "cure name": "curing salt no. 1", "cure method": "dry"}),
    ("must-not-meet", {**CURED, "cure name": "curing salt no. 1", "acid": "citric acid"}),  # and said so elsewhere
    ("no-amount", {"ingredient": "bay leaf"}),
    ("no-amount", {**CURED, "ingredient": "curing salt no. 1", "level": None}),
    ("small-dose", {"water": 1000.0, "ingredient": "curing salt no. 1", "level": 0.0005}),
    ("potassium", {"ingredient": "bay leaf", "level": 0.001}),
    ("acid-soda", {"acid": "citric acid", "ingredient": "sodium citrate"}),
    ("must-not-meet", {"ingredient 1": "baking soda", "ingredient 2": "citric acid"}),  # foam, and said so
    ("texture-acid", {"product": "cucumber", "ph": 4.0}),
    ("texture-alkali", {"product": "cucumber", "ph": 9.0}),
    ("alkali-gear", {"product": "chicken breast", "acid": "lye"}),
    ("alkali-gear", {"acid": "lye"}),
    ("vessel-toxic", {"vessel material": "lead free glass"}),
    ("vessel-full", {"water": "8 L", "weight": "3 kg"}),
    ("vessel-reactive", {"vessel material": "stainless steel, aluminium lid"}),
    ("sodium-portion", {"portion": 300.0, "target": 0.02}),  # more than a day's, and said so
]


@pytest.mark.parametrize(("rule", "row"), QUIET)
def test_a_row_just_outside_the_rule(rule, row):
    assert rule not in found(row)


# (rule, row that is still caught)
CAUGHT = [
    ("nitrite-over-limit", {**CURED, "cure": 100.06}),  # 625.4 ppm, which would be rounded to 625
    ("thickness-thin", {"product": "pork chop", "thickness": 9.9}),
    (
        "piece-shape",
        {"product": "pork chop", "weight": 44000.0, "pieces": 100, "thickness": 10.0},
    ),  # 20.5 times as wide
    ("vessel-full", {"vessel": "8 L", "water": "9 L", "bath temperature": 60.0}),
    ("heading-unknown", {"bath temprature": 30.0}),
    ("heading-unknown", {"of our own nitrits a lot": 3.0}),
    ("nitrite-weak", {**CURED, "cure": 0.08}),
    ("above-usual", {"ingredient": "white sugar", "level": 0.08, "product": "pork chop"}),
    ("above-usual", {"ingredient": "fine table salt", "level": 0.15, "cure method": "dry"}),
    ("nitrite-cola", {**CURED, "product": "cola ham"}),
    ("nitrite-cola", {**CURED, "method": "cola glaze"}),
    ("nitrite-ascorbic", {**CURED, "ingredient": "vitamin C powder"}),
    ("nitrite-unknown-liquid", {**CURED, "acid": "grandma's drops"}),
    ("brine-warm-start", {"product": "unicorn loin", "bath temperature": 16.0}),
    ("brine-warm", {"product": "unicorn loin", "bath temperature": 5.1}),
    ("cure-too-thick", {**CURED, "cure method": "equilibrium", "water": 5000.0, "thickness": 101.0}),
    ("cure-too-thick", {**CURED, "cure method": "pick-up", "gain": 0.1, "thickness": 101.0}),
    ("cure-no-rule", {**CURED, "product": "halloumi"}),
    ("brine-frozen", {"bath temperature": -21.3}),
    ("brine-frozen", {"strength": 0.0, "bath temperature": 0.0}),
    ("fish-salt-unknown", {**SMOKED, "packaging": "vacuum"}),
    ("fish-salt-unknown", {"product": "trout fillet", "treatment": "hot smoked"}),
    ("fish-salt-unknown", {"product": "trout fillet", "packaging": "smoke bag"}),
    ("sealed-low-acid", {"product": "pork chop", "packaging": "shelf", "ph": 5.0}),
    ("calcium-high", {"ingredient": "calcium chloride", "level": 0.00031}),
    ("no-amount", {"acid": "citric acid", "acid mass": None}),
    ("no-amount", {"acid": "citric acid", "acid level": None}),
    ("no-amount", {"sweetener": "honey", "sweetener level": None}),
    ("small-dose", {"water": 1000.0, "acid": "citric acid", "acid mass": 0.5}),
    ("small-dose", {"water": 1000.0, "sweetener": "honey", "sweetener level": 0.0005}),
    ("vessel-reactive", {"vessel": "aluminium tub"}),
    ("vessel-full", {"vessel": "10 L", "water": "11 L"}),
    ("vessel-full", {"vessel": "10 L", "water": "9 L", "ingredient": "white sugar", "level": 0.3}),
    ("added-solution", {"product": "pork loin", "treatment": "massaged", "gain": 0.1, "packaging": "tray"}),
    ("parasites", {"product": "salmon fillet", "treatment": "gravlax"}),
    ("above-usual", {"ingredient 1": "fresh dill", "ingredient 2": "bay leaf", "level 2": 0.0015}),
    ("ceiling-taste", {"ingredient 1": "bay leaf", "level 1": 0.001, "ingredient 2": "rosemary", "level 2": 0.006}),
    (
        "above-usual",
        {"ingredient 1": "rosemary", "level 1": 0.006, "ingredient 2": "bay leaf", "level 2": 0.0015},
    ),
    (
        "over-ceiling",
        {"ingredient 1": "bay leaf", "level 1": 0.001, "ingredient 2": "STPP", "level 2": 0.0051},
    ),
]


@pytest.mark.parametrize(("rule", "row"), CAUGHT)
def test_a_row_just_inside_the_rule(rule, row):
    assert rule in found(row)


def test_two_conditions_under_one_id_are_a_mistake():
    with pytest.raises(ValueError, match="'brine-old' has two conditions"):
        condition.condition("brine-old")(lambda row: ())


def worded(rule: str, row: dict[str, object], heading: str, words: str) -> list[tuple[str, dict[str, object], str]]:
    """The rule with each of the words under that heading; the words are those of the trade, from memory."""
    return [(rule, {**row, heading: word}, word) for word in words.split(", ")]


FISH = {"product": "salmon fillet"}
WATERS = ("water", "tap water", "cold water", "ice water", "iced water", "fresh water", "ice")
WORDED = [
    *worded(
        "vessel-toxic", {}, "vessel material",
        "copper, brass, bronze, zinc, galvanised steel, galvanized tub, lead crystal, pewter, cadmium plated, "
        "lead-glazed",
    ),
    *worded(
        "vessel-reactive", {}, "vessel material",
        "aluminium, aluminum, alu tray, cast iron, carbon steel, mild steel, black steel, tin, tinned, chipped enamel",
    ),
    *worded(
        "vessel-not-food-grade", {}, "vessel",
        "bin bag, bin liner, trash bag, garbage bag, garbage can, trash can, dustbin, rubbish bin, "
        "paint bucket, builder bucket, painted tub, non-food-grade tub, not food grade, unlined wood, "
        "treated wood, concrete",
    ),
    *worded(
        "fish-salt-unknown", FISH, "method", "smoked, cold smoke, hot smoking, smokehouse, lox, kippered, kipper style"
    ),
    *worded(
        "fish-salt-unknown", {"method": "smoked"}, "product",
        "wild fish, salmon x, trout x, mackerel x, herring x, eel x, tuna x, sablefish x, shad x, chub x, sturgeon x, "
        "haddock x, cod x, whitefish x, mullet x, bluefish x, char x, lox x, kipper x",
    ),
    *worded(
        "packed-without-air", {"product": "pork chop"}, "packaging",
        "vacuum, vacuumed, vac, vac pac, sous-vide, reduced oxygen, ROP, MAP, no air, airless",
    ),
    *worded(
        "sealed-low-acid", {"product": "cucumber"}, "packaging",
        "sealed, jar, jarred, can, canned, canning, bottle, bottled, hermetic",
    ),
    *worded(
        "sealed-low-acid", {"product": "pork chop"}, "packaging",
        "ambient, shelf, room temperature, pantry, unrefrigerated, unchilled, canned, canning",
    ),
    *worded(
        "nitrite-ascorbic", CURED, "ingredient",
        "ascorbic acid, erythorbic acid, ascorbic powder, erythorbic x, vitamin C",
    ),
    *worded("cure-infant", CURED, "kind", "baby food, infant, toddlers, child, children, nursery"),
    *worded("parasites", FISH, "method", "dry, equilibrium, cured, gravlax, gravad"),
    *worded(
        "cook-through", {"product": "lean beef"}, "treatment",
        "needled, injected, pumped, tumbled, tenderised, tenderized, bladed",
    ),
    *worded(
        "brine-reused", {"product": "pork chop"}, "reused",
        "yes, y, true, x, 1, reused, again, used, second use, twice",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "row", "word"), WORDED)
def test_a_word_of_the_trade_is_understood(rule, row, word):
    assert rule in found(row), word


METHODS = {
    "dry": "dry cure, dry cured, dry curing, dry equilibrium, dry rub, rubbed",
    "comminuted": "ground, minced, chopped, sausage, ground meat",
    "pumped": "pump, injected, injection, massaged, tumbled, stitch pumped, artery pumped",
    "pick-up": "pickup, immersion by pick-up, immersion pick-up, by pick-up",
    "equilibrium": "equilibrium immersion, immersion equilibrium, immersion by meat and pickle together",
}


@pytest.mark.parametrize("method", METHODS)
def test_a_curing_method_goes_by_what_curers_call_it(method):
    """The same row, and so the same ingoing nitrite, whichever word names the method."""
    row = {"weight": 10000.0, "cure": 25.0, "water": 900.0, "gain": 0.1, "salt": 75.0}
    plain = all_of([*row, "cure method"], [*row.values(), method])
    assert "nitrite-no-method" not in {finding.rule.id for finding in plain}
    for word in METHODS[method].split(", "):
        assert all_of([*row, "cure method"], [*row.values(), word]) == plain, word


def test_a_misspelt_ingredient_is_told_with_the_nearest():
    hits = of("ingredient-unknown", {"ingredient": "rosmary", "level": 0.01})
    assert '"rosmary" is in no table (nearest: fresh rosemary' in hits[0].sentence


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


@pytest.mark.parametrize("liquid", ["water", "pickle"])
def test_a_weight_in_kilograms_beside_a_liquid_in_bare_grams_is_asked_about(liquid: str):
    """10 kg of product in what reads as 10 g of liquid: someone meant 10 kg there too."""
    assert "quantity-mismatch" in found({"weight": "10 kg", liquid: 10})
    assert "quantity-mismatch" not in found({"weight": "10 kg", liquid: "10 kg"})


@pytest.mark.parametrize(("strength", "salt"), [(0.99, 990.0), (0.5, 500.0)])
def test_a_strength_near_all_salt_is_no_mismatch_but_past_what_dissolves(strength: float, salt: float):
    row = {"strength": strength, "salt": salt, "water": 1000.0}
    assert "strength-mismatch" not in found(row)
    assert "over-saturation" in found(row)


def test_salt_beside_a_strength_of_a_whole_is_read_without_harm():
    assert found({"strength": 1.0, "salt": 100.0, "water": 100.0}) == ["cell-unreadable"]


def test_long_words_are_quoted_to_forty_letters_and_two_products_are_named():
    (hit,) = of("heading-unknown", {"cure" + "x" * 60: 3.0})
    assert f'"cure{"x" * 36}"' in hit.sentence
    (hit,) = of("product-unknown", {"product": "pork chp"})
    assert "(nearest: pork chop, bone-in pork chop)" in hit.sentence


@pytest.mark.parametrize("water", WATERS)
def test_water_by_any_name_is_no_unknown_liquid(water):
    assert "nitrite-unknown-liquid" not in found({**CURED, "liquid": water})


def test_the_pickle_is_what_goes_into_it():
    """By hand: 900 g of water, 450 g of salt as given (whatever the strength says) and 25 g of cure."""
    row = {"weight": 10000.0, "cure": 25.0, "cure method": "pick-up", "gain": 0.1, "water": 900.0, "strength": 0.05}
    mixed = ingoing.of(read([*row, "salt"], [*row.values(), 450.0]))
    assert mixed.ppm == pytest.approx(ingoing.of(read([*row, "pickle"], [*row.values(), 1375.0])).ppm, rel=1e-12)


def test_a_heading_of_two_words_is_read_without_its_unit():
    assert headings._without_amounts("vinegar g") == "vinegar"
    assert headings._without_amounts("white sugar g kg") == "white sugar"


def test_bacon_goes_by_its_kind_and_chopped_bacon_by_the_general_rule():
    loin = {**BACON, "product": "pork loin"}
    assert ingoing.kind_of(read([*loin, "kind"], [*loin.values(), "streaky bacon"])) == "bacon"
    assert ingoing.kind_of(read([*loin, "kind"], [*loin.values(), "ham"])) == "general"
    chopped = {**BACON, "kind": "bacon", "cure method": "comminuted"}
    assert ingoing.of(read(list(chopped), list(chopped.values()))).most == limits.find("nitrite comminuted", "US")
