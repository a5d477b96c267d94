"""Array formulas fill their cells; side by side, every row and cell of the file written stands once and in order."""

from __future__ import annotations

import io
import re
import zipfile

import openpyxl
import pytest
from openpyxl.utils import column_index_from_string
from openpyxl.worksheet.formula import ArrayFormula
from xlsx import opened, saved

from brinecalc.hosts.headless import calculate
from tests.hosts.toys import computed, raw_book, value

SHEET = "xl/worksheets/sheet1.xml"
FORMULA = "=BRINE_SALT(1000,{1%;2%;3%})"


def workbook(places, rows=""):
    """A workbook with an array formula of three rows at each place; `rows` stand in the file after the first row."""
    book = openpyxl.Workbook()
    for place in places:
        column, row = re.fullmatch(r"([A-Z]+)(\d+)", place).groups()
        book.active[place] = ArrayFormula(f"{place}:{column}{int(row) + 2}", FORMULA)
    raw = io.BytesIO()
    book.save(raw)
    out = io.BytesIO()
    with zipfile.ZipFile(raw) as old, zipfile.ZipFile(out, "w") as new:
        for entry in old.infolist():
            data = old.read(entry)
            if entry.filename == SHEET:
                data = data.replace(b"</row>", b"</row>" + rows.encode(), 1)
            new.writestr(entry, data)
    return out.getvalue()


@pytest.mark.parametrize(
    ("places", "rows"),
    [
        (["A1", "C1"], ""),
        (["C1", "AA1", "B1"], ""),
        (["A1", "C2", "E10"], ""),
        (["A8", "C9"], ""),
        (["A1", "C1"], '<row r="2"/><row r="3"></row>'),
        (["B1", "D1"], '<row r="2"><c r="A2"><v>7</v></c><c r="C2"><v>8</v></c><c r="E2"><v>9</v></c></row>'),
        (["A1", "B1"], '<row r="2" ht="20"><c r="C2"/></row><row r="12"><c r="A12"><v>1</v></c></row>'),
    ],
)
def test_rows_and_cells_stand_once_and_in_order(places, rows):
    outcome = calculate(workbook(places, rows), "arrays.xlsx")
    assert outcome.report.kept == 0
    with zipfile.ZipFile(io.BytesIO(outcome.content)) as file:
        text = file.read(SHEET).decode()
    numbers = [int(number) for number in re.findall(r'<row r="(\d+)"', text)]
    assert numbers == sorted(set(numbers))
    for number, row in re.findall(r'<row r="(\d+)"[^>]*(?<!/)>(.*?)</row>', text):
        columns = [column_index_from_string(name) for name in re.findall(rf'<c r="([A-Z]+){number}"', row)]
        assert columns == sorted(set(columns)), row
    sheet = openpyxl.load_workbook(io.BytesIO(outcome.content), data_only=True).active
    for place in places:
        first = sheet[place]
        below = [sheet.cell(first.row + step, first.column).value for step in range(3)]
        assert below == [10, 20, 30]


@pytest.mark.parametrize("rows", [(2, 3), (2, 9)], ids=["rows there", "rows missing"])
def test_cells_and_rows_missing_beside_an_array_formula_are_put_in(rows):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet["A1"], sheet["A2"], sheet["A3"] = 1, 2, 3
    first, last = rows
    sheet[f"C{first}"] = ArrayFormula(f"C{first}:D{last}", "=A1:A3*{1,10}")
    sheet[f"E{first}"], sheet["A12"] = "right of it", "below it"
    outcome = computed(saved(book))
    new = opened(outcome.content, values=True).active
    expected = [[1, 10], [2, 20], [3, 30]] + [["#N/A", "#N/A"]] * 6
    assert [[new.cell(row, col).value for col in (3, 4)] for row in range(first, last + 1)] == expected[
        : last - first + 1
    ]
    assert (new[f"E{first}"].value, new["A12"].value) == ("right of it", "below it")
    assert computed(outcome.content).content == outcome.content


def test_a_single_result_fills_an_array_formula():
    book = openpyxl.Workbook()
    book.active["A1"] = ArrayFormula("A1:B2", "=2+3")
    new = opened(computed(saved(book)).content, values=True).active
    assert [new[place].value for place in ("A1", "B1", "A2", "B2")] == [5, 5, 5, 5]


def test_old_values_beside_an_array_formula_do_not_stand_in_its_way():
    rows = (
        '<row r="1"><c r="A1"><f t="array" ref="A1:B2">{1,2;3,4}*2</f><v>9</v></c>'
        '<c r="B1" s="0" t="str"><v>old</v></c></row>'
        '<row r="2"><c r="A2"/><c r="B2" t="e"><v>#N/A</v></c><c r="C2"><f>SUM(A1:B2)</f></c></row>'
    )
    outcome = computed(raw_book([("Plan", rows)]))
    got = [value(outcome.content, place) for place in ("A1", "B1", "A2", "B2", "C2")]
    assert got == [2, 4, 6, 8, 20]


def test_a_dynamic_array_formula_that_would_change_its_size_is_not_computed():
    rows = (
        '<row r="1"><c r="A1"><v>3</v></c><c r="B1" cm="1">'
        '<f t="array" ref="B1:B2">_xlfn._xlws.FILTER(A1:A3,A1:A3&gt;1)</f>'
        '<v>3</v></c></row><row r="2"><c r="A2"><v>2</v></c><c r="B2"><v>2</v></c></row>'
        '<row r="3"><c r="A3"><v>%d</v></c></row>'
    )
    assert computed(raw_book([("Plan", rows % 1)])).report.clean
    outcome = computed(raw_book([("Plan", rows % 5)]))
    assert "another size" in outcome.report.problems[0].reason
    assert value(outcome.content, "B1") == 3


@pytest.mark.parametrize(
    ("formula", "ref", "expected"),
    [  # source: by hand
        ("TRANSPOSE(A1:A3)", "C1:E1", [3, 1, 2]),
        ("_xlfn._xlws.SORT(A1:A3)", "C1:C3", [1, 2, 3]),
        ("_xlfn.UNIQUE(B1:B3)", "C1:C2", ["salt", "soy"]),
        ('_xlfn._xlws.FILTER(A1:A3,B1:B3="salt")', "C1:C2", [3, 2]),
        ("IF(A1:A3>1,A1:A3,0)", "C1:C3", [3, 0, 2]),
        ('A1:A3&"-"&B1:B3', "C1:C3", ["3-salt", "1-soy", "2-salt"]),
        ("BRINE_SALT(A1:A3,50%)", "C1:C3", [1.5, 0.5, 1]),
        ("SUM(A1:A3*A1:A3)", "C1", [14]),
        ("SUM(IF(A1:A3>1,A1:A3,0))", "C1", [5]),
    ],
)
def test_array_formulas_are_computed_over_their_cells(formula, ref, expected):
    book = openpyxl.Workbook()
    sheet = book.active
    for row, (number, word) in enumerate([(3, "salt"), (1, "soy"), (2, "salt")], 1):
        sheet.cell(row, 1, number)
        sheet.cell(row, 2, word)
    sheet["C1"] = ArrayFormula(ref, "=" + formula)
    outcome = computed(saved(book))
    assert outcome.report.clean
    new = opened(outcome.content, values=True).active[ref]
    cells = [new] if not isinstance(new, tuple) else [cell for row in new for cell in row]
    assert [cell.value for cell in cells] == expected
