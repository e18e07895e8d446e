# SPDX-License-Identifier: GPL-2.0-or-later
"""Edges moved off the walked line: parallel, concentric, mitred; positive offsets lie to the left."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, trail, walk_of
from shapely.geometry import LineString, Polygon

from plugin.core.findings import Decisions, Severity
from plugin.core.measure.shapes import measure_shapes
from plugin.core.segments import points_along
from plugin.core.shape.features import shape_features


def measured(rows):
    positions = FakePositions([walk_of(rows)])
    shapes, findings = shape_features(positions, Decisions())
    return findings, measure_shapes(shapes, positions, site="s", sigma_from={})


def on_circle(centre, radius, degrees):
    return [
        (centre[0] + radius * np.cos(np.radians(a)), centre[1] + radius * np.sin(np.radians(a)))
        for a in degrees
    ]


CORNERS = [(0, 0), (9, -1), (12, 5), (7, 9), (-2, 6)]


@pytest.mark.parametrize("offset", [0.3, -0.45])
def test_an_outline_of_straights_is_moved_as_shapely_moves_it_with_mitres(offset):
    _, rows = measured(trail("P", [*CORNERS, CORNERS[0]], offset=offset))
    # Walked anticlockwise, left is inside.
    expected = Polygon(CORNERS).buffer(-offset, join_style=2, mitre_limit=50)
    assert rows.areas[0].area.value == pytest.approx(expected.area, abs=1e-9)
    assert rows.areas[0].perimeter.value == pytest.approx(expected.exterior.length, abs=1e-9)
    assert "edges moved by the offsets" in rows.areas[0].tags.method


def test_walked_the_other_way_left_is_outside():
    _, rows = measured(trail("P", [*CORNERS[::-1], CORNERS[-1]], offset=0.3))
    expected = Polygon(CORNERS).buffer(0.3, join_style=2, mitre_limit=50)
    assert rows.areas[0].area.value == pytest.approx(expected.area, abs=1e-9)


def test_an_arc_keeps_its_centre_and_its_sweep_where_it_runs_on_smoothly():
    points = [(0, 0), (10, 0), *on_circle((10, 6), 6, [-45, 0]), (16, 12)]
    _, rows = measured(trail("K", points, ["", "", "curve", "curve-end", ""], geometry="length", offset=0.5))
    row = rows.lengths[0]
    assert row.length.value == pytest.approx(10 + 5.5 * np.pi / 2 + 6, abs=1e-9)
    run = row.runs[0]
    assert run.points[0, :2] == pytest.approx((0, 0.5))
    assert run.points[-1, :2] == pytest.approx((15.5, 12))


def test_an_arc_and_a_straight_that_meet_at_a_corner_are_cut_where_they_then_meet():
    points = [(0, 0), (10, 0), (13, 5), (10, 10), (0, 10), (0, 0)]
    legs = ["", "", "curve", "curve-end", "", ""]
    _, rows = measured(trail("P", points, legs, offset=0.4))
    walked, _ = shape_features(FakePositions([walk_of(trail("P", points, legs))]), Decisions())
    fine = points_along(walked[0].pieces[0].curve(), np.array([1, 6000, 1, 1]))[:, :2]
    expected = Polygon(fine).buffer(-0.4, join_style=2)
    # Chords of 6,000 to the arc lie within 1e-7 m of it; shapely simplifies by 1 % of the distance when it
    # moves edges, hence 4 mm on 10 m of arc.
    assert rows.areas[0].area.value == pytest.approx(expected.area, abs=0.04)
    centre, radius = (13 - 34 / 6, 5.0), 34 / 6
    corner = (centre[0] + np.sqrt((radius - 0.4) ** 2 - 4.6**2), 0.4)
    outline = rows.areas[0].outline[0].points[:, :2]
    assert np.hypot(*(outline - corner).T).min() == pytest.approx(0.0, abs=1e-9)


def test_two_arcs_that_meet_at_a_corner_are_cut_where_their_circles_meet():
    points = [(0, 0), (5, -2), (10, 0), (5, 3), (0, 0)]
    _, rows = measured(trail("P", points, ["", "curve", "curve-end", "curve", "curve-end"], offset=0.25))
    low, high = (25 + 4) / 4 - 0.25, (25 + 9) / 6 - 0.25
    y_low, y_high = (25 - 4) / 4, -(25 - 9) / 6
    y = (low**2 - high**2 - y_low**2 + y_high**2) / (2 * (y_high - y_low))
    x = 5 - np.sqrt(low**2 - (y - y_low) ** 2)
    outline = rows.areas[0].outline[0].points[:, :2]
    assert np.hypot(*(outline - (x, y)).T).min() == pytest.approx(0.0, abs=1e-9)


def test_where_offsets_differ_each_station_moves_square_to_its_leg():
    rows = trail("L", [(0, 0), (10, 0)], geometry="length")
    rows[0]["offset"], rows[1]["offset"] = 0.2, -0.3
    _, out = measured(rows)
    assert out.lengths[0].runs[0].points[:, :2] == pytest.approx(np.array([(0, 0.2), (10, -0.3)]))
    assert out.lengths[0].length.value == pytest.approx(np.hypot(10, 0.5))


def test_a_pass_on_an_offset_edge_moves_with_it():
    _, rows = measured(trail("L", [(0, 0), (4, 0), (10, 0)], geometry="length", offset=0.5))
    assert rows.lengths[0].runs[0].points[:, 1] == pytest.approx([0.5, 0.5, 0.5])
    assert rows.lengths[0].length.value == pytest.approx(10.0)


def test_a_full_circle_with_an_offset_is_a_full_circle():
    points = on_circle((3, 4), 2, [0, 100, 220, 360])
    _, rows = measured(trail("R", points, ["", "curve", "curve", "curve-end"], offset=0.5))
    assert rows.areas[0].area.value == pytest.approx(np.pi * 1.5**2, abs=1e-9)


def test_an_offset_beyond_the_centre_of_an_arc_is_asked_about():
    points = on_circle((0, 0), 2, [0, 45, 90])
    (ask,), _ = measured(trail("L", points, ["", "curve", "curve-end"], geometry="length", offset=2.5))
    assert ask.code == "GE-04"
    assert ask.answers == ("accept",)
    assert ask.message == "W1.csv, line 2: an offset of L is larger than a curve or side of it has room for."


def test_an_offset_that_leaves_nothing_of_a_side_is_asked_about():
    points = [(0, 0), (10, 0), (10, 0.4), (20, 0.4)]
    findings, _ = measured(trail("L", [*points[:2], (10, 0.4), (0, 0.4)], geometry="length", offset=0.5))
    assert [ask.code for ask in findings] == ["GE-04"]
    findings, _ = measured(trail("L", points, geometry="length", offset=0.3))
    assert findings == ()


SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]


@pytest.mark.parametrize("offset", [5.0, 6.0, 9.0, 11.0])
def test_an_offset_past_the_middle_of_an_outline_stops_it(offset):
    (stop,), _ = measured(trail("P", SQUARE, offset=offset))
    assert (stop.code, stop.severity, stop.place, stop.feature) == ("GE-01", Severity.STOP, "P", "P")
    assert stop.answers == ()
    assert stop.message == (
        f"W1.csv, line 2: the offset of {offset:.3f} m is larger than P has room for at (0.000, 0.000) in the survey "
        "plane: its outline comes out turned about."
    )
    assert stop.remedy_text == "Correct `offset` or `offset_side`, or walk the true edge there."


def test_an_offset_past_the_middle_is_seen_mirrored_and_far_away_too():
    far = [(-x + 1e7, y - 2e7) for x, y in SQUARE]
    (stop,), _ = measured(trail("P", far, offset=-6.0))
    assert (stop.code, stop.severity, stop.at) == ("GE-01", Severity.STOP, (1e7, -2e7))
    findings, rows = measured(trail("P", far, offset=-4.9))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(0.04, abs=1e-6)


def test_an_offset_wider_than_one_way_of_an_outline_stops_it_there():
    (stop,), _ = measured(trail("P", [(0, 0), (10, 0), (10, 4), (0, 4), (0, 0)], offset=3.0))
    assert stop.message == (
        "W1.csv, line 3: the offset of 3.000 m is larger than P has room for at (10.000, 0.000) in the survey plane: "
        "its outline comes out turned about."
    )


@pytest.mark.parametrize("offset", [2.0, 2.5])
def test_a_full_circle_offset_to_its_centre_or_past_it_stops_once_in_words_without_stations(offset):
    points = on_circle((3, 4), 2, [0, 100, 220, 360])
    (stop,), _ = measured(trail("R", points, ["", "curve", "curve", "curve-end"], offset=offset))
    assert (stop.code, stop.severity) == ("GE-01", Severity.STOP)
    assert stop.message == (
        f"W1.csv, line 2: the offset of {offset:.3f} m is larger than R has room for at (5.000, 4.000) in the survey "
        "plane: its outline comes out turned about."
    )


def test_a_full_circle_that_a_side_crosses_is_told_without_stations():
    points = [(0, 0), *on_circle((0, -2), 2, [180, 270, 90]), (0, -9), (9, 4), (0, 0)]
    (stop,), _ = measured(trail("R", points, ["", "curve", "curve", "curve-end"]))
    assert stop.message == (
        "W1.csv, line 2: a full circle in the outline of R crosses the outline at (0.000, -4.000) in the survey plane."
    )
    assert stop.remedy_text == (
        "Correct the stations of the circle, its `offset`, or the sides there; walk a circle that stands by itself as "
        "a feature of its own."
    )


def test_an_outline_that_crosses_itself_as_walked_is_told_by_that():
    points = [(0, 0), (4, 4), (4, 0), (0, 4.5), (0, 0)]
    findings, _ = measured(trail("P", points, offset=0.1))
    assert [finding.template for finding in findings if finding.code == "GE-01"] != []
    assert all("crosses itself" in f.message for f in findings if f.code == "GE-01")


def test_a_line_that_turns_right_back_is_not_mitred_into_a_spike():
    _, rows = measured(trail("L", [(0, 0), (10, 0), (0, 0.01)], geometry="length", offset=-0.5))
    assert np.abs(rows.lengths[0].runs[0].points[:, :2]).max() < 10.6


def test_a_line_as_walked_is_moved_as_shapely_moves_it():
    x = np.arange(0, 10.01, 0.25)
    points = list(zip(x, 0.8 * np.sin(x)))
    _, rows = measured(trail("S", points, ["", *["as-walked"] * 40], geometry="length", offset=0.2))
    expected = LineString(points).parallel_offset(0.2, "left", join_style=2, mitre_limit=50)
    # shapely's way of moving simplifies by 1 % of the distance.
    assert rows.lengths[0].length.value == pytest.approx(expected.length, abs=0.005)
