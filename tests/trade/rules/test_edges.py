"""Where exactly each rule begins and ends: rows just outside it, and rows just inside.

Limits are the rules' own (tests/trade/test_limits.py checks those against their sources).
"""

from __future__ import annotations

from each import each

from tests.trade.cases import BACON, CURED, SMOKED, found

# (rule, row that is just not caught)
QUIET = [
    ("nitrite-cola", {**CURED, "liquid": "water"}),
    ("rules-unknown", {**CURED, "rules": "EU"}),
    ("rules-unknown", {**CURED, "rules": "USA"}),
    ("nitrite-over-limit", BACON),  # 120 ppm, which is the level itself
    ("nitrite-over-limit", {**BACON, "cure": 19.26}),  # 120.4 ppm, which is that level to the ppm
    ("cure-vegetable-eu", {**CURED, "ingredient": "celery seed", "level": "5 g", "rules": "EU"}),
    ("ingredient-unknown", {"product": "pork loin", "ingredient": "sodium sulphite", "level": 0.001}),
    ("strength-mismatch", {"strength": 0.05, "salt": 45.0, "water": 1000.0}),  # just a tenth less
    ("over-saturation", {"strength": 0.375, "bath temperature": 80.0}),  # 37.99 % of the water dissolve at 80 °C
    ("vessel-full", {"vessel": "10.2 L", "water": 10000.0, "strength": 0.05, "bath temperature": 20.0}),
    ("must-not-meet", {"ingredient 1": "lye", "ingredient 2": "citric acid"}),  # lye has rules of its own
    ("rules-unknown", {**CURED, "rules": "U.S.A."}),
    ("pure-nitrite", {**CURED, "cure strength": 0.1}),
    ("pure-nitrite", {**CURED, "cure strength": 0.004}),
    ("nitrite-acid-close", {**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": 5.0}),
    ("nitrate-bacon", {**BACON, "cure name": "curing salt no. 2", "rules": "EU"}),
    ("nitrate-cure", {**BACON, "cure name": "curing salt no. 2"}),
    ("nitrate-over-limit", {**CURED, "cure name": "saltpetre", "cure": 1.23, "rules": "EU"}),  # 90 mg/kg of the ion
    ("nitrate-over-limit", {**CURED, "cure name": "saltpetre", "cure": 25.0, "product": "salmon fillet"}),  # said so
    ("nitrite-over-limit", {**CURED, "cure": 19.2, "rules": "EU"}),  # 120 ppm: 80.02 mg/kg of the ion, which is 80
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
    ("added-solution", {"product": "pork loin", "gain": 0.1, "packaging": "tub", "storage": "fridge"}),
    ("added-solution", {"product": "cucumber", "method": "injected", "gain": 0.1, "packaging": "tray"}),
    ("added-solution", {"product": "pork loin", "method": "gradient", "gain": 0.0, "packaging": "tray"}),
    ("added-solution", {"product": "pork loin", "method": "injected", "gain": 0.1, "packaging": "cooked, in a tray"}),
    *(
        ("phosphate-eu-raw", {"product": "turkey breast", "ingredient": "STPP", "level": 0.03, "rules": "EU", **more})
        for more in (
            {},
            {"packaging": "tub"},
            {**CURED, "packaging": "tray"},
            {"packaging": "tray", "treatment": "smoked"},
            {"packaging": "tray", "product": "peeled shrimp"},
        )
    ),
    ("cola-not-pork", {"liquid": "cola"}),
    ("parasites", {"product": "pork chop", "method": "dry equilibrium"}),
    ("cook-through", {"product": "chicken breast", "treatment": "tumbled", "method": "gradient"}),
    *(
        (rule, {**CURED, "product": product, "method": "equilibrium"})
        for product in ("beef brisket", "beef brisket flat", "coppa", "pork collar", "pork neck", "pork tenderloin")
        for rule in ("cure-bone-weight", "bone-in-weight")
    ),
    ("cook-through", {"product": "salmon fillet", "treatment": "tumbled"}),
    ("over-cap", {"product": "peeled shrimp", "soak hours": 12.0, "strength": 0.0}),
    # 76.22 % of it is water, and 2 % is not salty
    ("over-cap", {"product": "boneless chicken thigh", "soak hours": 12.0, "strength": 0.0262}),
    ("over-cap", {"product": "peeled shrimp", "soak hours": 12.0, "method": "equilibrium"}),
    ("over-cap", {**CURED, "product": "peeled shrimp", "soak hours": 12.0}),
    ("over-cap", {"product": "peeled shrimp", "soak hours": 1.0}),
    ("over-cap", {"product": "chicken breast", "soak hours": 8.0000000001}),  # 8 h, as floating point works them out
    ("brine-warm-long", {"product": "chicken breast", "bath temperature": 9.0, "soak hours": 4.0000000001}),
    ("cure-rest-short", {**CURED, "cure method": "pumped", "gain": 0.1, "rest hours": 11.9999999999}),
    ("cure-too-short", {**CURED, "thickness": 25.4, "soak hours": 95.9999999999}),
    ("soak-long", {**CURED, "product": "ham leg", "soak hours": "8 d"}),
    ("soak-long", {"product": "cucumber", "soak hours": "8 d"}),
    ("already-treated", {"product": "peeled shrimp", "native salt": 0.0144, "strength": 0.0}),
    *(("already-treated", {"product": product}) for product in ("sole fillet", "haddock", "pollock", "treated shrimp")),
    (
        "already-treated",
        {"product": "sole fillet", "native salt": 0.00752},
    ),  # the table's figure, as a sheet fills it in
    ("already-treated", {"product": "treated shrimp", "native salt": 0.01}),
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
    ("fish-long-hold", {"product": "trout fillet", "bath temperature": 4.0, "soak hours": 1.0, "rest hours": 3.0}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0, "bath temperature": "error"}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0, "bath temperature": "lukewarm"}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0}),
    ("no-temperature", {"product": "pork chop", "soak hours": 5.0, "bath temperature": 4.0}),
    ("brine-frozen", {"bath temperature": -21.0}),
    ("brine-frozen", {"strength": 0.0, "bath temperature": 0.1}),
    ("sweetener-high", {"product": "cucumber", "sweetener": "honey", "sweetener level": 0.2}),
    ("calcium-high", {"product": "cucumber", "ingredient": "calcium chloride", "level": 0.00031}),
    ("calcium-gain", {"product": "lean beef", "ingredient": "bay leaf", "level": 0.0003, "gain": 0.031}),
    ("over-in-product", {"ingredient": "STPP", "level": 0.05, "method": "injected"}),
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
    ("alkali-gear", {"product": "cabbage", "acid": "lye", "acid level": 0.01}),
    *(
        (rule, {"product": product, "acid": "lye", "acid level": 0.04})
        for product in ("olives", "pretzel dough", "hominy")
        for rule in ("alkali-raw", "alkali-food")
    ),
    ("alkali-food", {"product": "cucumber", "acid": "pickling lime"}),
    ("alkali-food", {"product": "hominy", "acid": "slaked lime", "acid level": 0.05}),  # little of which dissolves
    ("alkali-food", {"product": "beef patties", "acid": "lye"}),  # said of meat
    ("vessel-toxic", {"vessel material": "lead free glass"}),
    ("vessel-full", {"water": "8 L", "weight": "3 kg"}),
    ("vessel-reactive", {"vessel material": "stainless steel, aluminium lid"}),
    ("sodium-portion", {"portion": 300.0, "target": 0.02}),  # more than a day's, and said so
    ("salt-portion", {"portion": 310.0, "target": 0.02, "rules": "EU"}),  # more than a day's, and said so
    *((rule, {"portion": part, "target": 0.02}) for rule in ("salt-day", "salt-portion") for part in (200.0, 400.0)),
    *(
        (rule, {"portion": part, "target": 0.02, "rules": "EU"})  # a day's sodium is counted on labels of the US
        for rule in ("sodium-day", "sodium-portion")
        for part in (200.0, 400.0)
    ),
]


@each(("rule", "row"), QUIET)
def test_a_row_just_outside_the_rule(rule, row):
    assert rule not in found(row)


# (rule, row that is still caught)
CAUGHT = [
    ("over-cap", {"product": "boneless chicken thigh", "soak hours": 12.0, "strength": 0.0263}),
    ("nitrite-over-limit", {**CURED, "cure": 100.06}),  # 625.4 ppm, which would be rounded to 625
    ("nitrite-over-limit", {**CURED, "cure": 19.36, "rules": "EU"}),  # 121 ppm
    ("nitrite-over-limit", {**CURED, "cure": 19.28, "rules": "EU"}),  # 120.5 ppm, which is 121 rounded
    ("nitrate-over-limit", {**CURED, "cure name": "saltpetre", "cure": 1.24, "rules": "EU"}),  # 90.5 mg/kg of the ion
    (
        "nitrate-over-limit",
        {
            "product": "ham leg",
            "edible weight": "9 kg",
            "method": "dry equilibrium",
            "rules": "EU",
            "cure": "50 g",
            "cure name": "saltpetre",
            "cure method": "dry",
        },
    ),
    ("cure-vegetable-eu", {**CURED, "ingredient": "fermented chard powder", "level": "5 g", "rules": "EU"}),
    ("cure-vegetable-eu", {**CURED, "cure name": "cultured spinach", "rules": "EU"}),
    *(
        ("sulphite-meat", {"product": product, "ingredient": name, "level": 0.001})
        for product, name in (
            ("lean beef", "sodium sulfite"),
            ("chicken breast", "potassium metabisulphite"),
            ("beef patties", "E 224"),
            ("pork loin", "sulphur dioxide"),
            ("pork loin", "campden tablets"),
        )
    ),
    ("sulphite-meat", {"product": "pork loin", "sodium metabisulphite": "2 g"}),
    ("sulphite-limit", {"product": "dried apricots", "ingredient": "E220", "level": 0.001}),
    ("sulphite-limit", {"ingredient": "E220", "level": 0.001}),
    ("alkali-food", {"product": "olives", "acid": "caustic soda", "acid level": 0.041}),
    ("alkali-food", {"product": "firm tofu", "acid": "lye"}),
    ("alkali-food", {"acid": "lye"}),
    ("alkali-food", {"product": "ramen noodles", "acid": "pickling lime"}),
    ("alkali-raw", {"product": "beef patties", "acid": "lye"}),
    ("alkali-raw", {"product": "lutefisk of cod", "acid": "lye"}),
    ("alkali-gear", {"product": "olives", "acid": "lye"}),
    ("thickness-thin", {"product": "pork chop", "thickness": 9.9}),
    (
        "piece-shape",
        {"product": "pork chop", "weight": 44000.0, "pieces": 100, "thickness": 10.0},
    ),  # 20.5 times as wide
    ("vessel-full", {"vessel": "8 L", "water": "9 L", "bath temperature": 60.0}),
    # 10.5 kg take 10.17 L at 20 °C and 10.24 L at 40 °C: 1.0323 and 1.0251 g/mL
    ("vessel-full", {"vessel": "10.2 L", "water": 10000.0, "strength": 0.05, "bath temperature": 40.0}),
    ("over-saturation", {"strength": 0.375, "bath temperature": 20.0}),
    ("heading-unknown", {"bath temprature": 30.0}),
    ("heading-unknown", {"of our own nitrits a lot": 3.0}),
    ("nitrite-weak", {**CURED, "cure": 0.08}),
    ("sweetener-high", {"ingredient": "white sugar", "level": 0.08, "product": "pork chop"}),
    ("above-usual", {"ingredient": "fine table salt", "level": 0.15, "cure method": "equilibrium"}),
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
    ("already-treated", {"product": "untreated shrimp", "native salt": 0.0144}),
    ("added-solution", {"product": "pork loin", "method": "injected", "gain": 0.1, "packaging": "uncooked, in a tray"}),
    ("added-solution", {"product": "pork loin", "gain": 0.1, "packaging": "tray, to be cooked at home"}),
    ("added-solution", {"product": "pork loin", "gain": 0.1, "packaging": "tray", "treatment": "must be roasted"}),
    ("added-solution", {"product": "pork loin", "method": "injected", "gain": 0.1, "packaging": "tray, not smoked"}),
    (
        "phosphate-eu-raw",
        {"product": "turkey breast", "ingredient": "STPP", "packaging": "tray, unsmoked", "rules": "EU"},
    ),
    ("added-solution", {"product": "pork loin", "treatment": "massaged", "gain": 0.1, "packaging": "tray"}),
    ("added-solution", {"product": "chicken breast", "treatment": "tumbled", "gain": 0.15, "packaging": "tray"}),
    ("added-solution", {"product": "chicken breast", "method": "gradient", "gain": 0.08, "packaging": "tray"}),
    ("cure-bone-weight", {**CURED, "product": "pork belly"}),  # the rind, 7 %
    ("bone-in-weight", {"product": "pork belly", "method": "equilibrium", "weight": 2000.0}),
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


@each(("rule", "row"), CAUGHT)
def test_a_row_just_inside_the_rule(rule, row):
    assert rule in found(row)
