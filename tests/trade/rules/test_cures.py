"""Curing salt: whom it is never for, and how it is said to get in."""

from __future__ import annotations

import pytest

from tests.trade.cases import CURED, found, of


@pytest.mark.parametrize("heading", ["note", "batch", "customer", "use", "product", "packaging", "for"])
def test_curing_salt_for_infants_is_seen_under_any_heading(heading: str) -> None:
    assert "cure-infant" in found({**CURED, heading: "ham for toddlers"})
    assert "cure-infant" not in found({**CURED, heading: "ham with baby carrots"})


def test_baby_back_ribs_are_nobodys_age() -> None:
    assert "cure-infant" not in found({**CURED, "product": "baby back ribs"})


@pytest.mark.parametrize("method", ["dry", "pumped", "injected", "equilibrium"])
def test_the_brining_method_serves_as_curing_method_where_there_is_no_column_for_it(method: str) -> None:
    row = {"edible weight": 5000.0, "cure": 10.0, "method": method, "gain": 0.1, "pickle": 5000.0}
    assert not [rule for rule in found(row) if rule in ("nitrite-no-method", "cure-not-reckoned")]
    assert "nitrite-no-method" in found({**row, "cure method": ""})
    assert "nitrite-no-method" in found({**row, "method": "gradient"})


@pytest.mark.parametrize("name", ["NaNO2", "E250", "KNO2", "e249", "sodium nitrite", " NaNO2 "])
def test_a_formula_or_number_in_a_cure_column_is_a_name_and_no_amount(name):
    (hit,) = of("pure-nitrite", {"product": "pork loin", "weight": "5 kg", "cure": name})
    assert "is no premixed curing salt" in hit.sentence


@pytest.mark.parametrize("amount", ["12.5 g", "½ oz", ".5 oz", "2 oz"])
def test_an_amount_in_a_cure_column_is_an_amount(amount):
    hits = found({"product": "pork loin", "weight": "5 kg", "cure": amount, "cure method": "equilibrium"})
    assert "cure-error" not in hits
    assert "pure-nitrite" not in hits


WAYS = ("dry", "comminuted", "pumped", "pick-up", "equilibrium")


@pytest.mark.parametrize(
    ("method", "fits"),
    [("gradient", WAYS[3:]), ("Equilibrium", WAYS[3:]), ("dry equilibrium", WAYS[:2]), ("injected", WAYS[2:3]),
     ("pumped", WAYS[2:3]), ("a method of one's own", WAYS)],
)  # fmt: skip
def test_curing_salt_is_reckoned_as_it_gets_in(method: str, fits: tuple[str, ...]) -> None:
    """The ways of FSIS 7620.3: what is pumped by its gain, what lies in a pickle by pick-up or by both together."""
    told = {way for way in WAYS if "cure-other-way" in found({**CURED, "method": method, "cure method": way})}
    assert told == set(WAYS) - set(fits)


@pytest.mark.parametrize(("hours", "cure", "told"), [(24, 70.0, True), (23.9, 70.0, False), (24, 63.9, False)])
def test_pick_up_of_a_day_or_more_is_set_against_meat_and_pickle_together(hours, cure, told) -> None:
    """70 g of 6.25 % in 20 kg is 219 ppm, 63.9 g is 199.7; the limit is 200."""
    soak = {"cure method": "pick-up", "gain": 0.1, "water": 10000.0, "pickle": 10000.0}
    assert ("cure-soaks-on" in found({**CURED, **soak, "cure": cure, "soak hours": hours})) is told
