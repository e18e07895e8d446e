# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers out: the host's sinks, of which those that are files are written beside their place and moved there whole."""

from __future__ import annotations

import re
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import (
    QgsDataSourceUri,
    QgsFeatureSink,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingOutputLayerDefinition,
    QgsProcessingUtils,
    QgsProperty,
    QgsVectorFileWriter,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ..bridge.sources import LayerFile, layer_file
from ..bridge.staging import staged
from ..bridge.text import tr
from ..core.errors import BadInput
from .loaded import Styler, present

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from qgis.core import (
        QgsCoordinateReferenceSystem,
        QgsFeature,
        QgsFields,
        QgsProcessingAlgorithm,
        QgsProcessingFeedback,
    )

ELSEWHERE = re.compile(r"[A-Za-z]{2,}:")
"""What the host's own words for places that are no single file begin with; one letter is a drive."""
IN_MEMORY = "memory:"
IN_A_FILE = "ogr:"
"""Two of these words."""
NO_CURVES = ("shp", "geojson", "geojsonl", "json", "dxf", "kml", "mif", "tab")
"""Endings of formats that hold no curves: the host writes a curve there as nothing at all, and says it was written."""
LOSES_ROWS = ("fgb",)
"""Endings of formats that leave out rows without geometry (for their spatial index)."""


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
        self._read: list[LayerFile] = []
        self.destination = self._content = ""

    @property
    def path(self) -> Path | None:
        """The file that is to be written; None where it is anything else (a table of a database, memory, rows that
        go into a layer that is there)."""
        if self._definition is not None and (
            self._definition.useRemapping() or self._definition.createOptions
        ):
            return None
        place = self._place
        return None if place is None or ELSEWHERE.match(place) or "|" in place else Path(place)

    @property
    def _place(self) -> str | None:
        """Where the layer is to be written, in the host's words; None where the host chooses."""
        value: object = self._parameters.get(self.name)
        if self._definition is not None:
            value = self._definition.sink
        if isinstance(value, QgsProperty):
            value = value.staticValue() if value.propertyType() == QgsProperty.Type.StaticProperty else None
        return value if isinstance(value, str) and value != QgsProcessing.TEMPORARY_OUTPUT else None

    @property
    def _file(self) -> LayerFile | None:
        """The file that is written to, and the table of it where only that is replaced."""
        place = self._place
        if place is None or not place.startswith(IN_A_FILE):
            return None if self.path is None else LayerFile(self.path)
        uri = QgsDataSourceUri(place[len(IN_A_FILE) :])
        return LayerFile(Path(uri.database()), uri.table())

    def keep_inputs(self, layers: Iterable[QgsVectorLayer]) -> None:
        """Layers that are read are not written over.

        Raises:
            BadInput: one would be.
        """
        self._read = [file for file in map(layer_file, layers) if file is not None]
        written = self._file
        if written is not None:
            self._refuse_read(written)

    def _refuse_read(self, written: LayerFile) -> None:
        if any(map(written.holds, self._read)):
            raise BadInput(
                "{path} holds the layer that is read, and would be replaced. Choose another file or table for the "
                "output.",
                path=str(written.path),
            )

    def load(self, path: Path) -> str:
        """Say that the file is to be loaded when the run is over, where that was asked for."""
        definition = self._definition
        if definition is not None and definition.destinationProject is not None:
            title = definition.destinationName or self._algorithm.parameterDefinition(self.name).description()
            details = QgsProcessingContext.LayerDetails(
                title, definition.destinationProject, self.name, QgsProcessingUtils.LayerHint.Vector
            )
            self._context.addLayerToLoadOnCompletion(str(path), details)
        self.destination = str(path)
        self._present()
        return self.destination

    def name_by(self, content: str) -> None:
        """Say what is in the layer, before it is written: where the host loads it, its name tells it."""
        self._content = content

    def _present(self) -> None:
        """How the layer looks and what it is called, where the host loads it."""
        title = ""
        if self._content and not (self._definition and self._definition.destinationName):
            what = self._algorithm.parameterDefinition(self.name).description()
            title = tr("{what}: {content}").format(what=what, content=self._content)
        styler = Styler(self._algorithm.name(), self.name)
        present(self._context, self.destination, styler, title)

    @contextmanager
    def open(
        self, fields: QgsFields, geometry: QgsWkbTypes.Type, crs: QgsCoordinateReferenceSystem
    ) -> Iterator[Rows]:
        """A sink for rows; `destination` says where they are once it is closed."""
        path = self.path
        if path is None:
            rows = Rows(lambda: self._sink(self._parameters, fields, geometry, crs), waits=self._replaces)
            yield rows
            rows.close()
            self._present()
            return
        ending = path.suffix[1:].lower()
        in_chords = ending in NO_CURVES and QgsWkbTypes.isCurvedType(geometry)
        if in_chords:
            geometry = QgsWkbTypes.linearType(geometry)
        self._warn(ending, in_chords=in_chords)
        with staged(path) as made:
            parameters = {**self._parameters, self.name: str(made)}
            rows = Rows(lambda: self._sink(parameters, fields, geometry, crs), in_chords=in_chords)
            yield rows
            rows.close()
            name = _name_written(made)
            for other in made.parent.iterdir():
                self._refuse_read(LayerFile(path.with_name(other.name)))
            _refuse_fewer(made.with_name(name), rows.count, path)
        self.load(path.with_name(name))

    @property
    def _replaces(self) -> bool:
        """Whether something that is there may be replaced, or added to, as soon as the sink opens."""
        place = self._place
        return place is not None and not place.startswith(IN_MEMORY)

    def _warn(self, ending: str, *, in_chords: bool) -> None:
        """Say what a format will not keep."""
        if ending == "shp":
            self._feedback.pushWarning(
                tr("A shapefile keeps ten letters of a column's name. A GeoPackage (.gpkg) keeps all.")
            )
        if in_chords:
            self._feedback.pushWarning(
                tr(
                    "This format holds no curves: arcs are written as chords of one degree. The figures are those of "
                    "the arcs. A GeoPackage (.gpkg) keeps them."
                )
            )

    def _sink(
        self,
        parameters: dict[str, object],
        fields: QgsFields,
        geometry: QgsWkbTypes.Type,
        crs: QgsCoordinateReferenceSystem,
    ) -> QgsFeatureSink:
        sink, self.destination = self._algorithm.parameterAsSink(
            parameters, self.name, self._context, fields, geometry, crs
        )
        if sink is None:
            raise QgsProcessingException(self._algorithm.invalidSinkError(parameters, self.name))
        return sink


def _name_written(made: Path) -> str:
    """The name of the file that was written, to which some formats add an ending of their own."""
    if made.exists():
        return made.name
    known = QgsVectorFileWriter.supportedFormatExtensions()
    named = sorted(p.name for p in made.parent.glob(made.name + ".*") if p.suffix[1:].lower() in known)
    return named[0] if named else made.name


def _refuse_fewer(made: Path, count: int, path: Path) -> None:
    """Some formats leave out rows without geometry and say that they were written."""
    written = QgsVectorLayer(str(made), "written", "ogr")
    kept = written.featureCount() if written.isValid() else 0
    if 0 <= kept < count and made.suffix[1:].lower() in LOSES_ROWS:
        raise BadInput(
            "{path} would hold {kept} of {count} rows: this format keeps none without geometry. Choose another, such "
            "as a GeoPackage (.gpkg).",
            path=str(path),
            kept=kept,
            count=count,
        )


class Rows:
    """Rows on their way into a sink, which opens at once; where something is replaced that is there, only when every
    row is there."""

    def __init__(
        self, open_sink: Callable[[], QgsFeatureSink], *, in_chords: bool = False, waits: bool = False
    ) -> None:
        self._open_sink, self._in_chords = open_sink, in_chords
        self._waiting: list[QgsFeature] | None = [] if waits else None
        self._sink: QgsFeatureSink | None = None if waits else open_sink()
        self.count = 0

    def add(self, features: list[QgsFeature]) -> None:
        """Write some rows."""
        if self._in_chords:
            for feature in features:
                geometry = feature.geometry()
                geometry.convertToStraightSegment()
                feature.setGeometry(geometry)
        self.count += len(features)
        if self._waiting is not None:
            self._waiting += features
        else:
            self._write(features)

    def _write(self, features: list[QgsFeature]) -> None:
        assert self._sink is not None  # noqa: S101 - nothing is added to a sink that was closed
        if not self._sink.addFeatures(features, QgsFeatureSink.Flag.FastInsert):
            raise BadInput(
                "The rows cannot be written: {reason}. Choose another format or place for the output; a GeoPackage "
                "(.gpkg) takes all.",
                reason=self._sink.lastError(),
            )

    def close(self) -> None:
        """Have everything written."""
        if self._waiting is not None:
            self._sink = self._open_sink()
            self._write(self._waiting)
            self._waiting = None
        if self._sink is not None:
            self._sink.finalize() if hasattr(self._sink, "finalize") else self._sink.flushBuffer()
        self._sink = None
