"""Where in the piece the salt is: local concentration during the soak and during a rest out of the brine.

One idea: a soak is held as a sum of fields, each of which is an eigenfunction of the shape: decaying modes when the
soak is long, points of a contour when it is short. A rest without flux through the surface acts on each field by
itself. Concentrations are shares of the final one (in a small bath the surface can begin above 1), positions run
from 0 in the centre to 1 at the surface.
"""

from __future__ import annotations

import cmath
import math
from functools import lru_cache
from typing import List, Tuple

from brinecalc.science import contour, shapes
from brinecalc.science.bessel import j0_j1, scaled_i0_i1
from brinecalc.science.uptake import EARLY

REST_EARLY = 0.005
"""Fourier number of a rest below which a contour takes fewer steps than the modes of the resting piece."""

_UNREACHED = 36.0  # exponent past which salt has not come so far in, to the last digit
_AXIS = 1e-6  # nearer to the centre of a sphere than this is the centre
_FASTEST_REST = math.sqrt(40.0 / REST_EARLY)

Fields = List[Tuple[complex, complex]]


def field(dimension: int, q: complex, x: float) -> complex:
    """The field that is 1 at the surface, grows with q and solves the equation of the shape."""
    if dimension == 2:
        return cmath.exp(-q * (1.0 - x)) * scaled_i0_i1(q * x)[0] / scaled_i0_i1(q)[0]
    near, far, echo = cmath.exp(-q * (1.0 - x)), cmath.exp(-q * (1.0 + x)), cmath.exp(-2.0 * q)
    if dimension == 1:
        return (near + far) / (1.0 + echo)
    if x < _AXIS:
        return 2.0 * q * cmath.exp(-q) / (1.0 - echo)
    return (near - far) / (x * (1.0 - echo))


@lru_cache(maxsize=4096)
def wave(dimension: int, q: float, x: float) -> float:
    """The standing wave of that wave number: 1 in the centre."""
    if dimension == 1:
        return math.cos(q * x)
    if dimension == 2:
        return j0_j1(q * x)[0]
    return math.sin(q * x) / (q * x) if q * x > _AXIS else 1.0


def wave_mean(dimension: int, q: float) -> float:
    """The mean of the standing wave over the piece."""
    if dimension == 1:
        return math.sin(q) / q
    if dimension == 2:
        return 2.0 * j0_j1(q)[1] / q
    return 3.0 * (math.sin(q) - q * math.cos(q)) / (q * q * q)


class Soaked:
    """A slab, cylinder or sphere after a soak of that Fourier number; it can be looked into, and rested."""

    def __init__(self, dimension: int, bath: float, fourier: float) -> None:
        self.dimension = dimension
        self.fourier = fourier
        b = 1.0 / bath
        self.fields: Fields = []  # (s, part of the mean uptake), for a short soak
        self.waves: List[Tuple[float, float]] = []  # (q, part of the mean still missing), for a long one
        if fourier < EARLY:
            for s, w in contour.points(contour.octave(fourier)) if fourier > 0.0 else ():
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
        self._rests: List[Tuple[float, float, float]] = []

    def at(self, x: float) -> float:
        """Concentration at a position when the soak ends."""
        if self.waves:
            return max(1.0 - self._missing(x, 0.0), 0.0)
        if (1.0 - x) ** 2 >= 4.0 * _UNREACHED * self.fourier:
            return 0.0
        total = 0.0
        for s, part in self.fields:
            q = cmath.sqrt(s)
            total += (part / shapes.response(self.dimension, q) * field(self.dimension, q, x)).real
        return max(total, 0.0)

    def rested(self, x: float, rest: float) -> float:
        """Concentration at a position after a rest of that Fourier number, no salt leaving."""
        if rest <= 0.0:
            return self.at(x)
        if rest >= REST_EARLY:
            return max(self._by_rest_modes(x, rest), 0.0)
        if (1.0 - x) ** 2 >= 4.0 * _UNREACHED * (self.fourier + rest):
            return 0.0
        return max(self._by_contour(x, rest), 0.0)

    def _missing(self, x: float, later: float) -> float:
        d = self.dimension
        return sum(p * math.exp(-q * q * later) * wave(d, q, x) / wave_mean(d, q) for q, p in self.waves)

    def _by_rest_modes(self, x: float, rest: float) -> float:
        d = self.dimension
        total = self.mean
        for q, start, end in self.rest_modes():
            fall = q * q * rest
            if fall > 40.0:
                break
            total += start * math.exp(-fall) * wave(d, q, x) / end
        return total

    def rest_modes(self) -> List[Tuple[float, float, float]]:
        """(wave number, height at the surface when the rest begins, the wave's own value there)."""
        if not self._rests:
            d = self.dimension
            for q in shapes.wave_numbers(d, 0.0, _FASTEST_REST):
                square = q * q
                start = sum(part * p * p / (square - p * p) for p, part in self.waves)
                start += sum((part * s / (s + square)).real for s, part in self.fields)
                self._rests.append((q, 2.0 / d * start, wave(d, q, 1.0)))
        return self._rests

    def _by_contour(self, x: float, rest: float) -> float:
        """A short rest: what the soak would have gone on to, less what then would still have come in."""
        d = self.dimension
        total = 1.0 - self._missing(x, rest) if self.waves else 0.0
        ahead = [(s, w * cmath.exp(s * rest)) for s, w in contour.points(contour.octave(rest), 1)]
        for s, part in self.fields:
            carried = -sum(_both(w, z, s) for z, w in ahead)
            q = cmath.sqrt(s)
            total += (part / shapes.response(d, q) * field(d, q, x) * carried).real
        for z, w in ahead:
            q = cmath.sqrt(z)
            inflow = sum(_both(part * s, s, z) for s, part in self.fields)
            inflow += sum(part * p * p / (z + p * p) for p, part in self.waves)
            total -= (w * inflow / (z * shapes.response(d, q)) * field(d, q, x)).real
        return total


def _both(value: complex, s: complex, z: complex) -> complex:
    """Value/(z − s) averaged with its mirror image in the real axis; only one half of each contour is kept."""
    return 0.5 * (value / (z - s) + value.conjugate() / (z - s.conjugate()))
