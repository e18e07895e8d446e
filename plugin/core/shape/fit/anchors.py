# SPDX-License-Identifier: GPL-2.0-or-later
"""Vertices of an outline that stay where they are: sharp corners, the ends of given arcs, and of edges that are too long
to be the chord of any arc within tolerance."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints

Flags = npt.NDArray[np.bool_]

OFF = 4.0
"""Tolerances: a vertex of an arc lies off the chord past it by four times the sag of its own two chords (both by the
square of their length), so one farther off than this is no vertex of an arc whose sag is within tolerance."""
SHARP = np.radians(35.0)
"""Radians: a circle is hardly ever drawn by fewer than eleven chords, so this is a corner, between edges that are long
enough to tell their direction."""
BENT = 1e100
"""By metre: the curvature of a turn by more than a right angle, which no edge is a chord of."""
TELLING = 4.0
"""Tolerances that such an edge is long: noise of a fifth of a tolerance turns it by 3 degrees."""


def find_anchors(points: Floats, is_mid: Flags, tolerance: float, *, closed: bool) -> Ints:
    """Numbers of the vertices that stay, ascending; without `closed` the first and the last among them.

    Args:
        points: (n, 2) metres, neighbours different.
        is_mid: (n,) whether a vertex is the middle of a given arc.
        tolerance: metres.
        closed: whether the last vertex is joined to the first.
    """
    before, after = np.roll(points, 1, axis=0), np.roll(points, -1, axis=0)
    into, out_of = points - before, after - points
    length = np.hypot(out_of[:, 0], out_of[:, 1])
    arrives = np.roll(length, 1)
    cross = into[:, 0] * out_of[:, 1] - into[:, 1] * out_of[:, 0]
    dot = (into * out_of).sum(axis=1)
    stays = _distance_to_chord(points, before, after) > OFF * tolerance
    is_sharp = np.abs(np.arctan2(cross, dot)) > SHARP
    stays |= is_sharp & (np.minimum(arrives, length) > TELLING * tolerance)
    if not closed:
        stays[[0, -1]] = True
    stays |= np.roll(is_mid, 1) | np.roll(is_mid, -1)
    # The circle through a vertex and its neighbours: what an edge would sag by as a chord of it.
    chord = np.hypot(*(after - before).T)
    bend = 2.0 * np.abs(cross) / np.maximum(arrives * length * chord, 1e-300)
    bend = np.where(dot > 0.0, bend, BENT)
    sags = np.stack([length**2 * bend, length**2 * np.roll(bend, -1)]) / 8.0
    alone = (sags > tolerance) | np.stack([stays, np.roll(stays, -1)])
    is_alone = alone.all(axis=0)
    stays |= is_alone | np.roll(is_alone, 1)
    return np.flatnonzero(stays & ~is_mid)


def _distance_to_chord(points: Floats, start: Floats, end: Floats) -> Floats:
    """(n,) distance of each point from the straight between two others, metres."""
    chord, away = end - start, points - start
    square = np.maximum((chord**2).sum(axis=1), 1e-300)
    part = np.clip((away * chord).sum(axis=1) / square, 0.0, 1.0)
    return np.asarray(np.hypot(*(away - part[:, None] * chord).T))


def find_sharpest(points: Floats, low: int, high: int) -> int:
    """Of the vertices from `low` to before `high` the one that lies farthest off the chord past it; numbers go round."""
    n = len(points)
    k = np.arange(low, high)
    off = _distance_to_chord(points[k % n], points[(k - 1) % n], points[(k + 1) % n])
    return low + int(np.argmax(off))
