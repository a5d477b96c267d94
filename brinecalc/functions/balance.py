"""Worksheet functions of equilibrium and mass balance: how much salt, and where it ends up.

One idea: ``product_weight`` is always the edible weight as it goes in, and every share says in its help of what it
is a share.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.catalogue import worksheet_function
from brinecalc.science import balance as kernel
from brinecalc.trade import products

FAMILY = "Equilibrium and mass balance"


@worksheet_function(family=FAMILY)
def edible(weight: float, product: str) -> float:
    """Edible weight of a bone-in or shell-on product, from the table's refuse share.

    Parameters
    ----------
    weight : mass
        Weight as bought [g]; above 0. Example: 1600.
    product : name
        Product from the product table [-]. Example: "whole chicken".

    Returns
    -------
    mass
        Edible weight [g].

    Notes: Bone, shell and trimmings vary; weigh what you trim off once and correct the figure. Products sold without
    waste give their own weight back.
    Sources: usda-sr27
    Examples
    --------
    >>> edible(1000, "bone-in pork chop")
    750.0
    """
    return kernel.edible(weight, products.find(product).refuse)


@worksheet_function(family=FAMILY)
def equilibrium_salt(
    product_weight: float,
    water: float,
    target: float,
    native_salt: float = 0.0,
    basis: str = "weight",
    product_water: Optional[float] = None,
) -> float:
    """Salt that leaves product and brine at the target once they have evened out.

    Parameters
    ----------
    product_weight : mass
        Edible weight of the product as it goes in [g]; above 0. Example: 2000.
    water : water
        Water of the brine; 0 for a dry equilibrium cure [g]; at least 0. Example: 1000.
    target : share
        Salt wanted in the end, as a share by the basis, no more than dissolves [-]; above 0, below 1. Example: 1.5%.
    native_salt : share
        Salt the product brings, of its weight [-]; at least 0, below 1.
    basis : {weight, total, water phase}
        Share of product and water, of product, water and salt, or of salt and all water [-].
    product_water : share
        Water in the product, needed for the water phase [-]; above 0, below 1. Example: 74%.

    Returns
    -------
    mass
        Salt to weigh out [g].

    Notes: Mass balance only; thick pieces need days or weeks to even out. Basis "weight" is how kitchens reckon, and
    counts the product's solids as water: diffusion ends lower (chicken breast 2000 g, water 1000 g, salt 45 g come to
    1.57 % by weight with the native salt, and to 1.41 % in the meat itself).
    Sources: common-practice, definition
    Examples
    --------
    >>> equilibrium_salt(2000, 1000, 0.015)
    45.0
    """
    return kernel.equilibrium_salt(product_weight, water, target, native_salt, basis, product_water)


@worksheet_function(family=FAMILY)
def equilibrium_result(
    product_weight: float,
    water: float,
    salt: float,
    native_salt: float = 0.0,
    basis: str = "weight",
    product_water: Optional[float] = None,
) -> float:
    """Where product, water and that much salt end once they have evened out.

    Parameters
    ----------
    product_weight : mass
        Edible weight of the product as it goes in [g]; above 0. Example: 2000.
    water : water
        Water of the brine; 0 for a dry equilibrium cure [g]; at least 0. Example: 1000.
    salt : mass
        Salt added, 0 or more and no more than dissolves [g]; any. Example: 45.
    native_salt : share
        Salt the product brings, of its weight [-]; at least 0, below 1.
    basis : {weight, total, water phase}
        Share of product and water, of product, water and salt, or of salt and all water [-].
    product_water : share
        Water in the product, needed for the water phase [-]; above 0, below 1. Example: 74%.

    Returns
    -------
    share
        Salt in the end, as a share by the basis [-].

    Notes: Mass balance only; see the time functions for how long it takes.
    Sources: common-practice, definition
    Examples
    --------
    >>> equilibrium_result(2000, 1000, 45)
    0.015
    """
    return kernel.equilibrium_result(product_weight, water, salt, native_salt, basis, product_water)


@worksheet_function(family=FAMILY)
def injection_strength(target: float, gain: float, native_salt: float = 0.0, basis: str = "solution") -> float:
    """Strength of the solution to inject for a target in the finished weight.

    Parameters
    ----------
    target : share
        Salt wanted, of the weight after injection [-]; above 0, below 1. Example: 1%.
    gain : share
        Weight gained and kept, of the green weight [-]; above 0, at most 2. Example: 10%.
    native_salt : share
        Salt the product brings, of its green weight [-]; at least 0, below 1.
    basis : {solution, water}
        Whether the answer is a share of the solution or of its water [-].

    Returns
    -------
    share
        Salt of the solution to inject [-].

    Notes: The gain is what stays in; weigh before and after, and after the drip. As pumped brines are reckoned, the
    answer is a share of the solution, where other strengths here are shares of the water: weigh the salt by BRINE_SALT
    with basis "solution", or ask here for basis "water". 1.5 % at a gain of 10 % is 16.5 % of the solution and 19.76 %
    of the water.
    Sources: definition, kaufmann-1960
    Examples
    --------
    >>> injection_strength(0.02, 0.25)
    0.1
    >>> round(injection_strength(0.015, 0.1), 4)
    0.165
    >>> round(injection_strength(0.015, 0.1, 0.0, "water"), 4)
    0.1976
    """
    return kernel.injection_strength(target, gain, native_salt, basis)


@worksheet_function(family=FAMILY)
def in_product(share: float, gain: float) -> float:
    """Share in the finished product of what was that share of the retained solution.

    Parameters
    ----------
    share : share
        Share of the solution: salt, phosphate, sugar … [-]; at least 0, at most 1. Example: 3%.
    gain : share
        Weight gained and kept, of the green weight [-]; at least 0, at most 2. Example: 10%.

    Returns
    -------
    share
        Share of the finished weight [-].

    Notes: For injected or tumbled goods, where all that was gained is solution. Legal limits on phosphates hold for
    this figure.
    Sources: definition
    Examples
    --------
    >>> in_product(0.05, 0.25)
    0.01
    """
    return kernel.in_product(share, gain)


@worksheet_function(family=FAMILY)
def yield_(before: float, after: float) -> float:
    """Weight after as a share of the weight before.

    Parameters
    ----------
    before : mass
        Weight before [g]; above 0. Example: 1000.
    after : mass
        Weight after [g]; above 0. Example: 1080.

    Returns
    -------
    share
        Yield; above 100 % is a gain [-].

    Sources: definition
    Examples
    --------
    >>> yield_(1000, 1080)
    1.08
    """
    return after / before


@worksheet_function(family=FAMILY)
def gain(before: float, after: float) -> float:
    """Weight gained as a share of the weight before; a loss is negative.

    Parameters
    ----------
    before : mass
        Weight before [g]; above 0. Example: 1000.
    after : mass
        Weight after [g]; above 0. Example: 1080.

    Returns
    -------
    share
        Gain of the weight before [-].

    Sources: definition
    Examples
    --------
    >>> gain(1000, 1250)
    0.25
    """
    return after / before - 1.0


@worksheet_function(family=FAMILY)
def water_phase_salt(salt: float, moisture: float) -> float:
    """Salt as a share of salt and moisture together, the figure that safety rules for fish use.

    Parameters
    ----------
    salt : share
        Salt by analysis; at most the moisture, and 100 % with the moisture [-]; at least 0, at most 1. Example: 2.5%.
    moisture : share
        Water of the same product; at most 100 % with the salt [-]; above 0, at most 1. Example: 65%.

    Returns
    -------
    share
        Salt in the water phase [-].

    Notes: For a safety decision use laboratory figures from the thickest part, not an average worked out here. More
    than 26.43 % means that some of the salt lies undissolved, as in dry-salted fish.
    Sources: definition, kaufmann-1960
    Examples
    --------
    >>> water_phase_salt(0.035, 0.965)
    0.035
    """
    return kernel.water_phase_salt(salt, moisture)


@worksheet_function(family=FAMILY)
def absorbed(
    product_weight: float, water: float, start_strength: float, reading: float, gain: Optional[float] = None
) -> float:
    """Salt taken up by the product, worked out from how far the bath fell.

    Parameters
    ----------
    product_weight : mass
        Edible weight of the product as it went in [g]; above 0. Example: 1000.
    water : water
        Water of the brine [g]; above 0. Example: 2000.
    start_strength : share
        Strength of the bath at the start, of its water, up to what dissolves [-]; at least 0, below 1. Example: 6%.
    reading : share
        Strength it reads now, of its water, up to what dissolves [-]; at least 0, below 1. Example: 5.5%.
    gain : share
        Weight the product gained, of its weight before; a loss is negative [-]; above -1, at most 2. Example: 6%.

    Returns
    -------
    share
        Salt taken up, of the product as it went in; native salt not included, negative when it gave salt off [-].

    Notes: Without a gain the water is taken not to move. Stir the bath before reading; a small fall read on a coarse
    instrument makes a large error. More salt than the brine could bring into the product is refused.
    Sources: definition, kaufmann-1960
    Examples
    --------
    >>> absorbed(1000, 1000, 0.0625, 0.03125)
    0.03125
    """
    return kernel.absorbed(product_weight, water, start_strength, reading, gain)
