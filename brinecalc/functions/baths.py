"""Worksheet functions of the bath: fill a vessel, thin a concentrate, bring what reads weak or strong back to strength.

One idea: salt stays where it is and water is only added, so each is a balance of salt per water.
"""

from __future__ import annotations

from brinecalc.catalogue import worksheet_function
from brinecalc.errors import Impossible
from brinecalc.science import mixing, solution

FAMILY = "Strength"


@worksheet_function(family=FAMILY)
def fill(vessel: float, product_weight: float, headroom: float = mixing.HEADROOM) -> float:
    """Water that fills a vessel round a given weight of product.

    Parameters
    ----------
    vessel : volume
        What the vessel holds, full to the brim [mL]; above 0. Example: "12 qt".
    product_weight : mass
        Product that goes into it, bones included, as far as it fits [g]; above 0. Example: 4000.
    headroom : share
        Part of the vessel left empty [-]; at least 0, below 1.

    Returns
    -------
    mass
        Water [g].

    Notes: Product is taken to displace brine at 1.05 g/mL (judgement; fat lighter, lean heavier; loosely stacked
    pieces and hollow birds trap air). Water only: the salt adds to it 1.5 % of volume in a 5 % brine, 3 % in a 10 %
    brine, which the headroom (a tenth, common practice) takes.
    Sources: judgement, common-practice
    Examples
    --------
    >>> round(fill(10000, 4000), 1)
    5181.2
    """
    return mixing.fill(vessel, product_weight, headroom)


@worksheet_function(family=FAMILY)
def top_up(water: float, reading: float, strength: float) -> float:
    """Salt that brings a bath that reads weak back to strength.

    Parameters
    ----------
    water : water
        Water in the bath [g]; above 0. Example: "20 L".
    reading : share
        What the bath reads now, of the water, up to what dissolves (BRINE_METER gives it) [-]; above 0. Example: 4.2%.
    strength : share
        Strength wanted, as a share of the water, up to what dissolves [-]; above 0. Example: 5%.

    Returns
    -------
    mass
        Salt to stir in [g].

    Notes: Exact on the water basis: after it, the bath reads the strength wanted. A bath that reads too strong gives an
    error that says how much water to add. A bath that has held raw product is a used bath: salt restores its
    strength, not its cleanliness.
    Sources: definition
    Examples
    --------
    >>> round(top_up(20000, 0.042, 0.05), 6)
    160.0
    """
    return mixing.top_up(water, reading, strength)


@worksheet_function(family=FAMILY)
def dilute(water: float, reading: float, strength: float) -> float:
    """Water that brings a bath that reads strong down to strength.

    Parameters
    ----------
    water : water
        Water in the bath [g]; above 0. Example: "20 L".
    reading : share
        What the bath reads now, of the water, up to what dissolves (BRINE_METER gives it) [-]; above 0. Example: 6%.
    strength : share
        Strength wanted, as a share of the water, up to what dissolves [-]; above 0. Example: 5%.

    Returns
    -------
    mass
        Water to add [g].

    Notes: Exact on the water basis: after it, the bath reads the strength wanted. A bath that reads too weak gives an
    error that says how much salt to add.
    Sources: definition
    Examples
    --------
    >>> round(dilute(20000, 0.06, 0.05), 6)
    4000.0
    """
    return mixing.dilute(water, reading, strength)


@worksheet_function(family=FAMILY)
def concentrate(brine: float, strength: float, concentrate: float, basis: str = "water") -> float:
    """Concentrated brine to take for a brine of a given strength; water makes up the rest.

    Parameters
    ----------
    brine : mass
        Finished brine wanted, water and salt together [g]; above 0. Example: "20 kg".
    strength : share
        Strength wanted; no more than dissolves at 20 °C [-]; above 0, below 1. Example: 5%.
    concentrate : share
        Strength of the concentrate, on the same basis; stronger than that [-]; above 0, below 1. Example: 20%.
    basis : {water, solution}
        Whether both strengths are shares of the water or of the finished solution [-].

    Returns
    -------
    mass
        Concentrate to weigh out [g].

    Notes: The rest of the brine is plain water, or ice. A concentrate saturated at 20 °C is 35.92 % of the water or
    26.43 % of the solution. It is the Pearson square with water at one corner, which holds by weight and not by
    volume.
    Sources: definition, kaufmann-1960
    Examples
    --------
    >>> concentrate(20000, 0.05, 0.2, "solution")
    5000.0
    >>> round(concentrate(21000, 0.05, 0.2), 6)
    6000.0
    """
    solution.check_strength(strength, basis)
    solution.check_strength(concentrate, basis, argument="concentrate")
    if concentrate < strength:
        raise Impossible(
            f"must be at least the strength wanted, {solution.percent(strength)}",
            argument="concentrate",
            advice="water only weakens a brine; take a stronger concentrate, or add salt (BRINE_TOP_UP)",
            nearest=strength,
        )
    return brine * solution.share_of_solution(strength, basis) / solution.share_of_solution(concentrate, basis)
