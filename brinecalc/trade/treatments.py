"""What needling, tumbling, thawing or injecting does to the time of a soak.

One idea: a treatment is a row of ``tables/treatments.csv`` with a factor on the diffusivity, a longest way in, a
factor on the hours, and a word on how well that is known.
"""

from __future__ import annotations

from functools import cache
from typing import Dict, NamedTuple, Optional

from brinecalc.errors import UnknownName
from brinecalc.tables import load


class Treatment(NamedTuple):
    """The effect of one treatment; paths in mm, for each estimate."""

    speed: float
    path: Dict[str, Optional[float]]
    hours: Dict[str, float]


@cache
def treatments() -> Dict[str, Treatment]:
    """Every treatment by name."""
    made = {}
    for row in load.rows("treatments"):
        path = {estimate: row[f"path_{estimate}"] for estimate in ("fast", "typical", "slow")}
        hours = {estimate: row[f"hours_{estimate}"] for estimate in ("fast", "typical", "slow")}
        made[row["name"]] = Treatment(row["speed"], path, hours)
    return made


def treatment(name: str) -> Treatment:
    """One treatment."""
    found = treatments().get(name)
    if found is None:
        raise UnknownName("must be one of " + ", ".join(treatments()), argument="treatment", got=f'"{name}"')
    return found
