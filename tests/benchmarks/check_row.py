"""What one production row costs to check, by hand: python tests/benchmarks/check_row.py."""

from __future__ import annotations

import sys
import timeit
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from brinecalc import registry
from brinecalc.trade import findings
from brinecalc.trade import row as rows

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


def best(call: object, number: int = 1000) -> float:
    """Microseconds a call, the best of seven rounds."""
    return min(timeit.repeat(call, number=number, repeat=7)) / number * 1e6  # type: ignore[arg-type]


def main() -> None:
    """Prints one line per kind of row."""
    print(f"{'row':<8}{'read':>8}{'worst':>8}{'all':>8}{'registry':>10}   microseconds")
    for name, row in (("quiet", QUIET), ("cured", CURED), ("sour", SOUR), ("text", TEXT)):
        head, cells = tuple(row), tuple(row.values())
        times = [
            best(lambda head=head, cells=cells: rows.read(head, cells)),
            best(lambda head=head, cells=cells: findings.worst(head, cells)),
            best(lambda head=head, cells=cells: findings.all_of(head, cells)),
            best(lambda head=head, cells=cells: registry.call("BRINE_CHECK", [head], [cells])),
        ]
        print(
            f"{name:<8}"
            + "".join(f"{t:>8.0f}" for t in times[:3])
            + f"{times[3]:>10.0f}   {findings.worst(head, cells)[:60]}"
        )


if __name__ == "__main__":
    main()
