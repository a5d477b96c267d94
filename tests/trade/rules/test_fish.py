"""Food that is packed: what nobody may take for kept."""

from __future__ import annotations

import pytest
from each import each

from tests.trade.cases import found


@pytest.mark.parametrize("level", [0.0001, 0.01, 0.9])
def test_vinegar_in_the_brine_never_releases_sealed_food(level: float) -> None:
    """21 CFR 114.3: the equilibrium pH of the food counts, not that of the fresh brine."""
    row = {"product": "cucumber", "water": 1000.0, "strength": 0.05, "ingredient": "vinegar", "level": level}
    assert "sealed-low-acid" in found({**row, "packaging": "sealed jar"})
    assert "sealed-low-acid" in found({**row, "packaging": "sealed jar", "ph": 4.7})
    assert "sealed-low-acid" not in found({**row, "packaging": "sealed jar", "ph": 4.6})


@each(
    ("product", "ppm", "limits"),
    [
        ("salmon fillet", 200.0, (True, True)), ("salmon fillet", 201.0, (False, True)), ("lox", 600.0, (False, True)),
        ("sockeye salmon", 12.5, (True, True)), ("sablefish", 201.0, (False, True)), ("black cod", 200.0, (True, True)),
        ("shad fillet", 201.0, (False, True)), ("tuna loin", 10.0, (True, True)), ("albacore", 11.0, (False, True)),
        ("smoked chub", 99.0, (False, True)), ("smoked chub", 100.0, (True, True)), ("chub", 201.0, (False, True)),
        ("cod fillet", 50.0, (True, False)), ("trout", 150.0, (True, False)), ("peeled shrimp", 20.0, (True, False)),
        ("house eel", 150.0, (True, False)), ("a fish of the day", 10.0, (True, False)),
        ("pork sausage chub", 50.0, (True, True)), ("turkey with oysters", 150.0, (True, True)),
        ("unicorn loin", 150.0, (True, True)),
    ],
)  # fmt: skip
def test_each_fish_has_its_own_limit_of_nitrite_or_may_carry_none(
    product: str, ppm: float, limits: tuple[bool, bool]
) -> None:
    """21 CFR 172.175: salmon, sablefish, shad 200 ppm, tuna 10; 172.177: chub 100 to 200; no other fish."""
    row = {"product": product, "weight": 5000.0, "cure": ppm * 5000.0 / 0.0625 / 1e6, "cure method": "dry"}
    hits = found(row)
    assert ("cure-fish-limit" not in hits, "cure-fish-not-listed" not in hits) == limits
    assert not {"cure-fish", "cure-fish-limit", "cure-fish-not-listed"} & set(found({**row, "cure": 0}))


def test_nitrate_is_for_three_fish_and_up_to_500_ppm() -> None:
    """21 CFR 172.170: 500 ppm of sodium nitrate in smoked sablefish, salmon and shad."""
    row = {"weight": 5000.0, "cure name": "saltpetre", "cure method": "dry"}
    for product, grams, fits in (("salmon", 2.5, True), ("salmon", 2.51, False), ("tuna", 0.01, False)):
        assert ("cure-fish-limit" not in found({**row, "product": product, "cure": grams})) is fits


def test_a_fish_that_lies_in_its_pickle_is_held_to_its_own_limit_too() -> None:
    """15 g of 6.25 % in 5 kg of tuna and 5 kg of pickle is 94 ppm; of salmon it would be allowed."""
    row = {"weight": 5000.0, "pickle": 5000.0, "cure": 15.0, "cure method": "pick-up", "gain": 0.02, "soak hours": 30}
    assert "cure-soaks-on" in found({**row, "product": "tuna"})
    assert "cure-soaks-on" not in found({**row, "product": "salmon"})


@each(
    ("product", "ppm", "least"),
    [
        ("salmon fillet", 12.5, 0.035), ("salmon fillet", 99.0, 0.035), ("salmon fillet", 100.0, 0.03),
        ("salmon fillet", 200.0, 0.03), ("salmon fillet", 201.0, 0.035), ("chub", 150.0, 0.035), ("tuna", 150.0, 0.035),
        ("trout", 150.0, 0.035), ("salmon fillet", None, 0.035),
    ],
)  # fmt: skip
def test_less_salt_will_do_only_with_100_to_200_ppm_of_nitrite(product: str, ppm: float | None, least: float) -> None:
    """Maine's rules, chapter 359, read: 3.0 % with 100 to 200 ppm, else 3.5 %; 21 CFR 172.177: chub 3.5 %."""
    row = {"product": f"{product}", "packaging": "vacuum smoked", "weight": 5000.0, "cure method": "dry"}
    row["cure"] = "pink salt" if ppm is None else ppm * 5000.0 / 0.0625 / 1e6
    assert "fish-salt-low" not in found({**row, "water phase salt": least})
    assert "fish-salt-low" in found({**row, "water phase salt": least - 0.0005})
