"""For each finding a row that triggers it and a neighbour that does not, and what is found in a row."""

from __future__ import annotations

from brinecalc.trade.findings import Finding, all_of, worst

CURED = {"weight": 10000.0, "cure": 20.0, "cure method": "dry"}
BACON = {"product": "pork belly", "weight": 10000.0, "cure": 19.2, "cure method": "pumped", "gain": 0.1}
HERRING = {
    "product": "herring fillet", "edible weight": 10000.0, "cure name": "saltpetre", "cure method": "dry", "rules": "EU"
}  # fmt: skip
BURGER = {"product": "beef burger", "weight": 1000.0, "ingredient": "sodium metabisulphite", "rules": "EU"}
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
    "nitrite-acid-told": ({**CURED, "method": "dry, glazed with marmalade"}, {**CURED, "method": "dry, glazed"}),
    "nitrite-unknown-liquid": (
        {**CURED, "liquid": "grandma's broth"},
        {**CURED, "liquid": "grandma's broth", "ph": 6.1},
    ),
    "cure-error": ({**CURED, "cure": "error"}, CURED),
    "pure-nitrite": ({**CURED, "cure name": "sodium nitrite"}, {**CURED, "cure name": "curing salt no. 1"}),
    "name-unclear": ({"ingredient": "cherry powder", "level": 0.001}, {"ingredient": "dried cherries", "level": 0.001}),
    "cure-in-words": (
        {"product": "pork loin", "method": "dry, 20 g of pink salt to the kilo"},
        {"product": "pork loin", "method": "dry, no pink salt"},
    ),
    "cure-other-way": (
        {**CURED, "method": "injected", "cure method": "dry"},
        {**CURED, "method": "dry equilibrium", "cure method": "dry"},
    ),
    "cure-soaks-on": (
        {**CURED, "cure method": "pick-up", "gain": 0.1, "water": 10000.0, "cure": 70.0, "soak hours": 30},
        {**CURED, "cure method": "pick-up", "gain": 0.1, "water": 10000.0, "cure": 70.0, "soak hours": 12},
    ),
    "cure-taken-out": (
        {**CURED, "cure method": "pick-up", "gain": 0.1, "water": 10000.0, "cure": 70.0, "soak hours": 12},
        {**CURED, "cure method": "pick-up", "gain": 0.1, "water": 10000.0, "cure": 64.0, "soak hours": 12},
    ),  # 218 and 199 ppm in meat and pickle together
    "cure-pumped-before": (
        {**CURED, "product": "beef brisket", "treatment": "needled"},
        {**CURED, "product": "beef brisket", "treatment": "thawed"},
    ),
    "nitrite-no-method": ({"weight": 10000.0, "cure": 20.0}, CURED),
    "nitrite-over-limit": ({**CURED, "cure": 100.1}, {**CURED, "cure": 100.0}),  # 625 ppm: 1 oz per 100 lb
    "nitrate-over-limit": (
        {**CURED, "cure name": "saltpetre", "cure": 21.9},
        {**CURED, "cure name": "saltpetre", "cure": 21.8},
    ),  # 2187.5 ppm: 3 1/2 oz per 100 lb
    "nitrate-bacon": ({**BACON, "cure name": "curing salt no. 2"}, {**BACON, "cure name": "curing salt no. 1"}),
    "cure-no-rule": ({**CURED, "product": "cucumber"}, {**CURED, "product": "pork shoulder"}),
    "cure-vegetable-eu": (
        {**CURED, "cure name": "cultured celery powder", "cure strength": 0.02, "rules": "EU"},
        {**CURED, "cure name": "cultured celery powder", "cure strength": 0.02, "rules": "US"},
    ),
    "sulphite-meat": (
        {"product": "pork loin", "ingredient": "sodium metabisulfite", "level": 0.001},
        {"product": "pork loin", "ingredient": "sodium metabisulfite", "level": 0.001, "rules": "EU"},
    ),
    "sulphite-meat-eu": (
        {"product": "pork loin", "ingredient": "E223", "rules": "EU"},
        {"product": "pork loin", "ingredient": "E223"},
    ),
    "sulphite-over-limit": ({**BURGER, "level": "0.668 g"}, {**BURGER, "level": "0.667 g"}),  # 67.4 % of it
    "sulphite-sausage": ({**BURGER, "level": "0.667 g"}, {**BURGER, "level": "0.667 g", "product": "beef brisket"}),
    "nitrate-fish-limit-eu": ({**HERRING, "cure": 5.1}, {**HERRING, "cure": 5.0}),
    "nitrate-fish-eu": ({**HERRING, "cure": 5.0}, {**HERRING, "cure": 5.0, "product": "mackerel fillet"}),
    "sulphite-limit": (
        {"product": "peeled shrimp", "ingredient": "E223", "level": 0.001},
        {"product": "peeled shrimp", "ingredient": "sulphite-free white wine", "level": 0.001},
    ),
    "not-food": ({"ingredient": "bleach", "level": 0.01}, {"ingredient": "bay leaf", "level": 0.001}),
    "cure-infant": ({**CURED, "packaging": "for a baby"}, {"packaging": "for a baby"}),
    "rules-unknown": ({**CURED, "rules": "UK"}, {**CURED, "rules": "us"}),
    "acid-gear": ({"acid": "glacial acetic acid"}, {"acid": "vinegar"}),
    "mineral-acid": ({"acid": "hydrochloric acid"}, {"acid": "citric acid"}),
    "alkali-raw": ({"product": "chicken breast", "acid": "lye"}, {"product": "cucumber", "acid": "lye"}),
    "alkali-food": (
        {"product": "cabbage", "acid": "lye", "acid level": 0.2},
        {"product": "green olives", "acid": "lye", "acid level": 0.02},
    ),
    "alkali-aluminium": (
        {"product": "cucumber", "acid": "lye", "vessel material": "aluminium"},
        {"product": "cucumber", "acid": "lye", "vessel material": "stainless steel"},
    ),
    "vessel-unknown": ({"vessel material": "mystery alloy"}, {"vessel material": "white plastic"}),
    "vessel-toxic": ({"vessel material": "copper pot"}, {"vessel material": "glass"}),
    "brine-warm-start": (
        {"product": "cod fillet", "bath temperature": 15.6},
        {"product": "cod fillet", "bath temperature": 15.5},
    ),
    "brine-warm-long": (
        {"product": "pork chop", "bath temperature": 6.0, "soak hours": 4.1},
        {"product": "pork chop", "bath temperature": 6.0, "soak hours": 4.0},
    ),
    "brine-hot-raw": (
        {"product": "chicken breast", "bath temperature": 57.0},
        {"product": "chicken breast", "bath temperature": 57.0, "method": "poached in brine"},
    ),
    "brine-hot": (
        {"product": "firm tofu", "bath temperature": 95.0},
        {"product": "firm tofu", "bath temperature": 56.9},
    ),
    "ferment-salt-low": (
        {"product": "cabbage", "weight": "10 kg", "salt": "149 g", "soak hours": 336.0},
        {"product": "cabbage", "weight": "10 kg", "salt": "150 g", "soak hours": 336.0},
    ),
    "ferment-warm": (
        {"product": "cabbage", "bath temperature": 24.1, "soak hours": 336.0},
        {"product": "cabbage", "bath temperature": 24.0, "soak hours": 336.0},
    ),
    "ferment-time": (
        {"product": "cucumber", "method": "equilibrium", "bath temperature": 10.1},
        {"product": "cucumber", "method": "equilibrium", "bath temperature": 10.0},
    ),
    "ferment-ph": (
        {"product": "cucumber", "strength": 0.05, "bath temperature": 10.1, "soak hours": 48.0},
        {"product": "cucumber", "strength": 0.05, "bath temperature": 10.1, "soak hours": 47.9},
    ),
    "honey-infant": (
        {"sweetener": "honey", "sweetener level": 0.02, "note": "for infants"},
        {"sweetener": "maple syrup", "sweetener level": 0.02, "note": "for infants"},
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
    "over-in-product": (
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
    "product-plant": ({"product": "red onions"}, {"product": "carrots"}),
    "method-unknown": ({"method": "steeped overnight"}, {"method": "brined overnight"}),
    "method-two-ways": ({"method": "pumped and soaked"}, {"method": "injected with brine"}),
    "treatment-unknown": ({"treatment": "neddled"}, {"treatment": "butterflied"}),
    "kind-unknown": ({**BACON, "kind": "pancetta"}, {**BACON, "kind": "general"}),
    "ingredient-unknown": ({"ingredient": "fairy dust", "level": 0.01}, {"ingredient": "bay leaf", "level": 0.001}),
    "heading-unknown": ({"curing sallt": 5.0}, {"price": 5.0}),
    "heading-passed-over": ({"soaked for": 8.0}, {"soaked for": ""}),
    "heading-names-ingredient": ({"citric acid": 5.0}, {"citric acid": "5 g"}),
    "strength-mismatch": (
        {"strength": 0.05, "salt": 58.0, "water": 1000.0},
        {"strength": 0.05, "salt": 57.8, "water": 1000.0},
    ),
    "nitrite-acid-close": (
        {**CURED, "water": 5000.0, "alkalinity": 100.0, "ingredient": "vinegar", "level": 0.002},
        {**CURED, "water": 5000.0, "alkalinity": 100.0, "ingredient": "vinegar", "level": 0.0005},
    ),
    "nitrite-soft-water": (
        {**CURED, "cure method": "equilibrium", "water": 5000.0, "sweetener": "honey", "sweetener level": 0.02},
        {**CURED, "cure method": "equilibrium", "water": 5000.0, "sweetener": "maple syrup", "sweetener level": 0.02},
    ),
    "nitrite-acid-apart": (
        {**CURED, "cure method": "comminuted", "ingredient": "sodium acid pyrophosphate"},
        {**CURED, "cure method": "comminuted", "ingredient": "sodium tripolyphosphate"},
    ),
    "cure-not-reckoned": ({"cure": 20.0, "cure method": "dry"}, CURED),
    "cure-fish": ({**CURED, "product": "salmon fillet"}, {**CURED, "product": "pork shoulder"}),
    "cure-fish-eu": (
        {**CURED, "product": "salmon fillet", "rules": "EU"},
        {**CURED, "product": "salmon fillet", "rules": "US"},
    ),
    "cure-fish-not-listed": ({**CURED, "product": "cod fillet"}, {**CURED, "product": "salmon fillet"}),
    "cure-fish-limit": (
        {**CURED, "product": "salmon fillet", "cure": 32.1},
        {**CURED, "product": "salmon fillet", "cure": 32.0},
    ),  # 200 ppm
    "bacon-kind": ({**BACON, "product": "pork loin", "kind": "bacon"}, {**BACON, "kind": "bacon"}),
    "nitrate-cure": ({**CURED, "cure name": "cure #2"}, {**CURED, "cure name": "cure #1"}),
    "bacon-set-level": ({**BACON, "cure": 17.6}, {**BACON, "cure": 16.0}),  # 110 and 100 ppm
    "bacon-accelerator": (
        BACON,
        {**BACON, "water": 900.0, "ingredient": "sodium erythorbate", "level": 0.006},
    ),
    "bacon-low-level": ({**BACON, "cure": 12.8}, {**BACON, "cure": 13.6}),  # 80 and 85 ppm
    "nitrite-over-bone": (
        {**CURED, "product": "bone-in pork chop", "cure": 75.1},
        {**CURED, "product": "bone-in pork chop", "cure": 75.0},
    ),  # 625 ppm of the three quarters that are meat
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
    "phosphate-eu-raw": (
        {"product": "turkey breast", "ingredient": "STPP", "level": 0.03, "packaging": "tray", "rules": "EU"},
        {"product": "turkey breast", "ingredient": "STPP", "level": 0.03, "packaging": "tray", "rules": "US"},
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
    "fish-salt-frozen": (
        {**SMOKED, "packaging": "vacuum, frozen", "water phase salt": 0.028},
        {**SMOKED, "packaging": "vacuum, frozen", "water phase salt": 0.035},
    ),
    "packed-without-air": (
        {"product": "cod fillet", "packaging": "vacuum"},
        {"product": "cod fillet", "packaging": "tray"},
    ),
    "frozen-without-air": (
        {"product": "cod fillet", "packaging": "vacuum, frozen"},
        {"product": "cod fillet", "packaging": "vacuum, thawed"},
    ),
    "sealed-cold": (
        {"product": "carrot", "packaging": "jar, refrigerated"},
        {"product": "carrot", "packaging": "tub, refrigerated"},
    ),
    "brine-warm": (
        {"product": "pork chop", "bath temperature": 5.1},
        {"product": "pork chop", "bath temperature": 5.0},
    ),
    "liquid-warm": (
        {"product": "cucumber", "liquid": "milk", "bath temperature": 22.0},
        {"product": "cucumber", "liquid": "milk", "bath temperature": 5.0},
    ),
    "fish-long-hold": (
        {"product": "trout fillet", "bath temperature": 4.0, "soak hours": 5.0},
        {"product": "trout fillet", "bath temperature": "38 °F", "soak hours": 5.0},
    ),
    "brine-frozen": ({"strength": 0.05, "bath temperature": -3.1}, {"strength": 0.05, "bath temperature": -2.5}),
    "over-saturation": ({"strength": 0.37}, {"strength": 0.359}),
    "brine-old": ({"brine age": 169.0}, {"brine age": 168.0}),
    "soak-far-too-long": (
        {"product": "chicken breast", "soak hours": "15 d"},
        {"product": "chicken breast", "soak hours": "14 d"},
    ),
    "soak-long": ({"product": "ham leg", "soak hours": "8 d"}, {"product": "ham leg", "soak hours": "7 d"}),
    "over-cap": ({"product": "peeled shrimp", "soak hours": 12.0}, {"product": "peeled shrimp", "soak hours": 0.5}),
    "already-treated": (
        {"product": "peeled shrimp", "native salt": 0.0144},
        {"product": "peeled shrimp", "native salt": 0.005},
    ),
    "target-below-native": (
        {"product": "pork chop", "native salt": 0.004, "target": 0.004},
        {"product": "pork chop", "native salt": 0.004, "target": 0.0041},
    ),
    "salt-off-target": (
        {"product": "chicken breast", "weight": "5 kg", "method": "dry equilibrium", "salt": 600.0, "target": 0.012},
        {"product": "chicken breast", "weight": "5 kg", "method": "dry equilibrium", "salt": 60.0, "target": 0.012},
    ),
    "target-unreachable": (
        {"product": "pork loin", "strength": 0.01, "target": 0.02},
        {"product": "pork loin", "strength": 0.05, "target": 0.02},
    ),
    "soak-off-target": (
        {
            "product": "chicken breast",
            "weight": "5 kg",
            "water": "20 kg",
            "strength": 0.1,
            "thickness": 20.0,
            "target": 0.01,
            "soak hours": 8.0,
        },
        {
            "product": "chicken breast",
            "weight": "5 kg",
            "water": "20 kg",
            "strength": 0.1,
            "thickness": 20.0,
            "target": 0.01,
            "soak hours": 1.5,
        },
    ),
    "target-high": ({"product": "chicken breast", "target": 0.12}, {"product": "chicken breast", "target": 0.012}),
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
    "piece-weight": (
        {"product": "whole turkey", "weight": "14 g", "pieces": 1},
        {"product": "whole turkey", "weight": "14 kg", "pieces": 1},
    ),
    "batch-heavy": ({"weight": "1200 kg"}, {"weight": "1 t"}),
    "vessel-reactive": ({"vessel material": "aluminum"}, {"vessel material": "food-grade plastic"}),
    "vessel-not-food-grade": ({"vessel": "bin bag"}, {"vessel": "brining bag"}),
    "vessel-glaze": (
        {"product": "cucumber", "vessel material": "glazed terracotta"},
        {"product": "cucumber", "vessel material": "glazed stoneware, lead-free"},
    ),
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
    "salt-day": (
        {"portion": 300.0, "target": 0.021, "rules": "EU"},
        {"portion": 300.0, "target": 0.02, "rules": "EU"},
    ),
    "cook-through": ({"product": "lean beef", "treatment": "needled"}, {"product": "lean beef", "treatment": "none"}),
    "parasites": (
        {"product": "salmon fillet", "method": "dry equilibrium"},
        {"product": "salmon fillet", "method": "gradient"},
    ),
    "needled-rare": (
        {"product": "pork tenderloin", "method": "injected", "note": "serve medium rare"},
        {"product": "pork tenderloin", "method": "injected", "note": "never rare, of a rare breed"},
    ),
    "eaten-raw": (
        {"product": "chicken breast", "note": "tartare, raw"},
        {"product": "chicken breast", "note": "with tartare sauce"},
    ),
    "trichinella": (
        {"product": "wild boar salami", "method": "comminuted"},
        {"product": "wild boar shoulder", "method": "gradient"},
    ),
    "cheese-warm": (
        {"product": "paneer", "bath temperature": 20.0, "soak hours": 10.0, "strength": 0.09},
        {"product": "paneer", "bath temperature": 20.0, "soak hours": 10.0, "strength": 0.10},
    ),
    "parasites-maybe": (
        {"product": "salmon fillet", "method": "equilibrium"},
        {"product": "salmon fillet", "method": "equilibrium", "note": "to be roasted, cooked through"},
    ),
    "cold-eu": (
        {"product": "chicken thigh", "rules": "EU", "bath temperature": 4.1},
        {"product": "chicken thigh", "rules": "EU", "bath temperature": 4.0},
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
    "salt-portion": (
        {"portion": 210.0, "target": 0.01, "rules": "EU"},
        {"portion": 200.0, "target": 0.01, "rules": "EU"},
    ),
    "allergens": ({"liquid": "buttermilk"}, {"liquid": "cola"}),
    "potassium-high": (
        {"ingredient": "potassium chloride", "level": 0.016},
        {"ingredient": "potassium chloride", "level": 0.015},
    ),  # 0.839 and 0.787 % of potassium
    "potassium": ({"ingredient": "potassium chloride", "level": 0.01}, {"ingredient": "table salt", "level": 0.01}),
}


def found(row: dict[str, object]) -> list[str]:
    return [finding.rule.id for finding in all_of(list(row), list(row.values()))]


def said(row: dict[str, object]) -> str:
    return worst(list(row), list(row.values()))


def of(rule: str, row: dict[str, object]) -> list[Finding]:
    return [finding for finding in all_of(list(row), list(row.values())) if finding.rule.id == rule]
