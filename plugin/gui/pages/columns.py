# SPDX-License-Identifier: GPL-2.0-or-later
"""Which column of a point list is which: its first rows, a choice above each column, and a sketch of the points."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtGui import QFocusEvent, QKeyEvent, QWheelEvent
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QGridLayout,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.lists import CHOICES, check_choice, column_label, exchange_words, sketch_points
from ...bridge.text import tr
from .sketch import SketchView
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...bridge.lists import Guess, ListSample

SMALL, ARROW = 0.85, 28
"""The font above the columns by the page's own; pixels that the arrow of a choice takes."""
MOST_ROWS, LEAST_ROWS = 5, 3
"""Rows of a list that are shown; of the table, with the choices, that are seen in a low window."""
WIDEST, PADDING = 140, 12
"""Pixels of a cell that are shown, and about it."""


class ColumnChoice(QComboBox):
    """What one column is; the wheel moves the table, not the choice. Signal: `entered` when it gets the focus."""

    entered = pyqtSignal()

    def __init__(self, word: str) -> None:
        super().__init__()
        for one in CHOICES:
            self.addItem(column_label(one), one)
        small = self.font()
        small.setPointSizeF(SMALL * small.pointSizeF())
        self.setFont(small)
        self.setCurrentIndex(self.findData(word))
        self.view().setMinimumWidth(self.view().sizeHintForColumn(0) + ARROW)

    def width_of_word(self) -> int:
        """Pixels in which its word can be read."""
        return self.fontMetrics().horizontalAdvance(self.currentText()) + ARROW

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class ColumnsPage(QWidget):
    """Signals: `accepted` with the words of the choice, in order; `left` when nothing was chosen."""

    accepted = pyqtSignal(tuple)
    left = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self._sample: ListSample | None = None
        self._where = ("", "")
        self._guess: Guess | None = None
        self.choices: list[ColumnChoice] = []
        self.title, self.why, self.told = WordsLabel(), WordsLabel(), WordsLabel()
        self.rows = QTableWidget()
        self.rows.verticalHeader().hide()
        self.rows.setTabKeyNavigation(False)
        self.rows.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.rows.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.rows.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.sketch = SketchView()
        self.exchange = QPushButton(tr("E&xchange northing and easting"))
        self.exchange.clicked.connect(self._exchange)
        self.accept, self.cancel = QPushButton(tr("&Accept")), QPushButton(tr("Cancel"))
        self.accept.clicked.connect(self._accept)
        self.cancel.clicked.connect(self.left)
        self._lay_out()

    def _lay_out(self) -> None:
        buttons = QGridLayout()
        buttons.addWidget(self.exchange, 0, 0, 1, 2)
        buttons.addWidget(self.accept, 1, 0)
        buttons.addWidget(self.cancel, 1, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        for widget, stretch in (
            (self.title, 0),
            (self.rows, 1),
            (self.why, 0),
            (self.sketch, 2),
            (self.told, 0),
        ):
            column.addWidget(widget, stretch)
        column.addLayout(buttons)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves; Enter presses the button that has the focus, and from anywhere else accepts."""
        focused = self.focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif isinstance(focused, QPushButton):
            focused.click()
        else:
            self._accept()

    def show_list(self, sample: ListSample, guess: Guess, crs: str = "", units: str = "") -> None:
        """A list with a choice to begin with, and what its coordinates are in, as far as that is known."""
        self._sample, self._guess, self._where = sample, guess, (crs, units)
        self.title.show_words(tr("{name}: which column is which?").format(name=sample.head.name))
        self._fill(sample, guess.words)
        self._look()
        if self.choices:
            self.choices[0].setFocus()

    def words(self) -> tuple[str, ...]:
        """What is chosen, column by column."""
        return tuple(str(choice.currentData()) for choice in self.choices)

    def _fill(self, sample: ListSample, words: Sequence[str]) -> None:
        """The first rows below a choice for each column."""
        self.rows.clear()
        shown = sample.rows[:MOST_ROWS]
        self.rows.setRowCount(1 + len(shown))
        self.rows.setColumnCount(sample.width)
        self.rows.setHorizontalHeaderLabels([name.strip() for name in sample.header or ()])
        self.rows.horizontalHeader().setVisible(sample.header is not None)
        self.choices = [ColumnChoice(word) for word in words]
        for at, choice in enumerate(self.choices):
            self.rows.setItem(0, at, QTableWidgetItem())
            self.rows.setCellWidget(0, at, choice)
            choice.currentIndexChanged.connect(self._look)
            choice.entered.connect(lambda at=at: self.rows.scrollToItem(self.rows.item(0, at)))
        for row, cells in enumerate(shown, 1):
            for at, cell in enumerate(cells):
                item = QTableWidgetItem(cell.strip())
                item.setToolTip(cell.strip())
                self.rows.setItem(row, at, item)
        for before, after in zip(self.choices, self.choices[1:]):
            QWidget.setTabOrder(before, after)
        if self.choices:
            QWidget.setTabOrder(self.choices[-1], self.exchange)
        self._fit()

    def _fit(self) -> None:
        """As high as its rows are; each column as wide as its choice and its cells, and all as wide as the page."""
        metrics = self.rows.fontMetrics()
        for at, choice in enumerate(self.choices):
            cells = [self.rows.item(row, at).text() for row in range(1, self.rows.rowCount())]
            widest = max(map(metrics.horizontalAdvance, cells), default=0)
            self.rows.setColumnWidth(at, max(min(widest, WIDEST) + PADDING, choice.width_of_word()))
        self.rows.horizontalHeader().setStretchLastSection(True)
        self.rows.resizeRowsToContents()
        header = self.rows.horizontalHeader()
        named = header.sizeHint().height() if not header.isHidden() else 0
        bar = self.rows.horizontalScrollBar().sizeHint().height()
        least = sum(map(self.rows.rowHeight, range(LEAST_ROWS)))
        self.rows.setMinimumHeight(named + least + bar + 2)
        self.rows.setMaximumHeight(named + self.rows.verticalHeader().length() + bar + 2)

    def _look(self, *_: object) -> None:
        """Sketch what is chosen now."""
        if self._sample is None:
            return
        words = self.words()
        crs, units = self._where
        sketch = sketch_points(self._sample, words, crs, units)
        self.sketch.show_sketch(sketch)
        self.told.show_words(sketch.words)
        is_offered = self._guess is not None and words == self._guess.words
        self.why.show_words(self._guess.why if self._guess and is_offered else "")
        self.why.setVisible(is_offered)
        self.accept.setEnabled(not check_choice(words))
        self.exchange.setEnabled(exchange_words(words) != words)

    def _exchange(self) -> None:
        for choice, word in zip(self.choices, exchange_words(self.words())):
            choice.blockSignals(True)  # noqa: FBT003 - Qt's own
            choice.setCurrentIndex(choice.findData(word))
            choice.blockSignals(False)  # noqa: FBT003
        self._look()

    def _accept(self) -> None:
        if self.accept.isEnabled():
            self.accepted.emit(self.words())
