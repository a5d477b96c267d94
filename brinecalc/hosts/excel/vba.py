"""The VBA module for classic xlwings, with true errors in place of error texts.

One idea: each function is one call through xlwings, as xlwings' own import writes it (a test compares them), with two
differences. What comes back goes through a function that turns the exact texts ``#NUM!`` and so on, alone or inside a
table, into CVErr values, which a Python function cannot return over COM; and a call that fails becomes ``#VALUE!``
instead of a message. The macro BrineHelp gives Excel's function wizard its texts.
"""

from __future__ import annotations

import re
from typing import Sequence

from brinecalc.describe import FunctionSpec
from brinecalc.hosts import texts
from brinecalc.version import VERSION

NAME = "xlwings_udfs"
"""The module's name is the one that xlwings' own import replaces, so that the two never stand side by side."""

FUNCTIONS = "brinecalc.hosts.excel"
CATEGORY = "brinecalc"
HELP_MACRO = "BrineHelp"
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


def module(specs: Sequence[FunctionSpec]) -> str:
    """The whole module, to be imported in the VBA editor; lines end as Windows wants them."""
    helps = "\n".join(f"    Help{number}" for number in range(1, len(specs) + 1))
    parts = [
        (
            f'Attribute VB_Name = "{NAME}"\n'
            f"' Written by brinecalc {VERSION} (brinecalc install excel). Import it again after an update.\n"
        ),
        *(_function(spec) for spec in specs),
        f"Public Sub {HELP_MACRO}()\n    On Error Resume Next\n{helps}\nEnd Sub\n",
        *(_help(number, spec) for number, spec in enumerate(specs, 1)),
        _converters(),
    ]
    return "\n".join(parts).replace("\n", "\r\n")


def version(text: str) -> str:
    """The version of the library that wrote a module, or "" for a module that is not ours."""
    found = re.search(r"Written by brinecalc ([\w.]+) ", text)
    return found[1] if found else ""


def _function(spec: FunctionSpec) -> str:
    """One function. Anything that goes wrong on the way to Python is #VALUE!."""
    given = [argument.name for argument in spec.arguments]
    shown = [name if argument.required else f"Optional {name}" for name, argument in zip(given, spec.arguments)]
    fill, packed = "", f"Array({', '.join(given)})"
    if spec.variadic:
        shown[-1] = f"ParamArray {given[-1]}()"
        fill, packed = _filled(given), "cells"
    call = f'XLPy.CallUDF("{FUNCTIONS}", "{spec.name}", {packed}, ThisWorkbook, Application.Caller)'
    return f"""Public Function {spec.name}({", ".join(shown)}) As Variant
    On Error GoTo failed
{fill}    {spec.name} = BrineCells({call})
    Exit Function
failed:
    {spec.name} = CVErr({ERRORS["#VALUE!"]})
End Function
"""


def _filled(names: Sequence[str]) -> str:
    """Lines that put the fixed arguments and then all further ones into one array."""
    rest = names[-1]
    fixed = "".join(f"    cells({place}) = {name}\n" for place, name in enumerate(names[:-1]))
    count = len(names) - 1
    return (
        f"    Dim cells() As Variant, k As Long\n"
        f"    ReDim cells(0 To UBound({rest}) - LBound({rest}) + {count})\n{fixed}"
        f"    For k = LBound({rest}) To UBound({rest})\n"
        f"        If IsObject({rest}(k)) Then\n"
        f"            Set cells({count} + k - LBound({rest})) = {rest}(k)\n"
        f"        Else\n"
        f"            cells({count} + k - LBound({rest})) = {rest}(k)\n"
        f"        End If\n"
        f"    Next k\n"
    )


def _help(number: int, spec: FunctionSpec) -> str:
    """A macro of its own for each function, since VBA limits how much one may hold."""
    texts_of_arguments = ", _\n        ".join(_literal(texts.argument_help(argument)) for argument in spec.arguments)
    arguments = f", _\n        ArgumentDescriptions:=Array( _\n        {texts_of_arguments})" if spec.arguments else ""
    return f"""Private Sub Help{number}()
    Application.MacroOptions Macro:="'" & ThisWorkbook.Name & "'!{spec.name}", _
        Description:={_literal(texts.function_help(spec))}, _
        Category:="{CATEGORY}"{arguments}
End Sub
"""


def _literal(text: str) -> str:
    """A text as VBA writes it; characters beyond ASCII by number, since files are read in each machine's code."""
    pieces = [piece for piece in re.split(r"([^\x20-\x7e])", text) if piece]
    return " & ".join(_piece(piece) for piece in pieces)


def _piece(piece: str) -> str:
    return '"' + piece.replace('"', '""') + '"' if piece.isascii() and piece.isprintable() else f"ChrW({ord(piece)})"


_TABLES = """Private Function BrineCells(answer As Variant) As Variant
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
"""Turns every cell of an answer, alone or in a table, by BrineCell."""


def _converters() -> str:
    """The VBA functions that turn error texts into errors, for one cell and for tables."""
    cases = "\n".join(f'            Case "{text}": BrineCell = CVErr({number})' for text, number in ERRORS.items())
    return f"""{_TABLES}
Private Function BrineCell(value As Variant) As Variant
    BrineCell = value
    If VarType(value) = vbString Then
        Select Case value
{cases}
        End Select
    End If
End Function
"""
