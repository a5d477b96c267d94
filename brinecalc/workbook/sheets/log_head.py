"""The head of the log: whether to go on, for how long, and when it is done.

One idea: of all that the readings say only one thing is told in large letters, the gravest: that it must be thrown away, that the
last reading is in doubt, that it is done, or else the hours to go. The cells behind come first, since the rows
ask some of them.
"""

from __future__ import annotations

from typing import Tuple

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook.agreed import where_installed
from brinecalc.workbook.chosen import Chosen
from brinecalc.workbook.page import FIGURE, LABEL, SMALL, span
from brinecalc.workbook.sheets import log_done, log_rows, log_warm, reasons

UNLIKE = "cannot come from this soak"
"""What the forecast says of readings that no speed of the soak explains."""


def _asked() -> str:
    """The arguments with which the forecast is asked for, its part as @."""
    hours, holds = log_rows.logged("used_hours"), log_rows.logged("used_holds")
    return f'{hours},{holds},{{product}},{{size}},{{target}},{{strength}},{{ratio}},"@",{{degree}},{{shape}},{{treatment}},{{native}}'


def reckon(chosen: Chosen) -> None:
    """The cells behind: the forecast, how long it was warm, and whether it is done."""
    chosen.always("count", "Readings used", f"={log_rows.logged('at_used').split(':')[1]}", "count")
    log_warm.add_up(chosen, *(log_rows.logged(key) for key in ("at_clock", "at_gauged", "at_hot", "at_stretch")))
    for part, words, form in (("hours", "Hours to go", "hours"), ("fast", "At the soonest", "hours"),
                              ("slow", "At the latest", "hours"),
                              ("dilution", "Bath thinned by", "share"), ("doubtful", "Wrong reading", "count")):  # fmt: skip
        call = f"BRINE_FORECAST({_asked().replace('@', part)})"
        chosen.always(f"go_{part}", words, f'=IF(OR({{gradient}}=0,{{count}}<2),"",{call})', form)
    chosen.always("last", "Last reading, h", f'=IF({{count}}=0,"",MAX({log_rows.logged("used_hours")}))', "hours")
    chosen.always("ahead", "Longer than planned, h", '=IF(ISNUMBER({go_hours}),{last}+{go_hours}-{soak},"")', "hours")
    slowest = '=IF({count}<2,"",IF(ISNUMBER({go_slow}),{last}+{go_slow},100000))'
    chosen.always("slowest", "In all at the latest, h", slowest, "hours")
    doubted = "=IF(ISNUMBER({go_doubtful}),IF({go_doubtful}={count},1,0),0)"
    chosen.always("doubted", "Last reading in doubt (1 yes)", doubted, "count")
    chosen.always("given", "Forecast shown (1 yes)", "=IF(ISNUMBER({go_hours}),(1-{doubted})*(1-{discard}),0)", "count")
    log_done.add(
        chosen,
        *(log_rows.logged(key) for key in ("used_hours", "used_holds", "drawn_taken", "used_short", "used_enough")),
    )
    _reckon_why(chosen)


def _reckon_why(chosen: Chosen) -> None:
    """Why there is no forecast; where it is for the readings, which of them is farthest off what the bath should hold."""
    why = where_installed(f'BRINE_WHY("FORECAST",{_asked().replace("@", "hours")})', "")
    chosen.always("why", "Why no forecast", f'=IF(ISERROR({{go_hours}}),{why},"")', "text")
    chosen.always("heard", "Without the function's name", f'=IF({{why}}="","",{reasons.heard("{why}")})', "text")
    chosen.always("reason", "In the words of the page", f'=IF({{why}}="","",{reasons.spoken("{heard}")})', "text")
    amiss = log_rows.logged("at_amiss")
    strange = f'=IF(ISNUMBER(FIND("{UNLIKE}",{{why}})),IF(MAX({amiss})>0,MATCH(MAX({amiss}),{amiss},0),0),0)'
    chosen.always("strange", "Row of no such soak", strange, "count")


def write(sheet: Worksheet, chosen: Chosen) -> None:
    """The figures on the page, and a line of words under them."""
    span(sheet, "A10:J10", chosen.fill("=" + where_installed(_under(), "")), SMALL)
    large = '=IF({discard}=1,"DISCARD",IF({doubted}+{strange}>0,"read again",IF({done}=1,"take out",IF({given}=1,{go_hours},""))))'
    shown: Tuple[Tuple[str, str, str, str, float], ...] = (
        ("A8:B8", "Hours to go, from the last reading", large, "0.0", 17),
        ("C8:D8", "Done at the soonest", log_done.moment("fast"), "ddd d mmm hh:mm", 11),
        ("E8:F8", "Done at", log_done.moment("hours"), "ddd d mmm hh:mm", 12),
        ("G8:I8", "Done at the latest", log_done.moment("slow"), "ddd d mmm hh:mm", 10),
        ("J8:J8", "What it means, and against the plan", _detail(), "plain", 9),
    )
    for cells, words, formula, form, size in shown:
        span(sheet, cells, words, LABEL)
        bold = size in (12, 17)
        look = FIGURE._replace(size=size, bold=bold, wrap=form == "plain")
        span(sheet, cells.replace("8", "9"), chosen.fill(formula), look, form)


def _detail() -> str:
    """What to do, or the range of the hours and what it means for the plan."""
    return (
        f"=TRIM(IF({{discard}}=1,{log_warm.DISCARD},"
        'IF({doubted}=1,"The last reading is in doubt: stir, read again, type it in the next row.",'
        f"IF({{strange}}>0,{_strange()},"
        f'IF({{done}}=1,{log_done.says(log_rows.SEES, log_rows.logged("at_rank"))},IF({{given}}=0,"",'
        '"From "&ROUND({go_fast}+1E-9,1)&" to "&IF(ISNUMBER({go_slow}),ROUND({go_slow}+1E-9,1)&" h more. ","no end that is known. ")'
        '&IF(AND({soak}>={last}+{go_fast},{soak}<={slowest}),"The planned "&ROUND({soak}+1E-9,1)&" h lie in that range. ",'
        '"In all "&ROUND(ABS({ahead})+1E-9,1)&" h "&IF({ahead}<0,"shorter","longer")&" than planned. ")'
        f"&{log_done.LATE}))))))"
    )


def _strange() -> str:
    """A formula for what is wrong with readings that no speed of this soak explains, and what to do."""
    read, holds, expected = (
        f"INDEX({log_rows.shown(key)},{{strange}})" for key in ("at_as", "at_holds", "at_expected")
    )
    return (
        f'"No. "&{{strange}}&" reads "&{read}&": the bath would hold "&ROUND(100*{holds}+1E-9,2)&"\u00a0% of the water, where about "'
        f'&ROUND(100*{expected}+1E-9,2)&"\u00a0% is expected. Check the meter, the temperature, and the strength on Plan; stir, read again."'
    )


def _under() -> str:
    """What is small beside that: time in the warm, rows left out, readings in doubt, or why there is no forecast."""
    turn, out = log_rows.logged("at_rank"), log_rows.logged("at_out")
    late = f'IF(COUNTIF({out},1)=0,"","No. "&MATCH(1,{out},0)&" is left out: rows run in order of time. ")'
    one = '"One reading so far; a forecast needs two."&IF({reached}=1," By it the target is reached: stir, read again; if it holds, take it out.","")'
    return (
        f'IF({{discard}}=1,"",{log_warm.SO_FAR}&IF({{gradient}}=0,"",{late}&IF({{count}}=0,"No reading yet.",'
        f'IF({{count}}=1,{one},IF(ISERROR({{go_hours}}),IF({{strange}}=0,{{reason}},""),'
        f'IF({{go_doubtful}}>0,"Reading no. "&MATCH({{go_doubtful}},{turn},0)&" is probably wrong. ","")'
        '&IF({thinned}=1,"The bath looks thinned by "&ROUND({go_dilution}*100+1E-9,0)&" %: ice, drip? ","")'
        '&IF({done}=1,"","The more readings, and the later, the narrower the range."))))))'
    )
