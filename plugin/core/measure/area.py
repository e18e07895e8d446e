# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas in plan and on the slope, and the fall of the plane through an outline's stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..positions import Positions
from ..quantity import Floats, Gradient, Quantity
from ..segments import segment_factor
from ..shape.records import Piece
from .figure import Figure, by_stations, mix

HEIGHTS = 3
"""Heights that a plane needs."""
IN_LINE = 1e-6
"""Stations whose spread across is less than this part (squared) of that along lie in one line: no plane."""
ANY_DIRECTION = 180.0 / np.sqrt(3.0)
"""Degrees: one-sigma of a direction that may be any (GUM 4.3.7, limits of 180 degrees either way)."""


def ring_figure(piece: Piece) -> Figure:
    """Area in plan inside a closed piece, m2, positive whichever way it was walked.

    Half the sum of cross products about the first vertex (so that large coordinates cost nothing), and of
    each arc an eighth of its chord squared times (2a - sin 2a)/sin(a)^2, a half its sweep.
    """
    xy = piece.points[:, :2] - piece.points[0, :2]
    first, last = piece.ends
    a, b = xy[first], xy[last]
    chord = b - a
    square = (chord**2).sum(axis=1)
    factor, slope = segment_factor(piece.half)
    value = 0.5 * float((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum()) + float((square * factor).sum()) / 8.0
    before, after = np.roll(xy, 1, axis=0), np.roll(xy, -1, axis=0)
    by_vertex = 0.5 * np.column_stack([after[:, 1] - before[:, 1], before[:, 0] - after[:, 0]])
    moves = 0.25 * factor[:, None] * chord
    np.add.at(by_vertex, last, moves)
    np.add.at(by_vertex, first, -moves)
    sign = 1.0 if value >= 0.0 else -1.0
    gradient = by_stations(piece, sign * by_vertex, sign * square * slope / 8.0)
    return Figure(abs(value), gradient)


def net_figure(outer: Figure, holes: Sequence[Figure]) -> Figure:
    """An area less its holes, m2; it moves with the holes' stations too."""
    value = outer.value - sum(hole.value for hole in holes)
    return mix(value, [(1.0, outer.gradient), *((-1.0, hole.gradient) for hole in holes)])


@dataclass(frozen=True, eq=False)
class Plane:
    """The least-squares plane through n places: slopes p = dz/dx and q = dz/dy. `places` are the stations of each (two
    where two stations are taken as one point)."""

    p: Figure
    q: Figure
    places: tuple[tuple[int, ...], ...]


def fit_plane(positions: Positions, piece: Piece) -> Plane | None:
    """The plane nearest in height to the stations of a closed piece; None with fewer than three heights, or
    where they lie in one line. Two stations taken as one point count as one.

    With d the stations about their mean and S = sum d d', (p, q) = S^-1 sum d z; a station moves it by
    S^-1 d in height and by S^-1 (e r - d p_e) in direction e, where r is its residual.
    """
    stations = _stations(positions, piece)
    if len(stations) < HEIGHTS:
        return None
    xy = np.array([positions.xy[list(rows)].mean(axis=0) for rows in stations])
    z = np.array([positions.z[list(rows)].mean() for rows in stations])
    d, z = xy - xy.mean(axis=0), z - z.mean()
    spread = d.T @ d
    a, b, c = spread[0, 0], spread[0, 1], spread[1, 1]
    determinant, trace = a * c - b * b, a + c
    if determinant <= IN_LINE * trace**2:
        return None
    inverse = np.array([[c, -b], [-b, a]]) / determinant
    pq = inverse @ (d.T @ z)
    residual = z - d @ pq
    by_z = d @ inverse
    by_xy = np.einsum("ab,i->iab", inverse, residual) - np.einsum("ia,b->iab", by_z, pq)
    p, q = (_told(float(pq[k]), stations, by_xy[:, k], by_z[:, k]) for k in (0, 1))
    return Plane(p, q, tuple(stations))


def _stations(positions: Positions, piece: Piece) -> list[tuple[int, ...]]:
    groups: dict[tuple[int, ...], None] = {}
    for leg in piece.legs:
        groups.update(dict.fromkeys((leg.start, *((row,) for row in leg.passed), leg.end)))
    return [rows for rows in groups if rows and np.isfinite(positions.z[list(rows)]).all()]


def _told(value: float, stations: list[tuple[int, ...]], by_xy: Floats, by_z: Floats) -> Figure:
    """A figure of points, told by the stations of which each point is the mean."""
    sizes = np.array([len(rows) for rows in stations])
    index = np.array([row for rows in stations for row in rows], dtype=np.int64)
    plan = np.repeat(by_xy / sizes[:, None], sizes, axis=0)
    return Figure(value, Gradient(index, plan, np.repeat(by_z / sizes, sizes)))


def sloped_figure(area: Figure, plane: Plane) -> Figure:
    """Area on the slope, A sqrt(1 + p^2 + q^2), m2."""
    p, q = plane.p, plane.q
    factor = float(np.sqrt(1.0 + p.value**2 + q.value**2))
    parts = [(factor, area.gradient)]
    parts += [(area.value * s.value / factor, s.gradient) for s in (p, q)]
    return mix(area.value * factor, parts)


def measure_fall(plane: Plane, positions: Positions) -> Quantity:
    """Steepest fall of the plane, a ratio, never negative. Level to the last digit it has no direction to
    vary in; its one-sigma is then the larger of those of p and q."""
    p, q = plane.p, plane.q
    fall = float(np.hypot(p.value, q.value))
    if fall == 0.0:
        slopes = (p.quantity(positions, "ratio"), q.quantity(positions, "ratio"))
        larger = max(slopes, key=lambda slope: slope.sigma)
        return Quantity(0.0, larger.sigma, "ratio", larger.moves)
    return mix(fall, [(s.value / fall, s.gradient) for s in (p, q)]).quantity(positions, "ratio")


def fall_bearing(plane: Plane, positions: Positions, grid_turn: float) -> Quantity | None:
    """Grid bearing in degrees, clockwise, of the direction in which the plane falls, 0 to 360; None where it is
    level. `grid_turn` is the turn from the survey plane to the grid, anticlockwise, radians.

    The direction moves by (p dq - q dp) / (p^2 + q^2). Where that is more than no knowledge at all would give, the
    one-sigma is that of a direction of which nothing is known.
    """
    p, q = plane.p, plane.q
    square = p.value**2 + q.value**2
    if square == 0.0:
        return None
    angle = np.arctan2(-q.value, -p.value)
    turned = mix(float(angle), [(p.value / square, q.gradient), (-q.value / square, p.gradient)])
    sigma = np.degrees(turned.quantity(positions, "rad").sigma)
    bearing = np.mod(90.0 - np.degrees(angle + grid_turn), 360.0)
    return Quantity(
        float(bearing),
        float(min(sigma, ANY_DIRECTION)),
        "deg",
        lambda: mix(0.0, [(float(np.degrees(1.0)), turned.gradient)]).gradient,
    )
