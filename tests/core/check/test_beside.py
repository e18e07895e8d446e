# SPDX-License-Identifier: GPL-2.0-or-later
"""Nothing that lies beside the logs is dropped without a word; whole messages."""

from __future__ import annotations

import pytest
from builders import DEMO, make_walk

from plugin.core.adjust.walks import adjust_walks
from plugin.core.check.beside import check_instruments, check_names, usable_tapes
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.walk import Control, ControlPoint, Instrument, Job, LogKeys, Tape

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]
ENDS = ["A", "B", "", "", "A"]


def job_of(*tapes, mark=ENDS, z=None, **parts):
    return Job((make_walk(SQUARE, mark=mark, z=z),), tapes=tapes, **parts)


def tape(start, end, *, slope=False):
    return Tape(start, end, 10.0, 0.01, slope, "tapes.csv", 3)


def test_a_tape_to_a_mark_that_nobody_stood_on_is_told():
    (finding,) = check_names(job_of(tape("A", "Z9")))
    assert (finding.code, finding.severity, finding.place) == ("IN-06", Severity.NOTE, "A+Z9")
    assert finding.message == "The tape from A to Z9 is not used: no walk stands on Z9."
    assert (finding.file, finding.line) == ("tapes.csv", 3)


def test_a_level_mark_spelt_otherwise_is_told_with_the_likely_name():
    control = Control(
        (ControlPoint("BM-1", None, 50.0, None, 0.003, is_check=False, line=7),), file="control.csv"
    )
    (finding,) = check_names(job_of(mark=["BM1", "B", "", "", "BM1"], control=control))
    assert (
        finding.message == "Control point BM-1 is not used: no walk stands on a mark of this name. Is it BM1?"
    )
    assert (finding.file, finding.line) == ("control.csv", 7)


def test_a_mark_stood_on_once_that_looks_like_another_is_asked_for():
    job = Job(
        (
            make_walk(SQUARE, mark=["Gate", "B", "", "", "Gate"]),
            make_walk(SQUARE, name="W2", mark=["gate", "B", "", "", ""]),
        )
    )
    (finding,) = check_names(job)
    assert finding.place == "W2:0"
    assert (
        finding.message == "Mark gate is stood on once, in walk W2, and no other file knows it. Is it Gate?"
    )


def test_marks_that_are_known_are_left_in_peace():
    control = Control((ControlPoint("A", (0.0, 0.0), None, 0.02, None, is_check=False),))
    assert check_names(job_of(tape("A", "B"), tape("A", "W1:2"), control=control)) == []


def test_a_slope_tape_without_heights_is_left_out_or_taken_as_level_by_decision():
    job = job_of(tape("A", "B", slope=True))
    tapes, (finding,) = usable_tapes(job, Decisions())
    assert tapes == ()
    assert finding.message == (
        "The tape from A to B lies along the slope, but the height of A and B is not known: it is left out."
    )
    tapes, _ = usable_tapes(job, Decisions([Decision("SR-01", "A+B", "level")]))
    assert [t.is_slope for t in tapes] == [False]
    tapes, found = usable_tapes(job_of(tape("A", "B", slope=True), z=[0, 1, 2, 3, 0]), Decisions())
    assert [t.is_slope for t in tapes] == [True]
    assert found == []


def test_an_instrument_without_a_row_is_told():
    job = job_of(instruments={"other": DEMO})
    (finding,) = check_instruments(job)
    assert finding.message == (
        "The instruments file has no row rover: walk W1 goes by the default, or its own sd."
    )


def test_an_instrument_of_no_noise_is_asked_about():
    (finding,) = check_instruments(job_of(instruments={"rover": Instrument("rover", scale=0.001)}))
    assert (finding.code, finding.severity) == ("SR-01", Severity.ASK)
    assert finding.message == (
        "The row rover of the instruments file gives neither leg noise nor stand noise: walk W1 would be certain "
        "beyond what any instrument is."
    )


@pytest.mark.parametrize("sd", [0.02, 3.0])
def test_an_sd_that_every_row_has_is_each_stations_own(sd):
    """A receiver that writes the same sd on every row: two stations are sqrt 2 of it apart."""
    walk = make_walk(SQUARE, mark=ENDS, sd_xy=[sd] * 5, keys=LogKeys(units="m"))
    adjusted, _ = adjust_walks(Job((walk,)), {}, Decisions())
    covariance = adjusted.both.plan.solved.field.diagonal()
    scale = adjusted.models[0].instrument.scale
    assert covariance[2, 0, 0] == pytest.approx(sd**2 + 2 * (scale * 10) ** 2, rel=0.01, abs=1e-5)


def test_tapes_and_levels_of_no_error_are_taken_at_their_word():
    """sd 0 is not "blank": it holds as far as arithmetic can (0.1 mm)."""
    walk = make_walk(SQUARE, mark=ENDS)
    exact = Tape("A", "B", 10.004, 0.0, is_slope=False)
    blank = Tape("A", "B", 10.004, None, is_slope=False)
    lengths = []
    for one in (exact, blank):
        adjusted, _ = adjust_walks(Job((walk,), tapes=(one,), instruments={"rover": DEMO}), {}, Decisions())
        way = adjusted.xy[1] - adjusted.xy[0]
        lengths.append(float((way @ way) ** 0.5))
    assert lengths[0] == pytest.approx(10.004, abs=1e-5)
    assert 10.001 < lengths[1] < 10.0038


@pytest.mark.parametrize(("written", "meant"), [("b", "B"), ("BMI", "BM1"), ("Pots", "Post")])
def test_a_slip_is_seen_against_the_names_of_the_other_files_too(written, meant):
    control = Control((ControlPoint(meant, (0.0, 0.0), None, 0.02, None, is_check=False),))
    job = job_of(mark=["A", written, "", "", "A"], control=control)
    assert f"Mark {written} is stood on once, in walk W1, and no other file knows it. Is it {meant}?" in [
        f.message for f in check_names(job)
    ]


def test_numbered_marks_are_not_taken_for_slips_of_one_another():
    job = Job((make_walk(SQUARE, mark=["BM1", "BM2", "", "", "BM1"]),))
    assert check_names(job) == []
