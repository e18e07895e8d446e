# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines to cut along, baselines, and features that they may cross: any layer, arcs too, in the plane of the surfaces."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeatureRequest, QgsWkbTypes

from ..core.errors import BadInput
from ..core.ground.crossed import PlanFeature
from ..core.ground.sheet import NamedLine
from ..core.measure.layer.crossings import curve_of
from ..core.place.frames import onto_plane
from ..core.plane import SurveyPlane
from ..core.segments import Curve, chorded, path_length
from .compat import IGNORE_INVALID
from .drawn import text_of
from .sources import ground_of, refuse_other_kind, shapes_of
from .surface_table import local_plane
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ..core.quantity import Floats
    from .planned import Plane

NAMES = ("section", "name", "feature")
"""Columns that name a row, the first that is there."""
WITHIN = 1e-6
"""Metres: a line that is no longer is none."""


def read_cut_lines(
    source: QgsProcessingFeatureSource, plane: Plane, warn: Callable[[str], None]
) -> list[NamedLine]:
    """The lines of a layer, each part one, arcs as chords within 2 mm.

    Args:
        source: the layer.
        plane: of the surfaces.
        warn: is told of each row without a line, which is passed over.
    Raises:
        BadInput: the layer holds no lines, or a row lies outside what its CRS can hold.
    """
    refuse_other_kind(source, QgsWkbTypes.GeometryType.LineGeometry)
    out = []
    for row, (feature, name, curves) in enumerate(_rows(source, plane), 1):
        long = [curve for curve in curves if path_length(curve) > WITHIN]
        if not long:
            words = tr("{layer}, row {row}: The line has no length. Draw it again, or delete the row.")
            if feature.geometry().isEmpty():
                words = tr("{layer}, row {row}: There is no geometry. Draw it, or delete the row.")
            warn(words.format(layer=source.sourceName(), row=row))
        for number, curve in enumerate(long, 1):
            part = f"{name}/{number}" if len(long) > 1 else name
            out.append(NamedLine(part, chorded(curve)[:, :2]))
    return out


def read_baseline(source: QgsProcessingFeatureSource, plane: Plane) -> Curve:
    """The one line of a layer, with its arcs.

    Raises:
        BadInput: it holds no lines, or not exactly one.
    """
    refuse_other_kind(source, QgsWkbTypes.GeometryType.LineGeometry)
    curves = [curve for _, _, some in _rows(source, plane) for curve in some if path_length(curve) > WITHIN]
    if len(curves) != 1:
        raise BadInput(
            "The layer of the baseline holds {count} lines. Select the one to station, or join its parts.",
            count=len(curves),
        )
    return curves[0]


def read_plan_features(source: QgsProcessingFeatureSource, plane: Plane) -> list[PlanFeature]:
    """Areas and lengths of a layer, by name; rows without geometry are passed over.

    Raises:
        BadInput: the layer holds points.
    """
    if source.wkbType() != QgsWkbTypes.Type.Unknown and QgsWkbTypes.geometryType(source.wkbType()) not in (
        QgsWkbTypes.GeometryType.LineGeometry,
        QgsWkbTypes.GeometryType.PolygonGeometry,
    ):
        raise BadInput("A line cannot cross points. Choose a layer of lines or polygons as the features.")
    return [PlanFeature(name, tuple(curves)) for _, name, curves in _rows(source, plane) if curves]


def _rows(source: QgsProcessingFeatureSource, plane: Plane) -> list[tuple[QgsFeature, str, list[Curve]]]:
    """Rows with their names and runs in the plane."""
    features = list(source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID))
    shapes = shapes_of(features)
    xy = _into(shapes.xy, source, plane)
    column = next((name for name in NAMES if source.fields().lookupField(name) >= 0), None)
    out = []
    for number, feature in enumerate(features):
        told = text_of(feature.attribute(column)) if column else ""
        runs = [int(k) for k in shapes.runs_numbered(number) if shapes.sizes[k] > 1]
        out.append((feature, told or f"row {number + 1}", [curve_of(shapes, xy, k) for k in runs]))
    return out


def _into(xy: Floats, source: QgsProcessingFeatureSource, plane: Plane) -> Floats:
    """Places of a layer in the plane, metres.

    Raises:
        BadInput: a place that is none, or one of layer and surfaces has no place on the map.
    """
    way = ground_of(source.sourceCrs(), source.sourceName())
    if way.is_local != (not isinstance(plane, SurveyPlane)):
        raise BadInput(
            "The surfaces and the layer {layer} do not lie in one frame: only one of them has a place on the map. Choose "
            "layers that are all placed, or all in one local grid.",
            layer=source.sourceName(),
        )
    if not isinstance(plane, SurveyPlane):
        flat = local_plane(way).from_crs(xy)
    elif way.flat.equals(plane.crs):
        flat = plane.from_crs(xy) if len(xy) else xy
    else:
        flat = onto_plane(xy, way.flat.to_wkt(), plane, source.sourceName())
    if not np.isfinite(flat).all():
        raise BadInput(
            "A vertex of {layer} lies outside what its CRS can hold. Check the layer's CRS, and mend the row.",
            layer=source.sourceName(),
        )
    return flat


def read_rows(source: QgsProcessingFeatureSource, plane: Plane) -> list[tuple[QgsFeature, str, list[Curve]]]:
    """Every row of a layer with its name and its lines or rings in the plane, arcs as they are; none without geometry.

    Raises:
        BadInput: a vertex without a place, or a layer in another frame than the plane.
    """
    return _rows(source, plane)
