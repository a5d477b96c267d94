"""Where a number comes from, by any name it may be asked under.

One idea: every name in every table answers, and a name that stands in several tables answers from each.
"""

from __future__ import annotations

from typing import Callable, List, Sequence, Tuple

from brinecalc.errors import UnknownName
from brinecalc.names import fold
from brinecalc.trade import citing, curing, doses, findings, ingredients, limits, products

Teller = Callable[[str], List[str]]

MOST = 4
"""No more answers than this to one name."""


def about(topic: str) -> List[str]:
    """What is known of the origin of everything that goes by that name; empty where nothing does."""
    told: List[str] = []
    for tell, _ in _tellers():
        told.extend(tell(topic))
    return told[:MOST]


def unknown(topic: str, more: Sequence[str] = ()) -> UnknownName:
    """The error for a topic that no table knows, with the nearest names; `more` are names known elsewhere."""
    import difflib

    names = [name for _, known in _tellers() for name in known()] + list(more)
    by_key = {fold(name): name for name in names}
    near = [by_key[key] for key in difflib.get_close_matches(fold(topic), by_key, n=3, cutoff=0.6)]
    quoted = ", ".join(f'"{name}"' for name in near)
    advice = f"did you mean {quoted}?" if near else 'try a function, "SOAK_HOURS", or a limit, "nitrite dry"'
    return UnknownName(
        "is not a limit, constant, product, ingredient, finding, function or source known here",
        argument="topic",
        got=f'"{topic[:40]}"',
        advice=advice,
    )


def _tellers() -> Tuple[Tuple[Teller, Callable[[], Sequence[str]]], ...]:
    return (
        (_limit, lambda: limits.everywhere().names),
        (_ingredient, lambda: ingredients.names().names),
        (_cure, lambda: curing.cures().names),
        (_product, lambda: products.names().names),
        (_finding, lambda: findings.ids().names),
        (_source, lambda: citing.KEYS().names),
    )


def _limit(topic: str) -> List[str]:
    return [citing.cite_limit(found) for found in limits.rows(topic)]


def _ingredient(topic: str) -> List[str]:
    found = ingredients.known(topic)
    if found is None:
        return []
    place = f", {found.source_place}" if found.source_place else ""
    told = [f"{found.name.capitalize()}, composition: {_cite(found.source)}{place}."]
    for use in doses.USES:
        dose = doses.find(found.name, use)
        if dose is not None:
            ceiling = "" if dose.ceiling is None else f"; {dose.kind} ceiling {100 * dose.ceiling:.4g} %"
            told.append(f"{found.name.capitalize()}, {use}{ceiling}: {_cite(dose.source)}.")
            break
    return told


def _cure(topic: str) -> List[str]:
    if topic not in curing.cures():
        return []
    found = curing.cures().find(topic)
    return [f"{found.cure.capitalize()}, make-up: {_cite(found.source)}."]


def _product(topic: str) -> List[str]:
    if topic not in products.names():
        return []
    found = products.find(topic)
    place = f", {found.source_place}" if found.source_place else ""
    return [
        f"{found.name.capitalize()}, water, salt and waste: {_cite(found.source)}{place}; "
        f"diffusivities: {found.d_basis}" + (f"; {found.note}" if found.note else "") + "."
    ]


def _finding(topic: str) -> List[str]:
    if topic not in findings.ids():
        return []
    rule = findings.ids().find(topic)
    return [f"Finding {rule.id}, {rule.severity}, when {rule.condition}: {findings.cite(rule)}."]


def _source(topic: str) -> List[str]:
    return [f"{citing.cite(topic)}."] if topic in citing.KEYS() else []


def _cite(key: str) -> str:
    """A source in full; the user's own ingredients have none in the table."""
    return citing.cite(key) if key in citing.KEYS() else "the user's own figures"
