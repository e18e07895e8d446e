# SPDX-License-Identifier: GPL-2.0-or-later
"""Sizes that no unit explains: a walk many times as large as a tape or the other walks say."""

from __future__ import annotations

import numpy as np
import pytest
from builders import make_walk

from plugin.core.adjust.bases import check_units
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.walk import Job, Tape

PLACES = np.array([(0, 0), (24, 0), (24, 10), (0, 0)], float)


def walk(name, factor=1.0):
    return make_walk(PLACES * factor, name=name, mark=("A", "B", "", "A"))


def codes(job, decisions=None):
    _, findings = check_units(job, {}, decisions or Decisions())
    return [(f.code, f.place, f.answer) for f in findings]


@pytest.mark.parametrize("factor", [10.0, 50.0, 1 / 6.0, 7000.0])
def test_a_size_that_no_unit_explains_is_told_under_in_02(factor):
    job = Job((walk("W1", factor), walk("W2"), walk("W3")))
    assert codes(job) == [("IN-02", "W1:0", None)]


def test_the_finding_names_how_many_times_and_what_to_do():
    _, (finding,) = check_units(
        Job((walk("W1", 50.0),), tapes=(Tape("A", "B", 24.0, None, is_slope=False),)), {}, Decisions()
    )
    assert finding.severity is Severity.STOP
    assert finding.message == (
        "Walk W1: its lengths between marks are 50 times those of the tape, and no unit would explain that."
    )
    assert finding.remedy_text == (
        "State the unit that the log is truly in, tape a length between two marks, or confirm with: as recorded."
    )


def test_confirmed_it_stays_as_recorded():
    answered = Decisions([Decision("IN-02", "W1:0", "as recorded")])
    job = Job((walk("W1", 50.0), walk("W2"), walk("W3")))
    kept, (finding,) = check_units(job, {}, answered)
    assert finding.answer == "as recorded"
    assert kept.walks[0] is job.walks[0]


@pytest.mark.parametrize(("factor", "unit"), [(1000.0, "mm"), (1 / 0.3048, "ft"), (100.0, "cm")])
def test_a_known_units_ratio_stays_under_in_03(factor, unit):
    _, (finding,) = check_units(Job((walk("W1", factor), walk("W2"), walk("W3"))), {}, Decisions())
    assert finding.code == "IN-03"
    assert unit in finding.answers


@pytest.mark.parametrize("factor", [1.0, 1.01, 3.0, 4.5])
def test_less_than_five_times_is_left_to_the_other_tests(factor):
    assert codes(Job((walk("W1", factor), walk("W2"), walk("W3")))) == []
