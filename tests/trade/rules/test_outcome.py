"""The salt of a row held against its own target: figures by the mass balance and the worksheet functions."""

from __future__ import annotations

import re

import pytest
from each import each

from brinecalc.registry import call
from brinecalc.trade import products
from tests.trade.cases import found, of, said

MINE = {"salt-off-target", "target-unreachable", "soak-off-target", "target-high"}
BREAST = {"product": "chicken breast", "weight": 5000.0}
WET = {**BREAST, "water": 5000.0, "method": "equilibrium"}


def mine(row: dict[str, object]) -> set[str]:
    return MINE & set(found(row))


@each(
    "row",
    [
        {**BREAST, "method": "dry equilibrium", "salt": 600.0, "target": 0.012},  # a slip of ten
        {**BREAST, "method": "dry brine", "salt": 6.0, "target": 0.012},
        {**BREAST, "method": "rubbed", "salt": 6000.0, "target": 0.012},  # more than dissolves
        {**WET, "salt": 600.0, "target": 0.012},
        {**WET, "salt": 12.0, "target": 0.012},
        {**WET, "strength": 0.06, "target": 0.012},  # heads for 3 %
        {"method": "equilibrium", "weight": 5000.0, "water": 5000.0, "salt": 600.0, "target": 0.012},
        {"product": "pork loin", "method": "injected", "gain": 0.1, "strength": 0.08, "target": 0.018},
        {"product": "pork loin", "method": "injected", "gain": 0.1, "strength": 0.3, "target": 0.012},
    ],
)
def test_salt_that_ends_far_from_its_target_is_told(row: dict[str, object]) -> None:
    assert mine(row) == {"salt-off-target"}
    assert said(row).startswith("CAUTION")


@each("product", ["chicken breast", "whole turkey", "peeled shrimp", "pork belly", "cucumber"])
@each("water", [0.0, 500.0, 5000.0, 20000.0])
@each("basis", ["weight", "total", "water phase"])
def test_what_the_library_weighs_out_meets_its_target_on_every_basis(product: str, water: float, basis: str) -> None:
    """Law: the salt of BRINE_EQUILIBRIUM_SALT is never told to miss; with or without the native salt, edible or not."""
    known = products.find(product)
    for native in (known.native_salt, 0.0):
        salt = call("EQUILIBRIUM_SALT", 5000, water, 0.015, native, basis, known.water)
        row = {"product": product, "water": water, "salt": salt, "target": 0.015,
               "method": "equilibrium" if water else "dry equilibrium"}  # fmt: skip
        if basis != "water phase":
            for heading in ("weight", "edible weight"):
                assert not mine({**row, heading: 5000.0}), (native, heading, salt)
        for slip in (0.1, 10.0):
            assert "salt-off-target" in mine({**row, "weight": 5000.0, "salt": salt * slip})


@pytest.mark.parametrize("basis", ["water", "solution"])
def test_what_the_library_injects_meets_its_target_on_either_basis(basis: str) -> None:
    row = {"product": "pork loin", "method": "injected", "gain": 0.1, "target": 0.015}
    strength = call("INJECTION_STRENGTH", 0.015, 0.1, 0.00127, basis)
    assert not mine({**row, "strength": strength})
    assert mine({**row, "strength": strength / 10}) == {"salt-off-target"}


def test_where_exactly_salt_is_far_off() -> None:
    """By hand: 15 % more than 1 % of 5 kg and 5 kg of water are 115 g; less than 1 % by 1.15 are 87 g."""
    row = {"weight": 5000.0, "water": 5000.0, "method": "equilibrium", "target": 0.01}
    assert not mine({**row, "salt": 114.9})
    assert mine({**row, "salt": 115.1})
    assert not mine({**row, "salt": 87.0})
    assert mine({**row, "salt": 86.9})


def test_salt_of_the_cure_and_of_soy_sauce_counts() -> None:
    row = {**BREAST, "method": "dry equilibrium", "target": 0.02, "salt": 70.0}
    assert mine(row) == {"salt-off-target"}
    assert not mine({**row, "cure": 20.0, "cure method": "dry"})
    assert not mine({**row, "ingredient": "soy sauce", "level": "300 g"})
    assert not mine({**row, "ingredient": "soy sauce"})  # nobody knows how much


@each("method", ["fermented", "pickled", "lacto-fermentation", "brine", "", "pumped and soaked"])
def test_nothing_is_weighed_against_the_target_where_nothing_evens_out(method: str) -> None:
    row = {"product": "cucumber", "weight": 5000.0, "water": 5000.0, "salt": 300.0, "target": 0.01, "method": method}
    assert not mine(row)
    assert mine({**row, "method": "equilibrium"}) == {"salt-off-target"}


@each("method", ["gradient", "brine", "", "equilibrium", "injected"])
def test_a_target_above_all_that_the_brine_can_bring_is_told(method: str) -> None:
    row = {"product": "chicken breast", "strength": 0.01, "target": 0.02, "method": method}
    assert mine(row) == {"target-unreachable"}
    assert not mine({**row, "strength": 0.05})
    assert not mine({**row, "strength": 0.0})
    assert not mine({**row, "method": "dry"})


def test_a_small_bath_ends_where_the_functions_say() -> None:
    """BRINE_SOAK_HOURS refuses what the row is told of."""
    row = {"product": "chicken breast", "weight": 5000.0, "water": 1000.0, "strength": 0.06, "target": 0.013}
    assert mine(row) == {"target-unreachable"}
    assert call("SOAK_HOURS", "chicken breast", 25, 0.013, 0.06, 4, 0.2) == "#NUM!"
    assert not mine({**row, "water": 10000.0})


@pytest.mark.parametrize(
    ("row", "typical"),
    [
        ({**BREAST, "water": 20000.0, "strength": 0.1, "thickness": 20.0, "target": 0.01, "soak hours": 8.0}, 4.0),
        ({"product": "pork loin", "strength": 0.05, "thickness": 100.0, "target": 0.015, "soak hours": 1.0}, "large"),
    ],
)
def test_a_soak_that_misses_its_target_is_told_with_what_the_library_reckons(row, typical) -> None:
    row = {**row, "method": "gradient"}
    ask = (row["product"], row["thickness"], row["soak hours"], row["strength"], 4, typical, "", "none")
    likely, slow, fast = (call("UPTAKE", *ask, estimate) for estimate in ("typical", "slow", "fast"))
    (hit,) = of("soak-off-target", row)
    assert f"{100 * likely:.3g} % salt ({100 * slow:.3g} % to {100 * fast:.3g} %)" in hit.sentence
    hours = call("SOAK_HOURS", row["product"], row["thickness"], row["target"], row["strength"], 4, typical)
    assert not mine({**row, "soak hours": hours})


@pytest.mark.parametrize(("estimate", "way"), [("slow", 1.0), ("fast", -1.0)])
def test_where_exactly_a_soak_is_far_off(estimate: str, way: float) -> None:
    """A quarter beyond the end of the range that is nearest to the target."""
    row = {"product": "pork loin", "strength": 0.05, "thickness": 60.0, "soak hours": 12.0}
    end = call("UPTAKE", "pork loin", 60, 12, 0.05, 4, "", "", "", estimate)
    assert not mine({**row, "target": end / 1.249**way})
    assert mine({**row, "target": end / 1.251**way}) == {"soak-off-target"}


def test_where_exactly_a_target_is_out_of_reach() -> None:
    """By hand: a brine of 2 % comes to 2 % of the water of pork loin, which is 66.92 % of it; 15 % beyond is far."""
    row = {"product": "pork loin", "strength": 0.02}
    assert not mine({**row, "target": 0.02 * 0.6692 * 1.149})
    assert mine({**row, "target": 0.02 * 0.6692 * 1.151}) == {"target-unreachable"}


@pytest.mark.parametrize(
    ("product", "thickness", "soak", "advice"),
    [
        ("pork loin", 60.0, 2.0, "Soak it about "),  # custom: up to 48 h
        ("whole chicken", 30.0, 8.0, "Take a brine of about "),  # it would take 25 h, and custom is up to 12
        ("salmon fillet", 25.0, 1.0, "Take thinner pieces"),  # no brine below 15 % of the solution does it
    ],
)
def test_what_is_advised_for_a_soak_is_no_caution_itself(product: str, thickness: float, soak: float, advice: str):
    row = {"product": product, "strength": 0.06, "thickness": thickness, "target": 0.01, "soak hours": soak,
           "weight": 5000.0, "water": 8000.0, "method": "brine"}  # fmt: skip
    (hit,) = of("soak-off-target", row)
    assert advice in hit.sentence
    figure = re.search(r"about ([\d.]+) (h|%)(?:, or| for)", hit.sentence)
    if figure:
        mended = {"soak hours": float(figure[1])} if figure[2] == "h" else {"strength": float(figure[1]) / 100}
        assert not {"soak-off-target", "over-cap", "strong-brine"} & set(found({**row, **mended}))


@pytest.mark.parametrize("method", ["gravlax", "dry rub", "dry cured", "salting"])
def test_salt_that_is_brushed_off_may_be_more_than_the_target(method: str) -> None:
    """4 % of salt on salmon that is to hold 3 %; three times is the most that is taken for such a cure."""
    row = {"product": "salmon fillet", "weight": 2000.0, "target": 0.03, "salt": 80.0}
    assert not mine({**row, "method": method})
    assert mine({**row, "method": method, "salt": 600.0}) == {"salt-off-target"}
    assert mine({**row, "method": method, "salt": 20.0}) == {"salt-off-target"}
    for strict in ("dry equilibrium", "dry brine", f"{method}, dry equilibrium"):
        assert mine({**row, "method": strict}) == {"salt-off-target"}


@each(
    ("change", "told"),
    [
        ({}, True), ({"soak hours": 20.0}, False), ({"treatment": "needled"}, False),
        ({"method": "tumbled in brine"}, False),
        ({"thickness": "50 x 50 x 50 mm"}, False), ({"shape": "one face"}, True), ({"shape": "sphere"}, False),
        ({"method": "equilibrium"}, False), ({"method": "injected"}, False), ({"treatment": "injected"}, False),
        ({"strength": 0.0}, False), ({"bath temperature": 9.0}, False), ({"native salt": 0.01}, False),
        ({"soak hours": ""}, False), ({"thickness": ""}, False), ({"product": "dragon"}, False),
    ],
)  # fmt: skip
def test_a_soak_is_reckoned_with_all_that_the_row_says(change: dict[str, object], told: bool) -> None:
    row = {"product": "chicken breast", "strength": 0.05, "thickness": 50.0, "target": 0.01, "soak hours": 5.0,
           "method": "gradient"}  # fmt: skip
    assert ("soak-off-target" in found({**row, **change})) is told


@each(
    ("row", "told"),
    [
        ({"product": "chicken breast", "target": 0.061}, True), ({"product": "chicken breast", "target": 0.06}, False),
        ({"target": 0.12}, True), ({"product": "salmon fillet", "target": 0.12}, True),
        ({"product": "salmon fillet", "target": 0.12, "method": "dry"}, False),
        ({"product": "herring fillet", "target": 0.12, "strength": 0.25}, False),
        ({"product": "chicken breast", "target": 0.12, "method": "dry"}, True),
        ({"product": "feta", "target": 0.07}, False), ({"product": "cucumber", "target": 0.08}, False),
        ({"product": "ham leg", "target": 0.07, "weight": 8000.0, "cure": 20.0, "cure method": "dry"}, False),
    ],
)  # fmt: skip
def test_a_target_that_nobody_eats_is_told_but_of_what_is_salted_to_keep(row: dict[str, object], told: bool) -> None:
    assert ("target-high" in found(row)) is told


def test_the_salt_of_a_sauce_counts_by_its_sodium() -> None:
    """Soy sauce holds 54.9 mg of sodium in the gram (USDA SR27), 0.14 g of salt: 150 g bring 21 g, 5 g hardly any."""
    row = {"product": "pork loin", "edible weight": 1000.0, "method": "equilibrium", "water": 1000.0, "salt": 10.0,
           "target": 0.015, "ingredient": "soy sauce"}  # fmt: skip
    assert "salt-off-target" not in found({**row, "level": "150 g"})
    assert "salt-off-target" in found({**row, "level": "5 g"})
