"""The plan: one row per batch, the cells a chef fills in, and beside them what comes out.

One idea: a row is filled from left to right and each blank has a sensible meaning, so that product, weight,
thickness, method, target and ready time are enough to get an answer.
"""

from __future__ import annotations

from typing import List

from openpyxl.formatting.rule import FormulaRule
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame, settings, styles
from brinecalc.workbook.agreed import where_installed
from brinecalc.workbook.book import MOST_BATCHES, Book
from brinecalc.workbook.frame import Field, Grid
from brinecalc.workbook.page import Look, span

SHEET = "Plan"
FIRST_ROW = 8
PRINTED = 30
"""Batches on paper: more would make the print too small to read, or give most kitchens empty pages."""

DATES = (36526, 73050)
"""From 2000 to 2099, as a spreadsheet counts days."""

LEAST_HOURS = 0.5
"""Hours; fewer are taken for a time of day, since 8:00 is a third of a day: judgement, below the quickest dip of small
pieces. What kitchens type there would settle it."""

METHODS = '"gradient,equilibrium,dry equilibrium,injected"'
SHAPES = '"slab,one face,cylinder,sphere,block"'
TREATMENTS = '"none,thawed,needled,tumbled"'
CURE_METHODS = '"dry,comminuted,pumped,pick-up,equilibrium"'


def inputs() -> List[Field]:
    """The cells to fill in, and the two that answer at once."""
    return _product() + _salt() + _extras() + _cure() + _when()


def _product() -> List[Field]:
    what = "What goes in"
    return [
        Field("batch", "Batch", "count", "=ROW()-7", width=6, group="Batch"),
        Field("product", "Product", width=25, group=what, choices="product_names", free=True,
              help="Choose from the list, or type another name of it, such as turkey crown. Whole birds: the list says what to measure."),
        Field("says", "Says", "text", "={w_says}", width=11, group=what),
        Field("label", "For", "text", width=22, group=what,
              help="Any words for the card: the dish, the event, the guest. Say sushi, raw or cold smoked where it is so: the checks read it."),
        Field("pieces", "Pieces", "count", width=7, group=what, limits=(1, 100000), help="How many pieces go in."),
        Field("weight", "Weight as bought", "mass", unit="=typed_mass", width=10, group=what, limits=(0.001, 100000),
              help="All pieces together, as bought; bone and shell are taken off by the table."),
        Field("thickness", "Thickness", unit="=typed_length", width=16, group=what,
              help="Of the thickest piece. Diameter of a cylinder or sphere; skin or bone to open side for one face. "
              "A block as text: 150 x 60 x 40 mm."),
        Field("shape", "Shape", width=10, group=what, choices=SHAPES, help="Blank: the usual shape of the product."),
        Field("treatment", "Treated", width=11, group=what, choices=TREATMENTS,
              help="thawed: was frozen. needled: blade or needle tenderised. tumbled: under vacuum. Blank: none."),
        Field("native", "Salt in it already", "share", width=9, group=what, limits=(0, 0.2),
              help="Only for pre-treated or salted goods; blank: the table's figure."),
    ]  # fmt: skip


def _salt() -> List[Field]:
    how = "Salt"
    return [
        Field("method", "Method", width=17, group=how, choices=METHODS,
              help="gradient: strong brine, pull at the time. equilibrium: wait until it stops. dry equilibrium: rubbed on, no water, wait until even. injected. Blank: gradient is taken."),
        Field("target", "Salt wanted in the product", "share", width=9, group=how, limits=(0.0001, 0.2),
              help="Average salt, for example 1.0% to 1.5% of the product. equilibrium: by weight, the product's solids counted as "
              "water; in the product itself it ends lower, see Results."),
        Field("strength", "Strength, of the water", "share", width=9, group=how, limits=(0.001, 0.36),
              help="gradient only. Blank: worked out from the hours."),
        Field("hours", "Hours I have", "hours", width=8, group=how, limits=(LEAST_HOURS, 2000),
              help="A number: 4, not 4:00. gradient with the strength left blank: the soak takes exactly this long. equilibrium and dry equilibrium: how long it is left; blank: worked out. Not used where a strength is typed, or for injected."),
        Field("ratio", "Water per product", "0.00", width=9, group=how, limits=settings.RATIO,
              help="Brine water for each weight of product; blank: as on Start. Not used for dry equilibrium or injected."),
        Field("gain", "Weight gained", "share", width=8, group=how, limits=(0, 0.6),
              help="injected: what is pumped in; blank: 10 % is reckoned. Otherwise what the product picks up; blank: none is counted, and Results says not measured."),
    ]  # fmt: skip


_OF_WHAT = "Of the water; for dry equilibrium, of the product."


def _extras() -> List[Field]:
    extras = "What else"
    return [
        Field("sweetener", "Sweetener", width=17, group=extras, choices="sweetener_names", help="Blank: none."),
        Field("sweet_level", "Level", "share", width=7, group=extras, limits=(0, 0.5), help=f"{_OF_WHAT} Usual: 1% to 5%."),
        Field("aroma_one", "Aromatic", width=19, group=extras, choices="aromatic_names", help="Herb, spice or other aromatic."),
        Field("aroma_one_level", "Level", "fine_share", width=7, group=extras, limits=(0, 0.2), help=_OF_WHAT),
        Field("aroma_two", "Second aromatic", width=19, group=extras, choices="aromatic_names", help="Blank: none."),
        Field("aroma_two_level", "Level", "fine_share", width=7, group=extras, limits=(0, 0.2), help=_OF_WHAT),
        Field("phosphate", "Phosphate", width=24, group=extras, choices="phosphate_names", help="Blank: none."),
        Field("phosphate_level", "Level", "fine_share", width=7, group=extras, limits=(0, 0.1), help=_OF_WHAT),
        Field("acid", "Acid or base", width=17, group=extras, choices="acid_names", help="Blank: none."),
        Field("acid_level", "Level", "fine_share", width=7, group=extras, limits=(0, 1), help=_OF_WHAT),
        Field("liquid", "Instead of water", width=17, group=extras, choices="liquid_names",
              help="Its own water counts as the water. Never cola, wine or another acid liquid with curing salt."),
    ]  # fmt: skip


def _cure() -> List[Field]:
    cure = "Curing salt"
    return [
        Field("cure", "Curing salt", width=19, group=cure, choices="cure_names", help="Blank: none. Weigh it; have it checked."),
        Field("cure_ppm", "Nitrite", "ppm", unit="ppm", width=8, group=cure, limits=(1, 700),
              help="Ingoing, as sodium nitrite, by the rules chosen on Start."),
        Field("cure_method", "Reckoned as", width=12, group=cure, choices=CURE_METHODS,
              help="Which legal way of reckoning. pumped and pick-up need the weight gained."),
    ]  # fmt: skip


def _when() -> List[Field]:
    when = "Bath, time"
    return [
        Field("bath_degree", "Brine temperature", "temperature", unit="=typed_degree", width=10, group=when,
              help="Blank: as on Start. 5 °C / 41 °F or below for perishable food; its ice is reckoned to 4 °C / 39 °F at most."),
        Field("vessel", "Vessel", "volume", unit="=typed_volume", width=8, group=when, limits=(0.1, 100000),
              help="Inside volume; blank: not checked."),
        Field("rest", "Rest", "hours", unit="h", width=7, group=when, limits=(0, 500), help="After the soak; blank: as on Start."),
        Field("portion", "Portion", "small", unit="=typed_portion", width=8, group=when, limits=(0.1, 5000),
              help="Edible weight of one portion as it goes in, for sodium or salt, and cost; blank: not shown."),
        Field("ready", "Ready at", "moment", width=16, group=when, limits=DATES,
              help="Date with its year, and time of day, for example 2026-12-04 17:30. Without a year the program takes its own. All times are worked out backwards from here; blank: none are shown."),
    ]  # fmt: skip


def results() -> List[Field]:
    """The few results that stand beside the inputs; all of them are on Results."""
    out = "What comes out (all of it: sheet Results)"
    return [
        Field("p_water", "Water or liquid", "mass", "={r_liquid}", unit="=mass_word", width=10, group=out),
        Field("p_salt", "Salt to weigh", "small", "={r_salt}", unit="=small_word", width=10, group=out),
        Field("p_put_in", "Put in", "moment", "={r_put_in}", width=16, group=out),
        Field("p_take_out", "Take out", "moment", "={r_take_out}", width=16, group=out),
        Field("p_finding", "Worst finding, or why the row fails", "text", "={w_message}", width=110, group=out),
    ]


def grid(batches: int = MOST_BATCHES) -> Grid:
    """The plan's grid."""
    return Grid(SHEET, inputs() + results(), FIRST_ROW, batches)


def write(book: Book, sheet: Worksheet) -> None:
    """Headings, the grid, and the colours of what it says."""
    grid = book.grids[SHEET]
    styles.put(sheet, "A1", "Plan", "title")
    beside = grid.columns["method"]
    lead = book.says(
        "One row per batch, from left to right; the first blank row is ready. Needed: product, weight, thickness, "
        "method, target and ready time; for gradient also the strength, or the hours you have.",
        "A copy as values: the plan is as sent, to read and print. To change it, open the live workbook where "
        "brinecalc is installed.",
    )
    head(sheet, beside, lead, "plan_state")
    span(sheet, f"D3:{beside}3", "=" + where_installed("plan_trouble", ""), Look(size=10, wrap=True))
    sheet.row_dimensions[4].height = 6
    frame.lay_out(sheet, grid, book.layout)
    sheet.freeze_panes = f"{grid.columns['says']}{FIRST_ROW}"
    paint(sheet, f"{grid.columns['says']}{FIRST_ROW}:{grid.columns['says']}{grid.last_row}")
    paint(sheet, f"{grid.columns['p_finding']}{FIRST_ROW}:{grid.columns['p_finding']}{grid.last_row}")
    paper(sheet, grid, "p_take_out", 4)


def head(sheet: Worksheet, last_column: str, lead: str, state: str) -> None:
    """What the sheet is for and how the plan stands, beside the title: on paper they are on its first page alone."""
    span(sheet, f"D1:{last_column}1", lead, Look(size=9, colour=styles.QUIET, wrap=True))
    span(sheet, f"D2:{last_column}2", "=" + where_installed(state), Look(size=11, bold=True, wrap=True))
    for row in (1, 2, 3):
        sheet.row_dimensions[row].height = 28


def paper(sheet: Worksheet, grid: Grid, last: str, pages: int) -> None:
    """How a wide grid prints: side by side, large enough to read on a wall; what is found prints on Findings."""
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = pages, 1
    sheet.print_title_rows = f"{FIRST_ROW - 3}:{FIRST_ROW - 1}"
    sheet.print_title_cols = "A:C"
    sheet.print_area = f"A1:{grid.columns[last]}{min(FIRST_ROW + PRINTED - 1, grid.last_row)}"


def paint(sheet: Worksheet, cells: str) -> None:
    """Colours behind STOP, CAUTION, NOTE and failing rows; the word itself is always there."""
    corner = cells.split(":")[0].replace("$", "")
    for words, colour in ((("STOP", "FAILS"), styles.STOP), (("CAUTION",), styles.CAUTION), (("NOTE",), styles.NOTE)):
        tests = ",".join(f'LEFT({corner},{len(word)})="{word}"' for word in words)
        bold = styles.font(bold=words[0] != "NOTE")
        rule = FormulaRule(formula=[f"OR({tests})"], fill=styles.fill(colour), font=bold, stopIfTrue=True)
        sheet.conditional_formatting.add(cells, rule)
