# SPDX-License-Identifier: GPL-2.0-or-later
"""The trade's quantities of the demo's own layers, beside the demo's true sizes."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsProject, QgsVectorLayer

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
