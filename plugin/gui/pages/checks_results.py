# SPDX-License-Identifier: GPL-2.0-or-later
"""What passes, fails or cannot tell: a row a check, the worst first, and what is to be known of the one that is chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import Qt, QTimer, pyqtSignal
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QHeaderView,
    QPlainTextEdit,
    QSplitter,
    QStyle,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from ...bridge.checks_file import count_checks, tell_counts
from ...bridge.text import tr
from ..checks_model import FIGURE, LINES, SIGN, WHAT, ChecksModel
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...bridge.checks_file import ToldCheck

ALL, OPEN_ONLY = range(2)
PADDING = 6
"""Pixels about the lines of a row."""
MEASURED_ROWS = 200
"""Rows whose words the width of the figures is taken from."""
SWATCH = QStyle.PixelMetric.PM_SmallIconSize
"""The colour beside the letter."""
DETAIL_LINES = 3
"""Of what is to be known of a check, at the least."""


class ResultsTab(QWidget):
    """Signals: `looked_at` with a check that is chosen, `zoom_wanted` with one that was double clicked or entered."""

    looked_at = pyqtSignal(object)
    zoom_wanted = pyqtSignal(object)

    def __init__(self) -> None:
        super().__init__()
        self.model, self.table = ChecksModel(), QTableView()
        self.counts, self.state = WordsLabel(), WordsLabel()
        self.filter = QComboBox()
        self.filter.addItems([tr("All"), tr("Fail and cannot tell")])
        self.filter.setAccessibleName(tr("Which checks to show"))
        self.details, self.split, self.rest = QPlainTextEdit(), QSplitter(Qt.Orientation.Vertical), QWidget()
        self._is_filling, self._fresh = False, -1
        self._set_table()
        self._lay_out()
        self.filter.currentIndexChanged.connect(self._filter)
        self.table.selectionModel().currentRowChanged.connect(lambda now, _: self._choose(now.row()))
        self.table.pressed.connect(lambda index: self._press(index.row()))
        self.table.activated.connect(lambda index: self._zoom_to(index.row()))
        self.table.doubleClicked.connect(lambda index: self._zoom_to(index.row()))
        self.show_checks((), "", "")

    def _set_table(self) -> None:
        table, fixed = self.table, QHeaderView.ResizeMode.Fixed
        table.setModel(self.model)
        table.setAccessibleName(tr("Checks, the worst first"))
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.setAlternatingRowColors(True)
        table.setShowGrid(False)
        table.setTabKeyNavigation(False)
        table.setWordWrap(False)
        table.verticalHeader().hide()
        # Rows alike: thousands of them are shown as fast as ten.
        table.verticalHeader().setSectionResizeMode(fixed)
        table.verticalHeader().setDefaultSectionSize(LINES * self.fontMetrics().lineSpacing() + PADDING)
        header = table.horizontalHeader()
        header.setHighlightSections(False)
        header.setMinimumSectionSize(20)
        header.setSectionResizeMode(SIGN, fixed)
        header.resizeSection(
            SIGN, table.style().pixelMetric(SWATCH) + 3 * self.fontMetrics().averageCharWidth()
        )
        header.setResizeContentsPrecision(MEASURED_ROWS)
        header.setSectionResizeMode(WHAT, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(FIGURE, QHeaderView.ResizeMode.ResizeToContents)

    def _lay_out(self) -> None:
        self.details.setReadOnly(True)
        self.details.setTabChangesFocus(True)
        self.details.setAccessibleName(tr("What is to be known of the check"))
        line = self.fontMetrics().lineSpacing()
        self.details.setMinimumHeight(DETAIL_LINES * line + 2 * PADDING)
        self.table.setMinimumHeight(2 * LINES * line)
        self.split.setChildrenCollapsible(False)
        for widget, weight in ((self.table, 5), (self.details, 2)):
            self.split.addWidget(widget)
            self.split.setStretchFactor(self.split.count() - 1, weight)
        top, rows = QHBoxLayout(), QVBoxLayout(self)
        top.addWidget(self.counts, 1)
        top.addWidget(self.filter)
        rows.addLayout(top)
        rows.addWidget(self.state)
        rows.addWidget(self.split, 1)
        rows.addWidget(self.rest, 1)

    def show_checks(self, checks: Sequence[ToldCheck], state: str, empty: str) -> None:
        """These checks; `state` is what is wrong with them as a whole, `empty` what to do where there are none. The check
        that was chosen stays so."""
        kept, has_some = self.current(), bool(checks)
        self.model.show(checks)
        self.counts.show_words(tell_counts(count_checks(checks)) if has_some else empty)
        self.state.show_words(f"! {state}" if state else "")
        self.state.setVisible(bool(state))
        for widget in (self.filter, self.split):
            widget.setVisible(has_some)
        self.rest.setVisible(not has_some)
        self._choose_again(kept)

    def _choose_again(self, kept: ToldCheck | None) -> None:
        rows = (self.model.check(row) for row in range(self.model.rowCount()))
        key = None if kept is None else _key(kept)
        at = next((row for row, check in enumerate(rows) if check is not None and _key(check) == key), -1)
        self._is_filling = True
        if at >= 0:
            self.table.selectRow(at)
        self._is_filling = False
        self._tell(at)

    def current(self) -> ToldCheck | None:
        """The check that is chosen."""
        return self.model.check(self.table.currentIndex().row())

    def _filter(self, which: int) -> None:
        kept = self.current()
        self.model.show_open_only(is_on=which == OPEN_ONLY)
        self._choose_again(kept)

    def _tell(self, row: int) -> None:
        check = self.model.check(row)
        words = self._hint() if check is None else check.details
        self.details.setPlainText(words)

    def _hint(self) -> str:
        if self.model.rowCount():
            return tr("Choose a check: it flashes on the map. Double click, or Enter, zooms to it.")
        return tr("Nothing fails, and nothing is left at cannot tell.")

    def _choose(self, row: int) -> None:
        if self._is_filling:
            return
        self._tell(row)
        self._look_at(row)
        self._fresh = row
        QTimer.singleShot(0, self._settle)

    def _settle(self) -> None:
        self._fresh = -1

    def _press(self, row: int) -> None:
        """A click on the check that is chosen already shows it once more; one that chooses it has just shown it."""
        if row != self._fresh:
            self._look_at(row)

    def _look_at(self, row: int) -> None:
        check = self.model.check(row)
        if check is not None:
            self.looked_at.emit(check)

    def _zoom_to(self, row: int) -> None:
        check = self.model.check(row)
        if check is not None:
            self.zoom_wanted.emit(check)


def _key(check: ToldCheck) -> tuple[str, ...]:
    return check.feature, check.thing, check.quantity, check.limit
