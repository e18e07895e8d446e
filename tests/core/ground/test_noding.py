# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines that cross, touch, overlap or nearly do become a net; unlike heights are told with place and difference."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.findings import Severity
from plugin.core.ground.noding import node_lines
from plugin.core.ground.records import Levels
from plugin.core.ground.signs import sides_of
from plugin.core.ground.weld import number_places
from tests.core.ground.nasty import levels, line, nasty_ground

NO_LEVELS = levels(np.empty((0, 3)))


def sides(net):
    """The segments as sets of places, to the millimetre."""
    return {frozenset(map(tuple, np.round(net.points[list(s), :2], 3).tolist())) for s in net.segments}


def test_two_lines_that_cross_at_one_height_get_a_point_there():
    net, told = node_lines(NO_LEVELS, [line([(0, 0, 1), (10, 0, 3)]), line([(4, -2, 0.8), (4, 2, 2.8)])])
    assert told == ()
    assert len(net.segments) == 4
    (at,) = np.flatnonzero((net.points[:, :2] == (4.0, 0.0)).all(axis=1))
    assert net.points[at, 2] == pytest.approx(1.8, abs=1e-12)


def test_breaklines_that_cross_at_different_heights_are_a_stop_with_place_and_difference():
    lines = [line([(0, 0, 1), (10, 0, 1)], "top"), line([(5, -5, 2), (5, 5, 2.5)], "foot")]
    _, (told,) = node_lines(NO_LEVELS, lines)
    assert (told.code, told.severity, told.at) == ("GR-02", Severity.STOP, (5.0, 0.0))
    assert told.message == (
        "The breaklines top and foot meet at 5.000, 0.000 (survey plane) with heights that differ by 1.250 m (1.000 and "
        "2.250), more than three times what they are worth."
    )
    assert told.remedy_text == (
        "Correct the heights, or end one of the two lines before it meets the other; the foot and the top of an upright "
        "face are drawn a little apart. A wall with no ground at its top on either side is no ground: leave it out."
    )


@pytest.mark.parametrize(("off", "count"), [(0.0209, 0), (0.0216, 1)])
def test_heights_may_differ_by_three_joint_sigma(off, count):
    """At the middle of the first line each end counts half, so that it is worth 0.01 / sqrt 2; the other is exact: three
    joint sigma are 0.0212 m."""
    lines = [line([(-5, 0, 1), (5, 0, 1)], "a", 0.01), line([(0, -5, 1 + off), (0, 5, 1 + off)], "b")]
    assert len(node_lines(NO_LEVELS, lines)[1]) == count


def test_the_height_at_a_crossing_is_the_mean_by_what_each_is_worth():
    lines = [line([(-5, 0, 1), (5, 0, 1)], "a", 0.01), line([(0, -5, 1.02), (0, 5, 1.02)], "b", 0.02)]
    net, told = node_lines(NO_LEVELS, lines)
    assert told == ()
    at = int(np.flatnonzero((net.points[:, :2] == 0.0).all(axis=1))[0])
    one, other = 0.01**2 / 2, 0.02**2 / 2
    assert net.points[at, 2] == pytest.approx(1.0 + 0.02 * one / (one + other), abs=1e-12)
    assert net.sigma[at] == pytest.approx((1 / one + 1 / other) ** -0.5, abs=1e-12)


def test_lines_that_overlap_share_their_segments():
    net, told = node_lines(
        NO_LEVELS, [line([(0, 0), (10, 0)]), line([(4, 0), (14, 0)]), line([(14, 0), (4, 0)])]
    )
    assert told == ()
    ends = [(0.0, 4.0), (4.0, 10.0), (10.0, 14.0)]
    assert sides(net) == {frozenset({(a, 0.0), (b, 0.0)}) for a, b in ends}


def test_a_line_that_ends_within_the_tolerance_of_another_touches_it():
    net, _ = node_lines(NO_LEVELS, [line([(0, 0), (10, 0)]), line([(5, 0.0009), (5, 8)])])
    assert len(net.points) == 4
    assert len(net.segments) == 3
    apart, _ = node_lines(NO_LEVELS, [line([(0, 0), (10, 0)]), line([(5, 0.0011), (5, 8)])])
    assert len(apart.segments) == 2


def test_a_line_that_crosses_itself_gets_a_point_too():
    net, told = node_lines(NO_LEVELS, [line([(0, 0), (10, 10), (10, 0), (0, 10)])])
    assert told == ()
    assert len(net.segments) == 5


def test_levels_at_one_place_are_one_and_unlike_ones_are_told():
    given = Levels(
        np.array([[1.0, 1, 5], [1.0004, 1, 5.001], [3, 3, 7], [3, 3, 7.2]]),
        np.array([0.01, 0.01, 0.01, 0.01]),
    )
    net, (told,) = node_lines(given, [])
    assert net.points == pytest.approx(np.array([[1, 1, 5.0005], [3, 3, 7.1]]))
    assert net.sigma == pytest.approx(0.01 / np.sqrt(2))
    assert (told.code, told.severity) == ("GR-03", Severity.NOTE)
    assert told.message == (
        "Two levels at 3.000, 3.000 (survey plane) differ by 0.200 m, more than three times what they are worth; their "
        "mean is taken."
    )


def test_an_exact_height_rules_over_others_at_its_place():
    given = Levels(np.array([[0.0, 0, 5], [0, 0, 5.01]]), np.array([0.02, 0.0]))
    net, told = node_lines(given, [])
    assert told == ()
    assert (net.points[0, 2], net.sigma[0]) == (5.01, 0.0)


def test_a_level_beside_a_breakline_is_told_by_the_breaklines_name():
    _, (told,) = node_lines(levels([(5, 0, 1.3)], 0.01), [line([(0, 0, 1), (10, 0, 1)], "kerb", 0.01)])
    assert told.message == (
        "A level at 5.000, 0.000 (survey plane) is off the breakline kerb that it lies on by 0.300 m, more than three "
        "times what they are worth."
    )


def test_near_places_do_not_become_one_in_a_chain():
    number, first = number_places(np.column_stack([np.arange(5) * 0.6e-3, np.zeros(5)]), 1e-3)
    assert number.tolist() == [0, 0, 1, 1, 2]
    assert first.tolist() == [0, 2, 4]


def test_no_two_segments_of_any_net_cross_and_none_passes_a_point():
    for seed in range(400):
        known, lines = nasty_ground(seed)
        if not len(known.points) and not lines:
            continue
        net, _ = node_lines(known, lines)
        xy, s = net.points[:, :2], net.segments
        i, j = np.triu_indices(len(s), 1)
        a, b, c, d = xy[s[i, 0]], xy[s[i, 1]], xy[s[j, 0]], xy[s[j, 1]]
        crossing = (sides_of(a, b, c) * sides_of(a, b, d) < 0) & (sides_of(c, d, a) * sides_of(c, d, b) < 0)
        assert not crossing.any(), seed
        assert len(np.unique(s, axis=0)) == len(s)


def test_every_line_runs_along_the_net_within_the_tolerances():
    from shapely.geometry import LineString, MultiLineString, Point

    for seed in range(80):
        known, lines = nasty_ground(seed)
        lines = [
            one for one in lines if len(one.points) > 1 and np.ptp(one.points[:, :2], axis=0).max() > 0.01
        ]
        if not lines:
            continue
        net, _ = node_lines(known, lines)
        middle = net.points[:, :2].mean(axis=0)
        drawn = MultiLineString([net.points[list(pair), :2] - middle for pair in net.segments])
        for one in lines:
            way = LineString(one.points[:, :2] - middle)
            off = max(
                drawn.distance(Point(way.interpolate(t, normalized=True))) for t in np.linspace(0, 1, 21)
            )
            assert off < 5e-3, seed


def test_what_has_no_place_height_or_worth_is_refused():
    with pytest.raises(BadInput) as caught:
        node_lines(levels([(0, 0, np.nan), (1, np.inf, 0), (2, 0, 0)]), [])
    assert str(caught.value) == (
        "2 of the points given have no place or no height. Give all three coordinates, or leave them out."
    )
    with pytest.raises(BadInput) as caught:
        node_lines(levels([(0, 0, 1)], -1.0), [line([(0, 0, 1), (2, 0, 1)], sigma=np.nan)])
    assert str(caught.value) == (
        "The one-sigma of 3 heights is no number that is 0 or more. Give one for each point."
    )


def test_nothing_gives_an_empty_net():
    net, told = node_lines(NO_LEVELS, [])
    assert (len(net.points), len(net.segments), told) == (0, 0, ())
