"""What a text says is not there: "no nitrite", "without needles", "pink-salt free".

One idea: only a word right beside takes another back, so that a "no" about something else hides nothing; and of what is
made of plants a name may deny the nitrite that it brings all the same.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Tuple

from brinecalc.trade.hazards import READ, phrases_of, words_in

_CLAUSE = re.compile(r"[,;:()\[\]!?\n]|(?<!\bno)\.\s|\bbut\b", re.IGNORECASE)
"""Where a "no" ends that stands before: what follows is another thing; "no. 1" is a grade."""
_BRINGS_NITRITE = (
    "celery", "celeriac", "chard", "beet", "beetroot", "spinach", "lettuce", "rocket", "arugula", "vegetable", "plant",
    "cherry", "culture", "cultured", "ferment", "fermented", "powder", "natural", "naturally", "pink",
)  # fmt: skip
"""Words of what is sold to cure with and says on its front that no nitrite was added: common practice, no source."""


def undenied(text: str, phrases: Tuple[str, ...]) -> str:
    """The words of a text without those of the phrases that it says are not there, by a word right beside them.

    "No nitrite", "without nitrite", "nitrite-free" and "free of nitrite" take it back; "nitrite, no sugar" does not.
    In a long text nothing is taken back.
    """
    if len(text) > READ:
        return words_in(text)
    said = _clauses(text)
    return _denial(phrases).sub(",", said) if _denies(said) else said


def is_denied(text: str, phrases: Tuple[str, ...]) -> bool:
    """Whether a text speaks of these phrases only to say that they are not there."""
    if len(text) > READ:
        return False
    said = _clauses(text)
    if not _denies(said):
        return False
    left = undenied(text, phrases)
    return any(f" {phrase} " in said for phrase in phrases) and not any(f" {phrase} " in left for phrase in phrases)


def _denies(said: str) -> bool:
    """Whether words have one among them that may take another back; few do, and the patterns take time."""
    return _TAKING_BACK.search(said) is not None


@lru_cache(maxsize=256)
def _clauses(text: str) -> str:
    """The words of a text with a comma where another thing begins."""
    return " " + " , ".join(words_in(clause).strip() for clause in _CLAUSE.split(text)) + " "


_TAKING_BACK = re.compile(" (?:no|not|never|zero|non|without|free) ")


@lru_cache(maxsize=64)  # one for each list of words that is ever asked about
def _denial(phrases: Tuple[str, ...]) -> "re.Pattern[str]":
    one = "(?:" + "|".join(map(re.escape, sorted(phrases, key=len, reverse=True))) + ")"
    no = r"(?:no(?! \d)|not|never|zero|non|without)(?: (?:any|added|extra|use|using|with|of))*"
    twice = "(?<!not )(?<!never )(?<!no )"  # which says that it is there
    listed = rf"{one}(?: (?:or|nor) {one})*"
    before = rf"{twice}{no} {listed}(?! free )"
    after = rf"{twice}{one}(?: (?:or |and )?{one})* free(?! (?:flow\w*|rang\w*|run\w*|pour\w*|of|from) )"
    return re.compile(rf"(?<= )(?:{before}|{after}|(?<!not )free (?:of|from) {listed})(?= )")


def without_cure(text: str) -> bool:
    """Whether a name speaks of nitrite only to say that there is none: "no nitrite", "nitrite-free rub"."""
    return is_denied(text, phrases_of("cure", "nitrate"))


def may_bring_nitrite(text: str) -> bool:
    """Whether the rest of a name that denies nitrite is of plants or a culture: packets of such say so most often."""
    left = undenied(text, phrases_of("cure", "nitrate"))
    return any(f" {word} " in left for word in _BRINGS_NITRITE)
