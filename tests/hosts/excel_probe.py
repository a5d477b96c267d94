"""Run in a process of its own: imports our functions with xlwings' own code on a pretended Windows, and calls them.

Reads a JSON list of [name, cells] from standard input, writes what came of it as JSON: the VBA module, the texts
given to Excel's function wizard, and each call's answer.
"""

from __future__ import annotations

import datetime
import decimal
import json
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).parent))

import faked_windows

faked_windows.install()

from xlwings import udfs  # noqa: E402 - only after Windows is pretended
from xlwings.com_server import XLPython  # noqa: E402

MODULE = "brinecalc.hosts.excel"
SPECIAL = {
    "missing": faked_windows.MISSING,
    "decimal": decimal.Decimal("2.5"),
    "date": datetime.datetime(2027, 3, 5, 12),
}
ERRORS = {"#N/A": -2146826246, "#NUM!": -2146826252, "#DIV/0!": -2146826281, "#VALUE!": -2146826273}


def cell(value):
    """A cell as COM hands it over: errors are numbers there."""
    if isinstance(value, dict):
        return SPECIAL[value["special"]]
    return ERRORS.get(value, value) if isinstance(value, str) else value


def argument(value):
    """An argument: lists are ranges, {"cell": x} is one cell, {"table": rows} an array constant, all else a literal."""
    if isinstance(value, list):
        return faked_windows.Range([[cell(x) for x in row] for row in value])
    if isinstance(value, dict) and "table" in value:
        return tuple(tuple(cell(x) for x in row) for row in value["table"])
    if isinstance(value, dict) and "cell" in value:
        return faked_windows.Range([[cell(value["cell"])]])
    return cell(value)


def main() -> None:
    book = faked_windows.Book()
    udfs.import_udfs(MODULE, book)
    excel = XLPython()
    caller = faked_windows.Range([[None]])
    answers = [
        excel.CallUDF(MODULE, name, tuple(argument(value) for value in cells), None, caller)
        for name, cells in json.load(sys.stdin)
    ]
    json.dump({"vba": book.components.imported, "options": book.options, "answers": answers}, sys.stdout)


main()
