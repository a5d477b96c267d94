"""The gate in front of every function: blanks, errors, ranges, wrong counts, and the reasons given."""

from __future__ import annotations

import math

import pytest
from each import each

from brinecalc import catalogue, gate, registry
from brinecalc.describe import describe
from brinecalc.errors import Impossible, OutOfRange
from brinecalc.registry import Entry


def scoop(flour, level=0.5, kind="plain", note=None, most=None):
    """Flour to scoop, a function made up for these tests.

    Parameters
    ----------
    flour : mass
        Flour in the bin [g]; above 0, at most 5000. Example: 1000.
    level : share
        Part to scoop [-]; at least 0, below 1. Example: 5%.
    kind : {plain, whole grain}
        Which flour [-].
    note : text
        Words for the label [-].
    most : number
        Most scoops [-]; at least 1.

    Returns
    -------
    mass
        Flour scooped [g].

    Notes: only for tests.
    Sources: definition
    Examples
    --------
    >>> scoop(1000, 0.05)
    50.0
    """
    if kind == "whole grain" and level > 0.9:
        raise OutOfRange("must be at most 90 % for whole grain", argument="level", got="computed", nearest=0.9)
    return flour * level if most is None else most


def total(label, *cells):
    """Number of cells handed over, a function made up for these tests.

    Parameters
    ----------
    label : text
        A word [-].
    *cells : cells
        Anything [-].

    Returns
    -------
    number
        How many [-].

    Sources: definition
    """
    return float(len(cells))


def pair(mass):
    """A low and a high, a function made up for these tests.

    Parameters
    ----------
    mass : mass
        Any mass [g]; above 0.

    Returns
    -------
    table
        Low and high [g].

    Sources: definition
    """
    return [[mass - 1, mass + 1]]


def column_sum(values):
    """The sum of a column, a function made up for these tests.

    Parameters
    ----------
    values : column
        Numbers [g].

    Returns
    -------
    mass
        Sum [g].

    Sources: definition
    """
    return float(sum(value or 0 for value in values))


def broken(mass):
    """A function with a fault, made up for these tests.

    Parameters
    ----------
    mass : mass
        Any mass [g]; any.

    Returns
    -------
    mass
        Nothing [g].

    Sources: definition
    """
    raise KeyError(mass)


@pytest.fixture
def made(monkeypatch):
    registry.names()
    entries = dict(catalogue._entries)
    for function in (scoop, total, pair, column_sum, broken):
        found = Entry(function, "Tests", memo=False)
        entries[found.name] = found
    monkeypatch.setattr(catalogue, "_entries", entries)
    return entries


def test_the_record_is_read_from_the_docstring():
    spec = describe(scoop, "Tests")
    flour, level, kind, note, _ = spec.arguments
    assert spec.name == "BRINE_SCOOP"
    assert spec.usage == "BRINE_SCOOP(flour, [level], [kind], [note], [most])"
    assert (flour.kind, flour.unit, flour.low, flour.high, flour.open_low) == ("mass", "g", 0.0, 5000.0, True)
    assert flour.rule == "must be above 0 g and at most 5000 g"
    assert (level.default, level.example, level.rule) == (0.5, "5%", "must be at least 0 % and below 100 %")
    assert kind.choices == ("plain", "whole grain")
    assert note.default is None
    assert spec.sources == ("definition",)
    assert spec.notes == "only for tests."
    assert spec.examples[0].call == "scoop(1000, 0.05)"


def test_a_docstring_that_misses_an_argument_is_refused():
    def odd(mass, other):
        """Summary.

        Parameters
        ----------
        mass : mass
            Mass [g]; above 0.

        Returns
        -------
        mass
            Mass [g].
        """

    with pytest.raises(ValueError, match="signature"):
        describe(odd, "Tests")


PIECE = ("chicken breast", 38, "1%", "6%")
LOG = ("chicken breast", 38, "1%", "6%", 1)


@each(
    ("cells", "answer"),
    [
        ((1000, 0.05), 50.0),
        (("1 kg", "5%"), 50.0),
        ((1000,), 500.0),
        ((1000, "", "Whole  Grains"), 500.0),
        ((1000, None), 0.0),  # a blank cell is 0 for a number
        ((1000, 0.05, None), 50.0),  # and "not given" for a choice
        ((1000, 0.05, 0), 50.0),  # even where a host hands a blank over as 0
        (([[1000]], 0.05), 50.0),
        (([[1000], [2000]], 0.05), [[50.0], [100.0]]),
        (([[1000], [2000]], [[0.05, 0.1]]), [[50.0, 100.0], [100.0, 200.0]]),
        (([[1000], [-1], ["x"]], 0.05), [[50.0], ["#NUM!"], ["#VALUE!"]]),
        (([[1000], [""], ["#N/A"]], 0.05), [[50.0], ["#NUM!"], ["#N/A"]]),
        ((0, 0.05), "#NUM!"),
        ((None, 0.05), "#NUM!"),
        (("", 0.05), "#VALUE!"),
        ((), "#VALUE!"),
        ((6000, 0.05), "#NUM!"),
        ((1000, 1), "#NUM!"),
        ((1000, 0.05, "rye"), "#N/A"),
        ((True, 0.05), "#VALUE!"),
        ((float("nan"), 0.05), "#NUM!"),
        ((float("inf"), 0.05), "#NUM!"),
        ((10**400, 0.05), "#NUM!"),
        ((object(), 0.05), "#VALUE!"),
        ((1000, "1000 g"), "#VALUE!"),
        ((1000, 0.05, "plain", "", "", "", ""), "#VALUE!"),
        (("nonsense", "#DIV/0!"), "#DIV/0!"),  # an error that comes in goes out, whatever else is wrong
        (([[1, 2], [3, 4], [5, 6]], [[0.1, 0.2, 0.3]]), "#VALUE!"),
        (([[1, 2], [3]], 0.1), "#VALUE!"),
        (([], 0.1), "#VALUE!"),
    ],
)
def test_cells_go_through_the_gate(made, cells, answer):
    assert registry.call("BRINE_SCOOP", *cells) == answer


def test_a_range_for_a_table_argument_is_read_whole(made):
    assert registry.call("COLUMN_SUM", [[1], [2], [None], [""]]) == 3.0
    assert registry.call("COLUMN_SUM", 5) == 5.0
    assert registry.call("COLUMN_SUM", [[1], ["#REF!"]]) == "#REF!"


def test_a_row_answer_goes_down_a_column_but_not_across_a_table(made):
    assert registry.call("PAIR", [[5], ["x"]]) == [[4.0, 6.0], ["#VALUE!", "#VALUE!"]]
    assert registry.call("PAIR", [[5, 6]]) == "#VALUE!"


def test_any_number_of_cells_may_follow(made):
    assert registry.call("TOTAL", "a") == 0.0
    assert registry.call("TOTAL", "a", 1, [[1, 2]], "") == 3.0


def test_a_fault_inside_becomes_an_error_and_is_named(made):
    assert registry.call("BROKEN", 1) == "#VALUE!"
    assert "internal fault (KeyError" in registry.why("BROKEN", 1)


def test_an_unknown_function_is_not_available():
    assert registry.call("BRINE_NO_SUCH") == "#N/A"
    assert "is not a known function" in registry.why("NO_SUCH")


@each(
    ("cells", "sentence"),
    [
        ((1000, 0.05), "ok"),
        (
            (1000, 5),
            "BRINE_SCOOP: level must be at least 0 % and below 100 %, got 5, which is 500 %; "
            "write 5% or 0.05 for 5 per cent.",
        ),
        (
            (None, 0.05),
            "BRINE_SCOOP: flour must be above 0 g and at most 5000 g, got 0 g (a blank cell counts as 0); "
            "for example 1000.",
        ),
        ((1000, 0.05, "rye"), 'BRINE_SCOOP: kind must be one of "plain", "whole grain", got "rye".'),
        ((), "BRINE_SCOOP: flour is missing; give a mass such as 1000."),
        (("", 0.05), "BRINE_SCOOP: flour is missing; give a mass such as 1000."),
        ((1000, "#N/A"), "BRINE_SCOOP: level holds the error #N/A; mend that cell first."),
        ((True,), "BRINE_SCOOP: flour must be a mass such as 1000, got TRUE."),
        (
            (1000, 0.95, "whole grain"),
            "BRINE_SCOOP: level must be at most 90 % for whole grain, got 0.95, which is 95 %.",
        ),
        (
            (1, 2, 3, 4, 5, 6),
            "BRINE_SCOOP: takes at most 5 arguments, got 6; "
            "write it as BRINE_SCOOP(flour, [level], [kind], [note], [most]).",
        ),
    ],
)
def test_the_reason_says_what_to_type(made, cells, sentence):
    assert registry.why("BRINE_SCOOP", *cells) == sentence


def test_a_blank_cell_and_a_zero_get_the_same_reason_in_every_host(made):
    assert registry.why("BRINE_SCOOP", None, 0.05) == registry.why("BRINE_SCOOP", 0.0, 0.05) != "ok"


def test_ranges_get_one_reason_each(made):
    assert registry.why("BRINE_SCOOP", [[1000], [0]], 0.05) == [
        ["ok"],
        [registry.why("BRINE_SCOOP", 0, 0.05)],
    ]


def test_importing_the_core_loads_nothing_heavy():
    import subprocess
    import sys

    script = (
        "import sys, brinecalc.registry as r; r.names(); r.call('BRINE_SALT', 1000, 0.05);"
        "heavy = ('pint', 'openpyxl', 'xlwings', 'formualizer', 'numpy', 'click');"
        "print([m for m in heavy if m in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


def test_no_cell_of_a_table_is_left_without_a_number():
    assert gate._result([[1.0, -0.0], ["x", None]]) == [[1.0, 0.0], ["x", ""]]
    assert math.copysign(1.0, gate._result([[-0.0]])[0][0]) == 1.0
    for answer in (math.nan, math.inf, -math.inf):
        with pytest.raises(Impossible, match="not a finite number"):
            gate._result([[1.0, answer]])


@each(
    ("name", "cells", "sentence"),
    [
        ("PH_DOSE", ("sour", 1000, "citric acid"), 'target_ph must be a number, got "sour"; write it like 4.5.'),
        ("CURE", (1000, "a lot", "dry"), 'ppm must be a number, got "a lot"; write it like 120.'),
        ("PH", (1000, "cola", 50, 0, "soft"), 'alkalinity must be a number, got "soft"; write it as a plain number.'),
        (
            "SOAK_HOURS",
            (*PIECE, 4, "huge"),
            'bath must be a number or "large", got "huge"; write it as a plain number.',
        ),
        ("SOAK_HOURS", (*PIECE, 4, True), 'bath must be a number or "large", got TRUE.'),
        (
            "SALT",
            (1000, 2 / 3),
            "strength must be at most 35.92 % of the water at 20 °C, got 0.666666666667, which is 66.6667 %",
        ),
        (
            "SOAK_HOURS",
            ("chicken breast", "2 x 3 x 4 inchs"),
            'thickness must be a length, got "2 x 3 x 4 inchs"; did you mean "2 x 3 x 4 in"?',
        ),
        (
            "SOAK_HOURS",
            ("chicken breast", "2 x 3 in"),
            'thickness must be a length such as 38, got "2 x 3 in"; give one thickness, or three edges such as',
        ),
        ("METER", ("", "salometer"), "reading is missing; give a number such as 19.2."),
        (
            "PH",
            (1000, [["cola", "honey"]], [[50, "x"]]),
            'masses must be a mass, got "x" in row 2; write it as 2.5 kg or',
        ),
        ("PH", (1000, [["cola", "honey"]], 50), "masses must have as many cells as ingredients (2), got 1; let both"),
        ("PH", (1000, True, 50), 'ingredients must be names, got TRUE; for example "vinegar".'),
        (
            "FORECAST",
            ([[1, "soon"]], [[0.05, 0.04]], *LOG),
            'hours must be a time, got "soon" in row 2; write it as 4 h',
        ),
        (
            "FORECAST",
            ([[1, 2]], [[0.05]], *LOG),
            "readings must have as many cells as hours (2), got 1; let both ranges",
        ),
        ("COST", ([["#N/A"]], 5, "salt", 1), "ingredients holds the error #N/A; mend that cell first."),
    ],
)
def test_a_reason_names_the_cell_and_an_example_of_its_own(name, cells, sentence):
    """Complaints: a pH was to be written as 12.5, a mass of a range was not quoted, TRUE was called True."""
    assert registry.why(name, *cells).startswith(f"BRINE_{name}: {sentence}")
