"""Manners of all formulas: none ends in an error, tries fall back on a word, inputs are open."""

from __future__ import annotations

import re

import pytest
from cards import opened
from priced import Book

from brinecalc.workbook.sheets import order, prices, recipe


def formulas_of(book: Book) -> list[tuple[tuple[str, int, int], str]]:
    mine = (prices.SHEET, order.SHEET, recipe.SHEET)
    return [(formula.cell, formula.text) for formula in book.trial.formulas() if formula.cell[0] in mine]


def test_no_formula_ends_in_an_error_or_is_left_uncomputed(book, us_book, blank_book):
    for each in (book, us_book, blank_book):
        assert not each.trial.distrusted()
        assert not [cell for cell, _ in formulas_of(each) if isinstance(each.trial.value(*cell), dict)]


def arguments(formula: str, start: int) -> list[str]:
    """The arguments of the call whose bracket opens just before `start`."""
    depth, quoted, begin, found = 0, False, start, []
    for at in range(start, len(formula)):
        sign = formula[at]
        if sign == '"':
            quoted = not quoted
        elif quoted:
            continue
        elif sign == "(":
            depth += 1
        elif sign == ")" and depth:
            depth -= 1
        elif (sign == "," and not depth) or sign == ")":
            found.append(formula[begin:at])
            begin = at + 1
            if sign == ")":
                return found
    return found


def test_a_failed_try_falls_back_on_a_word_only(book):
    """Calc 7.4 shows Err:509 when the first argument of IFERROR calls an add-in and fails, and the second computes."""
    for cell, formula in formulas_of(book):
        for call in re.finditer(r"IFERROR\(", formula):
            tried, other = arguments(formula, call.end())
            if "BRINE_" in tried:
                assert re.fullmatch(r'"[^"]*"', other), (cell, formula)


def test_whatever_is_rounded_gets_a_hair_first(book):
    """Spreadsheet programs disagree about a half that is one but for its last digit; then nothing is computed."""
    for formula in book.trial.formulas():
        for call in re.finditer(r"\bROUND\(", formula.text):
            value = arguments(formula.text, call.end())[0]
            assert value.endswith(("+1E-9", "*1440+0.0001", "*60+0.0001")), (formula.cell, value)


def test_formulas_are_locked_and_inputs_open():
    workbook = opened()
    for name in (prices.SHEET, order.SHEET, recipe.SHEET):
        sheet = workbook[name]
        assert sheet.protection.sheet
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str) and cell.value.startswith("="):
                    assert cell.protection.locked, cell.coordinate
    open_cells = [field.key for field in prices.grid().fields if field.is_input]
    assert all(
        not workbook[prices.SHEET][prices.grid().address(key, prices.FIRST_ROW)].protection.locked for key in open_cells
    )
    for rule in workbook[prices.SHEET].data_validations.dataValidation:
        assert len(rule.prompt or "") <= 255
    assert len(workbook[order.SHEET]._charts) == 2


def test_help_and_refusals_of_inputs_are_whole_and_speak_of_shares_in_per_cent():
    """Spreadsheet programs cut a title at 32 characters and a message at 255; a limit is said as it is typed."""
    workbook = opened()
    rules = [(sheet.title, rule) for sheet in workbook for rule in sheet.data_validations.dataValidation]
    assert len(rules) > 60
    for name, rule in rules:
        assert len(rule.promptTitle or "") <= 32
        assert not re.search(r"\w{30}", rule.promptTitle or "")
        assert len(rule.prompt or "") < 255, (name, rule.promptTitle)
        if rule.type == "decimal":
            low, high = float(rule.formula1), float(rule.formula2)
            cell = workbook[name][str(rule.sqref).split(":")[0].split()[0]]
            factor, mark = (100, "%") if "%" in cell.number_format else (1, "")
            said = [float(figure) / factor for figure in re.findall(r"(\d+(?:\.\d+)?)" + mark, rule.error)]
            assert said == pytest.approx([low, high]), (name, rule.promptTitle, rule.error)
    titles = {rule.promptTitle for _, rule in rules}
    assert "Brine water per weight of …" in titles
