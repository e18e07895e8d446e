# SPDX-License-Identifier: GPL-2.0-or-later
"""CoordGeom of LandXML (lines, arcs, lists of points, chains) -> stations with their legs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple, Union

from ...walk import Leg
from ..xml_text import Element
from .faults import (
    NO_END,
    NO_TURN,
    NOT_A_POINT,
    NOT_DRAWN,
    RADII_DIFFER,
    TURNS_DIFFER,
    Bad,
)
from .frame import Frame
from .points import Placed, PointBook, Position, read_list, read_number

SAME_PLACE = 1e-3
"""Metres: an element that starts within this of where the last one ended goes on from there."""
RADIUS_PLAY = 1e-3
RADIUS_PLAY_PART = 1e-6
"""Metres, and part of the radius, that the radii of one curve may differ by; with its coordinates' own rounding."""
FEWEST_DECIMALS = 2
"""Numbers with fewer decimals than this are taken as exact, not as rounded."""
STATED_PLAY = 0.01
STATED_PLAY_PART = 1e-3
"""Metres, and part of the length, that a stated length or delta may differ by: it only tells one arc from another,
no figure rests on it."""
LEAST_RISE = 1e-5
"""Metres between arc and chord below which the arc is written as a straight."""
_IGNORED = ("Feature",)


class Stop(NamedTuple):
    """A station to be: where it lies, how it is reached, its line in the file."""

    at: Position
    leg: Leg
    line: int


@dataclass(frozen=True)
class Gap:
    """A way between two elements that do not meet: its length in metres, and the line of the second."""

    line: int
    metres: float


@dataclass(frozen=True)
class Drawn:
    """What was drawn of a feature: its stations, the elements that were not, and the gaps."""

    stops: tuple[Stop, ...]
    missing: tuple[Bad, ...]
    gaps: tuple[Gap, ...]


Piece = Union["list[Stop]", Bad]


def draw(geometries: Sequence[Element], book: PointBook, frame: Frame) -> Drawn:
    """The stations of a feature's CoordGeom elements, one after the other.

    An element that cannot be drawn ends the piece; the next starts with a carry, as it does after a gap. The way
    from one CoordGeom to the next is no gap.
    """
    stops: list[Stop] = []
    missing: list[Bad] = []
    gaps: list[Gap] = []
    for geometry in geometries:
        is_broken = bool(stops)
        for element in geometry.children:
            if element.name in _IGNORED:
                continue
            piece = _draw_element(element, book, frame)
            if isinstance(piece, Bad):
                missing.append(piece)
                is_broken = True
                continue
            gap = _append(stops, piece, frame, is_broken=is_broken)
            gaps += [gap] if gap else []
            is_broken = False
    return Drawn(tuple(stops), tuple(missing), tuple(gaps))


def _append(stops: list[Stop], piece: list[Stop], frame: Frame, *, is_broken: bool) -> Gap | None:
    """Add a piece where the last one ended, or after a carry; the gap, if there is one."""
    if not stops:
        stops += piece
        return None
    last, start = stops[-1].at, piece[0]
    metres = math.dist(last[:2], start.at[:2]) * frame.unit_m
    if metres > SAME_PLACE or is_broken:
        stops.append(start._replace(leg=Leg.CARRY))
        stops += piece[1:]
        return None if is_broken else Gap(start.line, metres)
    is_step = abs(start.at.up - last.up) * frame.height_m > SAME_PLACE
    stops += piece if is_step else piece[1:]
    return None


def _draw_element(element: Element, book: PointBook, frame: Frame) -> Piece:
    if element.name == "Line":
        return _draw_line(element, book)
    if element.name == "Curve":
        return _draw_curve(element, book, frame)
    if element.name == "IrregularLine":
        return _draw_irregular(element, book, frame)
    if element.name == "Chain":
        return _draw_chain(element, book)
    return Bad(NOT_DRAWN, element.line, {"element": element.name})


def _draw_line(element: Element, book: PointBook) -> Piece:
    start, end = book.end_of(element, "Start"), book.end_of(element, "End")
    if isinstance(start, Bad):
        return start
    if isinstance(end, Bad):
        return end
    return [Stop(start, Leg.DIRECT, element.line), Stop(end, Leg.DIRECT, element.line)]


def _draw_irregular(element: Element, book: PointBook, frame: Frame) -> Piece:
    """The points of the list, between Start and End where these are not in it."""
    found = [child for child in element.children if child.name in ("PntList2D", "PntList3D")]
    if not found:
        return Bad(NO_END, element.line, {"element": element.name, "part": "PntList2D or PntList3D"})
    points: list[Position] = []
    for child in found:
        rows = read_list(child, 3 if child.name == "PntList3D" else 2, frame)
        if isinstance(rows, Bad):
            return rows
        points += [Position(*row) for row in rows.tolist()]
    for part, k in (("Start", 0), ("End", -1)):
        if element.child(part) is None:
            continue
        end = book.end_of(element, part)
        if isinstance(end, Bad):
            return end
        if math.dist(end[:2], points[k][:2]) * frame.unit_m > SAME_PLACE:
            points.insert(len(points) if k else 0, end)
    return [Stop(point, Leg.DIRECT, element.line) for point in points]


def _draw_chain(element: Element, book: PointBook) -> Piece:
    """The points that a chain names, in order."""
    stops: list[Stop] = []
    for name in element.text.split():
        place = book.find(name, element.line)
        if isinstance(place, Bad):
            return place
        stops.append(Stop(place, Leg.DIRECT, element.line))
    return stops or Bad(NOT_A_POINT, element.line, {"cell": ""})


def _draw_curve(element: Element, book: PointBook, frame: Frame) -> Piece:
    """Start, a point of the arc and its end; of a full circle two points. Heights run evenly."""
    ends: list[Position] = []
    for part in ("Start", "Center", "End"):
        place: Placed = book.end_of(element, part)
        if isinstance(place, Bad):
            return place
        ends.append(place)
    start, centre, end = ends
    radii = (math.dist(start[:2], centre[:2]), math.dist(end[:2], centre[:2]))
    turn = element.attributes.get("rot", "").strip().lower()
    if turn not in ("cw", "ccw"):
        return Bad(NO_TURN, element.line, {"cell": element.attributes.get("rot", "")})
    bad = _check_radii(element, radii, frame)
    if bad:
        return bad
    sweep = _sweep(start, centre, end, is_left=turn == "ccw")
    if math.dist(start[:2], end[:2]) * frame.unit_m <= SAME_PLACE:
        sweep = math.copysign(2 * math.pi, 1.0 if turn == "ccw" else -1.0)
    bad = _check_turn(element, sum(radii) / 2 * frame.unit_m, abs(sweep), frame)
    return bad or _arc_stops((start, centre, end), sweep, element.line, frame)


def _sweep(start: Position, centre: Position, end: Position, *, is_left: bool) -> float:
    """Angle from start to end about the centre, anticlockwise positive, radians; a whole turn at most."""
    first = math.atan2(start.north - centre.north, start.east - centre.east)
    last = math.atan2(end.north - centre.north, end.east - centre.east)
    return (last - first) % (2 * math.pi) if is_left else -((first - last) % (2 * math.pi))


def _arc_stops(
    ends: tuple[Position, Position, Position], sweep: float, line: int, frame: Frame
) -> list[Stop]:
    start, centre, end = ends
    is_full = abs(sweep) == 2 * math.pi
    radius = (math.dist(start[:2], centre[:2]) + math.dist(end[:2], centre[:2])) / 2
    if radius * (1 - math.cos(min(abs(sweep), math.pi) / 2)) * frame.unit_m < LEAST_RISE:
        return [Stop(start, Leg.DIRECT, line), Stop(end, Leg.DIRECT, line)]
    first = math.atan2(start.north - centre.north, start.east - centre.east)
    parts = (1 / 3, 2 / 3) if is_full else (1 / 2,)
    passed = [
        Position(
            centre.east + radius * math.cos(first + part * sweep),
            centre.north + radius * math.sin(first + part * sweep),
            start.up + part * (end.up - start.up),
        )
        for part in parts
    ]
    last = start._replace(up=end.up) if is_full else end
    return [
        Stop(start, Leg.DIRECT, line),
        *(Stop(point, Leg.CURVE, line) for point in passed),
        Stop(last, Leg.CURVE_END, line),
    ]


def _check_radii(element: Element, radii: tuple[float, float], frame: Frame) -> Bad | None:
    """Whether the radii by the points, and the stated one, agree within what the numbers' rounding lets through."""
    stated = read_number(element.attributes.get("radius", "").strip() or "_")
    known = [*radii, stated] if stated is not None else list(radii)
    least, most = min(known) * frame.unit_m, max(known) * frame.unit_m
    play = RADIUS_PLAY + RADIUS_PLAY_PART * most + _rounding(element) * frame.unit_m
    if all(map(math.isfinite, known)) and most - least <= play and least > SAME_PLACE:
        return None
    return Bad(RADII_DIFFER, element.line, {"least": least, "most": most})


def _rounding(element: Element) -> float:
    """How far off a radius can be because of the decimals that the curve's coordinates were written with.

    Each coordinate is off by half its last decimal at most, so a point by that times sqrt(2), and a radius by
    as much at its end as at the centre.
    """
    words = [
        word
        for part in ("Start", "Center", "End")
        if (child := element.child(part))
        for word in child.text.split()
    ]
    decimals = max((len(word.partition(".")[2]) for word in words), default=0)
    return 2 * math.sqrt(2) * 0.5 * 10.0**-decimals if decimals >= FEWEST_DECIMALS else 0.0


def _check_turn(element: Element, radius: float, sweep: float, frame: Frame) -> Bad | None:
    """Whether a stated length and angle are those of the arc that the points and the turn make."""
    drawn = radius * sweep
    for part in ("length", "delta"):
        stated = read_number(element.attributes.get(part, "").strip() or "_")
        if stated is None or not math.isfinite(stated) or (part == "delta" and frame.to_radians is None):
            continue
        length = abs(stated) * frame.unit_m
        if part == "delta" and frame.to_radians is not None:
            length = radius * abs(frame.to_radians(stated))
        if abs(length - drawn) > STATED_PLAY + STATED_PLAY_PART * drawn:
            return Bad(TURNS_DIFFER, element.line, {"drawn": drawn, "stated": length, "part": part})
    return None
