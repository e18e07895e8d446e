# SPDX-License-Identifier: GPL-2.0-or-later
"""Triangles that were given corner by corner, as one surface in which they share their points."""

from __future__ import annotations

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .surface import Surface

SAME_PLACE = 1e-6
"""Metres: corners of neighbours that lie within this in plan are one point; a CRS's way there and back keeps 1e-8."""
SAME_HEIGHT = 1e-4
"""Metres: heights of one point may differ by this, and the first counts."""


def weld_triangles(corners: Floats, sigma: float | Floats = 0.0, name: str = "") -> Surface:
    """A surface from (m, 3, 3) corners of triangles, metres, in either sense; those without area are left out.

    Args:
        corners: east, north, height of each triangle's corners; (0, 3, 3) gives an empty surface.
        sigma: one-sigma of a height, metres, one for all, or (m, 3) of each corner.
        name: of the surface, for messages.
    Raises:
        BadInput: a corner without place or height, or two heights at one place (an upright face).
    """
    flat = np.asarray(corners, float).reshape(-1, 3)
    if not np.isfinite(flat).all():
        raise BadInput(
            "The surface {name} has a corner without a place or a height. Give every corner all three coordinates.",
            name=name,
        )
    number, first = number_places(flat[:, :2], SAME_PLACE)
    off = np.abs(flat[:, 2] - flat[first[number], 2])
    if len(off) and off.max() > SAME_HEIGHT:
        k = int(np.argmax(off))
        raise BadInput(
            "The surface {name} has two heights at one place, {low:.3f} m and {high:.3f} m at {east:.3f}, {north:.3f} in "
            "the survey plane. Take out upright faces, or draw their foot a little off their top.",
            name=name,
            low=float(min(flat[k, 2], flat[first[number[k]], 2])),
            high=float(max(flat[k, 2], flat[first[number[k]], 2])),
            east=float(flat[k, 0]),
            north=float(flat[k, 1]),
        )
    worth = np.broadcast_to(np.asarray(sigma, float), (len(flat) // 3, 3)).reshape(-1)
    triangles = upward(flat[first], number.reshape(-1, 3))
    return compacted(
        Surface(flat[first], triangles, worth[first].copy(), 0.0, 0.0, np.zeros(len(triangles), bool))
    )


def upward(points: Floats, triangles: Ints) -> Ints:
    """(m, 3) the same triangles anticlockwise in plan; those without area are left out."""
    xy = points[:, :2] - (points[:, :2].mean(axis=0) if len(points) else 0.0)
    a, b, c = (xy[triangles[:, k]] for k in range(3))
    twice = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (c[:, 0] - a[:, 0]) * (b[:, 1] - a[:, 1])
    turned = np.where((twice < 0.0)[:, None], triangles[:, ::-1], triangles)
    return np.asarray(turned[twice != 0.0])


def compacted(surface: Surface) -> Surface:
    """The same surface without the points that no triangle uses; the others keep their order."""
    used, number = np.unique(surface.triangles, return_inverse=True)
    return Surface(
        surface.points[used],
        number.reshape(-1, 3).astype(np.int64),
        surface.sigma[used],
        surface.rough,
        surface.reach,
        surface.is_weak,
        surface.shared[used],
    )


def number_places(xy: Floats, within: float) -> tuple[Ints, Ints]:
    """Places that are one: the number of each of (n, 2) places, and the row of the first place of each number.

    A place belongs to the first one before it that lies within `within` metres and belongs to no other, so that a
    chain of near places does not become one.
    """
    number, first = _different(xy)
    target = _merged_into(xy[first], within)
    is_kept = target == np.arange(len(target))
    again = np.cumsum(is_kept) - 1
    return again[target[number]].astype(np.int64), first[is_kept].astype(np.int64)


def _different(xy: Floats) -> tuple[Ints, Ints]:
    """The number of each of (n, 2) places, and the first row of each number, in the order they came. numpy's own way to
    unlike rows takes four times as long."""
    order = np.lexsort((xy[:, 1], xy[:, 0]))
    is_new = np.ones(len(xy), bool)
    is_new[1:] = (xy[order[1:]] != xy[order[:-1]]).any(axis=1)
    # Rows that are alike stay in their order, so that the first of a run came first.
    first_of = np.empty(len(xy), np.int64)
    first_of[order] = order[is_new][np.cumsum(is_new) - 1]
    is_first = first_of == np.arange(len(xy))
    return np.asarray((np.cumsum(is_first) - 1)[first_of]), np.flatnonzero(is_first)


def _merged_into(xy: Floats, within: float) -> Ints:
    """(n,) for each of the different places, the one that it becomes: mostly itself."""
    target = np.arange(len(xy))
    if within <= 0.0 or len(xy) < 2:
        return target
    pairs = near_pairs(xy, within)
    is_root = np.ones(len(xy), bool)
    for i, j in pairs[np.lexsort((pairs[:, 1], pairs[:, 0]))].tolist():
        if is_root[i] and target[j] == j:
            target[j], is_root[j] = i, False
    return target


def extent_of(xy: Floats) -> tuple[Floats, Floats]:
    """(2,) least and (2,) greatest coordinates of one place or more. Column by column: along the long axis of pairs numpy
    takes twenty times as long."""
    x, y = xy[:, 0], xy[:, 1]
    return np.array([x.min(), y.min()]), np.array([x.max(), y.max()])


def near_pairs(xy: Floats, within: float) -> Ints:
    """(k, 2) rows i < j of places that lie within `within` metres of each other."""
    from scipy.spatial import cKDTree

    low, high = extent_of(xy)
    centred = xy - 0.5 * (low + high)
    return np.asarray(cKDTree(centred).query_pairs(within, output_type="ndarray"), np.int64)
