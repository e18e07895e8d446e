# SPDX-License-Identifier: GPL-2.0-or-later
"""Room for pages of which one is shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtWidgets import QFrame, QScrollArea

if TYPE_CHECKING:
    from qgis.PyQt.QtGui import QResizeEvent
    from qgis.PyQt.QtWidgets import QStackedWidget

NARROWEST = 362
"""Pixels: what the pages need side by side."""


class Room(QScrollArea):
    """The pages fill it; where it is lower than the one that is shown can be, that one scrolls. Without it the highest
    page would push the window off a low screen."""

    def __init__(self, pages: QStackedWidget) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setMinimumWidth(NARROWEST)
        self._pages = pages
        self.setWidget(pages)

    def fit(self) -> None:
        """Give the page that is shown its room."""
        room, least = self.viewport().size(), self._pages.currentWidget().minimumSizeHint()
        self._pages.resize(room.width(), max(room.height(), least.height()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()
