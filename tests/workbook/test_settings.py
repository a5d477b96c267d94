"""The settings on Start: what is typed in words, wrongly or not at all is read, refused by name or assumed aloud."""

from __future__ import annotations

from contextlib import contextmanager
from typing import Any, Iterator

import openpyxl
import pytest
from built import FEW, bare
from each import each
from priced import Book, place, shared
from xlsx import seen

from brinecalc.workbook.book import Options
from brinecalc.workbook.sheets import checks, recipe


@contextmanager
def set_to(book: Book, **settings: Any) -> Iterator[None]:
    """The workbook with other settings, by their names."""
    with book.supposing({book.cell(name): value for name, value in settings.items()}):
        yield


def says(book: Book) -> list[Any]:
    return [book.of("says", row) for row in range(1, 16)]


@pytest.mark.parametrize(("typed", "celsius"), [("4 °C", 4.0), ("40 °F", 40 / 9), ("40", 40 / 9), (40.0, 40 / 9)])
def test_a_temperature_may_carry_its_unit(us_book: Book, typed: Any, celsius: float) -> None:
    """40 °F is (40 - 32) / 1.8 °C."""
    before = says(us_book)
    with set_to(us_book, bath_temperature=typed, tap_temperature="60 °F", ice_temperature="0 °C"):
        assert us_book.named("bath_celsius") == pytest.approx(celsius)
        assert us_book.named("tap_celsius") == pytest.approx(28 / 1.8)
        assert "FAILS" not in says(us_book)
    assert says(us_book) == before


def test_a_temperature_in_words_is_repeated_as_it_was_typed(us_book: Book) -> None:
    with set_to(us_book, bath_temperature="cold"):
        failing = [us_book.of("w_reason", row) for row in range(1, 16) if us_book.of("says", row) == "FAILS"]
        assert failing
        assert any('while soaking, on Start, must be a temperature, got "cold"' in reason for reason in failing)
        assert not any("°F °F" in reason or '"cold °' in reason for reason in failing)


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("tap_temperature", "warm", "Water from the tap, on Start,"),
        ("rest_hours", "2 h", 'Rest after the soak, hours, on Start, must be a plain number of hours, got "2 h".'),
        ("bath_ratio", "one", 'Brine water per weight of product, on Start, must be a plain number, got "one".'),
        ("overage", "10 per cent", "Injection brine mixed beyond the gain, on Start, must be a plain number"),
        ("bath_ratio", 100.0, "of product, on Start, must be at least 0.2 and at most 20, got 100; type 1 for as much"),
        ("bath_ratio", 0.0, "of product, on Start, must be at least 0.2 and at most 20, got 0; type 1 for as much"),
        ("rest_hours", 2000.0, "Rest after the soak, hours, on Start, must be at least 0 and at most 240, got 2000;"),
        (
            "rest_hours",
            -1.0,
            "Rest after the soak, hours, on Start, must be at least 0 and at most 240, got -1; type 2",
        ),
        ("water_alkalinity", -50.0, "Alkalinity of the water, on Start, must be at least 0 and at most 1000, got -50;"),
        (
            "water_alkalinity",
            5000.0,
            "of the water, on Start, must be at least 0 and at most 1000, got 5000; type what",
        ),
        ("water_alkalinity", "hard", 'Alkalinity of the water, on Start, must be a plain number of mg/L, got "hard".'),
        ("typed_units", "kg", 'Figures are typed in, on Start, must be metric or US, got "kg"; choose it from'),
    ],
)
def test_a_wrong_setting_is_named_with_its_sheet(book: Book, name: str, value: float | str, words: str) -> None:
    with set_to(book, **{name: value}):
        reasons = [book.of("w_reason", row) for row in range(1, 16) if book.of("says", row) == "FAILS"]
        assert any(words in reason for reason in reasons), reasons
        assert "All worked out" not in str(book.named("plan_state"))
        assert not any("figure in this row" in reason for reason in reasons)


@each(
    ("name", "values"),
    [("bath_ratio", (0.2, 20.0)), ("rest_hours", (0.0, 240.0, None)), ("water_alkalinity", (0.0, 1000.0, None))],
)
def test_a_setting_at_its_least_or_most_is_taken(book: Book, name: str, values: tuple[float | None, ...]) -> None:
    for value in values:
        with set_to(book, **{name: value}):
            reasons = [book.of("w_reason", row) for row in range(1, 16)]
            assert not any("on Start" in str(reason) for reason in reasons), (value, reasons)


@each("value", [10.0, 2.0, 1.0, -0.5])
def test_a_beyond_that_is_no_share_is_refused(book: Book, value: float) -> None:
    """10 for 10 % would mix ten times the brine too much, and as much curing salt."""
    with set_to(book, overage=value):
        reasons = {str(book.of("w_reason", row)) for row in range(1, 16) if book.of("says", row) == "FAILS"}
        assert len(reasons) == 1
        beginning = "Injection brine mixed beyond the gain, on Start, must be at least 0 % and below 100 %, got "
        assert reasons.pop() == f"{beginning}{value:g}, which is {100 * value:g} %; type 10% for 10 per cent."
        assert "All worked out" not in str(book.named("plan_state"))


@each("value", [None, 0.0, 0.1, 0.99])
def test_a_beyond_that_is_a_share_is_mixed(book: Book, value: float | None) -> None:
    injected = next(row for row in range(1, 16) if book.of("method", row) == "injected")
    with set_to(book, overage=value):
        mixed = book.of("w_edible", injected) * book.of("w_gain", injected) * (1 + (value or 0))
        assert book.of("w_mix", injected) == pytest.approx(mixed)
        assert book.of("w_fails", injected) == 0


def test_what_is_typed_beyond_the_gain_is_held_to_the_same_share() -> None:
    words = "Injection brine mixed beyond the gain"
    at = next(cell.offset(0, 1).coordinate for cell in _start()["B"] if cell.value == words)
    rule = next(rule for rule in _start().data_validations.dataValidation if at in rule.sqref)
    assert (rule.formula1, rule.formula2) == ("0", "0.99")
    assert rule.error == "Type a share between 0% and 99%."


def test_what_a_blank_temperature_stands_for_is_said_and_done(book: Book) -> None:
    help_text = {cell.value: cell.offset(0, 2).value for cell in _start()["B"] if cell.value}
    with set_to(book, tap_temperature=None, ice_temperature=None, bath_temperature=None):
        assert book.named("tap_celsius") == book.named("bath_celsius") == 4
        assert book.named("ice_celsius") == 0
    assert "Blank: none is held back" in help_text["Water from the tap or pot"]
    assert "Blank: wet ice" in help_text["Ice"]
    assert "blank: 4 °C" in help_text["Brine temperature while soaking"]


def test_temperatures_are_checked_as_they_are_typed() -> None:
    """The message asks for no more than what the check lets pass: a number, or one that ends in its unit."""
    rules = {str(rule.sqref): rule for rule in _start().data_validations.dataValidation if rule.type == "custom"}
    assert len(rules) == 3
    assert all("4 °C or 40 °F" in rule.error and rule.showErrorMessage for rule in rules.values())


def test_the_alkalinity_of_the_water_is_given_once_for_plan_and_recipe() -> None:
    """Honey in soft water sours a brine with curing salt; hard water holds its pH up."""
    book = shared("metric", True, FEW)
    pickled = next(row for row in range(1, 16) if book.of("cure", row) and book.of("method", row) == "equilibrium")
    honey = {place("liquid", pickled): None, place("sweetener", pickled): "honey", place("sweet_level", pickled): 0.03}
    asks = "give the alkalinity of the water"
    with book.supposing(honey):
        assert asks in _said(book, pickled)
        with set_to(book, water_alkalinity=300.0):
            assert asks not in _said(book, pickled)
            assert "nitrite turns into poisonous gas" not in _said(book, pickled)
        with set_to(book, water_alkalinity=0.0):
            assert "STOP cure: Curing salt must not go into a brine of pH" in _said(book, pickled)


def test_the_recipe_takes_the_alkalinity_of_start_unless_it_has_its_own(book: Book) -> None:
    at = next(row for row in range(recipe.LAST, recipe.LAST + 9) if "pH" in str(book.at(recipe.SHEET, f"F{row}")))
    with set_to(book, water_alkalinity=250.0, recipe_alkalinity=None):
        of_start = book.at(recipe.SHEET, f"J{at}")
        with set_to(book, recipe_alkalinity=20.0):
            own = book.at(recipe.SHEET, f"J{at}")
    with set_to(book, recipe_alkalinity=250.0):
        assert book.at(recipe.SHEET, f"J{at}") == pytest.approx(of_start)
    with set_to(book, water_alkalinity=20.0, recipe_alkalinity=None):
        assert book.at(recipe.SHEET, f"J{at}") == pytest.approx(own)
    assert own != pytest.approx(of_start)


def _said(book: Book, row: int) -> str:
    """All that Checks says of a batch."""
    made = checks.grid(FEW)
    at = made.address("c_text", made.first_row + row - 1)
    return str(book.at(checks.SHEET, at))


def _start() -> openpyxl.worksheet.worksheet.Worksheet:
    return seen(bare(Options(filled=True, batches=FEW)), values=False)["Start"]
