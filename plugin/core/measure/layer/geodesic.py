# SPDX-License-Identifier: GPL-2.0-or-later
"""Runs too wide for a plane: along geodesics of the ellipsoid, at the height of the ground."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...quantity import Floats
from .edges import Edges
from .ground import Grounded, GroundWay
from .shapes import Shapes


@dataclass(frozen=True)
class WideRun:
    """Area in m2 (signed) and length in m of a ring or line, and the root of the sum of squares of their changes by
    its points: of the area in m, of the length without unit."""

    area: float
    length: float
    area_moves: float
    length_moves: float


def measure_wide_run(shapes: Shapes, ground: Grounded, edges: Edges, way: GroundWay, run: int) -> WideRun:
    """One ring or line, straights as geodesics. What an arc adds to its chord is taken in the plane about its
    feature's middle, and turned to its chord's own scale.

    Source:
        Karney, Algorithms for geodesics, J. Geodesy 87 (2013) 43-55, through pyproj.
    """
    first, last = int(edges.start[run]), int(edges.start[run + 1])
    points = np.append(edges.p[first:last], edges.q[last - 1])
    lon, lat = ground.lonlat[points].T
    factor = float(ground.factor[shapes.feature[run]])
    area = way.geod.polygon_area_perimeter(lon, lat)[0] * factor**2
    # As lists: pyproj 3.7 takes arrays of one for a single point, and gives no arrays back.
    there, back, sides = way.geod.inv(*(v.tolist() for v in (lon[:-1], lat[:-1], lon[1:], lat[1:])))
    sides = np.asarray(sides) * factor
    length = float(sides.sum())
    for k in np.flatnonzero((edges.arc >= first) & (edges.arc < last)):
        side, chord = sides[edges.arc[k] - first], edges.arcs.size[k]
        scale = side / chord if chord > 0.0 else 1.0
        area += float(edges.arcs.segments[k]) * scale**2
        length += float(edges.arcs.lengths[k]) * scale - side
    is_closed = bool((lon[0] == lon[-1]) and (lat[0] == lat[-1]))
    return WideRun(
        float(area), length, *_moves(np.asarray(there), np.asarray(back), sides, is_closed=is_closed)
    )


def _moves(there: Floats, back: Floats, sides: Floats, *, is_closed: bool) -> tuple[float, float]:
    """A point moves the area by half the way from the point before to the one after, and the length by the
    difference of the directions; an end by half a side, and by one."""
    turn = np.radians(there[1:] - (back[:-1] + 180.0))
    before, after = sides[:-1], sides[1:]
    if is_closed:
        turn = np.append(turn, np.radians(there[0] - (back[-1] + 180.0)))
        before, after = np.append(before, sides[-1]), np.append(after, sides[0])
    across = before**2 + after**2 + 2.0 * before * after * np.cos(turn)
    by_area, by_length = 0.25 * across.sum(), (2.0 - 2.0 * np.cos(turn)).sum()
    if not is_closed:
        by_area += 0.25 * (sides[0] ** 2 + sides[-1] ** 2)
        by_length += 2.0
    return float(np.sqrt(by_area)), float(np.sqrt(by_length))
