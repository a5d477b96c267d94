"""One cell of a production row: what counts as blank, as yes and no, as a number, and how it is quoted."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import units
from brinecalc.errors import Unreadable
from brinecalc.trade import cells
from brinecalc.trade.headings import Column


def column(kind: str, name: str = "x", unit: str | None = None) -> Column:
    return Column(0, name, kind, False, units.find(unit) if unit else None)


@each("cell", [None, *" ,-,–,—,none,No,nil,N/A,na,nothing,without,0".split(",")])
def test_what_says_that_there_is_nothing(cell):
    assert cells.is_blank(cell)


@each("cell", [0, 0.0, False, "x", "nothing much"])
def test_what_is_not_nothing(cell):
    assert not cells.is_blank(cell)


@each("text", ["error", "Err!", "#error", "Err:502", "#N/A", "#NUM!", "#NAME?", "#WERT!"])
def test_a_text_that_stands_for_an_error(text):
    assert cells.is_error(text)


@each("text", ["errors", "an error", "#1", "# 1!", "err:", ""])
def test_a_text_that_does_not(text):
    assert not cells.is_error(text)


@each("cell", ["yes", "Y", "true", "X", "1", "reused", "again", "used", "second use", "twice"])
def test_a_word_for_yes(cell):
    assert cells.read(cell, column("flag")) == 1.0


@each("cell", ["false", "n", "New", "fresh", "first use", "never", 0, False, 0.0])
def test_a_word_for_no(cell):
    assert cells.read(cell, column("flag")) == 0.0


@pytest.mark.parametrize("cell", [1, True, 0.5])
def test_anything_above_nothing_is_yes(cell):
    assert cells.read(cell, column("flag")) == 1.0


@pytest.mark.parametrize(
    ("kind", "cell", "words"),
    [
        ("flag", "perhaps", "must be yes or no"),
        ("flag", None, "must be yes or no"),
        ("ph", "sour", "must be a pH such as 5.8"),
        ("number", "5 kg", "must be a plain number"),
        ("length", "25/30 mm", "must be a length"),
    ],
)
def test_what_cannot_be_read_says_what_would_do(kind, cell, words):
    with pytest.raises(Unreadable) as caught:
        cells.read(cell, column(kind))
    assert caught.value.rule == words


@each(
    ("cell", "value"),
    [
        (150, 150.0),
        ("150", 150.0),
        ("150 ppm", 150.0),
        ("150PPM", 150.0),
        ("80 mg/kg", 80.0),
        ("120 mg/L as CaCO3", 120.0),
        ("2 dozen", 24.0),
    ],
)
def test_plain_numbers_are_read_with_their_word(cell, value):
    assert cells.read(cell, column("number")) == value


@each("cell", [5.8, "5.8", "pH 5.8", "PH5,8", "~ 5.8", "<5.8", "≈5.8", "5.2-5.8"])
def test_ph_as_people_write_it(cell):
    assert cells.read(cell, column("ph")) == 5.8


@each(
    ("cell", "millimetres"),
    [
        (40, 40.0), ("40", 40.0), ("4 cm", 40.0), ("150 x 60 x 40 mm", 40.0), ("15 X 6 × 4 cm", 40.0),
        ("6 x 1-1/2 x 3 in", 38.1), ("6 x 1⅜ x 3 in", 34.925),
        ("6 * 4 in", 101.6), ("1.5 in x 60 mm", 38.1), ("60 x 40", 40.0),
    ],
)  # fmt: skip
def test_a_thickness_is_the_shortest_edge(cell, millimetres):
    """An inch is 25.4 mm by definition."""
    assert cells.read(cell, column("length")) == pytest.approx(millimetres)


def test_a_unit_in_the_heading_holds_for_bare_numbers_alone():
    assert cells.read(2, column("mass", unit="kg")) == cells.read("2", column("mass", unit="kg")) == 2000.0
    assert cells.read("2 g", column("mass", unit="kg")) == 2.0
    assert cells.read(2, column("mass")) == 2.0
    assert cells.read(2, column("length", unit="cm")) == 20.0


def test_a_volume_of_water_weighs_what_water_weighs():
    """0.998207 g/mL at 20 °C (CIPM 2001); of anything else in a column of water the unit alone counts."""
    assert cells.read(2, column("water", unit="L")) == pytest.approx(1996.414)
    assert cells.read("2 L", column("water", unit="kg")) == pytest.approx(1996.414)
    assert cells.read(2, column("water", unit="kg")) == 2000.0
    assert cells.read(2, column("volume", unit="L")) == 2000.0


@each(
    ("word", "celsius"),
    [
        ("room temperature", 20.0), ("Room", 20.0), ("room temp", 20.0), ("ambient", 20.0), ("kitchen", 20.0),
        ("ambient temperature", 20.0), ("warm", 30.0), ("lukewarm", 30.0), ("tepid", 30.0), ("hot", 50.0),
        ("very hot", 50.0), ("boiling", 100.0), ("on the counter", 20.0), ("garage", 12.0),
    ],
)  # fmt: skip
def test_a_word_for_a_temperature_counts_as_the_least_it_can_mean(word, celsius):
    """A judgement: what matters is that all of them lie above 5 °C, and hot ones above any start of a brine."""
    assert cells.read(word, column("temperature")) == celsius


@each(
    "kind, cell, value",
    [
        ("temperature", "4-8 C", 8.0), ("temperature", "2 to 4 °C", 4.0), ("temperature", "-1 – 2", 2.0),
        ("temperature", "38-50 °F", 10.0), ("temperature", "5 C or below", 5.0), ("temperature", "< 5", 5.0),
        ("temperature", "max. 4 °C", 4.0), ("temperature", "about 3", 3.0), ("temperature", "4º", 4.0),
        ("time", "8-12", 12.0), ("time", "8 to 12 h", 12.0), ("time", "30 min - 2 h", 2.0),
        ("time", "ca. 2 days", 48.0),
        ("temperature", "4/6 °C", 6.0), ("temperature", "4 °C or 6 °C", 6.0), ("temperature", "4..6", 6.0),
        ("temperature", "3 °C / 7 °C", 7.0), ("time", "8 or 10", 10.0), ("time", "8 h / 10 h", 10.0),
        ("time", "1/2 h", 0.5), ("time", "1 1/2 h", 1.5), ("time", "3/4 day", 18.0), ("time", "2 h and 30 min", 2.5),
        ("time", "12 hours max", 12.0), ("time", "overnight", 8.0), ("time", "half a day", 12.0),
    ],
)  # fmt: skip
def test_of_a_range_the_warmer_and_the_longer_end_counts(kind, cell, value):
    assert cells.read(cell, column(kind)) == pytest.approx(value)


@each(
    "kind, cell",
    [("temperature", "above 5"), ("temperature", "> 3 °C"), ("temperature", "fridge"),
     ("time", "8:00"), ("time", "until tender"), ("time", "8 - x"), ("mass", "2-3 kg"), ("mass", "about 2 kg")],
)  # fmt: skip
def test_what_is_bounded_from_below_or_not_at_all_is_not_read(kind, cell):
    with pytest.raises(ValueError):
        cells.read(cell, column(kind))


@each(
    "kind, cell, words",
    [
        ("temperature", "above 5", "write both, such as 2 to 4 °C"),
        ("temperature", "4 °C+", "write both, such as 2 to 4 °C"),
        ("temperature", "4 °C or warmer", "write both, such as 2 to 4 °C"),
        ("time", ">8", "write both, such as 4 to 8 h"),
        ("time", "at least 8 h", "write both, such as 4 to 8 h"),
        ("time", "8 h or more", "write both, such as 4 to 8 h"),
        ("time", "8/10", "Write 8 to 10"), ("time", "2/3 days", "Write 2 to 3"), ("length", "25/30 mm", "one of them"),
        ("mass", "5/6 g", "one of them"),
        ("mass", "2 kg or 3 kg", "give one figure, not two"), ("mass", "3 kg 2000 g", "give one figure, not two"),
        ("ph", "> 4.2", "how far above 4.2 it lies is not known"), ("ph", ">= 5.8", "write the figure that the meter"),
    ],
)  # fmt: skip
def test_what_is_open_or_may_be_two_figures_says_what_to_write(kind, cell, words):
    """Higher, warmer and longer is worse; how much so is not said, and which of two figures is meant neither."""
    with pytest.raises(Unreadable) as caught:
        cells.read(cell, column(kind))
    assert words in (caught.value.advice or "")


def test_a_brine_used_before_is_known_by_its_words():
    used = [
        "2nd time",
        "from yesterday",
        "boiled and reused",
        "re-used",
        "topped up",
        "once",
        "leftover brine",
        "again",
    ]
    assert [cells.read(word, column("flag")) for word in used] == [1.0] * len(used)
    assert [cells.read(word, column("flag")) for word in ("not reused", "never used", "first use")] == [0.0] * 3


@each(
    "text",
    [
        "used yesterday, not boiled", "used once, not fresh", "used, not first", "used twice, not thrice",
        "topped up, never emptied", "second use, first was chicken", "not used twice", "not used up",
    ],
)  # fmt: skip
def test_a_not_about_something_else_makes_no_new_brine_of_a_used_one(text):
    """It is asked about, since nobody can say what it means."""
    with pytest.raises(Unreadable, match="yes or no"):
        cells.read(text, column("flag"))


def test_a_share_of_one_is_too_much_but_for_a_gain():
    assert cells.read(1.5, column("share", "gain")) == 1.5
    assert cells.read(0.999, column("share", "strength")) == 0.999
    for cell, name in ((1.0, "strength"), (2.0, "gain"), (-0.001, "gain")):
        with pytest.raises(ValueError, match="share from 0 % to below 100 %"):
            cells.read(cell, column("share", name))


def test_the_ends_of_what_a_column_can_hold():
    assert cells.read(0, column("ph")) == 0.0
    assert cells.read(14, column("ph")) == 14.0
    assert cells.read(0, column("mass")) == 0.0
    assert cells.read(-3, column("temperature")) == -3.0


@each(
    ("cell", "words"),
    [
        ("x" * 40, "x" * 40), ("x" * 41, "x" * 39 + "…"), (True, "TRUE"), (False, "FALSE"), (None, "NoneType"),
        ([1], "list"), (5, "5"), (0.1 + 0.2, "0.3"), (10**400, "a number too large"),
    ],
)  # fmt: skip
def test_a_cell_as_a_finding_quotes_it(cell, words):
    assert cells.shown(cell) == words


@each(
    ("cell", "words"),
    [
        (1, "write 1% for 1 per cent"), (5, "write 5% for 5 per cent"), (100, "write 100% for 100 per cent"),
        (101, "write it like 5%"), (0.5, "write it like 5%"), ("5", "write it like 5%"),
    ],
)  # fmt: skip
def test_per_cent_forgotten_is_explained_where_it_can_be_meant(cell, words):
    assert cells.share_advice(cell) == words


@each("cell", ["3/4", "3.5", "2,5"])
def test_what_is_counted_is_whole(cell):
    """Three or four pieces are not three quarters of one."""
    with pytest.raises(Unreadable, match="must be a whole number"):
        cells.read(cell, column("number", "pieces"))
    assert cells.read("4", column("number", "pieces")) == 4.0
