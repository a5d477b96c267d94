"""Array formulas side by side: every row and cell of the file written stands once and in order, with its value."""

from __future__ import annotations

import io
import re
import zipfile

import openpyxl
import pytest
from openpyxl.utils import column_index_from_string
from openpyxl.worksheet.formula import ArrayFormula

from brinecalc.hosts.headless import calculate

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
