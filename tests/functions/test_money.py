"""The money functions as a cell calls them. Values follow from price, pack and the definitions of the units."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry

NAMES = [["Salt"], ["Sugar"], ["Water"]]
PRICES = [[0.9], [1.2], [0]]


@each(
    ("arguments", "value"),
    [
        ((30, "25 kg"), 0.0012),
        ((30, "25 kg", "", "kg"), 1.2),
        ((30, "25 kg", 0.8, "kg"), 1.5),
        ((30, "25 kg", "80%", "kg"), 1.5),
        ((30, 25000, 1, "kg"), 1.2),
        ((30, 25, 1), 1.2),
        (("18,50", "1 kg", 1, "kg"), 18.5),
        ((36, "24 x 12 fl oz", 1, "fl oz"), 0.125),
        ((36, "24 x 12 fl oz cans", 1, "gal"), 16.0),
        ((30, "6 x 1 gal", 1, "gal"), 5.0),
        ((6, "dozen", 1, "each"), 0.5),
        ((6, "15 dozen", 1, "dozen"), 0.4),
        ((45, "50 lb", 1, "lb"), 0.9),
        ((2, "1 kg", 1, "100 g"), 0.2),
        ((0, "25 kg"), 0.0),
    ],
)
def test_a_unit_costs_its_part_of_the_pack(arguments, value):
    assert registry.call("BRINE_UNIT_COST", *arguments) == pytest.approx(value, rel=1e-12)
    assert registry.why("BRINE_UNIT_COST", *arguments) == "ok"


@each(
    ("arguments", "error", "parts"),
    [
        ((30, "1 gal"), "#VALUE!", ("per must be a volume like pack_size", '"L"', "BRINE_WEIGHT")),
        ((30, "1 gal", 1, "kg"), "#VALUE!", ('got "kg"', '"L"', "BRINE_WEIGHT")),
        ((30, "25 kg", 1, "L"), "#VALUE!", ('got "L"', '"kg"', "BRINE_VOLUME")),
        ((30, "dozen"), "#VALUE!", ("per must be a count", '"each"')),
        (
            (30, "each", 1, "kg"),
            "#VALUE!",
            ('write "each" for per, or give pack_size with the weight of one piece', 'such as "1 x 350 g"'),
        ),
        ((30, "dozen", 1, "L"), "#VALUE!", ('with the volume of one piece, such as "12 x 750 mL"',)),
        ((30, "5 kg", 1, "each"), "#VALUE!", ('write "kg" for per, or the weight of one piece, such as "350 g"',)),
        ((30, 24, 1, "each"), "#VALUE!", ('got "each"', "without a unit is grams")),
        ((30, "25 kg", 1, "t"), "#VALUE!", ("per ", '"t"', "tonne")),
        ((30, "25 kg", 1, "parsec"), "#VALUE!", ('"parsec"', "kg, mg, tonne")),
        ((30, "6/1 gal", 1, "gal"), "#VALUE!", ('got "6/1 gal"', '"6 x 1 gal"')),
        ((30, "1,000 g"), "#VALUE!", ('got "1,000 g"', '"1000 g"')),
        ((30, "0 kg"), "#NUM!", ("pack_size must be above 0", '"0 kg"')),
        ((30, -5), "#NUM!", ("pack_size must be above 0", "-5")),
        ((30, None), "#NUM!", ("pack_size must be above 0", "blank")),
        ((30, ""), "#VALUE!", ("pack_size is missing",)),
        ((30,), "#VALUE!", ("pack_size is missing",)),
        ((-1, "25 kg"), "#NUM!", ("pack_price must be at least 0", "-1")),
        (("$30", "25 kg"), "#VALUE!", ("pack_price must be a number, got", "currency")),
        (("30 kg", "25 kg"), "#VALUE!", ("pack_price", '"30 kg"', "without a unit")),
        ((True, "25 kg"), "#VALUE!", ("pack_price", "TRUE")),
        ((30, True), "#VALUE!", ("pack_size", "TRUE")),
        ((30, "25 kg", 0), "#NUM!", ("usable must be above 0 %",)),
        ((30, "25 kg", 90), "#NUM!", ("usable", "90%")),
        ((30, "25 kg", 1, "0 kg"), "#NUM!", ("per must be above 0",)),
        ((30, "#REF!"), "#REF!", ("#REF!",)),
        ((30, "9" * 1_000_000), "#VALUE!", ("pack_size", "too long")),
        ((30, "9**9**9 kg"), "#VALUE!", ("pack_size",)),
        ((1, 1, 1, "g", 1), "#VALUE!", ("at most 4 arguments",)),
    ],
)
def test_unit_cost_says_what_is_wrong(arguments, error, parts):
    assert registry.call("BRINE_UNIT_COST", *arguments) == error
    reason = registry.why("BRINE_UNIT_COST", *arguments)
    assert all(part in reason for part in parts), reason


def test_what_is_advised_of_pieces_can_be_typed():
    """By hand: 12 of 350 g for 21 are 5 a kilogram, and 1.75 each; 5 kg of them are 15 pieces, two dozen."""
    assert registry.call("BRINE_UNIT_COST", 21, "12 x 350 g", 1, "kg") == pytest.approx(5.0)
    assert registry.call("BRINE_UNIT_COST", 5, "1 kg", 1, "350 g") == pytest.approx(1.75)
    assert registry.call("BRINE_UNIT_COST", 7, "1 x 350 g", 1, "kg") == pytest.approx(20.0)
    assert registry.call("BRINE_PACKS", "5 kg", "12 x 350 g") == 2.0
    assert registry.call("BRINE_PACKS", "10 x 350 g", "1 kg") == 4.0


def test_unit_cost_goes_down_a_column_with_one_error_for_one_bad_cell():
    answer = registry.call("BRINE_UNIT_COST", [[30], [40], [12]], [["25 kg"], ["a lot"], ["dozen"]], 1, "kg")
    assert answer == [[1.2], ["#VALUE!"], ["#VALUE!"]]


@each(
    ("arguments", "value"),
    [
        ((60000, "25 kg"), 3.0),
        ((50000, "25 kg"), 2.0),
        (("60 kg", "25 kg"), 3.0),
        ((60, 25), 3.0),
        ((60000, "25 kg", 10000), 2.0),
        ((60000, "25 kg", "10 kg"), 2.0),
        ((60000, "25 kg", 70000), 0.0),
        ((60000, "25 kg", "", 0.8), 3.0),
        ((60000, "25 kg", "", 0.7), 4.0),
        ((0, "25 kg"), 0.0),
        ((None, "dozen"), 0.0),
        (("30 each", "dozen"), 3.0),
        (("30 each", "dozen", "6 each"), 2.0),
        (("30 each", "dozen", 0), 3.0),
        (("2 gal", "6 x 500 mL"), 3.0),
    ],
)
def test_packs_are_whole_and_cover_the_need(arguments, value):
    assert registry.call("BRINE_PACKS", *arguments) == value
    assert registry.why("BRINE_PACKS", *arguments) == "ok"


@each(
    ("arguments", "error", "parts"),
    [
        ((30, "dozen"), "#VALUE!", ("need must be a count like pack_size", "30 each")),
        ((5000, "1 gal"), "#VALUE!", ("need must be a volume", "5 L")),
        (("5 L", "25 kg"), "#VALUE!", ("need must be a mass", '"5 L"')),
        (("30 each", 24), "#VALUE!", ("without a unit is grams",)),
        (("30 each", "dozen", 6), "#VALUE!", ("on_hand must be a count",)),
        (("5 kg", "12 each"), "#VALUE!", ('or give pack_size with the weight of one piece, as "12 x 350 g"',)),
        ((5000, "each"), "#VALUE!", ("a number alone is grams", 'weight of one piece, as "1 x 350 g"')),
        (("10 each", "25 kg"), "#VALUE!", ('with the weight of one piece, such as "10 x 350 g"',)),
        ((-1, "25 kg"), "#NUM!", ("need must be at least 0",)),
        ((1, "25 kg", -1), "#NUM!", ("on_hand must be at least 0",)),
        ((1, 0), "#NUM!", ("pack_size must be above 0",)),
        ((1, "25 kg", "", 0), "#NUM!", ("usable must be above 0 %",)),
        ((1, "25 kg", "", 1.1), "#NUM!", ("usable",)),
        (("", "25 kg"), "#VALUE!", ("need is missing",)),
        (("lots", "25 kg"), "#VALUE!", ("need ", '"lots"')),
        (("#N/A", "25 kg"), "#N/A", ("#N/A",)),
        ((1e308, "0.000001 mg"), "#NUM!", ("too large",)),
    ],
)
def test_packs_says_what_is_wrong(arguments, error, parts):
    assert registry.call("BRINE_PACKS", *arguments) == error
    reason = registry.why("BRINE_PACKS", *arguments)
    assert all(part in reason for part in parts), reason


def test_packs_goes_over_a_price_list():
    assert registry.call("BRINE_PACKS", [["60 kg"], ["30 each"]], [["25 kg"], ["dozen"]]) == [[3.0], [3.0]]


@each(
    ("ingredients", "masses", "per", "value"),
    [
        ([["salt"], ["sugar"], ["water"]], [[500], [250], [10000]], "kg", 0.75),
        ([["SALT"], [None], ["sugars"]], [["500 g"], [None], ["0.25 kg"]], "kg", 0.75),
        ([["salt", "sugar"]], [[500, 250]], "kg", 0.75),
        ([["salt"], ["saffron"]], [[500], [0]], "kg", 0.45),
        ([["salt"], [""]], [[500], [""]], "kg", 0.45),
        ([["salt"]], [[2]], "", 1.8),
        ([["salt"]], [["1 lb"]], "lb", 0.9),
        ("salt", 200, "100 g", 1.8),
        ([["water"]], [["2 L"]], "kg", 0.0),
        ([[None]], [[None]], "kg", 0.0),
    ],
)
def test_a_batch_costs_masses_times_prices(ingredients, masses, per, value):
    assert registry.call("BRINE_COST", ingredients, masses, NAMES, PRICES, per) == pytest.approx(value, rel=1e-12)
    assert registry.why("BRINE_COST", ingredients, masses, NAMES, PRICES, per) == "ok"


@each(
    ("arguments", "error", "parts"),
    [
        (([["star anise"]], [[3]], NAMES, PRICES, "kg"), "#N/A", ("ingredients", '"star anise"', "price_names")),
        (([["slat"]], [[3]], NAMES, PRICES, "kg"), "#N/A", ('did you mean "Salt"',)),
        (([["salt"]], [[3]], [["salt"], ["x"]], [[None], [1]], "kg"), "#N/A", ('"salt"', "unit_costs")),
        (([["salt"]], [[3]], [["salt"], ["Salt"]], [[1], [2]], "kg"), "#VALUE!", ("price_names", 'two for "salt"')),
        (([["salt"], [None]], [[3], [4]], NAMES, PRICES), "#VALUE!", ("ingredients", "row 2")),
        (([["salt"]], [[3], [4]], NAMES, PRICES), "#VALUE!", ("masses", "as many cells")),
        (([["salt"]], [[-3]], NAMES, PRICES), "#NUM!", ("masses must be at least 0 g", "row 1")),
        (([["salt"]], [["1 cup"]], NAMES, PRICES), "#VALUE!", ("masses", '"1 cup" in row 1', "BRINE_WEIGHT")),
        (([["salt"]], [["#NUM!"]], NAMES, PRICES), "#NUM!", ("#NUM!",)),
        (([["salt"]], [[3]], NAMES, [[1], [2], ["#DIV/0!"]]), "#DIV/0!", ("#DIV/0!",)),
        (([["salt"]], [[3]], NAMES, PRICES, "L"), "#VALUE!", ("per must be a mass", '"L"', "BRINE_WEIGHT")),
        (([["salt"]], [[3]], NAMES, PRICES, "0 kg"), "#NUM!", ("per must be above 0 g",)),
        (([["salt"]], [[3]], NAMES, PRICES, "sack"), "#VALUE!", ("per ", '"sack"')),
        (([["salt"]], [[3]], NAMES), "#VALUE!", ("unit_costs is missing",)),
        (([["salt"]], [["3 each"]], [["salt"]], [[1]]), "#VALUE!", ("the weight of them all", 'got "3 each" in row 1')),
        (([["salt"]], [[3]], [["salt"]], [[1]], "each"), "#VALUE!", ("write kg or lb", "with the weight of one")),
        ((), "#VALUE!", ("ingredients is missing",)),
    ],
)
def test_cost_says_what_is_wrong(arguments, error, parts):
    assert registry.call("BRINE_COST", *arguments) == error
    reason = registry.why("BRINE_COST", *arguments)
    assert all(part in reason for part in parts), reason


def test_costs_are_proportional():
    mix = ([["salt"], ["sugar"]], [[3], [4]], NAMES, PRICES)
    double = ([["salt"], ["sugar"]], [[6], [8]], NAMES, PRICES)
    assert registry.call("BRINE_COST", *double) == 2 * registry.call("BRINE_COST", *mix)
