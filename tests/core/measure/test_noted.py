# SPDX-License-Identifier: GPL-2.0-or-later
"""Sizes noted on site: from the log to rows, one value or by chainage, and what is told where they differ."""

from __future__ import annotations

import math
import time
from dataclasses import replace

import numpy as np
import pytest
from fake_positions import FakePositions, trail, walk_of

from plugin.core.findings import Decisions, Severity
from plugin.core.measure.chain import survey_files
from plugin.core.measure.left_out import rows_of_left_out
from plugin.core.measure.noted import noted_along, tell_sizes
from plugin.core.measure.rows import NOTHING_NOTED, Noted
from plugin.core.measure.shapes import measure_shapes
from plugin.core.shape.features import shape_features
from plugin.core.shape.records import DrawnLeg, LegShape, Piece, Shape
from plugin.core.walk import Kind

NAN = math.nan
LOG = """# units: ft
walk,station,x,y,z,time,feature,geometry,leg,mark,width,depth,height,stem_d,spread,invert
W1,1,0,0,100,0,,,,A,,,,,,
W1,2,10,0,100,10,Trench,length,,,2,1,,,,97
W1,3,30,0,100,20,Trench,length,,,2,2,,,,
W1,4,50,0,100,30,Trench,length,,,,3,,,,96.5
W1,5,40,20,100,40,Slab,area,,,,0.5,,,,
W1,6,60,20,100,50,Slab,area,,,,,,,,
W1,7,60,40,100,60,Slab,area,,,,0.5,,,,
W1,8,40,20,100,70,Slab,area,,,,,,,,
W1,9,80,0,100,80,T1,spot,,,,,,1.5,20,
W1,10,90,0,100,90,T2,spot,,,,,,,,
W1,11,0,0,100,100,,,,A,,,,,,
"""
FOOT = 0.3048


def measured(rows, sizes, **more):
    """Rows of one walk whose sizes are these columns, and what is told of them."""
    walk = replace(
        walk_of(rows), sizes={name: np.array(values, float) for name, values in sizes.items()}, **more
    )
    positions = FakePositions([walk])
    shapes, _ = shape_features(positions, Decisions())
    return measure_shapes(shapes, positions, site="", sigma_from={}), tell_sizes(shapes, positions)


def test_sizes_come_through_the_whole_chain_in_metres():
    survey = survey_files({"w.csv": LOG.encode()})
    (trench,), (slab,), trees = survey.lengths, survey.areas, survey.spots
    assert trench.noted == Noted(width=2 * FOOT)
    along = {name: np.array(pairs) for name, pairs in trench.along}
    assert along["depth"] == pytest.approx(np.array([(0, 1), (20, 2), (40, 3)]) * FOOT)
    assert along["invert"] == pytest.approx(np.array([(0, 97), (40, 96.5)]) * FOOT)
    assert set(along) == {"depth", "invert"}
    assert slab.noted == Noted(depth=0.5 * FOOT)
    assert [tree.noted for tree in trees] == [Noted(stem_d=1.5 * FOOT, spread=20 * FOOT), NOTHING_NOTED]
    stations = {row.station: row.noted for row in survey.stations}
    assert stations["3"] == Noted(width=2 * FOOT, depth=2 * FOOT)
    assert stations["11"] == NOTHING_NOTED
    assert [(f.code, f.place) for f in survey.findings if f.code == "IN-08"] == [("IN-08", "Trench")] * 2


def test_a_log_without_sizes_notes_nothing():
    rows, told = measured(trail("L", [(0, 0), (5, 0)], geometry="length"), {})
    assert (rows.lengths[0].noted, rows.lengths[0].along, told) == (NOTHING_NOTED, (), ())


def test_a_length_whose_depth_differs_is_told_and_keeps_it_by_chainage():
    rows, (told,) = measured(
        trail("Swale/x", [(0, 0), (3, 4), (6, 8)], geometry="length"),
        {"depth": [0.3, NAN, 0.5], "width": [NAN] * 3},
    )
    assert rows.lengths[0].noted == NOTHING_NOTED
    assert rows.lengths[0].along == (("depth", ((0.0, 0.3), (10.0, 0.5))),)
    assert told.severity is Severity.NOTE
    assert (told.place, told.station, told.line) == ("Swale/x", "1", 2)
    assert told.message == (
        "The depth of Swale/x is noted from 0.300 to 0.500 m. Its row has none; what was noted along it stands in its "
        "column sizes_along, and by station in the table stations."
    )
    assert told.remedy_text == (
        "None where it changes along the way. Else note the same at every station, or at one alone."
    )


def test_an_area_whose_depth_differs_has_none_and_is_told():
    rows, (told,) = measured(
        trail("Slab", [(0, 0), (5, 0), (5, 5), (0, 0)]), {"depth": [0.1, 0.15, 0.1, NAN]}
    )
    assert rows.areas[0].noted == NOTHING_NOTED
    assert told.message == (
        "The depth of Slab is noted from 0.100 to 0.150 m. Its row has none; each station's own stands in the table "
        "stations."
    )
    assert told.remedy_text == (
        "Note the same at every station or at one alone, or give the size where it is used."
    )


def test_what_differs_by_the_rounding_of_a_conversion_is_one_size():
    rows, told = measured(
        trail("L", [(0, 0), (5, 0)], geometry="length"), {"width": [0.3048, 0.3048 * (1 + 1e-12)]}
    )
    assert rows.lengths[0].noted.width == pytest.approx(0.3048)
    assert told == ()


def test_each_spot_of_one_name_keeps_its_own():
    rows, told = measured(trail("T", [(0, 0), (5, 0)], geometry="spot"), {"stem_d": [0.2, 0.3]})
    assert [row.noted.stem_d for row in rows.spots] == [0.2, 0.3]
    assert told == ()


def test_stations_passed_on_an_arc_lie_at_its_length():
    """A half circle of radius 5 with passing points at 60 and 90 degrees."""
    at = [0.0, 60.0, 90.0, 180.0]
    points = [(5 * math.cos(math.radians(a)), 5 * math.sin(math.radians(a))) for a in at]
    rows, _ = measured(
        trail("L", points, ("", "curve", "curve", "curve-end"), geometry="length"),
        {"depth": [1.0, 2.0, 3.0, 4.0]},
    )
    told = dict(rows.lengths[0].along)["depth"]
    assert [chainage for chainage, _ in told] == pytest.approx([5 * math.radians(a) for a in at], abs=1e-9)


def test_chainages_go_on_over_a_carry_and_count_what_is_drawn_alone():
    rows, _ = measured(
        trail("L", [(0, 0), (4, 0), (4, 9), (10, 9)], ("", "", "carry", ""), geometry="length"),
        {"depth": [1.0, 2.0, 3.0, 4.0]},
    )
    assert dict(rows.lengths[0].along)["depth"] == ((0.0, 1.0), (4.0, 2.0), (4.0, 3.0), (10.0, 4.0))


def test_as_walked_rows_lie_at_their_own_chainage_moved_by_ten_thousand_kilometres():
    points = [(1e7 + x, 1e7 + 0.1 * x * x) for x in (0.0, 1.0, 2.0, 3.0)]
    rows, _ = measured(
        trail("L", points, ("", *["as-walked"] * 3), geometry="length"), {"width": [1.0, 1.1, 1.2, 1.3]}
    )
    steps = np.hypot(*np.diff(np.array(points) - 1e7, axis=0).T)
    told = dict(rows.lengths[0].along)["width"]
    assert [chainage for chainage, _ in told] == pytest.approx([0.0, *np.cumsum(steps)], abs=1e-8)


def test_features_of_a_walk_that_was_left_out_keep_what_was_noted_of_them():
    rows = [*trail("L", [(0, 0), (5, 0)], geometry="length"), *trail("T", [(9, 9)], geometry="spot")]
    sizes = {
        "width": np.array([0.6, NAN, NAN]),
        "stem_d": np.array([NAN, NAN, 0.3]),
        "depth": np.array([1.0, 2.0, NAN]),
    }
    told = rows_of_left_out([replace(walk_of(rows), sizes=sizes)], "Yard")
    assert told.lengths[0].noted == Noted(width=0.6)
    assert told.spots[0].noted == Noted(stem_d=0.3)


def test_two_hundred_thousand_rows_are_done_at_once():
    n = 200_000
    points = np.column_stack([0.1 * np.arange(n), np.zeros((n, 2))])
    walk = walk_of(trail("L", points[:, :2].tolist(), ("", *["as-walked"] * (n - 1)), geometry="length"))
    walk = replace(walk, sizes={"depth": np.linspace(1.0, 2.0, n)})
    leg = DrawnLeg(LegShape.AS_WALKED, 0, n - 1, (0,), tuple(range(1, n - 1)), (n - 1,))
    piece = Piece(points, np.zeros(n - 1), closed=False, pull=None, legs=(leg,), sides=((0,),))
    shapes = [Shape(0, np.arange(n), Kind.LENGTH, "L", "", (piece,), {})]
    positions = FakePositions([walk], plan=np.zeros((2, 2)), height=np.zeros((1, 1)))
    begun = time.perf_counter()
    told = dict(noted_along(shapes[0], positions))["depth"]
    assert len(tell_sizes(shapes, positions)) == 1
    assert time.perf_counter() - begun < 10.0
    assert (len(told), told[-1]) == (200_000, (pytest.approx(19_999.9), 2.0))


def test_a_full_circle_has_the_chainages_of_its_stations():
    points = [(5 * math.cos(math.radians(a)), 5 * math.sin(math.radians(a))) for a in (0, 90, 180, 270, 0)]
    rows, _ = measured(
        trail("L", points, ("", "curve", "curve", "curve", "curve-end"), geometry="length"),
        {"depth": [1.0, 2.0, 3.0, 4.0, 1.0]},
    )
    told = dict(rows.lengths[0].along)["depth"]
    wanted = [0.0, *(5 * math.radians(a) for a in (90, 180, 270, 360))]
    assert sorted({round(chainage, 6) for chainage, _ in told}) == pytest.approx(wanted, abs=1e-6)
