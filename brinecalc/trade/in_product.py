"""What of an ingredient comes into the product, where the gain tells it, and the limits that hold there.

One idea: what is pumped in brings its share of the whole brine, salt and everything else weighed in, times the gain.
A limit that the rules give in ounces per 100 lb of meat is held against the product as it went in, as nitrite is; one
on the formulation or the finished product against what it weighs with its gain.
"""

from __future__ import annotations

from typing import List, NamedTuple, Optional, Tuple

from brinecalc.trade import groups, ingoing, limits
from brinecalc.trade.limits import Limit
from brinecalc.trade.row import Row, Thing

ACCELERATORS = ("sodium erythorbate", "sodium ascorbate")
HYDRATES = ("sodium erythorbate",)
"""What the trade sells with crystal water, which is not counted where the rule says dry."""
_BOUNDS: Tuple[Tuple[str, Tuple[str, ...], bool, bool], ...] = (
    ("phosphate", (), True, False),
    ("erythorbate", ACCELERATORS, False, False),
    ("erythorbic acid", ("ascorbic acid", "erythorbic acid"), False, False),
    ("lactate", ("sodium lactate", "potassium lactate"), True, False),
    ("diacetate", ("sodium diacetate",), True, False),
    ("malt syrup", ("malt syrup",), True, False),
    ("fumaric acid", ("fumaric acid",), False, True),
    ("glucono delta-lactone", ("glucono delta-lactone",), False, True),
)
"""Limit, what counts towards it (none named: all phosphates), whether it holds for the finished product, and whether
only for minced meat. What is sold in solution counts as weighed, which is the stricter way."""
_OF_PICKLES = ("erythorbate", "erythorbic acid")
"""Limits on the meat from which the ceiling on a pickle pumped at 10 % follows."""
_MINCED = "comminuted"
_MEAT = (*groups.of_kind("meat"), "")
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


def taken_up(row: Row, thing: Thing) -> Optional[float]:
    """Grams per gram of the product as it went in; None where the gain does not tell."""
    gain = row.number("gain")
    if gain:
        share = _of_brine(row, thing)
        return None if share is None else share * gain
    if ingoing.method_of(row) == _MINCED and thing.grams and row.weight:
        return thing.grams / row.weight
    return None


def in_finished(row: Row, taken: float) -> float:
    """The same per gram of the finished product."""
    gain = row.number("gain") or 0.0
    if not gain and row.weight:
        gain = (ingoing.pickle_of(row) or 0.0) / row.weight
    return taken / (1.0 + gain)


def excesses(row: Row) -> List[Excess]:
    """Everything of which the product would hold more than the limit on it."""
    rules, found = ingoing.rules_of(row), []
    for name, names, is_finished, only_minced in _BOUNDS:
        counted = [thing for thing in row.things if _counts(thing, names)]
        if not counted or (only_minced and ingoing.method_of(row) != _MINCED) or not _holds(row, name, rules):
            continue
        total = sum((taken_up(row, thing) or 0.0) * _part(thing, rules) for thing in counted)
        share = in_finished(row, total) if is_finished else total
        most = limits.find(name, rules)
        if most.passed_by(share * 1e6 if most.unit == "ppm" else share):
            found.append(Excess(counted, share, is_finished, most))
    return found + _in_bacon(row)


def is_held(row: Row, thing: Thing) -> bool:
    """Whether an accelerator is held to a limit on the product: meat by US rules, pumped bacon by its set level."""
    for name, names, _, _ in _BOUNDS:
        if name in _OF_PICKLES and thing.what.name in names:
            return _holds(row, name, ingoing.rules_of(row)) or is_pumped_us_bacon(row)
    return False


def accelerators(row: Row) -> Tuple[Optional[float], Optional[float]]:
    """Accelerator of pumped meat, ppm as weighed and at least so much of it dry; None where it is not known."""
    weighed = dry = 0.0
    for thing in row.things:
        if thing.what.name in ACCELERATORS:
            taken = taken_up(row, thing)
            if taken is None:
                return None, None
            water = limits.value("erythorbate monohydrate factor") if thing.what.name in HYDRATES else 1.0
            weighed, dry = weighed + taken * 1e6, dry + taken * 1e6 / water
    return weighed, dry


def _in_bacon(row: Row) -> List[Excess]:
    """More accelerator in pumped bacon than its set level, even if it is weighed with its crystal water."""
    dry, most = accelerators(row)[1], limits.find("erythorbate bacon")
    if not is_pumped_us_bacon(row) or not dry or dry <= most.value * (1.0 + LEVEL_OFF):
        return []
    return [Excess([thing for thing in row.things if thing.what.name in ACCELERATORS], dry / 1e6, False, most)]


def _counts(thing: Thing, names: Tuple[str, ...]) -> bool:
    return thing.what.name in names if names else thing.what.role == "phosphate"


def _part(thing: Thing, rules: str) -> float:
    """How much of a thing counts: of a phosphate by EU rules its P2O5."""
    phosphate = thing.what.ingredient if thing.what.role == "phosphate" else None
    return phosphate.p2o5 if rules == "EU" and phosphate else 1.0


def _holds(row: Row, name: str, rules: str) -> bool:
    """Whether a limit holds for a row: that on phosphate for all, the others for meat by US rules.

    That on malt syrup is for cured meat, and pumped bacon has a set level of accelerator of its own.
    """
    if name == "phosphate":
        return True
    if rules != "US" or row.group not in _MEAT:
        return False
    if name == "malt syrup":
        return row.has_cure
    return name != "erythorbate" or not is_pumped_us_bacon(row)


def is_pumped_us_bacon(row: Row) -> bool:
    """Whether the row is of bacon pumped by US rules, which is made at set levels."""
    return (ingoing.method_of(row), ingoing.kind_of(row), ingoing.rules_of(row)) == ("pumped", "bacon", "US")


def _of_brine(row: Row, thing: Thing) -> Optional[float]:
    """A thing as a share of the whole brine; salt and everything else weighed in counts."""
    whole = ingoing.pickle_of(row)
    if thing.grams and whole:
        return thing.grams / whole
    if not thing.ratio:
        return None
    others = sum(other.ratio for other in row.things if other.ratio)
    return thing.ratio / (1.0 + (row.number("strength") or 0.0) + others)
