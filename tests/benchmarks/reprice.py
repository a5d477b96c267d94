"""Reprices many workbooks on one and on two processors: ``python tests/benchmarks/reprice.py [BOOKS]``.

Prints the time of each, how much faster two are, and the memory that each process had at most over the run, so that a
leak would show as a slope.
"""

from __future__ import annotations

import os
import resource
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from brinecalc.workbook import pools, price_list
from brinecalc.workbook.book import Options
from brinecalc.workbook.create import create
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.reprice import Change, reprice_one


def main(count: int) -> None:
    """Makes the workbooks, each a little different, and reprices them both ways."""
    content = create(Options("metric", "A4", True)).content
    prices = price_list.read(b"name,price\nsalt,13.80\nhoney,73\nchicken breast,47\n", "prices.csv").prices
    with tempfile.TemporaryDirectory() as name:
        paths = []
        for number in range(count):
            edit = Edit(content, "Plan.xlsx")
            edit.put("Plan", 8, 6, 8.0 + number / 100)
            path = Path(name, f"Plan {number:03}.xlsx")
            path.write_bytes(edit.done())
            paths.append(str(path))
        print(f"{count} workbooks of {len(content) / 1000:.0f} kB, {os.cpu_count()} processors")
        one = timed(paths, prices, 1)
        two = timed(paths, prices, 2)
        print(f"two processors are {one / two:.2f} times as fast as one")
        memory(paths, prices)


def timed(paths: "list[str]", prices: "dict[str, price_list.Price]", jobs: int) -> float:
    """Seconds for all workbooks with that many processes; one job runs in a process of its own too."""
    began = time.perf_counter()
    changes = list(pools.run(paths, prices, jobs)) if jobs > 1 else list(_alone(paths, prices))
    seconds = time.perf_counter() - began
    assert len(changes) == len(paths)
    assert not [change for change in changes if change.problem], changes[0]
    print(f"{jobs} job{'s' if jobs > 1 else ' '}: {seconds:7.1f} s, {1000 * seconds / len(paths):6.0f} ms a workbook")
    return seconds


def _alone(paths: "list[str]", prices: "dict[str, price_list.Price]") -> "list[Change]":
    from brinecalc.workbook.reprice import reprice

    with pools._pool(1) as pool:
        return list(reprice(paths, prices, pool))


def memory(paths: "list[str]", prices: "dict[str, price_list.Price]") -> None:
    """The most memory of this process after each quarter of the workbooks, done one after the other in it."""
    quarter = max(1, len(paths) // 4)
    steps = []
    for start in range(0, len(paths), quarter):
        for path in paths[start : start + quarter]:
            reprice_one(path, prices)
        steps.append(f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB after {start + quarter}")
    print("most memory in one process: " + ", ".join(steps))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
