"""Salt by depth in a block, soaked in a limited bath and rested, against finite volumes in three dimensions."""

from __future__ import annotations

import numpy as np
import pytest

from brinecalc.science import diffusion
from tests import inside

SIDES = (1.0, 1.2, 1.7)
SOAK, REST = 0.12, 0.06


def eigen(cells, length, shut):
    """Rates and shapes of a slab of even cells: its middle shut, its face shut or held at 0."""
    h = length / cells
    matrix = np.diag(np.full(cells, 2.0)) - np.diag(np.ones(cells - 1), 1) - np.diag(np.ones(cells - 1), -1)
    matrix[0, 0] = 1.0
    matrix[-1, -1] = 1.0 if shut else 3.0
    return np.linalg.eigh(matrix / (h * h))


def change(field, shapes, back):
    for axis, shape in enumerate(shapes):
        field = np.moveaxis(np.tensordot(shape if back else shape.T, field, (1, axis)), 0, axis)
    return field


def soaked_and_rested(cells, bath, steps=400):
    """Fields after the soak and after the rest; the bath's strength is taken as even within each small step."""
    found = [eigen(cells, side, False) for side in SIDES]
    rates = sum(np.meshgrid(*(rate for rate, _ in found), indexing="ij"))
    weights = change(np.ones((cells,) * 3), [shape for _, shape in found], False)
    share = weights**2 / cells**3
    times = SOAK * (np.arange(steps + 1) / steps) ** 3
    surface, modes = 1.0 + 1.0 / bath, np.zeros_like(rates)
    for step in np.diff(times):
        fade = np.exp(-rates * step)
        kept, taken = np.sum(share * modes * fade), np.sum(share * (1.0 - fade))
        after = (1.0 + (1.0 - kept - 0.5 * taken * surface) / bath) / (1.0 + 0.5 * taken / bath)
        modes = modes * fade + (1.0 - fade) * 0.5 * (surface + after)
        surface = after
    soaked = change(weights * modes, [shape for _, shape in found], True)
    found = [eigen(cells, side, True) for side in SIDES]
    rates = sum(np.meshgrid(*(rate for rate, _ in found), indexing="ij"))
    shapes = [shape for _, shape in found]
    return soaked, change(change(soaked, shapes, False) * np.exp(-rates * REST), shapes, True)


def along_the_shortest_way(field):
    """Centre, half-way and, where nothing flows through it, surface: cells carried to the point by the next ones."""
    line = field + (field - np.roll(field, -1, 1)) / 8.0
    line = (line + (line - np.roll(line, -1, 2)) / 8.0)[:, 0, 0]
    half = len(line) // 2
    middle = (9.0 * (line[half - 1] + line[half]) - line[half - 2] - line[half + 1]) / 16.0
    return line[0] + (line[0] - line[1]) / 8.0, middle, line[-1] + (line[-1] - line[-2]) / 8.0


@pytest.mark.parametrize("bath", [0.3, 2.0])
def test_block_in_a_limited_bath_by_depth(bath):
    """Two grids, extrapolated by their second order: mean, centre, half-way, surface within 1e-4."""
    coarse, fine = soaked_and_rested(16, bath), soaked_and_rested(32, bath)
    found = [
        [(4.0 * b - a) / 3.0 for a, b in zip(along_the_shortest_way(low), along_the_shortest_way(high))]
        for low, high in zip(coarse, fine)
    ]
    mean = (4.0 * fine[0].mean() - coarse[0].mean()) / 3.0
    assert diffusion.uptake(SOAK, SIDES, bath) == pytest.approx(mean, abs=1e-4)
    assert diffusion.soaked(SOAK, SIDES, bath).mean == pytest.approx(mean, abs=1e-4)
    for x, expected in zip((0.0, 0.5), found[0]):
        assert inside.profile(x, SOAK, SIDES, bath) == pytest.approx(expected, abs=1e-4)
    for x, expected in zip((0.0, 0.5, 1.0), found[1]):
        assert inside.rest_profile(x, SOAK, REST, SIDES, bath) == pytest.approx(expected, abs=1e-4)


def test_surface_of_a_block_has_the_strength_of_the_bath():
    """The bath holds what the block has not: 1 + (1 - mean)/bath in units of the end."""
    for bath in (0.2, 1.3, 20.0):
        inside = diffusion.soaked(0.05, (1.0, 2.0, 3.0), bath)
        assert inside.at(1.0) == pytest.approx(1.0 + (1.0 - inside.mean) / bath, abs=1e-9)


def test_lengths_of_a_block_may_be_in_any_unit_and_order():
    one = diffusion.uptake(0.1, (1.0, 2.0, 3.0), 1.3)
    assert diffusion.uptake(0.4, (2.0, 6.0, 4.0), 1.3) == pytest.approx(one, rel=1e-12)
    assert diffusion.fourier_for(one, (4.0, 2.0, 6.0), 1.3) == pytest.approx(0.4, rel=1e-12)
    for bath in (1.3, float("inf")):
        rested = inside.rest_profile(0.3, 0.1, 0.05, (1.0, 2.0, 3.0), bath)
        assert inside.rest_profile(0.3, 0.4, 0.2, (2.0, 6.0, 4.0), bath) == pytest.approx(rested, rel=1e-12)
        rest = diffusion.rest_for(0.6, 0.1, (1.0, 2.0, 3.0), bath)
        assert diffusion.rest_for(0.6, 0.4, (2.0, 6.0, 4.0), bath) == pytest.approx(4.0 * rest, rel=1e-10)
