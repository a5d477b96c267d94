"""Where something of the plan is not computed, no old figure of it is shown, sent, printed or added up."""

from __future__ import annotations

from pathlib import Path

import kitchens
import openpyxl
import pytest
from click.testing import CliRunner, Result
from priced import Book
from xlsx import saved, stored

from brinecalc.cli import app
from brinecalc.hosts.headless import calculate
from brinecalc.workbook import unsettled
from brinecalc.workbook.edit.book import Edit

ROUND, TIE = 0.2, 0.15
"""Three times the second is a half but for its last digit, about whose rounding spreadsheet programs disagree."""


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A plan worked out with a round figure, in which somebody then typed the other one; row 2 stands apart."""
    book = kitchens.fill(openpyxl.Workbook())
    sheet = book["Plan"]
    sheet["G1"], sheet["D1"] = ROUND, "=ROUND(3*G1,1)"
    sheet["H1"] = '=COUNT(E1:E3)&" batches. All worked out."'
    sheet["I1"], sheet["I2"], sheet["J2"], sheet["K1"] = "ok", "STOP", "STOP cure: never with cola.", "=SUM(E1:E3)"
    own = book.create_sheet("Own")
    own["A1"], own["A2"] = "=Plan!D1", "=ROUND(3*B2,1)"
    own["B2"] = ROUND
    names = {"plan_state": "H1", "plan_says": "I1:I3", "plan_messages": "J1:J3", "plan_cost": "K1", "order_total": "K1"}
    kitchens.named(book, {name: f"Plan!{place}" for name, place in names.items()})
    edit = Edit(calculate(saved(book), "Plan.xlsx").content, "Plan.xlsx")
    edit.put("Plan", 1, 7, TIE)
    edit.put("Own", 2, 2, TIE)
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(edit.done())
    assert (shown(path)["Plan", "D1"], shown(path)["Own", "A1"]) == (0.6, 0.6)
    return path


def test_the_pages_of_a_workbook_are_all_sheets_that_are_worked_out_from_the_plan(book: Book) -> None:
    """A root of doubt may stand on any of them; Start, tables and lists are worked out from nothing that is planned."""
    told = {formula.cell[0] for formula in book.trial.formulas()} - {"Start", "Scales", "Lists"}
    assert unsettled.pages(book.names) == told


def shown(path: Path) -> dict:
    return stored(path.read_bytes())


def ask(*words: object) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words])


def test_calc_says_so_first_and_shows_neither_old_figures_nor_a_cost(plan: Path) -> None:
    told = ask("calc", plan, "--in-place")
    lines = told.output.splitlines()
    assert told.exit_code == 1
    assert lines[1] == (
        "Not worked out: 4 formulas on Plan cannot be computed for certain. It begins with "
        "Plan!D1: spreadsheet programs disagree about a rounding in it."
    )
    assert lines[2] == "Batch 2, pork chops: STOP cure: never with cola."
    assert lines[3] == ""
    found = shown(plan)
    assert {found["Plan", place] for place in ("D1", "E1", "H1", "K1")} == {"#N/A"}
    assert found["Plan", "D2"] == 100
    assert found["Own", "A1"] == "#N/A"
    assert found["Own", "A2"] == 0.6  # what rests on no page stays, as in any workbook


def test_what_is_typed_anew_brings_the_figures_back(plan: Path) -> None:
    ask("calc", plan, "--in-place")
    edit = Edit(plan.read_bytes(), "Plan.xlsx")
    edit.put("Plan", 1, 7, ROUND)
    edit.put("Own", 2, 2, ROUND)
    plan.write_bytes(edit.done())
    assert ask("calc", plan, "--in-place").exit_code == 0
    assert shown(plan)["Plan", "H1"] == "3 batches. All worked out."


@pytest.mark.parametrize("wish", ["--values", "--pdf"])
def test_nothing_is_sent_as_values_or_printed(plan: Path, wish: str) -> None:
    told = ask("share", plan, wish)
    assert told.exit_code == 2
    assert "Plan!D1: spreadsheet programs disagree" in told.output
    assert "So no copy with values and no PDF is made." in told.output
    assert list(plan.parent.iterdir()) == [plan]


def test_a_live_copy_has_no_old_figures(plan: Path) -> None:
    told = ask("share", plan)
    assert told.exit_code == 0
    assert "6 not computed (they keep the value of the file, but show #N/A" in told.output
    assert shown(plan.with_name("Plan copy 1.xlsx"))["Plan", "E1"] == "#N/A"


def test_no_price_is_put_in(plan: Path, tmp_path: Path) -> None:
    before, prices = plan.read_bytes(), tmp_path / "prices.csv"
    prices.write_text(kitchens.PRICES, encoding="utf-8")
    told = ask("reprice", prices, plan, "--apply")
    assert told.exit_code == 1
    assert "So no price is put in." in told.output
    assert plan.read_bytes() == before
