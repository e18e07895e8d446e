# SPDX-License-Identifier: GPL-2.0-or-later
"""Where all stations of a survey lie, and what their covariance makes of any figure. The adjustment and the
placement both answer to this; shape and measure ask nothing else of them."""

from __future__ import annotations

from typing import Protocol

import numpy as np

from .quantity import Floats, Gradient, Ints
from .walk import Walk


class Positions(Protocol):
    """All stations of the walks that could be brought together, in one plane.

    Attributes:
        walks: the walks, in order.
        first: (w+1,) row of each walk's first station; walk k holds rows first[k] to first[k+1] - 1.
        xy: (n, 2) metres, true to the ground.
        z: (n,) height of the ground in metres (pole taken off, shift applied), NaN where none was recorded.
    """

    @property
    def walks(self) -> tuple[Walk, ...]:
        """The walks."""
        ...

    @property
    def first(self) -> Ints:
        """First rows."""
        ...

    @property
    def xy(self) -> Floats:
        """Places in plan."""
        ...

    @property
    def z(self) -> Floats:
        """Heights."""
        ...

    def variance(self, gradient: Gradient) -> float:
        """Variance of a figure from how it moves with the stations: g' C g, plan and heights apart."""
        ...

    def plan_covariance(self, index: Ints) -> Floats:
        """(k, 2, k, 2) joint covariance in m2 of k stations' x and y (k up to some hundreds)."""
        ...

    def plan_ellipses(self, index: Ints) -> Floats:
        """(k, 2, 2) covariance in m2 of each of k stations for itself."""
        ...

    def height_sigma(self, index: Ints) -> Floats:
        """(k,) one-sigma in metres of the heights of k stations."""
        ...


def station_of(positions: Positions, row: int) -> tuple[Walk, int]:
    """The walk that a row of the survey belongs to, and the station's number within it."""
    k = int(np.searchsorted(positions.first, row, side="right")) - 1
    return positions.walks[k], int(row - positions.first[k])
