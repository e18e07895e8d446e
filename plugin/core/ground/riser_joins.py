# SPDX-License-Identifier: GPL-2.0-or-later
"""Risers that stand a little off the edge that they belong to, because edge and steps were walked apart."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..defaults import JOIN_WITHIN
from ..quantity import Floats, Ints
from ..shape.boxes import find_meeting_boxes
from .unlike import is_unlike

MOST_OF_LEG = 0.9
"""A leg must keep some length when a riser goes along it."""


@dataclass(frozen=True, eq=False)
class Legs:
    """What may cross: (n, 3) points and (n,) variances of their heights, (n,) the line of each, (k,) rows where legs start."""

    points: Floats
    variance: Floats
    line: Ints
    rows: Ints


def find_joins(legs: Legs, start: Ints, ahead: Ints, other: Ints) -> dict[int, Floats]:
    """Where another line's leg crosses the leg that leads on from one end of a riser, at the height of its other end.

    Such a riser stands on that edge: it was walked up to JOIN_WITHIN off it, and its leg runs on under (or over) the edge.

    Args:
        legs: of all lines.
        start: (r,) rows of one end of a riser.
        ahead: (r,) of the next vertex on from it.
        other: (r,) of the riser's other end.
    Returns:
        By row of `start` the way (2,) to the edge in plan, metres; the nearest crossing counts.
    """
    if not len(start):
        return {}
    p = legs.points
    base = p[start, :2]
    way = p[ahead, :2] - base
    length = np.hypot(*way.T)
    short = way * np.minimum(1.0, JOIN_WITHIN / length)[:, None]
    a, b = p[legs.rows, :2], p[legs.rows + 1, :2]
    boxes = (
        np.minimum(base, base + short),
        np.maximum(base, base + short),
        np.minimum(a, b),
        np.maximum(a, b),
    )
    found: dict[int, tuple[float, Floats]] = {}
    for i, k in find_meeting_boxes(*boxes):
        part, along, z, variance = _crossing(legs, legs.rows[k], (base[i], short[i]))
        is_there = (
            (part > 0.0)
            & (part * np.hypot(*short[i].T) < MOST_OF_LEG * length[i])
            & (part <= 1.0)
            & (along >= 0.0)
            & (along <= 1.0)
        )
        is_there &= legs.line[legs.rows[k]] != legs.line[start[i]]
        top = other[i]
        is_there &= ~is_unlike(z - p[top, 2], variance + legs.variance[top])
        is_there &= is_unlike(z - p[start[i], 2], variance + legs.variance[start[i]])
        for one, t in zip(i[is_there].tolist(), part[is_there].tolist()):
            row = int(start[one])
            if row not in found or t < found[row][0]:
                found[row] = (t, short[one] * t)
    return {row: shift for row, (_, shift) in found.items()}


def _crossing(legs: Legs, rows: Ints, short: tuple[Floats, Floats]) -> tuple[Floats, Floats, Floats, Floats]:
    """Parts of the short ways and of the legs at which they cross (NaN of parallels), and the legs' heights there with their
    variances."""
    a, v = legs.points[rows, :2], legs.points[rows + 1, :2] - legs.points[rows, :2]
    base, u = short
    to = a - base
    with np.errstate(divide="ignore", invalid="ignore"):
        det = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        part = (to[:, 0] * v[:, 1] - to[:, 1] * v[:, 0]) / det
        along = (to[:, 0] * u[:, 1] - to[:, 1] * u[:, 0]) / det
        z = legs.points[rows, 2] * (1.0 - along) + legs.points[rows + 1, 2] * along
        variance = legs.variance[rows] * (1.0 - along) ** 2 + legs.variance[rows + 1] * along**2
    return part, along, z, variance
