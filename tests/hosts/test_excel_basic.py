"""The VBA module compiled and run by LibreOffice's Basic, with a stand-in for the call to Python."""

from __future__ import annotations

from pathlib import Path

import pytest

from brinecalc import registry
from brinecalc.hosts.calc import session
from brinecalc.hosts.excel import vba

STAND_IN = """
Option VBASupport 1
Option Compatible

Function Shown(value)
    If IsError(value) Then
        Shown = "error " & CStr(CLng(value))
    Else
        Shown = TypeName(value) & " " & CStr(value)
    End If
End Function

Function One(value)
    One = Shown(BrineCells(value))
End Function

Function Row(first, second)
    Dim answer
    answer = BrineCells(Array(first, second))
    Row = Shown(answer(0)) & ", " & Shown(answer(1))
End Function

Function Table(first, second)
    Dim cells(1, 0), answer
    cells(0, 0) = first
    cells(1, 0) = second
    answer = BrineCells(cells)
    Table = Shown(answer(0, 0)) & ", " & Shown(answer(1, 0))
End Function

Function Unreached(value)
    Unreached = Shown(BRINE_EDIBLE(value, "salmon"))
End Function
"""


@pytest.fixture(scope="module")
def basic(office):
    """Runs a function of the module in a LibreOffice of its own."""
    module = vba.module([registry.spec(name) for name in registry.names()])
    source = STAND_IN + "\n".join(module.replace("\r\n", "\n").splitlines()[1:]) + "\n"
    usual, session.DRIVER = session.DRIVER, Path(__file__).parent / "basic_driver.py"
    try:
        with session.Session(office, extensions=()) as calc:
            yield lambda function, *cells: calc.order("basic", source=source, function=function, arguments=cells)
    finally:
        session.DRIVER = usual


@pytest.mark.parametrize(("text", "number"), vba.ERRORS.items())
def test_an_error_text_becomes_that_error(basic, text, number):
    assert basic("One", text) == f"error {number}"


def test_other_answers_stay_as_they_are(basic):
    assert basic("One", 50.5) == "Double 50.5"
    assert basic("One", "ok") == "String ok"
    assert basic("One", "#NUM! is what it said") == "String #NUM! is what it said"


def test_errors_inside_rows_and_tables_are_errors_too(basic):
    assert basic("Row", 1.5, "#N/A") == "Double 1.5, error 2042"
    assert basic("Table", "#NUM!", 2.5) == "error 2036, Double 2.5"


def test_a_call_that_does_not_reach_python_is_an_error(basic):
    assert basic("Unreached", 1.0) == "error 2015"
