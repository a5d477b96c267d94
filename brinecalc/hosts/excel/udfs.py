"""One decorated function for each worksheet function, with a real signature that xlwings can read.

One idea: xlwings learns a function's arguments from its signature, so each gets one made from its record:
required arguments plain, optional ones with the default ``""``, which is "not given" everywhere in this library.
Errors go out as text; the VBA module or xlwings Lite turns them into true ones.
"""

from __future__ import annotations

import inspect
from typing import Any, Callable

import xlwings

from brinecalc import registry
from brinecalc.describe import Argument, FunctionSpec
from brinecalc.hosts import texts
from brinecalc.hosts.excel.cells import AsGiven, plain
from brinecalc.hosts.excel.words import RESERVED

CATEGORY = "brinecalc"


def make(name: str) -> Callable[..., Any]:
    """The function Excel calls under `name`."""
    spec = registry.spec(name)
    call = registry.function(name)

    def worksheet_function(*cells: Any) -> Any:
        return call(*[plain(cell) for cell in cells])

    worksheet_function.__name__ = worksheet_function.__qualname__ = name
    worksheet_function.__module__ = "brinecalc.hosts.excel"
    worksheet_function.__doc__ = texts.function_help(spec)
    worksheet_function.__annotations__ = {}
    worksheet_function.__signature__ = signature(spec)  # type: ignore[attr-defined]
    made: Callable[..., Any] = worksheet_function
    for argument in spec.arguments:
        label = parameter_name(argument)
        made = xlwings.arg(label, AsGiven, doc=texts.argument_help(argument))(made)
    return xlwings.func(category=CATEGORY)(made)  # last: each `arg` would set the category back


def signature(spec: FunctionSpec) -> inspect.Signature:
    """The signature xlwings reads; functions that take any number of cells have no optional ones."""
    parameters = []
    for argument in spec.arguments:
        kind: Any = inspect.Parameter.POSITIONAL_OR_KEYWORD
        default: Any = inspect.Parameter.empty if argument.required else ""
        if argument.kind == "cells":
            kind, default = inspect.Parameter.VAR_POSITIONAL, inspect.Parameter.empty
        parameters.append(inspect.Parameter(parameter_name(argument), kind, default=default))
    return inspect.Signature(parameters)


def parameter_name(argument: Argument) -> str:
    """An argument's name as VBA may have it; a test sees to it that none has to be changed."""
    if argument.name.lower() in RESERVED:
        raise ValueError(f"{argument.name} is a reserved word of VBA")
    return argument.name
