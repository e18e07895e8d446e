# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines over one another become a net: a point wherever two of them meet, touch or run together.

Points within a tolerance are one. A line that passes a point within the tolerance goes through it. Lines that cross get a
point there. What has two heights at such a place, by more than they are worth, is told with place and difference.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..defaults import LEVELS_WITHIN
from ..errors import BadInput
from ..findings import Finding
from ..quantity import Floats, Ints
from ..shape.boxes import find_meeting_boxes
from .near import find_points_near
from .records import GroundLine, Levels, Net
from .signs import sides_of
from .surface import Flags
from .unlike import Heights, meet, one_place
from .weld import extent_of, number_places

LEAST_WITHIN = 1e-9
"""Of the site's reach: nearer points than this the library that triangulates takes for one."""
MOST_ROUNDS = 200
"""Rounds of splitting; nets of thousands of random lines settle in under ten."""


def node_lines(
    levels: Levels, lines: Sequence[GroundLine], within: float = LEVELS_WITHIN
) -> tuple[Net, tuple[Finding, ...]]:
    """Levels and lines as a net.

    Args:
        levels: single points.
        lines: each of one point or more; one of a single point is a level.
        within: metres in plan.
    Returns:
        The net, and what has two heights at one place: GR-02 (a stop) where two lines do, GR-03 (a note) where a level
        is off another or off a line. The net has their weighted mean there.
    Raises:
        BadInput: a point without place or height, or lines that cannot be told apart.
    """
    everything = Levels.joined([levels, *(Levels(line.points, line.sigma, line.shared) for line in lines)])
    _refuse_unknown(everything, lines)
    starts = len(levels.points) + np.cumsum([0, *(len(line.points) for line in lines)])
    segments = [
        np.column_stack([np.arange(a, b - 1), np.arange(a + 1, b)]) for a, b in zip(starts, starts[1:])
    ]
    owner = np.repeat(np.arange(len(lines)), [len(some) for some in segments])
    of_line = np.full(len(everything.points), -1)
    for k, (a, b) in enumerate(zip(starts, starts[1:])):
        of_line[a:b] = k
    flat = np.vstack([np.empty((0, 2), np.int64), *segments]).astype(np.int64)
    names = tuple(line.name for line in lines)
    return node_segments(everything, of_line, flat, owner, (names, within))


def node_segments(
    levels: Levels, of_line: Ints, segments: Ints, owner: Ints, how: tuple[Sequence[str], float]
) -> tuple[Net, tuple[Finding, ...]]:
    """As `node_lines`, for segments (s, 2) between rows of the levels: `of_line` (n,) is the line a point belongs to,
    -1 for none, `owner` (s,) that of each segment; `how` holds the lines' names and the tolerance in metres."""
    names, within = how
    low, high = extent_of(levels.points) if len(levels.points) else (np.zeros(2), np.zeros(2))
    reach = float((high - low).max())
    noding = _Noding(names, max(within, LEAST_WITHIN * reach))
    first = noding.merge(levels, of_line)
    noding.add(first[segments], owner)
    noding.settle()
    heights = noding.heights
    net = Net(heights.points(), np.sqrt(heights.own), noding.segments, noding.owner, first, heights.shared)
    return net, tuple(noding.findings)


def _refuse_unknown(levels: Levels, lines: Sequence[GroundLine]) -> None:
    bad = ~np.isfinite(levels.points).all(axis=1)
    worth = ~(np.isfinite(levels.sigma) & (levels.sigma >= 0.0) & np.isfinite(levels.shared).all(axis=1))
    if bad.any():
        raise BadInput(
            "{count} of the points given have no place or no height. Give all three coordinates, or leave them out.",
            count=int(bad.sum()),
        )
    if worth.any():
        raise BadInput(
            "The one-sigma of {count} heights is no number that is 0 or more. Give one for each point.",
            count=int(worth.sum()),
        )


class _Noding:
    """The net while it grows."""

    def __init__(self, names: Sequence[str], within: float) -> None:
        self.names, self.within = names, within
        self.findings: list[Finding] = []
        self.heights = Heights(
            np.empty((0, 2)), np.empty(0), np.empty(0), np.empty(0, np.int64), np.empty((0, 0))
        )
        self.segments = np.empty((0, 2), np.int64)
        self.owner = np.empty(0, np.int64)
        self.is_new = np.empty((0, 2), bool)
        """(s, 2) whether a segment is still to be held against the points, and against the segments."""

    def merge(self, levels: Levels, of_line: Ints) -> Ints:
        """Points within the tolerance as one; returns the row each became."""
        number, first = number_places(levels.points[:, :2], self.within)
        heights, told = one_place(levels, of_line, number, first, self.names)
        self.heights = heights
        self.findings += told
        return number

    def add(self, segments: Ints, owner: Ints) -> None:
        """More segments; one that is there already, or has no length, is left out."""
        both = np.vstack([self.segments, np.sort(segments, axis=1)])
        owners = np.concatenate([self.owner, owner])
        key = both[:, 0] * max(len(self.heights.z), 1) + both[:, 1]
        _, at = np.unique(key, return_index=True)
        at = np.sort(at)
        keep = at[both[at, 0] != both[at, 1]]
        is_new = np.vstack([self.is_new, np.ones((len(segments), 2), bool)])
        self.segments, self.owner, self.is_new = both[keep], owners[keep], is_new[keep]

    def settle(self) -> None:
        """Split until nothing meets but at ends.

        Raises:
            BadInput: it does not come to an end.
        """
        old_points = 0
        for _ in range(MOST_ROUNDS):
            on = self._points_on(self.is_new[:, 0], old_points)
            self.is_new[:, 0] = False
            old_points = len(self.heights.z)
            if not len(on[0]):
                on = self._crossings(self.is_new[:, 1])
                self.is_new[:, 1] = False
                if not len(on[0]):
                    return
            self._split(*on)
        raise BadInput(
            "The breaklines run so close to each other that their crossings do not come to an end. Merge points within a "
            "smaller distance than {within:g} m, or thin them out.",
            within=self.within,
        )

    def _points_on(self, is_new: Flags, old: int) -> tuple[Ints, Ints, Floats]:
        """Segments and the points that they pass within the tolerance: new segments and all points, then old segments and
        the points from row `old` on. Returns segment, point and part of the way."""
        xy = self.heights.xy
        found = []
        for which, first in ((np.flatnonzero(is_new), 0), (np.flatnonzero(~is_new), old)):
            a, b = xy[self.segments[which, 0]], xy[self.segments[which, 1]]
            for i, k in find_points_near(a, b, xy[first:], self.within):
                segment, point = which[i], k + first
                ends = self.segments[segment]
                other = (point != ends[:, 0]) & (point != ends[:, 1])
                segment, point = segment[other], point[other]
                part, near = self._along(segment, point)
                found.append((segment[near], point[near], part[near]))
        segment, point, part = (np.concatenate(some) for some in zip(*found)) if found else _NOTHING
        told = meet(self.heights, self.segments[segment], self.owner[segment], point, part, self.names)
        self.findings += told
        return segment, point, part

    def _along(self, segment: Ints, point: Ints) -> tuple[Floats, Flags]:
        """Part of the way (k,) at which each segment passes a point, and whether it is to go through it.

        Both pieces must be shorter than the whole, else two short segments could send each other round for ever.
        """
        xy = self.heights.xy
        a = xy[self.segments[segment, 0]]
        way, to = xy[self.segments[segment, 1]] - a, xy[point] - a
        square = (way**2).sum(axis=1)
        part = (way * to).sum(axis=1) / square
        off = np.abs(way[:, 0] * to[:, 1] - way[:, 1] * to[:, 0]) / np.sqrt(square)
        longest = np.maximum((to**2).sum(axis=1), ((way - to) ** 2).sum(axis=1))
        return part, (off <= self.within) & (part > 0.0) & (part < 1.0) & (longest < square)

    def _crossings(self, is_new: Flags) -> tuple[Ints, Ints, Floats]:
        """Pairs of segments that cross between their ends, each given a point there."""
        first, second = self._crossing_pairs(is_new)
        if not len(first):
            return _NOTHING
        xy, ends = self.heights.xy, self.segments
        a, c = xy[ends[first, 0]], xy[ends[second, 0]]
        u, v = xy[ends[first, 1]] - a, xy[ends[second, 1]] - c
        det = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        with np.errstate(divide="ignore", invalid="ignore"):
            s = ((c - a)[:, 0] * v[:, 1] - (c - a)[:, 1] * v[:, 0]) / det
            t = ((c - a)[:, 0] * u[:, 1] - (c - a)[:, 1] * u[:, 0]) / det
        s, t = (np.clip(np.nan_to_num(part, nan=0.5), 0.0, 1.0) for part in (s, t))
        number, told = self.heights.cross(
            (ends[first], self.owner[first], s),
            (ends[second], self.owner[second], t),
            self.names,
            self.within,
        )
        self.heights = number.heights
        self.findings += told
        segment = np.concatenate([first, second])
        return segment, np.concatenate([number.rows, number.rows]), np.concatenate([s, t])

    def _crossing_pairs(self, is_new: Flags) -> tuple[Ints, Ints]:
        xy = self.heights.xy
        a, b = xy[self.segments[:, 0]], xy[self.segments[:, 1]]
        low, high = np.minimum(a, b), np.maximum(a, b)
        which = np.flatnonzero(is_new)
        pairs = [_NOTHING[:2]]
        for i, other in find_meeting_boxes(low[which], high[which], low, high):
            j, k = which[i], other
            once = (j < k) | ~is_new[k]
            j, k = j[once], k[once]
            ends, others = self.segments[j], self.segments[k]
            apart = (ends[:, :, None] != others[:, None, :]).all(axis=(1, 2))
            j, k = j[apart], k[apart]
            through = sides_of(a[j], b[j], a[k]) * sides_of(a[j], b[j], b[k]) < 0
            j, k = j[through], k[through]
            through = sides_of(a[k], b[k], a[j]) * sides_of(a[k], b[k], b[j]) < 0
            pairs.append((j[through], k[through]))
        first, second = (np.concatenate(some) for some in zip(*pairs))
        return first, second

    def _split(self, segment: Ints, point: Ints, part: Floats) -> None:
        """Let segments go through points at parts of their way."""
        order = np.lexsort((part, segment))
        segment, point = segment[order], point[order]
        split = np.unique(segment)
        count = np.bincount(segment, minlength=len(self.segments))[split]
        # A chain for each: its first end, the points in order, its other end.
        at = np.cumsum(count + 2) - 2 - count
        chain = np.empty(int((count + 2).sum()), np.int64)
        is_end = np.zeros(len(chain), bool)
        is_end[at], is_end[at + count + 1] = True, True
        chain[at], chain[at + count + 1] = self.segments[split, 0], self.segments[split, 1]
        chain[~is_end] = point
        last = np.zeros(len(chain), bool)
        last[at + count + 1] = True
        starts = np.flatnonzero(~last)
        pieces = np.column_stack([chain[starts], chain[starts + 1]])
        owner = np.repeat(self.owner[split], count + 1)
        keep = np.ones(len(self.segments), bool)
        keep[split] = False
        self.segments, self.owner, self.is_new = self.segments[keep], self.owner[keep], self.is_new[keep]
        self.add(pieces, owner)


_NOTHING = (np.empty(0, np.int64), np.empty(0, np.int64), np.empty(0))
