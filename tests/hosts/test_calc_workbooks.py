"""Workbooks in a running LibreOffice: plain names repaired on load, kept on save, all else left alone."""

from __future__ import annotations

import re
import shutil
import zipfile

import openpyxl
import pytest
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import PatternFill
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.formula import ArrayFormula

ODD_SHEET = "BRINE_SALT(x)"
FORMULAS = {
    "B1": "=BRINE_SALT(A1,A2)",
    "B2": "=_xldudf_BRINE_SALT(A1,5%)",
    "B3": "=IFERROR(BRINE_SALT(-1,A2),-1)",
    "B4": '="BRINE_SALT(1): "&BRINE_SALT(A1,A2)&" ""BRINE_SALT(2)"""',
    "B5": "=SUM(A1:A2)",
    "B6": '="BRINE_SALT(1,2)"',
    "B7": "BRINE_SALT(1,2)",
    "B8": "=BRINE_NOSUCH(A1)",
    "B9": "=BRINE_SALT(BRINE_SALT(A1,A2)*20,A2)",
    "B10": f"='{ODD_SHEET}'!A1+BRINE_SALT(A1,A2)",
    "B11": "=FIFTY*2",
}
VALUES = {
    "B1": 50.0, "B2": 50.0, "B3": -1.0, "B4": 'BRINE_SALT(1): 50 "BRINE_SALT(2)"', "B5": 1000.05,
    "B6": "BRINE_SALT(1,2)", "B7": "BRINE_SALT(1,2)", "B8": "#NAME?", "B9": 50.0, "B10": 101.0, "B11": 100.0,
    "C1": 50.0, "C2": 100.0,
}  # fmt: skip
"""By the definition of BRINE_SALT on the water basis, 1000 g × 5 %."""


def workbook(path, *, protected=False, rows=0):
    """A workbook as openpyxl or Excel writes it: plain names in every place where a formula can stand."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Recipe"
    sheet["A1"], sheet["A2"] = 1000, 0.05
    sheet["A2"].number_format = "0.0%"
    for address, formula in FORMULAS.items():
        sheet[address] = formula
    sheet["B1"].number_format = "0.000"
    sheet["B1"].fill = PatternFill("solid", fgColor="FFEE88")
    sheet["B1"].comment = Comment("BRINE_SALT(9,9) stays", "a cook")
    sheet["C1"] = ArrayFormula("C1:C2", "=BRINE_SALT(A1:A1,{0.05;0.1})")
    book.create_sheet(ODD_SHEET)["A1"] = "=1+BRINE_SALT(Recipe!A1,Recipe!A2)"
    book.defined_names["FIFTY"] = DefinedName("FIFTY", attr_text="BRINE_SALT(Recipe!$A$1,Recipe!$A$2)")
    red = PatternFill("solid", bgColor="FF0000")
    sheet.conditional_formatting.add("A1:A2", FormulaRule(formula=["BRINE_SALT(A1,0.05)>40"], fill=red))
    chart = BarChart()
    chart.add_data(Reference(sheet, min_col=2, min_row=1, max_row=3))
    sheet.add_chart(chart, "E2")
    if protected:
        for one in book:
            one.protection.sheet = True
            one.protection.password = "secret"
    many = book.create_sheet("Many")
    for row in range(1, rows + 1):
        many.cell(row, 1, 1000 + row)
        many.cell(row, 2, f"=BRINE_SALT(A{row},5%)")
    book.save(path)
    return path


def names_in(path):
    """Every spelling of our names that stands in the formulas of a file."""
    found = set()
    with zipfile.ZipFile(path) as book:
        for part in book.namelist():
            text = book.read(part).decode("utf-8", "replace")
            for formula in re.findall(r"<(?:f|formula|definedName)\b[^>]*>([^<]*)<", text):
                code = re.sub(r'"[^"]*"|&quot;.*?&quot;|\'[^\']*\'', "", formula)
                found |= set(re.findall(r"[\w.]*BRINE[._]\w+(?=\()", code))
    return found


@pytest.mark.parametrize("protected", [False, True], ids=["open", "with locked sheets"])
def test_a_plain_workbook_is_computed_and_not_marked_as_changed(calc, tmp_path, protected):
    path = workbook(tmp_path / "plain.xlsx", protected=protected)
    with calc.book(path) as book:
        assert not calc.order("changed", book=book)
        values = calc.order("values", book=book)
        assert {address: values["Recipe"][address] for address in VALUES} == VALUES
        assert values[ODD_SHEET]["A1"] == 51.0
        calc.order("recalculate", book=book)
        assert calc.order("values", book=book) == values


def test_only_formulas_with_our_names_are_touched(calc, tmp_path):
    with calc.book(workbook(tmp_path / "plain.xlsx")) as book:
        formulas = calc.order("formulas", book=book)["Recipe"]
        assert formulas["B5"] == "=SUM(A1:A2)"
        assert formulas["B6"] == '="BRINE_SALT(1,2)"'
        assert formulas["B8"].lower() == "=brine_nosuch(a1)"
        assert formulas["B10"] == f"=$'{ODD_SHEET}'.A1+BRINE.SALT(A1;A2)"
        styles = calc.order("styles", book=book)["Recipe"]
        assert styles["B1"][2] == 0xFFEE88
        assert styles["B1"][0] != styles["B2"][0], "its number format of three decimals is its own"
        conditions = calc.order("conditions", book=book, sheet="Recipe")
        assert conditions == ["BRINE_SALT(A1,0.05)>40"], "an unresolved name would stand in small letters"


def test_other_formulas_and_names_come_out_as_they_went_in(calc, tmp_path):
    """The repair lets Calc read formulas anew; what is not ours must read the same as in a workbook without ours."""
    others = {
        "A1": "=SUM(rates)*TWO",
        "A2": "=IF(rates>1,\"a;b\",'odd, sheet'!A1)",
        "A3": "=nosuchname+nosuch(1)",
        "A4": '=TEXT(1234.5,"0.00")&"BRINE_SALT(1)"',
        "A5": "=SUMPRODUCT((rates>0.01)*rates)",
        "A6": "=1+'odd, sheet'!A1%",
    }

    def book(ours):
        made = openpyxl.Workbook()
        sheet = made.active
        for address, formula in others.items():
            sheet[address] = formula
        made.create_sheet("odd, sheet")["A1"] = 0.25
        sheet["C1"], sheet["C2"] = 0.05, 1.5
        made.defined_names["rates"] = DefinedName("rates", attr_text="Sheet!$C$1:$C$2")
        made.defined_names["TWO"] = DefinedName("TWO", attr_text="2")
        if ours:
            sheet["D1"] = "=BRINE_SALT(1000,5%)"
        made.save(tmp_path / f"{ours}.xlsx")
        with calc.book(tmp_path / f"{ours}.xlsx") as opened:
            return [calc.order(order, book=opened)["Sheet"] for order in ("formulas", "values")]

    formulas, values = book(ours=True)
    assert (formulas.pop("D1"), values.pop("D1")) == ("=BRINE.SALT(1000;5%)", 50.0)
    assert [formulas, values] == book(ours=False)


def test_a_workbook_without_our_functions_is_only_read(calc, tmp_path):
    book = openpyxl.Workbook()
    book.active["A1"] = "=1+1"
    book.save(tmp_path / "other.xlsx")
    with calc.book(tmp_path / "other.xlsx") as opened:
        assert not calc.order("changed", book=opened)
        assert calc.order("values", book=opened)["Sheet"] == {"A1": 2.0}


@pytest.mark.parametrize("ending", ["xlsx", "ods"])
def test_saved_and_opened_again_it_is_the_same(calc, tmp_path, ending):
    path = workbook(tmp_path / "plain.xlsx")
    saved = calc.convert(path, tmp_path / f"saved.{ending}")
    assert calc.workbook(saved) == calc.workbook(path)
    if ending == "xlsx":
        assert names_in(saved) == {"BRINE_SALT"}
        again = calc.convert(saved, tmp_path / "again.ods")
        back = calc.convert(again, tmp_path / "back.xlsx")
        assert names_in(back) == {"BRINE_SALT"}
        assert calc.workbook(back) == calc.workbook(path)


def test_saving_again_and_again_keeps_the_latest(calc, tmp_path):
    path = workbook(tmp_path / "plain.xlsx")
    with calc.book(path) as book:
        for water in (2000.0, 3000.0):
            calc.order("enter", book=book, sheet="Recipe", first="A1", rows=[[water]])
            assert calc.order("changed", book=book)
            calc.order("save", book=book)
            assert not calc.order("changed", book=book)
            copy = shutil.copy(path, tmp_path / "copy.xlsx")
            assert calc.workbook(copy)["Recipe"]["B1"] == water * 0.05
            assert names_in(path) == {"BRINE_SALT"}
    assert [file.name for file in tmp_path.iterdir() if file.name.startswith(".")] == []


def test_two_thousand_formulas_are_all_repaired(calc, tmp_path):
    with calc.book(workbook(tmp_path / "many.xlsx", rows=2000)) as book:
        values = calc.order("read", book=book, sheet="Many", area="A1:B2000")
        assert [row[1] for row in values] == [pytest.approx(row[0] * 0.05, rel=1e-12) for row in values]
        assert not calc.order("changed", book=book)


def test_a_book_becomes_a_pdf(calc, tmp_path):
    target = calc.convert(workbook(tmp_path / "plain.xlsx"), tmp_path / "plain.pdf")
    assert target.read_bytes().startswith(b"%PDF-")
