# SPDX-License-Identifier: GPL-2.0-or-later
"""From a layer's coordinates to true metres on the ground, each feature about its own centre.

A feature's points are taken to its CRS's own ellipsoid and from there into a transverse Mercator plane about the
feature's middle, by a series: for that, no projection of the layer matters, and edges are straight on the ground
from point to point, whatever the map bends.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import pyproj

from ...errors import BadCrs
from ...plane import base_of, transform_points, zero_meridian
from ...quantity import Floats, Ints
from .metric import CellMetric
from .shapes import Flags, Shapes, sum_by

WIDE = 1000.0
"""Metres from its middle beyond which a feature is wide. There the plane's scale is 1 + 1.2e-8, and what the series
leaves out is below 1e-9."""
NEAR = 100.0
"""Metres from its middle within which every point of a feature lies whose metric is taken there: what the second
order leaves out is then 1e-9 of a length."""
NEAR_LAT = 1.3
"""Radians of latitude, 74.5 degrees, up to which that holds."""
WIDE_TURN = 2e-3
"""Radians of longitude from its middle beyond which it is wide too: near a pole the series fails sooner."""
TURN = 360.0
MOST_TURN = 1.5 * TURN
"""Degrees of longitude beyond which a place is none: layers go from -180 to 180 or from 0 to 360, and a feature on their
edge may reach half a turn farther."""
UNDEFINED = "undefined"
"""What the names of GeoPackage's CRSs that say nothing begin with (OGC 12-128r17, 1.1.2.1.2: srs_id -1 and 0)."""


@dataclass(frozen=True)
class Ellipsoid:
    """Half axis in metres and first eccentricity squared."""

    a: float
    e2: float


@dataclass(frozen=True, eq=False)
class Grounded:
    """Features on the ground.

    Attributes:
        xy: (n, 2) true east and north in metres from the middle of each point's feature, at its height.
        lonlat: (n, 2) degrees on the CRS's own datum; where no feature is wide they may be left as stored.
        is_wide: (f,) whether some point lies too far from the middle for a plane.
        factor: (f,) length on the ground by length on the ellipsoid: 1 + h/R.
        is_lost: (n,) points that are no place on the earth.
    """

    xy: Floats
    lonlat: Floats
    is_wide: Flags
    factor: Floats
    is_lost: Flags

    def only(self, points: Flags) -> Grounded:
        """Some of the points; the features keep their numbers."""
        return replace(self, xy=self.xy[points], lonlat=self.lonlat[points], is_lost=self.is_lost[points])


@dataclass(frozen=True, eq=False)
class GroundWay:
    """The way of one layer's CRS to the ground. `open_ground` makes it from any CRS."""

    crs: pyproj.CRS

    @cached_property
    def is_local(self) -> bool:
        """A grid of no place on the earth, whose lengths are ground lengths."""
        return _is_local(self.crs)

    @cached_property
    def unit_m(self) -> float:
        """Metres by unit of length of the CRS; of one in degrees, 1: its heights count in metres."""
        vertical = [axis for axis in self.crs.axis_info if axis.direction in ("up", "down")]
        if vertical:
            return float(vertical[0].unit_conversion_factor)
        return 1.0 if self.flat.is_geographic else float(self.flat.axis_info[0].unit_conversion_factor)

    @cached_property
    def flat(self) -> pyproj.CRS:
        """The plan part of the CRS."""
        return flat_crs(self.crs)

    @cached_property
    def ellipsoid(self) -> Ellipsoid:
        """Of the CRS's own datum."""
        body = base_of(self.flat).ellipsoid
        assert body is not None  # noqa: S101 - every geographic CRS has one
        return Ellipsoid(body.semi_major_metre, 1.0 - (body.semi_minor_metre / body.semi_major_metre) ** 2)

    @cached_property
    def geod(self) -> pyproj.Geod:
        """Geodesics on that ellipsoid."""
        return pyproj.Geod(a=self.ellipsoid.a, es=self.ellipsoid.e2)

    @cached_property
    def _degrees(self) -> tuple[pyproj.Transformer | None, float]:
        """The way to longitude and latitude (None: the coordinates are that), and degrees by its unit."""
        flat = self.flat
        if flat.is_geographic:
            return None, float(np.degrees(flat.axis_info[0].unit_conversion_factor))
        if zero_meridian(flat) != 0.0:
            base = base_of(flat)
            to_degrees = float(np.degrees(base.axis_info[0].unit_conversion_factor))
            return pyproj.Transformer.from_crs(flat, base, always_xy=True), to_degrees
        body = self.ellipsoid
        bare = f"+proj=longlat +a={body.a!r} +es={body.e2!r} +type=crs"
        return pyproj.Transformer.from_crs(flat, bare, always_xy=True), 1.0

    def lonlat(self, xy: Floats) -> Floats:
        """(n, 2) as stored -> degrees; infinite where the CRS has no such place."""
        way, factor = self._degrees
        if way is None:
            return np.asarray(xy * factor)
        return transform_points(way, xy) * factor

    @cached_property
    def _metric(self) -> CellMetric:
        return CellMetric(self.lonlat, self.unit_of_plan)

    @cached_property
    def unit_of_plan(self) -> float:
        """Metres by unit of the map."""
        return float(self.flat.axis_info[0].unit_conversion_factor)

    def ground(self, shapes: Shapes, height: Floats) -> Grounded:
        """Features to the ground at (f,) ellipsoidal heights in metres."""
        if self.is_local:
            return self._local(shapes)
        if self._degrees[0] is not None:
            middle, reach = _boxes(shapes)
            if (reach * self.unit_of_plan <= NEAR).all():
                near = self._by_metric(shapes, middle, height)
                if near is not None:
                    return near
        return self._exactly(shapes, height)

    def _exactly(self, shapes: Shapes, height: Floats) -> Grounded:
        """Every point through PROJ."""
        degrees = self.lonlat(shapes.xy)
        is_lost = ~(np.abs(degrees[:, 1]) <= 90.0 + 1e-9) | ~(np.abs(degrees[:, 0]) <= MOST_TURN)
        if is_lost.any():
            degrees = np.where(is_lost[:, None], 0.0, degrees)
        return self._about_middles(shapes, degrees, height, is_lost)

    def _by_metric(self, shapes: Shapes, middle: Floats, height: Floats) -> Grounded | None:
        """Small features by the projection's first and second derivatives about their middles; None where that will not
        do: near a pole, or at places that the projection does not have."""
        lon, lat = self._metric.derivatives(middle)
        if not (np.abs(lat[0]) <= NEAR_LAT).all() or not np.isfinite(lon).all():
            return None
        plane = _Series(self.ellipsoid, lat[0], height)
        a, b, _, _, e, f, g, _ = plane.terms.reshape(8, -1)
        # East and north to the second order of longitude and latitude, and these to the second of the map's x and y.
        east = [a * lon[1], a * lon[2], 0.5 * a * lon[3], a * lon[4], 0.5 * a * lon[5]]
        east[2] -= b * lon[1] * lat[1]
        east[3] -= b * (lon[1] * lat[2] + lon[2] * lat[1])
        east[4] -= b * lon[2] * lat[2]
        north = [e * lat[1], e * lat[2], 0.5 * e * lat[3], e * lat[4], 0.5 * e * lat[5]]
        north[2] += f * lat[1] ** 2 + g * lon[1] ** 2
        north[3] += 2.0 * (f * lat[1] * lat[2] + g * lon[1] * lon[2])
        north[4] += f * lat[2] ** 2 + g * lon[2] ** 2
        feature = shapes.of_point
        x, y = (shapes.xy - middle[feature]).T
        xy = np.empty_like(shapes.xy)
        for column, (p, q, r, s, t) in enumerate((east, north)):
            xy[:, column] = x * (p[feature] + x * r[feature] + y * s[feature]) + y * (
                q[feature] + y * t[feature]
            )
        no = np.zeros(len(shapes), bool)
        return Grounded(xy, shapes.xy, no, plane.factor, np.zeros(len(xy), bool))

    def _local(self, shapes: Shapes) -> Grounded:
        is_lost = ~np.isfinite(shapes.xy).all(axis=1)
        xy = np.where(is_lost[:, None], 0.0, shapes.xy)
        xy = (xy - _first_points(shapes, xy)) * self.unit_m
        no, one = np.zeros(len(shapes), bool), np.ones(len(shapes))
        return Grounded(xy, xy, no, one, is_lost)

    def _about_middles(self, shapes: Shapes, degrees: Floats, height: Floats, is_lost: Flags) -> Grounded:
        first = _first_points(shapes, degrees)
        away = degrees - first
        # Beyond the date line a feature goes on; a full turn stands for nothing.
        away[:, 0] -= TURN * np.round(away[:, 0] / TURN)
        of_feature = _starts_of(shapes)
        count = np.maximum(np.diff(of_feature), 1)
        mean = sum_by(of_feature, away) / count[:, None]
        away -= np.repeat(mean, np.diff(of_feature), axis=0)
        middle = np.zeros(len(shapes))
        filled = np.diff(of_feature) > 0
        middle[filled] = first[of_feature[:-1][filled], 1] + mean[filled, 1]
        plane = _Series(self.ellipsoid, np.radians(middle), height)
        xy, is_far = plane.east_north(
            np.radians(away), np.repeat(np.arange(len(shapes)), np.diff(of_feature))
        )
        is_wide = np.zeros(len(shapes), bool)
        is_wide[shapes.of_point[is_far]] = True
        return Grounded(xy, degrees, is_wide, plane.factor, is_lost)


class _Series:
    """Transverse Mercator about a middle per feature, to the third order of the distance.

    Source: the series of Gauss and Krueger (for instance Snyder, USGS Professional Paper 1395 (1987), eq. 8-9 to
    8-15), developed here about the middle's own latitude; the derivatives of the radii are our own working.
    """

    def __init__(self, body: Ellipsoid, lat: Floats, height: Floats) -> None:
        sin, cos = np.sin(lat), np.cos(lat)
        w2 = 1.0 - body.e2 * sin**2
        n = body.a / np.sqrt(w2)
        m = n * (1.0 - body.e2) / w2
        m_slope = 3.0 * body.e2 * sin * cos * m / w2
        eta2 = body.e2 / (1.0 - body.e2) * cos**2
        self.factor = 1.0 + height / np.sqrt(m * n)
        cubic = n * cos * (cos**2 * (1.0 + eta2) - sin**2) / 6.0
        terms = (
            (n * cos, m * sin, 0.5 * (m * cos + m_slope * sin), cubic),
            (m, 0.5 * m_slope, 0.5 * n * sin * cos, 0.5 * (n * cos**2 - m * sin**2)),
        )
        self.terms = np.array(terms) * self.factor

    def east_north(self, away: Floats, feature: Ints) -> tuple[Floats, Flags]:
        """(n, 2) metres of points (n, 2) radians of longitude and latitude from the middles, and which are far."""
        lon, lat = away[:, 0], away[:, 1]
        (a, b, c, d), (e, f, g, h) = self.terms[:, :, feature]
        square = lon * lon
        xy = np.empty_like(away)
        xy[:, 0] = lon * (a - lat * (b + lat * c) + square * d)
        xy[:, 1] = lat * (e + lat * f) + square * (g + lat * h)
        is_far = (np.abs(xy[:, 0]) > WIDE) | (np.abs(xy[:, 1]) > WIDE) | (np.abs(lon) > WIDE_TURN)
        return xy, is_far


def open_ground(crs: pyproj.CRS | str | None, layer: str = "") -> GroundWay:
    """The way to the ground from a CRS, as pyproj takes it.

    Args:
        crs: of a layer.
        layer: its name for messages, where it has one.
    Raises:
        BadCrs: there is none, or it has no plan coordinates on the earth's surface.
    """
    try:
        opened = pyproj.CRS.from_user_input(crs) if crs else None
    except pyproj.exceptions.CRSError as error:
        raise BadCrs("The layer's CRS cannot be read: {why}. Set it again.", why=str(error)) from error
    if opened is None or opened.name.lower().startswith(UNDEFINED):
        if layer:
            raise BadCrs(
                "The layer {layer} has no CRS, so its sizes on the ground are unknown. Set the layer's CRS (it says what "
                "the coordinates are; it does not move them), then run this again.",
                layer=layer,
            )
        raise BadCrs(
            "The layer has no CRS, so its sizes on the ground are unknown. Set the layer's CRS (it says what the "
            "coordinates are; it does not move them), then run this again."
        )
    flat = flat_crs(opened)
    if not (flat.is_projected or flat.is_geographic or _is_local(flat)):
        raise BadCrs(
            "The layer's CRS {crs} has no plan coordinates. Reproject the layer into a projected or geographic CRS.",
            crs=opened.name,
        )
    return GroundWay(opened)


def ground_length(way: GroundWay, ends: Floats) -> float:
    """Metres on the ellipsoid between two places (2, 2) as stored; NaN where the CRS has no such place."""
    if way.is_local:
        return float(np.hypot(*(ends[1] - ends[0]))) * way.unit_m
    (a, b), (c, d) = way.lonlat(ends)
    return float(way.geod.inv(a, b, c, d)[2]) if np.isfinite([a, b, c, d]).all() else float("nan")


def flat_crs(crs: pyproj.CRS) -> pyproj.CRS:
    """The plan part of a CRS: without heights, without a datum shift bound to it."""
    while crs.is_bound or crs.is_compound:
        inner = crs.source_crs if crs.is_bound else crs.sub_crs_list[0]
        assert inner is not None  # noqa: S101 - such a CRS is made of it
        crs = inner
    return crs


def _is_local(crs: pyproj.CRS) -> bool:
    return flat_crs(crs).type_name.lower().startswith(("engineering", "local"))


def _boxes(shapes: Shapes) -> tuple[Floats, Floats]:
    """(f, 2) the middle of each feature's box, and (f,) how far its sides lie from there; a feature without points or
    with one that is none has NaN and no reach."""
    starts = _starts_of(shapes)
    filled = np.flatnonzero(np.diff(starts))
    middle, reach = np.zeros((len(shapes), 2)), np.zeros(len(shapes))
    if len(filled):
        for axis in (0, 1):
            column = np.ascontiguousarray(shapes.xy[:, axis])
            low = np.minimum.reduceat(column, starts[filled])
            high = np.maximum.reduceat(column, starts[filled])
            middle[filled, axis] = 0.5 * (low + high)
            reach[filled] = np.maximum(reach[filled], 0.5 * (high - low))
    return middle, reach


def _starts_of(shapes: Shapes) -> Ints:
    """(f + 1,) the first point of each feature."""
    counts = np.bincount(shapes.feature, weights=shapes.sizes, minlength=len(shapes))
    return np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)


def _first_points(shapes: Shapes, xy: Floats) -> Floats:
    """(n, 2) the first point of each point's feature."""
    starts = _starts_of(shapes)
    return np.asarray(xy[np.repeat(starts[:-1], np.diff(starts))])
