"""What a computed plan comes to, in the plan's own sentences: what fails, what stops, what it costs.

One idea: whoever computes a workbook wants to know whether the batches hold, before how many formulas there are. The
places are found by the workbook's names, so any other workbook simply has nothing to say here.
"""

from __future__ import annotations

import datetime
from typing import Iterator, List, Set

from brinecalc.hosts.headless.engine import Value
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook import overdue, unsettled
from brinecalc.workbook.edit.book import Edit

TOLD = ("FAILS", "STOP", "CAUTION")
"""Batches that are told of one by one, the worst kind first."""


def lines(trial: Trial, name: str, now: datetime.datetime) -> List[str]:
    """The state of the plan, the batches that fail or are not to be started as they are, what is late, and the cost."""
    edit = Edit(trial.content, name)
    lost, state = unsettled.line(trial, edit), _cell(edit, trial, unsettled.STATE)
    if lost is not None:
        return [lost, *_batches(edit, trial)]
    if not isinstance(state, str):
        return []
    late = overdue.line(trial, name, now)
    return [state.strip(), *_batches(edit, trial), *([late] if late else []), *_cost(edit, trial)]


def behind(trial: Trial, name: str) -> Set[str]:
    """The sheets of a production workbook behind the pages: what is wrong there is said of its batch in words."""
    edit = Edit(trial.content, name)
    found = (edit.place(name) for name in ("plan_says", "plan_findings"))
    return {place.sheet for place in found if place is not None}


def _batches(edit: Edit, trial: Trial) -> Iterator[str]:
    says, messages, products = (_column(edit, trial, name) for name in ("plan_says", "plan_messages", "plan_products"))
    for kind in TOLD:
        for number, (word, message, product) in enumerate(zip(says, messages, products), 1):
            if word == kind:
                yield f"Batch {number}{f', {product}' if product else ''}: {message}"


def _cost(edit: Edit, trial: Trial) -> Iterator[str]:
    """What all batches cost, or that it is open; nothing where the prices were taken out."""
    cost, money = _cell(edit, trial, "plan_cost"), _cell(edit, trial, "price_word")
    word = f" {money}" if isinstance(money, str) and money else ""
    stops = _cell(edit, trial, "plan_stops")
    but = f" but {stops:.0f} with a STOP" if isinstance(stops, (int, float)) and stops else ""
    if cost:
        yield from _unpriced(edit, trial)
    if isinstance(cost, (int, float)) and cost:
        yield f"All batches{but} together cost {cost:,.2f}{word}."
    elif isinstance(cost, str) and cost:
        yield f"The cost of all batches is {cost}."


def _unpriced(edit: Edit, trial: Trial) -> Iterator[str]:
    """Which batches have no cost although they hold; why stands beside each on the plan."""
    says, costs = _column(edit, trial, "plan_says"), _column(edit, trial, "plan_costs")
    open_ones = [
        str(number)
        for number, (word, cost) in enumerate(zip(says, costs), 1)
        if word and word not in ("FAILS", "STOP") and not isinstance(cost, (int, float))
    ]
    if open_ones:
        many = "Batches" if len(open_ones) > 1 else "Batch"
        yield f"{many} {', '.join(open_ones)} without a cost: the row of Plan says which price is missing or wrong."


def _column(edit: Edit, trial: Trial, name: str) -> List[Value]:
    """What stands in a named column; None where it is not to be trusted."""
    place, doubtful = edit.place(name), trial.distrusted()
    cells = [(place.sheet, *cell) for cell in place.cells()] if place is not None else []
    return [None if cell in doubtful else trial.value(*cell) for cell in cells]


def _cell(edit: Edit, trial: Trial, name: str) -> Value:
    column = _column(edit, trial, name)
    return column[0] if column else None
