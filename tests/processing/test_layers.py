# SPDX-License-Identifier: GPL-2.0-or-later
"""The algorithms on layers: any layer in, each row out again with its figures, and the same figures on every way."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest
from osgeo import gdal, ogr
from qgis.core import (
    QgsExpressionContextUtils,
    QgsFeature,
    QgsField,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeatureSourceDefinition,
    QgsProcessingFeedback,
    QgsProject,
    QgsProperty,
    QgsVectorLayer,
    QgsVectorLayerJoinInfo,
)

from plugin.bridge.compat import REAL_TYPE
from tests.processing.layers import memory_layer, rows_of, write_layer

ROOT = Path(__file__).parents[2]
SQUARE = "POLYGON((500000 5600000,500010 5600000,500010 5600010,500000 5600010,500000 5600000))"
BOW = "POLYGON((500000 5600000,500010 5600010,500010 5600000,500000 5600010,500000 5600000))"
CIRCLE = "CURVEPOLYGON(CIRCULARSTRING(500000 5600000,500020 5600000,500000 5600000))"
UTM = "EPSG:32631"
AREA = 100.0 / 0.9996**2
"""Ten metres of the grid squared, on its central meridian, on the ground."""
LENGTH = "LINESTRING(500000 5600000,500003 5600004)"


def run(provider, name, **parameters):
    """A run; its output as rows."""
    algorithm = provider.algorithm(name).create()
    parameters.setdefault("OUTPUT", "memory:")
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    results, good = algorithm.run(parameters, context, QgsProcessingFeedback(), {}, catchExceptions=False)
    assert good
    output = results["OUTPUT"]
    layer = context.takeResultLayer(output) or output
    return rows_of(layer), layer


def test_every_row_comes_back_in_order_with_its_columns_and_its_figures(provider):
    rows, layer = run(
        provider, "measure_areas", INPUT=memory_layer("Polygon", UTM, [SQUARE, None, BOW, SQUARE])
    )
    assert [row["name"] for row in rows] == ["row 0", "row 1", "row 2", "row 3"]
    assert layer.crs().authid() == UTM
    assert rows[0]["area_m2"] == pytest.approx(AREA, rel=1e-7)
    assert rows[0]["perimeter_m"] == pytest.approx(40 / 0.9996, rel=1e-7)
    assert rows[0]["area_m2_sigma"] == pytest.approx(0.1 * 2**0.5 * 10 / 0.9996, rel=1e-6)
    assert (rows[0]["sigma_from"], rows[0]["method"]) == ("assumed", "on the ground, straights, height 0 m")
    assert rows[0]["finding"] is None
    assert rows[1]["finding"] == "GE-07: There is no geometry. Draw it, or delete the row."
    assert rows[2]["finding"].startswith("GE-01: The outline crosses itself at (500005.000, 5600005.000)")
    for refused in rows[1:3]:
        assert [refused[k] for k in ("area_m2", "area_m2_sigma", "perimeter_m", "method", "sigma_from")] == [
            None
        ] * 5
    assert rows[3]["area_m2"] == rows[0]["area_m2"]


def test_the_run_says_what_it_has_come_to(provider, tmp_path):
    texts = [SQUARE, None, BOW, SQUARE]
    for layer in (memory_layer("Polygon", UTM, texts), str(write_layer(tmp_path / "in.gpkg", texts, UTM))):
        feedback = QgsProcessingFeedback()
        results, good = (
            provider.algorithm("measure_areas")
            .create()
            .run({"INPUT": layer, "OUTPUT": str(tmp_path / "out.gpkg")}, QgsProcessingContext(), feedback)
        )
        assert good
        assert (results["MEASURED"], results["REFUSED"]) == (2, 2)
        assert results["TOTAL"] == pytest.approx(2 * AREA, rel=1e-7)
        assert "Rows measured: 2; area_m2 200.160 in all." in feedback.textLog()
        assert "Rows without figures: 2. The column finding says why, and what to do." in feedback.textLog()


def test_a_layer_without_a_crs_is_refused_and_nothing_is_written(provider, tmp_path):
    layer = memory_layer("Polygon", "", [SQUARE])
    with pytest.raises(QgsProcessingException, match=r"^The layer layer has no CRS, .* Set the layer's CRS"):
        run(provider, "measure_areas", INPUT=layer, OUTPUT=str(tmp_path / "out.gpkg"))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("name", "texts"), [("measure_areas", [LENGTH]), ("measure_lengths", [SQUARE])])
def test_a_layer_of_another_kind_is_refused(name, texts, provider):
    kind = "LineString" if texts[0] == LENGTH else "Polygon"
    words = {
        "LineString": "The layer holds lines, and polygons are",
        "Polygon": "The layer holds polygons, and lines are",
    }
    with pytest.raises(QgsProcessingException, match=words[kind]):
        run(provider, name, INPUT=memory_layer(kind, UTM, texts))


def ways_of(tmp_path):
    """The same three outlines by every way that a layer can come."""
    texts = [SQUARE, BOW, SQUARE.replace("500010", "500020")]
    plain = write_layer(tmp_path / "plain.gpkg", texts, UTM)
    yield "a plain file", str(plain)
    yield "a layer of it", QgsVectorLayer(str(plain), "plain", "ogr")
    filtered = QgsVectorLayer(str(plain), "filtered", "ogr")
    filtered.setSubsetString("size > 0")
    yield "a filter", filtered
    yield "memory", memory_layer("Polygon", UTM, texts)
    virtual = QgsVectorLayer(str(plain), "virtual", "ogr")
    virtual.addExpressionField("1 + 1", QgsField("two", REAL_TYPE))
    yield "a virtual field", virtual
    other = memory_layer("Polygon", UTM, texts)
    joined = QgsVectorLayer(str(plain), "joined", "ogr")
    QgsProject.instance().addMapLayers([other, joined], addToLegend=False)
    join = QgsVectorLayerJoinInfo()
    join.setJoinLayer(other)
    join.setJoinFieldName("name")
    join.setTargetFieldName("name")
    assert joined.addJoin(join)
    yield "a join", joined
    edited = QgsVectorLayer(str(plain), "edited", "ogr")
    assert edited.startEditing()
    yield "an edit session", edited
    shapefile = tmp_path / "old.shp"
    del edited
    assert gdal.VectorTranslate(str(shapefile), str(plain), format="ESRI Shapefile") is not None
    yield "a shapefile", str(shapefile)


def test_every_way_in_and_out_gives_the_same_figures(provider, tmp_path):
    figures = {}
    for way, layer in ways_of(tmp_path):
        for ending in ("gpkg", "memory"):
            place = "memory:" if ending == "memory" else str(tmp_path / f"out of {way}.gpkg")
            rows, _ = run(provider, "measure_areas", INPUT=layer, OUTPUT=place)
            figures[way, ending] = [
                (row["area_m2"], row["area_m2_sigma"], row["perimeter_m"], row["finding"]) for row in rows
            ]
    expected = figures["memory", "memory"]
    assert expected[0][0] == pytest.approx(AREA, rel=1e-7)
    assert expected[1][0] is None
    for way, rows in figures.items():
        # A shapefile turns its rings the other way, which moves the last bit of a sum.
        slack = 1e-14 if "shapefile" in way[0] else 0.0
        for row, there in zip(rows, expected):
            given = [value for value in there[:3] if value is not None]
            assert [value for value in row[:3] if value is not None] == pytest.approx(
                given, rel=slack, abs=0
            ), way
            assert (row[3] is None) == (there[3] is None), way
    QgsProject.instance().removeAllMapLayers()


def test_only_the_selected_rows_are_measured_where_that_is_asked(provider):
    layer = memory_layer("Polygon", UTM, [SQUARE, SQUARE, SQUARE])
    QgsProject.instance().addMapLayer(layer, addToLegend=False)
    layer.selectByIds([2])
    rows, _ = run(provider, "measure_areas", INPUT=QgsProcessingFeatureSourceDefinition(layer.id(), True))
    assert [row["name"] for row in rows] == ["row 1"]
    QgsProject.instance().removeAllMapLayers()


def test_edits_that_are_not_saved_are_measured(provider, tmp_path):
    path = write_layer(tmp_path / "plain.gpkg", [SQUARE], UTM)
    layer = QgsVectorLayer(str(path), "edited", "ogr")
    assert layer.startEditing()
    feature = QgsFeature(layer.fields())
    feature.setGeometry(QgsGeometry.fromWkt(SQUARE.replace("500010", "500030")))
    assert layer.addFeature(feature)
    rows, _ = run(provider, "measure_areas", INPUT=layer, OUTPUT=str(tmp_path / "out.gpkg"))
    assert sorted(row["area_m2"] for row in rows) == pytest.approx([AREA, 3 * AREA], rel=1e-7)
    assert sorted(row["fid"] for row in rows) == [1, 2]
    layer.rollBack()


def test_a_corners_sigma_may_come_from_a_field_or_an_expression(provider):
    layer = memory_layer("Polygon", UTM, [SQUARE, SQUARE])
    for sigma, factor in ((QgsProperty.fromField("size"), 1), (QgsProperty.fromExpression('"size" * 2'), 2)):
        rows, _ = run(provider, "measure_areas", INPUT=layer, SIGMA=sigma)
        expected = [factor * s * 2**0.5 * 10 / 0.9996 for s in (0.01, 0.02)]
        assert [row["area_m2_sigma"] for row in rows] == pytest.approx(expected, rel=1e-6)


def test_how_sharply_an_edge_can_be_told_has_a_column_of_its_own(provider):
    rows, _ = run(provider, "measure_areas", INPUT=memory_layer("Polygon", UTM, [SQUARE]), EDGE_SIGMA=0.03)
    assert rows[0]["area_m2_edge_sigma"] == pytest.approx(0.03 * 40 / 0.9996, rel=1e-6)
    rows, _ = run(provider, "measure_areas", INPUT=memory_layer("Polygon", UTM, [SQUARE]))
    assert "area_m2_edge_sigma" not in rows[0]


def test_columns_that_are_there_already_stay_and_ours_get_a_number(provider, tmp_path):
    rows, _ = run(
        provider,
        "measure_areas",
        INPUT=memory_layer("Polygon", UTM, [SQUARE]),
        OUTPUT=str(tmp_path / "a.gpkg"),
    )
    again, _ = run(provider, "measure_areas", INPUT=str(tmp_path / "a.gpkg"), OUTPUT=str(tmp_path / "b.gpkg"))
    assert again[0]["area_m2"] == again[0]["area_m2_2"] == rows[0]["area_m2"]


@pytest.mark.parametrize("crs", ["EPSG:4326", "EPSG:3857", "EPSG:2263", "EPSG:27700"])
def test_the_grounds_area_is_the_same_from_degrees_feet_and_web_mercator(crs, provider):
    from qgis.core import QgsCoordinateReferenceSystem, QgsCoordinateTransform

    home = {"EPSG:2263": ("EPSG:32618", (583000, 4507000)), "EPSG:27700": ("EPSG:27700", (530000, 180000))}
    start, (x, y) = home.get(crs, (UTM, (500000, 5600000)))
    text = f"POLYGON(({x} {y},{x + 20} {y},{x + 20} {y + 10},{x} {y}))"
    there = QgsGeometry.fromWkt(text)
    way = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem(start), QgsCoordinateReferenceSystem(crs), QgsProject.instance()
    )
    there.transform(way)
    near, _ = run(provider, "measure_areas", INPUT=memory_layer("Polygon", start, [text]))
    far, _ = run(provider, "measure_areas", INPUT=memory_layer("Polygon", crs, [there.asWkt(15)]))
    # NAD83 and WGS 84 are taken for one here, and their ellipsoids differ by 0.1 mm.
    assert far[0]["area_m2"] == pytest.approx(near[0]["area_m2"], rel=1e-7)


def test_curves_are_measured_exactly_and_written_as_curves(provider, tmp_path):
    path = write_layer(tmp_path / "curves.gpkg", [CIRCLE], UTM)
    rows, layer = run(provider, "measure_areas", INPUT=str(path), OUTPUT=str(tmp_path / "out.gpkg"))
    assert rows[0]["area_m2"] == pytest.approx(314.1592653589793 / 0.9996**2, rel=1e-7)
    assert "exact arcs" in rows[0]["method"]
    geometry = next(QgsVectorLayer(layer, "x", "ogr").getFeatures()).geometry()
    assert "CIRCULARSTRING" in geometry.asWkt().upper()


@pytest.mark.parametrize("ending", ["shp", "geojson"])
def test_a_format_without_curves_gets_chords_and_the_figures_of_the_arcs(ending, provider, tmp_path):
    path = write_layer(tmp_path / "curves.gpkg", [CIRCLE], UTM)
    place = tmp_path / f"out.{ending}"
    _, layer = run(provider, "measure_areas", INPUT=str(path), OUTPUT=str(place))
    written = QgsVectorLayer(layer, "x", "ogr")
    assert written.featureCount() == 1
    feature = next(written.getFeatures())
    assert feature.geometry().area() > 0
    assert feature.attribute("area_m2") == pytest.approx(314.1592653589793 / 0.9996**2, rel=1e-7)


def test_a_failed_run_leaves_an_older_output_as_it_was(provider, tmp_path):
    place = tmp_path / "out.gpkg"
    run(provider, "measure_areas", INPUT=memory_layer("Polygon", UTM, [SQUARE]), OUTPUT=str(place))
    before = place.read_bytes()
    with pytest.raises(QgsProcessingException, match="has no CRS"):
        run(provider, "measure_areas", INPUT=memory_layer("Polygon", "", [SQUARE]), OUTPUT=str(place))
    cancelled = QgsProcessingFeedback()
    cancelled.cancel()
    for layer in (
        memory_layer("Polygon", UTM, [SQUARE]),
        str(write_layer(tmp_path / "in.gpkg", [SQUARE], UTM)),
    ):
        with pytest.raises(QgsProcessingException, match="Cancelled; nothing was written."):
            provider.algorithm("measure_areas").create().run(
                {"INPUT": layer, "OUTPUT": str(place)},
                QgsProcessingContext(),
                cancelled,
                {},
                catchExceptions=False,
            )
    assert place.read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["in.gpkg", "out.gpkg"]


def test_a_finished_run_replaces_an_older_output(provider, tmp_path):
    place = str(tmp_path / "out.gpkg")
    run(provider, "measure_areas", INPUT=memory_layer("Polygon", UTM, [SQUARE, SQUARE]), OUTPUT=place)
    rows, _ = run(provider, "measure_areas", INPUT=memory_layer("Polygon", UTM, [SQUARE]), OUTPUT=place)
    assert len(rows) == 1
    assert [p.name for p in tmp_path.iterdir()] == ["out.gpkg"]


@pytest.mark.parametrize(
    ("name", "kind", "text"),
    [("measure_areas", "Polygon", SQUARE), ("measure_lengths", "LineString", LENGTH)],
)
def test_no_rows_and_one_row_are_run(name, kind, text, provider, tmp_path):
    for texts in ([], [text]):
        rows, _ = run(provider, name, INPUT=memory_layer(kind, UTM, texts), OUTPUT=str(tmp_path / "o.gpkg"))
        assert len(rows) == len(texts)
    empty = write_layer(
        tmp_path / "empty.gpkg", [], UTM, ogr.wkbPolygon if kind == "Polygon" else ogr.wkbLineString
    )
    rows, _ = run(provider, name, INPUT=str(empty), OUTPUT=str(tmp_path / "o.gpkg"))
    assert rows == []


def test_heights_of_a_line_layer_give_rise_and_gradient(provider):
    layer = memory_layer(
        "LineStringZ",
        UTM,
        [
            "LINESTRING Z(500000 5600000 1,500003 5600004 2)",
            "LINESTRING Z(500000 5600000 0,500003 5600004 0)",
        ],
    )
    rows, _ = run(provider, "measure_lengths", INPUT=layer)
    assert rows[0]["rise_m"] == pytest.approx(1.0)
    assert rows[0]["gradient_ratio"] == pytest.approx(1 / 5.002, rel=1e-4)
    assert rows[1]["rise_m"] is None
    flat, _ = run(provider, "measure_lengths", INPUT=memory_layer("LineString", UTM, [LENGTH]))
    assert flat[0]["length_m"] == pytest.approx(5 / 0.9996, rel=1e-7)
    assert "rise_m" not in flat[0]


def test_the_plain_file_keeps_its_index_styles_and_ids(provider, tmp_path):
    path = write_layer(tmp_path / "plots.gpkg", [SQUARE, BOW, SQUARE], UTM)
    layer = QgsVectorLayer(str(path), "plots", "ogr")
    layer.dataProvider().deleteFeatures([2])
    layer.saveStyleToDatabase("mine", "", True, "")
    del layer
    rows, place = run(provider, "measure_areas", INPUT=str(path), OUTPUT=str(tmp_path / "measured.gpkg"))
    assert [row["fid"] for row in rows] == [1, 3]
    written = QgsVectorLayer(place, "measured", "ogr")
    assert written.dataProvider().subLayers()[0].split("!!::!!")[1] == "measured"
    assert written.hasSpatialIndex()
    assert written.listStylesInDatabase()[2] == ["mine"]
    written.selectByExpression("area_m2 > 50")
    assert written.selectedFeatureCount() == 2


def test_rows_that_are_measured_without_a_window_are_the_same(provider, tmp_path):
    path = write_layer(tmp_path / "plots.gpkg", [SQUARE, BOW], UTM)
    done = subprocess.run(
        [
            str(ROOT / "scripts" / "run"),
            "measure_areas",
            f"INPUT={path}",
            "SIGMA=0.02",
            f"OUTPUT={tmp_path / 'cli.gpkg'}",
        ],
        check=False,
        capture_output=True,
        text=True,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
    )
    assert done.returncode == 0, done.stderr
    here, _ = run(provider, "measure_areas", INPUT=str(path), SIGMA=0.02, OUTPUT=str(tmp_path / "here.gpkg"))
    for there, row in zip(rows_of(str(tmp_path / "cli.gpkg")), here):
        assert list(there) == list(row)
        for name, value in there.items():
            # Two processes may add in another order, which moves the last bits of the projection's polynomials.
            assert value == (pytest.approx(row[name], rel=1e-11) if isinstance(value, float) else row[name])


def test_a_model_and_a_batch_give_the_same(provider, tmp_path):
    from qgis.core import (
        QgsProcessingModelAlgorithm,
        QgsProcessingModelChildAlgorithm,
        QgsProcessingModelChildParameterSource,
        QgsProcessingModelOutput,
        QgsProcessingModelParameter,
        QgsProcessingParameterFeatureSource,
    )

    model = QgsProcessingModelAlgorithm("m")
    model.addModelParameter(
        QgsProcessingParameterFeatureSource("LAYER", "Layer"), QgsProcessingModelParameter("LAYER")
    )
    child = QgsProcessingModelChildAlgorithm("groundtally:measure_areas")
    child.setChildId("measure")
    child.addParameterSources("INPUT", [QgsProcessingModelChildParameterSource.fromModelParameter("LAYER")])
    child.addParameterSources("SIGMA", [QgsProcessingModelChildParameterSource.fromStaticValue(0.05)])
    out = QgsProcessingModelOutput("measured", "measured")
    out.setChildId("measure")
    out.setChildOutputName("OUTPUT")
    child.setModelOutputs({"measured": out})
    model.addChildAlgorithm(child)
    layer = memory_layer("Polygon", UTM, [SQUARE, BOW])
    QgsProject.instance().addMapLayer(layer, addToLegend=False)
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    results, good = model.run(
        {
            "LAYER": layer.id(),
            "measure:measured": str(tmp_path / "m.gpkg"),
            "measured": str(tmp_path / "m.gpkg"),
        },
        context,
        QgsProcessingFeedback(),
    )
    assert good
    direct, _ = run(provider, "measure_areas", INPUT=layer, SIGMA=0.05)
    # The host's releases name the output of a model in other ways.
    modelled = rows_of(next(place for name, place in results.items() if name.endswith("measured")))
    assert [row["area_m2"] for row in modelled] == [row["area_m2"] for row in direct]
    assert [row["area_m2_sigma"] for row in modelled] == [row["area_m2_sigma"] for row in direct]
    QgsProject.instance().removeAllMapLayers()
