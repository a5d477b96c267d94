"""Repricing on the processors of this machine.

One idea: a process that dies takes only its own workbook with it. A pool whose worker died answers for none of its
books any more, so those it still owed are done again, each in a process of its own.
"""

from __future__ import annotations

import multiprocessing
from concurrent.futures import ProcessPoolExecutor
from typing import Dict, Iterator, List, Optional

from brinecalc.trade import own
from brinecalc.workbook.price_list import Price
from brinecalc.workbook.reprice import Change, reprice, reprice_one

_STOPPED = "the program that computed it stopped"
_RENEWED = 100  # books after which a process is replaced by a fresh one, so that nothing piles up in it


def run(
    paths: List[str],
    prices: Dict[str, Price],
    jobs: int,
    apply: bool = False,
    date: Optional[float] = None,
    ingredients: Optional[str] = None,
    add: bool = False,
) -> Iterator[Change]:
    """Every workbook's change as it is done; with one job in this very process.

    `ingredients` is the text of the user's own, which this process has taken in already and fresh ones have not.
    """
    if jobs == 1:
        for path in paths:
            yield reprice_one(path, prices, apply, date, add)
        return
    stranded: List[str] = []
    with _pool(min(jobs, len(paths)), ingredients) as pool:
        for change in reprice(paths, prices, pool, apply, date, add):
            if change.problem and change.problem.startswith(_STOPPED):
                stranded.append(change.path)
            else:
                yield change
    for path in stranded:
        with _pool(1, ingredients) as pool:
            yield from reprice([path], prices, pool, apply, date, add)


def _pool(jobs: int, ingredients: Optional[str] = None) -> ProcessPoolExecutor:
    fresh = multiprocessing.get_context("spawn")  # the same on every system, and nothing is inherited
    return ProcessPoolExecutor(
        jobs, mp_context=fresh, max_tasks_per_child=_RENEWED, initializer=_take_in, initargs=(ingredients,)
    )


def _take_in(ingredients: Optional[str]) -> None:
    """Tells a fresh process of the user's own ingredients."""
    if ingredients is not None:
        own.extend(ingredients)
