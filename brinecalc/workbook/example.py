"""The worked example: three days of an invented banqueting kitchen, every feature of the workbook in use.

All of it is made up for this workbook: the house, the menu, the prices. Batch 13 is a deliberate STOP (curing salt
in cola) and batch 7 a deliberate CAUTION, so that a reader sees what they look like. Figures are kept in metric and
turned into US units by exact factors, so both workbooks describe the same food.
"""

from __future__ import annotations

import datetime
from typing import Any, Dict, List, Tuple

from brinecalc.workbook.book import Book

KITCHEN = "Larkspur Hall, banqueting"
PREPARED_BY = "the brine desk"


def _at(day: int, hour: int, minute: int = 0) -> datetime.datetime:
    return datetime.datetime(2027, 3, day, hour, minute)  # wall-clock time of the kitchen


BATCHES: List[Dict[str, Any]] = [
    {"product": "chicken breast", "label": "Friday lunch", "pieces": 40, "weight": 8, "thickness": 25,
     "method": "gradient", "target": 0.01, "strength": 0.06, "sweetener": "honey", "sweet_level": 0.02,
     "aroma_one": "fresh thyme", "aroma_one_level": 0.005, "vessel": 30, "portion": 180, "ready": _at(5, 11, 30)},
    {"product": "pork chop", "label": "Friday dinner", "pieces": 24, "weight": 6, "thickness": 30,
     "method": "gradient", "target": 0.011, "hours": 8, "sweetener": "brown sugar", "sweet_level": 0.03,
     "aroma_one": "juniper berries", "aroma_one_level": 0.004, "vessel": 25, "portion": 220, "ready": _at(5, 18)},
    {"product": "pork loin", "label": "Saturday carvery", "pieces": 2, "weight": 7, "thickness": 90,
     "shape": "cylinder", "method": "equilibrium", "target": 0.014, "ratio": 0.8, "sweetener": "white sugar",
     "sweet_level": 0.02, "aroma_one": "fresh garlic", "aroma_one_level": 0.01, "aroma_two": "bay leaf",
     "aroma_two_level": 0.001, "vessel": 30, "portion": 200, "ready": _at(6, 15)},
    {"product": "whole turkey", "label": "Saturday carvery", "pieces": 2, "weight": 12, "thickness": 60,
     "method": "gradient", "target": 0.008, "hours": 20, "sweetener": "honey", "sweet_level": 0.02,
     "aroma_one": "fresh rosemary", "aroma_one_level": 0.003, "aroma_two": "lemon zest", "aroma_two_level": 0.005,
     "vessel": 60, "rest": 6, "portion": 200, "ready": _at(6, 12)},
    {"product": "salmon fillet", "label": "Friday starters", "pieces": 4, "weight": 5, "thickness": 28,
     "method": "gradient", "target": 0.015, "strength": 0.1, "sweetener": "brown sugar", "sweet_level": 0.04,
     "aroma_one": "fresh dill", "aroma_one_level": 0.01, "vessel": 20, "rest": 4, "portion": 80, "ready": _at(5, 16)},
    {"product": "peeled shrimp", "label": "Friday starters", "pieces": 200, "weight": 3, "thickness": 14,
     "shape": "cylinder", "method": "gradient", "target": 0.012, "strength": 0.05, "acid": "baking soda",
     "acid_level": 0.005, "phosphate": "sodium tripolyphosphate", "phosphate_level": 0.003, "treatment": "thawed",
     "vessel": 12, "rest": 0.5, "portion": 90, "ready": _at(5, 17)},
    {"product": "duck breast", "label": "Saturday dinner", "pieces": 30, "weight": 6, "thickness": 20,
     "method": "gradient", "target": 0.012, "strength": 0.07, "aroma_one": "star anise", "aroma_one_level": 0.002,
     "aroma_two": "lemon zest", "aroma_two_level": 0.01, "bath_degree": 7, "ratio": 1.5, "rest": 2, "vessel": 25,
     "portion": 190, "ready": _at(6, 18, 30)},
    {"product": "pork belly", "label": "house bacon", "pieces": 3, "weight": 9, "thickness": 45,
     "method": "dry equilibrium", "target": 0.022, "sweetener": "maple syrup", "sweet_level": 0.02,
     "aroma_one": "black peppercorns", "aroma_one_level": 0.005, "cure": "curing salt no. 1", "cure_ppm": 115,
     "cure_method": "dry", "rest": 24, "portion": 40, "ready": _at(7, 9)},
    {"product": "beef brisket", "label": "Sunday salt beef", "pieces": 2, "weight": 10, "thickness": 70,
     "method": "injected", "target": 0.018, "gain": 0.15, "sweetener": "white sugar", "sweet_level": 0.02,
     "phosphate": "sodium tripolyphosphate", "phosphate_level": 0.02, "cure": "curing salt no. 1", "cure_ppm": 110,
     "cure_method": "pumped", "rest": 36, "portion": 160, "ready": _at(7, 10)},
    {"product": "cucumber", "label": "all week", "pieces": 60, "weight": 6, "thickness": 32, "shape": "cylinder",
     "method": "equilibrium", "target": 0.022, "ratio": 1, "acid": "vinegar", "acid_level": 0.1,
     "aroma_one": "fresh dill", "aroma_one_level": 0.01, "aroma_two": "mustard seed", "aroma_two_level": 0.005,
     "vessel": 20, "ready": _at(7, 12)},
    {"product": "firm tofu", "label": "Saturday dinner", "pieces": 20, "weight": 6, "thickness": "150 x 60 x 40 mm",
     "shape": "block", "method": "gradient", "target": 0.01, "strength": 0.06, "sweetener": "malt syrup",
     "sweet_level": 0.02, "aroma_one": "fresh ginger", "aroma_one_level": 0.01, "vessel": 20, "portion": 150,
     "ready": _at(6, 18)},
    {"product": "chicken thigh", "label": "Sunday lunch", "pieces": 50, "weight": 7, "thickness": 28,
     "method": "gradient", "target": 0.01, "strength": 0.06, "liquid": "buttermilk", "aroma_one": "paprika",
     "aroma_one_level": 0.01, "vessel": 25, "portion": 160, "ready": _at(7, 11, 30)},
    {"product": "pork shoulder", "label": "Sunday lunch (do not start)", "pieces": 2, "weight": 6, "thickness": 90,
     "method": "equilibrium", "target": 0.015, "liquid": "cola", "cure": "curing salt no. 1", "cure_ppm": 100,
     "cure_method": "equilibrium", "vessel": 25, "portion": 180, "ready": _at(7, 12)},
    {"product": "pork spareribs", "label": "Saturday bar", "pieces": 12, "weight": 9, "thickness": 25,
     "method": "gradient", "target": 0.01, "strength": 0.06, "liquid": "cola", "aroma_one": "dried chilli",
     "aroma_one_level": 0.002, "vessel": 30, "portion": 250, "ready": _at(6, 17)},
    {"product": "lamb leg", "label": "Sunday roast", "pieces": 4, "weight": 9, "thickness": 75, "method": "gradient",
     "treatment": "tumbled", "target": 0.009, "strength": 0.08, "aroma_one": "fresh rosemary", "aroma_one_level": 0.004,
     "aroma_two": "fresh garlic", "aroma_two_level": 0.01, "rest": 12, "vessel": 40, "portion": 200, "ready": _at(7, 10)},
]  # fmt: skip
"""The plan's rows, by field."""

PRICES: List[Tuple[str, str, float, float, float, int]] = [
    # name, pack, price of the pack, usable share, on hand (kg), packs in a case
    ("water", "1000 kg", 2.4, 1.0, 0, 1),
    ("ice", "10 kg", 4.5, 0.95, 0, 1),
    ("salt", "25 kg", 11.9, 1.0, 4, 1),
]
"""The price list of the example, filled from the tables below as sheets are added."""

_US = {"weight": 1 / 0.45359237, "portion": 1 / 28.349523125, "vessel": 1 / 0.946352946}


def in_units(field: str, value: Any, units: str) -> Any:
    """A metric figure as the workbook's units have it."""
    if units == "metric" or not isinstance(value, (int, float)):
        return value
    if field == "thickness":
        return round(value / 25.4, 2)
    if field == "bath_degree":
        return value * 1.8 + 32
    return round(value * _US[field], 2) if field in _US else value


def fill(book: Book) -> None:
    """Writes the example's batches into the plan."""
    plan = book.grids["Plan"]
    sheet = book.workbook[plan.sheet]
    for row, batch in enumerate(BATCHES, plan.first_row):
        for field, value in batch.items():
            sheet[plan.address(field, row)].value = in_units(field, value, book.options.units)
    book.set("kitchen", KITCHEN)
    book.set("prepared_by", PREPARED_BY)
