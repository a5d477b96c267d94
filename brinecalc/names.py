"""Looking a name up the way a cook types it: without regard to case, spaces, accents or plural.

One idea: every name and alias is folded to a key once, what is typed is folded the same way, and the two are
compared. A miss is answered with the nearest known names, never with a guess.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import Callable, Dict, Generic, Iterable, List, Tuple, TypeVar

from brinecalc.errors import UnknownName

_WORD = re.compile(r"[^\W_]+(?:[.,][^\W_]+)*%?")
_LONGEST = 120  # no name in any table is near this; a cell may hold 32,767 characters
_LONGEST_LIKE = 50  # a longer text is no misspelt name
_LIKE = 0.65  # likeness from which a name is worth naming; below it "chocolate cake" is like a whole chicken
_LIKE_BESIDE = 0.75  # of what is left of a salt without its metal: "propionate" is as like "pyrophosphate" as 0.70
_METALS = ("sodium", "potassium", "calcium", "magnesium", "ammonium", "copper", "zinc")
_FEW = 50  # of more names the first six say nothing about the rest
_SHORTEST_MEANT = 5
_MEANT = 0.85  # likeness from which a misspelt name is taken for a known one
_MEMORY = 8192  # typed spellings whose keys are remembered
_MEMORY_OF_MISSES = 1024

Thing = TypeVar("Thing")


def singular(word: str) -> str:
    """A word without its English plural ending; both sides of a comparison go through it."""
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("oes", "ses", "xes", "ches", "shes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def fold(text: str) -> str:
    """The key of a name: lower case, no accents, no spaces or punctuation, each word in the singular."""
    return _folded(text[:_LONGEST])


@lru_cache(_MEMORY)
def _folded(text: str) -> str:
    plain = text.casefold()
    if not plain.isascii():
        plain = unicodedata.normalize("NFKD", plain)
        plain = "".join(c for c in plain if not unicodedata.combining(c))
    return "".join(singular(word) for word in _WORD.findall(plain))


def _is_like_beside(key: str, known: str) -> bool:
    """Whether two keys are alike beside the metal in them: benzoate is not like acetate for the sodium of both."""
    metal = next((metal for metal in _METALS if metal in key), "")
    if not metal:
        return True
    import difflib  # only a miss needs it

    rest, others = key.replace(metal, ""), known.replace(metal, "")
    return metal in known and difflib.SequenceMatcher(None, others, rest).ratio() >= _LIKE_BESIDE


def _bits(key: str) -> int:
    """The letters of a key as bits: two keys have at most as many letters in common as bits that both have set.

    A letter has one of 38 bits, the next one 38 further up when it stands there again. None of a to z and 0 to 9 share
    one; a letter beyond these counts as another, which rules out less and never too much.
    """
    bits = 0
    for letter in key:
        bit = 1 << ord(letter) % 38
        while bits & bit:
            bit <<= 38
        bits |= bit
    return bits


class Names(Generic[Thing]):
    """A closed set of names with aliases. ``what`` names the set in reasons: "product", "sweetener" …

    ``quiet`` names are found when typed and never suggested: nobody is to be led to lye by a slip of the keyboard. Nor
    is anybody led away from it: for a text of which ``instead`` has something to say, that is said and no name. What to
    do where no name is like the text is ``otherwise``.
    """

    def __init__(
        self,
        what: str,
        entries: Iterable[Tuple[str, Iterable[str], Thing]],
        quiet: Iterable[str] = (),
        instead: Callable[[str], str] = lambda _: "",
        otherwise: str = "",
    ) -> None:
        self.what = what
        self.instead = instead
        self.otherwise = otherwise
        self.quiet = frozenset(quiet)
        self._things: Dict[str, Thing] = {}
        self._shown: Dict[str, str] = {}
        self._by_length: Dict[int, List[Tuple[str, int]]] = {}
        self._found: Dict[Tuple[str, int, float], List[str]] = {}
        self.names: List[str] = []
        for name, aliases, thing in entries:
            self.names.append(name)
            for spelling in (name, *aliases):
                key = fold(spelling)
                if key in self._things and self._shown[key] != name:
                    raise ValueError(f"{what} names {name!r} and {self._shown[key]!r} share the spelling {spelling!r}")
                self._things[key] = thing
                self._shown[key] = name

    def find(self, text: str, argument: str | None = None) -> Thing:
        """The thing of that name; UnknownName with the nearest names otherwise."""
        try:
            return self._things[fold(text)]
        except KeyError:
            raise self.unknown(text, argument) from None

    def __contains__(self, text: str) -> bool:
        return fold(text) in self._things

    def nearest(self, text: str, most: int = 3) -> List[str]:
        """Up to `most` known names that look like `text`, the likeliest first.

        Where a quiet one is the likeliest there are none, for the next best would be a wrong track.
        """
        key = fold(text)
        if not key or len(key) > _LONGEST_LIKE or self.instead(text):
            return []
        found = [known for known in self._like(key, 9 * most, _LIKE) if _is_like_beside(key, known)]
        words = [fold(word) for word in text.split()]
        inside = [k for k in self._things if words[0] in k and all(word in k for word in words)] if len(key) > 2 else []
        if len(words) > 1:
            inside.sort(key=len)  # the fewest words besides those typed
        inside = [k for k in inside if self._shown[k] not in self.quiet]
        if not inside and self._is_quiet_first(key, found):
            return []
        shown: List[str] = []
        for k in (*inside, *found):
            if self._shown[k] not in shown and self._shown[k] not in self.quiet:
                shown.append(self._shown[k])
        return shown[:most]

    def _is_quiet_first(self, key: str, found: List[str]) -> bool:
        """Whether a quiet name is nearer to `key` than any other of those `found`."""
        import difflib

        if not found or self._shown[found[0]] not in self.quiet:
            return False
        loud = next((k for k in found if self._shown[k] not in self.quiet), "")
        likeness = difflib.SequenceMatcher(b=key)
        likeness.set_seq1(found[0])
        nearest = likeness.ratio()
        likeness.set_seq1(loud)
        return nearest > likeness.ratio()

    def meant(self, text: str) -> Thing | None:
        """What a slightly misspelt name most likely means, quiet names included; None where nothing is near enough."""
        key = fold(text)
        if not _SHORTEST_MEANT <= len(key) <= _LONGEST_LIKE:
            return None
        near = self._like(key, 1, _MEANT)
        return self._things[near[0]] if near else None

    def _like(self, key: str, most: int, least: float) -> List[str]:
        """What `_look_through` finds, remembered: a column of cells asks for the same misspelt name again and again."""
        found = self._found.get((key, most, least))
        if found is None:
            if len(self._found) >= _MEMORY_OF_MISSES:
                self._found.clear()
            found = self._found[key, most, least] = self._look_through(key, most, least)
        return found

    def _look_through(self, key: str, most: int, least: float) -> List[str]:
        """The `most` keys that are likest to `key`, of those whose likeness is `least` or more.

        Likeness is twice the letters in common over all letters. Letters in common that stand in another order count
        for less or nothing, so with all of them counted most names are ruled out before they are compared, which
        costs far more.
        """
        import difflib  # only a miss needs it

        if not self._by_length:
            for known in self._things:
                self._by_length.setdefault(len(known), []).append((known, _bits(known)))
        asked, size, alike = _bits(key), len(key), []
        for length, written in self._by_length.items():
            fewest = least * (size + length) / 2
            if min(size, length) >= fewest:
                alike += [known for known, bits in written if bin(asked & bits).count("1") >= fewest]
        return difflib.get_close_matches(key, alike, n=most, cutoff=least)

    def unknown(self, text: str, argument: str | None = None) -> UnknownName:
        """The error for a name that is not here, with what to type instead."""
        given = text if len(text) <= 40 else text[:39] + "…"
        return UnknownName(
            f"is not a known {self.what}", argument=argument, got=f'"{given}"', advice=lambda: self._suggestion(text)
        )

    def _suggestion(self, text: str) -> str:
        instead = self.instead(text[:_LONGEST])
        if instead:
            return instead
        near = self.nearest(text)
        if not near and self.quiet and self._like(fold(text), 1, _LIKE):
            return "write its full name; what can hurt is never guessed at"
        if not near and len(self.names) > _FEW:
            way = f"; {self.otherwise}" if self.otherwise else ""
            return f"none of the {len(self.names)} {self.what} names is like it{way}"
        quoted = ", ".join(f'"{name}"' for name in near or self.names[:6])
        return f"did you mean {quoted}?" if near else f"known {self.what} names include {quoted}"
