# SPDX-License-Identifier: GPL-2.0-or-later
"""Two hundred things that a user might do, drawn by chance from a seed, with real events: nothing is raised, the window
stays alive and the project is whole. And what a user does not see: nothing is left when the plugin goes."""

from __future__ import annotations

import gc
import random
import shutil
import sys
from pathlib import Path
from traceback import format_exception

import pytest
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsProject,
    QgsRasterLayer,
    QgsRectangle,
    QgsVectorLayer,
)
from qgis.gui import QgsMapCanvas
from qgis.PyQt.QtCore import QPoint, Qt, QTimer
from qgis.PyQt.QtTest import QTest
from qgis.PyQt.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDoubleSpinBox,
    QFileDialog,
    QLineEdit,
    QMainWindow,
    QMenu,
    QTableView,
    QTreeWidget,
)

from plugin.plugin import GroundTallyPlugin

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
ACTIONS = 200
LEFT = Qt.MouseButton.LeftButton
KEYS = (
    Qt.Key.Key_Tab,
    Qt.Key.Key_Return,
    Qt.Key.Key_Escape,
    Qt.Key.Key_Down,
    Qt.Key.Key_Up,
    Qt.Key.Key_Space,
    Qt.Key.Key_Backspace,
)
CODES = ("EPSG:25831", "EPSG:3857", "EPSG:4326", "EPSG:2154")


class Window:
    """The host's window with a real map; what is asked of it beside is done and forgotten."""

    def __init__(self, qtbot):
        self.window = QMainWindow()
        qtbot.addWidget(self.window)
        self.canvas = QgsMapCanvas(self.window)
        self.window.setCentralWidget(self.canvas)
        self.menus: list = []
        self.options: list = []
        self.toolbars: list = []
        self.warnings: list = []

    def mainWindow(self):
        return self.window

    def mapCanvas(self):
        return self.canvas

    def addToolBar(self, title):
        self.toolbars.append(self.window.addToolBar(title))
        return self.toolbars[-1]

    def addDockWidget(self, area, dock):
        self.window.addDockWidget(area, dock)

    def removeDockWidget(self, dock):
        self.window.removeDockWidget(dock)

    def addPluginToMenu(self, _, action):
        self.menus.append(action)

    def removePluginMenu(self, _, action):
        self.menus.remove(action)

    def registerOptionsWidgetFactory(self, factory):
        self.options.append(factory)

    def unregisterOptionsWidgetFactory(self, factory):
        self.options.remove(factory)

    def showAttributeTable(self, layer):
        pass

    def activeLayer(self):
        return None

    def setActiveLayer(self, layer):
        return True

    def messageBar(self):
        return self

    def pushWarning(self, *words):
        self.warnings.append(words)

    def pushMessage(self, *words):
        self.warnings.append(words)


@pytest.fixture
def window(qtbot, qgis_app, qgis_processing):
    QgsProject.instance().clear()
    window = Window(qtbot)
    window.window.resize(1366, 768)
    window.window.show()
    qtbot.waitExposed(window.window)
    yield window
    QgsProject.instance().clear()


@pytest.fixture
def plugin(window):
    plugin = GroundTallyPlugin(window)
    plugin.initGui()
    plugin._dock.show()
    yield plugin
    plugin.unload()


@pytest.fixture
def dialogs(qgis_app, monkeypatch):
    """Every dialog that opens is closed again, as by somebody who thinks better of it."""
    for name in ("getOpenFileName", "getOpenFileNames", "getSaveFileName"):
        monkeypatch.setattr(QFileDialog, name, lambda *_, **__: ("", ""))
    timer = QTimer()
    timer.timeout.connect(lambda: [w.close() for w in [QApplication.activeModalWidget()] if w is not None])
    timer.start(20)
    yield
    timer.stop()


@pytest.fixture
def raised(monkeypatch):
    """What slots raise: Qt hands it to the hook and goes on."""
    found: list = []
    monkeypatch.setattr(sys, "excepthook", lambda *told: found.append("".join(format_exception(*told))))
    return found


class Monkey:
    """Draws actions and does them."""

    def __init__(self, seed, window, dock, folder):
        self.draw = random.Random(seed)  # noqa: S311 - play
        self.window, self.dock, self.folder = window, dock, folder
        self.done: list[str] = []
        self.pages: set[str] = set()

    def act(self) -> None:
        kinds = (
            (self.press, 8),
            (self.choose, 5),
            (self.click_map, 6),
            (self.key, 5),
            (self.write, 2),
            (self.turn_number, 2),
            (self.pick_row, 6),
            (self.tick, 2),
            (self.turn_page, 5),
            (self.change_project, 2),
            (self.start_job, 1),
        )
        what = self.draw.choices([one for one, _ in kinds], [weight for _, weight in kinds])[0]
        self.done.append(what.__name__)
        what()
        self.pages.add(type(self.dock.pages.currentWidget()).__name__)
        QTest.qWait(5)
        menu = QApplication.activePopupWidget()
        if isinstance(menu, QMenu):
            QTest.keyClick(menu, self.draw.choice((Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Down)))

    def _any(self, kind):
        here = [w for w in self.dock.findChildren(kind) if w.isVisible() and w.isEnabled()]
        return self.draw.choice(here) if here else None

    def press(self) -> None:
        button = self._any(QAbstractButton)
        if button is None or len(button.text()) < 4 or getattr(button, "menu", lambda: None)():
            return
        self.done[-1] += f" {button.text()}"
        QTest.mouseClick(button, LEFT)

    def choose(self) -> None:
        box = self._any(QComboBox)
        if box is not None and box.count():
            box.setFocus()
            QTest.keyClick(box, self.draw.choice((Qt.Key.Key_Down, Qt.Key.Key_Up, Qt.Key.Key_End)))

    def click_map(self) -> None:
        view = self.window.canvas.viewport()
        at = QPoint(self.draw.randrange(view.width()), self.draw.randrange(view.height()))
        QTest.mouseMove(view, at)
        QTest.mouseClick(view, self.draw.choice((LEFT, LEFT, LEFT, Qt.MouseButton.RightButton)), pos=at)

    def key(self) -> None:
        who = self.draw.choice(
            (self.window.canvas, self.dock.pages.currentWidget(), QApplication.focusWidget())
        )
        if who is not None:
            QTest.keyClick(who, self.draw.choice(KEYS))

    def write(self) -> None:
        line = self._any(QLineEdit)
        if line is not None and not line.isReadOnly():
            QTest.keyClicks(line, self.draw.choice(("W1", "-7", "x", "0,5", "nowhere/else")))

    def turn_number(self) -> None:
        box = self._any(QDoubleSpinBox)
        if box is not None:
            QTest.keyClick(box, self.draw.choice((Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp)))

    def pick_row(self) -> None:
        view = self._any(QTableView)
        if view is None or view.model() is None or not view.model().rowCount():
            return
        index = view.model().index(self.draw.randrange(view.model().rowCount()), 0)
        at = view.visualRect(index).center()
        QTest.mouseClick(view.viewport(), LEFT, pos=at)
        if self.draw.random() < 0.5:
            QTest.mouseDClick(view.viewport(), LEFT, pos=at)

    def tick(self) -> None:
        tree = self._any(QTreeWidget)
        if tree is not None and tree.topLevelItemCount():
            tree.setCurrentItem(tree.topLevelItem(self.draw.randrange(tree.topLevelItemCount())))
            QTest.keyClick(tree, Qt.Key.Key_Space)

    def turn_page(self) -> None:
        """Back to the list, or a row of it opened."""
        table = self.dock.rows.table
        if not table.isVisible():
            QTest.mouseClick(self.dock.back, LEFT)
        elif table.rowCount():
            at = table.visualItemRect(table.item(self.draw.randrange(table.rowCount()), 1)).center()
            QTest.mouseClick(table.viewport(), LEFT, pos=at)
            QTest.mouseDClick(table.viewport(), LEFT, pos=at)

    def change_project(self) -> None:
        project = QgsProject.instance()
        layers = list(project.mapLayers().values())
        what = self.draw.randrange(4)
        if what == 0 and layers:
            project.removeMapLayer(self.draw.choice(layers).id())
        elif what == 1 and layers:
            self.draw.choice(layers).setName(self.draw.choice(("renamed", "", "Areas")))
        elif what == 2:
            crs = QgsCoordinateReferenceSystem(self.draw.choice(CODES))
            project.setCrs(crs)
            self.window.canvas.setDestinationCrs(crs)
        else:
            project.addMapLayer(QgsRasterLayer(str(DEMO / "orthophoto.tif"), "Picture"))
            self.window.canvas.setExtent(QgsRectangle(512325.0, 5712840.0, 512385.0, 5712890.0))

    def start_job(self) -> None:
        """A folder dropped, and surveyed."""
        self.dock.new_job.folder.setFilePath(str(self.folder))
        self.dock.pages.setCurrentWidget(self.dock.new_job)


@pytest.mark.usefixtures("dialogs")
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_two_hundred_random_actions_raise_nothing(seed, window, plugin, raised, qtbot, tmp_path):
    folder = tmp_path / "yard"
    shutil.copytree(DEMO, folder)
    dock = plugin._dock
    monkey = Monkey(seed, window, dock, folder)
    monkey.start_job()
    qtbot.waitUntil(dock.new_job.run.isEnabled, timeout=10_000)
    with qtbot.waitSignal(dock.runner.ended, timeout=60_000):
        QTest.mouseClick(dock.new_job.run, LEFT)
    for _ in range(ACTIONS):
        monkey.act()
        assert raised == [], monkey.done[-5:]
    qtbot.waitUntil(lambda: not dock.runner.is_busy and not dock.pairs.trials.is_busy, timeout=60_000)
    assert len(set(monkey.done)) > 15, set(monkey.done)
    assert len(monkey.pages) >= 5, monkey.pages
    path = tmp_path / "project.qgz"
    assert QgsProject.instance().write(str(path))
    assert QgsProject.instance().read(str(path))
    assert raised == []
    for layer in QgsProject.instance().mapLayers().values():
        assert layer.isValid(), layer.source()


def test_load_unload_reload_leaves_nothing_behind(window, raised, qtbot):
    def state():
        QApplication.processEvents()
        gc.collect()
        return (
            len(window.canvas.scene().items()),
            len(window.menus),
            len(window.options),
            len(window.window.findChildren(QMainWindow)),
            [bar for bar in window.toolbars if bar.parent() is not None],
            QgsApplication.processingRegistry().providerById("groundtally"),
            window.canvas.mapTool(),
        )

    before = state()
    for _ in range(2):
        plugin = GroundTallyPlugin(window)
        plugin.initGui()
        plugin._dock.show()
        plugin._dock._show(plugin._dock.pairs)
        plugin._dock._show(plugin._dock.plan)
        plugin._dock._show(plugin._dock.checks)
        assert QgsApplication.processingRegistry().providerById("groundtally") is not None
        plugin.unload()
        qtbot.wait(50)
        assert [w for w in window.window.children() if w.objectName().startswith("GroundTally")] == []
        window.toolbars.clear()
        assert state() == before
    assert raised == []
    assert not any(isinstance(layer, QgsVectorLayer) for layer in QgsProject.instance().mapLayers().values())
