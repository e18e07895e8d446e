# SPDX-License-Identifier: GPL-2.0-or-later
"""The straight way between two places that are clicked on a surface."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsCsException, QgsProject
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QFormLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.ground_list import surface_way
from ...bridge.ground_slope import read_slope
from ...bridge.survey_file import shown_unit
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ..tools.section_tool import SectionOnMap
from ..tools.tool_loan import ToolLoan
from ..tools.two_points import TwoPointTool
from .surface_box import SurfaceBox
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...bridge.ground_list import FoundSurface


class SlopeTab(QWidget):
    """Nothing else needs to know what is clicked; `close_down` gives the map back."""

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._canvas = iface.mapCanvas()
        self._places: list[tuple[float, float]] = []
        self.surface = SurfaceBox(tr("Surface"))
        self.on_map = SectionOnMap(self._canvas, self._canvas.mapSettings().destinationCrs())
        self.tool = TwoPointTool(self._canvas)
        self.tool.drawn.connect(self.take_places)
        self.click = QPushButton(tr("&Click two places"))
        self.click.setCheckable(True)
        self.click.toggled.connect(self._toggle)
        self.loan = ToolLoan(self._canvas, self.tool, self.click)
        self.tool.given_up.connect(self.loan.give_back)
        self.words = WordsLabel()
        self.table = QTableWidget(0, 2)
        self._lay_out()
        self.surface.chosen.connect(self._surface_chosen)
        self._surface_chosen()

    def _lay_out(self) -> None:
        self.table.horizontalHeader().hide()
        self.table.verticalHeader().hide()
        self.table.setShowGrid(False)
        self.table.setAlternatingRowColors(True)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setTabKeyNavigation(False)
        self.table.setWordWrap(True)
        header = self.table.horizontalHeader()
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.addRow(tr("&Surface"), self.surface)
        rows = QVBoxLayout(self)
        rows.addLayout(form)
        rows.addWidget(self.click)
        rows.addWidget(self.words)
        rows.addWidget(self.table, 1)

    def show_surfaces(self, found: Sequence[FoundSurface]) -> None:
        """These surfaces can be chosen."""
        one = next((each for each in found if each.surface is not None), None)
        if one is not None and one.map_crs != self.on_map.crs:
            self.clear()  # the places are of another CRS
        self.surface.show_surfaces(found)

    def _surface_chosen(self) -> None:
        found = self.surface.surface()
        self.click.setEnabled(found is not None)
        if found is None:
            self.clear()
            self.words.show_words(tr("No surface yet: build one, or add one to the project."))
        elif self._places:
            self._tell()
        else:
            self.words.show_words(
                tr("Click two places on the map: what lies between them on the surface is told here.")
            )

    def _toggle(self, is_on: bool) -> None:
        if is_on:
            self.loan.take()
            self.words.show_words(
                tr("Click the first place, then the second. Backspace takes one back, Escape gives up.")
            )
        else:
            self.loan.give_back()

    def take_places(self, points: list[tuple[float, float]]) -> None:
        """Two places of the map."""
        found = self.surface.surface()
        if found is not None:
            self.on_map.crs = found.map_crs
            try:
                self._places = self.on_map.to_survey(points)
            except QgsCsException:
                self.clear()
                self.words.show_words(tr("The places lie outside of what the surface's CRS can hold."))
            else:
                self._tell()
        self.loan.give_back()

    def _tell(self) -> None:
        """What lies between the two places on the surface that is chosen."""
        found = self.surface.surface()
        if found is None:
            return
        start, end = self._places
        self.on_map.crs = found.map_crs
        self.on_map.show_line(self._places)
        self.table.setRowCount(0)
        try:
            rows = read_slope(found, surface_way(found), start, end, shown_unit(QgsProject.instance()))
        except GroundTallyError as error:
            self.words.show_words(explain(error))
            return
        self.words.show_words(
            tr("From the first place to the second, on {name}; ± is 95 %.").format(name=found.name)
        )
        self.table.setRowCount(len(rows))
        for at, row in enumerate(rows):
            for column, text in enumerate((row.name, row.words)):
                item = QTableWidgetItem(text)
                item.setToolTip(row.tip)
                self.table.setItem(at, column, item)

    def clear(self) -> None:
        """Forget the places."""
        self._places = []
        self.on_map.clear()
        self.table.setRowCount(0)

    def close_down(self) -> None:
        """Take the line and the tool off the map."""
        self.loan.close_down()
        self.on_map.close_down()
