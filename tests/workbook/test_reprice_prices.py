"""Which prices a list changes, item by item; the names that only one side has; totals that leave STOP batches out."""

from __future__ import annotations

import csv
import datetime
import json
import math
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner
from kitchens import LARDER, larder, named, with_a_stop
from openpyxl.utils.datetime import from_excel

from brinecalc.cli import app
from brinecalc.files import FileTrouble
from brinecalc.trade import own
from brinecalc.workbook import price_list, price_moves
from brinecalc.workbook.edit import sheets
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.reprice import Change, PriceChange, reprice_one

LIST = "name;pack;price;date\nsalt;10 kg;13,80;2027-02-01\nhoney;6 kg;73;2027-02-01\nunicorn;1 kg;5;\n"
OWN = "name,role,water,sugars,sodium\nhouse rub,spice,8%,5%,10%\n"


SMALL = larder()
"""A small workbook with a price list."""


@pytest.fixture(autouse=True)
def buying_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is 2027-12-01, 0:00 UTC, when these prices come in: no test rests on the clock."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1827619200")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(SMALL)
    (tmp_path / "prices.csv").write_text(LIST)
    return path


def run(*arguments: Any) -> Any:
    return CliRunner().invoke(app, ["reprice", *map(str, arguments)])


def with_price(content: bytes, name: str, price: object) -> bytes:
    """The workbook with another price for a name."""
    edit = Edit(content, "Plan.xlsx")
    names, prices = edit.place("price_names"), edit.place("price_prices")
    assert names is not None
    assert prices is not None
    row, _ = next(cell for cell in names.cells() if edit.look(names.sheet, *cell).value == name)
    edit.put(prices.sheet, row, prices.area.left, price)  # type: ignore[arg-type]
    return edit.done()


def test_each_price_stands_with_what_it_was_its_pack_and_its_days(book: Path) -> None:
    lines = [line.split() for line in run(book.parent / "prices.csv", book).output.splitlines()]
    assert ["salt", "10", "kg", "6.90", "13.80", "+100.0", "%", "2027-01-15", "2027-02-01"] in lines
    honey = next(line for line in lines if line[:1] == ["honey"])
    assert honey[:8] == ["honey", "5", "kg", "→", "6", "kg", "36.50", "73.00"]
    # 73 for 6 kg against 36.50 for 5 kg: 12.1667 against 7.30 the kilogram
    assert honey[honey.index("2027-02-01") + 1] == f"{100 * (73 / 6 / (36.5 / 5) - 1):+.1f}"


def test_books_in_which_the_same_prices_move_are_shown_once(book: Path) -> None:
    (book.parent / "Second.xlsx").write_bytes(SMALL)
    output = run(book.parent / "prices.csv", book.parent).output
    assert output.count("Prices that change") == 1
    headings = next(line for line in output.splitlines() if line.split()[:2] == ["name", "pack"])
    assert headings.split()[-5:] == ["date", "before", "date", "now", "remark"]
    assert "Prices that change in every workbook" in output
    (book.parent / "Third.xlsx").write_bytes(with_price(SMALL, "salt", 7.0))
    output = run(book.parent / "prices.csv", book.parent).output
    assert output.count("Prices that change") == 2
    assert "Prices that change in Plan.xlsx, Second.xlsx" in output


def test_names_that_only_one_side_has_are_told_once(book: Path) -> None:
    (book.parent / "Second.xlsx").write_bytes(SMALL)
    output = run(book.parent / "prices.csv", book.parent).output
    assert output.count("unicorn") == 1
    kept = next(line for line in output.splitlines() if line.startswith("Not in the list"))
    assert kept == "Not in the list, so their prices stay (2): bay leaf, water."
    assert output.count("bay leaf") == 1


def test_a_name_that_only_some_books_lack_is_told_with_how_many() -> None:
    changes = [Change("a.xlsx", not_listed=("dill", "x")), Change("b.xlsx", not_listed=("x",))]
    assert price_moves.lacking(changes) == [("dill", 1), ("x", 2)]


def test_the_csv_of_prices_holds_each_change_and_each_name_of_one_side(book: Path) -> None:
    report = book.parent / "moves.csv"
    assert run(book.parent / "prices.csv", book, "--report-prices", report).exit_code == 0
    with report.open(encoding="utf-8-sig", newline="") as file:
        rows = {row["name"]: row for row in csv.DictReader(file)}
    salt, honey = rows["salt"], rows["honey"]
    assert [salt[key] for key in price_moves.HEADINGS[2:8]] == ["10 kg", "10 kg", "6.9", "13.8", "100.0", ""]
    assert [salt["date before"], salt["date after"]] == ["2027-01-15", "2027-02-01"]
    assert [honey["pack before"], honey["pack after"]] == ["5 kg", "6 kg"]
    assert float(honey["change by amount, %"]) == pytest.approx(100 * (73 / 6 * 5 / 36.5 - 1), abs=1e-3)
    assert rows["unicorn"]["remark"] == "in the list only"
    assert rows["bay leaf"]["remark"] == "in the workbook only"
    assert run(book.parent / "prices.csv", book, "--report-prices", report).exit_code == 2


def test_what_stood_there_and_was_no_price_is_told(tmp_path: Path) -> None:
    prices = price_list.read(LIST.encode(), "prices.csv").prices
    for stood, words in (("12,50 EUR", "“12,50 EUR” stood there"), (None, "had no price"), (-3.0, "was below 0")):
        path = tmp_path / "Plan.xlsx"
        path.write_bytes(with_price(SMALL, "salt", stood))
        (salt, *_) = reprice_one(str(path), prices).prices
        assert any(words in remark for remark in price_moves.remarks(salt))
        line = price_moves.lines([salt], 9)[1]
        assert "inf" not in line
        assert "+100.0 %" not in line


def test_a_pack_of_another_kind_is_to_be_compared_by_hand() -> None:
    moved = PriceChange("x", 1.0, 2.0, "5 L", False, "5 kg")
    assert price_moves.amount_change(moved) is None
    assert price_moves.remarks(moved) == ["another pack: compare by hand"]


@pytest.mark.parametrize(
    ("before", "after", "packs", "words"),
    [
        (12.0, 25.0, (None, None), "more than double"),
        (12.0, 5.0, (None, None), "less than half"),
        (12.0, 0.0, (None, None), "costs nothing from now on"),
        (12.0, 1.2, ("1 kg", "10 kg"), "less than half"),  # a hundredth for the same amount
        (12.0, 24.0, (None, None), ""),
        (12.0, 110.0, ("1 kg", "10 kg"), ""),  # less for the same amount
        (None, 110.0, (None, None), ""),
    ],
)
def test_a_price_that_leaps_is_to_be_looked_at_again(before, after, packs, words):
    moved = PriceChange("x", before, after, packs[1], False, packs[0])
    found = [remark for remark in price_moves.remarks(moved) if "look again" in remark]
    assert [remark.partition(":")[0] for remark in found] == ([words] if words else [])


def test_of_many_prices_those_with_a_remark_are_shown() -> None:
    calm = [PriceChange(f"calm {n}", 10.0, 11.0, None, False, "1 kg") for n in range(9)]
    shown = price_moves.lines([*calm, PriceChange("leaps", 10.0, 1.0, None, False, "1 kg")], 3)
    assert "less than half" in shown[1]
    assert shown[-1] == "… and 7 more"


def test_a_name_that_acts_as_a_formula_is_disarmed_in_the_csv_of_prices() -> None:
    made = price_moves.as_csv([Change("b.xlsx", (PriceChange("=x", None, 2.0, None, unread="=1"),))]).decode(
        "utf-8-sig"
    )
    row = list(csv.reader(made.splitlines()))[1]
    assert row[1] == "'=x"
    assert row[4] == ""


def test_a_batch_with_a_stop_is_in_no_total_and_the_total_says_so(book: Path) -> None:
    book.write_bytes(with_a_stop())
    found = json.loads(run(book.parent / "prices.csv", book, "--json").output)[0]
    counted = [batch for batch in found["batches"] if not batch["stops"]]
    assert (len(found["batches"]), len(counted), found["stopped"]) == (3, 2, 1)
    for side in ("before", "after"):
        assert found[side] == pytest.approx(math.fsum(batch[side] for batch in counted))
    output = run(book.parent / "prices.csv", book).output
    assert "batches (without 1 that a STOP keeps back) " in output
    stopped = next(line for line in output.splitlines() if "pork chops" in line and line.lstrip().startswith("2"))
    assert stopped.endswith("STOP: in no total")


def test_own_ingredients_count_in_this_process_and_in_others(book: Path) -> None:
    """The cost of a batch rests on a spice of one's own: without its file it is open."""
    edit = Edit(SMALL, "Plan.xlsx")
    costs = edit.place("plan_costs")
    assert costs is not None
    edit.put(costs.sheet, costs.area.top, costs.area.left, 0.0, formula='BRINE_WATER_IN(C1,"house rub")*Prices!B1')
    for name in ("Plan.xlsx", "Second.xlsx"):
        (book.parent / name).write_bytes(edit.done())
    mine = book.parent / "mine.csv"
    mine.write_text(OWN)
    own.forget()
    arguments = (book.parent / "prices.csv", book, book.parent / "Second.xlsx", "--json")
    try:
        without = json.loads(run(*arguments).output)
        assert [item["batches"][0]["after"] for item in without] == [None, None]
        for jobs in ("1", "2"):
            found = json.loads(run(*arguments, "--ingredients", mine, "--jobs", jobs).output)
            assert all(isinstance(item["batches"][0]["after"], float) for item in found)
            own.forget()
    finally:
        own.forget()


def test_a_price_dated_after_today_is_pointed_out(book: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Salt costs 6.90 in the book: given again it is no change, but its day is put in all the same."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1803772800")  # 2027-02-28, 0:00 UTC
    prices = book.parent / "prices.csv"
    prices.write_text("name,price,date\nsalt,6.90,2027-03-01\nhoney,40,2027-03-01\nwater,5,2027-02-28\n")
    report = tmp_path / "report.csv"
    output = run(prices, book, "--report-prices", report).output
    assert "2 dated after today" in output
    lines = {line.split()[0]: line for line in output.splitlines() if line.split()}
    assert "dated after today: check the day" in lines["honey"]
    assert "after today" not in lines["water"]
    with report.open(encoding="utf-8-sig", newline="") as file:
        remarks = {row["name"]: row["remark"] for row in csv.DictReader(file)}
    assert "dated after today" in remarks["honey"]
    assert "dated after today" not in remarks["water"]
    by_option = price_list.read(b"name,price\nhoney,40\n", "p.csv")
    change = reprice_one(str(book), by_option.prices, date=price_list.day("2027-03-01", "--date"))
    assert [price.ahead for price in change.prices] == [True]


@pytest.fixture
def lacking(book: Path) -> Path:
    """A workbook whose plan uses salt, cucumber and dill; its price list has salt, and two blank rows."""
    edit = Edit(SMALL, "Plan.xlsx")
    for row, name in enumerate(("cucumber", "dill", "salt"), 1):
        edit.put("Plan", row, 8, name, f'"{name}"')
        edit.put("Plan", row, 9, "", f'=IF(COUNTIF(Prices!$A$1:$A$6,H{row})>0,"",H{row})')
    book.write_bytes(edit.done())
    read = openpyxl.load_workbook(book)
    named(read, {**{name: place.replace("4", "6") for name, place in LARDER.items() if name.startswith("price_")},
                 "need_names": "Plan!H1:H3", "lack_names": "Plan!I1:I3"})  # fmt: skip
    read.save(book)
    prices = "name;pack;price\nsalt;10 kg;8\ncucumbers;5 kg;11\nfresh dill;100 g;1.6\nunicorn;1 kg;5\n"
    (book.parent / "prices.csv").write_text(prices, encoding="utf-8")
    return book


def test_what_the_plan_needs_and_the_workbook_does_not_list_is_told(lacking: Path) -> None:
    told = run(lacking.parent / "prices.csv", lacking).output
    assert "Needed by a plan, in no row (2): cucumber, dill." in told
    assert "With --add each gets a row" in told
    assert [line.split()[0] for line in told.splitlines() if line.startswith("  unicorn")] == ["unicorn"]
    assert "cucumbers" not in told  # it is told once
    assert "Still without a price: cucumber, dill." in told


def test_it_gets_rows_when_asked_for_and_nothing_else_does(lacking: Path) -> None:
    told = run(lacking.parent / "prices.csv", lacking, "--add", "--apply").output
    cucumber = next(line for line in told.splitlines() if line.split()[:1] == ["cucumber"])
    assert cucumber.split() == ["cucumber", "→", "5", "kg", "none", "11.00", "2027-12-01", "new", "row"]
    assert "in no row" not in told
    assert "Still without" not in told
    assert [line.split()[0] for line in told.splitlines() if line.startswith("  unicorn")] == ["unicorn"]
    sheet = openpyxl.load_workbook(lacking)["Prices"]
    rows = [[cell.value for cell in row[:3]] for row in sheet.iter_rows(min_row=5, max_row=6)]
    assert rows == [["cucumber", 11, "5 kg"], ["dill", 1.6, "100 g"]]
    assert from_excel(sheet["D5"].value) == datetime.datetime(2027, 12, 1)
    again = reprice_one(
        str(lacking), price_list.read((lacking.parent / "prices.csv").read_bytes(), "p").prices, add=True
    )
    assert again.prices == ()


def test_what_may_be_bought_as_something_else_gets_no_row_of_its_own_accord(lacking: Path) -> None:
    """A gherkin is a cucumber to pickle, or a pickle; fresh dill is dill, and its row says from what."""
    prices = lacking.parent / "prices.csv"
    prices.write_text("name;pack;price\ngherkins;5 kg;11\nfresh dill;100 g;1.6\n", encoding="utf-8")
    told = run(prices, lacking, "--add").output
    dill = next(line for line in told.splitlines() if line.split()[:1] == ["dill"])
    assert dill.endswith("new row; from fresh dill")
    assert "Needed by a plan, in no row (1): cucumber." in told
    assert "gherkins: that may be bought as something else" in told
    assert "No blank row" not in told


def test_one_thing_under_two_names_of_the_list_is_told_by_both() -> None:
    with pytest.raises(FileTrouble, match="row 3: pork belly is the same thing as bacon in row 2, with another price"):
        price_list.read(b"name,price\nbacon,6.99\npork belly,4.10\n", "p.csv")


def test_rows_are_added_while_there_are_blank_ones(lacking: Path) -> None:
    edit = Edit(lacking.read_bytes(), "Plan.xlsx")
    edit.put("Prices", 5, 3, "1 kg")  # somebody began to fill it
    lacking.write_bytes(edit.done())
    prices = price_list.read((lacking.parent / "prices.csv").read_bytes(), "prices.csv").prices
    told = run(lacking.parent / "prices.csv", lacking, "--add").output
    assert "No blank row is left for them" in told
    assert "With --add" not in told
    change = reprice_one(str(lacking), prices, add=True)
    assert [price.name for price in change.prices if price.added] == ["cucumber"]
    assert change.needed == ("dill",)


def test_a_copy_as_values_is_refused_and_left_as_it_is(frozen: bytes, book: Path) -> None:
    """Nothing in it is worked out again: new prices would leave the old costs, and every batch would fail."""
    book.write_bytes(frozen)
    change = reprice_one(str(book), price_list.read(b"name,price\nsalt,5\n", "p.csv").prices, apply=True)
    assert change.problem == (
        "it is a copy as values, in which nothing is worked out; reprice the workbook it was made from"
    )
    assert book.read_bytes() == frozen


@pytest.mark.parametrize(
    ("word", "price", "refused"),
    [
        ("EUR", "$5", True),
        ("€", "GBP 5", True),
        ("EUR", "€ 5", False),
        ("usd", "$5", False),
        ("$", "CAD 5", False),
        ("EUR", "5", False),
        ("crowns", "€ 5", False),
        (None, "€ 5", False),
    ],
)
def test_a_list_in_another_currency_than_the_workbook_is_refused(
    book: Path, word: Any, price: str, refused: bool
) -> None:
    edit = Edit(SMALL, "Plan.xlsx")
    edit.put("Prices", 9, 1, word)
    sheets.add_name(edit, "price_word", "Prices!$A$9")
    book.write_bytes(edit.done())
    change = reprice_one(str(book), price_list.read(f"name,price\nsalt,{price}\n".encode(), "p.csv").prices)
    assert (change.problem is not None) is refused
    if refused:
        assert f"its prices are in {word}, those of the list in" in change.problem
        assert f"turn each price of the list into {word} at the rate of the day" in change.problem
