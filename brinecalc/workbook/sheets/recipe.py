"""The recipe: one brine in full, typed here or taken from a batch of the plan, for any amount.

One idea: the page reads from one block of cells beside it (what is made, from how much, at which strength), and that
block decides between the two ways of filling it. So every line of the recipe has one formula for its weight, whether
it was typed on the page or planned as a batch.
"""

from __future__ import annotations

from typing import Dict, List, Tuple

from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Alignment, Font
from openpyxl.worksheet.pagebreak import Break
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame, page, styles
from brinecalc.workbook.agreed import where_installed
from brinecalc.workbook.book import Book
from brinecalc.workbook.chosen import Chosen
from brinecalc.workbook.frame import Field
from brinecalc.workbook.sheets import recipe_block, recipe_page
from brinecalc.workbook.sheets.ingredient_lists import CURE_TURN, ICE_TURN, SALT_TURN, WATER_TURN

SHEET = "Recipe"
INGREDIENTS = 12
FIXED = ("water", "ice held back", "salt", "liquid for water", "curing salt")
SALT, LIQUID, CURE = 2, 3, 4
TOP = 13
"""First line of the table of what goes in."""

LAST = TOP + len(FIXED) + INGREDIENTS - 1
FROM_PLAN = ("sweetener", "aroma_one", "aroma_two", "phosphate", "acid")
"""What the first typed lines become when a batch is taken from the plan."""

SUGARY = ("sweetener", "juice", "vinegar", "wine", "drink", "dairy", "sauce")
"""Roles of what dissolves in the brine with its sugar; that of herbs and spices stays in them."""

Formulas = Dict[str, Tuple[str, str]]
"""Column → formula and form."""

_WIDTHS = (5, 23, 13, 23, 17, 9, 8, 8, 9, 10, 6, 14, 24, 3, 12, 8, 8, 8, 8, 9, 40)
BLOCK = 23
CHECKS = 26

_HEADINGS: Tuple[Tuple[str, str], ...] = (
    ("", ""), ("Ingredient", "typed"), ("Level", "of the water"), ("In this recipe", ""), ("What it does", ""),
    ("Level", "of the water"), ("Usual low", ""), ("Usual high", ""), ("Ceiling", ""), ("Weight", ""), ("", ""),
    ("Cost", '=price_word&""'), ("Says", ""),
)  # fmt: skip


def write(book: Book, sheet: Worksheet) -> None:
    """Inputs, the block behind, the table, what to expect, and the order of adding."""
    for number, width in enumerate(_WIDTHS, 1):
        sheet.column_dimensions[sheet.cell(1, number).column_letter].width = width
    styles.put(sheet, "A1", "Recipe", "title")
    lead = book.says(
        "One brine in full. Type it here, or give a batch number to take it from the plan; then scale it "
        "by water, by vessel or by product weight.",
        "A copy as values: give a batch number, or none for the brine typed here, made for the amount as sent. "
        "For another brine or amount, open the live workbook where brinecalc is installed.",
    )
    styles.put(sheet, "A2", lead, "lead")
    places = _inputs(book, sheet)
    block = recipe_block.write(book, sheet, places, BLOCK, (TOP + 2, LAST))
    recipe_block.checks(sheet, block, CHECKS, TOP + len(FIXED), INGREDIENTS)
    page.span(sheet, "A3:M3", block.fill("=" + where_installed(recipe_block.STATE)), page.Look(size=11, bold=True))
    _table(sheet, block)
    row = recipe_page.expected(sheet, block, LAST + 3)
    sheet.row_breaks.append(Break(id=row))
    end = recipe_page.steps(sheet, block, row + 1, TOP, LAST)
    sheet.freeze_panes = "A4"
    sheet.print_area = f"A1:M{end}"
    page.margins(sheet, "landscape")
    sheet.page_setup.fitToHeight = 0


def _inputs(book: Book, sheet: Worksheet) -> dict[str, str]:
    """The cells to fill in above the table; answers where each stands."""
    for column in "ABCDEFGHIJKLM":
        styles.put(sheet, f"{column}4", "What to make" if column == "A" else None, "section")
    fields: List[Tuple[str, str, Field]] = [
        ("A5", "C5", Field("batch", "Batch of the plan", "count", limits=(1, book.options.batches),
                           help="Number of a row on Plan. Blank: the brine typed on this page.")),
        ("A6", "C6", Field("scale", "Scale by", "text", choices='"as planned,water,vessel,product weight"',
                           help="Which of the amounts on the right sets the size. Blank: as planned, or by water.")),
        ("A7", "C7", Field("use", "Used for", "text", choices='"immersion,injection,vegetable"',
                           help="Decides usual ranges and ceilings. Blank: immersion. A batch brings its own.")),
        ("D5", "E5", Field("product", "Product", "text", choices="product_names", free=True,
                           help="For the findings: one of the list, or another name of it. A batch brings its own.")),
        ("D6", "E6", Field("liquid", "Instead of water", "text", choices="liquid_names", help="Blank: water. A batch brings its own.")),
        ("D7", "E7", Field("strength", "Salt, of the water", "fine_share", limits=(0, 0.35), help="A batch brings its own.")),
        ("D8", "E8", Field("alkalinity", "Alkalinity, mg/L", "0", limits=(0, 1000),
                           help="As CaCO3, from the water report; for the pH. Blank, and for a batch: as on Start.")),
        ("F5", "J5", Field("water", "Water", "volume", unit="=typed_volume", limits=(0.01, 100000), help="Ice included.")),
        ("F6", "J6", Field("vessel", "Vessel, inside", "volume", unit="=typed_volume", limits=(0.01, 100000),
                           help="Filled round the product, with the headroom set on Start.")),
        ("F7", "J7", Field("weight", "Product weight as bought", "mass", unit="=typed_mass", limits=(0.001, 100000),
                           help="The batch is scaled to it; or typed brine is made for it.")),
        ("F8", "J8", Field("ratio", "Water per weight of product", "0.00", limits=(0.05, 20), help="Blank: as on Start.")),
    ]  # fmt: skip
    places = {}
    for label, at, field in fields:
        styles.put(sheet, label, field.heading, "body")
        sheet[label].alignment = Alignment("left", "center", indent=0 if label[0] == "A" else 1)
        styles.put(sheet, at, None, "input", field.form)
        sheet[at].alignment = Alignment(horizontal="left" if field.form == "text" else "right", vertical="center")
        frame.validate(sheet, field, at)
        if field.unit:
            styles.put(sheet, "K" + at[1:], field.unit, "quiet")
            sheet["K" + at[1:]].alignment = Alignment("left", "center", indent=1)
        places[f"{field.key}_in"] = f"${at[0]}${at[1:]}"
        book.name(f"recipe_{field.key}", SHEET, places[f"{field.key}_in"])
    return places


def _heads(sheet: Worksheet, block: Chosen) -> None:
    """The headings of the table; what a level is a share of goes by the batch."""
    for column in "ABCDEFGHIJKLM":
        styles.put(sheet, f"{column}{TOP - 3}", "What goes in" if column == "A" else None, "section")
    for number, (words, unit) in enumerate(_HEADINGS, 1):
        styles.put(sheet, sheet.cell(TOP - 2, number).coordinate, words, "heading")
        styles.put(sheet, sheet.cell(TOP - 1, number).coordinate, unit or None, "unit")
    for column, words in zip(
        "OPQRSTUVW",
        (
            "Grams",
            "In Lists",
            "Turn",
            "Step",
            "Fails",
            "Ceiling is",
            "Why it fails",
            "Water in it, g",
            "Sugar in it, g",
        ),
    ):
        styles.put(sheet, f"{column}{TOP - 2}", words, "heading")
    sheet[f"F{TOP - 1}"].value = block.fill('=IF({dry}=1,"of the product","of the water")')
    sheet.row_dimensions[TOP - 2].height = 27


def _table(sheet: Worksheet, block: Chosen) -> None:
    """What goes in: typed, looked up, weighed, priced."""
    _heads(sheet, block)
    for row in range(TOP, LAST + 1):
        _line(sheet, block, row)
    low, high = f"C{TOP + len(FIXED)}", f"C{LAST}"
    names = Field(
        "line", "Ingredient", choices="dosed_names", help="Choose from the list; curing salt is not dosed by the water."
    )
    level = Field("level", "Level", "fine_share", limits=(0, 1), help="Share of the water, such as 0.5%.")
    frame.validate(sheet, names, f"B{low[1:]}:B{high[1:]}")
    frame.validate(sheet, level, f"{low}:{high}")
    unused = Font(color=styles.QUIET, italic=True, strike=True)
    for cells in (f"B{low[1:]}:{high}", "E5:E8", "C7", "J8"):
        sheet.conditional_formatting.add(cells, FormulaRule(formula=['$C$5<>""'], font=unused))
    words = (
        '=IF({batch_in}="","Curing salt goes by the weight of the product: plan it as a batch and give its number above.",'
        '"What is struck through was typed on this page and is not used while a batch number stands above.")'
    )
    styles.put(sheet, "A9", block.fill(words), "quiet")
    _total(sheet, block, LAST + 1)


def _line(sheet: Worksheet, block: Chosen, row: int) -> None:
    """One line of the table and the steps behind it."""
    number = row - TOP
    fixed = number < len(FIXED)
    name, grams, level, why = _fixed(number, row) if fixed else _typed(number - len(FIXED), row)
    styles.put(sheet, f"A{row}", number + 1, "cell", "count")
    styles.put(sheet, f"B{row}", FIXED[number] if fixed else None, "quiet" if fixed else "input", "text")
    styles.put(sheet, f"C{row}", None, "cell" if fixed else "input", "fine_share")
    role = f'IF($P{row}="","",INDEX(list_role,$P{row}))'
    if fixed and number != LIQUID:
        role = f'"{FIXED[number].replace(" held back", "")}"'
    formulas = {
        "D": (name, "text"),
        "E": (f'IF($D{row}="","",{role})', "text"),
        "F": (level, "fine_share"),
        **_bounds(row, doses=not fixed or number == SALT),
        **_weighed(row, grams, number == CURE),
        "M": (_says(row), "text"),
        "Q": (f'IF($D{row}="","",100*{_turn(number, row)}+{number})', "0"),
        "U": (f'IF($S{row}<>0,{why},"")', "text"),
        **({} if fixed else {"V": (_brought(row), "0.0")}),
        **({} if fixed and number != LIQUID else {"W": (_sugar(row, fixed), "0.0")}),
    }
    for column, (formula, form) in formulas.items():
        styles.put(sheet, f"{column}{row}", block.fill("=" + formula), "cell", form)
        if column in "DEKM":  # words beside figures need air
            sheet[f"{column}{row}"].alignment = Alignment("left", "center", indent=1)
        elif column in "JL":
            sheet[f"{column}{row}"].alignment = Alignment("right", "center")
    sheet[f"M{row}"].font = styles.font(9)
    sheet[f"B{row}"].alignment = Alignment("left", "center", indent=1)
    sheet.row_dimensions[row].height = 13


def _bounds(row: int, doses: bool) -> Formulas:
    """The usual range of a line and its ceiling; the strength of the salt has a usual range too, water has none."""
    usual = '""'
    if doses:
        usual = f'IF(OR($D{row}="",{{dry}}=1),"",IFERROR(INDEX(BRINE_USUAL_RANGE($D{row},{{use}}),1,{{part}}),"none"))'
    stop = 'IF({use}="injection",{0}injection,IF({use}="vegetable",{0}vegetable,{0}immersion))'
    ceiling, kind = (stop.replace("{0}", part) for part in ("list_stop_", "list_stop_kind_"))
    dissolved = ",{dry}=1" if row == TOP + SALT else ""  # its ceiling is what water dissolves
    known = f'OR($D{row}="",$P{row}=""{dissolved})' if doses else "TRUE"
    return {
        "G": (usual.replace("{part}", "1"), "fine_share"),
        "H": (usual.replace("{part}", "2"), "fine_share"),
        "I": (f'IF({known},"",IF(INDEX({ceiling},$P{row})=0,"",INDEX({ceiling},$P{row})))', "fine_share"),
        "T": (f'IF({known},"",INDEX({kind},$P{row})&"")', "text"),
    }


def _weighed(row: int, grams: str, in_grams: bool) -> Formulas:
    """The weight of a line, its cost, its place in the lists and in the order of adding, and whether it fails.

    Curing salt is `in_grams` in any units, as on Results and on the card.
    """
    shown, word = f"$O{row}", '"g"'
    if not in_grams:
        shown = f"IF($O{row}>=shown_mass_g,$O{row}/shown_mass_g,$O{row}/shown_small_g)"
        word = f"IF($O{row}>=shown_mass_g,mass_word,small_word)"
    return {
        "J": (f'IF($D{row}="","",IF($S{row}<>0,"refused",{shown}))', recipe_page.FIGURE),
        "K": (f'IF($D{row}="","",IF($S{row}<>0,"",{word}))', "text"),
        "L": ((f'IF($D{row}="","",IF($S{row}<>0,"open",IF(COUNTIF(priced_names,$D{row})=0,"no price",'
              f"$O{row}*INDEX(price_costs,MATCH($D{row},price_names,0)))))"), "money"),
        "O": (f'IF($D{row}="","",{grams})', "0.00"),
        "P": (f'IF($D{row}="","",IF(ISNUMBER(MATCH($D{row},ingredient_names,0)),MATCH($D{row},ingredient_names,0),""))', "0"),
        "R": (f'IF($Q{row}="","",1+COUNTIF($Q${TOP}:$Q${LAST},"<"&$Q{row}))', "0"),
        "S": (f'IF($D{row}="",0,IF(ISERROR($O{row}),1,0))', "0"),
    }  # fmt: skip


def _brought(row: int) -> str:
    """The water that a vinegar or juice typed here brings: so much less is poured, as on Plan. A batch has it in its own."""
    acid = f"ISNUMBER(MATCH($D{row},acid_names,0))"
    return f'IF(OR({{mode}}<>0,$D{row}="",$S{row}<>0),0,IF({acid},BRINE_WATER_IN($O{row},$D{row}),0))'


def _sugar(row: int, liquid: bool) -> str:
    """The sugar that a sweetener, a juice or the like brings, which a meter has to be forgiven; a batch has it in its own."""
    brings = "TRUE" if liquid else "OR(" + ",".join(f'$E{row}="{role}"' for role in SUGARY) + ")"
    return f'IF(OR({{mode}}<>0,$D{row}="",$S{row}<>0),0,IF({brings},BRINE_SUGARS($O{row},$D{row}),0))'


def _turn(number: int, row: int) -> str:
    """Where in the order of adding a line belongs."""
    cure = f"IF({{dry}}=1,{SALT_TURN},{CURE_TURN})"  # without water it is mixed into the salt at once
    fixed = (str(WATER_TURN), str(ICE_TURN), str(SALT_TURN), "", cure)
    if number < len(fixed) and fixed[number]:
        return fixed[number]
    return f'IF($P{row}="",{SALT_TURN + 2},INDEX(list_turn,$P{row}))'


def _fixed(number: int, row: int) -> Tuple[str, str, str, str]:
    """Name, grams, level and reason of one of the lines that every brine has."""
    share = f'IF($D{row}="","",IF($S{row}<>0,"",$O{row}/{{base}}))'
    ice = recipe_block.why("ICE", "{brine},tap_celsius,bath_celsius,{strength},ice_celsius")
    return (
        (_where_any("tap", "water"), "{tap}", '""', ice),
        (_where_any("ice", "ice"), "{ice}", '""', ice),
        (_where_any("all_salt", "salt"), "{salt}", share,
         recipe_block.why("SALT", "{base},{strength}")),
        ('IF({ready}=0,"",{liquid})', "{liquid_mass}", '""', recipe_block.why("WATER_IN", "1000,{liquid}")),
        ('IF({ready}=0,"",{cure})', "{cure_mass}", share, "{message}"),
    )[number]  # fmt: skip


def _where_any(key: str, name: str) -> str:
    """The name of a line that is there when its weight is, or cannot be worked out."""
    return f'IF(ISERROR({{{key}}}),"{name}",IF({{{key}}}="","",IF({{{key}}}>0,"{name}","")))'


def _typed(number: int, row: int) -> Tuple[str, str, str, str]:
    """The same of an ingredient: typed on the page, or the plan's."""
    dose = f"BRINE_DOSE({{base}},$F{row},$D{row},{{use}})"
    name, level, grams = f'$B{row}&""', f'IF(ISERROR($C{row}),"error",IF($C{row}="",0,$C{row}))', dose
    if number < len(FROM_PLAN):
        key = FROM_PLAN[number]
        level_key, mass_key = ("sweet_level", "w_sweet") if key == "sweetener" else (f"{key}_level", f"w_{key}")
        listed = "n_sweet" if key == "sweetener" else f"n_{key}"
        name = f'IF({{mode}}=1,[{listed}]&"",{name})'
        level = f"IF({{mode}}=1,[{level_key}]+0,{level})"
        grams = f"IF({{mode}}=1,{{factor}}*[{mass_key}],{dose})"
    else:
        name = f'IF({{mode}}=1,"",{name})'
    name = f'IF({{ready}}=0,"",{name})'
    return name, grams, f'IF($D{row}="","",{level})', recipe_block.why("DOSE", f"{{base}},$F{row},$D{row},{{use}}")


def _says(row: int) -> str:
    """One word or two on a line. A share that was typed as text is judged by what it weighs."""
    level = f"IF(ISTEXT($F{row}),ROUND($O{row}/{{base}}+1E-9,6),$F{row})"
    tests = (
        (f'$D{row}=""', '""'),
        (f"$S{row}<>0", '"REFUSED: see below"'),
        (f"$O{row}=0", '"type its level"'),
        (f"IF(ISNUMBER($I{row}),{level}>$I{row},FALSE)", f'"over the ceiling: "&$T{row}'),
        (f"IF(ISNUMBER($H{row}),{level}>$H{row},FALSE)", '"above the usual"'),
        (f"IF(ISNUMBER($G{row}),{level}<$G{row},FALSE)", '"below the usual"'),
        (f'$G{row}="none"', '"no usual range known"'),
        (f'$L{row}="no price"', '"no price"'),
    )
    made = '"ok"'
    for test, words in reversed(tests):
        made = f"IF({test},{words},{made})"
    if row != TOP + SALT:
        return made
    with_cure = f'AND({{cure}}<>"",$S{row}=0,ISNUMBER($G{row}),ISNUMBER({{strength}}))'
    enough = f"IF({with_cure},AND($F{row}<$G{row},{{strength}}>=$G{row},{{strength}}<=$H{row}),FALSE)"
    return f'IF($D{row}="","",IF({enough},"ok, with the cure\'s own",{made}))'


def _total(sheet: Worksheet, block: Chosen, row: int) -> None:
    """The whole brine, its cost, and why a line was refused."""
    for column in "ABCDEFGHIJKLM":
        styles.put(sheet, f"{column}{row}", "All of it" if column == "B" else None, "total")
    cells = {
        "J": ('=IF({ready}=0,"",IF({bad}>0,"open",{brine}/shown_mass_g))', recipe_page.FIGURE),
        "K": ('=IF({ready}=0,"",mass_word)', "text"),
        "L": ('=IF({ready}=0,"",{cost})', "money"),
    }
    for column, (formula, form) in cells.items():
        styles.put(sheet, f"{column}{row}", block.fill(formula), "total", form)
    for column in "JL":
        sheet[f"{column}{row}"].alignment = Alignment("right", "center")
    for column in "BK":
        sheet[f"{column}{row}"].alignment = Alignment("left", "center", indent=1)
    first = f"INDEX($U${TOP}:$U${LAST},MATCH(1,$S${TOP}:$S${LAST},0))"
    more = 'IF({bad}>1," After that "&({bad}-1)&IF({bad}>2," more are"," more is")&" refused.","")'
    reason = f'=IF({{bad}}=0,"",UPPER(LEFT({first},1))&MID({first},2,900)&{more})'
    page.span(
        sheet, f"A{row + 1}:M{row + 1}", block.fill(reason), page.Look(size=9, bold=True, wrap=True, vertical="top")
    )
    sheet.row_dimensions[row + 1].height = 24
