"""Smooth curves and surfaces through the points of a measured table.

One idea: a table is turned once into the coefficients of cubic pieces, so that a value costs a look-up of its piece
and a few multiplications, and the inverse of a rising curve is solved inside one piece. ``smooth`` has a continuous
second derivative (a cubic spline without end conditions of its own); ``monotone`` gives up the second derivative
and never swings between two points. Neither checks its range: the kernels that own the table do.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import List, Sequence, Tuple

Piece = Tuple[float, float, float, float]

_ROUNDING = 1e-15  # so little past an end is the end: divided by a slope that is all but flat it would lead far away


class Curve:
    """A curve in cubic pieces: value, slope, and, where it rises throughout, its inverse."""

    def __init__(self, knots: Sequence[float], pieces: Sequence[Piece]) -> None:
        self.knots = tuple(knots)
        self.pieces = tuple(pieces)
        self._last = len(self.pieces)
        self._heights: Tuple[float, ...] = ()

    def __call__(self, x: float) -> float:
        """The height at x."""
        i = bisect_right(self.knots, x, 1, self._last) - 1
        a, b, c, d = self.pieces[i]
        t = x - self.knots[i]
        return a + t * (b + t * (c + t * d))

    def slope(self, x: float) -> float:
        """The first derivative."""
        i = bisect_right(self.knots, x, 1, self._last) - 1
        _, b, c, d = self.pieces[i]
        t = x - self.knots[i]
        return b + t * (2.0 * c + 3.0 * d * t)

    def inverse(self, height: float) -> float:
        """The x at which a rising curve has that height, to the last digit; beyond its ends it goes on straight."""
        if not self._heights:
            self._heights = tuple(self(x) for x in self.knots)
        if height < self._heights[0]:
            return self._beyond(0, height)
        if height > self._heights[-1]:
            return self._beyond(-1, height)
        i = bisect_right(self._heights, height, 1, self._last) - 1
        a, b, c, d = self.pieces[i]
        low, high = 0.0, self.knots[i + 1] - self.knots[i]
        t = high * (height - self._heights[i]) / (self._heights[i + 1] - self._heights[i])
        while True:
            over = a - height + t * (b + t * (c + t * d))
            if over == 0.0:
                break
            if over > 0.0:
                high = t
            else:
                low = t
            slope = b + t * (2.0 * c + 3.0 * d * t)
            step = t - over / slope if slope > 0.0 else low
            if step == t:
                break
            if not low < step < high:
                step = 0.5 * (low + high)
                if step in (low, high):
                    break
            t = step
        return self.knots[i] + t

    def _beyond(self, end: int, height: float) -> float:
        """The x of a height past an end, along the slope there; a curve that ends flat ends at its knot."""
        slope, past = self.slope(self.knots[end]), height - self._heights[end]
        if slope <= 0.0 or abs(past) <= _ROUNDING * abs(height):
            return self.knots[end]
        return self.knots[end] + past / slope


class Surface:
    """A table over two quantities, cubic in each: first along the rows, then across them."""

    def __init__(self, xs: Sequence[float], ys: Sequence[float], heights: Sequence[Sequence[float]]) -> None:
        self.xs = tuple(xs)
        self.ys = tuple(ys)
        self._last_x, self._last_y = len(self.xs) - 1, len(self.ys) - 1
        along = [smooth(ys, row).pieces for row in heights]
        across = [
            [smooth(xs, [pieces[j][power] for pieces in along]).pieces for power in range(4)]
            for j in range(self._last_y)
        ]
        self._cells = tuple(
            tuple(tuple(across[j][power][i] for power in range(4)) for j in range(self._last_y))
            for i in range(self._last_x)
        )

    def __call__(self, x: float, y: float) -> float:
        """The height at x and y."""
        i = bisect_right(self.xs, x, 1, self._last_x) - 1
        j = bisect_right(self.ys, y, 1, self._last_y) - 1
        t = x - self.xs[i]
        u = y - self.ys[j]
        (a, b, c, d), (e, f, g, h), (k, m, n, o), (p, q, r, s) = self._cells[i][j]
        return (a + t * (b + t * (c + t * d))) + u * (
            (e + t * (f + t * (g + t * h)))
            + u * ((k + t * (m + t * (n + t * o))) + u * (p + t * (q + t * (r + t * s))))
        )

    def at(self, y: float) -> Curve:
        """The curve along x at one y."""
        j = bisect_right(self.ys, y, 1, self._last_y) - 1
        u = y - self.ys[j]
        pieces: List[Piece] = []
        for row in self._cells:
            a, b, c, d = (v0 + u * (v1 + u * (v2 + u * v3)) for v0, v1, v2, v3 in zip(*row[j]))
            pieces.append((a, b, c, d))
        return Curve(self.xs, pieces)


def smooth(xs: Sequence[float], ys: Sequence[float]) -> Curve:
    """The cubic spline through the points whose first two and last two pieces are one cubic each."""
    steps, rises = _differences(xs, ys)
    last = len(steps) - 1
    lower, diagonal, upper, right = [0.0], [steps[1]], [steps[0] + steps[1]], [_end(steps[0], steps[1], *rises[:2])]
    for i in range(1, last + 1):
        before, after = steps[i - 1], steps[i]
        lower.append(after)
        diagonal.append(2.0 * (before + after))
        upper.append(before)
        right.append(3.0 * (after * rises[i - 1] + before * rises[i]))
    lower.append(steps[last] + steps[last - 1])
    diagonal.append(steps[last - 1])
    right.append(_end(steps[last], steps[last - 1], rises[last], rises[last - 1]))
    for i in range(1, len(diagonal)):
        factor = lower[i] / diagonal[i - 1]
        diagonal[i] -= factor * upper[i - 1]
        right[i] -= factor * right[i - 1]
    slopes = [right[-1] / diagonal[-1]]
    for i in range(last, -1, -1):
        slopes.append((right[i] - upper[i] * slopes[-1]) / diagonal[i])
    return _pieces(xs, ys, slopes[::-1])


def monotone(xs: Sequence[float], ys: Sequence[float]) -> Curve:
    """The cubic through the points that never leaves the height of its two neighbours."""
    steps, rises = _differences(xs, ys)
    slopes = [_edge(steps[0], steps[1], rises[0], rises[1])]
    for i in range(1, len(steps)):
        before, after = rises[i - 1], rises[i]
        if before * after <= 0.0:
            slopes.append(0.0)
        else:
            near, far = 2.0 * steps[i] + steps[i - 1], steps[i] + 2.0 * steps[i - 1]
            slopes.append((near + far) / (near / before + far / after))
    slopes.append(_edge(steps[-1], steps[-2], rises[-1], rises[-2]))
    return _pieces(xs, ys, slopes)


def _differences(xs: Sequence[float], ys: Sequence[float]) -> Tuple[List[float], List[float]]:
    steps = [b - a for a, b in zip(xs, xs[1:])]
    if len(steps) < 3 or min(steps) <= 0.0:
        raise ValueError("a curve needs at least four points with rising x")
    return steps, [(b - a) / h for a, b, h in zip(ys, ys[1:], steps)]


def _end(step: float, next_step: float, rise: float, next_rise: float) -> float:
    """The right-hand side at an end where the outer two pieces are to be one cubic."""
    both = step + next_step
    return ((step + 2.0 * both) * next_step * rise + step * step * next_rise) / both


def _edge(step: float, next_step: float, rise: float, next_rise: float) -> float:
    """The slope at an end, held back so that the first piece stays between its points."""
    slope = ((2.0 * step + next_step) * rise - step * next_rise) / (step + next_step)
    if slope * rise <= 0.0:
        return 0.0
    if rise * next_rise <= 0.0 and abs(slope) > 3.0 * abs(rise):
        return 3.0 * rise
    return slope


def _pieces(xs: Sequence[float], ys: Sequence[float], slopes: Sequence[float]) -> Curve:
    made: List[Piece] = []
    for x0, x1, y0, y1, s0, s1 in zip(xs, xs[1:], ys, ys[1:], slopes, slopes[1:]):
        h = x1 - x0
        rise = (y1 - y0) / h
        made.append((y0, s0, (3.0 * rise - 2.0 * s0 - s1) / h, (s0 + s1 - 2.0 * rise) / (h * h)))
    return Curve(xs, made)
