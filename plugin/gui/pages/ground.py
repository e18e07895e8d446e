# SPDX-License-Identifier: GPL-2.0-or-later
"""The ground: the project's surfaces, sections through them, the way between two places, and volumes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsProject
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtWidgets import QHBoxLayout, QProgressBar, QPushButton, QTabWidget, QVBoxLayout, QWidget

from ...bridge.ground_run import (
    OF_BUILD,
    OF_VOLUMES,
    VOLUMES,
    VolumeAsk,
    add_results,
    build_parameters,
    build_titles,
    open_results,
    read_volumes,
    volume_parameters,
    volume_titles,
)
from ...bridge.survey_file import shown_unit
from ...bridge.text import tr
from ..ground_reader import GroundReader
from ..runner import Runner
from .ground_section import SectionTab
from .ground_slope import SlopeTab
from .ground_surfaces import SurfacesTab
from .ground_volume import VolumeTab
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Mapping

    from qgis.core import QgsCoordinateReferenceSystem, QgsVectorLayer

    from ...bridge.jobs import DeskJob

SURFACES, SECTION, SLOPE, VOLUME = range(4)
"""The tabs."""
MARGIN = 6
"""Pixels above a tab's first row."""


class GroundPage(QWidget):
    """`show_job` tells whose survey surfaces are built from; `close_down` gives back the map, the project and a run.

    Signals: `changed` when a run has put layers into the project.
    """

    changed = pyqtSignal()

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._job: DeskJob | None = None
        self._titles: Mapping[str, str] = {}
        self._kinds: Mapping[str, tuple[str, str]] = {}
        self._ask: VolumeAsk | None = None
        self._is_wanted = False
        self.runner, self.reader = Runner(self), GroundReader(self)
        self.surfaces, self.section = SurfacesTab(iface), SectionTab(iface)
        self.slope, self.volume = SlopeTab(iface), VolumeTab()
        self.tabs = QTabWidget()
        for tab, name in (
            (self.surfaces, tr("Surfaces")),
            (self.section, tr("Section")),
            (self.slope, tr("Slope")),
            (self.volume, tr("Volume")),
        ):
            self.tabs.addTab(tab, name)
            # The dock is narrow: its own margin is enough at both sides.
            tab.layout().setContentsMargins(0, MARGIN, 0, 0)
        self.tabs.setDocumentMode(True)
        self.tabs.setTabToolTip(SLOPE, tr("Rise, run and gradient between two places that are clicked"))
        self.progress, self.stop, self.words = QProgressBar(), QPushButton(tr("Sto&p")), WordsLabel()
        self._lay_out()
        self._connect()
        self._project = QgsProject.instance()
        self._project.cleared.connect(self._forget)
        self._show_run(is_on=False)
        self._say("")

    def _lay_out(self) -> None:
        run = QHBoxLayout()
        run.addWidget(self.progress, 1)
        run.addWidget(self.stop)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.tabs, 1)
        rows.addWidget(self.words)
        rows.addLayout(run)

    def _connect(self) -> None:
        self.runner.moved.connect(lambda part: self.progress.setValue(round(part)))
        self.runner.ended.connect(self._end)
        self.reader.read.connect(self._show_found)
        self.surfaces.build_wanted.connect(self.build)
        self.volume.wanted.connect(self.measure)
        self.tabs.currentChanged.connect(lambda _: self._leave_tools())
        self.stop.clicked.connect(self.runner.cancel)

    def showEvent(self, event: Any) -> None:
        super().showEvent(event)
        self.reader.switch(is_on=True)

    def hideEvent(self, event: Any) -> None:
        super().hideEvent(event)
        self.reader.switch(is_on=False)
        self._leave_tools()

    def show_job(self, job: DeskJob, crs: QgsCoordinateReferenceSystem) -> None:
        """The ground of a job, whose survey's layers are in a CRS."""
        self._job = job
        self.surfaces.show_job(job)
        self.section.show_job(job, crs)

    def _show_found(self) -> None:
        """The surfaces were read."""
        for tab in (self.surfaces, self.section, self.slope, self.volume):
            tab.show_surfaces(self.reader.found)

    def _leave_tools(self) -> None:
        """A tool belongs to the tab that is looked at."""
        self.section.page.stop_drawing()
        self.slope.loan.give_back()

    # --- runs ---

    def build(self, name: str, interval: float) -> None:
        """Build a surface from the job's survey in the background."""
        if self._job is None or self.runner.is_busy:
            return
        self._ask = None
        self._titles, self._kinds = build_titles(name), OF_BUILD
        self._start("build_surface", build_parameters(self._job, name, interval), self._titles)

    def measure(self, ask: VolumeAsk) -> None:
        """Measure a volume in the background."""
        if self.runner.is_busy:
            return
        self._ask = ask
        self._titles, self._kinds = volume_titles(ask), OF_VOLUMES
        self._start("measure_volumes", volume_parameters(ask, self._job), self._titles)

    def _start(self, name: str, parameters: dict[str, object], titles: Mapping[str, str]) -> None:
        self._is_wanted = True
        (self.surfaces if self._ask is None else self.volume).tell("")
        self._show_run(is_on=True)
        self._say(tr("Making: {title}").format(title=next(iter(titles.values()))))
        self.runner.start(name, parameters)

    def _end(self, was_good: bool, results: dict[str, object], said: str) -> None:
        self._show_run(is_on=False)
        if not self._is_wanted:  # another project, or the page is gone
            return
        self._say("")
        if not was_good:
            (self.surfaces if self._ask is None else self.volume).tell(said)
            return
        places = {key: place for key, place in results.items() if key in self._kinds}
        made = {key: self.runner.take_layer(place) for key, place in places.items()}
        layers = add_results(self._project, open_results(places, made), self._titles, self._kinds)
        if self._ask is not None and VOLUMES in layers:
            self._tell_volumes(self._ask, layers[VOLUMES])
        self.changed.emit()

    def _tell_volumes(self, ask: VolumeAsk, layer: QgsVectorLayer) -> None:
        self.volume.show_volumes(ask, read_volumes(layer, shown_unit(self._project)))

    def _show_run(self, *, is_on: bool) -> None:
        self.progress.setVisible(is_on)
        self.progress.setValue(0)
        self.stop.setVisible(is_on)
        self.surfaces.show_busy(is_on=is_on)
        self.volume.show_busy(is_on=is_on)

    def _say(self, words: str) -> None:
        """One line below the tabs; no room is kept where there is nothing to say."""
        self.words.show_words(words)
        self.words.setVisible(bool(words))

    def _forget(self) -> None:
        """Another project: nothing of the old one stays."""
        self._is_wanted = False
        self.runner.cancel()
        self._leave_tools()
        self.slope.clear()
        self.section.page.clear()
        self.volume.clear()
        self._say("")

    def close_down(self) -> None:
        """Let go of the map, the project and a run."""
        self._is_wanted = False
        self.runner.cancel()
        self.reader.close_down()
        self.surfaces.close_down()
        self.section.close_down()
        self.slope.close_down()
        self._project.cleared.disconnect(self._forget)
