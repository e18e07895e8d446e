# SPDX-License-Identifier: GPL-2.0-or-later
"""The working of one figure: the formula with its numbers, what its uncertainty is made of, the stations behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsGeometry,
    QgsPointXY,
    QgsProject,
    QgsVectorLayer,
)
from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QSplitter,
    QTableWidget,
    QTableWidgetItem,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from ...bridge.text import explain, tr
from ...bridge.working import (
    Working,
    as_text,
    figures_of,
    read_working,
    share_text,
    station_cells,
    survey_frame,
    survey_table,
)
from ...bridge.working_layer import layer_figures, read_layer_working
from ...core.errors import GroundTallyError
from ..share_bar import SHARE, ShareBar
from ..tools.figure_tool import FigureTool

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

NEAR = 5.0
"""Units of the map that are shown about a station: near enough to see which corner it is."""
LARGE = 1.4
"""The figure's letters by the others'."""
PLACE = Qt.ItemDataRole.UserRole


class WorkingPage(QWidget):
    """Shows the working of a figure of a survey or of a measured layer; it is asked by a click on the map, or from a
    table.

    Signals: `shown` when a figure was chosen by a click or from a table, so that the page can be brought to the front.
    """

    shown = pyqtSignal()

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._iface = iface
        self._working: Working | None = None
        self._read: Callable[[str], Working] | None = None
        self._crs = QgsCoordinateReferenceSystem()
        self.title, self.figure, self.warning = QLabel(), QLabel(), QLabel()
        self.choice = QComboBox()
        self.choice.currentIndexChanged.connect(lambda _: self._show_choice())
        self.formula = QPlainTextEdit()
        self.split, self.tabs, self.rest = QSplitter(Qt.Orientation.Vertical), QTabWidget(), QWidget()
        self.parts, self.stations = QTableWidget(0, 2), QTableWidget(0, 5)
        self.copy, self.pick = QPushButton(tr("&Copy")), QPushButton(tr("&Point at the map"))
        self.tool: FigureTool | None = None
        self._build()
        self._connect()
        self.clear()

    def _build(self) -> None:
        letters = self.figure.font()
        letters.setPointSizeF(LARGE * letters.pointSizeF())
        letters.setBold(True)
        self.figure.setFont(letters)
        for label in (self.title, self.figure, self.warning):
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.formula.setReadOnly(True)
        self.formula.setTabChangesFocus(True)
        self.formula.setAccessibleName(tr("Formula with its numbers"))
        _set_table(self.parts, (tr("Made of"), tr("95 %, share")), wide=0)
        _set_table(self.stations, (tr("Station"), tr("x, m"), tr("y, m"), tr("z, m"), tr("95 %, m")), wide=0)
        self.parts.setItemDelegateForColumn(1, ShareBar(self.parts))
        self.pick.setCheckable(True)
        self.pick.setToolTip(tr("Then click an area, a length, a side, a station or a mark on the map."))
        self.copy.setToolTip(tr("The whole working as plain text, to be pasted into a letter."))
        self.stations.setToolTip(tr("Double click, or Enter: show the station on the map."))
        self.split.setChildrenCollapsible(False)
        self.tabs.addTab(self.formula, tr("&Formula"))
        self.tabs.addTab(self.stations, tr("&Stations behind it"))
        self.split.addWidget(self.tabs)
        self.split.addWidget(self.parts)
        for k, weight in enumerate((3, 2)):
            self.split.setStretchFactor(k, weight)
        buttons = QHBoxLayout()
        buttons.addWidget(self.pick, 1)
        buttons.addWidget(self.copy)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(self.choice)
        rows.addLayout(head)
        for widget in (self.figure, self.warning):
            rows.addWidget(widget)
        rows.addWidget(self.split, 1)
        rows.addWidget(self.rest, 1)
        rows.addLayout(buttons)

    def _connect(self) -> None:
        self.copy.clicked.connect(self.copy_text)
        self.pick.toggled.connect(self._point)
        self.stations.itemActivated.connect(lambda item: self.zoom_to(item.row()))
        self.stations.itemDoubleClicked.connect(lambda item: self.zoom_to(item.row()))

    def clear(self) -> None:
        """Nothing is shown yet: say how to begin."""
        self._read = None
        self._fill_choice(())
        self.title.setText(
            tr(
                "Point at the map, or open a table and choose Show the working for a row: the formula of its figure stands "
                "here, and the stations it rests on."
            )
        )
        self._show(None)

    def show_figure(self, survey: Path, table: str, row: int, column: str = "") -> None:
        """The working of a row of a survey's table (`row` is its fid); of its main figure unless a column is named."""
        self._crs = survey_frame(survey)
        self._begin(
            lambda: figures_of(survey, table, row),
            lambda wanted: read_working(survey, table, row, wanted),
            column,
        )

    def show_feature(self, layer: QgsVectorLayer, row: int, column: str = "") -> None:
        """The working of a feature of a survey's layer, or of any layer that was measured."""
        found = survey_table(layer)
        if found is not None:
            self.show_figure(*found, row, column)
            return
        self._crs = layer.crs()
        self._begin(
            lambda: layer_figures(layer), lambda wanted: read_layer_working(layer, row, wanted), column
        )

    def _begin(
        self,
        figures: Callable[[], tuple[tuple[str, str], ...]],
        read: Callable[[str], Working],
        column: str,
    ) -> None:
        try:
            there = figures()
        except GroundTallyError as error:
            self._refuse(error)
            return
        self._read = read
        self._fill_choice(there, column)
        self._show_choice()

    def _fill_choice(self, figures: tuple[tuple[str, str], ...], column: str = "") -> None:
        self.choice.blockSignals(True)  # noqa: FBT003
        self.choice.clear()
        for name, words in figures:
            self.choice.addItem(words, name)
        self.choice.setCurrentIndex(max(self.choice.findData(column), 0) if figures else -1)
        self.choice.setVisible(bool(figures))
        self.choice.blockSignals(False)  # noqa: FBT003

    def _show_choice(self) -> None:
        if self._read is None or self.choice.currentIndex() < 0:
            return
        try:
            self._show(self._read(self.choice.currentData()))
        except GroundTallyError as error:
            self._refuse(error)

    def _refuse(self, error: GroundTallyError) -> None:
        self.clear()
        self.title.setText(explain(error))

    def _show(self, working: Working | None) -> None:
        self._working = working
        lines = () if working is None else (*working.lines, "", *working.notes)
        if working is not None:
            self.title.setText(working.name)
        self.split.setVisible(working is not None)
        self.rest.setVisible(working is None)
        self.figure.setText("" if working is None else working.figure)
        self.figure.setVisible(working is not None)
        self.warning.setText("" if working is None else _warning(working))
        self.warning.setVisible(bool(self.warning.text()))
        self.formula.setPlainText("\n".join(lines).strip())
        self._fill_parts(working)
        self._fill_stations(working)
        self.copy.setEnabled(working is not None)

    def _fill_parts(self, working: Working | None) -> None:
        parts = () if working is None else working.parts
        self.parts.setRowCount(len(parts))
        self.parts.setVisible(bool(parts))
        for row, part in enumerate(parts):
            words = tr("{group}: {cause}").format(group=part.group, cause=part.words)
            for column, text in enumerate((words, f"{part.reach}, {share_text(part.share)}")):
                item = QTableWidgetItem(text)
                item.setToolTip(text)
                item.setData(SHARE, part.share)
                self.parts.setItem(row, column, item)

    def _fill_stations(self, working: Working | None) -> None:
        stations = () if working is None else working.stations
        self.stations.setRowCount(len(stations))
        self.tabs.setTabText(1, tr("&Stations behind it ({n})").format(n=len(stations)))
        for row, station in enumerate(stations):
            for column, text in enumerate(station_cells(station)):
                item = QTableWidgetItem(text)
                item.setData(PLACE, station.map_xy)
                if column:
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                self.stations.setItem(row, column, item)

    def zoom_to(self, row: int) -> None:
        """Show a station on the map, and flash it."""
        item = self.stations.item(row, 0)
        place = None if item is None else item.data(PLACE)
        if place is None:
            return
        canvas = self._iface.mapCanvas()
        there = QgsCoordinateTransform(
            self._crs, canvas.mapSettings().destinationCrs(), QgsProject.instance()
        )
        point = QgsGeometry.fromPointXY(QgsPointXY(*place))
        shown = QgsGeometry(point)
        shown.transform(there)
        canvas.setExtent(shown.buffer(NEAR, 8).boundingBox())
        canvas.refresh()
        canvas.flashGeometries([point], self._crs)

    def copy_text(self) -> None:
        """Put the whole working on the clipboard."""
        if self._working is not None:
            QgsApplication.clipboard().setText(as_text(self._working))

    def _point(self, is_on: bool) -> None:
        canvas = self._iface.mapCanvas()
        if is_on:
            if self.tool is None:
                self.tool = self._new_tool(canvas)
            canvas.setMapTool(self.tool)
        elif self.tool is not None:
            canvas.unsetMapTool(self.tool)

    def _new_tool(self, canvas: Any) -> FigureTool:
        tool = FigureTool(canvas)
        tool.chosen.connect(self.take)
        tool.missed.connect(self._miss)
        for left in (tool.left, tool.deactivated):
            left.connect(self._leave)
        return tool

    def _leave(self) -> None:
        self.pick.setChecked(False)

    def take(self, layer: QgsVectorLayer, row: int) -> None:
        """Show the figures of a feature that was chosen on the map or in a table."""
        self.show_feature(layer, row)
        self.shown.emit()

    def _miss(self) -> None:
        self.clear()
        self.title.setText(
            tr("Nothing with a working lies there. Click on an edge, inside an area, or on a station.")
        )
        self.shown.emit()

    def close_down(self) -> None:
        """Let go of the map."""
        self.pick.setChecked(False)
        if self.tool is not None:
            self._iface.mapCanvas().unsetMapTool(self.tool)
            self.tool.deleteLater()
            self.tool = None


def _warning(working: Working) -> str:
    if not working.agrees:
        return tr("! The numbers do not come to the figure: see the end of the formula.")
    return tr("! Assumed: nobody measured what these points are worth.") if working.is_assumed else ""


def _set_table(table: QTableWidget, heads: tuple[str, ...], *, wide: int) -> None:
    table.setHorizontalHeaderLabels(heads)
    table.verticalHeader().hide()
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setTabKeyNavigation(False)
    table.setShowGrid(False)
    table.setAlternatingRowColors(True)
    header = table.horizontalHeader()
    header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    header.setSectionResizeMode(wide, QHeaderView.ResizeMode.Stretch)
    table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
