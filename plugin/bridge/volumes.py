# SPDX-License-Identifier: GPL-2.0-or-later
"""Volumes over the areas of a layer: outlines in, columns, the map of depths and the zero line out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsFeature,
    QgsFields,
    QgsGeometry,
    QgsLineString,
    QgsMultiPolygon,
    QgsPolygon,
    QgsWkbTypes,
)

from ..core.errors import BadInput
from ..core.ground.outline import chorded_ring
from ..core.ground.target import TargetPlane
from ..core.measure.layer.areas import Worth, measure_areas
from ..core.place.frames import onto_plane
from ..core.plane import SurveyPlane
from .cut_lines import read_rows
from .fields import Kind
from .geometry import MapFrame
from .layers import fields_with
from .measured import tell
from .sources import ground_of, refuse_other_kind, shapes_of
from .surface_table import local_plane
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsProcessingFeatureSource

    from ..core.ground.earthwork import Earthwork, Haul
    from ..core.ground.ranges import Range
    from ..core.ground.surface import Surface
    from ..core.ground.thickness import DepthClass
    from ..core.ground.volume import Volumes
    from ..core.quantity import Floats, Quantity
    from .planned import Plane


def _with_sigma(*names: str) -> tuple[tuple[str, Kind], ...]:
    return tuple((whole, Kind.REAL) for name in names for whole in (name, f"{name}_sigma"))


def _haul_columns(name: str) -> tuple[tuple[str, Kind], ...]:
    own = _with_sigma(f"{name}_m3", f"{name}_loose_m3", f"{name}_t")
    return (*own, (f"{name}_loads", Kind.WHOLE), (f"{name}_loads_by", Kind.TEXT))


MEASURED = (
    *_with_sigma("cut_m3", "fill_m3", "net_m3"),
    *((name, Kind.REAL) for name in ("cut_low_m3", "cut_high_m3", "fill_low_m3", "fill_high_m3")),
    *((name, Kind.REAL) for name in ("area_m2", "cut_area_m2", "fill_area_m2", "level_area_m2")),
    *((name, Kind.REAL) for name in ("left_out_m2", "weak_m2")),
    *_with_sigma("depth_mean_m", "depth_least_m", "depth_most_m"),
)
WORKED = (
    *_haul_columns("strip"),
    *_with_sigma("cut_loose_m3", "fill_bank_m3", "balance_m3"),
    *_haul_columns("away"),
    *_haul_columns("bring"),
    ("working", Kind.TEXT),
)
WORDS = (("method", Kind.TEXT), ("sigma_from", Kind.TEXT), ("finding", Kind.TEXT))
COLUMNS = (*MEASURED, *WORKED, *WORDS)
"""What a row of volumes has."""
DEPTH_COLUMNS = (
    ("row", Kind.TEXT),
    ("depth_from_m", Kind.REAL),
    ("depth_to_m", Kind.REAL),
    ("area_m2", Kind.REAL),
    ("method", Kind.TEXT),
)
"""What a class of depth has; `row` is the area's name."""
LINE_COLUMNS = (("row", Kind.TEXT), ("length_m", Kind.REAL), ("method", Kind.TEXT))
OVER_TRIANGLES = "exact over the triangles"
LEAST_TOLD_M2 = 0.01
"""Less than this is not told to have been left out."""
NEGLIGIBLE = 1e-6
"""Of an area: less that is left out is told by nobody."""
WEAK = 0.01
"""Of an area: weak ground that nobody need be told of."""
FAR_M, FAR = 20.0, 5.0
"""Metres, and heights of the surface, that a level may lie beyond it without a word."""
CORNERS = 3
"""Points that make a plane."""


@dataclass(frozen=True, eq=False)
class VolumeArea:
    """One row of the areas: its feature, name and rings (k, 2) in the plane, or why it is refused."""

    feature: QgsFeature
    name: str
    rings: tuple[Floats, ...]
    refused: str = ""


def read_volume_areas(source: QgsProcessingFeatureSource, plane: Plane) -> list[VolumeArea]:
    """The areas of a layer in the plane of the surfaces; arcs become chords within 2 mm that enclose the same area.

    Raises:
        BadInput: the layer holds no polygons, a vertex has no place, or it lies in another frame than the surfaces.
    """
    refuse_other_kind(source, QgsWkbTypes.GeometryType.PolygonGeometry)
    rows = read_rows(source, plane)
    shapes = shapes_of([feature for feature, _, _ in rows])
    none = np.zeros(len(shapes))
    findings = measure_areas(
        shapes, ground_of(source.sourceCrs(), source.sourceName()), Worth(none, none)
    ).findings
    return [
        VolumeArea(
            feature,
            name,
            tuple(chorded_ring(curve) for curve in curves) if number not in findings else (),
            tell(findings[number]) if number in findings else "",
        )
        for number, (feature, name, curves) in enumerate(rows)
    ]


def read_plane_points(source: QgsProcessingFeatureSource, plane: Plane) -> TargetPlane:
    """The plane through the three points of a layer, heights in metres.

    Raises:
        BadInput: the layer holds no points, or not three with heights. PointsInLine: they lie in line.
    """
    refuse_other_kind(source, QgsWkbTypes.GeometryType.PointGeometry)
    way = ground_of(source.sourceCrs(), source.sourceName())
    places = [
        (v.x(), v.y(), v.z()) for feature in source.getFeatures() for v in feature.geometry().vertices()
    ]
    xyz = np.array(places, float).reshape(-1, 3)
    if len(xyz) != CORNERS or not np.isfinite(xyz).all():
        raise BadInput(
            "A plane goes through three points with heights; the layer holds {count}, {good} of them with a height. Select "
            "three.",
            count=len(xyz),
            good=int(np.isfinite(xyz[:, 2]).sum()),
        )
    if way.is_local != (not isinstance(plane, SurveyPlane)):
        raise BadInput(
            "The points of the plane and the surface do not lie in one frame: only one of them has a place on the map. "
            "Choose layers that are all placed, or all in one local grid."
        )
    if not isinstance(plane, SurveyPlane):
        flat = local_plane(way).from_crs(xyz[:, :2])
    elif way.flat.equals(plane.crs):
        flat = plane.from_crs(xyz[:, :2])
    else:
        flat = onto_plane(xyz[:, :2], way.flat.to_wkt(), plane, source.sourceName())
    return TargetPlane.through(np.column_stack([flat, xyz[:, 2] * way.unit_m]))


def volume_values(
    volumes: Volumes, ranges: tuple[Range, Range], work: Earthwork, words: tuple[str, str, str]
) -> list[object]:
    """The columns of a row that was measured; `words` are its method, where its sigmas come from, and a finding."""
    cut, fill, level = volumes.areas
    return [
        *_pairs(volumes.cut, volumes.fill, volumes.net),
        *(end for told in ranges for end in (told.low, told.high)),
        *(volumes.area, cut, fill, level, volumes.left_out, volumes.weak),
        *_pairs(volumes.mean, volumes.least, volumes.most),
        *_haul(work.strip),
        *_pairs(work.cut, work.fill, work.balance),
        *_haul(work.away),
        *_haul(work.bring),
        "; ".join(work.working),
        *(text or None for text in words),
    ]


def refused_values(why: str) -> list[object]:
    """The columns of a row without figures."""
    return [None] * (len(COLUMNS) - 1) + [why]


def _pairs(*quantities: Quantity) -> list[object]:
    return [_told(value) for quantity in quantities for value in (quantity.value, quantity.sigma)]


def _told(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _haul(haul: Haul) -> list[object]:
    mass: list[object] = [None, None] if haul.mass is None else _pairs(haul.mass)
    return [*_pairs(haul.bank, haul.loose), *mass, haul.loads, haul.by or None]


def no_ground_values(*, to_surface: bool) -> list[object]:
    """The columns of a row that meets no ground to measure."""
    if to_surface:
        return refused_values(tr("No ground of it lies on both surfaces. Move it, or extend the surfaces."))
    return refused_values(tr("No ground of it lies on the surface. Move it, or extend the surface."))


def left_out_words(volumes: Volumes, *, to_surface: bool) -> str:
    """What is told of a row of which some ground was not measured."""
    if volumes.left_out < max(LEAST_TOLD_M2, NEGLIGIBLE * (volumes.left_out + volumes.area)):
        return ""
    words = tr(
        "{left:.2f} m2 of it do not lie on the surface and are left out. Extend the surface, or accept it."
    )
    if to_surface:
        words = tr(
            "{left:.2f} m2 of it do not lie on both surfaces and are left out. Extend the surfaces, or accept it."
        )
    return words.format(left=volumes.left_out)


def weak_words(volumes: Volumes) -> str:
    """What is told of a row that rests on weak triangles."""
    if volumes.weak <= WEAK * volumes.area:
        return ""
    words = tr("{share:.0f} % of it rests on weak triangles. Add levels there, or draw a boundary.")
    return words.format(share=100.0 * volumes.weak / volumes.area)


def far_words(surface: Surface, level: float) -> str:
    """What is told of a level that hardly anybody means: far beyond all heights of the surface."""
    low, high = float(surface.points[:, 2].min()), float(surface.points[:, 2].max())
    off = max(level - high, low - level)
    if off <= max(FAR_M, FAR * (high - low)):
        return ""
    words = tr(
        "The level {level:g} m lies {off:.0f} m beyond the surface's heights, {low:.2f} to {high:.2f} m. Is it in feet, or of "
        "another datum?"
    )
    return words.format(level=level, off=off, low=low, high=high)


def depth_fields() -> QgsFields:
    """Of classes of depth."""
    return fields_with(QgsFields(), DEPTH_COLUMNS)


def line_fields() -> QgsFields:
    """Of zero lines."""
    return fields_with(QgsFields(), LINE_COLUMNS)


def depth_features(classes: Sequence[DepthClass], plane: Plane, row: str, method: str) -> list[QgsFeature]:
    """Classes of depth of one area, in the layer's CRS."""
    return [
        _feature(
            depth_fields(), _depth_geometry(one, plane), [row or None, one.least, one.most, one.area, method]
        )
        for one in classes
    ]


def line_features(lines: Sequence[Floats], plane: Plane, row: str, method: str) -> list[QgsFeature]:
    """Zero lines (k, 3) of one area, in the layer's CRS."""
    out = []
    for line in lines:
        x, y, z = (column.tolist() for column in MapFrame(plane).points(line).T)
        length = float(np.hypot(*np.diff(line[:, :2], axis=0).T).sum())
        out.append(
            _feature(line_fields(), QgsGeometry(QgsLineString(x, y, z)), [row or None, length, method])
        )
    return out


def _feature(fields: QgsFields, geometry: QgsGeometry, values: list[object]) -> QgsFeature:
    feature = QgsFeature(fields)
    feature.setAttributes(values)
    feature.setGeometry(geometry)
    return feature


def _depth_geometry(one: DepthClass, plane: Plane) -> QgsGeometry:
    """Where a class of depth is, in the layer's CRS."""
    frame, whole = MapFrame(plane), QgsMultiPolygon()
    for rings in one.polygons:
        polygon = QgsPolygon()
        for number, ring in enumerate(rings):
            flat = frame.points(np.column_stack([ring, np.zeros(len(ring))]))
            line = QgsLineString(flat[:, 0].tolist(), flat[:, 1].tolist())
            polygon.addInteriorRing(line) if number else polygon.setExteriorRing(line)
        whole.addGeometry(polygon)
    return QgsGeometry(whole)
