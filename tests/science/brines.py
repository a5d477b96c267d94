"""Brines for tests of their pH: from a recipe in grams, a buffer, or any at all."""

from __future__ import annotations

import random

from brinecalc.science.acidity import blend
from brinecalc.science.equilibria import Mixture
from brinecalc.science.species import charges
from brinecalc.trade.acids import substances

# What the grid calls its substances; molar masses and moles come from the product's table
GRID = {
    "H3Citrate": "citric acid", "Na3Citrate": "trisodium citrate", "HAcetate": "acetic acid",
    "NaAcetate": "sodium acetate",
    "HLac": "lactic acid", "NaLac": "sodium lactate", "H2Tar": "tartaric acid", "H2Mal": "malic acid",
    "HAsc": "ascorbic acid", "H3PO4": "phosphoric acid", "NaH2PO4": "monosodium phosphate",
    "Na2HPO4": "disodium phosphate", "NaHCO3": "sodium bicarbonate", "Na2CO3": "sodium carbonate",
    "NaOH": "sodium hydroxide", "Ca(OH)2": "calcium hydroxide",
}  # fmt: skip
HARD = Mixture((("carbonate", 0.004),), 0.004, 0.0, 0.002, 0.0)  # 4 meq/kg as Ca(HCO3)2


def grid_mixture(additives: dict[str, float], salt: float, hard: bool = False) -> Mixture:
    """A brine given in grams per kg of finished solution, per kg of its water."""
    water = (1000.0 - salt - sum(additives.values())) / 1000.0
    known = substances()
    parts = [(grams / known[GRID[name]].grams / water, known[GRID[name]].mole) for name, grams in additives.items()]
    parts.append((salt / known["sodium chloride"].grams / water, known["sodium chloride"].mole))
    parts.append((1.0 if hard else 0.0, HARD))
    return blend(parts)


def half(acid: str, total: float, protons: float) -> Mixture:
    """A buffer of an acid and its sodium or potassium salt."""
    return Mixture(((acid, total),), protons, -charges()[acid] * total - protons, 0.0, 0.0)


def random_mixture(rnd: random.Random) -> Mixture:
    """Any acids, partly as their sodium salts, with salt and calcium chloride."""
    acids: list[tuple[str, float]] = []
    protons = sodium = calcium = chloride = 0.0
    for acid in rnd.sample([a for a in charges() if a != "polyphosphate end"], rnd.randint(1, 3)):
        total = 10.0 ** rnd.uniform(-4.0, -1.0)
        held = rnd.uniform(0.05, -charges()[acid] - 0.05)
        acids.append((acid, total))
        protons += total * held
        sodium += total * (-charges()[acid] - held)
    salt = rnd.choice((0.0, 0.5, 0.9, 2.0))
    lime = 10.0 ** rnd.uniform(-4.0, -2.0) if rnd.random() < 0.5 else 0.0
    return Mixture(tuple(acids), protons, sodium + salt, calcium + lime, chloride + salt + 2.0 * lime)
