# SPDX-License-Identifier: GPL-2.0-or-later
"""Ramps beside closed forms, a search by small steps, and draws."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.quantity import COVER_95
from plugin.core.trade.lines import draw_line
from plugin.core.trade.profiles import profile_of
from plugin.core.trade.ramps import RampRules, measure_ramp, ramp_sides
from plugin.core.trade.worth import PointWorth
from tests.trade_lines import arc, drawn, moved, straight

EXACT = PointWorth(0.0)


def two_flights(rise=0.25, landing=1.5, fall=0.0):
    """3 m at 1:12, a landing, 3 m at 1:12."""
    a, b = 3.0, 3.0 + landing
    return straight(
        (0, 0, 0), (a, 0, rise), (b, 0, rise + fall * landing), (b + 3.0, 0, 2 * rise + fall * landing)
    )


def drawn_profile(seed, count=12):
    draw = np.random.default_rng(seed)
    x = np.cumsum(draw.uniform(0.05, 1.5, count))
    return draw_line(np.column_stack([x, 0 * x, np.cumsum(draw.normal(0, 0.08, count))]))


# --- closed forms ---


def test_flights_and_landings_are_told_apart():
    ramp = measure_ramp((two_flights(),), EXACT)
    assert [(s.start, s.end) for s in ramp.flights] == [(0.0, 3.0), (4.5, 7.5)]
    assert [s.gradient.value for s in ramp.flights] == pytest.approx([1 / 12, 1 / 12], rel=1e-12)
    assert [s.rise.value for s in ramp.flights] == pytest.approx([0.25, 0.25], rel=1e-12)
    (landing,) = ramp.landings
    assert (landing.run.value, landing.gradient.value) == pytest.approx((1.5, 0.0), abs=1e-12)
    assert ramp.whole.gradient.value == pytest.approx(0.5 / 7.5, rel=1e-12)
    assert ramp.width is None
    assert ramp.whole.crossfall is None
    assert ramp.method == "along its line, steepest over any 1 m of run, landings from 1 m at 1:40 or flatter"


def test_a_landing_that_is_too_steep_for_its_limit_is_still_one():
    (landing,) = measure_ramp((two_flights(fall=1 / 45),), EXACT).landings
    assert landing.gradient.value == pytest.approx(1 / 45, rel=1e-9)


def test_a_flat_run_that_is_too_short_is_a_part_of_the_flight():
    ramp = measure_ramp((two_flights(landing=0.9),), EXACT)
    assert ramp.landings == ()
    assert [(s.start, s.end) for s in ramp.flights] == [(0.0, 6.9)]


def test_the_steepest_metre_lies_between_stations():
    """1:20 for 2 m, 1:10 for half a metre, 1:20 for 2 m: over the steepest metre 0.05 and 0.025 rise."""
    line = straight((0, 0, 0), (2, 0, 0.1), (2.5, 0, 0.15), (4.5, 0, 0.25))
    ramp = measure_ramp((line,), EXACT)
    assert ramp.whole.steepest.value == pytest.approx(0.075, rel=1e-12)
    assert measure_ramp((line,), EXACT, RampRules(window=0.5)).whole.steepest.value == pytest.approx(0.1)
    assert measure_ramp((line,), EXACT, RampRules(window=50.0)).whole.steepest.value == pytest.approx(
        ramp.whole.gradient.value
    )


@pytest.mark.parametrize("seed", range(40))
def test_the_steepest_metre_is_no_less_than_a_search_by_millimetres_finds(seed):
    profile = profile_of(drawn_profile(seed), EXACT)
    if profile.length <= 1.0:
        pytest.fail("drawn too short")
    starts = np.arange(0.0, profile.length - 1.0, 0.001)
    rises = np.interp(starts + 1, profile.chainage, profile.heights) - np.interp(
        starts, profile.chainage, profile.heights
    )
    start, end = profile.steepest(1.0)
    found = abs(profile.gradient(start, end).value)
    assert end - start == pytest.approx(1.0, abs=1e-12)
    assert np.abs(rises).max() <= found + 1e-12
    assert found <= np.abs(rises).max() + 0.002 * np.abs(profile.gradients).max()


def test_width_and_crossfall_between_two_edges():
    """1.2 m wide at its start and 0.9 m at its end; the left edge lies 24 mm higher there where it is 1.2 m."""
    left = straight((0, 0.6, 0.024), (6, 0.3, 0.524))
    right = straight((0, -0.6, 0), (6, -0.6, 0.5))
    ramp = measure_ramp((left, right), PointWorth(0.001, 0.002))
    assert ramp.width.value == pytest.approx(0.9, rel=1e-12)
    assert ramp.width.sigma == pytest.approx(0.002 * math.sqrt(2))
    # At its end the middle runs as both edges do together, and the slope is that of the plane through it and the end.
    whole, up = 0.5 * np.array([math.hypot(6, 0.3), 6.0]), 0.5
    ahead = whole[0] * np.array([6.0, -0.3]) / math.hypot(6, 0.3) + whole[1] * np.array([1.0, 0.0])
    slope = np.linalg.solve([ahead, [0.0, 0.9]], [up, 0.024])
    wanted = slope @ [-ahead[1], ahead[0]] / np.hypot(*ahead)
    assert ramp.whole.crossfall.value == pytest.approx(wanted, rel=1e-12)
    assert ramp.whole.gradient.value == pytest.approx(0.5 / (0.5 * (math.hypot(6, 0.3) + 6)), rel=1e-12)


def test_edges_walked_against_each_other_are_taken_the_same_way():
    left, right = straight((0, 1, 0.02), (6, 1, 0.52)), straight((0, 0, 0), (6, 0, 0.5))
    here, there = measure_ramp((left, right), EXACT), measure_ramp((left, right.reversed()), EXACT)
    assert here == there
    assert here.whole.crossfall.value == pytest.approx(0.02, rel=1e-9)


def test_a_curved_ramp_runs_along_the_middle_of_its_edges():
    """A half turn between radii of 3 and 4.2 m, rising 0.9 m: over 3.6 pi of run."""

    def edge(radius):
        line = arc(radius, math.pi)
        points = line.points.copy()
        points[:, 2] = [0.0, 0.45, 0.9]
        return draw_line(points, line.is_mid)

    ramp = measure_ramp((edge(4.2), edge(3.0)), EXACT)
    assert ramp.whole.run.value == pytest.approx(3.6 * math.pi, rel=1e-12)
    assert ramp.whole.gradient.value == pytest.approx(0.9 / (3.6 * math.pi), rel=1e-12)
    assert ramp.width.value == pytest.approx(1.2, abs=2e-4)
    assert ramp.whole.crossfall.value == pytest.approx(0.0, abs=1e-9)


def tilted(points, along, cross):
    """Points on a plane that rises along x and to the left (y)."""
    return straight(*((x, y, along * x + cross * y) for x, y in points))


@pytest.mark.parametrize("cross", [0.0, 0.02, 1 / 30])
@pytest.mark.parametrize("aside", [-0.5, 0.0, 0.5, 2.0])
@pytest.mark.parametrize("turn", [0.0, 2.1])
def test_a_plane_ramp_has_the_crossfall_of_its_plane_however_oblique_its_ends_are(aside, cross, turn):
    """8 % along, 1.2 m wide; the right edge begins and ends `aside` farther along, and has a station of its own."""
    left = tilted([(0, 1.2), (6, 1.2)], 0.08, cross)
    right = tilted([(aside, 0), (aside + 2.5, 0), (aside + 6, 0)], 0.08, cross)
    edges = [moved(edge, (1e3, -4e3, 20.0), turn) for edge in (left, right)]
    ramp = measure_ramp((edges[0], edges[1]), PointWorth(0.002, 0.003))
    assert ramp.whole.crossfall.value == pytest.approx(cross, abs=1e-9)
    assert ramp.whole.gradient.value == pytest.approx(0.08, abs=1e-9)
    assert ramp.width.value == pytest.approx(1.2, rel=1e-9)
    back = measure_ramp((edges[0].reversed(), edges[1].reversed()), EXACT)
    assert back.whole.crossfall.value == pytest.approx(cross, abs=1e-9)
    named = measure_ramp((edges[1], edges[0]), EXACT)
    assert named.whole.crossfall.value == pytest.approx(-cross, abs=1e-9)


def test_round_a_corner_a_plane_ramp_has_on_each_leg_the_slope_square_to_it():
    """A mitre: the straight across lies askew to both legs; 3 % up to the east and 5 % up to the north."""
    plane = lambda points: straight(*((x, y, 0.03 * x + 0.05 * y) for x, y in points))  # noqa: E731
    left, right = plane([(0, 1), (4, 1), (4, 5)]), plane([(0, 0), (5, 0), (5, 5)])
    crossfall = measure_ramp((left, right), EXACT).whole.crossfall.value
    # Going east the left is north: 5 %; going north the left is west: -3 %.
    assert crossfall == pytest.approx(0.05, abs=1e-9)
    turned = measure_ramp((plane([(4, 1), (4, 5)]), plane([(5, 0), (5, 5)])), EXACT).whole.crossfall.value
    assert turned == pytest.approx(-0.03, abs=1e-9)


def test_a_landing_does_not_take_the_crossfall_of_the_flight_that_ends_at_it():
    """A flight twists to 4 % at 3 m, where a level landing begins a hand further on at both edges' own stations."""
    left = straight((0, 1, 0.0), (3, 1, 0.29), (3.01, 1, 0.25), (6, 1, 0.25))
    right = straight((0, 0, 0.0), (3, 0, 0.25), (3.01, 0, 0.25), (6, 0, 0.25))
    ramp = measure_ramp((left, right), EXACT)
    (landing,) = ramp.landings
    assert landing.crossfall.value == pytest.approx(0.0, abs=1e-12)
    assert ramp.whole.crossfall.value == pytest.approx(0.04, rel=1e-12)


@pytest.mark.parametrize("aside", [0.0, 0.5, -1.5])
def test_the_sigma_of_a_crossfall_is_that_of_draws(aside):
    """Level across at its start and 5 % at its end, which is the largest in every draw; heights of 3 mm, places of 1 cm."""
    left = straight((0, 1.2, 0.0), (6, 1.2, 0.54))
    right = straight((aside, 0, 0.08 * aside), (6 + aside, 0, 0.48 + 0.08 * aside))
    told = measure_ramp((left, right), PointWorth(0.003, 0.01)).whole.crossfall
    draw, found = np.random.default_rng(12), []
    for _ in range(4000):
        points = [edge.points + draw.normal(0.0, [0.01, 0.01, 0.003], (2, 3)) for edge in (left, right)]
        found.append(measure_ramp(tuple(map(draw_line, points)), EXACT).whole.crossfall.value)
    # 4,000 draws know a sigma to 1.1 %.
    assert np.std(found) == pytest.approx(told.sigma, rel=0.04)
    assert np.mean(found) == pytest.approx(told.value, abs=4 * told.sigma / math.sqrt(4000) + 1e-4)


@pytest.mark.parametrize("turn", [0.0, 1.3])
@pytest.mark.parametrize("first", range(4))
@pytest.mark.parametrize("is_clockwise", [False, True])
def test_a_ramp_walked_round_has_its_left_and_right_edge(first, is_clockwise, turn):
    """7 % along x and 2 % up to the left, whichever corner comes first and whichever way round."""
    corners = [(0, 0), (6, 0), (6, 1.5), (0, 1.5)]
    corners = [*corners[first:], *corners[:first]]
    points = [(x, y, 0.07 * x + 0.02 * y) for x, y in (corners[::-1] if is_clockwise else corners)]
    sides = ramp_sides(moved(draw_line(np.array([*points, points[0]])), (50.0, 60.0, 5.0), turn))
    ramp = measure_ramp(sides, EXACT)
    up = math.copysign(1.0, ramp.whole.gradient.value)
    assert up * ramp.whole.gradient.value == pytest.approx(0.07, abs=1e-12)
    assert up * ramp.whole.crossfall.value == pytest.approx(0.02, abs=1e-12)
    assert ramp.width.value == pytest.approx(1.5, rel=1e-9)


def test_what_has_other_corners_is_no_ramp_that_was_walked_round():
    box = [(0, 0, 0), (6, 0, 0.5), (6, 1, 0.5), (0, 1, 0), (0, 0, 0)]
    assert ramp_sides(straight(*box)) is not None
    assert ramp_sides(straight(*box[:-1])) is None
    assert ramp_sides(straight(*box[:3], (3, 1, 0.25), *box[3:])) is None
    assert ramp_sides(straight(*((x, y) for x, y, _ in box))) is None
    assert ramp_sides(straight(*box[:2], (6, 0, 0.9), *box[3:])) is None


# --- moved, turned, reversed, mirrored ---


def test_moved_far_and_turned_it_is_the_same():
    edges = (straight((0, 1.2, 0.03), (3, 1.2, 0.2), (6, 1.2, 0.5)), straight((0, 0, 0), (6, 0, 0.5)))
    worth = PointWorth(0.003, 0.005)
    here = measure_ramp(edges, worth)
    there = measure_ramp(tuple(moved(e, (1e7, -1e7, 300.0), 0.6) for e in edges), worth)
    for one, other in ((here.whole, there.whole), (here.flights[0], there.flights[0])):
        assert other.gradient.value == pytest.approx(one.gradient.value, abs=1e-8)
        assert other.steepest.value == pytest.approx(one.steepest.value, abs=1e-8)
        assert other.crossfall.value == pytest.approx(one.crossfall.value, abs=1e-8)
        assert other.gradient.sigma == pytest.approx(one.gradient.sigma, rel=1e-6)
    assert there.width.value == pytest.approx(here.width.value, abs=1e-8)


def test_reversed_it_goes_down_as_much():
    line = drawn_profile(3)
    here, there = (
        measure_ramp((line,), PointWorth(0.003)),
        measure_ramp((line.reversed(),), PointWorth(0.003)),
    )
    assert there.whole.gradient.value == pytest.approx(-here.whole.gradient.value, rel=1e-12)
    assert there.whole.steepest.value == pytest.approx(-here.whole.steepest.value, rel=1e-9)
    assert there.whole.gradient.sigma == pytest.approx(here.whole.gradient.sigma, rel=1e-12)


# --- what it is worth ---


def test_sigmas_are_those_of_draws():
    left, right = straight((0, 1.2, 0.02), (2, 1.2, 0.2), (5, 1.2, 0.4)), straight((0, 0, 0), (5, 0, 0.4))
    told = measure_ramp((left, right), PointWorth(0.004, 0.004))
    draw, found = np.random.default_rng(4), []
    for _ in range(3000):
        edges = drawn(left, 0.004, draw), drawn(right, 0.004, draw)
        whole = measure_ramp(edges, EXACT).whole
        found.append([whole.gradient.value, whole.rise.value])
    sigma = [told.whole.gradient.sigma, told.whole.rise.sigma]
    assert sigma == pytest.approx(np.std(found, axis=0), rel=0.04)


def test_the_95_percent_interval_covers_the_true_gradient():
    """Seeds 1 to 2,000, over the run and over the first metre: 93 to 97 %."""
    line, inside = two_flights(), np.zeros(2)
    for seed in range(1, 2001):
        profile = profile_of(drawn(line, 0.004, np.random.default_rng(seed)), PointWorth(0.004, 0.004))
        told = profile.gradient(0.0, float(profile.chainage[1])), profile.gradient(0.5, 1.5)
        inside += [abs(t.value - 1 / 12) <= COVER_95 * t.sigma for t in told]
    assert (inside / 2000 > 0.93).all()
    assert (inside / 2000 < 0.97).all()


# --- bad and large ---


@pytest.mark.parametrize(
    ("edges", "words"),
    [
        (
            (straight((0, 0), (1, 0)),),
            "The line has no heights, so that it has no gradient. Give each vertex one.",
        ),
        (
            (straight((0, 0, 0), (2, 0, 0), (2, 0, 0.15), (4, 0, 0.15)),),
            "The line goes straight up at 2.00 m along it, which has no gradient. Take its steps as steps.",
        ),
        (
            (straight((0, 1, 0), (4, 0, 0)), straight((0, 0, 0), (4, 0, 0))),
            "The edges of the ramp touch at 4.06 m along it. Draw each along its own side.",
        ),
    ],
)
def test_what_is_no_ramp_is_refused(edges, words):
    with pytest.raises(BadInput) as told:
        measure_ramp(edges, EXACT)
    assert str(told.value) == words


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_rules_that_are_none_are_refused(value):
    with pytest.raises(BadInput) as told:
        RampRules(window=value)
    assert str(told.value) == f"window of a ramp is {value}. Give a number above 0."


def test_a_million_stations_are_measured():
    x = np.arange(1_000_000) * 0.1
    line = draw_line(np.column_stack([x, 0 * x, 0.02 * x]))
    ramp = measure_ramp((line,), PointWorth(0.003, 0.003))
    assert ramp.whole.steepest.value == pytest.approx(0.02, rel=1e-6)


def test_of_stretches_as_steep_as_each_other_the_first_counts_whatever_rounding_says():
    x = np.linspace(0.0, 9.0, 31)
    for far in (0.0, 1e7):
        line = draw_line(np.column_stack([x + far, 0.0 * x, 0.07 * x]))
        profile = profile_of(line, EXACT)
        assert profile.steepest(1.0) == pytest.approx((0.0, 1.0), abs=1e-8)
        within = [(profile.chainage[3], profile.chainage[20]), (profile.chainage[5], profile.chainage[6])]
        found = profile.steepest_within(1.0, [(float(a), float(b)) for a, b in within])
        assert found == pytest.approx(np.array([[0.9, 1.9], [1.5, 1.8]]), abs=1e-8)


def test_ways_told_at_once_are_those_told_one_by_one():
    draw = np.random.default_rng(4)
    line = draw_line(np.column_stack([np.sort(draw.uniform(0, 20, 12)), *draw.normal(0, 0.1, (2, 12))]))
    profile = profile_of(line, PointWorth(0.003, 0.005))
    start, end = np.sort(draw.uniform(0.0, profile.length, (2, 50)), axis=0)
    ways = profile.between(start, end)
    for k in range(50):
        a, b = float(start[k]), float(end[k])
        assert ways.gradient(k) == profile.gradient(a, b)
        assert ways.rise(k) == profile.rise(a, b)
        assert ways.rise(k).value == pytest.approx(
            np.diff(np.interp([a, b], profile.chainage, profile.heights))[0], abs=1e-12
        )
