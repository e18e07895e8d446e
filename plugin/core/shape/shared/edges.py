# SPDX-License-Identifier: GPL-2.0-or-later
"""Edges that two features may share (GE-02): asked about, joined where that is the answer, and owned by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...defaults import JOIN_WITHIN
from ...findings import Decisions, Finding, Severity
from ...positions import Positions, station_of
from ...quantity import Floats
from ...segments import Curve, bulges, path_length, ring_area
from ...walk import Kind
from ..crossing import Crossing, find_crossing
from ..records import Shape
from .join import bend, joined_area
from .joined import joined_piece
from .lines import Line, lines_of
from .neighbours import Stretch, find_stretches
from .plan import Plan, plan_join

JOIN, LEAVE = "join", "leave"
WHOLE = 1e-6
"""Part of a side that may be missing before it counts as shared in part only."""


@dataclass(frozen=True)
class _Words:
    """What is the same of every finding of one kind."""

    template: str
    remedy: str


TWO_AREAS = _Words(
    template="{file}, line {line}: {one} and {other} run along each other for {length:.3f} m, at most {gap:.3f} m apart "
    "and {over:.3f} m over each other, which is within what their stations can be trusted to.",
    remedy="Answer join (one edge for both: {one} changes by {change:+.3f} m2, {other} by {other_change:+.3f} m2) or "
    "leave (two edges, as walked).",
)
AREA_AND_LENGTH = _Words(
    template=TWO_AREAS.template,
    remedy="Answer join (one edge for both: {one} changes by {change:+.3f} m2, {other} by {other_change:+.3f} m) or "
    "leave (two edges, as walked).",
)
LENGTH_AND_AREA = _Words(
    template=TWO_AREAS.template,
    remedy="Answer join (one edge for both: {one} changes by {change:+.3f} m, {other} by {other_change:+.3f} m2) or "
    "leave (two edges, as walked).",
)
JOINED_CROSSES = _Words(
    template="{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane once "
    "it is joined with its neighbours.",
    remedy="Answer leave to one of the asks GE-02 that it stands in, or correct the log there.",
)


def share_edges(
    shapes: tuple[Shape, ...],
    positions: Positions,
    decisions: Decisions,
    told: Sequence[Finding],
    within: float = JOIN_WITHIN,
) -> tuple[tuple[Shape, ...], tuple[Finding, ...]]:
    """The shapes with the edges joined that are one edge by answer, their sides with neighbours and owners; GE-02 for
    each two features whose edges may be one. Features that `told` stops take no part."""
    stopped = stopped_places(told)
    lines = [line for line in lines_of(shapes) if shapes[line.shape].place not in stopped]
    asked, joined, same = [], [], []
    for its in _by_features(lines, find_stretches(shapes, lines, positions, within)):
        apart = [stretch for stretch in its if not stretch.is_same]
        same += [stretch for stretch in its if stretch.is_same]
        if apart:
            finding = answered_either_way(_ask(shapes, lines, apart, positions), decisions)
            asked.append(finding)
            joined += apart if finding.answer == JOIN else []
    plan = plan_join(lines, [*joined, *_linked(joined, same)], positions) if joined else None
    out = list(shapes)
    if plan is not None:
        asked += _join(out, lines, plan, positions)
    for number, (owners, others) in _sides(shapes, lines, [*joined, *same]).items():
        shape = out[lines[number].shape]
        piece = replace(shape.pieces[0], owners=owners, others=others)
        out[lines[number].shape] = replace(shape, pieces=(piece,))
    return tuple(out), tuple(asked)


def stopped_places(told: Sequence[Finding]) -> set[str]:
    """Places of open stops, and of those at a station within a feature (`feature+walk:station`) the feature's."""
    open_stops = [f.place for f in told if f.severity is Severity.STOP and f.is_open]
    return {*open_stops, *(place.rpartition("+")[0] for place in open_stops)}


def answered_either_way(finding: Finding, decisions: Decisions) -> Finding:
    """The finding on two features with its answer, whichever of the two the decision names first: their order hangs on
    that of the files. An answered finding has the place that the decision has."""
    one, other = str(finding.data["one"]), str(finding.data["other"])
    answered = decisions.answered(finding)
    if answered.answer is None:
        about = decisions.answered(replace(finding, place=f"{other}+{one}"))
        answered = finding if about.answer is None else about
    return answered


def _by_features(lines: Sequence[Line], stretches: Sequence[Stretch]) -> list[list[Stretch]]:
    """The stretches of each two features, in the order walked."""
    out: dict[tuple[int, int], list[Stretch]] = {}
    for stretch in stretches:
        out.setdefault((lines[stretch.one].shape, lines[stretch.other].shape), []).append(stretch)
    return [out[key] for key in sorted(out)]


def _linked(joined: Sequence[Stretch], same: Sequence[Stretch]) -> list[Stretch]:
    """The stretches that are one edge already, of lines that are joined, or hang together with such."""
    lines = {line for stretch in joined for line in (stretch.one, stretch.other)}
    left, out = list(same), list[Stretch]()
    while True:
        more = [s for s in left if s.one in lines or s.other in lines]
        if not more:
            return out
        out += more
        left = [s for s in left if not (s.one in lines or s.other in lines)]
        lines |= {line for s in more for line in (s.one, s.other)}


def _join(shapes: list[Shape], lines: Sequence[Line], plan: Plan, positions: Positions) -> list[Finding]:
    """Put the joined pieces into the shapes; a stop for each outline that crosses itself then, and did not before."""
    said = []
    for number in plan.places:
        line = lines[number]
        pieces = list(shapes[line.shape].pieces)
        pieces[line.number] = joined_piece(lines, plan, number)
        shapes[line.shape] = replace(shapes[line.shape], pieces=tuple(pieces))
        if line.turn:
            crossing = find_crossing(pieces[0].curve())
            if crossing is not None and find_crossing(line.piece.curve()) is None:
                said.append(_crosses(shapes[line.shape], crossing, positions))
    return said


def _ask(
    shapes: Sequence[Shape], lines: Sequence[Line], stretches: Sequence[Stretch], positions: Positions
) -> Finding:
    one, other = (shapes[lines[k].shape] for k in (stretches[0].one, stretches[0].other))
    over = np.concatenate([_over(lines, stretch) for stretch in stretches])
    worst = max(range(len(stretches)), key=lambda k: float(stretches[k].gap.max()))
    at = lines[stretches[worst].one].points_at(stretches[worst].at_one)[int(np.argmax(stretches[worst].gap))]
    plan = plan_join(lines, stretches, positions)
    data = {
        "one": one.place,
        "other": other.place,
        "length": sum(stretch.length for stretch in stretches),
        "gap": max(0.0, -float(over.min())),
        "over": max(0.0, float(over.max())),
        "change": _change(lines, plan, {stretch.one for stretch in stretches}),
        "other_change": _change(lines, plan, {stretch.other for stretch in stretches}),
    }
    words = LENGTH_AND_AREA if one.kind is Kind.LENGTH else AREA_AND_LENGTH
    words = TWO_AREAS if one.kind is other.kind else words
    walk, cell = station_of(positions, int(other.rows[0]))
    file, line = walk.file, int(walk.line[cell])
    return Finding(
        "GE-02",
        Severity.ASK,
        f"{one.place}+{other.place}",
        words.template,
        words.remedy,
        {"file": file, "line": line, **data},
        file=file,
        line=line,
        walk=walk.name,
        station=walk.station[cell],
        feature=one.feature,
        at=(float(at[0]), float(at[1])),
        answers=(JOIN, LEAVE),
    )


def _over(lines: Sequence[Line], stretch: Stretch) -> Floats:
    """(k,) how far the two features lie over each other at the places of a stretch, metres; negative where apart. Of
    an area and a length: how far the length lies inside the area."""
    pair = (lines[stretch.one], stretch.at_one), (lines[stretch.other], stretch.at_other)
    (area, at), (line, its_at) = pair if pair[0][0].turn else pair[::-1]
    here, there = area.points_at(at), line.points_at(its_at)
    along = np.gradient(here, axis=0) * np.sign(at[-1] - at[0])
    away = there - here
    inside = area.turn * (along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0])
    return np.asarray(np.sign(inside) * stretch.gap)


def _change(lines: Sequence[Line], plan: Plan, numbers: set[int]) -> float:
    """What joining adds to an area in m2, or to a length in m."""
    total = 0.0
    for number in numbers:
        line, bent = lines[number], bend(lines, plan, number)
        if line.turn:
            total += joined_area(bent) - abs(ring_area(line.piece.curve()))
        else:
            total += path_length(Curve(bent.points, bulges(bent.half))) - path_length(line.piece.curve())
    return total


def _crosses(shape: Shape, crossing: Crossing, positions: Positions) -> Finding:
    walk, cell = station_of(positions, int(shape.rows[0]))
    x, y = crossing.at
    file, line = walk.file, int(walk.line[cell])
    return Finding(
        "GE-01",
        Severity.STOP,
        shape.place,
        JOINED_CROSSES.template,
        JOINED_CROSSES.remedy,
        {"file": file, "line": line, "feature": shape.place, "x": x, "y": y},
        file=file,
        line=line,
        walk=walk.name,
        feature=shape.feature,
        at=crossing.at,
    )


def _sides(
    shapes: Sequence[Shape], lines: Sequence[Line], stretches: Sequence[Stretch]
) -> dict[int, tuple[tuple[str, ...], tuple[str, ...]]]:
    """By line of an area, for each of its sides: which feature owns it, and what lies along it. A side that lies
    wholly along one area walked before is owned by that one, so that it is counted once."""
    beside: dict[int, dict[int, Floats]] = {}
    for stretch in stretches:
        for line, other, at in (
            (stretch.one, stretch.other, stretch.at_one),
            (stretch.other, stretch.one, stretch.at_other),
        ):
            if lines[line].turn:
                own = beside.setdefault(line, {})
                cover = own.setdefault(lines[other].shape, np.zeros(len(lines[line].piece.half)))
                cover += _cover(lines[line], at)
    out = {}
    for number, covers in beside.items():
        shape = lines[number].shape
        earlier = [k for k in sorted(covers) if k < shape and shapes[k].kind is Kind.AREA]
        owners, others = [], []
        for edges in _edges_of_sides(lines[number]):
            owner = next((k for k in earlier if covers[k][edges].sum() > len(edges) - WHOLE), shape)
            owners.append(shapes[owner].place)
            others.append("+".join(shapes[k].place for k in sorted(covers) if covers[k][edges].any()))
        out[number] = (tuple(owners), tuple(others))
    return out


def _edges_of_sides(line: Line) -> list[list[int]]:
    legs = line.piece.legs
    return [[edge for k in side for edge in range(legs[k].first, legs[k].last)] for side in line.piece.sides]


def _cover(line: Line, at: Floats) -> Floats:
    """(e,) the part of each edge that lies along a stretch."""
    low = np.minimum(at[:-1], at[1:])
    out = np.zeros(len(line.piece.half))
    np.add.at(out, line.edges_at(low), np.abs(np.diff(at)))
    return out
