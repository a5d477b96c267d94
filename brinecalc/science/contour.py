"""Back from the Laplace domain to time, by adding up a few points of the complex plane.

One idea: the integral along a hyperbola that bends round the poles converges so fast that 22 points give 15 digits
for every time within one octave. The points are fixed per octave, so that what the image is worth there is worked out
once, and a value in time costs 22 exponentials.
"""

from __future__ import annotations

import cmath
import math
from typing import Dict, Tuple

POINTS = 22
_OPENING = 1.0  # angle of the hyperbola; it and POINTS were chosen by trial against a known transform
_OCTAVE = 2.0

Point = Tuple[complex, complex]


def _unit_points(first: float) -> Tuple[Point, ...]:
    """(s, weight) for times from one half to one (hyperbola for a range of times, Weideman and Trefethen 2007).

    `first` is where the points begin, in steps from the real axis: 0.5, or 0 with half the weight there.
    """
    spread = math.acosh(
        ((math.pi - 2.0 * _OPENING) * _OCTAVE + 4.0 * _OPENING - math.pi)
        / ((4.0 * _OPENING - math.pi) * math.sin(_OPENING))
    )
    step = spread / POINTS
    scale = (4.0 * math.pi * _OPENING - math.pi * math.pi) / spread * POINTS
    made = []
    for k in range(POINTS):
        u = complex(-_OPENING, (k + first) * step)
        weight = 0.5 if k + first == 0.0 else 1.0
        made.append((scale * (1.0 + cmath.sin(u)), weight * scale * step / math.pi * cmath.cos(u)))
    return tuple(made)


_UNIT = (_unit_points(0.5), _unit_points(0.0))
_octaves: Dict[Tuple[int, int], Tuple[Point, ...]] = {}


def octave(time: float) -> int:
    """The number of the octave that holds a time above 0."""
    return math.frexp(time)[1]


def points(number: int, shifted: int = 0) -> Tuple[Point, ...]:
    """(s, weight) for all times of that octave; with `shifted` 1 points between those of `shifted` 0."""
    made = _octaves.get((number, shifted))
    if made is None:
        factor = math.ldexp(1.0, -number)
        made = tuple((s * factor, w * factor) for s, w in _UNIT[shifted])
        _octaves[(number, shifted)] = made
    return made
