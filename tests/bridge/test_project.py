# SPDX-License-Identifier: GPL-2.0-or-later
"""The project beside a survey: groups, styles, the picture underneath, and that it can be moved."""

from __future__ import annotations

import json
import re
import shutil
import zipfile
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from osgeo import gdal, osr
from qgis.core import (
    QgsExpression,
    QgsExpressionContext,
    QgsExpressionContextUtils,
    QgsProject,
    QgsVectorLayer,
)

from plugin.bridge.geopackage import write_survey
from plugin.bridge.project import GROUPS, fill_project, survey_picture, write_project
from plugin.bridge.resources import RESOURCES
from plugin.core.errors import BadInput
from tests.made_survey import made_survey

if TYPE_CHECKING:
    from pathlib import Path

STYLES = sorted((RESOURCES / "styles").glob("*.qml"))


@pytest.fixture
def picture(tmp_path):
    """A grey picture of 60 x 40 m with its place in it."""
    folder = tmp_path / "job"
    folder.mkdir()
    path = folder / "photo.tif"
    dataset = gdal.GetDriverByName("GTiff").Create(str(path), 60, 40, 1)
    dataset.SetGeoTransform((512460.0, 1.0, 0.0, 5712150.0, 0.0, -1.0))
    srs = osr.SpatialReference()
    srs.ImportFromEPSG(25831)
    dataset.SetProjection(srs.ExportToWkt())
    dataset.GetRasterBand(1).WriteArray(np.full((40, 60), 128, dtype=np.uint8))
    dataset = None
    return path


@pytest.fixture
def made(picture, qgis_app):
    """A survey with its project."""
    path = write_survey(made_survey(), picture.parent / "site.gpkg", picture=picture)
    return write_project(path)


def opened(path: Path) -> QgsProject:
    project = QgsProject()
    assert project.read(str(path))
    return project


def test_the_groups_stand_in_their_order_with_the_picture_below_all(made):
    project = opened(made)
    assert [child.name() for child in project.layerTreeRoot().children()] == [*GROUPS, "Picture"]


def test_layers_are_styled_and_valid_and_the_crs_is_the_surveys(made):
    project = opened(made)
    assert project.crs().authid() == "EPSG:25831"
    layers = {layer.name(): layer for layer in project.mapLayers().values()}
    assert all(layer.isValid() for layer in layers.values())
    assert layers["Areas"].renderer().type() == "RuleRenderer"
    assert layers["Areas"].labelsEnabled()
    assert project.viewSettings().defaultViewExtent().contains(layers["Areas"].extent())


def test_the_attribute_table_shows_figures_and_no_texts_for_programs(made):
    project = opened(made)
    layers = [layer for layer in project.mapLayers().values() if isinstance(layer, QgsVectorLayer)]
    hidden = {
        layer.name(): {c.name for c in layer.attributeTableConfig().columns() if c.hidden and c.name}
        for layer in layers
    }
    assert hidden["Areas"] == {"shape", "point_errors"}
    assert hidden["Lengths"] == {"shape", "point_errors", "sizes_along"}
    assert hidden["Stations"] == {"shape", "z_shared"}
    assert hidden["Marks"] == {"shape"}


def test_a_finding_stands_on_the_map_where_it_was_noticed(made):
    project = opened(made)
    layer = project.mapLayersByName("Findings on the map")[0]
    (finding,) = layer.getFeatures()
    point = finding.geometry().asPoint()
    survey = made_survey()
    place = tuple(survey.plane.to_crs(np.array([[14.0, -1.0]]))[0])
    assert (point.x(), point.y()) == pytest.approx(place, abs=1e-6)
    assert finding["code"] == "GE-01"


@pytest.mark.parametrize(
    ("crs", "area", "side"),
    [
        ("EPSG:25831", "Court\n253.56 ± 1.59 m²", "20.00"),
        # 253.562932 m2 and 20 m by US survey feet of 1200/3937 m (international feet would give 2,729.33).
        ("EPSG:2264", "Court\n2,729.32 ± 17.09 US ft²", "65.62"),
        (None, "Court\n253.56 ± 1.59 m²", "20.00"),
    ],
)
def test_labels_show_the_projects_unit_and_the_95_percent_figure(crs, area, side, tmp_path, qgis_app):
    project = opened(write_project(write_survey(made_survey(crs), tmp_path / "site.gpkg")))
    for title, wanted in (("Areas", area), ("Sides", side)):
        layer = project.mapLayersByName(title)[0]
        scopes = QgsExpressionContext()  # it owns what is appended, not what a list of Python's holds
        scopes.appendScope(QgsExpressionContextUtils.projectScope(project))
        scopes.appendScope(QgsExpressionContextUtils.layerScope(layer))
        feature = next(layer.getFeatures())
        scopes.setFeature(feature)
        labels = layer.labeling()
        expression = QgsExpression(labels.settings(labels.subProviders()[0]).fieldName)
        assert expression.evaluate(scopes) == wanted, expression.evalErrorString()


def test_the_us_survey_foot_is_not_taken_for_the_international_one(tmp_path, qgis_app):
    project = opened(write_project(write_survey(made_survey("EPSG:2264"), tmp_path / "site.gpkg")))
    assert float(project.customVariables()["survey_unit_m"]) == pytest.approx(1200 / 3937, abs=1e-15)


def test_the_project_opens_after_the_folder_was_moved(made, tmp_path):
    shutil.move(str(made.parent), str(tmp_path / "elsewhere"))
    project = opened(tmp_path / "elsewhere" / made.name)
    sources = {layer.name(): layer for layer in project.mapLayers().values()}
    assert all(layer.isValid() for layer in sources.values())
    assert sources["Areas"].featureCount() == 5
    assert "elsewhere" in sources["Picture"].source()


def test_no_path_of_this_machine_stands_in_the_project(made, tmp_path):
    with zipfile.ZipFile(made) as archive:
        text = archive.read(next(n for n in archive.namelist() if n.endswith(".qgs"))).decode("utf-8")
    sources = re.findall(r"<datasource>([^<]+)</datasource>", text)
    assert len(sources) == 13
    assert [source for source in sources if not source.startswith(("./", "?layer=ogr:.%2Fsite.gpkg"))] == []
    assert str(tmp_path) not in text


def test_the_project_can_be_made_again_from_the_geopackage_alone(made):
    made.unlink()
    again = write_project(made.with_suffix(".gpkg"))
    assert again == made
    assert len(opened(again).mapLayers()) == 13
    assert sorted(p.name for p in made.parent.iterdir() if p.suffix != ".xml") == [
        "photo.tif",
        "site.gpkg",
        "site.qgz",
    ]


def test_a_picture_that_has_gone_is_left_out(made, picture):
    picture.unlink()
    assert survey_picture(made.with_suffix(".gpkg")) is None
    assert len(opened(write_project(made.with_suffix(".gpkg"))).mapLayers()) == 12


def test_a_picture_in_a_folder_elsewhere_is_shown_and_its_way_is_not_in_the_survey(
    picture, qgis_app, tmp_path
):
    far = tmp_path / "somebody" / "photo.tif"
    far.parent.mkdir()
    shutil.move(str(picture), str(far))
    path = write_survey(made_survey(), tmp_path / "out" / "site.gpkg", picture=far)
    assert survey_picture(path) is None
    project = opened(write_project(path, picture=far))
    (layer,) = (layer for layer in project.mapLayers().values() if layer.name() == "Picture")
    assert layer.source() == str(far)
    assert b"somebody" not in path.read_bytes()
    # Once the project is there, it tells where the picture lies, and can be made again.
    assert survey_picture(path) == far
    assert len(opened(write_project(path)).mapLayers()) == 13
    far.unlink()
    assert survey_picture(path) is None


def test_a_survey_joins_an_open_project_without_changing_its_crs(made):
    project = QgsProject()
    project.addMapLayer(QgsVectorLayer("Point?crs=EPSG:4326", "there before", "memory"))
    before = project.crs()
    fill_project(project, made.with_suffix(".gpkg"))
    fill_project(project, made.with_suffix(".gpkg"))
    assert project.crs() == before
    assert [g.name() for g in project.layerTreeRoot().findGroups()] == list(GROUPS)


def test_a_file_that_is_no_survey_is_told(tmp_path, qgis_app):
    (tmp_path / "other.gpkg").write_text("no database")
    with pytest.raises(
        BadInput, match="holds no table marks. Give a GeoPackage that Survey walks has written"
    ):
        write_project(tmp_path / "other.gpkg")
    assert [p.name for p in tmp_path.iterdir()] == ["other.gpkg"]


def test_a_survey_in_no_place_has_a_project_too(tmp_path, qgis_app):
    project = opened(write_project(write_survey(made_survey(None), tmp_path / "site.gpkg")))
    assert all(layer.isValid() for layer in project.mapLayers().values())


@pytest.mark.parametrize("path", STYLES, ids=lambda p: p.stem)
def test_styles_use_the_palette_alone(path):
    palette = json.loads((RESOURCES / "palette.json").read_text(encoding="utf-8"))["colours"].values()
    allowed = {tuple(int(shade[i : i + 2], 16) for i in (1, 3, 5)) for shade in palette}
    shown = re.findall(r'(?:color|Color)"[^>]*value="(\d+),(\d+),(\d+),', path.read_text(encoding="utf-8"))
    assert shown
    # The host writes greys of its own for parts that are switched off (callouts, shadows, old-style fill lines).
    assert {c for c in (tuple(map(int, s)) for s in shown) if len(set(c)) > 1} <= allowed


# Not every survey has surfaces: their style is loaded where one is written (test_geopackage.py). Those of built surfaces
# and of volumes are of other files (test_ground_run.py), those of what the toolbox loads of runs' layers (test_styled.py).
OF_TOOLBOX = {
    "ponds",
    "spills",
    "water_ways",
    "sections",
    "gradient_areas",
    "gradient_lines",
    "protection_circles",
    "overlaps",
    "changed",
}
OF_OTHERS = {"surfaces", "triangles", "contours", "depths", "zero_line", *OF_TOOLBOX}


@pytest.mark.parametrize("path", [p for p in STYLES if p.stem not in OF_OTHERS], ids=lambda p: p.stem)
def test_a_style_loads_on_its_layer(path, made):
    title = "Findings on the map" if path.stem == "finding_places" else path.stem.capitalize()
    project = opened(made)
    layer = project.mapLayersByName(title)[0]
    message, was_loaded = layer.loadNamedStyle(str(path))
    assert was_loaded, message
    labels = layer.labeling()
    kinds = labels.subProviders()
    assert kinds
    for kind in kinds:
        expression = QgsExpression(labels.settings(kind).fieldName)
        assert not expression.hasParserError()
        assert set(expression.referencedColumns()) <= set(layer.fields().names())


def test_the_first_view_shows_every_mark_and_feature_with_room_for_its_label(made):
    project = opened(made)
    view = project.viewSettings().defaultViewExtent()
    shown = [
        layer for layer in project.mapLayers().values() if layer.isSpatial() and layer.name() != "Picture"
    ]
    assert len(shown) == 8
    for layer in shown:
        extent = layer.extent()
        extent.grow(0.05 * view.height())
        assert view.contains(extent), layer.name()


@pytest.mark.parametrize("is_shared", [True, False])
def test_the_legend_names_shared_sides_only_where_there_are_some(is_shared, tmp_path, qgis_app):
    survey = made_survey()
    shared = replace(survey.sides[0], other="Bed 1")
    survey = replace(survey, sides=(shared, *survey.sides[1:]) if is_shared else survey.sides)
    path = write_survey(survey, tmp_path / "site.gpkg")
    project = opened(write_project(path))
    (sides,) = project.mapLayersByName("Sides")
    labels = [rule.label() for rule in sides.renderer().rootRule().children()]
    assert ("Shared with a neighbour" in labels) == is_shared
    assert "Curved side" in labels
    kept = QgsVectorLayer(f"{path}|layername=sides", "kept", "ogr")
    kept.loadDefaultStyle()
    assert "Shared with a neighbour" in [rule.label() for rule in kept.renderer().rootRule().children()]


@pytest.mark.parametrize("name", ["site.qgz", "site.tmp.qgz"])
def test_a_folder_in_the_projects_way_is_told_and_left_alone(name, tmp_path, qgis_app):
    path = write_survey(made_survey(), tmp_path / "site.gpkg")
    (tmp_path / name / "inside").mkdir(parents=True)
    with pytest.raises(BadInput, match=r"site\.qgz cannot be written: .+\. Choose another folder or name\."):
        write_project(path)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["site.gpkg", name]


@pytest.mark.parametrize("path", STYLES, ids=lambda p: p.stem)
def test_a_style_asks_for_no_other_row_than_its_own(path):
    """An aggregate looks its layer up in the thread that draws: the host ended when the layer was just taken away."""
    expressions = re.findall(
        r"\b(aggregate|relation_aggregate|minimum|maximum|sum|mean|median|count|array_agg|concatenate|get_feature\w*"
        r"|layer_property|overlay_\w+)\s*\(",
        path.read_text(encoding="utf-8"),
    )
    assert expressions == []
