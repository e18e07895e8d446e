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
    """A run, by number, and how it lies: outside, over, covers, nested, shared, twice, overlaps."""

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
    rings = _Rings(shapes, local, runs)
    part, hole = shapes.part[runs], shapes.is_hole[runs]
    for k in np.flatnonzero(hole):
        shell = int(np.flatnonzero((part == part[k]) & ~hole)[0])
        lies = rings.lies(int(k), shell)
        if lies.is_within:
            continue
        covers = lies.is_on or (lies.is_apart and rings.lies(shell, int(k)).is_within)
        how = "covers" if covers else "outside" if lies.is_apart else "over"
        return Misplaced(int(runs[k]), how)
    for a, b in rings.meeting:
        how = ""
        if hole[a] and hole[b] and part[a] == part[b]:
            how = rings.overlap(a, b, "nested", "shared")
        elif not hole[a] and not hole[b]:
            how = rings.overlap(a, b, "twice", "overlaps")
            holes = np.flatnonzero(hole & (part == part[b])) if how else runs[:0]
            how = "" if any(rings.lies(a, h).is_filling for h in rings.near(a, holes)) else how
        if how:
            return Misplaced(int(runs[a]), how)
    return None


@dataclass(frozen=True)
class _Lies:
    """Where the stretches of a ring lie that do not run along another one."""

    inside: bool
    outside: bool

    @property
    def is_on(self) -> bool:
        """All of it runs along the other."""
        return not self.inside and not self.outside

    @property
    def is_within(self) -> bool:
        """It lies inside, at most touching from there."""
        return self.inside and not self.outside

    @property
    def is_filling(self) -> bool:
        """It lies inside, or is the other."""
        return not self.outside

    @property
    def is_apart(self) -> bool:
        """It lies outside, at most touching from there."""
        return self.outside and not self.inside


class _Rings:
    """The rings of one feature as chords, and how they lie to each other."""

    def __init__(self, shapes: Shapes, local: Floats, runs: Ints) -> None:
        rings = [chords_of(curve_of(shapes, local, int(run))) for run in runs]
        self._xy = [ring.xy + ring.origin for ring in rings]
        self._low = np.array([xy.min(axis=0) for xy in self._xy])
        self._high = np.array([xy.max(axis=0) for xy in self._xy])
        self._size = (self._high - self._low).max(axis=1)

    @property
    def meeting(self) -> Iterator[tuple[int, int]]:
        """Pairs of rings whose boxes meet, either way round."""
        for i, j in find_meeting_boxes(self._low, self._high, self._low, self._high):
            yield from zip(i[i != j].tolist(), j[i != j].tolist())

    def near(self, ring: int, others: Ints) -> list[int]:
        """Those of other rings whose boxes meet a ring's."""
        meets = (self._low[others] <= self._high[ring]) & (self._low[ring] <= self._high[others])
        return [int(k) for k in others[meets.all(axis=1)]]

    def overlap(self, one: int, other: int, inside: str, over: str) -> str:
        """One word where a ring lies inside another, one where it reaches over its edge, none where they lie apart."""
        lies = self.lies(one, other)
        return "" if lies.is_apart else inside if lies.is_filling else over

    def lies(self, one: int, other: int) -> _Lies:
        """How a ring lies to another that it does not cross: between places where it touches the other it stays on one
        side of it, so that a point or two of each stretch tell all."""
        within = NEAR * float(self._size[other])
        low, high = self._low[other] - within, self._high[other] + within
        if (self._low[one] > high).any() or (self._high[one] < low).any():
            return _Lies(inside=False, outside=True)
        ring, there = self._xy[one], self._xy[other]
        touches = _touches_along(ring, there, within)
        if len(touches):
            asked = _places(ring, _between(touches, len(ring) - 1))
            on, _, _ = _touches(asked, there, within)
            asked = np.delete(asked, np.unique(on), axis=0)
        else:
            asked = ring[:1]
        is_in = part_of_ring(there, asked)
        return _Lies(inside=bool(is_in.any()), outside=not is_in.all())


def _touches_along(ring: Floats, other: Floats, within: float) -> Floats:
    """Places along a ring (number of a side and the part of it gone) where a corner of one ring lies on the other."""
    own, _, _ = _touches(ring[:-1], other, within)
    _, side, part = _touches(other[:-1], ring, within)
    return np.asarray(np.unique(np.concatenate([own.astype(float), side + part]) % (len(ring) - 1)))


def _between(touches: Floats, sides: int) -> Floats:
    """Places along a ring of so many sides: in each stretch between two touches, one just behind the first of them and
    one halfway, on a corner or in the middle of a side."""
    ends = np.append(touches[1:], touches[0] + sides)
    first = 0.5 * (touches + np.minimum(np.floor(touches) + 1.0, ends))
    return np.asarray(np.concatenate([first, 0.5 * (touches + ends)]) % sides)


def _places(ring: Floats, along: Floats) -> Floats:
    """(k, 2) places along a ring."""
    side = np.minimum(along.astype(np.int64), len(ring) - 2)
    part = (along - side)[:, None]
    return np.asarray((1.0 - part) * ring[side] + part * ring[side + 1])


def _touches(points: Floats, ring: Floats, within: float) -> tuple[Ints, Ints, Floats]:
    """Which points lie on which sides of a ring of straights: their numbers, the sides', and the parts of the sides gone
    there."""
    a, b = ring[:-1], ring[1:]
    low, high = np.minimum(a, b) - within, np.maximum(a, b) + within
    sides = np.flatnonzero(((low <= points.max(axis=0)) & (high >= points.min(axis=0))).all(axis=1))
    numbers = np.flatnonzero(((points <= high.max(axis=0)) & (points >= low.min(axis=0))).all(axis=1))
    found = [(np.zeros(0, np.int64), np.zeros(0, np.int64), np.zeros(0))]
    its = points[numbers]
    for i, j in find_meeting_boxes(its, its, low[sides], high[sides]):
        point, side = numbers[i], sides[j]
        step, way = b[side] - a[side], points[point] - a[side]
        square = np.maximum((step**2).sum(axis=1), np.finfo(float).tiny)
        part = np.clip((way * step).sum(axis=1) / square, 0.0, 1.0)
        on = ((part[:, None] * step - way) ** 2).sum(axis=1) <= within**2
        found.append((point[on], side[on], part[on]))
    point, side, part = (np.concatenate(values) for values in zip(*found))
    return point, side, part
