"""Reads a worksheet function's own docstring and signature into a record that every host uses.

One idea: the docstring is data. Types, units, ranges, defaults, help texts, sources and examples are written
once, where a programmer reads them, and parsed from there; nothing is declared a second time. A docstring that
breaks the form is a ValueError, and a test walks them all.
"""

from __future__ import annotations

import re
from typing import Any, Callable, Dict, List, NamedTuple, Optional, Tuple

DIMENSIONS = {
    "mass": "mass",
    "water": "water",
    "length": "length",
    "size": "length",
    "hours": "time",
    "temperature": "temperature",
    "volume": "volume",
    "share": "share",
}
"""Argument kinds that carry a unit, and the dimension their text is read in."""

NUMBERS = frozenset((*DIMENSIONS, "number", "ppm", "money"))
TABLES = frozenset(("column", "table"))
WORDS = frozenset(("text", "name", "choice"))
KINDS = NUMBERS | TABLES | WORDS | {"amount", "cell", "cells"}

REQUIRED: Any = object()
"""The default of an argument that has none."""

_ARGUMENT = r"\*?(\w+) : (.+)"  # patterns stay text until a docstring is read, so that start-up stays short
_TEXT = r"(?s)(.*?)\s*\[([^\]]*)\]\s*(?:;\s*(.*?))?\.(?:\s+(.*))?$"
_CLAUSE = r"(above|at least|below|at most) (-?[\d.]+(?:e-?\d+)?)$"
_EXAMPLE = r"\s*Example: (.+?)\.?$"
_HEADINGS = ("Parameters", "Returns", "Examples")


class Argument(NamedTuple):
    """One argument: what it is called, what kind of cell it reads, what it allows, what it means."""

    name: str
    kind: str
    choices: Tuple[str, ...]
    unit: str
    low: Optional[float]
    high: Optional[float]
    open_low: bool
    open_high: bool
    default: Any
    meaning: str
    example: str

    @property
    def required(self) -> bool:
        """Whether it has no default."""
        return self.default is REQUIRED

    @property
    def rule(self) -> str:
        """What the argument must be, in words: "must be above 0 g"."""
        if self.kind == "choice":
            return "must be one of " + ", ".join(f'"{choice}"' for choice in self.choices)
        limits = []
        if self.low is not None:
            limits.append(f"{'above' if self.open_low else 'at least'} {self.show(self.low)}")
        if self.high is not None:
            limits.append(f"{'below' if self.open_high else 'at most'} {self.show(self.high)}")
        other = f' or "{self.choices[0]}"' if self.choices else ""
        return "must be " + (" and ".join(limits) or KIND_WORDS.get(self.kind, "a number")) + other

    def show(self, value: float) -> str:
        """A value of this argument with its unit, as a person would write it."""
        if self.kind == "share":
            return f"{value * 100:.9g} %"
        unit = "" if self.unit in ("-", "") else f" {self.unit}"
        return f"{value:.9g}{unit}"


KIND_WORDS = {
    "mass": "a mass such as 500 or 2.5 kg",
    "water": "a mass or volume of water, such as 1000, 2 L or 1 gal",
    "length": "a length such as 25 or 1 in",
    "size": "a length such as 25 or 1 in, or a block such as 150 x 60 x 40 mm",
    "hours": "a time such as 4 or 90 min",
    "temperature": "a temperature such as 4 or 40 °F",
    "volume": "a volume such as 500 or 2 qt",
    "share": "a share such as 5% or 0.05",
    "number": "a number",
    "ppm": "a number of parts per million",
    "money": "an amount of money, as a plain number",
    "text": "text",
    "name": "a name",
    "choice": "one of the words listed",
    "column": "a range of cells",
    "table": "a range of cells",
    "amount": "a number, or text with its unit such as 25 kg",
    "cell": "a cell",
    "cells": "cells",
}


class Example(NamedTuple):
    """One line a person would type, as Python text, and the result its docstring states."""

    call: str
    result: str


class FunctionSpec(NamedTuple):
    """All that is known of a worksheet function."""

    name: str
    family: str
    summary: str
    arguments: Tuple[Argument, ...]
    variadic: bool
    result: str
    unit: str
    result_text: str
    notes: str
    sources: Tuple[str, ...]
    examples: Tuple[Example, ...]

    @property
    def usage(self) -> str:
        """The call as a person writes it: optional arguments in brackets."""
        shown = [a.name if a.required else f"[{a.name}]" for a in self.arguments]
        if self.variadic:
            shown[-1] = "…"
        return f"{self.name}({', '.join(shown)})"


def worksheet_name(function: Callable[..., Any]) -> str:
    """BRINE_ and the Python name in capitals; a trailing underscore only avoids a reserved word."""
    return "BRINE_" + function.__name__.rstrip("_").upper()


def describe(function: Callable[..., Any], family: str) -> FunctionSpec:
    """The record of one function, read from its signature and docstring."""
    name = worksheet_name(function)
    if not function.__doc__:
        raise ValueError(f"{name} has no docstring; Python's -OO option strips them and cannot be used")
    parts = _sections(function.__doc__)
    code = function.__code__
    parameters = list(code.co_varnames[: code.co_argcount])
    defaults = dict(zip(reversed(parameters), reversed(function.__defaults__ or ())))
    variadic = bool(code.co_flags & 0x04)
    if variadic:
        parameters.append(code.co_varnames[code.co_argcount])
    texts = _arguments(parts["Parameters"], name) if "Parameters" in parts else {}
    if list(texts) != parameters:
        raise ValueError(f"{name}: the docstring describes {list(texts)}, the signature has {parameters}")
    arguments = tuple(_argument(p, *texts[p], defaults.get(p, REQUIRED), name) for p in parameters)
    result, unit, meaning = _result(parts.get("Returns", []), name)
    tail = " ".join(parts["Notes"])
    notes, _, sources = tail.partition("Sources:")
    return FunctionSpec(
        name,
        family,
        parts["Summary"][0],
        arguments,
        variadic,
        result,
        unit,
        meaning,
        notes.replace("Notes:", "", 1).strip(),
        tuple(key for key in (re.sub(r"\(.*?\)", "", s).strip(" .") for s in re.split("[,;]", sources)) if key),
        _examples(parts.get("Examples", [])),
    )


def _sections(docstring: str) -> Dict[str, List[str]]:
    """The docstring's lines by section, stripped of the common indent; prose after a section is "Notes"."""
    lines = docstring.expandtabs().splitlines()
    margin = min((len(x) - len(x.lstrip()) for x in lines[1:] if x.strip()), default=0)
    lines = [lines[0].strip()] + [line[margin:].rstrip() for line in lines[1:]]
    parts: Dict[str, List[str]] = {"Summary": [], "Notes": []}
    current = "Summary"
    for line in lines:
        if line in _HEADINGS:
            current = line
            parts[current] = []
        elif line.startswith(("Notes:", "Sources:")):
            current = "Notes"
            parts[current].append(line)
        elif line and set(line) != {"-"}:
            parts[current].append(line)
    parts["Notes"][:0] = parts["Summary"][1:]
    return parts


def _arguments(lines: List[str], name: str) -> Dict[str, Tuple[str, str]]:
    """Parameter name → (type, text)."""
    found: Dict[str, Tuple[str, str]] = {}
    current = ""
    for line in lines:
        if not line.startswith(" "):
            match = re.match(_ARGUMENT, line)
            if not match:
                raise ValueError(f"{name}: cannot read the parameter line {line!r}")
            current = match[1]
            found[current] = (match[2], "")
        else:
            kind, text = found[current]
            found[current] = (kind, f"{text} {line.strip()}".strip())
    return found


def _argument(name: str, kind: str, text: str, default: Any, function: str) -> Argument:
    """One argument from its type and its text ``Meaning [unit]; limits. More. Example: x.``"""
    choices: Tuple[str, ...] = ()
    if kind.endswith("}"):
        head, _, listed = kind[:-1].partition("{")
        choices = tuple(word.strip().strip("\"'") for word in listed.split(","))
        kind = head.replace(" or ", "").strip() or "choice"
    if kind not in KINDS:
        raise ValueError(f"{function}: {name} has the unknown type {kind!r}")
    match = re.match(_TEXT, text)
    if not match:
        raise ValueError(f"{function}: the text of {name} must read 'Meaning [unit]; limits.', not {text!r}")
    meaning, unit, clauses, rest = match.groups()
    low, high, open_low, open_high = _limits(clauses, f"{function}: {name}")
    rest = rest or ""
    example = re.search(_EXAMPLE, rest)
    more = rest[: example.start()] if example else rest
    meaning = meaning.strip() + ("." if not more.strip() else ". " + more.strip())
    return Argument(
        name,
        kind,
        choices,
        unit.strip(),
        low,
        high,
        open_low,
        open_high,
        default,
        meaning,
        example[1] if example else "",
    )


def _limits(clauses: Optional[str], where: str) -> Tuple[Optional[float], Optional[float], bool, bool]:
    low: Optional[float] = None
    high: Optional[float] = None
    open_low = open_high = False
    for clause in map(str.strip, (clauses or "any").split(",")):
        if clause == "any":
            continue
        match = re.match(_CLAUSE, clause)
        if not match:
            raise ValueError(f"{where}: cannot read the limit {clause!r}")
        bound = float(match[2])
        if match[1] in ("above", "at least"):
            low, open_low = bound, match[1] == "above"
        else:
            high, open_high = bound, match[1] == "below"
    return low, high, open_low, open_high


def _result(lines: List[str], name: str) -> Tuple[str, str, str]:
    if not lines:
        raise ValueError(f"{name}: the docstring does not say what it returns")
    text = " ".join(line.strip() for line in lines[1:])
    match = re.match(r"(?s)(.*?)\s*\[([^\]]*)\](.*)$", text)
    if not match:
        raise ValueError(f"{name}: the result's text must hold its unit in square brackets")
    return lines[0].strip(), match[2].strip(), (match[1] + match[3]).strip()


def _examples(lines: List[str]) -> Tuple[Example, ...]:
    made: List[Example] = []
    for line in lines:
        if line.startswith(">>> "):
            made.append(Example(line[4:], ""))
        elif made:
            call, result = made[-1]
            made[-1] = Example(call, f"{result} {line.strip()}".strip())
    return tuple(made)


class WorkedExample(NamedTuple):
    """An example as a host can run it: the cells, the answer, and how close it is stated."""

    cells: Tuple[Any, ...]
    answer: Any
    within: float

    def formula(self, name: str) -> str:
        """The example as a person types it into a cell."""
        return f"={name}({','.join(_typed(cell) for cell in self.cells)})"


def worked_examples(spec: FunctionSpec) -> List[WorkedExample]:
    """The examples that are one plain call, perhaps rounded; others are for readers of Python only."""
    import ast

    order = [argument.name for argument in spec.arguments]
    made: List[WorkedExample] = []
    for text, result in spec.examples:
        first = ast.parse(text).body[0]
        if not isinstance(first, ast.Expr):
            continue
        call: ast.AST = first.value
        within = 1e-12
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "round":
            within = 0.5 * 10.0 ** -(ast.literal_eval(call.args[1]) if len(call.args) > 1 else 0)
            call = call.args[0]
        if not isinstance(call, ast.Call) or not isinstance(call.func, ast.Name):
            continue
        if "BRINE_" + call.func.id.rstrip("_").upper() != spec.name:
            continue
        try:
            cells = [ast.literal_eval(argument) for argument in call.args]
            named = {keyword.arg: ast.literal_eval(keyword.value) for keyword in call.keywords}
            answer = ast.literal_eval(result)
        except ValueError:
            continue
        for label in order[len(cells) :]:
            if not named:
                break
            cells.append(named.pop(label, ""))
        typed = tuple("" if cell is None else cell for cell in cells)  # None is "not given" in Python, "" in a cell
        made.append(WorkedExample(typed, answer, within))
    return made


def _typed(cell: Any) -> str:
    """A cell as it is typed inside a formula; tables become array constants."""
    if isinstance(cell, str):
        return '"' + cell.replace('"', '""') + '"'
    if isinstance(cell, (list, tuple)):
        rows = cell if any(isinstance(row, (list, tuple)) for row in cell) else [[item] for item in cell]
        return "{" + ";".join(",".join(_typed(item) for item in row) for row in rows) + "}"
    return f"{cell:.15g}" if isinstance(cell, float) else str(cell)
