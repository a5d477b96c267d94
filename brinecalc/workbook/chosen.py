"""One batch of the plan, chosen by its number in a cell, and what a sheet needs of it.

One idea: a sheet about one batch does not look into the plan from forty places. Beside its printed page stands one
block of cells, each with a word for what it holds, and the page reads only from there. In a template ``{soak}`` is
the block's own cell of that key, and ``[w_soak]`` the chosen batch's cell of that field in the plan or its workings.
Nothing that a failing or stopped batch left behind comes through: such cells stay empty.
"""

from __future__ import annotations

import re
from typing import Dict

from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.trade import pieces
from brinecalc.workbook import frame, page, styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.sheets.plan import FIRST_ROW, SHEET

_KEY = re.compile(r"\{(\w+)\}")
_FIELD = re.compile(r"\[(\w+)\]")


class Chosen:
    """The block of cells about the batch whose number stands in a named cell."""

    def __init__(self, book: Book, sheet: Worksheet, number: str, column: int, row: int = 3) -> None:
        self.book = book
        self.sheet = sheet
        self.column = column
        self.row = row
        self.cells: Dict[str, str] = {"choice": number}
        words = get_column_letter(column)
        sheet.column_dimensions[words].width = 34
        sheet.column_dimensions[get_column_letter(column + 1)].width = 20
        styles.put(sheet, f"{words}{row - 2}", "Behind the page (not printed, nothing to fill in)", "strong")
        self._choose()

    def _choose(self) -> None:
        batches = self.book.options.batches
        self.always("number", "Batch, 0 if there is none", f"=IF(ISNUMBER({{choice}}),IF(AND({{choice}}>=1,{{choice}}<={batches}),"
                    "INT({choice}),0),0)", "count")  # fmt: skip
        self.always("row", "Row looked into", "=IF({number}=0,1,{number})", "count")
        self.always("on", "Anything planned in it", "=IF({number}=0,0,[w_on])", "count")
        self.always("says", "What the plan says", '=IF({on}=0,"EMPTY",[w_says])', "text")
        self.always("usable", "May be worked from", '=IF(OR({on}=0,{says}="FAILS",{says}="STOP"),0,1)', "count")
        worst = 'IF([w_fails]<>0,"FAILS: "&[w_reason],[c_first])'  # what the batch costs is not the cook's business
        self.always(
            "message",
            "In words",
            f'=IF({{number}}=0,"Choose a batch number from 1 to {batches}.",IF({{on}}=0,'
            f'"Batch "&{{number}}&" is still empty on {SHEET}.",{worst}))',
            "text",
        )

    def fill(self, template: str) -> str:
        """A template with keys and fields replaced by cells."""

        def field(match: re.Match[str]) -> str:
            return f"INDEX({self.book.layout.whole(match[1], self.sheet.title)},{self.cells['row']})"

        return _FIELD.sub(field, _KEY.sub(lambda match: self.cells[match[1]], template))

    def always(self, key: str, words: str, template: str, form: str = "plain") -> str:
        """One more cell of the block, worked out whatever the state of the batch; answers its address."""
        at, value = f"{get_column_letter(self.column)}{self.row}", f"{get_column_letter(self.column + 1)}{self.row}"
        styles.put(self.sheet, at, words, "quiet")
        styles.put(self.sheet, value, self.fill(template), "cell", form)
        self.cells[key] = f"${get_column_letter(self.column + 1)}${self.row}"
        self.row += 1
        return self.cells[key]

    def add(self, key: str, words: str, template: str, form: str = "plain") -> str:
        """One more cell of the block, empty unless the batch may be worked from."""
        return self.always(key, words, f'=IF({{usable}}=0,"",{template})', form)

    def when_usable(self, template: str) -> str:
        """A formula for the page, empty unless the batch may be worked from."""
        return self.fill(f'=IF({{usable}}=0,"",{template})')

    def add_soak(self) -> None:
        """What every time function is told about the batch."""
        self.add("product", "Product", '[product]&""', "text")
        self.add("method", "Method", "[w_method]", "text")
        self.add("size", "Thickness, mm", "[w_size]")
        self.add("shape", "Shape", "[w_shape]", "text")
        self.add("treatment", "Treatment", "[w_treatment]", "text")
        self.add("native", "Salt in it already", "[w_native]", "fine_share")
        self.add("degree", "Brine, °C", "[w_degree]", "temperature")
        self.add("strength", "Strength, of the water", "[w_strength]", "fine_share")
        self.add("ratio", "Water per product", "[w_ratio]", "0.00")
        self.add("target", "Salt wanted", "[target]", "fine_share")
        self.add("soak", "Soak, h", "[w_soak]", "hours")
        self.add("soak_fast", "Soak if fast, h", "[w_soak_fast]", "hours")
        self.add("soak_slow", "Soak if slow, h", "[w_soak_slow]", "hours")
        self.add("rest", "Rest, h", "[w_rest]", "hours")
        self.add("put_in", "Put in", minute("[w_put_in]"), "moment")
        self.add("perishable", "Kept cold (1 yes)", "INDEX(list_perishable,[w_listed])", "count")
        self.always(
            "wet", "Lies in a brine (1 yes)", '=IF({usable}=0,0,IF(OR({method}="gradient",{method}="equilibrium"),1,0))'
        )

    def add_longest(self) -> None:
        """The most hours for which the time functions answer: in the warm a perishable product has few."""
        warm, most = pieces.on_the_clock()
        self.add(
            "longest",
            "Longest time that may be asked for, h",
            f"IF(AND({{perishable}}=1,{{degree}}>{warm:g}),{most:g},100000)",
            "hours",
        )

    def add_wanted(self) -> None:
        """The salt wanted as it can be drawn and read: in the product itself, without its solids."""
        self.add(
            "wanted",
            "Salt wanted, in the product itself",
            'IF({method}="equilibrium",[w_whole],{target})',
            "fine_share",
        )

    def by_weight(self) -> str:
        """A formula for a sentence on a batch left to equilibrium: what was asked for by weight, and what that is here."""
        return (
            'IF({method}="equilibrium"," Salt wanted, "&ROUND(100*{target}+1E-9,2)&" % by weight (solids counted as water), is "'
            '&ROUND(100*{wanted}+1E-9,2)&" % in the product itself, as drawn here.","")'
        )

    def headline(self) -> str:
        """The formula at the head of the page: which batch it is, or that there is none to work from."""
        what = '[batch]&"   "&{product}&IF([label]="","",", for "&[label])'
        return self.fill(f'=IF({{usable}}=0,IF({{on}}=0,"No batch","Do not start"),{what})')

    def add_sugar(self) -> None:
        """The sugar in the brine, which a meter has to be forgiven."""
        self.add("sweetener", "Sweetener", '[sweetener]&""', "text")
        self.add("liquid", "Instead of water", '[liquid]&""', "text")
        sugar = (
            'IF({method}="dry equilibrium",0,(IF({sweetener}="",0,BRINE_SUGARS([w_sweet],{sweetener}))'
            '+IF({liquid}="",0,BRINE_SUGARS([w_liquid],{liquid}))+IF([acid]="",0,BRINE_SUGARS([w_acid],[acid])))/[w_brine])'
        )
        self.add("sugar", "Sugar, of the brine", sugar, "fine_share")

    def uptake(self, hours: str, estimate: str) -> str:
        """The call for the product's average salt after those hours."""
        return self.fill(
            f"BRINE_UPTAKE({{product}},{{size}},{hours},{{strength}},{{degree}},{{ratio}},{{shape}},{{treatment}},"
            f'"{estimate}",{{native}})'
        )

    def bath(self, hours: str, estimate: str) -> str:
        """The call for what the bath holds after those hours, of the water."""
        return self.fill(
            f"BRINE_BATH_STRENGTH({{product}},{{size}},{hours},{{strength}},{{ratio}},{{degree}},{{shape}},{{treatment}},"
            f'"{estimate}",{{native}})'
        )


def minute(moment: str) -> str:
    """A moment to the whole minute and a hair more, so that four o'clock does not read one minute to four."""
    return f'IF({moment}="","",{frame.minute(moment)})'


def choose(book: Book, sheet: Worksheet, cells: str, name: str, size: float = 12) -> None:
    """The framed cell in which a batch is chosen by its number; a new workbook starts with the first."""
    page.span(sheet, cells, 1, page.Look(size=size, bold=True, align="center", paint="input"), "count")
    corner = cells.split(":")[0]
    book.name(name, sheet.title, re.sub(r"([A-Z]+)(\d+)", r"$\1$\2", corner))
    batches = book.options.batches
    numbers = f"{SHEET}!$A${FIRST_ROW}:$A${FIRST_ROW + batches - 1}"
    words = f"Number of a row on {SHEET}, 1 to {batches}. Everything on this sheet follows from it."
    frame.validate(sheet, frame.Field(name, "Batch", choices=numbers, help=words), corner)
