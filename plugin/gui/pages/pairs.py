# SPDX-License-Identifier: GPL-2.0-or-later
"""Marks paired with the picture: picked, tried over it, accepted."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timezone
from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateReferenceSystem, QgsPointXY, QgsProject
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtGui import QCursor, QKeyEvent, QKeySequence
from qgis.PyQt.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QMenu,
    QPushButton,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from ...bridge.answers import Answer, add_answer
from ...bridge.pairs import Pairs, find_control, read_pairs, write_pairs
from ...bridge.picture import crs_of, moved, pairs_crs, view_of
from ...bridge.preview import CONFIRMS, Preview, read_marks
from ...bridge.settings import answerer
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ..preview_bands import PreviewBands
from ..tools.pick_tool import PickTool
from ..trials import Trials
from ..zoom_box import TIMES, ZoomBox
from .pairs_table import PairsTable
from .picture_box import PictureBox
from .words import WordsLabel

if TYPE_CHECKING:
    from ...bridge.jobs import DeskJob


class PairsPage(QWidget):
    """Signals: `accepted` when control and decisions were written, so that the job can run again."""

    accepted = pyqtSignal()

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._canvas = iface.mapCanvas()
        self._iface = iface
        self._job: DeskJob | None = None
        self._control = Path()
        self._marks: tuple[str, ...] = ()
        self._history: list[Pairs] = [Pairs()]
        self.tool = PickTool(self._canvas)
        self.bands = PreviewBands(self._canvas)
        self.trials = Trials(self)
        self.picture = PictureBox()
        self.zoom = ZoomBox(self._canvas)
        self.table = PairsTable()
        self.pick = QPushButton(tr("&Pick on the map"))
        self.pick.setCheckable(True)
        self.undo, self.remove = QPushButton(tr("&Undo")), QPushButton(tr("Take out"))
        self.words = WordsLabel()
        self.choices = (
            QRadioButton(tr("1, as picked (solid)")),
            QRadioButton(tr("2, turned by half (dashed)")),
        )
        self.accept = QPushButton(tr("Accept this placement"))
        self.menu: QMenu | None = None
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        buttons, choices = QHBoxLayout(), QHBoxLayout()
        for widget in (self.pick, self.undo, self.remove):
            buttons.addWidget(widget)
        self.group = QButtonGroup(self)
        for k, choice in enumerate(self.choices):
            self.group.addButton(choice, k)
            choices.addWidget(choice)
        self.choices[0].setChecked(True)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        for widget in (self.picture, self.zoom, self.table):
            rows.addWidget(widget, int(widget is self.table))
        rows.addLayout(buttons)
        rows.addWidget(self.words)
        rows.addLayout(choices)
        rows.addWidget(self.accept)

    def _connect(self) -> None:
        self.picture.changed.connect(self._show_picture)
        self.picture.shared.connect(self._share)
        self.tool.aimed.connect(self.zoom.aim_at)
        self.tool.picked.connect(lambda x, y: self._ask(x, y, 1.0))
        self.zoom.picked.connect(lambda x, y: self._ask(x, y, TIMES))
        self.tool.left.connect(lambda: self.pick.setChecked(False))
        self.tool.deactivated.connect(self._show_dropped)
        self.pick.toggled.connect(self._take_tool)
        self.undo.clicked.connect(self.take_back)
        self.remove.clicked.connect(lambda: self._change(self.pairs.without(self.table.mark)))
        self.table.used.connect(lambda mark, is_check: self._change(self.pairs.used(mark, is_check=is_check)))
        self.table.itemSelectionChanged.connect(self._show_buttons)
        self.group.buttonClicked.connect(lambda _: self._show_trials())
        self.trials.told.connect(self._show_trials)
        self.accept.clicked.connect(self.take)
        self._canvas.destinationCrsChanged.connect(self._show)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Undo by the keys that the desktop has for it."""
        if event.matches(QKeySequence.StandardKey.Undo):
            self.take_back()
        else:
            super().keyPressEvent(event)

    @property
    def pairs(self) -> Pairs:
        """As they are now."""
        return self._history[-1]

    @property
    def crs(self) -> QgsCoordinateReferenceSystem:
        """Of the pairs."""
        return crs_of(self.pairs.crs)

    def show_job(self, job: DeskJob) -> None:
        """The marks and pairs of a job. Picks of the same job that are not accepted yet stay."""
        is_same = self._job is not None and self._job.folder == job.folder
        told = job.run_parameters.get("CONTROL")
        self._job, self._control = job, Path(str(told)) if told else find_control(job.folder)
        self._marks = read_marks(job.survey)
        if not (is_same and len(self._history) > 1):
            self._start_anew()
        self.picture.show_card()
        self._show()

    def _start_anew(self) -> None:
        try:
            pairs = read_pairs(self._control)
        except GroundTallyError as error:
            self._iface.messageBar().pushWarning("Ground Tally", explain(error))
            pairs = Pairs()
        self._history = [pairs]
        self.picture.share(pairs.common)
        self.choices[0].setChecked(True)

    def open(self) -> None:
        """Show the picture, the pairs over it, and try them."""
        layer = self.picture.layer
        settings = self._canvas.mapSettings()
        view = None if layer is None else view_of(layer, settings.destinationCrs(), settings.extent())
        if view is not None:
            QgsProject.instance().setCrs(view[0])
            self._canvas.setDestinationCrs(view[0])
            self._canvas.setExtent(view[1])
            self._canvas.refresh()
        self._try()

    def _try(self) -> None:
        if self._job is not None:
            self.trials.start(self._job, self._control, self.pairs)
        self._show()

    def leave(self) -> None:
        """Take everything off the map; the picks stay until they are accepted or the job changes."""
        self.pick.setChecked(False)
        self.bands.clear()

    def _show_picture(self) -> None:
        layer = self.picture.layer
        if layer is not None:
            self.zoom.show_layers([layer])
        self.pick.setEnabled(layer is not None and bool(self._marks))

    def _take_tool(self, is_on: bool) -> None:
        if is_on:
            self._canvas.setMapTool(self.tool)
        elif self._canvas.mapTool() is self.tool:
            self._canvas.unsetMapTool(self.tool)

    def _show_dropped(self) -> None:
        """Another tool was taken up, or the map is being closed: the map is not touched any more."""
        self.pick.blockSignals(True)  # noqa: FBT003 - Qt's own
        self.pick.setChecked(False)
        self.pick.blockSignals(False)  # noqa: FBT003

    def _ask(self, x: float, y: float, times: float) -> None:
        """Whether the place lies at the ground: what stands above it leans away from its foot in a picture."""
        if not self.table.mark or self.picture.layer is None:
            return
        self.menu = QMenu(self)
        ground = self.menu.addAction(tr("{mark}: at the &ground").format(mark=self.table.mark))
        above = self.menu.addAction(tr("&Above the ground"))
        ground.triggered.connect(lambda: self._add(x, y, times))
        above.triggered.connect(
            lambda: self.words.show_words(
                tr(
                    "Not taken: what stands above the ground leans away from its place in a picture. Pick its foot."
                )
            )
        )
        self.menu.popup(QCursor.pos())
        self.menu.setActiveAction(ground)

    def _add(self, x: float, y: float, times: float) -> None:
        """A pick at a place of the map, which was shown so many times larger."""
        here = self._canvas.mapSettings().destinationCrs()
        try:
            pairs = self.pairs if self.pairs.crs else self._new_pairs((x, y))
            self._history[-1] = pairs
            place = moved((x, y), here, self.crs)
            worth = self.picture.worth(self._canvas, QgsPointXY(x, y), times)
        except GroundTallyError as error:
            self.words.show_words(explain(error))
            return
        self._change(pairs.with_pick(self.table.mark, *place, worth))
        rest = [name for name in self._marks if self.pairs.of(name) is None]
        if rest:
            self.table.choose(rest[0])

    def _new_pairs(self, at: tuple[float, float]) -> Pairs:
        """None yet, in the CRS that the job is to have, else in the picture's."""
        told = self._job.run_parameters.get("CRS") if self._job is not None else None
        crs = (
            told
            if isinstance(told, QgsCoordinateReferenceSystem)
            else QgsCoordinateReferenceSystem(told or "")
        )
        if not crs.isValid():
            here = self._canvas.mapSettings().destinationCrs()
            there = here if self.picture.layer is None else self.picture.layer.crs()
            crs = pairs_crs(there, QgsPointXY(*moved(at, here, there)))
        name = crs.authid() or crs.toWkt()
        return Pairs(name, (), self.picture.common.value(), self.picture.read().date)

    def _share(self, common: float) -> None:
        pairs = self.pairs
        if pairs.picks and pairs.common != common:
            self._change(replace(pairs, common=common))

    def _change(self, pairs: Pairs) -> None:
        self._history.append(pairs)
        self._try()

    def take_back(self) -> None:
        """Undo the last change."""
        if len(self._history) > 1:
            self._history.pop()
            self._try()

    def _chosen(self) -> int:
        return max(self.group.checkedId(), 0)

    def _preview(self) -> Preview | str | None:
        previews = self.trials.previews
        return previews[self._chosen()] if self._chosen() < len(previews) else None

    def _show(self) -> None:
        """Everything, as it is now."""
        if not self.pairs.may_be_turned:
            self.choices[0].setChecked(True)
        if self.isVisible():
            self.bands.show_picks(self.pairs, self.crs)
        self._show_trials()

    def _show_trials(self) -> None:
        trials = {k: trial for k, trial in enumerate(self.trials.previews) if isinstance(trial, Preview)}
        if self.isVisible():
            self.bands.show_trials(trials, self._chosen())
        now = trials.get(self._chosen())
        self.table.show_pairs(self._marks, self.pairs, {} if now is None else now.residuals)
        self.words.show_words(self._hint())
        self._show_buttons()

    def _show_buttons(self) -> None:
        now = self._preview()
        for choice in self.choices:
            choice.setVisible(self.pairs.may_be_turned)
        self.undo.setEnabled(len(self._history) > 1)
        self.remove.setEnabled(self.pairs.of(self.table.mark) is not None)
        self.accept.setEnabled(isinstance(now, Preview) and not now.against and not self.trials.is_busy)

    def _hint(self) -> str:
        now = self._preview()
        if not self._marks:
            return tr("The walks have no marks, so there is nothing to pair.")
        if not self.pairs.is_enough:
            return tr(
                "Choose a mark and pick its place on the picture. Two pairs far apart place the survey."
            )
        if now is None:
            return tr("Trying these pairs...")
        if isinstance(now, str):
            return now
        larger = tr("Dotted: 95 % ellipses, {times} times.").format(times=now.times)
        look = tr("Look which way round it lies, or pick a third mark as a check.") if now.asks else ""
        return " ".join(filter(None, (now.words, look, larger)))

    def take(self) -> None:
        """Write the pairs of the trial that is chosen, and that it was looked at where that is needed."""
        now, job = self._preview(), self._job
        if job is None or not isinstance(now, Preview):
            return
        when = datetime.now(timezone.utc).isoformat(timespec="seconds")
        try:
            write_pairs(self.trials.pairs[self._chosen()], self._control)
            if now.asks:
                add_answer(job.folder, Answer(CONFIRMS, "survey", "confirmed", answerer(), when))
        except GroundTallyError as error:
            self._iface.messageBar().pushWarning("Ground Tally", explain(error))
            return
        self._start_anew()
        self.leave()
        self.accepted.emit()

    def close_down(self) -> None:
        """Let go of the map and of a trial."""
        self.leave()
        self.trials.close_down()
        self._canvas.destinationCrsChanged.disconnect(self._show)
