# SPDX-License-Identifier: GPL-2.0-or-later
"""Planters and round strips: things of two closed edges, however these were drawn."""

from __future__ import annotations

import math

import pytest
from qgis.core import QgsGeometry, QgsProcessingContext, QgsProcessingFeedback, QgsProject, QgsVectorLayer

from tests.processing.layers import memory_layer, rows_of

GRID = 'LOCAL_CS["grid",UNIT["metre",1]]'
BOX = [(0, 0), (2, 0), (2, 2), (0, 2), (0, 0)]
LIMITS = "limit,applies_to,quantity,at_most,at_least,unit,per,source,seen_or_memory,note\n"


def run(provider, name, **given):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    algorithm = provider.algorithm(name).create()
    given.setdefault("OUTPUT", "memory:")
    results, good = algorithm.run(given, context, QgsProcessingFeedback(), {}, catchExceptions=False)
    assert good
    return rows_of(context.takeResultLayer(str(results["OUTPUT"])))


def planter(parts, top, lean=0.0):
    """Its foot and its top, half a metre over it."""
    edges = [(x, y, lean * x) for x, y in BOX], [(x, y, 0.5 + lean * x) for x, y in top]
    wkt = [f"LINESTRING Z({', '.join(' '.join(map(repr, p)) for p in points)})" for points in edges]
    layer = QgsVectorLayer("LineStringZ?field=feature:string&field=part:string", "planter", "memory")
    plain = memory_layer("LineStringZ", GRID, wkt)
    layer.setCrs(plain.crs())
    rows = []
    for part, row in zip(parts, plain.getFeatures()):
        row.setFields(layer.fields(), True)
        row.setAttributes(["P", part])
        rows.append(row)
    assert layer.dataProvider().addFeatures(rows)[0]
    return layer


TOPS = {
    "as the foot": BOX,
    "back": BOX[::-1],
    "from another corner": [*BOX[1:], BOX[1]],
    "back from another corner": [*BOX[2::-1], *BOX[3:1:-1]],
}


@pytest.mark.parametrize("top", TOPS.values(), ids=TOPS)
def test_a_planters_sides_are_the_same_however_its_edges_were_drawn(provider, top):
    parts = ("foot", "top")
    (face, other) = run(provider, "measure_faces", INPUT=planter(parts, top), SIGMA=0.01)
    assert face["face_m2"] == pytest.approx(4.0, abs=1e-9)
    # Each of eight corners moves the area by a quarter along either edge, and by 2 in height.
    assert face["face_m2_sigma"] == pytest.approx(0.01 * math.sqrt(8 * (2 * 0.25**2 + 2.0**2)), rel=1e-6)
    assert face["length_m"] == pytest.approx(8.0)
    assert other["method"] == "counted with P, foot (row 1)"
    wall, _ = run(
        provider, "measure_walls", INPUT=planter(parts, top, 0.2), SIGMA=0.005, COURSE=0.1, DESIGN_HEIGHT=0.6
    )
    assert (wall["height_max_m"], wall["height_min_m"]) == pytest.approx((0.5, 0.5), abs=1e-9)
    assert (wall["courses"], wall["design_ratio"]) == (5, pytest.approx(0.0, abs=1e-12))


@pytest.mark.parametrize("top", TOPS.values(), ids=TOPS)
def test_a_planters_height_is_held_against_its_limit(provider, tmp_path, top):
    table = tmp_path / "limits.csv"
    table.write_text(LIMITS + "Low,wall,height,0.55,,m,,own,seen,\n", encoding="utf-8")
    layer = planter(("foot", "top"), top, 0.2)
    (row,) = run(provider, "check_limits", WALLS=layer, LIMITS=str(table), SIGMA=0.001)
    assert (row["outcome"], row["figure_m"]) == ("pass", pytest.approx(0.5, abs=1e-9))


def test_a_closed_edge_and_an_open_one_are_refused_with_what_to_do(provider):
    words = (
        "GE-07: One of the two edges is closed and the other is open. Draw both from end to end, or end each with its own "
        "first point."
    )
    for name, figure in (("measure_faces", "face_m2"), ("measure_walls", "face_m2")):
        row, _ = run(provider, name, INPUT=planter(("foot", "top"), BOX[:-1]))
        assert (row[figure], row["finding"]) == (None, words)


def test_closed_edges_are_no_ramp(provider, tmp_path):
    table = tmp_path / "limits.csv"
    table.write_text(LIMITS + "Steep,ramp,gradient,12,,1:n,,own,seen,\n", encoding="utf-8")
    rows = run(provider, "check_limits", RAMPS=planter(("left", "right"), BOX[::-1]), LIMITS=str(table))
    assert [row["finding"] for row in rows] == [
        (
            "GE-07: An edge of the ramp is closed: it ends where it starts, and rises by nothing. Draw both from end to end "
            "of the ramp, or a line along its middle alone."
        )
    ]


def test_the_edges_of_a_strip_round_a_circle_err_by_its_width(provider):
    circle = "CIRCULARSTRING(5 0, 0 5, -5 0, 0 -5, 5 0)"
    assert QgsGeometry.fromWkt(circle).length() == pytest.approx(10 * math.pi, rel=1e-3)
    layer = memory_layer("CircularString", GRID, [circle])
    (row,) = run(provider, "measure_strips", INPUT=layer, WIDTH=1, SIDE=0, SIGMA=0, SIZE_SIGMA=0.01)
    assert (row["left_m"], row["left_m_sigma"]) == pytest.approx((8 * math.pi, 0.01 * 2 * math.pi))
    assert row["right_m_sigma"] == 0.0
