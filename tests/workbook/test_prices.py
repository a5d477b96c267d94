"""The price list: filled in as a person would, computed headless, and checked by arithmetic done here."""

from __future__ import annotations

import pytest
from priced import WATER, pack_in_grams, place, price_row, used_in

from brinecalc.workbook import example, example_us


def test_the_example_prices_all_that_its_batches_use(book):
    named = {cells["name"] for cells in example.PRICES}
    assert set(used_in(book)) <= named
    assert [book.of("price_says", row) for row, _ in enumerate(example.PRICES, 1)].count("ok") >= len(named) - 1
    assert book.named("order_lacking") == 0


def test_cost_of_a_gram_is_price_over_usable_pack(book):
    for row, cells in enumerate(example.PRICES, 1):
        expected = cells["price"] / (pack_in_grams(cells) * cells.get("usable", 1))
        assert book.of("price_cost", row) == pytest.approx(expected, rel=7e-4), cells["name"]
        assert book.of("price_shown_cost", row) == pytest.approx(book.of("price_cost", row) * 1000)


def test_a_pound_costs_its_part_of_a_pack_of_pounds(us_book):
    for row, cells in enumerate(example_us.PRICES, 1):
        number, _, unit = cells["pack"].partition(" ")
        if unit == "lb":
            usable = example.PRICES[row - 1].get("usable", 1)
            assert us_book.of("price_shown_cost", row) == pytest.approx(cells["price"] / float(number) / usable)


NO_PRICE = (
    ({"price_pack": "5 L"}, "unread", "write the pack as a weight"),
    ({"price_pack": "1 gal"}, "unread", "Sold by weight"),
    ({"price_pack": None}, "no pack", "such as 25 kg"),
    ({"price_pack": "25"}, "no unit", "Write the pack with its unit"),
    ({"price_pack": 25.0}, "no unit", "Write the pack with its unit"),
    ({"price_pack": "24 x 12"}, "no unit", "Write the pack with its unit"),
    ({"price_pack": "bunch"}, "unread", '"bunch"'),
    ({"price_pack": "6/1 gal"}, "unread", "fraction"),
    ({"price_pack": "dozen"}, "unread", "type what one piece weighs"),
    ({"price_price": None}, "no price", "0 if it costs nothing"),
    ({"price_price": "12,50 €"}, "wrong", "a plain number in EUR, such as 12.50, without a sign"),
    ({"price_price": -3.0}, "wrong", "A price cannot be below 0"),
    ({"price_price": 1e12}, "wrong", "at most 1000000"),
    ({"price_usable": 3.0}, "wrong", "Usable must be a share"),
    ({"price_usable": "most"}, "wrong", "such as 90%"),
    ({"price_usable": "97%"}, "wrong", "such as 90%"),
    ({"price_name": None}, "no name", "Name what"),
)
"""What may be typed into a row of Prices, the word beside it, and a part of the reason."""


def test_a_row_that_gives_no_price_says_why(book):
    cells = {place(key, row): value for row, (typed, *_) in enumerate(NO_PRICE, 1) for key, value in typed.items()}
    with book.supposing(cells):
        for row, (typed, word, reason) in enumerate(NO_PRICE, 1):
            assert (book.of("price_says", row), book.of("price_cost", row)) == (word, ""), typed
            assert reason in book.of("price_why", row)
            missing = "price_name" in typed or typed.get("price_price", 1) is None
            assert book.of("price_shown_cost", row) == ("" if missing else "wrong"), typed


@pytest.mark.parametrize(
    ("typed", "cost"),
    [({"price_price": None}, "no price"), ({"price_name": None}, "no price"), ({"price_pack": "bunch"}, "wrong")],
)
def test_what_has_no_price_is_never_free(book, typed, cost):
    row = price_row("chicken breast")
    with book.supposing({place(key, row): value for key, value in typed.items()}):
        assert book.named("order_total") == "not complete"
        assert book.of("r_cost", 1) == cost
        assert book.named("order_lacking") == 1
        assert "chicken breast" in book.named("order_state")
        assert not any(isinstance(value, dict) for value in (book.of("price_why", row), book.named("price_state")))


def test_the_line_above_the_list_gives_the_first_reason_in_full(book):
    row = price_row("duck breast")
    with book.supposing({place("price_pack", row): "basket"}):
        said = book.named("price_state")
        assert "1 row does not hold yet; first, duck breast: " in said
        assert '"basket"' in said


def test_a_price_of_nothing_counts_and_is_not_missing(book):
    row = price_row("water")
    before = book.of("r_cost", 1)
    grams = used_in(book)["water"][1]
    with book.supposing({place("price_price", row): 0.0}):
        assert book.of("price_says", row) == "ok"
        assert book.of("r_cost", 1) == pytest.approx(before - grams * 4.4 / (1e6 * WATER), rel=1e-6)
        assert isinstance(book.named("order_total"), float)


def test_a_name_listed_twice_counts_once(book):
    first, second = price_row("salt"), len(example.PRICES) + 1
    before, total = book.of("price_buy", first), book.named("order_total")
    typed = {"price_name": "salt", "price_pack": "1 kg", "price_price": 99.0}
    with book.supposing({place(key, second): value for key, value in typed.items()}):
        assert book.of("price_says", second) == "twice"
        assert "that row counts" in book.of("price_why", second)
        assert book.of("price_buy", second) == ""
        assert book.of("price_buy", first) == before
        assert book.named("order_total") == total


def test_a_name_no_list_has_is_pointed_out(book):
    row = len(example.PRICES) + 1
    typed = {"price_name": "chiken breast", "price_pack": "5 kg", "price_price": 40.0}
    with book.supposing({place(key, row): value for key, value in typed.items()}):
        assert book.of("price_says", row) == "not listed"
        assert "no batch uses it" in book.of("price_why", row)


def test_another_name_that_the_plan_uses_counts_as_listed(book):
    row = len(example.PRICES) + 1
    typed = {"price_name": "sugar", "price_pack": "10 kg", "price_price": 9.0}
    used = {"sweetener": "sugar", "sweet_level": 0.02}
    with book.supposing({place(key, row): value for key, value in typed.items()}):
        assert book.of("price_says", row) == "not listed"
    supposed = {place(key, row): value for key, value in typed.items()} | {place(k, 1): v for k, v in used.items()}
    with book.supposing(supposed):
        assert book.of("price_says", row) in ("ok", "no date")
        assert book.of("price_need_g", row) == pytest.approx(0.02 * book.of("w_base", 1))


def test_old_prices_are_marked_by_the_day_set_and_never_by_the_clock(book):
    row = price_row("maple syrup")
    assert book.of("price_says", row) == "old"
    assert "1 price is older than 90 days" in book.named("price_state")
    with book.supposing({book.cell("priced_on"): None}):
        assert book.of("price_says", row) == "ok"
    with book.supposing({book.cell("price_days"): 200.0}):
        assert book.of("price_says", row) == "ok"
    with book.supposing({place("price_date", price_row("salt")): None}):
        assert book.of("price_says", price_row("salt")) == "no date"
        assert isinstance(book.named("order_total"), float)
    oldest = min(cells["date"] for cells in example.PRICES)
    assert book.named("oldest_price") == (oldest - example.datetime.date(1899, 12, 30)).days


def test_a_price_dated_after_the_day_of_judging_is_marked_and_counts(book):
    row = price_row("salt")
    day = book.named("priced_on")
    with book.supposing({place("price_date", row): day + 1}):
        assert book.of("price_says", row) == "ahead"
        assert book.of("price_why", row).startswith("Dated after the day in Judged on")
        assert "1 price is dated after the day in Judged on." in book.named("price_state")
        assert isinstance(book.named("order_total"), float)
        with book.supposing({book.cell("priced_on"): None}):
            assert book.of("price_says", row) == "ok"
    with book.supposing({place("price_date", row): day}):
        assert book.of("price_says", row) == "ok"
    assert "dated after" not in book.named("price_state")


def test_what_costs_nothing_and_is_not_bought_needs_no_pack(book):
    """Water and ice of a kitchen's own: a name, 0, and for ice no under Goes on the order."""
    water, ice = price_row("water"), price_row("ice")
    free = {
        place(key, row): value for row in (water, ice) for key, value in (("price_pack", None), ("price_price", 0.0))
    }
    with book.supposing({**free, place("price_bought", water): None}):
        assert [book.of("price_says", row) for row in (water, ice)] == ["ok", "ok"]
        assert [book.of("price_cost", row) for row in (water, ice)] == [0, 0]
        assert isinstance(book.named("order_total"), float)
    with book.supposing({**free, place("price_bought", ice): None}):
        assert book.of("price_says", ice) == "no pack"
        assert "or choose no under Goes on the order, if it is made here" in book.of("price_why", ice)
        assert book.named("order_total") == "not complete"
    with book.supposing({**free, place("price_price", ice): None}):
        assert book.of("price_says", ice) == "no price"
        assert book.named("order_total") == "not complete"


def test_the_order_says_how_water_and_ice_of_the_kitchens_own_are_settled(book):
    settled = "From the tap or made here: price 0, and no under Goes on the order."
    for name, told in (("water", True), ("ice", True), ("salt", False)):
        with book.supposing({place("price_price", price_row(name)): None}):
            assert (settled in book.named("order_state")) is told
            assert "NEEDED BUT NOT PRICED (1): " + name in book.named("order_state")
