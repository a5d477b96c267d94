"""One workbook that holds every call as a formula beside its BRINE_WHY, for the hosts that work on workbooks."""

from __future__ import annotations

import io
from typing import Any, NamedTuple

import openpyxl
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.formula import ArrayFormula
from parity.calls import Call, Cells, Error, Gap, Table, is_error

from brinecalc import registry

ANSWERS, CONTENT = "Answers", "Content"
_REASONS_AT = 12
_ERROR_FORMULAS = {"#N/A": "NA()", "#NUM!": "BRINE_GAIN(0,1)", "#VALUE!": 'BRINE_GAIN("x",1)', "#DIV/0!": "1/0"}


class Place(NamedTuple):
    """Where an answer stands: first row and column, rows and columns."""

    row: int
    column: int
    height: int
    width: int


class Made(NamedTuple):
    """The workbook and where to find the answer and the reason of each call."""

    content: bytes
    places: list[tuple[Place, Place]]


def build(calls: list[Call], answers: list[Any], reasons: list[Any]) -> Made:
    """Formulas for the calls; an answer's shape tells over how many cells an array formula has to go."""
    book = openpyxl.Workbook()
    sheet, content = book.active, book.create_sheet(CONTENT)
    sheet.title = ANSWERS
    writer = _Content(content)
    places, row = [], 1
    for call, answer, reason in zip(calls, answers, reasons, strict=True):
        arguments = [writer.written(argument) for argument in call.arguments]
        why = ",".join([f'"{call.name}"', *arguments])
        place = _put(sheet, row, 1, f"={call.name}({','.join(arguments)})", answer, is_wide(call))
        wide = is_wide(call) and isinstance(reason, list)
        other = _put(sheet, row, _REASONS_AT, f"=BRINE_WHY({why})", reason, wide)
        places.append((place, other))
        row += max(place.height, other.height)
    out = io.BytesIO()
    book.save(out)
    return Made(out.getvalue(), places)


def is_wide(call: Call) -> bool:
    """Whether the call may give a table, so that it has to be entered as an array formula."""
    if registry.spec(call.name).result == "table":
        return True
    ranges = [isinstance(a, Table) or (isinstance(a, Cells) and not a.single) for a in call.arguments]
    return any(several and registry.entry(call.name).broadcasts(index) for index, several in enumerate(ranges))


def _put(sheet: Any, row: int, column: int, formula: str, answer: Any, wide: bool) -> Place:
    rows = answer if isinstance(answer, list) else [[answer]]
    place = Place(row, column, len(rows), len(rows[0]))
    start = f"{get_column_letter(column)}{row}"
    if wide or isinstance(answer, list):
        end = f"{get_column_letter(column + place.width - 1)}{row + place.height - 1}"
        sheet[start] = ArrayFormula(f"{start}:{end}", formula)
    else:
        sheet[start] = formula
    return place


class _Content:
    """The sheet with the cells that calls refer to, filled from top to bottom."""

    def __init__(self, sheet: Any) -> None:
        self.sheet = sheet
        self.row = 1

    def written(self, argument: Any) -> str:
        """An argument as it stands in the formula."""
        if isinstance(argument, Cells):
            return self._cells(argument.rows)
        if isinstance(argument, Table):
            return "{" + ";".join(",".join(typed(cell) for cell in row) for row in argument.rows) + "}"
        return typed(argument)

    def _cells(self, rows: tuple[tuple[Any, ...], ...]) -> str:
        first = self.row
        for row in rows:
            for column, cell in enumerate(row, 1):
                self._fill(self.sheet.cell(self.row, column), cell)
            self.row += 1
        end = f":${get_column_letter(len(rows[0]))}${self.row - 1}" if len(rows) > 1 or len(rows[0]) > 1 else ""
        return f"{CONTENT}!$A${first}{end}"

    def _fill(self, place: Any, cell: Any) -> None:
        if is_error(cell):
            place.value = "=" + _ERROR_FORMULAS[cell]
        elif cell == "":
            place.value = '=""'
        else:
            place.value = cell
            if isinstance(cell, str):
                place.data_type = "s"  # also where it begins with an equals sign


def typed(argument: Any) -> str:
    """A literal argument as typed."""
    if isinstance(argument, Gap):
        return ""
    if isinstance(argument, Error):
        return _ERROR_FORMULAS[argument.text]
    if isinstance(argument, bool):
        return "TRUE" if argument else "FALSE"
    if isinstance(argument, str):
        return '"' + argument.replace('"', '""') + '"'
    return f"{argument:.15g}".upper()
