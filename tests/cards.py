"""Plans filled in as a person would, computed without a spreadsheet program, and the cells of Card, Log and Charts."""

from __future__ import annotations

import datetime
from functools import cache
from typing import Dict, List

import openpyxl
import xlsx
from built import FEW, bare
from openpyxl.utils.cell import (
    column_index_from_string,
    coordinate_to_tuple,
    get_column_letter,
    range_boundaries,
)
from priced import shared
from trials import Kept, kept

from brinecalc.workbook.book import Options
from brinecalc.workbook.create import PAPERS
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.sheets import card, card_steps, charts, log, log_rows, plan

READY = datetime.datetime(2027, 3, 5, 12, 0)


NOON = 46451.5
"""The same moment as a spreadsheet counts days: 46451 is 5 March 2027."""


MINUTE = 1 / 1440


DEEPEST = 149
"""The row down to which a sheet is looked at, with what stands behind its page."""


SODIUM = 45 / 100_000
"""Sodium of raw chicken breast, per gram: USDA SR 27, NDB 05062."""


NATIVE = SODIUM / 0.3934
"""As salt, by the atomic masses of sodium and chlorine (39.34 % sodium)."""


PLAIN, DRY, INJECTED, STOPPED, FAILING, SWEET, EVEN, FULL, EMPTY, SHORT, BONE_IN, FERMENT, CURED_FISH = range(1, 14)


ROWS = {
    PLAIN: {"product": "chicken breast", "label": "Friday lunch", "pieces": 40, "weight": 10, "thickness": 25,
            "method": "gradient", "target": 0.01, "strength": 0.06, "vessel": 40, "ready": READY},
    DRY: {"product": "pork belly", "weight": 9, "thickness": 40, "shape": "slab", "method": "dry equilibrium",
          "target": 0.022, "cure": "curing salt no. 1", "cure_ppm": 115, "cure_method": "dry", "hours": 144,
          "ready": READY},
    INJECTED: {"product": "beef brisket", "pieces": 2, "weight": 10, "thickness": 70, "method": "injected",
               "target": 0.018, "gain": 0.15, "phosphate": "sodium tripolyphosphate", "phosphate_level": 0.02,
               "cure": "curing salt no. 1", "cure_ppm": 100, "cure_method": "pumped", "rest": 36, "ready": READY},
    STOPPED: {"product": "pork shoulder", "weight": 6, "thickness": 60, "method": "equilibrium", "target": 0.015,
              "liquid": "cola", "cure": "curing salt no. 1", "cure_ppm": 80, "cure_method": "equilibrium",
              "ready": READY},
    FAILING: {"product": "duck breast", "weight": 6, "thickness": 40, "method": "gradient", "target": 0.012,
              "strength": 0.05, "bath_degree": 9, "ready": READY},
    SWEET: {"product": "chicken breast", "weight": 10, "thickness": 25, "method": "gradient", "target": 0.01,
            "strength": 0.06, "sweetener": "white sugar", "sweet_level": 0.05, "ready": READY},
    EVEN: {"product": "cucumber", "weight": 6, "thickness": 32, "shape": "cylinder", "method": "equilibrium",
           "target": 0.022, "acid": "vinegar", "acid_level": 0.1, "ready": READY},
    SHORT: {"product": "cucumber", "weight": 6, "thickness": 32, "shape": "cylinder", "method": "equilibrium",
            "target": 0.022, "hours": 30, "ready": READY},
    BONE_IN: {"product": "ham leg", "pieces": 1, "weight": 8, "thickness": 100, "method": "injected", "target": 0.018,
              "gain": 0.15, "rest": 48, "vessel": 25, "ready": READY},
    FERMENT: {"product": "cucumber", "weight": 10, "thickness": 30, "shape": "cylinder", "method": "equilibrium",
              "target": 0.025, "hours": 240, "bath_degree": 20, "ready": READY},
    CURED_FISH: {"product": "salmon fillet", "weight": 6, "thickness": 30, "method": "dry equilibrium", "target": 0.02,
                 "hours": 30, "aroma_one": "mustard seed", "aroma_one_level": 0.005, "aroma_two": "pickling spice",
                 "aroma_two_level": 0.005, "ready": READY},
    FULL: {"product": "pork loin", "pieces": 1, "weight": 5, "thickness": 30, "shape": "slab", "method": "gradient",
           "target": 0.014, "strength": 0.08, "gain": 0.1, "sweetener": "brown sugar", "sweet_level": 0.02,
           "aroma_one": "juniper berries", "aroma_one_level": 0.004, "aroma_two": "bay leaf", "aroma_two_level": 0.001,
           "phosphate": "sodium tripolyphosphate", "phosphate_level": 0.003, "cure": "curing salt no. 1",
           "cure_ppm": 100, "cure_method": "pick-up", "vessel": 20, "ready": READY},
}  # fmt: skip
"""What a person typed into the plan; row 9 is left empty, row 10 is taken out early."""


Sheet = Dict[str, object]


def serial(moment: datetime.datetime) -> float:
    return (moment - datetime.datetime(1899, 12, 30)) / datetime.timedelta(days=1)


@cache
def template(units: str = "metric") -> bytes:
    return bare(Options(units, PAPERS[units], batches=FEW))


@cache
def opened(units: str = "metric") -> openpyxl.Workbook:
    return xlsx.seen(template(units), values=False)


@cache
def filled(units: str) -> Kept:
    """The template with the plan typed in, kept ready to be asked."""
    edit = Edit(template(units), "plan.xlsx")
    columns = plan.grid().columns
    for row, cells in ROWS.items():
        for field, value in cells.items():
            typed = serial(value) if isinstance(value, datetime.datetime) else value
            typed = round(value / 25.4, 2) if (field, units) == ("thickness", "US") else typed  # mm to in
            at = column_index_from_string(columns[field])
            edit.put(plan.SHEET, plan.FIRST_ROW + row - 1, at, typed)
    return kept(edit.done())


@cache
def example() -> Dict[str, Sheet]:
    return snapshot(shared().trial)


def snapshot(trial: Kept) -> Dict[str, Sheet]:
    """All cells of the three sheets by address."""
    made = {}
    for name in (card.SHEET, log.SHEET, charts.SHEET):
        cells = (
            (row, at, v) for row, line in enumerate(trial.block(name, DEEPEST, 69), 1) for at, v in enumerate(line, 1)
        )
        made[name] = {f"{get_column_letter(at)}{row}": value for row, at, value in cells if value not in (None, "")}
    return made


@cache
def computed(number: int, units: str = "metric", readings: tuple = ()) -> Dict[str, Sheet]:
    """The three sheets with that batch chosen on each, and with readings typed into the log."""
    trial = filled(units)
    names = Edit(template(units), "plan.xlsx")
    choices = (names.place(name) for name in (card.NAME, log.NAME, charts.NAME))
    cells = {(found.sheet, found.area.top, found.area.left): float(number) for found in choices}
    for address, value in readings:
        cell = (log.SHEET, *coordinate_to_tuple(address))
        cells[cell] = serial(value) if isinstance(value, datetime.datetime) else value
    with trial.supposing(cells):
        assert not trial.distrusted()
        return snapshot(trial)


def printed(name: str, sheet: Sheet) -> Sheet:
    """The filled cells of the printed page."""
    area = opened()[name].print_area.split("!")[-1].replace("$", "")
    left, top, right, bottom = range_boundaries(area)
    return {
        address: value
        for address, value in sheet.items()
        for row, at in [coordinate_to_tuple(address)]
        if top <= row <= bottom and left <= at <= right
    }


def words(number: int, units: str = "metric") -> str:
    """All that the card says, in one text."""
    cells = printed("Card", computed(number, units)["Card"])
    return " ".join(str(value) for value in cells.values()).replace("\u00a0", " ")


def behind(sheet: Sheet, column: int) -> Dict[object, object]:
    """The block about the chosen batch, by its words."""
    left, right = get_column_letter(column), get_column_letter(column + 1)
    return {sheet.get(f"{left}{row}"): sheet.get(f"{right}{row}", "") for row in range(3, DEEPEST + 1)}


def letter(key: str) -> str:
    """The column of the log's page with that key."""
    keys = [column[0] for column in log_rows._columns()]
    return get_column_letter(keys.index(key) + 1)


DRY_FERMENT = {"product": "cabbage", "pieces": 40.0, "method": "dry equilibrium", "target": 0.0225, "hours": 504.0}
DAYS_UNKNOWN: Dict[str, object] = {"hours": None, "thickness": 60.0}
STEP_CELLS = [f"J{row}" for row in range(12, 12 + card_steps.MOST)]


def steps(number: int) -> List[str]:
    """The steps of a batch's card, which are numbered."""
    sheet = computed(number)["Card"]
    rows = [row for row in range(12, 12 + card_steps.MOST) if f"I{row}" in sheet]
    assert [sheet[f"I{row}"] for row in rows] == list(range(1, len(rows) + 1))
    return [sheet[f"J{row}"] for row in rows]


def place(texts: List[str], part: str) -> int:
    """Which of them says that; one does."""
    found = [number for number, text in enumerate(texts) if part in text]
    assert len(found) == 1, (part, texts)
    return found[0]


def supposed(number: int, typed: Dict[str, object], *cells: str) -> List[object]:
    """Cells of the card of a batch in whose row something else is typed."""
    row, columns = plan.FIRST_ROW + number - 1, plan.grid().columns
    given = {(plan.SHEET, row, column_index_from_string(columns[key])): value for key, value in typed.items()}
    with filled("metric").supposing({**given, ("Card", 1, 18): float(number)}):
        return [filled("metric").value("Card", *coordinate_to_tuple(at)) for at in cells]
