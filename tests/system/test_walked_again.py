# SPDX-License-Identifier: GPL-2.0-or-later
"""Ground that was walked again: what is asked, and what each answer keeps in the figures, from files to rows."""

from __future__ import annotations

import numpy as np
import pytest
from builders import make_walk, turn

from plugin.core.measure.chain import survey_files
from plugin.core.read.walk_log import write_walk_log

LAWN = np.array([(2, 2), (22, 2), (22, 14), (2, 14), (2, 2)], float)
POND = np.array([(8, 6), (12, 6), (12, 9), (8, 9), (8, 6)], float)
MARKS = {"A": (-1, -4), "B": (23, -4)}
AREA = 240.0


def walk(name, lawn, angle, hole=()):
    """A, B, the lawn (and a pond in it), B, A; an exact walk in a frame of its own."""
    drawn = [("", ""), ("", ""), *[("Lawn", "")] * 5, *[("Pond", "Lawn")] * len(hole), ("", ""), ("", "")]
    places = np.array([MARKS["A"], MARKS["B"], *lawn, *hole, MARKS["B"], MARKS["A"]], float)
    return make_walk(
        turn(places, angle) + (50.0, 7.0), name=name, mark=("A", "B", *[""] * (len(places) - 4), "B", "A"),
        feature=[feature for feature, _ in drawn], hole_in=[hole_in for _, hole_in in drawn],
        kind=["area" if feature else None for feature, _ in drawn],
    )  # fmt: skip


def moved(at, by):
    lawn = LAWN.copy()
    lawn[at] += by
    return lawn


def survey(second, *answers, hole=()):
    rows = "".join(f"{code},{place},{answer},someone,today\n" for code, place, answer in answers)
    files = {
        "one.csv": write_walk_log([walk("W1", LAWN, 0.3, hole)]).encode(),
        "two.csv": write_walk_log([walk("W2", second, -2.0)]).encode(),
        "tapes.csv": b"# units: m\nfrom,to,distance\nA,B,24\n",
        "answers.csv": f"finding,place,answer,by,when\n{rows}".encode(),
    }
    return survey_files(files)


def shown(made):
    """Area by place, None where it is kept out, with the code that does."""
    rows = {"/".join(filter(None, (r.tags.feature, r.tags.part))): r for r in made.areas}
    return {place: (r.area and round(r.area.value, 2), r.tags.finding) for place, r in rows.items()}


def codes(made):
    return sorted((f.code, f.place) for f in made.findings if f.is_open)


def test_the_same_ground_again_is_asked_about_and_told_to_be_counted_twice():
    made = survey(LAWN)
    assert codes(made) == [("GE-06", "Lawn+Lawn/2"), ("IN-05", "Lawn")]
    assert shown(made) == {"Lawn": (AREA, ""), "Lawn/2": (AREA, "")}


def test_a_later_go_replaces_the_older_one_by_decision_and_the_older_stays_in_the_file():
    made = survey(moved(2, (0.5, 0.5)), ("IN-05", "Lawn", "replace"))
    assert codes(made) == []
    newer = AREA + 0.5 * (20.0 * 0.5 + 12.0 * 0.5)
    assert shown(made) == {"Lawn": (newer, ""), "Lawn/replaced": (None, "IN-05")}
    older = next(row for row in made.areas if row.tags.part == "replaced")
    assert older.outline
    assert older.tags.walk == "W1"
    assert all(row.length is None for row in made.sides if row.tags.part == "replaced")
    assert all(row.length is None for row in made.legs if row.tags.part == "replaced")


def test_a_hole_of_the_older_go_is_taken_off_the_newer_one():
    made = survey(LAWN, ("IN-05", "Lawn", "replace"), hole=POND)
    assert shown(made) == {"Lawn": (AREA - 12.0, ""), "Lawn/replaced": (None, "IN-05"), "Pond": (12.0, "")}


@pytest.mark.parametrize(
    ("answer", "kept"),
    [
        ("older", {"Lawn": (AREA, ""), "Lawn/2": (None, "WK-04")}),
        ("newer", {"Lawn": (None, "WK-04"), "Lawn/2": (248.0, "")}),
    ],
)
def test_goes_that_differ_are_asked_about_and_the_answer_says_which_counts(answer, kept):
    second = moved(2, (0.5, 0.5))
    two = ("IN-05", "Lawn", "two")
    assert ("WK-04", "Lawn+Lawn/2") in codes(survey(second, two))
    made = survey(second, two, ("WK-04", "Lawn+Lawn/2", answer))
    assert codes(made) == []
    assert shown(made) == kept
    (finding,) = (f for f in made.findings if f.code == "WK-04")
    assert finding.answer == answer


def test_both_leaves_both_and_the_ground_counted_twice_is_still_asked_about():
    made = survey(moved(2, (0.5, 0.5)), ("IN-05", "Lawn", "two"), ("WK-04", "Lawn+Lawn/2", "both"))
    assert codes(made) == [("GE-06", "Lawn+Lawn/2")]


@pytest.mark.parametrize("answer", ["older", "newer"])
def test_choosing_between_two_goes_answers_that_they_are_two(answer):
    second = moved(2, (0.5, 0.5))
    assert codes(survey(second)) == [("GE-06", "Lawn+Lawn/2"), ("IN-05", "Lawn"), ("WK-04", "Lawn+Lawn/2")]
    made = survey(second, ("WK-04", "Lawn+Lawn/2", answer))
    assert codes(made) == []
    (finding,) = (f for f in made.findings if f.code == "IN-05")
    assert (finding.answer, finding.answered_by) == ("two", "someone")
