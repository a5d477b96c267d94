"""Diffusion kernels against published grids, and against solutions that share nothing with them."""

from __future__ import annotations

import csv
import math
from functools import cache
from pathlib import Path

import mpmath
import numpy as np
import pytest
from each import each
from scipy.interpolate import CubicSpline
from scipy.special import jn_zeros

from brinecalc.errors import OutOfRange, UnknownName
from brinecalc.science import diffusion, shapes
from tests import inside
from tests.science.finite_volumes import piece

REFERENCE = Path(__file__).parent.parent / "reference"
DIMENSION = {"slab": 1, "cylinder": 2, "sphere": 3}
SHAPES = list(DIMENSION)


def rows(name):
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@each("row", rows("diffusion_uptake.csv"))
def test_uptake_and_centre_in_a_large_bath(row):
    """Reference grid diffusion_uptake.csv. One row is the three-term short-time form, which names its error of 1e-8."""
    fourier, shape = float(row["Fo"]), row["geometry"]
    near = 1e-8 if "error <1e-8" in row["source"] else 1e-9
    assert diffusion.uptake(fourier, shape) == pytest.approx(float(row["mean_uptake_Mt_over_Minf"]), abs=near)
    assert inside.centre(fourier, shape) == pytest.approx(float(row["centre_fractional_change"]), abs=1e-9)


def test_the_row_whose_reference_is_a_short_form():
    """Cylinder at Fo 0.0001 from the full series (scipy's Bessel zeros), where the grid has three terms."""
    zeros = jn_zeros(0, 400)
    series = 1.0 - float(np.sum(4.0 / zeros**2 * np.exp(-(zeros**2) * 1e-4)))
    assert diffusion.uptake(1e-4, "cylinder") == pytest.approx(series, abs=1e-12)


@each("row", rows("diffusion_inverse.csv"))
def test_inverse_of_uptake_and_centre(row):
    """Reference grid diffusion_inverse.csv."""
    target, fourier, shape = float(row["target_fraction"]), float(row["Fo_required"]), row["geometry"]
    if row["quantity"] == "mean":
        assert diffusion.fourier_for(target, shape) == pytest.approx(fourier, rel=1e-9)
    else:
        assert inside.centre(fourier, shape) == pytest.approx(target, abs=1e-9)


def test_twenty_per_cent_of_a_slab_is_pi_over_a_hundred():
    """Short-time form, Crank 4.20: 2·sqrt(Fo/pi) = 0.2, its echo below 1e-12."""
    assert diffusion.fourier_for(0.2) == pytest.approx(math.pi / 100.0, rel=1e-12)


@each("shape", [*SHAPES, (1.0, 1.5, 3.75)])
@each("bath", [0.22, 0.24, 0.26, 0.28, 0.36, 0.38, 0.4, 0.6])
def test_the_inverse_where_a_small_bath_changes_fast(shape, bath):
    """Law: the inverse undoes the uptake, whose values are checked elsewhere, also where its early form ends."""
    for fourier in range(90, 200):
        taken = diffusion.uptake(fourier * 1e-4, shape, bath)
        assert diffusion.fourier_for(taken, shape, bath) == pytest.approx(fourier * 1e-4, rel=1e-10)


@each("row", rows("diffusion_limited_bath.csv"))
def test_uptake_in_a_limited_bath(row):
    """Reference grid diffusion_limited_bath.csv, series column (Crank 4.37, 5.33, 6.30)."""
    bath, fourier, taken = float(row["alpha_bath_over_solid_capacity"]), float(row["Fo"]), float(row["Mt_over_Minf"])
    assert diffusion.uptake(fourier, row["geometry"], bath) == pytest.approx(taken, abs=1e-9)
    if taken < 0.999:  # beyond, the twelve digits of the grid say little about time
        assert diffusion.fourier_for(taken, row["geometry"], bath) == pytest.approx(fourier, rel=1e-8)


@each("row", rows("diffusion_bath_roots.csv"))
def test_wave_numbers_in_a_limited_bath(row):
    """Reference diffusion_bath_roots.csv: roots of tan q = -a·q, a·q·J0 + 2·J1 = 0, tan q = 3q/(3 + a·q²)."""
    for n in range(1, 7):
        found = shapes.wave_number(DIMENSION[row["geometry"]], float(row["alpha"]), n)
        assert found == pytest.approx(float(row[f"q{n}"]), rel=1e-9)


@each("row", rows("diffusion_block_cylinder.csv"))
def test_blocks_and_short_cylinders_by_the_product_rule(row):
    """Reference grid diffusion_block_cylinder.csv (Newman's rule)."""
    time = float(row["D_m2_s"]) * float(row["hours"]) * 3600.0
    if row["shape"] == "block":
        sides = tuple(float(x) * 1e-3 for x in row["dimensions"].split()[0].split("x"))
        taken, centre = diffusion.uptake(time, sides), inside.centre(time, sides)
    else:
        numbers = [float(part.split("=")[1].split()[0]) * 1e-3 for part in row["dimensions"].split(",")]
        round_, flat = time / numbers[0] ** 2, time / numbers[1] ** 2
        taken = 1.0 - (1.0 - diffusion.uptake(round_, "cylinder")) * (1.0 - diffusion.uptake(flat))
        centre = 1.0 - (1.0 - inside.centre(round_, "cylinder")) * (1.0 - inside.centre(flat))
    assert taken == pytest.approx(float(row["mean_uptake"]), abs=1e-9)
    assert centre == pytest.approx(float(row["centre_fraction"]), abs=1e-8)


@each("row", rows("diffusion_rest.csv"))
def test_rest_of_a_slab(row):
    """Reference grid diffusion_rest.csv (cosine series)."""
    soak, rest = float(row["Fo_brine"]), float(row["Fo_rest"])
    centre = inside.rest_profile(0.0, soak, rest)
    surface = inside.rest_profile(1.0, soak, rest)
    assert diffusion.uptake(soak) == pytest.approx(float(row["mean"]), abs=1e-9)
    assert centre == pytest.approx(float(row["centre_after_rest"]), abs=1e-9)
    assert surface == pytest.approx(float(row["surface_after_rest"]), abs=1e-9)
    assert diffusion.rest_for(centre / surface, soak) == pytest.approx(rest, rel=1e-10)


@pytest.mark.parametrize(("soak", "rest"), [(1e-6, 1e-6), (3e-4, 1e-3), (1e-3, 4e-4), (0.004, 0.002)])
def test_surface_after_a_short_rest_by_its_closed_form(soak, rest):
    """A deep slab's surface falls to (2/pi)·atan(sqrt(soak/rest)); by integrating the flux over the soak."""
    expected = 2.0 / math.pi * math.atan(math.sqrt(soak / rest))
    assert inside.rest_profile(1.0, soak, rest) == pytest.approx(expected, abs=1e-11)


@pytest.mark.parametrize("bath", [math.inf, 20.0, 5.0, 0.5, 0.05])
@pytest.mark.parametrize("shape", SHAPES)
def test_soak_against_finite_volumes(shape, bath):
    """An independent transient solution, 700 cells: mean and profile within 1e-5 of the bath's first strength."""
    solver = piece(DIMENSION[shape])
    first = 1.0 + 1.0 / bath
    for fourier in (0.004, 0.04, 0.3):
        found = solver.soak(fourier, bath)
        assert diffusion.uptake(fourier, shape, bath) == pytest.approx(solver.mean(found), abs=1e-5)
        for i in range(0, 700, 77):
            local = inside.profile(float(solver.middles[i]), fourier, shape, bath)
            assert local == pytest.approx(found[i], abs=1e-5 * first)


@pytest.mark.parametrize("bath", [math.inf, 0.5, 0.05])
@pytest.mark.parametrize("shape", SHAPES)
def test_rest_against_finite_volumes(shape, bath):
    """The same independent solution, rested: short and long soaks, rests on both sides of the change of method."""
    solver = piece(DIMENSION[shape])
    first = 1.0 + 1.0 / bath
    for soak, rest in ((0.004, 0.002), (0.004, 0.05), (0.1, 0.002), (0.1, 0.05)):
        found = solver.rest(solver.soak(soak, bath), rest)
        for i in range(0, 700, 77):
            local = inside.rest_profile(float(solver.middles[i]), soak, rest, shape, bath)
            assert local == pytest.approx(found[i], abs=1e-5 * first)


def slab_uptake(times):
    """Uptake of a slab in a large bath for numpy arrays: long series only (Crank 4.18), for the two solvers below."""
    odd = np.arange(1, 1200, 2)[:, None] * math.pi / 2.0
    return 1.0 - np.sum(2.0 / odd**2 * np.exp(-(odd**2) * np.maximum(times, 0.0)), axis=0)


@cache
def slab_curve(length, end):
    """`slab_uptake` of a side of a block up to the end, over the root of time."""
    grid = np.linspace(0.0, math.sqrt(end) / length, 4001)
    values = slab_uptake(grid**2)
    values[0] = 0.0
    return CubicSpline(grid, values)


@cache
def block_steps(sides, end, steps):
    """Uptake of a block in a large bath between any two of the steps to the end."""
    times = end * (np.arange(steps + 1) / steps) ** 2
    gaps = (times[:, None] - times[None, :])[np.tril_indices(steps + 1)]
    left = np.ones_like(gaps)
    for length in sides:
        left *= 1.0 - slab_curve(length, end)(np.sqrt(gaps) / length)
    step = np.zeros((steps + 1, steps + 1))
    step[np.tril_indices(steps + 1)] = 1.0 - left
    return step


def block_bath(sides, bath, end, steps):
    """Strength left in a stirred bath round a block at the end, by stepping through Duhamel's integral."""
    step = block_steps(sides, end, steps)
    strength = np.ones(steps + 1)
    for i in range(1, steps + 1):
        # strength taken as straight in each step: half of it belongs to either end
        parts = step[i, :i] - step[i, 1 : i + 1]
        known = parts[0] * 0.5 * strength[0] + np.sum((parts[1:] + parts[:-1]) * 0.5 * strength[1:i])
        strength[i] = (bath - known) / (bath + 0.5 * parts[-1])
    return strength[-1]


@pytest.mark.parametrize(("sides", "end"), [((1.0, 1.5, 3.75), 0.08), ((1.0, 1.0, 1.0), 0.3), ((1.0, 4.0, 9.0), 1.0)])
@each("bath", [0.2, 1.3, 20.0])
def test_block_in_a_limited_bath_by_stepping_through_duhamels_integral(sides, end, bath):
    """An independent solution in time, extrapolated by its order of three halves from two step sizes: within 1e-6."""
    middle, fine = ((1.0 - block_bath(sides, bath, end, steps)) * (1.0 + bath) for steps in (150, 300))
    further = (fine - middle) / (2.0**1.5 - 1.0)
    assert abs(further) < 2e-5  # the extrapolation is a small step
    assert diffusion.uptake(end, sides, bath) == pytest.approx(fine + further, abs=1e-6)


@pytest.mark.parametrize("bath", [0.2, 1.3, 20.0])
def test_block_in_a_limited_bath_against_a_slab_in_one(bath):
    """A block a thousand times longer than thick is a slab."""
    for fourier in (0.003, 0.05, 0.4):
        long = diffusion.uptake(fourier, (1.0, 1e6, 1e6), bath)
        assert long == pytest.approx(diffusion.uptake(fourier, "slab", bath), abs=1e-6)


@pytest.mark.parametrize("sides", [(1.0, 1.0, 1.0), (1.0, 2.0, 3.0), (1.0, 1.3, 40.0)])
def test_a_block_in_a_bath_without_end_comes_to_the_product_of_three_slabs(sides):
    """Law: where the bath never thins, the three ways do not know of each other; the rays are good to 1e-11."""
    for octave in range(-8, 5):
        for fourier in (2.0**octave, 1.5 * 2.0**octave):
            limited, endless = (diffusion.uptake(fourier, sides, bath) for bath in (1e15, math.inf))
            assert limited == pytest.approx(endless, rel=1e-11)


@cache
def image_of_response(shape, s):
    """The Laplace image of a shape's response, by mpmath."""
    q = mpmath.sqrt(s)
    if shape == "slab":
        return mpmath.tanh(q) / q
    if shape == "cylinder":
        return 2 * mpmath.besseli(1, q) / (q * mpmath.besseli(0, q))
    return 3 * (q * mpmath.coth(q) - 1) / q**2


@pytest.mark.parametrize("shape", SHAPES)
@each("bath", [1e-3, 0.01, 0.1, 0.3, 1.0, 30.0, 1e6])
def test_uptake_by_laplace_inversion_in_thirty_digits(shape, bath):
    """Image (1 + a)·g/(s·(a + g)) inverted by mpmath, for small baths and short times, where series fail."""
    mpmath.mp.dps = 30

    def image(s):
        g = image_of_response(shape, s)
        return (1 + bath) * g / (s * (bath + g))

    for fourier in (1e-7, 1e-4, 0.015, 0.021):
        expected = float(mpmath.invertlaplace(image, fourier, method="talbot", degree=24))
        assert diffusion.uptake(fourier, shape, bath) == pytest.approx(expected, rel=1e-11)


def test_words_for_what_cannot_be_asked():
    for wrong in (-1e-9, math.nan):
        with pytest.raises(OutOfRange, match="fourier must be at least 0"):
            diffusion.uptake(wrong)
    with pytest.raises(OutOfRange, match="fraction must be at least 0 and below 1"):
        diffusion.fourier_for(1.0)
    with pytest.raises(OutOfRange, match="bath must be at least 1e-06"):
        diffusion.uptake(0.1, "slab", 0.0)
    with pytest.raises(UnknownName, match="slab, one face, cylinder, sphere"):
        diffusion.uptake(0.1, "cone")
    with pytest.raises(OutOfRange, match="three half-thicknesses"):
        diffusion.uptake(0.1, (1.0, 2.0, -3.0))
    with pytest.raises(OutOfRange, match="evenness"):
        diffusion.rest_for(1.0, 0.1)


@each("shape", [*SHAPES, "one face", (1.0, 1.0, 1.0), (1.0, 1.5, 3.75)])
@each("bath", [0.05, 0.7, 3.0, math.inf])
@each("missing", [1e-3, 1e-6, 1e-9, 1e-12])
def test_the_inverse_close_to_the_end(shape, bath, missing):
    """Law: at the time that the inverse gives, just that share is missing, as far as a double can tell."""
    fourier = diffusion.fourier_for(1.0 - missing, shape, bath)
    assert 1.0 - diffusion.uptake(fourier, shape, bath) == pytest.approx(missing, rel=1e-6, abs=3e-14)


@each("shape", [*SHAPES, (1.0, 1.5, 3.75)])
@each("bath", [0.7, math.inf])
def test_a_rest_of_no_time_changes_nothing_and_no_soak_leaves_nothing(shape, bath):
    """Law."""
    for position in (0.0, 0.4, 0.95):
        soaked = inside.profile(position, 0.07, shape, bath)
        assert inside.rest_profile(position, 0.07, 0.0, shape, bath) == soaked
        assert inside.profile(position, 0.0, shape, bath) == 0.0


def test_the_ends_of_evenness():
    """Law: no evenness is asked for, so no rest is needed; nor where the soak has made it even enough already."""
    assert diffusion.rest_for(0.0, 0.05) == 0.0
    assert diffusion.rest_for(0.5, 2.0) == 0.0


def test_one_piece_can_be_asked_after_several_short_rests():
    """Each by the closed form of a deep slab's surface, out of the same piece."""
    piece = diffusion.soaked(1e-4)
    for rest in (1e-4, 4e-4, 2e-4, 1e-4):
        assert piece.rested(1.0, rest) == pytest.approx(2.0 / math.pi * math.atan(math.sqrt(1e-4 / rest)), abs=1e-11)


@pytest.mark.parametrize("missing", [1e-15, 2.3e-16])
@pytest.mark.parametrize("bath", [0.01, 10.0])
def test_the_last_digit_of_a_block_takes_no_longer_than_its_slowest_mode_alone(bath, missing):
    """A large bath leaves (8/pi^2)^3 exp(-rate x time), rate pi^2/4 (1 + 1/4 + 1/9); a small one is sooner even."""
    rate = math.pi**2 / 4.0 * (1.0 + 1.0 / 4.0 + 1.0 / 9.0)
    slowest = math.log((8.0 / math.pi**2) ** 3 / missing) / rate
    assert 0.0 < diffusion.fourier_for(1.0 - missing, (1.0, 2.0, 3.0), bath) <= slowest


@pytest.mark.parametrize("fourier", [0.0199, 0.012])
@pytest.mark.parametrize("position", [0.0, 1e-5, 1e-3])
def test_a_spheres_centre_fills_evenly_round_its_middle(fourier, position):
    """By images: 2/sqrt(pi F) times the sum of exp(-(2n + 1)^2/4F); so near the middle the profile is flat."""
    centre = sum(math.exp(-((2 * n + 1) ** 2) / (4.0 * fourier)) for n in range(5)) * 2.0 / math.sqrt(math.pi * fourier)
    assert inside.profile(position, fourier, "sphere") == pytest.approx(centre, rel=1e-3)
