# SPDX-License-Identifier: GPL-2.0-or-later
"""In which triangle places lie, and where in it."""

from __future__ import annotations

import numpy as np

from ..quantity import Floats, Ints
from ..shape.boxes import find_meeting_boxes

SLACK = 1e-6
"""Of a triangle's heights: so far outside a place still counts as on its side, for crossings are rounded."""


def locate(points: Floats, triangles: Ints, xy: Floats) -> tuple[Ints, Floats]:
    """(k,) the triangle that each place (k, 2) lies in, -1 for none; and (k, 3) the weights of its corners there, which
    add up to 1. On a side shared by two triangles either may be told."""
    found, depth = np.full(len(xy), -1), np.full(len(xy), -SLACK)
    weights = np.zeros((len(xy), 3))
    corners = points[triangles][:, :, :2]
    low, high = corners.min(axis=1), corners.max(axis=1)
    slack = SLACK * (high - low).max(axis=1, keepdims=True)
    for place, triangle in find_meeting_boxes(xy, xy, low - slack, high + slack):
        some = _weights(corners[triangle], xy[place])
        inside = some.min(axis=1)
        better = np.flatnonzero(inside >= depth[place])
        better = better[np.argsort(inside[better], kind="stable")]  # the deepest last: it is what stays
        at = place[better]
        found[at], depth[at], weights[at] = triangle[better], inside[better], some[better]
    return found, weights


def _weights(corners: Floats, xy: Floats) -> Floats:
    """(k, 3) weights of the corners (k, 3, 2) at places (k, 2)."""
    away = corners - xy[:, None]
    x, y = away[:, :, 0], away[:, :, 1]
    twice = np.stack(
        [x[:, (k + 1) % 3] * y[:, (k + 2) % 3] - x[:, (k + 2) % 3] * y[:, (k + 1) % 3] for k in range(3)],
        axis=1,
    )
    return np.asarray(twice / twice.sum(axis=1, keepdims=True))
