"""The rest of the recipe's page: what the brine should read and come to, and the lines in the order of adding.

One idea: nothing is worked out here; figures come from the block behind the page, words from the ingredient table.
"""

from __future__ import annotations

from typing import Tuple

from openpyxl.formatting.rule import Rule
from openpyxl.styles import Alignment, Border, Side
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import page, styles
from brinecalc.workbook.chosen import Chosen

FIGURE = "[<10]0.00#;[<100]#,##0.00;#,##0.0"
"""Kilograms and grams stand in one column: the smaller the figure, the more places."""

_ON_WATER = '"Warm a part of it to dissolve in; keep the rest cold."'
_ON_ICE = '"Last of the water: stir in when all that needs warmth is dissolved, so that the brine is cold before the product goes in."'
_DRY = (
    'IF({at}=3,"Weigh; mix all the rest evenly through it, rub in on all sides, bag, turn every day.",'
    'IF({at}=5,"Weigh on a scale that reads 0.1 g or finer; mix through the salt first, evenly.",'
    '"Mix evenly through the salt."))'
)

_FACTS = (
    ("A", "D", "E", (
        ("Strength, of the water", "strength_shown", "fine_share", ""),
        ("Salt meter, of the solution", "shows", "fine_share", ""),
        ("Salometer, at 60 °F", "salometer", "0.0", "degrees"),
        ("Hydrometer, 60/60 °F, salt alone", "sg", "0.000", ""),
    )),
    ("F", "J", "K", (
        ("Density at 20 °C, salt alone", "density", "0.000", "g/mL"),
        ("pH, fresh and before the product", "ph", "0.0", ""),
        ('=IF({dry}=1,"All that is rubbed in","Whole brine, ice included")', "brine_shown", FIGURE, "=mass_word"),
        ("Volume at 20 °C", "volume_shown", "volume", "=volume_word"),
    )),
    ("L", "M", "", (
        ("Product", "product_shown", FIGURE, ""),
        ("Vessel", "fit", "text", ""),
        ("Cost", "cost", "money", ""),
        ("each", "cost_volume", "money", ""),
    )),
)  # fmt: skip
"""Column of the label, of the value and of the unit; then words, the field of the block, form and unit of each row."""


def expected(sheet: Worksheet, block: Chosen, top: int) -> int:
    """What the brine should read and come to; answers the last row."""
    for column in "ABCDEFGHIJKLM":
        styles.put(sheet, f"{column}{top}", "What to expect" if column == "A" else None, "section")
    for label, value, unit, rows in _FACTS:
        for row, (words, key, form, word) in enumerate(rows, top + 1):
            styles.put(sheet, f"{label}{row}", block.fill(words), "body")
            sheet[f"{label}{row}"].alignment = Alignment("left", "center", indent=0 if label == "A" else 1)
            styles.put(sheet, f"{value}{row}", f"={block.cells[key]}", "cell", form)
            sheet[f"{value}{row}"].alignment = Alignment("right" if unit else "left", "center", indent=0 if unit else 1)
            if unit:
                styles.put(sheet, f"{unit}{row}", word or None, "quiet")
                sheet[f"{unit}{row}"].alignment = Alignment("left", "center", indent=1)
    for number, words in enumerate(('"Product, "&mass_word', '"Vessel"', '"Cost"', '"per "&volume_word'), top + 1):
        sheet[f"L{number}"].value = f"={words}"
        sheet[f"L{number}"].alignment = Alignment("right", "center", indent=1)
    row = top + 5
    page.span(sheet, f"A{row}:M{row}", block.fill("={ph_why}"), page.Look(size=9, colour=styles.QUIET))
    page.span(
        sheet, f"A{row + 1}:M{row + 1}", block.fill("={finding}"), page.Look(size=11, bold=True, wrap=True, line="thin")
    )
    sheet.row_dimensions[row + 1].height = 29
    return row + 1


def steps(sheet: Worksheet, block: Chosen, top: int, first_line: int, last_line: int) -> int:
    """The same lines in the order in which they go in; answers the last row."""
    for column in "ABCDEFGHIJKLM":
        styles.put(sheet, f"{column}{top}", "Mix in this order" if column == "A" else None, "section")
    page.span(sheet, f"A{top + 1}:M{top + 1}", "=A3", page.Look(size=11, bold=True, wrap=True))
    sheet.row_dimensions[top + 1].height = 30
    heads = (
        ("A", "Step"),
        ("B", "What"),
        ("C", "Weight"),
        ("D", "Weighed by"),
        ("E:J", "How"),
        ("K:M", "Never together with"),
    )
    for columns, words in heads:
        first, _, last = columns.partition(":")
        page.span(
            sheet,
            f"{first}{top + 2}:{last or first}{top + 2}",
            words,
            page.Look(9, True, align="center", line="thin", paint=styles.PALE),
        )
    count = last_line - first_line + 1
    line = Side(style="thin", color=styles.QUIET)
    box = DifferentialStyle(border=Border(left=line, right=line, top=line, bottom=line))
    used = Rule(type="expression", dxf=box, formula=[f'$B{top + 3}<>""'])
    sheet.conditional_formatting.add(f"A{top + 3}:M{top + 2 + count}", used)
    for number in range(1, count + 1):
        row = top + 2 + number
        line = f"MATCH({number},$R${first_line}:$R${last_line},0)"
        sheet[f"O{row}"].value = f'=IF(COUNT($R${first_line}:$R${last_line})<{number},"",{line})'
        _step(sheet, block, row, number, (first_line, last_line))
    return _signed(sheet, top + 4 + count)


def _signed(sheet: Worksheet, row: int) -> int:
    """Boxes to write in once it is mixed; answers the last row."""
    boxes = (("A:B", "Mixed by"), ("C:C", "Date, time"), ("D:D", "Checked by"), ("E:E", "Temperature"), ("F:H", "Salt meter"),
             ("I:K", "pH"), ("L:M", "Lot numbers"))  # fmt: skip
    for columns, words in boxes:
        first, last = columns.split(":")
        page.span(sheet, f"{first}{row}:{last}{row}", words, page.BOX)
    sheet.row_dimensions[row].height = 40
    return row


def _step(sheet: Worksheet, block: Chosen, row: int, number: int, lines: Tuple[int, int]) -> None:
    """One step: what, how much, how, and what it must never meet."""

    def pick(column: str) -> str:
        return f"INDEX(${column}${lines[0]}:${column}${lines[1]},$O{row})"

    at = f"$O{row}"
    added = f"INDEX(list_add,{pick('P')})"
    no_phosphate = f'COUNTIF($E${lines[0]}:$E${lines[1]},"phosphate")=0'
    added = f'IF({no_phosphate},SUBSTITUTE({added},"after the phosphate, ",""),{added})'
    how = f'IF({at}=1,{_ON_WATER},IF({at}=2,{_ON_ICE},IF({{dry}}=1,{_DRY.replace("{at}", at)},IF({pick("P")}="","",{added}))))'
    avoid = f'IF({at}<=2,"",IF({pick("P")}="","",INDEX(list_avoid,{pick("P")})&""))'
    cells = (
        ("A", str(number), "count", page.Look(12, True, align="center")),
        ("B", pick("D"), "text", page.Look(11, True, wrap=True, indent=1)),
        ("C", pick("J"), FIGURE, page.Look(12, True, align="right")),
        ("D", f'{pick("K")}&"     ______________"', "text", page.Look(10, indent=1)),
        ("E:J", how, "text", page.Look(9, wrap=True, indent=1)),
        ("K:M", avoid, "text", page.Look(9, wrap=True, indent=1)),
    )
    for columns, formula, form, look in cells:
        first, _, last = columns.partition(":")
        value = block.fill(f'=IF({at}="","",{formula})')
        page.span(sheet, f"{first}{row}:{last or first}{row}", value, look, form)
    sheet.row_dimensions[row].height = 26
