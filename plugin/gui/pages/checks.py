# SPDX-License-Identifier: GPL-2.0-or-later
"""The checks of a job against limits: chosen, run, and looked at on the map."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsProject,
    QgsRectangle,
)
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtWidgets import QHBoxLayout, QProgressBar, QPushButton, QTabWidget, QVBoxLayout, QWidget

from ...bridge.checks_file import check_places, checks_file, read_checks, survey_stamp
from ...bridge.checks_run import KeptChoice, add_checks, check_parameters, keep_choice, read_choice, why_old
from ...bridge.survey_view import on_earth
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ..runner import Runner
from .checks_limits import LimitsTab
from .checks_results import ResultsTab
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from qgis.core import QgsGeometry

    from ...bridge.checks_file import ToldCheck
    from ...bridge.checks_run import CheckChoice
    from ...bridge.jobs import DeskJob

RESULTS, LIMITS = range(2)
"""The tabs."""
MARGIN = 6
"""Pixels above a tab's first row."""
AROUND = 1.6
"""How much wider than a feature the map is that is zoomed to it."""
LEAST = 2.0
"""Units of the survey's CRS that are shown about a feature at the least, half of the width."""


@dataclass(frozen=True)
class _Run:
    """Of which job, with what, and when its survey was made."""

    job: DeskJob
    choice: CheckChoice
    parameters: Mapping[str, object]
    stamp: str


class ChecksPage(QWidget):
    """`show_job` tells whose survey is checked; `close_down` gives back the project and a run.

    Signals: `changed` when the checks of a job were made anew.
    """

    changed = pyqtSignal()

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._iface = iface
        self._job: DeskJob | None = None
        self._crs = QgsCoordinateReferenceSystem()
        self._running: _Run | None = None
        self.runner = Runner(self)
        self.results, self.limits, self.tabs = ResultsTab(), LimitsTab(), QTabWidget()
        self.progress, self.words, self.why = QProgressBar(), WordsLabel(), WordsLabel()
        self.check, self.stop = QPushButton(tr("&Check")), QPushButton(tr("Sto&p"))
        self._lay_out()
        self._connect()
        self._project = QgsProject.instance()
        self._project.cleared.connect(self._forget)
        self._show_run(is_on=False)
        self._say("")

    def _lay_out(self) -> None:
        for tab, name in ((self.results, tr("R&esults")), (self.limits, tr("&Limits"))):
            self.tabs.addTab(tab, name)
            # The dock is narrow: its own margin is enough at both sides.
            tab.layout().setContentsMargins(0, MARGIN, 0, 0)
        self.tabs.setDocumentMode(True)
        run, rows = QHBoxLayout(), QVBoxLayout(self)
        run.addWidget(self.progress, 1)
        run.addWidget(self.stop)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.tabs, 1)
        for widget in (self.words, self.why, self.check):
            rows.addWidget(widget)
        rows.addLayout(run)

    def _connect(self) -> None:
        self.runner.moved.connect(lambda part: self.progress.setValue(round(part)))
        self.runner.ended.connect(self._end)
        self.limits.changed.connect(self._keep)
        self.results.looked_at.connect(lambda check: self._look_at(check, is_near=False))
        self.results.zoom_wanted.connect(lambda check: self._look_at(check, is_near=True))
        self.check.clicked.connect(self.run)
        self.stop.clicked.connect(self.runner.cancel)

    def showEvent(self, event: Any) -> None:
        """Tables may have been changed by other programs meanwhile."""
        super().showEvent(event)
        if self._job is not None:
            self.limits.read_again()
            self._show_checks()

    def show_job(self, job: DeskJob, crs: QgsCoordinateReferenceSystem) -> None:
        """The checks of a job, whose survey's layers are in a CRS."""
        self.limits.settle()
        is_other = self._job != job
        # The host knows no way from a plane of its own to any map: without a CRS it draws what is there.
        self._job, self._crs = job, on_earth(crs)
        self.limits.show_choice(read_choice(self._project, job).now)
        if is_other:
            self._say("")
        self._show_checks()
        if is_other:
            self.tabs.setCurrentIndex(RESULTS if checks_file(job.survey).is_file() else LIMITS)

    # --- what there is ---

    def _show_checks(self) -> None:
        job = self._job
        if job is None or not job.is_surveyed:
            self.results.show_checks((), "", tr("Nothing surveyed yet: run the job."))
        elif not checks_file(job.survey).is_file():
            words = tr("Not checked yet: tick the limits that hold here, then press Check.")
            self.results.show_checks((), "", words)
        else:
            self._show_file(job)
        self._show_state()

    def _show_file(self, job: DeskJob) -> None:
        try:
            checks = read_checks(checks_file(job.survey))
        except GroundTallyError as error:
            self.results.show_checks((), "", explain(error))
            return
        why = why_old(self._project, job)
        state = f"{tr('Out of date.')} {why} {tr('Press Check.')}" if why else ""
        empty = tr("There is nothing in this survey that limits are of.")
        self.results.show_checks(checks, state, "" if checks else empty)

    def _show_state(self) -> None:
        """What can be done now."""
        can = self._job is not None and self._job.is_surveyed
        why = self.limits.why_not if can else ""
        self.check.setEnabled(can and not why and not self.runner.is_busy)
        self.why.show_words(why)
        self.why.setVisible(bool(why))

    def _keep(self) -> None:
        """The user has chosen something else."""
        if self._job is None:
            return
        kept = read_choice(self._project, self._job)
        keep_choice(self._project, self._job, KeptChoice(self.limits.choice, kept.ran))
        self._show_checks()

    # --- on the map ---

    def _look_at(self, check: ToldCheck, *, is_near: bool) -> None:
        """Flash what a check is of; where it is not on the map that is shown, or is asked for, bring the map there."""
        places = () if self._job is None else check_places(self._job.survey, check)
        if not places:
            self._say(tr("{feature} is no more in the survey.").format(feature=check.feature))
            return
        self._say("")
        canvas = self._iface.mapCanvas()
        box = self._box(places)
        if box is not None and is_near:
            canvas.setExtent(box)
            canvas.refresh()
        elif box is not None and not canvas.extent().intersects(box):
            canvas.setCenter(box.center())
            canvas.refresh()
        canvas.flashGeometries(list(places), self._crs)

    def _box(self, places: Sequence[QgsGeometry]) -> QgsRectangle | None:
        """Where they are in the map's CRS, with a little around; None where the map cannot show it."""
        box = QgsRectangle(places[0].boundingBox())
        for place in places[1:]:
            box.combineExtentWith(place.boundingBox())
        box.scale(AROUND)
        box = box.buffered(LEAST)
        there = self._iface.mapCanvas().mapSettings().destinationCrs()
        try:
            return QgsCoordinateTransform(self._crs, there, self._project).transformBoundingBox(box)
        except QgsCsException:
            return None

    # --- the run ---

    def run(self) -> None:
        """Check the job's survey in the background."""
        job = self._job
        if job is None or self.runner.is_busy:
            return
        self.limits.read_again()
        self._show_state()
        if not self.limits.why_not:
            parameters = check_parameters(job, self.limits.told, self.limits.names)
            self._start(_Run(job, self.limits.choice, parameters, survey_stamp(job.survey)))

    def _start(self, run: _Run) -> None:
        self._running = run
        self._say(tr("Checking {name}").format(name=run.job.name))
        self.runner.start("check_limits", dict(run.parameters))
        self._show_run(is_on=self.runner.is_busy)

    def _end(self, was_good: bool, _: dict[str, object], said: str) -> None:
        run, self._running = self._running, None
        self._show_run(is_on=False)
        if run is None:  # another project, or the page is gone
            return
        self._say("" if was_good else said)
        stamp = survey_stamp(run.job.survey)
        if was_good and stamp != run.stamp:  # it was surveyed again meanwhile
            self._start(replace(run, stamp=stamp))
        elif was_good:
            self._take_made(run)

    def _take_made(self, run: _Run) -> None:
        """There are new checks."""
        now = read_choice(self._project, run.job).now
        keep_choice(self._project, run.job, KeptChoice(now, run.choice))
        add_checks(self._project, run.job)
        if run.job == self._job:
            self._show_checks()
            self.tabs.setCurrentIndex(RESULTS)
        self.changed.emit()

    def _show_run(self, *, is_on: bool) -> None:
        self.progress.setVisible(is_on)
        self.progress.setValue(0)
        self.stop.setVisible(is_on)
        self._show_state()

    def _say(self, words: str) -> None:
        """One line below the tabs; no room is kept where there is nothing to say."""
        self.words.show_words(words)
        self.words.setVisible(bool(words))

    def _forget(self) -> None:
        """Another project: nothing of the old one stays."""
        self._running, self._job = None, None
        self.runner.cancel()
        self._say("")
        self._show_checks()

    def close_down(self) -> None:
        """Let go of the project and a run."""
        self._running = None
        self.runner.cancel()
        self.limits.close_down()
        self._project.cleared.disconnect(self._forget)
