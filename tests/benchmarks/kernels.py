"""The kernels that work hardest, and scipy on the same question brought to the same accuracy.

One idea: a goal in microseconds holds for one call on values that were read before; where scipy can answer the same
question, the figure beside it is how many times longer scipy takes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial

from brinecalc import registry
from brinecalc.science import block, chilling, diffusion, forecast, meter, scales, shapes, soak_log, solution, uptake
from brinecalc.trade import findings, pieces, soak_chart, soaks
from brinecalc.trade import row_reading as rows
from tests.benchmarks.figures import Figure
from tests.benchmarks.timing import microseconds
from tests.readings import expected_reading

SECTION = "kernels"
FRACTIONS = (0.1, 0.2, 0.5, 0.8, 0.95)
SIDES = (1.0, 1.5, 3.75)
LARGE = math.inf
TERMS = 100

QUIET = {
    "product": "pork shoulder", "weight": 10000.0, "pieces": 4.0, "thickness": 60.0, "method": "gradient",
    "water": 10000.0, "liquid": None, "strength": 0.05, "target": 0.012, "native salt": None,
    "sweetener": "brown sugar", "sweetener level": 0.02, "ingredient 1": "bay leaf", "level 1": 0.0005,
    "ingredient 2": "black peppercorns", "level 2": 0.005, "ingredient 3": None, "level 3": None, "cure": None,
    "cure method": None, "gain": None, "acid": None, "acid mass": None, "bath temperature": 4.0, "soak hours": 20.0,
    "rest hours": 4.0, "portion": 150.0,
}  # fmt: skip
CURED = {**QUIET, "cure": 40.0, "cure method": "equilibrium", "soak hours": 240.0}
SOUR = {**CURED, "acid": "citric acid", "acid mass": 5.0}
TEXT = {
    **QUIET,
    "weight": "10 kg",
    "water": "10 L",
    "strength": "5%",
    "bath temperature": "39 °F",
    "soak hours": "20 h",
}


def figures(quick: bool) -> Iterator[Figure]:
    """All kernels."""
    yield from inverse()
    yield from first_calls()
    yield from soaking()
    yield from brines()
    yield from checking()
    yield from learning()


def inverse() -> Iterator[Figure]:
    """The time for an uptake, and scipy's root finder on the series."""
    for shape in ("slab", "cylinder", "sphere"):
        for bath in (LARGE, 1.3, 0.05):
            ours = _mean(lambda f, shape=shape, bath=bath: diffusion.fourier_for(f, shape, bath))
            name = f"time for an uptake, {shape}, bath {bath:g}"
            if bath == 0.05:  # the series does not converge to the same accuracy in so small a bath
                yield Figure(SECTION, name, ours, "µs")
                continue
            solve = series(shape, bath)
            if solve is None:
                yield Figure(SECTION, name, ours, "µs")
                continue
            other = _mean(solve)
            yield Figure(SECTION, name, ours, "µs", native=other)
            yield Figure(SECTION, "  scipy's brentq on 100 terms takes", other / ours, "times", goal=10.0)
    for bath in (LARGE, 1.3):
        ours = _mean(lambda f, bath=bath: diffusion.fourier_for(f, SIDES, bath))
        yield Figure(SECTION, f"time for an uptake, block, bath {bath:g}", ours, "µs")


def _mean(solve: Callable[[float], float]) -> float:
    return microseconds(lambda: [solve(f) for f in FRACTIONS]) / len(FRACTIONS)


def series(shape: str, bath: float) -> Callable[[float], float] | None:
    """The same inverse by scipy: 100 terms in numpy, bracketed, to the last digits. None where scipy is missing."""
    try:
        import numpy as np
        from scipy.optimize import brentq
    except ImportError:
        return None
    dimension = diffusion.DIMENSIONS[shape]
    roots = np.array([shapes.wave_number(dimension, bath, n) for n in range(1, TERMS + 1)])
    weights = np.array([shapes.weight(dimension, 1.0 / bath, q) for q in roots])
    rates = roots**2

    def solve(fraction: float) -> float:
        def over(t: float) -> float:
            return 1.0 - float(weights @ np.exp(-rates * t)) - fraction

        return float(brentq(over, 2e-4, 20.0, xtol=1e-16, rtol=1e-15))

    for fraction in FRACTIONS:
        ours = diffusion.fourier_for(fraction, shape, bath)
        if not math.isclose(solve(fraction), ours, rel_tol=1e-10):
            raise AssertionError(f"scipy and the kernel differ: {shape}, bath {bath}, {fraction}")
    return solve


def first_calls() -> Iterator[Figure]:
    """A bath that was never met before: roots, polynomial and all."""
    for dimension, name in ((1, "slab"), (2, "cylinder"), (3, "sphere")):
        baths = iter(0.7 + 1e-3 * i for i in range(100_000))
        fresh = microseconds(lambda d=dimension, b=baths: uptake.ShapeUptake(d, next(b)).fourier(0.4), 0.005)
        yield Figure(SECTION, f"first time for a new bath, {name}", fresh, "µs")

    def new_block() -> None:
        block._known.clear()
        block.LimitedBathBlock(SIDES, 1.3).fourier(0.7)

    yield Figure(SECTION, "first time for a new bath, block", microseconds(new_block, 0.005), "µs")


def soaking() -> Iterator[Figure]:
    """Soak hours by kernel and registry, as numbers and as texts; rest and profile."""
    it = pieces.piece("chicken breast", 38.0)
    call = registry.function("BRINE_SOAK_HOURS")
    for bath, cell, goals in ((LARGE, "large", (15.0, 40.0)), (1.0, 1.0, (60.0, 60.0))):
        numbers = ("chicken breast", 38.0, 0.01, 0.06, 4.0, cell)
        texts = ("chicken breast", "38 mm", "1%", "6%", 4.0, cell)
        found = microseconds(lambda bath=bath: soaks.hours_for(it, 0.01, 0.06, bath))
        yield Figure(SECTION, f"soak hours, bath {cell}, kernel", found, "µs", goal=goals[0])
        for cells, word in ((numbers, "numbers"), (texts, "texts")):
            found = microseconds(lambda cells=cells: call(*cells))
            yield Figure(SECTION, f"soak hours, bath {cell}, registry, {word}", found, "µs", goal=goals[1])
    brick = pieces.piece("firm tofu", (150.0, 60.0, 40.0), shape="block")
    for bath, cell in ((LARGE, "large"), (1.0, "1")):
        task = partial(_fresh, lambda bath=bath: soaks.rest_hours(brick, 2.6, 0.5, bath))
        yield Figure(SECTION, f"rest of a new block, bath {cell}", microseconds(task, 0.002, 5) / 1e3, "ms")
    for shape in ("slab", "cylinder", "sphere"):
        round_ = pieces.piece("chicken breast", 38.0, shape=shape)
        task = partial(_fresh, lambda it=round_: soaks.rest_hours(it, 5.0, 0.5, 1.0))
        yield Figure(SECTION, f"rest of a new {shape}, bath 1", microseconds(task), "µs")
        task = partial(_fresh, lambda it=round_: soaks.profile(it, 5.0, 3.0, 0.05, 1.0, 11))
        yield Figure(SECTION, f"profile of a new {shape}, 11 points", microseconds(task), "µs")


def _fresh(task: Callable[[], object]) -> None:
    diffusion._soaked.cache_clear()
    task()


def brines() -> Iterator[Figure]:
    """Solutions, scales and instruments."""
    work: dict[str, Callable[[], object]] = {
        "density": lambda: solution.density(0.05, 4.0),
        "freezing point": lambda: solution.freezing_point(0.05),
        "saturation": lambda: solution.saturation(4.0),
        "water to salometer": lambda: scales.convert(0.05, "water", "salometer"),
        "specific gravity to water": lambda: scales.convert(1.04, "sg", "water"),
        "g/L to Baumé": lambda: scales.convert(50.0, "g/L", "baume"),
        "ice held back": lambda: chilling.ice_held_back(10000.0, 60.0, 4.0, 0.05),
    }
    for name in meter.INSTRUMENTS:
        for sugar, word in ((0.0, ""), (0.05, ", sugar")):
            shown = expected_reading(0.05, name, 4.0, sugar)
            work[f"{name}{word}"] = partial(meter.strength, shown, name, 4.0, "water", sugar)
    for what, task in work.items():
        yield Figure(SECTION, what, microseconds(task), "µs")


def checking() -> Iterator[Figure]:
    """A production row put to the rules."""
    for name, row in (("quiet", QUIET), ("cured", CURED), ("sour", SOUR), ("as text", TEXT)):
        head, cells = tuple(row), tuple(row.values())
        for what, task in (
            ("read", lambda head=head, cells=cells: rows.read(head, cells)),
            ("worst finding", lambda head=head, cells=cells: findings.worst(head, cells)),
            ("all findings", lambda head=head, cells=cells: findings.all_of(head, cells)),
            ("registry", lambda head=head, cells=cells: registry.call("BRINE_CHECK", [head], [cells])),
        ):
            yield Figure(SECTION, f"row {name}: {what}", microseconds(task), "µs")


def learning() -> Iterator[Figure]:
    """The forecast from a log, and the soak chart."""
    soak = soak_log.Soak("slab", 1e7, 0.739, 0.0015, 0.05, 1.0)
    for count in (2, 5, 10):
        hours = [i + 1.0 for i in range(count)]
        readings = [soak.reading(4e-10, t) for t in hours]
        task = partial(forecast.fit, soak, hours, readings, (1.6e-10, 4e-10, 6e-10))
        yield Figure(SECTION, f"forecast from {count} readings", microseconds(task, 0.01, 5) / 1e3, "ms")
    yield Figure(
        SECTION, f"soak chart of {len(soak_chart.rows())} rows", microseconds(soak_chart.rows, 0.01, 3) / 1e3, "ms"
    )
