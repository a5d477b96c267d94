"""How much less active ions are in brine than their number says.

One idea, specific ion interaction theory: the field of all charges together lowers the activity of an ion by a
law that knows only charge and ionic strength, and what is left is proportional to the molality of each ion of the
other sign, log10 γ = -z² A √I/(1 + 1.5 √I) + Σ ε m. One coefficient ε per pair of ions carries it from fresh
water to about 3 mol/kg, where the simpler laws for fresh water fail.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt
from typing import Dict, Tuple

from brinecalc.tables import load

LN10 = 2.302585092994046
DISTANCE = 1.5  # kg^½/mol^½, the same for every ion in this theory

Ion = Tuple[str, int]
"""An ion by the acid it belongs to and the protons it still holds; simple ions by their own name and 0."""


@lru_cache(maxsize=256)
def limiting_slope(celsius: float) -> float:
    """A of the limiting law at a temperature within the table, between its rows in a straight line."""
    rows = load.rows("debye_huckel")
    place = next((i for i, row in enumerate(rows[1:]) if celsius <= row["temperature"]), len(rows) - 2)
    below, above = rows[place], rows[place + 1]
    part = (celsius - below["temperature"]) / (above["temperature"] - below["temperature"])
    return float(below["slope"] + part * (above["slope"] - below["slope"]))


@lru_cache(maxsize=1)
def coefficients() -> Dict[Ion, float]:
    """ε of every ion towards sodium, or for a cation towards chloride, kg/mol; ions not listed have 0."""
    return {
        (row["acid"] or row["ion"], int(row["protons"]) if row["acid"] else 0): float(row["epsilon"])
        for row in load.rows("sit_coefficients")
    }


def field(ionic_strength: float, slope: float) -> float:
    """The common part of -log10 γ for a single charge, A √I/(1 + 1.5 √I)."""
    root = sqrt(ionic_strength)
    return slope * root / (1.0 + DISTANCE * root)
