"""The plan never says "ok" over a figure it could not read: what is pasted wrong fails its row, and only its row."""

from __future__ import annotations

import datetime

import filling
import pytest
from built import FEW, bare

from brinecalc.workbook.book import Options

BATCHES = 15
WRONG = [
    (
        "Ready at",
        "20.12.2026",
        'Ready at is the text "20.12.2026" and no date; type day and time like 2026-12-20 17:30, and if it stays text,',
    ),
    ("Ready at", 0.5, "Ready at is a time of day without its day; type both, like 2026-12-04 17:30."),
    (
        "Ready at",
        20261204,
        'Ready at must be a date and a time, got "20261204"; type it with its year, like 2026-12-04',
    ),
    ("Rest", "2h", 'Rest must be a plain number of hours, got "2h".'),
    ("Weight as bought", "6 kg", "Weight as bought must be a plain number above 0, in the unit at the head of its"),
    ("Weight as bought", "4,5", 'column, got "4,5".'),
    ("Weight as bought", -4, 'column, got "-4".'),
    ("Weight as bought", None, "Weight as bought is missing; type it in"),
    ("Portion", "180 g", 'Portion must be a plain number above 0, in the unit at the head of its column, got "180 g".'),
    ("Vessel", "bucket", 'in the unit at the head of its column, got "bucket".'),
    ("Brine temperature", "warm", 'Brine temperature must be a temperature, got "warm";'),
    ("Curing salt", "no such cure", 'Curing salt must be a name of its list, spelled as there, got "no such cure".'),
    ("Product", "pork; chop", 'Product must be a name of its list, spelled as there, got "pork; chop".'),
    ("Curing salt", "pink curing salt", 'got "pink curing salt". If that is what it is, choose curing salt no. 1.'),
]
"""Heading, what is pasted under it, and the words of the reason; one batch each."""


@pytest.fixture(scope="module")
def pasted():
    person = filling.Person(bare(Options(filled=True, batches=FEW)))
    for row, (heading, value, _) in enumerate(WRONG, filling.FIRST):
        person.fill("Plan", row, {heading: value})
    return person.computed()


@pytest.fixture(scope="module")
def example():
    return filling.Person(bare(Options(filled=True, batches=FEW))).computed()


@pytest.mark.parametrize("number", range(len(WRONG)), ids=[f"{heading}: {value}" for heading, value, _ in WRONG])
def test_what_cannot_be_read_fails_its_row_and_says_why(pasted, number):
    row = pasted.row("Plan", filling.FIRST + number)
    assert row["Says"] == "FAILS"
    assert WRONG[number][2] in row["Worst finding, or why the row fails"]


def test_the_other_rows_and_the_line_above_them_stand(pasted, example):
    state = pasted.at("Plan", "D2")
    assert state.startswith(f"{BATCHES} batches. {len(WRONG)} not worked out")
    for row in range(filling.FIRST + len(WRONG), filling.FIRST + BATCHES):
        assert pasted.row("Plan", row)["Says"] == example.row("Plan", row)["Says"] != "FAILS"


def test_a_moment_reads_as_the_minute_it_is(example):
    typed = example.row("Plan", filling.FIRST)["Ready at"]
    shown = example.row("Results", filling.FIRST)["Ready"]
    assert datetime.timedelta() <= shown - typed < datetime.timedelta(seconds=2)
