"""The lists behind the drop-downs: names from the library's own tables, and the figures that go with them.

One idea: a workbook offers exactly the names the functions know, so a cell filled from a list can always be read.
"""

from __future__ import annotations

import re
from typing import Dict, List, Sequence, Tuple

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.names import fold
from brinecalc.tables import load
from brinecalc.trade import ingredients
from brinecalc.workbook import styles
from brinecalc.workbook.book import Book
from brinecalc.workbook.sheets import ingredient_lists, near, reasons

SHEET = "Lists"
FIRST_ROW = 5
_CELSIUS = re.compile(r"(?:(\d+(?:\.\d+)?) to )?(\d+(?:\.\d+)?) °C")

ROLES: Dict[str, Tuple[str, ...]] = {
    "sweetener_names": ("sweetener",),
    "aromatic_names": ("herb", "spice", "aromatic", "seasoning"),
    "phosphate_names": ("phosphate",),
    "acid_names": ("acid", "base", "juice", "vinegar"),
    "liquid_names": ingredients.LIQUIDS,
}
"""Name of a list, and the roles of the ingredients in it."""

TITLES = {
    "sweetener_names": "Sweeteners",
    "aromatic_names": "Herbs, spices, aromatics",
    "phosphate_names": "Phosphates",
    "acid_names": "Acids and bases",
    "liquid_names": "Liquids",
}


def columns() -> List[Tuple[str, str, Sequence[object]]]:
    """Each list as its workbook name, its heading and its values."""
    products = sorted(load.rows("products"), key=lambda row: row["name"])
    cures = [row for row in load.rows("cures") if 0 < row["nitrite"] < 1]
    made: List[Tuple[str, str, Sequence[object]]] = [
        ("product_names", "Products", [row["name"] for row in products]),
        ("list_shape", "Usual shape", [row["shape"] for row in products]),
        ("list_native", "Salt in it already", [row["native_salt"] for row in products]),
        ("list_cap", "Customary longest soak, h", [row["cap_hours"] for row in products]),
        ("list_measure", "What to measure", [row["thickness_note"] for row in products]),
        ("list_group", "Kind of product", [row["group"] for row in products]),
        ("list_perishable", "Kept cold (1 yes)", [int(row["perishable"]) for row in products]),
    ]
    for name, roles in ROLES.items():
        found = sorted(row["name"] for row in load.rows("ingredients") if row["role"] in roles)
        made.append((name, TITLES[name], found))
    made += [
        ("cure_names", "Curing salts", [row["cure"] for row in cures]),
        ("list_cure_nitrite", "Nitrite in it", [row["nitrite"] for row in cures]),
        ("list_cure_salt", "Salt in it", [row["salt"] for row in cures]),
    ]
    made += [
        *_other_names("alias", "products", [(row["name"], row["aliases"]) for row in products]),
        *_other_names("other", "ingredients", [(row["name"], row["aliases"]) for row in load.rows("ingredients")]),
        *_other_names("other_cure", "curing salts", [(row["cure"], row["aliases"]) for row in cures]),
        ("spoken_names", "What a function calls it", [name for name, _ in reasons.SPOKEN]),
        ("spoken_labels", "What the plan calls it", [label for _, label in reasons.SPOKEN]),
    ]
    return made + ingredient_lists.columns()


def _other_names(
    key: str, kind: str, rows: Sequence[Tuple[str, Sequence[str]]]
) -> List[Tuple[str, str, Sequence[object]]]:
    """Every name of some things without signs between, as typed and in the singular, and the name that is listed."""
    spellings = ((spelling, listed) for listed, others in rows for spelling in (listed, *others))
    found = {way: listed for spelling, listed in spellings for way in (fold(spelling), near.bare(spelling.lower()))}
    pairs = sorted(found.items())
    return [
        (f"{key}_names", f"Other names of {kind}", [way for way, _ in pairs]),
        (f"{key}_of", "As listed", [listed for _, listed in pairs]),
    ]


def write(book: Book, sheet: Worksheet) -> None:
    """Writes every list as a named column."""
    styles.put(sheet, "A1", "Lists", "title")
    styles.put(
        sheet,
        "A2",
        "The names that the functions know. Nothing to fill in here; too wide for paper, where only this head prints.",
        "lead",
    )
    for number, (name, title, values) in enumerate(columns(), 1):
        column = sheet.cell(FIRST_ROW - 1, number).column_letter
        styles.put(sheet, f"{column}{FIRST_ROW - 1}", title, "heading")
        sheet.column_dimensions[column].width = 12 if name.startswith("list_") else 26
        for row, value in enumerate(values, FIRST_ROW):
            styles.put(sheet, f"{column}{row}", _shown(value), "cell")
        book.name(name, SHEET, f"${column}${FIRST_ROW}:${column}${FIRST_ROW + len(values) - 1}")
    sheet.column_dimensions["E"].width = 60
    sheet.freeze_panes = f"A{FIRST_ROW}"
    sheet.print_area = "A1:E2"


def _shown(value: object) -> object:
    """A text with temperatures in it follows the unit that is shown; anything else stands as it is."""
    if not isinstance(value, str) or "°C" not in value:
        return value
    metric, us = (words.replace('"', '""') for words in (value, _CELSIUS.sub(_fahrenheit, value)))
    return f'=IF(shown_units="US","{us}","{metric}")'


def _fahrenheit(match: "re.Match[str]") -> str:
    """Degrees Celsius in words, "30 to 40 °C", to the nearest five degrees Fahrenheit: they are kitchen figures."""
    figures = [f"{5 * round((float(figure) * 1.8 + 32) / 5):g}" for figure in match.groups() if figure]
    return " to ".join(figures) + " °F"
