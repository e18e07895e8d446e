# SPDX-License-Identifier: GPL-2.0-or-later
"""Rings that do not cross but lie where they should not: holes outside, over or inside holes, parts inside parts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ...quantity import Floats, Ints
from ...segments import part_of_ring
from ...shape.boxes import find_meeting_boxes
from ...shape.crossing import chords_of
from .crossings import curve_of
from .shapes import Shapes

NEAR = 1e-9
"""Of a ring's size: points as near to it as this lie on it."""


@dataclass(frozen=True)
class Misplaced:
    """A run, by number, and how it lies: outside, covers, nested, twice."""

    run: int
    how: str


def find_misplaced(shapes: Shapes, whole: Shapes, local: Floats) -> dict[int, Misplaced]:
    """The first misplaced ring of each feature that has one, by the feature's number.

    Args:
        shapes: the outlines to look at: some of `whole`'s, whose rings do not cross.
        whole: what run numbers are told in.
        local: (n, 2) places of `whole`'s points, from a point of their feature.
    """
    found: dict[int, Misplaced] = {}
    runs_of = np.bincount(shapes.feature, minlength=len(shapes))
    for feature in np.flatnonzero(runs_of > 1):
        misplaced = _look(whole, local, whole.runs_numbered(int(feature)))
        if misplaced is not None:
            found[int(feature)] = misplaced
    return found


def _look(shapes: Shapes, local: Floats, runs: Ints) -> Misplaced | None:
    rings = [chords_of(curve_of(shapes, local, int(run))) for run in runs]
    rings_xy = [ring.xy + ring.origin for ring in rings]
    low = np.array([ring.min(axis=0) for ring in rings_xy])
    high = np.array([ring.max(axis=0) for ring in rings_xy])
    part, hole = shapes.part[runs], shapes.is_hole[runs]
    for k in np.flatnonzero(hole):
        shell = int(np.flatnonzero((part == part[k]) & ~hole)[0])
        how = _inside(rings_xy[k], rings_xy[shell])
        if how is not True:
            return Misplaced(
                int(runs[k]), "covers" if how is None or _inside(rings_xy[shell], rings_xy[k]) else "outside"
            )
    for a, b in _inner_pairs(low, high):
        if hole[a] and hole[b] and part[a] == part[b] and _inside(rings_xy[a], rings_xy[b]) is not False:
            return Misplaced(int(runs[a]), "nested")
        if not hole[a] and not hole[b] and _inside(rings_xy[a], rings_xy[b]) is not False:
            holes = [
                h
                for h in np.flatnonzero(hole & (part == part[b]))
                if _inside(rings_xy[a], rings_xy[h]) is not False
            ]
            if not holes:
                return Misplaced(int(runs[a]), "twice")
    return None


def _inner_pairs(low: Floats, high: Floats) -> Iterator[tuple[int, int]]:
    """Pairs of rings of which the first one's box lies inside the second one's."""
    for i, j in find_meeting_boxes(low, high, low, high):
        inner = (i != j) & ((low[i] >= low[j]) & (high[i] <= high[j])).all(axis=1)
        yield from zip(i[inner].tolist(), j[inner].tolist())


def _inside(ring: Floats, other: Floats) -> bool | None:
    """Whether a ring lies inside another that it does not cross; None where all of it lies on the other.

    Its corners and the middles of its sides are asked, of which those that touch the other tell nothing.
    """
    asked = np.vstack([ring[:-1], 0.5 * (ring[:-1] + ring[1:])])
    size = float(np.ptp(other, axis=0).max())
    telling = asked[~_touches(asked, other, NEAR * size)]
    if not len(telling):
        return None
    return bool(part_of_ring(other, telling[:1])[0])


def _touches(points: Floats, ring: Floats, within: float) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """(n,) whether points lie on a ring of straights, point by point so that memory stays bounded."""
    a, step = ring[:-1], np.diff(ring, axis=0)
    square = np.maximum((step**2).sum(axis=1), np.finfo(float).tiny)
    out = np.zeros(len(points), bool)
    for k, point in enumerate(points):
        along = np.clip(((point - a) * step).sum(axis=1) / square, 0.0, 1.0)
        out[k] = (((a + along[:, None] * step - point) ** 2).sum(axis=1) <= within**2).any()
    return out
