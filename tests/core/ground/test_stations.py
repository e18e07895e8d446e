# SPDX-License-Identifier: GPL-2.0-or-later
"""Stations along baselines of straights and arcs, and the lines across them."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.errors import BadInput, TooFewPoints
from plugin.core.ground.stations import (
    any_crossing,
    cross_lines,
    crossing_neighbours,
    places_on,
    stations_along,
)
from plugin.core.segments import Curve, edge_lengths


def curve(points, sweeps=None):
    points = np.column_stack([np.array(points, float), np.full(len(points), np.nan)])
    return Curve(points, np.tan(np.array(sweeps if sweeps is not None else [0.0] * (len(points) - 1)) / 4))


QUARTER = curve([(10, 0), (0, 10), (-5, 10)], [np.pi / 2, 0.0])
"""A quarter of a circle of radius 10 about 0, anticlockwise, then 5 m straight on."""


def test_stations_stand_at_the_interval_and_at_the_end():
    stations = stations_along(curve([(0, 0), (10, 0)]), 4.0)
    assert stations.chainage.tolist() == [0.0, 4.0, 8.0, 10.0]
    assert stations.place.tolist() == [[0, 0], [4, 0], [8, 0], [10, 0]]


@pytest.mark.parametrize(("length", "interval"), [(10.0, 2.5), (0.3, 0.1), (0.7, 0.1), (1e6, 100.0)])
def test_an_interval_that_divides_the_baseline_leaves_no_second_station_at_the_end(length, interval):
    chainage = stations_along(curve([(0, 0), (length, 0)]), interval).chainage
    assert len(chainage) == round(length / interval) + 1
    assert chainage[-1] == length


def test_an_interval_longer_than_the_baseline_has_its_two_ends():
    assert stations_along(curve([(0, 0), (3, 4)]), 20.0).chainage.tolist() == [0.0, 5.0]


def test_stations_on_an_arc_lie_on_its_circle_and_look_along_it():
    angle = np.array([0.0, 0.3, 0.9, 1.5])
    stations = places_on(QUARTER, 10 * angle)
    assert stations.place == pytest.approx(10 * np.column_stack([np.cos(angle), np.sin(angle)]), abs=1e-12)
    assert stations.direction == pytest.approx(np.column_stack([-np.sin(angle), np.cos(angle)]), abs=1e-12)
    assert stations.radius == pytest.approx([10.0] * 4)


def test_an_arc_to_the_right_has_a_negative_radius_and_mirrors_the_other():
    right = curve([(10, 0), (0, -10)], [-np.pi / 2])
    stations = places_on(right, np.array([3.0]))
    assert stations.radius == pytest.approx([-10.0])
    assert stations.place == pytest.approx(10 * np.array([[np.cos(0.3), -np.sin(0.3)]]))


def test_after_the_arc_the_straight_goes_on():
    stations = places_on(QUARTER, np.array([5 * np.pi + 2.0, 99.0]))
    assert stations.place == pytest.approx(np.array([(-2, 10), (-5, 10)]))
    assert stations.direction == pytest.approx(np.array([(-1, 0), (-1, 0)]))
    assert np.isinf(stations.radius).all()


def test_a_line_across_is_square_and_runs_from_left_to_right():
    lines = cross_lines(places_on(QUARTER, np.array([0.0, 3.0])), 2.0, 3.0)
    assert lines[0] == pytest.approx(np.array([(8, 0), (13, 0)]))
    assert lines[1] == pytest.approx(np.array([8.0, 13.0])[:, None] * [np.cos(0.3), np.sin(0.3)])


def test_lines_across_the_inside_of_a_tight_bend_meet_and_are_told():
    stations = stations_along(QUARTER, 1.0)
    assert not crossing_neighbours(cross_lines(stations, 9.0, 20.0)).any()
    met = crossing_neighbours(cross_lines(stations, 12.0, 20.0))
    assert met[:14].all()
    assert not met[17:].any()


def test_lines_across_that_cross_far_apart_are_found_too():
    """A hairpin: 20 m out, a half circle of radius 3, and 20 m back; the widths reach over to the other leg."""
    hairpin = curve([(0, 0), (20, 0), (20, 6), (0, 6)], [0.0, np.pi, 0.0])
    straight = cross_lines(stations_along(curve([(0, 0), (20, 0)]), 4.0), 7.0, 1.0)
    assert not any_crossing(straight)
    skew = cross_lines(
        stations_along(curve([(0, 0), (20, 0), (20, 6), (0, 7)], [0.0, np.pi, 0.0]), 4.0), 9.0, 1.0
    )
    assert any_crossing(skew)
    assert any_crossing(cross_lines(stations_along(hairpin, 1.0), 4.0, 1.0))


def test_a_repeated_point_of_the_baseline_has_no_station_without_direction():
    stations = stations_along(curve([(0, 0), (2, 0), (2, 0), (4, 0)]), 1.0)
    assert stations.place[:, 0] == pytest.approx([0, 1, 2, 3, 4])
    assert stations.direction == pytest.approx(np.array([(1.0, 0.0)] * 5))


@pytest.mark.parametrize("offset", [0.0, 1e7])
def test_stations_of_a_turned_and_moved_baseline_are_turned_and_moved(offset):
    turn = np.array([[0.6, -0.8], [0.8, 0.6]])
    moved = Curve(
        np.column_stack([QUARTER.points[:, :2] @ turn.T + offset, QUARTER.points[:, 2]]), QUARTER.bulge
    )
    chainage = np.linspace(0, 20, 9)
    one, other = places_on(QUARTER, chainage), places_on(moved, chainage)
    assert other.place - offset == pytest.approx(one.place @ turn.T, abs=1e-8)
    assert edge_lengths(moved) == pytest.approx(edge_lengths(QUARTER), abs=1e-8)


@pytest.mark.parametrize("interval", [0.0, -1.0, np.nan, np.inf, 1e-6])
def test_an_interval_that_makes_no_stations_or_too_many_is_refused(interval):
    with pytest.raises(BadInput) as told:
        stations_along(curve([(0, 0), (10, 0)]), interval)
    assert str(told.value) == (
        f"An interval of {interval:g} m along a baseline of 10.000 m cannot be stationed. Give one that makes no more than "
        "100000 stations."
    )


@pytest.mark.parametrize("points", [[(1, 1)], [(1, 1), (1, 1)], [(0, 0), (np.nan, 1)]])
def test_a_baseline_without_length_is_refused(points):
    with pytest.raises(TooFewPoints) as told:
        stations_along(curve(points), 1.0)
    assert str(told.value) == "A baseline needs two different points. Draw it from one place to another."


@pytest.mark.parametrize(("left", "right"), [(0.0, 0.0), (-1.0, 2.0), (np.nan, 2.0), (np.inf, 2.0)])
def test_widths_that_make_no_line_are_refused(left, right):
    with pytest.raises(BadInput) as told:
        cross_lines(places_on(QUARTER, np.zeros(1)), left, right)
    assert str(told.value) == (
        f"Widths of {left:g} m to the left and {right:g} m to the right make no section. Give widths of 0 or more, one of "
        "them more than 0."
    )
