# SPDX-License-Identifier: GPL-2.0-or-later
"""Whether a thing moved: each of its corners against the other survey's edge."""

from __future__ import annotations

import math

import numpy as np

from ..quantity import Floats, Ints
from .chance import place_chance
from .match import offsets
from .records import Figure, Motion, Test, Thing

LEAST_VARIANCE = 1e-8
"""m2: a tenth of a millimetre is what no place is known better than."""
MOST_CORNERS = 60
"""Of one thing that are tested, evenly chosen: an edge as walked has hundreds of rows, of which neighbours err alike."""


def check_place(before: Thing, after: Thing, common: tuple[float, float], motion: Motion | None) -> Test:
    """The corner that lies farthest off the other survey's edge in its sigmas, both ways, and the chance that any does.

    A corner that slid along an edge has not left it, so that it does not matter where along an edge somebody stood. The
    distance squared by its variance along its direction is no more than chi-square with two degrees of freedom (by
    Cauchy's inequality): corners may go off an edge in any direction.

    Args:
        before: the thing in the earlier survey.
        after: it in the later one, laid on the earlier.
        motion: by which it was laid there.
        common: one-sigma per axis of the shift that all places of each survey share, metres: it was taken off.
    """
    there, back = _few(len(after.corners)), _few(len(before.corners))
    gap = np.vstack(
        [offsets(after.corners[there], before.paths), -offsets(before.corners[back], after.paths)]
    )
    spread = np.concatenate(
        [
            _joint(after, there, before, common, motion),
            _joint(before, back, after, common, motion),
        ]
    )
    square = (gap**2).sum(axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        way = np.where(square[:, None] > 0.0, gap / np.sqrt(square)[:, None], [1.0, 0.0])
    variance = np.einsum("ni,nij,nj->n", way, spread, way)
    worst = int(np.argmax(square / variance))
    chance = min(1.0, len(gap) * place_chance(float((square / variance)[worst])))
    # The number of corners is part of what a change must beat.
    sigma = math.sqrt(float(variance[worst])) * max(1.0, math.sqrt(1.0 + math.log(len(gap)) / 8.0))
    bearing = math.atan2(gap[worst, 1], gap[worst, 0])
    return Test(Figure.PLACE, math.sqrt(float(square[worst])), sigma, chance, 0.0, bearing)


def _few(count: int) -> Ints:
    rows = np.arange(count)
    return rows if count <= MOST_CORNERS else rows[np.linspace(0, count - 1, MOST_CORNERS).astype(np.int64)]


def _joint(
    one: Thing, rows: Ints, other: Thing, common: tuple[float, float], motion: Motion | None
) -> Floats:
    """(n, 2, 2) covariance of corners of one thing off the other, without what all places share."""
    corners = one.corners[rows]
    near = ((corners[:, None] - other.corners[None]) ** 2).sum(axis=2).argmin(axis=1)
    out = one.spread[rows] + other.spread[near] - (common[0] ** 2 + common[1] ** 2) * np.eye(2)
    values, vectors = np.linalg.eigh(out)
    out = np.einsum("nij,nj,nkj->nik", vectors, np.maximum(values, LEAST_VARIANCE), vectors)
    return np.asarray(out if motion is None else out + motion.spread(corners))
