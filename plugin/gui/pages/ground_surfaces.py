# SPDX-License-Identifier: GPL-2.0-or-later
"""The surfaces of the project and how well each is known, and one more from the survey."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsApplication, QgsProject
from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QListWidgetItem,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from ...bridge.ground_run import surface_names
from ...bridge.survey_file import shown_unit
from ...bridge.text import tr
from ..runner import PROVIDER
from .length_box import LengthBox
from .plan_inputs import narrow
from .plan_results import SentenceList
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.PyQt.QtWidgets import QDialog

    from ...bridge.ground_list import FoundSurface
    from ...bridge.jobs import DeskJob

LAYER = Qt.ItemDataRole.UserRole
INTERVAL_M, LEAST_M, MOST_M = 0.25, 0.01, 100.0
INTERVAL_DIGITS = 2
MORE = ("find_low_points", "measure_gradients", "cut_sections", "check_limits", "compare_surveys")
"""What else can be done with a surface, each offered where the toolbox has it."""


class SurfacesTab(QWidget):
    """Signals: `build_wanted` with the surface's name and the interval of its contours, in metres."""

    build_wanted = pyqtSignal(str, float)

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._canvas = iface.mapCanvas()
        # The host's dialogs are half Python: one that nothing holds keeps its window and loses what its buttons do.
        self.dialogs: list[QDialog] = []
        self.list = SentenceList()
        self.list.setAccessibleName(tr("Surfaces of the project"))
        self.list.itemActivated.connect(self._show_on_map)
        self.name = QComboBox()
        self.name.setEditable(True)
        narrow(self.name)
        self.interval = LengthBox(LEAST_M, MOST_M, INTERVAL_M, INTERVAL_DIGITS)
        self.build = QPushButton(tr("B&uild from the survey"))
        self.build.clicked.connect(self._ask)
        self.more = QPushButton(tr("&More"))
        self.more.setMenu(QMenu(self.more))
        self.more.menu().aboutToShow.connect(self._offer)
        self.words = WordsLabel()
        self._can_build = self._is_busy = False
        self._lay_out()
        self.show_surfaces([], is_read=False)
        self.show_job(None)

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.addRow(tr("&Surface"), self.name)
        form.addRow(tr("&Contours every"), self.interval)
        buttons = QHBoxLayout()
        buttons.addWidget(self.build, 1)
        buttons.addWidget(self.more)
        rows = QVBoxLayout(self)
        rows.addWidget(self.list, 1)
        rows.addLayout(form)
        rows.addWidget(self.words)
        rows.addLayout(buttons)

    def show_job(self, job: DeskJob | None) -> None:
        """What can be built from a job's survey."""
        self._can_build = job is not None and job.is_surveyed
        now = self.name.currentText()
        self.name.clear()
        if job is not None and job.is_surveyed:
            self.name.addItems(surface_names(job.survey))
        if now and self.name.findText(now) >= 0:
            self.name.setCurrentText(now)
        self.tell("" if self._can_build else tr("Nothing surveyed yet: run the job."))
        self._enable()

    def showEvent(self, event: Any) -> None:
        super().showEvent(event)
        self.interval.show_unit(shown_unit(QgsProject.instance()))

    def tell(self, words: str) -> None:
        """What is to be known of a surface that was to be built; no room is kept where there is nothing to say."""
        self.words.show_words(words)
        self.words.setVisible(bool(words))

    def show_busy(self, *, is_on: bool) -> None:
        """Nothing can be built while something runs."""
        self._is_busy = is_on
        self._enable()

    def _enable(self) -> None:
        for widget in (self.name, self.interval):
            widget.setEnabled(self._can_build)
        self.build.setEnabled(self._can_build and not self._is_busy)

    def show_surfaces(self, found: Sequence[FoundSurface], *, is_read: bool = True) -> None:
        """List these surfaces."""
        at = self.list.currentRow()
        self.list.clear()
        unit = shown_unit(QgsProject.instance())
        self.interval.show_unit(unit)
        for one in found:
            item = QListWidgetItem(f"{one.name}\n{one.figures(unit)}")
            item.setData(LAYER, one.layer)
            item.setToolTip(tr("Double click, or Enter, shows it on the map."))
            self.list.addItem(item)
        if not found:
            words = (
                tr(
                    "No surface yet: build one from the survey, or add a layer of triangles or a mesh to the project."
                )
                if is_read
                else tr("Reading the surfaces of the project")
            )
            item = QListWidgetItem(words)
            item.setFlags(Qt.ItemFlag.NoItemFlags)
            self.list.addItem(item)
        self.list.setCurrentRow(min(at, self.list.count() - 1))

    def _ask(self) -> None:
        name = self.name.currentText().strip()
        if name:
            self.build_wanted.emit(name, self.interval.metres())
        else:
            self.tell(tr("Give the surface a name, such as ground."))
            self.name.setFocus()

    def _show_on_map(self, item: QListWidgetItem) -> None:
        layer = QgsProject.instance().mapLayer(item.data(LAYER) or "")
        if layer is None:
            return
        extent = self._canvas.mapSettings().layerExtentToOutputExtent(layer, layer.extent())
        if not extent.isEmpty():
            self._canvas.setExtent(extent)
            self._canvas.refresh()

    def _offer(self) -> None:
        menu, registry = self.more.menu(), QgsApplication.processingRegistry()
        menu.clear()
        for name in MORE:
            algorithm = registry.algorithmById(f"{PROVIDER}:{name}")
            if algorithm is not None:
                action = menu.addAction(
                    algorithm.icon(), tr("{label}...").format(label=algorithm.displayName())
                )
                action.triggered.connect(lambda _checked=False, name=name: self._open(name))

    def _open(self, name: str) -> None:
        """An algorithm's own dialog, with the surface that is chosen where it takes one."""
        import processing  # the host's, and only there once a window runs

        item = self.list.currentItem()
        layer = item.data(LAYER) if item is not None else None
        algorithm = QgsApplication.processingRegistry().algorithmById(f"{PROVIDER}:{name}")
        takes = algorithm is not None and algorithm.parameterDefinition("SURFACE") is not None
        dialog = processing.createAlgorithmDialog(
            f"{PROVIDER}:{name}", {"SURFACE": layer} if layer and takes else {}
        )
        if dialog is not None:
            self.dialogs.append(dialog)
            # Not `finished`: the host's dialog has a method of that name.
            dialog.rejected.connect(lambda dialog=dialog: self._forget(dialog))
            dialog.show()

    def _forget(self, dialog: QDialog) -> None:
        if dialog in self.dialogs:
            self.dialogs.remove(dialog)

    def close_down(self) -> None:
        """Close what it opened."""
        for dialog in tuple(self.dialogs):
            dialog.close()
