# SPDX-License-Identifier: GPL-2.0-or-later
"""The files of a job as a table, and what can be said of one of them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from qgis.core import QgsCoordinateReferenceSystem
from qgis.gui import QgsProjectionSelectionWidget
from qgis.PyQt.QtCore import QRect, Qt, pyqtSignal
from qgis.PyQt.QtGui import QResizeEvent
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QFormLayout,
    QHeaderView,
    QPushButton,
    QSizePolicy,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.desk import State
from ...bridge.text import tr
from ...core.read.stated import AS_WRITTEN
from ...core.units import LOG_UNITS
from .words import WordsLabel

if TYPE_CHECKING:
    from ...bridge.choices import JobChoice
    from ...bridge.inventory import FoundFile
    from ...core.read.stated import Stated

SIGNS = {State.GOOD: "✓", State.LACKS: "–", State.ASKS: "?", State.STOPS: "✕"}
"""A letter for each state, so that nothing hangs on a colour."""
SIGN, FILE, FRAME = range(3)
SUBJECT = Qt.ItemDataRole.UserRole
"""What a row is about: a file, or the name of a part that is not there."""
PADDING = 8
"""Pixels about the words of a cell."""
HIGHEST = 10_000
"""Pixels: more than any sentence is high."""
PLAIN = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable


class FileTable(QTableWidget):
    """Signals: `ticked` with a path and whether it counts, `opened` with the file or the name of the part that was
    clicked or chosen by Enter, `chosen` with the file of the current row, or None."""

    ticked = pyqtSignal(object, bool)
    opened = pyqtSignal(object)
    chosen = pyqtSignal(object)

    def __init__(self) -> None:
        super().__init__(0, 3)
        self._text = ""
        self._is_filling = False
        self._was_ticked = False
        self.setHorizontalHeaderLabels(["", tr("File"), tr("Units, CRS")])
        self.verticalHeader().hide()
        self.setShowGrid(False)
        self.setWordWrap(True)
        self.setTabKeyNavigation(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setMinimumSectionSize(20)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(FILE, QHeaderView.ResizeMode.Stretch)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setMinimumHeight(130)
        self.itemChanged.connect(self._tick)
        self.itemClicked.connect(self._click)
        self.itemActivated.connect(lambda item: self.opened.emit(item.data(SUBJECT)))
        self.currentCellChanged.connect(self._choose)

    def toPlainText(self) -> str:
        """All that is shown, as text."""
        return self._text

    def show_words(self, words: str) -> None:
        """A sentence in place of files."""
        self._empty(words)
        if words:
            self._add_wide(words, None)
        self._fit_rows()

    def show_choice(self, choice: JobChoice) -> None:
        """The files of a job, and what is not there; the row that was current stays so."""
        kept = self.current()
        inventory = choice.inventory
        self._empty(inventory.words)
        for file in inventory.rows:
            self._add_file(choice, file)
        for part in inventory.missing:
            self._add_wide(f"{part.title}: {part.words}", part.part)
        self._fit_rows()
        rows = inventory.rows
        paths = [file.path for file in rows]
        odd = (k for k, file in enumerate(rows) if file.said.state in (State.STOPS, State.ASKS))
        at = paths.index(kept.path) if kept is not None and kept.path in paths else next(odd, 0)
        self.setCurrentCell(at, FILE)
        self.chosen.emit(self.current())

    def current(self) -> FoundFile | None:
        """The file of the current row."""
        item = self.item(self.currentRow(), FILE)
        subject = item.data(SUBJECT) if item is not None else None
        return None if isinstance(subject, str) else subject

    def _empty(self, words: str) -> None:
        self._text = words
        self.clearSpans()
        self.setRowCount(0)

    def _add_file(self, choice: JobChoice, file: FoundFile) -> None:
        frame = "\n".join(filter(None, (_units(file), _crs(file))))
        texts = (SIGNS[file.said.state], f"{file.name}\n{file.kind_words}", frame)
        at = self.rowCount()
        self._is_filling = True
        self.insertRow(at)
        for column, text in enumerate(texts):
            item = QTableWidgetItem(text)
            item.setData(SUBJECT, file)
            item.setFlags(PLAIN)
            item.setToolTip(f"{file.path}\n{file.said.odd}".strip())
            if column == FILE and not file.is_idle:
                may = choice.may_leave_out(file)
                item.setFlags(PLAIN | Qt.ItemFlag.ItemIsUserCheckable if may else PLAIN)
                is_on = choice.takes(file)
                item.setCheckState(Qt.CheckState.Checked if is_on else Qt.CheckState.Unchecked)
            self.setItem(at, column, item)
        self._is_filling = False

    def _add_wide(self, words: str, subject: str | None) -> None:
        """A row across the table."""
        at = self.rowCount()
        self._is_filling = True
        self.insertRow(at)
        sign, item = QTableWidgetItem(SIGNS[State.LACKS] if subject else ""), QTableWidgetItem(words)
        for column, one in ((SIGN, sign), (FILE, item)):
            one.setFlags(PLAIN if subject else Qt.ItemFlag.ItemIsEnabled)
            one.setData(SUBJECT, subject)
            self.setItem(at, column, one)
        self.setSpan(at, FILE, 1, 2)
        self._is_filling = False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_rows()

    def _fit_rows(self) -> None:
        """Files in two lines each; a sentence as high as it is in the width that there is."""
        metrics = self.fontMetrics()
        room = QRect(0, 0, self.columnWidth(FILE) + self.columnWidth(FRAME) - PADDING, HIGHEST)
        for row in range(self.rowCount()):
            words = self.item(row, FILE).text()
            is_wide = self.columnSpan(row, FILE) > 1
            box = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, words) if is_wide else None
            lines = box.height() if box is not None else 2 * metrics.lineSpacing()
            self.setRowHeight(row, lines + PADDING)

    def _tick(self, item: QTableWidgetItem) -> None:
        if not self._is_filling and item.column() == FILE:
            self._was_ticked = True
            is_on = item.checkState() == Qt.CheckState.Checked
            self.ticked.emit(item.data(SUBJECT).path, is_on)

    def _click(self, item: QTableWidgetItem) -> None:
        """Open what somebody has to say something of; a click on a tick only ticks."""
        was_ticked, self._was_ticked = self._was_ticked, False
        subject = item.data(SUBJECT)
        if (
            not was_ticked
            and subject is not None
            and not isinstance(subject, str)
            and subject.said.asks_columns
        ):
            self.opened.emit(subject)

    def _choose(self, row: int, *_: int) -> None:
        if not self._is_filling:
            self.chosen.emit(self.current())


def _units(file: FoundFile) -> str:
    """The units that count; with what the file says where that is something else."""
    now, written = file.said.units, file.written.units
    if not file.said.has_units:
        return ""
    if not now:
        return "?" if file.said.state is State.STOPS and not (file.said.crs or file.said.asks_columns) else ""
    return (
        now if now == written or not written else tr("{now}, not {written}").format(now=now, written=written)
    )


def _crs(file: FoundFile) -> str:
    now, written = file.said.crs, file.written.crs
    return (
        now
        if now == written or not written
        else tr("{now}, not {written}").format(now=now or tr("none"), written=written)
    )


class FileDetails(QWidget):
    """Signals: `stated` with a path and what is said of its file, `columns_wanted` with the file."""

    stated = pyqtSignal(object, object)
    columns_wanted = pyqtSignal(object)

    def __init__(self) -> None:
        super().__init__()
        self._file: FoundFile | None = None
        self._said: Stated = AS_WRITTEN
        self.words = WordsLabel()
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.units = QComboBox()
        self.units.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.units.currentIndexChanged.connect(self._state)
        self.crs = QgsProjectionSelectionWidget()
        self.crs.setOptionVisible(QgsProjectionSelectionWidget.CrsOption.CrsNotSet, visible=True)
        self.crs.crsChanged.connect(self._state)
        self.columns = QPushButton(tr("Which &column is which..."))
        self.columns.clicked.connect(lambda: self.columns_wanted.emit(self._file))
        self.form = QFormLayout()
        self.form.setContentsMargins(0, 0, 0, 0)
        self.form.addRow(tr("Its &units"), self.units)
        self.form.addRow(tr("&Its CRS"), self.crs)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.words)
        rows.addLayout(self.form)
        rows.addWidget(self.columns)
        self.show_file(None, AS_WRITTEN)

    def show_file(self, file: FoundFile | None, said: Stated) -> None:
        """A file, and what is said of it."""
        self._file, self._said = file, said
        self.words.setVisible(file is not None)
        clear = None if file is None or file.said.asks_columns else file.said  # one thing after the other
        self._show_row(self.units, is_on=clear is not None and clear.has_units)
        self._show_row(self.crs, is_on=clear is not None and clear.has_crs)
        self.columns.setVisible(file is not None and (file.said.has_columns or said.columns is not None))
        if file is None:
            return
        odd = file.said.odd
        head = "" if odd.startswith(file.name) else f"{file.name}: {file.kind_words}."
        self.words.show_words(f"{head} {odd}".strip())
        self._fill_units(file, said)
        self._fill_crs(file, said)

    def _show_row(self, widget: QWidget, *, is_on: bool) -> None:
        widget.setVisible(is_on)
        self.form.labelForField(widget).setVisible(is_on)

    def _fill_units(self, file: FoundFile, said: Stated) -> None:
        self.units.blockSignals(True)  # noqa: FBT003 - Qt's own
        self.units.clear()
        self.units.addItem(_as_written(file.written.units), None)
        for unit in LOG_UNITS:
            self.units.addItem(unit_label(unit), unit)
        self.units.setCurrentIndex(max(0, self.units.findData(said.units)) if said.units else 0)
        self.units.blockSignals(False)  # noqa: FBT003

    def _fill_crs(self, file: FoundFile, said: Stated) -> None:
        self.crs.blockSignals(True)  # noqa: FBT003
        written = file.written.crs
        own = tr("as in the file: {crs}").format(crs=written) if written else tr("none: a plane of its own")
        self.crs.setNotSetText(own)
        self.crs.setCrs(crs_named(said.crs or ""))
        self.crs.blockSignals(False)  # noqa: FBT003

    def _state(self, *_: object) -> None:
        if self._file is None:
            return
        units = self.units.currentData()
        said = replace(self._said, units=units, crs=crs_text(self.crs.crs()) or None)
        if said != self._said:
            self.stated.emit(self._file.path, said)


def _as_written(units: str) -> str:
    return tr("as in the file: {units}").format(units=units) if units else tr("not given in the file")


def unit_label(unit: str) -> str:
    """A unit as the user reads it; the two feet are told apart."""
    return {
        "m": tr("m: metres"),
        "ft": tr("ft: international feet"),
        "us-ft": tr("us-ft: US survey feet"),
        "in": tr("in: inches"),
        "cm": tr("cm: centimetres"),
        "mm": tr("mm: millimetres"),
    }[unit]


def crs_named(text: str) -> QgsCoordinateReferenceSystem:
    """The host's CRS of a code or a WKT; an invalid one of no text."""
    if not text:
        return QgsCoordinateReferenceSystem()
    crs = QgsCoordinateReferenceSystem(text)
    return crs if crs.isValid() else QgsCoordinateReferenceSystem.fromWkt(text)


def crs_text(crs: QgsCoordinateReferenceSystem) -> str:
    """A CRS as its code, else as WKT; "" of an invalid one."""
    if not crs.isValid():
        return ""
    return crs.authid() or crs.toWkt(QgsCoordinateReferenceSystem.WktVariant.WKT2_2019)
