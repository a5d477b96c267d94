"""The browser's Python: the wheel for xlwings Lite in Pyodide, called as it calls it (see ``browser_script``)."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import browser
from parity.calls import Call, Cells, Error, Gap, Table

from brinecalc.hosts.excel import wheel


def answers(calls: list[Call], folder: Path) -> tuple[list[Any], list[Any]]:
    """The answers and the reasons; `folder` takes what is built."""
    given = [(call.name, [_argument(argument) for argument in call.arguments]) for call in calls]
    asked = [[name, arguments] for name, arguments in given]
    asked += [["BRINE_WHY", [name, *arguments]] for name, arguments in given]
    ours = folder / wheel.FILE_NAME
    ours.write_bytes(wheel.content())
    done = browser.run([ours, browser.pure_xlwings(folder)], asked, folder)
    assert done["platform"] == "emscripten"
    assert done["heavy"] == []  # nothing that a browser would have to fetch besides
    found = done["answers"]
    return found[: len(calls)], found[len(calls) :]


def _argument(argument: Any) -> Any:
    """An argument as Excel in a browser hands it over: a cell as what it holds, an empty place as nothing."""
    if isinstance(argument, Gap):
        return None
    if isinstance(argument, (Cells, Table)):
        rows = [list(row) for row in argument.rows]
        return rows[0][0] if len(rows) == len(rows[0]) == 1 else rows[0] if len(rows) == 1 else rows
    return argument.text if isinstance(argument, Error) else argument
