"""The charts: what is drawn, how it is told apart, and what is said where nothing is drawn."""

from __future__ import annotations

import io
import re
import zipfile
from typing import List

import pytest
from cards import EVEN, INJECTED, NATIVE, PLAIN, Sheet, computed, example, template
from openpyxl.utils.cell import (
    coordinate_to_tuple,
)

from brinecalc.workbook.sheets import charts, log


def table(sheet: Sheet, heading: str) -> List[object]:
    """A column of a table beside the page of charts, found by its heading."""
    top = charts.FIRST - 1
    letter = next(re.sub(r"\d", "", at) for at, value in sheet.items() if value == heading and at.endswith(str(top))
                  and coordinate_to_tuple(at) [0] == top)  # fmt: skip
    return [sheet[f"{letter}{row}"] for row in range(top + 1, 60) if f"{letter}{row}" in sheet]


def mean(depths, salts):
    area = sum((b - a) * (x + y) / 2 for a, b, x, y in zip(depths, depths[1:], salts, salts[1:]))
    return area / (depths[-1] - depths[0])


def test_resting_moves_salt_and_loses_none():
    sheet = computed(PLAIN)["Charts"]
    depths = table(sheet, "Depth, mm")
    soaked, rested = table(sheet, "After the soak"), table(sheet, "After the rest")
    assert depths[0] == 0
    assert depths[-1] == pytest.approx(12.5)  # half of a slab
    assert mean(depths, soaked) == pytest.approx(0.01, rel=0.03)  # the average is the target; eleven points
    assert mean(depths, rested) == pytest.approx(mean(depths, soaked), rel=0.03)
    assert rested[0] < soaked[0]
    assert rested[-1] >= soaked[-1]


def test_salt_against_time_meets_the_target_at_the_marks():
    sheet = computed(PLAIN)["Charts"]
    hours = table(sheet, "Hours")
    curves = {name: table(sheet, name)[: charts.MOMENTS] for name in ("Typical", "Fast", "Slow")}
    marks = hours[charts.MOMENTS :: 2]
    hours = hours[: charts.MOMENTS]
    for name, at in zip(("Fast", "Typical", "Slow"), marks):
        after = next(number for number, hour in enumerate(hours) if hour >= at)
        low, high = curves[name][after - 1], curves[name][after]
        assert low <= 0.01 <= high + 1e-12
    assert all(f >= t >= s for f, t, s in zip(curves["Fast"], curves["Typical"], curves["Slow"]))
    assert curves["Typical"][0] == pytest.approx(NATIVE, rel=0.01)


def test_a_batch_without_a_bath_draws_nothing_and_says_so():
    sheet = computed(INJECTED)["Charts"]
    assert "no bath" in sheet["A3"]
    assert table(sheet, "After the soak") == []
    assert [sheet[at] for at in ("B11", "I11")] == ["Nothing to draw."] * 2
    assert not [at for at in ("B11", "I11") if at in example()["Charts"]]


def test_missing_prices_are_said_and_not_drawn():
    sheet = computed(PLAIN)["Charts"]
    assert "a price is missing or wrong" in sheet["A3"]
    assert sheet["D28"] == "Nothing to draw: no cost is known."
    assert "D28" not in example()["Charts"]
    assert set(table(sheet, "Share")) == {0}


def test_shares_of_the_cost_are_those_of_the_price_list():
    sheet = example()["Charts"]
    shares = dict(zip(table(sheet, "Drawn"), table(sheet, "Share")))
    assert sum(shares.values()) == pytest.approx(1)
    costs = dict(zip(table(sheet, "Goes in"), table(sheet, "Cost")))
    grams = dict(zip(table(sheet, "Goes in"), table(sheet, "Mass, g")))
    assert costs["salt"] == pytest.approx(grams["salt"] * 6.9 / 10_000)  # the example's 10 kg at 6.90
    assert shares["salt"] == pytest.approx(costs["salt"] / sum(costs.values()))


def parts(kind):
    with zipfile.ZipFile(io.BytesIO(template())) as file:
        names = [name for name in file.namelist() if name.startswith("xl/charts/chart")]
        return [text for text in (file.read(name).decode() for name in sorted(names)) if kind in text]


def test_axes_are_shown_and_named():
    for text in parts("scatterChart") + parts("barChart"):
        axes = re.findall(r"<(?:c:)?(?:valAx|catAx)>.*?</(?:c:)?(?:valAx|catAx)>", text, re.DOTALL)
        assert len(axes) == 2
        assert all('delete val="0"' in axis for axis in axes)
        assert all("<a:t>" in axis for axis in axes if "valAx" in axis)


def test_charts_have_no_ground_so_that_the_cells_behind_an_empty_one_can_be_read():
    for text in parts("scatterChart") + parts("barChart"):
        assert re.search(r"</(?:c:)?(?:valAx|catAx)><(?:c:)?spPr><a:noFill", text)  # what is drawn in
        assert re.search(r"</(?:c:)?chart><(?:c:)?spPr><a:noFill", text)  # and the whole


def test_no_two_lines_of_a_chart_look_alike_in_black_and_white():
    drawn = [text for text in parts("scatterChart") if "Hours in the brine" in text or "Depth below" in text]
    assert len(drawn) == 3
    for text in drawn:
        series = re.findall(r"<(?:c:)?ser>.*?</(?:c:)?ser>", text, re.DOTALL)
        looks = [(re.findall(r'prstDash val="(\w+)"', one), re.findall(r'symbol val="(\w+)"', one),
                  re.findall(r'<a:ln w="(\d+)"', one)[:1]) for one in series]  # fmt: skip
        assert len({str(look) for look in looks}) == len(looks) >= 3


def _evened(weight: float, refuse: float, target: float) -> float:
    """Salt in a cucumber that has evened out with as much brine water as it weighs: all salt over all water."""
    edible, native = weight * (1 - refuse), 0.00005  # USDA SR 27, NDB 11205
    salt = target * (edible + edible)  # what was asked for, by weight, with what the product brings
    assert salt > native * edible
    return 0.9523 * salt / (edible + 0.9523 * edible)  # of its own water, 95.23 % of it


@pytest.mark.parametrize("name", ["Charts", "Log"])
def test_salt_wanted_by_weight_is_drawn_as_what_the_product_itself_ends_at_and_says_so(name):
    """Curves and readings leave the product's solids out, so a line by weight would never be met."""
    sheet = computed(EVEN)[name]
    ends = _evened(6, 0.03, 0.022)
    drawn = {"Charts": ends, "Log": ends - 0.00005}[name]
    heading = {"Charts": "Salt wanted", "Log": "Wanted"}[name]
    top = {"Charts": charts.FIRST, "Log": log.FIRST}[name] - 1
    found = [
        re.sub(r"\d", "", at) for at, value in sheet.items() if value == heading and coordinate_to_tuple(at)[0] == top
    ]
    assert found
    assert all(sheet[f"{letter}{top + 1}"] == pytest.approx(drawn, rel=1e-6) for letter in found)
    said = f"Salt wanted, 2.2 % by weight (solids counted as water), is {100 * ends:.2f} % in the product itself"
    assert said in sheet["A3"]
    assert "by weight" not in computed(PLAIN)[name]["A3"]
