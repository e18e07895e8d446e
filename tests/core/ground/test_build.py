# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces from levels, breaklines, boundary and voids."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import BadInput, PointsInLine, TooFewPoints
from plugin.core.findings import Severity
from plugin.core.ground.build import BuildRules, GroundInput, build_surface
from plugin.core.ground.hull import without_thin
from plugin.core.ground.locate import locate
from plugin.core.ground.triangulate import triangulate
from plugin.core.ground.weld import compacted, weld_triangles
from tests.core.ground.nasty import levels, line, nasty_ground


def hill(xy):
    return 3.0 * np.sin(xy[:, 0] / 9.0) + 2.0 * np.cos(xy[:, 1] / 7.0)


def field(count=500, seed=1, size=60.0, sigma=0.01):
    xy = np.random.default_rng(seed).uniform(0.0, size, (count, 2))
    return levels(np.column_stack([xy, hill(xy)]), sigma)


def ring(corners, name="ring"):
    """A ring without heights."""
    return line([(x, y, np.nan) for x, y in corners], name)


def heights_at(surface, xy):
    at, weights = locate(surface.points, surface.triangles, xy)
    z = (surface.points[surface.triangles[np.maximum(at, 0)], 2] * weights).sum(axis=1)
    return np.where(at >= 0, z, np.nan)


SQUARE = [(10, 10), (50, 10), (50, 50), (10, 50)]
HOUSE = [(20.3, 20.1), (30.7, 21.2), (28.9, 31.4), (19.8, 30.2)]


def shoelace(corners):
    x, y = np.array(corners, float).T
    return 0.5 * abs(float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum()))


def test_a_pyramid_has_its_published_area_and_volume():
    """Plan 100 m2, surface 116.619037896906 m2, volume 100 m3: case VOL-13, five points, base 10 m, apex 3 m (closed
    form)."""
    built = build_surface(GroundInput(levels([(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 5, 3)])))
    surface = built.surface
    assert len(surface.triangles) == 4
    assert surface.areas.sum() == pytest.approx(100.0, abs=1e-9)
    u, v = (surface.corners[:, k] - surface.corners[:, 0] for k in (1, 2))
    assert 0.5 * np.linalg.norm(np.cross(u, v), axis=1).sum() == pytest.approx(116.61903789690601, abs=1e-9)
    assert (surface.areas * surface.corners[:, :, 2].mean(axis=1)).sum() == pytest.approx(100.0, abs=1e-9)


def test_a_plane_comes_back_whatever_lines_run_over_it():
    rng = np.random.default_rng(4)

    def on_plane(xy):
        return np.column_stack([xy, 2.0 + 0.03 * xy[:, 0] - 0.02 * xy[:, 1]])

    lines = tuple(line(on_plane(rng.uniform(0, 60, (4, 2))), f"line {k}") for k in range(12))
    built = build_surface(GroundInput(levels(on_plane(rng.uniform(0, 60, (300, 2)))), lines))
    assert [f.code for f in built.findings if f.severity is Severity.STOP] == []
    assert built.surface.slopes == pytest.approx(
        np.tile([0.03, -0.02], (len(built.surface.triangles), 1)), abs=1e-6
    )
    assert built.interpolation.rough == pytest.approx(0.0, abs=1e-12)


def test_boundary_and_void_cut_out_their_very_areas():
    built = build_surface(GroundInput(field(), (), (ring(SQUARE),), (ring(HOUSE),)))
    assert built.surface.areas.sum() == pytest.approx(1600.0 - shoelace(HOUSE), abs=1e-9)
    middle = built.surface.corners[:, :, :2].mean(axis=1)
    assert ((middle > 10) & (middle < 50)).all()


def test_rings_without_heights_change_no_height_of_the_ground():
    known = field()
    whole = build_surface(GroundInput(known)).surface
    cut = build_surface(GroundInput(known, (), (ring(SQUARE),), (ring(HOUSE),))).surface
    xy = np.random.default_rng(2).uniform(10.0, 50.0, (4000, 2))
    there = heights_at(cut, xy)
    assert np.isfinite(there).sum() > 3500
    good = np.isfinite(there)
    assert there[good] == pytest.approx(heights_at(whole, xy)[good], abs=1e-9)


def test_a_ring_point_is_never_worth_more_than_the_ground_it_lies_on():
    cut = build_surface(GroundInput(field(sigma=0.01), (), (ring(SQUARE),))).surface
    assert cut.sigma == pytest.approx(np.full(len(cut.points), 0.01), abs=1e-12)


def test_a_boundary_with_heights_is_a_breakline():
    corners = np.array([*SQUARE, SQUARE[0]], float)
    bound = line(np.column_stack([corners, hill(corners)]), "fence", 0.005)
    surface = build_surface(GroundInput(field(), (), (bound,))).surface
    assert surface.areas.sum() == pytest.approx(1600.0, abs=1e-9)
    for (x, y), z in zip(SQUARE, hill(corners)):
        (at,) = np.flatnonzero((surface.points[:, 0] == x) & (surface.points[:, 1] == y))
        assert (surface.points[at, 2], surface.sigma[at]) == (z, 0.005)


def test_a_boundary_wider_than_the_levels_leaves_their_hull():
    known = field()
    whole = build_surface(GroundInput(known)).surface
    wide = build_surface(GroundInput(known, (), (ring([(-9, -9), (99, -9), (99, 99), (-9, 99)]),))).surface
    half = build_surface(GroundInput(known, (), (ring([(-9, -9), (30, -9), (30, 99), (-9, 99)]),))).surface
    assert wide.areas.sum() == pytest.approx(whole.areas.sum(), rel=1e-12)
    rest = build_surface(GroundInput(known, (), (ring([(30, -9), (99, -9), (99, 99), (30, 99)]),))).surface
    assert half.areas.sum() + rest.areas.sum() == pytest.approx(whole.areas.sum(), rel=1e-12)


def test_a_boundary_in_two_parts_and_an_island_in_a_void():
    outer = (ring([(5, 5), (25, 5), (25, 25), (5, 25)]), ring([(30, 30), (55, 30), (55, 55), (30, 55)]))
    surface = build_surface(
        GroundInput(field(), (), outer, (ring([(35, 35), (45, 35), (45, 45), (35, 45)]),))
    ).surface
    assert surface.areas.sum() == pytest.approx(400.0 + 625.0 - 100.0, abs=1e-9)
    island = (*outer, ring([(8, 8), (12, 8), (12, 12), (8, 12)]))
    assert build_surface(GroundInput(field(), (), island)).surface.areas.sum() == pytest.approx(
        1009.0, abs=1e-9
    )


def test_triangles_of_the_rim_longer_than_a_length_are_left_out():
    angle = np.linspace(0.0, 1.6 * np.pi, 60)
    horseshoe = np.vstack([r * np.column_stack([np.cos(angle), np.sin(angle)]) for r in (20.0, 18.0)])
    known = levels(np.column_stack([horseshoe, np.ones(120)]))
    hull = build_surface(GroundInput(known)).surface
    peeled = build_surface(GroundInput(known), BuildRules(longest=4.0)).surface
    assert peeled.areas.sum() == pytest.approx(0.8 * np.pi * (400 - 324), rel=0.02)
    assert hull.areas.sum() > 2 * peeled.areas.sum()
    across = line([(20.0, 0.0, 1.0), (*horseshoe[59], 1.0)], "gate")
    kept = build_surface(GroundInput(known, (across,)), BuildRules(longest=4.0)).surface
    assert kept.areas.sum() > peeled.areas.sum()  # what lies behind a breakline stays


def test_breaklines_at_different_heights_give_no_surface():
    lines = (line([(0, 30, 0), (60, 30, 0)], "kerb"), line([(30, 0, 5), (30, 60, 5)], "wall"))
    built = build_surface(GroundInput(field(), lines))
    assert built.surface is None
    assert [(f.code, f.data["off"]) for f in built.findings] == [("GR-02", 5.0)]


def test_what_is_weak_or_unknown_is_told():
    built = build_surface(GroundInput(levels([(0, 0, 0), (10, 0, 0), (10, 10, 1), (0, 10, 1)])))
    (told,) = built.findings
    assert told.message == (
        "Only 0 points stand inside the surface and on no line; 20 are needed to say how far the ground lies off the "
        "triangles between the points. That part is in no sigma."
    )
    assert (built.surface.rough, built.surface.reach) == (0.0, 0.0)
    kerb = (line([(x, 0.3 * np.sin(x), 0.0) for x in range(0, 40, 2)], "kerb"),)
    weak = build_surface(GroundInput(levels([(20, 300, 1), (21, 301, 1)]), kerb))
    assert [f.code for f in weak.findings] == ["GR-01", "GR-04"]
    assert weak.findings[0].message.startswith(
        f"{weak.surface.is_weak.sum()} triangles of {len(weak.surface.triangles)}, "
    )


def test_a_moved_or_reversed_ground_is_the_same_ground():
    known, way = field(), np.column_stack([SQUARE, hill(np.array(SQUARE, float))])
    base = build_surface(GroundInput(known, (line(way),), (ring(SQUARE),), (ring(HOUSE),))).surface
    back = build_surface(
        GroundInput(
            levels(known.points[::-1], 0.01), (line(way[::-1]),), (ring(SQUARE[::-1]),), (ring(HOUSE[::-1]),)
        )
    ).surface
    moved = build_surface(
        GroundInput(
            levels(known.points + (1e6, 5e6, 0), 0.01),
            (line(way + (1e6, 5e6, 0)),),
            (ring([(x + 1e6, y + 5e6) for x, y in SQUARE]),),
            (ring([(x + 1e6, y + 5e6) for x, y in HOUSE]),),
        )
    ).surface
    volume = (base.areas * base.corners[:, :, 2].mean(axis=1)).sum()
    for other in (back, moved):
        assert (other.areas * other.corners[:, :, 2].mean(axis=1)).sum() == pytest.approx(volume, rel=1e-7)
        assert other.rough == pytest.approx(base.rough, rel=1e-6)


def test_what_gives_no_surface_is_refused():
    with pytest.raises(TooFewPoints):
        build_surface(GroundInput(levels([(0, 0, 0), (1, 1, 1)])))
    with pytest.raises(PointsInLine):
        build_surface(GroundInput(levels([(0, 0, 0), (1, 1, 1), (2, 2, 5)])))
    with pytest.raises(BadInput) as caught:
        build_surface(GroundInput(field(), (), (ring([(100, 100), (110, 100), (110, 110)]),)))
    assert str(caught.value) == (
        "No ground is left inside the boundary and outside the voids. Check that they lie where the levels are, and that "
        "all are in the CRS they say."
    )
    with pytest.raises(BadInput) as caught:
        build_surface(GroundInput(field(), (), (ring([(0, 0), (5, 5), (0, 0)], "fence"),)))
    assert str(caught.value) == (
        "The ring fence has fewer than three points with a place. Draw it round the ground that it bounds."
    )


def test_triangles_given_by_corners_share_their_points():
    surface = build_surface(GroundInput(field())).surface
    welded = weld_triangles(surface.corners[:, ::-1], 0.02)
    assert len(welded.points) == len(surface.points)
    assert welded.areas.sum() == pytest.approx(surface.areas.sum(), rel=1e-12)
    assert (welded.areas > 0).all()
    assert (welded.sigma == 0.02).all()


def test_an_upright_face_and_a_missing_height_are_refused():
    face = np.array([[[0, 0, 0], [1, 0, 0], [0, 1, 0]], [[0, 0, 2.5], [1, 0, 0], [1, -1, 0]]], float)
    with pytest.raises(BadInput) as caught:
        weld_triangles(face, name="bank")
    assert str(caught.value) == (
        "The surface bank has two heights at one place, 0.000 m and 2.500 m at 0.000, 0.000 in the survey plane. Take out "
        "upright faces, or draw their foot a little off their top."
    )
    face[1, 0, 2] = np.nan
    with pytest.raises(BadInput, match=r"^The surface bank has a corner without a place or a height\."):
        weld_triangles(face, name="bank")


def test_flat_triangles_and_unused_points_go():
    flat = np.array([[[0, 0, 0], [1, 0, 0], [2, 0, 0]], [[0, 0, 0], [0, 1, 0], [1, 0, 0]]], float)
    welded = weld_triangles(flat)
    assert len(welded.triangles) == 1
    assert len(welded.points) == 3
    assert len(compacted(welded).points) == 3
    assert len(weld_triangles(np.empty((0, 3, 3))).points) == 0


def test_any_ground_in_any_rings_has_the_area_of_its_hull_inside_them():
    """Against shapely, to a millimetre along all rings; every triangle has area in floats too, for its plane is asked for."""
    from shapely.geometry import MultiPoint, Polygon

    tested, empty = 0, []
    for seed in range(300):
        known, lines = nasty_ground(seed)
        rng = np.random.default_rng(seed + 10**6)
        known = levels(np.column_stack([known.points[:, :2], rng.normal(0, 1, len(known.points))]), 1e3)
        lines = tuple(line(one.points + (0, 0, rng.normal()), one.name, 1e3) for one in lines)
        places = np.vstack([known.points, *(one.points for one in lines)])[:, :2]
        if len(places) < 3:
            continue
        base = places.mean(axis=0)
        rings = [
            _star(rng, base, places, size)
            for size in (12.0, 5.0, 5.0)[rng.integers(0, 2) : rng.integers(2, 4)]
        ]
        shapes = [Polygon(one - base) for one in rings]
        if not all(shape.is_valid and shape.area > 1e-3 for shape in shapes):
            continue
        wanted = MultiPoint(places - base).convex_hull.intersection(shapes[0])
        for shape in shapes[1:]:
            wanted = wanted.difference(shape)
        try:
            built = build_surface(
                GroundInput(
                    known, lines, (ring(rings[0].tolist()),), tuple(ring(r.tolist()) for r in rings[1:])
                )
            )
        except (PointsInLine, TooFewPoints):
            continue
        except BadInput as error:
            empty.append((str(error)[:17], wanted.area < 0.05))
            continue
        tested += 1
        around = sum(shape.length for shape in shapes)
        assert built.surface.areas.sum() == pytest.approx(wanted.area, abs=1e-3 * around), seed
        assert (built.surface.areas > 0.0).all(), seed
        assert np.isfinite(built.surface.points).all(), seed
    assert tested > 150
    assert set(empty) <= {("No ground is left", True)}


def _star(rng, base, places, size):
    """A ring of a few corners about the middle, some of them on the lattice or on a point."""
    count = int(rng.integers(3, 9))
    angle = np.sort(rng.uniform(0, 2 * np.pi, count))
    way = np.column_stack([np.cos(angle), np.sin(angle)]) * rng.uniform(0.3, 1.0, (count, 1)) * size
    corners = base + rng.uniform(-6.0, 6.0, 2) + way
    if rng.random() < 0.4:
        corners = np.round(corners)
    if rng.random() < 0.4:
        corners[rng.integers(count)] = places[rng.integers(len(places))]
    return corners


def test_thin_triangles_of_a_straight_rim_go_and_inside_hand_on_their_point():
    t = np.linspace(0.0, 30.0, 31)
    rim = np.column_stack([t * np.cos(0.7), t * np.sin(0.7)])
    xy = np.vstack([rim, [[-3.0, 9.0], [2.0, 20.0]]])
    whole = triangulate(xy, np.empty((0, 2), np.int64))
    left = without_thin(xy, whole)
    corners = xy[left]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    assert (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0] > 1e-6).all()
    # A sliver inside, its middle corner a hair off the longest side.
    xy = np.array([[0, 0], [10, 0], [5, 1e-9], [5, 8], [5, -8]], float)
    given = np.array([[0, 1, 2], [0, 2, 3], [2, 1, 3], [0, 4, 1]])
    fixed = without_thin(xy, given)
    assert {frozenset(row) for row in fixed.tolist()} == {
        frozenset(row) for row in ((0, 2, 3), (2, 1, 3), (0, 4, 2), (2, 4, 1))
    }


def bounded(points, name):
    return replace(line([*points, points[0]], name), bounds=name)


def test_ground_is_inside_any_of_the_areas_that_bound_it():
    """A square of 10 m with a hole of 4 m, a square of 6 m that overlaps it by 4 m by 6 m, and one of 2 m far away:
    100 - 16 + 36 - 24 + 4 = 100 m2 (closed form); the hull is of more than 200 m2."""
    rings = (
        bounded([(0, 0, 1), (10, 0, 1), (10, 10, 1), (0, 10, 1)], "court"),
        bounded([(1, 3, 1), (5, 3, 1), (5, 7, 1), (1, 7, 1)], "court"),
        bounded([(6, 2, 1), (12, 2, 1), (12, 8, 1), (6, 8, 1)], "bed"),
        bounded([(30, 0, 2), (32, 0, 2), (32, 2, 2), (30, 2, 2)], "step"),
    )
    built = build_surface(GroundInput(levels([(20, 5, 1.5)]), rings))
    assert built.surface.areas.sum() == pytest.approx(100.0, abs=1e-9)
    far = tuple(replace(ring, points=ring.points + (1e7, -1e7, 0.0)) for ring in rings)
    moved = build_surface(GroundInput(levels(np.empty((0, 3))), far))
    assert moved.surface.areas.sum() == pytest.approx(100.0, abs=1e-5)
    bare = build_surface(GroundInput(levels([(20, 5, 1.5)]), tuple(replace(r, bounds="") for r in rings)))
    assert bare.surface.areas.sum() > 200.0


def sliver(count):
    """Level ground of 30 m by 30 m, one point a metre, and slivers beside it so that some triangles of the rim are weak."""
    x, y = np.meshgrid(np.arange(31.0), np.arange(31.0))
    rim = [(3.5 + 9 * k, -0.01, 0.0) for k in range(count)]
    return levels([*np.column_stack([x.ravel(), y.ravel(), 0 * x.ravel()]), *rim])


def test_weak_ground_of_less_than_a_thousandth_is_told_by_nobody():
    built = build_surface(GroundInput(sliver(1)))
    assert built.surface.is_weak.sum() > 0
    assert [f.code for f in built.findings] == []


def test_one_weak_triangle_is_one():
    """A sliver of the rim, 0.05 m by 1 m, beside a triangle of 3 m2: 0.025 / 3.025 m2."""
    ground = levels([(0, 0, 0), (1, 0, 0), (0.5, 6.0, 0), (0.5, -0.05, 0)])
    built = build_surface(GroundInput(ground), BuildRules(spacings=100.0))
    assert built.findings[0].message == (
        "1 triangle of 2, 0.8 % of the surface, is weak: far from every point, on one line of points, or a sliver of the rim."
    )
