"""The order: what to buy for the whole plan in packs, what still has no price, and where the money goes.

One idea: the plan is read as one block of names and grams, a row to a batch, and every question about the whole plan
(how much salt, is there a price for it) is asked of that block. A batch that fails is "open" in it, and one open
line keeps the total open: an order that looks complete is complete. Nothing is bought for a batch that must not be
started, and the page says which batches it counts.
"""

from __future__ import annotations

from typing import List, Tuple

from openpyxl.chart import BarChart, Reference
from openpyxl.chart.label import DataLabelList
from openpyxl.chart.shapes import GraphicalProperties
from openpyxl.formatting.rule import Rule
from openpyxl.styles import Alignment, Border, Side
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.pagebreak import Break
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import page, plots, styles
from brinecalc.workbook.agreed import LEFT_OUT, ORDER_ON_FIRST_PAGE, WITHOUT_PRICES, where_installed
from brinecalc.workbook.book import Book
from brinecalc.workbook.sheets import ingredient_lists, prices, workings

SHEET = "Order"
FIRST_ROW = 9
ON_FIRST_PAGE = ORDER_ON_FIRST_PAGE
ON_SECOND_PAGE = 41
SHOWN_NAMES = 12
"""Names without a price that are spelled out; the rest are counted."""

NUMBER, LINE, NEEDS = "N", "O", 18
"""Columns behind the page: the number of a line, its row in the price list, and where the plan's needs begin."""

ALL_USED = '=IF(plan_stops>0,"All but "&plan_stops&" with a STOP","All that is used")'
NOT_COUNTED = '=IF(plan_stops=0,"Nothing is counted for a batch with a STOP.","Left out for a STOP: batch no. "&order_stopped&".")'

TO_BUY = (
    '=order_lines&IF(order_lines=1," line to buy"," lines to buy")'
    f'&IF({WITHOUT_PRICES}*order_lacking=0,"","; "&order_lacking&" more without a pack, after them")'
)

COSTS = (
    '=IF(order_lines=0,"",IF(order_open>0,order_open&" without a cost",IF(order_lacking>0,order_lacking&" more without a price",'
    'IF(plan_fails+plan_unpriced>0,"","each with a cost"))))'
)
"""What is needed and has no price takes no line, so lines with a cost each are not said to be all."""

OWN = " From the tap or made here: price 0, and no under Goes on the order."
"""How water and ice are settled that nobody buys."""

EXACT = "#,##0.000"
"""Kilograms to the gram: spices are bought on the same list as meat."""

LONGEST_SUPPLIER = 20
"""Characters of a supplier that are shown, in print as small as they need to stay beside the box to tick."""

# column, heading, unit, width, form, formula over the chosen row of the price list
_COLUMNS: Tuple[Tuple[str, str, str, float, str, str], ...] = (
    ("A", "Line", "", 4, "count", ""),
    ("B", "What", "", 25, "text", "{price_name}"),
    ("C", "Packs to buy", "", 7, "count", "{price_buy}"),
    ("D", "Pack", "", 12, "text", "{price_pack}"),
    ("E", "Whole cases", "", 7, "count",
     'IF(AND({price_case}>1,ISNUMBER({price_buy})),{price_buy}/{price_case},"")'),
    ("F", "Needed", "=mass_word", 9, EXACT, "{price_need}"),
    ("G", "On hand", "=mass_word", 8, EXACT + ";;", 'IF({price_stock}="","",IF(ISNUMBER({price_stock}),{price_stock}*mass_in_g/shown_mass_g,"wrong"))'),
    ("H", "Left after", "=mass_word", 8, EXACT,
     ('IF(AND(ISNUMBER({price_buy}),OR({price_stock}="",ISNUMBER({price_stock}))),({price_buy}*{price_pack_g}*IF({price_usable}="",1,{price_usable})'
     '+N({price_stock})*mass_in_g-{price_need_g})/shown_mass_g,"")')),
    ("I", "Price of a pack", '=price_word&""', 9, "money",
     'IF(ISNUMBER({price_price}),IF(OR({price_price}<0,{price_price}>1000000),"wrong",{price_price}),IF({price_price}="","no price","wrong"))'),
    ("J", "Cost", '=price_word&""', 10, "money", "{price_paid}"),
    ("K", "Supplier", "", 13, "text",
     f'IF(LEN({{price_supplier}})>{LONGEST_SUPPLIER},LEFT({{price_supplier}},{LONGEST_SUPPLIER - 1})&"…",{{price_supplier}}&"")'),
    ("L", "Done", "", 5, "text", ""),
)  # fmt: skip

_thin = Side(style="thin", color=styles.QUIET)


def write(book: Book, sheet: Worksheet) -> None:
    """The list behind, the order's lines on two pages, and the money between them."""
    for column, _, _, width, _, _ in _COLUMNS:
        sheet.column_dimensions[column].width = width
    _needs(book, sheet)
    _top(book, sheet)
    _headings(sheet, FIRST_ROW - 2)
    _lines(book, sheet, FIRST_ROW, 1, ON_FIRST_PAGE)
    money = FIRST_ROW + ON_FIRST_PAGE + 1
    sheet.row_breaks.append(Break(id=money - 1))
    after = _money(book, sheet, money)
    for name, cells in (
        ("left_out_part_order_costs", "$C$4:$L$4"),
        ("left_out_part_order_money", f"$A${money}:$L${after - 2}"),
        ("left_out_columns_order", f"$I${FIRST_ROW}:$J${FIRST_ROW + ON_FIRST_PAGE - 1}"),
        ("left_out_room_order", f"$K${FIRST_ROW}"),
        ("order_first_page", f"$A$1:$L${money - 2}"),
    ):
        book.name(name, SHEET, cells)
    _headings_if_used(sheet, after)
    listed = book.grids[prices.SHEET].last_row - prices.FIRST_ROW + 1
    if listed > ON_FIRST_PAGE:
        _lines(book, sheet, after + 2, ON_FIRST_PAGE + 1, listed)
    last = after + 1 + ON_SECOND_PAGE
    sheet.freeze_panes = f"A{FIRST_ROW}"
    sheet.print_area = f"A1:L{last}"
    page.margins(sheet, "portrait")
    sheet.page_setup.fitToHeight = 0
    sheet.print_title_rows = "1:1"


def _needs(book: Book, sheet: Worksheet) -> None:
    """What the plan needs, row for row beside the batches: grams, or open where a batch fails."""
    made, parts = book.grids[workings.SHEET], [key for key, _, _ in workings.INGREDIENTS]
    top, end = made.first_row, made.last_row
    columns = [get_column_letter(NEEDS + place) for place in range(len(parts))]
    counted = _counted(book, sheet, NEEDS + len(parts) + 6)
    styles.put(sheet, f"{columns[0]}{top - 2}", "Grams the plan needs, batch by batch", "strong")
    for column, key in zip(columns, parts):
        styles.put(sheet, f"{column}{top - 1}", key.replace("_", " "), "heading")
        for row in range(top, end + 1):
            mass = f"{workings.SHEET}!${made.columns[f'm_{key}']}{row}"
            sheet[f"{column}{row}"].value = f'=IF({counted}{row}="STOP",0,IF(ISERROR({mass}),"open",{mass}))'
            sheet[f"{column}{row}"].number_format = styles.FORMATS["small"]
    styles.put(sheet, "N8", "Needs not known", "quiet")
    styles.put(sheet, "P8", '=COUNTIF(need_masses,"open")', "cell", "count")
    book.name("need_open", SHEET, "$P$8")
    named = [made.columns[f"n_{key}"] for key in parts]
    pairs = [
        (f"{workings.SHEET}!${name}{row}", f"${mass}{row}")
        for row in range(top, end + 1)
        for name, mass in zip(named, columns)
    ]
    _lacks(book, sheet, NEEDS + len(parts) + 1, top, pairs)


def _counted(book: Book, sheet: Worksheet, column: int) -> str:
    """Which batches the order counts: those that fail and those with a STOP by number; answers the column that says."""
    made = book.grids[workings.SHEET]
    top, end = made.first_row, made.last_row
    says, stopped, failing = (get_column_letter(column + place) for place in range(3))
    styles.put(sheet, f"{says}{top - 2}", "Batches the order counts", "strong")
    for at, words in ((says, "counts"), (stopped, "stopped"), (failing, "failing")):
        styles.put(sheet, f"{at}{top - 1}", words, "heading")
    for row in range(top, end + 1):
        word = book.layout.fill(
            'IF(ISERROR({w_says}),"FAILS",IF({w_fails}<>0,"FAILS",IF({w_says}="STOP","STOP",1)))', row, SHEET
        )
        sheet[f"{says}{row}"].value = book.layout.fill(f'=IF({{w_on}}=0,"",{word})', row, SHEET)
        for at, state in ((stopped, "STOP"), (failing, "FAILS")):
            before = f"{at}{row - 1}&" if row > top else ""
            comma = f'IF({at}{row - 1}="","",", ")&' if row > top else ""
            number = book.layout.fill("{batch}", row, SHEET)
            sheet[f"{at}{row}"].value = f'={before}IF({says}{row}="{state}",{comma}{number},"")'
    for name, at in (("order_stopped", stopped), ("order_failing", failing)):
        book.name(name, SHEET, f"${at}${end}")
    styles.put(sheet, "N7", "Batches counted", "quiet")
    styles.put(sheet, "P7", f"=COUNT(${says}${top}:${says}${end})", "cell", "count")
    book.name("order_counted", SHEET, "$P$7")
    return f"${says}"


def _counts() -> str:
    """The plan's state, and which of its batches the order is for."""
    some = (
        '" This order is for "&order_counted&" of them"&IF(order_stopped="","","; left out for a STOP: no. "&order_stopped)'
        '&IF(order_failing="","","; not known in full: no. "&order_failing)&"."'
    )
    return (
        'plan_state&IF(plan_batches=0,"",IF(order_counted=plan_batches,IF(plan_batches=1,""," This order is for all of them."),'
        f"{some}))"
    )


def _lacks(book: Book, sheet: Worksheet, column: int, top: int, pairs: List[Tuple[str, str]]) -> None:
    """Every name and mass of the plan in one column each: the name if it is needed and has no price, its number where new.

    In a copy without prices it is a name that stands in no row of the price list: nothing else there tells of it.
    Programs look through one column many times faster than through a block of several.
    """
    named, grams, name, count = (get_column_letter(column + place) for place in range(4))
    styles.put(sheet, f"{named}{top - 2}", "Names without a price", "strong")
    for at, words in ((named, "needed"), (grams, "grams"), (name, "name"), (count, "new")):
        styles.put(sheet, f"{at}{top - 1}", words, "heading")
    end = top + len(pairs) - 1
    whole = f"${name}${top}:${name}${end}"
    for row, (named_at, grams_at) in enumerate(pairs, top):
        sheet[f"{named}{row}"].value, sheet[f"{grams}{row}"].value = f"={named_at}", f"={grams_at}"
        sheet[f"{grams}{row}"].number_format = styles.FORMATS["small"]
        known = f"IF({WITHOUT_PRICES}<>0,COUNTIF(price_names,${named}{row}),COUNTIF(priced_names,${named}{row}))"
        sheet[
            f"{name}{row}"
        ].value = f'=IF(OR(${grams}{row}="",${grams}{row}=0,${named}{row}=""),"",IF({known}>0,"",${named}{row}))'
        first = f"MATCH(${name}{row},{whole},0)=ROW()-{top - 1}"
        sheet[f"{count}{row}"].value = f'=IF(${name}{row}="","",IF({first},ROW()-{top - 1},""))'
    sheet.column_dimensions[name].width = 24
    book.name("need_names", SHEET, f"${named}${top}:${named}${end}")
    book.name("need_masses", SHEET, f"${grams}${top}:${grams}${end}")
    book.name("lack_names", SHEET, whole)
    book.name("lack_firsts", SHEET, f"${count}${top}:${count}${end}")


def _top(book: Book, sheet: Worksheet) -> None:
    """Title, state of the plan, total and what is missing."""
    whole = book.layout.whole
    line, paid = whole("price_line", SHEET), whole("price_paid", SHEET)
    styles.put(sheet, "A1", "Order", "title")
    styles.put(sheet, "E1", '=kitchen&""', "strong")
    styles.put(
        sheet,
        "A2",
        "What to buy for the whole plan, in packs; what is on hand is taken off. Nothing to fill in.",
        "lead",
    )
    page.span(sheet, "A3:L3", "=" + where_installed(_counts()), page.Look(size=11, bold=True, wrap=True))
    sheet.row_dimensions[3].height = 43
    for at, words, name, formula in (
        ("4", "Names without a price", "order_lacking", "=COUNT(lack_firsts)"),
        ("5", "Lines on the order", "order_lines", f"=COUNT({line})"),
        ("6", "Lines without a cost", "order_open", f"=$P$5-COUNT({paid})"),
    ):
        styles.put(sheet, f"N{at}", words, "quiet")
        styles.put(sheet, f"P{at}", formula, "cell", "count")
        book.name(name, SHEET, f"$P${at}")
    styles.put(sheet, "A4", TO_BUY, "strong")
    styles.put(sheet, "C4", COSTS, "strong")
    styles.put(sheet, "F4", "Oldest price", "quiet")
    page.span(sheet, "G4:H4", "=oldest_price", page.Look(size=10, align="center", line="thin"), "date")
    styles.put(sheet, "I4", "Total", "strong")
    sheet["I4"].alignment = Alignment(horizontal="right", vertical="center", indent=1)
    total = f'=IF(plan_batches=0,"no batch",IF(plan_fails+order_lacking+order_open+plan_unpriced>0,"not complete",SUM({paid})))'
    page.span(sheet, "J4:K4", total, page.Look(size=13, bold=True, align="right", line="medium", indent=1), "money")
    styles.put(sheet, "L4", '=price_word&""', "body")
    page.span(
        sheet,
        "A5:L5",
        "=" + where_installed(_missing(sheet), ""),
        page.Look(size=10, bold=True, wrap=True, vertical="top"),
    )
    sheet.row_dimensions[5].height = 41
    book.name("order_total", SHEET, "$J$4")


def _missing(sheet: Worksheet) -> str:
    """What is needed and has no price, by name; the names are found in cells beside the page."""
    names, printed = "", ON_FIRST_PAGE + ON_SECOND_PAGE
    for number in range(1, SHOWN_NAMES + 1):
        row = 8 + number
        found = f"INDEX(lack_names,SMALL(lack_firsts,{number}))"
        sheet[f"P{row}"].value = f'=IF(order_lacking<{number},"",{found})'
        comma = "" if number == 1 else '", "&'
        names += f'&IF(order_lacking>={number},{comma}$P${row},"")'
    more = f'&IF(order_lacking>{SHOWN_NAMES}," and "&(order_lacking-{SHOWN_NAMES})&" more","")'
    priced = (
        'IF(AND(order_open=0,plan_fails=0,plan_unpriced>0),"NOT COMPLETE: "&plan_unpriced&IF(plan_unpriced=1," batch has"," batches have")'
        '&" no cost; the reason stands at the end of its row on Plan, after Money.",IF(OR(order_open=0,plan_fails>0),"Everything needed so far has a price.",order_open&IF(order_open=1," line has"," lines have")'
        '&" no cost: Prices says why in its column Says."))'
    )
    own = 'COUNTIF(lack_names,"water")+COUNTIF(lack_names,"ice")'
    unlisted = f'IF(order_lacking=0,"","NEEDED, AND IN NO ROW OF PRICES ("&order_lacking&"), at the end of the list: "{names}{more}&". ")&"{LEFT_OUT}"'
    return (
        'IF(plan_batches=0,"No batch yet: nothing to buy.",IF(plan_fails=0,"","NOT COMPLETE: "&plan_fails&'
        'IF(plan_fails=1," batch fails"," batches fail")&" on the plan (no. "&order_failing&"), so not all that is needed is known. ")'
        f"&IF({WITHOUT_PRICES}<>0,{unlisted},IF(order_lacking=0,{priced},"
        f'"NEEDED BUT NOT PRICED ("&order_lacking&"): "{names}{more}&". Give each a price on Prices; the total stays open until then."&IF({own}>0,"{OWN}","")))'
        f'&IF(order_lines>{printed}," The last "&(order_lines-{printed})&" lines stand below the printed pages.",""))'
    )


def _headings(sheet: Worksheet, row: int) -> None:
    """Headings of the lines."""
    for column, heading, unit, _, _, _ in _COLUMNS:
        styles.put(sheet, f"{column}{row}", heading, "heading")
        styles.put(sheet, f"{column}{row + 1}", unit or None, "unit")
    sheet.row_dimensions[row].height = 27


def _headings_if_used(sheet: Worksheet, row: int) -> None:
    """Headings of the lines that the first page does not hold, white while there are none."""
    used = f"order_lines+{WITHOUT_PRICES}*order_lacking>{ON_FIRST_PAGE}"
    styles.put(sheet, f"A{row - 1}", f'=IF({used},"Order, continued","")', "strong")
    for column, heading, unit, _, _, _ in _COLUMNS:
        words = unit.removeprefix("=") if unit.startswith("=") else '""'
        for at, value in ((row, f'"{heading}"'), (row + 1, words)):
            styles.put(sheet, f"{column}{at}", f'=IF({used},{value},"")', "quiet")
            sheet[f"{column}{at}"].alignment = Alignment(horizontal="center", vertical="center", wrap_text=True)
    sheet.row_dimensions[row].height = 27


def _lines(book: Book, sheet: Worksheet, top: int, first: int, last: int) -> None:
    """Lines of the order, each looked up by its number; a line not used stays white."""
    fields = {key: book.layout.whole(key, SHEET) for key in book.grids[prices.SHEET].columns}
    for row, number in enumerate(range(first, last + 1), top):
        chosen, count = f"${LINE}{row}", f"${NUMBER}{row}"
        sheet[f"{NUMBER}{row}"].value = number
        sheet[f"{LINE}{row}"].value = f'=IF({count}>order_lines,"",SMALL({fields["price_line"]},{count}))'
        cells = {key: f"INDEX({whole},{chosen})" for key, whole in fields.items()}
        for column, _, _, _, form, formula in _COLUMNS:
            cell = sheet[f"{column}{row}"]
            styles.dress(cell, "body", form)
            found = formula.format(**cells) if formula else count if column == "A" else '""'
            if column != "L":
                cell.value = f'=IF({chosen}="",{_unlisted(column, row)},{found})'
            place = ("right", 0) if column in "CEFGHIJ" else ("left", 1)
            cell.alignment = Alignment(place[0], "center", indent=place[1], shrink_to_fit=column == "K")
        sheet.row_dimensions[row].height = 12.5
    box = DifferentialStyle(border=Border(left=_thin, right=_thin, top=_thin, bottom=_thin))
    used = Rule(type="expression", dxf=box, formula=[f'$B{top}<>""'])
    sheet.conditional_formatting.add(f"A{top}:L{top + last - first}", used)


def _unlisted(column: str, row: int) -> str:
    """What stands in a line after those of the price list: in a copy without prices what no row of it has, and how much."""
    place = f"${NUMBER}{row}-order_lines"
    name, named = f"INDEX(lack_names,SMALL(lack_firsts,{place}))", f"$B{row}"
    needed = f'IF(COUNTIFS(need_names,{named},need_masses,"open")>0,"open",SUMIF(need_names,{named},need_masses)/shown_mass_g)'
    found = {"A": f"${NUMBER}{row}", "B": name, "F": needed}.get(column)
    return '""' if found is None else f'IF({WITHOUT_PRICES}=0,"",IF({place}>order_lacking,"",{found}))'


def _money(book: Book, sheet: Worksheet, top: int) -> int:
    """What the plan uses by kind of spending, and its charts; answers the next free row."""
    used, kind = book.layout.whole("price_used", SHEET), book.layout.whole("price_spending", SHEET)
    for column in "ABCDEFGHIJKL":
        styles.put(sheet, f"{column}{top}", "Where the money goes" if column == "A" else None, "section")
    for column, words in (("B", "Kind"), ("C", "Share"), ("D", "Cost of what is used"), ("E", "Share without product")):
        styles.put(sheet, f"{column}{top + 1}", words, "heading")
    sheet.row_dimensions[top + 1].height = 40
    first, last = top + 2, top + 1 + len(ingredient_lists.GROUPS)
    for row, group in enumerate(ingredient_lists.GROUPS, first):
        styles.put(sheet, f"B{row}", group, "cell")
        styles.put(sheet, f"D{row}", f"=SUMIF({kind},B{row},{used})", "cell", "money")
        for column, start in (("C", first), ("E", first + 1)):
            whole = f"SUM($D${start}:$D${last})"
            share = f"=IF({whole}=0,0,D{row}/{whole})" if row >= start else None
            styles.put(sheet, f"{column}{row}", share, "cell", "0.0%;-0.0%;")  # a bar's label reads as its cell
    for column in "BCDE":
        styles.put(sheet, f"{column}{last + 1}", ALL_USED if column == "B" else None, "total", "money")
    sheet[f"D{last + 1}"].value = f'=IF(plan_fails+order_lacking+plan_unpriced>0,"not complete",SUM(D{first}:D{last}))'
    sheet[f"D{last + 1}"].alignment = Alignment(horizontal="right", vertical="center")
    book.name("used_total", SHEET, f"$D${last + 1}")
    notes = ("Used: what goes into the batches, at its cost", "per weight. The order differs: whole packs, less",
             "what is on hand. Shares are of what has a price.", NOT_COUNTED)  # fmt: skip
    for row, words in enumerate(notes, first):
        styles.put(sheet, f"G{row}", words, "quiet")
    look = page.Look(size=10, align="center")
    for columns, start in (("B:E", first), ("H:K", first + 1)):
        left, right = columns.split(":")
        words = f'=IF(SUM($D${start}:$D${last})=0,"Nothing to draw: no cost known.","")'
        page.span(sheet, f"{left}{last + 6}:{right}{last + 6}", words, look)
    sheet.add_chart(_chart(sheet, 3, first, last, "Share of the cost of all that is used"), f"A{last + 3}")
    sheet.add_chart(_chart(sheet, 5, first + 1, last, "Share of the cost of all but the product"), f"G{last + 3}")
    return last + 13


def _chart(sheet: Worksheet, column: int, first: int, last: int, words: str) -> BarChart:
    """Shares of the cost as bars, figures on them; reads the same in grey."""
    chart = BarChart()
    chart.type = "bar"
    chart.style = 10
    chart.title = None
    plots.see_through(chart)
    chart.legend = None
    chart.gapWidth = 60
    chart.add_data(Reference(sheet, min_col=column, min_row=first, max_row=last))
    chart.set_categories(Reference(sheet, min_col=2, min_row=first, max_row=last))
    bars = chart.series[0]
    bars.graphicalProperties = GraphicalProperties(solidFill=styles.DEEP)
    bars.dLbls = DataLabelList()
    bars.dLbls.showVal = True
    bars.dLbls.numFmt = "0.0%;-0.0%;"
    for part in ("showSerName", "showCatName", "showLegendKey", "showPercent"):
        setattr(bars.dLbls, part, False)
    chart.x_axis.title = None
    chart.x_axis.scaling.orientation = "maxMin"
    chart.y_axis.title = words
    chart.y_axis.numFmt = "0%"
    chart.y_axis.number_format = "0%"
    chart.y_axis.scaling.min = 0
    chart.y_axis.scaling.max = 1.1  # room for the figure beside a full bar
    chart.y_axis.majorUnit = 0.25
    chart.y_axis.majorGridlines = None
    chart.y_axis.crosses = "max"
    chart.x_axis.delete = chart.y_axis.delete = False
    chart.width, chart.height = 10.0, 4.4
    return chart
