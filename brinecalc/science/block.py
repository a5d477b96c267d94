"""Uptake of a rectangular block, salted from all six faces, in a large bath or in a stirred bath of limited volume.

One idea: in a large bath the three directions do not know of each other, so what is left to take up is the product of
what three slabs have left (Newman's rule). A limited bath couples them; there the block enters only through its
response, which is the Laplace image of that product (Duhamel's theorem). The image is integrated along three rays of
complex time, where the product is still simple to work out and the integrand dies quickly. The points of the rays
move with the octave of time, so their exponentials are made once for all blocks.
Lengths are the three half-thicknesses, the shortest being 1.
"""

from __future__ import annotations

import cmath
import math
from functools import cache
from typing import Dict, List, Sequence, Tuple

from brinecalc.science import contour
from brinecalc.science.uptake import Left, ShapeUptake, Uptake

Lengths = Tuple[float, float, float]

_RAYS = (0.2, 0.6, 1.0)  # angles of complex time; every point of the contour has one near half its own angle
_SPACING, _FROM, _TO = 0.08, -2.8, 5.5  # of the double-exponential rule along a ray; good to 1e-12
_CENTRE = 0.04  # where the rule is densest, in units of the octave's end
_UNFELT = 0.015  # complex time up to which a slab is still two separate faces, to 1e-15
_FINISHED = 16.0  # Fourier number past which the shortest way alone leaves less than a double can tell
_MEMORY = 128


def relative(lengths: Sequence[float]) -> Lengths:
    """The half-thicknesses over the shortest, in rising order."""
    a, b, c = sorted(lengths)
    return 1.0, b / a, c / a


class LargeBathBlock(Uptake):
    """A block in a large bath."""

    def __init__(self, lengths: Lengths) -> None:
        super().__init__(_series(lengths), 0.0)
        self.slab = ShapeUptake(1, math.inf)
        self.speeds = tuple(1.0 / (length * length) for length in lengths)

    def late(self, fourier: float) -> Left:
        """The product of what three slabs have left, by the rule for derivatives of a product."""
        total, rate, spread = 1.0, 0.0, 0.0
        for speed in self.speeds:
            left, slope, bend = self.slab.left(fourier * speed)
            if left <= 0.0:
                return 0.0, 0.0, 0.0
            slope *= speed / left
            rate += slope
            spread += bend * speed * speed / left - slope * slope
            total *= left
        return total, total * rate, total * (rate * rate + spread)

    def guess(self, fraction: float) -> float:
        """Between what the faces would do alone and what the slowest mode says."""
        rate = sum(self.speeds) * self.slab.modes[0][0]
        slowest = math.log(self.slab.modes[0][1] ** 3 / (1.0 - fraction)) / rate
        return max(slowest, super().guess(fraction))


class LimitedBathBlock(Uptake):
    """A block in a stirred bath of limited volume."""

    def __init__(self, lengths: Lengths, bath: float) -> None:
        super().__init__(_series(lengths), 1.0 / bath)
        self.lengths = lengths

    def late(self, fourier: float) -> Left:
        """From the contour, until nothing is left."""
        return self.by_contour(fourier) if fourier < _FINISHED else (0.0, 0.0, 0.0)

    def responses(self, octave: int) -> Sequence[complex]:
        """From the rays of complex time."""
        return _responses(self.lengths, octave)


def _series(lengths: Lengths) -> Tuple[float, ...]:
    """The response in falling powers of q while no face feels another: exact, from the product of three flat faces."""
    a, b, c = (1.0 / length for length in lengths)
    return 0.0, a + b + c, -4.0 / math.pi * (a * b + a * c + b * c), 6.0 / math.pi * a * b * c


def _rule() -> Tuple[Tuple[complex, ...], ...]:
    """Complex times of each ray, in units of the octave's end."""
    count = int((_TO - _FROM) / _SPACING) + 1
    xs = [_FROM + _SPACING * i for i in range(count)]
    lengths = [_CENTRE * math.exp(x - math.exp(-x)) for x in xs]
    return tuple(tuple(length * cmath.exp(-1j * angle) for length in lengths) for angle in _RAYS)


_TIMES = _rule()


@cache
def _kernel() -> List[Tuple[int, Tuple[complex, ...]]]:
    """For each point of the contour: its ray, and s·exp(−s·t)·dt at the ray's times."""
    made = []
    for s, _ in contour.points(0):
        angle = 0.5 * cmath.phase(s)
        ray = min(range(len(_RAYS)), key=lambda i: abs(_RAYS[i] - angle))
        weights = []
        for i, t in enumerate(_TIMES[ray]):
            step = _SPACING * (1.0 + math.exp(-(_FROM + _SPACING * i)))
            weights.append(s * cmath.exp(-s * t) * t * step)
        made.append((ray, tuple(weights)))
    return made


_known: Dict[Tuple[Lengths, int], Tuple[complex, ...]] = {}


def _responses(lengths: Lengths, octave: int) -> Tuple[complex, ...]:
    """The block's response on one octave's contour, the same for every bath."""
    key = (lengths, octave)
    made = _known.get(key)
    if made is None:
        if len(_known) >= _MEMORY:
            _known.clear()
        end = math.ldexp(1.0, octave)
        steps = [[_step_response(t * end, lengths) for t in times] for times in _TIMES]
        made = _known[key] = tuple(sum((w * f for w, f in zip(weights, steps[ray])), 0j) for ray, weights in _kernel())
    return made


def _step_response(time: complex, lengths: Lengths) -> complex:
    """Uptake in a large bath at a complex time, by the product rule written so that small values keep their digits."""
    total = 0j
    for length in lengths:
        taken = _slab(time / (length * length))
        total += taken - total * taken
    return total


def _slab(time: complex) -> complex:
    """Uptake of a slab in a large bath at a complex time within a right angle of the real axis."""
    if abs(time) < _UNFELT:
        return 2.0 * cmath.sqrt(time / math.pi)
    part = cmath.exp(-0.25 * math.pi * math.pi * time)
    ratio = growth = part**8
    left, n = 0j, 1
    while abs(part) > 1e-17:
        left += part / (n * n)
        part *= ratio
        ratio *= growth
        n += 2
    return 1.0 - 8.0 / (math.pi * math.pi) * left
