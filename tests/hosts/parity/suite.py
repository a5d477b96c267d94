"""Runs all calls through a host and compares what it answers with what the registry answers to the calls as read.

    PYTHONPATH=tests:tests/hosts:tests/properties python -m parity.suite

prints a line for each host found on this machine.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import Any, Callable

from parity import browser_host, differences, excel_host, python_host, workbook, workbook_hosts
from parity.calls import Call, all_calls
from parity.comparison import Outcome

from brinecalc.hosts.calc.session import Session

HEADLESS, CALC, EXCEL, LITE = "the headless engine", differences.CALC, "classic xlwings", differences.LITE
Answers = tuple[list[Any], list[Any]]


def headless() -> Outcome:
    """Formulas of a workbook through the headless engine."""
    return _run(HEADLESS, lambda calls, wanted: workbook_hosts.headless(workbook.build(calls, *wanted)))


def calc(session: Session) -> Outcome:
    """The same workbook in LibreOffice."""
    return _run(CALC, lambda calls, wanted: workbook_hosts.calc(workbook.build(calls, *wanted), session))


def excel() -> Outcome:
    """Calls as classic xlwings makes them."""
    return _run(EXCEL, lambda calls, wanted: excel_host.answers(calls))


def browser(folder: Path) -> Outcome:
    """Calls as xlwings Lite makes them, inside Pyodide."""
    return _run(LITE, lambda calls, wanted: browser_host.answers(calls, folder))


def _run(host: str, ask: Callable[[list[Call], Answers], Answers]) -> Outcome:
    calls = all_calls()
    outcome = Outcome(host)
    values = [differences.as_read(host, call) for call in calls]
    reasons = [differences.as_read(host, call, asked_why=True) for call in calls]
    wanted = python_host.answers([call for call, _ in values]), python_host.reasons([call for call, _ in reasons])
    found = ask(calls, wanted)
    for number, call in enumerate(calls):
        for what, read, want, got in zip(("value", "reason"), (values, reasons), wanted, found, strict=True):
            if only := differences.errors_only(host, call):
                outcome.compare_errors(call, what, got[number], *only)
            else:
                outcome.compare(call, what, want[number], got[number], read[number][1])
    return outcome


def main() -> None:
    """Prints what came of every host that is there."""
    import browser as browser_files

    from brinecalc.hosts.calc.office import find

    print(headless())
    print(excel())
    office = find()
    if office is None or not office.runs_us:
        print("LibreOffice Calc: not found here")
    else:
        with Session(office) as session:
            print(calc(session))
    if reason := browser_files.missing():
        print(f"xlwings Lite: {reason}")
    else:
        with tempfile.TemporaryDirectory() as folder:
            print(browser(Path(folder)))


if __name__ == "__main__":
    sys.exit(main())
