"""The workbook that checks a program: all OK in the headless engine and in Calc, and it does notice a deviation."""

from __future__ import annotations

import io
from pathlib import Path

import openpyxl
import pytest

from brinecalc import registry
from brinecalc.hosts.headless import calculate
from brinecalc.workbook import host_check

COMMITTED = Path(__file__).parents[2] / "workbooks" / host_check.FILE_NAME


@pytest.fixture(scope="module")
def content():
    return host_check.content()


def computed(content):
    outcome = calculate(content, host_check.FILE_NAME)
    assert [problem for problem in outcome.report.problems if problem.error is None] == []
    return openpyxl.load_workbook(io.BytesIO(outcome.content), data_only=True)[host_check.SHEET]


def test_every_function_is_checked():
    lines = host_check.lines()
    assert {line.name for line in lines} == set(registry.names())
    assert sum(line.expected in host_check.ERROR_TYPES for line in lines) > 40
    assert len({line.formula for line in lines}) == len(lines)


def test_the_headless_engine_gives_every_answer(content):
    sheet = computed(content)
    assert sheet["B4"].value == f"OK: all {len(host_check.lines())} answers agree"
    assert sheet["B5"].value <= host_check.WITHIN


def test_calc_gives_every_answer(content, calc, tmp_path):
    path = tmp_path / host_check.FILE_NAME
    path.write_bytes(content)
    values = calc.workbook(path)[host_check.SHEET]
    assert values["B4"] == f"OK: all {len(host_check.lines())} answers agree"


def test_a_deviation_shows(content):
    book = openpyxl.load_workbook(io.BytesIO(content))
    sheet = book[host_check.SHEET]
    first, text, error = (
        next(row for row in range(8, sheet.max_row + 1) if test(sheet.cell(row, 3).value))
        for test in (
            lambda value: isinstance(value, (int, float)),
            lambda value: isinstance(value, str) and value.startswith("BRINE_"),
            lambda value: value == "#VALUE!",
        )
    )
    sheet.cell(first, 3).value *= 1 + 1e-9
    sheet.cell(text, 3).value += " "
    sheet.cell(error, 4).value = "=NA()"
    out = io.BytesIO()
    book.save(out)
    seen = computed(out.getvalue())
    assert [seen.cell(row, 6).value for row in (first, text, error)] == ["differs", "differs", "other error"]
    assert seen["B4"].value.startswith("3 of ")
    assert seen["B5"].value == pytest.approx(1e-9, rel=1e-3)


def test_no_value_stands_in_it_before_it_is_computed(content):
    sheet = openpyxl.load_workbook(io.BytesIO(content), data_only=True)[host_check.SHEET]
    assert all(row[3].value is None and row[5].value is None for row in sheet.iter_rows(8))


def test_the_committed_workbook_is_what_the_builder_makes(content):
    assert COMMITTED.read_bytes() == content, "python -m brinecalc.workbook.publish writes it anew"
