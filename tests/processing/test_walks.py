# SPDX-License-Identifier: GPL-2.0-or-later
"""Read, adjust and place: the stations, each in its own frame, and the tables beside them."""

from __future__ import annotations

import math

import pytest
from qgis.core import QgsProcessingContext, QgsProcessingException, QgsProcessingFeedback, QgsVectorLayer

from tests.made_survey import made_survey


def run(provider, name, job, tmp_path, **outputs):
    algorithm = provider.algorithm(name).create()
    places = {key: str(tmp_path / f"{key.lower()}.gpkg") for key in outputs}
    results, was_good = algorithm.run(
        {"LOGS": str(job), **places},
        QgsProcessingContext(),
        QgsProcessingFeedback(),
        {},
        catchExceptions=False,
    )
    assert was_good
    layers = {key: QgsVectorLayer(results[key], key, "ogr") for key in outputs}
    assert all(layer.isValid() for layer in layers.values())
    return layers


def test_read_walks_gives_each_station_as_recorded(provider, job, tmp_path):
    layers = run(provider, "read_walks", job, tmp_path, STATIONS=1, FINDINGS=1)
    stations = list(layers["STATIONS"].getFeatures())
    assert [s["station"] for s in stations] == ["1", "2", "3", "4"]
    assert [(s["x_m"], s["y_m"], s["z_m"]) for s in stations][2] == (10.0, 5.0, 84.8)
    assert stations[0]["mark"] == "A"
    assert layers["STATIONS"].crs().authid() == ""
    point = stations[2].geometry().constGet()
    assert (point.x(), point.y(), point.z()) == (10.0, 5.0, 84.8)


def test_read_walks_takes_the_pole_off_and_turns_feet_to_metres(provider, tmp_path):
    folder = tmp_path / "feet"
    folder.mkdir()
    (folder / "w.csv").write_text("# units: ft\nwalk,station,x,y,z,pole\nW,1,100,0,10,6\n", encoding="utf-8")
    layers = run(provider, "read_walks", folder, tmp_path, STATIONS=1)
    station = next(layers["STATIONS"].getFeatures())
    assert station["x_m"] == pytest.approx(30.48, abs=1e-12)
    assert station["z_m"] == pytest.approx(4 * 0.3048, abs=1e-12)


def test_adjust_walks_stays_in_the_survey_plane(provider, job, made_core, tmp_path):
    layers = run(provider, "adjust_walks", job, tmp_path, STATIONS=1, MARKS=1, WALKS=1, FINDINGS=1)
    mark = next(layers["MARKS"].getFeatures())
    point = mark.geometry().asPoint()
    assert (point.x(), point.y()) == (-1.0, -4.0)
    station = next(layers["STATIONS"].getFeatures())
    assert station["sigma_bearing_deg"] == pytest.approx(60.0, abs=1e-9)
    assert next(layers["WALKS"].getFeatures())["misclosure_m"] == 0.031
    assert layers["FINDINGS"].featureCount() == 3
    plane = layers["STATIONS"].crs()
    assert plane.mapUnits() == 0
    assert "Survey plane" in plane.description()


def test_place_survey_puts_marks_on_the_map(provider, job, made_core, tmp_path):
    layers = run(provider, "place_survey", job, tmp_path, MARKS=1, STATIONS=1, PLACEMENT=1, FINDINGS=1)
    survey = made_survey()
    assert layers["MARKS"].crs().authid() == "EPSG:25831"
    point = next(layers["MARKS"].getFeatures()).geometry().asPoint()
    import numpy as np

    assert (point.x(), point.y()) == pytest.approx(
        tuple(survey.plane.to_crs(np.array([[-1.0, -4.0]]))[0]), abs=1e-6
    )
    placement = next(layers["PLACEMENT"].getFeatures())
    assert placement["status"] == "placed"
    assert placement["rotation_deg"] == pytest.approx(math.degrees(math.radians(27.5)), abs=1e-12)


def test_what_is_said_of_one_file_hits_no_other(provider, tmp_path):
    folder = tmp_path / "lists"
    folder.mkdir()
    (folder / "one.txt").write_text("1,200,100\n2,210,120\n", encoding="utf-8")
    (folder / "two.csv").write_text("# units: ft\nno,north,east\n1,200,100\n", encoding="utf-8")
    algorithm = provider.algorithm("read_walks").create()
    given = {
        "LOGS": str(folder),
        "COLUMNS": "one.txt: number, easting, northing",
        "FILE_UNITS": "one.txt: m; two.csv: us-ft",
        "FILE_CRS": "one.txt: EPSG:25831",
        "STATIONS": str(tmp_path / "stations.gpkg"),
    }
    results, was_good = algorithm.run(
        given, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False
    )
    assert was_good
    rows = QgsVectorLayer(results["STATIONS"], "s", "ogr").getFeatures()
    found = {(row["walk"], row["station"]): (row["x_m"], row["y_m"]) for row in rows}
    assert found["one", "1"] == (200.0, 100.0)
    assert found["two", "1"] == pytest.approx((100 * 1200 / 3937, 200 * 1200 / 3937), abs=1e-9)


def test_an_entry_for_a_file_that_is_not_there_is_refused(provider, job, tmp_path):
    algorithm = provider.algorithm("survey_walks").create()
    given = {"LOGS": str(job), "FILE_UNITS": "w2.csv: ft", "OUTPUT": str(tmp_path / "s.gpkg")}
    with pytest.raises(QgsProcessingException, match="w2.csv: ft"):
        algorithm.run(given, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False)
    assert not (tmp_path / "s.gpkg").exists()
