# SPDX-License-Identifier: GPL-2.0-or-later
"""Which area is a hole of which: by name, else by where it lies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..findings import Finding, Severity
from ..positions import Positions, station_of
from ..quantity import Floats
from ..segments import Curve, part_of_ring, ring_area
from ..walk import Kind
from .crossing import chords_of, find_meeting
from .overlap import Overlap, find_overlap, radial_sigma
from .records import Shape

OUTSIDE = 0.05
"""Metres by which a hole may stick out of its area before that is a fault, at least."""
OUTSIDE_SIGMAS = 3.0
"""And so many sigma of the two stations nearest to where it does."""


@dataclass(frozen=True, eq=False)
class _Ring:
    """An area's outline: exact, as chords in the survey plane, its box and its size in m2."""

    curve: Curve
    xy: Floats
    low: Floats
    high: Floats
    size: float


class _Boxes:
    """The boxes of all areas, so that those around one are found at once."""

    def __init__(self, rings: dict[int, _Ring]) -> None:
        """Of all of them, in order."""
        self._numbers = np.array(list(rings), dtype=np.int64)
        self._low = np.array([ring.low for ring in rings.values()]).reshape(-1, 2)
        self._high = np.array([ring.high for ring in rings.values()]).reshape(-1, 2)

    def around(self, ring: _Ring) -> list[int]:
        """The areas, by number, whose boxes hold that of a ring."""
        holds = np.all((self._low <= ring.low) & (ring.high <= self._high), axis=1)
        found: list[int] = self._numbers[holds].tolist()
        return found


def assign_holes(
    shapes: tuple[Shape, ...], positions: Positions
) -> tuple[tuple[Shape, ...], tuple[Finding, ...]]:
    """The shapes with their parents. A hole named by `hole_in` belongs to that area (of its parts, to the one
    around it); without a name an area that lies wholly inside another, on the same surface and option, is
    its hole, of the smallest such area, and that is noted, with any further area that it is not taken off.
    Holes of one area that cover the same ground stop it: that ground would be deducted twice."""
    areas = [i for i, shape in enumerate(shapes) if shape.kind is Kind.AREA and not shape.set_aside]
    rings = {i: _ring(shapes[i]) for i in areas if shapes[i].pieces}
    boxes = _Boxes(rings)
    out, said = list(shapes), []
    around: dict[int, list[int]] = {}
    for i, ring in rings.items():
        if shapes[i].hole_in:
            parent, fault = _named_parent(i, shapes, rings, positions)
            said += [fault] if fault else []
        else:
            near = [k for k in boxes.around(ring) if _goes_with(shapes[i], shapes[k])]
            around[i] = _all_around(i, near, rings)
            parent = next(iter(around[i]), None)
        if parent is not None:
            out[i] = replace(shapes[i], parent=parent, hole_in=shapes[parent].feature)
    for i in areas:
        if not shapes[i].pieces:
            out[i] = replace(shapes[i], parent=_parent_of_none(shapes[i], shapes, rings, positions))
    said += [_lies_inside(i, holders, out, positions) for i, holders in around.items() if holders]
    return tuple(out), (*said, *_overlaps(out, rings, positions))


def _overlaps(shapes: Sequence[Shape], rings: dict[int, _Ring], positions: Positions) -> list[Finding]:
    """A stop for each two holes of one area that cover the same ground."""
    of: dict[int, list[int]] = {}
    for i in rings:
        parent = shapes[i].parent
        if parent is not None:
            of.setdefault(parent, []).append(i)
    return [
        finding
        for parent, holes in of.items()
        for number, i in enumerate(holes)
        for k in _box_meets(i, holes[:number], rings)
        if (finding := _overlap(shapes[k], shapes[i], rings[k], rings[i], shapes[parent], positions))
    ]


def _box_meets(i: int, others: list[int], rings: dict[int, _Ring]) -> list[int]:
    """Those of some areas whose boxes have ground in common with that of area i."""
    if not others:
        return []
    low, high = (np.array([getattr(rings[k], name) for k in others]) for name in ("low", "high"))
    meets = np.all((low < rings[i].high) & (rings[i].low < high), axis=1)
    return [others[n] for n in np.flatnonzero(meets)]


def _overlap(
    first: Shape, second: Shape, one: _Ring, other: _Ring, area: Shape, positions: Positions
) -> Finding | None:
    def limit(at: tuple[float, float]) -> float:
        return max(OUTSIDE, OUTSIDE_SIGMAS * radial_sigma(first, second, at, positions))

    found = find_overlap(one.xy, other.xy, limit)
    return None if found is None else _holes_overlap(first, second, area, found, positions)


def _ring(shape: Shape) -> _Ring:
    curve = shape.pieces[0].curve()
    chords = chords_of(curve)
    xy = chords.xy + chords.origin
    return _Ring(curve, xy, xy.min(axis=0), xy.max(axis=0), abs(ring_area(curve)))


def _goes_with(hole: Shape, area: Shape) -> bool:
    """Whether two areas lie on the same surface in the same option; a blank goes with anything."""
    if hole is area or (hole.feature == area.feature):
        return False
    pairs = ((hole.texts[column], area.texts[column]) for column in ("surface", "option"))
    return all(not a or not b or a == b for a, b in pairs)


def _all_around(i: int, candidates: Sequence[int], rings: dict[int, _Ring]) -> list[int]:
    """Those of some areas that hold area i wholly inside, the smallest first."""
    inside = [k for k in candidates if k in rings and k != i and _holds(rings[k], rings[i])]
    return sorted(inside, key=lambda k: rings[k].size)


def _holds(outer: _Ring, inner: _Ring) -> bool:
    if outer.size <= inner.size or np.any(inner.low < outer.low) or np.any(inner.high > outer.high):
        return False
    origin = outer.xy[0]
    if not part_of_ring(outer.xy - origin, inner.xy - origin).all():
        return False
    return find_meeting(outer.curve, inner.curve) is None


def _named_parent(
    i: int, shapes: Sequence[Shape], rings: dict[int, _Ring], positions: Positions
) -> tuple[int | None, Finding | None]:
    hole = shapes[i]
    named = [k for k in rings if hole.hole_in in (shapes[k].feature, shapes[k].place) and k != i]
    named = [k for k in named if not _descends(k, i, shapes)]
    if not named:
        return None, _no_such_area(hole, positions)
    parent = next(iter(_all_around(i, named, rings)), None)
    if parent is not None:
        return parent, None
    parent = min(named, key=lambda k: _sticking_out(rings[k], rings[i])[0])
    out, at = _sticking_out(rings[parent], rings[i])
    if out <= max(OUTSIDE, OUTSIDE_SIGMAS * radial_sigma(hole, shapes[parent], at, positions)):
        return parent, None
    return parent, _sticks_out(hole, shapes[parent], out, at, positions)


def _parent_of_none(
    hole: Shape, shapes: Sequence[Shape], rings: dict[int, _Ring], positions: Positions
) -> int | None:
    """The area that an outline without an area of its own should be taken off: the one it names, else the smallest that
    holds all its stations. It stops that area, which would be too large."""
    if hole.hole_in:
        named = (k for k in rings if hole.hole_in in (shapes[k].feature, shapes[k].place))
        return next(named, None)
    xy = positions.xy[hole.rows]
    around = [
        k
        for k, ring in rings.items()
        if _goes_with(hole, shapes[k]) and part_of_ring(ring.xy - ring.xy[0], xy - ring.xy[0]).all()
    ]
    return min(around, key=lambda k: rings[k].size, default=None)


def _descends(k: int, i: int, shapes: Sequence[Shape]) -> bool:
    """Whether area k says to be a hole of area i: the two cannot be holes of each other."""
    return shapes[k].hole_in in (shapes[i].feature, shapes[i].place)


def _sticking_out(outer: _Ring, inner: _Ring) -> tuple[float, tuple[float, float]]:
    """How far, and where, the inner outline lies outside the outer one, metres."""
    origin = outer.xy[0]
    points = inner.xy - origin
    outside = ~part_of_ring(outer.xy - origin, points)
    if not outside.any():
        return 0.0, (float(inner.xy[0, 0]), float(inner.xy[0, 1]))
    distance = np.where(outside, _distances(outer.xy - origin, points), 0.0)
    worst = int(np.argmax(distance))
    return float(distance[worst]), (float(inner.xy[worst, 0]), float(inner.xy[worst, 1]))


def _distances(ring: Floats, points: Floats) -> Floats:
    """(n,) distance of each point from a ring of straights."""
    a, d = ring[None, :-1], np.diff(ring, axis=0)[None]
    rel = points[:, None] - a
    with np.errstate(divide="ignore", invalid="ignore"):
        t = np.nan_to_num(np.clip((rel * d).sum(-1) / (d * d).sum(-1), 0.0, 1.0))
    away = rel - t[..., None] * d
    return np.asarray(np.hypot(away[..., 0], away[..., 1]).min(axis=1))


@dataclass(frozen=True)
class _Words:
    """What is the same of every finding of one kind."""

    code: str
    severity: Severity
    template: str
    remedy: str


LIES_INSIDE = _Words(
    "GE-05",
    Severity.NOTE,
    template="{file}, line {line}: {hole} lies inside {area} and was taken as a hole of it.",
    remedy="If it is none, give the two another `surface` or `option`; if it is, name the area in `hole_in`.",
)
INSIDE_OTHERS = _Words(
    "GE-05",
    Severity.NOTE,
    template="{file}, line {line}: {hole} lies inside {area} and was taken as a hole of it alone, but it lies inside "
    "{others} too.",
    remedy="Name the area that it is a hole of in `hole_in`. Where two areas cover the same ground by mistake, "
    "correct their stations; where on purpose, give them another `surface` or `option`.",
)
HOLES_OVERLAP = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: {hole} and {other}, both holes of {area}, overlap by {overlap:.3f} m2 at "
    "({x:.3f}, {y:.3f}) in the survey plane, which would be deducted twice.",
    remedy="Correct the stations of the two there. Is it one hole walked twice, leave one out; does one lie in the "
    "other, name that one in its `hole_in`.",
)
NO_SUCH_AREA = _Words(
    "GE-01",
    Severity.STOP,
    template='{file}, line {line}, column hole_in: "{name}" is not the name of another area, so {hole} is not deducted.',
    remedy="Write the area's name as its own rows have it.",
)
STICKS_OUT = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the hole {hole} sticks out of {area} by {out:.3f} m at ({x:.3f}, {y:.3f}).",
    remedy="Correct `hole_in`, or the stations of the hole or of the area there.",
)
HOLE_STOPPED = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: {hole}, a hole of {area}, cannot be measured yet ({code}), so neither can {area}.",
    remedy="Clear what stops the hole.",
)


def stops_of_holes(
    shapes: Sequence[Shape], findings: Sequence[Finding], positions: Positions
) -> tuple[Finding, ...]:
    """A stop for every area with a hole that an open stop keeps from being measured."""
    out = []
    for hole in shapes:
        if hole.parent is None:
            continue
        area, rows = shapes[hole.parent], _stations_of(hole, positions)
        for stop in findings:
            is_its_own = (
                stop.place in rows or stop.place == hole.place or stop.place.startswith(f"{hole.place}+")
            )
            if is_its_own and stop.severity is Severity.STOP and stop.is_open:
                out.append(_finding(HOLE_STOPPED, area, hole, positions, stop.at, code=stop.code))
                break
    return tuple(out)


def _stations_of(shape: Shape, positions: Positions) -> set[str]:
    stations = (station_of(positions, int(row)) for row in shape.rows)
    return {walk.place(cell) for walk, cell in stations}


def _finding(
    words: _Words,
    of: Shape,
    hole: Shape,
    positions: Positions,
    at: tuple[float, float] | None,
    **data: object,
) -> Finding:
    """A finding that keeps out the figures of shape `of`, told at the hole's first row."""
    walk, cell = station_of(positions, int(hole.rows[0]))
    file, line = walk.file, int(walk.line[cell])
    return Finding(
        words.code,
        words.severity,
        of.place,
        words.template,
        words.remedy,
        {"file": file, "line": line, "hole": hole.place, "area": of.place, **data},
        file=file,
        line=line,
        walk=walk.name,
        station=walk.station[cell],
        feature=of.feature,
        at=at,
    )


def _lies_inside(i: int, holders: Sequence[int], shapes: Sequence[Shape], positions: Positions) -> Finding:
    """GE-05 for area i, a hole of the first of its holders; others are those it comes off neither directly nor
    with that first one."""
    hole, area = shapes[i], shapes[holders[0]]
    above = _chain(holders[0], shapes)
    others = ", ".join(shapes[k].place for k in holders if k not in above)
    finding = _finding(INSIDE_OTHERS if others else LIES_INSIDE, hole, hole, positions, None, others=others)
    return replace(finding, place=f"{hole.place}+{area.place}", data={**finding.data, "area": area.place})


def _chain(i: int, shapes: Sequence[Shape]) -> list[int]:
    """An area, the one it is a hole of, and so on."""
    chain: list[int] = []
    at: int | None = i
    while at is not None and at not in chain:  # areas that name each other in a ring of three would go round
        chain.append(at)
        at = shapes[at].parent
    return chain


def _holes_overlap(first: Shape, second: Shape, area: Shape, found: Overlap, positions: Positions) -> Finding:
    return _finding(
        HOLES_OVERLAP,
        area,
        second,
        positions,
        found.at,
        other=first.place,
        overlap=found.area,
        x=found.at[0],
        y=found.at[1],
    )


def _no_such_area(hole: Shape, positions: Positions) -> Finding:
    return _finding(NO_SUCH_AREA, hole, hole, positions, None, name=hole.hole_in)


def _sticks_out(
    hole: Shape, area: Shape, out: float, at: tuple[float, float], positions: Positions
) -> Finding:
    return _finding(STICKS_OUT, area, hole, positions, at, out=out, x=at[0], y=at[1])
