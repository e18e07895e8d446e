# SPDX-License-Identifier: GPL-2.0-or-later
"""The section of a line: drawn on the map, plotted, and told in a table; each shows where the other points."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateReferenceSystem, QgsCsException, QgsPointXY, QgsProject
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QSplitter,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.section import (
    DrawnSection,
    SectionGround,
    draw_section,
    level_words,
    read_ground,
    way_words,
)
from ...bridge.survey_file import shown_unit
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ..plots.figure_box import FigureBox
from ..plots.section import draw_section as draw_figure
from ..tools.section_tool import SectionOnMap, SectionTool
from ..tools.tool_loan import ToolLoan
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Callable

    from ...bridge.jobs import DeskJob

SHARES = [300, 200]
"""Pixels of the plot and the table at first."""
NEAR = 15
"""Pixels of the map within which the mouse points at the line."""


class SectionPage(QWidget):
    """Nothing else needs to know what is drawn; `close_down` gives the map back."""

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._iface = iface
        self._canvas = iface.mapCanvas()
        self._walked: SectionGround | None = None
        self._ground: SectionGround | None = None
        self._unread: DeskJob | None = None
        self._line: list[tuple[float, float]] = []
        self._lay: Callable[[SectionGround | None], SectionGround] | None = None
        self._crs = self._surfaces_crs = QgsCoordinateReferenceSystem()
        self.section: DrawnSection | None = None
        self.on_map = SectionOnMap(self._canvas, QgsCoordinateReferenceSystem())
        self.tool = SectionTool(self._canvas)
        self.tool.drawn.connect(self.take_line)
        self.tool.given_up.connect(self.stop_drawing)
        self.draw = QPushButton(tr("&Draw a line"))
        self.draw.setCheckable(True)
        self.draw.toggled.connect(self._toggle)
        self.loan = ToolLoan(self._canvas, self.tool, self.draw)
        self.wipe = QPushButton(tr("&Clear"))
        self.wipe.clicked.connect(self.clear)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.here = WordsLabel()
        self.box = FigureBox(tr("Section"))
        self.box.pointed.connect(self.point_at)
        self.box.gone.connect(lambda: self.point_at(None))
        self.table = QTableWidget(0, 2)
        self.table.currentCellChanged.connect(lambda row, *_: self._choose(row))
        self._lay_out()
        self._canvas.xyCoordinates.connect(self._mouse_on_map)
        self.clear()

    def _lay_out(self) -> None:
        self.table.setHorizontalHeaderLabels([tr("Level"), tr("To the next")])
        self.table.verticalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignCenter)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setTabKeyNavigation(False)
        self.table.setWordWrap(True)
        self.table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        buttons = QHBoxLayout()
        buttons.addWidget(self.draw, 1)
        buttons.addWidget(self.wipe)
        both = QSplitter(Qt.Orientation.Vertical)
        both.addWidget(self.box)
        both.addWidget(self.table)
        both.setChildrenCollapsible(False)
        both.setSizes(SHARES)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addLayout(buttons)
        rows.addWidget(self.words)
        rows.addWidget(both, 1)
        rows.addWidget(self.here)

    def show_job(self, job: DeskJob, crs: QgsCoordinateReferenceSystem) -> None:
        """Sections of a job's survey, whose layers are in a CRS."""
        self.on_map.crs = self._crs = crs
        self._unread = job
        self._walked = self._ground = None
        self.clear()
        if self.isVisible():
            self._read()

    def showEvent(self, event: Any) -> None:
        super().showEvent(event)
        self._read()

    def _read(self) -> None:
        """Read the survey when the page is first looked at."""
        job, self._unread = self._unread, None
        if job is None:
            return
        try:
            self._walked = read_ground(job.survey) if job.is_surveyed else None
        except GroundTallyError as error:
            self._say(explain(error))
            return
        self._take_ground()

    def show_surfaces(
        self, lay: Callable[[SectionGround | None], SectionGround] | None, crs: QgsCoordinateReferenceSystem
    ) -> None:
        """Sections through surfaces too.

        Args:
            lay: what was walked, together with the surfaces; None for what was walked alone.
            crs: that lines are in where nothing was walked.
        """
        self._lay, self._surfaces_crs = lay, crs
        self._take_ground()
        if self._line and self._ground is not None and self._ground.has_heights:
            self._cut()
        self._show_section()

    def _take_ground(self) -> None:
        """What lines are cut through: what was walked, with the surfaces that were chosen."""
        self._ground = self._walked if self._lay is None else self._lay(self._walked)
        is_bare = self._walked is None and self._lay is not None
        self.on_map.crs = self._surfaces_crs if is_bare else self._crs
        self._say_state()
        self.draw.setEnabled(self._ground is not None and self._ground.has_heights)

    def _say(self, words: str) -> None:
        self.words.setText(words)
        self.words.setVisible(bool(words))

    def _say_state(self) -> None:
        ground = self._ground
        if ground is None:
            self._say(tr("Nothing surveyed yet: run the job."))
        elif not ground.has_heights:
            self._say(
                tr("An open stop keeps the heights out: see the findings.")
                if ground.withheld
                else tr("This survey has no heights.")
            )
        elif ground.withheld:
            words = tr("{count} edges are left out: an open stop keeps their heights out.")
            self._say(words.format(count=ground.withheld))
        else:
            self._say("")

    def _toggle(self, is_on: bool) -> None:
        if is_on:
            self.loan.take()
            self.box.show_words(
                tr(
                    "Click along the line on the map. Enter or the right button ends it, Backspace takes a point back, Escape gives up."
                )
            )
        else:
            self.stop_drawing()

    def stop_drawing(self) -> None:
        """Give the map its tool back."""
        self.loan.give_back()
        self._show_section()

    def take_line(self, points: list[tuple[float, float]]) -> None:
        """The section of a line that was drawn on the map."""
        if self._ground is not None:
            try:
                self._line = self.on_map.to_survey(points)
                self._cut()
            except QgsCsException:
                self._say(tr("The line lies outside of what the survey's CRS can hold."))
        self.stop_drawing()

    def _cut(self) -> None:
        """The section of the line, through the ground as it now is."""
        assert self._ground is not None  # noqa: S101 - asked for where there is some
        try:
            self.section = draw_section(self._ground, self._line, shown_unit(QgsProject.instance()))
        except GroundTallyError as error:
            self._say(explain(error))
            return
        self.on_map.show_line(self._line)
        self._say_state()
        if self.section.cuts.said:
            self._say("\n".join(self.section.cuts.said))

    def clear(self) -> None:
        """Forget the line."""
        self.section, self._line = None, []
        self.on_map.clear()
        self.draw.setChecked(False)
        self._show_section()

    def _show_section(self) -> None:
        section = self.section
        self.here.show_words("" if section is None else section.cuts.area_words)
        self.here.setVisible(bool(self.here.text()) or self._lay is not None)
        self.table.setRowCount(0)
        self.table.setVisible(section is not None and bool(section.points))
        self.wipe.setEnabled(section is not None)
        if section is None:
            self.box.show_words(
                tr(
                    "Draw a line across the site: the levels of every edge and station on it are plotted here."
                )
            )
        elif not section.points and not section.surfaces:
            self.box.show_words(
                tr("The line meets no edge or station that has a height. Draw it across the edges.")
            )
        else:
            self.box.show_figure(lambda figure, look: draw_figure(figure, look, section))
            self._fill_table(section)

    def _fill_table(self, section: DrawnSection) -> None:
        self.table.setRowCount(len(section.points))
        for row, point in enumerate(section.points):
            way = way_words(section, row)
            for column, text in enumerate((level_words(section, point), way)):
                item = QTableWidgetItem(text)
                item.setToolTip(f"{point.source.title}\n{point.source.detail}\n\n{_method_words()}")
                self.table.setItem(row, column, item)
        self.table.resizeRowsToContents()

    def point_at(self, along: float | None) -> None:
        """Show a distance along the line on the map and in the plot, and the level nearest to it in the table."""
        section = self.section
        if section is None:
            return
        self.on_map.show_place(None if along is None else section.place_at(along))
        self.box.point_at(along)
        self.here.show_words(section.cuts.area_words if along is None else section.cuts.words_at(along))
        row = None if along is None else section.nearest(along)
        if row is not None:
            self.table.blockSignals(True)  # noqa: FBT003 - Qt's own
            self.table.selectRow(row)
            self.table.blockSignals(False)  # noqa: FBT003

    def _choose(self, row: int) -> None:
        if self.section is not None and 0 <= row < len(self.section.points):
            point = self.section.points[row]
            self.on_map.show_place(point.at)
            self.box.point_at(point.along)

    def _mouse_on_map(self, place: QgsPointXY) -> None:
        if self.section is None or self.draw.isChecked():
            return
        x, y = place.x(), place.y()
        reach = NEAR * self._canvas.mapUnitsPerPixel()
        try:
            (here, there) = self.on_map.to_survey([(x, y), (x + reach, y)])
        except QgsCsException:
            return
        along = self.section.near(here, there)
        if along is not None or self.box.pointed_at is not None:
            self.point_at(along)

    def close_down(self) -> None:
        """Take the line and the tool off the map, and let go of it."""
        self.stop_drawing()
        self._canvas.xyCoordinates.disconnect(self._mouse_on_map)
        self.box.close_large()
        self.loan.close_down()
        self.on_map.close_down()


def _method_words() -> str:
    """How levels, rises and their 95 % are found."""
    return tr(
        "A level runs evenly along an edge between its two stations; its 95 % is from theirs, taken to err together. "
        "A rise takes the two levels to err apart, which is too much where both hang on one datum."
    )
