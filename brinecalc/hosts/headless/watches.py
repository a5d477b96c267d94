"""Values that are watched while they are computed, because spreadsheet programs disagree about some of them.

One idea: where the right answer depends on the program, none is given. A watch raises a doubt, the formula that holds
the watch keeps the value of the file, and the person is told.
"""

from __future__ import annotations

import math
import re
from typing import Any, Callable, Dict

from brinecalc.hosts.headless.values import NUMBER, Fault, Value, alike, compare, error, number


class Doubt(Exception):
    """Why a value is not to be trusted."""


_PLAIN = re.compile("[A-Za-z0-9 ]*")
_MARCH_1900 = 61
_EDGE = "spreadsheet programs disagree about a rounding in it"
_RANGE = "a part of it gives a range where one cell belongs"
_BLANK = "a part of it may be a blank cell or a calculated value, which count differently"
_TEXT = "a part of it gives a text where a number belongs"


def looked_up(value: Value) -> Value:
    """A value looked up by order: the engine would take a text of digits for a number."""
    if isinstance(value, str) and NUMBER.fullmatch(value):
        raise Doubt(_TEXT)
    return value


def day(value: Value) -> Value:
    """A date: spreadsheet programs differ before March 1900, and read texts each in its own language."""
    moment(value)
    if value is None or (isinstance(value, float) and 0 <= value < _MARCH_1900):
        raise Doubt("spreadsheet programs disagree about dates before March 1900, and a blank cell is one")
    return value


def moment(value: Value) -> Value:
    """A date or a time of day; a text without digits is none in any language."""
    if isinstance(value, str) and not NUMBER.fullmatch(value) and any(c.isdigit() for c in value):
        raise Doubt("it reads a date or time from a text, which each program does in its own language")
    return value


def term(value: Value) -> Value:
    """A calculated term of a sum: a text may stand for nothing, for a number or for an error."""
    if isinstance(value, str):
        raise Doubt(_TEXT)
    return value


def entry(value: Value) -> Value:
    """A calculated term of a mean or the like, where a blank makes a difference too."""
    if value is None:
        raise Doubt(_BLANK)
    return term(value)


def picked(value: Value) -> Value:
    """A term that may be a cell or a calculated value, which sums treat differently unless it is a number."""
    if isinstance(value, bool):
        raise Doubt(_BLANK)
    return entry(value)


def counted(value: Value) -> Value:
    """A calculated value that is counted."""
    if value is None or isinstance(value, bool) or (isinstance(value, str) and NUMBER.fullmatch(value)):
        raise Doubt(_BLANK)
    return value


def one(value: Value) -> Value:
    """One value where a range might turn up."""
    if isinstance(value, list):
        if len(value) != 1 or len(value[0]) != 1:
            raise Doubt(_RANGE)
        return value[0][0]
    return value


def valued(value: Value) -> float:
    """A value as a number; a text with digits that is none here may still be one in some language."""
    if isinstance(value, str) and not NUMBER.fullmatch(value):
        if any(c.isdigit() for c in value):
            raise Doubt(_TEXT)
        raise Fault(error("Value"))
    if isinstance(value, bool):
        raise Fault(error("Value"))
    return number(value)


def days(end: Value, start: Value) -> float:
    """DAYS, of whole days: about parts of days programs disagree."""
    last, first = number(day(end)), number(day(start))
    return _whole(last) - _whole(first)


def time(hours: Value, minutes: Value, seconds: Value) -> float:
    """TIME: a share of the day, of whole hours, minutes and seconds."""
    parts = [_whole(number(part)) for part in (hours, minutes, seconds)]
    total = parts[0] * 3600 + parts[1] * 60 + parts[2]
    if total < 0 or max(parts) > 32_767:
        raise Fault(error("Num"))
    return total % 86_400 / 86_400


def _whole(x: float) -> float:
    if x != math.floor(x):
        raise Doubt(_EDGE)
    return x


def order(a: Value, b: Value) -> int:
    """Which of two values comes first. Where letters other than A to Z and signs stand depends on the language."""
    found = compare(a, b)
    texts = isinstance(a, str) and isinstance(b, str) and a and b
    if found and texts and not (_PLAIN.fullmatch(a) and _PLAIN.fullmatch(b)):
        raise Doubt("spreadsheet programs disagree about the order of texts in it")
    return found


# ---- roundings: a quotient that is whole but for the last digit is whole in one program and not in another


def _clear(x: float) -> float:
    """The number, unless it is whole but for the last digit."""
    if x != math.floor(x) and alike(x, round(x)):
        raise Doubt(_EDGE)
    return x


def integer(value: Value) -> float:
    """INT."""
    x = number(value)
    return float(math.floor(x if x >= round(x) else _clear(x)))


def _remainder(a: float, b: float) -> float:
    """What division leaves, in the sign of the dividend; a doubt when it is nothing or everything but for noise."""
    if b == 0:
        raise Fault(error("Div"))
    left = math.fmod(a, b)
    quotient = a / b
    if left and (alike(quotient, round(quotient)) or abs(quotient) > 1e12):
        raise Doubt(_EDGE)
    return left


def modulo(value: Value, by: Value) -> float:
    """MOD: the remainder, in the sign of the divisor."""
    a, b = number(value), number(by)
    return a - math.floor(a / b) * b if _remainder(a, b) else 0.0


def quotient(value: Value, by: Value) -> float:
    """QUOTIENT: the whole part of a division."""
    a, b = number(value), number(by)
    return float(round((a - _remainder(a, b)) / b))


def multiple(value: Value, step: Value) -> float:
    """MROUND: the nearest multiple."""
    x, by = number(value), number(step)
    if by == 0 or x == 0:
        return 0.0
    if (x < 0) != (by < 0):
        raise Fault(error("Num"))
    steps = x / by
    down = math.floor(steps)
    if steps - down != 0.5 and alike(steps, down + 0.5):
        raise Doubt(_EDGE)
    return (down + (steps - down >= 0.5)) * by


def odd(value: Value) -> float:
    """ODD: away from 0 to an odd number."""
    x = abs(_clear(number(value)))
    up = math.ceil(x)
    return math.copysign(float(up + 1 - up % 2), number(value) or 1.0)


def even(value: Value) -> float:
    """EVEN: away from 0 to an even number."""
    x = abs(_clear(number(value)))
    up = math.ceil(x)
    return math.copysign(float(up + up % 2), number(value)) + 0.0


def rounded(value: Value, digits: Value) -> float:
    """Rounds half away from zero, by the digits that are seen: 1.005 to two digits is 1.01."""
    x, places = number(value), math.trunc(max(-400.0, min(400.0, number(digits))))
    if x == 0 or places > 300:
        return x
    mantissa, _, exponent = f"{abs(x):.14e}".partition("e")
    figures = mantissa.replace(".", "")
    keep = int(exponent) + places + 1  # how many of the figures stay
    if keep >= len(figures):
        return x
    if keep < 0:
        return 0.0
    rest = figures[keep:]
    if rest.rstrip("0") == "5" and float(f"{mantissa}e{exponent}") != abs(x):
        raise Doubt(_EDGE)
    whole = int(figures[:keep] or "0") + (rest >= "5")
    return math.copysign(float(f"{whole}e{-places}"), x)


def shown(value: Value, digits: Value) -> Value:
    """A number that is about to be written out with so many digits; a doubt where the last of them is in doubt."""
    if isinstance(value, (float, int)) and not isinstance(value, bool):
        rounded(value, digits)
    return value


FUNCTIONS: Dict[str, Callable[..., Any]] = {
    "COUNTED": counted,
    "DAY": day,
    "DAYS": days,
    "ENTRY": entry,
    "EVEN": even,
    "GE": lambda a, b: order(a, b) >= 0,
    "GT": lambda a, b: order(a, b) > 0,
    "INT": integer,
    "LE": lambda a, b: order(a, b) <= 0,
    "LT": lambda a, b: order(a, b) < 0,
    "MOD": modulo,
    "MOMENT": moment,
    "MROUND": multiple,
    "ODD": odd,
    "ONE": one,
    "PICKED": picked,
    "QUOTIENT": quotient,
    "ROUND": rounded,
    "SHOWN": shown,
    "TERM": term,
    "TIME": time,
    "VALUE": valued,
    "WATCH": looked_up,
}
"""Every watch by the name that follows the prefix. In a formula its first argument is the formula's number."""
