"""The recipe: a brine typed on the page and a batch of the plan, checked by arithmetic done here."""

from __future__ import annotations

import math

import pytest
from each import each
from priced import WATER, Book, expected, place, price_row, typed, used_in

from brinecalc import registry
from brinecalc.hosts.headless import reasons
from brinecalc.tables import load
from brinecalc.workbook import example
from brinecalc.workbook.sheets import recipe

PRODUCT_DENSITY = 1.05  # g/mL, judgement, as the function that fills vessels states


def how_of(book: Book, name: str) -> str:
    """How that line is added, in the list of steps."""
    rows = range(recipe.LAST, recipe.LAST + 40)
    return next(book.at(recipe.SHEET, f"E{row}") for row in rows if book.at(recipe.SHEET, f"B{row}") == name)


SUGARS = {"honey": 0.8212, "apple juice": 0.0962}
"""Sugar of what sweetens the typed brine: the food composition record of each."""


def lines_of(book: Book) -> dict[str, dict[str, object]]:
    """Name → what stands in its line of the recipe."""
    heads = {"D": "name", "E": "role", "F": "level", "G": "low", "H": "high", "I": "ceiling", "J": "shown", "K": "unit",
             "L": "cost", "M": "says", "O": "grams", "R": "step"}  # fmt: skip
    found = {}
    for row in range(recipe.TOP, recipe.LAST + 1):
        line = {key: book.at(recipe.SHEET, f"{column}{row}") for column, key in heads.items()}
        if line["name"]:
            found[line["name"]] = line
    return found


def refusal(book: Book) -> str:
    """Why the first line is refused, below all of them."""
    return book.at(recipe.SHEET, f"A{recipe.LAST + 2}")


def brought_by(lines: list[tuple[str, float]]) -> float:
    """Water that vinegars and juices bring, as a share of the brine's water."""
    held = {row["name"]: float(row["water"]) for row in load.rows("ingredients") if row["role"] in ("vinegar", "juice")}
    return math.fsum(level * held.get(name, 0.0) for name, level in lines)


def test_a_typed_brine_fills_its_vessel_round_the_product(book):
    lines = lines_of(book)
    room = 20000 * 0.9 - 6000 / PRODUCT_DENSITY
    water = room * WATER
    poured = lines["water"]["grams"] + lines.get("ice", {"grams": 0.0})["grams"]
    assert poured == pytest.approx(water * (1 - brought_by(example.RECIPE_LINES)), rel=1e-5)
    assert lines["salt"]["grams"] == pytest.approx(0.05 * water, rel=1e-5)
    for name, level in example.RECIPE_LINES:
        assert lines[name]["level"] == level
        assert lines[name]["grams"] == pytest.approx(level * water, rel=1e-5)
        assert lines[name]["says"] == "ok"
        row = price_row(name)
        assert lines[name]["cost"] == pytest.approx(lines[name]["grams"] * book.of("price_cost", row))
    total = sum(line["grams"] for line in lines.values())
    levels = sum(level for _, level in example.RECIPE_LINES)
    assert total == pytest.approx(water * (1.05 + levels - brought_by(example.RECIPE_LINES)), rel=1e-5)


def test_readings_of_a_typed_brine(book):
    shown = expected(book)
    assert shown["Strength, of the water"] == 0.05
    lines = lines_of(book)
    sugar = sum(SUGARS[name] * lines[name]["grams"] for name in SUGARS) / sum(line["grams"] for line in lines.values())
    reads = shown["Salt meter, of the solution"]
    assert reads < 5 / 105  # sugar slows the current
    assert registry.call("METER", reads, "salt meter", "", "water", sugar) == pytest.approx(0.05, rel=0.002)
    assert shown["Salometer, at 60 °F"] == pytest.approx(
        100 * (5 / 105) / 0.26395, rel=1e-6
    )  # 100° = 26.395 %, definition
    assert shown["Density at 20 °C, salt alone"] == pytest.approx(
        1.0324, abs=3e-4
    )  # CRC Handbook, NaCl, 4.76 %, interpolated
    assert shown["Vessel"] == "fits"
    cost = sum(line["cost"] for line in lines.values())
    assert shown["Cost"] == pytest.approx(cost)
    assert shown["per L"] == pytest.approx(cost / shown["Volume at 20 °C"])
    assert 5 < shown["pH, fresh and before the product"] < 8.5


@pytest.mark.parametrize("strength", [None, 0.0])
def test_a_sweetener_typed_before_the_strength_breaks_no_cell(book, strength):
    with book.supposing({**typed(book, [("honey", 0.02)]), book.cell("recipe_strength"): strength}):
        made = {cell: value for cell, value in book.everything().items() if cell[0] == recipe.SHEET}
        assert [cell for cell, value in made.items() if reasons.error_text(value)] == []
        assert lines_of(book)["honey"]["grams"] > 0
        assert expected(book)["Salt meter, of the solution"] == 0.0


READINGS = (
    "Strength, of the water",
    "Salt meter, of the solution",
    "Salometer, at 60 °F",
    "Hydrometer, 60/60 °F, salt alone",
    "Density at 20 °C, salt alone",
)


@each("strength", [0.36, 0.6, 5.0, -0.1])
def test_a_brine_that_cannot_be_shows_no_reading(book, strength):
    with book.supposing({book.cell("recipe_strength"): strength}):
        shown = expected(book)
        assert {words: shown[words] for words in READINGS} == dict.fromkeys(READINGS, "")
        assert lines_of(book)["salt"]["shown"] == "refused"
        assert refusal(book).startswith("Strength must be")


def test_a_meter_is_not_foretold_while_a_line_is_refused(book):
    """The sugar of the brine is not known then; what salt alone makes still is."""
    with book.supposing(typed(book, [("honey", 0.02), ("citric acid", 3.0)])):
        assert lines_of(book)["citric acid"]["shown"] == "refused"
        shown = expected(book)
        assert shown["Salt meter, of the solution"] == ""
        assert shown["Salometer, at 60 °F"] == pytest.approx(100 * (5 / 105) / 0.26395, rel=1e-6)


@pytest.mark.parametrize(
    ("changes", "factor_of"),
    [({"recipe_scale": "water", "recipe_water": 5.0}, lambda water: 5000 * WATER / water),
     ({"recipe_scale": None, "recipe_water": 5.0}, lambda water: 5000 * WATER / water),
     ({"recipe_scale": "product weight", "recipe_weight": 9.0}, lambda water: 9000 / water),
     ({"recipe_scale": "product weight", "recipe_weight": 9.0, "recipe_ratio": 0.5}, lambda water: 4500 / water),
     ({"recipe_scale": "vessel", "recipe_vessel": 10.0, "recipe_weight": None}, lambda water: 9000 * WATER / water)],
)  # fmt: skip
def test_a_typed_brine_scales_by_water_vessel_or_product(book, changes, factor_of):
    before = lines_of(book)
    poured = before["water"]["grams"] + before["ice"]["grams"]
    water = poured / (1 - brought_by(example.RECIPE_LINES))
    factor = factor_of(water)
    with book.supposing({book.cell(name): value for name, value in changes.items()}):
        after = lines_of(book)
        for name in before:
            assert after[name]["grams"] == pytest.approx(before[name]["grams"] * factor, rel=1e-5)


def test_a_batch_comes_as_planned_and_costs_what_it_costs(book):
    for batch, cells in enumerate(example.BATCHES, 1):
        with book.supposing({book.cell("recipe_batch"): float(batch), book.cell("recipe_scale"): None}):
            lines = lines_of(book)
            if book.of("w_says", batch) == "STOP":
                assert lines == {}
                assert "STOP" in book.at(recipe.SHEET, "A3")
                continue
            needs = {name: grams[batch] for name, grams in used_in(book).items() if batch in grams}
            product = needs.pop(cells["product"])
            assert {name: line["grams"] for name, line in lines.items()} == pytest.approx(needs, rel=1e-9)
            reads = expected(book)["Salt meter, of the solution"]
            assert reads == book.of("w_shows", batch)  # as Results and the card have it
            cost = product * book.of("price_cost", price_row(cells["product"]))
            assert sum(line["cost"] for line in lines.values()) + cost == pytest.approx(
                book.of("w_cost", batch), rel=1e-9
            )


def test_a_batch_scales_with_its_product_and_into_a_vessel(book):
    batch = 1
    planned = {name: grams[batch] for name, grams in used_in(book).items() if batch in grams}
    weight = planned.pop("chicken breast")
    given = {
        book.cell("recipe_batch"): float(batch),
        book.cell("recipe_scale"): "product weight",
        book.cell("recipe_weight"): 20.0,
    }
    with book.supposing(given):
        lines = lines_of(book)
        assert {name: line["grams"] for name, line in lines.items()} == pytest.approx(
            {name: grams * 20000 / weight for name, grams in planned.items()}, rel=1e-9
        )
    given |= {book.cell("recipe_scale"): "vessel", book.cell("recipe_vessel"): 40.0}
    with book.supposing(given):
        lines = lines_of(book)
        water = lines["water"]["grams"] + lines["ice"]["grams"]
        product = water / (planned["water"] + planned["ice"]) * weight
        assert water / WATER + product / PRODUCT_DENSITY == pytest.approx(40000 * 0.9, rel=1e-5)


def test_a_recipe_by_product_weight_holds_the_setting_on_start_to_its_limits(book):
    given = {book.cell("recipe_scale"): "product weight", book.cell("recipe_weight"): 9.0}
    with book.supposing({**given, book.cell("recipe_ratio"): None, book.cell("bath_ratio"): 100.0}):
        words = "Brine water per weight of product, on Start, must be at least 0.2 and at most 20, got 100; type 1 for"
        assert words in book.at(recipe.SHEET, "A3")
        assert lines_of(book) == {}
        with book.supposing({book.cell("recipe_ratio"): 0.5}):
            assert "on Start" not in book.at(recipe.SHEET, "A3")
            assert "water" in lines_of(book)


def test_a_dry_cure_scales_by_product_only_and_asks_for_no_water(book):
    batch = next(n for n, cells in enumerate(example.BATCHES, 1) if cells["method"] == "dry equilibrium")
    given = {
        book.cell("recipe_batch"): float(batch),
        book.cell("recipe_scale"): "water",
        book.cell("recipe_water"): 5.0,
    }
    with book.supposing(given):
        assert lines_of(book) == {}
        assert "a dry cure has no brine" in book.at(recipe.SHEET, "A3")
    with book.supposing({book.cell("recipe_batch"): float(batch), book.cell("recipe_scale"): None}):
        lines = lines_of(book)
        assert "water" not in lines
        assert lines["salt"]["step"] == 1
        assert lines["curing salt no. 1"]["step"] == 2
        assert expected(book)["Salt meter, of the solution"] == ""
        assert book.at(recipe.SHEET, f"F{recipe.TOP - 1}") == "of the product"
        assert book.at(recipe.SHEET, f"I{recipe.TOP + recipe.SALT}") == ""  # how much water dissolves is no ceiling
        assert "All that is rubbed in" in expected(book)
    assert book.at(recipe.SHEET, f"F{recipe.TOP - 1}") == "of the water"
    assert book.at(recipe.SHEET, f"I{recipe.TOP + recipe.SALT}") == pytest.approx(0.359, abs=0.001)
    assert "Whole brine, ice included" in expected(book)


def test_an_ingredient_above_its_legal_ceiling_is_refused_in_words(book):
    with book.supposing(typed(book, [("honey", 0.02), ("sodium tripolyphosphate", 0.02)])):
        line = lines_of(book)["sodium tripolyphosphate"]
        assert line["shown"] == "refused"
        assert line["says"] == "REFUSED: see below"
        assert line["ceiling"] == 0.005  # 9 CFR 424.21(c): 0.5 % of the finished product
        assert "legal ceiling" in refusal(book)
        assert "BRINE_DOSE" not in refusal(book)
        assert expected(book)["Cost"] == "not complete"
        assert expected(book)["pH, fresh and before the product"] == ""
        assert lines_of(book)["honey"]["grams"] > 0


FOAMS = "Vinegar and baking soda foam up"


@each(
    ("name", "level", "words"),
    [
        ("star anise", "ca. 5", 'Level must be a share, got "ca. 5"; write it like 0.2%.'),
        ("star anise", 5.0, "Level must be below 100 % for star anise"),
        ("star anis", 0.001, 'Ingredient is not a known ingredient, got "star anis"; did you mean "star anise"?'),
    ],
)
def test_a_line_that_cannot_be_read_says_why_and_hides_no_finding_of_the_others(book, name, level, words):
    given = [("vinegar", 0.1), ("baking soda", 0.01), (name, level)]
    with book.supposing(typed(book, given)):
        assert lines_of(book)[name]["says"] == "REFUSED: see below"
        assert refusal(book).startswith(words)
        assert FOAMS in told(book)
        assert lines_of(book)["vinegar"]["grams"] > 0
    with book.supposing(typed(book, given[::2])):
        assert FOAMS not in told(book)
        assert "CAUTION" in told(book)  # of that line itself, where no other has one


def test_of_several_lines_refused_the_first_is_told_and_the_others_are_counted(book):
    lines = [("star anise", "ca. 5"), ("star anis", 0.001), ("honey", 2.0)]
    for many, words in (
        (1, "0.2%."),
        (2, "0.2%. After that 1 more is refused."),
        (3, "After that 2 more are refused."),
    ):
        with book.supposing(typed(book, lines[:many])):
            assert refusal(book).endswith(words)


def test_a_strength_that_cannot_be_read_says_why_and_hides_no_finding_of_the_lines(book):
    given = typed(book, [("vinegar", 0.1), ("baking soda", 0.01)])
    with book.supposing({**given, book.cell("recipe_strength"): "ca. 5"}):
        assert refusal(book).startswith('Strength must be a share, got "ca. 5"')
        assert FOAMS in told(book)
        assert {words: expected(book)[words] for words in READINGS} == dict.fromkeys(READINGS, "")
    with book.supposing({**given, book.cell("recipe_strength"): "5%"}):
        assert expected(book)["Strength, of the water"] == 0.05
        assert lines_of(book)["salt"]["level"] == pytest.approx(0.05)


@each(("level", "says"), [("0.2%", "ok"), ("0.3%", "ok"), ("0.4 %", "above the usual"), ("0.6%", "over the ceiling")])
def test_a_level_that_was_typed_as_text_is_weighed_and_judged_as_the_share_it_is(book, level, says):
    with book.supposing(typed(book, [("star anise", level), ("honey", 0.02)])):
        line, honey = lines_of(book)["star anise"], lines_of(book)["honey"]
        assert line["grams"] == pytest.approx(honey["grams"] * float(level.strip(" %")) / 2, rel=1e-6)
        assert line["says"].startswith(says)


@pytest.mark.parametrize("name", ["curing salt no. 1", "lye", "sulphuric acid"])
def test_what_is_never_dosed_by_the_water_is_refused(book, name):
    with book.supposing(typed(book, [(name, 0.002)])):
        assert lines_of(book)[name]["shown"] == "refused"
        assert expected(book)["Cost"] == "not complete"
        assert refusal(book)[:1].isupper()
        assert "BRINE_DOSE" not in refusal(book)


def test_levels_are_held_against_the_usual(book):
    given = [("fresh dill", 0.06), ("fresh thyme", 0.025), ("honey", 0.002), ("bay leaf", 0.0), ("vinegar", 0.05)]
    with book.supposing(typed(book, given)):
        lines = lines_of(book)
        assert lines["fresh thyme"]["says"] == "above the usual"
        assert lines["honey"]["says"] == "below the usual"
        assert lines["bay leaf"]["says"] == "type its level"
        assert lines["fresh dill"]["says"].startswith("over the ceiling: taste")
        assert lines["vinegar"]["says"] == "ok"


def test_the_salt_of_a_cured_batch_is_not_called_too_little(book):
    """A curing salt with 0.6 % of nitrite brings most of the salt itself: 95 ppm bring 16 g to the kilogram."""
    brisket = 1 + next(at for at, cells in enumerate(example.BATCHES) if cells["product"] == "beef brisket")
    given = {place("cure", brisket): "nitrite salt 0.6 %", place("cure_ppm", brisket): 95.0}
    with book.supposing({**given, book.cell("recipe_batch"): float(brisket)}):
        salt = lines_of(book)["salt"]
        assert salt["level"] < salt["low"]
        assert salt["says"] == "ok, with the cure's own"


def test_things_go_in_in_their_order_once_each(book):
    given = [
        ("vinegar", 0.05),
        ("bay leaf", 0.0005),
        ("citric acid", 0.001),
        ("honey", 0.02),
        ("sodium tripolyphosphate", 0.002),
    ]
    with book.supposing(typed(book, given)):
        lines = lines_of(book)
        steps = {name: line["step"] for name, line in lines.items()}
        assert sorted(steps.values()) == list(range(1, len(lines) + 1))
        ordered = sorted(steps, key=steps.get)
        wanted = ["water", "sodium tripolyphosphate", "salt", "honey", "bay leaf", "vinegar", "ice", "citric acid"]
        assert how_of(book, "salt").startswith("after the phosphate, in the warm part")
        assert ordered == wanted
        top = (
            next(row for row in range(recipe.LAST, recipe.LAST + 30) if book.at(recipe.SHEET, f"A{row}") == "Step") + 1
        )
        assert [book.at(recipe.SHEET, f"B{top + n}") for n in range(len(wanted))] == wanted
        assert "before the salt" in book.at(recipe.SHEET, f"E{top + 1}")
        assert "curing salt" in book.at(recipe.SHEET, f"K{top + 5}")
        assert book.at(recipe.SHEET, f"B{top + len(wanted)}") == ""


def test_a_liquid_stands_in_for_the_water_by_the_water_it_holds(book):
    with book.supposing({**typed(book, []), book.cell("recipe_liquid"): "cola", book.cell("recipe_scale"): "water",
                         book.cell("recipe_water"): 5.0}):  # fmt: skip
        lines = lines_of(book)
        assert set(lines) == {"cola", "salt"}
        assert lines["cola"]["grams"] == pytest.approx(
            5000 * WATER / 0.8962, rel=1e-4
        )  # USDA SR27 14148, 89.62 % water
        assert 2 < expected(book)["pH, fresh and before the product"] < 3


def test_the_water_of_a_vinegar_is_water_of_a_typed_brine_and_of_the_plan_alike(book):
    """Independent: the brine's water is what was typed; what the vinegar holds is not poured again."""
    held = next(float(row["water"]) for row in load.rows("ingredients") if row["name"] == "vinegar")
    acid, level, water = "vinegar", 0.10, 5000 * WATER
    with book.supposing({**typed(book, [(acid, level)]), book.cell("recipe_scale"): "water",
                         book.cell("recipe_water"): 5.0}):  # fmt: skip
        alone = lines_of(book)
        readings = expected(book)
        assert how_of(book, "salt").startswith("in the warm part")  # there is no phosphate
    poured = alone["water"]["grams"] + alone["ice"]["grams"]
    assert alone[acid]["grams"] == pytest.approx(level * water, rel=1e-5)
    assert poured == pytest.approx(water * (1 - level * held), rel=1e-5)
    assert alone["salt"]["grams"] == pytest.approx(0.05 * water, rel=1e-5)
    total = water * (1 - level * held + level + 0.05)
    assert readings["Whole brine, ice included"] == pytest.approx(total / 1000, rel=1e-5)
    others = ("aroma_one", "aroma_one_level", "aroma_two", "aroma_two_level", "sweetener", "sweet_level", "phosphate",
              "phosphate_level", "cure", "cure_ppm", "liquid")  # fmt: skip
    blank = {place(key, 1): None for key in others}
    with book.supposing({**blank, place("acid", 1): acid, place("acid_level", 1): level}):
        share = book.of("w_poured", 1) / book.of("w_water", 1)
        assert poured / water == pytest.approx(share, rel=1e-5)
        with book.supposing({book.cell("recipe_batch"): 1.0, book.cell("recipe_scale"): None}):
            planned = lines_of(book)
            ice = planned.get("ice", {"grams": 0.0})["grams"]
            assert planned["water"]["grams"] + ice == pytest.approx(book.of("w_poured", 1), rel=1e-9)


def test_a_dry_acid_brings_no_water(book):
    with book.supposing({**typed(book, [("citric acid", 0.002)]), book.cell("recipe_scale"): "water",
                         book.cell("recipe_water"): 5.0}):  # fmt: skip
        lines = lines_of(book)
        assert lines["water"]["grams"] + lines["ice"]["grams"] == pytest.approx(5000 * WATER, rel=1e-5)


def test_an_unpriced_line_leaves_the_recipe_open(book):
    with book.supposing({place("price_price", price_row("honey")): None}):
        assert lines_of(book)["honey"]["cost"] == "no price"
        assert expected(book)["Cost"] == "not complete"
        assert expected(book)["per L"] == "not complete"


@each("shown", ["metric", "US"])
def test_curing_salt_is_weighed_in_grams_in_any_units(book, shown):
    """As on Results and on the card; a large batch in grams, too."""
    cured = [row for row in range(1, 16) if book.of("cure", row) and book.of("w_says", row) != "STOP"]
    assert cured
    for batch in cured:
        made = {"recipe_batch": float(batch), "recipe_scale": "product weight", "recipe_weight": 500.0}
        with book.supposing({book.cell("shown_units"): shown, **{book.cell(k): v for k, v in made.items()}}):
            line = next(line for name, line in lines_of(book).items() if name.startswith("curing salt"))
            assert line["unit"] == "g"
            assert line["shown"] == line["grams"] > 0
            step = next(row for row in range(recipe.LAST, recipe.LAST + 40)
                        if "curing salt" in str(book.at(recipe.SHEET, f"B{row}")))  # fmt: skip
            assert book.at(recipe.SHEET, f"C{step}") == line["grams"]
            assert book.at(recipe.SHEET, f"D{step}").startswith("g ")


def test_results_shown_in_us_units_describe_the_same_brine_and_order(book):
    metric, lines, total = expected(book), book.named("order_lines"), book.named("order_total")
    with book.supposing({book.cell("shown_units"): "US"}):
        us = expected(book)
        assert us["Cost"] == pytest.approx(metric["Cost"])
        assert us["Whole brine, ice included"] == pytest.approx(metric["Whole brine, ice included"] / 0.45359237)
        assert us["Volume at 20 °C"] == pytest.approx(metric["Volume at 20 °C"] / 0.946352946)
        assert book.named("order_lines") == lines
        assert book.named("order_total") == pytest.approx(total)


def told(book: Book) -> str:
    """What is said below the lines."""
    return " ".join(str(book.at(recipe.SHEET, f"A{row}")) for row in range(recipe.LAST + 4, recipe.LAST + 12))


@pytest.mark.parametrize(
    ("level", "rules", "words"),
    [(0.0064, "US", ""), (0.008, "US", "a pickle pumped at 10 %"), (0.008, "EU", "a pickle pumped at 10 %")],
)
def test_the_findings_of_a_recipe_know_what_it_is_used_for_and_by_whose_rules(book, level, rules, words):
    """9 CFR 424.21(c): 0.547 % of a pickle at 10 %; 0.64 % of water with 14 % salt and 3 % phosphate is 0.545 %."""
    lines = [("sodium erythorbate", level), ("sodium tripolyphosphate", 0.03)]
    given = {book.cell("recipe_product"): "lean beef", book.cell("recipe_strength"): 0.14, book.cell("rules"): rules}
    with book.supposing({**typed(book, lines), **given, book.cell("recipe_use"): "injection"}):
        assert ("legal ceiling" in told(book)) == bool(words)
        assert words in told(book)
        assert ("0.5 % of a pickle" in told(book)) == (rules == "EU" and bool(words))
    with book.supposing({**typed(book, lines), **given, book.cell("recipe_use"): "immersion"}):
        assert "REFUSED" in lines_of(book)["sodium tripolyphosphate"]["says"]


def test_the_findings_of_a_recipe_know_the_alkalinity_of_its_water(book):
    """0.2 g of citric acid in a kg is 3 meq; 250 mg/L of alkalinity are 5 meq/L, and hold the pH above 4.8."""
    given = {**typed(book, [("citric acid", 0.0002)]), book.cell("recipe_product"): "pork chop"}
    with book.supposing({**given, book.cell("recipe_alkalinity"): 250.0}):
        assert "mealy and chalky" not in told(book)
    with book.supposing({**given, book.cell("recipe_alkalinity"): 0.0}):
        assert "mealy and chalky" in told(book)
