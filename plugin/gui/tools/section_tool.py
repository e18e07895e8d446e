# SPDX-License-Identifier: GPL-2.0-or-later
"""A line drawn on the map for a section: clicks that snap, Enter or the right button ends it, Escape gives it up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsPointXY,
    QgsProject,
    QgsSnappingConfig,
    QgsSnappingUtils,
    QgsWkbTypes,
)
from qgis.gui import QgsMapTool, QgsRubberBand, QgsSnapIndicator, QgsVertexMarker
from qgis.PyQt.QtCore import Qt, pyqtSignal

from ...bridge.palette import palette_colour

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsPointLocator
    from qgis.gui import QgsMapCanvas, QgsMapMouseEvent
    from qgis.PyQt.QtGui import QKeyEvent

WIDTH = 2
"""Pixels."""
TAKES_BACK = (Qt.Key.Key_Backspace, Qt.Key.Key_Delete)
"""The host deletes the features that are selected in the layer at hand where a tool accepts these: they are ignored."""
FEWEST = 2
"""Points that make a line."""


class SectionTool(QgsMapTool):
    """Signals: `drawn` with the line's points, (x, y) pairs in the CRS that the map shows; `given_up` at Escape."""

    drawn = pyqtSignal(list)
    given_up = pyqtSignal()

    def __init__(self, canvas: QgsMapCanvas) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self._points: list[tuple[float, float]] = []
        self._band = line_band(canvas)
        self._snap = QgsSnapIndicator(canvas)
        self._utils = QgsSnappingUtils(self)
        self.setCursor(Qt.CursorShape.CrossCursor)

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """What has been clicked so far."""
        return tuple(self._points)

    def canvasMoveEvent(self, event: QgsMapMouseEvent) -> None:
        here = self._snapped(event)
        if self._points:
            self._show([*self._points, here])

    def canvasReleaseEvent(self, event: QgsMapMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            here = self._snapped(event)
            # A double click is two clicks in one place: one point.
            if not self._points or self._points[-1] != here:
                self._points.append(here)
            self._show(self._points)
        elif event.button() == Qt.MouseButton.RightButton:
            self.end()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.end()
        elif event.key() == Qt.Key.Key_Escape:
            self.reset()
            self.given_up.emit()
        else:
            if event.key() in TAKES_BACK and self._points:
                self._points.pop()
                self._show(self._points)
            event.ignore()
            return
        event.accept()

    def end(self) -> None:
        """Give the line out, where it is one."""
        if len(self._points) < FEWEST:
            return
        points = list(self._points)
        self.reset()
        self.drawn.emit(points)

    def _show(self, points: Sequence[tuple[float, float]]) -> None:
        set_line(self._band, points)

    def _snapped(self, event: QgsMapMouseEvent) -> tuple[float, float]:
        """The place of the mouse, on a vertex near it: as the project snaps, or where it does not, on every layer."""
        match = self._match(event)
        self._snap.setMatch(match)
        point = match.point() if match.isValid() else event.mapPoint()
        return point.x(), point.y()

    def _match(self, event: QgsMapMouseEvent) -> QgsPointLocator.Match:
        utils = self._canvas.snappingUtils()
        if utils is None or not utils.config().enabled():
            utils = self._utils
            config = QgsSnappingConfig(QgsProject.instance())
            config.setEnabled(enabled=True)
            utils.setConfig(config)
            utils.setMapSettings(self._canvas.mapSettings())
        return utils.snapToMap(event.pixelPoint())

    def reset(self) -> None:
        """Forget what was clicked."""
        self._points.clear()
        self._band.reset(QgsWkbTypes.GeometryType.LineGeometry)
        self._snap.setVisible(False)

    def deactivate(self) -> None:
        self.reset()
        super().deactivate()

    def close_down(self) -> None:
        """Take everything off the map."""
        if self._canvas.mapTool() is self:
            self._canvas.unsetMapTool(self)
        self.reset()
        self._canvas.scene().removeItem(self._band)
        del self._snap


def line_band(canvas: QgsMapCanvas) -> QgsRubberBand:
    """A line over the map, on a white band so that it shows over a picture."""
    band = QgsRubberBand(canvas, QgsWkbTypes.GeometryType.LineGeometry)
    band.setColor(palette_colour("vermillion"))
    band.setSecondaryStrokeColor(palette_colour("white"))
    band.setWidth(WIDTH)
    return band


def set_line(band: QgsRubberBand, points: Sequence[tuple[float, float]]) -> None:
    """Have a band show a line."""
    band.reset(QgsWkbTypes.GeometryType.LineGeometry)
    for k, (x, y) in enumerate(points):
        band.addPoint(QgsPointXY(x, y), k == len(points) - 1)


def moved(
    points: Sequence[tuple[float, float]],
    start: QgsCoordinateReferenceSystem,
    end: QgsCoordinateReferenceSystem,
) -> list[tuple[float, float]]:
    """Places of one CRS in another.

    Raises:
        QgsCsException: one has no place there.
    """
    transform = QgsCoordinateTransform(start, end, QgsProject.instance())
    there = [transform.transform(QgsPointXY(x, y)) for x, y in points]
    return [(p.x(), p.y()) for p in there]


class SectionOnMap:
    """The line of the section that is shown, and the place on it that the plot points at, in the survey's CRS."""

    def __init__(self, canvas: QgsMapCanvas, crs: QgsCoordinateReferenceSystem) -> None:
        """Nothing is shown at first."""
        self._canvas = canvas
        self.crs = crs
        self.band = line_band(canvas)
        self.marker = QgsVertexMarker(canvas)
        self.marker.setIconType(QgsVertexMarker.IconType.ICON_X)
        self.marker.setColor(palette_colour("black"))
        self.marker.setFillColor(palette_colour("yellow"))
        self.marker.setIconSize(12)
        self.marker.setPenWidth(3)
        self.marker.hide()

    def to_survey(self, points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        """Places that the map shows, in the survey's CRS.

        Raises:
            QgsCsException: they have no place there.
        """
        return moved(points, self._canvas.mapSettings().destinationCrs(), self.crs)

    def show_line(self, points: Sequence[tuple[float, float]]) -> None:
        """Show a line that lies in the survey's CRS."""
        set_line(self.band, self._on_map(points))

    def show_place(self, at: tuple[float, float] | None) -> None:
        """Show a place in the survey's CRS; none for None."""
        places = [] if at is None else self._on_map([at])
        for x, y in places:
            self.marker.setCenter(QgsPointXY(x, y))
        self.marker.setVisible(bool(places))

    def _on_map(self, points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        try:
            return moved(points, self.crs, self._canvas.mapSettings().destinationCrs())
        except QgsCsException:
            return []

    def clear(self) -> None:
        """Show nothing."""
        self.band.reset(QgsWkbTypes.GeometryType.LineGeometry)
        self.marker.hide()

    def close_down(self) -> None:
        """Take both off the map."""
        for item in (self.band, self.marker):
            self._canvas.scene().removeItem(item)
