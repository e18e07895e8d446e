# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows in messages and columns are counted from 1 in what was given, whatever ids the layer's format has."""

from __future__ import annotations

import pytest
from qgis.core import (
    QgsFeature,
    QgsGeometry,
    QgsLineString,
    QgsPoint,
    QgsPolygon,
    QgsProcessingException,
    QgsVectorFileWriter,
    QgsVectorLayer,
)

from plugin.bridge.surfaces import read_surfaces
from plugin.core.errors import BadInput
from tests.processing.conftest import GROUND
from tests.processing.layers import memory_layer, rows_of
from tests.processing.test_take_off import GRID, WALL, parts_layer, plot, run, text


@pytest.fixture
def shapefile(tmp_path, qgis_app):
    """A layer as a shapefile, whose ids begin at 0."""

    def write(layer, name):
        path = str(tmp_path / f"{name}.shp")
        options = QgsVectorFileWriter.SaveVectorOptions()
        options.driverName = "ESRI Shapefile"
        told = QgsVectorFileWriter.writeAsVectorFormatV3(layer, path, layer.transformContext(), options)
        assert told[0] == QgsVectorFileWriter.WriterError.NoError, told
        written = QgsVectorLayer(path, name, "ogr")
        assert [feature.id() for feature in written.getFeatures()] == list(range(layer.featureCount()))
        return written

    return write


@pytest.mark.parametrize("algorithm", ["measure_walls", "measure_faces"])
def test_the_other_edge_is_named_with_its_row(provider, shapefile, algorithm):
    layer = shapefile(parts_layer("LineStringZ", [WALL[2], *WALL[:2]]), "walls")
    out = run(
        provider, algorithm, layer, SIGMA=0.01, **({"WIDTH": 1.0} if algorithm == "measure_faces" else {})
    )
    assert rows_of(out["OUTPUT"])[2]["method"] == "counted with W1, foot (row 2)"


def test_trees_and_works(provider, shapefile):
    x, y = 500000, 5600000
    trees = shapefile(memory_layer("Point", GRID, [f"POINT({x + 500} {y})", f"POINT({x} {y})"]), "trees")
    texts = [None, plot([(50, 50), (60, 50), (60, 60)]), plot([(-5, 2), (5, 2), (5, 9), (-5, 9)])]
    works = shapefile(memory_layer("Polygon", GRID, texts), "works")
    out = run(provider, "protect_trees", trees, STEM=0.3, WORKS=works, OVERLAPS="memory:")
    (overlap,) = rows_of(out["OVERLAPS"])
    assert (overlap["tree_row"], overlap["works_row"]) == (2, 3)
    assert "(rows 3)" in rows_of(out["OUTPUT"])[1]["finding"]


def test_arcs_and_sides(provider, shapefile):
    lines = shapefile(
        memory_layer("LineString", GRID, ["LINESTRING(500000 5600000,500010 5600000)"] * 2), "lines"
    )
    out = run(provider, "fit_arcs", lines, SIDES="memory:", TOLERANCE=0.05)
    assert [side["row"] for side in rows_of(out["SIDES"])] == [1, 2]


def test_lines_to_cut_along_without_names(provider, shapefile):
    layer = QgsVectorLayer("LineString?crs=EPSG:4326&field=size:double", "lines", "memory")
    rows = list(
        memory_layer(
            "LineString", "EPSG:4326", ["LINESTRING(3.0002 51.0003,3.0004 51.0003)"] * 2
        ).getFeatures()
    )
    for row in rows:
        row.setFields(layer.fields(), True)
    assert layer.dataProvider().addFeatures(rows)[0]
    surface = memory_layer("PolygonZ", "EPSG:4326", GROUND)
    out = run(
        provider, "cut_sections", None, SURFACES=[surface], LINES=shapefile(layer, "cut"), SECTIONS="memory:"
    )
    assert {row["section"] for row in rows_of(out["SECTIONS"])} == {"row 1", "row 2"}


def test_levels_without_heights(provider, shapefile):
    levels = shapefile(
        memory_layer("Point", GRID, ["POINT(500000 5600000)", "POINT(500005 5600000)"]), "levels"
    )
    with pytest.raises(QgsProcessingException) as told:
        run(provider, "build_surface", None, INPUT_POINTS=levels, HEIGHTS="name")
    assert str(told.value).startswith("levels, row 1: a point has no height.")


def test_what_is_no_triangle(shapefile):
    texts = [text([(0, 0, 1), (5, 0, 1), (5, 5, 1), (0, 0, 1)]).replace("LINESTRING Z(", "POLYGON Z((") + ")"]
    square = plot([(0, 0, 1), (5, 0, 1), (5, 5, 1), (0, 5, 1), (0, 0, 1)], "POLYGON Z")
    layer = shapefile(memory_layer("PolygonZ", GRID, [*texts, square]), "ground")
    with pytest.raises(BadInput) as told:
        read_surfaces([layer], 0.01)
    assert "ground, row 2: this is no triangle." in str(told.value)


@pytest.mark.parametrize(("kind", "whole"), [("PolygonZ", QgsPolygon), ("LineStringZ", None)])
def test_the_point_without_a_height_is_named(provider, kind, whole):
    """Of five points the third has none."""
    nan = float("nan")
    corners = [(0, 0, 1.0), (10, 0, 1.1), (10, 10, nan), (5, 12, 1.2), (0, 10, 1.1)]
    points = [QgsPoint(500000 + x, 5600000 + y, z) for x, y, z in corners]
    line = QgsLineString([*points, points[0]] if whole else points)
    layer = QgsVectorLayer(f"{kind}?crs={GRID}", "layer", "memory")
    feature = QgsFeature()
    feature.setGeometry(QgsGeometry(whole(line) if whole else line))
    assert layer.dataProvider().addFeatures([feature])[0]
    (row,) = rows_of(run(provider, "measure_gradients", layer)["OUTPUT"])
    assert row["finding"] == (
        "GE-07: Point 3 has no height, and the others have. Give it one (z), or choose a surface."
    )
    assert row["fall_ratio"] is None


@pytest.mark.parametrize("over", [False, True])
def test_one_fact_has_one_text(provider, over):
    """Of a row without a geometry, in measured lengths as in gradients."""
    texts = ["LINESTRING Z(3 51 1,3.0001 51 1.5)", None]
    layer = memory_layer("LineStringZ", "EPSG:4326", texts)
    more = {"SURFACE": memory_layer("PolygonZ", "EPSG:4326", GROUND)} if over else {}
    told = {
        name: rows_of(run(provider, name, layer, **(more if name == "measure_gradients" else {}))["OUTPUT"])[
            1
        ]
        for name in ("measure_lengths", "measure_gradients")
    }
    assert {row["finding"] for row in told.values()} == {
        "GE-07: There is no geometry. Draw it, or delete the row."
    }


def test_things_without_names_in_a_table_of_checks(provider, shapefile):
    layer = QgsVectorLayer(f"LineStringZ?crs={GRID}&field=size:double", "paths", "memory")
    rows = list(memory_layer("LineStringZ", GRID, [text([(0, 0, 1), (9, 0, 1.2)])] * 2).getFeatures())
    for row in rows:
        row.setFields(layer.fields(), True)
    assert layer.dataProvider().addFeatures(rows)[0]
    out = run(provider, "check_limits", None, PATHS=shapefile(layer, "paths"))
    assert {row["feature"] for row in rows_of(out["OUTPUT"])} == {"row 1", "row 2"}
