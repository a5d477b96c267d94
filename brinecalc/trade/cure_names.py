"""The curing salt that a name means when no table knows it: by the strength written in it, or as nitrite itself.

One idea: a packet says how much nitrite is in it ("curing salt 10 %", "cure with 5 % nitrite"), so that figure is
reckoned with, the largest where there are several; a name that speaks of nitrite and of no mix is taken for pure
nitrite, which no kitchen weighs out.
"""

from __future__ import annotations

import re
from typing import FrozenSet, Iterable, Optional

from brinecalc.names import Names, fold
from brinecalc.trade import curing
from brinecalc.trade.curing import Cure
from brinecalc.trade.ingredients import Ingredient

WRITTEN = "written"
"""The status of a cure whose strength stands in its name."""
DILUTED = "diluted"
"""The same, where the name is that of nitrite itself, so that its figure might as well be how much of it is meant."""

_STRENGTH = re.compile(
    r"(?<![\d.,])(\d{1,3}(?:[.,]\d{1,4})?)\s*(?:%|per ?cent\b|pct\b)"
    r"(?!\s*(?:(?:sea|table|fine|common|cooking) )?(?:salt\b|nacl\b|sodium chloride\b))",
    re.IGNORECASE,
)
"""A figure in per cent that is not the salt's: in "93.75 % salt, 6.25 % nitrite" the second."""
_EMPTY = re.compile(r"[(\[]\s*[)\]]")
_ANY_GRADE = frozenset(map(fold, (
    "curing salt", "cure", "nitrite cure", "nitrite curing salt", "pink curing salt", "pink salt", "nitrite salt",
    "nitrited salt", "pökelsalz", "nitritpökelsalz", "nps", "sel nitrité",
)))  # fmt: skip
"""Names that the table has for one grade and packets have for all."""
_ITSELF = ("sodium nitrite", "potassium nitrite", "natriumnitrit", "nano2", "kno2", "e249", "e250", "e 249", "e 250")
_MIXED = ("cure", "curing", "mix", "mixture", "mixed", "premix", "premixed", "blend", "with", "containing", "celery",
          "chard", "vegetable", "free", "no", "without")  # fmt: skip
"""Words of a name that is not of nitrite alone."""


def read(text: str, words: str, hazards: FrozenSet[str], table: Names[Ingredient]) -> Optional[Cure]:
    """The curing salt of a name with its strength; None where the name gives none and is not nitrite's own.

    `words` and `hazards` are those of the name as `named` reads them, `table` the ingredients.
    """
    base = _EMPTY.sub(" ", _STRENGTH.sub(" ", text)).strip(" ,;:-")
    role = table.find(base).role if base in table else ""
    if role not in ("", "cure") or _has(words, ("accelerator",)):  # which brings no nitrite
        return None
    grade = curing.cures().find(base) if base in curing.cures() else curing.cures().meant(base)
    if grade is None and not role and not hazards & {"cure", "nitrate"}:
        return None
    pure = curing.cures().find("sodium nitrite")
    is_itself = not _has(words, _MIXED) and (
        grade is pure or _has(words, _ITSELF) or (_has(words, ("nitrite",)) and not _has(words, ("salt",)))
    )
    share = _share(text, is_itself)
    if share is None:
        return pure if is_itself else None
    if is_itself:
        return _made(text, share, 0.0, DILUTED)
    if grade is not None and not grade.nitrite:
        return _made(text, share if "cure" in hazards else 0.0, share, WRITTEN)
    if grade is not None and base in curing.cures() and fold(base) not in _ANY_GRADE:
        return _made(text, max(share, grade.nitrite), grade.nitrate, WRITTEN)
    only_nitrate = hazards & {"cure", "nitrate"} == {"nitrate"}
    return _made(text, 0.0 if only_nitrate else share, share if "nitrate" in hazards else 0.0, WRITTEN)


def _made(text: str, nitrite: float, nitrate: float, status: str) -> Cure:
    salt = max(0.0, 1.0 - nitrite - nitrate)
    return Cure(text, (), nitrite, nitrate, salt, "definition", status, None)


def _share(text: str, is_itself: bool) -> Optional[float]:
    """The largest share written; 100 % is a word of praise but with nitrite itself."""
    figures = [float(figure.replace(",", ".")) / 100.0 for figure in _STRENGTH.findall(text)]
    fit = [share for share in figures if share > 0.0 and (share < 1.0 or is_itself)]
    return max(fit) if fit else None


def _has(words: str, any_of: Iterable[str]) -> bool:
    return any(f" {word} " in words for word in any_of)
