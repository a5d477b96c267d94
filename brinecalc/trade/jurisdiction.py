"""Whose rules a production row is held to: those of the US, or of the EU where it says so.

One idea: two sets of rules are known here, and a country that has neither is held to the nearer of the two and told so.
"""

from __future__ import annotations

import re
from functools import lru_cache

from brinecalc.trade.row import Row

_US = frozenset((
    "us", "usa", "u.s.", "u.s.a.", "united states", "united states of america", "america", "american", "usda", "fda",
    "fsis", "usda fsis", "us fda", "us usda",
))  # fmt: skip
_EU = frozenset((
    "eu", "ec", "eec", "european union", "europe", "e.u.", "e.u", "european", "ue", "union européenne",
    "europäische union", "unione europea", "unión europea", "austria", "österreich", "oesterreich", "belgium",
    "belgië", "belgie", "belgique", "belgien", "bulgaria", "българия", "croatia", "hrvatska", "cyprus", "κύπροσ",
    "czechia", "czech republic", "česko", "cesko", "česká republika", "denmark", "danmark", "estonia", "eesti",
    "finland", "suomi", "france", "germany", "deutschland", "allemagne", "greece", "ελλάδα", "hellas", "hungary",
    "magyarország", "ireland", "éire", "eire", "republic of ireland", "italy", "italia", "italien", "latvia",
    "latvija", "lithuania", "lietuva", "luxembourg", "luxemburg", "lëtzebuerg", "malta", "netherlands", "nederland",
    "holland", "niederlande", "poland", "polska", "polen", "portugal", "romania", "românia", "slovakia", "slovensko",
    "slovak republic", "slovenia", "slovenija", "spain", "españa", "espana", "spanien", "sweden", "sverige", "german",
    "french", "italian", "spanish", "dutch", "polish", "danish", "swedish", "finnish", "austrian", "belgian", "irish",
    "portuguese", "greek", "czech", "hungarian", "romanian",
))  # fmt: skip
"""What a row may call the rules of the EU, as case-folding leaves it.

Its member states have no others for nitrite and phosphate, but Denmark for some meat: recheck.
"""
_LIKE_EU = frozenset((
    "eea", "uk", "u.k.", "gb", "great britain", "britain", "british", "united kingdom", "england", "english",
    "scotland", "wales", "northern ireland", "norway", "norge", "iceland", "ísland", "liechtenstein", "switzerland",
    "schweiz", "suisse", "svizzera",
))  # fmt: skip
"""Rules that are not known here, and nearer to those of the EU than to those of the US."""
_BY_EU, _KNOWN = _EU | _LIKE_EU, _US | _EU
_OF_RULES = re.compile(
    r"^(?:the )?(?:(?:rules?|laws?) of )?(?:the )?| *[(\[].*$| (?:rules?|laws?|regulations?|limits?)\b.*$"
)
"""What stands round the name: the article, "rules", a country in brackets, the number of a regulation."""


def of(row: Row) -> str:
    """Whose rules the row is held to; US unless it says EU."""
    said = row.text("rules")
    return "EU" if said and _whose(said) in _BY_EU else "US"


def is_known(row: Row) -> bool:
    """Whether the row names rules that are known here, or none."""
    said = row.text("rules")
    return not said.strip() or _whose(said) in _KNOWN


def by_us_rules(row: Row, figure: str) -> str:
    """A figure of US rules in words; where the row is held to those of the EU, which have none, it says whose it is."""
    return f"{figure} (US rules)" if of(row) == "EU" else figure


@lru_cache(maxsize=32)
def _whose(said: str) -> str:
    """What the row calls its rules, in lower case and without what stands round the name."""
    return _OF_RULES.sub("", said.strip().casefold())
