"""Worksheet functions of what goes on inside the product: the rest after the soak, and salt by depth.

One idea: out of the brine no salt leaves, so a rest only evens out what the soak has brought in.
"""

from __future__ import annotations

from typing import List, Optional

from brinecalc.catalogue import worksheet_function
from brinecalc.errors import OutOfRange
from brinecalc.functions.time import FAMILY, Bath, Size, size_of_bath
from brinecalc.science import soaking
from brinecalc.trade import products, soaks
from brinecalc.trade.pieces import piece, told_long, told_warm


@worksheet_function(
    family=FAMILY, so_far=products.check, remark=told_long(0, 4, "cut it thinner, rest it less", soak=2)
)
def rest_hours(
    product: str,
    thickness: Size,
    soak_hours: float,
    evenness: float,
    temperature: float = soaking.REFERENCE,
    shape: Optional[str] = None,
    treatment: str = "none",
    estimate: str = "typical",
    bath: Bath = "large",
) -> float:
    """Hours of rest out of the brine until the salt is that even from centre to surface.

    Parameters
    ----------
    product : name
        Product from the product table [-]. Example: "chicken breast".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 25.
    soak_hours : hours
        Time it was in the brine [h]; above 0, at most 100000. Example: 5.
    evenness : share
        Added salt in the centre over added salt at the surface that you want [-]; above 0, below 1. Example: 50%.
    temperature : temperature
        Temperature of soak and rest [°C]; at least -2, at most 40.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product; injected evens out over the way between needles [-].
    estimate : {typical, fast, slow}
        Which of the product's diffusivities to use: the typical one, or the ends of what is known [-].
    bath : number or {large}
        Brine water over product weight during the soak; large when it hardly weakens
        [-]; at least 0.001, at most 1000000.

    Returns
    -------
    hours
        Rest, in the cold and out of the brine; 0 when the soak alone made it so even [h].

    Notes: At 50 % the surface no longer bites and the centre is seasoned (a judgement); for one face the centre is the
    shut side. What the customary 2 to 4 h after 5 h in brine do: the added salt at the surface falls to two thirds and
    then to half, in any thick piece; the centre of chicken breast comes to 30 to 50 % of the surface at 15 mm, to 8 to
    18 % at 20 mm, to 2 to 5 % at 25 mm, and is not reached at 38 mm. Evening out takes four times as long for twice the
    thickness. No salt leaves in the rest. Raw food keeps seven days in the cold, soak and rest together: a longer rest
    is answered all the same, and BRINE_WHY and the soak chart tell it.
    Sources: crank-1975, arrhenius-salt, judgement, common-practice
    Examples
    --------
    >>> round(rest_hours("chicken breast", 15, 5, 0.5), 2)
    4.04
    """
    it = piece(product, thickness, temperature, shape, treatment, estimate)
    return soaks.rest_hours(it, soak_hours, evenness, size_of_bath(bath))


@worksheet_function(family=FAMILY, so_far=products.check, remark=told_warm(0, 5))
def profile(
    product: str,
    thickness: Size,
    soak_hours: float,
    rest_hours: float,
    strength: float,
    temperature: float = soaking.REFERENCE,
    shape: Optional[str] = None,
    points: float = 11.0,
    bath: Bath = "large",
    treatment: str = "none",
    estimate: str = "typical",
    native_salt: Optional[float] = None,
) -> List[List[float]]:
    """Table of depth below the surface and salt there, after the soak and then the rest.

    Parameters
    ----------
    product : name
        Product from the product table [-]. Example: "chicken breast".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 38.
    soak_hours : hours
        Time in the brine [h]; above 0, at most 100000. Example: 5.
    rest_hours : hours
        Rest out of the brine afterwards; 0 for none [h]; at least 0, at most 100000. Example: 3.
    strength : share
        Salt of the brine, of its water, up to what dissolves; 0 freshens salted goods [-]; at least 0, below 1.
        Example: 5%.
    temperature : temperature
        Temperature of soak and rest [°C]; at least -2, at most 40.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    points : number
        How many depths, surface and centre included; a whole number [-]; at least 2, at most 201.
    bath : number or {large}
        Brine water over product weight, 1 for as much water as product; large when it hardly weakens
        [-]; at least 0.001, at most 1000000.
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product: thawed is published, needled a judgement, tumbled common practice [-].
    estimate : {typical, fast, slow}
        Which of the product's diffusivities to use: the typical one, or the ends of what is known [-].
    native_salt : share
        Salt the product brings, when it is not the table's (treated or enhanced goods) [-]; at least 0, below 1.

    Returns
    -------
    table
        Depth in mm from the surface to the centre (the shut side for one face), and salt share there [-].

    Notes: Two columns, one row per depth, ready for a chart. In a block the line runs from the middle of the widest
    face to the centre; in a needled piece from a needle to the middle between two. The rows' average, weighted by
    volume, is what BRINE_UPTAKE gives: a rest moves salt and loses none. Water is taken not to move.
    Sources: crank-1975, arrhenius-salt, thawed-ham-ct, judgement, common-practice
    Examples
    --------
    >>> profile("chicken breast", 100, 5, 0, 0.08, points=2)
    [[0.0, 0.05912], [50.0, 0.00114]]
    >>> [[round(cell, 4) for cell in row] for row in profile("chicken breast", 20, 5, 3, 0.05, points=3)]
    [[0.0, 0.0219], [5.0, 0.0111], [10.0, 0.0038]]
    """
    if points != int(points):
        raise OutOfRange("must be a whole number", argument="points", got=f"{points:g}")
    it = piece(product, thickness, temperature, shape, treatment, estimate, native_salt)
    return soaks.profile(it, soak_hours, rest_hours, strength, size_of_bath(bath), int(points))
