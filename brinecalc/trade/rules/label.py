"""What has to be said: on the label, to the guest, and to the cook who finishes the dish.

One idea: none of these stops a batch; forgetting to say them harms someone all the same.
"""

from __future__ import annotations

from typing import Dict, List

from brinecalc.trade import called, eaten, flesh, jurisdiction, limits, named, needles
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import degrees_at_least, product_of, share

_HONEY = (" honey ", " honeycomb ", " manuka ", " honig ", " miel ", " miele ")
_PORK = ("pork", "pig", "hog")
_NOT_FOR_SALE = ("bag", "brining bag", "tub", "bucket", "bath")


@condition("cook-through")
def _cook(row: Row) -> Hits:
    return _through(row) if _is_pierced(row) and not eaten.is_rare(row) else NOTHING


@condition("needled-rare")
def _needled_rare(row: Row) -> Hits:
    return _through(row) if _is_pierced(row) and eaten.is_rare(row) else NOTHING


@condition("eaten-raw")
def _raw(row: Row) -> Hits:
    is_pork = row.group == "pork" or (not row.group and named.says(called.heard(row.text("product")), _PORK))
    return _through(row) if (is_pork or flesh.is_poultry(row)) and eaten.is_eaten_uncooked(row) else NOTHING


def _is_pierced(row: Row) -> bool:
    """Whether meat or fish is opened by needles or blades."""
    return flesh.is_flesh(row) and any(
        needles.pierces(row.text(heading)) for heading in ("method", "treatment", "cure method")
    )


def _through(row: Row) -> Hits:
    whose = "fish" if flesh.is_fish(row) else "poultry" if flesh.is_poultry(row) else "needled"
    limit = limits.value(f"cook {whose}")
    return ({"product": product_of(row), "limit": jurisdiction.by_us_rules(row, degrees_at_least(limit))},)


@condition("honey-infant")
def _honey(row: Row) -> Hits:
    said = [thing.text for thing in row.things] + [thing.what.name for thing in row.things] + [row.text("product")]
    honey = any(word in called.heard(text) for text in said for word in _HONEY)
    return ({},) if honey and eaten.is_for_babies(row) else NOTHING


@condition("cola-not-pork")
def _cola(row: Row) -> Hits:
    if row.group in ("", "pork"):
        return NOTHING
    sweet = any(thing.heading == "liquid" and "cola" in thing.what.hazards for thing in row.things)
    return ({"product": product_of(row)},) if sweet else NOTHING


@condition("gain-high")
def _gain(row: Row) -> Hits:
    gain, most = row.number("gain"), limits.find("gain usual high")
    if gain is None or not most.passed_by(gain):
        return NOTHING
    return ({"gain": share(gain), "limit": most.shown},)


@condition("added-solution")
def _added(row: Row) -> Hits:
    gain = row.number("gain")
    if not gain or not flesh.is_flesh(row) or not _is_sold_raw(row):
        return NOTHING
    return ({"product": product_of(row), "gain": share(gain)},)


@condition("phosphate-eu-raw")
def _phosphate(row: Row) -> Hits:
    if jurisdiction.of(row) != "EU" or not flesh.is_meat(row) or not _is_sold_raw(row):
        return NOTHING
    return [{"name": thing.what.name, "product": product_of(row)} for thing in row.of_role("phosphate")]


def _is_sold_raw(row: Row) -> bool:
    """Whether it goes out packed, not cured and, as far as the row says, not cooked."""
    packs = [pack.strip() for pack in row.text("packaging").casefold().split(";")]
    if packs == [""] or any(pack in _NOT_FOR_SALE for pack in packs) or row.has_cure:
        return False
    return not eaten.is_sold_cooked(row)


@condition("sodium-day")
def _day(row: Row) -> Hits:
    sodium, most = _sodium(row), limits.find("sodium daily value", "US")
    over = jurisdiction.of(row) == "US" and sodium > most.value
    return ({"sodium": _milligrams(sodium), "limit": most.shown},) if over else NOTHING


@condition("sodium-portion")
def _portion(row: Row) -> Hits:
    sodium, day = _sodium(row), limits.value("sodium daily value", "US")
    if jurisdiction.of(row) != "US" or not limits.value("sodium per portion", "US") < sodium <= day:
        return NOTHING
    return ({"sodium": _milligrams(sodium), "share": f"{100 * sodium / day:.0f} %"},)


@condition("salt-day")
def _salt_day(row: Row) -> Hits:
    salt, day = _salt(row), limits.value("salt reference intake", "EU")
    if jurisdiction.of(row) != "EU" or not salt > day:
        return NOTHING
    return ({"salt": f"{salt:.2g} g" if salt < 99.5 else f"{salt:.0f} g", "limit": f"{day:g} g"},)


@condition("salt-portion")
def _salt_portion(row: Row) -> Hits:
    salt, day = _salt(row), limits.value("salt reference intake", "EU")
    if jurisdiction.of(row) != "EU" or not limits.value("salt per portion", "EU") < salt <= day:
        return NOTHING
    return ({"salt": f"{salt:.2g} g", "share": f"{100 * salt / day:.0f} %"},)


@condition("allergens")
def _allergens(row: Row) -> Hits:
    found: Dict[str, List[str]] = {}
    for thing in row.things:
        if thing.what.ingredient:
            for allergen in thing.what.ingredient.allergens:
                found.setdefault(allergen, []).append(thing.what.name)
    if not found:
        return NOTHING
    return ({"allergens": ", ".join(f"{allergen} ({', '.join(names)})" for allergen, names in found.items())},)


def _sodium(row: Row) -> float:
    """Milligrams of sodium from salt in one portion at the target, 0 where it cannot be told."""
    return _salt(row) * limits.value("sodium in salt")


def _salt(row: Row) -> float:
    """Grams of salt in one portion at the target, 0 where it cannot be told."""
    portion, target = row.number("portion"), row.number("target")
    return portion * target if portion and target else 0.0


def _milligrams(value: float) -> str:
    return f"{round(value, -1):.0f} mg"
