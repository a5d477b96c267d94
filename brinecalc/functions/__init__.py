"""The worksheet functions, one module per family, in the order in which every list shows them."""

from __future__ import annotations

import importlib

MODULES = (
    "strength",
    "baths",
    "balance",
    "time",
    "resting",
    "forecasting",
    "sweeteners",
    "acids",
    "curing",
    "chilling",
    "money",
    "labels",
    "units",
    "about",
)


def load() -> None:
    """Imports every module, so that its functions register themselves."""
    for module in MODULES:
        importlib.import_module(f"{__name__}.{module}")
