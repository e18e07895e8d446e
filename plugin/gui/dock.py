# SPDX-License-Identifier: GPL-2.0-or-later
"""The dock: what the open job still lacks, a row a subject, each with its worst figure and its form."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from qgis.core import QgsProject
from qgis.gui import QgsDockWidget
from qgis.PyQt.QtCore import Qt, QTimer
from qgis.PyQt.QtGui import QIcon
from qgis.PyQt.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QProgressBar,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from ..bridge.desk import Subject, read_desk
from ..bridge.jobs import DeskJob, add_job, read_jobs, survey_crs
from ..bridge.project import fill_project, reload_survey
from ..bridge.resources import icon_path
from ..bridge.text import explain, tr
from ..core.errors import GroundTallyError
from .actions import MENU, show_extent
from .pages.findings import FindingsPage
from .pages.new_job import NewJobPage
from .pages.pairs import PairsPage
from .pages.plan_walk import PlanWalkPage
from .pages.plots import PlotsPage
from .pages.rows import RowsPage
from .pages.words import WordsLabel
from .pages.working import WorkingPage
from .runner import Runner

PLAN, RESIDUALS, MISCLOSURES, SECTION = 0, 1, 3, 4
"""Figures of the page of plots."""
DRAWN = {Subject.WALKS: MISCLOSURES, Subject.MARKS: RESIDUALS, Subject.HEIGHTS: SECTION}
"""The figure that a row opens."""


class Dock(QgsDockWidget):
    """One job at a time; the project may hold several."""

    def __init__(self, iface: Any) -> None:
        super().__init__(tr("Ground Tally"))
        self.setObjectName("GroundTallyDock")
        self._iface = iface
        self._running: DeskJob | None = None
        self.runner = Runner(self)
        self.jobs = QComboBox()
        self.rows, self.new_job, self.findings = RowsPage(), NewJobPage(iface), FindingsPage(iface)
        self.pairs, self.plots, self.working = PairsPage(iface), PlotsPage(iface), WorkingPage(iface)
        self.plan = PlanWalkPage(iface)
        self.pages = QStackedWidget()
        self.progress, self.words = QProgressBar(), WordsLabel()
        self.new = QPushButton(tr("&New job..."))
        self.back = QPushButton(tr("&Back to the list"))
        self.again = QPushButton(tr("&Run again"))
        self.stop = QPushButton(tr("&Stop"))
        self._lay_out()
        self._connect()
        self._watched = QgsProject.instance()
        self._watched.readProject.connect(self._project_changed)
        self._watched.cleared.connect(self._project_changed)
        self.read_project()

    def _lay_out(self) -> None:
        top, run, bottom = QHBoxLayout(), QHBoxLayout(), QHBoxLayout()
        top.addWidget(self.jobs, 1)
        top.addWidget(self.new)
        run.addWidget(self.progress, 1)
        run.addWidget(self.stop)
        for button in (self.back, self.again):
            bottom.addWidget(button)
        for page in (
            self.rows,
            self.new_job,
            self.findings,
            self.pairs,
            self.plots,
            self.working,
            self.plan,
        ):
            self.pages.addWidget(page)
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

    def _connect(self) -> None:
        self.runner.moved.connect(lambda part: self.progress.setValue(round(part)))
        self.runner.ended.connect(self._end)
        self.jobs.currentIndexChanged.connect(lambda _: self.refresh())
        self.rows.opened.connect(self.open_row)
        self.rows.drawing_wanted.connect(lambda: self._show_figure(PLAN))
        self.rows.plan_wanted.connect(lambda: self._show(self.plan))
        self.new_job.wanted.connect(self.run_job)
        self.findings.answered.connect(self.run_again)
        self.pairs.accepted.connect(self.run_again)
        self.working.shown.connect(self._show_working)
        self.new.clicked.connect(self._start_job)
        self.back.clicked.connect(lambda: self._show(self.rows))
        self.again.clicked.connect(self.run_again)
        self.stop.clicked.connect(self.runner.cancel)

    def _show(self, page: QWidget) -> None:
        if self.pages.currentWidget() is self.pairs and page is not self.pairs:
            self.pairs.leave()
        self.pages.setCurrentWidget(page)
        self.back.setVisible(page is not self.rows)
        if page is self.pairs:
            self.pairs.open()

    def _start_job(self) -> None:
        self._say("")
        self._show(self.new_job)

    def _show_figure(self, figure: int) -> None:
        self.plots.choice.setCurrentIndex(figure)
        self._show(self.plots)

    def _show_working(self) -> None:
        self.show()
        self.raise_()
        self._show(self.working)

    def _say(self, words: str) -> None:
        """One line below the page; no room is kept where there is nothing to say."""
        self.words.show_words(words)
        self.words.setVisible(bool(words))

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
        job = self.job
        self.jobs.setVisible(self.jobs.count() > 0)
        self.again.setVisible(job is not None)
        self.again.setEnabled(not self.runner.is_busy)
        self.rows.show_rows(() if job is None else read_desk(job))
        # Rows of the survey may have other numbers now.
        self.working.clear()
        if job is None:
            self._say(tr("No job yet: start one from the folder of its logs."))
            return
        self._say("")
        crs = survey_crs(job)
        self.findings.show_job(job, crs)
        self.plots.show_job(job, crs)
        self.plan.show_job(job, crs)
        self.pairs.show_job(job)

    def open_row(self, subject: Subject) -> None:
        """Open the form of a subject, or the table that holds its figures."""
        job = self.job
        if job is None or not job.is_surveyed:
            if job is not None:
                self.new_job.show_job(job, survey_crs(job), job.parameters or None)
            self._show(self.new_job)
        elif subject is Subject.SIDES:
            self._open_table(job, "sides")
        elif subject in DRAWN:
            self._show_figure(DRAWN[subject])
        else:
            forms = {
                Subject.FINDINGS: self.findings,
                Subject.PLACE: self.pairs,
                Subject.FIGURES: self.working,
            }
            self._show(forms[subject])

    def _open_table(self, job: DeskJob, table: str) -> None:
        for layer in QgsProject.instance().mapLayers().values():
            path, _, rest = layer.source().partition("|layername=")
            if Path(path) == job.survey and rest.split("|", 1)[0] == table:
                self._iface.showAttributeTable(layer)
                return

    def run_job(self, job: DeskJob, parameters: dict[str, object]) -> None:
        """Survey a job in the background."""
        if self.runner.is_busy:
            return
        self._running = replace(job, parameters=parameters)
        self._show_run(is_on=True)
        self._say(tr("Surveying {name}").format(name=job.name))
        self.again.setEnabled(False)
        self.runner.start("survey_walks", self._running.run_parameters)

    def run_again(self) -> None:
        """Survey the job that is shown once more."""
        job = self.job
        if job is not None:
            self.run_job(job, dict(job.parameters))

    def _end(self, was_good: bool, results: dict[str, object], said: str) -> None:
        self._show_run(is_on=False)
        job, self._running = self._running, None
        if not was_good or job is None:
            self._say(said)
            self.again.setEnabled(self.job is not None)
            return
        project = QgsProject.instance()
        is_new = job not in read_jobs(project)
        add_job(project, job)
        said = ""
        try:
            layers = fill_project(project, job.survey) if is_new else reload_survey(project, job.survey)
        except GroundTallyError as error:
            said, layers = explain(error), []
        if is_new and layers:
            # After the host, which shows all layers of a project that had none.
            QTimer.singleShot(0, self._show_all)
        self.read_project(job)
        if self.pages.currentWidget() in (self.new_job, self.pairs):
            self._show(self.rows)
        if said:
            self._say(said)

    def _show_all(self) -> None:
        show_extent(self._iface.mapCanvas(), self._watched.viewSettings().defaultViewExtent())

    def close_down(self) -> None:
        """Let go of the window, the project and a run."""
        self.runner.cancel()
        for page in (self.pairs, self.plots, self.working, self.plan):
            page.close_down()
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
