"""The log: readings, what they mean, and the forecast."""

from __future__ import annotations

import datetime
import re

import pytest
from cards import (
    DRY,
    EVEN,
    INJECTED,
    MINUTE,
    NOON,
    PLAIN,
    STOPPED,
    Sheet,
    behind,
    computed,
    example,
    filled,
    letter,
    opened,
    printed,
    serial,
    snapshot,
)
from openpyxl.utils.cell import column_index_from_string, coordinate_to_tuple

from brinecalc import registry
from brinecalc.workbook.sheets import log, log_rows, plan

READINGS = {
    "B14": datetime.datetime(2027, 3, 5, 7), "C14": 0.0545, "D14": 3,
    "B15": datetime.datetime(2027, 3, 5, 8), "C15": 95, "D15": 3,
    "C16": 0.0530, "D16": 4.5,
    "B17": datetime.datetime(2027, 3, 5, 9), "C17": 0.0530, "D17": 6,
    "B18": datetime.datetime(2027, 3, 5, 5), "C18": 0.0560, "D18": 3,
    "B19": datetime.datetime(2027, 3, 5, 9, 30), "C19": 0.0525,
    "E6": datetime.datetime(2027, 3, 5, 6),
}  # fmt: skip
"""When it really went in, and readings: one impossible, one without a time, one too early, three good."""


def logged(number: int = PLAIN) -> Sheet:
    return computed(number, "metric", tuple(READINGS.items()))["Log"]


def test_readings_become_strengths_hours_and_salt_taken_up():
    sheet = logged()
    holds = 0.0545 / (1 - 0.0545)  # per cent of the solution as a share of the water
    assert sheet["F14"] == pytest.approx(holds)
    assert sheet["H14"] == pytest.approx(1)
    assert sheet["I14"] == pytest.approx(0.06 - holds)  # as much water as product


def test_a_reading_that_cannot_be_used_is_left_out_and_says_why():
    sheet = logged()
    assert sheet["J15"].startswith("Left out. The reading must be")
    assert sheet["J18"] == "Left out. Read before the product went in."
    assert behind(sheet, log.BESIDE)["Readings used"] == 3
    assert sheet["C9"] <= sheet["E9"] <= sheet["G9"]


def meter_log(*cells: tuple) -> Sheet:
    return computed(PLAIN, "metric", (("E6", datetime.datetime(2027, 3, 5, 6)), *cells))["Log"]


def test_a_time_without_its_date_shows_no_day_and_counts_no_hours():
    """A bare time is a part of a day; a form with a weekday would show the last days of 1899."""
    sheet = computed(PLAIN, "metric", (("E6", datetime.time(6, 0)), ("B14", datetime.time(7, 0)), ("C14", 5.4)))["Log"]
    assert sheet["A3"] == "Put in at must be a date and a time, such as 2026-12-04 17:30."
    assert sheet.get("H14", "") == ""
    assert "Left out. The date is missing" in sheet["J14"]
    made = opened()["Log"]
    for cell in ("B14", "E6"):
        assert made[cell].number_format == '[<1]"no date "hh:mm;ddd d mmm hh:mm'


AT_SEVEN = ("B14", datetime.datetime(2027, 3, 5, 7))


@pytest.mark.parametrize("typed", [5.4, 0.054, "5.4 %"])
def test_a_salt_meter_that_shows_5_4_is_typed_as_5_4(typed):
    sheet = meter_log(AT_SEVEN, ("C14", typed), ("D14", 3))
    assert sheet["F14"] == pytest.approx(0.054 / (1 - 0.054))  # per cent of the solution as a share of the water
    assert sheet["J14"].startswith("In the range")


@pytest.mark.parametrize("typed", [5.4, 0.054])
def test_beside_a_reading_stands_how_it_was_read(typed):
    assert meter_log(AT_SEVEN, ("C14", typed))["E14"] == "5.4 %"


def test_a_weak_reading_below_one_is_per_cent_too():
    assert meter_log(AT_SEVEN, ("C14", 0.8))["F14"] == pytest.approx(0.008 / (1 - 0.008))


def test_a_reading_that_could_be_two_things_is_refused_with_what_to_type():
    sheet = meter_log(AT_SEVEN, ("C14", 0.2), ("D14", 3))  # 20 %, or a meter that shows 0.2
    assert "F14" not in sheet
    assert sheet["J14"] == "Left out. 20 % is more than the bath began with. If the meter shows 0.2, type 0.2%."
    assert behind(sheet, log.BESIDE)["Readings used"] == 0


def test_the_heading_says_what_to_type_for_the_chosen_instrument():
    assert meter_log()["C13"] == "5.4 where it shows 5.4 %"
    assert meter_log(("B6", "hydrometer"))["C13"] == "sg, such as 1.035"
    assert {name for name, _, _ in log_rows.SHOWS} == set(registry.spec("BRINE_METER").arguments[1].choices)


def test_a_temperature_that_is_text_fails_with_a_sentence():
    sheet = meter_log(AT_SEVEN, ("C14", 5.4), ("D14", "cold"))
    assert sheet["J14"] == "Left out. Type the temperature as a plain number in °C, such as 3.5."
    assert behind(sheet, log.BESIDE)["Readings used"] == 0


@pytest.mark.parametrize("typed", ["3,5 C", "38.3 °F", "3.5"])
def test_a_temperature_that_is_text_is_read_where_it_can_be(typed):
    words, number = (meter_log(AT_SEVEN, ("C14", 5.4), ("D14", cell)) for cell in (typed, 3.5))
    assert (words["F14"], words["J14"]) == (pytest.approx(number["F14"]), number["J14"])


def us_log(*cells: tuple) -> Sheet:
    return computed(PLAIN, "US", (("E6", datetime.datetime(2027, 3, 5, 6)), *cells))["Log"]


def test_what_to_type_instead_can_be_typed_in_a_book_of_either_units():
    """Each refusal's own example, typed in its place, is taken."""
    said = us_log(AT_SEVEN, ("C14", 5.4), ("D14", "cold"))["J14"]
    assert said.endswith("as a plain number in °F, such as 38.")
    assert "F14" in us_log(AT_SEVEN, ("C14", 5.4), ("D14", 38))
    said = us_log(AT_SEVEN, ("C14", 5.4), ("D14", 3.5))["J14"]
    assert 'got "3.5 °F"; write it as 4 °C or 40 °F.' in said
    for typed in ("4 °C", "40 °F"):
        assert "F14" in us_log(AT_SEVEN, ("C14", 5.4), ("D14", typed))
    said = us_log(AT_SEVEN, ("C14", "six"))["J14"]
    assert 'got "six"; write it as 5% or 0.05.' in said
    for typed in ("5%", 0.05):
        assert "F14" in us_log(AT_SEVEN, ("C14", typed))
    assert us_log(("B6", "salometer"), AT_SEVEN, ("C14", "six"))["J14"].endswith("write the plain figure of its scale.")


def test_a_refusal_repeats_what_was_typed_in_the_units_of_the_book():
    said = us_log(AT_SEVEN, ("C14", 51), ("D14", 38))["J14"]
    assert 'at 38 °F / 3.333 °C, got "51%";' in said


@pytest.mark.parametrize(("typed", "share"), [("6 1/3", 19 / 300), ("5.4", 0.054), ("0.054", 0.054), ("0,054", 0.054)])
def test_a_reading_that_is_text_is_in_per_cent_as_a_number_is(typed, share):
    assert meter_log(AT_SEVEN, ("C14", typed))["F14"] == pytest.approx(share / (1 - share))


@pytest.mark.parametrize(
    ("typed", "words"), [(5 / 24, "The date is missing under Put in at"), ("05:00", "Put in at must be")]
)
def test_a_time_alone_for_when_it_went_in_is_told_in_the_row_too(typed, words):
    sheet = computed(PLAIN, "metric", (("E6", typed), AT_SEVEN, ("C14", 5.4)))["Log"]
    assert sheet["J14"].startswith(f"Left out. {words}")


def test_a_moment_that_is_text_fails_with_a_sentence():
    sheet = meter_log(("B14", "seven"), ("C14", 5.4), ("D14", 3))
    assert sheet["J14"].startswith("Left out. When must be a date and a time")
    assert "Put in at must be" in computed(PLAIN, "metric", (("E6", "early"),))["Log"]["A3"]


def test_a_time_without_a_date_says_that_the_date_is_missing():
    sheet = meter_log(("B14", 14 / 24), ("C14", 5.4))
    assert sheet[f"{letter('at_says')}14"] == "Left out. The date is missing; type 2026-12-04 14:00."
    assert f"{letter('at_hours')}14" not in sheet
    assert f"{letter('at_holds')}14" in sheet
    assert f"{letter('at_taken')}14" not in sheet  # of a reading that is left out nothing is told of the product
    assert f"{letter('at_taken')}14" not in meter_log(("B14", "10pm"), ("C14", 5.4))


@pytest.mark.parametrize("typed", ["4,6", "4,6%", "4,6 %"])
def test_a_decimal_comma_is_read_as_the_plan_reads_it(typed):
    assert meter_log(("B14", NOON), ("C14", typed))[f"{letter('at_holds')}14"] == pytest.approx(
        meter_log(("B14", NOON), ("C14", 4.6))[f"{letter('at_holds')}14"]
    )


def test_a_reading_that_no_brine_can_have_leaves_the_bath_blank_and_says_why():
    sheet = meter_log(("B14", NOON), ("C14", 43))
    assert f"{letter('at_holds')}14" not in sheet
    assert sheet[f"{letter('at_says')}14"].startswith("Left out. The ")


def test_a_warm_brine_does_not_hide_what_its_reading_says():
    sheet = meter_log(AT_SEVEN, ("C14", 5.4), ("D14", 4.5))
    assert sheet["J14"].startswith("Above 4\u00a0°C: chill at once. In the range")
    assert "discard. Left out. When was it read?" in meter_log(("C14", 5.4), ("D14", 6))["J14"]


def test_warm_brine_is_said_first():
    sheet = logged()
    assert sheet["J16"].startswith("Above 4\u00a0°C: chill at once.")
    assert sheet["J17"].startswith("Above 5\u00a0°C: chill now")


def test_done_at_is_the_last_reading_and_the_hours_to_go():
    sheet = logged()
    begun, last = NOON - 6 / 24, 3.5
    assert sheet["E9"] == pytest.approx(begun + (last + sheet["A9"]) / 24, abs=MINUTE)


def test_a_last_reading_that_is_in_doubt_is_no_reason_to_take_out():
    """A bath does not gain salt while the product takes it up."""
    good = AT_SEVEN, ("C14", 5.5), ("B15", datetime.datetime(2027, 3, 5, 8)), ("C15", 5.4)
    late = ("B16", datetime.datetime(2027, 3, 5, 11)), ("C16", 5.6)
    before, after = meter_log(*good), meter_log(*good, *late)
    assert before["A9"] > 0
    assert after["A10"].startswith("Reading no. 3 is probably wrong.")
    assert after["A9"] == "read again"
    assert after["J9"].startswith("The last reading is in doubt: stir, read again")
    assert [after.get(cell, "") for cell in ("C9", "E9", "G9")] == ["", "", ""]


def test_another_instrument_is_read_by_its_own_scale():
    # the salometer leaflet: 100 degrees are 26.395 % of the solution at 60 °F
    sheet = computed(PLAIN, "metric", (("B6", "salometer"), ("C14", 20), ("D14", (60 - 32) / 1.8)))["Log"]
    solution = 0.2 * 0.26395
    assert sheet["F14"] == pytest.approx(solution / (1 - solution), rel=1e-4)


def test_without_readings_there_is_no_forecast_and_nothing_in_the_way():
    sheet = computed(PLAIN)["Log"]
    assert sheet["A10"] == "No reading yet."
    assert not [at for at in ("A9", "C9", "E9", "G9", "J9") if at in sheet]
    assert not [at for at in (f"{letter}14" for letter in "BCDEFGHIJ") if at in sheet]


@pytest.mark.parametrize(("number", "words"), [(DRY, "No brine to read"), (INJECTED, "No brine to read"),
                                               (EVEN, "there is no forecast"), (STOPPED, "STOP")])  # fmt: skip
def test_other_batches_are_told_why_there_is_no_forecast(number, words):
    sheet = logged(number)
    assert words in sheet["A3"]
    assert "A9" not in sheet
    assert ("M15" in sheet) == (number != EVEN)  # words in the middle of a chart that stays empty


def test_the_example_log_lies_within_what_is_known_of_the_product():
    sheet = example()["Log"]
    said = [sheet[f"J{row}"] for row in range(log.FIRST, log.FIRST + 5)]
    assert all(text.startswith(("In the range", "Above 4")) for text in said)
    assert sheet["A9"] > 0


def test_one_reading_is_no_forecast_yet_and_no_error():
    one = {key: READINGS[key] for key in ("B14", "C14", "D14", "E6")}
    sheet = computed(PLAIN, "metric", tuple(one.items()))["Log"]
    assert sheet["F14"] == pytest.approx(0.0545 / (1 - 0.0545))
    assert sheet.get("A9", "") == ""
    assert sheet["A10"] == "One reading so far; a forecast needs two."


def at(hour: int, minute: int = 0, day: int = 5) -> datetime.datetime:
    return datetime.datetime(2027, 3, day, hour, minute)


WENT_IN = ("E6", at(6))
GOOD = {14: (at(7), 5.25), 15: (at(8), 5.10), 16: (at(9), 4.98), 17: (at(10), 4.90), 18: (at(11), 4.81)}
"""Readings of one batch by row, in order of time."""


def logbook(rows: dict) -> Sheet:
    cells = [(f"{letter}{row}", value) for row, typed in rows.items() for letter, value in zip("BC", typed)]
    return computed(PLAIN, "metric", (WENT_IN, *cells))["Log"]


FORECAST = ("A9", "C9", "E9", "G9", "J9")


@pytest.mark.parametrize("row", GOOD)
@pytest.mark.parametrize("when", [at(9, day=6), at(6, 20)])
def test_a_row_out_of_order_of_time_is_left_out_by_its_number_and_spoils_no_other(row, when):
    wrong = logbook({**GOOD, row: (when, GOOD[row][1])})
    without = logbook({number: typed for number, typed in GOOD.items() if number != row})
    in_order = (row == 14 and when < GOOD[15][0]) or (row == 18 and when > GOOD[17][0])
    if not in_order:
        assert wrong[f"J{row}"] == "Left out. Rows run in order of time: move it to its place, or mend When."
        assert wrong["A10"].startswith(f"No. {row - 13} is left out: rows run in order of time.")
        assert [wrong[cell] for cell in FORECAST] == [without[cell] for cell in FORECAST]
    assert not [number for number in GOOD if number != row and "in order of time" in wrong[f"J{number}"]]
    assert not [cell for cell, value in wrong.items() if str(value).startswith("#")]


def test_two_readings_of_one_time_are_no_error():
    twice = logbook({**GOOD, 19: (at(11), 5.0)})
    assert twice["J19"] == "Left out. A row above has the same time."
    assert [twice[cell] for cell in FORECAST] == [logbook(GOOD)[cell] for cell in FORECAST]


def test_of_two_rows_that_contradict_only_each_other_one_is_left_out():
    swapped = logbook({**GOOD, 15: GOOD[16], 16: GOOD[15]})
    out = [number for number in GOOD if swapped[f"J{number}"].startswith("Left out.")]
    assert len(out) == 1
    assert out[0] in (15, 16)
    assert swapped["A9"] == logbook(GOOD)["A9"]


def test_each_of_two_rows_out_of_order_is_left_out():
    sheet = logbook({**GOOD, 15: (at(8, day=6), 5.30), 17: (at(10, day=7), 5.12)})
    without = logbook({number: GOOD[number] for number in (14, 16, 18)})
    assert [number for number in GOOD if "in order of time" in sheet[f"J{number}"]] == [15, 17]
    assert [sheet[cell] for cell in FORECAST] == [without[cell] for cell in FORECAST]


FUNCTIONS_WORDS = ("BRINE_", "readings", "share", "native_salt")


def test_a_forecast_that_cannot_be_made_says_why_and_shows_no_error():
    """The words of the page: the reading as typed, what the bath would hold, and what its own column expects."""
    sheet = logbook({14: (at(7), 2.0), 15: (at(8), 1.9)})
    assert sheet["A9"] == "read again"
    assert sheet["J9"].startswith("No. 1 reads 2 %: the bath would hold 2.04\u00a0% of the water, where about ")
    assert f"about {100 * sheet['G14']:.2f}\u00a0% is expected" in sheet["J9"]
    assert sheet["J9"].endswith("Check the meter, the temperature, and the strength on Plan; stir, read again.")
    assert not [cell for cell, value in printed("Log", sheet).items() if str(value).startswith("#")]
    assert not [word for word in FUNCTIONS_WORDS if word in sheet["J9"] + sheet.get("A10", "")]


def test_readings_above_the_start_are_told_as_they_were_typed():
    sheet = logbook({14: (at(7), 6.3), 15: (at(8), 6.5)})
    assert sheet["J9"].startswith("No. 2 reads 6.5 %: the bath would hold 6.95\u00a0% of the water")
    assert "A10" not in sheet


def test_of_readings_that_fit_no_soak_the_one_farthest_off_is_named():
    sheet = logbook({14: (at(7), 1.0), 15: (at(8), 2.9), 16: (at(9), 1.9)})
    assert sheet["J9"].startswith("No. 1 reads 1 %")


@pytest.mark.parametrize(("typed", "told"), [(-5, "-5 %"), (-0.05, "-5 %"), (0, "0 %")])
def test_a_reading_that_is_not_above_0_is_told_as_typed(typed, told):
    sheet = meter_log(AT_SEVEN, ("C14", typed))
    assert sheet["J14"] == f"Left out. A reading is above 0, and {told} was typed."
    assert sheet["E14"] == told
    assert "F14" not in sheet


def weak(strength: float, *readings: float) -> Sheet:
    """The log of the batch in so weak a brine, with readings after one, two, three and six hours."""
    given: dict = {("Plan", plan.FIRST_ROW, column_index_from_string(plan.grid().columns["strength"])): strength}
    typed = [("E6", at(6)), *((f"B{row}", at(6 + hour)) for row, hour in zip(range(14, 18), (1, 2, 3, 6)))]
    given.update({("Log", *coordinate_to_tuple(cell)): serial(moment) for cell, moment in typed})
    given.update({("Log", row, 3): reading for row, reading in enumerate(readings, 14)})
    with filled("metric").supposing(given):
        return snapshot(filled("metric"))["Log"]


def test_a_bath_that_never_gets_there_is_told_in_the_words_of_the_page():
    """Water came in after two hours, and so thinned it ends below what is wanted."""
    sheet = weak(0.024, 2.28, 2.23, 1.88, 1.79)
    assert "A9" not in sheet
    assert sheet["A10"].startswith("Salt wanted in the product must be from 0.114 %, the salt already there, towards ")
    assert not [word for word in FUNCTIONS_WORDS if word in sheet["A10"]]


def test_a_forecast_whose_end_is_open_says_so_and_shows_no_error():
    sheet = weak(0.0228, 2.01, 1.95, 1.88, 1.79)
    assert sheet["A9"] > 0
    assert sheet["G9"] == "open"
    assert re.match(r"From [\d.]+ to no end that is known\. ", sheet["J9"])
    assert not [cell for cell, value in printed("Log", sheet).items() if str(value).startswith("#")]


@pytest.mark.parametrize(
    ("instrument", "reads", "tells"),
    [("salt meter", lambda solution: solution, 0.0005), ("salometer", lambda solution: solution / 0.26395 * 100, 0.5)],
)
def test_what_a_meter_cannot_tell_apart_is_not_called_faster_or_slower(instrument, reads, tells):
    """A difference counts beyond half a step of the scale, or beyond what such meters are out by, about 1 %."""

    def says(reading: float) -> str:
        typed = (("B6", instrument), AT_SEVEN, ("C14", reading), ("D14", (60 - 32) / 1.8))
        return computed(PLAIN, "metric", (WENT_IN, *typed))["Log"]["J14"]

    expected = meter_log(AT_SEVEN, ("C14", 5.4))["G14"]
    shown = reads(expected / (1 + expected))
    unsure = max(tells, shown * 0.01)
    for part in (-0.9, 0, 0.9):
        assert "In the range, as planned" in says(shown + part * unsure)
    assert "faster than planned" in says(shown - 1.3 * unsure)
    assert "slower than planned" in says(shown + 1.3 * unsure)


EARLY = {14: (at(6, 30), 5.37), 15: GOOD[14]}
LATE = {14: (at(8), 5.4), 15: (at(10), 5.32), 16: (at(14), 5.2)}


@pytest.mark.parametrize("rows", [EARLY, LATE])
def test_the_plan_is_called_too_long_or_too_short_only_outside_the_range_of_the_forecast(rows):
    sheet = logbook(rows)
    block = behind(sheet, log.BESIDE)
    low, high = (block["Last reading, h"] + block[words] for words in ("At the soonest", "At the latest"))
    inside = low <= block["Soak, h"] <= high
    assert ("lie in that range" in sheet["J9"]) == inside
    assert ("than planned" in sheet["J9"]) != inside
    assert inside == (rows is EARLY)


@pytest.mark.parametrize("year", [2026, 2028])
def test_a_reading_of_another_year_is_left_out_and_asked_for_its_year(year):
    sheet = logbook({**GOOD, 19: (datetime.datetime(year, 3, 5, 11, 30), 4.78)})
    assert sheet["J19"] == f"Left out. Months from when it went in: is its year, {year}, right?"
    assert [sheet[cell] for cell in FORECAST] == [logbook(GOOD)[cell] for cell in FORECAST]
