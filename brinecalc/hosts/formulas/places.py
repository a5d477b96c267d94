"""Cells and ranges as numbers, and formulas moved from one cell to another.

One idea: a formula is its fixed text with references in between. Cut once at the references, it can be written out
for any other cell, which is what a spreadsheet program does when a formula is filled down or shared.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Dict, Iterable, List, NamedTuple, Optional, Set, Tuple

from brinecalc.hosts.formulas.lexer import ROW, tokens

LAST_ROW = 1_048_576
LAST_COLUMN = 16_384

_CELL = re.compile(r"(\$?)([A-Za-z]{1,3})(\$?)(\d{1,7})")
_letters: Dict[int, str] = {}


class Area(NamedTuple):
    """A rectangle of cells on one sheet, all ends included, counted from 1."""

    top: int
    left: int
    bottom: int
    right: int

    @property
    def single(self) -> bool:
        """Whether it is one cell."""
        return self.top == self.bottom and self.left == self.right

    @property
    def cells(self) -> int:
        """How many cells it has."""
        return (self.bottom - self.top + 1) * (self.right - self.left + 1)


def rectangles(cells: Iterable[Tuple[int, int]]) -> List[Area]:
    """Cells, given by row and column, as few rectangles: runs down a column, side by side where they match."""
    left: Set[Tuple[int, int]] = set(cells)
    runs: List[Area] = []
    for row, col in sorted(left, key=lambda cell: (cell[1], cell[0])):
        if runs and runs[-1].left == col and runs[-1].bottom == row - 1:
            runs[-1] = runs[-1]._replace(bottom=row)
        else:
            runs.append(Area(row, col, row, col))
    made: List[Area] = []
    open_runs: Dict[Tuple[int, int], int] = {}
    for run in runs:
        at = open_runs.get((run.top, run.bottom))
        if at is not None and made[at].right == run.left - 1:
            made[at] = made[at]._replace(right=run.right)
        else:
            open_runs[run.top, run.bottom] = len(made)
            made.append(run)
    return sorted(made)


def column(letters: str) -> int:
    """The number of a column: A is 1."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number


def letters(number: int) -> str:
    """The letters of a column: 1 is A."""
    known = _letters.get(number)
    if known is None:
        known, rest = "", number
        while rest:
            rest, digit = divmod(rest - 1, 26)
            known = chr(65 + digit) + known
        _letters[number] = known
    return known


def cell(reference: str) -> Tuple[int, int]:
    """Row and column of a plain reference such as B7; ValueError when it is none."""
    match = _CELL.fullmatch(reference)
    if not match:
        raise ValueError(f"{reference!r} is not a cell")
    row, col = int(match[4]), column(match[2])
    if not (1 <= row <= LAST_ROW and 1 <= col <= LAST_COLUMN):
        raise ValueError(f"{reference!r} lies outside the sheet")
    return row, col


@lru_cache(maxsize=32_768)  # a plan of the most batches reads 12,364 different ranges
def area(reference: str) -> Area:
    """The rectangle of a reference such as A1, A1:B9, A:C or 2:5; ValueError when it is none."""
    first, _, last = reference.replace("$", "").partition(":")
    last = last or first
    if first.isdigit():
        one, two = sorted((int(first), int(last)))
        found = Area(one, 1, two, LAST_COLUMN)
    elif first.isalpha():
        one, two = sorted((column(first), column(last)))
        found = Area(1, one, LAST_ROW, two)
    else:
        (r1, c1), (r2, c2) = cell(first), cell(last)
        found = Area(min(r1, r2), min(c1, c2), max(r1, r2), max(c1, c2))
    if found.top < 1 or found.bottom > LAST_ROW or found.right > LAST_COLUMN:
        raise ValueError(f"{reference!r} lies outside the sheet")
    return found


def name(row: int, col: int) -> str:
    """The name of a cell: row 7, column 2 is B7."""
    return f"{letters(col)}{row}"


def quoted(sheet: str) -> str:
    """A sheet's name as a formula writes it."""
    return sheet if re.fullmatch(r"[A-Za-z]\w*", sheet) else "'" + sheet.replace("'", "''") + "'"


def by_row(formula: str, row: int) -> Optional[str]:
    """The formula with its own row number taken out; equal for all formulas of a column filled down.

    None when the text already holds the sign that stands for the row.
    """
    return None if ROW in formula else formula.replace(str(row), ROW)


_Part = Tuple[bool, int, bool, int]  # column fixed, column, row fixed, row; 0 where a whole row or column has none


class Mould:
    """A formula cut at its references, to be written out for other cells."""

    def __init__(self, formula: str, row: int, col: int) -> None:
        self.row = row
        self.col = col
        self._texts: List[str] = [""]
        self._parts: List[List[_Part]] = []
        for token in tokens(formula):
            parts = _parts(token.text) if token.kind in ("area", "columns", "rows") else None
            if parts is None:
                self._texts[-1] += token.text
            else:
                self._parts.append(parts)
                self._texts.append("")

    def at(self, row: int, col: int) -> str:
        """The formula as it reads in that cell."""
        down, right = row - self.row, col - self.col
        out = [self._texts[0]]
        for parts, text in zip(self._parts, self._texts[1:]):
            out.append(_moved(parts, down, right))
            out.append(text)
        return "".join(out)


def _parts(reference: str) -> Optional[List[_Part]]:
    parts: List[_Part] = []
    for end in reference.split(":"):
        if end.lstrip("$").isdigit():
            parts.append((True, 0, end.startswith("$"), int(end.lstrip("$"))))
        elif end.lstrip("$").isalpha():
            parts.append((end.startswith("$"), column(end.lstrip("$")), True, 0))
        else:
            match = _CELL.fullmatch(end)
            if not match:
                return None
            parts.append((bool(match[1]), column(match[2]), bool(match[3]), int(match[4])))
    return parts


def _moved(parts: List[_Part], down: int, right: int) -> str:
    ends = []
    for fixed_column, old_column, fixed_row, old_row in parts:
        col = old_column if fixed_column else old_column + right
        row = old_row if fixed_row else old_row + down
        if (
            not (0 <= col <= LAST_COLUMN and 0 <= row <= LAST_ROW)
            or (not fixed_column and col < 1)
            or (not fixed_row and row < 1)
        ):
            return "#REF!"
        shown_column = ("$" if fixed_column else "") + letters(col) if col else ""
        shown_row = ("$" if fixed_row else "") + str(row) if row else ""
        ends.append(shown_column + shown_row)
    return ":".join(ends)
