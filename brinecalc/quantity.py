"""Numbers and text to plain floats in the base unit, and back to text.

One idea: a quantity is a number and a unit of one closed table, perhaps several in falling order ("3 lb 4 oz"),
matched by one fixed pattern; nothing is ever evaluated. What can be read in two ways ("1,000 g", "1 c") is not
guessed at but refused with the ways to write it (see misread.py). Texts once read are remembered.
Base units: g, mm, h, °C, mL, share of one, each. Plain exponents ("1e3 g", "2E-05") are read, since spreadsheets
write small and large numbers so; a decimal comma is read, a thousands mark is not.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_EVEN, Context
from math import ceil, gcd
from typing import Any, Dict, List, NamedTuple, Optional, Tuple

from brinecalc import misread, units
from brinecalc.errors import BrineError, OutOfRange, Unreadable
from brinecalc.units import LONGEST, Unit

DENSITY_OF_WATER = 0.998207
"""g/mL at 20 °C; what turns water given by volume into a mass."""

_MEMORY = 4096  # texts remembered; a workbook repeats few
_EXACT = 2**53  # whole numbers up to here are floats without loss
_MOST_PARTS = 3
_GLYPHS = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5),
    "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
NUMBER_MARKS = r"\d\s.,/⁄\-" + "".join(_GLYPHS)
"""What a number may be written with, for the inside of a pattern's brackets: what else stands there is a unit."""
_PLAIN = {ord(c): " " for c in "\u00a0\u202f\u2009\u2007\u2002"} | {0x2212: "-", 0x2044: "/", 0xBA: "°", 0x2DA: "°"}
_PART = re.compile(
    r"[ ]*(?:"
    r"(?:(?P<whole>[0-9]+)[ -] *)?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
    r"|(?P<before>[0-9]*)[ ]?(?P<glyph>[" + "".join(_GLYPHS) + r"])"
    r"|(?P<plain>(?:[0-9]+(?:[.,][0-9]+)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?)"
    r")[ ]*(?P<unit>(?:[A-Za-z°℃℉%‰#\"'′″’” /]|\.(?![0-9]))*)(?:[,&+](?=[ ]*[0-9]))?"
)
_PARTED = frozenset((2, 3, 4, 8, 16, 32, 64))  # what cups, pounds and inches are parted in
_SINGLE = frozenset(("temperature", "share"))  # kinds of which several parts make no sense
_SYMBOLS = {"mass": "g", "water": "g", "length": "mm", "time": "h", "temperature": "°C", "volume": "mL", "share": "%"}
_BOTH = {
    "mass": (("kg", "g"), ("lb", "oz")),
    "length": (("mm",), ("in",)),
    "volume": (("L", "mL"), ("gal", "qt", "fl oz")),
}
"""Metric and US units in which a measure is written, the largest first."""


class Quantity(NamedTuple):
    """What a text says: its value in the base unit, and its (first) unit if it names one."""

    value: float
    unit: Optional[Unit]

    @property
    def dimension(self) -> str:
        """What it measures; empty for a number alone."""
        return self.unit.dimension if self.unit else ""


_read: Dict[str, Quantity] = {}


def read(cell: Any, dimension: str) -> float:
    """A cell as a float in the base unit of the dimension; Unreadable says what to write instead.

    The dimension "number" takes numbers without a unit only.
    """
    if type(cell) is float and cell - cell == 0.0:
        return cell
    if type(cell) is int and -_EXACT < cell < _EXACT:
        return float(cell)
    if isinstance(cell, str):
        found = (_read.get(cell) if len(cell) <= LONGEST else None) or parse(cell, dimension)
        return found.value if found.unit is None or found.unit.dimension == dimension else _carried(found, dimension)
    if isinstance(cell, (int, float)) and not isinstance(cell, bool):
        return _finite(cell)
    raise Unreadable(f"must be {misread.wanted(dimension)}", got=_kind(cell), advice=misread.example(dimension))


def read_in_row(cell: Any, dimension: str, argument: str, row: int) -> float:
    """A cell of a range, as `read` reads it; what is wrong names the argument, the cell and its row."""
    try:
        return read(cell, dimension)
    except BrineError as error:
        error.argument = argument
        error.got = f"{units.quoted(cell) if isinstance(cell, str) else error.got} in row {row}"
        raise


def is_nothing(cell: Any) -> bool:
    """Whether a cell of a list is empty: a blank cell reaches some hosts as 0, one left empty by a formula as ""."""
    return cell is None or cell == "" or (isinstance(cell, (int, float)) and not isinstance(cell, bool) and cell == 0)


def split(text: str, wanted: str = "") -> Tuple[float, str]:
    """A text's value in the base unit, and its dimension: "" for a bare number, "count" for each and dozen.

    `wanted` only helps the reason to say what would be right.
    """
    found = (_read.get(text) if len(text) <= LONGEST else None) or parse(text, wanted)
    return found.value, found.dimension


def show(value: float, dimension: str, way: str = "") -> str:
    """A base value with its unit, to six digits, as a reason writes it: "12.5 g", "5 %".

    Where it is a limit, `way` rounds it to the side on which what is written passes when it is typed in.
    """
    shown = value * 100.0 if dimension == "share" else value
    if way:
        shown = float(Context(prec=6, rounding=way).create_decimal(f"{shown:.13g}"))
    text = f"{shown:.6g}"
    if "e+" in text and abs(shown) < 1e15:
        text = f"{float(text):.0f}"
    unit = symbol(dimension)
    return f"{text} {unit}" if unit else text


def symbol(dimension: str) -> str:
    """The unit in which reasons write such a value; empty where they write none."""
    return _SYMBOLS.get(dimension, "")


def apart(value: float, other: float, digits: int) -> "Tuple[float, float]":
    """Two figures, rounded to the fewest digits, from so many up, in which they do not look alike."""
    for more in range(digits, 13):
        one, two = float(f"{value:.{more}g}"), float(f"{other:.{more}g}")
        if one != two:
            break
    return one, two


def both(value: float, dimension: str, way: str = ROUND_HALF_EVEN) -> str:
    """A measure in metric and in US units, to three digits each: "38.1 mm / 1.5 in", "3.58 kg / 7.89 lb".

    Where it is a limit, `way` rounds both to the side on which what is written passes when it is typed in.
    """
    pair = []
    for names in _BOTH[dimension]:
        found = [units.unit(name) for name in names]
        fit = next((one for one in found if abs(one.from_base(value)) >= 1.0), found[-1])
        digits = Context(prec=3, rounding=way).create_decimal(repr(fit.from_base(value)))
        pair.append(f"{float(digits):.6g} {fit.name}")
    return " / ".join(pair)


def degrees(value: float) -> str:
    """A temperature as it stands in both scales: "5 °C / 41 °F"."""
    return f"{value:.4g} °C / {value * 1.8 + 32.0:.4g} °F"


def degrees_up(value: float) -> str:
    """A lower limit in both scales, to hundredths, rounded up: what is written passes when it is typed in."""
    celsius, fahrenheit = (ceil(one * 100.0) / 100.0 + 0.0 for one in (value, value * 1.8 + 32.0))
    return f"{celsius:.6g} °C / {fahrenheit:.6g} °F"


def parse(text: str, dimension: str = "") -> Quantity:
    """What a text says, whatever its dimension; the dimension wanted only helps the reason."""
    if len(text) > LONGEST:
        raise misread.too_long(text, dimension)
    found = _parts(tidied(text), dimension)
    if len(_read) >= _MEMORY:
        _read.clear()
    _read[text] = found
    return found


def tidied(text: str) -> str:
    """A text with every kind of space as a plain one, and the look-alikes of minus, slash and degree replaced."""
    return text.translate(_PLAIN).strip(" ")


def _parts(plain: str, dimension: str) -> Quantity:
    """Goes along the text part by part, each a number and its unit."""
    sign, start = (-1.0 if plain[:1] == "-" else 1.0), (1 if plain[:1] in ("-", "+") else 0)
    made: List[Tuple[float, Optional[Unit]]] = []
    if misread.is_ambiguous(plain):
        raise misread.explain(plain, dimension)
    while start < len(plain):
        match = _PART.match(plain, start)
        if match is None or len(made) == _MOST_PARTS:
            raise misread.explain(plain, dimension)
        made.append((_number(match, plain, dimension), _unit(match["unit"], plain, dimension)))
        start = match.end()
    if not made:
        raise misread.explain(plain, dimension)
    first = made[0][1]
    value = sign * made[0][0] if first is None else first.to_base(sign * made[0][0])
    if len(made) > 1:
        value += sign * _rest(made, plain, dimension)
    if value - value != 0.0:
        raise misread.explain(plain, dimension)
    return Quantity(value, first)


def _rest(made: List[Tuple[float, Optional[Unit]]], plain: str, dimension: str) -> float:
    """The second and later parts of "3 lb 4 oz": same dimension, falling units, each with its unit."""
    total = 0.0
    larger = made[0][1]
    for number, smaller in made[1:]:
        if larger is None or smaller is None:
            raise misread.explain(plain, dimension)
        if smaller.dimension != larger.dimension or smaller.dimension in _SINGLE or smaller.factor >= larger.factor:
            raise misread.unlike_parts(plain, larger, smaller)
        if smaller.to_base(number) >= larger.to_base(1.0):
            raise misread.two_figures(dimension)
        total += smaller.to_base(number)
        larger = smaller
    return total


def _number(match: re.Match[str], plain: str, dimension: str) -> float:
    """The number of one part: a fraction, a fraction sign or decimals."""
    if match["plain"] is not None:
        value = float(match["plain"].replace(",", "."))
        if value == 0.0 and any(c in "123456789" for c in re.split("[eE]", match["plain"])[0]):
            raise misread.explain(plain, dimension)
        return value
    if match["glyph"] is not None:
        top, bottom = _GLYPHS[match["glyph"]]
        return (int(match["before"] or 0) * bottom + top) / bottom
    whole, top, bottom = int(match["whole"] or 0), int(match["top"]), int(match["bottom"])
    may_be_two = match["whole"] is None and (bottom not in _PARTED or gcd(top, bottom) > 1)  # 4/6 and 5/6, not 1 5/6
    if not 0 < top < bottom or may_be_two:
        raise misread.fraction(plain, dimension, top, bottom)
    return (whole * bottom + top) / bottom


def _unit(token: str, plain: str, dimension: str) -> Optional[Unit]:
    """The unit of one part; an "and" before the next part belongs to neither."""
    name = token.strip()
    name = name[:-4].rstrip() if name.endswith(" and") else name
    if not name:
        return None
    found = units.find(name)
    if found is None:
        raise misread.no_unit(name, plain, dimension)
    return found


def _carried(found: Quantity, dimension: str) -> float:
    """Water may be given by mass or volume; anything else of another kind is refused."""
    if dimension == "water" and found.dimension == "mass":
        return found.value
    if dimension == "water" and found.dimension == "volume":
        return found.value * DENSITY_OF_WATER
    raise misread.wrong_kind(found.unit, dimension)


def _finite(value: float) -> float:
    try:
        number = float(value)
    except OverflowError:
        number = float("inf")
    if number - number != 0.0:
        raise OutOfRange("must be a finite number", got=f"{number}")
    return number


def _kind(cell: Any) -> str:
    """A cell that is no number and no text, as the reason names it."""
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    return "a blank cell" if cell is None else f"a {type(cell).__name__}"
