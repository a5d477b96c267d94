"""The functions inside a running LibreOffice: typed, explained by the wizard, given cells of every kind."""

from __future__ import annotations

import pytest

from brinecalc import registry
from brinecalc.describe import worked_examples
from brinecalc.hosts import texts


def close(one, other):
    """Equal, numbers to 1e-12."""
    if isinstance(one, list):
        return isinstance(other, list) and len(one) == len(other) and all(map(close, one, other))
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return one == pytest.approx(other, rel=1e-12, abs=1e-300)
    return one == other


def agrees(answer, example):
    """Whether an answer is what a docstring states, within its rounding."""
    if isinstance(answer, float):
        return abs(answer - example.answer) <= example.within + 1e-12 * abs(example.answer)
    return close(answer, [list(row) for row in example.answer] if isinstance(answer, list) else example.answer)


def test_typing_a_formula(calc):
    """Definition of BRINE_SALT on the water basis: 1000 g × 5 %."""
    assert calc.evaluate(["=BRINE_SALT(1000;5%)", "=brine_salt(1000;0,05)", "=BRINE_SALT(1000;5%)*2"])[::2] == [
        50.0,
        100.0,
    ]


def test_every_docstrings_example_holds(calc):
    examples = [(name, example) for name in registry.names() for example in worked_examples(registry.spec(name))]
    answers = calc.calls([(name, example.cells) for name, example in examples])
    wrong = [
        (example.formula(name), answer, example.answer)
        for (name, example), answer in zip(examples, answers)
        if not agrees(answer, example)
    ]
    assert wrong == []
    assert len(examples) >= len(registry.names())


def test_the_function_wizard_shows_the_registrys_texts(calc):
    shown = calc.order("wizard")
    for name in registry.names():
        spec = registry.spec(name)
        assert shown[name]["text"] == texts.function_help(spec)
        wanted = [[texts.argument_name(a), texts.argument_help(a)] for a in spec.arguments]
        assert [argument[:2] for argument in shown[name]["arguments"]] == wanted


CALLS = [
    ("BRINE_SALT", (1000.0, 0.05, "", 0.5)),
    ("BRINE_SALT", (1000.0, None)),
    ("BRINE_SALT", (None, 0.05)),
    ("BRINE_SALT", (1000.0, 0.05, None)),
    ("BRINE_SALT", ("2 L", "5%", "Solution")),
    ("BRINE_SALT", ("much", 0.05)),
    ("BRINE_SALT", (1000.0, 5.0)),
    ("BRINE_SALT", (1000.0,)),
    ("BRINE_SALT", (1000.0, 0.05, "air")),
    ("BRINE_SALT", ("#DIV/0!", 0.05)),
    ("BRINE_SALT", ("#N/A", 0.05)),
    ("BRINE_SALT", ([[1000.0], [None], ["2 L"], ["x"]], 0.05)),
    ("BRINE_SALT", ([[1000.0], [2000.0]], [[0.05, 0.1]])),
    ("BRINE_SALT", ([[1000.0]], [[0.05]])),
    ("BRINE_SALT", ([[None]], [[0.05]])),
    ("BRINE_SALT", ([[1000.0], [2000.0]], [[0.05], [0.1], [0.15]])),
    ("BRINE_UNIT", ("38 °F", "", "°C")),
    ("BRINE_UNIT", ('5" x', "", "mm")),
    ("BRINE_EDIBLE", (1000.0, "no such beast")),
    ("BRINE_WHY", ("SALT", 1000.0, 5.0)),
    ("BRINE_WHY", ("SALT", 1000.0, 0.05, "", 0.0)),
    ("BRINE_WHY", ("SALT", [[1000.0], [-1.0]], 0.05)),
    ("BRINE_WHY", ("NOSUCH", 1.0)),
    ("BRINE_WHY", ("SALT",)),
    ("BRINE_USUAL_RANGE", ("white sugar",)),
    ("BRINE_GAIN", (1e300, 1e-300)),
    ("BRINE_GAIN", (1e-300, 1e300)),
]


def test_calc_answers_as_the_library_does(calc):
    """The law of one answer in every host: values to 1e-12, errors of the same kind, reasons the same sentence."""
    answers = calc.calls(CALLS)
    library = [registry.call(name, *cells) for name, cells in CALLS]
    wrong = [(call, one, other) for call, one, other in zip(CALLS, answers, library) if not close(one, other)]
    assert wrong == []


def test_errors_are_true_errors(calc):
    formulas = [
        "=ISERROR(BRINE_SALT(1000;5))",
        '=ISNA(BRINE_EDIBLE(1;"no such beast"))',
        "=ISERR(BRINE_SALT(-1;5%))",
        "=IFERROR(BRINE_SALT(1000;5);-1)",
        "=COUNT(BRINE_SALT(-1;5%))",
        "=ERROR.TYPE(BRINE_SALT(-1;5%))",
        '=ERROR.TYPE(BRINE_SALT("x";5%))',
        '=ERROR.TYPE(BRINE_EDIBLE(1;"no such beast"))',
    ]
    assert calc.evaluate(formulas) == [1.0, 1.0, 1.0, -1.0, 0.0, 6.0, 3.0, 7.0]


def test_choices_around_a_function_are_made_as_around_calcs_own(calc):
    """A table of one cell would lead IF and IFERROR inside an IFERROR astray (Err:509); a single cell does not."""
    bad, good = 'BRINE_SALT("x";5%)', "BRINE_SALT(1000;5%)"
    formulas = [
        f"=IFERROR({bad};IF(1>0;5;6))",
        f"=IFERROR({bad};IFERROR(1/0;8))",
        f"=IFERROR({bad};IF(1>0;{good};6))",
        f"=IFERROR(1/{bad};IFERROR(BRINE_SALT(1/{bad};5%);IF({good}>0;9;6)))",
        f"=IF({good}>0;IFERROR({bad};IF({good}<0;6;7));6)",
        f'=IF(AND({good}>0;ISERROR({bad}));CHOOSE(2;1;{good});"")',
    ]
    assert calc.evaluate(formulas) == [5.0, 8.0, 50.0, 9.0, 7.0, 50.0]


def test_a_column_follows_its_cells(calc):
    """An array formula over a range gives a new answer for each change, and the same one for the same cells."""
    with calc.book() as book:
        calc.order("enter", book=book, sheet="", first="A1", rows=[[1000.0], [2000.0], [3000.0]])
        calc.order("enter_arrays", book=book, sheet="", arrays={"B1:B3": "=BRINE_SALT(A1:A3;5%)"})
        calc.order("enter", book=book, sheet="", first="C1", rows=[["=SUM(B1:B3)"]])
        seen = []
        for water in (2000.0, -1.0, 2000.0, *map(float, range(1, 300)), 2000.0):
            calc.order("enter", book=book, sheet="", first="A2", rows=[[water]])
            seen.append([row[0] for row in calc.order("read", book=book, sheet="", area="B1:B3")])
        assert seen[:3] == [[50.0, 100.0, 150.0], [50.0, "#NUM!", 150.0], [50.0, 100.0, 150.0]]
        assert seen[3:-1] == [[50.0, pytest.approx(water * 0.05, rel=1e-12), 150.0] for water in range(1, 300)]
        assert seen[-1] == seen[0]
        assert calc.order("read", book=book, sheet="", area="C1:C1") == [[300.0]]
        calc.order("recalculate", book=book)
        assert calc.order("read", book=book, sheet="", area="C1:C1") == [[300.0]]


def test_an_empty_place_between_semicolons_is_not_given(calc):
    assert calc.evaluate(["=BRINE_SALT(1000;5%;;0,5)".replace(",", "."), '=BRINE_SALT(1000;5%;"";0.5)']) == [
        100.0,
        100.0,
    ]
    assert calc.evaluate(['=BRINE_WHY("SALT";1000;;)'])[0] == registry.call("BRINE_WHY", "SALT", 1000.0, "", "")


def test_functions_nest_and_feed_calcs_own(calc):
    formulas = [
        "=BRINE_SALT(BRINE_SALT(1000;5%);10%)",
        "=SUM(BRINE_SALT({1000|2000};5%))",
        "=ROUND(BRINE_STRENGTH(BRINE_SALT(1000;5%);1000);6)",
        '=IF(BRINE_SALT(1000;5%)>49;"more";"less")',
    ]
    assert calc.evaluate(formulas) == [5.0, 150.0, 0.05, "more"]


def test_known_differences_of_this_host(calc):
    """Calc does not call a function for these: an error cell inside a range, more arguments than it has."""
    calls = [("BRINE_SALT", ([[1000.0], ["#N/A"]], 0.05)), ("BRINE_SALT", (1.0,) * 5)]
    assert calc.calls(calls) == ["Err:504", "Err:504"]
    assert registry.call(*[calls[0][0], *calls[0][1]]) == [[50.0], ["#N/A"]]
    assert registry.call(*[calls[1][0], *calls[1][1]]) == "#VALUE!"
