# SPDX-License-Identifier: GPL-2.0-or-later
"""Pieces side by side as few polygons: what is left of their sides, beside a general library's union."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union

from plugin.core.ground.depths import Ground
from plugin.core.ground.merged import merge_pieces
from plugin.core.ground.overlay import Pieces
from plugin.core.ground.thickness import map_depths
from tests.core.ground.grounds import drawn_surface, grid_surface, square, surface_of


def pieces_of(*polygons):
    """Convex polygons of any numbers of corners as one block."""
    most = max(map(len, polygons))
    full = np.array([[*one, *[one[0]] * (most - len(one))] for one in polygons], float)
    none = np.zeros(len(full), np.int64)
    return Pieces(full[:, :, 0].T, full[:, :, 1].T, none, none)


def box(x, y, wide=1.0, high=1.0):
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]


def shapes(polygons):
    return [Polygon(rings[0], rings[1:]) for rings in polygons]


def test_two_squares_side_by_side_are_one_ring_anticlockwise():
    ((ring,),) = merge_pieces([pieces_of(box(0, 0), box(1, 0))])
    assert ring[0].tolist() == ring[-1].tolist()
    assert sorted(map(tuple, ring[:-1].tolist())) == [(0, 0), (0, 1), (1, 0), (1, 1), (2, 0), (2, 1)]
    assert Polygon(ring).exterior.is_ccw
    assert Polygon(ring).area == 2.0


def test_a_frame_has_a_void_walked_clockwise():
    cells = [box(x, y) for x in range(3) for y in range(3) if (x, y) != (1, 1)]
    ((outer, void),) = merge_pieces([pieces_of(*cells[:5]), pieces_of(*cells[5:])])
    assert Polygon(outer).area == 9.0
    assert sorted(map(tuple, void[:-1].tolist())) == [(1, 1), (1, 2), (2, 1), (2, 2)]
    assert not Polygon(void).exterior.is_ccw


def test_squares_that_only_share_a_corner_stay_two():
    first, second = shapes(merge_pieces([pieces_of(box(0, 0), box(1, 1))]))
    assert (first.area, second.area) == (1.0, 1.0)


def test_a_void_that_touches_the_rim_at_a_corner_is_a_void():
    # Round the left of the middle cell of the bottom row lies ground, and it meets the outside at one corner alone.
    cells = [box(x, y) for x in range(4) for y in range(3) if (x, y) not in ((1, 1), (2, 0))]
    (whole,) = shapes(merge_pieces([pieces_of(*cells)]))
    assert whole.is_valid
    assert whole.area == 10.0
    assert len(whole.interiors) == 1


def test_ground_within_a_void_is_a_polygon_of_its_own():
    cells = [box(x, y) for x in range(5) for y in range(5) if max(abs(x - 2), abs(y - 2)) != 1]
    found = sorted(shapes(merge_pieces([pieces_of(*cells)])), key=lambda one: one.area)
    assert [(one.area, len(one.interiors)) for one in found] == [(1.0, 0), (16.0, 1)]


def test_a_corner_on_the_side_of_a_neighbour_divides_it():
    ((ring,),) = merge_pieces([pieces_of(box(0, 0, 3.0), box(0, 1), box(1, 1, 2.0))])
    assert Polygon(ring).area == 6.0
    assert len(ring) == 8  # the corners on the outline stay, those within are gone


def test_a_corner_that_rounding_put_beside_its_neighbours_is_the_same():
    off = 4e-7
    ((ring,),) = merge_pieces([pieces_of(box(0, 0), [(1 + off, off), (2, 0), (2, 1), (1 + off, 1 - off)])])
    assert Polygon(ring).area == pytest.approx(2.0, abs=1e-6)
    assert len(ring) == 7


def test_pieces_without_area_are_nothing():
    assert merge_pieces([]) == ()
    assert merge_pieces([pieces_of([(0, 0), (1, 0), (0.5, 0)])]) == ()
    assert merge_pieces([pieces_of([(0, 0), (0, 0), (0, 0)])]) == ()


@pytest.mark.parametrize("far", [0.0, 1e7])
@pytest.mark.parametrize("seed", range(12))
def test_classes_of_depth_are_the_union_of_their_pieces(seed, far):
    draw = np.random.default_rng(seed)
    upper = drawn_surface(int(draw.integers(5, 90)), seed)
    if seed % 3 == 1:  # the same points, heights off by whole steps: level ground, bounds along edges
        steps = 0.5 * draw.integers(-2, 3, len(upper.points))
        lower = surface_of(upper.points + np.outer(steps, [0, 0, 1]), upper.triangles)
    elif seed % 3 == 2:
        upper = grid_surface(lambda x, y: np.round(draw.normal(size=x.shape)), 20.0, 8)
        lower = grid_surface(lambda x, y: 0.0 * x, 20.0, 6)
    else:
        lower = drawn_surface(40, seed + 50)
    move = np.array([far, far, 0.0])
    upper, lower = (surface_of(one.points + move, one.triangles) for one in (upper, lower))
    rings = None if seed % 2 else [square(1, 18) + far, square(6, 9) + far, square(8, 12)[[0, 1, 2]] + far]
    for one in map_depths(Ground(upper, lower, rings), np.arange(-12.0, 12.5, 0.5)):
        found = shapes([tuple(ring - far for ring in rings) for rings in one.polygons])
        assert MultiPolygon(found).is_valid
        assert sum(shape.area for shape in found) == pytest.approx(one.area, abs=1e-3)
        assert unary_union(found).area == pytest.approx(one.area, abs=1e-3)
        for a, b in zip(found, found[1:]):
            assert a.touches(b) or a.disjoint(b)
