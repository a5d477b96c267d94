"""pH of a brine, and the mass of one ingredient that brings a brine to a pH.

One idea: pH is -log10 of the activity of hydrogen in the closed brine at rest, so one reckoning serves fresh water
and strong brine alike. The dose is found on the same curve: walk up the doses until the pH passes the target, and
narrow down there; where the curve turns back or ends before the target, that turning point is the answer to "how
far can it go". Adding the dose to the brine gives the target back, since nothing else was asked.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, log, sqrt
from typing import Callable, Dict, NamedTuple, Sequence, Tuple

from brinecalc.errors import OutOfRange
from brinecalc.science.equilibria import Mixture, settle
from brinecalc.science.roots import rising_root

STRONGEST = 4.5
"""Ionic strength, mol/kg, beyond which one coefficient per pair of ions no longer serves."""
SMALLEST = 1e-4  # g/kg, first dose tried
STRIDE = 2.5
GOLD = (3.0 - sqrt(5.0)) / 2.0


class Reach(NamedTuple):
    """How far a dose gets: the pH it ends at, and the mass that gets there, g per kg of water."""

    mass: float
    ph: float
    reached: bool


@lru_cache(maxsize=8192)
def ph(mix: Mixture, celsius: float = 25.0) -> float:
    """pH of a closed brine from what went into each kg of water; 0 to 40 °C, to about 3 mol/kg of salt."""
    if max(mix.sodium + 2.0 * mix.calcium, mix.chloride) > STRONGEST:
        raise _too_strong()
    rest = settle(mix, celsius)
    if rest.ionic_strength > STRONGEST:
        raise _too_strong()
    return rest.ph


def _too_strong() -> OutOfRange:
    return OutOfRange(f"must hold at most {STRONGEST:g} mol of ions per kg of water")


def blend(parts: Sequence[Tuple[float, Mixture]]) -> Mixture:
    """The sum of mixtures, each times its amount; the same acid from several parts is counted together."""
    acids: Dict[str, float] = {}
    protons = sodium = calcium = chloride = 0.0
    for amount, part in parts:
        for acid, moles in part.acids:
            acids[acid] = acids.get(acid, 0.0) + amount * moles
        protons += amount * part.protons
        sodium += amount * part.sodium
        calcium += amount * part.calcium
        chloride += amount * part.chloride
    return Mixture(tuple(acids.items()), protons, sodium, calcium, chloride)


def dose(target: float, base: Mixture, each: Mixture, water: float, most: float, celsius: float = 25.0) -> Reach:
    """Smallest mass, g per kg of water, that brings a brine to `target`.

    `base` is the brine per kg of water, `each` what a gram of the ingredient brings, `water` the water in it, kg
    per gram, and `most` the largest mass to try.
    """

    def at(mass: float) -> float:
        thinner = 1.0 / (1.0 + mass * water)
        return ph(blend(((thinner, base), (mass * thinner, each))), celsius)

    start = at(0.0)
    if abs(start - target) < 1e-12:
        return Reach(0.0, start, True)
    side = 1.0 if target > start else -1.0

    def gap(mass: float) -> float:
        return side * (target - at(mass))

    trail = [(0.0, side * (target - start))]
    mass = SMALLEST
    while trail[-1][1] > 0.0 and trail[-1][0] < most:
        mass = min(mass, most)
        try:
            trail.append((mass, gap(mass)))
        except OutOfRange:  # stronger than the theory reaches: the walk ends where that begins
            trail.append(_brink(gap, trail[-1], mass))
            break
        mass *= STRIDE
    if trail[-1][1] > 0.0:
        peak = _nearest(gap, trail)
        if peak[1] > 0.0:
            return Reach(peak[0], target - side * peak[1], False)
        trail = [point for point in trail if point[0] < peak[0]] + [peak]
    found = rising_root(lambda mass: -gap(mass), trail[-2][0], trail[-1][0])
    return Reach(found, at(found), True)


Point = Tuple[float, float]


def _brink(gap: Callable[[float], float], last: Point, beyond: float) -> Point:
    """The furthest point that can be worked out, between one that can and a mass that cannot."""
    while beyond - last[0] > 1e-6 * beyond and last[1] > 0.0:
        middle = 0.5 * (last[0] + beyond)
        try:
            last = (middle, gap(middle))
        except OutOfRange:
            beyond = middle
    return last


def _nearest(gap: Callable[[float], float], trail: Sequence[Point]) -> Point:
    """The point where the gap is smallest, narrowed down by golden sections; 0 if no dose makes it smaller."""
    index = min(range(len(trail)), key=lambda i: trail[i][1])
    if index == 0:
        return trail[0]
    best = trail[index]
    low, middle = log(max(trail[index - 1][0], SMALLEST / STRIDE)), log(best[0])
    high = log(trail[min(index + 1, len(trail) - 1)][0])
    while high - low > 1e-7 and best[1] > 0.0:
        further = middle + GOLD * (high - middle) if high - middle > middle - low else middle - GOLD * (middle - low)
        value = gap(exp(further))
        if value < best[1]:
            low, high = (middle, high) if further > middle else (low, middle)
            middle, best = further, (exp(further), value)
        elif further > middle:
            high = further
        else:
            low = further
    return best
