"""Batches that should have gone in by now.

One idea: a workbook never looks at the clock, so that it says tomorrow what it said today. Whoever computes or sends
one does, and tells which times on the plan have passed by then.
"""

from __future__ import annotations

import datetime
from typing import Any, Dict, Optional

from brinecalc.hosts import days
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook.edit.book import Edit

_NAMED = 8
"""Batches that are named; the rest are counted."""


def line(trial: Trial, name: str, now: datetime.datetime) -> Optional[str]:
    """The batches whose time to go in has passed, those that are still wanted by name; None where it has for none."""
    edit = Edit(trial.content, name)
    if edit.place("plan_put_in") is None:
        return None
    put_in, ready, says, products = (
        _column(edit, trial, f"plan_{field}") for field in ("put_in", "ready", "says", "products")
    )
    begun = days.number(now, edit.book.from_1904)
    passed = [n for n, moment in put_in.items() if _is_moment(moment) and 0 < moment < begun]
    passed = [n for n in passed if says.get(n) != "FAILS"]
    if not passed:
        return None
    gone = [n for n in passed if _is_moment(ready.get(n)) and ready[n] < begun]
    named = [
        f"no. {n}{f', {products[n]}' if products.get(n) else ''}, at {said(put_in[n], edit.book.from_1904)}"
        for n in sorted(set(passed) - set(gone), key=put_in.__getitem__)
    ]
    of = "1 batch has" if len(passed) == 1 else f"{len(passed)} batches have"
    more = f"; and {len(named) - _NAMED} more" if len(named) > _NAMED else ""
    return (
        f"Put in by now ({now:%Y-%m-%d %H:%M}): {of} passed the time to go in"
        + (f": {'; '.join(named[:_NAMED])}{more}" if named else "")
        + ". If one is not in the brine yet, its other times no longer hold: change Ready at."
        + (f" Ready before now: no. {', '.join(map(str, gone))}." if gone else "")
    )


def _column(edit: Edit, trial: Trial, name: str) -> Dict[int, Any]:
    """What stands in the column of that name, by batch, where it is to be trusted."""
    place, doubtful = edit.place(name), trial.distrusted()
    cells = [(place.sheet, *cell) for cell in place.cells()] if place is not None else []
    return {n: trial.value(*cell) for n, cell in enumerate(cells, 1) if cell not in doubtful}


def _is_moment(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def said(moment: float, from_1904: bool = False) -> str:
    """A moment of the plan, to the minute."""
    return f"{days.moment(moment, from_1904):%Y-%m-%d %H:%M}"
