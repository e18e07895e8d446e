# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines and lines of a layer that cannot be measured: what is wrong with each, and what to do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from ...findings import Finding, Severity
from ...quantity import Floats
from .containment import Misplaced, find_misplaced
from .crossings import How, Meeting, find_meetings
from .edges import edges_of
from .ground import Grounded, GroundWay
from .remedies import tell_remedies
from .shapes import Flags, Kind, Shapes, same_places
from .sums import RunSums

THIN = 1e-12
"""Of its length squared: an outline of less area than this lies on one line."""


def find_area_faults(shapes: Shapes, ground: Grounded, sums: RunSums) -> dict[int, Finding]:
    """What is wrong with each outline that cannot be measured, by its number; the first that is found of each."""
    faults = _find_plain_faults(shapes, ground, Kind.AREAS, "an outline")
    _add_open_and_empty(shapes, ground, sums, faults)
    good = _good(shapes, faults)
    its = shapes.runs_of(good)
    # Places as stored, from a point of their own: what touches to the bit does so here.
    local = its.xy - _first_of_feature(its)
    sizes = ground.xy if its is shapes else ground.xy[good[shapes.of_point]]
    for feature, meeting in find_meetings(its, local).items():
        faults[feature] = _crossing(its, sizes, meeting)
    for feature, misplaced in find_misplaced(its.runs_of(_good(its, faults)), its, local).items():
        faults[feature] = _misplaced(misplaced, its)
    return faults


def find_line_faults(shapes: Shapes, ground: Grounded) -> dict[int, Finding]:
    """The same for lines."""
    faults = _find_plain_faults(shapes, ground, Kind.LINES, "a line")
    short = np.flatnonzero(shapes.sizes < 2)
    for feature in shapes.feature[short]:
        faults.setdefault(int(feature), _few(1, "a line"))
    return faults


def _good(shapes: Shapes, faults: Mapping[int, Finding]) -> Flags:
    good = np.ones(len(shapes), bool)
    good[list(faults)] = False
    return good


def _first_of_feature(shapes: Shapes) -> Floats:
    """(n, 2) the first point of each point's feature."""
    if not len(shapes.feature):
        return np.zeros((0, 2))
    first = np.searchsorted(shapes.feature, shapes.feature)
    return np.repeat(shapes.xy[shapes.start[first]], shapes.sizes, axis=0)


def _find_plain_faults(shapes: Shapes, ground: Grounded, kind: Kind, wanted: str) -> dict[int, Finding]:
    faults: dict[int, Finding] = {}
    for feature in np.flatnonzero(shapes.kind != kind):
        faults[int(feature)] = _wrong_kind(Kind(int(shapes.kind[feature])), wanted)
    bad = ~np.isfinite(shapes.xy[:, 0] + shapes.xy[:, 1])
    for feature, point in _firsts(shapes, bad):
        x, y = shapes.xy[point]
        faults.setdefault(feature, _no_place(int(point - shapes.start[_run(shapes, point)]), x, y))
    for feature, point in _firsts(shapes, ground.is_lost & ~bad):
        x, y = shapes.xy[point]
        faults.setdefault(feature, _beyond(x, y))
    if shapes.is_mid.any():
        edges = edges_of(shapes, ground.xy)
        impossible = np.zeros(len(shapes.xy), bool)
        impossible[edges.mid[edges.arcs.is_impossible]] = True
        for feature, point in _firsts(shapes, impossible):
            x, y = shapes.xy[point]
            faults.setdefault(feature, _impossible_arc(x, y))
    return faults


def _firsts(shapes: Shapes, which: Flags) -> list[tuple[int, int]]:
    """Features with such a point, each with the first of them."""
    points = np.flatnonzero(which)
    features, first = np.unique(shapes.of_point[points] if len(points) else points, return_index=True)
    return [(int(feature), int(points[k])) for feature, k in zip(features, first)]


def _run(shapes: Shapes, point: int) -> int:
    return int(np.searchsorted(shapes.start, point, "right")) - 1


def _add_open_and_empty(shapes: Shapes, ground: Grounded, sums: RunSums, faults: dict[int, Finding]) -> None:
    """Rings that are not closed, or enclose nothing."""
    if not len(shapes.feature):
        return
    first, last = shapes.start[:-1], shapes.start[1:] - 1
    is_open = ~same_places(shapes.xy[first], shapes.xy[last])
    for run in np.flatnonzero(is_open):
        gap = float(np.hypot(*(ground.xy[first[run]] - ground.xy[last[run]])))
        faults.setdefault(int(shapes.feature[run]), _not_closed(gap))
    for run in np.flatnonzero(np.abs(sums.area) <= THIN * sums.length**2):
        if _is_thin(shapes, ground.xy, int(run)):
            faults.setdefault(int(shapes.feature[run]), _thin())


def _is_thin(shapes: Shapes, xy: Floats, run: int) -> bool:
    """Whether all points of a run lie on one line; a figure of eight has no net area either, but is not thin."""
    points = xy[shapes.start[run] : shapes.start[run + 1]]
    away = points - points[0]
    far = away[np.argmax((away**2).sum(axis=1))]
    size = float(far @ far)
    return bool(np.abs(away[:, 0] * far[1] - away[:, 1] * far[0]).max() <= 1e-9 * size)


def _crossing(shapes: Shapes, ground: Floats, meeting: Meeting) -> Finding:
    x, y = meeting.at
    first = shapes.xy[shapes.start[np.searchsorted(shapes.feature, shapes.feature[meeting.first])]]
    x, y = x + first[0], y + first[1]
    if meeting.edges is None:
        template, remedy = _MEETINGS[meeting.how]
        return _stop("GE-01", template, remedy, x=x, y=y)
    i, j = (edge + 1 for edge in meeting.edges)
    words, data = tell_remedies(shapes, ground, meeting.first, meeting.edges)
    return _stop(
        "GE-01",
        "The outline crosses itself at ({x:.3f}, {y:.3f}), where its side {i} meets its side {j}.",
        words,
        x=x,
        y=y,
        i=i,
        j=j,
        **data,
    )


def _misplaced(misplaced: Misplaced, shapes: Shapes) -> Finding:
    x, y = (float(v) for v in shapes.xy[shapes.start[misplaced.run]])
    template, remedy = _PLACES[misplaced.how]
    return _stop("GE-01", template, remedy, x=x, y=y)


_PLACES = {
    "outside": (
        "The hole at ({x:.3f}, {y:.3f}) lies outside its outer ring.",
        "Move it inside, or make it a part of its own.",
    ),
    "over": (
        "The hole at ({x:.3f}, {y:.3f}) reaches over the edge of its outer ring.",
        "Draw it inside, or take what lies beyond it out of the outer ring.",
    ),
    "covers": (
        "The hole at ({x:.3f}, {y:.3f}) covers the whole of its outer ring.",
        "Take the hole out, or make it smaller.",
    ),
    "nested": (
        "The hole at ({x:.3f}, {y:.3f}) lies inside another hole.",
        "Take the inner one out, or make it a part: ground inside a hole is not taken off twice.",
    ),
    "shared": (
        "The hole at ({x:.3f}, {y:.3f}) lies over another hole, so that their common ground would be taken off twice.",
        "Join the two, or move their common edge.",
    ),
    "twice": (
        "The part at ({x:.3f}, {y:.3f}) lies inside another part, so that its ground would count twice.",
        "Take it out, or cut a hole for it.",
    ),
    "overlaps": (
        "The part at ({x:.3f}, {y:.3f}) lies over another part, so that their common ground would count twice.",
        "Join the two, or move their common edge.",
    ),
}
_MEETINGS = {
    How.RINGS_CROSS: (
        "Two rings of the outline cross each other at ({x:.3f}, {y:.3f}).",
        "Move one of them, or join them: a hole lies inside its outer ring, and parts lie apart.",
    ),
    How.SPIKE: (
        "The outline goes out to ({x:.3f}, {y:.3f}) and back the same way.",
        "Delete that point.",
    ),
    How.ROUND_AGAIN: (
        "The outline goes round the ground at ({x:.3f}, {y:.3f}) more than once.",
        "Take out the points of one round.",
    ),
    How.OPPOSITE: (
        "The outline has loops that go round in opposite senses, one at ({x:.3f}, {y:.3f}): they would be netted off.",
        "List the points of that loop in reverse order, or split the outline.",
    ),
}


class Degrees(float):
    """A coordinate in degrees: where a template tells millimetres of a metre, seven places, which are a centimetre."""

    def __format__(self, spec: str) -> str:
        """By the same templates as metres."""
        return super().__format__(".7f" if spec == ".3f" else spec)


def in_units_of(findings: dict[int, Finding], way: GroundWay) -> dict[int, Finding]:
    """Findings of a layer with their places told as its CRS has them: degrees with seven places."""
    if not way.flat.is_geographic:
        return findings
    out = {}
    for row, finding in findings.items():
        place = {k: Degrees(v) for k, v in finding.data.items() if k in ("x", "y") and isinstance(v, float)}
        out[row] = replace(finding, data={**finding.data, **place}) if place else finding
    return out


def _stop(code: str, template: str, remedy: str, **data: object) -> Finding:
    return Finding(code, Severity.STOP, "", template, remedy, data)


def _wrong_kind(kind: Kind, wanted: str) -> Finding:
    if kind is Kind.NOTHING:
        return _stop("GE-07", "There is no geometry.", "Draw it, or delete the row.")
    if kind is Kind.UNREADABLE:
        return _stop(
            "GE-07",
            "The geometry is damaged or of a kind that is not known.",
            "Draw it again, or repair the file.",
        )
    if kind is Kind.FACES:
        return _stop(
            "GE-07",
            "The geometry is a surface of faces in space, not {wanted}.",
            "Take its outline, or measure it as a surface.",
            wanted=wanted,
        )
    if kind is Kind.MIXED:
        return _stop(
            "GE-07",
            "The geometry is a collection of several kinds, not {wanted}.",
            "Split it into one feature for each kind.",
            wanted=wanted,
        )
    what = {Kind.POINTS: "a point", Kind.LINES: "a line", Kind.AREAS: "an outline"}[kind]
    return _stop(
        "GE-07",
        "The geometry is {what}, not {wanted}.",
        "Measure a layer of the right kind, or redraw it.",
        what=what,
        wanted=wanted,
    )


def _no_place(number: int, x: float, y: float) -> Finding:
    return _stop(
        "GE-07",
        "Point {number} has no place: ({x}, {y}).",
        "Move that point to where it belongs, or delete it.",
        number=number + 1,
        x=float(x),
        y=float(y),
    )


def _beyond(x: float, y: float) -> Finding:
    return _stop(
        "GE-07",
        "({x:.3f}, {y:.3f}) is no place on the earth in the layer's CRS.",
        "Check the layer's CRS (was it set where it should have been reprojected?), or move the point.",
        x=float(x),
        y=float(y),
    )


def _impossible_arc(x: float, y: float) -> Finding:
    return _stop(
        "GE-03",
        "The arc through ({x:.3f}, {y:.3f}) is none: that point lies in line with the arc's ends, beyond them.",
        "Move the middle point between the ends, or draw a straight.",
        x=float(x),
        y=float(y),
    )


def _not_closed(gap: float) -> Finding:
    return _stop("GE-01", "A ring is open by {gap:.3f} m.", "Close it: its last point is its first.", gap=gap)


def _thin() -> Finding:
    return _stop(
        "GE-01", "A ring lies on one line, so it has no area.", "Correct its points, or draw a line."
    )


def _few(count: int, wanted: str) -> Finding:
    return _stop(
        "GE-07", "{count} point makes no line.", "Add points, or delete the row.", count=count, wanted=wanted
    )
