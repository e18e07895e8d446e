# SPDX-License-Identifier: GPL-2.0-or-later
"""Numbered signs on the map where something more would help."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateTransform, QgsCsException, QgsPointXY, QgsProject
from qgis.gui import QgsMapCanvas, QgsMapCanvasItem
from qgis.PyQt.QtCore import QPointF, QRectF, Qt
from qgis.PyQt.QtGui import QPainter, QPen, QPolygonF

from ...bridge.palette import palette_colour

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsCoordinateReferenceSystem

HALF = 13.0
"""Pixels from the middle of a sign to its corners."""
STEM = 14.0
"""Pixels from a sign's foot to its diamond."""


class PlanSign(QgsMapCanvasItem):
    """A diamond with a number on a stem, whose foot stands on its place: what lies there stays to be seen."""

    def __init__(self, canvas: QgsMapCanvas, text: str) -> None:
        super().__init__(canvas)
        self.text = text
        self.place = QgsPointXY()
        self.setZValue(100.0)

    def stand_at(self, place: QgsPointXY) -> None:
        """Put it on a place of the map."""
        self.place = QgsPointXY(place)
        self.updatePosition()

    def updatePosition(self) -> None:
        self.setPos(self.toCanvasCoordinates(self.place))

    def boundingRect(self) -> QRectF:
        return QRectF(-HALF - 2, -2 * HALF - STEM - 2, 2 * HALF + 4, 2 * HALF + STEM + 4)

    def paint(self, painter: QPainter, *_: Any) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(palette_colour("black"), 2))
        painter.setBrush(palette_colour("orange"))
        painter.drawLine(QPointF(0, 0), QPointF(0, -STEM))
        middle = -STEM - HALF
        corners = ((0, middle - HALF), (HALF, middle), (0, middle + HALF), (-HALF, middle))
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in corners]))
        font = painter.font()
        font.setBold(True)
        painter.setFont(font)
        painter.drawText(
            QRectF(-HALF, middle - HALF, 2 * HALF, 2 * HALF), Qt.AlignmentFlag.AlignCenter, self.text
        )


class PlanSigns:
    """The signs of one forecast on one map; `clear` leaves nothing."""

    def __init__(self, canvas: QgsMapCanvas) -> None:
        self._canvas = canvas
        self._signs: list[tuple[PlanSign, QgsPointXY]] = []
        self._crs: QgsCoordinateReferenceSystem | None = None

    def show(self, places: Sequence[tuple[str, QgsPointXY]], crs: QgsCoordinateReferenceSystem) -> None:
        """Put up signs at places in a CRS, in place of those that stand."""
        self.clear()
        self._crs = crs
        self._signs = [(PlanSign(self._canvas, text), QgsPointXY(at)) for text, at in places]
        self._canvas.destinationCrsChanged.connect(self._stand)
        self._stand()

    def _stand(self) -> None:
        there = self._canvas.mapSettings().destinationCrs()
        way = None
        if self._crs is not None and self._crs.isValid() and there.isValid() and self._crs != there:
            way = QgsCoordinateTransform(self._crs, there, QgsProject.instance())
        for sign, at in self._signs:
            try:
                sign.stand_at(at if way is None else way.transform(at))
                sign.show()
            except QgsCsException:  # outside what the map's CRS can show
                sign.hide()

    def clear(self) -> None:
        """Take all down."""
        if self._crs is not None:
            self._canvas.destinationCrsChanged.disconnect(self._stand)
        for sign, _ in self._signs:
            self._canvas.scene().removeItem(sign)
        self._signs, self._crs = [], None
