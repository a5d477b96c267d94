"""A long run of random calls, by hand: ``python tests/benchmarks/storm.py [calls] [seed]``.

Every function gets cells of every kind; the run stops at the first answer that is no cell, or at an internal fault,
and says with which seed. At the end it prints calls, errors by kind, and the slowest call.
"""

from __future__ import annotations

import collections
import pathlib
import random
import sys
import time

sys.path[:0] = [str(pathlib.Path(__file__).parents[2]), str(pathlib.Path(__file__).parents[1] / "properties")]

import cells

from brinecalc import registry


def main(calls: int = 2_000_000, seed: int = 20270305) -> None:
    pick = random.Random(seed)
    names = registry.names()
    kinds: collections.Counter[str] = collections.Counter()
    slowest = (0.0, "", ())
    start = time.perf_counter()
    for number in range(calls):
        name = names[number % len(names)]
        arguments = cells.arguments(pick, name)
        before = time.perf_counter()
        answer = registry.call(name, *arguments)
        took = time.perf_counter() - before
        if took > slowest[0]:
            slowest = (took, name, arguments)
        if not cells.is_a_cell(answer):
            sys.exit(f"call {number}, seed {seed}: {name}{arguments!r} gave {answer!r}")
        kinds[answer if isinstance(answer, str) and answer.startswith("#") else type(answer).__name__] += 1
        if answer == "#VALUE!":
            reason = registry.why(name, *arguments)
            if "internal fault" in str(reason):
                sys.exit(f"call {number}, seed {seed}: {name}{arguments!r}: {reason}")
        if (number + 1) % 100_000 == 0:
            print(f"{number + 1:,} calls, {time.perf_counter() - start:.0f} s", flush=True)
    print(f"seed {seed}: {calls:,} calls in {time.perf_counter() - start:.0f} s; {dict(kinds)}")
    print(f"slowest: {slowest[0] * 1000:.1f} ms, {slowest[1]}{slowest[2]!r}"[:400])


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:]))
