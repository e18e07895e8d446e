# SPDX-License-Identifier: GPL-2.0-or-later
"""How far the stations of one feature can be trusted against each other."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from ..positions import Positions
from ..quantity import Floats, Gradient

CLOSING_SIGMAS = 3.0
"""Two stations within this many sigma (radial, of the gap) may be one point."""
CLOSING = 0.05
"""Metres: and so may two within this, however well they are known."""
BLOCK = 150
"""Stations up to which their joint covariance is asked for at once."""


class Spread:
    """The covariance of a feature's stations, asked for once where the feature is small."""

    def __init__(self, positions: Positions, rows: Sequence[int]) -> None:
        """Take the whole block at once, or nothing yet."""
        self.positions = positions
        self._number = {row: k for k, row in enumerate(rows)}
        self._block: Floats | None = None
        if len(rows) <= BLOCK:
            self._block = positions.plan_covariance(np.asarray(rows, dtype=np.int64))

    def plan(self, rows: Sequence[int]) -> Floats:
        """(k, 2, k, 2) joint covariance in m2 of some of the stations."""
        if self._block is None:
            return self.positions.plan_covariance(np.asarray(rows, dtype=np.int64))
        k = np.array([self._number[row] for row in rows])
        return np.asarray(self._block[k][:, :, k])

    @cached_property
    def largest(self) -> float:
        """The largest radial one-sigma of any station, metres; without limit where the block was not taken."""
        if self._block is None:
            return float("inf")
        trace = np.einsum("iaia->i", self._block)
        return float(np.sqrt(max(trace.max(), 0.0)))

    def sigmas(self, rows: Sequence[int], by_points: Floats) -> Floats:
        """(m,) one-sigma of figures from their changes (m, k, 2) by metre of k stations."""
        covariance = self.plan(rows).reshape(2 * len(rows), 2 * len(rows))
        flat = by_points.reshape(len(by_points), -1)
        return np.asarray(np.sqrt(np.maximum(((flat @ covariance) * flat).sum(axis=1), 0.0)))

    def height_sigma(self, rows: Sequence[int], by_height: Sequence[float]) -> float:
        """One-sigma in metres of a sum of heights with these factors."""
        index = np.asarray(rows, dtype=np.int64)
        gradient = Gradient(index, np.zeros((len(index), 2)), np.asarray(by_height, float))
        return float(np.sqrt(max(self.positions.variance(gradient), 0.0)))

    def gap(self, a: int, b: int) -> tuple[float, float]:
        """Distance in metres from station a to station b, and its radial one-sigma (the root of the trace)."""
        xy = self.positions.xy
        c = self.plan((a, b))
        trace = sum(c[0, i, 0, i] + c[1, i, 1, i] - 2.0 * c[0, i, 1, i] for i in (0, 1))
        return float(np.hypot(*(xy[b] - xy[a]))), float(np.sqrt(max(trace, 0.0)))

    def is_one_place(self, a: int, b: int) -> bool:
        """Whether stations a and b are taken as one point."""
        gap, sigma = self.gap(a, b)
        return gap <= max(CLOSING, CLOSING_SIGMAS * sigma)
