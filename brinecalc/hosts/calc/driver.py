"""Works a running LibreOffice from its own Python: one order a line in, one answer a line out, as JSON.

One idea: the package that talks to LibreOffice belongs to LibreOffice's Python, so this file is run by that Python
and the rest of the library need not be. Needs nothing of the library; Python 3.9 and later.
"""

from __future__ import annotations

import json
import sys
import time
from typing import Any, Dict, Iterator, List, Tuple

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.uno import Exception as UnoException

FILLED = 1 | 2 | 4 | 16  # com.sun.star.sheet.CellFlags: values, dates, texts, formulas
ANY_RESULT, WRONG_RESULT = 7, 4  # com.sun.star.sheet.FormulaResult
ERRORS = {
    521: "#NULL!",
    532: "#DIV/0!",
    519: "#VALUE!",
    524: "#REF!",
    525: "#NAME?",
    503: "#NUM!",
    32767: "#N/A",
}
FILTERS = {
    ".xlsx": "Calc MS Excel 2007 XML",
    ".xlsm": "Calc MS Excel 2007 VBA XML",
    ".ods": "calc8",
    ".fods": "OpenDocument Spreadsheet Flat XML",
    ".pdf": "calc_pdf_Export",
}


def connect(pipe: str, patience: float) -> Any:
    """The context of the LibreOffice that listens at the pipe."""
    own = uno.getComponentContext()
    resolver = own.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", own)
    until = time.monotonic() + patience
    while True:
        try:
            return resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        except UnoException:
            if time.monotonic() > until:
                raise
            time.sleep(0.05)


def properties(**given: Any) -> Tuple[Any, ...]:
    """Named values as LibreOffice takes them."""
    made = []
    for name, value in given.items():
        one = PropertyValue()
        one.Name, one.Value = name, value
        made.append(one)
    return tuple(made)


def column_name(index: int) -> str:
    """The letters of a column counted from 0."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def read(area: Any) -> List[List[Any]]:
    """The values of an area: numbers, texts, None for empty cells, errors by their usual text."""
    rows = [list(row) for row in area.getDataArray()]
    for row, formulas in zip(rows, area.getFormulaArray()):
        for c, formula in enumerate(formulas):
            if not formula:
                row[c] = None
    top, left = area.getRangeAddress().StartRow, area.getRangeAddress().StartColumn
    for part in area.queryFormulaCells(WRONG_RESULT):
        for x, y, cell in _cells(part):
            code = cell.getError()
            rows[y - top][x - left] = ERRORS.get(code, f"Err:{code}")
    return rows


def by_address(area: Any, rows: Any) -> Iterator[Tuple[str, Any]]:
    """The cells of an area as (address, content)."""
    place = area.getRangeAddress()
    for r, row in enumerate(rows):
        for c, content in enumerate(row):
            yield f"{column_name(place.StartColumn + c)}{place.StartRow + r + 1}", content


class Driver:
    """The orders; each public method is one. Books go by the name they were given when made."""

    def __init__(self, context: Any) -> None:
        self.context = context
        self.desktop = self.service("com.sun.star.frame.Desktop")
        self.books: Dict[str, Any] = {}

    def service(self, name: str) -> Any:
        """A service of LibreOffice."""
        return self.context.ServiceManager.createInstanceWithContext(name, self.context)

    def new(self, book: str, hidden: bool = True) -> None:
        """Makes a new workbook."""
        address = "private:factory/scalc"
        self.books[book] = self.desktop.loadComponentFromURL(address, "_blank", 0, properties(Hidden=hidden))

    def open(self, book: str, path: str, hidden: bool = True) -> float:
        """Opens a file; answers the seconds it took."""
        started = time.perf_counter()
        address = uno.systemPathToFileUrl(path)
        opened = self.desktop.loadComponentFromURL(address, "_blank", 0, properties(Hidden=hidden))
        if opened is None:
            raise ValueError(f"LibreOffice cannot open {path}")
        self.books[book] = opened
        return time.perf_counter() - started

    def changed(self, book: str) -> bool:
        """Whether LibreOffice would ask to save it."""
        return bool(self.books[book].isModified())

    def recalculate(self, book: str) -> float:
        """Works out every formula anew; answers the seconds it took."""
        started = time.perf_counter()
        self.books[book].calculateAll()
        return time.perf_counter() - started

    def save(self, book: str, path: str = "") -> None:
        """Saves where the book lies, or as another file; a PDF is a copy."""
        if not path:
            self.books[book].store()
            return
        ending = path[path.rindex(".") :].lower()
        act = self.books[book].storeToURL if ending == ".pdf" else self.books[book].storeAsURL
        act(uno.systemPathToFileUrl(path), properties(FilterName=FILTERS[ending]))

    def close(self, book: str) -> None:
        """Closes a book without saving."""
        self.books.pop(book).close(True)

    def protect(self, book: str, sheet: str, password: str) -> None:
        """Locks a sheet."""
        self.sheet(book, sheet).protect(password)

    def enter(self, book: str, sheet: str, first: str, rows: List[List[Any]]) -> None:
        """Enters rows from a cell on, as if typed: numbers, texts, formulas (arguments parted by ";"), None."""
        start = self.sheet(book, sheet).getCellRangeByName(first).getCellAddress()
        area = self.sheet(book, sheet).getCellRangeByPosition(
            start.Column, start.Row, start.Column + len(rows[0]) - 1, start.Row + len(rows) - 1
        )
        area.setFormulaArray(tuple(tuple("" if cell is None else _typed(cell) for cell in row) for row in rows))

    def enter_arrays(self, book: str, sheet: str, arrays: Dict[str, str]) -> None:
        """Enters array formulas, each over its area."""
        for area, formula in arrays.items():
            self.sheet(book, sheet).getCellRangeByName(area).setArrayFormula(formula)

    def read(self, book: str, sheet: str, area: str) -> List[List[Any]]:
        """The values of an area."""
        return read(self.sheet(book, sheet).getCellRangeByName(area))

    def values(self, book: str) -> Dict[str, Dict[str, Any]]:
        """The value of every filled cell, by sheet and address."""
        return {
            sheet.Name: {
                address: value
                for area in [_used(sheet)]
                for address, value in by_address(area, read(area))
                if value is not None
            }
            for sheet in self.books[book].Sheets
        }

    def formulas(self, book: str) -> Dict[str, Dict[str, str]]:
        """The text of every formula as LibreOffice holds it, by sheet and address."""
        return {
            sheet.Name: {
                address: formula
                for area in sheet.queryFormulaCells(ANY_RESULT)
                for address, formula in by_address(area, area.getFormulaArray())
            }
            for sheet in self.books[book].Sheets
        }

    def styles(self, book: str) -> Dict[str, Dict[str, Any]]:
        """Number format, style name and colour of every filled cell, to see that a repair keeps them."""
        return {
            sheet.Name: {
                f"{column_name(x)}{y + 1}": [cell.NumberFormat, cell.CellStyle, cell.CellBackColor]
                for area in sheet.queryContentCells(FILLED)
                for x, y, cell in _cells(area)
            }
            for sheet in self.books[book].Sheets
        }

    def conditions(self, book: str, sheet: str) -> List[str]:
        """The formulas of a sheet's conditional formats."""
        return [
            formats.getByIndex(index).Formula1
            for formats in self.sheet(book, sheet).ConditionalFormats.getConditionalFormats()
            for index in range(formats.getCount())
        ]

    def wizard(self) -> Dict[str, Dict[str, Any]]:
        """What the function wizard shows: by function name its text and its arguments as (name, text)."""
        listed = self.service("com.sun.star.sheet.FunctionDescriptions")
        found = {}
        for index in range(listed.Count):
            about = {item.Name: item.Value for item in listed.getByIndex(index)}
            found[about["Name"]] = {
                "text": about["Description"],
                "arguments": [(a.Name, a.Description, a.IsOptional) for a in about["Arguments"] or ()],
            }
        return found

    def quit(self) -> None:
        """Closes all books and LibreOffice."""
        for name in list(self.books):
            self.close(name)
        try:
            self.desktop.terminate()
        except UnoException as error:
            print(error, file=sys.stderr)  # it is already on its way out

    def sheet(self, book: str, sheet: str) -> Any:
        """A sheet by name, made when there is none; "" is the first."""
        sheets = self.books[book].Sheets
        if not sheet:
            return sheets.getByIndex(0)
        if not sheets.hasByName(sheet):
            sheets.insertNewByName(sheet, sheets.Count)
        return sheets.getByName(sheet)


def _used(sheet: Any) -> Any:
    """The area from the first cell to the last one in use; asked for whole, since every question takes its time."""
    cursor = sheet.createCursor()
    cursor.gotoStartOfUsedArea(False)
    cursor.gotoEndOfUsedArea(True)
    return cursor


def _cells(area: Any) -> Iterator[Tuple[int, int, Any]]:
    place = area.getRangeAddress()
    for x in range(place.StartColumn, place.EndColumn + 1):
        for y in range(place.StartRow, place.EndRow + 1):
            yield x, y, area.getCellByPosition(x - place.StartColumn, y - place.StartRow)


def _typed(cell: Any) -> str:
    return cell if isinstance(cell, str) else repr(cell)


def main() -> None:
    """Answers orders until there are no more."""
    driver = Driver(connect(sys.argv[1], float(sys.argv[2])))
    print(json.dumps({"answer": "ready"}), flush=True)
    for line in sys.stdin:
        order = json.loads(line)
        try:
            answer = {"answer": getattr(driver, order.pop("order"))(**order)}
        except Exception as error:  # noqa: BLE001 - told to the other side, which raises it there
            answer = {"fault": f"{type(error).__name__}: {error}"}
        print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    main()
