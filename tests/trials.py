"""Workbooks computed once and kept in the engine, and what our functions answered, for all tests of a process."""

from __future__ import annotations

import functools
import marshal
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from brinecalc.hosts.headless.engine import Value
from brinecalc.hosts.headless.trial import Cell, Trial
from brinecalc.trade import ingredients


def remembering(function: Callable[[str], Callable[..., Any]]) -> Callable[[str], Callable[..., Any]]:
    """The functions as workbooks call them; what one has answered to the same cells it is not asked again.

    Nine calls of ten come again in the next workbook, and the functions have tests of their own. All is forgotten
    when the user's own ingredients change.
    """
    answers: dict[str, dict[bytes, Any]] = {}
    of = [ingredients.names()]

    def remembered(name: str) -> Callable[..., Any]:
        ask, known = function(name), answers.setdefault(name, {})

        def answer(*cells: Any) -> Any:
            if of[0] is not ingredients.names():
                of[0] = ingredients.names()
                for each in answers.values():
                    each.clear()
            key = marshal.dumps(cells, 2)  # tells 1 from True, and a blank from an empty text
            if key not in known:
                known[key] = ask(*cells)
            return known[key]

        return answer

    return remembered


class Kept(Trial):
    """A trial that many share: what one supposes is put back with what the next one does, or when it is asked."""

    def __init__(self, content: bytes, name: str) -> None:
        super().__init__(content, name)
        self._owed: dict[Cell, Value] = {}

    @contextmanager
    def supposing(self, cells: Mapping[Cell, Value]) -> Iterator[None]:
        """Other values in some cells, put back afterwards."""
        before = {cell: self._owed[cell] if cell in self._owed else super(Kept, self).value(*cell) for cell in cells}
        self.suppose(cells)
        try:
            yield
        finally:
            self._owed = {**self._owed, **before}

    def suppose(self, cells: Mapping[Cell, Value]) -> None:
        owed, self._owed = self._owed, {}
        super().suppose({**owed, **cells})

    def value(self, sheet: str, row: int, col: int) -> Value:
        if self._owed:
            self.suppose({})
        return super().value(sheet, row, col)

    def block(self, sheet: str, bottom: int, right: int) -> list[list[Value]]:
        """All values down to that row and column, a row after the other."""
        if self._owed:
            self.suppose({})
        return self._calculation.engine.values(sheet, bottom, right)

    def distrusted(self) -> set[Cell]:
        if self._owed:
            self.suppose({})
        return super().distrusted()

    def doubts(self) -> dict[Cell, str]:
        if self._owed:
            self.suppose({})
        return super().doubts()


@functools.lru_cache(maxsize=8)
def kept(content: bytes) -> Kept:
    """The workbook computed."""
    return Kept(content, "Plan.xlsx")
