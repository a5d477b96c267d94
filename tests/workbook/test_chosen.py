"""What Card, Log and Charts share: the choice of a batch, what is open, and no error in sight."""

from __future__ import annotations

import pytest
from built import FEW
from cards import DRY, EMPTY, EVEN, FAILING, INJECTED, PLAIN, STOPPED, computed, opened
from each import each

from brinecalc.workbook.sheets import card, charts, log

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
    assert rules[0].formula1 == f"Plan!$A$8:$A${7 + FEW}"
    assert 0 < len(rules[0].prompt) <= 255


@each("name", [card.SHEET, log.SHEET, charts.SHEET])
@each("number", [PLAIN, DRY, INJECTED, STOPPED, FAILING, EVEN, EMPTY])
def test_no_error_stands_on_the_page_or_behind_it(name, number):
    sheet = computed(number)[name]
    assert [at for at, value in sheet.items() if isinstance(value, dict)] == []
