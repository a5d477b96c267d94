"""Pack sizes as purchasing writes them, and the sums made with them. Values follow from the definitions."""

from __future__ import annotations

import math

import pytest
from each import each
from hypothesis import example, given
from hypothesis import strategies as st

from brinecalc.errors import BrineError, OutOfRange, UnknownName, Unreadable
from brinecalc.trade import costing
from tests.refusals import Refusal, check

FLUID_OUNCE = 29.5735295625  # mL; NIST Handbook 44, Appendix C, from memory
GALLON = 3785.411784
POUND = 453.59237


@each(
    ("text", "value", "kind"),
    [
        ("25 kg", 25000, "mass"),
        ("50 lb bag", 50 * POUND, "mass"),
        ("24 x 12 fl oz", 24 * 12 * FLUID_OUNCE, "volume"),
        ("24x12 fl oz", 24 * 12 * FLUID_OUNCE, "volume"),
        ("24 × 12 fl oz cans", 24 * 12 * FLUID_OUNCE, "volume"),
        ("24 X 12 fl. oz. bottles", 24 * 12 * FLUID_OUNCE, "volume"),
        ("6 x 1 gal", 6 * GALLON, "volume"),
        ("4 x 1/2 gal", 2 * GALLON, "volume"),
        ("1/2 gal", GALLON / 2, "volume"),
        ("2 x 6 x 500 mL", 6000, "volume"),
        ("12 x 1 lb 8 oz", 12 * 1.5 * POUND, "mass"),
        ("10 x 2,5 kg", 25000, "mass"),
        ("dozen", 12, "count"),
        ("2 dozen", 24, "count"),
        ("15 x 1 dozen", 180, "count"),
        ("24 ct", 24, "count"),
        ("each", 1, "count"),
        ("kg", 1000, "mass"),
        ("100 g", 100, "mass"),
        ("30 m", 30000, "length"),
        ("25", 25, "mass"),
        (25.0, 25, "mass"),
        (25, 25, "mass"),
    ],
)
def test_pack_sizes_are_read_as_purchasing_writes_them(text, value, kind):
    found = costing.amount(text, "pack_size")
    assert found.value == pytest.approx(value, rel=1e-12)
    assert found.kind == kind


@each(
    ("text", "way"),
    [
        ("6/1 gal", '"6 x 1 gal"'),
        ("24/12 fl oz", '"24 x 12 fl oz"'),
        ("1/50 lb", '"1 x 50 lb"'),
        ("2/5 lb", '"2 x 5 lb"'),
        ("24 cans", "say how much one holds"),
        ("24 x 12", "say how much one holds"),
        ("24 x 12 cans", "say how much one holds"),
        ("24 * 12 fl oz", "write it as"),
        ("case", "say how much one holds"),
        ("1,000 g", '"1000 g"'),
        ("4 °C", "25 kg, 24 x 12 fl oz or 2 dozen"),
        ("5%", "25 kg, 24 x 12 fl oz or 2 dozen"),
        ("2 h", "25 kg, 24 x 12 fl oz or 2 dozen"),
        ("parsec", "the units known are"),
        ("", "the units known are"),
        ("9" * 1_000_000, "too long"),
        ("2 x " * 100, "too long"),
    ],
)
def test_other_pack_sizes_are_refused_with_the_way_to_write_them(text, way):
    with pytest.raises(Unreadable) as caught:
        costing.amount(text, "pack_size")
    assert caught.value.argument == "pack_size"
    assert way in caught.value.sentence()


@given(st.text(max_size=70) | st.text(alphabet="0123456789 x×X/.,kglbozctfldea½", max_size=40))
def test_no_text_whatever_gives_anything_but_an_amount_or_our_own_error(text):
    try:
        found = costing.amount(text, "pack_size")
    except BrineError as error:
        refused = error.sentence()
        assert refused.startswith("pack_size ")
    else:
        assert math.isfinite(found.value)


AMOUNTS = st.floats(min_value=0.01, max_value=1e6)
SHARES = st.floats(min_value=0.01, max_value=1)


@given(AMOUNTS, AMOUNTS, AMOUNTS, SHARES)
@example(699052.0, 0.08, 0.08, 1.0 / 3.0)  # 26 million packs, whose number is rounded itself
def test_packs_cover_the_need_and_one_fewer_would_not(need, on_hand, pack, usable):
    bought = costing.packs(need, on_hand, pack, usable)
    assert bought >= 0
    assert bought == int(bought)
    assert on_hand + bought * pack * usable >= need - max(1e-8 * pack, 1e-11 * need)
    if bought:
        assert on_hand + (bought - 1) * pack * usable < need


@each("count", range(1, 60))
def test_a_need_of_whole_packs_takes_exactly_those(count):
    # 0.1 + 0.1 + 0.1 is not 0.3 in floats; a sum must not cost an extra pack
    assert costing.packs(sum([0.1] * count), 0.0, 0.1, 1.0) == count


@given(AMOUNTS, AMOUNTS, SHARES)
def test_a_pack_at_its_unit_cost_costs_its_price_over_the_usable_share(price, size, usable):
    pack, gram = costing.Amount(size, "mass"), costing.Amount(1.0, "mass")
    assert costing.unit_cost(price, pack, usable, gram) * size == pytest.approx(price / usable, rel=1e-12)


@given(st.lists(st.tuples(AMOUNTS, AMOUNTS), min_size=1, max_size=8), st.sampled_from([1.0, 1000.0, POUND]))
def test_a_mix_costs_the_sum_of_its_parts(parts, per):
    names = [f"part {letter}" for letter in "abcdefgh"[: len(parts)]]
    masses, prices = zip(*parts)
    together = costing.mix_cost(names, masses, names[::-1], prices[::-1], per)
    assert together == pytest.approx(sum(m * p / per for m, p in parts), rel=1e-12)


def test_names_match_without_regard_to_case_spaces_and_plural():
    assert costing.mix_cost(("Bay Leaf", " sugars "), (2, 3), ("bay  leaf", "SUGAR"), (5, 7), 1.0) == 31


def test_an_ingredient_in_two_rows_is_paid_twice():
    assert costing.mix_cost(("salt", "salt"), (2, 3), ("salt",), (5,), 1.0) == 25


def test_rows_without_a_mass_need_no_price():
    assert costing.mix_cost(("salt", "saffron", None, "lemon"), (2, 0, None, ""), ("salt",), (5,), 1.0) == 10


def test_a_price_of_nothing_is_allowed_when_it_is_written():
    assert costing.mix_cost(("water", "salt"), ("10 L", 500), ("water", "salt"), (0, 0.001), 1.0) == 0.5


@pytest.mark.parametrize(
    ("names", "prices"),
    [
        (("salt",), (1,)),
        (("salt", "pepper"), (1, None)),
        (("salt", "pepper"), (1, "")),
        ((None, "salt"), (3, 1)),
    ],
)
def test_an_ingredient_without_a_price_is_an_unknown_name_and_never_free(names, prices):
    with pytest.raises(UnknownName) as caught:
        costing.mix_cost(("salt", "pepper"), (10, 1), names, prices, 1.0)
    assert '"pepper"' in caught.value.sentence()


@pytest.mark.parametrize("price", [None, "", 0, 0.0])
def test_a_lone_blank_price_is_no_price_in_any_host(price):
    with pytest.raises(UnknownName):
        costing.mix_cost(("salt",), (10,), ("salt",), (price,), 1.0)


def test_a_name_with_two_prices_is_named():
    with pytest.raises(Unreadable, match='two for "Salt"'):
        costing.mix_cost(("Salt",), (10,), ("salt", "SALT"), (1, 2), 1.0)
    assert costing.mix_cost(("salt",), (10,), ("salt", "SALT"), (2, 2), 1.0) == 20
    assert costing.mix_cost(("salt", "lemon"), (10, 0), ("salt", "lemon"), (2, 3), 1.0) == 20  # none of it is no fault
    assert costing.mix_cost(("salt",), (10,), ("salt", "lemon", "lemon"), (2, 3, 4), 1.0) == 20


@each(
    ("ingredients", "masses", "names", "prices", "kind", "way"),
    [
        (("salt",), (1, 2), ("salt",), (1,), Unreadable, "masses must have as many cells as ingredients"),
        (("salt",), (1,), ("salt", "x"), (1,), Unreadable, "unit_costs must have as many cells as price_names"),
        (("salt", None), (1, 2), ("salt",), (1,), Unreadable, "ingredients must name every mass"),
        (("salt",), (-1,), ("salt",), (1,), OutOfRange, "masses must be at least 0 g"),
        (("salt",), (1,), ("salt",), (-1,), OutOfRange, "unit_costs must be at least 0"),
        (("salt",), ("1 cup",), ("salt",), (1,), Unreadable, "BRINE_WEIGHT"),
        (("salt",), ("lots",), ("salt",), (1,), Unreadable, '"lots" in row 1'),
        (("salt",), (1,), ("salt",), ("1 kg",), Unreadable, "unit_costs must be a number"),
        (("salt",), (1,), ("salt",), ("$2",), Unreadable, "currency"),
        (("salt",), (True,), ("salt",), (2,), Unreadable, "masses must be a mass"),
    ],
)
def test_a_faulty_row_is_named(ingredients, masses, names, prices, kind, way):
    with pytest.raises(kind) as caught:
        costing.mix_cost(ingredients, masses, names, prices, 1.0)
    assert way in caught.value.sentence()


@each(("top", "bottom"), [(1, 2), (1, 3), (2, 3), (1, 4), (3, 4), (1, 8), (3, 8), (5, 8), (7, 8)])
def test_kitchen_fractions_of_a_pack_are_read_as_such(top, bottom):
    assert costing.amount(f"{top}/{bottom} gal", "pack_size").value == pytest.approx(GALLON * top / bottom, rel=1e-12)


@pytest.mark.parametrize("text", ["2/4 gal", "4/8 lb", "1/5 gal", "6/8 lb"])
def test_other_strokes_are_packs_and_asked_about(text):
    with pytest.raises(Unreadable, match="a stroke reads as a fraction"):
        costing.amount(text, "pack_size")


def test_an_amount_without_a_unit_is_known_to_be_bare():
    assert costing.amount("25", "pack_size").bare
    assert not costing.amount("25 kg", "pack_size").bare


@pytest.mark.parametrize(("per", "pack", "other"), [("kg", "5 L", "BRINE_WEIGHT"), ("L", "5 kg", "BRINE_VOLUME")])
def test_a_price_by_weight_of_a_pack_by_volume_names_the_function_that_helps(per, pack, other):
    with pytest.raises(Unreadable) as caught:
        costing.priced_alike(costing.amount(per, "per"), costing.amount(pack, "pack_size"), per)
    assert f"({other} turns one into the other)" in caught.value.sentence()


def test_a_price_of_a_roll_is_by_the_metre():
    with pytest.raises(Unreadable, match='write "m" for per'):
        costing.priced_alike(costing.amount("kg", "per"), costing.amount("30 m", "pack_size"), "kg")


def test_a_blank_price_before_one_that_is_given_is_passed_over():
    assert costing.mix_cost(["salt"], [100.0], ["salt", "salt"], ["", 2.0], 1000.0) == pytest.approx(0.2)
    assert costing.mix_cost(["", "salt"], ["", 100.0], ["salt"], [2.0], 1000.0) == pytest.approx(0.2)


def test_a_mass_that_is_no_number_is_shown_with_its_row():
    with pytest.raises(BrineError) as caught:
        costing.mix_cost(["salt", "honey"], [1.0, True], ["salt", "honey"], [1.0, 1.0], 1000.0)
    assert caught.value.got.endswith("in row 2")
    assert "None" not in caught.value.got


def test_a_bare_number_is_remembered_as_one():
    assert costing.amount("25", "pack").bare
    assert not costing.amount("25 kg", "pack").bare
    assert not costing.amount("24 x 330 ml", "pack").bare


GRAM, LITRE, EACH = costing.Amount(25.0, "mass"), costing.Amount(500.0, "volume"), costing.Amount(3.0, "count")
BARE = costing.Amount(25.0, "mass", True)

REFUSALS = {
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
        ("must be a mass like pack_size", 'write it with the weight of one piece, such as "3 x 350 g"'),
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


@each("name", REFUSALS)
def test_a_refusal_says_all_a_cook_needs(name):
    """Its figures are the limits of the rules named, or follow by hand from the numbers in the call."""
    check(REFUSALS[name])
