# SPDX-License-Identifier: GPL-2.0-or-later
"""Triangulations: every segment an edge, no triangle folded, all of the hull; from the plainest net to the nastiest."""

from __future__ import annotations

import builtins
from collections import Counter

import numpy as np
import pytest

from plugin.core.errors import BadInput, MissingLibrary, PointsInLine, TooFewPoints
from plugin.core.ground.cavity import Mesh
from plugin.core.ground.hull import neighbours_of
from plugin.core.ground.noding import node_lines
from plugin.core.ground.signs import exact_cotangent, side_of, sides_of
from plugin.core.ground.triangulate import check_triangulation, has_edges, triangulate
from tests.core.ground.nasty import faults_of, hand, nasty_ground

NONE = np.empty((0, 2), np.int64)
SQUARE = np.array([[0, 0], [10, 0], [10, 10], [0, 10]], float)


def as_sets(triangles):
    return {frozenset(row) for row in triangles.tolist()}


def test_a_square_is_two_triangles_and_a_breakline_says_which():
    for pair, other in (((0, 2), (1, 3)), ((1, 3), (0, 2))):
        triangles = triangulate(SQUARE, np.array([pair]))
        assert as_sets(triangles) == {frozenset({*pair, k}) for k in other}


def test_a_segment_through_points_becomes_a_chain_of_edges():
    xy = np.array([[0, 0], [4, 0], [2, 0], [1, 3], [3, 3], [1, -3], [3, -3], [3.0, 0.0]])
    triangles = triangulate(xy, np.array([[0, 1]]))
    assert has_edges(triangles, np.array([[0, 2], [2, 7], [1, 7]]), len(xy)).all()
    assert faults_of(xy, np.array([[0, 1]]), triangles) == []


def test_a_long_segment_goes_through_a_field_of_points():
    rng = np.random.default_rng(5)
    xy = np.vstack([rng.uniform(0, 100, (3000, 2)), [[-1, 50.1], [101, 49.7]]])
    segments = np.array([[3000, 3001]])
    assert faults_of(xy, segments, triangulate(xy, NONE)) == ["segment [3000, 3001] is missing"]
    assert faults_of(xy, segments, triangulate(xy, segments)) == []


def test_circles_are_empty_where_no_segment_is_in_the_way():
    """Delaunay's rule, for all pairs of neighbours: the angles opposite to a side that is no segment are together no
    more than half a turn."""
    rng = np.random.default_rng(8)
    xy = rng.uniform(0, 100, (400, 2))
    segments = np.array([[0, 200]])
    triangles = triangulate(xy, segments)
    apex = {}
    for a, b, c in triangles.tolist():
        for u, v, w in ((a, b, c), (b, c, a), (c, a, b)):
            apex[u, v] = w
    worst = 0.0
    for (u, v), w in apex.items():
        if (v, u) in apex and {u, v} not in [set(s) for s in segments.tolist()]:
            angles = []
            for tip in (w, apex[v, u]):
                p, q = xy[u] - xy[tip], xy[v] - xy[tip]
                angles.append(np.arctan2(abs(p[0] * q[1] - p[1] * q[0]), p @ q))
            worst = max(worst, sum(angles))
    # The segment itself cuts the field, so that sides along it may only be seen from one hand: they still keep the rule.
    assert worst <= np.pi * (1 + 1e-9)


@pytest.mark.parametrize("part", range(8))
def test_two_thousand_nasty_nets_give_whole_triangulations_or_a_reason(part):
    kinds = Counter()
    for seed in range(250 * part, 250 * (part + 1)):
        levels, lines = nasty_ground(seed)
        try:
            net, _ = node_lines(levels, lines)
            triangles = triangulate(net.points[:, :2], net.segments)
        except (TooFewPoints, PointsInLine) as error:
            kinds[type(error).__name__] += 1
            places = np.vstack([levels.points, *(one.points for one in lines)])[:, :2]
            far = places - places[0] if len(places) else places
            assert len(places) < 3 or np.linalg.svd(far, compute_uv=False)[1] < 2e-3 * len(places), seed
            continue
        kinds["whole"] += 1
        assert faults_of(net.points[:, :2], net.segments, triangles) == [], seed
    assert kinds["whole"] > 225


def test_a_lattice_with_all_points_on_circles_of_four_is_whole():
    x, y = np.meshgrid(np.arange(40.0), np.arange(40.0))
    for far, turn in ((0.0, 0.0), (1e7, 0.0), (0.0, 0.3), (1e7, 1.1)):
        xy = np.column_stack([x.ravel(), y.ravel()])
        xy = xy @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]]) + far
        segments = np.array([[0, 1599], [39, 1560], [3, 1500]])[:1]
        assert faults_of(xy, segments, triangulate(xy, segments)) == []


def test_points_beside_a_straight_rim_by_rounding_alone_leave_no_dent():
    """Points on a turned straight are off it by 1e-15: the rim there is still the hull, and a breakline along it fits."""
    t = np.linspace(0.0, 30.0, 301)
    rim = np.column_stack([t * np.cos(0.7), t * np.sin(0.7)])
    xy = np.vstack([rim, [[-3.0, 9.0], [2.0, 20.0]]])
    segments = np.column_stack([np.arange(300), np.arange(1, 301)])
    assert faults_of(xy, segments, triangulate(xy, segments)) == []
    whole = np.array([[0, 300]])
    triangulate(xy, whole)


def test_a_moved_turned_or_mirrored_site_has_the_same_triangles():
    rng = np.random.default_rng(3)
    xy = rng.uniform(0, 50, (300, 2))
    segments = np.array([[0, 1], [2, 3]])
    net, _ = node_lines(*_as_ground(xy, segments))
    there = as_sets(triangulate(net.points[:, :2], net.segments))
    turned = net.points[:, :2] @ np.array([[0.6, -0.8], [0.8, 0.6]])
    for moved in (net.points[:, :2] + 1e7, turned, net.points[:, :2] * (-1, 1)):
        assert as_sets(triangulate(moved, net.segments)) == there


def _as_ground(xy, segments):
    from tests.core.ground.nasty import levels, line

    return levels(xy), [line(xy[list(pair)]) for pair in segments]


def test_what_cannot_be_triangulated_is_refused():
    with pytest.raises(TooFewPoints, match=r"^A surface needs three points or more .* 2 are given\.$"):
        triangulate(SQUARE[:2], NONE)
    words = "All points lie on one line, so there is no surface between them. Add points beside it."
    t = np.linspace(0.0, 9.0, 10)
    for xy in (
        np.column_stack([t, 0 * t]),
        np.column_stack([t, 0.1 * t]),
        np.column_stack([t, 0.1 * t]) + 1e7,
    ):
        with pytest.raises(PointsInLine) as caught:
            triangulate(xy, NONE)
        assert str(caught.value) == words


def test_segments_that_cross_are_refused_with_the_place():
    with pytest.raises(BadInput) as caught:
        triangulate(SQUARE, np.array([[0, 2], [1, 3]]))
    assert str(caught.value) == (
        "Two breaklines cross near 5.000, 5.000 in the survey plane and have no point in common there. Draw a point "
        "where they meet."
    )


@pytest.mark.parametrize("reach", [1e3, 1e5, 1e7])
def test_points_that_the_library_takes_for_others_are_put_in(reach):
    """The library sees squares of distances, rounded: points far below its sight are left out of what it gives."""
    from scipy.spatial import Delaunay

    rng = np.random.default_rng(3)
    xy = rng.uniform(0.0, reach, (200, 2))
    both = np.vstack([xy, xy[:60] + rng.normal(0.0, 1e-13 * reach, (60, 2))])
    assert len(Delaunay(both / reach).coplanar) > 20  # else nothing is tested here
    segments = np.array([[0, 200], [3, 203], [5, 100]])
    assert faults_of(both, segments, triangulate(both, segments)) == []


def test_a_point_on_the_side_of_a_triangle_divides_both_beside_it():
    mesh_xy = np.vstack([SQUARE, [[5.0, 5.0], [5.0, 0.0], [2.0, 1.0]]])
    base = triangulate(SQUARE, np.array([[0, 2]]))
    mesh = Mesh(mesh_xy, base, neighbours_of(base, len(mesh_xy)), NONE)
    for point in (4, 5, 6):
        mesh.add_point(point, 0)
    assert faults_of(mesh_xy, NONE, mesh.triangles()) == []
    outside = Mesh(np.vstack([SQUARE, [[5.0, -1.0]]]), base, neighbours_of(base, 5), NONE)
    with pytest.raises(
        BadInput, match=r"^A point at 5\.000, -1\.000 in the survey plane lies too near to others"
    ):
        outside.add_point(4, 0)


def test_a_folded_triangulation_is_never_handed_out():
    whole = triangulate(SQUARE, NONE)
    check_triangulation(SQUARE, whole)
    for wrong in (whole[:1], whole[:, ::-1], np.vstack([whole, whole[:1]])):
        with pytest.raises(BadInput, match="do not fit together"):
            check_triangulation(SQUARE, wrong)


def test_without_the_library_the_error_names_what_to_install(monkeypatch):
    real = builtins.__import__

    def without(name, *rest, **more):
        if name.startswith("scipy"):
            raise ImportError(name)
        return real(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(MissingLibrary) as caught:
        triangulate(SQUARE, NONE)
    assert str(caught.value) == (
        "A surface needs scipy, which this QGIS lacks. Install it for QGIS's Python (pip install scipy, or your system's "
        "package python3-scipy), then run this again."
    )


def test_the_hand_of_a_point_is_exact_where_floats_are_wrong():
    """A line through the origin and points a unit in the last place off it (Kettner and others, Classroom examples of
    robustness problems in geometric computations, Computational Geometry 40 (2008) 61-78, figure 2a: the grid about
    (0.5, 0.5) against (12, 12) and (24, 24))."""
    k = 2.0**-53
    a, b = (12.0, 12.0), (24.0, 24.0)
    wrong = 0
    c = np.array([(0.5 + i * k, 0.5 + j * k) for i in range(16) for j in range(16)])
    signs = sides_of(np.tile(a, (256, 1)), np.tile(b, (256, 1)), c)
    for sign, (x, y) in zip(signs.tolist(), c.tolist()):
        told = hand(a, b, (x, y))
        assert sign == told == side_of(a, b, (x, y))
        plain = (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])
        wrong += np.sign(plain) != told
    assert wrong > 10  # the plain float fails here, so that the test could


def test_the_cotangent_of_a_right_angle_is_0():
    assert exact_cotangent((0.0, 0.0), (2.0, 0.0), (1.0, 1.0)) == 0
    assert (
        exact_cotangent((0.0, 0.0), (2.0, 0.0), (1.0, 0.5))
        < 0
        < exact_cotangent((0.0, 0.0), (2.0, 0.0), (1.0, 3.0))
    )
