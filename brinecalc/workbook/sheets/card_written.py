"""What is written on the card by hand: readings beside what is expected, lots, checks, the cooling of a boiled brine.

One idea: beside every box stands what it should hold and what to do when it does not, so that nobody has to look it up.
"""

from __future__ import annotations

from typing import List

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.trade import limits
from brinecalc.workbook.chosen import Chosen
from brinecalc.workbook.page import BOX, FIGURE, HEAD, LABEL, SMALL, WORDS, span
from brinecalc.workbook.sheets import card_lists
from brinecalc.workbook.sheets.card_lists import SOUR, degrees

RANGE_SIZE = 9
"""Points of the ends of a range: 25.0% has to fit into one column."""


def readings(sheet: Worksheet, chosen: Chosen, row: int, column: int, height: float) -> int:
    """Boxes for readings, each with what is expected; beside them the limits and what to do.

    `column` is where the table behind the page begins, `height` how high a line is that is written on.
    """
    span(sheet, f"A{row}:T{row}", "Readings", HEAD)
    sheet.row_dimensions[row - 1].height = 3
    sheet.row_dimensions[row].height = 16
    heads = (("A", "C", '"When"'), ("D", "G", _meter_head()), ("H", "J", 'IF({ferment}=0,"Meter, %",IF({dry}=1,"pH","Meter, %, and pH"))'),
             ("K", "L", 'IF({perishable}=1,"Temperature, up to "&{cold},"Temperature")'), ("M", "N", '"Initials"'),
             ("O", "T", '"If not, do this"'))  # fmt: skip
    for left, right, words in heads:
        span(sheet, f"{left}{row + 1}:{right}{row + 1}", chosen.when_usable(words), LABEL)
    sheet.row_dimensions[row + 1].height = 22
    table = card_lists.readings(chosen, column, 4 + len(card_lists.WEIGHED) + 3 + 20)
    actions = _actions()
    for number, words in enumerate(actions):
        at = row + 2 + number
        sheet.row_dimensions[at].height = height
        planned = number < len(table)
        hours, moment, meter, least, most = table[number] if planned else ("", "", "", "", "")
        when = (
            chosen.when_usable(f'IF(OR({moment}="",{{open}}=1),ROUND({hours}+1E-9,1)&" h in",{moment})')
            if planned
            else None
        )
        span(sheet, f"A{at}:C{at}", when, FIGURE._replace(size=11, bold=False), "ddd d, hh:mm")
        expected = chosen.when_usable(f'IF({meter}="","—",{meter})') if planned else None
        span(sheet, f"D{at}:E{at}", expected, FIGURE._replace(size=14), "0.0%")
        for letter, end in (("F", least), ("G", most)):
            value = chosen.when_usable(f'IF({least}={most},"",{end})') if planned else None
            span(sheet, f"{letter}{at}", value, FIGURE._replace(size=RANGE_SIZE, bold=False), "0.0%")
        for left, right in (("H", "J"), ("K", "L"), ("M", "N")):
            span(sheet, f"{left}{at}:{right}{at}", None, BOX)
        span(sheet, f"O{at}:T{at}", chosen.when_usable(words), WORDS._replace(size=9.5, wrap=False))
    return row + 1 + len(actions)


def _meter_head() -> str:
    """What the figures beside the meter's box are."""
    bath = '"Salt meter should show: usual, low, high"&IF({sugar}=0,""," (sugar allowed for)")'
    return f'IF({{injected}}=1,"Salt meter should show, before it goes in",IF({{wet}}=0,"No brine to read",{bath}))'


def _actions() -> List[str]:
    """What to do about a reading; a line each, temperature first."""
    hours = limits.value("warm hours")
    return [
        'IF({perishable}=1,"Above "&{cold}&": chill at once.","Keep near "&{bath_degree}&".")',
        f'IF({{perishable}}=1,"{hours:g} h in all above "&{{warm}}&": discard.",IF({{ferment}}=1,"pH above {SOUR}"&IF({{open}}=1,": not done."," on its last day: discard."),""))',
        'IF({dry}=1,"","Meter: stir first, read twice.")',
        'IF({wet}=1,IF({method}="gradient","Lower: take out a little sooner.","Lower: stir; check the weights."),IF({dry}=1,"","Lower: stir; weigh what went in."))',
        'IF({wet}=1,IF({method}="gradient","Higher: take out a little later.","Higher: stir; check the weights."),IF({dry}=1,"","Higher: do not inject; mix anew."))',
        'IF({dry}=1,"Thermometer: try it in ice water.","Meter in doubt? Try a weighed brine.")',
        '"Anything else: keep cold and ask."',
    ]


def checks(sheet: Worksheet, chosen: Chosen, row: int) -> int:
    """Boxes for lots, the second check, the instruments, the cooling of a boiled brine; the standing cautions."""
    span(sheet, f"A{row}:T{row}", "Checked and signed", HEAD)
    boxes = (
        ("A", "C", '"Lot number of this batch"'),
        ("D", "F", 'IF({cure}="","Other lot numbers","Lot no. of the curing salt")'),
        ("G", "J", 'IF({cure}="","Mixed by","Curing salt weighed by")'),
        ("K", "N", 'IF({cure}="","Checked by","Second person: scale shows, checked by")'),
        ("O", "Q", '"Meter last checked on"'),
        ("R", "T", '"Thermometer last checked on"'),
    )
    for left, right, words in boxes:
        span(sheet, f"{left}{row + 1}:{right}{row + 1}", chosen.when_usable(words), BOX)
    first, second = limits.value("cool first"), limits.value("cool second")
    cooling = (
        ("A", "D", '"Was any of the brine boiled? Cool it in two stages. Off the boil at"'),
        ("E", "H", f'"At "&{degrees(57)}&" at"'),
        ("I", "L", f'"At "&{degrees(21)}&", within {first:g} h, at"'),
        ("M", "P", f'"At "&{degrees(5)}&", within {second:g} h more, at"'),
        ("Q", "T", '"Too slow: throw it away and mix anew. Initials"'),
    )
    for left, right, words in cooling:
        span(sheet, f"{left}{row + 2}:{right}{row + 2}", chosen.when_usable(words), BOX)
    foot = (
        "Two-stage cooling is the common food-code rule; your own code comes first. A brine is used once. Times are estimates: "
        "the meter and a cooked sample decide. Keep raw product and brine away from food that is eaten as it is."
    )
    span(sheet, f"A{row + 3}:T{row + 3}", foot, SMALL._replace(wrap=True, vertical="top"))
    for at, height in ((row - 1, 3), (row, 16), (row + 1, 32), (row + 2, 33), (row + 3, 21)):
        sheet.row_dimensions[at].height = height
    return row + 3
