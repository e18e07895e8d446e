# SPDX-License-Identifier: GPL-2.0-or-later
"""What runs on the ground are given, and how their layers come into the project."""

from __future__ import annotations

from dataclasses import replace

import pytest
from qgis.core import (
    QgsExpression,
    QgsExpressionContext,
    QgsFeature,
    QgsGeometry,
    QgsProject,
    QgsRuleBasedRenderer,
    QgsVectorLayer,
)
from qgis.PyQt.QtXml import QDomDocument

from plugin.bridge.contour_rows import contour_fields
from plugin.bridge.geopackage import write_survey
from plugin.bridge.ground_run import (
    OF_BUILD,
    OF_VOLUMES,
    VolumeAsk,
    add_results,
    build_parameters,
    build_titles,
    open_results,
    read_volumes,
    surface_names,
    volume_parameters,
    volume_titles,
)
from plugin.bridge.jobs import DeskJob
from plugin.bridge.layers import fields_with
from plugin.bridge.resources import style_path
from plugin.bridge.surface_table import surface_fields
from plugin.bridge.survey_file import METRE, Unit
from plugin.bridge.volumes import COLUMNS, depth_fields, line_fields
from tests.made_surfaces import ground, layer_of
from tests.made_survey import made_survey

ASK = VolumeAsk("layer_1", "Surface ground", level=84.25)


@pytest.fixture
def job(tmp_path, qgis_app):
    return DeskJob(tmp_path, write_survey(made_survey(), tmp_path / "yard.gpkg"))


@pytest.fixture
def project(qgis_app):
    project = QgsProject.instance()
    project.clear()
    yield project
    project.clear()


def test_a_survey_names_its_surfaces_ground_first(tmp_path, qgis_app):
    made = made_survey()
    areas = (replace(made.areas[0], tags=replace(made.areas[0].tags, surface="finished")), *made.areas[1:])
    path = write_survey(replace(made, areas=areas), tmp_path / "s.gpkg")
    assert surface_names(path)[0] == "ground"
    assert "finished" in surface_names(path)
    assert surface_names(tmp_path / "none.gpkg") == ("ground",)


def test_a_surface_is_built_beside_its_survey(job):
    assert build_parameters(job, "top / soil", 0.5) == {
        "SURVEY": str(job.survey),
        "NAME": "top / soil",
        "INTERVAL": 0.5,
        "OUTPUT": str(job.folder / "yard_top_soil_surface.gpkg"),
        "CONTOURS": str(job.folder / "yard_top_soil_contours.gpkg"),
    }


def test_a_surface_that_is_not_the_ground_ends_at_the_areas_of_the_survey(tmp_path, qgis_app):
    made = made_survey()
    areas = tuple(replace(row, tags=replace(row.tags, surface="finished")) for row in made.areas)
    job = DeskJob(tmp_path, write_survey(replace(made, areas=areas), tmp_path / "s.gpkg"))
    assert build_parameters(job, "finished", 0.5)["INSIDE"] is True
    assert "INSIDE" not in build_parameters(job, "formation", 0.5)
    assert "INSIDE" not in build_parameters(job, "ground", 0.5)
    assert "INSIDE" not in build_parameters(replace(job, survey=tmp_path / "none.gpkg"), "finished", 0.5)


def test_a_volume_is_asked_for_against_a_level_or_a_surface(job):
    told = volume_parameters(ASK, job)
    assert (told["SURFACE"], told["LEVEL"], "TO_SURFACE" in told, "AREAS" in told) == (
        "layer_1",
        84.25,
        False,
        False,
    )
    assert told["THICKNESS"] == str(job.folder / "yard_Surface_ground_to_84.25_depths.gpkg")
    told = volume_parameters(
        replace(ASK, to_surface="layer_2", to_name="Finished", areas="beds", is_selected=True), None
    )
    assert (told["TO_SURFACE"], "LEVEL" in told, told["OUTPUT"]) == ("layer_2", False, "memory:")
    assert told["AREAS"].source.staticValue() == "beds"
    assert told["AREAS"].selectedFeaturesOnly


def test_a_level_below_nought_has_a_file_of_its_own(job):
    one, other = (volume_parameters(replace(ASK, level=z), job)["OUTPUT"] for z in (-1.5, 1.5))
    assert one != other


def test_layers_go_into_the_group_ground_lines_on_top_and_areas_below(project, tmp_path, job):
    plane = made_survey().plane
    made = {"OUTPUT": layer_of(ground(), "g", tmp_path / "g.gpkg", plane), "CONTOURS": line("contours")}
    shown = add_results(project, made, build_titles("ground"), OF_BUILD)
    depths = {"THICKNESS": area("depths"), "ZERO_LINE": line("zero")}
    add_results(project, depths, volume_titles(ASK), OF_VOLUMES)
    group = project.layerTreeRoot().findGroup("Ground")
    assert [node.name() for node in group.findLayers()] == [
        "Zero line of Surface ground to level 84.25 m",
        "Contours of ground",
        "Depths of Surface ground to level 84.25 m",
        "Surface ground",
    ]
    assert [rule.label() for rule in shown["OUTPUT"].renderer().rootRule().children()] == [
        "Weak",
        "Triangle",
    ]


def test_a_surface_that_is_built_again_is_read_anew_and_keeps_its_style(project, tmp_path):
    plane = made_survey().plane
    first = layer_of(ground(), "g", tmp_path / "g.gpkg", plane)
    add_results(project, {"OUTPUT": first}, build_titles("ground"), OF_BUILD)
    first.renderer().rootRule().children()[0].setLabel("mine")
    again = layer_of(ground(is_weak=True), "g", tmp_path / "g.gpkg", plane)
    shown = add_results(project, {"OUTPUT": again}, build_titles("ground"), OF_BUILD)
    assert shown == {"OUTPUT": first}
    assert len(project.mapLayers()) == 1
    assert sorted(row["is_weak"] for row in first.getFeatures()) == ["no", "yes"]
    assert first.renderer().rootRule().children()[0].label() == "mine"


def test_results_in_memory_and_in_files_are_opened(tmp_path, qgis_app):
    plane = made_survey().plane
    layer_of(ground(), "g", tmp_path / "g.gpkg", plane)
    made = line("lines")
    opened = open_results(
        {"OUTPUT": str(tmp_path / "g.gpkg"), "CONTOURS": "lines_1", "MESH": "gone.gpkg"}, {"CONTOURS": made}
    )
    assert set(opened) == {"OUTPUT", "CONTOURS"}
    assert opened["CONTOURS"] is made


def volumes(*rows) -> QgsVectorLayer:
    layer = QgsVectorLayer("NoGeometry?field=name:string", "volumes", "memory")
    names = [name for name, _ in COLUMNS]
    layer.dataProvider().addAttributes(list(fields_with(layer.fields(), COLUMNS))[1:])
    layer.updateFields()
    for name, values in rows:
        feature = QgsFeature(layer.fields())
        feature.setAttributes([name, *(values.get(column) for column in names)])
        assert layer.dataProvider().addFeatures([feature])[0]
    return layer


def test_volumes_are_told_with_their_95_percent():
    """1.96 times 0.5, 0.25 and 1.0; in feet the cube of 3.2808."""
    figures = {
        "cut_m3": 12.0, "cut_m3_sigma": 0.5, "fill_m3": 3.0, "fill_m3_sigma": 0.25, "net_m3": 9.0, "net_m3_sigma": 1.0,
        "finding": "10 % of it rests on weak triangles.",
    }  # fmt: skip
    layer = volumes(("Bed", figures), (None, {"finding": "No ground of it lies there."}))
    one, other = read_volumes(layer, METRE)
    assert (one.name, one.cut, one.fill, one.net) == (
        "Bed",
        "12.00 ± 0.98 m³",
        "3.00 ± 0.49 m³",
        "9.00 ± 1.96 m³",
    )
    assert one.words == "10 % of it rests on weak triangles."
    assert (other.name, other.cut, other.words) == ("row 2", "no figure", "No ground of it lies there.")
    (feet, _) = read_volumes(layer, Unit("ft", 0.3048))
    assert feet.cut == f"{12 / 0.3048**3:.2f} ± {0.979982 / 0.3048**3:.2f} ft³"


def test_a_volume_whose_range_is_uneven_is_told_by_its_ends():
    """A fill of a wedge, and one of which none was measured; a range that is even is told as either way."""
    wedge = {"fill_m3": 2.4, "fill_m3_sigma": 1.2, "fill_low_m3": 0.61, "fill_high_m3": 5.35}
    none = {"fill_m3": 0.0, "fill_m3_sigma": 0.0, "fill_low_m3": 0.0, "fill_high_m3": 1.5}
    even = {"fill_m3": 8.0, "fill_m3_sigma": 1.0, "fill_low_m3": 6.04, "fill_high_m3": 9.96}
    told = read_volumes(volumes(("a", wedge), ("b", none), ("c", even)), METRE)
    assert [row.fill for row in told] == [
        "2.40, between 0.61 and 5.35 m³",
        "0.00, between 0.00 and 1.50 m³",
        "8.00 ± 1.96 m³",
    ]


def line(name: str) -> QgsVectorLayer:
    return QgsVectorLayer("LineStringZ?crs=EPSG:25831", name, "memory")


def area(name: str) -> QgsVectorLayer:
    return QgsVectorLayer("MultiPolygon?crs=EPSG:25831", name, "memory")


def fall_style() -> tuple[str, str]:
    """Which rows have an arrow, and its line: expressions of the style of areas."""
    layer = QgsVectorLayer("Polygon?crs=EPSG:25831", "areas", "memory")
    document = QDomDocument()
    assert document.setContent(style_path("areas").read_text(encoding="utf-8"))[0]
    assert layer.importNamedStyle(document)[0]
    renderer = layer.renderer()
    (rule,) = [rule for rule in renderer.rootRule().children() if rule.label() == "Falls this way"]
    symbol = rule.symbol()
    return rule.filterExpression(), symbol.symbolLayer(0).geometryExpression()


def area_row(wkt: str, bearing: float | None, ratio: float, sigma: float = 0.0, hole: str | None = None):
    numbers = "&".join(f"field={n}:double" for n in ("fall_bearing_deg", "fall_ratio", "fall_ratio_sigma"))
    layer = QgsVectorLayer(f"Polygon?{numbers}&field=hole_in:string&field=finding:string", "one", "memory")
    feature = QgsFeature(layer.fields())
    feature.setGeometry(QgsGeometry.fromWkt(wkt))
    feature.setAttributes([bearing, ratio, sigma, hole, None])
    scopes = QgsExpressionContext()
    scopes.setFields(layer.fields())
    scopes.setFeature(feature)
    return scopes


ROOM = "POLYGON ((0 0, 10 0, 10 10, 0 10, 0 0))"
NARROW = "POLYGON ((0 0, 20 0, 20 1, 0 1, 0 0))"


@pytest.mark.parametrize(
    ("wkt", "bearing", "ends"),
    [
        # The circle of 5 m about (5, 5): 2.5 to the right of the fall, 4 to either side.
        (ROOM, 90.0, [(1, 2.5), (9, 2.5)]),
        (ROOM, 180.0, [(2.5, 9), (2.5, 1)]),
        (ROOM, 0.0, [(7.5, 1), (7.5, 9)]),
    ],
)
def test_a_fall_is_an_arrow_to_its_low_end_within_the_area(wkt, bearing, ends, qgis_app):
    expression = QgsExpression(fall_style()[1])
    line = expression.evaluate(area_row(wkt, bearing, 0.02))
    assert [(p.x(), p.y()) for p in line.asPolyline()] == [pytest.approx(end, abs=0.3) for end in ends]


def test_a_narrow_area_has_its_arrow_beside_it(qgis_app):
    """A fifth of the root of 20 m2 to either side, three tenths below the middle at y = 0.5."""
    expression = QgsExpression(fall_style()[1])
    start, end = expression.evaluate(area_row(NARROW, 90.0, 0.02)).asPolyline()
    assert end.x() - start.x() == pytest.approx(0.4 * 20**0.5, abs=1e-9)
    assert (start.y(), end.y()) == pytest.approx([0.5 - 0.3 * 20**0.5] * 2, abs=0.1)


def test_a_fall_that_is_not_sure_or_of_a_hole_has_none(qgis_app):
    wanted = QgsExpression(fall_style()[0])
    assert wanted.evaluate(area_row(ROOM, 90.0, 0.02, 0.01)) == 1
    assert wanted.evaluate(area_row(ROOM, 90.0, 0.02, 0.011)) == 0
    assert wanted.evaluate(area_row(ROOM, None, 0.02)) == 0
    assert wanted.evaluate(area_row(ROOM, 90.0, 0.02, hole="Court")) == 0


FIELDS = {
    "triangles": surface_fields,
    "contours": contour_fields,
    "depths": depth_fields,
    "zero_line": line_fields,
}


@pytest.mark.parametrize("style", FIELDS)
def test_a_style_asks_for_columns_that_are_there(style, qgis_app):
    layer = QgsVectorLayer("PolygonZ" if style == "triangles" else "LineStringZ", style, "memory")
    if style == "depths":
        layer = area(style)
    layer.dataProvider().addAttributes(list(FIELDS[style]()))
    layer.updateFields()
    document = QDomDocument()
    assert document.setContent(style_path(style).read_text(encoding="utf-8"))[0]
    assert layer.importNamedStyle(document)[0]
    renderer = layer.renderer()
    assert isinstance(renderer, QgsRuleBasedRenderer)
    names = set(layer.fields().names())
    asked = [QgsExpression(layer.labeling().settings().fieldName)]
    asked += [QgsExpression(r.filterExpression()) for r in renderer.rootRule().children() if not r.isElse()]
    for expression in asked:
        assert not expression.hasParserError(), expression.expression()
        assert set(expression.referencedColumns()) <= names
