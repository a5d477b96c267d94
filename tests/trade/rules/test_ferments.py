"""A vegetable that sours by itself: with enough salt, and not too warm."""

from __future__ import annotations

from each import each

from tests.trade.cases import found

DAYS = {"soak hours": 336.0, "bath temperature": 20.0}
# (row, whether its salt is too little)
SALTED = [
    ({"product": "cabbage", "weight": "10 kg", "method": "dry equilibrium", "salt": "10 g"}, True),
    ({"product": "cucumber", "strength": 0.005}, True),
    ({"product": "cucumber", "strength": 0.05}, False),
    ({"product": "cucumber", "weight": "5 kg", "water": "5 kg", "strength": 0.029}, True),  # 1.45 % of all
    ({"product": "cucumber", "weight": "5 kg", "water": "5 kg", "strength": 0.03}, False),
    ({"product": "cabbage", "method": "dry equilibrium", "target": 0.0225}, False),
    ({"product": "cabbage", "method": "dry equilibrium", "target": 0.01}, True),
    ({"product": "beetroot", "strength": 0.01}, True),
    ({"product": "cucumber", "strength": 0.005, "acid": "vinegar", "acid level": 0.5}, False),
    ({"product": "chicken breast", "strength": 0.005}, False),
    ({"product": "cabbage"}, False),
]


@each(("row", "low"), SALTED)
def test_salt_is_reckoned_on_vegetable_and_water(row: dict[str, object], low: bool) -> None:
    assert ("ferment-salt-low" in found({**row, **DAYS})) is low
    assert "ferment-salt-low" not in found({**row, **DAYS, "soak hours": 47.0})
    assert "ferment-salt-low" not in found({**row, **DAYS, "bath temperature": 4.0})


def test_only_a_reading_tells_that_a_ferment_is_sour() -> None:
    """pH 4.6, 21 CFR 114.3."""
    row = {"product": "cucumber", "strength": 0.05, **DAYS}
    assert "ferment-ph" in found(row)
    assert [ph for ph in (3.4, 4.6, 4.7, 5.5) if "ferment-ph" in found({**row, "ph": ph})] == [4.7, 5.5]
    for other in ({"bath temperature": 4.0}, {"soak hours": 24.0}, {"acid": "vinegar", "acid level": 0.5}):
        assert "ferment-ph" not in found({**row, **other})
    assert "ferment-ph" not in found({**row, "product": "chicken breast"})


@each(
    ("row", "told"),
    [
        ({"acid": "vinegar", "acid level": 0.0003}, True), ({"acid": "vinegar", "acid level": 0.001}, True),
        ({"acid": "vinegar", "acid level": 0.1}, True), ({"acid": "vinegar", "acid level": 0.5}, False),
        ({"acid": "vinegar", "acid level": 1.0}, False), ({"liquid": "vinegar"}, False), ({"acid": "vinegar"}, True),
        ({"liquid": "apple juice"}, True), ({"liquid": "beer"}, True),
        ({"acid": "baking soda", "acid level": 0.001}, True),
        ({"acid": "citric acid", "acid level": 0.001}, True), ({"acid": "citric acid", "acid level": 0.02}, False),
        ({"acid": "vinegar", "acid level": 0.5, "weight": "10 kg", "water": "1 kg"}, True),
        ({"acid": "vinegar", "acid level": 0.5, "weight": "2 kg", "water": "1 kg"}, False),
        ({"acid": "vinegar", "acid level": 0.5, "ingredient": "baking soda", "level": 0.03}, True),
        ({"acid": "vinegar", "acid level": 0.001, "ph": 4.6}, False),
        ({"acid": "vinegar", "acid level": 0.5, "ph": 4.7}, True),
    ],
)  # fmt: skip
def test_a_spoon_of_vinegar_makes_no_pickle(row: dict[str, object], told: bool) -> None:
    """Kitchens pickle in vinegar and water by halves, common practice; a thousandth of it is soon taken up."""
    hits = found({"product": "cucumber", "strength": 0.01, "soak hours": 240.0, "bath temperature": 30.0, **row})
    asked = {"ferment-warm", "ferment-ph"}
    assert asked & set(hits) == (asked if told else set())


@each(
    ("row", "untimed"),
    [
        ({}, True),
        ({"method": "dry equilibrium", "target": 0.0225}, True),
        ({"soak hours": 0.2}, False),
        ({"soak hours": 336.0}, False),
        ({"method": "gradient"}, False),
        ({"method": ""}, False),
        ({"bath temperature": None}, False),
        ({"bath temperature": 60.0}, False),
        ({"ph": 4.6}, False),
        ({"ph": 4.7}, True),
        ({"liquid": "vinegar"}, False),
        ({"product": "pork chop"}, False),
    ],
)
def test_a_vegetable_salted_to_the_end_in_the_warm_is_asked_how_long(row: dict[str, object], untimed: bool) -> None:
    told = set(
        found({"product": "cabbage", "method": "equilibrium", "strength": 0.05, "bath temperature": 20.0, **row})
    )
    assert ("ferment-time" in told) is untimed
    assert not untimed or "ferment-ph" in told


def test_warmth_is_told_and_a_hot_pickle_is_no_ferment() -> None:
    """Extension bulletin on kraut, read: 70 to 75 °F, above it kraut may become soft."""
    row = {"product": "cabbage", "strength": 0.05, "soak hours": 336.0}
    assert [c for c in (20.0, 24.0, 24.5, 38.0, 60.0) if "ferment-warm" in found({**row, "bath temperature": c})] == [
        24.5,
        38.0,
    ]
    assert "ferment-warm" not in found({**row, "bath temperature": 38.0, "liquid": "vinegar"})


@each(
    ("row", "told"),
    [
        ({"product": "firm tofu", "bath temperature": 95.0, "soak hours": 0.25}, {"brine-hot"}),
        ({"product": "boiled egg", "bath temperature": 62.0, "soak hours": 5.0}, {"brine-hot"}),
        ({"product": "egg", "bath temperature": 56.0, "soak hours": 5.0}, {"brine-warm", "brine-warm-long"}),
        ({"product": "chicken breast", "bath temperature": 62.0, "soak hours": 5.0}, {"brine-hot-raw"}),
        ({"product": "chicken breast", "bath temperature": 62.0, "note": "roasted"}, {"brine-hot-raw"}),
        ({"product": "chicken breast", "bath temperature": 75.0, "method": "poached"}, {"brine-hot"}),
        ({"product": "unicorn loin", "bath temperature": 75.0}, {"brine-hot-raw"}),
        ({"product": "chicken breast", "bath temperature": "60-65 C", "method": "poached"}, {"brine-hot"}),
        (
            {"product": "chicken breast", "bath temperature": "50 to 65 C", "method": "poached", "soak hours": 12.0},
            {"brine-warm", "brine-warm-long", "brine-warm-start"},
        ),
        (
            {"product": "chicken breast", "bath temperature": "under 60 C", "method": "poached", "soak hours": 12.0},
            {"brine-warm", "brine-warm-long", "brine-warm-start"},
        ),
        (
            {"product": "chicken breast", "bath temperature": "3 to 65 C", "soak hours": 12.0},
            {"brine-warm", "brine-warm-long", "brine-warm-start"},
        ),
        ({"product": "carrot", "bath temperature": 85.0}, set()),
    ],
)
def test_a_bath_as_hot_as_food_is_held_cooks(row: dict[str, object], told: set[str]) -> None:
    """Food Code 3-501.16 (WAC 246-215-03525, read): held hot at 57 °C or above."""
    asked = {"brine-hot", "brine-hot-raw", "brine-warm", "brine-warm-long", "brine-warm-start"}
    assert asked & set(found(row)) == told
