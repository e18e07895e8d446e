# SPDX-License-Identifier: GPL-2.0-or-later
"""Reads the surfaces of the project in the background, anew whenever their layers change."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsApplication, QgsProject, QgsTask, QgsVectorLayer
from qgis.PyQt.QtCore import QObject, QTimer, pyqtSignal

from ..bridge.ground_list import may_hold, read_found, surface_layers, surface_source
from ..bridge.text import tr
from ..bridge.threads import keep_thread

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsMapLayer

    from ..bridge.ground_list import FoundSurface, SurfaceSource

SETTLES = 100
"""Milliseconds without a change after which layers are read: a project opens many at once."""
_running: set[QgsTask] = set()
"""Tasks that run: the host holds only its own half of one."""


class ReadTask(QgsTask):
    """One reading."""

    def __init__(self, sources: list[SurfaceSource], done: Callable[[ReadTask], None]) -> None:
        super().__init__(tr("Reading surfaces"), QgsTask.Flag.CanCancel)
        self._sources, self._done = sources, done
        self.found: list[FoundSurface] = []
        self.error: Exception | None = None

    def run(self) -> bool:
        keep_thread()
        try:
            self.found = read_found(self._sources, self.isCanceled)
        except Exception as error:  # noqa: BLE001 - it must not end in a thread of the host; it is raised again in ours
            self.error = error
            return False
        return not self.isCanceled()

    def finished(self, _: bool) -> None:
        _running.discard(self)
        self._done(self)


class GroundReader(QObject):
    """Signals: `read` when the surfaces of the project are there, `started` when they are being read.

    Attributes:
        found: what was read last.
    """

    read = pyqtSignal()
    started = pyqtSignal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.found: list[FoundSurface] = []
        self._task: ReadTask | None = None
        self._is_on = False
        self._is_stale = True
        self._watched: list[QgsMapLayer] = []
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SETTLES)
        self._timer.timeout.connect(self._start)
        self._project = QgsProject.instance()
        self._project.layersAdded.connect(self._added)
        self._project.layersWillBeRemoved.connect(self._removed)

    @property
    def is_busy(self) -> bool:
        """Whether surfaces are being read, or about to be."""
        return self._task is not None or self._timer.isActive()

    def switch(self, *, is_on: bool) -> None:
        """Read while somebody looks, and only then."""
        self._is_on = is_on
        if is_on and self._is_stale:
            self._timer.start()

    def _added(self, layers: list[QgsMapLayer]) -> None:
        if any(may_hold(layer) for layer in layers):
            self.make_stale()

    def _removed(self, ids: list[str]) -> None:
        gone = [layer for layer in self._watched if layer.id() in ids]
        for layer in gone:
            self._unwatch(layer)
        if gone:
            self.found = [one for one in self.found if one.layer not in ids]
            self.make_stale()

    def make_stale(self) -> None:
        """What was read is no longer what is there."""
        self._is_stale = True
        if self._is_on:
            self._timer.start()

    def _start(self) -> None:
        if self._task is not None:
            self._task.cancel()
            return  # its end starts the next
        self._is_stale = False
        layers = surface_layers(self._project)
        self._watch(layers)
        if not layers:
            self.found = []
            self.read.emit()
            return
        self._task = ReadTask([surface_source(layer) for layer in layers], self._end)
        _running.add(self._task)
        self.started.emit()
        QgsApplication.taskManager().addTask(self._task)

    def _end(self, task: ReadTask) -> None:
        if task is not self._task:
            return
        self._task = None
        if self._is_stale:
            self._timer.start()
            return
        self.found = task.found
        self.read.emit()
        if task.error is not None:
            raise task.error

    def _watch(self, layers: list[QgsMapLayer]) -> None:
        for layer in tuple(self._watched):
            self._unwatch(layer)
        for layer in layers:
            for signal in _changes(layer):
                signal.connect(self.make_stale)
            self._watched.append(layer)

    def _unwatch(self, layer: QgsMapLayer) -> None:
        for signal in _changes(layer):
            signal.disconnect(self.make_stale)
        self._watched.remove(layer)

    def close_down(self) -> None:
        """Stop, and let go of the project and its layers."""
        self._timer.stop()
        task, self._task = self._task, None
        if task is not None:
            task.cancel()
        for layer in tuple(self._watched):
            self._unwatch(layer)
        self._project.layersAdded.disconnect(self._added)
        self._project.layersWillBeRemoved.disconnect(self._removed)


def _changes(layer: QgsMapLayer) -> list[Any]:
    """What a layer says when its rows or its name are no longer what they were."""
    told = [layer.dataChanged, layer.nameChanged, layer.crsChanged]
    return (
        [*told, layer.editingStopped, layer.subsetStringChanged]
        if isinstance(layer, QgsVectorLayer)
        else told
    )
