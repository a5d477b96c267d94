"""Batches that should have gone in by now.

One idea: a workbook never looks at the clock, so that it says tomorrow what it said today. Whoever computes or sends
one does, and tells which times on the plan have passed by then.
"""

from __future__ import annotations

import datetime
from typing import Any, Dict, Optional

from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook.edit.book import Edit

_NAMED = 8
"""Batches that are named; the rest are counted."""

_DAY_ZERO = datetime.datetime(1899, 12, 30)
_DAY_ZERO_1904 = datetime.datetime(1904, 1, 1)


def line(trial: Trial, name: str, now: datetime.datetime) -> Optional[str]:
    """The batches whose time to go in has passed, those that are still wanted by name; None where it has for none."""
    edit = Edit(trial.outcome.content, name)
    if edit.place("plan_put_in") is None:
        return None
    put_in, ready, says, products = (
        _column(edit, trial, f"plan_{field}") for field in ("put_in", "ready", "says", "products")
    )
    zero = _DAY_ZERO_1904 if edit.book.from_1904 else _DAY_ZERO
    here = now.replace(tzinfo=None)
    begun = (here - zero) / datetime.timedelta(days=1)
    passed = [n for n, moment in put_in.items() if _is_moment(moment) and 0 < moment < begun]
    passed = [n for n in passed if says.get(n) != "FAILS"]
    if not passed:
        return None
    gone = [n for n in passed if _is_moment(ready.get(n)) and ready[n] < begun]
    named = [
        f"no. {n}{f', {products[n]}' if products.get(n) else ''}, at {_said(put_in[n], zero)}"
        for n in sorted(set(passed) - set(gone), key=put_in.__getitem__)
    ]
    of = "1 batch has" if len(passed) == 1 else f"{len(passed)} batches have"
    more = f"; and {len(named) - _NAMED} more" if len(named) > _NAMED else ""
    return (
        f"Put in by now ({here:%Y-%m-%d %H:%M}): {of} passed the time to go in"
        + (f": {'; '.join(named[:_NAMED])}{more}" if named else "")
        + ". If one is not in the brine yet, its other times no longer hold: change Ready at."
        + (f" Ready before now: no. {', '.join(map(str, gone))}." if gone else "")
    )


def _column(edit: Edit, trial: Trial, name: str) -> Dict[int, Any]:
    """What stands in the column of that name, by batch."""
    place = edit.place(name)
    return {} if place is None else {n: trial.value(place.sheet, *cell) for n, cell in enumerate(place.cells(), 1)}


def _is_moment(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _said(moment: float, zero: datetime.datetime) -> str:
    return f"{zero + datetime.timedelta(minutes=int(moment * 1440)):%Y-%m-%d %H:%M}"
