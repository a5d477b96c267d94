"""When a weight, a count or a thickness is hard to believe: a slip of the unit, mostly.

One idea: weight, pieces and thickness together say how wide each piece is, and a chop as wide as a table or thicker
than it is wide was typed in another unit.
"""

from __future__ import annotations

import math
from typing import Optional

from brinecalc.science import mixing
from brinecalc.trade import eaten, groups, limits, piece_sizes
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import grams, length, product_of

_THINNEST, _THICKEST = 2.0, 500.0
"""mm; a thickness beyond these is a slip of the unit: judgement. Pieces measured in kitchens would settle it."""
_WIDEST, _NARROWEST = 20.0, 0.5
"""How wide a piece may be, in times its thickness: judgement; a paillard is about 15 times as wide, a cube as wide as
thick. Pieces weighed and measured would settle it."""
_UNCOUNTED = 0.1
"""Share of the lightest piece below which a batch is a slip of the unit even if nobody says how many pieces it is; a
recipe is often written for a part of one: judgement. The weights that kitchens write recipes for would settle it."""
_ODD, _SLIM = 0.25, 0.5
"""Shares of the thinnest that the soak chart shows of such a product, below which a thickness is a slip of the unit, or
worth a word: judgement; pieces measured in kitchens would settle it."""
_MASSES = ("weight", "edible weight")
_LIQUIDS = ("water", "pickle")


@condition("quantity-mismatch")
def _mismatch(row: Row) -> Hits:
    for product in _MASSES:
        for liquid in _LIQUIDS:
            one, other = row.number(product), row.number(liquid)
            if not one or not other or (product in row.bare) == (liquid in row.bare):
                continue
            ratio = max(one / other, other / one)
            if limits.find("quantity mismatch").passed_by(ratio):
                return ({
                    "one": f"{product.capitalize()} {grams(one)}", "other": f"{liquid} {grams(other)}",
                    "ratio": f"{float(f'{ratio:.3g}'):.15g}",
                },)  # fmt: skip
    return NOTHING


@condition("batch-heavy")
def _heavy(row: Row) -> Hits:
    most = limits.find("batch weight")
    if row.weight is None or not most.passed_by(row.weight):
        return NOTHING
    return ({"weight": grams(row.weight), "limit": grams(most.value)},)


@condition("thickness-odd")
def _odd(row: Row) -> Hits:
    thickness = row.number("thickness")
    if not thickness or max(_THINNEST, _thinnest_shown(row) * _ODD) <= thickness <= _THICKEST:
        return NOTHING
    if thickness >= _THINNEST and (eaten.is_thin(row) or _fits_its_weight(row, thickness)):
        return NOTHING
    return ({"thickness": length(thickness)},)


@condition("thickness-thin")
def _thin(row: Row) -> Hits:
    thickness = row.number("thickness")
    if not thickness or row.number("pieces") or eaten.is_thin(row):
        return NOTHING
    if not _thinnest_shown(row) * _ODD <= thickness < _thinnest_shown(row) * _SLIM:
        return NOTHING
    return ({"thickness": length(thickness), "product": product_of(row)},)


@condition("piece-shape")
def _shape(row: Row) -> Hits:
    thickness, one = row.number("thickness"), _piece(row)
    if not thickness or one is None or row.group not in groups.FLESH:
        return NOTHING
    across = _across(one, thickness)
    if _fits(across, thickness):
        return NOTHING
    return ({"weight": grams(one), "thickness": length(thickness), "across": length(across)},)


def _fits_its_weight(row: Row, thickness: float) -> bool:
    """Whether weight and pieces bear a thickness out: the only proof that a strip is one."""
    one = _piece(row)
    return one is not None and row.group in groups.FLESH and _fits(_across(one, thickness), thickness)


def _across(one: float, thickness: float) -> float:
    """How wide and long a square piece of that weight is, mm."""
    return math.sqrt(1000.0 * one / mixing.PRODUCT_DENSITY / thickness)


def _fits(across: float, thickness: float) -> bool:
    return _NARROWEST * thickness <= across <= _WIDEST * thickness


@condition("piece-weight")
def _weight(row: Row) -> Hits:
    counted = bool(row.number("pieces"))
    one = _piece(row) if counted else _whole(row)
    if row.product is None or not one:
        return NOTHING
    size = piece_sizes.of(row.product)
    light = size.lightest is not None and one < size.lightest * (1.0 if counted else _UNCOUNTED)
    heavy = size.heaviest is not None and one > size.heaviest and counted
    if not light and not heavy:
        return NOTHING
    least, most = (grams(each) if each is not None else "" for each in (size.lightest, size.heaviest))
    usual = f"{least} to {most}" if least and most else f"up to {most}" if most else f"from {least} up"
    return ({"product": product_of(row), "weight": grams(one), "usual": usual},)


def _thinnest_shown(row: Row) -> float:
    """The thinnest that the soak chart shows for such a product, mm; 0 where it is not known."""
    return float(groups.row(row.group)["thicknesses"][0]) if row.group else 0.0


def _piece(row: Row) -> Optional[float]:
    """What one piece weighs, bone and all, g."""
    pieces, whole = row.number("pieces"), _whole(row)
    return whole / pieces if pieces and whole else None


def _whole(row: Row) -> Optional[float]:
    """What the batch weighs, bone and all, g."""
    whole, edible = row.number("weight"), row.number("edible weight")
    if whole is None and edible is not None:
        return edible / (1.0 - (row.product.refuse if row.product else 0.0))
    return whole
