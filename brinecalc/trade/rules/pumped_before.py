"""When meat goes into a cure that may hold nitrite already: needled, pumped, or salted beforehand.

One idea: meat that is pumped and then covered is two rows, each of which knows its own nitrite only; the meat
holds both.
"""

from __future__ import annotations

from brinecalc.trade import cured_fish, curing, groups, ingoing, jurisdiction, limits, methods, needles
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import parts, product_of, share

_NO_MEAT = groups.of_kind("other")


@condition("cure-pumped-before")
def _pumped(row: Row) -> Hits:
    before = said_before(row)
    if not row.cures or not before:
        return NOTHING
    found, kind, rules = ingoing.of(row), ingoing.kind_of(row), jurisdiction.of(row)
    most = curing.limit("pumped", kind, rules)
    if found.most is not None and found.most.value < most.value:
        most = found.most
    own = f", {parts(found.ppm)} ppm" if found.ppm is not None else ""
    return ({"before": before[:1].upper() + before[1:], "own": own, "limit": most.shown, "rules": rules},)


def said_before(row: Row) -> str:
    """What says that the meat may have been pumped before it goes into the cure of the row, in words; else ""."""
    if row.group in _NO_MEAT or cured_fish.is_fish(row) or _is_the_pumping(row):
        return ""
    what = product_of(row, "meat")
    if is_salted_before(row):
        return f"{what} with {share(row.number('native salt') or 0.0)} salt in it"
    if needles.were_there(what):
        return what
    return f"needled {what}" if needles.were_there(row.text("treatment")) else ""


def is_salted_before(row: Row) -> bool:
    """Whether salt is given that the product holds beforehand, more than meat holds by itself."""
    native = row.number("native salt")
    if native is None or (row.product is not None and native == row.product.native_salt):  # nobody's reading
        return False
    return native > limits.value("treated native salt")


def _is_the_pumping(row: Row) -> bool:
    """Whether the row is itself the one that pumps the meat, and nothing tells of salt put in before."""
    by_needle = "injected" in methods.ways(row.text("method")) or ingoing.method_of(row) == "pumped"
    return by_needle and not is_salted_before(row)
