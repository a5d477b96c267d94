"""Salt in water: density, freezing point, solubility, specific heat, and the two ways to state a strength.

One idea: a solution is known by x, salt as a share of the whole solution by weight; a strength s on the water
basis is the same solution, s = x/(1 − x). Properties are smooth curves through published tables, made on first
use; outside the tables there is no answer. Densities end at saturation, freezing points at the eutectic.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache

from brinecalc import misread
from brinecalc.errors import OutOfRange
from brinecalc.science.curves import Curve, Surface, monotone, smooth
from brinecalc.tables import load

ROOM = 20.0
"""°C; the temperature at which a brine must dissolve its salt, and of any figure that names none."""
SIXTY_F = 140.0 / 9.0
"""°C; 60 °F, at which hydrometers and salometers are calibrated."""
COLDEST, WARMEST = 0.0, 40.0
"""°C; the range of the density table."""
HOTTEST = 100.0
"""°C; the end of the solubility table."""

_ALWAYS_DISSOLVED = 0.26  # below the solubility at any temperature of the tables
TRIFLE = 1.0 + 1e-12
"""A saturated strength carried from one basis to the other may gain a last digit."""


def from_water_basis(strength: float) -> float:
    """Salt per water → salt as a share of the solution."""
    return strength / (1.0 + strength)


def to_water_basis(share: float) -> float:
    """Salt as a share of the solution → salt per water."""
    return share / (1.0 - share)


@cache
def molar_mass() -> float:
    """g/mol of salt, as the table of substances has it from the standard atomic masses; nowhere else."""
    return next(float(row["molar_mass"]) for row in load.rows("acid_substances") if row["formula"] == "NaCl")


@cache
def density_surface() -> Surface:
    """Density over share and temperature, carried on to saturation; for kernels that keep to the range."""
    rows = load.rows("nacl_density")
    shares = sorted({row["salt"] for row in rows})
    celsius = sorted({row["celsius"] for row in rows})
    heights = {(row["salt"], row["celsius"]): row["density"] for row in rows}
    return Surface(shares, celsius, [[heights[x, t] for t in celsius] for x in shares])


@lru_cache(maxsize=32)
def density_at(celsius: float) -> Curve:
    """Density over share at one temperature."""
    return density_surface().at(celsius)


@cache
def _freezing_curve() -> Curve:
    return _curve("nacl_freezing", "salt", "celsius")


@cache
def _saturation_curve() -> Curve:
    return monotone(load.column("nacl_solubility", "celsius"), load.column("nacl_solubility", "salt"))


@cache
def _heat_curve() -> Curve:
    return _curve("nacl_specific_heat", "salt", "heat")


def _curve(table: str, along: str, height: str) -> Curve:
    return smooth(load.column(table, along), load.column(table, height))


@lru_cache(maxsize=256)
def saturation(celsius: float = ROOM) -> float:
    """The strongest solution at a temperature from 0 to 100 °C, salt as a share of the solution."""
    if not 0.0 <= celsius <= HOTTEST:
        raise OutOfRange("must be from 0 to 100 °C", argument="temperature", got=f"{celsius:.6g} °C")
    return _saturation_curve()(celsius)


def density(share: float, celsius: float = ROOM) -> float:
    """Density in g/mL of a solution, 0 to 40 °C and up to saturation at that temperature."""
    if not COLDEST <= celsius <= WARMEST:
        raise OutOfRange(
            "must be from 0 to 40 °C, where densities are published", argument="temperature", got=f"{celsius:.6g} °C"
        )
    if not 0.0 <= share <= _ALWAYS_DISSOLVED:
        check_dissolves(share, celsius)
    return density_surface()(share, celsius)


def eutectic() -> float:
    """The solution, as a share, whose salt and ice freeze out together; freezing points end there."""
    return _freezing_curve().knots[-1]


def freezing_point(share: float) -> float:
    """Temperature in °C at which ice begins to form in a solution, up to the eutectic (23.3 %)."""
    curve = _freezing_curve()
    last = curve.knots[-1]
    if not 0.0 <= share <= last:
        check_dissolves(share, ROOM)
        raise OutOfRange(
            f"must be at most {percent(last)} of the solution ({percent(to_water_basis(last))} of the water)",
            argument="strength",
            got=f"{percent(share)} of the solution",
            advice=f"past that point, at {curve(last):.1f} °C, salt and ice freeze out together",
            nearest=last,
        )
    return curve(share)


def specific_heat(share: float) -> float:
    """Specific heat in kJ/(kg K), up to saturation; taken as the same at every kitchen temperature."""
    check_dissolves(share, ROOM)
    return _heat_curve()(share)


def share_of_solution(strength: float, basis: str) -> float:
    """A strength on either basis as a share of the solution."""
    return from_water_basis(strength) if basis == "water" else strength


def on_basis(share: float, basis: str) -> float:
    """A share of the solution as a strength on either basis."""
    return to_water_basis(share) if basis == "water" else share


@lru_cache(maxsize=64)
def strongest(basis: str = "water", celsius: float = ROOM) -> float:
    """The strength of a saturated brine, on either basis."""
    return on_basis(saturation(celsius), basis)


def check_strength(strength: float, basis: str = "water", celsius: float = ROOM, argument: str = "strength") -> None:
    """Refuses a strength that no brine can have at that temperature."""
    if not 0.0 <= strength <= strongest(basis, celsius) * TRIFLE:
        _refuse(strength, basis, celsius, argument)


def check_dissolves(share: float, celsius: float = ROOM) -> None:
    """Refuses a share of the solution above saturation at that temperature."""
    if not 0.0 <= share <= saturation(celsius) * TRIFLE:
        _refuse(share, "solution", celsius, "strength")


def _refuse(strength: float, basis: str, celsius: float, argument: str) -> None:
    if strength < 0.0:
        raise OutOfRange("must be at least 0 %", argument=argument, got=f"{100.0 * strength:.6g} %", nearest=0.0)
    limit = strongest(basis, celsius)
    advice = "no more salt dissolves"
    if strength >= 1.0:
        advice = misread.as_per_cent(strength, limit)
    raise OutOfRange(
        f"must be at most {percent(limit)} of the {basis} at {celsius:.4g} °C",
        argument=argument,
        got=percent(strength),
        advice=advice,
        nearest=limit,
    )


def percent(share: float) -> str:
    """A share in per cent, cut (not rounded) after two decimals, so that a limit shown is inside the limit."""
    return f"{math.floor(share * 1e4 + 1e-7) / 100.0:.6g} %"
