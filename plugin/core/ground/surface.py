# SPDX-License-Identifier: GPL-2.0-or-later
"""A ground surface of triangles in the survey plane, and how well its heights are known."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ..quantity import Floats, Ints
from .box_order import BoxOrder

Flags = npt.NDArray[np.bool_]


def no_shared(count: int = 0) -> Floats:
    """(count, 0) of heights that have no error in common."""
    return np.empty((count, 0))


def total_sigmas(sigma: Floats, shared: Floats) -> Floats:
    """(n,) one-sigma of heights, metres: of what each errs by itself (n,) and of what it shares (n, k)."""
    return np.asarray(np.sqrt(sigma**2 + (shared**2).sum(axis=1))) if shared.shape[1] else sigma


@dataclass(frozen=True, eq=False)
class Surface:
    """Points and the triangles between them; what no triangle covers is no part of it (voids, outside the boundary).

    Attributes:
        points: (n, 3) east, north, height, metres in the survey plane.
        triangles: (m, 3) rows of `points`, anticlockwise in plan, none without area; they meet along whole edges.
        sigma: (n,) one-sigma of what each point's height errs by itself, metres.
        rough: one-sigma of the true ground off the triangles between the points, metres (0: not known).
        reach: metres over which such a departure hangs together.
        is_weak: (m,) triangles that no one should lean on: far from any point, or standing on one line of points.
        shared: (n, k) how far each height moves, metres, with one sigma of each of k errors that many points have in common
            (the drift of a walk): the heights' covariance is diag(sigma^2) + shared shared'. Without, (n, 0).
    """

    points: Floats
    triangles: Ints
    sigma: Floats
    rough: float
    reach: float
    is_weak: Flags
    shared: Floats = field(default_factory=no_shared)

    def __post_init__(self) -> None:
        """A row for each point, also where none errs together with another."""
        if not self.shared.shape[1]:
            object.__setattr__(self, "shared", np.empty((len(self.points), 0)))
        if len(self.shared) != len(self.points):
            raise ValueError("shared has not one row for each point")

    @cached_property
    def corners(self) -> Floats:
        """(m, 3, 3) the triangles' corners."""
        return np.asarray(self.points[self.triangles])

    @cached_property
    def box_order(self) -> BoxOrder:
        """The triangles' boxes in plan, ready to be asked which of them meet another."""
        corners = self.corners[:, :, :2]
        return BoxOrder(corners.min(axis=1), corners.max(axis=1))

    @property
    def total_sigma(self) -> Floats:
        """(n,) one-sigma of each point's height, metres: of its own part and of what it shares."""
        return total_sigmas(self.sigma, self.shared)

    def covariance_by(self, change: Floats, index: Ints | None = None) -> Floats:
        """(f, f) covariance of figures from the points' heights: G C G', C = diag(sigma^2) + shared shared'.

        Args:
            change: (f, u) of each figure by metre of each point's height.
            index: (u,) the points, each once; all if not given.
        """
        own = self.sigma if index is None else self.sigma[index]
        shared = change @ (self.shared if index is None else self.shared[index])
        return np.asarray((change * own**2) @ change.T + shared @ shared.T)

    @cached_property
    def areas(self) -> Floats:
        """(m,) in plan, m2; positive."""
        a, b, c = (self.corners[:, k, :2] for k in range(3))
        u, v = b - a, c - a
        return np.asarray(0.5 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]))

    @cached_property
    def slopes(self) -> Floats:
        """(m, 2) rise by metre east and north of each triangle's plane."""
        a, b, c = (self.corners[:, k] for k in range(3))
        u, v = b - a, c - a
        det = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        east = (u[:, 2] * v[:, 1] - v[:, 2] * u[:, 1]) / det
        north = (u[:, 0] * v[:, 2] - v[:, 0] * u[:, 2]) / det
        return np.column_stack([east, north])
