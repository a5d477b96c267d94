"""Bessel functions against scipy and, where relative digits count, against mpmath."""

from __future__ import annotations

import cmath
import math

import mpmath
import pytest
from each import each
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import special

from brinecalc.science import bessel


@settings(max_examples=200, deadline=None)
@given(st.floats(0.0, 400.0))
def test_j0_and_j1_against_scipy(x):
    """Law: within a few last digits of the size of the wave, sqrt(2/(pi·x)), for both ours and scipy's."""
    j0, j1 = bessel.j0_j1(x)
    size = min(1.0, math.sqrt(2.0 / (math.pi * x))) if x > 0.0 else 1.0
    near = 1e-15 * size * max(1.0, x / 20.0)  # the cosine of a large argument is known no better
    assert j0 == pytest.approx(float(special.j0(x)), abs=5.0 * near)
    assert j1 == pytest.approx(float(special.j1(x)), abs=5.0 * near)


@each("x", [1e-9, 1e-3, 0.7, 2.404825557695773, 5.0, 14.3, 19.999, 20.001, 37.0, 150.0])
def test_j0_and_j1_against_mpmath(x):
    """mpmath in 30 digits, to 1e-15 absolute; the first is relative too, since J1 is small there."""
    mpmath.mp.dps = 30
    j0, j1 = bessel.j0_j1(x)
    assert j0 == pytest.approx(float(mpmath.besselj(0, x)), abs=5e-16)
    assert j1 == pytest.approx(float(mpmath.besselj(1, x)), abs=5e-16)
    if x < 1.0:
        assert j1 == pytest.approx(float(mpmath.besselj(1, x)), rel=2e-15)


@settings(max_examples=80, deadline=None)
@given(st.floats(1e-3, 300.0), st.floats(-1.45, 1.45))
def test_scaled_i0_and_i1_in_the_complex_plane(size, angle):
    """Law: relative 1e-14 over the right half-plane, mpmath in 30 digits."""
    mpmath.mp.dps = 30
    z = cmath.rect(size, angle)
    i0, i1 = bessel.scaled_i0_i1(z)
    scale = mpmath.exp(-mpmath.mpc(z))
    wanted = complex(mpmath.besseli(0, z) * scale), complex(mpmath.besseli(1, z) * scale)
    assert abs(i0 - wanted[0]) <= 1e-14 * max(map(abs, wanted))
    assert abs(i1 - wanted[1]) <= 1e-14 * max(map(abs, wanted))


def test_series_of_the_quotient():
    """I1(z)/I0(z) at a large argument, scipy's scaled functions."""
    z = 60.0
    value = sum(c / z**k for k, c in enumerate(bessel.quotient_series(16)))
    assert value == pytest.approx(float(special.ive(1, z) / special.ive(0, z)), rel=1e-14)
