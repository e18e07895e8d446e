# SPDX-License-Identifier: GPL-2.0-or-later
"""The project's layers that a run reads: found before it starts, and kept until it is over.

A run works in a thread of its own, and the host does not guard its project there. Two things ended QGIS 3.22 (seen):
looking a layer up by its name makes the project forget its expression scope, which the map may just be building; and a layer
that the user takes away is deleted at once, under the run that reads it. The host prepares a run in the project's thread; only
the steps of a model that runs as a task are prepared in that task's own.
"""

from __future__ import annotations

from dataclasses import dataclass
from threading import Lock
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsMapLayer,
    QgsMeshLayer,
    QgsProcessing,
    QgsProcessingFeatureSourceDefinition,
    QgsProcessingUtils,
    QgsProject,
    QgsProperty,
    QgsVectorLayer,
)
from qgis.PyQt.QtCore import QObject

if TYPE_CHECKING:
    from collections.abc import Iterable

    from qgis.core import QgsProcessingContext, QgsProcessingParameterDefinition

PROJECT_CRS = "ProjectCrs"
"""The host's word for it."""
HINT = QgsProcessingUtils.LayerHint
HINTS = {
    "source": (HINT.Vector,),
    "vector": (HINT.Vector,),
    "raster": (HINT.Raster,),
    "mesh": (HINT.Mesh,),
    "layer": (HINT.Vector, HINT.Mesh, HINT.Raster),
    "multilayer": (HINT.Vector, HINT.Mesh, HINT.Raster),
}
"""By the host's name of a parameter's type: what a name may mean, the first that there is."""


@dataclass(frozen=True, eq=False)
class Found:
    """A run's parameters with the project's layers, and its CRSs, in place of their names, and those layers. Of some rows of
    a layer only the layer is there; what names nothing of the project stays as it was given."""

    parameters: dict[str, object]
    layers: tuple[QgsMapLayer, ...]


def find_layers(
    parameters: dict[str, object],
    definitions: Iterable[QgsProcessingParameterDefinition],
    context: QgsProcessingContext,
) -> Found:
    """Look up what the parameters name. To be called in the thread of the project.

    Args:
        parameters: by name, as the host was given them.
        definitions: of the algorithm's parameters.
        context: of the run.
    """
    found, layers = dict(parameters), []
    for definition in definitions:
        name, kind = definition.name(), definition.type()
        if name not in found:
            continue
        if kind == "crs":
            found[name] = _crs(_told(found[name], context), context)
        elif kind in HINTS and not _is_of_files(definition):
            found[name], own = _layers(found[name], HINTS[kind], context)
            layers += own
            if kind != "source":
                found[name] = _apart(found[name])
    return Found(found, tuple(layers))


def _is_of_files(definition: QgsProcessingParameterDefinition) -> bool:
    """Whether a list is one of files: a log that is shown as a layer too is still a file."""
    is_list = definition.type() == "multilayer"
    return bool(is_list and definition.layerType() == QgsProcessing.SourceType.TypeFile)


def _told(value: object, context: QgsProcessingContext) -> object:
    """What a property stands for; another value as it is."""
    if not isinstance(value, QgsProperty):
        return value
    told, is_told = value.value(context.expressionContext(), None)
    return told if is_told else value


def _layers(
    value: object, hints: tuple[QgsProcessingUtils.LayerHint, ...], context: QgsProcessingContext
) -> tuple[object, list[QgsMapLayer]]:
    """A value with layers in place of their names, and these."""
    told = _told(value, context)
    if isinstance(told, QgsProcessingFeatureSourceDefinition):
        layer, own = _layers(told.source, hints, context)
        return (layer, own) if isinstance(layer, QgsMapLayer) else (value, [])
    if isinstance(told, (list, tuple)):
        pairs = [_layers(part, hints, context) for part in told]
        return [part for part, _ in pairs], [layer for _, own in pairs for layer in own]
    layer = _layer(told, hints, context)
    return (told, []) if layer is None else (layer, [layer])


def _apart(value: object) -> object:
    """Copies of layers, so that what happens to those of the project is nothing to the run; of a layer that is being edited
    itself, for its copy lacks the edits."""
    if isinstance(value, list):
        return [_apart(part) for part in value]
    if isinstance(value, QgsMeshLayer) or (isinstance(value, QgsVectorLayer) and not value.isEditable()):
        return value.clone()
    return value


def _layer(
    told: object, hints: tuple[QgsProcessingUtils.LayerHint, ...], context: QgsProcessingContext
) -> QgsMapLayer | None:
    if isinstance(told, QgsMapLayer):
        return told
    if not isinstance(told, str) or not told:
        return None
    known = (QgsProcessingUtils.mapLayerFromString(told, context, False, hint) for hint in hints)  # noqa: FBT003
    return next((layer for layer in known if layer is not None), None)


def _crs(told: object, context: QgsProcessingContext) -> object:
    """The CRS of the project or of one of its layers, where they have one; another text stays."""
    if not isinstance(told, str):
        return told
    crs = QgsCoordinateReferenceSystem()
    layer = _layer(told, HINTS["layer"], context)
    if told == PROJECT_CRS and context.project() is not None:
        crs = context.project().crs()
    elif layer is not None:
        crs = layer.crs()
    return crs if crs.isValid() else told


class LayerKeeper(QObject):
    """Keeps the layers of runs that are taken out of the project meanwhile. Python owns them then, like those that a script
    takes out to put them back: they end when nobody knows them any more, in their own thread."""

    def __init__(self) -> None:
        """Keep nothing, and know no project yet."""
        super().__init__()
        self._runs: WeakKeyDictionary[object, set[str]] = WeakKeyDictionary()
        self._layers: dict[str, QgsMapLayer] = {}
        self._project: QgsProject | None = None
        self._lock = Lock()

    def begin(self, run: object, layers: Iterable[QgsMapLayer]) -> None:
        """A run is about to read some layers; one that never starts counts until nobody knows it any more."""
        with self._lock:
            if self._project is None:
                self.moveToThread(QgsApplication.instance().thread())
                self._project = QgsProject.instance()
                self._project.layerWillBeRemoved[QgsMapLayer].connect(self._keep)
            self._runs[run] = {layer.id() for layer in layers}
        self._let_go()

    def end(self, run: object) -> None:
        """A run is over, from whichever thread."""
        with self._lock:
            self._runs.pop(run, None)
        self._let_go()

    def close_down(self) -> None:
        """Let go of the project."""
        if self._project is not None:
            self._project.layerWillBeRemoved[QgsMapLayer].disconnect(self._keep)
            self._project = None

    def _keep(self, layer: QgsMapLayer) -> None:
        with self._lock:
            if any(layer.id() in read for read in self._runs.values()):
                layer.setParent(None)  # the project deletes what is its child; Python owns it now
                self._layers[layer.id()] = layer

    def _let_go(self) -> None:
        with self._lock:
            read = set().union(*self._runs.values())
            over = [self._layers.pop(name) for name in set(self._layers) - read]
        del over  # whoever has one of them last ends it


KEEPER = LayerKeeper()
"""The window's one."""
