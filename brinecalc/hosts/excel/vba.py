"""The VBA module for classic xlwings, with true errors in place of error texts.

One idea: xlwings writes the wrappers itself; they only need two changes. What comes back is passed through a
function that turns the exact texts ``#NUM!`` and so on, alone or inside a table, into CVErr values, and a failed
call becomes ``#VALUE!`` rather than its message. Over COM a Python function cannot return an error value itself.
"""

from __future__ import annotations

import re

ERRORS = {
    "#NULL!": 2000,
    "#DIV/0!": 2007,
    "#VALUE!": 2015,
    "#REF!": 2023,
    "#NAME?": 2029,
    "#NUM!": 2036,
    "#N/A": 2042,
    "#SPILL!": 2045,
    "#CALC!": 2050,
}
"""Excel's error texts and the numbers CVErr knows them by."""

_CALL = re.compile(r"(?m)^(\s*)(\w+) = (XLPy\.CallUDF\(.*\))\s*$")
_FAILED = re.compile(r"(?m)^(\s*)(\w+) = Err\.Description\s*$")


def with_true_errors(module: str) -> str:
    """A VBA module as xlwings writes it, changed so that cells get true errors."""
    text = module.replace(" _\n", " ")
    text = _CALL.sub(r"\1\2 = BrineCells(\3)", text)
    text = _FAILED.sub(r"\1\2 = CVErr(2015)", text)
    return text.rstrip() + "\n" + helper()


def helper() -> str:
    """The VBA functions that turn error texts into errors, for one cell and for tables."""
    cases = "\n".join(f'            Case "{text}": BrineCell = CVErr({number})' for text, number in ERRORS.items())
    return f"""
Private Function BrineCells(answer As Variant) As Variant
    Dim row As Long, column As Long
    If Not IsArray(answer) Then
        BrineCells = BrineCell(answer)
        Exit Function
    End If
    Dim table As Variant
    table = answer
    If BrineRank(table) = 1 Then
        For row = LBound(table) To UBound(table)
            table(row) = BrineCell(table(row))
        Next row
    Else
        For row = LBound(table, 1) To UBound(table, 1)
            For column = LBound(table, 2) To UBound(table, 2)
                table(row, column) = BrineCell(table(row, column))
            Next column
        Next row
    End If
    BrineCells = table
End Function

Private Function BrineCell(value As Variant) As Variant
    BrineCell = value
    If VarType(value) = vbString Then
        Select Case value
{cases}
        End Select
    End If
End Function

Private Function BrineRank(table As Variant) As Long
    Dim bound As Long
    On Error GoTo counted
    bound = UBound(table, 1)
    BrineRank = 1
    bound = UBound(table, 2)
    BrineRank = 2
counted:
End Function
"""
