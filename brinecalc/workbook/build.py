"""Builds a workbook from its sheets: blank, or filled with the worked example, in metric or US units.

One idea: the same calls make the same bytes. Dates in the file are fixed, the order of parts is the writer's own
and the zip carries no clock, so that a committed workbook can be compared with what the builder makes.
"""

from __future__ import annotations

import datetime
import io
import re
import zipfile

from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet
from openpyxl.writer.excel import ExcelWriter

from brinecalc import version
from brinecalc.workbook import example, marks, styles
from brinecalc.workbook.book import Book, Options, Part
from brinecalc.workbook.sheets import (
    card,
    charts,
    checks,
    findings,
    lists,
    log,
    order,
    plan,
    prices,
    recipe,
    reference,
    results,
    soak_chart,
    start,
    workings,
    xlwings_conf,
)

STAMP = datetime.datetime(2026, 1, 1)  # file properties carry no time zone
ZIP_STAMP = (2026, 1, 1, 0, 0, 0)

PARTS = (
    Part(start.SHEET, start.write),
    Part(plan.SHEET, plan.write, plan.grid),
    Part(results.SHEET, results.write, results.grid),
    Part(findings.SHEET, findings.write, findings.grid),
    Part(recipe.SHEET, recipe.write),
    Part(prices.SHEET, prices.write, prices.grid),
    Part(order.SHEET, order.write),
    Part(card.SHEET, card.write),
    Part(log.SHEET, log.write),
    Part(charts.SHEET, charts.write),
    Part(soak_chart.SHEET, soak_chart.write),
    Part(reference.LIMITS, reference.write_limits),
    Part(reference.FUNCTIONS, reference.write_functions),
    Part(reference.SCALES, reference.write_scales),
    Part(workings.SHEET, workings.write, workings.grid),
    Part(checks.SHEET, checks.write, checks.grid),
    Part(lists.SHEET, lists.write),
    Part(xlwings_conf.SHEET, xlwings_conf.write),
)
"""The sheets in the order of their tabs. Grids are laid out first, so any sheet may name any field."""


def build(options: Options) -> bytes:
    """The workbook as bytes, formulas in it and no values computed yet."""
    workbook = Workbook()
    styles.base(workbook)
    del workbook["Sheet"]
    book = Book(workbook, options)
    for part in PARTS:
        workbook.create_sheet(part.sheet)
        if part.grid is not None:
            book.add(part.grid(options.batches))
    for part in PARTS:
        part.write(book, workbook[part.sheet])
    marks.write(book)
    if options.filled:
        example.fill(book)
    for sheet in workbook.worksheets:
        _page(sheet, options.paper)
    return packed(workbook, "Brine production workbook")


def _page(sheet: Worksheet, paper: str) -> None:
    """How a sheet prints, and that only inputs may be typed into."""
    sheet.page_setup.paperSize = 9 if paper == "A4" else 1
    sheet.page_setup.orientation = sheet.page_setup.orientation or "landscape"
    sheet.page_setup.fitToWidth = sheet.page_setup.fitToWidth or 1  # a sheet may ask for more pages side by side
    sheet.page_setup.fitToHeight = sheet.page_setup.fitToHeight or 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.sheet_view.showGridLines = False
    for side in ("left", "right", "top", "bottom"):
        setattr(sheet.page_margins, side, 0.5)
    sheet.oddFooter.left.text = f"brinecalc {version.VERSION}"
    sheet.oddFooter.right.text = "&A, page &P of &N"
    sheet.protection.sheet = True
    sheet.protection.formatColumns = False
    sheet.protection.formatRows = False


def packed(workbook: Workbook, title: str) -> bytes:
    """The file, with fixed dates inside and in the zip."""
    workbook.properties.creator = "brinecalc"
    workbook.properties.created = workbook.properties.modified = STAMP
    workbook.properties.title = title
    raw = io.BytesIO()
    with zipfile.ZipFile(raw, "w") as loose:  # packed once, with its dates put right
        ExcelWriter(workbook, loose).write_data()
    return repack(raw.getvalue())


def repack(data: bytes) -> bytes:
    """The same zip with every entry's clock set to one moment, and the time of saving taken out."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.infolist():
            content = old.read(entry)
            if entry.filename == "docProps/core.xml":
                content = _fixed_dates(content)
            info = zipfile.ZipInfo(entry.filename, ZIP_STAMP)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = 0o600 << 16
            new.writestr(info, content)
    return out.getvalue()


def _fixed_dates(core: bytes) -> bytes:
    return re.sub(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*", rb"\g<1>2026-01-01T00:00:00Z", core)
