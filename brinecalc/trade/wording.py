"""How a sentence of a finding, or the card, writes a mass, a share, a time or the name of the product.

One idea: a figure and the limit that it passes never look alike, and what must be reached is never written too low.
"""

from __future__ import annotations

import math
from typing import Tuple

from brinecalc import quantity
from brinecalc.trade.limits import Limit
from brinecalc.trade.row import Row


def grams(value: float) -> str:
    """A mass as a sentence shows it, in metric and US units."""
    return quantity.both(value, "mass")


def length(value: float) -> str:
    """A length as a sentence shows it, in metric and US units."""
    return quantity.both(value, "length")


def parts(value: float) -> str:
    """Parts per million as a sentence shows them: four digits, and never a power of ten."""
    return f"{float(f'{value:.4g}'):.15g}"


def against(value: float, most: Limit) -> Tuple[str, str]:
    """A figure and the limit that it passes, in words, with as many digits as tell the two apart."""
    if most.unit == "ppm" and float(parts(value)) > float(f"{most.value:.0f}"):
        return f"{parts(value)} ppm", most.shown
    if most.unit == "ppm":
        found, limit = quantity.apart(value, most.value, 4)
        return f"{found:.15g} ppm", f"{limit:.15g} ppm"
    found, limit = quantity.apart(value, most.value, 3)
    return quantity.show(found, "share"), quantity.show(limit, "share")


def share(value: float) -> str:
    """A share as a sentence shows it."""
    return quantity.show(float(f"{value:.3g}"), "share")


def degrees(value: float) -> str:
    """A temperature as a sentence shows it, in both scales."""
    return f"{value:.1f} °C / {value * 1.8 + 32:.0f} °F"


def degrees_at_least(value: float) -> str:
    """One that must be reached, in both scales, as sentences have it and the card."""
    centigrade, fahrenheit = whole_degrees_at_least(value)
    return f"{centigrade} °C / {fahrenheit} °F"


def whole_degrees_at_least(value: float) -> Tuple[int, int]:
    """One that must be reached, in °C and in °F, to the whole degree that a cook reads and never below it."""
    return math.ceil(value - 0.01), math.ceil(value * 1.8 + 32 - 0.01)


def hours(value: float) -> str:
    """A time as a sentence shows it: hours, or days from three days up."""
    return f"{value / 24:.3g} days" if value >= 72 else f"{value:.3g} h"


def times(value: float, limit: float) -> Tuple[str, str]:
    """A time and the one that it passes, in words, with as many digits as tell the two apart."""
    if hours(value) != hours(limit):
        return hours(value), hours(limit)
    each, word = (24.0, "days") if limit >= 72 else (1.0, "h")
    one, two = quantity.apart(value / each, limit / each, 3)
    return f"{one:.12g} {word}", f"{two:.12g} {word}"


def product_of(row: Row, otherwise: str = "product") -> str:
    """The product as the row names it."""
    return row.text("product")[:40] or otherwise
