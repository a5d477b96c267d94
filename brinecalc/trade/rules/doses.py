"""When there is too much or too little of an ingredient.

One idea: the dose table knows what is usual and where each ingredient must stop, by use; a legal or safety ceiling
stops the batch, one of taste is worth a second look, and above the usual range is only worth knowing.
"""

from __future__ import annotations

from typing import List, NamedTuple, Optional

from brinecalc import quantity
from brinecalc.trade import doses, flesh, groups, in_product, jurisdiction, limits, potassium, uses
from brinecalc.trade.doses import Dose
from brinecalc.trade.row import Row, Thing
from brinecalc.trade.rules.condition import NOTHING, Hits, Words, condition
from brinecalc.trade.wording import against, grams, share

_CHLORIDES = ("calcium chloride", "anhydrous calcium chloride", "magnesium chloride", "potassium chloride")
_OF = {"product": "of the product", "pickle": "of the pickle's water", "water": "of the water"}
_AMOUNTS = {"ingredient": ("level",), "sweetener": ("sweetener level",), "acid": ("acid mass", "acid level")}
"""The columns in which the amount of what stands under a heading is given."""
_AS = {"phosphate": " as P2O5", "erythorbate": " as erythorbic acid"}
"""As what the limits by EU rules count."""
_LOWER = "Lower the level"
_OR_GAIN = ", or give the weight gained, which tells what stays in the product"


@condition("over-ceiling")
def _over(row: Row) -> Hits:
    hits: List[Words] = []
    for thing, dose, level, base in _dosed(row):
        stop = dose.stop if dose.kind != "solubility" else None
        if stop is None or (base == "water" and _is_bounded_by_product(row, thing)):
            continue
        if doses.passes(level, stop):
            found, limit = quantity.apart(level, stop, 3)
            gain = base == "water" and _would_be_bounded_by_product(row, thing)
            hits.append({
                "name": thing.what.name.capitalize(), "found": f"{quantity.show(found, 'share')} of the {base}",
                "kind": dose.kind or "", "limit": quantity.show(limit, "share"), "of_what": _OF[dose.share_of],
                "way": _LOWER + (_OR_GAIN if gain else ""),
            })  # fmt: skip
    return hits or _over_in_pickle(row)


def _over_in_pickle(row: Row) -> Hits:
    """What is over the ceiling of a pickle that is pumped at a tenth, as the rules give it, where no gain is known."""
    if row.number("gain") or uses.of(row) != "injection":
        return NOTHING
    hits: List[Words] = []
    for excess in in_product.pickle_excesses(row):
        found, limit = quantity.apart(excess.share / in_product.PUMP, excess.most.value / in_product.PUMP / 1e6, 3)
        held = f"{quantity.show(found, 'share')}{_counted_as(excess.most)}"
        hits.append({
            "name": _all(excess.things), "found": f"{held} of the pickle",
            "kind": "legal", "limit": quantity.show(limit, "share"), "of_what": "of a pickle pumped at 10 %",
            "way": _LOWER + _OR_GAIN,
        })  # fmt: skip
    return hits


@condition("ceiling-taste")
def _taste(row: Row) -> Hits:
    hits: List[Words] = []
    for thing, dose, level, _ in _dosed(row):
        if dose.kind in ("legal", "safety") or dose.ceiling is None:
            continue
        if doses.passes(level, dose.ceiling):
            hits.append({
                "name": thing.what.name.capitalize(), "found": share(level), "limit": share(dose.ceiling),
                "of_what": _OF[dose.share_of],
            })  # fmt: skip
    return hits


@condition("above-usual")
def _above_usual(row: Row) -> Hits:
    hits: List[Words] = []
    for thing, dose, level, base in _dosed(row):
        if dose.low is None or dose.high is None or not doses.above_usual(level, dose):
            continue
        if _is_too_sweet(row, thing, level):
            continue  # said of the same figure
        stopped = dose.ceiling is not None and doses.passes(level, dose.ceiling)
        if stopped and not (base == "water" and _is_bounded_by_product(row, thing)):
            continue  # said as a ceiling
        hits.append({
            "name": thing.what.name.capitalize(), "found": share(level), "low": share(dose.low),
            "high": share(dose.high), "base": base,
        })  # fmt: skip
    return hits


@condition("sweetener-high")
def _sweetener(row: Row) -> Hits:
    most = limits.find("sweetener high")
    return [
        {"name": thing.what.name.capitalize(), "found": share(level), "base": base, "limit": most.shown}
        for thing, level, base in _levels(row, "sweetener")
        if _is_too_sweet(row, thing, level)
    ]


def _is_too_sweet(row: Row, thing: Thing, level: float) -> bool:
    is_sweet = thing.what.role == "sweetener" and limits.find("sweetener high").passed_by(level)
    return is_sweet and flesh.is_flesh(row)


@condition("calcium-high")
def _calcium(row: Row) -> Hits:
    if row.group not in groups.FLESH and row.group:
        return NOTHING
    most = limits.find("calcium chloride brine")
    return [
        {"name": thing.what.name.capitalize(), "found": share(level), "base": base, "limit": most.shown}
        for thing, level, base in _levels(row, "calcium")
        if most.passed_by(level)
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
        found += _counted_as(excess.most)
        if not excess.is_finished:
            of_what += " as it went in"
        hits.append({
            "name": _all(excess.things), "found": f"{found} {of_what}", "rules": jurisdiction.of(row), "limit": limit,
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
    names, brought = potassium.of(row)
    if not names or _is_much(brought) or (brought is not None and not limits.find("potassium told").passed_by(brought)):
        return NOTHING
    found = "" if brought is None else f" (at most {share(brought)} of the product)"
    return ({"name": " and ".join(names).capitalize(), "found": found},)


@condition("potassium-high")
def _potassium_high(row: Row) -> Hits:
    names, brought = potassium.of(row)
    if brought is None or not _is_much(brought):
        return NOTHING
    found, limit = against(brought, limits.find("potassium high"))
    return ({"name": " and ".join(names).capitalize(), "found": found, "limit": limit},)


def _is_much(brought: Optional[float]) -> bool:
    return brought is not None and limits.find("potassium high").passed_by(brought)


def _counted_as(most: limits.Limit) -> str:
    """As what a limit counts, where it is not the thing itself."""
    return _AS.get(most.limit, "") if most.rules == "EU" else ""


def _all(things: List[Thing]) -> str:
    """Everything that counts towards one limit, in words."""
    return " and ".join(thing.what.name for thing in things).capitalize()


def _levels(row: Row, role: str) -> "List[tuple[Thing, float, str]]":
    """How much there is of the things of a role, as a share of the water, or of the product in a marinade."""
    made = []
    for thing in row.of_role(role):
        on_product = in_product.stays(row, thing) if row.number("water") else None
        level, base = (thing.ratio, "water") if on_product is None else (on_product, "product")
        if level:
            made.append((thing, level, base))
    return made


class _Dosed(NamedTuple):
    """A thing of a row with its figures in the dose table, how much there is of it, and of what that is a share."""

    thing: Thing
    dose: Dose
    level: float
    base: str


def _dosed(row: Row) -> List[_Dosed]:
    """The things of a row that have figures in the dose table for the way they are used; worked out once.

    What stays on the product is judged on its weight, except that an acid is so only where there is no water: strong
    acid burns by itself.
    """
    made: Optional[List[_Dosed]] = row.memo.get("dosed")
    if made is None:
        made = row.memo["dosed"] = []
        use = uses.of(row)
        for thing in row.things:
            if thing.what.ingredient is None or thing.what.is_cure:
                continue
            on_product = in_product.stays(row, thing)
            if on_product is not None and not (thing.what.role == "acid" and row.number("water")):
                dose = None if in_product.is_bounded(row, thing) else doses.on_product(thing.what.name, use)
                level, base = on_product, "product"
            else:
                dose = doses.find(thing.what.name, use) or doses.find(thing.what.name, "immersion")
                level, base = thing.ratio or 0.0, "water"
            if dose is not None and level:
                made.append(_Dosed(thing, dose, level, base))
    return made


def _is_bounded_by_product(row: Row, thing: Thing) -> bool:
    """Whether a limit on the product, and not on the bath, decides.

    So it is with a phosphate of which the gain is known, and with an accelerator of the cure where it is injected: a
    pickle's ceiling is that for a gain of a tenth.
    """
    return bool(row.number("gain")) and _would_be_bounded_by_product(row, thing)


def _would_be_bounded_by_product(row: Row, thing: Thing) -> bool:
    """The same once the gain is known."""
    return thing.what.role == "phosphate" or (uses.of(row) == "injection" and in_product.is_held(row, thing))
