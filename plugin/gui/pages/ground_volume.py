# SPDX-License-Identifier: GPL-2.0-or-later
"""What is asked of Measure volumes, and cut, fill and net that it told."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsMapLayerProxyModel, QgsProject
from qgis.gui import QgsMapLayerComboBox
from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QFormLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.ground_run import VolumeAsk, VolumeRow
from ...bridge.survey_file import shown_unit
from ...bridge.text import tr
from .length_box import LengthBox
from .plan_inputs import narrow
from .surface_box import SurfaceBox
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...bridge.ground_list import FoundSurface

LEVEL = "level"
MOST_M, MOST_STRIP_M = 10_000.0, 10.0
STEP_M, LEAST_STEP_M, MOST_STEP_M = 0.1, 0.01, 10.0


class VolumeTab(QWidget):
    """Signals: `wanted` with what is to be measured."""

    wanted = pyqtSignal(VolumeAsk)

    def __init__(self) -> None:
        super().__init__()
        self._is_busy = False
        self._is_level_set = False
        self.surface = SurfaceBox(tr("Surface"))
        self.against = SurfaceBox(tr("Against"), (tr("a level"), LEVEL))
        self.level = LengthBox(-MOST_M, MOST_M, 0.0)
        self.level.valueChanged.connect(self._level_set)
        self.areas = QgsMapLayerComboBox()
        self.areas.setFilters(QgsMapLayerProxyModel.Filter.PolygonLayer)
        self.areas.setAllowEmptyLayer(True, tr("all of the ground"))  # noqa: FBT003 - the host's own
        self.areas.setCurrentIndex(0)  # the empty entry with its words; setLayer(None) shows none of both
        narrow(self.areas)
        self.selected = QCheckBox(tr("Selected areas &only"))
        self.strip = LengthBox(0.0, MOST_STRIP_M, 0.0)
        self.step = LengthBox(LEAST_STEP_M, MOST_STEP_M, STEP_M)
        self.measure = QPushButton(tr("&Measure"))
        self.words, self.said = WordsLabel(), WordsLabel()
        self.table = QTableWidget(0, 4)
        self._lay_out()
        self.surface.chosen.connect(self._show_state)
        self.against.chosen.connect(self._show_state)
        self.areas.layerChanged.connect(lambda _: self._show_state())
        self.measure.clicked.connect(self._ask)
        self.tell("")
        self._show_state()

    def _lay_out(self) -> None:
        self.table.setHorizontalHeaderLabels([tr("Area"), tr("Cut"), tr("Fill"), tr("Net")])
        self.table.verticalHeader().hide()
        self.table.setAlternatingRowColors(True)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setTabKeyNavigation(False)
        self.table.setWordWrap(True)
        self.table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.table.hide()
        self._form = QFormLayout()
        self._form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        for label, widget in (
            (tr("&Surface as it is"), self.surface),
            (tr("&Against"), self.against),
            (tr("&Level"), self.level),
            (tr("&Inside"), self.areas),
            ("", self.selected),
            (tr("S&trip first"), self.strip),
            (tr("Classes of &depth"), self.step),
        ):
            self._form.addRow(label, widget)
        self.strip.setToolTip(tr("Topsoil taken off all of the ground beforehand; it is never fill."))
        self.step.setToolTip(tr("The layer of depths has one area for each."))
        rows = QVBoxLayout(self)
        rows.addLayout(self._form)
        rows.addWidget(self.measure)
        rows.addWidget(self.words)
        rows.addWidget(self.said)
        rows.addWidget(self.table, 1)
        rows.addStretch(0)

    def show_surfaces(self, found: Sequence[FoundSurface]) -> None:
        """These surfaces can be chosen; the level begins at the middle of the first."""
        for box in (self.surface, self.against):
            box.show_surfaces(found)
        self._show_state()

    def showEvent(self, event: Any) -> None:
        super().showEvent(event)
        self._show_unit()

    def _show_unit(self) -> None:
        """Lengths in what the project's labels show them in."""
        unit = shown_unit(QgsProject.instance())
        for box in (self.level, self.strip, self.step):
            box.show_unit(unit)

    def show_busy(self, *, is_on: bool) -> None:
        """Nothing can be measured while something runs."""
        self._is_busy = is_on
        self._show_state()

    def _level_set(self) -> None:
        self._is_level_set = True

    def _show_state(self) -> None:
        """What can be asked now."""
        one, other = self.surface.surface(), self.against.surface()
        is_level = self.against.word() == LEVEL
        self.level.setEnabled(is_level)
        self.selected.setEnabled(self.areas.currentLayer() is not None)
        if one is not None and not self._is_level_set:
            self.level.set_metres(one.middle_height)
        self._show_unit()
        words = self._why_not(one, other, is_level=is_level)
        self.measure.setEnabled(not words and not self._is_busy)
        self.words.show_words(words)
        self.words.setVisible(bool(words))

    def _why_not(self, one: FoundSurface | None, other: FoundSurface | None, *, is_level: bool) -> str:
        """Why nothing can be measured; nothing where it can."""
        if one is None:
            return tr("No surface yet: build one, or add one to the project.")
        if not is_level and other is one:
            return tr("Choose another surface, or a level, to hold it against.")
        several = next((each for each in (one, other) if each is not None and not each.is_alone), None)
        if several is not None:
            words = tr("The layer of {name} holds several surfaces. Filter it to the one that is meant.")
            return words.format(name=several.name)
        return ""

    def _ask(self) -> None:
        one, other = self.surface.surface(), self.against.surface()
        if one is None:
            return
        areas = self.areas.currentLayer()
        self.wanted.emit(
            VolumeAsk(
                one.layer,
                one.name,
                "" if other is None else other.layer,
                "" if other is None else other.name,
                self.level.metres(),
                self.strip.metres(),
                "" if areas is None else areas.id(),
                areas is not None and self.selected.isChecked(),
                self.step.metres(),
                shown_unit(QgsProject.instance()),
            )
        )

    def clear(self) -> None:
        """Forget what was measured."""
        self._is_level_set = False
        self.table.setRowCount(0)
        self.table.hide()
        self.tell("")
        self._show_state()

    def show_volumes(self, ask: VolumeAsk, rows: Sequence[VolumeRow]) -> None:
        """Cut, fill and net of each area."""
        self.table.setRowCount(len(rows))
        self.table.setColumnHidden(0, not ask.areas)
        for at, row in enumerate(rows):
            for column, text in enumerate((row.name, row.cut, row.fill, row.net)):
                item = QTableWidgetItem(text.replace(" ± ", "\n± ").replace(", ", ",\n"))
                item.setToolTip("\n".join(filter(None, (f"{row.name}: {text}", row.words))))
                item.setTextAlignment(Qt.AlignmentFlag.AlignCenter)
                self.table.setItem(at, column, item)
        self.table.show()
        said = [row.words if len(rows) == 1 else f"{row.name}: {row.words}" for row in rows if row.words]
        head = tr("{name} to {target}; ± is 95 %.").format(name=ask.name, target=ask.target)
        self.tell(" ".join((head, *said)))

    def tell(self, words: str) -> None:
        """What is told of the figures; no room is kept where there is nothing to say."""
        self.said.show_words(words)
        self.said.setVisible(bool(words))
