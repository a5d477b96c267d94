"""Values as spreadsheet programs see them: as number, as text, in order.

One idea: what spreadsheet programs do and the engine does not. Numbers that agree to about 15 digits are equal; a
number in a text has 15 digits; capitals do not matter in any alphabet.

A value is a float, a text, True or False, None for a blank cell, or a dict for an error, which goes out as it came.
"""

from __future__ import annotations

import re
from typing import Any, Dict, Iterator

Value = Any

LONGEST = 32_767
"""Characters in a cell."""

NUMBER = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[Ee][+-]?\d{1,3})?)\s*(%?)\s*")
"""A text that counts as a number."""

_TOLERANCE = 2.0**-48


class Fault(Exception):
    """An error on its way out of a stand-in."""

    def __init__(self, error: Dict[str, Any]) -> None:
        super().__init__(error)
        self.error = error


def error(kind: str) -> Dict[str, Any]:
    """An error value as the engine takes it: Num, Value, Na, Div, Ref, Name."""
    return {"type": "Error", "kind": kind}


def alike(a: float, b: float) -> bool:
    """Whether two numbers are equal as far as spreadsheet programs look."""
    return a == b or abs(a - b) < abs(a) * _TOLERANCE


def general(x: float) -> str:
    """A number as text, as it appears when a formula joins it to a text."""
    if x == 0:
        return "0"
    mantissa, _, exponent = f"{x:.14e}".partition("e")
    power = int(exponent)
    digits = mantissa.replace(".", "").lstrip("-").rstrip("0")
    sign = "-" if x < 0 else ""
    if 0 <= power <= 20:
        whole = digits[: power + 1].ljust(power + 1, "0")
        rest = digits[power + 1 :]
        return sign + whole + ("." + rest if rest else "")
    if power < 0 and len(digits) - power + 1 <= 20:
        return sign + "0." + "0" * (-power - 1) + digits
    return f"{sign}{digits[0]}{'.' + digits[1:] if len(digits) > 1 else ''}E{'-' if power < 0 else '+'}{abs(power):02d}"


def text(value: Value) -> str:
    """A value as text."""
    if type(value) is str:
        return value
    if type(value) is float:
        return general(value)
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, dict):
        raise Fault(value)
    if isinstance(value, (int, float)):
        return general(float(value))
    raise Fault(error("Value"))


def number(value: Value) -> float:
    """A value as a number; a text counts when it reads as one."""
    if type(value) is float:
        return value
    if value is None:
        return 0.0
    if isinstance(value, (bool, int)):
        return float(value)
    if isinstance(value, dict):
        raise Fault(value)
    match = NUMBER.fullmatch(value) if isinstance(value, str) else None
    if not match:
        raise Fault(error("Value"))
    return float(match[1]) / (100 if match[2] else 1)


def short(result: str) -> str:
    """The text, unless it is longer than a cell holds."""
    if len(result) > LONGEST:
        raise Fault(error("Value"))
    return result


def flat(values: Any) -> Iterator[Value]:
    """Every cell of values and ranges, row by row."""
    for value in values:
        if isinstance(value, (list, tuple)):
            yield from flat(value)
        else:
            yield value


def equal(a: Value, b: Value) -> bool:
    """Whether two values count as equal; the usual pairs are told apart without putting them in order."""
    if a.__class__ is float and b.__class__ is float:
        return alike(a, b)
    if a.__class__ is str and b.__class__ is str:
        return a == b or a.casefold() == b.casefold()
    return compare(a, b) == 0


def _rank(value: Value) -> int:
    return 2 if isinstance(value, bool) else 1 if isinstance(value, str) else 0


def compare(a: Value, b: Value) -> int:
    """Negative, zero or positive; numbers come before texts, texts before logical values."""
    for value in (a, b):
        if isinstance(value, dict):
            raise Fault(value)
    if a is None:
        a = "" if isinstance(b, str) else False if isinstance(b, bool) else 0.0
    if b is None:
        b = "" if isinstance(a, str) else False if isinstance(a, bool) else 0.0
    if _rank(a) != _rank(b):
        return _rank(a) - _rank(b)
    if isinstance(a, str):
        a, b = a.casefold(), b.casefold()
        return int(a > b) - int(a < b)
    if alike(a, b):
        return 0
    return 1 if a > b else -1
