"""Worksheet function of chilling: ice in place of part of the water.

One idea: the ice is part of the recipe's water, held back and added last, so the brine is never thinner than written.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.catalogue import worksheet_function
from brinecalc.quantity import degrees
from brinecalc.science import chilling, soaking
from brinecalc.trade import citing, limits

FAMILY = "Chilling"

_FAHRENHEIT = soaking.COLDEST * 1.8 + 32.0
"""The coldest soak in °F: a figure above it may have been meant so."""


def _stays_warm(_ice: float, _brine: float, _from: float, celsius: float, *_rest: float) -> Optional[str]:
    """What is worth saying of a brine that the ice leaves too warm for raw food."""
    start = limits.find("brine start temperature")
    if not start.passed_by(celsius):
        return None
    slip = f'; for degrees Fahrenheit write "{celsius:.4g} °F"' if celsius > _FAHRENHEIT else ""
    return (
        f"raw meat, poultry and fish go into no brine above {degrees(start.value)} ({citing.title(start.source)}; "
        f"taken for all raw food), and this one ends at {degrees(celsius)}: write a colder to_temperature{slip}."
    )


@worksheet_function(family=FAMILY, remark=_stays_warm)
def ice(
    brine: float, from_temperature: float, to_temperature: float, strength: float = 0.05, ice_temperature: float = 0.0
) -> float:
    """Ice to hold back from the water, so that the finished brine is cold.

    Parameters
    ----------
    brine : mass
        Finished brine, ice included [g]; above 0. Example: 10000.
    from_temperature : temperature
        Temperature of the brine before the ice goes in [°C]; at most 100. Example: 60.
    to_temperature : temperature
        Temperature wanted, above where the brine freezes and no warmer than at the start [°C]; at most 100. Example: 4.
    strength : share
        Strength of the finished brine, as a share of the water, up to what dissolves; 0 is plain water; left out, 5 %
        [-]; at least 0.
    ice_temperature : temperature
        Temperature of the ice: 0 melting from an ice machine, -18 from a freezer [°C]; at least -40, at most 0.

    Returns
    -------
    mass
        Ice to weigh out, as part of the recipe's water [g].

    Notes: A heat balance: the brine without the ice, stronger and warm, against ice that warms, melts and comes to the
    final temperature. Vessel, stirring and room air are left out, so hold a little more ice ready and stir until it
    is gone. If the water left over could not dissolve the salt at 20 °C, or the brine would freeze, there is no
    answer, and the reason names the nearest temperature. Specific heat of the brine goes by its strength (20 °C).
    Sources: laliberte-2009, heat-of-ice, kaufmann-1960
    Examples
    --------
    >>> round(ice(10000, 60, 4, 0.05), 1)
    3791.2
    """
    return chilling.ice_held_back(brine, from_temperature, to_temperature, strength, ice_temperature)
