# SPDX-License-Identifier: GPL-2.0-or-later
"""Ways to a figure: a click on the map, and an action of the attribute table and of what the host identifies."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsApplication, QgsVectorLayer
from qgis.gui import QgsGui, QgsMapLayerAction, QgsMapToolIdentify
from qgis.PyQt.QtCore import QObject, Qt, pyqtSignal

from ...bridge.compat import feature_triggered
from ...bridge.text import tr
from ...bridge.working_layer import has_workings

if TYPE_CHECKING:
    from qgis.core import QgsMapLayer
    from qgis.gui import QgsMapCanvas, QgsMapMouseEvent
    from qgis.PyQt.QtGui import QKeyEvent


class FigureTool(QgsMapToolIdentify):
    """Click a feature whose figures can be worked out; the uppermost is taken.

    Signals: `chosen` with the layer and the feature's number, `missed` where nothing of the kind lies, `left` when
    Escape is pressed.
    """

    chosen = pyqtSignal(object, object)
    missed = pyqtSignal()
    left = pyqtSignal()

    def __init__(self, canvas: QgsMapCanvas) -> None:
        super().__init__(canvas)
        self.setCursor(QgsApplication.getThemeCursor(QgsApplication.Cursor.Identify))

    def canvasReleaseEvent(self, event: QgsMapMouseEvent) -> None:
        """Look for a figure where the button was let go."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        layers = [layer for layer in self.canvas().layers() if has_workings(layer)]
        mode = QgsMapToolIdentify.IdentifyMode.TopDownStopAtFirst
        point = self.toCanvasCoordinates(event.mapPoint())
        found = self.identify(point.x(), point.y(), layers, mode) if layers else []
        if found:
            self.chosen.emit(found[0].mLayer, found[0].mFeature.id())
        else:
            self.missed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            event.accept()
            self.left.emit()


class _FigureAction(QgsMapLayerAction):
    """Offered for the layers whose figures can be worked out, and for no others."""

    def canRunUsingLayer(self, layer: QgsMapLayer, *_: object) -> bool:
        """Whether a layer is one; hosts since 3.30 ask with a context."""
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
