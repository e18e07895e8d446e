# SPDX-License-Identifier: GPL-2.0-or-later
"""Triangles that no one should lean on: slivers of the rim, triangles on one line of points, and wide gaps.

The three rules are common practice, their figures ours: a sliver is ten times longer than high, a gap is three spacings
of the points from any of them.
"""

from __future__ import annotations

import numpy as np

from ..defaults import GAP_SPACINGS
from ..quantity import Floats, Ints
from .hull import neighbours_of
from .records import Net
from .surface import Flags

SLENDER = 0.1
"""Height by longest side below which a triangle of the rim is a sliver."""

FEW_FREE = 0.1
"""Of all points: with fewer on no line, lines alone tell the spacing."""


def find_weak(net: Net, triangles: Ints, spacings: float = GAP_SPACINGS) -> Flags:
    """(m,) which triangles are weak.

    Args:
        net: the points, and the lines that they stand on.
        triangles: (m, 3) rows of the net's points.
        spacings: how many median spacings a place may lie from the next point.
    """
    squares = _squares(net.points, triangles)
    weak = farthest(squares) > spacings * median_spacing(net, triangles)
    return weak | _slivers(net.points, triangles, squares) | on_one_line(net, triangles)


def _squares(points: Floats, triangles: Ints) -> Floats:
    """(m, 3) squares of the sides opposite to each corner, m2."""
    corners = points[triangles][:, :, :2]
    sides = np.roll(corners, -2, axis=1) - np.roll(corners, -1, axis=1)
    return np.asarray((sides**2).sum(axis=2))


def farthest(squares: Floats) -> Floats:
    """(m,) metres from the corners to the place in a triangle that lies farthest from all three, from the squares
    (m, 3) of its sides.

    In an acute triangle that is the circle's middle; in an obtuse one it lies on the longest side, c, where the mid-normal
    of one of the others, b, meets it: b / (2 cos A) from A.
    """
    a2, b2, c2 = np.sort(squares, axis=1).T
    sixteen = np.maximum(4.0 * a2 * b2 - (c2 - a2 - b2) ** 2, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        circle = np.sqrt(a2 * b2 * c2 / sixteen)
        # b / (2 cos A) with cos A = (b2 + c2 - a2) / (2 b c)
        c = np.sqrt(c2)
        from_a, from_b = b2 * c / (b2 + c2 - a2), a2 * c / (a2 + c2 - b2)
    return np.where(c2 >= a2 + b2, np.maximum(from_a, from_b), circle)


def median_spacing(net: Net, triangles: Ints) -> float:
    """Metres: the median distance from a point to the next. Of points on lines, which stand closer along them than the ground
    is known, only where hardly any other is there: then half of all metres of line lie in straights no longer than this, so
    that chords of arcs and rows recorded on the way, many in few metres, do not make it."""
    edges = np.unique(np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1), axis=0)
    length = np.hypot(*(net.points[edges[:, 0], :2] - net.points[edges[:, 1], :2]).T)
    nearest = np.full(len(net.points), np.inf)
    np.minimum.at(nearest, edges[:, 0], length)
    np.minimum.at(nearest, edges[:, 1], length)
    free = np.isfinite(nearest)
    free[net.segments] = False
    if len(net.segments) and free.sum() < FEW_FREE * len(net.points):
        ends = net.points[net.segments, :2]
        return _middle_metre(np.hypot(*(ends[:, 1] - ends[:, 0]).T))
    return float(np.median(nearest[free])) if free.any() else np.inf


def _middle_metre(length: Floats) -> float:
    """The length of the piece in which the middle of all metres lies."""
    along = np.sort(length)
    return float(along[np.searchsorted(np.cumsum(along), 0.5 * float(along.sum()))])


def _slivers(points: Floats, triangles: Ints, squares: Floats) -> Flags:
    """Triangles of the rim that are long and thin."""
    on_rim = (neighbours_of(triangles, len(points)) < 0).any(axis=1)
    a2, b2, c2 = np.sort(squares, axis=1).T
    twice = 0.5 * np.sqrt(np.maximum(4.0 * a2 * b2 - (c2 - a2 - b2) ** 2, 0.0))
    return np.asarray(on_rim & (twice < SLENDER * c2))


def on_one_line(net: Net, triangles: Ints) -> Flags:
    """(m,) triangles whose three corners stand on one line: the ground between is known along that line alone."""
    from scipy.sparse import csr_matrix

    if not len(net.segments):
        return np.zeros(len(triangles), bool)
    point, line = net.segments.reshape(-1), np.repeat(net.owner, 2)
    shape = (len(net.points), int(net.owner.max(initial=0)) + 1)
    stands = csr_matrix((np.ones(len(point)), (point, line)), shape=shape)
    stands.data[:] = 1.0
    is_on = np.diff(stands.indptr) > 0
    some = np.flatnonzero(is_on[triangles].all(axis=1))
    a, b, c = (stands[triangles[some, k]] for k in range(3))
    weak = np.zeros(len(triangles), bool)
    weak[some] = np.asarray(a.multiply(b).multiply(c).sum(axis=1)).reshape(-1) > 0.0
    return weak
