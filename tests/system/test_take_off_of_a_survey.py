# SPDX-License-Identifier: GPL-2.0-or-later
"""The trade's quantities of the demo's own layers, beside the demo's true sizes."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from osgeo import gdal
from qgis.core import (
    QgsApplication,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
)

from tests.processing.layers import rows_of

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
BANK = 0.5 * (math.pi / 2) * (8.0 + 9.6) * math.hypot(1.6, 1.2)
"""m2: a quarter of a cone's frustum, lower radius 8.0 m, upper 9.6 m, 1.2 m high."""
DISHED = 2.4 * (math.pi / 3) * 3.0
"""m2: 60 degrees of a cylinder of radius 2.4 m, 3.0 m wide."""


@pytest.fixture(scope="module")
def survey(groundtally, tmp_path_factory):
    """The demo's survey, and our algorithms."""
    path = tmp_path_factory.mktemp("survey") / "yard.gpkg"
    _, good = (
        groundtally.algorithm("survey_walks")
        .create()
        .run({"LOGS": [str(DEMO)], "OUTPUT": str(path)}, QgsProcessingContext(), QgsProcessingFeedback())
    )
    assert good
    return groundtally, path


def taken_off(survey, name, table, **parameters):
    provider, path = survey
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    layer = QgsVectorLayer(f"{path}|layername={table}", table, "ogr")
    results, good = (
        provider.algorithm(name)
        .create()
        .run({"INPUT": layer, "OUTPUT": "memory:", **parameters}, context, QgsProcessingFeedback())
    )
    assert good
    return rows_of(context.takeResultLayer(str(results["OUTPUT"])))


def row_of(rows, feature, part=None):
    (row,) = [row for row in rows if row["feature"] == feature and part in (None, row["part"])]
    return row


def test_the_curved_bank_between_foot_and_top_has_its_true_face(survey):
    assert pytest.approx(27.646, abs=5e-4) == BANK
    bank = row_of(taken_off(survey, "measure_faces", "lengths", SIGMA=0.05), "Bank", "foot")
    assert abs(bank["face_m2"] - BANK) < 2 * bank["face_m2_sigma"]
    assert abs(bank["face_m2"] - BANK) < 0.01 * BANK


def test_the_dished_face_takes_the_surveys_length_of_an_upright_arc(survey):
    assert pytest.approx(7.5398, abs=5e-5) == DISHED
    rows = taken_off(survey, "measure_faces", "lengths", WIDTH=3.0, SIZE_SIGMA=0.0)
    face = row_of(rows, "Dished face")
    assert face["sigma_from_2"] == "instruments"
    assert abs(face["face_m2"] - DISHED) < 2 * face["face_m2_sigma"]
    assert face["face_m2_sigma"] < 0.05


def test_a_slab_takes_the_surveys_area_and_its_sigma(survey):
    court = row_of(taken_off(survey, "measure_slabs", "areas", THICKNESS=0.1, SIZE_SIGMA=0.0), "Paved court")
    assert court["concrete_m3"] == pytest.approx(0.1 * court["area_m2"], rel=1e-12)
    assert court["concrete_m3_sigma"] == pytest.approx(0.1 * court["area_m2_sigma"], rel=1e-12)
    assert court["sigma_from_2"] == "instruments"


def test_the_bank_as_a_wall_is_as_high_as_it_is(survey):
    bank = row_of(taken_off(survey, "measure_walls", "lengths", SIGMA=0.02), "Bank", "foot")
    assert bank["height_mean_m"] == pytest.approx(1.2, abs=0.05)
    assert bank["front_m"] == pytest.approx(8.0 * math.pi / 2, abs=0.05)


def test_a_walls_height_knows_that_its_foot_and_top_drift_together(survey):
    """Whatever SIGMA says: the survey's stations say better. Each height by itself is worth some 3 cm."""
    for sigma in (0.001, 0.5):
        wall = row_of(taken_off(survey, "measure_walls", "lengths", SIGMA=sigma), "Bed 1 wall", "foot")
        assert wall["sigma_from_2"] == "instruments"
        assert abs(wall["height_max_m"] - 0.55) < 2.5 * wall["height_max_m_sigma"]
        assert wall["height_max_m_sigma"] == pytest.approx(0.0127, abs=0.001)
        assert wall["front_m_sigma"] == pytest.approx(wall["length_m_sigma"], rel=1e-3)
        assert "on the whole" not in wall["method"]
    _, path = survey
    stations = rows_of(QgsVectorLayer(f"{path}|layername=stations", "stations", "ogr"))
    alone = [row["z_m_sigma"] for row in stations if row["feature"] == "Bed 1 wall"]
    assert min(alone) > 0.8 * wall["height_max_m_sigma"] / math.sqrt(2)


def test_the_front_of_a_wall_is_as_certain_as_the_surveys_own_length(survey):
    """Straights and arcs, joined edges and tangent arcs among them."""
    rows = taken_off(survey, "measure_walls", "lengths", WALL_HEIGHT=0.5)
    for feature, part in (("Seat wall", None), ("Bank", "foot"), ("Bed 1 wall", "foot"), ("Kerb", None)):
        row = row_of(rows, feature, part)
        assert row["front_m_sigma"] == pytest.approx(row["length_m_sigma"], rel=1e-4), feature


def test_a_survey_of_an_older_version_has_the_sigma_that_was_stated(survey, tmp_path):
    provider, path = survey
    older = tmp_path / "older.gpkg"
    older.write_bytes(path.read_bytes())
    source = gdal.OpenEx(str(older), gdal.OF_VECTOR | gdal.OF_UPDATE)
    layer = source.GetLayerByName("lengths")
    layer.DeleteField(layer.GetLayerDefn().GetFieldIndex("point_errors"))
    del layer, source
    wall = row_of(taken_off((provider, older), "measure_walls", "lengths", SIGMA=0.02), "Bed 1 wall", "foot")
    assert wall["sigma_from_2"] == "assumed"
    assert wall["height_max_m_sigma"] == pytest.approx(0.02 * math.sqrt(2), rel=1e-6)
    face = row_of(taken_off((provider, older), "measure_faces", "lengths", SIGMA=0.02), "Bank", "foot")
    assert face["sigma_from_2"] == "assumed"


@pytest.mark.parametrize(
    "text", ["[]", "{", '[{"xy": []}]', '[{"xy": [[0, 0]], "own": 1, "plan": 2, "height": 3}]', "7"]
)
def test_a_column_that_says_nothing_useful_counts_as_none(text, survey, tmp_path):
    provider, path = survey
    spoilt = tmp_path / "spoilt.gpkg"
    spoilt.write_bytes(path.read_bytes())
    source = gdal.OpenEx(str(spoilt), gdal.OF_VECTOR | gdal.OF_UPDATE)
    layer = source.GetLayerByName("lengths")
    for row in layer:
        row.SetField("point_errors", text)
        layer.SetFeature(row)
    del layer, source, row
    wall = row_of(taken_off((provider, spoilt), "measure_walls", "lengths", SIGMA=0.02), "Bed 1 wall", "foot")
    assert wall["sigma_from_2"] == "assumed"
    assert wall["height_max_m_sigma"] == pytest.approx(0.02 * math.sqrt(2), rel=1e-6)


def test_a_row_that_left_its_survey_still_knows_it(survey, tmp_path):
    """Exported to another file and CRS: the row carries what its points are worth."""
    provider, path = survey
    layer = QgsVectorLayer(f"{path}|layername=lengths", "lengths", "ogr")
    moved = str(tmp_path / "elsewhere.gpkg")
    given = {"INPUT": layer, "TARGET_CRS": "EPSG:3857", "OUTPUT": moved}
    results, good = provider_of("native:reprojectlayer").run(
        given, QgsProcessingContext(), QgsProcessingFeedback()
    )
    assert good
    wall = row_of(taken_off((provider, moved), "measure_walls", "elsewhere", SIGMA=0.5), "Bed 1 wall", "foot")
    there = row_of(taken_off(survey, "measure_walls", "lengths", SIGMA=0.5), "Bed 1 wall", "foot")
    for name in ("height_max_m_sigma", "front_m_sigma", "face_m2_sigma"):
        assert wall[name] == pytest.approx(there[name], rel=1e-3)
    assert results["OUTPUT"] == moved


def provider_of(name):
    return QgsApplication.processingRegistry().createAlgorithmById(name)


def test_faces_between_edges_and_outlines_in_their_plane_bring_the_surveys_sigma(survey):
    bank = row_of(taken_off(survey, "measure_faces", "lengths", SIGMA=0.5), "Bank", "foot")
    assert bank["sigma_from_2"] == "instruments"
    assert bank["face_m2_sigma"] == pytest.approx(0.135, abs=0.01)
    court = row_of(taken_off(survey, "measure_faces", "areas", SIGMA=0.5, TOLERANCE=0.2), "Paved court")
    assert court["sigma_from_2"] == "instruments"
    assert court["face_m2_sigma"] == pytest.approx(court["area_m2_sigma"], rel=1e-3)


def test_a_slab_over_a_level_is_as_certain_as_the_heights_of_its_corners_together(survey):
    slab = row_of(
        taken_off(survey, "measure_slabs", "areas", SIGMA=0.5, BOTTOM=82.0, SIZE_SIGMA=0.0), "Paved court"
    )
    _, path = survey
    stations = rows_of(QgsVectorLayer(f"{path}|layername=stations", "stations", "ogr"))
    heights = [row["z_m_sigma"] for row in stations if row["feature"] == "Paved court"]
    assert 0.3 * min(heights) < slab["thickness_mean_m_sigma"] < max(heights)


def test_a_top_of_another_feature_is_nothing_that_the_survey_told_together(survey, tmp_path):
    """A column of one's own may make pairs across features; of two features the survey tells nothing together."""
    provider, path = survey
    other = tmp_path / "paired.gpkg"
    other.write_bytes(path.read_bytes())
    source = gdal.OpenEx(str(other), gdal.OF_VECTOR | gdal.OF_UPDATE)
    layer = source.GetLayerByName("lengths")
    for row in layer:
        if (row.GetField("feature"), row.GetField("part")) == ("Bank", "top"):
            row.SetField("feature", "Kerb above")
        row.SetField("option", "pair" if row.GetField("feature") in ("Bank", "Kerb above") else "")
        layer.SetFeature(row)
    del layer, source, row
    rows = taken_off((provider, other), "measure_walls", "lengths", SIGMA=0.02, FEATURE="option")
    bank = row_of(rows, "Bank", "foot")
    assert bank["sigma_from_2"] == "assumed"
    assert bank["height_max_m"] == pytest.approx(1.2, abs=0.05)
