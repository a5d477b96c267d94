"""Names on the order: what has no price is named, and another name for a thing finds its row."""

from __future__ import annotations

import math
import re

import pytest
from cards import opened
from priced import place, price_row, shared, used_in

from brinecalc.tables import load
from brinecalc.workbook import example
from brinecalc.workbook.book import MOST_BATCHES
from brinecalc.workbook.sheets import order, plan, prices, results


def test_a_long_supplier_stays_beside_the_box_to_tick(book):
    salt = place("price_supplier", price_row("salt"))
    rows = range(order.FIRST_ROW, order.FIRST_ROW + order.ON_FIRST_PAGE)
    at = next(row for row in rows if book.at(order.SHEET, f"B{row}") == "salt")
    with book.supposing({salt: "Salt, spice and casing merchants of the old harbour"}):
        assert book.at(order.SHEET, f"K{at}") == "Salt, spice and cas…"
    assert opened()[order.SHEET][f"K{at}"].alignment.shrink_to_fit


def test_the_order_names_batches_that_stop_and_batches_that_fail(book):
    stopped = next(n for n in range(1, len(example.BATCHES) + 1) if book.of("w_says", n) == "STOP")
    with book.supposing({place("weight", 2): "a lot", place("weight", 5): None}):
        said = book.at(order.SHEET, "A3")
        assert f"This order is for {len(example.BATCHES) - 3} of them" in said
        assert f"left out for a STOP: no. {stopped}" in said
        assert "not known in full: no. 2, 5." in said
        assert "2 batches fail on the plan (no. 2, 5)" in book.named("order_state")
        assert book.named("order_total") == "not complete"


def test_names_without_a_price_are_counted_once_and_named(book):
    stopped = [
        number for number, cells in enumerate(example.BATCHES, 1) if cells.get("liquid") == "cola" and "cure" in cells
    ]
    bought = {name for name, used in used_in(book).items() if set(used) - set(stopped)}
    gone = [cells["name"] for cells in example.PRICES if cells["name"] in bought][: order.SHOWN_NAMES + 2]
    with book.supposing({place("price_price", price_row(name)): None for name in gone}):
        assert book.named("order_lacking") == len(gone)
        said = book.named("order_state")
        assert len(re.findall("|".join(map(re.escape, sorted(gone, key=len, reverse=True))), said)) == order.SHOWN_NAMES
        assert f"and {len(gone) - order.SHOWN_NAMES} more" in said
    with book.supposing({place("price_name", price_row(name)): None for name in ("salt", "honey")}):
        assert book.named("order_lacking") == 2
        assert "salt" in book.named("order_state")
        assert "honey" in book.named("order_state")


def test_two_names_without_a_price_in_one_batch_are_both_found(book):
    row = 7
    names = example.BATCHES[row - 1]["aroma_one"], example.BATCHES[row - 1]["aroma_two"]
    with book.supposing({place("price_price", price_row(name)): None for name in names}):
        assert book.named("order_lacking") == 2
        assert all(name in book.named("order_state") for name in names)


def test_without_prices_what_stands_in_no_row_is_still_named(book):
    """Nothing has a price then; what is listed is on the order all the same, and what is not must not go unsaid."""
    flag = book.cell("copy_without_prices")
    without = {flag: 1.0, **{place("price_price", row): None for row in range(1, len(example.PRICES) + 1)}}
    with book.supposing(without):
        assert (book.named("order_state"), book.named("order_lacking")) == ("Prices are left out of this copy.", 0)
        lines = book.named("order_lines")
        assert book.at(order.SHEET, "A4") == f"{lines:.0f} lines to buy"
    with book.supposing({**without, **{place("price_name", price_row(name)): None for name in ("salt", "cucumber")}}):
        said = book.named("order_state")
        named = re.fullmatch(
            r"NEEDED, AND IN NO ROW OF PRICES \(2\), at the end of the list: (.*)\. Prices are left out of this copy\.",
            said,
        )
        assert set(named[1].split(", ")) == {"salt", "cucumber"}
        assert book.at(order.SHEET, "A4") == f"{lines - 2:.0f} lines to buy; 2 more without a pack, after them"
        top, used = order.FIRST_ROW + int(lines) - 2, used_in(book)
        shown = [[book.at(order.SHEET, f"{column}{row}") for column in "ABCFJ"] for row in (top, top + 1, top + 2)]
        assert {line[1]: line[3] for line in shown[:2]} == {
            name: pytest.approx(
                math.fsum(used[name][batch] for batch in used[name] if book.of("says", batch) != "STOP") / 1000
            )
            for name in ("salt", "cucumber")
        }
        assert [line[0] for line in shown[:2]] == [lines - 1, lines]
        assert {cell for line in shown[:2] for cell in (line[2], line[4])} | set(shown[2]) == {""}


def test_a_plan_of_the_most_batches_is_the_same_in_more_rows():
    """Every sheet that lists batches ends at the last, which is worked out like any other."""
    long_book = shared(filled=False, batches=MOST_BATCHES)
    ends = {sheet: max(formula.cell[1] for formula in long_book.trial.formulas() if formula.cell[0] == sheet)
            for sheet in (results.SHEET, "Workings", "Checks")}  # fmt: skip
    assert set(ends.values()) == {plan.FIRST_ROW + MOST_BATCHES - 1}
    assert "$AM$37" in long_book.names.book.name("_xlnm.Print_Area", plan.SHEET)
    typed = {
        "product": "pork chop",
        "weight": 4.0,
        "thickness": 25.0,
        "method": "equilibrium",
        "target": 0.01,
        "ready": 46_452.75,
    }
    with long_book.supposing({place(key, MOST_BATCHES): value for key, value in typed.items()}):
        assert long_book.of("says", MOST_BATCHES) in ("ok", "NOTE")
        assert long_book.named("plan_state").startswith("1 batch. All worked out.")


def test_a_long_order_says_which_lines_stand_below_its_pages():
    long_book = shared(filled=False, batches=MOST_BATCHES)
    products = [name for name in example_names("products") if name != "salt cod"][:60]
    aromatics = [name for name in example_names("ingredients") if name][:60]
    changes: dict = {}
    for row, name in enumerate(products, 1):
        typed = {"product": name, "weight": 2.0, "thickness": 25.0, "method": "equilibrium", "target": 0.015,
                 "hours": 48.0, "aroma_one": aromatics[row - 1], "aroma_one_level": 0.0005}  # fmt: skip
        changes |= {place(key, row): value for key, value in typed.items()}
    for row, name in enumerate([*products, *aromatics[:58], "salt", "water"], 1):
        typed = {"price_name": name, "price_pack": "1 kg", "price_price": 1.0}
        changes |= {place(key, row): value for key, value in typed.items()}
    with long_book.supposing(changes):
        lines = int(long_book.named("order_lines"))
        printed = order.ON_FIRST_PAGE + order.ON_SECOND_PAGE
        assert lines > printed
        assert f"The last {lines - printed} lines stand below the printed pages" in long_book.named("order_state")
        shown = {long_book.at(order.SHEET, f"B{row}") for row in range(order.FIRST_ROW, order.FIRST_ROW + 160)}
        assert set(products) <= shown
        assert long_book.named("order_lacking") >= 2  # two aromatics and the ice have no row in the list


def example_names(table: str) -> list[str]:
    """Names of a table: products, or herbs, spices and aromatics."""
    rows = load.rows(table)
    return [row["name"] for row in rows if table == "products" or row["role"] in ("herb", "spice", "aromatic")]


def test_a_name_in_another_spelling_with_another_price_leaves_no_total_standing(book):
    """Prices has chicken breast, and below it the plural at one: which of the two is paid is not for us to say."""
    free = next(row for row in range(1, prices.FEWEST_ROWS + 1) if not book.of("price_name", row))
    typed = {"price_name": "Chicken breasts", "price_pack": "5 kg", "price_price": 1.0}
    with book.supposing({place(key, free): value for key, value in typed.items()}):
        assert book.named("plan_unpriced") == 1
        assert [book.named(name) for name in ("plan_cost", "used_total", "order_total")] == ["not complete"] * 3
        assert "NOT COMPLETE: 1 batch has no cost" in book.at(order.SHEET, "A5")


OTHER_NAMES = {
    "sweetener": {
        "sugar": "white sugar",
        "Granulated Sugar": "white sugar",
        "white sugars": "white sugar",
        "honey": "honey",
    },
    "aroma_one": {
        "Garlic ": "fresh garlic",
        "garlic": "fresh garlic",
        "bay leaves": "bay leaf",
        "no such herb": "no such herb",
    },
    "acid": {"vinegar": "vinegar", "white vinegar": "vinegar"},
}


@pytest.mark.parametrize("key", OTHER_NAMES)
def test_an_ingredient_under_another_name_is_priced_and_ordered_by_the_one_that_is_listed(book, key):
    name = "n_sweet" if key == "sweetener" else f"n_{key}"
    for typed, listed in OTHER_NAMES[key].items():
        with book.supposing({place(key, 1): typed}):
            assert book.of(name, 1) == listed


def test_allergens_are_told_whatever_the_ingredient_is_called(book):
    told = []
    for name in ("soy sauce", "Soya Sauce "):
        with book.supposing(
            {place("aroma_one", 1): name, place("aroma_one_level", 1): 0.01, book.cell("card_batch"): 1}
        ):
            found = [
                value for cell, value in book.everything().items() if cell[0] == "Card" and "Allergens: " in str(value)
            ]
            told.append(sorted(set(map(str.lower, found))))
    assert told[0]
    assert [[words.replace("soya", "soy").replace(" )", ")") for words in found] for found in told] == [
        told[0],
        told[0],
    ]
