# SPDX-License-Identifier: GPL-2.0-or-later
"""Starts our algorithms by id as background tasks, so that the window never waits."""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING

from qgis.core import (
    QgsApplication,
    QgsProcessingAlgRunnerTask,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProject,
)
from qgis.PyQt.QtCore import QObject, pyqtSignal

from ..bridge.text import tr

if TYPE_CHECKING:
    from qgis.core import QgsMapLayer, QgsTask

PROVIDER = "groundtally"
_running: dict[int, tuple[object, ...]] = {}
_ended: deque[tuple[object, ...]] = deque(maxlen=8)
"""What runs hold, and what the last ones held: a task looks for its algorithm, context and feedback in its own thread,
also when the window that started it is closed, and still after it has said that it ended; it keeps none of them."""


def _keep(task: QgsTask, *parts: object) -> None:
    key = id(task)
    _running[key] = (task, *parts)
    for ended in (task.taskCompleted, task.taskTerminated):
        ended.connect(lambda key=key: _let_go(key))


def _let_go(key: int) -> None:
    parts = _running.pop(key, None)
    if parts is not None:
        _ended.append(parts)


class Runner(QObject):
    """One run at a time. Signals: `moved` with the part done in percent, `ended` with whether it went well, the results
    and what was said last."""

    moved = pyqtSignal(float)
    ended = pyqtSignal(bool, dict, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._task: QgsTask | None = None
        self._context: QgsProcessingContext | None = None
        self._feedback: QgsProcessingFeedback | None = None

    @property
    def is_busy(self) -> bool:
        return self._task is not None

    def start(self, name: str, parameters: dict[str, object]) -> None:
        """Start an algorithm; refused while another runs."""
        if self.is_busy:
            return
        algorithm = QgsApplication.processingRegistry().createAlgorithmById(f"{PROVIDER}:{name}")
        if algorithm is None:  # the host ends at a task without one
            self.ended.emit(False, {}, tr("{name} is not loaded. Enable the plugin again.").format(name=name))  # noqa: FBT003
            return
        context, feedback = QgsProcessingContext(), QgsProcessingFeedback(logFeedback=False)
        context.setProject(QgsProject.instance())
        feedback.progressChanged.connect(self.moved)
        task = QgsProcessingAlgRunnerTask(algorithm, parameters, context, feedback)
        task.executed.connect(self._end)
        _keep(task, algorithm, context, feedback)
        self._task, self._context, self._feedback = task, context, feedback
        QgsApplication.taskManager().addTask(task)

    def take_layer(self, place: object) -> QgsMapLayer | None:
        """A layer that the last run made in memory; the caller keeps it."""
        return None if self._context is None else self._context.takeResultLayer(str(place))

    def cancel(self) -> None:
        if self._task is not None:
            self._task.cancel()

    def _end(self, was_good: bool, results: dict[str, object]) -> None:
        log = "" if was_good or self._feedback is None else self._feedback.textLog()
        said = [line for line in log.splitlines() if line.strip()]
        self._task = None
        self.ended.emit(was_good, dict(results), said[-1] if said else tr("The run was stopped."))
