"""Repricing on the processors of this machine.

One idea: a process that dies takes only its own workbook with it. A pool whose worker died answers for none of its
books any more, so those it still owed are done again, each in a process of its own.
"""

from __future__ import annotations

import multiprocessing
from concurrent.futures import ProcessPoolExecutor
from typing import Dict, Iterator, List, Optional

from brinecalc.workbook.price_list import Price
from brinecalc.workbook.reprice import Change, reprice, reprice_one

_STOPPED = "the program that computed it stopped"
_RENEWED = 100  # books after which a process is replaced by a fresh one, so that nothing piles up in it


def run(
    paths: List[str], prices: Dict[str, Price], jobs: int, apply: bool = False, date: Optional[float] = None
) -> Iterator[Change]:
    """Every workbook's change as it is done; with one job in this very process."""
    if jobs == 1:
        for path in paths:
            yield reprice_one(path, prices, apply, date)
        return
    stranded: List[str] = []
    with _pool(min(jobs, len(paths))) as pool:
        for change in reprice(paths, prices, pool, apply, date):
            if change.problem and change.problem.startswith(_STOPPED):
                stranded.append(change.path)
            else:
                yield change
    for path in stranded:
        with _pool(1) as pool:
            yield from reprice([path], prices, pool, apply, date)


def _pool(jobs: int) -> ProcessPoolExecutor:
    fresh = multiprocessing.get_context("spawn")  # the same on every system, and nothing is inherited
    return ProcessPoolExecutor(jobs, mp_context=fresh, max_tasks_per_child=_RENEWED)
