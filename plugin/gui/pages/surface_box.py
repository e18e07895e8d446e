# SPDX-License-Identifier: GPL-2.0-or-later
"""A box to choose one of the project's surfaces from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtWidgets import QComboBox

from .plan_inputs import narrow

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ...bridge.ground_list import FoundSurface

FOUND = Qt.ItemDataRole.UserRole


class SurfaceBox(QComboBox):
    """Signals: `chosen` when another surface, or the same one read anew, is chosen.

    Entries that are no surface come first, each with a word of its own that `word` tells.
    """

    chosen = pyqtSignal()

    def __init__(self, name: str, *others: tuple[str, str]) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._others = others
        self._found: list[FoundSurface] = []
        narrow(self)
        self.show_surfaces([])
        self.currentIndexChanged.connect(lambda _: self._tell())

    def show_surfaces(self, found: Iterable[FoundSurface]) -> None:
        """These surfaces; the one that was chosen stays where it is among them, by its layer and name."""
        kept, one = self.currentIndex(), self.surface()
        self._found = [each for each in found if each.surface is not None]
        self.blockSignals(True)  # noqa: FBT003 - Qt's own
        self.clear()
        for words, _ in self._others:
            self.addItem(words)
        for each in self._found:
            self.addItem(each.name)
            self.setItemData(self.count() - 1, each.name, Qt.ItemDataRole.ToolTipRole)
        key = None if one is None else (one.layer, one.name)
        at = next((k for k, each in enumerate(self._found) if (each.layer, each.name) == key), None)
        if at is not None:
            kept = at + len(self._others)
        self.setCurrentIndex(min(max(kept, 0), self.count() - 1))
        self.blockSignals(False)  # noqa: FBT003
        self._tell()

    def choose(self, at: int) -> None:
        """One of the surfaces by its number."""
        self.setCurrentIndex(len(self._others) + at)

    def surface(self) -> FoundSurface | None:
        """The surface that is chosen."""
        at = self.currentIndex() - len(self._others)
        return self._found[at] if 0 <= at < len(self._found) else None

    def word(self) -> str:
        """The word of the entry that is chosen where it is no surface."""
        at = self.currentIndex()
        return self._others[at][1] if 0 <= at < len(self._others) else ""

    def _tell(self) -> None:
        self.setToolTip(self.currentText())
        self.chosen.emit()
