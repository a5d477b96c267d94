"""The card's list of steps: what is done when, by method, and what is different where a vegetable sours by itself."""

from __future__ import annotations

import re

import priced
import pytest
from cards import (
    BONE_IN,
    CURED_FISH,
    DAYS_UNKNOWN,
    DRY,
    DRY_FERMENT,
    EVEN,
    FERMENT,
    FULL,
    INJECTED,
    PLAIN,
    SHORT,
    STEP_CELLS,
    computed,
    filled,
    place,
    printed,
    snapshot,
    steps,
    supposed,
    words,
)
from each import each
from openpyxl.utils.cell import (
    column_index_from_string,
)
from priced import shared

from brinecalc import registry
from brinecalc.trade import findings
from brinecalc.workbook.sheets import card_steps, plan, results, workings


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


def test_a_soak_cut_short_is_not_said_to_be_over():
    """It holds less than it would in the end, so longer does make it saltier."""
    early, left = (" ".join(steps(number)) for number in (SHORT, EVEN))
    assert "it is still getting saltier" in early
    assert "longer does not" not in early
    assert "longer does not make it saltier" in left
    assert "Soak for 30 h, 2.2 % salt" in words(SHORT)
    assert "Soak until it gets no saltier" in words(EVEN)


@each(
    ("number", "hours", "said"),
    [
        (PLAIN, 2.0, "rest uncovered 2 h in the cold. The salt evens out in 10 to 46.1 h."),
        (PLAIN, 12.0, "12 h in the cold. The salt evens out in 10 to 46.1 h."),
        (PLAIN, 60.0, "60 h in the cold room: the salt evens out."),
        (FULL, 2.0, "2 h in the cold. The salt evens out in 9.1 to 60.5 h."),
        (DRY, 2.0, "2 h in the cold room: the salt goes on evening out."),
        (INJECTED, 36.0, "36 h in the cold room: the salt goes on evening out."),
        (EVEN, 2.0, "Drain and rest 2 h."),
    ],
)
def test_a_rest_is_not_said_to_do_what_takes_longer(number, hours, said):
    """Results has the same: the rest until the centre has got half of what the outside has."""
    found = [str(text) for text in supposed(number, {"rest": hours}, *STEP_CELLS) if "est" in str(text)]
    (rest,) = [text for text in found if text.replace("\u00a0", " ").endswith(said)]
    if "evens out in" in rest:
        columns = [column_index_from_string(results.grid().columns[key]) for key in ("r_even_fast", "r_even_slow")]
        shown = [filled("metric").value(results.SHEET, plan.FIRST_ROW + number - 1, at) for at in columns]
        assert f" in {round(shown[0], 1):g} to {round(shown[1], 1):g} h." in rest


def test_a_range_of_hours_has_its_unit_once_where_both_have_the_same():
    thin, middle, thick = (
        supposed(PLAIN, {"thickness": size, "strength": 0.05}, *STEP_CELLS) for size in (25.0, 40.0, 90.0)
    )
    ends = [
        next(text for text in made if "evens out" in str(text)).partition(" in ")[2] for made in (thin, middle, thick)
    ]
    patterns = (r"[\d.]+ to [\d.]+ h\.", r"[\d.]+ h to [\d.]+ days\.", r"[\d.]+ to [\d.]+ days\.")
    for end, pattern in zip(ends, patterns):
        assert re.fullmatch(".*" + pattern, end), (end, pattern)


@each("degree", [7.0, 5.0, 4.0, 2.0])
def test_the_ice_is_reckoned_for_the_temperature_that_the_card_asks_for(degree):
    """The step asks for 4 °C before food goes in, which ice for 7 °C would not bring."""
    book = shared()
    shrimp = next(row for row in range(1, 16) if book.of("product", row) == "peeled shrimp")
    with book.supposing({priced.place("bath_degree", shrimp): degree, book.cell("card_batch"): float(shrimp)}):
        (asked,) = [text for text in (str(book.at("Card", at)) for at in STEP_CELLS) if text.startswith("Add the ice")]
        assert asked.endswith("No food in it before it is at 4\u00a0°C.")
        mixed = [book.of("w_brine", shrimp), book.named("tap_celsius"), min(degree, 4.0)]
        reckoned = registry.call("ICE", *mixed, book.of("w_strength", shrimp), book.named("ice_celsius"))
        assert book.of("w_ice", shrimp) == pytest.approx(reckoned)


def test_the_ice_for_what_does_not_spoil_is_reckoned_for_its_own_brine():
    columns = workings.grid().columns
    at = [(workings.SHEET, plan.FIRST_ROW + EVEN - 1, column_index_from_string(columns[key])) for key in
          ("w_brine", "w_strength", "w_ice")]  # fmt: skip
    bath = (plan.SHEET, at[0][1], column_index_from_string(plan.grid().columns["bath_degree"]))
    with filled("metric").supposing({bath: 12.0}):
        brine, strength, ice = (filled("metric").value(*cell) for cell in at)
    assert ice == pytest.approx(registry.call("ICE", brine, 15.0, 12.0, strength, 0.0))


@each(
    ("typed", "past"),
    [
        ({}, True),
        ({"rest": 1.0}, True),
        ({"rest": 30.0}, False),  # the slow estimate ends within so long a rest
        ({"ready": None}, False),
    ],
)
@each("number", [PLAIN, FULL])
def test_who_waits_for_the_meter_is_told_when_that_may_be_past_ready(number, typed, past):
    said = [str(text) for text in supposed(number, typed, *STEP_CELLS, "M8", "Q8")]
    (out,) = [text for text in said if text.startswith("Take out")]
    until = "maybe past Ready: ask in time." if past else "within the times above."
    assert out == f"Take out when the meter says so, {until} Throw the brine away."
    if "ready" not in typed:
        assert (float(said[-2]) > float(said[-1])) is past  # done at the latest, and ready
