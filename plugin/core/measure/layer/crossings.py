# SPDX-License-Identifier: GPL-2.0-or-later
"""Where the rings of a feature cross themselves or one another, looked for in thousands of features at once.

Edges of one feature are held against each other by their boxes and then by the sides on which their ends lie. What
only touches is looked at one by one: a corner on another side is no fault, a way through it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

import numpy as np

from ...quantity import Floats, Ints
from ...segments import Curve, edge_lengths
from ...shape.boxes import find_meeting_boxes
from ...shape.crossing import chords_of, find_crossing, find_meeting
from .edges import Edges, edges_of
from .shapes import Flags, Shapes, same_places
from .sums import runs_with_arcs

MANY = 48
"""Edges of a feature up to which every pair of its edges is looked at in one go with other features' pairs."""
PAIRS = 1_000_000
"""Pairs looked at in one go, so that memory stays bounded."""
PIECE = np.pi / 3.0
"""Radians of sweep of the pieces in which arcs are held against others by their boxes; what comes near is looked at
exactly. Two pieces that leave a corner by more than this apart cannot meet again: each turns by half of it at most."""
BESIDE = 1e-6
"""Of a side's length off its middle: beside it, and hardly ever beyond another."""
MOST_ASKED = 5_000
"""Sides of a ring beside which is looked."""
ROUNDING = 1e-12
"""Of the lengths: a place this near to a line is taken to lie on it."""


class How(Enum):
    """In what way rings meet."""

    CROSSES = "a ring crosses itself"
    RINGS_CROSS = "two rings cross each other"
    SPIKE = "it goes out and back the same way"
    ROUND_AGAIN = "it goes round the same ground again"
    OPPOSITE = "it has loops that go round in opposite senses"


@dataclass(frozen=True)
class Meeting:
    """Runs `first` and `second` (by number; the same for one that crosses itself) cross at `at`. Of one that crosses
    itself `edges` are the two that do."""

    first: int
    second: int
    at: tuple[float, float]
    how: How
    edges: tuple[int, int] | None = None


@dataclass(frozen=True, eq=False)
class _Pieces:
    """Pieces of edges, feature by feature: ends (m, 2), half the sweep (m,) in radians, the run (m,), its place in the
    run and how many pieces that run has (to know neighbours)."""

    a: Floats
    b: Floats
    half: Floats
    run: Ints
    number: Ints
    count: Ints
    start: Ints
    """(f + 1,) the first piece of each feature."""

    def boxes(self) -> tuple[Floats, Floats]:
        """(m, 2) lower and upper corners; those of an arc reach as far beyond its chord as it rises over it."""
        low, high = np.minimum(self.a, self.b), np.maximum(self.a, self.b)
        if self.half.any():
            chord = np.hypot(*(self.b - self.a).T)
            rise = (0.5 * chord * np.abs(np.tan(0.5 * self.half)))[:, None]
            low, high = low - rise, high + rise
        return low, high

    def with_sharp_corners(self) -> Ints:
        """Numbers of pieces that leave their start beside the one before, one of the two an arc: they may meet again."""
        if not self.half.any():
            return np.zeros(0, np.int64)
        before = np.arange(len(self.a)) - 1
        first = self.number == 0
        before[first] += self.count[first]
        step = self.b - self.a
        direction = np.arctan2(step[:, 1], step[:, 0])
        back = direction[before] + self.half[before] + np.pi
        apart = np.abs(np.remainder(direction - self.half - back + np.pi, 2.0 * np.pi) - np.pi)
        bends = (self.half != 0.0) | (self.half[before] != 0.0)
        return np.flatnonzero(bends & (apart <= PIECE))


def find_meetings(shapes: Shapes, local: Floats) -> dict[int, Meeting]:
    """The first place where a feature's rings cross, for every feature where they do, by its number.

    Args:
        shapes: the outlines.
        local: (n, 2) their points as stored, taken from a point of their own feature, so that no offset costs digits.
    """
    if not len(local):
        return {}
    suspect = ~_is_seen_whole(shapes, local)
    if not suspect.any():
        return {}
    its, numbers = shapes.only(suspect), np.flatnonzero(suspect)
    xy = local if its is shapes else local[np.repeat(suspect, shapes.sizes)]
    near = np.concatenate([_goes_back(its, xy), *_near_features(_pieces_of(its, xy))])
    found = {}
    for feature in np.unique(near):
        meeting = _look(its, xy, its.runs_numbered(int(feature)))
        if meeting is not None:
            first, second = int(numbers[meeting.first]), int(numbers[meeting.second])
            found[int(feature)] = replace(meeting, first=first, second=second)
    return found


def _is_seen_whole(shapes: Shapes, xy: Floats) -> Flags:
    """(r,) whether a feature's only ring is of straights and all of it can be seen from the mean of its points. Each
    side then lies in a sector of its own, so that the ring cannot cross itself, touch itself or go back: from corner to
    corner it goes on about that point in one sense, by less than half a turn, and once round in all."""
    starts, sizes = shapes.start[:-1], shapes.sizes
    x, y = (_from_mean(np.ascontiguousarray(xy[:, axis]), starts, sizes) for axis in (0, 1))
    size = np.abs(x) + np.abs(y)
    cross = x[:-1] * y[1:] - x[1:] * y[:-1]
    sense = np.where(np.abs(cross) > ROUNDING * (size[:-1] * size[1:]), np.sign(cross), 0.0)
    above = y > 0.0
    turns = np.zeros((2, len(xy)))
    turns[0, :-1], turns[1, :-1] = sense, above[1:] != above[:-1]
    turns[:, shapes.start[1:] - 1] = 0.0
    total, changes = np.add.reduceat(turns, starts, axis=1)
    is_bent = runs_with_arcs(shapes)
    alone = np.bincount(shapes.feature, minlength=len(shapes))[shapes.feature] == 1
    return np.asarray((np.abs(total) == sizes - 1) & (changes == 2.0) & alone & ~is_bent)


def _from_mean(values: Floats, starts: Ints, sizes: Ints) -> Floats:
    return np.asarray(values - np.repeat(np.add.reduceat(values, starts) / sizes, sizes))


def _goes_back(shapes: Shapes, xy: Floats) -> Ints:
    """Numbers of the features of which a corner of straights goes back the way it came."""
    first, last = shapes.start[:-1], shapes.start[1:] - 1
    step = np.empty_like(xy)
    step[:-1] = xy[1:] - xy[:-1]
    # From a ring's last point it goes on as from its first.
    step[last] = step[first]
    (x, y), size = step.T, np.abs(step).sum(axis=1)
    dot, cross = x[:-1] * x[1:] + y[:-1] * y[1:], x[:-1] * y[1:] - y[:-1] * x[1:]
    back = (dot < 0.0) & (np.abs(cross) <= ROUNDING * (size[:-1] * size[1:]))
    back &= ~(shapes.is_mid[:-1] | shapes.is_mid[1:])
    back[last[:-1]] = False
    return np.asarray(np.unique(shapes.of_point[:-1][back]))


def _pieces_of(shapes: Shapes, xy: Floats) -> _Pieces:
    """The edges in pieces of not too much sweep, pieces of no length left out."""
    edges = edges_of(shapes, xy)
    a, b, half = xy[edges.p], xy[edges.q], np.zeros(len(edges.p))
    run = np.repeat(np.arange(len(shapes.feature)), np.diff(edges.start))
    if len(edges.arc):
        a, b, half, run = _in_pieces(edges, a, b, run)
    moves = ~same_places(a, b)
    if not moves.all():
        a, b, half, run = a[moves], b[moves], half[moves], run[moves]
    count = np.bincount(run, minlength=len(shapes.feature))
    first = np.concatenate([[0], np.cumsum(count)])
    number = np.arange(len(a)) - first[run]
    of_feature = np.bincount(shapes.feature[run], minlength=len(shapes))
    start = np.concatenate([[0], np.cumsum(of_feature)]).astype(np.int64)
    return _Pieces(a, b, half, run, number, count[run], start)


def _in_pieces(edges: Edges, a: Floats, b: Floats, run: Ints) -> tuple[Floats, Floats, Floats, Ints]:
    """Each arc in pieces, in its place."""
    half = np.zeros(len(a))
    half[edges.arc] = np.where(edges.arcs.is_full, np.pi, edges.arcs.half)
    counts = np.maximum(np.ceil(2.0 * np.abs(half) / PIECE - 1e-9), 1).astype(np.int64)
    each = np.repeat(np.arange(len(a)), counts)
    step = np.arange(len(each)) - np.repeat(np.cumsum(counts) - counts, counts)
    starts, ends = a[each], b[each]
    arc = np.full(len(a), -1)
    arc[edges.arc] = np.arange(len(edges.arc))
    # The ends of an arc are its vertices to the bit; the places between are reckoned.
    inner = np.flatnonzero(step > 0)
    k, part = arc[each[inner]], step[inner] / counts[each[inner]]
    starts[inner] = a[each[inner]] + edges.arcs.points_at(k, part)
    ends[inner - 1] = starts[inner]
    return starts, ends, half[each] / counts[each], run[each]


def _near_features(pieces: _Pieces) -> Iterator[Ints]:
    """Features of which two pieces that are not neighbours cross or touch."""
    sizes = np.diff(pieces.start)
    single = np.zeros(len(sizes), bool)
    has = np.flatnonzero(sizes)
    single[has] = pieces.run[pieces.start[has]] == pieces.run[pieces.start[has + 1] - 1]
    feature_of = np.repeat(np.arange(len(sizes)), sizes)
    yield feature_of[pieces.with_sharp_corners()]
    low, high = pieces.boxes()
    for size in np.unique(sizes[(sizes > 3) & (sizes <= MANY)]):
        i, j = np.triu_indices(int(size), 1)
        apart = (j - i > 1) & (j - i < size - 1)
        for which, pairs in ((single, apart), (~single, slice(None))):
            yield from _near_in_group(
                pieces, np.flatnonzero((sizes == size) & which), i[pairs], j[pairs], low, high
            )
    for feature in np.flatnonzero(sizes > MANY):
        first, last = pieces.start[feature : feature + 2]
        for i, j in find_meeting_boxes(low[first:last], high[first:last], low[first:last], high[first:last]):
            each = i < j
            if _meet(pieces, first + i[each], first + j[each]).any():
                yield np.array([feature])
                break


def _near_in_group(
    pieces: _Pieces, features: Ints, i: Ints, j: Ints, low: Floats, high: Floats
) -> Iterator[Ints]:
    """Of features that have the same number of pieces: those of which a pair i, j meets."""
    block = max(PAIRS // len(i), 1)
    for at in range(0, len(features), block):
        its = features[at : at + block]
        rows = pieces.start[its][:, None] + np.arange(int(j.max()) + 1)
        meets = np.ones((len(its), len(i)), bool)
        for axis in (0, 1):
            lows, highs = low[rows, axis], high[rows, axis]
            meets &= (lows[:, i] <= highs[:, j]) & (lows[:, j] <= highs[:, i])
        who, pair = np.nonzero(meets)
        if len(who):
            yield its[np.unique(who[_meet(pieces, rows[who, i[pair]], rows[who, j[pair]])])]


def _meet(pieces: _Pieces, i: Ints, j: Ints) -> Flags:
    """Whether pieces i and j (i < j) cross or touch, other than neighbours in the corner between them; of an arc that its
    box meets the other's."""
    apart = pieces.number[j] - pieces.number[i]
    beside = (pieces.run[i] == pieces.run[j]) & ((apart == 1) | (apart == pieces.count[i] - 1))
    i, j = i[~beside], j[~beside]
    a, b, c, d = pieces.a[i], pieces.b[i], pieces.a[j], pieces.b[j]
    out = np.zeros(len(beside), bool)
    meets = (_side(a, b, c) * _side(a, b, d) <= 0) & (_side(c, d, a) * _side(c, d, b) <= 0)
    out[~beside] = meets | (pieces.half[i] != 0.0) | (pieces.half[j] != 0.0)
    return out


def _side(a: Floats, b: Floats, c: Floats) -> Floats:
    """-1, 0 or 1: right of, on or left of the line from a to b."""
    ab, ac = b - a, c - a
    value = ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]
    scale = (np.abs(ab[:, 0]) + np.abs(ab[:, 1])) * (np.abs(ac[:, 0]) + np.abs(ac[:, 1]))
    return np.asarray(np.where(np.abs(value) <= ROUNDING * scale, 0.0, np.sign(value)))


def _look(shapes: Shapes, xy: Floats, runs: Ints) -> Meeting | None:
    """The runs of one feature, exactly: each with itself, then each with the others."""
    curves = [curve_of(shapes, xy, int(run)) for run in runs]
    for run, curve in zip(runs.tolist(), curves):
        crossing = find_crossing(curve)
        if crossing is not None:
            return Meeting(run, run, crossing.at, How.CROSSES, (crossing.first, crossing.second))
        for how, at in ((How.SPIKE, _spike_of(curve)), _tangled(curve)):
            if at is not None:
                return Meeting(run, run, at, how)
    for a, b in _pairs_near(curves):
        at = find_meeting(curves[a], curves[b])
        if at is not None:
            return Meeting(int(runs[a]), int(runs[b]), at, How.RINGS_CROSS)
    return None


def _pairs_near(curves: Sequence[Curve]) -> Iterator[tuple[int, int]]:
    """Pairs of rings whose boxes meet; arcs reach no farther beyond their ends than the ring is wide."""
    low = np.array([curve.points[:, :2].min(axis=0) for curve in curves])
    high = np.array([curve.points[:, :2].max(axis=0) for curve in curves])
    bends = np.array([bool(curve.bulge.any()) for curve in curves])
    reach = np.where(bends, np.array([2.0 * edge_lengths(curve).max() for curve in curves]), 0.0)[:, None]
    for i, j in find_meeting_boxes(low - reach, high + reach, low - reach, high + reach):
        yield from zip(i[i < j].tolist(), j[i < j].tolist())


def _spike_of(curve: Curve) -> tuple[float, float] | None:
    """A corner from which a ring goes back exactly the way it came."""
    points = curve.points[:-1, :2]
    before = points - np.roll(points, 1, axis=0)
    after = np.roll(points, -1, axis=0) - points
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    dot = (before * after).sum(axis=1)
    straight = (curve.bulge == 0.0) & (np.roll(curve.bulge, 1) == 0.0)
    back = straight & (dot < 0.0) & (np.abs(cross) <= ROUNDING * np.abs(dot))
    corner = np.flatnonzero(back)
    return (float(points[corner[0], 0]), float(points[corner[0], 1])) if len(corner) else None


def _tangled(curve: Curve) -> tuple[How, tuple[float, float] | None]:
    """Whether a ring that touches itself goes round some ground twice, or round some ground in the other sense: then
    its cross products are no area. Asked beside every side, for every region has one."""
    xy = chords_of(curve).xy
    step = np.diff(xy, axis=0)
    each = np.unique(np.linspace(0, len(step) - 1, min(len(step), MOST_ASKED)).astype(int))
    beside = BESIDE * np.column_stack([-step[each, 1], step[each, 0]])
    middle = xy[each] + 0.5 * step[each]
    asked = np.vstack([middle + beside, middle - beside])
    winding = np.array([_winding(xy, point) for point in asked])
    often = np.abs(winding) > 1
    if often.any():
        x, y = asked[np.argmax(often)] + curve.points[0, :2]
        return How.ROUND_AGAIN, (float(x), float(y))
    if winding.min() < 0 < winding.max():
        x, y = asked[np.argmax(winding < 0)] + curve.points[0, :2]
        return How.OPPOSITE, (float(x), float(y))
    return How.OPPOSITE, None


def _winding(ring: Floats, point: Floats) -> int:
    """How often a ring of straights goes round a point that is not on it, anticlockwise counted positive: the sides
    that cross the ray to the right, upward less downward."""
    x, y = ring[:, 0] - point[0], ring[:, 1] - point[1]
    above = y > 0.0
    crosses = np.flatnonzero(above[1:] != above[:-1])
    side = x[crosses] * y[crosses + 1] - x[crosses + 1] * y[crosses]
    up = above[crosses + 1]
    return int(np.count_nonzero(up & (side > 0.0)) - np.count_nonzero(~up & (side < 0.0)))


def curve_of(shapes: Shapes, xy: Floats, run: int) -> Curve:
    """One run as exact edges; a full circle, which a bulge cannot hold, as two half arcs."""
    first, last = int(shapes.start[run]), int(shapes.start[run + 1])
    points, is_mid = xy[first:last], shapes.is_mid[first:last]
    at = np.flatnonzero(~is_mid)
    vertices = [points[0]]
    bulge: list[float] = []
    for i, j in zip(at[:-1], at[1:]):
        p, q = points[i], points[j]
        if j - i == 1:
            vertices.append(q)
            bulge.append(0.0)
        elif np.array_equal(p, q):
            vertices += [points[i + 1], q]
            bulge += [1.0, 1.0]
        else:
            vertices.append(q)
            bulge.append(_bulge(p, points[i + 1], q))
    return Curve(np.column_stack([np.array(vertices), np.full(len(vertices), np.nan)]), np.array(bulge))


def _bulge(p: Floats, m: Floats, q: Floats) -> float:
    u, w = m - p, q - m
    return float(np.tan(0.5 * np.arctan2(u[0] * w[1] - u[1] * w[0], u @ w)))
