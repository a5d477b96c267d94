"""How much of all it will ever take up a piece has taken up by a given time, and the time for a given share.

One idea: three forms of the same answer, each good to the last digits where it is used. Late, a few decaying modes;
early, a polynomial in the square root of time, since salt has not met itself in the middle yet; and where a small
bath changes faster than that polynomial can follow, the sum over a contour (contour.py). Times are Fourier numbers
D·t/L²; ``bath`` is water in the bath over water in the product, ``b`` its inverse.
"""

from __future__ import annotations

import cmath
import math
from math import exp
from typing import Dict, List, Sequence, Tuple

from brinecalc.science import contour, shapes

EARLY = 0.02
"""Fourier number up to which the far side cannot be felt: its echo is below 1e-21."""

Left = Tuple[float, float, float]
"""What is still to be taken up (1 at the start), the rate at which it falls, and the curvature of that fall."""

_HALF_PI_ROOT = math.sqrt(math.pi)
_SMALL_NEWTON = 1e-9  # a step this small, squared, is below the last digit
_SMALL_HALLEY = 2e-6  # the same, cubed
_SHORT = 8  # terms of the polynomial that come near enough for one more step to be the last
_FEW_STEPS = 6
_MOST_STEPS = 100  # a guard; a dozen is the most ever seen


class Uptake:
    """Mean uptake of one shape in one bath. What a shape adds: ``late`` and, for the contour, ``responses``."""

    def __init__(self, series: Sequence[float], b: float) -> None:
        self.b = b
        self.area = series[1]
        self.rapid = EARLY if b * self.area * math.sqrt(EARLY) <= 1.0 else (1.0 / (b * self.area)) ** 2
        """Fourier number up to which the polynomial is used."""
        self.early = _early_coefficients(series, b, math.sqrt(self.rapid))
        self.early_fraction = self._polynomial(math.sqrt(self.rapid))
        self._terms: Dict[int, List[contour.Point]] = {}

    def fraction(self, fourier: float) -> float:
        """Share of the final uptake reached at that Fourier number, 0 to 1."""
        if fourier <= self.rapid:
            return self._polynomial(math.sqrt(fourier))
        return 1.0 - self.late(fourier)[0]

    def left(self, fourier: float) -> Left:
        """What is left to take up at a Fourier number above 0, with rate and curvature."""
        if fourier > self.rapid:
            return self.late(fourier)
        y = math.sqrt(fourier)
        total = slope = bend = 0.0
        for c in self.early:
            bend = bend * y + 2.0 * slope
            slope = slope * y + total + c
            total = (total + c) * y
        return 1.0 - total, slope / (2.0 * y), (slope - y * bend) / (4.0 * y * fourier)

    def fourier(self, fraction: float) -> float:
        """Fourier number at which that share of the final uptake is reached; infinite for 1."""
        if fraction <= 0.0:
            return 0.0
        if fraction <= self.early_fraction:
            return self._early_fourier(fraction)
        return self._late_fourier(fraction) if fraction < 1.0 else math.inf

    def late(self, fourier: float) -> Left:
        """`left` past the reach of the polynomial."""
        raise NotImplementedError

    def responses(self, octave: int) -> Sequence[complex]:
        """The response of the shape at the contour's points for one octave."""
        raise NotImplementedError

    def terms(self, octave: int) -> List[contour.Point]:
        """(s, weight × image of the uptake) at the contour's points for one octave."""
        made = self._terms.get(octave)
        if made is None:
            b = self.b
            pairs = zip(contour.points(octave), self.responses(octave))
            made = self._terms[octave] = [(s, w * (1.0 + b) * g / (s * (1.0 + b * g))) for (s, w), g in pairs]
        return made

    def by_contour(self, fourier: float) -> Left:
        """`left` from the contour."""
        total = slope = bend = 0.0
        exponential = cmath.exp
        for s, c in self.terms(contour.octave(fourier)):
            part = c * exponential(s * fourier)
            total += part.real
            part *= s
            slope += part.real
            bend -= (part * s).real
        return max(1.0 - total, 0.0), slope, bend

    def guess(self, fraction: float) -> float:
        """A first Fourier number for a fraction: that of a flat face in the same bath, which has a closed form."""
        b = self.b
        if b * fraction < 1e-3:
            return (0.5 * _HALF_PI_ROOT * fraction / self.area) ** 2
        ratio = 2.0 * (1.0 + b) / (_HALF_PI_ROOT * (1.0 + b - b * fraction))
        return ((ratio * ratio - 4.0 / math.pi) / (2.0 * ratio * b * self.area)) ** 2

    def _late_fourier(self, fraction: float) -> float:
        """Halley's rule on the logarithm of what is left, which is convex and nearly straight."""
        left = 1.0 - fraction
        fourier = max(self.guess(fraction), self.rapid)
        for _ in range(_MOST_STEPS):
            now, rate, bend = self.late(fourier)
            if now <= 0.0:
                fourier *= 0.5
                continue
            over = math.log(now / left)
            half = 0.5 * over * (now * bend / (rate * rate) - 1.0)
            step = over * now / rate
            if half < 0.5:
                step /= 1.0 - half
            fourier = max(fourier + step, self.rapid)
            if abs(step) <= _SMALL_HALLEY * fourier:
                break
        return fourier

    def _polynomial(self, y: float) -> float:
        total = 0.0
        for c in self.early:
            total = (total + c) * y
        return total

    def _early_fourier(self, fraction: float) -> float:
        early = self.early
        y = fraction / early[-1]
        if len(early) == 1:
            return y * y
        if len(early) > 2 * _SHORT:  # most of the way with the terms that matter most, unless that leads astray
            near = _newton(early[-_SHORT:], fraction, y, _FEW_STEPS)
            if y < near <= math.sqrt(self.rapid):
                y = near
        y = _newton(early, fraction, y, _MOST_STEPS)
        return y * y


class ShapeUptake(Uptake):
    """Slab, cylinder or sphere (by dimension 1, 2, 3) in a bath of any size."""

    def __init__(self, dimension: int, bath: float) -> None:
        super().__init__(shapes.response_series(dimension), 1.0 / bath)
        self.dimension = dimension
        self.modes = shapes.modes(dimension, bath, EARLY)

    def late(self, fourier: float) -> Left:
        """The decaying modes; from the contour while there would be too many of them."""
        if fourier < EARLY:
            return self.by_contour(fourier)
        total = rate = bend = 0.0
        for speed, weight in self.modes:
            x = speed * fourier
            if x > 40.0 and total:
                break
            part = weight * exp(-x)
            total += part
            part *= speed
            rate += part
            bend += part * speed
        return total, rate, bend

    def responses(self, octave: int) -> Sequence[complex]:
        """The shape's own, the same for every bath."""
        return _responses(self.dimension, octave)

    def guess(self, fraction: float) -> float:
        """The slowest mode alone when it has taken over, two terms of the polynomial before that."""
        speed, weight = self.modes[0]
        slowest = math.log(weight / (1.0 - fraction)) / speed
        early = self.early
        if len(early) > 1:
            square = early[-1] * early[-1] + 4.0 * early[-2] * fraction
            if square > 0.0:
                return max(slowest, (2.0 * fraction / (early[-1] + math.sqrt(square))) ** 2)
        alone = super().guess(fraction) if self.rapid < EARLY else (fraction / early[-1]) ** 2
        return max(slowest, alone)


def _newton(polynomial: Sequence[float], value: float, y: float, steps: int) -> float:
    """Where a polynomial without constant, highest power first, has a value; Newton's rule from nearby."""
    for _ in range(steps):
        total = slope = 0.0
        for c in polynomial:
            slope = slope * y + total + c
            total = (total + c) * y
        step = (total - value) / slope
        y -= step
        if abs(step) <= _SMALL_NEWTON * y:
            break
    return y


_known: Dict[Tuple[int, int], Tuple[complex, ...]] = {}


def _responses(dimension: int, octave: int) -> Tuple[complex, ...]:
    """Responses of a shape on one octave's contour, the same for every bath."""
    made = _known.get((dimension, octave))
    if made is None:
        made = tuple(shapes.response(dimension, cmath.sqrt(s)) for s, _ in contour.points(octave))
        _known[(dimension, octave)] = made
    return made


def _early_coefficients(series: Sequence[float], b: float, reach: float) -> Tuple[float, ...]:
    """The polynomial in the square root of time, highest power first, as long as its terms count up to `reach`."""
    image = [0.0]
    made: List[float] = []
    power, quiet = 1.0, 0
    for k in range(1, shapes.SERIES_TERMS):
        term = (1.0 + b) * series[k] if k < len(series) else 0.0
        for j in range(1, min(k, len(series))):
            term -= b * series[j] * image[k - j]
        image.append(term)
        made.append(term / math.gamma(1.0 + 0.5 * k))
        power *= reach
        quiet = quiet + 1 if abs(made[-1]) * power <= 1e-18 * made[0] * reach else 0
        if quiet == 2:
            del made[-2:]
            break
    return tuple(reversed(made))
