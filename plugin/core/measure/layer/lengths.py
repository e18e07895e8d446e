# SPDX-License-Identifier: GPL-2.0-or-later
"""Lengths, rises and gradients of the lines of any layer, with their one-sigma, thousands at a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ...findings import Finding
from ...quantity import Floats
from .areas import known, measurable, per_feature
from .edges import edges_of
from .faults import find_line_faults, in_units_of
from .ground import Grounded, GroundWay
from .heights import heights_of
from .shapes import Flags, Shapes, sum_by
from .sums import closed_runs, runs_with_arcs, sum_runs


@dataclass(frozen=True, eq=False)
class LengthFigures:
    """Figures of f lines, NaN where there is none. Metres true to the ground, and ratios.

    Attributes:
        length, length_sigma: in plan, all parts together.
        slope, slope_sigma: along the slope, heights running evenly along each edge.
        rise, rise_sigma: of the last end above the first start, where the line is one run.
        gradient, gradient_sigma: rise by length in plan, positive up along the line.
        height: at which it was measured, metres; NaN on a local grid, whose lengths are ground lengths.
        has_arcs, has_heights, is_wide: how it was measured.
        findings: of the lines that are refused, by their number.
    """

    length: Floats
    length_sigma: Floats
    slope: Floats
    slope_sigma: Floats
    rise: Floats
    rise_sigma: Floats
    gradient: Floats
    gradient_sigma: Floats
    height: Floats
    has_arcs: Flags
    has_heights: Flags
    is_wide: Flags
    findings: Mapping[int, Finding]


def measure_lengths(shapes: Shapes, way: GroundWay, sigma: Floats, height: float = 0.0) -> LengthFigures:
    """Measure lines of any layer on the ground.

    Args:
        shapes: the lines as stored.
        way: from their CRS to the ground.
        sigma: (f,) one-sigma of each point in metres, each axis and the height, each by itself.
        height: of the ground above the ellipsoid, metres, for lines that have no heights of their own.
    Source:
        As `measure_areas`.
    """
    shapes = shapes.without_repeats()
    heights = heights_of(shapes, 1.0 if way.is_local else way.unit_m, height)
    ground = way.ground(shapes, heights.mean)
    findings = in_units_of(find_line_faults(shapes, ground), way)
    good = np.ones(len(shapes), bool)
    good[list(findings)] = False
    its, here, z = measurable(shapes, ground, heights.z, good)
    sums = sum_runs(its, here, way)
    length = per_feature(its, sums.length)
    length_sigma = sigma * np.sqrt(per_feature(its, sums.length_squares))
    has = good & heights.has
    rise = _Rises(its, here, z, sums.length)
    single = np.bincount(its.feature, minlength=len(shapes)) == 1
    has_rise = has & single
    rise_sigma = sigma * np.sqrt(rise.squares)
    with np.errstate(divide="ignore", invalid="ignore"):
        gradient = np.where(length > 0.0, rise.rise / length, np.nan)
        gradient_sigma = np.hypot(rise_sigma, gradient * length_sigma) / length
    return LengthFigures(
        known(length, good),
        known(length_sigma, good),
        known(rise.slope, has),
        known(sigma * np.sqrt(rise.slope_squares), has),
        known(rise.rise, has_rise),
        known(rise_sigma, has_rise),
        known(gradient, has_rise),
        known(gradient_sigma, has_rise),
        np.full(len(shapes), np.nan) if way.is_local else heights.mean,
        np.bincount(its.feature, weights=runs_with_arcs(its), minlength=len(shapes)) > 0,
        heights.has,
        ground.is_wide,
        findings,
    )


class _Rises:
    """(f,) lengths along the slope and rises, and the sums of squares of how points move them."""

    def __init__(self, shapes: Shapes, ground: Grounded, z: Floats, length: Floats) -> None:
        f = len(shapes)
        if np.isnan(z).all():
            self.slope = self.slope_squares = self.rise = self.squares = np.full(f, np.nan)
            return
        z = np.nan_to_num(z)
        edges = edges_of(shapes, ground.xy)
        plan = edges.lengths
        # A wide line's edges were measured along geodesics; in the plane they are as long but for its scale.
        run_plan = sum_by(edges.start, plan)
        scale = np.divide(length, run_plan, out=np.ones(len(length)), where=run_plan > 0.0)
        plan = plan * np.repeat(scale, np.diff(edges.start))
        up = z[edges.q] - z[edges.p]
        along = np.hypot(plan, up)
        self.slope = per_feature(shapes, sum_by(edges.start, along))
        with np.errstate(divide="ignore", invalid="ignore"):
            flat = np.where(along > 0.0, plan / along, 1.0)
            steep = np.where(along > 0.0, up / along, 0.0)
        moves = edges.length_moves(flat)
        lifts = np.zeros(len(z))
        lifts[edges.p] -= steep
        lifts[edges.q] += steep
        squares = (moves**2).sum(axis=1) + lifts**2
        self.slope_squares = per_feature(shapes, sum_by(shapes.start, squares))
        first, last = shapes.start[:-1], shapes.start[1:] - 1
        self.rise = per_feature(shapes, z[last] - z[first])
        self.squares = per_feature(shapes, np.where(closed_runs(shapes), 0.0, 2.0))
