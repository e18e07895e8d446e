# SPDX-License-Identifier: GPL-2.0-or-later
"""Exact edges of the survey plane as curve geometries of a map CRS, in ISO well-known binary."""

from __future__ import annotations

import math
import struct
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from ..core.segments import Curve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..core.measure.layer.fits import FlatPlane
    from ..core.plane import SurveyPlane
    from ..core.quantity import Floats, Ints

LEAST_RISE_M = 1e-5
"""Metres: an arc that rises less than this over its chord is written as a straight. Hosts measure an arc
through three points in one line wrongly (by up to half its length), and a hundredth of a millimetre is
nothing on the ground."""

POINT = 1
POINT_Z, LINE_Z, POLYGON_Z, MULTI_LINE_Z, MULTI_POLYGON_Z = 1001, 1002, 1003, 1005, 1006
ARCS_Z, COMPOUND_Z, CURVE_POLYGON_Z, MULTI_CURVE_Z = 1008, 1009, 1010, 1011
"""Geometry codes of ISO/IEC 13249-3 (SQL/MM); all but the first with z."""

_TRIANGLE = np.dtype(
    [("order", "u1"), ("code", "<u4"), ("rings", "<u4"), ("count", "<u4"), ("xyz", "<f8", (4, 3))]
)
"""A polygon of one ring of four points in well-known binary."""


@dataclass(frozen=True)
class MapFrame:
    """From survey-plane metres to the layer's CRS; without a plane (not placed) the metres stay.

    Heights go into the CRS's length unit, so that a layer in feet has one unit for all three axes. With a
    `sag` in metres arcs become chords that lie nowhere further from them than that: for readers without
    curves.
    """

    plane: SurveyPlane | FlatPlane | None
    sag: float | None = None

    def points(self, xyz: Floats) -> Floats:
        """(n, 3) survey plane, metres -> (n, 3) in the layer CRS's axes (east first) and length unit."""
        if self.plane is None or not len(xyz):
            return xyz
        return np.column_stack([self.plane.to_crs(xyz[:, :2]), xyz[:, 2] / self.plane.crs_unit_m])

    def map_xy(self, xy: tuple[float, float]) -> tuple[float, float]:
        """A place in the survey plane in the layer CRS's axes, east first."""
        x, y, _ = self.points(np.array([[*xy, 0.0]]))[0]
        return float(x), float(y)

    def point(self, xyz: tuple[float, float, float]) -> bytes:
        """A point with z."""
        return _head(POINT_Z) + _doubles(self.points(np.array([xyz], dtype=float)))

    def flat_point(self, xy: tuple[float, float]) -> bytes:
        """A point without z."""
        return _head(POINT) + struct.pack("<2d", *self.map_xy(xy))

    def line(self, run: Curve) -> bytes:
        """A compound curve of straights and arcs (a line of chords where a sag is set)."""
        if self.sag is not None:
            return _piece(LINE_Z, self._chorded(run))
        return _compound(self._pieces(run))

    def lines(self, runs: Sequence[Curve]) -> bytes:
        """A multi-curve, one compound curve a run (a multi-line where a sag is set)."""
        code = MULTI_CURVE_Z if self.sag is None else MULTI_LINE_Z
        return _head(code) + _count(runs) + b"".join(self.line(run) for run in runs)

    def polygon(self, outline: Sequence[Curve]) -> bytes:
        """A curve polygon: the outer ring, then the holes; all are closed to the bit."""
        if self.sag is not None:
            rings = [self._chorded(_closed(ring)) for ring in outline]
            return _head(POLYGON_Z) + _count(rings) + b"".join(_count(r) + _doubles(r) for r in rings)
        return _head(CURVE_POLYGON_Z) + _count(outline) + b"".join(self._ring(ring) for ring in outline)

    def triangles(self, points: Floats, triangles: Ints) -> bytes:
        """A multi-polygon of triangles, (m, 3) rows of the (n, 3) points: all written at once, for there are many."""
        rings = np.zeros(len(triangles), _TRIANGLE)
        rings["order"], rings["code"], rings["rings"], rings["count"] = 1, POLYGON_Z, 1, 4
        rings["xyz"] = self.points(points)[np.column_stack([triangles, triangles[:, 0]])]
        return _head(MULTI_POLYGON_Z) + _count(triangles) + rings.tobytes()

    def _chorded(self, run: Curve) -> Floats:
        return self.points(run.points if self.sag is None else chords(run, self.sag))

    def _ring(self, ring: Curve) -> bytes:
        pieces = self._pieces(_closed(ring))
        return _piece(*pieces[0]) if len(pieces) == 1 and pieces[0][0] == LINE_Z else _compound(pieces)

    def _pieces(self, run: Curve) -> list[tuple[int, Floats]]:
        """Runs of like edges, in order: the geometry code and the points in the layer's CRS."""
        middles, is_arc = arc_middles(run)
        vertices, middles = self.points(run.points), self.points(middles)
        pieces: list[tuple[int, Floats]] = []
        start = 0
        for end in range(1, len(is_arc) + 1):
            if end == len(is_arc) or is_arc[end] != is_arc[start]:
                corners = vertices[start : end + 1]
                if is_arc[start]:
                    pieces.append((ARCS_Z, _threaded(corners, middles[start:end])))
                else:
                    pieces.append((LINE_Z, corners))
                start = end
        return pieces


def arc_middles(run: Curve) -> tuple[Floats, npt.NDArray[np.bool_]]:
    """The middle point (e, 3) of each edge in the survey plane, and (e,) whether it is an arc worth keeping.

    The middle lies off the chord's middle by the rise, half the chord times the bulge, to the right of the
    way for an arc that turns left. Its height is midway: heights run evenly along an arc.
    """
    start, end = run.points[:-1], run.points[1:]
    chord = end - start
    rise = run.bulge * np.hypot(chord[:, 0], chord[:, 1]) / 2
    middle = (start + end) / 2
    middle[:, 0] += run.bulge * chord[:, 1] / 2
    middle[:, 1] -= run.bulge * chord[:, 0] / 2
    return middle, np.abs(rise) > LEAST_RISE_M


def chords(run: Curve, sag: float) -> Floats:
    """The run's points (n, 3) with enough on each arc that no chord lies further than `sag` metres from it.

    An arc of radius R and sweep w is cut evenly into n chords with R (1 - cos(w / 2n)) <= sag; heights run
    evenly along it.
    """
    pieces = [run.points[:1]]
    for start, end, bulge, is_arc in zip(run.points, run.points[1:], run.bulge, arc_middles(run)[1]):
        pieces.append(_arc_points(start, end, float(bulge), sag) if is_arc else end[None])
    return np.concatenate(pieces)


def _arc_points(start: Floats, end: Floats, bulge: float, sag: float) -> Floats:
    """The points of one arc's chords after its start."""
    sweep = 4 * math.atan(bulge)
    chord = end[:2] - start[:2]
    centre = (start[:2] + end[:2]) / 2 + np.array([-chord[1], chord[0]]) / (2 * math.tan(sweep / 2))
    arm = start[:2] - centre
    radius = math.hypot(*arm)
    count = math.ceil(abs(sweep) / (2 * math.acos(max(0.0, 1 - sag / radius))))
    part = np.arange(1, count + 1) / count
    cos, sin = np.cos(sweep * part), np.sin(sweep * part)
    x, y = centre[0] + arm[0] * cos - arm[1] * sin, centre[1] + arm[0] * sin + arm[1] * cos
    points = np.column_stack([x, y, start[2] + (end[2] - start[2]) * part])
    points[-1] = end
    return points


def _closed(ring: Curve) -> Curve:
    """The ring with its last point the very first one (a reader may compare the bits)."""
    points = ring.points.copy()
    points[-1] = points[0]
    return Curve(points, ring.bulge)


def _threaded(corners: Floats, middles: Floats) -> Floats:
    """Corners and middles in turn: the points of a circular string."""
    points = np.empty((2 * len(corners) - 1, 3))
    points[0::2], points[1::2] = corners, middles
    return points


def _compound(pieces: Sequence[tuple[int, Floats]]) -> bytes:
    return _head(COMPOUND_Z) + _count(pieces) + b"".join(_piece(*piece) for piece in pieces)


def _piece(code: int, points: Floats) -> bytes:
    return _head(code) + _count(points) + _doubles(points)


def _head(code: int) -> bytes:
    return struct.pack("<BI", 1, code)


def _count(things: Sequence[object] | Floats | Ints) -> bytes:
    return struct.pack("<I", len(things))


def _doubles(points: Floats) -> bytes:
    return np.ascontiguousarray(points, dtype="<f8").tobytes()
