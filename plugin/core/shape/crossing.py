# SPDX-License-Identifier: GPL-2.0-or-later
"""Where an outline crosses itself: exact on straights, on arcs to the sag of chords of two degrees."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats, Ints
from ..segments import Curve, half_sweeps, points_along
from .boxes import find_meeting_boxes

CHORD = np.radians(2.0)
"""Radians of an arc that one chord stands for: it lies within 0.00015 radii of the arc."""
ROUNDING = 1e-13
"""Part of two lengths' product below which their cross product is rounding: the point lies on the line."""
CORNER_TO_CORNER = 2
"""Of four ends on the other chord's line: more of them, and the two chords lie along each other."""
ALONGSIDE = 1e-9
"""Sine of half an angle below which two ways leave a point in one direction."""


@dataclass(frozen=True)
class Crossing:
    """Edges `first` and `second` (by number, first < second) meet at `at`; `count` crossings there are."""

    first: int
    second: int
    at: tuple[float, float]
    count: int


@dataclass(frozen=True, eq=False)
class Chords:
    """A closed or open run as chords: `xy` (s+1, 2) relative to `origin`, `edge` (s,) the edge each is of."""

    xy: Floats
    edge: Ints
    origin: Floats
    closed: bool


def chords_of(curve: Curve) -> Chords:
    """The curve as chords of two degrees, doubled points left out."""
    half = np.abs(half_sweeps(curve.bulge))
    counts = np.maximum(np.ceil(2.0 * half / CHORD - 1e-9), 1).astype(int)
    origin = curve.points[0, :2]
    xy = points_along(curve, counts)[:, :2] - origin
    edge = np.repeat(np.arange(len(counts)), counts)
    moves = np.any(np.diff(xy, axis=0) != 0.0, axis=1)
    xy = np.vstack([xy[:-1][moves], xy[-1:]])
    return Chords(xy, edge[moves], origin, bool(np.all(curve.points[0, :2] == curve.points[-1, :2])))


def find_crossing(curve: Curve) -> Crossing | None:
    """The first place, in order of walking, where a curve crosses itself; None where it does not. Touching
    without crossing (a corner on another side, a way walked twice) does not count."""
    chords = chords_of(curve)
    found = []
    for first, second in _near_pairs(chords.xy, chords.xy, same=True):
        found += _crossings_of(chords, chords, first, second, same=True)
    return _first_of(found, chords)


def find_meeting(one: Curve, other: Curve) -> tuple[float, float] | None:
    """A place where two curves cross each other; None where they do not."""
    a, b = chords_of(one), chords_of(other)
    moved = Chords(b.xy + (b.origin - a.origin), b.edge, a.origin, b.closed)
    for first, second in _near_pairs(a.xy, moved.xy, same=False):
        found = _crossings_of(a, moved, first, second, same=False)
        if found:
            return float(found[0][2][0] + a.origin[0]), float(found[0][2][1] + a.origin[1])
    return None


def _first_of(found: Sequence[tuple[int, int, Floats]], chords: Chords) -> Crossing | None:
    if not found:
        return None
    i, j, at = min(found, key=lambda one: (one[0], one[1]))
    at = at + chords.origin
    return Crossing(int(chords.edge[i]), int(chords.edge[j]), (float(at[0]), float(at[1])), len(found))


def _near_pairs(a: Floats, b: Floats, *, same: bool) -> Iterator[tuple[Ints, Ints]]:
    """Pairs of chords whose boxes meet, in blocks; of one run with itself each pair once."""
    low_a, high_a = np.minimum(a[:-1], a[1:]), np.maximum(a[:-1], a[1:])
    low_b, high_b = np.minimum(b[:-1], b[1:]), np.maximum(b[:-1], b[1:])
    for i, j in find_meeting_boxes(low_a, high_a, low_b, high_b):
        each = i < j if same else np.ones(len(i), dtype=bool)
        yield i[each], j[each]


def _sides_of(a: Floats, b: Floats, c: Floats) -> Floats:
    """-1, 0 or 1: whether c lies right of, on, or left of the line from a to b."""
    ab, ac = b - a, c - a
    value = ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]
    scale = np.hypot(ab[:, 0], ab[:, 1]) * np.maximum(np.hypot(ac[:, 0], ac[:, 1]), np.hypot(*(b - c).T))
    return np.asarray(np.where(np.abs(value) <= ROUNDING * scale, 0.0, np.sign(value)))


def _crossings_of(
    one: Chords, other: Chords, i: Ints, j: Ints, *, same: bool
) -> list[tuple[int, int, Floats]]:
    last = len(one.edge) - 1
    if same:
        apart = (j - i > 1) & ~(one.closed & (i == 0) & (j == last))
        i, j = i[apart], j[apart]
    a, b, c, d = one.xy[i], one.xy[i + 1], other.xy[j], other.xy[j + 1]
    sides = np.array([_sides_of(a, b, c), _sides_of(a, b, d), _sides_of(c, d, a), _sides_of(c, d, b)])
    proper = (sides[0] * sides[1] < 0) & (sides[2] * sides[3] < 0)
    out = [(int(i[k]), int(j[k]), _meet(a[k], b[k], c[k], d[k])) for k in np.flatnonzero(proper)]
    touch = ~proper & (sides[0] * sides[1] <= 0) & (sides[2] * sides[3] <= 0)
    seen: set[tuple[float, float]] = set()
    for k in np.flatnonzero(touch):
        at = _through(one, other, int(i[k]), int(j[k]), sides[:, k])
        if at is not None and (key := (round(float(at[0]), 9), round(float(at[1]), 9))) not in seen:
            seen.add(key)
            out.append((int(i[k]), int(j[k]), at))
    return out


def _meet(a: Floats, b: Floats, c: Floats, d: Floats) -> Floats:
    ab, cd, ac = b - a, d - c, c - a
    t = (ac[0] * cd[1] - ac[1] * cd[0]) / (ab[0] * cd[1] - ab[1] * cd[0])
    return np.asarray(a + t * ab)


def _through(one: Chords, other: Chords, i: int, j: int, sides: Floats) -> Floats | None:
    """Where two chords touch: the point, if the runs cross there and do not only touch."""
    if np.count_nonzero(sides == 0.0) > CORNER_TO_CORNER:
        return None
    if sides[0] == 0.0:
        at = other.xy[j]
    elif sides[1] == 0.0:
        at = other.xy[j + 1]
    else:
        at = one.xy[i] if sides[2] == 0.0 else one.xy[i + 1]
    mine, theirs = _ways(one, i, at), _ways(other, j, at)
    if mine is None or theirs is None:
        return None
    base = np.arctan2(mine[0][1], mine[0][0])

    def angle(way: Floats) -> float:
        return float(np.mod(np.arctan2(way[1], way[0]) - base, 2.0 * np.pi))

    out, a, b = angle(mine[1]), angle(theirs[0]), angle(theirs[1])
    if min(abs(np.sin((x - y) / 2.0)) for x in (0.0, out) for y in (a, b)) < ALONGSIDE:
        return None
    return at if (a < out) != (b < out) else None


def _ways(chords: Chords, k: int, at: Floats) -> tuple[Floats, Floats] | None:
    """Where chord k's run comes from and goes to, seen from a point on it; None at a loose end."""
    xy, n = chords.xy, len(chords.edge)
    reach = 1e-9 * max(1.0, float(np.abs(at).max()))
    if np.abs(xy[k] - at).max() <= reach:
        if k == 0 and not chords.closed:
            return None
        return xy[k - 1] - at if k else xy[n - 1] - at, xy[k + 1] - at
    if np.abs(xy[k + 1] - at).max() <= reach:
        if k == n - 1 and not chords.closed:
            return None
        return xy[k] - at, xy[(k + 2) if k + 2 <= n else 1] - at
    return xy[k] - at, xy[k + 1] - at
