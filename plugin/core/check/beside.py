# SPDX-License-Identifier: GPL-2.0-or-later
"""What lies beside the logs and cannot be used as it is: names that no walk stands on, slope tapes without
heights, instruments without a row. Nothing is dropped without a word."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from ..findings import Decisions, Finding, Severity
from ..walk import Control, ControlPoint, Instrument, Job, Tape, Walk

LIKE = 0.75
"""How alike (0 to 1) two names of marks are for one to be asked for when the other was written."""
AS_LEVEL = "level"


def check_names(job: Job) -> list[Finding]:
    """IN-06: tape ends and control marks that no walk stands on, and marks that look like a slip of the pen."""
    stood = _stands(job.walks)
    known = set(stood) | {walk.place(i) for walk in job.walks for i in range(len(walk))}
    out = [_unknown_end(tape, known, stood) for tape in job.tapes if not {tape.start, tape.end} <= known]
    out += [_unknown_point(p, job.control, stood) for p in job.control.points if p.mark not in stood]
    elsewhere = {p.mark for p in job.control.points} | {e for t in job.tapes for e in (t.start, t.end)}
    for mark, rows in stood.items():
        if len(rows) > 1 or mark in elsewhere:
            continue
        like = _like(
            mark, {m for m in (*stood, *elsewhere) if m != mark and (m in elsewhere or len(stood[m]) > 1)}
        )
        if like:
            walk, i = rows[0]
            out.append(
                Finding(
                    "IN-06",
                    Severity.NOTE,
                    walk.place(i),
                    "Mark {mark} is stood on once, in walk {walk}, and no other file knows it. Is it {like}?",
                    "Correct the mark's name in the log if it is.",
                    {"mark": mark, "walk": walk.name, "like": like},
                    file=walk.file,
                    line=int(walk.line[i]),
                    walk=walk.name,
                    station=walk.station[i],
                )
            )
    return out


def _stands(walks: Iterable[Walk]) -> dict[str, list[tuple[Walk, int]]]:
    stood: dict[str, list[tuple[Walk, int]]] = {}
    for walk in walks:
        for i in np.flatnonzero(walk.is_marked):
            stood.setdefault(walk.mark[i], []).append((walk, int(i)))
    return stood


def _like(name: str, others: Iterable[str]) -> str:
    """The name among others that this one is most likely a slip for, "" if none."""
    by_fold = {_fold(other): other for other in others if not _are_numbered(name, other)}
    near = difflib.get_close_matches(_fold(name), by_fold, n=1, cutoff=LIKE)
    return by_fold[near[0]] if near else ""


def _fold(name: str) -> str:
    """A name without what the eye passes over: case, blanks, hyphens, I for 1, O for 0."""
    return name.casefold().translate(str.maketrans("ilo", "110", "- _"))


def _are_numbered(one: str, other: str) -> bool:
    """Whether two names bear different numbers: BM1 and BM2 are two marks."""
    numbers = [re.findall(r"\d+", name) for name in (one, other)]
    return bool(numbers[0]) and bool(numbers[1]) and numbers[0] != numbers[1]


def _unknown_end(tape: Tape, known: set[str], stood: Iterable[str]) -> Finding:
    ends = [end for end in (tape.start, tape.end) if end not in known]
    like = _like(ends[0], stood)
    return Finding(
        "IN-06",
        Severity.NOTE,
        f"{tape.start}+{tape.end}",
        "The tape from {start} to {end} is not used: no walk stands on {missing}. Is it {like}?"
        if like
        else "The tape from {start} to {end} is not used: no walk stands on {missing}.",
        "Check the names of its ends: marks, or walk:station.",
        {"start": tape.start, "end": tape.end, "missing": " and ".join(ends), "like": like},
        file=tape.file,
        line=tape.line,
    )


def _unknown_point(point: ControlPoint, control: Control, stood: Iterable[str]) -> Finding:
    like = _like(point.mark, stood)
    return Finding(
        "IN-06",
        Severity.NOTE,
        point.mark,
        "Control point {mark} is not used: no walk stands on a mark of this name. Is it {like}?"
        if like
        else "Control point {mark} is not used: no walk stands on a mark of this name.",
        "Check the mark's name in the control and in the logs.",
        {"mark": point.mark, "like": like},
        file=control.file,
        line=point.line,
    )


def check_instruments(job: Job) -> list[Finding]:
    """IN-06: the log's instrument has no row. SR-01, ask: its row gives neither leg noise nor stand noise."""
    out = []
    for walk in job.walks:
        name = walk.keys.instrument or ""
        row = (job.instruments or {}).get(name)
        if row is None and name and job.instruments is not None:
            template = "The instruments file has no row {instrument}: walk {walk} goes by the default, or its own sd."
            out.append(_at_start(walk, "IN-06", Severity.NOTE, template, "Add the row, or correct the name."))
        elif row is not None and _is_silent(row):
            template = (
                "The row {instrument} of the instruments file gives neither leg noise nor stand noise: walk {walk} "
                "would be certain beyond what any instrument is."
            )
            out.append(
                _at_start(walk, "SR-01", Severity.ASK, template, "Fill in what the instrument is worth.")
            )
    return out


def _is_silent(row: Instrument) -> bool:
    return not (row.leg or row.leg_time or row.leg_length or row.stand)


def _at_start(walk: Walk, code: str, severity: Severity, template: str, remedy: str) -> Finding:
    return Finding(
        code,
        severity,
        walk.place(0),
        template,
        remedy,
        {"instrument": walk.keys.instrument or "", "walk": walk.name},
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
        answers=("accept",) if severity is Severity.ASK else (),
    )


def usable_tapes(job: Job, decisions: Decisions) -> tuple[tuple[Tape, ...], list[Finding]]:
    """The tapes that can be used: both ends stood on, and of a slope tape both heights known.

    A slope tape without them is asked about and left out; answered `level`, it is taken as it is.
    """
    stood = _stands(job.walks)
    places = {walk.place(i): (walk, i) for walk in job.walks for i in range(len(walk))}
    stands = {**{place: [at] for place, at in places.items()}, **stood}
    out, findings = [], []
    for tape in job.tapes:
        if tape.start not in stands or tape.end not in stands:
            continue
        blind = [e for e in (tape.start, tape.end) if not any(np.isfinite(w.z[i]) for w, i in stands[e])]
        if tape.is_slope and blind:
            finding = decisions.answered(_blind_slope(tape, blind))
            findings.append(finding)
            if finding.answer != AS_LEVEL:
                continue
            tape = replace(tape, is_slope=False)  # noqa: PLW2901 - the same tape, taken otherwise
        out.append(tape)
    return tuple(out), findings


def _blind_slope(tape: Tape, blind: list[str]) -> Finding:
    return Finding(
        "SR-01",
        Severity.ASK,
        f"{tape.start}+{tape.end}",
        "The tape from {start} to {end} lies along the slope, but the height of {blind} is not known: it is left out.",
        "Walk the heights of its ends; or answer level if it was held level after all.",
        {"start": tape.start, "end": tape.end, "blind": " and ".join(blind)},
        file=tape.file,
        line=tape.line,
        answers=("leave out", AS_LEVEL),
    )
