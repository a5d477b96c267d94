"""The figures of a sentence, told in the units in which a person types.

One idea: sentences are written once, in base units ("at most 40 °C") or in metric and US ones ("5 °C / 41 °F"). Whoever
typed another unit reads that one first: "at most 104 °F / 40 °C". A limit is rounded to the side on which what is
written passes when it is typed in. Only sentences go through here, never an answer.
"""

from __future__ import annotations

import re
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context
from typing import Optional

from brinecalc import quantity
from brinecalc.errors import BrineError
from brinecalc.units import Unit

_NUMBER = r"-?\d[\d.]*(?:e[-+]?\d+)?"
_ONE = rf"(?:{_NUMBER} to )?{_NUMBER} "
_PAIR = re.compile(rf"({_ONE}(?:°C|kg|g|mm|mL|L)) / ({_ONE}(?:°F|lb|oz|in|gal|qt|fl oz))(?!\w)")
_ALONE = rf"(?<!/ )(?<![\d.\-])(?:({_NUMBER}) to )?({_NUMBER}) {{}}(?![\w/]| /)"
_LEAST = re.compile(r"(?:at least(?: the [\w ]+,)?|(?<!cannot be )above|cannot be below|from) $")
_MOST = re.compile(r"(?:at most(?: the [\w ]+,)?|(?<!cannot be )below|cannot be above|to) $")
_US = frozenset(("°F", "oz", "lb", "in", "ft", "fl oz", "pt", "qt", "gal"))
_DIGITS, _DIGITS_SHIFTED = 4, 6
_TIMES = re.compile("[x×]")


def unit_of(cell: object) -> Optional[Unit]:
    """The unit that a text names, the last of "6 x 4 x 2 in"; None for anything else."""
    for text in (cell, _TIMES.split(cell)[-1]) if isinstance(cell, str) else ():
        try:
            return quantity.parse(text).unit
        except BrineError:
            continue
    return None


def is_us(unit: Optional[Unit]) -> bool:
    """Whether it is a unit of US kitchens; cups and spoons lie in metric ones too."""
    return unit is not None and unit.name in _US


def us_first(text: str) -> str:
    """A sentence whose figures in metric and US units stand the other way round: "41 °F / 5 °C"."""
    return _PAIR.sub(r"\2 / \1", text)


def in_unit(text: str, unit: Unit, is_water: bool) -> str:
    """A rule with its figures in that unit, and in the base unit beside it where they do not differ by a mere shift.

    `is_water` says that a volume stands for the mass of that much water.
    """
    by_volume = is_water and unit.dimension == "volume"
    base = quantity.symbol("mass" if by_volume else unit.dimension)
    if unit.name in (base, "1"):
        return text

    def figure(number: str, way: str) -> float:
        value = float(number) / (100.0 if base == "%" else quantity.DENSITY_OF_WATER if by_volume else 1.0)
        context = Context(prec=_DIGITS_SHIFTED if shifted else _DIGITS, rounding=way)
        return float(context.create_decimal(f"{unit.from_base(value):.12g}"))

    def told(found: "re.Match[str]") -> str:
        before = text[: found.start()]
        if found[1]:
            ends = [figure(found[1], ROUND_CEILING), figure(found[2], ROUND_FLOOR)]
        else:
            way = ROUND_CEILING if _LEAST.search(before) else ROUND_FLOOR if _MOST.search(before) else ROUND_HALF_EVEN
            ends = [figure(found[2], way)]
        written = " to ".join(f"{end:.10g}" for end in ends) + f" {unit.name}"
        plain = shifted or (not unit.offset and not any(float(number) for number in found.groups() if number))
        return written if plain else f"{written} / {found[0]}"

    shifted = not by_volume and not unit.offset and f"{unit.factor:e}".startswith("1.000000e")
    return re.sub(_ALONE.format(re.escape(base)), told, text)
