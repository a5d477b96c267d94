"""What it costs to start: the core, the Excel module, the command line, each beside Python alone."""

from __future__ import annotations

import sys
from collections.abc import Iterator

from tests.benchmarks.figures import Figure
from tests.benchmarks.timing import PEAK, inside, process

SECTION = "start"

_IMPORT = (
    PEAK
    + """
import sys, time
start = time.process_time()
exec(sys.argv[1])
found = {"ms": (time.process_time() - start) * 1e3, "MB": peak(),
         "modules": sum(name.startswith("brinecalc") for name in sys.modules)}
"""
)
_CORE = "import brinecalc.registry; brinecalc.registry.names()"
_CALLED = _CORE + "; brinecalc.registry.call('BRINE_SALT', 1000.0, 0.05)"
_EXCEL = "from brinecalc.hosts.excel import *"


def figures(quick: bool) -> Iterator[Figure]:
    """Milliseconds of imports inside a process, seconds of whole commands."""
    runs = 5 if quick else 15
    core = inside(_IMPORT, _CORE, runs=runs)
    yield Figure(SECTION, "import of the core, all names", core["ms"], "ms", goal=40.0)
    yield Figure(
        SECTION, "the same, without compiled modules", inside(_IMPORT, _CORE, runs=runs, bytecode=False)["ms"], "ms"
    )
    yield Figure(SECTION, "modules of ours then loaded", core["modules"], "")
    yield Figure(SECTION, "core and a first BRINE_SALT", inside(_IMPORT, _CALLED, runs=runs)["ms"], "ms")
    xlwings = inside(_IMPORT, "import xlwings", runs=5)["ms"]
    excel = inside(_IMPORT, _EXCEL, runs=5)["ms"]
    yield Figure(SECTION, "Excel module; native is xlwings alone", excel, "ms", native=xlwings)
    nothing = process([sys.executable, "-c", "pass"], runs)
    yield Figure(SECTION, "python that does nothing", nothing["s"], "s")
    yield Figure(SECTION, "memory of python that does nothing", nothing["MB"], "MB")
    yield Figure(SECTION, "memory with the core", core["MB"], "MB", nothing["MB"])
    for words, goal in ((["version"], None), (["eval", "=BRINE_SALT(1000,5%)"], 0.25)):
        found = process([sys.executable, "-m", "brinecalc", *words], runs)
        yield Figure(SECTION, f"brinecalc {words[0]}", found["s"], "s", nothing["s"], goal=goal)
        yield Figure(SECTION, f"brinecalc {words[0]}, by the clock", found["clock"], "s", nothing["clock"], goal=goal)
        yield Figure(SECTION, f"brinecalc {words[0]}, memory", found["MB"], "MB", nothing["MB"])
