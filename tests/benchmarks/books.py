"""Whole workbooks through the headless engine: seconds, memory, growth, and what is left above doing nothing.

One idea: the same workbook is computed with our function, with one that does nothing and with arithmetic, each in a
process of its own, so that loading and writing, which all three share, can be taken off.
"""

from __future__ import annotations

import importlib.util
import math
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from brinecalc.hosts.formulas.places import letters
from tests.benchmarks.figures import Figure
from tests.benchmarks.timing import PEAK, inside, process
from tests.hosts.toys import raw_book

SECTION = "workbooks"
FUNCTIONS = 20
WORK = {"salt": "BRINE_SALT({a},{b})", "nothing": "BRINE_NOTHING({a},{b})", "arithmetic": "{a}*{b}"}

_CALCULATE = (
    PEAK
    + """
import sys, time
from tests.benchmarks.books import book
from tests.benchmarks.calls import WithNothing
from brinecalc.hosts.headless import calculate
from brinecalc import registry
content = book(int(sys.argv[1]), int(sys.argv[2]), sys.argv[3])
registry.names()
start = time.process_time()
outcome = calculate(content, "Plan.xlsx", WithNothing())
found = {"s": time.process_time() - start, "MB": peak(), "problems": len(outcome.report.problems)}
"""
)

_PEER = (
    PEAK
    + """
import sys, time, logging
logging.disable(logging.CRITICAL)
import numpy as np
import formulas
from formulas.functions import wrap_ranges_func
from brinecalc import registry
call = registry.function("BRINE_SALT")
formulas.get_functions()["BRINE_SALT"] = wrap_ranges_func(
    lambda water, strength: call(float(np.ravel(water)[0]), float(np.ravel(strength)[0])))
start = time.process_time()
model = formulas.ExcelModel().loads(sys.argv[1]).finish()
answers = model.calculate()
spent = time.process_time() - start
one = next(value.value[0][0] for name, value in answers.items() if str(name).endswith("!C1"))
assert abs(one - call(1000 + 1 / 7, 0.0201)) < 1e-9, one
found = {"s": spent, "MB": peak()}
"""
)


def book(rows: int, columns: int, formula: str) -> bytes:
    """Rows of two numbers, each row different, and formulas beside them."""
    lines = []
    for r in range(1, rows + 1):
        text = formula.format(a=f"A{r}", b=f"B{r}").replace("&", "&amp;")
        cells = "".join(f'<c r="{letters(c + 3)}{r}"><f>{text}</f></c>' for c in range(columns))
        lines.append(
            f'<row r="{r}"><c r="A{r}"><v>{1000 + r / 7}</v></c>'
            f'<c r="B{r}"><v>{0.02 + r % 900 / 10000}</v></c>{cells}</row>'
        )
    return raw_book([("Plan", "".join(lines))])


def figures(quick: bool) -> Iterator[Figure]:
    """Growth, one function a row, the production workbook, another library on the same file."""
    yield from growth((100, 1_000) if quick else (100, 1_000, 10_000))
    yield from one_a_row(1_000 if quick else 10_000)
    yield from production()
    yield from peer()


def computed(rows: int, columns: int, work: str) -> dict[str, float]:
    """Seconds and memory of one workbook; every formula of it has to be computed."""
    found = inside(_CALCULATE, str(rows), str(columns), WORK[work], runs=1 if rows > 5_000 else 3)
    if found["problems"]:
        raise AssertionError(f"{found['problems']:.0f} formulas were not computed")
    return found


def growth(sizes: tuple[int, ...]) -> Iterator[Figure]:
    """Batches with 20 functions each; the power with which the time grows is 1 where it is linear."""
    seconds = {}
    for size in sizes:
        ours, nothing, native = (computed(size, FUNCTIONS, work) for work in ("salt", "nothing", "arithmetic"))
        goals = (12.0, 500.0) if size == 10_000 else (None, None)
        name = f"{size:,} batches of {FUNCTIONS} functions"
        yield Figure(SECTION, name, ours["s"], "s", nothing["s"], native["s"], goals[0])
        yield Figure(SECTION, f"{name}, memory", ours["MB"], "MB", nothing["MB"], native["MB"], goals[1])
        seconds[size] = ours["s"]
    for small, large in zip(sizes, sizes[1:]):
        power = math.log(seconds[large] / seconds[small]) / math.log(large / small)
        yield Figure(SECTION, f"power of growth, {small:,} to {large:,} batches", power, "", goal=1.1)


def one_a_row(rows: int) -> Iterator[Figure]:
    """A column of one function."""
    ours, nothing, native = (computed(rows, 1, work) for work in ("salt", "nothing", "arithmetic"))
    goal = rows / 10_000
    yield Figure(SECTION, f"{rows:,} rows, one BRINE_SALT each", ours["s"], "s", nothing["s"], native["s"], goal)


def production() -> Iterator[Figure]:
    """The production workbook as shipped, and with every row of its plan filled; each row a little different."""
    from brinecalc.workbook import build, example
    from brinecalc.workbook.book import MOST_BATCHES, Options

    shipped = list(example.BATCHES)
    full = [
        {**shipped[i % len(shipped)], "weight": shipped[i % len(shipped)]["weight"] * (1.0 + i // len(shipped) / 50.0)}
        for i in range(MOST_BATCHES)
    ]
    with tempfile.TemporaryDirectory() as folder:
        for batches, goal in ((shipped, None), (full, 1.5)):
            example.BATCHES[:] = batches
            try:
                content = build.build(Options(filled=True))
            finally:
                example.BATCHES[:] = shipped
            place = Path(folder) / f"{len(batches)}.xlsx"
            place.write_bytes(content)
            words = [
                sys.executable,
                "-m",
                "brinecalc",
                "calc",
                str(place),
                "-o",
                str(place.with_suffix(".out.xlsx")),
                "--overwrite",
            ]
            found = process(words, 5)
            name = f"production workbook, {len(batches)} batches"
            yield Figure(SECTION, f"{name}, brinecalc calc", found["s"], "s", goal=goal)
            yield Figure(SECTION, f"{name}, memory", found["MB"], "MB")


def peer(rows: int = 400) -> Iterator[Figure]:
    """The same file through ``formulas``, a library that computes workbooks in Python, calling the same function."""
    if importlib.util.find_spec("formulas") is None:
        print("  (the library formulas is not installed and left out)")
        return
    ours = computed(rows, 1, "salt")
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "plan.xlsx"
        place.write_bytes(book(rows, 1, WORK["salt"]))
        other = inside(_PEER, str(place), runs=1)
    yield Figure(SECTION, f"{rows} rows; native is the library formulas", ours["s"], "s", native=other["s"])
    yield Figure(SECTION, f"{rows} rows, memory", ours["MB"], "MB", native=other["MB"])
