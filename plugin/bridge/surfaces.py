# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces in and out: any layer of triangles as the core's surfaces in one plane, and a surface as a table.

Read are tables of ours (to the bit), the table `surfaces` of a survey, mesh layers, and any polygons of three corners
with heights.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsMeshLayer,
    QgsProject,
    QgsVectorFileWriter,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ..core.errors import BadInput
from ..core.ground.weld import weld_triangles
from ..core.measure.layer.shapes import Kind
from ..core.place.frames import onto_plane
from ..core.plane import SurveyPlane
from .drawn import text_of
from .planned import plane_about
from .sources import ground_of, shapes_of
from .staging import not_written, staged
from .surface_mesh import mesh_corners, write_mesh
from .surface_table import RING, is_own_table, local_plane, read_own, surface_features, surface_fields

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsFeature

    from ..core.ground.surface import Surface
    from ..core.measure.layer.ground import GroundWay
    from ..core.quantity import Floats, Ints
    from .planned import Plane

__all__ = ["OpenedSurfaces", "read_surfaces", "write_mesh", "write_surface"]


@dataclass(frozen=True, eq=False)
class OpenedSurfaces:
    """Surfaces of any layers in one plane of true metres.

    Attributes:
        surfaces: in the order of the layers, and in each of their rows.
        names: of the surfaces; a layer without names of its own gives its own.
        plane: that all are in; its `to_crs` and `from_crs` go to the coordinates of `crs` and back, and `crs_unit_m`
            is the metres of that CRS's unit, for heights. `bridge.geometry.MapFrame(plane).points` does all three.
        crs: of the first layer.
    """

    surfaces: tuple[Surface, ...]
    names: tuple[str, ...]
    plane: Plane
    crs: QgsCoordinateReferenceSystem


@dataclass(frozen=True, eq=False)
class _Told:
    """A surface as a layer has it: corners (m, 3, 3) in the layer's CRS with heights in metres, or a surface of ours."""

    name: str
    layer: QgsVectorLayer | QgsMeshLayer
    way: GroundWay
    corners: Floats
    own: Surface | None = None
    plane: Plane | None = None


def read_surfaces(
    layers: Sequence[QgsVectorLayer | QgsMeshLayer], sigma: float = 0.0, height: float | None = None
) -> OpenedSurfaces:
    """The surfaces of layers, in the plane of the first table of ours among them, else in one about them all.

    Args:
        layers: tables of triangles, tables `surfaces`, mesh layers, polygons of three corners with heights.
        sigma: one-sigma of a height in metres, for layers that do not say it.
        height: of the ground above the ellipsoid in metres, for a plane about them; None: their mean height.
    Raises:
        BadInput: no layer, no triangles, a polygon that is no triangle, no heights, or two heights at one place.
        BadCrs: a layer without a CRS. Refused: no good way from one layer's CRS to another's.
    """
    told = [surface for layer in layers for surface in _tell(layer)]
    if not told:
        raise BadInput("No surface is given. Choose a layer of triangles.")
    plane = next((one.plane for one in told if one.plane is not None), None)
    if plane is None:
        plane = _plane_of(told, height)
    surfaces = tuple(_laid(one, plane, sigma) for one in told)
    return OpenedSurfaces(surfaces, tuple(one.name for one in told), plane, _crs_of(told, plane))


def write_surface(
    surface: Surface,
    name: str,
    path: str | Path,
    plane: Plane,
    crs: QgsCoordinateReferenceSystem,
    method: str = "",
) -> Path:
    """Write a surface as a GeoPackage of one table, named as the surface; an older file is replaced only by a whole one.

    Raises:
        BadInput: the file cannot be written.
    """
    path = Path(path)
    options = QgsVectorFileWriter.SaveVectorOptions()
    options.driverName, options.layerName = "GPKG", name or "surface"
    with staged(path) as made:
        context = QgsProject.instance().transformContext()
        writer = QgsVectorFileWriter.create(
            str(made), surface_fields(), QgsWkbTypes.Type.PolygonZ, crs, context, options
        )
        if writer.hasError() != QgsVectorFileWriter.WriterError.NoError:
            raise not_written(path, writer.errorMessage())
        for rows in surface_features(surface, name, plane, crs, method):
            if not writer.addFeatures(rows):
                raise not_written(path, writer.errorMessage())
        del writer
    return path


# --- what layers hold ---


def _tell(layer: QgsVectorLayer | QgsMeshLayer) -> list[_Told]:
    way = ground_of(layer.crs(), layer.name())
    if isinstance(layer, QgsMeshLayer):
        corners = mesh_corners(layer)
        return [_Told(layer.name(), layer, way, _in_metres(corners, way))]
    if is_own_table(layer):
        own = read_own(layer, way)
        if own is not None:
            none = np.empty((0, 3, 3))
            return [_Told(one.name, layer, way, none, one.surface, one.plane) for one in own]
    return _tell_polygons(layer, way)


def _tell_polygons(layer: QgsVectorLayer, way: GroundWay) -> list[_Told]:
    """The surfaces of rows of one triangle or several."""
    features = list(layer.getFeatures())
    shapes = shapes_of(features)
    kinds = np.isin(shapes.kind, (Kind.AREAS, Kind.FACES, Kind.NOTHING))
    runs = shapes.sizes
    if not kinds.all() or (runs != RING).any() or shapes.is_hole.any():
        row = int(np.flatnonzero(~kinds)[0]) if not kinds.all() else _first_other(shapes.feature, runs)
        raise BadInput(
            "{layer}, row {row}: this is no triangle. Choose a layer whose polygons have three corners each, or build a "
            "surface from it.",
            layer=layer.name(),
            row=row + 1,
        )
    corners = np.column_stack([shapes.xy, shapes.z]).reshape(-1, RING, 3)[:, :3]
    corners = _in_metres(corners, way)
    is_one_each = len(np.unique(shapes.feature)) == len(shapes.feature)
    names = _names_of(layer, features, is_one_each=is_one_each)
    groups: dict[str, list[int]] = {}
    for k, feature in enumerate(shapes.feature.tolist()):
        groups.setdefault(names[feature], []).append(k)
    return [_Told(name, layer, way, corners[its]) for name, its in groups.items()]


def _first_other(feature: Ints, sizes: Ints) -> int:
    wrong = np.flatnonzero(sizes != RING)
    return int(feature[wrong[0]]) if len(wrong) else 0


def _names_of(layer: QgsVectorLayer, features: list[QgsFeature], *, is_one_each: bool) -> list[str]:
    """The surface that each row belongs to: by its column surface, else by its column name; where every row is one triangle
    with a name of its own, they are names of triangles and all rows are one surface."""
    for column in ("surface", "name"):
        at = layer.fields().lookupField(column)
        if at < 0:
            continue
        names = [text_of(feature.attribute(at)) or layer.name() for feature in features]
        if column == "surface" or not is_one_each or len(set(names)) < len(names):
            return names
    return [layer.name()] * len(features)


def _in_metres(corners: Floats, way: GroundWay) -> Floats:
    """Corners with their heights in metres.

    Raises:
        BadInput: heights are missing.
    """
    if not np.isfinite(corners[..., 2]).all():
        raise BadInput("A triangle has a corner without a height. Choose a layer with heights (z).")
    out = corners.astype(float)
    out[..., 2] *= way.unit_m
    return out


# --- into one plane ---


def _plane_of(told: Sequence[_Told], height: float | None) -> Plane:
    first = told[0]
    corners = np.concatenate([one.corners for one in told if one.way is first.way]).reshape(-1, 3)
    if first.way.is_local:
        return local_plane(first.way)
    ground = float(corners[:, 2].mean()) if height is None else height
    return plane_about(corners[:, :2], first.way, ground)


def _laid(one: _Told, plane: Plane, sigma: float) -> Surface:
    """A surface in the plane: as it is where it is in it already."""
    if one.own is not None and one.plane is not None:
        if _is_same(one.plane, plane):
            return one.own
        crs_xy = one.plane.to_crs(one.own.points[:, :2])
        xy = into_plane(crs_xy, one.way, plane, one.name)
        return replace(one.own, points=np.column_stack([xy, one.own.points[:, 2]]))
    flat = one.corners.reshape(-1, 3)
    xy = into_plane(flat[:, :2], one.way, plane, one.name)
    return weld_triangles(np.column_stack([xy, flat[:, 2]]).reshape(-1, 3, 3), sigma, one.name)


def into_plane(xy: Floats, way: GroundWay, plane: Plane, name: str) -> Floats:
    """(n, 2) places as a layer has them, in a plane about other layers.

    Args:
        xy: places.
        way: of their CRS.
        plane: that they go to.
        name: of the layer, for messages.
    Raises:
        BadInput: only one of the two has a place on the map. Refused: there is no good way between their CRSs.
    """
    if way.is_local != (not isinstance(plane, SurveyPlane)):
        raise BadInput(
            "Of the layers only some have a place on the map: {name} is in {crs}. Choose layers that are all placed, or all "
            "in one local grid.",
            name=name,
            crs=way.crs.name,
        )
    if not isinstance(plane, SurveyPlane):
        return local_plane(way).from_crs(xy)
    if way.flat.equals(plane.crs):
        return plane.from_crs(xy)
    return onto_plane(xy, way.flat.to_wkt(), plane, name)


def _is_same(one: Plane, other: Plane) -> bool:
    if isinstance(one, SurveyPlane) and isinstance(other, SurveyPlane):
        same = (one.lon, one.lat, one.height) == (other.lon, other.lat, other.height)
        return same and (one.crs is other.crs or one.crs.equals(other.crs))
    return not isinstance(one, SurveyPlane) and not isinstance(other, SurveyPlane)


def _crs_of(told: Sequence[_Told], plane: Plane) -> QgsCoordinateReferenceSystem:
    """The CRS that the plane's `to_crs` goes to: of the first layer whose plane it is."""
    first = next((one for one in told if one.plane is plane), told[0])
    return first.layer.crs()
