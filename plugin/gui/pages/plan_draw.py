# SPDX-License-Identifier: GPL-2.0-or-later
"""What is drawn next: the way, an area or a length of a walk, or a mark."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtWidgets import QCheckBox, QComboBox, QGridLayout, QLabel, QLineEdit, QPushButton, QWidget

from ...bridge.plan_layers import free_mark, free_name
from ...bridge.text import tr
from ...core.defaults import PICK_SD
from .plan_inputs import metres_box, narrow

if TYPE_CHECKING:
    from collections.abc import Iterable

FIRST_WALK = "W1"


class Drawing(Enum):
    """What a line is drawn for."""

    WAY = "way"
    AREA = "area"
    LENGTH = "length"


class DrawForm(QWidget):
    """Signals: `walk_wanted` and `mark_wanted` with whether the tool is to be taken up or put down, `kind_changed`."""

    walk_wanted = pyqtSignal(bool)
    mark_wanted = pyqtSignal(bool)
    kind_changed = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self.walk, self.kind, self.name = QComboBox(), QComboBox(), QLineEdit()
        self.walk.setEditable(True)
        self.walk.setEditText(FIRST_WALK)
        for kind, words in (
            (Drawing.WAY, tr("only the way")),
            (Drawing.AREA, tr("area")),
            (Drawing.LENGTH, tr("length")),
        ):
            self.kind.addItem(words, kind)
        self.draw, self.set = QPushButton(tr("Draw walk")), QPushButton(tr("Set marks"))
        self.mark, self.level = QLineEdit(), QCheckBox(tr("height known"))
        self.sigma = metres_box(PICK_SD)
        for button in (self.draw, self.set):
            button.setCheckable(True)
        self._taken: set[str] = set()
        self._lay_out()
        self.kind.currentIndexChanged.connect(self._turn)
        self.draw.clicked.connect(self.walk_wanted)
        self.set.clicked.connect(self.mark_wanted)
        self._turn()

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(2, 1)
        narrow(self.walk)
        for row, widgets in enumerate(
            (
                (QLabel(tr("Walk")), self.walk, self.draw),
                (QLabel(tr("Draw as")), self.kind, self.name),
                (QLabel(tr("Mark")), self.mark, self.set),
            )
        ):
            for column, widget in enumerate(widgets):
                grid.addWidget(widget, row, column)
        grid.addWidget(QLabel(tr("Map point, one sigma")), 3, 0, 1, 2)
        grid.addWidget(self.sigma, 3, 2)
        grid.addWidget(self.level, 4, 1, 1, 2)
        self.sigma.setToolTip(
            tr(
                "One-sigma of a map point, each axis: of the next mark, and of marks that have none of their own."
            )
        )
        self.name.setToolTip(tr("Lines of one name are parts of one feature."))
        self.walk.setToolTip(tr("Lines of one walk are walked one after the other."))

    def is_area(self) -> bool:
        """Whether an outline is drawn, which ends where it began."""
        return self.kind.currentData() is Drawing.AREA

    def feature(self) -> str:
        """The feature that the next line makes; "" for only the way."""
        kind = self.kind.currentData()
        return "" if kind is Drawing.WAY else self.name.text().strip() or self._free(kind)

    def walked(self) -> str:
        """The walk that the next line belongs to."""
        return self.walk.currentText().strip() or FIRST_WALK

    def offer(self, features: set[str], walks: Iterable[str], marks: set[str]) -> None:
        """Offer names that are free, and the walks that are there."""
        self._taken = features
        now = self.walk.currentText()
        self.walk.clear()
        self.walk.addItems(sorted({*walks, now} - {""}))
        self.walk.setEditText(now or FIRST_WALK)
        self.mark.setText(free_mark(marks))
        self._turn()

    def _turn(self) -> None:
        kind = self.kind.currentData()
        self.name.setEnabled(kind is not Drawing.WAY)
        self.name.setText("" if kind is Drawing.WAY else self._free(kind))
        self.kind_changed.emit()

    def _free(self, kind: Drawing) -> str:
        return free_name(tr("Area") if kind is Drawing.AREA else tr("Length"), self._taken)
