"""The gate that every call of a worksheet function goes through, whoever calls.

One idea: a function is written once, for plain floats, and the same gate stands in front of each: read every cell, go
cell by cell where ranges are given, pass incoming errors on, and turn our own refusals into cell errors. A cell is a
float, an int, a text, None for a blank cell, ``""`` for "not given", or a list of rows. What comes out is a float, a
text or a list of rows, errors as the texts ``#NUM!``, ``#VALUE!``, ``#N/A``. Nothing is ever raised to a host.
"""

from __future__ import annotations

from typing import Any, Callable, Dict, List, Optional, Tuple

from brinecalc import describe, readers
from brinecalc.errors import CELL_ERRORS, NUM, VALUE, BrineError, CellError, Impossible, OutOfRange, Unreadable

Cell = Any
Function = Callable[..., Any]
SoFar = Callable[[Dict[str, Any]], None]
"""Looks at the arguments read so far, by name, and raises what is wrong with the last of them."""
Remark = Callable[..., Optional[str]]
"""What is to be looked at again in a call, from its answer and then its arguments; None where nothing is."""

_MEASURES = frozenset((*describe.DIMENSIONS, "amount"))
_MEMORY = 8192  # answers kept per function that asks for it


class Entry:
    """One worksheet function: the Python function, its record, and the call that hosts use."""

    def __init__(
        self,
        function: Function,
        family: str,
        memo: bool,
        so_far: Optional[SoFar] = None,
        remark: Optional[Remark] = None,
    ) -> None:
        self.name = describe.worksheet_name(function)
        self.function = function
        self.family = family
        self.memo: Optional[Dict[Any, Any]] = {} if memo else None
        self.so_far = so_far
        self.remark = remark
        self._spec: Optional[describe.FunctionSpec] = None
        self._readers: Tuple[readers.Reader, ...] = ()
        self._call: Optional[Function] = None

    @property
    def spec(self) -> describe.FunctionSpec:
        """The function's record; its docstring is read on first use, so that start-up stays short."""
        if self._spec is None:
            self._spec = describe.describe(self.function, self.family)
            self._readers = tuple(readers.reader(argument) for argument in self._spec.arguments)
        return self._spec

    @property
    def call(self) -> Function:
        """The function for hosts: cells in, a cell or rows of cells out, never an exception."""
        if self._call is None:
            self._call = _gate(self)
        return self._call

    def read(self, cells: Tuple[Cell, ...]) -> List[Any]:
        """The plain values of a call without ranges; raises what is wrong with them."""
        spec = self.spec
        wanted = len(spec.arguments)
        given = len(cells)
        if spec.variadic:
            fixed = cells[: wanted - 1] + ("",) * (wanted - 1 - given)
            return [read(cell) for read, cell in zip(self._readers, fixed)] + list(cells[wanted - 1 :])
        self.check_count(given)
        return [read(cell) for read, cell in zip(self._readers, cells + ("",) * (wanted - given))]

    def check_count(self, given: int) -> None:
        """Raises where more arguments are given than the function takes."""
        spec = self.spec
        if given > len(spec.arguments) and not spec.variadic:
            rule = f"takes at most {len(spec.arguments)} arguments"
            raise Unreadable(rule, got=f"{given}", advice=f"write it as {spec.usage}")

    def evaluate(self, cells: Tuple[Cell, ...]) -> Any:
        """The answer to a call without ranges, or the exception that says why there is none."""
        values = self.read(cells)
        if self.memo is None:
            return _result(self.function(*values))
        key = tuple(values)
        if key not in self.memo:
            if len(self.memo) >= _MEMORY:
                self.memo.clear()
            self.memo[key] = _result(self.function(*values))
        return self.memo[key]

    def first_wrong(self, cells: Tuple[Cell, ...], error: BrineError) -> BrineError:
        """Of a call that failed, what is wrong with the first argument that is wrong, or the error it failed with.

        Readers see whether an argument is there before the function sees whether a pack before it can be read.
        """
        spec = self.spec
        if self.so_far is None or len(cells) > len(spec.arguments):
            return error
        given: Dict[str, Any] = {}
        try:
            for argument, read, cell in zip(spec.arguments, self._readers, cells + ("",) * len(spec.arguments)):
                given[argument.name] = read(cell)
                self.so_far(given)
        except BrineError as first:
            return first
        return error

    def why(self, cells: Tuple[Cell, ...]) -> Any:
        """Why a call fails, in one sentence that says what to type instead; ``ok`` when all is well."""
        try:
            return _spread(self, cells, _reason) if _has_range(self, cells) else _reason(self, cells)
        except BrineError as error:
            return error.sentence(self.name)

    def broadcasts(self, index: int) -> bool:
        """Whether a range in that place means "cell by cell" rather than a table the function reads whole."""
        arguments = self.spec.arguments
        kind = arguments[min(index, len(arguments) - 1)].kind
        return kind not in describe.TABLES and kind not in ("cell", "cells")


def _gate(found: Entry) -> Function:
    """The guarded call. The common case, scalars that read at once, takes the fewest steps."""
    spec = found.spec
    read_all = found._readers
    most = len(spec.arguments)
    fewest = sum(argument.required for argument in spec.arguments)
    plain = found.memo is None and not spec.variadic
    compute = found.function

    def guarded(*cells: Cell) -> Cell:
        try:
            if plain and fewest <= len(cells) <= most:
                answer = compute(*[read(cell) for read, cell in zip(read_all, cells)])
                if type(answer) is float and answer - answer == 0.0:
                    return answer + 0.0
                return _result(answer)
            return found.evaluate(cells)
        except readers.Spread:
            return _guard_spread(found, cells)
        except BrineError as error:
            return _incoming(cells) or found.first_wrong(cells, error).cell
        except (ArithmeticError, RecursionError):
            return _incoming(cells) or NUM
        except Exception:  # noqa: BLE001 - a host must never see an exception; `why` names the fault
            return _incoming(cells) or VALUE

    guarded.__name__ = found.name
    guarded.__doc__ = spec.summary
    return guarded


def _result(answer: Any) -> Any:
    """An answer as cells: no nan, no infinity, no boolean, no minus zero."""
    if isinstance(answer, (list, tuple)):
        return [
            [cell + 0.0 if type(cell) is float and cell - cell == 0.0 else _result(cell) for cell in row]
            for row in answer
        ]
    if isinstance(answer, str):
        return answer
    if answer is None:
        return ""
    number = float(answer)
    if number - number != 0.0:
        raise Impossible("cannot be worked out for these values: the result is not a finite number")
    return number + 0.0


def _reason(found: Entry, cells: Tuple[Cell, ...]) -> str:
    try:
        answer = found.evaluate(cells)
        remark = found.remark(answer, *found.read(cells)) if found.remark else None
    except readers.Spread:
        return str(_spread(found, cells, _reason))
    except BrineError as error:
        incoming = _incoming(cells)
        error = found.first_wrong(cells, error) if incoming is None else error
        if incoming is not None and not isinstance(error, CellError):
            error = CellError(incoming)
        quote(error, found, cells)
        return error.sentence(found.name)
    except (ArithmeticError, RecursionError):
        return f"{found.name}: these values are too large or too small to work with."
    except Exception as fault:  # noqa: BLE001 - named here, so that tests and users can see it
        return f"{found.name}: internal fault ({type(fault).__name__}: {fault})."
    return f"ok, but {remark}" if remark else "ok"


def quote(error: BrineError, found: Entry, cells: Tuple[Cell, ...]) -> None:
    """Puts the value as the person typed it into the reason, and its figures into the units typed."""
    from brinecalc import told  # only a reason needs it

    if isinstance(error, CellError):
        return
    for argument, cell in zip(found.spec.arguments, cells):
        unit = told.unit_of(cell) if argument.kind in _MEASURES else None
        if argument.name == error.argument and cell != "" and not isinstance(cell, (list, tuple)):
            if error.got is None or argument.kind not in describe.TABLES:  # of a range it may be the number of cells
                error.got = readers.shown(cell, argument)
            if unit is not None and isinstance(error, OutOfRange):
                error.rule = told.in_unit(error.rule, unit, argument.kind == "water")
        if told.is_us(unit):
            error.rule, error.advice = told.us_first(error.rule), told.us_first(error.advice or "") or None


def _incoming(cells: Tuple[Cell, ...]) -> Optional[str]:
    """The first error that came in with the cells, if any."""
    for cell in cells:
        if isinstance(cell, str):
            if cell in CELL_ERRORS:
                return cell
        elif isinstance(cell, (list, tuple)):
            inside = _incoming(tuple(cell))
            if inside is not None:
                return inside
    return None


def _has_range(found: Entry, cells: Tuple[Cell, ...]) -> bool:
    return any(isinstance(cell, (list, tuple)) and found.broadcasts(i) for i, cell in enumerate(cells))


def _guard_spread(found: Entry, cells: Tuple[Cell, ...]) -> Cell:
    try:
        return _spread(found, cells, lambda f, one: f.call(*one))
    except BrineError as error:
        return error.cell


def _spread(found: Entry, cells: Tuple[Cell, ...], one: Callable[[Entry, Tuple[Cell, ...]], Cell]) -> Cell:
    """Goes through ranges cell by cell."""
    return joined([[one(found, single) for single in row] for row in single_calls(found, cells)], found)


def single_calls(found: Entry, cells: Tuple[Cell, ...]) -> List[List[Tuple[Cell, ...]]]:
    """A call with ranges as rows of calls without; a single row, column or cell stretches to the others' shape."""
    found.check_count(len(cells))
    grids = [
        _grid(cell, found, i) if isinstance(cell, (list, tuple)) and found.broadcasts(i) else None
        for i, cell in enumerate(cells)
    ]
    height = max((len(grid) for grid in grids if grid), default=1)
    width = max((len(grid[0]) for grid in grids if grid), default=1)
    for i, grid in enumerate(grids):
        if grid and (len(grid) not in (1, height) or len(grid[0]) not in (1, width)):
            raise Unreadable(
                f"must be one cell, one row, one column or {height} × {width} cells like the others",
                argument=found.spec.arguments[i].name,
                got=f"{len(grid)} × {len(grid[0])}",
            )
    return [
        [tuple([_pick(cell, grid, r, c) for cell, grid in zip(cells, grids)]) for c in range(width)]
        for r in range(height)
    ]


def _grid(cell: Any, found: Entry, index: int) -> List[List[Cell]]:
    """A range as rows of equal length. An empty text inside a range is a blank cell."""
    rows = cell if any(isinstance(row, (list, tuple)) for row in cell) else [cell]
    grid = [[None if x == "" else x for x in (row if isinstance(row, (list, tuple)) else (row,))] for row in rows]
    if not grid or not grid[0] or any(len(row) != len(grid[0]) for row in grid):
        raise Unreadable("must be a range with rows of equal length", argument=found.spec.arguments[index].name)
    return grid


def _pick(cell: Cell, grid: Optional[List[List[Cell]]], r: int, c: int) -> Cell:
    if grid is None:
        return cell
    row = grid[r if len(grid) > 1 else 0]
    return row[c if len(row) > 1 else 0]


def joined(answers: List[List[Cell]], found: Entry) -> Cell:
    """One table of all answers; a function that answers with a row may go down a column, and rows are stacked."""
    if len(answers) == 1 and len(answers[0]) == 1:
        return answers[0][0]
    if not any(isinstance(answer, list) for row in answers for answer in row):
        return answers
    if any(len(row) != 1 or (isinstance(row[0], list) and len(row[0]) != 1) for row in answers):
        raise Unreadable("gives a table, so it takes one value in each argument")
    width = max(len(row[0][0]) for row in answers if isinstance(row[0], list))
    return [row[0][0] if isinstance(row[0], list) else [row[0]] * width for row in answers]
