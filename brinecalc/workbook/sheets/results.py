"""The results: everything that comes out of the plan, in the units chosen to be shown, ready to print.

One idea: nothing is calculated here but the one division by the shown unit.
"""

from __future__ import annotations

from typing import List

from openpyxl.styles import Alignment
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame, styles
from brinecalc.workbook.book import MOST_BATCHES, Book
from brinecalc.workbook.frame import Field, Grid
from brinecalc.workbook.page import Look, span
from brinecalc.workbook.sheets import plan
from brinecalc.workbook.sheets.plan import FIRST_ROW

SHEET = "Results"
TOTALS = FIRST_ROW - 4
"""The row of the totals: above the headings, where it stays in sight and on paper."""

MIX = "Weigh out"
BY_WEIGHT = (
    "Equilibrium: the average is by weight, the product's solids counted as water, as kitchens reckon. In the product itself "
    "leaves them out, as the meter and the Log do, and is lower."
)
LONG = ("r_soak_fast", "r_soak_slow", "r_even_fast", "r_even_slow")
"""Ranges of hours, which read in days where they are long."""

OR_WORDS = ("r_added", "r_cost", "r_cost_mass", "r_cost_portion")
"""Figures in whose place words may stand, which to the left would touch the figure beside them."""


def _shown(key: str, heading: str, source: str, form: str, unit: str = "", divide: str = "", group: str = "",
           width: float = 10) -> Field:  # fmt: skip
    """A column that shows a working in the unit chosen; empty stays empty.

    What is weighed out gives no figure for a batch that must not be started: the word STOP stands there instead. A row
    that fails has no figure anywhere, but the word; its reason stands at its end and on Findings.
    """
    value = f"{{{source}}}/{divide}" if divide else f"{{{source}}}"
    if form == "hours" and key in LONG:
        value = f'IF(ISNUMBER({value}),IF({value}>72,ROUND({value}/24+1E-9,1)&" days",{value}),{value})'
    if group == MIX:
        value = f'IF({{w_says}}="STOP","STOP",{value})'
    if divide:
        value = f'IF({{{source}}}="","",{value})'
    return Field(
        key,
        heading,
        form,
        f'=IF({{w_on}}=0,"",IF({{w_fails}}<>0,"FAILS",{value}))',
        unit=unit,
        width=width,
        group=group,
    )


def _priced(cost: str) -> str:
    """A cost, or in words that it is open; never nothing, never zero."""
    return f'=IF({{w_on}}=0,"",IF({{w_fails}}<>0,"row fails",IF({{w_unpriced}}<>0,IF({{w_unread}}="","no price","wrong"),{cost})))'


def grid(batches: int = MOST_BATCHES) -> Grid:
    """The grid of the results, row for row in step with the plan."""
    return Grid(SHEET, _mix() + _times() + _outcome(), FIRST_ROW, batches)


def _mix() -> List[Field]:
    """The batch, and what is weighed out for it."""
    small, mass, volume = "=small_word", "=mass_word", "=volume_word"

    def grams(key: str, heading: str, source: str) -> Field:
        return _shown(key, heading, source, "small_or_none", small, "shown_small_g", MIX)

    return [
        Field("r_batch", "Batch", "count", '=IF({w_on}=0,"",{batch})', width=6, group="Batch"),
        Field("r_product", "Product", "text", '=IF({w_on}=0,"",IFERROR({product}&"",""))', width=25, group="Batch"),
        Field("r_says", "Says", "text", "={w_says}", width=10, group="Batch"),
        _shown("r_edible", "Edible weight", "w_edible", "mass", mass, "shown_mass_g", MIX),
        _shown("r_strength", "Strength, of the water", "w_strength", "fine_share", "", "", MIX),
        _shown("r_liquid", "Water or liquid, ice included", "w_liquid", "mass", mass, "shown_mass_g", MIX),
        _shown("r_ice", "of it ice", "w_ice", "mass_or_none", mass, "shown_mass_g", MIX),
        grams("r_salt", "Salt", "w_salt"),
        _shown("r_cure", "Curing salt", "w_cure", "cure_or_none", "g", "", MIX),
        grams("r_sweet", "Sweetener", "w_sweet"),
        grams("r_aroma_one", "Aromatic", "w_aroma_one"),
        grams("r_aroma_two", "Second aromatic", "w_aroma_two"),
        grams("r_phosphate", "Phosphate", "w_phosphate"),
        grams("r_acid", "Acid or base", "w_acid"),
        _shown("r_volume", "Brine", "w_volume", "volume", volume, "shown_volume_ml", MIX),
        _shown("r_fit", "In the vessel", "w_fit", "text", "", "", MIX),
    ]  # fmt: skip


def _times() -> List[Field]:
    """When it goes in, comes out and is ready."""
    soak = "When"
    return [
        _shown("r_put_in", "Put in", "w_put_in", "moment", "", "", soak, 16),
        _shown("r_take_out", "Take out", "w_take_out", "moment", "", "", soak, 16),
        _shown("r_take_from", "Take out at the soonest", "w_take_from", "moment", "", "", soak, 16),
        _shown("r_take_to", "Take out at the latest", "w_take_to", "moment", "", "", soak, 16),
        _shown("r_ready", "Ready", "w_ready", "moment", "", "", soak, 16),
        _shown("r_soak", "Soak", "w_soak", "hours", "h", "", soak),
        _shown("r_soak_fast", "Soak, low", "w_soak_fast", "hours", "h", "", soak),
        _shown("r_soak_slow", "Soak, high", "w_soak_slow", "hours", "h", "", soak),
        _shown("r_rest", "Rest", "w_rest", "hours", "h", "", soak),
        _shown("r_even_fast", "Rest until even, low", "w_even_fast", "hours", "h", "", soak),
        _shown("r_even_slow", "Rest until even, high", "w_even_slow", "hours", "h", "", soak),
    ]  # fmt: skip


def _outcome() -> List[Field]:
    """How salty it ends, what the label says, what it costs, what was found."""
    state, label, money = "Salt then", "On the label", "Money"
    return [
        _shown("r_meter", "Meter at the end, of the solution", "w_meter", "fine_share", "", "", state),
        _shown("r_target", "Average salt", "w_average", "fine_share", "by weight", "", state),
        _shown("r_low", "Average, low", "w_low", "fine_share", "by weight", "", state),
        _shown("r_high", "Average, high", "w_high", "fine_share", "by weight", "", state),
        _shown("r_taken", "In the product itself", "w_taken", "fine_share", "equilibrium", "", state),
        _shown("r_centre", "Centre after the rest", "w_centre", "fine_share", "", "", state),
        _shown("r_sodium", '=IF(rules="EU","Salt per portion, from the salt","Sodium per portion, from salt")', "w_labelled",
               "[<50]0.00;0", '=IF(rules="EU","g","mg")', "", label),
        _shown("r_added", "Added solution", "w_added", "share", "", "", label, 12),
        Field("r_cost", "Cost of the batch", "money", _priced("{w_cost}"), width=10, group=money),
        Field("r_cost_mass", "Cost per finished weight", "money", _priced("{w_cost_kg}*shown_mass_g"),
              unit='="per "&mass_word', width=10, group=money),
        Field("r_cost_portion", "Cost per portion", "money", _priced("{w_cost_portion}"), width=10, group=money),
        Field("r_message", "Worst finding, or why the row fails", "text", "={w_message}", width=110, group="Findings"),
    ]  # fmt: skip


def write(book: Book, sheet: Worksheet) -> None:
    """Headings, grid, totals that refuse to look complete, and how it prints."""
    made = book.grids[SHEET]
    styles.put(sheet, "A1", "Results", "title")
    plan.head(
        sheet,
        made.columns["r_phosphate"],
        "All that comes out of the plan. Nothing to fill in here. Curing salt is given in grams in any units, as it is weighed.",
        "plan_state",
    )
    span(sheet, f"D3:{made.columns['r_phosphate']}3", BY_WEIGHT, Look(size=9, colour=styles.QUIET, wrap=True))
    frame.lay_out(sheet, made, book.layout)
    styles.put(sheet, f"B{TOTALS}", '=IF(plan_stops>0,"All but "&plan_stops&" with a STOP","All batches")', "total")
    for key, form in (("r_edible", "mass"), ("r_cost", "money")):
        unpriced = "plan_unpriced" if key == "r_cost" else "0"
        started = f'SUMIF({book.layout.whole("r_says", SHEET)},"<>STOP",{book.layout.whole(key, SHEET)})'
        value = f'=IF(plan_fails+{unpriced}>0,"not complete",{started})'
        styles.put(sheet, f"{made.columns[key]}{TOTALS}", value, "total", form)
    book.name("plan_cost", SHEET, f"${made.columns['r_cost']}${TOTALS}")
    for key in (*LONG, *OR_WORDS):
        for row in range(FIRST_ROW, made.last_row + 1):
            sheet[made.address(key, row)].alignment = Alignment("right", "center")
    plan.paint(sheet, f"{made.columns['r_says']}{FIRST_ROW}:{made.last_column}{made.last_row}")
    sheet.freeze_panes = f"{made.columns['r_edible']}{FIRST_ROW}"
    plan.paper(sheet, made, "r_cost_portion", 3)
