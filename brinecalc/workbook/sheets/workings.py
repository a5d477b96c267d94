"""The workings: every quantity of a batch in base units (g, mm, h, °C, mL), one column each.

One idea: the plan is typed and shown in the kitchen's units, but calculated here once, in the units the functions
use. Each column is one step; the columns that call a function carry the same call as a question to BRINE_WHY, so
that the first step that fails can say why.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame, styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.frame import Field, Grid
from brinecalc.workbook.sheets.plan import FIRST_ROW, ROWS

SHEET = "Workings"

TIME = "{w_degree},{w_bath},{w_shape},{w_treatment}"
"""The arguments that most time functions end with."""


def when_on(formula: str) -> str:
    """A formula that stays empty in rows without a product."""
    return f'=IF({{w_on}}=0,"",{formula})'


def call(key: str, heading: str, function: str, arguments: str, form: str = "plain", only: str = "", other: str = '""',
         outer: str = "{call}") -> Field:  # fmt: skip
    """A column that calls one of our functions, `only` where a condition holds, and can be asked why it fails."""
    made = outer.format(call=f"BRINE_{function}({arguments})")
    formula = f"IF({only},{made},{other})" if only else made
    return Field(key, heading, form, when_on(formula), why=f'BRINE_WHY("{function}",{arguments})')


def step(key: str, heading: str, formula: str, form: str = "plain", why: str = "") -> Field:
    """A column of plain arithmetic; `why` is the sentence for the plan where it ends in an error."""
    return Field(key, heading, form, when_on(formula), why=f'"{why}"' if why else "")


def typed(key: str, heading: str, source: str, value: str, blank: str, form: str = "plain", says: str = "") -> Field:
    """A figure as it was typed, in base units. Text pasted in its place fails with a sentence, whatever it says."""
    number = f"IF(ISNUMBER({{{source}}}),{value},SQRT(-1))"
    return step(key, heading, f'IF({{{source}}}="",{blank},{number})', form, why=says)


UNREAD = "A name or figure in this row cannot be read; take names from the lists and type figures as plain numbers."
MOMENT = "Ready at must be a date and a time, such as 2026-12-04 17:30."
YEAR_2000 = 36526


GRADIENT = '{w_method}="gradient"'
INJECTED = '{w_method}="injected"'
DRY = '{w_method}="dry equilibrium"'
EVEN = '{w_method}="equilibrium"'
NO_BATH = "OR(" + INJECTED + "," + DRY + ")"


def inputs() -> List[Field]:
    """What was typed, in base units, with the blanks filled in."""
    return [
        Field("w_on", "In use", "0", '=IF({product}="",0,1)'),
        step("w_method", "Method", 'IF({method}="","gradient",{method})'),
        typed("w_weight", "Weight as bought, g", "weight", "{weight}*mass_in_g", "SQRT(-1)",
              says="Weight as bought must be a plain number, in the unit at the head of its column."),
        call("w_edible", "Edible weight, g", "EDIBLE", "{w_weight},{product}"),
        step("w_size", "Thickness, mm", "IF(ISNUMBER({thickness}),{thickness}*length_in_mm,{thickness})"),
        step("w_shape", "Shape", 'IF({shape}="",INDEX(list_shape,MATCH({product},product_names,0)),{shape})',
             why="Product must be a name from the list, spelled as there."),
        step("w_treatment", "Treatment", 'IF({treatment}="","none",{treatment})'),
        step("w_native", "Native salt",
             'IF({native}="",INDEX(list_native,MATCH({product},product_names,0)),{native})', "fine_share"),
        step("w_degree", "Brine temperature, °C",
             'IF({bath_degree}="",bath_celsius,IF(typed_units="US",({bath_degree}-32)/1.8,{bath_degree}))', "temperature"),
        step("w_gain", "Gain", "IF(AND({gain}=0," + INJECTED + "),0.1,{gain}+0)", "share"),
        step("w_ratio", "Water per product", 'IF({ratio}="",bath_ratio,{ratio})'),
        step("w_bath", "Bath for time functions", f'IF({NO_BATH},"large",{{w_ratio}})'),
        typed("w_rest", "Rest, h", "rest", "{rest}", "rest_hours", "hours", "Rest must be a plain number of hours."),
        typed("w_portion", "Portion, g", "portion", "{portion}*portion_in_g", '""',
              says="Portion must be a plain number, in the unit at the head of its column."),
        typed("w_vessel", "Vessel, mL", "vessel", "{vessel}*volume_in_ml", '""',
              says="Vessel must be a plain number, in the unit at the head of its column."),
        typed("w_ready", "Ready", "ready", f"IF({{ready}}>{YEAR_2000},{frame.minute('{ready}')},SQRT(-1))", '""', "moment", MOMENT),
    ]  # fmt: skip


def salt() -> List[Field]:
    """Water, strength and salt, by method."""
    return [
        call("w_inject", "Injection strength, of the solution", "INJECTION_STRENGTH", "{target},{w_gain},{w_native}",
             "fine_share", INJECTED),
        step("w_levels", "Sum of the levels", "SUM({sweet_level},{aroma_one_level},{aroma_two_level},{phosphate_level})",
             "fine_share"),
        step("w_mix", "Injection brine mixed, g", f'IF({INJECTED},{{w_edible}}*{{w_gain}}*(1+overage),"")'),
        step("w_nitrite", "Nitrite in the injection brine, g",
             f'IF(AND({INJECTED},{{cure}}<>""),{{cure_ppm}}*0.000001*{{w_mix}}/{{w_gain}},0)'),
        step("w_water", "Water, g",
             f"IF({INJECTED},({{w_mix}}*(1-{{w_inject}})-{{w_nitrite}})/(1+{{w_levels}}),IF({DRY},0,{{w_ratio}}*{{w_edible}}))"),
        step("w_base", "What levels are a share of, g", f"IF({DRY},{{w_edible}},{{w_water}})"),
        call("w_from_hours", "Strength from the hours", "STRENGTH_FOR",
             "{product},{w_size},{target},{hours}," + TIME + ',"typical",{w_native}',
             "fine_share", f'AND({GRADIENT},{{strength}}="")', f'IF({GRADIENT},{{strength}},"")'),
        call("w_gradient_salt", "Salt by strength, g", "SALT", "{w_water},{w_from_hours}", "small", GRADIENT),
        call("w_even_salt", "Salt by balance, g", "EQUILIBRIUM_SALT", "{w_edible},{w_water},{target},{w_native}", "small",
             f"OR({EVEN},{DRY})"),
        step("w_all_salt", "All salt, g",
             f"IF({GRADIENT},{{w_gradient_salt}},IF({INJECTED},{{w_mix}}*{{w_inject}},{{w_even_salt}}))", "small"),
        call("w_strength", "Strength, of the water", "STRENGTH", "{w_all_salt},{w_water}", "fine_share", f"NOT({DRY})"),
    ]  # fmt: skip


def dose(key: str, heading: str, name: str) -> Field:
    """The mass of an ingredient given by its level."""
    use = f'IF({INJECTED},"injection","immersion")'
    return call(key, heading, "DOSE", f"{{w_base}},{{{name}_level}},{{{name}}},{use}", "small", f'{{{name}}}<>""', "0")


def extras() -> List[Field]:
    """Everything else that goes in, the curing salt, the whole brine, and what it is mixed from."""
    return [
        call("w_sweet", "Sweetener, g", "SWEETENER", "{w_base},{sweet_level},{sweetener}", "small", '{sweetener}<>""', "0"),
        dose("w_aroma_one", "Aromatic, g", "aroma_one"),
        dose("w_aroma_two", "Second aromatic, g", "aroma_two"),
        dose("w_phosphate", "Phosphate, g", "phosphate"),
        dose("w_acid", "Acid or base, g", "acid"),
        step("w_pickle", "Whole pickle, g",
             f'IF({INJECTED},{{w_mix}},({{w_water}}+{{w_all_salt}}+{{w_sweet}}+{{w_aroma_one}}+{{w_aroma_two}}+{{w_phosphate}}'
             '+{w_acid})/(1-IF({cure}="",0,{cure_ppm}*0.000001/IF({w_gain}=0,1,{w_gain}))))'),
        step("w_kind", "Kind for limits", 'IF({product}="pork belly","bacon","general")', "text"),
        call("w_cure", "Curing salt, g", "CURE",
             '{w_edible},{cure_ppm},{cure_method},IF({w_gain}=0,"",{w_gain}),'
             'IF(OR({cure_method}="dry",{cure_method}="comminuted"),"",{w_pickle}),'
             'INDEX(list_cure_nitrite,MATCH({cure},cure_names,0)),{w_kind},rules', "0.00", '{cure}<>""', "0"),
        step("w_cure_salt", "Salt the cure brings, g",
             'IF({cure}="",0,{w_cure}*INDEX(list_cure_salt,MATCH({cure},cure_names,0)))', "0.00"),
        Field("w_salt", "Salt to weigh, g", "small", when_on("IF({w_cure_salt}>{w_all_salt},SQRT(-1),{w_all_salt}-{w_cure_salt})"),
              why='"The curing salt alone brings more salt than the target needs; raise the target or use a stronger cure."'),
        call("w_water_share", "Water in the liquid", "WATER_IN", "1000,{liquid}", "fine_share", '{liquid}<>""', "1",
             outer="{call}/1000"),
        step("w_liquid", "Water or liquid, g", "{w_water}/{w_water_share}"),
        step("w_brine", "Brine, g", "{w_liquid}+{w_salt}+{w_cure}+{w_sweet}+{w_aroma_one}+{w_aroma_two}+{w_phosphate}+{w_acid}"),
        call("w_density", "Density, g/mL", "DENSITY", "{w_strength}", "0.000", f"NOT({DRY})", "1"),
        step("w_volume", "Brine, mL", f"IF({DRY},0,{{w_brine}}/{{w_density}})"),
        call("w_room", "Water the vessel takes, g", "FILL", "{w_vessel},{w_weight},headroom", "0",
             f'AND({{w_vessel}}<>"",NOT({INJECTED}),NOT({DRY}))'),
        step("w_fit", "Fit", 'IF({w_room}="","",IF({w_water}<={w_room},"fits","too full"))', "text"),
        call("w_ice", "Ice to hold back, g", "ICE", "{w_brine},tap_celsius,{w_degree},{w_strength},ice_celsius", "0",
             f'AND(NOT({DRY}),{{liquid}}="",tap_celsius>{{w_degree}})', "0"),
        step("w_plain", "Water from the tap, g", 'IF({liquid}="",{w_water}-{w_ice},0)', "0"),
    ]  # fmt: skip


def _soak(key: str, heading: str, estimate: str) -> List[Field]:
    """Soak hours of one estimate, by method.

    A dry cure goes in at the surface within about an hour and spreads from there: its time is that of a rest until
    even, not of a soak in a bath that never weakens, which would be several times longer.
    """
    waited = f"IF({EVEN},{{{key}_e}},{{{key}_d}}+1)"
    if estimate == "typical":
        waited = f"IF({{hours}}>0,{{hours}},{waited})"
    return [
        call(f"{key}_g", f"{heading}, gradient", "SOAK_HOURS",
             "{product},{w_size},{target},{w_strength}," + TIME + f',"{estimate}",{{w_native}}', "hours", GRADIENT),
        call(f"{key}_e", f"{heading}, equilibrium", "EQUILIBRIUM_HOURS",
             "{product},{w_size},closeness," + TIME + f',"{estimate}"', "hours", EVEN),
        call(f"{key}_d", f"{heading}, dry", "REST_HOURS",
             "{product},{w_size},1,evenness,{w_degree},{w_shape},{w_treatment},"
             f'"{estimate}"', "hours", DRY),
        step(key, heading, f"IF({GRADIENT},{{{key}_g}},IF({INJECTED},0,{waited}))", "hours"),
    ]  # fmt: skip


def _evening(key: str, heading: str, estimate: str) -> Field:
    return call(key, heading, "REST_HOURS",
                "{product},{w_size},{w_soak},evenness,bath_celsius,{w_shape},{w_treatment},"
                f'"{estimate}",{{w_bath}}', "hours", GRADIENT)  # fmt: skip


def times() -> List[Field]:
    """Hours and moments, backwards from when it must be ready, and where the salt stands then."""
    profile = '{product},{w_size},{w_soak},{w_rest},{w_strength},{w_degree},{w_shape},11,{w_bath},{w_treatment},"typical",{w_native}'
    uptake = "{product},{w_size},{w_soak},{w_strength}," + TIME
    return [
        *_soak("w_soak", "Soak, h", "typical"),
        *_soak("w_soak_fast", "Soak if fast, h", "fast"),
        *_soak("w_soak_slow", "Soak if slow, h", "slow"),
        _evening("w_even", "Rest until even, h", "typical"),
        _evening("w_even_fast", "Rest until even if fast, h", "fast"),
        _evening("w_even_slow", "Rest until even if slow, h", "slow"),
        step("w_put_in", "Put in", f'IF({{ready}}="","",{frame.minute("{w_ready}-({w_soak}+{w_rest})/24")})', "moment"),
        step("w_take_out", "Take out", f'IF({{ready}}="","",{frame.minute("{w_ready}-{w_rest}/24")})', "moment"),
        step("w_take_from", "Take out from", f'IF({{ready}}="","",{frame.minute("{w_put_in}+{w_soak_fast}/24")})', "moment"),
        step("w_take_to", "Take out before", f'IF({{ready}}="","",{frame.minute("{w_put_in}+{w_soak_slow}/24")})', "moment"),
        call("w_low", "Average salt if slow", "UPTAKE", uptake + ',"slow",{w_native}', "fine_share", GRADIENT, "{target}"),
        call("w_high", "Average salt if fast", "UPTAKE", uptake + ',"fast",{w_native}', "fine_share", GRADIENT, "{target}"),
        call("w_centre", "Centre after rest", "PROFILE", profile, "fine_share", f"AND({GRADIENT},ISNUMBER({{w_soak}}))", outer="INDEX({call},11,2)"),
        call("w_bath_end", "Bath at the end, of the water", "BATH_STRENGTH",
             "{product},{w_size},{w_soak},{w_strength},{w_ratio}," + "{w_degree},{w_shape},{w_treatment},\"typical\",{w_native}",
             "fine_share", f"OR({GRADIENT},{EVEN})"),
        step("w_meter", "Meter, of the solution",
             f'IF(OR({GRADIENT},{EVEN}),{{w_bath_end}}/(1+{{w_bath_end}}),IF({INJECTED},{{w_inject}},""))', "fine_share"),
    ]  # fmt: skip


INGREDIENTS: Tuple[Tuple[str, str, str], ...] = (
    ("product", "{product}", "{w_weight}"),
    ("base", 'IF({liquid}="","water",{liquid})', '{w_plain}+IF({liquid}="",0,{w_liquid})'),
    ("ice", '"ice"', "{w_ice}"),
    ("salt", '"salt"', "{w_salt}"),
    ("sweet", '{sweetener}&""', "{w_sweet}"),
    ("aroma_one", '{aroma_one}&""', "{w_aroma_one}"),
    ("aroma_two", '{aroma_two}&""', "{w_aroma_two}"),
    ("phosphate", '{phosphate}&""', "{w_phosphate}"),
    ("acid", '{acid}&""', "{w_acid}"),
    ("cure", '{cure}&""', "{w_cure}"),
)
"""What a batch is made of: key, name, grams."""


def money() -> List[Field]:
    """The list of what goes in (names, then masses), and what it costs."""
    names = [step(f"n_{key}", f"Name: {key}", name, "text") for key, name, _ in INGREDIENTS]
    masses = [step(f"m_{key}", f"Mass: {key}, g", mass, "0.0") for key, _, mass in INGREDIENTS]
    return [
        *names,
        *masses,
        call("w_cost", "Cost of the batch", "COST",
             "{n_product}:{n_cure},{m_product}:{m_cure},price_names,price_costs", "money", '{w_reason}=""'),
        step("w_finished", "Finished weight, g", "{w_edible}*(1+{w_gain})", "0"),
        step("w_cost_kg", "Cost per finished g", 'IF({w_reason}="",{w_cost}/{w_finished},"")', "fine_money"),
        step("w_portions", "Portions", 'IF({w_portion}="","",{w_edible}/{w_portion})', "0.0"),
        step("w_cost_portion", "Cost per portion", 'IF(OR({w_portion}="",{w_reason}<>""),"",{w_cost}/{w_portions})', "money"),
        call("w_sodium", "Sodium per portion, mg", "SODIUM", "{w_portion},{target}", "0", '{w_portion}<>""'),
        call("w_added", "Added solution", "ADDED_SOLUTION", "{w_edible},{w_finished}", "share", "{w_gain}>0", "0"),
    ]  # fmt: skip


def findings(fields: List[Field]) -> List[Field]:
    """The reason of the first step that fails, the worst finding, and the short word for the plan.

    A missing price does not make a batch fail: the brine is as good without it; only the money stays open.
    """
    reason = '""'
    for field in reversed([field for field in fields if field.why and field.key != "w_cost"]):
        reason = f"IF(ISERROR({{{field.key}}}),{field.why},{reason})"
    cost = next(field for field in fields if field.key == "w_cost")
    return [
        Field("w_reason", "Why the row fails", "text", when_on(f'IFERROR({reason},"{UNREAD}")')),
        step("w_no_price", "Why there is no cost", f'IF(AND(ISERROR({{w_cost}}),{{w_reason}}=""),{cost.why},"")', "text"),
        step("w_message", "Message",
             'IF({w_reason}<>"","FAILS: "&{w_reason},{c_worst})&IF({w_no_price}="","","  Money: "&{w_no_price})', "text"),
        Field("w_fails", "Fails", "0", '=IF({w_on}=0,0,IF({w_reason}="",0,1))'),
        Field("w_unpriced", "No cost", "0", '=IF({w_on}=0,0,IF(ISERROR({w_cost}),1,0))'),
        step("w_says", "Says",
             'IF({w_fails}=1,"FAILS",IF(LEFT({w_message},4)="STOP","STOP",IF(LEFT({w_message},7)="CAUTION","CAUTION",'
             'IF(LEFT({w_message},4)="NOTE","NOTE","ok"))))', "text"),
    ]  # fmt: skip


def grid() -> Grid:
    """The grid of the workings, row for row in step with the plan."""
    fields = inputs() + salt() + extras() + times() + money()
    return Grid(SHEET, fields + findings(fields), FIRST_ROW, ROWS)


def write(book: Book, sheet: Worksheet) -> None:
    """Title, grid, and the two names that tell the other sheets whether the plan holds."""
    made, layout = book.grids[SHEET], book.layout
    styles.put(sheet, "A1", "Workings", "title")
    styles.put(sheet, "A2", "Every step of every batch in g, mm, h, °C and mL. Nothing to fill in here.", "lead")
    styles.put(sheet, "A3", "Rows that fail", "quiet")
    whole = layout.whole("w_fails", SHEET)
    styles.put(sheet, "C3", f"=SUM({whole})", "cell", "count")
    book.name("plan_fails", SHEET, "$C$3")
    styles.put(sheet, "E3", "Batches", "quiet")
    styles.put(sheet, "F3", f"=SUM({layout.whole('w_on', SHEET)})", "cell", "count")
    book.name("plan_batches", SHEET, "$F$3")
    styles.put(sheet, "N3", "Batches without a cost", "quiet")
    styles.put(sheet, "P3", f"=SUM({layout.whole('w_unpriced', SHEET)})", "cell", "count")
    book.name("plan_unpriced", SHEET, "$P$3")
    styles.put(sheet, "H3", "Batches with a STOP", "quiet")
    styles.put(sheet, "J3", f'=COUNTIF({layout.whole("w_says", SHEET)},"STOP")', "cell", "count")
    book.name("plan_stops", SHEET, "$J$3")
    styles.put(
        sheet,
        "L3",
        '=IF(plan_batches=0,"No batch yet.",plan_batches&IF(plan_batches=1," batch. "," batches. ")'
        '&IF(plan_fails>0,plan_fails&" not worked out: totals stay open until mended. ","All worked out. ")'
        '&IF(plan_unpriced>0,plan_unpriced&" without a cost: a price is missing. ","")'
        '&IF(plan_stops>0,plan_stops&" with a STOP: do not start before it is answered.",""))',
        "cell",
    )
    book.name("plan_state", SHEET, "$L$3")
    frame.lay_out(sheet, made, layout)
    sheet.freeze_panes = f"B{FIRST_ROW}"
