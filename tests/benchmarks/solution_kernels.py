"""Times the kernels of brine solutions and their worksheet functions; run by hand, no test rests on it.

python tests/benchmarks/solution_kernels.py
"""

from __future__ import annotations

import timeit
from functools import partial

from brinecalc import registry
from brinecalc.science import chilling, meter, mixing, scales, solution

KERNELS = {
    "salt_mass": lambda: mixing.salt_mass(1000.0, 0.05, "water", 1.0),
    "strength": lambda: mixing.strength(50.0, 1000.0, "water", 1.0),
    "density": lambda: solution.density(0.05, 4.0),
    "freezing_point": lambda: solution.freezing_point(0.05),
    "saturation": lambda: solution.saturation(4.0),
    "convert water to salometer": lambda: scales.convert(0.05, "water", "salometer"),
    "convert sg to water": lambda: scales.convert(1.04, "sg", "water"),
    "convert g/L to baume": lambda: scales.convert(50.0, "g/L", "baume"),
    "ice_held_back": lambda: chilling.ice_held_back(10000.0, 60.0, 4.0, 0.05),
}
for name in meter.NAMES:
    for sugar, word in ((0.0, ""), (0.05, ", sugar")):
        shown = meter.expected_reading(0.05, name, 4.0, sugar)
        KERNELS[name + word] = partial(meter.strength, shown, name, 4.0, "water", sugar)
FUNCTIONS = {
    "SALT": (1000.0, 0.05),
    "STRENGTH": (50.0, 1000.0),
    "CONVERT": (40.0, "salometer", "water"),
    "DENSITY": (0.05, 4.0),
    "FREEZING": (0.05,),
    "SATURATION": (4.0,),
    "METER": (19.24, "salometer", 4.0),
    "FILL": (10000.0, 4000.0),
    "TOP_UP": (20000.0, 0.042, 0.05),
    "DILUTE": (20000.0, 0.06, 0.05),
    "ICE": (10000.0, 60.0, 4.0, 0.05),
}


def microseconds(work) -> float:
    """The best of five runs, per call."""
    work()
    timer = timeit.Timer(work)
    count = max(1, int(0.02 / max(timer.timeit(20) / 20, 1e-9)))
    return min(timer.repeat(5, count)) / count * 1e6


def main() -> None:
    """Prints one line per kernel and per worksheet function."""
    print("kernel, microseconds per call")
    for name, work in KERNELS.items():
        print(f"  {name:32} {microseconds(work):8.2f}")
    print("through the registry")
    for name, cells in FUNCTIONS.items():
        found = registry.function(name)
        print(f"  {name:32} {microseconds(lambda found=found, cells=cells: found(*cells)):8.2f}")


if __name__ == "__main__":
    main()
