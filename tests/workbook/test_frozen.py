"""The copy for people who have nothing installed: values in place of our formulas, and nothing that could mislead."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from built import FEW
from copied import (
    same,
)
from filling import FIRST, TOTALS, Person
from openpyxl.utils import column_index_from_string
from priced import GRIDS, Book
from trials import Kept, kept
from xlsx import parts, seen, stored

from brinecalc.hosts.calc import office
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.looks import Looks
from brinecalc.workbook.frozen import freed, is_ours

FLAG = ("Workings", "U3")
TOLD = {FLAG, ("Start", "B2"), ("Start", "B3"), ("Plan", "D1"), ("Prices", "A2"), ("Recipe", "A2"), ("Log", "A3")}
"""Where a copy as values says what it is, and the cell by which it knows."""
UNASKED = {("Start", "D5"), ("Card", "J12")}
"""What asks in the live workbook for what is locked in the copy, and does not here."""


def test_no_formula_of_ours_is_left_and_all_built_in_ones_are(frozen: bytes, example: bytes) -> None:
    before, after = stored(example, False), stored(frozen, False)
    formulas = {key: text for key, text in before.items() if isinstance(text, str) and text.startswith("=")}
    ours = {key for key, text in formulas.items() if is_ours(freed(text)) and key[0] != "Functions"}
    assert len(ours) > 1000
    left = {key for key, text in after.items() if isinstance(text, str) and text.startswith("=") and is_ours(text)}
    assert {sheet for sheet, _ in left} == {"Functions", "Formulas"}  # texts that show how a formula is written
    state = ("Workings", "L3")
    built_in = formulas.keys() - ours - {state}
    assert {key: after.get(key) for key in built_in} == {
        key: "=" + freed(formulas[key]).removeprefix("=") for key in built_in
    }
    assert after[state].endswith(
        f"({formulas[state].removeprefix('=')})"
    )  # the state of the plan, and a warning before it


def test_every_value_is_as_in_the_live_copy(frozen: bytes, live: bytes) -> None:
    before, after = stored(live), stored(frozen)
    own = ("Copies", "Formulas", "Sent")
    told = TOLD | UNASKED
    assert {key for key in after if key[0] not in own} - told == {key for key in before if key[0] not in own} - told
    for key, value in before.items():
        if key[0] not in own and key not in told:
            assert same(after[key], value), key
    assert "#NAME?" not in after.values()


def test_every_replaced_formula_can_be_read(frozen: bytes, example: bytes) -> None:
    before = stored(example, False)
    formulas = {key: text for key, text in before.items() if isinstance(text, str) and text.startswith("=")}
    ours = {key: text for key, text in formulas.items() if is_ours(freed(text))}
    sheet = seen(frozen, False)["Formulas"]
    listed = {(row[0].value, row[1].value): row[2].value for row in sheet.iter_rows(5)}
    assert listed == {key: text for key, text in ours.items() if key[0] != "Functions"}
    assert all(cell.data_type != "f" for row in sheet.iter_rows(5) for cell in row)
    assert sheet.print_area == "'Formulas'!$A$1:$D$2"  # its head: the list fills dozens of pages
    assert seen(frozen, False)["Card"].print_area == seen(example, False)["Card"].print_area
    notes = seen(frozen, False)["Card"]
    on_card = {key[1]: text for key, text in listed.items() if key[0] == "Card"}
    assert on_card
    assert {place: notes[place].comment.text for place in on_card} == on_card


def test_inputs_that_values_rest_on_are_locked_and_choices_are_not(frozen: bytes) -> None:
    person = Person(frozen)
    for place in (
        ("Plan", "F9"),
        ("Plan", "B23"),
        ("Prices", "D8"),
        person.named("typed_units"),
        person.named("rules"),
    ):
        with pytest.raises(AssertionError, match="is locked"):
            person.type(*place, 1)
    for name in ("card_batch", "charts_batch", "log_batch", "recipe_batch", "kitchen"):
        person.type(*person.named(name), 3)


CHOOSING = ("Card", "Charts", "Log", "Recipe")
"""The sheets on which a batch is chosen."""


@pytest.fixture(scope="module")
def asked(live: bytes, frozen: bytes) -> list[Kept]:
    """The live workbook and the copy, to be asked what they would show."""
    return [kept(content) for content in (live, frozen)]


@pytest.mark.parametrize("number", [3, 9, 13, FEW, 2.5, 0, FEW + 1, "two", None])
def test_another_batch_can_be_chosen_where_nothing_is_installed(asked: list[Kept], frozen: bytes, number: Any) -> None:
    """Card, log, charts and recipe of the copy read as in the live workbook, also where there is no such batch."""
    found = [Edit(frozen, "Plan.xlsx").place(f"{name.lower()}_batch") for name in CHOOSING]
    choice = float(number) if isinstance(number, (int, float)) else number
    chosen = {(place.sheet, place.area.top, place.area.left): choice for place in found if place}
    assert len(chosen) == len(CHOOSING)
    one, other = asked
    with one.supposing(chosen), other.supposing(chosen):
        assert not one.distrusted()
        assert not other.distrusted()
        for sheet in CHOOSING:
            for row in seen(frozen, False)[sheet].iter_rows():
                for cell in row:
                    at = (sheet, cell.row, cell.column)
                    if (sheet, cell.coordinate) not in TOLD | UNASKED:
                        assert same(other.value(*at), one.value(*at)), at


ASKING = ("type ", "fill ", "first blank row", "Needed:")
"""Words that ask for something to be typed."""


def test_no_line_of_the_copy_asks_for_what_is_locked_in_it(frozen: bytes, live: bytes) -> None:
    """Each says instead that this is a copy as values, and where to go."""
    before, after = stored(live), stored(frozen)
    for place in TOLD - {("Start", "B2"), ("Start", "B3"), FLAG}:
        assert any(words.casefold() in str(before[place]).casefold() for words in (*ASKING, "One row for each")), place
        assert not any(words in after[place] for words in ASKING if words != "type "), place
    for place in TOLD - {("Start", "B3"), FLAG}:
        assert str(after[place]).startswith("A copy as values")
    for place in TOLD - {("Start", "B2"), FLAG}:
        assert "live workbook" in after[place]
        assert "where brinecalc is installed" in after[place]
    assert ("Start", "B3") not in before or not before["Start", "B3"]


def test_a_card_of_the_copy_does_not_send_the_cook_to_a_locked_plan(asked: list[Kept]) -> None:
    """Batch 13 of the example stops; the last row of the plan is empty, and there is no batch 99."""
    for trial, mend in zip(asked, ("Mend the row on Plan", "open the live workbook where brinecalc is installed")):
        card = Edit(trial.content, "Plan.xlsx").place("card_batch")
        assert card is not None
        for number, asks in ((13.0, True), (float(FEW), False), (99.0, False)):
            with trial.supposing({(card.sheet, card.area.top, card.area.left): number}):
                assert (mend in str(trial.value("Card", 12, 10))) is asks
                assert bool(trial.value("Card", 12, 10)) is asks


def test_the_copy_asks_for_no_amount_that_cannot_be_typed_in_it(asked: list[Kept]) -> None:
    """Batch 8 of the example is a dry cure, and the recipe is scaled by a vessel."""
    for trial, words in zip(
        asked, ("scale it by product weight", "as sent. For another amount open the live workbook")
    ):
        place = Edit(trial.content, "Plan.xlsx").place("recipe_batch")
        assert place is not None
        with trial.supposing({(place.sheet, place.area.top, place.area.left): 8.0}):
            assert words in str(trial.value("Recipe", 3, 1))


def test_no_box_of_a_note_lies_where_a_sheet_prints_in_pieces(frozen: bytes) -> None:
    """LibreOffice gives such boxes a page of their own; the list of formulas has them all."""
    edit = Edit(frozen, "Plan.xlsx")
    pieces = [sheet for sheet in edit.sheets if "," in (edit.book.name("_xlnm.Print_Area", sheet) or "")]
    assert "Log" in pieces
    assert not [sheet for sheet in pieces if b"legacyDrawing" in edit.part(edit.sheets[sheet])]


def test_what_the_copy_says_can_be_done_in_it_is_unlocked_and_the_rest_is_not(frozen: bytes) -> None:
    can, cannot = (stored(frozen)["Start", at] for at in ("B2", "B3"))
    for sheet in CHOOSING:
        assert sheet in can
    assert "locked" in cannot
    person = Person(frozen)
    for name in ("kitchen", "prepared_by", "shown_units", *(f"{sheet.lower()}_batch" for sheet in CHOOSING)):
        person.type(*person.named(name), 3)
    for place in (
        ("Plan", "F9"),
        ("Prices", "D8"),
        ("Log", "C19"),
        ("Log", "B19"),
        ("Recipe", "B18"),
        ("Recipe", "E7"),
    ):
        with pytest.raises(AssertionError, match="is locked"):
            person.type(*place, 1)


def test_a_figure_changed_by_force_fails_every_batch(frozen: bytes) -> None:
    """Whoever takes the protection off and halves a weight must not find the curing salt of the whole beside it."""
    book = Book(frozen)
    with book.supposing({("Plan", FIRST + 7, 6): 4.5, ("Plan", FIRST + FEW - 1, 2): "chicken breast"}):
        assert {book.of("says", row) for row in (1, 8, FEW)} == {"FAILS"}
        assert "changed after this copy was sent" in book.at("Plan", "D2")
        cost = column_index_from_string(GRIDS["Results"].columns["r_cost"])
        assert book.trial.value("Results", TOTALS, cost) == "not complete"
        assert book.named("order_total") == "not complete"
        assert book.named("copy_changes") == 2


@pytest.mark.skipif(office.find() is None, reason="there is no LibreOffice here")
def test_libreoffice_without_the_extension_computes_the_copy_to_the_same_values(frozen: bytes, tmp_path: Path) -> None:
    from brinecalc.hosts.calc.session import Session

    path = tmp_path / "frozen.xlsx"
    path.write_bytes(frozen)
    found = office.find()
    assert found is not None
    with Session(found, extensions=()) as calc:
        answers = calc.workbook(path, recalculate=True)
    formulas, wanted = stored(frozen, False), Edit(frozen, "x.xlsx")
    count = 0
    for (sheet, place), text in formulas.items():
        if isinstance(text, str) and text.startswith("=") and sheet not in ("Functions", "Formulas", "Copies"):
            row, col = openpyxl.utils.cell.coordinate_to_tuple(place)
            expected, got = wanted.look(sheet, row, col).value, answers[sheet].get(place, "")
            assert got == (
                pytest.approx(expected, rel=1e-9, abs=1e-9) if isinstance(expected, float) else expected or ""
            ), f"{sheet}!{place}"
            count += 1
    assert count > 5_000


def test_what_is_put_in_stands_where_the_file_format_wants_it(frozen: bytes) -> None:
    """The order of a sheet's parts by ECMA-376, 18.3.1.99: drawings before the boxes of notes, tables after."""
    order = (
        "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetProtection autoFilter mergeCells "
        "conditionalFormatting dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks "
        "colBreaks drawing legacyDrawing tableParts extLst"
    ).split()
    from lxml import etree

    for name, data in parts(frozen).items():
        if name.startswith("xl/worksheets/sheet"):
            children = [etree.QName(child).localname for child in etree.fromstring(data)]
            assert children == sorted(children, key=order.index), name
    edit = Edit(frozen, "x.xlsx")
    looks = Looks(edit)
    used = {int(place.style or 0) for sheet in edit.sheets for place in edit.map(sheet).cells.values()}
    assert max(used) < len(looks.xfs)
    count = re.search(rb'<cellXfs count="(\d+)"', parts(frozen)["xl/styles.xml"])
    assert count is not None
    assert int(count[1]) == len(looks.xfs)
