# SPDX-License-Identifier: GPL-2.0-or-later
"""Decisions that decide nothing: rows that nothing asks for, words that a finding does not take, rows that a later
one overrules. A stale or slipped answer does not go unseen."""

from __future__ import annotations

from collections.abc import Iterable

from ..findings import Decision, Decisions, Finding, Severity


def tell_decisions(decisions: Decisions, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """IN-06 for each such row; those that nothing asks for are told a code at a time."""
    found = tuple(findings)
    asked = {(f.code.casefold(), f.place): f for f in found if f.answers}
    unasked: dict[tuple[str, str], list[Decision]] = {}
    out = []
    for row in decisions.unasked(found):
        finding = asked.get((row.finding.casefold(), row.place))
        if finding is not None:
            out.append(_wrong_word(row, finding))
        else:
            unasked.setdefault((row.file, row.finding), []).append(row)
    out += [_unasked(rows) for rows in unasked.values()]
    return (*out, *(_overruled(row, last) for row, last in decisions.overruled))


def _note(row: Decision, place: str, template: str, remedy: str, data: dict[str, object]) -> Finding:
    data = {"code": row.finding, "place": row.place, "answer": row.answer, **data}
    return Finding("IN-06", Severity.NOTE, place, template, remedy, data, file=row.file, line=row.line)


def _wrong_word(row: Decision, finding: Finding) -> Finding:
    return _note(
        row,
        row.place,
        "The decisions file answers {code} at {place} with {answer}, which it does not take.",
        "It takes: {answers}.",
        {"answers": ", ".join(finding.answers)},
    )


def _unasked(rows: list[Decision]) -> Finding:
    return _note(
        rows[0],
        rows[0].place if len(rows) == 1 else "survey",
        "The decisions file answers {code} at {places}, but nothing asks that now.",
        "Take the rows out if they are old; check the places if they are not.",
        {"places": "; ".join(f"{row.place} ({row.answer})" for row in rows)},
    )


def _overruled(row: Decision, last: Decision) -> Finding:
    return _note(
        row,
        row.place,
        "The decisions file answers {code} at {place} twice: {answer} is overruled by {last} further down (line {line}).",
        "Take out the row that is not meant.",
        {"last": last.answer, "line": last.line},
    )
