"""What of an ingredient comes into the product, where the gain tells it, and the limits that hold there.

One idea: what is pumped in brings its share of the whole brine, salt and everything else weighed in, times the gain.
A limit that the rules give in ounces per 100 lb of meat is held against the product as it went in, as nitrite is; one
on the formulation or the finished product against what it weighs with its gain.
"""

from __future__ import annotations

from typing import List, NamedTuple, Optional, Tuple

from brinecalc.trade import groups, ingoing, jurisdiction, limits, methods, uses
from brinecalc.trade.limits import Limit
from brinecalc.trade.row import Row, Thing

ACCELERATORS = ("sodium erythorbate", "sodium ascorbate")
HYDRATES = ("sodium erythorbate",)
"""What the trade sells with crystal water, which is not counted where the rule says dry."""


class Bound(NamedTuple):
    """A limit on the product: whose it is, what counts towards it, and what it is held against."""

    limit: str
    names: Tuple[str, ...]
    """None named: all phosphates. What is sold in solution counts as weighed, which is the stricter way."""
    is_finished: bool = False
    """Whether it holds for the finished product, not for it as it went in."""
    only_minced: bool = False
    rules: str = "US"


_BOUNDS = (
    Bound("phosphate", (), is_finished=True, rules="any"),
    Bound("erythorbate", ACCELERATORS),
    Bound("erythorbic acid", ("ascorbic acid", "erythorbic acid")),
    Bound("erythorbate", ("sodium erythorbate", "erythorbic acid"), rules="EU"),
    Bound("lactate", ("sodium lactate", "potassium lactate"), is_finished=True),
    Bound("diacetate", ("sodium diacetate",), is_finished=True),
    Bound("malt syrup", ("malt syrup",), is_finished=True),
    Bound("fumaric acid", ("fumaric acid",), only_minced=True),
    Bound("glucono delta-lactone", ("glucono delta-lactone",), only_minced=True),
)
_OF_PICKLES = ("erythorbate", "erythorbic acid")
"""Limits on the meat from which the ceiling on a pickle pumped at 10 % follows."""
PUMP = 0.1
"""The gain for which the rules give the ceiling on a pickle."""
_MINCED = "comminuted"
_DRY = frozenset(("dry equilibrium",))
LITTLE_WATER = 0.2
"""Water, of the product's weight, up to which what is mixed is a marinade that the product takes up, not a brine it
lies in: judgement; weighing what is left in the bowl would settle it."""
_MEAT = (*groups.MEAT, "")
"""Groups that the rules on meat hold for; a product that is not known may be meat."""
LEVEL_OFF = 0.05
"""Share by which the set level of accelerator in bacon may be missed before it is told, what weighing to a tenth of a
gram leaves uncertain in a kitchen batch: judgement; the division of the scale and the size of the batch would settle
it."""


class Excess(NamedTuple):
    """Something of which the product holds more than a limit."""

    things: List[Thing]
    share: float
    is_finished: bool
    """Whether the share is of the finished product, not of it as it went in."""
    most: Limit


def taken_up(row: Row, thing: Thing, pump: Optional[float] = None) -> Optional[float]:
    """Grams per gram of the product as it went in; None where the gain, or else `pump`, does not tell."""
    gain = row.number("gain") or pump
    if gain:
        share = _of_brine(row, thing)
        return None if share is None else share * gain
    return stays(row, thing)


def stays(row: Row, thing: Thing) -> Optional[float]:
    """Grams per gram of the product where all that is weighed stays on or in it: rubbed on dry, minced, a marinade."""
    water, minced = row.number("water"), ingoing.method_of(row) == _MINCED
    if not (minced or _is_rubbed(row)):
        few = water and row.weight and water <= LITTLE_WATER * row.weight
        if not few or uses.is_injected(row):
            return None
    elif not minced and water and not (row.weight and water <= LITTLE_WATER * row.weight):
        return None
    if thing.grams and row.weight:
        return thing.grams / row.weight
    return None if water else thing.ratio


def _is_rubbed(row: Row) -> bool:
    """Whether it is salted dry, by the method or, where that says nothing, by the curing method."""
    ways = methods.ways(row.text("method"))
    return ways == _DRY if ways else ingoing.method_of(row) == "dry"


def in_finished(row: Row, taken: float) -> float:
    """The same per gram of the finished product."""
    gain = row.number("gain") or 0.0
    if not gain and row.weight:
        gain = (ingoing.pickle_of(row) or 0.0) / row.weight
    return taken / (1.0 + gain)


def excesses(row: Row) -> List[Excess]:
    """Everything of which the product would hold more than the limit on it."""
    return [found for bound in _BOUNDS for found in _excess(row, bound)] + _in_bacon(row)


def pickle_excesses(row: Row) -> List[Excess]:
    """Every accelerator of which a pickle of unknown gain would bring more than its limit, pumped at a tenth."""
    held = [bound for bound in _BOUNDS if bound.limit in _OF_PICKLES]
    return [found for bound in held for found in _excess(row, bound, PUMP)] + _in_bacon(row, PUMP)


def _excess(row: Row, bound: Bound, pump: Optional[float] = None) -> List[Excess]:
    """What is over one limit, or nothing."""
    rules = jurisdiction.of(row)
    counted = [thing for thing in row.things if _counts(thing, bound.names)]
    if not counted or (bound.only_minced and ingoing.method_of(row) != _MINCED) or not _holds(row, bound, rules):
        return []
    total = sum((taken_up(row, thing, pump) or 0.0) * _part(thing, rules) for thing in counted)
    share = in_finished(row, total) if bound.is_finished else total
    most = limits.find(bound.limit, rules)
    over = most.passed_by(share * 1e6 if most.unit == "ppm" else share)
    return [Excess(counted, share, bound.is_finished, most)] if over else []


def is_bounded(row: Row, thing: Thing) -> bool:
    """Whether a limit on the product holds for a thing."""
    rules, minced = jurisdiction.of(row), ingoing.method_of(row) == _MINCED
    bounds = [bound for bound in _BOUNDS if _counts(thing, bound.names) and (minced or not bound.only_minced)]
    return any(_holds(row, bound, rules) for bound in bounds)


def is_held(row: Row, thing: Thing) -> bool:
    """Whether an accelerator is held to a limit on the product: meat by its rules, pumped bacon by its set level."""
    bounds = [bound for bound in _BOUNDS if bound.limit in _OF_PICKLES and thing.what.name in bound.names]
    return any(_holds(row, bound, jurisdiction.of(row)) for bound in bounds) or (
        bool(bounds) and is_pumped_us_bacon(row)
    )


def accelerators(row: Row, pump: Optional[float] = None) -> Tuple[Optional[float], Optional[float]]:
    """Accelerator of pumped meat, ppm as weighed and at least so much of it dry; None where it is not known."""
    weighed = dry = 0.0
    for thing in row.things:
        if thing.what.name in ACCELERATORS:
            taken = taken_up(row, thing, pump)
            if taken is None:
                return None, None
            water = limits.value("erythorbate monohydrate factor") if thing.what.name in HYDRATES else 1.0
            weighed, dry = weighed + taken * 1e6, dry + taken * 1e6 / water
    return weighed, dry


def _in_bacon(row: Row, pump: Optional[float] = None) -> List[Excess]:
    """More accelerator in pumped bacon than its set level, even if it is weighed with its crystal water."""
    dry, most = accelerators(row, pump)[1], limits.find("erythorbate bacon")
    if not is_pumped_us_bacon(row) or not dry or dry <= most.value * (1.0 + LEVEL_OFF):
        return []
    return [Excess([thing for thing in row.things if thing.what.name in ACCELERATORS], dry / 1e6, False, most)]


def _counts(thing: Thing, names: Tuple[str, ...]) -> bool:
    return thing.what.name in names if names else thing.what.role == "phosphate"


def _part(thing: Thing, rules: str) -> float:
    """How much of a thing counts: by EU rules of a phosphate its P2O5, of an erythorbate its acid."""
    if rules != "EU":
        return 1.0
    if thing.what.name == "sodium erythorbate":
        return limits.value("erythorbic acid in sodium erythorbate")
    phosphate = thing.what.ingredient if thing.what.role == "phosphate" else None
    return phosphate.p2o5 if phosphate else 1.0


def _holds(row: Row, bound: Bound, rules: str) -> bool:
    """Whether a limit holds for a row: that on phosphate for all, the others for meat by the rules that have them.

    That on malt syrup is for cured meat, and pumped bacon has a set level of accelerator of its own.
    """
    if bound.rules == "any":
        return True
    if bound.rules != rules or row.group not in _MEAT:
        return False
    if bound.limit == "malt syrup":
        return row.has_cure
    return bound.limit != "erythorbate" or not is_pumped_us_bacon(row)


def is_pumped_us_bacon(row: Row) -> bool:
    """Whether the row is of bacon pumped by US rules, which is made at set levels."""
    return (ingoing.method_of(row), ingoing.kind_of(row), jurisdiction.of(row)) == ("pumped", "bacon", "US")


def _of_brine(row: Row, thing: Thing) -> Optional[float]:
    """A thing as a share of the whole brine; salt and everything else weighed in counts."""
    whole = ingoing.pickle_of(row)
    if thing.grams and whole:
        return thing.grams / whole
    if not thing.ratio:
        return None
    others = sum(other.ratio for other in row.things if other.ratio)
    return thing.ratio / (1.0 + (row.number("strength") or 0.0) + others)
