# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections in the toolbox: figures whatever the CRS, arcs, features, gaps, and what is refused."""

from __future__ import annotations

import numpy as np
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsFeature,
    QgsGeometry,
    QgsMeshLayer,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
)

from plugin.bridge.section_tables import END_AREA_COLUMNS, SECTION_COLUMNS
from plugin.bridge.surfaces import read_surfaces, write_surface
from tests.processing.layers import memory_layer, rows_of, write_layer

EAST, NORTH = 512340.0, 5712850.0
UTM = "EPSG:25831"


class Log(QgsProcessingFeedback):
    def __init__(self):
        super().__init__()
        self.warned = []

    def pushWarning(self, text):
        self.warned.append(text)


@pytest.fixture
def run(provider, tmp_path):
    """The algorithm's outputs as rows; every output is written."""

    def go(**given):
        algorithm = provider.algorithm("cut_sections").create()
        wanted = given.pop("wanted", ("OUTPUT", "SECTIONS"))
        places = {name: str(tmp_path / f"{name}.gpkg") for name in wanted}
        go.log = Log()
        results, good = algorithm.run(
            {**given, **places}, QgsProcessingContext(), go.log, {}, catchExceptions=False
        )
        assert good
        go.places = places
        return {name: rows_of(results[name]) for name in wanted}

    return go


def refused(run, **given):
    with pytest.raises(QgsProcessingException) as told:
        run(**given)
    return str(told.value)


def triangles(height, size=20.0):
    """Two triangles of a square whose height is a function of x and y, in UTM."""
    corners = [(x, y) for x, y in ((0, 0), (size, 0), (size, size), (0, size))]
    at = [f"{EAST + x!r} {NORTH + y!r} {height(x, y)!r}" for x, y in corners]
    return [f"POLYGON Z(({at[i]},{at[j]},{at[k]},{at[i]}))" for i, j, k in ((0, 1, 2), (0, 2, 3))]


def line(*places):
    return "LINESTRING(" + ",".join(f"{EAST + x!r} {NORTH + y!r}" for x, y in places) + ")"


@pytest.fixture
def ground(qgis_app):
    """z = 50 + x / 10 + y / 20."""
    return layer("ground", triangles(lambda x, y: 50 + x / 10 + y / 20))


@pytest.fixture
def formation(qgis_app):
    return layer("formation", triangles(lambda x, y: 51.5))


def layer(name, texts, crs=UTM):
    """A surface in memory; no column names its rows, so that the layer does."""
    made = QgsVectorLayer(f"PolygonZ?crs={crs}", name, "memory")
    features = []
    for text in texts:
        feature = QgsFeature()
        feature.setGeometry(QgsGeometry.fromWkt(text))
        features.append(feature)
    assert made.dataProvider().addFeatures(features)[0]
    return made


def transformed(texts, crs):
    way = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem(UTM), QgsCoordinateReferenceSystem(crs), QgsProject.instance()
    )
    out = []
    for text in texts:
        geometry = QgsGeometry.fromWkt(text)
        geometry.transform(way)
        out.append(geometry.asWkt(17).replace("PolygonZ", "POLYGON Z").replace("LineString", "LINESTRING"))
    return out


# UTM's grid at 3.18 degrees east lies 1 part in 2,500 inside the ground: 0.9996 and a little height.
GRID = 1.0 / 0.99960


def test_the_chainage_table_has_levels_rises_gradients_and_depths(run, ground, formation):
    lines = memory_layer("LineString", UTM, [line((2, 10), (18, 10))])
    rows = run(SURFACES=[ground, formation], LINES=lines)["OUTPUT"]
    assert [row["section"] for row in rows] == ["row 0"] * 3
    assert [row["chainage_m"] for row in rows] == pytest.approx(np.array([0, 8, 16]) * GRID, rel=2e-5)
    assert [row["level_m"] for row in rows] == pytest.approx([50.7, 51.5, 52.3], abs=1e-6)
    assert [row["formation_depth_m"] for row in rows] == pytest.approx([-0.8, 0.0, 0.8], abs=1e-6)
    assert [row["rise_m"] for row in rows] == [None, *[pytest.approx(0.8, abs=1e-6)] * 2]
    assert [row["run_m"] for row in rows][1:] == pytest.approx([8 * GRID] * 2, rel=2e-5)
    assert rows[1]["gradient_ratio"] == pytest.approx(0.1 / GRID, rel=2e-5)
    assert rows[1]["formation_gradient_ratio"] == pytest.approx(0.0, abs=1e-9)
    assert (rows[2]["x"], rows[2]["y"]) == pytest.approx((EAST + 18, NORTH + 10), abs=1e-6)
    assert all(row["level_m_sigma"] > 0 and row["surface"] == "ground" for row in rows)


def test_each_row_of_the_chainage_table_says_why_it_is_there(run, ground, formation):
    """Along y = 5 and 6 m the ground, 50 + x / 10 + y / 20, is at 51.5 m where x = 12.5; the triangles' edge is x = y."""
    bed = f"POLYGON(({EAST + 8} {NORTH + 2},{EAST + 8} {NORTH + 18},{EAST + 1} {NORTH + 18},{EAST + 1} {NORTH + 2},{EAST + 8} {NORTH + 2}))"
    lines = memory_layer("LineString", UTM, [line((2, 5), (10, 5), (18, 5))])
    rows = run(SURFACES=[ground, formation], LINES=lines, FEATURES=memory_layer("Polygon", UTM, [bed]))[
        "OUTPUT"
    ]
    assert [(round(row["x"] - EAST, 3), row["break"]) for row in rows] == [
        (2.0, "end"),
        (5.0, "triangle"),
        (8.0, "feature"),
        (10.0, "bend"),
        (12.5, "crossing"),
        (18.0, "end"),
    ]


def test_surfaces_that_lie_on_each_other_do_not_cross_there(run, ground):
    same = layer("same", triangles(lambda x, y: 50 + x / 10 + y / 20))
    lines = memory_layer("LineString", UTM, [line((2, 5), (18, 5))])
    rows = run(SURFACES=[ground, same], LINES=lines)["OUTPUT"]
    assert [row["break"] for row in rows] == ["end", "triangle", "end"]


def test_the_sections_have_heights_and_figures_from_end_to_end(run, ground, formation):
    lines = memory_layer("LineString", UTM, [line((2, 10), (18, 10))])
    result = run(SURFACES=[ground, formation], LINES=lines)
    one, other = result["SECTIONS"]
    assert (one["surface"], other["surface"]) == ("ground", "formation")
    assert one["rise_m"] == pytest.approx(1.6, abs=1e-6)
    assert one["gradient_percent"] == pytest.approx(10.0 / GRID, rel=2e-5)
    assert one["gradient_in_ft"] == pytest.approx(1.2 / GRID, rel=2e-5)
    assert one["one_in"] == pytest.approx(10.0 * GRID, rel=2e-5)
    assert one["gradient_deg"] == pytest.approx(np.degrees(np.arctan(0.1 / GRID)), rel=2e-5)
    assert one["slope_length_m"] == pytest.approx(np.hypot(16 * GRID, 1.6), rel=2e-5)
    assert one["cut_m2"] is None
    assert other["cut_m2"] == pytest.approx(0.5 * 8 * 0.8 * GRID, rel=2e-5)
    assert other["fill_m2"] == pytest.approx(0.5 * 8 * 0.8 * GRID, rel=2e-5)
    assert other["one_in"] is None
    geometry = QgsVectorLayer(run.places["SECTIONS"], "s", "ogr").getFeature(1).geometry()
    vertices = [(v.x(), v.z()) for v in geometry.vertices()]
    assert [z for _, z in vertices] == pytest.approx([50.7, 51.5, 52.3], abs=1e-6)
    assert vertices[0][0] == pytest.approx(EAST + 2, abs=1e-6)


def test_what_all_heights_share_is_in_the_levels_of_both_tables(run, ground):
    lines = memory_layer("LineString", UTM, [line((2, 10), (18, 10))])
    alone = run(SURFACES=[ground], LINES=lines, SIGMA=0.02)["SECTIONS"][0]
    result = run(SURFACES=[ground], LINES=lines, SIGMA=0.02, COMMON_SIGMA=0.03)
    (section,), first, last = result["SECTIONS"], result["OUTPUT"][0], result["OUTPUT"][-1]
    shared = np.hypot(alone["start_level_m_sigma"], 0.03)
    assert section["start_level_m_sigma"] == pytest.approx(shared, rel=1e-12)
    assert section["start_level_m_sigma"] == pytest.approx(first["level_m_sigma"], rel=1e-12)
    assert section["end_level_m_sigma"] == pytest.approx(last["level_m_sigma"], rel=1e-12)
    assert section["rise_m_sigma"] == pytest.approx(alone["rise_m_sigma"], rel=1e-12)


@pytest.mark.parametrize("crs", ["EPSG:4326", "EPSG:3857", "EPSG:2154"])
def test_figures_are_the_same_whatever_the_crs_of_surfaces_and_lines(run, ground, formation, crs):
    texts = [line((2, 3), (18, 14))]
    here = run(SURFACES=[ground, formation], LINES=memory_layer("LineString", UTM, texts))
    moved = [
        layer(f"moved {name}", transformed(triangles(height), crs), crs)
        for name, height in (("ground", lambda x, y: 50 + x / 10 + y / 20), ("formation", lambda x, y: 51.5))
    ]
    lines = memory_layer("LineString", "EPSG:4326", transformed(texts, "EPSG:4326"))
    there = run(SURFACES=moved, LINES=lines)
    assert len(here["OUTPUT"]) == len(there["OUTPUT"])
    for a, b in zip(here["OUTPUT"], there["OUTPUT"]):
        assert b["chainage_m"] == pytest.approx(a["chainage_m"], abs=1e-5)
        assert b["level_m"] == pytest.approx(a["level_m"], abs=1e-5)
    assert there["SECTIONS"][1]["cut_m2"] == pytest.approx(here["SECTIONS"][1]["cut_m2"], rel=1e-5)


def test_a_baseline_is_cut_across_at_the_interval_and_its_volumes_are_told(run, ground, formation):
    base = memory_layer("LineString", UTM, [line((2, 10), (18, 10))])
    result = run(
        SURFACES=[ground, formation], BASELINE=base, INTERVAL=4.0, LEFT=3.0, RIGHT=2.0,
        wanted=("OUTPUT", "SECTIONS", "END_AREAS"),
    )  # fmt: skip
    names = list(dict.fromkeys(row["section"] for row in result["OUTPUT"]))
    assert names[:4] == ["0.000", "4.000", "8.000", "12.000"]
    assert [row["station_m"] for row in result["SECTIONS"]][::2] == pytest.approx(
        [0, 4, 8, 12, 16, 16 * GRID], rel=2e-5
    )
    assert all(row["length_m"] == pytest.approx(5.0, abs=1e-9) for row in result["SECTIONS"])
    *lengths, total = result["END_AREAS"]
    assert total["method"] == "end areas, total"
    exact = sum(row["cut_exact_m3"] for row in lengths)
    assert total["cut_exact_m3"] == pytest.approx(exact, rel=1e-9)
    assert total["cut_exact_m3_sigma"] > 0
    assert total["left_out_m2"] == 0.0
    # z - 51.5 = (x - 10) / 10 + (y - 10) / 20, y - 10 from -2 to 3: by hand, over 5 m of width.
    x, y = np.meshgrid((np.arange(4000) + 0.5) * 0.004 + 2, (np.arange(500) + 0.5) * 0.01 + 8)
    depth = (x - 10) / 10 + (y - 10) / 20
    assert exact == pytest.approx(np.maximum(depth, 0).sum() * 0.004 * 0.01 * GRID, rel=2e-3)
    assert total["cut_m3"] == pytest.approx(exact, rel=0.05)
    assert total["cut_prismoid_m3"] == pytest.approx(exact, rel=0.01)


def test_an_arc_is_a_baseline_and_a_line(run, ground):
    arc = f"CIRCULARSTRING({EAST + 5} {NORTH + 10},{EAST + 10} {NORTH + 15},{EAST + 15} {NORTH + 10})"
    lines = memory_layer("CompoundCurve", UTM, [f"COMPOUNDCURVE({arc})"])
    rows = run(SURFACES=[ground], LINES=lines, BASELINE=lines, INTERVAL=5.0, LEFT=1.0, RIGHT=1.0)["SECTIONS"]
    along = rows[0]["length_m"]
    # Chords within 2 mm of an arc of 5 m are up to 0.06 % short.
    assert along == pytest.approx(5 * np.pi * GRID, rel=8e-4)
    assert along < 5 * np.pi * GRID
    assert rows[-1]["station_m"] == pytest.approx(5 * np.pi * GRID, rel=2e-5)


def test_features_are_told_where_the_line_crosses_them(run, ground):
    bed = f"POLYGON(({EAST + 4} {NORTH + 2},{EAST + 9} {NORTH + 2},{EAST + 9} {NORTH + 18},{EAST + 4} {NORTH + 18},{EAST + 4} {NORTH + 2}))"
    lines = memory_layer("LineString", UTM, [line((2, 5), (18, 5))])
    rows = run(SURFACES=[ground], LINES=lines, FEATURES=memory_layer("Polygon", UTM, [bed]))["OUTPUT"]
    told = [(row["chainage_m"], row["feature"]) for row in rows if row["feature"]]
    assert [name for _, name in told] == ["row 0", "row 0"]
    assert [at for at, _ in told] == pytest.approx(np.array([2, 7]) * GRID, rel=2e-5)
    assert [row["level_m"] for row in rows if row["feature"]] == pytest.approx([50.65, 51.15], abs=1e-5)


def test_a_line_beside_the_ground_is_said_and_has_no_levels(run, ground):
    lines = memory_layer("LineString", UTM, [line((2, 5), (18, 5)), line((50, 50), (60, 60))])
    result = run(SURFACES=[ground], LINES=lines)
    assert run.log.warned == ["1 lines meet no surface: row 1."]
    assert [row["level_m"] for row in result["OUTPUT"] if row["section"] == "row 1"] == [None, None]
    assert [row["section"] for row in result["SECTIONS"]] == ["row 0"]


def test_the_ground_breaks_off_and_goes_on_in_parts(run):
    two = triangles(lambda x, y: 50.0, 5.0)
    other = [
        text.replace(f"{EAST!r} ", f"{EAST + 10!r} ").replace(f"{EAST + 5!r} ", f"{EAST + 15!r} ")
        for text in two
    ]
    lines = memory_layer("LineString", UTM, [line((0, 2), (15, 2))])
    result = run(SURFACES=[layer("two", two + other)], LINES=lines)
    geometry = QgsVectorLayer(run.places["SECTIONS"], "s", "ogr").getFeature(1).geometry()
    assert geometry.constGet().numGeometries() == 2
    assert result["SECTIONS"][0]["ground_length_m"] == pytest.approx(10 * GRID, rel=2e-5)


def test_sections_that_cross_inside_a_bend_are_said(run, ground, formation):
    bend = f"CIRCULARSTRING({EAST + 8} {NORTH + 10},{EAST + 10} {NORTH + 12},{EAST + 12} {NORTH + 10})"
    base = memory_layer("CompoundCurve", UTM, [f"COMPOUNDCURVE({bend})"])
    result = run(
        SURFACES=[ground, formation], BASELINE=base, INTERVAL=2.0, LEFT=0.0, RIGHT=4.0, wanted=("END_AREAS",)
    )
    (warned,) = run.log.warned
    assert warned == (
        "4 sections cross the next one inside a bend of the baseline: what lies there is counted twice in end areas. "
        "Make the width on that side smaller."
    )
    assert all(row["cut_exact_m3"] is None for row in result["END_AREAS"])
    assert all(row["cut_m3"] >= 0.0 for row in result["END_AREAS"])


def test_runs_that_cannot_be_are_refused_in_words(run, ground, formation):
    lines = memory_layer("LineString", UTM, [line((2, 5), (18, 5))])
    two = memory_layer("LineString", UTM, [line((2, 5), (18, 5)), line((2, 6), (18, 6))])
    points = memory_layer("Point", UTM, [f"POINT({EAST} {NORTH})"])
    assert refused(run, SURFACES=[ground]) == "There is nothing to cut along. Give lines, or a baseline."
    assert refused(run, SURFACES=[ground], LINES=lines, wanted=("END_AREAS",)) == (
        "End areas lie along a baseline. Give one, or leave them out."
    )
    assert refused(run, SURFACES=[ground], BASELINE=two) == (
        "The layer of the baseline holds 2 lines. Select the one to station, or join its parts."
    )
    assert refused(run, SURFACES=[ground], BASELINE=lines, wanted=("END_AREAS",)) == (
        "End areas need two surfaces. Choose the ground first, and then what it is held against."
    )
    assert refused(run, SURFACES=[ground], LINES=lines, FEATURES=points) == (
        "A line cannot cross points. Choose a layer of lines or polygons as the features."
    )
    none = memory_layer("LineString", UTM, [None])
    assert refused(run, SURFACES=[ground], LINES=none) == (
        "There is nothing to cut along. Give lines, or a baseline."
    )


def test_a_row_without_a_line_is_told_and_the_others_are_cut(run, ground):
    place = f"{EAST + 2} {NORTH + 5}"
    texts = [None, line((2, 5), (18, 5)), f"LINESTRING({place},{place})", line((2, 6), (18, 6))]
    rows = run(SURFACES=[ground], LINES=memory_layer("LineString", UTM, texts))["SECTIONS"]
    assert [row["section"] for row in rows] == ["row 1", "row 3"]
    assert run.log.warned == [
        "layer, row 1: There is no geometry. Draw it, or delete the row.",
        "layer, row 3: The line has no length. Draw it again, or delete the row.",
    ]


def test_a_surface_that_would_be_written_over_is_kept(provider, tmp_path):
    ground = str(write_layer(tmp_path / "ground.gpkg", triangles(lambda x, y: 50.0), UTM))
    lines = memory_layer("LineString", UTM, [line((2, 5), (18, 5))])
    algorithm = provider.algorithm("cut_sections").create()
    with pytest.raises(QgsProcessingException) as told:
        algorithm.run(
            {"SURFACES": [ground], "LINES": lines, "SECTIONS": ground},
            QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False,
        )  # fmt: skip
    assert str(told.value) == (
        f"{ground} holds the layer that is read, and would be replaced. Choose another file or table for the output."
    )


def test_columns_end_in_their_unit_and_every_figure_has_its_sigma():
    for columns in (SECTION_COLUMNS, END_AREA_COLUMNS):
        names = [name for name, _ in columns]
        assert len(set(names)) == len(names)
        for name in ("rise_m", "gradient_ratio", "cut_m2", "cut_m3", "cut_exact_m3"):
            if name in names:
                assert names[names.index(name) + 1] == f"{name}_sigma"


def test_a_table_of_ours_brings_its_sigma_and_a_mesh_takes_the_one_that_is_stated(run, ground, tmp_path):
    opened = read_surfaces([ground], sigma=0.03)
    (surface,) = opened.surfaces
    stored = write_surface(surface, "kept", tmp_path / "kept.gpkg", opened.plane, opened.crs)
    mesh = tmp_path / "mesh.2dm"
    corners = [(0, 0), (20, 0), (20, 20), (0, 20)]
    points = [
        f"ND {k} {EAST + x!r} {NORTH + y!r} {50 + x / 10 + y / 20!r}" for k, (x, y) in enumerate(corners, 1)
    ]
    mesh.write_text("\n".join(["MESH2D", "E3T 1 1 2 3 1", "E3T 2 1 3 4 1", *points]) + "\n", encoding="utf-8")
    meshed = QgsMeshLayer(str(mesh), "mesh", "mdal")
    meshed.setCrs(QgsCoordinateReferenceSystem(UTM))
    lines = memory_layer("LineString", UTM, [line((0, 0), (20, 20))])
    kept = run(SURFACES=[str(stored)], LINES=lines, SIGMA=0.5)["OUTPUT"]
    other = run(SURFACES=[meshed], LINES=lines, SIGMA=0.05)["OUTPUT"]
    assert [row["level_m"] for row in kept] == pytest.approx([50, 53], abs=1e-6)
    assert [row["level_m"] for row in other] == pytest.approx([50, 53], abs=1e-6)
    assert [row["level_m_sigma"] for row in kept] == pytest.approx([0.03] * 2, rel=1e-6)
    assert [row["level_m_sigma"] for row in other] == pytest.approx([0.05] * 2, rel=1e-6)
