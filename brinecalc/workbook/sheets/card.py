"""The card: one page for the cook about one batch, to print, follow and write on.

One idea: the card shows only what may be worked from. A batch that fails or has a STOP says so in the largest type on
the page, and no figure that could be weighed out by mistake stands anywhere on it.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.formatting.rule import FormulaRule
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.trade import limits
from brinecalc.workbook import styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.chosen import Chosen, choose, minute
from brinecalc.workbook.page import BOX, FIGURE, HEAD, LABEL, PLAIN, SMALL, WORDS, margins, span
from brinecalc.workbook.sheets import card_lists, card_steps

SHEET = "Card"
NAME = "card_batch"

COLUMNS = "ABCDEFGHIJKLMNOPQRST"
BESIDE = 22  # first column of what stands behind the page
TABLES = 25


def degrees(celsius: float) -> str:
    """A formula for a temperature in words, in the unit that is shown, to the whole degree."""
    return f'IF(shown_units="US","{celsius * 1.8 + 32:.0f}\u00a0°F","{celsius:.0f}\u00a0°C")'


def span_of_time(hours: str) -> str:
    """A formula for hours in words; days where there are many."""
    return f'IF({hours}>72,ROUND({hours}/24,1)&" days",ROUND({hours},1)&" h")'


COLD = 4.0  # where kitchens keep it, a degree under the rule


def write(book: Book, sheet: Worksheet) -> None:
    """The card, from its head to its foot, and what stands behind it."""
    for letter in COLUMNS:
        sheet.column_dimensions[letter].width = 1.6 if letter == "I" else 5.2
    sheet.column_dimensions["U"].width = 3
    choose(book, sheet, "R1:T2", NAME, 18)
    chosen = _behind(book, sheet)
    _head(sheet, chosen)
    _strip(sheet, chosen, 7)
    last = _work(sheet, chosen, 11)
    last = _readings(sheet, chosen, last + 2)
    last = _checks(sheet, chosen, last + 2)
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
    chosen.always("injected", "Injected (1 yes)", '=IF({method}="injected",1,0)', "count")
    chosen.always("dry", "Dry (1 yes)", '=IF({method}="dry equilibrium",1,0)', "count")
    chosen.add("base", "Water, or instead", 'IF({liquid}="","water",{liquid})', "text")
    for key, words, form in (("salt", "Salt, g", "0.0"), ("ice", "Ice, g", "0.0"), ("edible", "Edible, g", "0"),
                             ("take_out", "Take out", "moment"), ("take_from", "Done at the soonest", "moment"),
                             ("take_to", "Done at the latest", "moment")):  # fmt: skip
        chosen.add(key, words, minute(f"[w_{key}]") if form == "moment" else f"[w_{key}]", form)
    chosen.add("ready", "Ready", minute("[ready]"), "moment")
    chosen.add("finished", "Weighs when injected", 'ROUND([w_finished]/shown_mass_g,2)&" "&mass_word', "text")
    chosen.add("gain", "Gain in words", 'ROUND([w_gain]*100,1)&" %"', "text")
    chosen.add(
        "bath_degree", "Brine in words", 'ROUND(IF(shown_units="US",{degree}*1.8+32,{degree}),0)&" "&degree_word'
    )
    chosen.add("core", "Cook to", _core(), "text")
    chosen.always("cold", "Cold", f"={degrees(COLD)}", "text")
    chosen.always("warm", "Too warm", f"={degrees(limits.value('brine temperature'))}", "text")
    chosen.always("lukewarm", "Lukewarm", '=IF(shown_units="US","85 to 105 °F","30 to 40 °C")', "text")
    return chosen


def _core() -> str:
    """The core temperature that a rule asks for, where one does."""
    group = "INDEX(list_group,MATCH({product},product_names,0))"
    poultry, needled = degrees(limits.value("cook poultry")), degrees(limits.value("cook needled"))
    return f'IF({group}="poultry",{poultry},IF(OR({{injected}}=1,{{treatment}}="needled"),{needled},""))'


def _head(sheet: Worksheet, chosen: Chosen) -> None:
    """Kitchen, product, what for, and the worst finding."""
    strong = PLAIN._replace(bold=True)
    span(sheet, "A1:M1", '=IF(kitchen="","",kitchen)', strong._replace(size=10))
    span(sheet, "N1:Q1", "Batch no.", SMALL._replace(align="right", indent=1))
    title = '=IF({on}=0,"No batch",[batch]&"   "&[product])'
    span(sheet, "A2:Q2", chosen.fill(title), strong._replace(size=22, colour=styles.DEEP))
    weight = 'ROUND({edible}/shown_mass_g,2)&" "&mass_word'
    what = (
        'IF({label}="","","For "&{label}&".  ")&IF({pieces}="","",{pieces}&IF({pieces}="1"," piece, "," pieces, "))&'
        f'{weight}&" edible.  "&IF({{treatment}}="none","",{{treatment}}&", ")&{{method}}&", "&ROUND({{target}}*100,2)&" % salt in the product."'
    )
    span(sheet, "A3:T3", chosen.when_usable(what), PLAIN._replace(size=10))
    by = '=IF(prepared_by="","","Prepared by "&prepared_by)'
    span(sheet, "A4:T4", by, SMALL)
    word = '=IF({number}*{on}=0,"NO BATCH",IF({usable}=0,"DO NOT START",{says}))'
    span(sheet, "A5:E5", chosen.fill(word), FIGURE._replace(size=16, line="medium", wrap=True))
    span(sheet, "F5:T5", chosen.fill(_finding()), WORDS._replace(size=10, line="medium"))
    for row, height in ((1, 15), (2, 28), (3, 15), (4, 13), (5, 42), (6, 4)):
        sheet.row_dimensions[row].height = height
    for words, colour in (("DO NOT START", styles.STOP), ("CAUTION", styles.CAUTION), ("NOTE", styles.NOTE)):
        rule = FormulaRule(formula=[f'$A$5="{words}"'], fill=styles.fill(colour), stopIfTrue=True)
        sheet.conditional_formatting.add("A5:T5", rule)


def _finding() -> str:
    """The worst finding in words."""
    return '=IF({says}="ok","No finding. The cautions at the foot of the page hold for every batch.",{message})'


def _strip(sheet: Worksheet, chosen: Chosen, row: int) -> None:
    """The moments of the batch: put in, done soonest, take out, done latest, ready."""
    hours = f'" (after "&{span_of_time("{soak}")}&")"'
    boxes: Tuple[Tuple[str, str], ...] = (
        ('IF({injected}=1,"Inject","Put in")', "put_in"),
        ('"Done at the soonest"', "take_from"),
        (f'"Take out"&IF({{injected}}=1,"",{hours})', "take_out"),
        ('"Done at the latest"', "take_to"),
        ('IF({rest}>0,"Ready (rest "&' + span_of_time("{rest}") + '&")","Ready")', "ready"),
    )
    for number, (label, key) in enumerate(boxes):
        left, right = COLUMNS[number * 4], COLUMNS[number * 4 + 3]
        none = f'OR({{{key}}}="",{{injected}}=1)' if key.startswith("take") else f'{{{key}}}=""'
        value = f'IF({none},"—",{{{key}}})'
        span(sheet, f"{left}{row}:{right}{row}", chosen.when_usable(label), LABEL)
        strong = key in ("put_in", "take_out", "ready")
        figure = FIGURE._replace(bold=strong, line=None)
        span(sheet, f"{left}{row + 1}:{right}{row + 1}", chosen.when_usable(value), figure, "ddd hh:mm")
        date = SMALL._replace(align="center")
        span(sheet, f"{left}{row + 2}:{right}{row + 2}", chosen.when_usable(value), date, "d mmmm yyyy")
    for at, height in ((row, 13), (row + 1, 22), (row + 2, 11), (row + 3, 4)):
        sheet.row_dimensions[at].height = height


def _work(sheet: Worksheet, chosen: Chosen, row: int) -> int:
    """What to weigh, and beside it the steps."""
    span(sheet, f"A{row}:H{row}", "Weigh out", HEAD)
    span(sheet, f"J{row}:T{row}", "Do in this order", HEAD)
    sheet.row_dimensions[row].height = 15
    weighed = card_lists.weighed(chosen, TABLES, 4)
    steps = card_steps.write(chosen, TABLES, 4 + len(card_lists.WEIGHED) + 3)
    foot = _foot()
    for line in range(1, card_steps.MOST + 1):
        at = row + line
        sheet.row_dimensions[at].height = 25.5
        if line <= len(card_lists.WEIGHED):
            _weigh_line(sheet, chosen, at, line, weighed)
        else:
            words, value, unit = foot[line - len(card_lists.WEIGHED) - 1]
            _line(sheet, at, chosen.when_usable(words), chosen.when_usable(value), chosen.when_usable(unit))
        found = f"MATCH({line},{steps[0]},0)"
        counted = f"{line}<=INDEX({steps[0]},{len(card_steps.mixing() + card_steps.soaking())})"
        refused = '"Nothing to weigh out and nothing to start. Mend the row on Plan, then print the card again."'
        none = f'IF({{usable}}=0,{refused},"")' if line == 1 else '""'
        span(sheet, f"J{at}", chosen.fill(f'=IF({counted},{line},"")'), FIGURE._replace(size=12))
        words = f"=IF({counted},INDEX({steps[1]},{found}),{none})"
        span(sheet, f"K{at}:R{at}", chosen.fill(words), WORDS._replace(size=9.5))
        when = chosen.fill(f'=IF({counted},INDEX({steps[2]},{found}),"")')
        span(sheet, f"S{at}:T{at}", when, FIGURE._replace(size=10, wrap=True), "ddd hh:mm")
    return row + card_steps.MOST


def _weigh_line(sheet: Worksheet, chosen: Chosen, at: int, line: int, weighed: List[str]) -> None:
    """One ingredient with its box to tick; a line that is not used stays a dash."""
    count = f"INDEX({weighed[0]},{len(card_lists.WEIGHED)})"
    found = f"MATCH({line},{weighed[0]},0)"

    def show(column: int, other: str) -> str:
        return chosen.when_usable(f"IF({line}>{count},{other},INDEX({weighed[column]},{found}))")

    _line(sheet, at, show(1, '"—"'), show(2, '""'), show(3, '""'), tick=True)


def _line(sheet: Worksheet, at: int, words: str, value: str, unit: str, tick: bool = False) -> None:
    """A line of the left half: box, words, figure, unit."""
    span(sheet, f"A{at}", None, BOX if tick else PLAIN)
    span(sheet, f"B{at}:E{at}", words, WORDS._replace(size=11, line="thin" if tick else None))
    line = "thin" if tick else None
    figure = FIGURE._replace(size=17 if tick else 14, align="right", line=line, sides="left top bottom")
    span(sheet, f"F{at}:G{at}", value, figure, card_lists.NUMBER_FORM)
    span(sheet, f"H{at}", unit, PLAIN._replace(size=11, line=line, sides="right top bottom", indent=1))


def _foot() -> List[Tuple[str, str, str]]:
    """Below what is weighed: the product, the brine, the vessel, the strength."""
    return [
        ('"Product, edible"', "{edible}/shown_mass_g", "mass_word"),
        (('IF({dry}=1,"No brine: a dry cure","Brine in all"&IF([w_vessel]="","",", vessel "&'
         'ROUND([w_vessel]/shown_volume_ml,1)&"\u00a0"&volume_word&IF([w_fit]="","",": "&[w_fit])))'),
         'IF({dry}=1,"",[w_volume]/shown_volume_ml)', 'IF({dry}=1,"",volume_word)'),
        ('IF({injected}=1,"Weighs when injected",IF({dry}=1,"","Salt meter at the start, % of the brine"))',
         'IF({injected}=1,[w_finished]/shown_mass_g,IF({dry}=1,"",100*{shows}))',
         'IF({injected}=1,mass_word,IF({dry}=1,"","%"))'),
    ]  # fmt: skip


def _readings(sheet: Worksheet, chosen: Chosen, row: int) -> int:
    """Boxes for readings, each with what is expected; beside them the limits and what to do."""
    span(sheet, f"A{row}:T{row}", "Readings", HEAD)
    sheet.row_dimensions[row - 1].height = 3
    sheet.row_dimensions[row].height = 15
    heads = (("A", "D", '"When"'), ("E", "H", '"Salt meter should show, and from fast to slow"'), ("I", "J", '"Meter"'),
             ("K", "M", 'IF({perishable}=1,"Temperature, up to "&{cold},"Temperature")'), ("N", "O", '"Initials"'),
             ("P", "T", '"If not, do this"'))  # fmt: skip
    for left, right, words in heads:
        span(sheet, f"{left}{row + 1}:{right}{row + 1}", chosen.fill(f"={words}"), LABEL)
    sheet.row_dimensions[row + 1].height = 22
    table = card_lists.readings(chosen, TABLES, 4 + len(card_lists.WEIGHED) + 3 + 20)
    actions = _actions()
    for number, words in enumerate(actions):
        at = row + 2 + number
        sheet.row_dimensions[at].height = 18
        planned = number < len(table)
        hours, moment, meter, least, most = table[number] if planned else ("", "", "", "", "")
        when = chosen.when_usable(f'IF({moment}="",ROUND({hours},1)&" h in",{moment})') if planned else None
        span(sheet, f"A{at}:D{at}", when, FIGURE._replace(size=11, bold=False), "ddd d mmm hh:mm")
        expected = chosen.when_usable(f'IF({meter}="","—",{meter})') if planned else None
        span(sheet, f"E{at}:F{at}", expected, FIGURE._replace(size=14), "0.0%")
        for letter, end in (("G", least), ("H", most)):
            value = chosen.when_usable(f'IF({least}={most},"",{end})') if planned else None
            span(sheet, f"{letter}{at}", value, WORDS._replace(size=8, align="center", indent=0), "0.0%")
        for left, right in (("I", "J"), ("K", "M"), ("N", "O")):
            span(sheet, f"{left}{at}:{right}{at}", None, BOX)
        span(sheet, f"P{at}:T{at}", chosen.when_usable(words), WORDS._replace(size=8))
    return row + 1 + len(actions)


def _actions() -> List[str]:
    """What to do about a reading; a line each, temperature first."""
    hours = limits.value("warm hours")
    return [
        'IF({perishable}=1,"Above "&{cold}&": chill at once.","Keep near "&{bath_degree}&".")',
        f'IF({{perishable}}=1,"Above "&{{warm}}&" for over {hours:g} h in all: discard.","")',
        'IF({wet}=1,"Meter: stir first, read twice."&IF({sugar}=0,""," Its sugar is allowed for."),"")',
        'IF({wet}=1,"Lower: salt goes in faster, or water came in. Take out sooner.","")',
        'IF({wet}=1,"Higher: slower. Take out later, within the times above.","")',
        '"Instrument in doubt: try it in ice water, or in a weighed brine."',
        '"Anything else wrong: keep it cold and ask."',
    ]


def _checks(sheet: Worksheet, chosen: Chosen, row: int) -> int:
    """Boxes for lots, the second check, the instruments, the cooling of a boiled brine; the standing cautions."""
    span(sheet, f"A{row}:T{row}", "Checked and signed", HEAD)
    cure = 'IF({cure}="","No curing salt",{words})'
    boxes = (
        ("A", "D", '"Lot number of this batch"'),
        ("E", "G", cure.replace("{words}", '"Lot no. of the curing salt"')),
        ("H", "J", cure.replace("{words}", '"Curing salt weighed by"')),
        ("K", "N", cure.replace("{words}", '"Second person: scale shows, checked by"')),
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
    for at, height in ((row - 1, 3), (row, 15), (row + 1, 34), (row + 2, 36), (row + 3, 22)):
        sheet.row_dimensions[at].height = height
    return row + 3
