# SPDX-License-Identifier: GPL-2.0-or-later
"""The dock: what the open job still lacks, a row a subject, each with its worst figure and its form."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.core import QgsProject
from qgis.PyQt.QtCore import Qt, QTimer
from qgis.PyQt.QtGui import QIcon
from qgis.PyQt.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from ..bridge.desk import Subject, read_desk
from ..bridge.jobs import DeskJob, add_job, read_jobs, survey_crs, why_without_logs
from ..bridge.project import fill_project, has_layers, reload_survey
from ..bridge.resources import icon_path
from ..bridge.text import explain, tr
from ..core.errors import GroundTallyError
from .actions import MENU, show_extent
from .forms import Forms
from .pages.rows import RowsPage
from .pages.words import WordsLabel
from .room import Room
from .runner import Runner
from .tools.figure_actions import FigureActions

if TYPE_CHECKING:
    from qgis.core import QgsVectorLayer

PLAN, RESIDUALS, MISCLOSURES, SECTION = 0, 1, 3, 4
"""Figures of the page of plots."""
DRAWN = {Subject.WALKS: MISCLOSURES, Subject.MARKS: RESIDUALS, Subject.HEIGHTS: SECTION}
"""The figure that a row opens."""
FORMS = {
    Subject.FINDINGS: "findings",
    Subject.PLACE: "pairs",
    Subject.GROUND: "ground",
    Subject.CHECKS: "checks",
    Subject.FIGURES: "working",
}
"""The form that a row opens, by its name in the dock."""


class Dock(Forms):
    """One job at a time; the project may hold several."""

    def __init__(self, iface: Any) -> None:
        super().__init__(iface)
        self.setObjectName("GroundTallyDock")
        self._running: DeskJob | None = None
        self.runner = Runner(self)
        self.jobs = QComboBox()
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self.rows, self.figures = RowsPage(), FigureActions(self)
        self.progress, self.words = QProgressBar(), WordsLabel()
        self.new = QPushButton(tr("&New job..."))
        self.open = QPushButton(tr("&Open survey..."))
        self.back = QPushButton(tr("&Back to the list"))
        self.again = QPushButton(tr("&Run again"))
        self.stop = QPushButton(tr("&Stop"))
        self._lay_out()
        self._connect()
        self._watched = QgsProject.instance()
        self._watched.readProject.connect(self._project_changed)
        self._watched.cleared.connect(self._project_changed)
        self._watched.layersAdded.connect(self._layers_changed)
        self._watched.layersRemoved.connect(self._layers_changed)
        self.read_project()

    def _lay_out(self) -> None:
        top, run, bottom = QHBoxLayout(), QHBoxLayout(), QHBoxLayout()
        top.addWidget(self.jobs, 1)
        for button in (self.new, self.open):
            top.addWidget(button)
        run.addWidget(self.progress, 1)
        run.addWidget(self.stop)
        for button in (self.back, self.again):
            bottom.addWidget(button)
        self.pages.addWidget(self.rows)
        body = QWidget()
        column = QVBoxLayout(body)
        column.addLayout(top)
        self._room = Room(self.pages)
        column.addWidget(self._room, 1)
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
        self.figures.chosen.connect(self._take_figure)
        self.figures.add()
        self.new.clicked.connect(self._start_job)
        self.open.clicked.connect(self._ask_survey)
        self._soon.timeout.connect(self._look_for_surveys)
        self.back.clicked.connect(lambda: self._show(self.rows))
        self.again.clicked.connect(self.run_again)
        self.stop.clicked.connect(self.runner.cancel)

    def _show(self, page: QWidget) -> None:
        pairs = self._if_made("pairs")
        if pairs is not None and self.pages.currentWidget() is pairs is not page:
            pairs.leave()
        self.pages.setCurrentWidget(page)
        self._room.fit()
        self.back.setVisible(page is not self.rows)
        if pairs is not None and page is pairs:
            pairs.open()

    def _start_job(self) -> None:
        self._say("")
        self._show(self.new_job)

    def _ask_survey(self) -> None:
        name, _ = QFileDialog.getOpenFileName(
            self, tr("Open a survey"), self._watched.homePath(), tr("GeoPackage") + " (*.gpkg)"
        )
        if name:
            self.open_survey(Path(name))

    def open_survey(self, path: Path) -> None:
        """Show a survey that was made elsewhere, by command or by somebody else; a file that is none is told."""
        from ..bridge.open_survey import open_survey_file

        is_first = not self._watched.mapLayers()
        try:
            job, layers = open_survey_file(self._watched, path)
        except GroundTallyError as error:
            self._say(explain(error))
            return
        if is_first and layers:
            QTimer.singleShot(0, self._show_all)
        self.read_project(job)
        self._show(self.rows)

    def _show_figure(self, figure: int) -> None:
        self.plots.choice.setCurrentIndex(figure)
        self._show(self.plots)

    def _take_figure(self, layer: QgsVectorLayer, row: int) -> None:
        self.working.take(layer, row)

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
            self.jobs.setItemData(self.jobs.count() - 1, str(job.survey), Qt.ItemDataRole.ToolTipRole)
        self.jobs.blockSignals(False)  # noqa: FBT003
        index = next((k for k in range(self.jobs.count()) if self.jobs.itemData(k) == kept), 0)
        self.jobs.setCurrentIndex(index)
        self.refresh()

    def _project_changed(self, *_: object) -> None:
        self.read_project()

    def _layers_changed(self, *_: object) -> None:
        self._soon.start(0)  # they come one by one

    def _look_for_surveys(self) -> None:
        """Layers came or went, and with them perhaps surveys."""
        shown = [self.jobs.itemData(k) for k in range(self.jobs.count())]
        if shown != list(read_jobs(self._watched)):
            self.read_project()

    @property
    def job(self) -> DeskJob | None:
        """The job that is shown."""
        return self.jobs.currentData()

    def _show_rows(self) -> None:
        self.rows.show_rows(() if self.job is None else read_desk(self.job))

    def refresh(self) -> None:
        """Read the job's survey again."""
        job = self.job
        self.jobs.setVisible(self.jobs.count() > 0)
        self.again.setVisible(job is not None)
        self._show_again()
        self._show_rows()
        working = self._if_made("working")
        if working is not None:
            working.clear()  # rows of the survey may have other numbers now
        if job is None:
            self._say(tr("No job yet: start one from the folder of its logs, or open a survey."))
            return
        if not job.has_logs and self.pages.currentWidget() is self._if_made("pairs"):
            self._show(self.rows)  # pairs are written beside the logs
        self._say("")
        crs = survey_crs(job)
        for tell in self._told:
            tell(job, crs)

    def _show_again(self) -> None:
        has_logs = self.job is not None and self.job.has_logs
        self.again.setEnabled(has_logs and not self.runner.is_busy)
        self.again.setToolTip("" if has_logs or self.job is None else why_without_logs())

    def open_row(self, subject: Subject) -> None:
        """Open the form of a subject, or the table that holds its figures."""
        job = self.job
        if job is None or not job.is_surveyed:
            if job is not None:
                self.new_job.show_job(job, survey_crs(job), job.parameters or None)
            self._show(self.new_job)
        elif subject is Subject.SIDES:
            self._open_table(job, "sides")
        elif subject is Subject.PLACE and not job.has_logs:
            self._show_figure(RESIDUALS)
            self._say(why_without_logs())
        elif subject in DRAWN:
            self._show_figure(DRAWN[subject])
        else:
            self._show(getattr(self, FORMS[subject]))

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
        if job is not None and job.has_logs:
            self.run_job(job, dict(job.parameters))

    def _end(self, was_good: bool, results: dict[str, object], said: str) -> None:
        self._show_run(is_on=False)
        job, self._running = self._running, None
        if not was_good or job is None:
            self._say(said)
            self._show_again()
            return
        project = QgsProject.instance()
        is_new = job not in read_jobs(project) and not has_layers(project, job.survey)
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
        if self.pages.currentWidget() in (self._if_made("new_job"), self._if_made("pairs")):
            self._show(self.rows)
        if said:
            self._say(said)

    def _show_all(self) -> None:
        show_extent(self._iface.mapCanvas(), self._watched.viewSettings().defaultViewExtent())

    def close_down(self) -> None:
        """Let go of the window, the project and a run."""
        self.runner.cancel()
        self.figures.remove()
        for page in map(self._if_made, ("pairs", "plots", "ground", "checks", "working", "plan")):
            if page is not None:
                page.close_down()
        self._watched.readProject.disconnect(self._project_changed)
        self._watched.cleared.disconnect(self._project_changed)
        self._watched.layersAdded.disconnect(self._layers_changed)
        self._watched.layersRemoved.disconnect(self._layers_changed)
        self._soon.stop()
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
