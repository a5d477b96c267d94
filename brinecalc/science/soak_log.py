"""How well a diffusivity explains a log of bath readings, with everything else that may have moved the meter.

One idea: besides uptake four things move a reading, and each is a rival explanation that takes its share of the
weight: noise of a size learnt from the log, a meter that is out by a constant factor, a bath thinned by ice or drip
(at the start, or between two readings), and one reading that is simply wrong. For one diffusivity all of it is closed
form: the meter's factor and the thinning are integrated out, the rest is summed over.
"""

from __future__ import annotations

import math
from math import erfc, exp, sqrt
from typing import List, NamedTuple, Sequence, Tuple

from brinecalc.science import diffusion, soaking

_NOISE = ((0.0015, 0.1), (0.003, 0.2), (0.006, 0.3), (0.012, 0.25), (0.024, 0.15))
"""Sizes and weights of a reading's error. With the figures below what is believed before the log is read, a judgement:
kitchen salt meters repeat to about half a per cent of the reading and are out by about one per cent; every third bath
is thinned by melting ice, condensate or drip. Logs of one bath by two meters would settle it."""
_NOISE_UNIT = 0.006  # only keeps the numbers in range
_METER = 0.01  # spread of a meter's constant factor
_THINNED = 0.08  # spread of how much a bath is thinned, when it is
_CHANCES = (0.7, 0.2, 0.1)  # bath not thinned, thinned at the start, thinned between two readings
_WRONG = 0.04  # chance that a reading is simply wrong
_WRONG_WIDTH = 0.5  # and then how far it may lie, in units of the strength
_ASTRAY = _WRONG / _WRONG_WIDTH
_MOST_STARTS = 8  # of thinning between readings that are told apart
_METER_KNOWN, _THINNED_KNOWN = 1.0 / (_METER * _METER), 1.0 / (_THINNED * _THINNED)  # how well, before any reading
_SPREADS = _METER * _THINNED
_ROOT_2, _ROOT_2_PI = sqrt(2.0), sqrt(2.0 * math.pi)

Sums = Tuple[float, float, float, float, float, float]
"""Products of what the meter's factor moves (p), what thinning moves (m), what is off (y): pp, pm, mm, py, my, yy."""


class Soak(NamedTuple):
    """The soak a log belongs to. `pace` is the Fourier number per hour for a diffusivity of 1 m²/s."""

    shape: diffusion.Shape
    pace: float
    water: float
    native: float
    strength: float
    bath: float

    @property
    def a(self) -> float:
        """Water in the bath over water in the product."""
        return self.bath / self.water

    @property
    def end(self) -> float:
        """Salt per water where bath and product end."""
        return soaking.final(self.native, self.strength, self.a)

    def thin(self, share: float) -> Soak:
        """The same soak in a bath that water has thinned: weaker by that share, and so much larger."""
        return self._replace(strength=self.strength * (1.0 - share), bath=self.bath / (1.0 - share))

    def reading(self, diffusivity: float, hours: float) -> float:
        """What the bath should read."""
        return self.reading_at(self.taken_up(diffusivity, hours))

    def taken_up(self, diffusivity: float, hours: float) -> float:
        """The share of its final uptake that the product has by then."""
        return diffusion.uptake(diffusivity * self.pace * hours, self.shape, self.a)

    def reading_at(self, fraction: float) -> float:
        """What the bath should read when the product has that share of its final uptake."""
        return soaking.left_in_bath(self.strength, self.water, self.native, self.end, fraction, self.bath)

    def finish(self, target: float) -> float:
        """Fourier number at which the average is `target`; infinite when the bath cannot get there."""
        end = self.end
        if target == self.water * self.native:
            return 0.0
        fraction = soaking.fraction_of_way(self.water, self.native, end, target) if end != self.native else 1.0
        return diffusion.fourier_for(fraction, self.shape, self.a) if 0.0 <= fraction < 1.0 else math.inf


class Explained(NamedTuple):
    """What explains the readings at one diffusivity: the evidence for an even bath and for a thinned one, and more."""

    plain: float
    thinned: float
    share: float
    """By how much the bath is thinned, if it is."""
    since: float
    """Hours at which it was."""
    wrong: Tuple[float, ...]
    """The chance of each reading being wrong."""


def explain(soak: Soak, diffusivity: float, hours: Sequence[float], readings: Sequence[float]) -> Explained:
    """Weighs the rival explanations of what a diffusivity leaves unexplained."""
    starts = _starts(hours)
    return _weigh(_off(soak, diffusivity, hours, readings, starts), starts, len(hours))


def _starts(hours: Sequence[float]) -> List[float]:
    """Times at which the bath may have been thinned: at the start, or half-way between two readings."""
    between = [0.5 * (a + b) for a, b in zip(hours, hours[1:])]
    while len(between) > _MOST_STARTS:
        between = between[::2]
    return [0.0, *between]


def _off(
    soak: Soak, diffusivity: float, hours: Sequence[float], readings: Sequence[float], starts: Sequence[float]
) -> List[List[Sums]]:
    """What is off, against what a meter that is out would move, alone and together with a bath thinned at each start.

    Products, reading by reading, in units of the strength. Water added to the bath lowers a reading by its share at
    once; later a part comes back, since a weaker bath loses less: the part a fresh soak would have taken up since.
    """
    a = soak.a
    unit = max(soak.strength, soak.end)
    taken_up = [soak.taken_up(diffusivity, t) for t in hours]
    expected = [soak.reading_at(fraction) / unit for fraction in taken_up]
    off = [r / unit - p for r, p in zip(readings, expected)]
    made: List[List[Sums]] = [[(p * p, 0.0, 0.0, p * y, 0.0, y * y) for p, y in zip(expected, off)]]
    for start in starts:
        terms = []
        for t, p, y, fraction in zip(hours, expected, off, taken_up):
            m = 0.0
            if t >= start:
                fresh = soak.taken_up(diffusivity, t - start) if start else fraction
                m = -p * (1.0 - fresh / (1.0 + a))
            terms.append((p * p, p * m, m * m, p * y, m * y, y * y))
        made.append(terms)
    return made


def _weigh(rivals: Sequence[Sequence[Sums]], starts: Sequence[float], count: int) -> Explained:
    plain = thinned = shares = times = 0.0
    wrong = [0.0] * count
    even, *late = (_cases(terms, number < 2) for number, terms in enumerate(rivals))
    for size, weight in _NOISE:
        variance = size * size
        every, one_less = (_NOISE_UNIT / size) ** count, (_NOISE_UNIT / size) ** (count - 1)
        chance = weight * _CHANCES[0]
        for out, sums in even:
            evidence = chance * (_even(sums, variance, every) if out < 0 else _even(sums, variance, one_less) * _ASTRAY)
            plain += evidence
            if out >= 0:
                wrong[out] += evidence
        for number, cases in enumerate(late):
            chance = weight * (_CHANCES[1] if number == 0 else _CHANCES[2] / (len(starts) - 1))
            for out, sums in cases:
                likely, share = _thinned(sums, variance, every if out < 0 else one_less)
                evidence = chance * (likely if out < 0 else likely * _ASTRAY)
                thinned += evidence
                shares += evidence * share
                times += evidence * starts[number]
                if out >= 0:
                    wrong[out] += evidence
    return _explained(plain, thinned, shares, times, wrong)


def _explained(plain: float, thinned: float, shares: float, times: float, wrong: Sequence[float]) -> Explained:
    every = plain + thinned
    chances = tuple(w / every if every > 0.0 else 0.0 for w in wrong)
    if not thinned > 0.0:
        return Explained(plain, 0.0, 0.0, 0.0, chances)
    return Explained(plain, thinned, shares / thinned, times / thinned, chances)


def _cases(terms: Sequence[Sums], may_be_wrong: bool) -> List[Tuple[int, Sums]]:
    """The sums over all readings, under -1, and over all but each one, under its place, for that one may be wrong."""
    pp, pm, mm, py, my, yy = total = tuple(sum(column) for column in zip(*terms))
    cases = [(-1, total)]
    for out, (a, b, c, d, e, f) in enumerate(terms if may_be_wrong else ()):
        cases.append((out, (pp - a, pm - b, mm - c, py - d, my - e, yy - f)))
    return cases


def _even(sums: Sums, variance: float, scale: float) -> float:
    """How likely the readings of an even bath are for noise of that variance: `_thinned` where thinning moves nothing.

    The meter's factor is normal beforehand and integrated out.
    """
    pp, _, _, py, _, yy = sums
    py /= variance
    volume = (pp / variance + _METER_KNOWN) * _THINNED_KNOWN
    exponent = 0.5 * (_THINNED_KNOWN * py * py / volume - yy / variance)
    return scale / (_SPREADS * sqrt(volume)) * exp(max(exponent, -700.0))


def _thinned(sums: Sums, variance: float, scale: float) -> Tuple[float, float]:
    """How likely the readings of a thinned bath are for noise of that variance, and the mean share of the thinning.

    The meter's factor and the thinning are normal beforehand, the thinning above 0; both are integrated out.
    """
    pp, pm, mm, py, my, yy = sums
    pp = pp / variance + _METER_KNOWN
    mm = mm / variance + _THINNED_KNOWN
    pm, py, my, yy = pm / variance, py / variance, my / variance, yy / variance
    volume = pp * mm - pm * pm
    mean = (pp * my - pm * py) / volume
    spread = sqrt(pp / volume)
    deviate = mean / spread
    above = 0.5 * erfc(-deviate / _ROOT_2)
    if above < 1e-12:
        return 0.0, 0.0
    exponent = 0.5 * ((mm * py - pm * my) * py / volume + mean * my - yy)
    likely = scale / (_SPREADS * sqrt(volume)) * exp(max(exponent, -700.0))
    density = exp(-0.5 * deviate * deviate) / _ROOT_2_PI
    return 2.0 * above * likely, mean + spread * density / above
