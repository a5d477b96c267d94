"""Computes one formula without a workbook.

One idea: it goes through the same judge and the same engine as in a workbook, here one with a single empty sheet.
"""

from __future__ import annotations

from typing import Any, List, NamedTuple, Optional, Union

from brinecalc.hosts.headless import reasons
from brinecalc.hosts.headless.engine import Engine
from brinecalc.hosts.headless.gates import ERROR_TEXTS
from brinecalc.hosts.headless.library import REGISTRY, Library
from brinecalc.hosts.headless.outline import Outline
from brinecalc.hosts.headless.shapes import WHOLE
from brinecalc.hosts.headless.trust import Judge

_SHEET = "Sheet"
_ROW = 1_000_000  # far from any cell that the formula may name

Single = Union[float, str, bool]


class Answer(NamedTuple):
    """What a formula gives: a value or rows of values, errors as their texts; and why, where there is an error.

    `value` is None for a formula that is not computed; the reason says why not.
    """

    value: Union[Single, List[List[Single]], None]
    error: Optional[str]
    reason: Optional[str]


def evaluate(formula: str, library: Optional[Library] = None) -> Answer:
    """Computes a formula, with or without its equals sign."""
    functions = library or REGISTRY
    book = Outline()
    book.add_sheet(_SHEET, "")
    judge = Judge(book, functions)
    text = formula.strip().removeprefix("=").strip()
    verdict = judge.verdict(text, _SHEET, _ROW, WHOLE)
    if verdict.reason is not None:
        return Answer(None, None, _sentence(verdict.reason))
    engine = Engine(functions)
    engine.use(judge.used)
    caught: List[Any] = []

    def compute() -> Any:
        return engine.capture(_SHEET, _ROW, verdict.formula_in(_ROW), caught)

    told = reasons.watched(engine, functions, compute)
    if not caught:
        return Answer(None, None, "The engine cannot compute this formula.")
    value = _plain(caught[0])
    error = _first_error(value)
    if engine.notes.doubts:
        return Answer(None, None, _sentence(next(iter(engine.notes.doubts.values()))))
    if error is None:
        return Answer(value, None, None)
    return Answer(value, error, told(error) or _sentence(reasons.plain(error)))


def _plain(value: Any) -> Any:
    if isinstance(value, list):
        rows = [[_plain(cell) for cell in row] for row in value]
        return rows[0][0] if len(rows) == len(rows[0]) == 1 else rows
    if isinstance(value, dict):
        return ERROR_TEXTS.get(value.get("kind", ""), "#VALUE!")
    if isinstance(value, float) and value - value != 0.0:
        return "#NUM!"
    return 0.0 if value is None else value


def _first_error(value: Any) -> Optional[str]:
    cells = [cell for row in value for cell in row] if isinstance(value, list) else [value]
    return next((cell for cell in cells if isinstance(cell, str) and cell in ERROR_TEXTS.values()), None)


def _sentence(reason: str) -> str:
    return reason[:1].upper() + reason[1:] + ("" if reason.endswith((".", "?", "!")) else ".")
