"""How the salt gets in, as the method of a production row says it.

One idea: there are four ways, gradient, equilibrium, dry equilibrium and injected, and cooks write each in many
words; a text that speaks of two of them is two jobs, and one that speaks of none was not understood. The words are
common practice, no source.
"""

from __future__ import annotations

import difflib
from functools import cache, lru_cache
from typing import Dict, FrozenSet, Tuple

from brinecalc.names import Names
from brinecalc.trade import ingoing, named, needles, smoked, treatments

NAMES = ("gradient", "equilibrium", "dry equilibrium", "injected")
_NONE: FrozenSet[str] = frozenset()
_WORDS = {
    "gradient": ("gradient", "soak", "soaked", "soaking", "immersed", "immersion", "immerse", "submerged", "cover",
                 "covered", "bath", "freshen", "freshened", "freshening", "desalt", "desalted", "desalting"),
    "equilibrium": ("equilibrium",),
    "dry equilibrium": ("dry", "rub", "rubbed", "gravlax", "gravad", "gravadlax"),
    "injected": needles.INJECTED,
}  # fmt: skip
EVEN = frozenset(("equilibrium", "dry equilibrium"))
"""The ways that end where salt has evened out, and not when the product is taken out of the brine."""
_BRINE = ("brine", "brined", "brining", "wet", "marinate", "marinated", "marinade", "marinating")
"""Words of a bath that stand for it where nothing else is said: what is injected is a brine too."""
_SALT = ("salted", "salting", "sprinkled")
"""Words of salt strewn on, where nothing else is said: what lies in a brine is salted too."""
_SPOKEN = (*(word for words in _WORDS.values() for word in words), *_BRINE, *_SALT)
_BRUSHED_OFF = ("rub", "rubbed", "gravlax", "gravad", "gravadlax", "cure", "cured", "curing", *_SALT)
"""Words of salting dry in which more salt is strewn than goes in, and the rest is brushed or rinsed off."""
_BESIDE = (
    *smoked.WORDS, "cure", "cured", "curing", "tumble", "tumbled", "tumbling", "massage", "massaged", "needled",
    "bladed", "tenderised", "tenderized", "corned", "pickle", "pickled", "pickling", "ferment", "fermented",
    "fermenting", "fermentation", "lacto", "lactofermented", "lactofermentation", "ceviche",
)  # fmt: skip
"""Words that rules listen to, and that say nothing of how the salt gets in."""
_LIKELY = {"overnight": "gradient", "steep": "gradient", "steeped": "gradient", "needle": "injected",
           "syringe": "injected"}  # fmt: skip
_OF_CURING: Dict[str, FrozenSet[str]] = {
    "dry": frozenset(("dry equilibrium",)), "pumped": frozenset(("injected",)), "pick-up": frozenset(("gradient",)),
    "equilibrium": frozenset(("equilibrium",)), "comminuted": _NONE,
}  # fmt: skip
_READ = 200  # characters of a text
_MEMORY = 256  # texts remembered: a sheet says the same few
_NEAR = 0.75  # likeness from which a word is worth naming as what was meant


@cache
def _of_word() -> Dict[str, str]:
    return {word: name for name, words in _WORDS.items() for word in words}


@cache
def _names() -> Names[str]:
    return Names("method", [(name, (f"{name} brine", f"{name} brining"), name) for name in NAMES])


@lru_cache(maxsize=_MEMORY)
def ways(text: str) -> FrozenSet[str]:
    """The ways of getting salt in that a text speaks of: one as a rule, two of what is pumped and then soaked.

    One that is denied is none: "equilibrium, no injection".
    """
    if text in _names():
        return frozenset((_names().find(text),))
    curing = ingoing.named_method(text)
    if curing is not None:
        return _OF_CURING[curing]
    words = tuple(named.undenied(text[:_READ], _SPOKEN).split())
    found = {_of_word()[word] for word in words if word in _of_word()}
    if "dry equilibrium" in found:
        found.discard("equilibrium")
    elif "equilibrium" in found:
        found.discard("gradient")
    if not found and any(word in _BRINE for word in words):
        found = {"gradient"}
    if not found and any(word in _SALT for word in words):
        found = {"dry equilibrium"}
    return frozenset(found)


def goes_even(text: str) -> bool:
    """Whether a text speaks of a way that ends where salt has evened out: equilibrium, in a brine or dry."""
    return bool(ways(text) & EVEN)


def leaves_salt_outside(text: str) -> bool:
    """Whether salt is strewn on by a custom that brushes part of it off, and is not weighed out to stay."""
    words = _split(text)
    return "dry equilibrium" in ways(text) and "equilibrium" not in words and any(w in _BRUSHED_OFF for w in words)


@lru_cache(maxsize=_MEMORY)
def is_known(text: str) -> bool:
    """Whether a text says anything that the rules go by."""
    if ways(text) or ingoing.named_method(text) is not None:
        return True
    return any(word in _BESIDE for word in _split(text)) or "cola" in named.hazards_in(text)


def meant(text: str) -> str:
    """The method that an unknown one most likely means, or ""."""
    for word in _split(text):
        found = _LIKELY.get(word) or _of_word().get(_nearest(word, tuple(_of_word())))
        if found:
            return found
    return ""


@lru_cache(maxsize=_MEMORY)
def treatment_meant(text: str) -> str:
    """The treatment that a misspelt one most likely means, or "" where it is spelt right or is none of ours."""
    known = tuple(treatments.treatments())
    words = _split(text)
    if any(word in known or word in _BESIDE or word in _of_word() for word in words):
        return ""
    return next(filter(None, (_nearest(word, known) for word in words)), "")


_LONGEST = 30  # letters; a longer word is no misspelt one


def _nearest(word: str, known: Tuple[str, ...]) -> str:
    near = difflib.get_close_matches(word, known, n=1, cutoff=_NEAR) if len(word) <= _LONGEST else []
    return near[0] if near else ""


def _split(text: str) -> Tuple[str, ...]:
    return tuple(named.words_in(text[:_READ]).split())
