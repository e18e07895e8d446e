# SPDX-License-Identifier: GPL-2.0-or-later
"""A figure as a sum that can be followed with a pocket calculator: each edge with the numbers that it gives.

This measures nothing: it takes apart what was measured, and its sum must come to the figure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats
from ..segments import STRAIGHT, Curve, edge_lengths, half_sweeps, radii, segment_factor

SAME_PLACE = 1e-6
"""Metres: places that are nearer are one."""


@dataclass(frozen=True)
class EdgeTerm:
    """What one edge gives.

    Attributes:
        start, end: (x, y) of its ends from the first corner of its outline, metres.
        chord, length: metres in plan; `rise` metres, NaN where a height is missing.
        radius: metres, infinite of a straight; `sweep` radians, positive to the left, 0 of a straight.
        cross: half the cross product of its ends, m2; `segment`: between arc and chord, m2, positive to the left.
    """

    start: tuple[float, float]
    end: tuple[float, float]
    chord: float
    length: float
    rise: float
    radius: float
    sweep: float
    cross: float
    segment: float

    @property
    def is_arc(self) -> bool:
        """Whether it is an arc."""
        return self.sweep != 0.0

    @property
    def slope(self) -> float:
        """Metres along the slope, the height running evenly; NaN where one is missing."""
        return math.hypot(self.length, self.rise)


def edge_terms(curve: Curve) -> tuple[EdgeTerm, ...]:
    """What each edge of a curve gives, in order.

    Source: cross products (surveyor's formula) about the first corner, and segments (theta - sin theta) r^2 / 2; of a
    flat arc, of which neither r nor the difference can be told well, by the chord, as the figure was measured.
    """
    if not len(curve.bulge):
        return ()
    xy = curve.points[:, :2] - curve.points[0, :2]
    half = half_sweeps(curve.bulge)
    half = np.where(np.abs(half) < STRAIGHT, 0.0, half)
    step = np.diff(curve.points, axis=0)
    square = step[:, 0] ** 2 + step[:, 1] ** 2
    columns = zip(
        xy[:-1].tolist(),
        xy[1:].tolist(),
        np.sqrt(square).tolist(),
        edge_lengths(curve).tolist(),
        step[:, 2].tolist(),
        radii(curve).tolist(),
        (2.0 * half).tolist(),
        (0.5 * (xy[:-1, 0] * xy[1:, 1] - xy[1:, 0] * xy[:-1, 1])).tolist(),
        (square * segment_factor(half)[0] / 8.0).tolist(),
    )
    return tuple(EdgeTerm((a[0], a[1]), (b[0], b[1]), *rest) for a, b, *rest in columns)


@dataclass(frozen=True)
class RingSum:
    """One outline: its edges; the sum of their cross products, that of their segments, and both, m2, positive
    whichever way it runs."""

    edges: tuple[EdgeTerm, ...]
    straights: float
    segments: float

    @property
    def area(self) -> float:
        """Inside it, m2."""
        return self.straights + self.segments


def sum_ring(curve: Curve) -> RingSum:
    """The area inside a closed curve, taken apart."""
    edges = edge_terms(curve)
    straights, segments = math.fsum(e.cross for e in edges), math.fsum(e.segment for e in edges)
    sign = -1.0 if straights + segments < 0.0 else 1.0
    return RingSum(edges, sign * straights, sign * segments)


def sum_lengths(curves: Iterable[Curve]) -> float:
    """Metres in plan."""
    return math.fsum(edge.length for curve in curves for edge in edge_terms(curve))


@dataclass(frozen=True)
class StandingArc:
    """An arc in the vertical plane: its ends in the survey plane, radius in metres, sweep in radians (not signed)."""

    start: tuple[float, float, float]
    end: tuple[float, float, float]
    radius: float
    sweep: float


@dataclass(frozen=True)
class SlopeSum:
    """Lengths along the slope: edges with an even rise, and arcs that stand in the vertical plane. Metres."""

    edges: tuple[EdgeTerm, ...]
    standing: tuple[StandingArc, ...]

    @property
    def length(self) -> float:
        """The whole; NaN where a height is missing."""
        standing = (arc.radius * arc.sweep for arc in self.standing)
        return math.fsum((*(e.slope for e in self.edges), *standing))


def sum_slopes(curves: Iterable[Curve], standing: Sequence[StandingArc] = ()) -> SlopeSum:
    """The length along the slope, taken apart. Chords that stand for a standing arc give way to it."""
    edges: list[EdgeTerm] = []
    found: list[StandingArc] = []
    for curve in curves:
        terms = edge_terms(curve)
        k = 0
        while k < len(terms):
            arc = next((arc for arc in standing if _near(curve.points[k], arc.start)), None)
            last = _reached(curve.points, k, arc)
            if arc is None or last is None:
                edges.append(terms[k])
                k += 1
            else:
                found.append(arc)
                k = last
    return SlopeSum(tuple(edges), tuple(found))


def _reached(points: Floats, start: int, arc: StandingArc | None) -> int | None:
    if arc is None:
        return None
    return next((k for k in range(start + 1, len(points)) if _near(points[k], arc.end)), None)


def _near(point: Floats, place: Sequence[float]) -> bool:
    return math.dist(point.tolist(), place) < SAME_PLACE


@dataclass(frozen=True)
class PlaneFit:
    """The least-squares plane through heights: rises by metre east (p) and north (q), of `count` places."""

    p: float
    q: float
    count: int

    @property
    def fall(self) -> float:
        """How steep it is, a ratio."""
        return math.hypot(self.p, self.q)

    def bearing_deg(self, grid_turn: float) -> float:
        """Where it falls to, degrees clockwise from grid north; `grid_turn` in radians from the plane to the grid."""
        return (90.0 - math.degrees(math.atan2(-self.q, -self.p) + grid_turn)) % 360.0


def plane_through(places: Floats) -> PlaneFit | None:
    """The plane nearest in height to (n, 3) places, by the normal equations; None where there is none."""
    if len(places) < 3:
        return None
    x, y, z = (places - places.mean(axis=0)).T
    xx, xy, yy = float(x @ x), float(x @ y), float(y @ y)
    determinant = xx * yy - xy * xy
    if not determinant > 0.0:
        return None
    xz, yz = float(x @ z), float(y @ z)
    return PlaneFit((yy * xz - xy * yz) / determinant, (xx * yz - xy * xz) / determinant, len(places))


def merged_places(places: Mapping[int, tuple[float, float, float]], pairs: Iterable[Sequence[int]]) -> Floats:
    """(n, 3) places of numbered stations, those that stand for one place taken as their mean."""
    left = dict(places)
    means = []
    for pair in pairs:
        both = [left.pop(number) for number in pair if number in left]
        if both:
            means.append(tuple(np.mean(both, axis=0).tolist()))
    return np.array([*means, *left.values()], dtype=float).reshape(-1, 3)


def combined(sigmas: Mapping[str, float]) -> float:
    """Independent parts in quadrature."""
    return math.sqrt(sum(sigma * sigma for sigma in sigmas.values()))


def shares(sigmas: Mapping[str, float]) -> dict[str, float]:
    """The part of the variance that each has; they add up to 1."""
    whole = combined(sigmas) ** 2
    return {name: sigma * sigma / whole if whole > 0.0 else 0.0 for name, sigma in sigmas.items()}
