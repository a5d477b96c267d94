"""The tables behind the card: what is weighed out, and what the meter should show at each reading.

One idea: what a batch does not use takes no line. Every ingredient has its place in the order of weighing, those that
are used are counted, and the card shows the first, the second and so on.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.utils import get_column_letter

from brinecalc.trade import limits
from brinecalc.trade.wording import whole_degrees_at_least
from brinecalc.workbook import styles
from brinecalc.workbook.chosen import Chosen

WEIGHED: Tuple[Tuple[str, bool], ...] = (
    ("base", True),
    ("ice", True),
    ("phosphate", False),
    ("salt", False),
    ("sweet", False),
    ("aroma_one", False),
    ("aroma_two", False),
    ("acid", False),
    ("cure", False),
)
"""What is weighed, in the order of use, and whether in the large unit (kg, lb) rather than the small one (g, oz; of
curing salt always g)."""

READINGS = (0.0, 0.25, 0.5, 0.75, 1.0)
"""When to read, as parts of the soak, or of the rest where nothing soaks."""

SOURING = 96.0
"""Hours over which readings are spread where it sours and its days are not typed: one a day at first, a judgement."""

FINE_SCALE = 1000.0
"""g that a scale with steps of 0.1 g carries: a judgement of what kitchens use; the scale at hand would settle it."""

NUMBER_FORM = "[<10]0.00;[<100]0.0;#,##0"
"""Three figures or more, whatever the unit."""


SOUR = f"{limits.value('acidified food ph'):g}"
"""pH at which a ferment is done, as the rule that asks for its reading has it."""


def degrees(celsius: float, at_least: bool = False) -> str:
    """A formula for a temperature in words, in the unit that is shown, to the whole degree; `at_least` never below it."""
    nearest = round(celsius), round(celsius * 1.8 + 32)
    centigrade, fahrenheit = whole_degrees_at_least(celsius) if at_least else nearest
    return f'IF(shown_units="US","{fahrenheit}\u00a0°F","{centigrade}\u00a0°C")'


def head(chosen: Chosen, column: int, row: int, headings: Tuple[Tuple[str, float], ...]) -> List[str]:
    """The headings of a table beside the page; answers its columns' letters."""
    letters = [get_column_letter(column + number) for number in range(len(headings))]
    for letter, (words, width) in zip(letters, headings):
        styles.put(chosen.sheet, f"{letter}{row - 1}", words, "heading")
        wide = chosen.sheet.column_dimensions[letter]
        wide.width = max(wide.width, width)
    return letters


def weighed(chosen: Chosen, column: int, row: int) -> List[str]:
    """The list of what is weighed; answers the ranges of its columns: line, name, mass, unit."""
    headings = (("Line", 6.0), ("What to weigh", 30.0), ("Mass", 12.0), ("Unit", 8.0))
    letters = head(chosen, column, row, headings)
    for at, (key, large) in enumerate(WEIGHED, row):
        before = f"{letters[0]}{at - 1}" if at > row else "0"
        factor, word = ("shown_mass_g", "mass_word") if large else ("shown_small_g", "small_word")
        if key == "cure":  # in any units it is weighed on a scale that reads to 0.1 g
            factor, word = "1", '"g"'
        cells = (
            (f"=IF({{usable}}=0,0,{before}+IF([m_{key}]>0,1,0))", "count"),
            (f'=IF({{usable}}=0,"",[n_{key}])', "text"),
            (f'=IF({{usable}}=0,"",[m_{key}]/{factor})', NUMBER_FORM),
            (f"={word}", "text"),
        )
        for letter, (template, form) in zip(letters, cells):
            styles.put(chosen.sheet, f"{letter}{at}", chosen.fill(template), "cell", form)
    last = row + len(WEIGHED) - 1
    return [f"${letter}${row}:${letter}${last}" for letter in letters]


def readings(chosen: Chosen, column: int, row: int) -> List[Tuple[str, str, str, str, str]]:
    """What is read when; answers for each reading the cells of hours, moment, expected, least and most.

    Expected is a salt meter's per cent of the solution; least and most go with the fast and the slow estimate.
    """
    headings = (("Hours in", 8.0), ("When", 16.0), ("Meter", 9.0), ("If fast", 9.0), ("If slow", 9.0))
    letters = head(chosen, column, row, headings)
    made = []
    for at, part in enumerate(READINGS, row):
        cells = [f"${letter}${at}" for letter in letters]
        forms = ("hours", "moment", "fine_share", "fine_share", "fine_share")
        templates = [
            f"IF({{injected}}=1,{{rest}},IF({{open}}=1,{SOURING:g},{{soak}}))*{part}" if part else "0",
            f'IF({{put_in}}="","",(ROUND(({{put_in}}+{cells[0]}/24)*1440+0.0001,0)+0.01)/1440)',
            *(_meter(chosen, cells[0], estimate, part) for estimate in ("typical", "fast", "slow")),
        ]
        for cell, template, form in zip(cells, templates, forms):
            styles.put(chosen.sheet, cell.replace("$", ""), chosen.when_usable(template), "cell", form)
        made.append((cells[0], cells[1], cells[2], cells[3], cells[4]))
    return made


def meter(chosen: Chosen) -> None:
    """What a salt meter shows at the start, and what that is of the salt that is there.

    Sugar slows the current, so a salt meter shows too little. Two steps find the reading that BRINE_METER would turn
    back into the strength; the same factor holds for the weaker bath later, to within a hundredth of the reading.
    """
    plain = "{strength}/(1+{strength})"
    step = '@*{strength}/BRINE_METER(@,"salt meter","","water",{sugar})'
    chosen.add("plain", "Salt, of water and salt", f'IF({{method}}="dry equilibrium","",{plain})', "fine_share")
    for key, words, before in (
        ("guess", "Salt meter, first step", "{plain}"),
        ("shows", "Salt meter at the start", "{guess}"),
    ):
        better = step.replace("@", before)
        chosen.add(key, words, f'IF({{plain}}="","",IF(OR({{sugar}}=0,{{plain}}=0),{{plain}},{better}))', "fine_share")
    chosen.add("allowed", "Salt meter shows, of what is there", 'IF({plain}="","",{shows}/{plain})', "fine_share")


def _meter(chosen: Chosen, hours: str, estimate: str, part: float) -> str:
    """Per cent of the solution that a salt meter should show after those hours."""
    if part == 0:
        return "{shows}"
    # a share of the water w is w/(1+w) of the solution, written as 1-1/(1+w) to call the function once
    return f'IF({{wet}}=1,{{allowed}}*(1-1/(1+{chosen.bath(hours, estimate)})),"")'
