# SPDX-License-Identifier: GPL-2.0-or-later
"""Beds less a strip along their edge: their area and its uncertainty beside closed forms, differences and draws."""

from __future__ import annotations

import math

import numpy as np
import pytest
from trade_lines import box, circle, drawn, mirrored, moved, straight

from plugin.core.quantity import Quantity
from plugin.core.trade.lines import draw_line
from plugin.core.trade.moments import moments_of
from plugin.core.trade.set_back import set_back_area

STEP = 1e-4
ANGLE = straight((0, 0), (6, 0), (6, 3), (3, 3.5), (3, 6), (0, 5), (0, 0))
LENS = draw_line(
    [(0, 10, math.nan), (0, 0, math.nan), (20, 0, math.nan), (20, 10, math.nan), (13, 13.36, math.nan)]
    + [(0, 10, math.nan)],
    [False, False, False, False, True, False],
)
"""Three sides, and an arc through a point that is not its middle."""
BAY = draw_line(
    [(0, 10, math.nan), (0, 0, math.nan), (20, 0, math.nan), (20, 10, math.nan), (12, 7, math.nan)]
    + [(0, 10, math.nan)],
    [False, False, False, False, True, False],
)
HOLE = moved(box(2, 1.5), (8, 3, 0.0), 0.3).reversed()


def left(rings, by, sigma=0.0):
    value = moments_of(rings, rings[0].points[0, :2]).area
    return set_back_area(rings, Quantity(value, sigma, "m2"), by)


def squares(rings, reckon):
    """Sum of squares of what a figure of rings differs by as each of their points is moved by itself."""
    total = 0.0
    for r, ring in enumerate(rings):
        last = len(ring.points) - 1
        for k in range(last):
            for axis in (0, 1):
                step = np.zeros_like(ring.points)
                step[k, axis] = STEP
                if k == 0:
                    step[last] = step[0]
                ends = [
                    reckon([*rings[:r], draw_line(ring.points + s * step, ring.is_mid), *rings[r + 1 :]])
                    for s in (1, -1)
                ]
                total += ((ends[0] - ends[1]) / (2 * STEP)) ** 2
    return total


def area_of(rings):
    return moments_of(rings, rings[0].points[0, :2]).area


@pytest.mark.parametrize(
    ("rings", "by"),
    [
        ([box(10, 4)], 0.3),
        ([ANGLE], 1.0),
        ([ANGLE], 0.5),
        ([mirrored(ANGLE)], 0.5),
        ([ANGLE.reversed()], 0.5),
        ([moved(ANGLE, (4e5, 5e6, 0.0), 2.0)], 0.5),
        ([box(10, 4), moved(box(2, 1), (4, 1.5, 0.0)).reversed()], 0.25),
        ([LENS], 0.5),
        ([LENS, HOLE], 0.5),
        ([BAY], 1.0),
        ([circle(5.0)], 0.5),
        ([straight((0, 0), (9, 0), (9, 4), (4.6, 4), (4.6, 1.5), (4.4, 1.5), (4.4, 4), (0, 4), (0, 0))], 0.8),
    ],
)
def test_the_sigma_is_that_of_its_own_boundary(rings, by):
    """Beside differences of the area as each point is moved."""
    own = squares(rings, lambda some: left(some, by).value)
    told = left(rings, by, math.sqrt(squares(rings, area_of))).sigma
    assert told == pytest.approx(math.sqrt(own), rel=2e-3)


def test_a_box_moves_by_the_sides_that_are_left():
    """An inner side of 9.4 m lies from 0.3 to 9.7 m of its outer one: half of it pulls at each end, as half of 10 m does of
    the bed."""
    found = left([box(10, 4)], 0.3, 1.0)
    assert found.value == pytest.approx(9.4 * 3.4)
    assert found.sigma == pytest.approx(math.hypot(9.4, 3.4) / math.hypot(10, 4), rel=1e-9)


def test_a_circle_is_left_with_a_smaller_one():
    """A = pi (R - b)^2, so that its one-sigma is (R - b) / R of the whole one's."""
    found = left([circle(5.0)], 0.5, 0.2)
    assert found.value == pytest.approx(math.pi * 4.5**2, rel=1e-4)
    assert found.sigma == pytest.approx(0.2 * 0.9, rel=1e-4)


@pytest.mark.parametrize(("by", "sigma"), [(1.0, 0.05), (0.5, 0.1)])
def test_the_sigma_is_that_of_draws(by, sigma):
    draw = np.random.default_rng(6)
    found = np.std([left([drawn(ANGLE, sigma, draw)], by).value for _ in range(1500)])
    own = sigma * math.sqrt(squares([ANGLE], area_of))
    assert left([ANGLE], by, own).sigma == pytest.approx(found, rel=0.05)


def test_nothing_that_is_left_is_nothing():
    assert left([box(1, 1)], 0.6, 0.1) == Quantity(0.0, 0.0, "m2")


def test_a_bed_of_many_points_is_set_back_in_a_moment():
    # So many that the library leaves most of their corners out.
    turn = np.linspace(0, 2 * np.pi, 50_001)
    points = np.column_stack([50 * np.cos(turn), 50 * np.sin(turn), np.full(len(turn), np.nan)])
    points[-1] = points[0]
    found = left([draw_line(points)], 1.0, 0.5)
    assert found.value == pytest.approx(math.pi * 49**2, rel=1e-6)
    assert found.sigma == pytest.approx(0.5 * 49 / 50, rel=1e-3)
