# SPDX-License-Identifier: GPL-2.0-or-later
"""Holes by name and by where they lie: deducted once, from the right area."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, drifting, trail, walk_of

from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.measure.shapes import measure_shapes
from plugin.core.shape.features import shape_features


def box(name, x, y, size, **more):
    points = [(x, y), (x + size, y), (x + size, y + size), (x, y + size), (x, y)]
    return trail(name, points, **more)


def shaped(rows):
    positions = FakePositions([walk_of(rows)])
    shapes, findings = shape_features(positions, Decisions())
    measured = measure_shapes(shapes, positions, site="s", sigma_from={})
    return findings, {row.tags.feature + row.tags.part: row for row in measured.areas}


def test_a_named_hole_is_deducted_and_keeps_its_own_row():
    findings, rows = shaped(box("Lawn", 0, 0, 10) + box("Ring", 4, 4, 2, hole_in="Lawn"))
    assert findings == ()
    assert rows["Lawn"].area.value == pytest.approx(96)
    assert rows["Ring"].area.value == pytest.approx(4)
    assert rows["Ring"].hole_in == "Lawn"
    assert rows["Lawn"].perimeter.value == pytest.approx(40)
    assert len(rows["Lawn"].outline) == 2
    assert "less hole Ring (4.000 m2)" in rows["Lawn"].tags.method


def test_an_area_inside_another_is_its_hole_and_that_is_noted():
    findings, rows = shaped(box("Lawn", 0, 0, 10) + box("Ring", 4, 4, 2))
    assert rows["Lawn"].area.value == pytest.approx(96)
    (note,) = findings
    assert (note.code, note.severity, note.place) == ("GE-05", Severity.NOTE, "Ring+Lawn")
    assert note.message == "W1.csv, line 7: Ring lies inside Lawn and was taken as a hole of it."


def test_an_island_in_a_hole_is_a_hole_of_the_hole_only():
    _, rows = shaped(box("Lawn", 0, 0, 10) + box("Pond", 2, 2, 6) + box("Island", 4, 4, 2))
    assert [rows[name].area.value for name in ("Lawn", "Pond", "Island")] == pytest.approx([64, 32, 4])


def test_an_area_of_another_surface_or_option_is_no_hole():
    findings, rows = shaped(box("Lawn", 0, 0, 10, option="A") + box("Patio", 4, 4, 2, option="B"))
    assert findings == ()
    assert rows["Lawn"].area.value == pytest.approx(100)


def test_areas_side_by_side_are_no_holes():
    findings, rows = shaped(box("One", 0, 0, 10) + box("Two", 10, 2, 3))
    assert findings == ()
    assert rows["One"].area.value == pytest.approx(100)


def test_a_hole_belongs_to_the_part_that_is_around_it():
    rows = (
        box("Lawn", 0, 0, 10, part="1")
        + box("Lawn", 20, 0, 10, part="2")
        + box("Ring", 24, 4, 2, hole_in="Lawn")
    )
    findings, measured = shaped(rows)
    assert findings == ()
    assert (measured["Lawn1"].area.value, measured["Lawn2"].area.value) == pytest.approx((100, 96))


def test_a_hole_that_sticks_out_stops_the_area():
    findings, _ = shaped(box("Lawn", 0, 0, 10) + box("Ring", 9, 4, 2, hole_in="Lawn"))
    (stop,) = findings
    assert (stop.code, stop.severity, stop.place, stop.feature) == ("GE-01", Severity.STOP, "Lawn", "Lawn")
    assert stop.message.startswith("W1.csv, line 7: the hole Ring sticks out of Lawn by 1.000 m at (11.000, ")


def test_a_hole_that_touches_the_edge_of_its_area_is_deducted_in_peace():
    findings, rows = shaped(box("Lawn", 0, 0, 10) + box("Ring", 8, 4, 2, hole_in="Lawn"))
    assert findings == ()
    assert rows["Lawn"].area.value == pytest.approx(96)


def test_a_hole_in_an_area_that_is_not_there_stops():
    findings, rows = shaped(box("Lawn", 0, 0, 10) + box("Ring", 4, 4, 2, hole_in="Lwan"))
    (stop,) = findings
    assert stop.severity is Severity.STOP
    assert stop.message == (
        'W1.csv, line 7, column hole_in: "Lwan" is not the name of another area, so Ring is not deducted.'
    )
    assert rows["Lawn"].area.value == pytest.approx(100)


def test_two_areas_that_name_each_other_are_not_both_holes():
    findings, rows = shaped(box("Lawn", 0, 0, 10, hole_in="Ring") + box("Ring", 4, 4, 2, hole_in="Lawn"))
    assert len(findings) == 2
    assert rows["Lawn"].area.value == pytest.approx(100)


def test_an_area_stops_while_one_of_its_holes_does_and_no_longer():
    points = [(4, 4), (6, 4), (6, 6), (4, 4)]
    rows = box("Lawn", 0, 0, 10, part="1") + trail("Ring", points, ["", "", "curve-end", ""], hole_in="Lawn")
    positions = FakePositions([walk_of(rows)])
    _, (own, passed_on) = shape_features(positions, Decisions())
    assert (own.code, own.place) == ("GE-03", "W1:8")
    assert (passed_on.place, passed_on.feature, passed_on.severity) == ("Lawn/1", "Lawn", Severity.STOP)
    assert passed_on.message == (
        "W1.csv, line 7: Ring, a hole of Lawn/1, cannot be measured yet (GE-03), so neither can Lawn/1."
    )
    answers = Decisions([Decision("GE-03", "W1:8", "straight")])
    _, findings = shape_features(positions, answers)
    assert [finding.is_open for finding in findings] == [False]


def turned_and_moved(rows):
    """The same walk, turned by 0.7 rad and moved by 1e7 m."""
    c, s = np.cos(0.7), np.sin(0.7)
    return [
        {**r, "x": c * r["x"] - s * r["y"] + 1e7, "y": s * r["x"] + c * r["y"] - 2e7, "station": i + 1}
        for i, r in enumerate(rows)
    ]


OVERLAPPING = "overlap by 1.000 m2 at (5.500, 5.500) in the survey plane, which would be deducted twice."


@pytest.mark.parametrize("named", [{}, {"hole_in": "Lawn"}])
def test_holes_that_cover_the_same_ground_stop_their_area(named):
    rows = box("Lawn", 0, 0, 10) + box("Pit", 4, 4, 2, **named) + box("Bed", 5, 5, 2, **named)
    findings, _ = shaped(rows)
    (stop,) = (finding for finding in findings if finding.code == "GE-01")
    assert (stop.severity, stop.place, stop.feature, stop.answers) == (Severity.STOP, "Lawn", "Lawn", ())
    assert (stop.file, stop.line, stop.station) == ("W1.csv", 12, "11")
    assert stop.at == pytest.approx((5.5, 5.5))
    assert stop.message == f"W1.csv, line 12: Bed and Pit, both holes of Lawn, {OVERLAPPING}"
    assert stop.remedy_text == (
        "Correct the stations of the two there. Is it one hole walked twice, leave one out; does one lie in the "
        "other, name that one in its `hole_in`."
    )


def test_a_hole_in_a_hole_that_names_the_outer_area_stops_it():
    rows = box("Lawn", 0, 0, 10) + box("Pond", 2, 2, 6, hole_in="Lawn") + box("Isle", 4, 4, 2, hole_in="Lawn")
    ((stop,), _) = shaped(rows)
    assert stop.message == (
        "W1.csv, line 12: Isle and Pond, both holes of Lawn, overlap by 4.000 m2 at (5.000, 5.000) in the survey "
        "plane, which would be deducted twice."
    )


def test_holes_that_cross_without_a_corner_in_each_other_are_seen():
    across = [(1, 4), (9, 4), (9, 6), (1, 6), (1, 4)]
    upright = [(y, x) for x, y in across]
    rows = box("Lawn", 0, 0, 10) + trail("A", across, hole_in="Lawn") + trail("B", upright, hole_in="Lawn")
    ((stop,), _) = shaped(rows)
    assert stop.data["overlap"] == pytest.approx(4.0, abs=1e-9)
    assert stop.at == pytest.approx((5, 5))


def test_one_hole_walked_twice_is_one_too_many_turned_reversed_and_far_away_too():
    twice = box("Pit", 4, 4, 2, hole_in="Lawn") + box("Again", 4, 4, 2, hole_in="Lawn")[::-1]
    ((stop,), _) = shaped(turned_and_moved(box("Lawn", 0, 0, 10) + twice))
    assert (stop.code, stop.place) == ("GE-01", "Lawn")
    assert stop.data["overlap"] == pytest.approx(4.0, abs=1e-6)


def test_round_holes_overlap_by_their_lens():
    def ring(name, x):
        around = [(x + np.cos(a), 5 + np.sin(a)) for a in (0.0, 1.5, 3.0, 4.5)]
        return trail(name, [*around, around[0]], ["", "curve", "curve", "curve", "curve-end"], hole_in="Lawn")

    ((stop,), _) = shaped(box("Lawn", 0, 0, 10) + ring("A", 4) + ring("B", 5))
    # Two unit circles 1 m apart share 2 pi/3 - sqrt(3)/2; chords of two degrees leave out 0.02 % of a circle.
    assert stop.data["overlap"] == pytest.approx(2 * np.pi / 3 - np.sqrt(3) / 2, abs=1e-3)


@pytest.mark.parametrize("shift", [0.0, 0.049, -0.049])
def test_holes_that_share_an_edge_or_a_corner_are_deducted_in_peace(shift):
    rows = (
        box("Lawn", 0, 0, 10) + box("A", 2, 2, 2, hole_in="Lawn") + box("B", 4 + shift, 2, 2, hole_in="Lawn")
    )
    rows += box("C", 6 + shift, 4, 2, hole_in="Lawn")
    findings, measured = shaped(rows)
    assert findings == ()
    assert measured["Lawn"].area.value == pytest.approx(88)


@pytest.mark.parametrize(("noise", "stops"), [(0.001, 1), (0.05, 0)])
def test_holes_may_lie_over_each_other_as_far_as_their_stations_are_uncertain(noise, stops):
    rows = box("Lawn", 0, 0, 10) + box("A", 2, 2, 2, hole_in="Lawn") + box("B", 3.9, 2, 2, hole_in="Lawn")
    plan, height = drifting(len(rows), leg=0.0, stand=noise, scale=0.0)
    _, findings = shape_features(FakePositions([walk_of(rows)], plan, height), Decisions())
    assert len([finding for finding in findings if finding.code == "GE-01"]) == stops


def test_a_small_hole_mostly_in_another_is_no_touching_however_uncertain():
    rows = (
        box("Lawn", 0, 0, 10) + box("A", 2, 2, 0.6, hole_in="Lawn") + box("B", 2.1, 2.1, 0.6, hole_in="Lawn")
    )
    plan, height = drifting(len(rows), leg=0.0, stand=0.3, scale=0.0)
    _, (stop,) = shape_features(FakePositions([walk_of(rows)], plan, height), Decisions())
    assert stop.data["overlap"] == pytest.approx(0.25)


def test_a_hole_in_two_areas_comes_off_one_and_the_other_is_named():
    findings, rows = shaped(box("One", 0, 0, 10) + box("Two", 3, 3, 11) + box("Pit", 5, 5, 2))
    assert (rows["One"].area.value, rows["Two"].area.value) == pytest.approx((96, 121))
    note, doubled = findings
    assert (doubled.code, doubled.place, doubled.data["overlap"]) == (
        "GE-06",
        "One+Two",
        pytest.approx(49 - 4),
    )
    assert (note.code, note.severity, note.place) == ("GE-05", Severity.NOTE, "Pit+One")
    assert note.message == (
        "W1.csv, line 12: Pit lies inside One and was taken as a hole of it alone, but it lies inside Two too."
    )
    assert note.remedy_text == (
        "Name the area that it is a hole of in `hole_in`. Where two areas cover the same ground by mistake, correct "
        "their stations; where on purpose, give them another `surface` or `option`."
    )


def test_areas_that_a_hole_comes_off_through_its_own_are_not_named():
    findings, _ = shaped(box("Lawn", 0, 0, 10) + box("Pond", 2, 2, 6) + box("Island", 4, 4, 2))
    assert [finding.message for finding in findings] == [
        "W1.csv, line 7: Pond lies inside Lawn and was taken as a hole of it.",
        "W1.csv, line 12: Island lies inside Pond and was taken as a hole of it.",
    ]


def test_a_missing_shapely_is_named_with_what_to_install(monkeypatch):
    import sys

    from plugin.core.errors import MissingLibrary
    from plugin.core.shape.overlap import find_overlap

    for name in ("shapely", "shapely.geometry", "shapely.validation"):
        monkeypatch.setitem(sys.modules, name, None)
    ring = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 0.0)])
    with pytest.raises(MissingLibrary) as told:
        find_overlap(ring, ring, lambda at: 0.05)
    assert str(told.value) == (
        "Two holes of one area may overlap, and telling that needs the library shapely, which is not installed."
    )
    assert told.value.fields == {"library": "shapely"}
