# SPDX-License-Identifier: GPL-2.0-or-later
"""Walls beside closed forms and Monte Carlo."""

from __future__ import annotations

import math

import numpy as np
import pytest
from trade_lines import arc, circle, moved, spread, straight

from plugin.core.errors import BadInput
from plugin.core.trade.lines import draw_line
from plugin.core.trade.walls import Lies, WallSpec, footing_steps, measure_wall

MID = np.array([0, 0, 1, 0, 0, 0], bool)
FOOT = np.array([[0, 0, 10], [4, 0, 10.2], [6, 1, 10.3], [7, 3, 10.5], [7, 8, 10.4], [3, 9, 10.1]], float)
TOP = FOOT + np.array([[0.1, 0.1, 1], [0.1, 0.1, 1.1], [0, 0, 1.15], [0, 0, 1.3], [0, 0, 1.2], [0.2, 0, 0.9]])


def test_a_wall_of_noted_height_round_a_circle():
    wall = measure_wall(circle(5.0), None, WallSpec(thickness=0.4, lies=Lies.LEFT, height=1.5), 0.0)
    assert wall.front.value == pytest.approx(2 * math.pi * 5.0)
    assert wall.centre.value == pytest.approx(2 * math.pi * 4.8)
    assert wall.back.value == pytest.approx(2 * math.pi * 4.6)
    assert wall.face.value == pytest.approx(2 * math.pi * 5.0 * 1.5)
    assert wall.body.value == pytest.approx(1.5 * math.pi * (25 - 4.6**2))


def test_a_face_between_foot_and_top_is_the_integral_of_the_height():
    """Foot level, top rising evenly from 1 to 2 m and then level: 10 x 1.5 + 5 x 2."""
    foot = straight((0, 0, 5), (15, 0, 5))
    top = straight((0, 0, 6), (10, 0, 7), (15, 0, 7))
    wall = measure_wall(foot, top, WallSpec(course=0.2), 0.01)
    assert wall.face.value == pytest.approx(25.0, rel=1e-14)
    assert wall.mean.value == pytest.approx(25.0 / 15.0)
    assert (wall.highest.value, wall.lowest.value) == (pytest.approx(2.0), pytest.approx(1.0))
    assert wall.courses == 10
    # Where the top has its point the foot's height lies at two thirds between its two.
    assert wall.highest.sigma == pytest.approx(0.01 * math.sqrt(1.0 + (1 + 4) / 9))
    assert wall.lowest.sigma == pytest.approx(0.01 * math.sqrt(2.0))


def test_heights_break_at_every_point_of_both_lines():
    foot = straight((0, 0, 0), (6, 0, -1), (12, 0, 0))
    top = straight((0, 0, 2), (3, 0, 3), (12, 0, 2))
    at = np.linspace(0, 12, 100_001)
    h = np.interp(at, [0, 3, 12], [2, 3, 2]) - np.interp(at, [0, 6, 12], [0, -1, 0])
    wall = measure_wall(foot, top, WallSpec(), 0.0)
    assert wall.face.value == pytest.approx(float(((h[1:] + h[:-1]) / 2).sum() * 12 / 100_000), rel=1e-8)
    assert wall.highest.value == pytest.approx(h.max(), abs=1e-4)


def test_a_foot_that_steps_up_has_two_heights_there():
    foot = straight((0, 0, 0), (5, 0, 0), (5, 0, 0.5), (10, 0, 0.5))
    wall = measure_wall(foot, straight((0, 0, 2), (10, 0, 2)), WallSpec(thickness=0.2), 0.01)
    assert wall.face.value == pytest.approx(5 * 2 + 5 * 1.5)
    assert (wall.highest.value, wall.lowest.value) == (pytest.approx(2.0), pytest.approx(1.5))
    assert wall.body.value == pytest.approx(0.2 * 17.5)
    assert wall.front.value == wall.back.value == pytest.approx(10.0)


def test_the_sigmas_of_a_wall_are_those_of_draws():
    foot, top = draw_line(FOOT, MID), draw_line(TOP, MID)
    spec = WallSpec(thickness=0.3, lies=Lies.LEFT)
    wall = measure_wall(foot, top, spec, 0.02)
    for name, within in (("face", 0.07), ("front", 0.07), ("back", 0.07), ("body", 0.08)):
        found = spread(
            lambda a, b, name=name: getattr(measure_wall(a, b, spec, 0.0), name).value,
            0.02,
            foot,
            top,
            draws=1000,
        )
        assert getattr(wall, name).sigma == pytest.approx(found, rel=within), name


def test_a_top_that_was_walked_back_is_turned_round():
    foot, top = draw_line(FOOT, MID), draw_line(TOP, MID)
    there = measure_wall(foot, top, WallSpec(), 0.01).face
    back = measure_wall(foot, top.reversed(), WallSpec(), 0.01).face
    assert back.value == pytest.approx(there.value, rel=1e-13)
    assert back.sigma == pytest.approx(there.sigma, rel=1e-12)


def test_a_wall_turned_and_moved_far_is_the_same():
    spec = WallSpec(thickness=0.3, lies=Lies.RIGHT, backfill=0.3, footing_width=0.6, footing_depth=0.25)
    near = measure_wall(draw_line(FOOT, MID), draw_line(TOP, MID), spec, 0.01)
    by = (2e7, -5e6, 1000.0)
    far = measure_wall(moved(draw_line(FOOT, MID), by, 1.0), moved(draw_line(TOP, MID), by, 1.0), spec, 0.01)
    for name in ("face", "front", "back", "body", "backfill", "footing"):
        assert getattr(far, name).value == pytest.approx(getattr(near, name).value, rel=1e-6), name


def test_footing_and_backfill_lie_where_they_are_said_to():
    foot = arc(10.0, 1.0)
    spec = WallSpec(
        thickness=0.4, lies=Lies.RIGHT, height=1.2, footing_width=0.8, footing_depth=0.3, backfill=0.5
    )
    wall = measure_wall(foot, None, spec, 0.0)
    # To the right of a left turn lies the outside: centre 10.2, back 10.4, backfill from there to 10.9.
    assert wall.footing.value == pytest.approx(0.24 * 10.2)
    assert wall.backfill.value == pytest.approx(1.2 * 0.5 * (10.9**2 - 10.4**2))


def test_a_size_without_its_other_half_gives_nothing_and_no_sigma():
    wall = measure_wall(arc(10.0, 1.0), None, WallSpec(height=1.0, footing_depth=0.3, size_sigma=0.01), 0.0)
    assert (wall.footing.value, wall.footing.sigma) == (0.0, 0.0)
    assert (wall.body.value, wall.body.sigma) == (0.0, 0.0)


@pytest.mark.parametrize(
    ("z", "course", "steps"),
    [
        ([0, 0.6], 0.2, 3),
        ([0, 0.59], 0.2, 2),
        ([0, 0.1, 0.2, 0.3, 0.4], 0.2, 2),
        ([0, 0.4, 0.4, 0.0], 0.2, 4),
        ([0.6, 0.0, 0.6], 0.2, 6),
        ([0, 0], 0.2, 0),
        ([0, 1], 0.0, 0),
    ],
)
def test_a_footing_steps_whenever_the_foot_has_risen_by_a_course(z, course, steps):
    assert footing_steps(straight(*[(x, 0, h) for x, h in enumerate(z)]), course) == steps


def test_the_chance_of_passing_the_designers_height():
    foot, top = straight((0, 0, 0), (10, 0, 0)), straight((0, 0, 1.0), (10, 0, 1.0))

    def chance(limit, sigma=0.02):
        return measure_wall(foot, top, WallSpec(design_height=limit), sigma).design_chance

    assert chance(1.0) == pytest.approx(0.5)
    # One sigma of the height is 0.02 sqrt 2: a limit 1.645 of them above it is passed once in twenty.
    assert chance(1.0 + 1.6448536 * 0.02 * math.sqrt(2)) == pytest.approx(0.05, abs=1e-6)
    assert chance(0.9, 0.0) == 1.0
    assert chance(1.1, 0.0) == 0.0
    assert chance(0.0) == 0.0


@pytest.mark.parametrize(
    ("foot", "top", "spec", "words"),
    [
        (
            straight((0, 0, 0), (1, 0, 0)),
            None,
            WallSpec(),
            "The wall has no height: neither a top over its foot nor a size. Walk the other line, or give a height.",
        ),
        (
            straight((0, 0, 1), (4, 0, 1)),
            straight((0, 0, 2), (4, 0, 0.5)),
            WallSpec(),
            "The top lies 0.500 m below the foot at 4.00 m along it. Exchange the two parts, or correct heights.",
        ),
        (
            straight((0, 0), (4, 0)),
            straight((0, 0, 2), (4, 0, 2)),
            WallSpec(),
            "Top or foot of the wall has no heights. Give both, or a height.",
        ),
        (
            straight((0, 0, 0), (4, 0, 0)),
            None,
            WallSpec(height=1.0, thickness=-0.1),
            "The wall is -0.1 m thick. Give 0 or more.",
        ),
        (
            straight((0, 0, 0), (0, 0, 2)),
            None,
            WallSpec(height=1.0),
            "The wall's line has no length. Draw it along the wall.",
        ),
    ],
)
def test_what_is_no_wall_is_refused_in_words(foot, top, spec, words):
    with pytest.raises(BadInput) as told:
        measure_wall(foot, top, spec, 0.01)
    assert str(told.value) == words
