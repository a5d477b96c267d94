"""The log: readings of one batch as they come in, what they mean, and when the batch will be done.

One idea: a reading is turned into what the bath holds for each weight of water, whatever it was read on; compared with
what it should hold by then it tells whether salt moves faster or slower than planned, and all of them together give a
new finishing time. A reading that cannot be used is left out and says why; it never spoils the others.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.styles import Alignment
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc import registry
from brinecalc.trade import limits
from brinecalc.workbook import frame, plots, styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.chosen import Chosen, choose
from brinecalc.workbook.frame import Field
from brinecalc.workbook.page import FIGURE, LABEL, PLAIN, SMALL, WORDS, Look, margins, span
from brinecalc.workbook.plots import Line
from brinecalc.workbook.sheets.card_lists import COLD, degrees

SHEET = "Log"
NAME = "log_batch"
INSTRUMENT = "log_instrument"
PUT_IN = "log_put_in"

FIRST = 14
READING_FORM = "[<1]0.00%;0.0###"
"""Per cent as a salt meter shows it; degrees, specific gravity and mS/cm, which are above 1, as they are."""
READINGS = 24
LAST = FIRST + READINGS - 1
BESIDE = 18
TABLE = BESIDE + 3
MOMENTS = 13
NOTABLE = 0.02
"""Thinning of a bath that is worth a word; less is within what a meter is out by."""

_TYPED = Look(size=10, paint="input")


def write(book: Book, sheet: Worksheet) -> None:
    """The choice, the forecast, the readings, the chart."""
    widths = (4.5, 17, 10, 11, 10, 10, 8, 10, 44, 2)
    for number, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(number)].width = width
    styles.put(sheet, "A1", "Log", "title")
    span(sheet, "F1:G1", "Batch no.", PLAIN._replace(align="right", indent=1))
    choose(book, sheet, "H1", NAME, 14)
    _choices(book, sheet)
    chosen = _behind(book, sheet)
    span(sheet, "A2:I2", chosen.fill(_headline()), PLAIN._replace(size=12, bold=True))
    span(sheet, "A3:I3", chosen.fill(_words()), WORDS._replace(line=None, indent=0, vertical="top"))
    _readings(sheet, chosen)
    _forecast(sheet, chosen)
    _chart(sheet, chosen)
    heights = {1: 24, 2: 18, 3: 26, 4: 4, 5: 13, 6: 18, 7: 4, 8: 24, 9: 24, 10: 13, 11: 4, 12: 36, 13: 24}
    for number in range(11, 18):
        sheet.column_dimensions[get_column_letter(number)].width = 9.4
    for row, height in heights.items():
        sheet.row_dimensions[row].height = height
    sheet.freeze_panes = f"A{FIRST}"
    sheet.print_area = f"A1:Q{LAST}"
    margins(sheet, "landscape")


def _choices(book: Book, sheet: Worksheet) -> None:
    """What all readings share: the instrument, and when the product really went in."""
    instruments = next(a for a in registry.spec("BRINE_METER").arguments if a.name == "instrument").choices
    fields = (
        ("B5:D5", "B6:D6", INSTRUMENT, Field("", "Read on", choices='"' + ",".join(instruments) + '"',
         help="What the readings are taken with. It decides what the numbers under Reading mean.")),
        ("E5:H5", "E6:H6", PUT_IN, Field("", "Put in at, if not as planned", form="moment",
         help="Date and time, such as 2026-12-04 17:30. Blank: as the plan has it.")),
    )  # fmt: skip
    for label, cells, name, field in fields:
        corner = cells.split(":")[0]
        span(sheet, label, field.heading, LABEL)
        span(sheet, cells, None, _TYPED._replace(align="center"), field.form)
        book.name(name, SHEET, f"${corner[0]}${corner[1:]}")
        frame.validate(sheet, field, corner)
    book.set(INSTRUMENT, "salt meter")


def _behind(book: Book, sheet: Worksheet) -> Chosen:
    """The block of cells about the batch."""
    chosen = Chosen(book, sheet, NAME, BESIDE)
    chosen.add_soak()
    hours, warm = limits.value("warm hours"), limits.value("brine temperature")
    chosen.add("longest", "Longest time that may be asked for, h",
               f"IF(AND({{perishable}}=1,{{degree}}>{warm:g}),{hours:g},100000)", "hours")  # fmt: skip
    chosen.always("gradient", "Can be forecast (1 yes)", '=IF({usable}=0,0,IF({method}="gradient",1,0))', "count")
    chosen.add("edible", "Edible, g", "[w_edible]", "0")
    chosen.add("water", "Water, g", "[w_water]", "0")
    chosen.add_sugar()
    chosen.add("begun", "Went in", f'IF({PUT_IN}="",{{put_in}},{PUT_IN})', "moment")
    chosen.always("cold", "Cold", f"={degrees(COLD)}", "text")
    chosen.always("warm", "Too warm", f"={degrees(warm)}", "text")
    return chosen


def _headline() -> str:
    what = '[batch]&"   "&{product}&IF([label]="","",", for "&[label])'
    return f'=IF({{usable}}=0,IF({{on}}=0,"No batch","Do not start"),{what})'


def _words() -> str:
    """What to do here, or why this batch has nothing to log."""
    fill = '"Type when, what it shows and how warm it is; the first blank row is ready. Stir before you read."'
    even = (
        '"An equilibrium batch: compare the readings; there is no forecast, since it is done when they no longer fall, '
        'and longer does not make it saltier."'
    )
    other = '"No bath to read: "&{method}&". Write temperatures on the card; this log is for gradient batches."'
    unknown = '"No ready time on Plan: type above when it went in, so that hours can be counted."'
    return (
        f'=IF({{usable}}=0,{{message}},IF({{wet}}=0,{other},IF({{begun}}="",{unknown},'
        f"IF({{gradient}}=1,{fill},{even}))))"
    )


def _columns() -> List[Tuple[str, str, str, str, str]]:
    """Key, heading, unit, form and formula of each column of the page; no formula: an input."""
    celsius = 'IF({at_degree}="","",IF(typed_units="US",({at_degree}-32)/1.8,{at_degree}))'
    return [
        ("at_number", "No.", "", "count", "=ROW()-13"),
        ("at_moment", "When", "date and time", "moment", ""),
        ("at_reading", "Reading", "as it shows", READING_FORM, ""),
        ("at_degree", "Temperature of the brine", "=typed_degree", "temperature", ""),
        ("at_holds", "Bath holds", "% of the water", "fine_share",
         f'=IF(OR({{wet}}=0,{{at_reading}}=""),"",BRINE_METER({{at_reading}},{INSTRUMENT},{celsius},"water",{{sugar}}))'),
        ("at_expected", "It should hold", "% of the water", "fine_share", _expected("typical")),
        ("at_hours", "In the brine", "h", "hours",
         '=IF(OR({wet}=0,{at_moment}=""),"",IF({begun}="","",({at_moment}-{begun})*24))'),
        ("at_taken", "Salt taken up", "% of the product", "fine_share",
         '=IF(ISERROR({at_holds}),"",IF({at_holds}="","",BRINE_ABSORBED({edible},{water},{strength},{at_holds})))'),
        ("at_says", "Says", "", "text", _says(celsius)),
    ]  # fmt: skip


def _expected(estimate: str) -> str:
    """What the bath should hold by then; the strength it began with before anything went in."""
    call = (
        "BRINE_BATH_STRENGTH({product},{size},{at_hours},{strength},{ratio},{degree},{shape},{treatment},"
        f'"{estimate}",{{native}})'
    )
    return f'=IF({{at_hours}}="","",IF({{at_hours}}>{{longest}},"",IF({{at_hours}}<=0,{{strength}},{call})))'


def _says(celsius: str) -> str:
    """The first thing worth saying about a reading."""
    hours = limits.value("warm hours")
    why = f'"Left out. "&BRINE_WHY("METER",{{at_reading}},{INSTRUMENT},{celsius},"water",{{sugar}})'

    def above(limit: float, words: str) -> str:
        return f'IF(AND({{perishable}}=1,{{at_degree}}<>"",{{at_celsius}}>{limit:g}),{words},'

    return (
        '=IF(AND({at_moment}="",{at_reading}="",{at_degree}=""),"",IF({usable}=0,"Not reckoned.",IF({wet}=0,"No bath to read in this batch.",'
        + above(
            limits.value("brine temperature"), f'"Above "&{{warm}}&": chill now; over {hours:g} h in all: discard."'
        )
        + above(COLD, '"Above "&{cold}&": chill at once."')
        + f'IF({{at_reading}}="","No reading yet.",IF(ISERROR({{at_holds}}),{why},'
        'IF({at_hours}="","Left out. When was it read?",IF({at_hours}<0,"Left out. Read before the product went in.",'
        'IF(OR({at_hours}=0,{at_fast}=""),"Used.",'
        'IF({at_holds}<{at_fast},"Lower than fast: read again. Has water come in?",'
        'IF({at_holds}>{at_slow},"Higher than slow: stir, read again.",'
        'IF({at_holds}<{at_expected},"In the range, faster than planned.","In the range, slower than planned.")))))))))))))'
    )


def _helpers() -> List[Tuple[str, str, str, str]]:
    """Key, heading, form and formula of the columns beside the page."""
    return [
        ("at_celsius", "Brine, °C", "temperature",
         '=IF({at_degree}="",0,IF(typed_units="US",({at_degree}-32)/1.8,{at_degree}))'),
        ("at_fast", "If fast", "fine_share", _expected("fast")),
        ("at_slow", "If slow", "fine_share", _expected("slow")),
        ("at_used", "Used, in all", "count",
         "={before}+IF(ISNUMBER({at_holds}),IF(ISNUMBER({at_hours}),IF({at_hours}>=0,1,0),0),0)"),
        ("used_hours", "Hours, used", "hours", '=IF({line}>{count},"",INDEX({hours:all},MATCH({line},{used:all},0)))'),
        ("used_holds", "Bath, used", "fine_share", '=IF({line}>{count},"",INDEX({holds:all},MATCH({line},{used:all},0)))'),
        ("drawn_hours", "Hours, drawn", "hours", '=IF({line}>{count},{last_hours},{used_hours})'),
        ("drawn_taken", "Taken up, drawn", "fine_share", '=IF({line}>{count},{last_taken},INDEX({taken:all},MATCH({line},{used:all},0)))'),
    ]  # fmt: skip


def _readings(sheet: Worksheet, chosen: Chosen) -> None:
    """The rows to fill in, what comes of each, and the columns beside the page."""
    columns, helpers = _columns(), _helpers()
    letters = {key: get_column_letter(number) for number, (key, *_) in enumerate(columns, 1)}
    letters.update({key: get_column_letter(number) for number, (key, *_) in enumerate(helpers, TABLE)})
    chosen.always("count", "Readings used", f"=${letters['at_used']}${LAST}", "count")
    fields = {
        "at_moment": Field("", "When", help="Date and time of the reading, such as 2026-12-04 17:30."),
        "at_reading": Field("", "Reading", help="As the instrument shows it: 5.2% on a salt meter, degrees on a "
                            "salometer, 1.035 on a hydrometer, mS/cm."),
        "at_degree": Field("", "Temperature", help="Of the brine. Blank: as the instrument is made for, or one that "
                           "corrects itself."),
    }  # fmt: skip
    for key, heading, unit, _, _ in columns:
        styles.put(sheet, f"{letters[key]}{FIRST - 2}", heading, "heading")
        styles.put(sheet, f"{letters[key]}{FIRST - 1}", unit or None, "unit")
        if key in fields:
            frame.validate(sheet, fields[key], f"{letters[key]}{FIRST}:{letters[key]}{LAST}")
    for key, heading, _, _ in helpers:
        styles.put(sheet, f"{letters[key]}{FIRST - 1}", heading, "heading")
    forms = [(key, form, formula) for key, _, _, form, formula in columns]
    forms += [(key, form, formula) for key, _, form, formula in helpers]
    for row in range(FIRST, LAST + 1):
        names = _names(letters, row)
        for key, form, formula in forms:
            placed = formula
            for name, cell in names.items():
                placed = placed.replace("{" + name + "}", cell)
            value = chosen.fill(placed) if placed else None
            styles.put(sheet, f"{letters[key]}{row}", value, "cell" if formula else "input", form)
        sheet[f"{letters['at_says']}{row}"].alignment = Alignment("left", "center", indent=1)
        sheet[f"{letters['at_number']}{row}"].alignment = Alignment("center", "center")
        sheet.row_dimensions[row].height = 17


def _names(letters: dict[str, str], row: int) -> dict[str, str]:
    """The cells that a row's formulas name."""
    names = {key: f"${letter}{row}" for key, letter in letters.items()}
    names["line"] = str(row - FIRST + 1)
    names["before"] = "0" if row == FIRST else f"${letters['at_used']}{row - 1}"
    names["last_hours"] = "0" if row == FIRST else f"${letters['drawn_hours']}{row - 1}"
    names["last_taken"] = "0" if row == FIRST else f"${letters['drawn_taken']}{row - 1}"
    for name, key in (("hours", "at_hours"), ("holds", "at_holds"), ("used", "at_used"), ("taken", "at_taken")):
        names[f"{name}:all"] = f"${letters[key]}${FIRST}:${letters[key]}${LAST}"
    return names


def _forecast(sheet: Worksheet, chosen: Chosen) -> None:
    """Hours to go with their range, and when that is."""
    first = TABLE + 4
    hours, holds = (f"${get_column_letter(first + n)}${FIRST}:${get_column_letter(first + n)}${LAST}" for n in (0, 1))
    last = f"MAX({hours})"
    arguments = f'{hours},{holds},{{product}},{{size}},{{target}},{{strength}},{{ratio}},"@",{{degree}},{{shape}},{{treatment}},{{native}}'
    for part, words, form in (("hours", "Hours to go", "hours"), ("fast", "At the soonest", "hours"),
                              ("slow", "At the latest", "hours"), ("diffusivity", "Diffusivity, m²/s", "0.0E+00"),
                              ("dilution", "Bath thinned by", "share"), ("doubtful", "Wrong reading", "count")):  # fmt: skip
        call = f"BRINE_FORECAST({arguments.replace('@', part)})"
        chosen.always(f"go_{part}", words, f'=IF({{gradient}}*{{count}}=0,"",{call})', form)
    chosen.always("last", "Last reading, h", f'=IF({{count}}=0,"",{last})', "hours")

    def moment(part: str) -> str:
        return f'=IF(ISNUMBER({{go_{part}}}),{{begun}}+({{last}}+{{go_{part}}})/24,"")'

    detail = (
        '=IF(ISNUMBER({go_hours}),"From "&ROUND({go_fast},1)&" to "&ROUND({go_slow},1)&" h; salt moves at "'
        '&ROUND({go_diffusivity}*10^10,1)&" × 10^-10 m²/s","")'
    )
    shown: Tuple[Tuple[str, str, str, str, float], ...] = (
        ("A8:B8", "Hours to go, from the last reading", '=IF({gradient}*{count}=0,"",{go_hours})', "0.0", 17),
        ("C8:D8", "Done at the soonest", moment("fast"), "ddd d mmm hh:mm", 11),
        ("E8:F8", "Done at", moment("hours"), "ddd d mmm hh:mm", 12),
        ("G8:H8", "Done at the latest", moment("slow"), "ddd d mmm hh:mm", 10),
        ("I8:I8", "Range of hours, and how fast salt moves here", detail, "plain", 10),
    )
    for cells, words, formula, form, size in shown:
        span(sheet, cells, words, LABEL)
        bold = size in (12, 17)
        span(sheet, cells.replace("8", "9"), chosen.fill(formula), FIGURE._replace(size=size, bold=bold), form)
    why = f'BRINE_WHY("FORECAST",{arguments.replace("@", "hours")})'
    used = f"${get_column_letter(first - 1)}${FIRST}:${get_column_letter(first - 1)}${LAST}"
    words = (
        f'=IF({{gradient}}=0,"",IF({{count}}=0,"No reading yet.",IF(ISERROR({{go_hours}}),{why},'
        f'IF({{go_doubtful}}>0,"Reading no. "&MATCH({{go_doubtful}},{used},0)&" is probably wrong. ","")'
        f'&IF({{go_dilution}}>={NOTABLE},"The bath looks thinned by "&ROUND({{go_dilution}}*100,0)&" %: ice, drip? ","")'
        '&"The more readings, and the later, the narrower the range.")))'
    )
    span(sheet, "A10:I10", chosen.fill(words), SMALL)


def _chart(sheet: Worksheet, chosen: Chosen) -> None:
    """Expected against read."""
    last = "IF({count}=0,0,{last})"
    end = f'IF({{wet}}=0,"",MIN({{longest}},1.05*MAX({{soak_slow}},{last})))'
    chosen.add("end", "Chart ends, h", end, "hours")
    column = TABLE + len(_helpers()) + 1
    letters = [get_column_letter(column + number) for number in range(5)]
    headings = ("Hours", "Typical", "Fast", "Slow", "Wanted")
    for letter, words in zip(letters, headings):
        styles.put(sheet, f"{letter}{FIRST - 1}", words, "heading")
    for number in range(MOMENTS):
        row = FIRST + number
        hours = f"${letters[0]}{row}"
        cells = [f"{{end}}*{number}/{MOMENTS - 1}"]
        cells += [f"{chosen.uptake(hours, e)}-{{native}}" if number else "0" for e in ("typical", "fast", "slow")]
        cells.append("{target}-{native}")
        for letter, value in zip(letters, cells):
            form = "hours" if letter == letters[0] else "fine_share"
            styles.put(sheet, f"{letter}{row}", chosen.fill(f'=IF({{wet}}=0,"",{value})'), "cell", form)
    across, typical, fast, slow, wanted = (f"${letter}${FIRST}:${letter}${FIRST + MOMENTS - 1}" for letter in letters)
    drawn = [f"${get_column_letter(TABLE + 6 + n)}${FIRST}:${get_column_letter(TABLE + 6 + n)}${LAST}" for n in (0, 1)]
    plots.scatter(sheet, "K5", "Expected against read", "Hours in the brine", "Salt taken up, of the product", (
        Line("Expected", across, typical, "solid"),
        Line("If fast", across, fast, "dash", None, styles.INK, 1.0),
        Line("If slow", across, slow, "sysDot", None, styles.QUIET, 1.5),
        Line("Still wanted when it went in", across, wanted, "lgDash", None, styles.QUIET, 1.0),
        Line("Read", drawn[0], drawn[1], "solid", "diamond", styles.INK, 0.75),
    ), (12.1, 13.5), across_form="0")  # fmt: skip
