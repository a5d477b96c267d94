"""When a batch of the log passed the salt it was to take up, by its own readings.

One idea: the forecast says whether it is done, the readings say when. It was done between the last reading that fell short and
the first after it that did not; a reading in doubt is passed over, and a bath that is thinned tells no time. Between
two readings salt goes in as the root of time, as it does before the middle of a piece has its share.
"""

from __future__ import annotations

from typing import List, Tuple

from brinecalc.workbook import frame
from brinecalc.workbook.chosen import Chosen

NOTABLE = 0.02
"""Thinning of a bath that is worth a word; less is within what a meter is out by."""

_AND = '&" and "&'
_HOUR = 0.05  # hours that show as none


def beyond(taken: str) -> str:
    """A formula for how far salt taken up is past what was still wanted, whether it goes in or out."""
    return f"(({taken}-{{goal}})*{{toward}})"


def columns() -> List[Tuple[str, str, str, str]]:
    """Key, heading, form and formula of the columns beside the page."""
    past = f"IF({beyond('{drawn_taken}')}>=0,1,0)"
    room = "{at_within}*{water}/{edible}"
    reached = (
        f'IF({beyond("{at_taken}")}>{room},"Past its target.",IF({beyond("{at_taken}")}>=-{room},"At its target.",""))'
    )
    return [
        ("used_past", "Enough salt by then (1 yes)", "count",
         f'=IF({{line}}>{{count}},"",IF(ISNUMBER({{drawn_taken}}),{past},0))'),
        ("used_short", "No., not enough", "count",
         '=IF({used_past}="",0,IF({used_past}+({line}={doubt})=0,{line},0))'),
        ("used_enough", "No., enough since", "count",
         '=IF({used_past}="","",IF({used_past}=0,"",IF(OR({line}={doubt},{line}<{short}),"",{line})))'),
        ("at_target", "Of its target", "text",
         f'=IF(OR({{gradient}}=0,{{at_rank}}="",{{thinned}}=1),"",IF({{at_rank}}={{doubt}},"",{reached}))'),
    ]  # fmt: skip


def add(chosen: Chosen, hours: str, holds: str, taken: str, short: str, enough: str) -> None:
    """The cells of the block about whether and when; the ranges are of the readings used, in order of time."""
    chosen.always("doubt", "Reading in doubt, 0 none", "=IF(ISNUMBER({go_doubtful}),{go_doubtful},0)", "count")
    thinned = f"=IF(ISNUMBER({{go_dilution}}),IF({{go_dilution}}>={NOTABLE},1,0),0)"
    chosen.always("thinned", "Bath looks thinned (1 yes)", thinned, "count")
    chosen.add("goal", "Salt still wanted when it went in", "{wanted}-{native}", "fine_share")
    chosen.add("toward", "Salt goes in (1) or out (-1)", "IF({goal}<0,-1,1)", "count")
    chosen.always("short", "Last reading short of it", f"=MAX({short})", "count")
    reached = f"=IF(OR({{gradient}}=0,{{thinned}}=1),0,IF(COUNT({enough})=0,0,MIN({enough})))"
    chosen.always("reached", "First reading at it", reached, "count")
    for key, words, which in (("from", "Short of it", "short"), ("to", "At it", "reached")):
        for of, what, column, form in (("hours", "h", hours, "hours"), ("taken", "salt taken up", taken, "fine_share")):
            none = f"=IF({{{which}}}=0,0,INDEX({column},{{{which}}}))"
            chosen.always(f"{key}_{of}", f"{words}, {what}", none, form)
    between = "SQRT({from_hours})+(SQRT({to_hours})-SQRT({from_hours}))*({goal}-{from_taken})/({to_taken}-{from_taken})"
    passed = f'=IF({{reached}}=0,"",IF({{to_taken}}={{from_taken}},{{to_hours}},({between})*({between})))'
    chosen.always("passed", "Passed it at, h", passed, "hours")
    done = f"=IF({{given}}=1,IF({{go_hours}}<{_HOUR},1,0),0)"
    chosen.always("done", "Done (1 yes)", done, "count")
    sure = f"=IF({{done}}=1,IF(ISNUMBER({{go_slow}}),IF({{go_slow}}<{_HOUR},1,0),0),0)"
    chosen.always("sure", "Surely done (1 yes)", sure, "count")
    last = f"INDEX({taken},{{count}})"
    chosen.always("held", "Holds by the last reading", f'=IF({{done}}=1,{{native}}+{last},"")', "fine_share")
    chosen.always("last_holds", "Bath, last reading", f'=IF({{count}}=0,"",INDEX({holds},{{count}}))', "fine_share")
    chosen.add("ready", "Ready", "[w_ready]", "moment")
    late = "=IF({count}=0,0,IF(AND(ISNUMBER({ready}),ISNUMBER({begun})),({begun}-{ready})*24+{last},0))"
    chosen.always("late", "Last reading past Ready, h", late, "hours")


def clock(hours: str) -> str:
    """A formula for the time of day so many hours after it went in, in words."""
    moment = frame.minute(f"{{begun}}+{hours}/24")
    return f'RIGHT("0"&HOUR({moment}),2)&":"&RIGHT("0"&MINUTE({moment}),2)'


def moment(part: str) -> str:
    """A formula for when it is or was done: at the soonest (fast), most likely (hours), at the latest (slow)."""
    was = {"fast": "from_hours", "hours": "passed", "slow": "to_hours"}[part]
    ahead, back = (frame.minute(f"{{begun}}+{hours}/24") for hours in (f"({{last}}+{{go_{part}}})", f"{{{was}}}"))
    will = f'IF(ISNUMBER({{go_{part}}}),{ahead},"open")'
    past = f'IF({{reached}}=0,"—",{back})'
    if part == "fast":
        will = f'IF({{go_fast}}<{_HOUR},"maybe already",{will})'
    elif part == "slow":
        past = f"IF({{sure}}=0,{will},{past})"
    return f'=IF({{given}}=0,"",IF({{done}}=0,{will},{past}))'


def _passed(turn: str) -> str:
    """A formula for what the readings say of a batch that is done, and what to do; `turn` holds the turn of each row."""
    days = (f"INT({frame.minute(f'{{begun}}+{hours}/24')})" for hours in ("{from_hours}", "{to_hours}"))
    rows = (f'"no. "&MATCH({number},{turn},0)' for number in ("{short}", "{reached}"))
    clocks = (clock(hours) for hours in ("{from_hours}", "{to_hours}"))
    between = f'"between "&IF({"<>".join(days)},{_AND.join(rows)},{_AND.join(clocks)})'
    since = f'IF({{short}}=0,"before "&{clock("{to_hours}")},{between})'
    verb = 'IF({sure}=1,"Passed its target ","It seems to have reached its target ")'
    return f'IF({{reached}}=0,"By all readings together it is at its target",{verb}&{since})&": take it out now. "'


def _too_far(sees: float) -> str:
    """A formula for how far past its target a batch is, where that is more than a meter sees."""
    room = f"{sees}*{{last_holds}}*{{water}}/{{edible}}"
    figures = '" than wanted: about "&ROUND(100*{held}+1E-9,2)&"\u00a0% by the last reading, not "&ROUND(100*{wanted}+1E-9,2)&"\u00a0%. "'
    return f'IF(({{held}}-{{wanted}})*{{toward}}>{room},"It is "&IF({{toward}}=1,"saltier","less salty")&{figures},"")'


LATE = f'IF({{late}}<{_HOUR},"","The last reading is "&ROUND({{late}}+1E-9,1)&" h past Ready.")'
"""A formula for how late it is, by the last reading."""


def says(sees: float, turn: str) -> str:
    """A formula for the sentence on a batch that is done; `sees` is the share of a reading that a meter can tell."""
    return f'{_passed(turn)}&IF({{thinned}}=1,"",{_too_far(sees)})&{LATE}'
