# SPDX-License-Identifier: GPL-2.0-or-later
"""Records of a survey as features of a host layer: the same columns as in the GeoPackage."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsField,
    QgsFields,
    QgsGeometry,
    QgsProcessingUtils,
)

from ..core.measure.noted import noted_at
from ..core.measure.rows import StationRow, SurfaceRow, Survey, Tags
from ..core.read.times import clock_times
from .compat import REAL_TYPE, TEXT_TYPE, WHOLE_TYPE
from .fields import SURFACES, TABLES, Frame, Kind, Table, column_kind, record_geometry
from .geopackage import LOCAL_WKT, crs_text
from .row_cells import record_values

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from ..core.surface import TriangleSurface
    from ..core.walk import Walk

_HOST_TYPE = {Kind.TEXT: TEXT_TYPE, Kind.REAL: REAL_TYPE, Kind.WHOLE: WHOLE_TYPE}
_BY_NAME = {table.name: table for table in (*TABLES, SURFACES)}


def table_named(name: str) -> Table:
    """One of the survey's tables."""
    return _BY_NAME[name]


def table_fields(table: Table) -> QgsFields:
    """A table's columns as host fields."""
    fields = QgsFields()
    for name in table.columns:
        fields.append(QgsField(name, _HOST_TYPE[column_kind(name)]))
    return fields


def fields_with(fields: QgsFields, columns: Iterable[tuple[str, Kind]]) -> QgsFields:
    """A layer's fields with columns added; a name that is there already gets a number, as the host does it."""
    added = QgsFields()
    for name, kind in columns:
        added.append(QgsField(name, _HOST_TYPE[kind]))
    return QgsProcessingUtils.combineFields(fields, added)


def is_id(field: QgsField) -> bool:
    """Whether a column numbers the rows of a table, so that it cannot number those of another."""
    return str(field.name()).lower() == "fid"


def without_ids(fields: QgsFields) -> QgsFields:
    """The columns but for the one that numbers rows."""
    out = QgsFields()
    for field in fields:
        if not is_id(field):
            out.append(field)
    return out


def extended(
    feature: QgsFeature, values: Sequence[object], geometry: QgsGeometry | None, anew: int | None
) -> QgsFeature:
    """A feature with values behind its own and another geometry; without its number where rows are numbered anew."""
    first = feature.attributeCount()
    feature.resizeAttributes(first + len(values))
    for k, value in enumerate(values, first):
        if value is not None:
            feature.setAttribute(k, value)
    if geometry is not None:
        feature.setGeometry(geometry)
    if anew is not None:
        feature.setAttribute(anew, None)
    return feature


def table_features(table: Table, records: Iterable[object], frame: Frame) -> Iterator[QgsFeature]:
    """A table's rows as features, in the frame's CRS."""
    fields = table_fields(table)
    for record in records:
        feature = QgsFeature(fields)
        feature.setAttributes(list(record_values(record, frame)))
        shape = record_geometry(record, frame, table.geometry)
        if shape is not None:
            geometry = QgsGeometry()
            geometry.fromWkb(shape)
            feature.setGeometry(geometry)
        yield feature


def walk_stations(walks: Sequence[Walk]) -> list[StationRow]:
    """The stations of walks as they were recorded: metres in each walk's own frame, the pole taken off."""
    times = {id(walk): clock_times(walk.time, walk.started) for walk in walks}
    return [
        StationRow(
            tags=_recorded_tags(walk, i),
            station=walk.station[i],
            point=(float(walk.xy[i, 0]), float(walk.xy[i, 1]), float(walk.ground_z[i])),
            ellipse=None,
            z_sigma=float(walk.sd_z[i]),
            mark=walk.mark[i],
            leg=walk.leg[i].value,
            time=times[id(walk)][i],
            noted=noted_at(walk, i),
        )
        for walk in walks
        for i in range(len(walk))
    ]


def stated_crs(names: Iterable[str | None]) -> QgsCoordinateReferenceSystem:
    """The CRS that all of them name, or the local one where they have frames of their own."""
    stated = set(names)
    crs = (
        QgsCoordinateReferenceSystem(stated.pop() or "")
        if len(stated) == 1
        else QgsCoordinateReferenceSystem()
    )
    return crs if crs.isValid() else QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT)


def surface_records(surfaces: Sequence[TriangleSurface]) -> list[SurfaceRow]:
    """Surfaces as their files have them, in their own CRS."""
    return [SurfaceRow(s.name, s.file, s.points, s.triangles) for s in surfaces]


def _recorded_tags(walk: Walk, i: int) -> Tags:
    words: dict[str, Any] = {
        name: walk.text(name, i) for name in ("item", "status", "surface", "option", "phase", "note")
    }
    return Tags(
        site=walk.keys.site or "", walk=walk.name, feature=walk.feature[i], part=walk.part[i], **words
    )


def map_crs(survey: Survey) -> QgsCoordinateReferenceSystem:
    """The CRS that the survey is placed in; a local one where it is not placed."""
    text = crs_text(survey)
    if survey.plane is None or not text.split(":")[-1].isdigit():
        return QgsCoordinateReferenceSystem.fromWkt(text)
    return QgsCoordinateReferenceSystem(text)


def plane_crs(survey: Survey) -> QgsCoordinateReferenceSystem:
    """The survey plane itself as a CRS: metres, true to the ground."""
    return QgsCoordinateReferenceSystem.fromWkt(survey.plane.wkt if survey.plane else LOCAL_WKT)
