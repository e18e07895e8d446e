# SPDX-License-Identifier: GPL-2.0-or-later
"""The main job: files in, GeoPackage and project out, and what it says on the way."""

from __future__ import annotations

import hashlib
import sqlite3
from contextlib import closing

import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
    QgsWkbTypes,
)

from plugin.core.errors import Refused
from plugin.processing.runs import job as job_run


class Heard(QgsProcessingFeedback):
    """Feedback that keeps what it is told."""

    def __init__(self):
        super().__init__(False)
        self.infos, self.warnings = [], []

    def pushInfo(self, info):
        self.infos.append(info)

    def pushWarning(self, warning):
        self.warnings.append(warning)


def run(provider, feedback=None, **given):
    algorithm = provider.algorithm("survey_walks").create()
    feedback = feedback or QgsProcessingFeedback()
    results, was_good = algorithm.run(given, QgsProcessingContext(), feedback, {}, catchExceptions=False)
    assert was_good
    return results


def facts(path):
    with closing(sqlite3.connect(path)) as connection:
        return {
            (kind, name): value
            for kind, name, value in connection.execute("SELECT kind, name, value FROM runs")
        }


def test_a_folder_gives_a_survey_and_its_project(provider, job, made_core, tmp_path):
    results = run(provider, LOGS=str(job), OUTPUT=str(tmp_path / "site.gpkg"))
    assert results == {"OUTPUT": str(tmp_path / "site.gpkg"), "PROJECT": str(tmp_path / "site.qgz")}
    assert QgsVectorLayer(f"{results['OUTPUT']}|layername=areas", "areas", "ogr").featureCount() == 5
    project = QgsProject()
    assert project.read(results["PROJECT"])
    files, settings = made_core[0]
    assert sorted(files) == ["control.csv", "w1.csv"]
    assert (settings.crs, settings.height, settings.fit_scale) == (None, None, False)


def test_files_named_by_semicolons_are_files(provider, job, made_core, tmp_path):
    run(provider, LOGS=f"{job / 'w1.csv'};{job / 'control.csv'}", OUTPUT=str(tmp_path / "site.gpkg"))
    assert sorted(made_core[0][0]) == ["control.csv", "w1.csv"]


def test_one_log_alone_brings_the_control_that_lies_beside_it(provider, job, made_core, tmp_path):
    (job / "w2.csv").write_bytes((job / "w1.csv").read_bytes().replace(b"W1", b"W2"))
    run(provider, LOGS=[str(job / "w2.csv")], OUTPUT=str(tmp_path / "site.gpkg"))
    assert sorted(made_core[0][0]) == ["control.csv", "w2.csv"]


def test_a_named_control_takes_the_place_of_the_one_beside_the_logs(provider, job, made_core, tmp_path):
    other = tmp_path / "better.csv"
    other.write_bytes((job / "control.csv").read_bytes())
    run(provider, LOGS=str(job), CONTROL=str(other), OUTPUT=str(tmp_path / "site.gpkg"))
    assert sorted(made_core[0][0]) == ["better.csv", "w1.csv"]


def test_a_log_named_as_control_is_told(provider, job, made_core, tmp_path):
    with pytest.raises(
        QgsProcessingException, match=r"w1\.csv was named as control, but it holds: walk log\. Name the"
    ):
        run(provider, LOGS=str(job), CONTROL=str(job / "w1.csv"), OUTPUT=str(tmp_path / "site.gpkg"))


def test_settings_reach_the_core(provider, job, made_core, tmp_path):
    run(provider, LOGS=str(job), CRS="EPSG:2264", HEIGHT=84.2, SCALE=True, OUTPUT=str(tmp_path / "site.gpkg"))
    settings = made_core[0][1]
    assert (settings.crs, settings.height, settings.fit_scale) == ("EPSG:2264", 84.2, True)


def test_a_height_of_nought_is_a_height(provider, job, made_core, tmp_path):
    run(provider, LOGS=str(job), HEIGHT=0, OUTPUT=str(tmp_path / "site.gpkg"))
    assert made_core[0][1].height == 0.0


def test_the_survey_keeps_what_it_was_made_from(provider, job, made_core, tmp_path):
    kept = facts(run(provider, LOGS=str(job), HEIGHT=84.2, OUTPUT=str(tmp_path / "site.gpkg"))["OUTPUT"])
    assert kept["input", "w1.csv"] == hashlib.sha256((job / "w1.csv").read_bytes()).hexdigest()
    assert kept["setting", "height"] == "84.2"
    assert kept["version", "ground_tally"]
    assert {"qgis", "gdal", "proj", "numpy"} <= {name for kind, name in kept if kind == "version"}


def test_open_stops_are_warnings_and_all_findings_are_counted(provider, job, made_core, tmp_path):
    heard = Heard()
    run(provider, heard, LOGS=str(job), OUTPUT=str(tmp_path / "site.gpkg"))
    assert heard.warnings == [
        (
            'GE-01 Bed 3: The outline of "Bed 3" crosses itself between stations 4 and 7. '
            'Answer with the outline that is meant, or walk "Bed 3" again.'
        )
    ]
    assert "Findings: stop 1, ask 1, answered 0, note 1." in heard.infos


def test_a_copy_without_curves_is_written_on_request(provider, job, made_core, tmp_path):
    results = run(provider, LOGS=str(job), CHORDED=True, TOLERANCE=0.001, OUTPUT=str(tmp_path / "site.gpkg"))
    assert results["CHORDED_COPY"] == str(tmp_path / "site_chorded.gpkg")
    layer = QgsVectorLayer(f"{results['CHORDED_COPY']}|layername=areas", "areas", "ogr")
    assert QgsWkbTypes.displayString(layer.wkbType()) == "PolygonZ"
    assert facts(results["CHORDED_COPY"])["setting", "chord_sag_m"] == "0.001"
    assert ("setting", "chord_sag_m") not in facts(results["OUTPUT"])


def test_a_refused_job_says_why_and_leaves_the_older_survey(provider, job, made_core, tmp_path, monkeypatch):
    path = tmp_path / "site.gpkg"
    run(provider, LOGS=str(job), OUTPUT=str(path))
    before = path.read_bytes()

    def refuse(files, settings, progress):
        raise Refused("{code}: mark {mark} lies off.", code="PL-02", mark="B")

    monkeypatch.setattr(job_run, "survey_files", refuse)
    with pytest.raises(QgsProcessingException, match=r"PL-02: mark B lies off\."):
        run(provider, LOGS=str(job), OUTPUT=str(path))
    assert path.read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["job", "site.gpkg", "site.qgz"]


def test_two_files_of_one_name_keep_their_folders(provider, job, made_core, tmp_path):
    second = tmp_path / "second"
    second.mkdir()
    (second / "w1.csv").write_bytes((job / "w1.csv").read_bytes())
    run(provider, LOGS=[str(job), str(second)], OUTPUT=str(tmp_path / "site.gpkg"))
    assert sorted(made_core[0][0]) == ["control.csv", "job/w1.csv", "second/w1.csv"]


def test_a_crs_that_nothing_answers_to_is_refused_with_what_was_given(provider, job, made_core, tmp_path):
    words = r'"EPSG:99999" is no CRS that is known here\. Give an authority code such as EPSG:25831, or leave it out'
    with pytest.raises(QgsProcessingException, match=words):
        run(provider, LOGS=str(job), CRS="EPSG:99999", OUTPUT=str(tmp_path / "site.gpkg"))
    assert made_core == []


def test_an_empty_choice_of_crs_is_none(provider, job, made_core, tmp_path):
    run(provider, LOGS=str(job), CRS=QgsCoordinateReferenceSystem(), OUTPUT=str(tmp_path / "site.gpkg"))
    assert made_core[0][1].crs is None


def test_files_that_are_no_logs_are_named_and_left_alone(provider, job, made_core, tmp_path):
    (job / "rates.csv").write_text("item,unit,rate\nkerb,m,1\n", encoding="utf-8")
    heard = Heard()
    run(provider, heard, LOGS=str(job), OUTPUT=str(tmp_path / "site.gpkg"))
    words = "Not read, for these are no walk logs and no tables beside them: rates.csv."
    assert words in heard.infos


def test_a_lone_gpx_file_becomes_a_survey_in_its_utm_zone(provider, tmp_path):
    points = "".join(
        f"<trkpt lat='{48 + y / 111200}' lon='{11.5 + x / 74600}'/>"
        for x, y in ((0, 0), (300, 0), (300, 200), (0, 200))
    )
    gpx = f"<gpx version='1.1'><trk><name>Way</name><trkseg>{points}</trkseg></trk></gpx>"
    (tmp_path / "way.gpx").write_text(gpx, encoding="utf-8")
    results = run(provider, LOGS=str(tmp_path / "way.gpx"), OUTPUT=str(tmp_path / "site.gpkg"))
    layer = QgsVectorLayer(f"{results['OUTPUT']}|layername=lengths", "lengths", "ogr")
    assert layer.crs().authid() == "EPSG:32632"
    (row,) = layer.getFeatures()
    assert row["feature"] == "Way"
    assert row["length_m"] == pytest.approx(800.0, rel=5e-3)
    assert row["length_m_sigma"] > 5.0


def test_a_gpx_file_without_a_point_is_refused(provider, tmp_path):
    (tmp_path / "way.gpx").write_text('<gpx version="1.1"></gpx>\n', encoding="utf-8")
    with pytest.raises(QgsProcessingException, match=r"way\.gpx"):
        run(provider, LOGS=str(tmp_path / "way.gpx"), OUTPUT=str(tmp_path / "site.gpkg"))
    assert [p.name for p in tmp_path.iterdir()] == ["way.gpx"]


def test_many_files_in_one_text_are_files(provider, job, made_core, tmp_path):
    folder = tmp_path / ("long" * 30)
    folder.mkdir()
    logs = [folder / f"w{n}.csv" for n in range(40)]
    for log in logs:
        log.write_bytes((job / "w1.csv").read_bytes())
    run(provider, LOGS=";".join(map(str, logs)), OUTPUT=str(tmp_path / "site.gpkg"))
    assert len(made_core[0][0]) == 40


def test_a_project_that_cannot_be_written_leaves_the_survey(provider, job, made_core, tmp_path):
    (tmp_path / "site.qgz").mkdir()
    heard = Heard()
    results = run(provider, heard, LOGS=str(job), OUTPUT=str(tmp_path / "site.gpkg"))
    assert "PROJECT" not in results
    assert QgsVectorLayer(f"{results['OUTPUT']}|layername=areas", "areas", "ogr").featureCount() == 5
    assert heard.warnings[-1].startswith(f"{tmp_path / 'site.qgz'} cannot be written: ")
