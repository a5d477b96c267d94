"""When meat goes into a cure that may hold nitrite already: needled, pumped, or salted beforehand.

One idea: meat that is pumped and then covered is two rows, each of which knows its own nitrite only; the meat
holds both.
"""

from __future__ import annotations

from brinecalc.trade import curing, ingoing, jurisdiction, salted_before
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import parts


@condition("cure-pumped-before")
def _pumped(row: Row) -> Hits:
    before = salted_before.told_by(row)
    if not row.cures or not before:
        return NOTHING
    found, kind, rules = ingoing.of(row), ingoing.kind_of(row), jurisdiction.of(row)
    most = curing.limit("pumped", kind, rules)
    if found.most is not None and found.most.value < most.value:
        most = found.most
    own = f", {parts(found.ppm)} ppm" if found.ppm is not None else ""
    return ({"before": before[:1].upper() + before[1:], "own": own, "limit": most.shown, "rules": rules},)
