"""Where the salt of a row ends, held against the target of the same row.

One idea: a row that says what goes in and what shall come out says one thing twice, and the library knows how the two
hang together. What is not known to a tenth (bone, native salt, the basis a kitchen reckons on, how fast salt moves)
spans a range, and only a target well outside of it is a slip.
"""

from __future__ import annotations

import math
from typing import NamedTuple, Optional, Tuple

from brinecalc.errors import BrineError, Impossible
from brinecalc.science import balance, soaking
from brinecalc.trade import cells, groups, limits, methods, named, soaks, treatments, uses
from brinecalc.trade.pieces import Piece, Thickness, piece
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import grams, hours, product_of, share

_MISSED = 1.15
"""By how many times the salt may pass or miss its target, beyond what basis, bone and native salt leave open, before
it is told: judgement, for scale, trim and drip; finished products analysed beside their sheets would settle it."""
_BRUSHED_OFF = 3.0
"""By how many times more salt may be strewn on where part of it is brushed or rinsed off, as for gravlax: judgement;
fish analysed after its cure would settle it."""
_SOAK_MISSED = 1.25
"""By how many times a soak may pass or miss its target even at the end of the range of diffusivities that is nearest
to it: judgement; soak logs with the salt analysed at the end would settle it."""
_MOST_EATEN = 0.06
"""Salt share above which nobody eats meat or fish as it is: judgement; ham dried for long holds 4 to 6 %. A tasting
would settle it."""
_UNSALTED = 0.01
"""Sodium, gram per gram, up to which what goes in beside the salt brings none worth reckoning: judgement, above spices
and juices, below olives and most sauces; adding up the sodium of whole recipes would settle it."""


class _Range(NamedTuple):
    """Where a row ends at the least and at the most, and the likeliest of it."""

    low: float
    likely: float
    high: float
    what: str
    instead: str

    def misses(self, target: float) -> bool:
        return self.low > target * _MISSED or self.high * _MISSED < target


@condition("salt-off-target")
def _off_target(row: Row) -> Hits:
    target = row.number("target")
    if not target or _is_told_as_native(row, target):
        return NOTHING
    ends = _ends(row, target)
    if ends is None or not ends.misses(target):
        return NOTHING
    return ({
        "what": ends.what, "product": product_of(row, "the product"), "found": share(ends.likely),
        "target": share(target), "instead": ends.instead,
    },)  # fmt: skip


@condition("target-unreachable")
def _unreachable(row: Row) -> Hits:
    target, strength = row.number("target"), row.number("strength")
    ways = methods.ways(row.text("method"))
    if not target or not strength or "dry equilibrium" in ways or _is_told_as_native(row, target):
        return NOTHING
    most = _most(row, strength)
    if most * _MISSED >= target or (ways & {"equilibrium", "injected"} and _ends(row, target) is not None):
        return NOTHING
    return ({
        "strength": share(strength), "product": product_of(row, "the product"), "most": share(most),
        "target": share(target),
    },)  # fmt: skip


@condition("soak-off-target")
def _soak_off(row: Row) -> Hits:
    target, strength, soak = row.number("target"), row.number("strength"), row.number("soak hours")
    if not target or not soak or row.product is None or not row.number("thickness") or not _is_soaked(row):
        return NOTHING
    if not strength or _is_told_as_native(row, target) or _most(row, strength) < target:  # freshened in changed water
        return NOTHING
    bath = _bath(row)
    try:
        found = soaks.salt_after(_piece(row, "typical"), soak, strength, bath)
        if not _is_far(found, found, target):
            return NOTHING
        both = [soaks.salt_after(_piece(row, each), soak, strength, bath) for each in ("slow", "fast")]
    except BrineError:  # warm, frozen or too strong: said elsewhere
        return NOTHING
    low, high = sorted(both)
    if not _is_far(low, high, target):
        return NOTHING
    return ({
        "hours": hours(soak), "product": product_of(row), "found": share(found), "low": share(low),
        "high": share(high), "target": share(target), "instead": _instead(row, target, soak, strength, bath),
    },)  # fmt: skip


@condition("target-high")
def _high(row: Row) -> Hits:
    target = row.number("target")
    is_other = row.product is not None and row.group not in groups.FLESH
    if not target or target <= _MOST_EATEN or row.has_cure or is_other:
        return NOTHING
    if (row.product is None or row.group in groups.FISH) and _keeps(row):
        return NOTHING
    return ({"target": share(target), "product": product_of(row, "food"), "limit": share(_MOST_EATEN)},)


def _keeps(row: Row) -> bool:
    """Whether the row salts to keep: dry, or in a brine that draws water out."""
    strength = row.number("strength")
    dry = "dry equilibrium" in methods.ways(row.text("method"))
    return dry or (strength is not None and limits.find("strong brine").passed_by(strength))


def _is_told_as_native(row: Row, target: float) -> bool:
    """Whether the target is no more than the product brings, which another finding tells."""
    given = row.number("native salt")
    native = given if given is not None else row.product.native_salt if row.product else 0.0
    return target <= native


def _ends(row: Row, target: float) -> Optional[_Range]:
    """Where a row ends that goes to equilibrium or is injected; None where that is not known."""
    ways = methods.ways(row.text("method"))
    if len(ways) != 1:
        return None
    if ways <= methods.EVEN:
        return _even(row, target, "dry equilibrium" in ways)
    return _injected(row, target) if "injected" in ways else None


def _even(row: Row, target: float, dry: bool) -> Optional[_Range]:
    water, weights = row.number("water") or 0.0, _weights(row)
    salt, what = row.number("salt"), ""
    if salt:
        what = f"{grams(salt)} of salt"
    elif not dry and water and row.number("strength"):
        strength = row.number("strength") or 0.0
        salt, what = strength * water, f"A brine of {share(strength)}"
    if not salt or not weights or not (water or dry):
        return None
    least, native = _natives(row)
    cure, more = sum(thing.grams or 0.0 for thing in row.cures), _other_salt(row)
    share_of_water = row.product.water if row.product else None
    waters = (0.0, water) if dry and water else (water,)
    pairs = [(weight, around) for weight in weights for around in waters]
    left = salt / _BRUSHED_OFF if methods.leaves_salt_outside(row.text("method")) else salt
    low = min(_bases(*pair, left, least, share_of_water) for pair in pairs)[0]
    high = max(_bases(*pair, salt + cure + more, native, share_of_water)[1] for pair in pairs)
    likely = _weighed(weights[0], waters[0], salt + cure, native)
    return _Range(low, likely, high, what, _salt_instead(weights[0], waters[0], target, native, cure))


def _bases(
    weight: float, water: float, salt: float, native: float, share_of_water: Optional[float]
) -> Tuple[float, float]:
    """The end as kitchens reckon it, by weight, and as diffusion has it in the product, the lower one first."""
    by_weight = _weighed(weight, water, salt, native)
    if share_of_water is None or math.isinf(salt):
        return by_weight, by_weight
    inside = share_of_water * (salt + native * weight) / (water + share_of_water * weight)
    return min(by_weight, inside), max(by_weight, inside)


def _weighed(weight: float, water: float, salt: float, native: float) -> float:
    """Where it ends by weight; of more salt than dissolves what does."""
    if math.isinf(salt):
        return math.inf
    try:
        return balance.equilibrium_result(weight, water, salt, native, "weight", None)
    except Impossible as error:
        return balance.equilibrium_result(weight, water, error.nearest or 0.0, native, "weight", None)


def _injected(row: Row, target: float) -> Optional[_Range]:
    gain, strength = row.number("gain"), row.number("strength")
    if not gain or not strength:
        return None
    least, native = _natives(row)
    beside = sum(thing.ratio or 0.0 for thing in row.things)
    more = _other_salt(row) / water if (water := row.number("water")) else 0.0
    low = (least + gain * strength / (1.0 + strength + beside)) / (1.0 + gain)
    likely = (native + gain * strength / (1.0 + strength)) / (1.0 + gain)
    high = (native + gain * (strength + more)) / (1.0 + gain)  # a strength may be meant as a share of the solution
    try:
        wanted = balance.injection_strength(target, gain, native, "water")
        instead = f"Inject a brine of {share(wanted)} of the water"
    except BrineError:
        instead = "Change the gain"
    return _Range(low, likely, high, f"A brine of {share(strength)}", instead)


def _natives(row: Row) -> Tuple[float, float]:
    """Salt that the product brings, at the least and at the most: a table's sodium is not all of it salt."""
    given = row.number("native salt")
    return (given, given) if given is not None else (0.0, row.product.native_salt if row.product else 0.0)


def _weights(row: Row) -> Tuple[float, ...]:
    """What takes up salt, g, the likeliest first; with the bone in where the row may be reckoned so."""
    edible, weight = row.number("edible weight"), row.number("weight")
    if edible:
        return (edible,)
    if not weight:
        return ()
    refuse = row.product.refuse if row.product else 0.0
    return (balance.edible(weight, refuse), weight) if refuse else (weight,)


def _other_salt(row: Row) -> float:
    """Salt that soy sauce, stock and the like bring, g; infinite where nobody knows how much."""
    salt = 0.0
    for thing in row.things:
        if thing.what.is_cure or thing.what.ingredient is None or thing.what.ingredient.sodium <= _UNSALTED:
            continue
        salt += math.inf if thing.grams is None else thing.grams * thing.what.ingredient.sodium * 1000.0
    return salt / limits.value("sodium in salt")


def _salt_instead(weight: float, water: float, target: float, native: float, cure: float) -> str:
    try:
        wanted = balance.equilibrium_salt(weight, water, target, native, "weight", None) - cure
    except BrineError:
        wanted = 0.0
    return f"Weigh {grams(wanted)} of salt" if wanted > 0.0 else "Weigh the salt anew"


def _most(row: Row, strength: float) -> float:
    """The most salt that the product comes to in that brine, however long."""
    if row.product is None or uses.is_injected(row):
        return strength
    _, native = _natives(row)
    water = row.product.water
    return water * soaking.final(native / water, strength, _bath(row) / water)


def _bath(row: Row) -> float:
    """Brine water over product weight; infinite where it is not known."""
    water, weights = row.number("water"), _weights(row)
    return water / weights[0] if water and weights else math.inf


def _is_soaked(row: Row) -> bool:
    """Whether the row is a timed soak: by its method, or by its hours where it names none."""
    text = row.text("method")
    return not uses.is_injected(row) and (not text or methods.ways(text) == {"gradient"})


def _is_far(low: float, high: float, target: float) -> bool:
    return low > target * _SOAK_MISSED or high * _SOAK_MISSED < target


def _piece(row: Row, estimate: str) -> Piece:
    size = _size(row)
    form = row.text("shape").strip().casefold() or None
    said = named.words_in(f"{row.text('treatment')} {row.text('method')}"[:200]).split()
    treatment = next((name for name in treatments.treatments() if name in said), "none")
    celsius = row.number("bath temperature")
    return piece(
        row.product.name if row.product else row.text("product"),
        size,
        soaking.REFERENCE if celsius is None else celsius,
        None if isinstance(size, tuple) else form,
        treatment,
        estimate,
        row.number("native salt"),
    )


def _size(row: Row) -> Thickness:
    """The thickness, or the three edges of a block."""
    for column in row.plan.columns:
        cell = row.typed[column.at]
        if column.name == "thickness" and isinstance(cell, str):
            edges = cells.edges(cell, column)
            if len(edges) == 3:
                return edges[0], edges[1], edges[2]
    return row.number("thickness") or 0.0


def _instead(row: Row, target: float, soak: float, strength: float, bath: float) -> str:
    """Longer, where custom has room for that, else stronger, where the brine still brings water in."""
    it = _piece(row, "typical")
    cap = row.product.cap_hours if row.product else None
    try:
        wanted = soaks.hours_for(it, target, strength, bath)
        if cap is None or wanted <= cap:
            return f"Soak it about {hours(wanted)}"
        stronger = soaks.strength_for(it, target, soak, bath)
    except BrineError:
        return "Take thinner pieces"
    strong = limits.find("strong brine").passed_by(stronger)
    return "Take thinner pieces" if strong else f"Take a brine of about {share(stronger)} for that time"
