"""Legal and safety limits, and the constants of the trade: looked up by name and jurisdiction.

One idea: a limit is a row of ``tables/limits.csv`` with the rule it comes from, so that whoever is refused can read
why and look it up. Values are kept exactly as the rule gives them and shown rounded. Rules change; every answer
about a limit says so. No rule's figure is typed into code. A constant of physics or of an instrument is the kernel's
own: its row here answers people with its source, and a test holds the two to one figure.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache
from typing import NamedTuple, Optional, Sequence, Tuple

from brinecalc import quantity
from brinecalc.errors import UnknownName
from brinecalc.names import Names, fold
from brinecalc.tables import load

RULES = ("US", "any", "EU", "Codex")
"""Jurisdictions in the order in which a limit is looked for when none is named; ``any`` holds everywhere."""

RECHECK = "recheck, rules change"

_MOST_NAMED = 12
_SLACK = 1.0 + 1e-9  # a value worked back from a limit may differ from it in the last digits
_PPM = 0.005  # nobody weighs finer
_TENTH = 0.05  # °C: thermometers read to a tenth
_DIMENSIONS = {"share": "share", "degC": "temperature", "h": "time", "g": "mass", "mm": "length"}
_BOUNDS = {"most": "at most ", "least": "at least ", "exactly": "exactly ", "figure": ""}


class Limit(NamedTuple):
    """One limit or constant: the figure, what it bounds, and where it comes from."""

    limit: str
    aliases: Tuple[str, ...]
    rules: str
    value: float
    unit: str
    bound: str
    meaning: str
    place: Optional[str]
    year: Optional[str]
    source: str
    status: str
    note: Optional[str]

    @property
    def shown(self) -> str:
        """The figure as people write it, rounded: "156 ppm", "0.5 %", "5 °C"."""
        if self.unit == "pH":
            return f"pH {self.value:.6g}"
        if self.unit.startswith("ppm"):
            text = f"{self.value:.0f}" if self.value >= 1 or self.value == 0 else f"{self.value:.6g}"
            ion = "nitrate" if "nitrate" in self.limit else "nitrite"
            return f"{text} ppm" + (f" of {ion} ion" if self.unit == "ppm ion" else "")
        dimension = _DIMENSIONS.get(self.unit)
        if dimension:
            return quantity.show(float(f"{self.value:.4g}"), dimension)
        return f"{self.value:.6g}" + ("" if self.unit == "1" else f" {self.unit}")

    @property
    def bounded(self) -> str:
        """The figure with its direction: "at most 156 ppm (156.25 exactly)"."""
        exact = f"{self.value:.6g}"
        rounded = self.unit.startswith("ppm") and not self.is_whole and not self.shown.startswith(exact)
        return _BOUNDS[self.bound] + self.shown + (f" ({exact} exactly)" if rounded else "")

    @property
    def is_rule(self) -> bool:
        """Whether it is somebody's rule, which may change, rather than a constant or the custom of the trade."""
        return self.rules != "any"

    @property
    def is_whole(self) -> bool:
        """Whether the rule knows it to the whole ppm and no finer: it is worked out from whole mg/kg of the ion."""
        return self.rules == "EU" and self.unit == "ppm" and self.value % 1.0 != 0.0

    def passed_by(self, value: float) -> bool:
        """Whether a value lies on the wrong side; a value worked back from the limit itself does not."""
        if self.is_whole:
            return math.floor(value + 0.5) > round(self.value)
        slack = _PPM if self.unit.startswith("ppm") else 0.0
        if self.bound == "least":
            return value * _SLACK + slack < self.value
        return value > self.value * _SLACK + slack


def warmer(celsius: float, most: float) -> bool:
    """Whether a thermometer shows more than that: what it cannot tell apart is not warmer."""
    return celsius > most + _TENTH


@cache
def _names(rules: str) -> Names[Limit]:
    rows = [Limit(**row) for row in load.rows("limits") if row["rules"] == rules]
    return Names("limit", [(row.limit, row.aliases, row) for row in rows])


@cache
def everywhere() -> Names[Tuple[Limit, ...]]:
    """Each limit's name with its rows in all jurisdictions; the set that knows the nearest names."""
    found: dict[str, list[Limit]] = {}
    for row in load.rows("limits"):
        found.setdefault(row["limit"], []).append(Limit(**row))
    return Names("limit", [(name, (), tuple(rows)) for name, rows in found.items()])


@lru_cache(maxsize=1024)
def find(name: str, rules: Optional[str] = None, argument: str = "limit") -> Limit:
    """The limit of that name under those rules; without rules the US row first, then what holds everywhere."""
    wanted = RULES if rules is None else (rules, "any")
    for jurisdiction in wanted:
        if name in _names(jurisdiction):
            return _names(jurisdiction).find(name, argument)
    others = [j for j in RULES if name in _names(j)]
    if not others:
        raise _unknown(name, wanted, argument)
    raise UnknownName(
        f"has no figure under the {rules} rules in this table",
        argument=argument,
        got=f'"{name}"',
        advice=f"there is a figure under {' and '.join(others)}; give that as rules, and check your local code",
    )


def _unknown(name: str, wanted: Sequence[str], argument: str) -> UnknownName:
    """The error for a name that no limit has; where it is part of several, these are named, the plainest first."""
    error = everywhere().unknown(name, argument)
    key = fold(name)
    held = [known for known in everywhere().names if any(known in _names(rules) for rules in wanted)]
    inside = sorted(
        (known for known in held if len(key) > 3 and key in fold(known)), key=lambda known: known.count(" ")
    )
    if len(inside) > 1:
        error.rule = "stands in the names of several limits"
        error.advice = "write one of " + ", ".join(f'"{known}"' for known in inside[:_MOST_NAMED])
    return error


def rows(name: str) -> Tuple[Limit, ...]:
    """All rows that answer to a name, one for each jurisdiction that has it; empty if none."""
    return tuple(_names(j).find(name) for j in RULES if name in _names(j))


def value(name: str, rules: Optional[str] = None) -> float:
    """The exact figure of a limit."""
    return find(name, rules).value
