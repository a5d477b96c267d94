"""When the salt itself does not add up: too much to dissolve, frozen, treated before, weighed with the bone.

One idea: a brine is physics, and a sheet that asks for what physics does not do has a slip in it somewhere.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.science import solution
from brinecalc.trade import flesh, groups, limits, methods, named, salted_before, uses
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, TRIMMED, Hits, bath_temperature, condition
from brinecalc.trade.wording import degrees, grams, product_of, share

_APART = 0.1
"""By how much of itself a strength may differ from what salt and water make before it is a slip: judgement; what
kitchens weigh beside what their sheets say would settle it."""
_SALTED = 0.05
"""Salt share from which a product is salted goods, not treated meat: judgement; analyses of both would settle it."""
_SAID = (
    " treated ", " enhanced ", " stpp ", " phosphate ", " salted ", " brined ", " injected ", " cured ", " glazed ",
)  # fmt: skip
"""Words of a product that is known to be treated."""
_COLDEST = -21.2  # °C, just below the eutectic: any brine is frozen


@condition("over-saturation")
def _saturation(row: Row) -> Hits:
    strength = row.number("strength")
    if not strength:
        return NOTHING
    celsius = min(max(bath_temperature(row), 0.0), solution.HOTTEST)
    most = solution.strongest("water", celsius)
    return ({"strength": share(strength), "limit": share(most)},) if strength > most * (1.0 + 1e-9) else NOTHING


@condition("strength-mismatch")
def _strength_mismatch(row: Row) -> Hits:
    strength, salt, water = row.number("strength"), row.number("salt"), row.number("water")
    if strength is None or salt is None or not water or not strength < 1.0:
        return NOTHING
    with_cure = salt + sum(thing.grams or 0.0 for thing in row.cures)  # whose salt may have been taken off
    for wanted in (strength * water, strength / (1.0 - strength) * water):
        if salt <= wanted * (1.0 + _APART) and with_cure >= wanted * (1.0 - _APART):
            return NOTHING
    return ({
        "salt": grams(salt), "water": grams(water), "found": share(salt / water),
        "strength": share(strength),
    },)  # fmt: skip


@condition("brine-frozen")
def _frozen(row: Row) -> Hits:
    celsius, strength = row.number("bath temperature"), row.number("strength")
    if celsius is None or celsius > 0.0 or (strength is None and celsius > _COLDEST):
        return NOTHING
    found = min(solution.from_water_basis(strength or 0.0), solution.eutectic())
    freezing = solution.freezing_point(found)
    if celsius > freezing:
        return NOTHING
    return ({"strength": share(strength or 0.0), "freezing": degrees(freezing), "temperature": degrees(celsius)},)


@condition("strong-brine")
def _strong(row: Row) -> Hits:
    strength = row.number("strength")
    most = limits.find("strong brine")
    if strength is None or not flesh.is_flesh(row) or not most.passed_by(strength):
        return NOTHING
    if uses.of(row) == "injection":
        return NOTHING  # what is pumped in stays in, and its strength follows from the target and the gain
    return ({"limit": share(most.value)},)


@condition("already-treated")
def _treated(row: Row) -> Hits:
    native = row.number("native salt")
    if native is None or row.product is None or row.group not in groups.FLESH or row.number("strength") == 0.0:
        return NOTHING
    if native == row.product.native_salt or any(
        word in named.words_in(row.text("product")) for word in _SAID
    ):  # nobody's reading, or told already
        return NOTHING
    if not limits.value("treated native salt") < native < _SALTED:
        return NOTHING
    if row.cures and salted_before.told_by(row):
        return NOTHING  # told with its nitrite
    return ({"product": product_of(row), "found": share(native)},)


@condition("target-below-native")
def _below_native(row: Row) -> Hits:
    target, native = row.number("target"), _native(row)
    if target is None or target == 0.0 or native is None or target > native or row.number("strength") == 0.0:
        return NOTHING
    return ({"target": share(target), "found": share(native), "product": product_of(row)},)


@condition("bone-in-weight")
def _bone_in(row: Row) -> Hits:
    if row.product is None or not methods.goes_even(row.text("method")) or not row.number("weight"):
        return NOTHING
    if row.product.refuse <= TRIMMED or row.product.group == "vegetable" or row.number("edible weight") is not None:
        return NOTHING
    return ({"refuse": share(row.product.refuse), "product": product_of(row)},)


def _native(row: Row) -> Optional[float]:
    """Salt in the product before brining: as given, else the table's."""
    given = row.number("native salt")
    return given if given is not None else row.product.native_salt if row.product else None
