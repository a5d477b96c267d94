"""pH of brines against published activity data, a computed grid and standard buffers."""

from __future__ import annotations

import json
import math
import random
import statistics

import periodictable
import pytest
from each import each
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws import IAPWS95
from iapws._iapws import _Dielectric

from brinecalc.errors import Impossible, OutOfRange
from brinecalc.science import acidity, equilibria
from brinecalc.science.acidity import blend, ph
from brinecalc.science.activity import coefficients, field, limiting_slope
from brinecalc.science.equilibria import DRYING, Mixture, settle
from brinecalc.science.species import charges
from brinecalc.tables import load
from brinecalc.trade.acids import substances
from tests.published import rows
from tests.refusals import reads_on
from tests.science.brines import HARD, grid_mixture, half, random_mixture

WITHOUT_SIT = {"lactic", "tartaric", "malic", "ascorbic"}  # ThermoChimie holds no such ligand: no SIT column


def grid_ph(row: dict) -> float:
    mix = grid_mixture(json.loads(row["additives"]), row["salt"], row["water"] != "pure")
    return ph(mix, row["celsius"])


GRID_ROWS = rows("ph_grid")
SIT_ROWS = [row for row in GRID_ROWS if row["sit"] != ""]
ACID_ROWS = [row for row in SIT_ROWS if row["sit"] < 7.0]


@each("row", SIT_ROWS)
def test_ph_matches_the_sit_grid(row: dict) -> None:
    """reference/ph_grid.csv, SIT column: 0.10 in acid, 0.25 in alkali."""
    assert grid_ph(row) == pytest.approx(row["sit"], abs=0.10 if row["sit"] < 7.0 else 0.25)


def test_ph_of_acids_is_closer_than_that_in_the_middle() -> None:
    """reference/ph_grid.csv: half of the acid rows lie within 0.05 of SIT."""
    assert statistics.median(abs(grid_ph(row) - row["sit"]) for row in ACID_ROWS) < 0.05


def test_rows_without_a_sit_value_are_those_of_four_acids() -> None:
    """The grid has no SIT value where its set holds no constants; every other row is compared."""
    missing = {str(row["case"]).split()[0] for row in GRID_ROWS if row["sit"] == ""}
    assert missing == WITHOUT_SIT
    assert len(SIT_ROWS) + sum(1 for row in GRID_ROWS if row["sit"] == "") == len(GRID_ROWS)


@each("row", [r for r in GRID_ROWS if r["sit"] == "" and r["salt"] == 0.0])
def test_acids_without_sit_match_davies_in_fresh_water(row: dict) -> None:
    """reference/ph_grid.csv, all-Davies column, which holds where there is no salt."""
    assert grid_ph(row) == pytest.approx(row["davies"], abs=0.10)


TEMPERED = {
    "citric 5 g/kg": {"H3Citrate": 5.0}, "acetic 10 g/kg": {"HAcetate": 10.0}, "NaHCO3 5 g/kg": {"NaHCO3": 5.0},
    "Na2CO3 5 g/kg": {"Na2CO3": 5.0}, "NaOH 1 g/kg": {"NaOH": 1.0},
}  # fmt: skip


@each("row", rows("ph_temperature"))
def test_ph_follows_temperature(row: dict) -> None:
    """reference/ph_temperature.csv: SIT within 0.02; the two other theories within the alkaline tolerance."""
    found = ph(grid_mixture(TEMPERED[row["case"]], row["salt"]), row["celsius"])
    assert found == pytest.approx(row["ph"], abs=0.02 if row["database"] == "sit" else 0.25)


def salt_coefficient(molality: float) -> float:
    """Mean activity coefficient of sodium chloride alone in water at 25 °C, of the parts the acidity is made of."""
    return 10.0 ** (coefficients()[("Na+", 0)] * molality - field(molality, limiting_slope(25.0)))


@pytest.mark.parametrize(
    "row", [row for row in rows("gamma_nacl") if row["molality"] <= 3.0], ids=lambda r: r["molality"]
)
def test_salt_activity_coefficient_is_that_of_robinson_and_stokes(row: dict) -> None:
    """reference/gamma_nacl.csv: Robinson and Stokes (from memory), 3 %; the same theory elsewhere, 0.2 %."""
    assert salt_coefficient(row["molality"]) == pytest.approx(row["measured"], rel=0.03)
    assert salt_coefficient(row["molality"]) == pytest.approx(row["sit"], rel=0.002)


def test_salt_activity_coefficient_at_three_molal() -> None:
    """Robinson and Stokes 1959, appendix 8.10, 3 mol/kg: 0.714 (from memory)."""
    assert salt_coefficient(3.0) == pytest.approx(0.714, rel=0.03)


STANDARDS = [
    # primary pH standards of NIST and IUPAC (CRC Handbook, from memory): buffer, °C, pH, tolerance
    ("0.05 m dihydrogen citrate", half("citrate", 0.05, 0.10), 0.0, 3.863, 0.03),
    ("0.05 m dihydrogen citrate", half("citrate", 0.05, 0.10), 10.0, 3.820, 0.03),
    ("0.05 m dihydrogen citrate", half("citrate", 0.05, 0.10), 25.0, 3.776, 0.03),
    ("0.05 m dihydrogen citrate", half("citrate", 0.05, 0.10), 40.0, 3.753, 0.03),
    ("0.0341 m bitartrate", half("tartrate", 0.0341, 0.0341), 25.0, 3.557, 0.03),
    ("0.1 m acetate, equal parts", half("acetate", 0.2, 0.1), 25.0, 4.664, 0.03),
    ("0.025 m phosphate, equal parts", half("phosphate", 0.05, 0.075), 0.0, 6.984, 0.07),
    ("0.025 m phosphate, equal parts", half("phosphate", 0.05, 0.075), 10.0, 6.923, 0.07),
    ("0.025 m phosphate, equal parts", half("phosphate", 0.05, 0.075), 25.0, 6.865, 0.07),
    ("0.025 m phosphate, equal parts", half("phosphate", 0.05, 0.075), 40.0, 6.838, 0.07),
    ("0.025 m carbonate, equal parts", half("carbonate", 0.05, 0.025), 0.0, 10.317, 0.25),
    ("0.025 m carbonate, equal parts", half("carbonate", 0.05, 0.025), 25.0, 10.012, 0.25),
    ("0.025 m carbonate, equal parts", half("carbonate", 0.05, 0.025), 40.0, 9.889, 0.30),
    ("0.1 m hydrochloric acid", Mixture((), 0.1, 0.0, 0.0, 0.1), 25.0, 1.094, 0.03),
    ("0.0203 m calcium hydroxide", Mixture((), -0.0406, 0.0, 0.0203, 0.0), 25.0, 12.454, 0.05),
]


@each(("name", "mix", "celsius", "published", "within"), STANDARDS)
def test_standard_buffers_have_their_published_ph(
    name: str, mix: Mixture, celsius: float, published: float, within: float
) -> None:
    """Primary pH standards, from memory."""
    assert ph(mix, celsius) == pytest.approx(published, abs=within), name


@pytest.mark.parametrize(
    ("celsius", "pkw"), [(0.0, 14.94), (5.0, 14.73), (10.0, 14.53), (25.0, 13.997), (40.0, 13.535)]
)
def test_pure_water_is_neutral_at_any_temperature(celsius: float, pkw: float) -> None:
    """Half the ion product of water (CRC Handbook, from memory)."""
    assert ph(Mixture((), 0.0, 0.0, 0.0, 0.0), celsius) == pytest.approx(pkw / 2.0, abs=0.03)


ONE_PER_CENT = [
    ("sodium tripolyphosphate", 9.7, 9.9), ("tetrasodium pyrophosphate", 10.2, 10.2), ("disodium phosphate", 8.9, 9.1),
    ("sodium hexametaphosphate link", 6.0, 7.0), ("monosodium phosphate", 4.4, 4.4),
    ("sodium acid pyrophosphate", 4.1, 4.1), ("trisodium phosphate", 11.8, 12.0),
]  # fmt: skip


@pytest.mark.parametrize(("name", "low", "high"), ONE_PER_CENT)
def test_one_per_cent_phosphate_solutions(name: str, low: float, high: float) -> None:
    """pH of 1 % solutions as the trade gives them (from memory), within 0.2."""
    found = ph(blend([(10.0 / substances()[name].grams / 0.99, substances()[name].mole)]))
    assert low - 0.2 <= found <= high + 0.2


# ---- laws
@each("name", list(substances()))
def test_every_substance_is_electrically_neutral(name: str) -> None:
    """Charges of what a mole puts in add up to nothing."""
    mole = substances()[name].mole
    charge = sum(count * charges()[acid] for acid, count in mole.acids)
    assert charge + mole.protons + mole.sodium + 2.0 * mole.calcium - mole.chloride == pytest.approx(0.0, abs=1e-9)


def test_molar_masses_are_those_of_the_formulas() -> None:
    """periodictable's atomic masses, but chlorine's 35.453 in full, as CRC's molalities of brine have it."""
    for row in load.rows("acid_substances"):
        if row["formula"]:
            made = periodictable.formula(row["formula"])
            rounded = made.atoms.get(periodictable.Cl, 0) * (35.453 - periodictable.Cl.mass)
            assert row["molar_mass"] == pytest.approx(made.mass + rounded, rel=2e-5), row


ORDINARY = st.tuples(
    st.sampled_from(["acetic acid", "citric acid", "lactic acid", "phosphoric acid", "tartaric acid"]),
    st.floats(1e-4, 0.3),
    st.floats(0.0, 0.05),
    st.floats(0.0, 3.0),
    st.floats(0.0, 40.0),
)


def mixed(acid: str, moles: float, soda: float, salt: float) -> Mixture:
    known = substances()
    return blend(
        [(moles, known[acid].mole), (soda, known["sodium bicarbonate"].mole), (salt, known["sodium chloride"].mole)]
    )


@settings(max_examples=60, deadline=None, derandomize=True)
@given(ORDINARY)
def test_more_acid_lowers_and_more_soda_raises(case: tuple[str, float, float, float, float]) -> None:
    """Le Chatelier: acid lowers the pH of any of these mixtures, soda raises an acid one."""
    acid, moles, soda, salt, celsius = case
    here = ph(mixed(acid, moles, soda, salt), celsius)
    assert ph(mixed(acid, moles * 1.1, soda, salt), celsius) < here
    if here < 6.0:
        assert ph(mixed(acid, moles, soda + 0.01, salt), celsius) > here


@settings(max_examples=40, deadline=None, derandomize=True)
@given(ORDINARY, st.randoms(use_true_random=False))
def test_order_and_splitting_of_parts_do_not_matter(
    case: tuple[str, float, float, float, float], rnd: random.Random
) -> None:
    acid, moles, soda, salt, celsius = case
    known = substances()
    parts = [(moles / 2.0, known[acid].mole)] * 2 + [
        (soda, known["sodium bicarbonate"].mole),
        (salt, known["sodium chloride"].mole),
    ]
    rnd.shuffle(parts)
    assert ph(blend(parts), celsius) == pytest.approx(ph(mixed(acid, moles, soda, salt), celsius), abs=1e-9)


def test_the_balance_comes_to_rest_for_any_mixture() -> None:
    """Thousand mixtures across all acids settle, and stay put when asked for the neighbour of each."""
    rnd = random.Random(11)
    for _ in range(1000):
        mix = random_mixture(rnd)
        celsius = rnd.uniform(0.0, 40.0)
        here = ph(mix, celsius)
        nudged = ph(mix._replace(protons=mix.protons * (1.0 + 1e-9)), celsius)
        assert -0.5 < here < 14.5
        assert abs(nudged - here) < 1e-4


def test_a_mixture_that_does_not_come_to_rest_is_refused_and_never_guessed(monkeypatch: pytest.MonkeyPatch) -> None:
    """None is known that needs the guard: with too few steps allowed, any mixture shows what it does."""
    monkeypatch.setattr(equilibria, "MOST", 2)
    with pytest.raises(Impossible, match="cannot be worked out") as caught:
        settle(half("citrate", 0.05, 0.1))
    reads_on(caught.value)


def test_the_rest_does_not_hang_on_where_the_reckoning_begins(monkeypatch: pytest.MonkeyPatch) -> None:
    """Begun in strong acid, in water or in lye, a brine comes to one and the same rest."""
    rnd = random.Random(12)
    mixtures = [(random_mixture(rnd), rnd.uniform(0.0, 40.0)) for _ in range(200)]
    at_rest = []
    for start in (-2.0, -16.0, -30.0):
        monkeypatch.setattr(equilibria, "START", start)
        at_rest.append([settle(mix, celsius).ph for mix, celsius in mixtures])
    assert at_rest[1] == pytest.approx(at_rest[0], abs=1e-9)
    assert at_rest[1] == pytest.approx(at_rest[2], abs=1e-9)


def test_stronger_than_the_theory_reaches_is_refused() -> None:
    with pytest.raises(OutOfRange, match="must hold at most"):
        ph(Mixture((), 0.0, 5.0, 0.0, 5.0))
    with pytest.raises(OutOfRange, match="must hold at most"):
        ph(half("citrate", 0.9, 0.0))


@pytest.mark.parametrize("target", [3.0, 3.7, 4.6, 5.5, 6.4])
def test_a_dose_gives_its_target_back_and_no_less_would_do(target: float) -> None:
    """The dose solves the same equation that pH answers."""
    base = blend([(1.0, HARD), (0.9, substances()["sodium chloride"].mole)])
    each = blend([(1.0 / 192.123, substances()["citric acid"].mole)])
    found = acidity.dose(target, base, each, 0.0, 1000.0)
    assert found.reached
    assert ph(blend([(1.0, base), (found.mass, each)])) == pytest.approx(target, abs=1e-9)
    for part in (0.2, 0.5, 0.9, 0.999):
        assert ph(blend([(1.0, base), (part * found.mass, each)])) > target


def test_a_brine_that_is_there_already_needs_no_dose_and_one_that_is_led_away_gets_none() -> None:
    """Law: nothing brings a brine to where it is; acid never raises a pH."""
    base = blend([(1.0, HARD)])
    each = blend([(1.0 / 192.123, substances()["citric acid"].mole)])
    here = ph(base)
    assert acidity.dose(here, base, each, 0.0, 1000.0) == (0.0, here, True)
    assert acidity.dose(here + 1.0, base, each, 0.0, 1000.0) == (0.0, here, False)


def test_a_dose_ends_where_no_more_is_to_be_tried() -> None:
    """The largest mass allowed is tried, and its pH is what the answer says."""
    base = blend([(1.0, HARD)])
    each = blend([(1.0 / 192.123, substances()["citric acid"].mole)])
    found = acidity.dose(2.5, base, each, 0.0, 0.2)
    assert (found.mass, found.reached) == (0.2, False)
    assert found.ph == pytest.approx(ph(blend([(1.0, base), (0.2, each)])), abs=1e-12)


def test_a_curve_that_turns_back_ends_at_its_turning_point() -> None:
    """Baking soda in plain water rises and falls again; a dense walk over doses finds no higher pH."""
    each = blend([(1.0 / 84.006, substances()["sodium bicarbonate"].mole)])
    water = Mixture((), 0.0, 0.0, 0.0, 0.0)
    found = acidity.dose(8.9, water, each, 0.0, 96.0)
    assert not found.reached
    highest = max(ph(blend([(1.0, water), (0.01 * 1.02**i, each)])) for i in range(400))
    assert found.ph == pytest.approx(highest, abs=1e-4)
    just_below = acidity.dose(found.ph - 1e-5, water, each, 0.0, 96.0)
    assert just_below.reached
    assert just_below.mass < found.mass


def test_the_reach_of_a_dose_lies_where_the_gap_is_smallest() -> None:
    """A walk in great steps over a valley with its floor at 3 g: narrowed down, whichever step it first sees lowest."""

    def gap(mass: float) -> float:
        return 0.1 + math.log(mass / 3.0) ** 2

    for ratio in (1.6, 2.5):
        for first in (0.05, 0.07, 0.09, 0.11):
            walk = [(0.0, 50.0)] + [(first * ratio**i, gap(first * ratio**i)) for i in range(12)]
            mass, least = acidity._nearest(gap, walk)
            assert mass == pytest.approx(3.0, rel=1e-4)
            assert least == pytest.approx(0.1, abs=1e-8)


@pytest.mark.parametrize("after", [(), (40.0,)])
def test_the_reach_is_sought_between_the_neighbours_of_the_lowest_step_and_no_further(after: tuple[float, ...]) -> None:
    """Also when the largest mass to try comes right after the turn: the floor at 2.2 g lies in the last step."""

    def depth(mass: float) -> float:
        return 0.1 + math.log(mass / 2.2) ** 2

    def gap(mass: float) -> float:
        assert 1.0 <= mass <= 2.5
        return depth(mass)

    walk = [(0.0, 50.0), (0.05, 40.0), *((mass, depth(mass)) for mass in (1.0, 2.0, 2.5, *after))]
    mass, least = acidity._nearest(gap, walk)
    assert mass == pytest.approx(2.2, rel=1e-4)
    assert least == pytest.approx(0.1, abs=1e-8)


def test_with_nothing_to_dose_the_ph_stays() -> None:
    base, acid = half("acetate", 0.01, 0.005), Mixture((("acetate", 0.001),), 0.001, 0.0, 0.0, 0.0)
    assert acidity.dose(3.0, base, acid, 0.0, 0.0) == acidity.Reach(0.0, ph(base), False)


def test_ionic_strength_of_limewater_is_that_of_its_ions() -> None:
    """By hand: 0.02 mol of slaked lime splits into Ca, CaOH and OH; log K of CaOH 1.3, coefficients by Davies."""
    total, pair = 0.02, 0.0
    for _ in range(60):
        strength = 3.0 * total - 2.0 * pair
        root = math.sqrt(strength)
        log_gamma = -0.51 * (root / (1.0 + root) - 0.3 * strength)
        pair = 10.0 ** (1.3 + 4.0 * log_gamma) * (total - pair) * (2.0 * total - pair)
    found = settle(Mixture((), -2.0 * total, 0.0, total, 0.0))
    assert found.ionic_strength == pytest.approx(strength, rel=0.03)


def test_salt_dries_water_as_measured() -> None:
    """Robinson and Stokes: the activity of water over 1 mol/kg of sodium chloride is 0.9669 at 25 °C."""
    assert math.exp(-2.0 * DRYING) == pytest.approx(0.9669, abs=0.0003)


def test_constants_that_were_read_are_those_of_the_collection() -> None:
    """As PHREEQC 3.8.6 brings them, log K and ΔH (kJ) of taking protons up: minteq.v4.dat; nitrite: Thermoddem 1.10."""
    read = {"acetate": [(4.757, 0.41)], "tartrate": [(4.366, -0.7531), (7.402, -3.6819)], "nitrite": [(3.225, -14.668)]}
    for acid, steps in read.items():
        ours = [row for row in reversed(load.rows("acids")) if row["acid"] == acid]
        for held, (log_k, heat) in enumerate(steps, 1):
            assert sum(row["pka"] for row in ours[:held]) == pytest.approx(log_k, abs=5e-4)
            assert -sum(row["enthalpy"] for row in ours[:held]) == pytest.approx(heat, abs=6e-3)
        assert {row["basis"] for row in ours} == {"measured"}


def test_the_limiting_slope_is_that_of_waters_density_and_dielectric_constant() -> None:
    """IAPWS-95 and R8-97 through the iapws package, at 0.101325 MPa; constants of the SI."""
    for row in load.rows("debye_huckel"):
        kelvin = row["temperature"] + 273.15
        density = IAPWS95(T=kelvin, P=0.101325).rho
        energy = 4.0 * math.pi * 8.8541878128e-12 * _Dielectric(density, kelvin) * 1.380649e-23 * kelvin
        slope = math.sqrt(2.0 * math.pi * 6.02214076e23 * density) * (1.602176634e-19**2 / energy) ** 1.5 / math.log(10)
        assert row["slope"] == pytest.approx(slope, abs=6e-5)


@each("place", range(8))
def test_the_limiting_slope_lies_between_the_rows_of_its_table(place: int) -> None:
    low, high = load.rows("debye_huckel")[place : place + 2]
    assert limiting_slope(low["temperature"]) == pytest.approx(low["slope"], rel=1e-12)
    middle = 0.5 * (low["temperature"] + high["temperature"])
    assert limiting_slope(middle) == pytest.approx(0.5 * (low["slope"] + high["slope"]), rel=1e-12)
