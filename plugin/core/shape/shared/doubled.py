# SPDX-License-Identifier: GPL-2.0-or-later
"""Ground that two areas both count (GE-06): a plan that counts it twice prices it twice."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...errors import MissingLibrary
from ...findings import Decisions, Finding, Severity
from ...positions import Positions, station_of
from ...quantity import Floats
from ...segments import part_of_ring
from ...walk import Kind
from ..boxes import find_meeting_boxes
from ..crossing import chords_of, find_meeting
from ..overlap import Overlap, find_overlap, radial_sigma
from ..records import Shape
from .edges import answered_either_way, stopped_places

SIGMAS = 3.0
"""And what overlaps is nowhere wider than this many sigma of the two stations nearest to it, or it may be noise."""
DRAWN_IN = 1e-3
"""Part of the way to the middle."""
APART = ("option", "surface", "phase")
"""Columns by which two areas may lie over each other on purpose; a blank goes with anything."""


def find_doubled(
    shapes: Sequence[Shape],
    positions: Positions,
    decisions: Decisions,
    told: Sequence[Finding],
    within: float,
) -> tuple[Finding, ...]:
    """GE-06 for each two areas that both count some ground by more than touching (`within` metres), their holes taken
    out, with its answer. A hole without an item is an opening, and counts nothing. Areas that `told` stops are left
    out."""
    stopped = stopped_places(told)
    counted = [k for k, shape in enumerate(shapes) if _counts(shape) and shape.place not in stopped]
    rings = {k: _ring(shapes[k]) for k in counted}
    if len(rings) < 2:
        return ()
    low, high = (np.array([f(rings[k], axis=0) for k in counted]) for f in (np.min, np.max))
    # What is wider than touching is so in both axes.
    inside = np.minimum(0.5 * within, 0.25 * (high - low))
    low, high = low + inside, high - inside
    pairs = sorted(
        (counted[i], counted[j])
        for one, other in find_meeting_boxes(low, high, low, high)
        for i, j in zip(one, other)
        if i < j and _go_together(shapes, counted[i], counted[j])
    )
    out = []
    try:
        for one, other in pairs:
            if not _may_overlap(shapes[one], shapes[other], rings[one], rings[other]):
                continue
            found = _overlap(shapes, (one, other), rings, positions, within)
            if found is not None:
                finding = _finding(shapes[one], shapes[other], found, positions)
                out.append(answered_either_way(finding, decisions))
    except MissingLibrary:
        out.append(_unseen())
    return tuple(out)


def _counts(shape: Shape) -> bool:
    is_opening = shape.parent is not None and not shape.texts.get("item")
    return shape.kind is Kind.AREA and bool(shape.pieces) and not is_opening and not shape.set_aside


def _ring(shape: Shape) -> Floats:
    chords = chords_of(shape.pieces[0].curve())
    return np.asarray(chords.xy + chords.origin)


def _go_together(shapes: Sequence[Shape], one: int, other: int) -> bool:
    """Whether two areas are on one surface, in one option and phase; holes of one area are told apart already."""
    a, b = shapes[one], shapes[other]
    if a.parent is not None and a.parent == b.parent:
        return False
    pairs = ((a.texts.get(column, ""), b.texts.get(column, "")) for column in APART)
    return all(not x or not y or x == y for x, y in pairs)


def _may_overlap(one: Shape, other: Shape, ring: Floats, its: Floats) -> bool:
    """Whether the outlines cross, or one has corners within the other; touching alone is neither. Corners are drawn in
    a little first: of an outline that was walked twice to the millimetre all lie on the other one."""
    if find_meeting(one.pieces[0].curve(), other.pieces[0].curve()) is not None:
        return True
    first, second = ring - ring[0], its - ring[0]
    drawn_in = [xy + DRAWN_IN * (xy.mean(axis=0) - xy) for xy in (first, second)]
    return bool(part_of_ring(first, drawn_in[1]).any() or part_of_ring(second, drawn_in[0]).any())


def _overlap(
    shapes: Sequence[Shape],
    pair: tuple[int, int],
    rings: dict[int, Floats],
    positions: Positions,
    within: float,
) -> Overlap | None:
    one, other = (shapes[k] for k in pair)
    holes = [_ring(s) for s in shapes if s.parent in pair and s.kind is Kind.AREA and s.pieces]

    def limit(at: tuple[float, float]) -> float:
        return max(within, SIGMAS * radial_sigma(one, other, at, positions))

    return find_overlap(rings[pair[0]], rings[pair[1]], limit, holes)


def _finding(one: Shape, other: Shape, found: Overlap, positions: Positions) -> Finding:
    walk, cell = station_of(positions, int(other.rows[0]))
    file, line = walk.file, int(walk.line[cell])
    x, y = found.at
    return Finding(
        "GE-06",
        Severity.ASK,
        f"{one.place}+{other.place}",
        template="{file}, line {line}: {one} and {other} lie over each other by {overlap:.3f} m2 at ({x:.3f}, {y:.3f}) in "
        "the survey plane, and both count it.",
        remedy="Correct the stations of the two there, or `hole_in` if one is a hole of the other; give them another "
        "`option`, `surface` or `phase` if they are no one plan; answer leave if both are to count it.",
        data={
            "file": file, "line": line, "one": one.place, "other": other.place, "overlap": found.area, "x": x, "y": y,
        },
        file=file,
        line=line,
        walk=walk.name,
        station=walk.station[cell],
        feature=one.feature,
        at=found.at,
        answers=("leave",),
    )  # fmt: skip


def _unseen() -> Finding:
    return Finding(
        "GE-06",
        Severity.NOTE,
        "survey",
        template="Outlines of areas cross each other, and how much ground they both count was not looked at: the library "
        "{library} is not installed.",
        remedy="Install {library} and run again.",
        data={"library": "shapely"},
    )
