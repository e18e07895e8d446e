# SPDX-License-Identifier: GPL-2.0-or-later
"""Holes by name and by where they lie: deducted once, from the right area."""

from __future__ import annotations

import pytest
from fake_positions import FakePositions, trail, walk_of

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
