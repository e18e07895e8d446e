# SPDX-License-Identifier: GPL-2.0-or-later
"""Two clicks on the map: from one place to another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .section_tool import FEWEST, SectionTool

if TYPE_CHECKING:
    from qgis.gui import QgsMapMouseEvent


class TwoPointTool(SectionTool):
    """As the tool for sections, but the second click ends it."""

    def canvasReleaseEvent(self, event: QgsMapMouseEvent) -> None:
        super().canvasReleaseEvent(event)
        if len(self.points) == FEWEST:
            self.end()
