"""One figure of a run, the table they are printed in, and the file they are kept in.

One idea: a number of seconds says little on another machine or at another hour, so each figure stands beside what a
function that does nothing costs in the same place and run, and beside a yardstick (a plain loop) measured just
before it. Two runs are compared by what is left when both are divided by their own yardstick.
"""

from __future__ import annotations

import json
import os
import platform
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

TIMES = ("µs", "ms", "s")


class Figure(NamedTuple):
    """What was measured; smaller is better unless the unit is "times"."""

    section: str
    what: str
    value: float
    unit: str
    nothing: float | None = None
    """The same done by a function that does nothing."""
    native: float | None = None
    """The same done by the arithmetic of the spreadsheet itself, or by a peer."""
    goal: float | None = None
    yard: float = 0.0
    """Microseconds of the yardstick just before."""

    @property
    def key(self) -> str:
        """What a figure of another run goes by."""
        return f"{self.section}: {self.what}"

    @property
    def missed(self) -> bool:
        """Whether there is a goal and the figure does not reach it."""
        if self.goal is None:
            return False
        return self.value < self.goal if self.unit == "times" else self.value > self.goal


def printed(figures: Iterable[Figure], saved: dict[str, Figure]) -> Iterator[Figure]:
    """Prints a row for each figure as it comes, and hands it on."""
    section = ""
    print(f"{'':52}{'figure':>9}{'× nothing':>17}{'× native':>10}{'goal':>11}" + ("   then → now" if saved else ""))
    for figure in figures:
        if figure.section != section:
            section = figure.section
            print(f"\n{section}")
        print(_row(figure, saved.get(figure.key)), flush=True)
        yield figure


def _row(figure: Figure, then: Figure | None) -> str:
    goal = "" if figure.goal is None else f"{'≥' if figure.unit == 'times' else '≤'} {figure.goal:.4g}"
    line = f"  {figure.what:50}{figure.value:>9.4g} {figure.unit:5}"
    line += f"{_ratio(figure.value, figure.nothing):>10}{_ratio(figure.value, figure.native):>10}{goal:>11}"
    line += "  missed" if figure.missed else ""
    if then is not None:
        line += f"   {then.value:.4g} → {figure.value:.4g}, {levelled(figure, then):.2f} ×"
    return line


def _ratio(value: float, other: float | None) -> str:
    return f"{value / other:.2f}" if other else ""


def levelled(now: Figure, then: Figure) -> float:
    """Now over then; for times, after each has been divided by the yardstick of its own run."""
    ratio = now.value / then.value if then.value else float("nan")
    return ratio * then.yard / now.yard if now.unit in TIMES and now.yard and then.yard else ratio


def save(path: Path, figures: list[Figure]) -> None:
    """Keeps a run."""
    about = {"python": sys.version.split()[0], "machine": platform.machine(), "processors": os.cpu_count()}
    rows = [figure._asdict() for figure in figures]
    path.write_text(json.dumps({"about": about, "figures": rows}, indent=1, ensure_ascii=False), encoding="utf-8")


def load(path: Path) -> dict[str, Figure]:
    """A run kept before, by key."""
    rows = json.loads(path.read_text(encoding="utf-8"))["figures"]
    return {figure.key: figure for figure in (Figure(**row) for row in rows)}
