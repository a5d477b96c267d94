"""Cells that were cut and pasted: the formulas that named them follow, and no row may reckon with another's."""

from __future__ import annotations

import re

import pytest
from built import FEW, bare
from openpyxl.utils import column_index_from_string, get_column_interval
from priced import Book

from brinecalc.workbook import example, frame
from brinecalc.workbook.book import Options
from brinecalc.workbook.edit.book import Edit

FREE = 16
"""A row of the plan that the example leaves blank."""

MOVES = (
    ("Plan", ["B", *get_column_interval("D", "AI")], 14, 7 + FREE),
    ("Plan", ["D"], 12, 14),
    ("Prices", ["A", *get_column_interval("C", "L")], 11, 60),
)
"""Sheet, columns, row, and where they are pasted: a batch, the words for the card of another, a price."""


def move(edit: Edit, overwrites: bool, sheet: str, columns: list[str], row: int, to: int) -> None:
    """Moves cells as a spreadsheet program does, which writes every formula anew that named them.

    Some programs put an error in place of what named a cell that was pasted over, some leave it as it is.
    """
    any_of = "|".join(columns)
    named, lost = (rf"\$(?:{any_of}){at}(?::\$(?:{any_of}){at})?(?!\d)" for at in (row, to))
    for page, part in edit.sheets.items():
        prefix = r"(?<![!\w$:])" if page == sheet else f"{sheet}!"

        def anew(found: re.Match[str], prefix: str = prefix) -> str:
            text = found[0]
            if overwrites and str(to) in text:
                text = re.sub(prefix + lost, "#REF!", re.sub(f"{sheet}!{lost}", f"{sheet}!#REF!", text))
            for start in {prefix, f"{sheet}!"} if str(row) in text else ():
                text = re.sub(start + named, lambda cells: cells[0].replace(str(row), str(to)), text)
            return text

        edit.set_part(part, re.sub("(?<=<f>)[^<]+(?=</f>)", anew, edit.part(part).decode()).encode())
    for column in map(column_index_from_string, columns):
        edit.put(sheet, to, column, edit.look(sheet, row, column).value)
        edit.put(sheet, row, column, None)


@pytest.fixture(scope="module", params=[False, True], ids=["kept", "lost"])
def moved(request):
    """The example with those cells moved, and whether what named a cell that was pasted over is lost."""
    edit = Edit(bare(Options(filled=True, batches=FEW)), "Plan.xlsx")
    for each in MOVES:
        move(edit, request.param, *each)
    return Book(edit.done()), request.param


def test_a_batch_that_was_cut_and_pasted_is_not_counted_twice(moved):
    book, lost = moved
    failing = [5, 7, FREE] if lost else [5, 7]
    assert [row for row in range(1, FREE + 1) if book.of("says", row) == "FAILS"] == failing
    assert {book.of("p_finding", row) for row in failing} == {"FAILS: " + frame.MOVED}
    assert book.at("Plan", "D2").startswith(f"16 batches. {len(failing)} not worked out")
    assert book.named("order_total") == "not complete"
    assert {book.of(key, 7) for key in ("r_salt", "r_liquid", "r_edible", "r_meter")} == {"FAILS"}
    assert {book.of(f"m_{key}", 7)["type"] for key in ("product", "base", "salt")} == {"Error"}


def test_a_price_that_was_cut_and_pasted_is_ordered_once(moved):
    book, lost = moved
    assert book.of("price_says", 4) == "moved"
    assert book.of("price_why", 4) == frame.MOVED
    assert {book.of(key, 4) for key in ("price_cost", "price_buy", "price_line", "price_used")} == {""}
    assert f"first, row 11: {frame.MOVED}" in book.at("Prices", "A3")
    ordered = [book.at("Order", f"B{row}") for row in range(9, 60)]
    assert ordered.count(example.PRICES[3]["name"]) == (0 if lost else 1)
    assert 0 not in ordered
    assert not [cell for cell, value in book.everything().items() if cell[0] == "Prices" and isinstance(value, dict)]
