"""Every host gives what the registry gives, for every example and a thousand calls more: values, errors, reasons.

Each test prints a line: calls, largest deviation, mismatches, listed differences. ``python -m parity.suite`` prints
them all.
"""

from __future__ import annotations

from pathlib import Path

import browser as browser_files
import pytest
from parity import differences, suite
from parity.calls import Call, all_calls
from parity.comparison import Outcome

from brinecalc import registry

DEVELOPERS = Path(__file__).parents[3] / "DEVELOPERS.md"


def agrees(outcome: Outcome, capsys) -> None:
    with capsys.disabled():
        print(f"\n{outcome}")
    assert outcome.mismatches == []
    assert outcome.calls >= 1000
    assert set(outcome.listed) == {says for host, says in differences.LISTED if host == outcome.host}


def test_the_headless_engine_agrees(capsys):
    agrees(suite.headless(), capsys)


def test_libreoffice_calc_agrees(calc, capsys):
    agrees(suite.calc(calc), capsys)


def test_classic_xlwings_agrees(capsys):
    agrees(suite.excel(), capsys)


def test_the_browsers_python_agrees(pyodide, tmp_path, capsys):
    agrees(suite.browser(tmp_path), capsys)


def test_every_function_is_called_well_and_badly():
    calls = all_calls()
    assert {call.name for call in calls} == set(registry.names())
    assert sum(not call.example for call in calls) >= 1000
    assert all_calls() == calls
    for name in registry.names():
        if registry.spec(name).arguments:
            assert sum(call.name == name and not call.example for call in calls) >= 20, name


def test_the_listed_differences_stand_in_the_documents():
    text = " ".join(DEVELOPERS.read_text(encoding="utf-8").split())
    for host, says in differences.LISTED:
        assert f"| {host} | {says} |" in text


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        (1.0, 1.0 + 2e-12),
        (0.0, 2e-12),
        ("#NUM!", "#VALUE!"),
        ("ok", "OK"),
        ([[1.0]], [[1.0, 1.0]]),
        (1.0, "1"),
        (1.0, True),
    ],
)
def test_a_deviation_is_a_mismatch(wanted, found):
    outcome = Outcome("a host")
    outcome.compare(Call("BRINE_ABOUT", ()), "value", wanted, found, [])
    assert len(outcome.mismatches) == 1


def test_the_last_digit_may_differ():
    outcome = Outcome("a host")
    outcome.compare(Call("BRINE_ABOUT", ()), "value", [[1.0, "ok"]], [[1.0 + 4e-16, "ok"]], [])
    assert outcome.mismatches == []
    assert outcome.largest == pytest.approx(4e-16, rel=0.2)


def test_an_answer_to_a_call_that_was_not_made_must_be_an_error():
    outcome = Outcome("a host")
    outcome.compare_errors(Call("BRINE_ABOUT", ()), "value", [["Err:504", 5.0]], "a difference", None)
    outcome.compare_errors(Call("BRINE_ABOUT", ()), "value", "#NUM!", "a difference", {"#N/A", "#DIV/0!"})
    assert len(outcome.mismatches) == 2


def test_pyodide_is_where_the_tests_look():
    assert browser_files.PYODIDE.parent.parent == browser_files.CACHE
