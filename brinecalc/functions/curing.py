"""Worksheet functions of the family "Curing salt": dose, ingoing level and ceiling.

One idea: weights only, and the method named each time. The weight is green, skin-free and edible. The functions
compute; they do not permit: rules change, and a licensed process and the local code come first.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.catalogue import worksheet_function
from brinecalc.trade import curing

FAMILY = "Curing salt"


@worksheet_function(family=FAMILY, remark=curing.dosed_over)
def cure(
    product_weight: float,
    ppm: float,
    method: str,
    gain: Optional[float] = None,
    pickle: Optional[float] = None,
    cure_strength: float = curing.DEFAULT_STRENGTH,
    kind: str = "general",
    rules: str = "US",
) -> float:
    """Curing salt for a level of ingoing nitrite; an error when that would pass the limit.

    Parameters
    ----------
    product_weight : mass
        Green weight of the product, skin-free and edible [g]; above 0. Example: 5 kg.
    ppm : ppm
        Ingoing nitrite wanted, as sodium nitrite on the green weight, up to the limit [ppm]; at least 1. Example: 120.
    method : {dry, comminuted, pumped, pick-up, equilibrium}
        How the cure gets in; the two ways to reckon immersion are pick-up and equilibrium [-].
    gain : share
        Gain by pumping or pick-up, above 0 for those two methods, not used for others [-]; at least 0, at most 1.
        Example: 10%.
    pickle : mass
        Whole pickle with its cure and salt, above 0 for equilibrium; left out with pumped and pick-up, it is what
        is taken up; not used for others [g]; at least 0. Example: 2 kg.
    cure_strength : share
        Nitrite in the curing salt, from its label: 0.4 % to 10 %, pure nitrite is refused [-]; above 0, at most 1.
        Example: 6.25%.
    kind : {general, bacon}
        Bacon has limits of its own [-].
    rules : {US, EU}
        Whose limits to keep to [-].

    Returns
    -------
    mass
        Curing salt to weigh out [g].

    Notes: Dry and comminuted: P·ppm/k (gain and pickle are not used), pumped and pick-up ppm·pickle/(gain·k),
    equilibrium ppm·(P + pickle)/k, with k the cure strength. By pick-up the meat must come out when it has gained
    that; BRINE_WHY tells where it would pass the limit if left in. A pickle of more than 1 % nitrite is refused.
    Bacon pumped under US rules has set levels: exactly 120 ppm, or 100, or 40 to 80 with starter culture and sugar.
    It computes and does not permit: recheck, rules change; defer to your local code and a licensed process. Have a
    second person check the weight. Cures that carry nitrate have rules of their own and no place in bacon. The limits
    are those of meat: of fish only smoked salmon, sablefish, shad, chub and tuna may carry nitrite, each with a limit
    of its own (BRINE_CHECK holds it).
    Sources: fsis-7620.3, 9cfr-424.21, 9cfr-424.22, eu-2023-2108, cure-grades
    Examples
    --------
    >>> cure(1000, 156.25, "dry")
    2.5
    >>> cure(5000, 120, "pumped", 0.1, None, 0.0625, "bacon")
    9.6
    >>> round(cure(5000, 120, "equilibrium", None, 5000), 6)
    19.2
    """
    return curing.dose(product_weight, ppm, method, gain, pickle, cure_strength, kind, rules)


@worksheet_function(family=FAMILY, remark=curing.over_limits)
def nitrite(
    product_weight: float,
    cure: float,
    method: str,
    gain: Optional[float] = None,
    pickle: Optional[float] = None,
    cure_strength: float = curing.DEFAULT_STRENGTH,
) -> float:
    """Ingoing nitrite of a weighed dose of curing salt, in parts per million, whatever it is.

    Parameters
    ----------
    product_weight : mass
        Green weight of the product, skin-free and edible [g]; above 0. Example: 5 kg.
    cure : mass
        Curing salt weighed out [g]; above 0. Example: 12.5.
    method : {dry, comminuted, pumped, pick-up, equilibrium}
        How the cure gets in; the two ways to reckon immersion are pick-up and equilibrium [-].
    gain : share
        Gain by pumping or pick-up, above 0 for those two methods, not used for others [-]; at least 0, at most 1.
        Example: 10%.
    pickle : mass
        Whole pickle with its cure and salt, above 0 for equilibrium; left out with pumped and pick-up, it is what
        is taken up; not used for others [g]; at least 0. Example: 2 kg.
    cure_strength : share
        Nitrite in the curing salt, from its label: 0.4 % to 10 %, pure nitrite is refused [-]; above 0, at most 1.
        Example: 6.25%.

    Returns
    -------
    ppm
        Ingoing nitrite as sodium nitrite on the green weight [ppm]; times 0.66679 as nitrite ion.

    Notes: The inverse of BRINE_CURE, and as there the pickle must be all that is taken up, and more than the cure. It
    does not compare with a limit; BRINE_WHY, BRINE_NITRITE_LIMIT and BRINE_CHECK do. The two ways to reckon immersion
    give very different answers: say which one you used.
    Sources: fsis-7620.3, cure-grades
    Examples
    --------
    >>> nitrite(1000, 2.5, "comminuted")
    156.25
    >>> round(nitrite(10000, 32, "pumped", 0.1, 1266, 0.0588), 4)
    148.6256
    """
    curing.check_strength(cure_strength)
    ppm = curing.nitrite(product_weight, cure, method, gain, pickle, cure_strength)
    curing.check_pickle(cure, product_weight, method, gain, pickle)
    return ppm


@worksheet_function(family=FAMILY)
def nitrite_limit(method: str, kind: str = "general", rules: str = "US") -> float:
    """Ceiling on ingoing nitrite, in parts per million of sodium nitrite.

    Parameters
    ----------
    method : {dry, comminuted, pumped, pick-up, equilibrium}
        How the cure gets in [-].
    kind : {general, bacon}
        Bacon has limits of its own [-].
    rules : {US, EU}
        Whose limit [-].

    Returns
    -------
    ppm
        Ceiling as sodium nitrite on the green weight [ppm]; times 0.66679 as nitrite ion.

    Notes: The US figure for pumped bacon is a set level, not a maximum. The EU figure is 80 mg/kg of nitrite ion
    since October 2025, and a residual limit holds beside it; traditional cures have rules of their own. Recheck,
    rules change; defer to your local code. They are the limits of meat; for fish see BRINE_LIMIT("nitrite fish").
    Kept exactly: 156.25 is what the rule's quarter ounce per 100 lb comes to.
    Sources: 9cfr-424.21, 9cfr-424.22, fsis-7620.3, eu-2023-2108
    Examples
    --------
    >>> nitrite_limit("comminuted")
    156.25
    >>> nitrite_limit("pumped", "bacon")
    120.0
    >>> round(nitrite_limit("dry", "general", "EU"), 2)
    119.98
    """
    return curing.limit(method, kind, rules).value
