"""Every finding has a row that triggers it and a neighbour that does not; reading a row never fails."""

from __future__ import annotations

import re

from each import each
from hypothesis import given, settings
from hypothesis import strategies as st

from brinecalc.tables import load
from brinecalc.trade import findings, rules
from brinecalc.trade.findings import all_of, ids, table, worst
from tests.trade.cases import CASES, CURED, found, said


def test_every_rule_has_its_case_and_its_condition() -> None:
    assert {rule.id for rule in table()} == set(CASES) == set(rules.conditions())
    assert len(CASES) >= 40


@each("rule", CASES)
def test_a_row_that_triggers_the_rule(rule: str) -> None:
    assert rule in found(CASES[rule][0])


@each("rule", CASES)
def test_a_neighbour_that_does_not(rule: str) -> None:
    assert rule not in found(CASES[rule][1])


@each("rule", CASES)
def test_the_sentence_is_whole_and_the_source_known(rule: str) -> None:
    row = CASES[rule][0]
    hits = [finding for finding in all_of(list(row), list(row.values())) if finding.rule.id == rule]
    keys = {source["key"] for source in load.rows("sources")}
    for hit in hits:
        assert hit.severity in findings.SEVERITIES
        assert hit.sentence.endswith(".")
        assert hit.sentence.count(".") >= 2, "says what is wrong and what to do"
        assert "{" not in hit.sentence
        assert len(hit.text) < 255
        assert hit.rule.source in keys
        assert len(hit.source) > 10
        if hit.rule.jurisdiction != "any":
            assert "recheck, rules change" in hit.source


EXAMPLE = re.compile(r'"[^"]*"|\b(?:shows|like) [\d.]+ g|[\d.]+ g salt|reference intake of [\d.]+ g')
"""What was typed, how it may be typed, what a scale shows, which is read off in grams everywhere, and salt as European
labels state it."""
METRIC_ALONE = re.compile(r"\d (?:°C|mm|cm|kg|g|mL|L)\b(?! / )")


@each("rule", CASES)
def test_every_measure_stands_in_metric_and_us_units(rule: str) -> None:
    for one in all_of(*zip(*CASES[rule][0].items())):
        assert not METRIC_ALONE.search(EXAMPLE.sub("", one.sentence)), one.sentence


def test_the_worst_finding_comes_first() -> None:
    row = {**CURED, "product": "pork chop", "liquid": "cola", "thickness": 1.0, "portion": 200.0, "target": 0.01}
    ranks = [findings.SEVERITIES.index(f.severity) for f in all_of(list(row), list(row.values()))]
    assert ranks == sorted(ranks)
    assert set(ranks) == {0, 1, 2}
    assert said(row).startswith("STOP cure: ")


def test_a_quiet_row_is_ok() -> None:
    row = {
        "product": "chicken breast", "weight": "10 kg", "pieces": 40, "thickness": "38 mm", "method": "gradient",
        "water": "10 L", "strength": "6%", "target": 0.01, "sweetener": "white sugar", "sweetener level": "2%",
        "ingredient": "black peppercorns", "level": 0.005, "bath temperature": "39 °F", "soak hours": 8,
        "rest hours": 2, "vessel": "30 L", "vessel material": "stainless steel", "reused": "no", "portion": 150,
    }  # fmt: skip
    assert said(row) == "ok"
    assert said({}) == "ok"


ANY_CELL = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=40),
    st.sampled_from(
        ["cola", "wine", "curing salt no. 1", "error", "#NUM!", "5%", "1,000 g", "2.5 kg", "pork belly", "dry"]
    ),
)


ANY_HEADING = st.one_of(ANY_CELL, st.sampled_from([row["heading"] for row in load.rows("headings")]))


@given(st.lists(st.tuples(ANY_HEADING, ANY_CELL), max_size=12))
@settings(max_examples=200, deadline=None)
def test_any_row_at_all_is_read(row: list[tuple[object, object]]) -> None:
    """Law: reading never fails, and the worst of all findings is the worst finding."""
    headings, values = [heading for heading, _ in row], [cell for _, cell in row]
    hits = all_of(headings, values)
    assert worst(headings, values) == (hits[0].text if hits else "ok")


def test_a_row_in_us_units_reads_them_first() -> None:
    """Complaint: whoever wrote 60 °F read of 15.6 °C."""
    us, metric = "belongs at 41 °F / 5 °C", "belongs at 5 °C / 41 °F"
    warm = {"product": "chicken breast", "bath temperature": "50 °F"}
    assert us in said(warm)
    assert us in said({"product": "chicken breast", "bath temperature (F)": 50})
    assert us in said({"product": "chicken breast", "bath temperature": 10, "figures in": "US"})
    assert metric in said({**warm, "figures in": "metric"})
    assert metric in said({"product": "chicken breast", "bath temperature": 10, "water": "8 cups"})


def test_every_finding_of_a_row_in_us_units_reads_them_first() -> None:
    """Law: nothing but the order of two figures changes, and no metric one stays before its other."""
    turned = 0
    for row, _ in CASES.values():
        metric, us = (
            [found.text for found in all_of([*row, "figures in"], [*row.values(), units])] for units in ("metric", "US")
        )
        for one, other in zip(metric, us, strict=True):
            assert sorted(re.findall(r"\w+", one)) == sorted(re.findall(r"\w+", other))
            assert not re.search(r"(?:°C|\d kg|\d g|mm|mL|\d L) / -?\d", other), other
            turned += one != other
    assert turned > 20


def test_no_sentence_permits_anything() -> None:
    """The tool computes; it does not permit."""
    for rule in table():
        assert not re.search(r"\b(safe|approved|permitted|guaranteed)\b", f"{rule.sentence} {rule.todo}")
        assert ids().find(rule.id) is rule
