"""Batches that should have gone in by now.

One idea: a workbook never looks at the clock, so that it says tomorrow what it said today. Whoever computes or sends
one does, and tells which times on the plan have passed by then.
"""

from __future__ import annotations

import datetime
from typing import Optional

from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook.edit.book import Edit

_DAY_ZERO = datetime.datetime(1899, 12, 30)
_DAY_ZERO_1904 = datetime.datetime(1904, 1, 1)


def line(trial: Trial, name: str, now: datetime.datetime) -> Optional[str]:
    """For how many batches the time to put in has passed, and which was first; None where it has for none."""
    edit = Edit(trial.outcome.content, name)
    place, products = edit.place("plan_put_in"), edit.place("plan_products")
    if place is None:
        return None
    zero = _DAY_ZERO_1904 if edit.book.from_1904 else _DAY_ZERO
    here = now.replace(tzinfo=None)
    begun = (here - zero) / datetime.timedelta(days=1)
    moments = [trial.value(place.sheet, *cell) for cell in place.cells()]
    passed = [
        (moment, number)
        for number, moment in enumerate(moments, 1)
        if isinstance(moment, (int, float)) and not isinstance(moment, bool) and 0 < moment < begun
    ]
    if not passed:
        return None
    moment, number = min(passed)
    product = None if products is None else trial.value(products.sheet, *list(products.cells())[number - 1])
    when = zero + datetime.timedelta(minutes=int(moment * 1440))
    which = f"batch {number}{f', {product}' if isinstance(product, str) and product else ''}"
    of = "1 batch has" if len(passed) == 1 else f"{len(passed)} batches have"
    first = which if len(passed) == 1 else f"first, {which}"
    return (
        f"Put in by now ({here:%Y-%m-%d %H:%M}): {of} passed the time to go in; {first}, at {when:%Y-%m-%d %H:%M}. "
        "If it is not in the brine yet, its other times no longer hold: change Ready at."
    )
