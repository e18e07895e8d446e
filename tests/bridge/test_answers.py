# SPDX-License-Identifier: GPL-2.0-or-later
"""Answers written into the decisions file and taken back, everything else kept."""

from __future__ import annotations

import pytest

from plugin.bridge.answers import Answer, add_answer, find_decisions, recommended, take_back
from plugin.core.errors import BadInput
from plugin.core.read.job import read_job

FIRST = Answer("GE-02", "Court+Bed 1", "join", "A. Person", "2026-11-25T10:00:00+00:00")


def rows(path):
    return path.read_text(encoding="utf-8").splitlines()


def test_the_first_answer_makes_the_file(tmp_path):
    path = add_answer(tmp_path, FIRST)
    assert path.name == "decisions.csv"
    assert rows(path) == [
        "finding,place,answer,by,when",
        "GE-02,Court+Bed 1,join,A. Person,2026-11-25T10:00:00+00:00",
    ]


def test_an_answer_takes_the_place_of_an_older_one_and_can_be_taken_back(tmp_path):
    add_answer(tmp_path, FIRST)
    add_answer(tmp_path, Answer("WK-01", "W1:3", "accept"))
    path = add_answer(tmp_path, Answer("ge-02", "Court+Bed 1", "leave"))
    assert rows(path)[1:] == ["WK-01,W1:3,accept,,", "ge-02,Court+Bed 1,leave,,"]
    take_back(tmp_path, "GE-02", "Court+Bed 1")
    assert rows(path)[1:] == ["WK-01,W1:3,accept,,"]


def test_comments_other_columns_and_another_separator_stay(tmp_path):
    (tmp_path / "answers.csv").write_text(
        "# site: yard\n# kept\nfinding;place;answer;by;when;why\nIN-02;W1:1;ft;;;the label says so\n",
        encoding="utf-8",
    )
    path = add_answer(tmp_path, FIRST)
    assert path.name == "answers.csv"
    assert rows(path) == [
        "# site: yard",
        "# kept",
        "finding;place;answer;by;when;why",
        "IN-02;W1:1;ft;;;the label says so",
        "GE-02;Court+Bed 1;join;A. Person;2026-11-25T10:00:00+00:00;",
    ]


def test_what_is_written_is_what_the_job_reads(tmp_path):
    path = add_answer(tmp_path, Answer("GE-02", 'a "b", c', "join", "x;y"))
    log = b"# units: m\nwalk,station,x,y\nW1,1,0,0\nW1,2,1,0\n"
    job = read_job({"w.csv": log, path.name: path.read_bytes()})
    assert [(d.finding, d.place, d.answer, d.by) for d in job.decisions.rows] == [
        ("GE-02", 'a "b", c', "join", "x;y")
    ]


def test_logs_and_control_are_never_taken_for_decisions(tmp_path):
    (tmp_path / "a.csv").write_text("walk,station,x,y\nW1,1,0,0\n", encoding="utf-8")
    (tmp_path / "b.csv").write_text("# crs: EPSG:25831\nmark,x,y\nA,0,0\n", encoding="utf-8")
    assert find_decisions(tmp_path) == tmp_path / "decisions.csv"


def test_a_folder_that_is_not_there_is_told(tmp_path):
    with pytest.raises(BadInput, match="cannot be written"):
        add_answer(tmp_path / "nowhere", FIRST)


@pytest.mark.parametrize(
    ("code", "answers", "advised"),
    [
        ("GE-02", ("join", "leave"), "join"),
        ("TI-03", ("exchange", "accept"), "exchange"),
        ("TI-03", ("accept",), ""),
        ("IN-03", ("ft", "us-ft"), "ft"),
        ("WK-04", ("older", "newer", "both"), ""),
        ("PL-01", ("confirmed",), ""),
        ("CL-02", (), ""),
    ],
)
def test_only_what_the_data_speak_for_is_recommended(code, answers, advised):
    assert recommended(code, answers) == advised
