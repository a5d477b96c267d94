"""Formulas that find what is listed under another name than the one that was typed.

One idea: the functions read a name without regard to signs, plural and other names, and so must the sheets that look it
up in a list: what is worked out has a price, a place on the order, and its allergens.
"""

from __future__ import annotations

_LEFT_OUT = (". ", " ", "-", ",", "'", "#")
"""What may stand between the words of a name, and may be left out."""


def bare(name: str) -> str:
    """A name without what may stand between its words, as `listed_as` makes one of what was typed."""
    for sign in _LEFT_OUT:
        name = name.replace(sign, "")
    return name


def listed_as(cell: str, key: str) -> str:
    """A formula for what is listed under another name, without its signs or in the singular; empty if there is none.

    `key` is what the list of other names is called by: names in ``key_names``, what is listed for each in ``key_of``.
    """
    typed = cell
    for sign in _LEFT_OUT:
        typed = f'SUBSTITUTE({typed},"{sign}","")'
    found = '""'
    for name in (f"LEFT({typed},LEN({typed})-1)", typed):
        found = f"IFERROR(INDEX({key}_of,MATCH({name},{key}_names,0)),{found})"
    return found


def ingredient(cell: str, kept: str = "bought_names") -> str:
    """A formula for an ingredient by the name that is listed; as it was typed where there is none, or where `kept` has it."""
    other = listed_as(cell, "other")
    known = ",".join(f"ISNUMBER(MATCH({cell},{names},0))" for names in kept.split())
    return f'IF({cell}="","",IF(OR({known}),{cell}&"",IF({other}="",{cell}&"",{other})))'


def bought(cell: str) -> str:
    """The same as it is bought: a name that has a row of its own on Prices keeps it."""
    return ingredient(cell, "bought_names price_names")
