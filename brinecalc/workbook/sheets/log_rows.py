"""The rows of the log: what is typed of a reading, how it is read, what comes of it, and what it says.

One idea: every row stands on its own. Each figure is checked before it is used, what cannot be used is left out with a
sentence, and a warm brine and a doubtful reading are both said. So is a row out of order of time: of those that
contradict each other, the one against most others goes, and the rest are put in order before they are reckoned with.
"""

from __future__ import annotations

import math
from typing import List, Tuple

from openpyxl.styles import Alignment
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.science import solution
from brinecalc.workbook import frame, styles
from brinecalc.workbook.agreed import where_installed
from brinecalc.workbook.chosen import Chosen
from brinecalc.workbook.frame import Field
from brinecalc.workbook.sheets import log_done, log_warm

INSTRUMENT = "log_instrument"
PUT_IN = "log_put_in"

FIRST = 14
READINGS = 20
LAST = FIRST + READINGS - 1
BESIDE = 20
TABLE = BESIDE + 3
SHOWS = (
    ("salt meter", "%", "5.4 where it shows 5.4 %"),
    ("conductivity", "mS/cm", "mS/cm, such as 80.5"),
    ("salometer", "degrees", "degrees, such as 20"),
    ("salometer 38F", "degrees", "degrees, such as 20"),
    ("hydrometer", "sg", "sg, such as 1.035"),
    ("baume", "degrees", "degrees, such as 5.2"),
    ("refractive index", "", "index, such as 1.342"),
    ("brix", "degrees", "degrees, such as 6.3"),
)
"""What each instrument shows: its unit, and an example of what to type."""

SEES = 0.011
"""Share of a reading below which a kitchen meter sees no difference: a repetition to half a per cent and a meter that is
out by one, taken together, as the forecast has them: a judgement. Logs of one bath by two meters would settle it."""

STEPS = (
    ("salt meter", 0.001, 0.0),
    ("conductivity", 0.1, 0.0),
    ("salometer", 1.0, 0.0),
    ("salometer 38F", 1.0, 0.0),
    ("hydrometer", 0.001, 1.0),
    ("baume", 0.1, 0.0),
    ("refractive index", 0.0001, 1.333),
    ("brix", 0.1, 0.0),
)
"""The step of each instrument's scale or display, and what it shows in plain water: a judgement of what kitchens use; the
instrument at hand would settle it. A salt meter's is of the solution, as a share."""

MORE = 1.25
"""A bath does not gain salt: what reads so many times what it began with has been typed wrongly."""


def by_instrument(pairs: List[Tuple[str, str]]) -> str:
    """A formula that gives each instrument its words."""
    made = '""'
    for name, words in reversed(pairs):
        made = f'IF({INSTRUMENT}="{name}","{words}",{made})'
    return made


def figures(of: int) -> str:
    """A formula for the step of the instrument's scale (1), or for what it shows in plain water (2)."""
    made = "0"
    for line in reversed(STEPS):
        made = f'IF({INSTRUMENT}="{line[0]}",{line[of]:g},{made})'
    return made


WANTED = '=IF({gradient}=1,"% of product, "&ROUND(100*{goal}+1E-9,2)&" wanted","% of the product")'
"""A formula for what the salt taken up is of, and how much of it was still wanted when it went in."""


def _columns() -> List[Tuple[str, str, str, str, str]]:
    """Key, heading, unit, form and formula of each column of the page; no formula: an input."""
    shown = 'IF({at_value}="?","?",IF(ISNUMBER({at_value}),ROUND(IF({unit}="%",100,1)*{at_value}+1E-9,4)&" "&{unit},{at_value}))'
    return [
        ("at_number", "No.", "", "count", "=ROW()-13"),
        ("at_moment", "When", "date and time", "typed moment", ""),
        ("at_reading", "Reading, as it shows", "={typed}", "plain", ""),
        ("at_degree", "Temperature of the brine", "=typed_degree", "temperature", ""),
        ("at_as", "Read as", "", "text", f"={shown}"),
        ("at_holds", "Bath holds", "% of the water", "fine_share", '=IF(ISERROR({at_tried}),"",{at_tried})'),
        ("at_expected", "It should hold", "% of the water", "fine_share", _expected("typical")),
        ("at_hours", "In the brine", "h", "hours",
         '=IF(OR({wet}=0,{at_moment}=""),"",IF({begun}="","",IF(ISNUMBER({at_moment}),IF({at_moment}<1,"",({at_moment}-{begun})*24),"")))'),
        ("at_taken", "Salt taken up", WANTED, "fine_share",
         '=IF({at_minutes}="","",BRINE_ABSORBED({edible},{water},{strength},{at_holds}))'),
        ("at_says", "Says", "", "text",
         '={at_warm}&IF(OR({at_warm}="",{at_said}=""),""," ")&{at_said}&IF({at_target}="",""," ")&{at_target}'),
    ]  # fmt: skip


_ASKED = f'{{at_value}},{INSTRUMENT},{{at_celsius}},"water",{{sugar}}'
"""The arguments with which a reading is turned into a strength."""

_ASKED_WHY = (
    f'IF(AND(ISNUMBER({{at_value}}),{{unit}}="%"),ROUND(100*{{at_value}}+1E-9,4)&"%",{{at_value}}),{INSTRUMENT},'
    'IF(ISNUMBER({at_degree}),{at_degree}&" "&typed_degree,{at_celsius}),"water",{sugar}'
)
"""The same as they were typed, so that a refusal repeats them so."""


def _expected(estimate: str) -> str:
    """What the bath should hold by then; the strength it began with before anything went in."""
    call = (
        "BRINE_BATH_STRENGTH({product},{size},{at_hours},{strength},{ratio},{degree},{shape},{treatment},"
        f'"{estimate}",{{native}})'
    )
    return f'=IF({{at_hours}}="","",IF({{at_hours}}>{{longest}},"",IF({{at_hours}}<=0,{{strength}},{call})))'


def _value() -> str:
    """The reading as BRINE_METER takes it. A salt meter's 5.4 and 5.4% are the same; "?" where it could be either.

    A number that no brine can hold as a share is the per cent that the meter shows. A smaller one was typed with its
    per cent sign, unless the bath would then hold more than it began with. Text that ends in a figure ("4,6", "6 1/3") gets the
    per cent sign, which the function reads alike in every country's settings.
    """
    share_already = 'OR(LEFT(TRIM({at_reading}),2)="0,",LEFT(TRIM({at_reading}),2)="0.")'
    comma = (
        f'IF(ISNUMBER(FIND(RIGHT(TRIM({{at_reading}}),1),"0123456789½⅓⅔¼¾⅛⅜⅝⅞")),IF({share_already},{{at_reading}},'
        '{at_reading}&"%"),{at_reading})'
    )
    strongest = math.ceil(1000.0 * solution.saturation()) / 1000.0
    share = f'IF(ABS({{at_reading}})>{strongest:g},{{at_reading}}/100,IF({{at_reading}}>{MORE}*{{began}},"?",{{at_reading}}))'
    return (
        f'=IF(OR({{wet}}=0,{{at_reading}}=""),"",IF({INSTRUMENT}<>"salt meter",{{at_reading}},'
        f"IF(ISNUMBER({{at_reading}}),{share},{comma})))"
    )


def _first(cases: List[Tuple[str, str]], otherwise: str) -> str:
    """A formula for the words of the first case that holds."""
    for case, words in reversed(cases):
        otherwise = f"IF({case},{words},{otherwise})"
    return otherwise


def _unusable() -> List[Tuple[str, str]]:
    """Why a row has nothing to say, or a reading that is of no use, and what to type instead."""
    why = f'BRINE_WHY("METER",{_ASKED_WHY})'
    refused = f'"Left out. The "&MID({why},FIND(": ",{why})+2,400)'
    doubtful = (
        '"Left out. "&ROUND(100*{at_reading}+1E-9,2)&" % is more than the bath began with. If the meter shows "&{at_reading}&'
        '", type "&{at_reading}&"%."'
    )
    return [
        ('AND({at_moment}="",{at_reading}="",{at_degree}="")', '""'),
        ("{usable}=0", '"Not reckoned."'),
        ("{wet}=0", '"No brine to read in this batch."'),
        ('AND({at_reading}="",{at_degree}="")', '"No reading yet."'),
        ("{at_unread}=1", '""'),
        ('{at_value}="?"', doubtful),
        (
            "IF(ISNUMBER({at_value}),IF({at_value}<=0,TRUE,FALSE),FALSE)",
            '"Left out. A reading is above 0, and "&{at_as}&" was typed."',
        ),
        ("ISERROR({at_tried})", where_installed(refused)),
    ]


def _untimed() -> List[Tuple[str, str]]:
    """Why the time of a reading is of no use, and what to type instead."""
    put_in = (
        f'IF({PUT_IN}="","Left out. When did the product go in?",IF(ISNUMBER({PUT_IN}),'
        '"Left out. The date is missing under Put in at; type 2026-12-04 05:00.",'
        '"Left out. Put in at must be a date and a time, such as 2026-12-04 05:00."))'
    )
    order = '"Left out. Rows run in order of time: move it to its place, or mend When."'
    year = '"Left out. Months from when it went in: is its year, "&YEAR({at_moment})&", right?"'
    return [
        ('{at_moment}=""', '"Left out. When was it read?"'),
        (
            "NOT(ISNUMBER({at_moment}))",
            '"Left out. When must be a date and a time, such as 2026-12-04 17:30."',
        ),
        ("{at_moment}<1", '"Left out. The date is missing; type 2026-12-04 14:00."'),
        ('{at_hours}=""', put_in),
        (f"ABS({{at_hours}})>{MONTHS}", year),
        ("{at_hours}<0", '"Left out. Read before the product went in."'),
        ('OR({at_out}=1,{at_clock}="")', order),
        ('{at_reading}=""', '"No reading yet."'),
        ("{at_out}=2", '"Left out. A row above has the same time."'),
    ]


def _said() -> str:
    """What the reading says: why it is of no use, or how it stands to what was planned; a bath that freshens gains salt."""
    beyond_fast = (
        'IF({toward}=1,"Lower than fast: read again. Has water come in?","Higher than fast: stir, read again.")'
    )
    compared = [
        ('OR({at_hours}=0,{at_fast}="")', '"Used."'),
        (
            "ABS({at_holds}-{at_expected})<={at_within}",
            '"In the range, as planned: a meter sees no difference."',
        ),
        ("({at_fast}-{at_holds})*{toward}>{at_within}", beyond_fast),
        (
            "({at_holds}-{at_slow})*{toward}>{at_within}",
            'IF({toward}=1,"Higher","Lower")&" than slow: stir, read again."',
        ),
        ("({at_expected}-{at_holds})*{toward}>0", '"In the range, faster than planned."'),
    ]
    return "=" + _first([*_unusable(), *_untimed(), *compared], '"In the range, slower than planned."')


def _celsius() -> str:
    """The temperature as it was typed, in °C; text is read where it can be."""
    text = 'IFERROR(BRINE_UNIT({at_degree},"","°C"),IFERROR(BRINE_UNIT({at_degree},typed_degree,"°C"),""))'
    number = 'IF(typed_units="US",({at_degree}-32)/1.8,{at_degree})'
    return f'=IF(ISNUMBER({{at_degree}}),{number},IF({{at_degree}}="","",{text}))'


def helpers() -> List[Tuple[str, str, str, str]]:
    """Key, heading, form and formula of the columns beside the page."""
    return [
        ("at_unread", "Temperature not a number", "count", '=IF({at_degree}="",0,IF(ISNUMBER({at_celsius}),0,1))'),
        ("at_celsius", "Brine, °C", "temperature", _celsius()),
        ("at_value", "Reading, share or as it is", "0.0000", _value()),
        ("at_warm", "The temperature says", "text", log_warm.row_says()),
        ("at_said", "The reading says", "text", _said()),
        ("at_fast", "If fast", "fine_share", _expected("fast")),
        ("at_slow", "If slow", "fine_share", _expected("slow")),
        ("at_used", "Used, in all", "count",
         '={before}+IF({at_rank}="",0,1)'),
        ("used_hours", "Hours, used", "hours", '=IF({line}>{count},"",INDEX({at_hours:all},MATCH({line},{at_rank:all},0)))'),
        ("used_holds", "Bath, used", "fine_share", '=IF({line}>{count},"",INDEX({at_holds:all},MATCH({line},{at_rank:all},0)))'),
        ("drawn_hours", "Hours, drawn", "hours", '=IF({line}>{count},{last_hours},{used_hours})'),
        ("drawn_taken", "Taken up, drawn", "fine_share", '=IF({line}>{count},{last_taken},INDEX({at_taken:all},MATCH({line},{at_rank:all},0)))'),
        ("at_tried", "Bath, as read", "fine_share",
         f'=IF(OR({{at_value}}="",{{at_value}}="?",{{at_unread}}=1),"",BRINE_METER({_ASKED}))'),
        *_in_time(),
        ("at_amiss", "Off, of a reading used", "0.0000",
         '=IF({at_rank}="",0,IF(ISNUMBER({at_expected}),{at_off},0))'),
        *log_warm.columns(MONTHS, f"at_left_{PASSES}"),
        *log_done.columns(),
    ]  # fmt: skip


MONTHS = 4320
"""Hours from which a reading is of another year: nothing lies in a brine for half a year."""

PASSES = 2
"""Rows out of order of time that are found; where there are more, the next are found once these are mended."""


def _in_time() -> List[Tuple[str, str, str, str]]:
    """Which readings stand in order of time, and the turn of each that is used; what a meter can tell apart.

    Of rows that contradict each other, that which contradicts most goes; of two, that which is farther from what the
    bath should hold by its time. Times are compared in whole minutes: a criterion in words goes by fifteen digits.
    """
    usable = "IF(ISNUMBER({at_holds}),IF(ISNUMBER({at_hours}),IF(AND({at_hours}>=0,{at_hours}<=@),1,0),0),0)".replace(
        "@", str(MONTHS)
    )
    off = "IF(ISNUMBER({at_expected}),MIN(1,ABS({at_holds}-{at_expected})),1)"
    meter = "(1+{at_holds})*(1+{at_holds})*{step}/2"
    other = "IF(ISNUMBER({at_value}),IF({at_value}>{zero},{at_holds}*{step}/2/({at_value}-{zero}),0),0)"
    within = f'=IF({{at_holds}}="","",MAX({SEES}*{{at_holds}},IF({INSTRUMENT}="salt meter",{meter},{other})))'
    made = [
        ("at_minutes", "Minutes, if it can be used", "0", f'=IF({usable}=1,{log_warm.MINUTES},"")'),
        (
            "at_left_0",
            "But for a time given twice",
            "0",
            '=IF({at_minutes}="","",IF({at_minutes:same}=0,{at_minutes},""))',
        ),
        ("at_off", "Off what it should hold", "0.0000", f'=IF({{at_minutes}}="",0,{off})'),
    ]
    for number in range(PASSES):
        left, doubt = f"at_left_{number}", f"at_doubt_{number}"
        against = f"({{{left}:later}}+{{{left}:earlier}})"
        kept = f'=IF({{{left}}}="","",IF({{{doubt}}}=0,{{{left}}},IF({{{doubt}}}=MAX({{{doubt}:all}}),"",{{{left}}})))'
        made += [
            (
                doubt,
                "Rows against its time, and how far off",
                "0.00",
                f'=IF({{{left}}}="",0,IF({against}=0,0,10*{against}+{{at_off}}))',
            ),
            (f"at_left_{number + 1}", "Minutes that are left", "0", kept),
        ]
    last = f"at_left_{PASSES}"
    return [
        *made,
        ("at_out", "Left out: 1 out of order, 2 twice", "count",
         f'=IF({{at_minutes}}="",0,IF({{at_left_0}}="",2,IF({{{last}}}="",1,0)))'),
        ("at_rank", "Turn", "count", f'=IF({{{last}}}="","",1+COUNTIF({{{last}:all}},"<"&{{{last}}}))'),
        ("at_within", "A meter sees no less", "fine_share", within),
    ]  # fmt: skip


def logged(key: str) -> str:
    """The cells of a column beside the page."""
    letter = get_column_letter(TABLE + [name for name, *_ in helpers()].index(key))
    return f"${letter}${FIRST}:${letter}${LAST}"


def shown(key: str) -> str:
    """The cells of a column of the page."""
    letter = get_column_letter(1 + [name for name, *_ in _columns()].index(key))
    return f"${letter}${FIRST}:${letter}${LAST}"


def readings(sheet: Worksheet, chosen: Chosen) -> None:
    """The rows to fill in, what comes of each, and the columns beside the page."""
    columns, beside = _columns(), helpers()
    letters = {key: get_column_letter(number) for number, (key, *_) in enumerate(columns, 1)}
    letters.update({key: get_column_letter(number) for number, (key, *_) in enumerate(beside, TABLE)})
    fields = {
        "at_moment": Field("", "When", help="Date and time of the reading, such as 2026-12-04 17:30."),
        "at_reading": Field("", "Reading", help="The figure as the instrument shows it. A salt meter's 5.4 % is 5.4 "
                            "(5.4% is read the same). Degrees on a salometer, 1.035 on a hydrometer, mS/cm. Beside it "
                            "stands how it was read."),
        "at_degree": Field("", "Temperature", help="Of the brine, as a plain number. Blank: as the instrument is made "
                           "for, or one that corrects itself."),
    }  # fmt: skip
    for key, heading, unit, _, _ in columns:
        styles.put(sheet, f"{letters[key]}{FIRST - 2}", heading, "heading")
        styles.put(sheet, f"{letters[key]}{FIRST - 1}", chosen.fill(unit) or None, "unit")
        if key in fields:
            frame.validate(sheet, fields[key], f"{letters[key]}{FIRST}:{letters[key]}{LAST}")
    for key, heading, _, _ in beside:
        styles.put(sheet, f"{letters[key]}{FIRST - 1}", heading, "heading")
    forms = [(key, form, formula) for key, _, _, form, formula in columns]
    forms += [(key, form, formula) for key, _, form, formula in beside]
    for row in range(FIRST, LAST + 1):
        names = _names(letters, row)
        for key, form, formula in forms:
            placed = formula
            for name, cell in names.items():
                placed = placed.replace("{" + name + "}", cell)
            value = chosen.fill(placed) if placed else None
            styles.put(sheet, f"{letters[key]}{row}", value, "cell" if formula else "input", form)
        sheet[f"{letters['at_says']}{row}"].alignment = Alignment("left", "center", indent=1, wrap_text=True)
        sheet[f"{letters['at_says']}{row}"].font = styles.font(9)
        sheet[f"{letters['at_as']}{row}"].alignment = Alignment("right", "center")
        sheet[f"{letters['at_number']}{row}"].alignment = Alignment("center", "center")
        sheet.row_dimensions[row].height = 21


def _names(letters: dict[str, str], row: int) -> dict[str, str]:
    """The cells that a row's formulas name."""
    names = {key: f"${letter}{row}" for key, letter in letters.items()}
    names["line"] = str(row - FIRST + 1)
    names["before"] = "0" if row == FIRST else f"${letters['at_used']}{row - 1}"
    names["last_hours"] = "0" if row == FIRST else f"${letters['drawn_hours']}{row - 1}"
    names["last_taken"] = "0" if row == FIRST else f"${letters['drawn_taken']}{row - 1}"
    kept, minutes = letters[f"at_left_{PASSES}"], log_warm.MINUTES.replace("{at_hours}", names["at_hours"])
    earlier = "0" if row == FIRST else f'COUNTIF(${kept}${FIRST}:${kept}{row - 1},">"&{minutes})'
    later = "0" if row == LAST else f'COUNTIF(${kept}{row + 1}:${kept}${LAST},"<"&{minutes})'
    names["against"] = f"{earlier}+{later}"
    for key, letter in letters.items():
        mine = f"${letter}{row}"
        above, below = f"${letter}${FIRST}:${letter}{row - 1}", f"${letter}{row + 1}:${letter}${LAST}"
        names[f"{key}:all"] = f"${letter}${FIRST}:${letter}${LAST}"
        names[f"{key}:later"] = "0" if row == FIRST else f'COUNTIF({above},">"&{mine})'
        names[f"{key}:same"] = "0" if row == FIRST else f"COUNTIF({above},{mine})"
        names[f"{key}:earlier"] = "0" if row == LAST else f'COUNTIF({below},"<"&{mine})'
    return names
