# SPDX-License-Identifier: GPL-2.0-or-later
"""Strips along lines and round areas of layers."""

from __future__ import annotations

import math

import pytest
from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingException, QgsProperty

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
