"""The time that a batch of the log has been too warm, added up over its readings.

One idea: the rule is about all the time together, and a reading tells only of its own moment. So each stretch between
two temperatures, the first of them the moment it went in, counts as warm or not as a whole: warm if one end is. Rows out
of order of time are left to be mended first; a row counts with its temperature even if its reading is no use.
"""

from __future__ import annotations

from typing import List, Tuple

from brinecalc.trade import limits
from brinecalc.workbook.chosen import Chosen
from brinecalc.workbook.sheets.steps import COLD

WARM_ENDS = 1
"""Ends of a stretch between two temperatures that must be too warm for all of it to count so: a judgement, on the safe side,
since nobody knows when it was chilled. A thermometer that records would settle it."""

MOST = limits.value("warm hours")
ABOVE = limits.value("brine temperature")
MINUTES = "ROUND({at_hours}*60+0.0001,0)"


def columns(months: int, kept: str) -> List[Tuple[str, str, str, str]]:
    """Key, heading, form and formula of the columns beside the page.

    `kept` is the column of the minutes of the readings that stand in order of time; a row without one is held to them.
    """
    typed = (
        'IF(AND({at_reading}="",{at_degree}=""),0,IF(ISNUMBER({at_hours}),IF(AND({at_hours}>=0,{at_hours}<=@),1,0),0))'
    )
    before = 'COUNTIF({at_gauged:all},"<"&{at_gauged})'
    here, there = (
        f"IF(COUNTIFS({{at_gauged:all}},{{{at}}},{{at_hot:all}},1)>0,1,0)" for at in ("at_gauged", "at_since")
    )
    warm = f"{here}+IF({before}=0,{here},{there})>={WARM_ENDS}"
    return [
        ("at_clock", "Minutes, by the clock", "0",
         f'=IF({typed.replace("@", str(months))}=0,"",IF({{{kept}}}<>"",{{{kept}}},IF({{against}}=0,{MINUTES},"")))'),
        ("at_gauged", "Minutes, with a temperature", "0", '=IF(ISNUMBER({at_celsius}),{at_clock},"")'),
        ("at_hot", "Too warm (1 yes)", "count", f'=IF({{at_gauged}}="","",IF({{at_celsius}}>{ABOVE:g},1,0))'),
        ("at_since", "Temperature before it, minutes", "0",
         f'=IF({{at_gauged}}="","",IF({before}=0,0,SMALL({{at_gauged:all}},{before})))'),
        ("at_stretch", "Too warm since then, minutes", "0",
         f'=IF({{at_gauged}}="",0,IF({{at_gauged:same}}>0,0,IF({warm},{{at_gauged}}-{{at_since}},0)))'),
        ("at_so_far", "Too warm so far, minutes", "0",
         '=IF({at_gauged}="","",SUMIF({at_gauged:all},"<="&{at_gauged},{at_stretch:all}))'),
    ]  # fmt: skip


def add_up(chosen: Chosen, clock: str, gauged: str, hot: str, stretch: str) -> None:
    """The cells of the block about all the warm time; what followed a last temperature that was warm counts too."""
    last = f"MAX({gauged})"
    tail = f"IF(COUNTIFS({gauged},{last},{hot},1)>0,MAX({clock})-{last},0)"
    chosen.always("warmed", "Too warm in all, minutes", f"=IF({{perishable}}=1,SUM({stretch})+{tail},0)", "count")
    chosen.always("discard", "Discard (1 yes)", f"=IF({{warmed}}>{60 * MOST:g},1,0)", "count")


def hours(minutes: str) -> str:
    """A formula for minutes in hours, up to the next tenth, so that what is over the limit reads so."""
    return f"ROUNDUP({minutes}/60-1E-9,1)"


def row_says() -> str:
    """What the temperature of a row says, first of all."""
    unread = (
        '"Left out. Type the temperature as a plain number in "&typed_degree&", such as "'
        '&IF(typed_units="US","38","3.5")&"."'
    )
    over = f'"Above "&{{warm}}&" for up to "&{hours("{at_so_far}")}&" h in all: discard."'
    chill = f'"Above "&{{warm}}&": chill now; over {MOST:g} h in all: discard."'
    return (
        f'=IF({{at_degree}}="","",IF({{at_unread}}=1,{unread},IF({{perishable}}=0,"",'
        f"IF({{at_celsius}}>{ABOVE:g},IF(N({{at_so_far}})>{60 * MOST:g},{over},{chill}),"
        f'IF({{at_celsius}}>{COLD:g},"Above "&{{cold}}&": chill at once.","")))))'
    )


DISCARD = (
    f'"DISCARD the product and its brine: by these readings up to "&{hours("{warmed}")}&" h above "&{{warm}}&"; {MOST:g} h '
    'in all is the most."'
)
"""A formula for what to do once it has been too warm for too long."""

SO_FAR = (
    f'IF({{warmed}}=0,"","Above "&{{warm}}&" for up to "&{hours("{warmed}")}&" h so far, {MOST:g} h at most; from one temperature '
    'to the next counts whole if either is warm. ")'
)
"""A formula for how much of that time is used up."""
