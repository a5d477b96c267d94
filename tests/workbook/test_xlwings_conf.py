"""The workbook's hidden settings for classic xlwings, read as xlwings' own code reads them."""

from __future__ import annotations

import importlib
import re
import sys
from pathlib import Path

import pytest
import xlwings
from cards import opened
from xlwings.utils import prepare_sys_path

from brinecalc.workbook.sheets.xlwings_conf import SETTINGS, SHEET

ADD_IN = Path(xlwings.__file__).parent / "addin" / "Main.bas"


@pytest.fixture(scope="module")
def sheet():
    return opened()[SHEET]


def test_the_settings_are_texts_from_the_first_cell_down_on_a_hidden_sheet(sheet):
    assert sheet.sheet_state == "hidden"
    assert [(row[0].value, row[1].value) for row in sheet.iter_rows(1, len(SETTINGS))] == list(SETTINGS)
    assert sheet.cell(len(SETTINGS) + 1, 1).value is None
    assert all(isinstance(cell.value, str) for row in sheet.iter_rows(1, len(SETTINGS)) for cell in row)


def test_the_names_are_those_the_add_in_asks_for():
    asked = set(re.findall(r'GetConfig\("([^"]+)"', ADD_IN.read_text(encoding="utf-8", errors="replace")))
    assert {name for name, _ in SETTINGS} <= asked


def test_the_module_named_holds_the_functions():
    module = importlib.import_module(dict(SETTINGS)["UDF MODULES"])
    assert "BRINE_SALT" in dir(module)


def test_python_files_beside_the_workbook_are_not_on_the_path(monkeypatch):
    monkeypatch.setattr(sys, "path", ["kept"])
    allowed = dict(SETTINGS)["ADD_WORKBOOK_TO_PYTHONPATH"]
    prepare_sys_path(f"{allowed};/downloads/plan.xlsm;/downloads/plan.xlsm;;;")
    assert sys.path == ["kept"]
    prepare_sys_path("true;/downloads/plan.xlsm;/downloads/plan.xlsm;;;")
    assert "/downloads" in sys.path
