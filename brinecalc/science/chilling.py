"""Ice held back from a brine's water, so that melting it brings the finished brine to temperature.

One idea: the finished mass is fixed, so every gram of ice is a gram of water left out of the warm brine. The warm,
stronger brine gives up heat; the ice takes it to warm to 0 °C, to melt and to come to the final temperature. The
heat of mixing and what the vessel and the air bring in are left out.
"""

from __future__ import annotations

from typing import Callable

from brinecalc.errors import Impossible, OutOfRange
from brinecalc.quantity import degrees, degrees_up, show
from brinecalc.science import solution
from brinecalc.science.roots import rising_root

HEAT_OF_MELTING = 333.42
"""kJ/kg of ice at 0 °C."""
HEAT_OF_ICE = 2.1
"""kJ/(kg K), specific heat of ice."""
HEAT_OF_MELT = 4.2
"""kJ/(kg K), specific heat of the water it becomes."""


def heat_taken(to_celsius: float, ice_celsius: float = 0.0) -> float:
    """Heat in kJ that a kilogram of ice takes up on its way to the final temperature."""
    return HEAT_OF_ICE * (0.0 - ice_celsius) + HEAT_OF_MELTING + HEAT_OF_MELT * to_celsius


def ice_held_back(
    brine: float, from_celsius: float, to_celsius: float, strength: float = 0.0, ice_celsius: float = 0.0
) -> float:
    """Ice to hold back from the water of a brine of that finished mass and strength (water basis)."""
    solution.check_strength(strength)
    _check_temperatures(from_celsius, to_celsius, strength)
    salt = brine * solution.from_water_basis(strength)
    saturated = solution.saturation(solution.ROOM)
    most = brine - salt / saturated
    balance = _balance(brine, salt, from_celsius - to_celsius, heat_taken(to_celsius, ice_celsius), saturated)
    if balance(most) < 0.0:
        nearest = _coldest(salt / saturated, solution.specific_heat(saturated), most, from_celsius, ice_celsius)
        raise Impossible(
            f"must be at least {degrees_up(nearest)} for this brine",
            argument="to_temperature",
            got=degrees(to_celsius),
            advice=f"more than {show(most, 'mass')} of ice would leave too little water to dissolve the salt; "
            "start colder, or chill the rest in the cold room",
            nearest=nearest,
        )
    return rising_root(balance, 0.0, most)


def _balance(brine: float, salt: float, drop: float, taken: float, saturated: float) -> Callable[[float], float]:
    """Heat that an amount of ice takes up, less what the brine left without it gives."""
    heat = solution.specific_heat

    def surplus(ice: float) -> float:
        warm = brine - ice
        return ice * taken - (warm * heat(min(salt / warm, saturated)) * drop if warm else 0.0)

    return surplus


def _coldest(warm: float, heat: float, ice: float, from_celsius: float, ice_celsius: float) -> float:
    """The temperature that all the ice the recipe can spare brings the brine to."""
    capacity = warm * heat
    return (capacity * from_celsius - ice * heat_taken(0.0, ice_celsius)) / (capacity + HEAT_OF_MELT * ice)


def _check_temperatures(from_celsius: float, to_celsius: float, strength: float) -> None:
    if to_celsius > from_celsius:
        raise OutOfRange(
            f"must be at most from_temperature, {degrees(from_celsius)}",
            argument="to_temperature",
            got=degrees(to_celsius),
            advice="ice only cools",
            nearest=from_celsius,
        )
    share = solution.from_water_basis(strength)
    lowest = solution.freezing_point(share) if share <= solution.eutectic() else 0.0
    if to_celsius < lowest:
        why = "a brine this strong drops salt below 0 °C" if lowest == 0.0 and strength else "below that it freezes"
        raise OutOfRange(
            f"must be at least {degrees_up(lowest)} at this strength",
            argument="to_temperature",
            got=degrees(to_celsius),
            advice=why,
            nearest=lowest,
        )
