"""The benchmark suite, run by hand: ``python -m tests.benchmarks [SECTION ...]``. No test rests on a time.

Sections: start, calls, kernels, books, calc (LibreOffice, left out where there is none). Prints one table and, with
``--save``, keeps the run; with ``--against`` each figure stands beside the one of a run kept before, as a ratio that
allows for how fast the machine was. The exit status is 1 if a goal is missed.

Long searches that are no benchmarks stand beside: storm.py and nitrite_search.py.
"""

from __future__ import annotations

import argparse
import importlib
import sys
from collections.abc import Iterator
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parents[1])]

from tests.benchmarks import figures as made
from tests.benchmarks.figures import Figure
from tests.benchmarks.timing import yardstick

SECTIONS = ("start", "calls", "kernels", "books", "calc")


def measured(sections: list[str], quick: bool) -> Iterator[Figure]:
    """Every figure of the sections, with the yardstick as it was just before."""
    for section in sections:
        yard = yardstick()
        for count, figure in enumerate(importlib.import_module(f"tests.benchmarks.{section}").figures(quick), 1):
            yield figure._replace(yard=yard)
            if count % 10 == 0:
                yard = yardstick()


def main() -> int:
    """Runs the sections asked for."""
    asked = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    asked.add_argument("sections", nargs="*", metavar="SECTION", help=", ".join(SECTIONS))
    asked.add_argument("--save", type=Path, metavar="FILE", help="keep this run")
    asked.add_argument("--against", type=Path, metavar="FILE", help="compare with a run kept before")
    asked.add_argument("--quick", action="store_true", help="smaller workbooks and fewer rounds")
    given = asked.parse_args()
    if unknown := set(given.sections) - set(SECTIONS):
        asked.error(f"no section is called {', '.join(sorted(unknown))}; there are {', '.join(SECTIONS)}")
    saved = made.load(given.against) if given.against else {}
    run = list(made.printed(measured(given.sections or list(SECTIONS), given.quick), saved))
    if given.save:
        made.save(given.save, run)
    missed = [figure.key for figure in run if figure.missed]
    print(f"\n{len(run)} figures, {sum(f.goal is not None for f in run)} with a goal, {len(missed)} missed")
    for key in missed:
        print(f"  {key}")
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
