# SPDX-License-Identifier: GPL-2.0-or-later
"""Area and centroid of outlines with exact arcs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..quantity import Floats
from .lines import Line

FLAT = 1e-3
"""Radians of half sweep below which a segment's moment is its series' first term, good to 1e-6 of itself."""


@dataclass(frozen=True, eq=False)
class Moments:
    """Area in m2, positive, and centroid (2,) from the origin it was taken about, metres."""

    area: float
    centroid: Floats


def moments_of(rings: list[Line], origin: Floats) -> Moments:
    """Of rings, holes turned the other way round than their outer ring.

    Source:
        Triangles from the origin; a circular segment of chord c and half sweep a lies, with its moment c^3/12 - S R cos a,
        off its chord (S its area, R its radius): its centroid is 2/3 R^3 sin^3 a / S from the centre.
    """
    total, moment = 0.0, np.zeros(2)
    for ring in rings:
        xy = ring.points[:, :2] - origin
        a, b = xy[ring.edges.p], xy[ring.edges.q]
        cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
        total += 0.5 * float(cross.sum())
        moment += (cross[:, None] * (a + b)).sum(axis=0) / 6.0
        arcs, chord = ring.edges.arcs, (b - a)[ring.edges.arc]
        middle = 0.5 * (a + b)[ring.edges.arc]
        full_middle = 0.5 * (xy[ring.edges.p[ring.edges.arc]] + xy[ring.edges.mid])
        middle = np.where(arcs.is_full[:, None], full_middle, middle)
        segments = arcs.segments
        total += float(segments.sum())
        moment += (segments[:, None] * middle).sum(axis=0) + _lifts(chord, arcs.half, arcs.is_full).sum(
            axis=0
        )
    return Moments(abs(total), moment / total if total else moment)


def _lifts(chord: Floats, half: Floats, is_full: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> Floats:
    """(k, 2) signed moment of each segment about its chord's middle: to the right of the way where the arc turns left."""
    size = np.hypot(chord[:, 0], chord[:, 1])
    a = np.where(np.abs(half) < FLAT, 1.0, np.abs(half))
    sin, cos = np.sin(a), np.cos(a)
    closed = 1.0 / 12.0 - (2.0 * a - np.sin(2.0 * a)) * cos / (16.0 * sin**3)
    value = np.where(np.abs(half) < FLAT, half**2 / 60.0, closed) * size**3
    value = np.where(is_full, 0.0, value)
    with np.errstate(divide="ignore", invalid="ignore"):
        right = np.where(
            size[:, None] > 0.0, np.column_stack([chord[:, 1], -chord[:, 0]]) / size[:, None], 0.0
        )
    # The segment lies to the right of a left turn and counts positive; to the left of a right turn, and negative.
    return np.asarray(value[:, None] * right)
