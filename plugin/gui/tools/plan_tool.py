# SPDX-License-Identifier: GPL-2.0-or-later
"""The map tools that draw a plan: a walk station by station, and marks."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateTransform,
    QgsCsException,
    QgsPointXY,
    QgsProject,
    QgsRectangle,
    QgsWkbTypes,
)
from qgis.gui import QgsMapCanvas, QgsMapTool, QgsRubberBand, QgsSnapIndicator, QgsVertexMarker
from qgis.PyQt.QtCore import Qt, pyqtSignal

from ...bridge.palette import palette_colour
from ...bridge.plan_layers import Seen
from ...bridge.text import tr

if TYPE_CHECKING:
    from qgis.core import QgsCoordinateReferenceSystem
    from qgis.gui import QgsMapMouseEvent
    from qgis.PyQt.QtGui import QKeyEvent

NEAR = 10
"""Pixels within which a click means the mark, or the first station."""
SAME = 1.5
"""Pixels within which two clicks are one: the second of a double click is no station."""
AREA_STATIONS, LINE_STATIONS = 3, 2
"""The fewest stations of an outline, and of a line."""
ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
TAKES_BACK = (Qt.Key.Key_Backspace, Qt.Key.Key_Delete)
"""The host deletes the features that are selected in the layer at hand where a tool accepts these: they are ignored."""
Near = Callable[[QgsRectangle], "list[Seen]"]
"""The marks inside a rectangle of the map."""


class PlanTool(QgsMapTool):
    """What both tools share: a click is moved onto a mark that is near, else as the project's snapping has it.

    Signals: `told` with a hint for the user, `left` when Escape is pressed with nothing drawn.
    """

    told = pyqtSignal(str)
    left = pyqtSignal()

    def __init__(self, canvas: QgsMapCanvas, near: Near) -> None:
        super().__init__(canvas)
        self._near = near
        self._snap: QgsSnapIndicator | None = None
        self._box: QgsVertexMarker | None = None
        self.setCursor(Qt.CursorShape.CrossCursor)

    def activate(self) -> None:
        super().activate()
        self._snap = QgsSnapIndicator(self.canvas())
        self._box = QgsVertexMarker(self.canvas())
        self._box.setIconType(QgsVertexMarker.IconType.ICON_BOX)
        self._box.setIconSize(2 * NEAR)
        self._box.setPenWidth(3)
        self._box.setColor(palette_colour("vermillion"))
        self._box.hide()
        self.canvas().setFocus()

    def deactivate(self) -> None:
        """Leave nothing on the map."""
        if self._box is not None:
            self.canvas().scene().removeItem(self._box)
        self._snap = self._box = None
        super().deactivate()

    def fixed(self) -> list[Seen]:
        """Places beside the marks that a click may mean."""
        return []

    def aim(self, event: QgsMapMouseEvent) -> Seen:
        """Where a click would go, and the mark there ("" for none), shown on the map."""
        at = QgsPointXY(event.mapPoint())
        reach = NEAR * self.canvas().mapUnitsPerPixel()
        about = QgsRectangle(at.x() - reach, at.y() - reach, at.x() + reach, at.y() + reach)
        seen = [one for one in (*self._near(about), *self.fixed()) if one.at.distance(at) <= reach]
        match = self.canvas().snappingUtils().snapToMap(at)
        if seen:
            best = min(seen, key=lambda one: one.at.distance(at))
        else:
            best = Seen("", QgsPointXY(match.point()) if match.isValid() else at)
        self._show(best if seen else None)
        if self._snap is not None:
            self._snap.setMatch(match)
            self._snap.setVisible(not seen and match.isValid())
        return best

    def _show(self, place: Seen | None) -> None:
        if self._box is None:
            return
        self._box.setVisible(place is not None)
        if place is not None:
            self._box.setCenter(place.at)

    def canvasMoveEvent(self, event: QgsMapMouseEvent) -> None:
        self.aim(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            event.accept()
            self.left.emit()
        else:
            event.ignore()


class WalkTool(PlanTool):
    """Draws one line after the other: a left click adds a station, Backspace takes the last one back, a right click or
    Enter ends, Escape gives up. An outline also ends with a click on its first station.

    Signals: `drawn` with the stations (points in the map's CRS; of an outline the last is the first again).
    """

    drawn = pyqtSignal(list)

    def __init__(self, canvas: QgsMapCanvas, near: Near) -> None:
        super().__init__(canvas, near)
        self.is_outline = False
        self._points: list[QgsPointXY] = []
        self._marks: list[str] = []
        self._crs: QgsCoordinateReferenceSystem = canvas.mapSettings().destinationCrs()
        self._bands: list[QgsRubberBand] = []

    @property
    def points(self) -> tuple[QgsPointXY, ...]:
        """The stations so far."""
        return tuple(self._points)

    def activate(self) -> None:
        super().activate()
        for kind, style in ((0, Qt.PenStyle.SolidLine), (1, Qt.PenStyle.DotLine), (2, Qt.PenStyle.SolidLine)):
            self._bands.append(self._band(is_stations=kind == 2, style=style))  # noqa: PLR2004 - the third
        self.canvas().destinationCrsChanged.connect(self._reproject)
        self._reproject()
        self._draw()
        self.told.emit(self.hint())

    def _band(self, *, is_stations: bool, style: Qt.PenStyle) -> QgsRubberBand:
        kinds = QgsWkbTypes.GeometryType
        band = QgsRubberBand(self.canvas(), kinds.PointGeometry if is_stations else kinds.LineGeometry)
        band.setColor(palette_colour("blue"))
        band.setWidth(2)
        band.setLineStyle(style)
        if is_stations:
            band.setIcon(QgsRubberBand.IconType.ICON_CIRCLE)
            band.setIconSize(9)
        return band

    def deactivate(self) -> None:
        """What was drawn waits for the tool to be taken up again; the map is left clean."""
        if self._bands:
            self.canvas().destinationCrsChanged.disconnect(self._reproject)
        for band in self._bands:
            self.canvas().scene().removeItem(band)
        self._bands.clear()
        super().deactivate()

    def give_up(self) -> None:
        """Forget the line."""
        self._points.clear()
        self._marks.clear()
        self._draw()

    def hint(self) -> str:
        """What to do next."""
        if not self._points:
            return tr("Click the first station. A click near a mark stands on it.")
        mark = self._marks[-1]
        here = tr("Station {n} on mark {mark}.") if mark else tr("Station {n}.")
        ways = tr("Right click or Enter ends, Backspace takes it back, Escape gives the line up.")
        return f"{here.format(n=len(self._points), mark=mark)} {ways}"

    def fixed(self) -> list[Seen]:
        return [Seen("", self._points[0])] if self._can_close() else []

    def _can_close(self) -> bool:
        return self.is_outline and len(self._points) >= AREA_STATIONS

    def canvasMoveEvent(self, event: QgsMapMouseEvent) -> None:
        self._draw(self.aim(event).at)

    def canvasReleaseEvent(self, event: QgsMapMouseEvent) -> None:
        if event.button() == Qt.MouseButton.RightButton:
            self.end()
        elif event.button() == Qt.MouseButton.LeftButton:
            self._add(self.aim(event))

    def _add(self, place: Seen) -> None:
        near = SAME * self.canvas().mapUnitsPerPixel()
        if self._points and self._points[-1].distance(place.at) <= near:
            return
        if self._can_close() and self._points[0].distance(place.at) <= near:
            self.end()
            return
        self._points.append(place.at)
        self._marks.append(place.name)
        self._draw()
        self.told.emit(self.hint())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in ENDS:
            self.end()
        elif key in TAKES_BACK:
            self._take_back()
            event.ignore()
            return
        elif key == Qt.Key.Key_Escape and self._points:
            self.give_up()
            self.told.emit(tr("The line was given up.") + " " + self.hint())
        else:
            super().keyPressEvent(event)
            return
        event.accept()

    def _take_back(self) -> None:
        if self._points:
            self._points.pop()
            self._marks.pop()
            self._draw()
        self.told.emit(self.hint())

    def end(self) -> None:
        """Hand the line over, where it has stations enough."""
        least = AREA_STATIONS if self.is_outline else LINE_STATIONS
        if len(self._points) < least:
            words = tr("It needs {n} stations at least. {hint}").format(n=least, hint=self.hint())
            self.told.emit(words)
            return
        points = self.ring()
        self.give_up()
        self.drawn.emit(points)

    def ring(self) -> list[QgsPointXY]:
        """The stations as they will be walked: of an outline back to the first."""
        points = list(self._points)
        if self.is_outline and points and points[-1] != points[0]:
            points.append(QgsPointXY(points[0]))
        return points

    def _draw(self, aimed: QgsPointXY | None = None) -> None:
        """The stations and the way between them, and dotted the next leg and (of an outline) the way back."""
        if not self._bands:
            return
        walked, ahead, stations = self._bands
        kinds = QgsWkbTypes.GeometryType
        for band, kind in zip(self._bands, (kinds.LineGeometry, kinds.LineGeometry, kinds.PointGeometry)):
            band.reset(kind)
        for point in self._points:
            walked.addPoint(point)
            stations.addPoint(point)
        if self._points and aimed is not None:
            back = [self._points[0]] if self.is_outline and len(self._points) > 1 else []
            for point in (self._points[-1], aimed, *back):
                ahead.addPoint(point)

    def _reproject(self) -> None:
        """Keep the stations where they are on the ground when the map changes its CRS."""
        crs = self.canvas().mapSettings().destinationCrs()
        if self._points and crs.isValid() and self._crs.isValid() and crs != self._crs:
            way = QgsCoordinateTransform(self._crs, crs, QgsProject.instance())
            try:
                self._points = [way.transform(point) for point in self._points]
            except QgsCsException:
                self.give_up()
        self._crs = crs
        self._draw()


class MarkTool(PlanTool):
    """Sets marks: each left click one; a right click, Enter or Escape ends; Backspace takes the last one back.

    Signals: `placed` with the place in the map's CRS, `taken_back`.
    """

    placed = pyqtSignal(object)
    taken_back = pyqtSignal()

    def activate(self) -> None:
        super().activate()
        self.told.emit(tr("Click where the mark is. Right click or Enter ends, Backspace takes it back."))

    def canvasReleaseEvent(self, event: QgsMapMouseEvent) -> None:
        if event.button() == Qt.MouseButton.RightButton:
            self.left.emit()
            return
        if event.button() != Qt.MouseButton.LeftButton:
            return
        place = self.aim(event)
        if place.name:
            self.told.emit(tr("Mark {mark} is there already.").format(mark=place.name))
        else:
            self.placed.emit(place.at)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENDS:
            self.left.emit()
        elif event.key() in TAKES_BACK:
            self.taken_back.emit()
            event.ignore()
            return
        else:
            super().keyPressEvent(event)
            return
        event.accept()
