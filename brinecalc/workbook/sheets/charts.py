"""The charts of one batch: salt against depth, salt against time, and what it costs.

One idea: each chart draws a small table of its own, in shown units, beside the printed page; each cell of a table asks
for one figure, so nothing spills, and the tables of a batch that has no brine stay empty and say why.
"""

from __future__ import annotations

from typing import List, Sequence, Tuple

from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import plots, styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.chosen import Chosen, choose
from brinecalc.workbook.page import PLAIN, WORDS, margins, span
from brinecalc.workbook.plots import Line
from brinecalc.workbook.sheets.workings import INGREDIENTS

SHEET = "Charts"
NAME = "charts_batch"

BESIDE = 16
FIRST = 5
POINTS = 11
MOMENTS = 13
REACH = 1.15
"""How far past the slow estimate the time chart goes."""


def write(book: Book, sheet: Worksheet) -> None:
    """The choice, the words, three charts, and the tables beside them."""
    for column in range(1, BESIDE - 1):
        sheet.column_dimensions[get_column_letter(column)].width = 9.4
    sheet.column_dimensions[get_column_letter(BESIDE - 1)].width = 3
    styles.put(sheet, "A1", "Charts", "title")
    span(sheet, "K1:L1", "Batch no.", PLAIN._replace(align="right", indent=1))
    choose(book, sheet, "M1:N1", NAME, 14)
    chosen = _behind(book, sheet)
    span(sheet, "A2:N2", chosen.headline(), PLAIN._replace(size=12, bold=True))
    span(
        sheet,
        "A3:N3",
        chosen.fill(_words(chosen.by_weight())),
        WORDS._replace(size=10, line=None, indent=0, vertical="top"),
    )
    for row, height in ((1, 24), (2, 18), (3, 30)):
        sheet.row_dimensions[row].height = height
    unit, length = ("in", 25.4) if book.options.units == "US" else ("mm", 1)  # an axis cannot change its words
    depth = _depths(chosen, BESIDE + 3, unit, length)
    time = _times(chosen, BESIDE + 8)
    costs = _costs(chosen, BESIDE + 14)
    _draw(sheet, depth, time, costs, unit)
    _empty(sheet, chosen, costs[1])
    sheet.print_area = "A1:N36"
    book.name("left_out_part_charts", SHEET, "$A$22:$N$36")
    margins(sheet, "landscape")


def _behind(book: Book, sheet: Worksheet) -> Chosen:
    """The block of cells about the batch."""
    chosen = Chosen(book, sheet, NAME, BESIDE)
    chosen.add_soak()
    chosen.add_longest()
    chosen.add_wanted()
    chosen.add("end", "Time chart ends, h", f'IF({{wet}}=0,"",MIN({REACH}*{{soak_slow}},{{longest}}))', "hours")
    chosen.add("unpriced", "No cost (1 yes)", "[w_unpriced]", "count")
    return chosen


def _words(by_weight: str) -> str:
    """What the charts say, or why there are none."""
    window = (
        '"Planned "&ROUND({soak}+1E-9,1)&" h in the brine; "&ROUND({soak_fast}+1E-9,1)&" h if salt moves fast, "&ROUND({soak_slow}+1E-9,1)'
        '&" h if slow. Then "&ROUND({rest}+1E-9,1)&" h of rest. The bands are what is known of the product."'
    )
    none = '"There is no bath to draw: "&{method}&"."'
    money = 'IF({unpriced}=1," No costs are drawn: a price is missing or wrong.","")'
    return f"=IF({{usable}}=0,{{message}},IF({{wet}}=1,{window}&{by_weight},{none})&{money})"


def _table(
    chosen: Chosen, column: int, headings: Sequence[Tuple[str, str]], rows: Sequence[Sequence[str]]
) -> List[str]:
    """A table beside the page; answers the range of each column."""
    letters = [get_column_letter(column + number) for number in range(len(headings))]
    for letter, (words, _) in zip(letters, headings):
        styles.put(chosen.sheet, f"{letter}{FIRST - 1}", chosen.fill(words), "heading")
        chosen.sheet.column_dimensions[letter].width = 12
    for row, templates in enumerate(rows, FIRST):
        for letter, template, (_, form) in zip(letters, templates, headings):
            formula = chosen.fill(template.replace("@", str(row)))
            styles.put(chosen.sheet, f"{letter}{row}", formula, "cell", form)
    return [f"${letter}${FIRST}:${letter}${FIRST + len(rows) - 1}" for letter in letters]


def _depths(chosen: Chosen, column: int, unit: str, length: float) -> List[str]:
    """Salt at depths from the surface to the centre, after the soak and after the rest."""

    def profile(rest: str, point: int, part: int) -> str:
        return (
            f'=IF({{wet}}=0,"",INDEX(BRINE_PROFILE({{product}},{{size}},{{soak}},{rest},{{strength}},{{degree}},{{shape}},{POINTS},'
            f'{{ratio}},{{treatment}},"typical",{{native}}),{point},{part})'
        )

    headings = (
        (f"Depth, {unit}", "0.00"),
        ("After the soak", "fine_share"),
        ("After the rest", "fine_share"),
        ("Salt wanted", "fine_share"),
    )
    rows = [
        [
            f"{profile('0', point, 1)}/{length})",
            f"{profile('0', point, 2)})",
            f"{profile('{rest}', point, 2)})",
            '=IF({wet}=0,"",{wanted})',
        ]
        for point in range(1, POINTS + 1)
    ]
    return _table(chosen, column, headings, rows)


def _times(chosen: Chosen, column: int) -> List[str]:
    """Average salt over time: typical, fast and slow; below, the ends of the lines that mark hours."""
    hours = f"${get_column_letter(column)}@"

    def uptake(estimate: str) -> str:
        return f'=IF({{wet}}=0,"",IF({hours}=0,{{native}},{chosen.uptake(hours, estimate)}))'

    headings = (("Hours", "0.0"), ("Typical", "fine_share"), ("Fast", "fine_share"), ("Slow", "fine_share"),
                ("Salt wanted", "fine_share"))  # fmt: skip
    rows = [
        [
            f'=IF({{wet}}=0,"",{{end}}*{number}/{MOMENTS - 1})',
            uptake("typical"),
            uptake("fast"),
            uptake("slow"),
            '=IF({wet}=0,"",{wanted})',
        ]
        for number in range(MOMENTS)
    ]
    for key in ("soak_fast", "soak", "soak_slow"):
        rows += [[f'=IF({{wet}}=0,"",{{{key}}})', f'=IF({{wet}}=0,"",{end})'] for end in ("0", "{wanted}")]
    return _table(chosen, column, headings, rows)


def _costs(chosen: Chosen, column: int) -> Tuple[str, str]:
    """What each thing in the batch costs; answers the ranges of names and shares, those that are used first."""
    line, name, mass, cost = (f"${get_column_letter(column + number)}" for number in range(4))
    last = FIRST + len(INGREDIENTS) - 1
    lines, names, costs = (f"{letter}${FIRST}:{letter}${last}" for letter in (line, name, cost))
    rows = []
    for number, (key, _, _) in enumerate(INGREDIENTS):
        before = f"{line}{FIRST + number - 1}" if number else "0"
        beyond = f"{number + 1}>{line}${last}"
        found = f"MATCH({number + 1},{lines},0)"
        rows.append(
            [
                f"={before}+IF({mass}@>0,1,0)",
                f'=IF({{usable}}=0,"",[n_{key}])',
                f"=IF({{usable}}=0,0,[m_{key}]+0)",
                f"=IF(OR({{usable}}=0,{mass}@=0),0,IF({{unpriced}}=1,0,BRINE_COST({name}@,{mass}@,price_names,price_costs)))",
                f'=IF({beyond},"",INDEX({names},{found}))',
                f"=IF(OR({beyond},SUM({costs})=0),0,INDEX({costs},{found})/SUM({costs}))",
            ]
        )
    headings = (("No.", "count"), ("Goes in", "text"), ("Mass, g", "0.0"), ("Cost", "money"), ("Drawn", "text"),
                ("Share", "0.0%;-0.0%;"))  # fmt: skip
    ranges = _table(chosen, column, headings, rows)
    return ranges[4], ranges[5]


def _empty(sheet: Worksheet, chosen: Chosen, shares: str) -> None:
    """What stands in the middle of a chart that has nothing to draw."""
    look = PLAIN._replace(align="center", size=11)
    for cells in ("B11:F11", "I11:M11"):
        span(sheet, cells, chosen.fill('=IF({wet}=1,"","Nothing to draw.")'), look)
    span(sheet, "D28:K28", f'=IF(SUM({shares})=0,"Nothing to draw: no cost is known.","")', look)


def _draw(sheet: Worksheet, depth: List[str], time: List[str], costs: Tuple[str, str], unit: str) -> None:
    """The three charts on the page."""

    def part(column: str, first: int, last: int) -> str:
        letter = column.split("$")[1]
        return f"${letter}${FIRST + first}:${letter}${FIRST + last}"

    curve = (0, MOMENTS - 1)
    plots.scatter(sheet, "A4", "Salt against depth", f"Depth below the surface, {unit}",
                  "Salt, of the product", (
        Line("After the soak", depth[0], depth[1], "solid", "circle"),
        Line("After the rest", depth[0], depth[2], "dash", "diamond", styles.INK),
        Line("Salt wanted, on average", depth[0], depth[3], "sysDot", None, styles.QUIET),
    ), (12.4, 9.2))  # fmt: skip
    marks = [(name, MOMENTS + 2 * number, dash, width) for number, (name, dash, width) in
             enumerate((("Done if fast", "sysDash", 1.0), ("Planned", "solid", 2.5), ("Done if slow", "lgDashDot", 1.0)))]  # fmt: skip
    plots.scatter(sheet, "H4", "Salt against time", "Hours in the brine", "Average salt, of the product", (
        Line("Typical", part(time[0], *curve), part(time[1], *curve), "solid", "circle"),
        Line("Fast", part(time[0], *curve), part(time[2], *curve), "dash", "triangle", styles.INK),
        Line("Slow", part(time[0], *curve), part(time[3], *curve), "sysDot", "square", styles.QUIET),
        Line("Salt wanted", part(time[0], *curve), part(time[4], *curve), "lgDash", None, styles.QUIET, 1.0),
        *(Line(name, part(time[0], at, at + 1), part(time[1], at, at + 1), dash, "x", styles.INK, width)
          for name, at, dash, width in marks),
    ), (12.8, 9.2), across_form="0")  # fmt: skip
    plots.bars(sheet, "A22", "Where the money goes", costs[0], costs[1], "Share of what the batch costs", (25.7, 7.4),
               "0%")  # fmt: skip
