"""When bacon is told wrong, or cured at another level than its rules set.

One idea: pumped bacon by US rules is the one cured meat with a level that is set and not only a most, and a sugar and
an accelerator that go with it.
"""

from __future__ import annotations

from brinecalc.trade import curing, in_product, ingoing, limits
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import NOTHING, Hits, condition
from brinecalc.trade.wording import parts, product_of, share

_WEIGHING_SLACK = 2.5
"""ppm by which a level that is set may be missed before it is told, what weighing to the gram leaves uncertain in a
kitchen batch: judgement; the division of the scale and the size of the batch would settle it."""


@condition("bacon-kind")
def _bacon_kind(row: Row) -> Hits:
    if not row.has_cure or row.product is None or not ingoing.says_bacon(row.text("kind")):
        return NOTHING
    return NOTHING if row.product.name in ingoing.BELLIES else ({"product": product_of(row)},)


@condition("kind-unknown")
def _kind(row: Row) -> Hits:
    if not row.has_cure:
        return NOTHING
    given = row.text("kind").strip()
    known = not given or given.casefold() == "general" or ingoing.kind_of(row) == "bacon"
    if known or row.product is None or row.product.name not in ingoing.BELLIES:
        return NOTHING
    return ({"given": f'"{given[:30]}"'},)


@condition("bacon-set-level")
def _set_level(row: Row) -> Hits:
    found = ingoing.of(row)
    if found.ppm is None or found.most is None or curing.is_set_level(found.ppm, found.most, _WEIGHING_SLACK):
        return NOTHING
    if round(found.ppm) > found.most.value:
        return NOTHING  # over the limit, which is worse and said so
    return ({"ppm": parts(found.ppm), "others": f" ({curing.set_levels()})"},)


@condition("bacon-low-level")
def _low_level(row: Row) -> Hits:
    found = ingoing.of(row)
    if not in_product.is_pumped_us_bacon(row) or found.ppm is None:
        return NOTHING
    low, high = limits.value("nitrite pumped bacon low"), limits.value("nitrite pumped bacon high")
    if not low <= found.ppm <= high:
        return NOTHING
    return ({"ppm": parts(found.ppm), "limit": limits.find("bacon starter sugar").shown},)


@condition("bacon-accelerator")
def _accelerator(row: Row) -> Hits:
    if not row.cures or not in_product.is_pumped_us_bacon(row):
        return NOTHING
    level = limits.find("erythorbate bacon")
    weighed, _ = in_product.accelerators(row)
    if weighed is not None and weighed >= level.value * (1.0 - in_product.LEVEL_OFF):
        return NOTHING
    found, weigh = "how much of it is in this row is not known", "Weigh it so that it comes to that"
    if weighed is not None:
        found = f"in this row it comes to {parts(weighed)} ppm" if weighed else "none is in this row"
    ratios = [thing.ratio for thing in row.things if thing.what.name in in_product.ACCELERATORS and thing.ratio]
    if weighed and len(ratios) == 1:
        weigh = f"Take about {share(ratios[0] * level.value / weighed)} of the water"
    return ({"limit": level.shown, "found": found, "weigh": weigh},)
