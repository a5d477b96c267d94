"""Refusals of the trade's smaller rooms: the argument, the limit, what was given and the way out.

Those of curing, costing, acids and soaks stand with their own tests. The figures are the tables' own ceilings, or
follow by hand from the numbers in the call.
"""

from __future__ import annotations

from each import each

from brinecalc.errors import Impossible, OutOfRange, Refused, UnknownName, Unreadable
from brinecalc.trade import cells, doses, labels, limits, row_reading, sweeteners, topics, volumes
from tests.refusals import Refusal, check

REFUSALS = {
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
        lambda: labels.sources(["salt", "STPP"], [0.01, 5.0]), OutOfRange, "shares", "5 in row 2",
        ("from 0 % to below 100 %", "write 5% for 5 per cent"),
    ),
    "a share that is a word": Refusal(
        lambda: labels.sources(["salt"], ["much"]), Unreadable, "shares", '"much" in row 1', ("a share",)
    ),
    "a limit of other rules": Refusal(
        lambda: limits.find("malt syrup", "EU"), UnknownName, "limit", '"malt syrup"',
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
        lambda: labels.sources(["zzz"], [0.1]), UnknownName, "ingredients", '"zzz"', ("none of the", "is like it")
    ),
    "a sweetener to come from": Refusal(
        lambda: sweeteners.swap(100.0, "hony", "white sugar"), UnknownName, "from_sweetener", '"hony"', ('"honey"',)
    ),
    "a share of all of the product": Refusal(
        lambda: labels.sources(["salt"], [1.0]), OutOfRange, "shares", "1 in row 1", ("below 100 %",)
    ),
    "a limit that only others have": Refusal(
        lambda: limits.value("nitrite ingoing", "US"), UnknownName, "limit", '"nitrite ingoing"', ("US rules",)
    ),
    "a sweetener to go over to": Refusal(
        lambda: sweeteners.swap(100.0, "white sugar", "hony"), UnknownName, "to_sweetener", '"hony"', ('"honey"',)
    ),
    "a sweetener asked for by no other word": Refusal(
        lambda: sweeteners.find("hony"), UnknownName, "sweetener", '"hony"', ('"honey"',)
    ),
    "nothing to use it by": Refusal(
        lambda: doses.usual_range("calcium lactate", "injection"), Impossible, "ingredient", '"calcium lactate"',
        ("has no customary use by injection in this table", "it is used for"),
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
        lambda: row_reading.read(["water", "salt"], [1.0]), Unreadable, "values", "1 cells under 2 headings",
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


@each("name", REFUSALS)
def test_a_refusal_says_all_a_cook_needs(name):
    check(REFUSALS[name])
