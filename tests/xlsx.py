"""A workbook file looked into: its parts, its cells as openpyxl reads them, and back to bytes."""

from __future__ import annotations

import functools
import io
import zipfile
from typing import Any

import openpyxl


def parts(content: bytes) -> dict[str, bytes]:
    """Every part by its name; each must be whole."""
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        assert file.testzip() is None
        return {name: file.read(name) for name in file.namelist()}


def opened(content: bytes, values: bool = False) -> openpyxl.Workbook:
    """The workbook with its formulas, or with the values in the file."""
    return openpyxl.load_workbook(io.BytesIO(content), data_only=values)


@functools.lru_cache(maxsize=12)
def seen(content: bytes, values: bool = True) -> openpyxl.Workbook:
    """What stands in the workbook, or its formulas, for all who only look; not to be changed."""
    return opened(content, values)


@functools.lru_cache(maxsize=12)
def stored(content: bytes, values: bool = True) -> dict[tuple[str, str], Any]:
    """Sheet and address → the value in the file, or the formula; no blank cells. Looks and notes are not read.

    Not to be changed: all who ask get the same.
    """
    book = openpyxl.load_workbook(io.BytesIO(content), data_only=values, read_only=True)
    for sheet in book:
        sheet.reset_dimensions()  # what lies outside the range that the file claims is read as well
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.value not in (None, "")
    }


def saved(book: openpyxl.Workbook) -> bytes:
    """A workbook of openpyxl as bytes."""
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
