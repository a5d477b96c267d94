"""What is typed into the plan counts in the unit at the head of its column, or its row says what to type instead."""

from __future__ import annotations

import datetime
from functools import cache
from typing import Any

import filling
import pytest
from built import FEW, bare

from brinecalc.workbook.book import Options
from brinecalc.workbook.create import PAPERS

READY = datetime.datetime(2027, 3, 6, 18, 0)
FINDING = "Worst finding, or why the row fails"
PLAIN: dict[str, Any] = {
    "Product": "chicken breast", "Weight as bought": 5, "Method": "gradient", "Salt wanted in the product": 0.01,
    "Strength, of the water": 0.06, "Rest": 24, "Ready at": READY,
}  # fmt: skip
TIMED = {**PLAIN, "Thickness": "30 mm", "Strength, of the water": None}
EVEN = {**TIMED, "Method": "equilibrium"}
BLOCK = {**PLAIN, "Shape": "block"}
WARM = {**TIMED, "Thickness": "1 in"}

THICK: dict[str, list[list[dict[str, Any]]]] = {
    "US": [
        [{**PLAIN, "Thickness": t} for t in (1.25, "1.25", "1,25", "1-1/4", "1 1/4", "1¼", '1.25"', "31.75 mm")],
        [{**PLAIN, "Thickness": t} for t in (0.5, "½", "1/2 in")],
        [{**BLOCK, "Thickness": t} for t in ("6 x 3 x 1.5 in", "6 x 3 x 1.5", "6 x 3 in x 1-1/2", "6 in x 3 x 1½")],
    ],
    "metric": [
        [{**PLAIN, "Thickness": t} for t in (25, "25", "25,0", "2.5 cm")],
        [{**BLOCK, "Thickness": t} for t in ("150 x 60 x 40 mm", "150 x 60 x 40", "15 cm x 6 cm x 40")],
    ],
}
"""Rows that say the same."""

DATE = "is a date, which a fraction such as 3/4 becomes when it is typed; type 0.75"
REFUSED: list[tuple[dict[str, Any], str]] = [
    ({**PLAIN, "Thickness": 46085}, f"Thickness {DATE}, or 3/4 in with its unit."),  # 3 April 2026
    ({**TIMED, "Strength, of the water": 0.06, "Weight as bought": 46085}, f"Weight as bought {DATE}."),
    ({**TIMED, "Strength, of the water": 0.06, "Vessel": 46085}, f"Vessel {DATE}."),
    ({**TIMED, "Hours I have": 46085}, f"Hours I have {DATE}."),
    ({**TIMED, "Strength, of the water": 0.06, "Rest": 46085}, f"Rest {DATE}."),
    ({**TIMED, "Hours I have": 8 / 24}, "at least 0.5, got"),
    (
        {**EVEN, "Hours I have": 8 / 24},
        "a time of day such as 8:00 counts as part of a day, so type 8 for eight hours.",
    ),
    (
        {**TIMED, "Product": "whole turkey", "Thickness": "120 mm", "Hours I have": 20 / 24},
        "A time of day counts as part of a day: where 20:00 was typed, type 20 for twenty hours.",
    ),
    ({**EVEN, "Hours I have": "4:00"}, 'Hours I have must be a number of hours, got "4:00"; type 4 for four hours.'),
    ({**TIMED, "Hours I have": "4:00"}, 'Hours I have must be a number of hours, got "4:00"; type 4 for four hours.'),
    (
        {**EVEN, "Water per product": 100},
        'Water per product must be a plain number from 0.2 to 20 such as 1, got "100".',
    ),
    ({**EVEN, "Portion": 0}, 'Portion must be a plain number above 0, in the unit at the head of its column, got "0".'),
    ({**EVEN, "Portion": -6}, 'got "-6".'),
    ({**EVEN, "Vessel": 0}, 'Vessel must be a plain number above 0, in the unit at the head of its column, got "0".'),
    ({**WARM, "Hours I have": 2, "Brine temperature": 42}, "FAILS: If salt goes in slowly, the soak would take"),
    ({**WARM, "Hours I have": 4, "Brine temperature": 45}, "FAILS: If salt goes in slowly, the soak would take"),
]
"""A row of a workbook in US units, and the words of the reason."""


@cache
def computed(units: str, rows: tuple[int, ...]) -> filling.Answers:
    """The groups of these numbers, one below the other."""
    person = filling.Person(bare(Options(units, PAPERS[units], batches=FEW)))
    for number, row in enumerate((row for group in rows for row in THICK[units][group]), filling.FIRST):
        person.fill("Plan", number, row)
    return person.computed()


@pytest.mark.parametrize("units", THICK)
def test_a_thickness_typed_as_text_is_in_the_unit_of_its_column(units: str) -> None:
    groups = THICK[units]
    answers, row = computed(units, tuple(range(len(groups)))), filling.FIRST
    for group in groups:
        hours = [answers.row("Results", row + number)["Soak"] for number in range(len(group))]
        assert hours == pytest.approx([hours[0]] * len(group), rel=1e-9), group
        row += len(group)


@cache
def refused() -> filling.Answers:
    person = filling.Person(bare(Options("US", PAPERS["US"], batches=FEW)))
    for number, (row, _) in enumerate(REFUSED, filling.FIRST):
        person.fill("Plan", number, row)
    return person.computed()


@pytest.mark.parametrize("number", range(len(REFUSED)), ids=[words[:40] for _, words in REFUSED])
def test_what_cannot_be_meant_fails_its_row_and_says_what_to_type(number: int) -> None:
    row = refused().row("Plan", filling.FIRST + number)
    assert row["Says"] == "FAILS"
    assert REFUSED[number][1] in row[FINDING]


def test_hours_that_may_be_a_time_of_day_are_asked_about_and_hours_as_text_count() -> None:
    rows = [
        {**TIMED, "Hours I have": 0.6}, {**TIMED, "Hours I have": 5}, {**TIMED, "Hours I have": "5 h"},
        {**EVEN, "Hours I have": "5 h"}, {**EVEN, "Rest": 8 / 24}, {**EVEN, "Pieces": "forty"},
        {**EVEN, "Rest": 0.5},
    ]  # fmt: skip
    person = filling.Person(bare(Options(batches=FEW)))
    for number, row in enumerate(rows, filling.FIRST):
        person.fill("Plan", number, row)
    answers = person.computed()
    said = [answers.row("Plan", filling.FIRST + number)[FINDING] for number in range(len(rows))]
    assert said[0].startswith(
        "CAUTION hours I have: 36 min is very short. Look again: 12:00 typed there is a time of day"
    )
    strengths = [answers.row("Results", filling.FIRST + number)["Strength, of the water"] for number in (1, 2)]
    assert strengths[0] == pytest.approx(strengths[1])
    assert said[3].startswith("CAUTION hours I have: 5 h is short")
    assert "NOTE rest: 20 min is short. Look again: 8:00" in said[4]
    assert '"forty" must be a whole number; write it in figures, such as 40.' in said[5]
    assert "is short" not in said[6]  # a plain half hour


def test_a_finding_of_the_rules_calls_a_column_as_the_plan_heads_it() -> None:
    cured = {**EVEN, "Product": "pork loin", "Curing salt": "curing salt no. 1", "Nitrite": 100}
    rows = [{**cured, "Reckoned as": "dry"}, {**PLAIN, "Thickness": 8, "Brine temperature": 7, "Rest": 1}]
    person = filling.Person(bare(Options(batches=FEW)))
    for number, row in enumerate(rows, filling.FIRST):
        person.fill("Plan", number, row)
    answers = person.computed()
    said = [answers.row("Plan", filling.FIRST + number)[FINDING] for number in range(len(rows))]
    assert said[0].startswith("STOP reckoned as: ")
    assert "under Reckoned as." in said[0]
    assert said[1].startswith("CAUTION brine temperature: ")
    text = " ".join(str(value) for (sheet, _), value in answers.values.items() if sheet in ("Findings", "Plan"))
    assert "cure method" not in text
