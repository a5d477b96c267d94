"""Weights that make a brine, put a used one right, or fill a vessel.

One idea: salt per water (s) is what mixing keeps simple: water W takes S = s·W, and adding salt or water to a bath
moves s along a straight line. The other basis and impure salt are carried to s and back. A brine that could not
dissolve its salt at 20 °C has no recipe.
"""

from __future__ import annotations

from decimal import ROUND_FLOOR

from brinecalc.errors import Impossible
from brinecalc.quantity import DENSITY_OF_WATER, both, show
from brinecalc.science.solution import TRIFLE, check_strength, percent, strongest

PRODUCT_DENSITY = 1.05
"""g/mL of raw meat, poultry or fish as it displaces brine: judgement, between fat (0.9) and lean muscle (1.06). A piece
weighed under water would settle it."""
HEADROOM = 0.1
"""Share of a vessel left empty unless told otherwise: common practice, no source."""


def salt_mass(water: float, strength: float, basis: str = "water", purity: float = 1.0) -> float:
    """Salt of that purity to weigh out for that water."""
    if basis == "solution" and purity < 1.0 and 0.0 <= strength < 1.0:
        _check_dissolves_impure(strength, purity)
    else:
        check_strength(strength, basis)
    return strength * water / (purity if basis == "water" else purity - strength)


def strength(salt: float, water: float, basis: str = "water", purity: float = 1.0) -> float:
    """Strength of a brine mixed from that much salt, as weighed, and water."""
    most = strongest()
    if purity * salt > most * TRIFLE * water:
        limit = most * water / purity
        raise Impossible(
            f"must be at most {show(limit, 'mass', ROUND_FLOOR)} for {show(water, 'mass')} of water",
            argument="salt",
            got=show(salt, "mass"),
            advice=f"at 20 °C water dissolves {percent(most)} of its weight; use less salt or more water",
            nearest=limit,
        )
    return purity * salt / water if basis == "water" else purity * salt / (water + salt)


def top_up(water: float, reading: float, wanted: float) -> float:
    """Salt to add to a bath that reads weak; both strengths on the water basis."""
    _check_bath(reading, wanted)
    if reading > wanted:
        more = water * (reading / wanted - 1.0)
        raise Impossible(
            f"must be at most the strength wanted, {percent(wanted)}",
            argument="reading",
            got=percent(reading),
            advice=f"the bath is too strong: add {both(more, 'mass')} of water (BRINE_DILUTE)",
            nearest=wanted,
        )
    return water * (wanted - reading)


def dilute(water: float, reading: float, wanted: float) -> float:
    """Water to add to a bath that reads strong; both strengths on the water basis."""
    _check_bath(reading, wanted)
    if reading < wanted:
        more = water * (wanted - reading)
        raise Impossible(
            f"must be at least the strength wanted, {percent(wanted)}",
            argument="reading",
            got=percent(reading),
            advice=f"the bath is too weak: add {both(more, 'mass')} of salt (BRINE_TOP_UP)",
            nearest=wanted,
        )
    return water * (reading / wanted - 1.0)


def fill(vessel: float, product_weight: float, headroom: float = HEADROOM) -> float:
    """Water in g that fills a vessel (mL) round that much product (g), the headroom left empty."""
    room = vessel * (1.0 - headroom)
    water = (room - product_weight / PRODUCT_DENSITY) * DENSITY_OF_WATER
    if water <= 0.0:
        most = room * PRODUCT_DENSITY
        raise Impossible(
            f"must be below {both(most, 'mass', ROUND_FLOOR)} for a vessel of {both(vessel, 'volume')} with"
            f" {show(headroom, 'share')} headroom",
            argument="product_weight",
            got=both(product_weight, "mass"),
            advice="take a larger vessel or split the batch",
            nearest=most,
        )
    return water


def _check_dissolves_impure(strength: float, purity: float) -> None:
    """Refuses a share of the solution that no such salt makes: what is not salt weighs with the solution."""
    most = strongest()
    limit = most * purity / (most + purity)
    if strength > limit * TRIFLE:
        raise Impossible(
            f"must be at most {show(limit, 'share', ROUND_FLOOR)} of the solution with salt of"
            f" {show(purity, 'share')} purity",
            argument="strength",
            got=percent(strength),
            advice="no more of it dissolves at 20 °C; most kitchen salt is 98 % or purer (pure salt is 1)",
            nearest=limit,
        )


def _check_bath(reading: float, wanted: float) -> None:
    check_strength(reading, argument="reading")
    check_strength(wanted)
