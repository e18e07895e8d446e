# SPDX-License-Identifier: GPL-2.0-or-later
"""Heights and known levels in disagreement: what nothing tells apart is named together, answers act on exactly
what they name, and heights stay out while a level is in doubt."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from builders import DEMO, make_walk

from plugin.core.adjust.walks import adjust_walks
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.walk import Control, ControlPoint, Job

INSTRUMENTS = {"rover": DEMO}
PLACES = {"A": (0.0, 0.0, 50.0), "B": (24.0, 3.0, 49.5), "C": (40.0, -20.0, 49.2)}
LEVEL_REMEDY = "Check the level and its datum, or leave it out."
HEIGHT_REMEDY = "Was it the same point, with the same pole height? Correct the log, or leave this height out."


def walk(name, marks, off=(), datum=0.0):
    """A walk over marks without error, with a station between; `off` are (row, metres) added to heights."""
    points = [(5.0, 5.0, 49.9) if mark == "" else PLACES[mark] for mark in marks]
    z = np.array([p[2] for p in points]) - datum
    for row, size in off:
        z[row] += size
    return make_walk([p[:2] for p in points], name=name, mark=marks, z=z)


def level(mark, height, line):
    return ControlPoint(mark, None, height, None, 0.005, is_check=False, line=line)


def adjust(walks, levels=(), *answers):
    control = Control(tuple(levels), file="control.csv")
    rows = Decisions(Decision(*answer) for answer in answers)
    return adjust_walks(Job(tuple(walks), control, instruments=INSTRUMENTS), {}, rows)


def told(findings):
    return [(f.code, f.severity, f.place, f.message) for f in findings]


def test_two_levels_that_disagree_are_both_named_whichever_is_wrong():
    for off_a, off_b in ((1.0, 0.0), (0.0, -1.0)):
        _, findings = adjust(
            [walk("W1", ["A", "B", "", "A"])], [level("A", 50 + off_a, 3), level("B", 49.5 + off_b, 4)]
        )
        assert told(findings) == [
            ("TI-03", Severity.STOP, "A", (f"The known level of mark A, {50 + off_a:.3f} m, is 1.000 m from what the "
             "walks and the other levels give (the same could be said of B, W1:1+B).")),
            ("TI-03", Severity.STOP, "B", (f"The known level of mark B, {49.5 + off_b:.3f} m, is 1.000 m from what the "
             "walks and the other levels give (the same could be said of A, W1:1+B).")),
        ]  # fmt: skip
        assert [(f.file, f.line, f.remedy_text, f.answers) for f in findings] == [
            ("control.csv", 3, LEVEL_REMEDY, ("leave out", "accept")),
            ("control.csv", 4, LEVEL_REMEDY, ("leave out", "accept")),
        ]
        assert [f.data["heights"] for f in findings] == [True, True]


@pytest.mark.parametrize(("mark", "height"), [("A", 51.1), ("B", 49.9)])
def test_leave_out_drops_exactly_the_level_it_names(mark, height):
    """B is 1.2 m too high. Without A the heights hang on B, and the other way round."""
    levels = [level("A", 50.0, 3), level("B", 50.7, 4)]
    adjusted, findings = adjust([walk("W1", ["A", "B", "", "A"])], levels, ("TI-03", mark, "leave out"))
    assert [(f.place, f.answer) for f in findings] == [(mark, "leave out")]
    assert adjusted.z[2] == pytest.approx(height, abs=1e-6)


def test_both_levels_left_out_leave_no_datum():
    levels = [level("A", 50.0, 3), level("B", 50.7, 4)]
    answers = [("TI-03", "A", "leave out"), ("TI-03", "B", "leave out")]
    adjusted, findings = adjust([walk("W1", ["A", "B", "", "A"], datum=40.0)], levels, *answers)
    assert [(f.place, f.answer) for f in findings] == [("A", "leave out"), ("B", "leave out")]
    assert adjusted.both.height.levels == ()
    assert adjusted.z == pytest.approx([10.0, 9.5, 9.9, 10.0], abs=1e-6)


def test_accepted_levels_both_stay_in_and_are_not_asked_again():
    levels = [level("A", 50.0, 3), level("B", 50.7, 4)]
    answers = [("TI-03", "A", "accept"), ("TI-03", "B", "accept")]
    adjusted, findings = adjust([walk("W1", ["A", "B", "", "A"])], levels, *answers)
    assert [(f.place, f.answer) for f in findings] == [("A", "accept"), ("B", "accept")]
    assert adjusted.judged.freed.is_nothing
    # The 1.2 m are spread over the way between the levels and over both alike, since they have one sigma.
    assert 0.01 < adjusted.z[0] - 50.0 < 0.2
    assert adjusted.z[0] - 50.0 == pytest.approx(50.7 - adjusted.z[1], abs=1e-9)


def test_of_three_levels_the_wrong_one_alone_is_named_and_let_go():
    levels = [level("A", 50.0, 3), level("B", 50.2, 4), level("C", 49.2, 5)]
    adjusted, findings = adjust([walk("W1", ["A", "B", "C", "", "A"])], levels)
    assert [(f.place, f.line) for f in findings] == [("B", 4)]
    assert findings[0].message == (
        "The known level of mark B, 50.200 m, is 0.700 m from what the walks and the other levels give (the same could "
        "be said of W1:1+B)."
    )
    assert adjusted.z[3] == pytest.approx(49.9, abs=1e-3)


def test_a_height_in_disagreement_is_named_in_both_walks():
    walks = [walk("W1", ["A", "B", "", "C", "A"]), walk("W2", ["A", "B", "C"], off=[(1, 0.8)], datum=3.0)]
    _, findings = adjust(walks)
    assert told(findings) == [
        ("TI-03", Severity.STOP, "W1:1+B", ("The height of mark B in walk W1 at station 1 is 0.800 m from what the "
         "rest gives (the same could be said of W2:1+B).")),
        ("TI-03", Severity.STOP, "W2:1+B", ("The height of mark B in walk W2 at station 1 is 0.800 m from what the "
         "rest gives (the same could be said of W1:1+B).")),
    ]  # fmt: skip
    assert [(f.walk, f.station, f.file, f.line, f.remedy_text) for f in findings] == [
        ("W1", "1", "W1.csv", 3, HEIGHT_REMEDY),
        ("W2", "1", "W2.csv", 3, HEIGHT_REMEDY),
    ]


def test_a_height_left_out_settles_the_disagreement_with_its_twin():
    walks = [walk("W1", ["A", "B", "", "C", "A"]), walk("W2", ["A", "B", "C"], off=[(1, 0.8)], datum=3.0)]
    adjusted, findings = adjust(walks, (), ("TI-03", "W2:1+B", "leave out"))
    assert [(f.place, f.answer) for f in findings] == [("W2:1+B", "leave out")]
    assert adjusted.z[:5] == pytest.approx([50.0, 49.5, 49.9, 49.2, 50.0], abs=1e-6)


def test_a_stand_wrong_in_plan_and_in_height_asks_twice():
    walks = [walk("W1", ["A", "B", "", "C", "A"]), walk("W2", ["A", "B", "C"], off=[(1, 0.8)])]
    xy = walks[1].xy.copy()
    xy[1] += (3.0, 2.0)
    walks[1] = replace(walks[1], xy=xy)
    _, findings = adjust(walks)
    places = {f.place for f in findings if f.severity is Severity.STOP}
    assert {"W2:1", "W2:1+B"} <= places
    _, findings = adjust(walks, (), ("TI-03", "W2:1", "leave out"))
    assert {f.place: f.answer for f in findings}["W2:1"] == "leave out"
    assert {f.place: f.answer for f in findings}["W2:1+B"] is None


def test_a_height_loop_has_a_place_apart_from_the_one_in_plan():
    lone = walk("W1", ["A", "B", "", "C", "A"], off=[(4, 1.0)])
    _, findings = adjust([lone])
    assert told(findings) == [
        ("CL-01", Severity.STOP, "W1:4+A", findings[0].message),
    ]
    assert findings[0].message.startswith(
        "Walk W1 comes back to A +1.000 m off in height, where its instrument "
    )


def test_an_accepted_height_loop_is_spread_and_an_open_one_is_not():
    lone = walk("W1", ["A", "B", "", "C", "A"], off=[(4, 1.0)])
    open_, _ = adjust([lone])
    assert open_.z[:4] == pytest.approx([50.0, 49.5, 49.9, 49.2], abs=1e-9)
    spread, findings = adjust([lone], (), ("CL-01", "W1:4+A", "accept"))
    assert [(f.place, f.answer) for f in findings] == [("W1:4+A", "accept")]
    assert spread.z[4] == pytest.approx(spread.z[0], abs=1e-9)
    assert spread.z[3] < 49.2 - 0.1


@pytest.mark.parametrize("datum", [0.0, 12.5])
def test_marks_exchanged_in_heights_of_two_bare_walks_name_both(datum):
    one = make_walk([(0, 0), (24, 3)], name="W1", mark=["A", "B"], z=[0.0, -2.0])
    two = make_walk([(0, 0), (24, 3)], name="W2", mark=["A", "B"], z=[datum - 2.0, datum])
    adjusted, findings = adjust([one, two])
    text = "Walk {} fits the other walks only with its marks A and B exchanged (would serve as well: {}, one wrong height)."
    assert {(f.code, f.severity, f.place, f.message) for f in findings} == {
        ("TI-03", Severity.STOP, "W1:0+W1:1", text.format("W1", "W2")),
        ("TI-03", Severity.STOP, "W2:0+W2:1", text.format("W2", "W1")),
    }
    assert findings[0].remedy_text == (
        "Exchange A and B in this walk, or rename them. If the names are right, accept them: the heights and levels "
        "are then judged one by one."
    )
    assert np.isfinite(adjusted.z).all()
    _, findings = adjust([one, two], (), ("TI-03", "W2:0+W2:1", "exchange"))
    assert [(f.place, f.answer) for f in findings] == [("W2:0+W2:1", "exchange")]


def test_names_accepted_as_right_leave_the_heights_to_be_judged():
    one = make_walk([(0, 0), (24, 3)], name="W1", mark=["A", "B"], z=[0.0, -2.0])
    two = make_walk([(0, 0), (24, 3)], name="W2", mark=["A", "B"], z=[-2.0, 0.0])
    answers = [("TI-03", "W1:0+W1:1", "accept"), ("TI-03", "W2:0+W2:1", "accept")]
    _, findings = adjust([one, two], (), *answers)
    rest = [f for f in findings if f.answer is None]
    assert [(f.code, f.place) for f in rest] == [("TI-03", "W1:0+A"), ("TI-03", "W2:0+A")]
    assert rest[0].message == (
        "The height of mark A in walk W1 at station 0 is 4.000 m from what the rest gives (the same could be said of "
        "W1:1+B, W2:0+A, W2:1+B)."
    )


def test_one_walk_that_fits_its_levels_only_with_marks_exchanged_says_so():
    _, findings = adjust([walk("W1", ["A", "B", "", "A"])], [level("A", 49.5, 3), level("B", 50.0, 4)])
    assert told(findings) == [
        ("TI-03", Severity.STOP, "W1:0+W1:1", ("Walk W1 fits the known levels only with its marks A and B exchanged "
         "(would serve as well: one wrong level or height).")),
    ]  # fmt: skip
    assert findings[0].data["heights"] is True
    levels = [level("A", 49.5, 3), level("B", 50.0, 4)]
    _, findings = adjust([walk("W1", ["A", "B", "", "A"])], levels, ("TI-03", "W1:0+W1:1", "accept"))
    assert [(f.place, f.answer) for f in findings] == [("W1:0+W1:1", "accept"), ("A", None), ("B", None)]


def test_an_accepted_exchange_keeps_all_heights_in_and_is_not_asked_again():
    """Each walk closes on both marks, so no single height would explain it."""
    marks = ["A", "B", "A", "B"]
    one = walk("W1", marks)
    two = replace(walk("W2", marks), z=np.array([49.5, 50.0, 49.5, 50.0]))
    open_, findings = adjust([one, two])
    assert {f.message for f in findings} == {
        "Walk W1 fits the other walks only with its marks A and B exchanged (would serve as well: W2).",
        "Walk W2 fits the other walks only with its marks A and B exchanged (would serve as well: W1).",
    }
    assert not open_.judged.freed.is_nothing
    accepted, findings = adjust([one, two], (), *(("TI-03", f.place, "accept") for f in findings))
    assert [f.answer for f in findings] == ["accept", "accept"]
    assert accepted.judged.freed.is_nothing
    # Half a metre one way and half a metre the other: between them the marks come out level.
    assert accepted.z[1] - accepted.z[0] == pytest.approx(0.0, abs=1e-6)
