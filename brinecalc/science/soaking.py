"""From diffusion to food: temperature, the water in the product, and the salt a bath gives up.

One idea: salt moves in the water of the product, so strengths are compared as salt per water on both sides, and what
the product gains is what the bath loses. Water itself is taken not to move. ``a`` is the bath's water over the
product's water, infinite for a large bath; shares of salt are grams per gram of product as it went in, the salt it
brought included; strengths are salt per water; diffusivities m²/s, lengths m.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache
from typing import Tuple

from brinecalc.errors import OutOfRange
from brinecalc.tables import load

GAS = 8.314462618
"""J/(mol K)."""
KELVIN = 273.15
REFERENCE = 4.0
"""°C at which the product table states diffusivities."""
ACTIVATION = 23000.0
"""J/mol; 20 to 27 kJ/mol in the sources: salt in free water 21 to 22, white cheese 27, pork 20 to 30."""
COLDEST, WARMEST = -2.0, 40.0
"""°C; colder the product itself freezes, warmer nothing here has been compared with anything."""


def temperature_factor(celsius: float, reference: float = REFERENCE) -> float:
    """How many times faster salt diffuses than at the reference (Arrhenius)."""
    return math.exp(ACTIVATION / GAS * (1.0 / (KELVIN + reference) - 1.0 / (KELVIN + celsius)))


@cache
def _free_water_points() -> Tuple[Tuple[float, float], ...]:
    return tuple((1.0 / (KELVIN + row["celsius"]), math.log(row["diffusivity"])) for row in load.rows("free_water"))


@lru_cache(maxsize=256)
def free_water(celsius: float) -> float:
    """Diffusivity of salt in plain water, from -5 to 40 °C: straight between the table's points on Arrhenius axes."""
    inverse = 1.0 / (KELVIN + celsius)
    points = _free_water_points()
    if not points[-1][0] <= inverse <= points[0][0]:
        raise OutOfRange("must be from -5 to 40 °C", argument="temperature", got=f"{celsius:.6g} °C")
    (x0, y0), (x1, y1) = next(pair for pair in zip(points, points[1:]) if inverse >= pair[1][0])
    return math.exp(y0 + (y1 - y0) * (inverse - x0) / (x1 - x0))


def diffusivity(at_reference: float, celsius: float = REFERENCE, speed: float = 1.0) -> float:
    """Diffusivity in a product at a temperature, never above that of free water; `speed` multiplies the product's."""
    return min(at_reference * speed * temperature_factor(celsius), free_water(celsius))


def final(native: float, strength: float, a: float) -> float:
    """Salt per water where product and bath end; all three are salt per water."""
    return strength if math.isinf(a) else (a * strength + native) / (1.0 + a)


def average(water: float, native: float, end: float, fraction: float) -> float:
    """Salt share of a product of that water share when a fraction of the way to its end is covered."""
    return water * (native + (end - native) * fraction)


def fraction_of_way(water: float, native: float, end: float, target: float) -> float:
    """The fraction of all uptake (or, in freshening, loss) at which the product's average is `target`."""
    return (target / water - native) / (end - native)


def strength_for(water: float, native: float, target: float, fraction: float, a: float) -> float:
    """The strength that brings the average to `target` when a fraction of the way is covered."""
    return native + (target / water - native) * (1.0 + 1.0 / a) / fraction


def left_in_bath(strength: float, water: float, native: float, end: float, fraction: float, bath: float) -> float:
    """Strength of the bath then: what it held less what the product gained (`bath`: its water over product weight)."""
    return strength - water * (end - native) * fraction / bath
