"""The worked example: three days of an invented banqueting kitchen, every feature of the workbook in use.

One idea: it is filled in as a person would, into input cells only, so that it shows what the workbook does by itself.
All of it is made up: the house, the menu, the prices. Batch 13 is a deliberate STOP (curing salt
in cola) and batch 6 a deliberate CAUTION (a brine that is too warm), so that a reader sees what they look like. The
same three days are typed in US units with figures of their own (example_us), round where a US kitchen's are round.
"""

from __future__ import annotations

import datetime
from typing import Any, Dict, List, Tuple

from brinecalc.workbook import example_us
from brinecalc.workbook.book import Book
from brinecalc.workbook.sheets import card, charts, log, log_rows, recipe

KITCHEN = "Larkspur Hall, banqueting"
PREPARED_BY = "the brine desk"


def _at(day: int, hour: int, minute: int = 0) -> datetime.datetime:
    return datetime.datetime(2027, 3, day, hour, minute)  # wall-clock time of the kitchen


BATCHES: List[Dict[str, Any]] = [
    {"product": "chicken breast", "label": "Friday lunch", "pieces": 40, "weight": 8, "thickness": 25,
     "method": "gradient", "target": 0.01, "strength": 0.06, "sweetener": "honey", "sweet_level": 0.02,
     "aroma_one": "fresh thyme", "aroma_one_level": 0.005, "vessel": 30, "portion": 180, "ready": _at(5, 11, 30)},
    {"product": "pork chop", "label": "Friday dinner", "pieces": 24, "weight": 6, "thickness": 25,
     "method": "gradient", "target": 0.011, "hours": 5, "sweetener": "brown sugar", "sweet_level": 0.03,
     "aroma_one": "juniper berries", "aroma_one_level": 0.004, "vessel": 25, "portion": 220, "ready": _at(5, 18)},
    {"product": "pork tenderloin", "label": "Saturday carvery", "pieces": 12, "weight": 6, "thickness": 45,
     "shape": "cylinder", "method": "equilibrium", "target": 0.014, "ratio": 0.8, "sweetener": "white sugar",
     "sweet_level": 0.02, "aroma_one": "fresh garlic", "aroma_one_level": 0.01, "aroma_two": "bay leaf",
     "aroma_two_level": 0.001, "vessel": 30, "portion": 200, "ready": _at(6, 15)},
    {"product": "whole turkey", "label": "Saturday carvery", "pieces": 2, "weight": 12, "thickness": 60,
     "method": "gradient", "target": 0.008, "hours": 20, "sweetener": "honey", "sweet_level": 0.02,
     "aroma_one": "fresh rosemary", "aroma_one_level": 0.003, "aroma_two": "lemon zest", "aroma_two_level": 0.005,
     "vessel": 60, "rest": 6, "portion": 200, "ready": _at(6, 12)},
    {"product": "salmon fillet", "label": "Friday starters", "pieces": 4, "weight": 5, "thickness": 22,
     "shape": "slab", "method": "gradient", "target": 0.012, "strength": 0.12, "sweetener": "brown sugar", "sweet_level": 0.04,
     "aroma_one": "fresh dill", "aroma_one_level": 0.01, "bath_degree": 2, "vessel": 20, "rest": 4, "portion": 80, "ready": _at(5, 16)},
    {"product": "peeled shrimp", "label": "Friday starters", "pieces": 200, "weight": 3, "thickness": 14,
     "shape": "cylinder", "method": "gradient", "target": 0.012, "strength": 0.05, "acid": "baking soda",
     "acid_level": 0.005, "phosphate": "sodium tripolyphosphate", "phosphate_level": 0.003, "treatment": "thawed",
     "bath_degree": 7, "vessel": 12, "rest": 0.5, "portion": 90, "ready": _at(5, 17)},
    {"product": "duck breast", "label": "Saturday dinner", "pieces": 30, "weight": 6, "thickness": 20,
     "method": "gradient", "target": 0.012, "strength": 0.07, "aroma_one": "star anise", "aroma_one_level": 0.002,
     "aroma_two": "lemon zest", "aroma_two_level": 0.01, "ratio": 1.5, "rest": 2, "vessel": 25,
     "portion": 190, "ready": _at(6, 18, 30)},
    {"product": "pork belly", "label": "house bacon", "pieces": 3, "weight": 9, "thickness": 40,
     "shape": "slab", "method": "dry equilibrium", "target": 0.022, "sweetener": "maple syrup", "sweet_level": 0.02,
     "aroma_one": "black peppercorns", "aroma_one_level": 0.005, "cure": "curing salt no. 1", "cure_ppm": 115,
     "cure_method": "dry", "hours": 144, "rest": 24, "portion": 40, "ready": _at(7, 9)},
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
    {"product": "boneless chicken thigh", "label": "Sunday lunch", "pieces": 50, "weight": 7, "thickness": 22,
     "method": "gradient", "target": 0.01, "strength": 0.06, "liquid": "buttermilk", "aroma_one": "paprika",
     "aroma_one_level": 0.01, "vessel": 25, "portion": 160, "ready": _at(7, 11, 30)},
    {"product": "pork shoulder", "label": "Sunday lunch, on hold", "pieces": 2, "weight": 6, "thickness": 40,
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

PRICED_ON = datetime.date(2027, 3, 1)
MONEY = "EUR"


def _price(name: str, pack: str, price: float, day: int, usable: float = 1, **more: Any) -> Dict[str, Any]:
    """A row of the price list; `day` counts back from the day on which prices are judged."""
    date = PRICED_ON - datetime.timedelta(days=day)
    share = {} if usable == 1 else {"usable": usable}
    return {"name": name, "pack": pack, "price": price, "date": date, **share, **more}


PRICES: List[Dict[str, Any]] = [
    _price("chicken breast", "5 kg", 44.5, 6, 0.97),
    _price("boneless chicken thigh", "5 kg", 36.0, 6, 0.97),
    _price("whole turkey", "each", 40.5, 12, piece=6200),
    _price("duck breast", "2.5 kg", 48.0, 12),
    _price("pork chop", "6.5 kg", 48.75, 5),
    _price("pork tenderloin", "3.5 kg", 29.8, 5, 0.98),
    _price("pork belly", "3.2 kg", 23.0, 5),
    _price("pork shoulder", "3.2 kg", 17.6, 5),
    _price("pork spareribs", "4.5 kg", 27.0, 5, stock=2),
    _price("beef brisket", "5 kg", 62.5, 9, 0.95),
    _price("lamb leg", "2.4 kg", 33.6, 9),
    _price("salmon fillet", "1.25 kg", 26.5, 2, 0.96),
    _price("peeled shrimp", "6 x 1 kg", 88.0, 20),
    _price("cucumber", "12 each", 2.9, 3, 0.95, piece=100),
    _price("firm tofu", "12 x 300 g", 20.4, 18),
    _price("water", "1000 L", 4.4, 60, bought="no"),
    _price("ice", "100 kg", 6.0, 60, 0.9, bought="no"),
    _price("buttermilk", "6 x 1 L", 7.9, 3),
    _price("apple juice", "6 x 1 L", 8.4, 30),
    _price("cola", "24 x 330 mL", 15.6, 30),
    _price("salt", "10 kg", 6.9, 45, stock=4),
    _price("curing salt no. 1", "1 kg", 7.8, 45, stock=0.25),
    _price("white sugar", "10 kg", 11.5, 45, stock=1.5),
    _price("brown sugar", "1 kg", 2.7, 45, case=10),
    _price("honey", "5 kg", 36.5, 45, 0.98),
    _price("maple syrup", "1 L", 17.5, 110, stock=0.5),
    _price("malt syrup", "750 g", 5.4, 30),
    _price("vinegar", "5 L", 4.6, 45),
    _price("baking soda", "1 kg", 3.1, 45, stock=0.4),
    _price("sodium tripolyphosphate", "1 kg", 9.6, 75, fewest=2),
    _price("fresh thyme", "100 g", 2.6, 4, 0.8),
    _price("fresh rosemary", "100 g", 2.4, 4, 0.8),
    _price("fresh dill", "100 g", 2.2, 4, 0.85),
    _price("fresh garlic", "1 kg", 7.6, 10, 0.85, stock=0.3),
    _price("fresh ginger", "1 kg", 6.4, 10, 0.85),
    _price("lemon zest", "10 each", 4.9, 4, piece=9),
    _price("bay leaf", "50 g", 2.3, 75, stock=0.02),
    _price("black peppercorns", "1 kg", 16.8, 75, stock=0.35),
    _price("juniper berries", "250 g", 7.4, 75),
    _price("star anise", "250 g", 8.2, 75),
    _price("mustard seed", "1 kg", 5.9, 75),
    _price("paprika", "500 g", 8.8, 75, stock=0.15),
    _price("dried chilli", "250 g", 6.1, 75),
]  # fmt: skip
"""The price list of the example: invented prices, packs as kitchens of this size buy them."""

RECIPE: Dict[str, Any] = {
    "scale": "vessel", "vessel": 20, "weight": 6, "product": "pork chop", "strength": 0.05, "alkalinity": 150,
}  # fmt: skip
"""A brine typed on the recipe sheet, beside the plan."""

RECIPE_LINES: List[Tuple[str, float]] = [
    ("honey", 0.02), ("apple juice", 0.1), ("fresh garlic", 0.01), ("black peppercorns", 0.006), ("bay leaf", 0.0005),
    ("fresh thyme", 0.005), ("sodium tripolyphosphate", 0.003),
]  # fmt: skip

SHOWN_BATCH = 2
"""The batch that card, log and charts show when the example is opened."""

LOG: List[Tuple[datetime.datetime, float, float]] = [
    (_at(5, 11, 15), 6.85, 3.4), (_at(5, 11, 45), 6.69, 3.5), (_at(5, 12, 30), 6.58, 3.9),
    (_at(5, 13, 30), 6.45, 4.3), (_at(5, 14, 30), 6.36, 3.6),
]  # fmt: skip
"""Invented readings of a salt meter in that batch, with the brine's temperature: salt goes in a little fast."""


def _rows(units: str) -> List[Tuple[str, str, List[Dict[str, Any]]]]:
    """What is filled into the plan and the price list: sheet, prefix of its fields, rows."""
    batches, prices = BATCHES, PRICES
    if units == "US":
        batches = [{**here, **there} for here, there in zip(BATCHES, example_us.BATCHES)] + BATCHES[
            len(example_us.BATCHES) :
        ]
        prices = [{**here, **there} for here, there in zip(PRICES, example_us.PRICES)]
    return [("Plan", "", batches), ("Prices", "price_", prices)]


def fill(book: Book) -> None:
    """Writes the example's batches, prices and recipe into the cells that a person would fill in."""
    us = book.options.units == "US"
    for sheet, prefix, rows in _rows(book.options.units):
        grid = book.grids[sheet]
        for number, cells in enumerate(rows, grid.first_row):
            for field, value in cells.items():
                book.workbook[sheet][grid.address(prefix + field, number)].value = value
    for field, value in {**RECIPE, **(example_us.RECIPE if us else {})}.items():
        book.set(f"recipe_{field}", value)
    for number, pair in enumerate(RECIPE_LINES):
        for column, value in zip("BC", pair):
            book.workbook[recipe.SHEET][f"{column}{recipe.TOP + len(recipe.FIXED) + number}"].value = value
    for name in (card.NAME, log.NAME, charts.NAME):
        book.set(name, SHOWN_BATCH)
    for number, row in enumerate(example_us.LOG if us else LOG, log_rows.FIRST):
        for column, value in zip("BCD", row):
            book.workbook[log.SHEET][f"{column}{number}"].value = value
    book.set("price_word", example_us.MONEY if us else MONEY)
    book.set("priced_on", PRICED_ON)
    book.set("kitchen", KITCHEN)
    book.set("prepared_by", PREPARED_BY)
