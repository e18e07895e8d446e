# SPDX-License-Identifier: GPL-2.0-or-later
"""A job from a folder: what lies in it, what is to be said where the files do not, and the run."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from qgis.core import QgsCoordinateReferenceSystem
from qgis.gui import QgsFileWidget, QgsProjectionSelectionWidget
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtGui import QDragEnterEvent, QDropEvent
from qgis.PyQt.QtWidgets import QFormLayout, QLabel, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from ...bridge.desk import DeskJob
from ...bridge.inventory import take_inventory
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError


class NewJobPage(QWidget):
    """Signals: `wanted` with a job and the parameters of its run."""

    wanted = pyqtSignal(object, dict)

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptDrops(True)
        self.folder = QgsFileWidget()
        self.folder.setStorageMode(QgsFileWidget.StorageMode.GetDirectory)
        self.folder.setDialogTitle(tr("Folder of the logs"))
        self.folder.fileChanged.connect(self._look)
        self.survey = QgsFileWidget()
        self.survey.setStorageMode(QgsFileWidget.StorageMode.SaveFile)
        self.survey.setFilter(tr("GeoPackage") + " (*.gpkg)")
        self.crs = QgsProjectionSelectionWidget()
        self.crs.setOptionVisible(QgsProjectionSelectionWidget.CrsOption.CrsNotSet, visible=True)
        self.crs.setNotSetText(tr("the control's"))
        self.crs.setCrs(QgsCoordinateReferenceSystem())
        self.found = QPlainTextEdit()
        self.found.setReadOnly(True)
        self.found.setPlaceholderText(tr("Choose a folder, or drop one here."))
        self.run = QPushButton(tr("Survey it"))
        self.run.clicked.connect(self._want)
        form = QFormLayout()
        form.addRow(tr("Logs"), self.folder)
        form.addRow(tr("Survey"), self.survey)
        form.addRow(tr("CRS"), self.crs)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(QLabel(tr("The folder that the logs, the control and the picture lie in:")))
        rows.addLayout(form)
        rows.addWidget(self.found, 1)
        rows.addWidget(self.run)
        self._look("")

    def _look(self, text: str) -> None:
        folder = Path(text) if text else None
        usable = False
        words = ""
        if folder is not None and folder.is_dir():
            if not self.survey.filePath():
                self.survey.setFilePath(str(folder / "survey" / f"{folder.name}.gpkg"))
            try:
                inventory = take_inventory(folder)
                words, usable = inventory.words, inventory.has_logs
            except GroundTallyError as error:
                words = explain(error)
        elif folder is not None:
            words = tr("There is no such folder.")
        self.found.setPlainText(words)
        self.run.setEnabled(usable)

    def show_job(self, job: DeskJob) -> None:
        """Fill in what is known of a job."""
        self.survey.setFilePath(str(job.survey))
        self.folder.setFilePath(str(job.folder))

    def _want(self) -> None:
        job = DeskJob(Path(self.folder.filePath()), Path(self.survey.filePath()))
        job.survey.parent.mkdir(parents=True, exist_ok=True)
        parameters: dict[str, Any] = {"LOGS": [str(job.folder)], "OUTPUT": str(job.survey)}
        if self.crs.crs().isValid():
            parameters["CRS"] = self.crs.crs()
        self.wanted.emit(job, parameters)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if any(Path(url.toLocalFile()).exists() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """A folder, or a file of it, that is dropped."""
        for url in event.mimeData().urls():
            path = Path(url.toLocalFile())
            if path.exists():
                self.folder.setFilePath(str(path if path.is_dir() else path.parent))
                event.acceptProposedAction()
                return
