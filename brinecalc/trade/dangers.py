"""What is never measured out by a share, a spoon or a guess: curing salt, lye, sulphite and mineral acid.

One idea: these are known by their role, and by the words of a name where it is misspelt or in no table; what is said
instead depends on who asks, so the caller brings the words.
"""

from __future__ import annotations

from typing import Dict, NamedTuple

from brinecalc.errors import Refused
from brinecalc.trade import named

_BY_HAZARD = (
    ("cure", "cure"), ("nitrate", "cure"), ("unclear", "unclear"), ("alkali", "alkali"), ("sulphite", "sulphite"),
    ("poison", "poison"),
)  # fmt: skip


class No(NamedTuple):
    """Why something is refused, and what to do instead."""

    rule: str
    advice: str


POISON = No("is no food", "leave it out of the kitchen")
UNCLEAR = No(
    "may be a cultured powder that brings nitrite, or an acerola powder that brings ascorbic acid",
    "read its label, and write cultured celery powder, acerola powder or dried cherries",
)


def refuse(name: str, refusals: Dict[str, No], argument: str = "ingredient") -> None:
    """Raises where a name stands, or seems to stand, for something of a refused role."""
    found = named.find(name)
    role = found.role or next((role for hazard, role in _BY_HAZARD if hazard in found.hazards), "")
    no = refusals.get(role)
    if no is not None:
        raise Refused(no.rule, argument=argument, got=f'"{found.name}"', advice=no.advice)
