"""Everything on the card fits where it stands: by the widths of its letters, on paper, and cut where a box ends."""

from __future__ import annotations

import io
import re
from typing import Dict, List

import pytest
from cards import (
    BONE_IN,
    CURED_FISH,
    DEEPEST,
    DRY,
    DRY_FERMENT,
    EVEN,
    FERMENT,
    FULL,
    INJECTED,
    PLAIN,
    SHORT,
    STEP_CELLS,
    SWEET,
    computed,
    opened,
    supposed,
)
from each import each
from openpyxl import Workbook
from openpyxl.utils.cell import (
    coordinate_to_tuple,
    range_boundaries,
)

from brinecalc.hosts.headless.trial import Trial
from brinecalc.trade import findings
from brinecalc.workbook.sheets import card, card_steps
from tests.trade.cases import CASES

ARIAL = {
    **dict.fromkeys("abdeghnopqu0123456789", 556), **dict.fromkeys("cksvxyz", 500), **dict.fromkeys("ijl", 222),
    **dict.fromkeys("ft :;,./", 278), **dict.fromkeys("r()-", 333), "m": 833, "\u00a0": 278, "%": 889, "°": 400,
    **dict.fromkeys("ABEKPSVXY", 667), **dict.fromkeys("CDHNRUw", 722), **dict.fromkeys("FTZ", 611), "I": 278,
    "L": 556,
}  # fmt: skip
"""Widths of letters in thousandths of the type size: Helvetica, core font metrics, from memory; Arial is alike."""


def test_the_rows_of_the_card_are_as_high_as_a_letter_page_at_nearly_full_size():
    sheet = opened("US")["Card"]
    bottom = range_boundaries(sheet.print_area.split("!")[-1].replace("$", ""))[3]
    points = sum(sheet.row_dimensions[row].height for row in range(1, bottom + 1))
    letter = 11 * 72 - 72 * (sheet.page_margins.top + sheet.page_margins.bottom)
    figure = sheet["E12"].font.size * min(1, letter / points)
    assert figure >= 14  # read at arm's length
    assert sheet["J12"].font.size * min(1, letter / points) >= 11


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
    at = {sheet.cell(row, 22).value: f"W{row}" for row in range(3, DEEPEST + 1)}
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


NO_CURE = {"hours": 4.0, "cure_ppm": 100.0}
BARE_FISH = {"hours": 240.0, **dict.fromkeys(("aroma_one", "aroma_one_level", "aroma_two", "aroma_two_level"))}


LONG_FISH = "brine temperature; 10.1 days of soak and rest is longer than 7 days; 10 days is short."


@each(
    ("number", "typed", "named"),
    [
        (CURED_FISH, {}, "brine temperature; hours I have: 30 h is short."),
        (CURED_FISH, BARE_FISH, LONG_FISH),
        (CURED_FISH, {**BARE_FISH, "portion": 120.0}, LONG_FISH),
        (PLAIN, NO_CURE, "no curing salt is chosen, so none is weighed out. Choose it, but never with"),
        (PLAIN, NO_CURE | {"sweet_level": 0.05, "aroma_one_level": 0.02}, "and Reckoned as. Also: level."),
    ],
)
def test_no_caution_is_left_out_for_want_of_room(number, typed, named):
    """The worst stands whole; of the others at least what they are about."""
    (said,) = (str(text).replace("\u00a0", " ") for text in supposed(number, typed, "H5"))
    assert named in said.partition("Also: ")[2]
    assert len(wrapped(said, card.FINDING_SIZE, room_for_words("HIJKLMNOPQRST"))) <= card.FINDING_LINES
    assert "Put it on the label" not in said  # a note


def test_allergens_stand_once_on_the_card_where_nothing_is_left_out_beside_them():
    (shown, more) = supposed(EVEN, {"aroma_one": "mustard seed", "aroma_one_level": 0.005}, "H5", "A6")
    assert "ay bring mustard" in shown
    assert more in ("", None)


def test_of_what_is_too_long_for_the_card_whole_sentences_and_the_way_to_the_rest_stand_there():
    room = room_for_words("HIJKLMNOPQRST")
    sentence = "Curing salt no. 1 is too much of a good thing here, and so is the other one. "
    clauses = "target must be lower than what it is now, as it is, got 12 %; " * 9
    words = "nitrite " * 60
    figures = [f"{'nitrite ' * 34}{'y' * shift} of 450 ppm at most {'nitrite ' * 9}" for shift in range(12)]
    shown = cut_by_the_card([sentence * 5, clauses, words, "no. 1 " + "x" * 400, *figures])
    assert shown[0] == (sentence * 3).replace("no. ", "no.\u00a0").strip() + " See Findings."
    assert shown[1].endswith("got 12 % … See Findings.")
    assert shown[2].endswith("nitrite … See Findings.")
    ends = {text.removesuffix(" … See Findings.").split()[-1] for text in shown[4:]}
    assert {"of", "ppm"} <= ends  # never between a figure and its unit
    assert "450" not in ends
    assert all(len(wrapped(text, card.FINDING_SIZE, room)) <= card.FINDING_LINES for text in shown)


def test_a_long_name_of_the_batch_pushes_nothing_off_the_page():
    sheet = opened()["Card"]
    assert sheet["A3"].alignment.shrink_to_fit
    text = str(computed(PLAIN)["Card"]["A3"])
    assert text.index("40 pieces") < text.index("10 kg") < text.index("1 % salt") < text.index("Friday lunch")


def formats_of_what_is_weighed(typed: Dict[str, object]) -> Dict[str, str]:
    """Name on the card and the format of its weight there, as the sheet's rules for these cells give it."""
    sheet = opened()["Card"]
    whole, rule = next(
        (cells, rule)
        for cells in sheet.conditional_formatting
        for rule in cells.rules
        if rule.dxf is not None and rule.dxf.numFmt is not None
    )
    _, top, _, bottom = range_boundaries(str(whole.sqref))
    (formula,) = rule.formula
    named = re.search(r"\$W\$\d+", formula)[0].replace("$", "")
    names, masses = ([f"{letter}{row}" for row in range(top, bottom + 1)] for letter in "BE")
    values = dict(zip([*names, *masses, named], supposed(DRY, typed, *names, *masses, named)))
    book = Workbook()
    book.active.title = "Card"
    for at, value in values.items():
        book.active[at] = value
    for row in range(top, bottom + 1):
        book.active[f"A{row}"] = "=" + re.sub(rf"\$([BE]){top}\b", rf"$\g<1>{row}", formula)
    stream = io.BytesIO()
    book.save(stream)
    trial = Trial(stream.getvalue(), "formats.xlsx")
    return {
        str(values[name]): rule.dxf.numFmt.formatCode if trial.value("Card", row, 1) else sheet[mass].number_format
        for row, name, mass in zip(range(top, bottom + 1), names, masses)
        if values[name] not in (None, "", "—")
    }


@each(("weight", "grams"), [(9.0, 15.4), (80.0, 136.9), (400.0, 684.5), (700.0, 1197.8)])
def test_curing_salt_is_shown_to_the_tenth_that_it_is_weighed_to(weight, grams):
    """115 ppm of sodium nitrite by weight of the edible 93 %, 6.25 % of it in the curing salt."""
    formats = formats_of_what_is_weighed({"weight": weight})
    assert weight * 0.93 * 0.115 / 0.0625 == pytest.approx(grams, abs=0.06)
    assert (formats["curing salt no. 1"] == "#,##0.0") is (grams < 1000)
    assert formats["salt"] == "[<10]0.00;[<100]0.0;#,##0"
