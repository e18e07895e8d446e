# SPDX-License-Identifier: GPL-2.0-or-later
"""Exact edges: runs of straights and circular arcs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .quantity import Floats, Ints

FLAT = 0.02
"""Radians of half sweep below which the series stand in for the closed forms (both good to 4e-13 there)."""
STRAIGHT = 1e-12
"""Radians of half sweep below which an edge is drawn straight: 1e-9 m on a chord of a kilometre."""
SAG = 0.002
"""Metres: how far a chord may lie from its arc unless told otherwise (formats.md, chorded copy)."""
FULL_TURN_CHORDS = 12
"""A full circle is never drawn with fewer chords than this, however small it is."""


@dataclass(frozen=True, eq=False)
class Curve:
    """A run of straights and circular arcs through v points.

    Attributes:
        points: (v, 3) x, y, z in metres; z is NaN where there is no height.
        bulge: (v-1,) tan of a quarter of each edge's sweep: 0 for a straight, positive where the arc turns
            left (anticlockwise) going from its first point to its last. A full circle is two half arcs.
    """

    points: Floats
    bulge: Floats


def half_sweeps(bulge: Floats) -> Floats:
    """(e,) half of each edge's sweep in radians, -pi to pi, positive to the left."""
    return np.asarray(2.0 * np.arctan(bulge))


def bulges(half: Floats) -> Floats:
    """(e,) tan of a quarter of the sweep, from half the sweep in radians."""
    return np.asarray(np.tan(0.5 * np.asarray(half)))


def length_factor(half: Floats) -> tuple[Floats, Floats]:
    """Arc length by chord, a/sin(a) at half sweep a, and its derivative by a; 1 and 0 for a straight."""
    if not half.any():  # lines of straights are many and short
        return np.ones(half.shape), np.zeros(half.shape)
    flat = np.abs(half) < FLAT
    a = np.where(flat, 1.0, half)
    sin, cos = np.sin(a), np.cos(a)
    h2 = half * half
    value = np.where(flat, 1.0 + h2 * (1 / 6 + h2 * (7 / 360 + h2 * 31 / 15120)), a / sin)
    slope = np.where(flat, half * (1 / 3 + h2 * (7 / 90 + h2 * 31 / 2520)), (sin - a * cos) / sin**2)
    return value, slope


def segment_factor(half: Floats) -> tuple[Floats, Floats]:
    """Area between arc and chord, by an eighth of the chord squared: (2a - sin 2a)/sin(a)^2 at half sweep a,
    and its derivative by a; positive where the arc turns left."""
    flat = np.abs(half) < FLAT
    a = np.where(flat, 1.0, half)
    sin, cos = np.sin(a), np.cos(a)
    h2 = half * half
    closed = (2.0 * a - np.sin(2.0 * a)) / sin**2
    series = half * (4 / 3 + h2 * (8 / 45 + h2 * (8 / 315 + h2 * 16 / 4725)))
    value = np.where(flat, series, closed)
    series_slope = 4 / 3 + h2 * (8 / 15 + h2 * (8 / 63 + h2 * 16 / 675))
    slope = np.where(flat, series_slope, 4.0 - 2.0 * closed * cos / sin)
    return value, slope


def edge_lengths(curve: Curve) -> Floats:
    """(v-1,) length of each edge in plan, metres."""
    chord = np.diff(curve.points[:, :2], axis=0)
    return np.asarray(np.hypot(chord[:, 0], chord[:, 1]) * length_factor(half_sweeps(curve.bulge))[0])


def path_length(curve: Curve) -> float:
    """Length in plan, metres."""
    return float(edge_lengths(curve).sum())


def slope_length(curve: Curve) -> float:
    """Length along the slope in metres, heights running evenly along each edge; NaN where one is missing."""
    return float(np.hypot(edge_lengths(curve), np.diff(curve.points[:, 2])).sum())


def ring_area(curve: Curve) -> float:
    """Area in plan of a closed curve (its last point is its first) in m2, positive anticlockwise.

    The first point is subtracted before the cross products, so that a large offset costs nothing.
    """
    if not len(curve.bulge):
        return 0.0
    xy = curve.points[:, :2] - curve.points[0, :2]
    cross = xy[:-1, 0] * xy[1:, 1] - xy[1:, 0] * xy[:-1, 1]
    chord = np.diff(xy, axis=0)
    segment = (chord**2).sum(axis=1) * segment_factor(half_sweeps(curve.bulge))[0] / 8.0
    return float(0.5 * cross.sum() + segment.sum())


def radii(curve: Curve) -> Floats:
    """(v-1,) radius of each edge in metres, infinite for a straight."""
    chord = np.diff(curve.points[:, :2], axis=0)
    sin = np.abs(np.sin(half_sweeps(curve.bulge)))
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(np.where(sin > 0, 0.5 * np.hypot(chord[:, 0], chord[:, 1]) / sin, np.inf))


def reversed_curve(curve: Curve) -> Curve:
    """The same run from its end to its start."""
    return Curve(curve.points[::-1], -curve.bulge[::-1])


def chorded(curve: Curve, sag: float = SAG) -> Floats:
    """(n, 3) the run as straights whose middles lie within `sag` metres of the arcs; heights run evenly."""
    if not curve.bulge.any():
        return curve.points.copy()
    half = half_sweeps(curve.bulge)
    radius = np.where(np.isfinite(radii(curve)), radii(curve), 0.0)
    step = 2.0 * np.arccos(np.clip(1.0 - sag / np.maximum(radius, sag), 0.0, 1.0))
    step = np.minimum(step, 2.0 * np.pi / FULL_TURN_CHORDS)
    counts = np.where(np.abs(half) < STRAIGHT, 1, np.ceil(2.0 * np.abs(half) / np.maximum(step, 1e-6)))
    return points_along(curve, np.maximum(counts, 1).astype(int))


def points_along(curve: Curve, counts: Ints) -> Floats:
    """(n, 3) points that divide edge e into counts[e] parts of equal length, first and last point included.

    A point at part f of an arc of half sweep a lies at chord * sin(f a)/sin(a) from the start, turned by
    (1 - f) a to the right of the chord: no centre is needed, so flat arcs lose nothing.
    """
    if not len(curve.bulge):
        return curve.points
    edge = np.repeat(np.arange(len(counts)), counts)
    part = (np.arange(len(edge)) - np.repeat(np.cumsum(counts) - counts, counts)) / np.repeat(counts, counts)
    start, chord = curve.points[edge], np.diff(curve.points, axis=0)[edge]
    half = half_sweeps(curve.bulge)[edge]
    sin = np.sin(half)
    flat = np.abs(half) < STRAIGHT
    reach = np.where(flat, part, np.sin(part * half) / np.where(flat, 1.0, sin))
    turn = -(1.0 - part) * half
    cos_t, sin_t = np.cos(turn), np.sin(turn)
    x = start[:, 0] + reach * (cos_t * chord[:, 0] - sin_t * chord[:, 1])
    y = start[:, 1] + reach * (sin_t * chord[:, 0] + cos_t * chord[:, 1])
    inner = np.column_stack([x, y, start[:, 2] + part * chord[:, 2]])
    inner[part == 0.0] = start[part == 0.0]
    return np.vstack([inner, curve.points[-1:]])


def part_of_ring(ring: Floats, points: Floats) -> Floats:
    """(n,) whether each point lies inside the closed polygon of straights (crossing number)."""
    x, y = points[:, 0, None], points[:, 1, None]
    x0, y0 = ring[None, :-1, 0], ring[None, :-1, 1]
    x1, y1 = ring[None, 1:, 0], ring[None, 1:, 1]
    spans = (y0 > y) != (y1 > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        where = x0 + (y - y0) * (x1 - x0) / (y1 - y0)
    return np.asarray((spans & (x < where)).sum(axis=1) % 2 == 1)
