"""What a log of bath readings says about how fast this soak really goes, and when it will be done.

One idea: every diffusivity explains the readings more or less well (soak_log.py); that, together with what is known of
the product beforehand, weighs the diffusivities against each other, and the finishing times follow from the weights.
Few readings decide little, and the range stays wide; it narrows as readings come in.
"""

from __future__ import annotations

import math
from typing import Dict, List, NamedTuple, Sequence, Tuple

from brinecalc.science import diffusion
from brinecalc.science.roots import rising_root
from brinecalc.science.soak_log import Explained, Soak, explain

OUTSIDE = 0.06
"""Chance the weights leave below fast, and again above slow; less than a tenth, since the weights are a model. The true
finish then lies between them at least 8 times in 10, as simulated logs show (see the tests)."""

_TAILS = 4.0
"""Degrees of freedom of what is believed about a diffusivity before the log is read, so that it may be far out: a
judgement; soak logs of many products would settle it."""
_TENTH = 1.2815515655446004  # normal deviate that leaves a tenth above it
_LEAST_DOUBT = 0.1
"""Of a natural logarithm; no product's diffusivity is known better than this: a judgement; soak logs of one product
from many animals would settle it."""
_BEYOND = 2.0  # how far past slow and fast the log may lead, in natural logarithms
_GRID = 25
_REACH = 4.5  # spreads to either side that a finer grid covers
_FINE = 2.0  # the grid is fine enough when the spread is this many of its steps
_PASSES = 5
_ROUNDED = 0.005  # thinning is told apart in these steps, so that baths of the same size come back


class Line(NamedTuple):
    """One diffusivity, its weight, how much of that is a thinned bath, and the rest of what explains the readings."""

    log_d: float
    weight: float
    thinned_weight: float
    explained: Explained


class Fit(NamedTuple):
    """The diffusivities weighed against each other, in rising order; none when nothing explains the readings."""

    soak: Soak
    lines: Tuple[Line, ...]

    @property
    def step(self) -> float:
        """The spacing of the diffusivities, as a logarithm."""
        return self.lines[1].log_d - self.lines[0].log_d


def fit(soak: Soak, hours: Sequence[float], readings: Sequence[float], believed: Tuple[float, float, float]) -> Fit:
    """Weighs the diffusivities; `believed` is the product's slow, typical and fast one at the bath's temperature."""
    slow, typical, fast = (math.log(d) for d in believed)
    least, most = slow - _BEYOND, fast + _BEYOND
    low, high = least, most
    found = Fit(soak, ())
    for _ in range(_PASSES):
        found = Fit(soak, tuple(_weigh(soak, hours, readings, (slow, typical, fast), low, high)))
        if not found.lines:
            break
        mean = sum(line.log_d * line.weight for line in found.lines)
        spread = math.sqrt(sum((line.log_d - mean) ** 2 * line.weight for line in found.lines))
        if spread > _FINE * found.step:
            break
        spread = max(spread, found.step)
        low, high = max(mean - _REACH * spread, least), min(mean + _REACH * spread, most)
    return found


def _weigh(
    soak: Soak,
    hours: Sequence[float],
    readings: Sequence[float],
    believed: Tuple[float, float, float],
    low: float,
    high: float,
) -> List[Line]:
    lines = []
    for i in range(_GRID):
        log_d = low + (high - low) * i / (_GRID - 1)
        explained = explain(soak, math.exp(log_d), hours, readings)
        prior = _belief(log_d, believed)
        lines.append(Line(log_d, prior * (explained.plain + explained.thinned), prior * explained.thinned, explained))
    total = sum(line.weight for line in lines)
    if not total > 0.0:
        return []
    return [line._replace(weight=line.weight / total, thinned_weight=line.thinned_weight / total) for line in lines]


def _belief(log_d: float, believed: Tuple[float, float, float]) -> float:
    """Weight before the log: half on either side of typical, and past slow and fast a tenth, or rather more."""
    slow, typical, fast = believed
    spread = max(typical - slow if log_d < typical else fast - typical, _LEAST_DOUBT) / _TENTH
    return float((1.0 + ((log_d - typical) / spread) ** 2 / _TAILS) ** (-0.5 * (_TAILS + 1.0))) / spread


def diffusivity(found: Fit) -> float:
    """The middle of the weighed diffusivities."""
    below = 0.0
    for line in found.lines:
        if below + line.weight >= 0.5:
            return math.exp(line.log_d + found.step * ((0.5 - below) / line.weight - 0.5))
        below += line.weight
    return math.exp(found.lines[-1].log_d)


def thinned(found: Fit) -> float:
    """The share by which water has thinned the bath, 0 while that is not the likelier explanation."""
    weight = sum(line.thinned_weight for line in found.lines)
    shares = sum(line.thinned_weight * line.explained.share for line in found.lines)
    return shares / weight if weight > 0.5 else 0.0


def doubtful(found: Fit) -> int:
    """The number of the reading (from 1) that is more likely wrong than not, 0 for none."""
    count = len(found.lines[0].explained.wrong)
    chances = [sum(line.weight * line.explained.wrong[i] for line in found.lines) for i in range(count)]
    worst = max(range(count), key=chances.__getitem__)
    return worst + 1 if chances[worst] > 0.5 else 0


def finishes(found: Fit, target: float, shares: Sequence[float]) -> List[float]:
    """The hours from the start of the soak by which it is done with each of those probabilities; may be infinite."""
    if target == found.soak.water * found.soak.native:
        return [0.0 for _ in shares]
    parts = _finishing_parts(found, target)
    step = found.step

    def done_by(log_hours: float) -> float:
        return sum(weight * min(max((log_hours - middle) / step + 0.5, 0.0), 1.0) for middle, weight in parts)

    if not parts:
        return [math.inf for _ in shares]
    low = min(middle for middle, _ in parts) - step
    span = max(middle for middle, _ in parts) + step - low
    reached = sum(weight for _, weight in parts)

    def when(share: float) -> float:
        if reached <= share:
            return math.inf
        return math.exp(low + span * rising_root(lambda x: done_by(low + span * x) - share, 0.0, 1.0))

    return [when(share) for share in shares]


def _finishing_parts(found: Fit, target: float) -> List[Tuple[float, float]]:
    """(logarithm of the hours to the target, weight) of each diffusivity, with the bath even and with it thinned."""
    soak = found.soak
    known: Dict[float, float] = {}

    def finish(share: float) -> float:
        share = min(round(share / _ROUNDED) * _ROUNDED, 0.9)
        if share not in known:
            known[share] = soak.thin(share).finish(target)
        return known[share]

    parts: List[Tuple[float, float]] = []
    for line in found.lines:
        even, late, share = finish(0.0), finish(line.explained.share), line.explained.share
        if line.explained.since > 0.0:  # thinned later, it has lost only part of that
            since = max(late - math.exp(line.log_d) * soak.pace * line.explained.since, 0.0)
            part = diffusion.uptake(since, soak.shape, soak.a) / diffusion.uptake(late, soak.shape, soak.a)
            late = finish(share * part)
        for fourier, weight in ((even, line.weight - line.thinned_weight), (late, line.thinned_weight)):
            if 0.0 < fourier < math.inf:
                parts.append((math.log(fourier / soak.pace) - line.log_d, weight))
    return parts
