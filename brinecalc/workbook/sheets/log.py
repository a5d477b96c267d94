"""The log: readings of one batch as they come in, what they mean, and when the batch will be done.

One idea: a reading is turned into what the bath holds for each weight of water, whatever it was read on; compared with
what it should hold by then it tells whether salt moves faster or slower than planned, and all of them together give a
new finishing time. A reading that cannot be used is left out and says why; it never spoils the others.
"""

from __future__ import annotations

from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc import registry
from brinecalc.trade import limits
from brinecalc.workbook import frame, plots, styles
from brinecalc.workbook.agreed import AS_VALUES, where_installed
from brinecalc.workbook.book import Book
from brinecalc.workbook.chosen import Chosen, choose
from brinecalc.workbook.frame import Field
from brinecalc.workbook.page import LABEL, PLAIN, WORDS, Look, margins, span
from brinecalc.workbook.plots import Line
from brinecalc.workbook.sheets import log_head, log_rows
from brinecalc.workbook.sheets.card_lists import degrees
from brinecalc.workbook.sheets.log_rows import BESIDE, FIRST, INSTRUMENT, LAST, PUT_IN, SHOWS, TABLE, by_instrument
from brinecalc.workbook.sheets.steps import COLD

SHEET = "Log"
NAME = "log_batch"

MOMENTS = 13
_TYPED = Look(size=10, paint="input")


def write(book: Book, sheet: Worksheet) -> None:
    """The choice, the forecast, the readings, the chart."""
    widths = (4.5, 17, 10.5, 12, 10, 10, 10, 8, 10, 78, 2)
    for number, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(number)].width = width
    styles.put(sheet, "A1", "Log", "title")
    span(sheet, "F1:G1", "Batch no.", PLAIN._replace(align="right", indent=1))
    choose(book, sheet, "H1", NAME, 14)
    _choices(book, sheet)
    chosen = _behind(book, sheet)
    span(sheet, "A2:J2", chosen.headline(), PLAIN._replace(size=12, bold=True))
    log_head.reckon(chosen)
    log_rows.readings(sheet, chosen)
    words = "=" + where_installed(_words(chosen.by_weight()))
    span(sheet, "A3:J3", chosen.fill(words), WORDS._replace(line=None, indent=0, vertical="top"))
    log_head.write(sheet, chosen)
    _chart(sheet, chosen)
    heights = {1: 24, 2: 18, 3: 26, 4: 4, 5: 13, 6: 18, 7: 4, 8: 22, 9: 26, 10: 13, 11: 4, 12: 33, 13: 24}
    for number in range(12, 19):
        sheet.column_dimensions[get_column_letter(number)].width = 9.4
    for row, height in heights.items():
        sheet.row_dimensions[row].height = height
    sheet.freeze_panes = f"A{FIRST}"
    nothing = chosen.fill('=IF({wet}=1,"","Nothing to draw.")')
    span(sheet, "M15:Q15", nothing, PLAIN._replace(align="center", size=11))
    span(sheet, "L5:R5", "=A2", PLAIN._replace(bold=True))  # on paper the chart stands on a page of its own
    sheet.print_area = f"A1:J{LAST},L5:R{LAST}"
    margins(sheet, "landscape")
    sheet.page_setup.fitToHeight = 2  # the readings on the first page, large enough to read; the chart on the second


def _choices(book: Book, sheet: Worksheet) -> None:
    """What all readings share: the instrument, and when the product really went in."""
    instruments = next(a for a in registry.spec("BRINE_METER").arguments if a.name == "instrument").choices
    fields = (
        ("B5:D5", "B6:D6", INSTRUMENT, Field("", "Read on", choices='"' + ",".join(instruments) + '"',
         help="What the readings are taken with. It decides what the numbers under Reading mean.")),
        ("E5:H5", "E6:H6", PUT_IN, Field("", "Put in at, if not as planned", form="typed moment",
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
    chosen.add_longest()
    chosen.add_wanted()
    chosen.always("gradient", "Can be forecast (1 yes)", '=IF({usable}=0,0,IF({method}="gradient",1,0))', "count")
    chosen.add("edible", "Edible, g", "[w_edible]", "0")
    chosen.add("water", "Water, g", "[w_water]", "0")
    chosen.add_sugar()
    chosen.add(
        "begun", "Went in", f'IF({PUT_IN}="",{{put_in}},IF(ISNUMBER({PUT_IN}),IF({PUT_IN}<1,"",{PUT_IN}),""))', "moment"
    )
    chosen.add(
        "began", "Salt when it went in, of water and salt", 'IF({wet}=0,"",{strength}/(1+{strength}))', "fine_share"
    )
    chosen.always("unit", "Unit of the reading", "=" + by_instrument([(name, unit) for name, unit, _ in SHOWS]), "text")
    chosen.always("typed", "How to type it", "=" + by_instrument([(name, such) for name, _, such in SHOWS]), "text")
    chosen.always("step", "Step of its scale", "=" + log_rows.figures(1))
    chosen.always("zero", "In plain water", "=" + log_rows.figures(2))
    chosen.always("cold", "Cold", f"={degrees(COLD)}", "text")
    chosen.always("warm", "Too warm", f"={degrees(limits.value('brine temperature'))}", "text")
    return chosen


def _words(by_weight: str) -> str:
    """What to do here, or why this batch has nothing to log."""
    fill = '"Type when, the figure as the instrument shows it, and how warm it is. The first blank row is ready. Stir before you read."'
    even = (
        '"A batch that is left until it stops: compare the readings; there is no forecast, since it is done when they no longer fall, '
        'and longer does not make it saltier."'
    )
    other = (
        '"No brine to read in this batch. Write its temperatures on the card; this log is for what lies in a brine."'
    )
    unknown = '"No ready time on Plan: type above when it went in, so that hours can be counted."'
    sent = (
        '"A copy as values: the readings are as sent; another batch can be chosen. To type readings, open the live workbook '
        'where brinecalc is installed."'
    )
    put_in = '"Put in at must be a date and a time, such as 2026-12-04 17:30."'
    return (
        f'IF({{count}}<0,"",IF({{usable}}=0,{{message}},IF({{wet}}=0,{other},IF({AS_VALUES}<>0,{sent}&{by_weight},IF(AND({PUT_IN}<>"",N({PUT_IN})<1),{put_in},'
        f'IF({{begun}}="",{unknown},IF({{gradient}}=1,{fill},{even}&{by_weight})))))))'
    )


def _chart(sheet: Worksheet, chosen: Chosen) -> None:
    """Expected against read."""
    last = "IF({count}=0,0,{last})"
    end = f'IF({{wet}}=0,"",MIN({{longest}},1.05*MAX({{soak_slow}},{last})))'
    chosen.add("end", "Chart ends, h", end, "hours")
    column = TABLE + len(log_rows.helpers()) + 1
    letters = [get_column_letter(column + number) for number in range(5)]
    headings = ("Hours", "Typical", "Fast", "Slow", "Wanted")
    for letter, words in zip(letters, headings):
        styles.put(sheet, f"{letter}{FIRST - 1}", words, "heading")
    for number in range(MOMENTS):
        row = FIRST + number
        hours = f"${letters[0]}{row}"
        cells = [f"{{end}}*{number}/{MOMENTS - 1}"]
        cells += [f"{chosen.uptake(hours, e)}-{{native}}" if number else "0" for e in ("typical", "fast", "slow")]
        cells.append("{goal}")
        for letter, value in zip(letters, cells):
            form = "hours" if letter == letters[0] else "fine_share"
            styles.put(sheet, f"{letter}{row}", chosen.fill(f'=IF({{wet}}=0,"",{value})'), "cell", form)
    across, typical, fast, slow, wanted = (f"${letter}${FIRST}:${letter}${FIRST + MOMENTS - 1}" for letter in letters)
    drawn = [log_rows.logged("drawn_hours"), log_rows.logged("drawn_taken")]
    plots.scatter(sheet, "L6", "Expected against read", "Hours in the brine", "Salt taken up, of the product", (
        Line("Expected", across, typical, "solid"),
        Line("If fast", across, fast, "dash", None, styles.INK, 1.0),
        Line("If slow", across, slow, "sysDot", None, styles.QUIET, 1.5),
        Line("Still wanted when it went in", across, wanted, "lgDash", None, styles.QUIET, 1.0),
        Line("Read", drawn[0], drawn[1], "solid", "diamond", styles.INK, 0.75),
    ), (12.1, 13.5), across_form="0")  # fmt: skip
