"""Excel: xlwings' own code calls our functions on a pretended Windows (see ``faked_windows``)."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

from parity.calls import Call, Cells, Error, Gap, Table

PROBE = Path(__file__).parent.parent / "excel_probe.py"


def answers(calls: list[Call]) -> tuple[list[Any], list[Any]]:
    """The answers and the reasons, as the VBA module gets them."""
    given = [(call.name, [_argument(argument) for argument in call.arguments]) for call in calls]
    asked = [[name, arguments] for name, arguments in given]
    asked += [["BRINE_WHY", [name, *arguments]] for name, arguments in given]
    command = [sys.executable, str(PROBE)]
    run = subprocess.run(command, input=json.dumps(asked), capture_output=True, text=True, check=True)
    found = [_as_rows(answer) for answer in json.loads(run.stdout[run.stdout.index("{") :])["answers"]]
    return found[: len(calls)], found[len(calls) :]


def _as_rows(answer: Any) -> Any:
    """xlwings hands a table of one row to VBA as a list, which Excel shows as that row."""
    return [answer] if isinstance(answer, list) and not isinstance(answer[0], list) else answer


def _argument(argument: Any) -> Any:
    """An argument as the probe takes it."""
    if isinstance(argument, Gap):
        return {"special": "missing"}
    if isinstance(argument, Table):
        return {"table": argument.rows}
    if isinstance(argument, Cells):
        return {"cell": argument.rows[0][0]} if argument.single else [list(row) for row in argument.rows]
    return argument.text if isinstance(argument, Error) else argument
