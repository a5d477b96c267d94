"""Bessel functions of orders 0 and 1, as far as diffusion in a cylinder needs them.

One idea: below a fixed argument the recurrence is run downwards from an order where the function has died out,
and the sum of all orders, which is known, sets the scale; above it the large-argument series is run until its terms
vanish. Both are good to the last digits of a double, and need no table of fitted coefficients.
"""

from __future__ import annotations

import cmath
import math
from typing import List, Tuple

_FAR = 20.0  # from here the large-argument series reaches 1e-17 before its terms grow again
_TERMS = 48
_TINY = 1e-17


def _large_argument(order: int) -> Tuple[float, ...]:
    """Coefficients of the large-argument series, in falling powers of the argument, all signs positive."""
    made = [1.0]
    for k in range(1, _TERMS):
        made.append(made[-1] * (4 * order * order - (2 * k - 1) ** 2) / (8.0 * k))
    return tuple(made)


_A0, _A1 = _large_argument(0), _large_argument(1)


def j0_j1(x: float) -> Tuple[float, float]:
    """J0(x) and J1(x) for x at or above 0."""
    return _hankel(x) if x >= _FAR else _downwards(x)


def _downwards(x: float) -> Tuple[float, float]:
    if x < 1e-8:
        return 1.0, 0.5 * x
    order = 2 * (int(x) + 16)
    above, here, total = 0.0, 1e-250, 0.0
    for k in range(order, 0, -1):
        above, here = here, 2.0 * k / x * here - above
        if k % 2 and k > 1:
            total += here  # order k − 1, even
    total = 2.0 * total + here
    return here / total, above / total


def _hankel(x: float) -> Tuple[float, float]:
    waves = []
    for series in (_A0, _A1):
        even, odd, power = 0.0, 0.0, 1.0
        for k, a in enumerate(series):
            term = a * power
            if abs(term) < _TINY:
                break
            if k % 4 == 0:
                even += term
            elif k % 4 == 1:
                odd += term
            elif k % 4 == 2:
                even -= term
            else:
                odd -= term
            power /= x
        waves.append((even, odd))
    scale = 1.0 / math.sqrt(math.pi * x)
    c, s = math.cos(x), math.sin(x)
    (p0, q0), (p1, q1) = waves
    return scale * (p0 * (c + s) - q0 * (s - c)), scale * (p1 * (s - c) + q1 * (c + s))


def scaled_i0_i1(z: complex) -> Tuple[complex, complex]:
    """exp(−z)·I0(z) and exp(−z)·I1(z) for a complex z with positive real part."""
    if abs(z) >= _FAR:
        scale = 1.0 / cmath.sqrt(2.0 * math.pi * z)
        i0, i1 = _falling(_A0, z), _falling(_A1, z)
        if z.real < _FAR:  # towards the imaginary axis the falling exponential counts as well
            echo = cmath.exp(-2.0 * z) * (1j if z.imag >= 0.0 else -1j)
            i0 += echo * _falling(_A0, -z)
            i1 -= echo * _falling(_A1, -z)
        return scale * i0, scale * i1
    if abs(z) < 1e-8:
        return cmath.exp(-z), 0.5 * z
    order = 2 * (int(abs(z)) + 14)
    above, here, total = 0j, 1e-250 + 0j, 0j
    for k in range(order, 0, -1):
        above, here = here, above + 2.0 * k / z * here
        total += above
    total = 2.0 * total + here
    return here / total, above / total


def _falling(series: Tuple[float, ...], z: complex) -> complex:
    total, power = 0j, 1.0 + 0j
    for a in series:
        term = a * power
        total += term
        if abs(term) < _TINY:
            break
        power /= -z
    return total


def quotient_series(terms: int) -> List[float]:
    """Coefficients of I1(z)/I0(z) in falling powers of z, beginning with 1."""
    made: List[float] = []
    for k in range(terms):
        top = _A1[k] if k % 2 == 0 else -_A1[k]
        for j in range(1, k + 1):
            top -= (_A0[j] if j % 2 == 0 else -_A0[j]) * made[k - j]
        made.append(top)
    return made
