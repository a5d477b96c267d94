"""The figures of the worked example as a kitchen in the United States would type them.

One idea: the same house, menu and days, but weights, sizes, vessels, temperatures and packs are round numbers in
pounds, inches, quarts and degrees Fahrenheit, not metric figures turned over. Names and levels are the example's own.
"""

from __future__ import annotations

import datetime
from typing import Any, Dict, List, Tuple

BATCHES: List[Dict[str, Any]] = [
    {"weight": 20, "thickness": 1, "vessel": 22, "portion": 6},
    {"weight": 15, "thickness": 1, "vessel": 18, "portion": 8},
    {"weight": 12, "thickness": 1.75, "vessel": 18, "portion": 7},
    {"weight": 28, "thickness": 2.5, "vessel": 40, "portion": 7},
    {"weight": 12, "thickness": 0.75, "vessel": 18, "portion": 3, "bath_degree": 36},
    {"weight": 7, "thickness": 0.5, "vessel": 12, "portion": 3, "bath_degree": 45},
    {"weight": 14, "thickness": 0.75, "vessel": 22, "portion": 7},
    {"weight": 20, "thickness": 1.5, "portion": 1.5},
    {"weight": 22, "thickness": 3, "portion": 6},
    {"weight": 15, "thickness": 1.25, "vessel": 18},
    {"pieces": 16, "weight": 13, "thickness": "6 x 2.5 x 1.5 in", "vessel": 18, "portion": 5},
    {"weight": 15, "thickness": 0.75, "vessel": 22, "portion": 6},
    {"weight": 14, "thickness": 1.5, "vessel": 22, "portion": 6},
    {"weight": 24, "thickness": 1, "vessel": 32, "portion": 8},
    {"weight": 20, "thickness": 3, "vessel": 32, "portion": 7},
]
"""What is typed otherwise than in the metric example, batch by batch."""

MONEY = "USD"

PRICES: List[Dict[str, Any]] = [
    {"name": "chicken breast", "pack": "10 lb", "price": 38.5},
    {"name": "boneless chicken thigh", "pack": "10 lb", "price": 29.9},
    {"name": "whole turkey", "pack": "each", "price": 34.5, "piece": 224},
    {"name": "duck breast", "pack": "6 lb", "price": 58.0},
    {"name": "pork chop", "pack": "15 lb", "price": 56.25},
    {"name": "pork tenderloin", "pack": "8 lb", "price": 34.4},
    {"name": "pork belly", "pack": "10 lb", "price": 39.5},
    {"name": "pork shoulder", "pack": "14 lb", "price": 30.8},
    {"name": "pork spareribs", "pack": "12 lb", "price": 35.4, "stock": 6},
    {"name": "beef brisket", "pack": "12 lb", "price": 70.8},
    {"name": "lamb leg", "pack": "5 lb", "price": 39.5},
    {"name": "salmon fillet", "pack": "3 lb", "price": 34.5},
    {"name": "peeled shrimp", "pack": "5 x 2 lb", "price": 92.0},
    {"name": "cucumber", "pack": "12 each", "price": 6.9, "piece": 4},
    {"name": "firm tofu", "pack": "12 x 13 oz", "price": 23.4},
    {"name": "water", "pack": "1000 gal", "price": 9.5},
    {"name": "ice", "pack": "20 lb", "price": 2.4},
    {"name": "buttermilk", "pack": "9 x 0.5 gal", "price": 27.9},
    {"name": "apple juice", "pack": "4 x 1 gal", "price": 26.5},
    {"name": "cola", "pack": "24 x 12 fl oz", "price": 13.5},
    {"name": "salt", "pack": "3 lb", "price": 2.9, "stock": 6},
    {"name": "curing salt no. 1", "pack": "1 lb", "price": 4.9, "stock": 0.5},
    {"name": "white sugar", "pack": "25 lb", "price": 18.9, "stock": 3},
    {"name": "brown sugar", "pack": "2 lb", "price": 3.1},
    {"name": "honey", "pack": "5 lb", "price": 21.5},
    {"name": "maple syrup", "pack": "0.5 gal", "price": 34.0, "stock": 1},
    {"name": "malt syrup", "pack": "20 oz", "price": 7.2},
    {"name": "vinegar", "pack": "1 gal", "price": 4.1},
    {"name": "baking soda", "pack": "2 lb", "price": 2.8, "stock": 1},
    {"name": "sodium tripolyphosphate", "pack": "1 lb", "price": 6.4},
    {"name": "fresh thyme", "pack": "4 oz", "price": 3.4},
    {"name": "fresh rosemary", "pack": "4 oz", "price": 3.2},
    {"name": "fresh dill", "pack": "4 oz", "price": 2.9},
    {"name": "fresh garlic", "pack": "3 lb", "price": 9.6, "stock": 0.5},
    {"name": "fresh ginger", "pack": "2 lb", "price": 6.8},
    {"name": "lemon zest", "pack": "10 each", "price": 6.5, "piece": 0.3},
    {"name": "bay leaf", "pack": "2 oz", "price": 3.9, "stock": 0.1},
    {"name": "black peppercorns", "pack": "1 lb", "price": 11.8, "stock": 0.5},
    {"name": "juniper berries", "pack": "8 oz", "price": 9.4},
    {"name": "star anise", "pack": "8 oz", "price": 10.2},
    {"name": "mustard seed", "pack": "1 lb", "price": 5.6},
    {"name": "paprika", "pack": "1 lb", "price": 9.9, "stock": 0.5},
    {"name": "dried chilli", "pack": "8 oz", "price": 7.4},
]
"""Packs and prices, in the order of the metric list; dates, usable shares, cases and orders are that list's."""

RECIPE: Dict[str, Any] = {"vessel": 22, "weight": 15}


def _at(hour: int, minute: int) -> datetime.datetime:
    return datetime.datetime(2027, 3, 5, hour, minute)  # wall-clock time of the kitchen


LOG: List[Tuple[datetime.datetime, float, float]] = [
    (_at(11, 15), 6.99, 38), (_at(11, 45), 6.86, 38), (_at(12, 30), 6.75, 39), (_at(13, 30), 6.64, 40),
    (_at(14, 30), 6.55, 38),
]  # fmt: skip
"""Invented readings in batch 2: per cent as the meter shows it, and °F."""
