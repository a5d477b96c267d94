"""Ingoing nitrite by the five methods, its ceilings, and the doses that are refused."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest
from each import each
from periodictable import formula

from brinecalc.errors import Impossible, OutOfRange, Refused, UnknownName, Unreadable
from brinecalc.trade import curing, ingredients, limits
from tests.refusals import Refusal, check

EXAMPLES = Path(__file__).parent.parent / "reference" / "nitrite_examples.csv"

METHODS = ("dry", "comminuted", "pumped", "pick-up", "equilibrium")

# How each row of the reference file is put to the kernel; pure nitrite is a cure of strength 1.
WORKED = {
    "1": lambda: curing.nitrite(100.0, 0.25 / 16, "comminuted", cure_strength=1.0),
    "2": lambda: curing.nitrite(100.0, 0.25, "comminuted"),
    "3": lambda: curing.nitrite(1000.0, 2.5, "comminuted"),
    "4": lambda: curing.nitrite(100.0, 1 / 16, "dry", cure_strength=1.0),
    "5": lambda: curing.nitrite(10000.0, 2.0, "pumped", 0.10, 1000.0, 1.0),
    "6": lambda: curing.nitrite(10000.0, 2.0, "pumped", 0.10, 833.7, 1.0),
    "7": lambda: curing.nitrite(10000.0, 2.0, "pumped", 0.10, 915.1, 1.0),
    "8": lambda: curing.nitrite(12660.0, 32.0, "pumped", 0.10, 1266.0, 0.0588),
    "9": lambda: curing.nitrite(6250.0, 1.0, "pick-up", 0.08, 500.0, 1.0),
    "10": lambda: curing.nitrite(1000.0, 0.3, "equilibrium", None, 500.0, 1.0),
    "11": lambda: curing.cure_mass(1000.0, limits.value("nitrite equilibrium", "US"), "equilibrium", None, 500.0, 1.0),
    "12": lambda: curing.cure_mass(
        500.0 * (1.0 - limits.value("bacon rind", "US")),
        limits.value("nitrite equilibrium bacon", "US"),
        "equilibrium",
        None,
        250.0,
        1.0,
    ),
    "15": lambda: 100.0 * curing.cure_mass(1000.0, limits.value("nitrite pumped bacon"), "pumped", 0.12, 1.0),
    "17": lambda: limits.value("nitrite dry bacon") * limits.value("potassium nitrite for sodium nitrite"),
    "19": lambda: limits.value("erythorbate bacon") * limits.value("erythorbate monohydrate factor"),
    "20": lambda: limits.value("erythorbate"),
    "23": lambda: limits.value("nitrate dry"),
    "24": lambda: limits.value("nitrate comminuted"),
    "25": lambda: limits.value("nitrate pumped"),
    "26": lambda: 100.0 * limits.value("phosphate pickle") * 0.10,
    "29": lambda: 100.0 * limits.value("phosphate", "US") * 1.20 / 0.20,
    "30": lambda: 100.0 * limits.value("phosphate", "US") * limits.value("p2o5 in tripolyphosphate"),
    "31": lambda: limits.value("nitrite ion ingoing", "EU") / limits.value("nitrite ion in sodium nitrite"),
}


def examples() -> list[dict[str, str]]:
    with EXAMPLES.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def decimals(text: str) -> int:
    return len(text.partition(".")[2])


@each("row", examples())
def test_worked_examples_of_the_nitrite_formulas(row: dict[str, str]) -> None:
    """Source: tests/reference/nitrite_examples.csv, formulas of FSIS directive 7620.3; every row has its line above.

    Row 19 was made with molar masses cut to two decimals, hence the 1e-5 beside the half last digit.
    """
    expected = float(row["value"])
    assert WORKED[row["id"]]() == pytest.approx(expected, abs=0.51 * 10.0 ** -decimals(row["value"]), rel=1e-5)


def test_the_reference_file_is_whole() -> None:
    rows = examples()
    assert [row["id"] for row in rows] == list(WORKED)
    assert sum(float(row["value"]) for row in rows) == pytest.approx(8386.414, abs=1e-4)


@each("method", METHODS)
@each("pickle", [None, 700.0, 9000.0])
def test_dose_and_level_are_the_two_ways_round(method: str, pickle: float | None) -> None:
    """Law: NITRITE is the inverse of CURE for every method."""
    if method == "equilibrium" and pickle is None:
        pickle = 3000.0
    mass = curing.cure_mass(4321.0, 117.0, method, 0.09, pickle, 0.0588)
    assert curing.nitrite(4321.0, mass, method, 0.09, pickle, 0.0588) == pytest.approx(117.0, rel=1e-14)


def test_two_immersion_formulas_give_two_answers() -> None:
    """9 CFR 424.22 allows both; definition: pick-up ppm·pickle/(g·k), equilibrium ppm·(P + pickle)/k."""
    by_pick_up = curing.cure_mass(10000.0, 120.0, "pick-up", 0.10, 5000.0)
    together = curing.cure_mass(10000.0, 120.0, "equilibrium", 0.10, 5000.0)
    assert by_pick_up == pytest.approx(120e-6 * 5000 / (0.10 * 0.0625), rel=1e-14)
    assert together == pytest.approx(120e-6 * 15000 / 0.0625, rel=1e-14)
    assert by_pick_up / together == pytest.approx(10 / 3)


def test_pickle_left_out_is_what_is_taken_up() -> None:
    assert curing.cure_mass(8000.0, 120.0, "pumped", 0.12) == curing.cure_mass(8000.0, 120.0, "pumped", 0.12, 960.0)
    assert curing.cure_mass(8000.0, 120.0, "pick-up", 0.12) == pytest.approx(curing.cure_mass(8000.0, 120.0, "dry"))


@each(
    ("method", "kind", "rules", "ppm"),
    [
        ("comminuted", "general", "US", 156.25),  # 9 CFR 424.21(c), 1/4 oz per 100 lb
        ("pumped", "general", "US", 200.0),  # 9 CFR 424.21(c), 2 lb per 100 gal at 10 %
        ("pick-up", "general", "US", 200.0),  # directive 7620.3
        ("equilibrium", "general", "US", 200.0),  # directive 7620.3
        ("dry", "general", "US", 625.0),  # 9 CFR 424.21(c), 1 oz per 100 lb
        ("pumped", "bacon", "US", 120.0),  # 9 CFR 424.22(b)(1)
        ("pick-up", "bacon", "US", 120.0),  # 9 CFR 424.22(b)(2)
        ("equilibrium", "bacon", "US", 120.0),  # 9 CFR 424.22(b)(2)
        ("dry", "bacon", "US", 200.0),  # 9 CFR 424.22(b)(3)
    ],
)
def test_us_ceilings_are_those_of_the_rules(method: str, kind: str, rules: str, ppm: float) -> None:
    assert curing.limit(method, kind, rules).value == ppm


@each("method", METHODS)
@each("kind", ["general", "bacon"])
def test_eu_ceiling_is_80_of_the_ion(method: str, kind: str) -> None:
    """Regulation (EU) 2023/2108: 80 mg/kg as NO2; molar masses from an independent periodic table."""
    share = formula("NO2").mass / formula("NaNO2").mass
    assert share == pytest.approx(0.6668, abs=5e-5)
    assert curing.limit(method, kind, "EU").value * share == pytest.approx(80.0, rel=1e-5)


def test_comminuted_bacon_has_no_us_rule() -> None:
    with pytest.raises(Impossible, match="pumped, immersed and dry-cured"):
        curing.limit("comminuted", "bacon", "US")


@each("method", METHODS)
@each("kind", ["general", "bacon"])
@each("rules", ["US", "EU"])
def test_a_dose_at_the_limit_is_given_and_above_it_refused(method: str, kind: str, rules: str) -> None:
    if (method, kind, rules) == ("comminuted", "bacon", "US"):
        with pytest.raises(Impossible):
            curing.dose(1000.0, 100.0, method, 0.1, 500.0, 0.0625, kind, rules)
        return
    most = curing.limit(method, kind, rules).value
    assert curing.dose(1000.0, most, method, 0.1, 500.0, 0.0625, kind, rules) > 0.0
    with pytest.raises(Refused) as refused:
        curing.dose(1000.0, most * 1.01, method, 0.1, 500.0, 0.0625, kind, rules)
    said = str(refused.value)
    assert curing.named(method, kind).split(",")[-1].strip() in said
    assert rules in said
    assert "recheck, rules change" in said
    assert "local code" in said
    assert refused.value.nearest == most


@pytest.mark.parametrize("ppm", [120.0, 100.0, 40.0, 60.0, 80.0])
def test_pumped_bacon_at_its_set_levels(ppm: float) -> None:
    """9 CFR 424.22(b)(1)."""
    assert curing.dose(1000.0, ppm, "pumped", 0.1, kind="bacon") == pytest.approx(ppm / 62.5, rel=1e-12)


@pytest.mark.parametrize("ppm", [119.0, 110.0, 101.0, 90.0, 80.7, 39.0])
def test_pumped_bacon_between_its_set_levels_is_refused(ppm: float) -> None:
    with pytest.raises(Refused, match="exactly 120 ppm"):
        curing.dose(1000.0, ppm, "pumped", 0.1, kind="bacon")


@pytest.mark.parametrize("strength", [1.0, 0.5, 0.1001, 0.0039])
def test_pure_and_unknown_grades_of_nitrite_are_refused(strength: float) -> None:
    with pytest.raises(Refused, match="pure nitrite"):
        curing.dose(1000.0, 100.0, "dry", cure_strength=strength)


@pytest.mark.parametrize("strength", [0.004, 0.006, 0.0588, 0.0625, 0.1])
def test_grades_sold_for_kitchens_are_reckoned_with(strength: float) -> None:
    assert curing.dose(1000.0, 100.0, "dry", cure_strength=strength) == pytest.approx(0.1 / strength, rel=1e-12)


def test_an_argument_that_the_method_needs_is_asked_for() -> None:
    with pytest.raises(Unreadable, match="gain"):
        curing.cure_mass(1000.0, 100.0, "pumped")
    with pytest.raises(Unreadable, match="pickle"):
        curing.cure_mass(1000.0, 100.0, "equilibrium")
    with pytest.raises(OutOfRange, match="above 0"):
        curing.cure_mass(1000.0, 100.0, "pick-up", 0.0)


def test_grades_add_up_and_are_found() -> None:
    table = curing.cures()
    for name in table.names:
        grade = table.find(name)
        assert grade.nitrite + grade.nitrate + grade.salt == pytest.approx(1.0, abs=1e-12)
    assert table.find("Cure #1").nitrite == 0.0625
    assert table.find("pink salt").nitrate == 0.0
    assert table.find("curing salt no. 2").nitrate > 0.0


def test_limits_shown_rounded_and_kept_exactly() -> None:
    most = curing.limit("comminuted")
    assert most.value == 156.25
    assert most.shown == "156 ppm"
    assert re.search(r"156 ppm \(156\.25 exactly\)", most.bounded)


def test_grades_agree_with_the_ingredient_table() -> None:
    """Sodium of each grade from its make-up and atomic masses, against the ingredient table's own figure."""
    parts = {"salt": "NaCl", "nitrite": "NaNO2", "nitrate": "NaNO3"}
    shares = {part: formula("Na").mass / formula(text).mass for part, text in parts.items()}
    checked = 0
    for grade in (curing.cures().find(name) for name in curing.cures().names):
        found = ingredients.known(grade.cure)
        if found is None or found.name != grade.cure or grade.salt == 0.0:
            continue
        sodium = sum(getattr(grade, part) * share for part, share in shares.items())
        assert found.sodium == pytest.approx(sodium, rel=2e-4)
        checked += 1
    assert checked >= 6


REFUSALS = {
    "over the US limit": Refusal(
        lambda: curing.dose(1000.0, 160.0, "comminuted"), Refused, "ppm", "160 ppm",
        ("at most 156 ppm (156.25 exactly)", "comminuted meat", "US rules", "9 CFR", "local code"), 156.25,
    ),
    "between the set levels": Refusal(
        lambda: curing.dose(1000.0, 110.0, "pumped", 0.1, kind="bacon"), Refused, "ppm", "110 ppm",
        ("exactly 120 ppm", "or 100 ppm", "40 to 80 ppm with starter culture", "9 CFR", "local code"), 120.0,
    ),
    "nearly pure nitrite": Refusal(
        lambda: curing.dose(1000.0, 100.0, "dry", cure_strength=0.9), Refused, "cure_strength", "90 %",
        ("between 0.4 % and 10 % nitrite", "pure nitrite is never weighed out", "share on its label, such as 6.25%"),
    ),
    "less pickle than is taken up": Refusal(
        lambda: curing.dose(1000.0, 100.0, "pumped", 0.1, 99.0), OutOfRange, "pickle", "99 g",
        ("at least what the product takes up, 100 g", "the whole pickle, with its cure and salt"),
    ),
    "nothing but curing salt": Refusal(  # 150 ppm of 1000 g + 0.5 g at 6.25 % is 2.4 g
        lambda: curing.dose(1000.0, 150.0, "equilibrium", None, 0.5), OutOfRange, "pickle", "0.5 g",
        ("more than the curing salt in it, 2.4012 g", "mix more pickle, or use a stronger curing salt"),
    ),
    "comminuted bacon": Refusal(
        lambda: curing.limit("comminuted", "bacon"), Impossible, "method", None,
        ("for bacon", "pumped, immersed and dry-cured", '"pick-up"', 'kind "general"'),
    ),
    "a missing gain": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "pumped"), Unreadable, "gain", None, ('"pumped" needs it', "example 10%"),
    ),
    "a missing pickle": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "equilibrium"), Unreadable, "pickle", None,
        ('"equilibrium" needs it', "example 5 kg"),
    ),
    "a pickle of nothing": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "pick-up", 0.1, 0.0), OutOfRange, "pickle", "0",
        ('above 0 for the method "pick-up"',),
    ),
    "a gain of nothing": Refusal(
        lambda: curing.nitrite(1000.0, 2.0, "pumped", 0.0), OutOfRange, "gain", "0",
        ('above 0 for the method "pumped"',),
    ),
    "a curing salt nobody knows": Refusal(
        lambda: curing.cures().find("zzz"), UnknownName, None, '"zzz"', ("known curing salt",)
    ),
    "bacon over its level": Refusal(
        lambda: curing.check_level(500.0, "pick-up", "bacon", "US"), Refused, "ppm", "500 ppm",
        ("for bacon, immersion", "by the US rules"), 119.98,
    ),
}  # fmt: skip


@each("name", REFUSALS)
def test_a_refusal_says_all_a_cook_needs(name):
    """Its figures are the limits of the rules named, or follow by hand from the numbers in the call."""
    check(REFUSALS[name])
