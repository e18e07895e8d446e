# SPDX-License-Identifier: GPL-2.0-or-later
"""A sketch of points: to equal scale, north up, the first ones with their numbers."""

from __future__ import annotations

from qgis.PyQt.QtCore import QPointF, QRectF, QSize, Qt
from qgis.PyQt.QtGui import QPainter, QPaintEvent, QPalette, QPen, QPolygonF
from qgis.PyQt.QtWidgets import QSizePolicy, QWidget

from ...bridge.lists import Sketch, SketchPoint
from ...bridge.palette import palette_colour
from ...bridge.text import tr

MARGIN = 20.0
"""Pixels free at the edges: room for the numbers."""
DOT, FIRST = 2.5, 4.5
"""Pixels: half the size of a point, and of the first one, which is a square."""
GAP = 3.0
ARROW = 22.0


class SketchView(QWidget):
    """Paints a sketch; it asks where each point comes to lie whenever its size changes."""

    def __init__(self) -> None:
        super().__init__()
        self.sketch = Sketch()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(110)
        self.setAccessibleName(tr("Sketch of the points, north up"))

    def sizeHint(self) -> QSize:
        return QSize(300, 200)

    def show_sketch(self, sketch: Sketch) -> None:
        """Other points."""
        self.sketch = sketch
        self.update()

    def points(self) -> tuple[SketchPoint, ...]:
        """The points where they are painted."""
        return self.sketch.placed(self.width(), self.height(), MARGIN)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        text = self.palette().color(QPalette.ColorRole.Text)
        painter.fillRect(self.rect(), self.palette().color(QPalette.ColorRole.Base))
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Mid), 1))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        points = self.points()
        self._paint_points(painter, points)
        painter.setPen(text)
        taken = self._paint_north(painter)
        self._paint_names(painter, points, taken)
        painter.end()

    def _paint_points(self, painter: QPainter, points: tuple[SketchPoint, ...]) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(palette_colour("blue"))
        for point in points[1:]:
            painter.drawEllipse(QPointF(point.x, point.y), DOT, DOT)
        painter.setBrush(palette_colour("vermillion"))
        for point in points[:1]:
            painter.drawRect(_about(QPointF(point.x, point.y), FIRST))

    def _paint_north(self, painter: QPainter) -> list[QRectF]:
        """The arrow in the upper right corner; gives back the room that it takes."""
        head = QPointF(self.width() - GAP - ARROW / 2, GAP + 1)
        foot = head + QPointF(0, ARROW)
        painter.drawLine(head, foot)
        painter.setBrush(painter.pen().color())
        painter.drawPolygon(QPolygonF([head, head + QPointF(-3, 7), head + QPointF(3, 7)]))
        letter = QRectF(foot.x() - ARROW / 2, foot.y(), ARROW, painter.fontMetrics().height())
        painter.drawText(letter, Qt.AlignmentFlag.AlignCenter, tr("N"))
        return [letter.united(_about(head, ARROW / 2))]

    def _paint_names(self, painter: QPainter, points: tuple[SketchPoint, ...], taken: list[QRectF]) -> None:
        """The numbers beside their points; one that would lie on another is left out."""
        metrics = painter.fontMetrics()
        for point in points:
            name = metrics.elidedText(point.name, Qt.TextElideMode.ElideRight, self.width() // 3)
            size = QRectF(0, 0, metrics.horizontalAdvance(name), metrics.height())
            size.moveTopLeft(QPointF(point.x + FIRST + GAP, point.y - metrics.height() / 2))
            if size.right() > self.width() - GAP:
                size.moveRight(point.x - FIRST - GAP)
            if name and not any(size.intersects(other) for other in taken):
                painter.drawText(size, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, name)
                taken.append(size)


def _about(point: QPointF, half: float) -> QRectF:
    return QRectF(point.x() - half, point.y() - half, 2 * half, 2 * half)
