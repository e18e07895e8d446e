# SPDX-License-Identifier: GPL-2.0-or-later
"""Levels of a surface at places on it: what tells them, how well they are known, their rises, and sums of them.

Two things make a level uncertain. The points' heights err, each by itself and together: a level is a sum of some of them by
weights w, and its variance from that is the sum of w^2 sigma^2 and the square of the sum of w times what they share. Between the points the true ground leaves the triangle: by
rough * b * U, where U is a field of unit variance with the correlation exp(-distance / reach), and

    b^2 = min(1, 2 (1 - sum w^2)),

which is 0 at a point, and 4 f (1 - f) at the part f of an edge, as of a Brownian bridge between two known points with
the variance 1 in its middle (to which a variogram that begins evenly, as the exponential one does, comes down over
short ways); inside a triangle it is 1 or nearly.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..quantity import Floats, Ints
from .surface import Flags, Surface

if TYPE_CHECKING:
    from collections.abc import Sequence

PAIRS_AT_ONCE = 4_000_000
"""Pairs of places whose correlation is held at once: 32 MB."""
ROWS_AT_ONCE = 50_000
"""Levels whose weights are held against each other at once: 36 pairs each, 15 MB."""


@dataclass(frozen=True, eq=False)
class Levels:
    """What tells (r,) levels of a surface.

    Attributes:
        surface: that they are of.
        place: (r, 2) metres in the survey plane.
        corner: (r, q) points of the surface; one may stand twice in a row. weight: (r, q) how far each tells the level;
            all 0 where there is none.
    """

    surface: Surface
    place: Floats
    corner: Ints
    weight: Floats

    def __len__(self) -> int:
        return len(self.place)

    @property
    def heights(self) -> Floats:
        """(r,) metres; NaN where there is none."""
        z = (self.weight * self.surface.points[self.corner, 2]).sum(axis=1)
        return np.asarray(np.where(self._is_none, np.nan, z))

    @property
    def _is_none(self) -> Flags:
        return np.asarray(~self.weight.any(axis=1))

    @property
    def between_points(self) -> Floats:
        """(r,) b of the head of this file: what of the roughness between the points a place has, 0 to 1."""
        squares = _shared(self, self, None)
        return np.asarray(np.sqrt(np.clip(2.0 * (1.0 - squares), 0.0, 1.0)))

    def sigmas(self, common: float = 0.0) -> Floats:
        """(r,) one-sigma of each level, metres; NaN where there is none.

        Args:
            common: one-sigma of all heights of the surface together, metres (a datum, a bench mark).
        """
        own = _covariance(self, self)
        rough = (self.surface.rough * self.between_points) ** 2
        return np.asarray(np.where(self._is_none, np.nan, np.sqrt(own + rough + common**2)))


def rise_sigmas(one: Levels, other: Levels) -> Floats:
    """(r,) one-sigma of each level of `other` less that of `one`, of the same surface, metres; NaN where one has none.

    What both owe to the same points, and to the same ground beside them, is taken out; what all heights have in common
    has no part in it.
    """
    surface, s = one.surface, one.surface.sigma
    variance = _shared(one, one, s) + _shared(other, other, s) - 2.0 * _shared(one, other, s)
    variance += ((_together(other) - _together(one)) ** 2).sum(axis=1)
    a, b = surface.rough * one.between_points, surface.rough * other.between_points
    away = np.hypot(*(other.place - one.place).T)
    alike = np.exp(-away / surface.reach) if surface.reach > 0.0 else (away == 0.0).astype(float)
    variance += a**2 + b**2 - 2.0 * a * b * alike
    sigma = np.sqrt(np.maximum(variance, 0.0))
    return np.asarray(np.where(one._is_none | other._is_none, np.nan, sigma))  # noqa: SLF001 - of this file


def _covariance(one: Levels, other: Levels) -> Floats:
    """(r,) of two levels, from the points' heights."""
    together = (_together(one) * _together(other)).sum(axis=1)
    return np.asarray(_shared(one, other, one.surface.sigma) + together)


def _together(levels: Levels) -> Floats:
    """(r, k) what levels move by with each error that the points have in common."""
    shared = levels.surface.shared
    if not shared.shape[1]:
        return np.empty((len(levels), 0))
    return np.asarray(np.einsum("rq,rqk->rk", levels.weight, shared[levels.corner]))


def _shared(one: Levels, other: Levels, sigma: Floats | None) -> Floats:
    """(r,) covariance of two levels from the points they share: the sum of w v sigma^2; without sigma, of w v."""
    out = np.empty(len(one))
    for k in range(0, len(out), ROWS_AT_ONCE):
        rows = slice(k, k + ROWS_AT_ONCE)
        w = one.weight[rows] if sigma is None else one.weight[rows] * sigma[one.corner[rows]] ** 2
        same = one.corner[rows, :, None] == other.corner[rows, None, :]
        out[rows] = (same * (w[:, :, None] * other.weight[rows, None, :])).sum(axis=(1, 2))
    return out


@dataclass(frozen=True, eq=False)
class PointGradient:
    """How a figure moves with a surface's heights: (u,) rows of its points, each once, and the change by metre of each."""

    index: Ints
    change: Floats

    def variance(self, surface: Surface) -> float:
        """Of the figure, from the heights of the surface's points."""
        return float(surface.covariance_by(self.change[None], self.index)[0, 0])


def point_gradient(levels: Levels, by_level: Floats) -> PointGradient:
    """How a figure moves with the points, from (r,) its change by metre of each level."""
    return _added(levels.corner.reshape(-1), (by_level[:, None] * levels.weight).reshape(-1))


def sum_gradients(gradients: Sequence[PointGradient], factors: Sequence[float]) -> PointGradient:
    """Of the sum of some figures of one surface, each times its factor."""
    return _added(
        np.concatenate([g.index for g in gradients]),
        np.concatenate([factor * g.change for g, factor in zip(gradients, factors)]),
    )


def _added(index: Ints, change: Floats) -> PointGradient:
    once, where = np.unique(index, return_inverse=True)
    return PointGradient(once, np.bincount(where.reshape(-1), change, len(once)).astype(float))


def ground_variance(levels: Levels, by_level: Floats) -> float:
    """What the ground between the points adds to the variance of a figure, from (r,) its change by metre of each level.

    It is rough^2 times the sum of c_i c_j b_i b_j exp(-d_ij / reach) over all pairs. Of an integral along a line the levels
    are the middles of its parts and c their lengths: b is largest in the middles, and within a part the ground counts as
    one, so that the variance is rather too large.
    """
    surface = levels.surface
    c = by_level * levels.between_points
    rows = np.flatnonzero(c != 0.0)
    if not len(rows) or not surface.rough > 0.0:
        return 0.0
    c, place = c[rows], levels.place[rows] - levels.place[rows[0]]
    if not surface.reach > 0.0:
        return float(surface.rough**2 * (c**2).sum())
    total, step = 0.0, max(1, PAIRS_AT_ONCE // len(rows))
    for k in range(0, len(rows), step):
        away = np.hypot(*(place[k : k + step, None] - place[None]).transpose(2, 0, 1))
        total += float(c[k : k + step] @ np.exp(-away / surface.reach) @ c)
    return float(surface.rough**2 * max(total, 0.0))
