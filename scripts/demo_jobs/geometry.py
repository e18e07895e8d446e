# SPDX-License-Identifier: GPL-2.0-or-later
"""Plane geometry of the demo sites, on its own so that it can judge the plugin's."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

Point = tuple[float, float]
Height = Callable[[float, float], float]


def point_at(centre: Point, radius: float, angle_deg: float) -> Point:
    """The point of a circle at an angle (degrees, anticlockwise from x)."""
    angle = math.radians(angle_deg)
    return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)


def angle_of(centre: Point, point: Point) -> float:
    """Direction in degrees from a centre to a point, anticlockwise from x."""
    return math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))


def spread(first: float, last: float, parts: int) -> tuple[float, ...]:
    """`parts` + 1 even steps from first to last, both exact."""
    return (*(first + (last - first) * i / parts for i in range(parts)), last)


def polygon_area(corners: Sequence[Point]) -> float:
    """Signed area of a polygon of straights, anticlockwise positive."""
    ends = (*corners[1:], corners[0])
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, ends)) / 2.0


def path_length(points: Sequence[Point]) -> float:
    """Length of an open path of straights."""
    return sum(math.dist(a, b) for a, b in zip(points, points[1:]))


def ring_length(corners: Sequence[Point]) -> float:
    """Length of a closed path of straights."""
    return path_length((*corners, corners[0]))


def arc_length(radius: float, sweep_deg: float) -> float:
    """Length of an arc."""
    return radius * math.radians(abs(sweep_deg))


def segment_area(radius: float, sweep_deg: float) -> float:
    """Area between an arc and its chord."""
    sweep = math.radians(abs(sweep_deg))
    return radius * radius * (sweep - math.sin(sweep)) / 2.0
