# SPDX-License-Identifier: GPL-2.0-or-later
"""What the host gets in place of the plugin where a library is missing that nothing works without."""

from __future__ import annotations

from typing import Any

from qgis.core import Qgis, QgsMessageLog

from .bridge.text import explain
from .core.errors import MissingLibrary

NAME = "Ground Tally"


class UnreadyPlugin:
    """Says once what is missing, in the message log and the window's message bar, and adds nothing."""

    def __init__(self, iface: Any, missing: tuple[MissingLibrary, ...]) -> None:
        """Keep what to say until the host asks for something."""
        self._iface = iface
        self._sentence = " ".join(map(explain, missing))

    def initProcessing(self) -> None:
        """Say it in the log; the command-line runner calls only this."""
        QgsMessageLog.logMessage(self._sentence, NAME, Qgis.MessageLevel.Critical)

    def initGui(self) -> None:
        """Say it in the log and in the window."""
        self.initProcessing()
        self._iface.messageBar().pushMessage(NAME, self._sentence, Qgis.MessageLevel.Critical)

    def unload(self) -> None:
        """There is nothing to take back."""
