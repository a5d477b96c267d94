"""Every refusal of the trade's rules names the argument, the limit, what was given and the way out.

The figures are the limits of the rules named (9 CFR 424.21, FDA Food Code 3-501.16), the tables' own ceilings, or
follow by hand from the numbers in the call; each call says how where it is not plain.
"""

from __future__ import annotations

import math

import pytest

from brinecalc.errors import Impossible, OutOfRange, Refused, UnknownName, Unreadable
from brinecalc.tables import load
from brinecalc.trade import (
    acid_rules,
    acids,
    cells,
    costing,
    curing,
    doses,
    forecasts,
    labels,
    limits,
    pieces,
    row,
    soaks,
    sweeteners,
    topics,
    treatments,
    volumes,
)  # fmt: skip
from tests.refusals import Refusal, check

GRAM, LITRE, EACH = costing.Amount(25.0, "mass"), costing.Amount(500.0, "volume"), costing.Amount(3.0, "count")
BARE = costing.Amount(25.0, "mass", True)


def breast(celsius=4.0, treatment="none", product="chicken breast"):
    return pieces.piece(product, 25.0, celsius, None, treatment)


def forecast(hours, readings, **more):
    given = {"celsius": 4.0, "target": 0.012, "strength": 0.05, "bath": 2.0, **more}
    return forecasts.forecast_for(
        "chicken breast", 25.0, given["celsius"], None, "none", None, hours, readings, given["target"],
        given["strength"], given["bath"],
    )  # fmt: skip


def brine_ph(*parts, water=1000.0):
    return acid_rules.checked_ph(water, [(acids.find(name), grams) for name, grams in parts], 0.05, 0.0, 25.0)


def ph_dose(target, name):
    return acid_rules.checked_dose(target, 1000.0, name, 0.05, 0.0, 25.0)


CURING = {
    "over the US limit": Refusal(
        lambda: curing.dose(1000.0, 160.0, "comminuted"), Refused, "ppm", "160 ppm",
        ("at most 156 ppm (156.25 exactly)", "comminuted meat", "US rules", "9 CFR", "local code"), 156.25,
    ),
    "between the set levels": Refusal(
        lambda: curing.dose(1000.0, 110.0, "pumped", 0.1, kind="bacon"), Refused, "ppm", "110 ppm",
        ("exactly 120 ppm", "or 100 ppm", "40 to 80 ppm with starter culture", "9 CFR", "local code"), 120.0,
    ),
    "nearly pure nitrite": Refusal(
        lambda: curing.dose(1000.0, 100.0, "dry", cure_strength=0.9), Refused, "cure_strength", "90 %",
        ("between 0.4 % and 10 % nitrite", "pure nitrite is never weighed out", "share on its label, such as 6.25%"),
    ),
    "less pickle than is taken up": Refusal(
        lambda: curing.dose(1000.0, 100.0, "pumped", 0.1, 99.0), OutOfRange, "pickle", "99 g",
        ("at least what the product takes up, 100 g", "the whole pickle, with its cure and salt"),
    ),
    "nothing but curing salt": Refusal(  # 150 ppm of 1000 g + 0.5 g at 6.25 % is 2.4 g
        lambda: curing.dose(1000.0, 150.0, "equilibrium", None, 0.5), OutOfRange, "pickle", "0.5 g",
        ("more than the curing salt in it, 2.4012 g", "mix more pickle, or use a stronger curing salt"),
    ),
    "comminuted bacon": Refusal(
        lambda: curing.limit("comminuted", "bacon"), Impossible, "method", None,
        ("for bacon", "pumped, immersed and dry-cured", '"pick-up"', 'kind "general"'),
    ),
    "a missing gain": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "pumped"), Unreadable, "gain", None, ('"pumped" needs it', "example 10%"),
    ),
    "a missing pickle": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "equilibrium"), Unreadable, "pickle", None,
        ('"equilibrium" needs it', "example 5 kg"),
    ),
    "a pickle of nothing": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "pick-up", 0.1, 0.0), OutOfRange, "pickle", "0",
        ('above 0 for the method "pick-up"',),
    ),
    "a gain of nothing": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "pumped", 0.0), OutOfRange, "gain", "0",
        ('above 0 for the method "pumped"',),
    ),
}  # fmt: skip

DOSES = {
    "curing salt": Refusal(
        lambda: doses.dose(1000.0, 0.01, "curing salt no. 1", "immersion"), Refused, "ingredient",
        '"curing salt no. 1"', ("not dosed as a share of the water", "weight of the meat", "use BRINE_CURE"),
    ),
    "lye": Refusal(
        lambda: doses.usual_range("lye", "immersion"), Refused, "ingredient", '"lye"',
        ("strong alkali burns", "licensed processes", "baking soda; see BRINE_PH_DOSE"),
    ),
    "the legal ceiling of a phosphate": Refusal(  # 9 CFR 424.21: 0.5 % of the finished product
        lambda: doses.dose(1000.0, 0.006, "STPP", "immersion"), Refused, "level", "0.6 %",
        ("at most 0.5 % for sodium tripolyphosphate", "legal ceiling (of the finished product)", "usual is",
         '0.3 %; for a dip', 'by use "injection"', "BRINE_IN_PRODUCT"), 0.005,
    ),
    "mineral acid": Refusal(
        lambda: doses.dose(1000.0, 0.01, "hydrochloric acid", "immersion"), Refused, "ingredient",
        '"hydrochloric acid"', ("not dosed", "burns skin and eyes", "citric acid", "BRINE_PH_DOSE"),
    ),
    "no use at all": Refusal(  # water is what all others are a share of
        lambda: doses.dose(1000.0, 0.01, "tap water", "immersion"), Impossible, "ingredient", '"water"',
        ("no customary use by immersion", "whoever makes it"),
    ),
    "no use in pickles": Refusal(
        lambda: doses.dose(1000.0, 0.003, "STPP", "vegetable"), Impossible, "ingredient", '"sodium tripolyphosphate"',
        ("no customary use in pickles", "it is used for immersion and injection"),
    ),
}  # fmt: skip

COSTING = {
    "no unit of an amount": Refusal(
        lambda: costing.amount("38 °F", "pack_size"), Unreadable, "pack_size", '"38 °F"',
        ("a weight, volume, length or number of pieces", "24 x 12 fl oz"),
    ),
    "a stroke": Refusal(
        lambda: costing.amount("6/1 gal", "pack_size"), Unreadable, "pack_size", '"6/1 gal"', ('a pack as "6 x 1 gal"',)
    ),
    "words": Refusal(
        lambda: costing.amount("lots", "need"), Unreadable, "need", '"lots"', ("an amount or a unit",)
    ),
    "a pack of nothing said": Refusal(
        lambda: costing.amount("24 x 12", "pack_size"), Unreadable, "pack_size", '"24 x 12"',
        ("an amount with its unit", "how much one holds"),
    ),
    "nothing at all": Refusal(
        lambda: costing.positive(costing.Amount(0.0, "mass"), "pack_size"), OutOfRange, "pack_size", "0 g",
        ("must be above 0", "25 kg"),
    ),
    "less than nothing": Refusal(
        lambda: costing.not_negative(costing.Amount(-2.0, "mass"), "need"), OutOfRange, "need", "-2 g", ("at least 0",)
    ),
    "pieces of what comes by weight": Refusal(
        lambda: costing.alike(EACH, GRAM, "need"), Unreadable, "need", "3",
        ("must be a mass like pack_size", 'write it as one, such as "2.5 kg"'),
    ),
    "a bare need of what comes by volume": Refusal(
        lambda: costing.alike(BARE, LITRE, "on_hand"), Unreadable, "on_hand", "25 g",
        ("must be a volume like pack_size", "a number alone is grams", 'as in "5 L"'),
    ),
    "a bare pack": Refusal(
        lambda: costing.alike(LITRE, BARE, "need"), Unreadable, "need", "500 mL",
        ("a pack_size without a unit is grams", 'as in "5 L"'),
    ),
    "a price per kilogram of litres": Refusal(
        lambda: costing.priced_alike(GRAM, LITRE, "kg"), Unreadable, "per", '"kg"',
        ("a volume like pack_size", 'write "L" for per', "give pack_size as a mass", "BRINE_WEIGHT"),
    ),
    "a price per litre of kilograms": Refusal(
        lambda: costing.priced_alike(LITRE, GRAM, "L"), Unreadable, "per", '"L"',
        ("a mass like pack_size", 'write "kg" for per', "give pack_size as a volume", "BRINE_VOLUME"),
    ),
    "a price per piece of a bare pack": Refusal(
        lambda: costing.priced_alike(EACH, BARE, "each"), Unreadable, "per", '"each"',
        ("a mass like pack_size", "a pack_size without a unit is grams", 'as in "30 each"'),
    ),
    "a price per piece of kilograms": Refusal(
        lambda: costing.priced_alike(EACH, GRAM, "each"), Unreadable, "per", '"each"', ('write "kg" for per',)
    ),
    "columns of unequal length": Refusal(
        lambda: costing.mix_cost(["salt", "sugar"], [1.0], ["salt"], [2.0], 1.0), Unreadable, "masses", "1",
        ("as many cells as ingredients (2)", "begin and end in the same rows"),
    ),
    "prices of unequal length": Refusal(
        lambda: costing.mix_cost(["salt"], [1.0], ["salt", "sugar"], [2.0], 1.0), Unreadable, "unit_costs", "1",
        ("as many cells as price_names (2)",),
    ),
    "a negative mass": Refusal(
        lambda: costing.mix_cost(["salt", "sugar"], [1.0, -2.0], ["salt"], [2.0], 1.0), OutOfRange, "masses",
        "-2 g in row 2", ("at least 0 g",),
    ),
    "a mass of nothing named": Refusal(
        lambda: costing.mix_cost(["salt", None], [1.0, 2.0], ["salt"], [2.0], 1.0), Unreadable, "ingredients",
        "a blank cell in row 2", ("must name every mass",),
    ),
    "a mass that is none": Refusal(
        lambda: costing.mix_cost(["salt", "sugar"], [1.0, "much"], ["salt"], [2.0], 1.0), Unreadable, "masses",
        '"much" in row 2', (),
    ),
    "a negative price": Refusal(
        lambda: costing.mix_cost(["salt"], [1.0], ["x", "salt"], [1.0, -3.0], 1.0), OutOfRange, "unit_costs",
        "-3 in row 2", ("at least 0",),
    ),
    "two prices": Refusal(
        lambda: costing.mix_cost(["salt"], [1.0], ["salt", "Salt"], [2.0, 3.0], 1.0), Unreadable, "price_names",
        'two for "salt"', ("one price for each name", "take one of the rows out"),
    ),
    "a name without its price": Refusal(
        lambda: costing.mix_cost(["salt"], [1.0], ["salt", "x"], [None, 3.0], 1.0), UnknownName, "ingredients",
        '"salt"', ("must all have a price", "give it a price in unit_costs, 0 if it costs nothing"),
    ),
    "a name not in the list": Refusal(
        lambda: costing.mix_cost(["fine salt"], [1.0], ["fine salts x"], [3.0], 1.0), UnknownName, "ingredients",
        '"fine salt"', ("add it to price_names with its price", 'did you mean "fine salts x"?'),
    ),
    "a name like none in the list": Refusal(
        lambda: costing.mix_cost(["honey"], [1.0], ["zzz"], [3.0], 1.0), UnknownName, "ingredients",
        '"honey"', ("add it to price_names with its price, 0 if it costs nothing",),
    ),
}  # fmt: skip

SOAKS = {
    "a block in one length": Refusal(
        lambda: pieces.piece("chicken breast", 25.0, shape="block"), Unreadable, "thickness", None,
        ("the three edges of a block", '"150 x 60 x 40 mm"'),
    ),
    "a slab in three": Refusal(
        lambda: pieces.piece("chicken breast", (25.0, 30.0, 40.0), shape="slab"), Unreadable, "thickness", None,
        ("a single length for the shape slab", 'or the shape "block"'),
    ),
    "frozen product": Refusal(
        lambda: breast(-2.5), OutOfRange, "temperature", "-2.5 °C / 27.5 °F",
        ("at least -2 °C / 28.4 °F", "product itself freezes"), -2.0
    ),
    "injected": Refusal(
        lambda: soaks.hours_for(breast(treatment="injected"), 0.01, 0.05, math.inf), Impossible, "treatment", None,
        ('cannot be "injected" here', "BRINE_INJECTION_STRENGTH", "BRINE_REST_HOURS"),
    ),
    "a frozen bath": Refusal(  # 1 % of the water freezes near -0.58 °C (table nacl_freezing)
        lambda: soaks.salt_after(breast(-1.0), 2.0, 0.01, math.inf), OutOfRange, "temperature", "-1 °C / 30.2 °F",
        ("above -0.58 °C / 30.95 °F", "begins to freeze", "1 to 4 °C / 34 to 39 °F"), -0.5842,
    ),
    "warm for long": Refusal(  # FDA Food Code 3-501.16, four hours
        lambda: soaks.salt_after(breast(12.0), 5.0, 0.05, math.inf), Refused, None, None,
        ("the soak takes 5 h at 12 °C / 53.6 °F", "chicken breast", "above 5 °C / 41 °F for 4 h at most",
         "5 °C / 41 °F or colder"), 4.0,
    ),
    "warm for a target": Refusal(
        lambda: soaks.hours_for(breast(12.0), 0.03, 0.05, math.inf), Refused, None, None,
        ("the soak would take", "above 5 °C / 41 °F for 4 h at most",
         "or colder, or in thinner pieces, or inject (BRINE_INJECTION_STRENGTH)."), 4.0,
    ),
    "a warm bath": Refusal(
        lambda: soaks.bath_after(breast(12.0), 5.0, 0.05, 2.0), Refused, None, None, ("the soak takes 5 h",), 4.0
    ),
    "a warm soak and rest": Refusal(
        lambda: soaks.profile(breast(12.0), 2.0, 3.0, 0.05, math.inf, 3), Refused, None, None,
        ("soak and rest take 5 h",), 4.0,
    ),
    "more than a brine ends at": Refusal(  # w·s = 0.739 × 0.05
        lambda: soaks.hours_for(breast(), 0.05, 0.05, math.inf), Impossible, "target", "5 %",
        ("towards 3.695 %", "stronger brine or a larger bath, or aim lower"), 0.03695,
    ),
    "less than is there already": Refusal(
        lambda: soaks.hours_for(breast(), 0.0005, 0.05, math.inf), Impossible, "target", "0.05 %",
        ("a brine only adds salt", "freshen in plain water (strength 0)"), 0.00114,
    ),
    "salt from plain water": Refusal(
        lambda: soaks.hours_for(breast(), 0.01, 0.0, math.inf), Impossible, "target", "1 %",
        ("this bath only takes salt out", "stronger brine"), 0.00114,
    ),
    "fresher than a small bath makes it": Refusal(
        lambda: soaks.hours_for(pieces.piece("salt cod", 25.0), 0.001, 0.0, 0.5), Impossible, "target", "0.1 %",
        ("weaker or larger bath, or aim higher",), soaks.soaking.average(
            pieces.piece("salt cod", 25.0).water, 0.0,
            pieces.piece("salt cod", 25.0).native / (pieces.piece("salt cod", 25.0).water + 0.5), 1.0,
        ),
    ),
    "cold before": Refusal(
        lambda: soaks.rescale(4.0, 20.0, 40.0, -3.0, 4.0), OutOfRange, "from_temperature", "-3 °C / 26.6 °F",
        ("from -2 °C / 28.4 °F to 40 °C / 104 °F",),
    ),
    "hot after": Refusal(
        lambda: soaks.rescale(4.0, 20.0, 40.0, 4.0, 41.0), OutOfRange, "to_temperature",
        "41 °C / 105.8 °F", ("from -2 °C / 28.4 °F to 40 °C / 104 °F",),
    ),
    "no such treatment": Refusal(
        lambda: treatments.treatment("sung to"), UnknownName, "treatment", '"sung to"',
        (", ".join(made["name"] for made in load.rows("treatments")),),
    ),
}  # fmt: skip

FORECASTS = {
    "one reading": Refusal(
        lambda: forecast((1.0,), (0.04,)), OutOfRange, "readings", "1", ("at least two readings",)
    ),
    "too many readings": Refusal(
        lambda: forecast(tuple(range(1, 102)), (0.04,) * 101), OutOfRange, "readings", "101", ("at most 100 readings",)
    ),
    "out of order": Refusal(
        lambda: forecast((1.0, 3.0, 3.0), (0.04, 0.04, 0.04)), OutOfRange, "hours", None,
        ("must rise from reading to reading", "in order of time"),
    ),
    "a warm log": Refusal(
        lambda: forecast((1.0, 5.0), (0.04, 0.04), celsius=12.0), Refused, None, None, ("the log runs 5 h",), 4.0
    ),
    "readings of another bath": Refusal(
        lambda: forecast((1.0, 2.0), (0.3, 0.3)), OutOfRange, "readings", "30 %",
        ("cannot come from this soak", "shares of the water (BRINE_METER gives them)"),
    ),
    "a finish left open": Refusal(
        lambda: forecasts.part_of(
            forecasts.Forecast(3.0, 2.0, math.inf, 4e-10, 0.0, 0), "slow", breast(), 2.0
        ), Impossible, None, None, ("open whether this bath ever gets there", "another reading", "BRINE_TOP_UP"),
    ),
    "a warm finish": Refusal(
        lambda: forecasts.part_of(
            forecasts.Forecast(3.0, 2.5, 3.5, 4e-10, 0.0, 0), "hours", breast(12.0), 2.0
        ), Refused, None, None, ("the soak would take 5 h",), 4.0,
    ),
}  # fmt: skip

ACIDS = {
    "more than dissolves": Refusal(
        lambda: brine_ph(("cream of tartar", 400.0)), OutOfRange, "masses", "400 g",
        ("at most what dissolves", "cream of tartar in this much water", "use less, or more water"),
    ),
    "nitrite and a sour brine": Refusal(
        lambda: brine_ph(("curing salt no. 1", 2.5), ("citric acid", 5.0)), Refused, "ingredients", "pH 2.4",
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
}  # fmt: skip

REST = {
    "more finished than green": Refusal(
        lambda: labels.added_solution(1000.0, 990.0), Impossible, "finished", "990 g",
        ("at least the green weight", "BRINE_YIELD"), 1000.0,
    ),
    "shares without a partner": Refusal(
        lambda: labels.sources(["salt", "STPP"], [0.01]), Unreadable, "shares", "1 for 2 ingredients",
        ("as many cells as ingredients",),
    ),
    "a share of nothing named": Refusal(
        lambda: labels.sources(["salt", 7.0], [0.01, 0.02]), Unreadable, "ingredients", "7", ("a name in row 2",)
    ),
    "a share past all": Refusal(
        lambda: labels.sources(["salt", "STPP"], [0.01, 5.0]), OutOfRange, "shares", "5",
        ("from 0 % to below 100 % (row 2)", "write 5% for 5 per cent"),
    ),
    "a share that is a word": Refusal(
        lambda: labels.sources(["salt"], ["much"]), Unreadable, "shares", "much", ("(row 1)",)
    ),
    "a limit of other rules": Refusal(
        lambda: limits.find("nitrate dry", "EU"), UnknownName, "limit", '"nitrate dry"',
        ("no figure under the EU rules", "a figure under US; give that as rules", "local code"),
    ),
    "curing salt by the spoon": Refusal(
        lambda: volumes.density("curing salt no. 1"), Refused, "ingredient", '"curing salt no. 1"',
        ("never measured by volume", "a scale that shows 0.1 g"),
    ),
    "salt of no grade": Refusal(
        lambda: volumes.density("salt"), UnknownName, "ingredient", '"salt"', ("which grade of salt", '"table salt"')
    ),
    "a weight by volume not known": Refusal(
        lambda: volumes.density("calcium lactate"), UnknownName, "ingredient", '"calcium lactate"',
        ("no weight by volume", "weigh it", "own ingredients"),
    ),
    "a sweetener that is none": Refusal(
        lambda: sweeteners.find("baking soda", "to_sweetener"), UnknownName, "to_sweetener", '"baking soda"',
        ("not a sweetener in this table", "known sweetener names include"),
    ),
    "a sweetener never heard of": Refusal(
        lambda: sweeteners.find("hony", "to_sweetener"), UnknownName, "to_sweetener", '"hony"',
        ("not a known sweetener", '"honey"'),
    ),
    "an ingredient of a label nobody knows": Refusal(
        lambda: labels.sources(["zzz"], [0.1]), UnknownName, "ingredients", '"zzz"', ("write its full name",)
    ),
    "a sweetener to come from": Refusal(
        lambda: sweeteners.swap(100.0, "hony", "white sugar"), UnknownName, "from_sweetener", '"hony"', ('"honey"',)
    ),
    "a share of all of the product": Refusal(
        lambda: labels.sources(["salt"], [1.0]), OutOfRange, "shares", "1", ("below 100 % (row 1)",)
    ),
    "a curing salt nobody knows": Refusal(
        lambda: curing.CURES().find("zzz"), UnknownName, None, '"zzz"', ("known curing salt",)
    ),
    "bacon over its level": Refusal(
        lambda: curing.check_level(500.0, "pick-up", "bacon", "US"), Refused, "ppm", "500 ppm",
        ("for bacon, immersion", "by the US rules"), 119.98,
    ),
    "a limit that only others have": Refusal(
        lambda: limits.value("nitrite ingoing", "US"), UnknownName, "limit", '"nitrite ingoing"', ("US rules",)
    ),
    "a bath as salt as the product": Refusal(
        lambda: soaks.hours_for(breast(), 0.01, breast().native_strength, breast().water), Impossible,
        "target", "1 %", (), 0.00114
    ),
    "readings of another bath": Refusal(
        lambda: forecast((1.0, 2.0, 4.0), (0.2, 0.18, 0.155)), OutOfRange, "readings", "15.5 %",
        ("cannot come from this soak",),
    ),
    "a sweetener to go over to": Refusal(
        lambda: sweeteners.swap(100.0, "white sugar", "hony"), UnknownName, "to_sweetener", '"hony"', ('"honey"',)
    ),
    "a sweetener asked for by no other word": Refusal(
        lambda: sweeteners.find("hony"), UnknownName, "sweetener", '"hony"', ('"honey"',)
    ),
    "a dose of what nobody knows": Refusal(
        lambda: acid_rules.checked_dose(5.0, 1000.0, "zzz", 0.05, 0.0, 20.0), UnknownName, "ingredient", '"zzz"',
        ("write its full name",),
    ),
    "nothing to use it by": Refusal(
        lambda: doses.usual_range("calcium lactate", "injection"), Impossible, "ingredient", '"calcium lactate"',
        ("has no customary use by injection in this table", "it is used for"),
    ),
    "a cold soak of no time": Refusal(
        lambda: soaks.strength_for(breast(), 0.01, 0.0, 2.0), Impossible, "target", "1 %",
        ("cannot be reached in 0 h", "even a saturated brine leaves the average at 0.11 %"), 0.00114,
    ),
    "warm for a given time": Refusal(
        lambda: soaks.strength_for(breast(10.0), 0.01, 9.0, 2.0), Refused, None, None,
        ("the soak takes 9 h at 10 °C", "for 4 h at most"), 4.0,
    ),
    "a topic of sixty letters": Refusal(
        lambda: (_ for _ in ()).throw(topics.unknown("q" * 60)), UnknownName, "topic", f'"{"q" * 40}"', ()
    ),
    "a topic never heard of": Refusal(
        lambda: (_ for _ in ()).throw(topics.unknown("nitrite drry")), UnknownName, "topic", '"nitrite drry"',
        ("not a limit", 'did you mean "nitrite dry'),
    ),
    "a topic like nothing": Refusal(
        lambda: (_ for _ in ()).throw(topics.unknown("qqqq zzzz")), UnknownName, "topic", '"qqqq zzzz"',
        ('try a function, "SOAK_HOURS"',),
    ),
    "a row of another width": Refusal(
        lambda: row.read(["water", "salt"], [1.0]), Unreadable, "values", "1 cells under 2 headings",
        ("as many cells as headings", "same width as the heading row"),
    ),
    "a share of more than all": Refusal(
        lambda: cells.check(5.0, "share", "strength", 5.0), OutOfRange, None, None,
        ("from 0 % to below 100 %", "write 5% for 5 per cent"),
    ),
    "a pH that is none": Refusal(
        lambda: cells.check(14.1, "ph", "ph", 14.1), OutOfRange, None, None, ("a pH from 0 to 14",)
    ),
    "a negative mass in a row": Refusal(
        lambda: cells.check(-0.1, "mass", "salt", -0.1), OutOfRange, None, None, ("must not be below 0",)
    ),
}  # fmt: skip

ALL = {**CURING, **DOSES, **COSTING, **SOAKS, **FORECASTS, **ACIDS, **REST}


@pytest.mark.parametrize("name", ALL)
def test_a_refusal_says_all_a_cook_needs(name):
    check(ALL[name])
