"""The table of limits: exact values, look-up by jurisdiction, and sources that say how far they can be trusted."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from each import each
from periodictable import formula

import brinecalc
from brinecalc import registry
from brinecalc.errors import UnknownName
from brinecalc.quantity import DENSITY_OF_WATER
from brinecalc.science import chilling, scales, soaking, solution
from brinecalc.tables import load
from brinecalc.trade import acids, citing, curing, limits

ROWS = load.rows("limits")


def mass(text: str) -> float:
    return formula(text).mass


def test_table_is_pinned() -> None:
    assert len(ROWS) == 158
    assert len({(row["limit"], row["rules"]) for row in ROWS}) == len(ROWS)
    assert {row["rules"] for row in ROWS} == {"US", "EU", "Codex", "any"}


@each("row", ROWS)
def test_every_limit_answers_with_its_source(row: dict[str, object]) -> None:
    found = limits.find(str(row["limit"]), str(row["rules"]))
    assert found.value == row["value"]
    told = citing.cite_limit(found)
    assert told.startswith(found.meaning)
    assert found.shown in told
    if row["rules"] != "any":
        assert "recheck, rules change" in told
    if row["status"] == "memory":
        assert "from memory, not verified" in told
    if row["status"] == "second-hand":
        assert "as reported by others" in told
    if row["status"] == "common practice":
        assert "common practice, no source" in told


def test_what_was_read_is_not_told_as_recalled() -> None:
    """Read or reported in November 2026: the Food Code as states have it, rules for smoked fish, the EU list."""
    known = {(row["limit"], row["rules"]): row["status"] for row in ROWS}
    code = ("brine temperature", "hot holding", "warm hours", "date mark", "cook needled", "cook poultry", "cool first")
    fish = ("water phase salt smoked fish", "water phase salt smoked fish nitrite", "water phase salt smoked fish air")
    assert {known[name, "US"] for name in (*code, "cool second")} == {"read"}
    assert {known[name, "US"] for name in fish} == {known["nitrite fish", "EU"]} == {"second-hand"}
    assert known["erythorbate", "EU"] == known["nitrite residual", "Codex"] == "read"
    still = {"nitrite ion residual", "nitrite ion sterilised residual", "nitrate ingoing", "nitrate ion ingoing"}
    assert {name for (name, rules), status in known.items() if (rules, status) == ("EU", "memory")} == still


def test_aliases_lead_to_the_row() -> None:
    aliases = [(alias, row["rules"], row["limit"]) for row in ROWS for alias in row["aliases"]]
    assert [one for one in aliases if limits.find(one[0], one[1]).limit != one[2]] == []


@each(
    ("name", "rules", "value"),
    [
        # 9 CFR 424.21(c), read in the 2015 edition: ounces per 100 lb as parts per million
        ("nitrite comminuted", "US", 1e6 * 0.25 / 16 / 100),
        ("nitrite dry", "US", 1e6 * 1 / 16 / 100),
        ("nitrate dry", "US", 1e6 * 3.5 / 16 / 100),
        ("nitrate comminuted", "US", 1e6 * 2.75 / 16 / 100),
        ("erythorbate", "US", 1e6 * 87.5 / 16 / 1000 * 0.1),
        ("erythorbic acid", "US", 1e6 * 75 / 16 / 1000 * 0.1),
        ("phosphate", "US", 0.05 * 0.1),
        ("sodium acid pyrophosphate", "US", 8 / 16 / 100),
        ("fumaric acid", "US", 0.00065),
        ("lactate", "US", 0.048),
        ("diacetate", "US", 0.0025),
        ("malt syrup", "US", 0.025),
        ("calcium chloride solution", "US", 0.03),
        # 9 CFR 424.22(b), read in the 2015 edition
        ("nitrite pumped bacon", "US", 120),
        ("nitrite dry bacon", "US", 200),
        ("erythorbate bacon", "US", 550),
        # others
        ("nitrite ion ingoing", "EU", 80),
        ("nitrate ion ingoing", "EU", 90),
        ("phosphate", "EU", 0.005),
        # Food Code 3-402.11 and Regulation (EU) 1276/2011, read
        ("parasite freezing", "US", 7 * 24),
        ("parasite freezing", "EU", 24),
        ("salt reference intake", "EU", 6),
        ("salt per portion", "EU", 2),
        ("salt from sodium", "EU", 2.5),  # (EU) 1169/2011, annex I, as reported
        ("acidified food ph", "US", 4.6),
        ("sodium daily value", "US", 2300),
        ("water phase salt smoked fish", "US", 0.035),
        # common practice, no source
        ("texture ph low", "any", 4.8),
        ("texture ph high", "any", 8.5),
        ("rosemary", "any", 0.005),
        ("calcium chloride brine", "any", 0.0003),
        ("phosphate immersion low", "any", 0.0002),
        ("phosphate immersion high", "any", 0.003),
        ("sweetener low", "any", 0.01),
        ("sweetener high", "any", 0.05),
        ("aromatics low", "any", 0.005),
        ("aromatics high", "any", 0.05),
    ],
)
def test_figures_of_the_rules(name: str, rules: str, value: float) -> None:
    assert limits.value(name, rules) == pytest.approx(value, rel=1e-12)


@each(
    ("name", "fahrenheit"),
    [
        ("brine temperature", 41),
        ("brine temperature inspected", 40),
        ("brine start temperature", 60),
        ("fish brine long hold", 38),
        ("cook needled", 155),
        ("cook poultry", 165),
        ("cook fish", 145),
        ("smoked chub cook", 160),
    ],
)
def test_temperatures_are_the_rule_in_fahrenheit(name: str, fahrenheit: float) -> None:
    assert limits.value(name, "US") == pytest.approx((fahrenheit - 32) / 1.8, rel=1e-12)


@each(
    ("name", "value"),
    [
        # periodic table of an independent library
        ("sodium in salt", 1000 * mass("Na") / mass("NaCl")),
        ("nitrite ion in sodium nitrite", mass("NO2") / mass("NaNO2")),
        ("nitrate ion in sodium nitrate", mass("NO3") / mass("NaNO3")),
        ("potassium nitrite for sodium nitrite", mass("KNO2") / mass("NaNO2")),
        ("erythorbate monohydrate factor", mass("C6H9O7Na") / mass("C6H7O6Na")),
        ("erythorbic acid in sodium erythorbate", mass("C6H8O6") / mass("C6H7O6Na")),
        ("p2o5 in tripolyphosphate", 1.5 * mass("P2O5") / mass("Na5P3O10")),
        ("carbon dioxide from soda", mass("CO2") / mass("NaHCO3")),
    ],
)
def test_constants_against_atomic_masses(name: str, value: float) -> None:
    assert limits.value(name) == pytest.approx(value, rel=1e-4)


@pytest.mark.parametrize("name", ["nitrate ingoing", "nitrate dry", "nitrate pumped", "nitrate sausage"])
def test_eu_nitrate_is_90_of_the_ion(name: str) -> None:
    """Regulation (EU) 2023/2108, from memory: 90 mg/kg as NO3; molar masses from an independent periodic table."""
    found = limits.find(name, "EU")
    assert found.value == pytest.approx(90 * mass("NaNO3") / mass("NO3"), rel=1e-5)
    assert found.shown == "123 ppm"
    assert limits.find("nitrate ion", "EU").shown == "90 ppm of nitrate ion"
    assert found.status == "memory"


def test_constants_agree_with_the_kernels() -> None:
    """The kernel is the figure's home; the row answers people, and says where it comes from."""
    assert limits.value("salt saturation") == pytest.approx(solution.strongest("water", 20.0), abs=1e-4)
    assert limits.value("eutectic") == pytest.approx(solution.eutectic(), abs=1e-3)
    assert limits.value("salometer full") == scales.SALOMETER_FULL
    assert limits.value("baume modulus") == scales.BAUME_MODULUS
    assert limits.value("density of water") == DENSITY_OF_WATER
    assert limits.value("latent heat of ice") == chilling.HEAT_OF_MELTING
    assert limits.value("specific heat of ice") == chilling.HEAT_OF_ICE
    assert limits.value("free water diffusivity") == pytest.approx(soaking.free_water(soaking.REFERENCE), rel=1e-2)
    assert limits.value("activation energy") * 1000.0 == soaking.ACTIVATION
    assert limits.value("default cure strength") == curing.DEFAULT_STRENGTH
    for name in ("CURE", "NITRITE"):
        given = next(each for each in registry.spec(name).arguments if each.name == "cure_strength")
        assert given.default == curing.DEFAULT_STRENGTH
    assert limits.value("eutectic temperature") == pytest.approx(solution.freezing_point(solution.eutectic()), abs=0.1)


def typed() -> dict[float, list[str]]:
    """Every number typed into the library's code, with the modules that hold it."""
    found: dict[float, list[str]] = {}
    for path in sorted(Path(brinecalc.__file__).parent.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and type(node.value) in (int, float):
                found.setdefault(float(node.value), []).append(f"{path.name}:{node.lineno}")
    return found


def test_a_figure_of_the_table_is_typed_into_code_once_at_most_and_no_rules_figure_at_all() -> None:
    """Of figures of three digits and more, which are none by chance."""
    places = typed()
    for row in ROWS:
        value = abs(float(row["value"]))
        if len(f"{value:.12g}".replace(".", "").strip("0")) >= 3:
            kernels = 0 if row["rules"] != "any" else 1
            assert len(places.get(value, [])) <= kernels, f"{row['limit']}: {places[value]}"


def test_what_salt_dissolves_has_one_figure() -> None:
    """Kaufmann: 35.92 % of the water at 20 °C, for curing salt too."""
    assert acids.find("curing salt no. 1").most == solution.strongest()


def test_without_rules_the_us_row_comes_first() -> None:
    assert limits.find("phosphate").rules == "US"
    assert limits.find("texture ph low").rules == "any"
    assert limits.find("nitrite ion").rules == "EU"
    assert limits.find("texture ph low", "EU").rules == "any"


def test_one_name_answers_for_each_jurisdiction() -> None:
    assert [row.rules for row in limits.rows("phosphate")] == ["US", "EU", "Codex"]


def test_an_unknown_limit_names_the_nearest() -> None:
    with pytest.raises(UnknownName, match='"nitrite dry"'):
        limits.find("nitrte dry")
    with pytest.raises(UnknownName, match="under US"):
        limits.find("nitrite home cure", "EU")


def test_a_bound_itself_is_not_passed_by() -> None:
    comminuted = limits.find("nitrite comminuted")
    assert not comminuted.passed_by(156.25)
    assert comminuted.passed_by(156.26)
    fish = limits.find("water phase salt smoked fish", "US")
    assert not fish.passed_by(0.035)
    assert fish.passed_by(0.0349)


def test_limits_are_shown_rounded_with_their_unit() -> None:
    assert limits.find("nitrite comminuted").shown == "156 ppm"
    assert limits.find("nitrite ion").shown == "80 ppm of nitrite ion"
    assert limits.find("phosphate").shown == "0.5 %"
    assert limits.find("brine start temperature").shown == "15.56 °C"
    assert limits.find("texture ph low").shown == "pH 4.8"
    assert limits.find("nitrosamine").shown == "0.01 ppm"


def test_a_name_that_stands_in_several_limits_gets_no_figure_but_their_names():
    assert registry.call("LIMIT", "nitrite") == "#N/A"
    said = registry.why("LIMIT", "nitrite")
    assert "several limits" in said
    for name in ("nitrite dry", "nitrite pumped", "nitrite ingoing"):
        assert f'"{name}"' in said
    assert '"nitrite home cure"' not in registry.why("LIMIT", "nitrite", "EU")


def test_a_length_is_shown_with_its_unit_and_small_ppm_are_not_rounded_away() -> None:
    lengths = [row for row in load.rows("limits") if row["unit"] == "mm"]
    assert lengths
    for row in lengths:
        assert limits.Limit(**row).shown.endswith(" mm")
    some = limits.Limit(**load.rows("limits")[0])._replace(unit="ppm", value=0.01)
    assert some.shown == "0.01 ppm"
    assert some._replace(value=0.0).shown == "0 ppm"
    assert some._replace(value=1.0).shown == "1 ppm"


def test_a_thermometer_reads_to_a_tenth() -> None:
    """Half a tenth above 5 °C it still shows 5.0 or 5.1, and nobody can tell which."""
    assert not limits.warmer(5.05, 5.0)
    assert limits.warmer(5.06, 5.0)
