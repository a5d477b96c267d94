"""The scales on which kitchens and instruments state how strong a brine is, and the way from each to each.

One idea: every scale is a rising function of x, salt as a share of the solution; a conversion goes to x and out
again. Specific gravity and what derives from it hold at 60 °F, grams per litre at 20 °C. All scales end at the
brine saturated at 20 °C.
"""

from __future__ import annotations

from functools import cache
from typing import Callable, Dict, NamedTuple, Tuple

from brinecalc import misread
from brinecalc.errors import OutOfRange
from brinecalc.science import solution
from brinecalc.science.curves import Curve

SALOMETER_FULL = 0.26395
"""Salt as a share of the solution at 100 degrees (saturated at 60 °F); the instrument's definition."""
BAUME_MODULUS = 145.0
"""US scale for liquids heavier than water: degrees = 145 − 145/sg."""
POUNDS_PER_GALLON = 3785.411784 / 453.59237
"""US pounds per US gallon of what weighs 1 g/mL; exact by the definitions of pound and gallon."""

_TRIFLE = 1e-12


class Scale(NamedTuple):
    """One scale: to a share of the solution, from it, and how its limits are shown."""

    to_share: Callable[[float], float]
    from_share: Callable[[float], float]
    show: Callable[[float], str]


@cache
def _gravity_curve() -> Curve:
    """Specific gravity at 60/60 °F over share of the solution."""
    curve = solution.density_at(solution.SIXTY_F)
    water = curve(0.0)
    return Curve(curve.knots, [(a / water, b / water, c / water, d / water) for a, b, c, d in curve.pieces])


def gravity(share: float) -> float:
    """Specific gravity at 60/60 °F of a solution."""
    return _gravity_curve()(share)


def share_from_gravity(sg: float) -> float:
    """The solution that has that specific gravity at 60/60 °F."""
    return _gravity_curve().inverse(sg)


def baume(sg: float) -> float:
    """Degrees Baumé (modulus 145) of a specific gravity."""
    return BAUME_MODULUS - BAUME_MODULUS / sg


def gravity_from_baume(degrees: float) -> float:
    """Specific gravity of a number of degrees Baumé (modulus 145)."""
    return BAUME_MODULUS / (BAUME_MODULUS - degrees)


def salt_per_volume(share: float, celsius: float) -> float:
    """Grams of salt per mL of solution."""
    return share * solution.density_at(celsius)(share)


def share_from_salt_per_volume(grams: float, celsius: float) -> float:
    """The solution that holds that many grams of salt per mL; Newton's rule until it stalls."""
    curve = solution.density_at(celsius)
    share = grams / (1.0 + 0.66 * grams)
    last = 1.0
    while True:
        height = curve(share)
        step = (share * height - grams) / (height + share * curve.slope(share))
        share -= step
        if abs(step) >= last or step == 0.0:
            return share
        last = abs(step)


def _water_pounds() -> float:
    return solution.density_at(solution.SIXTY_F)(0.0) * POUNDS_PER_GALLON


def _plain(value: float) -> str:
    return f"{value:.5g}"


SCALES: Dict[str, Scale] = {
    "water": Scale(solution.from_water_basis, solution.to_water_basis, solution.percent),
    "solution": Scale(lambda v: v, lambda x: x, solution.percent),
    "salometer": Scale(lambda v: v * (SALOMETER_FULL / 100.0), lambda x: x / (SALOMETER_FULL / 100.0), _plain),
    "sg": Scale(share_from_gravity, gravity, _plain),
    "baume": Scale(lambda v: share_from_gravity(gravity_from_baume(v)), lambda x: baume(gravity(x)), _plain),
    "g/L": Scale(
        lambda v: share_from_salt_per_volume(v / 1000.0, solution.ROOM),
        lambda x: 1000.0 * salt_per_volume(x, solution.ROOM),
        _plain,
    ),
    "lb/gal water": Scale(
        lambda v: solution.from_water_basis(v / _water_pounds()),
        lambda x: solution.to_water_basis(x) * _water_pounds(),
        _plain,
    ),
    "lb/gal brine": Scale(
        lambda v: share_from_salt_per_volume(v / POUNDS_PER_GALLON, solution.SIXTY_F),
        lambda x: salt_per_volume(x, solution.SIXTY_F) * POUNDS_PER_GALLON,
        _plain,
    ),
    "molal": Scale(
        lambda v: solution.from_water_basis(v * (solution.molar_mass() / 1000.0)),
        lambda x: solution.to_water_basis(x) / (solution.molar_mass() / 1000.0),
        _plain,
    ),
}


@cache
def limits(scale: str) -> Tuple[float, float]:
    """The values of plain water and of a brine saturated at 20 °C on a scale."""
    found = SCALES[scale]
    return found.from_share(0.0), found.from_share(solution.saturation(solution.ROOM))


def to_share(value: float, scale: str) -> float:
    """A value on a scale → salt as a share of the solution."""
    low, high = limits(scale)
    if not low - _TRIFLE <= value <= high * (1.0 + _TRIFLE):
        _refuse(value, scale)
    return SCALES[scale].to_share(max(value, low))


def from_share(share: float, scale: str) -> float:
    """Salt as a share of the solution → the value on a scale."""
    solution.check_dissolves(share)
    return SCALES[scale].from_share(share)


def convert(value: float, from_scale: str, to_scale: str) -> float:
    """A strength carried from one scale to another."""
    share = to_share(value, from_scale)
    return value if from_scale == to_scale else SCALES[to_scale].from_share(share)


def _refuse(value: float, scale: str) -> None:
    low, high = limits(scale)
    show = SCALES[scale].show
    is_share = show is solution.percent
    advice = "the upper limit is a brine saturated at 20 °C"
    if is_share and value >= 1.0:
        advice = misread.as_per_cent(value, high)
    raise OutOfRange(
        f'must be from {show(low)} to {show(high)} on the scale "{scale}"',
        argument="value",
        got=show(value) if is_share else f"{value:.12g}",
        advice=advice,
        nearest=low if value < low else high,
    )
