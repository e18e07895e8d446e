# SPDX-License-Identifier: GPL-2.0-or-later
"""Volumes beside closed forms, beside other reckonings of the same triangles, and beside drawn ground."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from shapely.geometry import Polygon

from plugin.core.errors import BadInput, Cancelled, PointsInLine
from plugin.core.ground.depths import Ground
from plugin.core.ground.outline import chorded_ring
from plugin.core.ground.target import TargetPlane
from plugin.core.ground.volume import measure_ground, volume_between, volume_to_level, volume_to_plane
from plugin.core.quantity import COVER_95
from plugin.core.segments import Curve
from tests.core.ground.grounds import drawn_surface, grid_surface, moved, square, surface_of


def figures(volumes):
    return [volumes.cut.value, volumes.fill.value, volumes.net.value, *volumes.areas]


def flat(level, side=20.0, **worth):
    return surface_of(
        [[0, 0, level], [side, 0, level], [side, side, level], [0, side, level]],
        [[0, 1, 2], [0, 2, 3]],
        **worth,
    )


# --- closed forms ---


def test_a_slope_across_zero_is_split_where_it_is_zero():
    """z = x - 5 over 20 x 20 m: 15 m of cut to 15 m high, 5 m of fill to 5 m deep, a triangle each."""
    slope = surface_of([[0, 0, -5], [20, 0, 15], [20, 20, 15], [0, 20, -5]], [[0, 1, 2], [0, 2, 3]])
    told = volume_to_level(slope, 0.0)
    assert figures(told) == pytest.approx([15 * 15 / 2 * 20, 5 * 5 / 2 * 20, 2000.0, 300, 100, 0], rel=1e-14)
    assert (told.least.value, told.most.value) == pytest.approx((-5, 15))
    assert told.mean.value == pytest.approx(5.0)


def test_a_pyramid_to_the_level_of_half_its_height():
    """The upper half of a pyramid of 3 m on 10 m is a pyramid of 1.5 m on 5 m."""
    points = [[0, 0, 0], [10, 0, 0], [10, 10, 0], [0, 10, 0], [5, 5, 3]]
    told = volume_to_level(surface_of(points, [[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]]), 1.5)
    assert told.cut.value == pytest.approx(25 * 1.5 / 3, rel=1e-14)
    assert told.net.value == pytest.approx(100 - 150, rel=1e-13)
    assert told.areas == pytest.approx((25, 75, 0), rel=1e-13)


def test_to_a_plane_through_three_points():
    plane = TargetPlane.through(np.array([[0, 0, 1], [10, 0, 2], [0, 10, 1.5]]))
    # Mean height of the plane over the square about (10, 10): 1 + 1 + 0.5.
    told = volume_to_plane(flat(3.0), plane)
    assert told.net.value == pytest.approx(400 * 0.5, rel=1e-13)


def test_strip_lowers_the_ground_everywhere():
    told = volume_to_level(flat(1.0), 0.9, strip=0.25)
    assert figures(told) == pytest.approx([0, 60.0, -60.0, 0, 400, 0])


def test_a_circle_with_a_void_on_a_slope():
    """On a plane the volume over an area is the area times the height at its centre."""
    curve = Curve(np.array([[7, 10, 0], [15, 10, 0], [7, 10, 0]], float), np.array([1.0, 1.0]))
    hole = square(10, 12) - [0.0, 1.0]
    slope = surface_of([[0, 0, 1], [20, 0, 3], [20, 20, 3], [0, 20, 1]], [[0, 1, 2], [0, 2, 3]])
    told = volume_to_level(slope, 0.0, [chorded_ring(curve), hole])
    area = 16 * np.pi - 4
    assert told.area == pytest.approx(area, rel=1e-13)
    assert told.cut.value == pytest.approx(area * 2.1, rel=1e-13)
    assert told.left_out == 0.0


# --- the same triangles reckoned otherwise ---


def brute(upper, lower):
    """Cut, fill and common area by shapely, pair by pair, the sign's half planes cut off by hand."""
    cut = fill = area = 0.0
    for t in upper.corners:
        for s in lower.corners:
            piece = Polygon(t[:, :2]).intersection(Polygon(s[:, :2]))
            if piece.geom_type != "Polygon" or piece.area == 0.0:
                continue
            rows = np.column_stack([np.ones(3), t[:, :2]]), np.column_stack([np.ones(3), s[:, :2]])
            plane = np.linalg.solve(rows[0], t[:, 2]) - np.linalg.solve(rows[1], s[:, 2])
            area += piece.area
            for sign in (1.0, -1.0):
                part = half_plane(np.array(piece.exterior.coords)[:-1], sign * plane)
                if len(part) > 2:
                    shape = Polygon(part)
                    depth = plane @ [1.0, shape.centroid.x, shape.centroid.y]
                    cut, fill = cut + max(shape.area * depth, 0.0), fill + max(-shape.area * depth, 0.0)
    return cut, fill, area


def half_plane(ring, plane):
    out = []
    for p, q in zip(ring, np.roll(ring, -1, axis=0)):
        a, b = plane @ [1, *p], plane @ [1, *q]
        if a >= 0:
            out.append(p)
        if a * b < 0:
            out.append(p + a / (a - b) * (q - p))
    return np.array(out)


@pytest.mark.parametrize("seed", range(4))
def test_two_drawn_surfaces_pair_by_pair(seed):
    upper, lower = drawn_surface(25, seed), moved(drawn_surface(20, seed + 50), 0.4, (3, -2, 0.1))
    told = volume_between(upper, lower)
    cut, fill, area = brute(upper, lower)
    assert (told.cut.value, told.fill.value, told.area) == pytest.approx((cut, fill, area), rel=1e-9)
    assert told.left_out == pytest.approx(400 - area, rel=1e-9)
    assert told.left_out_below == pytest.approx(400 - area, rel=1e-9)


def prisms(surface):
    """Volume from height 0, each triangle a prism."""
    a, b, c = (surface.corners[:, k] for k in range(3))
    u, v = b - a, c - a
    return float(0.5 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) @ surface.corners[:, :, 2].mean(axis=1))


@pytest.mark.parametrize("seed", range(5))
def test_the_net_is_that_of_two_prism_sums(seed):
    upper, lower = drawn_surface(400, seed), drawn_surface(300, seed + 9)
    told = volume_between(upper, lower)
    assert told.net.value == pytest.approx(prisms(upper) - prisms(lower), abs=1e-10)
    assert told.area == pytest.approx(400, rel=1e-13)
    assert (told.left_out, told.left_out_below) == (0.0, 0.0)


def test_a_closed_body_of_the_same_triangles():
    """The volume of a mesh as trimesh has it: surface, level below, and walls between."""
    surface = drawn_surface(200, 3)
    n = len(surface.points)
    floor = surface.points * [1, 1, 0] - [0, 0, 10]
    edges = np.concatenate([surface.triangles[:, [k, (k + 1) % 3]] for k in range(3)])
    reverse = {(b, a) for a, b in edges.tolist()}
    rim = np.array([edge for edge in edges.tolist() if tuple(edge) not in reverse])
    walls = np.concatenate(
        [
            np.column_stack([rim[:, 0], rim[:, 0] + n, rim[:, 1]]),
            np.column_stack([rim[:, 1], rim[:, 0] + n, rim[:, 1] + n]),
        ]
    )
    faces = np.concatenate([surface.triangles, surface.triangles[:, ::-1] + n, walls])
    body = trimesh.Trimesh(np.vstack([surface.points, floor]), faces, process=False)
    assert body.is_watertight
    assert volume_to_level(surface, -10.0).cut.value == pytest.approx(abs(body.volume), rel=1e-9)


# --- what may not change it ---


@pytest.mark.parametrize("seed", range(5))
def test_the_other_way_round_cut_is_fill(seed):
    upper, lower = drawn_surface(60, seed), moved(drawn_surface(80, seed + 5), 0.2, (1, 1, 0))
    there, back = volume_between(upper, lower), volume_between(lower, upper)
    assert figures(back) == pytest.approx(
        np.array(figures(there))[[1, 0, 2, 4, 3, 5]] * [1, 1, -1, 1, 1, 1], rel=1e-11
    )
    assert back.net.sigma == pytest.approx(there.net.sigma, abs=1e-12)


@pytest.mark.parametrize("seed", range(5))
def test_parts_of_an_area_add_up(seed):
    upper, lower = drawn_surface(80, seed), drawn_surface(60, seed + 5)
    ring = np.array([[2, 3], [17, 1], [19, 15], [9, 19], [1, 12]], float)
    left, right = ring[[0, 1, 2]], ring[[0, 2, 3, 4]]
    whole, *parts = (volume_between(upper, lower, [part]) for part in (ring, left, right))
    assert figures(whole) == pytest.approx(np.add(*map(figures, parts)), rel=1e-11)


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("over", [None, [square(3, 15)]])
def test_turned_and_moved_by_ten_million_it_is_the_same(seed, over):
    # Places that doubles hold exactly there, so that nothing but the reckoning is tried.
    upper, lower = (
        replace(s, points=np.round(s.points * 2**20) / 2**20)
        for s in (drawn_surface(60, seed), drawn_surface(50, seed + 5))
    )
    here = figures(volume_between(upper, lower, over))
    shift = np.array([1e7, -1e7, 1e4])
    far = None if over is None else [ring + shift[:2] for ring in over]
    there = volume_between(moved(upper, 0.0, shift), moved(lower, 0.0, shift), far)
    assert figures(there) == pytest.approx(here, rel=1e-9)
    cos, sin = math.cos(1.0), math.sin(1.0)
    turned = None if over is None else [ring @ np.array([[cos, sin], [-sin, cos]]) for ring in over]
    assert figures(volume_between(moved(upper, 1.0), moved(lower, 1.0), turned)) == pytest.approx(
        here, rel=1e-9
    )


def test_the_same_planes_triangulated_otherwise_are_the_same():
    upper, lower = flat(1.0), flat(0.4)
    fine = grid_surface(lambda x, y: 1.0 + 0 * x, 20.0, 7)
    assert figures(volume_between(fine, lower)) == pytest.approx(
        figures(volume_between(upper, lower)), rel=1e-12
    )
    slope = drawn_surface(50, 1, height=lambda x, y: 0.1 * x - 0.3 * y)
    other = drawn_surface(70, 2, height=lambda x, y: 0.1 * x - 0.3 * y)
    told = volume_between(slope, other)
    assert figures(told)[:5] == [0, 0, 0, 0, 0]
    assert told.areas[2] == pytest.approx(400, rel=1e-12)


@pytest.mark.parametrize("seed", range(5))
def test_a_surface_to_itself_is_nothing_at_all(seed):
    surface = drawn_surface(300, seed, sigma=0.02)
    told = volume_between(surface, surface)
    assert figures(told)[:5] == [0.0, 0.0, 0.0, 0.0, 0.0]
    assert told.areas[2] == pytest.approx(400, rel=1e-13)


def test_coincident_corners_and_edges_count_once():
    upper, lower = grid_surface(lambda x, y: 1.0 + 0 * x, 20.0, 4), grid_surface(lambda x, y: 0 * x, 20.0, 8)
    told = volume_between(upper, lower, [square(0, 20), square(5, 10)])
    assert figures(told) == pytest.approx([375, 0, 375, 375, 0, 0], rel=1e-13)


def test_one_inside_the_other():
    inner = surface_of([[5, 5, 2], [9, 5, 2], [9, 9, 2], [5, 9, 2]], [[0, 1, 2], [0, 2, 3]])
    told = volume_between(inner, flat(0.0))
    assert figures(told) == pytest.approx([32, 0, 32, 16, 0, 0])
    assert (told.left_out, told.left_out_below) == (0.0, pytest.approx(384))


@pytest.mark.parametrize("shift", [(20.0, 0.0, 0.0), (500.0, 500.0, 0.0)])
def test_apart_or_only_touching_there_is_nothing_and_all_is_left_out(shift):
    told = volume_between(flat(1.0), moved(flat(0.0), 0.0, shift))
    assert figures(told) == [0, 0, 0, 0, 0, 0]
    assert told.left_out == pytest.approx(400)
    assert math.isnan(told.mean.value)
    assert math.isnan(told.least.value)


def test_needles_lose_nothing():
    fan = [[0, 0, 1], *[[20, y, 1 + y] for y in np.linspace(0, 20, 400)], [0, 20, 1]]
    upper = surface_of(fan, [[0, k, k + 1] for k in range(1, 401)])
    lower = moved(upper, 0.3, (1.0, -4.0, -0.5))
    told = volume_between(upper, lower)
    assert told.area == pytest.approx(
        Polygon([(0, 0), (20, 0), (20, 20), (0, 20)])
        .intersection(Polygon(moved(flat(0), 0.3, (1.0, -4.0, 0.0)).points[:, :2]))
        .area,
        rel=1e-9,
    )
    cut, fill, _ = brute(surface_of(fan, [[0, k, k + 1] for k in range(1, 401, 1)]), flat(0.5))
    level = volume_to_level(upper, 0.5)
    assert (level.cut.value, level.fill.value) == pytest.approx((cut, fill), rel=1e-9)


def test_a_step_of_a_hair_is_all_but_upright():
    step = surface_of(
        [
            [0, 0, 0],
            [10, 0, 0],
            [10.000001, 0, 2],
            [20, 0, 2],
            [20, 20, 2],
            [10.000001, 20, 2],
            [10, 20, 0],
            [0, 20, 0],
        ],
        [[0, 1, 6], [0, 6, 7], [1, 2, 5], [1, 5, 6], [2, 3, 4], [2, 4, 5]],
    )
    told = volume_to_level(step, 1.0)
    assert figures(told) == pytest.approx([200, 200, 0, 200, 200, 0], abs=2e-5)
    assert volume_between(step, moved(step, 0.0, (0, 0, -1e-3))).cut.value == pytest.approx(0.4, rel=1e-9)


# --- how well it is known ---


@pytest.mark.parametrize("over", [None, [square(4, 13.3)]])
def test_it_moves_with_the_heights_as_told(over):
    upper, lower = drawn_surface(30, 1), drawn_surface(25, 2)
    told, step = volume_between(upper, lower, over), 1e-4
    for k in (0, 7, 20, len(upper.points) + 3, len(upper.points) + 11):
        ends = []
        for sign in (step, -step):
            pair = [upper, lower]
            which, row = divmod(k, len(upper.points)) if k < len(upper.points) else (1, k - len(upper.points))
            points = pair[which].points.copy()
            points[row, 2] += sign
            pair[which] = replace(pair[which], points=points)
            moved_by = volume_between(*pair, over)
            ends.append(np.array([moved_by.cut.value, moved_by.fill.value]))
        assert told.moves[:, k] == pytest.approx((ends[0] - ends[1]) / (2 * step), abs=1e-5)


def test_one_height_of_a_pyramid():
    """The apex of a pyramid bears a third of its base."""
    points = [[0, 0, 0], [10, 0, 0], [10, 10, 0], [0, 10, 0], [5, 5, 3]]
    surface = surface_of(points, [[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]], sigma=[0, 0, 0, 0, 0.03])
    told = volume_to_level(surface, -1.0)
    assert told.cut.sigma == pytest.approx(0.03 * 100 / 3, rel=1e-13)
    assert told.most.sigma == pytest.approx(0.03, rel=1e-13)
    assert told.least.sigma == pytest.approx(0.0, abs=1e-15)


def test_what_all_heights_share_counts_with_the_area():
    told = volume_to_level(flat(1.0), 0.0, common=0.01)
    assert (told.cut.sigma, told.net.sigma, told.fill.sigma) == pytest.approx((4.0, 4.0, 0.0))
    slope = surface_of([[0, 0, -5], [20, 0, 15], [20, 20, 15], [0, 20, -5]], [[0, 1, 2], [0, 2, 3]])
    told = volume_to_level(slope, 0.0, common=0.01)
    assert (told.cut.sigma, told.fill.sigma, told.net.sigma) == pytest.approx((3.0, 1.0, 4.0))
    # Both go with the one shift: what is too much cut is too little fill.
    assert told.sigma_of(1.0, -1.0) == pytest.approx(4.0)
    assert told.sigma_of(1.0, 1.0) == pytest.approx(2.0)


def test_level_ground_may_become_either():
    told = volume_between(flat(1.0, sigma=0.02), flat(1.0))
    assert told.cut.sigma == told.fill.sigma == told.net.sigma > 0.0


def truth_and_survey(seeds):
    """Ground of a fine grid: a coarse one's triangles with a rough field on them; a survey of the coarse points."""
    side, coarse, fine, sigma, rough, reach = 12.0, 6, 24, 0.03, 0.04, 1.5

    def shape(x, y):
        return 0.25 * (x - 6.0) + 0.1 * np.sin(y)

    plan = grid_surface(shape, side, coarse, sigma=sigma, rough=rough, reach=reach)
    nodes = grid_surface(lambda x, y: 0 * x, side, fine)
    cell = side / coarse
    i, j = (np.minimum((nodes.points[:, k] // cell).astype(int), coarse - 1) for k in (0, 1))
    u, v = nodes.points[:, 0] / cell - i, nodes.points[:, 1] / cell - j
    at = j * (coarse + 1) + i
    right, up, both = at + 1, at + coarse + 1, at + coarse + 2
    below = u >= v
    weights = np.zeros((len(at), len(plan.points)))
    row = np.arange(len(at))
    np.add.at(weights, (row, at), np.where(below, 1 - u, 1 - v))
    np.add.at(weights, (row, both), np.where(below, v, u))
    np.add.at(weights, (row, np.where(below, right, up)), np.where(below, u - v, v - u))
    away = np.hypot(*(nodes.points[:, None, :2] - nodes.points[None, :, :2]).transpose(2, 0, 1))
    field = np.linalg.cholesky(rough**2 * np.exp(-away / reach) + 1e-12 * np.eye(len(away)))
    true_z = plan.points[:, 2]
    for seed in seeds:
        draw = np.random.default_rng(seed)
        ground = weights @ true_z + field @ draw.normal(size=len(field))
        survey = plan.points.copy()
        survey[:, 2] = true_z + sigma * draw.normal(size=len(true_z))
        truth = replace(nodes, points=np.column_stack([nodes.points[:, :2], ground]))
        yield truth, replace(plan, points=survey)


def test_nineteen_of_twenty_volumes_lie_within_their_95_percent():
    """Seeds 1 to 2,000: points drawn with their sigma, and a rough field on the true ground between them. The chance of
    a cover outside 93 to 97 %, were it 95, is 4e-5 (binomial)."""
    hits = np.zeros(3)
    seeds = range(1, 2001)
    for truth, survey in truth_and_survey(seeds):
        told, true = volume_to_level(survey, 0.0), volume_to_level(truth, 0.0)
        for k, name in enumerate(("cut", "fill", "net")):
            quantity = getattr(told, name)
            hits[k] += abs(quantity.value - getattr(true, name).value) <= COVER_95 * quantity.sigma
    cover = hits / len(seeds)
    assert (cover >= 0.93).all(), cover
    assert (cover <= 0.97).all(), cover


# --- what is refused ---


def test_three_points_in_line_are_no_plane():
    with pytest.raises(PointsInLine) as told:
        TargetPlane.through(np.array([[0, 0, 1], [5, 5, 2], [9, 9, 0]]))
    assert (
        str(told.value) == "The three points of the plane lie in one line in plan. Move one of them off it."
    )


@pytest.mark.parametrize("points", [np.zeros((2, 3)), np.array([[0, 0, np.nan], [1, 0, 0], [0, 1, 0]])])
def test_a_plane_needs_three_points_with_heights(points):
    with pytest.raises(BadInput) as told:
        TargetPlane.through(points)
    assert str(told.value) == (
        f"A plane goes through three points with heights; {len(points)} were given. Give east, north and height of three."
    )


def test_a_surface_without_triangles_is_refused():
    empty = replace(flat(0.0), triangles=np.empty((0, 3), np.int64), is_weak=np.empty(0, bool))
    for pair in ((empty, flat(0.0)), (flat(0.0), empty)):
        with pytest.raises(BadInput) as told:
            volume_between(*pair)
        assert str(told.value) == "A surface has no triangles, so there is nothing to measure."


@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_a_point_that_is_none_is_refused(bad):
    surface = flat(0.0)
    surface.points[2, 2] = bad
    with pytest.raises(BadInput) as told:
        volume_to_level(surface, 0.0)
    assert str(told.value) == "A surface has a point without place or height. Build it again."


def test_a_level_or_strip_that_is_none_is_refused():
    with pytest.raises(BadInput) as told:
        volume_to_level(flat(0.0), np.nan)
    assert str(told.value) == "The level is nan. Give a height in metres."
    with pytest.raises(BadInput) as told:
        volume_to_level(flat(0.0), 0.0, strip=-0.1)
    assert str(told.value) == "The strip is -0.1 m deep. Give a depth that is 0 or more."


def test_it_can_be_stopped():
    def stop():
        raise Cancelled

    with pytest.raises(Cancelled):
        volume_between(flat(1.0), flat(0.0), tick=stop)


def test_only_the_triangles_near_an_area_are_looked_at_and_the_figures_are_the_same():
    upper, lower = drawn_surface(300, 1, sigma=0.02), drawn_surface(200, 2, sigma=0.01)
    whole = Ground(upper, lower)
    ring = square(8, 11)
    near = whole.within([ring])
    assert len(near.upper.triangles) < len(upper.triangles) / 4
    told, all_of_it = measure_ground(near), volume_between(upper, lower, [ring])
    assert figures(told) == pytest.approx(figures(all_of_it), rel=1e-12)
    assert told.cut.sigma == pytest.approx(all_of_it.cut.sigma, rel=1e-12)
    away = measure_ground(whole.within([square(100, 110)]))
    assert (away.area, away.left_out) == (0.0, 100.0)


def test_weak_ground_is_told():
    surface = flat(1.0)
    weak = replace(surface, is_weak=np.array([True, False]))
    assert volume_to_level(surface, 0.0).weak == 0.0
    assert volume_to_level(weak, 0.0).weak == pytest.approx(200)
    assert volume_between(surface, moved(weak, 0.0, (0, 0, -1))).weak == pytest.approx(200)
