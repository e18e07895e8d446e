# SPDX-License-Identifier: GPL-2.0-or-later
"""Findings and answers: looked at on the map, answered, taken back."""

from __future__ import annotations

from datetime import datetime, timezone
from typing import TYPE_CHECKING, Any

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsGeometry,
    QgsPointXY,
    QgsProject,
)
from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from ...bridge.answers import Answer, add_answer, recommended, take_back
from ...bridge.findings import ToldFinding, read_findings
from ...bridge.jobs import why_without_logs
from ...bridge.settings import answerer
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ..findings_model import ANSWER, MESSAGE, FindingsModel

if TYPE_CHECKING:
    from ...bridge.jobs import DeskJob

NEAR = 15.0
"""Units of the survey's CRS that are shown about a finding."""


class FindingsPage(QWidget):
    """Signals: `answered` when the decisions file was changed, so that the job can run again."""

    answered = pyqtSignal()

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._iface = iface
        self._job: DeskJob | None = None
        self._crs = QgsCoordinateReferenceSystem()
        self.model = FindingsModel()
        self.table = QTableView()
        self.table.setModel(self.model)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setWordWrap(True)
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setSectionResizeMode(MESSAGE, QHeaderView.ResizeMode.Stretch)
        self.table.horizontalHeader().setSectionResizeMode(ANSWER, QHeaderView.ResizeMode.ResizeToContents)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.table.activated.connect(lambda index: self.zoom_to(index.row()))
        self.table.doubleClicked.connect(lambda index: self.zoom_to(index.row()))
        self.table.selectionModel().currentRowChanged.connect(lambda now, _: self._show(now.row()))
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.choice = QComboBox()
        self.give, self.undo = QPushButton(tr("Answer")), QPushButton(tr("Take back"))
        self.give.clicked.connect(self.answer)
        self.undo.clicked.connect(self.take_back)
        self._lay_out()
        self._show(-1)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        for widget, stretch in ((self.choice, 1), (self.give, 0), (self.undo, 0)):
            buttons.addWidget(widget, stretch)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.table, 1)
        rows.addWidget(self.words)
        rows.addLayout(buttons)

    def show_job(self, job: DeskJob, crs: QgsCoordinateReferenceSystem) -> None:
        """The findings of a job, whose places are in a CRS."""
        self._job, self._crs = job, crs
        self.model.show(read_findings(job.survey))
        self._show(-1)

    def current(self) -> ToldFinding | None:
        """The finding that is chosen."""
        return self.model.finding(self.table.currentIndex().row())

    def _show(self, row: int) -> None:
        finding = self.model.finding(row)
        self.choice.clear()
        self.words.setText("" if finding is None else finding.remedy)
        if finding is not None:
            advised = recommended(finding.code, finding.answers)
            for answer in finding.answers:
                words = tr("{answer} (recommended)").format(answer=answer) if answer == advised else answer
                self.choice.addItem(words, answer)
        has_logs = self._job is None or self._job.has_logs
        can = has_logs and finding is not None and bool(finding.answers)
        self.choice.setEnabled(can)
        self.give.setEnabled(can)
        self.undo.setEnabled(has_logs and finding is not None and finding.is_answered)
        for widget in (self.choice, self.give, self.undo):
            widget.setToolTip("" if has_logs else why_without_logs())

    def zoom_to(self, row: int) -> None:
        """Show a finding's place on the map, and flash it."""
        finding = self.model.finding(row)
        if finding is None or finding.at is None:
            return
        canvas = self._iface.mapCanvas()
        there = QgsCoordinateTransform(
            self._crs, canvas.mapSettings().destinationCrs(), QgsProject.instance()
        )
        x, y = finding.at
        about = QgsGeometry.fromPointXY(QgsPointXY(x, y)).buffer(NEAR, 8)
        about.transform(there)
        canvas.setExtent(about.boundingBox())
        canvas.refresh()
        canvas.flashGeometries([QgsGeometry.fromPointXY(QgsPointXY(x, y))], self._crs)

    def answer(self) -> None:
        """Write the chosen word into the decisions file."""
        finding = self.current()
        if finding is None or self._job is None or not self.choice.currentData():
            return
        when = datetime.now(timezone.utc).isoformat(timespec="seconds")
        told = Answer(finding.code, finding.place, self.choice.currentData(), answerer(), when)
        self._change(lambda folder: add_answer(folder, told))

    def take_back(self) -> None:
        """Remove the answer of the chosen finding."""
        finding = self.current()
        if finding is not None:
            self._change(lambda folder: take_back(folder, finding.code, finding.place))

    def _change(self, change: Any) -> None:
        assert self._job is not None  # noqa: S101 - findings are of a job
        try:
            change(self._job.folder)
        except GroundTallyError as error:
            self._iface.messageBar().pushWarning("Ground Tally", explain(error))
            return
        self.answered.emit()
