# SPDX-License-Identifier: GPL-2.0-or-later
"""Decisions that decide nothing are told."""

from __future__ import annotations

from plugin.core.check.decisions import tell_decisions
from plugin.core.findings import Decision, Decisions, Finding, Severity

ASK = Finding("CL-03", Severity.ASK, "survey", "No tape.", "Tape.", answers=("accept", "use the control"))


def told(*rows):
    decisions = Decisions(
        [Decision(*row, file="decisions.csv", line=n) for n, row in enumerate(rows, start=2)]
    )
    findings = (decisions.answered(ASK),)
    return findings[0], [f.message for f in tell_decisions(decisions, findings)]


def test_a_good_answer_is_taken_in_any_case():
    finding, messages = told(("cl-03", "survey", "Accept"))
    assert finding.answer == "accept"
    assert messages == []


def test_a_word_that_is_not_taken_is_told_with_those_that_are():
    decisions = Decisions([Decision("CL-03", "survey", "maybe", file="decisions.csv", line=2)])
    (note,) = tell_decisions(decisions, (decisions.answered(ASK),))
    assert note.message == "The decisions file answers CL-03 at survey with maybe, which it does not take."
    assert note.remedy_text == "It takes: accept, use the control."
    assert (note.file, note.line) == ("decisions.csv", 2)


def test_answers_that_nothing_asks_are_told_a_code_at_a_time():
    _, messages = told(
        ("GE-02", "Court+Bed", "join"), ("GE-02", "Court+Ramp", "join"), ("CL-03", "survey", "accept")
    )
    assert messages == [
        "The decisions file answers GE-02 at Court+Bed (join); Court+Ramp (join), but nothing asks that now."
    ]


def test_of_two_answers_the_later_counts_and_the_other_is_told():
    finding, messages = told(("CL-03", "survey", "accept"), ("CL-03", "survey", "use the control"))
    assert finding.answer == "use the control"
    assert messages == [
        "The decisions file answers CL-03 at survey twice: accept is overruled by use the control further down (line 3)."
    ]
