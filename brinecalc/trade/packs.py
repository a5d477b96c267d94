"""How food is packed and kept, as the packaging of a production row says it.

One idea: words that make a rule speak are believed when they are misspelt too; words that let food pass (cold, frozen,
an airlock) only when they stand there as they are, and not beside a "not" or "until opened". The words are common
practice, no source.
"""

from __future__ import annotations

import re

from brinecalc.trade import limits, named, remarks
from brinecalc.trade.row import Row

_NO_AIR = (
    "vacuum", "vacuumed", "vac", "vac pac", "vac pack", "sous vide", "reduced oxygen", "rop", "map",
    "modified atmosphere", "controlled atmosphere", "no air", "without air", "airless", "no oxygen", "oxygen free",
    "oxygen absorber", "oxygen scavenger", "skin pack", "skin packed", "skinpack", "vacuum skin", "nitrogen",
    "gas flushed", "gas flush", "co2", "carbon dioxide", "sealed pouch", "heat sealed", "cook chill",
)  # fmt: skip
_CAP = re.compile(r"\bCAP\b|^cap$")
"""Controlled atmosphere by its initials; in small letters among other words a cap is a lid."""
_AGAINST_OIL = re.compile(r" oil (?:proof|resistant|paper) ")
_JAR = (
    "jar", "jarred", "can", "canned", "canning", "tin", "tinned", "bottle", "bottled", "hermetic", "hermetically",
    "airtight", "air tight",
)  # fmt: skip
_SEALED = ("sealed", "crock sealed", *_JAR)
_SHELF = ("shelf", "pantry", "canned", "canning", "tinned", "larder", "cupboard")
_OPEN = (" crock ", " barrel ", " cask ", " bucket ", " tub ", " vat ", " bowl ")
"""Vessels in which air gets at a ferment, unless they are said to be shut."""
_ROOM = (
    "cellar", "dry store", "dry storage", "window sill", "windowsill", "ambient", "room temperature", "room temp",
    "on the counter", "countertop", "counter top", "worktop", "not refrigerated", "not chilled", "no fridge",
)  # fmt: skip
_UNCHILLED = ("unrefrigerated", "unchilled")
"""Looked for among words in un- alone, for "refrigerated" is as like to them as a slip."""
_COLD = (
    " fridge ", " refrigerated ", " refrigerate ", " refrigerator ", " refrigeration ", " chilled ", " chiller ",
    " cold room ", " cold store ", " cold stored ", " cool room ", " kept cold ", " keep cold ", " walk in ",
)  # fmt: skip
_NOT_COLD = (
    " not ", " no ", " without ", " never ", " out of ", " until ", " after ", " once ", " when ", " if ", " before ",
)  # fmt: skip
_FROZEN = (" frozen ", " freezer ", " deep freeze ", " deep frozen ")
_NOT_FROZEN = (
    " not ", " no ", " never ", " thawed ", " thaw ", " defrosted ", " previously ", " before ", " from ", " was ",
    " been ", " once ", " until ", " unfrozen ", " refrozen ", " out of ", " half ", " part ", " partly ",
)  # fmt: skip
_AIRLOCK = (
    " airlock ", " air lock ", " fermentation lid ", " fermenting lid ", " water seal ", " water sealed ", " moat ",
    " loose lid ",
    " cloth cover ", " cloth lid ", " cloth over ", " covered with cloth ", " burped ", " open jar ", " open crock ",
    " unsealed ",
)  # fmt: skip
_NO_AIRLOCK = (" not ", " no ", " without ", " instead of ", " after ", " until ")


def is_airless(row: Row) -> bool:
    """Whether air is kept from the food: vacuum, another gas, oil, or something shut tight without an airlock."""
    return is_bagged(row) or is_in_oil(row) or is_sealed(row)


def is_bagged(row: Row) -> bool:
    """Whether the pack holds no air by vacuum or by another gas."""
    text = row.text("packaging")
    return _is(row, _NO_AIR) or _CAP.search(text) is not None


def is_in_oil(row: Row) -> bool:
    """Whether the food is kept under oil, by the packaging or by what the product is called."""
    said = [named.undenied(row.text(heading), ("oil",)) for heading in ("packaging", "product")]
    return any(" oil " in _AGAINST_OIL.sub(" ", words) for words in said)


def is_sealed(row: Row) -> bool:
    """Whether it is shut tight: a jar, bottle or can, and no airlock on it."""
    return _is(row, _SEALED) and not has_airlock(row)


def is_jar(row: Row) -> bool:
    """Whether it is put up in a jar, bottle or can, as what is to keep for long."""
    return is_sealed(row) and _is(row, _JAR)


def has_airlock(row: Row) -> bool:
    """Whether gas can leave a ferment, by an airlock, a water seal or a cloth: no seal. Of other food it is none."""
    return row.group == "vegetable" and _says(row, _AIRLOCK) and not _says(row, _NO_AIRLOCK)


def is_for_shelf(row: Row) -> bool:
    """Whether it is kept on a shelf, without cold."""
    return _is(row, _SHELF) or (_is_in_a_room(row) and not (has_airlock(row) or _is_open(row)))


def _is_open(row: Row) -> bool:
    """Whether it is a vegetable in an open vessel, which its own souring keeps and the air keeps from botulism."""
    return row.group == "vegetable" and _says(row, _OPEN) and not (is_airless(row) or _is(row, _SEALED))


def is_cold(row: Row) -> bool:
    """Whether it is said to be kept cold: by the packaging, or by a temperature of the row that is."""
    if is_for_shelf(row) or _is_in_a_room(row):
        return False
    if is_frozen(row) or _says_cold(row):
        return True
    return is_at_most(row, limits.value("brine temperature"))


def is_frozen(row: Row) -> bool:
    """Whether it is kept frozen in its pack."""
    return _says(row, _FROZEN) and not _says(row, _NOT_FROZEN)


def is_at_most(row: Row, most: float) -> bool:
    """Whether the temperature of the row is known and not above that."""
    celsius = row.number("bath temperature")
    return celsius is not None and not limits.warmer(celsius, most)


def _is_in_a_room(row: Row) -> bool:
    """Whether it is said to stand unchilled, by the packaging or the row's own words."""
    if remarks.is_kept_warm(row):
        return True
    undone = " ".join(word for word in row.text("packaging").casefold().split() if word.startswith("un"))
    return _is(row, _ROOM) or named.says(undone, _UNCHILLED)


def _says_cold(row: Row) -> bool:
    return _says(row, _COLD) and not _says(row, _NOT_COLD)


def _is(row: Row, words: "tuple[str, ...]") -> bool:
    """Whether the packaging says one of these words, or a long one of them misspelt, and not only that it is not so."""
    text = row.text("packaging")
    if not text or " unsealed " in named.words_in(text):
        return False
    return named.says(text, words) and not named.is_denied(text, words)


def _says(row: Row, words: "tuple[str, ...]") -> bool:
    """Whether the packaging says one of these words as they are."""
    text = row.text("packaging")
    return bool(text) and any(word in named.words_in(text) for word in words)
