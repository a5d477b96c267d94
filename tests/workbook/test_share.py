"""Copies of a workbook: what they say of themselves, what changed since the one before, and all that can go wrong."""

from __future__ import annotations

import datetime
import os
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from copied import (
    KINDS,
    LIVE,
    SAVED,
    add_part,
    change,
    folder,
    history,
    share,
)
from filling import FIRST
from kitchens import kitchen, larder, with_card
from xlsx import opened, parts, seen, stored

from brinecalc.version import TABLE_DATE, VERSION
from brinecalc.workbook.edit.book import Edit

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A small workbook, for what does not rest on what is in it."""
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(kitchen())
    return path


def test_a_live_copy_is_the_workbook_with_its_values_and_one_sheet_more(live: bytes, example: bytes) -> None:
    old, new = parts(example), parts(live)
    assert set(new) - set(old) == {name for name in new if name not in old and name.startswith("xl/worksheets/sheet")}
    touched = {name for name in old if old[name] != new[name]}
    assert touched <= {
        "docProps/core.xml",
        "[Content_Types].xml",
        "xl/workbook.xml",
        "xl/_rels/workbook.xml.rels",
        "xl/styles.xml",
    }
    assert seen(live).sheetnames == [*seen(example).sheetnames, "Copies"]


def test_values_are_computed_even_if_the_workbook_has_none(plan: Path, tmp_path: Path) -> None:
    """A library that only writes formulas saved it last: 5 % salt of 1, 2 and 3 kg, at 1.25 for a kilogram."""
    assert not [at for at in stored(plan.read_bytes()) if at[1][0] in "DE"]
    assert share(plan).exit_code == 0
    found = stored((tmp_path / "Plan copy 1.xlsx").read_bytes())
    assert [found["Plan", f"D{row}"] for row in (1, 2, 3)] == [50, 100, 150]
    assert [found["Plan", f"E{row}"] for row in (1, 2, 3)] == [0.0625, 0.125, 0.1875]


def test_a_copy_says_what_it_is(live: bytes, frozen: bytes) -> None:
    rows = history(live)
    facts = {row[0]: row[2] for row in rows[3:9]}
    assert facts["This copy"] == 1
    assert facts["Date"] == "2027-03-01"
    assert facts["Kind"] == "live"
    assert facts["Made by"] == f"brinecalc {VERSION}, tables of {TABLE_DATE}"
    assert "#NAME?" in facts["What you see"]
    assert "the head of each sheet says that brinecalc is not installed" in facts["What you see"]
    assert rows[12][:5] == [1, "2027-03-01", "live", None, "first copy"]
    assert {row[0]: row[2] for row in history(frozen)[3:9]}["Kind"] == "values"


def test_a_copy_is_dated_today_unless_told_and_saved_today_in_any_case(
    plan: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """1803772800 seconds after 1970 began is 2027-02-28, 0:00 UTC."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1803772800")
    created = opened(plan.read_bytes()).properties.created
    for kind, date in (([], "2027-02-28"), (["--date", "2027-03-04"], "2027-03-04"), (["--values"], "2027-02-28")):
        assert share(plan, *kind).exit_code == 0
        made = max(tmp_path.glob("Plan copy *.xlsx")).read_bytes()
        assert history(made)[4][2] == date
        told = opened(made).properties
        assert (told.modified, told.created) == (datetime.datetime(2027, 2, 28), created)
    for wrong in ("4 March", "2027-13-01", "20270304"):
        assert "--date must be a day written as" in share(plan, "--date", wrong).output


def test_the_workbook_itself_is_only_read_and_copies_never_overwrite(example: bytes) -> None:
    assert folder()["Plan.xlsx"] == example
    assert set(folder()) == {"Plan.xlsx", *KINDS}


def test_the_same_copy_has_the_same_bytes_whatever_order_python_keeps_sets_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Made here, and in a process that keeps them in another order."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", SAVED)
    content = larder()  # openpyxl puts the second in it at which it was made
    for place in ("here", "there"):
        (tmp_path / place).mkdir()
        (tmp_path / place / "Plan.xlsx").write_bytes(content)
    words = ["--values", "--date", "2027-03-02"]
    assert share(tmp_path / "here" / "Plan.xlsx", *words).exit_code == 0
    monkeypatch.setenv("PYTHONHASHSEED", "2" if os.environ.get("PYTHONHASHSEED") == "1" else "1")
    command = [sys.executable, "-m", "brinecalc", "share", str(tmp_path / "there" / "Plan.xlsx")]
    subprocess.run([*command, *words], check=True, capture_output=True)
    made = "Plan copy 1 values.xlsx"
    here, there = ((tmp_path / place / made).read_bytes() for place in ("here", "there"))
    assert [part for part, data in parts(here).items() if data != parts(there)[part]] == []
    same = here == there
    assert same


def test_what_changed_is_told_on_the_screen_and_in_the_copy(example: bytes, tmp_path: Path) -> None:
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(example)
    (tmp_path / LIVE).write_bytes(folder()[LIVE])

    def other_figures(edit: Edit) -> None:
        edit.put("Plan", FIRST + 1, 6, 6.5)
        edit.put("Plan", FIRST + 2, 4, "=not a formula")
        edit.put("Plan", FIRST + 2, 12, 0.015)
        edit.put("Prices", FIRST, 4, 50.25)

    change(path, other_figures)
    result = share(path, "--date", "2027-03-02")
    assert "Changed since copy 1: 4 inputs." in result.output
    rows = history((tmp_path / "Plan copy 2.xlsx").read_bytes())[12:]
    assert [row[3:] for row in rows[:4]] == [
        ["Plan!F9", "2: Weight as bought, kg", "6", "6.5"],
        ["Plan!D10", "3: For", "Saturday carvery", "=not a formula"],
        ["Plan!L10", "3: Salt wanted in the product", "1.4 %", "1.5 %"],
        ["Prices!D8", "chicken breast: Price of the pack, EUR", "44.5", "50.25"],
    ]
    assert [row[0] for row in rows] == [2, 2, 2, 2, 1]
    told = parts((tmp_path / "Plan copy 2.xlsx").read_bytes()).values()
    assert not [part for part in told if b"<f>not a formula" in part or b"<f>=not a formula" in part]


def test_a_copy_of_a_copy_counts_on(plan: Path, tmp_path: Path) -> None:
    """The reader sends it further: history and number go along."""
    for kind in ((), ("--values",)):
        assert share(plan, *kind).exit_code == 0
    path = (tmp_path / "Plan copy 2 values.xlsx").rename(tmp_path / "Theirs.xlsx")
    assert share(path, "--values").exit_code == 0
    rows = history((tmp_path / "Theirs copy 3 values.xlsx").read_bytes())
    assert [row[0] for row in rows[12:]] == [3, 2, 1]


def test_a_formula_that_reads_the_number_of_a_copy_gets_the_new_one(plan: Path, tmp_path: Path) -> None:
    change(plan, lambda edit: edit.put(next(iter(edit.sheets)), 40, 9, 0.0, formula="Copies!C4*10"))
    first = next(iter(Edit(plan.read_bytes(), plan.name).sheets))
    for number in (1, 2):
        assert share(plan).exit_code == 0
        made = tmp_path / f"Plan copy {number}.xlsx"
        assert stored(made.read_bytes())[first, "I40"] == 10 * number
        plan.write_bytes(made.read_bytes())


def test_any_workbook_can_be_shared_and_its_own_sheets_are_left_alone(tmp_path: Path) -> None:
    strange = openpyxl.Workbook()
    strange.active.title = "Copies"
    strange.active["A1"] = "my copies"
    strange.active["A2"] = 1000
    strange.active["B2"] = "=BRINE_SALT(A2,5%)"
    strange.active["C2"] = "=B2*2"
    strange.create_sheet("Sent")["A1"] = "mine"
    strange.save(tmp_path / "own.xlsx")
    assert share(tmp_path / "own.xlsx", "--values").exit_code == 0
    done = (tmp_path / "own copy 1 values.xlsx").read_bytes()
    found = stored(done)
    assert found["Copies", "A1"] == "my copies"
    assert found["Sent", "A1"] == "mine"
    assert (found["Copies", "B2"], found["Copies", "C2"]) == (50, 100)
    assert stored(done, False)["Copies", "C2"] == "=B2*2"
    assert found["Copies 2", "C4"] == 1
    refused = share(tmp_path / "own.xlsx", "--no-prices")
    assert refused.exit_code == 2
    assert "has no price list" in refused.output


def test_the_list_of_the_order_of_formulas_goes_when_formulas_go(plan: Path, tmp_path: Path) -> None:
    """A spreadsheet program would call the file damaged if the list named a cell without a formula."""
    listed = f'<calcChain xmlns="{MAIN}"><c r="D1" i="1"/></calcChain>'
    change(plan, lambda edit: add_part(edit, "calcChain", listed))
    share(plan)
    share(plan, "--values")
    assert "xl/calcChain.xml" in parts((tmp_path / "Plan copy 1.xlsx").read_bytes())
    gone = parts((tmp_path / "Plan copy 2 values.xlsx").read_bytes())
    assert not [name for name, data in gone.items() if b"calcChain" in data or "calcChain" in name]


def test_a_folder_that_cannot_be_made_is_told_before_anything_is_worked_out(
    plan: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("brinecalc.workbook.share.share", lambda *_: pytest.fail("it was worked out"))
    for wrong in (plan, plan / "in", plan / "in" / "deep"):
        told = share(plan, "-o", wrong)
        assert told.exit_code == 2
        assert f"cannot make the folder {wrong}: there is a file of that name" in told.output
    assert list(tmp_path.iterdir()) == [plan]


def test_trouble_is_said_in_words(plan: Path, tmp_path: Path) -> None:
    assert "there is no file" in share(tmp_path / "None.xlsx").output
    assert "there is a file of that name" in share(plan, "-o", plan).output
    assert "there is a file of that name" in share(plan, "-o", plan / "in").output
    assert "there is no file" in share(plan, "--since", tmp_path / "lost.xlsx").output
    (tmp_path / "blank.xlsx").write_bytes(with_card(products="H1:H3"))
    result = share(tmp_path / "blank.xlsx", "--pdf")
    assert result.exit_code == 1
    assert "no batch is planned" in result.output
    assert (tmp_path / "blank copy 1.xlsx").exists()


def test_the_folder_for_copies_is_made_and_copies_in_it_count_on(plan: Path, tmp_path: Path) -> None:
    for number in (1, 2):
        result = share(plan, "-o", tmp_path / "for" / "them")
        assert result.exit_code == 0
        assert (tmp_path / "for" / "them" / f"Plan copy {number}.xlsx").exists()
    assert "Changed since copy 1: nothing." in result.output
    assert f"brinecalc {VERSION}, tables of {TABLE_DATE}" in result.output
