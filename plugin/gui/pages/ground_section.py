# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections through the project's surfaces and what was walked; two surfaces are held against each other."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateReferenceSystem
from qgis.PyQt.QtWidgets import QFormLayout, QVBoxLayout, QWidget

from ...bridge.ground_list import laid, surface_way
from ...bridge.section import with_surfaces
from ...bridge.text import tr
from .section import SectionPage
from .surface_box import SurfaceBox

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...bridge.ground_list import FoundSurface
    from ...bridge.jobs import DeskJob
    from ...bridge.section import SectionGround

NOTHING, ALL = "nothing", "all"


class SectionTab(QWidget):
    """The surfaces to cut, and the page that cuts and draws."""

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._found: list[FoundSurface] = []
        self._crs = QgsCoordinateReferenceSystem()
        self._has_survey = False
        self.ground = SurfaceBox(tr("Surface of the section"), (tr("none: what was walked alone"), NOTHING))
        self.against = SurfaceBox(
            tr("Held against"),
            (tr("nothing"), NOTHING),
            (tr("all others, as lines only"), ALL),
        )
        self.page = SectionPage(iface)
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.addRow(tr("&Surface"), self.ground)
        form.addRow(tr("&Held against"), self.against)
        rows = QVBoxLayout(self)
        rows.addLayout(form)
        rows.addWidget(self.page, 1)
        self.ground.chosen.connect(self._lay)
        self.against.chosen.connect(self._lay)

    def show_job(self, job: DeskJob, crs: QgsCoordinateReferenceSystem) -> None:
        """Sections of a job's survey, whose layers are in a CRS."""
        self._crs, self._has_survey = crs, job.is_surveyed
        self.page.show_job(job, crs)

    def show_surfaces(self, found: Sequence[FoundSurface]) -> None:
        """These surfaces can be cut."""
        was_empty = not any(one.surface is not None for one in self._found)
        self._found = list(found)
        for box in (self.ground, self.against):
            box.blockSignals(True)  # noqa: FBT003 - Qt's own
            box.show_surfaces(found)
            box.blockSignals(False)  # noqa: FBT003
        if was_empty and any(one.surface is not None for one in found):
            self.ground.choose(0)
        self._lay()

    def _lay(self) -> None:
        """Have the page cut what is chosen."""
        ground = self.ground.surface()
        self.against.setEnabled(ground is not None)
        if ground is None:
            self.page.show_surfaces(None, self._crs)
            return
        other = self.against.surface()
        others = [other] if other is not None and other is not ground else []
        if self.against.word() == ALL:
            others = [one for one in self._found if one.surface is not None and one is not ground]
        is_pair = self.against.word() != ALL and bool(others)
        lay = partial(_with, (ground, *others), self._crs if self._has_survey else None, is_pair=is_pair)
        self.page.show_surfaces(lay, ground.map_crs)

    def close_down(self) -> None:
        """Give the map back."""
        self.page.close_down()


def _with(
    surfaces: Sequence[FoundSurface],
    crs: QgsCoordinateReferenceSystem | None,
    walked: SectionGround | None,
    *,
    is_pair: bool,
) -> SectionGround:
    """What was walked together with surfaces; lines lie in the survey's CRS, without one in the surfaces' own."""
    way = surface_way(surfaces[0], None if walked is None else crs)
    return with_surfaces(walked, [laid(one, way) for one in surfaces], way, is_pair=is_pair)
