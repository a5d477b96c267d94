"""Which prices a new list changes, as a table to read and as CSV; and the names that only one side has.

One idea: a buyer checks a list item by item before it goes in. So each price that moves stands with what it was, of
which pack and day; and books in which the same prices move are shown together, once.
"""

from __future__ import annotations

import csv
import io
from pathlib import PurePath
from typing import Dict, Iterable, List, Optional, Sequence, Tuple

from brinecalc.names import fold
from brinecalc.trade import costing
from brinecalc.workbook.price_report import aligned, differences, disarmed, figure, money, share
from brinecalc.workbook.reprice import Change, PriceChange

HEADINGS = (
    "workbook", "name", "pack before", "pack after", "price before", "price after", "change, %", "change by amount, %",
    "date before", "date after", "remark",
)  # fmt: skip

_LEAP = 2.0
"""Times a price grows or shrinks before it is pointed out; common practice, no source."""

_SHOWN = ("name", "pack", "before", "after", "change", "date before", "date now", "remark")


def together(changes: Iterable[Change]) -> List[Tuple[Tuple[PriceChange, ...], List[str]]]:
    """The prices that change, each set once with the names of the workbooks in which just those change."""
    found: Dict[Tuple[PriceChange, ...], List[str]] = {}
    for change in changes:
        found.setdefault(change.prices, []).append(PurePath(change.path).name)
    return [(prices, books) for prices, books in found.items() if prices]


def lines(prices: Sequence[PriceChange], most: int) -> List[str]:
    """The table of prices that change; those beyond `most` are counted."""
    first = prices if len(prices) <= most else sorted(prices, key=lambda price: not remarks(price))
    rows = [
        [
            price.name, _packs(price), _before(price), f"{price.after:.2f}", _per_cent(price),
            price.date_before or "", price.date_after or "", "; ".join(remarks(price)),
        ]
        for price in first[:most]
    ]  # fmt: skip
    left = len(prices) - most
    return aligned([list(_SHOWN), *rows], 2, 5) + ([f"… and {left} more"] if left > 0 else [])


def remarks(price: PriceChange) -> List[str]:
    """What is to be looked at in a price that changes."""
    found = []
    if price.unread is not None:
        found.append(f"“{price.unread[:30]}” stood there, which is no price")
    elif price.added:
        found.append("new row" if price.pack is not None else "new row: its pack is to be typed")
    elif price.before is None:
        found.append("had no price")
    elif price.before < 0:
        found.append("was below 0, which is no price")
    if price.called is not None:
        found.append(f"from {price.called[:40]}")
    by_amount = amount_change(price)
    if by_amount is not None:
        found.append(f"{by_amount:+.1f} % for the same amount")
    elif price.pack is not None and not price.added:
        found.append("another pack: compare by hand")
    found.extend(_leap(price, by_amount))
    if price.older:
        found.append("dated before the price in the book")
    if price.ahead:
        found.append("dated after today: check the day")
    return found


def _leap(price: PriceChange, by_amount: Optional[float]) -> List[str]:
    """Whether the price moves so far that a slip of the keyboard or another unit is likelier than a new price."""
    if price.after == 0:
        return ["costs nothing from now on: look again"]
    if not price.before or price.before < 0 or (price.pack is not None and by_amount is None):
        return []
    times = price.after / price.before if by_amount is None else 1 + by_amount / 100
    if times > _LEAP:
        return ["more than double: look again"]
    return ["less than half: look again"] if times < 1 / _LEAP else []


def amount_change(price: PriceChange) -> Optional[float]:
    """Per cent by which the same amount gets dearer where the pack changes; None where that cannot be told."""
    if price.pack is None or not price.pack_before or not price.before or price.before < 0:
        return None
    try:
        old, new = costing.amount(price.pack_before, "pack"), costing.amount(price.pack, "pack")
    except ValueError:
        return None
    if old.bare or new.bare or old.kind != new.kind or old.value <= 0 or new.value <= 0:
        return None
    return 100 * (price.after / new.value * old.value / price.before - 1)


def as_csv(changes: Iterable[Change]) -> bytes:
    """Every price that changes, and every name that only the list or only the workbook has."""
    out = io.StringIO(newline="")
    made = csv.writer(out)
    made.writerow(HEADINGS)
    for change in sorted(changes, key=lambda change: change.path):
        path = disarmed(change.path)
        if change.problem is not None:
            made.writerow((path, *[""] * 9, disarmed(change.problem)))
        for price in change.prices:
            pack = price.pack_before or ""
            by_amount = amount_change(price)
            made.writerow((
                path, disarmed(price.name), disarmed(pack), disarmed(price.pack or pack),
                "" if price.before is None else figure(price.before), figure(price.after),
                differences(price.before, price.after)[1] if _holds(price) else "",
                "" if by_amount is None else round(by_amount, 4),
                price.date_before or "", price.date_after or "", disarmed("; ".join(remarks(price))),
            ))  # fmt: skip
        for names, remark in ((change.not_listed, "in the list only"), (change.not_given, "in the workbook only")):
            for name in names:
                made.writerow((path, disarmed(name), *[""] * 8, remark))
    return out.getvalue().encode("utf-8-sig")


def lacking(changes: Sequence[Change]) -> List[Tuple[str, int]]:
    """Names of the list that a workbook does not have, each once, with the number of workbooks that lack it."""
    return _counted(change.not_listed for change in changes)


def not_given(changes: Sequence[Change]) -> List[Tuple[str, int]]:
    """Names in workbooks that the list does not have, each once, with the number of workbooks that have it."""
    return _counted(change.not_given for change in changes)


def _counted(of_books: Iterable[Tuple[str, ...]]) -> List[Tuple[str, int]]:
    """Names without those that only differ in capitals, spaces or plural, in the order of the alphabet."""
    counts: Dict[str, int] = {}
    spelled: Dict[str, str] = {}
    for names in of_books:
        for key, name in {fold(name) or name: name for name in names}.items():
            spelled.setdefault(key, name)
            counts[key] = counts.get(key, 0) + 1
    return [(spelled[key], counts[key]) for key in sorted(counts)]


def _packs(price: PriceChange) -> str:
    return (price.pack_before or "") + (f" → {price.pack}" if price.pack is not None else "")


def _holds(price: PriceChange) -> bool:
    """Whether what stood there was a price."""
    return price.before is not None and price.before >= 0


def _before(price: PriceChange) -> str:
    return "none" if price.before is None else money(price.before)


def _per_cent(price: PriceChange) -> str:
    return share(price.before, price.after) if _holds(price) else ""
