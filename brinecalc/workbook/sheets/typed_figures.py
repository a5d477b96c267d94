"""The plan's figures as they were typed, in base units, and what is wrong with one that cannot be meant.

One idea: what a spreadsheet program makes of a figure is met here, before anything is reckoned with it: a fraction that
became a date, a time of day that became part of a day, a text without the unit that stands at the head of its column.
"""

from __future__ import annotations

from typing import List

from brinecalc.workbook import frame, settings
from brinecalc.workbook.agreed import where_installed
from brinecalc.workbook.frame import Field
from brinecalc.workbook.sheets.plan import DATES, LEAST_HOURS
from brinecalc.workbook.sheets.steps import GRADIENT, INJECTED, NO_BATH, got, step, typed

PLAIN = "must be a plain number above 0, in the unit at the head of its column"
MOMENT = "Ready at must be a date and a time|; type it with its year, like 2026-12-04 17:30"
TEXT_MOMENT = (
    '"Ready at is the text """&{ready}&""" and no date; type day and time like 2026-12-20 17:30, '
    'and if it stays text, format its cell as a date first."'
)
DAYLESS = "Ready at is a time of day without its day; type both, like 2026-12-04 17:30."
_GLYPHS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
SHORT_HOURS = "Hours I have must be a number of hours, at least {least:g}|; a time of day such as 8:00 counts as part of a day, so type 8 for eight hours"
"""Why a very small number of hours is refused."""


def _dated(source: str) -> str:
    """A formula for whether a number is a date: a fraction such as 3/4 becomes one, and no kitchen has so much of anything."""
    return f"IF(ISNUMBER({{{source}}}),AND({{{source}}}>{DATES[0]},{{{source}}}<{DATES[1]}),FALSE)"


def _was_fraction(heading: str, such: str = "") -> str:
    """A formula for the sentence about it."""
    return f'"{heading} is a date, which a fraction such as 3/4 becomes when it is typed; type 0.75{such}."'


def _amount(key: str, heading: str, source: str, factor: str, blank: str = '""', missing: str = "") -> Field:
    """An amount above 0 by the factor of its column's unit; no date."""
    name = heading.partition(",")[0]
    number = f"IF({{{source}}}>0,IF({_dated(source)},SQRT(-1),{{{source}}}*{factor}),SQRT(-1))"
    made = typed(key, heading, source, number, blank, says=f"{name} {PLAIN}", missing=missing)
    return made._replace(why=f"IF({_dated(source)},{_was_fraction(name)},{made.why})")


def weight() -> Field:
    """The weight as bought."""
    missing = "Weight as bought is missing; type it in the unit at the head of its column."
    return _amount("w_weight", "Weight as bought, g", "weight", "mass_in_g+{w_here}", "SQRT(-1)", missing)


def thickness() -> List[Field]:
    """The thickness, and how a reason repeats it. Text without a unit is in that of its column, as a number is."""
    last = "RIGHT(TRIM({thickness}),1)"
    edges = f'IF(ISNUMBER(FIND({last},"0123456789.{_GLYPHS}")),{{thickness}}&" "&typed_length,{{thickness}})'
    text = f'IFERROR(BRINE_UNIT({{thickness}},"","mm"),IFERROR(BRINE_UNIT({{thickness}},typed_length,"mm"),{edges}))'
    size = (
        f"IF({_dated('thickness')},SQRT(-1),IF(ISNUMBER({{thickness}}),{{thickness}}*length_in_mm,"
        f'IF({{thickness}}="",IF({INJECTED},"",SQRT(-1)),{text})))'
    )
    missing = '"Thickness is missing; type it in the unit at the head of its column."'
    dated = _was_fraction("Thickness", ", or 3/4 in with its unit")
    said = (
        'IF(ISNUMBER({thickness}),{thickness}&" "&typed_length,IF(ISNUMBER({w_size}),'
        'IF(ISERROR(BRINE_UNIT({thickness},"","mm")),{thickness}&" "&typed_length,{thickness}),{w_size}&""))'
    )
    return [
        step("w_size", "Thickness, mm", size)._replace(why=f'IF({{thickness}}="",{missing},{dated})'),
        step("w_said_size", "Thickness as typed", said, "text"),
    ]


def degree() -> List[Field]:
    """The temperature of the brine, and how a reason repeats it."""
    of_start = (
        '"Brine temperature while soaking, on Start, must be a temperature, got """&bath_temperature&"""; '
        'write it as 4 °C or 40 °F."'
    )
    return [
        step("w_said_degree", "Brine temperature as typed",
             'IF(ISTEXT({bath_degree}),{bath_degree},IF({bath_degree}<>"",{bath_degree}&" "&typed_degree,IF(ISTEXT(bath_temperature),bath_temperature,bath_temperature&" "&typed_degree)))', "text"),
        step("w_degree", "Brine temperature, °C",
             'IF({bath_degree}="",IF(ISTEXT(bath_celsius),SQRT(-1),bath_celsius),IF(ISNUMBER({bath_degree}),IF(typed_units="US",({bath_degree}-32)/1.8,{bath_degree}),'
             'IFERROR(BRINE_UNIT({bath_degree},"","°C"),IFERROR(BRINE_UNIT({bath_degree},typed_degree,"°C"),{bath_degree}))))', "temperature")._replace(why=of_start),
    ]  # fmt: skip


def hours() -> Field:
    """The hours one has, where they count. So few that they can only be a time of day are refused."""
    unused = f'OR({{hours}}="",{INJECTED},AND({GRADIENT},{{strength}}<>""))'
    number = f"IF(OR({{hours}}<{LEAST_HOURS:g},{_dated('hours')}),SQRT(-1),{{hours}})"
    text = 'IFERROR(BRINE_UNIT({hours},"","h"),BRINE_UNIT({hours},"h","h"))'
    made = step("w_hours", "Hours I have, h", f'IF({unused},"",IF(ISNUMBER({{hours}}),{number},{text}))', "hours")
    few = got(SHORT_HOURS.format(least=LEAST_HOURS), "hours")
    words = where_installed(got("Hours I have must be a number of hours|; type 4 for four hours", "hours"))
    return made._replace(
        why=f"IF({_dated('hours')},{_was_fraction('Hours I have')},IF(ISNUMBER({{hours}}),{few},{words}))"
    )


def ratio() -> Field:
    """Water per product, where there is a bath."""
    number = f"IF({settings.within('{ratio}', settings.RATIO)},{{ratio}},SQRT(-1))"
    of_start = f"IF({settings.RATIO_HOLDS},bath_ratio,SQRT(-1))"
    made = step("w_ratio", "Water per product", f'IF({NO_BATH},1,IF({{ratio}}="",{of_start},{number}))')
    low, high = settings.RATIO
    own = got(f"Water per product must be a plain number from {low:g} to {high:g} such as 1", "ratio")
    return made._replace(why=f'IF({{ratio}}="",{settings.WRONG_RATIO},{own})')


def remaining() -> List[Field]:
    """Rest, portion, vessel, and when it must be ready."""
    return [
        _rest(),
        _amount("w_portion", "Portion, g", "portion", "portion_in_g"),
        _amount("w_vessel", "Vessel, mL", "vessel", "volume_in_ml"),
        _ready(),
    ]


def _rest() -> Field:
    """Hours of rest; no date."""
    number = f"IF({_dated('rest')},SQRT(-1),{{rest}})"
    of_start = f'IF(rest_hours="",0,IF({settings.within("rest_hours", settings.REST)},rest_hours,SQRT(-1)))'
    made = typed("w_rest", "Rest, h", "rest", number, of_start, "hours", "Rest must be a plain number of hours")
    label, plain = "Rest after the soak, hours", "a plain number of hours"
    words = settings.refusal("rest_hours", label, settings.REST, plain, "type 2 for two hours")
    return made._replace(why=f'IF({_dated("rest")},{_was_fraction("Rest")},IF({{rest}}="",{words},{made.why}))')


def _ready() -> Field:
    """When it must be ready, to the minute; a number that is no day of this century is no date."""
    within = f"AND({{ready}}>{DATES[0]},{{ready}}<{DATES[1]})"
    field = typed(
        "w_ready", "Ready", "ready", f"IF({within},{frame.minute('{ready}')},SQRT(-1))", '""', "moment", MOMENT
    )
    bare = "IF(ISNUMBER({ready}),AND({ready}>0,{ready}<1),FALSE)"
    return field._replace(why=f'IF({bare},"{DAYLESS}",IF(ISTEXT({{ready}}),{TEXT_MOMENT},{field.why}))')
