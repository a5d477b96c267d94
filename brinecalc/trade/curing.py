"""Curing salt and ingoing nitrite by the five methods inspectors reckon with, and the ceilings on each.

One idea: ingoing nitrite is reckoned from weights and from the method, never from how far salt has moved, because
nitrite moves far slower. Each method is one ratio, parts of curing salt to parts of nitrite per part of green,
skin-free, edible weight; the dose and the level are the two ways round it. Two formulas for immersion are legal
and differ widely (what is picked up, or meat and pickle evened out), so the method is always named.
"""

from __future__ import annotations

import math
from functools import cache
from typing import List, NamedTuple, Optional, Tuple

from brinecalc.errors import Impossible, OutOfRange, Refused, Unreadable
from brinecalc.names import Names
from brinecalc.tables import load
from brinecalc.trade import citing, limits
from brinecalc.trade.limits import Limit

DEFAULT_STRENGTH = 0.0625
"""Sodium nitrite in the curing salt when no grade is named: No. 1."""

STRONGEST_PICKLE = 10_000.0
"""Nitrite in a pickle, ppm, above which none is worked out: a judgement, five times the pickle that 200 ppm at a gain
of 10 % stand for; a mouthful of a stronger one may poison a child, and a toxicologist could settle the figure."""
_BY_GAIN = frozenset(("pumped", "pick-up"))
_DRY = frozenset(("dry", "comminuted"))
_MILLION = 1e6
_SHOWS_AS = 0.5  # ppm; a set level is met when the level shows as that whole number
DEFER = f"{limits.RECHECK}; defer to your local code and a licensed process"

_Ceiling = Tuple[str, str, Limit]
"""Whose rules, for what, and how much they allow."""


class Cure(NamedTuple):
    """One grade of curing salt: shares of nitrite, nitrate and salt."""

    cure: str
    aliases: Tuple[str, ...]
    nitrite: float
    nitrate: float
    salt: float
    source: str
    status: str
    note: Optional[str]


@cache
def cures() -> Names[Cure]:
    """Every grade of curing salt under its name and aliases."""
    made = [Cure(**row) for row in load.rows("cures")]
    return Names("curing salt", [(cure.cure, cure.aliases, cure) for cure in made])


def cure_mass(
    product_weight: float,
    ppm: float,
    method: str,
    gain: Optional[float] = None,
    pickle: Optional[float] = None,
    cure_strength: float = DEFAULT_STRENGTH,
) -> float:
    """Grams of curing salt for that ingoing nitrite; checks no limit (see ``dose``)."""
    return ppm / _MILLION * _weight_cured(product_weight, method, gain, pickle) / cure_strength


def nitrite(
    product_weight: float,
    cure: float,
    method: str,
    gain: Optional[float] = None,
    pickle: Optional[float] = None,
    cure_strength: float = DEFAULT_STRENGTH,
) -> float:
    """Ingoing nitrite, ppm as sodium nitrite, that so much curing salt makes by that method."""
    return cure * cure_strength / _weight_cured(product_weight, method, gain, pickle) * _MILLION


def dose(
    product_weight: float,
    ppm: float,
    method: str,
    gain: Optional[float] = None,
    pickle: Optional[float] = None,
    cure_strength: float = DEFAULT_STRENGTH,
    kind: str = "general",
    rules: str = "US",
) -> float:
    """Grams of curing salt, refused when the level would pass the limit or the cure is nearly pure nitrite."""
    check_strength(cure_strength)
    check_level(ppm, method, kind, rules)
    grams = cure_mass(product_weight, ppm, method, gain, pickle, cure_strength)
    check_pickle(grams, product_weight, method, gain, pickle)
    _check_strong(ppm, method, gain)
    return grams


def _check_strong(ppm: float, method: str, gain: Optional[float]) -> None:
    """Refuses a pickle with so much nitrite in it that a slip with it is a danger to life."""
    if method not in _BY_GAIN or not gain or ppm / gain <= STRONGEST_PICKLE * (1.0 + 1e-9):
        return
    raise OutOfRange(
        f"must be at least {ppm / STRONGEST_PICKLE * 100.0:.3g} % for that level",
        argument="gain",
        got=f"{gain * 100.0:.3g} %",
        advice=f"the pickle would hold {ppm / gain:.6g} ppm of nitrite, which nobody should handle; let more go in, or "
        'reckon it by the method "equilibrium"',
    )


def check_pickle(
    grams: float, product_weight: float, method: str, gain: Optional[float], pickle: Optional[float]
) -> None:
    """Refuses a pickle that is less than what the product takes up, or no more than the curing salt in it."""
    if method not in _BY_GAIN and method != "equilibrium":
        return
    taken = (gain or 0.0) * product_weight if method in _BY_GAIN else 0.0
    whole = taken if pickle is None else pickle
    if whole < taken * (1.0 - 1e-9):
        raise OutOfRange(
            f"must be at least what the product takes up, {taken:.6g} g",
            argument="pickle",
            got=f"{whole:.6g} g",
            advice="give the whole pickle, with its cure and salt",
        )
    if grams >= whole:
        raise OutOfRange(
            f"must be more than the curing salt in it, {grams:.6g} g",
            argument="pickle",
            got=f"{whole:.6g} g",
            advice="mix more pickle, or use a stronger curing salt",
        )


def check_strength(cure_strength: float) -> None:
    """Refuses curing salts outside the grades that are sold for kitchens."""
    low, high = limits.find("cure strength low"), limits.find("cure strength high")
    if not low.value <= cure_strength <= high.value:
        raise Refused(
            f"must be between {low.shown} and {high.shown} nitrite",
            argument="cure_strength",
            got=f"{cure_strength * 100:.6g} %",
            advice="pure nitrite is never weighed out in a kitchen; use a premixed curing salt and give the share on "
            "its label, such as 6.25%",
        )


def check_level(ppm: float, method: str, kind: str, rules: str) -> None:
    """Refuses an ingoing level that passes the limit, or is not one of the set levels where the rule sets them."""
    most = limit(method, kind, rules)
    if most.passed_by(ppm):
        raise Refused(
            f"must be {most.bounded} for {named(method, kind)} by the {rules} rules",
            argument="ppm",
            got=f"{ppm:.6g} ppm",
            advice=f"write {_typed(most)}; {citing.title(most.source)}; {DEFER}",
            nearest=most.value,
        )
    if not is_set_level(ppm, most):
        raise Refused(
            f"must be exactly {most.shown} for pumped bacon by the US rules, not a maximum ({set_levels()})",
            argument="ppm",
            got=f"{ppm:.6g} ppm",
            advice=f"write {_typed(most)}; {citing.title(most.source)}; {DEFER}",
            nearest=most.value,
        )


def over_limits(
    ppm: float,
    product_weight: float,
    cure: float,
    method: str,
    gain: Optional[float] = None,
    pickle: Optional[float] = None,
    cure_strength: float = DEFAULT_STRENGTH,
) -> Optional[str]:
    """What to look at again in a level that is given whatever it is: the limits that it passes, each with its rule."""
    whose = _ceilings(method)
    if method != "comminuted":
        whose += _ceilings(method, "bacon")
    whose.append(("EU", "meat products", limit(method, rules="EU")))
    passed = _passed(ppm, whose)
    told = f"{ppm:.6g} ppm is above what rules allow: {passed}; {DEFER}." if passed else None
    whose = [*_ceilings("equilibrium"), *_ceilings("equilibrium", "bacon"), whose[-1]]
    return _also(told, _soaks_on(product_weight, cure, method, gain, pickle, cure_strength, whose))


def dosed_over(
    grams: float, product_weight: float, ppm: float, method: str, gain: Optional[float], pickle: Optional[float],
    cure_strength: float, kind: str, rules: str,
) -> Optional[str]:  # fmt: skip
    """What to look at again in a dose that is allowed: what more gets in from the pickle, and bacon."""
    whose = _ceilings("equilibrium", kind, rules)
    if kind != "bacon" and rules != "EU":
        whose += _ceilings("equilibrium", "bacon", rules)
    left = _soaks_on(product_weight, grams, method, gain, pickle, cure_strength, whose)
    return _also(left, _not_for_bacon(ppm, method, kind, rules))


def _not_for_bacon(ppm: float, method: str, kind: str, rules: str) -> Optional[str]:
    if kind == "bacon" or rules == "EU" or method == "comminuted":
        return None
    most = limit(method, "bacon", rules)
    if not most.passed_by(ppm) and is_set_level(ppm, most):
        return None
    return (
        f"it is reckoned as general, which is not for bacon: there it is {most.bounded} by the {rules} rules "
        f'({citing.title(most.source)}); for bacon write kind as "bacon".'
    )


def _soaks_on(
    product_weight: float, cure: float, method: str, gain: Optional[float], pickle: Optional[float],
    cure_strength: float, whose: List[_Ceiling],
) -> Optional[str]:  # fmt: skip
    """What is said where the whole pickle holds more than may get in, and only what is picked up was reckoned."""
    if method != "pick-up" or pickle is None or gain is None:
        return None
    ppm = nitrite(product_weight, cure, "equilibrium", None, pickle, cure_strength)
    passed = _passed(ppm, whose)
    if not passed:
        return None
    return (
        f"nitrite goes on moving in past the pick-up: meat and pickle hold together {ppm:.6g} ppm, above what rules "
        f"allow: {passed}; take the meat out when it weighs {100.0 * gain:.4g} % more, or reckon it by the method "
        f'"equilibrium"; {DEFER}.'
    )


def _ceilings(method: str, kind: str = "general", rules: str = "US") -> List[_Ceiling]:
    return [(rules, "meat products" if rules == "EU" else named(method, kind), limit(method, kind, rules))]


def _passed(ppm: float, whose: List[_Ceiling]) -> str:
    """The ceilings that a level passes, in words, each with its rule; empty if none."""
    return "; ".join(
        f"{what} {most.bounded} by the {rules} rules ({citing.title(most.source)})"
        for rules, what, most in whose
        if most.passed_by(ppm)
    )


def _also(first: Optional[str], second: Optional[str]) -> Optional[str]:
    """Two remarks as one sentence."""
    return f"{first[:-1]}; also, {second}" if first and second else first or second


def _typed(most: Limit) -> str:
    """A ceiling as it can be typed without passing it: "156.2 or less" for 156.25; a set level as it is."""
    if most.is_whole:
        return f"{most.value:.0f} or less"
    shown = f"{math.floor(most.value * 10.0 + 1e-6) / 10.0:g}"
    return shown if most.bound == "exactly" else f"{shown} or less"


def set_levels() -> str:
    """The other levels that pumped bacon may be made at, in words."""
    other = limits.find("nitrite pumped bacon alternative")
    low, high = limits.find("nitrite pumped bacon low"), limits.find("nitrite pumped bacon high")
    return f"or {other.shown}, or a set level of {low.value:.0f} to {high.shown} with starter culture and sugar"


def is_set_level(ppm: float, most: Limit, within: float = _SHOWS_AS) -> bool:
    """Whether a level is one the rule allows; only pumped bacon under US rules has set levels."""
    if most.bound != "exactly":
        return True
    if abs(ppm - most.value) < within or abs(ppm - limits.value("nitrite pumped bacon alternative")) < within:
        return True
    return limits.value("nitrite pumped bacon low") <= ppm <= limits.value("nitrite pumped bacon high")


def limit(method: str, kind: str = "general", rules: str = "US") -> Limit:
    """The ceiling on ingoing nitrite for a method and kind of product, as sodium nitrite.

    That of the EU is 80 mg/kg of the ion, which is 119.977 ppm: a whole number of mg/kg is the rule's own precision.
    """
    if rules == "EU":
        return limits.find("nitrite ingoing", "EU")
    if kind == "bacon" and method == "comminuted":
        raise Impossible(
            "cannot be reckoned for bacon: the US bacon rule knows pumped, immersed and dry-cured bacon only",
            argument="method",
            advice='use "pumped", "pick-up", "equilibrium" or "dry", or kind "general" for chopped and formed meat',
        )
    return limits.find(f"nitrite {method}" + (" bacon" if kind == "bacon" else ""), rules)


def nitrate_limit(method: str, rules: str = "US") -> Limit:
    """The ceiling on ingoing nitrate for a method, as sodium nitrate; whatever comes in with a pickle is as pumped."""
    if rules == "EU":
        return limits.find("nitrate ingoing", "EU")
    return limits.find(f"nitrate {method if method in _DRY else 'pumped'}", rules)


def named(method: str, kind: str = "general") -> str:
    """A method in words: "bacon, immersion by pick-up"."""
    words = {
        "dry": "dry curing",
        "comminuted": "comminuted meat",
        "pumped": "pumping",
        "pick-up": "immersion by pick-up",
        "equilibrium": "immersion by meat and pickle together",
    }[method]
    return f"bacon, {words}" if kind == "bacon" else words


def _weight_cured(product_weight: float, method: str, gain: Optional[float], pickle: Optional[float]) -> float:
    """What the nitrite of all the curing salt counts against: the weight that one part per million refers to."""
    if method in _BY_GAIN:
        share = _needed(gain, "gain", method, "10%")
        return (share * product_weight if pickle is None else _needed(pickle, "pickle", method, "5 kg")) / share
    if method == "equilibrium":
        return product_weight + _needed(pickle, "pickle", method, "5 kg")
    return product_weight


def _needed(value: Optional[float], argument: str, method: str, example: str) -> float:
    """An argument that only some methods need."""
    if value is None:
        raise Unreadable(
            f'is missing; the method "{method}" needs it', argument=argument, advice=f"give it, for example {example}"
        )
    if value <= 0.0:
        raise OutOfRange(f'must be above 0 for the method "{method}"', argument=argument, got=f"{value:.6g}")
    return value
