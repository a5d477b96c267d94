"""Changing single cells of a finished file: what is changed reads back, what is not keeps its bytes."""

from __future__ import annotations

import openpyxl
import pytest
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from xlsx import opened, parts, saved

from brinecalc.hosts.headless import calculate
from brinecalc.hosts.headless.cells import scan
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.cells import Fault

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


@pytest.fixture
def content() -> bytes:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "One & two"
    sheet["B2"] = "name"
    sheet["C2"] = 4
    sheet["C2"].number_format = "0.00"
    sheet["C3"] = "=C2*2"
    sheet["E3"] = True
    sheet["B9"].comment = Comment("kept", "someone")
    book.create_sheet("Blank")
    charts = book.create_sheet("Chart")
    for row in range(1, 5):
        charts.cell(row, 1, row)
    chart = BarChart()
    chart.add_data(Reference(charts, min_col=1, min_row=1, max_row=4))
    charts.add_chart(chart, "C2")
    return saved(book)


def test_cells_of_every_kind_read_back(content):
    edit = Edit(content, "book.xlsx")
    wanted = {
        (2, 3): 5.25,
        (2, 2): " two\nlines <&> ",
        (2, 1): -1e-9,
        (2, 4): False,
        (3, 4): "=not a formula",
        (7, 2): 12.0,
        (5, 1): "above",
        (9, 9): None,
    }
    for (row, col), value in wanted.items():
        edit.put("One & two", row, col, value)
    edit.put("Blank", 4, 2, "in a sheet without a cell")
    edit.put("Blank", 2, 1, 3.0)
    done = edit.done()
    book = opened(done)
    for (row, col), value in wanted.items():
        assert book["One & two"].cell(row, col).value == value
    assert book["One & two"]["C3"].value == "=C2*2"
    assert book["One & two"]["C2"].number_format == "0.00"
    assert book["One & two"]["D3"].data_type == "s"
    assert (book["Blank"]["B4"].value, book["Blank"]["A2"].value) == ("in a sheet without a cell", 3)
    again = Edit(done, "book.xlsx")
    assert {key: again.look("One & two", *key).value for key in wanted} == wanted


def test_only_the_sheet_that_was_changed_changes(content):
    edit = Edit(content, "book.xlsx")
    edit.put("Blank", 1, 1, "x")
    before, after = parts(content), parts(edit.done())
    assert list(before) == list(after)
    assert [name for name in before if before[name] != after[name]] == ["xl/worksheets/sheet2.xml"]


def test_nothing_noted_gives_the_very_file_back(content):
    assert Edit(content, "book.xlsx").done() == content


def test_a_value_put_where_it_stood_leaves_the_rest_of_the_sheet_alone(content):
    edit = Edit(content, "book.xlsx")
    edit.put("One & two", 2, 3, 7.0)
    before, after = (parts(data)["xl/worksheets/sheet1.xml"] for data in (content, edit.done()))
    assert after == before.replace(b' t="n"><v>4</v>', b"><v>7</v>")


def test_formulas_and_errors_can_be_put(content):
    edit = Edit(content, "book.xlsx")
    edit.put("One & two", 4, 3, 9.0, formula='IF(C2>3,"a<b","c")')
    edit.put("One & two", 4, 4, Fault("#NUM!"))
    done = edit.done()
    assert opened(done)["One & two"]["C4"].value == '=IF(C2>3,"a<b","c")'
    assert opened(done, True)["One & two"]["D4"].value == "#NUM!"
    assert opened(calculate(done, "book.xlsx").content, True)["One & two"]["C4"].value == "a<b"


def test_parts_can_be_added_and_taken_out(content):
    edit = Edit(content, "book.xlsx")
    edit.set_part("xl/more.xml", b"<more/>")
    edit.drop_part("docProps/app.xml")
    before, after = parts(content), parts(edit.done())
    assert set(after) - set(before) == {"xl/more.xml"}
    assert set(before) - set(after) == {"docProps/app.xml"}
    assert all(after[name] == before[name] for name in after if name in before)


@pytest.mark.parametrize("prefix", ["", "x:"])
def test_tags_that_close_themselves_end_where_they_end(content, prefix):
    """Such a tag as the last of its parent once swallowed the parent's end."""
    declared = f'xmlns:x="{MAIN}"' if prefix else f'xmlns="{MAIN}"'
    sheet = (
        f'<{prefix}worksheet {declared}><{prefix}sheetData><{prefix}row r="1">'
        f'<{prefix}c r="A1"><{prefix}f>1+1</{prefix}f><{prefix}v/></{prefix}c>'
        f'<{prefix}c r="B1" s="0"/></{prefix}row><{prefix}row r="3"/></{prefix}sheetData>'
        f"</{prefix}worksheet>"
    ).encode()
    edit = Edit(content, "book.xlsx")
    edit.set_part("xl/worksheets/sheet2.xml", sheet)
    edit.put("Blank", 1, 2, "b")
    edit.put("Blank", 1, 3, "c")
    edit.put("Blank", 3, 1, "a3")
    edit.put("Blank", 2, 2, "b2")
    done = calculate(edit.done(), "book.xlsx").content
    values = [[cell.value for cell in row] for row in opened(done, True)["Blank"].iter_rows()]
    assert values == [[2, "b", "c"], [None, "b2", None], ["a3", None, None]]


def test_the_scanner_of_formulas_ends_such_tags_where_they_end():
    data = (
        f'<worksheet xmlns="{MAIN}"><sheetData><row r="1"><c r="A1"><f t="array" ref="A1:B2">C1:D2</f><v>1/></v></c>'
        '<c r="C1"/></row><row r="2"/></sheetData></worksheet>'
    ).encode()
    found = scan(data, "sheet")
    assert [data[start:end] for _, start, end in found.rows[0].cells][1] == b'<c r="C1"/>'
    assert found.rows[1].close == -1
    assert found.formulas[0].v is not None
    assert data[slice(*found.formulas[0].v)] == b"<v>1/></v>"


def test_shared_texts_are_read():
    book = openpyxl.Workbook()
    book.active["A1"] = "x"
    edit = Edit(saved(book), "book.xlsx")
    edit.set_part(
        "xl/worksheets/sheet1.xml",
        f'<worksheet xmlns="{MAIN}"><sheetData><row r="1"><c r="A1" t="s"><v>1</v></c></row></sheetData>'.encode()
        + b"</worksheet>",
    )
    edit.book.shared_texts = "xl/sharedStrings.xml"
    edit.set_part(
        "xl/sharedStrings.xml",
        f'<sst xmlns="{MAIN}"><si><t>no</t></si><si><r><t>ri</t></r><r><t>ch</t></r>'.encode()
        + b"<rPh><t>not</t></rPh></si></sst>",
    )
    assert edit.look("Sheet", 1, 1).value == "rich"


def test_names_lead_to_ranges():
    book = openpyxl.Workbook()
    book.active.title = "It's"
    book.defined_names["here"] = openpyxl.workbook.defined_name.DefinedName("here", attr_text="'It''s'!$B$2:$C$9")
    book.defined_names["nowhere"] = openpyxl.workbook.defined_name.DefinedName("nowhere", attr_text="3")
    edit = Edit(saved(book), "book.xlsx")
    found = edit.place("HERE")
    assert found is not None
    assert (found.sheet, *found.area) == ("It's", 2, 2, 9, 3)
    assert edit.place("nowhere") is None
    assert edit.place("unknown") is None
