# SPDX-License-Identifier: GPL-2.0-or-later
"""Load and unload: the provider, and the window's entries."""

from __future__ import annotations

from typing import Any

from qgis.core import QgsApplication

from .bridge.text import drop_translator, load_translator
from .processing.provider import Provider


class GroundTallyPlugin:
    """What the host starts; `unload` gives back all that `initGui` and `initProcessing` took."""

    def __init__(self, iface: Any) -> None:
        """Start does nothing: no files, no network."""
        self._iface = iface
        self._provider: Provider | None = None
        self._actions: Any = None
        self._options: Any = None
        self._dock: Any = None
        self._translator: Any = None

    def initProcessing(self) -> None:
        """Add the provider; the command-line runner calls only this."""
        self._translator = load_translator()
        self._provider = Provider()
        QgsApplication.processingRegistry().addProvider(self._provider)

    def initGui(self) -> None:
        """Add the provider and the entries of menu and toolbar."""
        from .gui.actions import Actions  # not for the command line
        from .gui.dock import open_dock
        from .gui.options import OptionsFactory

        self.initProcessing()
        self._options = OptionsFactory()
        self._iface.registerOptionsWidgetFactory(self._options)
        self._dock = open_dock(self._iface)
        self._actions = Actions(self._iface, self._dock.toggleViewAction())
        self._actions.add()

    def unload(self) -> None:
        """Take everything back."""
        if self._actions is not None:
            self._actions.remove()
            self._actions = None
        if self._dock is not None:
            self._dock.close_down()
            self._dock = None
        if self._provider is not None:
            QgsApplication.processingRegistry().removeProvider(self._provider)
            self._provider = None
            from .bridge.run_layers import KEEPER  # of runs, not of a start

            KEEPER.close_down()
        if self._options is not None:
            self._iface.unregisterOptionsWidgetFactory(self._options)
            self._options = None
        drop_translator(self._translator)
        self._translator = None
