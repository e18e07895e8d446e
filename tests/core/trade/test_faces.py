# SPDX-License-Identifier: GPL-2.0-or-later
"""Developed faces beside closed forms, and their one-sigma beside Monte Carlo."""

from __future__ import annotations

import math

import numpy as np
import pytest
from trade_lines import arc, box, moved, spread, straight

from plugin.core.errors import BadInput
from plugin.core.trade.faces import outline_face, profile_face, ruled_face
from plugin.core.trade.lines import Line, draw_line

QUARTER = math.pi / 2


def upright_arc(radius):
    """A quarter circle up a wall: in the vertical plane through the x axis."""
    turn = np.array([0.0, 0.5, 1.0]) * QUARTER
    points = np.column_stack([radius * (1 - np.cos(turn)), np.zeros(3), radius * np.sin(turn)])
    return draw_line(points, np.array([0, 1, 0], bool))


def tilted(line, by):
    """Turned about the x axis, out of its plane."""
    cos, sin = math.cos(by), math.sin(by)
    return Line(line.points @ np.array([[1, 0, 0], [0, cos, sin], [0, -sin, cos]]), line.is_mid)


@pytest.mark.parametrize("tilt", [0.0, 0.3, 1.0, math.pi / 2])
def test_an_arc_in_a_vertical_or_tilted_plane_is_exact(tilt):
    face = profile_face(tilted(upright_arc(2.0), tilt), 3.0, 0.0)
    assert face.area.value == pytest.approx(math.pi * 3.0, rel=1e-14)
    assert face.length.value == pytest.approx(math.pi, rel=1e-14)


def test_a_profile_of_straights_is_its_slope_length_by_its_width():
    face = profile_face(straight((0, 0, 0), (3, 0, 4), (3, 0, 6)), 2.5, 0.01, 0.02)
    assert face.area.value == pytest.approx(7.0 * 2.5)
    # Each end alone moves its length by 1; the corner by the difference of the two directions.
    corner = math.hypot(0.6, 0.8 - 1.0)
    length = 0.01 * math.sqrt(2.0 + corner**2)
    assert face.length.sigma == pytest.approx(length)
    assert face.area.sigma == pytest.approx(math.hypot(2.5 * length, 7.0 * 0.02))
    assert face.method == "profile by width: 7.000 m x 2.500 m"


def test_the_sigma_of_a_curved_profile_is_that_of_draws():
    profile = tilted(upright_arc(2.0), 0.4)
    face = profile_face(profile, 1.0, 0.01)
    found = spread(lambda line: profile_face(line, 1.0, 0.0).area.value, 0.01, profile)
    assert face.area.sigma == pytest.approx(found, rel=0.06)


def test_a_ruled_face_between_straights_is_the_hyperbolic_paraboloids():
    face = ruled_face(straight((0, 0, 0), (1, 0, 0)), straight((0, 1, 0), (1, 1, 1)), 0.01)
    # z = x y: the integral of sqrt(1 + x^2 + y^2) over the unit square, by scipy.integrate.dblquad.
    assert face.area.value == pytest.approx(1.280789275273404, abs=1e-10)


def test_a_ruled_face_between_arcs_is_a_cones():
    sweep, low, high, rise = math.radians(100), 5.0, 3.0, 2.0
    face = ruled_face(arc(low, sweep, 0.0), arc(high, sweep, rise), 0.01)
    assert face.area.value == pytest.approx(
        0.5 * sweep * (low + high) * math.hypot(low - high, rise), rel=1e-8
    )


def test_an_edge_that_runs_the_other_way_is_turned_round():
    foot, top = arc(5.0, 1.2, 0.0), arc(3.0, 1.2, 2.0)
    face, turned = ruled_face(foot, top, 0.01), ruled_face(foot, top.reversed(), 0.01)
    assert turned.area.value == pytest.approx(face.area.value, rel=1e-12)
    assert turned.area.sigma == pytest.approx(face.area.sigma, rel=1e-9)


def test_an_edge_without_heights_that_runs_the_other_way_is_turned_round():
    foot, top = (draw_line(np.column_stack([[0.0, 10.0], [y, y], [math.nan] * 2])) for y in (0.0, 2.0))
    assert ruled_face(foot, top.reversed(), 0.01).area.value == pytest.approx(20.0, rel=1e-12)
    assert ruled_face(foot, top, 0.01).method == "ruled between two edges of 10.000 m and 10.000 m, in plan"


def test_vertices_of_either_edge_break_the_patches():
    whole = ruled_face(straight((0, 0, 0), (10, 0, 0)), straight((0, 0, 2), (10, 0, 3)), 0.0).area.value
    many = [(x, 0, 2 + x / 10) for x in (0, 0.7, 3.1, 3.2, 8.0, 10)]
    broken = ruled_face(straight((0, 0, 0), (4, 0, 0), (10, 0, 0)), straight(*many), 0.0).area.value
    assert whole == pytest.approx(25.0)
    assert broken == pytest.approx(25.0, rel=1e-12)


def test_the_sigma_of_a_ruled_face_is_that_of_draws():
    foot = straight((0, 0, 0), (4, 0.5, 0.2), (9, 0, 0.1))
    top = straight((0, 1.0, 1.8), (5, 1.4, 2.2), (9, 0.6, 2.5))
    face = ruled_face(foot, top, 0.02)
    found = spread(lambda a, b: ruled_face(a, b, 0.0).area.value, 0.02, foot, top, draws=600)
    assert face.area.sigma == pytest.approx(found, rel=0.10)


@pytest.mark.parametrize("by", [(1e7, -3e7, 500.0), (0.0, 0.0, -80.0)])
def test_a_ruled_face_turned_and_moved_far_is_the_same(by):
    foot, top = arc(5.0, 1.2, 0.0), straight((3, 0, 2), (2, 2, 2.3), (1.0, 2.9, 2.1))
    near = ruled_face(foot, top, 0.01).area
    far = ruled_face(moved(foot, by, 0.7), moved(top, by, 0.7), 0.01).area
    assert far.value == pytest.approx(near.value, rel=2e-8)
    assert far.sigma == pytest.approx(near.sigma, rel=1e-5)


def test_an_upright_outline_has_its_area_in_its_own_plane():
    wall = straight((0, 0, 0), (3, 4, 0), (3, 4, 2), (0, 0, 2), (0, 0, 0))
    window = straight((0.6, 0.8, 0.5), (0.6, 0.8, 1.5), (1.2, 1.6, 1.5), (1.2, 1.6, 0.5), (0.6, 0.8, 0.5))
    face = outline_face([wall, window], [False, True], 0.01, 0.02)
    assert face.area.value == pytest.approx(10.0 - 1.0, rel=1e-12)
    assert face.off_plane < 1e-12
    found = spread(lambda w: outline_face([w], [False], 0.0, 1.0).area.value, 0.01, wall, draws=400)
    assert outline_face([wall], [False], 0.01, 0.02).area.sigma == pytest.approx(found, rel=0.12)


def test_the_edge_of_an_outline_with_a_hole_is_the_outer_one_and_so_is_its_sigma():
    outer = straight((0, 0, 1), (3, 0, 1), (3, 0, 4), (0, 0, 4), (0, 0, 1))
    hole = straight((1, 0, 2), (1, 0, 3), (2, 0, 3), (2, 0, 2), (1, 0, 2))
    face = outline_face([outer, hole], [False, True], 0.01, 0.001)
    assert (face.area.value, face.length.value) == pytest.approx((8.0, 12.0), rel=1e-12)
    # Each of four corners moves the length by 1 along either edge.
    assert face.length.sigma == pytest.approx(0.01 * math.sqrt(8.0), rel=1e-12)
    # A corner of a box of side a moves its area by a / sqrt 2.
    assert face.area.sigma == pytest.approx(0.01 * math.sqrt(4 * 9 / 2 + 4 * 1 / 2), rel=1e-12)


def test_an_outline_with_an_arc_in_a_tilted_plane_is_exact():
    flat = np.array([[-2, 0, 0], [2, 0, 0], [2, 0, 1], [0, 0, 3], [-2, 0, 1], [-2, 0, 0]], float)
    arch = draw_line(flat, np.array([0, 0, 0, 1, 0, 0], bool))
    face = outline_face([tilted(arch, 0.6)], [False], 0.01, 0.001)
    assert face.area.value == pytest.approx(4.0 + 2.0 * math.pi, rel=1e-12)


@pytest.mark.parametrize(
    ("work", "words"),
    [
        (
            lambda: profile_face(straight((0, 0, 0), (1, 0, 1)), 0.0, 0.01),
            "The face has no width above 0. Give its width, or draw its other edge.",
        ),
        (
            lambda: profile_face(
                draw_line([(1, 0, 0), (-1, 0, 0), (1, 0, 0)], [False, True, False]), 1.0, 0.01
            ),
            "A whole circle is drawn as one arc, whose plane is unknown. Draw it as two arcs.",
        ),
        (
            lambda: outline_face([box(3, 2, [0, 0, 0, 0.5])], [False], 0.01, 0.02),
            "The outline lies off any plane by 0.124 m, more than 0.02 m. Draw its two edges instead, or split it.",
        ),
        (
            lambda: ruled_face(straight((0, 0, 1), (3, 0, 1)), straight((0, 1), (3, 1)), 0.01),
            "One edge of the face has heights and the other has none. Give both.",
        ),
        (
            lambda: outline_face([box(3, 2)], [False], 0.01, 0.02),
            "The outline has no heights, so it stands in no plane of its own. Give it heights, or measure areas.",
        ),
        (
            lambda: outline_face([straight((0, 0, 0), (1, 1, 1), (2, 2, 2), (0, 0, 0))], [False], 0.01, 0.02),
            "The outline lies on one line in space. Draw it round the face.",
        ),
        (
            lambda: outline_face(
                [straight((0, 0, 0), (4, 0, 3), (4, 0, 0), (0, 0, 1), (0, 0, 0))], [False], 0.01, 0.02
            ),
            (
                "Seen square to its own plane the outline cannot be measured (it crosses itself, or a hole lies astray). "
                "Draw it again there."
            ),
        ),
        (
            lambda: draw_line([(0, 0, 0), (math.nan, 1, 0)]),
            "A point of the line has no place. Draw it again.",
        ),
        (
            lambda: draw_line([(0, 0, 0), (0, 0, 0)]),
            "The line has fewer than two points. Draw it through its stations.",
        ),
        (
            lambda: draw_line([(0, 0, 0), (5, 0, 0), (1, 0, 0)], [False, True, False]),
            "The three points of an arc lie on no circle. Move its middle between its ends.",
        ),
    ],
)
def test_what_is_no_face_is_refused_in_words(work, words):
    with pytest.raises(BadInput) as told:
        work()
    assert str(told.value) == words


def test_a_hundred_thousand_points_are_measured_in_blocks():
    x = np.linspace(0.0, 1000.0, 100_001)
    foot = Line(np.column_stack([x, np.zeros_like(x), np.zeros_like(x)]), np.zeros(len(x), bool))
    face = ruled_face(foot, straight((0, 0, 2), (1000, 0, 2)), 0.01)
    # Coordinates of 1000 m round at 1e-13 m, of ways of 5 mm 2e-11.
    assert face.area.value == pytest.approx(2000.0, rel=2e-11)
