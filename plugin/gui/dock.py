# SPDX-License-Identifier: GPL-2.0-or-later
"""The dock: what the open job still lacks, a row a subject, each with its worst figure and its form."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from qgis.core import QgsProject
from qgis.gui import QgsDockWidget
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtGui import QIcon
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QProgressBar,
    QPushButton,
    QStackedWidget,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ..bridge.desk import DeskJob, DeskRow, State, Subject, add_job, read_desk, read_jobs, survey_crs
from ..bridge.project import fill_project
from ..bridge.resources import icon_path
from ..bridge.text import explain, tr
from ..core.errors import GroundTallyError
from .actions import MENU
from .pages.findings import FindingsPage
from .pages.new_job import NewJobPage
from .runner import Runner

SIGNS = {State.GOOD: "✓", State.LACKS: "–", State.ASKS: "?", State.STOPS: "✕"}
"""A letter for each state, so that nothing hangs on a colour."""
TABLES = {
    Subject.WALKS: "walks",
    Subject.MARKS: "marks",
    Subject.PLACE: "placement",
    Subject.HEIGHTS: "stations",
    Subject.SIDES: "sides",
    Subject.FIGURES: "areas",
}
"""The table that a row opens which has no form of its own."""
SUBJECT = Qt.ItemDataRole.UserRole


class Dock(QgsDockWidget):
    """One job at a time; the project may hold several."""

    def __init__(self, iface: Any) -> None:
        super().__init__(tr("Ground Tally"))
        self.setObjectName("GroundTallyDock")
        self._iface = iface
        self.progress, self.words = QProgressBar(), QLabel()
        self.runner = Runner(self)
        self.runner.moved.connect(lambda part: self.progress.setValue(round(part)))
        self.runner.ended.connect(self._end)
        self._running: DeskJob | None = None
        self._parameters: dict[Path, dict[str, object]] = {}
        self.jobs = QComboBox()
        self.jobs.currentIndexChanged.connect(lambda _: self.refresh())
        self.rows = QTableWidget(0, 2)
        self.new_job, self.findings = NewJobPage(), FindingsPage(iface)
        self.new_job.wanted.connect(self.run_job)
        self.findings.answered.connect(self.run_again)
        self.pages = QStackedWidget()
        self.back = QPushButton(tr("Back to the list"))
        self.again = QPushButton(tr("Run again"))
        self.stop = QPushButton(tr("Stop"))
        self._lay_out()
        self._watched = QgsProject.instance()
        self._watched.readProject.connect(self._project_changed)
        self._watched.cleared.connect(self._project_changed)
        self.read_project()

    def _lay_out(self) -> None:
        self.rows.horizontalHeader().hide()
        self.rows.verticalHeader().hide()
        self.rows.setShowGrid(False)
        self.rows.setAlternatingRowColors(True)
        self.rows.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.rows.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.rows.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.rows.setTabKeyNavigation(False)
        fits, fills = QHeaderView.ResizeMode.ResizeToContents, QHeaderView.ResizeMode.Stretch
        self.rows.horizontalHeader().setSectionResizeMode(0, fits)
        self.rows.horizontalHeader().setSectionResizeMode(1, fills)
        self.rows.verticalHeader().setSectionResizeMode(fits)
        self.rows.itemActivated.connect(lambda item: self.open_row(item.data(SUBJECT)))
        new = QPushButton(tr("New job..."))
        new.clicked.connect(lambda: self._show(self.new_job))
        self.back.clicked.connect(lambda: self._show(self.rows))
        self.again.clicked.connect(self.run_again)
        self.stop.clicked.connect(self.runner.cancel)
        top, bottom = QHBoxLayout(), QHBoxLayout()
        top.addWidget(self.jobs, 1)
        top.addWidget(new)
        for widget in (self.back, self.again):
            bottom.addWidget(widget)
        run = QHBoxLayout()
        run.addWidget(self.progress, 1)
        run.addWidget(self.stop)
        for page in (self.rows, self.new_job, self.findings):
            self.pages.addWidget(page)
        self.words.setWordWrap(True)
        body = QWidget()
        column = QVBoxLayout(body)
        column.addLayout(top)
        column.addWidget(self.pages, 1)
        column.addWidget(self.words)
        column.addLayout(run)
        column.addLayout(bottom)
        self.setWidget(body)
        self._show_run(is_on=False)
        self._show(self.rows)

    def _show(self, page: QWidget) -> None:
        self.pages.setCurrentWidget(page)
        self.back.setVisible(page is not self.rows)

    def _show_run(self, *, is_on: bool) -> None:
        self.progress.setVisible(is_on)
        self.stop.setVisible(is_on)
        self.progress.setValue(0)

    def read_project(self, wanted: DeskJob | None = None) -> None:
        """The jobs of the project that is open; the one that is wanted is shown, else the one that was."""
        kept = self.job if wanted is None else wanted
        self.jobs.blockSignals(True)  # noqa: FBT003 - Qt's own
        self.jobs.clear()
        for job in read_jobs(QgsProject.instance()):
            self.jobs.addItem(job.name, job)
        self.jobs.blockSignals(False)  # noqa: FBT003
        index = next((k for k in range(self.jobs.count()) if self.jobs.itemData(k) == kept), 0)
        self.jobs.setCurrentIndex(index)
        self.refresh()

    def _project_changed(self, *_: object) -> None:
        self.read_project()

    @property
    def job(self) -> DeskJob | None:
        """The job that is shown."""
        return self.jobs.currentData()

    def refresh(self) -> None:
        """Read the job's survey again."""
        self.rows.setRowCount(0)
        job = self.job
        self.again.setEnabled(job is not None and not self.runner.is_busy)
        if job is None:
            self.words.setText(tr("No job yet: start one from the folder of its logs."))
            return
        self.words.setText("")
        for row in read_desk(job):
            self._add(row)
        self.findings.show_job(job, survey_crs(job))

    def _add(self, row: DeskRow) -> None:
        at = self.rows.rowCount()
        self.rows.insertRow(at)
        for column, text in enumerate((SIGNS[row.state], f"{row.title}\n{row.words}")):
            item = QTableWidgetItem(text)
            item.setData(SUBJECT, row.subject)
            self.rows.setItem(at, column, item)

    def open_row(self, subject: Subject) -> None:
        """Open the form of a subject, or the table that holds its figures."""
        if subject is Subject.FINDINGS:
            self._show(self.findings)
            return
        job = self.job
        if job is None or not job.is_surveyed:
            self._show(self.new_job)
            return
        table = TABLES[subject]
        for layer in QgsProject.instance().mapLayers().values():
            path, _, rest = layer.source().partition("|layername=")
            if Path(path) == job.survey and rest.split("|")[0] == table:
                self._iface.showAttributeTable(layer)
                return

    def run_job(self, job: DeskJob, parameters: dict[str, object]) -> None:
        """Survey a job in the background."""
        if self.runner.is_busy:
            return
        self._running = job
        self._parameters[job.folder] = parameters
        self._show_run(is_on=True)
        self.words.setText(tr("Surveying {name}").format(name=job.name))
        self.runner.start("survey_walks", parameters)
        self.again.setEnabled(False)

    def run_again(self) -> None:
        """Survey the job that is shown once more."""
        job = self.job
        if job is not None:
            plain: dict[str, object] = {"LOGS": [str(job.folder)], "OUTPUT": str(job.survey)}
            self.run_job(job, self._parameters.get(job.folder, plain))

    def _end(self, was_good: bool, results: dict[str, object], said: str) -> None:
        self._show_run(is_on=False)
        job, self._running = self._running, None
        if not was_good or job is None:
            self.words.setText(said)
            self.again.setEnabled(self.job is not None)
            return
        project = QgsProject.instance()
        is_new = job not in read_jobs(project)
        add_job(project, job)
        try:
            layers = fill_project(project, job.survey) if is_new else self._reload(job)
        except GroundTallyError as error:
            self.words.setText(explain(error))
            layers = []
        if is_new and layers:
            self._iface.mapCanvas().setReferencedExtent(project.viewSettings().defaultViewExtent())
        self.read_project(job)
        if self.pages.currentWidget() is self.new_job:
            self._show(self.rows)

    def _reload(self, job: DeskJob) -> list[Any]:
        """Have the layers of a survey that was made anew read their file again."""
        layers = [
            layer
            for layer in QgsProject.instance().mapLayers().values()
            if Path(layer.source().partition("|")[0]) == job.survey
        ]
        for layer in layers:
            layer.dataProvider().reloadData()
            layer.triggerRepaint()
        return layers

    def close_down(self) -> None:
        """Let go of the window, the project and a run."""
        self.runner.cancel()
        self._watched.readProject.disconnect(self._project_changed)
        self._watched.cleared.disconnect(self._project_changed)
        self._iface.removePluginMenu(MENU, self.toggleViewAction())
        self._iface.removeDockWidget(self)
        self.setParent(None)
        self.deleteLater()


def open_dock(iface: Any) -> Dock:
    """The dock in the window, at the right, with an entry in the menu that shows and hides it."""
    dock = Dock(iface)
    iface.addDockWidget(Qt.DockWidgetArea.RightDockWidgetArea, dock)
    dock.toggleViewAction().setIcon(QIcon(icon_path("ground_tally")))
    iface.addPluginToMenu(MENU, dock.toggleViewAction())
    return dock
