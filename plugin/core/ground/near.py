# SPDX-License-Identifier: GPL-2.0-or-later
"""Which of many points may lie near which of many segments."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

import numpy as np

from ..quantity import Floats, Ints
from ..shape.boxes import find_meeting_boxes
from .weld import extent_of

FEW = 200_000
"""Pairs up to which boxes alone are fast enough."""
LONG = 16.0
"""Half lengths in mean spacings of the points from which on a circle about a segment holds more than its box does."""


def find_points_near(a: Floats, b: Floats, xy: Floats, within: float) -> Iterator[tuple[Ints, Ints]]:
    """Segments from a to b (s, 2) and points (n, 2) that may lie within `within` metres of them, as pairs of rows, in
    blocks: none is left out, and many lie farther off."""
    if not len(a) or not len(xy):
        return
    half = 0.5 * np.hypot(*(b - a).T) + within
    is_long = np.ones(len(a), bool)
    if len(a) * len(xy) > FEW:
        low, high = extent_of(xy)
        reach = high - low
        spacing = float(np.sqrt(max(reach[0] * reach[1], 0.0) / len(xy)))
        is_long = half > LONG * spacing
    far, short = np.flatnonzero(is_long), np.flatnonzero(~is_long)
    if len(far):
        low, high = np.minimum(a[far], b[far]) - within, np.maximum(a[far], b[far]) + within
        for i, k in find_meeting_boxes(low, high, xy, xy):
            yield far[i], k
    if len(short):
        yield _in_circles(0.5 * (a[short] + b[short]), half[short], short, xy)


def _in_circles(middle: Floats, radius: Floats, rows: Ints, xy: Floats) -> tuple[Ints, Ints]:
    from scipy.spatial import cKDTree

    base = xy[0]
    # A little wider, for the tree rounds.
    found = cKDTree(xy - base).query_ball_point(middle - base, radius * (1.0 + 1e-9), return_sorted=False)
    sizes = np.fromiter(map(len, found), np.int64, len(found))
    points = np.fromiter(chain.from_iterable(found), np.int64, int(sizes.sum()))
    return np.repeat(rows, sizes), points
