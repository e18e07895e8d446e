# SPDX-License-Identifier: GPL-2.0-or-later
"""What of a triangulation is ground: inside the boundary, outside the voids, and not the long triangles of the rim."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..quantity import Floats, Ints
from ..segments import part_of_ring
from .hull import neighbours_of
from .surface import Flags

BLOCK = 4_000_000
"""Points by sides of a ring held at once."""


def trim_to_rings(
    points: Floats, triangles: Ints, fences: Ints, boundary: Sequence[Floats], voids: Sequence[Floats]
) -> Flags:
    """(m,) the triangles that lie inside the boundary (if there is one) and in no void.

    Triangles that no fence parts are in or out together, and the largest of them tells for all: no sliver beside a ring
    is judged by its own middle, which may be on the wrong side by rounding.

    Args:
        points: (n, 2 or more) metres.
        triangles: (m, 3) rows of them.
        fences: (s, 2) pairs of points; all sides of the rings that lie in the triangulation are among them.
        boundary: rings (k, 2 or more), closed; where they lie in each other, every second one counts as out.
        voids: rings likewise, each out.
    """
    if not len(boundary) and not len(voids):
        return np.ones(len(triangles), bool)
    part, middles = _parts(points, triangles, fences)
    keep = is_inside(boundary, middles) if len(boundary) else np.ones(len(middles), bool)
    if len(voids):
        keep &= ~is_inside_any(voids, middles)
    return np.asarray(keep[part])


def trim_to_areas(points: Floats, triangles: Ints, fences: Ints, areas: Sequence[Sequence[Floats]]) -> Flags:
    """(m,) the triangles that lie inside any of some areas, which may overlap.

    Args:
        points: (n, 2 or more) metres.
        triangles: (m, 3) rows of them.
        fences: (s, 2) pairs of points, as of `trim_to_rings`.
        areas: the rings of each, closed; where those of one lie in each other, every second one counts as out.
    """
    part, middles = _parts(points, triangles, fences)
    keep = np.zeros(len(middles), bool)
    for rings in areas:
        keep |= is_inside(rings, middles)
    return np.asarray(keep[part])


def _parts(points: Floats, triangles: Ints, fences: Ints) -> tuple[Ints, Floats]:
    """(m,) the part that each triangle is of, and the middle (2,) of the largest triangle of each part."""
    part = parted(triangles, fences, len(points))
    corners = points[triangles][:, :, :2]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    order = np.lexsort((-area, part))
    _, first = np.unique(part[order], return_index=True)
    return part, np.asarray(corners[order[first]].mean(axis=1))


def is_inside(rings: Sequence[Floats], places: Floats) -> Flags:
    """(n,) whether places lie inside an odd number of rings."""
    inside = np.zeros(len(places), bool)
    for ring in rings:
        step = max(1, BLOCK // max(len(ring), 1))
        for first in range(0, len(places), step):
            some = slice(first, first + step)
            inside[some] ^= part_of_ring(ring, places[some])
    return inside


def is_inside_any(rings: Sequence[Floats], places: Floats) -> Flags:
    """(n,) whether places lie inside any of the rings."""
    inside = np.zeros(len(places), bool)
    for ring in rings:
        inside |= is_inside([ring], places)
    return inside


def parted(triangles: Ints, fences: Ints, count: int) -> Ints:
    """(m,) numbers of the parts into which fences (s, 2) cut the triangles over `count` points."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    row, beside = _open_sides(triangles, fences, count)
    links = coo_matrix((np.ones(len(row), bool), (row, beside)), shape=(len(triangles), len(triangles)))
    return np.asarray(connected_components(links, directed=False)[1], np.int64)


def _open_sides(triangles: Ints, fences: Ints, count: int) -> tuple[Ints, Ints]:
    """Triangles and those beside them, through sides that are no fence."""
    beside = neighbours_of(triangles, count)
    row, k = np.nonzero(beside >= 0)
    keys = np.sort(np.stack([triangles[row, (k + 1) % 3], triangles[row, (k + 2) % 3]], axis=1), axis=1)
    fence = np.sort(fences, axis=1)
    is_fence = np.isin(keys[:, 0] * count + keys[:, 1], fence[:, 0] * count + fence[:, 1])
    return row[~is_fence], beside[row, k][~is_fence]


def peel_rim(points: Floats, triangles: Ints, fixed: Ints, longest: float) -> Flags:
    """(m,) the triangles that stay when those of the rim with a side longer than `longest` metres are taken off, one
    behind the other; none beyond a breakline (`fixed`, (s, 2) pairs of points) is."""
    corners = points[triangles][:, :, :2]
    sides = np.hypot(*(np.roll(corners, -1, axis=1) - corners).transpose(2, 0, 1))
    is_long = np.flatnonzero(sides.max(axis=1) > longest)
    keep = np.ones(len(triangles), bool)
    if not len(is_long):
        return keep
    part = parted(triangles[is_long], fixed, len(points))
    beside = neighbours_of(triangles, len(points))[is_long]
    fence = np.sort(fixed, axis=1)
    fence_keys = fence[:, 0] * len(points) + fence[:, 1]
    ends = np.sort(triangles[is_long][:, [[1, 2], [2, 0], [0, 1]]], axis=2)
    is_open = (beside < 0) & ~np.isin(ends[:, :, 0] * len(points) + ends[:, :, 1], fence_keys)
    outside = np.unique(part[is_open.any(axis=1)])
    keep[is_long[np.isin(part, outside)]] = False
    return keep
