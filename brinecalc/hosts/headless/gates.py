"""The gates through which the engine calls functions.

One idea: a gate is as thin as can be, since it is gone through for every cell: errors in as texts, errors out as
error values. It holds no reference to the engine, which holds the gates, so that a workbook is let go of when it is
done with.
"""

from __future__ import annotations

from typing import Any, Callable, Dict, List, Optional, Tuple

import formualizer

from brinecalc.hosts.headless import stand_ins, values, watches

Value = Any
"""A float, a text, True or False, None for a blank cell, a dict for an error, or rows of these."""

ERROR_TEXTS = {
    "Null": "#NULL!",
    "Div": "#DIV/0!",
    "Value": "#VALUE!",
    "Ref": "#REF!",
    "Name": "#NAME?",
    "Num": "#NUM!",
    "Na": "#N/A",
}
"""The engine's kinds of error and how they stand in a cell."""

_MARKED = frozenset((dict, list))  # what a cell of a range may be that has to be looked into
_KINDS = {text: kind for kind, text in ERROR_TEXTS.items()}
_KINDS.update({"#SPILL!": "Value", "#CALC!": "Value"})


class Notes:
    """What the gates write down while the engine computes."""

    def __init__(self) -> None:
        self.doubts: Dict[Tuple[int, int], str] = {}
        """Number and row of a formula (row 0: any) → why its value is not to be trusted."""
        self.tables: Dict[int, Tuple[int, int]] = {}
        """Number of an array formula → height and width of its result."""
        self.refusals: Optional[List[Tuple[str, Tuple[Value, ...], str]]] = None
        """Function, arguments and error of each refusal of ours; only kept while there is a list here."""


def gate(name: str, function: Callable[..., Any], notes: Notes) -> Callable[..., Value]:
    """A worksheet function as the engine calls it. The first lines are the common case and run often."""

    def through(*cells: Value) -> Value:
        for cell in cells:
            if cell.__class__ is dict or cell.__class__ is list:
                cells = tuple(_inward(each) for each in cells)
                break
        answer = function(*cells)
        if answer.__class__ is float:
            return answer
        if notes.refusals is not None:
            refused = next((cell for cell in values.flat((answer,)) if isinstance(cell, str) and cell in _KINDS), None)
            if refused:
                notes.refusals.append((name, cells, refused))
        return _outward(answer)

    return through


def helpers(notes: Notes) -> Dict[str, Callable[..., Value]]:
    """Every helper by the name that follows the prefix."""
    made: Dict[str, Callable[..., Value]] = {}
    for name, function in stand_ins.FUNCTIONS.items():
        made[name] = _shielded(function)
    for name, function in watches.FUNCTIONS.items():
        made[name] = _watched(function, notes)
    made["TEXT"] = _text
    made["TABLE"] = _fitted(notes)
    return made


def _watched(function: Callable[..., Value], notes: Notes) -> Callable[..., Value]:
    """A function that may raise a doubt: then the formula of that number in that row is not to be trusted."""

    def watched(formula: float, row: float, *given: Value) -> Value:
        try:
            answer = function(*given)
        except values.Fault as fault:
            return fault.error
        except watches.Doubt as doubt:
            notes.doubts.setdefault((int(formula), int(row)), str(doubt))
            return values.error("Na")
        return formualizer.LiteralValue.empty() if answer is None else answer  # a blank stays blank

    return watched


def _fitted(notes: Notes) -> Callable[..., Value]:
    """The result of an array formula, fitted to the cells that the file gives it."""

    def fitted(number: float, height: float, width: float, value: Value) -> Value:
        rows = value if isinstance(value, list) else [[value]]
        notes.tables[int(number)] = (len(rows), len(rows[0]))
        if height == width == 1:
            return _kept(rows[0][0])
        made = []
        for r in range(int(height)):
            row = rows[r] if r < len(rows) else rows[0] if len(rows) == 1 else []
            made.append([_kept(_in_row(row, c)) for c in range(int(width))])
        return made

    return fitted


def _in_row(row: List[Value], index: int) -> Value:
    if index < len(row):
        return row[index]
    return row[0] if len(row) == 1 else values.error("Na")


def _kept(value: Value) -> Value:
    return 0.0 if value is None else value


def _shielded(function: Callable[..., Value]) -> Callable[..., Value]:
    def shielded(*given: Value) -> Value:
        try:
            return function(*given)
        except values.Fault as fault:
            return fault.error

    return shielded


def _text(value: Value) -> Value:
    """A value as text, or each cell of a range."""
    if isinstance(value, list):
        return [[_text(cell) for cell in row] for row in value]
    try:
        return values.short(values.text(value))
    except values.Fault as fault:
        return fault.error


def _inward(cell: Value) -> Value:
    """A cell as our functions take it: errors are texts. A range without errors is handed on as it is."""
    if cell.__class__ is dict:
        return ERROR_TEXTS.get(cell.get("kind", ""), "#VALUE!")
    if cell.__class__ is list and not all(map(_is_plain, cell)):
        return [[_inward(each) for each in row] for row in cell]
    return cell


def _is_plain(row: Value) -> bool:
    return row.__class__ is list and _MARKED.isdisjoint(map(type, row))


def _outward(answer: Value) -> Value:
    """An answer as the engine takes it: texts that are errors become error values."""
    if isinstance(answer, str):
        kind = _KINDS.get(answer)
        return values.error(kind) if kind else answer
    if isinstance(answer, (list, tuple)):
        return [[cell if cell.__class__ is float else _outward(cell) for cell in row] for row in answer]
    return answer
