# SPDX-License-Identifier: GPL-2.0-or-later
"""The checks beside a survey: read back the worst first, found on the map, told as out of date; what a job is held against
is kept with its project."""

from __future__ import annotations

import json
import os
import sqlite3
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from qgis.core import QgsApplication, QgsProject, QgsWkbTypes

from plugin.bridge.check_rows import COLUMNS
from plugin.bridge.checks_file import (
    ToldCheck,
    Verdict,
    check_places,
    checks_file,
    count_checks,
    read_checks,
    tell_counts,
    why_outdated,
)
from plugin.bridge.checks_run import (
    CheckChoice,
    KeptChoice,
    add_checks,
    check_parameters,
    keep_choice,
    offered_limits,
    read_choice,
    why_old,
)
from plugin.bridge.desk import State, Subject, read_desk
from plugin.bridge.geopackage import write_survey
from plugin.bridge.jobs import DeskJob, add_job, read_jobs
from plugin.bridge.limits import load_limits, split_names, tell_names
from plugin.core.errors import BadInput
from plugin.processing.provider import Provider
from tests.made_checks import AREAS, OWN
from tests.made_survey import made_survey

AGAIN = "The survey was run again after these checks."


@pytest.fixture
def provider(qgis_app, qgis_processing):
    registry = QgsApplication.processingRegistry()
    ours = registry.providerById("groundtally")
    added = None
    if ours is None:
        added = Provider()
        registry.addProvider(added)
    yield
    if added is not None:
        registry.removeProvider(added)


@pytest.fixture
def project(qgis_app):
    project = QgsProject.instance()
    project.clear()
    yield project
    project.clear()


@pytest.fixture
def job(tmp_path):
    """A made survey, and a table of limits beside it."""
    (tmp_path / "own.csv").write_text(OWN, encoding="utf-8")
    return DeskJob(tmp_path, write_survey(made_survey(), tmp_path / "yard.gpkg"))


def table_of(job: DeskJob) -> Path:
    return job.folder / "own.csv"


def check(job: DeskJob, **more: object) -> tuple[ToldCheck, ...]:
    import processing  # the host's, there once a provider runs

    given = {"SURVEY": str(job.survey), "LIMITS": str(table_of(job)), "OUTPUT": str(checks_file(job.survey))}
    processing.run("groundtally:check_limits", {**given, **more})
    return read_checks(checks_file(job.survey))


def again(job: DeskJob) -> None:
    """The survey made anew, a little later than what is there."""
    time.sleep(0.01)
    write_survey(made_survey(), job.survey)


# --- the reader ---


def test_the_checks_lie_beside_the_survey():
    assert checks_file(Path("somewhere/yard.v2.gpkg")) == Path("somewhere/yard.v2_checks.gpkg")


@pytest.mark.usefixtures("provider")
def test_checks_come_the_worst_first_and_what_has_no_limit_last(job):
    told = check(job)
    order = [(one.verdict, one.feature, one.limit) for one in told]
    assert order == [
        *((Verdict.FAILS, name, "Steep") for name in AREAS),
        *((Verdict.CANNOT_TELL, name, "Even, or nearly") for name in AREAS),
        (Verdict.NOT_MEASURED, "Bed 3", ""),
        # 1:60 is 8 sigmas away from 1:50, 1:20 is 75.
        *((Verdict.PASSES, name, limit) for limit in ("Drains", "Even") for name in AREAS),
    ]
    assert tell_counts(count_checks(told)) == "3 fail, 3 cannot tell, 1 not measured, 6 pass"


@pytest.mark.usefixtures("provider")
def test_a_check_tells_the_figure_what_is_allowed_and_what_to_do(job):
    told = {(one.feature, one.limit): one for one in check(job)}
    one = told["Court", "Even, or nearly"]
    assert (one.what, one.figure, one.allowed) == (
        "fall gradient",
        ("1:50.0", "(1:48.1 to 1:52.0)"),
        "1:50.2 or flatter",
    )
    # The chance by the normal law: 1/50.2 is 0.199 sigmas below 0.02, and 42 % lie below that.
    assert one.details.splitlines()[:3] == [
        "DR-01: Cannot tell: the 95 % interval lies on both sides. Level it better.",
        "The chance that it is allowed is 42 %.",
        "Limit: Office, page 4 (from memory: look it up before use).",
    ]
    assert told["Court", "Drains"].details.splitlines()[0] == (
        "Limit: Office, page 3 (looked up). Water runs off."
    )
    assert told["Bed 3", ""].details == (
        "GE-07: The survey kept this row's figures out (GE-01). Answer its findings in the decisions file and run the "
        "survey again."
    )
    assert told["Court", "Steep"].sentence == (
        "Court, fall gradient: 1:50.0 (1:48.1 to 1:52.0), allowed 1:40 or steeper (Steep)"
    )


def made_check(**more: object) -> ToldCheck:
    plain = dict.fromkeys(("feature", "limit", "measured", "allowed", "source", "note"), "")
    rest = dict.fromkeys(("method", "sigma_from", "finding", "thing", "quantity", "place"), "")
    told = {"verdict": Verdict.PASSES, "count": 1, "chance": None, "room": 0.0, "is_seen": True}
    return ToldCheck(**{**plain, **rest, **told, **more})


@pytest.mark.parametrize(
    ("thing", "quantity", "place", "words"),
    [
        ("steps", "riser", "riser 2", "riser 2"),
        ("steps", "2r+g", "going 3", "2r+g, going 3"),
        ("steps", "difference", "flight 1", "difference, flight 1"),
        ("landing", "crossfall", "landing 1", "crossfall, landing 1"),
        ("ramp", "gradient", "flight 2", "ramp gradient, flight 2"),
        ("wall", "height", "", "wall height"),
        ("path", "", "", "path"),
    ],
)
def test_which_figure_it_is_is_said_once(thing, quantity, place, words):
    assert made_check(thing=thing, quantity=quantity, place=place).what == words


def test_checks_that_fail_alike_are_told_apart_by_how_far_out_they_are(tmp_path, project):
    path = made_file(
        tmp_path / "c.gpkg",
        [
            # A chance too small to be told from nothing: 40 and 60 sigmas out, over and below what is allowed.
            {"feature": "near", "chance_ratio": 0.0, "figure_ratio": -0.06, "at_most_ratio": 0.02},
            {"feature": "far", "chance_ratio": 0.0, "figure_ratio": 0.02, "at_least_ratio": 0.08},
            {"feature": "likely", "chance_ratio": 0.01, "figure_ratio": 0.02, "at_least_ratio": 0.022},
            {
                "feature": "exact",
                "chance_ratio": 0.0,
                "figure_m": 0.2,
                "at_most_m": 0.1,
                "figure_m_sigma": 0.0,
            },
        ],
    )
    told = read_checks(path)
    assert [one.feature for one in told] == ["exact", "far", "near", "likely"]
    assert [round(one.room) for one in told[1:]] == [-60, -40, -2]


def made_file(path: Path, rows: list[dict[str, object]]) -> Path:
    """A file with the columns that are read, and nothing else that a GeoPackage has."""
    names = [name for name, _ in COLUMNS]
    with closing(sqlite3.connect(path)) as database:
        database.execute("CREATE TABLE gpkg_contents (table_name TEXT, last_change TEXT)")
        database.execute("INSERT INTO gpkg_contents VALUES ('odd \"name\"', '2026-01-01T00:00:00.000Z')")
        columns = ", ".join(f'"{name}"' for name in names)
        database.execute(f'CREATE TABLE "odd ""name""" (fid INTEGER PRIMARY KEY, {columns})')
        for row in rows:
            plain = {"outcome": "fail", "figure_ratio_sigma": 0.001, **row}
            values = [plain.get(name) for name in names]
            marks = ", ".join("?" * len(names))
            database.execute(f'INSERT INTO "odd ""name""" ({columns}) VALUES ({marks})', values)
        database.commit()
    return path


@pytest.mark.parametrize("data", [b"", b"no database at all"])
def test_a_file_that_holds_no_checks_is_refused(tmp_path, data):
    path = tmp_path / "yard_checks.gpkg"
    path.write_bytes(data)
    with pytest.raises(BadInput) as told:
        read_checks(path)
    assert str(told.value).startswith(f"{path} cannot be read as checks of this version (")
    assert str(told.value).endswith("). Press Check again.")


@pytest.mark.parametrize(
    "cell", [{"count": "many"}, {"chance_ratio": "x"}, {"figure_ratio": "steep", "at_most_ratio": "x"}]
)
def test_a_number_that_somebody_wrote_words_into_is_refused(tmp_path, cell):
    path = made_file(tmp_path / "c.gpkg", [{"feature": "Court"}, {"feature": "Bed", **cell}])
    with pytest.raises(BadInput, match="cannot be read as checks of this version"):
        read_checks(path)


def test_cells_that_are_empty_do_no_harm(tmp_path):
    path = made_file(tmp_path / "c.gpkg", [{"outcome": None}, {"outcome": "pass"}, {"outcome": "strange"}])
    told = read_checks(path)
    assert [one.verdict for one in told] == [Verdict.PASSES, Verdict.NO_LIMIT, Verdict.NO_LIMIT]
    assert {(one.what, one.figure, one.details, one.sentence) for one in told} == {("", ("", ""), "", ", ")}


def test_a_table_of_something_else_is_refused(job):
    with pytest.raises(BadInput, match="no such column"):
        read_checks(job.survey)


# --- on the map ---


@pytest.mark.usefixtures("provider")
def test_every_check_is_found_on_the_map(job):
    """By feature and part, also where a wall is two lines; a part that is no edge is a part of the name."""
    plane = made_survey().plane
    told = check(job)
    for one in told:
        assert len(check_places(job.survey, one)) == 1, one.feature
    court = next(one for one in told if one.feature == "Court")
    (place,) = check_places(job.survey, court)
    west, south = plane.to_crs(np.array([[2.0, 2.0]]))[0]
    near = [
        np.hypot(place.vertexAt(k).x() - west, place.vertexAt(k).y() - south)
        for k in range(place.constGet().nCoordinates())
    ]
    assert min(near) < 1e-6
    assert not place.constGet().hasCurvedSegments()
    assert place.constGet().nCoordinates() > 20, "the curved side is drawn as chords"


def test_two_edges_of_one_thing_are_both_found_and_other_parts_are_not(job):
    with closing(sqlite3.connect(job.survey)) as database:
        database.execute(
            "DROP TRIGGER IF EXISTS rtree_lengths_geom_insert"
        )  # SQLite alone has not its functions
        for feature, part in (("W", "foot"), ("W", "Top"), ("W", "back"), (None, None)):
            columns = "SELECT geom, ?, ? FROM lengths WHERE feature = 'Kerb'"
            database.execute(f"INSERT INTO lengths (geom, feature, part) {columns}", (feature, part))
        (unnamed,) = database.execute("SELECT max(fid) FROM lengths").fetchone()
        database.commit()
    found = {
        name: len(check_places(job.survey, made_check(thing="wall", feature=name)))
        for name in ("W", "W/back", f"row {unnamed}", "W/foot", "nothing", "row 99999")
    }
    assert found == {"W": 2, "W/back": 1, f"row {unnamed}": 1, "W/foot": 0, "nothing": 0, "row 99999": 0}


def test_a_ramp_that_was_walked_as_an_area_is_found_there_unless_a_length_has_its_name(job):
    """Both names of areas and of lengths are there in the made survey."""
    (area,) = check_places(job.survey, made_check(thing="fall", feature="Court"))
    (ramp,) = check_places(job.survey, made_check(thing="ramp", feature="Court"))
    assert ramp.asWkt() == area.asWkt()
    (kerb,) = check_places(job.survey, made_check(thing="path", feature="Kerb"))
    assert kerb.type() == QgsWkbTypes.GeometryType.LineGeometry


def test_a_check_of_a_survey_that_is_gone_is_nowhere(tmp_path):
    assert check_places(tmp_path / "none.gpkg", made_check(thing="fall", feature="Court")) == ()


# --- out of date ---


@pytest.mark.usefixtures("provider")
def test_a_survey_that_was_run_again_has_checks_of_yesterday(job):
    check(job)
    assert why_outdated(job.survey, table_of(job)) == ""
    os.utime(job.survey)  # opened, and nothing changed
    assert why_outdated(job.survey, None) == ""
    again(job)
    assert why_outdated(job.survey, None) == AGAIN
    check(job)
    assert why_outdated(job.survey, None) == ""


@pytest.mark.usefixtures("provider")
def test_a_table_of_limits_that_was_changed_has_checks_of_yesterday(job):
    check(job)
    later = time.time() + 5.0
    os.utime(table_of(job), (later, later))
    assert why_outdated(job.survey, table_of(job)) == ("The table of limits was changed after these checks.")
    assert why_outdated(job.survey, job.folder / "gone.csv") == ""


@pytest.mark.usefixtures("provider")
def test_other_limits_than_the_checks_were_made_with_are_told(job, project):
    check(job)
    ran = CheckChoice(str(table_of(job)))
    keep_choice(project, job, KeptChoice(ran, ran))
    assert why_old(project, job) == ""
    keep_choice(project, job, KeptChoice(replace(ran, left_out=frozenset({"Steep"})), ran))
    assert why_old(project, job) == "Other limits are chosen now than these checks were made with."


# --- what is kept ---


def test_a_project_keeps_what_its_jobs_are_held_against(project, job, tmp_path):
    other = DeskJob(tmp_path / "other", tmp_path / "other" / "s.gpkg")
    one = KeptChoice(CheckChoice(str(table_of(job)), frozenset({"Steep", 'a "b", c'}), "layer_1"))
    two = KeptChoice(CheckChoice(), CheckChoice(surface="layer_2"))
    assert read_choice(project, job) == KeptChoice()
    add_job(project, job)
    keep_choice(project, job, one)
    keep_choice(project, other, two)
    assert (read_choice(project, job), read_choice(project, other)) == (one, two)
    assert project.write(str(tmp_path / "p.qgz"))
    project.clear()
    assert read_choice(project, job) == KeptChoice()
    assert project.read(str(tmp_path / "p.qgz"))
    assert (read_choice(project, job), read_choice(project, other)) == (one, two)
    assert read_jobs(project) == (job,)


def test_nothing_is_written_where_nothing_was_changed(project, job):
    project.setDirty(False)
    keep_choice(project, job, KeptChoice())
    assert not project.isDirty()


@pytest.mark.parametrize(
    "text", ["", "[", "7", "[7]", '[{"folder": 7}]', '[{"now": {}}]', '{"folder": "x"}', "null"]
)
def test_what_somebody_wrote_into_the_project_does_no_harm(project, job, text):
    project.writeEntry("GroundTally", "checks", text)
    assert read_choice(project, job) == KeptChoice()


@pytest.mark.parametrize("now", [7, [], "x", {"left_out": 7}, {"table": None, "left_out": None}])
def test_a_choice_that_cannot_be_read_is_none(project, job, now):
    project.writeEntry("GroundTally", "checks", json.dumps([{"folder": str(job.folder), "now": now}]))
    assert read_choice(project, job).now == CheckChoice()


# --- the run ---


def test_a_run_names_the_limits_only_where_some_are_left_out(job):
    every = check_parameters(job, CheckChoice(left_out=frozenset({"of another table"})), ("A", "B"))
    assert every == {"SURVEY": str(job.survey), "OUTPUT": str(checks_file(job.survey))}
    some = check_parameters(job, CheckChoice("t.csv", frozenset({"B"}), "layer"), ("A", "B", "C, too"))
    assert some == {**every, "ONLY": '"A", "C, too"', "LIMITS": "t.csv", "SURFACE": "layer"}


@pytest.mark.parametrize("names", [("A",), ("AD M Table 1", "B, or C"), ('say "so", then', '"', "'", ",")])
def test_names_of_limits_come_back_whole(names):
    assert split_names(tell_names(names)) == tuple('"{}"'.format(name.replace('"', '""')) for name in names)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        (None, None),
        ("", None),
        (" , ", None),
        ("ADA, Practice paving", ("ADA", "Practice paving")),
        ('"a, b" , c', ('"a, b"', "c")),
        ('5" pipe, x', ('5" pipe', "x")),
    ],
)
def test_words_are_parted_at_commas_outside_quotes(text, names):
    assert split_names(text) == names


@pytest.mark.usefixtures("provider")
def test_only_the_limits_that_are_named_whole_are_held(job):
    told = check(job, ONLY=tell_names(["Even, or nearly"]))
    assert {one.limit for one in told} == {"Even, or nearly", ""}
    # `Even` alone begins another's name too, and is none of it.
    assert {one.limit for one in check(job, ONLY='"Even"')} == {"Even", ""}
    assert {one.limit for one in check(job, ONLY="Even")} == {"Even", "Even, or nearly", ""}


def test_limits_are_offered_by_whom_they_are_from(job):
    groups = offered_limits(load_limits(table_of(job))[0])
    assert {source: [one.name for one in limits] for source, limits in groups.items()} == {
        "Office": ["Drains", "Even, or nearly", "Even"],
        "Town": ["Steep"],
    }
    assert groups["Office"][0].what == "fall: gradient"
    assert groups["Office"][0].words == (
        "Drains\nfall: gradient\nOffice, page 3 (looked up)\nWater runs off."
    )


def test_every_limit_of_the_examples_is_offered_once():
    limits, _ = load_limits(None)
    offered = [one.name for group in offered_limits(limits).values() for one in group]
    assert sorted(offered) == sorted({limit.name for limit in limits})
    assert len(offered) > 20


@pytest.mark.usefixtures("provider")
def test_the_table_of_checks_is_in_the_group_of_checks_once(job, project):
    check(job)
    layer = add_checks(project, job)
    count = layer.featureCount()
    assert layer.name() == f"Checks of {job.name}"
    group = project.layerTreeRoot().findGroup("Checks")
    assert [node.layerId() for node in group.findLayers()] == [layer.id()]
    check(job, ONLY="Steep")
    assert add_checks(project, job) is layer
    assert layer.featureCount() < count
    assert len(project.mapLayers()) == 1


def test_checks_that_are_not_there_add_no_layer(job, project):
    assert add_checks(project, job) is None
    assert project.mapLayers() == {}


# --- the list of what a job lacks ---


def row_of(job: DeskJob):
    told = [(row.title, row.state, row.words) for row in read_desk(job) if row.subject is Subject.CHECKS]
    return told[0] if told else None


@pytest.mark.usefixtures("provider")
def test_the_desk_tells_what_fails_and_the_worst_of_it(job, project):
    assert row_of(job) == ("Checks", State.LACKS, "not held against limits yet")
    check(job)
    words = (
        "3 fail, 3 cannot tell, 1 not measured, 6 pass; worst: Court, fall gradient: 1:50.0 (1:48.1 to 1:52.0), "
        "allowed 1:40 or steeper (Steep)"
    )
    assert row_of(job) == ("Checks", State.STOPS, words)
    subjects = [row.subject for row in read_desk(job)]
    assert subjects.index(Subject.CHECKS) == subjects.index(Subject.GROUND) + 1
    again(job)
    assert row_of(job) == ("Checks", State.LACKS, f"out of date: {words}")


@pytest.mark.usefixtures("provider")
def test_the_desk_asks_where_something_cannot_be_told(job, project):
    check(job, ONLY='"Even, or nearly"')
    words = (
        "3 cannot tell, 1 not measured; worst: Court, fall gradient: 1:50.0 (1:48.1 to 1:52.0), allowed 1:50.2 or "
        "flatter (Even, or nearly)"
    )
    assert row_of(job)[1:] == (State.ASKS, words)


@pytest.mark.usefixtures("provider")
def test_the_desk_is_content_where_all_pass(tmp_path, project):
    whole = made_survey()
    areas = tuple(row for row in whole.areas if row.tags.feature in AREAS)
    job = DeskJob(tmp_path, write_survey(replace(whole, areas=areas), tmp_path / "yard.gpkg"))
    table_of(job).write_text(OWN, encoding="utf-8")
    check(job, ONLY="Drains")
    assert row_of(job)[1:] == (State.GOOD, "3 pass")


@pytest.mark.usefixtures("provider")
def test_checks_of_nothing_are_no_success(job, project):
    with closing(sqlite3.connect(job.survey)) as database:
        database.execute("DELETE FROM areas")
        database.commit()
    check(job)
    assert row_of(job)[1:] == (State.LACKS, "no limit of the table is of anything here")


def test_a_survey_without_heights_has_no_row_of_checks(tmp_path, project):
    bare = replace(made_survey(), lengths=(), areas=tuple(replace(a, fall=None) for a in made_survey().areas))
    assert row_of(DeskJob(tmp_path, write_survey(bare, tmp_path / "bare.gpkg"))) is None


def test_checks_that_cannot_be_read_are_told(job, project):
    checks_file(job.survey).write_bytes(b"broken")
    assert row_of(job) == ("Checks", State.LACKS, "they cannot be read: check again")
