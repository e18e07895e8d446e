# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas and lengths of runs, and how much their points move them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...quantity import Floats, Ints
from ...segments import FLAT, segment_factor
from .edges import CLOSED, edges_of
from .geodesic import measure_wide_run
from .ground import Grounded, GroundWay
from .shapes import Flags, Shapes, same_places, sum_by


@dataclass(frozen=True, eq=False)
class RunSums:
    """(r,) each: area in m2, positive anticlockwise; length in m; and the sums of squares of what a metre of each
    point changes: of the area (m2), of the length (no unit)."""

    area: Floats
    length: Floats
    area_squares: Floats
    length_squares: Floats

    def only(self, runs: Flags) -> RunSums:
        """Of some runs."""
        return RunSums(self.area[runs], self.length[runs], self.area_squares[runs], self.length_squares[runs])

    def put(self, runs: Ints | int, others: RunSums) -> None:
        """Take the figures of some runs from elsewhere."""
        self.area[runs], self.length[runs] = others.area, others.length
        self.area_squares[runs], self.length_squares[runs] = others.area_squares, others.length_squares


def sum_runs(shapes: Shapes, ground: Grounded, way: GroundWay) -> RunSums:
    """The sums of all runs: straights all at once, those with arcs by their edges, wide ones along geodesics."""
    sums = sum_straights(shapes, ground.xy)
    has_arcs = runs_with_arcs(shapes)
    if has_arcs.any():
        points = np.repeat(has_arcs, shapes.sizes)
        sums.put(np.flatnonzero(has_arcs), sum_arcs(shapes.only(has_arcs), ground.xy[points]))
    is_wide = ground.is_wide[shapes.feature]
    if is_wide.any():
        edges = edges_of(shapes, ground.xy)
        for run in np.flatnonzero(is_wide):
            wide = measure_wide_run(shapes, ground, edges, way, int(run))
            sums.area[run], sums.length[run] = wide.area, wide.length
            if not has_arcs[run]:
                sums.area_squares[run], sums.length_squares[run] = wide.area_moves**2, wide.length_moves**2
    return sums


def runs_with_arcs(shapes: Shapes) -> Flags:
    """(r,) whether a run has an arc."""
    if not shapes.is_mid.any():
        return np.zeros(len(shapes.feature), bool)
    return np.asarray(sum_by(shapes.start, shapes.is_mid.astype(float)) > 0)


def closed_runs(shapes: Shapes) -> Flags:
    """(r,) whether a run ends with its first point."""
    first, last = shapes.start[:-1], shapes.start[1:] - 1
    return np.asarray(same_places(shapes.xy[first], shapes.xy[last]) & (last > first))


def sum_straights(shapes: Shapes, xy: Floats) -> RunSums:
    """Runs of straights from point to point.

    With d the ways from point to point, a point moves the area by half the way past it, |d1 + d2| / 2, and the
    length by the difference of directions, |d1/|d1| - d2/|d2||: the squares of both need dot products alone.
    """
    n = len(xy)
    if n == 0:
        none = np.zeros(len(shapes.feature))
        return RunSums(none, none.copy(), none.copy(), none.copy())
    x, y = np.ascontiguousarray(xy[:, 0]), np.ascontiguousarray(xy[:, 1])
    first, last = shapes.start[:-1], shapes.start[1:] - 1
    # The way from each point to the next, and none from a run's last point.
    dx, dy, cross = (np.empty(n) for _ in range(3))
    np.subtract(x[1:], x[:-1], out=dx[:-1])
    np.subtract(y[1:], y[:-1], out=dy[:-1])
    cross[:-1] = x[:-1] * dy[:-1] - y[:-1] * dx[:-1]
    dx[last] = dy[last] = cross[last] = 0.0
    square = dx * dx + dy * dy
    size = np.sqrt(square)
    # The way to each point beside the way from it; of a closed run the first point has the last way.
    dot, both = np.empty(n), np.empty(n)
    dot[1:] = dx[1:] * dx[:-1] + dy[1:] * dy[:-1]
    both[1:] = size[1:] * size[:-1]
    is_closed = closed_runs(shapes)
    before = np.where(is_closed, np.maximum(last - 1, 0), last)
    dot[first] = dx[first] * dx[before] + dy[first] * dy[before]
    both[first] = size[first] * size[before]
    with np.errstate(divide="ignore", invalid="ignore"):
        turn = np.where(both > 0.0, 1.0 - dot / both, 0.0)
    start = shapes.start[:-1]
    return RunSums(
        0.5 * np.add.reduceat(cross, start),
        np.add.reduceat(size, start),
        0.5 * (np.add.reduceat(square, start) + np.add.reduceat(dot, start)),
        2.0 * np.add.reduceat(turn, start) + np.where(is_closed, 0.0, 2.0),
    )


def run_areas(shapes: Shapes, xy: Floats) -> Floats:
    """(r,) areas alone, positive anticlockwise, of runs through places (n, 2) in metres.

    Half the cross products of all points from one to the next, the middles of arcs too; of each arc then what its
    segment has more than the triangle through its three points, whose sine and cosine the turn at the middle gives.
    """
    if not len(xy):
        return np.zeros(len(shapes.feature))
    x, y = np.ascontiguousarray(xy[:, 0]), np.ascontiguousarray(xy[:, 1])
    dx, dy, cross = (np.zeros(len(xy)) for _ in range(3))
    np.subtract(x[1:], x[:-1], out=dx[:-1])
    np.subtract(y[1:], y[:-1], out=dy[:-1])
    cross[:-1] = x[:-1] * dy[:-1] - y[:-1] * dx[:-1]
    cross[shapes.start[1:] - 1] = 0.0
    mid = np.flatnonzero(shapes.is_mid)
    if len(mid):
        cross[mid] += _beyond_triangle(dx[mid - 1], dy[mid - 1], dx[mid], dy[mid])
    return np.asarray(0.5 * np.add.reduceat(cross, shapes.start[:-1]))


def _beyond_triangle(ux: Floats, uy: Floats, wx: Floats, wy: Floats) -> Floats:
    """(k,) twice the area of a segment less that of its triangle; u the way to the arc's middle point, w from it."""
    cross, dot = ux * wy - uy * wx, ux * wx + uy * wy
    half, chord = np.arctan2(cross, dot), (ux + wx) ** 2 + (uy + wy) ** 2
    reach = ux * ux + uy * uy
    flat = np.abs(half) < FLAT
    # (2a - sin 2a) / sin^2 a with sine and cosine as cross and dot by the root of the sum of their squares.
    square = cross * cross
    # Nothing to divide by: flat arcs, full circles, and arcs that are none.
    below = np.where(flat | (square == 0.0), 1.0, square)
    factor = 2.0 * (half * (square + dot * dot) - cross * dot) / below
    if flat.any():
        factor[flat] = segment_factor(half[flat])[0]
    twice = 0.25 * chord * factor
    full = (chord <= CLOSED**2 * reach) & (reach > 0.0)
    if full.any():
        twice[full] = 0.5 * np.pi * reach[full]
    return np.asarray(twice - cross)


def sum_arcs(shapes: Shapes, xy: Floats) -> RunSums:
    """Runs with arcs, edge by edge."""
    edges = edges_of(shapes, xy)
    one = np.ones(len(edges.p))
    return RunSums(
        run_areas(shapes, xy),
        sum_by(edges.start, edges.lengths),
        _move_squares(shapes, edges.area_moves(one)),
        _move_squares(shapes, edges.length_moves(one)),
    )


def _move_squares(shapes: Shapes, moves: Floats) -> Floats:
    """(r,) sums of squares of (n, 2) changes by each point; ends that are one point count as one."""
    is_closed = closed_runs(shapes)
    first, last = shapes.start[:-1][is_closed], shapes.start[1:][is_closed] - 1
    moves[first] += moves[last]
    moves[last] = 0.0
    return sum_by(shapes.start, (moves**2).sum(axis=1))
