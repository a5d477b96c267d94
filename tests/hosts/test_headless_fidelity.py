"""What the headless engine leaves alone: everything but the values of formula cells."""

import io
import re
import zipfile

import openpyxl
import pytest
import xlsxwriter
from each import each
from every_feature import PNG
from lxml import etree
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.formatting.rule import ColorScaleRule, FormulaRule
from openpyxl.styles import Font, PatternFill, Protection
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table
from xlsx import opened, parts, saved

from tests.hosts.toys import (
    MAIN,
    OFFICE,
    book_of,
    changed,
    computed,
    formula_cell,
    raw_book,
    value,
)


def by_openpyxl():
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Plan & <more>"
    for row in range(1, 6):
        sheet.cell(row, 1, row * 1000)
        sheet.cell(row, 2, f"=BRINE_SALT(A{row},5%)").number_format = "0.0"
        sheet.cell(row, 3, f'=IF(B{row}>100,"  much <&> ","little")')
    sheet["D1"], sheet["D2"], sheet["D3"] = "=A1>0", "=1/0", "=TODAY()"
    sheet["A1"].font = Font(bold=True, color="FF0000")
    sheet["A1"].fill = PatternFill("solid", fgColor="FFFF00")
    sheet["A2"].comment = Comment("from the scale", "cook")
    sheet["A3"].hyperlink = "https://example.org/salt"
    sheet["B1"].protection = Protection(locked=False)
    sheet.merge_cells("F1:G2")
    sheet.freeze_panes = "B2"
    sheet.column_dimensions["A"].width = 22
    sheet.row_dimensions[4].hidden = True
    sheet.auto_filter.ref = "A1:C5"
    sheet.protection.sheet = True
    sheet.print_area = "A1:D5"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.oddFooter.center.text = "page &P"
    sheet.conditional_formatting.add(
        "A1:A5", ColorScaleRule(start_type="min", start_color="FFFFFF", end_type="max", end_color="FF0000")
    )
    sheet.conditional_formatting.add(
        "B1:B5", FormulaRule(formula=["B1>100"], fill=PatternFill("solid", bgColor="FF0000"))
    )
    lists = DataValidation(type="list", formula1='"salt,sugar"')
    lists.add("E1:E5")
    sheet.add_data_validation(lists)
    chart = BarChart()
    chart.add_data(Reference(sheet, min_col=2, min_row=1, max_row=5))
    sheet.add_chart(chart, "H2")
    other = book.create_sheet("Stock")
    other.append(["item", "cost"])
    other.append(["salt", 1.5])
    other.add_table(Table(displayName="Prices", ref="A1:B2"))
    other["D1"] = "='Plan & <more>'!B1*2"
    book.create_sheet("Secret").sheet_state = "veryHidden"
    book.defined_names["water"] = DefinedName("water", attr_text="'Plan & <more>'!$A$1:$A$5")
    book.properties.creator = "a cook"
    return saved(book)


def by_xlsxwriter():
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    sheet = book.add_worksheet("Plan")
    money = book.add_format({"num_format": "#,##0.00", "border": 1, "italic": True})
    sheet.write_column("A1", [1, 2, 3])
    for row in range(3):
        sheet.write_formula(row, 1, f"=BRINE_SALT(A{row + 1},5%)", money)
    sheet.write_array_formula("C1:C3", "{=A1:A3*2}")
    sheet.write_dynamic_array_formula("D1", "=SUM(A1:A3*B1:B3)")
    sheet.write_rich_string("E1", "plain ", book.add_format({"bold": True}), "bold")
    sheet.write_url("E2", "internal:Plan!A1")
    sheet.insert_image("G1", "dot.png", {"image_data": io.BytesIO(PNG)})
    sheet.add_sparkline("F1", {"range": "Plan!A1:A3"})
    sheet.data_validation("A1", {"validate": "integer", "criteria": ">", "value": 0})
    sheet.conditional_format("A1:A3", {"type": "data_bar"})
    sheet.write_comment("A2", "weigh twice")
    sheet.insert_textbox("G8", "note")
    sheet.add_table("I1:J3", {"data": [["salt", 1], ["soy", 2]], "columns": [{"header": "item"}, {"header": "cost"}]})
    sheet.set_header("&Lplan")
    sheet.set_landscape()
    sheet.outline_settings(visible=True)
    sheet.set_row(5, None, None, {"level": 1})
    chart = book.add_chart({"type": "line"})
    chart.add_series({"values": "=Plan!$B$1:$B$3"})
    sheet.insert_chart("G12", chart)
    page = book.add_chartsheet("Chart")
    chart = book.add_chart({"type": "pie"})
    chart.add_series({"values": "=Plan!$A$1:$A$3"})
    page.set_chart(chart)
    book.add_worksheet("Hidden").hide()
    book.define_name("share", "=0.05")
    book.set_custom_property("Kitchen", "north")
    book.close()
    return out.getvalue()


def with_chain_and_signs():
    """A calculation chain, a theme with odd bytes, a part that no one knows, a stored part, a zip comment."""
    base = by_openpyxl()
    extra = {
        "xl/calcChain.xml": f'<calcChain xmlns="{MAIN}"><c r="B1" i="1"/></calcChain>'.encode(),
        "customXml/item1.xml": b"<a>\r\n  odd \xc3\xa9 </a>",
        "xl/vbaProject.bin": bytes(range(256)) * 20,
    }
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in {**parts(base), **extra}.items():
            kind = zipfile.ZIP_STORED if name.endswith(".bin") else zipfile.ZIP_DEFLATED
            package.writestr(zipfile.ZipInfo(name, (2001, 2, 3, 4, 5, 6)), data, kind)
        package.comment = b"kept"
    return out.getvalue()


BOOKS = {"openpyxl": by_openpyxl, "xlsxwriter": by_xlsxwriter, "odd parts": with_chain_and_signs}


@pytest.fixture(params=BOOKS)
def pair(request):
    before = BOOKS[request.param]()
    return before, computed(before)


def sheets_with_formulas(content):
    return {name for name, data in parts(content).items() if "/worksheets/sheet" in name and b"<f" in data}


def test_every_other_part_is_the_same_to_the_byte(pair):
    before, outcome = pair
    old, new = parts(before), parts(outcome.content)
    assert list(old) == list(new)
    may_change = sheets_with_formulas(before) | {"xl/workbook.xml"}
    assert {name for name in old if old[name] != new[name]} <= may_change
    assert sheets_with_formulas(before) & {name for name in old if old[name] != new[name]}


def without_values(data):
    """The tree of a sheet without what may change: type and value of formula cells."""
    root = etree.fromstring(data)
    for cell in root.iter(f"{{{MAIN}}}c"):
        if cell.find(f"{{{MAIN}}}f") is not None:
            cell.attrib.pop("t", None)
            for tag in ("v", "is"):
                for old in cell.findall(f"{{{MAIN}}}{tag}"):
                    cell.remove(old)
    return etree.tostring(root)


def test_in_a_sheet_only_values_of_formula_cells_change(pair):
    before, outcome = pair
    old, new = parts(before), parts(outcome.content)
    arrays = (b't="array" ref="C1:C3"',)  # cells beside an array formula get values too
    for name in sheets_with_formulas(before):
        for part in (0, -1):
            edge = re.split(b"<sheetData>|</sheetData>", old[name])[part]
            assert re.split(b"<sheetData>|</sheetData>", new[name])[part] == edge
        if not any(mark in old[name] for mark in arrays):
            assert without_values(old[name]) == without_values(new[name])


def test_the_workbook_part_changes_only_in_its_calculation_settings(pair):
    before, outcome = pair
    if any(problem.error is None for problem in outcome.report.problems):
        assert parts(before)["xl/workbook.xml"] == parts(outcome.content)["xl/workbook.xml"]
        return
    cut = [re.split(rb"<calcPr[^>]*/>", parts(book)["xl/workbook.xml"]) for book in (before, outcome.content)]
    assert cut[0] == cut[1]
    tag = re.search(rb"<calcPr[^>]*/>", parts(outcome.content)["xl/workbook.xml"]).group()
    assert b"fullCalcOnLoad" not in tag
    assert b'calcId="191029"' in tag


def test_the_zip_keeps_order_dates_methods_and_comment(pair):
    before, outcome = pair
    old, new = (zipfile.ZipFile(io.BytesIO(content)) for content in (before, outcome.content))
    assert new.testzip() is None
    kept = ("filename", "date_time", "compress_type", "external_attr", "create_system", "comment")
    assert [[getattr(e, k) for k in kept] for e in old.infolist()] == [
        [getattr(e, k) for k in kept] for e in new.infolist()
    ]
    assert old.comment == new.comment


def test_computing_again_changes_nothing(pair):
    outcome = pair[1]
    assert computed(outcome.content).content == outcome.content


def test_values_are_right_and_of_the_right_type():
    """Source: by hand."""
    outcome = computed(by_openpyxl())
    book = opened(outcome.content, values=True)
    sheet = book["Plan & <more>"]
    assert [sheet.cell(row, 2).value for row in range(1, 6)] == [50, 100, 150, 200, 250]
    assert [sheet.cell(row, 3).value for row in (1, 2, 3)] == ["little", "little", "  much <&> "]
    assert sheet["D1"].value is True
    assert sheet["D2"].value == "#DIV/0!"
    assert book["Stock"]["D1"].value == 100
    assert outcome.report.errors == 1
    assert outcome.report.formulas == 14


def test_array_formulas_fill_their_cells():
    """Source: by hand."""
    sheet = opened(computed(by_xlsxwriter()).content, values=True)["Plan"]
    assert [sheet[f"C{row}"].value for row in (1, 2, 3)] == [2, 4, 6]
    assert sheet["D1"].value == pytest.approx(0.7)


def test_shared_formulas_get_values_and_stay_shared():
    """Source: by hand; the text of the first stands for all, its references moving along."""
    rows = (
        '<row r="1"><c r="A1"><v>1</v></c>'
        '<c r="B1"><f t="shared" ref="B1:C3" si="0">BRINE_SALT(A1*$A$3,"5%"&amp;"A1")+LEN("A1")</f></c>'
        '<c r="C1"><f t="shared" si="0"/></c></row>'
        '<row r="2"><c r="A2"><v>2</v></c><c r="B2"><f t="shared" si="0"/><v>77</v></c></row>'
        '<row r="3"><c r="A3"><v>10</v></c><c r="B3" t="str"><f t="shared" si="0"/><v>old</v></c></row>'
    ).replace('"5%"&amp;"A1"', "50%")
    outcome = computed(raw_book([("Plan", rows)]))
    assert [value(outcome.content, f"B{row}") for row in (1, 2, 3)] == [7, 12, 52]
    assert value(outcome.content, "C1") == 37
    sheet = parts(outcome.content)["xl/worksheets/sheet1.xml"].decode()
    assert '<c r="B2"><f t="shared" si="0"/><v>12</v></c>' in sheet
    assert '<c r="B3"><f t="shared" si="0"/><v>52</v></c>' in sheet


@each(
    ("before", "after"),
    [
        ('<c r="B1" s="3" t="str"><f>A1*2</f><v>x</v></c>', '<c r="B1" s="3"><f>A1*2</f><v>4</v></c>'),
        ('<c t="e" r="B1"><f>A1&gt;1</f><v>#N/A</v></c>', '<c t="b" r="B1"><f>A1&gt;1</f><v>1</v></c>'),
        ("<c r='B1' t='b'><f>1/0</f><v>1</v></c>", "<c r='B1' t=\"e\"><f>1/0</f><v>#DIV/0!</v></c>"),
        ('<c r="B1"><f ca="1">"a"</f></c>', '<c r="B1" t="str"><f ca="1">"a"</f><v>a</v></c>'),
        ('<c r="B1" ><f>1/3</f><v/></c>', '<c r="B1" ><f>1/3</f><v>0.333333333333</v></c>'),
        ('<c r="B1" t="inlineStr"><f>A1</f><is><t>old</t></is></c>', '<c r="B1"><f>A1</f><v>2</v></c>'),
        ('<c r="B1"><v>9</v><f>A1</f></c>', '<c r="B1"><v>2</v><f>A1</f></c>'),
        ('<c r="B1">\n  <f>C9</f>\n  <v>9</v>\n</c>', '<c r="B1">\n  <f>C9</f>\n  <v>0</v>\n</c>'),
        (
            '<c r="B1"><f>A1</f><v>9</v><extLst><ext uri="u"/></extLst></c>',
            '<c r="B1"><f>A1</f><v>2</v><extLst><ext uri="u"/></extLst></c>',
        ),
        ('<c r="B1" t="str"><f>""</f><v></v></c>', '<c r="B1" t="str"><f>""</f><v></v></c>'),
        (
            '<c r="B1"><f>CHAR(7)&amp;"_x0041_"</f></c>',
            '<c r="B1" t="str"><f>CHAR(7)&amp;"_x0041_"</f><v>_x0007__x005F_x0041_</v></c>',
        ),
        ('<c r="B1"><f>" "</f></c>', '<c r="B1" t="str"><f>" "</f><v xml:space="preserve"> </v></c>'),
        (
            '<c r="B1"><!-- <f>1</f> --><f><![CDATA[A1<3]]></f></c>',
            '<c r="B1" t="b"><!-- <f>1</f> --><f><![CDATA[A1<3]]></f><v>1</v></c>',
        ),
        ('<c r="B1" note="a > b"><f>A1</f></c>', '<c r="B1" note="a > b"><f>A1</f><v>2</v></c>'),
        ("<c><f>A1</f></c>", "<c><f>A1</f><v>2</v></c>"),
    ],
)
def test_a_cell_keeps_every_byte_but_its_value(before, after):
    content = raw_book([("Plan", f'<row r="1"><c r="A1"><v>2</v></c>{before}<c r="D1"/></row>')])
    outcome = computed(content)
    old, new = parts(content), parts(outcome.content)
    name = "xl/worksheets/sheet1.xml"
    assert new[name] == old[name].replace(before.encode(), after.encode())


def test_prefixed_and_strict_workbooks():
    prefixed = raw_book(
        [("Plan", "")],
        extra={
            "xl/worksheets/sheet1.xml": f'<x:worksheet xmlns:x="{MAIN}"><x:sheetData><x:row r="1">'
            '<x:c r="A1"><x:v>2</x:v></x:c>'
            '<x:c r="B1"><x:f>A1*2</x:f></x:c></x:row></x:sheetData></x:worksheet>'
        },
    )
    assert b"<x:f>A1*2</x:f><x:v>4</x:v></x:c>" in parts(computed(prefixed).content)["xl/worksheets/sheet1.xml"]
    strict = raw_book(
        [("Plan", '<row r="1"><c r="A1"><v>2</v></c><c r="B1"><f>A1*2</f></c></row>')],
        root='<worksheet xmlns="http://purl.oclc.org/ooxml/spreadsheetml/main">',
    )
    assert b"<f>A1*2</f><v>4</v>" in parts(computed(strict).content)["xl/worksheets/sheet1.xml"]


def test_calculation_settings_are_edited_in_place():
    cell = f'<row r="1">{formula_cell("A1", "1+1")}</row>'
    given = "<calcPr calcMode='auto' fullCalcOnLoad='1'\n calcId=\"124519\"  forceFullCalc=\"1\" ></calcPr>"
    new = parts(computed(raw_book([("Plan", cell)], after=given)).content)["xl/workbook.xml"].decode()
    assert "<calcPr calcMode='auto'\n calcId=\"191029\" ></calcPr>" in new
    newer = '<calcPr calcId="999999"/>'
    assert newer in parts(computed(raw_book([("Plan", cell)], after=newer)).content)["xl/workbook.xml"].decode()
    bare = raw_book([("Plan", cell)], after="")
    assert parts(computed(bare).content)["xl/workbook.xml"] == parts(bare)["xl/workbook.xml"]


def test_the_order_to_recompute_stays_where_a_formula_was_not_computed():
    content = book_of({"A1": "=FOO(1)", "A2": "=1+1"})
    outcome = computed(content)
    assert b'fullCalcOnLoad="1"' in parts(outcome.content)["xl/workbook.xml"]
    assert value(outcome.content, "A2") == 2


def test_a_workbook_without_formulas_stays_as_it_is():
    content = book_of({"A1": 1, "B1": "salt"})
    outcome = computed(content)
    assert outcome.content == content
    assert outcome.report.clean
    assert outcome.report.formulas == 0


def test_numbers_have_12_significant_digits():
    rows = '<row r="1">' + "".join(
        formula_cell(f"{c}1", f)
        for c, f in zip("ABCDEF", ["1/3", "2/3*1E-9", "1E20/3", "100*50%", "-1/7", "1E15+1"], strict=True)
    )
    sheet = parts(computed(raw_book([("Plan", rows + "</row>")])).content)["xl/worksheets/sheet1.xml"].decode()
    assert re.findall("<v>(.*?)</v>", sheet) == [
        "0.333333333333",
        "6.66666666667e-10",
        "3.33333333333e+19",
        "50",
        "-0.142857142857",
        "1e+15",
    ]


def test_days_are_counted_as_the_workbook_counts_them():
    """Serial 45000 is 2023-03-15, or 2027-03-16 where days are counted from 1904."""
    cells = (
        '<row r="1"><c r="A1"><v>45000</v></c>'
        + formula_cell("B1", 'TEXT(A1,"yyyy-mm-dd")')
        + formula_cell("C1", "DATE(2027,3,16)")
        + "</row>"
    )
    assert value(computed(raw_book([("Plan", cells)])).content, "B1") == "2023-03-15"
    later = computed(raw_book([("Plan", cells)], inside='<workbookPr date1904="1"/>'))
    assert value(later.content, "B1") == "2027-03-16"
    assert b"<v>45000</v></c></row>" in parts(later.content)["xl/worksheets/sheet1.xml"]


def test_unicode_and_right_to_left_names():
    title = "מלח – 食塩 é"
    outcome = computed(book_of({"A1": 4, "B1": f"='{title}'!A1*2", "C1": '="ملح"&A1'}, title=title))
    assert outcome.report.clean
    assert value(outcome.content, "B1") == 8
    assert value(outcome.content, "C1") == "ملح4"


def test_hidden_and_very_hidden_sheets_are_computed():
    book = openpyxl.Workbook()
    book.active["A1"] = "=Deep!A1+Hidden!A1"
    for name, state in (("Hidden", "hidden"), ("Deep", "veryHidden")):
        sheet = book.create_sheet(name)
        sheet.sheet_state = state
        sheet["A1"] = "=2*3"
    outcome = computed(saved(book))
    assert value(outcome.content, "A1") == 12
    assert [sheet.sheet_state for sheet in opened(outcome.content, values=True)] == ["visible", "hidden", "veryHidden"]


def test_macros_are_kept_and_the_file_keeps_its_kind():
    macro = {"xl/vbaProject.bin": b"\0macro\0" * 50}
    outcome = computed(changed(book_of({"A1": "=1+1"}), parts=macro), "Plan.xlsm")
    assert parts(outcome.content)["xl/vbaProject.bin"] == macro["xl/vbaProject.bin"]
    assert value(outcome.content, "A1") == 2


def test_a_signed_workbook_is_computed_with_a_note():
    outcome = computed(changed(book_of({"A1": "=1+1"}), parts={"_xmlsignatures/sig1.xml": b"<Signature/>"}))
    assert any("signature" in note for note in outcome.report.notes)
    assert OFFICE.startswith("http")
