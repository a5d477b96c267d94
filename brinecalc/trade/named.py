"""What a name in a production row stands for, as the safety rules see it.

One idea: the tables know most names; where they do not, the words of the name still give away an acid, a cola, a
curing salt or a lye, and a rule that stops a batch leans to the safe side. Names once read are remembered until the
user's own ingredients change.
"""

from __future__ import annotations

import difflib
import re
from functools import lru_cache
from typing import Dict, FrozenSet, NamedTuple, Optional, Tuple

from brinecalc.errors import BrineError
from brinecalc.names import Names
from brinecalc.trade import acids, cure_names, curing, denials, ingredients
from brinecalc.trade.curing import Cure
from brinecalc.trade.denials import is_denied as is_denied
from brinecalc.trade.denials import undenied as undenied
from brinecalc.trade.hazards import READ
from brinecalc.trade.hazards import hazards_in as hazards_in
from brinecalc.trade.hazards import phrases_of as phrases_of
from brinecalc.trade.hazards import words_in as words_in
from brinecalc.trade.ingredients import Ingredient

OWN = "own"
"""The source of the user's own ingredients, of which only the words are known besides the role."""
ACID_ROLES = frozenset(("acid", "mineral acid", "juice", "vinegar", "wine"))
_MEMORY = 4096
_NUMBER = re.compile(r"(?:#|\bn[or°º]\.?|\bnum(?:ber|\.)?)\s*([12])(?![\d.,]*\d)", re.IGNORECASE)
_SOLD_BY_NUMBER = ("powder", "salt", "cure")
_LONG, _LONGEST = 5, 30  # letters of a word that is known when it is misspelt; a longer one is no misspelt word
_ALIKE = 0.83  # likeness from which it is: "vaccum" is as like "vacuum" as "shell" is not like "shelf"
_PURE = 0.999  # share of nitrite above which a cure is no mix


class Named(NamedTuple):
    """A name with what it is taken for."""

    name: str
    role: str
    """Role in the ingredient table, or ``""`` where no table knows the name."""
    hazards: FrozenSet[str]
    """Of acid, cola, cure, nitrate, unclear (nitrite or not), alkali, sulphite, poison, preservative."""
    ingredient: Optional[Ingredient]
    cure: Optional[Cure]

    @property
    def is_known(self) -> bool:
        """Whether a table knows the name."""
        return self.role != ""

    @property
    def is_cure(self) -> bool:
        """Whether it brings nitrite or nitrate."""
        return "cure" in self.hazards or "nitrate" in self.hazards

    @property
    def is_acid(self) -> bool:
        """Whether it may make a brine too sour for nitrite."""
        return "acid" in self.hazards or "cola" in self.hazards

    @property
    def is_pure_nitrite(self) -> bool:
        """Whether it is nitrite itself and no premixed curing salt."""
        return self.cure is not None and self.cure.nitrite > _PURE


_remembered: Dict[str, Named] = {}
_of: Optional[Names[Ingredient]] = None


def find(text: str) -> Named:
    """What that name stands for; never raises."""
    global _of
    table = ingredients.names()
    if table is not _of:
        _remembered.clear()
        _of = table
    found = _remembered.get(text)
    if found is None:
        if len(_remembered) >= _MEMORY:
            _remembered.clear()
        found = _remembered[text] = _look_up(text, table)
    return found


@lru_cache(maxsize=1024)
def says(text: str, phrases: Tuple[str, ...]) -> bool:
    """Whether a text says one of these words or phrases, or a long one of them misspelt: "vaccum" packs without air.

    "Unsmoked" is no misspelt "smoked".
    """
    inside = words_in(text)
    if any(f" {phrase} " in inside for phrase in phrases):
        return True
    long = [phrase for phrase in phrases if len(phrase) >= _LONG and " " not in phrase]
    words = [word for word in inside[:READ].split() if _LONG <= len(word) <= _LONGEST and word[2:] not in long]
    return any(difflib.get_close_matches(word, long, n=1, cutoff=_ALIKE) for word in words)


def _look_up(text: str, table: Names[Ingredient]) -> Named:
    if text in table:
        found = table.find(text)
        cures = curing.cures()
        cure = cures.find(found.name) if found.role == "cure" and found.name in cures else None
        return Named(found.name, found.role, _hazards(found, cure), found, cure)
    try:
        other = acids.find(text)
    except BrineError:
        return _by_its_words(text, table)
    hazards = hazards_in(text) & {"cola"}
    if other.role in ("acid", "mineral acid"):
        hazards |= {"acid"}
    if other.role == "strong base":
        hazards |= {"alkali"}
    return Named(other.name, other.role, hazards, None, None)


def _by_its_words(text: str, table: Names[Ingredient]) -> Named:
    """What no table knows: a curing salt of the strength in its name, or whatever its words give away."""
    hazards, numbered = hazards_in(text), _numbered(text, table)
    if denials.without_cure(text) and not numbered:
        return Named(text, "", _denied(text, hazards), None, None)
    hazards |= numbered
    cure = cure_names.read(text, words_in(text), hazards, table)
    if cure is not None:
        return Named(text, "cure", hazards | _cure_hazards(cure), None, cure)
    return Named(text, "", hazards | _misspelt(text, table), None, None)


def _denied(text: str, hazards: FrozenSet[str]) -> FrozenSet[str]:
    """The hazards of a name that denies nitrite: none of a cure, but of what is made of plants, which may bring it."""
    if denials.may_bring_nitrite(text):
        return hazards | {"cure", "unclear"}
    return hazards - {"cure", "nitrate"}


def _numbered(text: str, table: Names[Ingredient]) -> FrozenSet[str]:
    """The hazards of a salt or powder sold by number, as curing salts are: the second brings nitrate too."""
    found = _NUMBER.search(text[:READ])
    if found is None or not any(f" {word} " in words_in(text) for word in _SOLD_BY_NUMBER):
        return frozenset()
    base = (text[: found.start()] + " " + text[found.end() :]).strip(" ,;:-()")
    if base in table and table.find(base).role not in ("salt", "cure"):  # a garlic powder no. 1
        return frozenset()
    return frozenset(("cure", "nitrate") if found.group(1) == "2" else ("cure",))


def _misspelt(text: str, table: Names[Ingredient]) -> FrozenSet[str]:
    """The hazards of what a misspelt name most likely means."""
    cure = curing.cures().meant(text)
    if cure is not None:
        return _cure_hazards(cure)
    found = table.meant(text)
    return _hazards(found, None) if found is not None else frozenset()


def _hazards(found: Ingredient, cure: Optional[Cure]) -> FrozenSet[str]:
    """What a row of the ingredient table is taken for: by its role, and by what the table says it must not meet."""
    hazards = set(_cure_hazards(cure)) if cure else set()
    if found.role == "cure" and not hazards:
        hazards |= {"cure", *(hazards_in(found.name) & {"nitrate"})}
    if found.role in ACID_ROLES or ("cure" in found.avoid and found.role != "cure"):
        hazards.add("acid")
    if found.role == "alkali":
        hazards.add("alkali")
    told = hazards_in(" ; ".join((found.name, *found.aliases))) if found.source == OWN else frozenset()
    if "cola" in hazards_in(found.name):
        hazards.add("cola")
    return frozenset(hazards | (told & {"acid", "cola"}))


def _cure_hazards(cure: Cure) -> FrozenSet[str]:
    hazards = {"cure"} if cure.nitrite else set()
    if cure.nitrate:
        hazards.add("nitrate")
    return frozenset(hazards)
