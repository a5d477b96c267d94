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
    if change.ahead:
        prices += f" ({change.ahead} dated after today)"
    costs = (
        f"batches{left_out(change)} {_step(change.before, change.after)}" if change.batches else "no batch is planned"
    )
    words = f"{PurePath(change.path).name}: {prices}; {costs}"
    if any(amount is not None for amount in change.order):
        words += f"; order {_step(*change.order)}"
    return words + (f" (backup: {PurePath(change.backup).name})" if change.backup else "")


def left_out(change: Change) -> str:
    """How many batches a total leaves out, in words to stand behind "batches"; empty where it has them all."""
    return f" (without {change.stopped} that a STOP keeps back)" if change.stopped else ""


def batches(change: Change) -> List[str]:
    """A line for each batch whose cost changes or is open."""
    moved = [batch for batch in change.batches if batch.before != batch.after or batch.after is None]
    rows = [
        [
            str(b.number), b.product, b.label, money(b.before), money(b.after), share(b.before, b.after),
            "STOP: in no total" if b.stops else "",
        ]
        for b in moved
    ]  # fmt: skip
    lines = aligned([["batch", "product", "for", "before", "after", "change", ""], *rows], 3, 6) if rows else []
    return lines + ([f"Still without a price: {', '.join(change.unpriced)}."] if change.unpriced else [])


def summary(changes: Sequence[Change]) -> str:
    """A table of workbooks and their sum."""
    rows = [["workbook", "before", "after", "change"]]
    rows += [[PurePath(change.path).name, *_both(change.before, change.after)] for change in changes]
    known = [change for change in changes if change.before is not None and change.after is not None]
    before, after = (sum(getattr(change, side) for change in known) for side in ("before", "after"))
    words = "all" if len(known) == len(changes) else f"the {len(known)} without an open batch"
    stopped = sum(change.stopped for change in known)
    words += f", without {stopped} that a STOP keeps back" if stopped else ""
    return "\n".join("  " + line for line in aligned([*rows, [words, *_both(before, after)]], 1))


def _both(before: Optional[float], after: Optional[float]) -> List[str]:
    return [money(before), money(after), share(before, after)]


def as_csv(changes: Iterable[Change]) -> bytes:
    """Every batch of every workbook; a text that a spreadsheet program would take for a formula is disarmed."""
    out = io.StringIO(newline="")
    made = csv.writer(out)
    made.writerow(HEADINGS)
    for change in sorted(changes, key=lambda change: change.path):
        path = disarmed(change.path)
        for batch in change.batches:
            figures = (figure(batch.before), figure(batch.after), *differences(batch.before, batch.after))
            remark = "STOP: not in the total" if batch.stops else ""
            made.writerow((path, batch.number, disarmed(batch.product), disarmed(batch.label), *figures, remark))
        if change.problem is not None:
            made.writerow((path, "", "", "", "", "", "", "", disarmed(change.problem)))
        else:
            figures = (figure(change.before), figure(change.after), *differences(change.before, change.after))
            remark = f"without {change.stopped} with a STOP" if change.stopped else ""
            made.writerow((path, "all", "", "", *figures, remark))
    return out.getvalue().encode("utf-8-sig")


def plain(change: Change) -> Dict[str, Any]:
    """The change as plain data."""
    made = change._asdict()
    made["prices"] = [price._asdict() for price in change.prices]
    del made["listed"]
    made["batches"] = [batch._asdict() for batch in change.batches]
    return {**made, "before": change.before, "after": change.after, "stopped": change.stopped}


def disarmed(text: str) -> str:
    """The text, in a form that no spreadsheet program takes for a formula."""
    return "'" + text if text.startswith(FORMULA_SIGNS) else text


def figure(amount: Optional[float]) -> Any:
    """The amount for a table, or that it is open."""
    return "open" if amount is None else round(amount, 6)


def differences(before: Optional[float], after: Optional[float]) -> "tuple[Any, Any]":
    """The change, and the change in per cent; empty where they are not known."""
    if before is None or after is None:
        return "", ""
    return round(after - before, 6), round(100 * (after / before - 1), 4) if before else ""


def money(amount: Optional[float]) -> str:
    """The amount to the hundredth, or that it is open."""
    return "open" if amount is None else f"{amount:.2f}"


def share(before: Optional[float], after: Optional[float]) -> str:
    """The change in per cent; empty where it is not known."""
    if before is None or after is None or not before:
        return ""
    return f"{100 * (after / before - 1):+.1f} %"


def _step(before: Optional[float], after: Optional[float]) -> str:
    if before is None and after is None:
        return "open"
    step = share(before, after)
    return f"{money(before)} → {money(after)}" + (f" ({step})" if step else "")


def aligned(rows: List[List[str]], texts: int, until: int = 99) -> List[str]:
    """Rows with the first columns and those from `until` on to the left, and figures between to the right."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    return [
        "  ".join(
            cell.rjust(width) if texts <= i < until else cell.ljust(width)
            for i, (cell, width) in enumerate(zip(row, widths))
        ).rstrip()
        for row in rows
    ]
