# SPDX-License-Identifier: GPL-2.0-or-later
"""Wrong units, seen before anything is adjusted: a base between two marks that is a foot's or an inch's ratio
off what the other walks, the tape or the map say."""

from __future__ import annotations

import math
import statistics
from collections.abc import Mapping
from dataclasses import replace

from ..findings import Decisions, Finding, Severity
from ..units import convert
from ..walk import Job, Tape, Walk

UNITS = {name: convert(1.0, name, "m") for name in ("m", "ft", "us-ft", "in", "cm", "mm")}
"""Metres of each unit that a log may be in."""
NEAR = 0.02
"""A ratio within 2 % of a unit's is that unit's (trade.md, IN-03)."""

ABSURD = 5.0
"""A size so many times what a tape or the other walks say is no blunder of a station or a tape. trade.md says 20; a walk
ten times too large gave ten stops at marks and tapes instead."""

Base = tuple[str, str]


def check_units(
    job: Job, map_bases: Mapping[Base, float], decisions: Decisions
) -> tuple[Job, tuple[Finding, ...]]:
    """Find walks and tapes in a wrong unit; put right those that are answered.

    Args:
        job: walks and tapes.
        map_bases: metres on the ground between control marks, by (mark, mark) sorted.
        decisions: an answer to IN-03 is the unit that the walk or the tape is truly in.

    Returns:
        The job with the answered ones put right, and the findings.
    """
    bases = [_bases(walk) for walk in job.walks]
    against = _all_against_tapes(bases, job.tapes, map_bases)
    known = [
        (against, "the tape") if against else _ratio(k, bases, job.tapes, map_bases)
        for k in range(len(bases))
    ]
    noticed = [_walk_finding(walk, *ratio) if ratio else None for walk, ratio in zip(job.walks, known)]
    asked = [decisions.answered(f) if f else None for f in noticed]
    walks = tuple(
        walk.scaled(UNITS[f.answer] / walk.keys.unit_m) if f and f.answer in UNITS else walk
        for walk, f in zip(job.walks, asked)
    )
    right = [base for f, base in zip(asked, bases) if f is None]
    of_tapes = [_tape_finding(tape, right, map_bases) for tape in job.tapes]
    answered = [decisions.answered(f) if f else None for f in of_tapes]
    tapes = tuple(
        _in_unit(tape, f.answer) if f and f.answer else tape for tape, f in zip(job.tapes, answered)
    )
    return replace(job, walks=walks, tapes=tapes), tuple(f for f in (*asked, *answered) if f)


def _in_unit(tape: Tape, unit: str) -> Tape:
    factor = UNITS[unit] / tape.unit_m
    sd = None if tape.sd is None else tape.sd * factor
    return replace(tape, distance=tape.distance * factor, sd=sd, unit_m=UNITS[unit])


def _bases(walk: Walk) -> dict[Base, float]:
    """Length of each base between two marks of a walk, from its first stands on them, metres."""
    stands: dict[str, int] = {}
    for i, mark in enumerate(walk.mark):
        if mark:
            stands.setdefault(mark, i)
    names = sorted(stands)
    return {
        (a, b): math.dist(walk.xy[stands[a]], walk.xy[stands[b]])
        for i, a in enumerate(names)
        for b in names[i + 1 :]
    }


def _ratio(
    k: int, bases: list[dict[Base, float]], tapes: tuple[Tape, ...], map_bases: Mapping[Base, float]
) -> tuple[float, str] | None:
    """Median ratio of a walk's bases to what else is known of them, and what that was.

    Three walks or more speak for themselves; with fewer a tape decides, then the map, then the other walk.
    """
    taped = {(min(t.start, t.end), max(t.start, t.end)): t.distance for t in tapes}
    found: dict[str, list[float]] = {
        "the other walks": [],
        "the tape": [],
        "the map": [],
        "the other walk": [],
    }
    for base, length in bases[k].items():
        others = [own[base] for j, own in enumerate(bases) if j != k and base in own]
        if len(others) >= 2:
            found["the other walks"].append(_part(length, statistics.median([*others, length])))
            continue
        found["the tape"] += [_part(length, taped[base])] if base in taped else []
        found["the map"] += [_part(length, map_bases[base])] if base in map_bases else []
        found["the other walk"] += [_part(length, others[0])] if others else []
    good = {source: [r for r in ratios if r > 0 and math.isfinite(r)] for source, ratios in found.items()}
    known = {source: statistics.median(ratios) for source, ratios in good.items() if ratios}
    if not known or any(abs(ratio - 1.0) < AGREES for ratio in known.values()):
        # What one other source bears out is not in a wrong unit, whatever a tape says: the tape is then.
        return None
    source = next(iter(known))
    return known[source], source


def _all_against_tapes(
    bases: list[dict[Base, float]], tapes: tuple[Tape, ...], map_bases: Mapping[Base, float]
) -> float | None:
    """The ratio of the walks to the tapes, where all walks are one unit's ratio off two tapes or more and no map says
    which is right: rather the walks are put in doubt, whose figures hang on it, than the tapes."""
    taped = {(min(t.start, t.end), max(t.start, t.end)): t for t in tapes}
    found = [
        (base, _part(own[base], t.distance)) for base, t in taped.items() for own in bases if base in own
    ]
    ratios = [ratio for _, ratio in found if ratio > 0 and math.isfinite(ratio)]
    if len({base for base, _ in found}) < 2 or not ratios or set(taped) & set(map_bases):
        return None
    middle = statistics.median(ratios)
    is_one = all(abs(ratio / middle - 1.0) < NEAR for ratio in ratios)
    return middle if is_one and _units_for(1.0, middle) else None


def _part(length: float, known: float) -> float:
    return length / known if known else math.nan


AGREES = 0.2
"""A ratio this near to 1 speaks for the unit: the nearest units are a factor of 2.5 apart."""


def _units_for(unit_m: float, ratio: float) -> tuple[str, ...]:
    """Names of units, other than the one said, that explain a ratio of measured to true length."""
    return tuple(
        name
        for name, metres in UNITS.items()
        if abs(unit_m / ratio / metres - 1.0) < NEAR and abs(metres / unit_m - 1.0) > NEAR
    )


def _walk_finding(walk: Walk, ratio: float, source: str) -> Finding | None:
    answers = _units_for(walk.keys.unit_m, ratio)
    if not answers:
        return _absurd(walk, ratio, source) if max(ratio, 1.0 / ratio) > ABSURD else None
    return Finding(
        "IN-03",
        Severity.STOP,
        walk.place(0),
        "Walk {walk}: its lengths between marks are {ratio:.4g} times those of {source}; the log says {unit}, "
        "and {true} would fit.",
        "Set the walk's unit to {true}.",
        {
            "walk": walk.name,
            "ratio": ratio,
            "source": source,
            "unit": walk.keys.units or "m",
            "true": " or ".join(answers),
        },
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
        answers=answers,
    )


def _absurd(walk: Walk, ratio: float, source: str) -> Finding:
    return Finding(
        "IN-02",
        Severity.STOP,
        walk.place(0),
        "Walk {walk}: its lengths between marks are {ratio:.4g} times those of {source}, and no unit would explain that.",
        "State the unit that the log is truly in, tape a length between two marks, or confirm with: as recorded.",
        {"walk": walk.name, "ratio": ratio, "source": source},
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
        answers=("as recorded",),
    )


def _tape_finding(
    tape: Tape, right: list[dict[Base, float]], map_bases: Mapping[Base, float]
) -> Finding | None:
    base = (min(tape.start, tape.end), max(tape.start, tape.end))
    known = [own[base] for own in right if base in own]
    if len(known) < 2 and base in map_bases:
        known.append(map_bases[base])
    if len(known) < 2:
        return None
    walked = statistics.median(known)
    if not walked > 0:
        return None
    ratio = tape.distance / walked
    answers = _units_for(tape.unit_m, ratio)
    if not answers:
        return None
    return Finding(
        "IN-03",
        Severity.STOP,
        f"{tape.start}+{tape.end}",
        "Tape {start} to {end}: {distance:.3f} m is {ratio:.4g} times the length walked; {true} would fit.",
        "Set the tape's unit to {true}.",
        {
            "start": tape.start,
            "end": tape.end,
            "distance": tape.distance,
            "ratio": ratio,
            "true": " or ".join(answers),
        },
        file=tape.file,
        line=tape.line,
        answers=answers,
    )
