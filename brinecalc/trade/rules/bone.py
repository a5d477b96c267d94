"""When curing salt is reckoned on a weight of which bone, skin or rind is a part.

One idea: they take up none, so what is left holds more than was reckoned; above the limit that stops the batch as any
other nitrite above it does.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.trade import curing, flesh, ingoing
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, TRIMMED, Hits, condition
from brinecalc.trade.wording import against, parts, product_of, share


@condition("nitrite-over-bone")
def _over(row: Row) -> Hits:
    found, true = ingoing.of(row), _true(row)
    if row.product is None or true is None or found.ppm is None or found.most is None or found.method is None:
        return NOTHING
    if flesh.is_fish(row) or not found.most.passed_by(true) or found.most.passed_by(found.ppm):
        return NOTHING  # fish has rules of its own, and what is over as it stands is told so
    ppm, limit = against(true, found.most)
    return ({
        "refuse": share(row.product.refuse), "product": product_of(row), "ppm": ppm, "rules": found.rules,
        "method": curing.named(found.method, found.kind), "limit": limit,
    },)  # fmt: skip


@condition("cure-bone-weight")
def _bone_weight(row: Row) -> Hits:
    if row.product is None or not _is_with_bone(row) or _over(row):
        return NOTHING
    true = _true(row)
    higher = "higher" if true is None else f"nearer {parts(true)} ppm"
    return ({"refuse": share(row.product.refuse), "product": product_of(row), "higher": higher},)


def _is_with_bone(row: Row) -> bool:
    """Whether curing salt goes by the weight of a product with more waste than trimming leaves."""
    if not row.has_cure or row.product is None or row.product.refuse <= TRIMMED or not row.number("weight"):
        return False
    return row.number("edible weight") is None


def _true(row: Row) -> Optional[float]:
    """The ingoing nitrite on what is left without bone, skin and rind, ppm; None where it cannot be reckoned."""
    found, weight, whole = ingoing.of(row), row.weight or 0.0, 0.0
    if not _is_with_bone(row) or not found.ppm or row.product is None or row.number("nitrite"):
        return None
    if found.method == "equilibrium":
        whole = ingoing.pickle_of(row) or 0.0
    return found.ppm * (weight + whole) / (weight * (1.0 - row.product.refuse) + whole)
