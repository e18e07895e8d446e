# SPDX-License-Identifier: GPL-2.0-or-later
"""Any layer of the host in, in chunks: its features, and their geometry as the core's arrays."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsFeatureRequest,
    QgsProviderRegistry,
    QgsWkbTypes,
)

from ..core.errors import BadInput
from ..core.measure.layer.ground import GroundWay, open_ground
from ..core.measure.layer.wkb import join_pieces, read_shapes
from .compat import IGNORE_INVALID

if TYPE_CHECKING:
    from collections.abc import Iterator

    from qgis.core import QgsProcessingFeatureSource, QgsVectorLayer

    from ..core.measure.layer.shapes import Shapes

KINDS = {
    QgsWkbTypes.GeometryType.PointGeometry: "points",
    QgsWkbTypes.GeometryType.LineGeometry: "lines",
    QgsWkbTypes.GeometryType.PolygonGeometry: "polygons",
    QgsWkbTypes.GeometryType.NullGeometry: "no geometry",
}
CHUNK = 3_000
"""Features held at once: enough for arrays to pay, few enough to stay in the processor's cache (20,000 take 15 % longer)."""


@dataclass(frozen=True, eq=False)
class Chunk:
    """Some features of a layer, in its order, and their shapes."""

    features: list[QgsFeature]
    shapes: Shapes


@dataclass(frozen=True)
class LayerFile:
    """The file that a layer lies in, and its table; "" where the whole file is meant."""

    path: Path
    table: str = ""

    def holds(self, other: LayerFile) -> bool:
        """Whether this is the other's file, and its table where both name one."""
        if not self.path.exists() or not other.path.exists() or not self.path.samefile(other.path):
            return False
        return not self.table or not other.table or self.table.lower() == other.table.lower()


def layer_file(layer: QgsVectorLayer) -> LayerFile | None:
    """Where a layer lies; None where it is no file."""
    told = QgsProviderRegistry.instance().decodeUri(layer.providerType(), layer.source())
    path = told.get("path") or ""
    return LayerFile(Path(path), told.get("layerName") or "") if path else None


def read_chunks(source: QgsProcessingFeatureSource, size: int = CHUNK) -> Iterator[Chunk]:
    """The features of a source: the selected ones where that was chosen, filtered as the layer is, with its joined
    and virtual fields and its edits. Geometries that are not valid come too: the core says what is wrong."""
    features = source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID)
    while True:
        some = list(islice(features, size))
        if not some:
            return
        yield Chunk(some, shapes_of(some))


def shapes_of(features: list[QgsFeature]) -> Shapes:
    """The geometry of features as arrays; one without geometry is a NULL."""
    return read_shapes(*join_pieces([_wkb(feature) for feature in features]))


def _wkb(feature: QgsFeature) -> bytes:
    """No bytes at all where there is no geometry."""
    data: bytes = feature.geometry().asWkb().data()
    return data


def ground_of(crs: QgsCoordinateReferenceSystem, layer: str = "") -> GroundWay:
    """The way to the ground from a layer's CRS; the layer's name is for messages.

    Raises:
        BadCrs: there is none, or it has no plan coordinates.
    """
    if not crs.isValid():
        return open_ground(None, layer)
    return open_ground(definition_of(crs), layer)


def definition_of(crs: QgsCoordinateReferenceSystem) -> str:
    """A valid CRS in words that pyproj takes: its WKT, and where the host has lost that, its code. On 3.40 a CRS that the
    host kept from a background thread was seen to have none in the window's own."""
    return crs.toWkt(QgsCoordinateReferenceSystem.WktVariant.WKT2_2019) or crs.authid()


def clashing_ids(source: QgsProcessingFeatureSource, layer: QgsVectorLayer | None) -> int | None:
    """The number of a column `fid` that a GeoPackage could not take, for its values repeat or some are missing (rows
    that were drawn and not yet saved); None where it can. The host's own algorithms fail on such a layer."""
    index = int(source.fields().lookupField("fid"))
    is_edited = getattr(source, "is_edited", False)
    if index < 0 or (layer is not None and not is_edited and _numbers_its_rows(layer, index)):
        return None
    request = QgsFeatureRequest().setFlags(QgsFeatureRequest.Flag.NoGeometry).setSubsetOfAttributes([index])
    seen: set[object] = set()
    for feature in source.getFeatures(request, IGNORE_INVALID):
        value = feature.attribute(index)
        if not isinstance(value, (int, float)) or value in seen:
            return index
        seen.add(value)
    return None


def _numbers_its_rows(layer: QgsVectorLayer, index: int) -> bool:
    """Whether a column is the key of a file's own table, without edits: then no value repeats or is missing."""
    return layer.providerType() == "ogr" and not layer.isEditable() and index in layer.primaryKeyAttributes()


def refuse_other_kind(source: QgsProcessingFeatureSource, wanted: QgsWkbTypes.GeometryType) -> None:
    """A layer whose geometry is of another kind throughout.

    Raises:
        BadInput: it is.
    """
    kind = QgsWkbTypes.geometryType(source.wkbType())
    if kind in (wanted, QgsWkbTypes.GeometryType.UnknownGeometry):
        return
    raise BadInput(
        "The layer holds {there}, and {wanted} are to be measured. Choose a layer of them.",
        there=KINDS.get(kind, KINDS[QgsWkbTypes.GeometryType.NullGeometry]),
        wanted=KINDS[wanted],
    )


def has_heights(source: QgsProcessingFeatureSource) -> bool:
    """Whether the layer's geometry has a third coordinate."""
    return bool(QgsWkbTypes.hasZ(source.wkbType()))
