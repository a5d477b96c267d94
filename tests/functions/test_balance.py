"""Equilibrium and mass balance as worksheet functions: values from their definitions, reasons for what is wrong."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry

call, why = registry.call, registry.why


@each(
    ("cells", "answer"),
    [
        (("BRINE_EQUILIBRIUM_SALT", 2000, 1000, 0.015), 45.0),  # t(P + W): common practice
        (("BRINE_EQUILIBRIUM_SALT", "2 kg", "1 L", "1.5%"), 0.015 * (2000 + 998.207)),
        (("BRINE_EQUILIBRIUM_SALT", 2000, 0, 0.02), 40.0),  # dry equilibrium cure
        (("BRINE_EQUILIBRIUM_SALT", 2000, 1000, 0.015, 0.001), 43.0),
        (("BRINE_EQUILIBRIUM_SALT", 2000, 1000, 0.1, "", "total"), 300 / 0.9),
        (("BRINE_EQUILIBRIUM_SALT", 2000, 1000, 0.1, "", "water phase", 0.75), 0.1 / 0.9 * 2500),
        (("BRINE_EQUILIBRIUM_RESULT", 2000, 1000, 45), 0.015),
        (("BRINE_EQUILIBRIUM_RESULT", 2000, 1000, 0, 0.003), 0.002),
        (("BRINE_EQUILIBRIUM_RESULT", 900, 0, 100, "", "total"), 0.1),
        (("BRINE_INJECTION_STRENGTH", 0.02, 0.25), 0.1),
        (("BRINE_INJECTION_STRENGTH", 0.02, 0.25, "", "water"), 0.1 / 0.9),
        (("BRINE_IN_PRODUCT", 0.05, 0.25), 0.01),
        (("BRINE_IN_PRODUCT", "5%", 0), 0.0),
        (("BRINE_YIELD", 1000, 1080), 1.08),
        (("BRINE_GAIN", 1000, 1080), 0.08),
        (("BRINE_GAIN", 1000, 900), -0.1),
        (("BRINE_WATER_PHASE_SALT", 0.035, 0.965), 0.035),
        (("BRINE_WATER_PHASE_SALT", "2.5%", "65%"), 2.5 / 67.5),
        (("BRINE_WATER_PHASE_SALT", "20%", "42%"), 20 / 62),  # dry-salted fish: salt lies in crystals, and counts
        (("BRINE_ABSORBED", 1000, 2000, 0.06, 0.055), 0.01),
        (("BRINE_ABSORBED", 1000, 2000, 0.06, 0.055, 0.06), (2000 * 0.005 + 0.055 * 60) / 1055),
        (("BRINE_ABSORBED", 1000, 2000, 0, 0.01), -0.02),  # freshening: salt given off
        (("BRINE_EDIBLE", 1000, "whole chickens"), 680.0),  # USDA SR27 05006: 32 % refuse
        (("BRINE_EDIBLE", "2 lb", "bone-in pork chop"), 2 * 453.59237 * 0.75),  # USDA SR27 10036: 25 %
        (("BRINE_EDIBLE", 500, "chicken breast"), 500.0),
    ],
)
def test_values_follow_from_the_definitions(cells, answer):
    """The exact definitions of the functions; refuse shares from USDA SR27."""
    assert call(*cells) == pytest.approx(answer, rel=1e-12, abs=1e-15)


@pytest.mark.parametrize("basis", ["solution", "water"])
def test_salt_for_an_injection_is_weighed_on_the_basis_of_its_strength(basis: str):
    """Mass balance by hand: a tenth of the green weight is injected, of which the salt makes 1.5 % of the finished."""
    strength = call("BRINE_INJECTION_STRENGTH", 0.015, 0.1, 0, basis)
    salt = call("BRINE_SALT", 1000, strength, basis)
    finished = 1000 + 0.1 * 1000  # g of product
    assert salt / (1000 + salt) * 100 == pytest.approx(0.015 * finished, rel=1e-12)
    assert salt == pytest.approx(call("BRINE_SALT", 1000, call("BRINE_INJECTION_STRENGTH", 0.015, 0.1), "solution"))


@pytest.mark.parametrize(
    ("name", "other"), [("INJECTION_STRENGTH", "BRINE_SALT"), ("SALT", "BRINE_INJECTION_STRENGTH")]
)
def test_the_help_of_both_tells_of_the_basis(name: str, other: str):
    notes = registry.spec(name).notes
    assert other in notes
    assert "of the solution" in notes
    assert 'basis "solution"' in notes


def test_masses_are_proportional():
    """Kilograms in give kilograms out."""
    assert call("BRINE_EQUILIBRIUM_SALT", 2, 1, 0.015) == pytest.approx(0.045, rel=1e-12)


@each(
    ("cells", "cell", "says"),
    [
        (("EQUILIBRIUM_SALT", 2000, 1000, 5), "#NUM!", ("target", "5", "write 5%")),
        (("EQUILIBRIUM_SALT", 0, 1000, 0.015), "#NUM!", ("product_weight", "above 0")),
        (("EQUILIBRIUM_SALT", None, 1000, 0.015), "#NUM!", ("product_weight", "blank")),
        (("EQUILIBRIUM_SALT", 2000, 1000), "#VALUE!", ("target", "missing")),
        (("EQUILIBRIUM_SALT", 2000, 1000, None), "#NUM!", ("target", "above 0")),
        (("EQUILIBRIUM_SALT", "2,000 g", 1000, 0.015), "#VALUE!", ("product_weight", "2,000 g")),
        (("EQUILIBRIUM_SALT", 2000, -1, 0.015), "#NUM!", ("water", "at least 0")),
        (("EQUILIBRIUM_SALT", 2000, 1000, 0.0005, 0.002), "#NUM!", ("target", "0.1333 %", "0.1334 %")),
        (("EQUILIBRIUM_SALT", 2000, 1000, 0.015, "", "volume"), "#N/A", ("basis", "weight", "water phase")),
        (("EQUILIBRIUM_SALT", 2000, 1000, 0.015, "", "water phase"), "#VALUE!", ("product_water", "74%")),
        (("EQUILIBRIUM_SALT", 2000, 1000, 0.015, 0.4, "water phase", 0.7), "#NUM!", ("product_water", "60 %")),
        (("EQUILIBRIUM_SALT", "#REF!", 1000, 0.015), "#REF!", ("#REF!",)),
        (("EQUILIBRIUM_RESULT", 2000, 1000, -1), "#NUM!", ("salt", "at least 0")),
        (("EQUILIBRIUM_RESULT", 2000, 1000, "salt"), "#VALUE!", ("salt",)),
        (("INJECTION_STRENGTH", 0.05, 0.05), "#NUM!", ("target", "105 %", "26.43 %", "gain of at least 23.34 %")),
        (("INJECTION_STRENGTH", 0.001, 0.1, 0.005), "#NUM!", ("target", "0.4545 %", "0.4546 %")),
        (("INJECTION_STRENGTH", 0.01, 0), "#NUM!", ("gain", "above 0")),
        (("INJECTION_STRENGTH", 0.01, 10), "#NUM!", ("gain", "write 10%")),
        (("IN_PRODUCT", 5, 0.1), "#NUM!", ("share", "write 5%")),
        (("YIELD", 0, 100), "#NUM!", ("before", "above 0")),
        (("GAIN", 1000, None), "#NUM!", ("after", "blank")),
        (("WATER_PHASE_SALT", 3.5, 0.7), "#NUM!", ("salt", "write 3.5%")),
        (("WATER_PHASE_SALT", 0.5, 0.7), "#NUM!", ("salt", "100 %", "30 %")),
        (("WATER_PHASE_SALT", 0.02, 0), "#NUM!", ("moisture", "above 0")),
        (("ABSORBED", 1000, 0, 0.06, 0.05), "#NUM!", ("water", "above 0")),
        (("ABSORBED", 1000, 2000, 6, 0.05), "#NUM!", ("start_strength", "write 6%")),
        (("ABSORBED", 1000, 1000, 0.6, 0.05), "#NUM!", ("start_strength", "at most 35.92 % of the water")),
        (("ABSORBED", 1000, 1000, 0.3, 0.5), "#NUM!", ("reading", "at most 35.92 % of the water")),
        (("WATER_PHASE_SALT", 0.9, 0.1), "#NUM!", ("salt", "at most the moisture, 10 %", "wrong way round")),
        (("WATER_PHASE_SALT", "65%", "2.5%"), "#NUM!", ("salt", "at most the moisture, 2.5 %")),
        (("ABSORBED", 1000, 2000, 0.06, 0.05, -1), "#NUM!", ("gain", "above")),
        (("EDIBLE", 1000, "whole chiken"), "#N/A", ("product", "whole chiken", '"whole chicken"')),
        (("EDIBLE", 1000), "#VALUE!", ("product", "missing")),
        (("EDIBLE", 1000, 7), "#VALUE!", ("product",)),
        (("EDIBLE", "1 L", "duck"), "#VALUE!", ("weight",)),
        (("EDIBLE", True, "duck"), "#VALUE!", ("weight",)),
    ],
)
def test_wrong_input_says_what_is_wrong(cells, cell, says):
    assert call(*cells) == cell
    reason = why(*cells)
    for part in says:
        assert part in reason


def test_columns_are_answered_cell_by_cell():
    column = [[1000], [2000], [-5]]
    assert call("BRINE_EDIBLE", column, "whole duck") == [[pytest.approx(720)], [pytest.approx(1440)], ["#NUM!"]]
    row = call("BRINE_EQUILIBRIUM_SALT", [[1000, 2000]], 1000, [[0.01], [0.02]])
    assert row == [[pytest.approx(20), pytest.approx(30)], [pytest.approx(40), pytest.approx(60)]]


def test_a_blank_optional_cell_is_nought_and_an_empty_text_is_not_given():
    assert call("BRINE_EQUILIBRIUM_SALT", 2000, 1000, 0.015, None, None) == 45.0
    assert call("BRINE_EQUILIBRIUM_SALT", 2000, 1000, 0.015, "", "") == 45.0
