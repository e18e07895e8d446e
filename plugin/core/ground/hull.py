# SPDX-License-Identifier: GPL-2.0-or-later
"""The rim of a triangulation made by floats: flat triangles taken out, and dents of rounding filled, until it is the hull.

Points in line on the rim come out of the library as triangles without area, or with a dent too small to see. A segment
along the rim would then leave the triangles.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .cavity import Mesh
from .signs import side_of, sides_of

THIN_M = 1e-7
"""Metres: a triangle less high than this over its longest side says nothing of the ground."""


def mend_hull(xy: Floats, triangles: Ints, neighbours: Ints) -> tuple[Ints, Ints]:
    """Triangles that are anticlockwise, have area, and together fill the convex hull of their points.

    Args:
        xy: (n, 2) places.
        triangles: (m, 3) as floats made them: anticlockwise but for those whose area is all rounding.
        neighbours: (m, 3) opposite to each corner, -1 for none.
    Returns:
        The same two, mended.
    Raises:
        BadInput: it cannot be done, for the points are too near each other.
    """
    a, b, c = (xy[triangles[:, k]] for k in range(3))
    flat = sides_of(a, b, c) <= 0
    if not flat.any() and not _dents(xy, triangles, neighbours):
        return triangles, neighbours
    triangles = _without_flat(xy, triangles, neighbours, np.flatnonzero(flat).tolist())
    triangles = _filled(xy, triangles)
    return triangles, neighbours_of(triangles, len(xy))


def _dents(xy: Floats, triangles: Ints, neighbours: Ints) -> bool:
    """Whether the rim turns right anywhere."""
    ends = _rim(triangles, neighbours)
    after = np.full(len(xy), -1)
    after[ends[:, 0]] = ends[:, 1]
    if len(np.unique(ends[:, 0])) != len(ends):
        return True
    a, b = ends.T
    return bool((sides_of(xy[a], xy[b], xy[after[b]]) < 0).any())


def _rim(triangles: Ints, neighbours: Ints) -> Ints:
    """(h, 2) edges without a neighbour, with the triangles on their left."""
    t, k = np.nonzero(neighbours < 0)
    return np.column_stack([triangles[t, (k + 1) % 3], triangles[t, (k + 2) % 3]])


def without_thin(xy: Floats, triangles: Ints, least: float = THIN_M) -> Ints:
    """The triangles without those thinner than `least` metres, whose planes would be all rounding: one on the rim goes, one
    inside hands the point on its longest side to the triangle beyond it."""
    if not len(triangles):
        return triangles
    thin = np.flatnonzero(_thickness(xy, triangles) < least)
    if not len(thin):
        return triangles

    def is_thin(row: list[int]) -> bool:
        return bool(_thickness(xy, np.array([row]))[0] < least)

    mesh = Mesh(xy, triangles, neighbours_of(triangles, len(xy)), triangles[:0, :2])
    waiting = _flatten(mesh, thin.tolist(), is_thin)
    if waiting:  # points so crowded that handing on goes in a circle
        left = mesh.triangles()
        return np.asarray(left[_thickness(xy, left) >= least])
    return mesh.triangles()


def _thickness(xy: Floats, triangles: Ints) -> Floats:
    """(m,) height over the longest side, metres; negative of one that is folded."""
    a, b, c = (xy[triangles[:, k]] for k in range(3))
    u, v, w = b - a, c - a, c - b
    squares = [side[:, 0] ** 2 + side[:, 1] ** 2 for side in (u, v, w)]
    longest = np.sqrt(np.maximum(np.maximum(squares[0], squares[1]), squares[2]))
    return np.asarray((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / np.maximum(longest, 1e-300))


def _without_flat(xy: Floats, triangles: Ints, neighbours: Ints, waiting: list[int]) -> Ints:
    """Triangles without area, or folded by rounding, taken out likewise.

    Raises:
        BadInput: it does not come to an end.
    """
    if not waiting:
        return triangles

    def is_flat(row: list[int]) -> bool:
        return side_of(*(xy[k].tolist() for k in row)) <= 0

    mesh = Mesh(xy, triangles, neighbours, triangles[:0, :2])
    if _flatten(mesh, waiting, is_flat):
        raise BadInput(
            "Points lie too near to one line for a triangulation. Merge points within a larger distance."
        )
    return mesh.triangles()


def _flatten(mesh: Mesh, waiting: list[int], is_flat: Callable[[list[int]], bool]) -> list[int]:
    """Take flat triangles out of a mesh; what is left of them if it does not come to an end."""
    for _ in range(8 * len(waiting) + 64):
        if not waiting:
            break
        t = waiting.pop()
        row = mesh.row(t)
        if row and is_flat(row):
            waiting += mesh.flatten(t)
    return waiting


def _filled(xy: Floats, triangles: Ints) -> Ints:
    """Triangles put into every place where the rim turns right, until it turns right nowhere.

    Raises:
        BadInput: the rim is no single loop.
    """
    ends = _rim(triangles, neighbours_of(triangles, len(xy)))
    after = dict(ends.tolist())
    if len(after) != len(ends):
        raise BadInput(
            "Points lie too near each other for a triangulation. Merge points within a larger distance."
        )
    before = {b: a for a, b in after.items()}
    places = {k: tuple(xy[k].tolist()) for k in after}
    added = []
    waiting = list(after)
    while waiting:
        v = waiting.pop()
        if v not in after:
            continue
        u, w = before[v], after[v]
        if u != w and side_of(places[u], places[v], places[w]) < 0:
            added.append((u, w, v))
            after[u], before[w] = w, u
            del after[v], before[v]
            waiting += [u, w]
    return np.vstack([triangles, np.array(added, np.int64).reshape(-1, 3)])


def neighbours_of(triangles: Ints, count: int) -> Ints:
    """(m, 3) the neighbour opposite to each corner, -1 where there is none."""
    start = triangles[:, [1, 2, 0]].reshape(-1)
    end = triangles[:, [2, 0, 1]].reshape(-1)
    key, back = start * count + end, end * count + start
    order = np.argsort(key)
    at = np.minimum(np.searchsorted(key[order], back), len(key) - 1)
    found = order[at]
    return np.asarray(np.where(key[found] == back, found // 3, -1).reshape(-1, 3))
