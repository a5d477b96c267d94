"""Where in the piece the salt is: local concentration during the soak and during a rest out of the brine.

One idea: a soak is held as a sum of fields, each of which is an eigenfunction of the shape: decaying modes when the
soak is long, points of a contour when it is short. A rest without flux through the surface acts on each field by
itself, whatever the position, so a moment is worked out once and then looked into anywhere. Concentrations are
shares of the final one (in a small bath the surface can begin above 1), positions run from 0 in the centre to 1 at
the surface.
"""

from __future__ import annotations

import cmath
import math
from bisect import bisect_left
from functools import lru_cache
from operator import mul
from typing import Callable, Dict, List, Optional, Tuple

from brinecalc.science import contour, shapes
from brinecalc.science.bessel import j0_j1, scaled_i0_i1
from brinecalc.science.uptake import EARLY

REST_EARLY = 0.0005
"""Fourier number of a rest below which a contour takes fewer steps than the modes of the resting piece."""

_INSTANT = 1e-280  # a shorter time is none: the points of its contour could not be written down
_UNREACHED = 36.0  # exponent past which salt has not come so far in, to the last digit
_AXIS = 1e-6  # nearer to the centre of a sphere than this is the centre
_DIED_OUT = 40.0  # exponent past which a wave no longer counts

Fields = List[Tuple[complex, complex]]
Waves = List[Tuple[float, float]]


@lru_cache(maxsize=4096)
def _ripple(turn: float) -> float:
    return j0_j1(turn)[0]


def _swell(turn: float) -> float:
    return math.sin(turn) / turn if turn > _AXIS else 1.0


WAVES: Dict[int, Callable[[float], float]] = {1: math.cos, 2: _ripple, 3: _swell}
"""The standing wave of each dimension, 1 in the centre, over wave number times position."""


def wave_mean(dimension: int, q: float) -> float:
    """The mean of the standing wave over the piece."""
    if dimension == 1:
        return math.sin(q) / q
    if dimension == 2:
        return 2.0 * j0_j1(q)[1] / q
    return 3.0 * (math.sin(q) - q * math.cos(q)) / (q * q * q)


def field(dimension: int, q: complex, x: float) -> complex:
    """The field that grows with q and solves the equation of the shape; its size is near 1 at the surface."""
    near = cmath.exp(-q * (1.0 - x))
    if dimension == 2:
        return near * scaled_i0_i1(q * x)[0]
    if dimension == 1:
        return near + cmath.exp(-q * (1.0 + x))
    return (near - cmath.exp(-q * (1.0 + x))) / x if x >= _AXIS else 2.0 * q * cmath.exp(-q)


@lru_cache(maxsize=256)
def _resting(dimension: int, x: float, rest: float) -> Tuple[float, ...]:
    """What is left at a position, after a rest, of each mode that was 1 in the centre; the same for every soak."""
    fastest = math.sqrt(_DIED_OUT / rest)
    numbers = shapes.wave_numbers(dimension, 0.0, fastest)
    wave = WAVES[dimension]
    return tuple(math.exp(-q * q * rest) * wave(q * x) for q in numbers[: bisect_left(numbers, fastest) + 1])


class Moment:
    """Concentration over position at one moment: a level, standing waves and fields, by their strength.

    Waves come with their wave number and height in the centre, fields with their q and height at the surface.
    """

    def __init__(self, dimension: int, level: float, waves: Waves, fields: Fields) -> None:
        self.dimension = dimension
        self.level = level
        self.waves = waves
        self.fields = [(q, height / field(dimension, q, 1.0)) for q, height in fields]

    def at(self, x: float) -> float:
        """Concentration at a position."""
        d, total = self.dimension, self.level
        wave = WAVES[d]
        for number, height in self.waves:
            total += height * wave(number * x)
        for q, height_ in self.fields:
            total += (height_ * field(d, q, x)).real
        return max(total, 0.0)


class Soaked:
    """A slab, cylinder or sphere after a soak of that Fourier number; it can be looked into, and rested."""

    def __init__(self, dimension: int, bath: float, fourier: float) -> None:
        self.dimension = dimension
        self.fourier = fourier
        b = 1.0 / bath
        self.fields: Fields = []  # (s, part of the mean uptake), for a short soak
        self.waves: Waves = []  # (q, part of the mean still missing), for a long one
        if fourier < EARLY:
            for s, w in contour.points(contour.octave(fourier)) if fourier > _INSTANT else ():
                g = shapes.response(dimension, cmath.sqrt(s))
                self.fields.append((s, w * cmath.exp(s * fourier) * (1.0 + b) * g / (s * (1.0 + b * g))))
            self.mean = sum(part.real for _, part in self.fields)
        else:
            for q in shapes.wave_numbers(dimension, bath, math.sqrt(40.0 / EARLY)):
                part = shapes.weight(dimension, b, q) * math.exp(-q * q * fourier)
                if part < 1e-18 and self.waves:
                    break
                self.waves.append((q, part))
            self.mean = 1.0 - sum(part for _, part in self.waves)
        self._rests: List[float] = []
        self._last: Optional[Tuple[float, Moment]] = None

    def at(self, x: float) -> float:
        """Concentration at a position when the soak ends."""
        return self.rested(x, 0.0)

    def rested(self, x: float, rest: float) -> float:
        """Concentration at a position after a rest of that Fourier number, no salt leaving."""
        if self.fields and (1.0 - x) ** 2 >= 4.0 * _UNREACHED * (self.fourier + rest):
            return 0.0
        if rest >= REST_EARLY:
            left = _resting(self.dimension, x, rest)
            total: float = self.mean + sum(map(mul, self._heights(len(left), rest), left))
            return max(total, 0.0)
        when, moment = self._last or (-1.0, None)
        if moment is None or when != rest:
            moment = self._shortly(rest) if rest > _INSTANT else self._now()
            self._last = rest, moment
        return moment.at(x)

    def _heights(self, count: int, rest: float) -> List[float]:
        """The height in the centre, when the rest begins, of as many modes of the resting piece or more."""
        found = self._rests
        if len(found) < count:
            numbers = shapes.wave_numbers(self.dimension, 0.0, math.sqrt(_DIED_OUT / rest))
            found = self._rests = found + [self._height(q) for q in numbers[len(found) : count]]
        return found

    def _height(self, q: float) -> float:
        square = q * q
        start = sum(part * p * p / (square - p * p) for p, part in self.waves)
        start += sum((part * s / (s + square)).real for s, part in self.fields)
        return 2.0 / self.dimension * start / WAVES[self.dimension](q)

    def _now(self) -> Moment:
        """The end of the soak."""
        d = self.dimension
        if self.waves:
            return Moment(d, 1.0, self._missing(0.0), [])
        return Moment(d, 0.0, [], [(q, part / shapes.response(d, q)) for q, part in _rooted(self.fields)])

    def _missing(self, later: float) -> Waves:
        d = self.dimension
        return [(q, -p * math.exp(-q * q * later) / wave_mean(d, q)) for q, p in self.waves]

    def _shortly(self, rest: float) -> Moment:
        """A short rest: what the soak would have gone on to, less what then would still have come in."""
        d = self.dimension
        ahead = [(s, w * cmath.exp(s * rest)) for s, w in contour.points(contour.octave(rest), 1)]
        heights: Fields = []
        for s, part in self.fields:
            carried = -sum(_both(w, z, s) for z, w in ahead)
            q = cmath.sqrt(s)
            heights.append((q, part / shapes.response(d, q) * carried))
        for z, w in ahead:
            q = cmath.sqrt(z)
            inflow = sum(_both(part * s, s, z) for s, part in self.fields)
            inflow += sum(part * p * p / (z + p * p) for p, part in self.waves)
            heights.append((q, -w * inflow / (z * shapes.response(d, q))))
        return Moment(d, 1.0 if self.waves else 0.0, self._missing(rest), heights)


def _rooted(fields: Fields) -> Fields:
    return [(cmath.sqrt(s), part) for s, part in fields]


def _both(value: complex, s: complex, z: complex) -> complex:
    """Value/(z − s) averaged with its mirror image in the real axis; only one half of each contour is kept."""
    return 0.5 * (value / (z - s) + value.conjugate() / (z - s.conjugate()))
