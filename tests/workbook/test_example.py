"""The worked example: every feature in use, and in US units figures that a US kitchen would type."""

from __future__ import annotations

from functools import cache

import pytest
from cards import opened
from openpyxl.utils import column_index_from_string
from priced import shared

from brinecalc.hosts.headless.trial import Trial
from brinecalc.tables import load
from brinecalc.workbook import example, example_us
from brinecalc.workbook.sheets import log, plan, reference, results, workings

UNITS = ("metric", "US")


@cache
def book(units: str) -> Trial:
    return shared(units).trial


def column(units: str, sheet: str, key: str) -> list[object]:
    grid = {"Plan": plan.grid, "Results": results.grid, "Workings": workings.grid}[sheet]()
    at = column_index_from_string(grid.columns[key])
    return [book(units).value(sheet, grid.first_row + row, at) for row in range(len(example.BATCHES))]


@pytest.mark.parametrize("units", UNITS)
def test_one_batch_is_a_stop_one_a_caution_and_none_fails(units):
    said = column(units, "Results", "r_says")
    assert len(said) >= 14
    assert [number for number, word in enumerate(said, 1) if word == "STOP"] == [13]
    assert [number for number, word in enumerate(said, 1) if word == "CAUTION"] == [6]
    assert "FAILS" not in said


@pytest.mark.parametrize(("units", "words"), [("metric", "5 °C / 41 °F"), ("US", "41 °F / 5 °C")])
def test_findings_tell_first_the_units_in_which_the_book_is_filled(units, words):
    assert words in column(units, "Results", "r_message")[5]


@pytest.mark.parametrize("units", UNITS)
def test_the_totals_leave_out_the_batch_with_a_stop_and_say_so(units):
    columns = {key: results.grid().columns[key] for key in ("r_product", "r_edible", "r_cost")}
    at = {key: column_index_from_string(letter) for key, letter in columns.items()}
    assert book(units).value("Results", results.TOTALS, at["r_product"]) == "All but 1 with a STOP"
    for key in ("r_edible", "r_cost"):
        grams = column(units, "Workings", {"r_edible": "w_edible", "r_cost": "w_cost"}[key])
        share = {"metric": 1000.0, "US": 453.59237}[units] if key == "r_edible" else 1.0
        started = sum(value for number, value in enumerate(grams, 1) if number != 13) / share
        assert book(units).value("Results", results.TOTALS, at[key]) == pytest.approx(started, rel=1e-12)


@pytest.mark.parametrize("units", UNITS)
def test_it_runs_over_three_days(units):
    assert len({int(moment) for moment in column(units, "Plan", "ready")}) == 3


@pytest.mark.parametrize("units", UNITS)
def test_every_column_to_fill_in_is_used(units):
    unused = [
        field.key
        for field in plan.inputs()
        if field.is_input and not any(value not in (None, "") for value in column(units, "Plan", field.key))
    ]
    assert unused == ["native"]  # only for goods that were salted before; the table's figure is used


@pytest.mark.parametrize("units", UNITS)
def test_every_vessel_is_large_enough(units):
    assert "too full" not in column(units, "Results", "r_fit")


def test_us_figures_are_those_of_a_us_kitchen():
    quarters = [*column("US", "Plan", "weight"), *column("US", "Plan", "thickness"), *column("US", "Plan", "portion")]
    assert [value for value in quarters if isinstance(value, float) and value % 0.25] == []
    weights = column("US", "Plan", "weight")
    assert all(value == int(value) for value in [*weights, *(v for v in column("US", "Plan", "vessel") if v)])
    assert all(value == int(value) for value in column("US", "Plan", "bath_degree") if value not in (None, ""))


def test_the_two_price_lists_name_the_same_things_in_the_same_order():
    assert [row["name"] for row in example_us.PRICES] == [row["name"] for row in example.PRICES]
    for row in example_us.PRICES:
        pack = row["pack"]
        assert pack.endswith((" lb", " oz", " gal", "each")), pack


@pytest.mark.parametrize("units", UNITS)
def test_readings_of_the_example_are_typed_as_a_meter_shows_them(units):
    rows = range(log.FIRST, log.FIRST + 5)
    assert all(4 < book(units).value("Log", row, 3) < 10 for row in rows)
    said = [book(units).value("Log", row, 10) for row in rows]
    assert all("In the range" in text for text in said)
    assert sum("chill at once" in text for text in said) == 1


def test_texts_of_a_us_book_speak_of_degrees_fahrenheit():
    trial = book("US")
    for sheet in ("Card", "Recipe", "Log"):
        words = [str(trial.value(*formula.cell)) for formula in trial.formulas() if formula.cell[0] == sheet]
        alone = [text for text in words if "°C" in text and "°F" not in text and "20 °C" not in text]
        assert alone == []


@pytest.mark.parametrize("sheet", ["Limits", "Functions"])
def test_rows_of_the_reference_sheets_are_as_high_as_their_longest_text(sheet):
    made = opened()[sheet]
    checked = 0
    for row in made.iter_rows(min_row=5):
        for cell in row:
            if cell.alignment.wrap_text and cell.value:
                letters = len(str(cell.value))
                wide = made.column_dimensions[cell.column_letter].width * 1.16  # nine-point letters, half an em each
                assert made.row_dimensions[cell.row].height >= 10.4 * letters / wide, cell.coordinate
                checked += 1
    assert checked > 300


@pytest.mark.parametrize(("units", "ours"), [("metric", "EU"), ("US", "US")])
def test_the_limits_begin_with_the_rules_that_the_book_is_held_to(units, ours):
    rules = [row["rules"] for row in load.rows("limits")]
    shown = [book(units).value("Limits", row, 3) for row in range(5, 5 + len(rules))]
    assert shown == [ours] * rules.count(ours) + [other for other in rules if other != ours]


@pytest.mark.parametrize("units", UNITS)
def test_the_logged_batch_is_still_under_way(units):
    assert book(units).value("Log", 9, 1) > 0.1


@pytest.mark.parametrize(
    ("units", "named", "other"),
    [("metric", "reference intake", "daily value"), ("US", "daily value", "reference intake")],
)
def test_salt_of_a_portion_is_held_against_the_figure_of_the_books_own_rules(units, named, other):
    trial = book(units)
    told = " ".join(str(trial.value(*found.cell)) for found in trial.formulas() if found.cell[0] == "Findings")
    assert named in told
    assert other not in told


def test_the_functions_sheet_shows_what_the_cells_show():
    """A range reads as its cells, a whole number as a cell shows it; the answer is that of the example's docstring."""
    assert reference.as_cells([[0.01, 0.05]]) == "0.01 | 0.05"
    assert reference.as_cells([["ok", "", "", ""]]) == "ok"
    assert reference.as_cells([[0.0, 0.5], [50.0, 0.25]]) == "0 | 0.5 / 50 | 0.25"
    assert reference.as_cells(50.0) == "50"
    sheet = opened()["Functions"]
    shown = [cell.value for cell in sheet["C"] if isinstance(cell.value, str) and "   gives   " in cell.value]
    assert len(shown) > 40
    assert [text for text in shown if any(mark in text.partition("   gives   ")[2] for mark in "[]'")] == []
