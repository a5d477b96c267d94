"""Sweeteners, aromatics and functional salts as worksheet functions."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry

call, why = registry.call, registry.why


@each(
    ("cells", "answer"),
    [
        (("BRINE_SWEETENER", 1000, 0.02), 20.0),
        (("BRINE_SWEETENER", "1 L", "2%", "honey"), 0.02 * 998.207),
        (("BRINE_SWEETENER", 1000, 0.02, "molasses", "sweetness"), 25.0),  # 0.8 as sweet: between 0.7 and 0.9
        (("BRINE_SWEETENER", 1000, None), 0.0),  # no sweetener
        (("BRINE_SWEETENER_SWAP", 100, "sugar", "anhydrous dextrose"), 100 / 0.74),  # 0.74 read
        (("BRINE_SWEETENER_SWAP", 100, "sugar", "honey", "solids"), 99.98 / 0.829),  # USDA SR27 water
        (("BRINE_SUGARS", 1000, "cola"), 107.5),  # USDA SR27 14148
        (("BRINE_SUGARS", 1000, "honey"), 821.2),  # USDA SR27 19296
        (("BRINE_SUGARS", 1000, "salt"), 0.0),
        (("BRINE_WATER_IN", 1000, "cola"), 896.2),
        (("BRINE_WATER_IN", "1 kg", "maple syrup"), 323.9),  # USDA SR27 19353
        (("BRINE_WATER_IN", 1000, "lemon juice"), 923.1),  # USDA SR27 09152
        (("BRINE_WATER_IN", 0, "honey"), 0.0),
        (("BRINE_DOSE", 1000, 0.002, "STPP"), 2.0),
        (("BRINE_DOSE", "2 L", "1%", "black pepper"), 0.02 * 998.207),
        (("BRINE_DOSE", 1000, 0.04, "STPP", "injection"), 40.0),
        (("BRINE_DOSE", 1000, 0.003, "calcium chloride", "vegetable"), 3.0),
        (("BRINE_DOSE", 1000, 0.9, "cola"), 900.0),
        (("BRINE_DOSE", 1000, 0, "thyme"), 0.0),
        (("BRINE_WEIGHT", "1 tbsp", "table salt"), 18.0),  # USDA SR27 02047
        (("BRINE_WEIGHT", "1 cup", "honey"), 339.0),  # USDA SR27 19296
        (("BRINE_WEIGHT", "1 tsp", "hollow flake kosher salt"), 3.77),  # home weighings
        (("BRINE_VOLUME", 339, "honey"), 236.588),
        (("BRINE_VOLUME", "18 g", "table salt"), 14.787),
    ],
)
def test_values_are_those_of_the_records(cells, answer):
    """USDA SR27 measures and composition; sweetness as read or between sources; the rest arithmetic."""
    rounded_record = cells[0] in ("BRINE_WEIGHT", "BRINE_VOLUME")
    assert call(*cells) == pytest.approx(answer, rel=2e-3 if rounded_record else 1e-9)


@each(
    ("cells", "low", "high"),
    [
        (("white sugar",), 0.01, 0.05),
        (("rosemary",), 0.001, 0.005),
        (("herbs",), 0.005, 0.05),
        (("STPP",), 0.0002, 0.003),
        (("SHMP", "immersion"), 0.0002, 0.003),
        (("calcium chloride",), 0.0001, 0.0003),
    ],
)
def test_usual_ranges_are_those_in_use(cells, low, high):
    """Common practice, no source."""
    assert call("BRINE_USUAL_RANGE", *cells) == [[low, high]]


def test_usual_ranges_of_a_column_stack():
    answer = call("BRINE_USUAL_RANGE", [["sugar"], ["herbs"], ["lye"]])
    assert answer == [[0.01, 0.05], [0.005, 0.05], ["#NUM!", "#NUM!"]]


@each(
    ("cells", "cell", "says"),
    [
        (("SWEETENER", 1000, 2), "#NUM!", ("level", "write 2%")),
        (("SWEETENER", 0, 0.02), "#NUM!", ("water", "above 0")),
        (("SWEETENER", 1000, -0.01), "#NUM!", ("level", "at least 0")),
        (("SWEETENER", 1000, "much"), "#VALUE!", ("level", "much")),
        (("SWEETENER", 1000, 0.02, "hony"), "#N/A", ("sweetener", "hony", '"honey"')),
        (("SWEETENER", 1000, 0.02, "salt"), "#N/A", ("sweetener", "not a sweetener")),
        (("SWEETENER", 1000, 0.02, "honey", "colour"), "#N/A", ("match", "weight", "sweetness")),
        (("SWEETENER_SWAP", 100, "sugar"), "#VALUE!", ("to_sweetener", "missing")),
        (("SWEETENER_SWAP", 100, "sugr", "honey"), "#N/A", ("from_sweetener", "white sugar")),
        (("SWEETENER_SWAP", 0, "sugar", "honey"), "#NUM!", ("mass", "above 0")),
        (("SUGARS", -1, "honey"), "#NUM!", ("mass", "at least 0")),
        (("SUGARS", 100, "stardust"), "#N/A", ("ingredient", "stardust")),
        (("WATER_IN", "a lot", "honey"), "#VALUE!", ("mass",)),
        (("DOSE", 1000, "0.6%", "STPP"), "#NUM!", ("level", "0.6%", "0.5 %", "legal", "product", "0.02 to 0.3 %")),
        (("DOSE", 1000, 0.06, "STPP", "injection"), "#NUM!", ("level", "5 %", "pickle")),
        (("DOSE", 1000, 0.02, "washing soda"), "#NUM!", ("level", "1 %", "safety")),
        (("DOSE", 1000, 5, "parsley"), "#NUM!", ("level", "write 5%")),
        (("DOSE", 1000, 0.001, "pink salt"), "#NUM!", ("ingredient", "pink salt", "BRINE_CURE")),
        (("DOSE", 1000, 0.001, "lye"), "#NUM!", ("ingredient", "licensed", "baking soda")),
        (("DOSE", 1000, 0.001, "sulfuric acid"), "#NUM!", ("ingredient", "citric acid")),
        (("DOSE", 1000, 0.001, "STPP", "vegetable"), "#NUM!", ("ingredient", "pickles", "immersion")),
        (("DOSE", 1000, 0.001, "STPP", "frying"), "#N/A", ("use", "immersion", "vegetable")),
        (("DOSE", 1000, 0.5, "salt"), "#NUM!", ("level", "35.92 %", "dissolves")),
        (("USUAL_RANGE", "cure 1"), "#NUM!", ("ingredient", "BRINE_CURE")),
        (("USUAL_RANGE", "parsely"), "#N/A", ("ingredient", "fresh parsley")),
        (("WEIGHT", "1 tsp", "salt"), "#N/A", ("ingredient", "grade", "pickling salt")),
        (("WEIGHT", "1 tsp", "cure #1"), "#NUM!", ("ingredient", "never measured by volume")),
        (("WEIGHT", "5 g", "honey"), "#VALUE!", ("volume", "5 g")),
        (("WEIGHT", 5, "star anise"), "#N/A", ("ingredient", "weigh it")),
        (("VOLUME", "1 cup", "honey"), "#VALUE!", ("mass", "1 cup")),
        (("VOLUME", 5, "salt"), "#N/A", ("grade",)),
        (("VOLUME", "#DIV/0!", "honey"), "#DIV/0!", ("#DIV/0!",)),
    ],
)
def test_wrong_input_says_what_is_wrong(cells, cell, says):
    answer = call(*cells)
    assert answer == cell
    reason = why(*cells)
    for part in says:
        assert part in reason


def test_a_dose_above_the_usual_range_is_given_and_told():
    """Usual ranges are those of BRINE_USUAL_RANGE."""
    for name, level, usual in (("bay leaf", 0.2, "0.02 to 0.1 %"), ("black peppercorns", 0.9, "0.5 to 2 %")):
        assert call("BRINE_DOSE", 5000, level, name) == pytest.approx(5000 * level)
        assert call("BRINE_USUAL_RANGE", name) == [[pytest.approx(float(x) / 100) for x in usual[:-2].split(" to ")]]
        told = f"ok, but {100 * level:.0f} % is above the usual {usual} of {name}; look again at the level."
        assert why("BRINE_DOSE", 5000, level, name) == told
    assert why("BRINE_DOSE", 5000, [[0.001], [0.2]], "bay leaf")[0] == ["ok"]


def test_above_the_usual_range_is_no_error():
    """Common practice: rosemary at most 0.5 %; more is a finding, not a refusal."""
    assert call("BRINE_DOSE", 1000, 0.02, "rosemary") == 20.0


def test_a_column_of_ingredients_is_answered_row_by_row():
    names = [["thyme"], ["nonsense"], ["STPP"]]
    assert call("BRINE_DOSE", 1000, [[0.01], [0.01], [0.01]], names) == [[10.0], ["#N/A"], ["#NUM!"]]


def test_weight_and_volume_undo_each_other():
    grams = call("BRINE_WEIGHT", "1 cup", "fine sea salt")
    assert call("BRINE_VOLUME", grams, "fine sea salt") == pytest.approx(236.5882365, rel=1e-12)
