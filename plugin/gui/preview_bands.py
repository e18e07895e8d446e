# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey on trial, drawn over the map: its outlines, its marks beside their picks, its ellipses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsGeometry,
    QgsPointXY,
    QgsProject,
    QgsWkbTypes,
)
from qgis.gui import QgsMapCanvas, QgsMapCanvasItem, QgsRubberBand
from qgis.PyQt.QtCore import QPointF, QRectF, Qt
from qgis.PyQt.QtGui import QPainter, QPainterPath, QPen

from ..bridge.palette import palette_colour

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from typing import Any

    from ..bridge.pairs import Pairs
    from ..bridge.preview import Preview

REACH = 9.0
"""Pixels from a pick to the ends of its sign."""
NAME = 90.0
"""Pixels that a sign's name may take."""
KINDS = QgsWkbTypes.GeometryType


class PickSign(QgsMapCanvasItem):
    """A pick on the map with its mark's name: a cross for a pair of the fit, a square about a point for a check."""

    def __init__(self, canvas: QgsMapCanvas, name: str, *, is_check: bool) -> None:
        super().__init__(canvas)
        self.name, self.is_check = name, is_check
        self.place = QgsPointXY()
        self.setZValue(110.0)

    def stand_at(self, place: QgsPointXY) -> None:
        """Put it on a place of the map."""
        self.place = QgsPointXY(place)
        self.updatePosition()

    def updatePosition(self) -> None:
        self.setPos(self.toCanvasCoordinates(self.place))

    def boundingRect(self) -> QRectF:
        return QRectF(-REACH - 3, -REACH - 16, 2 * REACH + NAME, 2 * REACH + 20)

    def paint(self, painter: QPainter, *_: Any) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = painter.font()
        font.setBold(True)
        text = QPainterPath()
        text.addText(REACH + 2, -REACH + 2, font, self.name)
        for colour, width in ((palette_colour("white"), 4.0), (palette_colour("black"), 1.6)):
            painter.setPen(QPen(colour, width))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            if self.is_check:
                painter.drawRect(QRectF(-REACH + 2, -REACH + 2, 2 * REACH - 4, 2 * REACH - 4))
                painter.drawPoint(QPointF(0, 0))
            else:
                painter.drawLine(QPointF(-REACH, 0), QPointF(REACH, 0))
                painter.drawLine(QPointF(0, -REACH), QPointF(0, REACH))
        painter.strokePath(text, QPen(palette_colour("white"), 4.0))
        painter.fillPath(text, palette_colour("black"))


class PreviewBands:
    """What is drawn of one job's pairs and trials; `clear` leaves nothing."""

    def __init__(self, canvas: QgsMapCanvas) -> None:
        self._canvas = canvas
        self.signs: list[PickSign] = []
        self.bands: list[QgsRubberBand] = []

    def show_picks(self, pairs: Pairs, crs: QgsCoordinateReferenceSystem) -> None:
        """The picks, in the CRS of the pairs."""
        self._remove(self.signs)
        there = self._canvas.mapSettings().destinationCrs()
        way = QgsCoordinateTransform(crs, there, QgsProject.instance())
        for pick in pairs.picks:
            sign = PickSign(self._canvas, pick.mark, is_check=pick.is_check)
            try:
                sign.stand_at(way.transform(QgsPointXY(pick.x, pick.y)))
            except QgsCsException:  # outside what the map's CRS can show
                sign.hide()
            self.signs.append(sign)

    def show_trials(self, trials: Mapping[int, Preview], chosen: int) -> None:
        """Trials by their number over the map: the first one solid, the second dashed; the chosen one bolder, on top, and
        with its ellipses."""
        self._remove(self.bands)
        order = sorted(trials, key=lambda k: k == chosen)
        for k in order:
            trial, is_chosen = trials[k], k == chosen
            colour = "vermillion" if k == 0 else "blue"
            style = Qt.PenStyle.SolidLine if k == 0 else Qt.PenStyle.DashLine
            outlines = _as_lines(trial.outlines)
            self._draw(outlines, trial.crs, "white", 4 if is_chosen else 3, Qt.PenStyle.SolidLine)
            self._draw(outlines, trial.crs, colour, 2 if is_chosen else 1, style)
            if is_chosen:
                self._draw(_as_lines(trial.ellipses), trial.crs, "black", 1, Qt.PenStyle.DotLine)

    def _draw(
        self,
        geometries: Iterable[QgsGeometry],
        crs: QgsCoordinateReferenceSystem,
        colour: str,
        width: int,
        style: Qt.PenStyle,
    ) -> None:
        band = QgsRubberBand(self._canvas, KINDS.LineGeometry)
        band.setColor(palette_colour(colour))
        band.setWidth(width)
        band.setLineStyle(style)
        for geometry in geometries:
            band.addGeometry(geometry, crs)
        self.bands.append(band)

    def clear(self) -> None:
        """Take everything off the map."""
        self._remove(self.signs)
        self._remove(self.bands)

    def _remove(self, items: list[Any]) -> None:
        for item in items:
            self._canvas.scene().removeItem(item)
        items.clear()


def _as_lines(geometries: Iterable[QgsGeometry]) -> list[QgsGeometry]:
    """Outlines as lines of straights, as fine as a map shows them."""
    out = []
    for geometry in geometries:
        line = QgsGeometry(geometry)
        line.convertToStraightSegment()
        kind = QgsWkbTypes.geometryType(line.wkbType())
        out.append(line if kind == KINDS.LineGeometry else line.convertToType(KINDS.LineGeometry, True))  # noqa: FBT003 - Qt's own
    return [line for line in out if not line.isNull()]
