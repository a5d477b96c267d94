"""Rows of a price list for what the plan needs and the list does not have yet.

One idea: a row gets the name as the plan writes it, so that the plan finds it, and only a row in which nothing is typed
is free. What the plan does not need is left out: a supplier's list has thousands of lines.
"""

from __future__ import annotations

from typing import AbstractSet, Dict, List, Mapping, Tuple

from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook import price_list
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.price_list import Price

NEEDS, LACKING = "need_names", "lack_names"
_TYPED = ("price_names", "price_packs", "price_prices", "price_dates")


def needed(trial: Trial, edit: Edit, keys: AbstractSet[str]) -> Dict[str, str]:
    """What the plan uses, as it writes it, by the key under which a list has its price; of these keys alone."""
    place = edit.place(NEEDS)
    cells = place.cells() if place is not None else []
    names = [trial.value(place.sheet, *cell) for cell in cells] if place is not None else []
    found = {price_list.key(name): name for name in names if isinstance(name, str) and name}
    return {key: name for key, name in found.items() if key in keys}


def sure(wanted: Mapping[str, str], prices: Mapping[str, Price]) -> List[str]:
    """Of these keys those whose name in the list means nothing else: bacon may be bought to be cured, or ready to eat."""
    return [key for key in wanted if not price_list.may_be_other(prices[key].name)]


def doubtful(wanted: Mapping[str, str], prices: Mapping[str, Price]) -> Tuple[str, ...]:
    """The names of the list for the others."""
    return tuple(prices[key].name for key in wanted if price_list.may_be_other(prices[key].name))


def unpriced(trial: Trial, edit: Edit) -> Tuple[str, ...]:
    """What the plan uses that no row gives a price for, each once, as the order names it."""
    place = edit.place(LACKING)
    cells = place.cells() if place is not None else []
    names = [trial.value(place.sheet, *cell) for cell in cells] if place is not None else []
    return tuple(dict.fromkeys(name for name in names if isinstance(name, str) and name))


def free(edit: Edit) -> List[int]:
    """The rows in which nothing is typed, counted from 0."""
    columns = [place for place in map(edit.place, _TYPED) if place is not None]
    rows = zip(*([edit.look(place.sheet, *cell).value for cell in place.cells()] for place in columns))
    return [number for number, cells in enumerate(rows) if all(cell in (None, "") for cell in cells)]
