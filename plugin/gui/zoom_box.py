# SPDX-License-Identifier: GPL-2.0-or-later
"""A small map beside the large one, magnified, with a crosshair on the place that is aimed at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsPointXY, QgsRectangle
from qgis.gui import QgsMapCanvas
from qgis.PyQt.QtCore import QPoint, Qt, QTimer, pyqtSignal
from qgis.PyQt.QtGui import QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from qgis.PyQt.QtWidgets import QVBoxLayout, QWidget

from ..bridge.compat import pixel_of
from ..bridge.palette import palette_colour

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsMapLayer

TIMES = 6.0
"""As large as on the map."""
HEIGHT = 130
"""Pixels."""
GAP = 5
"""Pixels about the middle that the crosshair leaves free, so that the place itself is seen."""
WAIT = 60
"""Milliseconds without a move after which the box is drawn again."""


class ZoomBox(QWidget):
    """Signals: `picked` with x and y in the map's CRS, of a click in the box."""

    picked = pyqtSignal(float, float)

    def __init__(self, canvas: QgsMapCanvas) -> None:
        super().__init__()
        self._canvas = canvas
        self._at: QgsPointXY | None = None
        self.map = QgsMapCanvas(self)
        self.map.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.map.setObjectName("GroundTallyZoomBox")
        self.map.enableAntiAliasing(flag=True)
        self.map.setMinimumSize(1, 1)
        self.setFixedHeight(HEIGHT)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.map)
        self._cross = _Crosshair(self)
        self._cross.clicked.connect(self._pick)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(WAIT)
        self._timer.timeout.connect(self._draw)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The crosshair covers all of it."""
        super().resizeEvent(event)
        self._cross.setGeometry(self.rect())
        self._cross.raise_()

    def show_layers(self, layers: Sequence[QgsMapLayer]) -> None:
        """What is drawn in it."""
        self.map.setDestinationCrs(self._canvas.mapSettings().destinationCrs())
        self.map.setLayers(list(layers))

    def aim_at(self, x: float, y: float) -> None:
        """Show the ground about a place of the large map."""
        self._at = QgsPointXY(x, y)
        self._timer.start()

    def about(self, x: float, y: float) -> QgsRectangle:
        """What the box shows about a place."""
        size = self._canvas.mapUnitsPerPixel() / TIMES
        half_x, half_y = 0.5 * size * self.width(), 0.5 * size * self.height()
        return QgsRectangle(x - half_x, y - half_y, x + half_x, y + half_y)

    def _draw(self) -> None:
        if self._at is not None and self.isVisible():
            self.map.setDestinationCrs(self._canvas.mapSettings().destinationCrs())
            self.map.setExtent(self.about(self._at.x(), self._at.y()))
            self.map.refresh()

    def _pick(self, at: QPoint) -> None:
        if self._at is not None:
            place = self.map.getCoordinateTransform().toMapCoordinates(at.x(), at.y())
            self.picked.emit(place.x(), place.y())


class _Crosshair(QWidget):
    """Two lines on a white edge over the whole box, which show over any picture; `clicked` with the pixel."""

    clicked = pyqtSignal(QPoint)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setCursor(Qt.CursorShape.CrossCursor)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        x, y = self.width() // 2, self.height() // 2
        lines = (
            (0, y, x - GAP, y),
            (x + GAP, y, self.width(), y),
            (x, 0, x, y - GAP),
            (x, y + GAP, x, self.height()),
        )
        for colour, width in ((palette_colour("white"), 3), (palette_colour("black"), 1)):
            painter.setPen(QPen(colour, width))
            for line in lines:
                painter.drawLine(*line)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self.clicked.emit(pixel_of(event))
