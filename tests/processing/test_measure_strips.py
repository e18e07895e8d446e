# SPDX-License-Identifier: GPL-2.0-or-later
"""Strips along lines and round areas of layers."""

from __future__ import annotations

import math

import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingException,
    QgsProperty,
    QgsVectorLayer,
    QgsWkbTypes,
)

from tests.processing.layers import memory_layer, rows_of
from tests.processing.test_limits import GRID, UTM, WEB, run
from tests.processing.test_take_off import in_crs

HOUSE = "POLYGON((0 0,10 0,10 6,0 6,0 0),(4 2,6 2,6 4,4 4,4 2))"
PART = "MULTIPOLYGON(((20 0,20 3,24 3,24 0,20 0)),((30 0,33 0,33 3,30 3,30 0)))"


def local(kind, texts):
    layer = memory_layer(kind, "", texts)
    layer.setCrs(QgsCoordinateReferenceSystem.fromWkt(GRID))
    return layer


def strips(provider, layer, **given):
    return rows_of(run(provider, "measure_strips", INPUT=layer, **given)["OUTPUT"])


@pytest.mark.parametrize(
    ("side", "wanted"),
    [
        (0, 10.6 * 6.6 - 60),
        (1, 60 - 9.4 * 5.4),
        (2, 10.3 * 6.3 - 9.7 * 5.7),
        (3, 10.6 * 6.6 - 9.4 * 5.4),
    ],
)
def test_round_an_area_it_runs_along_the_outer_edge_whichever_way_that_was_drawn(provider, side, wanted):
    backward = HOUSE.replace("0 0,10 0,10 6,0 6,0 0", "0 0,0 6,10 6,10 0,0 0")
    rows = strips(
        provider, local("Polygon", [HOUSE, backward]), WIDTH=0.3, SIDE=side, SIGMA=0.02, SIZE_SIGMA=0
    )
    assert [row["strip_m2"] for row in rows] == pytest.approx([wanted] * 2, abs=1e-9)
    assert rows[0]["strip_m2_sigma"] == pytest.approx(rows[1]["strip_m2_sigma"], rel=1e-9)
    assert (rows[0]["finding"], rows[0]["sigma_from"]) == (None, "assumed")


def test_every_part_of_an_area_has_its_strip(provider):
    (row,) = strips(provider, local("MultiPolygon", [PART]), WIDTH=0.5)
    assert row["strip_m2"] == pytest.approx(5 * 4 - 12 + 4 * 4 - 9, abs=1e-9)


def test_along_a_line_left_and_right_are_as_it_was_drawn(provider):
    layer = local("LineString", ["LINESTRING(0 0,10 0,10 5)", "LINESTRING(10 5,10 0,0 0)"])
    # To the left of the first lies the inner side of its corner: 15 less 0.4 at each of two edges' middles.
    inner, outer = 0.4 * (15 - 0.4), 0.4 * (15 + 0.4)
    left, right = (strips(provider, layer, WIDTH=0.4, SIDE=side) for side in (0, 1))
    assert [row["strip_m2"] for row in left] == pytest.approx([inner, outer], abs=1e-9)
    assert [row["strip_m2"] for row in right] == pytest.approx([outer, inner], abs=1e-9)
    assert (left[0]["left_m"], left[0]["right_m"]) == pytest.approx((14.2, 15.0), abs=1e-9)


@pytest.mark.parametrize("crs", [UTM, WEB, "EPSG:4326"])
def test_the_layers_crs_changes_no_area(provider, crs):
    text = in_crs("LINESTRING(500000 5600000,500030 5600000,500030 5600020)", crs)
    layer = memory_layer("LineString", crs, [text])
    (row,) = strips(provider, layer, WIDTH=1.0, SIDE=2)
    assert row["strip_m2"] == pytest.approx(50.0, rel=1e-3)
    # On the zone's central meridian a ground length is the grid's by 0.9996.
    assert row["strip_m2"] == pytest.approx(50 / 0.9996, rel=1e-6) or crs != UTM


def test_the_width_may_come_from_a_field_and_errs_for_the_whole_strip(provider):
    layer = local("LineString", ["LINESTRING(0 0,10 0)"] * 2)
    rows = strips(
        provider, layer, WIDTH=QgsProperty.fromExpression('"size" * 100'), SIGMA=0.02, SIZE_SIGMA=0.01
    )
    assert [row["strip_m2"] for row in rows] == pytest.approx([10.0, 20.0], abs=1e-9)
    worth = [math.hypot(w * 0.02 * math.sqrt(2), 10 * 0.01) for w in (1.0, 2.0)]
    assert [row["strip_m2_sigma"] for row in rows] == pytest.approx(worth, rel=1e-9)


def test_what_cannot_be_laid_is_told(provider):
    layer = local(
        "LineString",
        ["LINESTRING(0 0,10 0)", "LINESTRING(0 0,10 0,10 0.3,0 0.3)", "LINESTRING(0 0,10 0,10 2,0 0.5)"],
    )
    assert {row["finding"] for row in strips(provider, layer)} == {
        "GE-07: The strip is 0 m wide. Give a width above 0."
    }
    rows = strips(provider, layer, WIDTH=0.9)
    assert rows[0]["finding"] is None
    assert rows[1]["finding"] == (
        "GE-07: Edge 2, 0.300 m long, has no room for 0.900 m to its inner side: its radius or its corners are too tight. "
        "Give a smaller thickness, or draw the line along the other side."
    )
    assert rows[2]["finding"] == "The strip runs over itself: ground there counts twice."
    assert rows[2]["strip_m2"] is not None
    with pytest.raises(QgsProcessingException, match="The layer holds neither areas nor lines"):
        run(provider, "measure_strips", INPUT=local("Point", ["POINT(1 2)"]), WIDTH=1.0)


def test_along_an_area_it_lies_outside_or_inside_and_has_no_left_or_right(provider):
    words = ["outside the edge", "inside the edge", "half to each side", "to either side"]
    for side, told in enumerate(words):
        (row,) = strips(provider, local("Polygon", [HOUSE]), WIDTH=0.3, SIDE=side)
        assert row["method"] == f"0.3 m {told}, arcs exact, corners mitred"
        assert [row[f"{edge}_m{sigma}"] for edge in ("left", "right") for sigma in ("", "_sigma")] == [
            None
        ] * 4


def test_an_outline_that_crosses_itself_is_refused_as_where_areas_are_measured(provider):
    bow = local("Polygon", ["POLYGON((0 0,4 4,4 0,0 4,0 0))"])
    (row,) = strips(provider, bow, WIDTH=0.3)
    (area,) = rows_of(run(provider, "measure_areas", INPUT=bow)["OUTPUT"])
    assert row["strip_m2"] is None
    assert row["finding"] == area["finding"]
    assert row["finding"].startswith("GE-01")


def test_strips_that_meet_another_part_or_a_hole_are_told(provider):
    """Two boxes of 6 m by 4 m, 0.4 m apart; and a box of 10 m whose hole leaves 0.1 m all round."""
    two = "MULTIPOLYGON(((0 0,6 0,6 4,0 4,0 0)),((6.4 0,12.4 0,12.4 4,6.4 4,6.4 0)))"
    thin = "MULTIPOLYGON(((0 0,8 0,8 8,0 8,0 0),(0.1 0.1,7.9 0.1,7.9 7.9,0.1 7.9,0.1 0.1)))"
    over = "The strip runs over itself: ground there counts twice."
    astray = "The strip reaches into a hole or another part of the area: that ground counts too."
    layer = local("MultiPolygon", [two, thin, two.replace("6.4 0", "6.7 0").replace("6.4 4", "6.7 4")])
    outside, inside = (strips(provider, layer, WIDTH=0.3, SIDE=side) for side in (0, 1))
    assert outside[0]["strip_m2"] == pytest.approx(2 * (6.6 * 4.6 - 24), abs=1e-9)
    assert [row["finding"] for row in outside] == [over, None, None]
    assert [row["finding"] for row in inside] == [None, astray, None]


def test_a_layer_whose_first_row_is_straight_keeps_the_curves_of_the_others(provider, tmp_path):
    round_end = "CURVEPOLYGON(COMPOUNDCURVE((20 0,24 0),CIRCULARSTRING(24 0,27 3,24 6),(24 6,20 6,20 0)))"
    layer = local("Polygon", [HOUSE, round_end])
    path = str(tmp_path / "strips.gpkg")
    run(provider, "measure_strips", INPUT=layer, WIDTH=0.3, OUTPUT=path)
    told = QgsVectorLayer(path, "told", "ogr")
    assert QgsWkbTypes.flatType(told.wkbType()) == QgsWkbTypes.Type.CurvePolygon
    kinds = [QgsWkbTypes.isCurvedType(row.geometry().wkbType()) for row in told.getFeatures()]
    assert kinds[1]
    assert [row.geometry().area() for row in told.getFeatures()] == pytest.approx(
        [56.0, 24 + 4.5 * math.pi], rel=1e-3
    )
