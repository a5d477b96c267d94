"""The workings: every quantity of a batch in base units (g, mm, h, °C, mL), one column each.

One idea: the plan is typed and shown in the kitchen's units, but calculated here once, in the units the functions
use. Each column is one step; the columns that call a function carry the same call as a question to BRINE_WHY, so
that the first step that fails can say why.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.trade import limits
from brinecalc.workbook import frame, styles
from brinecalc.workbook.agreed import AS_VALUES, WITHOUT_PRICES
from brinecalc.workbook.book import MOST_BATCHES, Book
from brinecalc.workbook.frame import Field, Grid
from brinecalc.workbook.sheets import near, plan, reasons, typed_figures, waits
from brinecalc.workbook.sheets.plan import FIRST_ROW, PRINTED
from brinecalc.workbook.sheets.steps import (
    COLD,
    DRY,
    EVEN,
    GRADIENT,
    INJECTED,
    METHODS,
    NO_BATH,
    TIME,
    WET,
    call,
    got,
    step,
    typed,
    when_on,
)

SHEET = "Workings"

FOREVER = 100_000
"""Hours after which nothing moves any more, whatever the product."""

LEVELS = (
    ("sweetener", "sweet_level"),
    ("aroma_one", "aroma_one_level"),
    ("aroma_two", "aroma_two_level"),
    ("phosphate", "phosphate_level"),
    ("acid", "acid_level"),
)
"""What is given by a level, and the field of that level."""


def inputs() -> List[Field]:
    """What was typed, in base units, with the blanks filled in."""
    methods = ",".join(f'{{method}}="{name}"' for name in METHODS)
    in_place = frame.in_place(plan.inputs(), plan.SHEET, FIRST_ROW - 2)
    return [
        Field("w_here", "Its cells are in place", "0", f"=IF({in_place},0,SQRT(-1))", why=f'"{frame.MOVED}"'),
        Field("w_on", "In use", "0", '=IF(ISERROR({w_here}),1,IF({product}<>"",1,IF(COUNTA({pieces}:{ready:bare})>0,1,0)))'),
        step("w_set", "The settings for all batches hold", 'IF(wrong_setting="",0,SQRT(-1))')._replace(why="wrong_setting"),
        step("w_near", "Product as the list has it, where another name is typed",
             f'IF(OR({{product}}="",COUNTIF(product_names,{{product}})>0),"",{near.listed_as("{product}", "alias")})', "text"),
        step("w_product", "Product", 'IF({w_here}=0,IF({product}="",SQRT(-1),IF({w_near}="",{product},{w_near})))', "text",
             why="Product is missing; choose one from the list, or clear the row."),
        step("w_method", "Method", f'IF({{method}}="","{METHODS[0]}",IF(OR({methods}),{{method}},SQRT(-1)))', "text",
             why=f"Method must be one of the list: {', '.join(METHODS[:-1])} or {METHODS[-1]}. Pumped and soaked is two "
                 "rows: injected, then gradient with Treated needled and Salt in it already filled in."),
        typed_figures.weight(),
        call("w_edible", "Edible weight, g", "EDIBLE", "{w_weight},{product}"),
        *typed_figures.thickness(),
        step("w_listed", "Its place in the list", "MATCH({w_product},product_names,0)", "count")._replace(
            why=got("Product must be a name of its list, spelled as there", "product")),
        step("w_shape", "Shape", 'IF({shape}="",INDEX(list_shape,{w_listed}),{shape})'),
        step("w_treatment", "Treatment", 'IF({treatment}="","none",{treatment})'),
        step("w_native", "Native salt",
             'IF({native}="",INDEX(list_native,{w_listed}),{native})', "fine_share"),
        *typed_figures.degree(),
        typed_figures.hours(),
        typed("w_ppm", "Nitrite, ppm", "cure_ppm", "{cure_ppm}", '""', "count", "Nitrite must be a plain number of ppm|, such as 120"),
        step("w_gain", "Gain", "IF(AND({gain}=0," + INJECTED + "),0.1,{gain}+0)", "share"),
        typed_figures.ratio(),
        step("w_bath", "Bath for time functions", f'IF({NO_BATH},"large",{{w_ratio}})'),
        *typed_figures.remaining(),
    ]  # fmt: skip


def _given() -> Field:
    """Whether there is enough to go by: the salt wanted, and for a gradient brine a strength or hours."""
    field = step("w_given", "Enough is given",
                 f'IF(OR({{target}}="",AND({GRADIENT},{{strength}}="",{{hours}}="")),SQRT(-1),"")')  # fmt: skip
    target = '"Salt wanted in the product is missing; type a share such as 1%."'
    way = '"A gradient brine needs a strength or the hours you have; fill in one of the two."'
    return field._replace(why=f'IF({{target}}="",{target},{way})')


def _mixed() -> Field:
    """The injection brine with what stays in hoses; 10 where 10 % is meant would be ten times the brine too much."""
    mixed = "IF(AND(overage>=0,overage<1),{w_edible}*{w_gain}*(1+overage),SQRT(-1))"
    field = step("w_mix", "Injection brine mixed, g", f'IF({INJECTED},{mixed},"")')
    name = f'"{reasons.SETTINGS["overage"]}, on Start, must be '
    share = 'at least 0 % and below 100 %, got "&overage&", which is "&ROUND(100*overage+1E-9,2)&" %'
    text = f'{name}a plain number, got """&overage&"""."'
    return field._replace(why=f'IF(ISTEXT(overage),{text},{name}{share}; type 10% for 10 per cent.")')


def salt() -> List[Field]:
    """Water, strength and salt, by method."""
    return [
        _given(),
        call("w_inject", "Injection strength, of the solution", "INJECTION_STRENGTH", "{target},{w_gain},{w_native}",
             "fine_share", INJECTED),
        step("w_levels", "Sum of the levels", "+".join(
            f'IF({{{name}}}="",0,{{{level}}})' for name, level in LEVELS if name != "acid"), "fine_share"),
        _mixed(),
        step("w_nitrite", "Nitrite in the injection brine, g",
             f'IF(AND({INJECTED},{{cure}}<>""),IF({{w_ppm}}="",0,{{w_ppm}})*0.000001*{{w_mix}}/{{w_gain}},0)'),
        step("w_water", "Water, g",
             f"IF({INJECTED},({{w_mix}}*(1-{{w_inject}})-{{w_nitrite}})/(1+{{w_levels}}),IF({DRY},0,{{w_ratio}}*{{w_edible}}))"),
        step("w_base", "What levels are a share of, g", f"IF({DRY},{{w_edible}},{{w_water}})"),
        call("w_from_hours", "Strength from the hours", "STRENGTH_FOR",
             "{product},{w_size},{target},{w_hours}," + TIME + ',"typical",{w_native}',
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
    """Everything else that goes in, the curing salt, the whole brine, and what it is mixed from.

    The water of a vinegar or juice is water of the brine: so much less is poured, or salt and meter would be wrong.
    """
    return [
        call("w_sweet", "Sweetener, g", "SWEETENER", "{w_base},{sweet_level},{sweetener}", "small", '{sweetener}<>""', "0"),
        dose("w_aroma_one", "Aromatic, g", "aroma_one"),
        dose("w_aroma_two", "Second aromatic, g", "aroma_two"),
        dose("w_phosphate", "Phosphate, g", "phosphate"),
        dose("w_acid", "Acid or base, g", "acid"),
        call("w_acid_water", "Water the acid brings, g", "WATER_IN", "{w_acid},{acid}", "0.0",
             f'AND({{acid}}<>"",NOT({DRY}))', "0"),
        step("w_poured", "Water besides, g", "IF({w_acid_water}>{w_water},SQRT(-1),{w_water}-{w_acid_water})", "0.0",
             why="The acid or base brings more water than the whole brine has; take less of it, or more water per product."),
        step("w_pickle", "Whole pickle, g",
             f'IF({INJECTED},{{w_mix}},({{w_poured}}+{{w_all_salt}}+{{w_sweet}}+{{w_aroma_one}}+{{w_aroma_two}}+{{w_phosphate}}'
             '+{w_acid})/(1-IF({cure}="",0,IF({w_ppm}="",0,{w_ppm})*0.000001/IF({w_gain}=0,1,{w_gain}))))'),
        step("w_kind", "Kind for limits", 'IF(ISNUMBER(SEARCH("pork belly",{w_product})),"bacon","general")', "text"),
        call("w_cure", "Curing salt, g", "CURE",
             '{w_edible},{w_ppm},{cure_method},IF({w_gain}=0,"",{w_gain}),'
             'IF(OR({cure_method}="dry",{cure_method}="comminuted"),"",{w_pickle}),'
             'INDEX(list_cure_nitrite,MATCH({cure},cure_names,0)),{w_kind},rules', "0.00", '{cure}<>""', "0"),
        step("w_cure_salt", "Salt the cure brings, g",
             'IF({cure}="",0,{w_cure}*INDEX(list_cure_salt,MATCH({cure},cure_names,0)))', "0.00"),
        Field("w_salt", "Salt to weigh, g", "small", when_on("IF({w_cure_salt}>{w_all_salt},SQRT(-1),{w_all_salt}-{w_cure_salt})"),
              why='"The curing salt alone brings more salt than the target needs; raise the target or use a stronger cure."'),
        call("w_water_share", "Water in the liquid", "WATER_IN", "1000,{liquid}", "fine_share", '{liquid}<>""', "1",
             outer="{call}/1000"),
        step("w_liquid", "Water or liquid, g", "{w_poured}/{w_water_share}"),
        step("w_brine", "Brine, g", "{w_liquid}+{w_salt}+{w_cure}+{w_sweet}+{w_aroma_one}+{w_aroma_two}+{w_phosphate}+{w_acid}"),
        call("w_density", "Density, g/mL", "DENSITY", "{w_strength}", "0.000", f"NOT({DRY})", "1"),
        step("w_volume", "Brine, mL", f"IF({DRY},0,{{w_brine}}/{{w_density}})"),
        call("w_room", "Water the vessel takes, g", "FILL", "{w_vessel},{w_weight},headroom", "0",
             f'AND({{w_vessel}}<>"",NOT({INJECTED}),NOT({DRY}))'),
        step("w_fit", "Fit", 'IF({w_room}="","",IF({w_water}<={w_room},"fits","too full"))', "text"),
        step("w_chilled", "Brine before food goes in, °C",  # no warmer than the card lets it in
             f"IF(INDEX(list_perishable,{{w_listed}})=1,MIN({{w_degree}},{COLD:g}),{{w_degree}})", "temperature"),
        call("w_ice", "Ice to hold back, g", "ICE", "{w_brine},tap_celsius,{w_chilled},{w_strength},ice_celsius", "0",
             f'AND(NOT({DRY}),{{liquid}}="",tap_celsius>{{w_chilled}})', "0", outer="MIN({call},{{w_liquid}})"),
        step("w_plain", "Water from the tap, g", 'IF({liquid}="",{w_liquid}-{w_ice},0)', "0"),
    ]  # fmt: skip


def _evening(key: str, heading: str, estimate: str) -> Field:
    return call(key, heading, "REST_HOURS",
                "{product},{w_size},{w_soak},evenness,bath_celsius,{w_shape},{w_treatment},"
                f'"{estimate}",{{w_bath}}', "hours", GRADIENT)  # fmt: skip


def _average(key: str, heading: str, estimate: str) -> Field:
    """Average salt at the end of the soak, on the plan's own reckoning.

    In an equilibrium brine the part of the way that is done by then is a matter of diffusion, where the way leads a
    matter of the balance of weights, which counts the product's solids as water. What is in the product itself stands
    beside it, in w_taken: that is what meter and Log go by.
    """
    arguments = f'{{product}},{{w_size}},{{w_soak}},{{w_strength}},{TIME},"{estimate}",{{w_native}}'
    taken = "{w_taken}" if estimate == "typical" else f"BRINE_UPTAKE({arguments})"
    part = f"{{w_native}}+({{target}}-{{w_native}})*({taken}-{{w_native}})/({{w_whole}}-{{w_native}})"
    gradient = "{target}" if estimate == "typical" else taken
    even = f"IF({{w_whole}}={{w_native}},{{target}},{part})"
    field = call(key, heading, "UPTAKE", arguments, "fine_share")
    return field._replace(formula=when_on(f"IF({GRADIENT},{gradient},IF({EVEN},{even},{{target}}))"))


def _meter() -> List[Field]:
    """What a salt meter shows at the end, of the solution, or in the injection brine.

    Sugar slows the current, so a salt meter shows too little. Two steps find the reading that BRINE_METER would turn
    back into the strength, as for the card.
    """
    sugar = (
        f'IF({DRY},0,(IF({{sweetener}}="",0,BRINE_SUGARS({{w_sweet}},{{sweetener}}))'
        '+IF({liquid}="",0,BRINE_SUGARS({w_liquid},{liquid}))+IF({acid}="",0,BRINE_SUGARS({w_acid},{acid})))/{w_brine})'
    )

    def reading(before: str) -> str:
        better = f'{before}*{{w_strength}}/BRINE_METER({before},"salt meter","","water",{{w_sugar}})'
        return f'IF({DRY},"",IF(OR({{w_sugar}}=0,{{w_start}}=0),{before},{better}))'

    return [
        step("w_sugar", "Sugar, of the brine", sugar, "fine_share"),
        step("w_start", "Salt, of water and salt", f'IF({DRY},"",{{w_strength}}/(1+{{w_strength}}))', "fine_share"),
        step("w_guess", "Meter at the start, first step", reading("{w_start}"), "fine_share"),
        step("w_shows", "Meter at the start", reading("{w_guess}"), "fine_share"),
        call("w_bath_end", "Bath at the end, of the water", "BATH_STRENGTH",
             "{product},{w_size},{w_soak},{w_strength},{w_ratio}," + "{w_degree},{w_shape},{w_treatment},\"typical\",{w_native}",
             "fine_share", WET),
        step("w_meter", "Meter at the end",
             f'IF({WET},{{w_shows}}/{{w_start}}*{{w_bath_end}}/(1+{{w_bath_end}}),{{w_shows}})', "fine_share",
             why="What the meter shows cannot be worked out from this row."),
    ]  # fmt: skip


def times() -> List[Field]:
    """Hours and moments, backwards from when it must be ready, and where the salt stands then."""
    whole = f"{{product}},{{w_size}},{FOREVER},{{w_strength}},4,{{w_bath}},{{w_shape}},{{w_treatment}}"
    taken = f'{{product}},{{w_size}},{{w_soak}},{{w_strength}},{TIME},"typical",{{w_native}}'
    profile = '{product},{w_size},{w_soak},{w_rest},{w_strength},{w_degree},{w_shape},11,{w_bath},{w_treatment},"typical",{w_native}'
    return [
        waits.custom(),
        *waits.soak("w_soak", "Soak, h", "typical"),
        *waits.soak("w_soak_fast", "Soak if fast, h", "fast"),
        *waits.soak("w_soak_slow", "Soak if slow, h", "slow"),
        _evening("w_even", "Rest until even, h", "typical"),
        _evening("w_even_fast", "Rest until even if fast, h", "fast"),
        _evening("w_even_slow", "Rest until even if slow, h", "slow"),
        step("w_put_in", "Put in", f'IF({{ready}}="","",{frame.minute("{w_ready}-({w_soak}+{w_rest})/24")})', "moment"),
        step("w_take_out", "Take out", f'IF({{ready}}="","",{frame.minute("{w_ready}-{w_rest}/24")})', "moment"),
        step("w_take_from", "Take out from", f'IF({{ready}}="","",{frame.minute("{w_put_in}+{w_soak_fast}/24")})', "moment"),
        step("w_take_to", "Take out before", f'IF({{ready}}="","",{frame.minute("{w_put_in}+{w_soak_slow}/24")})', "moment"),
        call("w_whole", "In the product itself if left for ever", "UPTAKE", whole + ',"typical",{w_native}', "fine_share", EVEN),
        call("w_taken", "In the product itself", "UPTAKE", taken, "fine_share", EVEN),
        _average("w_average", "Average salt", "typical"),
        _average("w_low", "Average salt if slow", "slow"),
        _average("w_high", "Average salt if fast", "fast"),
        call("w_centre", "Centre after rest", "PROFILE", profile, "fine_share", f"AND({GRADIENT},ISNUMBER({{w_soak}}))", outer="INDEX({call},11,2)"),
        *_meter(),
    ]  # fmt: skip


INGREDIENTS: Tuple[Tuple[str, str, str], ...] = (
    ("product", '{w_product}&""', "{w_weight}"),
    ("base", f'IF({{liquid}}="","water",{near.bought("{liquid}")})', '{w_plain}+IF({liquid}="",0,{w_liquid})'),
    ("ice", '"ice"', "{w_ice}"),
    ("salt", '"salt"', "{w_salt}"),
    ("sweet", near.bought("{sweetener}"), "{w_sweet}"),
    ("aroma_one", near.bought("{aroma_one}"), "{w_aroma_one}"),
    ("aroma_two", near.bought("{aroma_two}"), "{w_aroma_two}"),
    ("phosphate", near.bought("{phosphate}"), "{w_phosphate}"),
    ("acid", near.bought("{acid}"), "{w_acid}"),
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
        call("w_sodium", "Sodium per portion, mg", "SODIUM", "{w_portion}*(1+{w_gain}),{target}", "0", '{w_portion}<>""'),
        step("w_labelled", "The same as the label has it: by EU rules as salt, g",
             f'IF({{w_sodium}}="","",IF(rules="EU",{{w_sodium}}/1000*{limits.value("salt from sodium", "EU"):g},{{w_sodium}}))', "0.00"),
        call("w_added", "Added solution", "ADDED_SOLUTION", "{w_edible},{w_finished}", "share", "{w_gain}>0",
             'IF({gain}="","not measured",0)'),
    ]  # fmt: skip


def grid(batches: int = MOST_BATCHES) -> Grid:
    """The grid of the workings, row for row in step with the plan."""
    fields = inputs() + salt() + extras() + times() + money()
    return Grid(SHEET, fields + reasons.columns(fields, [key for key, _, _ in INGREDIENTS]), FIRST_ROW, batches)


def write(book: Book, sheet: Worksheet) -> None:
    """Title, grid, and the names that tell the other sheets whether the plan holds."""
    made, layout = book.grids[SHEET], book.layout
    styles.put(sheet, "A1", "Workings", "title")
    styles.put(
        sheet,
        "A2",
        "Every step of every batch in g, mm, h, °C and mL. Nothing to fill in here; too wide for paper, where only this head prints.",
        "lead",
    )
    _counts(book, sheet)
    styles.put(
        sheet,
        "L3",
        '=TRIM(IF(plan_batches=0,"No batch yet.",plan_batches&IF(plan_batches=1," batch. "," batches. ")'
        '&IF(plan_fails>0,plan_fails&" not worked out: totals stay open until mended. ","All worked out. ")'
        '&IF(plan_unpriced>0,plan_unpriced&IF(plan_unpriced=1," batch"," batches")&" without a cost: a price is missing or wrong. ","")'
        '&IF(plan_stops>0,plan_stops&" with a STOP: do not start before it is answered. ","")'
        f'&IF({_below(book)}>0,"Paper holds the first {PRINTED} rows of Plan and Results; to print the rest, mark its rows and print the selection.","")))',
        "cell",
    )
    book.name("plan_state", SHEET, "$L$3")
    styles.put(sheet, "N3", _first_trouble(book), "cell")
    book.name("plan_trouble", SHEET, "$N$3")
    frame.lay_out(sheet, made, layout)
    sheet.freeze_panes = f"B{FIRST_ROW}"
    sheet.print_area = "A1:J3"


def _counts(book: Book, sheet: Worksheet) -> None:
    """How many batches there are, fail, stop or have no cost; each in a named cell."""
    layout = book.layout
    says = layout.whole("w_says", SHEET)
    counts = (
        ("A3", "Rows that fail", "C3", f"=SUM({layout.whole('w_fails', SHEET)})", "plan_fails"),
        ("E3", "Batches", "F3", f"=SUM({layout.whole('w_on', SHEET)})", "plan_batches"),
        (
            "O3",
            "Batches without a cost",
            "Q3",
            f'=SUMIF({says},"<>STOP",{layout.whole("w_unpriced", SHEET)})',
            "plan_unpriced",
        ),
        ("H3", "Batches with a STOP", "J3", f'=COUNTIF({says},"STOP")', "plan_stops"),
        ("S3", "A copy as values (1 yes)", "U3", 0, AS_VALUES),
        ("V3", "A copy without prices (1 yes)", "X3", 0, WITHOUT_PRICES),
    )
    for label, words, at, value, name in counts:
        styles.put(sheet, label, words, "quiet")
        styles.put(sheet, at, value, "cell", "count")
        book.name(name, SHEET, f"${at[0]}$3")


def _below(book: Book) -> str:
    """How many batches stand in rows that do not print."""
    column, end = book.layout.whole("w_on", SHEET).rpartition(":")[::2]
    letter = column.split("$")[1]
    if book.options.batches <= PRINTED:
        return "0"
    return f"SUM(${letter}${FIRST_ROW + PRINTED}:{end})"


def _first_trouble(book: Book) -> str:
    """The first batch that fails or, where none does, the first with a STOP, and why."""
    says, reasons_why, found = (book.layout.whole(key, SHEET) for key in ("w_says", "w_reason", "c_first"))
    number = f'MATCH("{{word}}",{says},0)'
    fails, stops = (number.replace("{word}", word) for word in ("FAILS", "STOP"))
    return (
        f'=IF(plan_fails>0,"Batch "&{fails}&" FAILS: "&INDEX({reasons_why},{fails}),'
        f'IF(plan_stops>0,"Batch "&{stops}&" "&INDEX({found},{stops}),""))'
    )
