# SPDX-License-Identifier: GPL-2.0-or-later
"""One feature of any layer as exact curves on the ground, so that its figures can be followed by hand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...quantity import Floats
from ...segments import Curve, bulges
from .edges import Edges, edges_of
from .ground import GroundWay
from .heights import heights_of
from .shapes import Shapes
from .sums import sum_runs

HALF_TURN = 1.0
"""The bulge of half a circle."""


@dataclass(frozen=True, eq=False)
class GroundShape:
    """A feature on the ground.

    Attributes:
        curves: its runs, metres east and north from its middle. is_hole: of each, whether it is an inner ring.
        stored: (n, 2) its points as the layer has them, in order; ground: (n, 3) the same on the ground.
        is_wide: whether it reaches too far for a plane (it is then measured along geodesics).
        area_by_point, length_by_point: what a point's one-sigma is multiplied by to give that of the area (metres) and of
            the length (no unit); of an area the length is that of its outer rings.
        edge_length: of all its edges, metres.
    """

    curves: tuple[Curve, ...]
    is_hole: tuple[bool, ...]
    stored: Floats
    ground: Floats
    is_wide: bool
    area_by_point: float
    length_by_point: float
    edge_length: float


def ground_shape(shapes: Shapes, way: GroundWay, height: float = 0.0) -> GroundShape:
    """The one feature of `shapes` on the ground, as `measure_areas` and `measure_lengths` take it there."""
    shapes = shapes.without_repeats()
    heights = heights_of(shapes, 1.0 if way.is_local else way.unit_m, height)
    ground = way.ground(shapes, heights.mean)
    sums = sum_runs(shapes, ground, way)
    edges = edges_of(shapes, ground.xy)
    places = np.column_stack([ground.xy, heights.z])
    outer = ~shapes.is_hole
    return GroundShape(
        tuple(_curve(edges, places, run) for run in range(len(shapes.feature))),
        tuple(shapes.is_hole.tolist()),
        shapes.xy,
        places,
        bool(ground.is_wide.any()),
        float(np.sqrt(sums.area_squares.sum())),
        float(np.sqrt(sums.length_squares[outer].sum())),
        float(sums.length.sum()),
    )


def _curve(edges: Edges, places: Floats, run: int) -> Curve:
    """A run as a curve; a full circle becomes two halves, through its middle point."""
    points, bulge = [], []
    arc_of = {int(edge): k for k, edge in enumerate(edges.arc.tolist())}
    for edge in range(int(edges.start[run]), int(edges.start[run + 1])):
        points.append(places[edges.p[edge]])
        k = arc_of.get(edge)
        if k is not None and edges.arcs.is_full[k]:
            points.append(places[edges.mid[k]])
            bulge += [HALF_TURN, HALF_TURN]
        else:
            bulge.append(0.0 if k is None else float(bulges(edges.arcs.half[k : k + 1])[0]))
    last = int(edges.start[run + 1]) - 1
    points.append(places[edges.q[last]] if last >= int(edges.start[run]) else places[0])
    return Curve(np.array(points).reshape(-1, 3), np.array(bulge))
