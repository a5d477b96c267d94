"""A workbook file looked into: its parts, its cells as openpyxl reads them, and back to bytes."""

from __future__ import annotations

import functools
import io
import pickle
import posixpath
import zipfile
from typing import Any, NamedTuple

import built
import openpyxl
from lxml import etree
from openpyxl.cell.read_only import EMPTY_CELL
from openpyxl.styles.numbers import is_date_format
from openpyxl.utils import get_column_letter


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


class Cells(NamedTuple):
    """What a pass over all cells finds, by sheet and address: values without blanks, and how cells are made."""

    values: dict[tuple[str, str], Any]
    unlocked: set[tuple[str, str]]
    moments: set[tuple[str, str]]
    """Cells that show a number as a date or a time."""
    parts: dict[str, str]
    """Sheet → the part that holds it."""


@functools.lru_cache(maxsize=12)
def looked_through(content: bytes, values: bool = True) -> Cells:
    """Every cell with the value in the file, or with its formula. Not to be changed: all who ask get the same."""
    what = "values" if values else "formulas"
    return Cells(*pickle.loads(built.beside(content, what, lambda: pickle.dumps(tuple(_passed(content, values))))))


def _passed(content: bytes, values: bool) -> Cells:
    book = openpyxl.load_workbook(io.BytesIO(content), data_only=values, read_only=True)
    for sheet in book:
        sheet.reset_dimensions()  # what lies outside the range that the file claims is read as well
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell is not EMPTY_CELL]
    at = {id(cell): (cell.parent.title, f"{get_column_letter(cell.column)}{cell.row}") for cell in cells}
    styles = {cell._style_id: cell for cell in cells}
    unlocked = {style for style, cell in styles.items() if not cell.protection.locked}
    dated = {style for style, cell in styles.items() if is_date_format(cell.number_format)}
    return Cells(
        {at[id(cell)]: value for cell in cells if (value := cell.value) not in (None, "")},
        {at[id(cell)] for cell in cells if cell._style_id in unlocked},
        {at[id(cell)] for cell in cells if cell._style_id in dated},
        {sheet.title: sheet._worksheet_path for sheet in book},
    )


def stored(content: bytes, values: bool = True) -> dict[tuple[str, str], Any]:
    """Sheet and address → the value in the file, or the formula; no blank cells. Not to be changed."""
    return looked_through(content, values).values


def columns(content: bytes, sheet: str) -> dict[str, tuple[float, bool]]:
    """Letter → how wide a column is, and whether it is hidden; of all that differ from those of a new sheet."""
    found = {}
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        page = etree.fromstring(file.read(looked_through(content).parts[sheet]))
    for col in page.iterfind("{*}cols/{*}col"):
        for number in range(int(col.get("min")), int(col.get("max")) + 1):
            found[get_column_letter(number)] = float(col.get("width")), col.get("hidden") in ("1", "true")
    return found


def charts(content: bytes, sheet: str) -> int:
    """How many charts a sheet shows."""
    folder, _, page = looked_through(content).parts[sheet].rpartition("/")
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        links = etree.fromstring(file.read(f"{folder}/_rels/{page}.rels"))
        drawings = [link.get("Target") for link in links if link.get("Type").endswith("/drawing")]
        pages = [file.read(posixpath.normpath(posixpath.join("/", folder, each))[1:]) for each in drawings]
    return sum(len(etree.fromstring(each).findall(".//{*}graphicFrame")) for each in pages)


def saved(book: openpyxl.Workbook) -> bytes:
    """A workbook of openpyxl as bytes."""
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
