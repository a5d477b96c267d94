"""How food is packed: what keeps air away is dangerous by many names, and cold, frost and an airlock are heard too.

Food Code 3-502.12, read as a state has taken it over: at 5 °C or below without air only what is sour or dry, or has
germs enough of its own, as raw meat, raw poultry and raw vegetables; fish only frozen before, in and after. 21 CFR
114.3(b), read: what is stored and sold under refrigeration is left out of the rules on acidified food.
"""

from __future__ import annotations

from each import each

from brinecalc.trade import packs
from brinecalc.trade import row_reading as rows
from tests.trade.cases import SMOKED, found

AIRLESS = """
    vacuum | vac pac | vaccum bag | sous vide bag | MAP tray | CAP | controlled atmosphere | modified atmosphere tray
    ROP | skin pack | skin-packed | nitrogen flushed | nitrogen-flushed pouch | CO2 | flushed with carbon dioxide
    gas flushed | in oil | tub, under oil | in olive oil | sealed pouch | heat-sealed bag | jar | tin | without air
"""
AIRY = ["tray", "paper", "tub", "open box", "unsealed box", "oil-proof paper", "box with a cap"]


@each("packaging", [p.strip() for line in AIRLESS.strip().split("\n") for p in line.split("|")])
def test_smoked_fish_is_without_air_by_many_names(packaging: str) -> None:
    """Maine's rules for smoked fish, 01-001 chapter 359, read: 3.5 % without air, 2.5 % in air."""
    hits = found({**SMOKED, "packaging": packaging, "water phase salt": 0.028})
    assert "fish-salt-low" in hits
    assert "fish-salt-air" not in hits


@each("packaging", AIRY)
def test_what_lets_air_in_is_held_to_the_salt_for_air(packaging: str) -> None:
    assert "fish-salt-air" in found({**SMOKED, "packaging": packaging, "water phase salt": 0.024})
    assert not {"fish-salt-air", "fish-salt-low"} & set(
        found({**SMOKED, "packaging": packaging, "water phase salt": 0.028})
    )


# (product, packaging, °C, whether it is warned of)
WITHOUT_AIR = [
    ("pork chop", "vacuum", None, True), ("pork chop", "vacuum", 5.0, False), ("pork chop", "vacuum", 5.2, True),
    ("chicken breast", "modified atmosphere", 4.0, False), ("pork chop", "vacuum, frozen", None, False),
    ("chicken breast", "hermetically sealed jar", 4.0, True), ("chicken breast", "jar", 3.0, False),
    ("duck breast", "in oil", 4.0, True), ("ham leg", "smoked, vacuum", 4.0, True),
    ("ham leg", "smoked, vacuum", 3.0, False),
    ("cod fillet", "vacuum", 2.0, True), ("cod fillet", "jar in oil", 4.0, True),
    ("peeled shrimp", "vacuum", 1.0, True),
    ("cod fillet", "vacuum, frozen", None, False), ("cod fillet", "vacuum, previously frozen", 2.0, True),
    ("cod fillet", "vacuum, not frozen", 2.0, True), ("tuna loin", "vacuum", 2.0, True),
    ("firm tofu", "vacuum", 4.0, True), ("firm tofu", "vacuum", 3.3, False), ("boiled egg", "vacuum", 4.0, True),
    ("mozzarella", "skin pack", 4.0, True), ("unicorn loin", "vacuum", 4.0, True), ("feta", "vacuum", 4.0, False),
    ("peeled garlic", "vacuum", 5.0, False),
    ("peeled garlic", "vacuum", 5.2, True),
    ("peeled garlic", "vacuum", None, True),
    ("lemons", "vacuum", None, False),
    ("carrot", "in oil, fridge", None, True),
    ("carrot", "in oil, fridge", 3.0, False),
    ("cucumber", "vacuum", 20.0, False), ("boiled egg", "jar, refrigerated", 4.0, True),
    ("salmon fillet", "sealed tub", 2.0, False), ("mozzarella", "sealed tub, refrigerated", 4.0, False),
    ("peeled shrimp", "airtight box", 2.0, True), ("peeled shrimp", "sealed bag", 2.0, False),
]  # fmt: skip


@each(("product", "packaging", "celsius", "warned"), WITHOUT_AIR)
def test_what_is_packed_without_air_is_kept_as_cold_as_its_kind_asks(
    product: str, packaging: str, celsius: float | None, warned: bool
) -> None:
    row = {"product": product, "packaging": packaging, "bath temperature": celsius}
    assert ("packed-without-air" in found(row)) is warned


def test_cooked_meat_has_no_germs_of_its_own_to_hold_botulism_back() -> None:
    row = {"product": "chicken breast", "packaging": "vacuum", "bath temperature": 4.0}
    assert "packed-without-air" in found({**row, "treatment": "poached"})
    assert "packed-without-air" in found({**row, "note": "fully cooked"})
    assert "packed-without-air" not in found({**row, "treatment": "not cooked"})
    assert "packed-without-air" not in found({**row, "note": "roasted on Sunday"})


def test_smoked_fish_with_its_salt_is_kept_cold_and_any_other_frozen() -> None:
    row = {**SMOKED, "packaging": "vacuum", "bath temperature": 3.0}
    assert "packed-without-air" not in found({**row, "water phase salt": 0.035})
    assert "packed-without-air" in found({**row, "water phase salt": 0.034})
    assert "packed-without-air" in found(row)


def test_frost_in_place_of_salt_is_told_to_last() -> None:
    row = {**SMOKED, "water phase salt": 0.028}
    assert {"fish-salt-frozen", "frozen-without-air"} <= set(found({**row, "packaging": "vacuum, frozen"}))
    for packaging in ("vacuum, thawed from frozen", "vacuum, never frozen", "vacuum, once frozen"):
        assert "fish-salt-low" in found({**row, "packaging": packaging})


VINEGAR = {"acid": "vinegar", "acid level": 1.0}
PICKLE = {"product": "sliced cucumber", **VINEGAR}
# (row, worst that its packaging is found to be)
CLOSED = [
    ({**PICKLE, "packaging": "jar, refrigerated", "bath temperature": 4.0}, "sealed-cold"),
    ({**PICKLE, "packaging": "jar, refrigerated", "bath temperature": 85.0}, "sealed-cold"),
    ({"product": "carrot", "packaging": "jar, refrigerated 4 °C"}, "sealed-cold"),
    ({"product": "napa cabbage", "packaging": "jar in fridge"}, "sealed-cold"),
    ({"product": "pickled egg", "packaging": "jar", "bath temperature": 3.0}, "sealed-cold"),
    ({"product": "pickled egg", **VINEGAR, "packaging": "jar", "bath temperature": 4.0}, "sealed-cold"),
    ({"product": "pickled egg", "packaging": "jar", "bath temperature": 5.2}, "sealed-low-acid"),
    ({"product": "carrot", "packaging": "jar"}, "sealed-low-acid"),
    ({"product": "carrot", "packaging": "jar, not refrigerated"}, "sealed-low-acid"),
    ({"product": "carrot", "packaging": "jar, unrefrigerated", "bath temperature": 4.0}, "sealed-low-acid"),
    ({"product": "carrot", "packaging": "jar, refrigerate after opening"}, "sealed-low-acid"),
    ({"product": "carrot", "packaging": "shelf jar, refrigerated", "bath temperature": 4.0}, "sealed-low-acid"),
    ({"product": "carrot", "packaging": "in oil", "bath temperature": 20.0}, "sealed-low-acid"),
    ({"product": "carrot", "packaging": "in oil", "bath temperature": 3.0}, "sealed-cold"),
    ({"product": "pork chop", "packaging": "unchilled"}, "sealed-low-acid"),
    ({"product": "cabbage", "packaging": "sealed jar with airlock", "bath temperature": 20.0}, None),
    ({"product": "cabbage", "packaging": "jar with airlock, room temperature"}, None),
    ({"product": "cabbage", "packaging": "jar with airlock, on the shelf"}, "sealed-low-acid"),
    ({"product": "cabbage", "packaging": "sealed jar, no airlock"}, "sealed-low-acid"),
    ({"product": "cabbage", "packaging": "sealed jar in a cloth bag"}, "sealed-low-acid"),
    ({"product": "pickled egg", "packaging": "jar with airlock", "bath temperature": 20.0}, "sealed-low-acid"),
    ({"product": "pork chop", "packaging": "airlock, room temperature"}, "sealed-low-acid"),
]  # fmt: skip


@each(("row", "worst"), CLOSED)
def test_a_closed_jar_is_for_the_cold_and_an_airlock_is_no_seal(row: dict[str, object], worst: str | None) -> None:
    told = {"sealed-low-acid", "sealed-cold", "packed-without-air"} & set(found(row))
    assert told == ({worst} if worst else set())


def test_a_ferment_in_an_open_vessel_stands_in_a_room() -> None:
    """Air keeps botulism out of an open crock, and souring out of what it ferments: judgement of custom."""
    kraut = {"product": "cabbage", "weight": "10 kg", "salt": "220 g", "bath temperature": 18, "soak hours": 336}
    for packaging in ("crock, room temperature", "barrel in the cellar", "bucket, ambient"):
        assert found({**kraut, "packaging": packaging}) == ["ferment-ph"], packaging
    for packaging in ("sealed crock, room temperature", "jar in the cellar", "vacuum bag in a tub, ambient"):
        assert "sealed-low-acid" in found({**kraut, "packaging": packaging}), packaging
    assert "sealed-low-acid" in found({"product": "pork chop", "packaging": "tub in the cellar"})


def test_oil_is_taken_back_by_a_word_right_beside_it_alone() -> None:
    for text in ("garlic in oil, oil proof lid", "garlic in oil, no salt", "in oil under oil paper"):
        assert packs.is_in_oil(rows.read(["packaging"], [text])), text
    for text in ("no oil", "oil-free", "oil proof paper", "without any oil", "olives"):
        assert not packs.is_in_oil(rows.read(["packaging"], [text])), text
