# SPDX-License-Identifier: GPL-2.0-or-later
"""The dock: what the open job still lacks, a row a subject, each with its worst figure and its form."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

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
from .pages.rows import RowsPage
from .pages.words import WordsLabel
from .room import Room
from .runner import Runner
from .tools.figure_actions import FigureActions

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsCoordinateReferenceSystem, QgsVectorLayer

    from .pages.checks import ChecksPage
    from .pages.findings import FindingsPage
    from .pages.ground import GroundPage
    from .pages.new_job import NewJobPage
    from .pages.pairs import PairsPage
    from .pages.plan_walk import PlanWalkPage
    from .pages.plots import PlotsPage
    from .pages.working import WorkingPage

    Tell = Callable[[DeskJob, QgsCoordinateReferenceSystem], object]

Page = TypeVar("Page", bound=QWidget)

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


class Dock(QgsDockWidget):
    """One job at a time; the project may hold several. Its forms are made when they are first asked for, and their files
    imported then: the host starts without them."""

    def __init__(self, iface: Any) -> None:
        super().__init__(tr("Ground Tally"))
        self.setObjectName("GroundTallyDock")
        self._iface = iface
        self._running: DeskJob | None = None
        self.runner = Runner(self)
        self.jobs = QComboBox()
        self._told: list[Tell] = []
        self.rows, self.pages, self.figures = RowsPage(), QStackedWidget(), FigureActions(self)
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
        self.back.clicked.connect(lambda: self._show(self.rows))
        self.again.clicked.connect(self.run_again)
        self.stop.clicked.connect(self.runner.cancel)

    @cached_property
    def new_job(self) -> NewJobPage:
        from .pages.new_job import NewJobPage

        page = self._made(NewJobPage(self._iface))
        page.wanted.connect(self.run_job)
        return page

    @cached_property
    def findings(self) -> FindingsPage:
        from .pages.findings import FindingsPage

        page = FindingsPage(self._iface)
        page.answered.connect(self.run_again)
        return self._made(page, page.show_job)

    @cached_property
    def pairs(self) -> PairsPage:
        from .pages.pairs import PairsPage

        page = PairsPage(self._iface)
        page.accepted.connect(self.run_again)
        return self._made(page, lambda job, _: page.show_job(job))

    @cached_property
    def plots(self) -> PlotsPage:
        from .pages.plots import PlotsPage

        page = PlotsPage(self._iface)
        return self._made(page, page.show_job)

    @cached_property
    def working(self) -> WorkingPage:
        from .pages.working import WorkingPage

        page = self._made(WorkingPage(self._iface))
        page.shown.connect(self._show_working)
        return page

    @cached_property
    def ground(self) -> GroundPage:
        from .pages.ground import GroundPage

        page = GroundPage(self._iface)
        page.changed.connect(self._show_rows)
        return self._made(page, page.show_job)

    @cached_property
    def checks(self) -> ChecksPage:
        from .pages.checks import ChecksPage

        page = ChecksPage(self._iface)
        page.changed.connect(self._show_rows)
        return self._made(page, page.show_job)

    @cached_property
    def plan(self) -> PlanWalkPage:
        from .pages.plan_walk import PlanWalkPage

        page = PlanWalkPage(self._iface)
        return self._made(page, page.show_job)

    def _made(self, page: Page, tell: Tell | None = None) -> Page:
        """A form, in the stack; where it shows a job it is told of it now, and whenever the job is read again."""
        self.pages.addWidget(page)
        if tell is not None:
            self._told.append(tell)
            if self.job is not None:
                tell(self.job, survey_crs(self.job))
        return page

    def _if_made(self, name: str) -> Any:
        """A form that was asked for before; None where it was not."""
        return vars(self).get(name)

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

    def _show_rows(self) -> None:
        self.rows.show_rows(() if self.job is None else read_desk(self.job))

    def refresh(self) -> None:
        """Read the job's survey again."""
        job = self.job
        self.jobs.setVisible(self.jobs.count() > 0)
        self.again.setVisible(job is not None)
        self.again.setEnabled(not self.runner.is_busy)
        self._show_rows()
        working = self._if_made("working")
        if working is not None:
            working.clear()  # rows of the survey may have other numbers now
        if job is None:
            self._say(tr("No job yet: start one from the folder of its logs."))
            return
        self._say("")
        crs = survey_crs(job)
        for tell in self._told:
            tell(job, crs)

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
