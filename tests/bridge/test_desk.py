# SPDX-License-Identifier: GPL-2.0-or-later
"""What the desk says of a job, and which jobs a project holds."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from qgis.core import QgsProject

from plugin.bridge.checks_run import CheckChoice, KeptChoice, keep_choice, read_choice
from plugin.bridge.desk import State, Subject, length, read_desk
from plugin.bridge.findings import read_findings
from plugin.bridge.geopackage import write_survey
from plugin.bridge.inventory import take_inventory
from plugin.bridge.jobs import DeskJob, add_job, is_survey, read_jobs
from plugin.bridge.open_survey import open_survey_file
from plugin.bridge.project import fill_project
from plugin.core.errors import BadInput
from tests.made_surfaces import ground, layer_of, plain
from tests.made_survey import made_survey

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"


@pytest.fixture
def job(tmp_path):
    """A made survey on the disk."""
    path = tmp_path / "yard.gpkg"
    write_survey(made_survey("EPSG:25831"), path, None, ())
    return DeskJob(tmp_path, path)


def test_a_job_without_a_survey_says_so(tmp_path):
    (row,) = read_desk(DeskJob(tmp_path, tmp_path / "none.gpkg"))
    assert (row.subject, row.state, row.words) == (
        Subject.WALKS,
        State.LACKS,
        "nothing surveyed yet: run the job",
    )


def test_each_subject_has_its_worst_figure(job):
    rows = {row.subject: row for row in read_desk(job)}
    assert set(rows) >= {
        Subject.WALKS,
        Subject.FINDINGS,
        Subject.MARKS,
        Subject.PLACE,
        Subject.HEIGHTS,
        Subject.FIGURES,
    }
    assert all(row.title[0].isupper() and row.words for row in rows.values())


def ground_row(job):
    (row,) = [row for row in read_desk(job) if row.subject is Subject.GROUND]
    return row.title, row.state, row.words


def test_the_ground_lacks_a_surface_until_the_project_has_one(job, tmp_path):
    project = QgsProject.instance()
    project.clear()
    assert ground_row(job) == ("Ground", State.LACKS, "no surface yet")
    plane = made_survey("EPSG:25831").plane
    one = layer_of(ground(is_weak=True), "ground", tmp_path / "g.gpkg", plane)
    worse = layer_of(plain(84.4, 0.0, 0.06), "finished", tmp_path / "f.gpkg", plane)
    project.addMapLayers([one, worse])
    assert ground_row(job) == (
        "Ground",
        State.GOOD,
        "finished, ground; worst point ±0.12 m (95 %), in finished; 1 of 4 triangles are weak",
    )
    project.clear()


def test_a_survey_without_heights_has_no_row_of_the_ground(tmp_path, qgis_app):
    bare = replace(made_survey("EPSG:25831"), stations=())
    path = write_survey(bare, tmp_path / "bare.gpkg", None, ())
    assert Subject.GROUND not in {row.subject for row in read_desk(DeskJob(tmp_path, path))}


def test_a_file_that_is_no_survey_is_told(tmp_path):
    (tmp_path / "x.gpkg").write_bytes(b"no database at all")
    (row,) = read_desk(DeskJob(tmp_path, tmp_path / "x.gpkg"))
    assert (row.state, row.words) == (State.STOPS, "the survey cannot be read: run the job again")
    assert read_findings(tmp_path / "x.gpkg") == ()


def test_a_project_keeps_its_jobs(qgis_app, tmp_path):
    project = QgsProject()
    one, two = (DeskJob(tmp_path / name, tmp_path / name / "s.gpkg") for name in ("one", "two"))
    add_job(project, one)
    add_job(project, two)
    add_job(project, DeskJob(one.folder, tmp_path / "other.gpkg"))
    assert [job.name for job in read_jobs(project)] == ["two", "one"]
    assert project.write(str(tmp_path / "p.qgz"))
    again = QgsProject()
    assert again.read(str(tmp_path / "p.qgz"))
    assert read_jobs(again) == (two, DeskJob(one.folder, tmp_path / "other.gpkg"))


def test_a_survey_whose_layers_are_shown_is_a_job_without_logs(job, tmp_path):
    project = QgsProject()
    assert read_jobs(project) == ()
    fill_project(project, job.survey)
    assert read_jobs(project) == (DeskJob(tmp_path, job.survey, has_logs=False),)
    assert read_jobs(project)[0].name == "yard"
    add_job(project, job)  # its logs are known: it is that job and no other
    assert read_jobs(project) == (job,)


def test_two_surveys_in_one_folder_are_two_jobs(job, tmp_path):
    other = tmp_path / "later.gpkg"
    shutil.copy(job.survey, other)
    project = QgsProject()
    for path in (job.survey, other):
        open_survey_file(project, path)
    assert [one.name for one in read_jobs(project)] == ["yard", "later"]
    for number, one in enumerate(read_jobs(project)):
        keep_choice(project, one, KeptChoice(CheckChoice(left_out=frozenset({f"limit {number}"}))))
    assert [read_choice(project, one).now.left_out for one in read_jobs(project)] == [
        {"limit 0"},
        {"limit 1"},
    ]


def test_what_is_no_survey_is_none(job, tmp_path):
    (tmp_path / "x.gpkg").write_bytes(b"no database at all")
    (tmp_path / "empty.gpkg").touch()
    shutil.copy(job.survey, tmp_path / "part.gpkg")
    with closing(sqlite3.connect(tmp_path / "part.gpkg")) as database:
        database.execute("DROP TABLE runs")
        database.commit()
    found = {path.name: is_survey(path) for path in tmp_path.glob("*.gpkg")}
    assert found == {"yard.gpkg": True, "x.gpkg": False, "empty.gpkg": False, "part.gpkg": False}
    assert not is_survey(tmp_path / "gone.gpkg")
    with pytest.raises(BadInput, match=r"part\.gpkg is no survey\."):
        open_survey_file(QgsProject(), tmp_path / "part.gpkg")


@pytest.mark.parametrize("text", ["", "{", "[1]", '{"a": 1}', '[{"folder": "x"}]'])
def test_entries_that_cannot_be_read_are_no_jobs(qgis_app, text):
    project = QgsProject()
    project.writeEntry("GroundTally", "jobs", text)
    assert read_jobs(project) == ()


@pytest.mark.parametrize(
    ("metres", "words"),
    [(0.012, "12 mm"), (0.0999, "100 mm"), (0.1, "0.10 m"), (12.345, "12.35 m"), (-0.004, "-4 mm")],
)
def test_lengths_are_read_in_the_unit_that_fits(metres, words):
    assert length(metres) == words


def test_the_inventory_tells_each_file_by_its_content():
    inventory = take_inventory(DEMO)
    assert inventory.has_logs
    assert inventory.picture
    lines = inventory.words.splitlines()
    assert lines[0].startswith("walk_1.csv: walk log (units m, instrument demo-1")
    assert any(line.startswith("control.csv: control (crs EPSG:25831") for line in lines)


def test_a_folder_without_logs_says_what_a_job_needs(tmp_path):
    (tmp_path / "control.csv").write_text("# crs: EPSG:25831\nmark,x,y\nA,0,0\n", encoding="utf-8")
    inventory = take_inventory(tmp_path)
    assert not inventory.has_logs
    assert inventory.words.endswith("a job needs walk logs, point lists, GPX, NMEA 0183 or LandXML.")
