"""The log says when a batch has taken up what was wanted, and how far past it is."""

from __future__ import annotations

import datetime
import math

import pytest
from cards import MINUTE, NOON, PLAIN, Sheet, behind, computed, filled, serial, snapshot
from each import each
from openpyxl.utils.cell import column_index_from_string, coordinate_to_tuple

from brinecalc.workbook.sheets import log, plan

WENT_IN = datetime.datetime(2027, 3, 5, 4)
READY = NOON
STRENGTH, WANTED, NATIVE = 0.06, 0.01, 0.00114
"""Of the batch: as typed into the plan, and the salt of raw chicken breast by the product table."""


def at(hour: float) -> datetime.datetime:
    return datetime.datetime(2027, 3, 5) + datetime.timedelta(minutes=round(hour * 60))


def typed(readings: list) -> Sheet:
    """The log with those readings: hour of the day, per cent of the solution."""
    cells = [
        (f"{letter}{row}", value)
        for row, (hour, reading) in enumerate(readings, log.FIRST)
        for letter, value in zip("BC", (at(hour), reading))
    ]
    return computed(PLAIN, "metric", (("E6", WENT_IN), *cells))["Log"]


def taken(reading: float) -> float:
    """Salt taken up, of the product, out of as much water as product."""
    return STRENGTH - reading / (100 - reading)


OVER = [(6, 5.15), (8, 4.9), (12, 4.5), (20, 4.1)]
"""Past its target between eight and noon, by the law of the bath: each per cent that is gone is in the product."""


def test_the_readings_of_the_case_stand_on_both_sides_of_the_target():
    assert taken(4.9) < WANTED - NATIVE < taken(4.5)


def test_a_batch_that_is_past_its_target_says_between_which_readings_it_passed_it():
    sheet = typed(OVER)
    assert sheet["A9"] == "take out"
    assert sheet["J9"].startswith(
        "Passed its target between 08:00 and 12:00: take it out now. It is saltier than wanted"
    )
    assert sheet.get("A10", "") == ""


def test_how_salty_it_is_and_how_late_stand_beside_that():
    said = typed(OVER)["J9"]
    assert f"about {100 * (taken(4.1) + NATIVE):.2f}\u00a0% by the last reading, not 1\u00a0%" in said
    assert said.endswith("The last reading is 8 h past Ready.")


def test_done_at_is_when_it_passed_and_not_when_it_was_read():
    """Between two readings salt goes in as the root of time (Crank, Mathematics of Diffusion, section 4.3)."""
    sheet = typed(OVER)
    assert sheet["C9"] == pytest.approx(serial(at(8)), abs=MINUTE)
    assert sheet["G9"] == pytest.approx(serial(at(12)), abs=MINUTE)
    part = (WANTED - NATIVE - taken(4.9)) / (taken(4.5) - taken(4.9))
    root = 4**0.5 + (8**0.5 - 4**0.5) * part
    assert sheet["E9"] == pytest.approx(serial(WENT_IN) + root**2 / 24, abs=MINUTE)


def test_a_moment_reads_as_the_minute_that_was_typed():
    """Files hold numbers of twelve digits, and what is cut there must not read as the minute before."""
    sheet = typed(OVER)
    stored = {cell: float(f"{sheet[cell]:.12g}") for cell in ("C9", "G9")}
    assert [math.floor(stored[cell] * 1440) for cell in stored] == [round(serial(at(hour)) * 1440) for hour in (8, 12)]


def test_each_row_says_whether_it_is_at_its_target():
    said = [typed(OVER)[f"J{row}"] for row in range(14, 18)]
    assert ["its target" in words for words in said] == [False, True, True, True]
    assert said[1].endswith(" At its target.")  # 0.04 % short of it, which is less than a meter tells apart
    assert said[3].endswith(" Past its target.")


def test_past_it_at_the_first_reading_is_before_that_one():
    sheet = typed([(10, 4.7), (12, 4.5)])
    assert sheet["J9"].startswith("Passed its target before 10:00: take it out now.")
    assert serial(WENT_IN) < sheet["E9"] < serial(at(10))


def test_one_reading_past_it_asks_for_another_and_forecasts_nothing():
    sheet = typed([(12, 4.4)])
    assert "A9" not in sheet
    assert sheet["A10"].endswith("By it the target is reached: stir, read again; if it holds, take it out.")
    assert "target" not in typed([(6, 5.15)])["A10"]


def test_while_it_is_not_done_the_hours_to_go_stand_there():
    sheet = typed(OVER[:2])
    assert sheet["A9"] > 0
    assert sheet["J9"].startswith("From ")
    assert sheet["E9"] == pytest.approx(serial(at(8)) + sheet["A9"] / 24, abs=MINUTE)
    assert "past Ready" not in sheet["J9"]


def test_a_batch_that_is_late_and_not_done_is_told_to_be_past_ready():
    sheet = typed([(8, 5.4), (10, 5.32), (14, 5.2)])
    assert sheet["A9"] > 0
    assert sheet["J9"].endswith("The last reading is 2 h past Ready.")


WATERED = [(5, 5.3), (6, 5.15), (7, 5.05), (7.5, 4.4), (8, 4.37), (9, 4.3)]
"""Water got in after the third reading: those after it are low alike, which uptake cannot do."""


def test_a_thinned_bath_tells_no_time_and_no_figure():
    sheet = typed(WATERED)
    assert taken(4.3) > WANTED - NATIVE
    assert sheet["A9"] > 0
    assert "bath looks thinned" in sheet["A10"]
    assert "Passed" not in sheet["J9"]
    assert not [row for row in range(14, 20) if "its target" in sheet[f"J{row}"]]


def test_what_may_be_done_already_is_not_said_to_be_done_at_the_last_reading():
    sheet = typed(WATERED)
    assert behind(sheet, log.BESIDE)["At the soonest"] == 0
    assert sheet["C9"] == "maybe already"


def test_a_target_only_just_reached_is_not_called_passed_and_keeps_its_latest_hour():
    sheet = typed([(6, 5.15), (9, 4.85)])
    slow = behind(sheet, log.BESIDE)["At the latest"]
    assert slow > 1
    assert sheet["J9"] == "It seems to have reached its target between 06:00 and 09:00: take it out now."
    assert sheet["G9"] == pytest.approx(serial(at(9)) + slow / 24, abs=MINUTE)


@each("wrong", [1, 2])
def test_a_reading_in_doubt_does_not_say_when(wrong):
    rows = [(5, 5.3), (6, 5.15), (7, 5.05), (8, 4.95), (9, 4.88)]
    rows[wrong] = (rows[wrong][0], 4.2)
    sheet = typed(rows)
    assert behind(sheet, log.BESIDE)["Wrong reading"] == wrong + 1
    assert "its target" not in sheet[f"J{14 + wrong}"]
    assert behind(sheet, log.BESIDE)["First reading at it"] != wrong + 1


FRESHENED = {"product": "salt cod", "thickness": 20.0, "target": 0.03, "strength": 0.005, "ratio": 15.0}
"""Salted cod in a large weak bath, which draws salt out of it."""


def freshened(readings: list) -> Sheet:
    """The log of such a batch; it went in four days before."""
    row, columns = plan.FIRST_ROW + PLAIN - 1, plan.grid().columns
    given = {("Plan", row, column_index_from_string(columns[key])): value for key, value in FRESHENED.items()}
    typed = [("E6", WENT_IN - datetime.timedelta(days=4))]
    for number, (day, reading) in enumerate(readings, log.FIRST):
        typed += [(f"B{number}", WENT_IN - datetime.timedelta(days=4 - day)), (f"C{number}", reading)]
    for cell, value in typed:
        at = ("Log", *coordinate_to_tuple(cell))
        given[at] = serial(value) if isinstance(value, datetime.datetime) else value
    with filled("metric").supposing(given):
        return snapshot(filled("metric"))["Log"]


def shown(holds: float) -> float:
    """What a meter shows, per cent of the solution, of a bath that holds so much of its water."""
    return round(100 * holds / (1 + holds), 2)


def test_a_bath_that_freshens_rises_and_its_product_gets_less_salty_than_wanted():
    days = (1, 2, 3, 4)
    expected = freshened([(day, 1.2) for day in days])  # of a product at the planned speed, and it stays too long
    sheet = freshened([(day, shown(expected[f"G{row}"] * 1.04)) for row, day in enumerate(days, log.FIRST)])
    assert sheet["A9"] == "take out"
    assert sheet["J9"].startswith("Passed its target between no. 2 and no. 3: ")  # a time of day would not say which
    assert "less salty than wanted" in sheet["J9"]
    assert "Past its target." in sheet["J17"]


def test_a_bath_that_freshens_fast_is_the_one_that_holds_more():
    expected = freshened([(1, 1.2)])["G14"]
    said = [freshened([(1, shown(expected * factor))])["J14"] for factor in (0.6, 0.93, 1.07, 1.6)]
    for words, text in zip(("Lower than slow", "slower than planned", "faster than planned", "Higher than fast"), said):
        assert words in text
