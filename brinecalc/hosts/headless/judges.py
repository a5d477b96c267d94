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

_MOST_KEPT = 4
_MOST_KNOWN = 20_000
"""Formulas and names that a kept judge may know; our workbooks have some 2,000. What others write is not hoarded."""

_Key = Tuple[object, ...]
_kept: Dict[_Key, Judge] = {}


@contextmanager
def judge_of(book: Outline, library: Library) -> Iterator[Judge]:
    """A judge for this workbook, which may know its formulas already from another one of the same layout."""
    key = (library, *book.layout())
    judge = _kept.pop(key, None) or Judge(book, library)
    yield judge
    if judge.known() + book.name_count <= _MOST_KNOWN:
        _kept[key] = judge
        for oldest in list(_kept)[:-_MOST_KEPT]:
            _kept.pop(oldest, None)
