"""Where a rising function takes a given value, when nothing is known but the function and two ends.

One idea: keep the answer between two points, guess by inverse quadratic interpolation where that is safe and by
halving where it is not (Chandrupatla's rule), and stop only when the two points cannot be brought closer, so
that every host comes to the same digits.
"""

from __future__ import annotations

from typing import Callable

_CLOSEST = 4e-16  # neighbours of a double differ by 1.1e-16 to 2.2e-16 of it


def rising_root(function: Callable[[float], float], low: float, high: float) -> float:
    """The x in [low, high] where `function`, negative at `low` and positive at `high`, passes through 0."""
    f_low, f_high = function(low), function(high)
    if f_low >= 0.0:
        return low
    if f_high <= 0.0:
        return high
    a, b, fa, fb = high, low, f_high, f_low
    share = 0.5
    while True:
        x = a + share * (b - a)
        fx = function(x)
        if fx == 0.0:
            return x
        if (fx > 0.0) == (fa > 0.0):
            c, fc = a, fa
        else:
            c, b, fc, fb = b, a, fb, fa
        a, fa = x, fx
        best = a if abs(fa) < abs(fb) else b
        width = abs(b - a)
        limit = _CLOSEST * abs(best)
        if width <= 2.0 * limit or width < 1e-300:
            return best
        xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
        if phi * phi < xi and (1.0 - phi) ** 2 < 1.0 - xi:
            share = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        else:
            share = 0.5
        least = limit / width
        share = min(1.0 - least, max(least, share))
