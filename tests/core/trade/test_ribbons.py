# SPDX-License-Identifier: GPL-2.0-or-later
"""Strips of even width along lines and round rings, beside closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from plugin.core.errors import BadInput
from plugin.core.trade.lines import Line
from plugin.core.trade.ribbons import Side, measure_strip

BOX = [(0, 0), (10, 0), (10, 6), (0, 6), (0, 0)]


def line(xy, mids=()):
    """Straights, and arcs through the points whose numbers are given as middles."""
    points = np.column_stack([np.array(xy, float), np.full(len(xy), np.nan)])
    is_mid = np.zeros(len(xy), bool)
    is_mid[list(mids)] = True
    return Line(points, is_mid)


def arc(radius, sweep, count=2):
    """One arc from the east end of its radius, anticlockwise, about the origin."""
    angles = np.linspace(0.0, sweep, count + 1)
    return line([(radius * math.cos(a), radius * math.sin(a)) for a in angles], range(1, count, 2))


def area(some, width, side, **how):
    return measure_strip([some], width, side, how.pop("sigma", 0.0), **how).area.value


@pytest.mark.parametrize(
    ("side", "wanted"), [(Side.LEFT, 3.0), (Side.RIGHT, 3.0), (Side.ABOUT, 3.0), (Side.BOTH, 6.0)]
)
def test_along_a_straight_it_is_width_by_length(side, wanted):
    assert area(line([(1, 2), (7, 10)]), 0.3, side) == pytest.approx(wanted, abs=1e-12)


def test_along_an_arc_it_is_a_part_of_a_ring():
    """Half of the sweep by the difference of the squares of the radii (closed form); to the left of an arc that turns left
    lies its inside."""
    some = arc(8.0, 1.2)
    assert area(some, 0.5, Side.RIGHT) == pytest.approx(0.6 * (8.5**2 - 8.0**2), abs=1e-12)
    assert area(some, 0.5, Side.LEFT) == pytest.approx(0.6 * (8.0**2 - 7.5**2), abs=1e-12)
    assert area(some, 0.5, Side.ABOUT) == pytest.approx(0.6 * (8.25**2 - 7.75**2), abs=1e-12)
    assert area(some, 0.5, Side.BOTH) == pytest.approx(0.6 * (8.5**2 - 7.5**2), abs=1e-12)


def test_round_a_box_it_is_the_wider_box_less_the_box():
    """10 by 6 m, anticlockwise, so that its outside lies to the right; 0.3 m: 10.6 x 6.6 - 60 and 60 - 9.4 x 5.4 m2."""
    box = line(BOX)
    told = measure_strip([box], 0.3, Side.RIGHT, 0.0)
    assert told.area.value == pytest.approx(10.6 * 6.6 - 60.0, abs=1e-12)
    assert (told.left.value, told.right.value) == pytest.approx((32.0, 34.4), abs=1e-12)
    assert area(box, 0.3, Side.LEFT) == pytest.approx(60.0 - 9.4 * 5.4, abs=1e-12)
    assert told.method == "0.3 m to the right, arcs exact, corners mitred"
    assert not told.is_over_itself


def test_round_a_circle_it_is_a_ring():
    """Two half circles of 5 m: pi (5.4^2 - 5^2)."""
    ring = line([(5, 0), (0, 5), (-5, 0), (0, -5), (5, 0)], (1, 3))
    assert area(ring, 0.4, Side.RIGHT) == pytest.approx(math.pi * (5.4**2 - 25.0), abs=1e-9)
    assert area(ring, 0.4, Side.LEFT) == pytest.approx(math.pi * (25.0 - 4.6**2), abs=1e-9)


def test_of_several_rings_it_is_their_sum():
    box = line(BOX)
    one = measure_strip([box], 0.3, Side.RIGHT, 0.01, 0.002)
    two = measure_strip([box, line(np.array(BOX) + 50.0)], 0.3, Side.RIGHT, 0.01, 0.002)
    assert two.area.value == pytest.approx(2 * one.area.value)
    # Their points err by themselves; the width errs for both together.
    assert one.area.sigma < two.area.sigma < 2 * one.area.sigma


@pytest.mark.parametrize("seed", range(20))
def test_it_is_what_a_library_draws_with_mitres(seed):
    """A drawn line that turns by less than a right angle at each corner, beside shapely's one-sided buffer."""
    rng = np.random.default_rng(seed)
    heading = np.cumsum(rng.uniform(-0.7, 0.7, 6))
    xy = np.cumsum(np.column_stack([np.cos(heading), np.sin(heading)]) * rng.uniform(3, 6, (6, 1)), axis=0)
    some = line([(0, 0), *xy.tolist()])
    for side, sign in ((Side.LEFT, 1.0), (Side.RIGHT, -1.0)):
        told = measure_strip([some], 0.6, side, 0.0)
        drawn = LineString(some.points[:, :2]).buffer(
            sign * 0.6, single_sided=True, join_style=2, mitre_limit=50
        )
        assert told.area.value == pytest.approx(drawn.area, rel=1e-9)
        assert not told.is_over_itself


@pytest.mark.parametrize(("turn", "far"), [(0.8, 0.0), (2.5, 1e7)])
def test_turned_and_moved_it_is_the_same_and_mirrored_it_changes_sides(turn, far):
    xy = np.array([(0, 0), (4, 1), (8, 5), (8, 9)], float)
    way = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    wanted = area(line(xy), 0.5, Side.LEFT)
    assert area(line(xy @ way + far), 0.5, Side.LEFT) == pytest.approx(wanted, abs=1e-7)
    assert area(line(xy * [1, -1]), 0.5, Side.RIGHT) == pytest.approx(wanted, abs=1e-12)
    assert area(line(xy[::-1]), 0.5, Side.RIGHT) == pytest.approx(wanted, abs=1e-12)


@pytest.mark.parametrize("side", list(Side))
def test_its_sigma_is_that_of_two_thousand_draws(side):
    rng = np.random.default_rng(3)
    xy = np.array([(0, 0), (4, 1), (7, 2.5), (8, 6), (7, 9)], float)
    told = measure_strip([line(xy, (2,))], 0.6, side, 0.02, 0.005)
    found = []
    for _ in range(2_000):
        moved = line(xy + 0.02 * rng.standard_normal(xy.shape), (2,))
        found.append(measure_strip([moved], 0.6 + 0.005 * rng.standard_normal(), side, 0.0).area.value)
    # 2,000 draws know a sigma to 1.6 %.
    assert np.std(found) == pytest.approx(told.area.sigma, rel=0.05)


def test_the_edges_of_a_strip_round_a_circle_err_by_its_width():
    ring = line([(5, 0), (0, 5), (-5, 0), (0, -5), (5, 0)], (1, 3))
    told = measure_strip([ring], 1.0, Side.LEFT, 0.0, 0.01)
    # An edge d inside a circle has the length 2 pi (R - d); the other one is the circle.
    assert told.left.value == pytest.approx(8.0 * math.pi)
    assert told.left.sigma == pytest.approx(0.01 * 2.0 * math.pi)
    assert told.right.sigma == 0.0
    about = measure_strip([ring], 1.0, Side.ABOUT, 0.0, 0.01)
    assert (about.left.sigma, about.right.sigma) == pytest.approx((0.01 * math.pi, 0.01 * math.pi))


@pytest.mark.parametrize("side", list(Side))
def test_the_sigmas_of_its_edges_are_those_of_two_thousand_draws(side):
    rng = np.random.default_rng(4)
    xy = np.array([(0, 0), (4, 1), (7, 2.5), (8, 6), (4, 9)], float)
    told = measure_strip([line(xy, (2,))], 1.2, side, 0.005, 0.02)
    found = []
    for _ in range(2_000):
        some = line(xy + 0.005 * rng.standard_normal(xy.shape), (2,))
        strip = measure_strip([some], 1.2 + 0.02 * rng.standard_normal(), side, 0.0)
        found.append((strip.left.value, strip.right.value))
    # 2,000 draws know a sigma to 1.6 %.
    assert np.std(found, axis=0) == pytest.approx((told.left.sigma, told.right.sigma), rel=0.05)


def test_a_strip_that_runs_over_itself_is_told():
    hairpin = line([(0, 0), (10, 0), (10, 1), (0, 1)])
    assert measure_strip([hairpin], 0.4, Side.LEFT, 0.0).is_over_itself is False
    assert measure_strip([line([(0, 0), (10, 0), (10, 2), (0.0, 0.5)])], 0.9, Side.LEFT, 0.0).is_over_itself
    crossing = line([(0, 0), (10, 0), (10, 10), (5, 10), (5, -5)])
    assert measure_strip([crossing], 0.3, Side.RIGHT, 0.0).is_over_itself
    bent = Polygon([(0, 0), (10, 0), (10, 6), (5.1, 6), (5.1, 1), (4.9, 1), (4.9, 6), (0, 6)])
    ring = line(list(bent.exterior.coords))
    assert measure_strip([ring], 0.05, Side.RIGHT, 0.0).is_over_itself is False


def test_no_room_is_refused():
    with pytest.raises(BadInput) as caught:
        area(arc(0.4, 2.0), 0.5, Side.LEFT)
    assert "has no room for 0.500 m to its inner side" in str(caught.value)
    with pytest.raises(BadInput):
        area(line(BOX), 3.5, Side.LEFT)


@pytest.mark.parametrize("width", [0.0, -1.0, math.nan, math.inf])
def test_a_width_that_is_none_is_refused(width):
    with pytest.raises(BadInput) as caught:
        area(line(BOX), width, Side.LEFT)
    assert str(caught.value) == f"The strip is {width:g} m wide. Give a width above 0."


def test_a_full_circle_of_one_arc_has_its_ring():
    ring = line([(5, 0), (-5, 0), (5, 0)], (1,))
    assert area(ring, 0.4, Side.RIGHT) == pytest.approx(math.pi * (5.4**2 - 25.0), abs=1e-9) or area(
        ring, 0.4, Side.LEFT
    ) == pytest.approx(math.pi * (5.4**2 - 25.0), abs=1e-9)


@pytest.mark.parametrize("back", [(0, 0), (0, 0.3), (0, -0.3)])
def test_a_line_that_turns_back_on_itself_is_refused(back):
    with pytest.raises(BadInput) as caught:
        area(line([(0, 0), (10, 0), back]), 0.3, Side.LEFT)
    assert str(caught.value) == (
        "The line turns back on itself at 10.00 m along it, by more than 168 degrees. Draw the way back as a row of its own."
    )


def test_strips_of_an_area_are_held_against_each_other_and_its_holes():
    """Boxes of 10 by 6 m, 0.4 m apart: strips of 0.3 m outside overlap by 0.2 by 6.6 m, and are told; of 0.15 m they do not.
    A hole 0.1 m inside the edge: a strip of 0.3 m inside would lie in it for the most part."""
    two = [line(BOX), line(np.array(BOX) + [10.4, 0.0])]
    for width, over in ((0.3, True), (0.15, False)):
        told = measure_strip(two, width, Side.RIGHT, 0.0, holes=[])
        assert (told.is_over_itself, told.is_astray, told.left, told.right) == (over, False, None, None)
    hole = line([(0.1, 0.1), (0.1, 5.9), (9.9, 5.9), (9.9, 0.1), (0.1, 0.1)])
    for width, astray in ((0.3, True), (0.09, False)):
        told = measure_strip([line(BOX)], width, Side.LEFT, 0.0, holes=[hole])
        assert (told.is_over_itself, told.is_astray) == (False, astray)
    near = measure_strip([line(BOX), line(np.array(BOX) + [10.2, 0.0])], 0.3, Side.RIGHT, 0.0, holes=[])
    assert (near.is_over_itself, near.is_astray) == (True, True)
    ends = [(4, 0), (7, 3), (4, 6)]
    bow = line([(0, 0), *ends, (0, 6), (0, 0)], (2,))
    assert not measure_strip([bow], 0.3, Side.BOTH, 0.0, holes=[]).is_astray
