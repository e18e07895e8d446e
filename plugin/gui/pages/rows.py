# SPDX-License-Identifier: GPL-2.0-or-later
"""What a job has come to and what it lacks, a row a subject."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.desk import DeskRow, State, Subject
from ...bridge.text import tr

if TYPE_CHECKING:
    from collections.abc import Iterable

SIGNS = {State.GOOD: "✓", State.LACKS: "–", State.ASKS: "?", State.STOPS: "✕"}
"""A letter for each state, so that nothing hangs on a colour."""
SUBJECT = Qt.ItemDataRole.UserRole


class RowsPage(QWidget):
    """Signals: `opened` with the subject of a row, `plan_wanted`, `drawing_wanted`."""

    opened = pyqtSignal(Subject)
    plan_wanted = pyqtSignal()
    drawing_wanted = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self.table = QTableWidget(0, 2)
        self.table.horizontalHeader().hide()
        self.table.verticalHeader().hide()
        self.table.setShowGrid(False)
        self.table.setAlternatingRowColors(True)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setTabKeyNavigation(False)
        fits, fills = QHeaderView.ResizeMode.ResizeToContents, QHeaderView.ResizeMode.Stretch
        self.table.horizontalHeader().setSectionResizeMode(0, fits)
        self.table.horizontalHeader().setSectionResizeMode(1, fills)
        self.table.verticalHeader().setSectionResizeMode(fits)
        self.table.itemActivated.connect(lambda item: self.opened.emit(item.data(SUBJECT)))
        self.draw, self.plan = QPushButton(tr("Show the plan")), QPushButton(tr("Plan a walk..."))
        self.draw.clicked.connect(self.drawing_wanted)
        self.plan.clicked.connect(self.plan_wanted)
        rows, buttons = QVBoxLayout(self), QHBoxLayout()
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.table, 1)
        for button in (self.draw, self.plan):
            buttons.addWidget(button)
        rows.addLayout(buttons)

    def show_rows(self, rows: Iterable[DeskRow]) -> None:
        """These rows, and no others."""
        self.table.setRowCount(0)
        for at, row in enumerate(rows):
            self.table.insertRow(at)
            for column, text in enumerate((SIGNS[row.state], f"{row.title}\n{row.words}")):
                item = QTableWidgetItem(text)
                item.setData(SUBJECT, row.subject)
                item.setToolTip(tr("Double click, or Enter, opens it."))
                self.table.setItem(at, column, item)
        self.draw.setEnabled(self.table.rowCount() > 1)
