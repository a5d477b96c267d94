"""The words of a name that give away what can hurt, or what must not meet curing salt, where no table knows the name.

One idea: a word of ``tables/hazard_words.csv`` counts wherever it stands by itself, in singular or plural and any case;
a longer phrase that only sounds like one, such as olive oil, takes its word out.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import FrozenSet, Tuple

from brinecalc.names import singular
from brinecalc.tables import load

READ = 300
"""Characters in which a slip, a number or a denial is looked for; a cell may hold 32,767."""
_MEMORY = 4096
_WORD = re.compile(r"[^\W_]+")


def words_in(text: str) -> str:
    """The words of a text in lower case and singular, one blank before, between and after."""
    return _words_in(text) if len(text) <= READ else _words_in.__wrapped__(text)


@lru_cache(maxsize=_MEMORY)
def _words_in(text: str) -> str:
    return " " + " ".join(singular(word) for word in _WORD.findall(text.casefold())) + " "


@cache
def phrases_of(*hazards: str) -> Tuple[str, ...]:
    """The words and phrases that give these hazards away."""
    return tuple(phrase.strip() for phrase, hazard in _hazard_words() if hazard in hazards)


def hazards_in(text: str) -> FrozenSet[str]:
    """The hazards that the words of a name give away; what is unclear by itself is not so in longer words."""
    return _hazards_in(words_in(text)) if len(text) <= READ else _hazards_in.__wrapped__(words_in(text))


@lru_cache(maxsize=_MEMORY)
def _hazards_in(words: str) -> FrozenSet[str]:
    for phrase, hazard in _hazard_words():
        if hazard == "none":
            words = words.replace(phrase, " , ")
    found = [(phrase, hazard) for phrase, hazard in _hazard_words() if phrase in words]
    if any(hazard == "unclear" for _, hazard in found):
        clear = [phrase for phrase, _ in found]
        found = [(phrase, hazard) for phrase, hazard in found if not any(phrase in p and phrase != p for p in clear)]
    return frozenset(hazard for _, hazard in found)


@cache
def _hazard_words() -> Tuple[Tuple[str, str], ...]:
    return tuple((words_in(row["word"]), row["hazard"]) for row in load.rows("hazard_words"))
