"""Prices, order and recipe: filled in as a person would, computed headless, and checked by arithmetic done here.

Packs, needs and totals are worked out anew below from what is typed; densities of packs by volume come from the
published measures in ``tests/reference/usda_sr27.csv``.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections import defaultdict
from contextlib import contextmanager
from pathlib import Path

import openpyxl
import pytest
from openpyxl.utils import column_index_from_string, coordinate_to_tuple

from brinecalc.hosts.headless.trial import Trial
from brinecalc.tables import load
from brinecalc.workbook import build, example, example_us
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.sheets import order, plan, prices, recipe, results, workings

REFERENCE = Path(__file__).parents[1] / "reference"
FLUID_OUNCE = 29.5735295625  # mL, US; definition
PRODUCT_DENSITY = 1.05  # g/mL, judgement, as the function that fills vessels states
WATER = 0.9982067  # g/mL at 20 °C, CRC Handbook of Chemistry and Physics

GRIDS = {module.SHEET: module.grid() for module in (plan, results, prices, workings)}
PLACES = {field.key: grid for grid in GRIDS.values() for field in grid.fields}


def place(key: str, row: int) -> tuple[str, int, int]:
    """Where a field of a grid stands in its row, counted from 1."""
    grid = PLACES[key]
    return grid.sheet, grid.first_row + row - 1, column_index_from_string(grid.columns[key])


class Book:
    """A computed workbook that can be asked and changed."""

    def __init__(self, content: bytes) -> None:
        self.trial = Trial(content, "book.xlsx")
        self.names = Edit(content, "book.xlsx")

    def at(self, sheet: str, address: str) -> object:
        return self.trial.value(sheet, *coordinate_to_tuple(address))

    def of(self, key: str, row: int) -> object:
        value = self.trial.value(*place(key, row))
        return "" if value is None else value

    def named(self, name: str) -> object:
        found = self.names.place(name)
        return self.trial.value(found.sheet, found.area.top, found.area.left)

    def cell(self, name: str) -> tuple[str, int, int]:
        found = self.names.place(name)
        return found.sheet, found.area.top, found.area.left

    @contextmanager
    def supposing(self, cells: dict) -> None:
        """Other values in some cells, put back afterwards."""
        before = {cell: self.trial.value(*cell) for cell in cells}
        self.trial.suppose(cells)
        try:
            yield
        finally:
            self.trial.suppose(before)

    def everything(self) -> dict:
        return {formula.cell: self.trial.value(*formula.cell) for formula in self.trial.formulas()}


@pytest.fixture(scope="module")
def book() -> Book:
    return Book(build.build(build.Options(filled=True)))


@pytest.fixture(scope="module")
def us_book() -> Book:
    return Book(build.build(build.Options(units="US", paper="Letter", filled=True)))


@pytest.fixture(scope="module")
def blank_book() -> Book:
    return Book(build.build(build.Options()))


def price_row(name: str) -> int:
    return next(row for row, cells in enumerate(example.PRICES, 1) if cells["name"] == name)


def used_in(book: Book) -> dict[str, dict[int, float]]:
    """Name → batch → grams, from what the workings say goes into each batch."""
    needs: dict[str, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    for batch in range(1, len(example.BATCHES) + 1):
        for key, _, _ in workings.INGREDIENTS:
            name, grams = book.of(f"n_{key}", batch), book.of(f"m_{key}", batch)
            if name and isinstance(grams, float) and grams > 0:
                needs[name][batch] += grams
    return needs


def densities() -> dict[str, float]:
    with (REFERENCE / "usda_sr27.csv").open(encoding="utf-8", newline="") as file:
        rows = {row["description"]: row for row in csv.DictReader(file)}
    cup = 8 * FLUID_OUNCE
    return {
        "cola": float(rows["CARBONATED BEV,COLA"]["weight2_g"]) / (12 * FLUID_OUNCE),
        "buttermilk": float(rows["MILK,BTTRMLK,FLUID,CULTURED,LOWFAT"]["weight1_g"]) / cup,
        "vinegar": float(rows["VINEGAR,DISTILLED"]["weight2_g"]) / cup,
        "maple syrup": float(rows["SYRUPS,MAPLE"]["weight1_g"]) / (cup / 16),
        "water": WATER,
        "apple juice": 1.048,  # USDA SR27 09016, 248 g to the cup
    }


def pack_in_grams(cells: dict) -> float:
    """A pack of the example, read here by its own few rules."""
    number = re.fullmatch(r"(?:(\d+) x )?([\d.]*) ?(kg|g|L|mL|each)", cells["pack"])
    count = float(number[1] or 1) * float(number[2] or 1)
    in_base = {"kg": 1000.0, "g": 1.0, "L": 1000.0, "mL": 1.0, "each": 1.0}[number[3]] * count
    if number[3] == "each":
        return in_base * cells["piece"]
    return in_base * (densities()[cells["name"]] if number[3] in ("L", "mL") else 1.0)


# ---- prices


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


@pytest.mark.parametrize(
    ("changes", "word", "reason"),
    [
        ({"price_price": None}, "no price", "0 if it costs nothing"),
        ({"price_price": "12,50 €"}, "wrong", "as a number"),
        ({"price_pack": None}, "no pack", "such as 25 kg"),
        ({"price_pack": "25"}, "no unit", "Write the pack with its unit"),
        ({"price_pack": 25.0}, "no unit", "Write the pack with its unit"),
        ({"price_pack": "24 x 12"}, "no unit", "Write the pack with its unit"),
        ({"price_pack": "bunch"}, "unread", '"bunch"'),
        ({"price_pack": "6/1 gal"}, "unread", "fraction"),
        ({"price_pack": "dozen"}, "unread", "type what one piece weighs"),
        ({"price_pack": "5 L"}, "unread", "write the pack as a weight"),
        ({"price_price": -3.0}, "wrong", "A price cannot be below 0"),
        ({"price_price": 1e12}, "wrong", "at most 1000000"),
        ({"price_usable": 3.0}, "wrong", "Usable must be a share"),
        ({"price_usable": "most"}, "wrong", "such as 90%"),
        ({"price_name": None}, "no name", "Name what"),
    ],
)  # fmt: skip
def test_a_row_that_gives_no_price_says_why_and_is_never_free(book, changes, word, reason):
    row = price_row("chicken breast")
    with book.supposing({place(key, row): value for key, value in changes.items()}):
        assert book.of("price_says", row) == word
        assert reason in book.of("price_why", row)
        assert book.of("price_cost", row) == ""
        typed = "price_name" not in changes and changes.get("price_price", 1) is not None
        assert book.of("price_shown_cost", row) == ("wrong" if typed else "")
        assert book.named("order_total") == "not complete"
        assert book.of("r_cost", 1) == ("wrong" if typed else "no price")
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
        assert "no batch can use it" in book.of("price_why", row)


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


# ---- order


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


def test_the_order_names_batches_that_stop_and_batches_that_fail(book):
    stopped = next(n for n in range(1, len(example.BATCHES) + 1) if book.of("w_says", n) == "STOP")
    with book.supposing({place("weight", 2): "a lot", place("weight", 5): None}):
        said = book.at(order.SHEET, "A3")
        assert f"This order is for {len(example.BATCHES) - 3} of them" in said
        assert f"left out for a STOP: no. {stopped}" in said
        assert "not known in full: no. 2, 5." in said
        assert "2 batches fail on the plan (no. 2, 5)" in book.named("order_state")
        assert book.named("order_total") == "not complete"


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
    made = openpyxl.load_workbook(io.BytesIO(build.build(build.Options(filled=True))))[prices.SHEET]
    assert made.print_area.replace("$", "").endswith(str(prices.FIRST_ROW + prices.ROWS - 1))
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
    free = next(row for row in range(1, prices.ROWS + 1) if not book.of("price_name", row))
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


def test_names_without_a_price_are_counted_once_and_named(book):
    gone = ["salt", "honey", "cola", "fresh dill", "bay leaf", "white sugar", "paprika", "brown sugar"]
    with book.supposing({place("price_price", price_row(name)): None for name in gone}):
        assert book.named("order_lacking") == len(gone)
        said = book.named("order_state")
        assert sum(name in said for name in gone) == order.SHOWN_NAMES
        assert f"and {len(gone) - order.SHOWN_NAMES} more" in said
    with book.supposing({place("price_name", price_row(name)): None for name in gone[:2]}):
        assert book.named("order_lacking") == 2
        assert "salt" in book.named("order_state")
        assert "honey" in book.named("order_state")


def test_two_names_without_a_price_in_one_batch_are_both_found(book):
    row = 7
    names = example.BATCHES[row - 1]["aroma_one"], example.BATCHES[row - 1]["aroma_two"]
    with book.supposing({place("price_price", price_row(name)): None for name in names}):
        assert book.named("order_lacking") == 2
        assert all(name in book.named("order_state") for name in names)


def test_a_long_order_says_which_lines_stand_below_its_pages(blank_book):
    products = [name for name in example_names("products") if name != "salt cod"][:60]
    aromatics = [name for name in example_names("ingredients") if name][:60]
    changes: dict = {}
    for row, name in enumerate(products, 1):
        typed = {"product": name, "weight": 2.0, "thickness": 25.0, "method": "equilibrium", "target": 0.015,
                 "aroma_one": aromatics[row - 1], "aroma_one_level": 0.0005}  # fmt: skip
        changes |= {place(key, row): value for key, value in typed.items()}
    for row, name in enumerate([*products, *aromatics[:58], "salt", "water"], 1):
        typed = {"price_name": name, "price_pack": "1 kg", "price_price": 1.0}
        changes |= {place(key, row): value for key, value in typed.items()}
    with blank_book.supposing(changes):
        lines = int(blank_book.named("order_lines"))
        printed = order.ON_FIRST_PAGE + order.ON_SECOND_PAGE
        assert lines > printed
        assert f"The last {lines - printed} lines stand below the printed pages" in blank_book.named("order_state")
        shown = {blank_book.at(order.SHEET, f"B{row}") for row in range(order.FIRST_ROW, order.FIRST_ROW + 160)}
        assert set(products) <= shown
        assert blank_book.named("order_lacking") >= 2  # two aromatics and the ice have no row in the list


def example_names(table: str) -> list[str]:
    """Names of a table: products, or herbs, spices and aromatics."""
    rows = load.rows(table)
    return [row["name"] for row in rows if table == "products" or row["role"] in ("herb", "spice", "aromatic")]


def test_an_empty_workbook_orders_nothing_and_claims_nothing(blank_book):
    assert blank_book.named("order_total") == "no batch"
    assert blank_book.named("order_lines") == 0
    assert blank_book.named("oldest_price") == "no date"
    assert "nothing to buy" in blank_book.named("order_state")
    assert "type how much water" in blank_book.at(recipe.SHEET, "A3")


# ---- recipe


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


def expected(book: Book) -> dict[str, object]:
    """What the brine should read and come to, by its words on the page."""
    found = {}
    for row in range(recipe.LAST + 4, recipe.LAST + 9):
        for words, value in (("A", "D"), ("F", "J"), ("L", "M")):
            found[book.at(recipe.SHEET, f"{words}{row}")] = book.at(recipe.SHEET, f"{value}{row}")
    return found


def test_readings_of_a_typed_brine(book):
    shown = expected(book)
    assert shown["Strength, of the water"] == 0.05
    assert shown["Salt meter, of the solution"] == pytest.approx(5 / 105, rel=1e-12)  # definition
    assert shown["Salometer, at 60 °F"] == pytest.approx(
        100 * (5 / 105) / 0.26395, rel=1e-6
    )  # 100° = 26.395 %, definition
    assert shown["Density at 20 °C, salt alone"] == pytest.approx(
        1.0324, abs=3e-4
    )  # CRC Handbook, NaCl, 4.76 %, interpolated
    assert shown["Vessel"] == "fits"
    lines = lines_of(book)
    cost = sum(line["cost"] for line in lines.values())
    assert shown["Cost"] == pytest.approx(cost)
    assert shown["per L"] == pytest.approx(cost / shown["Volume at 20 °C"])
    assert 5 < shown["pH, fresh and before the product"] < 8.5


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


def typed(book: Book, pairs: list[tuple[str, float]]) -> dict:
    """Ingredients typed into the recipe, in place of the example's."""
    top = recipe.TOP + len(recipe.FIXED)
    cells = {}
    for number in range(recipe.INGREDIENTS):
        name, level = pairs[number] if number < len(pairs) else (None, None)
        cells |= {(recipe.SHEET, top + number, 2): name, (recipe.SHEET, top + number, 3): level}
    return cells


def test_an_ingredient_above_its_legal_ceiling_is_refused_in_words(book):
    with book.supposing(typed(book, [("honey", 0.02), ("sodium tripolyphosphate", 0.02)])):
        line = lines_of(book)["sodium tripolyphosphate"]
        assert line["shown"] == "refused"
        assert line["says"] == "REFUSED: see below"
        assert line["ceiling"] == 0.005  # 9 CFR 424.21(c): 0.5 % of the finished product
        assert "legal ceiling" in book.at(recipe.SHEET, f"A{recipe.LAST + 2}")
        assert expected(book)["Cost"] == "not complete"
        assert expected(book)["pH, fresh and before the product"] == ""
        assert lines_of(book)["honey"]["grams"] > 0


@pytest.mark.parametrize("name", ["curing salt no. 1", "lye", "sulphuric acid"])
def test_what_is_never_dosed_by_the_water_is_refused(book, name):
    with book.supposing(typed(book, [(name, 0.002)])):
        assert lines_of(book)[name]["shown"] == "refused"
        assert expected(book)["Cost"] == "not complete"


def test_levels_are_held_against_the_usual(book):
    given = [("fresh dill", 0.06), ("fresh thyme", 0.025), ("honey", 0.002), ("bay leaf", 0.0), ("vinegar", 0.05)]
    with book.supposing(typed(book, given)):
        lines = lines_of(book)
        assert lines["fresh thyme"]["says"] == "above the usual"
        assert lines["honey"]["says"] == "below the usual"
        assert lines["bay leaf"]["says"] == "type its level"
        assert lines["fresh dill"]["says"].startswith("over the ceiling: taste")
        assert lines["vinegar"]["says"] == "ok"


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


def test_results_shown_in_us_units_describe_the_same_brine_and_order(book):
    metric, lines, total = expected(book), book.named("order_lines"), book.named("order_total")
    with book.supposing({book.cell("shown_units"): "US"}):
        us = expected(book)
        assert us["Cost"] == pytest.approx(metric["Cost"])
        assert us["Whole brine, ice included"] == pytest.approx(metric["Whole brine, ice included"] / 0.45359237)
        assert us["Volume at 20 °C"] == pytest.approx(metric["Volume at 20 °C"] / 0.946352946)
        assert book.named("order_lines") == lines
        assert book.named("order_total") == pytest.approx(total)


# ---- manners


def formulas_of(book: Book) -> list[tuple[tuple[str, int, int], str]]:
    mine = (prices.SHEET, order.SHEET, recipe.SHEET)
    return [(formula.cell, formula.text) for formula in book.trial.formulas() if formula.cell[0] in mine]


def test_no_formula_ends_in_an_error_or_is_left_uncomputed(book, us_book, blank_book):
    for each in (book, us_book, blank_book):
        mine = [p for p in each.trial.outcome.report.problems if p.sheet in (prices.SHEET, order.SHEET, recipe.SHEET)]
        assert mine == []


def arguments(formula: str, start: int) -> list[str]:
    """The arguments of the call whose bracket opens just before `start`."""
    depth, quoted, begin, found = 0, False, start, []
    for at in range(start, len(formula)):
        sign = formula[at]
        if sign == '"':
            quoted = not quoted
        elif quoted:
            continue
        elif sign == "(":
            depth += 1
        elif sign == ")" and depth:
            depth -= 1
        elif (sign == "," and not depth) or sign == ")":
            found.append(formula[begin:at])
            begin = at + 1
            if sign == ")":
                return found
    return found


def test_a_failed_try_falls_back_on_a_word_only(book):
    """Calc 7.4 shows Err:509 when the first argument of IFERROR calls an add-in and fails, and the second computes."""
    for cell, formula in formulas_of(book):
        for call in re.finditer(r"IFERROR\(", formula):
            tried, other = arguments(formula, call.end())
            if "BRINE_" in tried:
                assert re.fullmatch(r'"[^"]*"', other), (cell, formula)


def test_formulas_are_locked_and_inputs_open():
    workbook = openpyxl.load_workbook(io.BytesIO(build.build(build.Options())))
    for name in (prices.SHEET, order.SHEET, recipe.SHEET):
        sheet = workbook[name]
        assert sheet.protection.sheet
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str) and cell.value.startswith("="):
                    assert cell.protection.locked, cell.coordinate
    open_cells = [field.key for field in prices.grid().fields if field.is_input]
    assert all(
        not workbook[prices.SHEET][prices.grid().address(key, prices.FIRST_ROW)].protection.locked for key in open_cells
    )
    for rule in workbook[prices.SHEET].data_validations.dataValidation:
        assert len(rule.prompt or "") <= 255
    assert len(workbook[order.SHEET]._charts) == 2
