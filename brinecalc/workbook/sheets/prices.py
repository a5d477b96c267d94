"""The prices: what is bought, in which packs, for how much, and what of it the plan needs.

One idea: a row either gives a price per gram or says in words why it cannot, and only a number counts. A blank, a
pack that cannot be read or a name that no list has is never taken for nothing. Packs by volume become weights by the
density of what is in them, packs by the piece by the weight of a piece.
"""

from __future__ import annotations

from typing import List, NamedTuple, Optional, Tuple

from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Alignment
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame, page, styles
from brinecalc.workbook.agreed import NOT_INSTALLED, where_installed
from brinecalc.workbook.book import MOST_BATCHES, Book
from brinecalc.workbook.frame import Field, Grid

SHEET = "Prices"
FIRST_ROW = 8
FEWEST_ROWS = 60
PRINTED = 68
"""Rows that fill two sheets of paper; more stand on the sheet, and the line at the top says so."""

SEARCH_END = '"0123456789.,"'
USABLE = 'IF({price_usable}="",1,{price_usable})'
UNITLESS = f"ISNUMBER(FIND(RIGHT(TRIM({{price_pack}}),1),{SEARCH_END}))"
"""A pack that ends in a digit has no unit: 25 could be kilograms or pieces, and is not guessed."""

NEED = "{price_need_g},{price_pack_g},{price_stock}*mass_in_g"

BEHIND = "Behind the sheet (nothing to fill in)"

OLD = "{price_date}<priced_on-price_days"
AHEAD = "{price_date}>priced_on"
NO_DAY = 'AND({price_date}<>"",OR(NOT(ISNUMBER({price_date})),{price_date}<36526,{price_date}>73050))'
"""A date that is text, or not of this century."""


def inputs() -> List[Field]:
    """The cells to fill in, and the word beside the name that tells whether the row holds."""
    what, stock = "What is bought", "How it is bought"
    return [
        Field("price_name", "Product or ingredient", width=25, group=what, choices="bought_names", free=True,
              help="Choose from the list, so that the plan finds it. Anything else may be typed too; no batch will use it."),
        Field("price_says", "Says", "text", says(), width=10, group=what),
        Field("price_pack", "Pack", "text", width=13, group=what,
              help="What one pack holds, with its unit: 25 kg, 5 L, 24 x 330 mL, 50 lb, dozen, each."),
        Field("price_price", "Price of the pack", "money", unit='=price_word&""', width=10, group=what, limits=(0, 1000000),
              help="Price of one whole pack, in the money of cell B4: a number alone, without a sign; one in another money is taken for this one. 0 if it costs nothing. Blank: no price, and whatever uses it stays open."),
        Field("price_usable", "Usable", "0%", width=8, group=what, limits=(0.01, 1),
              help="Share of the pack that ends up used, after trim and loss. Blank: all of it."),
        Field("price_piece", "One piece weighs", "small", unit="=typed_portion", width=9, group=what, limits=(0.01, 100000),
              help="Only for packs by the piece (each, dozen, 12 each)."),
        Field("price_stock", "On hand", "mass", unit="=typed_mass", width=9, group=stock, limits=(0, 1000000),
              help="What is in the store and may be used, by weight; counted as usable in full."),
        Field("price_fewest", "Fewest packs", "count", width=8, group=stock, limits=(1, 10000),
              help="Smallest order the supplier takes. Blank: one pack."),
        Field("price_case", "Packs in a case", "count", width=8, group=stock, limits=(1, 10000),
              help="Sold by the case only: orders are rounded up to whole cases. Blank: single packs."),
        Field("price_bought", "Goes on the order", width=9, group=stock, choices='"yes,no"',
              help="no: from the tap, or made here. It costs what it costs, but is not ordered; with a price of 0 it needs no pack. Blank: yes; for water no."),
        Field("price_date", "Price of", "date", width=11, group=stock, help="Day the price was given, such as 2026-11-30."),
        Field("price_supplier", "Supplier", "text", width=15, group=stock, help="Left to you; printed on the order."),
    ]  # fmt: skip


def says() -> str:
    """One word on whether the row gives a price."""
    return (
        '=IF({price_name}="",IF(AND({price_price}="",{price_pack}=""),"","no name"),'
        'IF({price_twice}=1,"twice",IF({price_price}="","no price",IF(AND({price_pack}="",{price_free}=0),"no pack",'
        f'IF(AND({{price_free}}=0,{UNITLESS}),"no unit",IF({{price_odd}}<>"","wrong",IF(OR({{price_cost}}="",{{price_bare}}="unread"),"unread",'
        f'IF({{price_in_lists}}=0,"not listed",IF({NO_DAY},"no date",'
        f'IF(priced_on="","ok",IF({{price_date}}="","no date",IF({AHEAD},"ahead",IF({OLD},"old","ok")))))))))))))'
    )


def why() -> str:
    """The same in a sentence, with what to type instead."""
    reading = f'BRINE_WHY("UNIT_COST",{{price_price}},IF({{price_pack_g}}="",{{price_pack}},{{price_pack_g}}),{USABLE})'
    reading = f'SUBSTITUTE({reading},"BRINE_UNIT_COST: pack_size","The pack")'
    by_weight = '"Sold by weight: no density of "&{price_name}&" is known, so a pack by volume gives no cost; write the pack as a weight, such as 10 lb or 5 kg."'
    sentences = (
        ('""', '""'),
        ('"ok"', '""'),
        ('"no name"', '"Name what this is the price of."'),
        ('"twice"', '"Listed further up already: that row counts, this one does not."'),
        ('"no price"', '"Type the price of one pack as a number, 0 if it costs nothing."'),
        (
            '"no pack"',
            '"Type what one pack holds, such as 25 kg"&IF({price_price}=0,"; or choose no under Goes on the order, if it is made here or comes from the tap.",".")',
        ),
        ('"no unit"', '"Write the pack with its unit, such as 25 kg or 24 x 330 mL."'),
        (
            '"not listed"',
            '"No list has this name and no batch uses it; under another spelling it may be priced twice. Choose the name from the list."',
        ),
        ('"wrong"', "{price_odd}"),
        ('"no date"', '"Type the day the price was given as a date, such as 2026-11-30."'),
        (
            '"ahead"',
            '"Dated after the day in Judged on: check both days. If they are right, the price does not hold yet; it is counted."',
        ),
        ('"old"', '"Older than the days set above: ask for a new price."'),
    )
    rest = (
        f'IF({{price_bare}}="unread",BRINE_WHY("PACKS",{NEED},{USABLE}),IF({{price_pack_g}}<>"",{reading},IF({{price_ml}}<>"",'
        f'IF(ISNUMBER(MATCH({{price_name}},product_names,0)),{by_weight},"By volume: "&BRINE_WHY("WEIGHT",1,{{price_name}})&" Or write the pack as a weight."),'
        f'IF({{price_pieces}}<>"","By the piece: type what one piece weighs.",{reading}))))'
    )
    rest = where_installed(rest, f"{NOT_INSTALLED} Undo the change.")
    for word, sentence in reversed(sentences):
        rest = f"IF({{price_says}}={word},{sentence},{rest})"
    return "=" + rest


def odd() -> str:
    """What is wrong with a figure of the row that was pasted or typed past the cell's own check; empty if nothing is."""
    checks = (
        ('IF({price_price}="",0,IF(ISNUMBER({price_price}),0,1))=1',
         'The price must be a plain number"&IF(price_word="",""," in "&price_word)&", such as 12.50, without a sign: type what one pack costs.'),
        ("{price_price}<0", "A price cannot be below 0: type what one pack costs, 0 if it costs nothing; take a discount off the price."),
        ("{price_price}>1000000", "A price must be at most 1000000 for one pack."),
    )  # fmt: skip
    return _first(checks, '{price_figures}&""')


def figures() -> str:
    """The same of every figure but the price, on which the number of packs does not hang."""

    def unlike(key: str, limits: str) -> str:
        within = limits.format(x="{" + key + "}")
        return f'IF({{{key}}}="",0,IF(ISNUMBER({{{key}}}),IF(OR({within}),1,0),1))=1'

    checks = (
        (unlike("price_usable", "{x}<=0,{x}>1"), "Usable must be a share above 0% and at most 100%, such as 90%; blank: all of the pack."),
        (unlike("price_piece", "{x}<=0"), "One piece weighs must be a plain number above 0, in the unit at the head of its column."),
        (unlike("price_stock", "{x}<0"), "On hand must be a plain number, 0 or more, in the unit at the head of its column; blank: nothing."),
        (unlike("price_fewest", "{x}<1,{x}<>INT({x})"), "Fewest packs must be a whole number from 1; blank: one pack."),
        (unlike("price_case", "{x}<1,{x}<>INT({x})"), "Packs in a case must be a whole number from 1; blank: single packs."),
        ('AND({price_bought}<>"",{price_bought}<>"yes",{price_bought}<>"no")', "Goes on the order takes yes or no; blank: yes, for water no."),
    )  # fmt: skip
    return _first(checks, '""')


def _first(checks: Tuple[Tuple[str, str], ...], found: str) -> str:
    """A formula that gives the words of the first check that holds."""
    for when, words in reversed(checks):
        found = f'IF({when},"{words}",{found})'
    return f'=IF({{price_name}}="","",{found})'


def results() -> List[Field]:
    """What comes of the row: its cost per weight, and what the plan needs of it."""
    per, plan = "Cost", "For the plan"
    shown = 'IF(ISNUMBER({price_need_g}),IF({price_need_g}=0,"",{price_need_g}/shown_mass_g),{price_need_g})'
    return [
        Field("price_shown_cost", "Cost of what is used", "fine_money", '=IF({price_cost}="",IF({price_unread}="","","wrong"),{price_cost}*shown_mass_g)',
              unit='="per "&mass_word', width=10, group=per),
        Field("price_need", "Needed", "#,##0.000", "=" + shown, unit="=mass_word", width=10, group=plan),
        Field("price_buy", "Packs to buy", "count", packs(), width=8, group=plan),
        Field("price_paid", "Cost", "money",
              '=IF({price_buy}="","",IF(ISNUMBER({price_buy}),IF({price_buy}=0,"",IF({price_price}="","no price",IF({price_odd}<>"","wrong",'
              '{price_buy}*{price_price}))),{price_buy}))', width=10, group=plan),
        Field("price_why", "What is wrong, and what to type", "text", why(), width=62, group="Reason"),
    ]  # fmt: skip


def packs() -> str:
    """Whole packs, at least the fewest, in whole cases."""
    case = "MAX(1,{price_case})"
    return (
        "=IF(ISNUMBER({price_bare}),IF({price_bare}=0,0,"
        f"ROUNDUP(MAX({{price_bare}},{{price_fewest}})/{case},0)*{case}),{{price_bare}})"
    )


def _read(key: str, heading: str, unless: str, call: str) -> Field:
    """One way of reading a pack: empty where it cannot be read so. Calc 7.4 cannot nest such tries in one formula."""
    return Field(key, heading, "0.0", f'=IF({unless},"",IFERROR({call},""))', group=BEHIND)


def per(unit: str) -> str:
    """How much of a unit the pack holds, by what one of it would cost."""
    return f'1/BRINE_UNIT_COST(1,{{price_pack}},1,"{unit}")'


def _unread(known: str) -> List[Field]:
    """The name of a row whose price is typed and cannot be used, and why; what is needed by the plan does not matter."""
    return [
        Field("price_unread", "Name, if its price cannot be used", "text",
              f'=IF(AND({known},{{price_price}}<>"",{{price_cost}}=""),{{price_name}}&"","")', width=22, group=BEHIND),
        Field("price_unread_why", "Why not", "text",
              '=IF({price_unread}="","",IF({price_odd}<>"",{price_odd},IF({price_pack}="","Type what one pack holds, such as 25 kg.",'
              '"The pack cannot be read as a weight; the row says what to type.")))', group=BEHIND),
    ]  # fmt: skip


def _free() -> Field:
    """Whether the row is of what the kitchen has for nothing, so that it is neither bought nor needs a pack."""
    own = 'OR({price_bought}="no",AND({price_bought}="",{price_name}="water"))'
    asked = f'IF(AND(ISNUMBER({{price_price}}),{{price_pack}}=""),IF(AND({{price_price}}=0,{own}),1,0),0)'
    return Field("price_free", "Costs nothing and is not bought", "0", f"={asked}", group=BEHIND)


def workings() -> List[Field]:
    """The steps behind, in grams; not printed."""
    behind = BEHIND
    known = 'AND({price_name}<>"",{price_twice}=0)'
    return [
        Field("price_twice", "Listed above", "0", f'=IF({{price_name}}="",0,IF(MATCH({{price_name}},price_names,0)<ROW()-{FIRST_ROW - 1},1,0))',
              group=behind),
        Field("price_odd", "What is wrong in the row", "text", odd(), group=behind),
        Field("price_figures", "But for the price", "text", figures(), group=behind),
        Field("price_in_lists", "In the lists", "0", "=IF(ISNUMBER(MATCH({price_name},bought_names,0)),1,IF(COUNTIF(need_names,{price_name})>0,1,0))", group=behind),
        _free(),
        _read("price_by_weight", "Pack read as weight, g", f'OR({{price_name}}="",{{price_pack}}="",{UNITLESS})', per("g")),
        _read("price_ml", "As volume, mL", f'OR({{price_name}}="",{{price_pack}}="",{UNITLESS},{{price_by_weight}}<>"")', per("mL")),
        _read("price_by_volume", "That weighs, g", '{price_ml}=""', "BRINE_WEIGHT({price_ml},{price_name})"),
        _read("price_pieces", "As pieces", f'OR({{price_name}}="",{{price_pack}}="",{UNITLESS},{{price_by_weight}}<>"",{{price_ml}}<>"")',
              per("each")),
        Field("price_pack_g", "Pack, g", "0.0",
              '=IF({price_by_weight}<>"",{price_by_weight},IF({price_ml}<>"",{price_by_volume},'
              'IF({price_pieces}="","",IF({price_piece}>0,{price_pieces}*{price_piece}*portion_in_g,""))))', group=behind),
        Field("price_cost", "Cost per g", "0.000000",
              f'=IF({known},IF({{price_free}}=1,0,IF(AND(ISNUMBER({{price_price}}),{{price_price}}<=1000000,NOT(ISTEXT({{price_usable}})),{{price_pack_g}}<>""),'
              f'IFERROR(BRINE_UNIT_COST({{price_price}},{{price_pack_g}},{USABLE}),""),"")),"")', group=behind),
        Field("price_priced", "Name, if priced", "text", '=IF({price_cost}="","",{price_name}&"")', width=22, group=behind),
        *_unread(known),
        Field("price_spending", "Kind of spending", "text",
              '=IF({price_name}="","",IF(ISNUMBER(MATCH({price_name},bought_names,0)),INDEX(list_spending,MATCH({price_name},bought_names,0)),"other"))',
              width=14, group=behind),
        Field("price_need_g", "Needed, g", "0.0",
              f'=IF({known},IF(IF(need_open=0,0,COUNTIFS(need_names,{{price_name}},need_masses,"open"))>0,"open",'
              'SUMIF(need_names,{price_name},need_masses)),"")', group=behind),
        Field("price_bare", "Packs before cases", "0",
              '=IF(OR({price_need_g}="",{price_need_g}=0,{price_bought}="no",AND({price_bought}="",{price_name}="water")),"",IF({price_figures}<>"","wrong",IF({price_need_g}="open","open",'
              'IF({price_pack_g}="","no pack",IFERROR(BRINE_PACKS('
              f'{NEED},{USABLE}),"unread")))))', group=behind),
        Field("price_used", "Cost of what is used", "0.00",
              '=IF(OR({price_need_g}="",{price_need_g}=0),"",IF({price_need_g}="open","open",IF({price_cost}="",IF({price_unread}="","no price","wrong"),'
              "{price_need_g}*{price_cost})))", group=behind),
        Field("price_fails", "Does not hold", "0", '=IF(OR({price_odd}<>"",{price_bare}="unread",AND({price_says}<>"",{price_cost}="")),1,0)', group=behind),
        Field("price_line", "Row, if on the order", "0", f'=IF({{price_paid}}="","",ROW()-{FIRST_ROW - 1})', group=behind),
    ]  # fmt: skip


def grid(batches: int = MOST_BATCHES) -> Grid:
    """The price list's grid."""
    fields = [field if field.is_input else _unless_moved(field) for field in inputs() + results() + workings()]
    heading = FIRST_ROW - 2
    moved = f"=IFERROR(IF({frame.in_place(inputs(), SHEET, heading)},0,1),1)"
    fields.append(Field("price_moved", "Cells moved away", "0", moved, group=BEHIND))
    return Grid(SHEET, fields, FIRST_ROW, max(FEWEST_ROWS, 2 * batches))


BLANK = '""'
_MOVED = {"price_says": '"moved"', "price_why": f'"{frame.MOVED}"', "price_twice": "0", "price_fails": "1"}
"""What stands in a row whose cells were moved; all else is blank there, so that nothing is counted twice."""


def _unless_moved(field: Field) -> Field:
    """A column that gives nothing where the row reads another row's cells."""
    return field._replace(formula=f"=IF({{price_moved}}<>0,{_MOVED.get(field.key, BLANK)},{str(field.formula)[1:]})")


class _Top(NamedTuple):
    """One of the cells above the list: its label, value and name."""

    label_at: str
    label: str
    at: str
    value: Optional[str]
    form: str
    name: str
    help: str = ""
    limits: Optional[Tuple[float, float]] = None


def _tops(book: Book) -> List[_Top]:
    dates = book.layout.whole("price_date", SHEET)
    return [
        _Top("A4", "Word for money, if any", "B4", None, "text", "price_word", "Such as EUR; shown over prices. Only a word."),
        _Top("C4", "Judged on", "D4", None, "date", "priced_on",
             "The day on which prices are judged old or not; blank: ages are not judged."),
        _Top("F4", "Old after days", "H4", "90", "count", "price_days", "Prices older than this are marked.", (1, 3650)),
        _Top("J4", "Oldest price", "K4", f'=IF(COUNT({dates})=0,"no date",MIN({dates}))', "date", "oldest_price"),
    ]  # fmt: skip


def write(book: Book, sheet: Worksheet) -> None:
    """Headings, the settable cells above them, the grid, and the names other sheets use."""
    made = book.grids[SHEET]
    styles.put(sheet, "A1", "Prices", "title")
    lead = book.says(
        "One row for each thing bought. A missing price is shown and never counted as nothing: whatever uses it stays open.",
        "A copy as values, to read and print. To change it, open the live workbook where brinecalc is installed.",
    )
    styles.put(sheet, "A2", lead, "lead")
    for name, key in (("price_names", "price_name"), ("price_costs", "price_cost"), ("priced_names", "price_priced"),
                      ("unread_names", "price_unread"), ("unread_whys", "price_unread_why")):  # fmt: skip
        book.name(name, SHEET, book.layout.whole(key, SHEET))
    frame.lay_out(sheet, made, book.layout)
    for top in _tops(book):
        styles.put(sheet, top.label_at, top.label, "quiet")
        typed = top.value is None or not top.value.startswith("=")
        value: object = int(top.value) if top.value is not None and top.value.isdigit() else top.value
        styles.put(sheet, top.at, value, "input" if typed else "cell", top.form)
        book.name(top.name, SHEET, "$" + top.at[0] + "$" + top.at[1:])
        if top.help:
            frame.validate(sheet, Field(top.name, top.label, help=top.help, limits=top.limits), top.at)
    book.name("left_out_part_prices", SHEET, "$A$4:$K$4")
    last = made.columns["price_paid"]
    page.span(sheet, f"A3:{last}3", "=" + where_installed(state(book)), page.Look(size=10, bold=True, wrap=True))
    sheet.row_dimensions[3].height = 28
    for key in ("price_shown_cost", "price_need", "price_buy", "price_paid"):
        for row in range(
            made.first_row, made.last_row + 1
        ):  # a word in place of a figure stands where the figure would
            sheet[made.address(key, row)].alignment = Alignment(horizontal="right", vertical="center")
    _paint(sheet, made)
    sheet.freeze_panes = f"B{FIRST_ROW}"
    page.margins(sheet, "landscape")
    sheet.page_setup.fitToHeight = 0
    sheet.print_title_rows = f"{FIRST_ROW - 3}:{FIRST_ROW - 1}"
    sheet.print_area = f"A1:{last}{min(made.last_row, FIRST_ROW + PRINTED - 1)}"


def state(book: Book) -> str:
    """How many rows hold and how many do not, with the first reason in full, in a sentence."""
    name, reason, fails, held, word = (
        book.layout.whole(key, SHEET) for key in ("price_name", "price_why", "price_fails", "price_cost", "price_says")
    )
    ahead = f'COUNTIF({word},"ahead")'
    old, first = f'COUNTIF({word},"old")', f"MATCH(1,{fails},0)"
    return (
        f'COUNT({held})&IF(COUNT({held})=1," row gives"," rows give")&" a price. "'
        f'&IF({old}>0,{old}&IF({old}=1," price is"," prices are")&" older than "&price_days&" days. ","")'
        f'&IF({ahead}>0,{ahead}&IF({ahead}=1," price is"," prices are")&" dated after the day in Judged on. ","")'
        '&IF(order_lacking>0,order_lacking&" needed by the plan and without a price: see Order. ","")'
        f'&IF(SUM({fails})=0,"",SUM({fails})&IF(SUM({fails})=1," row does"," rows do")&" not hold yet; first, "'
        f'&IF(INDEX({name},{first})="","row "&({first}+{FIRST_ROW - 1}),INDEX({name},{first}))&": "&INDEX({reason},{first}))'
        + _beyond(book)
    )


def _beyond(book: Book) -> str:
    """What is said where rows are used that do not print."""
    column, end = book.layout.whole("price_name", SHEET).rpartition(":")[::2]
    if book.grids[SHEET].last_row < FIRST_ROW + PRINTED:
        return ""
    rest = f"${column.split('$')[1]}${FIRST_ROW + PRINTED}:{end}"
    words = f" Paper holds the first {PRINTED} rows; to print the rest, mark its rows and print the selection."
    return f'&IF(COUNTA({rest})=0,"","{words}")'


def _paint(sheet: Worksheet, made: Grid) -> None:
    """A ground behind words that ask for something; the word itself is always there."""
    column = made.columns["price_says"]
    cells = f"{column}{made.first_row}:{column}{made.last_row}"
    corner = f"${column}{made.first_row}"
    asks = [f'{corner}="{word}"' for word in ("old", "ahead", "no date", "not listed")]
    late = FormulaRule(formula=[f"OR({','.join(asks)})"], fill=styles.fill(styles.NOTE))
    open_row = FormulaRule(
        formula=[f'AND({corner}<>"",{corner}<>"ok",NOT(OR({",".join(asks)})))'],
        fill=styles.fill(styles.CAUTION), font=styles.font(bold=True),
    )  # fmt: skip
    for rule in (late, open_row):
        sheet.conditional_formatting.add(cells, rule)
