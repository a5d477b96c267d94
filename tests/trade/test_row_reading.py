"""How a production row is read: whatever stands in one cell, the cells after it are read all the same."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry
from brinecalc.trade import row_reading as rows
from brinecalc.trade.findings import Finding, all_of
from brinecalc.trade.row import Row
from tests.trade.cases import CURED, found


def read(cells: dict[str, object]) -> Row:
    return rows.read(list(cells), list(cells.values()))


def said(cells: dict[str, object], rule: str) -> str:
    return next(hit.sentence for hit in all_of(list(cells), list(cells.values())) if hit.rule.id == rule)


@pytest.mark.parametrize("first", ["", None, "error", "#N/A"])
def test_an_ingredient_after_one_that_is_blank_or_an_error_is_read(first: object) -> None:
    cells = {
        "ingredient 1": first,
        "level 1": 0.01,
        "ingredient 2": "lye",
        "level 2": 0.01,
        "product": "chicken breast",
    }
    assert "alkali-raw" in found(cells)


@pytest.mark.parametrize("amount", ["2%", "20 g", "2 oz"])
def test_an_amount_under_the_name_of_an_ingredient_is_a_share_or_a_mass(amount: str) -> None:
    thing = next(each for each in read({"water": 1000.0, "red wine": amount}).things if each.text == "red wine")
    assert thing.ratio == pytest.approx({"2%": 0.02, "20 g": 0.02, "2 oz": 2 * 28.349523125 / 1000}[amount])
    assert thing.grams == pytest.approx(1000 * thing.ratio)


def test_a_share_of_nothing_is_an_amount_too() -> None:
    made = read({"water": 1000.0, "citric acid": "0%"})
    assert [thing.ratio for thing in made.things if thing.text == "citric acid"] == [0.0]


def test_an_error_in_one_column_does_not_end_the_reading() -> None:
    made = read({"weight": "#VALUE!", "strength": "error", "bath temperature": 12.0, "product": "pork chop"})
    assert [column.name for column in made.errors] == ["weight", "strength"]
    assert made.number("bath temperature") == 12.0


def test_a_word_in_the_column_of_the_cure_is_its_name_if_it_names_one() -> None:
    assert "nitrite-cola" in found({"cure": "pink salt", "liquid": "cola"})
    assert said({"cure": "pepper", "weight": 1000.0}, "cure-error").startswith("The column cure holds")
    assert read({"cure": "pepper"}).unread[0].reason == "must be a mass such as 12.5 g"


def test_a_cure_that_only_a_level_of_nitrite_tells_of_is_one() -> None:
    made = read({"nitrite": 120.0, "weight": 1000.0})
    assert [(thing.heading, thing.text, thing.what.is_cure) for thing in made.cures] == [
        ("nitrite", "curing salt", True)
    ]
    weighed = read({**CURED})
    assert [(thing.heading, thing.text, thing.grams) for thing in weighed.cures] == [("cure", "curing salt", 20.0)]


def test_a_liquid_in_place_of_the_water_has_the_weight_of_the_water() -> None:
    made = read({"water": 2000.0, "liquid": "red wine"})
    assert [(thing.heading, thing.grams) for thing in made.things] == [("liquid", 2000.0)]


@each(
    "heading",
    ["red wine weight", "red wine quantity", "red wine (g)", "red wine added", "red wine, g", "Red wine to weigh in"],
)
def test_words_for_an_amount_are_no_part_of_what_a_heading_names(heading: str) -> None:
    assert [thing.what.name for thing in read({"water": 1000.0, heading: "50 g"}).things] == ["red wine"]


def test_a_number_of_pieces_that_cannot_be_read_is_told_what_to_write():
    for cell, reason in (
        ("4O", "must be a count; it holds a letter that looks like 0 or 1, so type the number afresh in figures"),
        ("5 foos", "must be a count; the units known are each, dozen, gross"),
        ("two", "must be a whole number; write it in figures, such as 40"),
        ("abc", "must be a whole number; write it in figures, such as 40"),
        ("3 (2", "must be a whole number; write it in figures, such as 40"),
        ("3 kg", "must be a whole number; write it in figures, such as 40"),
    ):
        assert [unread.reason for unread in read({"pieces": cell}).unread] == [reason]


def hits(*pairs: tuple[str, object]) -> list[Finding]:
    """What is found in a row given as pairs, so that a heading may come twice."""
    return all_of([heading for heading, _ in pairs], [cell for _, cell in pairs])


def test_a_level_stands_for_the_ingredient_right_before_it() -> None:
    made = hits(("ingredient", "bay leaf"), ("ingredient", "salt"), ("level", 0.01))  # bay leaf takes 0.001
    assert {hit.rule.id for hit in made if "ay leaf" in hit.sentence} == {"no-amount"}


def test_a_level_may_be_a_mass() -> None:
    assert "small-dose" in found({"water": 1000, "ingredient": "bay leaf", "level": "0.9 g"})


@each("heading", ["bay leaf", "bay leaf level", "bay leaf %", "bay leaf weight", "bay leaf used"])
def test_a_heading_that_names_an_ingredient_weighs_it(heading: str) -> None:
    assert "small-dose" in found({"water": 1000, heading: "0.5 g"})


@pytest.mark.parametrize("amount", [{"acid mass": 300}, {"acid level": 0.3}])
def test_acid_by_mass_and_by_level_sours_the_brine(amount: dict[str, object]) -> None:
    """300 g of vinegar, 15 g of it acetic acid, to a litre: 0.19 mol/kg at pKa 4.76 is about pH 2.7."""
    assert "texture-acid" in found(
        {"product": "pork chop", "water": 1000, "strength": 0.05, "acid": "vinegar", **amount}
    )


def test_a_target_of_nothing_is_a_freshening() -> None:
    assert "target-below-native" not in found({"product": "salt cod", "target": 0.0})
    assert "target-below-native" in found({"product": "salt cod", "target": 0.01})


def test_what_cannot_be_read_is_not_called_missing_as_well() -> None:
    row = {"product": "pork chop", "soak hours": 5}
    assert "no-temperature" not in found({**row, "bath temperature": "lukewarmish"})
    assert "no-temperature" in found({**row, "bath temperature": None, "weight": "some"})


@pytest.mark.parametrize("heading", ["sweetener", "acid", "ingredient"])
def test_an_unknown_name_is_a_finding_about_its_own_column(heading: str) -> None:
    (unknown,) = (hit for hit in hits((heading, "xyzzy")) if hit.rule.id == "ingredient-unknown")
    assert unknown.subject == heading


def test_ground_meat_holds_a_quarter_ounce_of_nitrite_in_100_lb_and_no_rounding_more() -> None:
    """9 CFR 424.21(c): 156.25 ppm; that is 25 g of a cure with 6.25 % in 10 kg."""
    row = {**CURED, "cure strength": 0.0625, "cure method": "comminuted"}
    assert "nitrite-over-limit" not in found({**row, "cure": 25.0})
    assert "nitrite-over-limit" in found({**row, "cure": 25.024})


@pytest.mark.parametrize(("product", "told"), [("chicken breast", "165 °F"), ("lean beef", "155 °F")])
def test_each_product_is_told_how_hot_it_must_get_and_nothing_of_others(product: str, told: str) -> None:
    """Food Code 3-401.11, read: 165 °F for poultry, 155 °F for other injected meat."""
    sentence = said({"product": product, "method": "injected"}, "cook-through")
    assert told in sentence
    assert sentence.count("°F") == 1


def test_a_vessel_with_a_figure_anywhere_in_it_is_a_volume_that_cannot_be_read():
    """Not a name to be passed over: the vessel may be too small for what goes into it."""
    made = read({"vessel": "big pot 20 L"})
    assert [(each.column.name, each.text) for each in made.unread] == [("vessel", "big pot 20 L")]
    assert read({"vessel": "big pot"}).text("vessel") == "big pot"


def test_an_acid_by_its_level_has_the_weight_that_goes_with_the_water():
    made = read({"water": 2000.0, "acid": "citric acid", "acid level": 0.005})
    assert [(thing.ratio, thing.grams) for thing in made.things] == [(0.005, pytest.approx(10.0))]


@pytest.mark.parametrize(("heading", "grams"), [("citric acid (oz)", 28.349523125), ("citric acid, kg", 1000.0)])
def test_a_unit_in_the_name_of_an_ingredient_holds_for_the_bare_number_below_it(heading: str, grams: float) -> None:
    made = read({"water": 2000.0, heading: 1.0})
    assert [(thing.grams, thing.ratio) for thing in made.things] == [(grams, pytest.approx(grams / 2000.0))]


@each(
    ("columns", "grams"),
    [
        ((("cure 1", 8.0), ("cure 2", 8.0)), [16.0]),
        ((("cure", 8.0), ("pink salt", 8.0)), [16.0]),
        ((("cure", "8 g"), ("cure mass", "0.5 oz")), [8.0 + 28.349523125 / 2]),
        ((("cure", 8.0), ("cure", 9.0)), [9.0]),
        ((("cure (g)", 8.0), ("cure (oz)", 0.5)), [28.349523125 / 2]),
        ((("cure", 8.0), ("cure 2", 0)), [8.0]),
        ((("cure 1", 8.0), ("cure 2", 9.0), ("cure name 1", "cure 1"), ("cure name 2", "saltpetre")), [8.0, 9.0]),
        ((("cure 1", 8.0), ("cure 2", 9.0), ("cure name 2", "saltpetre")), [9.0, 8.0]),
        ((("cure 1", 8.0), ("cure 2", 9.0), ("cure name", "cure 1")), [17.0]),
        ((("cure", 8.0), ("cure name", "cure 1")), [8.0]),
        ((("cure", 8.0), ("cure name", "cure 1"), ("cure grade", "saltpetre")), [8.0, 8.0]),
    ],
)
def test_curing_salt_in_several_columns_is_added_up(
    columns: tuple[tuple[str, object], ...], grams: list[float]
) -> None:
    """Under one heading twice it is one dose in two units, and the larger counts."""
    made = rows.read([heading for heading, _ in columns], [cell for _, cell in columns])
    assert [thing.grams for thing in made.cures] == pytest.approx(grams)


def test_two_columns_of_curing_salt_are_held_to_the_limit_together() -> None:
    """16 g of 6.25 % in 5 kg is 200 ppm; 9 CFR 424.21(c) allows a quarter ounce in 100 lb, 156.25."""
    row = {"product": "lean pork shoulder", "weight": 5000.0, "cure method": "comminuted"}
    assert "nitrite-over-limit" in found({**row, "cure 1": 8.0, "cure 2": 8.0})
    assert "nitrite-over-limit" in found({**row, "cure": 8.0, "pink salt": 8.0})
    assert "nitrite-over-limit" not in found({**row, "cure": 8.0})


LIQUID = [{"ingredient": "vinegar", "level": "{}"}, {"acid": "vinegar", "acid level": "{}"}, {"vinegar": "{}"},
          {"ingredient": "buttermilk", "level": "{}"}, {"ingredient": "apple juice", "level": "{}"}]  # fmt: skip
SOLID = [{"ingredient": "honey", "level": "{}"}, {"sweetener": "honey", "sweetener level": "{}"},
         {"acid": "citric acid", "acid level": "{}"}, {"honey": "{}"}]  # fmt: skip


@each("share", ["99%", "100%", "250%", "1000%"])
@each("row", LIQUID)
def test_of_a_liquid_there_may_be_as_much_as_water_and_more(row, share):
    """BRINE_DOSE weighs it out, so a row with it has to be read."""
    cells = {"water": 1000.0, **{heading: cell.format(share) for heading, cell in row.items()}}
    read = rows.read(list(cells), list(cells.values()))
    assert not read.unread
    assert [thing.ratio for thing in read.things] == [pytest.approx(float(share[:-1]) / 100.0)]
    name = next(cell for cell in (*row.values(), "vinegar") if cell != "{}")
    assert registry.call("DOSE", 1000, share, name) == pytest.approx(read.things[0].grams)


@each("share", ["100%", "250%"])
@each("row", SOLID)
def test_of_anything_else_there_is_less_than_water(row, share):
    cells = {"water": 1000.0, **{heading: cell.format(share) for heading, cell in row.items()}}
    (unread,) = rows.read(list(cells), list(cells.values())).unread
    assert "which is no liquid" in unread.reason


@pytest.mark.parametrize("row", [{"ingredient": "vinegar", "level": "1001%"}, {"ingredient": "magic", "level": "100%"}])
def test_more_than_can_be_poured_and_what_no_table_knows_is_not_read(row):
    assert len(rows.read(list(row), list(row.values())).unread) == 1


@pytest.mark.parametrize("heading", ["sweetener level", "acid level"])
def test_a_level_without_a_name_is_read_all_the_same(heading):
    (unread,) = rows.read([heading], ["lots"]).unread
    assert unread.reason == "must be a share; write it as 5% or 0.05"
    assert not rows.read([heading], ["5%"]).unread


def test_the_level_of_a_sweetener_or_acid_may_be_its_mass():
    """As the table of headings says of the sweetener's."""
    for heading, name in (("sweetener", "honey"), ("acid", "vinegar")):
        (thing,) = rows.read(["water", heading, f"{heading} level"], [1000.0, name, "50 g"]).things
        assert (thing.grams, thing.ratio) == (50.0, 0.05)


@pytest.mark.parametrize("heading", ["peklosol (g)", "powder #1", "sel rosé, g"])
def test_a_column_headed_with_a_curing_salt_of_another_name_is_one(heading: str) -> None:
    made = read({"weight": 5000.0, heading: "48 g"})
    assert [thing.grams for thing in made.cures] == [48.0]
    assert "nitrite-cola" in found({heading: "48 g", "liquid": "cola"})
    assert not read({heading: 0}).cures
    assert not read({"cure room": "A3", "house curing shelf": "A3"}).cures


def test_an_acid_by_its_mass_needs_no_water_to_be_weighed() -> None:
    row = {"product": "peeled shrimp", "acid": "baking soda", "acid level": "5 g", "weight": 1000.0}
    assert found(row) == []
    assert "no-amount" in found({**row, "acid level": None})


@each(
    "cell, least, most",
    [
        ("1 to 12 days", 24.0, 288.0), ("8-12 h max", 8.0, 12.0), ("up to 12 days", 0.0, 288.0), ("9 h", 9.0, 9.0),
        ("about 9 h", 9.0, 9.0), ("9 h or so", 9.0, 9.0), ("≤ 9 h", 0.0, 9.0), (9, 9.0, 9.0), ("overnight", 8.0, 8.0),
    ],
)  # fmt: skip
def test_a_range_keeps_both_ends(cell: object, least: float, most: float) -> None:
    found = read({"soak hours": cell})
    assert (found.least("soak hours"), found.number("soak hours")) == (least, most)


def test_of_two_columns_the_shorter_and_the_longer_are_kept() -> None:
    found = rows.read(["rest hours", "rest hours"], [24, 2])
    assert (found.least("rest hours"), found.number("rest hours"), found.least("soak hours")) == (2.0, 24.0, None)


SEALED = {"product": "cucumber", "packaging": "sealed jar"}
SMOKED_FISH = {"product": "salmon fillet", "treatment": "smoked", "packaging": "vacuum"}
PUMPED = {"product": "lean pork shoulder", "weight": 10000.0, "pickle": 2000.0, "cure": 40.0, "cure method": "pumped"}
"""125 ppm at a gain of 10 %, 250 at 20 %; 200 is the limit on what is pumped (9 CFR 424.21(c))."""


@each("told", ["4.4-4.9", "4.9-4.4", "pH 4.4 to 4.9", "4,4 – 4,9", "4.4 or 4.9", "4.4/4.9"])
def test_of_two_ph_each_rule_goes_by_the_worse(told: str) -> None:
    """4.6 is the highest pH of acidified food (21 CFR 114.3); a cure needs 5 or more, so here the lower one counts."""
    assert "sealed-low-acid" in found({**SEALED, "ph": told})
    assert "nitrite-ph" in found({**CURED, "ph": told.replace("4.9", "5.9").replace("4,9", "5,9")})


def test_of_two_columns_of_ph_each_rule_goes_by_the_worse() -> None:
    for first, second in ((4.4, 5.9), (5.9, 4.4)):
        closed = hits(*SEALED.items(), ("ph", first), ("brine ph", second))
        cured = hits(*CURED.items(), ("ph", first), ("brine ph", second))
        assert "sealed-low-acid" in [hit.rule.id for hit in closed]
        assert "nitrite-ph" in [hit.rule.id for hit in cured]


@each("told", ["4.4 at 20 °C", "4.4 (meter 2)", "4.4, 20 °C", "<4.4"])
def test_a_figure_beside_the_ph_is_no_second_ph(told: str) -> None:
    assert "sealed-low-acid" not in found({**SEALED, "ph": told})


@each(
    ("rule", "row", "heading", "other", "harmless", "worse"),
    [
        ("packed-without-air", {"product": "pork chop"}, "packaging", "storage", "tray", "vacuum"),
        ("sealed-low-acid", {"product": "cucumber"}, "packaging", "storage", "tub", "pantry"),
        ("vessel-toxic", {"product": "pork chop"}, "vessel material", "material", "stainless", "copper"),
        ("cook-through", {"product": "pork loin"}, "treatment", "preparation", "thawed", "needled"),
        ("brine-reused", {"product": "pork chop"}, "reused", "used brine", "fresh", "yes"),
        ("brine-old", {"product": "pork chop"}, "brine age", "brine made", "24 h", "240 h"),
        ("fish-salt-low", SMOKED_FISH, "water phase salt", "wps", "4%", "2%"),
        ("nitrite-over-limit", PUMPED, "gain", "pump", "10%", "20%"),
    ],
)
def test_what_the_second_column_of_a_heading_says_is_heard_too(rule, row, heading, other, harmless, worse) -> None:
    for first, second in ((harmless, worse), (worse, harmless)):
        told = [hit.rule.id for hit in hits(*row.items(), (heading, first), (other, second))]
        assert rule in told, (first, second)
    assert rule not in [hit.rule.id for hit in hits(*row.items(), (heading, harmless), (other, harmless))]


def test_a_jar_in_one_column_and_the_fridge_in_the_next_is_a_cold_jar() -> None:
    told = [hit.rule.id for hit in hits(("product", "cucumber"), ("packaging", "jar"), ("storage", "fridge"))]
    assert "sealed-cold" in told
    assert "sealed-low-acid" not in told


@each(
    ("heading", "other", "one", "another"),
    [("rules", "jurisdiction", "US", "EU"), ("kind", "cure kind", "general", "bacon"),
     ("method", "process", "soak", "dry equilibrium")],
)  # fmt: skip
def test_two_columns_that_contradict_each_other_are_told(heading: str, other: str, one: str, another: str) -> None:
    (unread,) = rows.read([heading, other], [one, another]).unread
    assert (unread.column.name, unread.text) == (heading, another)
    assert "cell-unreadable" in [hit.rule.id for hit in hits((heading, one), (other, another))]
    assert rows.read([heading, other], [one, f" {one.upper()} "]).unread == []


def test_two_curing_methods_in_one_row_stop_it() -> None:
    told = hits(*CURED.items(), ("curing method", "pumped"))
    (hit,) = (hit for hit in told if hit.rule.id == "cure-error")
    assert 'holds "pumped"' in hit.sentence
    assert "one column" in hit.sentence
    assert "cure-error" not in [hit.rule.id for hit in hits(*CURED.items(), ("curing method", "Dry"))]
