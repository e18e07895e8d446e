# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas and perimeters of the outlines of any layer, with their one-sigma, thousands at a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ...findings import Finding
from ...quantity import Floats
from .faults import find_area_faults, in_units_of
from .ground import Grounded, GroundWay
from .heights import heights_of
from .shapes import Flags, Shapes
from .sums import sum_runs


@dataclass(frozen=True, eq=False)
class Worth:
    """What a layer's points are worth: (f,) one-sigma in metres.

    Attributes:
        point: of each point, each axis, each by itself (a shift of all of them is no part of it).
        edge: of where the edge is taken to lie, the same all along it (a lawn's edge is no line).
    """

    point: Floats
    edge: Floats


@dataclass(frozen=True, eq=False)
class AreaFigures:
    """Figures of f outlines, NaN where there is none. Square metres and metres, true to the ground.

    Attributes:
        area, perimeter: in plan; holes out of the area; the perimeter is that of the outer rings.
        area_sigma, perimeter_sigma: one-sigma from the points.
        edge_sigma: one-sigma of the area from where the edge is taken to lie: it times the length of all edges.
        sloped, sloped_sigma: area on the least-squares plane through the points, where the feature has heights.
        height: at which it was measured, metres; NaN on a local grid, whose lengths are ground lengths.
        has_arcs, has_heights, is_wide: how it was measured.
        findings: of the outlines that are refused, by their number.
    """

    area: Floats
    area_sigma: Floats
    edge_sigma: Floats
    perimeter: Floats
    perimeter_sigma: Floats
    sloped: Floats
    sloped_sigma: Floats
    height: Floats
    has_arcs: Flags
    has_heights: Flags
    is_wide: Flags
    findings: Mapping[int, Finding]


def measure_areas(shapes: Shapes, way: GroundWay, worth: Worth, height: float = 0.0) -> AreaFigures:
    """Measure outlines of any layer on the ground.

    Args:
        shapes: the outlines as stored.
        way: from their CRS to the ground.
        worth: of their points.
        height: of the ground above the ellipsoid, metres, for outlines that have no heights of their own.
    Source:
        Area by cross products and circular segments, in a plane about each outline's middle; one that reaches
        farther than a kilometre from it by geodesics (Karney, J. Geodesy 87 (2013) 43-55) through pyproj. One-sigma
        by propagation of the points' (GUM, JCGM 100:2008, 5.1).
    """
    shapes = shapes.without_repeats()
    heights = heights_of(shapes, 1.0 if way.is_local else way.unit_m, height)
    ground = way.ground(shapes, heights.mean)
    sums = sum_runs(shapes, ground, way)
    findings = in_units_of(find_area_faults(shapes, ground, sums), way)
    good = np.ones(len(shapes), bool)
    good[list(findings)] = False
    its, here, z = measurable(shapes, ground, heights.z, good)
    sums = sums.only(good[shapes.feature])
    outer = np.where(its.is_hole, 0.0, 1.0)
    area = per_feature(its, np.abs(sums.area) * (2.0 * outer - 1.0))
    area_sigma = worth.point * np.sqrt(per_feature(its, sums.area_squares))
    perimeter_sigma = worth.point * np.sqrt(per_feature(its, sums.length_squares * outer))
    sloped, sloped_sigma = _sloped(its, here, z, (area, area_sigma), worth.point)
    return AreaFigures(
        known(area, good),
        known(area_sigma, good),
        known(worth.edge * per_feature(its, sums.length), good),
        known(per_feature(its, sums.length * outer), good),
        known(perimeter_sigma, good),
        known(sloped, good & heights.has),
        known(sloped_sigma, good & heights.has),
        np.full(len(shapes), np.nan) if way.is_local else heights.mean,
        np.bincount(shapes.of_point, weights=shapes.is_mid, minlength=len(shapes)) > 0,
        heights.has,
        ground.is_wide,
        findings,
    )


def known(values: Floats, good: Flags) -> Floats:
    """The values where they are good, NaN elsewhere."""
    return np.where(good, values, np.nan)


def measurable(shapes: Shapes, ground: Grounded, z: Floats, good: Flags) -> tuple[Shapes, Grounded, Floats]:
    """The good features' runs, their places and heights (n,)."""
    if good.all():
        return shapes, ground, z
    points = good[shapes.of_point]
    return shapes.runs_of(good), ground.only(points), z[points]


def per_feature(shapes: Shapes, values: Floats) -> Floats:
    """(f,) sums of (r,) values over each feature's runs."""
    return np.asarray(np.bincount(shapes.feature, weights=values, minlength=len(shapes)), float)


def _sloped(
    shapes: Shapes, ground: Grounded, z: Floats, plan: tuple[Floats, Floats], sigma: Floats
) -> tuple[Floats, Floats]:
    """(f,) area on the least-squares plane through the points, and its one-sigma, heights being worth what places
    are. With p and q the plane's slopes it is the plan area times sqrt(1 + p^2 + q^2)."""
    none = np.full(len(shapes), np.nan)
    if np.isnan(z).all():
        return none, none
    p, q, inverse = _plane_slopes(shapes, ground.xy, np.nan_to_num(z))
    factor = np.sqrt(1.0 + p**2 + q**2)
    by = np.stack([p, q], axis=1) / factor[:, None]
    variance = np.einsum("fi,fij,fj->f", by, inverse, by) * sigma**2
    area, area_sigma = plan
    return area * factor, np.hypot(area_sigma * factor, area * np.sqrt(variance))


def _plane_slopes(shapes: Shapes, xy: Floats, z: Floats) -> tuple[Floats, Floats, Floats]:
    """(f,) slopes east and north of the least-squares planes, and (f, 2, 2) their covariance by a height's variance.
    The last point of a ring is its first and does not count again."""
    count = np.ones(len(xy))
    count[shapes.start[1:] - 1] = 0.0
    feature = shapes.of_point

    def total(values: Floats) -> Floats:
        return np.asarray(np.bincount(feature, weights=count * values, minlength=len(shapes)), float)

    n = np.maximum(total(np.ones(len(xy))), 1.0)
    x, y, h = (v - (total(v) / n)[feature] for v in (xy[:, 0], xy[:, 1], z))
    xx, xy_, yy = total(x * x), total(x * y), total(y * y)
    det = xx * yy - xy_**2
    flat = det <= 1e-12 * (xx + yy) ** 2
    det = np.where(flat, np.inf, det)
    inverse = np.stack([np.stack([yy, -xy_], 1), np.stack([-xy_, xx], 1)], 1) / det[:, None, None]
    xz, yz = total(x * h), total(y * h)
    return (
        inverse[:, 0, 0] * xz + inverse[:, 0, 1] * yz,
        inverse[:, 1, 0] * xz + inverse[:, 1, 1] * yz,
        inverse,
    )
