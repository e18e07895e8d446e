# SPDX-License-Identifier: GPL-2.0-or-later
"""The rules by which a log's legs become outlines, lengths and spots, and what is said about doubtful ones."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, drifting, noisy, trail, walk_of

from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.measure.shapes import measure_shapes
from plugin.core.shape.features import shape_features
from plugin.core.shape.records import LegShape
from plugin.core.walk import Kind


def on_circle(centre, radius, degrees):
    return [
        (centre[0] + radius * np.cos(np.radians(a)), centre[1] + radius * np.sin(np.radians(a)))
        for a in degrees
    ]


def shaped(rows, sigma=0.0, decisions=()):
    walk = walk_of(rows)
    n = len(walk)
    positions = FakePositions([walk], sigma**2 * np.eye(2 * n), sigma**2 * np.eye(n))
    shapes, findings = shape_features(positions, Decisions(decisions))
    return shapes, findings, measure_shapes(shapes, positions, site="s", sigma_from={"W1": "log"})


SQUARE = [(0, 0), (10, 0), (10, 8), (0, 8)]
COURT = [(22, 2), (22, 12), *on_circle((12, 1.5), 14.5, [65, 90, 115]), (2, 12), (2, 2), (22, 2)]
COURT_LEGS = ["", "", "curve", "curve", "curve", "curve-end", "", ""]


def test_an_outline_walked_back_to_its_start_is_closed_there_with_nothing_to_say():
    shapes, findings, rows = shaped(trail("P", [*SQUARE, (0.02, 0.0)]))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(80 - 0.01 * 8 / 2, abs=1e-12), (
        "the mean of the two is a corner"
    )
    assert shapes[0].gap == pytest.approx(0.02)
    assert (
        rows.areas[0].tags.method == "plan area of exact edges: straight; closed where it began, gap 0.020 m"
    )


def test_an_outline_left_open_is_closed_by_a_direct_side_and_the_gap_is_told():
    _, (note,), rows = shaped(trail("P", SQUARE))
    assert (note.code, note.severity, note.place, note.at) == ("CL-02", Severity.NOTE, "P", (0.0, 8.0))
    assert note.message == (
        "W1.csv, line 2: the outline of P ends 8.000 m from where it began; it was closed by a direct side."
    )
    assert rows.areas[0].area.value == pytest.approx(80, abs=1e-12)
    assert [side.length.value for side in rows.sides] == pytest.approx([10, 8, 10, 8])


def test_a_gap_within_three_sigma_is_closed_and_one_beyond_is_not():
    # Two stations of 0.05 m each axis: the gap's radial sigma is 0.1 m.
    _, findings, _ = shaped(trail("P", [*SQUARE, (0.29, 0.0)]), sigma=0.05)
    assert findings == ()
    _, findings, _ = shaped(trail("P", [*SQUARE, (0.31, 0.0)]), sigma=0.05)
    assert [f.code for f in findings] == ["CL-02"]


def test_the_same_mark_closes_an_outline_whatever_the_gap():
    rows = trail("P", [*SQUARE, (0.6, 0.0)])
    rows[0]["mark"] = rows[-1]["mark"] = "A"
    shapes, findings, _ = shaped(rows)
    assert findings == ()
    assert shapes[0].gap == pytest.approx(0.6)


def test_a_pass_stays_in_the_outline_but_the_side_runs_through_it():
    shapes, _, rows = shaped(trail("P", [(0, 0), (4, 0.001), (10, 0), (10, 8), (0, 8), (0, 0)]), sigma=0.003)
    assert len(shapes[0].pieces[0].points) == 5
    assert [side.length.value for side in rows.sides] == pytest.approx([10, 8, 10, 8], abs=1e-6)
    assert len(rows.legs) == 5
    assert len(rows.sides[0].run.points) == 3


def test_a_station_off_the_straight_by_more_than_two_sigma_is_a_corner():
    _, _, rows = shaped(trail("P", [(0, 0), (4, 0.02), (10, 0), (10, 8), (0, 8), (0, 0)]), sigma=0.003)
    assert len(rows.sides) == 5


def test_a_walk_that_starts_in_the_middle_of_a_side_still_has_four_sides():
    _, _, rows = shaped(trail("P", [(5, 0), (10, 0), (10, 8), (0, 8), (0, 0), (5, 0)]))
    assert [side.length.value for side in rows.sides] == pytest.approx([10, 8, 10, 8])
    assert len(rows.sides[0].run.points) == 3


def test_a_pass_that_names_an_item_of_its_own_ends_a_side():
    rows = trail("P", [(0, 0), (4, 0), (10, 0), (10, 8), (0, 8), (0, 0)])
    for row, item in zip(rows, ("", "KRB-01", "EDG-01", "EDG-01", "", "WAL-01")):
        row["side_item"] = item
    _, _, measured = shaped(rows)
    assert [(side.item, side.length.value) for side in measured.sides] == [
        ("KRB-01", 4.0), ("EDG-01", 6.0), ("EDG-01", 8.0), ("", 10.0), ("WAL-01", 8.0),
    ]  # fmt: skip


def test_the_item_of_the_side_that_closes_an_open_outline_is_that_of_its_first_station():
    rows = trail("P", SQUARE)
    rows[0]["side_item"] = "EDG-01"
    _, _, measured = shaped(rows)
    assert [side.item for side in measured.sides] == ["", "", "", "EDG-01"]


def test_a_court_with_a_curve_has_its_true_area_and_one_side_for_the_arc():
    shapes, findings, rows = shaped(trail("Court", COURT, COURT_LEGS))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(255.0029, abs=5e-5)
    assert rows.areas[0].perimeter.value == pytest.approx(62.0694, abs=5e-5)
    arc = rows.sides[1]
    assert (arc.length.value, arc.radius.value, np.degrees(arc.sweep.value)) == pytest.approx(
        (22.0694, 14.5, 87.2056), abs=5e-5
    )
    assert [leg.shape for leg in shapes[0].pieces[0].legs] == [
        LegShape.STRAIGHT, LegShape.ARC, LegShape.STRAIGHT, LegShape.STRAIGHT,
    ]  # fmt: skip
    assert (rows.legs[1].start, rows.legs[1].end) == ("2", "6")


def test_walked_the_other_way_the_sweep_turns_but_the_ring_is_still_anticlockwise():
    legs = ["", "", "", "curve", "curve", "curve", "curve-end", ""]
    _, findings, rows = shaped(trail("Court", COURT[::-1], legs))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(255.0029, abs=5e-5)
    ring = rows.areas[0].outline[0]
    xy = ring.points[:, :2]
    assert (xy[:-1, 0] * xy[1:, 1] - xy[1:, 0] * xy[:-1, 1]).sum() > 0
    assert ring.bulge.max() > 0.1
    arc = next(side for side in rows.sides if side.radius)
    assert np.degrees(arc.sweep.value) == pytest.approx(-87.2056, abs=5e-5)


def test_heights_divide_an_arc_at_its_stations_so_that_they_run_evenly_between():
    flat = [(*p, 1.0) for p in COURT]
    flat[3] = (*COURT[3], 1.5)
    shapes, _, rows = shaped(trail("Court", flat, COURT_LEGS))
    assert len(shapes[0].pieces[0].points) == 8 - 1
    part = np.radians([65 - np.degrees(np.arctan2(10.5, 10)), 25]) * 14.5
    expected = 2 * (part[0] + np.hypot(part[1], 0.5))
    assert rows.legs[1].slope_length.value == pytest.approx(expected, abs=1e-9)


def test_a_full_circle_ends_at_its_first_station_and_is_not_asked_about():
    points = on_circle((3, 4), 0.75, [0, 100, 220, 360])
    shapes, findings, rows = shaped(trail("Ring", points, ["", "curve", "curve", "curve-end"]))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(np.pi * 0.75**2, abs=1e-9)
    assert rows.areas[0].perimeter.value == pytest.approx(2 * np.pi * 0.75, abs=1e-9)
    (side,) = rows.sides
    assert (side.radius.value, np.degrees(side.sweep.value)) == pytest.approx((0.75, 360))
    assert shapes[0].pieces[0].legs[0].shape is LegShape.CIRCLE


def test_a_full_circle_may_be_a_length_and_run_clockwise():
    points = on_circle((3, 4), 2, [0, -100, -220, -360])
    _, findings, rows = shaped(trail("Ring", points, ["", "curve", "curve", "curve-end"], geometry="length"))
    assert findings == ()
    assert rows.lengths[0].length.value == pytest.approx(4 * np.pi, abs=1e-9)
    assert rows.lengths[0].runs[0].bulge.max() < 0


def test_a_curve_without_a_passing_point_stops_and_is_drawn_straight():
    rows = trail("Edge", [(0, 0), (5, 0), (9, 4)], ["", "", "curve-end"], geometry="length")
    _, (finding,), measured = shaped(rows)
    assert (finding.code, finding.severity, finding.place) == ("GE-03", Severity.STOP, "W1:3")
    assert finding.message == ("W1.csv, line 4: the curve of Edge from station 2 to 3 has no passing point.")
    assert finding.answers == ("straight",)
    assert finding.is_open
    assert measured.lengths[0].length.value == pytest.approx(5 + np.hypot(4, 4))
    _, (finding,), _ = shaped(rows, decisions=[Decision("GE-03", "W1:3", "straight", "the foreman", "today")])
    assert not finding.is_open


def test_a_curve_that_is_straight_within_sigma_stops():
    rows = trail("Edge", [(0, 0), (5, 0.02), (10, 0)], ["", "curve", "curve-end"], geometry="length")
    _, (finding,), measured = shaped(rows, sigma=0.02)
    assert finding.code == "GE-03"
    assert finding.message.startswith(
        "W1.csv, line 4: the curve of Edge from station 1 to 3 is straight within"
    )
    assert measured.lengths[0].length.value == pytest.approx(10.0)
    _, findings, _ = shaped(rows, sigma=0.002)
    assert findings == ()


def test_a_curve_that_misses_a_point_is_asked_about_and_stays_in():
    points = on_circle((0, 0), 10, [0, 20, 40, 60, 80])
    points[2] = (points[2][0] * 1.02, points[2][1] * 1.02)
    rows = trail("Edge", points, ["", "curve", "curve", "curve", "curve-end"], geometry="length")
    _, (finding,), measured = shaped(rows, sigma=0.01)
    assert (finding.code, finding.severity, finding.answers) == ("GE-04", Severity.ASK, ("accept",))
    assert "misses station 3 by 0.1" in finding.message
    assert "where one sigma is 0.0" in finding.message
    assert measured.lengths[0].length is not None


def test_a_tight_curve_and_one_that_nearly_closes_are_asked_about():
    rows = trail("Edge", on_circle((0, 0), 0.25, [0, 40, 90]), ["", "curve", "curve-end"], geometry="length")
    _, (finding,), _ = shaped(rows)
    assert finding.message.endswith("has a radius of only 0.250 m.")
    rows = trail("Edge", on_circle((0, 0), 9, [0, 100, 355]), ["", "curve", "curve-end"], geometry="length")
    _, (finding,), measured = shaped(rows)
    assert finding.message.endswith("turns by 355.0 degrees without closing.")
    assert measured.lengths[0].length.value == pytest.approx(np.radians(355) * 9, abs=1e-8)


def test_a_curve_never_ended_takes_its_last_station_for_its_end_and_stops():
    rows = trail(
        "Edge", [*on_circle((0, 0), 9, [0, 45, 90]), (-5, 9)], ["", "curve", "curve", ""], geometry="length"
    )
    _, (finding,), measured = shaped(rows)
    assert (finding.code, finding.severity, finding.answers) == ("GE-03", Severity.STOP, ("accept",))
    assert "does not come to a `curve-end`; its last `curve` station 3 was taken" in finding.message
    assert measured.lengths[0].length.value == pytest.approx(np.pi / 2 * 9 + 5)


def test_an_arc_in_one_line_in_plan_stands_in_the_vertical_plane():
    # 60 degrees of a radius of 2.4, level at its base, along the direction (0.6, 0.8).
    angle = np.radians([0, 20, 40, 60])
    points = [(0.6 * 2.4 * np.sin(a), 0.8 * 2.4 * np.sin(a), 84.45 + 2.4 * (1 - np.cos(a))) for a in angle]
    rows = trail("Face", points, ["", "curve", "curve", "curve-end"], geometry="length", part="profile")
    shapes, findings, measured = shaped(rows, sigma=1e-5)
    assert findings == ()
    row = measured.lengths[0]
    assert row.length.value == pytest.approx(2.4 * np.sin(np.radians(60)), abs=1e-9)
    assert row.slope_length.value == pytest.approx(2.4 * np.radians(60), abs=1e-9)
    assert row.rise.value == pytest.approx(1.2, abs=1e-9)
    assert '"radius_m": 2.4' in row.tags.shape
    assert '"sweep_deg": 60.0' in row.tags.shape
    assert len(row.runs[0].points) > 10
    assert not row.runs[0].bulge.any()
    assert shapes[0].place == "Face/profile"


def test_a_carry_breaks_a_length_and_leaves_carried_stations_out():
    points = [(0, 0, 1.0), (5, 0, 1.1), (6, 1, 9.0), (8, 0, 1.2), (12, 0, 1.6)]
    shapes, findings, rows = shaped(trail("L", points, ["", "", "carry", "carry", ""], geometry="length"))
    assert findings == ()
    row = rows.lengths[0]
    assert [len(run.points) for run in row.runs] == [2, 2]
    assert row.length.value == pytest.approx(9.0)
    assert row.rise.value == pytest.approx(0.6)
    assert row.gradient.value == pytest.approx(0.5 / 9)
    assert len(shapes[0].pieces) == 2


def test_a_carry_in_an_outline_is_bridged_by_a_direct_side():
    points = [(0, 0), (10, 0), (12, 4), (10, 8), (0, 8), (0, 0)]
    _, findings, rows = shaped(trail("P", points, ["", "", "carry", "carry", "", ""]))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(80)
    assert [side.length.value for side in rows.sides] == pytest.approx([10, 8, 10, 8])


def test_the_first_station_starts_the_feature_whatever_its_leg_says():
    _, findings, rows = shaped(trail("P", [*SQUARE, (0, 0)], ["curve-end"]))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(80)


def test_as_walked_rows_between_two_stands_are_one_side_with_straight_chords():
    angle = np.linspace(0, np.pi, 21)
    points = [(-3, 0), (3, 0), *np.column_stack([3 * np.cos(angle), 3 * np.sin(angle)])[1:-1], (-3, 0)]
    legs = ["", "", *["as-walked"] * 20]
    rows = [
        {**row, "hold": 0.0 if leg == "as-walked" else 1.0}
        for row, leg in zip(trail("P", points, legs), legs)
    ]
    _, findings, measured = shaped(rows)
    assert findings == ()
    assert measured.areas[0].area.value == pytest.approx(4.5 * 20 * np.sin(np.pi / 20), abs=1e-9)
    assert [len(side.run.points) for side in measured.sides] == [2, 21]
    assert "as walked" in measured.sides[1].tags.method
    rows[10]["hold"] = 1.0
    _, _, measured = shaped(rows)
    assert len(measured.sides) == 3


def test_parts_are_rows_of_their_own_and_rows_without_a_feature_are_passed_by():
    rows = trail("Bed", [*SQUARE, (0, 0)], part="1") + trail("", [(20, 20)], geometry="") + trail(
        "Bed", [(20, 0), (24, 0), (24, 3), (20, 0)], part="2"
    ) + trail("Tree", [(1, 1, 5.0), (2, 2)], geometry="spot", item="TRE-01")  # fmt: skip
    shapes, _, measured = shaped(rows)
    assert [shape.place for shape in shapes] == ["Bed/1", "Bed/2", "Tree", "Tree"]
    assert [row.tags.part for row in measured.areas] == ["1", "2"]
    assert [spot.height and spot.height.value for spot in measured.spots] == [5.0, None]
    assert measured.spots[0].tags.item == "TRE-01"
    assert measured.areas[0].tags.sigma_from == "log"


def test_without_a_geometry_one_station_is_a_spot_a_closed_run_an_area_and_the_rest_lengths():
    rows = trail("a", [(0, 0)], geometry="") + trail("b", [*SQUARE, (0, 0)], geometry="") + trail(
        "c", [(0, 0), (5, 5)], geometry=""
    )  # fmt: skip
    shapes, _, _ = shaped(rows)
    assert [shape.kind for shape in shapes] == [Kind.SPOT, Kind.AREA, Kind.LENGTH]


@pytest.mark.parametrize(("points", "count"), [([(0, 0)], 1), ([(0, 0), (5, 0)], 2), ([(0, 0), (5, 0), (0, 0)], 2),
                                               ([(1, 1)] * 4, 1)])  # fmt: skip
def test_an_outline_of_fewer_than_three_points_stops_and_does_not_crash(points, count):
    _, (finding,), rows = shaped(trail("P", points))
    assert (finding.code, finding.severity) == ("GE-01", Severity.STOP)
    assert (
        finding.message
        == f"W1.csv, line 2: the outline of P has {count} different points, so it has no area."
    )
    assert (rows.areas[0].area, rows.areas[0].outline, rows.sides) == (None, (), ())


def test_a_length_of_one_station_stops_and_does_not_crash():
    _, (finding,), rows = shaped(trail("L", [(0, 0)], geometry="length"))
    assert finding.message == (
        "W1.csv, line 2: nothing is drawn of L: it has no two stations with a way between them."
    )
    assert (rows.lengths[0].runs, rows.lengths[0].length) == ((), None)


def test_stations_all_in_one_place_give_nothing_and_no_error():
    _, _, rows = shaped(trail("L", [(2, 2, 1.0)] * 3, geometry="length"))
    row = rows.lengths[0]
    assert (row.length.value, row.slope_length.value, row.rise.value, row.gradient) == (0.0, 0.0, 0.0, None)


def test_an_empty_survey_has_no_rows():
    shapes, findings, rows = shaped([])
    assert (shapes, findings, rows.areas, rows.lengths) == ((), (), (), ())


def test_missing_heights_leave_out_only_what_needs_them():
    points = [(0, 0, 1.0), (5, 0), (9, 3, 1.5)]
    _, _, rows = shaped(trail("L", points, geometry="length"))
    row = rows.lengths[0]
    assert row.slope_length is None
    assert row.rise.value == pytest.approx(0.5)
    assert row.gradient.value == pytest.approx(0.05)
    assert [leg.gradient for leg in rows.legs] == [None, None]
    _, _, rows = shaped(trail("P", [(0, 0, 1.0), (5, 0), (9, 3, 1.5), (0, 0, 1.0)]))
    assert (rows.areas[0].sloped_area, rows.areas[0].fall, rows.areas[0].fall_bearing) == (
        None,
        None,
        None,
    )


def test_a_row_without_a_place_is_left_out():
    _, findings, rows = shaped(trail("P", [(0, 0), (10, 0), (np.nan, 3), (10, 8), (0, 8), (0, 0)]))
    assert findings == ()
    assert rows.areas[0].area.value == pytest.approx(80)


def test_shape_and_place_do_not_depend_on_where_the_site_lies_or_how_it_is_turned():
    legs = COURT_LEGS
    _, _, near = shaped(trail("Court", [(*p, 80 + 0.01 * p[0]) for p in COURT], legs), sigma=0.002)
    turned = np.array(COURT) @ np.array([[0.6, 0.8], [-0.8, 0.6]]) + (3e6, 5e6)
    _, findings, far = shaped(
        trail("Court", [(*p, 80 + 0.01 * q[0]) for p, q in zip(turned, COURT)], legs), sigma=0.002
    )
    assert findings == ()
    for name in ("area", "sloped_area", "perimeter", "fall"):
        a, b = getattr(near.areas[0], name), getattr(far.areas[0], name)
        # Coordinates of 5e6 m are kept to 1e-9 m, times a perimeter of 62 m.
        assert b.value == pytest.approx(a.value, abs=2e-7)
        assert b.sigma == pytest.approx(a.sigma, rel=1e-6)


def test_two_hundred_noisy_walks_of_a_clean_site_say_next_to_nothing():
    rows = trail("Court", [(*p, 84.0) for p in COURT], COURT_LEGS)
    rows += trail("Hole", [(11.4, 6.4), (12.6, 6.4), (12.6, 7.6), (11.4, 7.6), (11.4, 6.4)], hole_in="Court")
    rows += trail("Kerb", [(30, 2.5), (30, 0), *on_circle((24, 0), 6, [-45, -90]), (-6, -6)],
                  ["", "", "curve", "curve-end", ""], geometry="length")  # fmt: skip
    rows += trail(
        "Ring", on_circle((40, 4), 0.75, [0, 90, 180, 270, 360]), ["", "curve", "curve", "curve", "curve-end"]
    )
    walk = walk_of([{**row, "z": row.get("z", 84.0)} for row in rows])
    positions = FakePositions([walk], *drifting(len(walk), xy=walk.xy))
    rng = np.random.default_rng(11)
    said, sides = [], []
    for _ in range(200):
        moved = noisy(positions, rng)
        shapes, findings = shape_features(moved, Decisions())
        said += [finding.code for finding in findings]
        sides.append(len(shapes[0].pieces[0].sides))
    # Two curves of three points each, asked about beyond three sigma: about 1 % of draws.
    assert said.count("GE-04") == len(said) <= 8
    assert set(sides) == {4}


def test_a_full_circle_with_one_passing_point_says_that_it_needs_two():
    rows = trail("P", [(2, 0), (-2, 0), (2, 0)], legs=["", "curve", "curve-end"])
    _, (finding,), _ = shaped(rows)
    assert (finding.code, finding.severity) == ("GE-01", Severity.STOP)
    assert finding.remedy_text == (
        "A full circle needs two `curve` stations or more between its first station and the `curve-end` at the same "
        "place: walk it again with two."
    )
