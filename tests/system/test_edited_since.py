# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows of a survey that somebody edited afterwards: what no longer agrees with what the survey drew is no longer the survey's."""

from __future__ import annotations

import math
import shutil
from pathlib import Path

import numpy as np
import pytest
from osgeo import gdal
from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsProject, QgsVectorLayer

from tests.processing.layers import rows_of

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
FEET = "+proj=tmerc +lat_0=0 +lon_0=3 +k=0.9996 +x_0=500000 +ellps=GRS80 +units=ft +no_defs"


@pytest.fixture(scope="module")
def surveyed(groundtally, tmp_path_factory):
    path = tmp_path_factory.mktemp("survey") / "yard.gpkg"
    run(groundtally, "survey_walks", LOGS=[str(DEMO)], OUTPUT=str(path))
    return path


@pytest.fixture
def edited(surveyed, tmp_path):
    """A copy of the survey, and what edits one of its rows: points (n, 3) in, points out, edge by edge."""
    path = tmp_path / "edited.gpkg"
    shutil.copy(surveyed, path)

    def edit(table, feature, part, change):
        source = gdal.OpenEx(str(path), gdal.OF_VECTOR | gdal.OF_UPDATE)
        layer = source.GetLayerByName(table)
        changed = 0
        for row in layer:
            if row["feature"] == feature and (row["part"] or "") == part:
                shape = row.GetGeometryRef().Clone()
                change_points(shape, change)
                row.SetGeometry(shape)
                layer.SetFeature(row)
                changed += 1
        assert changed == 1
        del layer, source, row
        return path

    return edit


def change_points(shape, change):
    """All points of a geometry, its arcs among them."""
    if shape.GetGeometryCount():
        for k in range(shape.GetGeometryCount()):
            change_points(shape.GetGeometryRef(k), change)
        return
    for k, point in enumerate([shape.GetPoint(k) for k in range(shape.GetPointCount())]):
        shape.SetPoint(k, *change(np.array(point)).tolist())


def run(provider, name, **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    results, good = provider.algorithm(name).create().run(parameters, context, QgsProcessingFeedback())
    assert good
    made = results["OUTPUT"]
    return rows_of(context.takeResultLayer(str(made))) if made != parameters["OUTPUT"] else None


def measured(provider, name, path, table, feature, part=None, **parameters):
    layer = QgsVectorLayer(f"{path}|layername={table}", table, "ogr")
    rows = run(provider, name, INPUT=layer, OUTPUT="memory:", **parameters)
    (row,) = [row for row in rows if row["feature"] == feature and part in (None, row["part"])]
    return row


def checked(provider, path):
    """What the check says of each thing: its figure, its method, where its sigma is from, its verdict."""
    return run(provider, "check_limits", SURVEY=str(path), OUTPUT="memory:")


def half(point, middle, by):
    """Lifted where it lies east of a place."""
    return point + (0.0, 0.0, by if point[0] > middle else 0.0)


def test_a_court_with_one_side_lifted_has_the_fall_of_its_outline(groundtally, surveyed, edited):
    before = measured(groundtally, "measure_gradients", surveyed, "areas", "Paved court")
    assert before["sigma_from_2"] == "instruments"
    assert before["fall_ratio_2"] == before["fall_ratio"]
    assert before["method_2"] == (
        "fall and bearing as the survey has them from its stations, all else by the least-squares plane of the outline's "
        "points, extremes of its sides"
    )
    middle = QgsVectorLayer(f"{surveyed}|layername=areas", "areas", "ogr")
    (court,) = [row for row in middle.getFeatures() if row["feature"] == "Paved court"]
    x = court.geometry().centroid().asPoint().x()
    path = edited("areas", "Paved court", "", lambda point: half(point, x, 1.0))
    row = measured(groundtally, "measure_gradients", path, "areas", "Paved court", SIGMA=0.02)
    assert row["fall_ratio"] == before["fall_ratio"]  # the survey's column says what it said
    assert row["fall_ratio_2"] > 0.05
    assert row["sigma_from_2"] == "assumed"
    assert row["method_2"] == (
        "least-squares plane of the outline's points, extremes of its sides, no more as the survey drew it"
    )
    told = [r for r in checked(groundtally, path) if r["feature"] == "Paved court"]
    assert told
    assert {r["sigma_from"] for r in told} == {"assumed"}
    assert all(r["figure_ratio"] > 0.05 for r in told if r["quantity"] == "fall")


def test_without_heights_kept_the_outlines_plane_must_be_the_surveys(groundtally, surveyed, edited):
    middle = QgsVectorLayer(f"{surveyed}|layername=areas", "areas", "ogr")
    (court,) = [row for row in middle.getFeatures() if row["feature"] == "Paved court"]
    x = court.geometry().centroid().asPoint().x()
    for by, source in ((0.0, "instruments"), (1.0, "assumed")):
        path = edited("areas", "Paved court", "", lambda point, by=by: half(point, x, by))
        drop(path, "areas", "point_errors")
        row = measured(groundtally, "measure_gradients", path, "areas", "Paved court", SIGMA=0.02)
        assert row["sigma_from_2"] == source


def drop(path, table, column):
    source = gdal.OpenEx(str(path), gdal.OF_VECTOR | gdal.OF_UPDATE)
    layer = source.GetLayerByName(table)
    number = layer.GetLayerDefn().GetFieldIndex(column)
    assert number < 0 or layer.DeleteField(number) == 0
    del layer, source


@pytest.mark.parametrize("by", [(0.0, 3.0, 0.0), (0.0, 0.0, 1.0), (0.005, 0.0, 0.0)])
def test_a_walls_top_moved_as_a_whole_is_not_the_surveys(by, groundtally, surveyed, edited):
    before = measured(groundtally, "measure_walls", surveyed, "lengths", "Bed 1 wall", "foot", SIGMA=0.02)
    assert before["sigma_from_2"] == "instruments"
    path = edited("lengths", "Bed 1 wall", "top", lambda point: point + by)
    wall = measured(groundtally, "measure_walls", path, "lengths", "Bed 1 wall", "foot", SIGMA=0.02)
    assert wall["sigma_from_2"] == "assumed"
    assert wall["height_max_m_sigma"] == pytest.approx(0.02 * math.sqrt(2.0), rel=1e-6)
    told = [row for row in checked(groundtally, path) if row["feature"] == "Bed 1 wall"]
    assert told
    assert all("on the whole" in row["method"] for row in told)


def test_an_edge_of_a_way_moved_beside_the_other_is_not_the_surveys(groundtally, edited):
    path = edited("lengths", "Bank", "top", lambda point: point + (0.2, 0.0, 0.0))
    bank = measured(groundtally, "measure_faces", path, "lengths", "Bank", "foot", SIGMA=0.02)
    assert bank["sigma_from_2"] == "assumed"


def in_feet(path, table, tmp_path):
    """The table's rows in a CRS of feet, as an exporter writes them that leaves heights as they are."""
    made = tmp_path / "feet.gpkg"
    options = gdal.VectorTranslateOptions(format="GPKG", layers=[table], dstSRS=FEET, reproject=True)
    gdal.VectorTranslate(str(made), str(path), options=options)
    return made


@pytest.mark.parametrize(
    "case",
    [
        ("measure_gradients", "areas", "Paved court", None, "fall_ratio_2"),
        ("measure_gradients", "lengths", "Kerb", None, "fall_ratio"),
        ("measure_walls", "lengths", "Bed 1 wall", "foot", "height_max_m"),
    ],
)
def test_heights_in_metres_under_a_crs_of_feet_are_refused_not_read_as_feet(
    case, groundtally, surveyed, tmp_path
):
    name, table, feature, part, figure = case
    path = in_feet(surveyed, table, tmp_path)
    row = measured(groundtally, name, path, table, feature, part)
    assert row[figure] is None
    assert row["finding_2"] == (
        "GE-07: The row's heights are the survey's times 0.3048: its layer's CRS counts heights in another unit than they "
        "are in. Choose the survey's own layer, or bring the heights into the unit of the CRS."
    )


def test_a_lines_gradient_is_worth_what_the_survey_says_it_is(groundtally, surveyed):
    """The survey works its own out from the covariance of all stations; here it is told from each row's points."""
    layer = QgsVectorLayer(f"{surveyed}|layername=lengths", "lengths", "ogr")
    rows = run(groundtally, "measure_gradients", INPUT=layer, OUTPUT="memory:", SIGMA=0.02)
    seen = 0
    for row in rows:
        if row["fall_ratio"] is None or row["sigma_from_2"] == "assumed":
            assert (row["feature"], row["part"]) in {("Steps", None), ("Dished face", "profile")}
            continue
        seen += 1
        assert row["along_ratio"] == pytest.approx(row["gradient_ratio"], abs=1e-8)
        assert row["along_ratio_sigma"] == pytest.approx(row["gradient_ratio_sigma"], rel=2e-3)
        assert row["sigma_from_2"] == row["sigma_from"] == "instruments"
    assert seen >= 7


def test_a_line_that_was_edited_has_the_stated_sigma_and_says_so(groundtally, edited):
    path = edited("lengths", "Kerb", "", lambda point: point + (0.0, 0.0, 0.5))
    row = measured(groundtally, "measure_gradients", path, "lengths", "Kerb", SIGMA=0.02)
    assert row["sigma_from_2"] == "assumed"
    assert row["method_2"].endswith(", no more as the survey drew it")
    run_m = row["length_m"]
    assert row["along_ratio_sigma"] == pytest.approx(0.02 * math.sqrt(2.0) / run_m, rel=1e-3)
