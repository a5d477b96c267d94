"""What of a production workbook could not be computed for certain, and that none of its old figures may stand there.

One idea: an old figure beside a new input looks like an answer, and somebody weighs it out. So where a formula of the
pages is not computed, it says so itself, and nothing is printed or sent as values that rests on it. The pages are found
by their names; in any other workbook what is not computed keeps the value that it had.
"""

from __future__ import annotations

from typing import List, Optional, Set

from brinecalc.files import FileTrouble
from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless.trial import Trial
from brinecalc.hosts.headless.whole_book import Outcome
from brinecalc.workbook.edit.book import Edit

STATE = "plan_state"
_NAMES = (STATE, "plan_says", "plan_products", "plan_costs", "plan_findings", "results_lead", "findings_lead", "card_batch", "log_batch", "charts_batch",
          "recipe_batch", "order_total", "price_names")  # fmt: skip
_TOLD = 3


def settled(trial: Trial, name: str) -> Outcome:
    """The workbook with its values, and #N/A on its pages where one is not computed."""
    return trial.voided(pages(Edit(trial.content, name)))


def pages(edit: Edit) -> Set[str]:
    """The sheets of a production workbook whose figures people work from; none of another workbook."""
    if edit.place(STATE) is None:
        return set()
    return {place.sheet for place in map(edit.place, _NAMES) if place is not None}


def line(trial: Trial, edit: Edit) -> Optional[str]:
    """How many formulas of the pages are not computed, and what the doubt began with; None where all are."""
    mine = pages(edit)
    lost = [cell for cell in trial.distrusted() if cell[0] in mine]
    if not lost:
        return None
    on = ", ".join(sheet for sheet in edit.sheets if any(cell[0] == sheet for cell in lost))
    count = "1 formula" if len(lost) == 1 else f"{len(lost):,} formulas"
    return f"Not worked out: {count} on {on} cannot be computed for certain. It begins with {_roots(trial, mine)}."


def _roots(trial: Trial, mine: Set[str]) -> str:
    """Where the doubt began: on a page, or else on a sheet that the pages read."""
    doubts = trial.doubts()
    cells = sorted([cell for cell in doubts if cell[0] in mine] or doubts)
    found: List[str] = [f"{sheet}!{places.name(row, col)}: {doubts[sheet, row, col]}" for sheet, row, col in cells]
    more = f"; and {len(found) - _TOLD} more" if len(found) > _TOLD else ""
    return "; ".join(found[:_TOLD]) + more


def refuse(trial: Trial, edit: Edit, instead: str) -> None:
    """FileTrouble where something of the pages is not computed; `instead` says what is not done for it."""
    words = line(trial, edit)
    if words is not None:
        raise FileTrouble(
            f"{words} {instead} Type another figure there, or let a spreadsheet program with brinecalc work it out, and save it"
        )
