# SPDX-License-Identifier: GPL-2.0-or-later
"""The findings of the adjustment in words: loops, exchanged marks, stands, tapes, heights, levels."""

from __future__ import annotations

import math
from dataclasses import replace

from ..findings import Decisions, Finding, Severity
from ..quantity import COVER_95
from ..walk import Walk
from .closures import Loop
from .naming import Hypothesis, Suspect
from .network import Occupation
from .solve import Both, Tested, solve
from .ties import Ties


def tell_loop(ties: Ties, k: int, loop: Loop, severity: Severity, suspects: tuple[Suspect, ...]) -> Finding:
    """CL-01: a walk that comes back to a mark off in plan, and what alone would explain it."""
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


def tell_height_loop(ties: Ties, k: int, loop: Loop, severity: Severity) -> Finding:
    """CL-01: a walk that comes back to a mark off in height."""
    walk = ties.walks[k]
    return Finding(
        "CL-01",
        severity,
        f"{walk.place(loop.end)}+{loop.mark}",
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


def height_place(ties: Ties, o: Occupation) -> str:
    """The place of a finding on the height of a stand, apart from that of one on its place in plan."""
    return f"{ties.place(o)}+{ties.marks[o.mark]}"


def tell_exchanged(
    ties: Ties, found: tuple[Hypothesis, ...], severity: Severity, decisions: Decisions
) -> list[Finding]:
    """One finding for each walk that alone would explain it; with several, "one of these"."""
    out = []
    for h in found:
        others = sorted({ties.walks[g.walk].name for g in found if g != h})
        wrong = "one wrong level or height" if _is_by_levels(ties, h) else "one wrong height"
        others += [wrong] if h.is_one_of_heights else []
        finding = _exchange_finding if h.marks else _mirror_finding
        out.append(decisions.answered(finding(ties, h, severity, ", ".join(others) or "no other walk")))
    return out


def _exchange_finding(ties: Ties, h: Hypothesis, severity: Severity, others: str) -> Finding:
    one, other = (ties.marks[j] for j in h.marks)
    seen = {o.mark: o for o in reversed(ties.occupations) if o.walk == h.walk and o.mark in h.marks}
    by_levels = _is_by_levels(ties, h)
    finding = _stand_record(
        ties,
        seen[h.marks[0]],
        severity,
        template="Walk {walk} fits the known levels only with its marks {one} and {other} exchanged (would serve as "
        "well: {others})."
        if by_levels
        else "Walk {walk} fits the other walks only with its marks {one} and {other} exchanged (would serve as "
        "well: {others}).",
        remedy="Exchange {one} and {other} in this walk, or rename them. If the names are right, accept them: the "
        "heights and levels are then judged one by one."
        if h.is_one_of_heights
        else "Exchange {one} and {other} in this walk, or rename them.",
        data={
            "walk": ties.walks[h.walk].name,
            "one": one,
            "other": other,
            "others": others,
            "heights": by_levels,
        },
    )
    places = "+".join(ties.place(seen[j]) for j in h.marks)
    return replace(finding, place=places, answers=("exchange", "accept"))


def _is_by_levels(ties: Ties, h: Hypothesis) -> bool:
    """Whether known levels, and no other walk on both marks, show the exchange."""
    known = {level.mark for level in ties.levels}
    others = (ties.stood(k) for k in range(len(ties.walks)) if k != h.walk)
    return not h.is_in_plan and known >= set(h.marks) and not any(stood >= set(h.marks) for stood in others)


def _mirror_finding(ties: Ties, h: Hypothesis, severity: Severity, others: str) -> Finding:
    walk = ties.walks[h.walk]
    finding = _stand_record(
        ties,
        next(o for o in ties.occupations if o.walk == h.walk),
        severity,
        template="Walk {walk} fits the other walks only as a mirror image (would serve as well: {others}).",
        remedy="Change the sign of y in this walk: its axes were taken left-handed.",
        data={"walk": walk.name, "one": "", "other": "", "others": others},
    )
    return replace(finding, place=walk.place(0), answers=("mirror", "accept"))


def tell_single(
    both: Both, worst: Tested, twins: tuple[Tested, ...], severity: Severity, decisions: Decisions
) -> list[tuple[Tested, Finding]]:
    """What the worst test says, with what it is of: a stand, a tape, a height, a level, or a group that no
    single one explains. What nothing tells from the worst (its twins) has a finding of its own."""
    if worst.kind == "tape":
        found = [(worst, _tape_finding(both, worst, severity))]
    elif worst.kind in ("stand", "height"):
        found = _stand_findings(both, worst, twins, severity)
    elif worst.kind == "level":
        found = _level_findings(both, worst, twins, severity)
    else:
        found = [(worst, _group_finding(worst, severity))]
    return [(tested, decisions.answered(finding)) for tested, finding in found]


def _length_without(both: Both, number: int) -> float:
    """The plan length of a tape's base, in metres, as the rest of the job gives it without this tape."""
    ties = both.ties
    rest = solve(replace(ties, tapes=(*ties.tapes[:number], *ties.tapes[number + 1 :])))
    row = both.plan.tapes[number]
    way = rest.plan.marks[row.end] - rest.plan.marks[row.start]
    return float(math.hypot(*way))


def _tape_finding(both: Both, worst: Tested, severity: Severity) -> Finding:
    tape = both.ties.tapes[worst.number]
    walked = _length_without(both, worst.number)
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
            "computed": walked,
            "difference": row.distance - walked,
            "allowed": COVER_95 * worst.sigma,
        },
        file=tape.file,
        line=tape.line,
        answers=("leave out", "accept"),
    )


def _stand_findings(
    both: Both, worst: Tested, twins: tuple[Tested, ...], severity: Severity
) -> list[tuple[Tested, Finding]]:
    """The stand (or its height); with only two in disagreement each walk's is named, since nothing tells which is
    wrong."""
    finding = _stand_finding if worst.kind == "stand" else _height_finding
    by_walk: dict[int, Tested] = {}
    for t in (worst, *twins):
        by_walk.setdefault(_occupation(both, t).walk, t)
    places = {t: _place(both, t) for t in (worst, *twins)}
    return [
        (t, finding(both, t, [place for other, place in places.items() if other != t], severity))
        for t in by_walk.values()
    ]


def _occupation(both: Both, tested: Tested) -> Occupation:
    stands = both.ties.occupations if tested.kind == "stand" else both.height.occupations
    return stands[tested.number]


def _place(both: Both, tested: Tested) -> str:
    """Where the finding on a stand, a height or a level has its place."""
    if tested.kind == "level":
        return both.ties.marks[both.height.levels[tested.number - len(both.height.occupations)].mark]
    o = _occupation(both, tested)
    return both.ties.place(o) if tested.kind == "stand" else height_place(both.ties, o)


def _stand_finding(both: Both, tested: Tested, others: list[str], severity: Severity) -> Finding:
    template = (
        "Mark {mark} as stood on in walk {walk} at station {station} is {size:.3f} m from where the rest puts it "
        "(the same could be said of {also})."
        if others
        else "Mark {mark} as stood on in walk {walk} at station {station} is {size:.3f} m from where the rest puts it."
    )
    data = _stand_data(both, tested, others)
    return _stand_record(both.ties, _occupation(both, tested), severity, template, STAND_REMEDY, data)


def _stand_data(both: Both, tested: Tested, others: list[str]) -> dict[str, object]:
    o = _occupation(both, tested)
    walk = both.ties.walk_of(o)
    return {
        "mark": both.ties.marks[o.mark],
        "walk": walk.name,
        "station": walk.station[both.ties.row_in_walk(o)],
        "size": abs(tested.size),
        "also": ", ".join(others),
    }


STAND_REMEDY = "Was it the same point? Correct the mark's name in the log, or leave this stand out."


def _stand_record(
    ties: Ties, o: Occupation, severity: Severity, template: str, remedy: str, data: dict[str, object]
) -> Finding:
    walk, i = ties.walk_of(o), ties.row_in_walk(o)
    return Finding(
        "TI-03",
        severity,
        walk.place(i),
        template,
        remedy,
        data,
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        answers=("leave out", "accept"),
    )


def _height_finding(both: Both, tested: Tested, others: list[str], severity: Severity) -> Finding:
    o = _occupation(both, tested)
    template = (
        "The height of mark {mark} in walk {walk} at station {station} is {size:.3f} m from what the rest gives (the "
        "same could be said of {also})."
        if others
        else "The height of mark {mark} in walk {walk} at station {station} is {size:.3f} m from what the rest gives."
    )
    data = _stand_data(both, tested, others)
    finding = _stand_record(both.ties, o, severity, template, HEIGHT_REMEDY, data)
    return replace(finding, place=height_place(both.ties, o))


HEIGHT_REMEDY = "Was it the same point, with the same pole height? Correct the log, or leave this height out."


def _level_findings(
    both: Both, worst: Tested, twins: tuple[Tested, ...], severity: Severity
) -> list[tuple[Tested, Finding]]:
    """The level, and each other one that nothing tells from it; heights as unlikely are told in the message."""
    levels = [t for t in (worst, *twins) if t.kind == "level"]
    every = dict.fromkeys(_place(both, t) for t in (worst, *levels, *twins))
    return [
        (t, _level_finding(both, t, [place for place in every if place != _place(both, t)], severity))
        for t in levels
    ]


def _level_finding(both: Both, tested: Tested, others: list[str], severity: Severity) -> Finding:
    level = both.height.levels[tested.number - len(both.height.occupations)]
    mark = both.ties.marks[level.mark]
    return Finding(
        "TI-03",
        severity,
        mark,
        "The known level of mark {mark}, {height:.3f} m, is {size:.3f} m from what the walks and the other levels "
        "give (the same could be said of {also})."
        if others
        else "The known level of mark {mark}, {height:.3f} m, is {size:.3f} m from what the walks and the other "
        "levels give.",
        "Check the level and its datum, or leave it out.",
        {
            "mark": mark,
            "height": level.height,
            "size": abs(tested.size),
            "also": ", ".join(others),
            "heights": True,
        },
        file=both.ties.control_file,
        line=level.line,
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
        {"what": what[worst.kind], "p": worst.outcome.p, "heights": worst.kind == "heights"},
        answers=("accept",),
    )
