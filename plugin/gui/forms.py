# SPDX-License-Identifier: GPL-2.0-or-later
"""The forms of the dock, each made when it is first asked for, and its file imported then: the host starts without them."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

from qgis.gui import QgsDockWidget
from qgis.PyQt.QtWidgets import QStackedWidget, QWidget

from ..bridge.jobs import DeskJob, survey_crs
from ..bridge.text import tr

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsCoordinateReferenceSystem

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


class Forms(QgsDockWidget):
    """A dock with a stack of forms; what they ask for is done by the dock that is one."""

    def __init__(self, iface: Any) -> None:
        super().__init__(tr("Ground Tally"))
        self._iface = iface
        self._told: list[Tell] = []
        self.pages = QStackedWidget()

    @property
    def job(self) -> DeskJob | None:
        """The job that is shown."""
        raise NotImplementedError

    def run_job(self, job: DeskJob, parameters: dict[str, object]) -> None:
        """Survey a job in the background."""
        raise NotImplementedError

    def run_again(self) -> None:
        """Survey the job that is shown once more."""
        raise NotImplementedError

    def _show_rows(self) -> None:
        raise NotImplementedError

    def _show_working(self) -> None:
        raise NotImplementedError

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
