# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey's own layers, measured as any other: the survey's figures and its uncertainty come back."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from qgis.core import (
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
)

from tests.processing.layers import rows_of

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"


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


def measured(provider, name, layer):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    results, good = (
        provider.algorithm(name)
        .create()
        .run(
            {"INPUT": layer, "OUTPUT": "memory:"}, context, QgsProcessingFeedback(), {}, catchExceptions=False
        )
    )
    assert good
    return rows_of(context.takeResultLayer(results["OUTPUT"]))


CASES = [
    ("measure_areas", "areas", ("area_m2", "perimeter_m")),
    ("measure_lengths", "lengths", ("length_m", "slope_length_m", "rise_m", "gradient_ratio")),
    ("measure_lengths", "sides", ("length_m",)),
]


@pytest.mark.parametrize(("name", "table", "columns"), CASES)
def test_its_figures_and_sigmas_come_back(name, table, columns, survey):
    provider, path = survey
    layer = QgsVectorLayer(f"{path}|layername={table}", table, "ogr")
    rows = measured(provider, name, layer)
    assert len(rows) == layer.featureCount() > 3
    for row in rows:
        for column in columns:
            assert row[f"{column}_2"] == row[column], (row["feature"], column)
            assert row[f"{column}_sigma_2"] == row[f"{column}_sigma"]
        assert row["sigma_from_2"] == row["sigma_from"] != "assumed"


def test_without_the_surveys_columns_the_outlines_measure_the_same(survey):
    """Its own mean height in place of the site's changes the scale by 2e-6 for 10 m; the rest is rounding."""
    provider, path = survey
    layer = QgsVectorLayer(f"{path}|layername=areas", "areas", "ogr")
    expected = rows_of(layer)
    bare = QgsVectorLayer(f"CurvePolygonZ?crs={layer.crs().authid()}", "bare", "memory")
    bare.dataProvider().addFeatures(list(layer.getFeatures()))
    rows = measured(provider, "measure_areas", bare)
    assert [row["area_m2"] for row in rows] == pytest.approx([row["area_m2"] for row in expected], rel=1e-5)
    assert [row["perimeter_m"] for row in rows] == pytest.approx(
        [row["perimeter_m"] for row in expected], rel=1e-5
    )
    assert {row["sigma_from"] for row in rows} == {"assumed"}


def test_an_outline_that_was_changed_is_measured_anew_and_assumed(survey, tmp_path):
    provider, path = survey
    layer = QgsVectorLayer(f"{path}|layername=areas", "areas", "ogr")
    first = next(layer.getFeatures())
    assert layer.startEditing()
    moved = QgsGeometry(first.geometry())
    vertex = moved.vertexAt(0)
    assert moved.moveVertex(vertex.x() + 0.5, vertex.y() + 0.5, 0)
    assert layer.changeGeometry(first.id(), moved)
    rows = measured(provider, "measure_areas", layer)
    layer.rollBack()
    changed = next(row for row in rows if row["fid"] == first.id())
    assert changed["sigma_from_2"] == "assumed"
    assert abs(changed["area_m2_2"] - changed["area_m2"]) > 0.01
    others = [row for row in rows if row["fid"] != first.id()]
    assert all(row["area_m2_2"] == row["area_m2"] for row in others)


def test_what_the_survey_kept_out_stays_out(survey, tmp_path):
    provider, path = survey
    copy = tmp_path / "copy.gpkg"
    copy.write_bytes(path.read_bytes())
    with closing(sqlite3.connect(copy)) as database:
        for name, count in (
            ("ST_IsEmpty", 1),
            ("ST_MinX", 1),
            ("ST_MaxX", 1),
            ("ST_MinY", 1),
            ("ST_MaxY", 1),
        ):
            database.create_function(name, count, lambda _: None)
        fid = database.execute("SELECT min(fid) FROM areas").fetchone()[0]
        database.execute(
            "UPDATE areas SET area_m2 = NULL, area_m2_sigma = NULL, finding = 'CL-01' WHERE fid = ?", (fid,)
        )
        database.commit()
    rows = measured(provider, "measure_areas", QgsVectorLayer(f"{copy}|layername=areas", "areas", "ogr"))
    row = next(row for row in rows if row["fid"] == fid)
    assert row["area_m2_2"] is None
    assert row["finding_2"] == (
        "CL-01: The survey kept this figure out (CL-01). Answer its findings in the decisions file and run the survey again."
    )
