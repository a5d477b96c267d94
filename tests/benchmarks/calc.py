"""What our functions cost in LibreOffice Calc: per call against a function that does nothing, and at the first call.

Run by hand: ``python tests/benchmarks/calc.py [program folder of a LibreOffice]``. The function that does nothing is
the same extension with every method replaced by one that answers 0, so that both go the same way through Calc.
"""

from __future__ import annotations

import sys
import tempfile
import time
from contextlib import ExitStack
from pathlib import Path

import openpyxl

from brinecalc import registry
from brinecalc.describe import worked_examples
from brinecalc.hosts.calc import build
from brinecalc.hosts.calc.calls import Writer
from brinecalc.hosts.calc.office import find, look
from brinecalc.hosts.calc.session import Session

ROWS = 3000
REPEATS = 7
STARTS = 3
HEALED = 2000
NOTHING = "    return lambda self, *cells: ((0.0,),)\n"


def idle_extension(folder):
    """Our extension with methods that do nothing."""
    parts = build.contents()
    source = parts["addin.py"].decode()
    start = source.index("    def first(self")
    end = source.index("def _finished")
    parts["addin.py"] = (source[:start] + NOTHING + "\n\n" + source[end:]).encode()
    path = folder / "idle.oxt"
    path.write_bytes(build.packed(parts))
    return path


def per_call(sessions, formula, scratch):
    """Microseconds of one call in each session: the best of several recalculations of a column, taken in turn."""
    with ExitStack() as books:
        pairs = [(session, books.enter_context(session.book())) for session in sessions]
        for session, book in pairs:
            session.order("enter", book=book, sheet="Cells", first="A1", rows=scratch)
            session.order("enter", book=book, sheet="", first="A1", rows=[[f"={formula}"]] * ROWS)
        times = [[session.order("recalculate", book=book) for session, book in pairs] for _ in range(REPEATS)]
    return [min(column) / ROWS * 1e6 for column in zip(*times)]


def kernel(name, cells):
    """Microseconds of the Python function itself on values that were read already, and of the whole gate."""
    entry = registry.entry(name)
    registry.call(name, *cells)
    values = entry.read(tuple(cells))
    return best(lambda: entry.function(*values)), best(lambda: registry.function(name)(*cells))


def best(call, seconds=0.05):
    call()
    fastest = float("inf")
    until = time.perf_counter() + seconds
    while time.perf_counter() < until:
        start = time.perf_counter()
        for _ in range(10):
            call()
        fastest = min(fastest, (time.perf_counter() - start) / 10)
    return fastest * 1e6


def first_call(office):
    """Seconds of the very first call after a fresh installation, and of the first after a later start."""
    with Session(office) as session, session.book() as book:
        session.order("enter", book=book, sheet="", first="B1", rows=[["=1+1"]])
        start = time.perf_counter()
        session.order("enter", book=book, sheet="", first="A1", rows=[["=BRINE_SALT(1000;5%)"]])
        value = session.order("read", book=book, sheet="", area="A1:A1")
        seconds = time.perf_counter() - start
        assert value == [[50.0]]
        return seconds


def repair(session, folder):
    """Seconds to open a workbook of many plain formulas, and the same with dotted names, which need no repair."""
    opened = {}
    for spelling in ("BRINE_SALT", "BRINE.SALT"):
        book = openpyxl.Workbook()
        for row in range(1, HEALED + 1):
            book.active.cell(row, 1, 1000 + row)
            book.active.cell(row, 2, f"={spelling}(A{row},5%)")
        path = folder / f"{spelling}.xlsx"
        book.save(path)
        times = []
        for _ in range(REPEATS):
            times.append(session.order("open", book="timed", path=str(path)))
            session.order("close", book="timed")
        opened[spelling] = min(times)
    return opened["BRINE_SALT"], opened["BRINE.SALT"]


def main():
    office = look(Path(sys.argv[1])) if len(sys.argv) > 1 else find()
    print(office)
    print(f"first call after a fresh installation: {min(first_call(office) for _ in range(STARTS)):.3f} s")
    with tempfile.TemporaryDirectory() as folder, Session(office) as session:
        plain, dotted = repair(session, Path(folder))
        print(f"opening {HEALED} formulas: {plain:.3f} s with plain names, {dotted:.3f} s with dotted ones")
        print(f"{'function':28} {'nothing':>8} {'ours':>8} {'ratio':>6} {'kernel':>8} {'gate':>8} {'beyond':>8}  µs")
        with Session(office, [idle_extension(Path(folder))]) as idle:
            for name in registry.names():
                for example in worked_examples(registry.spec(name))[:1]:
                    row(name, example.cells, (idle, session))


def row(name, cells, sessions):
    """One line: what is beyond the cost of doing nothing and of the kernel should stay below 5 µs."""
    writer = Writer()
    formula = writer.formula((name, cells))
    nothing, ours = per_call(sessions, formula, writer.scratch())
    alone, gate = kernel(name, cells)
    beyond = ours - nothing - alone
    print(f"{name:28} {nothing:8.2f} {ours:8.2f} {ours / nothing:6.2f} {alone:8.2f} {gate:8.2f} {beyond:8.2f}")


if __name__ == "__main__":
    main()
