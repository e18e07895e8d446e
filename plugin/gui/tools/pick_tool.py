# SPDX-License-Identifier: GPL-2.0-or-later
"""The map tool that picks a mark's place on the picture, with the mouse or key by key."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsPointXY
from qgis.gui import QgsMapTool, QgsSnapIndicator
from qgis.PyQt.QtCore import Qt, pyqtSignal

if TYPE_CHECKING:
    from qgis.gui import QgsMapCanvas, QgsMapMouseEvent
    from qgis.PyQt.QtGui import QKeyEvent

STEPS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, 1.0),
    Qt.Key.Key_Down: (0.0, -1.0),
}
"""Where the arrow keys move the place that is aimed at."""
FINE = 0.25
"""Of a pixel of the map: what a key with Shift moves by."""
PICKS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class PickTool(QgsMapTool):
    """A left click picks, on a vertex near it where the project snaps; arrow keys move the aim by a pixel (with Shift
    by a quarter), Enter picks there, Escape leaves.

    Signals: `aimed` and `picked` with x and y in the map's CRS, `left`.
    """

    aimed = pyqtSignal(float, float)
    picked = pyqtSignal(float, float)
    left = pyqtSignal()

    def __init__(self, canvas: QgsMapCanvas) -> None:
        super().__init__(canvas)
        self._snap: QgsSnapIndicator | None = None
        self._at: tuple[float, float] | None = None
        self.setCursor(Qt.CursorShape.CrossCursor)

    def activate(self) -> None:
        super().activate()
        self._snap = QgsSnapIndicator(self.canvas())
        self.canvas().setFocus()

    def deactivate(self) -> None:
        self._snap = self._at = None
        super().deactivate()

    def aim_at(self, x: float, y: float) -> None:
        """Aim at a place."""
        self._at = (x, y)
        self.aimed.emit(x, y)

    def canvasMoveEvent(self, event: QgsMapMouseEvent) -> None:
        self.aim_at(*self._place(event))

    def canvasReleaseEvent(self, event: QgsMapMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            x, y = self._place(event)
            self.aim_at(x, y)
            self.picked.emit(x, y)

    def _place(self, event: QgsMapMouseEvent) -> tuple[float, float]:
        at = QgsPointXY(event.mapPoint())
        match = self.canvas().snappingUtils().snapToMap(at)
        if self._snap is not None:
            self._snap.setMatch(match)
        place = match.point() if match.isValid() else at
        return place.x(), place.y()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in STEPS:
            size = self.canvas().mapUnitsPerPixel()
            if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                size *= FINE
            x, y = self._at or (self.canvas().center().x(), self.canvas().center().y())
            dx, dy = STEPS[key]
            self.aim_at(x + size * dx, y + size * dy)
        elif key in PICKS and self._at is not None:
            self.picked.emit(*self._at)
        elif key == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            event.ignore()
            return
        event.accept()
