"""The card: one page for the cook about one batch, to print, follow and write on.

One idea: the card shows only what may be worked from. A batch that fails or has a STOP says so in the largest type on
the page, and no figure that could be weighed out by mistake stands anywhere on it.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.formatting.rule import FormulaRule, Rule
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.styles.numbers import NumberFormat
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.trade import limits
from brinecalc.workbook import frame, styles
from brinecalc.workbook.agreed import AS_VALUES, where_installed
from brinecalc.workbook.book import Book
from brinecalc.workbook.chosen import Chosen, choose, minute
from brinecalc.workbook.page import BOX, FIGURE, HEAD, LABEL, PLAIN, SMALL, WORDS, Look, margins, span
from brinecalc.workbook.sheets import card_lists, card_said, card_steps, card_written
from brinecalc.workbook.sheets.card_lists import degrees
from brinecalc.workbook.sheets.steps import COLD

SHEET = "Card"
NAME = "card_batch"

COLUMNS = "ABCDEFGHIJKLMNOPQRST"
WIDTHS = (3.2, 5.7, 5.7, 5.7, 5.1, 5.8, 5.8, 1.2, 3.8, *(5.6,) * 9, 4.9, 4.9)
"""A box to tick, a name, a figure, its unit; a gap; a number, a step, its time of day."""

BESIDE = 22  # first column of what stands behind the page
TABLES = 25
STEP_SIZE = 12
"""Points of the steps: read at arm's length, with wet hands."""
FINDING_SIZE = 10
FINDING_LINES = 5
MORE_SIZE = 8
"""Points of what is counted below the word."""
LONGEST_LABEL = 60
"""Characters of what a batch is for that are shown."""


def write(book: Book, sheet: Worksheet) -> None:
    """The card, from its head to its foot, and what stands behind it."""
    for letter, width in zip(COLUMNS, WIDTHS):
        sheet.column_dimensions[letter].width = width
    sheet.column_dimensions["U"].width = 3
    choose(book, sheet, "R1:T2", NAME, 18)
    chosen = _behind(book, sheet)
    _head(sheet, chosen)
    _strip(sheet, chosen, 7)
    tall = book.options.paper == "A4"  # a Letter page is shorter; what it lacks comes off the lines, not off the type
    last = _work(sheet, chosen, 11, 31 if tall else 29)
    last = card_written.readings(sheet, chosen, last + 2, TABLES, 18 if tall else 17)
    last = card_written.checks(sheet, chosen, last + 2)
    sheet.print_area = f"A1:T{last}"
    margins(sheet, "portrait")


def _behind(book: Book, sheet: Worksheet) -> Chosen:
    """The block of cells about the batch."""
    chosen = Chosen(book, sheet, NAME, BESIDE)
    chosen.add_soak()
    chosen.add_sugar()
    card_lists.meter(chosen)
    for key in ("aroma_one", "aroma_two", "phosphate", "acid", "cure", "pieces", "label"):
        chosen.add(key, f"From the plan: {key.replace('_', ' ')}", f'[{key}]&""', "text")
    card_steps.sort(chosen)
    chosen.always("injected", "Injected (1 yes)", '=IF({method}="injected",1,0)', "count")
    chosen.always("dry", "Dry (1 yes)", '=IF({method}="dry equilibrium",1,0)', "count")
    chosen.add("short", "Taken out early (1 yes)", 'IF([x_short]="",0,1)', "count")
    typed = 'IF(AND([w_hours]<>"",OR({method}="equilibrium",{dry}=1)),1,0)'
    chosen.add("fixed", "Hours are typed (1 yes)", typed, "count")
    chosen.add("base", "Water, or instead", 'IF({liquid}="","water",{liquid})', "text")
    for key, words, form in (("salt", "Salt, g", "0.0"), ("ice", "Ice, g", "0.0"), ("edible", "Edible, g", "0"),
                             ("take_out", "Take out", "moment"), ("take_from", "Done at the soonest", "moment"),
                             ("take_to", "Done at the latest", "moment")):  # fmt: skip
        chosen.add(key, words, minute(f"[w_{key}]") if form == "moment" else f"[w_{key}]", form)
    chosen.add("ready", "Ready", minute("[ready]"), "moment")
    chosen.add("past", "Done at the latest after it (1 yes)", 'IF({ready}="",0,IF({take_to}>{ready},1,0))', "count")
    _weights(chosen)
    chosen.add("gain", "Gain in words", 'ROUND([w_gain]*100+1E-9,1)&" %"', "text")
    chosen.add(
        "bath_degree", "Brine in words", 'ROUND(IF(shown_units="US",{degree}*1.8+32,{degree})+1E-9,0)&" "&degree_word'
    )
    chosen.add("core", "Cook to", _core(), "text")
    chosen.add("ferment", "Sours by itself (1 yes)", "[c_ferment]", "count")
    chosen.add("open", "Its days are not typed (1 yes)", 'IF(AND({ferment}=1,[w_hours]=""),1,0)', "count")
    chosen.add("own", "What it sours in", 'IF({dry}=1,"juice","brine")', "text")
    for key, words in (("even_fast", "Rest until even if fast, h"), ("even_slow", "Rest until even if slow, h")):
        chosen.add(key, words, f"[w_{key}]", "hours")
    chosen.add("time", "Hours in words", frame.hours_in_words("{soak}"), "text")
    card_said.found(chosen)
    chosen.always("cold", "Cold", f"={degrees(COLD)}", "text")
    chosen.always("warm", "Too warm", f"={degrees(limits.value('brine temperature'))}", "text")
    chosen.always("lukewarm", "Lukewarm", '=IF(shown_units="US","85 to 105\u00a0°F","30 to 40\u00a0°C")', "text")
    return chosen


def _weights(chosen: Chosen) -> None:
    """What it weighs, in words."""
    chosen.add("bought", "Weighs as bought", 'ROUND([w_weight]/shown_mass_g+1E-9,2)&" "&mass_word', "text")
    chosen.add("flesh", "Of it edible", 'ROUND({edible}/shown_mass_g+1E-9,2)&" "&mass_word', "text")
    chosen.add("bone", "Waste in it (1 yes)", "IF({bought}={flesh},0,1)", "count")
    pumped = "[w_edible]*[w_gain]"
    chosen.add(
        "pumped", "Weighs when injected", f'ROUND(([w_weight]+{pumped})/shown_mass_g+1E-9,2)&" "&mass_word', "text"
    )
    chosen.add("taken_up", "Brine in it", f'ROUND({pumped}/shown_mass_g+1E-9,2)&" "&mass_word', "text")


_GROUP = "INDEX(list_group,[w_listed])"


def _core() -> str:
    """The core temperature that a rule asks for, where one does; those of the EU name none, so it says whose it is."""
    whose = '&IF(rules="EU"," (US rules)","")'
    poultry, needled = (degrees(limits.value(f"cook {what}"), True) + whose for what in ("poultry", "needled"))
    return f'IF({_GROUP}="poultry",{poultry},IF(OR({{injected}}=1,{{treatment}}="needled"),{needled},""))'


def _head(sheet: Worksheet, chosen: Chosen) -> None:
    """Kitchen, product, what for, and the worst finding."""
    strong = PLAIN._replace(bold=True)
    house = '=IF(kitchen="","",kitchen)&IF(prepared_by="","",IF(kitchen="","P",".  P")&"repared by "&prepared_by)'
    span(sheet, "A1:M1", house, PLAIN._replace(size=10))
    span(sheet, "N1:Q1", "Batch no.", SMALL._replace(align="right", indent=1))
    title = '=IF({on}=0,"No batch",IF({usable}=0,"STOP   ","")&[batch]&"   "&[product])'
    span(sheet, "A2:Q2", chosen.fill(title), strong._replace(size=22, colour=styles.DEEP))
    what = (
        'IF({pieces}="","",{pieces}&IF({pieces}="1"," piece, "," pieces, "))&'
        '{flesh}&" edible"&IF({bone}=1,", "&{bought}&" as bought","")&".  "&'
        f'{_method()}&IF({{treatment}}="none","",", "&{{treatment}})'
        '&", "&ROUND({target}*100+1E-9,2)&" % salt "&IF({method}="equilibrium","by weight.","on average.")'
        f'&IF({{label}}="","","  For "&IF(LEN({{label}})>{LONGEST_LABEL},LEFT({{label}},{LONGEST_LABEL - 1})&"…",{{label}}&"."))'
    )
    span(sheet, "A3:T3", chosen.when_usable(what), PLAIN._replace(size=11, shrink=True))
    word = 'IF({number}*{on}=0,"NO BATCH",IF({usable}=0,"DO NOT START",IF({says}="ok","OK",{says})))'
    span(
        sheet,
        "A5:G5",
        chosen.fill("=" + where_installed(word, "DO NOT START")),
        FIGURE._replace(size=20, line="medium", sides="left right top"),
    )
    beside = WORDS._replace(size=MORE_SIZE, line="medium", sides="left right bottom", vertical="top")
    span(sheet, "A6:G6", chosen.fill("=" + where_installed("{more}", "")), beside)
    span(
        sheet, "H5:T6", chosen.fill("=" + where_installed(_finding())), WORDS._replace(size=FINDING_SIZE, line="medium")
    )
    for row, height in ((1, 15), (2, 29), (3, 17), (4, 3), (5, 34), (6, 34)):
        sheet.row_dimensions[row].height = height
    for words, colour in (("DO NOT START", styles.STOP), ("CAUTION", styles.CAUTION), ("NOTE", styles.NOTE)):
        rule = FormulaRule(formula=[f'$A$5="{words}"'], fill=styles.fill(colour), stopIfTrue=True)
        sheet.conditional_formatting.add("A5:T6", rule)


def _method() -> str:
    """The method as a cook says it."""
    soaked = 'IF({fixed}=1,"Soak for "&{time},"Soak until it gets no saltier")'
    dry = 'IF({fixed}=1,"Dry salted for "&{time}&IF({short}=1,", not until even",""),"Dry salted until even")'
    timed = f'IF({{method}}="gradient","Timed soak",IF({{method}}="equilibrium",{soaked},IF({{injected}}=1,"Injected",{dry})))'
    return (
        f'IF({{ferment}}=1,"Left to sour in its "&{{own}}&IF({{open}}=1,", days not typed"," for "&{{time}}),{timed})'
    )


def _finding() -> str:
    """The worst finding as a plain sentence: the word for it stands beside it, and a function's name helps no cook."""
    return (
        'IF({number}*{on}=0,{message},IF({says}="ok","No finding. The cautions at the foot of the page hold for every batch.",'
        "UPPER(LEFT({cut},1))&MID({cut},2,600)))"
    )


def _strip(sheet: Worksheet, chosen: Chosen, row: int) -> None:
    """The moments of the batch: put in, done soonest, take out, done latest, ready."""
    hours = f'" (after "&{frame.hours_in_words("{soak}")}&")"'
    boxes: Tuple[Tuple[str, str], ...] = (
        ('IF({injected}=1,"Inject","Put in")', "put_in"),
        ('"Done at the soonest"', "take_from"),
        (f'IF({{ferment}}=1,"Into the cold","Take out")&IF({{injected}}+{{open}}>0,"",{hours})', "take_out"),
        ('"Done at the latest"', "take_to"),
        ('IF({rest}>0,"Ready (rest "&' + frame.hours_in_words("{rest}") + '&")","Ready")', "ready"),
    )
    for number, (label, key) in enumerate(boxes):
        left, right = COLUMNS[number * 4], COLUMNS[number * 4 + 3]
        estimate = ",{fixed}=1,{ferment}=1" if key in ("take_from", "take_to") else ""
        unknown = f'OR({{{key}}}="",{{open}}=1)' if key == "put_in" else f'{{{key}}}=""'
        none = f'OR({{{key}}}="",{{injected}}=1,{{open}}=1{estimate})' if key.startswith("take") else unknown
        value = f'IF({none},"—",{{{key}}})'
        span(sheet, f"{left}{row}:{right}{row}", chosen.when_usable(label), LABEL)
        strong = key in ("put_in", "take_out", "ready")
        figure = FIGURE._replace(bold=strong, line=None)
        span(sheet, f"{left}{row + 1}:{right}{row + 1}", chosen.when_usable(value), figure, "ddd hh:mm")
        date = SMALL._replace(align="center")
        span(sheet, f"{left}{row + 2}:{right}{row + 2}", chosen.when_usable(value), date, "d mmmm yyyy")
    for at, height in ((row, 13), (row + 1, 22), (row + 2, 11), (row + 3, 4)):
        sheet.row_dimensions[at].height = height


def _work(sheet: Worksheet, chosen: Chosen, row: int, height: float) -> int:
    """What to weigh, and beside it the steps."""
    span(sheet, f"A{row}:G{row}", "Weigh out, tick each line", HEAD)
    span(sheet, f"I{row}:T{row}", "Do in this order", HEAD)
    sheet.row_dimensions[row].height = 16
    weighed = card_lists.weighed(chosen, TABLES, 4)
    steps = card_steps.write(chosen, TABLES, 4 + len(card_lists.WEIGHED) + 3)
    for line in range(1, card_steps.MOST + 1):
        at = row + line
        sheet.row_dimensions[at].height = height
        if line <= len(card_lists.WEIGHED):
            _weigh_line(sheet, chosen, at, line, weighed)
        _step_line(sheet, chosen, at, line, steps)
    _cure_to_the_tenth(sheet, chosen, row + 1, row + len(card_lists.WEIGHED))
    _foot(sheet, chosen, row + len(card_lists.WEIGHED) + 1)
    return row + card_steps.MOST


def _weigh_line(sheet: Worksheet, chosen: Chosen, at: int, line: int, weighed: List[str]) -> None:
    """One ingredient with its box to tick; a line that is not used stays a dash."""
    count = f"INDEX({weighed[0]},{len(card_lists.WEIGHED)})"
    found = f"MATCH({line},{weighed[0]},0)"

    def show(column: int, other: str, refused: str = '""') -> str:
        shown = f"IF({line}>{count},{other},INDEX({weighed[column]},{found}))"
        return chosen.fill(f"=IF({{usable}}=0,{refused},{shown})")

    names = show(1, '"—"', '"Nothing to weigh out"' if line == 1 else '""')
    _line(sheet, at, names, show(2, '""'), show(3, '""'), BOX)


def _line(sheet: Worksheet, at: int, words: str, value: str, unit: str, tick: Look, size: float = 11) -> None:
    """A line of the left half: box, words, figure, unit."""
    span(sheet, f"A{at}", None, tick)
    span(sheet, f"B{at}:D{at}", words, WORDS._replace(size=size))
    figure = FIGURE._replace(size=17, align="right", sides="left top bottom")
    span(sheet, f"E{at}:F{at}", value, figure, card_lists.NUMBER_FORM)
    span(sheet, f"G{at}", unit, PLAIN._replace(size=11, line="thin", sides="right top bottom", indent=1))


def _cure_to_the_tenth(sheet: Worksheet, chosen: Chosen, first: int, last: int) -> None:
    """Curing salt is weighed to 0.1 g, so it is shown so as far as such scales go; of salt the gram is enough."""
    named = chosen.fill(f'AND({{cure}}<>"",$B{first}={{cure}},$E{first}<{card_lists.FINE_SCALE:g})')
    shown = DifferentialStyle(numFmt=NumberFormat(numFmtId=300, formatCode="#,##0.0"))
    sheet.conditional_formatting.add(f"E{first}:E{last}", Rule(type="expression", dxf=shown, formula=[named]))


def _step_line(sheet: Worksheet, chosen: Chosen, at: int, line: int, steps: List[str]) -> None:
    """One step with its number and, where it has one, its time of day."""
    found = f"MATCH({line},{steps[0]},0)"
    counted = f"{line}<=INDEX({steps[0]},{len(card_steps.mixing() + card_steps.soaking())})"
    refused = f'IF({{number}}*{{on}}=0,"","Do not start. "&IF({AS_VALUES}<>0,"To mend it, open the live workbook where brinecalc is installed.","Mend the row on Plan, then print the card again."))'
    none = f'IF({{usable}}=0,{refused},"")' if line == 1 else '""'
    span(sheet, f"I{at}", chosen.fill(f'=IF({counted},{line},"")'), FIGURE._replace(size=12))
    words = f"IF({counted},INDEX({steps[1]},{found}),{none})"
    words = where_installed(words, "") if line == 1 else words
    span(sheet, f"J{at}:R{at}", chosen.fill(f"={words}"), WORDS._replace(size=STEP_SIZE))
    when = chosen.fill(f'=IF({counted},INDEX({steps[2]},{found}),"")')
    span(sheet, f"S{at}:T{at}", when, FIGURE._replace(size=10, wrap=True), "ddd hh:mm")


def _foot(sheet: Worksheet, chosen: Chosen, row: int) -> None:
    """Below what is weighed: the brine in its vessel, and how the curing salt is weighed."""
    vessel = '", vessel "&ROUND([w_vessel]/shown_volume_ml+1E-9,1)&"\u00a0"&volume_word&IF([w_fit]="","",": "&[w_fit])'
    words = f'IF({{dry}}=1,"No brine: a dry cure","Brine"&IF([w_vessel]="",", all of it",{vessel}))'
    value, unit = 'IF({dry}=1,"",[w_volume]/shown_volume_ml)', 'IF({dry}=1,"",volume_word)'
    shown = [chosen.when_usable(each) for each in (words, value, unit)]
    _line(sheet, row, shown[0], shown[1], shown[2], PLAIN._replace(line="thin"), 10)
    signed = 'IF({cure}="","No curing salt in this batch.","Curing salt: on a 0.1 g scale; a second person checks it and signs.")'
    span(sheet, f"A{row + 1}:G{row + 1}", chosen.when_usable(signed), PLAIN._replace(size=10, bold=True, wrap=True))
