# SPDX-License-Identifier: GPL-2.0-or-later
"""Loading and unloading: what the plugin takes it gives back, and a finished job appears in the project."""

from __future__ import annotations

from pathlib import Path

import pytest
from qgis.core import QgsApplication, QgsProject
from qgis.gui import QgsMapCanvas
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtWidgets import QDialog, QMainWindow, QToolBar, QWidget

import plugin as package
from plugin.bridge.geopackage import write_survey
from plugin.gui.actions import ALGORITHMS, MENU, ON_TOOLBAR
from plugin.plugin import GroundTallyPlugin
from tests.made_survey import made_survey


class Canvas(QgsMapCanvas):
    """A map that remembers what it was asked to show."""

    def __init__(self, parent):
        super().__init__(parent)
        self.extents: list = []

    def setReferencedExtent(self, extent):
        self.extents.append(extent)
        super().setReferencedExtent(extent)


class Window:
    """The part of the host's interface that the plugin uses, with real widgets."""

    def __init__(self):
        self.window = QMainWindow()
        self.canvas = Canvas(self.window)
        self.menus: dict[str, list] = {}
        self.messages: list[tuple] = []
        self.options: list = []
        self.tables: list = []

    def mainWindow(self):
        return self.window

    def addToolBar(self, title):
        return self.window.addToolBar(title)

    def addPluginToMenu(self, menu, action):
        self.menus.setdefault(menu, []).append(action)

    def removePluginMenu(self, menu, action):
        self.menus[menu].remove(action)

    def registerOptionsWidgetFactory(self, factory):
        self.options.append(factory)

    def unregisterOptionsWidgetFactory(self, factory):
        self.options.remove(factory)

    def addDockWidget(self, area, dock):
        self.window.addDockWidget(area, dock)

    def removeDockWidget(self, dock):
        self.window.removeDockWidget(dock)

    def showAttributeTable(self, layer):
        self.tables.append(layer.name())

    def messageBar(self):
        return self

    def pushMessage(self, *words):
        self.messages.append(words)

    def mapCanvas(self):
        return self.canvas


@pytest.fixture
def window(qgis_app, qtbot):
    made = Window()
    qtbot.addWidget(made.window)
    return made


@pytest.fixture
def loaded(window):
    plugin = GroundTallyPlugin(window)
    plugin.initGui()
    yield plugin
    plugin.unload()


@pytest.fixture
def project(qgis_app):
    """The host's own project, empty before and after."""
    QgsProject.instance().clear()
    yield QgsProject.instance()
    QgsProject.instance().clear()


def has_provider() -> bool:
    return QgsApplication.processingRegistry().providerById("groundtally") is not None


def test_the_host_gets_the_plugin_from_the_factory(window):
    assert isinstance(package.classFactory(window), GroundTallyPlugin)


def test_loading_adds_provider_toolbar_and_menu(loaded, window):
    assert has_provider()
    texts = [action.text() for action in window.menus[MENU]]
    labels = [
        "Survey walks",
        "Read walks",
        "Adjust walks",
        "Place survey",
        "Plan walk",
        "Measure areas",
        "Measure lengths",
        "Fit arcs",
        "Build surface",
        "Cut sections",
        "Measure volumes",
        "Measure gradients",
        "Find low points",
        "Measure faces",
        "Measure walls",
        "Measure slabs",
        "Measure strips",
        "Measure trenches and swales",
        "Protect trees",
        "Count planting",
        "Check limits",
        "Compare surveys",
    ]
    assert texts == ["Ground Tally", *(f"{label}..." for label in labels), "Guide"]
    bar = window.window.findChild(QToolBar, "GroundTallyToolbar")
    on_bar = [action.objectName().replace("GroundTally_", "") for action in bar.actions()[1:]]
    assert bar.actions()[0] is window.menus[MENU][0]
    assert tuple(on_bar) == ON_TOOLBAR
    assert not any(action.icon().isNull() for action in window.menus[MENU])


def test_loading_and_unloading_twice_leaves_nothing(window, qtbot):
    for _ in range(2):
        plugin = GroundTallyPlugin(window)
        plugin.initGui()
        plugin.unload()
        qtbot.wait(20)  # deleteLater needs the event loop
        assert not has_provider()
        assert window.menus[MENU] == []
        assert window.options == []
        assert window.window.findChildren(QToolBar) == []
        assert [a for a in window.window.actions() if a.objectName().startswith("GroundTally")] == []
        assert [c for c in window.window.children() if c.objectName().startswith("GroundTally")] == []


def test_unloading_what_was_never_loaded_does_no_harm(window):
    plugin = GroundTallyPlugin(window)
    plugin.unload()
    assert not has_provider()


def test_the_command_line_gets_the_provider_alone(window):
    plugin = GroundTallyPlugin(None)
    plugin.initProcessing()
    assert has_provider()
    plugin.unload()
    assert not has_provider()


@pytest.mark.parametrize("name", ALGORITHMS)
def test_an_entry_opens_the_algorithms_own_dialog(name, loaded, window, qtbot, monkeypatch):
    import processing

    opened = []

    class Dialog(QDialog):
        def __init__(self):
            super().__init__()
            self.algorithmFinished = Signal()

    class Signal:
        def connect(self, slot):
            opened.append(slot)

    def create(algorithm, _parameters):
        opened.append(algorithm)
        dialog = Dialog()
        qtbot.addWidget(dialog)
        return dialog

    monkeypatch.setattr(processing, "createAlgorithmDialog", create, raising=False)
    action = next(a for a in window.menus[MENU] if a.objectName() == f"GroundTally_{name}")
    action.trigger()
    assert opened[0] == f"groundtally:{name}"
    assert len(opened) == (2 if name == "survey_walks" else 1)


def test_the_guide_opens_from_the_menu_as_a_page_on_this_machine(loaded, window, monkeypatch):
    opened = []
    monkeypatch.setattr("plugin.gui.actions.QDesktopServices.openUrl", opened.append)
    window.menus[MENU][-1].trigger()
    (url,) = opened
    assert url.isLocalFile()
    page = Path(url.toLocalFile())
    assert page.name == "README.md"
    assert page.read_text(encoding="utf-8").startswith("# ")


def test_a_finished_job_appears_in_the_projects_groups(loaded, window, project, tmp_path):
    path = write_survey(made_survey(), tmp_path / "site.gpkg")
    loaded._actions.show_result(True, {"OUTPUT": str(path)})
    root = project.layerTreeRoot()
    names = [layer.name() for layer in root.findGroup("Survey").findLayers()]
    assert names[:2] == ["Findings on the map", "Marks"]
    assert len(project.mapLayers()) == 12
    assert project.crs().authid() == "EPSG:25831"
    assert len(window.canvas.extents) == 1


def test_a_failed_job_changes_nothing(loaded, project):
    loaded._actions.show_result(False, {"OUTPUT": str(Path("none.gpkg"))})
    assert project.mapLayers() == {}


def test_a_result_that_has_gone_is_told_in_the_message_bar(loaded, window, project, tmp_path):
    loaded._actions.show_result(True, {"OUTPUT": str(tmp_path / "gone.gpkg")})
    assert window.messages[0][1].endswith("Give a GeoPackage that Survey walks has written.")


def test_a_dialog_is_held_while_it_is_open_and_let_go_when_it_closes(loaded, window, monkeypatch, qtbot):
    """Its buttons are Python: unheld, the window stayed and its Run did nothing."""
    import gc
    import sys
    import types

    class Dialog(QDialog):
        algorithmFinished = pyqtSignal(bool, dict)  # noqa: N815 - the host's name

        def finished(self):
            """The host's dialog has a method of this name in place of the signal."""

    host = types.SimpleNamespace(createAlgorithmDialog=lambda name, values: Dialog(window.window))
    monkeypatch.setitem(sys.modules, "processing", host)
    window.menus[MENU][1].trigger()
    gc.collect()
    (dialog,) = window.window.findChildren(QDialog)
    assert type(dialog) is Dialog
    assert loaded._actions._dialogs == [dialog]
    dialog.reject()
    assert loaded._actions._dialogs == []
