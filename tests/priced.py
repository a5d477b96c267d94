"""A computed workbook that can be asked and changed, and what the tests of prices, order and recipe work out by hand.

Packs are read here by rules of their own; densities of packs by volume come from the published measures in
``tests/reference/usda_sr27.csv``.
"""

from __future__ import annotations

import csv
import functools
import re
from collections import defaultdict
from contextlib import AbstractContextManager
from pathlib import Path

from built import FEW, bare
from openpyxl.utils import column_index_from_string, coordinate_to_tuple
from trials import kept

from brinecalc.workbook import example
from brinecalc.workbook.book import Options
from brinecalc.workbook.create import PAPERS
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.sheets import checks, plan, prices, recipe, results, workings

REFERENCE = Path(__file__).parent / "reference"


FLUID_OUNCE = 29.5735295625  # mL, US; definition


WATER = 0.9982067  # g/mL at 20 °C, CRC Handbook of Chemistry and Physics


GRIDS = {module.SHEET: module.grid() for module in (plan, results, prices, workings, checks)}


PLACES = {field.key: grid for grid in GRIDS.values() for field in grid.fields}


def place(key: str, row: int) -> tuple[str, int, int]:
    """Where a field of a grid stands in its row, counted from 1."""
    grid = PLACES[key]
    return grid.sheet, grid.first_row + row - 1, column_index_from_string(grid.columns[key])


class Book:
    """A computed workbook that can be asked and changed."""

    def __init__(self, content: bytes) -> None:
        self.trial = kept(content)
        self.names = Edit(content, "book.xlsx")

    def at(self, sheet: str, address: str) -> object:
        return self.trial.value(sheet, *coordinate_to_tuple(address))

    def of(self, key: str, row: int) -> object:
        value = self.trial.value(*place(key, row))
        return "" if value is None else value

    def named(self, name: str) -> object:
        found = self.names.place(name)
        return self.trial.value(found.sheet, found.area.top, found.area.left)

    def cell(self, name: str) -> tuple[str, int, int]:
        found = self.names.place(name)
        return found.sheet, found.area.top, found.area.left

    def supposing(self, cells: dict) -> AbstractContextManager[None]:
        """Other values in some cells, put back afterwards."""
        return self.trial.supposing(cells)

    def everything(self) -> dict:
        return {formula.cell: self.trial.value(*formula.cell) for formula in self.trial.formulas()}


@functools.cache
def shared(units: str = "metric", filled: bool = True, batches: int = FEW) -> Book:
    """The worked example or a blank workbook, computed once; whoever supposes something puts it back."""
    return Book(bare(Options(units, PAPERS[units], filled, batches)))


def price_row(name: str) -> int:
    return next(row for row, cells in enumerate(example.PRICES, 1) if cells["name"] == name)


def used_in(book: Book) -> dict[str, dict[int, float]]:
    """Name → batch → grams, from what the workings say goes into each batch."""
    needs: dict[str, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    for batch in range(1, len(example.BATCHES) + 1):
        for key, _, _ in workings.INGREDIENTS:
            name, grams = book.of(f"n_{key}", batch), book.of(f"m_{key}", batch)
            if name and isinstance(grams, float) and grams > 0:
                needs[name][batch] += grams
    return needs


def densities() -> dict[str, float]:
    with (REFERENCE / "usda_sr27.csv").open(encoding="utf-8", newline="") as file:
        rows = {row["description"]: row for row in csv.DictReader(file)}
    cup = 8 * FLUID_OUNCE
    return {
        "cola": float(rows["CARBONATED BEV,COLA"]["weight2_g"]) / (12 * FLUID_OUNCE),
        "buttermilk": float(rows["MILK,BTTRMLK,FLUID,CULTURED,LOWFAT"]["weight1_g"]) / cup,
        "vinegar": float(rows["VINEGAR,DISTILLED"]["weight2_g"]) / cup,
        "maple syrup": float(rows["SYRUPS,MAPLE"]["weight1_g"]) / (cup / 16),
        "water": WATER,
        "apple juice": 1.048,  # USDA SR27 09016, 248 g to the cup
    }


def pack_in_grams(cells: dict) -> float:
    """A pack of the example, read here by its own few rules."""
    number = re.fullmatch(r"(?:(\d+) x )?([\d.]*) ?(kg|g|L|mL|each)", cells["pack"])
    count = float(number[1] or 1) * float(number[2] or 1)
    in_base = {"kg": 1000.0, "g": 1.0, "L": 1000.0, "mL": 1.0, "each": 1.0}[number[3]] * count
    if number[3] == "each":
        return in_base * cells["piece"]
    return in_base * (densities()[cells["name"]] if number[3] in ("L", "mL") else 1.0)


def expected(book: Book) -> dict[str, object]:
    """What the brine should read and come to, by its words on the page."""
    found = {}
    for row in range(recipe.LAST + 4, recipe.LAST + 9):
        for words, value in (("A", "D"), ("F", "J"), ("L", "M")):
            found[book.at(recipe.SHEET, f"{words}{row}")] = book.at(recipe.SHEET, f"{value}{row}")
    return found


def typed(book: Book, pairs: list[tuple[str, float]]) -> dict:
    """Ingredients typed into the recipe, in place of the example's."""
    top = recipe.TOP + len(recipe.FIXED)
    cells = {}
    for number in range(recipe.INGREDIENTS):
        name, level = pairs[number] if number < len(pairs) else (None, None)
        cells |= {(recipe.SHEET, top + number, 2): name, (recipe.SHEET, top + number, 3): level}
    return cells
