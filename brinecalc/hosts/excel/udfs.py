"""One decorated function for each worksheet function, with a real signature that xlwings can read.

One idea: xlwings learns a function's arguments from its signature, so each gets one made from its record:
required arguments plain, optional ones with the default ``""``, which is "not given" everywhere in this library.
Errors come in as text (``err_to_str``) and go out as text; the VBA module or xlwings Lite turns them into true ones.
"""

from __future__ import annotations

import inspect
from typing import Any, Callable

import xlwings

from brinecalc import registry
from brinecalc.describe import Argument, FunctionSpec
from brinecalc.hosts.excel.words import RESERVED

CATEGORY = "brinecalc"
LONGEST = 255
"""Excel cuts help and argument texts at this many characters."""


def make(name: str) -> Callable[..., Any]:
    """The function Excel calls under `name`."""
    spec = registry.spec(name)
    call = registry.function(name)

    def worksheet_function(*cells: Any) -> Any:
        return call(*cells)

    worksheet_function.__name__ = worksheet_function.__qualname__ = name
    worksheet_function.__module__ = "brinecalc.hosts.excel"
    worksheet_function.__doc__ = shortened(f"{spec.summary} Result: {spec.result_text}")
    worksheet_function.__annotations__ = {}
    worksheet_function.__signature__ = signature(spec)  # type: ignore[attr-defined]
    made = xlwings.func(worksheet_function, category=CATEGORY)
    for argument in spec.arguments:
        label = parameter_name(argument)
        made = xlwings.arg(label, err_to_str=True, doc=argument_help(argument))(made)
    return made


def signature(spec: FunctionSpec) -> inspect.Signature:
    """The signature xlwings reads; functions that take any number of cells have no optional ones."""
    parameters = []
    for argument in spec.arguments:
        kind = inspect.Parameter.POSITIONAL_OR_KEYWORD
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


def argument_help(argument: Argument) -> str:
    """What the function wizard says of an argument: meaning, what it must be, default, example."""
    parts = [argument.meaning, f"{argument.rule[0].upper()}{argument.rule[1:]}."]
    if not argument.required and argument.default is not None:
        parts.append(f"Left out: {argument.default}.")
    if argument.example:
        parts.append(f"Example: {argument.example}.")
    return shortened(" ".join(parts))


def shortened(text: str) -> str:
    """A text cut at a word to what Excel shows."""
    if len(text) <= LONGEST:
        return text
    return text[: LONGEST - 1].rsplit(" ", 1)[0] + "…"
