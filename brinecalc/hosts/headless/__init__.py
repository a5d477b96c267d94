"""The headless host: formulas and workbooks computed without a spreadsheet program.

``evaluate`` computes one formula, ``calculate`` a workbook given as bytes. Both are imported on first use, so that
looking at this package costs nothing.
"""

from __future__ import annotations

from typing import Any

_PLACES = {
    "Answer": "one_formula",
    "Library": "library",
    "Outcome": "whole_book",
    "Problem": "report",
    "RegistryLibrary": "library",
    "Report": "report",
    "calculate": "whole_book",
    "evaluate": "one_formula",
}

__all__ = list(_PLACES)


def __getattr__(name: str) -> Any:
    place = _PLACES.get(name)
    if place is None:
        raise AttributeError(f"module {__name__} has no attribute {name}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{place}"), name)
