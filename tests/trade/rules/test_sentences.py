"""What a finding tells of its row: the row's own figures stand in the sentence.

Figures are those of the row, or follow from them by hand as the comment beside says; limits are the rules' own
(tests/trade/test_limits.py checks those against their sources).
"""

from __future__ import annotations

from each import each

from tests.trade.cases import BACON, CASES, CURED, SMOKED, of

SAYS = {
    "nitrite-ascorbic": "must not meet ascorbic acid in the tank",
    "nitrite-ph": "a brine of pH 4.9:",
    "nitrite-acid": "must not meet red wine vinegar: how sour",
    "nitrite-unknown-liquid": "how sour grandma's broth is",
    "cure-error": "column cure holds an error: a dose",
    "pure-nitrite": "sodium nitrite is no premixed",
    "name-unclear": '"cherry powder" may be a cultured powder that brings nitrite or an acerola powder',
    "cure-in-words": "pink salt stands under method and no curing salt is weighed",
    "cure-other-way": "is reckoned as dry, and by the method injected it gets in otherwise",
    "cure-soaks-on": "weight gained: meat and pickle together hold 218 ppm, and the limit by US rules is 200",
    "cure-taken-out": "meat and pickle together hold 218 ppm of nitrite, and the limit by US rules is 200 ppm. Take "
    "the meat out after 12 h, and weigh it then",  # 70 g × 6.25 % of 20.07 kg
    "cure-pumped-before": "Needled beef brisket may have been pumped: that nitrite counts too, and this row knows "
    "only its own, 125 ppm. Both together may come to 200 ppm",  # 20 g × 6.25 % of 10 kg
    "nitrite-no-method": "cannot be checked. Write",
    "nitrite-over-limit": "is 625.6 ppm for dry curing; the limit by US rules is 625 ppm",  # 100.1 g × 6.25 % of 10 kg
    "nitrate-over-limit": "is 2190 ppm for dry curing; the limit by US rules is 2188 ppm",  # 21.9 g of 10 kg
    "nitrate-bacon": "curing salt no. 2 carries nitrate",
    "cure-vegetable-eu": "By EU rules cultured celery powder is no cure",
    "sulphite-meat": "has no place on pork loin: it makes old meat look fresh, and US rules keep it out of",
    "sulphite-meat-eu": "has no place on pork loin: it makes old meat look fresh, and EU rules name breakfast sausages",
    "sulphite-over-limit": "in beef burger comes to 450.2 ppm as sulphur dioxide; the limit by EU rules is 450 ppm",
    "sulphite-sausage": "sodium metabisulphite may bring beef burger 450 ppm of sulphur dioxide at most, with 4 % "
    "of vegetable or cereal in it; here it is 449.6 ppm.",
    "nitrate-fish-limit-eu": "Ingoing nitrate in herring fillet is 510 ppm; the limit for pickled herring and sprat by "
    "EU rules is 500 ppm",
    "nitrate-fish-eu": "may be in herring fillet only when it is pickled, at most 500 ppm as sodium nitrate",
    "needled-rare": "inside, and pork tenderloin is to be served rare. Cook it through, 69 °C / 155 °F at the centre",
    "trichinella": "Trichinella lives in wild boar salami",
    "cheese-warm": "paneer at 20.0 °C / 68 °F for 10 h in a brine of 9 %: out of the cold",
    "vessel-unknown": '"mystery alloy" is on no list here',
    "sulphite-limit": "E223 can harm asthmatic guests",
    "cure-no-rule": "curing salt into cucumber",
    "mineral-acid": "Hydrochloric acid burns",
    "alkali-raw": "Lye is not for raw chicken breast",
    "alkali-food": "pretzel dough and hominy are made with it, and cabbage is none of them",
    "alkali-aluminium": "Lye eats aluminium",
    "vessel-toxic": "metal out of copper pot",
    "brine-warm-start": "at 15.6 °C / 60 °F; never put raw cod fillet",
    "brine-warm-long": "pork chop would be above 5 °C / 41 °F for 4.1 h; the most is 4 h",
    "fish-salt-low": "needs 3.5 % water-phase salt or more; this has 3.4 %",
    "sealed-low-acid": "cucumber with pH 4.7 can grow",
    "over-in-product": "Sodium tripolyphosphate comes to 0.621 % of the product; the limit by US rules is 0.5 %",
    # 0.05/1.05 of the brine, 0.15/1.15 of which is in the product
    "over-ceiling": "Sodium tripolyphosphate is at 0.51 % of the water; its legal ceiling is 0.5 % of the product",
    "cell-error": "column strength holds an error",
    "cell-unreadable": 'Weight cannot be read: "1,000 g" must be a mass',
    "product-unknown": '"unicorn loin" is not in the product table (nearest: ',
    "product-plant": '"red onions" is not in the product table: it is judged as a vegetable',
    "method-unknown": 'The method "steeped overnight" is not known here, which may mean gradient, so',
    "method-two-ways": '"pumped and soaked" is two ways of getting salt in',
    "treatment-unknown": 'The treatment "neddled" is not known here, and may mean needled',
    "kind-unknown": 'The kind "pancetta" is not known here, so this belly was held to the general limits',
    "ingredient-unknown": '"fairy dust" is in no table, so it was not checked.',
    "heading-unknown": 'column "curing sallt" was not read. If it is meant as cure,',
    "nitrite-acid-close": "Curing salt and vinegar share a brine of pH ",
    "nitrite-soft-water": "Curing salt and honey share a brine of pH 4.1 in soft water, of ",
    "nitrite-acid-told": "speak of marmalade, which is sour",
    "nitrite-acid-apart": "Sodium acid pyrophosphate sours water: with curing salt",
    "cure-not-reckoned": "was not checked: the weight of the product is not given",
    "cure-fish": "may be in salmon fillet only when it is smoked, and then at most 200 ppm in",
    "cure-fish-eu": "authorised for no fish or shellfish; this is salmon fillet. Leave",
    "cure-fish-not-listed": "and cod fillet is none of them",
    "cure-fish-limit": "The nitrite comes to 200.6 ppm; the limit for smoked salmon is at most 200 ppm.",
    "bacon-kind": "though pork loin is no pork belly",
    "nitrate-cure": "curing salt no. 2 carries nitrate",
    "bacon-set-level": "exactly 120 ppm (or 100 ppm, or a set level of 40 to 80 ppm with starter culture and sugar); "
    "this is 110 ppm",  # 17.6 g × 6.25 % of 10 kg
    "bacon-accelerator": "has to carry 550 ppm of sodium erythorbate",
    "bacon-low-level": "At 80 ppm pumped bacon needs a lactic starter and 0.7 % of sugar",
    "nitrite-over-bone": "Without its bone, skin and rind, about 25 %, bone-in pork chop holds nearer 625.8 ppm of "
    "nitrite for dry curing; the limit by US rules is 625 ppm.",
    "cure-bone-weight": "so the true level is nearer 166.7 ppm.",  # 125 without the quarter that is bone
    "nitrite-weak": "only 39.4 ppm for dry curing; below 40 ppm",  # 6.3 g × 6.25 % of 10 kg
    "cure-too-thick": "At 101 mm / 3.98 in a cure",
    "cure-rest-short": "11 h of rest after pumping is less than the customary 12 h",
    "sour-liquid": "Cola is sour, pH 2.8 or below",
    "cure-too-short": "3.96 days in the cure is less than the shortest custom for 25.4 mm / 1 in, 4 days",  # 95 h
    "acid-soda": "Vinegar and baking soda foam up",
    "calcium-phosphate": "Calcium chloride and sodium hexametaphosphate fall out",
    "calcium-carbonate": "Calcium chloride and baking soda fall out",
    "phosphate-eu-raw": "may hold sodium tripolyphosphate only as one of a few listed preparations, and turkey breast",
    "must-not-meet": "Sodium erythorbate and citric acid do not belong",
    "alkali-gear": "Slaked lime burns skin and eyes",
    "alkali-ph": "At pH 11.1 the bath",
    "texture-acid": "At pH 4.7 the surface",
    "texture-alkali": "At pH 8.6 the surface",
    "acid-no-evidence": "no evidence that carrot itself",
    "fish-salt-unknown": "the loin needs 3.5 % water-phase salt",
    "fish-salt-air": "in air needs 2.5 % water-phase salt; this has 2.4 %",
    "fish-salt-frozen": "needs 3.5 % water-phase salt once it thaws; this has 2.8 %",
    "packed-without-air": "from 3.3 °C / 38 °F up without a smell. Keep it frozen until it is used, and",
    "frozen-without-air": "Without air, cod fillet has to stay frozen",
    "sealed-cold": "Only the cold keeps carrot packed like this",
    "brine-hot-raw": "At 57.0 °C / 135 °F the bath cooks chicken breast",
    "brine-hot": "At 95.0 °C / 203 °F the bath cooks firm tofu; food is held hot from 57.0 °C / 135 °F up. Eat it hot, "
    "or cool it to 21 °C / 70 °F within 2 h and to 5 °C / 41 °F within 4 h more",
    "ferment-salt-low": "cabbage with 1.49 % salt, of itself and its water together",
    "ferment-time": "Cucumber: salt gets in within hours, souring takes days, and how many is not reckoned. Write",
    "ferment-ph": "Cucumber: sours by itself here, and above pH 4.6 botulism may grow in it",
    "ferment-warm": "At 24.1 °C / 75 °F cabbage ferments too fast",
    "brine-warm": "at 5.1 °C / 41 °F; pork chop belongs",
    "eaten-raw": "chicken breast is to be eaten uncooked, and salt does not kill the germs in it. Cook it",
    "liquid-warm": "Milk spoils by itself, and is at 22.0 °C / 72 °F; it belongs",
    "fish-long-hold": "held at 3.3 °C / 38 °F or below; this is at 4.0 °C / 39 °F",
    "brine-frozen": "A brine of 5 % freezes at -2.9 °C / 27 °F; this one is at -3.1 °C / 26 °F",  # CRC: 4.76 %, -2.9 °C
    "over-saturation": "37 % of the water does not dissolve; the most is 35.9 %",
    "brine-old": "The brine is 7.04 days old; the most is 7 days",  # 169 h
    "soak-far-too-long": "15 days is far too long for raw chicken breast: at most 7 days in the cold",
    "soak-long": "8 days is longer than 7 days",
    "over-cap": "12 h is longer than the 1 h customary for peeled shrimp",
    "already-treated": "peeled shrimp holds 1.44 % salt before it is brined, so it may be treated already. Read its "
    "label for what else is in it; its salt is reckoned in, so leave the target as it is",
    "target-below-native": "The target of 0.4 % is no more than the 0.4 % that is in pork chop",
    # 600 g and 5.7 g of its own in 5 kg; 60 g less those 5.7 g
    "salt-off-target": "600 g / 1.32 lb of salt brings chicken breast to about 12.1 % salt in the end, not to the "
    "target of 1.2 %. Weigh 54.3 g / 1.92 oz of salt",
    "target-unreachable": "A brine of 1 % brings pork loin to 0.669 % salt at most, and never to the target of 2 %",
    "soak-off-target": "8 h in this brine bring chicken breast to about 2.75 % salt (1.82 % to 3.31 %), not to 1 %",
    "target-high": "A target of 12 % is saltier than anybody eats chicken breast",
    "bone-in-weight": "About 25 % of bone-in pork chop",
    "quantity-mismatch": "Weight 2.5 kg / 5.51 lb and water 2.5 g / 0.0882 oz are 1000-fold apart",
    "thickness-odd": "A thickness of 1.5 mm / 0.0591 in",
    "thickness-thin": "6 mm / 0.236 in is thin for chicken breast",
    # 225 g of 1.05 g/mL, 5 mm thick: the root of 214 / 0.5 cm2
    "piece-shape": "A piece of 225 g / 7.94 oz that is 5 mm / 0.197 in thick would be 207 mm / 8.15 in across",
    "piece-weight": "A piece of 14 g / 0.494 oz is hard to believe of whole turkey: it should be 1 kg / 2.2 lb to ",
    "batch-heavy": "One batch of 1200 kg / 2650 lb is more than 1000 kg / 2200 lb",
    "vessel-reactive": "attack aluminum: it pits",
    "vessel-not-food-grade": "bin bag is not made to touch food",
    "vessel-glaze": "out of the glaze of glazed terracotta",
    "cold-eu": "By EU rules chicken thigh is kept at 4.0 °C / 39 °F or below; this is at 4.1 °C / 39 °F",
    "vessel-full": "take about 11 L / 2.91 gal; the vessel holds 10 L / 2.64 gal",  # 8.39 kg: 1.03 3 kg: 1.05 g/mL
    "cure-small-dose": "4.9 g / 0.173 oz of curing salt",
    "ceiling-taste": "Fresh rosemary at 0.6 % is above 0.5 % of the water",
    "sweetener-high": "Honey at 5.1 % of the water is above 5 %",
    "calcium-high": "Calcium chloride at 0.031 % of the water is above 0.03 %",
    "calcium-gain": "a gain of 3 %; this is 3.1 %",
    "sodium-day": "about 2360 mg sodium from salt, more than a whole day's 2300 mg",  # 6 g of salt at 393.37 mg/g
    # 300 g of 2.1 %
    "salt-day": "about 6.3 g salt, more than a whole day's reference intake of 6 g",
    "cook-through": "Cook lean beef through: 69 °C / 155 °F at",
    "cola-not-pork": "not for chicken wing",
    "strong-brine": "Above 17.6 % of the water",
    "no-temperature": "given for 5 h in the brine",
    "above-usual": "Bay leaf at 0.15 % is above the usual 0.02 % to 0.1 % of the water",
    "no-amount": "given for bay leaf, so it was neither weighed out nor checked",
    "small-dose": "0.9 g / 0.0317 oz of bay leaf is less",
    "parasites": "in fish. Freeze it first, 7 days at -20 °C / -4 °F or below, buy",
    "parasites-maybe": "cooked through, freeze it first, 7 days at -20 °C / -4 °F or below, or buy",
    "gain-high": "A gain of 26 % is more than the usual 25 %",
    "added-solution": "Raw pork loin with 10 % added solution",
    "sodium-portion": "about 790 mg sodium from salt, 34 % of the daily value",  # 2 g of salt, 787 of 2300 mg
    "salt-portion": "about 2.1 g salt, 35 % of a day's reference intake",  # 210 g of 1 %, of 6 g
    "allergens": "May bring milk (buttermilk).",
    "potassium-high": "brings up to 0.839 % of potassium into the product, above 0.8 %",
    "potassium": "Potassium chloride adds potassium (at most 0.524 % of the product)",
    "not-food": "Bleach is no food",
    "heading-passed-over": 'column "soaked for" was not read',
    "acid-gear": "Acetic acid is strong enough",
    "strength-mismatch": "58 g / 2.05 oz of salt in 1 kg / 2.2 lb of water makes 5.8 %, not 5 %",
    "rules-unknown": 'The rules "UK" are not known here, so the EU figures were used.',
    "heading-names-ingredient": 'column "citric acid" gives no unit',
}

SUBJECTS = {
    "cure-vegetable-eu": "cure name",
    "cell-error": "strength",
    "cell-unreadable": "weight",
    "product-unknown": "product",
    "no-amount": "ingredient",
}


@each("rule", SAYS)
def test_the_sentence_holds_the_figures_of_the_row(rule):
    hits = of(rule, CASES[rule][0])
    assert len(hits) == 1
    assert SAYS[rule] in hits[0].sentence
    assert hits[0].subject == SUBJECTS.get(rule, hits[0].rule.subject)


def test_every_rule_that_fills_in_words_says_them_here():
    rows = {rule: of(rule, row)[0].rule for rule, (row, _) in CASES.items()}
    filled = {rule for rule, read in rows.items() if "{" in read.sentence + read.todo}
    assert filled == set(SAYS)


WHOLE = {**CURED, "cure method": "pick-up", "gain": 0.1, "pickle": 10000.0, "cure": 70.0}
"""219 ppm in meat and pickle together; the limit is 200."""

# (rule, row, what must stand in its sentence)
ALSO = [
    ("rules-unknown", {**CURED, "rules": "Ontario"}, '"Ontario" are not known here, so the US figures were'),
    ("product-plant", {"product": "gouda wheel"}, "it is judged as a cheese that ripens, and no"),
    ("cure-error", {**CURED, "cure": "a pinch 5"}, 'The column cure holds "a pinch 5"'),
    ("pure-nitrite", {**CURED, "cure strength": 0.2}, "A cure with 20 % nitrite"),
    ("pure-nitrite", {**CURED, "cure strength": 0.003}, "A cure with 0.3 % nitrite"),
    ("nitrite-no-method", {**CURED, "cure method": "by the moon"}, 'checked ("by the moon" is none of them).'),
    ("nitrite-no-method", {**CURED, "cure method": "pumped and soaked"},
     '("pumped and soaked" is two: equilibrium takes all curing salt with all pickle). Write'),
    ("nitrite-no-method", {**CURED, "cure method": "x" * 31}, f'("{"x" * 30}" is none'),
    ("cure-soaks-on", {**WHOLE, "method": "equilibrium"}, "By the method equilibrium nitrite goes on moving in"),
    ("cure-soaks-on", {**WHOLE, "soak hours": 120.0}, "In 5 days nitrite goes on moving in"),
    ("cure-taken-out", WHOLE, "Take the meat out on time, within 24 h, and"),
    ("cure-taken-out", {**WHOLE, "kind": "bacon", "cure": 40.0}, "hold 125 ppm of nitrite, and the limit by US rules "
     "is 120"),
    ("cure-bone-weight", {**CURED, "product": "bone-in pork chop", "cure": 70.0}, "About 25 % of bone-in"),
    ("nitrite-over-bone", {**CURED, "product": "bone-in pork chop", "cure": 80.0}, "nearer 666.7 ppm of nitrite"),
    ("cure-bone-weight", {**CURED, "product": "pork belly", "nitrite": 150.0}, "so the true level is higher."),
    ("nitrite-over-limit", {**BACON, "cure": 19.3}, "120.6 ppm for bacon, pumping; the limit by US rules is 120 ppm"),
    (
        "nitrate-over-limit",
        {**CURED, "cure method": "pick-up", "gain": 0.1, "pickle": 1000.0, "cure name": "saltpetre", "cure": 7.1},
        "is 710 ppm for immersion by pick-up; the limit by US rules is 700 ppm",  # 9 CFR 424.21: pickle as pumped
    ),
    (
        "nitrate-over-limit",
        {"product": "ham leg", "edible weight": 50000.0, "cure method": "pumped", "gain": 0.1, "pickle": 5000.0,
         "cure name": "saltpetre", "cure": 100.0, "rules": "EU"},
        "is 2000 ppm for pumping; the limit by EU rules is 123 ppm",  # Regulation (EU) 2023/2108: 90 mg/kg of the ion
    ),
    ("nitrate-cure", {**CURED, "cure name": "cure no. 2", "rules": "EU"}, "none at all in what is heated, and is for"),
    ("nitrite-over-limit", {**CURED, "cure": 19.4, "rules": "EU"}, "is 121.2 ppm for dry curing; the limit by EU rules "
     "is 120 ppm"),
    ("alkali-food", {"product": "green olives", "acid": "lye", "acid level": 0.05}, "for green olives 4 % of the water "
     "is the most, and this is 5 %"),
    ("alkali-gear", {"product": "green olives", "acid": "lye", "acid level": 0.02}, "Rinse in fresh water"),
    ("alkali-gear", {"product": "pretzel dough", "acid": "lye", "acid level": 0.03}, "Bake it well through"),
    ("alkali-aluminium", {"ph": 11.1, "vessel": "aluminium tub"}, "A bath of pH 11.1 eats aluminium"),
    ("sealed-low-acid", {"product": "cucumber", "packaging": "sealed jar"}, "cucumber with no pH known can"),
    ("sealed-low-acid", {"product": "cucumber", "packaging": "sealed jar"}, "cold, ferment it under an airlock,"),
    ("sealed-low-acid", {"product": "feta", "packaging": "sealed jar"}, "Keep it cold and open to air, or follow"),
    ("packed-without-air", {"product": "pork chop", "packaging": "vacuum"}, "Keep it at 5.0 °C / 41 °F or below, or"),
    ("packed-without-air", {"product": "smoked ham leg", "packaging": "vacuum"}, "Keep it at 3.3 °C / 38 °F or below"),
    ("fish-salt-low", {**SMOKED, **CURED, "product": "salmon fillet", "packaging": "vacuum", "water phase salt": 0.029},
     "needs 3 % water-phase salt"),
    ("fish-salt-unknown", {**SMOKED, **CURED, "product": "salmon fillet", "packaging": "vacuum"}, "needs 3 % water"),
    ("fish-salt-unknown", {**SMOKED, "packaging": "paper"}, "needs 2.5 % water"),
    ("fish-salt-unknown", {"product": "smoked reindeer", "method": "smoked salmon way"}, "needs 3.5 % water"),
    ("brine-warm-long", {"bath temperature": 6.0, "soak hours": 4.1}, "The product would be"),
    (
        "soak-long",
        {"product": "ham leg", "soak hours": 100.0, "rest hours": 100.0},
        "8.33 days of soak and rest is longer",
    ),
    ("soak-long", {"product": "ham leg", "rest hours": 240.0}, "10 days of rest is longer than 7 days"),
    (
        "soak-far-too-long",
        {"product": "chicken breast", "soak hours": 4.0, "rest hours": 400.0},
        "16.8 days of soak and rest is far too long for raw chicken breast",
    ),
    ("soak-far-too-long", {"product": "chicken breast", "soak hours": 4.0, "rest hours": 400.0}, "Shorten the rest."),
    ("soak-far-too-long", {"product": "chicken breast", "soak hours": 400.0, "rest hours": 4.0}, "Shorten the soak: "),
    ("salt-day", {"portion": 90000.0, "target": 0.01, "rules": "EU"}, "holds about 900 g salt"),
    ("brine-old", {"brine age": 240.0}, "is 10 days old"),
    ("no-temperature", {"soak hours": 72.0, "bath temperature": None}, "for 3 days in"),
    ("no-temperature", {"soak hours": 71.0, "bath temperature": None}, "for 71 h in"),
    ("cook-through", {"product": "chicken breast", "treatment": "needled"}, "breast through: 74 °C / 165 °F at"),
    ("cook-through", {"product": "pork loin", "cure method": "pumped"}, "Cook pork loin through"),
    (
        "cook-through",
        {"product": "pork loin", "method": "injected", "rules": "EU"},
        "Cook pork loin through: 69 °C / 155 °F (US rules) at the centre.",
    ),
    (
        "needled-rare",
        {"product": "duck breast", "treatment": "needled", "method": "served rare", "rules": "EU"},
        "74 °C / 165 °F (US rules) at the centre",
    ),
    (
        "fish-long-hold",
        {"product": "cod fillet", "bath temperature": 4.0, "soak hours": 5.0, "rules": "EU"},
        "held at 3.3 °C / 38 °F (US rules) or below; this is at 4.0 °C / 39 °F",
    ),
    ("cook-through", {"product": "pork loin", "method": "injected"}, "Cook pork loin through"),
    ("cook-through", {"product": "salmon fillet", "method": "injected"}, "salmon fillet through: 63 °C / 145 °F at"),
    ("needled-rare", {"product": "tuna loin", "method": "injected", "note": "sashimi"}, "loin is to be served rare"),
    ("parasites-maybe", {"product": "salmon fillet", "method": "injected"}, "Unless it is cooked through, freeze it"),
    (
        "fish-long-hold",
        {"product": "trout fillet", "method": "injected", "rest hours": 150.0, "bath temperature": 4.0},
        "in brine or at rest for more than 4 h is held at 3.3 °C / 38 °F or below; this is at 4.0 °C / 39 °F",
    ),
    (
        "fish-long-hold",
        {"product": "trout fillet", "soak hours": 1.0, "rest hours": 3.5, "bath temperature": 4.0},
        "or shorten soak and rest",
    ),
    (
        "over-in-product",
        {"ingredient 1": "STPP", "level 1": 0.04, "ingredient 2": "sodium hexametaphosphate", "level 2": 0.04,
         "strength": 0.12, "gain": 0.2},
        "Sodium tripolyphosphate and sodium hexametaphosphate comes to 1.11 %",  # 0.08/1.2 × 0.2/1.2
    ),
    (
        "over-in-product",
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


@each(("rule", "row", "words"), ALSO)
def test_other_rows_and_what_is_said_of_them(rule, row, words):
    assert any(words in hit.sentence for hit in of(rule, row)), [hit.sentence for hit in of(rule, row)]
