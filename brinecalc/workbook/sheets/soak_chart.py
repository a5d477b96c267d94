"""The soak chart: for every product, thickness by thickness, the hours to soak and to rest in three strengths.

One idea: it is a table to read from with a finger, so the strengths stand side by side, the likely hours are large
and the range is beside them. Worked out when the workbook is made, in a large bath at 4 °C.
"""

from __future__ import annotations

from itertools import groupby
from typing import List, Optional, Sequence, Tuple

from openpyxl.styles import Alignment
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.trade import soak_chart
from brinecalc.workbook import styles
from brinecalc.workbook.book import Book

SHEET = "Soak chart"
FIRST_ROW = 7
_MM_PER_INCH = 25.4
_HEAD: Tuple[Tuple[str, float], ...] = (
    ("Product", 24),
    ("Salt gets in as", 11),
    ("Salt wanted", 8),
    ("mm", 6),
    ("in", 6),
)
_EACH: Tuple[Tuple[str, float], ...] = (
    ("Strength, of the water", 9),
    ("Soak, h", 8),
    ("low to high", 14),
    ("Rest, h", 8),
)
STRENGTHS = 3


def write(book: Book, sheet: Worksheet) -> None:
    """Headings, and one row for each product and thickness."""
    styles.put(sheet, "A1", "Soak chart", "title")
    styles.put(sheet, "A2", "Hours in a large bath at 4 °C / 39 °F until the average salt is as wanted, and of rest, out of the "
               "brine, until the centre holds half the salt added at the surface.", "lead")  # fmt: skip
    styles.put(sheet, "A3", "The likely hours are large; low to high is what is known of the product. Twice as thick takes four "
               "times as long. Perishable food stays cold throughout. A dash: do not, see the note.", "lead")  # fmt: skip
    styles.put(sheet, "A4", "Longer than the custom: thinner pieces, a stronger brine, needled or injected. "
               "Longer than it keeps (7 days, soak and rest): thinner, or rested less. "
               "Already as salty: no brine, or a weaker target.", "lead")  # fmt: skip
    _headings(sheet)
    row = FIRST_ROW
    for _, lines in groupby(soak_chart.rows(), key=lambda line: (line.product, line.thickness)):
        _line(sheet, row, list(lines))
        row += 1
    sheet.freeze_panes = f"F{FIRST_ROW}"
    sheet.print_title_rows = f"5:{FIRST_ROW - 1}"
    sheet.print_area = f"A1:{sheet.cell(1, len(_HEAD) + STRENGTHS * len(_EACH) + 1).column_letter}{row - 1}"


def _headings(sheet: Worksheet) -> None:
    groups = ["", "", "", "Thickness", "Thickness"]
    for words in ("Weak", "Medium", "Strong"):
        groups += [words] * len(_EACH)
    headings = [*_HEAD, *(_EACH * STRENGTHS), ("Note", 42)]
    for number, (words, width) in enumerate(headings, 1):
        cell = sheet.cell(FIRST_ROW - 1, number)
        styles.put(sheet, cell.coordinate, words, "heading")
        sheet.column_dimensions[cell.column_letter].width = width
        group = groups[number - 1] if number <= len(groups) else ""
        before = groups[number - 2] if number > 1 else ""
        styles.put(sheet, f"{cell.column_letter}{FIRST_ROW - 2}", group if group != before else None, "group")
    sheet.row_dimensions[FIRST_ROW - 1].height = 36


def _line(sheet: Worksheet, row: int, lines: Sequence[soak_chart.Row]) -> None:
    first = lines[0]
    cells: List[Tuple[object, str, str]] = [
        (first.product, "cell", "text"),
        (first.shape, "cell", "text"),
        (first.target, "cell", "share"),
        (first.thickness, "cell", "0"),
        (first.thickness / _MM_PER_INCH, "cell", "0.0"),
    ]
    for line in lines[:STRENGTHS]:
        cells += [
            (line.strength, "cell", "0%"),
            (_rounded(line.soak) or "—", "figure", _form(line.soak)),
            (_range(line.soak_fast, line.soak_slow), "quiet_cell", "text"),
            (_rounded(line.rest) or "—", "cell", _form(line.rest)),
        ]
    cells.append((_notes(lines) or None, "quiet_cell", "text"))
    for number, (value, style, form) in enumerate(cells, 1):
        styles.put(sheet, sheet.cell(row, number).coordinate, value, style, form)
        if style == "quiet_cell":  # words beside figures need air
            sheet.cell(row, number).alignment = Alignment("left", "center", indent=1)


def _notes(lines: Sequence[soak_chart.Row]) -> str:
    """What is said of these lines, each thing once; the advice stands at the top of the sheet."""
    notes = [part for line in lines for part in line.note.partition(":")[0].split(" and ") if part]
    return "; ".join(dict.fromkeys(notes))


def _rounded(hours: Optional[float]) -> Optional[float]:
    """Two digits are all that is known of a time."""
    return None if hours is None else float(f"{hours:.2g}")


def _form(hours: Optional[float]) -> str:
    """As many decimals as two digits need."""
    return "0" if hours is None or hours >= 9.95 else "0.0" if hours >= 0.995 else "0.00"


def _range(low: Optional[float], high: Optional[float]) -> str:
    if low is None or high is None:
        return "—"
    return f"{soak_chart.shown(low)} to {soak_chart.shown(high)}"
