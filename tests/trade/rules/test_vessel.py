"""The vessel holds what goes into it."""

from __future__ import annotations

import re

import pytest
from each import each

from tests.trade.cases import found, said


@pytest.mark.parametrize("needed", ["8 L", "8.037 L", "11.1 qt", "27.77 L"])
def test_a_vessel_as_large_as_the_finding_says_is_large_enough(needed: str) -> None:
    """What is said to be taken up is rounded up: typed as the vessel, in either unit, nothing is found."""
    row = {"vessel": "5 L", "water": needed, "weight": "3 kg", "strength": 0.05}
    told = re.search(r"take about (\S+ \S+) / (\S+ \S+);", said(row))
    assert told is not None
    for vessel in told.groups():
        assert "vessel-full" not in found({**row, "vessel": vessel})


@pytest.mark.parametrize(("celsius", "full"), [(4.0, False), (20.0, True), (None, True)])
def test_a_cold_brine_takes_up_less_room(celsius: float | None, full: bool) -> None:
    """A kilogram of water fills 1000.03 mL at 4 °C and 1001.8 mL at 20 °C (density by Kell, 1975)."""
    row = {"water": 1000.0, "vessel": "1001 mL", "bath temperature": celsius}
    assert ("vessel-full" in found(row)) is full


def test_a_brine_at_0_degrees_takes_up_the_room_it_has_there() -> None:
    """10 % of the solution weighs 1.0768 g/mL at 0 °C and 1.0707 at 20 (Kaufmann): 1031.9 or 1037.8 mL."""
    row = {"water": 1000.0, "strength": 1.0 / 9.0, "vessel": "1035 mL"}
    assert "vessel-full" not in found({**row, "bath temperature": 0.0})
    assert "vessel-full" in found({**row, "bath temperature": 20.0})
    assert "vessel-full" in found(row)


def test_a_material_of_no_list_is_told() -> None:
    known = ["stainless steel", "Edelstahl", "GN pan", "oak barrel", "food-grade plastic", "vac bag", "unglazed clay",
             "PP", "zinc", "aluminium", "bin bag", "glazed majolica", "stainles steel"]  # fmt: skip
    assert [text for text in known if "vessel-unknown" in found({"vessel material": text})] == []
    assert "vessel-unknown" in found({"vessel material": "blue tub"})
    assert "vessel-not-food-grade" in found({"vessel material": "old oil drum"})


def test_what_is_said_not_to_be_harmless_is_not() -> None:
    row = {"product": "cucumber", "acid": "vinegar"}
    for material, rule in (("copper, not stainless", "vessel-toxic"), ("glazed, not lead free", "vessel-glaze")):
        assert rule in found({**row, "vessel material": material})
        assert rule not in found({**row, "vessel material": material.replace("not ", "")})


@each(
    ("rule", "material"),
    [
        ("vessel-toxic", "copper pot with stainless lid"), ("vessel-toxic", "copper pot, stainless-steel cover"),
        ("vessel-toxic", "stainless tub; copper bowl"), ("vessel-toxic", "brass and stainless"),
        ("vessel-reactive", "aluminium with a stainless ladle"), ("vessel-reactive", "enamel, chipped"),
        ("vessel-reactive", "enamelled pot, the rim is chipped"),
    ],
)  # fmt: skip
def test_stainless_steel_beside_it_makes_no_metal_harmless(rule: str, material: str) -> None:
    assert rule in found({"vessel material": material})


@each(
    "material",
    ["stainless with aluminium core", "stainless, copper bottom", "stainless-lined copper", "stainless, aluminium-clad",
     "not aluminium", "stainless steel, not copper", "enamel, not chipped", "enamel", "aluminium-free plastic"],
)  # fmt: skip
def test_metal_that_the_brine_does_not_touch_is_not_told(material: str) -> None:
    told = found({"vessel material": material})
    assert "vessel-toxic" not in told
    assert "vessel-reactive" not in told
