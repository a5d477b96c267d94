"""Vegetables and fruit that have no row of the product table, known by their words.

One idea: a name is that of a plant when every word of it stands in ``tables/plants.csv`` and one of them is a plant, so
that nothing with meat, oil or a stove in its name is taken for one.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Dict

from brinecalc.tables import load
from brinecalc.trade import named

_MOST_WORDS = 3  # of one phrase in the table
_LONGEST = 200  # characters that are read


@lru_cache(maxsize=256)
def is_plant(text: str) -> bool:
    """Whether the text names a vegetable or fruit, and nothing else."""
    return any(row["sort"] == "plant" for row in _read(text))


@lru_cache(maxsize=256)
def is_warned_of(text: str) -> bool:
    """Whether the text names a plant that is warned of where there is no air."""
    return any(row["airless"] for row in _read(text))


@lru_cache(maxsize=256)
def is_acid(text: str) -> bool:
    """Whether the text names fruit that is sour enough by itself, and no other plant."""
    return is_plant(text) and all(row["acid"] for row in _read(text) if row["sort"] == "plant")


def _read(text: str) -> "tuple[load.Row, ...]":
    """The rows of the words of a text, none where one of its words has no row."""
    if len(text) > _LONGEST:
        return ()
    words = named.words_in(text).split()
    found = []
    at = 0
    while at < len(words):
        for many in range(_MOST_WORDS, 0, -1):
            row = _rows().get(" ".join(words[at : at + many]))
            if row is not None:
                break
        else:
            return ()
        found.append(row)
        at += many
    return tuple(found)


@cache
def _rows() -> Dict[str, load.Row]:
    return {named.words_in(row["word"]).strip(): row for row in load.rows("plants")}
