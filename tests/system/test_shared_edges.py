# SPDX-License-Identifier: GPL-2.0-or-later
"""The demo's shared edges and its crossing outline, asked about and answered over the whole chain."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plugin.core.findings import Decision, Decisions
from plugin.core.measure.chain import Settings, survey_files, survey_job
from plugin.core.read.job import read_job
from scripts.demo_jobs import COMMITTED_SEEDS, faulty_job, make_job

SEED = COMMITTED_SEEDS["marlisk_yard"]
PAIRS = [
    "Paved court+Ramp", "Paved court+Seat wall", "Paved court+Bed 2", "Bed 1 wall/top+Bed 1", "Bed 1 wall/foot+Bed 1",
]  # fmt: skip


def read(files):
    return read_job({name: text.encode() for name, text in files.items()})


def surveyed(files, *decisions, **settings):
    job = read(files)
    rows = (*job.decisions.rows, *decisions)
    return survey_job(job.job, Decisions(rows), replace(Settings(), **settings), job.findings)


def areas(survey):
    return {row.tags.feature: row.area for row in survey.areas}


def test_the_clean_job_asks_about_its_five_shared_edges_and_its_answers_join_them():
    survey = surveyed(make_job("marlisk_yard", SEED, variant="committed"))
    shared = [f for f in survey.findings if f.code == "GE-02"]
    assert [(f.place, f.answer) for f in shared] == [(place, "join") for place in PAIRS]
    assert [f.code for f in survey.findings if f.code == "IN-06"] == []
    sides = [(s.tags.feature, s.owner, s.other) for s in survey.sides if s.other]
    assert sides == [
        ("Paved court", "Paved court", "Ramp"),
        ("Paved court", "Paved court", "Seat wall"),
        ("Paved court", "Paved court", "Bed 2"),
        ("Ramp", "Paved court", "Paved court"),
        ("Bed 2", "Paved court", "Paved court"),
        ("Bed 1", "Bed 1", "Bed 1 wall/top+Bed 1 wall/foot"),
    ]


def test_without_the_decisions_the_edges_are_open_asks_and_the_figures_stay_as_walked():
    files = make_job("marlisk_yard", SEED, variant="committed")
    del files["decisions.csv"]
    asked = surveyed(files)
    assert [f.place for f in asked.findings if f.code == "GE-02" and f.is_open] == PAIRS
    unasked = surveyed(files, join_within=0.0)
    assert [f for f in unasked.findings if f.code == "GE-02"] == []
    assert {name: q.value for name, q in areas(asked).items()} == {
        name: q.value for name, q in areas(unasked).items()
    }


@pytest.mark.parametrize("answer", ["reverse", "split", "drop"])
def test_the_crossing_outline_counts_with_the_area_that_its_answer_told(answer):
    files, expected = faulty_job("outline_crosses")
    stopped = surveyed(files)
    assert areas(stopped)["Bed 2"] is None
    (finding,) = (f for f in stopped.findings if (f.code, f.place) == (expected.code, expected.place))
    assert answer in finding.answers
    # Joins off, so that the figure is the outline's own.
    mended = surveyed(files, Decision(expected.code, expected.place, answer), join_within=0.0)
    told = {
        "reverse": ["reversed_area"], "drop": ["dropped_area"], "split": ["part_1", "part_2"],
    }[answer]  # fmt: skip
    beds = [row.area.value for row in mended.areas if row.tags.feature == "Bed 2"]
    assert beds == pytest.approx([finding.data[name] for name in told], abs=1e-9)


def test_the_reversed_outline_is_the_bed_as_it_is():
    files, expected = faulty_job("outline_crosses")
    mended = surveyed(files, Decision(expected.code, expected.place, "reverse"), join_within=0.0)
    clean = survey_files(
        {n: t.encode() for n, t in make_job("marlisk_yard", SEED, variant="committed").items()},
        Settings(join_within=0.0),
    )
    # The corners bear each other's times, so their weights in the adjustment differ by a hair.
    assert areas(mended)["Bed 2"].value == pytest.approx(areas(clean)["Bed 2"].value, abs=0.02)
