# SPDX-License-Identifier: GPL-2.0-or-later
"""Volumes of layers: any CRS, areas with voids and arcs, what is refused and what is left out."""

from __future__ import annotations

import numpy as np
import pyproj
import pytest
from qgis.core import (
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeatureSourceDefinition,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
)

from tests.made_surfaces import ground, layer_of
from tests.made_survey import made_survey
from tests.processing.layers import memory_layer, rows_of, write_layer

GRID, WEB, UTM = 'LOCAL_CS["grid",UNIT["metre",1]]', "EPSG:3857", "EPSG:25831"
EAST, NORTH = 512_000.0, 5_700_000.0


def triangles(corners, split=((0, 1, 2), (0, 2, 3))):
    """Polygons of three corners with heights."""
    return [
        "POLYGON Z((" + ",".join(" ".join(repr(float(v)) for v in corners[k]) for k in (*t, t[0])) + "))"
        for t in split
    ]


def slab(level, low=0.0, high=20.0, slope=0.0):
    """A square of two triangles about a place in UTM, rising east."""
    corners = [(low, low), (high, low), (high, high), (low, high)]
    return triangles([(EAST + x, NORTH + y, level + slope * x) for x, y in corners])


def surface_layer(folder, name, texts, crs=UTM):
    """A file of triangles that are one surface: without a column that names rows."""
    path = write_layer(folder / f"{name}.gpkg", texts, crs)
    layer = QgsVectorLayer(str(path), name, "ogr")
    layer.dataProvider().deleteAttributes([layer.fields().lookupField("name")])
    return str(path)


def run(provider, folder, given):
    algorithm = provider.algorithm("measure_volumes").create()
    told = QgsProcessingFeedback()
    places = {"OUTPUT": str(folder / "out.gpkg")}
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    results, good = algorithm.run({**places, **given}, context, told, {}, catchExceptions=False)
    assert good
    return results


def ring(low, high):
    return f"({EAST + low} {NORTH + low},{EAST + high} {NORTH + low},{EAST + high} {NORTH + high},{EAST + low} {NORTH + high},{EAST + low} {NORTH + low})"


def scale_there():
    """Ground by grid length about the place."""
    lon, lat = pyproj.Transformer.from_crs(UTM, "EPSG:4258", always_xy=True).transform(EAST + 10, NORTH + 10)
    return 1.0 / pyproj.Proj(UTM).get_factors(lon, lat).meridional_scale


def test_to_a_level_it_is_the_grounds_volume_and_not_the_grids(provider, tmp_path):
    surface = surface_layer(tmp_path, "ground", slab(1.0))
    (row,) = rows_of(
        run(provider, tmp_path, {"SURFACE": surface, "LEVEL": 0.5, "SIGMA": 0.02, "HEIGHT": 0.0})["OUTPUT"]
    )
    area = 400 * scale_there() ** 2
    assert row["area_m2"] == pytest.approx(area, rel=1e-8)
    assert abs(row["area_m2"] - 400) > 0.2
    assert (row["cut_m3"], row["fill_m3"]) == (pytest.approx(0.5 * area, rel=1e-8), 0.0)
    # Two corners bear a third of the square each, two a sixth.
    assert row["cut_m3_sigma"] == pytest.approx(0.02 * area * np.sqrt(2 / 9 + 2 / 36), rel=1e-6)
    assert row["method"] == "exact over the triangles, ground to level 0.5 m"
    assert row["sigma_from"] == "assumed"
    assert row["finding"] is None


def test_what_lies_beside_the_surface_is_told_where_it_is_anything(provider, tmp_path):
    """Of the first square three quarters lie beside, of the second 20 square centimetres, of the third all."""
    surface = surface_layer(tmp_path, "ground", slab(1.0))
    areas = memory_layer(
        "Polygon",
        UTM,
        [f"POLYGON({ring(15, 25)})", f"POLYGON({ring(10, 20.0001)})", f"POLYGON({ring(50, 60)})"],
    )
    rows = rows_of(
        run(provider, tmp_path, {"SURFACE": surface, "LEVEL": 0.5, "AREAS": areas, "HEIGHT": 0.0})["OUTPUT"]
    )
    by = scale_there() ** 2
    assert rows[0]["finding"] == (
        f"{75 * by:.2f} m2 of it do not lie on the surface and are left out. Extend the surface, or accept it."
    )
    assert rows[1]["left_out_m2"] == pytest.approx(0.002 * by, rel=1e-4)
    assert rows[1]["finding"] is None
    assert rows[2]["finding"] == "No ground of it lies on the surface. Move it, or extend the surface."


class Said(QgsProcessingFeedback):
    """What a run says and warns of."""

    def __init__(self):
        super().__init__()
        self.said, self.warned = [], []

    def pushInfo(self, text):
        self.said.append(text)

    def pushWarning(self, text):
        self.warned.append(text)


def test_a_level_far_beyond_the_surface_and_the_sums_are_told(provider, tmp_path):
    """A level of 840 m for 84 m: nobody digs a hundred metres above a garden."""
    surface = surface_layer(tmp_path, "ground", slab(84.0))
    areas = memory_layer("Polygon", UTM, [f"POLYGON({ring(0, 10)})", f"POLYGON({ring(100, 110)})"])
    told = Said()
    given = {"SURFACE": surface, "LEVEL": 840.0, "AREAS": areas, "OUTPUT": "memory:"}
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    provider.algorithm("measure_volumes").create().run(given, context, told, {}, catchExceptions=False)
    assert any(text.startswith("Rows measured: 1; cut 0.000 m3 and fill 75") for text in told.said)
    assert told.warned == [
        "Rows without figures: 1. The column finding says why, and what to do.",
        (
            "The level 840 m lies 756 m beyond the surface's heights, 84.00 to 84.00 m. Is it in feet, or of another datum?"
        ),
    ]


def test_weak_ground_is_told_in_the_row_and_in_the_log(provider, tmp_path):
    """Of the made survey's ground one triangle of two is weak."""
    path = tmp_path / "half.gpkg"
    layer_of(ground(is_weak=True), "half", path, made_survey().plane)
    told, context = Said(), QgsProcessingContext()
    context.setProject(QgsProject.instance())
    given = {"SURFACE": str(path), "LEVEL": 84.4, "OUTPUT": str(tmp_path / "out.gpkg")}
    provider.algorithm("measure_volumes").create().run(given, context, told, {}, catchExceptions=False)
    (row,) = rows_of(str(tmp_path / "out.gpkg"))
    words = "50 % of it rests on weak triangles. Add levels there, or draw a boundary."
    assert row["finding"] == words
    assert told.warned == [words]


def test_a_layer_in_web_mercator_gives_what_the_same_ground_gives_in_utm(provider, tmp_path):
    way = pyproj.Transformer.from_crs(UTM, WEB, always_xy=True)

    def there(texts):
        out = []
        for text in texts:
            geometry = QgsGeometry.fromWkt(text)
            vertices = [(*way.transform(v.x(), v.y()), v.z()) for v in geometry.vertices()]
            out.append("POLYGON Z((" + ",".join(f"{x!r} {y!r} {z!r}" for x, y, z in vertices) + "))")
        return out

    given = {"LEVEL": 0.4, "HEIGHT": 10.0}
    here = run(provider, tmp_path, {"SURFACE": surface_layer(tmp_path, "a", slab(0.0, slope=0.05)), **given})[
        "OUTPUT"
    ]
    other = surface_layer(tmp_path, "b", there(slab(0.0, slope=0.05)), WEB)
    (row,), (web,) = (
        rows_of(here),
        rows_of(
            run(provider, tmp_path, {"SURFACE": other, **given, "OUTPUT": str(tmp_path / "w.gpkg")})["OUTPUT"]
        ),
    )
    for name in ("cut_m3", "fill_m3", "area_m2", "cut_area_m2"):
        assert web[name] == pytest.approx(row[name], rel=1e-7), name


def test_between_surfaces_over_areas_with_voids_arcs_and_other_crs(provider, tmp_path):
    upper, lower = (
        surface_layer(tmp_path, "ground", slab(1.0)),
        surface_layer(tmp_path, "formation", slab(0.5, 5.0, 30.0)),
    )
    circle = (
        f"CURVEPOLYGON(CIRCULARSTRING({EAST + 8} {NORTH + 10},{EAST + 10} {NORTH + 12},{EAST + 12} {NORTH + 10},"
        f"{EAST + 10} {NORTH + 8},{EAST + 8} {NORTH + 10}))"
    )
    texts = [
        f"POLYGON({ring(6, 16)},{ring(8, 10)})",
        circle,
        f"POLYGON({ring(0, 10)})",
        f"POLYGON({ring(100, 110)})",
        f"POLYGON(({EAST} {NORTH},{EAST + 9} {NORTH + 9},{EAST + 9} {NORTH},{EAST} {NORTH + 9},{EAST} {NORTH}))",
        None,
    ]
    areas = write_layer(tmp_path / "areas.gpkg", texts, UTM)
    layer = QgsVectorLayer(str(areas), "areas", "ogr")
    results = run(
        provider, tmp_path, {"SURFACE": upper, "TO_SURFACE": lower, "AREAS": str(areas), "HEIGHT": 0.0}
    )
    rows = rows_of(results["OUTPUT"])
    by = scale_there() ** 2
    assert [row["name"] for row in rows] == [f"row {k}" for k in range(6)]
    assert [row["area_m2"] for row in rows[:3]] == pytest.approx([96 * by, 4 * np.pi * by, 25 * by], rel=1e-7)
    assert [row["cut_m3"] for row in rows[:3]] == pytest.approx(
        [48 * by, 2 * np.pi * by, 12.5 * by], rel=1e-7
    )
    assert [row["left_out_m2"] for row in rows[:3]] == [0.0, 0.0, pytest.approx(75 * by, rel=1e-7)]
    assert rows[2]["finding"] == (
        f"{75 * by:.2f} m2 of it do not lie on both surfaces and are left out. Extend the surfaces, or accept it."
    )
    assert rows[3]["finding"] == "No ground of it lies on both surfaces. Move it, or extend the surfaces."
    assert rows[4]["finding"].startswith("GE-01: ")
    assert rows[5]["finding"].startswith("GE-07: ")
    for row in rows[3:]:
        assert row["cut_m3"] is row["area_m2"] is row["method"] is None
    assert results["CUT"] == pytest.approx(sum(row["cut_m3"] for row in rows[:3]))
    out = QgsVectorLayer(results["OUTPUT"], "out", "ogr")
    assert out.crs() == layer.crs()
    assert out.featureCount() == 6


def test_a_plane_through_three_points_of_a_layer_in_degrees(provider, tmp_path):
    way = pyproj.Transformer.from_crs(UTM, "EPSG:4326", always_xy=True)
    points = [(0, 0, 1.0), (20, 0, 2.0), (0, 20, 1.0)]
    texts = ["POINT Z({!r} {!r} {})".format(*way.transform(EAST + x, NORTH + y), z) for x, y, z in points]
    plane = memory_layer("PointZ", "EPSG:4326", texts)
    QgsProject.instance().addMapLayer(plane)
    try:
        given = {"SURFACE": surface_layer(tmp_path, "ground", slab(1.5)), "PLANE": plane.id(), "HEIGHT": 0.0}
        (row,) = rows_of(run(provider, tmp_path, given)["OUTPUT"])
        assert row["cut_m3"] == pytest.approx(row["fill_m3"], rel=1e-5)
        # A wedge of 10 m by 20 m, half a metre at its end.
        assert row["cut_m3"] == pytest.approx(10 * 0.5 / 2 * 20 * scale_there() ** 2, rel=1e-5)
        plane.selectByIds([1, 2])
        some = QgsProcessingFeatureSourceDefinition(plane.id(), selectedFeaturesOnly=True)
        with pytest.raises(QgsProcessingException) as told:
            run(provider, tmp_path, {**given, "PLANE": some})
        assert str(told.value) == (
            "A plane goes through three points with heights; the layer holds 2, 2 of them with a height. Select three."
        )
    finally:
        QgsProject.instance().removeMapLayer(plane.id())


def test_strip_loads_and_balance(provider, tmp_path):
    given = {
        "SURFACE": surface_layer(tmp_path, "ground", slab(0.0, slope=0.1)),
        "LEVEL": 0.5,
        "STRIP": 0.2,
        "STRIP_SIGMA": 0.02,
        "BULKING": 1.3,
        "SHRINK": 0.9,
        "DENSITY": 1.7,
        "LOAD_M3": 8.0,
        "LOAD_T": 14.0,
    }
    (row,) = rows_of(run(provider, tmp_path, given)["OUTPUT"])
    by = row["area_m2"] / 400
    # The stripped ground meets the level at 7 m: 13 m of cut to 1.3 m, 7 m of fill to 0.7 m.
    assert row["cut_m3"] == pytest.approx(13 * 1.3 / 2 * 20 * by, rel=1e-3)
    assert row["fill_m3"] == pytest.approx(7 * 0.7 / 2 * 20 * by, rel=1e-3)
    assert row["strip_m3"] == pytest.approx(0.2 * row["area_m2"])
    assert row["strip_m3_sigma"] == pytest.approx(0.02 * row["area_m2"])
    assert row["balance_m3"] == pytest.approx(row["cut_m3"] - row["fill_m3"] / 0.9)
    assert row["away_loose_m3"] == pytest.approx(1.3 * row["balance_m3"])
    assert row["away_t"] == pytest.approx(1.7 * row["balance_m3"])
    assert (row["away_loads"], row["away_loads_by"]) == (int(np.ceil(row["away_loose_m3"] / 8)), "volume")
    assert (row["bring_m3"], row["bring_loads"]) == (0.0, 0)


def test_depths_and_the_zero_line_lie_in_the_surfaces_crs(provider, tmp_path):
    given = {
        "SURFACE": surface_layer(tmp_path, "ground", slab(0.0, slope=0.1)),
        "LEVEL": 0.5,
        "STEP": 0.5,
        "THICKNESS": str(tmp_path / "depths.gpkg"),
        "ZERO_LINE": str(tmp_path / "zero.gpkg"),
    }
    results = run(provider, tmp_path, given)
    (row,), depths = rows_of(results["OUTPUT"]), rows_of(results["THICKNESS"])
    bounds = [(one["depth_from_m"], one["depth_to_m"]) for one in depths]
    assert bounds == [(-0.5, 0.0), (0.0, 0.5), (0.5, 1.0), (1.0, 1.5)]
    assert sum(one["area_m2"] for one in depths) == pytest.approx(row["area_m2"])
    layer = QgsVectorLayer(results["THICKNESS"], "depths", "ogr")
    assert layer.crs().authid() == UTM
    assert layer.extent().xMinimum() == pytest.approx(EAST, abs=1e-3)
    (line,) = QgsVectorLayer(results["ZERO_LINE"], "zero", "ogr").getFeatures()
    vertices = [(v.x() - EAST, v.y() - NORTH, v.z()) for v in line.geometry().vertices()]
    assert np.array(vertices)[:, 0] == pytest.approx(5.0, abs=1e-3)
    assert np.array(vertices)[:, 2] == pytest.approx(0.5, abs=1e-6)


@pytest.mark.parametrize(
    ("targets", "words"),
    [
        ({}, "Nothing is given to measure to: choose a surface, a level, or a plane."),
        (
            {"LEVEL": 1.0, "TO_SURFACE": "same"},
            "More than one is given to measure to: a surface, a level. Choose one of them.",
        ),
    ],
    ids=["none", "two"],
)
def test_one_target_is_wanted(targets, words, provider, tmp_path):
    surface = surface_layer(tmp_path, "ground", slab(1.0))
    given = {key: surface if value == "same" else value for key, value in targets.items()}
    with pytest.raises(QgsProcessingException) as told:
        run(provider, tmp_path, {"SURFACE": surface, **given})
    assert str(told.value) == words
    assert not (tmp_path / "out.gpkg").exists()


def test_a_level_of_zero_is_one(provider, tmp_path):
    surface = surface_layer(tmp_path, "ground", slab(1.0))
    (row,) = rows_of(run(provider, tmp_path, {"SURFACE": surface, "LEVEL": 0.0})["OUTPUT"])
    assert row["depth_mean_m"] == pytest.approx(1.0)


def test_two_surfaces_in_one_layer_are_refused_by_name(provider, tmp_path):
    path = write_layer(tmp_path / "two.gpkg", slab(1.0) + slab(2.0), UTM)
    layer = QgsVectorLayer(str(path), "two", "ogr")
    at = layer.fields().lookupField("name")
    layer.dataProvider().changeAttributeValues({k: {at: "low" if k < 3 else "high"} for k in (1, 2, 3, 4)})
    with pytest.raises(QgsProcessingException) as told:
        run(provider, tmp_path, {"SURFACE": str(path), "LEVEL": 0.0})
    assert str(told.value) == (
        "The layers hold 2 surfaces: low, high. Filter each layer to the one that is meant."
    )


def test_the_surface_is_not_written_over(provider, tmp_path):
    surface = surface_layer(tmp_path, "ground", slab(1.0))
    with pytest.raises(QgsProcessingException, match="holds the layer that is read, and would be replaced"):
        run(provider, tmp_path, {"SURFACE": surface, "LEVEL": 0.0, "OUTPUT": surface})
    assert QgsVectorLayer(surface, "still", "ogr").featureCount() == 2


def test_areas_on_no_map_are_refused(provider, tmp_path):
    surface = surface_layer(tmp_path, "ground", slab(1.0))
    areas = write_layer(tmp_path / "areas.gpkg", [f"POLYGON({ring(1, 2)})"], GRID)
    with pytest.raises(
        QgsProcessingException, match="do not lie in one frame: only one of them has a place on the map"
    ):
        run(provider, tmp_path, {"SURFACE": surface, "LEVEL": 0.0, "AREAS": str(areas)})
