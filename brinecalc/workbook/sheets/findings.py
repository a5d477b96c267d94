"""The findings: everything that is said of each batch, a line each, to read and to print.

One idea: the plan has room for one sentence a row, and the second caution may be the one that matters. Here every
finding of every batch takes a line of its own, so none can hide and all lines have one height.
"""

from __future__ import annotations

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.hosts.formulas import places
from brinecalc.workbook import frame, page, styles
from brinecalc.workbook.agreed import where_installed
from brinecalc.workbook.book import MOST_BATCHES, Book
from brinecalc.workbook.frame import Field, Grid
from brinecalc.workbook.sheets import checks, plan
from brinecalc.workbook.sheets.plan import FIRST_ROW

SHEET = "Findings"
LINES_PER_BATCH = 1.6
PRINTED = 40
"""Lines that fill two sheets of paper; more stand on the sheet, and the line at the top says so."""

_LONGEST = 2000  # no finding is longer, nor are all findings of a batch together


def grid(batches: int = MOST_BATCHES) -> Grid:
    """The list: which batch a line is about, and the line out of all that is said of it."""
    number = f"ROW()-{FIRST_ROW - 1}"
    text = "INDEX({c_text:all},{f_at})"
    line = f"({number}-1-INDEX({{c_before:all}},{{f_at}}))"
    words = f'TRIM(MID(SUBSTITUTE({text},CHAR(10),REPT(" ",{_LONGEST})),{line}*{_LONGEST}+1,{_LONGEST}))'
    fields = [
        Field("f_batch", "Batch", "count", '=IF({f_at}="","",INDEX({batch:all},{f_at}))', width=6),
        Field("f_product", "Product", "text", '=IF({f_at}="","",INDEX({product:all},{f_at})&"")', width=21),
        Field("f_label", "For", "text", '=IF({f_at}="","",INDEX({label:all},{f_at})&"")', width=19),
        Field("f_text", "What is found, the worst of a batch first, or why the row fails", "text",
              f'=IF({{f_at}}="","",{frame.unbroken(words)})', width=84),
        Field("f_at", "Row", "count", f'=IF({number}>plan_findings,"",MATCH({number}-1,{{c_before:all}},1))', width=6),
    ]  # fmt: skip
    return Grid(SHEET, fields, FIRST_ROW, max(PRINTED, int(LINES_PER_BATCH * batches)))


def write(book: Book, sheet: Worksheet) -> None:
    """Title, the list and how it prints."""
    made = book.grids[SHEET]
    lines = book.layout.whole("c_lines", SHEET)
    lines_kept = made.last_row - FIRST_ROW + 1
    where = f"{places.quoted(checks.SHEET)}!"
    styles.put(sheet, "A1", "Findings", "title")
    styles.put(
        sheet,
        "A2",
        "All that the safety rules and the plan itself have to say, batch by batch. Nothing to fill in here.",
        "lead",
    )
    page.span(sheet, "A3:D3", "=" + where_installed("plan_state"), page.Look(size=10, bold=True, wrap=True))
    sheet.row_dimensions[3].height = 28
    styles.put(sheet, "A4", f'=IF(plan_findings=0,"Nothing is found.",plan_findings&" in all."&IF(plan_findings>{lines_kept},'
               f'" The list holds {lines_kept}; those of the last batches stand on Checks.","")&IF(plan_findings>{PRINTED}," Paper holds the first {PRINTED}.",""))', "body")  # fmt: skip
    styles.put(book.workbook[checks.SHEET], "C3", f"=SUM({lines.replace(where, '')})", "cell", "count")
    styles.put(book.workbook[checks.SHEET], "A3", "Findings of all batches", "quiet")
    book.name("findings_lead", SHEET, "$A$2")
    book.name("plan_findings", checks.SHEET, "$C$3")
    frame.lay_out(sheet, made, book.layout)
    for row in range(FIRST_ROW, made.last_row + 1):
        sheet.row_dimensions[row].height = 37
        for field in made.fields:
            cell = sheet[made.address(field.key, row)]
            styles.dress(cell, "quiet_cell" if field.key == "f_at" else "wrap", cell.number_format)
    plan.paint(sheet, f"{made.columns['f_text']}{FIRST_ROW}:{made.columns['f_text']}{made.last_row}")
    sheet.freeze_panes = f"{made.columns['f_label']}{FIRST_ROW}"
    sheet.print_title_rows = "5:7"
    sheet.page_setup.orientation = "portrait"
    sheet.print_area = f"A1:{made.columns['f_text']}{FIRST_ROW + PRINTED - 1}"
