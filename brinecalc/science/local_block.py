"""Where in a block the salt is, along the line from the middle of its widest face to the centre.

One idea: in a large bath what is missing at a point is the product of what is missing in three slabs, and a rest
keeps that product, since each direction evens out by itself. A limited bath is a large one whose strength falls: its
answer is the large bath's, added up over the strength the bath has lost (Duhamel's theorem), with the times chosen
closer together where the bath changes fast.
"""

from __future__ import annotations

import math
from typing import Dict, List, Tuple

from brinecalc.science.block import LargeBathBlock, Lengths, LimitedBathBlock
from brinecalc.science.local import Soaked

_POINTS = 24  # of each half of the rule over the soak; 1e-8 in every bath tried, down to a thousandth of the product

Slabs = Tuple[Soaked, Soaked, Soaked]


class SoakedBlock:
    """A block after a soak of that Fourier number (on its shortest half-thickness)."""

    def __init__(self, lengths: Lengths, bath: float, fourier: float) -> None:
        self.speeds = tuple(1.0 / (length * length) for length in lengths)
        self.steps: List[Tuple[float, Slabs]] = []
        self._lacks: Tuple[float, List[float]] = (-1.0, [])
        if math.isinf(bath):
            self.mean = LargeBathBlock(lengths).fraction(fourier)
            self.steps.append((1.0, self._slabs(fourier)))
            return
        uptake = LimitedBathBlock(lengths, bath)
        self.mean = uptake.fraction(fourier)
        self.steps.append((1.0 + uptake.b, self._slabs(fourier)))
        if fourier > 0.0:
            for before, span in _graded(fourier, min(uptake.rapid, fourier)):
                lost = uptake.b * uptake.left(before)[1] * span
                self.steps.append((-lost, self._slabs(fourier - before)))

    def at(self, x: float) -> float:
        """Concentration at a position when the soak ends: 0 the centre, 1 the middle of the widest face."""
        return self.rested(x, 0.0)

    def rested(self, x: float, rest: float) -> float:
        """Concentration at a position after a rest of that Fourier number."""
        when, lacks = self._lacks
        if when != rest:
            lacks = [self._across(slabs, rest) for _, slabs in self.steps]
            self._lacks = rest, lacks
        total = 0.0
        for (share, slabs), lack in zip(self.steps, lacks):
            total += share * (1.0 - lack * (1.0 - slabs[0].rested(x, rest)))
        return max(total, 0.0)

    def _across(self, slabs: Slabs, rest: float) -> float:
        """What is missing in the middle of the two longer ways, the same at every position."""
        return (1.0 - slabs[1].rested(0.0, rest * self.speeds[1])) * (1.0 - slabs[2].rested(0.0, rest * self.speeds[2]))

    def _slabs(self, fourier: float) -> Slabs:
        made: Dict[float, Soaked] = {}
        for speed in self.speeds:
            if speed not in made:
                made[speed] = Soaked(1, math.inf, fourier * speed)
        a, b, c = self.speeds
        return made[a], made[b], made[c]


def _graded(end: float, scale: float) -> List[Tuple[float, float]]:
    """(time, weight) of a rule from 0 to `end`: Gauss in roots of time from either end, where roots are what happens.

    The first half is stretched as well, so that times near `scale` are not jumped over.
    """
    root, half = math.sqrt(scale), 0.5 * end
    top = math.asinh(math.sqrt(half) / root)
    made = []
    for point, weight in _gauss(_POINTS):
        u = 0.5 * top * (1.0 + point)
        y = root * math.sinh(u)
        made.append((y * y, weight * top * y * root * math.cosh(u)))
        y = 0.5 * math.sqrt(half) * (1.0 + point)
        made.append((end - y * y, weight * math.sqrt(half) * y))
    return made


_rules: List[Tuple[float, float]] = []


def _gauss(count: int) -> List[Tuple[float, float]]:
    """Points and weights of the Gauss-Legendre rule on -1 to 1, from the roots of the Legendre polynomial."""
    if not _rules:
        for i in range(1, count + 1):
            x = math.cos(math.pi * (i - 0.25) / (count + 0.5))
            slope, step = 1.0, 1.0
            while abs(step) > 1e-15:
                before, here = 1.0, x
                for k in range(2, count + 1):
                    before, here = here, ((2 * k - 1) * x * here - (k - 1) * before) / k
                slope = count * (x * here - before) / (x * x - 1.0)
                step = here / slope
                x -= step
            _rules.append((x, 2.0 / ((1.0 - x * x) * slope * slope)))
    return _rules
