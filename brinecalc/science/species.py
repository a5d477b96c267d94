"""The forms each acid can take in a brine, with their formation constants at a temperature.

One idea: every form, whether it holds protons, sodium or calcium, is written as made from the bare anion, so that
one constant, one count of each and one charge say all about it. Constants move with temperature by van 't Hoff's
law from their heat at 25 °C. Potassium counts as sodium and magnesium as calcium, which costs less than 0.05 pH.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Dict, Tuple

from brinecalc.science.activity import LN10, coefficients
from brinecalc.tables import load

GAS = 8.314462618e-3  # kJ/(mol K)
GIVEN = 298.15  # K, the temperature at which the tables give the constants

Form = Tuple[float, float, float, float, float, float]
"""ln K, protons, sodium, calcium, charge squared, ε·ln 10."""


@lru_cache(maxsize=1)
def charges() -> Dict[str, int]:
    """Charge of the bare anion of every acid that can be reckoned with."""
    return {row["acid"]: int(row["charge"]) for row in load.rows("acids")}


def colder(celsius: float) -> float:
    """1/T(25 °C) - 1/T, which times enthalpy/R is the change of ln K."""
    return 1.0 / GIVEN - 1.0 / (celsius + 273.15)


@lru_cache(maxsize=1024)
def forms(acid: str, celsius: float, with_sodium: bool, with_calcium: bool) -> Tuple[Form, ...]:
    """The forms of an acid that can exist beside the given metals, its bare anion first."""
    shift = colder(celsius) / GAS
    charge = charges()[acid]
    found = [(0.0, 0.0, 0.0, 0.0, float(charge**2), coefficients().get((acid, 0), 0.0) * LN10)]
    ln_k = 0.0
    steps = [row for row in load.rows("acids") if row["acid"] == acid]
    for held, row in enumerate(reversed(steps), 1):
        ln_k += row["pka"] * LN10 - row["enthalpy"] * shift
        epsilon = coefficients().get((acid, held), 0.0) * LN10
        found.append((ln_k, float(held), 0.0, 0.0, float((charge + held) ** 2), epsilon))
    for row in load.rows("sit_reactions"):
        if row["acid"] != acid or (row["alkali"] and not with_sodium) or (row["earth"] and not with_calcium):
            continue
        left = charge + row["protons"] + row["alkali"] + 2.0 * row["earth"]
        ln_k = row["log_k"] * LN10 + row["enthalpy"] * shift
        found.append((ln_k, row["protons"], row["alkali"], row["earth"], left**2, 0.0))
    return tuple(found)


@lru_cache(maxsize=256)
def hydroxides(celsius: float) -> Tuple[float, float]:
    """ln K of hydroxide and of calcium hydroxide's ion, from water."""
    shift = colder(celsius) / GAS
    bare = {row["species"]: row for row in load.rows("sit_reactions") if row["acid"] is None}
    oh, caoh = bare["OH-"], bare["CaOH+"]
    return oh["log_k"] * LN10 + oh["enthalpy"] * shift, caoh["log_k"] * LN10 + caoh["enthalpy"] * shift
