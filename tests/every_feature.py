"""Workbooks with every feature that openpyxl and XlsxWriter can make, our plan and price list among them.

Only what needs a file of another program is left out: a pivot table, which neither library makes.
"""

from __future__ import annotations

import datetime
import io
import struct
import zipfile
import zlib

import openpyxl
import xlsxwriter
from kitchens import RANGES, fill
from openpyxl import chart as charts
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.formatting.rule import CellIsRule, ColorScaleRule, DataBarRule, FormulaRule, IconSetRule
from openpyxl.packaging.custom import StringProperty
from openpyxl.styles import Alignment, Border, Font, GradientFill, NamedStyle, PatternFill, Protection, Side
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.workbook.protection import WorkbookProtection
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.filters import FilterColumn, Filters, SortCondition, SortState
from openpyxl.worksheet.formula import ArrayFormula, DataTableFormula
from openpyxl.worksheet.pagebreak import Break
from openpyxl.worksheet.scenario import InputCells, Scenario, ScenarioList
from openpyxl.worksheet.table import Table, TableColumn, TableFormula, TableStyleInfo

PNG = b"\x89PNG\r\n\x1a\n" + b"".join(
    struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    for kind, data in (
        (b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0)),
        (b"IDAT", zlib.compress(b"\0abc")),
        (b"IEND", b""),
    )
)
MACROS = bytes(range(256)) * 30
"""Stands for a project of macros, which are kept and never looked at."""


def by_openpyxl() -> bytes:
    book = fill(openpyxl.Workbook())
    _looks(book)
    _rules(book)
    _pages(book)
    _pictures(book)
    _formulas(book)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _looks(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("Looks", 0)
    sheet["A1"], sheet["A2"] = "salt", 12.5
    side = Side("double", color="00FF00")
    sheet["A1"].font = Font("Courier New", 14, True, True, strike=True, color="FF0000", vertAlign="superscript")
    sheet["A1"].fill = GradientFill(stop=("FFFFFF", "336699"))
    sheet["A2"].fill = PatternFill("darkGrid", fgColor="FFFF00")
    sheet["A1"].border = Border(side, side, side, side, side, diagonalUp=True)
    sheet["A1"].alignment = Alignment("justify", "top", 45, True, indent=1)
    sheet["A2"].protection = Protection(locked=False, hidden=True)
    sheet["A2"].number_format = '[>10]0.0 "kg";[Red]@'
    book.add_named_style(NamedStyle("weighed", font=Font(bold=True), number_format="0.000"))
    sheet["A3"].style = "weighed"
    sheet["A4"] = CellRichText("plain ", TextBlock(InlineFont(b=True, color="FF0000"), "bold"), " <&> ")
    sheet["A5"], sheet["A6"], sheet["A7"] = (
        datetime.date(2027, 3, 1),
        datetime.time(12, 30),
        datetime.timedelta(hours=30),
    )
    sheet["A8"], sheet["A9"], sheet["A10"] = True, "#N/A", "  spaces\nand lines  "
    sheet["A11"].hyperlink = "https://example.org/salt?a=1&b=2"
    sheet["A12"].hyperlink = "#Plan!A1"
    sheet["A13"].comment = Comment("weigh twice", "a cook", height=200, width=300)
    sheet.merge_cells("C1:D3")
    sheet.sheet_properties.tabColor = "1072BA"
    sheet.column_dimensions["B"].width = 33
    sheet.column_dimensions.group("F", "H", hidden=True, outline_level=2)
    sheet.row_dimensions.group(20, 25, outline_level=1, hidden=True)
    sheet.row_dimensions[2].height = 40
    sheet.sheet_view.showGridLines = False
    sheet.sheet_view.zoomScale = 85
    sheet.sheet_view.rightToLeft = True
    sheet.freeze_panes = "B2"


def _rules(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("Rules")
    for row in range(1, 8):
        sheet.append([row, row * 2.5, f"item {row}"])
    red = PatternFill("solid", bgColor="FF0000")
    for rule in (
        ColorScaleRule(start_type="min", start_color="FFFFFF", mid_type="percentile", mid_value=50, mid_color="00FF00",
                       end_type="max", end_color="FF0000"),
        DataBarRule("num", 0, "max", None, color="638EC6"),
        IconSetRule("3TrafficLights1", "percent", [0, 33, 67]),
        CellIsRule("between", ["1", "3"], fill=red, stopIfTrue=True),
        FormulaRule(formula=["BRINE_SALT(A1,5%)>100"], fill=red),
    ):  # fmt: skip
        sheet.conditional_formatting.add("A1:A7", rule)
    for kind, given in (
        ("list", {"formula1": '"salt,sugar"'}),
        ("whole", {"operator": "greaterThan", "formula1": "0"}),
        ("decimal", {"operator": "between", "formula1": "0", "formula2": "1"}),
        ("date", {"operator": "lessThan", "formula1": "50000"}),
        ("time", {"operator": "lessThan", "formula1": "0.5"}),
        ("textLength", {"operator": "lessThan", "formula1": "9"}),
        ("custom", {"formula1": "BRINE_SALT(A1,5%)<90"}),
    ):
        rule = DataValidation(kind, showErrorMessage=True, error="no", promptTitle="weigh", prompt="twice", **given)
        rule.add("B1:B7")
        sheet.add_data_validation(rule)
    sheet.auto_filter.ref = "A1:C7"
    sheet.auto_filter.filterColumn.append(FilterColumn(colId=0, filters=Filters(filter=["1", "2"])))
    sheet.auto_filter.sortState = SortState(ref="A2:C7", sortCondition=[SortCondition(ref="B2:B7", descending=True)])
    sheet.protection.set_password("salt")
    sheet.protection.sheet = True
    change = Scenario(name="more salt", inputCells=[InputCells(r="A1", val="9")], locked=True)
    sheet.scenarios = ScenarioList(scenario=[change], current="0", show="0")
    book.security = WorkbookProtection(workbookPassword="brine", lockStructure=True)
    book.create_sheet("Hidden").sheet_state = "hidden"
    book.create_sheet("Deep").sheet_state = "veryHidden"


def _pages(book: openpyxl.Workbook) -> None:
    sheet = book["Plan"]
    sheet.print_area = "A1:E3"
    sheet.print_title_rows, sheet.print_title_cols = "1:1", "A:A"
    sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", 9
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.page_margins.left = 0.3
    sheet.print_options.gridLines = sheet.print_options.horizontalCentered = True
    sheet.oddHeader.center.text, sheet.evenFooter.left.text, sheet.firstFooter.right.text = "&A", "&P of &N", "&D"
    sheet.row_breaks.append(Break(2))
    sheet.col_breaks.append(Break(3))
    book.defined_names["water"] = DefinedName("water", attr_text="Plan!$C$1:$C$3", comment="of every batch")
    book.defined_names["usual"] = DefinedName("usual", attr_text="BRINE_SALT(1000,5%)", hidden=True)
    sheet.defined_names["here"] = DefinedName("here", attr_text="Plan!$C$1")
    book.properties.creator, book.properties.title, book.properties.keywords = "a cook", "Plan", "brine, salt"
    book.custom_doc_props.append(StringProperty(name="Kitchen", value="north"))


def _pictures(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("Charts")
    for row in range(1, 6):
        sheet.append([row, row * 2, row * 3, row * 4, row * 5])
    kinds = (
        charts.AreaChart, charts.AreaChart3D, charts.BarChart, charts.BarChart3D, charts.LineChart, charts.LineChart3D,
        charts.PieChart, charts.PieChart3D, charts.DoughnutChart, charts.ProjectedPieChart, charts.RadarChart,
        charts.SurfaceChart, charts.SurfaceChart3D, charts.StockChart,
    )  # fmt: skip
    for number, kind in enumerate(kinds):
        made = kind()
        made.title = f"chart {number} <&>"
        made.add_data(charts.Reference(sheet, min_col=2, max_col=5, min_row=1, max_row=5))
        sheet.add_chart(made, f"H{1 + number * 16}")
    for kind in (charts.ScatterChart, charts.BubbleChart):
        made = kind()
        areas = [charts.Reference(sheet, min_col=col, min_row=1, max_row=5) for col in (1, 2, 3)]
        given = {"zvalues": areas[2]} if kind is charts.BubbleChart else {}
        made.series.append(charts.Series(areas[1], areas[0], **given))
        sheet.add_chart(made, "R1")
    page = book.create_chartsheet("Page")
    made = charts.LineChart()
    made.add_data(charts.Reference(sheet, min_col=1, min_row=1, max_row=5))
    page.add_chart(made)


def _formulas(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("Formulas")
    sheet.append(["water", "salt"])
    sheet.append([1000, "=BRINE_SALT(A2,5%)"])
    sheet.append([2000, "=BRINE_SALT(A3,5%)"])
    columns = [TableColumn(id=1, name="water"), TableColumn(id=2, name="salt")]
    columns[1].calculatedColumnFormula = TableFormula(attr_text="BRINE_SALT(Recipe[[#This Row],[water]],5%)")
    style = TableStyleInfo("TableStyleMedium9", showRowStripes=True)
    table = Table(id=1, displayName="Recipe", ref="A1:B3", tableColumns=columns, tableStyleInfo=style)
    table._initialise_columns = lambda: None
    sheet.add_table(table)
    sheet["D1"] = ArrayFormula("D1:D2", "=A2:A3*2")
    sheet["F1"] = DataTableFormula("F1:F2", dt2D=False, r1="A2")
    sheet["G1"], sheet["G2"], sheet["G3"] = "=1/0", '="<" & CHAR(38)', "=A2>A3"
    sheet["H1"] = '=BRINE_WHY("SALT",1000,5)&"BRINE_SALT("'


def by_xlsxwriter() -> bytes:
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    _kitchen(book)
    _features(book, book.add_worksheet("Features"))
    _objects(book, book.add_worksheet("Objects"))
    _all_charts(book, book.add_worksheet("Charts"))
    book.add_worksheet("Hidden").hide()
    book.add_worksheet("Deep").very_hidden()
    book.define_name("usual", "=BRINE_SALT(1000,5%)")
    book.define_name("Plan!here", "=Plan!$C$1")
    book.set_properties(
        {"title": "Plan", "author": "a cook", "keywords": "brine", "created": datetime.date(2027, 3, 1)}
    )
    book.set_custom_property("Kitchen", "north")
    book.set_custom_property("Checked", datetime.datetime(2027, 3, 1, 12, 0), "date")
    book.set_size(1200, 800)
    book.read_only_recommended()
    book.add_vba_project(io.BytesIO(MACROS), True)
    book.close()
    return out.getvalue()


def _kitchen(book: xlsxwriter.Workbook) -> None:
    plan, prices = book.add_worksheet("Plan"), book.add_worksheet("Prices")
    money = book.add_format({"num_format": "#,##0.00 €", "border": 1, "italic": True, "font_color": "#336699"})
    for row, product in enumerate(("chicken breast", "pork chops", "salmon fillet")):
        plan.write_row(row, 0, (product, f"batch {row + 1}", (row + 1) * 1000))
        plan.write_formula(row, 3, f"=BRINE_SALT(C{row + 1},5%)")
        plan.write_formula(row, 4, f"=D{row + 1}*Prices!$B$1/1000", money)
    prices.write_row(0, 0, ("salt", 1.25))
    prices.write_row(1, 0, ("honey", 9), money)
    prices.write_comment("B1", "per kilogram", {"author": "a cook", "visible": True})
    for name, place in RANGES.items():
        book.define_name(name, f"={place}")


def _features(book: xlsxwriter.Workbook, sheet: xlsxwriter.worksheet.Worksheet) -> None:
    bold = book.add_format({"bold": True, "rotation": 30, "pattern": 3, "bg_color": "yellow", "quote_prefix": True})
    sheet.write_column("A1", [1, 2, 3])
    sheet.write_column("A4", ["text", "  é <&> ", "مرحبا"], bold)
    sheet.write_array_formula("C1:C3", "{=A1:A3*2}")
    sheet.write_dynamic_array_formula("D1", "=SUM(A1:A3*2)")
    sheet.write_formula("D2", "=BRINE_SALT(A2,5%)", None, 7)
    sheet.write_boolean("D3", True)
    sheet.write_datetime("D4", datetime.datetime(2027, 3, 1), book.add_format({"num_format": "dd/mm/yy"}))
    sheet.write_rich_string("E1", "plain ", bold, "bold", book.add_format({"underline": 2}), " line")
    sheet.write_url("E2", "internal:Plan!A1", tip="go there")
    sheet.write_url("E3", "https://example.org/salt#a", string="salt")
    sheet.write_url("E4", "external:other.xlsx#Plan!A1")
    sheet.data_validation("A1", {"validate": "integer", "criteria": ">", "value": 0, "input_title": "weigh"})
    sheet.data_validation("A2", {"validate": "list", "source": ["salt", "sugar"]})
    for rule in (
        {"type": "data_bar", "data_bar_2010": True, "bar_negative_color": "red"},
        {"type": "2_color_scale"},
        {"type": "3_color_scale"},
        {"type": "icon_set", "icon_style": "5_ratings"},
        {"type": "cell", "criteria": ">", "value": 1, "format": bold},
        {"type": "formula", "criteria": "=BRINE_SALT(A1,5%)>1", "format": bold},
        {"type": "top", "value": 1, "format": bold},
        {"type": "duplicate", "format": bold},
        {"type": "average", "criteria": "above", "format": bold},
        {"type": "text", "criteria": "containing", "value": "salt", "format": bold},
        {"type": "time_period", "criteria": "last week", "format": bold},
        {"type": "blanks", "format": bold},
    ):
        sheet.conditional_format("A1:A3", rule)
    columns = [{"header": "item", "total_string": "all"}, {"header": "cost", "total_function": "sum"},
               {"header": "salt", "formula": "=BRINE_SALT([@cost],5%)"}]  # fmt: skip
    sheet.add_table(
        "G1:I4", {"data": [["salt", 1], ["soy", 2]], "columns": columns, "total_row": True, "name": "Items"}
    )
    sheet.add_sparkline("K1", {"range": "Features!A1:A3", "type": "column", "markers": True})
    sheet.autofilter("A1:A6")
    sheet.filter_column("A", "x > 0")
    sheet.set_row(9, 30, None, {"level": 1, "collapsed": True})
    sheet.set_column("M:N", 20, bold, {"level": 1, "hidden": True})
    sheet.merge_range("P1:R2", "merged", bold)
    sheet.freeze_panes(1, 1)
    sheet.protect("salt", {"format_cells": True})
    sheet.unprotect_range("A1:A3", "free")
    sheet.ignore_errors({"number_stored_as_text": "A1:A9"})
    sheet.set_header("&L&[Picture]&Cplan", {"image_left": "dot.png", "image_data_left": io.BytesIO(PNG)})
    sheet.set_footer("&P of &N", {"scale_with_doc": False})
    sheet.repeat_rows(0)
    sheet.print_area("A1:F9")
    sheet.set_h_pagebreaks([3])
    sheet.set_landscape()
    sheet.set_tab_color("#1072BA")
    sheet.outline_settings(visible=False)
    sheet.right_to_left()


def _objects(book: xlsxwriter.Workbook, sheet: xlsxwriter.worksheet.Worksheet) -> None:
    picture = {"image_data": io.BytesIO(PNG)}
    sheet.insert_image(
        "A1", "dot.png", {**picture, "description": "a dot", "url": "https://example.org", "decorative": False}
    )
    sheet.embed_image("A5", "dot.png", picture)
    sheet.set_background(io.BytesIO(PNG))
    sheet.insert_textbox("C1", "note", {"font": {"bold": True}, "fill": {"color": "yellow"}, "textlink": "=Plan!$D$1"})
    sheet.insert_button("C8", {"macro": "weigh", "caption": "Weigh"})
    sheet.insert_checkbox("E1", True)
    sheet.write_comment("E2", "twice", {"color": "#FF0000"})
    sheet.write_formula("F1", "=BRINE_SALT(1000,5%)")


def _all_charts(book: xlsxwriter.Workbook, sheet: xlsxwriter.worksheet.Worksheet) -> None:
    for row in range(5):
        sheet.write_row(row, 0, (row + 1, row * 2, row * 3, row * 4))
    kinds = ("area", "bar", "column", "line", "pie", "doughnut", "scatter", "stock", "radar")
    for number, kind in enumerate(kinds):
        made = book.add_chart({"type": kind})
        for column in "BCD":
            area = f"=Charts!${column}$1:${column}$5"
            made.add_series({"categories": "=Charts!$A$1:$A$5", "values": area, "name": f"=Charts!${column}$1"})
        made.set_title({"name": f"{kind} <&>"})
        if kind == "column":
            line = book.add_chart({"type": "line"})
            line.add_series({"values": "=Charts!$B$1:$B$5", "y2_axis": True, "trendline": {"type": "linear"}})
            made.combine(line)
        sheet.insert_chart(number * 16, 6, made)
    made = book.add_chart({"type": "line", "subtype": "stacked"})
    made.add_series({"values": "=Plan!$D$1:$D$3", "data_labels": {"value": True}, "marker": {"type": "diamond"}})
    book.add_chartsheet("Page").set_chart(made)


def with_odd_parts() -> bytes:
    """What other programs put into packages: parts that nobody knows or packs, old dates, a signature."""
    extra = {
        "xl/calcChain.xml": b'<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>',
        "xl/externalLinks/externalLink1.xml": b"<externalLink/>",
        "xl/pivotTables/pivotTable1.xml": b"<pivotTableDefinition/>",
        "xl/pivotCache/pivotCacheDefinition1.xml": b"<pivotCacheDefinition/>",
        "xl/slicers/slicer1.xml": b"<slicers/>",
        "xl/persons/person.xml": b"<personList/>",
        "xl/threadedComments/threadedComment1.xml": b"<ThreadedComments/>",
        "xl/activeX/activeX1.bin": MACROS,
        "xl/printerSettings/printerSettings1.bin": MACROS[::-1],
        "customXml/item1.xml": b"<a>\r\n  odd \xc3\xa9 </a>",
        "docProps/thumbnail.jpeg": MACROS[:400],
        "_xmlsignatures/sig1.xml": b"<Signature/>",
        "odd \xe9/\u98df.bin": b"",
    }
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(by_openpyxl())) as old, zipfile.ZipFile(out, "w") as package:
        for name, data in {**{name: old.read(name) for name in old.namelist()}, **extra}.items():
            entry = zipfile.ZipInfo(name, (2001, 2, 3, 4, 5, 6))
            entry.external_attr = 0o640 << 16
            entry.comment = b"a part" if name in extra else b""
            package.writestr(entry, data, zipfile.ZIP_STORED if name.endswith(".bin") else zipfile.ZIP_DEFLATED, 9)
        package.comment = b"kept"
    return out.getvalue()


BOOKS = {
    "openpyxl": (by_openpyxl, ".xlsx"),
    "XlsxWriter": (by_xlsxwriter, ".xlsm"),
    "odd parts": (with_odd_parts, ".xlsx"),
}
"""Who makes it, and the ending of its file's name."""
