# SPDX-License-Identifier: GPL-2.0-or-later
"""A job from a folder: what lies in it, what is to be said where the files do not, and the run."""

from __future__ import annotations

import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateReferenceSystem
from qgis.gui import QgsFileWidget, QgsProjectionSelectionWidget
from qgis.PyQt.QtCore import QEvent, QTimer, pyqtSignal
from qgis.PyQt.QtGui import QDragEnterEvent, QDropEvent, QShowEvent
from qgis.PyQt.QtWidgets import (
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from ...bridge import choices
from ...bridge.inventory import FoundFile, Inventory, inventory_steps, signature
from ...bridge.jobs import DeskJob
from ...bridge.lists import Guess, guess_columns, read_sample
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ...core.read.stated import AS_WRITTEN
from .columns import ColumnsPage
from .job_files import FileDetails, FileTable, crs_named, crs_text
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from ...bridge.choices import JobChoice
    from ...core.read.stated import Stated

AT_ONCE_S = 0.12
"""Seconds that the window may wait while files are looked at; the rest is done in between its events."""


class NewJobPage(QWidget):
    """Signals: `wanted` with a job and the parameters of its run, texts and lists of texts all."""

    wanted = pyqtSignal(object, dict)

    def __init__(self, iface: Any = None) -> None:
        super().__init__()
        self._iface = iface
        self.setAcceptDrops(True)
        self._choice: JobChoice | None = None
        self._added: list[Path] = []
        self._offered = ""
        self._seen: object = ()
        self._steps: Iterator[Inventory | None] | None = None
        self._settle: Callable[[JobChoice], JobChoice] | None = None
        self._listed: Path | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._go_on)
        self._make_widgets()
        self._lay_out()
        self._look()

    def _make_widgets(self) -> None:
        self.folder = QgsFileWidget()
        self.folder.setStorageMode(QgsFileWidget.StorageMode.GetDirectory)
        self.folder.setDialogTitle(tr("Folder of the logs"))
        self.folder.fileChanged.connect(self._change_folder)
        self.survey = QgsFileWidget()
        self.survey.setStorageMode(QgsFileWidget.StorageMode.SaveFile)
        self.survey.setFilter(tr("GeoPackage") + " (*.gpkg)")
        self.survey.fileChanged.connect(self._judge)
        self.crs = QgsProjectionSelectionWidget()
        self.crs.setOptionVisible(QgsProjectionSelectionWidget.CrsOption.CrsNotSet, visible=True)
        self.crs.setNotSetText(tr("the control's"))
        self.crs.setCrs(QgsCoordinateReferenceSystem())
        self.found, self.details, self.columns = FileTable(), FileDetails(), ColumnsPage()
        self.found.ticked.connect(self._tick)
        self.found.opened.connect(self._open)
        self.found.chosen.connect(self._show_details)
        self.details.stated.connect(self._state)
        self.details.columns_wanted.connect(self._open)
        self.columns.accepted.connect(self._take_columns)
        self.columns.left.connect(self._leave_columns)
        self.problem = WordsLabel()
        self.add = QPushButton(tr("A&dd files..."))
        self.add.clicked.connect(lambda: self._ask_files(tr("Files of the job"), many=True))
        self.run = QPushButton(tr("&Survey it"))
        self.run.clicked.connect(self._want)

    def _lay_out(self) -> None:
        self.form = QWidget()
        column = QVBoxLayout(self.form)
        column.setContentsMargins(0, 0, 0, 0)
        self.hint = WordsLabel(tr("Choose the folder of the logs, or drop it here, or single files:"))
        fields = QFormLayout()
        fields.addRow(tr("&Logs"), self.folder)
        fields.addRow(tr("Sur&vey"), self.survey)
        fields.addRow(tr("C&RS"), self.crs)
        buttons = QHBoxLayout()
        buttons.addWidget(self.add)
        buttons.addWidget(self.run, 1)
        column.addWidget(self.hint)
        column.addLayout(fields)
        column.addWidget(self.found, 1)
        column.addWidget(self.details)
        column.addWidget(self.problem)
        column.addLayout(buttons)
        self.pages = QStackedWidget()
        for page in (self.form, self.columns):
            self.pages.addWidget(page)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.pages)

    # --- what lies there ---

    def _change_folder(self, _: str) -> None:
        self._forget()
        self._look()

    def _forget(self) -> None:
        """Another folder is another job: what was said of the last one's files goes."""
        self._choice, self._added, self._settle = None, [], None
        self.crs.setCrs(QgsCoordinateReferenceSystem())

    def _set_folder(self, folder: Path) -> None:
        """Another folder, which is not looked at yet."""
        self.folder.blockSignals(True)  # noqa: FBT003 - Qt's own
        self.folder.setFilePath(str(folder))
        self.folder.blockSignals(False)  # noqa: FBT003
        self._forget()

    def _look(self) -> None:
        """Look at the files, for as long as the window may wait at once."""
        self._timer.stop()
        self._steps = None
        self.pages.setCurrentWidget(self.form)
        text = self.folder.filePath()
        self.hint.setVisible(not text)
        if not text or not Path(text).is_dir():
            self._choice = None
            words = tr("There is no such folder.") if text else tr("Nothing chosen yet.")
            self._show_words(words)
            return
        self._offer_survey(Path(text))
        places = [Path(text), *self._added]
        self._seen = signature(places)
        self._steps = inventory_steps(places, self._choice.stated if self._choice else None)
        self._show_words(tr("Looking at the files..."))
        self._go_on()

    def _offer_survey(self, folder: Path) -> None:
        """A name for the survey, unless somebody chose one."""
        if self.survey.filePath() in ("", self._offered):
            self._offered = str(folder / "survey" / f"{folder.name}.gpkg")
            self.survey.setFilePath(self._offered)

    def _go_on(self) -> None:
        """Some more files; the rest after the window's next events."""
        start, inventory = time.monotonic(), None
        try:
            while self._steps is not None and inventory is None and time.monotonic() - start < AT_ONCE_S:
                inventory = next(self._steps)
        except GroundTallyError as error:
            self._steps = None
            self._show_words(explain(error))
            return
        if inventory is None:
            self._timer.start(0)
            return
        self._steps = None
        self._take(inventory)

    def _take(self, inventory: Inventory) -> None:
        """Show what was found; what was chosen before stays chosen."""
        folder, survey = Path(self.folder.filePath()), Path(self.survey.filePath())
        fresh = choices.start_choice(folder, survey, inventory)
        self._choice = choices.keep_choice(fresh, self._choice)
        settle, self._settle = self._settle, None
        if settle is not None:
            self._choice = settle(self._choice)
        self._show_choice()

    def _show_choice(self) -> None:
        choice = self._choice
        if choice is None:
            return
        control = choice.inventory.control_crs
        self.crs.setNotSetText(
            tr("the control's: {crs}").format(crs=control) if control else tr("the control's")
        )
        self.found.show_choice(choice)
        self._judge()

    def _show_words(self, words: str) -> None:
        self.found.show_words(words)
        self.details.show_file(None, AS_WRITTEN)
        self._judge()

    def _judge(self, *_: object) -> None:
        """Whether the job can be run, and why not."""
        choice = self._choice if self._steps is None else None
        words = "" if choice is None else choice.problem()
        if choice is not None and not words and not self.survey.filePath():
            words = tr("Name the survey that is to be made.")
        self.problem.show_words(words)
        self.problem.setVisible(bool(words))
        self.run.setEnabled(choice is not None and not words)

    def _show_details(self, file: FoundFile | None) -> None:
        said = AS_WRITTEN if file is None or self._choice is None else self._choice.said_of(file.path)
        self.details.show_file(file, said)

    # --- what is said ---

    def _tick(self, path: Path, is_on: bool) -> None:
        if self._choice is not None:
            self._choice = choices.tick(self._choice, path, is_on=is_on)
            QTimer.singleShot(0, self._show_choice)  # the table is still busy with the click

    def _state(self, path: Path, said: Stated) -> None:
        if self._choice is not None:
            self._choice = choices.state(self._choice, path, said)
            self._show_choice()

    def _open(self, subject: object) -> None:
        """A list's columns; for what is not there, files to choose from."""
        if isinstance(subject, str):
            self._ask_files(tr("Choose a file"), many=False)
        elif isinstance(subject, FoundFile) and self._choice is not None:
            said = self._choice.said_of(subject.path)
            if subject.said.has_columns or said.columns is not None:
                self._open_columns(subject, said)

    def _open_columns(self, file: FoundFile, said: Stated) -> None:
        try:
            sample = read_sample(file.path)
        except GroundTallyError as error:
            self.problem.show_words(explain(error))
            self.problem.show()
            return
        crs, units = choices.list_frame(self._choice, file) if self._choice else ("", "")
        guess = guess_columns(sample, crs, units)
        if said.columns is not None and len(said.columns) == sample.width:
            guess = Guess(said.columns, tr("As you chose before."))
        self._listed = file.path
        self.pages.setCurrentWidget(self.columns)
        self.columns.show_list(sample, guess, crs, units)

    def _take_columns(self, words: tuple[str, ...]) -> None:
        path = self._listed
        self._leave_columns()
        if path is not None and self._choice is not None:
            self._choice = choices.state_columns(self._choice, path, words)
            self._show_choice()

    def _leave_columns(self) -> None:
        self._listed = None
        self.pages.setCurrentWidget(self.form)
        self.found.setFocus()

    # --- files from elsewhere ---

    def _ask_files(self, title: str, *, many: bool) -> None:
        start = self.folder.filePath()
        if many:
            names, _ = QFileDialog.getOpenFileNames(self, title, start)
        else:
            name, _ = QFileDialog.getOpenFileName(self, title, start)
            names = [name] if name else []
        if names:
            self.add_files([Path(name) for name in names])

    def add_files(self, paths: Sequence[Path]) -> None:
        """Files more, from wherever; without a folder yet, theirs becomes the job's."""
        if not self.folder.filePath():
            self.take_paths(paths)
            return
        folder = Path(self.folder.filePath())
        self._added += [path for path in paths if path.parent != folder and path not in self._added]
        self._settle = lambda choice: choices.take_added(choice, paths)
        self._look()

    def take_paths(self, paths: Sequence[Path]) -> None:
        """What was dropped: a folder or logs are a job, other files are added to it."""
        here = Path(self.folder.filePath()) if self.folder.filePath() else None
        dropped = choices.sort_dropped(paths, here)
        if dropped.folder != here:
            self._set_folder(dropped.folder)
        self._added += [path for path in dropped.added if path not in self._added]
        self._settle = dropped.settle
        self._look()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if any(Path(url.toLocalFile()).exists() for url in event.mimeData().urls() if url.isLocalFile()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Folders and files that are dropped."""
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        there = [path for path in paths if path.exists()]
        if there:
            event.acceptProposedAction()
            self.take_paths(there)

    # --- the job ---

    def show_job(
        self, job: DeskJob, crs: object = None, parameters: Mapping[str, object] | None = None
    ) -> None:
        """Fill in what is known of a job: the parameters of its last run, else what its survey keeps of them."""
        known = dict(parameters) if parameters is not None else choices.kept_parameters(job.survey)
        self._set_folder(job.folder)
        self._offered = ""
        self.survey.setFilePath(str(job.survey))
        self._added = choices.added_files(job.folder, known)
        self.crs.setCrs(crs_named(str(known.get("CRS") or "")))
        self._settle = lambda choice: self._restored(choice, known)
        self._look()

    def _restored(self, choice: JobChoice, known: Mapping[str, object]) -> JobChoice:
        restored, words = choices.restore_choice(choice, known)
        if words and self._iface is not None:
            self._iface.messageBar().pushWarning("Ground Tally", words)
        return restored

    def _want(self) -> None:
        choice = self._choice
        if choice is None:
            return
        job = DeskJob(choice.folder, Path(self.survey.filePath()))
        try:
            job.survey.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            words = tr("{folder} cannot be made: {reason}. Name the survey elsewhere.")
            self.problem.show_words(words.format(folder=job.survey.parent, reason=error.strerror or error))
            self.problem.show()
            return
        self.wanted.emit(job, choices.job_parameters(choice, job.survey, crs_text(self.crs.crs())))

    # --- changes outside ---

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._look_again()

    def event(self, event: QEvent) -> bool:
        """When the user comes back to the window, files may have come or gone."""
        if event.type() == QEvent.Type.WindowActivate and self.isVisible():
            self._look_again()
        return bool(super().event(event))

    def _look_again(self) -> None:
        text = self.folder.filePath()
        is_free = self._steps is None and self.pages.currentWidget() is self.form
        if text and Path(text).is_dir() and is_free and signature([Path(text), *self._added]) != self._seen:
            self._look()
