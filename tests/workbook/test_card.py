"""The card: what the cook reads, checked by arithmetic and against kitchen words."""

from __future__ import annotations

import re
from typing import Dict

import pytest
from cards import (
    DRY,
    EMPTY,
    EVEN,
    FAILING,
    FULL,
    INJECTED,
    MINUTE,
    NATIVE,
    NOON,
    PLAIN,
    STOPPED,
    SWEET,
    behind,
    computed,
    filled,
    opened,
    printed,
    words,
)
from each import each
from openpyxl.utils.cell import (
    column_index_from_string,
)

from brinecalc import registry
from brinecalc.workbook.sheets import card, card_lists, results


def weighed(number: int, units: str = "metric") -> Dict[str, tuple]:
    """The card's list: name → (figure, unit)."""
    sheet = computed(number, units)["Card"]
    rows = range(12, 12 + len(card_lists.WEIGHED))
    return {sheet[f"B{row}"]: (sheet.get(f"E{row}"), sheet.get(f"G{row}")) for row in rows}


@pytest.mark.parametrize(("units", "code"), [("metric", 9), ("US", 1)], ids=["A4", "Letter"])
def test_the_card_is_one_upright_page(units, code):
    setup = opened(units)["Card"].page_setup
    assert (setup.paperSize, setup.orientation, setup.fitToWidth, setup.fitToHeight) == (code, "portrait", 1, 1)


def test_the_card_weighs_out_the_plain_brine_by_hand_reckoning():
    listed = weighed(PLAIN)
    water, ice = listed["water"][0], listed["ice"][0]
    assert water + ice == pytest.approx(10)  # as much water as product, ice held back from it
    assert listed["salt"] == (pytest.approx(0.06 * 10_000), "g")  # strength as a share of the water
    assert set(listed) == {"water", "ice", "salt", "—"}  # what is not used takes no line


def test_the_card_shows_the_same_food_in_us_units_and_the_curing_salt_in_grams():
    """It is weighed on a scale that reads to 0.1 g, whatever the units."""
    metric, us = weighed(INJECTED), weighed(INJECTED, "US")
    pounds = 10 * 0.45359237  # the same figure typed as pounds is a smaller batch
    assert us["salt"][1] == "oz"
    assert us["salt"][0] * 28.349523125 == pytest.approx(metric["salt"][0] * pounds / 10)
    grams, unit = us["curing salt no. 1"]
    assert unit == metric["curing salt no. 1"][1] == "g"
    assert grams == pytest.approx(metric["curing salt no. 1"][0] * pounds / 10)


@pytest.mark.parametrize("number", [STOPPED, FAILING, EMPTY])
def test_a_batch_that_may_not_start_shows_no_figure_at_all(number):
    cells = printed("Card", computed(number)["Card"])
    choice = cells.pop("R1")
    assert choice == number
    allowed = {"A2"} if number != EMPTY else set()  # the batch's own number and product in its title
    for address, value in cells.items():
        assert isinstance(value, str), (address, value)
        fixed = address in allowed or address in ("H5", f"A{max(row_of(a) for a in cells)}")
        assert fixed or not re.search(r"\d", str(value)), (address, value)


def row_of(address):
    return int(re.sub(r"\D", "", address))


def test_a_stop_says_do_not_start_and_why():
    sheet = computed(STOPPED)["Card"]
    assert sheet["A5"] == "DO NOT START"
    assert sheet["A2"].startswith("STOP")
    assert sheet["A5"].isupper()
    assert "cola" in sheet["H5"]


def test_a_failing_batch_says_do_not_start_and_why():
    sheet = computed(FAILING)["Card"]
    assert sheet["A5"] == "DO NOT START"
    assert sheet["A2"].startswith("STOP")
    assert "9\u00a0°C" in sheet["H5"]  # no line ends between them
    assert sheet["B12"] == "Nothing to weigh out"
    assert sheet["J12"].startswith("Do not start")


def test_an_empty_row_says_so_and_is_no_stop():
    sheet = computed(EMPTY)["Card"]
    assert sheet["A5"] == "NO BATCH"
    assert "empty" in sheet["H5"]


def test_moments_run_backwards_from_when_it_must_be_ready():
    sheet = computed(PLAIN)["Card"]
    held = behind(sheet, card.BESIDE)
    assert sheet["Q8"] == pytest.approx(NOON, abs=MINUTE)
    assert sheet["I8"] == pytest.approx(NOON - 2 / 24, abs=MINUTE)  # two hours of rest, as on Start
    assert sheet["A8"] == pytest.approx(NOON - (2 + held["Soak, h"]) / 24, abs=MINUTE)
    assert sheet["E8"] < sheet["I8"] < sheet["M8"]


def test_the_meter_should_show_what_the_mass_balance_leaves_in_the_bath():
    sheet = computed(PLAIN)["Card"]
    rows = range(26, 31)
    expected = [sheet[f"D{row}"] for row in rows]
    taken = 0.01 - NATIVE  # as much water as product, so what the product gains the water loses
    assert expected[0] == pytest.approx(0.06 / 1.06)
    assert expected[-1] == pytest.approx((0.06 - taken) / (1.06 - taken), rel=1e-4)
    assert expected == sorted(expected, reverse=True)
    for row in rows[1:]:
        assert sheet[f"F{row}"] < sheet[f"D{row}"] < sheet[f"G{row}"]  # fast salt leaves the bath weaker


def test_card_and_results_expect_the_same_reading_at_the_end():
    for number in (PLAIN, EVEN, SWEET):
        grid = results.grid()
        at = column_index_from_string(grid.columns["r_meter"])
        shown = filled("metric").value(results.SHEET, grid.first_row + number - 1, at)
        assert computed(number)["Card"]["D30"] == pytest.approx(shown)


def test_sugar_is_allowed_for_in_what_the_meter_should_show():
    held = behind(computed(SWEET)["Card"], card.BESIDE)
    shows, sugar = held["Salt meter at the start"], held["Sugar, of the brine"]
    assert sugar == pytest.approx(500 / (10_000 + 600 + 500), rel=0.01)  # white sugar is 99.8 % sugar
    assert shows < 0.06 / 1.06
    assert registry.call("BRINE_METER", shows, "salt meter", "", "water", sugar) == pytest.approx(0.06, rel=0.002)


@pytest.mark.parametrize(("units", "degrees"), [("metric", ("57", "21", "5")), ("US", ("135", "70", "41"))])
def test_cooling_in_two_stages_is_the_common_rule(units, degrees):
    # model food code 3-501.14, read: 57 to 21 °C within 2 h, to 5 °C within 4 h more; 135, 70 and 41 °F
    text = words(PLAIN, units)
    word = "°C" if units == "metric" else "°F"
    hot, middle, cold = degrees
    for part in (f"At {hot} {word} at", f"At {middle} {word}, within 2 h", f"At {cold} {word}, within 4 h more"):
        assert part in text


def test_limits_and_what_to_do_stand_beside_the_readings():
    text = words(PLAIN)
    assert "Above 4 °C: chill at once." in text
    assert "4 h in all above 5 °C: discard." in text  # model food code 3-501.16 and 3-501.19, read
    for box in ("Lot number of this batch", "Meter last checked on", "Initials"):
        assert box in text


@each(
    ("number", "head", "doubt"),
    [
        (PLAIN, "Salt meter should show: usual, low, high", "Meter in doubt? Try a weighed brine."),
        (SWEET, "Salt meter should show: usual, low, high (sugar allowed for)", "Meter in doubt? Try a weighed brine."),
        (INJECTED, "Salt meter should show, before it goes in", "Meter in doubt? Try a weighed brine."),
        (DRY, "No brine to read", "Thermometer: try it in ice water."),
    ],
)
def test_what_the_readings_are_and_which_instrument_to_try_is_said(number, head, doubt):
    sheet = computed(number)["Card"]
    cells = {str(value).replace("\u00a0", " "): address for address, value in sheet.items()}
    assert doubt in cells
    at = row_of(cells[head]) + 3
    if "usual" in head:
        usual, low, high = (sheet[f"{letter}{at}"] for letter in "DFG")
        assert low < usual < high


def test_a_bath_in_balance_is_not_told_to_come_out_sooner_or_later():
    said = words(EVEN)
    assert "Lower: stir; check the weights." in said
    assert "Higher: stir; check the weights." in said
    assert "a little" not in said


def test_boxes_for_the_curing_salt_stand_only_where_there_is_any():
    with_cure, without = words(DRY), words(PLAIN)
    assert "Second person" in with_cure
    assert "Second person" not in without
    assert without.count("No curing salt") == 1
    assert "No curing salt" not in with_cure


def test_curing_salt_is_weighed_finely_and_checked_by_a_second_person():
    text = words(DRY)
    for part in (
        "on a 0.1 g scale",
        "a second person checks it and signs",
        "Curing salt weighed by",
        "Lot no. of the curing salt",
    ):
        assert part in text


@pytest.mark.parametrize("number", [PLAIN, DRY, INJECTED, STOPPED, FAILING, SWEET, EVEN, FULL])
def test_the_card_speaks_kitchen_words(number):
    text = words(number)
    for word in ("gradient", "equilibrium", "BRINE_", "diffusi"):
        assert word not in text


def test_the_salt_of_a_batch_left_to_equilibrium_is_said_to_be_by_weight():
    assert "2.2 % salt by weight." in words(EVEN)
    assert "1 % salt on average." in words(PLAIN)
