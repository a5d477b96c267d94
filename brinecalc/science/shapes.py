"""What a slab, a cylinder and a sphere mean for salt on its way in: wave numbers, and the response to a step.

One idea: a shape counts only through its response g, the Laplace image of its mean concentration when the surface is
held at one; q is the square root of the Laplace variable times time constant. Everything else follows: a stirred bath
of capacity ratio ``bath`` (water in the bath over water in the product) turns g into (1 + b)·g/(1 + b·g), b = 1/bath,
whose poles −q² are the decaying modes, and the falling powers of q in g are the behaviour at short times. A piece
that rests out of the brine is a piece in a bath of no capacity, so its modes are the same wave numbers at bath 0.
Shapes go by their dimension here: 1 slab (also one face), 2 cylinder, 3 sphere.
"""

from __future__ import annotations

import cmath
import math
from typing import Dict, List, Tuple

from brinecalc.science.bessel import j0_j1, quotient_series, scaled_i0_i1

SERIES_TERMS = 48
_MEMORY = 512

Mode = Tuple[float, float]


def response(dimension: int, q: complex) -> complex:
    """Mean over the piece, times s, for a surface held at one: 1 at q = 0, dimension/q for large q."""
    if dimension == 2:
        i0, i1 = scaled_i0_i1(q)
        return 2.0 * i1 / (q * i0)
    echo = cmath.exp(-2.0 * q)
    if dimension == 1:
        return (1.0 - echo) / ((1.0 + echo) * q)
    return 3.0 * ((1.0 + echo) / (1.0 - echo) * q - 1.0) / (q * q)


_series: Dict[int, Tuple[float, ...]] = {}


def response_series(dimension: int) -> Tuple[float, ...]:
    """The response in falling powers of q (the constant first), echoes from the far side left out."""
    made = _series.get(dimension)
    if made is None:
        if dimension == 1:
            made = (0.0, 1.0)
        elif dimension == 2:
            made = (0.0, *(2.0 * a for a in quotient_series(SERIES_TERMS)))
        else:
            made = (0.0, 3.0, -3.0)
        _series[dimension] = made
    return made


def wave_number(dimension: int, bath: float, n: int) -> float:
    """The n-th root q of bath + g = 0 (n from 1): bath 0 is a piece at rest, infinity a large bath."""
    if dimension == 2:
        return _cylinder_wave_number(bath, n)
    base = n * math.pi
    if bath == 0.0 and dimension == 1:
        return base
    if math.isinf(bath):
        return base - 0.5 * math.pi if dimension == 1 else base
    q = base
    while True:
        if dimension == 1:
            turn = bath * q
            miss = q + math.atan(turn) - base
            slope = 1.0 + bath / (1.0 + turn * turn)
        else:
            turn = 3.0 + bath * q * q
            miss = q - math.atan2(3.0 * q, turn) - base
            slope = 1.0 - 3.0 * (3.0 - bath * q * q) / (turn * turn + 9.0 * q * q)
        step = miss / slope
        q -= step
        if abs(step) <= 1e-9 * q:
            return q


def _cylinder_wave_number(bath: float, n: int) -> float:
    """Root of bath·q·J0(q) + 2·J1(q), found on the phase of the pair, which is nearly straight."""
    large = math.isinf(bath)
    q = (n - 0.25) * math.pi if large else n * math.pi + 0.25 * math.pi - math.atan(0.5 * bath * (n - 0.25) * math.pi)
    while True:
        j0, j1 = j0_j1(q)
        if large:
            c, s, turning = 0.0, 1.0, 0.0
        else:
            tilt = math.atan2(bath * q, 2.0)
            c, s, turning = math.cos(tilt), math.sin(tilt), 2.0 * bath / (4.0 + bath * bath * q * q)
        miss = math.atan((j1 * c + j0 * s) / (j0 * c - j1 * s))
        step = miss / (1.0 - j0 * j1 / (q * (j0 * j0 + j1 * j1)) + turning)
        q -= step
        if abs(step) <= 1e-9 * q:
            return q


_found: Dict[Tuple[int, float], List[float]] = {}


def wave_numbers(dimension: int, bath: float, highest: float) -> List[float]:
    """All wave numbers up to the first one past `highest`; kept for the next time."""
    key = (dimension, bath)
    found = _found.get(key)
    if found is None or found[-1] <= highest:
        found = list(found or ())
        while not found or found[-1] <= highest:
            found.append(wave_number(dimension, bath, len(found) + 1))
        if len(_found) >= _MEMORY:
            _found.clear()
        _found[key] = found
    return found


def weight(dimension: int, b: float, q: float) -> float:
    """Share of a mode in what is still to be taken up at the start, b = 1/bath."""
    return 2.0 * dimension * (1.0 + b) / (dimension * dimension * b * (1.0 + b) + q * q)


def modes(dimension: int, bath: float, earliest: float) -> Tuple[Mode, ...]:
    """(rate, weight) of every mode that still counts at Fourier number `earliest`, the slowest first."""
    b = 1.0 / bath
    highest = math.sqrt(40.0 / earliest)
    return tuple((q * q, weight(dimension, b, q)) for q in wave_numbers(dimension, bath, highest))
