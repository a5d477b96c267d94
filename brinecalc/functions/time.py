"""Worksheet functions of soaking: hours, average salt, strength, and what the bath should read.

One idea: each function is the same state of the same soak, solved for another of its figures; they agree with each
other to the last digits. Resting and looking inside stand in resting.py, learning from a log in forecasting.py.
"""

from __future__ import annotations

import math
from typing import Any, Optional, Tuple, Union

from brinecalc.catalogue import worksheet_function
from brinecalc.errors import Unreadable
from brinecalc.science import soaking
from brinecalc.trade import products, soaks
from brinecalc.trade.pieces import piece, told_long, told_warm

FAMILY = "Time"

Size = Union[float, Tuple[float, float, float]]
Bath = Union[float, str]


def size_of_bath(bath: Bath) -> float:
    """The bath argument as a number: a large bath is infinite."""
    return math.inf if bath == "large" else float(bath)


@worksheet_function(
    family=FAMILY, so_far=products.check, remark=told_long(0, 4, "cut it thinner, take a stronger brine", target=2)
)
def soak_hours(
    product: str,
    thickness: Size,
    target: float,
    strength: float,
    temperature: float = soaking.REFERENCE,
    bath: Bath = "large",
    shape: Optional[str] = None,
    treatment: str = "none",
    estimate: str = "typical",
    native_salt: Optional[float] = None,
) -> float:
    """Hours in the brine until the product's average salt reaches the target.

    Parameters
    ----------
    product : name
        Product from the product table [-]. Example: "chicken breast".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 38.
    target : share
        Average salt wanted, of the product as it goes in, with the salt it brings [-]; above 0, below 1. Example: 1%.
    strength : share
        Salt of the brine, of its water, up to what dissolves; 0 freshens salted goods [-]; at least 0, below 1.
        Example: 6%.
    temperature : temperature
        Temperature of the brine [°C]; at least -2, at most 40.
    bath : number or {large}
        Brine water over product weight, 1 for as much water as product; large when it hardly weakens
        [-]; at least 0.001, at most 1000000.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product: thawed is published, needled a judgement, tumbled common practice [-].
    estimate : {typical, fast, slow}
        Which of the product's diffusivities to use: the typical one, or the ends of what is known [-].
    native_salt : share
        Salt the product brings, when it is not the table's (treated or enhanced goods) [-]; at least 0, below 1.

    Returns
    -------
    hours
        Time in the brine [h].

    Notes: Gradient brining: out of the brine at that time, the surface is saltier than the centre; see REST_HOURS.
    Measure a whole bird from the skin of the breast to the breastbone at its deepest, a bone-in cut from the surface to
    the bone or cavity, as one face: skin, fat and bone let next to no salt through. A boneless piece with both sides
    open is a slab. Salt is taken to move in still water: weak brines swell meat and strong ones draw water, which is
    not reckoned. Doubling the thickness takes four times the hours. Tumbling and needling are not diffusion: verify by
    weight gain. For a perishable product more than 4 h above 5 °C is refused. Hours in the cold that are longer than
    the custom of the product (whole turkey 24 h), or than the seven days that raw food keeps, are answered all the
    same: the soak chart and BRINE_CHECK tell them.
    Sources: crank-1975, arrhenius-salt, thawed-ham-ct, judgement, common-practice
    Examples
    --------
    >>> round(soak_hours("chicken breast", 38, 0.01, 0.06), 2)
    8.28
    """
    it = piece(product, thickness, temperature, shape, treatment, estimate, native_salt)
    return soaks.hours_for(it, target, strength, size_of_bath(bath))


@worksheet_function(family=FAMILY, so_far=products.check, remark=told_warm(0, 4))
def uptake(
    product: str,
    thickness: Size,
    hours: float,
    strength: float,
    temperature: float = soaking.REFERENCE,
    bath: Bath = "large",
    shape: Optional[str] = None,
    treatment: str = "none",
    estimate: str = "typical",
    native_salt: Optional[float] = None,
) -> float:
    """Average salt of the product after that many hours in the brine.

    Parameters
    ----------
    product : name
        Product from the product table [-]. Example: "chicken breast".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 38.
    hours : hours
        Time in the brine [h]; above 0, at most 100000. Example: 5.
    strength : share
        Salt of the brine, of its water, up to what dissolves; 0 freshens salted goods [-]; at least 0, below 1.
        Example: 5%.
    temperature : temperature
        Temperature of the brine [°C]; at least -2, at most 40.
    bath : number or {large}
        Brine water over product weight, 1 for as much water as product; large when it hardly weakens
        [-]; at least 0.001, at most 1000000.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product: thawed is published, needled a judgement, tumbled common practice [-].
    estimate : {typical, fast, slow}
        Which of the product's diffusivities to use: the typical one, or the ends of what is known [-].
    native_salt : share
        Salt the product brings, when it is not the table's (treated or enhanced goods) [-]; at least 0, below 1.

    Returns
    -------
    share
        Salt, of the product as it went in, the salt it brought included [-].

    Notes: In time it comes to the water's share of what product and brine water hold together, which is less than the
    kitchen's reckoning by weight (it counts solids as water): 2000 g of chicken breast in 1000 g of water with 45 g of
    salt end at 1.41 % here, at 1.57 % by weight. Water is taken not to move.
    Sources: crank-1975, arrhenius-salt, thawed-ham-ct, judgement, common-practice
    Examples
    --------
    >>> round(uptake("chicken breast", 38, 5, 0.05), 5)
    0.00685
    """
    it = piece(product, thickness, temperature, shape, treatment, estimate, native_salt)
    return soaks.salt_after(it, hours, strength, size_of_bath(bath))


@worksheet_function(family=FAMILY, so_far=products.check, remark=told_warm(0, 4))
def strength_for(
    product: str,
    thickness: Size,
    target: float,
    hours: float,
    temperature: float = soaking.REFERENCE,
    bath: Bath = "large",
    shape: Optional[str] = None,
    treatment: str = "none",
    estimate: str = "typical",
    native_salt: Optional[float] = None,
) -> float:
    """Strength of the brine that brings the average salt to the target in exactly those hours.

    Parameters
    ----------
    product : name
        Product from the product table [-]. Example: "chicken breast".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 38.
    target : share
        Average salt wanted, of the product as it goes in, with the salt it brings [-]; above 0, below 1. Example: 1%.
    hours : hours
        Time in the brine [h]; above 0, at most 100000. Example: 12.
    temperature : temperature
        Temperature of the brine [°C]; at least -2, at most 40.
    bath : number or {large}
        Brine water over product weight, 1 for as much water as product; large when it hardly weakens
        [-]; at least 0.001, at most 1000000.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product: thawed is published, needled a judgement, tumbled common practice [-].
    estimate : {typical, fast, slow}
        Which of the product's diffusivities to use: the typical one, or the ends of what is known [-].
    native_salt : share
        Salt the product brings, when it is not the table's (treated or enhanced goods) [-]; at least 0, below 1.

    Returns
    -------
    share
        Salt of the brine, of its water [-].

    Notes: Choose the hours to suit the kitchen (overnight, say) and let the strength follow. Nothing stronger than a
    saturated brine is given. Water is taken not to move.
    Sources: crank-1975, arrhenius-salt, thawed-ham-ct, judgement, common-practice
    Examples
    --------
    >>> round(strength_for("chicken breast", 38, 0.01, 12), 4)
    0.0501
    """
    it = piece(product, thickness, temperature, shape, treatment, estimate, native_salt)
    return soaks.strength_for(it, target, hours, size_of_bath(bath))


@worksheet_function(
    family=FAMILY,
    so_far=products.check,
    remark=told_long(0, 3, "cut it thinner, take it out of a stronger brine earlier"),
)
def equilibrium_hours(
    product: str,
    thickness: Size,
    closeness: float,
    temperature: float = soaking.REFERENCE,
    bath: Bath = "large",
    shape: Optional[str] = None,
    treatment: str = "none",
    estimate: str = "typical",
) -> float:
    """Hours until the uptake is that share of all it will ever be.

    Parameters
    ----------
    product : name
        Product from the product table [-]. Example: "pork loin".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 80.
    closeness : share
        How near to the end, of all the salt that will move [-]; above 0, below 1. Example: 90%.
    temperature : temperature
        Temperature of the brine [°C]; at least -2, at most 40.
    bath : number or {large}
        Brine water over product weight, 1 for as much water as product; large when it hardly weakens
        [-]; at least 0.001, at most 1000000.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product: thawed is published, needled a judgement, tumbled common practice [-].
    estimate : {typical, fast, slow}
        Which of the product's diffusivities to use: the typical one, or the ends of what is known [-].

    Returns
    -------
    hours
        Time in the brine [h].

    Notes: An equilibrium brine is done when the meter in the bath stands at the target. A small bath gets there sooner
    than a large one, since it comes part of the way itself. Thick pieces take days to weeks.
    Sources: crank-1975, arrhenius-salt, thawed-ham-ct, judgement, common-practice
    Examples
    --------
    >>> round(equilibrium_hours("chicken breast", 25.4, 0.9), 1)
    95.0
    """
    it = piece(product, thickness, temperature, shape, treatment, estimate)
    return soaks.hours_to_closeness(it, closeness, size_of_bath(bath))


@worksheet_function(family=FAMILY, so_far=products.check, remark=told_warm(0, 5))
def bath_strength(
    product: str,
    thickness: Size,
    hours: float,
    strength: float,
    bath: Bath,
    temperature: float = soaking.REFERENCE,
    shape: Optional[str] = None,
    treatment: str = "none",
    estimate: str = "typical",
    native_salt: Optional[float] = None,
) -> float:
    """Strength that the bath should read after those hours.

    Parameters
    ----------
    product : name
        Product from the product table [-]. Example: "chicken breast".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 38.
    hours : hours
        Time in the brine [h]; above 0, at most 100000. Example: 5.
    strength : share
        Salt of the brine at the start, of its water, up to what dissolves; 0 freshens [-]; at least 0, below 1.
        Example: 5%.
    bath : number or {large}
        Brine water over product weight, 1 for as much water as product
        [-]; at least 0.001, at most 1000000. Example: 1.
    temperature : temperature
        Temperature of the brine [°C]; at least -2, at most 40.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product: thawed is published, needled a judgement, tumbled common practice [-].
    estimate : {typical, fast, slow}
        Which of the product's diffusivities to use: the typical one, or the ends of what is known [-].
    native_salt : share
        Salt the product brings, when it is not the table's (treated or enhanced goods) [-]; at least 0, below 1.

    Returns
    -------
    share
        Salt in the bath, of its water [-].

    Notes: Stir before you read. A reading below this one means faster uptake, or a bath thinned by ice or drip; a
    large bath never changes. BRINE_ABSORBED turns the reading back into salt taken up.
    Sources: crank-1975, arrhenius-salt, thawed-ham-ct, judgement, common-practice
    Examples
    --------
    >>> round(bath_strength("chicken breast", 38, 5, 0.05, 1), 4)
    0.0448
    """
    it = piece(product, thickness, temperature, shape, treatment, estimate, native_salt)
    return soaks.bath_after(it, hours, strength, size_of_bath(bath))


@worksheet_function(family=FAMILY, so_far=products.check)
def rescale_hours(
    hours: float,
    from_thickness: float,
    to_thickness: float,
    from_temperature: Optional[float] = None,
    to_temperature: Optional[float] = None,
) -> float:
    """A time that works, carried to another thickness and temperature.

    Parameters
    ----------
    hours : hours
        The time that is known to work [h]; above 0, at most 100000. Example: 12.
    from_thickness : length
        Thickness it is known for [mm]; above 0, at most 2000. Example: 40.
    to_thickness : length
        Thickness it is wanted for, measured the same way [mm]; above 0, at most 2000. Example: 60.
    from_temperature : temperature
        Temperature it is known for; give both temperatures or neither [°C]; at least -2, at most 40. Example: 4.
    to_temperature : temperature
        Temperature it is wanted for [°C]; at least -2, at most 40. Example: 2.

    Returns
    -------
    hours
        The time for the new thickness and temperature [h].

    Notes: By the square of the thickness, and about 1.4 times faster for each 10 °C warmer (23 kJ/mol; sources 20
    to 27). It holds for the same product, brine, bath and shape. It does not judge safety: keep perishables at 5 °C.
    Sources: crank-1975, arrhenius-salt
    Examples
    --------
    >>> rescale_hours(12, 40, 60)
    27.0
    """
    given: Tuple[Any, Any] = (from_temperature, to_temperature)
    if (given[0] is None) != (given[1] is None):
        raise Unreadable(
            "is missing",
            argument="to_temperature" if given[1] is None else "from_temperature",
            advice="give both temperatures, or neither",
        )
    reference = soaking.REFERENCE
    start, end = (reference, reference) if given[0] is None else given
    return soaks.rescale(hours, from_thickness, to_thickness, start, end)
