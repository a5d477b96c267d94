"""Days as spreadsheet programs count them; numbers and their dates are those of the programs' own documentation."""

from __future__ import annotations

import datetime

import pytest

from brinecalc.hosts import days
from brinecalc.workbook import overdue


@pytest.mark.parametrize(("day", "number"), [("2008-01-01", 39448), ("2023-03-15", 45000), ("1900-03-01", 61)])
def test_a_day_has_its_number(day: str, number: int):
    """39448 is the documentation's own example for a date as a number."""
    date = datetime.date.fromisoformat(day)
    assert days.number(date) == number
    assert days.moment(number).date() == date


def test_half_past_noon_in_any_time_zone_is_half_past_noon():
    noon = datetime.datetime(2008, 1, 1, 12, 0, tzinfo=datetime.timezone(datetime.timedelta(hours=9)))
    assert days.number(noon) == 39448.5


def test_a_workbook_may_count_from_1904():
    """The documentation's figure for the difference: 1462 days, four years and a day."""
    date = datetime.date(2027, 3, 16)
    assert days.number(date) - days.number(date, from_1904=True) == 1462
    assert days.moment(45000, from_1904=True) == datetime.datetime(2027, 3, 16)


@pytest.mark.parametrize("day", [46449, 46450])
def test_no_minute_of_the_day_is_told_as_the_one_before(day: int):
    """As the programs keep them: in full, and with the 12 digits that the headless engine writes."""
    for minute in range(1440):
        expected = f"{minute // 60:02}:{minute % 60:02}"
        for kept in (day + minute / 1440, float(f"{day + minute / 1440:.12g}")):
            assert f"{days.moment(kept):%H:%M}" == expected
            assert overdue.said(kept).endswith(expected)


def test_a_number_past_all_calendars_is_no_moment():
    with pytest.raises(OverflowError):
        days.moment(1e9)
