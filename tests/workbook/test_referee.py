"""LibreOffice is the referee: every formula cell of every shipped workbook equals what is in the file."""

from __future__ import annotations

import datetime
import math
import pathlib
import shutil

import openpyxl
import pytest

WORKBOOKS = pathlib.Path(__file__).parents[2] / "workbooks"
SHIPPED = sorted(path.name for path in WORKBOOKS.glob("*.xlsx") if path.name != "host-check.xlsx")
DAY_ZERO = datetime.datetime(1899, 12, 30)
CLOSE = 1e-9  # relative; values in a file have twelve digits, and Calc rounds differences of dates


def plain(value):
    """A cell as both programs have it: a number, a text, or nothing."""
    if value is None or value == "":
        return ""
    if isinstance(value, datetime.datetime):
        return (value - DAY_ZERO) / datetime.timedelta(days=1)
    if isinstance(value, datetime.time):
        return (value.hour * 3600 + value.minute * 60 + value.second + value.microsecond / 1e6) / 86400
    if isinstance(value, bool):
        return float(value)
    return float(value) if isinstance(value, (int, float)) else value


def deviation(one, other):
    """How far two values are apart, relative; infinite for different texts or kinds."""
    one, other = plain(one), plain(other)
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) / max(1.0, abs(one))
    return 0.0 if one == other else math.inf


@pytest.mark.parametrize("name", SHIPPED)
def test_calc_gives_every_value_of_the_shipped_workbook(name, calc, tmp_path):
    formulas = openpyxl.load_workbook(WORKBOOKS / name)
    stored = openpyxl.load_workbook(WORKBOOKS / name, data_only=True)
    answers = calc.workbook(shutil.copy(WORKBOOKS / name, tmp_path))  # LibreOffice locks what it opens
    compared, worst, off = 0, 0.0, []
    for sheet in formulas.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type != "f":
                    continue
                mine = stored[sheet.title].cell(cell.row, cell.column).value
                theirs = answers[sheet.title].get(cell.coordinate)
                apart = deviation(mine, theirs)
                compared += 1
                worst = max(worst, apart)
                if apart > CLOSE:
                    off.append((f"{sheet.title}!{cell.coordinate}", mine, theirs))
    print(f"{name}: {compared} formula cells, largest deviation {worst:.2g}")
    assert compared > 10_000
    assert not off, off[:10]
