# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines that go round twice."""

from __future__ import annotations

import math

import numpy as np
import pytest
from builders import turn
from fake_positions import FakePositions, trail, walk_of

from plugin.core.findings import Decisions, Severity
from plugin.core.segments import Curve
from plugin.core.shape.features import shape_features
from plugin.core.shape.rounds import rounds

BED = np.array([(0, 0), (20, 0), (20, 10), (0, 10), (0, 0)], float)
NOTCHED = np.array([(0, 0), (20, 0), (20, 10), (12, 10), (12, 4), (8, 4), (8, 10), (0, 10), (0, 0)], float)
SPUR = np.array([(0, 0), (20, 0), (20, 10), (10, 10), (10, 15), (10, 10), (0, 10), (0, 0)], float)


def curve(xy, half=0.0):
    return Curve(np.column_stack([xy, np.zeros(len(xy))]), np.full(len(xy) - 1, math.tan(half / 2)))


@pytest.mark.parametrize("outline", [BED, NOTCHED, SPUR, BED[::-1]])
@pytest.mark.parametrize(("angle", "shift"), [(0.0, 0.0), (1.3, 1e7), (-2.0, -3.0)])
def test_an_outline_goes_round_once_however_it_lies(outline, angle, shift):
    assert rounds(curve(turn(outline, angle) + shift)) == 1


@pytest.mark.parametrize("times", [2, 3])
@pytest.mark.parametrize("outline", [BED, NOTCHED])
def test_one_that_was_listed_again_goes_round_as_often(outline, times):
    again = np.vstack([outline, *[outline[1:]] * (times - 1)])
    assert rounds(curve(again)) == times


def test_a_circle_of_two_arcs_goes_round_once_and_of_four_twice():
    ends = np.array([(5, 0), (-5, 0), (5, 0)], float)
    assert rounds(curve(ends, math.pi / 2)) == 1
    assert rounds(curve(np.vstack([ends, ends[1:]]), math.pi / 2)) == 2


def shaped(xy):
    positions = FakePositions([walk_of(trail("Bed", xy))], plan=np.eye(2 * len(xy)) * 1e-4)
    return shape_features(positions, Decisions())


def test_an_outline_listed_twice_is_stopped_with_what_to_do():
    _, findings = shaped(np.vstack([BED[:-1], BED]))
    (stop,) = (f for f in findings if f.code == "GE-01")
    assert (stop.severity, stop.place, stop.answers) == (Severity.STOP, "Bed", ())
    assert stop.message == "W1.csv, line 2: the outline of Bed goes round the same ground 2 times."
    assert (
        stop.remedy_text
        == "Take the stations of one round out of the log, or give the second round a name of its own."
    )


def test_an_outline_walked_once_is_not():
    for outline in (BED, NOTCHED, SPUR):
        assert [f for f in shaped(outline)[1] if f.code == "GE-01"] == []


@pytest.mark.parametrize(
    ("length", "width", "sigma"), [(40.0, 2.0, 1.0), (40.0, 1.0, 0.3), (100.0, 10.0, 4.0), (3.0, 0.4, 0.2)]
)
def test_a_narrow_outline_keeps_its_end_however_little_its_stations_are_worth(length, width, sigma):
    """Within three sigma of each other the ends would be one point, and half of the ground gone."""
    xy = np.array([(0, 0), (length, 0), (length, width), (0, width)], float)
    positions = FakePositions([walk_of(trail("Strip", xy))], plan=np.eye(8) * sigma**2)
    (shape,), findings = shape_features(positions, Decisions())
    assert shape.gap is None
    ring = shape.pieces[0].points[:, :2]
    area = 0.5 * abs(np.sum(ring[:, 0] * np.roll(ring[:, 1], -1) - ring[:, 1] * np.roll(ring[:, 0], -1)))
    assert area == pytest.approx(length * width)
    assert "CL-02" in [f.code for f in findings]


def test_an_outline_that_ends_where_it_began_is_closed_there():
    for gap, is_closed in ((0.03, True), (0.9, True), (1.5, False)):
        xy = np.array([(0, 0), (20, 0), (20, 10), (0, 10), (0, gap)], float)
        positions = FakePositions([walk_of(trail("Bed", xy))], plan=np.eye(10) * 0.25)
        (shape,), _ = shape_features(positions, Decisions())
        assert (shape.gap is not None) == is_closed
