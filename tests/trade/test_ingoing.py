"""The row's nitrite against trade.curing, whose own tests rest on the published formulas."""

from __future__ import annotations

import pytest

from brinecalc.trade import ingoing, limits
from brinecalc.trade.row_reading import read
from tests.trade.cases import BACON, CURED, found


def test_pickle_is_what_the_row_weighs_in() -> None:
    """ppm = cure·k·gain/pickle: 10 kg, 10 %, 9000 g water + 900 g salt + 100 g cure is 10 000 g of pickle."""
    row = {
        "product": "ham leg", "weight": 10000.0, "water": 9000.0, "strength": 0.1, "cure": 100.0, "gain": 0.32,
        "cure method": "pumped",
    }  # fmt: skip
    assert "nitrite-over-limit" not in found(row)  # 200 ppm exactly
    assert "nitrite-over-limit" in found({**row, "gain": 0.3201})


def test_a_pickle_given_counts_instead() -> None:
    row = {
        "weight": 10000.0,
        "water": 9000.0,
        "cure": 100.0,
        "gain": 0.1,
        "cure method": "pumped",
        "pickle": 3125.0,
    }
    assert "nitrite-over-limit" not in found(row)
    assert "nitrite-over-limit" in found({**row, "pickle": 3124.0})


def test_all_cures_of_a_row_count_together() -> None:
    row = {**CURED, "cure": 60.0, "water": 10000.0, "ingredient": "curing salt no. 1", "level": 0.0041}
    assert "nitrite-over-limit" in found(row)
    assert "nitrite-over-limit" not in found({**row, "level": 0.0039})


def test_grade_and_strength_are_heeded() -> None:
    assert "nitrite-over-limit" not in found({**CURED, "cure": 1000.0, "cure name": "nitrite salt 0.6 %"})
    assert "nitrite-over-limit" in found({**CURED, "cure": 1050.0, "cure name": "nitrite salt 0.6 %"})
    assert "nitrite-over-limit" in found({**CURED, "cure": 110.0, "cure strength": "5.88%"})


def test_eu_rules_are_stricter() -> None:
    assert "nitrite-over-limit" in found({**CURED, "rules": "EU"})
    assert "nitrite-over-limit" not in found({**CURED, "rules": "EU", "cure": 19.1})


def test_ppm_given_alone_is_checked() -> None:
    row = {"nitrite": 201.0, "cure method": "pumped", "liquid": "water"}
    assert "nitrite-over-limit" in found(row)
    assert "nitrite-over-limit" not in found({**row, "nitrite": 200.0})


def test_a_method_by_another_name() -> None:
    assert "nitrite-no-method" not in found({**CURED, "cure method": "Injected", "gain": 0.1})
    assert "nitrite-no-method" in found({**CURED, "cure method": "immersion"})


def test_the_pickle_is_what_goes_into_it():
    """By hand: 900 g of water, 450 g of salt as given (whatever the strength says) and 25 g of cure."""
    row = {"weight": 10000.0, "cure": 25.0, "cure method": "pick-up", "gain": 0.1, "water": 900.0, "strength": 0.05}
    mixed = ingoing.of(read([*row, "salt"], [*row.values(), 450.0]))
    assert mixed.ppm == pytest.approx(ingoing.of(read([*row, "pickle"], [*row.values(), 1375.0])).ppm, rel=1e-12)


def test_bacon_goes_by_its_kind_and_chopped_bacon_by_the_general_rule():
    loin = {**BACON, "product": "pork loin"}
    assert ingoing.kind_of(read([*loin, "kind"], [*loin.values(), "streaky bacon"])) == "bacon"
    assert ingoing.kind_of(read([*loin, "kind"], [*loin.values(), "ham"])) == "general"
    chopped = {**BACON, "kind": "bacon", "cure method": "comminuted"}
    assert ingoing.of(read(list(chopped), list(chopped.values()))).most == limits.find("nitrite comminuted", "US")
