"""pH of brines beside an independent program of general chemistry, with our constants and with its own."""

from __future__ import annotations

import random
from pathlib import Path

import phreeqpython
import pytest
from each import each

from brinecalc.science.acidity import ph
from brinecalc.science.activity import limiting_slope
from brinecalc.science.equilibria import Mixture
from brinecalc.science.species import charges
from brinecalc.tables import load
from tests.science.brines import grid_mixture, half, random_mixture


@pytest.fixture(scope="module")
def phreeqc(tmp_path_factory: pytest.TempPathFactory):
    """The general chemistry program PHREEQC, with the constants of our tables written as its database."""
    folder = Path(tmp_path_factory.mktemp("phreeqc"))
    (folder / "own.dat").write_text(phreeqc_database(), encoding="ascii")
    return phreeqpython.PhreeqPython(database="own.dat", database_directory=folder)


ELEMENT = {acid: "Q" + chr(97 + i) for i, acid in enumerate(charges())}


def ion(name: str, charge: float) -> str:
    size = abs(int(charge))
    return name if not size else f"{name}{'+' if charge > 0 else '-'}{size if size > 1 else ''}"


def form(acid: str, protons: float, sodium: float = 0, calcium: float = 0) -> str:
    parts = "".join(
        f"{symbol}{int(n) if n > 1 else ''}" for symbol, n in (("Ca", calcium), ("Na", sodium), ("H", protons)) if n
    )
    return ion(parts + ELEMENT[acid], charges()[acid] + protons + sodium + 2 * calcium)


def phreeqc_database() -> str:
    """acids.csv, sit_reactions.csv and sit_coefficients.csv in that program's language."""
    lines = ["SOLUTION_MASTER_SPECIES", "H H+ -1 H 1.008", "H(0) H2 0 H", "H(1) H+ -1 0", "E e- 0 0 0"]
    lines += ["O H2O 0 O 16", "O(0) O2 0 O", "O(-2) H2O 0 0", "Na Na+ 0 Na 23", "Ca Ca+2 0 Ca 40", "Cl Cl- 0 Cl 35"]
    lines += [f"{ELEMENT[acid]} {form(acid, 0)} 0 100 100" for acid in charges()]
    lines.append("SOLUTION_SPECIES")
    for name in ("H+", "e-", "H2O", "Na+", "Ca+2", "Cl-", *(form(acid, 0) for acid in charges())):
        lines += [f"{name} = {name}", "log_k 0"]
    lines += ["2 H2O = O2 + 4 H+ + 4 e-", "log_k -86.08", "2 H+ + 2 e- = H2", "log_k -3.15"]
    for acid in charges():
        log_k = heat = 0.0
        steps = [row for row in load.rows("acids") if row["acid"] == acid]
        for held, row in enumerate(reversed(steps), 1):
            log_k, heat = log_k + row["pka"], heat - row["enthalpy"]
            lines += [f"{form(acid, 0)} + {held} H+ = {form(acid, held)}", f"log_k {log_k}", f"delta_h {heat} kJ"]
    for row in load.rows("sit_reactions"):
        if row["acid"]:
            taken = [("H+", row["protons"]), ("Na+", row["alkali"]), ("Ca+2", row["earth"])]
            left = " + ".join([form(row["acid"], 0), *(f"{int(n)} {name}" for name, n in taken if n)])
            made = form(row["acid"], row["protons"], row["alkali"], row["earth"])
        else:
            left, made = ("Ca+2 + H2O", "CaOH+ + H+") if row["earth"] else ("H2O", "OH- + H+")
        lines += [f"{left} = {made}", f"log_k {row['log_k']}", f"delta_h {row['enthalpy']} kJ"]
    lines += ["SIT", "-epsilon"]
    for row in load.rows("sit_coefficients"):
        name = form(row["acid"], row["protons"]) if row["acid"] else row["ion"]
        lines.append(f"{name} {row['counter_ion']} {row['epsilon']}")
    return "\n".join([*lines, "END", ""])


def phreeqc_ph(program, mix: Mixture, celsius: float) -> float:
    amounts = [(ELEMENT[acid], total) for acid, total in mix.acids]
    amounts += [("Na", mix.sodium), ("Ca", mix.calcium), ("Cl", mix.chloride)]
    given = "\n".join(f"{name} {moles!r}" for name, moles in amounts if moles)
    program.ip.run_string(
        f"SOLUTION 1\ntemp {celsius}\nunits mol/kgw\npH 7 charge\n{given}\n"
        "SELECTED_OUTPUT 1\n-reset false\n-high_precision true\n-pH true\nEND\n"
    )
    return program.ip.get_selected_output_array()[-1][0]


def test_random_mixtures_agree_with_phreeqc(phreeqc) -> None:
    """PHREEQC (phreeqpython) with the same constants: 120 mixtures of one to three acids, 0 to 2 mol/kg salt."""
    rnd = random.Random(5)
    for _ in range(120):
        mix, celsius = random_mixture(rnd), rnd.choice((4.0, 25.0, 40.0))
        assert ph(mix, celsius) == pytest.approx(phreeqc_ph(phreeqc, mix, celsius), abs=0.005), (mix, celsius)


STRONG = {
    "sodium acetate": half("acetate", 2.0, 0.0), "sodium carbonate": half("carbonate", 0.8, 0.0),
    "lye, calcium chloride and salt": Mixture((), -0.4, 1.0, 0.5, 1.6),
    "lye, calcium chloride and more salt": Mixture((), -0.4, 2.0, 0.3, 2.2),
}  # fmt: skip


@pytest.mark.parametrize("celsius", [4.0, 25.0, 40.0])
@pytest.mark.parametrize("mix", STRONG.values(), ids=STRONG)
def test_strong_alkaline_mixtures_agree_with_phreeqc(phreeqc, mix: Mixture, celsius: float) -> None:
    """All that is dissolved dries the water, and so takes hydroxide away, free and on calcium, as in PHREEQC."""
    assert ph(mix, celsius) == pytest.approx(phreeqc_ph(phreeqc, mix, celsius), abs=0.004)


@each("salt", [0.0, 50.0])
@each("additives", [{"NaHCO3": 5.0}, {"Na2CO3": 2.0}, {"NaOH": 1.0}, {"H3PO4": 1.0}, {"Na2HPO4": 3.0}])
def test_inorganic_brines_agree_with_phreeqc_own_constants(additives: dict[str, float], salt: float) -> None:
    """PHREEQC with its own database phreeqc.dat (phreeqpython), an ion-pairing model with other constants."""
    program = phreeqpython.PhreeqPython()
    mix = grid_mixture(additives, salt)
    given = {"carbonate": "C(4)", "phosphate": "P"}
    amounts = [(given[acid], total) for acid, total in mix.acids] + [("Na", mix.sodium), ("Cl", mix.chloride)]
    program.ip.run_string(
        "SOLUTION 1\nunits mol/kgw\npH 7 charge\n"
        + "\n".join(f"{name} {moles!r}" for name, moles in amounts if moles)
        + "\nSELECTED_OUTPUT 1\n-reset false\n-pH true\nEND\n"
    )
    theirs = program.ip.get_selected_output_array()[-1][0]
    assert ph(mix) == pytest.approx(theirs, abs=0.10 if theirs < 7.0 else 0.25)


@pytest.mark.parametrize("celsius", [0.0, 5.0, 10.0, 25.0, 40.0])
def test_limiting_slope_agrees_with_phreeqc(phreeqc, celsius: float) -> None:
    """PHREEQC's Debye-Hückel A from the dielectric constant and density of water."""
    phreeqc.ip.run_string(
        f"SOLUTION 1\ntemp {celsius}\nSELECTED_OUTPUT 1\n-reset false\n-pH false\n"
        "USER_PUNCH 1\n-headings A\n10 PUNCH DH_A\nEND\n"
    )
    theirs = phreeqc.ip.get_selected_output_array()[-1][-1]
    phreeqc.ip.run_string("USER_PUNCH 1\n-headings\n10 REM\nEND\n")
    assert limiting_slope(celsius) == pytest.approx(theirs, rel=0.003)
