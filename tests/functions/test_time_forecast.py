"""The worksheet function that reads a log: cells in every form, parts, refusals; and the log made by BATH_STRENGTH."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry
from brinecalc.registry import call, why

CHICKEN = "chicken breast"
HOURS = [[1], [2], [3.0], [4], [6]]
SOAK = (CHICKEN, 38, "1%", "5%", 1)


def log_of(estimate, hours=HOURS, thickness=38, product=CHICKEN, strength=0.05, bath=1):
    """Readings to a hundredth of a per cent, as a good meter shows them."""
    made = [call("BATH_STRENGTH", product, thickness, h, strength, bath, 4, "", "", estimate) for (h,) in hours]
    return [[round(reading, 4)] for reading in made]


@pytest.mark.parametrize("estimate", ["fast", "typical", "slow"])
def test_a_log_of_the_familys_own_making(estimate):
    """BATH_STRENGTH makes the log, SOAK_HOURS says when it is done: the forecast finds both again."""
    readings = log_of(estimate)
    d = registry.call("FORECAST", HOURS, readings, *SOAK, "diffusivity")
    wanted = {"fast": 6.0e-10, "typical": 4.0e-10, "slow": 1.6e-10}[estimate]
    assert d == pytest.approx(wanted, rel=0.06)
    true = call("SOAK_HOURS", CHICKEN, 38, "1%", "5%", 4, 1, "", "", estimate) - 6
    hours, fast, slow = (call("FORECAST", HOURS, readings, *SOAK, part) for part in ("", "fast", "slow"))
    assert fast <= true <= slow
    assert hours == pytest.approx(true, abs=0.08 * (true + 6))
    assert call("FORECAST", HOURS, readings, *SOAK, "dilution") == 0
    assert call("FORECAST", HOURS, readings, *SOAK, "doubtful") == 0


def test_a_log_as_it_is_kept():
    """Text with units, per cent as text, blank lines still to come, a row for a column, a reading at the start."""
    plain = call("FORECAST", [[0], [1], [2.5]], [[0.05], [0.0476], [0.0464]], *SOAK)
    kept = call(
        "FORECAST",
        [["0 h"], ["60 min"], ["2 1/2 h"], [4], [None]],
        [["5%"], ["4.76 %"], [0.0464], [None], [""]],
        *SOAK,
    )
    assert kept == pytest.approx(plain, rel=1e-9)
    assert call("FORECAST", [[0, 1, 2.5]], [[0.05, 0.0476, 0.0464]], *SOAK) == plain
    assert call("FORECAST", [[0], [1], [2.5], [4]], [[0.05], [0.0476], [0.0464], [0.0]], *SOAK) == plain


def test_water_from_ice_is_found_and_said():
    thinned = [[reading * 0.92] for (reading,) in log_of("typical")]
    assert call("FORECAST", HOURS, thinned, *SOAK, "dilution") == pytest.approx(0.08, abs=0.02)
    assert call("FORECAST", HOURS, thinned, *SOAK, "diffusivity") == pytest.approx(4e-10, rel=0.25)
    undone = call("FORECAST", HOURS, log_of("typical"), *SOAK)
    assert call("FORECAST", HOURS, thinned, *SOAK) > undone


@pytest.mark.parametrize(("left", "told"), [(0.71, True), (0.55, False)])
def test_a_bath_thinned_by_more_than_a_third_is_another_bath(left, told):
    thinned = [[reading * left] for (reading,) in log_of("typical")]
    assert isinstance(call("FORECAST", HOURS, thinned, *SOAK), float) is told


def test_a_wrong_reading_is_found_and_said():
    readings = log_of("typical")
    readings[2] = ["5.6%"]
    assert call("FORECAST", HOURS, readings, *SOAK, "doubtful") == 3
    assert call("FORECAST", HOURS, readings, *SOAK, "diffusivity") == pytest.approx(4e-10, rel=0.15)


def test_two_readings_leave_it_open():
    two = HOURS[:2], log_of("typical")[:2]
    fast, hours, slow = (call("FORECAST", *two, *SOAK, part) for part in ("fast", "hours", "slow"))
    assert (slow + 2) / (fast + 2) > 1.7
    assert fast < hours < slow


def test_done_is_no_hours_to_go():
    late = [[10], [30], [60]]
    assert call("FORECAST", late, log_of("typical", late), *SOAK) == 0


def test_a_block_and_a_treated_piece():
    block = (CHICKEN, "150 x 60 x 40 mm", "1%", "5%", 1)
    readings = log_of("typical", thickness="150 x 60 x 40 mm")
    assert call("FORECAST", HOURS, readings, *block, "diffusivity") == pytest.approx(4e-10, rel=0.08)
    thawed = [[call("BATH_STRENGTH", CHICKEN, 38, h, 0.05, 1, 4, "", "thawed", "", 0.004)] for (h,) in HOURS]
    found = call("FORECAST", HOURS, thawed, *SOAK, "diffusivity", 4, "", "thawed", 0.004)
    assert found == pytest.approx(1.3 * 4e-10, rel=0.06)


@each(
    ("cells", "error", "words"),
    [
        ((HOURS[:1], [["4.8%"]], *SOAK), "#NUM!", ["readings", "at least two"]),
        ((HOURS[:3], [["4.8%"], [None], [None]], *SOAK), "#NUM!", ["readings", "at least two", "got 1"]),
        ((HOURS, [["4.8%"]], *SOAK), "#VALUE!", ["readings", "as many cells as hours"]),
        (([[1], [None]], [["4.8%"], ["4.7%"]], *SOAK), "#VALUE!", ["hours", "when it was taken"]),
        (([[2], [1]], [["4.8%"], ["4.7%"]], *SOAK), "#NUM!", ["hours", "rise"]),
        (([[2], [2]], [["4.8%"], ["4.7%"]], *SOAK), "#NUM!", ["hours", "rise"]),
        (([[-1], [2]], [["4.8%"], ["4.7%"]], *SOAK), "#NUM!", ["hours"]),
        (([[1], ["soon"]], [["4.8%"], ["4.7%"]], *SOAK), "#VALUE!", ["hours"]),
        (([[1], [2]], [[4.8], [4.7]], *SOAK), "#NUM!", ["readings", "4.8%"]),
        (([[1], [2]], [["4.8 g"], ["4.7%"]], *SOAK), "#VALUE!", ["readings"]),
        (([[1], [2]], [["4.8%"], ["#N/A"]], *SOAK), "#N/A", ["#N/A"]),
        (([[1], [2]], [["2%"], ["1.9%"]], *SOAK), "#NUM!", ["readings", "share", "bath"]),
        (([[1], [2]], [["6%"], ["6.1%"]], *SOAK), "#NUM!", ["readings", "cannot come from this soak"]),
        (([[1], [2]], [["4.8%"], ["4.7%"]], CHICKEN, 38, "4%", "5%", 1), "#NUM!", ["target", "stronger"]),
        (([[1], [2]], [["4.8%"], ["4.7%"]], CHICKEN, 38, "1%", "5%", "large"), "#VALUE!", ["bath"]),
        (([[1], [6]], [["4.8%"], ["4.5%"]], *SOAK, "", 8), "#NUM!", ["above 5 °C"]),
        (([[1], [2]], [["4.8%"], ["4.7%"]], *SOAK, "", 8), "#NUM!", ["above 5 °C", "would take"]),
        (([[1], [2]], [["4.8%"], ["4.7%"]], *SOAK, "end"), "#N/A", ["part", "diffusivity"]),
        (([[1], [2]], [["4.8%"], ["4.7%"]], *SOAK, "", 4, "", "injected"), "#NUM!", ["treatment"]),
        (([[1], [2]], [["4.8%"], ["4.7%"]], CHICKEN, 38, "1%", "40%", 1), "#NUM!", ["strength", "dissolves"]),
    ],
)
def test_refusals_say_what_to_do(cells, error, words):
    assert call("FORECAST", *cells) == error
    reason = why("FORECAST", *cells)
    assert reason.startswith("BRINE_FORECAST: ")
    for word in words:
        assert word in reason


def test_the_diffusivity_may_be_asked_for_above_five_degrees():
    """Nothing is said about how long to go on, so nothing is refused."""
    readings = [[call("BATH_STRENGTH", CHICKEN, 20, h, 0.05, 1, 8)] for h in (0.5, 1, 2)]
    found = call("FORECAST", [[0.5], [1], [2]], readings, CHICKEN, 20, "2%", "5%", 1, "diffusivity", 8)
    assert found == pytest.approx(4e-10 * 1.155, rel=0.08)


def test_help_says_what_the_range_claims():
    notes = " ".join(registry.spec("FORECAST").notes.split())
    assert "at least 8 times in 10" in notes
    assert "two readings can hardly tell" in notes
