"""What a vessel is made of, as the cells of a production row say it.

One idea: people write what a vessel is made of in many ways, so words are looked for in the material and in what the
vessel is called. The words are common practice, no source.
"""

from __future__ import annotations

import re

from brinecalc.trade import named
from brinecalc.trade.row import Row

_ALUMINIUM = ("aluminium", "aluminum", "alu")
TOXIC = ("copper", "brass", "bronze", "zinc", "galvanised", "galvanized", "lead", "pewter", "cadmium")
REACTIVE = (*_ALUMINIUM, "iron", "carbon steel", "mild steel", "black steel", "tin", "tinned")
NOT_FOR_FOOD = (
    "bin bag", "bin liner", "trash bag", "garbage bag", "garbage can", "trash can", "dustbin", "rubbish bin",
    "paint bucket", "builder bucket", "painted", "non food grade", "not food grade", "unlined wood", "treated wood",
    "concrete", "oil drum", "chemical drum", "fertiliser bag", "fertilizer bag", "feed sack", "compost bag",
)  # fmt: skip
_KNOWN = (
    "stainless", "ss", "s s", "steel", "inox", "glass", "jar", "carboy", "plastic", "food bucket", "polypropylene",
    "polyethylene", "polycarbonate", "polythene", "polyester", "nylon", "acrylic", "melamine", "silicone", "pp", "pe",
    "pc", "pet", "hdpe", "ldpe", "food grade", "food safe", "ceramic", "china", "porcelain", "stoneware", "crock",
    "crockery", "pottery", "clay", "enamel", "enamelled", "enameled", "wood", "wooden", "oak", "beech", "pine",
    "cedar", "titanium", "fibreglass", "fiberglass", "bag", "pouch", "vacuum", "gastronorm", "gn", "hotel pan", "304",
    "316", "18 10", "edelstahl", "acier inoxydable", "acero inoxidable", "acciaio inossidabile", "kunststoff",
    "plastique", "plástico", "plastico", "plastica", "rvs", "glas", "verre", "vidrio", "vidro", "vetro", "holz",
    "bois", "madera", "legno", "steingut", "steinzeug", "keramik",
)  # fmt: skip
"""What vessels are made of that brine leaves alone, or that has rules of its own."""
_GLAZED = (
    " glazed ", " glaze ", " terracotta ", " terra cotta ", " earthenware ", " majolica ", " faience ", " clay pot ",
    " redware ", " slipware ",
)  # fmt: skip
_UNGLAZED = (" unglazed ", " not glazed ")
_NO_COPPER = "chopper"
"""A machine with a bowl, and no copper misspelt."""
_CLAIMS = ("stainless", "lead free")
"""What is harmless, as long as it is not said to be none of it."""
_HARMLESS = tuple(f" {claim} " for claim in _CLAIMS)
_LID = re.compile(
    r"\bstainless(?:[ -]steel)? (?:lid|cover|handle|ladle|spoon|rack|hook|skewer|weight)s?\b", re.IGNORECASE
)
"""Of stainless steel, and no vessel: what goes with it may be of anything."""
_APART = re.compile(r"[;\n]|\band\b", re.IGNORECASE)
"""Between two vessels of one cell, each of which is harmless for itself."""
_ENAMEL = (" enamel ", " enamelled ", " enameled ")
_PLACES = ("vessel material", "vessel")
_SHOWN = 40  # characters of a text that a sentence repeats


def named_of(row: Row, words: "tuple[str, ...]") -> str:
    """The text that names a vessel of one of these materials; else ""."""
    for heading in _PLACES:
        text = row.text(heading)
        if text and any(_is_of(part, words) for part in _APART.split(_LID.sub(" ", text))):
            return text[:_SHOWN]
    return ""


def chipped_enamel(row: Row) -> str:
    """The text that names enamel and says that it is chipped, in whatever order; else ""."""
    for heading in _PLACES:
        words = named.undenied(row.text(heading), ("chipped",))
        if " chipped " in words and any(word in words for word in _ENAMEL):
            return row.text(heading)[:_SHOWN]
    return ""


def glazed(row: Row) -> str:
    """The text that names a glaze that may hold lead; else ""."""
    for heading in _PLACES:
        words = named.undenied(row.text(heading), _CLAIMS)
        if _says_glazed(row.text(heading)) and not any(word in words for word in (*_HARMLESS, *_UNGLAZED)):
            return row.text(heading)[:_SHOWN]
    return ""


def is_known(text: str) -> bool:
    """Whether a text names any material that a rule here knows, harmless or not."""
    return named.says(text, (*_KNOWN, *TOXIC, *REACTIVE, *NOT_FOR_FOOD)) or _says_glazed(text)


def is_aluminium(row: Row) -> bool:
    """Whether the vessel is of aluminium, by its material or its name."""
    return bool(named_of(row, _ALUMINIUM))


def _is_of(text: str, words: "tuple[str, ...]") -> bool:
    """Whether one vessel is of such a material, and not said to be stainless or without it."""
    inside = named.undenied(text, _CLAIMS)
    if any(word in inside for word in _HARMLESS) or named.is_denied(text, words):
        return False
    return named.says(text.casefold().replace(_NO_COPPER, " "), words)


def _says_glazed(text: str) -> bool:
    words = named.words_in(text)
    return any(word in words for word in _GLAZED)
