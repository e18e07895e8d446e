# SPDX-License-Identifier: GPL-2.0-or-later
"""Heights of two surveys at the same places: what all share, what single places did, and patches that went together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats, Ints, Quantity
from .chance import chance_beyond
from .match import LEAST_REACH
from .motion import robust_mean
from .noise import walk_columns, walk_covariance
from .records import Known, Lift, Motion, Patch
from .scan import MOST_PLACES, Differences, scan_heights

BESIDE = 6
"""Places beside one that tell how the ground slopes there."""
LEAST_VARIANCE = 1e-8
"""m2: nobody stands on one place again to a tenth of a millimetre of height."""
STEEPEST = 1.0
"""Rise by run that is taken at the most: steeper is an edge and no slope."""


@dataclass(frozen=True, eq=False)
class Heights:
    """Stations that stand on one place in both surveys, with a height in each.

    Attributes:
        i, j: (n,) their rows before and after. xy: (n, 2) metres. before, after: (n,) metres.
        variance: (n,) of each difference by itself, with all drift, m2. moved: (n,) what the ground's slope adds to that
            where the two stood apart, m2.
    """

    i: Ints
    j: Ints
    xy: Floats
    before: Floats
    after: Floats
    variance: Floats
    moved: Floats

    @property
    def off(self) -> Floats:
        """(n,) after less before."""
        return self.after - self.before


@dataclass(frozen=True, eq=False)
class HeightsTold:
    """What the heights say: the part that all share, patches, (n,) the one-sigma of a single place against its
    surroundings, and how many candidates for patches there were."""

    lift: Lift
    patches: tuple[Patch, ...]
    single: Floats
    candidates: int


def pair_heights(before: Known, after: Known, pairs: tuple[Ints, Ints], motion: Motion | None) -> Heights:
    """The stations with heights among pairs of them."""
    one, other = before.stations, after.stations
    good = np.isfinite(one.z[pairs[0]]) & np.isfinite(other.z[pairs[1]])
    i, j = pairs[0][good], pairs[1][good]
    xy = one.xy[i]
    there = other.xy[j] if motion is None else motion.undone(other.xy[j])
    rises = np.concatenate([slopes(xy[its], one.z[i[its]]) for its in split_places(xy)] or [np.zeros(0)])
    steep = np.empty(len(i))
    steep[np.concatenate([*split_places(xy), np.zeros(0, np.int64)])] = rises
    moved = (steep * np.hypot(*(there - xy).T)) ** 2
    variance = one.z_sigma[i] ** 2 + other.z_sigma[j] ** 2
    moved = np.maximum(moved, LEAST_VARIANCE)
    return Heights(i, j, xy, one.z[i], other.z[j], variance + moved, moved)


def split_places(xy: Floats, most: int = MOST_PLACES) -> list[Ints]:
    """Places in groups of neighbours, each of so many at the most: halved across the longer reach."""
    groups, out = [np.arange(len(xy))], []
    while groups:
        rows = groups.pop()
        if len(rows) <= most:
            out += [rows] if len(rows) else []
            continue
        axis = int(np.argmax(np.ptp(xy[rows], axis=0)))
        order = rows[np.argsort(xy[rows, axis], kind="stable")]
        groups += [order[len(order) // 2 :], order[: len(order) // 2]]
    return out


def slopes(xy: Floats, z: Floats) -> Floats:
    """(n,) steepness of the ground at places: the median rise by run to the nearest of them, so that a wall on one side
    counts for nothing."""
    if len(xy) <= BESIDE:
        return np.full(len(xy), 0.0)
    away = np.sqrt(((xy[:, None] - xy[None]) ** 2).sum(axis=2))
    away[away < LEAST_REACH] = np.inf
    near = np.argsort(away, axis=1, kind="stable")[:, :BESIDE]
    run = np.take_along_axis(away, near, axis=1)
    rise = np.abs(z[near] - z[:, None]) / run
    return np.asarray(np.minimum(np.median(rise, axis=1), STEEPEST))


def tell_heights(
    before: Known,
    after: Known,
    heights: Heights,
    level: float,
    share: float,
    tick: Callable[[], None] | None = None,
) -> HeightsTold:
    """What all heights share, and the patches in which they changed.

    Args:
        before: the earlier survey.
        after: the later one.
        heights: their common heights.
        level: chance of any false change in the whole comparison.
        share: part of it that the patches have.
        tick: called now and then; what it raises ends the work.
    """
    shift, weight = robust_mean(heights.off, heights.variance)
    # As if all drift went one way: what the shift is known to at the least.
    sigma = float(weight @ np.sqrt(heights.variance))
    groups = split_places(heights.xy)
    patches: list[Patch] = []
    single, candidates = np.full(len(heights.xy), np.nan), 0
    for rows in groups:
        scanned = scan_heights(_differences(before, after, heights, rows), level, share / len(groups), tick)
        patches += [Patch(rows[p.rows], p.xy, p.change, p.p, p.hull) for p in scanned.patches]
        single[rows], candidates = scanned.single, candidates + scanned.candidates
    lift = Lift(Quantity(shift, sigma, "m"), chance_beyond(shift / sigma))
    return HeightsTold(lift, tuple(patches), single, candidates)


def _differences(before: Known, after: Known, heights: Heights, rows: Ints) -> Differences:
    """The differences of some heights with what drift and stands leave unknown of them, every walk's shift apart."""
    i, j = heights.i[rows], heights.j[rows]
    one, other = before.stations, after.stations
    covariance = walk_covariance(one.walk, one.leg, one.stand, i)
    covariance += walk_covariance(other.walk, other.leg, other.stand, j) + np.diag(heights.moved[rows])
    shared = walk_columns((one.walk[i], other.walk[j]))
    return Differences(heights.xy[rows], heights.off[rows], covariance, shared)
