# SPDX-License-Identifier: GPL-2.0-or-later
"""Menu and toolbar entries that open the algorithms by id, and show what the main job has made."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.core import Qgis, QgsApplication, QgsProject
from qgis.PyQt.QtCore import QUrl
from qgis.PyQt.QtGui import QDesktopServices, QIcon

from ..bridge.compat import QAction
from ..bridge.project import fill_project
from ..bridge.resources import guide_url, icon_path
from ..bridge.text import explain, tr
from ..core.errors import GroundTallyError

if TYPE_CHECKING:
    from qgis.PyQt.QtWidgets import QDialog, QToolBar

PROVIDER = "groundtally"
MAIN_JOB = "survey_walks"
ALGORITHMS = (
    MAIN_JOB,
    "read_walks",
    "adjust_walks",
    "place_survey",
    "plan_walk",
    "measure_areas",
    "measure_lengths",
    "fit_arcs",
    "build_surface",
    "cut_sections",
    "measure_volumes",
    "measure_gradients",
    "find_low_points",
    "measure_faces",
    "measure_walls",
    "measure_slabs",
    "measure_strips",
    "measure_trenches",
    "protect_trees",
    "count_planting",
    "check_limits",
    "compare_surveys",
)
"""In the order of the menu: the main job first, what any layer takes last."""
ON_TOOLBAR = (
    MAIN_JOB,
    "plan_walk",
    "measure_areas",
    "measure_lengths",
    "build_surface",
    "cut_sections",
    "measure_volumes",
)
"""What is wanted daily: a row of all would hide itself behind an arrow on a small screen."""
MENU = "&Ground Tally"


class Actions:
    """The entries in one window; `remove` takes back every one."""

    def __init__(self, iface: Any, dock: QAction | None = None) -> None:
        """In a window; the action that shows and hides the dock leads the toolbar."""
        self._iface, self._dock = iface, dock
        self._actions: list[QAction] = []
        self._toolbar: QToolBar | None = None
        # The host's dialogs are half Python: one that nothing holds keeps its window and loses what its buttons do.
        self._dialogs: list[QDialog] = []

    def add(self) -> None:
        self._toolbar = self._iface.addToolBar("Ground Tally")
        self._toolbar.setObjectName("GroundTallyToolbar")
        if self._dock is not None:
            self._toolbar.addAction(self._dock)
        for name in ALGORITHMS:
            self._add_action(name)
        self._add_guide()

    def remove(self) -> None:
        for action in self._actions:
            self._iface.removePluginMenu(MENU, action)
            if self._toolbar is not None:
                self._toolbar.removeAction(action)
            action.deleteLater()
        self._actions.clear()
        for dialog in tuple(self._dialogs):
            dialog.close()
        if self._toolbar is not None:
            self._toolbar.setParent(None)
            self._toolbar.deleteLater()
            self._toolbar = None

    def open_dialog(self, name: str) -> QDialog | None:
        """Open an algorithm's own dialog; of the main job, load the result when it is there."""
        import processing  # the host's, and only there once a window runs

        dialog = processing.createAlgorithmDialog(f"{PROVIDER}:{name}", {})
        if dialog is None:
            return None
        if name == MAIN_JOB:
            dialog.algorithmFinished.connect(self.show_result)
        self._dialogs.append(dialog)
        # Not `finished`: the host's dialog has a method of that name.
        dialog.rejected.connect(lambda dialog=dialog: self._forget(dialog))
        dialog.show()
        return dialog

    def _forget(self, dialog: QDialog) -> None:
        if dialog in self._dialogs:
            self._dialogs.remove(dialog)

    def show_result(self, was_successful: bool, results: dict[str, object]) -> None:
        """Put a finished survey into the open project, in the project's groups."""
        path = results.get("OUTPUT")
        if not was_successful or not path:
            return
        project = QgsProject.instance()
        is_new = not project.mapLayers()
        try:
            layers = fill_project(project, Path(str(path)))
        except GroundTallyError as error:
            self._iface.messageBar().pushMessage("Ground Tally", explain(error), Qgis.MessageLevel.Warning)
            return
        if is_new and layers:
            show_extent(self._iface.mapCanvas(), project.viewSettings().defaultViewExtent())

    def _add_action(self, name: str) -> None:
        action = QAction(QIcon(icon_path(name)), _label(name), self._iface.mainWindow())
        action.setObjectName(f"GroundTally_{name}")
        action.triggered.connect(lambda _checked=False, name=name: self.open_dialog(name))
        self._iface.addPluginToMenu(MENU, action)
        if self._toolbar is not None and name in ON_TOOLBAR:
            self._toolbar.addAction(action)
        self._actions.append(action)

    def _add_guide(self) -> None:
        """The guide to the toolbox, in the menu alone: it lies with the plugin, so it opens without a network."""
        action = QAction(QIcon(icon_path("ground_tally")), tr("Guide"), self._iface.mainWindow())
        action.setObjectName("GroundTally_guide")
        action.triggered.connect(lambda _checked=False: QDesktopServices.openUrl(QUrl(guide_url("README"))))
        self._iface.addPluginToMenu(MENU, action)
        self._actions.append(action)


def show_extent(canvas: Any, extent: Any) -> None:
    """Show an extent; one without a CRS, of a survey that is not placed, as its numbers are."""
    if extent.crs().isValid():
        canvas.setReferencedExtent(extent)
    else:
        canvas.setExtent(extent)
    canvas.refresh()


def _label(name: str) -> str:
    """The algorithm's own label with an ellipsis: a dialog follows."""
    algorithm = QgsApplication.processingRegistry().algorithmById(f"{PROVIDER}:{name}")
    return tr("{label}...").format(label=algorithm.displayName() if algorithm else name)
