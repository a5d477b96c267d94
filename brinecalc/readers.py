"""Turns the cell of one argument into the plain value its function works with.

One idea: a reader is a closure made once per argument, with its limits, default and dimension built in. A float
within the limits passes through a single comparison; everything else (text, blanks, whole numbers, ranges,
nonsense) takes the slow way and either comes out as such a float or raises a BrineError that says what to type.
"""

from __future__ import annotations

import math
import re
import sys
from itertools import chain
from typing import Any, Callable, Optional, Sequence, Tuple

from brinecalc import misread, quantity, units
from brinecalc.describe import DIMENSIONS, KIND_WORDS, NUMBERS, Argument
from brinecalc.errors import CELL_ERRORS, BrineError, CellError, OutOfRange, UnknownName, Unreadable
from brinecalc.names import Names, fold

Reader = Callable[[Any], Any]

_MOST_PPM = 2500.0  # above every limit of nitrite or nitrate
_PRODUCT_SIGN = re.compile(r"(?<=[\d\s])[x×](?=[\d\s])")
_NUMBER = re.compile(f"^[{quantity.NUMBER_MARKS}]+")
_ROWS = frozenset((list, tuple))
_CELLS = frozenset((float, int, str, bool, type(None)))
_PPM = re.compile(r"(?i)\s*(?:ppm|mg\s*/\s*kg)\s*$")
_LONGEST_SHOWN = 40
_HAIR = 1e-9  # °C by which a temperature worked out from °F may miss a limit that it stands for
_LONGEST_NAME = 200


class Spread(Exception):
    """A range stands where a single value is read: the call has to go cell by cell."""


def reader(argument: Argument) -> Reader:
    """The reader of one argument."""
    if argument.kind in ("column", "table"):
        return _table_reader(argument)
    if argument.kind in ("cell", "cells"):
        return _read_cell
    if argument.kind in NUMBERS:
        return _number_reader(argument)
    if argument.kind == "amount":
        return _amount_reader(argument)
    return _word_reader(argument)


def shown(cell: Any, argument: Argument | None = None) -> str:
    """A cell as a reason quotes it. A blank counts as 0 for a number, in every host, and is shown so."""
    if isinstance(cell, str):
        short = cell if len(cell) <= _LONGEST_SHOWN else cell[: _LONGEST_SHOWN - 1] + "…"
        return '"' + "".join(c if c.isprintable() else "·" for c in short) + '"'
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if cell is None or isinstance(cell, (int, float)):
        if argument is None or argument.kind not in NUMBERS:
            return "a blank cell" if cell is None or cell == 0 else _number_text(cell)
        text = _number_text(cell or 0)
        unit = "" if argument.unit in ("-", "") or argument.kind == "share" else f" {argument.unit}"
        if not cell:
            return f"{text}{unit} (a blank cell counts as 0)"
        if argument.kind == "share":
            return f"{text}, which is {_per_cent(cell)} %"
        return text + unit
    if isinstance(cell, (list, tuple)):
        return "a range"
    return type(cell).__name__


def _per_cent(share: float) -> str:
    """A share in per cent, to the six digits that a person reads."""
    return f"{share * 100.0:.6g}" if 1e-6 < abs(share) < 1e3 else _number_text(share * 100.0)


def _number_text(value: float) -> str:
    try:
        return f"{float(value):.12g}"
    except OverflowError:
        return "a number too large to handle"


def _number_reader(argument: Argument) -> Reader:
    low, high = _closed_limits(argument)
    special = _special_text_reader(argument)
    slack = argument.kind == "temperature"

    def slow(cell: Any) -> Any:
        if isinstance(cell, (list, tuple)):
            raise Spread
        if isinstance(cell, str):
            found = special(cell)
            if found is not None:
                return found[0]
        value = _plain_number(cell, argument)
        if slack:
            value = _onto_the_limit(value, low, high)
        if low <= value <= high:
            return value
        advice = _advice(argument, value, cell)
        raise OutOfRange(argument.rule, argument=argument.name, got=shown(cell, argument), advice=advice)

    def read(cell: Any) -> Any:
        if type(cell) is float and low <= cell <= high:
            return cell
        return slow(cell)

    return read


def _closed_limits(argument: Argument) -> Tuple[float, float]:
    """The least and greatest float the argument allows; one comparison then also turns away nan and infinity."""
    low = -sys.float_info.max if argument.low is None else argument.low
    high = sys.float_info.max if argument.high is None else argument.high
    return (
        math.nextafter(low, math.inf) if argument.open_low else low,
        math.nextafter(high, -math.inf) if argument.open_high else high,
    )


def _onto_the_limit(celsius: float, low: float, high: float) -> float:
    """A temperature that is a limit but for its last digits, as that limit: 28.4 °F is -2 °C."""
    for limit in (low, high):
        if abs(celsius - limit) <= _HAIR:
            return limit
    return celsius


def _special_text_reader(argument: Argument) -> Callable[[str], Optional[Tuple[Any]]]:
    """Reads the texts of a number argument that are not one number: errors, "not given", a word, a block."""
    words = _choice_names(argument) if argument.choices else None

    def read(cell: str) -> Optional[Tuple[Any]]:
        if cell == "":
            return (_default(argument),)
        if cell in CELL_ERRORS:
            raise CellError(cell, argument.name)
        if words is not None and cell in words:
            return (words.find(cell, argument.name),)
        if argument.kind == "size" and _PRODUCT_SIGN.search(cell):
            return (_block(cell, argument),)
        return None

    return read


def _plain_number(cell: Any, argument: Argument) -> float:
    """A blank, number or text as a float in the argument's base unit."""
    if cell is None:
        return 0.0
    if isinstance(cell, str):
        return _text_number(cell, DIMENSIONS.get(argument.kind, ""), argument)
    if isinstance(cell, (int, float)) and not isinstance(cell, bool):
        return _finite(cell, argument)
    raise Unreadable(_wanted(argument), argument=argument.name, got=shown(cell))


def _finite(cell: float, argument: Argument) -> float:
    try:
        value = float(cell)
    except OverflowError:
        value = math.inf
    if not math.isfinite(value):
        raise OutOfRange("must be a finite number", argument=argument.name, got=shown(cell, argument))
    return value


def _text_number(cell: str, dimension: str, argument: Argument) -> float:
    try:
        if dimension:
            return quantity.read(cell, dimension)
        if argument.kind == "ppm":
            cell = _PPM.sub("", cell)
        value, found = quantity.split(cell, "number")
    except BrineError as error:
        error.argument = argument.name
        error.got = error.got or shown(cell)
        if argument.choices:
            error.rule += f' or "{argument.choices[0]}"'
        if dimension in ("share", "") and (argument.example or not dimension):
            better = f"write it like {argument.example}" if argument.example else "write it as a plain number"
            error.put_advice(better, instead_of=misread.example(dimension or "number"))
        raise
    if found:
        raise Unreadable(
            _wanted(argument),
            argument=argument.name,
            got=shown(cell),
            advice=_without_unit(argument, found, value),
        )
    return value


def _without_unit(argument: Argument, found: str, value: float) -> str:
    """What to write instead of a quantity with a unit, where a number is wanted."""
    if argument.kind != "ppm":
        return "write it without a unit"
    ppm = value * 1e6
    if found == "share" and ppm <= _MOST_PPM:  # nobody is to be led to a dose beyond all limits by a slip
        return f"write it as {ppm:.6g} ppm"
    return "write parts per million, without a unit"


def _block(cell: str, argument: Argument) -> Tuple[float, float, float]:
    """The three edges of a block written "150 x 60 x 40 mm"; the last unit holds for edges without one."""
    edges = [edge.strip() for edge in _PRODUCT_SIGN.split(cell)]
    if len(edges) != 3 or not all(edges):
        raise Unreadable(
            _wanted(argument),
            argument=argument.name,
            got=shown(cell),
            advice="give one thickness, or three edges such as 150 x 60 x 40 mm",
        )
    unit = _NUMBER.sub("", edges[-1])
    if unit and units.find(unit) is None:
        error = misread.no_unit(unit, cell, "length")
        error.argument, error.got = argument.name, shown(cell)
        raise error
    lengths = [
        _text_number(edge if _NUMBER.sub("", edge) else f"{edge} {unit}".strip(), "length", argument) for edge in edges
    ]
    for length in lengths:
        if not 0 < length <= (argument.high if argument.high is not None else math.inf):
            raise OutOfRange(argument.rule, argument=argument.name, got=shown(cell))
    return lengths[0], lengths[1], lengths[2]


def _word_reader(argument: Argument) -> Reader:
    names = _choice_names(argument) if argument.kind == "choice" else None

    def read(cell: Any) -> Any:
        if type(cell) is str and cell:
            if cell in CELL_ERRORS:
                raise CellError(cell, argument.name)
            if len(cell) > _LONGEST_NAME and argument.kind != "text":
                raise UnknownName("is too long to be a name", argument=argument.name, got=shown(cell))
            return cell.strip() if names is None else names.find(cell, argument.name)
        if isinstance(cell, (list, tuple)):
            raise Spread
        if cell is None or cell == "" or (isinstance(cell, (int, float)) and not isinstance(cell, bool) and cell == 0):
            return _default(argument)  # a blank cell reaches some hosts' functions as 0
        if argument.kind == "text" and isinstance(cell, (int, float)) and not isinstance(cell, bool):
            return _number_text(cell)
        raise Unreadable(_wanted(argument), argument=argument.name, got=shown(cell))

    return read


class _Choices(Names[str]):
    """The words a choice allows; an unknown one is answered with all of them."""

    def unknown(self, text: str, argument: str | None = None) -> UnknownName:
        quoted = ", ".join(f'"{name}"' for name in self.names)
        return UnknownName(
            f"must be one of {quoted}", argument=argument, got=shown(text), advice=lambda: self._meant(text)
        )

    def _meant(self, text: str) -> str:
        """A question for what was meant; empty where nothing is near enough."""
        asked, meant = _SEVERAL.get(fold(text), ("", ()))
        several = " or ".join(f'"{name}"' for name in meant if name in self.names)
        near = self.nearest(text, 1)
        return f"{asked}, {several}?" if several else f'did you mean "{near[0]}"?' if near else ""


_ALSO = {
    "salometer": ("salinometer", "salimeter"),
    "baume": ("Bé", "degrees Baumé"),
    "sg": ("specific gravity",),
    "hydrometer": ("sg", "specific gravity"),
    "refractive index": ("nD",),
    "brix": ("degrees Brix",),
}
"""What else the trade calls a choice."""
_SEVERAL = {
    "refractometer": ("what does its scale say", ("brix", "refractive index")),
    **dict.fromkeys(("percent", "per cent", "share"), ("what is it a share of", ("water", "solution"))),
    "lbgal": ("pounds to the gallon of what", ("lb/gal water", "lb/gal brine")),
}
"""What may be read in several ways, folded, with what to ask and the choices it may mean."""


def _choice_names(argument: Argument) -> Names[str]:
    others = {
        choice: [word for word in _ALSO.get(choice, ()) if word not in argument.choices] for choice in argument.choices
    }
    return _Choices(argument.name, [(choice, others[choice], choice) for choice in argument.choices])


def _default(argument: Argument) -> Any:
    if argument.required:
        raise Unreadable("is missing", argument=argument.name, advice=f"give {_given(argument)}")
    return argument.default


def _given(argument: Argument) -> str:
    if argument.kind == "choice":
        return argument.rule.replace("must be ", "", 1)
    words = KIND_WORDS[argument.kind]
    if argument.example:
        plain = argument.kind == "amount" and argument.example[:1].isdigit()
        words = f"{'a number' if plain else words.split(' such as ')[0]} such as {argument.example}"
    return f'{words} or "{argument.choices[0]}"' if argument.choices else words


def _wanted(argument: Argument) -> str:
    return "must be " + _given(argument)


def _advice(argument: Argument, value: float, cell: Any) -> str | None:
    """What to type instead, in the way in which it was typed: with a unit, in per cent or as a bare number."""
    example = f"for example {argument.example}" if argument.example else None
    if isinstance(cell, str):
        dimension = DIMENSIONS.get(argument.kind, "")
        if "%" in cell or not misread.knows(dimension):
            return example
        if dimension != "share":
            return misread.example(dimension)
    if argument.kind == "share" and value == 1 and argument.open_high:
        near = argument.example or ""
        less = f", and {near} for most of it" if near.endswith("%") and float(near[:-1]) >= 50 else ""
        return f"1 by itself is all of it: {misread.as_per_cent(value)}{less}"
    most = 100.0 if argument.high is None else 100.0 * argument.high
    if argument.kind == "share" and 1 <= value <= most and not (argument.open_high and value == most):
        return misread.as_per_cent(value)
    return example


def _amount_reader(argument: Argument) -> Reader:
    """A reader of numbers and texts whose kind of unit the function itself looks at."""

    def read(cell: Any) -> Any:
        if type(cell) is float and cell - cell == 0.0:
            return cell
        if isinstance(cell, str):
            if cell in CELL_ERRORS:
                raise CellError(cell, argument.name)
            return cell or _default(argument)
        if isinstance(cell, (list, tuple)):
            raise Spread
        if cell is None:
            return 0.0
        if isinstance(cell, bool) or not isinstance(cell, (int, float)):
            raise Unreadable(_wanted(argument), argument=argument.name, got=shown(cell))
        return _finite(cell, argument)

    return read


def _read_cell(cell: Any) -> Any:
    return cell


def _table_reader(argument: Argument) -> Reader:
    """A reader of ranges: a tuple of rows, or for a column all cells row by row in one tuple."""
    flat = argument.kind == "column"

    def read(cells: Any) -> Any:
        if isinstance(cells, str) and cells == "":
            return _default(argument)
        rows = _rows(cells)
        try:
            return _checked(tuple(chain.from_iterable(rows))) if flat else tuple(_checked(tuple(row)) for row in rows)
        except BrineError as error:
            error.argument = argument.name
            raise

    return read


def _rows(cells: Any) -> Sequence[Sequence[Any]]:
    """A range as rows; a single cell is a table of one, a list without rows is one row."""
    if not isinstance(cells, (list, tuple)):
        return ((cells,),)
    if cells and _ROWS.issuperset(map(type, cells)):
        return cells
    if not any(isinstance(row, (list, tuple)) for row in cells):
        return (cells,)
    return [row if isinstance(row, (list, tuple)) else (row,) for row in cells]


def _checked(cells: Tuple[Any, ...]) -> Tuple[Any, ...]:
    """Cells of a range, none of them an error; an empty text among them is a blank."""
    if not _CELLS.issuperset(map(type, cells)) or not CELL_ERRORS.isdisjoint(cells):
        for cell in cells:
            if isinstance(cell, str) and cell in CELL_ERRORS:
                raise CellError(cell)
            if cell is not None and not isinstance(cell, (str, int, float)):
                raise Unreadable("must be a range of numbers and texts", got=shown(cell))
    return tuple([None if cell == "" else cell for cell in cells]) if "" in cells else cells
