"""When there is too much or too little of an ingredient.

One idea: the dose table knows what is usual and where each ingredient must stop, by use; a legal or safety ceiling
stops the batch, one of taste is worth a second look, and above the usual range is only worth knowing.
"""

from __future__ import annotations

from typing import List, Optional

from brinecalc import quantity
from brinecalc.trade import doses, in_product, ingoing, limits, methods
from brinecalc.trade.doses import Dose
from brinecalc.trade.row import Row, Thing
from brinecalc.trade.rules.condition import FLESH, NOTHING, Hits, Words, against, condition, grams, share

_CHLORIDES = ("calcium chloride", "anhydrous calcium chloride", "magnesium chloride", "potassium chloride")
_OF = {"product": "of the product", "pickle": "of the pickle's water", "water": "of the water"}
_AMOUNTS = {"ingredient": ("level",), "sweetener": ("sweetener level",), "acid": ("acid mass", "acid level")}
"""The columns in which the amount of what stands under a heading is given."""
_LOWER = "Lower the level"
_OR_GAIN = ", or give the weight gained, which tells what stays in the product"


def use_of(row: Row) -> str:
    """How the brine is used, in the words of the dose table."""
    said = f"{row.text('method')} {row.text('treatment')} {row.text('cure method')}".casefold()
    if is_injected(row) or any(word in said for word in ("inject", "pump", "massag")):
        return "injection"
    return "vegetable" if row.group == "vegetable" else "immersion"


def is_injected(row: Row) -> bool:
    """Whether the row speaks of needles that bring the brine in, in whatever words."""
    return any("injected" in methods.ways(row.text(heading)) for heading in ("method", "treatment", "cure method"))


@condition("over-ceiling")
def _over(row: Row) -> Hits:
    hits: List[Words] = []
    for thing, dose in _dosed(row):
        stop = dose.stop if dose.kind != "solubility" else None
        if stop is None or thing.ratio is None or _is_bounded_by_product(row, thing):
            continue
        if doses.passes(thing.ratio, stop):
            found, limit = quantity.apart(thing.ratio, stop, 3)
            hits.append({
                "name": thing.what.name.capitalize(), "found": f"{quantity.show(found, 'share')} of the water",
                "kind": dose.kind or "", "limit": quantity.show(limit, "share"), "of_what": _OF[dose.share_of],
                "way": _LOWER + (_OR_GAIN if _would_be_bounded_by_product(row, thing) else ""),
            })  # fmt: skip
    return hits or _over_in_pickle(row)


def _over_in_pickle(row: Row) -> Hits:
    """What is over the ceiling of a pickle that is pumped at a tenth, as the rules give it, where no gain is known."""
    if row.number("gain") or use_of(row) != "injection":
        return NOTHING
    hits: List[Words] = []
    for excess in in_product.pickle_excesses(row):
        found, limit = quantity.apart(excess.share / in_product.PUMP, excess.most.value / in_product.PUMP / 1e6, 3)
        hits.append({
            "name": _all(excess.things), "found": f"{quantity.show(found, 'share')} of the pickle",
            "kind": "legal", "limit": quantity.show(limit, "share"), "of_what": "of a pickle pumped at 10 %",
            "way": _LOWER + _OR_GAIN,
        })  # fmt: skip
    return hits


@condition("ceiling-taste")
def _taste(row: Row) -> Hits:
    hits: List[Words] = []
    for thing, dose in _dosed(row):
        if dose.kind in ("legal", "safety") or dose.ceiling is None or thing.ratio is None:
            continue
        if doses.passes(thing.ratio, dose.ceiling):
            hits.append({
                "name": thing.what.name.capitalize(), "found": share(thing.ratio), "limit": share(dose.ceiling),
                "of_what": _OF[dose.share_of],
            })  # fmt: skip
    return hits


@condition("above-usual")
def _above_usual(row: Row) -> Hits:
    hits: List[Words] = []
    for thing, dose in _dosed(row):
        if thing.ratio is None or dose.low is None or dose.high is None or not doses.above_usual(thing.ratio, dose):
            continue
        stopped = dose.ceiling is not None and doses.passes(thing.ratio, dose.ceiling)
        if stopped and not _is_bounded_by_product(row, thing):
            continue  # said as a ceiling
        hits.append({
            "name": thing.what.name.capitalize(), "found": share(thing.ratio), "low": share(dose.low),
            "high": share(dose.high),
        })  # fmt: skip
    return hits


@condition("sweetener-high")
def _sweetener(row: Row) -> Hits:
    if row.group not in FLESH:
        return NOTHING
    most = limits.find("sweetener high")
    return [
        {"name": thing.what.name.capitalize(), "found": share(thing.ratio), "limit": most.shown}
        for thing in row.of_role("sweetener")
        if thing.ratio and most.passed_by(thing.ratio)
    ]


@condition("calcium-high")
def _calcium(row: Row) -> Hits:
    if row.group not in FLESH and row.group:
        return NOTHING
    most = limits.find("calcium chloride brine")
    return [
        {"name": thing.what.name.capitalize(), "found": share(thing.ratio), "limit": most.shown}
        for thing in row.of_role("calcium")
        if thing.ratio and most.passed_by(thing.ratio)
    ]


@condition("calcium-gain")
def _calcium_gain(row: Row) -> Hits:
    gain, most = row.number("gain"), limits.find("calcium chloride solution", "US")
    if gain is None or not most.passed_by(gain) or not any(thing.what.name in _CHLORIDES for thing in row.things):
        return NOTHING
    return ({"gain": share(gain), "limit": most.shown},)


@condition("over-in-product")
def _in_product(row: Row) -> Hits:
    hits: List[Words] = []
    for excess in in_product.excesses(row):
        amount = excess.share * 1e6 if excess.most.unit == "ppm" else excess.share
        (found, limit), of_what = against(amount, excess.most), "of the product"
        if excess.most.limit == "phosphate" and excess.most.rules == "EU":
            found += " as P2O5"
        if excess.most.limit == "erythorbate" and excess.most.rules == "EU":
            found += " as erythorbic acid"
        if not excess.is_finished:
            of_what += " as it went in"
        hits.append({
            "name": _all(excess.things), "found": f"{found} {of_what}", "rules": ingoing.rules_of(row), "limit": limit,
        })  # fmt: skip
    return hits


@condition("no-amount")
def _no_amount(row: Row) -> Hits:
    return [
        {"name": thing.what.name, "subject": thing.heading}
        for thing in row.things
        if thing.ratio is None
        and thing.grams is None
        and not thing.what.is_cure
        and any(heading in row.plan.present for heading in _AMOUNTS.get(thing.heading, ()))
    ]


@condition("small-dose")
def _small(row: Row) -> Hits:
    least = limits.value("scale step")
    return [
        {"grams": grams(thing.grams), "name": thing.what.name}
        for thing in row.things
        if thing.heading in _AMOUNTS and thing.grams and thing.grams < least and not thing.what.is_cure
    ]


@condition("potassium")
def _potassium(row: Row) -> Hits:
    return [
        {"name": thing.what.name.capitalize()}
        for thing in row.things
        if thing.what.role == "salt substitute" or thing.what.name.startswith("potassium ")
    ]


def _all(things: List[Thing]) -> str:
    """Everything that counts towards one limit, in words."""
    return " and ".join(thing.what.name for thing in things).capitalize()


def _dosed(row: Row) -> "list[tuple[Thing, Dose]]":
    """The things of a row that have figures in the dose table for the way the brine is used; worked out once."""
    made: "Optional[list[tuple[Thing, Dose]]]" = row.memo.get("dosed")
    if made is None:
        made = []
        use = use_of(row)
        for thing in row.things:
            if thing.ratio is None or thing.what.ingredient is None or thing.what.is_cure:
                continue
            dose = doses.find(thing.what.name, use) or doses.find(thing.what.name, "immersion")
            if dose is not None:
                made.append((thing, dose))
        row.memo["dosed"] = made
    return made


def _is_bounded_by_product(row: Row, thing: Thing) -> bool:
    """Whether a limit on the product, and not on the bath, decides.

    So it is with a phosphate of which the gain is known, and with an accelerator of the cure where it is injected: a
    pickle's ceiling is that for a gain of a tenth.
    """
    return bool(row.number("gain")) and _would_be_bounded_by_product(row, thing)


def _would_be_bounded_by_product(row: Row, thing: Thing) -> bool:
    """The same once the gain is known."""
    return thing.what.role == "phosphate" or (use_of(row) == "injection" and in_product.is_held(row, thing))
