"""The reference sheets: functions with arguments and examples, limits with sources, strength scales.

One idea: all of it is generated from the records and tables that the functions themselves use, so the workbook
cannot say one thing and do another.
"""

from __future__ import annotations

import math
from typing import List, Tuple

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc import registry
from brinecalc.describe import worked_examples
from brinecalc.hosts import texts
from brinecalc.tables import load
from brinecalc.trade import headings, limits
from brinecalc.workbook import settings, styles
from brinecalc.workbook.book import Book

FUNCTIONS = "Functions"
LIMITS = "Limits"
SCALES = "Scales"

_LETTERS = 1.02
"""Letters of nine points to a unit of a column's width, lines broken at words."""

STEPS = range(0, 101, 5)
"""Degrees of the salometer in the table of scales."""

SCALE_COLUMNS: Tuple[Tuple[str, str, str, str], ...] = (
    ("Salometer, 60 °F", "degrees", "0", "={degrees}"),
    ("Of the solution", "%", "0.00%", '=BRINE_CONVERT({degrees},"salometer","solution")'),
    ("Of the water", "%", "0.00%", '=BRINE_CONVERT({degrees},"salometer","water")'),
    ("Specific gravity", "60/60 °F", "0.0000", '=BRINE_CONVERT({degrees},"salometer","sg")'),
    ("Baumé", "degrees", "0.0", '=BRINE_CONVERT({degrees},"salometer","baume")'),
    ("Salt per litre of brine", "g, 20 °C", "0.0", '=BRINE_CONVERT({degrees},"salometer","g/L")'),
    ("Salt per gallon of water", "lb, US, 60 °F", "0.000", '=BRINE_CONVERT({degrees},"salometer","lb/gal water")'),
    ("Salt per gallon of brine", "lb, US, 60 °F", "0.000", '=BRINE_CONVERT({degrees},"salometer","lb/gal brine")'),
    ("Freezes at", "°C", "0.0", '=IF({solution}>0.233,"salt settles out",BRINE_FREEZING({solution},"solution"))'),
    ("Freezes at", "°F", "0.0", "=IF(ISNUMBER({celsius}),{celsius}*1.8+32,{celsius})"),
)


def _heading(sheet: Worksheet, row: int, headings: List[Tuple[str, float]]) -> None:
    """A row of headings with the widths of their columns."""
    for number, (words, width) in enumerate(headings, 1):
        cell = sheet.cell(row, number)
        styles.put(sheet, cell.coordinate, words, "heading")
        sheet.column_dimensions[cell.column_letter].width = width
    sheet.row_dimensions[row].height = 30
    sheet.freeze_panes = f"A{row + 1}"
    sheet.print_title_rows = f"{row}:{row}"


def _height(sheet: Worksheet, row: int, columns: int) -> None:
    """As high as the longest text of the row needs: not every program that opens or prints a workbook makes it so."""
    lines = 1
    for column in range(1, columns + 1):
        cell = sheet.cell(row, column)
        room = sheet.column_dimensions[cell.column_letter].width * _LETTERS
        if cell.value is not None and cell.alignment.wrap_text:
            lines = max(lines, math.ceil(len(str(cell.value)) / room))
    sheet.row_dimensions[row].height = max(14.0, 12.0 * lines + 2)


def _text(sheet: Worksheet, row: int, column: int, words: object, style: str = "wrap") -> None:
    """A text that stays text, even one that begins with an equals sign."""
    cell = sheet.cell(row, column)
    styles.put(sheet, cell.coordinate, words, style)
    if isinstance(words, str):
        cell.data_type = "s"
        if words.startswith("="):
            cell.quotePrefix = True


def as_cells(answer: object) -> str:
    """An answer as the cells show it: one beside the other with a bar, row below row with a stroke, blanks left out."""
    if isinstance(answer, (list, tuple)):
        rows = [row if isinstance(row, (list, tuple)) else [row] for row in answer]
        filled = [" | ".join(as_cells(cell) for cell in row if cell not in ("", None)) for row in rows]
        return " / ".join(filled)
    return f"{answer:.12g}" if isinstance(answer, float) else str(answer)


def write_functions(book: Book, sheet: Worksheet) -> None:
    """Every function: how it is called, what it gives, its arguments, an example."""
    styles.put(sheet, "A1", "Functions", "title")
    styles.put(sheet, "A2", "Type them into any cell where brinecalc is installed. Brackets: may be left out; "
               'to skip one in the middle write "". Ask BRINE_WHY when one shows an error.', "lead")  # fmt: skip
    _heading(sheet, 4, [("Function or argument", 44), ("What it is", 80), ("Left out, or example", 44)])
    row = 5
    family = ""
    for name in registry.names():
        spec = registry.spec(name)
        if spec.family != family:
            family = spec.family
            for column in (1, 2, 3):
                _text(sheet, row, column, family if column == 1 else None, "section")
            row += 1
        examples = worked_examples(spec)
        shown = f"{examples[0].formula(name)}   gives   {as_cells(examples[0].answer)}" if examples else None
        _text(sheet, row, 1, spec.usage)
        sheet.cell(row, 1).font = styles.font(9, bold=True)
        _text(sheet, row, 2, texts.function_help(spec))
        _text(sheet, row, 3, shown)
        _height(sheet, row, 3)
        row += 1
        for argument in spec.arguments:
            _text(sheet, row, 1, "      " + argument.name, "cell")
            _text(sheet, row, 2, texts.argument_help(argument))
            default = "" if argument.required or argument.default in (None, "") else f"left out: {argument.default}"
            _text(sheet, row, 3, f"e.g. {argument.example}" if argument.example else default or None)
            _height(sheet, row, 3)
            row += 1
    row = _headings(sheet, row)
    sheet.print_area = f"A1:C{row - 1}"


def _headings(sheet: Worksheet, row: int) -> int:
    """The headings of a production row that are read; answers the next free row."""
    for column in (1, 2, 3):
        _text(
            sheet, row, column, "Headings that BRINE_CHECK and BRINE_FINDINGS read" if column == 1 else None, "section"
        )
    for found in headings.accepted():
        row += 1
        for column, words in enumerate((found.heading, found.meaning, "also: " + ", ".join(found.aliases)), 1):
            _text(
                sheet, row, column, words if column < 3 or found.aliases else None, *(("cell",) if column == 1 else ())
            )
        _height(sheet, row, 3)
    return row + 1


def write_limits(book: Book, sheet: Worksheet) -> None:
    """Every limit with its rule, source and how it is known; those of the rules that the book begins with come first."""
    styles.put(sheet, "A1", "Limits", "title")
    styles.put(sheet, "A2", "What the findings and functions hold a batch against. Rules change: recheck each against the text "
               "in force; local codes and a licensed process come first.", "lead")  # fmt: skip
    _heading(sheet, 4, [("Limit", 24), ("Figure", 15), ("Rules of", 7), ("What it limits", 42), ("Source", 32),
                        ("Place", 20), ("Year", 6), ("Known by", 12), ("Remarks", 32)])  # fmt: skip
    titles = {row["key"]: row["title"] for row in load.rows("sources")}
    ours = settings.rules(book.options.units)
    for number, found in enumerate(sorted(load.rows("limits"), key=lambda row: row["rules"] != ours), 5):
        limit = limits.Limit(**found)
        cells = (limit.limit, limit.bounded, limit.rules, limit.meaning, titles[limit.source], limit.place, limit.year,
                 limit.status, limit.note)  # fmt: skip
        for column, words in enumerate(cells, 1):
            _text(sheet, number, column, words)
        _height(sheet, number, len(cells))
    sheet.print_area = f"A1:I{4 + len(load.rows('limits'))}"


def write_scales(book: Book, sheet: Worksheet) -> None:
    """A table of brine strengths in every scale, worked out by the functions."""
    styles.put(sheet, "A1", "Scales", "title")
    styles.put(
        sheet, "A2", "The same brine on every scale. Specific gravity and Baumé at 60 °F; pure salt in water.", "lead"
    )
    _heading(sheet, 4, [(words, 13) for words, _, _, _ in SCALE_COLUMNS])
    for column, (_, unit, _, _) in enumerate(SCALE_COLUMNS, 1):
        _text(sheet, 5, column, unit, "unit")
    sheet.freeze_panes = "B6"
    for row, degrees in enumerate(STEPS, 6):
        for column, (_, _, form, formula) in enumerate(SCALE_COLUMNS, 1):
            cell = sheet.cell(row, column)
            places = {"degrees": f"$A{row}", "solution": f"$B{row}", "celsius": f"$I{row}"}
            value: object = degrees if column == 1 else formula.format(**places)
            styles.put(sheet, cell.coordinate, value, "cell", form)
    sheet.print_area = f"A1:J{5 + len(STEPS)}"
