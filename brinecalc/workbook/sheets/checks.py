"""The checks: each batch as one row of headings and values, and the worst finding that comes of it.

One idea: BRINE_CHECK reads a heading row and a value row, so this sheet only says which cell stands under which
heading. What the rules find and what the plan itself remarks stands beside it, all of it. A step that failed arrives as the word "error", because in Calc a function is not called at all when a
range holds an error, and because a cure that could not be worked out must stop the batch, never vanish.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.trade import limits
from brinecalc.workbook import frame, styles
from brinecalc.workbook.book import MOST_BATCHES, Book
from brinecalc.workbook.frame import Field, Grid
from brinecalc.workbook.sheets import remarks
from brinecalc.workbook.sheets.plan import FIRST_ROW
from brinecalc.workbook.sheets.steps import DRY, EVEN, NO_BATH

SHEET = "Checks"

_UNTIMED = (
    f'AND({{hours}}="",OR({EVEN},{DRY}),INDEX(list_group,{{w_listed}})="vegetable",'
    f"{{w_degree}}>{limits.value('botulinum temperature'):g})"
)
_SOAK = f'IF({_UNTIMED},"",{{w_soak}})'
"""What a vegetable has to lie where it may sour is not what the salt takes to get in, so it is not known unless typed."""

_COLUMNS: Tuple[Tuple[str, str, str], ...] = (
    ("c_product", "product", '{product}&""'),
    ("c_for", "for", '{label}&""'),  # what is served raw is told here
    ("c_weight", "edible weight", "{w_edible}"),
    ("c_pieces", "pieces", "{pieces}"),
    ("c_thickness", "thickness", "{w_size}"),
    ("c_shape", "shape", "{w_shape}"),
    ("c_method", "method", "{w_method}"),
    ("c_treatment", "treatment", "{w_treatment}"),
    ("c_water", "water", "{w_water}"),
    ("c_liquid", "liquid", '{liquid}&""'),
    ("c_strength", "strength", "{w_strength}"),
    ("c_target", "target", "{target}"),
    ("c_native", "native salt", "{w_native}"),
    ("c_sweetener", "sweetener", '{sweetener}&""'),
    ("c_sweet_level", "sweetener level", '{sweet_level}&""'),
    ("c_aroma_one", "ingredient", '{aroma_one}&""'),
    ("c_aroma_one_level", "level", '{aroma_one_level}&""'),
    ("c_aroma_two", "ingredient", '{aroma_two}&""'),
    ("c_aroma_two_level", "level", '{aroma_two_level}&""'),
    ("c_phosphate", "ingredient", '{phosphate}&""'),
    ("c_phosphate_level", "level", '{phosphate_level}&""'),
    ("c_cure", "cure", 'IF({cure}="","",{w_cure})'),
    ("c_cure_name", "cure name", '{cure}&""'),
    ("c_nitrite", "nitrite", 'IF({cure}="","",{cure_ppm})'),
    ("c_cure_strength", "cure strength", 'IF({cure}="","",INDEX(list_cure_nitrite,MATCH({cure},cure_names,0)))'),
    ("c_pickle", "pickle", 'IF({cure}="","",{w_pickle})'),
    ("c_kind", "kind", "{w_kind}"),
    ("c_rules", "rules", "rules"),
    ("c_cure_method", "cure method", '{cure_method}&""'),
    ("c_gain", "gain", "{w_gain}"),
    ("c_acid", "acid", '{acid}&""'),
    ("c_acid_mass", "acid mass", 'IF(OR({acid}="",{acid_level}=""),"",{w_acid})'),
    ("c_degree", "bath temperature", "{w_degree}"),
    ("c_soak", "soak hours", _SOAK),
    ("c_rest", "rest hours", "{w_rest}"),
    ("c_vessel", "vessel", f'IF({NO_BATH},"",{{w_vessel}})'),
    ("c_alkalinity", "alkalinity", 'IF(water_alkalinity="","",water_alkalinity)'),
    ("c_units", "figures in", "typed_units"),
    ("c_portion", "portion", 'IF({w_portion}="","",{w_portion}*(1+{w_gain}))'),
)
"""Field key, heading as BRINE_CHECK knows it, and the cell that stands under it."""


def grid(batches: int = MOST_BATCHES) -> Grid:
    """The grid of the checks, row for row in step with the plan."""
    fields: List[Field] = [
        Field(key, heading, "plain", f'=IF({{w_on}}=0,"",IFERROR({value},"error"))', width=12)
        for key, heading, value in _COLUMNS
    ]
    first, last = fields[0].key, fields[-1].key
    head = FIRST_ROW - 2
    worst = Field("c_worst", "worst finding", "text", width=80)
    columns = Grid(SHEET, fields, FIRST_ROW, batches).columns
    arguments = f"${columns[first]}${head}:${columns[last]}${head},{{{first}}}:{{{last}}}"
    worst = worst._replace(formula=f'=IF({{w_on}}=0,"",{remarks.as_headed(f"BRINE_CHECK({arguments})")})')
    return Grid(SHEET, [*fields, worst, *remarks.columns(), *remarks.findings(arguments)], FIRST_ROW, batches)


def write(book: Book, sheet: Worksheet) -> None:
    """Title and grid."""
    made = book.grids[SHEET]
    styles.put(sheet, "A1", "Checks", "title")
    styles.put(
        sheet,
        "A2",
        "Each batch as the safety rules read it. Nothing to fill in here; too wide for paper, where only this head prints.",
        "lead",
    )
    frame.lay_out(sheet, made, book.layout)
    before, lines = made.columns["c_before"], made.columns["c_lines"]
    for row in range(FIRST_ROW + 1, made.last_row + 1):
        sheet[f"{before}{row}"].value = f'={before}{row - 1}+IF({lines}{row - 1}="",0,{lines}{row - 1})'
    sheet.freeze_panes = f"B{FIRST_ROW}"
    sheet.print_area = "A1:J3"
