"""The add-in inside LibreOffice: each worksheet function as a method of one UNO service named BRINE.

One idea: Calc hands over floats, texts, None for a place left empty and rows of cells for a range, and takes a cell
back, errors as numbers that are not numbers with Calc's error code inside. A single cell must go back as such, not as
a table of one: IF and IFERROR around a table lose their way in Calc. So rows go back in the one other form in which
Calc takes a method of type ``any`` to give them, as a result that is fetched. All the rest is the registry's. Methods
are made at their first call, so that the function wizard opens without reading a table.
"""

from __future__ import annotations

import os
import struct
import sys
from typing import Any, Callable, Dict, Tuple

import uno
import unohelper
from com.sun.star.lang import Locale, XLocalizable, XServiceInfo, XServiceName
from com.sun.star.sheet import ResultEvent, XVolatileResult

FOLDER = os.path.dirname(os.path.abspath(__file__))
LIBRARY = os.path.join(FOLDER, "pythonpath")
if sys.path[:1] != [LIBRARY]:
    sys.path.insert(0, LIBRARY)  # ahead of any other copy of the library that this Python may have

SERVICE = "BRINE"
XFunctions = uno.getClass("brinecalc.calc.XFunctions")
CODES = {
    "#NULL!": 521,
    "#DIV/0!": 532,
    "#VALUE!": 519,
    "#REF!": 524,
    "#NAME?": 525,
    "#NUM!": 503,
    "#N/A": 32767,
    "#SPILL!": 519,
    "#CALC!": 519,
}

Rows = Tuple[Tuple[Any, ...], ...]


def error_number(code: int) -> float:
    """The not-a-number that Calc reads as the error of that code."""
    return float(struct.unpack("<d", struct.pack("<Q", 0x7FF8000000000000 | code))[0])


ERRORS = {text: error_number(code) for text, code in CODES.items()}


def cell_in(cell: Any) -> Any:
    """A cell as the registry reads it: "" where a place was left empty, a single cell out of its 1 × 1 range."""
    if cell is None:
        return ""
    if type(cell) is tuple and len(cell) == 1 and len(cell[0]) == 1:
        return None if cell[0][0] == "" else cell[0][0]
    return cell


def cell_out(cell: Any) -> Any:
    """One cell of an answer: a text, a float, or Calc's own error."""
    return ERRORS.get(cell, cell) if isinstance(cell, str) else float(cell)


def rows_out(answer: Any) -> Rows:
    """An answer as rows of cells."""
    if isinstance(answer, list):
        return tuple(tuple(cell_out(cell) for cell in row) for row in answer)
    return ((cell_out(answer),),)


class Fetched(unohelper.Base, XVolatileResult):  # type: ignore[misc]
    """Rows as a result that Calc fetches. It never changes, since a function's answer to given cells does not."""

    def __init__(self, rows: Rows) -> None:
        self.rows = rows

    def addResultListener(self, listener: Any) -> None:  # noqa: N802 - the names of UNO's interfaces
        """Hands the rows over at once."""
        event = ResultEvent()
        event.Source = self
        event.Value = uno.Any("[][]any", self.rows)
        listener.modified(event)

    def removeResultListener(self, listener: Any) -> None:  # noqa: N802
        """Nobody is kept, so nobody has to be let go."""


FETCHED: Dict[Any, Fetched] = {}
"""Results by function and cells: Calc keeps each one as long as the workbook is open, so equal ones are shared."""
MOST = 256


def fetched(key: Any, answer: Any) -> Fetched:
    """The one result for that call."""
    if key not in FETCHED:
        if len(FETCHED) >= MOST:
            FETCHED.clear()
        FETCHED[key] = Fetched(rows_out(answer))
    return FETCHED[key]


def method(name: str, rest: bool, table: bool) -> Callable[..., Any]:
    """The method of one function, which puts the finished one in its own place when it is first called."""

    def first(self: Any, *cells: Any) -> Any:
        made = _finished(name, rest, table)
        setattr(Functions, name, made)
        return made(self, *cells)

    return first


def _finished(name: str, rest: bool, table: bool) -> Callable[..., Any]:
    from brinecalc import registry

    function = registry.function(name)

    def call(self: Any, *cells: Any) -> Any:
        answer = function(*[cell if type(cell) is float else cell_in(cell) for cell in cells])
        if type(answer) is float:
            return answer
        return fetched((name, cells), answer) if isinstance(answer, list) else cell_out(answer)

    def call_table(self: Any, *cells: Any) -> Rows:
        return rows_out(function(*map(cell_in, cells)))

    def call_rest(self: Any, *cells: Any) -> Any:
        return call(self, *cells[:-1], *cells[-1])  # the last parameter is the sequence of all further cells

    return call_table if table else call_rest if rest else call


class Functions(unohelper.Base, XFunctions, XServiceName, XServiceInfo, XLocalizable):  # type: ignore[misc,valid-type]
    """The service; its methods are added below, one for each line of functions.txt."""

    def __init__(self, context: Any) -> None:
        self.locale = Locale("en", "US", "")

    def getServiceName(self) -> str:  # noqa: N802
        """The service that Calc's configuration names."""
        return SERVICE

    def getImplementationName(self) -> str:  # noqa: N802
        """The name it is registered under: the first half of BRINE.SALT in a file."""
        return SERVICE

    def supportsService(self, name: str) -> bool:  # noqa: N802
        """Whether it is that service."""
        return name == SERVICE

    def getSupportedServiceNames(self) -> Tuple[str, ...]:  # noqa: N802
        """The one service it is."""
        return (SERVICE,)

    def setLocale(self, locale: Any) -> None:  # noqa: N802
        """Keeps the language of the office; the functions speak one language everywhere."""
        self.locale = locale

    def getLocale(self) -> Any:  # noqa: N802
        """The language kept."""
        return self.locale


with open(os.path.join(FOLDER, "functions.txt"), encoding="ascii") as names:
    for line in names:
        word, *marks = line.split()
        setattr(Functions, word, method(word, "rest" in marks, "table" in marks))

g_ImplementationHelper = unohelper.ImplementationHelper()  # noqa: N816 - LibreOffice looks for this name
g_ImplementationHelper.addImplementation(Functions, SERVICE, (SERVICE,))
