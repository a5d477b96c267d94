"""What is refused of acids and bases, what cannot be reached, and what people use instead.

One idea: a refusal is a piece of help. It says where the brine ends up, what would bring it where it should be, and
which rule or hazard stands behind a no; local rules and a licensed process come before anything said here.
"""

from __future__ import annotations

from typing import List, Optional, Sequence, Tuple

from brinecalc.errors import Impossible, OutOfRange, Refused
from brinecalc.science.acidity import STRONGEST, Reach
from brinecalc.trade import acids, citing, limits, named, nitrite_acid
from brinecalc.trade.acids import Ingredient, Part

_RAISE = "baking soda"
_RAISE_FURTHER = "washing soda"
_LOWER = "citric acid"
_ALKALI_CAUTION = (
    "food grade only, with gloves and eye protection, never in aluminium; above about pH 8.5 texture changes, and "
    "strongly alkaline brine is not for raw meat without a licensed process"
)


def checked_ph(water: float, parts: Sequence[Part], strength: float, alkalinity: float, temperature: float) -> float:
    """pH of a brine that may be asked for: what is in it dissolves, and no nitrite meets acid."""
    refuse_nitrite_in(parts)
    kilograms = water
    for part, grams in parts:
        kilograms += grams * part.water
    for part, grams in parts:
        most = acids.dissolves(part, grams, kilograms)
        if most is not None:
            raise OutOfRange(
                f"must be at most what dissolves, about {most:.3g} g of {part.name} in this much water",
                argument="masses",
                got=f"{grams:.6g} g",
                advice="use less, or more water",
            )
    try:
        found = acids.ph(water, parts, strength, alkalinity, temperature)
    except OutOfRange as error:
        raise _too_strong(error) from None
    if any(part.role == "nitrite" for part, _ in parts):
        sourest = nitrite_acid.sourest(water, parts, strength, alkalinity, temperature)
        if sourest < nitrite_acid.least():
            raise _nitrite_and_acid(f"pH {nitrite_acid.shown(sourest)}")
    return found


def _too_strong(error: OutOfRange) -> OutOfRange:
    if isinstance(error, (Impossible, Refused)):
        return error
    return OutOfRange(
        f"must make a brine of at most {STRONGEST:g} mol of ions per kg of water, "
        "the limit of the theory behind the pH",
        argument="masses",
        advice="use less, or more water",
    )


def refuse_nitrite_in(parts: Sequence[Part]) -> None:
    """Refuses nitrite or nitrate together with cola or with ascorbic or erythorbic acid, whatever the amounts."""
    if any(part.role == "nitrite" for part, _ in parts):
        for part, _ in parts:
            if part.name in ("cola", "ascorbic acid", "erythorbic acid"):
                raise _nitrite_and_acid(part.name)
            if _is_sour_unknown(part):
                raise _nitrite_and_acid(part.name)


def _is_sour_unknown(part: Ingredient) -> bool:
    """Whether it is sour by its nature or its jar, and by how much is not known."""
    return part.role == "neutral" and named.find(part.name).is_acid


def look_again(
    water: float, parts: Sequence[Part], strength: float, alkalinity: float, temperature: float
) -> Optional[str]:
    """What to look at again in a pH that is given: something sour that counts as neutral, or a strong alkali."""
    found, most = acids.ph(water, parts, strength, alkalinity, temperature), limits.find("strong alkali ph")
    said = [_unmeasured(parts)]
    if most.passed_by(found):
        said.append(
            f"pH {found:.1f} is above {most.shown}, the most before a bath is handled as a strong alkali "
            f"({citing.KNOWN_BY[most.status]}): it burns skin and eyes; {_ALKALI_CAUTION}."
        )
    return "; ".join(text.rstrip(".") for text in said if text) + "." if any(said) else None


def _unmeasured(parts: Sequence[Part]) -> Optional[str]:
    """What is sour, counts as neutral, and should be measured."""
    sour = [part.name for part, _ in parts if _is_sour_unknown(part)]
    if not sour:
        return None
    return (
        f"sour, by how much is not known, and counted as neutral here: {', '.join(sour)}; the brine is sourer than "
        "this: measure its pH."
    )


def _nitrite_and_acid(what: str) -> Refused:
    return Refused(
        "cannot hold curing salt in an acid brine",
        argument="ingredients",
        got=what,
        advice="nitrite and acid give off poisonous gas and the cure is lost; keep acids, wine, juice and cola out of "
        "a curing brine, and use sodium ascorbate or erythorbate, never the acid",
    )


def checked_dose(
    target: float, water: float, name: str, strength: float, alkalinity: float, temperature: float
) -> float:
    """Smallest mass, g, that brings the brine to the target; raises what stands in the way."""
    part = acids.find(name, "ingredient")
    _may_be_dosed(part)
    reach = _reach(target, water, part, strength, alkalinity, temperature)
    if not reach.reached:
        raise _unreachable(target, water, part, reach, (strength, alkalinity, temperature))
    return reach.mass


def without_alkalinity(
    target: float, water: float, name: str, strength: float, alkalinity: float, temperature: float
) -> Optional[str]:
    """What to look at again in a dose for water without alkalinity: what it is in tap water."""
    if alkalinity:
        return None
    tap = _reach(target, water, acids.find(name, "ingredient"), strength, acids.TAP_ALKALINITY, temperature)
    takes = f"it takes {tap.mass:.3g} g" if tap.reached else "it is not reached"
    return (
        f"this is for water without alkalinity, as none is given; with {acids.TAP_ALKALINITY:g} mg/L as CaCO3, little "
        f"for tap water, {takes}: give the alkalinity from the water report."
    )


def _reach(
    target: float, water: float, part: Ingredient, strength: float, alkalinity: float, temperature: float
) -> Reach:
    try:
        return acids.dose(target, water, part, strength, alkalinity, temperature)
    except OutOfRange as error:
        raise _too_strong(error) from None


def _may_be_dosed(part: Ingredient) -> None:
    if part.role == "strong base":
        raise Refused(
            "is not worked out as a dose",
            argument="ingredient",
            got=f'"{part.name}"',
            advice="strong alkali burns skin and eyes and eats aluminium; US rules name lye only for tripe, scalding "
            "and refining (9 CFR 424.21(c)); leave it to a licensed process and local rules, or raise the pH with "
            + _RAISE,
        )
    if part.role == "mineral acid":
        raise Refused(
            "is not worked out as a dose",
            argument="ingredient",
            got=f'"{part.name}"',
            advice="concentrated mineral acid burns, and a slip of the scale is dangerous; leave it to a licensed "
            f"process and local rules, or lower the pH with {_LOWER}, vinegar or lemon juice",
        )
    if part.role == "cannot":
        raise acids.unknown_chemistry(part.name, part.note, "ingredient")
    if part.dose != "yes":
        raise Impossible(
            "is not used to set the pH",
            argument="ingredient",
            got=f'"{part.name}"',
            advice=f"use {_LOWER}, vinegar or lemon juice to lower it, {_RAISE} or sodium citrate to raise it",
        )


def _unreachable(
    target: float, water: float, part: Ingredient, reach: Reach, rest: Tuple[float, float, float]
) -> Impossible:
    """Where it ends, and what would get there instead."""
    start = acids.ph(water, [], *rest)
    if reach.mass == 0.0:
        rule = f"cannot be reached with {part.name}: this brine starts at pH {start:.2f} and it takes it the other way"
    elif reach.ph > start:
        rule = f"cannot be reached with {part.name}: in this brine it tops out near pH {reach.ph:.2f}"
    else:
        rule = f"cannot be reached with {part.name}: in this brine it goes no lower than about pH {reach.ph:.2f}"
    others = (_RAISE, _RAISE_FURTHER) if target > start else (_LOWER, "white vinegar", "lemon juice")
    return Impossible(rule, argument="target_ph", advice=_instead(target, water, part, others, rest), nearest=reach.ph)


def _instead(
    target: float, water: float, part: Ingredient, others: Sequence[str], rest: Tuple[float, float, float]
) -> str:
    """The first other ingredient that does reach it, with its mass, and the caution that goes with it."""
    tried: List[str] = []
    for name in others:
        other = acids.find(name)
        if other.name == part.name:
            continue
        tried.append(name)
        reach = _reach(target, water, other, *rest)
        if reach.reached:
            mass = f"{reach.mass:.3g} g here"
            if reach.mass < 1e-4 * water:
                mass = "less than a kitchen scale can weigh here, for this water hardly holds any pH by itself"
            if name == _RAISE_FURTHER:
                return f"people use washing soda (sodium carbonate) for that, {mass}; {_ALKALI_CAUTION}"
            return f"{name} gets there, {mass}"
    return f"{' and '.join(tried)} do not get there either; choose a target nearer to where it ends"


__all__ = ["checked_dose", "checked_ph", "refuse_nitrite_in"]
