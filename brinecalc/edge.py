"""The Python edge: worksheet functions as Python functions, with keyword arguments and pint quantities.

One idea: a pint quantity becomes a plain float in the base unit on its way in, and the result becomes a quantity
of the same registry on its way out; in between everything is as in a cell, but that what is wrong is raised. pint
itself is never imported here: a quantity brings it along. Without quantities in, plain floats come out. A list of
values gives the list of their answers, rows of values a table. An argument left out or None is "not given".
"""

from __future__ import annotations

from typing import Any, Callable, Dict, List, Optional, Tuple

from brinecalc.errors import BrineError, Impossible, Unreadable

_PINT_UNITS = {
    "mass": "gram",
    "water": "gram",
    "length": "millimeter",
    "time": "hour",
    "temperature": "degree_Celsius",
    "volume": "milliliter",
    "share": "dimensionless",
    "ppm": "ppm",
}
"""The base unit of each dimension in pint's words."""

_DIMENSIONS = {"hours": "time", "size": "length"}  # argument types that are named otherwise than what they measure
_SYMBOLS = {"[mass]": "g", "[length]": "mm", "[time]": "h", "[volume]": "mL", "[temperature]": "°C", "[]": ""}
_PLAIN_TYPES = frozenset((float, int, str, bool, type(None)))


def is_quantity(value: Any) -> bool:
    """Whether a value is a pint quantity, told by what it can do."""
    return type(value) not in _PLAIN_TYPES and all(hasattr(value, part) for part in ("magnitude", "units", "check"))


def plain(value: Any, dimension: str, unit: str = "") -> Any:
    """A pint quantity as a float (an array as a list) in the base unit; anything else as it is.

    `unit` is the unit of an argument that has no dimension of its own, such as mg/L.
    """
    if isinstance(value, (list, tuple)):
        return [plain(item, dimension, unit) for item in value]
    if not is_quantity(value):
        return value
    factor = 1.0
    if dimension == "water" and value.check("[volume]"):
        from brinecalc.quantity import DENSITY_OF_WATER

        dimension, factor = "volume", DENSITY_OF_WATER
    return _scaled(_magnitude(value, _PINT_UNITS.get(dimension) or unit, dimension), factor)


def written(value: Any) -> Any:
    """A pint quantity as text with its unit, for arguments that read any kind: 2 kg is "2000.0 g"."""
    if isinstance(value, (list, tuple)):
        return [written(item) for item in value]
    if not is_quantity(value):
        return value
    if f"{value.units}" == "count":  # pint counts pieces as plain numbers, which would be read as grams
        return f"{float(value.magnitude)!r} each"
    for kind, symbol in _SYMBOLS.items():
        if value.check(kind):
            number = _magnitude(value, _PINT_UNITS.get(kind[1:-1], ""), kind[1:-1])
            return [f"{x!r} {symbol}" for x in number] if isinstance(number, list) else f"{number!r} {symbol}".strip()
    raise _unfit(value, "a quantity of mass, length, time, volume or temperature")


def dressed(result: Any, dimension: str, like: Any, unit: str = "") -> Any:
    """A result in the base unit as a quantity of the registry that `like` belongs to; texts and money stay plain.

    Lists become arrays where `like` is one.
    """
    named = _PINT_UNITS.get(dimension) or (unit if dimension == "number" and unit != "-" else "")
    if not named or like is None or isinstance(result, str):
        return result
    if isinstance(result, (list, tuple)) and not _is_array(like):
        return [dressed(cell, dimension, like, unit) for cell in result]
    try:
        return type(like)(result, named)
    except (AttributeError, ValueError):  # a unit of the trade, such as degrees of a salometer, that pint does not know
        return result


def function(name: str) -> Callable[..., Any]:
    """A worksheet function as a Python function that raises BrineError; `name` is its Python name, such as ``salt``."""
    from brinecalc import describe, readers, registry

    entry = registry.entry(name)
    spec = entry.spec

    def call(*given: Any, **named: Any) -> Any:
        values = _ordered(spec, given, named)
        like = max(_quantities(values), key=_is_array, default=None)
        cells = []
        for place, value in enumerate(values):
            argument = spec.arguments[min(place, len(spec.arguments) - 1)]
            cells.append(_cell(value, argument, argument.kind in describe.NUMBERS))
        try:
            answer = _answer(entry, tuple(cells))
        except readers.Spread:
            answer = _answers(entry, tuple(cells))
        return dressed(answer, _DIMENSIONS.get(spec.result, spec.result), like, spec.unit)

    call.__name__ = call.__qualname__ = name
    call.__doc__ = entry.function.__doc__
    return call


def _answer(entry: Any, cells: Tuple[Any, ...]) -> Any:
    """The answer to a call without lists; raises what is wrong with it."""
    try:
        return entry.evaluate(cells)
    except BrineError as error:
        from brinecalc import gate  # only a refusal needs it

        first = entry.first_wrong(cells, error)
        gate.quote(first, entry, cells)
        raise first from None
    except ArithmeticError as error:
        raise Impossible("cannot be worked out: these values are too large or too small") from error


def _answers(entry: Any, cells: Tuple[Any, ...]) -> Any:
    """The answers to a call with lists; raises the first thing wrong, with its place, counted from 1."""
    from brinecalc import gate

    given = [cell for i, cell in enumerate(cells) if isinstance(cell, (list, tuple)) and entry.broadcasts(i)]
    is_list = not any(isinstance(item, (list, tuple)) for cell in given for item in cell)
    answers: List[List[Any]] = []
    for r, row in enumerate(gate.single_calls(entry, cells), 1):
        answers.append([])
        for c, single in enumerate(row, 1):
            try:
                answers[-1].append(_answer(entry, single))
            except BrineError as error:
                error.place = f"item {c}" if is_list else f"row {r}, column {c}"
                raise
    if is_list:
        return answers[0]
    return gate.joined(answers, entry) if any(isinstance(one, list) for row in answers for one in row) else answers


def _cell(value: Any, argument: Any, is_number: bool) -> Any:
    """An argument as the registry's gate takes it; an error names the argument."""
    try:
        if is_number:
            value = plain(value, _DIMENSIONS.get(argument.kind, argument.kind), argument.unit)
        return "" if value is None else written(value)
    except BrineError as error:
        error.argument = argument.name
        raise


def _ordered(spec: Any, given: Tuple[Any, ...], named: Dict[str, Any]) -> List[Any]:
    """Positional and keyword arguments in worksheet order; a gap is "not given"."""
    names = [argument.name for argument in spec.arguments]
    values = list(given)
    for name, value in named.items():
        if name not in names or names.index(name) < len(given):
            raise TypeError(f"{spec.usage} takes no {name}, or has it already")
        place = names.index(name)
        values += [""] * (place + 1 - len(values))
        values[place] = value
    return values


def _is_array(value: Any) -> bool:
    """Whether a quantity is an array of them."""
    return bool(getattr(value.magnitude, "ndim", 0))


def _quantities(values: Any) -> Any:
    for value in values:
        if isinstance(value, (list, tuple)):
            yield from _quantities(value)
        elif is_quantity(value):
            yield value


def _magnitude(value: Any, unit: str, dimension: str) -> Any:
    """The number in that unit, as a float or nested lists of floats."""
    unit = "" if unit == "-" else unit
    try:
        number = value.to(unit or "dimensionless").magnitude
    except (TypeError, ValueError, AttributeError) as error:  # what pint raises for a unit that does not fit
        from brinecalc import misread

        words = f"a number of {unit}" if unit else "a number without a unit"
        raise _unfit(value, misread.wanted(dimension) if misread.knows(dimension) else words) from error
    return number.tolist() if hasattr(number, "tolist") else float(number)


def _scaled(number: Any, factor: float) -> Any:
    if isinstance(number, list):
        return [_scaled(item, factor) for item in number]
    return number if factor == 1.0 else number * factor


def _unfit(value: Any, wanted: str) -> Unreadable:
    text: Optional[str] = str(value)[:40]
    return Unreadable(f"must be {wanted}", got=text, advice="give a quantity whose unit fits")
