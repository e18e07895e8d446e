# SPDX-License-Identifier: GPL-2.0-or-later
"""The section of a drawn line, as far as walked edges can tell: where the line crosses them or passes a station that has
a height, and the level there. Between the edges no height is known, and none is made up.

A level runs evenly along an edge in plan, from station to station, on a straight as on an arc (formats.md). Its sigma is
that of the two stations by the same parts, as if they erred together: what is told of each alone allows no less. Rises
take the two levels as erring apart: where both hang on the same datum, that is too much rather than too little.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..quantity import COVER_95, Floats, Ints
from ..segments import STRAIGHT, half_sweeps

SAME_PLACE = 0.01
"""Metres along the line, and in level, within which crossings are told as one: the corner where two edges meet."""
PASS_WITHIN = 0.05
"""Metres from the line within which it passes a station: a click on a screen is no sharper."""
ALONG = 1e-6
"""Metres that both ends of a straight edge may lie off the line for it to run along it: a rounding, no more."""
EDGE_PART = 1e-9
"""Of an edge's or the line's length: a crossing this far beyond an end is at the end."""
LEAST_RUN = 1e-9
"""Metres of run below which a rise has no gradient: the face is upright."""


@dataclass(frozen=True, eq=False)
class WalkedEdges:
    """Edges with heights, one row each, in the survey plane (metres).

    Attributes:
        start, end: (e, 3) x, y, z of the ends. bulge: (e,) tan of a quarter of the sweep, positive to the left.
        sigma: (e, 2) one-sigma of the two heights, NaN where it is not known.
        name: (e,) number of the name that each belongs to.
    """

    start: Floats
    end: Floats
    bulge: Floats
    sigma: Floats
    name: Ints

    def __len__(self) -> int:
        return len(self.bulge)


@dataclass(frozen=True, eq=False)
class HeightPoints:
    """Stations and spots with heights: (p, 3) places in the survey plane, (p,) one-sigma, (p,) number of the name."""

    point: Floats
    sigma: Floats
    name: Ints


@dataclass(frozen=True)
class Crossing:
    """A level on the line: metres along it, the place in plan, the height with its one-sigma (NaN where not known), the
    number of the name it is from, and whether that is a point (else an edge)."""

    chainage: float
    x: float
    y: float
    z: float
    sigma: float
    name: int
    is_point: bool = False

    @property
    def half_width_95(self) -> float:
        """Half the 95 % interval of the level, metres."""
        return COVER_95 * self.sigma


@dataclass(frozen=True)
class Way:
    """From one crossing to the next, metres: run in plan along the line, rise (positive up along it), the rise's sigma."""

    run: float
    rise: float
    rise_sigma: float

    @property
    def gradient(self) -> float | None:
        """Rise by run; None on an upright face."""
        return self.rise / self.run if self.run > LEAST_RUN else None

    @property
    def gradient_sigma(self) -> float | None:
        """Of the gradient, from the rise's alone: the run is read off the drawn line."""
        return self.rise_sigma / self.run if self.run > LEAST_RUN else None


@dataclass(frozen=True)
class SectionLine:
    """The crossings in the order of the line, the ways between them, and the line's length in metres."""

    crossings: tuple[Crossing, ...]
    ways: tuple[Way, ...]
    length: float


def cut_section_line(line: Floats, edges: WalkedEdges, points: HeightPoints | None = None) -> SectionLine:
    """Levels along a drawn line.

    Args:
        line: (v, 2) x and y in the survey plane, metres, as drawn; points that repeat the one before are passed over.
        edges: what it may cross.
        points: what it may pass.
    Returns:
        Crossings by chainage; fewer than two different points make no line, and an empty section.
    Example (a line across a kerb that climbs from 1 to 3 m):
        >>> kerb = WalkedEdges(
        ...     np.array([[0.0, 0.0, 1.0]]), np.array([[4.0, 0.0, 3.0]]), np.zeros(1), np.full((1, 2), 0.01), np.zeros(1, int)
        ... )
        >>> [(c.chainage, c.z) for c in cut_section_line(np.array([[1.0, -2.0], [1.0, 2.0]]), kerb).crossings]
        [(2.0, 1.5)]
    """
    found: list[Crossing] = []
    begin = 0.0
    for start, end in _stretches(line):
        way = end - start
        length = float(np.hypot(*way))
        frame = _Stretch(start, way / length, length, begin)
        found += _cross(frame, edges)
        if points is not None:
            found += _pass(frame, points)
        begin += length
    crossings = _told_once(found)
    return SectionLine(crossings, ways_between(crossings), begin)


def ways_between(crossings: Sequence[Crossing]) -> tuple[Way, ...]:
    """Run, rise and its sigma from each crossing to the next."""
    return tuple(
        Way(b.chainage - a.chainage, b.z - a.z, math.hypot(a.sigma, b.sigma))
        for a, b in zip(crossings, crossings[1:])
    )


@dataclass(frozen=True, eq=False)
class _Stretch:
    """One straight of the drawn line: its start, unit direction, length, and the chainage at its start."""

    start: Floats
    unit: Floats
    length: float
    begin: float

    def beside(self, xy: Floats) -> tuple[Floats, Floats]:
        """(n,) metres along the stretch and to its left of (n, 2) places; its start is taken off before products."""
        way = xy - self.start
        along = way @ self.unit
        return along, self.unit[0] * way[:, 1] - self.unit[1] * way[:, 0]


def _stretches(line: Floats) -> list[tuple[Floats, Floats]]:
    xy = np.asarray(line, dtype=float).reshape(-1, 2)
    return [(a, b) for a, b in zip(xy, xy[1:]) if np.hypot(*(b - a)) > 0.0 and np.isfinite([a, b]).all()]


def _cross(stretch: _Stretch, edges: WalkedEdges) -> list[Crossing]:
    """Crossings with edges, in any order."""
    if not len(edges):
        return []
    half = half_sweeps(edges.bulge)
    usable = np.isfinite(edges.start).all(axis=1) & np.isfinite(edges.end).all(axis=1)
    usable &= np.isfinite(edges.bulge)
    is_arc = np.abs(half) >= STRAIGHT
    straight, arc = np.flatnonzero(usable & ~is_arc), np.flatnonzero(usable & is_arc)
    which, along, part = (
        np.concatenate(both)
        for both in zip(_on_straights(stretch, edges, straight), _on_arcs(stretch, edges, arc, half))
    )
    inside = (along >= -EDGE_PART * stretch.length) & (along <= (1.0 + EDGE_PART) * stretch.length)
    which, along, part = which[inside], np.clip(along[inside], 0.0, stretch.length), part[inside]
    place = stretch.start + along[:, None] * stretch.unit
    z = (1.0 - part) * edges.start[which, 2] + part * edges.end[which, 2]
    sigma = (1.0 - part) * edges.sigma[which, 0] + part * edges.sigma[which, 1]
    return [
        Crossing(stretch.begin + a, x, y, h, s, n)
        for a, (x, y), h, s, n in zip(
            along.tolist(), place.tolist(), z.tolist(), sigma.tolist(), edges.name[which].tolist()
        )
    ]


def _on_straights(stretch: _Stretch, edges: WalkedEdges, at: Ints) -> tuple[Ints, Floats, Floats]:
    """Numbers of straight edges crossed, metres along the stretch, parts of the edges. An edge that runs along the
    stretch is met at either end of what they share."""
    a0, s0 = stretch.beside(edges.start[at, :2])
    a1, s1 = stretch.beside(edges.end[at, :2])
    runs_along = (np.abs(s0) <= ALONG) & (np.abs(s1) <= ALONG)
    with np.errstate(divide="ignore", invalid="ignore"):
        part = s0 / (s0 - s1)
    crosses = ~runs_along & (part >= -EDGE_PART) & (part <= 1.0 + EDGE_PART)
    k = np.flatnonzero(crosses)
    f = np.clip(part[k], 0.0, 1.0)
    which, along, parts = [at[k]], [a0[k] + f * (a1[k] - a0[k])], [f]
    k = np.flatnonzero(runs_along & (a0 != a1))
    for end in (0.0, stretch.length):  # the stretch's own ends, then the edge's
        within = (end - a0[k]) / (a1[k] - a0[k])
        good = (within >= 0.0) & (within <= 1.0)
        which, along, parts = (
            [*which, at[k[good]]],
            [*along, np.full(good.sum(), end)],
            [*parts, within[good]],
        )
    for one_end, a in ((0.0, a0), (1.0, a1)):
        which, along, parts = [*which, at[k]], [*along, a[k]], [*parts, np.full(len(k), one_end)]
    return np.concatenate(which), np.concatenate(along), np.concatenate(parts)


def _on_arcs(stretch: _Stretch, edges: WalkedEdges, at: Ints, half: Floats) -> tuple[Ints, Floats, Floats]:
    """The same of arcs: where the stretch meets the circle, on the arc's side of the chord.

    In the frame of the chord (start at 0, end at (L, 0)) the circle of half sweep a is
    sin a (x^2 + y^2 - L x) - L cos a y = 0, which needs no centre, so flat arcs lose nothing; the part f of the arc lies
    at the angle -f a seen from its end and -(1 - f) a seen from its start (the inscribed angle).
    """
    start, chord = edges.start[at, :2], edges.end[at, :2] - edges.start[at, :2]
    size = np.hypot(chord[:, 0], chord[:, 1])
    keep = size > 0.0
    at, start, chord, size, a = at[keep], start[keep], chord[keep], size[keep], half[at[keep]]
    ux, uy = chord[:, 0] / size, chord[:, 1] / size
    px, py = _turned(stretch.start - start, ux, uy)
    dx, dy = _turned(np.broadcast_to(stretch.unit, start.shape), ux, uy)
    sin, cos = np.sin(a), np.cos(a)
    # From the foot of the chord's middle on the line: with its own start far off, the squares would drown the circle.
    foot = (0.5 * size - px) * dx - py * dy
    px, py = px + foot * dx, py + foot * dy
    roots = _roots(
        sin, sin * (2.0 * (px * dx + py * dy) - size * dx) - size * cos * dy,
        sin * (px * px + py * py - size * px) - size * cos * py,
        TOUCH * size * size,
    )  # fmt: skip
    which: list[Ints] = []
    along: list[Floats] = []
    parts: list[Floats] = []
    for t in roots:
        x, y = px + t * dx, py + t * dy
        from_end, from_start = np.arctan2(y, size - x), np.arctan2(y, x)
        f = np.where(x <= 0.5 * size, -from_end / a, 1.0 + from_start / a)
        good = np.isfinite(t) & (f >= -EDGE_PART) & (f <= 1.0 + EDGE_PART)
        which, along, parts = (
            [*which, at[good]],
            [*along, (foot + t)[good]],
            [*parts, np.clip(f[good], 0.0, 1.0)],
        )
    return np.concatenate(which), np.concatenate(along), np.concatenate(parts)


def _turned(way: Floats, ux: Floats, uy: Floats) -> tuple[Floats, Floats]:
    x, y = way[:, 0], way[:, 1]
    return np.asarray(ux * x + uy * y), np.asarray(ux * y - uy * x)


TOUCH = 1e-12
"""Of the chord squared: a discriminant below this is a line that lies off the tangent by 5e-13 radii at the most, and
touches the circle, once."""


def _roots(a: Floats, b: Floats, c: Floats, least: Floats) -> tuple[Floats, Floats]:
    """Both roots of a t^2 + b t + c, NaN where there is none, the same root once (discriminant below `least`); each without
    cancellation."""
    rest = b * b - 4.0 * a * c
    touches = np.abs(rest) <= least
    with np.errstate(divide="ignore", invalid="ignore"):
        q = -0.5 * (b + np.where(b < 0.0, -1.0, 1.0) * np.sqrt(np.where(touches, 0.0, rest)))
        one, other = q / a, c / q
        other = np.where(touches, np.nan, other)
    return np.asarray(one), np.asarray(other)


def _pass(stretch: _Stretch, points: HeightPoints) -> list[Crossing]:
    """Stations that the stretch passes, at the chainage of their foot on it and at their own place."""
    along, aside = stretch.beside(points.point[:, :2])
    near = (np.abs(aside) <= PASS_WITHIN) & (along >= -PASS_WITHIN) & (along <= stretch.length + PASS_WITHIN)
    near &= np.isfinite(points.point).all(axis=1)
    at = np.flatnonzero(near)
    along = np.clip(along[at], 0.0, stretch.length)
    return [
        Crossing(stretch.begin + a, x, y, z, s, n, is_point=True)
        for a, (x, y, z), s, n in zip(
            along.tolist(), points.point[at].tolist(), points.sigma[at].tolist(), points.name[at].tolist()
        )
    ]


def _told_once(found: Sequence[Crossing]) -> tuple[Crossing, ...]:
    """By chainage; of several in one place and at one level the point, else the first edge."""
    kept: list[Crossing] = []
    for crossing in sorted(found, key=lambda c: (c.chainage, c.z, not c.is_point, c.name)):
        twin = _twin(kept, crossing)
        if twin is None:
            kept.append(crossing)
        elif crossing.is_point and not kept[twin].is_point:
            kept[twin] = crossing
    return tuple(sorted(kept, key=lambda c: c.chainage))


def _twin(kept: Sequence[Crossing], crossing: Crossing) -> int | None:
    for k in range(len(kept) - 1, -1, -1):
        if crossing.chainage - kept[k].chainage > 2.0 * SAME_PLACE:
            return None
        is_near = abs(crossing.chainage - kept[k].chainage) <= SAME_PLACE
        if is_near and abs(crossing.z - kept[k].z) <= SAME_PLACE:
            return k
    return None
