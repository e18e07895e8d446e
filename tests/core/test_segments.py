# SPDX-License-Identifier: GPL-2.0-or-later
"""Exact edges against closed forms and against shapely on finely chorded copies."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from plugin.core.segments import (
    FLAT,
    Curve,
    bulges,
    chorded,
    edge_lengths,
    half_sweeps,
    length_factor,
    part_of_ring,
    path_length,
    points_along,
    radii,
    reversed_curve,
    ring_area,
    segment_factor,
    slope_length,
)


def ring(xy, sweeps):
    """A closed curve through corners, edge i sweeping by sweeps[i] radians."""
    points = np.column_stack([np.array([*xy, xy[0]], float), np.full(len(xy) + 1, np.nan)])
    return Curve(points, np.tan(np.array(sweeps, float) / 4))


HALF_ROUND = ring([(0, 0), (10, 0), (10, 6), (0, 6)], [0, np.pi, 0, 0])
MANY = [((0, 0), (9, -1), (12, 5), (7, 9), (-2, 6)), (0.7, -0.4, 3.5, 0.0, 1e-9)]


def test_a_rectangle_with_a_half_round_end_has_its_closed_form_area_and_length():
    assert ring_area(HALF_ROUND) == pytest.approx(60 + np.pi * 9 / 2, abs=1e-12)
    assert path_length(HALF_ROUND) == pytest.approx(26 + 3 * np.pi, abs=1e-12)
    assert radii(HALF_ROUND).tolist() == [np.inf, pytest.approx(3.0), np.inf, np.inf]


def test_a_full_circle_is_two_half_arcs():
    circle = ring([(2, 0), (-2, 0)], [np.pi, np.pi])
    assert ring_area(circle) == pytest.approx(4 * np.pi, abs=1e-12)
    assert path_length(circle) == pytest.approx(4 * np.pi, abs=1e-12)
    assert ring_area(reversed_curve(circle)) == pytest.approx(-4 * np.pi, abs=1e-12)


def test_area_and_length_agree_with_shapely_on_fine_chords():
    curve = ring(*MANY)
    fine = points_along(curve, np.full(5, 4000))[:, :2]
    # Chords of 4,000 to an edge lie within 1e-6 m of these arcs.
    assert ring_area(curve) == pytest.approx(Polygon(fine).area, abs=3e-5)
    assert path_length(curve) == pytest.approx(LineString(fine).length, abs=1e-5)


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 6.28), st.floats(-1e7, 1e7), st.floats(-1e7, 1e7))
def test_turned_and_moved_far_away_nothing_changes(angle, x, y):
    curve = ring(*MANY)
    c, s = np.cos(angle), np.sin(angle)
    points = curve.points.copy()
    points[:, :2] = points[:, :2] @ np.array([[c, s], [-s, c]]) + (x, y)
    moved = Curve(points, curve.bulge)
    # Coordinates near 1e7 are kept to 2e-9 m, times a perimeter of 50 m.
    assert ring_area(moved) == pytest.approx(ring_area(curve), abs=2e-7)
    assert path_length(moved) == pytest.approx(path_length(curve), abs=2e-8)


def test_mirrored_the_area_changes_its_sign_and_reversed_too():
    curve = ring(*MANY)
    mirrored = Curve(curve.points * (1, -1, 1), -curve.bulge)
    assert ring_area(mirrored) == pytest.approx(-ring_area(curve), abs=1e-12)
    assert ring_area(reversed_curve(curve)) == pytest.approx(-ring_area(curve), abs=1e-12)
    assert path_length(reversed_curve(curve)) == pytest.approx(path_length(curve), abs=1e-12)


@pytest.mark.parametrize("factor", [length_factor, segment_factor])
def test_series_and_closed_form_meet_where_one_hands_over_to_the_other(factor):
    below, above = factor(np.array([FLAT * (1 - 1e-9)])), factor(np.array([FLAT * (1 + 1e-9)]))
    # Half the step of 4e-11 radians moves the factors by less than 1e-10.
    assert below[0][0] == pytest.approx(above[0][0], abs=2e-10)
    assert below[1][0] == pytest.approx(above[1][0], abs=2e-10)


@pytest.mark.parametrize("factor", [length_factor, segment_factor])
@pytest.mark.parametrize("half", [-2.9, -1.0, -0.01, 0.0, 1e-6, 0.015, 0.5, 1.5707, 3.0])
def test_derivatives_of_the_factors_agree_with_differences(factor, half):
    step = 1e-6
    up, down = factor(np.array([half + step]))[0][0], factor(np.array([half - step]))[0][0]
    assert factor(np.array([half]))[1][0] == pytest.approx((up - down) / (2 * step), rel=1e-6, abs=1e-6)


def test_chords_lie_within_the_sag_and_their_points_on_the_arc():
    points = chorded(HALF_ROUND, 0.002)
    away = np.hypot(points[:, 0] - 10, points[:, 1] - 3)
    on_arc = np.abs(away - 3) < 1e-9
    assert on_arc.sum() > 40
    middles = (points[:-1] + points[1:]) / 2
    both = on_arc[:-1] & on_arc[1:]
    sag = 3 - np.hypot(middles[both, 0] - 10, middles[both, 1] - 3)
    assert 0.0 < sag.max() <= 0.002 + 1e-12


def test_heights_run_evenly_along_an_arc_and_give_the_slope_length():
    curve = Curve(np.array([[0, 0, 1.0], [6, 0, 3.0]]), np.array([1.0]))
    assert slope_length(curve) == pytest.approx(np.hypot(3 * np.pi, 2), abs=1e-12)
    along = points_along(curve, np.array([4]))
    assert along[:, 2] == pytest.approx([1.0, 1.5, 2.0, 2.5, 3.0])
    assert np.hypot(along[:, 0] - 3, along[:, 1]) == pytest.approx(3.0, abs=1e-12)
    assert along[2, 1] == pytest.approx(-3.0), "a left turn from west to east passes below"


def test_a_missing_height_makes_the_slope_length_missing():
    assert np.isnan(slope_length(HALF_ROUND))


def test_bulge_and_half_sweep_turn_back_into_each_other():
    half = np.array([-3.0, -0.2, 0.0, 1e-12, 1.0, 3.1])
    assert half_sweeps(bulges(half)) == pytest.approx(half, abs=1e-14)


def test_one_point_has_no_length_and_no_area():
    point = Curve(np.array([[1.0, 2.0, 3.0]]), np.zeros(0))
    assert (ring_area(point), path_length(point)) == (0.0, 0.0)
    assert chorded(point).tolist() == [[1.0, 2.0, 3.0]]


def test_edges_of_no_length_are_nothing_and_no_error():
    curve = Curve(np.array([[0, 0, 0.0], [0, 0, 0], [3, 4, 0]]), np.zeros(2))
    assert edge_lengths(curve).tolist() == [0.0, 5.0]


def test_points_inside_a_ring_are_told_from_those_outside():
    square = np.array([(0, 0), (4, 0), (4, 4), (0, 4), (0, 0)], float)
    assert part_of_ring(square, np.array([(1, 1), (5, 1), (2, -1), (3.999, 3.999)])).tolist() == [
        True,
        False,
        False,
        True,
    ]
