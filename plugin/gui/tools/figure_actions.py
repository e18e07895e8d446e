# SPDX-License-Identifier: GPL-2.0-or-later
"""A way to a figure from the attribute table, and from what the host identifies."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsVectorLayer
from qgis.gui import QgsGui, QgsMapLayerAction
from qgis.PyQt.QtCore import QObject, pyqtSignal

from ...bridge.compat import feature_triggered
from ...bridge.text import tr

if TYPE_CHECKING:
    from qgis.core import QgsMapLayer


class _FigureAction(QgsMapLayerAction):
    """Offered for the layers whose figures can be worked out, and for no others."""

    def canRunUsingLayer(self, layer: QgsMapLayer, *_: object) -> bool:
        """Whether a layer is one; hosts since 3.30 ask with a context."""
        from ...bridge.working_layer import has_workings

        return has_workings(layer)


class FigureActions(QObject):
    """`Show the working` in the attribute table and in what the host identifies, from `add` to `remove`.

    Signal: `chosen` with the layer and the feature's number.
    """

    chosen = pyqtSignal(object, object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._action: QgsMapLayerAction | None = None

    def add(self) -> None:
        """Offer it."""
        if self._action is None:
            target = QgsMapLayerAction.Target.SingleFeature
            self._action = _FigureAction(tr("Show the working"), self, target)
            feature_triggered(self._action).connect(self._choose)
            QgsGui.mapLayerActionRegistry().addMapLayerAction(self._action)

    def remove(self) -> None:
        """Take it back."""
        if self._action is not None:
            QgsGui.mapLayerActionRegistry().removeMapLayerAction(self._action)
            feature_triggered(self._action).disconnect(self._choose)
            self._action.deleteLater()
            self._action = None

    def _choose(self, layer: Any, feature: Any, *_: object) -> None:
        if isinstance(layer, QgsVectorLayer):
            self.chosen.emit(layer, feature.id())
