"""Mass balances of salt and water between product and brine, wherever they end up.

One idea: salt is neither made nor lost, so what product and brine hold together at the start they hold at the end;
the only question is what the final share is a share of. Masses in any one unit, shares as fractions of one. These
say nothing about time: see the diffusion kernels for how long it takes.
"""

from __future__ import annotations

import math
from decimal import ROUND_FLOOR

from brinecalc.errors import Impossible, OutOfRange, Unreadable
from brinecalc.quantity import show
from brinecalc.science import solution

_TRIFLE = 1.0 + 1e-9  # what rounding may add to a brine that is just saturated

MOST_GAINED = 2.0
"""Gain up to which the functions of injection go; no piece keeps twice its weight."""


def edible(weight: float, refuse: float) -> float:
    """Edible weight of a product bought with that share of bone, shell or skin."""
    return weight * (1.0 - refuse)


def equilibrium_salt(
    product: float, water: float, target: float, native: float, basis: str, product_water: float | None
) -> float:
    """Salt that leaves product and brine at `target`; `basis` says of what the target is a share."""
    held = native * product
    if basis == "weight":
        salt = target * (product + water) - held
    elif basis == "total":
        salt = (target * (product + water) - held) / (1.0 - target)
    else:
        wet = water + _moisture(product_water, native) * product
        salt = target / (1.0 - target) * wet - held
    if salt < -1e-12 * product:
        alone = equilibrium_result(product, water, 0.0, native, basis, product_water)
        raise Impossible(
            f"cannot be below {_percent(alone)}, where product and water end with no salt added",
            argument="target",
            advice=f"use a target of {_percent(alone, up=True)} or more, or more water",
            nearest=alone,
        )
    most = _most_held(product, water, native, product_water)
    if salt + held > most * _TRIFLE:
        end = equilibrium_result(product, water, most - held, native, basis, product_water)
        raise Impossible(
            f"cannot be above {_percent(end)}, where no more salt dissolves in product and water",
            argument="target",
            advice=f"use a target of {_percent(end, up=False)} or less",
            nearest=end,
        )
    return max(salt, 0.0)


def equilibrium_result(
    product: float, water: float, salt: float, native: float, basis: str, product_water: float | None
) -> float:
    """Where product, brine and that much salt end, as a share by `basis`."""
    if salt < 0.0:
        alone = equilibrium_result(product, water, 0.0, native, basis, product_water)
        raise OutOfRange(
            "must be at least 0 g",
            argument="salt",
            got=f"{salt:.6g} g",
            advice=f"with no salt added product and water end at {_percent(alone)}",
            nearest=0.0,
        )
    held = salt + native * product
    most = _most_held(product, water, native, product_water)
    if salt and held > most * _TRIFLE:
        least = max(most - native * product, 0.0)
        raise Impossible(
            f"must be at most {show(least, 'mass', ROUND_FLOOR)}, for no more dissolves in this much product and water",
            argument="salt",
            got=f"{salt:.6g} g",
            advice="use less salt, or more water",
            nearest=least,
        )
    if basis == "weight":
        return held / (product + water)
    if basis == "total":
        return held / (product + water + salt)
    return held / (held + water + _moisture(product_water, native) * product)


def _most_held(product: float, water: float, native: float, product_water: float | None) -> float:
    """The most salt that product and water hold dissolved; a product of unknown moisture counts as water."""
    moisture = 1.0 if product_water is None else _moisture(product_water, native)
    return solution.strongest() * (water + moisture * product)


def injection_strength(target: float, gain: float, native: float, basis: str) -> float:
    """Strength of the solution that brings the finished weight to `target` when `gain` of it stays in."""
    strength = (target * (1.0 + gain) - native) / gain
    if strength < 0.0:
        alone = native / (1.0 + gain)
        raise Impossible(
            f"cannot be below {_percent(alone)}, which plain water at this gain already leaves",
            argument="target",
            advice=f"use a target of {_percent(alone, up=True)} or more",
            nearest=alone,
        )
    strongest = solution.saturation()
    if strength > strongest * _TRIFLE:
        most = (strongest * gain + native) / (1.0 + gain)
        advice = f"use a target of at most {_percent(most, up=False)}"
        needed = (target - native) / (strongest - target) if target < strongest else math.inf
        if needed <= MOST_GAINED:
            advice += f", or a gain of at least {_percent(needed, up=True)}"
        raise Impossible(
            f"cannot be reached at a gain of {_percent(gain)}: the solution would need {_percent(strength)} salt "
            f"and none holds more than {_percent(strongest)}",
            argument="target",
            advice=advice,
            nearest=most,
        )
    return strength if basis == "solution" else strength / (1.0 - strength)


def in_product(share: float, gain: float) -> float:
    """Share in the finished product of what was `share` of the solution retained."""
    return share * gain / (1.0 + gain)


def water_phase_salt(salt: float, moisture: float) -> float:
    """Salt as a share of salt and moisture, both by analysis: crystals that lie in a dry product count as salt."""
    if salt + moisture > 1.0 + 1e-9:
        raise Impossible(
            "cannot be more than 100 % together with the moisture",
            argument="salt",
            advice=f"with that moisture use at most {_percent(min(1.0 - moisture, moisture), up=False)}",
            nearest=1.0 - moisture,
        )
    if salt > moisture:
        raise Impossible(
            f"must be at most the moisture, {_percent(moisture, up=False)}",
            argument="salt",
            got=_percent(salt),
            advice="no food holds more salt than water: are the two the wrong way round?",
            nearest=moisture,
        )
    return salt / (salt + moisture)


def absorbed(product: float, water: float, start: float, reading: float, gain: float | None) -> float:
    """Salt taken up per product as it went in, from the fall of the bath; strengths are shares of the water.

    Without a gain only salt is taken to move. With one, what went in is salt and water, and the bath lost both. A
    product of nothing but water, with all that it gained, would hold the brine it lies in, and no product holds more.
    """
    solution.check_strength(start, argument="start_strength")
    solution.check_strength(reading, argument="reading")
    if gain is None:
        taken = water * (start - reading) / product
    else:
        taken = (water * (start - reading) + reading * gain * product) / ((1.0 + reading) * product)
    most = start * (1.0 + max(gain or 0.0, 0.0))
    if taken > most * (1.0 + 1e-9):
        raise Impossible(
            f"would mean that the product took up {_percent(taken)} of its weight in salt, and this brine brings "
            f"at most {_percent(most)} into it",
            argument="reading",
            advice="look again at both weights, and whether ice or drip thinned the bath; stir it and read again",
        )
    return taken


def _moisture(product_water: float | None, native: float) -> float:
    if product_water is None:
        raise Unreadable(
            'is needed with basis "water phase"',
            argument="product_water",
            advice="give the product's water share, such as 74%",
        )
    if product_water + native > 1.0:
        raise Impossible(
            f"cannot be above {_percent(1.0 - native)} together with that native salt",
            argument="product_water",
            nearest=1.0 - native,
        )
    return product_water


def _percent(share: float, up: bool | None = None) -> str:
    """A share in per cent, rounded to the side on which it can be typed back."""
    percent = share * 100.0
    if up is None or percent == 0.0:
        return f"{percent:.4g} %"
    step = 10.0 ** (math.floor(math.log10(abs(percent))) - 3)
    return f"{(math.ceil if up else math.floor)(percent / step) * step:.4g} %"
