"""Speed of the time kernels, by hand: ``python tests/benchmarks/time_kernels.py``.

Prints microseconds a call, best of several runs, for kernels and through the registry, and against scipy's root
finder on the 100-term series brought to the same accuracy.
"""

from __future__ import annotations

import math
import pathlib
import sys
import timeit

sys.path.insert(0, str(pathlib.Path(__file__).parents[2]))

import numpy as np
from scipy.optimize import brentq

from brinecalc import registry
from brinecalc.science import block, diffusion, forecast, shapes, soak_log, uptake
from brinecalc.trade import pieces, soak_chart, soaks

FRACTIONS = (0.1, 0.2, 0.5, 0.8, 0.95)


def microseconds(task, number=2000):
    task()
    return min(timeit.repeat(task, number=number, repeat=5)) / number * 1e6


def inverse(shape, bath):
    for fraction in FRACTIONS:
        diffusion.fourier_for(fraction, shape, bath)
    return microseconds(lambda: [diffusion.fourier_for(f, shape, bath) for f in FRACTIONS], 400) / len(FRACTIONS)


def series(shape, bath):
    """The same inverse by scipy: 100 terms in numpy, bracketed, to the last digits."""
    dimension = diffusion.DIMENSIONS[shape]
    roots = np.array([shapes.wave_number(dimension, bath, n) for n in range(1, 101)])
    weights = np.array([shapes.weight(dimension, 1.0 / bath, q) for q in roots])
    rates = roots**2

    def solve(fraction):
        def over(t):
            return 1.0 - float(weights @ np.exp(-rates * t)) - fraction

        return brentq(over, 2e-4, 20.0, xtol=1e-16, rtol=1e-15)

    for fraction in FRACTIONS:
        assert math.isclose(solve(fraction), diffusion.fourier_for(fraction, shape, bath), rel_tol=1e-10)
    return microseconds(lambda: [solve(f) for f in FRACTIONS], 50) / len(FRACTIONS)


def cold(make):
    """The first call for a bath never met before: roots, polynomial and all."""
    baths = iter(np.linspace(0.7, 3.0, 200))
    return microseconds(lambda: make(float(next(baths))), 20)


def main():
    print("inverse kernel, mean over", ", ".join(f"{f:.0%}" for f in FRACTIONS))
    for shape in ("slab", "cylinder", "sphere"):
        for bath in (math.inf, 1.3, 0.05):
            ours = inverse(shape, bath)
            line = f"  {shape:9} bath {bath:<5g} {ours:6.1f} µs"
            if bath != 0.05:
                other = series(shape, bath)
                line += f"   scipy on 100 terms {other:7.1f} µs, {other / ours:5.0f} times"
            print(line)
    sides = (1.0, 1.5, 3.75)
    print(f"  block     large     {inverse(sides, math.inf):6.1f} µs, bath 1.3 {inverse(sides, 1.3):6.1f} µs")
    print("first call for a new bath")
    for dimension in (1, 2, 3):
        made = cold(lambda bath, d=dimension: uptake.ShapeUptake(d, bath).fourier(0.4))
        print(f"  dimension {dimension} {made:7.1f} µs")

    def new_block():
        block._known.clear()
        block.LimitedBathBlock(sides, 1.3).fourier(0.7)

    print(f"  block in a limited bath, nothing known {microseconds(new_block, 20):7.1f} µs")
    print("soak hours, from a known piece, then through the registry")
    it = pieces.piece("chicken breast", 38.0)
    for bath in (math.inf, 1.0):
        kernel = microseconds(lambda bath=bath: soaks.hours_for(it, 0.01, 0.06, bath))
        call = registry.function("BRINE_SOAK_HOURS")
        cells = ("chicken breast", 38.0, 0.01, 0.06, 4.0, "large" if math.isinf(bath) else bath)
        texts = ("chicken breast", "38 mm", "1%", "6%", 4, "large" if math.isinf(bath) else bath)
        outer, typed = microseconds(lambda: call(*cells)), microseconds(lambda: call(*texts))  # noqa: B023
        print(f"  bath {bath:<5g} {kernel:5.1f} µs, cells {outer:5.1f} µs, as text {typed:5.1f} µs")
    print("others through the registry")
    for name, cells in (
        ("UPTAKE", ("chicken breast", 38.0, 5.0, 0.05, 4.0, 1.0)),
        ("STRENGTH_FOR", ("chicken breast", 38.0, 0.01, 12.0, 4.0, 1.0)),
        ("BATH_STRENGTH", ("chicken breast", 38.0, 5.0, 0.05, 1.0)),
        ("REST_HOURS", ("chicken breast", 38.0, 5.0, 0.5)),
        ("PROFILE", ("chicken breast", 38.0, 5.0, 3.0, 0.05)),
    ):
        print(f"  {name:14} {microseconds(lambda: registry.function('BRINE_' + name)(*cells), 200):7.1f} µs")  # noqa: B023
    soak = soak_log.Soak("slab", 1e7, 0.739, 0.0015, 0.05, 1.0)
    for count in (2, 5, 10):
        hours = [i + 1.0 for i in range(count)]
        readings = [soak.reading(4e-10, t) for t in hours]
        fitted = microseconds(lambda: forecast.fit(soak, hours, readings, (1.6e-10, 4e-10, 6e-10)), 5)  # noqa: B023
        print(f"  forecast from {count:2d} readings {fitted / 1000.0:6.1f} ms")
    print(f"soak chart, {len(soak_chart.rows())} rows: {microseconds(soak_chart.rows, 1) / 1000.0:.0f} ms")


if __name__ == "__main__":
    main()
