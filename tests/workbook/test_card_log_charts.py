"""Card, log and charts: filled in as a person would, computed without a spreadsheet program, checked by arithmetic."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from functools import cache
from typing import Dict, List

import openpyxl
import pytest
from openpyxl.utils.cell import (
    column_index_from_string,
    coordinate_to_tuple,
    get_column_letter,
    range_boundaries,
)

from brinecalc import registry
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook import build
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.sheets import card, card_lists, card_steps, charts, log, log_rows, plan, results

READY = datetime.datetime(2027, 3, 5, 12, 0)
NOON = 46451.5
"""The same moment as a spreadsheet counts days: 46451 is 5 March 2027."""
MINUTE = 1 / 1440

SODIUM = 45 / 100_000
"""Sodium of raw chicken breast, per gram: USDA SR 27, NDB 05062."""
NATIVE = SODIUM / 0.3934
"""As salt, by the atomic masses of sodium and chlorine (39.34 % sodium)."""

PLAIN, DRY, INJECTED, STOPPED, FAILING, SWEET, EVEN, FULL, EMPTY = range(1, 10)

ROWS = {
    PLAIN: {"product": "chicken breast", "label": "Friday lunch", "pieces": 40, "weight": 10, "thickness": 25,
            "method": "gradient", "target": 0.01, "strength": 0.06, "vessel": 40, "ready": READY},
    DRY: {"product": "pork belly", "weight": 9, "thickness": 40, "shape": "slab", "method": "dry equilibrium",
          "target": 0.022, "cure": "curing salt no. 1", "cure_ppm": 115, "cure_method": "dry", "hours": 144,
          "ready": READY},
    INJECTED: {"product": "beef brisket", "pieces": 2, "weight": 10, "thickness": 70, "method": "injected",
               "target": 0.018, "gain": 0.15, "phosphate": "sodium tripolyphosphate", "phosphate_level": 0.02,
               "cure": "curing salt no. 1", "cure_ppm": 100, "cure_method": "pumped", "rest": 36, "ready": READY},
    STOPPED: {"product": "pork shoulder", "weight": 6, "thickness": 60, "method": "equilibrium", "target": 0.015,
              "liquid": "cola", "cure": "curing salt no. 1", "cure_ppm": 80, "cure_method": "equilibrium",
              "ready": READY},
    FAILING: {"product": "duck breast", "weight": 6, "thickness": 40, "method": "gradient", "target": 0.012,
              "strength": 0.05, "bath_degree": 9, "ready": READY},
    SWEET: {"product": "chicken breast", "weight": 10, "thickness": 25, "method": "gradient", "target": 0.01,
            "strength": 0.06, "sweetener": "white sugar", "sweet_level": 0.05, "ready": READY},
    EVEN: {"product": "cucumber", "weight": 6, "thickness": 32, "shape": "cylinder", "method": "equilibrium",
           "target": 0.022, "acid": "vinegar", "acid_level": 0.1, "ready": READY},
    FULL: {"product": "pork loin", "pieces": 1, "weight": 5, "thickness": 30, "shape": "slab", "method": "gradient",
           "target": 0.014, "strength": 0.08, "gain": 0.1, "sweetener": "brown sugar", "sweet_level": 0.02,
           "aroma_one": "juniper berries", "aroma_one_level": 0.004, "aroma_two": "bay leaf", "aroma_two_level": 0.001,
           "phosphate": "sodium tripolyphosphate", "phosphate_level": 0.003, "cure": "curing salt no. 1",
           "cure_ppm": 100, "cure_method": "pick-up", "vessel": 20, "ready": READY},
}  # fmt: skip
"""What a person typed into the plan; row 9 is left empty."""

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

ARIAL = {
    **dict.fromkeys("abdeghnopqu0123456789", 556), **dict.fromkeys("cksvxyz", 500), **dict.fromkeys("ijl", 222),
    **dict.fromkeys("ft :;,./", 278), **dict.fromkeys("r()-", 333), "m": 833, "\u00a0": 278, "%": 889, "°": 400,
    **dict.fromkeys("ABEKPSVXY", 667), **dict.fromkeys("CDHNRUw", 722), **dict.fromkeys("FTZ", 611), "I": 278,
    "L": 556,
}  # fmt: skip
"""Widths of letters in thousandths of the type size: Helvetica, core font metrics, from memory; Arial is alike."""

Sheet = Dict[str, object]


def serial(moment: datetime.datetime) -> float:
    return (moment - datetime.datetime(1899, 12, 30)) / datetime.timedelta(days=1)


@cache
def template(units: str = "metric", paper: str = "A4") -> bytes:
    return build.build(build.Options(units=units, paper=paper))


@cache
def opened(units: str = "metric", paper: str = "A4") -> openpyxl.Workbook:
    return openpyxl.load_workbook(io.BytesIO(template(units, paper)))


@cache
def filled(units: str) -> Trial:
    """The template with the plan typed in, kept ready to be asked."""
    edit = Edit(template(units), "plan.xlsx")
    columns = plan.grid().columns
    for row, cells in ROWS.items():
        for field, value in cells.items():
            typed = serial(value) if isinstance(value, datetime.datetime) else value
            at = column_index_from_string(columns[field])
            edit.put(plan.SHEET, plan.FIRST_ROW + row - 1, at, typed)
    return Trial(edit.done(), "plan.xlsx")


@cache
def example() -> Dict[str, Sheet]:
    return snapshot(Trial(build.build(build.Options(filled=True)), "example.xlsx"))


def snapshot(trial: Trial) -> Dict[str, Sheet]:
    """All cells of the three sheets by address."""
    made = {}
    for name in (card.SHEET, log.SHEET, charts.SHEET):
        places = ((row, at) for row in range(1, 60) for at in range(1, 60))
        cells = {f"{get_column_letter(at)}{row}": trial.value(name, row, at) for row, at in places}
        made[name] = {address: value for address, value in cells.items() if value not in (None, "")}
    return made


@cache
def computed(number: int, units: str = "metric", readings: tuple = ()) -> Dict[str, Sheet]:
    """The three sheets with that batch chosen on each, and with readings typed into the log."""
    trial = filled(units)
    names = Edit(template(units), "plan.xlsx")
    choices = (names.place(name) for name in (card.NAME, log.NAME, charts.NAME))
    cells = {(found.sheet, found.area.top, found.area.left): float(number) for found in choices}
    before = {cell: trial.value(*cell) for cell in cells}
    for address, value in readings:
        cell = (log.SHEET, *coordinate_to_tuple(address))
        before[cell] = trial.value(*cell)
        cells[cell] = serial(value) if isinstance(value, datetime.datetime) else value
    trial.suppose(cells)
    assert not trial.distrusted()
    made = snapshot(trial)
    trial.suppose(before)
    return made


def printed(name: str, sheet: Sheet) -> Sheet:
    """The filled cells of the printed page."""
    area = opened()[name].print_area.split("!")[-1].replace("$", "")
    left, top, right, bottom = range_boundaries(area)
    return {
        address: value
        for address, value in sheet.items()
        for row, at in [coordinate_to_tuple(address)]
        if top <= row <= bottom and left <= at <= right
    }


def words(number: int, units: str = "metric") -> str:
    """All that the card says, in one text."""
    cells = printed("Card", computed(number, units)["Card"])
    return " ".join(str(value) for value in cells.values()).replace("\u00a0", " ")


def behind(sheet: Sheet, column: int) -> Dict[object, object]:
    """The block about the chosen batch, by its words."""
    left, right = get_column_letter(column), get_column_letter(column + 1)
    return {sheet.get(f"{left}{row}"): sheet.get(f"{right}{row}", "") for row in range(3, 60)}


def weighed(number: int, units: str = "metric") -> Dict[str, tuple]:
    """The card's list: name → (figure, unit)."""
    sheet = computed(number, units)["Card"]
    rows = range(12, 12 + len(card_lists.WEIGHED))
    return {sheet[f"B{row}"]: (sheet.get(f"E{row}"), sheet.get(f"G{row}")) for row in rows}


def steps(number: int) -> List[str]:
    sheet = computed(number)["Card"]
    rows = [row for row in range(12, 12 + card_steps.MOST) if f"I{row}" in sheet]
    assert [sheet[f"I{row}"] for row in rows] == list(range(1, len(rows) + 1))
    return [sheet[f"J{row}"] for row in rows]


def place(texts: List[str], part: str) -> int:
    found = [number for number, text in enumerate(texts) if part in text]
    assert len(found) == 1, (part, texts)
    return found[0]


def table(sheet: Sheet, heading: str) -> List[object]:
    """A column of a table beside the page of charts, found by its heading."""
    top = charts.FIRST - 1
    letter = next(re.sub(r"\d", "", at) for at, value in sheet.items() if value == heading and at.endswith(str(top))
                  and coordinate_to_tuple(at) [0] == top)  # fmt: skip
    return [sheet[f"{letter}{row}"] for row in range(top + 1, 60) if f"{letter}{row}" in sheet]


# the card


@pytest.mark.parametrize(("paper", "code"), [("A4", 9), ("letter", 1)])
def test_the_card_is_one_upright_page(paper, code):
    setup = opened("metric", paper)["Card"].page_setup
    assert (setup.paperSize, setup.orientation, setup.fitToWidth, setup.fitToHeight) == (code, "portrait", 1, 1)


def test_the_rows_of_the_card_are_as_high_as_a_letter_page_at_nearly_full_size():
    sheet = opened("US", "letter")["Card"]
    bottom = range_boundaries(sheet.print_area.split("!")[-1].replace("$", ""))[3]
    points = sum(sheet.row_dimensions[row].height for row in range(1, bottom + 1))
    letter = 11 * 72 - 72 * (sheet.page_margins.top + sheet.page_margins.bottom)
    figure = sheet["E12"].font.size * min(1, letter / points)
    assert figure >= 14  # read at arm's length
    assert sheet["J12"].font.size * min(1, letter / points) >= 11


def test_the_card_weighs_out_the_plain_brine_by_hand_reckoning():
    listed = weighed(PLAIN)
    water, ice = listed["water"][0], listed["ice"][0]
    assert water + ice == pytest.approx(10)  # as much water as product, ice held back from it
    assert listed["salt"] == (pytest.approx(0.06 * 10_000), "g")  # strength as a share of the water
    assert set(listed) == {"water", "ice", "salt", "—"}  # what is not used takes no line


def test_the_card_shows_the_same_food_in_us_units_with_grams_beside_the_curing_salt():
    metric, us = weighed(INJECTED), weighed(INJECTED, "US")
    pounds = 10 * 0.45359237  # the same figure typed as pounds is a smaller batch
    assert us["salt"][1] == "oz"
    assert us["salt"][0] * 28.349523125 == pytest.approx(metric["salt"][0] * pounds / 10)
    cure = next(name for name in us if name.startswith("curing salt no. 1"))
    grams = float(re.search(r"\(([\d.]+) g\)", cure)[1])
    assert grams == pytest.approx(metric["curing salt no. 1"][0] * pounds / 10, abs=0.05)


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
    assert "9 °C" in sheet["H5"]
    assert sheet["B12"] == "Nothing to weigh out"
    assert sheet["J12"].startswith("Do not start")


def test_an_empty_row_says_so_and_is_no_stop():
    sheet = computed(EMPTY)["Card"]
    assert sheet["A5"] == "NO BATCH"
    assert "empty" in sheet["H5"]


def test_the_steps_of_a_brine_with_everything_are_in_the_right_order():
    made = steps(FULL)
    phosphate, salt = place(made, "Phosphate first"), place(made, "the salt and brown sugar")
    herbs, cold = place(made, "juniper berries and bay leaf"), place(made, "before it is at 4\u00a0°C")
    cure, product = place(made, "Curing salt last"), place(made, "Put in the piece")
    assert phosphate < salt < herbs < cold < cure < product
    assert (
        product
        < place(made, "read meter")
        < place(made, "Take out")
        < place(made, "pat dry; rest")
        < place(made, "Cook")
    )
    assert "30 to 40\u00a0°C, not hotter" in made[phosphate]
    assert "Never into cola" in made[cure]
    assert len(made) <= card_steps.MOST


def test_steps_follow_the_method():
    dry, injected, even = steps(DRY), steps(INJECTED), steps(EVEN)
    assert not any("water until" in text or "read meter" in text for text in dry)
    assert place(dry, "Mix it all dry") < place(dry, "Rub it all into")
    assert not any("Take out" in text for text in injected)
    assert "15 % more" in injected[place(injected, "Inject evenly")]
    assert not any("curing salt" in text.lower() for text in even)
    assert place(even, "Add the vinegar slowly") < place(even, "Put in")


def test_no_list_of_steps_is_longer_than_the_card():
    wet = [step for step in card_steps.mixing() + card_steps.soaking() if step.when not in ("{dry}=1", "{wet}=0")]
    assert len(wet) <= card_steps.MOST


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
    # model food code 3-501.14, from memory: 57 to 21 °C within 2 h, to 5 °C within 4 h more; 135, 70 and 41 °F
    text = words(PLAIN, units)
    word = "°C" if units == "metric" else "°F"
    hot, middle, cold = degrees
    for part in (f"At {hot} {word} at", f"At {middle} {word}, within 2 h", f"At {cold} {word}, within 4 h more"):
        assert part in text


def test_limits_and_what_to_do_stand_beside_the_readings():
    text = words(PLAIN)
    assert "Above 4 °C: chill at once." in text
    assert "4 h in all above 5 °C: discard." in text  # model food code 3-501.16 and 3-501.19, from memory
    for box in ("Lot number of this batch", "Meter last checked on", "Initials"):
        assert box in text


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


def width(text: str, size: float) -> float:
    return sum(ARIAL.get(letter, 600) for letter in text) * size / 1000


@pytest.mark.parametrize("number", [PLAIN, DRY, INJECTED, EVEN])
@pytest.mark.parametrize("units", ["metric", "US"])
def test_what_to_do_about_a_reading_fits_beside_it(number, units):
    sheet = computed(number, units)["Card"]
    columns = opened()["Card"].column_dimensions
    room = sum(columns[letter].width for letter in "OPQRST") * 5.15 - 12
    said = [str(sheet[f"O{row}"]) for row in range(26, 33) if f"O{row}" in sheet]
    assert len(said) >= 4
    assert [text for text in said if width(text, 9.5) > room] == []


@pytest.mark.parametrize("number", [PLAIN, DRY, INJECTED, SWEET, EVEN, FULL])
@pytest.mark.parametrize("units", ["metric", "US"])
def test_no_step_needs_more_than_its_two_lines(number, units):
    sheet = computed(number, units)["Card"]
    columns = opened()["Card"].column_dimensions
    room = (
        sum(columns[letter].width for letter in "JKLMNOPQR") * 5.15 - 12
    )  # points of a column's unit, less the indent
    for row in range(12, 12 + card_steps.MOST):
        lines = [""]
        for word in str(sheet.get(f"J{row}", "")).split(" "):
            longer = f"{lines[-1]} {word}".strip()
            lines = [*lines[:-1], longer] if width(longer, card.STEP_SIZE) <= room else [*lines, word]
        assert len(lines) <= 2, lines


# the log


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
    sheet = meter_log(AT_SEVEN, ("C14", 5.4), ("D14", "3,5 C"))
    assert sheet["J14"] == "Left out. Type the temperature as a plain number, such as 3.5."
    assert behind(sheet, log.BESIDE)["Readings used"] == 0


def test_a_moment_that_is_text_fails_with_a_sentence():
    sheet = meter_log(("B14", "seven"), ("C14", 5.4), ("D14", 3))
    assert sheet["J14"].startswith("Left out. When must be a date and a time")
    assert "Put in at must be" in computed(PLAIN, "metric", (("E6", "early"),))["Log"]["A3"]


def test_a_time_without_a_date_says_that_the_date_is_missing():
    sheet = meter_log(("B14", 14 / 24), ("C14", 5.4))
    assert sheet[f"{letter('at_says')}14"] == "Left out. The date is missing; type 2026-12-04 14:00."
    assert f"{letter('at_hours')}14" not in sheet


@pytest.mark.parametrize("typed", ["4,6", "4,6%", "4,6 %"])
def test_a_decimal_comma_is_read_as_the_plan_reads_it(typed):
    assert meter_log(("B14", NOON), ("C14", typed))[f"{letter('at_holds')}14"] == pytest.approx(
        meter_log(("B14", NOON), ("C14", 4.6))[f"{letter('at_holds')}14"]
    )


def test_a_reading_that_no_brine_can_have_leaves_the_bath_blank_and_says_why():
    sheet = meter_log(("B14", NOON), ("C14", 43))
    assert f"{letter('at_holds')}14" not in sheet
    assert sheet[f"{letter('at_says')}14"].startswith("Left out. The ")


def letter(key: str) -> str:
    """The column of the log's page with that key."""
    keys = [column[0] for column in log_rows._columns()]
    return get_column_letter(keys.index(key) + 1)


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


def test_the_example_log_lies_within_what_is_known_of_the_product():
    sheet = example()["Log"]
    said = [sheet[f"J{row}"] for row in range(log.FIRST, log.FIRST + 5)]
    assert all(text.startswith(("In the range", "Above 4")) for text in said)
    assert sheet["A9"] > 0


# the charts


def mean(depths, salts):
    area = sum((b - a) * (x + y) / 2 for a, b, x, y in zip(depths, depths[1:], salts, salts[1:]))
    return area / (depths[-1] - depths[0])


def test_resting_moves_salt_and_loses_none():
    sheet = computed(PLAIN)["Charts"]
    depths = table(sheet, "Depth, mm")
    soaked, rested = table(sheet, "After the soak"), table(sheet, "After the rest")
    assert depths[0] == 0
    assert depths[-1] == pytest.approx(12.5)  # half of a slab
    assert mean(depths, soaked) == pytest.approx(0.01, rel=0.03)  # the average is the target; eleven points
    assert mean(depths, rested) == pytest.approx(mean(depths, soaked), rel=0.03)
    assert rested[0] < soaked[0]
    assert rested[-1] >= soaked[-1]


def test_salt_against_time_meets_the_target_at_the_marks():
    sheet = computed(PLAIN)["Charts"]
    hours = table(sheet, "Hours")
    curves = {name: table(sheet, name)[: charts.MOMENTS] for name in ("Typical", "Fast", "Slow")}
    marks = hours[charts.MOMENTS :: 2]
    hours = hours[: charts.MOMENTS]
    for name, at in zip(("Fast", "Typical", "Slow"), marks):
        after = next(number for number, hour in enumerate(hours) if hour >= at)
        low, high = curves[name][after - 1], curves[name][after]
        assert low <= 0.01 <= high + 1e-12
    assert all(f >= t >= s for f, t, s in zip(curves["Fast"], curves["Typical"], curves["Slow"]))
    assert curves["Typical"][0] == pytest.approx(NATIVE, rel=0.01)


def test_a_batch_without_a_bath_draws_nothing_and_says_so():
    sheet = computed(INJECTED)["Charts"]
    assert "no bath" in sheet["A3"]
    assert table(sheet, "After the soak") == []


def test_missing_prices_are_said_and_not_drawn():
    sheet = computed(PLAIN)["Charts"]
    assert "a price is missing or wrong" in sheet["A3"]
    assert set(table(sheet, "Share")) == {0}


def test_shares_of_the_cost_are_those_of_the_price_list():
    sheet = example()["Charts"]
    shares = dict(zip(table(sheet, "Drawn"), table(sheet, "Share")))
    assert sum(shares.values()) == pytest.approx(1)
    costs = dict(zip(table(sheet, "Goes in"), table(sheet, "Cost")))
    grams = dict(zip(table(sheet, "Goes in"), table(sheet, "Mass, g")))
    assert costs["salt"] == pytest.approx(grams["salt"] * 6.9 / 10_000)  # the example's 10 kg at 6.90
    assert shares["salt"] == pytest.approx(costs["salt"] / sum(costs.values()))


def parts(kind):
    with zipfile.ZipFile(io.BytesIO(template())) as file:
        names = [name for name in file.namelist() if name.startswith("xl/charts/chart")]
        return [text for text in (file.read(name).decode() for name in sorted(names)) if kind in text]


def test_axes_are_shown_and_named():
    for text in parts("scatterChart") + parts("barChart"):
        axes = re.findall(r"<(?:c:)?(?:valAx|catAx)>.*?</(?:c:)?(?:valAx|catAx)>", text, re.DOTALL)
        assert len(axes) == 2
        assert all('delete val="0"' in axis for axis in axes)
        assert all("<a:t>" in axis for axis in axes if "valAx" in axis)


def test_no_two_lines_of_a_chart_look_alike_in_black_and_white():
    drawn = [text for text in parts("scatterChart") if "Hours in the brine" in text or "Depth below" in text]
    assert len(drawn) == 3
    for text in drawn:
        series = re.findall(r"<(?:c:)?ser>.*?</(?:c:)?ser>", text, re.DOTALL)
        looks = [(re.findall(r'prstDash val="(\w+)"', one), re.findall(r'symbol val="(\w+)"', one),
                  re.findall(r'<a:ln w="(\d+)"', one)[:1]) for one in series]  # fmt: skip
        assert len({str(look) for look in looks}) == len(looks) >= 3


# manners

LOG_ROWS = range(log.FIRST, log.LAST + 1)


@pytest.mark.parametrize(("name", "inputs"), [
    (card.SHEET, {"R1", "S1", "T1", "R2", "S2", "T2"}),
    (charts.SHEET, {"M1", "N1"}),
    (log.SHEET, {"H1", *(f"{c}6" for c in "BCDEFGH"), *(f"{c}{r}" for c in "BCD" for r in LOG_ROWS)}),
])  # fmt: skip
def test_only_what_is_typed_is_open(name, inputs):
    sheet = opened()[name]
    assert sheet.protection.sheet
    assert {cell.coordinate for row in sheet.iter_rows() for cell in row if not cell.protection.locked} == inputs


@pytest.mark.parametrize("name", [card.NAME, log.NAME, charts.NAME])
def test_the_batch_is_chosen_from_the_numbers_of_the_plan_with_help(name):
    sheet, address = opened().defined_names[name].attr_text.replace("$", "").split("!")
    rules = [rule for rule in opened()[sheet].data_validations.dataValidation if address in rule.sqref]
    assert [rule.type for rule in rules] == ["list"]
    assert rules[0].formula1 == "Plan!$A$8:$A$67"
    assert 0 < len(rules[0].prompt) <= 255


@pytest.mark.parametrize("name", [card.SHEET, log.SHEET, charts.SHEET])
@pytest.mark.parametrize("number", [PLAIN, DRY, INJECTED, STOPPED, FAILING, EVEN, EMPTY])
def test_no_error_stands_on_the_page_or_behind_it(name, number):
    sheet = computed(number)[name]
    assert [at for at, value in sheet.items() if isinstance(value, dict)] == []
