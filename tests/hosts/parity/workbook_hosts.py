"""The hosts that work on workbooks: the headless engine and LibreOffice Calc, on the very same file."""

from __future__ import annotations

import io
import tempfile
from pathlib import Path
from typing import Any
from unittest import mock

import openpyxl
from openpyxl.utils import get_column_letter
from parity.workbook import ANSWERS, Made, Place

from brinecalc.hosts.calc.session import Session
from brinecalc.hosts.headless import calculate, inject


def headless(made: Made) -> tuple[list[Any], list[Any]]:
    """The answers of the headless engine, read from the workbook that it wrote; raises when a formula was refused."""
    with mock.patch.object(inject, "written", _exact):  # in files it writes twelve digits, here all are wanted
        outcome = calculate(made.content, "parity.xlsx")
    refused = [problem for problem in outcome.report.problems if problem.error is None]
    if refused:
        raise AssertionError(f"not computed: {refused[:5]}")
    sheet = openpyxl.load_workbook(io.BytesIO(outcome.content), data_only=True)[ANSWERS]
    return _answers(made, lambda row, column: sheet.cell(row, column).value)


_ROUNDED = inject.written


def _exact(value: Any) -> inject.Written:
    """A value with all its digits."""
    return inject.Written("", repr(value)) if type(value) is float else _ROUNDED(value)


def calc(made: Made, session: Session) -> tuple[list[Any], list[Any]]:
    """The answers of LibreOffice Calc after opening the workbook and working out every formula anew."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "parity.xlsx")
        path.write_bytes(made.content)
        values = session.workbook(path)[ANSWERS]
    return _answers(made, lambda row, column: values.get(f"{get_column_letter(column)}{row}"))


def _answers(made: Made, look: Any) -> tuple[list[Any], list[Any]]:
    return [_area(first, look) for first, _ in made.places], [_area(second, look) for _, second in made.places]


def _area(place: Place, look: Any) -> Any:
    """The cells of an answer; an empty text may come back as nothing."""
    rows = [
        [_cell(look(row, column)) for column in range(place.column, place.column + place.width)]
        for row in range(place.row, place.row + place.height)
    ]
    return rows[0][0] if place.height == place.width == 1 else rows


def _cell(value: Any) -> Any:
    if value is None:
        return ""
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value
