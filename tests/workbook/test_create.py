"""Finished workbooks: no unknown name in any spelling, the same bytes every time, and the command that makes them."""

from __future__ import annotations

import datetime
import os
import re
import string
import subprocess
import sys
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from built import FEW, bare, built, created
from click.testing import CliRunner
from filling import FIRST, Person
from xlsx import parts

from brinecalc.cli import app
from brinecalc.workbook import build, example
from brinecalc.workbook.book import MOST_BATCHES, Options
from brinecalc.workbook.edit.book import Edit

READY = datetime.datetime(2027, 3, 6, 18, 0)
SMALL = ("--batches", str(FEW))
ONE = Options(batches=1)


@pytest.mark.parametrize(
    ("program", "spelled", "options"),
    [
        ("excel", "BRINE_EDIBLE", ONE),
        ("excel", "BRINE_EDIBLE", Options(filled=True, batches=FEW)),
        ("excel-lite", "_xldudf_BRINE_EDIBLE", ONE),
        ("calc", "BRINE.EDIBLE", ONE),
    ],
)
def test_no_shipped_sheet_shows_an_unknown_name(program: str, spelled: str, options: Options) -> None:
    made = created(options, program)
    assert made.report.kept == 0
    cells = b"".join(data for part, data in parts(made.content).items() if part.startswith("xl/worksheets/")).decode()
    formulas = re.findall("<f[^>]*>([^<]*)</f>", cells)
    assert {name for text in formulas for name in re.findall(r"[\w.]+(?=\()", text) if "EDIBLE" in name} == {spelled}
    assert len(re.findall("<v>[^<]*</v>", cells)) > len(formulas) > 1000
    assert "#NAME?" not in re.findall("<v>([^<]*)</v>", cells)


@pytest.mark.usefixtures("still")
def test_the_same_arguments_give_the_same_bytes_whatever_order_python_keeps_sets_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Made here and in a process that keeps them in another order."""
    monkeypatch.setenv("PYTHONHASHSEED", "2" if os.environ.get("PYTHONHASHSEED") == "1" else "1")
    command = [sys.executable, "-m", "brinecalc", "new", "--batches", "1", "-o", str(tmp_path / "there.xlsx")]
    subprocess.run(command, check=True, capture_output=True)
    assert (tmp_path / "there.xlsx").read_bytes() == built(ONE)


# ---- the command


def test_a_plan_of_one_batch_is_the_same_in_fewer_rows() -> None:
    """Every sheet that lists batches ends at the last; the one row of the smallest is worked out like any other."""
    person = Person(bare(ONE))
    for sheet in ("Plan", "Results", "Workings", "Checks"):
        held = {*person.cells.values, *person.cells.unlocked}
        assert max(int(at.lstrip(string.ascii_uppercase)) for name, at in held if name == sheet) == FIRST
    area = Edit(person.content, "Plan.xlsx").book.name("_xlnm.Print_Area", "Plan")
    assert area is not None
    assert area.endswith(f"$A$1:$AM${FIRST}")
    person.fill("Plan", FIRST, {"Product": "pork chop", "Weight as bought": 4, "Thickness": 25,
                "Method": "equilibrium", "Salt wanted in the product": 0.01, "Ready at": READY})  # fmt: skip
    answers = person.computed()
    assert answers.row("Plan", FIRST)["Says"] in ("ok", "NOTE")
    assert answers.named("plan_state").startswith("1 batch. All worked out.")


def test_the_example_needs_its_batches(tmp_path: Path) -> None:
    result = new("--example", "--batches", len(example.BATCHES) - 1, "-o", tmp_path / "few.xlsx")
    assert result.exit_code == 2
    assert f"the example has {len(example.BATCHES)} batches" in result.output
    assert new("--batches", 0, "-o", tmp_path / "few.xlsx").exit_code == 2
    assert new("--batches", MOST_BATCHES + 1, "-o", tmp_path / "few.xlsx").exit_code == 2
    assert not list(tmp_path.iterdir())


def new(*words: object) -> Any:
    return CliRunner().invoke(app, ["new", *map(str, words)])


@pytest.fixture
def wanted(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Options, str]]:
    """The command is handed a workbook that was made before, for what it does with it; gives what it asked for."""
    asked: list[tuple[Options, str]] = []
    monkeypatch.setattr(
        "brinecalc.workbook.create.create", lambda *want: asked.append(want[:2]) or created(ONE, "excel")
    )
    return asked


@pytest.fixture
def still(monkeypatch: pytest.MonkeyPatch) -> None:
    """The clock stands at the date of the shipped workbooks."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(int(build.STAMP.replace(tzinfo=datetime.timezone.utc).timestamp())))


@pytest.mark.usefixtures("wanted")
def test_a_new_workbook_says_that_it_was_made_today(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """1803772800 seconds after 1970 began is 2027-02-28, 0:00 UTC."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1803772800")
    assert new("-o", tmp_path / "plan.xlsx").exit_code == 0
    told = openpyxl.load_workbook(tmp_path / "plan.xlsx", read_only=True).properties
    assert told.created == told.modified == datetime.datetime(2027, 2, 28)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    before = datetime.datetime.now(datetime.timezone.utc).replace(tzinfo=None, microsecond=0)
    assert new("-o", tmp_path / "now.xlsx").exit_code == 0
    after = datetime.datetime.now(datetime.timezone.utc).replace(tzinfo=None)
    assert before <= openpyxl.load_workbook(tmp_path / "now.xlsx", read_only=True).properties.created <= after


@pytest.mark.usefixtures("still")
def test_the_command_writes_a_workbook_for_a_paper_and_never_overwrites_one(
    tmp_path: Path, wanted: list[tuple[Options, str]]
) -> None:
    path = tmp_path / "plan.xlsx"
    result = new("--units", "US", "--paper", "A4", *SMALL, "-o", path)
    assert result.exit_code == 0
    assert wanted == [(Options("US", "A4", batches=FEW), "excel")]
    assert path.read_bytes() == built(ONE)
    assert "formulas computed, US units" in result.output
    path.write_text("somebody's work")
    again = new("-o", path)
    assert again.exit_code == 2
    assert "exists already" in again.output
    assert path.read_text() == "somebody's work"


@pytest.mark.usefixtures("still")
def test_the_command_takes_a_folder_the_example_and_a_program(
    tmp_path: Path, wanted: list[tuple[Options, str]]
) -> None:
    result = new("--example", "--paper", "A4", "--for", "calc", *SMALL, "-o", tmp_path)
    assert result.exit_code == 0
    assert wanted == [(Options("metric", "A4", True, FEW), "calc")]
    assert (tmp_path / "Brine example.xlsx").read_bytes() == built(ONE)
    assert "install calc" in result.output
    assert new("-o", tmp_path / "plan.ods").exit_code == 2
    assert new("-o", tmp_path / "nowhere" / "plan.xlsx").exit_code == 2
