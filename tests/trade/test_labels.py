"""Sodium and added solution, against atomic masses and the US rounding rule."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from each import each

from brinecalc.errors import Impossible, OutOfRange, UnknownName, Unreadable
from brinecalc.trade import ingredients, labels

ADDITIVES = Path(__file__).parent.parent / "reference" / "additives_sodium_p2o5.csv"


def test_sodium_of_salt_is_the_definition() -> None:
    """Definition: serving·share·393.37 mg/g."""
    assert labels.sodium(150.0, 0.012) == pytest.approx(150 * 0.012 * 393.37, rel=1e-14)


@each(
    ("substance", "name"),
    [
        ("sodium tripolyphosphate Na5P3O10", "sodium tripolyphosphate"),
        ("tetrasodium pyrophosphate Na4P2O7", "tetrasodium pyrophosphate"),
        ("disodium phosphate Na2HPO4", "disodium phosphate"),
        ("sodium bicarbonate NaHCO3", "baking soda"),
        ("sodium carbonate Na2CO3", "washing soda"),
        ("sodium nitrite NaNO2", "sodium nitrite"),
        ("sodium ascorbate or erythorbate anhydrous C6H7O6Na", "sodium ascorbate"),
        ("sodium diacetate", "sodium diacetate"),
        ("monosodium glutamate monohydrate", "monosodium glutamate"),
    ],
)
def test_other_sources_by_their_make_up(substance: str, name: str) -> None:
    """Source: tests/reference/additives_sodium_p2o5.csv, from atomic masses."""
    with ADDITIVES.open(encoding="utf-8", newline="") as file:
        share = {row["substance"]: float(row["sodium_mass_pct"]) / 100 for row in csv.DictReader(file)}[substance]
    found = labels.sodium(100.0, 0.0, labels.sources([name], [0.005]))
    assert found == pytest.approx(100 * 0.005 * share * 1000, rel=2e-3)


def test_half_a_per_cent_of_tripolyphosphate() -> None:
    """Reference: sodium from 0.5 % tripolyphosphate is 156 mg per 100 g."""
    assert labels.sodium(100.0, 0.0, labels.sources(["sodium tripolyphosphate"], ["0.5%"])) == pytest.approx(
        156, abs=0.5
    )


@each(
    ("milligrams", "label"),
    [
        (0.0, 0), (4.99, 0), (5.0, 5), (7.4, 5), (7.5, 10), (137.4, 135), (138.0, 140), (140.0, 140), (142.0, 140),
        (145.0, 150), (154.0, 150), (393.37, 390), (1995.0, 2000),
    ],
)  # fmt: skip
def test_figures_are_rounded_as_us_labels_are(milligrams: float, label: float) -> None:
    """21 CFR 101.9(c)(4), as reported: below 5 to 0, to 140 nearest 5, above nearest 10."""
    assert labels.rounded(milligrams) == label


def test_added_solution_is_gain_on_the_raw_weight() -> None:
    """9 CFR 317.2(e)(2): weight of solution over weight of raw meat."""
    assert labels.added_solution(100.0, 112.0) == pytest.approx(0.12, rel=1e-12)
    assert labels.added_solution(100.0, 100.0) == 0.0
    with pytest.raises(Impossible, match="lost weight"):
        labels.added_solution(100.0, 99.0)


def test_pairs_of_names_and_shares() -> None:
    assert labels.sources(["", None, 0], [None, "", 0]) == []
    assert labels.sources(["baking soda"], [None]) == [(0.0, ingredients.find("baking soda").sodium)]
    with pytest.raises(Unreadable, match="as many"):
        labels.sources(["baking soda"], [])
    with pytest.raises(Unreadable, match="name in row 1"):
        labels.sources([None], [0.1])
    with pytest.raises(UnknownName):
        labels.sources(["moon dust"], [0.1])
    with pytest.raises(OutOfRange, match="write 5%"):
        labels.sources(["baking soda"], [5])
    with pytest.raises(Unreadable, match="row 1"):
        labels.sources(["baking soda"], ["much"])
