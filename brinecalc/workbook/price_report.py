"""What new prices change, as lines to read, as a table and as CSV.

One idea: what is open stays "open" in every form; it is never shown as nothing, and a sum that holds it is open too.
"""

from __future__ import annotations

import csv
import io
from pathlib import PurePath
from typing import Any, Dict, Iterable, List, Optional, Sequence

from brinecalc.workbook.price_cells import FORMULA_SIGNS
from brinecalc.workbook.reprice import Change

HEADINGS = ("workbook", "batch", "product", "for", "cost before", "cost after", "change", "change, %", "remark")


def headline(change: Change) -> str:
    """One line on a workbook."""
    count = len(change.prices)
    prices = "no price changes" if not count else "1 price changes" if count == 1 else f"{count} prices change"
    if change.confirmed:
        prices += f", {change.confirmed} stay and get the new date"
    older = sum(price.older for price in change.prices)
    if older:
        prices += f" ({older} of them dated before the price in the book)"
    costs = f"batches {_step(change.before, change.after)}" if change.batches else "no batch is planned"
    words = f"{PurePath(change.path).name}: {prices}; {costs}"
    if any(amount is not None for amount in change.order):
        words += f"; order {_step(*change.order)}"
    return words + (f" (backup: {PurePath(change.backup).name})" if change.backup else "")


def batches(change: Change) -> List[str]:
    """A line for each batch whose cost changes or is open."""
    moved = [batch for batch in change.batches if batch.before != batch.after or batch.after is None]
    rows = [
        [str(b.number), b.product, b.label, _money(b.before), _money(b.after), _share(b.before, b.after)] for b in moved
    ]
    return _aligned([["batch", "product", "for", "before", "after", "change"], *rows], 3) if rows else []


def summary(changes: Sequence[Change]) -> str:
    """A table of workbooks and their sum."""
    rows = [["workbook", "before", "after", "change"]]
    rows += [[PurePath(change.path).name, *_both(change.before, change.after)] for change in changes]
    known = [change for change in changes if change.before is not None and change.after is not None]
    before, after = (sum(getattr(change, side) for change in known) for side in ("before", "after"))
    words = "all" if len(known) == len(changes) else f"the {len(known)} without an open batch"
    return "\n".join("  " + line for line in _aligned([*rows, [words, *_both(before, after)]], 1))


def _both(before: Optional[float], after: Optional[float]) -> List[str]:
    return [_money(before), _money(after), _share(before, after)]


def as_csv(changes: Iterable[Change]) -> bytes:
    """Every batch of every workbook; a text that a spreadsheet program would take for a formula is disarmed."""
    out = io.StringIO(newline="")
    made = csv.writer(out)
    made.writerow(HEADINGS)
    for change in sorted(changes, key=lambda change: change.path):
        path = _disarmed(change.path)
        for batch in change.batches:
            figures = (_figure(batch.before), _figure(batch.after), *_differences(batch.before, batch.after))
            made.writerow((path, batch.number, _disarmed(batch.product), _disarmed(batch.label), *figures, ""))
        if change.problem is not None:
            made.writerow((path, "", "", "", "", "", "", "", _disarmed(change.problem)))
        else:
            figures = (_figure(change.before), _figure(change.after), *_differences(change.before, change.after))
            made.writerow((path, "all", "", "", *figures, ""))
    return out.getvalue().encode("utf-8-sig")


def plain(change: Change) -> Dict[str, Any]:
    """The change as plain data."""
    made = change._asdict()
    made["prices"] = [price._asdict() for price in change.prices]
    del made["listed"]
    made["batches"] = [batch._asdict() for batch in change.batches]
    return {**made, "before": change.before, "after": change.after}


def _disarmed(text: str) -> str:
    return "'" + text if text.startswith(FORMULA_SIGNS) else text


def _figure(amount: Optional[float]) -> Any:
    return "open" if amount is None else round(amount, 6)


def _differences(before: Optional[float], after: Optional[float]) -> "tuple[Any, Any]":
    if before is None or after is None:
        return "", ""
    return round(after - before, 6), round(100 * (after / before - 1), 4) if before else ""


def _money(amount: Optional[float]) -> str:
    return "open" if amount is None else f"{amount:.2f}"


def _share(before: Optional[float], after: Optional[float]) -> str:
    if before is None or after is None or not before:
        return ""
    return f"{100 * (after / before - 1):+.1f} %"


def _step(before: Optional[float], after: Optional[float]) -> str:
    if before is None and after is None:
        return "open"
    share = _share(before, after)
    return f"{_money(before)} → {_money(after)}" + (f" ({share})" if share else "")


def _aligned(rows: List[List[str]], texts: int) -> List[str]:
    """Rows with the first columns to the left and figures to the right."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    return [
        "  ".join(
            cell.ljust(w) if i < texts else cell.rjust(w) for i, (cell, w) in enumerate(zip(row, widths))
        ).rstrip()
        for row in rows
    ]
