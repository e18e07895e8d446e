# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers of levels, breaklines, boundaries and voids as what a surface is built from, in one plane of true metres."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsCoordinateReferenceSystem

from ..core.errors import BadInput
from ..core.ground.build import GroundInput
from ..core.ground.records import GroundLine, Levels
from ..core.ground.surface import no_shared
from ..core.measure.layer.crossings import curve_of
from ..core.measure.layer.shapes import Kind
from ..core.plane import SurveyPlane
from ..core.segments import Curve, chorded
from .drawn import text_of
from .planned import plane_about
from .sources import ground_of, shapes_of
from .surface_table import local_plane
from .surfaces import into_plane

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from qgis.core import QgsFeature

    from ..core.findings import Finding
    from ..core.measure.layer.ground import GroundWay
    from ..core.measure.layer.shapes import Shapes
    from ..core.quantity import Floats, Ints
    from .planned import Plane

    Worth = Callable[[Ints, Floats], tuple[Floats, Floats]]
    """From points' features (n,) and places (n, 2) in their layer to the one-sigma of what each height errs by itself (n,) and
    what it shares (n, k), metres."""

SAG_M = 0.002
"""Metres between an arc of a breakline and its chords."""
WALL = ("foot", "top")
"""Parts of a wall."""


class Role(Enum):
    """What a layer of lines is to a surface."""

    BREAKLINE = "breakline"
    BOUNDARY = "boundary"
    VOID = "void"
    INSIDE = "inside"
    """A breakline too, of an area outside of which, and of all such areas, no ground is."""


@dataclass(frozen=True, eq=False)
class LaidGround:
    """What a surface is built from, the plane it is in, and the CRS that the plane goes to and from."""

    ground: GroundInput
    plane: Plane
    crs: QgsCoordinateReferenceSystem


@dataclass(frozen=True, eq=False)
class _Points:
    xyz: Floats
    sigma: Floats
    shared: Floats
    way: GroundWay
    layer: str


@dataclass(frozen=True, eq=False)
class _Lines:
    role: Role
    shapes: Shapes
    sigma: Floats
    shared: Floats
    names: list[str]
    faces: list[str]
    way: GroundWay
    layer: str


class GroundLayers:
    """Layers that are gathered, and then laid in one plane."""

    def __init__(self) -> None:
        """None yet."""
        self._points: list[_Points] = []
        self._lines: list[_Lines] = []
        self._crs: QgsCoordinateReferenceSystem | None = None

    def add_levels(
        self,
        features: Sequence[QgsFeature],
        crs: QgsCoordinateReferenceSystem,
        sigma: Floats | Worth,
        layer: str,
        heights: Floats | None = None,
    ) -> None:
        """Points of known height, several to a feature where it has them.

        Args:
            features: points; other geometries count with their vertices. One without geometry is left out.
            crs: of them, which the first layer gives the plane.
            sigma: (f,) one-sigma of each feature's height, metres; or what tells of each point what its height is worth.
            layer: its name, for messages.
            heights: (f,) metres; without, the third coordinate in the CRS's unit.
        Raises:
            BadInput: a point without height, or a layer whose heights are all 0. BadCrs: no CRS.
        """
        way = self._way(crs, layer)
        rows, places = [], []
        for k, feature in enumerate(features):
            for vertex in feature.geometry().vertices():
                rows.append(k)
                places.append((vertex.x(), vertex.y(), vertex.z()))
        xyz = np.array(places, float).reshape(-1, 3)
        xyz[:, 2] = xyz[:, 2] * way.unit_m if heights is None else heights[rows]
        self._refuse_unlevelled(features, np.array(rows, np.int64), xyz[:, 2], layer)
        own, shared = _worth_of(
            sigma, np.array(rows, np.int64), np.array(places, float).reshape(-1, 3)[:, :2]
        )
        self._points.append(_Points(xyz, own, shared, way, layer))

    def add_lines(
        self,
        role: Role,
        features: Sequence[QgsFeature],
        crs: QgsCoordinateReferenceSystem,
        sigma: Floats | Worth,
        layer: str,
    ) -> None:
        """Lines, and rings of areas; arcs become chords within 2 mm, heights running evenly. Rows that name themselves in the
        columns feature and part as foot and top of one wall may stand over each other.

        Args:
            role: what they are.
            features: one without geometry is left out.
            crs: of them.
            sigma: (f,) one-sigma of each one's heights, metres; or what tells of each point what its height is worth.
            layer: its name, for messages.
        Raises:
            BadInput: breaklines without heights, or features that are neither lines nor areas. BadCrs: no CRS.
        """
        way = self._way(crs, layer)
        shapes = shapes_of(list(features))
        wrong = ~np.isin(shapes.kind, (Kind.LINES, Kind.AREAS, Kind.NOTHING))
        if wrong.any():
            raise BadInput(
                "{layer}, row {row}: this is neither a line nor an area. Choose a layer of lines or areas.",
                layer=layer,
                row=int(np.flatnonzero(wrong)[0]) + 1,
            )
        z = shapes.z * way.unit_m
        if not np.nan_to_num(z).any():
            z = np.full(len(z), np.nan)  # heights that are all 0 are none
        unknown = np.flatnonzero(~np.isfinite(z))
        if role in (Role.BREAKLINE, Role.INSIDE) and len(unknown):
            raise BadInput(
                "{layer}, row {row}: a breakline has a vertex without a height. Give each vertex one (z), or take the line "
                "as boundary or void.",
                layer=layer,
                row=int(shapes.of_point[unknown[0]]) + 1,
            )
        names = [f"{layer}, row {number}" for number in range(1, len(features) + 1)]
        own, shared = _worth_of(sigma, shapes.of_point, shapes.xy)
        faces = [_face_of(feature) for feature in features]
        self._lines.append(_Lines(role, replace(shapes, z=z), own, shared, names, faces, way, layer))

    def _way(self, crs: QgsCoordinateReferenceSystem, layer: str) -> GroundWay:
        if self._crs is None:
            self._crs = crs
        return ground_of(crs, layer)

    def _refuse_unlevelled(self, features: Sequence[QgsFeature], rows: Floats, z: Floats, layer: str) -> None:
        bad = np.flatnonzero(~np.isfinite(z))
        if len(bad):
            raise BadInput(
                "{layer}, row {row}: a point has no height. Give it one (z, or a column of heights), or leave it out.",
                layer=layer,
                row=int(rows[bad[0]]) + 1,
            )
        if len(z) and not z.any():
            raise BadInput(
                "{layer}: all heights are 0, as many programs write it where nobody levelled. Give the heights as z, or "
                "choose the column that holds them.",
                layer=layer,
            )

    def laid(self, height: float | None = None) -> LaidGround:
        """Everything in one plane about the first layer.

        Args:
            height: of the ground above the ellipsoid, metres; None: the mean of the heights.
        Raises:
            BadInput: nothing was given, or a layer without a place. Refused: no good way between two CRSs.
        """
        shapes = [(one.shapes.xy, one.shapes.z, one.way) for one in self._lines]
        given = [(one.xyz[:, :2], one.xyz[:, 2], one.way) for one in self._points] + shapes
        given = [one for one in given if len(one[0])]
        if not given or self._crs is None:
            raise BadInput("No level and no breakline is given. Choose a layer of points with heights.")
        z = np.concatenate([z for _, z, _ in given])
        ground = float(np.nanmean(z)) if height is None and np.isfinite(z).any() else height or 0.0
        xy, _, way = given[0]
        plane = local_plane(way) if way.is_local else plane_about(xy, way, ground)
        levels = Levels.joined([self._levels(one, plane) for one in self._points])
        lines: dict[Role, list[GroundLine]] = {role: [] for role in Role}
        for one in self._lines:
            lines[one.role] += _laid_lines(one, plane)
        rings = {role: tuple(some) for role, some in lines.items()}
        breaklines = (*rings[Role.BREAKLINE], *rings[Role.INSIDE])
        found = GroundInput(levels, breaklines, rings[Role.BOUNDARY], rings[Role.VOID])
        return LaidGround(found, plane, self._crs)

    def _levels(self, one: _Points, plane: Plane) -> Levels:
        xy = into_plane(one.xyz[:, :2], one.way, plane, one.layer) if len(one.xyz) else one.xyz[:, :2]
        return Levels(np.column_stack([xy, one.xyz[:, 2]]), one.sigma, one.shared)


def _worth_of(sigma: Floats | Worth, feature: Ints, xy: Floats) -> tuple[Floats, Floats]:
    if callable(sigma):
        return sigma(feature, xy)
    return np.asarray(sigma, float)[feature], no_shared(len(xy))


def _face_of(feature: QgsFeature) -> str:
    """What a wall's foot and top are both called; empty of other rows."""
    fields = feature.fields()
    if min(fields.lookupField("feature"), fields.lookupField("part")) < 0:
        return ""
    return text_of(feature["feature"]) if text_of(feature["part"]).lower() in WALL else ""


def _laid_lines(one: _Lines, plane: Plane) -> list[GroundLine]:
    shapes = one.shapes
    if not len(shapes.xy):
        return []
    xy = into_plane(shapes.xy, one.way, plane, one.layer)
    out = []
    for run in range(len(shapes.feature)):
        some = slice(int(shapes.start[run]), int(shapes.start[run + 1]))
        feature = int(shapes.feature[run])
        rows = np.column_stack([xy[some], shapes.z[some], one.sigma[some], one.shared[some]])
        if shapes.is_mid[some].any():
            rows = _in_chords(curve_of(shapes, xy, run), rows)
        name = one.names[feature]
        bounds = name if one.role is Role.INSIDE else ""
        out.append(GroundLine(rows[:, :3], rows[:, 3], name, rows[:, 4:], one.faces[feature], bounds))
    return out


def _in_chords(curve: Curve, rows: Floats) -> Floats:
    """(k, c) a run with its arcs as chords: heights, and what they are worth, run evenly between its vertices."""
    vertices, at = [], 0
    for place in curve.points[:, :2]:
        while not np.array_equal(rows[at, :2], place):
            at += 1
        vertices.append(at)
    told = [
        chorded(Curve(np.column_stack([curve.points[:, :2], column]), curve.bulge), SAG_M)
        for column in rows[vertices, 2:].T
    ]
    return np.column_stack([told[0], *(one[:, 2] for one in told[1:])])


def tell_place(finding: Finding, plane: Plane) -> Finding:
    """The finding with its place in the coordinates of the map."""
    if finding.at is None:
        return finding
    x, y = plane.to_crs(np.array([finding.at]))[0]
    digits = 7 if isinstance(plane, SurveyPlane) and plane.crs.is_geographic else 3
    return replace(finding, data={**finding.data, "place": f"{x:.{digits}f}, {y:.{digits}f}"})
