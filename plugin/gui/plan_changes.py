# SPDX-License-Identifier: GPL-2.0-or-later
"""The order in which several layers were changed, so that one button undoes the last change of any."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from qgis.core import QgsProject
from qgis.PyQt.QtCore import QObject, pyqtSignal

if TYPE_CHECKING:
    from qgis.core import QgsVectorLayer


@dataclass
class _Watched:
    layer: QgsVectorLayer
    slot: Any
    index: int


class PlanChanges(QObject):
    """Follows the undo stacks of layers. Signals: `changed` on every change and undo, from any side."""

    changed = pyqtSignal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._watched: dict[str, _Watched] = {}
        self._order: list[str] = []
        self._project = QgsProject.instance()
        self._project.layerWillBeRemoved[str].connect(self._forget)

    @property
    def can_undo(self) -> bool:
        return bool(self._order)

    def watch(self, layer: QgsVectorLayer | None) -> None:
        """Follow a layer from now on."""
        if layer is None or layer.id() in self._watched:
            return
        stack = layer.undoStack()
        slot = partial(self._moved, layer.id())
        self._watched[layer.id()] = _Watched(layer, slot, stack.index())
        stack.indexChanged.connect(slot)

    def undo(self) -> None:
        """Take the last change back."""
        if self._order:
            layer = self._watched[self._order[-1]].layer
            layer.undoStack().undo()
            layer.triggerRepaint()

    def _moved(self, name: str, index: int) -> None:
        watched = self._watched.get(name)
        if watched is None:
            return
        for _ in range(watched.index, index):
            self._order.append(name)
        for _ in range(index, watched.index):
            self._drop_last(name)
        watched.index = index
        self.changed.emit()

    def _drop_last(self, name: str) -> None:
        last = next((k for k in reversed(range(len(self._order))) if self._order[k] == name), None)
        if last is not None:
            del self._order[last]

    def _forget(self, name: str) -> None:
        watched = self._watched.pop(name, None)
        if watched is None:
            return
        watched.layer.undoStack().indexChanged.disconnect(watched.slot)
        self._order = [other for other in self._order if other != name]
        self.changed.emit()

    def close_down(self) -> None:
        """Let go of every layer and of the project."""
        self._project.layerWillBeRemoved[str].disconnect(self._forget)
        for name in list(self._watched):
            self._forget(name)
