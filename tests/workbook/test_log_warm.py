"""The log adds up the time that a batch is too warm, and says when it must be thrown away."""

from __future__ import annotations

import datetime

import pytest
from cards import EVEN, FERMENT, PLAIN, Sheet, behind, computed
from each import each

from brinecalc.trade import limits
from brinecalc.workbook.sheets import log

MOST = limits.value("warm hours")
"""Food Code 3-501.19: what is time and temperature controlled is discarded after 4 hours out of control."""


def at(hour: float, day: int = 5) -> datetime.datetime:
    whole = datetime.timedelta(minutes=round(hour * 60))
    return datetime.datetime(2027, 3, day) + whole


WENT_IN = ("E6", at(6))
READ = {6: 5.7, 7: 5.45, 9: 5.25, 11: 5.1, 13: 5.0}
"""What a meter shows at those hours in a batch that went in at six."""


def typed(rows: list, number: int = PLAIN, units: str = "metric") -> Sheet:
    """The log with those rows: hour, reading, temperature; None where nothing is typed."""
    cells = [
        (f"{letter}{row}", value)
        for row, (hour, reading, degree) in enumerate(rows, log.FIRST)
        for letter, value in zip("BCD", (at(hour), reading, degree))
        if value is not None
    ]
    return computed(number, units, (WENT_IN, *cells))["Log"]


def kept(*degrees: float) -> list:
    """Readings at seven, nine, eleven and one o'clock, at those temperatures."""
    return [(hour, READ[hour], degree) for hour, degree in zip((7, 9, 11, 13), degrees)]


def warm_hours(sheet: Sheet) -> float:
    found = behind(sheet, log.BESIDE)["Too warm in all, minutes"]
    assert isinstance(found, float)
    return found / 60


def test_over_four_hours_in_the_warm_is_discarded_and_not_forecast():
    sheet = typed(kept(8.5, 9, 8))
    assert sheet["A9"] == "DISCARD"
    assert sheet["J9"].startswith("DISCARD the product and its brine: by these readings up to 5 h above 5\u00a0°C")
    assert f"{MOST:g} h in all" in sheet["J9"]
    assert [sheet.get(cell, "") for cell in ("C9", "E9", "G9", "A10")] == ["", "", "", ""]
    assert sheet["J16"].startswith("Above 5\u00a0°C for up to 5 h in all: discard.")


@each(
    ("degrees", "hours"),
    [
        ((3, 4, 5), 0.0),  # at the limit is not above it
        ((5.1, 3, 3), 3.0),  # from when it went in, and until the next
        ((3, 5.1, 3), 4.0),
        ((3, 3, 5.1), 2.0),
        ((3, 5.1, 3, 5.1), 6.0),
        ((9, 9, 9, 9), 7.0),
    ],
)
def test_a_stretch_between_two_temperatures_is_warm_if_one_end_is(degrees, hours):
    assert warm_hours(typed(kept(*degrees))) == pytest.approx(hours)


def test_up_to_the_limit_is_said_as_used_up_and_past_it_by_a_minute_as_too_long():
    four = [(7, 5.45, 3), (8, 5.35, 6), (11, 5.1, 3)]
    sheet = typed(four)
    assert isinstance(sheet["A9"], float)
    assert sheet["A10"].startswith(f"Above 5\u00a0°C for up to 4 h so far, {MOST:g} h at most")
    longer = typed([*four[:2], (11 + 1 / 60, 5.1, 3)])
    assert longer["A9"] == "DISCARD"
    assert "up to 4.1 h" in longer["J9"]


def test_the_warm_goes_on_after_the_last_temperature_until_the_last_reading():
    sheet = typed([(7, 5.45, 3), (9, 5.25, 8), (11, 5.1, None), (13, 5.0, None)])
    assert warm_hours(sheet) == pytest.approx(6)
    assert warm_hours(typed([(7, 5.45, 3), (9, 5.25, None), (11, 5.1, None)])) == 0


@each("reading", [None, 43, "six", -5, 0.2])
def test_a_temperature_counts_whatever_becomes_of_its_reading(reading):
    assert warm_hours(typed([(7, 5.45, 3), (9, reading, 8), (11, 5.1, 3)])) == pytest.approx(4)


@each("reading", [5.2, None])
def test_a_row_out_of_order_of_time_is_left_out_of_the_sum_until_it_is_mended(reading):
    sheet = typed([(7, 5.45, 3), (24 + 9, reading, 8), (11, 5.1, 3), (13, 5.0, 3)])
    assert warm_hours(sheet) == 0
    assert "Left out. Rows run in order of time" in sheet["J15"]


def test_a_temperature_without_its_time_is_asked_when_it_was():
    cells = (WENT_IN, ("D14", 8))
    assert computed(PLAIN, "metric", cells)["Log"]["J14"].endswith("Left out. When was it read?")


@each("number", [EVEN, FERMENT])
def test_what_is_not_kept_cold_is_never_discarded_for_its_warmth(number):
    sheet = typed(kept(18, 18, 18, 18), number)
    assert warm_hours(sheet) == 0
    assert "A9" not in sheet
    assert "DISCARD" not in " ".join(str(value) for value in sheet.values())


def test_in_us_figures_it_is_told_in_fahrenheit():
    sheet = typed(kept(47, 48, 46), units="US")
    assert "up to 5 h above 41\u00a0°F" in sheet["J9"]
    assert warm_hours(typed(kept(41, 41, 41), units="US")) == 0
