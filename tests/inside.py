"""Salt at a single place in a piece, soaked and rested, as the tests look into it."""

from __future__ import annotations

import math

from brinecalc.science import diffusion


def profile(position: float, fourier: float, shape: diffusion.Shape = "slab", bath: float = math.inf) -> float:
    """Concentration at a position (0 centre, 1 surface) as a share of the final one.

    In a block the position is on the line from the centre to the middle of its widest face. In a small bath the
    surface starts above 1, since the bath has not yet lost its salt.
    """
    return diffusion.soaked(fourier, shape, bath).at(position)


def centre(fourier: float, shape: diffusion.Shape = "slab", bath: float = math.inf) -> float:
    """Concentration in the centre as a share of the final one; for one face, at the shut side."""
    return profile(0.0, fourier, shape, bath)


def rest_profile(
    position: float, fourier: float, rest: float, shape: diffusion.Shape = "slab", bath: float = math.inf
) -> float:
    """Concentration at a position after a soak and then a rest out of the brine (its Fourier number), none lost."""
    shortest = 1.0 if isinstance(shape, str) else min(shape)
    return diffusion.soaked(fourier, shape, bath).rested(position, rest / shortest**2)
