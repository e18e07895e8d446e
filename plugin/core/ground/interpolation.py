# SPDX-License-Identifier: GPL-2.0-or-later
"""How far the ground lies off the triangles between its points: each point against the surface without it.

A point's height is held against the triangle that its place would lie in if it were not there. That the triangles are
then wider than they are makes the answer a careful one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from ..quantity import Floats, Ints
from .hull import neighbours_of
from .records import Net

FEWEST = 20
"""Points that must be tested before anything is said: a sigma from 20 is itself known to a fifth."""
MOST_TESTED = 20_000
"""Points tested at the most, evenly chosen in the order given: a sigma from these is known to 1 %."""
MOST_BESIDE = 14
"""A point with more neighbours than this is not tested: hardly any has."""
MEDIANS = 9.0
"""Median sizes beyond which a departure counts for nothing: of a normal's, one of a thousand million lies there."""
OF_NORMAL = 1.0184415719960611
"""What the biweight makes of a normal of variance 1: its integrals over 9 quartiles (a test takes them)."""
EFFICIENCY, ALIKE = 0.92, 1.2
"""Of the biweight of a normal against its mean square; and by how much the spread of departures from neighbours in common is
less certain than that of as many apart: a one-sigma of 1.2 sqrt(2 / (0.92 n)) of itself (tests draw both)."""
CHANCE = 0.5
"""Sigmas by which the spread must lie above what heights explain. With none every second smooth ground is rough. With the
1.645 of a test at 5 %, of grounds of 120 points whose roughness adds half to what noise explains two in three have none, and
the 95 % interval of a level holds the truth 88 times of 100; with half of a sigma 93 times (drawn grounds, reach one spacing)."""
LEAST_REACH = 0.451384
"""Of the spacing: sqrt(1.280176 / (2 pi)), with which a patch 2 pi reach^2 is 1.28 times the ground of one point. Points hold
the surface to the ground, so departures of neighbouring patches are hardly one; but points that stand at random stand for
unlike grounds, whose mean square is 1.28 times the square of their mean (Gilbert, Annals of Mathematical Statistics 33
(1962) 958-972, for the cells about random points; figure from memory). The tests draw grounds of any reach."""
LAGS, FARTHEST_LAG = 24, 8.0
"""Classes of distance, and the farthest of them in spacings."""
FEWEST_PAIRS = 30
FLAT = 1e-9
"""Of the squares of a triangle's reach: with less area its corners stand in line."""


@dataclass(frozen=True, eq=False)
class Interpolation:
    """How the ground departs from the triangles.

    Attributes:
        rough: one-sigma in metres; 0 where too few points could be tested.
        reach: metres over which a departure hangs together; 0 where it is not known.
        tested: so many points.
        rows: (k,) the points tested. off: (k,) how far each lies above the surface without it, metres.
    """

    rough: float
    reach: float
    tested: int
    rows: Ints
    off: Floats


def leave_one_out(net: Net, triangles: Ints) -> Interpolation:
    """The departure of the ground, from every point that stands inside and on no line (20,000 at the most).

    rough^2 = spread^2 - the mean of what the points' heights explain, where it lies above that by more than chance, else 0. The
    spread is the biweight's, which a few wild points do not move; heights explain their own sigmas, and of what neighbours
    share the difference alone. The reach is that of
    an exponential variogram, nugget + sill (1 - exp(-h / reach)), fitted to the departures (least squares by the number
    of pairs); never less than one point's ground.

    Args:
        net: points and what stands on lines.
        triangles: (m, 3) rows of the net's points, before anything is trimmed.
    Source:
        The empirical and the exponential variogram: Matheron, Principles of geostatistics, Economic Geology 58 (1963)
        1246-1266. The biweight: Mosteller and Tukey, Data Analysis and Regression (1977) chapter 10. The lifted triangle below a place is the Delaunay one: Brown, Information Processing Letters 9
        (1979) 223-228.
    """
    rows, off, own = _departures(net, triangles)
    if len(rows) < FEWEST:
        return Interpolation(0.0, 0.0, len(rows), rows, off)
    rough = _rough(off, float(own.mean()))
    spacing = _spacing(net.points, triangles)
    reach = fit_reach(net.points[rows, :2], off, spacing)
    return Interpolation(rough, reach, len(rows), rows, off)


def _rough(off: Floats, explained: float) -> float:
    """One-sigma of the ground, from departures and the variance that heights explain of one; 0 where there may be none."""
    spread = biweight(off)
    chance = CHANCE * ALIKE * float(np.sqrt(2.0 / (EFFICIENCY * len(off))))
    return float(np.sqrt(spread - explained)) if spread > explained * (1.0 + chance) else 0.0


def biweight(off: Floats) -> float:
    """The variance about 0 of departures (n,), right for a normal, in which those of more than nine median sizes do not count."""
    size = MEDIANS * float(np.median(np.abs(off)))
    if not size > 0.0:
        return 0.0
    square = (off / size) ** 2
    square = square[square < 1.0]
    top = float((square * (1.0 - square) ** 4).sum())
    below = float(((1.0 - square) * (1.0 - 5.0 * square)).sum())
    return size**2 * len(off) * top / below**2 / OF_NORMAL


def _spacing(points: Floats, triangles: Ints) -> float:
    """Root of the ground that one point stands for, metres."""
    corners = points[triangles][:, :, :2]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = 0.5 * float(np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]).sum())
    return float(np.sqrt(area / len(np.unique(triangles))))


def _departures(net: Net, triangles: Ints) -> tuple[Ints, Floats, Floats]:
    """Points tested, how far each lies off, and the variance of that from the points' heights."""
    free = np.zeros(len(net.points), bool)
    free[triangles] = True
    free[net.segments] = False
    t, k = np.nonzero(neighbours_of(triangles, len(net.points)) < 0)
    free[triangles[t, (k + 1) % 3]] = False
    free[triangles[t, (k + 2) % 3]] = False
    start, beside = _stars(triangles, len(net.points))
    degree = np.diff(start)
    rows = np.flatnonzero(free & (degree >= 3) & (degree <= MOST_BESIDE))
    if len(rows) > MOST_TESTED:
        rows = rows[np.linspace(0, len(rows) - 1, MOST_TESTED).astype(np.int64)]
    off, own = np.full(len(rows), np.nan), np.zeros(len(rows))
    for size in np.unique(degree[rows]).tolist():
        its = np.flatnonzero(degree[rows] == size)
        around = beside[start[rows[its]][:, None] + np.arange(size)]
        off[its], own[its] = _against(net, rows[its], around)
    good = np.isfinite(off)
    return rows[good], off[good], own[good]


def _stars(triangles: Ints, count: int) -> tuple[Ints, Ints]:
    """Neighbours of every point: those of point p are beside[start[p]:start[p + 1]]."""
    pairs = triangles[:, [0, 1, 1, 2, 2, 0, 1, 0, 2, 1, 0, 2]].reshape(-1, 2)
    key = np.unique(pairs[:, 0] * count + pairs[:, 1])
    start = np.searchsorted(key, np.arange(count + 1) * count)
    return start, key % count


def _against(net: Net, rows: Ints, around: Ints) -> tuple[Floats, Floats]:
    """Points (k,) against their neighbours (k, size): of all triangles of these that hold the place, the one whose
    corners lie nearest to it in the mean of their squares is the one that would be there."""
    xy = net.points[around][:, :, :2] - net.points[rows, None, :2]
    lift = (xy**2).sum(axis=2)
    best = np.full(len(rows), np.inf)
    weights, corners = np.zeros((len(rows), 3)), np.zeros((len(rows), 3), np.int64)
    for triple in _triples(around.shape[1]):
        some = _weights_at_zero(xy[:, triple])
        height = (some * lift[:, triple]).sum(axis=1)
        better = (some >= 0.0).all(axis=1) & (height < best)
        best[better], weights[better] = height[better], some[better]
        corners[better] = around[better][:, triple]
    z = (weights * net.points[corners, 2]).sum(axis=1)
    off = np.where(np.isfinite(best), net.points[rows, 2] - z, np.nan)
    own = net.sigma[rows] ** 2 + (weights**2 * net.sigma[corners] ** 2).sum(axis=1)
    together = net.shared[rows] - np.einsum("kc,kcj->kj", weights, net.shared[corners])
    return off, own + (together**2).sum(axis=1)


def _triples(size: int) -> Iterator[list[int]]:
    return map(list, combinations(range(size), 3))


def _weights_at_zero(xy: Floats) -> Floats:
    """(k, 3) weights of corners (k, 3, 2) at the origin; -1 where they stand in line."""
    x, y = xy[:, :, 0], xy[:, :, 1]
    twice = np.stack(
        [x[:, (k + 1) % 3] * y[:, (k + 2) % 3] - x[:, (k + 2) % 3] * y[:, (k + 1) % 3] for k in range(3)],
        axis=1,
    )
    total = twice.sum(axis=1, keepdims=True)
    flat = np.abs(total) <= FLAT * (xy**2).sum(axis=(1, 2))[:, None]
    return np.where(flat, -1.0, twice / np.where(flat, 1.0, total))


def fit_reach(xy: Floats, off: Floats, spacing: float) -> float:
    """Metres over which departures hang together, from their variogram; never less than one point's ground.

    Args:
        xy: (n, 2) places, metres.
        off: (n,) departures, metres.
        spacing: root of the ground of one point, metres.
    """
    least = LEAST_REACH * spacing
    lag, half, pairs = _variogram(xy, off, FARTHEST_LAG * spacing)
    if len(lag) < 4:
        return least
    tries = np.geomspace(least, FARTHEST_LAG * spacing, 60)
    misfits = [_misfit(lag, half, pairs, reach) for reach in tries]
    flat = _misfit(lag, half, pairs, None)
    best = int(np.argmin(misfits))
    # A curve has one unknown more than a level: it must be worth it (as by Akaike, twice the gain in log likelihood).
    gain = len(lag) * (np.log(max(flat, 1e-300)) - np.log(max(misfits[best], 1e-300)))
    return float(tries[best]) if gain > 2.0 else least


def _variogram(xy: Floats, off: Floats, farthest: float) -> tuple[Floats, Floats, Floats]:
    """Mean distance, mean half square of the difference, and number of pairs, of each class of distance."""
    from scipy.spatial import cKDTree

    pairs = cKDTree(xy - xy.mean(axis=0)).query_pairs(farthest, output_type="ndarray")
    if not len(pairs):
        return np.empty(0), np.empty(0), np.empty(0)
    distance = np.hypot(*(xy[pairs[:, 0]] - xy[pairs[:, 1]]).T)
    half = 0.5 * (off[pairs[:, 0]] - off[pairs[:, 1]]) ** 2
    number = np.minimum((LAGS * distance / farthest).astype(np.int64), LAGS - 1)
    count, total, apart = (np.bincount(number, w, LAGS) for w in (None, half, distance))
    enough = count >= FEWEST_PAIRS
    return apart[enough] / count[enough], total[enough] / count[enough], count[enough].astype(float)


def _misfit(lag: Floats, half: Floats, pairs: Floats, reach: float | None) -> float:
    """Weighted mean square left over by the best nugget and sill for a reach; None: a level alone."""
    weight = np.sqrt(pairs / pairs.sum())
    columns = [np.ones(len(lag))] + ([] if reach is None else [1.0 - np.exp(-lag / reach)])
    design = np.column_stack(columns) * weight[:, None]
    found = np.linalg.lstsq(design, half * weight, rcond=None)[0]
    if reach is not None and found[1] < 0.0:
        return np.inf
    return float((((design @ found) - half * weight) ** 2).sum())
