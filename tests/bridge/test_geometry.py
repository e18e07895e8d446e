# SPDX-License-Identifier: GPL-2.0-or-later
"""Curves into a map CRS: arcs stay arcs, rings close, and nothing straight is written as an arc."""

from __future__ import annotations

import math

import numpy as np
import pytest
from osgeo import ogr
from qgis.core import QgsGeometry

from plugin.bridge.geometry import MapFrame, chords
from plugin.core.segments import Curve
from tests.made_survey import COURT, COURT_AREA_M2, HOLE, KERB, KERB_LENGTH_M, NAN, TREE_RING, curve

LOCAL = MapFrame(None)


def read(wkb: bytes) -> ogr.Geometry:
    return ogr.CreateGeometryFromWkb(wkb)


def exact_area(wkb: bytes, far: float = 0.0) -> float:
    """By the host, which integrates arcs exactly (GDAL cuts a mixed outline into chords); an outline far from
    the origin is first brought back, because the host multiplies coordinates as they are."""
    shape = QgsGeometry()
    shape.fromWkb(wkb)
    shape.translate(-far, -far)
    return shape.constGet().area()


def reversed_curve(run: Curve) -> Curve:
    return Curve(run.points[::-1].copy(), -run.bulge[::-1])


def moved(run: Curve, by: float) -> Curve:
    return Curve(run.points + np.array([by, by, 0.0]), run.bulge)


def test_an_arc_keeps_the_exact_length_of_the_kerb():
    assert read(LOCAL.line(KERB)).Length() == pytest.approx(KERB_LENGTH_M, abs=1e-9)


def test_a_reversed_kerb_is_as_long_and_turns_the_other_way():
    forth, back = read(LOCAL.line(KERB)), read(LOCAL.line(reversed_curve(KERB)))
    assert back.Length() == pytest.approx(forth.Length(), abs=1e-9)
    assert back.GetEnvelope() == pytest.approx(forth.GetEnvelope(), abs=1e-12)


def test_an_area_keeps_the_exact_area_with_its_hole_out():
    assert exact_area(LOCAL.polygon((COURT, HOLE))) == pytest.approx(COURT_AREA_M2, abs=1e-9)


def test_an_area_moved_far_away_keeps_its_area():
    # Doubles near 1e7 are 2e-9 apart: over a perimeter of 60 m that is 1e-7 m2.
    far = exact_area(LOCAL.polygon((moved(COURT, 1e7), moved(HOLE, 1e7))), 1e7)
    assert far == pytest.approx(COURT_AREA_M2, abs=1e-6)


def test_a_full_circle_of_two_half_arcs_has_five_points_and_its_area():
    ring = read(LOCAL.polygon((TREE_RING,)))
    assert ring.GetArea() == pytest.approx(math.pi * 0.75**2, abs=1e-9)
    assert ring.GetGeometryRef(0).GetGeometryRef(0).GetPointCount() == 5


@pytest.mark.parametrize("bulge", [1e-7, -1e-7, 1e-12, 0.0])
def test_an_edge_that_hardly_bends_is_written_straight(bulge):
    line = read(LOCAL.line(curve((0, 0), (20, 0), bulges={0: bulge})))
    assert line.GetGeometryRef(0).GetGeometryName() == "LINESTRING"
    assert line.Length() == pytest.approx(20.0, abs=1e-9)


def test_an_arc_between_two_equal_points_is_written_straight():
    line = read(LOCAL.line(curve((5, 5), (5, 5), (6, 5), bulges={0: 0.5})))
    assert [line.GetGeometryRef(i).GetGeometryName() for i in range(line.GetGeometryCount())] == [
        "LINESTRING"
    ]


def test_an_arc_of_three_quarters_keeps_its_length():
    run = curve((0, 0), (1, 1), bulges={0: math.tan(1.5 * math.pi / 4)})
    assert read(LOCAL.line(run)).Length() == pytest.approx(1.5 * math.pi, abs=1e-9)


def test_a_ring_is_closed_to_the_bit_even_where_its_ends_differ():
    points = COURT.points.copy()
    points[-1] += 1e-10
    polygon = read(LOCAL.polygon((Curve(points, COURT.bulge),)))  # GDAL's parts die with the whole
    ring = polygon.GetGeometryRef(0)
    first, last = ring.GetGeometryRef(0), ring.GetGeometryRef(ring.GetGeometryCount() - 1)
    assert first.GetPoint(0) == last.GetPoint(last.GetPointCount() - 1)


def test_heights_run_along_and_the_middle_of_an_arc_lies_midway():
    line = read(LOCAL.line(curve((0, 0), (10, 0), bulges={0: 0.4})))
    arcs = line.GetGeometryRef(0)
    start, middle, end = (arcs.GetZ(i) for i in range(3))
    assert middle == pytest.approx((start + end) / 2, abs=1e-12)


def test_a_missing_height_stays_missing_and_takes_no_place_with_it():
    point = read(LOCAL.point((3.0, 4.0, NAN)))
    assert (point.GetX(), point.GetY()) == (3.0, 4.0)
    assert math.isnan(point.GetZ())


def test_runs_broken_by_a_carry_make_one_multi_curve():
    lines = read(LOCAL.lines((KERB, moved(KERB, 5.0))))
    assert lines.GetGeometryName() == "MULTICURVE"
    assert lines.Length() == pytest.approx(2 * KERB_LENGTH_M, abs=1e-9)


def test_a_plain_ring_is_a_plain_line():
    polygon = read(LOCAL.polygon((HOLE,)))
    assert polygon.GetGeometryRef(0).GetGeometryName() == "LINESTRING"


def test_a_mirrored_arc_bends_to_the_other_side():
    def mirror(run: Curve) -> Curve:
        return Curve(run.points * [1, -1, 1], -run.bulge)

    up, down = read(LOCAL.line(KERB)), read(LOCAL.line(mirror(KERB)))
    x0, x1, y0, y1 = up.GetEnvelope()
    assert down.GetEnvelope() == pytest.approx((x0, x1, -y1, -y0), abs=1e-12)
    assert np.isfinite(down.Length())


@pytest.mark.parametrize("sag", [0.01, 0.002, 1e-4])
@pytest.mark.parametrize("ring", [COURT, TREE_RING, reversed_curve(COURT)], ids=["court", "tree", "reversed"])
def test_chords_lie_nowhere_further_from_their_arc_than_the_sag(ring, sag):
    points = chords(ring, sag)
    assert points[0] == pytest.approx(ring.points[0], abs=1e-12)
    assert points[-1] == pytest.approx(ring.points[-1], abs=1e-12)
    centre, radius = ((12, 1.5), 14.5) if len(ring.points) == 5 else ((-2.5, 6), 0.75)
    on_arc = np.abs(np.hypot(*(points[:, :2] - centre).T) - radius) < 1e-9
    both = on_arc[:-1] & on_arc[1:] & (np.hypot(*np.diff(points[:, :2], axis=0).T) < 5)
    middles = (points[:-1, :2] + points[1:, :2]) / 2
    gaps = radius - np.hypot(*(middles[both] - centre).T)
    assert len(gaps) > 3
    assert gaps.max() <= sag * (1 + 1e-9)
    assert gaps.max() > sag / 4, "far more chords than needed"


def test_a_chorded_outline_is_a_plain_polygon_a_little_smaller():
    frame = MapFrame(None, sag=0.002)
    polygon = read(frame.polygon((COURT, HOLE)))
    assert polygon.GetGeometryName() == "POLYGON"
    # A chord of sag f takes two thirds of f from the area by its length: 22.07 m of arc at 2 mm at most.
    assert COURT_AREA_M2 - 22.07 * 0.002 * 2 / 3 * 1.001 <= polygon.GetArea() < COURT_AREA_M2
    assert read(frame.line(KERB)).GetGeometryName() == "LINESTRING"
    assert read(frame.lines((KERB, KERB))).GetGeometryName() == "MULTILINESTRING"


def test_an_arc_smaller_than_the_sag_is_one_or_two_chords():
    points = chords(curve((0, 0), (0.001, 0), bulges={0: 1.0}), 0.01)
    assert 2 <= len(points) <= 3
