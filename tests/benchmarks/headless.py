"""What the headless engine costs. Run by hand: python tests/benchmarks/headless.py [--save FILE] [--quick]

Each figure stands beside one of a function that does nothing, measured in the same run, so that the ratio tells more
than the seconds of one machine.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import subprocess
import sys
import time
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[2]))

from brinecalc.hosts.formulas.places import letters
from brinecalc.hosts.headless import calculate  # noqa: F401  the process that measures it calls it from here
from brinecalc.hosts.headless.engine import Engine
from brinecalc.hosts.headless.library import RegistryLibrary
from tests.hosts.toys import raw_book

WORK = {
    "BRINE_SALT": "BRINE_SALT({a},{b})",
    "BRINE_STRENGTH": "BRINE_STRENGTH({b}*1000,{a})",
    "BRINE_EQUILIBRIUM_SALT": "BRINE_EQUILIBRIUM_SALT({a},{a},1.5%)",
    "BRINE_DENSITY": "BRINE_DENSITY({b})",
    "BRINE_SWEETENER": "BRINE_SWEETENER({a},{b})",
    "BRINE_UNIT": 'BRINE_UNIT({a},"g","oz")',
    "BRINE_SOAK_HOURS": 'BRINE_SOAK_HOURS("chicken breast",20+{a}/1000,1%,6%)',
}


class WithNothing(RegistryLibrary):
    """The registry, and a function that does nothing."""

    def function(self, name):
        return (lambda *cells: 1.0) if name == "BRINE_NOTHING" else super().function(name)

    def unknown(self, name):
        return None if name == "BRINE_NOTHING" else super().unknown(name)

    def by_cell(self, name, index):
        return name != "BRINE_NOTHING" and super().by_cell(name, index)

    def gives_table(self, name):
        return name != "BRINE_NOTHING" and super().gives_table(name)


def book(rows: int, columns: int, formula: str) -> bytes:
    """Rows of two numbers, each row different, and formulas beside them."""
    lines = []
    for r in range(1, rows + 1):
        cells = "".join(
            f'<c r="{letters(c + 3)}{r}"><f>{formula.format(a=f"A{r}", b=f"B{r}").replace("&", "&amp;")}</f></c>'
            for c in range(columns)
        )
        lines.append(
            f'<row r="{r}"><c r="A{r}"><v>{1000 + r / 7}</v></c>'
            f'<c r="B{r}"><v>{0.02 + r % 900 / 10000}</v></c>{cells}</row>'
        )
    return raw_book([("Plan", "".join(lines))])


def per_call(formula: str, calls: int = 20_000) -> float:
    """Microseconds of one call in the engine, loading and writing left out; the best of three."""
    best = float("inf")
    name = formula.partition("(")[0]
    for _ in range(3):
        engine = Engine(WithNothing())
        engine.workbook.add_sheet("Plan")
        engine.use([name])
        data = [[1000 + r / 7, 0.02 + r % 900 / 10000] for r in range(1, calls + 1)]
        engine.workbook.set_values_batch("Plan", 1, 1, data)
        formulas = [["=" + formula.format(a=f"A{r}", b=f"B{r}")] for r in range(1, calls + 1)]
        engine.workbook.set_formulas_batch("Plan", 1, 3, formulas)
        start = time.process_time()
        engine.compute()
        best = min(best, time.process_time() - start)
    return best / calls * 1e6


def whole(rows: int, columns: int, formula: str) -> dict:
    """Seconds and memory of computing a workbook, in a process of its own."""
    script = (
        "import sys, time; sys.path[:0] = [sys.argv[1]]\n"
        "from tests.benchmarks import headless as h\n"
        "content = h.book(int(sys.argv[2]), int(sys.argv[3]), sys.argv[4])\n"
        "before = time.process_time(); clock = time.perf_counter()\n"
        "outcome = h.calculate(content, 'Plan.xlsx', h.WithNothing())\n"
        "print(time.process_time() - before, time.perf_counter() - clock, "
        "h.peak(), len(outcome.report.problems))"
    )
    root = str(Path(__file__).parents[2])
    done = subprocess.run(
        [sys.executable, "-c", script, root, str(rows), str(columns), formula],
        capture_output=True,
        text=True,
        check=True,
    )
    process, clock, memory, problems = done.stdout.split()
    return {"process s": float(process), "clock s": float(clock), "MB": float(memory), "problems": int(problems)}


def peak() -> float:
    """The most memory that this process had, in MB. (What getrusage says includes the process that started it.)"""
    status = Path("/proc/self/status")
    if status.exists():
        return next(int(line.split()[1]) / 1024 for line in status.read_text().splitlines() if line.startswith("VmHWM"))
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def start_up(*words: str) -> tuple:
    """Seconds of the command line in all, by the clock and of processor time; the middle of seven."""
    clocks, processors = [], []
    for _ in range(7):
        start, used = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, "-m", "brinecalc", *words], stdout=subprocess.DEVNULL, check=True)
        clocks.append(time.perf_counter() - start)
        now = resource.getrusage(resource.RUSAGE_CHILDREN)
        processors.append(now.ru_utime + now.ru_stime - used.ru_utime - used.ru_stime)
    return median(clocks), median(processors)


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--save", type=Path)
    options.add_argument("--quick", action="store_true")
    given = options.parse_args()
    figures: dict = {"python": sys.version.split()[0], "processors": os.cpu_count()}
    nothing = per_call("BRINE_NOTHING({a},{b})")
    figures["per call, µs"] = {"nothing": round(nothing, 2)}
    print(f"{'function':28}{'µs a call':>10}{'of nothing':>12}")
    print(f"{'(nothing)':28}{nothing:10.2f}{1:12.2f}")
    for name, formula in WORK.items():
        cost = per_call(formula, 2_000 if name == "BRINE_SOAK_HOURS" else 20_000)
        figures["per call, µs"][name] = round(cost, 2)
        print(f"{name:28}{cost:10.2f}{cost / nothing:12.2f}")
    print(f"\n{'workbook':28}{'process s':>10}{'clock s':>10}{'MB':>8}{'problems':>10}")
    sizes = [(10_000, 1)] if given.quick else [(100, 20), (1_000, 20), (10_000, 1), (10_000, 20)]
    for rows, columns in sizes:
        for label, formula in (
            ("nothing", "BRINE_NOTHING({a},{b})"),
            ("salt", "BRINE_SALT({a},{b})"),
            ("plain", "{a}*{b}"),
        ):
            row = whole(rows, columns, formula)
            title = f"{rows:,} × {columns} {label}"
            figures[f"{rows} × {columns} {label}"] = row
            numbers = f"{row['process s']:10.2f}{row['clock s']:10.2f}{row['MB']:8.0f}{row['problems']:10}"
            print(f"{title:28}{numbers}")
    for words in (["version"], ["eval", "=BRINE_SALT(1000,5%)"]):
        clock, processor = start_up(*words)
        figures[words[0]] = {"clock s": clock, "process s": processor}
        print(f"{f'brinecalc {words[0]}':28}{processor:10.3f}{clock:10.3f}")
    if given.save:
        given.save.write_text(json.dumps(figures, indent=2, ensure_ascii=False))


if __name__ == "__main__":
    main()
