# SPDX-License-Identifier: GPL-2.0-or-later
"""Drawn lines and marks as a plan: walks through their stations, in a plane of true metres."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..core.errors import BadInput
from ..core.measure.layer.fits import FlatPlane
from ..core.measure.planned.records import PlannedWalk
from ..core.plane import SurveyPlane
from ..core.walk import Kind, Leg

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from ..core.measure.layer.ground import GroundWay
    from ..core.quantity import Floats
    from .drawn import Drawn, DrawnMark

    Plane = SurveyPlane | FlatPlane

CLOSED = 1e-6
"""Metres within which a line's ends are one point: it was drawn closed."""
RING = 4
"""A line that closes round something has at least so many vertices."""
POLE = 90.0
"""Degrees of latitude."""


@dataclass(frozen=True, eq=False)
class PlannedLines:
    """Lines as walks in a plane of true metres.

    Attributes:
        walks: one of each name, through its lines in the order drawn.
        plane: what they lie in; from it and to it the layer's CRS.
        places: of each line, in order: its walk, feature and part.
        marks: that they stand on.
        has_z: whether they have heights.
    """

    walks: tuple[PlannedWalk, ...]
    plane: Plane
    places: tuple[tuple[str, str, str], ...]
    marks: tuple[DrawnMark, ...]
    has_z: bool


def plan_lines(
    lines: Sequence[Drawn], marks: Sequence[DrawnMark], way: GroundWay, height: float | None, within: float
) -> PlannedLines:
    """Lines as walks, stations within `within` metres of a mark moved onto it.

    Args:
        lines: in the order walked; those of one walk need not follow each other.
        marks: whose places are in the same CRS.
        way: of the CRS to the ground.
        height: of the ground in metres; None: the mean of the lines' own, else 0.
        within: metres from a mark within which a station stands on it.
    Raises:
        BadInput: nothing was drawn, a place that is none, marks of one name, or a mark that no station is near.
    """
    if not lines:
        raise BadInput("Nothing is planned. Draw a line for each walk, through its stations in order.")
    has_z = any(np.any(np.nan_to_num(line.xyz[:, 2]) != 0.0) for line in lines)
    z = np.concatenate([line.xyz[:, 2] for line in lines]) * (1.0 if way.is_local else way.unit_m)
    ground = height if height is not None else float(np.nanmean(z)) if has_z else 0.0
    plane = plane_about(np.vstack([line.xyz[:, :2] for line in lines]), way, ground)
    flat = [_flat(line, plane, way, has_z=has_z) for line in lines]
    stood = _stood(marks, _mark_places(marks, plane), [xyz[:, :2] for xyz in flat], within)
    places = _names(lines)
    walks = {name: [k for k, line in enumerate(lines) if line.walk == name] for name in _walks(lines)}
    planned = tuple(
        _walk(name, [(flat[k], lines[k].legs, places[k], stood[k]) for k in rows], has_z=has_z)
        for name, rows in walks.items()
    )
    return PlannedLines(planned, plane, tuple(places), tuple(marks), has_z)


def _walks(lines: Iterable[Drawn]) -> list[str]:
    return list(dict.fromkeys(line.walk for line in lines))


def plane_about(xy: Floats, way: GroundWay, height: float) -> Plane:
    """The plane of true metres about the middle of places (n, 2) in a layer's CRS.

    Raises:
        BadInput: a place that is none.
    """
    if not np.isfinite(xy).all():
        raise BadInput("A vertex of a planned line has no place. Draw it again.")
    if way.is_local:
        return FlatPlane(float(way.crs.axis_info[0].unit_conversion_factor) if way.crs.axis_info else 1.0)
    degrees = way.lonlat(xy)
    if not np.isfinite(degrees).all() or np.abs(degrees[:, 1]).max() > POLE:
        raise BadInput("The planned lines lie outside what their CRS can hold. Check the layer's CRS.")
    east = (degrees[:, 0] - degrees[0, 0] + 180.0) % 360.0 - 180.0
    lon = (degrees[0, 0] + east.mean() + 180.0) % 360.0 - 180.0
    return SurveyPlane(way.flat, float(lon), float(degrees[:, 1].mean()), height)


def _flat(line: Drawn, plane: Plane, way: GroundWay, *, has_z: bool) -> Floats:
    """(n, 3) a line in the plane, metres; heights 0 where the plan has none."""
    z = np.nan_to_num(line.xyz[:, 2]) * (1.0 if way.is_local else way.unit_m)
    return np.column_stack([plane.from_crs(line.xyz[:, :2]), z if has_z else np.zeros(len(z))])


def _mark_places(marks: Sequence[DrawnMark], plane: Plane) -> Floats:
    twice = [name for name, count in Counter(mark.name for mark in marks).items() if count > 1]
    if twice:
        raise BadInput("Two marks are called {mark}. Give each a name of its own.", mark=twice[0])
    blank = any(not mark.name for mark in marks)
    if blank:
        raise BadInput("A mark has no name. Give each a name of its own.")
    places = np.array([mark.xy for mark in marks], float).reshape(-1, 2)
    return plane.from_crs(places) if len(marks) else places


def _stood(
    marks: Sequence[DrawnMark], places: Floats, lines: Sequence[Floats], within: float
) -> list[dict[int, tuple[str, Floats]]]:
    """For each line: by station, the mark it stands on and where that is."""
    out: list[dict[int, tuple[str, Floats]]] = [{} for _ in lines]
    nearest = np.full(len(marks), np.inf)
    for k, xy in enumerate(lines):
        if not len(marks):
            break
        away = np.hypot(*(xy[:, None] - places[None]).transpose(2, 0, 1))
        nearest = np.minimum(nearest, away.min(axis=0))
        for i in np.flatnonzero(away.min(axis=1) <= within):
            j = int(np.argmin(away[i]))
            out[k][int(i)] = (marks[j].name, places[j])
    named = {name for line in out for name, _ in line.values()}
    for mark, distance in zip(marks, nearest):
        if mark.name not in named:
            raise _far_mark(mark.name, float(distance), within)
    return out


def _far_mark(mark: str, distance: float, within: float) -> BadInput:
    if distance <= within:
        return BadInput(
            "The station next to mark {mark} is nearer to another mark. Draw a station on each, or move one.",
            mark=mark,
        )
    return BadInput(
        "No station is within {within:g} m of mark {mark}: the nearest is {distance:.2f} m away. Draw a walk over it, "
        "allow a larger distance, or leave the mark out.",
        mark=mark,
        within=within,
        distance=distance,
    )


def _names(lines: Sequence[Drawn]) -> list[tuple[str, str, str]]:
    """Walk, feature and part of each line; lines of one feature's name are parts of it, numbered."""
    count = Counter(line.feature for line in lines)
    seen: Counter[str] = Counter()
    out = []
    for line in lines:
        seen[line.feature] += 1
        part = str(seen[line.feature]) if line.feature and count[line.feature] > 1 else ""
        out.append((line.walk, line.feature, part))
    return out


def _walk(
    name: str,
    lines: Sequence[tuple[Floats, tuple[Leg, ...], tuple[str, str, str], Mapping[int, tuple[str, Floats]]]],
    *,
    has_z: bool,
) -> PlannedWalk:
    """One walk through several lines."""
    xyz: list[Floats] = []
    legs: list[Leg] = []
    marks: list[str] = []
    features: list[str] = []
    parts: list[str] = []
    kinds: list[Kind | None] = []
    for points, ways, (_, feature, part), stood in lines:
        moved = points.copy()
        for i, (_, place) in stood.items():
            moved[i, :2] = place
        xyz.append(moved)
        legs += ways
        marks += [stood[i][0] if i in stood else "" for i in range(len(points))]
        features += [feature] * len(points)
        parts += [part] * len(points)
        kinds += [kind_of(moved, ways) if feature else None] * len(points)
    whole = np.vstack(xyz)
    return PlannedWalk(
        name,
        whole[:, :2],
        z=whole[:, 2] if has_z else None,
        mark=tuple(marks),
        feature=tuple(features),
        part=tuple(parts),
        kind=tuple(kinds),
        leg=tuple(legs),
    )


def kind_of(xyz: Floats, legs: Sequence[Leg]) -> Kind:
    """An area where a line of one part closes, else a length."""
    ends = float(np.hypot(*(xyz[0, :2] - xyz[-1, :2])))
    return Kind.AREA if ends <= CLOSED and Leg.CARRY not in legs and len(xyz) >= RING else Kind.LENGTH
