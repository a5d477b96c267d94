"""The help texts that hosts show beside a function and its arguments, cut to what every host can hold.

One idea: Excel and Calc cut such texts at 255 characters, so they are put together here, the most useful part first,
and a part that no longer fits is left out whole rather than broken off.
"""

from __future__ import annotations

from typing import Iterable

from brinecalc.describe import NUMBERS, WORDS, Argument, FunctionSpec

LONGEST = 255
SAID = frozenset(("text", "name", "amount", "cell", "cells"))
"""Kinds whose meaning says all there is to say of what they take."""


def function_help(spec: FunctionSpec) -> str:
    """What a function does and gives, then as much of its notes as fits."""
    unit = "" if spec.unit in ("", "-") else f" [{spec.unit}]"
    gives = f"Gives: {spec.result_text.rstrip('.')}{unit}." if spec.result_text else ""
    return _fitting([spec.summary, gives, *_sentences(spec.notes)])


def argument_help(argument: Argument) -> str:
    """What an argument means, what it must be, what stands when it is left out, and an example."""
    return _fitting([argument.meaning, _rule(argument), _left_out(argument), _example(argument)])


def argument_name(argument: Argument) -> str:
    """An argument's name as people see it; brackets mark one that may be left out."""
    return argument.name if argument.required else f"[{argument.name}]"


def _rule(argument: Argument) -> str:
    rule = argument.rule[len("must be ") :]
    if argument.kind in SAID and not argument.choices:
        return ""
    return f"{rule[0].upper()}{rule[1:]}."


def _left_out(argument: Argument) -> str:
    if argument.required:
        return ""
    default = argument.default
    if default is None or default == "":
        return "May be left out."
    if argument.kind in WORDS or isinstance(default, str):
        return f'Left out: "{default}".'
    return f"Left out: {argument.show(default) if argument.kind in NUMBERS else format(default, 'g')}."


def _example(argument: Argument) -> str:
    return f"For example {argument.example}." if argument.example else ""


def _sentences(text: str) -> Iterable[str]:
    """The sentences of a text; a full stop ends one when a space and a capital follow."""
    start = 0
    for at in range(1, len(text) - 2):
        if text[at] == "." and text[at + 1] == " " and text[at + 2].isupper():
            yield text[start : at + 1]
            start = at + 2
    if text[start:]:
        yield text[start:]


def _fitting(parts: Iterable[str]) -> str:
    text = ""
    for part in parts:
        longer = f"{text} {part}".strip()
        if len(longer) > LONGEST:
            break
        text = longer
    return text
