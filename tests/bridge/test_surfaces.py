# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces as layers: written and opened again to the bit, meshes, and any layer of triangles."""

from __future__ import annotations

import numpy as np
import pyproj
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsGeometry,
    QgsMesh,
    QgsMeshLayer,
    QgsVectorLayer,
)

from plugin.bridge.geometry import MapFrame
from plugin.bridge.surfaces import read_surfaces, write_mesh, write_surface
from plugin.core.errors import BadCrs, BadInput
from plugin.core.ground.build import GroundInput, build_surface
from plugin.core.ground.surface import Surface
from plugin.core.measure.layer.fits import FlatPlane
from plugin.core.plane import SurveyPlane
from tests.core.ground.nasty import levels
from tests.processing.layers import memory_layer

LOCAL = 'LOCAL_CS["yard",UNIT["metre",1]]'
PLACES = {
    "EPSG:25831": (3.1, 51.2),
    "EPSG:4326": (3.1, 51.2),
    "EPSG:3857": (-70.0, -52.0),
    "EPSG:2263": (-74.0, 40.7),
}


def made(seed=1, count=300, sigma=True):
    rng = np.random.default_rng(seed)
    xy = rng.uniform(-40.0, 40.0, (count, 2))
    built = build_surface(GroundInput(levels(np.column_stack([xy, rng.normal(20.0, 0.3, count)])))).surface
    worth = rng.uniform(0.0, 0.05, len(built.points)) if sigma else np.zeros(len(built.points))
    weak = rng.random(len(built.triangles)) < 0.1
    return Surface(built.points, built.triangles, worth, built.rough / 3.0, built.reach / 7.0, weak)


def assert_same(one, other):
    for name in ("points", "triangles", "sigma", "is_weak"):
        assert np.array_equal(getattr(one, name), getattr(other, name)), name
    assert (one.rough, one.reach) == (other.rough, other.reach)


def plane_in(crs):
    return SurveyPlane(pyproj.CRS(crs), *PLACES[crs], 20.0)


def written(tmp_path, surface, crs="EPSG:25831", name="ground"):
    path = write_surface(
        surface, name, tmp_path / f"{name}.gpkg", plane_in(crs), QgsCoordinateReferenceSystem(crs)
    )
    return QgsVectorLayer(str(path), "opened", "ogr")


@pytest.mark.parametrize("crs", sorted(PLACES))
def test_a_surface_opens_again_to_the_bit_in_every_crs(crs, tmp_path, qgis_app):
    surface = made()
    opened = read_surfaces([written(tmp_path, surface, crs)])
    assert opened.names == ("ground",)
    assert_same(opened.surfaces[0], surface)
    assert opened.crs.authid() == crs
    assert opened.plane.to_crs(surface.points[:, :2]) == pytest.approx(
        plane_in(crs).to_crs(surface.points[:, :2]), abs=0
    )


def test_what_is_not_known_of_the_ground_is_empty_and_comes_back(tmp_path, qgis_app):
    surface = made()
    bare = Surface(surface.points, surface.triangles, surface.sigma, 0.0, 0.0, surface.is_weak)
    layer = written(tmp_path, bare)
    assert {str(f["rough_m"]) for f in layer.getFeatures()} == {"NULL"}
    assert_same(read_surfaces([layer]).surfaces[0], bare)


def test_a_surface_that_is_not_placed_opens_again_too(tmp_path, qgis_app):
    crs = QgsCoordinateReferenceSystem.fromWkt(LOCAL)
    path = write_surface(made(), "ground", tmp_path / "local.gpkg", FlatPlane(1.0), crs)
    opened = read_surfaces([QgsVectorLayer(str(path), "local", "ogr")])
    assert_same(opened.surfaces[0], made())


def test_its_geometry_is_the_triangles_on_the_map_with_heights_in_the_maps_unit(tmp_path, qgis_app):
    surface, crs = made(), "EPSG:2263"
    row = next(written(tmp_path, surface, crs).getFeatures())
    drawn = np.array([(v.x(), v.y(), v.z()) for v in row.geometry().vertices()])[:3]
    wanted = MapFrame(plane_in(crs)).points(surface.corners[0])
    assert drawn == pytest.approx(wanted, abs=1e-6)
    assert drawn[:, 2] == pytest.approx(surface.corners[0, :, 2] / 0.3048006096012192, abs=1e-9)


def test_two_surfaces_of_unlike_planes_come_into_the_first_ones_plane(tmp_path, qgis_app):
    ground, other = made(1), made(2)
    first = written(tmp_path, ground)
    there = SurveyPlane(pyproj.CRS("EPSG:25831"), 3.1005, 51.2004, 20.0)
    crs = QgsCoordinateReferenceSystem("EPSG:25831")
    path = write_surface(other, "finished", tmp_path / "finished.gpkg", there, crs)
    opened = read_surfaces([first, QgsVectorLayer(str(path), "finished", "ogr")])
    assert opened.names == ("ground", "finished")
    assert_same(opened.surfaces[0], ground)
    on_map = there.to_crs(other.points[:, :2])
    assert opened.plane.to_crs(opened.surfaces[1].points[:, :2]) == pytest.approx(on_map, abs=1e-8)
    assert np.array_equal(opened.surfaces[1].sigma, other.sigma)


def test_rows_that_were_taken_out_are_no_part_of_it(tmp_path, qgis_app):
    surface = made()
    layer = written(tmp_path, surface)
    assert layer.dataProvider().deleteFeatures([f.id() for f in layer.getFeatures() if f["is_weak"] == "yes"])
    (opened,) = read_surfaces([layer]).surfaces
    assert opened.areas.sum() == pytest.approx(surface.areas[~surface.is_weak].sum(), rel=1e-12)
    assert not opened.is_weak.any()


def test_a_corner_that_was_moved_counts_where_it_is(tmp_path, qgis_app):
    layer = written(tmp_path, made())
    rows = {f.id(): f.geometry() for f in layer.getFeatures()}
    moved = {}
    for number, geometry in rows.items():
        shape = QgsGeometry(geometry)
        shape.translate(0.0, 0.0, 1.5, 0.0)
        moved[number] = shape
    assert layer.dataProvider().changeGeometryValues(moved)
    (opened,) = read_surfaces([layer], 0.02).surfaces
    assert opened.points[:, 2].mean() == pytest.approx(made().points[:, 2].mean() + 1.5, abs=1e-6)
    assert (opened.sigma == 0.02).all()


def test_a_mesh_file_opens_in_the_host_and_comes_back(tmp_path, qgis_app):
    surface, plane = made(), plane_in("EPSG:25831")
    path = write_mesh(surface, "ground", tmp_path / "ground", plane)
    assert path.name == "ground.2dm"
    layer = QgsMeshLayer(str(path), "mesh", "mdal")
    assert layer.isValid()
    mesh = QgsMesh()
    layer.dataProvider().populateMesh(mesh)
    assert (mesh.vertexCount(), mesh.faceCount()) == (len(surface.points), len(surface.triangles))
    layer.setCrs(QgsCoordinateReferenceSystem("EPSG:25831"))
    (opened,) = read_surfaces([layer], 0.03).surfaces
    assert opened.areas.sum() == pytest.approx(
        surface.areas.sum(), rel=1e-4
    )  # of another height of the plane
    both = read_surfaces([written(tmp_path, surface), layer])
    assert both.surfaces[1].corners == pytest.approx(surface.corners, abs=1e-7)


def test_any_triangles_with_heights_are_a_surface(qgis_app):
    texts = [
        "POLYGON Z((500000 5700000 1,500010 5700000 1,500000 5700010 2,500000 5700000 1))",
        "POLYGON Z((500010 5700010 2,500000 5700010 2,500010 5700000 1,500010 5700010 2))",
    ]
    opened = read_surfaces([memory_layer("PolygonZ", "EPSG:25831", texts)], 0.02)
    assert opened.names == ("layer",)
    (surface,) = opened.surfaces
    assert (len(surface.points), len(surface.triangles)) == (4, 2)
    # The grid's scale at its middle is 0.9996: the ground is so much longer, and 1.5 m above the ellipsoid is nothing.
    assert surface.areas.sum() == pytest.approx(100.0 / 0.9996**2, rel=1e-6)


def test_rows_that_share_a_name_are_a_surface(qgis_app):
    texts = [f"POLYGON Z(({x} 0 1,{x + 10} 0 1,{x} 10 2,{x} 0 1))" for x in (0, 20, 40)]
    layer = memory_layer("PolygonZ", "EPSG:25831", texts)
    rows = {f.id(): {0: name} for f, name in zip(layer.getFeatures(), ("ground", "formation", "ground"))}
    assert layer.dataProvider().changeAttributeValues(rows)
    opened = read_surfaces([layer])
    assert opened.names == ("ground", "formation")
    assert [len(surface.triangles) for surface in opened.surfaces] == [2, 1]


def test_a_multi_polygon_of_triangles_is_a_surface_of_its_own(qgis_app):
    text = "MULTIPOLYGON Z(((0 0 1,10 0 1,0 10 2,0 0 1)),((10 10 2,0 10 2,10 0 1,10 10 2)))"
    opened = read_surfaces([memory_layer("MultiPolygonZ", "EPSG:25831", [text])])
    assert opened.names == ("row 0",)
    assert len(opened.surfaces[0].triangles) == 2


@pytest.mark.parametrize(
    ("kind", "texts", "words"),
    [
        (
            "PolygonZ",
            ["POLYGON Z((0 0 1,9 0 1,9 9 1,0 9 1,0 0 1))"],
            (
                "layer, row 1: this is no triangle. Choose a layer whose polygons have three corners each, or build a "
                "surface from it."
            ),
        ),
        (
            "Polygon",
            ["POLYGON((0 0,9 0,9 9,0 0))"],
            "A triangle has a corner without a height. Choose a layer with heights (z).",
        ),
        (
            "PointZ",
            ["POINT Z(0 0 1)"],
            "layer, row 1: this is no triangle. Choose a layer whose polygons have three corners each, or build a surface from it.",
        ),
        ("PolygonZ", [], "No surface is given. Choose a layer of triangles."),
    ],
)
def test_what_is_no_surface_is_refused(kind, texts, words, qgis_app):
    with pytest.raises(BadInput) as caught:
        read_surfaces([memory_layer(kind, "EPSG:25831", texts)])
    assert str(caught.value) == words


def test_layers_that_are_placed_and_not_do_not_mix(tmp_path, qgis_app):
    local = write_surface(
        made(), "yard", tmp_path / "yard.gpkg", FlatPlane(1.0), QgsCoordinateReferenceSystem.fromWkt(LOCAL)
    )
    with pytest.raises(BadInput, match=r"^Of the layers only some have a place on the map: yard is in "):
        read_surfaces([written(tmp_path, made()), QgsVectorLayer(str(local), "yard", "ogr")])


def test_a_layer_without_a_crs_is_refused(tmp_path, qgis_app):
    layer = memory_layer("PolygonZ", "EPSG:25831", [])
    layer.setCrs(QgsCoordinateReferenceSystem())
    with pytest.raises(BadCrs, match=r"^The layer layer has no CRS"):
        read_surfaces([layer])


def test_a_file_that_cannot_be_written_is_told(tmp_path, qgis_app):
    with pytest.raises(BadInput, match=r"cannot be written: No such file or directory"):
        written(tmp_path / "nowhere", made())
