# SPDX-License-Identifier: GPL-2.0-or-later
"""The project's layers that a run reads: found in the host's own thread, and kept until the run is over.

A run works in a thread of its own, and the host does not guard its project there. Two things ended QGIS 3.22 (seen):
looking a layer up by its id makes the project forget its expression scope, which the map may just be building; and a layer
that the user takes away is deleted at once, under the run that reads it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from weakref import WeakSet

from qgis.core import (
    QgsApplication,
    QgsMapLayer,
    QgsProcessingFeatureSourceDefinition,
    QgsProcessingUtils,
    QgsProject,
    QgsProperty,
)
from qgis.PyQt import sip
from qgis.PyQt.QtCore import QObject

if TYPE_CHECKING:
    from collections.abc import Iterable

    from qgis.core import QgsProcessingContext

LAYER_TYPES = frozenset({"source", "vector", "raster", "mesh", "layer", "maplayer", "multilayer"})
"""The host's names of the parameters that are layers."""
PROJECT_CRS = "ProjectCrs"
"""The host's word for it."""


def layers_found(
    parameters: dict[str, object], types: dict[str, str], context: QgsProcessingContext
) -> dict[str, object]:
    """Parameters with each layer of the project, and its CRS, in place of their names; what names none stays as it is.
    Of some rows of a layer only the layer is found. To be called in the thread of the project.

    Args:
        parameters: by name, as the host was given them.
        types: by name, the host's name of the parameter's type.
        context: of the run.
    """
    found = dict(parameters)
    for name, value in parameters.items():
        if types.get(name) in LAYER_TYPES:
            found[name] = _with_layers(value, context)
        elif types.get(name) == "crs" and isinstance(value, str):
            found[name] = _crs_of(value, context)
    return found


def _crs_of(text: str, context: QgsProcessingContext) -> object:
    """The CRS of the project or of one of its layers; another text stays."""
    if text == PROJECT_CRS:
        return context.project().crs() if context.project() else text
    layer = QgsProcessingUtils.mapLayerFromString(text, context, allowLoadingNewLayers=False)
    return text if layer is None else layer.crs()


def _with_layers(value: object, context: QgsProcessingContext) -> object:
    if isinstance(value, str):
        return QgsProcessingUtils.mapLayerFromString(value, context, allowLoadingNewLayers=False) or value
    if isinstance(value, (list, tuple)):
        return [_with_layers(part, context) for part in value]
    if isinstance(value, QgsProperty) and value.propertyType() == QgsProperty.Type.StaticProperty:
        return _with_layers(value.staticValue(), context)
    if isinstance(value, QgsProcessingFeatureSourceDefinition):
        layer = _with_layers(value.source, context)
        return layer if isinstance(layer, QgsMapLayer) else value
    return value


class LayerKeeper(QObject):
    """Keeps layers that are taken out of the project while runs are on, and deletes them after the last."""

    def __init__(self) -> None:
        """Keep nothing, and know no project yet."""
        super().__init__()
        self._runs: WeakSet[object] = WeakSet()
        self._layers: list[QgsMapLayer] = []
        self._project: QgsProject | None = None

    def begin(self, run: object) -> None:
        """A run is about to start; one that never starts counts until nobody knows it any more."""
        if self._project is None:
            self.moveToThread(QgsApplication.instance().thread())
            self._project = QgsProject.instance()
            self._project.layerWillBeRemoved[QgsMapLayer].connect(self._keep)
        self._runs.add(run)

    def end(self, run: object) -> None:
        """A run is over, from whichever thread."""
        self._runs.discard(run)
        if not self._runs:
            self._let_go()

    def close_down(self) -> None:
        """Let go of the project."""
        if self._project is not None:
            self._project.layerWillBeRemoved[QgsMapLayer].disconnect(self._keep)
            self._project = None
        self._let_go()

    def _keep(self, layer: QgsMapLayer) -> None:
        if self._runs:
            layer.setParent(None)  # the project deletes what is its child
            sip.transferto(layer, None)  # and Python what is its own, in any thread
            self._layers.append(layer)

    def _let_go(self) -> None:
        layers, self._layers = self._layers, []
        for layer in _alive(layers):
            layer.deleteLater()  # in its own thread


def _alive(layers: Iterable[QgsMapLayer]) -> list[QgsMapLayer]:
    return [layer for layer in layers if not sip.isdeleted(layer)]


KEEPER = LayerKeeper()
"""The window's one."""
