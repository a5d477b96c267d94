"""Worksheet functions of acids and bases: the pH of a brine, and the dose that brings it to one.

One idea: the chemistry is read on first use, since most workbooks never ask for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Dict, List, Optional, Tuple

from brinecalc import quantity
from brinecalc.catalogue import worksheet_function
from brinecalc.errors import OutOfRange, Unreadable
from brinecalc.readers import shown

if TYPE_CHECKING:
    from brinecalc.trade.acids import Part

FAMILY = "Acids and bases"
_BLANK = (None, "", 0)


def _so_far(given: Dict[str, Any]) -> None:
    """Reads what was given of the ingredients and their masses."""
    from brinecalc.trade import acids

    if "masses" in given:
        _parts(given["ingredients"], given["masses"])
    for name in given.get("ingredients", ()):
        if isinstance(name, str):
            acids.find(name, "ingredients")
    if "ingredient" in given:
        acids.find(given["ingredient"])


def _look_again(
    _answer: float, water: float, ingredients: Tuple[Any, ...], masses: Tuple[Any, ...], *rest: float
) -> Optional[str]:
    """What is worth saying of a pH that is given."""
    from brinecalc.trade import acid_rules

    return acid_rules.look_again(water, _parts(ingredients, masses), *rest)


def _without_alkalinity(_answer: float, *given: Any) -> Optional[str]:
    """What is worth saying of a dose that is given."""
    from brinecalc.trade import acid_rules

    return acid_rules.without_alkalinity(*given)


@worksheet_function(family=FAMILY, memo=True, so_far=_so_far, remark=_look_again)
def ph(
    water: float,
    ingredients: Tuple[Any, ...],
    masses: Tuple[Any, ...],
    strength: float = 0.0,
    alkalinity: float = 0.0,
    temperature: float = 25.0,
) -> float:
    """The pH of the fresh, closed brine before the product goes in.

    Parameters
    ----------
    water : water
        Water of the brine [g]; above 0. What juice and vinegar bring joins it. Example: 1000.
    ingredients : column
        Names of what goes in besides the salt of the strength [-]. A strength may be added, as in "vinegar 7 %".
    masses : column
        Mass of each, in the same order [g].
    strength : share
        Salt as a share of the water [-]; at least 0, at most 0.175.
    alkalinity : number
        Alkalinity of the water, from the water report [mg/L as CaCO3]; at least 0, at most 1000.
    temperature : temperature
        Temperature of the brine [°C]; at least 0, at most 40.

    Returns
    -------
    number
        pH as a meter would read it, -log10 of the hydrogen activity [-].

    Notes: Good to about 0.1 in acid and 0.25 in alkaline brine (0.3 if warm, 0.4 with polyphosphates), for salt up to
    17.5 % of the water. It is the pH of the fresh brine, closed, before product goes in; product, bones and time
    change it, an open soda brine drifts up to 9.1 to 9.7, and scale or gas that leaves is not reckoned. It is no
    evidence for an acidified food: that is the equilibrium pH, measured with a meter (21 CFR 114). Herbs, spices,
    sugars and pieces of fruit or vegetable count as neutral. Curing salt is refused below pH 5: in the brine as mixed,
    before its nitrite is in, and with the acids alone. Local rules come first.
    Sources: thermochimie-12a, goldberg-2002, nea-tdb, penniston-2008, usda-sr27, 21cfr-114.3, nitrite-chemistry
    Examples
    --------
    >>> round(ph(1000, ("citric acid",), (5,), 0.05), 2)
    2.33
    >>> round(ph(1000, ("baking soda",), (5,), 0.05, 200), 1)
    7.6
    """
    from brinecalc.trade import acid_rules

    parts = _parts(ingredients, masses)
    return acid_rules.checked_ph(water, parts, strength, alkalinity, temperature)


def _parts(ingredients: Tuple[Any, ...], masses: Tuple[Any, ...]) -> List[Part]:
    """The named ingredients with their masses in grams; rows blank in both places are left out."""
    from brinecalc.trade import acids

    if len(ingredients) != len(masses):
        raise Unreadable(
            f"must have as many cells as ingredients ({len(ingredients)})",
            argument="masses",
            got=f"{len(masses)}",
            advice="let both ranges begin and end in the same rows",
        )
    parts: List[Part] = []
    for row, (name, mass) in enumerate(zip(ingredients, masses), 1):
        if name in _BLANK:
            if mass not in _BLANK:
                raise Unreadable("is missing for a mass that is given", argument="ingredients", advice="name it")
            continue
        if not isinstance(name, str):
            raise Unreadable("must be names", argument="ingredients", got=shown(name), advice='for example "vinegar"')
        parts.append((acids.find(name, "ingredients"), _grams(mass, name, row)))
    return parts


def _grams(mass: Any, name: str, row: int) -> float:
    if mass in _BLANK:
        raise OutOfRange(
            f'must be above 0 g for "{name.strip()}"',
            argument="masses",
            got="a blank or 0",
            advice="weigh it, or clear its name too when there is none of it",
        )
    grams = quantity.read_in_row(mass, "mass", "masses", row)
    if not 0.0 < grams <= 1e12:
        got = shown(mass) if isinstance(mass, str) else f"{grams:.6g} g"
        raise OutOfRange(f'must be above 0 g for "{name.strip()}"', argument="masses", got=f"{got} in row {row}")
    return grams


@worksheet_function(family=FAMILY, memo=True, so_far=_so_far, remark=_without_alkalinity)
def ph_dose(
    target_ph: float,
    water: float,
    ingredient: str,
    strength: float = 0.0,
    alkalinity: float = 0.0,
    temperature: float = 25.0,
) -> float:
    """Smallest mass of an acid, base or buffer that brings the fresh brine to a pH.

    Parameters
    ----------
    target_ph : number
        pH wanted [-]; at least 3, at most 9. Example: 4.5.
    water : water
        Water of the brine [g]; above 0. Example: 1000.
    ingredient : name
        What to add, such as citric acid, vinegar, lemon juice, baking soda [-]. Example: "citric acid".
    strength : share
        Salt as a share of the water [-]; at least 0, at most 0.175.
    alkalinity : number
        Alkalinity of the water, from the water report [mg/L as CaCO3]; at least 0, at most 1000.
    temperature : temperature
        Temperature of the brine [°C]; at least 0, at most 40.

    Returns
    -------
    mass
        Mass to weigh out; BRINE_PH of it gives the target back [g].

    Notes: Where the target cannot be reached, the reason names where it ends and what would get there: baking soda tops
    out near 7.6 in 5 % brine. Lye, slaked lime and mineral acids are refused as doses. Soft water takes very little, so
    weigh on a fine scale, and check with a meter: the result is of the fresh, closed brine before product goes in, and
    no evidence for an acidified food (21 CFR 114). Texture changes below about pH 4.8 and above 8.5 (common practice).
    Sources: thermochimie-12a, goldberg-2002, penniston-2008, 9cfr-424.21, 21cfr-114.3, common-practice
    Examples
    --------
    >>> round(ph_dose(4.5, 1000, "citric acid", 0.05, 200), 2)
    0.41
    """
    from brinecalc.trade import acid_rules

    return acid_rules.checked_dose(target_ph, water, ingredient, strength, alkalinity, temperature)
