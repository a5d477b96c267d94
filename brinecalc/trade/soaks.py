"""Hours, strengths and shares of a soak: each function of the family "Time" in one place, and each beside its inverse.

One idea: all of them read the same state. A piece and a bath have an end they run to, and the fraction of the way
covered is a function of time alone (science/diffusion.py), so forward and inverse functions agree to the last digits.
``bath`` is brine water over product weight, infinite for a large bath; strengths are salt per water.
"""

from __future__ import annotations

import math
from typing import List

from brinecalc.errors import Impossible
from brinecalc.quantity import show
from brinecalc.science import diffusion, soaking, solution
from brinecalc.trade.pieces import Piece, check_brine, check_soaks, check_warm

_TRIFLE = 1e-12  # of the salt: what plain water or a saturated brine leaves is itself a target


def hours_for(it: Piece, target: float, strength: float, bath: float) -> float:
    """Hours until the average salt is `target`."""
    _check(it, strength)
    a, end = _per_water(it, bath), _end(it, strength, bath)
    if target == it.native:
        return 0.0
    way = end - it.native_strength
    fraction = soaking.fraction_of_way(it.water, it.native_strength, end, target) if way else -1.0
    if not 0.0 <= fraction < 1.0:
        raise unreachable(it, target, it.water * end)
    hours = diffusion.fourier_for(fraction, it.shape, a) / it.rate
    check_warm(it, hours, "the soak would take")
    return hours


def salt_after(it: Piece, hours: float, strength: float, bath: float) -> float:
    """Average salt after those hours."""
    _check(it, strength)
    a, end = _per_water(it, bath), _end(it, strength, bath)
    check_warm(it, hours, "the soak takes", given=True)
    return soaking.average(it.water, it.native_strength, end, diffusion.uptake(hours * it.rate, it.shape, a))


def bath_after(it: Piece, hours: float, strength: float, bath: float) -> float:
    """What the bath should read after those hours."""
    _check(it, strength)
    a, end = _per_water(it, bath), _end(it, strength, bath)
    check_warm(it, hours, "the soak takes", given=True)
    if math.isinf(bath):
        return strength
    fraction = diffusion.uptake(hours * it.rate, it.shape, a)
    return soaking.left_in_bath(strength, it.water, it.native_strength, end, fraction, bath)


def strength_for(it: Piece, target: float, hours: float, bath: float) -> float:
    """The strength that brings the average to `target` in exactly those hours."""
    check_soaks(it)
    check_warm(it, hours, "the soak takes", given=True)
    a = _per_water(it, bath)
    fraction = diffusion.uptake(hours * it.rate, it.shape, a)
    strongest = solution.strongest("water", max(it.celsius, 0.0))
    native = it.native_strength
    ends = (soaking.final(native, limit, a) for limit in (0.0, strongest))
    least, most = (soaking.average(it.water, native, end, fraction) for end in ends)
    if not least * (1.0 - _TRIFLE) <= target <= most * (1.0 + _TRIFLE):
        brine, nearest = ("even plain water", least) if target < least else ("even a saturated brine", most)
        raise Impossible(
            f"cannot be reached in {hours:.4g} h: {brine} leaves the average at {solution.percent(nearest)}",
            argument="target",
            got=solution.percent(target),
            advice="allow more hours, or take thinner pieces",
            nearest=nearest,
        )
    strength = soaking.strength_for(it.water, native, target, fraction, a) if fraction > 0.0 else native
    strength = min(max(strength, 0.0), strongest)
    check_brine(strength, it.celsius)
    return strength


def hours_to_closeness(it: Piece, closeness: float, bath: float) -> float:
    """Hours until uptake is that share of all it will ever be."""
    check_soaks(it)
    hours = diffusion.fourier_for(closeness, it.shape, _per_water(it, bath)) / it.rate
    check_warm(it, hours, "that takes")
    return hours


def rest_hours(it: Piece, soak_hours: float, evenness: float, bath: float) -> float:
    """Hours of rest until centre over surface, in salt added, reaches `evenness`."""
    check_warm(it, soak_hours, "the soak takes", given=True)
    hours = diffusion.rest_for(evenness, soak_hours * it.rate, it.shape, _per_water(it, bath)) / it.rest_rate
    check_warm(it, soak_hours + hours, "soak and rest would take")
    return hours


def profile(
    it: Piece, soak_hours: float, rest_hours_: float, strength: float, bath: float, points: int
) -> List[List[float]]:
    """Rows of depth in mm from the surface inwards and salt share there, after the soak and then the rest."""
    _check(it, strength)
    a, end = _per_water(it, bath), _end(it, strength, bath)
    check_warm(it, soak_hours + rest_hours_, "soak and rest take", given=True)
    inside = diffusion.soaked(soak_hours * it.rate, it.shape, a)
    rest = rest_hours_ * it.rest_rate
    rows = []
    for i in range(points):
        depth = i / (points - 1)
        if i == 0 and rest == 0.0:  # the surface has the strength of the bath
            local = it.water * soaking.left_in_bath(strength, it.water, it.native_strength, end, inside.mean, bath)
        else:
            local = soaking.average(it.water, it.native_strength, end, inside.rested(1.0 - depth, rest))
        rows.append([depth * it.length, local])
    return rows


def rescale(hours: float, start: float, end: float, start_celsius: float, end_celsius: float) -> float:
    """A known time carried to another thickness (by the square) and another temperature."""
    ratio = end / start
    return hours * (ratio * ratio) / soaking.temperature_factor(end_celsius, start_celsius)


def _check(it: Piece, strength: float) -> None:
    """Refuses to soak what is injected, and in what is no brine at that temperature."""
    check_soaks(it)
    check_brine(strength, it.celsius)


def _per_water(it: Piece, bath: float) -> float:
    """The bath's water over the product's, by which the kernels know a bath."""
    return bath / it.water


def _end(it: Piece, strength: float, bath: float) -> float:
    """The salt per water at which product and bath end."""
    return soaking.final(it.native_strength, strength, _per_water(it, bath))


def unreachable(it: Piece, target: float, final: float) -> Impossible:
    """Why a target cannot be reached, with the nearest share that can."""
    low, high = sorted((it.native, final))
    if target < it.native <= final:
        advice = "a brine only adds salt: aim higher, or freshen in plain water (strength 0)"
    elif final <= it.native < target:
        advice = "this bath only takes salt out: take a stronger brine"
    elif final > it.native:
        advice = "take a stronger brine or a larger bath, or aim lower"
    else:
        advice = "take a weaker or larger bath, or aim higher"
    return Impossible(
        f"must be from {show(it.native, 'share')}, the salt already there, towards {show(final, 'share')}, where this"
        " bath ends and which it never quite reaches",
        argument="target",
        got=show(target, "share"),
        advice=advice,
        nearest=low if target < low else high,
    )
