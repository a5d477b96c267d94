"""Needles, blades and pumps, as the texts of a production row speak of them.

One idea: several rules ask whether the meat was opened or the brine brought in, each for reasons of its own, and all of
them hear the same words; one that is denied, or only begins alike, as a pumpkin does, is none. The words are common
practice, no source.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Tuple

from brinecalc.trade import named

INJECTED = (
    "inject", "injected", "injecting", "injection", "injector", "pump", "pumped", "pumping", "stitch", "artery",
)  # fmt: skip
"""Words of bringing the brine in."""
_DONE = ("needle", "needled", "blade", "bladed", "injected", "pumped")
"""Words of what was done to meat before the row: its name may say them, misspelt too."""
_OPENED = (
    *INJECTED, "needle", "needled", "needling", "blade", "bladed", "tenderise", "tenderised", "tenderising",
    "tenderiser", "tenderize", "tenderized", "tenderizing", "tenderizer",
)  # fmt: skip
_IN_A_NAME = (
    *_DONE, "jaccarded", "tenderised", "tenderized", "blade tenderised", "blade tenderized",
)  # fmt: skip
_CUT = re.compile(r"\bblades?\b(?!\W*tender)", re.IGNORECASE)
"""The blade bone, after which cuts of every animal are called."""
_OF_TREES = re.compile(r"\b(?:pine|fir|spruce|larch|juniper|cedar)\W+needles?\b", re.IGNORECASE)
"""What is smoked over, or laid under."""
_WORKED_IN = (*INJECTED, "massage", "massaged", "massaging", "massager")


@lru_cache(maxsize=256)
def pierces(text: str) -> bool:
    """Whether a text says that needles or blades open the meat."""
    return _says(text, _OPENED)


@lru_cache(maxsize=256)
def works_in(text: str) -> bool:
    """Whether a text says that the brine is injected, or massaged in."""
    return _says(text, _WORKED_IN)


def were_there(text: str) -> bool:
    """Whether a treatment tells of needles, misspelt or not."""
    said = _OF_TREES.sub(" ", text)
    return named.says(said, _DONE) and not named.is_denied(said, _DONE)


def are_in_the_name(text: str) -> bool:
    """Whether the name of a product tells of needles, misspelt or not; a blade steak is a cut like any other."""
    said = _CUT.sub(" ", _OF_TREES.sub(" ", text))
    return named.says(said, _IN_A_NAME) and not named.is_denied(said, _IN_A_NAME)


def _says(text: str, words: Tuple[str, ...]) -> bool:
    said = named.undenied(_OF_TREES.sub(" ", text), words).split()
    return not frozenset(words).isdisjoint(said)
