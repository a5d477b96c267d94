"""When curing salt itself is wrong: refused, too much, too little, of the wrong grade, or in the wrong product.

One idea: nitrite protects in a narrow band and poisons above it, so a dose that cannot be checked is as wrong as one
that is over its limit.
"""

from __future__ import annotations

import re
from functools import cache
from typing import List, Tuple

from brinecalc.trade import (
    cure_names,
    curing,
    eaten,
    flesh,
    groups,
    ingoing,
    ingredients,
    jurisdiction,
    limits,
    methods,
    named,
)
from brinecalc.trade.row import Row, Thing
from brinecalc.trade.rules.condition import NOTHING, Hits, Words, condition
from brinecalc.trade.wording import against, grams, product_of

_NO_FLESH = ("egg", "yolk", "cheese", "tofu", "tempeh", "seitan", "butter", "cream", "rice", "pasta", "nut", "bread")
"""Words of other food that no table knows."""
_NO_NAMES = frozenset(("cure", "curing", "slow cure", "natural cure"))
"""What a method may say of curing without a word of the salt."""
_NO_CURE = re.compile(
    r" (?:himalayan pink|pink himalayan) salt | pink salt himalayan "
    r"| cure [12](?= (?:to \d+ )?(?:h|hour|hr|d|day|night|wk|week|month) )"
)
"""Salt that is pink by itself, and curing for a day or two."""
_LONGEST = 200
"""Characters of a text in which names of curing salt are looked for: judgement; what kitchens write in one cell would
settle it."""
_PLANTS = ("celery", "chard", "beet", "beetroot", "spinach", "lettuce", "radish", "cherry", "vegetable", "plant")
"""Words of what is cured with for the nitrate that it grew with."""
_BATH = ("pick-up", "equilibrium")
_FITS = {
    "gradient": _BATH, "equilibrium": _BATH, "dry equilibrium": ("dry", "comminuted"), "injected": ("pumped",),
}  # fmt: skip
"""How curing salt gets in by each method, as it must then be reckoned; what is pumped and soaked holds it in both."""
_CURE_WRITTEN = {
    "mass": "Write what is weighed out, such as 12.5 g.",
    "share": "Write the share on its label, such as 6.25%.",
    "number": "Write the ppm, such as 120.",
    "name": "Write it in words.",
    "text": "Write one method, in words and in one column.",
}
"""What to write in a cure column of each kind. No guess at what was meant: nobody is to be led to a dose by a slip."""


@condition("cure-error")
def _error(row: Row) -> Hits:
    if not row.cure_is_wrong:
        return NOTHING
    asked = "Ask BRINE_WHY about that cell."
    hits: List[Words] = [{"heading": c.name, "text": "an error", "way": asked} for c in row.errors if c.cure]
    for cell in row.unread:
        if cell.column.cure:
            way = _CURE_WRITTEN[cell.column.kind]
            hits.append({"heading": cell.column.name, "text": f'"{cell.text}"', "way": way})
    return hits


@condition("pure-nitrite")
def _pure(row: Row) -> Hits:
    for thing in row.cures:
        strength = ingoing.strength_of(row, thing)
        unweighed = thing.grams is None and thing.what.cure is not None and thing.what.cure.status == cure_names.DILUTED
        if thing.what.is_pure_nitrite or unweighed:
            return ({"name": thing.what.name},)
        low, high = limits.value("cure strength low"), limits.value("cure strength high")
        if strength and not low <= strength <= high:
            return ({"name": f"A cure with {strength * 100:.4g} % nitrite"},)
    return NOTHING


@condition("nitrite-no-method")
def _no_method(row: Row) -> Hits:
    if not row.has_cure or ingoing.method_of(row) is not None:
        return NOTHING
    what = "nitrate" if ingoing.is_nitrate_alone(row) else "nitrite"
    given = row.text("cure method")
    if len(methods.ways(given)) > 1:
        return (
            {"what": what, "given": f' ("{given[:30]}" is two: equilibrium takes all curing salt with all pickle)'},
        )
    return ({"what": what, "given": f' ("{given[:30]}" is none of them)' if given else ""},)


@condition("cure-other-way")
def _other_way(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    reckoned, method = ingoing.method_of(row), row.text("method").strip().casefold()
    ways = methods.ways(method)
    fits = _FITS[next(iter(ways))] if len(ways) == 1 else ("equilibrium",)
    if reckoned is None or not ways or reckoned in fits:
        return NOTHING
    return ({"reckoned": reckoned, "method": method[:40], "fits": " or ".join(fits)},)


@condition("nitrite-over-limit")
def _over(row: Row) -> Hits:
    found = ingoing.of(row)
    if found.ppm is None or found.most is None or found.method is None or flesh.is_fish(row):
        return NOTHING
    over = round(found.ppm) > found.most.value if found.most.bound == "exactly" else found.most.passed_by(found.ppm)
    if not over:
        return NOTHING
    ppm, limit = against(found.ppm, found.most)
    words = {"ppm": ppm, "method": curing.named(found.method, found.kind), "rules": found.rules, "limit": limit}
    return (words,)


@condition("nitrate-over-limit")
def _nitrate_over(row: Row) -> Hits:
    found = ingoing.of(row)
    if not found.nitrate or found.method is None or flesh.is_fish(row):
        return NOTHING
    most = curing.nitrate_limit(found.method, found.rules)
    if not most.passed_by(found.nitrate):
        return NOTHING
    ppm, limit = against(found.nitrate, most)
    return ({"ppm": ppm, "method": curing.named(found.method), "rules": found.rules, "limit": limit},)


@condition("nitrate-bacon")
def _nitrate_bacon(row: Row) -> Hits:
    if not row.cures or ingoing.kind_of(row) != "bacon" or jurisdiction.of(row) != "US":
        return NOTHING
    return _first_nitrate(row)


@condition("nitrate-cure")
def _nitrate(row: Row) -> Hits:
    if not row.cures or (ingoing.kind_of(row) == "bacon" and jurisdiction.of(row) == "US"):
        return NOTHING
    if jurisdiction.of(row) == "EU" and flesh.is_fish(row):
        return NOTHING  # which has rules of its own
    heated = ", none at all in what is heated," if jurisdiction.of(row) == "EU" else ""
    return [{**words, "heated": heated} for words in _first_nitrate(row)]


@condition("cure-no-rule")
def _no_rule(row: Row) -> Hits:
    none = row.group in groups.OTHER or (not row.group and named.says(row.text("product"), _NO_FLESH))
    if not row.has_cure or not none or flesh.is_meat(row) or flesh.is_fish(row):
        return NOTHING
    return ({"product": product_of(row)},)


@condition("cure-vegetable-eu")
def _vegetable(row: Row) -> Hits:
    if jurisdiction.of(row) != "EU":
        return NOTHING
    return [
        {"name": thing.what.name, "subject": thing.heading}
        for thing in row.cures
        if named.says(f"{thing.what.name} {thing.text}", _PLANTS)
    ]


@condition("cure-infant")
def _infant(row: Row) -> Hits:
    return ({},) if row.has_cure and eaten.is_for_infants(row) else NOTHING


@condition("rules-unknown")
def _rules(row: Row) -> Hits:
    given = row.text("rules").strip()
    return NOTHING if jurisdiction.is_known(row) else ({"given": f'"{given[:30]}"', "used": jurisdiction.of(row)},)


@condition("cure-not-reckoned")
def _not_reckoned(row: Row) -> Hits:
    found = ingoing.of(row)
    return ({"missing": found.missing},) if found.missing and not row.cure_is_wrong else NOTHING


@condition("nitrite-weak")
def _weak(row: Row) -> Hits:
    found = ingoing.of(row)
    least = limits.find("nitrite least effective")
    if found.ppm is None or found.method is None or not 0.0 < found.ppm < least.value:
        return NOTHING
    return ({"ppm": f"{found.ppm:.3g}", "method": curing.named(found.method, found.kind), "limit": least.shown},)


@condition("cure-in-words")
def _in_words(row: Row) -> Hits:
    if row.has_cure:
        return NOTHING
    for heading in ("method", "treatment", "product"):
        words = _NO_CURE.sub(" , ", named.undenied(row.text(heading)[:_LONGEST], _names()))
        name = next((name for name in _between_spaces() if name in words), None)
        if name:
            return ({"heading": heading, "name": name.strip(), "subject": heading},)
    return NOTHING


@condition("cure-small-dose")
def _small(row: Row) -> Hits:
    least = limits.value("scale step cure")
    return [{"grams": grams(thing.grams)} for thing in row.cures if thing.grams and thing.grams < least]


@cache
def _names() -> Tuple[str, ...]:
    """Every name of curing salt that a table has, the longest first."""
    made = [each for each in ingredients.shipped() if each.role == "cure"]
    listed = {named.words_in(name).strip() for each in made for name in (each.name, *each.aliases)}
    return tuple(
        sorted({*listed, *named.phrases_of("cure", "nitrate")} - _NO_NAMES, key=lambda name: (-len(name), name))
    )


@cache
def _between_spaces() -> Tuple[str, ...]:
    return tuple(f" {name} " for name in _names())


def _first_nitrate(row: Row) -> Hits:
    for thing in row.cures:
        if _carries_nitrate(thing):
            return ({"name": thing.what.name},)
    return NOTHING


def _carries_nitrate(thing: Thing) -> bool:
    return "nitrate" in thing.what.hazards
