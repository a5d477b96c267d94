"""A small workbook that says OK or the deviation for each function, in whatever program opens it.

One idea: each line holds a formula as a person types it, beside the answer that the library gave when the workbook was
built, and compares the two by itself. So a look at one cell tells whether a program, with the functions in it, works.
"""

from __future__ import annotations

from typing import Any, Iterator, List, NamedTuple, Tuple

from openpyxl import Workbook
from openpyxl.styles import Alignment
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc import registry, version
from brinecalc.describe import WorkedExample, worked_examples
from brinecalc.errors import CELL_ERRORS
from brinecalc.workbook import build, styles

FILE_NAME = "host-check.xlsx"
SHEET, CELLS = "Check", "Cells"
WITHIN = 1e-12
ERROR_TYPES = {"#NULL!": 1, "#DIV/0!": 2, "#VALUE!": 3, "#REF!": 4, "#NAME?": 5, "#NUM!": 6, "#N/A": 7}
"""What ERROR.TYPE gives in every program."""

_TOP = 8
_COLUMNS = (
    ("Function", 28),
    ("Formula", 62),
    ("Expected", 22),
    ("Here", 22),
    ("Deviation", 12),
    ("Verdict", 14),
)
_ROWS = (("water", 1000, 2000, None, -5), ("strength", 0.05, "5%", "abc", ""))
"""Cells that the lines about ranges, blanks and texts refer to, column by column."""


class Line(NamedTuple):
    """One line: the function, the formula, and the answer it must give."""

    name: str
    formula: str
    expected: Any


def content() -> bytes:
    """The workbook as bytes. No values are computed in it: a program without the functions must not show an old OK."""
    workbook = Workbook()
    styles.base(workbook)
    del workbook["Sheet"]
    sheet = workbook.create_sheet(SHEET)
    _fill(workbook.create_sheet(CELLS))
    checked = lines()
    _head(sheet, len(checked))
    for row, line in enumerate(checked, _TOP):
        _put(sheet, row, line)
    sheet.freeze_panes = f"C{_TOP}"
    sheet.print_title_rows = f"{_TOP - 1}:{_TOP - 1}"
    sheet.print_area = f"A1:F{_TOP + len(checked) - 1}"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    return build.packed(workbook, "Check of the functions")


def lines() -> List[Line]:
    """What is checked, from top to bottom."""
    return list(_lines())


def _lines() -> Iterator[Line]:
    """Every worked example, one refusal and its reason for each function, then how cells are read."""
    for name in registry.names():
        examples = worked_examples(registry.spec(name))
        for example in examples:
            yield from _answers(name, example)
        if examples and examples[0].cells and not registry.spec(name).variadic:
            yield from _refusal(name, examples[0])
    yield from _reading()


def _answers(name: str, example: WorkedExample) -> Iterator[Line]:
    """An example's answer; of a table its first and its last cell."""
    answer = registry.call(name, *example.cells)
    formula = example.formula(name)
    if not isinstance(answer, list):
        yield Line(name, formula, answer)
        return
    corners = dict.fromkeys([(1, 1), (len(answer), len(answer[0]))])
    for row, column in corners:
        yield Line(name, f"=INDEX({formula[1:]},{row},{column})", answer[row - 1][column - 1])


def _refusal(name: str, example: WorkedExample) -> Iterator[Line]:
    """The example with nonsense in the first place, and the reason for the error."""
    cells = ("9**9**9", *example.cells[1:])
    answer = registry.call(name, *cells)
    if isinstance(answer, list) or answer not in ERROR_TYPES:
        return
    wrong = WorkedExample(cells, answer, 0.0)
    formula = wrong.formula(name)
    is_table = registry.spec(name).result == "table"
    yield Line(name, f"=INDEX({formula[1:]},1,1)" if is_table else formula, answer)
    reason = registry.call("BRINE_WHY", name, *cells)
    yield Line("BRINE_WHY", formula.replace(f"={name}(", f'=BRINE_WHY("{name}",'), reason)


def _reading() -> Iterator[Line]:
    """How cells are read: references, blanks, texts, ranges, places left out, errors passed on."""
    for arguments, cells in (
        ("Cells!$A$2,Cells!$B$2", (1000.0, 0.05)),
        ("Cells!$A$2,Cells!$B$3", (1000.0, "5%")),
        ("Cells!$A$4,Cells!$B$2", (None, 0.05)),
        ("Cells!$A$2,Cells!$B$4", (1000.0, "abc")),
        ("Cells!$A$5,Cells!$B$2", (-5.0, 0.05)),
        ('1000,5%,"",0.5', (1000.0, 0.05, "", 0.5)),
        ("1000,5%,,0.5", (1000.0, 0.05, "", 0.5)),
        ("1000,NA()", (1000.0, "#N/A")),
    ):
        yield Line("BRINE_SALT", f"=BRINE_SALT({arguments})", registry.call("BRINE_SALT", *cells))
    reason = registry.call("BRINE_WHY", "SALT", None, 0.05)
    yield Line("BRINE_WHY", '=BRINE_WHY("SALT",Cells!$A$4,Cells!$B$2)', reason)
    answers = registry.call("BRINE_SALT", [[1000.0], [2000.0]], 0.05)
    for row, answer in enumerate(answers, 1):
        yield Line("BRINE_SALT", f"=INDEX(BRINE_SALT(Cells!$A$2:$A$3,5%),{row},1)", answer[0])


def _fill(content: Worksheet) -> None:
    for column, (letter, values) in enumerate(zip("AB", _ROWS), 1):
        content.column_dimensions[letter].width = 14
        for row, value in enumerate(values, 1):
            content.cell(row, column).value = value or None
            styles.dress(content.cell(row, column), "heading" if row == 1 else "cell")


def _head(sheet: Worksheet, count: int) -> None:
    """Title, the verdict over all, and the headings."""
    last = _TOP + count - 1
    styles.put(sheet, "A1", "Check of the functions", "title")
    lead = f"Answers of brinecalc {version.VERSION}, compared here with what this program makes of the same formulas."
    styles.put(sheet, "A2", lead, "lead")
    good, all_good = f'COUNTIF(F{_TOP}:F{last},"OK")', f'"OK: all {count} answers agree"'
    styles.put(sheet, "A4", "Verdict", "strong")
    styles.put(
        sheet,
        "B4",
        f'=IF({good}={count},{all_good},{count}-{good}&" of {count} answers differ: see Verdict")',
        "figure",
    )
    styles.put(sheet, "A5", "Largest deviation", "strong")
    styles.put(sheet, "B5", f"=MAX(E{_TOP}:E{last})", "figure", "0.0E+00")
    sheet["B5"].alignment = Alignment(horizontal="left")
    for column, (words, width) in enumerate(_COLUMNS, 1):
        cell = sheet.cell(_TOP - 1, column)
        styles.put(sheet, cell.coordinate, words, "heading")
        sheet.column_dimensions[cell.column_letter].width = width


def _put(sheet: Worksheet, row: int, line: Line) -> None:
    """One line of the sheet."""
    kind, expected = _expected(line.expected)
    here, wanted = f"D{row}", f"C{row}"
    off = f"IF({here}={wanted},0,ABS({here}-{wanted})/MAX(ABS({wanted}),1E-300))"
    deviation, verdict = {
        "number": (f'=IF(ISNUMBER({here}),{off},"")', f'=IF(ISNUMBER({here}),IF(E{row}<={WITHIN:g},"OK","differs"),"no number")'),
        "text": (None, f'=IF(ISTEXT({here}),IF(EXACT({here},{wanted}),"OK","differs"),"no text")'),
        "error": (None, f'=IF(ISERROR({here}),IF(ERROR.TYPE({here})={expected},"OK","other error"),"no error")'),
    }[kind]  # fmt: skip
    styles.put(sheet, f"A{row}", line.name, "cell")
    _text(sheet, f"B{row}", line.formula)
    if isinstance(line.expected, str):
        _text(sheet, f"C{row}", line.expected)
    else:
        styles.put(sheet, f"C{row}", line.expected, "cell")
    styles.put(sheet, f"D{row}", line.formula, "cell")
    styles.put(sheet, f"E{row}", deviation, "cell", "0.0E+00")
    styles.put(sheet, f"F{row}", verdict, "cell")


def _expected(answer: Any) -> Tuple[str, Any]:
    if isinstance(answer, str) and answer in CELL_ERRORS:
        return "error", ERROR_TYPES[answer]
    return ("text" if isinstance(answer, str) else "number"), answer


def _text(sheet: Worksheet, address: str, words: str) -> None:
    """A text that stays one, even if it looks like a formula or an error."""
    styles.put(sheet, address, words, "cell", "text")
    sheet[address].data_type = "s"
    sheet[address].quotePrefix = words.startswith("=")
