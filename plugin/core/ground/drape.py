# SPDX-License-Identifier: GPL-2.0-or-later
"""Rings without heights laid on a triangulation: the ground stays as it was, and the rings become edges of it.

The triangles that a ring touches keep their sides as segments, and the ring gets a point wherever it crosses one, so that
what is cut there are plane pieces: no height between the points changes.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..quantity import Floats, Ints
from ..shape.boxes import find_meeting_boxes
from .locate import locate
from .noding import node_segments
from .records import Levels, Net
from .signs import sides_of
from .surface import Flags
from .triangulate import triangulate

FINER = 0.01
"""Of the tolerance: rings are cut at sides as they stand, so nothing else need be moved."""


def drape_rings(net: Net, triangles: Ints, rings: Sequence[Floats], within: float) -> tuple[Net, Ints]:
    """The triangulation with rings (k, 2) as edges, as far as it reaches.

    A new point's height is that of the triangle it lies in, and so is what it shares; its own sigma is that of the corners in
    their mean by weight, as if they erred alike: never better than the ground.

    Returns:
        The net with the rings' segments, whose first points are those of `net`, and its triangles.
    """
    bare, segments, touched = _with_rings(net, triangles, rings)
    flat, _ = node_segments(
        bare, np.full(len(bare.points), -1), segments, np.zeros(len(segments), np.int64), ((), FINER * within)
    )
    count = len(net.points)
    old = flat.first[:count]
    is_there = np.zeros(len(flat.points), bool)
    is_there[old] = True
    z, sigma = np.zeros(len(flat.points)), np.zeros(len(flat.points))
    shared = np.zeros((len(flat.points), net.shared.shape[1]))
    z[old], sigma[old], shared[old] = net.points[:, 2], net.sigma, net.shared
    new = np.flatnonzero(~is_there)
    at, weights = locate(net.points, touched, flat.points[new, :2])
    new, corners, weights = new[at >= 0], touched[at[at >= 0]], weights[at >= 0]
    z[new] = (net.points[corners, 2] * weights).sum(axis=1)
    sigma[new] = (net.sigma[corners] * np.clip(weights, 0.0, 1.0)).sum(axis=1)
    shared[new] = np.einsum("nc,nck->nk", weights, net.shared[corners])
    is_there[new] = True
    number = np.cumsum(is_there) - 1
    keep = is_there[flat.segments].all(axis=1)
    points = np.column_stack([flat.points[:, :2], z])[is_there]
    fences = number[flat.segments[keep]]
    owner = np.full(len(fences), -1)
    finer = Net(points, sigma[is_there], fences, owner, number[old], shared[is_there])
    return finer, triangulate(points[:, :2], fences)


def _with_rings(net: Net, triangles: Ints, rings: Sequence[Floats]) -> tuple[Levels, Ints, Ints]:
    """All points in plan; the segments: the net's, the sides of touched triangles, and the rings'; the touched triangles."""
    count = len(net.points)
    starts = count + np.cumsum([0, *map(len, rings)])
    ring = [np.column_stack([np.arange(a, b - 1), np.arange(a + 1, b)]) for a, b in zip(starts, starts[1:])]
    sides = np.vstack([np.empty((0, 2), np.int64), *ring])
    xy = np.vstack([net.points[:, :2], *(some[:, :2] for some in rings)])
    touched = triangles[_touched(xy, triangles, sides)]
    edges = np.unique(np.sort(touched[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1), axis=0)
    zero = np.zeros(len(xy))
    return Levels(np.column_stack([xy, zero]), zero), np.vstack([net.segments, edges, sides]), touched


def _touched(xy: Floats, triangles: Ints, sides: Ints) -> Flags:
    """(m,) triangles that may have something of the sides (s, 2) in them: not all corners lie on one hand of one."""
    out = np.zeros(len(triangles), bool)
    corners, ends = xy[triangles], xy[sides]
    low, high = corners.min(axis=1), corners.max(axis=1)
    for i, k in find_meeting_boxes(ends.min(axis=1), ends.max(axis=1), low, high):
        hands = [sides_of(ends[i, 0], ends[i, 1], corners[k, c]) for c in range(3)]
        out[k[np.abs(sum(hands)) < 3]] = True
    return out
