# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines that cross themselves are refused, with the place; those that only touch are not."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, trail, walk_of
from shapely.geometry import LinearRing

from plugin.core.findings import Decisions, Severity
from plugin.core.segments import Curve
from plugin.core.shape.crossing import find_crossing, find_meeting
from plugin.core.shape.features import shape_features


def ring(xy, sweeps=None):
    points = np.column_stack([np.array([*xy, xy[0]], float), np.full(len(xy) + 1, np.nan)])
    return Curve(points, np.tan(np.array(sweeps if sweeps is not None else [0.0] * len(xy)) / 4))


BOW = [(0, 0), (10, 0), (0, 8), (10, 8)]


def test_a_crossing_outline_stops_with_its_place_and_what_each_remedy_gives():
    positions = FakePositions([walk_of(trail("Bed", [*BOW, (0, 0)]))])
    _, (stop,) = shape_features(positions, Decisions())
    assert (stop.code, stop.severity, stop.place, stop.at) == (
        "GE-01",
        Severity.STOP,
        "Bed",
        pytest.approx((5, 4)),
    )
    assert stop.message == (
        "W1.csv, line 2: the outline of Bed crosses itself at (5.000, 4.000) in the survey plane, where the way from "
        "station 2 to 3 meets the way from 4 to 1."
    )
    assert stop.remedy_text == (
        "Answer reverse (stations 3 to 4 in reverse order give 80.000 m2), split (two parts there, of 20.000 and "
        "20.000 m2) or drop (without station 4 it has 40.000 m2), or correct the log."
    )


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_the_place_of_a_crossing_is_exact_and_moves_with_the_outline(shift):
    crossing = find_crossing(ring(np.array(BOW, float) + shift))
    assert np.array(crossing.at) - shift == pytest.approx([5, 4], abs=1e-8)
    assert (crossing.first, crossing.second, crossing.count) == (1, 3, 1)


def test_random_outlines_cross_where_shapely_says_so():
    rng = np.random.default_rng(1)
    told = []
    for _ in range(300):
        xy = rng.uniform(0, 10, (rng.integers(3, 9), 2))
        told.append(find_crossing(ring(xy)) is not None)
        assert told[-1] == (not LinearRing(xy).is_simple)
    assert 50 < sum(told) < 290


@pytest.mark.parametrize(
    ("name", "xy"),
    [
        ("a corner on another side", [(0, 0), (10, 0), (10, 8), (5, 0), (0, 8)]),
        (
            "a way in and out to an inner ring",
            [(0, 0), (9, 0), (9, 9), (0, 9), (0, 0), (3, 3), (3, 6), (6, 6), (6, 3), (3, 3)],
        ),
        (
            "two rings that touch in a corner",
            [(0, 0), (4, 0), (4, 4), (8, 4), (8, 8), (4, 8), (4, 4), (0, 4)],
        ),
        ("the same station twice", [(0, 0), (0, 0), (5, 0), (5, 5), (5, 5), (0, 5)]),
    ],
)
def test_an_outline_that_only_touches_itself_is_not_refused(name, xy):
    assert find_crossing(ring(xy)) is None, name


def test_an_outline_that_crosses_exactly_in_a_corner_is_refused():
    crossing = find_crossing(ring([(0, 0), (1, 1), (2, 2), (2, 0), (1, 1), (0, 2)]))
    assert crossing.at == pytest.approx((1, 1), abs=1e-12)


def test_a_corner_that_pierces_another_side_exactly_in_itself_is_refused():
    crossing = find_crossing(ring([(0, 0), (10, 0), (10, 5), (5, 0), (2, -4), (0, -1)]))
    assert crossing is not None
    assert crossing.at == pytest.approx((5, 0), abs=1e-12)


def test_arcs_that_bulge_into_another_side_are_refused_and_their_chords_alone_are_not():
    corners = [(0, 0), (10, 0), (10, 3), (0, 3)]
    assert find_crossing(ring(corners, [-2.5, 0, 0, 0])) is not None
    assert find_crossing(ring(corners, [2.5, 0, 0, 0])) is None
    crossing = find_crossing(ring(corners, [-np.pi, 0, 0, 0]))
    # The half circle about (5, 0) meets y = 3 at x = 5 - 4 and 5 + 4; chords of 2 degrees miss it by 0.0008 m.
    assert crossing.at[1] == pytest.approx(3.0, abs=1e-9)
    assert abs(crossing.at[0] - 5) == pytest.approx(4.0, abs=0.003)
    assert crossing.count == 2


def test_a_full_circle_and_an_arc_beyond_half_do_not_cross_themselves():
    assert find_crossing(ring([(2, 0), (-2, 0)], [np.pi, np.pi])) is None
    assert find_crossing(ring([(1, 0), (-1, 0), (-1, -3), (1, -3)], [5.5, 0, 0, 0])) is None


def test_a_long_outline_as_walked_is_looked_through_and_its_one_crossing_found():
    angle = np.linspace(0, 2 * np.pi, 4001)[:-1]
    xy = np.column_stack([50 * np.cos(angle), 30 * np.sin(angle)])
    assert find_crossing(ring(xy)) is None
    xy[1000], xy[1001] = xy[1001].copy(), xy[1000].copy()
    assert find_crossing(ring(xy)) is not None


def test_two_outlines_meet_or_do_not():
    square = ring([(0, 0), (10, 0), (10, 8), (0, 8)])
    assert find_meeting(square, ring([(4, 4), (6, 4), (6, 6)])) is None
    assert find_meeting(square, ring([(8, 4), (12, 4), (8, 6)])) == pytest.approx((10, 4), abs=1e-9)
