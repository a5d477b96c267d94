"""Nitrite meets no acid.

Undissociated nitrous acid, pKa 3.25 from memory: the rule is common practice, never acid with nitrite.
"""

from __future__ import annotations

import pytest

from brinecalc.trade.findings import all_of
from tests.trade.cases import CURED, found, said


@pytest.mark.parametrize("heading", ["acid", "liquid", "ingredient", "sweetener"])
@pytest.mark.parametrize(
    "name",
    "citric acid;red wine;orange juice;cider vinegar;buttermilk;lemon juice;blood orange juice;cola".split(";"),
)
def test_named_without_a_mass_it_stops(heading: str, name: str) -> None:
    assert said({**CURED, heading: name}).startswith("STOP cure")


@pytest.mark.parametrize("name", ["citric acid", "red wine", "vinegar", "buttermilk", "vinegar 7 %"])
def test_with_a_mass_and_water_the_ph_is_reckoned(name: str) -> None:
    row = {**CURED, "water": 5000.0, "strength": 0.05, "acid": name, "acid mass": 100.0}
    assert "nitrite-ph" in found(row)


@pytest.mark.parametrize("cure", ["error", "#NUM!", "#N/A", "Err:502", "a pinch", "1 tsp", "pink salt", 5.0])
def test_a_cure_cell_of_any_kind_counts(cure: object) -> None:
    assert "nitrite-cola" in found({"cure": cure, "liquid": "cola"})
    assert "nitrite-acid" in found({"cure": cure, "acid": "wine"})


@pytest.mark.parametrize("column", ["cure name", "ingredient", "cure method", "cure strength", "nitrite"])
def test_an_error_in_any_cure_column_stops(column: str) -> None:
    row = {**CURED, column: "error"}
    assert ("cure-error" in found(row)) == (column != "ingredient")


@pytest.mark.parametrize(
    "name", "curing salt no. 1;pink salt;sodium nitrite;potassium nitrate;cultured celery powder;cure 2".split(";")
)
def test_a_cure_under_ingredient_counts(name: str) -> None:
    assert "nitrite-cola" in found({"ingredient": name, "level": 0.003, "liquid": "cola"})


def test_a_ph_written_down_does_not_outweigh_the_acid_weighed_in() -> None:
    row = {**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": 50.0, "ph": 6.5}
    assert "nitrite-ph" in found(row)


def test_an_error_in_the_acid_mass_leaves_the_ph_unknown() -> None:
    assert "nitrite-acid" in found({**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": "error"})


def test_of_two_ph_columns_the_lower_counts() -> None:
    assert "nitrite-ph" in [f.rule.id for f in all_of(["cure", "ph", "ph"], [5.0, 6.0, 4.0])]


def test_no_cure_no_stop() -> None:
    assert not said({"product": "pork shoulder", "liquid": "cola", "cure": 0}).startswith("STOP")
    assert not said({"product": "pork shoulder", "liquid": "cola", "cure": "none"}).startswith("STOP")


@pytest.mark.parametrize("cell", ["pH 4.5", "4,5", "~4.5", "< 4.5", 4.5])
def test_ph_as_people_write_it(cell: object) -> None:
    assert "nitrite-ph" in found({**CURED, "ph": cell})


@pytest.mark.parametrize(
    ("ph", "rule"), [(4.9, "nitrite-ph"), (5.0, "nitrite-acid-close"), (5.1, "nitrite-acid-close")]
)
def test_a_soured_brine_at_the_limit_is_watched_and_below_it_stopped(ph: float, rule: str) -> None:
    """A milligram of citric acid in 5 kg of water is a millionth of a mole per kg: far above pH 5 by itself."""
    row = {**CURED, "water": 5000.0, "acid": "citric acid", "acid mass": 0.001, "ph": ph}
    assert {"nitrite-ph", "nitrite-acid-close"} & set(found(row)) == {rule}
