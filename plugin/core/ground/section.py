# SPDX-License-Identifier: GPL-2.0-or-later
"""The section of a surface along a line: exact, with a break at every edge of a triangle that the line crosses."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput, TooFewPoints
from ..quantity import Floats, Ints
from .box_grid import BoxGrid
from .cuts import ON_LINE, Cuts, clipped, directed, in_order, joined, refuse_laps, stacked, with_rims
from .levels import Levels
from .surface import Flags, Surface

SHORTEST = 1e-6
"""Metres: a line that is no longer has no direction."""
AT_ONCE = 64
"""Straights cut at once: enough for arrays to pay, few enough for a surface of millions of triangles."""


@dataclass(frozen=True, eq=False)
class Section:
    """A surface along a line; (k,) rows by chainage: the ends of the line, its bends, and every break.

    Attributes:
        line: (v, 2) as cut, metres in the survey plane. length: of it, metres.
        chainage: (k,) metres along it; a place stands twice where the surface has an upright step.
        level: (k,) metres; NaN at an end of the line where there is no surface.
        place: (k, 2) metres in the survey plane.
        is_ground: (k-1,) whether the surface goes on from a row to the next; not in voids and outside.
        is_weak: (k-1,) whether it does so in a triangle that no one should lean on.
        corner: (k, 3) the points of the surface that tell each level, and weight: (k, 3) how far each does; 0 where
            there is no level.
        surface: that was cut.
    """

    line: Floats
    length: float
    chainage: Floats
    level: Floats
    place: Floats
    is_ground: Flags
    is_weak: Flags
    corner: Ints
    weight: Floats
    surface: Surface

    def __len__(self) -> int:
        return len(self.chainage)

    @property
    def told(self) -> Levels:
        """What tells each row's level."""
        return Levels(self.surface, self.place, self.corner, self.weight)

    def told_between(self, row: Ints, part: Floats) -> Levels:
        """What tells the levels at parts (r,) of the ways from rows (r,) to the next."""
        p = part[:, None]
        return Levels(
            self.surface,
            (1.0 - p) * self.place[row] + p * self.place[row + 1],
            np.hstack([self.corner[row], self.corner[row + 1]]),
            np.hstack([(1.0 - p) * self.weight[row], p * self.weight[row + 1]]),
        )

    @property
    def is_empty(self) -> bool:
        """Whether the line meets no part of the surface."""
        return not self.is_ground.any()

    @property
    def broken(self) -> tuple[Floats, Floats]:
        """Chainage and level to draw, metres, with NaN wherever the ground breaks off."""
        after = np.flatnonzero(~self.is_ground) + 1
        return np.insert(self.chainage, after, np.nan), np.insert(self.level, after, np.nan)


class SectionCutter:
    """A surface made ready to be cut by many lines.

    A triangle is crossed where it has corners on both sides of the straight; a corner within ON_LINE of it counts as on
    its left, for all triangles alike, so that a line through a corner or along an edge meets each triangle once and
    leaves no gap. An edge's crossing is reckoned from its lower-numbered point on, to the same bits for both triangles.
    Where a line runs along the surface's own rim with the ground to its left, the rim's edges are the section.

    Raises:
        BadInput: a point of a triangle has no place or no height.
    """

    def __init__(self, surface: Surface) -> None:
        """Sort the triangles by their place."""
        self.surface = surface
        used = surface.points[surface.triangles].reshape(-1, 3)
        if not np.isfinite(used).all():
            raise BadInput(
                "A point of the surface has no place or no height. Build the surface again without it."
            )
        self._origin = 0.5 * (used[:, :2].min(axis=0) + used[:, :2].max(axis=0)) if len(used) else np.zeros(2)
        corners = surface.points[surface.triangles]
        flat = corners[:, :, :2] - self._origin
        self._grid = BoxGrid(flat.min(axis=1), flat.max(axis=1), ON_LINE)
        order = self._grid.order
        # In the grid's order, so that what lies together is read together.
        self._corner = surface.triangles[order]
        self._x, self._y, self._z = (
            tuple(np.ascontiguousarray(v[order, k]) for k in range(3))
            for v in (flat[:, :, 0], flat[:, :, 1], corners[:, :, 2])
        )

    def cut(self, line: Floats) -> Section:
        """The surface along a line.

        Args:
            line: (v, 2) metres in the survey plane; points that repeat the one before are passed over.
        Returns:
            Rows by chainage. A triangle that the line only touches gives nothing.
        Raises:
            TooFewPoints: fewer than two different points.
            BadInput: a point of the line has no place, or the surface lies over itself there.
        """
        xy = bent_line(line)
        start, end = xy[:-1] - self._origin, xy[1:] - self._origin
        size = np.hypot(*np.diff(xy, axis=0).T)  # the line's own, so that all surfaces tell its bends alike
        cuts = [
            self._cut(start[k : k + AT_ONCE], end[k : k + AT_ONCE], size[k : k + AT_ONCE], k)
            for k in range(0, len(size), AT_ONCE)
        ]
        cut = stacked(cuts) if len(cuts) > 1 else cuts[0]
        rows = joined(cut, xy, size, self.surface.is_weak[cut.triangle])
        return Section(
            xy,
            float(size.sum()) if len(size) == 1 else float(np.cumsum(size)[-1]),
            rows.chainage,
            rows.level,
            rows.place,
            rows.is_ground,
            rows.is_weak,
            rows.corner,
            rows.weight,
            self.surface,
        )

    def _cut(self, start: Floats, end: Floats, size: Floats, first: int) -> Cuts:
        """Cuts of some straights, of which the first has the number `first`."""
        unit = (end - start) / size[:, None]
        straight, at = self._grid.near(start, end)
        aside = self._asides(straight, at, start, unit)
        crossed, rim = _told_apart(aside)
        cuts = clipped(_through(self._seen(straight, at, start, unit, aside, crossed)), size)
        if len(rim):
            rims = _beside(self._seen(straight, at, start, unit, aside, rim))
            cuts = with_rims(cuts, clipped(rims, size))
        cuts = in_order(cuts)
        refuse_laps(cuts, start + self._origin, unit)
        return replace(cuts, straight=cuts.straight + first) if first else cuts

    def _asides(self, straight: Ints, at: Ints, start: Floats, unit: Floats) -> list[Floats]:
        """How far to the left of its straight each pair's three corners lie, metres."""
        off = unit[:, 0] * start[:, 1] - unit[:, 1] * start[:, 0]
        ux, uy, off = (v[0] if len(start) == 1 else v[straight] for v in (*unit.T, off))
        return [ux * y.take(at) - uy * x.take(at) - off for x, y in zip(self._x, self._y)]

    def _seen(
        self, straight: Ints, at: Ints, start: Floats, unit: Floats, asides: list[Floats], rows: Ints
    ) -> _Seen:
        """Some of the pairs with all that their cuts need."""
        straight, at = straight[rows], at[rows]
        aside = np.stack([side.take(rows) for side in asides], axis=1)
        aside[np.abs(aside) <= ON_LINE] = 0.0
        x, y, z = (np.stack([v.take(at) for v in each], axis=1) for each in (self._x, self._y, self._z))
        (ux, uy), (x0, y0) = unit[straight].T[:, :, None], start[straight].T[:, :, None]
        along = (x - x0) * ux + (y - y0) * uy
        return _Seen(straight, self._grid.order[at], self._corner[at], along, aside, z)


@dataclass(frozen=True, eq=False)
class _Seen:
    """Pairs of a straight and a triangle: their numbers (c,), the corners (c, 3), and of each how far along the straight
    it lies, how far to its left (0: on it), and its height, metres."""

    straight: Ints
    triangle: Ints
    corner: Ints
    along: Floats
    aside: Floats
    z: Floats


def bent_line(line: Floats) -> Floats:
    """(v, 2) a line's points without those that repeat the one before.

    Raises:
        TooFewPoints: fewer than two different points, or no more than 1e-6 m between them.
        BadInput: one has no place.
    """
    xy = np.asarray(line, float)
    xy = xy.reshape(-1, xy.shape[-1] if xy.ndim > 1 else 2)[:, :2]
    if not np.isfinite(xy).all():
        raise BadInput("A point of the section's line has no place. Draw the line again.")
    kept = [0] if len(xy) else []
    steps = np.hypot(*np.diff(xy, axis=0).T) if len(xy) > 1 else np.zeros(0)
    if (steps > SHORTEST).all():
        kept = list(range(len(xy)))
    else:
        for k in range(1, len(xy)):
            if math.dist(xy[k], xy[kept[-1]]) > SHORTEST:
                kept.append(k)
    if len(kept) < 2:
        raise TooFewPoints(
            "A section needs a line of two different points. Draw it from one place to another."
        )
    return np.asarray(xy[kept])


def _told_apart(asides: list[Floats]) -> tuple[Ints, Ints]:
    """Rows of the pairs of which the triangle has corners on both sides of the endless straight, and of those that lie to
    its left with two corners or more on it."""
    a, b, c = asides
    least, most = np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)
    is_right = least < -ON_LINE
    touching = np.flatnonzero(~is_right & (least <= ON_LINE))
    p, q, r = (side.take(touching) <= ON_LINE for side in asides)
    return np.flatnonzero(is_right & (most >= -ON_LINE)), touching[(p & q) | (q & r) | (p & r)]


def _through(seen: _Seen) -> Cuts:
    """Triangles with corners on both sides: from the corner that is alone on its side go the two crossed edges."""
    left = seen.aside >= 0.0
    lone = np.argmax(left == (left.sum(axis=1) == 1)[:, None], axis=1)
    turned = (lone[:, None] + np.arange(3)) % 3 + 3 * np.arange(len(lone))[:, None]
    corner, along, aside, z = (v.take(turned) for v in (seen.corner, seen.along, seen.aside, seen.z))
    up = corner[:, :1] < corner[:, 1:]
    low, high = np.where(up, aside[:, :1], aside[:, 1:]), np.where(up, aside[:, 1:], aside[:, :1])
    part = low / (low - high)
    rest = 1.0 - part
    ends = [
        rest * np.where(up, v[:, :1], v[:, 1:]) + part * np.where(up, v[:, 1:], v[:, :1]) for v in (along, z)
    ]
    weight = np.zeros((len(lone), 2, 3))
    weight[:, :, 0] = np.where(up, rest, part)
    other = np.where(up, part, rest)
    weight[:, 0, 1], weight[:, 1, 2] = other[:, 0], other[:, 1]
    return directed(seen.straight, seen.triangle, corner, (ends[0], ends[1], weight))


def _beside(seen: _Seen) -> Cuts:
    """Triangles to the left of which an edge lies on the straight: that edge (of needles, the longest)."""
    on, rows = seen.aside == 0.0, np.arange(len(seen.corner))[:, None]
    first = np.argmin(np.where(on, seen.along, np.inf), axis=1)
    last = np.argmax(np.where(on, seen.along, -np.inf), axis=1)
    which = np.column_stack([first, last])
    weight = (which[:, :, None] == np.arange(3)).astype(float)
    ends = seen.along[rows, which], seen.z[rows, which], weight
    return directed(seen.straight, seen.triangle, seen.corner, ends)
