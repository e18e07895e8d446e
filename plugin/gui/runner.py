# SPDX-License-Identifier: GPL-2.0-or-later
"""Starts our algorithms by id as background tasks, so that the window never waits."""

from __future__ import annotations

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
    from qgis.core import QgsTask

PROVIDER = "groundtally"


class Runner(QObject):
    """One run at a time. Signals: `moved` with the part done in percent, `ended` with whether it went well, the results
    and what was said last."""

    moved = pyqtSignal(float)
    ended = pyqtSignal(bool, dict, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._task: QgsTask | None = None
        self._kept: tuple[object, ...] = ()
        self._feedback: QgsProcessingFeedback | None = None

    @property
    def is_busy(self) -> bool:
        return self._task is not None

    def start(self, name: str, parameters: dict[str, object]) -> None:
        """Start an algorithm; refused while another runs."""
        if self.is_busy:
            return
        algorithm = QgsApplication.processingRegistry().createAlgorithmById(f"{PROVIDER}:{name}")
        context, feedback = QgsProcessingContext(), QgsProcessingFeedback(logFeedback=False)
        context.setProject(QgsProject.instance())
        feedback.progressChanged.connect(self.moved)
        task = QgsProcessingAlgRunnerTask(algorithm, parameters, context, feedback)
        task.executed.connect(self._end)
        # The task holds none of these and looks for them in another thread, and still after it has said that it ended:
        # they stay until the next run.
        self._kept, self._feedback = (algorithm, context), feedback
        self._task = task
        QgsApplication.taskManager().addTask(task)

    def cancel(self) -> None:
        if self._task is not None:
            self._task.cancel()

    def _end(self, was_good: bool, results: dict[str, object]) -> None:
        log = "" if was_good or self._feedback is None else self._feedback.textLog()
        said = [line for line in log.splitlines() if line.strip()]
        self._task = None
        self.ended.emit(was_good, dict(results), said[-1] if said else tr("The run was stopped."))
