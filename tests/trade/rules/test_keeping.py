"""How long food keeps in its brine and after it, what salts it for weeks, and strips that are cured overnight."""

from __future__ import annotations

from each import each

from tests.trade.cases import CURED, found

COLD = {"bath temperature": 3.0}
# (row, whether it is told to lie too long)
LONG = [
    ({"product": "ham leg", "method": "dry salted", "soak hours": "20 d"}, False),
    ({"product": "ham leg", "method": "dry salted", "soak hours": "20 d", "target": 0.03}, True),  # 4.8 % of its water
    ({"product": "ham leg", "method": "dry salted", "soak hours": "20 d", "target": 0.032}, False),
    ({"product": "ham leg", "method": "dry", "soak hours": "20 d", "weight": 10000.0, "salt": 250.0}, True),
    ({"product": "ham leg", "method": "dry", "soak hours": "20 d", "weight": 10000.0, "salt": 400.0}, False),
    ({"product": "chicken breast", "method": "dry salted", "soak hours": "10 d"}, True),
    ({"product": "cod fillet", "strength": 0.3, "soak hours": "10 d"}, False),
    ({"product": "herring fillet", "strength": 0.26, "soak hours": "30 d"}, False),
    ({"product": "cod fillet", "strength": 0.099, "soak hours": "10 d"}, True),
    ({"product": "cod fillet", "strength": 0.1, "soak hours": "10 d"}, False),
    # 20 % in a kilogram of water on 4 kg of cod, which bring 3.25 kg of water: 4.7 % of all of it
    ({"product": "cod fillet", "strength": 0.2, "water": 1000.0, "weight": 4000.0, "soak hours": "10 d"}, True),
    ({"product": "cod fillet", "strength": 0.3, "water": 4000.0, "weight": 4000.0, "soak hours": "10 d"}, False),
    ({"product": "cod fillet", "strength": 0.05, "water phase salt": 0.12, "soak hours": "10 d"}, False),
    ({"product": "ham leg", "method": "injected", "rest hours": 500.0}, True),
    ({"product": "ham leg", "method": "injected", "soak hours": 100.0, "rest hours": 68.0}, False),
    ({"product": "ham leg", "method": "injected", "soak hours": 100.0, "rest hours": 69.0}, True),
    ({**CURED, "product": "ham leg", "rest hours": 500.0}, False),
    ({"product": "carrot", "rest hours": 500.0}, False),
    ({"product": "head cheese", "strength": 0.05, "soak hours": "20 d"}, True),
    ({"product": "bobcat", "strength": 0.05, "soak hours": "10 d"}, True),
    (
        {"product": "house special", "strength": 0.05, "soak hours": "10 d"},
        True,
    ),  # known to nobody: taken as perishable
    ({"product": "house special", "strength": 0.05, "soak hours": "6 d"}, False),
    ({"product": "aged feta", "strength": 0.08, "soak hours": "20 d"}, False),
    ({"strength": 0.05, "soak hours": "20 d"}, False),
    ({"product": "hard-boiled egg", "strength": 0.05, "soak hours": "20 d"}, True),
    ({"product": "hard-boiled egg", "strength": 0.05, "soak hours": "20 d", "acid": "vinegar"}, False),
    ({"product": "firm tofu", "strength": 0.05, "soak hours": "20 d"}, True),
    ({"product": "mozzarella", "strength": 0.05, "soak hours": "20 d"}, True),
    ({**CURED, "product": "ham leg", "cure": 6.3, "rest hours": 500.0}, True),  # 39.4 ppm hardly protects
    ({**CURED, "product": "ham leg", "cure": 6.4, "rest hours": 500.0}, False),
]


@each(("row", "told"), LONG)
def test_seven_days_are_for_what_only_the_cold_keeps(row: dict[str, object], told: bool) -> None:
    """Food Code 3-501.17, read; 5 % of the water stops the botulism of the cold (growth limits, second-hand)."""
    assert ("soak-long" in found({**row, **COLD})) is told


CURE = {"weight": 1000.0, "water": 4000.0, "cure": 10.0, "cure method": "equilibrium"}


@each(
    ("row", "is_stop"),
    [
        ({"product": "turkey breast", "method": "equilibrium", "strength": 0.02, "soak hours": "19.6 days"}, True),
        ({"product": "chicken breast", "soak hours": 1000.0}, True),
        ({"product": "cod fillet", "strength": 0.05, "soak hours": "15 d"}, True),
        ({"product": "cod fillet", "strength": 0.3, "soak hours": "15 d"}, False),
        ({"product": "peeled shrimp", "strength": 0.05, "soak hours": "10 d", "rest hours": "5 d"}, True),
        ({"product": "pheasant", "strength": 0.05, "soak hours": "20 d"}, True),
        ({"product": "duckling breast", "strength": 0.05, "soak hours": "20 d"}, True),
        ({"product": "duck breast", "method": "dry salted", "soak hours": "1 d", "rest hours": "20 d"}, False),
        ({"product": "duck breast", "method": "dry salted", "soak hours": "20 d"}, True),
        ({**CURE, "product": "chicken breast", "soak hours": 1000.0}, False),
        ({**CURE, "product": "chicken breast", "soak hours": 1000.0, "bath temperature": None}, True),
        ({**CURE, "cure": 0.1, "product": "chicken breast", "soak hours": 1000.0}, True),  # 1 ppm keeps nothing
        (
            {**CURE, "product": "salmon fillet", "soak hours": 600.0},
            True,
        ),  # of fish it is for smoked fish, and the cold
        ({"product": "ham leg", "method": "dry salted", "soak hours": "30 d"}, False),
        ({"product": "pork belly", "soak hours": "30 d"}, False),
        ({**CURE, "product": "beef brisket", "soak hours": "30 d", "bath temperature": None}, False),
        ({"product": "duck egg", "strength": 0.05, "soak hours": "30 d"}, False),
        ({"product": "firm tofu", "strength": 0.05, "soak hours": "30 d"}, False),
    ],
)
def test_weeks_of_raw_poultry_or_fish_stop(row: dict[str, object], is_stop: bool) -> None:
    """Twice the seven days of Food Code 3-501.17: a judgement."""
    told = found({**COLD, **row})
    assert ("soak-far-too-long" in told) is is_stop
    assert not {"soak-far-too-long", "soak-long"} <= set(told)


def test_dry_salting_by_custom_needs_the_cold() -> None:
    row = {"product": "ham leg", "method": "dry salted", "soak hours": "20 d"}
    assert "soak-long" in found(row)
    assert "soak-long" in found({**row, "bath temperature": 8.0})


def test_salted_goods_are_no_slip_of_the_hours() -> None:
    assert "over-cap" not in found({"product": "cod fillet", "strength": 0.3, "soak hours": "10 d"})
    assert "over-cap" in found({"product": "cod fillet", "strength": 0.3, "soak hours": 10.0})
    assert "over-cap" in found({"product": "chicken breast", "strength": 0.12, "soak hours": "10 d"})


@each(
    ("row", "told"),
    [
        ({"product": "fresh white cheese", "strength": 0.22}, False),
        ({"product": "feta"}, False),
        ({"product": "cucumber", "strength": 0.05}, False),
        ({"product": "mozzarella", "strength": 0.05}, True),
        ({"product": "mozzarella", "strength": 0.15}, False),
        ({"product": "herring fillet", "strength": 0.26, "soak hours": "21 d"}, False),
        ({"product": "herring fillet", "strength": 0.26, "soak hours": "2 d"}, True),
        ({"strength": 0.05}, True),
    ],
)
def test_a_standing_brine_is_as_old_as_what_it_keeps(row: dict[str, object], told: bool) -> None:
    assert ("brine-old" in found({**row, "brine age": "21 d"})) is told


@each(
    ("row", "told"),
    [
        ({"thickness": 5.0, "pieces": 20.0, "weight": 1000.0}, False),  # 97 mm across
        ({"thickness": 5.0, "pieces": 20.0, "weight": 20000.0}, True),  # 436 mm across
        ({"thickness": 4.0}, True),
        ({"thickness": 4.0, "treatment": "jerky"}, False),
        ({"thickness": 4.0, "note": "in strips"}, False),
        ({"thickness": 1.9, "note": "in strips"}, True),
    ],
)
def test_a_strip_is_believed_where_something_bears_it_out(row: dict[str, object], told: bool) -> None:
    assert ("thickness-odd" in found({"product": "lean beef", **row})) is told


@each(
    ("thickness", "hours", "told"),
    [
        (5.0, 24.0, False), (5.0, 12.0, False), (5.0, 11.9, True),  # 72 h × (5 / 12.7)² is 11.2 h: overnight
        (10.0, 44.6, True), (10.0, 44.7, False), (12.7, 71.9, True), (12.7, 72.0, False), (25.4, 95.9, True),
    ],
)  # fmt: skip
def test_the_shortest_custom_is_of_hams_and_less_for_strips(thickness: float, hours: float, told: bool) -> None:
    row = {**CURED, "product": "lean beef", "note": "strips", "thickness": thickness, "soak hours": hours}
    assert ("cure-too-short" in found(row)) is told


@each(
    ("row", "told"),
    [
        ({"product": "chicken thigh", "bath temperature": 5.0}, True),
        ({"product": "chicken thigh", "bath temperature": 5.0, "rules": "US"}, False),
        ({"product": "chicken thigh", "bath temperature": 5.2}, False),  # which is warm by every rule
        ({"product": "guinea fowl breast", "bath temperature": 5.0}, True),
        ({"product": "minced pork", "bath temperature": 2.1}, True),
        ({"product": "minced pork", "bath temperature": 2.0}, False),
        ({"product": "minced garlic", "bath temperature": 4.5}, False),
        ({"product": "pork chop", "bath temperature": 4.5}, False),
    ],
)
def test_poultry_and_mince_are_kept_colder_by_eu_rules(row: dict[str, object], told: bool) -> None:
    """Regulation (EC) 853/2004, annex III, section V, at second hand: poultry at 4 °C, minced meat at 2 °C."""
    assert ("cold-eu" in found({"rules": "EU", **row})) is told


@each(
    ("row", "told"),
    [
        ({"product": "cabbage", "vessel": "terracotta crock"}, True),
        ({"product": "cabbage", "vessel material": "unglazed terracotta"}, False),
        ({"product": "cabbage", "vessel material": "stoneware crock"}, False),
        ({"product": "pork chop", "vessel material": "earthenware"}, False),
        ({"product": "pork chop", "vessel material": "earthenware", "acid": "vinegar", "acid level": 0.2}, True),
        ({"product": "pork chop", "vessel material": "earthenware", "ph": 4.7}, True),
    ],
)
def test_acid_in_a_glaze_that_may_hold_lead(row: dict[str, object], told: bool) -> None:
    assert ("vessel-glaze" in found(row)) is told


def test_honey_is_kept_from_babies_and_baby_carrots_are_none() -> None:
    assert "honey-infant" in found({"product": "honey", "note": "infants"})
    assert "honey-infant" in found({"sweetener": "acacia honey", "kind": "baby food"})
    assert "honey-infant" not in found({"product": "baby carrots", "sweetener": "honey"})
    assert "honey-infant" not in found({"product": "pork chop", "note": "for infants"})
