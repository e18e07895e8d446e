# SPDX-License-Identifier: GPL-2.0-or-later
"""Show it: the figures of a survey, one at a time, and the section of a drawn line."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateReferenceSystem, QgsProject
from qgis.PyQt.QtWidgets import QComboBox, QStackedWidget, QVBoxLayout, QWidget

from ...bridge.diagnostics import read_misclosures, read_residual_plan, read_standardised
from ...bridge.plan_preview import read_plan
from ...bridge.survey_file import shown_unit
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ..plots.checks import draw_misclosures, draw_residual_plan, draw_standardised
from ..plots.figure_box import FigureBox
from ..plots.plan import draw_plan
from .section import SectionPage

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from ...bridge.jobs import DeskJob
    from ..plots.look import Look


class PlotsPage(QWidget):
    """`show_job` tells whose figures; each is read when it is first looked at."""

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._survey: Path | None = None
        self._stale: set[FigureBox] = set()
        self.choice = QComboBox()
        self.choice.setAccessibleName(tr("What to show"))
        self.pages = QStackedWidget()
        self.plan = self._add(tr("Plan"))
        self.residuals = self._add(tr("Residuals at the marks"))
        self.limits = self._add(tr("Residuals against their limits"))
        self.misclosures = self._add(tr("Misclosures"))
        self.section = SectionPage(iface)
        self.choice.addItem(tr("Section of a drawn line"))
        self.pages.addWidget(self.section)
        self.choice.currentIndexChanged.connect(self._turn_to)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.choice)
        rows.addWidget(self.pages, 1)

    def _add(self, name: str) -> FigureBox:
        box = FigureBox(name)
        self.choice.addItem(name)
        self.pages.addWidget(box)
        return box

    def show_job(self, job: DeskJob, crs: QgsCoordinateReferenceSystem) -> None:
        """The figures of a job, whose survey's layers are in a CRS."""
        self._survey = job.survey if job.is_surveyed else None
        self._stale = {self.plan, self.residuals, self.limits, self.misclosures}
        self.section.show_job(job, crs)
        if self.isVisible():
            self._show_current()

    def showEvent(self, event: Any) -> None:
        super().showEvent(event)
        self._show_current()

    def _turn_to(self, index: int) -> None:
        if self.pages.currentWidget() is self.section:
            self.section.stop_drawing()
        self.pages.setCurrentIndex(index)
        self._show_current()

    def _show_current(self) -> None:
        box = self.pages.currentWidget()
        if box not in self._stale:
            return
        self._stale.discard(box)
        if self._survey is None:
            box.show_words(tr("Nothing surveyed yet: run the job."))
            return
        try:
            box.show_figure(self._read(box, self._survey))
        except GroundTallyError as error:
            box.show_words(explain(error))

    def _read(self, box: FigureBox, survey: Path) -> Callable[[Any, Look], Any]:
        """What draws a figure, its data read."""
        unit = shown_unit(QgsProject.instance())
        if box is self.plan:
            return _drawing(draw_plan, read_plan(survey, unit))
        if box is self.residuals:
            return _drawing(draw_residual_plan, read_residual_plan(survey, unit))
        if box is self.limits:
            return _drawing(draw_standardised, read_standardised(survey))
        return _drawing(draw_misclosures, read_misclosures(survey))

    def close_down(self) -> None:
        """Give the map back and close the enlarged figures."""
        for box in (self.plan, self.residuals, self.limits, self.misclosures):
            box.close_large()
        self.section.close_down()


def _drawing(draw: Callable[[Any, Look, Any], Any], data: Any) -> Callable[[Any, Look], Any]:
    return partial(_draw_data, draw, data)


def _draw_data(draw: Callable[[Any, Look, Any], Any], data: Any, figure: Any, look: Look) -> Any:
    return draw(figure, look, data)
