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
