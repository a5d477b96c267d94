"""Laws of diffusion, over wide ranges of time, shape and bath."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from brinecalc.science import diffusion
from tests import inside as within

quick = settings(max_examples=120, deadline=None)

shapes = st.sampled_from(["slab", "one face", "cylinder", "sphere", (1.0, 1.0, 1.0), (1.0, 1.7, 6.0)])
baths = st.one_of(st.just(math.inf), st.floats(-3.0, 6.0).map(lambda x: 10.0**x))
times = st.floats(-12.0, 2.0).map(lambda x: 10.0**x)
fractions = st.one_of(st.floats(1e-9, 0.999999), st.floats(-9.0, -0.001).map(lambda x: 10.0**x))
places = st.floats(0.0, 1.0)


@quick
@given(times, times, shapes, baths)
def test_uptake_rises_with_time_from_0_to_1(one, other, shape, bath):
    early, late = sorted((one, other))
    first, second = diffusion.uptake(early, shape, bath), diffusion.uptake(late, shape, bath)
    assert 0.0 <= first <= second + 1e-11
    assert second <= 1.0


@quick
@given(fractions, shapes, baths)
def test_inverse_undoes_uptake(fraction, shape, bath):
    """Law: uptake(fourier_for(f)) = f to 1e-12 relative; the block in a small bath to 1e-11."""
    fourier = diffusion.fourier_for(fraction, shape, bath)
    near = 1e-12 if isinstance(shape, str) or math.isinf(bath) else 1e-11
    assert diffusion.uptake(fourier, shape, bath) == pytest.approx(fraction, rel=near)


@quick
@given(st.floats(-10.0, -0.3).map(lambda x: 10.0**x), shapes, baths)
def test_uptake_undoes_its_inverse(fourier, shape, bath):
    """Law: fourier_for(uptake(t)) = t to 1e-10, as long as the last per cent of uptake is not all digits."""
    fraction = diffusion.uptake(fourier, shape, bath)
    assume(fraction < 0.999)
    assert diffusion.fourier_for(fraction, shape, bath) == pytest.approx(fourier, rel=1e-10)


@quick
@given(fractions, baths)
def test_sphere_before_cylinder_before_slab(fraction, bath):
    """Law: at equal radius and half-thickness the rounder piece is sooner done; a cube lies before the slab too."""
    sphere, cylinder, cube, slab = (
        diffusion.fourier_for(fraction, shape, bath) for shape in ("sphere", "cylinder", (1.0, 1.0, 1.0), "slab")
    )
    assert sphere < cylinder < slab
    assert cube < slab


@quick
@given(times, shapes)
def test_a_growing_bath_tends_to_the_large_one(fourier, shape):
    """Law: the difference falls as one over the bath."""
    large = diffusion.uptake(fourier, shape)
    for bath in (1e2, 1e4, 1e6):
        assert diffusion.uptake(fourier, shape, bath) == pytest.approx(large, rel=2.0 / bath, abs=1e-11)


@quick
@given(times, shapes, baths, baths)
def test_a_smaller_bath_is_sooner_near_its_end(fourier, shape, one, other):
    small, big = sorted((one, other))
    assert diffusion.uptake(fourier, shape, small) >= diffusion.uptake(fourier, shape, big) - 1e-11


def whole(shape, concentration):
    """Volume mean of a profile by Gauss-Lobatto-like panels, closer towards the surface."""
    dimension = diffusion.DIMENSIONS[shape]
    nodes = (0.1127016653792583, 0.5, 0.8872983346207417)
    weights = (5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0)
    total, panels = 0.0, 60
    for i in range(panels):
        outer, inner = 1.0 - (i / panels) ** 3, 1.0 - ((i + 1) / panels) ** 3
        for node, weight in zip(nodes, weights):
            x = inner + (outer - inner) * node
            total += weight * (outer - inner) * dimension * x ** (dimension - 1) * concentration(x)
    return total


@settings(max_examples=25, deadline=None)
@given(
    st.floats(-3.5, 0.3).map(lambda x: 10.0**x),
    st.floats(-6.0, 0.3).map(lambda x: 10.0**x),
    st.sampled_from(["slab", "cylinder", "sphere"]),
    st.one_of(st.just(math.inf), st.floats(-1.5, 4.0).map(lambda x: 10.0**x)),
)
def test_salt_is_conserved_in_soak_and_rest(soak, rest, shape, bath):
    """Law: the volume mean of the profile is the uptake, at the end of the soak and after any rest."""
    mean = diffusion.uptake(soak, shape, bath)
    assert whole(shape, lambda x: within.profile(x, soak, shape, bath)) == pytest.approx(mean, abs=2e-7)
    after = whole(shape, lambda x: within.rest_profile(x, soak, rest, shape, bath))
    assert after == pytest.approx(mean, abs=2e-7)


@quick
@given(
    st.floats(-8.0, 1.0).map(lambda x: 10.0**x), times, st.sampled_from(["slab", "cylinder", "sphere"]), baths, places
)
def test_concentrations_stay_between_none_and_the_bath(soak, rest, shape, bath, place):
    """Law: no point is ever below fresh or above what the bath began with; the surface has the bath's strength."""
    first = 1.0 + 1.0 / bath
    for value in (within.profile(place, soak, shape, bath), within.rest_profile(place, soak, rest, shape, bath)):
        assert 0.0 <= value <= first * (1.0 + 1e-11)
    surface = 1.0 + (1.0 - diffusion.uptake(soak, shape, bath)) / bath
    assert within.profile(1.0, soak, shape, bath) == pytest.approx(surface, rel=1e-10)


@quick
@given(st.floats(-6.0, 0.0).map(lambda x: 10.0**x), st.sampled_from(["slab", "cylinder", "sphere"]), baths)
def test_a_rest_evens_out(soak, shape, bath):
    """Law: the centre only gains and the surface only loses, and both come to the mean."""
    rests = (0.0, 1e-9, 1e-4, 3e-3, 6e-3, 0.03, 0.2, 5.0)
    inside = [within.rest_profile(0.0, soak, rest, shape, bath) for rest in rests]
    outside = [within.rest_profile(1.0, soak, rest, shape, bath) for rest in rests]
    scale = 1e-11 * outside[0]
    assert all(later >= earlier - scale for earlier, later in zip(inside, inside[1:]))
    assert all(later <= earlier + scale for earlier, later in zip(outside, outside[1:]))
    mean = diffusion.uptake(soak, shape, bath)
    assert inside[-1] == pytest.approx(mean, rel=1e-9)
    assert outside[-1] == pytest.approx(mean, rel=1e-9)


@quick
@given(
    st.floats(-6.0, 0.0).map(lambda x: 10.0**x),
    st.floats(0.001, 0.999),
    st.sampled_from(["slab", "cylinder", "sphere"]),
    baths,
)
def test_rest_for_reaches_the_evenness(soak, evenness, shape, bath):
    rest = diffusion.rest_for(evenness, soak, shape, bath)
    centre = within.rest_profile(0.0, soak, rest, shape, bath)
    surface = within.rest_profile(1.0, soak, rest, shape, bath)
    if rest > 0.0:
        assert centre / surface == pytest.approx(evenness, rel=1e-9)
    else:
        assert centre / surface >= evenness
