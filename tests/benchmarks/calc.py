"""What our functions cost in LibreOffice Calc: per call against a function that does nothing, and at the first call.

One idea: the function that does nothing is the same extension with every method replaced by one that answers 0, so
that both go the same way through Calc. BRINECALC_OFFICE names the program folder of another LibreOffice.
"""

from __future__ import annotations

import tempfile
import time
from contextlib import ExitStack
from pathlib import Path

import openpyxl

from brinecalc.hosts.calc import build
from brinecalc.hosts.calc.calls import Writer, literal
from brinecalc.hosts.calc.office import find
from brinecalc.hosts.calc.session import Session
from tests.benchmarks.calls import BEYOND, NATIVE, examples, kernel_and_gate
from tests.benchmarks.figures import Figure

SECTION = "a call in LibreOffice Calc"
ROWS = 1000
REPEATS = 25
STARTS = 3
FIRST = 0.3  # seconds
HEALED = 2000
NOTHING = "    return lambda self, *cells: ((0.0,),) if table else 0.0\n"


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


def per_call(formulas, scratch):
    """Microseconds of one call of each formula in its session: the best of several recalculations, taken in turn."""
    with ExitStack() as books:
        pairs = [(session, books.enter_context(session.book())) for session, _ in formulas]
        for (session, book), (_, formula) in zip(pairs, formulas):
            session.order("enter", book=book, sheet="Cells", first="A1", rows=scratch)
            session.order("enter", book=book, sheet="", first="A1", rows=[[f"={formula}"]] * ROWS)
        times = [[session.order("recalculate", book=book) for session, book in pairs] for _ in range(REPEATS)]
    return [min(column) / ROWS * 1e6 for column in zip(*times)]


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


def figures(quick):
    """The first call, repairing names, and a call of each function; nothing where there is no LibreOffice."""
    office = find()
    if office is None:
        print("  (no LibreOffice here)")
        return
    print(f"  ({office})")
    seconds = min(first_call(office) for _ in range(1 if quick else STARTS))
    yield Figure(SECTION, "first call after a fresh installation", seconds, "s", goal=FIRST)
    with tempfile.TemporaryDirectory() as folder:
        with Session(office) as session:
            plain, dotted = repair(session, Path(folder))
        yield Figure(SECTION, f"opening {HEALED} plain formulas; native is dotted", plain, "s", native=dotted)
        work = [(name, cells, kernel_and_gate(name, cells)[0]) for name, cells in examples()]
        # From here on neither session may wait for seconds: the thread that answers would be another one, for which
        # LibreOffice sets Python up anew in each call. A person's calls all come from the one main thread.
        with Session(office) as session, Session(office, [idle_extension(Path(folder))]) as idle:
            for name, cells, kernel in work:
                yield call(name, cells, kernel, idle, session)


def call(name, cells, kernel, idle, session):
    """A call of one function, with nothing and arithmetic beside it."""
    writer = Writer()
    formula = writer.formula((name, cells))
    scratch = writer.scratch()
    if name in NATIVE:
        native = NATIVE[name].format(*map(literal, cells))
        nothing, ours, plain = per_call([(idle, formula), (session, formula), (session, native)], scratch)
    else:
        (nothing, ours), plain = per_call([(idle, formula), (session, formula)], scratch), None
    goal = 2.0 * nothing if name == "BRINE_SALT" else nothing + kernel + BEYOND
    return Figure(SECTION, name.removeprefix("BRINE_"), ours, "µs", nothing, plain, goal)
