"""pint quantities in and out of the Python functions. Values: pint."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import pint
import pytest
from each import each

import brinecalc
from brinecalc import edge
from brinecalc.errors import BrineError, CellError, Impossible, OutOfRange, UnknownName, Unreadable

REGISTRY = pint.get_application_registry().get()
Q = REGISTRY.Quantity


@each(
    ("value", "dimension", "plain"),
    [
        (Q(2.5, "kg"), "mass", 2500),
        (Q(3, "lb"), "mass", 1360.77711),
        (Q(2, "L"), "water", 2 * 998.207),
        (Q(2, "kg"), "water", 2000),
        (Q(1.5, "inch"), "length", 38.1),
        (Q(90, "minute"), "time", 1.5),
        (Q(50, "degF"), "temperature", 10),
        (Q(277.15, "kelvin"), "temperature", 4),
        (Q(1, "cup"), "volume", 236.5882365),
        (Q(5, "percent"), "share", 0.05),
        (Q(156, "ppm"), "ppm", 156),
        (Q(156, "mg/kg"), "ppm", 156),
        (Q(0.5, ""), "number", 0.5),
    ],
)
def test_quantities_become_floats_in_the_base_unit(value, dimension, plain):
    assert edge.plain(value, dimension) == pytest.approx(plain, rel=1e-12)
    assert type(edge.plain(value, dimension)) is float


@each("value", [5, 5.0, "5 kg", None, True, ["2 kg", 3]])
def test_anything_else_stays_what_it_is(value):
    assert edge.plain(value, "mass") == value
    assert edge.written(value) == value


def test_arrays_become_lists():
    assert edge.plain(Q(np.array([1.0, 2.0]), "kg"), "mass") == [1000.0, 2000.0]
    assert edge.plain(Q(np.array([1.0]), "L"), "water") == pytest.approx([998.207], rel=1e-12)
    assert edge.plain([Q(1, "kg"), 5], "mass") == [1000.0, 5]


def test_an_argument_with_its_own_unit_takes_that():
    assert edge.plain(Q(0.1, "g/L"), "number", "mg/L") == pytest.approx(100)


@each(
    ("value", "dimension", "word"),
    [
        (Q(2, "kg"), "length", "a length"),
        (Q(2, "m"), "water", "a mass or volume of water"),
        (Q(5, "delta_degC"), "temperature", "a temperature"),
        (Q(5, "kg"), "share", "a share"),
        (Q(5, "kg"), "ppm", "a number of ppm"),
        (Q(5, "kg"), "number", "a number without a unit"),
    ],
)
def test_a_quantity_of_another_kind_is_unreadable(value, dimension, word):
    with pytest.raises(Unreadable, match=word):
        edge.plain(value, dimension)


@each(
    ("value", "text"),
    [
        (Q(2, "kg"), "2000.0 g"),
        (Q(1, "inch"), "25.4 mm"),
        (Q(30, "count"), "30.0 each"),
        (Q(50, "percent"), "0.5"),
        (Q(np.array([1.0, 2.0]), "kg"), ["1000.0 g", "2000.0 g"]),
    ],
)
def test_arguments_of_any_kind_get_text_with_the_unit(value, text):
    assert edge.written(value) == text


def test_a_kind_that_no_function_knows_is_unreadable():
    with pytest.raises(Unreadable):
        edge.written(Q(1, "candela"))


@each(
    ("result", "dimension", "unit", "expected"),
    [
        (50.0, "mass", "g", Q(50.0, "gram")),
        (4.0, "temperature", "°C", Q(4.0, "degC")),
        (0.05, "share", "-", Q(5.0, "percent")),
        (2.0, "time", "h", Q(120.0, "minute")),
        (1.034, "number", "g/mL", Q(1.034, "g/mL")),
    ],
)
def test_results_become_quantities_of_the_same_registry(result, dimension, unit, expected):
    dressed = edge.dressed(result, dimension, Q(1, "lb"), unit)
    assert dressed.to(expected.units).magnitude == pytest.approx(expected.magnitude, rel=1e-12)
    assert dressed._REGISTRY is REGISTRY


@pytest.mark.parametrize(
    ("result", "dimension", "unit"),
    [(3.0, "number", "-"), (3.0, "money", "-"), ("ok", "text", "-"), (50.0, "number", "degrees of salometer")],
)
def test_results_without_a_unit_that_pint_knows_stay_plain(result, dimension, unit):
    assert edge.dressed(result, dimension, Q(1, "lb"), unit) is result


def test_results_stay_plain_without_a_quantity_to_go_by():
    assert edge.dressed(50.0, "mass", None) == 50.0
    assert edge.dressed([[1.0]], "mass", Q(1, "kg")) == [[Q(1.0, "gram")]]


def test_functions_take_keywords_quantities_and_cells_alike():
    assert brinecalc.unit("2 lb", to_unit="kg") == pytest.approx(0.90718474)
    assert brinecalc.unit(Q(2, "lb"), to_unit="kg") == pytest.approx(0.90718474)
    assert brinecalc.unit_cost(pack_price=30, pack_size=Q(25, "kg"), per="kg") == 1.2
    assert brinecalc.unit_cost(30, "25 kg", None, "kg") == 1.2
    assert brinecalc.packs(Q(60, "kg"), "25 kg") == 3
    assert brinecalc.cost(["salt", "sugar"], [Q(2, "kg"), Q(1, "lb")], ["salt", "sugar"], [1, 2], per="lb") == (
        pytest.approx(2 + 2 / 0.45359237)
    )


def test_rows_go_cell_by_cell_as_in_a_sheet():
    assert brinecalc.packs([["60 kg"], ["20 kg"]], "25 kg") == [[3.0], [1.0]]
    assert brinecalc.salt([[1000, 2000]], [[0.05], [0.1]]) == [[50.0, 100.0], [100.0, 200.0]]
    assert brinecalc.salt([[1000]], 0.05) == [[50.0]]
    assert brinecalc.usual_range([["rosemary"], ["garlic"]]) == [
        brinecalc.usual_range(name)[0] for name in ("rosemary", "garlic")
    ]


def test_a_list_gives_the_list_of_its_answers():
    """Law: f([a, b]) is [f(a), f(b)], whatever f gives."""
    assert brinecalc.salt([1000, 2000], 0.05) == [50.0, 100.0]
    assert brinecalc.salt((1000, 2000), strength=[0.05, 0.1]) == [50.0, 200.0]
    assert brinecalc.salt([1000], 0.05) == [50.0]
    assert brinecalc.salt([Q(1, "kg"), "2 kg"], 0.05) == [Q(50.0, "gram"), Q(100.0, "gram")]
    assert brinecalc.check(["strength"], [0.05]) == "ok"  # a table by nature stays one
    names = ["rosemary", "garlic"]
    assert brinecalc.usual_range(names) == [brinecalc.usual_range(name) for name in names]


@pytest.mark.parametrize("shape", [(2,), (2, 1), (1, 2)])
def test_an_array_gives_an_array_of_its_shape(shape):
    made = brinecalc.salt(Q(np.array([1.0, 2.0]).reshape(shape), "kg"), Q(5, "percent"))
    assert made.units == REGISTRY.gram
    assert made.magnitude.shape == shape
    assert made.magnitude.ravel().tolist() == pytest.approx([50.0, 100.0])


@each(
    ("call", "kind", "said"),
    [
        (lambda: brinecalc.salt([1000, 0], 0.05), OutOfRange, "item 2: water must be above 0 g"),
        (lambda: brinecalc.salt(Q(np.array([1.0, 0.0]), "kg"), 0.05), OutOfRange, "item 2: water must be above 0 g"),
        (lambda: brinecalc.salt(1000, [["5%"], [5], [6]]), OutOfRange, "row 2, column 1: strength must be at most"),
        (lambda: brinecalc.packs(["60 kg", "nonsense"], "25 kg"), Unreadable, "item 2: need must be"),
        (lambda: brinecalc.salt([1000, 2000], [0.05, 0.06, 0.07]), Unreadable, "water must be one cell"),
        (lambda: brinecalc.salt([[1000], [2000, 3000]], 0.05), Unreadable, "rows of equal length"),
        (lambda: brinecalc.soak_hours(["tofu", "toffu!"], 20, 0.01, 0.05), UnknownName, "item 2: product"),
        (lambda: brinecalc.packs([1, 1e308], "0.000001 mg"), Impossible, "item 2: "),
        (lambda: brinecalc.salt([1000, "#N/A"], 0.05), CellError, "item 2: water holds the error #N/A"),
    ],
)
def test_what_is_wrong_in_a_list_is_raised_with_its_place(call, kind, said):
    with pytest.raises(kind) as caught:
        call()
    assert said in str(caught.value)


def test_python_gets_exceptions_where_a_cell_gets_errors():
    with pytest.raises(Unreadable, match="pack_size"):
        brinecalc.unit_cost(30, "a lot")
    with pytest.raises(ValueError, match="usable must be above 0 %"):
        brinecalc.unit_cost(30, "25 kg", usable=0)
    with pytest.raises(Unreadable, match="usable must be a share"):
        brinecalc.unit_cost(30, "25 kg", Q(1, "kg"))
    with pytest.raises(UnknownName):
        brinecalc.cost(["salt"], [1], ["sugar"], [1])
    with pytest.raises(Impossible):
        brinecalc.packs(1e308, "0.000001 mg")
    with pytest.raises(BrineError):
        brinecalc.packs(1, 2, 3, 1, 5)


def test_wrong_keywords_are_type_errors_as_everywhere_in_python():
    with pytest.raises(TypeError, match="no pack"):
        brinecalc.packs(1, pack=2)
    with pytest.raises(TypeError, match="need"):
        brinecalc.packs(1, need=2)


def test_unknown_functions_are_attribute_errors():
    with pytest.raises(AttributeError, match="packages"):
        _ = brinecalc.packages


def test_functions_keep_their_name_and_help():
    assert brinecalc.packs.__name__ == "packs"
    assert brinecalc.packs.__doc__.startswith("Whole packs to buy")


def test_pint_is_not_loaded_by_the_edge_nor_by_the_functions():
    code = "import sys, brinecalc; brinecalc.packs(1, '25 kg'); brinecalc.unit('2 lb'); sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_name_that_python_keeps_for_itself_ends_in_an_underscore():
    assert brinecalc.yield_(1000, 1080) == 1.08
    assert "yield_" in dir(brinecalc)
    assert "yield" not in dir(brinecalc)
    with pytest.raises(AttributeError):
        brinecalc.salt_  # noqa: B018 - the look-up is what is tried
