"""When curing salt and acid come together, which stops a batch.

One idea: undissociated nitrous acid gives off nitrogen oxides, poisonous in a closed room, and the cure is gone. It
is enough that a sour thing is named; only a known amount that leaves the pH at 5 or above lets the row pass.
"""

from __future__ import annotations

from functools import cache
from typing import Dict, List, Optional, Tuple

from brinecalc.trade import brine_acidity, named, nitrite_acid, ph_readings
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition

_IN_TANK = ("ascorbic", "erythorbic", "vitamin c", "acerola")
_WAYS = ("method", "treatment")
_TEXTS = ("product", *_WAYS)
_SOUR_WAYS = (
    "vinegar", "wine", "beer", "stout", "ale", "lager", "cider", "juice", "buttermilk", "yoghurt",
    "yogurt", "kefir", "kombucha", "essig", "vinaigre", "aceto", "vinagre", "cidre",
)  # fmt: skip
"""What sours a brine, where a method names it: common practice, no source."""
_AMBIGUOUS = frozenset((
    "acid", "acidic", "sour", "pickle", "pickled", "port", "shrub", "apple", "pear", "peach", "plum", "apricot",
    "olive", "orange", "mango", "cure",
))  # fmt: skip
"""What a way of working names without anything sour going in, as a curing pickle, an injection port, or wood to smoke
over: common practice, no source."""
_NO_ACID = frozenset(("preservative",))
"""Hazards of a name that leave open whether it is sour."""
_ALKALINE = ", or take an alkaline phosphate such as sodium tripolyphosphate"
_HARD = "; if your water holds up the pH, give its alkalinity from the water report"


@condition("nitrite-cola")
def _cola(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    if row.has("cola") or any("cola" in named.hazards_in(row.text(heading)) for heading in _TEXTS):
        return ({},)
    return NOTHING


@condition("nitrite-ascorbic")
def _ascorbic(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    for thing in row.things:
        words = named.words_in(thing.what.name)
        if any(f" {name} " in words for name in _IN_TANK):
            return ({"name": thing.what.name},)
    return NOTHING


@condition("nitrite-ph")
def _ph(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    found = brine_acidity.with_cure(row)
    if found.sourest is None or not _is_too_sour(found.sourest) or _is_saved_by_the_tap(found):
        return NOTHING
    instead = ""
    if found.sour is not None and not found.sour.what.is_acid:
        instead = _ALKALINE if found.sour.what.role == "phosphate" else _HARD
    name = "the acid" if found.sour is None else found.sour.what.name
    return ({"ph": _shown(row, found.sourest), "name": name, "instead": instead},)


def _shown(row: Row, ph: float) -> str:
    """A pH as the sentence names it; one that is given with a single end as it is given."""
    low, high = row.least("ph"), row.number("ph")
    is_open = low is not None and low == ph and (high is None or low == ph_readings.OPEN)
    return ph_readings.shown(ph, high) if is_open else nitrite_acid.shown(ph)


@condition("nitrite-soft-water")
def _soft(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    found = brine_acidity.with_cure(row)
    if found.sour is None or found.sourest is None or not _is_too_sour(found.sourest):
        return NOTHING
    if not _is_saved_by_the_tap(found):
        return NOTHING
    ph = nitrite_acid.shown(found.sourest)
    words = {"name": found.sour.what.name, "ph": ph, "from_tap": f"{found.from_tap:.1f}"}
    return (words,)


def _is_too_sour(ph: Optional[float]) -> bool:
    return ph is not None and ph < nitrite_acid.least()


def _is_saved_by_the_tap(found: brine_acidity.Acidity) -> bool:
    """Whether a brine that is too sour in soft water is not so in most tap water."""
    return found.from_tap is not None and not _is_too_sour(found.from_tap)


@condition("nitrite-acid")
def _acid(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    thing = brine_acidity.with_cure(row).unknown
    if thing is None and _is_silent(row):
        return _told(row, _SOUR_WAYS)[:1]
    if thing is None or "cola" in thing.what.hazards:  # cola has a rule of its own
        return NOTHING
    return ({"name": thing.what.name},)


@condition("nitrite-acid-told")
def _acid_told(row: Row) -> Hits:
    if not row.has_cure or not _is_silent(row) or brine_acidity.with_cure(row).unknown or _told(row, _SOUR_WAYS):
        return NOTHING
    return _told(row, _sour_words())[:1]


def _is_silent(row: Row) -> bool:
    """Whether neither a pH nor anything sour stands in the row, so that only its words can tell."""
    return row.number("ph") is None and not row.has("acid")


def _told(row: Row, sour: Tuple[str, ...]) -> List[Dict[str, str]]:
    """What of these the words of the row for its method and treatment say."""
    words = "\n".join(named.undenied(row.text(heading), sour) for heading in _WAYS)
    return [{"name": one} for one in sour if f" {one} " in words]


@cache
def _sour_words() -> Tuple[str, ...]:
    return tuple(word for word in named.phrases_of("acid") if word not in _AMBIGUOUS)


@condition("nitrite-unknown-liquid")
def _unknown_liquid(row: Row) -> Hits:
    if not row.has_cure or row.number("ph") is not None:
        return NOTHING
    for thing in row.things:
        if thing.heading in ("liquid", "acid") and not thing.what.is_known and thing.what.hazards <= _NO_ACID:
            return ({"name": thing.text},)
    return NOTHING


@condition("nitrite-acid-close")
def _close(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    found = brine_acidity.with_cure(row)
    if found.sour is None or found.unknown is not None or found.sourest is None:
        return NOTHING
    if not nitrite_acid.least() <= found.sourest < nitrite_acid.close():
        return NOTHING
    return ({"name": found.sour.what.name, "ph": f"{found.sourest:.1f}"},)


@condition("nitrite-acid-apart")
def _apart(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    apart = [thing for thing in row.things if brine_acidity.is_apart(row, thing)]
    return [{"name": thing.what.name.capitalize()} for thing in apart]
