"""When fish may be eaten with living parasites in it.

One idea: brine, vinegar and cold smoke leave them alive, and only frost or the stove kills them; so what is eaten raw,
marinated, salted or smoked cold is asked about, and what is cooked or smoked hot is not.
"""

from __future__ import annotations

import re

from brinecalc.trade import (
    called,
    cured_fish,
    eaten,
    flesh,
    frost,
    jurisdiction,
    limits,
    methods,
    named,
    remarks,
    smoked,
    uses,
)
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import hours, product_of

_TREATED = re.compile(
    r" (?:dry|dried|cure|cured|curing|gravlax|gravad\w*|gravlak|salted|marinat\w+|marinad\w+|pickl\w+|cold smok\w+|lox"
    r"|matje|rollmop|escabeche|souse|soused) "
)
"""Words of salting, souring and cold smoke."""
_HUNTERS = (*flesh.GAME_THAT_HUNTS, "wild pig", "wild hog", "feral pig", "feral hog")
"""The same, and pigs that nobody feeds."""
_DRIED = ("salami", "jerky", "biltong", "prosciutto", "ham", "bresaola", "coppa", "carpaccio", "tartare", "sausage")
_SOUR = frozenset(("vinegar", "juice"))
_MUCH = 0.2
"""Share of the water from which vinegar or juice makes a marinade of a brine: judgement; what kitchens call one would
settle it."""


@condition("parasites")
def _parasites(row: Row) -> Hits:
    return (_frost(row),) if _is_fish(row) and _is_eaten_so(row) and not _was_frozen(row) else NOTHING


@condition("parasites-maybe")
def _maybe(row: Row) -> Hits:
    if not _is_fish(row) or _is_eaten_so(row) or _was_frozen(row):
        return NOTHING
    even = any(methods.goes_even(row.text(heading)) for heading in ("method", "treatment"))
    return (_frost(row),) if even or uses.is_injected(row) or smoked.is_smoked(row) else NOTHING


def _was_frozen(row: Row) -> bool:
    """Whether a text says that it was frozen as cold and as long as the rules of the row ask."""
    least = limits.value("parasite freezing", jurisdiction.of(row))
    return any(frost.hours_in(text) >= least for text in row.said)


def _frost(row: Row) -> "dict[str, str]":
    """How long frost takes to kill them, by the rules of the row."""
    return {"frost": hours(limits.value("parasite freezing", jurisdiction.of(row)))}


def _is_eaten_so(row: Row) -> bool:
    """Whether it is served raw, or by a way of salting, souring or smoking that leaves parasites alive."""
    unlisted = ("product",) if row.product is None else ()  # a listed one is judged by what is done to it here
    told = (*unlisted, "method", "treatment", "packaging", "kind")
    if eaten.is_raw(row) or any(_TREATED.search(named.words_in(row.text(heading))) for heading in told):
        return True
    dry = any("dry equilibrium" in methods.ways(row.text(heading)) for heading in ("method", "treatment"))
    return dry or _is_marinade(row) or remarks.says(row, remarks.SALTED)


def _is_marinade(row: Row) -> bool:
    """Whether so much vinegar or juice goes in that the fish is marinated."""
    sour = [thing for thing in row.things if thing.what.role in _SOUR]
    return any(thing.heading == "liquid" or (thing.ratio or 0.0) > _MUCH for thing in sour)


def _is_fish(row: Row) -> bool:
    """Whether it is fish that may carry them: no shellfish, by US rules no tuna, nothing cooked or freshened."""
    if row.group not in ("", "fish") or not flesh.is_fish(row) or eaten.is_cooked(row):
        return False
    if row.number("strength") == 0.0 or (
        not row.group and named.says(called.heard(row.text("product")), flesh.SHELLFISH)
    ):
        return False
    listed = cured_fish.listed(row)
    return not (listed is not None and listed.fish == "tuna" and jurisdiction.of(row) == "US")


@condition("trichinella")
def _trichinella(row: Row) -> Hits:
    if row.product is not None or row.is_plant or not _is_hunter(row.text("product")) or eaten.is_cooked(row):
        return NOTHING
    dry = "dry equilibrium" in methods.ways(row.text("method"))
    treated = dry or row.has_cure or smoked.is_smoked(row) or named.says(row.text("product"), _DRIED)
    return ({"product": product_of(row)},) if treated or eaten.is_rare(row) else NOTHING


def _is_hunter(text: str) -> bool:
    """Whether a name is that of an animal that eats meat, and not of a fish or fruit called after one."""
    return named.says(called.heard(text), _HUNTERS)
