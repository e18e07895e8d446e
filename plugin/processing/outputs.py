# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers out: the host's sinks, of which those that are files are written beside their place and moved there whole."""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import (
    QgsFeatureSink,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingOutputLayerDefinition,
    QgsProcessingUtils,
    QgsProperty,
    QgsVectorFileWriter,
    QgsWkbTypes,
)

from ..bridge.staging import staged
from ..bridge.text import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from qgis.core import (
        QgsCoordinateReferenceSystem,
        QgsFeature,
        QgsFields,
        QgsProcessingAlgorithm,
        QgsProcessingFeedback,
    )

ELSEWHERE = ("memory:", "ogr:", "postgis:", "spatialite:", "mssql:", "oracle:")
"""What the host's own words for places that are no single file begin with."""
NO_CURVES = ("shp", "geojson", "geojsonl", "json", "dxf", "kml", "mif", "tab")
"""Endings of formats that hold no curves: the host writes a curve there as nothing at all, and says it was written."""


class Output:
    """One layer that a run writes, as its parameter names it."""

    def __init__(
        self,
        algorithm: QgsProcessingAlgorithm,
        parameters: dict[str, object],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
        name: str,
    ) -> None:
        self._algorithm, self._context, self._feedback, self.name = algorithm, context, feedback, name
        self._parameters = parameters
        value = parameters.get(name)
        self._definition = value if isinstance(value, QgsProcessingOutputLayerDefinition) else None
        self.destination = ""

    @property
    def path(self) -> Path | None:
        """The file that is to be written; None where it is anything else (a table of a database, memory, rows that
        go into a layer that is there)."""
        value: object = self._parameters.get(self.name)
        if self._definition is not None:
            if self._definition.useRemapping() or self._definition.createOptions:
                return None
            value = self._definition.sink
        if isinstance(value, QgsProperty):
            value = value.staticValue() if value.propertyType() == QgsProperty.Type.StaticProperty else None
        if not isinstance(value, str) or value.startswith(ELSEWHERE) or "|" in value:
            return None
        path = Path(value)
        known = QgsVectorFileWriter.supportedFormatExtensions()
        return path if path.suffix[1:].lower() in known else None

    def load(self, path: Path) -> str:
        """Say that the file is to be loaded when the run is over, where that was asked for."""
        definition = self._definition
        if definition is not None and definition.destinationProject is not None:
            title = definition.destinationName or self._algorithm.parameterDefinition(self.name).description()
            details = QgsProcessingContext.LayerDetails(
                title, definition.destinationProject, self.name, QgsProcessingUtils.LayerHint.Vector
            )
            self._context.addLayerToLoadOnCompletion(str(path), details)
        return str(path)

    @contextmanager
    def open(
        self, fields: QgsFields, geometry: QgsWkbTypes.Type, crs: QgsCoordinateReferenceSystem
    ) -> Iterator[Rows]:
        """A sink for rows; `destination` says where they are once it is closed."""
        path = self.path
        if path is None:
            rows, self.destination = self._rows(self._parameters, fields, geometry, crs)
            yield rows
            return
        ending = path.suffix[1:].lower()
        in_chords = ending in NO_CURVES and QgsWkbTypes.isCurvedType(geometry)
        if ending == "shp":
            self._feedback.pushWarning(
                tr("A shapefile keeps ten letters of a column's name. A GeoPackage (.gpkg) keeps all.")
            )
        if in_chords:
            geometry = QgsWkbTypes.linearType(geometry)
            self._feedback.pushWarning(
                tr(
                    "This format holds no curves: arcs are written as chords of one degree. The figures are those of "
                    "the arcs. A GeoPackage (.gpkg) keeps them."
                )
            )
        with staged(path) as made:
            rows, _ = self._rows({**self._parameters, self.name: str(made)}, fields, geometry, crs)
            rows.in_chords = in_chords
            yield rows
            rows.close()
        self.destination = self.load(path)

    def _rows(
        self,
        parameters: dict[str, object],
        fields: QgsFields,
        geometry: QgsWkbTypes.Type,
        crs: QgsCoordinateReferenceSystem,
    ) -> tuple[Rows, str]:
        sink, destination = self._algorithm.parameterAsSink(
            parameters, self.name, self._context, fields, geometry, crs
        )
        if sink is None:
            raise QgsProcessingException(self._algorithm.invalidSinkError(parameters, self.name))
        return Rows(sink), destination


class Rows:
    """Rows on their way into a sink."""

    def __init__(self, sink: QgsFeatureSink) -> None:
        self._sink: QgsFeatureSink | None = sink
        self.in_chords = False

    def add(self, features: list[QgsFeature]) -> None:
        """Write some rows."""
        if self.in_chords:
            for feature in features:
                geometry = feature.geometry()
                geometry.convertToStraightSegment()
                feature.setGeometry(geometry)
        assert self._sink is not None  # noqa: S101 - nothing is added to a sink that was closed
        if not self._sink.addFeatures(features, QgsFeatureSink.Flag.FastInsert):
            raise QgsProcessingException(self._sink.lastError())

    def close(self) -> None:
        """Have everything written."""
        if self._sink is not None:
            self._sink.finalize() if hasattr(self._sink, "finalize") else self._sink.flushBuffer()
        self._sink = None
