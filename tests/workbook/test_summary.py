"""What brinecalc calc tells of a production workbook before it counts formulas."""

from __future__ import annotations

import datetime
from pathlib import Path

import filling
import kitchens
import openpyxl
import pytest
from built import FEW, bare
from click.testing import CliRunner
from priced import place, price_row, shared
from xlsx import saved

from brinecalc.cli import app
from brinecalc.hosts.headless import calculate
from brinecalc.workbook import share, summary
from brinecalc.workbook.book import Options


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    path = tmp_path_factory.mktemp("told") / "Plan.xlsx"
    path.write_bytes(bare(Options(filled=True, batches=FEW)))
    return CliRunner().invoke(app, ["calc", str(path)]).output.splitlines()


def test_the_state_of_the_plan_comes_first(told: list[str]) -> None:
    assert told[1] == "15 batches. All worked out. 1 with a STOP: do not start before it is answered."


def test_batches_with_a_stop_come_before_those_with_a_caution(told: list[str]) -> None:
    assert told[2].startswith("Batch 13, pork shoulder: STOP cure: Curing salt must not meet cola")
    assert told[3].startswith("Batch 6, peeled shrimp: CAUTION brine temperature")


def test_a_batch_whose_price_is_missing_is_named() -> None:
    person = filling.Person(bare(Options(filled=True, batches=FEW)))
    names = [person.cells.values.get(("Prices", f"A{row}")) for row in range(filling.FIRST, filling.FIRST + 40)]
    person.fill("Prices", filling.FIRST + names.index("salmon fillet"), {"Price of the pack": None})
    plan = [person.cells.values.get(("Plan", f"B{row}")) for row in range(filling.FIRST, filling.FIRST + 15)]
    batch = plan.index("salmon fillet") + 1
    with person.asked() as trial:
        told = summary.lines(trial, "Plan.xlsx", datetime.datetime(2020, 1, 1))
    assert told[-2] == f"Batch {batch} without a cost: the row of Plan says which price is missing or wrong."


def test_what_it_costs_and_then_the_formulas(told: list[str]) -> None:
    at = next(
        number for number, line in enumerate(told) if line.startswith("All batches but 1 with a STOP together cost ")
    )
    assert told[at].endswith(" EUR.")
    assert told[at + 2].startswith("sheet ")


def test_what_waits_for_a_price_is_no_error() -> None:
    """The steps behind the pages of a batch without a price end in an error by design; the page says which price."""
    book = shared()
    with book.supposing({place("price_price", price_row("salt")): None}):
        assert "All worked out." in book.named("plan_state")
        in_error = {cell[0] for cell, value in book.everything().items() if isinstance(value, dict)}
    assert in_error
    assert in_error <= summary.behind(book.trial, "Plan.xlsx")


def test_the_commands_count_it_as_open(tmp_path: Path) -> None:
    book = kitchens.fill(openpyxl.Workbook())
    book["Plan"]["F1"] = "1 batch. All worked out."
    book.create_sheet("Workings")["A1"] = "=1/Prices!C1"
    kitchens.named(book, {"plan_state": "Plan!F1", "plan_says": "Workings!B1", "plan_findings": "Workings!B1"})
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(saved(book))
    lines = CliRunner().invoke(app, ["calc", str(path)]).output.splitlines()
    heads = next(line for line in lines if line.startswith("sheet "))
    assert heads.split() == ["sheet", "formulas", "errors", "open", "not", "computed"]
    assert next(line for line in lines if line.startswith("all ")).split() == ["all", "7", "0", "1", "0"]
    assert not [line for line in lines if line.startswith("Errors")]
    report = calculate(path.read_bytes(), "Plan.xlsx").report
    assert share.worked_out(report, {"Workings"}).startswith(
        "7 formulas, none in error, 1 open for want of a price or figure ("
    )
    assert share.worked_out(report, set()) == "7 formulas, 1 of them in error"
