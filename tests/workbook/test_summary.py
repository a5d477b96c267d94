"""What brinecalc calc tells of a production workbook before it counts formulas."""

from __future__ import annotations

import datetime

import filling
import pytest
from built import FEW, bare
from click.testing import CliRunner

from brinecalc.cli import app
from brinecalc.workbook import summary
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
    names = [person.book["Prices"][f"A{row}"].value for row in range(filling.FIRST, filling.FIRST + 40)]
    person.fill("Prices", filling.FIRST + names.index("salmon fillet"), {"Price of the pack": None})
    plan = [person.book["Plan"][f"B{row}"].value for row in range(filling.FIRST, filling.FIRST + 15)]
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
