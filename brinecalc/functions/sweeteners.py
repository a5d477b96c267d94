"""Worksheet functions of what goes into the water besides salt: sweeteners, aromatics, functional salts.

One idea: a level is a share of the brine's water, whatever the ingredient, and each function names the table row it
answers from.
"""

from __future__ import annotations

from typing import Any, Dict, List

from brinecalc.catalogue import worksheet_function
from brinecalc.trade import doses, ingredients, sweeteners, volumes

FAMILY = "Sweeteners, aromatics, functional salts"


def _sweetener(given: Dict[str, Any]) -> None:
    """Looks up the sweeteners given."""
    for name in ("sweetener", "from_sweetener", "to_sweetener"):
        if name in given:
            sweeteners.find(given[name], name)


def _dosed(given: Dict[str, Any]) -> None:
    """Looks up the ingredient given."""
    if "ingredient" in given:
        doses.known(given["ingredient"])


@worksheet_function(family=FAMILY, so_far=_sweetener)
def sweetener(water: float, level: float, sweetener: str = "white sugar", match: str = "weight") -> float:
    """Sweetener to weigh out for a brine.

    Parameters
    ----------
    water : water
        Water of the brine [g]; above 0. Example: 1000.
    level : share
        Sweetener wanted, of the water; 0 gives 0 [-]; at least 0, below 1. Example: 2%.
    sweetener : name
        Sweetener from the ingredient table [-]. Example: "honey".
    match : {weight, sweetness}
        That weight of it, or as sweet as that weight of white sugar would be [-].

    Returns
    -------
    mass
        Sweetener to weigh out [g].

    Notes: 1 to 5 % of the water is common practice. Relative sweetness is a middle between sources that differ by a
    fifth; syrups also bring water (see WATER_IN).
    Sources: common-practice, sweetness-review, sweetness-encyclopedia, memory-sweetness
    Examples
    --------
    >>> sweetener(1000, 0.02)
    20.0
    >>> round(sweetener(1000, 0.02, "maple syrup", "sweetness"), 1)
    32.3
    """
    return sweeteners.mass(water, level, sweetener, match)


@worksheet_function(family=FAMILY, so_far=_sweetener)
def sweetener_swap(mass: float, from_sweetener: str, to_sweetener: str, match: str = "sweetness") -> float:
    """Weight of one sweetener that stands in for another.

    Parameters
    ----------
    mass : mass
        Weight of the sweetener to replace [g]; above 0. Example: 100.
    from_sweetener : name
        Sweetener to replace [-]. Example: "white sugar".
    to_sweetener : name
        Sweetener to use [-]. Example: "honey".
    match : {sweetness, solids}
        Equally sweet, or equal solids, which is what counts for body and browning [-].

    Returns
    -------
    mass
        Weight of the other sweetener [g].

    Notes: Adjust the water by what the two bring (see WATER_IN).
    Sources: sweetness-review, sweetness-encyclopedia, memory-sweetness, usda-sr27
    Examples
    --------
    >>> sweetener_swap(100, "white sugar", "molasses")
    125.0
    """
    return sweeteners.swap(mass, from_sweetener, to_sweetener, match)


@worksheet_function(family=FAMILY)
def sugars(mass: float, ingredient: str) -> float:
    """Sugars that an ingredient brings.

    Parameters
    ----------
    mass : mass
        Weight of the ingredient [g]; at least 0. Example: 500.
    ingredient : name
        Ingredient from the table [-]. Example: "cola".

    Returns
    -------
    mass
        Sugars in it [g].

    Notes: Total sugars of the record; corn syrup's record counts all its carbohydrate as sugars.
    Sources: usda-sr27, atomic-masses, memory-composition
    Examples
    --------
    >>> sugars(1000, "cola")
    107.5
    """
    return mass * ingredients.find(ingredient).sugars


@worksheet_function(family=FAMILY)
def water_in(mass: float, ingredient: str) -> float:
    """Water that an ingredient brings.

    Parameters
    ----------
    mass : mass
        Weight of the ingredient [g]; at least 0. Example: 500.
    ingredient : name
        Ingredient from the table [-]. Example: "honey".

    Returns
    -------
    mass
        Water in it, crystal water included [g].

    Notes: Take it off the water of the brine when a juice, syrup or drink replaces part of it.
    Sources: usda-sr27, atomic-masses, memory-composition
    Examples
    --------
    >>> water_in(1000, "cola")
    896.2
    """
    return mass * ingredients.find(ingredient).water


@worksheet_function(family=FAMILY, so_far=_dosed, remark=doses.remark)
def dose(water: float, level: float, ingredient: str, use: str = "immersion") -> float:
    """Weight of a herb, spice, phosphate or other ingredient at a level of the water.

    Parameters
    ----------
    water : water
        Water of the brine [g]; above 0. Example: 1000.
    level : share
        Ingredient wanted, of the water, up to its ceiling; 100 % or more of liquids only; 0 gives 0 [-]; at least 0,
        at most 10. Example: 0.2%.
    ingredient : name
        Ingredient from the table [-]. Example: "sodium tripolyphosphate".
    use : {immersion, injection, vegetable}
        How the brine is used, which decides the ceiling [-].

    Returns
    -------
    mass
        Weight to weigh out [g].

    Notes: Above a legal or safety ceiling no weight is given; above the usual range (see USUAL_RANGE) one is, and only
    BRINE_WHY and BRINE_CHECK say so. Curing salts, lye, lime and mineral acids are never dosed so. Rules change: check
    your local code.
    Sources: common-practice, judgement, 9cfr-424.21, 21cfr-184.1193, kaufmann-1960
    Examples
    --------
    >>> dose(1000, 0.002, "STPP")
    2.0
    """
    return doses.dose(water, level, ingredient, use)


@worksheet_function(family=FAMILY, so_far=_dosed)
def usual_range(ingredient: str, use: str = "immersion") -> List[List[float]]:
    """Usual low and high of an ingredient, as shares of the water, in two cells.

    Parameters
    ----------
    ingredient : name
        Ingredient from the table [-]. Example: "rosemary".
    use : {immersion, injection, vegetable}
        How the brine is used [-].

    Returns
    -------
    table
        Low and high, side by side [share].

    Notes: Common practice without a published source, and judgement in its spirit for single herbs and spices.
    Sources: common-practice, judgement
    Examples
    --------
    >>> usual_range("white sugar")
    [[0.01, 0.05]]
    """
    return [list(doses.usual_range(ingredient, use))]


@worksheet_function(family=FAMILY)
def weight(volume: float, ingredient: str) -> float:
    """Grams of so many spoons or cups of an ingredient, by grade.

    Parameters
    ----------
    volume : volume
        Volume, struck level [mL]; at least 0. Example: "1 tbsp".
    ingredient : name
        Ingredient from the table; for salt the grade [-]. Example: "table salt".

    Returns
    -------
    mass
        Weight of it [g].

    Notes: Grind, damp and packing change it by a fifth: weigh where it matters. Salt without a grade is not converted,
    since a teaspoon of it holds 2.8 to 6.3 g; curing salt never is.
    Sources: usda-sr27, salt-weighings, memory-density
    Examples
    --------
    >>> weight(5, "honey")
    7.165
    >>> round(weight(14.7868, "table salt"))
    18
    """
    return volumes.weight(volume, ingredient)


@worksheet_function(family=FAMILY)
def volume(mass: float, ingredient: str) -> float:
    """Millilitres of so many grams of an ingredient, by grade.

    Parameters
    ----------
    mass : mass
        Weight of it [g]; at least 0. Example: 50.
    ingredient : name
        Ingredient from the table; for salt the grade [-]. Example: "compact kosher salt".

    Returns
    -------
    volume
        Volume, struck level [mL].

    Notes: See WEIGHT; convert to spoons with UNIT.
    Sources: usda-sr27, salt-weighings, memory-density
    Examples
    --------
    >>> volume(52.4, "compact kosher salt")
    50.0
    """
    return volumes.volume(mass, ingredient)
