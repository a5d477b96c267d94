"""Brine with sugar in it: density, refractive index and conductivity, as the instruments see them.

One idea: salt and sugar each take the room in the solution, and bend the light, that they do in water alone at the
same solute-to-water ratio (additive apparent volumes and refractions; exact where either is absent). The ions
carry current by their number per volume, slowed by the sugar's viscosity. Temperature comes in through the density
of the brine, the index of water and the conductivity of saturated brine. Sugar is reckoned as sucrose.
"""

from __future__ import annotations

from functools import cache
from math import sqrt
from typing import NamedTuple

from brinecalc.science import scales, solution
from brinecalc.science.curves import Curve, monotone, smooth
from brinecalc.tables import load

SUGAR_EXPANSION = 0.00045
"""mL per gram of sugar and degree: growth of sucrose's apparent volume, from its densities at 15 and 20 °C."""
VISCOSITY_POWER = 0.7
"""Conductivity falls with this power of the sugar's relative viscosity: judgement, between 0.6 and 0.85 as reported
for salts in sugar solutions; a measured pair of brines with and without sugar would settle it."""
MOST_SUGAR = 0.25
"""Share of the solution up to which the sugar table covers every brine and every reading."""
WARMEST_CONDUCTIVITY = 35.0
"""°C; end of the conductivity table."""


class _Conductivity(NamedTuple):
    """Conductivity at 20 °C and the power of the temperature curve, over grams of salt per mL; and that curve."""

    at_20: Curve
    power: Curve
    warming: Curve


class _Optics(NamedTuple):
    """Refractive index of brine, of sugar solution (20 °C), and the temperature factor of the specific refraction."""

    brine: Curve
    sugar: Curve
    warming: Curve


@cache
def _sugar_volume() -> Curve:
    """mL per gram of sugar solution at 20 °C over share of sugar."""
    densities = load.column("sucrose_solution", "density")
    return smooth(load.column("sucrose_solution", "sugar"), [1.0 / density for density in densities])


@cache
def _sugar_viscosity() -> Curve:
    return smooth(load.column("sucrose_solution", "sugar"), load.column("sucrose_solution", "viscosity"))


@cache
def _optics() -> _Optics:
    brine = smooth(load.column("nacl_refraction", "salt"), load.column("nacl_refraction", "index"))
    sugar = smooth(load.column("sucrose_solution", "sugar"), load.column("sucrose_solution", "index"))
    celsius, water = load.column("water_refraction", "celsius"), load.column("water_refraction", "index")
    volumes = [1.0 / solution.density(0.0, t) for t in celsius]
    at_20 = _bending(water[celsius.index(20.0)]) * volumes[celsius.index(20.0)]
    return _Optics(brine, sugar, smooth(celsius, [_bending(n) * v / at_20 for n, v in zip(water, volumes)]))


@cache
def _conductivity() -> _Conductivity:
    salt = [scales.salt_per_volume(x, solution.ROOM) for x in load.column("nacl_conductivity", "salt")]
    rises = load.column("nacl_conductivity", "coefficient")
    celsius = load.column("nacl_conductivity_saturated", "celsius")
    saturated = load.column("nacl_conductivity_saturated", "conductivity")
    at_20 = saturated[celsius.index(20.0)]
    return _Conductivity(
        smooth(salt, load.column("nacl_conductivity", "conductivity")),
        monotone(salt, [rise / rises[-1] for rise in rises]),
        smooth(celsius, [k / at_20 for k in saturated]),
    )


def _bending(index: float) -> float:
    """The Lorentz-Lorenz function of a refractive index, proportional to density."""
    square = index * index
    return (square - 1.0) / (square + 2.0)


def volume(salt: float, sugar: float, celsius: float) -> float:
    """mL per gram of a solution of salt and sugar, both shares of the solution."""
    water = 1.0 - sugar
    brine = water / solution.density_surface()(salt / water, celsius)
    if sugar == 0.0:
        return brine
    curve = _sugar_volume()
    sweet = 1.0 - salt  # water and sugar without the salt
    sugar_room = sweet * curve(sugar / sweet) - (sweet - sugar) * curve(0.0)
    return brine + sugar_room + SUGAR_EXPANSION * (celsius - solution.ROOM) * sugar


def refractive_index(salt: float, sugar: float, celsius: float) -> float:
    """Refractive index (589 nm, against air) of a solution of salt and sugar."""
    optics = _optics()
    water = 1.0 - sugar
    refraction = water * _bending(optics.brine(salt / water)) * volume(salt / water, 0.0, solution.ROOM)
    if sugar:
        sweet = 1.0 - salt
        share = sugar / sweet
        room = _sugar_volume()
        refraction += sweet * _bending(optics.sugar(share)) * room(share)
        refraction -= (sweet - sugar) * _bending(optics.sugar(0.0)) * room(0.0)
    bending = refraction * optics.warming(celsius) / volume(salt, sugar, celsius)
    return sqrt((1.0 + 2.0 * bending) / (1.0 - bending))


def conductivity(salt: float, sugar: float, celsius: float) -> float:
    """Conductivity in mS/cm of a solution of salt and sugar, 0 to 35 °C."""
    curves = _conductivity()
    per_volume = salt / volume(salt, sugar, solution.ROOM)
    value = curves.at_20(per_volume)
    if celsius != solution.ROOM:
        value *= curves.warming(celsius) ** curves.power(per_volume)
    if sugar:
        viscosity = _sugar_viscosity()
        value *= (viscosity(0.0) / viscosity(sugar)) ** VISCOSITY_POWER
    return value


def share_by_conductivity(value: float) -> float:
    """The unsweetened solution that has that conductivity at 20 °C: what a salt meter shows."""
    per_volume = _conductivity().at_20.inverse(value)
    return scales.share_from_salt_per_volume(per_volume, solution.ROOM)


def brix(index: float) -> float:
    """Degrees Brix that a refractometer shows for a refractive index at 20 °C."""
    return 100.0 * _optics().sugar.inverse(index)
