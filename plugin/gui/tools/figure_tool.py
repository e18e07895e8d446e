# SPDX-License-Identifier: GPL-2.0-or-later
"""A way to a figure: a click on the map."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsApplication
from qgis.gui import QgsMapToolIdentify
from qgis.PyQt.QtCore import Qt, pyqtSignal

from ...bridge.working_layer import has_workings

if TYPE_CHECKING:
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
