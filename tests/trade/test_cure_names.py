"""The strength of a curing salt that stands in its name, and names that are those of nitrite itself."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.trade import named, own
from tests.trade.cases import CURED, found, of, said

WRITTEN = [
    ("sodium nitrite 10 %", 0.1, 0.0),
    ("nitrite 20%", 0.2, 0.0),
    ("NaNO2 99,5 %", 0.995, 0.0),
    ("pure nitrite 100 %", 1.0, 0.0),
    ("curing salt 10 %", 0.1, 0.0),
    ("curing salt 12 %", 0.12, 0.0),  # and no misspelt No. 2
    ("curing salt 0,7 %", 0.007, 0.0),
    ("Curing salt (6.25 per cent)", 0.0625, 0.0),
    ("6.25 % curing salt", 0.0625, 0.0),
    ("nitrite salt 0.5-0.6 %", 0.006, 0.0),
    ("nitrite salt 0.5 % to 0.6 %", 0.006, 0.0),
    ("93.75 % salt, 6.25 % nitrite, mixed", 0.0625, 0.0),
    ("99.5 % sea salt with 0.5 pct nitrite", 0.005, 0.0),
    ("curing salt no. 1 0.5 %", 0.0625, 0.0),  # half a per cent of the meat, perhaps; never less than its grade
    ("curing salt no. 1 8 %", 0.08, 0.0),
    ("cure #2 10 %", 0.1, 0.04),
    ("saltpetre 50 %", 0.0, 0.5),
    ("nitrate 20 %", 0.0, 0.2),
    ("grandma's cure of nitrite and nitrate 5 %", 0.05, 0.05),
    ("cultured celery powder 2 %", 0.02, 0.0),
    ("pinc salt 6.25 %", 0.0625, 0.0),
]


@each(("name", "nitrite", "nitrate"), WRITTEN)
def test_a_strength_in_the_name_is_read(name: str, nitrite: float, nitrate: float) -> None:
    made = named.find(name)
    assert made.is_cure
    assert made.is_known
    assert made.cure is not None
    assert (made.cure.nitrite, made.cure.nitrate) == pytest.approx((nitrite, nitrate), rel=1e-12)


@pytest.mark.parametrize("name", ["house curing salt", "100 % natural cure", "nitrite-free celery rub", "0 % cure"])
def test_a_curing_salt_without_a_strength_has_none(name: str) -> None:
    assert named.find(name).is_cure
    assert named.find(name).cure is None


@each("name", ["vinegar 7 %", "sea salt 99 %", "garlic 5 %", "cure accelerator 5 %", "honey 80 %"])
def test_a_strength_makes_nothing_a_curing_salt(name: str) -> None:
    assert named.find(name).cure is None


def test_ones_own_curing_salt_may_carry_its_strength() -> None:
    own.extend("name,role,water,sugars,sodium\nHouse pink dust,cure,0,0,38%\n")
    try:
        assert named.find("house pink dust 5 %").cure.nitrite == pytest.approx(0.05)
    finally:
        own.forget()


ITSELF = [
    "sodium nitrit",
    "food grade sodium nitrite",
    "nitrite powder",
    "sodium nitrite salt",
    "NaNO2 crystals",
    "E250",
]


@each("name", ITSELF)
@each("heading", ["cure", "cure name", "ingredient"])
def test_nitrite_itself_stops_the_batch_under_any_heading_and_name(name: str, heading: str) -> None:
    assert named.find(name).is_pure_nitrite
    amount = {"cure": None} if heading == "ingredient" else {}
    assert "pure-nitrite" in found({**CURED, **amount, heading: name, "level": "2 g"})


@pytest.mark.parametrize("name", ["nitrite mix", "salt with sodium nitrite", "curing salt (E250)", "nitrited salt"])
def test_a_mix_is_not_taken_for_nitrite_itself(name: str) -> None:
    assert not named.find(name).is_pure_nitrite
    assert "pure-nitrite" not in found({**CURED, "cure name": name})


@pytest.mark.parametrize("name", ["sodium nitrite 10 %", "nitrite 5%", "E249 6.25 %", "sodium nitrite 99 %"])
def test_nitrite_itself_with_a_figure_and_no_amount_stops_the_batch(name: str) -> None:
    """The figure may be its strength, or how much of it is meant."""
    (hit,) = of("pure-nitrite", {"weight": 5000.0, "cure method": "dry", "cure": name})
    assert hit.sentence.endswith("write the share on its label under cure strength.")


def test_a_strength_in_the_name_is_reckoned_with() -> None:
    """12 g of 10 % in 5 kg is 240 ppm, above the 200 of dry-cured bacon; of 8 % it is 192."""
    row = {"weight": 5000.0, "cure method": "dry", "kind": "bacon", "cure": 12.0, "edible weight": 5000.0}
    assert "Ingoing nitrite is 240 ppm" in said({**row, "cure name": "sodium nitrite 10 %"})
    assert said({**row, "cure name": "curing salt 8 %"}) == "ok"
    assert "A cure with 12 % nitrite" in said({**row, "cure name": "curing salt 12 %"})


def test_of_a_strength_in_the_name_and_one_beside_it_the_larger_counts() -> None:
    row = {"weight": 5000.0, "cure method": "dry", "kind": "bacon", "cure": 12.0, "cure name": "curing salt 10 %"}
    assert "nitrite-over-limit" in found({**row, "cure strength": 0.0625})
    assert "nitrite-over-limit" in found({**row, "cure name": "curing salt 8 %", "cure strength": 0.1})


def test_whatever_is_weighed_out_as_curing_salt_is_one() -> None:
    """Else nothing would keep a mix that no table knows from acid, and nobody would ask how it gets in."""
    row = {"weight": 5000.0, "cure": 12.0, "cure name": "the butcher's mix"}
    assert "nitrite-no-method" in found(row)
    assert "nitrite-cola" in found({**row, "liquid": "cola"})
    assert "cure-not-reckoned" in found({**row, "cure method": "dry"})
    assert "nitrite-over-limit" in found({**row, "cure method": "dry", "kind": "bacon", "cure strength": 0.1})
