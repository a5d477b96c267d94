"""How food is eaten in the end, as any cell of a production row says it: raw, cooked, cut thin, by an infant.

One idea: the word may stand in any column, the note too. What lets food pass, as being cooked does, is believed only
where nothing beside it takes it back. The words are common practice, no source.
"""

from __future__ import annotations

import re

from brinecalc.trade import named, remarks
from brinecalc.trade.row import Row

_LATER = (" cooked through ", " cook through ", " for cooking ", " to be cooked ", " will be cooked ")
"""Believed of what is smoked cold, too: the smoke is no part of it."""
_COOKED = (
    *_LATER, " hot smoked ", " hot smoke ", " hot smoking ", " fully cooked ", " pasteurised ", " pasteurized ",
)  # fmt: skip
"""Believed in any column."""
_STOVE = (
    " cooked ", " poached ", " grilled ", " roasted ", " baked ", " fried ", " steamed ", " boiled ", " braised ",
    " stewed ", " confit ", " poach ", " grill ", " roast ", " fry ", " sous vide cooked ",
)  # fmt: skip
"""Believed in the columns that are about the product itself; a note may speak of what is served beside it."""
_SOLD_COOKED = (" cooked ", " roasted ", " boiled ", " steamed ", " pasteurised ", " pasteurized ", " smoked ")
"""What a label says of food that goes out ready."""
_TO_COME = re.compile(r" (?:to|will|must|should|can|may) be (?:cooked|roasted|boiled|steamed|pasteuri[sz]ed|smoked) ")
"""What is done to it later, by whoever buys it raw."""
_IN_THE_POT = (
    "poach", "poached", "poaching", "simmer", "simmered", "boil", "boiled", "cook", "cooked", "cooking", "confit",
    "blanch", "blanched", "sous vide", "steeped hot",
)  # fmt: skip
"""Said of a bath that is the pot itself."""
ABOUT = ("product", "method", "treatment", "packaging", "kind")
"""The columns that are about the product itself, and not about what goes with it."""
_THIN = (
    " jerky ", " biltong ", " strip ", " sliced ", " slice ", " thin ", " thinly ", " shaved ", " carpaccio ",
    " escalope ", " paillard ", " minute steak ", " schnitzel ",
)  # fmt: skip
_NOT_COOKED = (
    " not ", " never ", " no ", " without ", " half ", " part ", " partly ", " lightly ", " under ", " raw ", " rare ",
)  # fmt: skip
_RARE = (" rare ", " medium rare ", " served pink ", " serve pink ", " underdone ", " saignant ")
_NOT_RARE = re.compile(r" (?:not|never|no) (?:medium )?rare | rare breed ")
_COLD_SMOKE = (" cold smoked ", " cold smoke ", " cold smoking ")
_RAW = (
    " sashimi ", " sushi ", " nigiri ", " maki ", " ceviche ", " cebiche ", " tiradito ", " crudo ", " carpaccio ",
    " tartare ", " tartar ", " poke ", " served raw ", " serve raw ", " eaten raw ", " eat raw ", " to eat raw ",
    " eat it raw ", " serve it raw ",
    " raw bar ", " kinilaw ", " poisson cru ", " lomi lomi ", " rohverzehr ", " roh verzehrt ", " roh gegessen ",
    " roh serviert ", " roh essen ", " servi cru ", " mangé cru ", " manger cru ",
)  # fmt: skip
_RAW_ALONE = ("raw", "uncooked", "not cooked", "eating raw", "roh", "cru", "crudo")
"""Said of how it is eaten; anywhere else they may be about how it is bought."""
_NOT_RAW = re.compile(r" (?:not|never|no) (?:to )?(?:be )?(?:served|serve|eaten|eat)(?: it)? raw ")
_BABIES = (" baby ", " infant ", " newborn ", " nursery ", " weaning ")
_INFANTS = (
    *_BABIES, " toddler ", " child ", " children ", " kindergarten ", " daycare ", " day care ", " creche ", " crèche ",
    " preschool ", " kid menu ", " kid meal ",
)  # fmt: skip
_NUMBERS = {word: many for many, word in enumerate("one two three four five six seven eight nine ten".split(), 1)}
_AGE = re.compile(rf" for (?:an? |the )?(\d{{1,2}}|{'|'.join(_NUMBERS)}) (?:to \w+ )?(month|year) old ")
"""The age of a child; what is not for somebody, a ham of 12 months, is food that has ripened."""
_INFANT, _TODDLER = 12, 36
"""Months up to which a child is one: 12 is the age up to which honey is warned of, 36 the end of the third year."""
_YOUNG = re.compile(r" baby (?=(?:back|beet|carrot|corn|leaf|octopus|potato|spinach|squid|turnip|vegetable) )")
"""Food that is called a baby itself."""


def is_cooked(row: Row) -> bool:
    """Whether it is said to be cooked or smoked hot, and nothing in the row takes that back."""
    if is_raw(row):
        return False
    if any(word in row.words for word in _COLD_SMOKE):
        return any(_says(text, _LATER) for text in row.said)
    own = (row.text(heading) for heading in ABOUT)
    return any(_says(text, _COOKED) for text in row.said) or any(_says(text, _STOVE) for text in own)


def is_cooked_in_its_bath(row: Row) -> bool:
    """Whether the row says that it is cooked in that bath; a note may speak of another day's roasting."""
    words = named.words_in(row.text("method")) + named.words_in(row.text("treatment"))
    return any(f" {word} " in words for word in _IN_THE_POT)


def is_sold_cooked(row: Row) -> bool:
    """Whether it goes out cooked or smoked, as far as the cells about the product say, and nothing takes that back."""
    said = _TO_COME.sub(" ", "".join(named.words_in(row.text(heading)) for heading in ABOUT))
    return any(word in said for word in _SOLD_COOKED) and not (" not " in said or " raw " in said)


def _says(text: str, cooked: "tuple[str, ...]") -> bool:
    words = named.words_in(text)
    return any(word in words for word in cooked) and not any(word in words for word in _NOT_COOKED)


def is_raw(row: Row) -> bool:
    """Whether it is served raw, by a word of the kitchen for that."""
    words = _NOT_RAW.sub(" ", row.words)
    return any(word in words for word in _RAW) or remarks.is_for(row, *_RAW_ALONE)


def is_eaten_uncooked(row: Row) -> bool:
    """Whether the row says in so many words that it is eaten raw, or made into salami and the like without cooking."""
    about = ("product", "method", "treatment")
    if remarks.is_for(row, *_RAW_ALONE) or remarks.says(row, remarks.RAW_DISH, *about):
        return True
    return remarks.says(row, remarks.CURED_DISH, *about) and remarks.says(row, remarks.UNCOOKED, *about)


def is_rare(row: Row) -> bool:
    """Whether it is served raw or hardly cooked inside."""
    words = _NOT_RARE.sub(" ", row.words)
    return is_raw(row) or any(word in words for word in _RARE)


def is_thin(row: Row) -> bool:
    """Whether it is said to be cut thin."""
    return any(word in row.words for word in _THIN)


def is_for_infants(row: Row) -> bool:
    """Whether the row speaks of a baby, an infant or a toddler."""
    return _is_for(row, _INFANTS, _TODDLER)


def is_for_babies(row: Row) -> bool:
    """Whether it speaks of a child in its first year."""
    return _is_for(row, _BABIES, _INFANT)


def _is_for(row: Row, whom: "tuple[str, ...]", months: int) -> bool:
    words = _YOUNG.sub(" ", row.words)
    return any(word in words for word in whom) or any(_months(*age) <= months for age in _AGE.findall(words))


def _months(figure: str, unit: str) -> int:
    many = _NUMBERS[figure] if figure in _NUMBERS else int(figure)
    return many * 12 if unit == "year" else many
