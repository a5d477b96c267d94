"""``brinecalc respell``: names change where a formula calls them and nowhere else; there and back is nothing."""

from __future__ import annotations

import zipfile

import openpyxl
import pytest
from click.testing import CliRunner
from openpyxl.comments import Comment
from openpyxl.formatting.rule import FormulaRule
from openpyxl.workbook.defined_name import DefinedName

from brinecalc.cli import app

FORMULA = "=BRINE_SALT(A1,5%)&\" BRINE_SALT( \"&'BRINE_SALT(1)'!A1"


@pytest.fixture
def book(tmp_path):
    """A workbook with our names in formulas, texts, a sheet's name, a comment, a name and a conditional format."""
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    sheet["A1"] = 1000
    sheet["A2"] = FORMULA
    sheet["A3"] = "BRINE_SALT(A1,5%) is text"
    sheet["A2"].comment = Comment("ask BRINE_SALT(", "a cook")
    sheet.conditional_formatting.add("A1", FormulaRule(formula=["BRINE_SALT(A1,5%)>40"]))
    workbook.create_sheet("BRINE_SALT(1)")["A1"] = "other"
    workbook.defined_names["salt"] = DefinedName("salt", attr_text="BRINE_SALT(1000,5%)")
    path = tmp_path / "book.xlsx"
    workbook.save(path)
    return path


def respell(source, program, target):
    return CliRunner().invoke(app, ["respell", str(source), "--for", program, "-o", str(target)])


def parts(path):
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


@pytest.mark.parametrize(("program", "name"), [("calc", "BRINE.SALT("), ("excel-lite", "_xldudf_BRINE_SALT(")])
def test_only_calls_are_spelled_anew(book, tmp_path, program, name):
    assert respell(book, program, tmp_path / "new.xlsx").exit_code == 0
    workbook = openpyxl.load_workbook(tmp_path / "new.xlsx")
    sheet = workbook.worksheets[0]
    assert sheet["A2"].value == FORMULA.replace("BRINE_SALT(A1", name + "A1")
    assert sheet["A3"].value == "BRINE_SALT(A1,5%) is text"
    assert sheet["A2"].comment.text == "ask BRINE_SALT("
    assert workbook.sheetnames[1] == "BRINE_SALT(1)"
    assert workbook.defined_names["salt"].attr_text == name + "1000,5%)"
    assert b"BRINE" in parts(tmp_path / "new.xlsx")["xl/worksheets/sheet1.xml"]


@pytest.mark.parametrize("program", ["calc", "excel-lite"])
def test_there_and_back_is_nothing(book, tmp_path, program):
    respell(book, program, tmp_path / "there.xlsx")
    respell(tmp_path / "there.xlsx", "excel", tmp_path / "back.xlsx")
    assert parts(tmp_path / "back.xlsx") == parts(book)


def test_no_file_is_overwritten_unasked(book, tmp_path):
    taken = tmp_path / "taken.xlsx"
    taken.write_bytes(b"mine")
    run = respell(book, "calc", taken)
    assert run.exit_code == 2
    assert "exists already" in run.output
    assert taken.read_bytes() == b"mine"


def test_in_place_keeps_a_backup(book):
    before = book.read_bytes()
    run = CliRunner().invoke(app, ["respell", str(book), "--for", "calc", "--in-place"])
    assert run.exit_code == 0
    assert book.read_bytes() != before
    assert (book.parent / "book.backup.xlsx").read_bytes() == before
