"""Curing salt has the time it needs, and not more than what was reckoned allows."""

from __future__ import annotations

from each import each

from tests.trade.cases import CURED, found, of, said

SOAK = {**CURED, "cure method": "pick-up", "gain": 0.1, "water": 10000.0, "pickle": 10000.0, "cure": 70.0}


@each(
    ("row", "told"),
    [
        ({"soak hours": 24}, "cure-soaks-on"), ({"soak hours": 23.9}, "cure-taken-out"),
        ({"soak hours": 0.5}, "cure-taken-out"), ({}, "cure-taken-out"), ({"soak hours": "long"}, "cure-taken-out"),
        ({"method": "equilibrium"}, "cure-soaks-on"), ({"method": "equilibrium", "soak hours": 12}, "cure-taken-out"),
        ({"soak hours": 24, "cure": 63.9}, None), ({"soak hours": 12, "cure": 63.9}, None), ({"cure": 63.9}, None),
        ({"soak hours": 12, "cure": 63.9, "kind": "bacon"}, "cure-taken-out"),
        ({"soak hours": 12, "cure": 38.3, "kind": "bacon"}, None),
        ({"soak hours": 12, "cure": 38.7, "rules": "EU"}, "cure-taken-out"),
        ({"soak hours": 12, "cure": 38.5, "rules": "EU"}, None),
        ({"cure method": "pumped"}, None), ({"cure method": "pumped", "soak hours": 12}, "cure-taken-out"),
        ({"cure method": "pumped", "soak hours": 30}, "cure-soaks-on"), ({"cure method": "equilibrium"}, None),
        ({"pickle": None, "water": None}, None),
        ({"soak hours": 24, "cure name": "saltpetre", "cure": 14.1}, "cure-soaks-on"),
        ({"soak hours": 12, "cure name": "saltpetre", "cure": 14.1}, "cure-taken-out"),
        ({"soak hours": 24, "cure name": "saltpetre", "cure": 13.9}, None),
        ({"soak hours": 24, "cure name": "saltpetre", "cure": 2.5, "rules": "EU"}, "cure-soaks-on"),
        ({"soak hours": 24, "cure name": "saltpetre", "cure": 2.4, "rules": "EU"}, None),
    ],
)  # fmt: skip
def test_what_soaks_in_is_set_against_all_that_meat_and_pickle_hold(row: dict[str, object], told: str | None) -> None:
    """70 g of 6.25 % in 20 kg is 219 ppm, 63.9 g is 199.7; the limit is 200, of bacon 120 (38.4 g), of the EU 119.98,
    which the rule knows to the whole mg/kg: 38.5 g, 120.3 ppm, is still 80 of the ion, and 38.7 g is 121.

    Of nitrate 14 g in 20 kg are 700 ppm, 2.46 g the 123 of the EU.
    No more than that whole can ever get in, so a day in the pickle is a stop where it is too much, and less is told.
    """
    hits = found({**SOAK, **row})
    assert [rule for rule in hits if rule in ("cure-soaks-on", "cure-taken-out")] == ([told] if told else [])


def test_an_ordinary_short_pickle_stays_a_caution() -> None:
    """7.5 g of nitrite in 5 kg of pickle, of which 5 kg of meat take up a tenth: 150 ppm, and 750 in both together."""
    row = {
        "product": "pork loin", "edible weight": 5000.0, "method": "gradient", "pickle": 5000.0, "cure": 120.0,
        "gain": 0.1, "cure method": "pick-up", "thickness": 10.0, "soak hours": 20,
    }  # fmt: skip
    assert said(row).startswith("CAUTION")
    assert "cure-taken-out" in found(row)
    assert "Take the meat out after 20 h" in said(row)


def test_nobody_is_told_to_leave_meat_longer_in_a_pickle_that_holds_too_much() -> None:
    """A day for each half inch and two days more is custom; in the cold, too, all of 218 ppm would get in."""
    row = {**SOAK, "thickness": 25.4, "soak hours": 20.0}
    (strong,), (weak,) = of("cure-too-short", row), of("cure-too-short", {**row, "cure": 63.9})
    assert "Give it longer in the cold" in weak.sentence
    assert "Give it longer in the cold" not in strong.sentence
    assert "so weak that cure method equilibrium passes it" in strong.sentence
    assert "cure-too-short" not in found({**row, "cure method": "equilibrium", "cure": 63.9, "soak hours": 96.0})


@each("hours, asked", [("1 to 12 days", True), ("up to 12 days", True), ("10-12 days", False), ("12 days", False)])
def test_the_shorter_end_of_a_soak_must_be_long_enough_for_the_cure(hours: str, asked: bool) -> None:
    """Seven days to the inch and two more: 100 mm take 9.87 days."""
    row = {"product": "pork loin", "edible weight": 10000.0, "cure": 20.0, "water": 10000.0, "thickness": "100 mm"}
    assert ("cure-too-short" in found({**row, "cure method": "equilibrium", "soak hours": hours})) is asked


@each("hours, asked", [("2 to 24 h", True), ("up to 24 h", True), ("12-24 h", False), ("24 h", False)])
def test_the_shorter_end_of_a_rest_must_be_long_enough(hours: str, asked: bool) -> None:
    row = {**CURED, "cure method": "pumped", "gain": 0.1, "rest hours": hours}
    assert ("cure-rest-short" in found(row)) is asked
