# SPDX-License-Identifier: GPL-2.0-or-later
"""From tests to findings: loops first, then the worst observation after another let go, until the rest fits."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..findings import Decisions, Finding, Severity
from ..quantity import COVER_95
from ..walk import Walk
from .closures import Loop
from .naming import Hypothesis, Suspect, name_exchange, name_suspects
from .solve import Both, Freed, Tested, solve, test_all
from .tests import verdict
from .ties import Ties

MOST_STOPS = 8
"""Observations let go one after another at the most; a job worse than that is not adjusted further."""
SINGLE = ("stand", "tape", "height", "level")


@dataclass(frozen=True, eq=False)
class Judged:
    """The network as it is kept, what was let go, all tests of it, their count, and the findings."""

    both: Both
    freed: Freed
    tests: tuple[Tested, ...]
    count: int
    findings: tuple[Finding, ...]
    exchanged: tuple[Hypothesis, ...] = ()


def judge(ties: Ties, loops: Sequence[tuple[Loop, ...]], extra: int, decisions: Decisions) -> Judged:
    """Solve, test, let go what a stop names, and solve again.

    `extra` counts the tests that placing will make: one budget serves the whole job.
    """
    whole = solve(ties)
    tests = test_all(whole, Freed())
    count = sum(t.outcome.is_checked for t in tests) + sum(1 + (loop.height_p < 1) for at in loops for loop in at)
    count += extra
    findings, freed = _judge_loops(whole, loops, count, decisions)
    exchanged: tuple[Hypothesis, ...] = ()
    both = solve(ties, freed) if freed != Freed() else whole
    for _ in range(MOST_STOPS):
        tests = test_all(both, freed)
        worst = _worst(tests)
        severity = None if worst is None else verdict(worst.outcome.p, count)
        if worst is None or severity is None:
            break
        if not exchanged and freed == Freed():
            exchanged = name_exchange(both)
            if exchanged:
                named = _exchange_findings(ties, exchanged, severity, decisions)
                findings += named
                freed = _without_heights(both, exchanged, freed)
                both = solve(ties, freed)
                continue
        found = _single_findings(both, worst, severity, decisions)
        findings += found
        if severity is Severity.ASK and not any(f.answer == "leave out" for f in found):
            break
        freed = _let_go(freed, worst)
        both = solve(ties, freed)
    return Judged(both, freed, test_all(both, freed), count, tuple(findings), exchanged)


def _worst(tests: Sequence[Tested]) -> Tested | None:
    """The least likely single observation; a group or a whole network only where no single one is as bad."""
    checked = [t for t in tests if t.outcome.is_checked]
    return min(checked, key=lambda t: (t.outcome.p, t.kind not in SINGLE), default=None)


def _let_go(freed: Freed, worst: Tested) -> Freed:
    if worst.kind == "stand":
        return replace(freed, stands=(*freed.stands, worst.number))
    if worst.kind == "tape":
        return replace(freed, tapes=(*freed.tapes, worst.number))
    if worst.kind in ("height", "level"):
        return replace(freed, heights=(*freed.heights, worst.number))
    return freed


def _without_heights(both: Both, exchanged: tuple[Hypothesis, ...], freed: Freed) -> Freed:
    """A walk with exchanged marks keeps one height (its shift); the others would bend its neighbours. Stands on
    marks that no other stand shares bend nothing, and cannot be let go (the mark would hang on nothing)."""
    rows = list(freed.heights)
    stands = both.height.occupations
    for walk in {h.walk for h in exchanged}:
        elsewhere = {o.mark for o in stands if o.walk != walk}
        own = [i for i, o in enumerate(stands) if o.walk == walk and o.mark in elsewhere]
        rows += [i for i in own[1:] if i not in rows]
    return replace(freed, heights=tuple(rows))


def _judge_loops(
    both: Both, loops: Sequence[tuple[Loop, ...]], count: int, decisions: Decisions
) -> tuple[list[Finding], Freed]:
    ties, findings, stands, heights = both.ties, [], [], []
    for k, own in enumerate(loops):
        for loop in own:
            severity = Severity.STOP if loop.is_far else verdict(loop.p, count)
            if severity is not None:
                suspects = name_suspects(both, k, loop.start, loop.end)
                findings.append(decisions.answered(_loop_finding(ties, k, loop, severity, suspects)))
            if severity is Severity.STOP:
                stands.append(_stand_at(ties, k, loop.end))
            level = verdict(loop.height_p, count)
            if level is not None:
                findings.append(decisions.answered(_height_loop_finding(ties, k, loop, level)))
            if level is Severity.STOP:
                row = int(ties.first[k]) + loop.end
                heights += [i for i, o in enumerate(both.height.occupations) if o.row == row]
    return findings, Freed(tuple(stands), (), tuple(heights))


def _stand_at(ties: Ties, k: int, i: int) -> int:
    row = int(ties.first[k]) + i
    return next(n for n, o in enumerate(ties.occupations) if o.row == row)


def _loop_finding(
    ties: Ties, k: int, loop: Loop, severity: Severity, suspects: tuple[Suspect, ...]
) -> Finding:
    walk = ties.walks[k]
    named = _suspects_text(walk, suspects)
    template = (
        "Walk {walk} comes back to {mark} {gap:.3f} m off, where its instrument should give {expected:.3f} m "
        "(one sigma). Between stations {start} and {end} any one of these alone would explain it: {suspects}."
        if named
        else "Walk {walk} comes back to {mark} {gap:.3f} m off, where its instrument should give {expected:.3f} m "
        "(one sigma). No single leg or turn between stations {start} and {end} explains it."
    )
    return Finding(
        "CL-01",
        severity,
        walk.place(loop.end),
        template,
        "The misclosure is not spread. Look at these legs, and walk the section again or split the walk there."
        if severity is Severity.STOP
        else "Look at these legs; the misclosure is spread as it stands unless the walk is mended.",
        {
            "walk": walk.name,
            "mark": loop.mark,
            "gap": loop.size,
            "expected": loop.expected,
            "start": walk.station[loop.start],
            "end": walk.station[loop.end],
            "suspects": named,
        },
        file=walk.file,
        line=int(walk.line[loop.end]),
        walk=walk.name,
        station=walk.station[loop.end],
        answers=("accept",),
    )


def _suspects_text(walk: Walk, suspects: tuple[Suspect, ...]) -> str:
    """Legs and turns, best first; parallel legs explain a misclosure equally well, so there can be many."""
    legs = [
        f"{walk.station[s.station - 1]} to {walk.station[s.station]} ({s.size:+.2f} m)"
        for s in suspects
        if s.kind == "leg"
    ]
    turns = [
        f"{walk.station[s.station]} ({math.degrees(s.size):+.1f} deg)" for s in suspects if s.kind == "turn"
    ]
    parts = [("leg " + ", ".join(legs)) if legs else "", ("turn at " + ", ".join(turns)) if turns else ""]
    return "; ".join(part for part in parts if part)


def _height_loop_finding(ties: Ties, k: int, loop: Loop, severity: Severity) -> Finding:
    walk = ties.walks[k]
    return Finding(
        "CL-01",
        severity,
        walk.place(loop.end),
        "Walk {walk} comes back to {mark} {gap:+.3f} m off in height, where its instrument should give "
        "{expected:.3f} m (one sigma).",
        "The height misclosure is not spread. Look for a changed pole height (WK-03), or walk the heights again.",
        {"walk": walk.name, "mark": loop.mark, "gap": loop.height_gap, "expected": loop.height_sigma},
        file=walk.file,
        line=int(walk.line[loop.end]),
        walk=walk.name,
        station=walk.station[loop.end],
        answers=("accept",),
    )


def _exchange_findings(
    ties: Ties, found: tuple[Hypothesis, ...], severity: Severity, decisions: Decisions
) -> list[Finding]:
    """One finding for each walk that alone would explain it; with several, "one of these"."""
    out = []
    for h in found:
        walk = ties.walks[h.walk]
        names = [ties.marks[j] for j in h.marks]
        stands = [o for o in ties.occupations if o.walk == h.walk and (not h.marks or o.mark in h.marks)]
        seen = {o.mark: o for o in reversed(stands)}
        data = {"walk": walk.name, "one": names[0] if names else "", "other": names[-1] if names else ""}
        data["others"] = ", ".join(sorted({ties.walks[g.walk].name for g in found if g != h})) or "no other walk"
        template, remedy, answer = (
            (
                "Walk {walk} fits the other walks only with its marks {one} and {other} exchanged (would serve as "
                "well: {others}).",
                "Exchange {one} and {other} in this walk, or rename them.",
                "exchange",
            )
            if names
            else (
                "Walk {walk} fits the other walks only as a mirror image (would serve as well: {others}).",
                "Change the sign of y in this walk: its axes were taken left-handed.",
                "mirror",
            )
        )
        places = [ties.place(seen[j]) for j in h.marks] or [walk.place(0)]
        first = seen[h.marks[0]] if h.marks else stands[0]
        i = ties.row_in_walk(first)
        out.append(
            decisions.answered(
                Finding(
                    "TI-03",
                    severity,
                    "+".join(places),
                    template,
                    remedy,
                    data,
                    file=walk.file,
                    line=int(walk.line[i]),
                    walk=walk.name,
                    station=walk.station[i],
                    answers=(answer, "accept"),
                )
            )
        )
    return out


def _single_findings(both: Both, worst: Tested, severity: Severity, decisions: Decisions) -> list[Finding]:
    """What the worst test says: a stand, a tape, a height, a level, or a group that no single one explains."""
    if worst.kind == "tape":
        found = [_tape_finding(both, worst, severity)]
    elif worst.kind == "stand":
        found = _stand_findings(both, worst, severity)
    elif worst.kind == "height":
        found = [_height_finding(both, worst, severity)]
    elif worst.kind == "level":
        found = [_level_finding(both, worst, severity)]
    else:
        found = [_group_finding(worst, severity)]
    return [decisions.answered(finding) for finding in found]


def _tape_finding(both: Both, worst: Tested, severity: Severity) -> Finding:
    tape = both.ties.tapes[worst.number]
    row = both.plan.tapes[worst.number]
    return Finding(
        "SR-01",
        severity,
        f"{tape.start}+{tape.end}",
        "Tape {start} to {end}: taped {taped:.3f} m, walked {computed:.3f} m, difference {difference:+.3f} m where "
        "{allowed:.3f} m (95 %) would be expected.",
        "Tape it again, or leave this tape out; until then use the figures for a budget only.",
        {
            "start": tape.start,
            "end": tape.end,
            "taped": row.distance,
            "computed": row.distance - worst.size,
            "difference": worst.size,
            "allowed": COVER_95 * worst.sigma,
        },
        file=tape.file,
        line=tape.line,
        answers=("leave out", "accept"),
    )


def _stand_findings(both: Both, worst: Tested, severity: Severity) -> list[Finding]:
    """The stand; with only two in disagreement both are named."""
    ties = both.ties
    o = ties.occupations[worst.number]
    twins = [
        i
        for i, p in enumerate(ties.occupations)
        if i != worst.number and p.walk == o.walk and len(ties.stood(o.walk)) == 2
    ]
    also = ", ".join(ties.place(ties.occupations[i]) for i in twins)
    walk, i = ties.walk_of(o), ties.row_in_walk(o)
    template = "Mark {mark} as stood on in walk {walk} at station {station} is {size:.3f} m from where the rest puts it"
    template += " (the same could be said of {also})." if also else "."
    return [
        Finding(
            "TI-03",
            severity,
            walk.place(i),
            template,
            "Was it the same point? Correct the mark's name in the log, or leave this stand out.",
            {
                "mark": ties.marks[o.mark],
                "walk": walk.name,
                "station": walk.station[i],
                "size": abs(worst.size),
                "also": also,
            },
            file=walk.file,
            line=int(walk.line[i]),
            walk=walk.name,
            station=walk.station[i],
            answers=("leave out", "accept"),
        )
    ]


def _height_finding(both: Both, worst: Tested, severity: Severity) -> Finding:
    ties, o = both.ties, both.height.occupations[worst.number]
    walk, i = ties.walk_of(o), ties.row_in_walk(o)
    return Finding(
        "TI-03",
        severity,
        walk.place(i),
        "The height of mark {mark} in walk {walk} at station {station} is {size:.3f} m from what the rest gives.",
        "Was it the same point, with the same pole height? Correct the log, or leave this height out.",
        {"mark": ties.marks[o.mark], "walk": walk.name, "station": walk.station[i], "size": abs(worst.size)},
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        answers=("leave out", "accept"),
    )


def _level_finding(both: Both, worst: Tested, severity: Severity) -> Finding:
    level = both.height.levels[worst.number - len(both.height.occupations)]
    mark = both.ties.marks[level.mark]
    return Finding(
        "TI-03",
        severity,
        mark,
        "The known level of mark {mark}, {height:.3f} m, is {size:.3f} m from what the walks and the other levels "
        "give.",
        "Check the level and its datum, or leave it out.",
        {"mark": mark, "height": level.height, "size": abs(worst.size)},
        answers=("leave out", "accept"),
    )


def _group_finding(worst: Tested, severity: Severity) -> Finding:
    what = {"pair": "between two walks", "plan": "of the whole plan network", "heights": "of all heights"}
    return Finding(
        "TI-03",
        severity,
        "survey",
        "The marks agree less well than the instrument should give: the test {what} has a chance of {p:.1e}, and "
        "no single stand explains it.",
        "Check the stated instrument and the holds on marks; walk again what is doubtful.",
        {"what": what[worst.kind], "p": worst.outcome.p},
        answers=("accept",),
    )
