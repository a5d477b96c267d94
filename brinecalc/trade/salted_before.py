"""Whether meat was needled, pumped or salted before it comes to the batch of a row.

One idea: only the row's own words and its native salt tell of it; the row that pumps the meat tells of itself.
"""

from __future__ import annotations

from brinecalc.trade import flesh, groups, ingoing, limits, methods, needles
from brinecalc.trade.row import Row
from brinecalc.trade.wording import product_of, share


def told_by(row: Row) -> str:
    """What says that the meat may have been pumped before it goes into the cure of the row, in words; else ""."""
    if row.group in groups.OTHER or flesh.is_fish(row) or _is_the_pumping(row):
        return ""
    what = product_of(row, "meat")
    if _is_salted(row):
        return f"{what} with {share(row.number('native salt') or 0.0)} salt in it"
    if needles.are_in_the_name(what):
        return what
    return f"needled {what}" if needles.were_there(row.text("treatment")) else ""


def _is_salted(row: Row) -> bool:
    """Whether salt is given that the product holds beforehand, more than meat holds by itself."""
    native = row.number("native salt")
    if native is None or (row.product is not None and native == row.product.native_salt):  # nobody's reading
        return False
    return native > limits.value("treated native salt")


def _is_the_pumping(row: Row) -> bool:
    """Whether the row is itself the one that pumps the meat, and nothing tells of salt put in before."""
    by_needle = "injected" in methods.ways(row.text("method")) or ingoing.method_of(row) == "pumped"
    return by_needle and not _is_salted(row)
