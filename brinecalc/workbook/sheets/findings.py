"""The findings: everything that is said of each batch, one under the other, to read and to print.

One idea: the plan has room for one sentence a row, and the second caution may be the one that matters. Here every
finding stands in full, and the batch is released only when all of them have been read.
"""

from __future__ import annotations

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame, styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.frame import Field, Grid
from brinecalc.workbook.sheets import plan
from brinecalc.workbook.sheets.plan import FIRST_ROW, ROWS

SHEET = "Findings"


def grid() -> Grid:
    """The grid of the findings, row for row in step with the plan."""
    fields = [
        Field("f_batch", "Batch", "count", '=IF({w_on}=0,"",{batch})', width=6),
        Field("f_product", "Product", "text", '=IF({w_on}=0,"",{product}&"")', width=22),
        Field("f_label", "For", "text", '=IF({w_on}=0,"",{label}&"")', width=20),
        Field("f_says", "Says", "text", "={w_says}", width=11),
        Field("f_text", "What is found, the worst first, or why the row fails", "text",
              '=IF({w_on}=0,"",IF({w_fails}=1,"FAILS: "&{w_reason},{c_text}))', width=110),
    ]  # fmt: skip
    return Grid(SHEET, fields, FIRST_ROW, ROWS)


def write(book: Book, sheet: Worksheet) -> None:
    """Title, grid and how it prints; rows grow with what stands in them."""
    made = book.grids[SHEET]
    styles.put(sheet, "A1", "Findings", "title")
    styles.put(sheet, "A2", "All that the rules and the plan itself have to say of each batch. Nothing to fill in here. "
               "A line that is cut off: make its row higher.", "lead")  # fmt: skip
    styles.put(sheet, "A3", "=plan_state", "strong")
    frame.lay_out(sheet, made, book.layout)
    for row in range(FIRST_ROW, made.last_row + 1):
        for field in made.fields:
            form = sheet[made.address(field.key, row)].number_format
            styles.dress(sheet[made.address(field.key, row)], "wrap", form)
    plan.paint(sheet, f"{made.columns['f_says']}{FIRST_ROW}:{made.columns['f_says']}{made.last_row}")
    sheet.freeze_panes = f"{made.columns['f_label']}{FIRST_ROW}"
    sheet.print_title_rows = "5:7"
    sheet.page_setup.orientation = "portrait"
    sheet.print_area = f"A1:{made.last_column}{made.last_row}"
