"""What a row's own words, under "note" and "for", say of how the food is smoked, salted, eaten or kept.

One idea: a note speaks of much besides the product, so a clause is heard only where it is about nothing else: "cold
smoked over oak" is, "with smoked butter" and "not smoked" are not. The words are common practice, no source.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Tuple

from brinecalc.trade import flesh
from brinecalc.trade.hazards import words_in
from brinecalc.trade.row import Row

_TEXTS = ("for", "note")
_CLAUSE = re.compile(r"[,;:.()!?\n]|\b(?:then|and|but|or)\b", re.IGNORECASE)
_LEAD = (
    "for|to|be|will|is|it|as|a|an|the|this|one|half|later|afterwards?|serv\\w+|eaten|go|goe|going|into|today|tomorrow"
    "|lightly|gently|slowly|home|house|made"
)
"""Words that may stand before what is done."""
_FOOD = "|".join(("fillet", "side", "loin", "belly", "slice", *(word for word in flesh.ALL_FISH if " " not in word)))
_TAIL = (
    r"(?:over|on|at|for|until|till|with|to|\d+) .+|in the (?:smoker|kiln|cabinet|smokehouse)"
    "|overnight|later|afterwards?|today"
    "|tomorrow|(?:bagel|platter|blini|toast|canapé|canape|starter|sandwich|board)(?: .+)?"
)
"""How long, how warm and over what it is done, and what it is made into."""
SMOKE = (
    r"(?:hot |cold )?(?:smok(?:e|ed|er|ing)|smokehouse)|lox|kipper(?:ed)?|(?:kalt ?)?geräuchert\w*|räucherlachs|fumé"
)
SALTED = (
    "cold smok(?:e|ed|ing)|kalt ?geräuchert|gebeizt|lox|gravlax|gravad\\w*|gravlak|matje|rollmop"
    "|escabeche|souse|soused|(?:dry )?cured"
    "|dry salted|salted down|marinat(?:ed|ing)|pickl(?:ed|ing)"
)
"""Ways of salting, souring and smoking after which food is eaten uncooked."""
RAW_DISH = (
    r"(?:(?:chicken|turkey|duck|goose|poultry|pork) (?:\w+ )?)?(?:tartare|sashimi|carpaccio|ceviche|crudo|torisashi)"
    "|(?:served|serve|eaten|eat|eating) raw|rohverzehr"
)
"""Dishes of raw meat or fish, without the sauces that are called after them."""
CURED_DISH = "(?:pork )?(?:salami|prosciutto|coppa|speck|lonza|culatello|saucisson|mettwurst|jerky|biltong)"
UNCOOKED = "(?:not|never) cooked|uncooked|raw|without cooking"
_KEPT = re.compile(
    r" (?:to )?(?:be )?(?:keep|kept|store|stored|storage|stand|standing|hold|held)(?: it| them)? (?:at |on |in )?"
    r"(?:the |a )?(?:room temperature|room temp|ambient|ambient temperature|counter"
    r"|countertop|worktop|shelf|pantry|larder|cupboard"
    r"|cellar|unrefrigerated|unchilled|without refrigeration|without cooling|out of the fridge) "
)
"""Keeping without cold; what only comes to the warmth of the room before it is cooked is not kept there."""


def says(row: Row, words: str, *more: str) -> bool:
    """Whether a clause of the row's own words, or of `more` columns, is one of these, given as a pattern."""
    return any(_says(row.text(heading), words) for heading in (*_TEXTS, *more) if row.text(heading))


def is_kept_warm(row: Row) -> bool:
    """Whether it says that the food is kept without cold."""
    return any(_KEPT.fullmatch(clause) for heading in (*_TEXTS, "treatment") for clause in _clauses(row.text(heading)))


def is_for(row: Row, *words: str) -> bool:
    """Whether a clause under "for" is one of these words."""
    return any(clause.strip() in words for clause in _clauses(row.text("for")))


@lru_cache(maxsize=256)
def _says(text: str, words: str) -> bool:
    said = _pattern(words)
    return any(said.fullmatch(clause) for clause in _clauses(text))


@lru_cache(maxsize=16)
def _pattern(words: str) -> "re.Pattern[str]":
    return re.compile(rf" (?:(?:{_LEAD}) )*(?:{words}) (?:(?:{_FOOD}) )*(?:(?:{_TAIL}) )?")


@lru_cache(maxsize=256)
def _clauses(text: str) -> Tuple[str, ...]:
    """The words of each clause of a text."""
    return tuple(words_in(clause) for clause in _CLAUSE.split(text)) if text else ()
