"""The order and all totals of cost: needs, packs and money worked out anew from what is typed."""

from __future__ import annotations

import math
from collections import defaultdict

import pytest
from built import FEW
from cards import opened
from priced import Book, pack_in_grams, place, price_row, used_in

from brinecalc.workbook import example
from brinecalc.workbook.sheets import order, plan, prices, recipe, results


def counted(book: Book) -> dict[str, dict[int, float]]:
    """What goes into the batches that the order counts: all but those with a STOP."""
    stopped = {batch for batch in range(1, len(example.BATCHES) + 1) if book.of("w_says", batch) == "STOP"}
    assert len(stopped) == 1
    return {
        name: {batch: grams for batch, grams in used.items() if batch not in stopped}
        for name, used in used_in(book).items()
    }


def test_needs_are_the_sum_over_all_batches_that_may_be_started(book):
    needs = counted(book)
    for row, cells in enumerate(example.PRICES, 1):
        assert book.of("price_need_g", row) == pytest.approx(
            sum(needs.get(cells["name"], {0: 0.0}).values()), rel=1e-12
        )


def test_a_batch_with_a_stop_is_not_bought_for_and_the_order_says_so(book):
    stopped = next(n for n in range(1, len(example.BATCHES) + 1) if book.of("w_says", n) == "STOP")
    said, last = book.at(order.SHEET, "A3"), len(example.BATCHES)
    assert f"This order is for {last - 1} of them; left out for a STOP: no. {stopped}." in said
    assert book.named("order_counted") == last - 1
    only_there = [name for name, used in used_in(book).items() if set(used) == {stopped}]
    assert only_there
    for name in only_there:
        assert book.of("price_need_g", price_row(name)) == 0
        assert book.of("price_buy", price_row(name)) == ""
        with book.supposing({place("price_price", price_row(name)): None}):
            assert book.named("order_lacking") == 0  # no price is needed for what is not bought
            assert isinstance(book.named("order_total"), float)
    typed = [field.key for field in plan.grid().fields if field.is_input]
    with book.supposing({place(key, stopped): None for key in typed}):
        assert "This order is for all of them." in book.at(order.SHEET, "A3")


def test_no_line_of_the_order_speaks_for_what_has_no_price(book):
    """What is needed and has no price takes no line, so that all lines may have a cost and the total be open."""
    pepper = price_row("black peppercorns")
    with book.supposing({place("price_price", pepper): None}):
        assert book.named("order_lacking") == 1
        assert book.at(order.SHEET, "C4") == "1 more without a price"
        assert book.at(order.SHEET, "J4") == "not complete"
        assert " 1 batch without a cost: " in str(book.at(order.SHEET, "A3"))
    with book.supposing({place("thickness", 1): "thick"}):
        assert book.at(order.SHEET, "J4") == "not complete"
        assert book.at(order.SHEET, "C4") == ""
    assert book.at(order.SHEET, "C4") == "each with a cost"
    headings = {book.at(order.SHEET, f"E{row}") for row in range(1, 200)}
    assert "Share without product" in headings


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"price_stock": -5.0}, "On hand must be a plain number"),
        ({"price_stock": "five"}, "On hand must be a plain number"),
        ({"price_fewest": "6 packs"}, "Fewest packs must be a whole number"),
        ({"price_fewest": 2.5}, "Fewest packs must be a whole number"),
        ({"price_fewest": -3.0}, "Fewest packs must be a whole number"),
        ({"price_case": "ten"}, "Packs in a case must be a whole number"),
        ({"price_case": 2.5}, "Packs in a case must be a whole number"),
        ({"price_piece": "x"}, "One piece weighs must be a plain number"),
        ({"price_bought": "maybe"}, "takes yes or no"),
    ],
)  # fmt: skip
def test_a_figure_pasted_into_the_list_opens_the_order_and_never_counts_as_something_else(book, changes, reason):
    row = price_row("chicken breast")
    before = book.named("order_lines")
    with book.supposing({place(key, row): value for key, value in changes.items()}):
        assert (book.of("price_says", row), book.of("price_buy", row), book.of("price_paid", row)) == ("wrong",) * 3
        assert reason in book.of("price_why", row)
        assert reason in book.named("price_state")
        assert book.named("order_total") == "not complete"
        assert book.named("order_lines") == before
        assert "1 without a cost" in book.at(order.SHEET, "C4")
        assert "column Says" in book.named("order_state") or "NOT PRICED" in book.named("order_state")


@pytest.mark.parametrize("price", ["12,50 €", -3.0, 1e12])
def test_a_bad_price_is_wrong_everywhere_and_the_packs_are_still_known(book, price):
    row = price_row("chicken breast")
    packs, line = book.of("price_buy", row), order_row(book, "chicken breast")
    with book.supposing({place("price_price", row): price}):
        assert (book.of("price_says", row), book.of("price_paid", row)) == ("wrong", "wrong")
        assert book.of("price_buy", row) == packs
        assert [book.at(order.SHEET, f"{column}{line}") for column in "CIJ"] == [packs, "wrong", "wrong"]
        assert book.named("order_total") == "not complete"
        assert "Give each a price on Prices" in book.named("order_state")


def test_stock_that_is_text_is_wrong_on_the_order_and_no_error(book):
    line = order_row(book, "chicken breast")
    with book.supposing({place("price_stock", price_row("chicken breast")): "2 kg"}):
        assert [book.at(order.SHEET, f"{column}{line}") for column in "CGH"] == ["wrong", "wrong", ""]


def order_row(book: Book, name: str) -> int:
    rows = range(order.FIRST_ROW, order.FIRST_ROW + order.ON_FIRST_PAGE)
    return next(row for row in rows if book.at(order.SHEET, f"B{row}") == name)


@pytest.mark.parametrize("date", ["2026-11-30", "soon", -4.0, 99999999.0])
def test_a_date_that_is_none_is_pointed_out_and_the_money_stays(book, date):
    row = price_row("chicken breast")
    total = book.named("order_total")
    with book.supposing({place("price_date", row): date, book.cell("priced_on"): None}):
        assert book.of("price_says", row) == "no date"
        assert "such as 2026-11-30" in book.of("price_why", row)
        assert book.named("order_total") == total


def test_counts_say_what_they_count(book, blank_book):
    lines = int(book.named("order_lines"))
    assert book.at(order.SHEET, "A4") == f"{lines} lines to buy"
    assert book.at(order.SHEET, "C4") == "each with a cost"
    assert blank_book.at(order.SHEET, "A4") == "0 lines to buy"
    assert f"{len(example.PRICES)} rows give a price." in book.named("price_state")


def test_every_row_of_the_list_prints(blank_book):
    made = opened()[prices.SHEET]
    assert made.print_area.replace("$", "").endswith(str(prices.grid(FEW).last_row))
    assert made.sheet_properties.pageSetUpPr.fitToPage
    assert (made.page_setup.fitToWidth or 1, made.page_setup.fitToHeight) == (1, 0)


@pytest.mark.parametrize(("price", "reason"), [("12,50 EUR", "must be a plain number"), (-3.0, "cannot be below 0")])
def test_a_price_that_is_none_is_wrong_on_the_results_and_the_message_says_where(book, price, reason):
    row = price_row("chicken breast")
    with book.supposing({place("price_price", row): price}):
        assert [book.of(key, 1) for key in ("r_cost", "r_cost_mass", "r_cost_portion")] == ["wrong"] * 3
        assert [book.of(key, row) for key in ("price_shown_cost", "price_used")] == ["wrong"] * 2
        where = f"the price of chicken breast on Prices, row {prices.FIRST_ROW + row - 1}, cannot be used."
        assert where in book.of("r_message", 1)
        assert reason in book.of("r_message", 1)
        assert "a price is missing or wrong" in book.named("plan_state")
        assert [book.named(name) for name in ("plan_cost", "used_total", "order_total")] == ["not complete"] * 3
    with book.supposing({place("price_price", row): None}):
        assert (book.of("r_cost", 1), book.of("price_used", row)) == ("no price", "no price")
        assert "no price yet for" in book.of("r_message", 1)


def test_a_bad_price_of_what_no_batch_uses_opens_no_total(book):
    free = next(row for row in range(1, prices.FEWEST_ROWS + 1) if not book.of("price_name", row))
    cells = {"price_name": "sea salt", "price_pack": "1 kg", "price_price": "dear"}
    with book.supposing({place(key, free): value for key, value in cells.items()}):
        assert book.of("price_says", free) == "wrong"
        assert isinstance(book.named("plan_cost"), float)
        assert isinstance(book.named("order_total"), float)


def test_all_totals_leave_out_the_same_batches_and_say_which(book):
    """Independent: grams of each batch by the cost of a gram, summed over the batches that may be started."""
    needs = used_in(book)
    cost = {cells["name"]: book.of("price_cost", row) for row, cells in enumerate(example.PRICES, 1)}
    stopped = [n for n in range(1, len(example.BATCHES) + 1) if book.of("w_says", n) == "STOP"]

    def total(left_out: list[int]) -> float:
        return math.fsum(
            grams * cost[name] for name, used in needs.items() for n, grams in used.items() if n not in left_out
        )

    assert book.named("plan_cost") == pytest.approx(total(stopped), rel=1e-9)
    assert book.named("used_total") == pytest.approx(total(stopped), rel=1e-9)
    shares = book.names.place("used_total").area.top
    assert book.at(order.SHEET, f"B{shares}") == f"All but {len(stopped)} with a STOP"
    assert book.at(results.SHEET, f"B{results.TOTALS}") == f"All but {len(stopped)} with a STOP"
    assert book.of("r_cost", stopped[0]) == pytest.approx(
        math.fsum(used.get(stopped[0], 0.0) * cost[name] for name, used in needs.items()), rel=1e-9
    )
    with book.supposing({place("weight", 2): "a lot"}):  # one that fails opens every total
        assert [book.named(name) for name in ("plan_cost", "used_total", "order_total")] == ["not complete"] * 3
    unpriced = next(name for name, used in needs.items() if set(used) == set(stopped))
    with book.supposing({place("price_price", price_row(unpriced)): None}):  # only the stopped batch needs it
        assert book.named("plan_cost") == pytest.approx(total(stopped), rel=1e-9)
        assert book.named("used_total") == pytest.approx(total(stopped), rel=1e-9)


def packs_of(need: float, cells: dict) -> int:
    """Whole packs by hand: what is missing, at least the fewest, in whole cases."""
    usable = pack_in_grams(cells) * cells.get("usable", 1)
    packs = max(0, math.ceil((need - 1000 * cells.get("stock", 0)) / usable - 1e-9))
    case = cells.get("case", 1)
    return math.ceil(max(packs, cells.get("fewest", 1)) / case) * case if packs else 0


def test_packs_and_total_by_hand(book):
    needs, total, listed = counted(book), 0.0, []
    for row, cells in enumerate(example.PRICES, 1):
        need = sum(needs.get(cells["name"], {}).values())
        if need == 0 or cells.get("bought") == "no":
            assert book.of("price_buy", row) == ""
            continue
        packs = packs_of(need, cells)
        assert book.of("price_buy", row) == packs, cells["name"]
        total += packs * cells["price"]
        if packs:
            listed.append((cells["name"], packs, cells["pack"]))
    assert book.named("order_total") == pytest.approx(total, rel=1e-12)
    assert book.named("order_lines") == len(listed)
    top = order.FIRST_ROW
    shown = [tuple(book.at(order.SHEET, f"{column}{top + line}") for column in "BCD") for line in range(len(listed))]
    assert shown == listed
    assert book.at(order.SHEET, f"B{top + len(listed)}") == ""


@pytest.mark.parametrize(
    ("fewest", "case", "stock", "expected"),
    [(None, None, None, 1), (3.0, None, None, 3), (None, 6.0, None, 6), (3.0, 2.0, None, 4), (7.0, 6.0, None, 12),
     (3.0, 6.0, 10.0, 0)],
)  # fmt: skip
def test_fewest_packs_and_whole_cases(book, fewest, case, stock, expected):
    row = price_row("juniper berries")  # 24 g are needed, a pack holds 250 g
    changes = {"price_fewest": fewest, "price_case": case, "price_stock": stock}
    with book.supposing({place(key, row): value for key, value in changes.items()}):
        assert book.of("price_buy", row) == expected


def test_what_is_not_bought_costs_and_is_not_ordered(book):
    row = price_row("ice")
    assert book.of("price_need_g", row) > 1000
    assert book.of("price_buy", row) == ""
    before, lines = book.named("order_total"), book.named("order_lines")
    with book.supposing({place("price_bought", row): None}):
        assert book.of("price_buy", row) == 1
        assert book.named("order_lines") == lines + 1
        assert book.named("order_total") == pytest.approx(before + 6.0)


def test_water_comes_from_the_tap_unless_somebody_says_that_it_is_bought(book):
    row = price_row("water")
    with book.supposing({place("price_bought", row): None}):
        assert book.of("price_buy", row) == ""
    with book.supposing({place("price_bought", row): "yes"}):
        assert book.of("price_buy", row) == 1


def test_all_that_is_used_costs_what_the_batches_of_the_order_cost(book):
    numbers = range(1, len(example.BATCHES) + 1)
    batches = sum(book.of("w_cost", batch) for batch in numbers if book.of("w_says", batch) != "STOP")
    assert book.named("used_total") == pytest.approx(batches, rel=1e-12)


def test_shares_of_the_cost_are_of_the_right_kinds(book):
    kinds = defaultdict(float)
    product = {cells["product"] for cells in example.BATCHES}
    for row, cells in enumerate(example.PRICES, 1):
        used = book.of("price_used", row)
        kinds["product" if cells["name"] in product else book.of("price_spending", row)] += used or 0.0
    found = book.names.place("used_total")
    first = found.area.top - 5
    shown = {book.at(order.SHEET, f"B{row}"): book.at(order.SHEET, f"C{row}") for row in range(first, first + 5)}
    total = sum(kinds.values())
    assert shown == pytest.approx({kind: value / total for kind, value in kinds.items()})
    assert sum(shown.values()) == pytest.approx(1)
    assert book.of("price_spending", price_row("curing salt no. 1")) == "salt and cure"
    assert book.of("price_spending", price_row("honey")) == "sweetener"
    assert book.of("price_spending", price_row("bay leaf")) == "aromatics"
    assert book.of("price_spending", price_row("cola")) == "other"


def test_a_price_changes_its_own_totals_and_nothing_else(book):
    needs = used_in(book)["honey"]
    row = price_row("honey")
    before = book.everything()
    with book.supposing({place("price_price", row): 36.5 + 5}):
        after = book.everything()
    changed = {cell for cell, value in before.items() if after[cell] != value}
    per_gram = 5 / (5000 * 0.98)
    for batch in range(1, len(example.BATCHES) + 1):
        cost = place("w_cost", batch)
        assert after[cost] - before[cost] == pytest.approx(needs.get(batch, 0.0) * per_gram, abs=1e-9)
    total = book.cell("order_total")
    assert after[total] - before[total] == pytest.approx(5)  # one pack is bought
    used = book.cell("used_total")
    assert after[used] - before[used] == pytest.approx(sum(needs.values()) * per_gram)
    money = ("w_cost", "w_cost_kg", "w_cost_portion", "r_cost", "r_cost_mass", "r_cost_portion")
    allowed = {place(key, batch) for key in money for batch in needs}
    allowed |= {place(key, row) for key in ("price_cost", "price_shown_cost", "price_paid", "price_used")}
    in_grids = {cell for cell in changed if cell[0] in ("Plan", "Results", "Workings", "Prices")}
    totals = {cell for cell in in_grids if cell[0] == "Results" and cell[1] == results.TOTALS}
    assert in_grids - totals <= allowed
    assert {cell[0] for cell in changed} <= {"Results", "Workings", "Prices", "Order", "Recipe", "Card"}
    assert not [cell for cell in changed if cell[0] == "Recipe" and not isinstance(after[cell], float)]


def test_a_batch_that_fails_opens_the_order_and_names_what_is_open(book):
    batch = next(
        n for n, cells in enumerate(example.BATCHES, 1) if cells["method"] == "gradient" and "strength" in cells
    )
    product = example.BATCHES[batch - 1]["product"]
    with book.supposing({place("strength", batch): 0.7}):
        assert book.of("w_fails", batch) == 1
        assert book.named("order_total") == "not complete"
        assert book.named("used_total") == "not complete"
        assert "NOT COMPLETE: 1 batch fails" in book.named("order_state")
        assert book.of("price_buy", price_row("salt")) == "open"
        assert book.of("price_need_g", price_row(product)) > 0  # its weight is known all the same


def test_an_empty_workbook_orders_nothing_and_claims_nothing(blank_book):
    assert blank_book.named("order_total") == "no batch"
    assert blank_book.named("order_lines") == 0
    assert blank_book.named("oldest_price") == "no date"
    assert "nothing to buy" in blank_book.named("order_state")
    assert "type how much water" in blank_book.at(recipe.SHEET, "A3")
