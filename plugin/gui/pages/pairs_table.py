# SPDX-License-Identifier: GPL-2.0-or-later
"""The marks of a job, each with its pick: what it is worth, what it is used for, how far it lies off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtWidgets import QAbstractItemView, QComboBox, QHeaderView, QTableWidget, QTableWidgetItem

from ...bridge.desk import length
from ...bridge.text import tr

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ...bridge.pairs import Pairs, Pick

MARK, WORTH, USE, OFF = range(4)
ROWS_SEEN = 7
"""Lines of text that the table is never lower than: a head and three rows."""


class PairsTable(QTableWidget):
    """Signals: `used` with a mark and whether it is to check."""

    used = pyqtSignal(str, bool)

    def __init__(self) -> None:
        super().__init__(0, 4)
        self.setHorizontalHeaderLabels([tr("Mark"), tr("Picked to"), tr("Used to"), tr("Lies off")])
        self.verticalHeader().hide()
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.setMinimumHeight(ROWS_SEEN * self.fontMetrics().height())

    @property
    def mark(self) -> str:
        """The mark that is chosen, or none."""
        item = self.item(self.currentRow(), MARK)
        return item.text() if item is not None else ""

    def show_pairs(self, marks: Sequence[str], pairs: Pairs, residuals: Mapping[str, float]) -> None:
        """All marks, those that are no mark of the survey last; the chosen one stays chosen."""
        chosen = self.mark
        names = [*marks, *(pick.mark for pick in pairs.picks if pick.mark not in marks)]
        self.setRowCount(len(names))
        for row, name in enumerate(names):
            pick = pairs.of(name)
            off = residuals.get(name)
            self.setItem(row, MARK, QTableWidgetItem(name))
            self.setItem(row, WORTH, QTableWidgetItem(_worth(pick)))
            self.setItem(row, OFF, QTableWidgetItem("" if pick is None or off is None else length(off)))
            self.setCellWidget(row, USE, self._use(pick) if pick is not None else None)
        self.choose(chosen if chosen in names else next(iter(names), ""))

    def choose(self, mark: str) -> None:
        """Choose a mark."""
        for row in range(self.rowCount()):
            if self.item(row, MARK).text() == mark:
                self.setCurrentCell(row, MARK)
                # The one before it was just picked: its figures are to be seen too.
                self.scrollToItem(
                    self.item(max(row - 1, 0), MARK), QAbstractItemView.ScrollHint.PositionAtTop
                )

    def _use(self, pick: Pick) -> QComboBox:
        box = QComboBox()
        box.addItems([tr("fit"), tr("check")])
        box.setCurrentIndex(int(pick.is_check))
        box.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        box.activated.connect(lambda index, mark=pick.mark: self.used.emit(mark, bool(index)))
        return box


def _worth(pick: Pick | None) -> str:
    if pick is None:
        return tr("not picked")
    return tr("not told") if pick.sd is None else f"± {length(pick.sd)}"
