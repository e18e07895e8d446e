# SPDX-License-Identifier: GPL-2.0-or-later
"""The map lent to a page's tool while the page's button is down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt import sip

if TYPE_CHECKING:
    from qgis.gui import QgsMapCanvas, QgsMapTool
    from qgis.PyQt.QtWidgets import QPushButton


class ToolLoan:
    """Takes the map for a tool, and gives it back to the one before. A tool that is chosen from the window meanwhile keeps the
    map, and the button comes up."""

    def __init__(self, canvas: QgsMapCanvas, tool: QgsMapTool, button: QPushButton) -> None:
        self._canvas, self._tool, self._button = canvas, tool, button
        self._before: QgsMapTool | None = None
        canvas.mapToolSet.connect(self._tool_changed)

    def take(self) -> None:
        """The map is the tool's, and hears the keyboard."""
        self._before = self._canvas.mapTool()
        self._canvas.setMapTool(self._tool)
        self._canvas.setFocus()

    def give_back(self) -> None:
        """The map is that of the tool before, and the button is up."""
        if self._canvas.mapTool() is self._tool:
            if self._before is not None and not sip.isdeleted(self._before):
                self._canvas.setMapTool(self._before)
            else:
                self._canvas.unsetMapTool(self._tool)
        self._before = None
        self._button.setChecked(False)

    def _tool_changed(self, new: QgsMapTool | None, _: QgsMapTool | None = None) -> None:
        if new is not self._tool and self._button.isChecked():
            self._before = None
            self._button.setChecked(False)

    def close_down(self) -> None:
        """Give the map back and let go of it."""
        self.give_back()
        self._canvas.mapToolSet.disconnect(self._tool_changed)
        self._tool.close_down()
