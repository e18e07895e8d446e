# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines and points that somebody drew, as a plan: walks through their stations, and the marks they stand on."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsCircularString,
    QgsCompoundCurve,
    QgsCoordinateTransform,
    QgsCsException,
    QgsFeatureRequest,
    QgsPointXY,
    QgsProject,
)

from ..core.errors import BadInput
from ..core.measure.layer.fits import FlatPlane
from ..core.measure.planned.records import PlannedWalk
from ..core.plane import SurveyPlane
from ..core.read.formats import TableKind, find_kind
from ..core.read.instruments import read_instruments
from ..core.read.table import read_table
from ..core.walk import Instrument, Kind, Leg
from .compat import IGNORE_INVALID

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from pathlib import Path

    from qgis.core import (
        QgsCoordinateReferenceSystem,
        QgsCurve,
        QgsFeature,
        QgsGeometry,
        QgsProcessingFeatureSource,
    )

    from ..core.measure.layer.ground import GroundWay
    from ..core.quantity import Floats

    Plane = SurveyPlane | FlatPlane

CLOSED = 1e-6
"""Metres within which a line's ends are one point: it was drawn closed."""
ENDS, RING = 2, 4
"""A line has at least so many vertices, and one that closes round something so many."""
POLE = 90.0
"""Degrees of latitude."""
NO_WORDS = frozenset({"", "0", "no", "n", "false", "f", "null", "none"})
"""What a field says that says no."""
NAMES = ("mark", "name")
"""Columns that name marks where none is chosen."""


@dataclass(frozen=True, eq=False)
class Drawn:
    """One drawn line: the number of its row, the walk it belongs to, the feature it makes ("" where it is only the way),
    and its vertices (n, 3) in the layer's CRS with the leg that leads to each."""

    row: int
    walk: str
    feature: str
    xyz: Floats
    legs: tuple[Leg, ...]


@dataclass(frozen=True, eq=False)
class DrawnMark:
    """One drawn mark: its name, its place in the lines' CRS, whether it is paired with the map and has a known level."""

    name: str
    xy: tuple[float, float]
    is_paired: bool
    is_levelled: bool


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


def read_lines(source: QgsProcessingFeatureSource, walk: str | None, feature: str | None) -> list[Drawn]:
    """The lines of a layer, in its order.

    Args:
        source: the lines.
        walk: column that names a line's walk; without, each line is a walk of its own.
        feature: column that names its feature, blank where it is only the way; without, each line is a feature.
    Raises:
        BadInput: a row has no line, or names no walk.
    """
    out = []
    for k, row in enumerate(source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID), 1):
        name = text_of(row.attribute(walk)) if walk else f"W{k}"
        if not name:
            raise BadInput(
                "Row {row} names no walk in the column {column}. Give it the name of the walk it belongs to.",
                row=row.id(),
                column=walk,
            )
        out.append(drawn_line(row, name, text_of(row.attribute(feature)) if feature else f"row {row.id()}"))
    return out


def read_marks(
    source: QgsProcessingFeatureSource,
    crs: QgsCoordinateReferenceSystem,
    name: str | None,
    paired: str | None,
    levelled: str | None,
) -> list[DrawnMark]:
    """The marks of a layer of points, in the CRS of the lines.

    Args:
        source: the points.
        crs: of the lines.
        name: column of their names; without, the column mark, or name.
        paired: column that says yes where one is paired with the map; without, all are.
        levelled: column that says yes where its height is known; without, none is.
    Raises:
        BadInput: no column of names, a row that is no single point, or a place that the lines' CRS cannot hold.
    """
    fields = source.fields()
    column = name or next((known for known in NAMES if fields.lookupField(known) >= 0), None)
    if column is None:
        raise BadInput("The marks have no column mark or name. Choose the column that names them.")
    there = source.sourceCrs()
    is_apart = there.isValid() and crs.isValid() and there != crs
    way = QgsCoordinateTransform(there, crs, QgsProject.instance()) if is_apart else None
    return [
        DrawnMark(
            text_of(row.attribute(column)),
            _place_of(row, way),
            is_yes(row.attribute(paired)) if paired else True,
            is_yes(row.attribute(levelled)) if levelled else False,
        )
        for row in source.getFeatures()
    ]


def _place_of(row: QgsFeature, way: QgsCoordinateTransform | None) -> tuple[float, float]:
    points = list(row.geometry().vertices())
    if len(points) != 1:
        raise BadInput("Row {row} of the marks is no single point. Give each mark one.", row=row.id())
    try:
        place = QgsPointXY(points[0]) if way is None else way.transform(QgsPointXY(points[0]))
    except QgsCsException as error:
        raise BadInput(
            "Row {row} of the marks lies outside what the CRS of the lines can hold. Check both layers' CRS.",
            row=row.id(),
        ) from error
    return place.x(), place.y()


def drawn_line(feature: QgsFeature, walk: str, name: str) -> Drawn:
    """A line with its vertices as stations; of a line of several parts one follows on the other, the way between
    them not drawn.

    Raises:
        BadInput: it has no vertices.
    """
    geometry: QgsGeometry = feature.geometry()
    points: list[tuple[float, float, float]] = []
    legs: list[Leg] = []
    for part in geometry.constParts():
        some, ways = _vertices(part)
        if points and ways:
            ways[0] = Leg.CARRY
        points += some
        legs += ways
    if len(points) < ENDS:
        raise BadInput(
            "Row {row} has no line. Draw it through its stations, or leave it out of what is chosen.",
            row=feature.id(),
        )
    return Drawn(feature.id(), walk, name, np.array(points, float), tuple(legs))


def _vertices(curve: QgsCurve) -> tuple[list[tuple[float, float, float]], list[Leg]]:
    """The points of a curve, and how each is reached; the middle of an arc is passed."""
    if isinstance(curve, QgsCompoundCurve):
        points, legs = [], []
        for k in range(curve.nCurves()):
            some, ways = _vertices(curve.curveAt(k))
            points += some[1:] if k else some
            legs += ways[1:] if k else ways
        return points, legs
    points = [(point.x(), point.y(), point.z()) for point in curve.points()]
    legs = [Leg.DIRECT] * len(points)
    if isinstance(curve, QgsCircularString):
        legs[1:] = [Leg.CURVE if i % 2 else Leg.CURVE_END for i in range(1, len(points))]
    return points, legs


def is_yes(value: object) -> bool:
    """Whether a cell of a field says yes."""
    return value is not None and str(value).strip().lower() not in NO_WORDS


def text_of(value: object) -> str:
    """A cell as a name; "" of a NULL."""
    text = "" if value is None else str(value).strip()
    return "" if text.upper() == "NULL" else text


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
    plane = _plane_of(np.vstack([line.xyz[:, :2] for line in lines]), way, ground)
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


def _plane_of(xy: Floats, way: GroundWay, height: float) -> Plane:
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


def read_instrument(path: Path, name: str | None) -> Instrument:
    """One instrument of an instruments file: the one named, or the only one there is.

    Raises:
        BadInput: the file is not there, is none, or does not hold it.
    """
    if not path.is_file():
        raise BadInput("{path} is not there. Check the name, or choose the file again.", path=str(path))
    try:
        data = path.read_bytes()
    except OSError as error:
        raise BadInput(
            "{path} cannot be read: {reason}. Check that it is there and that you may read it, then run again.",
            path=str(path),
            reason=error.strerror or str(error),
        ) from error
    kind = find_kind(data)
    if kind is not TableKind.INSTRUMENTS:
        raise BadInput(
            "{path} was named as {part}, but it holds: {kind}. Name the right file, or correct its header row.",
            path=str(path),
            part="instruments",
            kind=kind.value,
        )
    found, findings = read_instruments(read_table(path.name, data))
    wanted = name or (next(iter(found)) if len(found) == 1 else "")
    if wanted not in found:
        bad = next((f"{f.message} {f.remedy_text}" for f in findings if f.is_open), "")
        raise BadInput(
            "{path} holds no instrument {name}, but: {names}. Name one of them. {why}",
            path=path.name,
            name=wanted or "that is meant",
            names=", ".join(found) or "none",
            why=bad,
        )
    return found[wanted]
