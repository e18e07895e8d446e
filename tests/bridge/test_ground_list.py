# SPDX-License-Identifier: GPL-2.0-or-later
"""Which layers of a project hold surfaces, and what is read of them."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsMeshLayer,
    QgsPointXY,
    QgsProject,
    QgsVectorLayer,
)

from plugin.bridge.geopackage import write_survey
from plugin.bridge.ground_list import (
    laid,
    may_hold,
    read_found,
    surface_layers,
    surface_source,
    surface_way,
    told_surfaces,
)
from plugin.bridge.section_surfaces import cut_surfaces
from plugin.bridge.surfaces import write_mesh, write_surface
from plugin.bridge.survey_file import METRE, Unit
from plugin.core.measure.layer.fits import FlatPlane
from plugin.core.measure.rows import SurfaceRow
from tests.made_surfaces import ground, layer_of, level
from tests.made_survey import made_survey
from tests.processing.layers import memory_layer

TRIANGLE = "Polygon Z ((0 0 1, 5 0 1, 0 5 2, 0 0 1))"
SQUARE = "Polygon Z ((0 0 1, 5 0 1, 5 5 1, 0 5 2, 0 0 1))"


@pytest.fixture
def plane(qgis_app):
    return made_survey("EPSG:25831").plane


@pytest.fixture
def table(plane, tmp_path):
    return layer_of(ground(is_weak=True), "ground", tmp_path / "g.gpkg", plane)


@pytest.fixture
def mesh(plane, tmp_path):
    path = write_mesh(level(), "level", tmp_path / "level.2dm", plane)
    layer = QgsMeshLayer(str(path), "level", "mdal")
    assert layer.isValid()
    layer.setCrs(QgsCoordinateReferenceSystem("EPSG:25831"))  # as a user does: the file names none
    return layer


def read(*layers):
    return read_found([surface_source(layer) for layer in layers])


def test_what_may_hold_a_surface(table, mesh, tmp_path):
    areas = QgsVectorLayer(
        f"{write_survey(made_survey(), tmp_path / 's.gpkg')}|layername=areas", "Areas", "ogr"
    )
    flat = memory_layer("Polygon", "EPSG:25831", ["Polygon ((0 0, 5 0, 0 5, 0 0))"])
    assert [
        may_hold(layer) for layer in (table, mesh, memory_layer("PolygonZ", "EPSG:25831", [TRIANGLE]))
    ] == [True] * 3
    others = (
        areas,
        flat,
        memory_layer("PolygonZ", "EPSG:25831", [SQUARE]),
        memory_layer("PolygonZ", "EPSG:25831", []),
    )
    assert [may_hold(layer) for layer in others] == [False] * 4
    assert not may_hold(QgsVectorLayer("nowhere.gpkg", "gone", "ogr"))


def test_the_surveys_own_table_is_one(tmp_path, qgis_app):
    corners = np.array([(0, 0, 80.0), (10, 0, 81.0), (10, 10, 81.0)])
    made = replace(made_survey(), surfaces=(SurfaceRow("own", "own.xml", corners, np.array([[0, 1, 2]])),))
    layer = QgsVectorLayer(f"{write_survey(made, tmp_path / 's.gpkg')}|layername=surfaces", "Surfaces", "ogr")
    assert may_hold(layer)
    (found,) = read(layer)
    assert found.name == "Surfaces"
    assert found.figures(METRE).startswith("3 points, 1 triangles, 50.0 m². Its layer does not say")


def test_what_a_table_says_is_told(table):
    (found,) = read(table)
    assert (found.name, found.is_alone, found.why) == ("ground", True, "")
    assert found.figures(METRE) == (
        "4 points, 2 triangles, 400.0 m². A point's height ±0.020 m (95 %). The ground between the points: not known. "
        "Weak: 50 % of its area."
    )
    assert found.figures(Unit("ft", 0.3048)).startswith(f"4 points, 2 triangles, {400 / 0.3048**2:.1f} ft².")
    assert found.middle_height == pytest.approx(84.4)


def test_a_mesh_comes_into_the_plane_of_the_first(table, mesh):
    one, other = read(table, mesh)
    assert other.plane is one.plane
    assert other.surface.points[:, :2] == pytest.approx(level().points[:, :2], abs=1e-6)
    assert math.isnan(other.surface.sigma[0])
    assert "Its layer does not say what a height is worth." in other.figures(METRE)


def test_a_layer_that_is_none_says_why_and_the_others_are_read(table):
    bad = memory_layer("PolygonZ", "EPSG:25831", [TRIANGLE, SQUARE])
    one, other = read(bad, table)
    assert one.surface is None
    assert one.figures(METRE).endswith(
        "this is no triangle. Choose a layer whose polygons have three corners each, or build a surface from it."
    )
    assert other.surface is not None


def test_a_layer_with_edits_is_read_as_it_is_edited(plane, tmp_path):
    layer = layer_of(ground(), "ground", tmp_path / "e.gpkg", plane)
    layer.startEditing()
    first = next(layer.getFeatures())
    assert layer.deleteFeature(first.id())
    (found,) = read(layer)
    assert len(found.surface.triangles) == 1
    layer.rollBack()


def test_lines_of_the_map_are_cut_where_they_lie(table, plane):
    """From x = 2 to 12 along y = 3, drawn in the layers' CRS and in the web map's: 84.56 falling by 0.02 a metre."""
    (found,) = read(table)
    line = plane.to_crs(np.array([(2.0, 3.0), (12.0, 3.0)]))
    web = QgsCoordinateReferenceSystem("EPSG:3857")
    turn = QgsCoordinateTransform(QgsCoordinateReferenceSystem("EPSG:25831"), web, QgsProject.instance())
    there = [turn.transform(QgsPointXY(*p)) for p in line.tolist()]
    for way, drawn in (
        (surface_way(found), line),
        (surface_way(found, web), np.array([(p.x(), p.y()) for p in there])),
    ):
        ((_, along, z),) = cut_surfaces([laid(found, way)], drawn, METRE).lines
        assert along[-1] == pytest.approx(10.0, abs=1e-5)
        assert z == pytest.approx(84.56 - 0.02 * along, abs=1e-5)
        assert way.to_map(way.to_plane(drawn)) == pytest.approx(drawn, abs=1e-5)


def test_a_plane_of_its_own_is_read_though_the_map_layer_has_no_crs(tmp_path, qgis_app):
    local = QgsCoordinateReferenceSystem.fromWkt('LOCAL_CS["yard",UNIT["metre",1]]')
    path = write_surface(ground(), "ground", tmp_path / "l.gpkg", FlatPlane(1.0), local)
    layer = QgsVectorLayer(str(path), "ground", "ogr")
    layer.setCrs(QgsCoordinateReferenceSystem())
    (found,) = read(layer)
    assert found.why == ""
    assert not found.map_crs.isValid()
    assert surface_way(found).to_plane(np.array([(2.0, 3.0)])).tolist() == [[2.0, 3.0]]


def test_a_stopped_reading_ends(table):
    assert read_found([surface_source(table)], lambda: True) == []


def test_the_project_tells_its_surfaces_by_name(table, mesh):
    project = QgsProject.instance()
    project.clear()
    table.setName("zinc")
    project.addMapLayers([table, mesh, memory_layer("PolygonZ", "EPSG:25831", [SQUARE])])
    assert [layer.name() for layer in surface_layers(project)] == ["level", "zinc"]
    one, other = told_surfaces(project)
    assert (other.name, other.triangles, other.weak, other.sigma) == ("zinc", 2, 1, pytest.approx(0.01))
    assert math.isnan(one.sigma)
    project.clear()
