"""An independent solution of the same physics: finite volumes in space, exact in time (scipy's tridiagonal solver).

Nothing here knows of series, roots or short-time forms. Cells are finer towards the surface; a stirred bath is one
more cell, with the capacity of its water.
"""

from __future__ import annotations

import functools
import math

import numpy as np
from scipy.linalg import eigh_tridiagonal


class Relaxing:
    """A chain of cells that exchange with their neighbours, each keeping its share of a conserved amount."""

    def __init__(self, diagonal, off, capacity):
        self.root = np.sqrt(capacity)
        self.rates, self.shapes = eigh_tridiagonal(diagonal / capacity, off / (self.root[1:] * self.root[:-1]))

    def after(self, start, time):
        return (self.shapes @ (np.exp(-self.rates * time) * (self.shapes.T @ (self.root * start)))) / self.root


class Piece:
    """A slab, cylinder or sphere (dimension 1, 2, 3) with L, D and capacity 1."""

    def __init__(self, dimension: int, cells: int) -> None:
        even = np.linspace(0.0, 1.0, cells + 1)
        edges = even * (2.0 - even)
        self.middles = 0.5 * (edges[1:] + edges[:-1])
        self.capacity = np.diff(edges**dimension)
        distance = np.append(np.diff(self.middles), 1.0 - self.middles[-1])
        self.conductance = dimension * edges[1:] ** (dimension - 1) / distance

    @functools.cache  # noqa: B019 - a handful of pieces live as long as the tests
    def _soaking(self, bath):
        k, m = self.conductance, self.capacity
        inner = np.append(0.0, k[:-1])
        if math.isinf(bath):
            return Relaxing(inner + k, -k[:-1], m)
        return Relaxing(np.append(inner + k, k[-1]), -k, np.append(m, bath))

    @functools.cache  # noqa: B019
    def _resting(self):
        k = self.conductance[:-1]
        return Relaxing(np.append(0.0, k) + np.append(k, 0.0), -k, self.capacity)

    def soak(self, fourier, bath=math.inf):
        """Concentrations as shares of the final one after a soak of a fresh piece."""
        if math.isinf(bath):
            return 1.0 - self._soaking(bath).after(np.ones_like(self.capacity), fourier)
        start = np.zeros(len(self.capacity) + 1)
        start[-1] = 1.0 + 1.0 / bath
        return self._soaking(bath).after(start, fourier)[:-1]

    def carry(self, start, bath, fourier):
        """Concentrations of the piece, and last of its bath, carried on from any start."""
        return self._soaking(bath).after(start, fourier)

    def rest(self, start, fourier):
        """Concentrations after a rest during which nothing leaves."""
        return self._resting().after(start, fourier)

    def mean(self, concentrations) -> float:
        return float(self.capacity @ concentrations)


@functools.cache
def piece(dimension: int, cells: int = 700) -> Piece:
    return Piece(dimension, cells)
