"""How much of an ingredient is usual, where it must stop, and what is never dosed as a share of the water.

One idea: the usual range is custom and passing it is only worth a second look, while a legal or safety ceiling is a
refusal. Curing salts go by weight of meat and alkalis by licensed practice, so neither has a dose here at all.
"""

from __future__ import annotations

from decimal import ROUND_FLOOR
from typing import Dict, Iterable, NamedTuple, Optional, Tuple

from brinecalc import misread, quantity
from brinecalc.errors import Impossible, OutOfRange, Refused
from brinecalc.tables import load
from brinecalc.trade import ingredients
from brinecalc.trade.dangers import POISON, UNCLEAR, No, refuse
from brinecalc.trade.ingredients import Ingredient

USES = ("immersion", "injection", "vegetable")
DRY = "dry"
"""The use of what is rubbed on, minced in or marinated with little water; it has no dose by the water."""
STOPS = ("legal", "safety", "solubility")
"""Kinds of ceiling above which no dose is given; above one of taste it is only a finding."""

POURED = (*ingredients.LIQUIDS, "vinegar")
"""Roles of what is poured: of these a brine may take more than of water."""
OF = {"water": "of the water", "pickle": "of the pickle", "product": "of the finished product"}
_SLACK = 1.0 + 1e-9  # a level worked back from a figure may differ from it in the last digits
_NEVER = {
    "cure": No(
        "is not dosed as a share of the water: curing salt goes by the weight of the meat",
        "use BRINE_CURE with the product's weight, the ppm and the method",
    ),
    "alkali": No(
        "is not dosed here: strong alkali burns skin and eyes and belongs to licensed processes",
        "for a higher pH kitchens use baking soda; see BRINE_PH_DOSE",
    ),
    "unclear": UNCLEAR,
    "sulphite": No(
        "is not dosed here: a sulphite is an allergen with a limit of its own in each food, and has no place on meat",
        "leave it off meat; elsewhere find the limit in your rules, and name it on the label",
    ),
    "poison": POISON,
    "mineral acid": No(
        "is not dosed here: mineral acid burns skin and eyes",
        "for a lower pH kitchens use citric acid, vinegar or lemon juice; see BRINE_PH_DOSE",
    ),
}


class Dose(NamedTuple):
    """The usual range of an ingredient in one or more uses, and its ceiling, as shares of the water."""

    ingredient: str
    uses: Tuple[str, ...]
    low: Optional[float]
    high: Optional[float]
    ceiling: Optional[float]
    kind: Optional[str]
    of_what: Optional[str]
    basis: str
    source: str
    note: Optional[str]

    @property
    def stop(self) -> Optional[float]:
        """The ceiling if it is one that refuses a dose."""
        return self.ceiling if self.kind in STOPS else None

    @property
    def share_of(self) -> str:
        """What the ceiling is a share of."""
        return self.of_what or "water"


_ON_PRODUCT = (("safety", "water"), ("safety", "product"), ("legal", "product"))
"""Ceilings of a soak that hold for what is rubbed on, too, where the table has no row for that: as much of the product
as of the water, which is no stricter."""


_shipped: Optional[Dict[Tuple[str, str], Dose]] = None
_own: Dict[Tuple[str, str], Dose] = {}


def find(ingredient: str, use: str) -> Optional[Dose]:
    """The figures of an ingredient, by its name in the table, for one use; None where it has no customary use."""
    return _own.get((ingredient, use)) or shipped(ingredient, use)


def on_product(ingredient: str, use: str) -> Optional[Dose]:
    """The figures, as shares of the product, of what stays on it or in it; None where there are none.

    Where the table has no row for that, they follow from those of the use it has otherwise.
    """
    own, soak = find(ingredient, DRY), find(ingredient, use) or find(ingredient, "immersion")
    if own is not None or soak is None or (soak.kind, soak.share_of) not in _ON_PRODUCT:
        return own
    return soak._replace(low=None, high=None, of_what="product")


def shipped(ingredient: str, use: str) -> Optional[Dose]:
    """The figures the library ships with."""
    global _shipped
    if _shipped is None:
        rows = [Dose(**row) for row in load.rows("doses")]
        _shipped = {(row.ingredient, use): row for row in rows for use in row.uses}
    return _shipped.get((ingredient, use))


def known(name: str) -> Ingredient:
    """The ingredient of that name, where it is one that is dosed."""
    refuse(name, _NEVER)
    return ingredients.find(name)


def dose(water: float, level: float, name: str, use: str) -> float:
    """Grams of an ingredient at a level of the water; refused above a legal or safety ceiling."""
    found = known(name)
    figures = find(found.name, use)
    if figures is None:
        raise _no_use(found, use)
    stop = figures.stop
    if level >= 1.0 and found.role not in POURED:
        raise OutOfRange(
            f"must be below 100 % for {found.name}, which is no liquid",
            argument="level",
            got=f"{100 * level:.4g} %",
            advice=misread.as_per_cent(level, 0.99 if stop is None else min(stop, 0.99)),
        )
    if stop is not None and passes(level, stop):
        raise _too_much(found, figures, level)
    return water * level


def usual_range(name: str, use: str) -> Tuple[float, float]:
    """Usual low and high of an ingredient, as shares of the water."""
    found = known(name)
    figures = find(found.name, use)
    if figures is None or figures.low is None or figures.high is None:
        raise _no_use(found, use)
    return figures.low, figures.high


def passes(level: float, figure: float) -> bool:
    """Whether a level is above a figure, and not by rounding alone."""
    return level > figure * _SLACK


def above_usual(level: float, figures: Dose) -> bool:
    """Whether a level is above the usual range: worth a second look, not an error."""
    return figures.high is not None and passes(level, figures.high)


def remark(_answer: float, water: float, level: float, name: str, use: str) -> Optional[str]:
    """What to look at again in a dose that is given: one above the usual range."""
    found = known(name)
    figures = find(found.name, use)
    if figures is None or figures.low is None or figures.high is None or not above_usual(level, figures):
        return None
    usual = f"{100 * figures.low:.4g} to {100 * figures.high:.4g} %"
    asked = quantity.show(quantity.apart(level, figures.high, 4)[0], "share")
    return f"{asked} is above the usual {usual} of {found.name}; look again at the level."


def install(read: Iterable[Dose]) -> None:
    """Takes in the user's own figures, already checked."""
    for row in read:
        for use in row.uses:
            _own[(row.ingredient, use)] = row


def forget() -> None:
    """Drops the user's own figures."""
    _own.clear()


def _no_use(found: Ingredient, use: str) -> Impossible:
    others = [other for other in USES if find(found.name, other)]
    return Impossible(
        f"has no customary use by {use} in this table" if use != "vegetable" else "has no customary use in pickles",
        argument="ingredient",
        got=f'"{found.name}"',
        advice="it is used for " + " and ".join(others) if others else "ask whoever makes it, and weigh by that",
    )


def _too_much(found: Ingredient, figures: Dose, level: float) -> OutOfRange:
    ceiling = figures.ceiling or 0.0
    share = OF[figures.share_of]
    kind = "the most that dissolves" if figures.kind == "solubility" else f"the {figures.kind} ceiling ({share})"
    refusal = Impossible if figures.kind == "solubility" else Refused
    dip = ""
    if figures.of_what == "product" and find(found.name, "injection") is not None:
        dip = '; for a dip whose pick-up is known, weigh it by use "injection", then check it with BRINE_IN_PRODUCT'
    usual = ""
    if figures.low is not None and figures.high is not None:
        usual = f", usual is {100 * figures.low:.4g} to {100 * figures.high:.4g} %"
    asked = quantity.show(quantity.apart(level, ceiling, 4)[0], "share")
    most = quantity.show(ceiling, "share", ROUND_FLOOR)  # so that it passes as written
    told = figures.kind == "safety" or (figures.of_what == "water" and figures.kind == "legal")
    return refusal(
        f"must be at most {most} for {found.name}, {kind}",
        argument="level",
        got=asked,
        advice=f"use at most {most}{usual}{dip}" + (f"; {figures.note}" if told and figures.note else ""),
        nearest=ceiling,
    )
