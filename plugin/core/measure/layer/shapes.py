# SPDX-License-Identifier: GPL-2.0-or-later
"""Many features at once, as runs of points in flat arrays."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import IntEnum
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints

Flags = npt.NDArray[np.bool_]


class Kind(IntEnum):
    """What a feature's geometry is, as far as measuring goes."""

    NOTHING = 0
    """NULL, or without a single point."""
    POINTS = 1
    LINES = 2
    AREAS = 3
    MIXED = 4
    """A collection, which may hold anything."""
    FACES = 5
    """A surface of faces in space (polyhedral, TIN)."""
    UNREADABLE = 6


@dataclass(frozen=True, eq=False)
class Shapes:
    """A block of features, in order.

    A run is a ring or a line. Its points are vertices, and the middles of its arcs: an arc goes from the vertex
    before its middle to the vertex after it. A ring ends with its first point.

    Attributes:
        kind: (f,) `Kind` of each feature.
        xy: (n, 2) points as stored.
        z: (n,) as stored, NaN where there is none.
        is_mid: (n,) whether a point is the middle of an arc.
        start: (r + 1,) first point of each run, and n.
        feature: (r,) whose run it is, ascending.
        part: (r,) of which part of the feature, from 0.
        is_hole: (r,) whether the run is an inner ring.
    """

    kind: Ints
    xy: Floats
    z: Floats
    is_mid: Flags
    start: Ints
    feature: Ints
    part: Ints
    is_hole: Flags

    def __len__(self) -> int:
        return len(self.kind)

    @cached_property
    def sizes(self) -> Ints:
        """(r,) points in each run."""
        return np.diff(self.start)

    @cached_property
    def of_point(self) -> Ints:
        """(n,) the feature each point belongs to."""
        return np.repeat(self.feature, self.sizes)

    def runs_numbered(self, feature: int) -> Ints:
        """Numbers of the runs of a feature."""
        first, last = np.searchsorted(self.feature, [feature, feature + 1])
        return np.arange(first, last)

    def runs_of(self, which: Flags) -> Shapes:
        """Only the runs of the features told by (f,) flags; the features keep their numbers."""
        return self.only(which[self.feature])

    def only(self, keep: Flags) -> Shapes:
        """Only the runs told by (r,) flags."""
        if keep.all():
            return self
        points = np.repeat(keep, self.sizes)
        start = np.concatenate([[0], np.cumsum(self.sizes[keep])]).astype(np.int64)
        return Shapes(
            self.kind,
            self.xy[points],
            self.z[points],
            self.is_mid[points],
            start,
            self.feature[keep],
            self.part[keep],
            self.is_hole[keep],
        )

    def without_repeats(self) -> Shapes:
        """The same runs without points that repeat the point before; the middles of arcs and their neighbours
        stay."""
        same = np.zeros(len(self.xy), bool)
        same[1:] = same_places(self.xy[1:], self.xy[:-1]) & ~self.is_mid[1:] & ~self.is_mid[:-1]
        same[self.start[:-1]] = False
        if not same.any():
            return self
        keep = ~same
        start = np.concatenate([[0], np.cumsum(keep)])[self.start]
        return replace(self, xy=self.xy[keep], z=self.z[keep], is_mid=self.is_mid[keep], start=start)


def same_places(a: Floats, b: Floats) -> Flags:
    """(n,) whether places (n, 2) are equal to the bit; two columns compared are faster than rows reduced."""
    return np.asarray((a[:, 0] == b[:, 0]) & (a[:, 1] == b[:, 1]))


def sum_by(start: Ints, values: Floats) -> Floats:
    """Sums of values (n, ...) over runs that begin at start[:-1] and fill all n; an empty run gives 0."""
    filled = np.flatnonzero(np.diff(start))
    out = np.zeros((len(start) - 1, *values.shape[1:]))
    if len(filled):
        out[filled] = np.add.reduceat(values, start[filled], axis=0)
    return out
