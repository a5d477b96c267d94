"""The card: what the cook reads, checked by arithmetic and against kitchen words."""

from __future__ import annotations

import io
import re
from typing import Dict, List

import pytest
from cards import (
    BONE_IN,
    CURED_FISH,
    DRY,
    EMPTY,
    EVEN,
    FAILING,
    FERMENT,
    FULL,
    INJECTED,
    MINUTE,
    NATIVE,
    NOON,
    PLAIN,
    SHORT,
    STOPPED,
    SWEET,
    behind,
    computed,
    filled,
    opened,
    printed,
    snapshot,
    words,
)
from each import each
from openpyxl import Workbook
from openpyxl.utils.cell import (
    column_index_from_string,
    coordinate_to_tuple,
    range_boundaries,
)

from brinecalc import registry
from brinecalc.hosts.headless.trial import Trial
from brinecalc.trade import findings
from brinecalc.workbook.sheets import card, card_lists, card_steps, plan, results
from tests.trade.cases import CASES

ARIAL = {
    **dict.fromkeys("abdeghnopqu0123456789", 556), **dict.fromkeys("cksvxyz", 500), **dict.fromkeys("ijl", 222),
    **dict.fromkeys("ft :;,./", 278), **dict.fromkeys("r()-", 333), "m": 833, "\u00a0": 278, "%": 889, "°": 400,
    **dict.fromkeys("ABEKPSVXY", 667), **dict.fromkeys("CDHNRUw", 722), **dict.fromkeys("FTZ", 611), "I": 278,
    "L": 556,
}  # fmt: skip
"""Widths of letters in thousandths of the type size: Helvetica, core font metrics, from memory; Arial is alike."""


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


@pytest.mark.parametrize(("units", "code"), [("metric", 9), ("US", 1)], ids=["A4", "Letter"])
def test_the_card_is_one_upright_page(units, code):
    setup = opened(units)["Card"].page_setup
    assert (setup.paperSize, setup.orientation, setup.fitToWidth, setup.fitToHeight) == (code, "portrait", 1, 1)


def test_the_rows_of_the_card_are_as_high_as_a_letter_page_at_nearly_full_size():
    sheet = opened("US")["Card"]
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
    assert "9\u00a0°C" in sheet["H5"]  # no line ends between them
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
    assert "all 2 pieces weigh 11.49 kg: 1.49 kg brine, 15 %" in injected[place(injected, "Inject evenly")]
    assert not any("curing salt" in text.lower() for text in even)
    assert place(even, "Add the vinegar slowly") < place(even, "Put in")


def test_a_piece_is_weighed_with_its_bone_while_it_is_injected():
    """Ham leg has 17 % of bone: 6.64 of 8 kg are edible and take up 15 %, 0.996 kg; the scale has the bone on too."""
    made = steps(BONE_IN)
    assert "until the piece weighs 9 kg: 1 kg brine, 15 % of the edible." in made[place(made, "Inject evenly")]
    assert "6.64 kg edible, 8 kg as bought." in words(BONE_IN)
    (uncounted,) = supposed(BONE_IN, {"pieces": None}, "J14")
    assert "until the product weighs 9 kg: 1 kg brine" in uncounted


def test_no_core_temperature_is_rounded_to_below_its_rule_and_an_eu_book_says_whose_it_is():
    """155 °F and 165 °F are 68.33 and 73.89 °C; in the box of the finding and in the last step stands one figure."""
    told = [words(number, units) for number in (BONE_IN, PLAIN) for units in ("metric", "US")]
    core = [re.search(r"at least (.*?) in the core", text)[1].replace("\u00a0", " ") for text in told]
    assert core == ["69 °C (US rules)", "155 °F", "74 °C (US rules)", "165 °F"]
    figures = [
        re.findall(r"[\d.]+ °C", limit)
        for text in told[:1]
        for limit in re.findall(r"(?:through: |at least )(.{9})", text)
    ]
    assert figures == [["69 °C"], ["69 °C"]]


def test_a_vegetable_that_sours_by_itself_has_steps_of_its_own():
    made, said = steps(FERMENT), words(FERMENT)
    for part in ("weighted down under the brine; a lid that lets gas out", "skim. Read meter, temperature, pH"):
        place(made, part)
    assert place(made, "pH is 4.6 or below, by meter") < place(made, "Chill it in its brine 2 h") < place(made, "slimy")
    assert made[place(made, "pH is 4.6")].endswith("not before. This is its last day.")
    assert "mouldy inside, or above pH 4.6 on its last day. Else keep it cold." in made[-1]
    assert not any("lid on" in text or "Throw the brine" in text for text in made)
    for part in (
        "Left to sour in its brine for 10 days",
        "Into the cold",
        "Meter, %, and pH",
        "pH above 4.6 on its last day: discard",
    ):
        assert part in said
    assert "Left to sour" not in words(EVEN)  # vinegar in it
    assert "Left to sour" not in words(SHORT)  # chilled


def supposed(number: int, typed: Dict[str, object], *cells: str) -> List[object]:
    """Cells of the card of a batch in whose row something else is typed."""
    row, columns = plan.FIRST_ROW + number - 1, plan.grid().columns
    given = {(plan.SHEET, row, column_index_from_string(columns[key])): value for key, value in typed.items()}
    with filled("metric").supposing({**given, ("Card", 1, 18): float(number)}):
        return [filled("metric").value("Card", *coordinate_to_tuple(at)) for at in cells]


@each(
    ("typed", "sours"),
    [
        ({}, True), ({"acid": "baking soda", "acid_level": 0.001}, True), ({"liquid": "beer"}, True),
        ({"acid": "vinegar", "acid_level": 0.001}, True), ({"acid": "vinegar", "acid_level": 0.5}, False),
        ({"bath_degree": 4}, False), ({"hours": 40}, False),
        ({"product": "chicken breast", "hours": 3, "bath_degree": 4}, False),
    ],
)  # fmt: skip
def test_the_card_takes_for_a_ferment_what_the_findings_take_for_one(typed, sours):
    row = plan.FIRST_ROW + FERMENT - 1
    columns = plan.grid().columns
    given = {(plan.SHEET, row, column_index_from_string(columns[key])): value for key, value in typed.items()}
    with filled("metric").supposing({**given, ("Card", 1, 18): float(FERMENT)}):
        made = snapshot(filled("metric"))["Card"]
    said = " ".join(str(value) for value in printed("Card", made).values())
    assert ("Left to sour" in said, "a lid that lets gas out" in said, "Throw the brine away" in said) == (
        sours, sours, not sours,
    )  # fmt: skip
    assert sum("sours by itself here" in rule.sentence for rule in findings.table()) == 1


def test_when_a_ferment_is_done_is_not_told_by_its_salt():
    """Nor are its days: where none are typed no moment stands on its card but that of Ready."""
    moments = [f"{letter}8" for letter in "AEIM"]
    said, label, *done = supposed(FERMENT, DAYS_UNKNOWN, "A3", "I7", *moments)
    assert "Left to sour in its brine, days not typed, 2.5 % salt" in said
    assert label == "Into the cold"
    assert done == ["—"] * 4
    made, times = (
        supposed(FERMENT, DAYS_UNKNOWN, *cells) for cells in (STEP_CELLS, [f"S{row}" for row in range(12, 23)])
    )
    assert made[place(made, "Done when its pH is 4.6 or below")].endswith("not before. It takes days.")
    assert "mouldy inside. Above pH 4.6: do not eat it." in made[place(made, "Throw it away if slimy")]
    assert set(times) == {""}
    *when, what = supposed(FERMENT, DAYS_UNKNOWN, *(f"A{row}" for row in range(26, 31)), "O27")
    assert when == ["0 h in", "24 h in", "48 h in", "72 h in", "96 h in"]
    assert what == "pH above 4.6: not done."


DRY_FERMENT = {"product": "cabbage", "pieces": 40.0, "method": "dry equilibrium", "target": 0.0225, "hours": 504.0}


def test_what_sours_in_its_own_juice_keeps_it_and_lets_its_gas_out():
    made = supposed(FERMENT, DRY_FERMENT, *STEP_CELLS)
    pack, daily = place(made, "weighted under its juice; a lid that lets gas out"), place(made, "temperature, pH")
    assert (
        place(made, "Mix it all dry") < pack < daily < place(made, "pH is 4.6") < place(made, "Chill it in its juice")
    )
    assert not [text for text in made if "bag" in text or "throw the juice" in text or "in the cold" in text]
    assert supposed(FERMENT, DRY_FERMENT, "H25", "O26", "O27") == [
        "pH", "Keep near 20 °C.", "pH above 4.6 on its last day: discard."]  # fmt: skip
    (said,) = supposed(FERMENT, DRY_FERMENT, "A3")
    assert "Left to sour in its juice for 21 days" in said
    cold = supposed(FERMENT, {**DRY_FERMENT, "bath_degree": 4.0}, *STEP_CELLS)
    place(cold, "Open the bag; throw the juice away.")


@each("typed", [DRY_FERMENT, {"hours": None, "thickness": 60.0, "pieces": 40.0}])
def test_the_steps_of_a_ferment_need_no_more_than_two_lines(typed):
    lines = [
        wrapped(str(text), card.STEP_SIZE, room_for_words("JKLMNOPQR"))
        for text in supposed(FERMENT, typed, *STEP_CELLS)
    ]
    assert [step for step in lines if len(step) > 2] == []


def test_the_weight_of_many_injected_pieces_fits_its_line():
    (said,) = supposed(BONE_IN, {"pieces": 100.0, "weight": 208.0, "gain": 0.155}, "J14")
    assert "until all 100 pieces weigh 234.76 kg: 26.76 kg brine, 15.5 % of the edible." in said
    assert len(wrapped(said, card.STEP_SIZE, room_for_words("JKLMNOPQR"))) == 2


DAYS_UNKNOWN: Dict[str, object] = {"hours": None, "thickness": 60.0}
STEP_CELLS = [f"J{row}" for row in range(12, 12 + card_steps.MOST)]


@each("number", [FERMENT, CURED_FISH, SHORT])
def test_where_the_hours_are_typed_no_other_time_is_said_to_be_done(number):
    sheet = computed(number)["Card"]
    assert (sheet["E8"], sheet["M8"]) == ("—", "—")
    assert "Dry salted for 30 h, not until even" in words(CURED_FISH)
    assert "Dry salted for 6 days, 2.2 % salt" in words(DRY)


def test_no_list_of_steps_is_longer_than_the_card():
    """Of the acid before the ice and the curing salt a batch has one: beside a curing salt every acid goes in after."""
    wet = [step for step in card_steps.mixing() + card_steps.soaking() if step.when not in ("{dry}=1", "{wet}=0")]
    early = [step for step in wet if "{acid_late}=0" in step.when]
    assert len(wet) - len(early) <= card_steps.MOST
    assert len(early) == len([step for step in wet if "{cure}" in step.when]) == 1


def test_what_the_recipe_adds_after_the_ice_goes_in_after_the_ice_on_the_card():
    made = supposed(FULL, {"aroma_two": "sodium erythorbate"}, *STEP_CELLS)
    herbs, ice = place(made, "Steep juniper berries 15 min"), place(made, "before it is at 4\u00a0°C")
    late = place(made, "Stir the sodium erythorbate slowly into the cold brine.")
    assert herbs < ice < late < place(made, "Curing salt last")
    sour = supposed(EVEN, {"acid": "citric acid", "acid_level": 0.002}, *STEP_CELLS)
    assert place(sour, "the rest of the water. Bring") + 1 == place(sour, "Stir the citric acid slowly into the brine.")
    assert place(made, "Cook") == card_steps.MOST - 1


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


def wrapped(text: str, size: float, room: float) -> List[str]:
    """A text in lines that are no wider than there is room."""
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        lines = [*lines[:-1], longer] if width(longer, size) <= room else [*lines, word]
    return lines


def room_for_words(columns: str) -> float:
    """Points between the lines of a box over these columns, less the indent."""
    widths = opened()["Card"].column_dimensions
    return sum(widths[letter].width for letter in columns) * 5.15 - 12


@each("number", [PLAIN, DRY, INJECTED, EVEN])
@each("units", ["metric", "US"])
def test_what_to_do_about_a_reading_fits_beside_it(number, units):
    sheet = computed(number, units)["Card"]
    room = room_for_words("OPQRST")
    said = [str(sheet[f"O{row}"]) for row in range(26, 33) if f"O{row}" in sheet]
    assert len(said) >= 4
    assert [text for text in said if width(text, 9.5) > room] == []


@each("number", [PLAIN, DRY, INJECTED, SWEET, EVEN, FULL, SHORT, BONE_IN, FERMENT, CURED_FISH])
@each("units", ["metric", "US"])
def test_no_step_needs_more_than_its_two_lines(number, units):
    sheet = computed(number, units)["Card"]
    room = room_for_words("JKLMNOPQR")
    for row in range(12, 12 + card_steps.MOST):
        lines = wrapped(str(sheet.get(f"J{row}", "")), card.STEP_SIZE, room)
        assert len(lines) <= 2, lines


@pytest.mark.parametrize("units", ["metric", "US"])
def test_the_range_of_the_meter_fits_beside_its_middle(units):
    """A figure that does not fit its cell shows as ###; a cell keeps some five of a column's pixels free."""
    sheet = opened(units)["Card"]
    columns = sheet.column_dimensions
    for letter in "FG":
        shown = width("25.0%", sheet[f"{letter}27"].font.size)
        assert sheet[f"{letter}27"].number_format == "0.0%"
        assert shown <= (columns[letter].width * 7 - 5) * 0.75


def cut_by_the_card(texts: List[str]) -> List[str]:
    """What the card shows of each text, by its own formulas."""
    sheet = opened()["Card"]
    at = {sheet.cell(row, 22).value: f"W{row}" for row in range(3, 100)}
    keys = list(at)
    chain = keys[keys.index("It, with numbers kept to their words") : keys.index("As it is shown") + 1]
    book = Workbook()
    book.active.title = "Card"
    for key in chain:
        book.active[at[key]].value = sheet[at[key]].value
    stream = io.BytesIO()
    book.save(stream)
    trial = Trial(stream.getvalue(), "cut.xlsx")
    shown = []
    for text in texts:
        trial.suppose({("Card", *coordinate_to_tuple(at["Nor before it"])): text})
        shown.append(str(trial.value("Card", *coordinate_to_tuple(at[chain[-1]]))))
    return shown


def found_in_the_tables() -> List[str]:
    rows = [row for row, _ in CASES.values()]
    return sorted({one.sentence for row in rows for one in findings.all_of(list(row), list(row.values()))})


def test_a_finding_stands_whole_on_the_card_and_fits_its_box():
    texts = found_in_the_tables()
    shown = cut_by_the_card(texts)
    assert max(map(len, texts)) > 220
    assert [text.replace("\u00a0", " ") for text in shown] == texts
    sheet, room = opened("US")["Card"], room_for_words("HIJKLMNOPQRST")
    size = sheet["H5"].font.size
    lines = [wrapped(text, size, room) for text in shown]
    height = sheet.row_dimensions[5].height + sheet.row_dimensions[6].height
    assert max(map(len, lines)) * 1.275 * size <= height  # Arial's line in Excel


def test_what_the_box_of_the_finding_cannot_hold_is_counted_and_allergens_stand_on_every_card():
    """A second finding stands beside the worst where there is room for it; the rest are on Findings."""
    sheet = computed(CURED_FISH)["Card"]
    assert sheet["H5"].startswith("Neither salt, vinegar nor cold smoke kills parasites")
    told = "Allergens: mustard (mustard seed); mustard, celery (pickling spice)."
    assert sheet["A6"] == f"+2 CAUTION and 1 NOTE more: see Findings. {told}"
    lines = wrapped(sheet["A6"], card.MORE_SIZE, room_for_words("ABCDEFG"))
    assert len(lines) * 1.275 * card.MORE_SIZE <= opened()["Card"].row_dimensions[6].height
    two = computed(BONE_IN)["Card"]
    assert two["H5"].startswith("Needles carry germs")
    assert two["H5"].endswith("Also: the vessel is not used, since nothing lies in a brine by this method.")
    assert "A6" not in two
    assert "A6" not in computed(EVEN)["Card"]  # nothing is found


def test_allergens_stand_once_on_the_card_where_nothing_is_left_out_beside_them():
    (shown, more) = supposed(EVEN, {"aroma_one": "mustard seed", "aroma_one_level": 0.005}, "H5", "A6")
    assert "ay bring mustard" in shown
    assert more in ("", None)


def test_of_what_is_too_long_for_the_card_whole_sentences_and_the_way_to_the_rest_stand_there():
    room = room_for_words("HIJKLMNOPQRST")
    sentence = "Curing salt no. 1 is too much of a good thing here, and so is the other one. "
    clauses = "target must be lower than what it is now, as it is, got 12 %; " * 9
    words = "nitrite " * 60
    shown = cut_by_the_card([sentence * 5, clauses, words, "no. 1 " + "x" * 400])
    assert shown[0] == (sentence * 3).replace("no. ", "no.\u00a0").strip() + " See Findings."
    assert shown[1].endswith("got 12 % … See Findings.")
    assert shown[2].endswith("nitrite … See Findings.")
    assert all(len(wrapped(text, card.FINDING_SIZE, room)) <= card.FINDING_LINES for text in shown)


def test_a_long_name_of_the_batch_pushes_nothing_off_the_page():
    sheet = opened()["Card"]
    assert sheet["A3"].alignment.shrink_to_fit
    text = str(computed(PLAIN)["Card"]["A3"])
    assert text.index("40 pieces") < text.index("10 kg") < text.index("1 % salt") < text.index("Friday lunch")


def test_a_soak_cut_short_is_not_said_to_be_over():
    """It holds less than it would in the end, so longer does make it saltier."""
    early, left = (" ".join(steps(number)) for number in (SHORT, EVEN))
    assert "it is still getting saltier" in early
    assert "longer does not" not in early
    assert "longer does not make it saltier" in left
    assert "Soak for 30 h, 2.2 % salt" in words(SHORT)
    assert "Soak until it gets no saltier" in words(EVEN)


def test_the_salt_of_a_batch_left_to_equilibrium_is_said_to_be_by_weight():
    assert "2.2 % salt by weight." in words(EVEN)
    assert "1 % salt on average." in words(PLAIN)
