# SPDX-License-Identifier: GPL-2.0-or-later
"""Courses wider than their areas, and slabs thickened along some of their sides, of layers in any CRS."""

from __future__ import annotations

import math

import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProject,
    QgsWkbTypes,
)

from tests.processing.layers import memory_layer, rows_of

GRID = "EPSG:32631"
BY = 1 / 0.9996
"""Ground length by grid length on the zone's central meridian."""
X, Y = 500000, 5600000
COURT = (
    f"CURVEPOLYGON(COMPOUNDCURVE(({X} {Y + 10},{X} {Y},{X + 20} {Y},{X + 20} {Y + 10}),"
    f"CIRCULARSTRING({X + 20} {Y + 10},{X + 10} {Y + 14},{X} {Y + 10})))"
)
BOX = f"POLYGON(({X} {Y},{X + 12} {Y},{X + 12} {Y + 45},{X} {Y + 45},{X} {Y}))"
SIDES = [f"LINESTRING({X + 12} {Y},{X + 12} {Y + 45})", f"LINESTRING({X} {Y + 45},{X} {Y})"]


def run(provider, layer, **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    given = {"INPUT": layer, "OUTPUT": "memory:", "SIZE_SIGMA": 0.0, **parameters}
    results, good = (
        provider.algorithm("measure_slabs")
        .create()
        .run(given, context, QgsProcessingFeedback(), {}, catchExceptions=False)
    )
    assert good
    return rows_of(context.takeResultLayer(str(results["OUTPUT"])))


def in_degrees(text):
    """A text of the grid in degrees, curves in fine chords."""
    way = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem(GRID), QgsCoordinateReferenceSystem("EPSG:4326"), QgsProject.instance()
    )
    shape = QgsGeometry.fromWkt(text)
    if QgsWkbTypes.isCurvedType(shape.wkbType()):
        shape = QgsGeometry(shape.constGet().segmentize(0.01))
    shape.transform(way)
    return shape.asWkt(12)


def wider(extra):
    """Area of the court with straights and arc moved out, metres on the ground: they meet on the moved circle."""
    width, radius, low = 20 * BY + 2 * extra, 14.5 * BY + extra, -extra
    centre = -0.5 * BY  # the circle through (0, 10), (10, 14), (20, 10) has its centre at (10, -0.5)
    high = centre + math.sqrt(radius**2 - width**2 / 4)
    sweep = 2 * math.asin(width / 2 / radius)
    return width * (high - low) + radius**2 * (sweep - math.sin(sweep)) / 2


def test_a_course_reaches_past_the_outer_edge_on_the_ground(provider):
    (row,) = run(provider, memory_layer("CurvePolygon", GRID, [COURT]), THICKNESS=0.2, EXTRA=0.15)
    assert row["slab_m2"] == pytest.approx(wider(0.15), rel=1e-6)
    assert row["concrete_m3"] == pytest.approx(0.2 * wider(0.15), rel=1e-6)
    assert row["method"] == "plan area x 0.2 m, reaching 0.15 m past its edge"
    (plain,) = run(provider, memory_layer("CurvePolygon", GRID, [COURT]), THICKNESS=0.2)
    assert plain["slab_m2"] == pytest.approx(wider(0.0), rel=1e-6)
    assert row["slab_m2_sigma"] > plain["slab_m2_sigma"] > 0.0


def test_in_degrees_it_is_the_same(provider):
    (row,) = run(
        provider, memory_layer("Polygon", "EPSG:4326", [in_degrees(COURT)]), THICKNESS=0.2, EXTRA=0.15
    )
    assert row["slab_m2"] == pytest.approx(wider(0.15), rel=1e-4)  # the arc is chorded here, by 0.2 mm


def test_what_the_extra_is_worth_counts_along_the_moved_edge(provider):
    layer = memory_layer("Polygon", GRID, [BOX])
    (row,) = run(provider, layer, THICKNESS=0.2, EXTRA=0.5, SIGMA=0.0, SIZE_SIGMA=0.01)
    assert row["slab_m2_sigma"] == pytest.approx(0.01 * 2 * (13 + 46), rel=1e-3)


def test_an_extra_without_room_is_told_in_the_row(provider):
    u = f"POLYGON(({X} {Y},{X + 9} {Y},{X + 9} {Y + 5},{X + 5} {Y + 5},{X + 5} {Y + 1},{X + 4} {Y + 1},{X + 4} {Y + 5},{X} {Y + 5},{X} {Y}))"
    (row,) = run(provider, memory_layer("Polygon", GRID, [u]), THICKNESS=0.2, EXTRA=0.6)
    assert row["concrete_m3"] is None
    assert row["finding"].startswith("GE-07: An edge at ")
    assert row["finding"].endswith(
        "has no room for 0.600 m past the outline. Give a smaller extra, or draw the outline simpler there."
    )


@pytest.mark.parametrize("crs", [GRID, "EPSG:4326"])
def test_edges_are_thickened_along_the_sides_that_are_drawn(crs, provider):
    texts = SIDES if crs == GRID else [in_degrees(text) for text in SIDES]
    sizes = {"THICKNESS": 0.5, "EDGE_DEPTH": 0.5, "EDGE_WIDTH": 1.0}
    slab = memory_layer("Polygon", GRID, [BOX])
    (row,) = run(provider, slab, EDGES=memory_layer("LineString", crs, texts), **sizes)
    assert row["edge_m3"] == pytest.approx(45 * BY, rel=1e-5)
    assert row["concrete_m3"] == pytest.approx(0.5 * 540 * BY**2 + 45 * BY, rel=1e-5)
    assert row["form_m2"] == pytest.approx(2 * 12 * BY * 0.5 + 2 * 45 * BY, rel=1e-5)
    (whole,) = run(provider, slab, **sizes)
    assert whole["edge_m3"] == pytest.approx(0.5 * (540 * BY**2 - (12 * BY - 2) * (45 * BY - 2)), rel=1e-5)


def test_sides_of_other_slabs_thicken_none_of_this_one(provider):
    far = memory_layer(
        "LineString", GRID, [f"LINESTRING({X + 50} {Y},{X + 50} {Y + 45})", "LINESTRING EMPTY"]
    )
    (row,) = run(
        provider,
        memory_layer("Polygon", GRID, [BOX]),
        EDGES=far,
        THICKNESS=0.5,
        EDGE_DEPTH=0.5,
        EDGE_WIDTH=1.0,
    )
    assert row["edge_m3"] == 0.0
    assert row["method"] == "plan area x 0.5 m, no edge thickened"
    assert row["finding"] == (
        "No thickened side runs along the outer edge: nothing is thickened. Draw its sides along it."
    )


def test_sides_drawn_in_part_count_in_part_and_such_as_lie_off_are_told(provider):
    """9 m of a side of 12 m; and a side 5 cm off the other one."""
    sides = [f"LINESTRING({X} {Y},{X + 9} {Y})", f"LINESTRING({X - 0.05} {Y + 2},{X - 0.05} {Y + 40})"]
    sizes = {"THICKNESS": 0.5, "EDGE_DEPTH": 0.5, "EDGE_WIDTH": 1.0}
    edges, slab = memory_layer("LineString", GRID, sides), memory_layer("Polygon", GRID, [BOX])
    (row,) = run(provider, slab, EDGES=edges, **sizes)
    assert row["edge_m3"] == pytest.approx(4.5 * BY, rel=1e-5)
    assert row["finding"] == (
        "Thickened sides that lie near the outline and not along its outer edge within 20 mm: 1. What lies off it thickens "
        "nothing: move it onto the edge."
    )
    (row,) = run(provider, slab, EDGES=edges, THICKNESS=0.5)
    assert row["finding"] is None


def test_a_surface_that_does_not_say_its_sigma_is_worth_what_corners_are(provider):
    """A square of 10 m, 0.3 m over two triangles of its own corners: the mean of a plane through four corners errs by a half
    of one's sigma, that of the triangles by the root of 2/9 + 2/36."""
    corners = [(0, 0), (10, 0), (10, 10), (0, 10)]

    def ring(numbers, z):
        words = ",".join(f"{X + corners[k][0]} {Y + corners[k][1]} {z}" for k in (*numbers, numbers[0]))
        return f"POLYGON Z(({words}))"

    ground = memory_layer("PolygonZ", GRID, [ring((0, 1, 2), 9.7), ring((0, 2, 3), 9.7)])
    slab = memory_layer("PolygonZ", GRID, [ring((0, 1, 2, 3), 10.0)])
    (row,) = run(provider, slab, SURFACE=ground, SIGMA=0.02)
    assert row["thickness_mean_m"] == pytest.approx(0.3)
    assert row["thickness_mean_m_sigma"] == pytest.approx(0.02 * math.sqrt(1 / 4 + 2 / 9 + 2 / 36), rel=1e-6)
