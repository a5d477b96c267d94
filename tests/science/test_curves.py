"""Curves and surfaces against scipy's own splines, and inverses against the curves."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline, PchipInterpolator, RectBivariateSpline

from brinecalc.science.curves import Surface, monotone, smooth
from brinecalc.science.roots import rising_root

steps = st.lists(st.floats(0.05, 3.0), min_size=4, max_size=12)


def climb(sizes):
    return list(np.cumsum(sizes))


@given(steps, st.lists(st.floats(-5.0, 5.0), min_size=12, max_size=12))
def test_smooth_equals_the_not_a_knot_spline_of_scipy(sizes, heights):
    xs = climb(sizes)
    ys = heights[: len(xs)]
    grid = np.linspace(xs[0], xs[-1], 50)
    curve = smooth(xs, ys)
    scale = 1.0 + max(map(abs, CubicSpline(xs, ys)(grid)))
    assert [curve(x) for x in grid] == pytest.approx(CubicSpline(xs, ys)(grid), abs=1e-9 * scale)
    assert [curve.slope(x) for x in grid] == pytest.approx(CubicSpline(xs, ys)(grid, 1), abs=1e-7 * scale)


@given(steps, steps)
def test_monotone_equals_the_pchip_of_scipy_and_its_inverse_undoes_it(sizes, rises):
    count = min(len(sizes), len(rises))
    xs, ys = climb(sizes[:count]), climb(rises[:count])
    curve = monotone(xs, ys)
    grid = np.linspace(xs[0], xs[-1], 50)
    assert [curve(x) for x in grid] == pytest.approx(PchipInterpolator(xs, ys)(grid), rel=1e-11)
    for height in np.linspace(ys[0], ys[-1], 23):
        assert curve(curve.inverse(height)) == pytest.approx(height, rel=1e-13)


def test_an_inverse_goes_on_straight_beyond_the_ends():
    curve = monotone([0.0, 1.0, 2.0, 3.0], [0.0, 1.0, 3.0, 6.0])
    assert curve.inverse(-0.1) == pytest.approx(-0.1 / curve.slope(0.0))
    assert curve.inverse(7.0) == pytest.approx(3.0 + 1.0 / curve.slope(3.0))


def test_an_inverse_stays_at_the_knot_where_a_curve_ends_flat():
    curve = monotone([0.0, 1.0, 2.0, 3.0, 5.5], [0.0, 1.0, 2.0, 3.0, 3.875])
    assert curve.slope(5.5) == pytest.approx(0.0, abs=1e-12)
    assert curve.inverse(3.875) == pytest.approx(5.5)
    assert curve.inverse(4.0) == 5.5
    level = monotone([0.0, 1.0, 2.0, 3.0], [0.0, 1.0, 2.0, 2.0])
    assert level.slope(3.0) == 0.0
    assert level.inverse(2.5) == 3.0


def test_the_inverse_of_the_last_height_is_the_last_knot_where_a_curve_ends_all_but_flat():
    """The curve's own last height is a digit below the table's, and its slope there a rounding error above 0."""
    xs, ys = climb([1.0, 1.0, 0.0625, 1 / 3]), climb([1.0, 1.0, 1.5, 2.753351440659311])
    curve = monotone(xs, ys)
    assert 0.0 < curve.slope(xs[-1]) < 1e-14
    assert curve(xs[-1]) < ys[-1]
    assert curve.inverse(ys[-1]) == xs[-1]


def test_surface_equals_the_bicubic_spline_of_scipy():
    random = np.random.default_rng(7)
    xs, ys = climb(random.uniform(0.1, 2, 9)), climb(random.uniform(0.1, 2, 6))
    heights = random.uniform(0, 1, (9, 6))
    surface, other = Surface(xs, ys, heights.tolist()), RectBivariateSpline(xs, ys, heights, s=0)
    for y in np.linspace(ys[0], ys[-1], 13):
        cut = surface.at(y)
        for x in np.linspace(xs[0], xs[-1], 17):
            assert surface(x, y) == pytest.approx(float(other(x, y)[0, 0]), abs=1e-11)
            assert cut(x) == pytest.approx(surface(x, y), abs=1e-13)


@given(st.floats(0.1, 50.0))
def test_rising_root_finds_the_cube_root_to_the_last_digits(number):
    assert rising_root(lambda x: x**3 - number, 0.0, 60.0) == pytest.approx(number ** (1 / 3), rel=4e-15)


def test_rising_root_answers_an_end_when_the_root_is_not_inside():
    assert rising_root(lambda x: x + 1.0, 0.0, 2.0) == 0.0
    assert rising_root(lambda x: x - 3.0, 0.0, 2.0) == 2.0


@pytest.mark.parametrize("make", [smooth, monotone])
def test_a_curve_needs_rising_points(make):
    with pytest.raises(ValueError, match="rising"):
        make([0.0, 1.0, 1.0, 2.0], [0.0, 1.0, 2.0, 3.0])


@given(steps, st.lists(st.floats(-5.0, 5.0), min_size=12, max_size=12))
def test_monotone_equals_the_pchip_of_scipy_also_where_heights_rise_and_fall(sizes, heights):
    """scipy's PCHIP; heights in steps of a hundredth, so that no rise is lost to rounding."""
    xs = climb(sizes)
    ys = [round(height, 2) for height in heights[: len(xs)]]
    grid = np.linspace(xs[0], xs[-1], 50)
    assert [monotone(xs, ys)(x) for x in grid] == pytest.approx(PchipInterpolator(xs, ys)(grid), rel=1e-10, abs=1e-10)


def test_an_end_that_would_overshoot_is_held_at_three_times_its_rise():
    """scipy's PCHIP; the first piece rises a little and the second falls a lot, and the same at the other end."""
    for ys in ([0.0, 1.0, -9.0, -10.0, -11.0], [-11.0, -10.0, -9.0, 1.0, 0.0], [0.0, 1.0, 1.0, 1.0, 0.0]):
        xs = [0.0, 1.0, 1.5, 2.5, 3.5] if ys[1] == 1.0 else [0.0, 1.0, 2.0, 2.5, 3.5]
        theirs = PchipInterpolator(xs, ys)
        grid = np.linspace(0.0, 3.5, 71)
        assert [monotone(xs, ys)(x) for x in grid] == pytest.approx(theirs(grid), abs=1e-12)


@pytest.mark.parametrize("xs", [[0.0, 1.0, 2.0], [0.0, 1.0, 1.0, 2.0], [0.0, 1.0, 0.5, 2.0]])
def test_a_curve_needs_four_points_in_rising_order(xs):
    for make in (smooth, monotone):
        with pytest.raises(ValueError, match="at least four points with rising x"):
            make(xs, xs)
