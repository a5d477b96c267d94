"""What goes into a brine, as a production row names it, and what could not be read of the row.

One idea: a thing keeps the heading that it stands under, for that says how much of it there is; a curing salt is seen
wherever it is named, under a heading for salt too, for much of it is sold to be taken in the salt's place.
"""

from __future__ import annotations

import re
from typing import Any, List, NamedTuple, Optional

from brinecalc.trade import named
from brinecalc.trade.headings import Column
from brinecalc.trade.named import Named

_NUMBER = re.compile(r"(?:#|n[or°º]\.?|num(?:ber|\.)?|type|grade)?\s*([12])", re.IGNORECASE)


class Thing(NamedTuple):
    """Something named in the row that goes into the brine: under which heading, what it is, and how much."""

    heading: str
    text: str
    what: Named
    grams: Optional[float] = None
    ratio: Optional[float] = None
    """Grams per gram of the brine's water."""
    number: str = ""
    """The number at the end of its heading."""


NAMELESS = Thing("", "", Named("", "", frozenset(), None, None))
"""What has an amount and no name; how much is still read, so that what cannot be is told."""


class Unread(NamedTuple):
    """A cell that could not be read, and why."""

    column: Column
    text: str
    reason: str

    @property
    def is_bare(self) -> bool:
        """Whether the reason does not say what to write instead, or only asks."""
        return "; " not in self.reason or self.reason.endswith("?")

    @property
    def sentence(self) -> str:
        """The reason with its full stop, where it does not end in a question."""
        return self.reason if self.reason.endswith("?") else f"{self.reason}."


def with_mass(thing: Thing, grams: Optional[float], water: Optional[float]) -> Thing:
    """A thing of that mass."""
    return thing._replace(grams=grams, ratio=grams / water if grams is not None and water else None)


def with_share(thing: Thing, share: Optional[float], water: Optional[float]) -> Thing:
    """A thing of that share of the water."""
    return thing._replace(ratio=share, grams=share * water if share is not None and water else None)


def salt_named(text: str) -> List[Thing]:
    """What a name of salt brings besides salt: a curing salt, or what is no food; of other salt nothing is to say."""
    what = named.find(text.strip())
    is_told = what.is_cure or "poison" in what.hazards
    return [Thing("salt name", text.strip(), what)] if is_told else []


def grade_named(text: str) -> str:
    """The grade of a curing salt, in full where only its number is given: "No. 1" or "#2"."""
    found = _NUMBER.fullmatch(text.strip())
    return f"curing salt no. {found[1]}" if found else text


def cure_named(cell: Any) -> Optional[Named]:
    """The curing salt that a cell under an unknown heading holds by a name that is known; None for any other cell."""
    found = named.find(cell.strip()) if isinstance(cell, str) else None
    return found if found is not None and found.role == "cure" else None
