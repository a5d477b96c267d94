"""Keeps the judge of a workbook for the next one of the same layout.

One idea: many workbooks of one consultant are copies of one template, and their formulas are the same; a third of the
time of computing such a workbook is judging them. A judge at work is nobody else's, so threads do not meet in one.
"""

from __future__ import annotations

from contextlib import contextmanager
from typing import Dict, Iterator, Tuple

from brinecalc.hosts.headless.library import Library
from brinecalc.hosts.headless.outline import Outline
from brinecalc.hosts.headless.trust import Judge

_MOST_KNOWN = 20_000
"""Formulas and names that kept judges may know together; one of our workbooks has some 2,400. More is not hoarded."""

_FOR_BEING_KEPT = 100
"""What a judge counts for besides what it knows, so that small ones do not gather without end."""

_Key = Tuple[object, ...]
_kept: Dict[_Key, Judge] = {}


@contextmanager
def judge_of(book: Outline, library: Library) -> Iterator[Judge]:
    """A judge for this workbook, which may know its formulas already from another one of the same layout."""
    key = (library, *book.layout())
    judge = _kept.pop(key, None) or Judge(book, library)
    yield judge
    if _weight(judge) > _MOST_KNOWN:
        return
    _kept[key] = judge
    spare = _MOST_KNOWN
    for older, kept in reversed(list(_kept.items())):
        spare -= _weight(kept)
        if spare < 0:
            _kept.pop(older, None)


def _weight(judge: Judge) -> int:
    return judge.known() + judge.book.name_count + _FOR_BEING_KEPT
