# SPDX-License-Identifier: GPL-2.0-or-later
"""Trials of pairs in the background: the survey as picked, and turned by half where that would fit as well."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import QObject, pyqtSignal

from ..bridge.pairs import Pairs, write_pairs
from ..bridge.preview import Preview, read_preview
from ..bridge.text import explain
from ..core.errors import GroundTallyError
from .runner import Runner

if TYPE_CHECKING:
    from ..bridge.jobs import DeskJob


class Trials(QObject):
    """One job's trials. Signals: `told` when those of the newest pairs are there.

    Attributes:
        previews: of each trial: the survey, or in words why there is none.
        pairs: of each trial.
    """

    told = pyqtSignal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.previews: list[Preview | str] = []
        self.pairs: list[Pairs] = []
        self._folder = tempfile.TemporaryDirectory(prefix="ground_tally_")
        self._runner = Runner(self)
        self._runner.ended.connect(self._end)
        self._job: DeskJob | None = None
        self._control = Path()
        self._parameters: dict[str, object] = {}
        self._count = 0
        self._is_stale = False

    @property
    def is_busy(self) -> bool:
        """Whether a trial runs."""
        return self._runner.is_busy

    def start(self, job: DeskJob, control: Path, pairs: Pairs) -> None:
        """Try pairs in the place of a job's control file; those that are being tried give way."""
        self._job, self._parameters, self._control = job, job.run_parameters, control
        self.pairs = (
            [] if not pairs.is_enough else [pairs, *([pairs.turned()] if pairs.may_be_turned else [])]
        )
        self.previews = []
        if self._runner.is_busy:
            self._is_stale = True
            self._runner.cancel()
        else:
            self._next()

    def _next(self) -> None:
        if self._job is None or len(self.previews) == len(self.pairs):
            self.told.emit()
            return
        self._count += 1
        here = Path(self._folder.name) / str(self._count)
        here.mkdir()
        try:
            control = here / "control.csv"
            write_pairs(self.pairs[len(self.previews)], self._control, control)
        except GroundTallyError as error:
            self._add(explain(error))
            return
        own = {"CONTROL": str(control), "OUTPUT": str(here / "trial.gpkg")}
        self._runner.start("survey_walks", {**self._parameters, **own})

    def _end(self, was_good: bool, results: dict[str, object], said: str) -> None:
        if self._is_stale:
            self._is_stale = False
            self._next()
            return
        try:
            self._add(read_preview(Path(str(results["OUTPUT"]))) if was_good else said)
        except GroundTallyError as error:
            self._add(explain(error))

    def _add(self, preview: Preview | str) -> None:
        self.previews.append(preview)
        self._next()

    def close_down(self) -> None:
        """Stop, and leave no file behind."""
        self._job = None
        self.pairs = []
        self._runner.cancel()
        self._folder.cleanup()
